"""The marking order on paper: a box to tick for every step, under a heading for every phase."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.piece import Piece
from layout.scene.lettering import text_width, wrap_counts
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.lists import GUTTER, TITLE, Area, Block, paged
from layout.sheets.marking_words import AT, PHASE_NOTES, WASTE, Row, Told, told_steps
from layout.stock.marking import marking

LEFT = mm(16)  # where the words begin, right of box and number
ROW = mm("6.2")  # a stacked figure is 5.3 mm high
SET_ROW = mm("9.4")  # the larger figure that a tool is set to
SET_FOOT = mm("2.2")
LINE = mm("5.2")
SMALL = mm("3.9")
AIR = mm(3)  # between figures side by side
GAP = mm(5)  # between columns of them: no two are to be read as one
SUBJECT = "every line, from the first tick to the last cross"


class _Strip(NamedTuple):
    """A line of a step: how high it is, and how to draw it; y is where its letters stand."""

    height: Fraction
    draw: Callable[[Easel, Fraction], None]


def marking_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """The steps down two columns, in their order; nothing where there is nothing to mark."""
    told = told_steps(piece, marking(piece))
    if not told:
        return ()
    sheets = _paged(piece, told, area, mm(2))
    if told[-1].phase == WASTE:
        # the crosses alone on a page of their own: closer together they may join the page before
        without = _paged(piece, told[:-1], area, mm(2))
        closer = _paged(piece, told, area, mm("0.8"))
        if len(without) < len(sheets) and len(closer) < len(sheets):
            return closer
    return sheets


def _paged(
    piece: Piece, told: tuple[Told, ...], area: Area, air: Fraction
) -> tuple[Sheet, ...]:
    """The pages of these steps, with so much air below each."""
    columns = 2 if area[0] < mm(230) else 3
    width = (area[0] - GUTTER * (columns - 1)) / columns
    blocks: list[Block] = []
    before = ""
    for one in told:
        heading = _heading(one.phase, width) if one.phase != before else []
        before = one.phase
        strips = [*heading, *_step(piece, one, width)]
        blocks += _blocks(strips, area[1] - TITLE, air)
    return paged(piece, "Marking order", SUBJECT, blocks, area, columns)


def _blocks(strips: list[_Strip], most: Fraction, air: Fraction) -> Iterator[Block]:
    """What belongs together in one block, or in more where a column could not hold it."""
    here: list[_Strip] = []
    for strip in strips:
        if here and sum((one.height for one in here), strip.height) > most:
            yield _block(here, ZERO)
            here = []
        here.append(strip)
    yield _block(here, air)


def _block(strips: list[_Strip], end: Fraction) -> Block:
    """Strips under each other, with a line below the last of a step."""

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height
        for strip in strips:
            y -= strip.height
            strip.draw(board, y)
        if end:
            board.line((ZERO, mm("0.4")), (width, mm("0.4")), Pen.THIN)

    return Block(sum((one.height for one in strips), end), draw)


def _heading(phase: str, width: Fraction) -> list[_Strip]:
    """A phase's name over a heavy line, and what is said once for all of its steps."""

    def name(board: Easel, y: Fraction) -> None:
        board.text((ZERO, y + mm("2.2")), phase, NAME, bold=True)
        board.line((ZERO, y), (width, y), Pen.WIDE)

    notes = [line for note in PHASE_NOTES.get(phase, ()) for line in wrap_counts(note, NOTE, width)]
    lines = [_text(line, NOTE, ZERO, SMALL) for line in notes]
    air = _Strip(mm(1), _nothing)
    return [_Strip(mm(12), name), air, *lines, air]


def _nothing(board: Easel, y: Fraction) -> None:
    """Air."""


def _step(piece: Piece, one: Told, width: Fraction) -> list[_Strip]:
    room = width - LEFT
    beside, below = ("", one.who)
    if one.figures and _fits_beside(piece, one, room):
        beside, below = (one.who, "")
    strips = _title(piece, one, beside, width)
    strips += [_text(line, LABEL, LEFT, LINE) for line in wrap_counts(below, LABEL, room)]
    strips += [_text(line, NOTE, LEFT, SMALL)
               for note in one.notes for line in wrap_counts(note, NOTE, room)]
    return strips + _rows(piece, one, width)


def _text(words: str, size: Fraction, x: Fraction, height: Fraction, bold: bool = False) -> _Strip:
    def draw(board: Easel, y: Fraction) -> None:
        board.text((x, y + mm("1.2")), words, size, bold=bold)

    return _Strip(height, draw)


def _fits_beside(piece: Piece, one: Told, room: Fraction) -> bool:
    """True where title, tool and figures go on one line."""
    words = text_width(one.title, LABEL, True) + mm(2) + text_width(one.who, LABEL)
    return words + _set_at(piece, one) <= room


def _set_at(piece: Piece, one: Told) -> Fraction:
    """How much room the figures beside a title take."""
    ruler = Easel(piece.rule)
    return sum((_wide(piece, ruler, figure, NAME) + AIR for figure in one.figures), ZERO)


