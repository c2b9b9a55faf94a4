"""Chests: every part's size and place for each bottom and lid, on both ways round, in mm.

Unless a test says otherwise: 500 long, 300 deep, sides 100 high; front and back 12 thick with the
tails, ends 14, so through tails 14 long slope 2: half pin 8, two tails 39, pin 6. Bottoms 10 thick,
12 up, 6 deep, room 2; lids 15 thick, 6 deep, room 2.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import ChestBottom, ChestChoice, LidChoice
from layout.builds.chest import Chest
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.part import Part
from layout.piece import Piece
from tests.builds.test_drawer import boxes, sized, terms
from tests.joints.test_spacing import dovetails
from tests.pieces import cut, marks_of, reach

F = Fraction
Reach = tuple[tuple[Fraction, Fraction], ...]


def chest(**changes: object) -> ChestChoice:
    """Four boards, tails on front and back, neither bottom nor lid."""
    usual = ChestChoice(
        name="chest", length=F(500), depth=F(300), height=F(100), front=F(12), ends=F(14),
        tails="front and back", joint=dovetails(), timber="pine",
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def base(kind: str, **changes: object) -> ChestBottom:
    """A bottom 10 thick."""
    usual = ChestBottom(kind, F(10), F(12), F(6), F(2), F(1), timber="cedar")  # type: ignore[arg-type]
    return usual._replace(**changes)  # type: ignore[arg-type]


def lid(kind: str = "flat", **changes: object) -> LidChoice:
    """A lid 15 thick that stands over 8 in front, 5 at the ends and 3 behind."""
    usual = LidChoice(kind, F(15), F(6), F(2), F(8), F(5), F(3), timber="oak")  # type: ignore[arg-type]
    return usual._replace(**changes)  # type: ignore[arg-type]


def made(**changes: object) -> tuple[Piece, Chest]:
    """One chest and its piece, all sums confirmed."""
    p = boxes(chests=(chest(**changes),))
    assert wrong(p) == []
    return p, p.chests[0]


def where(part: Part | None) -> Reach:
    """Its reach along X, Y and Z."""
    assert part is not None
    return tuple(part.reach(axis) for axis in range(3))


def sums(p: Piece) -> dict[tuple[str, str, str], list[tuple[int, str, Fraction]]]:
    """The terms of every sum that is not the corners'."""
    corners = {"box", "chest front", "chest back", "chest left end", "chest right end"}
    return {
        (one.part, one.name, one.where): [tuple(term) for term in one.terms]  # type: ignore[misc]
        for one in p.sums if one.where not in corners or one.name.startswith("width of the rabbet")
    }


# -- the four boards


def test_the_four_boards_of_a_through_chest() -> None:
    _, one = made()
    assert {part.id: (sized(part), where(part)) for part in one.parts} == {
        "chest-front": ((500, 100, 12), ((0, 500), (0, 12), (0, 100))),
        "chest-back": ((500, 100, 12), ((0, 500), (288, 300), (0, 100))),
        "chest-left-end": ((300, 100, 14), ((0, 14), (0, 300), (0, 100))),
        "chest-right-end": ((300, 100, 14), ((486, 500), (0, 300), (0, 100))),
    }
    assert [(p.kind, p.hand, p.timber) for p in one.parts] == [
        ("chest long side", "", "pine"), ("chest long side", "", "pine"),
        ("chest end", "left", "pine"), ("chest end", "right", "pine"),
    ]
    assert [(p.placement.L, p.placement.W, p.placement.T) for p in one.parts] == [
        ("+X", "+Z", "-Y"), ("-X", "+Z", "+Y"), ("+Y", "+Z", "-X"), ("+Y", "+Z", "+X"),
    ]


def test_corners_go_round_from_the_front_left() -> None:
    _, one = made()
    assert [(c.name, c.letter, c.tails.id, c.tail_end, c.pins.id, c.pin_end) for c in one.corners] \
        == [
        ("chest.A", "A", "chest-front", "A", "chest-left-end", "A"),
        ("chest.B", "B", "chest-front", "B", "chest-right-end", "A"),
        ("chest.C", "C", "chest-back", "A", "chest-right-end", "B"),
        ("chest.D", "D", "chest-back", "B", "chest-left-end", "B"),
    ]
    assert [m.end for m in one.corners[0].spacing.members] == [8, 39, 6, 39, 8]
    assert one.corners[0].depth == 14


