"""Drawers of each style: every part's size and place, every sum, all in mm.

Unless a test says otherwise the space is 400 wide, 100 high and 350 deep; front 20, sides 12, back
14; lap 6, so the tails in the front are 14 long as those in the back are, and a side slopes 2. Room
2 in width and height, 10 behind; the back 6 lower than the sides. Bottom 6 thick, 6 above the
lower edge, its grooves 6 deep, 2 of room.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import (
    BottomChoice,
    DrawerChoice,
    SlipChoice,
    SlotChoice,
    Space,
)
from layout.builds.choices import LegChoice, RailChoice
from layout.builds.drawer import Drawer
from layout.builds.frame import SIDES
from layout.builds.opening import Side
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.kit import usual_kit
from layout.measure import default_rule
from layout.part import Part
from layout.piece import Piece, PieceChoice, work_out
from tests.joints.test_spacing import dovetails
from tests.pieces import cut, frame, marks_of, rail, reach, tenon

F = Fraction
Spans = tuple[tuple[int, int], tuple[int, int], tuple[int, int]]


def bottom(**changes: object) -> BottomChoice:
    """Plywood 6 thick in grooves 6 above the lower edge."""
    usual = BottomChoice(
        kind="plywood", thickness=F(6), up=F(6), usual_deep=F(6), deep=None, tongue=None, room=F(2),
        clear=F(1), timber="plywood",
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def drawer(**changes: object) -> DrawerChoice:
    """A flush drawer in a space of its own."""
    usual = DrawerChoice(
        name="drawer", openings=(), space=Space(F(400), F(100), F(350)), front=F(20), sides=F(12),
        back=F(14), style="flush", set_in=F(0), lip=F(10), lip_thickness=F(6), room_wide=F(2),
        room_high=F(2), room_behind=F(10), length=None, height=None, drop=F(6),
        front_joint=dovetails(lap=F(6)), back_joint=dovetails(), bottom=bottom(), timber="oak",
        side_timber="pine",
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def boxes(**changes: object) -> Piece:
    """A piece in mm that is nothing but chests and drawers, and perhaps a frame."""
    usual = PieceChoice(
        "Test boxes", "mm", default_rule("mm"), usual_kit("mm"), F(5), F(1),
    )
    return work_out(usual._replace(**changes))  # type: ignore[arg-type]


def made(*, agreed: bool = True, **changes: object) -> tuple[Piece, Drawer]:
    """One drawer and its piece, all sums confirmed."""
    p = boxes(drawers=(drawer(**changes),))
    assert not agreed or wrong(p) == []
    return p, p.drawers[0]


def mm_rail(name: str, **changes: object) -> RailChoice:
    """A rail 40 x 20 flush with the legs' faces and tops, its tenons 20 long and 8 thick."""
    usual = {"width": F(40), "thickness": F(20), "below_top": F(0),
             "tenon": tenon(length=F(20), shoulder=F(5), thickness=F(8))}
    return rail(name, **{**usual, **changes})


def stand(*rails: RailChoice, side: Side = "front", set_in: int = 0, **changes: object) -> object:
    """600 x 600 x 700 over legs 50 square: two rails around an opening 500 wide and 100 high whose
    lower edge is at 560, and other rails.
    """
    own = (
        mm_rail("top rail", sides=(side,), set_in=F(set_in)),
        mm_rail("low rail", sides=(side,), set_in=F(set_in), below_top=F(140)),
    )
    usual = {"length": F(600), "depth": F(600), "height": F(700), "leg": LegChoice(F(50), F(50))}
    return frame(*own, *rails, **{**usual, **changes})


def framed(
    *rails: RailChoice, side: Side = "front", set_in: int = 0, **changes: object
) -> tuple[Piece, Drawer]:
    """A drawer in the opening of a frame, and its piece."""
    usual = {"space": None, "openings": (f"{side} under top rail",)}
    p = boxes(frame=stand(*rails, side=side, set_in=set_in),
              drawers=(drawer(**{**usual, **changes}),))
    return p, p.drawers[0]


def spans(one: Drawer, part: Part) -> Spans:
    """Its reach right, inward and up from the opening's left lower corner."""
    return one.hole.site.spans(part)  # type: ignore[return-value]