def _title(piece: Piece, one: Told, beside: str, width: Fraction) -> list[_Strip]:
    """Box, number and what is done; beside it what a gauge or the dividers stand at.

    Where that leaves no room for the title on one line, the figures stand below.
    """
    lines = wrap_counts(one.title, LABEL, width - LEFT - _set_at(piece, one), True)
    below = bool(one.figures) and len(lines) > 1
    if below:
        lines = wrap_counts(one.title, LABEL, width - LEFT, True)
    dual = SMALL if piece.choice.dual else ZERO
    big = bool(one.figures) and not below  # a large fraction reaches below its line
    low = SET_FOOT + dual if big else mm("1.2")

    def draw(board: Easel, y: Fraction) -> None:
        foot = y + low
        board.tick_box((ZERO, foot), LABEL)
        board.text((LEFT - mm("1.6"), foot), str(one.number), LABEL, "right", bold=True)
        board.text((LEFT, foot), lines[0], LABEL, bold=True)
        if beside:
            board.text((LEFT + text_width(lines[0], LABEL, True) + mm(2), foot), beside, LABEL)
        if not below:
            _set(piece, board, one, (width, foot))

    strips = [_Strip(SET_ROW + dual if big else mm("6.8"), draw),
              *(_text(line, LABEL, LEFT, LINE, bold=True) for line in lines[1:])]
    if below:
        strips.append(_Strip(SET_ROW + dual, lambda board, y: _set(
            piece, board, one, (width, y + SET_FOOT + dual))))
    return strips


def _set(piece: Piece, board: Easel, one: Told, at: tuple[Fraction, Fraction]) -> None:
    """What a tool is set to, the last figure ending at a place."""
    x = at[0]
    for figure in reversed(one.figures):
        _figure(piece, board, (x, at[1]), figure, NAME)
        x -= _wide(piece, board, figure, NAME) + AIR


def _rows(piece: Piece, one: Told, width: Fraction) -> list[_Strip]:
    columns = _columns(piece, one)
    heads = wrap_counts(one.head, NOTE, width - LEFT) if one.rows else []
    strips = [_head(words, width) for words in heads]
    for row in one.rows:
        if row.label == AT:
            strips += _flow(piece, row.figures, width)
        elif row.figures:
            strips += _figured(piece, row, columns, width)
        else:
            strips += [_text(line, LABEL, LEFT, LINE)
                       for line in wrap_counts(row.label, LABEL, width - LEFT)]
            strips.append(_Strip(mm("0.8"), _nothing))
    return strips


def _columns(piece: Piece, one: Told) -> list[Fraction]:
    """How wide the columns of figures are: they end under each other."""
    ruler = Easel(piece.rule)
    rows = [row for row in one.rows if row.label != AT]
    many = max((len(row.figures) for row in rows), default=0)
    return [
        max(_wide(piece, ruler, row.figures[number]) for row in rows if len(row.figures) > number)
        for number in range(many)
    ]


def _head(words: str, width: Fraction) -> _Strip:
    """What the figures are measured from, over them."""
    return _Strip(SMALL, lambda board, y: board.text((width, y + mm("0.8")), words, NOTE, "right"))


def _rights(columns: list[Fraction], width: Fraction) -> list[Fraction]:
    """Where each column of figures ends."""
    return [width - sum((one + GAP for one in columns[number + 1:]), ZERO)
            for number in range(len(columns))]


def _figured(
    piece: Piece, row: Row, columns: list[Fraction], width: Fraction
) -> list[_Strip]:
    """What it is at the left, its figures at the right; below it where the words are many."""
    taken = sum((one + GAP for one in columns), ZERO)
    lines = wrap_counts(row.label, LABEL, width - LEFT - taken)
    above: list[_Strip] = []
    if len(lines) > 2:
        above = [_text(line, LABEL, LEFT, LINE)
                 for line in wrap_counts(row.label, LABEL, width - LEFT)]
        lines = []
    dual = SMALL if piece.choice.dual else ZERO
    high = max(ROW + dual, ROW + LINE * (len(lines) - 1))
    rights = _rights(columns, width)[-len(row.figures):]

    def draw(board: Easel, y: Fraction) -> None:
        foot = y + mm("1.6") + high - ROW
        for number, line in enumerate(lines):
            board.text((LEFT, foot - LINE * number), line, LABEL)
        for figure, right in zip(row.figures, rights, strict=True):
            _figure(piece, board, (right, foot), figure)

    return [*above, _Strip(high, draw)]


def _flow(piece: Piece, figures: tuple[Fraction, ...], width: Fraction) -> list[_Strip]:
    """Figures that were told before, one after another."""
    ruler = Easel(piece.rule)
    start = LEFT + text_width(AT, LABEL) + AIR
    lines: list[list[tuple[Fraction, Fraction]]] = [[]]
    x = start
    for figure in figures:
        wide = _wide(piece, ruler, figure)
        if lines[-1] and x + wide > width:
            lines.append([])
            x = start
        lines[-1].append((x + wide, figure))
        x += wide + AIR
    return [_flowing(piece, line, number == 0) for number, line in enumerate(lines)]


def _flowing(piece: Piece, line: list[tuple[Fraction, Fraction]], first: bool) -> _Strip:
    dual = SMALL if piece.choice.dual else ZERO

    def draw(board: Easel, y: Fraction) -> None:
        foot = y + mm("1.6") + dual
        if first:
            board.text((LEFT, foot), AT, LABEL)
        for right, figure in line:
            _figure(piece, board, (right, foot), figure)

    return _Strip(ROW + dual, draw)


def _figure(
    piece: Piece,
    board: Easel,
    at: tuple[Fraction, Fraction],
    length: Fraction,
    height: Fraction = LABEL,
) -> None:
    """A figure that ends at a place; under it the other unit, where the piece asks for it."""
    board.figure(at, length, height, "right", bold=height > LABEL)
    if piece.choice.dual:
        board.text((at[0], at[1] - SMALL - mm("0.6")), board.other_unit(length), NOTE, "right")


def _wide(piece: Piece, board: Easel, length: Fraction, height: Fraction = LABEL) -> Fraction:
    wide = board.figure_width(length, height, bold=height > LABEL)
    if piece.choice.dual:
        wide = max(wide, text_width(board.other_unit(length), NOTE))
    return wide
