"""Rough list, board plan and milling order on paper: all of it there, nothing over anything else,
boards and blanks to scale.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from layout.measure import show
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.scene.strokes import Pen, Polygon, Sheet, Text
from layout.sheets.board_sheet import board_sheets
from layout.sheets.milling_sheet import milling_sheets
from layout.sheets.rough_list_sheet import rough_sheets
from layout.stock.boards import BoardPlan, board_plan
from layout.stock.milling import milling
from layout.stock.milling_words import TOLD
from layout.stock.rough import StockChoice, rough_list
from layout.stock.sequence import label
from tests.sheets.test_sheets import spots, text_box

ROOT = Path(__file__).parents[2]
RACKS = [ROOT / "samples" / f"{name}.toml" for name in ("wall_cabinet", "writing_table")]
# a sheet wider than long, and one that is ripped first
RACKS += [ROOT / "tests" / "outside" / "racks" / f"{name}.toml"
          for name in ("wide_sheet", "sheet_ripped_first")]
# what a page of A4 and one of letter leave, upright and lying
UPRIGHT = (Fraction(188), Fraction(241))
LYING = (Fraction(259), Fraction(170))
each_rack = pytest.mark.parametrize("path", RACKS, ids=lambda path: path.stem)


@cache
def opened(path: Path) -> tuple[Piece, StockChoice, BoardPlan]:
    choice, stock = piece_and_stock(path)
    piece = work_out(choice)
    return piece, stock, board_plan(piece, stock)


def all_sheets(path: Path) -> tuple[Sheet, ...]:
    piece, stock, plan = opened(path)
    return (*board_sheets(piece, plan, stock, LYING),
            *milling_sheets(piece, rough_list(piece, stock), UPRIGHT),
            *rough_sheets(piece, stock, UPRIGHT))


def words(sheets: tuple[Sheet, ...]) -> list[str]:
    return [one.words for sheet in sheets for one in sheet.scene.strokes if isinstance(one, Text)]


def boxes(sheet: Sheet, pen: Pen) -> list[tuple[Fraction, Fraction, Fraction, Fraction]]:
    """Left, right, foot and top of every rectangle drawn with a pen."""
    found = []
    for one in sheet.scene.strokes:
        if isinstance(one, Polygon) and len(one.points) == 4 and one.pen == pen:
            xs, ys = [x for x, _ in one.points], [y for _, y in one.points]
            found.append((min(xs), max(xs), min(ys), max(ys)))
    return found


@each_rack
def test_nothing_over_anything_and_all_on_the_page(path: Path) -> None:
    for sheet in all_sheets(path):
        wide, high = sheet.scene.width, sheet.scene.height
        for stroke in sheet.scene.strokes:
            for x, y in spots(stroke):
                assert 0 <= x <= wide, stroke
                assert 0 <= y <= high, stroke
        told = [one for one in sheet.scene.strokes if isinstance(one, Text)]
        for one, other in combinations(told, 2):
            (a0, b0), (a1, b1) = text_box(one), text_box(other)
            apart = b0[0] <= a1[0] or b1[0] <= a0[0] or b0[1] <= a1[1] or b1[1] <= a0[1]
            assert apart, (one, other)


@each_rack
def test_every_board_is_drawn_to_scale_with_its_blanks(path: Path) -> None:
    piece, stock, plan = opened(path)
    sheets = board_sheets(piece, plan, stock, LYING)
    assert len({sheet.scale for sheet in sheets}) == 1
    scale = Fraction(1, int(sheets[0].scale.removeprefix("1:")))
    drawn = [one for sheet in sheets for one in boxes(sheet, Pen.WIDE)]
    wanted = [one for kind in plan.kinds for one in kind.boards]
    assert sorted((right - left, top - foot) for left, right, foot, top in drawn) == sorted(
        (one.board.length * scale, one.board.width * scale) for one in wanted)
    blanks = [one for sheet in sheets for one in boxes(sheet, Pen.NARROW)]
    for kind in plan.kinds:
        for board in kind.boards:
            for one in board.placed:
                size = ((one.rect.end - one.rect.start) * scale,
                        (one.rect.high - one.rect.low) * scale)
                assert any((right - left, top - foot) == size and left == one.rect.start * scale
                           for left, right, foot, top in blanks)


@each_rack
def test_every_blank_is_named_among_the_steps(path: Path) -> None:
    piece, stock, plan = opened(path)
    told = " ".join(words(board_sheets(piece, plan, stock, LYING)))
    for kind in plan.kinds:
        for board in kind.boards:
            assert (board.board.name or "to buy") in told
            for one in board.placed:
                assert f" {label(kind.blanks[one.blank], one.number)}" in told


@each_rack
def test_milling_has_every_setting_and_every_caution(path: Path) -> None:
    piece, stock, _ = opened(path)
    rough = rough_list(piece, stock)
    told = words(milling_sheets(piece, rough, UPRIGHT))
    steps = milling(rough)
    numbers = [int(one) for one in told if one.isdigit() and int(one) <= len(steps)]
    assert set(numbers) >= set(range(1, len(steps) + 1))
    whole = " ".join(told)
    for kind in {step.kind for step in steps}:
        assert TOLD[kind][1].split(";")[0].split()[0] in whole
        assert all(word in whole for word in TOLD[kind][1].split())


@each_rack
def test_the_rough_list_has_ordered_and_finished_sizes(path: Path) -> None:
    piece, stock, _ = opened(path)
    texts = words(rough_sheets(piece, stock, UPRIGHT))
    for one in rough_list(piece, stock):
        for size in (one.width, one.length):
            # a fraction is stacked: its figures stand by themselves
            assert set(re.split("[ /]", show(size, piece.rule).text)) <= set(texts)
        finished = " × ".join(show(size, piece.rule).text for size in (
            one.row.thickness, one.row.width, one.row.length))
        assert f"finished {finished}" in " ".join(texts)
        assert one.row.name in " ".join(texts)
    assert "Timber needed, with 20 % for waste" in texts