def sized(part: Part) -> tuple[Fraction, Fraction, Fraction]:
    return (part.length, part.width, part.thickness)


def terms(p: Piece, part: str, name: str) -> list[tuple[int, str, Fraction]]:
    """The terms of the one sum of this name on a part."""
    (found,) = [one for one in p.sums if (one.part, one.name) == (part, name)]
    return [tuple(term) for term in found.terms]  # type: ignore[misc]


# -- a flush drawer


def test_every_part_of_a_flush_drawer_where_it_stands() -> None:
    _, one = made()
    # 400 - 2 = 398 wide, 100 - 2 = 98 high, from 1 to 399; the back ends 350 - 10 = 340 inward
    found = {part.id: (sized(part), spans(one, part)) for part in one.parts}
    assert found == {
        "drawer-front": ((398, 98, 20), ((1, 399), (0, 20), (0, 98))),
        # from the lap: 340 - 6 = 334 long
        "drawer-left-side": ((334, 98, 12), ((1, 13), (6, 340), (0, 98))),
        "drawer-right-side": ((334, 98, 12), ((387, 399), (6, 340), (0, 98))),
        # from the top of the groove, 12, to 6 below the sides': 98 - 12 - 6
        "drawer-back": ((398, 80, 14), ((1, 399), (326, 340), (12, 92))),
        # 398 - 24 + 12 - 2 = 384; from 20 - 6 = 14 to the back's outside
        "drawer-bottom": ((384, 326, 6), ((8, 392), (14, 340), (6, 12))),
    }
    assert (one.width, one.height, one.inside, one.out, one.rear, one.deep, one.lip) == (
        398, 98, 374, 0, 340, 6, 0,
    )


def test_parts_are_named_and_turned_for_the_maker() -> None:
    _, one = made()
    assert [(p.name, p.kind, p.timber, p.hand) for p in one.parts] == [
        ("drawer front", "drawer front", "oak", ""),
        ("drawer left side", "drawer side", "pine", "left"),
        ("drawer right side", "drawer side", "pine", "right"),
        ("drawer back", "drawer back", "pine", ""),
        ("drawer bottom", "drawer bottom", "plywood", ""),
    ]
    ways = {p.name: (p.placement.L, p.placement.W, p.placement.T) for p in one.parts}
    assert ways == {
        "drawer front": ("+X", "+Z", "-Y"),  # end A at the left, edge below, face side inside
        "drawer left side": ("+Y", "+Z", "-X"),  # end A at the front
        "drawer right side": ("+Y", "+Z", "+X"),
        "drawer back": ("-X", "+Z", "+Y"),  # end A at the right
        "drawer bottom": ("+X", "+Y", "-Z"),  # face side up
    }


def test_corners_go_round_from_the_front_left() -> None:
    _, one = made()
    assert [(c.name, c.letter, c.tails.id, c.tail_end, c.pins.id, c.pin_end, c.lip, c.open_far)
            for c in one.corners] == [
        ("drawer.A", "A", "drawer-left-side", "A", "drawer-front", "A", 0, False),
        ("drawer.B", "B", "drawer-right-side", "A", "drawer-front", "B", 0, False),
        ("drawer.C", "C", "drawer-right-side", "B", "drawer-back", "A", 0, True),
        ("drawer.D", "D", "drawer-left-side", "B", "drawer-back", "B", 0, True),
    ]
    front, back = one.corners[0], one.corners[2]
    assert (front.depth, front.spacing.width, front.shift) == (14, 98, 0)
    assert (back.depth, back.spacing.width, back.shift) == (14, 80, 12)


def test_the_fronts_tails_make_room_for_the_groove_and_the_backs_need_not() -> None:
    _, one = made()
    # groove from 6, 1 clear, a slope of 2: 3 is left; (98 - 3 - 8 - 6) / 2 = 40 1/2
    assert [m.end for m in one.corners[0].spacing.members] == [3, F(81, 2), 6, F(81, 2), 8]
    # (80 - 16 - 6) / 2
    assert [m.end for m in one.corners[2].spacing.members] == [8, 29, 6, 29, 8]
    assert one.shows is False


