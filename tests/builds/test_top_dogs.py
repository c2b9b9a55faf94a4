"""Rows of holes in a top, clear of everything that stands under it. In mm.

Frame, top, timber and climate are those of test_top.py: the top reaches 25 beyond the frame, so a
line 70 from its front edge lies 45 behind the legs' fronts and 17 behind the front rail. Dogs of
20 at a pitch of 100, 6 clear of what they miss; the vise opens 180. Distances between holes and
parts are measured here in the piece's own plan, from their middles to the parts' rectangles.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.tops import LaidTop
from layout.checks import check, dogs
from layout.errors import BadPiece
from layout.joints.dogs import Dogs
from layout.mark import Cylinder, Hull
from layout.part import Part
from layout.piece import Piece
from tests.builds.test_top import (
    ALONE,
    CASE,
    CLIMATE,
    FRAME,
    GLUED,
    HEAD,
    SQUARE,
    line_of,
    made,
    read,
    refused,
)

F = Fraction
LOW = """[[frame.rail]]
name = "low rail"
sides = ["front"]
below_top = 150
width = 50
thickness = 28
tenon = { pair = false }
"""
TWO_RAILS = CLIMATE + FRAME.replace('"front", "back", "left", "right"', '"back", "left", "right"')
DRAWER = TWO_RAILS + """[[frame.rail]]
name = "head"
sides = ["front"]
top = "flush"
width = 30
thickness = 28
""" + LOW + """[[drawer]]
openings = ["front under head"]
bottom = { thickness = 6 }
runners = { width = 40, kickers = true }
dovetails = { tails = 3 }
"""


def row(keys: str = "lines = [70], first = 110", end: str = "left", more: str = "") -> str:
    return f'vise = {{ opening = 180, end = "{end}" }}\nrow = [{{ {keys} }}]\n{more}'


def one_row(laid: LaidTop) -> Dogs:
    (found,) = laid.dogs
    return found


def middles(laid: LaidTop, found: Dogs) -> list[tuple[Fraction, Fraction]]:
    """The middle of every hole, from the piece's left and front."""
    lines = found.choice.lines or (found.choice.size / 2,)
    return [found.part.placement.to_piece((place, line, F(0)))[:2]
            for line in lines for place in found.places]


def apart(at: tuple[Fraction, Fraction], part: Part) -> float:
    """How far a middle lies from a part, seen from above."""
    off = [max(part.reach(way)[0] - at[way], at[way] - part.reach(way)[1], F(0)) for way in (0, 1)]
    return hypot(*off)


def missed(p: Piece, laid: LaidTop, found: Dogs) -> list[str]:
    """The parts within reach under the top, each held against every hole."""
    top = laid.top
    own = {part.id for part in top.parts}
    seen = []
    for part in p.parts:
        low, high = part.reach(2)
        if part.id in own or high <= top.origin[2] - top.choice.below or low >= top.origin[2]:
            continue
        nearest = min(apart(at, part) for at in middles(laid, found))
        assert nearest >= found.choice.size / 2 + found.choice.clear, (part.id, nearest)
        seen.append(part.id)
    return seen


def places(laid: LaidTop) -> tuple[Fraction, ...]:
    return one_row(laid).places


# -- what stands under the top


@pytest.mark.parametrize("end", ["left", "right"])
def test_a_row_between_the_legs(end: str) -> None:
    p, laid = made(row(end=end))
    found = one_row(laid)
    # 1050 less 38 and half a hole: holes from 110 to 910, nothing under them but legs and rails
    assert found.places == tuple(F(110 + 100 * n) for n in range(9))
    assert "front-left-leg" in missed(p, laid, found)
    xs = [x for x, _ in middles(laid, found)]
    assert xs == [-25 + at if end == "left" else 1025 - at for at in found.places]
    assert {y for _, y in middles(laid, found)} == {45}


def test_the_far_leg_moves_the_last_holes() -> None:
    # 72 more between the holes: one of an even row would stand in the far leg, 965 to 1025 + 16
    p, laid = made(row("lines = [70], first = 110, pitch = 145"))
    found = one_row(laid)
    assert found.even == (110, 255, 400, 545, 690, 835, 980)
    assert found.places != found.even
    missed(p, laid, found)


def test_a_leg_that_no_row_can_pass_is_named() -> None:
    # a leg 180 wide and 16 on both sides: no gap of 155 goes over it
    wide = FRAME.replace("width = 60, thickness = 60", "width = 180, thickness = 60")
    keys = row("lines = [70], first = 230", more="overhang_right = 200\n")
    what, cure, line = refused(keys, before=CLIMATE + wide)
    assert what.startswith("no row of holes misses all that it must")
    assert "front right leg" in cure
    assert line == line_of("row", keys, CLIMATE + wide)


