"""The rough list on paper: what is ordered beside what it is finished to, and what to buy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layout.checks.words import figure
from layout.piece import Piece
from layout.scene.lettering import wrap_at_most
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.lists import ROW, Area, Block, paged, small_words, titled
from layout.stock.rough import Rough, StockChoice, rough_list, sheets, totals
from layout.stock.rough_words import (
    CAUTION,
    amount_words,
    finished_words,
    for_words,
    needed,
    sheet_words,
    sold_words,
    timber_words,
)

LINE = mm("5.5")
SMALL = mm(4)
FOR_AT = mm(18)  # what the boards are for begins here
SUBJECT = "boards to saw out, a little larger all round, beside the finished sizes"


def rough_sheets(piece: Piece, stock: StockChoice, area: Area) -> tuple[Sheet, ...]:
    """The rough list; nothing where nothing is of solid wood or sheets."""
    rough = rough_list(piece, stock)
    if not rough and not sheets(piece):
        return ()
    return paged(piece, "Rough list", SUBJECT, _blocks(piece, rough, stock, area[0]), area)


def _columns(width: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Where rough thickness, width and length end."""
    return (width * Fraction(60, 100), width * Fraction(80, 100), width)


def _blocks(
    piece: Piece, rough: Sequence[Rough], stock: StockChoice, width: Fraction
) -> Iterator[Block]:
    if rough:
        added = (f"added to widths: {figure(piece, stock.width)}; to lengths: "
                 f"{figure(piece, stock.length)}")
        yield small_words([*CAUTION, added], width)
        yield _head(width)
    before = None
    for number, one in enumerate(rough):
        same = one.row.timber == before
        yield _row(piece, one, width, not same, number % 3 == 2)
        before = one.row.timber
    told = [f"{timber_words(piece, one)}: {amount_words(piece, one, stock)}"
            for one in totals(tuple(rough), stock)]
    if told:
        yield titled(needed(stock), told, width)
    flat = [": ".join(sheet_words(piece, one)) for one in sheets(piece)]
    if flat:
        yield titled("Sheets, finished sizes without waste", flat, width)


def _head(width: Fraction) -> Block:
    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        board.text((mm(8), mm(2)), "boards", NOTE)
        for words, x in zip(("rough", "width", "length"), _columns(width), strict=True):
            board.text((x, mm(2)), words, NOTE, "right")
        board.line((ZERO, ZERO), (width, ZERO), Pen.WIDE)

    return Block(mm(7), draw)


def _row(piece: Piece, one: Rough, width: Fraction, named: bool, ruled: bool) -> Block:
    """One entry; the first of a timber has its name above it."""
    columns = _columns(width)
    room = columns[0] - FOR_AT - mm(20)
    lines = wrap_at_most(for_words(one), 3, LABEL, room)
    small = wrap_at_most(finished_words(piece, one), 3, NOTE, room)
    high = ROW + mm(3) + LINE * (len(lines) - 1) + SMALL * len(small)
    above = mm(8) if named else ZERO

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        if named:
            board.text((ZERO, height - mm(6)), one.row.timber or "no timber named", LABEL,
                       bold=True)
        y = height - above - ROW
        board.tick_box((mm(1), y), LABEL)
        board.text((mm(12), y), str(one.many), LABEL, "right", bold=True)
        board.text((mm(14), y), one.row.letter, LABEL, bold=True,
                   room=FOR_AT - mm(14) + mm(3))
        board.text((columns[0], y), sold_words(piece, one), LABEL, "right")
        for x, value in zip(columns[1:], (one.width, one.length), strict=True):
            board.figure((x, y), value, LABEL, "right", bold=True)
            if piece.choice.dual:
                board.text((x, y - mm("5.5")), board.other_unit(value), NOTE, "right")
        for line in lines:
            board.text((FOR_AT + mm(4), y), line, LABEL)
            y -= LINE
        for line in small:
            board.text((FOR_AT + mm(4), y + mm(1)), line, NOTE)
            y -= SMALL
        if ruled:
            board.line((ZERO, ZERO), (width, ZERO), Pen.THIN)

    return Block(above + high, draw)
