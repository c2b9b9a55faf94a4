"""Boards slid into others: every cut, mark and sum of a slide or housing, in mm.

Unless a test says otherwise the slider is 20 thick and 100 wide, level, its face side on top at 120
above the floor, its back at 100. Both bearers are 24 thick and 120 wide, from 10 before the slider
to 10 behind it; their surfaces are 200 apart. The left one's end A is on the floor, the right one's
300 above it. Sockets are 12 deep with 4 of room, so the tail is 8 long; at 1 in 4 a side slopes 2
over the tail and 3 over the socket.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks.sums import wrong
from layout.joints.slide import Slide, SlideChoice, bearer_face, depth_of, entry_face, which, work
from layout.joints.worked import Worked
from layout.kit import usual_kit
from layout.mark import Hull
from layout.measure import default_rule
from layout.measure.slope import Slope
from layout.part import Part, Placement
from layout.piece import Piece, PieceChoice

F = Fraction
LEFT = Part("left", "left side", "side", F(300), F(120), F(24),
            Placement((F(0), F(-10), F(0)), "+Z", "+Y", "-X"))
RIGHT = Part("right", "right side", "side", F(300), F(120), F(24),
             Placement((F(200), F(-10), F(300)), "-Z", "+Y", "+X"))
# 200 between its shoulders and a tail of 8 at both ends; 100 to 120 above the floor
SHELF = Part("shelf", "shelf", "shelf", F(216), F(100), F(20),
             Placement((F(-8), F(0), F(120)), "+X", "+Y", "-Z"))
Points = set[tuple[int, int, int]]
Rows = list[tuple[object, ...]]


def slides(**changes: object) -> SlideChoice:
    """A sliding dovetail 12 deep, 1 in 4, 4 of room, entered from the back."""
    usual = SlideChoice(depth=F(12), slope=Slope(F(4)), room=F(4))
    return usual._replace(**changes)  # type: ignore[arg-type]


def housed(**changes: object) -> SlideChoice:
    """A housing of the same depth and room."""
    return slides(slope=None, **changes)


def slide(end: str = "A", choice: SlideChoice | None = None, **changes: object) -> Slide:
    """The shelf's end A in the left side, or its end B in the right one."""
    taken = choice if choice is not None else slides(**changes)
    # the shelf's nearer side from end A: its underside at 100, or its top at 300 - 120
    place = ((1, "clear below", F(100)),) if end == "A" else ((1, "clear above", F(180)),)
    return Slide(f"shelf.{end}", SHELF, end, LEFT if end == "A" else RIGHT,  # type: ignore[arg-type]
                 taken, depth_of(taken, F(24)), place)


def worked(one: Slide) -> Worked:
    """Cuts, marks and sums, all sums confirmed by the placed parts."""
    done = work(one)
    choice = PieceChoice("Slides", "mm", default_rule("mm"), usual_kit("mm"), F(5), F(1))
    piece = Piece(choice, (LEFT, RIGHT, SHELF), done.cuts, done.marks, done.sums, (), (), ())
    assert wrong(piece) == []
    return done


def cuts(one: Slide) -> dict[tuple[str, str], Points]:
    """The corners of every cut, by part and role."""
    found: dict[tuple[str, str], Points] = {}
    for cut in worked(one).cuts:
        assert cut.joint == one.name
        assert isinstance(cut.shape, Hull)
        assert (cut.part, cut.role) not in found
        found[cut.part, cut.role] = set(cut.shape.points)  # type: ignore[arg-type]
    return found


def marks(one: Slide, part: str) -> Rows:
    """Face, tool, role, source, distance and line of every mark on a part."""
    return [
        (m.face, m.tool, m.role, m.source, m.distance, m.line)
        for m in worked(one).marks
        if m.part == part
    ]


def sums(one: Slide) -> dict[tuple[str, str], list[tuple[int, str, int]]]:
    """The terms of every sum, by part and full name."""
    found = {}
    for each in worked(one).sums:
        assert (each.part, each.full_name) not in found
        found[each.part, each.full_name] = [tuple(term) for term in each.terms]
    return found  # type: ignore[return-value]


def prism(ends: tuple[int, ...], *section: tuple[int, int]) -> Points:
    """A section in (L, T) drawn along W from one end to the other."""
    return {(at, w, t) for w in ends for at, t in section}


