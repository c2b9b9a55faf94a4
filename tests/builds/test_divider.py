"""Shelves and partitions: where they stand, how far they reach, what openings they leave, in mm.

The carcase is 440 x 300 x 200 outside, of boards 14 thick, so its inside is 412 wide and 272 high.
Dividers are 12 thick, slid 10 deep with 3 of room: tails 7 long, sloping 1 over their length.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import DividerChoice
from layout.builds.boxes import BoxChoices
from layout.builds.boxes import stand as stand_boxes
from layout.builds.carcase import CarcaseChoice
from layout.builds.opening import Opening, Side
from layout.checks.sums import wrong
from layout.errors import BadPiece, Where
from layout.part import Part
from layout.piece import Piece
from tests.builds.test_carcase import back, case, housed, slid, stands
from tests.builds.test_drawer import boxes, mm_rail, sized, stand, terms
from tests.pieces import cut, reach

F = Fraction
HERE = Where(line=3)


def divider(name: str = "part", opening: str = "inside case", **changes: object) -> DividerChoice:
    """An upright partition in the middle."""
    usual = DividerChoice(name, opening, "upright", F(12), slid(), timber="pine")
    return usual._replace(**changes)  # type: ignore[arg-type]


def shelf(name: str = "shelf", opening: str = "inside case", **changes: object) -> DividerChoice:
    """A level shelf in the middle."""
    return divider(name, opening, **{"lies": "level", **changes})


def divided(*dividers: DividerChoice, choice: CarcaseChoice | None = None) -> Piece:
    """A carcase with dividers, all sums confirmed."""
    p = boxes(carcases=(choice or case(),), dividers=dividers)
    assert wrong(p) == []
    return p


def framed(
    *dividers: DividerChoice, side: Side = "front", set_in: int = 0, rails: tuple[object, ...] = ()
) -> Piece:
    """Dividers between two rails of a frame, all sums confirmed."""
    p = boxes(frame=stand(*rails, side=side, set_in=set_in), dividers=dividers)  # type: ignore[arg-type]
    assert wrong(p) == []
    return p


def size(one: Opening) -> tuple[object, ...]:
    """An opening's width and height, foot and head, and what bounds it."""
    lower = one.lower.id if one.lower is not None else None
    return (one.width, one.height, one.low, one.high, one.left.id, one.right.id, lower,
            one.upper.id)


def openings(p: Piece) -> dict[str, tuple[object, ...]]:
    """Every opening that is left, by name, in its order."""
    made = {part.id for each in p.carcases for part in each.parts}
    made |= {each.part.id for each in p.dividers}
    standing = tuple(part for part in p.parts if part.id not in made)
    wanted = BoxChoices(carcases=p.choice.carcases, dividers=p.choice.dividers)
    left = stand_boxes(wanted, p.openings, standing, p.choice.kit).openings
    return {each.name: size(each) for each in left}


def one_part(p: Piece, name: str = "part") -> Part:
    return p.part(name)


# -- place


def test_a_partition_at_its_place_in_a_carcase() -> None:
    p = divided(divider(place=F(100)))
    part = one_part(p)
    # 272 and a tail of 7 at both ends; from 14 + 100
    assert (sized(part), stands(part)) == ((286, 200, 12), ((114, 126), (0, 200), (7, 293)))
    assert (part.name, part.kind, part.timber) == ("part", "part", "pine")
    # end A below, face side at the left, face edge in front
    assert (part.placement.L, part.placement.W, part.placement.T) == ("+Z", "+Y", "+X")
    assert [(s.name, s.end, s.bearer.id, s.depth) for s in p.slides] == [
        ("part.A", "A", "case-bottom", 10), ("part.B", "B", "case-top", 10),
    ]
    # 14 + 100 from end A of both, less a shoulder of 1 and 10/7 at the bottom
    wide = (115 - F(10, 7), 125 + F(10, 7))
    for board, joint in (("case-bottom", "part.A"), ("case-top", "part.B")):
        assert reach(cut(p, board, joint, "slide socket").shape) == (wide, (0, 200), (0, 10))


def test_a_shelf_at_its_place_in_a_carcase() -> None:
    p = divided(shelf(place=F(90)))
    part = p.part("shelf")
    # 412 + 14; from 14 + 90
    assert (sized(part), stands(part)) == ((426, 200, 12), ((7, 433), (0, 200), (104, 116)))
    # end A at the left, face side on top
    assert (part.placement.L, part.placement.W, part.placement.T) == ("+X", "+Y", "-Z")
    assert [(s.name, s.end, s.bearer.id) for s in p.slides] == [
        ("shelf.A", "A", "case-left-side"), ("shelf.B", "B", "case-right-side"),
    ]


