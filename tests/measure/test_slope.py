"""Slopes of dovetails: every form that is taken or refused, and angles against the math module."""

from __future__ import annotations

import math
import subprocess
import sys
import time
import tomllib
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from layout.errors import BadMeasure, Where
from layout.measure import Slope, decimal_text, read_slope
from layout.measure.slope import PI, tangent
from tests.drawn import fractions

SOURCE = Path(__file__).parent.parent / "outside" / "reference" / "dovetail_slopes.toml"
FIGURES = tomllib.loads(SOURCE.read_text(encoding="utf-8"), parse_float=Decimal)
SEVEN = Fraction(7)
SLIGHT = Fraction(1, 10**12)


# what is written, run
RATIOS = [
    ("1:7", SEVEN),
    ("1 : 7", SEVEN),
    ("1: 7", SEVEN),
    ("1 in 7", SEVEN),
    ("1 IN 7", SEVEN),
    ("  1   in   7  ", SEVEN),
    ("1\u00a0in\u20097", SEVEN),
    ("1∶7", SEVEN),
    ("2:14", SEVEN),
    ("1.0:7.0", SEVEN),
    ("1:4.8", Fraction(24, 5)),
    ("5/8 in 3", Fraction(24, 5)),  # 3 / (5/8)
    ("5/8:3", Fraction(24, 5)),
    ("5⁄8 : 3", Fraction(24, 5)),
    ("⅝ in 3", Fraction(24, 5)),
    ("1 1/4 in 6", Fraction(24, 5)),
    ("1-1/4:6", Fraction(24, 5)),
    ("1 in 7 1/2", Fraction(15, 2)),
    ("1 in 7½", Fraction(15, 2)),
    ("3 in 14", Fraction(14, 3)),
    (".5:3.5", SEVEN),
    ("1 in 1", Fraction(1)),
    ("1 in 50", Fraction(50)),
]

# what is written, degrees
ANGLES = [
    ("8 deg", "8"),
    ("8deg", "8"),
    ("8 deg.", "8"),
    ("8 degree", "8"),
    ("8 degrees", "8"),
    ("8 Degrees", "8"),
    ("8°", "8"),
    ("8 °", "8"),
    ("8º", "8"),
    ("8˚", "8"),
    ("7.5 deg", "15/2"),
    ("7½°", "15/2"),
    ("7 1/2 degrees", "15/2"),
    ("45°", "45"),
    ("1.15 deg", "23/20"),  # 1 in 50 is 1.1458 degrees
]


@pytest.mark.parametrize(("written", "run"), RATIOS)
def test_ratios_are_read_exactly(written: str, run: Fraction) -> None:
    assert read_slope(written) == Slope(run, rounded=False, degrees_asked=None)


@pytest.mark.parametrize(("written", "degrees"), ANGLES)
def test_angles_become_a_run_once_and_say_so(written: str, degrees: str) -> None:
    slope = read_slope(written)
    asked = Fraction(degrees)
    assert slope.rounded
    assert slope.degrees_asked == slope.degrees == asked
    assert float(slope.run) == pytest.approx(1 / math.tan(math.radians(asked)), rel=1e-13)
    assert (slope.run * 10**12).denominator == 1


def test_half_a_right_angle_is_one_in_one() -> None:
    assert read_slope("45 deg").run == 1


LIKE = "write it like 1 in 7, 1:7, 5/8 in 3 or 8 degrees"
RANGE = "write a slope from 1 in 1 to 1 in 50"

