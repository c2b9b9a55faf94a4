"""Carcases: every board where it stands, its corners or slides, its back, its sums, all in mm.

Unless a test says otherwise a carcase is 440 wide, 300 high and 200 deep outside, of boards 14
thick, so that tails 14 long at 1 in 7 slope 2; slid ones are of boards 20 thick, slid 10 deep with
3 of room, so that tails are 7 long and slope 1. The back is 6 thick in a rabbet 8 deep, 2 of room.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.carcase import BackChoice, Carcase, CarcaseChoice
from layout.checks.sums import wrong
from layout.errors import BadPiece, Where
from layout.joints.slide import SlideChoice
from layout.joints.tongue import TongueChoice
from layout.measure.slope import Slope
from layout.part import Part
from layout.piece import Piece
from tests.builds.test_drawer import boxes, sized, terms
from tests.joints.test_spacing import dovetails
from tests.pieces import cut, reach

F = Fraction
Spans = tuple[tuple[int, int], ...]


def back(**changes: object) -> BackChoice:
    """A back 6 thick in rabbets 8 deep, 2 smaller than they would hold."""
    return BackChoice(F(6), F(8), F(2), timber="plywood")._replace(**changes)  # type: ignore[arg-type]


def slid(**changes: object) -> SlideChoice:
    """10 deep, 1 in 7, 3 of room: tails 7 long."""
    usual = SlideChoice(depth=F(10), slope=Slope(F(7)), room=F(3))
    return usual._replace(**changes)  # type: ignore[arg-type]


def housed(**changes: object) -> SlideChoice:
    """A housing 10 deep with 3 of room."""
    return slid(slope=None, **changes)


def case(**changes: object) -> CarcaseChoice:
    """A dovetailed carcase without a back."""
    usual = CarcaseChoice(
        name="case", width=F(440), height=F(300), depth=F(200), sides=F(14), top=F(14),
        bottom=F(14), joint=dovetails(), timber="ash",
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def slid_case(**changes: object) -> CarcaseChoice:
    """A carcase of boards 20 thick, top 30 below the sides' ends and bottom 40 above."""
    usual = {"sides": F(20), "top": F(20), "bottom": F(20), "slid": slid(), "top_in": F(30),
             "bottom_in": F(40)}
    return case(**{**usual, **changes})


def made(choice: CarcaseChoice) -> tuple[Piece, Carcase]:
    """One carcase and its piece, all sums confirmed."""
    p = boxes(carcases=(choice,))
    assert wrong(p) == []
    return p, p.carcases[0]


def stands(part: Part) -> Spans:
    """Its reach to the right, to the back and up."""
    return tuple(part.reach(along) for along in range(3))  # type: ignore[return-value]


def places(one: Carcase) -> dict[str, Spans]:
    return {part.id.removeprefix("case-"): stands(part) for part in one.parts}


def waste(p: Piece, part: str, joint: str) -> tuple[tuple[Fraction, Fraction], ...]:
    """The reach of the first half pin's waste, or of the first socket."""
    roles = ("waste of half pin 1", "socket 1")
    (found,) = [c for c in p.cuts if (c.part, c.joint) == (part, joint) and c.role in roles]
    return reach(found.shape)


# -- dovetailed


def test_every_board_of_a_dovetailed_carcase() -> None:
    _, one = made(case())
    assert {p.id: (sized(p), stands(p)) for p in one.parts} == {
        "case-left-side": ((300, 200, 14), ((0, 14), (0, 200), (0, 300))),
        "case-right-side": ((300, 200, 14), ((426, 440), (0, 200), (0, 300))),
        "case-top": ((440, 200, 14), ((0, 440), (0, 200), (286, 300))),
        "case-bottom": ((440, 200, 14), ((0, 440), (0, 200), (0, 14))),
    }


def test_boards_are_named_and_turned_for_the_maker() -> None:
    _, one = made(case(back=back()))
    assert [(p.name, p.kind, p.timber, p.hand) for p in one.parts] == [
        ("case left side", "case side", "ash", "left"),
        ("case right side", "case side", "ash", "right"),
        ("case top", "case top", "ash", ""), ("case bottom", "case bottom", "ash", ""),
        ("case back", "case back", "plywood", ""),
    ]
    assert {p.name: (p.placement.L, p.placement.W, p.placement.T) for p in one.parts} == {
        # face sides inside, face edges in front; end A below, or at the left
        "case left side": ("+Z", "+Y", "-X"), "case right side": ("+Z", "+Y", "+X"),
        "case top": ("+X", "+Y", "+Z"), "case bottom": ("+X", "+Y", "-Z"),
        "case back": ("+Z", "+X", "+Y"),
    }


