"""Slides sized for the maker's own cutters."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from layout.checks import check
from layout.joints.slide import SlideChoice, for_cutter
from layout.kit import DovetailCutter
from layout.measure.slope import Slope
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece

F = Fraction
OPEN = SlideChoice(None, Slope(F(7)), F(1, 2), open_slope=True)
SIX = DovetailCutter(F(12), Slope(F(6)))
FOUR = DovetailCutter(F(15), Slope(F(4)))
CASE = """
piece = "Case"
unit = "mm"
[kit]
dovetail_cutters = ["12 at 1:6", "15 at 1:4"]
[[carcase]]
name = "case"
width = 400
height = 300
depth = 200
thickness = 18
[[divider]]
name = "shelf"
opening = "inside case"
lies = "level"
thickness = 16
slide = { depth = 6%s }
"""


def test_the_widest_that_fits_makes_the_socket_in_one_pass() -> None:
    found = for_cutter(OPEN, F(16), F(6), (SIX, FOUR))
    # 15 wide at the bottom, 6/4 less on each side at the mouth: a neck of 12, shoulders of 2
    assert (found.slope, found.shoulders, found.cutter) == (Slope(F(4)), (2, 2), 15)


def test_a_cutter_wider_than_the_board_or_with_a_thin_neck_is_passed_over() -> None:
    # 15 is wider than a board of 14; 12 leaves 12 - 2 x 6/6 = 10: shoulders of 2
    found = for_cutter(OPEN, F(14), F(6), (SIX, FOUR))
    assert (found.slope, found.shoulders, found.cutter) == (Slope(F(6)), (2, 2), 12)
    # 24 deep at 1:4 takes 12 of 15: a neck of 3 is less than a third of 16; 12 - 8 is too
    assert for_cutter(OPEN, F(16), F(24), (SIX, FOUR)) == OPEN
    # a neck of just a third is enough: 12 - 2 x 20/6 = 16/3
    assert for_cutter(OPEN, F(16), F(20), (SIX,)).cutter == 12


@pytest.mark.parametrize("kept", [
    OPEN._replace(open_slope=False), OPEN._replace(shoulders=(F(1), None)),
    OPEN._replace(slopes="face"), OPEN._replace(slope=None, open_slope=False),
])
def test_what_was_chosen_stays(kept: SlideChoice) -> None:
    assert for_cutter(kept, F(16), F(6), (SIX, FOUR)) == kept


def test_no_cutter_listed_changes_nothing() -> None:
    assert for_cutter(OPEN, F(16), F(6), ()) == OPEN


def case(folder: Path, more: str = "") -> Piece:
    path = folder / "case.toml"
    path.write_text(CASE % more, encoding="utf-8")
    return work_out(read_piece(path))


def test_a_piece_takes_its_kit(tmp_path: Path) -> None:
    piece = case(tmp_path)
    assert {slide.neck for slide in piece.slides} == {12}
    sockets = [cut for cut in piece.cuts if cut.role == "slide socket"]
    assert {high - low for low, high in (cut.shape.reach("L") for cut in sockets)} == {15}
    notes = [one for one in check(piece) if "sized for your cutter" in one.text]
    assert [one.level for one in notes] == ["note", "note"]
    assert not [one for one in check(piece) if one.level == "stop"]


def test_a_slope_in_the_file_is_kept(tmp_path: Path) -> None:
    piece = case(tmp_path, ', slope = "1:8"')
    assert {slide.choice.slope for slide in piece.slides} == {Slope(F(8))}
    assert not [one for one in check(piece) if "sized for your cutter" in one.text]
