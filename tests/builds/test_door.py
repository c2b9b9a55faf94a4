"""Doors fitted to their openings: every part's size and place, every sum, in mm.

Unless a test says otherwise the space is 400 wide and 600 high, free 2 at the sides, 3 above and 4
below: the door is 396 x 593. Frame 20 thick, stiles 50, top rail 60, bottom rail 70 wide, so that
296 x 463 is clear; a sheet 6 thick in grooves 10 deep with 2 of room.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from layout.builds.door import Door
from layout.checks.sums import wrong
from layout.errors import BadPiece, ShoulderlineError
from layout.part import Part
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.pieces import cut, marks_of, reach, total

F = Fraction
Terms = list[tuple[int, str, Fraction]]
HEAD = 'piece = "Test"\nunit = "mm"\ntimber = "white oak"\n'
SPACE = "space = { width = 400, height = 600 }\n"
GAPS = "gap_sides = 2\ngap_top = 3\ngap_bottom = 4\n"
FRAME = "thickness = 20\nstiles = 50\ntop = { width = 60 }\nbottom = { width = 70 }\n"
SHEET = 'panel = { thickness = 6, lip = 10, room = 2, timber = "plywood" }\n'
CASE = """[[carcase]]
name = "case"
width = 440
height = 640
depth = 250
thickness = 20
"""
LEGS = """[frame]
length = 500
depth = 400
height = 800
leg = { width = 50, thickness = 50 }
[[frame.rail]]
name = "head"
sides = ["SIDE"]
top = "flush"
width = 60
thickness = 20
set_in = 5
[[frame.rail]]
name = "foot"
sides = ["SIDE"]
above_floor = 80
width = 60
thickness = 20
set_in = 5
"""


def read(
    keys: str = "", *, place: str = SPACE, gaps: str = GAPS, frame: str = FRAME,
    panel: str = SHEET, before: str = "",
) -> Piece:
    """A piece with one [[door]] of these keys."""
    text = f"{HEAD}{before}[[door]]\n{place}{gaps}{frame}{panel}{keys}"
    return work_out(piece_from(parse_toml(text, "door.toml")))


def made(keys: str = "", **changes: str) -> tuple[Piece, Door]:
    """One door and its piece, all sums confirmed by the parts."""
    p = read(keys, **changes)
    assert wrong(p) == []
    (door,) = p.doors
    return p, door


def refused(keys: str = "", **changes: str) -> tuple[str, str, int | None]:
    """What is wrong, the cure, and the line that is blamed."""
    with pytest.raises(BadPiece) as caught:
        read(keys, **changes)
    told = caught.value
    assert str(told).count(told.what) == 1
    assert told.cure or "must be more than 0" in told.what  # which says what would be right
    return told.what, told.cure, told.where.line


def sized(part: Part) -> tuple[Fraction, ...]:
    return (part.length, part.width, part.thickness)


def stands(door: Door, part: Part) -> tuple[tuple[Fraction, Fraction], ...]:
    """Its reach right, inward and up from the opening's corner."""
    return door.site.spans(part)


def terms(p: Piece, part: str, name: str) -> Terms:
    """The terms of the one sum of this name on a part."""
    (found,) = [one for one in p.sums if (one.part, one.name) == (part, name)]
    return [tuple(term) for term in found.terms]  # type: ignore[misc]


# -- a single door


def test_every_part_where_it_stands() -> None:
    _, door = made()
    found = {part.id: (part.kind, sized(part), stands(door, part)) for part in door.parts}
    # tenons 3/4 of a stile, 37 1/2: rails 296 + 75 = 371 long from 52 - 37 1/2
    level = (F(29, 2), F(771, 2))
    assert found == {
        "door-left-stile": ("stile", (593, 50, 20), ((2, 52), (0, 20), (4, 597))),
        "door-right-stile": ("stile", (593, 50, 20), ((348, 398), (0, 20), (4, 597))),
        "door-top-rail": ("rail", (371, 60, 20), (level, (0, 20), (537, 597))),
        "door-bottom-rail": ("rail", (371, 70, 20), (level, (0, 20), (4, 74))),
        # 296 + 20 - 2 by 463 + 20 - 2, in the middle of the grooves and of the thickness
        "door-panel": ("door panel", (481, 314, 6), ((43, 357), (7, 13), (65, 546))),
    }
    assert (door.width, door.height, door.hand, door.meets) == (396, 593, "left", None)
    assert (door.hinged.id, door.locked.id) == ("door-left-stile", "door-right-stile")