def test_tails_on_the_ends_turn_the_corners_round() -> None:
    _, one = made(tails="ends")
    assert [(c.tails.id, c.tail_end, c.pins.id, c.pin_end) for c in one.corners] == [
        ("chest-left-end", "A", "chest-front", "A"), ("chest-right-end", "A", "chest-front", "B"),
        ("chest-right-end", "B", "chest-back", "A"), ("chest-left-end", "B", "chest-back", "B"),
    ]
    assert one.corners[0].depth == 12


def test_laps_shorten_the_boards_with_the_tails() -> None:
    p, one = made(joint=dovetails(lap=F(4)))
    assert {part.id: (part.length, where(part)[:2]) for part in one.parts} == {
        "chest-front": (492, ((4, 496), (0, 12))), "chest-back": (492, ((4, 496), (288, 300))),
        "chest-left-end": (300, ((0, 14), (0, 300))),
        "chest-right-end": (300, ((486, 500), (0, 300))),
    }
    assert one.corners[0].depth == 10
    assert terms(p, "chest-front", "length") == [(1, "overall length", 500), (-1, "both laps", 8)]
    assert not [s for s in p.sums if s.name == "length" and s.part == "chest-left-end"]


def test_laps_shorten_the_ends_where_those_have_the_tails() -> None:
    p, one = made(tails="ends", joint=dovetails(lap=F(4)))
    assert {part.id: (part.length, where(part)[:2]) for part in one.parts} == {
        "chest-front": (500, ((0, 500), (0, 12))), "chest-back": (500, ((0, 500), (288, 300))),
        "chest-left-end": (292, ((0, 14), (4, 296))),
        "chest-right-end": (292, ((486, 500), (4, 296))),
    }
    assert one.corners[0].depth == 8
    assert terms(p, "chest-left-end", "length") == [(1, "overall depth", 300), (-1, "both laps", 8)]


def test_the_sums_of_four_boards() -> None:
    p, _ = made()
    assert sums(p) == {
        ("chest-front", "inside length", ""): [
            (1, "overall length", 500), (-1, "thickness of both boards across, chest end", 28),
        ],
        ("chest-left-end", "inside depth", ""): [
            (1, "overall depth", 300), (-1, "thickness of both boards across, chest long side", 24),
        ],
    }


# -- bottoms


def test_a_bottom_in_grooves() -> None:
    p, one = made(bottom=base("groove"))
    # inside 472 x 276; 6 in each groove, less 2 of room
    assert (sized(one.bottom), where(one.bottom)) == (  # type: ignore[arg-type]
        (482, 286, 10), ((9, 491), (7, 293), (12, 22)),
    )
    assert one.bottom is not None
    assert (one.bottom.timber, one.bottom.placement.T) == ("cedar", "-Z")
    # in front and back it stops in the tails, 14 - 6; in the ends it runs out into the sockets
    assert one.grooves == {
        "chest-front": ((12, 22), 6, (8, 492)), "chest-back": ((12, 22), 6, (8, 492)),
        "chest-left-end": ((12, 22), 6, (0, 300)), "chest-right-end": ((12, 22), 6, (0, 300)),
    }
    assert terms(p, "chest-bottom", "bottom length") == [
        (1, "inside length", 472), (1, "both grooves", 12), (-1, "room to fit", 2),
    ]
    assert terms(p, "chest-bottom", "bottom width") == [
        (1, "inside depth", 276), (1, "both grooves", 12), (-1, "room to fit", 2),
    ]
    assert terms(p, "chest-front", "start of the groove from end A") == [
        (1, "tail length", 14), (-1, "depth of the groove", 6),
    ]
    assert terms(p, "chest-back", "end of the groove from end A") == [
        (1, "length", 500), (-1, "start of the groove", 8),
    ]
    for part in one.walls:
        assert terms(p, part.id, "far groove wall from the face edge") == [
            (1, "groove above the lower edge", 12), (1, "width of the groove", 10),
        ]
    assert reach(cut(p, "chest-front", "chest.bottom", "bottom groove").shape) == (
        (8, 492), (12, 22), (0, 6),
    )


