"""The board plan on paper: every board to scale, one a row, and its cuts in their order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet
from layout.sheets.drawing import SCALES
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import TITLE, Area, Block, paged
from layout.stock.board_words import (
    CAUTION,
    bought_words,
    doing,
    figure,
    gap_words,
    kind_words,
    name_words,
)
from layout.stock.boards import BoardPlan, KindPlan, Sawn
from layout.stock.rack import KeepOut
from layout.stock.rough import StockChoice
from layout.stock.sawing import Placed
from layout.stock.sequence import Step, label, letter, steps

LEFT = mm(14)  # where the words of a step begin
LINE = mm(5)
SMALL = mm(4)
ABOVE = mm(10)  # a board's name over its drawing
BELOW = mm(6)  # letters of sections under it
NARROWEST = mm("2.4")  # a blank drawn narrower than this is not labelled
SUBJECT = "every board to scale, end A at the left, the near edge below"


class _Row(NamedTuple):
    """A board of the plan, with a heading where it is the first of its kind, what is told of it,
    and its scale.
    """

    kind: KindPlan
    sawn: Sawn
    head: list[str]
    title: str
    told: list[str]
    scale: Fraction


def board_sheets(piece: Piece, plan: BoardPlan, stock: StockChoice, area: Area) -> tuple[
    Sheet, ...
]:
    """Boards down the page, by timber and thickness; what is missing and what to buy at the end."""
    blocks = list(_blocks(piece, plan, stock, area))
    scale = _scale(piece, plan, area[0])
    words = f"1:{scale.denominator}" if scale.numerator == 1 else "not to scale"
    told = paged(piece, "Board plan", SUBJECT, blocks, area)
    return tuple(replace(one, scale=words) for one in told)


def _scale(piece: Piece, plan: BoardPlan, width: Fraction) -> Fraction:
    """One scale for all boards: the largest usual one at which the longest fits the page."""
    longest = max((one.board.length for kind in plan.kinds for one in kind.boards), default=width)
    scales = SCALES[piece.rule.unit]
    return next((one for one in scales if longest * one <= width),
                min(scales[-1], width / longest))


def _blocks(
    piece: Piece, plan: BoardPlan, stock: StockChoice, area: Area
) -> Iterator[Block]:
    scale = _scale(piece, plan, area[0])
    for kind in plan.kinds:
        head = wrap(f"{kind_words(piece, kind.kind)}: {gap_words(kind)}", LABEL, area[0], True)
        if not kind.boards:
            yield _words(head, area[0], LABEL, bold=True)
        for number, sawn in enumerate(kind.boards, start=1):
            size = f"{figure(piece, sawn.board.length)} × {figure(piece, sawn.board.width)}"
            title = f"{number}. {name_words(sawn)}, {size}"
            told = [line for at, step in enumerate(steps(kind, sawn), start=1)
                    for line in _step_lines(piece, at, step, area[0] - LEFT)]
            row = _Row(kind, sawn, head if number == 1 else [], title, told, scale)
            yield from _board(piece, row, area)
        missing = list(_missing(piece, kind))
        if missing:
            yield _words(missing, area[0], LABEL, bold=True)
    buy = list(bought_words(piece, plan, stock))
    if buy:
        yield _words(["To buy"], area[0], NAME, bold=True)
        yield _words(buy, area[0], LABEL)
    spare = list(_spare(plan))
    if spare:
        yield _words(spare, area[0], LABEL)
    yield _words(list(CAUTION), area[0], NOTE)


def _spare(plan: BoardPlan) -> Iterator[str]:
    """Boards of the rack that stay there."""
    for kind in plan.kinds:
        for one in kind.idle:
            yield f"not needed: {one.name}"
    for one in plan.unused:
        yield f"nothing in the piece is made of {one.name}, {one.timber}"


def _missing(piece: Piece, kind: KindPlan) -> Iterator[str]:
    for one in kind.missing:
        size = f"{figure(piece, one.length)} long, {figure(piece, one.width)} wide"
        yield (f"MISSING: {one.many} × {kind.blanks[one.blank].name}; no board is large enough. "
               f"Each asks for one {size}")


def _words(lines: list[str], width: Fraction, size: Fraction, bold: bool = False) -> Block:
    """A paragraph."""
    set_ = [part for line in lines for part in wrap(line, size, width, bold)]
    pitch = SMALL if size == NOTE else LINE

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(7)
        for line in set_:
            board.text((ZERO, y), line, size, bold=bold)
            y -= pitch

    return Block(pitch * len(set_) + mm(5), draw)


def _step_lines(piece: Piece, number: int, step: Step, width: Fraction) -> list[str]:
    told = ", ".join(f"{figure(piece, one.size)} {one.what}" for one in step.pieces)
    words = f"{doing(step)}: {told}" if told else doing(step)
    first, *more = wrap(words, LABEL, width)
    return [f"{number}\t{first}", *(f"\t{line}" for line in more)]


def _board(piece: Piece, row: _Row, area: Area) -> Iterator[Block]:
    """A board's drawing with its first steps, and the steps that found no room beside it."""
    high = row.sawn.board.width * row.scale
    top = LINE * len(row.head) + (mm(4) if row.head else ZERO)
    head = top + ABOVE + high + BELOW
    room = int((area[1] - TITLE - head - mm(3)) // LINE)
    first, rest = row.told[:room], row.told[room:]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        for number, line in enumerate(row.head):
            board.text((ZERO, height - mm(6) - LINE * number), line, LABEL, bold=True)
        board.text((ZERO, height - top - mm(6)), row.title, NAME, bold=True, room=width)
        _drawing(board, row, height - top - ABOVE - high)
        _steps(board, first, height - head - mm(4))

    yield Block(head + LINE * len(first) + mm(3), draw)
    most = int((area[1] - TITLE) // LINE) - 1
    for at in range(0, len(rest), most):
        yield _more(rest[at:at + most])


def _more(lines: list[str]) -> Block:
    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        _steps(board, lines, height - mm(4))

    return Block(LINE * len(lines) + mm(3), draw)


def _steps(board: Easel, lines: list[str], y: Fraction) -> None:
    for line in lines:
        number, words = line.split("\t")
        if number:
            board.tick_box((ZERO, y), LABEL)
            board.text((LEFT - mm(2), y), number, LABEL, "right", bold=True)
        board.text((LEFT, y), words, LABEL)
        y -= LINE


def _drawing(board: Easel, row: _Row, y: Fraction) -> None:
    """The board with its crosscuts, its blanks and what is kept out of."""
    sawn, scale = row.sawn, row.scale
    long, wide = sawn.board.length * scale, sawn.board.width * scale
    for number, section in enumerate(sawn.sections):
        rect = section.rect
        if not sawn.turned:
            for x in (rect.start * scale, rect.end * scale):
                board.line((x, y), (x, y + wide), Pen.HIDDEN)
            if sum(len(strip.placed) for strip in section.strips) > 1:
                board.text(((rect.start + rect.end) / 2 * scale, y - mm(4)), letter(number), LABEL,
                           "middle", bold=True)
    for one in sawn.placed:
        _blank(board, row, one, y)
    for out in sawn.board.keep_out:
        _keep_out(board, out, scale, y)
    board.rectangle((ZERO, y), (long, y + wide), Pen.WIDE)


def _blank(board: Easel, row: _Row, one: Placed, y: Fraction) -> None:
    """A blank with its label, upright where it is too short for it."""
    scale = row.scale
    low = (one.rect.start * scale, y + one.rect.low * scale)
    high = (one.rect.end * scale, y + one.rect.high * scale)
    board.rectangle(low, high, Pen.NARROW)
    words = label(row.kind.blanks[one.blank], one.number)
    wide, tall = high[0] - low[0], high[1] - low[1]
    size = LABEL if tall >= mm("4.5") else NOTE
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    if tall >= NARROWEST and text_width(words, size) <= wide - mm(1):
        board.text((middle[0], middle[1] - size * Fraction(36, 100)), words, size, "middle")
    elif wide >= NARROWEST and text_width(words, NOTE) <= tall - mm(1):
        board.text((middle[0] + NOTE * Fraction(36, 100), middle[1]), words, NOTE, "middle",
                   turn=90)


def _keep_out(board: Easel, out: KeepOut, scale: Fraction, y: Fraction) -> None:
    """What is kept out of: hatched, and crossed."""
    low = (out.start * scale, y + out.low * scale)
    high = (out.end * scale, y + out.high * scale)
    board.rectangle(low, high, Pen.THIN)
    board.hatch(low, high)