def test_the_grooves_of_a_flush_drawer() -> None:
    p, one = made()
    assert one.grooves == {
        "drawer-front": ((6, 12), 6, (0, 398)),
        "drawer-left-side": ((6, 12), 6, (0, 334)),
        "drawer-right-side": ((6, 12), 6, (0, 334)),
    }
    assert reach(cut(p, "drawer-left-side", "drawer.bottom", "bottom groove").shape) == (
        (0, 334), (6, 12), (0, 6),
    )


def test_no_back_is_dropped_where_it_is_as_high_as_the_sides() -> None:
    _, one = made(drop=F(0))
    assert sized(one.back) == (398, 86, 14)
    assert [c.open_far for c in one.corners] == [False] * 4


def test_the_sums_of_a_flush_drawer_in_a_space() -> None:
    p, _ = made()
    opening = [(1, "width of the opening", 400), (-1, "room in width", 2)]
    high = [(1, "height of the opening", 100), (-1, "room in height", 2)]
    side = [(1, "depth for the drawer", 350), (-1, "room behind the drawer", 10), (-1, "lap", 6)]
    wall = [(1, "groove above the lower edge", 6), (1, "width of the groove", 6)]
    assert {(one.part, one.name): [tuple(term) for term in one.terms] for one in p.sums
            if not one.where} == {
        ("drawer-front", "front length"): opening,
        ("drawer-front", "front height"): high,
        ("drawer-left-side", "side length"): side,
        ("drawer-right-side", "side length"): side,
        ("drawer-left-side", "side height"): high,
        ("drawer-right-side", "side height"): high,
        ("drawer-back", "back length"): opening,
        ("drawer-back", "back height"): [
            (1, "side height", 98), (-1, "groove above the lower edge", 6),
            (-1, "width of the groove", 6), (-1, "back lower than the sides", 6),
        ],
        ("drawer-bottom", "width between the sides"): [*opening, (-1, "both sides", 24)],
        ("drawer-bottom", "bottom, side to side"): [
            (1, "width between the sides", 374), (1, "both grooves", 12), (-1, "room to fit", 2),
        ],
        ("drawer-bottom", "bottom, front to back"): [
            (1, "side length", 334), (-1, "tail length in the front", 14),
            (1, "depth of the groove", 6),
        ],
        ("drawer-front", "far groove wall from the face edge"): wall,
        ("drawer-left-side", "far groove wall from the face edge"): wall,
        ("drawer-right-side", "far groove wall from the face edge"): wall,
    }


# -- other styles


def test_a_front_set_in_takes_its_measure_from_the_sides() -> None:
    p, one = made(style="set in", set_in=F(3))
    assert spans(one, one.front)[1] == (3, 23)
    assert (sized(one.left), spans(one, one.left)[1]) == ((331, 98, 12), (9, 340))
    assert (sized(one.bottom), spans(one, one.bottom)[1]) == ((384, 323, 6), (17, 340))
    assert spans(one, one.back)[1] == (326, 340)
    assert terms(p, "drawer-left-side", "side length") == [
        (1, "depth for the drawer", 350), (-1, "room behind the drawer", 10),
        (-1, "front set in", 3), (-1, "lap", 6),
    ]


def test_a_lipped_front_stands_before_the_opening_and_beyond_it() -> None:
    p, one = made(style="lipped")
    # 398 + 20, 98 + 20; its lip 6 before the opening, its inside 14 within
    assert (sized(one.front), spans(one, one.front)) == (
        (418, 118, 20), ((-9, 409), (-6, 14), (-10, 108)),
    )
    # tails 14 long: the sides begin in the plane of the opening
    assert (sized(one.left), spans(one, one.left)) == (
        (340, 98, 12), ((1, 13), (0, 340), (0, 98)),
    )
    assert sized(one.back) == (398, 80, 14)
    assert (sized(one.bottom), spans(one, one.bottom)) == (
        (384, 332, 6), ((8, 392), (8, 340), (6, 12)),
    )
    assert [(c.lip, c.low) for c in one.corners] == [(10, 10), (10, 10), (0, 0), (0, 0)]
    assert one.grooves["drawer-front"] == ((16, 22), 6, (0, 418))
    assert one.lip == 10
    for edge, span in (
        ("edge", ((0, 418), (0, 10))), ("far edge", ((0, 418), (108, 118))),
        ("end A", ((0, 10), (0, 118))), ("end B", ((408, 418), (0, 118))),
    ):
        role = "edge rabbet" if edge == "edge" else f"edge rabbet {edge}"
        # 20 - 6 = 14 deep from the inside
        assert reach(cut(p, "drawer-front", "drawer.lip", role).shape) == (*span, (0, 14))
    assert terms(p, "drawer-front", "front length") == [
        (1, "width of the opening", 400), (-1, "room in width", 2), (1, "lips at both ends", 20),
    ]
    assert terms(p, "drawer-front", "front height") == [
        (1, "side height", 98), (1, "lips above and below", 20),
    ]
    assert terms(p, "drawer-left-side", "side length") == [
        (1, "depth for the drawer", 350), (-1, "room behind the drawer", 10),
        (1, "thickness of the lip", 6), (-1, "lap", 6),
    ]
    assert terms(p, "drawer-front", "near groove wall from the face edge") == [
        (1, "groove above the lower edge", 6), (1, "lip", 10),
    ]
    assert terms(p, "drawer-front", "far groove wall from the face edge") == [
        (1, "groove above the lower edge", 6), (1, "width of the groove", 6), (1, "lip", 10),
    ]