@pytest.mark.parametrize(
    ("keys", "what"),
    [
        ("lines = [70]", "the first hole runs into the front left leg"),
        ("lines = [70], first = 101", None),  # 85 less 16 of hole and clearance: the leg's back
        ("lines = [70], first = 100.9", "the first hole runs into the front left leg"),
        ("lines = [70], first = 101, clear = 6.1", "the first hole runs into the front left leg"),
        ("lines = [102], first = 70", None),  # 102 - 25 - 16 = 61: behind it
        ("lines = [100], first = 70", "the first hole runs into the front left leg"),
        ("lines = [39], first = 110", "a row of holes runs along the front rail"),
        ("lines = [69], first = 110", None),  # 69 - 25 - 16 is the rail's back
        ("lines = [68.9], first = 110", "a row of holes runs along the front rail"),
        ("lines = [325], first = 25", "the first hole runs into the left rail"),
        ("lines = [10], first = 110", "a row of holes runs into the top's edge"),
        ("lines = [640], first = 110", "a row of holes runs into the top's edge"),
        ("lines = [660], first = 110", "a row of holes lies outside the top, or rows lie on both "
         "sides of its dog strip"),
        ("lines = [325], first = 10", "the first hole comes out of the top's end"),
        ("lines = [325], first = 1003", "the first hole comes too near to the end of the top"),
        ("lines = [325], pitch = 24.4, first = 110", "the holes would stand nearer than a hole and "
         "the least wood beside it"),
        ("lines = [70], first = 110, off_glue = 5", "the top is not told to be glued up of strips"),
    ],
)
def test_where_a_row_may_stand(keys: str, what: str | None) -> None:
    if what is None:
        p, laid = made(row(keys))
        missed(p, laid, one_row(laid))
        return
    told, cure, line = refused(row(keys))
    assert told == what
    assert cure
    assert line == line_of("row", row(keys))


@pytest.mark.parametrize(("below", "meets"), [(150, False), (F("150.1"), True)])
def test_only_what_stands_within_reach_is_missed(below: Fraction, meets: bool) -> None:
    # a lower rail 150 below the top, along the row; the row begins over it
    frame = TWO_RAILS + LOW
    keys = row("lines = [39], first = 110", more=f"dogs_below = {float(below)}\n")
    if meets:
        assert "the front low rail" in refused(keys, before=frame)[0]
        return
    p, laid = made(keys, before=frame)
    assert {"front-left-leg", "left-rail"} <= set(missed(p, laid, one_row(laid)))


def test_a_row_over_a_drawer_misses_its_sides_and_its_runners() -> None:
    # the drawer begins 30 below the top; its bottom lies more than 100 below, its sides are within
    p, laid = made(row("lines = [300], first = 150", more="dogs_below = 60\n"), before=DRAWER)
    seen = set(missed(p, laid, one_row(laid)))
    sides = {part.id for part in p.parts if part.kind in ("drawer side", "drawer kicker")}
    assert sides
    assert {part.id for part in p.drawers[0].parts} & seen
    # and along its front there is no room for any
    what, _, _ = refused(row("lines = [39], first = 150"), before=DRAWER)
    assert "the front head" in what


def test_a_row_misses_a_rail_from_front_to_back() -> None:
    cross = FRAME + ('[[frame.cross]]\nname = "bearer"\nbetween = ["front rail", "back rail"]\n'
                     "width = 60\nthickness = 40\nfrom_left = 270\nabove_floor = 740\n")
    p, laid = made(row(), before=CLIMATE + cross)
    found = one_row(laid)
    assert "bearer" in missed(p, laid, found)
    bearer = p.part("bearer").reach(0)
    assert any(bearer[0] - 16 < -25 + at < bearer[1] + 16 for at in found.even)


def test_a_row_misses_buttons() -> None:
    # the front ones' blocks lie 69 to 119 behind the front edge, in the way of an even row
    keys = row("lines = [90], first = 110", more="fixing = { apart = 230 }\n")
    p, laid = made(keys)
    assert laid.fixings is not None
    assert {part.id for part in laid.fixings.parts} <= set(missed(p, laid, one_row(laid)))
    assert places(laid) != one_row(laid).even