def test_a_divider_without_a_place_stands_in_the_middle() -> None:
    p = divided(divider())
    # (412 - 12) / 2 = 200
    assert stands(one_part(p))[0] == (214, 226)
    gap = [(1, "half of the opening", 206), (-1, "half of its thickness", 6)]
    left = (1, "the opening's left side from end A", 14)
    assert terms(p, "case-bottom", "near side of the socket") == [left, *gap, (1, "shoulder", 1)]
    level = divided(shelf())
    # (272 - 12) / 2 = 130
    assert stands(level.part("shelf"))[2] == (144, 156)
    assert terms(level, "case-left-side", "far side of the socket") == [
        (1, "the opening's foot from end A", 14), (1, "half of the opening", 136),
        (-1, "half of its thickness", 6), (1, "shoulder", 1),
        (1, "mouth where it is entered", 10),
    ]


def test_the_way_to_a_place_is_told_from_the_bearers_end() -> None:
    p = divided(divider(place=F(100)), shelf("low", "left of part", place=F(60)))
    for board in ("case-bottom", "case-top"):
        assert terms(p, board, "near side of the socket") == [
            (1, "the opening's left side from end A", 14),
            (1, "clear at the left of the part", 100), (1, "shoulder", 1),
        ]
    assert terms(p, "case-left-side", "near side of the socket") == [
        (1, "the opening's foot from end A", 14), (1, "clear below the low", 60),
        (1, "shoulder", 1),
    ]
    # the partition itself begins 7 lower, with its tail
    assert terms(p, "part", "near side of the socket") == [
        (1, "the opening's foot from end A", 7), (1, "clear below the low", 60),
        (1, "shoulder", 1),
    ]


def test_a_divider_may_stand_against_what_bounds_its_opening() -> None:
    assert stands(divided(shelf(place=F(0))).part("shelf"))[2] == (14, 26)
    assert stands(divided(shelf(place=F(260))).part("shelf"))[2] == (274, 286)


# -- the openings it leaves


def test_a_partition_leaves_an_opening_at_either_side() -> None:
    assert openings(divided(divider(place=F(100)))) == {
        "left of part": (100, 272, 14, 286, "case-left-side", "part", "case-bottom", "case-top"),
        # 412 - 100 - 12
        "right of part": (300, 272, 14, 286, "part", "case-right-side", "case-bottom", "case-top"),
    }


def test_a_shelf_leaves_an_opening_below_and_above() -> None:
    assert openings(divided(shelf(place=F(90)))) == {
        "below shelf": (412, 90, 14, 104, "case-left-side", "case-right-side", "case-bottom",
                        "shelf"),
        # 272 - 90 - 12, from 14 + 90 + 12
        "above shelf": (412, 170, 116, 286, "case-left-side", "case-right-side", "shelf",
                        "case-top"),
    }


def test_dividers_stand_in_the_openings_of_others() -> None:
    p = divided(
        divider(place=F(100)), shelf("high", "right of part", place=F(200), thickness=F(10)),
        divider("small", "below high", place=F(150)),
    )
    # 300 + 14 between the partition at 126 and the side at 426
    assert stands(p.part("high")) == ((119, 433), (0, 200), (214, 224))
    # 200 + 14 between bottom and shelf; from 126 + 150
    assert stands(p.part("small")) == ((276, 288), (0, 200), (7, 221))
    assert [(s.name, s.bearer.id) for s in p.slides[2:]] == [
        ("high.A", "part"), ("high.B", "case-right-side"), ("small.A", "case-bottom"),
        ("small.B", "high"),
    ]
    assert openings(p) == {
        "left of part": (100, 272, 14, 286, "case-left-side", "part", "case-bottom", "case-top"),
        "above high": (300, 62, 224, 286, "part", "case-right-side", "high", "case-top"),
        "left of small": (150, 200, 14, 214, "part", "small", "case-bottom", "high"),
        "right of small": (138, 200, 14, 214, "small", "case-right-side", "case-bottom", "high"),
    }


def test_tails_follow_from_what_bears_each_end() -> None:
    p = divided(
        divider(thickness=F(18), joint=slid(depth=None, room=F(2)), place=F(100)),
        shelf("low", "left of part", joint=housed(depth=None, room=F(2))),
        choice=case(sides=F(24), top=F(24), bottom=F(24)),
    )
    # 24 / 3 - 2 = 6 in the side, 18 / 3 - 2 = 4 in the partition
    assert stands(p.part("low"))[0] == (18, 128)
    assert terms(p, "low", "length") == [
        (1, "between the shoulders", 100), (1, "tail at end A", 6), (1, "tail at end B", 4),
    ]
    assert terms(p, "low", "between the shoulders") == [(1, "width of the opening", 100)]
    assert terms(p, "part", "between the shoulders") == [(1, "height of the opening", 252)]


# -- how deep