def test_length_and_height_as_given_are_the_drawers_own() -> None:
    p, one = made(length=F(300), height=F(90))
    assert sized(one.left) == (294, 90, 12)
    assert spans(one, one.back) == ((1, 399), (286, 300), (12, 84))
    assert terms(p, "drawer-left-side", "side length") == [
        (1, "drawer length", 300), (-1, "lap", 6),
    ]
    assert not [one for one in p.sums if one.name in ("side height", "front height")]


def test_a_given_length_is_from_the_fronts_outside() -> None:
    _, one = made(length=F(300), style="lipped")
    assert one.rear == 294
    _, one = made(length=F(300), style="set in", set_in=F(3))
    assert one.rear == 303


def test_a_back_may_be_lapped_too() -> None:
    # back 18 with a lap of 4: tails 14 long, and the sides end 4 before its outside
    p, one = made(back=F(18), back_joint=dovetails(lap=F(4)))
    assert (sized(one.left), spans(one, one.left)[1]) == ((330, 98, 12), (6, 336))
    assert spans(one, one.back)[1] == (322, 340)
    assert one.corners[2].depth == 14
    assert terms(p, "drawer-left-side", "side length") == [
        (1, "depth for the drawer", 350), (-1, "room behind the drawer", 10),
        (-1, "lap in front", 6), (-1, "lap at the back", 4),
    ]
    assert terms(p, "drawer-bottom", "bottom, front to back") == [
        (1, "side length", 330), (1, "lap at the back", 4), (-1, "tail length in the front", 14),
        (1, "depth of the groove", 6),
    ]


def test_through_dovetails_bring_the_sides_to_the_fronts_outside() -> None:
    p, one = made(front=F(14), front_joint=dovetails())
    assert (sized(one.left), spans(one, one.left)[1]) == ((340, 98, 12), (0, 340))
    assert terms(p, "drawer-left-side", "side length") == [
        (1, "depth for the drawer", 350), (-1, "room behind the drawer", 10),
    ]


# -- bottoms


def test_a_groove_is_at_most_half_as_deep_as_what_bears_it() -> None:
    assert made(sides=F(10))[1].deep == 5
    assert made(sides=F(20))[1].deep == 6
    assert made(sides=F(10), bottom=bottom(deep=F(7)))[1].deep == 7


