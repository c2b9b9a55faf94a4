"""Rods in the corners of sliding dovetails: against tangent geometry worked out another way.

The judge knows no half angles. It draws socket or tail, puts a rod's middle half a diameter over
the base and moves it along until the sloping side (shapely's distance, or exact squares) is half a
diameter away too.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Any

import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from layout.errors import BadMeasure, BadPiece
from layout.joints.rods import (
    LEAST_BETWEEN,
    Constant,
    Section,
    Widths,
    fitting,
    reading,
    rod_constant,
    sums,
    width_from_reading,
)
from tests.drawn import fractions

SEVEN = Fraction(7)
SOCKET = Section("socket", SEVEN, Fraction(12), Fraction(9))
TAIL = SOCKET._replace(kind="tail")
HAIR = Fraction(1, 10**12)
CLOSE = 1e-9  # mm; for what is worked out with floats

hundredths = st.integers(1, 6000).map(lambda n: Fraction(n, 100))
runs = st.one_of(
    fractions(Fraction(1, 2), Fraction(50), 16),
    # sides of right-angled triangles in whole numbers: the root is a fraction
    st.sampled_from(["3/4", "4/3", "12/5", "15/8", "24/7", "40/9"]).map(Fraction),
)


@st.composite
def sections(draw: st.DrawFn, shoulders: bool = False) -> Section:
    section = Section(
        draw(st.sampled_from(["socket", "tail"])),
        draw(runs),
        draw(hundredths) + LEAST_BETWEEN,
        draw(hundredths),
        draw(st.sampled_from(["both", "one"])),
    )
    if shoulders and section.kind == "tail" and draw(st.booleans()):
        # from as wide as the side leans upward, a rod can always be found
        section = section._replace(shoulder=section.lean * draw(st.integers(4, 40)) / 4)
    return section


@st.composite
def fitted(draw: st.DrawFn) -> tuple[Section, Fraction]:
    section = draw(sections(shoulders=True))
    least, greatest = fitting(section)
    return section, least + (greatest - least) * draw(st.integers(0, 64)) / 64


# -- the judge


def corner(section: Section, times: int = 1) -> Any:
    """A sloping side as a line from its corner at (0, 0), leaning over the base (y = 0); it may be
    drawn longer than it is.
    """
    lean, depth = float(section.depth) / float(section.run), float(section.depth)
    return shapely.LineString([(0, 0), (times * lean, times * depth)])


def pushed_in(side: Any, rod: float, reach: float) -> float:
    """How far from the corner the middle of a rod lies that was pushed along the base against a
    side: the rod stops when it meets the side, its arris too.
    """
    near, far = 0.0, reach  # too near, and far enough
    for _ in range(60):
        middle = (near + far) / 2
        if side.distance(shapely.Point(middle, rod / 2)) < rod / 2:
            near = middle
        else:
            far = middle
    return far


def judged(section: Section, rod: Fraction) -> float:
    """The reading, by pushing rods into corners."""
    far = 100 * float(rod + section.depth)
    across = pushed_in(corner(section), float(rod), far) + float(rod) / 2
    width = float(section.mouth)
    if section.kind == "tail":
        return width + section.rods * across
    leans = section.rods * float(section.depth) / float(section.run)
    return width + leans - section.rods * across


def wood(section: Section) -> Any:
    """What a rod must not enter: the bearer round a socket, the board that ends in a tail."""
    lean, depth, width = (float(v) for v in (section.lean, section.depth, section.mouth))
    other = lean if section.sides == "both" else 0.0
    if section.kind == "socket":
        hollow = shapely.Polygon(
            [(0, 0), (lean + width + other, 0), (lean + width, depth), (lean, depth)]
        )
        outside = shapely.box(-9, -9, lean + width + other + 9, depth)
        return outside.difference(hollow)
    shoulder = 1000.0 if section.shoulder is None else float(section.shoulder)
    tail = shapely.Polygon([(0, 0), (width, 0), (width + other, depth), (-lean, depth)])
    return tail.union(shapely.box(-shoulder, -9, width + shoulder, 0))


def middles(section: Section, rod: Fraction) -> list[float]:
    """Where the rods' middles lie across `wood`, taken from the reading alone."""
    measured, half = float(reading(section, rod)), float(rod) / 2
    width = float(section.bottom if section.kind == "socket" else section.mouth)
    if section.kind == "socket":
        if section.sides == "one":
            return [width - measured - half]
        return [(width - measured) / 2 - half, (width + measured) / 2 + half]
    if section.sides == "one":
        return [width - measured + half]
    return [(width - measured) / 2 + half, (width + measured) / 2 - half]


