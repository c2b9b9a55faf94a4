"""Lists on paper, a page at a time: the sums and what the checks found."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.checks import folded
from layout.mark import Finding, Term
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet, moved
from layout.sheets.easel import HEADING, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.sum_groups import SumGroup, sum_groups

Area = tuple[Fraction, Fraction]
ROW = mm(7)
GUTTER = mm(8)
TITLE = mm(14)  # what the page's own heading takes
TOLD = {True: "the parts in place measure the same", False: "THE PARTS IN PLACE DISAGREE"}


class Block(NamedTuple):
    """Something that stays together on a page: how high it is, and how to draw it from its top."""

    height: Fraction
    draw: Callable[[Easel, Fraction, Fraction], None]


def paged(
    piece: Piece, name: str, subject: str, blocks: Iterable[Block], area: Area, columns: int = 1
) -> tuple[Sheet, ...]:
    """Blocks down the columns of as many pages as they need."""
    width = (area[0] - GUTTER * (columns - 1)) / columns
    head = area[1] - TITLE
    pages: list[Easel] = []
    column, y = columns, head
    for block in blocks:
        if not pages or y - block.height < 0:
            column += 1
            y = head
        if not pages or column >= columns:
            pages.append(Easel(piece.rule))
            title = name if len(pages) == 1 else f"{name}, continued"
            pages[-1].text((ZERO, area[1] - mm(9)), title, HEADING, bold=True)
            unit = "inches" if piece.rule.unit == "in" else "millimetres"
            pages[-1].text((area[0], area[1] - mm(9)), f"{unit}, shown to {piece.rule}", NOTE,
                           "right")
            column, y = 0, head
        easel = Easel(piece.rule)
        block.draw(easel, width, block.height)
        x = column * (width + GUTTER)
        pages[-1].put(moved(stroke, x, y - block.height) for stroke in easel.strokes)
        y -= block.height
    return tuple(
        Sheet(name, subject, page.scene(*area), "page", scale="no scale") for page in pages
    )


def small_words(told: Iterable[str], width: Fraction) -> Block:
    """A paragraph in small letters."""
    lines = [line for one in told for line in wrap(one, NOTE, width)]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        for number, line in enumerate(lines):
            board.text((ZERO, height - mm(5) - mm(4) * number), line, NOTE)

    return Block(mm(4) * len(lines) + mm(4), draw)


def titled(title: str, told: Iterable[str], width: Fraction) -> Block:
    """Lines of words under a name of their own, which stay together."""
    lines = [part for one in told for part in wrap(one, LABEL, width)]
    pitch = mm("5.5")

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(9)
        board.text((ZERO, y), title, NAME, bold=True)
        for line in lines:
            y -= pitch
            board.text((ZERO, y), line, LABEL)

    return Block(mm(11) + pitch * len(lines), draw)


def sum_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """Every sum as one adds it with a pencil, and whether the placed parts agree."""
    columns = 2 if area[0] < mm(230) else 3
    width = (area[0] - GUTTER * (columns - 1)) / columns
    blocks: list[Block] = []
    for group in sum_groups(piece):
        if group.first.along:
            blocks += _chain_blocks(piece, group, width, area[1] - TITLE)
        else:
            blocks.append(_sum_block(piece, group, width))
    return paged(piece, "Sums", "every size that was worked out", blocks, area, columns)


def _sum_block(piece: Piece, group: SumGroup, width: Fraction) -> Block:
    owners = wrap(group.owners, NOTE, width, False)
    name = wrap(group.first.name, LABEL, width, True)
    labels = [wrap(term.label, NOTE, width - mm(29), False) for term in group.first.terms]
    row = mm(8)
    note = mm(4)
    terms = sum((row + note * (len(lines) - 1) for lines in labels), ZERO)
    height = mm(6) * len(name) + note * len(owners) + terms + row + note + mm(7)
    if piece.choice.dual:
        height += mm(3)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = _named(board, height, name, owners) - mm("2.5")
        for term, lines in zip(group.first.terms, labels, strict=True):
            board.text((mm(2), y), _sign(term), LABEL)
            board.figure((width - mm(2), y), term.value, LABEL, "right")
            for line in lines:
                board.text((mm(7), y), line, NOTE)
                y -= note
            y -= row - note
        board.line((width - mm(28), y + mm(5)), (width, y + mm(5)), Pen.NARROW)
        board.line((width - mm(28), y + mm("4.2")), (width, y + mm("4.2")), Pen.NARROW)
        y -= mm("1.4")
        board.figure((width - mm(2), y), group.first.total, LABEL, "right", bold=True)
        if piece.choice.dual:
            other = board.other_unit(group.first.total)
            board.text((width - mm(2), y - mm("5.6")), other, NOTE, "right")
        board.text((ZERO, y - mm("0.5")), TOLD[group.agrees], NOTE, bold=not group.agrees)

    return Block(height, draw)


def _named(board: Easel, height: Fraction, name: list[str], owners: list[str]) -> Fraction:
    """A sum's name and whose it is, from the top of its block; returns where the next note goes."""
    y = height - mm(5)
    for line in name:
        board.text((ZERO, y), line, LABEL, bold=True)
        y -= mm(6)
    y += mm("1.2")
    for line in owners:
        board.text((ZERO, y), line, NOTE)
        y -= mm(4)
    return y


def _sign(term: Term) -> str:
    return "+" if term.sign > 0 else "−"


class _ChainRow(NamedTuple):
    """A term of a chain: its label on so many lines, where it leads to, and how high it stands."""

    term: Term
    lines: list[str]
    running: Fraction
    height: Fraction