# what is written, what is wrong with it, what would be right
REFUSED = [
    ("7", "'7' alone may be a ratio or an angle", 'write "1 in 7" or "7 degrees"'),
    ("7.5", "may be a ratio or an angle", 'write "1 in 7.5" or "7.5 degrees"'),
    ("1/7", "may be a ratio or an angle", LIKE),
    ("0", "may be a ratio or an angle", LIKE),
    ("123456789012", "may be a ratio or an angle", LIKE),
    (7, "7 alone may be a ratio or an angle", 'write "1 in 7" or "7 degrees"'),
    (Decimal("7.5"), "7.5 alone may be", 'write "1 in 7.5" or "7.5 degrees"'),
    (Decimal("NaN"), "NaN alone may be", LIKE),
    (10**5000, "this number alone may be", LIKE),
    (None, "a slope can't be left empty", LIKE),
    (True, "a slope can't be true", LIKE),
    (7.5, "a slope can't be a binary float", LIKE),
    ([1, 7], "a slope can't be a list", LIKE),
    (b"1:7", "a slope can't be of this kind", LIKE),
    ("", "this slope is empty", LIKE),
    (" \u00a0 ", "this slope is empty", LIKE),
    ("1:7\n", "(U+000A) stands in this slope", "take it out"),
    ("1:\u200b7", "(U+200B) stands in this slope", "take it out"),
    ("1:7" + " " * 60, "is too long for a slope", "at most 60 characters"),
    ("1:" + "7" * 100_000, "is too long for a slope", "at most 60 characters"),
    ("1:1234567890123", "has more than 12 digits", "write fewer digits"),
    ("-1:7", "'-1:7' is below zero", "without the minus sign"),
    ("1:-7", "is below zero", "without the minus sign"),
    ("1 in -7", "is below zero", "without the minus sign"),
    ("−8°", "is below zero", "without the minus sign"),
    ("-7", "is below zero", "without the minus sign"),
    ("0:7", "'0:7' is no slope: it has a zero in it", LIKE),
    ("1:0", "it has a zero in it", LIKE),
    ("0 in 0", "it has a zero in it", LIKE),
    ("1:0.000", "it has a zero in it", LIKE),
    ("0°", "it has a zero in it", LIKE),
    ("1:0.99", "'1:0.99' is steeper than 1 in 1 (45 degrees)", "like 1 in 7"),
    ("7:1", "is steeper than 1 in 1", "how far across comes first"),
    ("45.001°", "is steeper than 45 degrees (1 in 1)", "perpendicular to the base: 44.999 deg"),
    ("82 deg", "is steeper than 45 degrees", "the base: 8 degrees"),
    ("90 deg", "is steeper than 45 degrees", "the perpendicular to the base"),
    ("999999999999°", "is steeper than 45 degrees", "the perpendicular to the base"),
    ("1:50.001", "'1:50.001' is finer than 1 in 50 (1.15 degrees)", RANGE),
    ("1 in 999999999999", "is finer than 1 in 50", RANGE),
    ("1.145 deg", "is finer than 1 in 50", RANGE),  # its tangent times 50 is under 1
    ("0.00000000001°", "is finer than 1 in 50", RANGE),
    ("1/0:7", "has 0 under its fraction bar", "write it like 3/8"),
    ("1:7 8/8", "is one or more", "under one"),
    ("1:4,8", "'1:4,8' has a comma in it", "write 1:4.8"),
    ("7,5°", "has a comma in it", "write 7.5°"),
    ("1,0:4,8", "has a comma in it", LIKE),
    ("14 %", "is in per cent", LIKE),
    ("7° 30'", "has minutes in it", "write it like 7.5 degrees"),
    ("5/8\" in 3\"", "has a unit in it", "leave it out"),
    ("10 mm : 70 mm", "has a unit in it", "leave it out"),
    ("1in7", "can't be read as a slope", LIKE),
    ("1 in 7 in", "can't be read as a slope", LIKE),
    ("1:7:2", "can't be read as a slope", LIKE),
    ("1 in 7 deg", "can't be read as a slope", LIKE),
    ("1:7 deg", "can't be read as a slope", LIKE),
    ("1:", "can't be read as a slope", LIKE),
    (":7", "can't be read as a slope", LIKE),
    ("1 to 7", "can't be read as a slope", LIKE),
    ("one in seven", "can't be read as a slope", LIKE),
    ("8 degs", "can't be read as a slope", LIKE),
    ("8 rad", "can't be read as a slope", LIKE),
    ("deg 8", "can't be read as a slope", LIKE),
    ("1:1e1", "can't be read as a slope", LIKE),
    ("1:2 3", "can't be read as a slope", LIKE),
    ("1:+7", "can't be read as a slope", LIKE),
    ("1:٧", "can't be read as a slope", LIKE),
    ("1::7", "can't be read as a slope", LIKE),
    ("(1:7)", "can't be read as a slope", LIKE),
]