def test_a_groove_beside_the_tails_stops_in_the_ends_too() -> None:
    # 5 above the edge: 5 - 1 - 2 = 2 is less than half of a pin, so the half pin stays
    p, one = made(bottom=base("groove", up=F(5)))
    assert one.grooves["chest-left-end"] == ((5, 15), 6, (6, 294))  # 12 - 6
    assert terms(p, "chest-left-end", "start of the groove from end A") == [
        (1, "baseline of the pins", 12), (-1, "depth of the groove", 6),
    ]
    _, one = made(bottom=base("groove", up=F(5)), tails="ends")
    # tails 12 long in the ends: 12 - 6; the pins of front and back have their baseline at 14
    assert one.grooves["chest-left-end"].run == (6, 294)
    assert one.grooves["chest-front"].run == (8, 492)


def test_tails_on_the_ends_stop_their_groove() -> None:
    # 1 in 6 over 12
    p, one = made(bottom=base("groove"), tails="ends")
    assert one.grooves["chest-left-end"].run == (6, 294)
    assert one.grooves["chest-front"].run == (0, 500)
    assert terms(p, "chest-left-end", "start of the groove from end A") == [
        (1, "tail length", 12), (-1, "depth of the groove", 6),
    ]


def test_a_groove_run_through_or_behind_laps_stops_nowhere() -> None:
    for changes in (
        {"bottom": base("groove", run="through")},
        {"bottom": base("groove"), "joint": dovetails(lap=F(4))},
    ):
        _, one = made(**changes)
        assert {groove.run[0] for groove in one.grooves.values()} == {0}


def test_half_pins_give_way_to_the_groove() -> None:
    _, one = made(bottom=base("groove", up=F(9)))
    assert one.corners[0].spacing.members[0].end == 6  # 9 - 1 - 2


def test_a_bottom_in_a_rabbet() -> None:
    p, one = made(bottom=base("rabbet"))
    assert (sized(one.bottom), where(one.bottom)) == (  # type: ignore[arg-type]
        (482, 286, 10), ((9, 491), (7, 293), (0, 10)),
    )
    assert one.grooves == {}
    # the half pin below grows to the rabbet's 10
    assert [m.end for m in one.corners[0].spacing.members] == [10, 38, 6, 38, 8]
    for corner in one.corners:
        assert corner.rabbet == ("near", 10, 6, "chest.bottom")
    for part in one.walls:
        assert reach(cut(p, part.id, "chest.bottom", "edge rabbet").shape) == (
            (0, part.length), (0, 10), (0, 6),
        )
    # stepped: 14 - 6 = 8
    assert reach(cut(p, "chest-front", "chest.A", "waste of half pin 1 at the rabbet").shape) == (
        (0, 8), (0, 10), (0, 12),
    )
    assert terms(p, "chest-bottom", "bottom length") == [
        (1, "inside length", 472), (1, "both rabbets", 12), (-1, "room to fit", 2),
    ]


