"""Units: ours against pint's default registry, and what start-up may not load."""

from __future__ import annotations

import re
import subprocess
import sys
from fractions import Fraction
from functools import cache
from typing import Any

import pint
import pytest

from layout.errors import BadMeasure
from layout.measure import read_length
from layout.measure.units import AT_ONCE, FOOT, INCH, MM, _tables, unit_length

MICROMETRE = Fraction(1, 1000)
MILE = Fraction(1_609_344)

# In pint's default registry, but not for us. A CGS capacitance counts as a length there.
NO_LENGTHS = {"statfarad", "statF"}

# Made of the US survey foot, in hundredths of it: never ours.
SURVEY_FOOT = Fraction(1200, 3937) * 1000
SURVEY = {"sft", "link", "li", "fathom", "rod", "rd", "pole", "perch", "chain", "furlong", "fur"}


@cache
def default() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction)


def judged(name: str) -> Fraction | None:
    """A unit's length in mm by pint's default registry; None where it is no exact length."""
    registry = default()
    try:
        factor, base = registry.get_root_units(registry.parse_units(name))
    except pint.DimensionalityError:
        return None
    if base != registry.meter or isinstance(factor, float):
        return None
    return Fraction(factor) * 1000


def test_the_constants_are_those_of_pint() -> None:
    for name, length in AT_ONCE.items():
        if name.isalpha():
            assert judged(name) == length, name
    assert (AT_ONCE["'"], AT_ONCE['"']) == (judged("foot"), judged("inch"))
    assert (judged("foot"), judged("inch"), judged("millimeter")) == (FOOT, INCH, MM)


def test_our_definitions_give_the_constants_too() -> None:
    lengths, _ = _tables()
    for name, length in AT_ONCE.items():
        if name.isalpha():
            assert lengths[name] == length, name


def test_every_unit_of_ours_is_as_long_as_pint_says() -> None:
    lengths, others = _tables()
    assert len(lengths) > 50
    for name, length in lengths.items():
        assert judged(name) == length, name
        assert isinstance(length, Fraction)
    for name in others:
        # small letters serve us only; pint has K, degC and degF
        theirs = {"k": "K", "degc": "degC", "degf": "degF"}.get(name, name)
        assert default().get_dimensionality(theirs) != {"[length]": 1}, name


def test_no_length_of_workshop_size_in_pint_is_missing() -> None:
    lengths, _ = _tables()
    found = set()
    for name in list(default()):
        if not re.fullmatch("[A-Za-zµμ]+", name) or name in NO_LENGTHS:
            continue
        if dict(default().get_dimensionality(name)) != {"[length]": 1}:
            continue
        length = judged(name)
        if length is None or not MICROMETRE <= length <= MILE:
            continue
        if name in SURVEY:
            assert (length / SURVEY_FOOT * 100).denominator == 1, name
            assert name.lower() not in lengths
            continue
        assert lengths[name.lower()] == length, name
        found.add(name)
    assert found >= {"inch", "foot", "feet", "yard", "yd", "meter", "m", "thou", "mile", "µ"}


@pytest.mark.parametrize(
    ("unit", "kind"),
    [
        ("kg", "weight"), ("g", "weight"), ("lb", "weight"), ("pounds", "weight"), ("s", "time"),
        ("min", "time"), ("ms", "time"), ("hr", "time"), ("deg", "angle"), ("degC", "temperature"),
        ("degF", "temperature"), ("K", "temperature"), ("KG", "weight"),
    ],
)  # fmt: skip
def test_units_of_something_else_are_refused(unit: str, kind: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_length(f"5 {unit}", "in")
    assert caught.value.what == f"'{unit}' is a unit of {kind}, not of length"
    assert "mm" in caught.value.cure


@pytest.mark.parametrize(
    ("unit", "near"),
    [("inhc", "inch"), ("mmm", "mm"), ("Metr", "metre"), ("feeet", "feet"), ("yrd", "yard"),
     ("milimeter", "millimeter")],
)  # fmt: skip
def test_an_unknown_unit_is_refused_with_the_nearest(unit: str, near: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_length(f"5 {unit}", "in")
    assert caught.value.what == f"there is no unit '{unit}'"
    assert f"did you mean '{near}'?" in caught.value.cure


def test_an_unknown_unit_with_nothing_near() -> None:
    with pytest.raises(BadMeasure) as caught:
        unit_length("qqq")
    assert caught.value.cure == "write one of: in, ft, yd, mm, cm, m"


# pint's own registry would read each of these: prefixes and a plural s go on anything there
@pytest.mark.parametrize("unit", ["kin", "cin", "ms", "mft", "Tin", "nm", "pc", "ly", "mil", "G"])
def test_prefixes_make_no_units(unit: str) -> None:
    assert default().parse_units(unit) is not None
    with pytest.raises(BadMeasure):
        read_length(f"1 {unit}", "in")


# -- start-up


def loaded_pint(lines: str) -> bool:
    """Whether a fresh Python has imported pint after running these lines."""
    code = f"{lines}\nimport sys\nprint('pint' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return {"True\n": True, "False\n": False}[run.stdout]


def test_pint_is_loaded_only_for_an_unusual_unit() -> None:
    usual = (
        "from layout.measure import read_length, show, default_rule, dual\n"
        "a = read_length('2 3/8 in', 'mm')\n"
        "b = read_length('60mm', 'in')\n"
        "c = read_length('1\\' 2 1/2\"', 'in')\n"
        "dual(a + b + c, default_rule('in'))\n"
    )
    assert not loaded_pint(usual)
    assert loaded_pint(usual + "assert read_length('6 cm', 'in') == 60")