def test_how_far_a_divider_is_set_back_and_reaches() -> None:
    p = divided(shelf(set_back=F(15)))
    assert stands(p.part("shelf"))[1] == (15, 200)
    assert terms(p, "shelf", "width") == [
        (1, "front of the case left side to the case left side", 200),
        (-1, "set back in front", 15),
    ]
    short = divided(shelf(set_back=F(15), depth=F(120)))
    assert stands(short.part("shelf"))[1] == (15, 135)
    assert not any(s.name == "width" and s.part == "shelf" for s in short.sums)
    # its sockets run on to the sides' back edges
    assert reach(cut(short, "case-left-side", "shelf.A", "slide socket").shape)[1] == (15, 200)


def test_a_back_is_the_end_of_its_depth() -> None:
    p = divided(shelf(), choice=case(back=back()))
    assert stands(p.part("shelf"))[1] == (0, 194)
    assert p.dividers[0].behind is not None
    assert p.dividers[0].behind.id == "case-back"
    assert terms(p, "shelf", "width") == [
        (1, "front of the case left side to the case back", 194),
    ]
    # one that ends before the back does not touch it
    assert divided(shelf(depth=F(190)), choice=case(back=back())).dividers[0].behind is None


def test_a_shelf_slid_into_a_partition_set_back_begins_with_it() -> None:
    p = divided(divider(set_back=F(20), place=F(100)), shelf("low", "left of part"))
    assert stands(p.part("part"))[1] == (20, 200)
    assert stands(p.part("low"))[1] == (20, 200)
    assert terms(p, "low", "width") == [(1, "front of the part to the case left side", 180)]


def test_a_stop_counts_from_its_own_edge() -> None:
    p = divided(shelf(set_back=F(15), joint=slid(stop=F(12))))
    assert reach(cut(p, "case-left-side", "shelf.A", "slide socket").shape)[1] == (27, 200)
    assert reach(cut(p, "shelf", "shelf.A", "notch at the stop").shape)[1] == (0, 12)


# -- in a frame


def test_a_partition_between_rails_set_in() -> None:
    """Rails 20 thick and 3 behind the legs' faces; the opening 500 x 100 begins at 560."""
    p = framed(divider(opening="front under top rail", place=F(200)), set_in=3)
    part = one_part(p)
    # legs 50 wide: from 50 + 200; 7 into both rails
    assert (sized(part), stands(part)) == ((114, 20, 12), ((250, 262), (3, 23), (553, 667)))
    assert [s.bearer.id for s in p.slides] == ["front-low-rail", "front-top-rail"]
    # the rails' tenons are 20 long: 20 + 200 + 1 from their end A; their edges are 40 high
    (low, _), across, deep = reach(cut(p, "front-low-rail", "part.A", "slide socket").shape)
    assert (low, across, deep) == (221 - F(10, 7), (0, 10), (0, 20))
    assert reach(cut(p, "front-top-rail", "part.B", "slide socket").shape)[1] == (30, 40)
    assert terms(p, "front-low-rail", "near side of the socket") == [
        (1, "the opening's left side from end A", 20), (1, "clear at the left of the part", 200),
        (1, "shoulder", 1),
    ]
    assert openings(p)["left of part"] == (
        200, 100, 560, 660, "front-left-leg", "part", "front-low-rail", "front-top-rail",
    )
    assert openings(p)["right of part"][0] == 288


def test_a_shelf_between_legs_begins_at_their_faces() -> None:
    p = framed(shelf(opening="front under top rail", place=F(40)), set_in=3)
    part = p.part("shelf")
    assert (sized(part), stands(part)) == ((514, 50, 12), ((43, 557), (0, 50), (600, 612)))
    # a leg's end A is on top: 700 - 560 = 140 down to the opening's foot, so its head is at 40
    assert terms(p, "front-left-leg", "near side of the socket") == [
        (1, "the opening's head from end A", 40), (1, "whole opening", 100),
        (-1, "clear below the shelf", 40), (-1, "thickness", 12), (1, "shoulder", 1),
    ]
    # 700 - 612 + 1 = 89
    assert sum(sign * value for sign, _, value in terms(
        p, "front-right-leg", "near side of the socket")) == 89


def test_a_shelf_in_the_middle_of_legs() -> None:
    p = framed(shelf(opening="front under top rail"))
    assert stands(p.part("shelf"))[2] == (604, 616)
    assert terms(p, "front-left-leg", "near side of the socket") == [
        (1, "the opening's head from end A", 40), (1, "half of the opening", 50),
        (-1, "half of its thickness", 6), (1, "shoulder", 1),
    ]