def test_a_rabbeted_bottom_lifts_the_chest() -> None:
    p, one = made(bottom=base("rabbeted"))
    assert (sized(one.bottom), where(one.bottom)) == (  # type: ignore[arg-type]
        (500, 300, 10), ((0, 500), (0, 300), (0, 10)),
    )
    assert where(one.front)[2] == (4, 104)  # 10 - 6
    # as wide as the boards are thick, and half of the room
    for edge, span in (
        ("", ((0, 500), (0, 13))), (" far edge", ((0, 500), (287, 300))),
        (" end A", ((0, 15), (0, 300))), (" end B", ((485, 500), (0, 300))),
    ):
        role = f"edge rabbet{edge}"
        assert reach(cut(p, "chest-bottom", "chest.bottom", role).shape) == (*span, (0, 6))
    assert {key: rows for key, rows in sums(p).items() if key[0] == "chest-bottom"} == {
        ("chest-bottom", "length of the tongue", ""): [
            (1, "inside length", 472), (-1, "room to fit", 2),
        ],
        ("chest-bottom", "width of the tongue", ""): [
            (1, "inside depth", 276), (-1, "room to fit", 2),
        ],
        ("chest-bottom", "width of the rabbet", "chest left end"): [
            (1, "thickness of the chest end", 14), (1, "half of the room to fit", 1),
        ],
        ("chest-bottom", "width of the rabbet", "chest front"): [
            (1, "thickness of the chest long side", 12), (1, "half of the room to fit", 1),
        ],
        ("chest-bottom", "width of the rabbet", "chest back"): [
            (1, "thickness of the chest long side", 12), (1, "half of the room to fit", 1),
        ],
        ("chest-bottom", "rabbet from the face edge", "far edge"): [
            (1, "width", 300), (-1, "width of the rabbet", 13),
        ],
    }


def test_a_planted_bottom_lifts_the_chest_by_its_thickness() -> None:
    p, one = made(bottom=base("planted"))
    assert where(one.bottom) == ((0, 500), (0, 300), (0, 10))
    assert where(one.left)[2] == (10, 110)
    assert p.cuts_of("chest-bottom") == ()


# -- lids


def test_a_flat_lid_stands_over() -> None:
    p, one = made(lid=lid())
    assert (sized(one.lid), where(one.lid)) == (  # type: ignore[arg-type]
        (510, 311, 15), ((-5, 505), (-8, 303), (100, 115)),
    )
    assert one.lid is not None
    assert (one.lid.timber, one.lid.placement.T) == ("oak", "-Z")  # face side up
    assert p.cuts_of("chest-lid") == ()
    assert {key: rows for key, rows in sums(p).items() if key[0] == "chest-lid"} == {
        ("chest-lid", "lid length", ""): [
            (1, "overall length", 500), (1, "overhang at both ends", 10),
        ],
        ("chest-lid", "lid width", ""): [
            (1, "overall depth", 300), (1, "overhang in front", 8), (1, "overhang behind", 3),
        ],
    }


def test_a_lid_flush_all_round_has_no_overhangs_to_add() -> None:
    p, one = made(lid=lid(front=F(0), ends=F(0), back=F(0)))
    assert where(one.lid) == ((0, 500), (0, 300), (100, 115))
    assert terms(p, "chest-lid", "lid width") == [(1, "overall depth", 300)]
    assert terms(p, "chest-lid", "lid length") == [(1, "overall length", 500)]


def test_a_rabbeted_lid_drops_its_tongue_into_the_box() -> None:
    p, one = made(lid=lid("rabbeted"))
    assert where(one.lid) == ((-5, 505), (-8, 303), (94, 109))
    # below, where the lid stands over: board, overhang and half of the room
    for edge, span in (
        ("", ((0, 510), (0, 21))), (" far edge", ((0, 510), (295, 311))),
        (" end A", ((0, 20), (0, 311))), (" end B", ((490, 510), (0, 311))),
    ):
        shape = cut(p, "chest-lid", "chest.lid", f"edge rabbet{edge}").shape
        assert reach(shape) == (*span, (9, 15))
    told = sums(p)
    assert told["chest-lid", "length of the tongue", ""] == [
        (1, "inside length", 472), (-1, "room to fit", 2),
    ]
    assert told["chest-lid", "width of the rabbet", "chest front"] == [
        (1, "thickness of the chest long side", 12), (1, "overhang at the front", 8),
        (1, "half of the room to fit", 1),
    ]
    assert told["chest-lid", "width of the rabbet", "chest left end"] == [
        (1, "thickness of the chest end", 14), (1, "overhang at the ends", 5),
        (1, "half of the room to fit", 1),
    ]
    assert told["chest-lid", "width of the rabbet", "chest back"] == [
        (1, "thickness of the chest long side", 12), (1, "overhang at the back", 3),
        (1, "half of the room to fit", 1),
    ]