FROM_EDGE = "from the edge"


def _chain_blocks(piece: Piece, group: SumGroup, width: Fraction, most: Fraction) -> list[Block]:
    """A chain along a board: a row a term, closer than other sums, and what is struck beside it.

    It is in one block, or in more of them where it would be higher than `most` mm.
    """
    sum_ = group.first
    board = Easel(piece.rule)
    right = width - mm(2)  # where the running totals end, and then where the sizes end
    taken = [board.figure_width(one, LABEL, bold=True) for one in sum_.running]
    taken.append(text_width(FROM_EDGE, NOTE))
    if piece.choice.dual:
        taken += [text_width(board.other_unit(one), NOTE) for one in sum_.running]
    middle = right - max(taken) - mm(4)
    sizes = [board.figure_width(term.value, LABEL) for term in sum_.terms]
    left = middle - max(*sizes, board.figure_width(sum_.total, LABEL, bold=True)) - mm(3)

    # a stacked figure is 5.3 mm high; where both units are told, the other one stands under it
    least = mm(9) if piece.choice.dual else mm(6)
    rows = []
    for term, running in zip(sum_.terms, sum_.running, strict=True):
        lines = wrap(term.label, NOTE, max(left - mm(7), mm(10)), False)
        rows.append(_ChainRow(term, lines, running, max(least, mm(4) * len(lines) + mm(2))))

    owners = wrap(group.owners, NOTE, width, False)
    names = (
        wrap(sum_.name, LABEL, width, True),
        wrap(f"{sum_.name}, continued", LABEL, width, True),
    )
    end = mm(17) if piece.choice.dual else mm(13)

    def head(name: list[str]) -> Fraction:
        return mm(11) + mm(6) * len(name) + mm(4) * len(owners)

    def block(name: list[str], rows: list[_ChainRow], last: bool) -> Block:
        def draw(board: Easel, width: Fraction, height: Fraction) -> None:
            y = _named(board, height, name, owners) - mm(1)
            board.text((middle, y), "size", NOTE, "right")
            board.text((right, y), FROM_EDGE, NOTE, "right")
            y -= mm("6.2")
            for row in rows:
                board.text((mm(2), y), _sign(row.term), LABEL)
                for number, line in enumerate(row.lines):
                    board.text((mm(7), y - mm(4) * number), line, NOTE)
                board.figure((middle, y), row.term.value, LABEL, "right")
                board.figure((right, y), row.running, LABEL, "right", bold=True)
                if piece.choice.dual:
                    other = board.other_unit(row.running)
                    board.text((right, y - mm("3.9")), other, NOTE, "right")
                y -= row.height
            if last:
                chain_end(board, y)

        height = head(name) + sum((row.height for row in rows), ZERO) + (end if last else ZERO)
        return Block(height, draw)

    def chain_end(board: Easel, y: Fraction) -> None:
        for over in (mm("4.2"), mm("3.4")):
            board.line((left + mm(2), y + over), (middle + mm(1), y + over), Pen.NARROW)
        board.figure((middle, y - mm("1.6")), sum_.total, LABEL, "right", bold=True)
        if piece.choice.dual:
            board.text((middle, y - mm("5.5")), board.other_unit(sum_.total), NOTE, "right")
        told = y + mm("6.4") - end
        board.text((ZERO, told), TOLD[group.agrees], NOTE, bold=not group.agrees)

    blocks: list[Block] = []
    here: list[_ChainRow] = []
    for index, row in enumerate(rows):
        name = names[bool(blocks)]
        after = end if index == len(rows) - 1 else ZERO
        if here and head(name) + sum((r.height for r in [*here, row]), ZERO) + after > most:
            blocks.append(block(name, here, False))
            here = []
        here.append(row)
    blocks.append(block(names[bool(blocks)], here, True))
    return blocks


_LEVEL_WORDS = {
    "stop": "Stop: don't cut",
    "caution": "Caution",
    "note": "Note",
}


def check_sheets(piece: Piece, findings: tuple[Finding, ...], area: Area) -> tuple[Sheet, ...]:
    """What the checks found, the gravest first."""
    blocks = []
    for level in ("stop", "caution", "note"):
        here = tuple(finding for finding in findings if finding.level == level)
        if here:
            blocks.append(_level_block(_LEVEL_WORDS[level], len(here)))
            blocks += [_finding_block(finding, area[0]) for finding in folded(here)]
    return paged(piece, "Checks", "what was tried, and what was found", blocks, area)


def _level_block(words: str, count: int) -> Block:
    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        board.text((ZERO, mm(3)), f"{words} ({count})", mm(5), bold=True)
        board.line((ZERO, mm(1)), (width, mm(1)), Pen.WIDE)

    return Block(mm(12), draw)


def _finding_block(finding: Finding, width: Fraction) -> Block:
    lines = wrap(finding.text, LABEL, width - mm(10), False)
    cure = wrap(f"Try: {finding.cure}", NOTE, width - mm(10), False) if finding.cure else []
    height = mm(6) * len(lines) + mm("4.2") * (len(cure) + 1) + mm(3)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(5)
        board.tick_box((mm(1), y), LABEL)
        for line in lines:
            board.text((mm(8), y), line, LABEL)
            y -= mm(6)
        y += mm("1.3")
        board.text((mm(8), y), f"Rule: {finding.rule}", NOTE)
        for line in cure:
            y -= mm("4.2")
            board.text((mm(8), y), line, NOTE)

    return Block(height, draw)