def test_every_size_s_sum() -> None:
    p, _ = made()
    assert terms(p, "door-left-stile", "width of the door") == [
        (1, "width of the opening", 400), (-1, "at each side", 2), (-1, "at each side", 2),
    ]
    assert terms(p, "door-left-stile", "height of the door") == [
        (1, "height of the opening", 600), (-1, "free above", 3), (-1, "free below", 4),
    ]
    for rail in ("door-top-rail", "door-bottom-rail"):
        assert terms(p, rail, "shoulder distance") == [
            (1, "width of the door", 396), (-1, "left stile", 50), (-1, "right stile", 50),
        ]
        assert terms(p, rail, "tenon length") == [(1, "3/4 of the stile width", F(75, 2))]
        assert total(p, rail, "cut length") == 371
    assert terms(p, "door-bottom-rail", "clear between the rails") == [
        (1, "height of the door", 593), (-1, "bottom rail", 70), (-1, "top rail", 60),
    ]
    assert terms(p, "door-panel", "panel width") == [
        (1, "width of the opening", 296), (1, "lip", 10), (1, "lip", 10), (-1, "room to fit", 2),
    ]
    assert terms(p, "door-panel", "panel length") == [
        (1, "height of the opening", 463), (1, "lip", 10), (1, "lip", 10), (-1, "room to fit", 2),
    ]
    for part in ("door-left-stile", "door-right-stile", "door-top-rail", "door-bottom-rail"):
        assert terms(p, part, "groove from the face side") == [
            (1, "half of the thickness", 10), (-1, "half of the groove width", 3),
        ]
        assert terms(p, part, "far groove wall from the face side") == [
            (1, "near groove wall", 7), (1, "width of the groove", 6),
        ]


def test_the_grooves() -> None:
    p, _ = made()
    for part, joint, long, across in (
        ("door-left-stile", "door.seat", 593, (40, 50)),
        ("door-right-stile", "door.seat", 593, (40, 50)),
        ("door-bottom-rail", "door.1.seat", 371, (0, 10)),
        ("door-top-rail", "door.1.seat", 371, (50, 60)),
    ):
        assert reach(cut(p, part, joint, "groove").shape) == ((0, long), across, (7, 13))


def test_a_haunch_fills_the_groove_at_both_ends_of_the_stile() -> None:
    p, _ = made()
    # the tenon 37 1/2 long, its haunch as long as the groove is deep, a third of the rail wide
    top = cut(p, "door-top-rail", "door-top-rail.A", "top shoulder waste A")
    assert reach(top.shape) == ((0, F(75, 2) - 10), (0, 20), (7, 13))
    foot = cut(p, "door-bottom-rail", "door-bottom-rail.A", "bottom shoulder waste A")
    assert reach(foot.shape) == ((0, F(75, 2) - 10), (F(140, 3), 70), (7, 13))
    # no socket: the groove is its socket
    assert not [one for one in p.cuts if one.role == "haunch socket"]
    # mortises lie under the haunches
    spans = {one.joint: reach(one.shape)[0] for one in p.cuts
             if one.role == "mortise" and one.part == "door-left-stile"}
    assert spans == {"door-top-rail.A": (20, 50),
                     "door-bottom-rail.A": (593 - 70 + 10, 593 - F(70, 3))}


def test_what_is_left_out_follows_the_stiles_and_the_usual() -> None:
    _, door = made(gaps="", frame="thickness = 20\nstiles = 55\n",
                   panel='panel = { thickness = 6, timber = "plywood" }\n')
    # 1 1/2 free all round; rails as wide as the stiles; lip 10, room 1 1/2
    assert (door.width, door.height) == (397, 597)
    assert {one.rail.part.width for one in door.rails} == {55}
    assert (door.size.lip, door.size.plane) == (10, 7)
    assert sized(door.bays[0].part) == (
        597 - 110 + 20 - F(3, 2), 397 - 110 + 20 - F(3, 2), 6
    )


# -- middle rails and muntins

TWO_MIDDLES = """
[[door.middle]]
width = 50
above = 200
[[door.middle]]
width = 40
"""