def test_slips_carry_the_bottom_instead_of_the_sides() -> None:
    p, one = made(bottom=bottom(slips=SlipChoice(F(10), F(5))))
    assert one.deep == 5  # half of 10
    assert [(p.id, p.kind, p.hand, sized(p), spans(one, p)) for p in one.slips] == [
        # from the front's inside, 20, to the back's, 326; 12 + 5 high
        ("drawer-left-slip", "drawer slip", "left", (306, 17, 10), ((13, 23), (20, 326), (0, 17))),
        ("drawer-right-slip", "drawer slip", "right", (306, 17, 10),
         ((377, 387), (20, 326), (0, 17))),
    ]
    # 398 - 24 - 20 + 10 - 2
    assert (sized(one.bottom), spans(one, one.bottom)) == (
        (362, 325, 6), ((19, 381), (15, 340), (6, 12)),
    )
    assert one.grooves == {
        "drawer-front": ((6, 12), 5, (0, 398)),
        "drawer-left-slip": ((6, 12), 5, (0, 306)),
        "drawer-right-slip": ((6, 12), 5, (0, 306)),
    }
    assert terms(p, "drawer-left-slip", "slip length") == [
        (1, "side length", 334), (-1, "tail length in the front", 14),
        (-1, "thickness of the back", 14),
    ]
    assert terms(p, "drawer-left-slip", "slip height") == [
        (1, "groove above the lower edge", 6), (1, "width of the groove", 6),
        (1, "wood above the groove", 5),
    ]
    assert terms(p, "drawer-bottom", "bottom, side to side") == [
        (1, "width between the sides", 374), (-1, "both slips", 20), (1, "both grooves", 10),
        (-1, "room to fit", 2),
    ]
    assert [part.id for part in one.parts][-2:] == ["drawer-left-slip", "drawer-right-slip"]


def test_a_thick_bottom_is_rabbeted_underneath_to_a_tongue() -> None:
    p, one = made(bottom=bottom(thickness=F(10), tongue=F(6)))
    # as high as if it were 6 thick, and 4 below its tongue
    assert spans(one, one.bottom)[2] == (2, 12)
    assert one.grooves["drawer-front"].walls == (6, 12)
    for role, span in (
        ("edge rabbet", ((0, 384), (0, 6))), ("edge rabbet end A", ((0, 6), (0, 326))),
        ("edge rabbet end B", ((378, 384), (0, 326))),
    ):
        assert reach(cut(p, "drawer-bottom", "drawer.bottom", role).shape) == (*span, (6, 10))
    # the rear edge lies under the back and stays whole
    assert "edge rabbet far edge" not in {one.role for one in p.cuts}


def test_a_groove_that_would_show_stops_in_the_front() -> None:
    # 4 above the edge leaves 4 - 1 - 2 = 1 for the half pin, less than 3: it stays 10 at the base
    low = bottom(up=F(4), run="stopped")
    p, one = made(bottom=low)
    # a side's thickness less the groove's depth
    assert one.grooves["drawer-front"] == ((4, 10), 6, (6, 392))
    assert one.grooves["drawer-left-side"] == ((4, 10), 6, (0, 334))
    assert terms(p, "drawer-front", "start of the groove from end A") == [
        (1, "thickness of a side", 12), (-1, "depth of the groove", 6),
    ]
    assert terms(p, "drawer-front", "end of the groove from end A") == [
        (1, "front length", 398), (-1, "start of the groove", 6),
    ]
    assert [m.distance for m in marks_of(p, "drawer-front", "drawer.bottom", "groove stop")] == [
        6, 392,
    ]
    assert one.shows is True
    # run through it would come out
    assert made(bottom=low._replace(run="through"))[1].grooves["drawer-front"].run == (0, 398)


def test_a_hidden_groove_runs_through_even_where_it_may_stop() -> None:
    assert made(bottom=bottom(run="stopped"))[1].grooves["drawer-front"].run == (0, 398)


def test_a_stopped_groove_allows_for_lips_and_slips() -> None:
    slips = bottom(up=F(4), run="stopped", slips=SlipChoice(F(10), F(5)))
    p, one = made(style="lipped", bottom=slips)
    # 10 + 12 + 10 - 5
    assert one.grooves["drawer-front"] == ((14, 20), 5, (27, 391))
    assert terms(p, "drawer-front", "start of the groove from end A") == [
        (1, "thickness of a side", 12), (1, "lip", 10), (1, "thickness of a slip", 10),
        (-1, "depth of the groove", 5),
    ]


def test_through_dovetails_stop_the_sides_groove_behind_the_front() -> None:
    p, one = made(front=F(14), front_joint=dovetails(), bottom=bottom(run="stopped"))
    assert one.grooves["drawer-left-side"].run == (8, 340)  # 14 - 6
    assert terms(p, "drawer-left-side", "start of the groove from end A") == [
        (1, "tail length in the front", 14), (-1, "depth of the groove", 6),
    ]


# -- slots: 374 between the sides in stretches of at most 150 are 3


