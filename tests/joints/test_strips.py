"""A top glued up of strips: by hand, and against trying every way. In mm.

The stock, unless a test says otherwise: rough boards 50 thick and 120 wide, longer than the top; 6
is milled off their thickness, 6 jointed off their width, 3 planed off the glue-up and 25 trimmed
off each end; battens 38 thick under clamps no more than 250 apart; 200 g of glue to the square
metre.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate, combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from layout.errors import BadPiece, Where
from layout.joints.strips import MOST_STRIPS, Spare, StripChoice, Strips, glued_up, stave_stagger

F = Fraction
HERE = Where(line=7)


def stock(**changes: object) -> StripChoice:
    usual = StripChoice(
        lay="flat", thickness=F(50), width=F(120), length=None, planer=None, heart="alternate",
        spare=Spare(F(6), F(6), F(3), F(25)), stagger=F(150), caul=F(38), reach=F(250),
        spread=F(200), where=HERE,
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def glued(
    *slabs: int, long: int = 1000, fixed: tuple[bool, ...] = (), **changes: object
) -> Strips:
    """A top 30 thick of slabs of these widths; the changes are the stock's."""
    return glued_up(stock(**changes), F(long), F(30), [F(slab) for slab in slabs], fixed)


def refused(*slabs: int, **changes: object) -> str:
    with pytest.raises(BadPiece) as caught:
        glued(*slabs, **changes)  # type: ignore[arg-type]
    assert caught.value.where == HERE
    assert caught.value.cure
    return caught.value.what


# -- strips


def test_a_flat_top_by_hand() -> None:
    made = glued(650)
    # a board gives 114 of width: 5 7/10 of them, so six of 108 1/3
    assert [one.width for one in made.strips] == [F(325, 3)] * 6
    assert made.lines == tuple(F(325, 3) * n for n in range(1, 6))
    assert (made.milled, made.long, made.per_board) == (33, 1050, 1)
    assert made.sections == (6,)
    assert made.section_widths == (650,)


def test_a_top_on_edge_by_hand() -> None:
    made = glued(650, lay="on edge")
    # a board gives 44 of the top's width: 14 8/11 of them, so fifteen of 43 1/3
    assert [one.width for one in made.strips] == [F(130, 3)] * 15
    # of a rough board 120 wide strips 33 wide with 6 for jointing and the saw: three
    assert made.per_board == 3
    assert glued(650, lay="on edge", width=F(117)).per_board == 3
    assert glued(650, lay="on edge", width=F("116.9")).per_board == 2


def test_slabs_each_have_their_own_strips() -> None:
    made = glued(40, 60, 635, fixed=(False, True))
    assert [one.width for one in made.strips] == [40, 60, *[F(635, 6)] * 6]
    # 150 could be of two, but a dog strip is one
    assert refused(40, 150, 400, fixed=(False, True)) == (
        "the dog strip is wider than the stock gives")
    assert [one.width for one in glued(40, 150).strips] == [40, 75, 75]


@settings(max_examples=120, deadline=None)
@given(st.lists(st.integers(20, 900), min_size=1, max_size=3), st.integers(20, 160),
       st.sampled_from(["flat", "on edge"]))
def test_as_few_strips_as_the_stock_gives(slabs: list[int], give: int, lay: str) -> None:
    sizes = {"width": F(give + 6)} if lay == "flat" else {"thickness": F(give + 6)}
    made = glued(*slabs, lay=lay, **sizes)
    assert made.choice.widest == give
    assert sum(one.width for one in made.strips) == sum(slabs)
    assert all(one.width <= give for one in made.strips)
    assert made.strips[0].low == 0
    assert all(one.high == other.low for one, other in pairwise(made.strips))
    # every slab's edge is a glue line, and one strip fewer in any of them would be too wide
    lines = [F(0), *made.lines, F(sum(slabs))]
    for end, slab in zip(accumulate(slabs), slabs, strict=True):
        inside = [line for line in lines if end - slab <= line <= end]
        assert inside[0] == end - slab
        assert inside[-1] == end
        many = len(inside) - 1
        assert many == 1 or F(slab, many - 1) > give


# -- staves


