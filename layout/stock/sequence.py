"""A board's cuts as a maker reads them: crosscut into so long, rip so wide, cut to so long.

Sizes are what stands at the stop or the fence; what falls off is told as waste. All lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.stock.blanks import Blank
from layout.stock.boards import KindPlan, Sawn
from layout.stock.cut_list import letter
from layout.stock.sawing import Cut, Kind, Rect

SECTION = "section"
WASTE = "waste"
REST = "rest, of which more is made"


class Piece(NamedTuple):
    """What one cut leaves: how long or wide it is, and what it is."""

    size: Fraction
    what: str
    waste: bool = False


class Step(NamedTuple):
    """One operation on one piece: what is on the saw, and what comes off it in order. `jointed`:
    its near edge is jointed first.
    """

    kind: Kind
    on: str
    pieces: tuple[Piece, ...]
    jointed: bool = False


def steps(plan: KindPlan, board: Sawn) -> tuple[Step, ...]:
    """The cuts of one board, those on the same piece as one step, its edge jointed in the same."""
    found: list[Step] = []
    for group in _on_one_piece(board.cuts):
        first = group[0]
        on = _named(plan, board, first.piece)
        if first.kind == "joint an edge":
            found.append(Step(first.kind, on, ()))
            continue
        pieces = tuple(_pieces(plan, board, group))
        jointed = bool(found) and found[-1].kind == "joint an edge" and first.kind == "rip"
        if jointed:
            found.pop()
        found.append(Step(first.kind, on, pieces, jointed))
    return tuple(found)


def _on_one_piece(cuts: Sequence[Cut]) -> Iterator[list[Cut]]:
    """Cuts of one kind that follow each other on what is left of the same piece."""
    group: list[Cut] = []
    for one in cuts:
        if group and not _follows(group[-1], one):
            yield group
            group = []
        group.append(one)
    if group:
        yield group


def _follows(before: Cut, after: Cut) -> bool:
    """Is `after` made in what `before` has left."""
    if (before.kind, before.across) != (after.kind, after.across):
        return False
    one, other = before.piece, after.piece
    if not before.across:
        one, other = one.turned, other.turned
    return (one.low, one.high, one.end) == (other.low, other.high, other.end)


def _pieces(plan: KindPlan, board: Sawn, group: Sequence[Cut]) -> Iterator[Piece]:
    """What comes off, cut after cut, and what is left at the end."""
    for cut in group:
        piece = cut.piece if cut.across else cut.piece.turned
        at = piece.start
        off = piece._replace(start=at, end=cut.start)
        if off.end > off.start:
            yield _piece(plan, board, off if cut.across else off.turned, cut.across)
    last = group[-1]
    piece = last.piece if last.across else last.piece.turned
    rest = piece._replace(start=last.end)
    if rest.end > rest.start:
        yield _piece(plan, board, rest if last.across else rest.turned, last.across)


def _piece(plan: KindPlan, board: Sawn, rect: Rect, across: bool) -> Piece:
    size = rect.end - rect.start if across else rect.high - rect.low
    name = _named(plan, board, rect)
    if not name and board.shared and across and rect.end == board.board.length:
        return Piece(size, REST)
    return Piece(size, name or WASTE, not name)


def _named(plan: KindPlan, board: Sawn, rect: Rect) -> str:
    """What a rectangle of the board holds: the board itself, a section by its letter, blanks by
    their labels; nothing where it holds none.
    """
    whole = Rect(Fraction(0), board.board.length, Fraction(0), board.board.width)
    if rect == whole:
        return "the sheet" if plan.kind.sheet else "the board"
    inside = [one for one in board.placed if _within(one.rect, rect)]
    if not inside:
        return ""
    for number, section in enumerate(board.sections):
        held = [one for strip in section.strips for one in strip.placed]
        if len(held) > 1 and held == inside:
            return f"{SECTION} {section_letter(number)}"
    return ", ".join(label(plan.blanks[one.blank], one.number) for one in inside)


def _within(one: Rect, other: Rect) -> bool:
    return (other.start <= one.start and one.end <= other.end
            and other.low <= one.low and one.high <= other.high)


def label(blank: Blank, number: int) -> str:
    """What a blank is called on the plan: its letter in the cut list, numbered where there are
    several of it.
    """
    return f"{blank.called}{blank.first + number + 1}" if blank.alike > 1 else blank.called


def section_letter(number: int) -> str:
    """a, b, ... z, aa, ab, ... for the sections of a board, from 0."""
    return letter(number).lower()