def test_middle_rails_share_what_is_left_equally() -> None:
    p, door = made("[[door.middle]]\nwidth = 53\n")
    # 593 - 60 - 70 - 53 = 410: 205 each
    assert [bay.height for bay in door.bays] == [205, 205]
    assert stands(door, p.part("door-middle-rail"))[2] == (4 + 70 + 205, 4 + 70 + 205 + 53)
    assert terms(p, "door-middle-rail", "clear between the rails") == [
        (1, "1/2 of the height of the door", F(593, 2)), (-1, "1/2 of the bottom rail", 35),
        (-1, "1/2 of the middle rail", F(53, 2)), (-1, "1/2 of the top rail", 30),
    ]
    assert [bay.part.id for bay in door.bays] == ["door-panel-1", "door-panel-2"]


def test_a_middle_rail_that_is_given_leaves_the_rest_to_the_others() -> None:
    p, door = made(TWO_MIDDLES)
    # 593 - 60 - 70 - 50 - 40 - 200 = 173: 86 1/2 each for the two rows that are open
    assert [bay.height for bay in door.bays] == [200, F(173, 2), F(173, 2)]
    feet = [stands(door, one.rail.part)[2][0] - 4 for one in door.rails]
    assert feet == [0, 270, 320 + F(173, 2), 533]
    assert terms(p, "door-middle-rail-2", "clear between the rails")[-1] == (
        -1, "1/2 of the clear below the middle rail 1", 100
    )
    # a middle rail has a groove along both edges
    for joint, across in (("door.1.seat", (40, 50)), ("door.2.seat", (0, 10))):
        assert reach(cut(p, "door-middle-rail-1", joint, "groove").shape)[1] == across


def test_muntins_divide_their_row_equally() -> None:
    p, door = made(TWO_MIDDLES + "[[door.muntin]]\nrow = 1\ncount = 2\nwidth = 41\n")
    # (296 - 2 x 41) / 3 = 214 / 3
    clear = F(214, 3)
    assert [(bay.row, bay.column, bay.width) for bay in door.bays] == [
        (1, 1, clear), (1, 2, clear), (1, 3, clear), (2, 1, 296), (3, 1, 296),
    ]
    assert [bay.part.id for bay in door.bays] == [
        "door-panel-1-1", "door-panel-1-2", "door-panel-1-3", "door-panel-2", "door-panel-3",
    ]
    assert [stands(door, one.rail.part)[0] for one in door.muntins] == [
        (52 + clear, 52 + clear + 41), (52 + 2 * clear + 41, 348 - clear),
    ]
    assert total(p, "door-muntin-1-1", "shoulder distance") == 200
    assert terms(p, "door-muntin-1-1", "clear between the uprights (row 1)".split(" (")[0]) == [
        (1, "1/3 of the shoulder distance", F(296, 3)), (-1, "1/3 of 2 muntins", F(82, 3)),
    ]
    # a groove along both of its edges, from the bay on each side
    assert reach(cut(p, "door-muntin-1-1", "door.1.1.seat", "groove").shape)[1] == (0, 10)
    assert reach(cut(p, "door-muntin-1-1", "door.1.2.seat", "groove").shape)[1] == (31, 41)
    # its tenons end inside the rails
    for end, rail in (("A", "door-middle-rail-1"), ("B", "door-bottom-rail")):
        mortise = cut(p, rail, f"door-muntin-1-1.{end}", "mortise")
        low, high = reach(mortise.shape)[1]
        assert (low, high) != (0, p.part(rail).width)


def test_a_row_s_own_muntins_count_before_those_of_every_row() -> None:
    _, door = made(TWO_MIDDLES + "[[door.muntin]]\nwidth = 40\n[[door.muntin]]\nrow = 2\ncount = 3"
                   "\nwidth = 30\n")
    assert [sum(bay.row == row for bay in door.bays) for row in (1, 2, 3)] == [2, 4, 2]
    assert [bay.width for bay in door.bays if bay.row == 2] == [F(206, 4)] * 4
    assert [bay.width for bay in door.bays if bay.row == 3] == [128] * 2


# -- pairs


def test_a_pair_that_only_meets() -> None:
    p = read("pair = true\ngap_between = 3\n")
    assert wrong(p) == []
    left, right = p.doors
    # (400 - 2 - 2 - 3) / 2
    assert (left.x, right.x) == ((2, F(397, 2)), (F(403, 2), 398))
    assert left.width == right.width == F(393, 2)
    assert (left.hand, left.meets, right.hand, right.meets) == ("left", "right", "right", "left")
    assert (left.name, right.name) == ("left door", "right door")
    assert terms(p, "left-door-left-stile", "width of the door") == [
        (1, "half of width of the opening", 200), (-1, "half of at each side", 1),
        (-1, "half of at each side", 1), (-1, "half of the gap between them", F(3, 2)),
    ]
    assert not [one for one in p.cuts if "meeting" in one.joint]
    assert right.hinged.id == "right-door-right-stile"