@pytest.mark.parametrize("kind", ["screws", "buttons"])
def test_a_row_misses_screws_where_nothing_else_is_missed(kind: str) -> None:
    across = 39 if kind == "screws" else 94
    keys = row(f"lines = [{across}], first = 105", more="dogs_below = 0\n"
               f'fixing = {{ kind = "{kind}" }}\n')
    _, laid = made(keys)
    found = one_row(laid)
    assert laid.fixings is not None
    if kind == "screws":
        assert {305, 705} <= set(found.even)  # a screw stands in each of the two, at 305 and 745
    for one, _ in laid.fixings.found:
        x, _, _ = one.rail.placement.to_piece((one.place, F(0), F(0)))
        if one.rail.id == "front-rail":
            assert all(abs(-25 + place - x) >= 10 + F(5, 2) + 6 for place in found.places)
    assert found.places != found.even


def test_with_nothing_under_it_a_row_is_even() -> None:
    _, laid = made(row("lines = [39], first = 50", more="dogs_below = 0\n"))
    assert places(laid) == one_row(laid).even


# -- staves and glue lines


STAVES = GLUED.replace(" }", ", stock_length = 700 }")


def test_a_row_keeps_off_the_ends_of_staves() -> None:
    # glued up 1100 long of staves of 687 1/2 and 412 1/2, in turn; 25 is trimmed off at end A
    keys = row("lines = [54], first = 62, off_glue = 30", more="dogs_below = 0\n" + STAVES)
    _, laid = made(keys)
    strips = laid.top.strips
    assert strips is not None
    assert strips.strips[0].staves == (F(1375, 2), F(825, 2))
    found = one_row(laid)
    end = F(1375, 2) - 25
    assert any(abs(at - end) < 40 for at in found.even)
    assert all(abs(at - end) >= 40 for at in found.places)
    # with no off_glue it need not
    free = made(row("lines = [54], first = 62", more="dogs_below = 0\n" + STAVES))[1]
    assert places(free) == found.even


@pytest.mark.parametrize(
    ("line", "moved"),
    [
        (54, 54), (17, 17), (14, 17),
        (110, F(650 * 2, 12) + 17),  # 108 1/3 is a glue line: its far side is nearer
        (105, F(650, 6) - 17),
    ],
)
def test_a_row_moved_off_the_glue_lines(line: int, moved: Fraction) -> None:
    keys = row(f"lines = [{line}], first = 62, off_glue = 7", more="dogs_below = 0\n" + GLUED)
    _, laid = made(keys)
    assert one_row(laid).choice.lines == (moved,)
    for glue in laid.top.strips.lines if laid.top.strips else ():
        assert abs(moved - glue) >= 10 + 7


@settings(max_examples=15, deadline=None)
@given(st.integers(20, 480), st.integers(0, 14), st.sampled_from([14, 20, 26]))
def test_a_row_is_moved_no_farther_than_it_must(line: int, off: int, size: int) -> None:
    keys = ALONE + row(f"lines = [{line}], size = {size}, off_glue = {off}", more=GLUED)
    _, laid = made(keys, before=CLIMATE)
    strips = laid.top.strips
    assert strips is not None
    (found,) = one_row(laid).choice.lines
    lines = [F(0), *strips.lines, F(500)]
    keep = F(size, 2) + off
    assert all(abs(found - glue) >= keep for glue in lines)
    # every place nearer to what was asked is too near to a glue line
    for quarter in range(4 * 500):
        other = F(quarter, 4)
        if abs(other - line) < abs(found - line):
            assert any(abs(other - glue) < keep for glue in lines)


def test_strips_that_are_too_narrow_for_a_hole() -> None:
    narrow = "strips = { stock_thickness = 50, stock_width = 36 }\n"
    keys = row("lines = [300], first = 110, off_glue = 6", more=narrow)
    what, cure, line = refused(keys)
    assert what == "no strip is wide enough for a hole clear of its glue lines"
    assert "wider strips" in cure
    assert line == line_of("row", keys)


# -- several rows


def test_rows_of_one_table_stand_at_the_same_places() -> None:
    p, laid = made(row("lines = [70, 580], first = 110"))
    found = one_row(laid)
    missed(p, laid, found)
    assert [round(float(y)) for _, y in middles(laid, found)] == [45] * 9 + [555] * 9
    bored = [one for one in p.cuts if one.joint == found.joint]
    assert len({one.role for one in bored}) == 18
    assert bored[0].role == "dog hole 1, row 1"


@settings(max_examples=10, deadline=None)
@given(st.integers(150, 250), st.integers(100, 300), st.integers(0, 8),
       st.sampled_from(["left", "right"]))
