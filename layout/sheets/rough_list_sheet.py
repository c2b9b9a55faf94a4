"""The rough list on paper: what is ordered beside what it is finished to, and what to buy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layout.measure import decimal_text
from layout.piece import Piece
from layout.scene.lettering import wrap, wrap_at_most
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import ROW, Area, Block, paged
from layout.stock.board_words import figure
from layout.stock.rough import Rough, StockChoice, rough_list, sheets, totals
from layout.stock.rough_words import (
    CAUTION,
    amount_words,
    for_words,
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


def _columns(width: Fraction) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Where rough thickness, width and length end, and finished sizes."""
    return (width * Fraction(50, 100), width * Fraction(61, 100), width * Fraction(74, 100), width)


def _blocks(
    piece: Piece, rough: Sequence[Rough], stock: StockChoice, width: Fraction
) -> Iterator[Block]:
    added = (f"added to widths: {figure(piece, stock.width)}; to lengths: "
             f"{figure(piece, stock.length)}")
    yield _words([added], width)
    yield _head(width)
    before = None
    for number, one in enumerate(rough):
        same = one.row.timber == before
        yield _row(piece, one, width, not same, number % 3 == 2)
        before = one.row.timber
    told = [f"{timber_words(piece, one)}: {amount_words(piece, one, stock)}"
            for one in totals(tuple(rough), stock)]
    if told:
        yield _list(f"To buy, with {decimal_text(stock.waste * 100)} % for waste", told, width)
    flat = [": ".join(sheet_words(piece, one)) for one in sheets(piece)]
    if flat:
        yield _list("Sheets, finished sizes without waste", flat, width)
    yield _words(list(CAUTION), width)


def _head(width: Fraction) -> Block:
    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        board.text((mm(8), mm(2)), "boards", NOTE)
        for words, x in zip(("rough", "width", "length", "finished"), _columns(width), strict=True):
            board.text((x, mm(2)), words, NOTE, "right")
        board.line((ZERO, ZERO), (width, ZERO), Pen.WIDE)

    return Block(mm(7), draw)


def _row(piece: Piece, one: Rough, width: Fraction, named: bool, ruled: bool) -> Block:
    """One entry; the first of a timber has its name above it."""
    columns = _columns(width)
    lines = wrap_at_most(for_words(one), 3, LABEL, columns[0] - FOR_AT - mm(18))
    high = ROW + mm(3) + LINE * (len(lines) - 1)
    if piece.choice.dual:
        high += SMALL * 3
    above = mm(8) if named else ZERO
    finished = (one.row.thickness, one.row.width, one.row.length)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        if named:
            board.text((ZERO, height - mm(6)), one.row.timber or "no timber named", LABEL,
                       bold=True)
        y = height - above - ROW
        board.tick_box((mm(1), y), LABEL)
        board.text((mm(12), y), str(one.many), LABEL, "right", bold=True)
        board.text((mm(14), y), one.row.letter, LABEL, bold=True)
        board.text((columns[0], y), sold_words(piece, one), LABEL, "right")
        for x, value in zip(columns[1:3], (one.width, one.length), strict=True):
            board.figure((x, y), value, LABEL, "right", bold=True)
            if piece.choice.dual:
                board.text((x, y - mm("5.5")), board.other_unit(value), NOTE, "right")
        _finished(board, finished, (columns[3], y), piece.choice.dual)
        for number, line in enumerate(lines):
            board.text((FOR_AT + mm(4), y - LINE * number), line, LABEL)
        if ruled:
            board.line((ZERO, ZERO), (width, ZERO), Pen.THIN)

    return Block(above + high, draw)


def _finished(
    board: Easel, sizes: Sequence[Fraction], at: tuple[Fraction, Fraction], dual: bool
) -> None:
    """Thickness × width × length, from the right."""
    x, y = at
    for number, value in enumerate(reversed(sizes)):
        x -= board.figure((x, y), value, LABEL, "right")
        if number < len(sizes) - 1:
            board.text((x - mm("1.2"), y), "×", LABEL, "right")
            x -= mm(5)
    if dual:
        words = " × ".join(board.other_unit(one) for one in sizes)
        board.text((at[0], y - mm("5.5")), words, NOTE, "right")


def _list(title: str, told: list[str], width: Fraction) -> Block:
    lines = [part for one in told for part in wrap(one, LABEL, width)]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(9)
        board.text((ZERO, y), title, NAME, bold=True)
        for line in lines:
            y -= LINE
            board.text((ZERO, y), line, LABEL)

    return Block(mm(11) + LINE * len(lines), draw)


def _words(told: list[str], width: Fraction) -> Block:
    lines = [part for one in told for part in wrap(one, NOTE, width)]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        for number, line in enumerate(lines):
            board.text((ZERO, height - mm(4) - SMALL * number), line, NOTE)

    return Block(SMALL * len(lines) + mm(4), draw)