# -- readings


@settings(max_examples=300, deadline=None)
@given(fitted())
@example((SOCKET, Fraction(6)))
@example((TAIL._replace(sides="one"), Fraction(6)))
def test_a_reading_is_what_rods_pushed_into_the_corners_give(
    case: tuple[Section, Fraction]
) -> None:
    section, rod = case
    assert abs(float(reading(section, rod)) - judged(section, rod)) < CLOSE


@settings(max_examples=150, deadline=None)
@given(fitted())
def test_rods_placed_by_the_reading_touch_the_wood_and_do_not_enter_it(
    case: tuple[Section, Fraction]
) -> None:
    section, rod = case
    solid = wood(section)
    for across in middles(section, rod):
        middle = shapely.Point(across, float(rod) / 2)
        assert not solid.contains(middle)
        assert abs(solid.distance(middle) - float(rod) / 2) < CLOSE


@settings(max_examples=200, deadline=None)
@given(fitted())
def test_rods_touch_base_and_side_exactly_to_a_trillionth(case: tuple[Section, Fraction]) -> None:
    section, rod = case
    n, half = section.run, rod / 2
    narrow = section.bottom if section.kind == "socket" else section.mouth
    across = abs(reading(section, rod) - narrow) / section.rods - half
    # from the middle to the side y = n x: (n across - half) / sqrt(n^2 + 1); a root is avoided by
    # asking on which side of the true place it lies when it is moved by a hair
    def beyond(x: Fraction) -> bool:
        return n * x > half and (n * x - half) ** 2 > half**2 * (n * n + 1)

    assert beyond(across + HAIR)
    assert not beyond(across - HAIR)


# run, 1 + cot(a/2): by hand from the triangles 3 4 5, 5 12 13, 8 15 17, 7 24 25, 20 21 29
EXACT = [
    ("3/4", "4"),  # 1 + 5/3 + 4/3
    ("4/3", "3"),  # 1 + 5/4 + 3/4
    ("12/5", "5/2"),  # 1 + 13/12 + 5/12
    ("15/8", "8/3"),  # 1 + 17/15 + 8/15
    ("24/7", "7/3"),  # 1 + 25/24 + 7/24
    ("21/20", "10/3"),  # 1 + 29/21 + 20/21
]


@pytest.mark.parametrize(("run", "constant"), EXACT)
def test_where_the_root_is_a_fraction_nothing_is_rounded(run: str, constant: str) -> None:
    assert rod_constant(Fraction(run)) == Constant(Fraction(constant), False)


# section, rod, reading: 12 wide and 9 deep, sides 12/5 lean 15/4 over 9, sides 3/4 lean 12
BY_HAND = [
    (SOCKET._replace(run=Fraction(12, 5)), "4", "19/2"),  # 12 + 15/2 - 4 x 5/2
    (TAIL._replace(run=Fraction(12, 5)), "4", "22"),  # 12 + 4 x 5/2
    (SOCKET._replace(run=Fraction(12, 5), sides="one"), "4", "43/4"),  # 12 + 15/4 - 2 x 5/2
    (TAIL._replace(run=Fraction(12, 5), sides="one"), "4", "17"),  # 12 + 2 x 5/2
    (SOCKET._replace(run=Fraction(3, 4)), "7", "8"),  # 12 + 24 - 7 x 4
    (TAIL._replace(run=Fraction(3, 4)), "7", "40"),  # 12 + 7 x 4
]