def test_a_later_row_misses_the_earlier_ones(line: int, pitch: int, clear: int, end: str) -> None:
    keys = (f'vise = {{ opening = 180, end = "{end}" }}\n'
            "row = [{ lines = [200], first = 110 }, "
            f'{{ holes = "holdfasts", lines = [{line}], first = 160, pitch = {pitch}, '
            f"clear = {clear} }}]\n")
    _, laid = made(keys)
    one, other = laid.dogs
    assert one.places == one.even  # the first row stands where it would alone
    for a in middles(laid, one):
        for b in middles(laid, other):
            between = hypot(a[0] - b[0], a[1] - b[1]) - 10 - F(19, 2)
            assert between >= min(F(9, 2), clear)


def test_a_row_beside_the_dog_strip() -> None:
    keys = SQUARE.replace("first = 120 }]", 'first = 120 }, { holes = "holdfasts", lines = [300], '
                          "first = 120 }]") + "overhang_front = 110\n"
    p, laid = made(keys)
    square, holes = laid.dogs
    assert (square.part.id, holes.part.id) == ("top-dog-strip", "top")
    # 300 from the top's front is 200 from the slab's
    assert holes.choice.lines == (200,)
    assert {y for _, y in middles(laid, holes)} == {190}
    for found in laid.dogs:
        missed(p, laid, found)


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("109", "a row of holes runs into the dog strip"),
        ("100", "a row of holes runs into the dog strip"),
        ("50, 300", "a row of holes lies outside the top, or rows lie on both sides of its dog "
         "strip"),
    ],
)
def test_a_row_over_the_edge_of_the_dog_strip(line: str, what: str) -> None:
    keys = SQUARE.replace("first = 120 }]", 'first = 120 }, { holes = "holdfasts", '
                          f"lines = [{line}], first = 120 }}]") + "overhang_front = 110\n"
    told, cure, line_told = refused(keys)
    assert told == what
    assert cure
    assert line_told == line_of("row", keys)


# -- square holes


@pytest.mark.parametrize("end", ["left", "right"])
def test_square_holes_open_at_the_strip_s_front(end: str) -> None:
    keys = SQUARE.replace("opening = 180", f'opening = 180, end = "{end}"').replace(
        "first = 120", 'first = 120, lean = "1:20"') + "overhang_front = 110\n"
    p, laid = made(keys)
    found = one_row(laid)
    assert found.lean == F(30, 20)
    for number, place in enumerate(found.places, start=1):
        (one,) = [each for each in p.cuts if each.joint == found.joint
                  and each.role == f"dog hole {number}"]
        assert isinstance(one.shape, Hull)
        assert one.shape.reach("W") == (0, 20)
        assert one.shape.reach("T") == (0, 30)
        upper = sorted(at[0] for at in one.shape.points if at[2] == 0)
        lower = sorted(at[0] for at in one.shape.points if at[2] == 30)
        assert (upper[0], upper[-1]) == (place - 10, place + 10)
        # the foot farther from end A, where the vise is
        assert (lower[0], lower[-1]) == (place - 10 + F(3, 2), place + 10 + F(3, 2))


@pytest.mark.parametrize("lean", ["1:20", "1:10", "8 deg"])
def test_a_leaning_dog_misses_what_stands_under_it_as_far_down_as_it_goes(lean: str) -> None:
    # the strip lies over the legs; a hole made longer downward by dogs_below goes on leaning. The
    # ninth of an even row stands at 945, the far leg begins at 965
    keys = (f'vise = {{ opening = 180 }}\nrow = [{{ shape = "square", front = 70, strip = 40, '
            f'first = 102, pitch = 105.375, lean = "{lean}" }}]\n')
    _, laid = made(keys)
    found = one_row(laid)
    assert found.choice.lean is not None
    foot = found.choice.lean.offset(F(30 + 100))
    for leg in (0, 940):
        low, high = leg + 25, leg + 85
        for place in found.places:
            assert place + 10 + foot <= low or high <= place - 10, (place, foot)


# -- what the maker says to miss, ends and end caps


@pytest.mark.parametrize("end", ["left", "right"])
@pytest.mark.parametrize("caps", ["", "end_caps = {}\n"])
def test_places_are_counted_from_the_top_s_end_at_the_vise(end: str, caps: str) -> None:
    keys = row('lines = [325], first = 110, clear = 5, '
               'keep_out = [{ name = "bolt", from = 400, to = 418 }]', end, caps)
    p, laid = made(keys)
    found = one_row(laid)
    from_end = [(x + 25 if end == "left" else 1025 - x) for x, _ in middles(laid, found)]
    assert from_end[0] == 110
    assert from_end == sorted(from_end)
    assert all(at + 15 <= 400 or at - 15 >= 418 for at in from_end)
    assert any(at + 15 > 400 and at - 15 < 418 for at in (
        place + laid.top.beyond for place in found.even))
    # the last one's edge keeps 38 from the top's end, or clear of the cap's tongue
    assert from_end[-1] + 10 + 38 <= 1050
    missed(p, laid, found)