@settings(max_examples=120, deadline=None)
@given(st.integers(300, 4000), st.integers(210, 2500), st.integers(0, 250))
def test_staves_fill_every_strip(length: int, stave: int, stagger: int) -> None:
    made = glued(650, long=length, length=F(stave), stagger=F(stagger))
    for one in made.strips:
        assert sum(one.staves) == made.long == length + 50
        assert all(0 < each <= stave for each in one.staves)
    odd, even = ({*accumulate(one.staves[:-1])} for one in made.strips[:2])
    told = stave_stagger(made)
    if stave >= length + 50:
        assert (odd, even, told) == (set(), set(), None)
        return
    # all odd strips are alike, and all even ones
    assert {one.staves for one in made.strips[::2]} == {made.strips[0].staves}
    assert {one.staves for one in made.strips[1::2]} == {made.strips[1].staves}
    least = min(LineString([(at, 0), (at, 1)]).distance(LineString([(to, 0), (to, 1)]))
                for at in map(float, odd) for to in map(float, even))
    assert told is not None
    assert abs(float(told) - least) < 1e-9
    # as few as can be, and one more in every other strip only where the stagger asks for it
    few = -(-(length + 50) // stave)
    assert len(made.strips[0].staves) == few
    assert len(made.strips[1].staves) in (few, few + 1)
    if len(made.strips[1].staves) == few:
        assert told >= stagger


def test_staves_by_hand() -> None:
    # 1050 of boards 700 long: two of 525 with their joint moved by a quarter of that, 131 1/4
    made = glued(650, length=F(700))
    assert [one.staves for one in made.strips[:2]] == [
        (F("656.25"), F("393.75")), (F("393.75"), F("656.25"))]
    assert stave_stagger(made) == F("262.5")
    # boards 560 long leave only 35 to move them by: every other strip has half staves at its ends
    made = glued(650, length=F(560))
    assert [one.staves for one in made.strips[:2]] == [
        (525, 525), (F("262.5"), 525, F("262.5"))]
    assert stave_stagger(made) == F("262.5")
    # half of 150 is the least move that counts
    assert len(glued(650, length=F(600)).strips[1].staves) == 2
    assert len(glued(650, length=F("599.9")).strips[1].staves) == 3


def test_a_top_of_one_strip_has_no_ends_side_by_side() -> None:
    made = glued(100, length=F(560))
    assert [one.staves for one in made.strips] == [(525, 525)]
    assert stave_stagger(made) is None


def test_many_staves() -> None:
    # 20 of 52 1/2 are the most
    assert len(glued(650, length=F(53)).strips[0].staves) == 20
    with pytest.raises(BadPiece, match="each strip would be of 21 staves") as caught:
        glued(650, length=F(52))
    assert caught.value.where == HERE


# -- sections


def cuts_of(widths: list[int], many: int) -> list[list[int]]:
    """Every way to part strips into so many sections side by side: the width of each section."""
    found = []
    for at in combinations(range(1, len(widths)), many - 1):
        ends = [0, *at, len(widths)]
        found.append([sum(widths[low:high]) for low, high in pairwise(ends)])
    return found


@settings(max_examples=150, deadline=None)
@given(st.lists(st.integers(20, 114), min_size=1, max_size=9), st.integers(0, 400))
def test_no_other_sections_are_fewer_or_narrower(widths: list[int], more: int) -> None:
    planer = max(widths) + more
    made = glued(*widths, planer=F(planer), fixed=(True,) * len(widths))
    assert [one.width for one in made.strips] == widths
    assert sum(made.sections) == len(widths)
    assert min(made.sections) >= 1
    assert all(wide <= planer for wide in made.section_widths)
    assert sum(made.section_widths) == sum(widths)
    many = len(made.sections)
    for fewer in range(1, many):
        assert all(max(way) > planer for way in cuts_of(widths, fewer))
    assert max(made.section_widths) == min(max(way) for way in cuts_of(widths, many))


def test_sections_by_hand() -> None:
    # seven strips of 100 on a planer of 420: 4 and 3, though 3 and 4 would be as narrow
    made = glued(700, planer=F(420))
    assert made.sections == (4, 3)
    assert made.section_widths == (400, 300)
    assert glued(700, planer=F(400)).sections == (4, 3)
    assert glued(700, planer=F(399)).sections == (3, 3, 1)
    # an exact fit
    assert glued(700, planer=F(100)).sections == (1,) * 7


# -- clamps and glue


@settings(max_examples=100, deadline=None)
@given(st.integers(200, 4000), st.integers(60, 900), st.integers(0, 80), st.integers(60, 400))
def test_clamps_stand_no_farther_apart_than_their_pressure_spreads(
    length: int, width: int, caul: int, reach: int
) -> None:
    made = glued(width, long=length, caul=F(caul), reach=F(reach))
    outer = made.strips[0].width
    # at 45 degrees from each clamp through caul and outermost strip to the first glue line
    spread = F(caul) + outer
    assert made.clamp_spacing == min(2 * spread, reach)
    # evenly, so that the outermost stand half a spacing from the ends: no gap is wider
    each = made.long / made.clamps
    assert each <= made.clamp_spacing
    assert made.clamps == 1 or made.long / (made.clamps - 1) > made.clamp_spacing
    if 2 * spread <= reach:
        # the stretches of the first glue line that are pressed cover all of it
        at = each / 2
        pressed = []
        for _ in range(made.clamps):
            pressed.append((at - spread, at + spread))
            at += each
        assert pressed[0][0] <= 0
        assert pressed[-1][1] >= made.long
        assert all(one[1] >= other[0] for one, other in pairwise(pressed))


def test_clamps_by_hand() -> None:
    # 38 and 108 1/3 would do for 292 2/3; no more than 250: 1050 takes five
    assert (glued(650).clamp_spacing, glued(650).clamps) == (250, 5)
    # on edge 43 1/3: 2 x 81 1/3 = 162 2/3, so seven
    made = glued(650, lay="on edge")
    assert (made.clamp_spacing, made.clamps) == (F(488, 3), 7)
    # the narrower of the two outermost counts
    assert glued(40, 600).clamp_spacing == 2 * (38 + 40)
    assert glued(600, 40).clamp_spacing == 2 * (38 + 40)


def test_glue_by_hand() -> None:
    # five joints 1050 x 33: 173 250 square mm, 34.65 g
    made = glued(650)
    assert (made.glue_area, made.glue) == (173_250, F("34.65"))
    # and where staves meet, one joint in each of the six strips, all 650 across
    made = glued(650, length=F(700))
    assert made.glue_area == 173_250 + 650 * 33
    assert glued(100).glue_area == 0


@settings(max_examples=60, deadline=None)
@given(st.integers(100, 900), st.integers(300, 2000), st.integers(300, 1200))
def test_glue_is_half_of_all_that_is_not_the_outside(width: int, length: int, stave: int) -> None:
    # counted another way: all staves' edges and ends, less the outside, each joint having two sides
    made = glued(width, long=length, length=F(stave))
    around = F(0)
    for strip in made.strips:
        at = F(0)
        for one in strip.staves:
            piece = box(float(at), float(strip.low), float(at + one), float(strip.high))
            around += 2 * (one + strip.width)
            assert piece.length == pytest.approx(float(2 * (one + strip.width)))
            at += one
    outside = 2 * (made.long + width)
    assert made.glue_area == (around - outside) / 2 * made.milled


# -- refused


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"width": F(6)}, "the allowances leave nothing of the stock"),
        ({"lay": "on edge", "thickness": F(6)}, "the allowances leave nothing of the stock"),
        ({"thickness": F("38.9")}, "the stock is not thick enough for the top and what is planed "
         "off it"),
        ({"lay": "on edge", "width": F("38.9")}, "the stock is not wide enough for the top and "
         "what is planed off it"),
        ({"planer": F(108)}, "a strip is wider than the planer passes"),
        ({"width": F(12)}, "the top needs 109 strips"),
    ],
)
def test_stock_that_does_not_do(changes: dict[str, object], what: str) -> None:
    assert refused(650, **changes) == what


def test_stock_that_just_does() -> None:
    # 30 and 3 to plane it flat, and 6 of milling
    assert glued(650, thickness=F(39)).milled == 33
    assert len(glued(650, width=F("12.5")).strips) == MOST_STRIPS
    assert glued(650, planer=F(325, 3)).sections == (1,) * 6