def test_corners_go_round_from_the_top_left() -> None:
    _, one = made(case())
    assert [(c.name, c.letter, c.tails.id, c.tail_end, c.pins.id, c.pin_end)
            for c in one.corners] == [
        ("case.A", "A", "case-left-side", "B", "case-top", "A"),
        ("case.B", "B", "case-right-side", "B", "case-top", "B"),
        ("case.C", "C", "case-right-side", "A", "case-bottom", "B"),
        ("case.D", "D", "case-left-side", "A", "case-bottom", "A"),
    ]
    assert one.slides == ()


def test_tails_may_be_on_top_and_bottom() -> None:
    p, one = made(case(tails="top and bottom"))
    assert [(c.letter, c.tails.id, c.tail_end, c.pins.id, c.pin_end) for c in one.corners] == [
        ("A", "case-top", "A", "case-left-side", "B"),
        ("B", "case-top", "B", "case-right-side", "B"),
        ("C", "case-bottom", "B", "case-right-side", "A"),
        ("D", "case-bottom", "A", "case-left-side", "A"),
    ]
    assert waste(p, "case-top", "case.A") == ((0, 14), (0, 10), (0, 14))


def test_cuts_of_each_corner_lie_at_its_ends() -> None:
    p, _ = made(case())
    # half pin 8 at the end and 10 at the baseline, 14 from the end; its sides' other ends likewise
    assert waste(p, "case-left-side", "case.D") == ((0, 14), (0, 10), (0, 14))
    assert waste(p, "case-left-side", "case.A") == ((286, 300), (0, 10), (0, 14))
    # the first socket begins where the half pin ends
    assert waste(p, "case-top", "case.A")[:1] == ((0, 14),)
    assert waste(p, "case-top", "case.B")[:1] == ((426, 440),)
    assert waste(p, "case-bottom", "case.C")[1][0] == 8


def test_lapped_sides_are_shorter_by_both_laps() -> None:
    p, one = made(case(top=F(20), bottom=F(20), joint=dovetails(lap=F(6))))
    # tails 20 - 6 = 14 long; 300 - 2 x 6 = 288
    assert places(one) == {
        "left-side": ((0, 14), (0, 200), (6, 294)), "right-side": ((426, 440), (0, 200), (6, 294)),
        "top": ((0, 440), (0, 200), (280, 300)), "bottom": ((0, 440), (0, 200), (0, 20)),
    }
    assert [corner.depth for corner in one.corners] == [14] * 4
    assert terms(p, "case-left-side", "length") == [(1, "overall height", 300), (-1, "both laps",
                                                                                 12)]
    assert terms(p, "case-right-side", "length") == terms(p, "case-left-side", "length")
    assert (one.opening.height, one.opening.low, one.opening.high) == (260, 20, 280)


def test_lapped_top_and_bottom_are_shorter_by_both_laps() -> None:
    p, one = made(case(tails="top and bottom", sides=F(20), joint=dovetails(lap=F(6))))
    assert places(one) == {
        "left-side": ((0, 20), (0, 200), (0, 300)), "right-side": ((420, 440), (0, 200), (0, 300)),
        "top": ((6, 434), (0, 200), (286, 300)), "bottom": ((6, 434), (0, 200), (0, 14)),
    }
    assert terms(p, "case-top", "length") == [(1, "overall width", 440), (-1, "both laps", 12)]
    assert terms(p, "case-bottom", "length") == terms(p, "case-top", "length")


def test_tails_are_as_long_as_their_own_pin_board_is_thick() -> None:
    p, one = made(case(top=F(21), bottom=F(14)))
    assert [corner.depth for corner in one.corners] == [21, 21, 14, 14]
    # half pins of pin and slope: 6 + 3 above, 6 + 2 below; a slope more at the baseline
    assert waste(p, "case-left-side", "case.A") == ((279, 300), (0, 12), (0, 14))
    assert waste(p, "case-left-side", "case.D") == ((0, 14), (0, 10), (0, 14))
    assert waste(p, "case-top", "case.A")[1][0] == 9
    assert (one.opening.low, one.opening.high) == (14, 279)
    # tails on top and bottom are as long as the sides are thick, whatever their own thickness
    lying = made(case(tails="top and bottom", top=F(21), bottom=F(30)))[1]
    assert [corner.depth for corner in lying.corners] == [14] * 4