def test_lids_and_bottoms_come_last() -> None:
    _, one = made(bottom=base("rabbeted"), lid=lid("rabbeted"))
    assert [part.name for part in one.parts] == [
        "chest front", "chest back", "chest left end", "chest right end", "chest bottom",
        "chest lid",
    ]
    assert where(one.lid)[2] == (98, 113)  # 4 higher


# -- glue-ups


def test_like_boards_are_glued_at_equal_steps() -> None:
    p, one = made(front_boards=2)
    assert one.glued == {
        "chest-front": (50, 50), "chest-back": (50, 50), "chest-left-end": (100,),
        "chest-right-end": (100,),
    }
    for name in ("chest-front", "chest-back"):
        assert [(m.face, m.tool, m.source, m.distance, m.line)
                for m in marks_of(p, name, "chest.bottom", "glue line")] == [
            (face, "pencil", "face edge", 50, ((0, 50), (500, 50))) for face in ("face", "back")
        ]
        assert terms(p, name, "boards of the glue-up") == [(1, "board 1", 50), (1, "board 2", 50)]
    assert not marks_of(p, "chest-left-end", "chest.bottom", "glue line")


def test_boards_as_given_are_told_from_the_lower_edge() -> None:
    p, one = made(end_boards=(F(40), F(35), F(25)))
    assert one.glued["chest-left-end"] == (40, 35, 25)
    for number, at in ((1, 40), (2, 75)):
        lines = marks_of(p, "chest-right-end", "chest.bottom", f"glue line {number}")
        assert [(m.distance, m.line) for m in lines] == [(at, ((0, at), (300, at)))] * 2
    assert terms(p, "chest-left-end", "boards of the glue-up") == [
        (1, "board 1", 40), (1, "board 2", 35), (1, "board 3", 25),
    ]


def test_bottoms_and_lids_are_glued_up_across_their_own_width() -> None:
    _, one = made(bottom=base("groove", boards=2), lid=lid(boards=(F(100), F(211))))
    assert (one.glued["chest-bottom"], one.glued["chest-lid"]) == ((143, 143), (100, 211))


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"front_boards": (F(50), F(49))}, "front"),
        ({"end_boards": (F(50), F(51))}, "ends"),
        ({"bottom": base("planted", boards=(F(100),))}, "bottom"),
        ({"lid": lid(boards=(F(300),))}, "lid"),
    ],
)
def test_boards_that_do_not_make_up_the_width_are_refused(
    changes: dict[str, object], what: str
) -> None:
    with pytest.raises(BadPiece) as told:
        made(**changes)
    assert told.value.what == f"the boards of the {what} don't add up to its width"
    assert told.value.cure == "give widths that add up, or only how many boards"


# -- what can't be


@pytest.mark.parametrize(
    ("changes", "what", "cure"),
    [
        ({"length": F(28)}, "the boards of the chest leave nothing between them",
         "make it longer or deeper, or the boards thinner"),
        ({"depth": F(24)}, "the boards of the chest leave nothing between them",
         "make it longer or deeper, or the boards thinner"),
        ({"joint": dovetails(lap=F(14))}, "the lap takes the whole thickness of the pin board",
         "make the lap less, or the board thicker"),
        ({"tails": "ends", "joint": dovetails(lap=F(12))},
         "the lap takes the whole thickness of the pin board",
         "make the lap less, or the board thicker"),
        ({"length": F(10_001)}, "the chest is more than 10 m one way",
         "check the sizes and the file's unit"),
        ({"depth": F(10_001)}, "the chest is more than 10 m one way",
         "check the sizes and the file's unit"),
    ],
)
def test_a_chest_without_a_size_is_refused(
    changes: dict[str, object], what: str, cure: str
) -> None:
    with pytest.raises(BadPiece) as told:
        made(**changes)
    assert (told.value.what, told.value.cure) == (what, cure)


def test_one_mm_more_stands() -> None:
    assert made(length=F(29))[1].front.length == 29
    assert made(tails="ends", joint=dovetails(lap=F(11)))[1].corners[0].depth == 1