@pytest.mark.parametrize(
    ("side", "spans", "ways"),
    [
        # left is seen from outside: at the back on the left side, at the right from behind
        ("left", ((3, 23), (338, 350)), ("+Z", "+X", "-Y")),
        ("right", ((577, 597), (250, 262)), ("+Z", "-X", "+Y")),
        ("back", ((338, 350), (577, 597)), ("+Z", "-Y", "-X")),
    ],
)
def test_a_partition_on_the_other_sides_of_a_frame(
    side: Side, spans: tuple[object, ...], ways: tuple[str, ...]
) -> None:
    p = framed(divider(opening=f"{side} under top rail", place=F(200)), side=side, set_in=3)
    part = one_part(p)
    assert stands(part)[:2] == spans
    assert stands(part)[2] == (553, 667)
    assert ways == (part.placement.L, part.placement.W, part.placement.T)
    assert reach(cut(p, f"{side}-low-rail", "part.A", "slide socket").shape)[0] == (
        221 - F(10, 7), 231 + F(10, 7),
    )


def test_a_board_behind_ends_a_partitions_depth() -> None:
    """It may not reach further than the thinner of its rails."""
    p = framed(
        divider(opening="front under low rail", place=F(200)),
        rails=(mm_rail("deep rail", below_top=F(300), thickness=F(30)),),
    )
    assert stands(one_part(p))[1] == (0, 20)


# -- refused


@pytest.mark.parametrize(
    ("choice", "what"),
    [
        (shelf(opening="nowhere"), "there is no opening 'nowhere'"),
        (shelf(place=F(261)), "the shelf would stand outside its opening"),
        (divider(place=F(401)), "the part would stand outside its opening"),
        (divider(thickness=F(413)), "the part would stand outside its opening"),
        (shelf(set_back=F(200)), "the shelf has no depth left"),
        (shelf(set_back=F(50), depth=F(151)), "the shelf reaches further back"),
        (shelf(joint=slid(room=F(10), where=HERE)), "the socket for the shelf is no deeper"),
        (shelf(joint=slid(stop=F(200), where=HERE)), "the stop leaves no run of the shelf"),
        (shelf(joint=slid(taper=F(1), taper_over=F(189), stop=F(12), where=HERE)),
         "the taper is longer than the run of the shelf"),
        # 12 - 2 and 12 - 6 - 6
        (shelf(joint=slid(taper=F(10), where=HERE)), "nothing is left of the tail's neck of the"),
        (shelf(joint=housed(shoulders=(F(6), F(6)), where=HERE)), "nothing is left of the tail's"),
        (shelf(joint=housed(shoulders=(F(2001), None), where=HERE)), "the slide of the shelf has"),
        (shelf(thickness=F(2001)), "the shelf has a size of more than 2 m"),
        (shelf(joint=slid(stop=F(2001))), "the shelf has a size of more than 2 m"),
    ],
)
def test_what_cannot_stand_is_refused_where_it_was_written(
    choice: DividerChoice, what: str
) -> None:
    with pytest.raises(BadPiece) as told:
        divided(choice._replace(where=HERE))
    assert told.value.what.startswith(what)
    assert told.value.cure
    assert told.value.where == HERE


def test_what_can_just_stand() -> None:
    assert stands(divided(shelf(set_back=F(199))).part("shelf"))[1] == (199, 200)
    assert stands(divided(shelf(set_back=F(50), depth=F(150))).part("shelf"))[1] == (50, 200)
    divided(shelf(joint=slid(stop=F(199))))
    divided(shelf(joint=slid(taper=F(1), taper_over=F(188), stop=F(12))))
    divided(shelf(joint=slid(room=F(9))))
    divided(shelf(joint=slid(taper=F(99, 10))))
    divided(shelf(joint=housed(shoulders=(F(6), F(59, 10)))))


def test_no_divider_reaches_beyond_the_shallower_of_its_bearers() -> None:
    """A partition 150 deep at the left, the carcase's side 200 deep at the right."""
    part = divider(place=F(100), depth=F(150))
    divided(part, shelf("high", "right of part", depth=F(150)))
    assert stands(divided(part, shelf("high", "right of part")).part("high"))[1] == (0, 150)
    with pytest.raises(BadPiece, match="the high reaches further back"):
        divided(part, shelf("high", "right of part", depth=F(151)))


def test_an_opening_over_the_floor_has_nothing_to_stand_in() -> None:
    with pytest.raises(BadPiece, match="has nothing below it"):
        framed(divider(opening="front under low rail"))


def test_the_two_stand_where_the_one_was() -> None:
    p = divided(divider(place=F(100)), shelf("low", "left of part"))
    assert list(openings(p)) == ["below low", "above low", "right of part"]


def test_what_openings_there_are_is_told() -> None:
    with pytest.raises(BadPiece) as told:
        divided(divider(), shelf(opening="inside case"))
    # the partition has divided it already
    assert told.value.cure == "there are: 'left of part', 'right of part'"