def test_sums_of_a_dovetailed_carcase() -> None:
    p, _ = made(case())
    assert {(s.part, s.name): [tuple(t) for t in s.terms] for s in p.sums if not s.where} == {
        ("case-top", "inside width"): [(1, "overall width", 440), (-1, "both sides", 28)],
        ("case-left-side", "inside height"): [
            (1, "overall height", 300), (-1, "thickness of the top", 14),
            (-1, "thickness of the bottom", 14),
        ],
    }


def test_it_leaves_one_opening_inside() -> None:
    _, one = made(case())
    inside = one.opening
    assert (inside.name, inside.side, inside.width, inside.height, inside.depth, inside.low,
            inside.high) == ("inside case", "front", 412, 272, 200, 14, 286)
    assert inside.lower is not None
    assert (inside.upper.id, inside.lower.id, inside.left.id, inside.right.id) == (
        "case-top", "case-bottom", "case-left-side", "case-right-side",
    )


def test_a_carcase_stands_beside_what_stands_already() -> None:
    p = boxes(carcases=(case(), case(name="other")))
    # 440 and 100 apart
    assert stands(p.part("other-left-side"))[0] == (540, 554)
    assert stands(p.part("other-bottom"))[0] == (540, 980)
    assert [one.joint for one in p.carcases] == ["case.back", "other.back"]


# -- backs of dovetailed carcases


def test_a_back_lies_in_rabbets_all_round() -> None:
    p, one = made(case(back=back()))
    # each side 8 - 2 / 2 = 7 into its rabbet: 412 + 14 by 272 + 14
    assert sized(one.back[0]) == (286, 426, 6)
    assert stands(one.back[0]) == ((7, 433), (194, 200), (7, 293))
    for part, long in (("left-side", 300), ("right-side", 300), ("top", 440), ("bottom", 440)):
        assert reach(cut(p, f"case-{part}", "case.back", "edge rabbet far edge").shape) == (
            (0, long), (194, 200), (0, 8),
        )
    assert terms(p, "case-back", "back, side to side") == [
        (1, "inside width", 412), (1, "both rabbets", 16), (-1, "room to fit", 2),
    ]
    assert terms(p, "case-back", "back height") == [
        (1, "inside height", 272), (1, "both rabbets", 16), (-1, "room to fit", 2),
    ]


def test_the_half_pin_at_the_back_is_as_wide_as_the_rabbet() -> None:
    _, one = made(case(back=back(thickness=F(12))))
    members = one.corners[0].spacing.members
    assert (members[0].end, members[-1].end) == (8, 12)
    assert one.corners[0].rabbet is not None
    assert one.corners[0].rabbet._asdict() == {
        "edge": "far", "wide": 12, "deep": 8, "joint": "case.back",
    }
    # without a back it stays as wide as at the front
    assert made(case())[1].corners[0].spacing.members[-1].end == 8
    assert made(case())[1].corners[0].rabbet is None


def test_a_back_of_several_boards_shares_its_width_out() -> None:
    p, one = made(case(back=back(boards=3)))
    # 426 / 3
    assert [(b.name, sized(b), stands(b)[0]) for b in one.back] == [
        ("case back board 1", (286, 142, 6), (7, 149)),
        ("case back board 2", (286, 142, 6), (149, 291)),
        ("case back board 3", (286, 142, 6), (291, 433)),
    ]
    assert {b.kind for b in one.back} == {"case back board"}
    assert terms(p, "case-back-board-1", "board between its shoulders") == [
        (1, "1/3 of the back, side to side", 142),
    ]