# -- plain


def test_a_plain_slide_is_cut_as_the_slope_says() -> None:
    assert cuts(slide()) == {
        # shoulders 2 and 20 - 2; the tip is as thick as the board, so each waste is a wedge
        ("shelf", "tail waste, face"): prism((0, 100), (0, 0), (8, 0), (8, 2)),
        ("shelf", "tail waste, back"): prism((0, 100), (0, 20), (8, 20), (8, 18)),
        # mouth from 120 - 18 to 120 - 2; 3 wider at both sides 12 deep; right across the side
        ("left", "slide socket"): prism((10, 120), (102, 0), (118, 0), (99, 12), (121, 12)),
    }


def test_the_other_end_in_a_bearer_that_runs_the_other_way() -> None:
    assert cuts(slide("B")) == {
        # from the tip at 216
        ("shelf", "tail waste, face"): prism((0, 100), (216, 0), (208, 0), (208, 2)),
        ("shelf", "tail waste, back"): prism((0, 100), (216, 20), (208, 20), (208, 18)),
        # 300 - 118, 300 - 102; 3 wider at both sides
        ("right", "slide socket"): prism((10, 120), (182, 0), (198, 0), (179, 12), (201, 12)),
    }


def test_sizes_of_a_plain_slide() -> None:
    one = slide()
    assert (one.tail, one.neck, one.shoulder("face"), one.shoulder("back")) == (8, 16, 2, 2)
    assert (one.lean("face", F(12)), one.end_face, slide("B").end_face) == (3, "end A", "end B")
    assert (bearer_face(one), entry_face(one)) == ("face", "far edge")
    assert (which(one, "face"), which(one, "back")) == ("far", "near")
    # the right side is told from above, where the shelf's face side is nearer
    assert (which(slide("B"), "face"), which(slide("B"), "back")) == ("near", "far")


def test_marks_on_the_bearer_of_a_plain_slide() -> None:
    assert marks(slide(), "left") == [
        ("face", "knife", "far side of the socket", "end A", 118, ((118, 110), (118, 10))),
        ("face", "knife", "far side of the socket", "end A", 118, ((118, 120), (118, 110))),
        ("face", "knife", "near side of the socket", "end A", 102, ((102, 110), (102, 10))),
        ("face", "knife", "near side of the socket", "end A", 102, ((102, 120), (102, 110))),
        # the shelf stands 10 behind the side's front: there the socket ends
        ("face", "knife", "socket stop", "face edge", 10, ((118, 10), (102, 10))),
        ("far edge", "bevel", "far side of the socket", "end A", 118, ((118, 0), (121, 12))),
        ("far edge", "bevel", "near side of the socket", "end A", 102, ((102, 0), (99, 12))),
        ("far edge", "marking gauge", "socket depth", "face side", 12, ((121, 12), (99, 12))),
    ]


def test_marks_on_the_bearer_that_runs_the_other_way() -> None:
    assert marks(slide("B"), "right") == [
        ("face", "knife", "near side of the socket", "end A", 182, ((182, 110), (182, 10))),
        ("face", "knife", "near side of the socket", "end A", 182, ((182, 120), (182, 110))),
        ("face", "knife", "far side of the socket", "end A", 198, ((198, 110), (198, 10))),
        ("face", "knife", "far side of the socket", "end A", 198, ((198, 120), (198, 110))),
        ("face", "knife", "socket stop", "face edge", 10, ((182, 10), (198, 10))),
        ("far edge", "bevel", "near side of the socket", "end A", 182, ((182, 0), (179, 12))),
        ("far edge", "bevel", "far side of the socket", "end A", 198, ((198, 0), (201, 12))),
        ("far edge", "marking gauge", "socket depth", "face side", 12, ((179, 12), (201, 12))),
    ]


@pytest.mark.parametrize(("end", "tip", "shoulder"), [("A", 0, 8), ("B", 216, 208)])
def test_marks_on_the_slider_of_a_plain_slide(end: str, tip: int, shoulder: int) -> None:
    line = ((shoulder, 0), (shoulder, 100))
    # its tip is as thick as the board: nothing to mark on the end
    assert marks(slide(end), "shelf") == [
        ("face", "marking gauge", "tail shoulder", f"end {end}", 8, line),
        ("back", "marking gauge", "tail shoulder", f"end {end}", 8, line),
        ("far edge", "bevel", "tail side, face", "face side", 2, ((tip, 0), (shoulder, 2))),
        ("far edge", "bevel", "tail side, back", "face side", 18, ((tip, 20), (shoulder, 18))),
    ]