@pytest.mark.parametrize(("written", "what", "cure"), REFUSED, ids=range(len(REFUSED)))
def test_refused(written: object, what: str, cure: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_slope(written)
    error = caught.value
    assert what in error.what
    assert cure in error.cure
    assert error.where == Where()
    assert str(error).isprintable()
    assert len(str(error)) < 200


@pytest.mark.parametrize(
    ("written", "ratio", "degrees"),
    [
        ("1:7", "1 in 7", "8.13"),
        ("1:8", "1 in 8", "7.13"),  # 7.1250163 degrees
        ("5/8 in 3", "1 in 4.8", "11.77"),
        ("3 in 14", "1 in 4.667", "12.09"),
        ("1 in 7.1234567", "1 in 7.123", "7.99"),
        ("8 deg", "1 in 7.115", "8"),
        ("7.5 deg", "1 in 7.596", "7.5"),
        ("1:1", "1 in 1", "45"),
    ],
)
def test_told(written: str, ratio: str, degrees: str) -> None:
    slope = read_slope(written)
    assert (slope.ratio_text, slope.degrees_text) == (ratio, degrees)


def test_a_side_leans_its_share_of_the_depth() -> None:
    # 7/8 in at 1 in 7 is 1/8 in
    offset = read_slope("1:7").offset(Fraction(7, 8) * Fraction(127, 5))
    assert offset == Fraction(1, 8) * Fraction(127, 5)
    assert type(offset) is Fraction


# -- against the math module


def test_pi() -> None:
    assert float(PI) == math.pi
    # Machin's sum, with 30 terms of each row
    def arctangent(under: int) -> Fraction:
        return sum(
            (Fraction((-1) ** n, (2 * n + 1) * under ** (2 * n + 1)) for n in range(30)),
            Fraction(0),
        )

    assert abs(16 * arctangent(5) - 4 * arctangent(239) - PI) < Fraction(1, 10**30)


def test_tangents_of_every_tenth_of_a_degree() -> None:
    for tenths in range(451):
        degrees = Fraction(tenths, 10)
        assert abs(tangent(degrees) - Fraction(math.tan(math.radians(degrees)))) < SLIGHT


def test_a_tangent_that_is_known_by_its_square() -> None:
    # tan 30 = 1/sqrt 3, tan 15 = 2 - sqrt 3, tan 22.5 = sqrt 2 - 1: finer than a float can tell
    fine = Fraction(4, 10**18)
    assert abs(tangent(Fraction(30)) ** 2 * 3 - 1) < fine
    assert abs((2 - tangent(Fraction(15))) ** 2 - 3) < fine
    assert abs((tangent(Fraction(45, 2)) + 1) ** 2 - 2) < fine
    assert tangent(Fraction(0)) == 0
    assert tangent(Fraction(45)) == 1


@pytest.mark.parametrize("degrees", [Fraction(-1), Fraction(451, 10)])
def test_other_tangents_are_a_slip_in_the_program(degrees: Fraction) -> None:
    with pytest.raises(ValueError, match="0 to 45"):
        tangent(degrees)


def test_angles_of_every_tenth_of_a_run() -> None:
    for tenths in range(10, 501):
        run = Fraction(tenths, 10)
        judged = Fraction(math.degrees(math.atan(1 / run)))
        assert abs(Slope(run).degrees - judged) < SLIGHT


# -- against published figures


def rounded_to(printed: Decimal, value: Fraction) -> bool:
    """Whether a figure is the value at the figure's own number of decimals."""
    places = -int(printed.as_tuple().exponent)
    return decimal_text(value, places) == decimal_text(Fraction(printed), places)


def pin_constant(from_perpendicular: Fraction) -> Fraction:
    """1 + cot of half the acute angle between flank and base."""
    return 1 + 1 / tangent((90 - from_perpendicular) / 2)


def test_printed_figures() -> None:
    constant, over, wide = FIGURES["printed"]
    assert all(row["how"].startswith("read") for row in FIGURES["printed"])
    assert rounded_to(constant["pin_constant"], pin_constant(Fraction(constant["degrees"])))
    across = Fraction(over["root"]) + Fraction(over["pin"]) * pin_constant(Fraction(30))
    assert rounded_to(over["over_pins"], across)
    flank = read_slope(f"{wide['degrees']} degrees").offset(Fraction(wide["depth"]))
    assert rounded_to(wide["wide"], wide["narrow"] + 2 * flank)


@pytest.mark.parametrize("row", FIGURES["slope"], ids=lambda row: row["ratio"])
def test_slopes_as_angles(row: dict[str, Decimal]) -> None:
    slope = read_slope(row["ratio"])
    assert rounded_to(row["from_perpendicular_deg"], slope.degrees)
    assert rounded_to(row["pin_constant"], pin_constant(slope.degrees))


@pytest.mark.parametrize("row", FIGURES["router_bit"], ids=lambda row: str(row["side_deg"]))
def test_side_angles_of_cutters_as_slopes(row: dict[str, Decimal]) -> None:
    slope = read_slope(f"{row['side_deg']} deg")
    assert slope.ratio_text == str(row["ratio"]).replace("1:", "1 in ")
    assert rounded_to(row["pin_constant"], pin_constant(slope.degrees))


# -- at random


@settings(deadline=None)
@given(st.decimals(1, 50, places=3), st.sampled_from(["1 in {}", "1:{}", "1 : {}", "1.0 in {}"]))
def test_a_ratio_is_told_as_it_was_written(run: Decimal, form: str) -> None:
    slope = read_slope(form.format(f"{run:f}"))
    assert slope.run == Fraction(run)
    assert read_slope(slope.ratio_text) == slope


@settings(deadline=None)
@given(fractions(1, 50, 999), st.integers(1, 99))
def test_across_and_along_go_together(run: Fraction, across: int) -> None:
    over, along = across * run.denominator, across * run.numerator
    assert read_slope(f"{over} in {along}").run == run
    assert read_slope(f"1/{along}:1/{over}").run == run


@settings(deadline=None)
@given(st.decimals("1.15", 45, places=4))
def test_an_angle_comes_back_from_its_run(degrees: Decimal) -> None:
    slope = read_slope(f"{degrees:f}°")
    assert abs(slope.run * Fraction(math.tan(math.radians(degrees))) - 1) < SLIGHT
    worked_back = Slope(slope.run).degrees
    assert abs(worked_back - Fraction(degrees)) < Fraction(1, 10**9)


@settings(deadline=None)
@given(st.fractions(1, 50), st.fractions(1, 50))
def test_more_run_is_less_angle(one: Fraction, other: Fraction) -> None:
    if abs(one - other) > SLIGHT:
        assert (one < other) == (Slope(one).degrees > Slope(other).degrees)


@settings(deadline=None)
@given(
    st.text(alphabet="0123456789 ./-:'\"½⅝⅟∶,inIeEdgrs\n°º\u00a0–%", max_size=14)
    | st.text(max_size=70)
)
@example("1/" * 30)
@example("1 " * 30)
@example("½" * 60)
@example("1 in " * 12)
@example(" -" * 30)
def test_any_text_is_a_slope_or_a_bad_measure(text: str) -> None:
    started = time.perf_counter()
    slope, said = None, "a slope; none"
    try:
        slope = read_slope(text)
    except BadMeasure as error:
        said = str(error)
    assert time.perf_counter() - started < 1
    assert "; " in said  # what is wrong, and a cure
    assert said.isprintable()
    assert len(said) < 250
    if slope is not None:
        assert 1 <= slope.run <= 50
        assert slope.rounded == (slope.degrees_asked is not None)


def test_reading_a_slope_loads_no_unit_library() -> None:
    code = (
        "import sys; from layout.measure import read_slope; read_slope('8 deg').degrees_text; "
        "print('pint' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