def solid(**changes: object) -> BottomChoice:
    slots = SlotChoice(None, F(5), F(3), F(150))._replace(**changes)  # type: ignore[arg-type]
    return bottom(kind="solid", slots=slots)


def test_slots_let_a_solid_bottom_move_past_its_screws() -> None:
    p, one = made(bottom=solid())
    # 384 x 1/6, 1/2, 5/6; half of the back and 3 of play: 7 + 3 from the rear edge
    spots = {}
    for number, middle in ((1, 64), (2, 192), (3, 320)):
        slot = cut(p, "drawer-bottom", "drawer.bottom", f"screw slot {number}")
        assert reach(slot.shape) == ((middle - F(5, 2), middle + F(5, 2)), (316, 326), (0, 6))
        spots[number] = middle
        (across,) = marks_of(p, "drawer-bottom", "drawer.bottom",
                             f"middle of screw slot {number}")
        assert (across.face, across.tool, across.source, across.distance, across.line) == (
            "back", "pencil", "end A", middle, ((middle, 316), (middle, 326)),
        )
        (stop,) = marks_of(p, "drawer-bottom", "drawer.bottom", f"end of screw slot {number}")
        assert (stop.source, stop.distance, stop.line) == (
            "face edge", 316, ((middle - F(5, 2), 316), (middle + F(5, 2), 316)),
        )
    assert terms(p, "drawer-bottom", "middle of screw slot 2") == [
        (1, "1/2 of the bottom's length", 192),
    ]
    assert terms(p, "drawer-bottom", "end of the screw slot") == [
        (1, "bottom, front to back", 326), (-1, "half of the back's thickness", 7),
        (-1, "room for the wood to move", 3),
    ]
    assert one.choice.bottom.slots is not None


@pytest.mark.parametrize(
    ("every", "many", "count"), [(373, None, 2), (374, None, 1), (375, None, 1), (150, 5, 5)]
)
def test_how_many_slots(every: int, many: int | None, count: int) -> None:
    p, _ = made(bottom=solid(every=F(every), many=many))
    roles = [one.role for one in p.cuts if one.role.startswith("screw slot")]
    assert len(roles) == count
    assert (roles == ["screw slot"]) == (count == 1)


# -- in a frame


def test_a_drawer_in_a_frame_is_fitted_to_its_opening_and_what_stands_behind() -> None:
    back = mm_rail("back rail", sides=("back",), width=F(180))
    p, one = framed(back)
    assert wrong(p) == []
    # 500 wide at 50 from the left; the back rail's inside is 20 from the back: 580
    assert one.hole.site.origin == (50, 0, 560)
    assert (one.hole.width, one.hole.height, one.hole.deep) == (500, 100, 580)
    assert one.hole.behind is not None
    assert one.hole.behind.id == "back-rail"
    assert {part.id: spans(one, part) for part in one.parts} == {
        "drawer-front": ((1, 499), (0, 20), (0, 98)),
        "drawer-left-side": ((1, 13), (6, 570), (0, 98)),
        "drawer-right-side": ((487, 499), (6, 570), (0, 98)),
        "drawer-back": ((1, 499), (556, 570), (12, 92)),
        "drawer-bottom": ((8, 492), (14, 570), (6, 12)),
    }
    assert terms(p, "drawer-left-side", "depth for the drawer") == [
        (1, "depth over the legs", 600), (-1, "inside of the back rail from the back", 20),
    ]


def test_without_anything_behind_the_depth_is_that_over_the_legs() -> None:
    p, one = framed()
    assert wrong(p) == []
    assert one.hole.behind is None
    assert one.hole.deep == 600
    assert not [sum_ for sum_ in p.sums if sum_.name == "depth for the drawer"]


def test_rails_set_in_take_the_drawer_with_them() -> None:
    back = mm_rail("back rail", sides=("back",), width=F(180))
    p, one = framed(back, set_in=5)
    assert wrong(p) == []
    assert one.hole.site.origin == (50, 5, 560)
    assert one.hole.deep == 575  # 600 - 5 - 20
    assert spans(one, one.front)[1] == (0, 20)
    assert one.front.reach(1) == (5, 25)


