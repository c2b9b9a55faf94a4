"""A board's cuts and the words for them, worked out by hand."""

from __future__ import annotations

from fractions import Fraction

from layout.stock.blanks import Blank, Kind
from layout.stock.board_words import doing, gap_words
from layout.stock.boards import KindPlan, Sawn
from layout.stock.rack import Board
from layout.stock.sawing import Cut, Placed, Rect, Section, Strip, cuts, transposed
from layout.stock.sequence import section_letter, steps

F = Fraction
# 1000 x 100, 20 off each end, 4 off the edge; the saw takes 3.
WHOLE = Rect(F(0), F(1000), F(0), F(100))
# a: 400 long, two blanks of 30 side by side, the second 350 long; b: one blank of 200 x 90
LONG = Placed(0, 0, Rect(F(20), F(420), F(4), F(34)))
SHORT = Placed(1, 0, Rect(F(20), F(370), F(37), F(67)))
WIDE = Placed(2, 0, Rect(F(423), F(623), F(4), F(94)))
A = Section(Rect(F(20), F(420), F(4), F(67)),
            (Strip(LONG.rect, (LONG,)), Strip(SHORT.rect, (SHORT,))))
B = Section(WIDE.rect, (Strip(WIDE.rect, (WIDE,)),))


def told(cut: Cut) -> tuple[str, int, int]:
    return (cut.kind, int(cut.start), int(cut.end))


def test_cuts_in_their_order() -> None:
    found = cuts(WHOLE, (A, B), F(3), F(4))
    assert [told(one) for one in found] == [
        ("crosscut", 17, 20), ("crosscut", 420, 423), ("crosscut", 623, 626),
        ("joint an edge", 0, 4), ("rip", 34, 37), ("rip", 67, 70),
        ("joint an edge", 0, 4), ("rip", 94, 97),
        ("cut to length", 370, 373),
    ]
    # what is on the saw: the board from where the last cut left it; then the section
    assert [one.piece.start for one in found[:3]] == [0, 20, 423]
    assert found[4].piece == Rect(F(20), F(420), F(4), F(100))
    assert found[5].piece.low == 37
    assert found[-1].piece == Rect(F(20), F(420), F(37), F(67))
    assert [one.across for one in found] == [True] * 3 + [False] * 5 + [True]


def test_no_cut_where_the_board_ends_and_a_thin_one_where_less_is_left_than_the_saw_takes() -> None:
    full = Placed(0, 0, Rect(F(0), F(998), F(0), F(100)))
    section = Section(full.rect, (Strip(full.rect, (full,)),))
    found = cuts(WHOLE, (section,), F(3), F(0))
    # 2 are left at the end: the blade takes them whole; nothing is ripped or jointed
    assert [told(one) for one in found] == [("crosscut", 998, 1000)]


def test_a_sheet_s_cuts_lie_the_other_way() -> None:
    one = transposed(Cut("crosscut", True, Rect(F(0), F(50), F(0), F(80)), F(20), F(23)))
    assert (one.kind, one.across, one.piece) == ("rip", False, Rect(F(0), F(80), F(0), F(50)))


def plan() -> KindPlan:
    blanks = (
        Blank("rail", (("r1",),), F(400), F(30), F(20), "B"),
        Blank("slat", (("s1",),), F(350), F(30), F(20), "C"),
        Blank("panel", (("p1",),), F(200), F(90), F(20), "D"),
    )
    board = Sawn(Board("plank", "oak", F(27), F(100), F(1000)), False, (A, B),
                 cuts(WHOLE, (A, B), F(3), F(4)))
    return KindPlan(Kind("oak", F(26), "26"), blanks, (board,), (), F(1), (), F(3))


def test_steps_as_a_maker_reads_them() -> None:
    kind = plan()
    found = [(doing(one), [(int(piece.size), piece.what) for piece in one.pieces])
             for one in steps(kind, kind.boards[0])]
    assert found == [
        ("crosscut the board", [(17, "waste"), (400, "section a"), (200, "D"), (374, "waste")]),
        ("joint the near edge of section a, then rip", [(30, "B"), (30, "C"), (30, "waste")]),
        ("joint the near edge of D, then rip", [(90, "D"), (3, "waste")]),
        ("cut to rough length C", [(350, "C"), (47, "waste")]),
    ]
    # 400 x 30 and 350 x 30 and 200 x 90, out of 1000 x 100: 40.5 %
    assert gap_words(kind) == (
        "1 board of the rack, 41 % of it for blanks; sawn in this way it can't be less")


def test_sections_are_lettered_on() -> None:
    found = [section_letter(number) for number in (0, 25, 26, 51, 52)]
    assert found == ["a", "z", "aa", "az", "ba"]