def test_sums_of_a_plain_slide() -> None:
    assert sums(slide()) == {
        ("shelf", "tail length (left side)"): [
            (1, "socket depth", 12), (-1, "room at the bottom", 4),
        ],
        ("shelf", "neck where it is entered (left side)"): [
            (1, "thickness", 20), (-1, "shoulder at the face side", 2), (-1, "shoulder at the back",
                                                                        2),
        ],
        ("left", "socket at the bottom (shelf)"): [
            (1, "mouth where it is entered", 16), (1, "depth sloped 1 in 4, on both sides", 6),
        ],
        ("left", "near side of the socket (shelf)"): [(1, "clear below", 100), (1, "shoulder", 2)],
        ("left", "far side of the socket (shelf)"): [
            (1, "clear below", 100), (1, "shoulder", 2), (1, "mouth where it is entered", 16),
        ],
    }


def test_the_place_in_a_bearer_that_runs_the_other_way() -> None:
    found = sums(slide("B", shoulders=(F(3), F(5))))
    # told from above: the face side's shoulder comes first; 20 - 3 - 5 = 12
    assert found["right", "near side of the socket (shelf)"] == [
        (1, "clear above", 180), (1, "shoulder", 3),
    ]
    assert found["right", "far side of the socket (shelf)"] == [
        (1, "clear above", 180), (1, "shoulder", 3), (1, "mouth where it is entered", 12),
    ]
    # and from below the back's does
    assert sums(slide(shoulders=(F(3), F(5))))["left", "near side of the socket (shelf)"] == [
        (1, "clear below", 100), (1, "shoulder", 5),
    ]


def test_a_depth_left_open_is_a_share_of_the_bearer_with_its_sum() -> None:
    one = slide(depth=None, room=F(0))
    assert (one.depth, one.tail) == (8, 8)  # 24 / 3, and nothing less
    assert depth_of(slides(depth=None, depth_share=F(1, 4)), F(24)) == 6
    assert depth_of(slides(), F(24)) == 12
    assert sums(one)["left", "socket depth (shelf)"] == [
        (1, "1/3 of the left side's thickness", 8),
    ]
    assert ("left", "socket depth (shelf)") not in sums(slide())


# -- sloping on one side only


def test_a_slide_that_slopes_at_its_face_only() -> None:
    one = slide(slopes="face")
    assert (one.neck, one.shoulder("face"), one.shoulder("back")) == (18, 2, 0)
    assert cuts(one) == {
        ("shelf", "tail waste, face"): prism((0, 100), (0, 0), (8, 0), (8, 2)),
        ("left", "slide socket"): prism((10, 120), (100, 0), (118, 0), (100, 12), (121, 12)),
    }
    assert marks(one, "left")[5:] == [
        ("far edge", "bevel", "far side of the socket", "end A", 118, ((118, 0), (121, 12))),
        ("far edge", "knife", "near side of the socket", "end A", 100, ((100, 0), (100, 12))),
        ("far edge", "marking gauge", "socket depth", "face side", 12, ((121, 12), (100, 12))),
    ]
    assert marks(one, "shelf") == [
        ("face", "marking gauge", "tail shoulder", "end A", 8, ((8, 0), (8, 100))),
        ("far edge", "bevel", "tail side, face", "face side", 2, ((0, 0), (8, 2))),
    ]
    found = sums(one)
    assert found["shelf", "neck where it is entered (left side)"] == [
        (1, "thickness", 20), (-1, "shoulder at the face side", 2),
    ]
    assert found["left", "socket at the bottom (shelf)"] == [
        (1, "mouth where it is entered", 18), (1, "depth sloped 1 in 4", 3),
    ]
    assert found["left", "near side of the socket (shelf)"] == [(1, "clear below", 100)]