def test_what_is_held_is_counted_from_the_top_s_end_too() -> None:
    # the first hole's face 100 from the top's end, the vise's dog 12 before it
    told = []
    for caps in ("", "end_caps = {}\n"):
        keys = row("lines = [325], first = 110, pitch = 100", more=caps).replace(
            "opening = 180", "opening = 180, closed = 12")
        found = one_row(made(keys)[1])
        told.append(found.held[0][0])
    assert told == [112, 112]


def test_a_first_hole_in_the_cap_s_tongue() -> None:
    # the caps are 75 wide, their tongues 25 long: a hole's edge keeps 6 from 75
    keys = row("lines = [325], first = 90", more="end_caps = {}\n")
    assert refused(keys)[0] == "the first hole runs into the tongue at end A"
    assert places(made(keys.replace("90", "91"))[1])[0] == 91 - 50


def test_under_end_caps_the_sum_leads_from_the_vise_s_end_to_the_tongue_s() -> None:
    # the cap of 75 stands 50 out beyond the tongue of 25, where the slab, and its stick, begin
    keys = row("lines = [325], first = 110, pitch = 100", more="end_caps = {}\n")
    p, laid = made(keys)
    found = next(one for one in p.sums if one.name == "middles of the dog holes")
    first, cap, gap = found.terms[:3]
    assert (first.label, first.value) == ("first hole from the vise's end", 110)
    assert (cap.sign, cap.label, cap.value) == (-1, "end cap beyond the tongue", 50)
    assert gap.value == 100
    assert found.running[1:3] == (60, 160)
    assert found.total == one_row(laid).places[-1]


# -- on a carcase, by itself


def test_on_a_carcase_only_what_lies_deeper_is_free() -> None:
    keys = row("lines = [100], first = 60")
    what, _, _ = refused(keys, before=CLIMATE + CASE)
    assert what.startswith("a row of holes runs along the case top")
    _, laid = made(keys + "dogs_below = 0\n", before=CLIMATE + CASE)
    assert places(laid) == one_row(laid).even


def test_by_itself_it_has_nothing_under_it() -> None:
    _, laid = made(ALONE + row("lines = [30, 470]"), before=CLIMATE + FRAME)
    found = one_row(laid)
    # 1200 less 38 and 10
    assert found.places == found.even == tuple(F(100 * n) for n in range(1, 12))
    assert found.choice.zones == ()


def test_holdfasts_need_no_vise() -> None:
    _, laid = made('row = [{ holes = "holdfasts", lines = [325], first = 200 }]\n')
    found = one_row(laid)
    assert found.places == (200, 500, 800)
    assert (found.held, found.choice.called) == ([], "holdfast hole")


# -- any row


@settings(max_examples=25, deadline=None)
@given(
    st.integers(12, 640), st.integers(15, 500), st.integers(60, 155), st.integers(0, 20),
    st.sampled_from(["left", "right"]), st.sampled_from(["", "fixing = { apart = 300 }\n",
                                                         'fixing = { kind = "screws" }\n']),
    st.sampled_from(["", "end_caps = {}\n"]),
)
def test_any_row_misses_everything_and_serves_the_vise(
    line: int, first: int, pitch: int, clear: int, end: str, fixed: str, caps: str
) -> None:
    keys = row(f"lines = [{line}], first = {first}, pitch = {pitch}, clear = {clear}, step = 2",
               end, fixed + caps)
    try:
        p = read(keys)
    except BadPiece as error:
        told = (error.where.line, bool(error.cure), str(error).isprintable())
    else:
        (laid,) = p.tops
        found = one_row(laid)
        missed(p, laid, found)
        assert all(after - before <= 155 for before, after in pairwise(found.places))
        for one in p.cuts:
            if one.joint == found.joint:
                assert isinstance(one.shape, Cylinder)
                low, high = one.shape.reach("L")
                assert 0 < low < high < found.part.length
        assert [one for one in dogs.findings(p) if one.rule == dogs.CLEAR
                and one.level == "stop"] == []
        return
    assert told == (line_of("row", keys), True, True)


def test_a_good_row_is_sound() -> None:
    p, _ = made(row())
    assert [one.text for one in check(p) if one.level != "note"] == []


def test_lines_are_found() -> None:
    # the helper that names lines must name the right one
    keys = row()
    text = f"{HEAD}{CLIMATE}{FRAME}[[top]]\nthickness = 30\n{keys}"
    assert text.splitlines()[line_of("row", keys) - 1].startswith("row = ")