@pytest.mark.parametrize(("section", "rod", "measured"), BY_HAND)
def test_readings_by_hand_are_exact(section: Section, rod: str, measured: str) -> None:
    assert reading(section, Fraction(rod)) == Fraction(measured)
    widths = width_from_reading(section, Fraction(rod), Fraction(measured))
    assert widths == Widths(Fraction(12), section.bottom)


@given(runs)
@example(SEVEN)
@settings(max_examples=100, deadline=None)
def test_the_root_is_good_to_a_hair_and_says_where_it_is_rounded(run: Fraction) -> None:
    value, rounded = rod_constant(run)
    root, square = value - 1 - 1 / run, 1 + 1 / run**2
    legs = run.numerator**2 + run.denominator**2  # square = legs / numerator^2
    assert rounded == (math.isqrt(legs) ** 2 != legs)
    if rounded:
        assert root**2 < square < (root + Fraction(1, 10**23)) ** 2
    else:
        assert root**2 == square


# -- back from a reading


@settings(max_examples=200, deadline=None)
@given(fitted())
def test_there_and_back_gives_the_same_widths(case: tuple[Section, Fraction]) -> None:
    section, rod = case
    widths = width_from_reading(section, rod, reading(section, rod))
    assert widths == Widths(section.mouth, section.bottom)


@settings(max_examples=100, deadline=None)
@given(fitted(), hundredths)
def test_a_wide_reading_comes_from_a_wide_mouth_whatever_was_drawn(
    case: tuple[Section, Fraction], wider: Fraction
) -> None:
    section, rod = case
    measured = reading(section, rod) + wider
    widths = width_from_reading(section, rod, measured)
    assert widths == Widths(section.mouth + wider, section.bottom + wider)
    assert reading(section._replace(mouth=widths.mouth), rod) == measured


def test_a_socket_cut_narrower_than_rods_want_can_still_be_told() -> None:
    # rods of 6 were laid in, 1/4 mm is between them: less than would be planned with
    widths = width_from_reading(SOCKET, Fraction(6), Fraction(1, 4))
    assert widths.mouth == SOCKET.mouth - (reading(SOCKET, Fraction(6)) - Fraction(1, 4))