def test_a_slide_that_slopes_at_its_back_only() -> None:
    one = slide(slopes="back")
    assert cuts(one) == {
        ("shelf", "tail waste, back"): prism((0, 100), (0, 20), (8, 20), (8, 18)),
        ("left", "slide socket"): prism((10, 120), (102, 0), (120, 0), (99, 12), (120, 12)),
    }
    assert [row[:3] for row in marks(one, "left")[5:7]] == [
        ("far edge", "knife", "far side of the socket"),
        ("far edge", "bevel", "near side of the socket"),
    ]


def test_a_square_side_may_have_a_shoulder_too() -> None:
    one = slide(slopes="face", shoulders=(None, F(3)))
    assert one.neck == 15  # 20 - 2 - 3
    assert cuts(one)["shelf", "tail waste, back"] == prism(
        (0, 100), (0, 20), (0, 17), (8, 20), (8, 17)
    )
    assert ("far edge", "marking gauge", "tail side, back", "face side", 17, ((0, 17), (8, 17))
            ) in marks(one, "shelf")
    assert ("end A", "marking gauge", "tail side, back", "face side", 17, ((100, 17), (0, 17))
            ) in marks(one, "shelf")


# -- shoulders of the maker's


def test_shoulders_larger_than_the_slope_leave_a_thinner_tip() -> None:
    one = slide(shoulders=(F(3), F(5)))
    assert one.neck == 12
    assert cuts(one) == {
        # at the tip 3 - 2 and 15 + 2
        ("shelf", "tail waste, face"): prism((0, 100), (0, 0), (0, 1), (8, 0), (8, 3)),
        ("shelf", "tail waste, back"): prism((0, 100), (0, 20), (0, 17), (8, 20), (8, 15)),
        # 120 - 15 and 120 - 3; 3 wider at both sides
        ("left", "slide socket"): prism((10, 120), (105, 0), (117, 0), (102, 12), (120, 12)),
    }
    assert marks(one, "shelf")[2:] == [
        ("far edge", "bevel", "tail side, face", "face side", 3, ((0, 1), (8, 3))),
        ("end A", "marking gauge", "tail side, face", "face side", 1, ((100, 1), (0, 1))),
        ("far edge", "bevel", "tail side, back", "face side", 15, ((0, 17), (8, 15))),
        ("end A", "marking gauge", "tail side, back", "face side", 17, ((100, 17), (0, 17))),
    ]


# -- tapered


def test_a_run_tapered_all_the_way() -> None:
    one = slide(shoulders=(F(3), F(5)), taper=F(2))
    assert one.stations() == ((0, 2), (100, 0))
    assert cuts(one) == {
        # 1 more at each side at the closed end, w = 0
        ("shelf", "tail waste, face"): {
            (0, 0, 0), (0, 0, 2), (8, 0, 0), (8, 0, 4),
            (0, 100, 0), (0, 100, 1), (8, 100, 0), (8, 100, 3),
        },
        ("shelf", "tail waste, back"): {
            (0, 0, 20), (0, 0, 16), (8, 0, 20), (8, 0, 14),
            (0, 100, 20), (0, 100, 17), (8, 100, 20), (8, 100, 15),
        },
        ("left", "slide socket"): {
            (106, 10, 0), (116, 10, 0), (103, 10, 12), (119, 10, 12),
            (105, 110, 0), (117, 110, 0), (102, 110, 12), (120, 110, 12),
            # past the shelf as wide as it is entered
            (105, 120, 0), (117, 120, 0), (102, 120, 12), (120, 120, 12),
        },
    }
    assert marks(one, "shelf")[2:] == [
        ("far edge", "bevel", "tail side, face", "face side", 3, ((0, 1), (8, 3))),
        ("end A", "knife", "tail side, face", "face side", 2, ((100, 1), (0, 2))),
        ("far edge", "bevel", "tail side, back", "face side", 15, ((0, 17), (8, 15))),
        ("end A", "knife", "tail side, back", "face side", 16, ((100, 17), (0, 16))),
    ]
    assert marks(one, "left")[:4] == [
        ("face", "knife", "far side of the socket", "end A", 117, ((117, 110), (116, 10))),
        ("face", "knife", "far side of the socket", "end A", 117, ((117, 120), (117, 110))),
        ("face", "knife", "near side of the socket", "end A", 105, ((105, 110), (106, 10))),
        ("face", "knife", "near side of the socket", "end A", 105, ((105, 120), (105, 110))),
    ]
    assert sums(one)["shelf", "neck at the closed end (left side)"] == [
        (1, "neck where it is entered", 12), (-1, "taper", 2),
    ]