def test_boards_with_tongues_and_gaps() -> None:
    p, one = made(case(back=back(boards=3, tongue=TongueChoice(F(2), F(5), F(1), F(3)))))
    # (426 - 2 x 3) / 3 = 140 between the shoulders; all but the last have 3 + 5 more for a tongue
    assert [(sized(b)[1], stands(b)[0]) for b in one.back] == [
        (148, (7, 155)), (148, (150, 298)), (140, (293, 433)),
    ]
    # the tongue 2 thick in the middle of 6, its groove 5 + 1 deep
    assert [(c.part, c.joint, c.role, reach(c.shape)) for c in p.cuts if "tongue" in c.role] == [
        ("case-back-board-1", "case.back.1", "tongue waste, face", ((0, 286), (140, 148), (0, 2))),
        ("case-back-board-1", "case.back.1", "tongue waste, back", ((0, 286), (140, 148), (4, 6))),
        ("case-back-board-2", "case.back.1", "tongue groove", ((0, 286), (0, 6), (2, 4))),
        ("case-back-board-2", "case.back.2", "tongue waste, face", ((0, 286), (140, 148), (0, 2))),
        ("case-back-board-2", "case.back.2", "tongue waste, back", ((0, 286), (140, 148), (4, 6))),
        ("case-back-board-3", "case.back.2", "tongue groove", ((0, 286), (0, 6), (2, 4))),
    ]
    assert terms(p, "case-back-board-1", "board between its shoulders") == [
        (1, "1/3 of the back, side to side", 142), (-1, "1/3 of 2 gaps", 2),
    ]
    assert terms(p, "case-back-board-1", "width of a board") == [
        (1, "board between its shoulders", 140), (1, "length of the tongue", 5),
        (1, "gap between the boards", 3),
    ]


# -- slid and housed


def test_every_board_of_a_slid_carcase() -> None:
    p, one = made(slid_case())
    # 400 inside and a tail of 7 at both ends; 300 - 30 = 270 and 40
    assert {q.id: (sized(q), stands(q)) for q in one.parts} == {
        "case-left-side": ((300, 200, 20), ((0, 20), (0, 200), (0, 300))),
        "case-right-side": ((300, 200, 20), ((420, 440), (0, 200), (0, 300))),
        "case-top": ((414, 200, 20), ((13, 427), (0, 200), (250, 270))),
        "case-bottom": ((414, 200, 20), ((13, 427), (0, 200), (40, 60))),
    }
    assert one.corners == ()
    assert [(s.name, s.slider.id, s.end, s.bearer.id, s.depth) for s in one.slides] == [
        ("case-top.A", "case-top", "A", "case-left-side", 10),
        ("case-top.B", "case-top", "B", "case-right-side", 10),
        ("case-bottom.A", "case-bottom", "A", "case-left-side", 10),
        ("case-bottom.B", "case-bottom", "B", "case-right-side", 10),
    ]
    assert (one.opening.width, one.opening.height, one.opening.low, one.opening.high) == (
        400, 190, 60, 250,
    )
    assert terms(p, "case-top", "length") == [(1, "inside width", 400), (1, "both tails", 14)]
    assert terms(p, "case-bottom", "length") == terms(p, "case-top", "length")
    assert terms(p, "case-left-side", "inside height") == [
        (1, "overall height", 300), (-1, "thickness of the top", 20),
        (-1, "thickness of the bottom", 20), (-1, "top below the sides' ends", 30),
        (-1, "bottom above the sides' ends", 40),
    ]


def test_where_the_sockets_of_a_slid_carcase_are() -> None:
    p, _ = made(slid_case())
    found = {(s.part, s.full_name): [tuple(t) for t in s.terms] for s in p.sums
             if "side of the socket" in s.name}
    top = [(1, "side height", 300), (-1, "top below the sides' ends", 30),
           (-1, "thickness of the top", 20), (1, "shoulder", 1)]
    foot = [(1, "bottom above the sides' ends", 40), (1, "shoulder", 1)]
    mouth = (1, "mouth where it is entered", 18)
    assert found == {
        (f"case-{hand}-side", f"{side} side of the socket (case {board})"): (
            rows if side == "near" else [*rows, mouth]
        )
        for hand in ("left", "right") for board, rows in (("top", top), ("bottom", foot))
        for side in ("near", "far")
    }
    # 40 + 1 and 60 - 1, 10/7 wider at both sides
    assert reach(cut(p, "case-left-side", "case-bottom.A", "slide socket").shape) == (
        (41 - F(10, 7), 59 + F(10, 7)), (0, 200), (0, 10),
    )