def test_rails_set_in_leave_less_depth_where_nothing_stands_behind() -> None:
    p, one = framed(set_in=5, length=F(300))
    assert (wrong(p), one.hole.deep, one.rear) == ([], 595, 300)
    p, one = framed(set_in=5)
    assert (wrong(p), one.hole.deep, one.rear) == ([], 595, 585)
    assert terms(p, "drawer-left-side", "depth for the drawer") == [
        (1, "depth over the legs", 600), (-1, "rail's face behind the leg's", 5),
    ]


@pytest.mark.parametrize("side", SIDES)
def test_a_drawer_is_alike_on_every_side_of_a_square_frame(side: Side) -> None:
    across: dict[Side, Side] = {"front": "back", "back": "front", "left": "right", "right": "left"}
    far = mm_rail("far rail", sides=(across[side],), width=F(180))
    p, one = framed(far, side=side)
    assert wrong(p) == []
    assert spans(one, one.front) == ((1, 499), (0, 20), (0, 98))
    assert spans(one, one.left) == ((1, 13), (6, 570), (0, 98))
    assert spans(one, one.right) == ((487, 499), (6, 570), (0, 98))
    outside = {"front": (1, 0), "back": (1, 600), "left": (0, 0), "right": (0, 600)}[side]
    assert outside[1] in one.front.reach(outside[0])
    # the left side is at the left as seen from outside
    where = {"front": (0, 51), "back": (0, 549), "left": (1, 549), "right": (1, 51)}[side]
    assert where[1] in one.left.reach(where[0])
    # a drawer is one piece of work, not its mirror image, on whatever side
    assert (one.front.placement.mirrored, one.left.placement.mirrored) == (
        made()[1].front.placement.mirrored, made()[1].left.placement.mirrored,
    )


def test_several_openings_give_numbered_drawers() -> None:
    lowest = mm_rail("lowest rail", below_top=F(280))
    choice = drawer(space=None, openings=("front under top rail", "front under low rail"))
    p = boxes(frame=stand(lowest), drawers=(choice,))
    assert [(one.name, one.joint, one.hole.site.origin[2]) for one in p.drawers] == [
        ("drawer 1", "drawer-1.bottom", 560), ("drawer 2", "drawer-2.bottom", 420),
    ]
    assert p.part("drawer-2-left-side").kind == "drawer side"
    assert p.corners[4].name == "drawer-2.A"


# -- what can't be


@pytest.mark.parametrize(
    ("changes", "what", "cure"),
    [
        ({"sides": F(199)}, "the drawer would have no width",
         "make the opening wider, or the sides or the room beside them less"),
        ({"room_wide": F(400)}, "the drawer would have no width", "make the opening wider"),
        ({"room_high": F(100)}, "the drawer would have no height", "make the opening higher"),
        ({"length": F(34)}, "the drawer would have no depth inside", "make the opening deeper"),
        ({"drop": F(86)}, "the drawer would have no height for its back",
         "lower the bottom's groove"),
        ({"front_joint": dovetails(lap=F(20))}, "the lap takes the whole thickness of the front",
         "make the lap less, or the front thicker"),
        ({"back_joint": dovetails(lap=F(14))}, "the lap takes the whole thickness of the back",
         "make the lap less, or the back thicker"),
        ({"bottom": bottom(slips=SlipChoice(F(190), F(5)), deep=F(1))},
         "nothing is left of the drawer's bottom between the sides", "make the slips thinner"),
        ({"space": None, "openings": ("front under nothing",)},
         "there is no opening 'front under nothing'", "the frame offers: none"),
    ],
)
def test_a_drawer_without_a_size_is_refused(
    changes: dict[str, object], what: str, cure: str
) -> None:
    with pytest.raises(BadPiece) as told:
        made(**changes)
    assert told.value.what == what
    assert told.value.cure.startswith(cure)


def test_one_mm_more_is_a_size() -> None:
    assert made(sides=F(197), bottom=bottom(deep=F(5)))[1].inside == 4
    assert made(length=F(35))[1].rear == 35


def test_an_opening_on_the_floor_or_of_another_name_is_refused() -> None:
    with pytest.raises(BadPiece, match="has no rail below it for a drawer to run on"):
        framed(openings=("front under low rail",))
    with pytest.raises(BadPiece, match="no opening 'front'") as told:
        framed(openings=("front",))
    assert told.value.cure == "the frame offers: 'front under top rail', 'front under low rail'"