def test_a_taper_over_all_of_the_run_is_the_same_as_one_left_open() -> None:
    one = slide(shoulders=(F(3), F(5)), taper=F(2))
    assert cuts(slide(shoulders=(F(3), F(5)), taper=F(2), taper_over=F(100))) == cuts(one)


def test_a_taper_on_a_one_sided_slide_is_all_on_its_slope() -> None:
    one = slide(slopes="face", shoulders=(F(3), F(0)), taper=F(2))
    assert (one.narrowing("face", F(2)), one.narrowing("back", F(2))) == (2, 0)
    assert one.side_at("face", F(2), F(0)) == 5
    assert one.side_at("back", F(2), F(0)) == 20
    assert ("shelf", "tail waste, back") not in cuts(one)


def test_a_run_tapered_over_its_last_part_and_stopped() -> None:
    one = slide(shoulders=(F(3), F(5)), taper=F(2), taper_over=F(40), stop=F(20))
    # closed at 20, parallel from 20 + 40 on
    assert one.stations() == ((20, 2), (60, 0), (100, 0))
    assert cuts(one) == {
        ("shelf", "tail waste, face, taper"): {
            (0, 20, 0), (0, 20, 2), (8, 20, 0), (8, 20, 4),
            (0, 60, 0), (0, 60, 1), (8, 60, 0), (8, 60, 3),
        },
        ("shelf", "tail waste, back, taper"): {
            (0, 20, 20), (0, 20, 16), (8, 20, 20), (8, 20, 14),
            (0, 60, 20), (0, 60, 17), (8, 60, 20), (8, 60, 15),
        },
        ("shelf", "tail waste, face"): prism((60, 100), (0, 0), (0, 1), (8, 0), (8, 3)),
        ("shelf", "tail waste, back"): prism((60, 100), (0, 20), (0, 17), (8, 20), (8, 15)),
        ("shelf", "notch at the stop"): prism((0, 20), (0, 0), (8, 0), (0, 20), (8, 20)),
        ("left", "slide socket, taper"): {
            (106, 30, 0), (116, 30, 0), (103, 30, 12), (119, 30, 12),
            (105, 70, 0), (117, 70, 0), (102, 70, 12), (120, 70, 12),
        },
        ("left", "slide socket"): prism((70, 120), (105, 0), (117, 0), (102, 12), (120, 12)),
    }


def test_marks_of_a_run_tapered_over_its_last_part_and_stopped() -> None:
    one = slide(shoulders=(F(3), F(5)), taper=F(2), taper_over=F(40), stop=F(20))
    assert marks(one, "left") == [
        ("face", "knife", "far side of the socket", "end A", 117, ((117, 70), (116, 30))),
        ("face", "knife", "far side of the socket", "end A", 117, ((117, 110), (117, 70))),
        ("face", "knife", "far side of the socket", "end A", 117, ((117, 120), (117, 110))),
        ("face", "knife", "near side of the socket", "end A", 105, ((105, 70), (106, 30))),
        ("face", "knife", "near side of the socket", "end A", 105, ((105, 110), (105, 70))),
        ("face", "knife", "near side of the socket", "end A", 105, ((105, 120), (105, 110))),
        # 10 + 20 from the side's own face edge, as wide as the mouth is there
        ("face", "knife", "socket stop", "face edge", 30, ((116, 30), (106, 30))),
        ("far edge", "bevel", "far side of the socket", "end A", 117, ((117, 0), (120, 12))),
        ("far edge", "bevel", "near side of the socket", "end A", 105, ((105, 0), (102, 12))),
        ("far edge", "marking gauge", "socket depth", "face side", 12, ((120, 12), (102, 12))),
    ]
    assert marks(one, "shelf") == [
        ("face", "marking gauge", "tail shoulder", "end A", 8, ((8, 20), (8, 100))),
        ("back", "marking gauge", "tail shoulder", "end A", 8, ((8, 20), (8, 100))),
        ("far edge", "bevel", "tail side, face", "face side", 3, ((0, 1), (8, 3))),
        ("end A", "knife", "tail side, face", "face side", 2, ((60, 1), (20, 2))),
        ("end A", "marking gauge", "tail side, face", "face side", 1, ((100, 1), (60, 1))),
        ("far edge", "bevel", "tail side, back", "face side", 15, ((0, 17), (8, 15))),
        ("end A", "knife", "tail side, back", "face side", 16, ((60, 17), (20, 16))),
        ("end A", "marking gauge", "tail side, back", "face side", 17, ((100, 17), (60, 17))),
        ("face", "knife", "notch at the stop", "face edge", 20, ((0, 20), (8, 20))),
        ("back", "knife", "notch at the stop", "face edge", 20, ((0, 20), (8, 20))),
    ]