@pytest.mark.parametrize(
    ("section", "measured", "words"),
    [
        (SOCKET, "0", "0 mm between rods of 6 mm is no distance; it has to be more than 0 mm"),
        (SOCKET, "-1", "-1 mm between rods of 6 mm is no distance"),
        (SOCKET._replace(sides="one"), "0", "0 mm beside a rod of 6 mm is no distance"),
        (TAIL, "12.9", "12.9 mm over rods of 6 mm leaves no neck; it has to be more than 12.9181"),
        (TAIL._replace(sides="one"), "6", "6 mm over a rod of 6 mm leaves no neck"),
    ],
)
def test_readings_that_can_not_be_are_refused(section: Section, measured: str, words: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        width_from_reading(section, Fraction(6), Fraction(measured))
    assert words in str(caught.value)


def test_a_rod_that_does_not_fit_tells_nothing_back() -> None:
    with pytest.raises(BadMeasure, match=re.escape("take rods from 1.2 mm to 15.7 mm")):
        width_from_reading(TAIL, Fraction(16), Fraction(50))
    # in a socket 12 wide there is no room for two of 15, but this one was measured: it is wider
    assert width_from_reading(SOCKET, Fraction(15), Fraction(5)).mouth > 30


# -- which rods fit


def fits(section: Section, rod: float) -> dict[str, float]:
    """By how much (mm, below zero: not) a rod keeps each rule, from a picture of the corner."""
    lean, depth = float(section.lean), float(section.depth)
    long_side = corner(section, 1000)
    across = pushed_in(long_side, rod, 1000 * rod)
    touch = long_side.interpolate(long_side.project(shapely.Point(across, rod / 2)))
    rules = {"side": depth - touch.y, "reach": across + rod / 2 - lean}
    if section.shoulder is not None:
        rules["shoulder"] = float(section.shoulder) - across
    if section.kind == "socket":
        rules["between"] = (
            float(section.bottom) - section.rods * (across + rod / 2) - float(LEAST_BETWEEN)
        )
    return rules


WORDS = {
    "side": "and not the sloping side",
    "reach": "where a straight jaw does not reach it",
    "shoulder": "does not rest on a shoulder",
    "between": "is too thick",
}


@settings(max_examples=300, deadline=None)
@given(sections(shoulders=True), st.integers(1, 200))
def test_rods_are_taken_that_touch_rest_reach_and_leave_room(section: Section, share: int) -> None:
    least, greatest = fitting(section)
    rod = (least + (greatest - least) * 2) * share / 200
    rules = fits(section, float(rod))
    assume(all(abs(by) > CLOSE for by in rules.values()))
    if min(rules.values()) > 0:
        assert reading(section, rod) > 0
    else:
        with pytest.raises(BadMeasure) as caught:
            reading(section, rod)
        broken = [WORDS[name] for name, by in rules.items() if by < 0]
        assert any(words in str(caught.value) for words in broken)


LIMITS = [
    (SOCKET, "between"),
    (SOCKET._replace(sides="one"), "between"),
    (SOCKET._replace(mouth=Fraction(40)), "side"),
    (TAIL, "side"),
    (TAIL._replace(sides="one", run=Fraction(12, 5)), "side"),
    (TAIL._replace(shoulder=TAIL.lean), "shoulder"),
    (TAIL._replace(shoulder=TAIL.lean, sides="one"), "shoulder"),
]


@pytest.mark.parametrize(("section", "rule"), LIMITS)
def test_just_fitting_and_just_not(section: Section, rule: str) -> None:
    least, greatest = fitting(section)
    assert abs(fits(section, float(least))["reach"]) < CLOSE
    assert abs(fits(section, float(greatest))[rule]) < CLOSE
    for rod, words in ((least - HAIR, WORDS["reach"]), (greatest + HAIR, WORDS[rule])):
        with pytest.raises(BadMeasure, match=words):
            reading(section, rod)
    for rod in (least, greatest):
        assert reading(section, rod) > 0


def test_at_the_limits_a_reading_is_what_the_limit_says() -> None:
    least, greatest = fitting(SOCKET)
    assert reading(SOCKET, greatest) == LEAST_BETWEEN
    assert reading(SOCKET, least) == SOCKET.mouth  # flush with the arrises of the mouth
    assert reading(TAIL, fitting(TAIL).least) == TAIL.bottom  # flush with those of the tip
    one = TAIL._replace(sides="one")
    assert reading(one, fitting(one).least) == one.bottom


def test_past_the_greatest_a_rod_rides_on_the_arris_and_would_read_false() -> None:
    rod = fitting(TAIL).greatest * Fraction(11, 10)
    false = TAIL.mouth + rod * rod_constant(SEVEN).value
    assert abs(judged(TAIL, rod) - float(false)) > 0.01


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize(("section", "rule"), LIMITS)
def test_the_rods_told_fit(section: Section, rule: str, unit: Any) -> None:
    with pytest.raises(BadMeasure) as caught:
        reading(section, Fraction(90), unit)
    told = caught.value.cure.removeprefix("take rods from ").removesuffix(f" {unit}")
    sizes = [Fraction(one) for one in told.split(f" {unit} to ")]
    assert len(sizes) == 2
    step = Fraction(127, 5 * 64) if unit == "in" else Fraction(1, 10)
    one = 1 if unit == "mm" else Fraction(127, 5)
    least, greatest = fitting(section)
    assert least <= sizes[0] * one < least + step
    assert greatest - step < sizes[1] * one <= greatest


def test_a_narrow_range_is_told_finer_than_drills_go() -> None:
    # 2 lean/(1 + k) = 2.3887 at least, 2 shoulder/k = 2.3937 at most: no tenth of a mm between
    section = TAIL._replace(depth=Fraction(18), shoulder=Fraction("1.38"))
    with pytest.raises(BadMeasure, match=re.escape("take rods from 2.3887 mm to 2.3937 mm")):
        reading(section, Fraction(3))
    assert reading(section, Fraction("2.39")) > 0


@pytest.mark.parametrize(
    ("section", "words"),
    [
        # 1.1943 at least, 2 x 0.72/1.15301 = 1.2489 at most
        (TAIL._replace(shoulder=Fraction("0.72")), "take rods of 1.2 mm"),
        # 1.1943 is the least and the greatest, and no decimal
        (SOCKET._replace(mouth=LEAST_BETWEEN), "take rods of about 1.1943 mm"),
    ],
)
def test_where_one_rod_only_fits_it_is_told(section: Section, words: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        reading(section, Fraction(3))
    assert caught.value.cure == words


@pytest.mark.parametrize(
    ("section", "words"),
    [
        (SOCKET._replace(mouth=LEAST_BETWEEN - HAIR), "no rod fits this socket: its mouth is 1 mm"),
        (SOCKET._replace(mouth=Fraction(1, 2)), "its mouth is 0.5 mm wide, and between two of them "
                                                "less than 1 mm is left"),
        (SOCKET._replace(mouth=Fraction(1, 2), sides="one"), "between the rod and the square side"),
        # 9/7 x k/(1 + k) = 0.6886
        (TAIL._replace(shoulder=Fraction("0.688")), "it has to be at least 0.7 mm"),
        (SOCKET._replace(mouth=Fraction(0)), "its mouth is zero"),
        (TAIL._replace(mouth=Fraction(-1)), "its neck is below zero"),
        (TAIL._replace(depth=Fraction(0)), "its depth is zero"),
        (TAIL._replace(run=Fraction(0)), "its run of the slope is zero"),
        (TAIL._replace(shoulder=Fraction(0)), "its shoulder is zero"),
    ],
)
def test_where_no_rod_fits_it_is_said(section: Section, words: str) -> None:
    for call in (
        lambda: fitting(section),
        lambda: reading(section, Fraction(2)),
        lambda: sums(section, Fraction(2)),
    ):
        with pytest.raises(BadPiece) as caught:
            call()
        assert words in str(caught.value)
        assert "\n" not in str(caught.value)


def test_the_narrowest_socket_and_shoulder_take_one_rod_only() -> None:
    least, greatest = fitting(SOCKET._replace(mouth=LEAST_BETWEEN))
    assert least == greatest
    over = rod_constant(SEVEN).value
    least, greatest = fitting(TAIL._replace(shoulder=TAIL.lean * (over - 1) / over))
    assert least == greatest


def test_a_socket_with_a_shoulder_is_a_slip_in_the_program() -> None:
    with pytest.raises(ValueError, match="a socket has no shoulder"):
        fitting(SOCKET._replace(shoulder=Fraction(1)))


# -- as a sum


@settings(max_examples=100, deadline=None)
@given(fitted())
def test_the_rows_add_up_to_the_reading(case: tuple[Section, Fraction]) -> None:
    section, rod = case
    rows = sums(section, rod)
    assert sum(sign * value for sign, _, value in rows) == reading(section, rod)
    assert all(value > 0 for _, _, value in rows)


@pytest.mark.parametrize(
    ("section", "rows"),
    [
        (SOCKET, ["+ mouth", "+ depth sloped 1 in 7, on both sides",
                  "- rod diameter times 2.15301, rounded"]),
        (SOCKET._replace(sides="one"), ["+ mouth", "+ depth sloped 1 in 7",
                                        "- half the rod diameter times 2.15301, rounded"]),
        (TAIL, ["+ neck", "+ rod diameter times 2.15301, rounded"]),
        (TAIL._replace(run=Fraction(12, 5)), ["+ neck", "+ rod diameter times 2.5"]),
        # 8/3 is no decimal: what is shown is rounded, though the row's value is not
        (TAIL._replace(run=Fraction(15, 8)), ["+ neck", "+ rod diameter times 2.666667, rounded"]),
    ],
)
def test_each_row_says_what_it_is(section: Section, rows: list[str]) -> None:
    told = [f"{'+' if sign > 0 else '-'} {label}" for sign, label, _ in sums(section, Fraction(5))]
    assert told == rows