def test_the_meeting_stiles_of_a_rebated_pair_close_into_each_other() -> None:
    p = read("pair = true\ngap_between = 3\nrebate = 8\n")
    assert wrong(p) == []
    left, right = p.doors
    # half of 396 and half of the rebate each
    assert left.width == right.width == 198 + 4
    assert left.x[1] - right.x[0] == 8
    front = cut(p, "left-door-right-stile", "left-door.meeting", "edge rabbet").shape
    back = cut(p, "right-door-left-stile", "right-door.meeting", "edge rabbet").shape
    assert reach(front) == ((0, 593), (0, 11), (0, 10))
    assert reach(back) == ((0, 593), (0, 11), (10, 20))
    for part in ("left-door-right-stile", "right-door-left-stile"):
        assert terms(p, part, "width of the meeting rebate") == [
            (1, "rebate", 8), (1, "gap between them", 3),
        ]
    # seen from above (x, y) what is left of the two stiles is 3 apart, and nowhere shares wood
    a, b = (float(at) for at in stands(left, left.stiles[1])[0])
    c, d = (float(at) for at in stands(right, right.stiles[0])[0])
    one = box(a, 0, b, 20) - box(b - 11, 0, b, 10)
    other = box(c, 0, d, 20) - box(c, 10, c + 11, 20)
    assert one.intersection(other).area == 0
    for low, high in ((0, 10), (10, 20)):  # in front, and behind
        half = box(-999, low + 1, 999, high - 1)
        assert round((one & half).distance(other & half), 9) == 3


# -- overlay, in an opening, proud, horns


def test_an_overlay_door_covers_its_opening_on_every_side() -> None:
    p, door = made('mount = "overlay"\nover = 12\n', gaps="")
    assert (door.x, door.z, door.y) == ((-12, 412), (-12, 612), -20)
    assert (door.width, door.height) == (424, 624)
    assert stands(door, door.stiles[0])[1] == (-20, 0)
    assert terms(p, "door-left-stile", "width of the door") == [
        (1, "width of the opening", 400), (1, "covered at each side", 12),
        (1, "covered at each side", 12),
    ]
    assert terms(p, "door-left-stile", "height of the door") == [
        (1, "height of the opening", 600), (1, "covered above", 12), (1, "covered below", 12),
    ]
    # it stands on the floor, not below it
    assert min(part.reach(2)[0] for part in door.parts) == 0


def test_a_door_in_a_carcase() -> None:
    p, door = made('openings = ["inside case"]\nset_in = 1\n', place="", before=CASE)
    # the case is 400 x 600 inside
    assert (door.width, door.height) == (396, 593)
    case = {part.id: part for part in p.parts if part.id.startswith("case")}
    left, top = case["case-left-side"], case["case-top"]
    assert door.stiles[0].reach(0)[0] - left.reach(0)[1] == 2
    assert top.reach(2)[0] - door.stiles[0].reach(2)[1] == 3
    assert door.stiles[0].reach(1)[0] - left.reach(1)[0] == 1


@pytest.mark.parametrize("side", ["front", "back", "left", "right"])
def test_a_door_in_any_side_of_a_frame(side: str) -> None:
    p, door = made(f'openings = ["{side} under head"]\n', place="",
                   before=LEGS.replace("SIDE", side))
    clear = 400 if side in ("front", "back") else 300
    assert (door.width, door.height) == (clear - 4, 800 - 60 - 140 - 7)
    assert door.opening is not None
    # its face lies in the rails' own plane, 5 behind the legs
    axis, low = {"front": (1, True), "back": (1, False), "left": (0, True),
                 "right": (0, False)}[side]
    rail = p.part(f"{side}-head")
    end = 0 if low else 1
    assert {part.reach(axis)[end] for part in door.stiles} == {rail.reach(axis)[end]}
    # end A is the head of a stile, its face edge outside
    assert {part.placement.L for part in door.stiles} == {"-Z"}


