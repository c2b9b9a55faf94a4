"""The board plan on paper: every board to scale, one a row, and its cuts in their order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import figure
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet
from layout.sheets.drawing import SCALES
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import TITLE, Area, Block, paged, small_words, titled
from layout.stock.board_words import (
    CAUTION,
    bought_words,
    gap_words,
    keep_out_words,
    kerf_words,
    kind_words,
    legend,
    missing_words,
    name_words,
    spare_words,
    step_words,
    total,
)
from layout.stock.boards import BoardPlan, KindPlan, Sawn
from layout.stock.rack import KeepOut
from layout.stock.rough import StockChoice
from layout.stock.sawing import Placed, Rect
from layout.stock.sequence import label, section_letter, steps

LEFT = mm(14)  # where the words of a step begin
LINE = mm(5)
ABOVE = mm(10)  # a board's name over its drawing
BELOW = mm(6)  # letters of sections under it
WIDEST = Fraction(4, 5)  # of a page's height at most is a board's
NARROWEST = mm(3)  # a blank drawn narrower than this has its label beside it
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
    scale = _scale(piece, plan, area)
    words = f"1:{scale.denominator}" if scale.numerator == 1 else "not to scale"
    told = paged(piece, "Board plan", SUBJECT, blocks, area)
    return tuple(replace(one, scale=words) for one in told)


def _scale(piece: Piece, plan: BoardPlan, area: Area) -> Fraction:
    """One scale for all boards: the largest usual one at which the longest fits the page, and the
    widest leaves room for its heading and steps.
    """
    boards = [one.board for kind in plan.kinds for one in kind.boards]
    longest = max((one.length for one in boards), default=area[0])
    widest = max((one.width for one in boards), default=area[1])
    high = (area[1] - TITLE) * WIDEST
    scales = SCALES[piece.rule.unit]
    return next((one for one in scales if longest * one <= area[0] and widest * one <= high),
                min(scales[-1], area[0] / longest, high / widest))


def _blocks(
    piece: Piece, plan: BoardPlan, stock: StockChoice, area: Area
) -> Iterator[Block]:
    scale = _scale(piece, plan, area)
    yield small_words(CAUTION, area[0])
    for kind in plan.kinds:
        line = f"{kind_words(piece, kind.kind)}: {gap_words(kind)}{kerf_words(piece, kind, stock)}"
        head = wrap(line, LABEL, area[0], True)
        head += wrap(legend(kind), LABEL, area[0])
        if not kind.boards:
            yield _words(head, area[0], bold=True)
        for number, sawn in enumerate(kind.boards, start=1):
            size = f"{figure(piece, sawn.board.length)} × {figure(piece, sawn.board.width)}"
            title = f"{number}. {name_words(sawn)}, {size}"
            told = _told(piece, kind, sawn, area[0] - LEFT)
            row = _Row(kind, sawn, head if number == 1 else [], title, told, scale)
            yield from _board(piece, row, area)
        missing = list(missing_words(piece, kind))
        if missing:
            yield _words(missing, area[0], bold=True)
    buy = [*bought_words(piece, plan, stock), total(plan, stock)]
    if any(buy):
        yield titled("To buy", buy, area[0])
    spare = list(spare_words(plan))
    if spare:
        yield _words(spare, area[0])


def _words(lines: list[str], width: Fraction, bold: bool = False) -> Block:
    """A paragraph."""
    set_ = [part for line in lines for part in wrap(line, LABEL, width, bold)]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        for number, line in enumerate(set_):
            board.text((ZERO, height - mm(7) - LINE * number), line, LABEL, bold=bold)

    return Block(LINE * len(set_) + mm(5), draw)


def _told(piece: Piece, kind: KindPlan, sawn: Sawn, width: Fraction) -> list[str]:
    """What to keep out of, then the steps: number and words, each line of them apart."""
    found = [f"\t{line}" for words in keep_out_words(piece, sawn.board)
             for line in wrap(words, LABEL, width)]
    for number, step in enumerate(steps(kind, sawn), start=1):
        first, *more = wrap(step_words(piece, step), LABEL, width)
        found += [f"{number}\t{first}", *(f"\t{line}" for line in more)]
    return found


def _board(piece: Piece, row: _Row, area: Area) -> Iterator[Block]:
    """A board's drawing with its first steps, and the steps that found no room beside it."""
    high = row.sawn.board.width * row.scale
    top = LINE * len(row.head) + (mm(4) if row.head else ZERO)
    head = top + ABOVE + high + BELOW
    room = max(int((area[1] - TITLE - head - mm(3)) // LINE), 0)
    first, rest = row.told[:room], row.told[room:]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        for number, line in enumerate(row.head):
            board.text((ZERO, height - mm(6) - LINE * number), line, LABEL, bold=number == 0)
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
                middle = (rect.start + rect.end) / 2 * scale
                board.text((middle, y - mm(4)), section_letter(number), LABEL, "middle", bold=True)
    for one in sawn.placed:
        _blank(board, row, one, y)
    for out in sawn.board.keep_out:
        _keep_out(board, out, scale, y)
    board.rectangle((ZERO, y), (long, y + wide), Pen.WIDE)


def _blank(board: Easel, row: _Row, one: Placed, y: Fraction) -> None:
    """A blank with its label: in it, upright where it is too short, beside it where it is too
    narrow and there is nothing else.
    """
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
    elif _is_free(row, one, (text_width(words, NOTE) + mm(2)) / scale, NOTE / scale):
        board.text((high[0] + mm(1), low[1] + mm("0.4")), words, NOTE)


def _is_free(row: _Row, one: Placed, wide: Fraction, tall: Fraction) -> bool:
    """Is there nothing right of a blank, so wide and high from its near edge on."""
    end, top = one.rect.end + wide, one.rect.low + tall
    board = row.sawn.board
    taken = [other.rect for other in row.sawn.placed if other is not one]
    taken += [Rect(out.start, out.end, out.low, out.high) for out in board.keep_out]
    return end <= board.length and top <= board.width and not any(
        rect.start < end and one.rect.end < rect.end and rect.low < top and one.rect.low < rect.high
        for rect in taken)


def _keep_out(board: Easel, out: KeepOut, scale: Fraction, y: Fraction) -> None:
    """What is kept out of, hatched."""
    low = (out.start * scale, y + out.low * scale)
    high = (out.end * scale, y + out.high * scale)
    board.rectangle(low, high, Pen.THIN)
    board.hatch(low, high)
