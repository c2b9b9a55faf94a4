"""The milling order on paper: a box to tick for every setting, under a heading an operation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.piece import Piece
from layout.scene.lettering import wrap, wrap_counts
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import GUTTER, Area, Block, paged, small_words
from layout.stock.milling import Step, milling
from layout.stock.milling_words import GRAIN, LAST, TOLD, who
from layout.stock.rough import Rough

NUMBER = mm("11.5")  # where the number of a step ends
FIGURE = mm(42)  # where its setting ends
WORDS = mm(45)  # where what passes begins
WORDS_ALONE = mm(16)  # and where nothing is set
LINE = mm(5)
SMALL = mm(4)
ROW = mm("6.5")
SET_ROW = mm(10)  # a large fraction reaches above and below its line
SUBJECT = "every machine set once for each size, from the largest down"


class _Row(NamedTuple):
    """A step with its number and what passes, set in lines."""

    number: int
    step: Step
    lines: list[str]

    @property
    def high(self) -> Fraction:
        """What it takes of the column, in mm."""
        row = ROW if self.step.setting is None else SET_ROW
        return row + LINE * (len(self.lines) - 1)


def milling_sheets(piece: Piece, rough: Sequence[Rough], area: Area) -> tuple[Sheet, ...]:
    """The steps down two columns; nothing where nothing is milled."""
    steps = milling(rough)
    if not steps:
        return ()
    columns = 2 if area[0] < mm(230) else 3
    width = (area[0] - GUTTER * (columns - 1)) / columns
    return paged(piece, "Milling order", SUBJECT, _blocks(piece, steps, width), area, columns)


def _blocks(piece: Piece, steps: Sequence[Step], width: Fraction) -> Iterator[Block]:
    yield small_words([*GRAIN, LAST], width)
    before = None
    for number, step in enumerate(steps, start=1):
        at = WORDS_ALONE if step.setting is None else WORDS
        row = _Row(number, step, wrap_counts(who(step), LABEL, width - at))
        yield _block(piece, row, width, step.kind != before)
        before = step.kind


def _block(piece: Piece, row: _Row, width: Fraction, headed: bool) -> Block:
    """A step; the first of an operation carries its heading and its caution."""
    told, caution = TOLD[row.step.kind]
    head = wrap(told, LABEL, width, bold=True) if headed else []
    small = wrap(caution, NOTE, width) if headed else []
    above = mm(6) + LINE * len(head) + SMALL * len(small) if headed else ZERO
    small_dual = SMALL if piece.choice.dual and row.step.setting is not None else ZERO

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(8)
        for line in head:
            board.text((ZERO, y), line, LABEL, bold=True)
            y -= LINE
        for line in small:
            board.text((ZERO, y + mm("0.5")), line, NOTE)
            y -= SMALL
        if headed:
            board.line((ZERO, y + mm("2.6")), (width, y + mm("2.6")), Pen.THIN)
        _row(board, piece, row, height - above - (mm(5) if row.step.setting is None else mm("6.5")))

    return Block(above + row.high + small_dual, draw)


def _row(board: Easel, piece: Piece, row: _Row, y: Fraction) -> None:
    """A box, the number, what the machine is set to, and what passes."""
    board.tick_box((ZERO, y), LABEL)
    board.text((NUMBER, y), str(row.number), LABEL, "right", bold=True)
    at = WORDS_ALONE
    if row.step.setting is not None:
        board.figure((FIGURE, y), row.step.setting, NAME, "right", bold=True)
        if piece.choice.dual:
            board.text((FIGURE, y - mm("5.5")), board.other_unit(row.step.setting), NOTE, "right")
        at = WORDS
    for line in row.lines:
        board.text((at, y), line, LABEL)
        y -= LINE