def test_the_back_of_a_slid_carcase_goes_over_top_and_bottom() -> None:
    p, one = made(slid_case(back=back()))
    # top and bottom 200 - 6 wide; rabbets in the sides only; the back as high as both reach
    assert places(one) == {
        "left-side": ((0, 20), (0, 200), (0, 300)), "right-side": ((420, 440), (0, 200), (0, 300)),
        "top": ((13, 427), (0, 194), (250, 270)), "bottom": ((13, 427), (0, 194), (40, 60)),
        "back": ((13, 427), (194, 200), (40, 270)),
    }
    assert {c.part for c in p.cuts if c.role.startswith("edge rabbet")} == {
        "case-left-side", "case-right-side",
    }
    assert terms(p, "case-back", "back height") == [
        (1, "inside height", 190), (1, "thickness of the top", 20),
        (1, "thickness of the bottom", 20),
    ]
    for board in ("case-top", "case-bottom"):
        assert terms(p, board, "width") == [
            (1, "overall depth", 200), (-1, "thickness of the back", 6),
        ]


def test_a_housing_at_the_sides_ends_is_a_rabbet() -> None:
    p, one = made(slid_case(slid=housed(), top_in=F(0), bottom_in=F(0)))
    assert (one.opening.low, one.opening.high) == (20, 280)
    assert reach(cut(p, "case-left-side", "case-bottom.A", "housing").shape) == (
        (0, 20), (0, 200), (0, 10),
    )
    assert reach(cut(p, "case-right-side", "case-top.B", "housing").shape) == (
        (280, 300), (0, 200), (0, 10),
    )
    # a line at the very end is none
    assert {m.role for m in p.marks_of("case-left-side") if m.joint == "case-bottom.A"} == {
        "far side of the socket", "socket depth",
    }
    assert terms(p, "case-left-side", "inside height") == [
        (1, "overall height", 300), (-1, "thickness of the top", 20),
        (-1, "thickness of the bottom", 20),
    ]


def test_top_and_bottom_of_their_own_thickness() -> None:
    _, one = made(slid_case(top=F(25), bottom=F(30)))
    assert places(one)["top"] == ((13, 427), (0, 200), (245, 270))
    assert places(one)["bottom"] == ((13, 427), (0, 200), (40, 70))
    _, lying = made(case(tails="top and bottom", top=F(10), bottom=F(12)))
    assert (lying.opening.low, lying.opening.high) == (12, 290)


def test_a_depth_left_open_is_a_share_of_the_sides() -> None:
    _, one = made(slid_case(sides=F(30), slid=slid(depth=None)))
    # 30 / 3, less 3
    assert (one.slides[0].depth, one.slides[0].tail) == (10, 7)
    assert sized(one.top)[0] == 394


# -- refused

HERE = Where(line=7)


@pytest.mark.parametrize(
    ("choice", "what"),
    [
        (case(width=F(28)), "the boards of the case leave nothing between them"),
        (case(height=F(28)), "the boards of the case leave nothing between them"),
        (slid_case(height=F(110)), "the boards of the case leave nothing between them"),
        (case(width=F(10_001)), "the case is more than 10 m one way"),
        (case(height=F(10_001)), "the case is more than 10 m one way"),
        (case(depth=F(2001)), "the case has a size of more than 2 m"),
        (case(back=back(room=F(2001))), "the case has a size of more than 2 m"),
        (case(back=back(thickness=F(200))), "the back of the case takes its whole depth"),
        (case(joint=dovetails(lap=F(14), where=HERE)), "the lap takes the whole thickness"),
        (slid_case(slid=slid(room=F(10), where=HERE)), "the sockets are no deeper than the room"),
        (slid_case(slid=slid(stop=F(200), where=HERE)), "the stop leaves no run of the case top"),
        (slid_case(slid=slid(taper=F(18), where=HERE)), "nothing is left of the tail's neck of"),
        (case(back=back(boards=2, tongue=TongueChoice(F(2), F(2001), F(1), F(3)))),
         "the case has a size of more than 2 m"),
        (case(back=back(room=F(428))), "the room leaves nothing of the back of the case"),
        (case(back=back(boards=30, tongue=TongueChoice(F(2), F(5), F(1), F(15)))),
         "the gaps leave nothing of the boards of the case's back"),
    ],
)
def test_what_cannot_stand_is_refused_where_it_was_written(
    choice: CarcaseChoice, what: str
) -> None:
    with pytest.raises(BadPiece) as told:
        made(choice._replace(where=HERE))
    assert told.value.what.startswith(what)
    assert told.value.cure
    assert told.value.where == HERE


def test_what_can_just_stand() -> None:
    assert made(case(width=F(29)))[1].opening.width == 1
    assert made(slid_case(height=F(111)))[1].opening.height == 1
    assert sized(made(slid_case(slid=slid(room=F(9))))[1].top)[0] == 402