def test_horns_and_tenons_left_proud() -> None:
    p, door = made("horns = 15\nleft_proud = 3\ntenon = { through = true }\n")
    assert [part.length for part in door.stiles] == [593, 593]
    for stile in door.stiles:
        assert terms(p, stile.id, "length with horns") == [
            (1, "stile length", 593), (1, "horn at the top", 15), (1, "horn at the foot", 15),
        ]
    for rail in ("door-top-rail", "door-bottom-rail"):
        assert p.part(rail).length == 296 + 100
        assert terms(p, rail, "length with tenons left proud") == [
            (1, "cut length", 396), (1, "proud at end A", 3), (1, "proud at end B", 3),
        ]
    quiet, _ = made()
    assert not [one for one in quiet.sums if one.name.startswith("length with")]
    # tenons that end inside a stile can't be left proud of it
    with pytest.raises(BadPiece, match="none is left proud"):
        made("left_proud = 3\n")


# -- glass and panels in rabbets

GLASS = "glass = { thickness = 3, rabbet_depth = 12, lip = 8, room = 3 }\n"


def test_glass_in_a_rabbet_with_long_and_short_shoulders() -> None:
    p, door = made(panel=GLASS)
    (bay,) = door.bays
    assert (bay.part.id, bay.part.timber) == ("door-glass", "glass")
    # 296 + 16 - 3 by 463 + 16 - 3; its front where the rabbet begins, 20 - 12 behind the face
    assert sized(bay.part) == (476, 309, 3)
    assert stands(door, bay.part) == (
        (F(91, 2), F(709, 2)), (8, 11), (74 - 8 + F(3, 2), 537 + 8 - F(3, 2))
    )
    for stile in ("door-left-stile", "door-right-stile"):
        assert reach(cut(p, stile, "door.seat", "rabbet").shape) == ((0, 593), (42, 50), (8, 20))
        assert terms(p, stile, "wood in front of the seat") == [
            (1, "thickness", 20), (-1, "rabbet depth", 12),
        ]
        assert terms(p, stile, "rabbet lip from the face edge") == [(1, "width", 50),
                                                                   (-1, "lip", 8)]
    # behind the rabbet the shoulders reach 8 further into the stiles' rabbets
    for rail in ("door-top-rail", "door-bottom-rail"):
        assert terms(p, rail, "back shoulder distance") == [
            (1, "shoulder distance", 296), (1, "lip at end A", 8), (1, "lip at end B", 8),
        ]
        long = cut(p, rail, f"{rail}.A", "long shoulder waste A")
        assert reach(long.shape) == ((0, F(75, 2) - 8), (0, p.part(rail).width), (8, 20))
    # the haunch is square: a rabbet leaves no groove to fill
    sockets = [one for one in p.cuts if one.role == "haunch socket"]
    assert len(sockets) == 4


def test_a_stopped_rabbet_ends_at_the_rails() -> None:
    p, _ = made(panel=GLASS.replace("lip", 'run = "stopped", lip'))
    # from 60 - 8 below the top to 70 - 8 above the foot
    for stile in ("door-left-stile", "door-right-stile"):
        assert reach(cut(p, stile, "door.seat", "rabbet").shape)[0] == (52, 531)
    assert not [one for one in p.sums if one.name == "back shoulder distance"]


def test_a_loose_panel_in_a_rabbet_lies_behind_the_wood_in_front_of_it() -> None:
    p, door = made(panel='panel = { thickness = 6, lip = 10, room = 2, timber = "plywood",'
                   ' seat = "rabbet", rabbet_depth = 8 }\n')
    assert stands(door, door.bays[0].part)[1] == (12, 18)
    assert total(p, "door-left-stile", "wood in front of the seat") == 12
    # left out, the rabbet is as deep as the panel is thick
    _, door = made(panel='panel = { thickness = 6, lip = 10, room = 2, timber = "plywood",'
                   ' seat = "rabbet" }\n')
    assert stands(door, door.bays[0].part)[1] == (14, 20)


# -- solid panels

SOLID = "panel = { thickness = 6, solid = { cover = 3, play = 1.5 }, GRAIN }\n"