# -- entered from the front


def test_entered_from_the_front_everything_is_the_other_way_round() -> None:
    one = slide("B", shoulders=(F(3), F(5)), taper=F(2), taper_over=F(40), stop=F(20),
                enter="front")
    # closed at 100 - 20, parallel from 80 - 40 to the face edge
    assert one.stations() == ((80, 2), (40, 0), (0, 0))
    assert entry_face(one) == "edge"
    assert cuts(one) == {
        ("shelf", "tail waste, face, taper"): {
            (216, 80, 0), (216, 80, 2), (208, 80, 0), (208, 80, 4),
            (216, 40, 0), (216, 40, 1), (208, 40, 0), (208, 40, 3),
        },
        ("shelf", "tail waste, back, taper"): {
            (216, 80, 20), (216, 80, 16), (208, 80, 20), (208, 80, 14),
            (216, 40, 20), (216, 40, 17), (208, 40, 20), (208, 40, 15),
        },
        ("shelf", "tail waste, face"): prism((0, 40), (216, 0), (216, 1), (208, 0), (208, 3)),
        ("shelf", "tail waste, back"): prism((0, 40), (216, 20), (216, 17), (208, 20), (208, 15)),
        ("shelf", "notch at the stop"): prism((80, 100), (216, 0), (208, 0), (216, 20), (208, 20)),
        # told from above: 300 - 117 and 300 - 105; out to the side's face edge
        ("right", "slide socket, taper"): {
            (184, 90, 0), (194, 90, 0), (181, 90, 12), (197, 90, 12),
            (183, 50, 0), (195, 50, 0), (180, 50, 12), (198, 50, 12),
        },
        ("right", "slide socket"): prism((0, 50), (183, 0), (195, 0), (180, 12), (198, 12)),
    }
    assert marks(one, "right")[-4:] == [
        ("face", "knife", "socket stop", "face edge", 90, ((184, 90), (194, 90))),
        ("edge", "bevel", "near side of the socket", "end A", 183, ((183, 0), (180, 12))),
        ("edge", "bevel", "far side of the socket", "end A", 195, ((195, 0), (198, 12))),
        ("edge", "marking gauge", "socket depth", "face side", 12, ((180, 12), (198, 12))),
    ]
    assert marks(one, "right")[:3] == [
        ("face", "knife", "near side of the socket", "end A", 183, ((183, 50), (184, 90))),
        ("face", "knife", "near side of the socket", "end A", 183, ((183, 10), (183, 50))),
        ("face", "knife", "near side of the socket", "end A", 183, ((183, 0), (183, 10))),
    ]
    assert marks(one, "shelf") == [
        ("face", "marking gauge", "tail shoulder", "end B", 8, ((208, 0), (208, 80))),
        ("back", "marking gauge", "tail shoulder", "end B", 8, ((208, 0), (208, 80))),
        ("edge", "bevel", "tail side, face", "face side", 3, ((216, 1), (208, 3))),
        ("end B", "knife", "tail side, face", "face side", 2, ((40, 1), (80, 2))),
        ("end B", "marking gauge", "tail side, face", "face side", 1, ((0, 1), (40, 1))),
        ("edge", "bevel", "tail side, back", "face side", 15, ((216, 17), (208, 15))),
        ("end B", "knife", "tail side, back", "face side", 16, ((40, 17), (80, 16))),
        ("end B", "marking gauge", "tail side, back", "face side", 17, ((0, 17), (40, 17))),
        ("face", "knife", "notch at the stop", "face edge", 80, ((216, 80), (208, 80))),
        ("back", "knife", "notch at the stop", "face edge", 80, ((216, 80), (208, 80))),
    ]


