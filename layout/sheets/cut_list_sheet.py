"""The cut list on paper: a heading for every assembly, and under each row its joints, what it bears
and its reference surfaces.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.piece import Piece
from layout.scene.lettering import text_width, wrap_at_most
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import ROW, TITLE, Area, Block, paged
from layout.stock.cut_list import Row, cut_list
from layout.stock.row_words import RowWords, row_words

LINE = mm(4)  # from one line of notes to the next
HEAD = mm(13)  # what an assembly's heading takes on one line
HEAD_LINE = mm(7)  # and each line more
CONTINUED = "continued"
MOST_LINES = 4  # of one note under a row
FINISHED = "finished sizes; tenons and tails are in the lengths"


class _Columns(NamedTuple):
    """Where the columns stand, in mm from the left: a name and a timber begin there, figures end.
    """

    name: Fraction
    timber: Fraction
    thickness: Fraction
    width: Fraction
    length: Fraction
    dual: bool
    page: Fraction

    @property
    def notes(self) -> Fraction:
        """How wide the notes may be: in two units the second stands beside them."""
        right = self.thickness - mm(21) if self.dual else self.page
        return right - self.name - mm(2)


class _Heading(NamedTuple):
    """An assembly's heading, on two lines where it is long, and whether the page before had it."""

    lines: list[str]
    continued: bool

    @property
    def high(self) -> Fraction:
        """What it takes of the page's height, in mm."""
        return HEAD + HEAD_LINE * (len(self.lines) - 1)


class _Told(NamedTuple):
    """A row with the lines that stand under its name, and how high it is with them."""

    row: Row
    name: list[str]
    notes: list[str]
    high: Fraction


def cut_list_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """The cut list: a box to tick, the count first, figures under each other."""
    rows = cut_list(piece)
    columns = _columns(piece, rows, area[0])
    told = [_told(row, words, columns)
            for row, words in zip(rows, row_words(piece, rows), strict=True)]
    blocks = _blocks(piece, told, columns, area[1] - TITLE)
    return paged(piece, "Cut list", FINISHED, blocks, area)


def _columns(piece: Piece, rows: Sequence[Row], width: Fraction) -> _Columns:
    timbers = any(row.timber for row in rows)  # else the names may have the room
    # two letters want more room than one
    name_at = mm(22) if all(len(row.letter) < 2 for row in rows) else mm(25)
    return _Columns(name_at, width * Fraction(33 if timbers else 49, 100),
                    width * Fraction(58, 100), width * Fraction(74, 100),
                    width * Fraction(94, 100), piece.choice.dual, width)


def _told(row: Row, words: RowWords, columns: _Columns) -> _Told:
    name = wrap_at_most(row.name, 2, LABEL, columns.timber - columns.name - mm(2))
    joints = "; ".join(one for one in (words.ends, words.bears) if one)
    notes = [line for note in _joined(joints, words.reference, row.note, columns.notes)
             for line in wrap_at_most(note, MOST_LINES, NOTE, columns.notes)]
    high = ROW + mm(4) + mm("5.5") * (len(name) - 1) + LINE * len(notes)
    return _Told(row, name, notes, high + LINE if columns.dual and not notes else high)


def _joined(joints: str, reference: str, note: str, room: Fraction) -> tuple[str, ...]:
    """The notes: the last goes on behind the one before it where there is room."""
    both = f"{reference}; {note}"
    if reference and note and text_width(both, NOTE) <= room:
        return joints, both
    return joints, reference, note


def _blocks(
    piece: Piece, told: Sequence[_Told], columns: _Columns, page: Fraction
) -> Iterator[Block]:
    """A block a row; the first of an assembly, and the first on a page, carry its heading, so that
    no heading stands alone at the foot of a page. `page` is how high one is.
    """
    left, before, number = page, None, 0
    for index, one in enumerate(told):
        begins = one.row.assembly != before
        heading = _heading(one.row.assembly, columns, not begins)
        needed = one.high + (heading.high if begins else ZERO)
        headed = begins or needed > left
        if needed > left:
            left, needed = page, one.high + heading.high
        number = 0 if begins else number + 1
        last = index == len(told) - 1 or told[index + 1].row.assembly != one.row.assembly
        yield _block(piece, one, columns, heading if headed else None, number % 3 == 2 or last)
        left -= needed
        before = one.row.assembly


def _heading(assembly: str, columns: _Columns, continued: bool) -> _Heading:
    room = columns.thickness - mm(18) - text_width(CONTINUED, NOTE) - mm(2)
    words = assembly[:1].upper() + assembly[1:]
    return _Heading(wrap_at_most(words, 2, NAME, room, bold=True), continued)


def _block(
    piece: Piece, one: _Told, columns: _Columns, heading: _Heading | None, ruled: bool
) -> Block:
    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        if heading is not None:
            _head(board, columns, heading, height)
        _row(board, piece, one, columns)
        if ruled:
            board.line((ZERO, ZERO), (width, ZERO), Pen.THIN)

    return Block(one.high + (ZERO if heading is None else heading.high), draw)


def _head(board: Easel, columns: _Columns, heading: _Heading, height: Fraction) -> None:
    """The assembly's name, and what stands in the columns."""
    y = height - heading.high + mm(2)
    for number, line in enumerate(reversed(heading.lines)):
        board.text((ZERO, y + HEAD_LINE * number), line, NAME, bold=True)
    if heading.continued:
        board.text((text_width(heading.lines[-1], NAME, bold=True) + mm(2), y), CONTINUED, NOTE)
    for words, x in (("thickness", columns.thickness), ("width", columns.width),
                     ("length", columns.length)):
        board.text((x, y), words, NOTE, "right")
    board.line((ZERO, y - mm(2)), (columns.page, y - mm(2)), Pen.WIDE)


def _row(board: Easel, piece: Piece, one: _Told, columns: _Columns) -> None:
    """A row from the top of its place, which lies at the foot of its block."""
    row, y = one.row, one.high - ROW
    board.tick_box((mm(1), y), LABEL)
    board.text((mm(12), y), f"{row.count}", LABEL, "right", bold=True)
    board.text((mm(16), y), row.letter, LABEL, bold=True)
    board.text((columns.timber, y), row.timber, NOTE, room=columns.page * Fraction(16, 100))
    for x, value in ((columns.thickness, row.thickness), (columns.width, row.width),
                     (columns.length, row.length)):
        board.figure((x, y), value, LABEL, "right")
        if columns.dual:
            board.text((x, y - mm("5.5")), board.other_unit(value), NOTE, "right")
    for line in one.name:
        board.text((columns.name, y), line, LABEL)
        y -= mm("5.5")
    for line in one.notes:
        board.text((columns.name, y), line, NOTE)
        y -= LINE