@pytest.mark.parametrize("grain", ["up", "across"])
def test_the_grooves_are_as_deep_as_the_widest_bay_asks(grain: str) -> None:
    # two rows: 296 wide, and 500 high and 163 high
    p, door = made("[[door.middle]]\nwidth = 50\nabove = 1000\n",
                   place="space = { width = 700, height = 1300 }\n",
                   panel=SOLID.replace("GRAIN", f'grain = "{grain}"'))
    clears = [bay.width if grain == "up" else bay.height for bay in door.bays]
    # white oak, flat-sawn, 8 % now, 6 to 10 %: 0.00365 each 1 % (Wood Handbook, Table 13-5)
    swell, shrink = 1 + 2 * F("0.00365"), 1 - 2 * F("0.00365")
    need = ((max(clears) + 6) * swell / shrink - max(clears) + F(3, 2)) / 2
    assert door.size.lip == max(10, -(-need // 1))
    assert door.size.lip == (10 if grain == "up" else 12)
    for bay, clear in zip(door.bays, clears, strict=True):
        widest = clear + 2 * door.size.lip - F(3, 2)
        assert bay.part.width == widest / swell
        named = {what: value for _, what, value in terms(p, bay.part.id, "panel width")}
        assert named["swelling, from now to its widest"] == widest - widest / swell
        assert named["play at its widest"] == F(3, 2)
        assert bay.part.length - 2 * door.size.lip == (
            bay.height if grain == "up" else bay.width
        ) - F(3, 2)


def test_a_panel_is_pinned_in_the_middle_of_its_ends() -> None:
    p, door = made("[[door.muntin]]\nwidth = 40\n", panel=SOLID.replace(", GRAIN", ""))
    lip = door.size.lip
    for bay, middle in zip(door.bays, (64, 296 - 64), strict=True):
        # each 128 wide; rails begin one tenon, 37 1/2, left of the stile
        for rail, across in ((bay.lower, (0, lip)), (bay.upper, (60 - lip, 60))):
            joint = f"door.{bay.row}.{bay.column}.seat"
            (mark,) = marks_of(p, rail.id, joint, "panel pin")
            at = F(75, 2) + middle
            assert (mark.face, mark.line) == ("back", ((at, across[0]), (at, across[1])))
            assert total(p, rail.id, f"panel pin from end A ({bay.part.name})") == at


def test_a_panel_with_its_grain_across_is_pinned_through_the_stiles() -> None:
    p, door = made(panel=SOLID.replace("GRAIN", 'grain = "across"'))
    lip = door.size.lip
    for stile in door.stiles:
        (mark,) = marks_of(p, stile.id, "door.1.1.seat", "panel pin")
        # half of 463 below the top rail
        assert mark.line == ((60 + F(463, 2), 50 - lip), (60 + F(463, 2), 50))
    spacers = SOLID.replace("GRAIN", 'grain = "across"').replace("play", 'held = "spacers", play')
    assert not [one for one in read(panel=spacers).marks if one.role == "panel pin"]


def test_a_raised_panel_stands_with_its_tongue_in_the_groove() -> None:
    _, door = made(panel="panel = { thickness = 14, edge = \"raised\", tongue = 5, wood_behind = 2,"
                   " border = 40, step = 2, solid = {} }\n")
    # groove 5 wide in the middle of 20: at 7 1/2; the tongue 14 - 5 - 2 = 7 under the panel's face
    assert (door.size.plane, door.choice.seat.panel_thickness) == (F(15, 2), 5)
    assert stands(door, door.bays[0].part)[1] == (F(1, 2), F(29, 2))


# -- any door: frame and openings tile it


def flat(x0: Fraction, x1: Fraction, z0: Fraction, z1: Fraction) -> Polygon:
    """A rectangle of the door's face."""
    return box(float(x0), float(z0), float(x1), float(z1))


@settings(max_examples=8, deadline=None)
@given(
    wide=st.integers(500, 900), high=st.integers(900, 2000), stile=st.integers(30, 60),
    middles=st.lists(st.tuples(st.integers(30, 60), st.none() | st.integers(90, 150)), max_size=3),
    muntins=st.lists(st.integers(1, 3), max_size=2), pair=st.booleans(),
)
def test_frame_and_panels_tile_the_face_of_any_door(
    wide: int, high: int, stile: int, middles: list[tuple[int, int | None]], muntins: list[int],
    pair: bool,
) -> None:
    keys = "pair = true\n" if pair else ""
    for width, above in middles:
        keys += f"[[door.middle]]\nwidth = {width}\n"
        keys += "" if above is None else f"above = {above}\n"
    for row, count in enumerate(muntins[: len(middles) + 1], start=1):
        keys += f"[[door.muntin]]\nrow = {row}\ncount = {count}\nwidth = 22\n"
    p = read(keys, place=f"space = {{ width = {wide}, height = {high} }}\n",
             frame=f"thickness = 20\nstiles = {stile}\n")
    assert wrong(p) == []
    for door in p.doors:
        shapes = [flat(*stands(door, each)[0], *door.z) for each in door.stiles]
        inner = (door.x[0] + stile, door.x[1] - stile)  # rails between their shoulders
        shapes += [flat(*inner, *stands(door, one.rail.part)[2]) for one in door.rails]
        for bay in door.bays:
            x, z = stands(door, bay.left)[0][1], stands(door, bay.lower)[2][1]
            shapes.append(flat(x, x + bay.width, z, z + bay.height))
            if bay.right.kind == "muntin":
                shapes.append(flat(*stands(door, bay.right)[0], z, z + bay.height))
        assert all(one.intersection(other).area < 1e-6 for one, other in combinations(shapes, 2))
        assert unary_union(shapes).symmetric_difference(flat(*door.x, *door.z)).area < 1e-6
        # open rows are alike, given ones as given
        given_ = [above for _, above in middles]
        clear = [next(bay.height for bay in door.bays if bay.row == row)
                 for row in range(1, len(middles) + 2)]
        assert [size for size, above in zip(clear, [*given_, None], strict=True)
                if above is not None] == [above for above in given_ if above is not None]
        assert len({size for size, above in zip(clear, [*given_, None], strict=True)
                    if above is None}) == 1


# -- refused


def test_gaps_that_leave_nothing_of_a_door() -> None:
    assert refused(gaps="gap_sides = 200\n") == (
        "what is free around the door leaves nothing of it",
        "make the gaps less, or the opening larger", 4,
    )
    assert refused(gaps="gap_top = 300\ngap_bottom = 300\n")[0] == (
        "what is free around the door leaves nothing of it"
    )
    # one mm less, and there is a door, but no room between its stiles
    assert refused(gaps="gap_sides = 199\n")[0] == (
        "the stiles of the door leave nothing between them"
    )


def test_stiles_that_meet() -> None:
    what, cure, line = refused(frame="thickness = 20\nstiles = 198\n")
    assert (what, cure, line) == ("the stiles of the door leave nothing between them",
                                  "make them narrower, or the door wider", 4)
    made(frame="thickness = 20\nstiles = 197\ntop = { width = 60 }\nbottom = { width = 60 }\n")


@pytest.mark.parametrize(
    "keys",
    [
        "[[door.middle]]\nwidth = 463\n",
        "[[door.middle]]\nwidth = 50\nabove = 413\n",
        "[[door.middle]]\nwidth = 50\nabove = 9000\n",
        "[[door.middle]]\nwidth = 50\n" * 10,
    ],
)
def test_rails_higher_than_the_door(keys: str) -> None:
    assert refused(keys) == ("the rails of the door leave nothing between them",
                             "make them narrower, or the door higher", 4)


def test_muntins_that_leave_nothing() -> None:
    keys = "[[door.muntin]]\ncount = 3\nwidth = 99\n"
    what, cure, line = refused(keys)
    assert (what, cure) == ("the muntins of the door leave nothing between them",
                            "make them narrower, or fewer")
    assert line == 1 + (HEAD + "[[door]]\n" + SPACE + GAPS + FRAME + SHEET).count("\n")
    made(keys.replace("99", "98"))
    what, cure, line = refused("[[door.muntin]]\nrow = 2\nwidth = 30\n")
    assert (what, cure) == ("there is no row 2 of panels in the door",
                            "it has 1; the lowest is row 1")


@pytest.mark.parametrize(
    ("keys", "what"),
    [
        ("[[door.middle]]\nwidth = 20\n" * 11, "a door of 11 middle rails"),
        ("[[door.muntin]]\ncount = 13\nwidth = 5\n", "13"),
        ("[[door.muntin]]\ncount = 0\nwidth = 5\n", "0"),
        ("hinges = { length = 50, count = 1 }\n", "1"),
        ("hinges = { length = 50, count = 999999999999 }\n", "999999999999"),
        ("horns = -1\n", "-1"),
        ("left_proud = \"-1/8 in\"\n", "-1/8"),
        ("horns = 2001\n", "more than 2 m"),
    ],
)
def test_counts_and_sizes_that_can_t_be(keys: str, what: str) -> None:
    with pytest.raises(ShoulderlineError) as caught:
        read(keys)
    assert what in str(caught.value)
    assert caught.value.where.line is not None


@pytest.mark.parametrize("key", ["thickness", "stiles", "top", "bottom"])
@pytest.mark.parametrize("size", ["0", "-3", "20000", "1e9"])
def test_frames_that_can_t_be(key: str, size: str) -> None:
    lines = {"thickness": "20", "stiles": "50", "top": "{ width = 60 }", "bottom": "{ width = 70 }"}
    lines[key] = size if key in ("thickness", "stiles") else f"{{ width = {size} }}"
    with pytest.raises(ShoulderlineError) as caught:
        read(frame="".join(f"{name} = {value}\n" for name, value in lines.items()))
    told = caught.value
    assert told.cure or "must be more than 0" in told.what
    assert told.where.line is not None


@pytest.mark.parametrize(
    ("place", "what"),
    [
        ("space = { width = 0, height = 600 }\n", "must be more than 0"),
        ("space = { width = -1, height = 600 }\n", "-1 is below zero"),
        ("space = { width = 400, height = 10001 }\n", "is more than 10 m one way"),
        ('openings = ["nowhere"]\n', "there is no opening 'nowhere'"),
        ("openings = []\n", "openings"),
        ("", "openings"),
        (SPACE + 'openings = ["inside case"]\n', "space"),
    ],
)
def test_places_that_can_t_be(place: str, what: str) -> None:
    told = refused(place=place)
    assert what in " ".join(told[:2])


def test_an_opening_with_two_doors() -> None:
    second = '[[door]]\nname = "other"\nopenings = ["inside case"]\n' + GAPS + FRAME + SHEET
    what, cure, _ = refused('openings = ["inside case"]\n' + second, place="", before=CASE)
    assert what == "the opening 'inside case' is given two doors"
    assert cure == "name each opening once, or write pair = true"


def test_room_that_leaves_nothing_of_a_panel() -> None:
    what, cure, _ = refused(panel='panel = { thickness = 6, lip = 10, room = 316,'
                            ' timber = "plywood" }\n')
    assert what == "the room to fit leaves nothing of the door panel"
    assert cure == "room is what the panel is cut smaller by; make it less"


def test_an_overlay_door_beside_another_is_clear_of_it_by_what_it_covers() -> None:
    other = '[[door]]\nname = "other"\n' + SPACE + 'mount = "overlay"\nover = 12\n' + FRAME + SHEET
    inset, overlay = read(other).doors
    # the space of the first ends at 400, free 2 from its door; two things stand 100 apart
    apart = overlay.site.origin[0] + overlay.x[0] - (inset.site.origin[0] + inset.x[1])
    plain = '[[door]]\nname = "other"\n' + SPACE + "gap_sides = 0\n" + FRAME + SHEET
    first, second = read(plain).doors
    assert apart == second.site.origin[0] + second.x[0] - (first.site.origin[0] + first.x[1]) > 0


def test_grooves_too_deep_for_the_frame_are_blamed_on_the_year() -> None:
    solid = 'edge = "tongue", timber = "cherry", solid = { play = 90 }'
    panel = f"panel = {{ thickness = 12, {solid} }}\n"
    what, cure, _ = refused(panel=panel)
    assert what.startswith("for its year the panel of the door asks for grooves too deep")
    assert "less cover and play" in cure


# -- what would spoil wood without a word


@pytest.mark.parametrize(
    ("keys", "place", "told_of"),
    [
        ("tenon = { through = true, key = {} }\n", None, "would keep it from its opening"),
        ("tenon = { through = true, projection = 5 }\n", None, "would keep it from its opening"),
        ("left_proud = 3\n", None, "no tenon of the door goes through"),
        ("tenon = { through = true }\nleft_proud = 50\n", None, "prouder than its stile is wide"),
        ('openings = ["inside case"]\nset_in = 500\n', "", "stand out at the back"),
    ],
)
def test_a_door_that_can_t_be_hung_is_refused(
    keys: str, place: str | None, told_of: str
) -> None:
    more = {} if place is None else {"place": place, "before": CASE}
    with pytest.raises(ShoulderlineError, match=told_of):
        read(keys, **more)


def test_a_door_s_sound_relatives_stand() -> None:
    assert read("tenon = { through = true }\nleft_proud = 3\n").doors
    assert read('openings = ["inside case"]\nset_in = 5\n', place="", before=CASE).doors