# -- housings


def test_a_plain_housing_takes_the_whole_board() -> None:
    one = slide(choice=housed())
    assert one.choice.square
    assert not slides().square
    assert one.neck == 20
    assert cuts(one) == {
        ("left", "housing"): prism((10, 120), (100, 0), (120, 0), (100, 12), (120, 12)),
    }
    assert marks(one, "shelf") == []
    assert marks(one, "left")[5:] == [
        ("far edge", "knife", "far side of the socket", "end A", 120, ((120, 0), (120, 12))),
        ("far edge", "knife", "near side of the socket", "end A", 100, ((100, 0), (100, 12))),
        ("far edge", "marking gauge", "socket depth", "face side", 12, ((120, 12), (100, 12))),
    ]
    assert sums(one) == {
        ("shelf", "tail length (left side)"): [
            (1, "socket depth", 12), (-1, "room at the bottom", 4),
        ],
        ("shelf", "neck where it is entered (left side)"): [(1, "thickness", 20)],
        ("left", "near side of the socket (shelf)"): [(1, "clear below", 100)],
        ("left", "far side of the socket (shelf)"): [
            (1, "clear below", 100), (1, "mouth where it is entered", 20),
        ],
    }


def test_a_stopped_housing_with_a_shoulder() -> None:
    one = slide(choice=housed(shoulders=(F(3), None), stop=F(20)))
    assert cuts(one) == {
        ("shelf", "tail waste, face"): prism((20, 100), (0, 0), (0, 3), (8, 0), (8, 3)),
        ("shelf", "notch at the stop"): prism((0, 20), (0, 0), (8, 0), (0, 20), (8, 20)),
        ("left", "housing"): prism((30, 120), (100, 0), (117, 0), (100, 12), (117, 12)),
    }
    assert marks(one, "shelf") == [
        ("face", "marking gauge", "tail shoulder", "end A", 8, ((8, 20), (8, 100))),
        ("far edge", "marking gauge", "tail side, face", "face side", 3, ((0, 3), (8, 3))),
        ("end A", "marking gauge", "tail side, face", "face side", 3, ((100, 3), (20, 3))),
        ("face", "knife", "notch at the stop", "face edge", 20, ((0, 20), (8, 20))),
        ("back", "knife", "notch at the stop", "face edge", 20, ((0, 20), (8, 20))),
    ]
    assert ("face", "knife", "socket stop", "face edge", 30, ((117, 30), (100, 30))
            ) in marks(one, "left")


# -- a bearer's other surfaces


def test_a_partition_stands_in_the_edge_of_a_rail() -> None:
    """Its end A comes to the rail's far edge, its run goes through the rail's thickness."""
    rail = Part("rail", "low rail", "rail", F(300), F(40), F(100),
                Placement((F(0), F(0), F(0)), "+X", "+Z", "+Y"))
    part = Part("part", "partition", "partition", F(208), F(100), F(20),
                Placement((F(150), F(0), F(32)), "+Z", "+Y", "+X"))
    one = Slide("part.A", part, "A", rail, slides(stop=F(20)), F(12), ((1, "at the left", F(150)),))
    assert (bearer_face(one), entry_face(one)) == ("far edge", "back")
    done = work(one)
    (socket,) = [cut for cut in done.cuts if cut.part == "rail"]
    # 40 high: from 40 down to 28; the face side is at the left
    assert set(socket.shape.points) == {  # type: ignore[union-attr]
        (at, w, t) for t in (20, 100) for at, w in ((152, 40), (168, 40), (149, 28), (171, 28))
    }
    assert [(m.face, m.tool, m.role, m.source, m.distance) for m in done.marks
            if m.part == "rail"] == [
        ("far edge", "knife", "near side of the socket", "end A", 152),
        ("far edge", "knife", "far side of the socket", "end A", 168),
        ("far edge", "knife", "socket stop", "face side", 20),
        ("back", "bevel", "near side of the socket", "end A", 152),
        ("back", "bevel", "far side of the socket", "end A", 168),
        ("back", "marking gauge", "socket depth", "face edge", 28),
    ]
