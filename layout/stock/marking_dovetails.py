"""Dovetails in the marking order: one board is marked first, the other takes its lines.

The first board's spacing is stepped off with dividers where it is even and squared across its end,
the bevel gives the slopes; it is cut, and the other board is scribed from it, corner by corner with
its letter (common practice, no source). Which board is first is the maker's choice (`first`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from layout.joints.dovetail import Corner
from layout.mark import Mark
from layout.part import Part
from layout.piece import Piece
from layout.settings import GAUGES
from layout.stock.marking_sets import Marked, Parts, alike
from layout.stock.marking_step import (
    ENDS,
    Kind,
    Line,
    Met,
    Step,
    faces_of,
    ids,
    level_sets,
    lines_of,
    mirrored,
    parts_of,
    sources_of,
)

_SIDES = re.compile(r"((near|far) side of tail|square side of half pin) [0-9]+")


def tail_marks(marked: Marked) -> dict[str, tuple[Corner, list[Mark]]]:
    """The lines of tails and pins of every corner, by its name; gauge lines are not among them."""
    found: dict[str, tuple[Corner, list[Mark]]] = {
        corner.name: (corner, []) for corner in marked.piece.corners
    }
    for mark in marked.of(marked.parts):
        if mark.joint in found and mark.tool not in GAUGES and _SIDES.fullmatch(mark.role):
            found[mark.joint][1].append(mark)
    return found


def dovetail_steps(marked: Marked) -> list[Step]:
    """The steps of all corners: first every board that lends its lines, then those that take them.
    """
    corners = list(tail_marks(marked).values())
    lending: dict[str, list[Mark]] = {}
    for corner, marks in corners:
        board = lends(corner).id
        lending.setdefault(board, []).extend(mark for mark in marks if mark.part == board)
    steps: list[Step] = []
    for group in alike(marked.parts, lending):
        steps += _lending(group, corners)
    return steps + _taking(marked.piece, corners)


def lends(corner: Corner) -> Part:
    """The board that is marked first."""
    return corner.tails if corner.spacing.choice.first == "tails" else corner.pins


def takes(corner: Corner) -> Part:
    """The board that is scribed from it."""
    return corner.pins if corner.spacing.choice.first == "tails" else corner.tails


def _lending(group: Parts, corners: Iterable[tuple[Corner, list[Mark]]]) -> list[Step]:
    """The steps of boards that are alike; both their ends at once where these are alike too."""
    at_end: dict[tuple[Fraction | None, tuple[Line, ...]], list[Mark]] = {}
    for corner, marks in corners:
        mine = [mark for mark in marks if mark.part == lends(corner).id and mark.part in ids(group)]
        if mine:
            step = corner.spacing.step if len(corner.spacing.tails) > 1 else None
            at_end.setdefault((step, _spaced(mine)), []).extend(mine)
    steps: list[Step] = []
    for (step, _), marks in at_end.items():
        if step is not None:
            steps.append(_dividers(group, step, marks))
        steps += _one_end(group, marks)
    return steps


def _dividers(group: Parts, step: Fraction, marks: list[Mark]) -> Step:
    """A tail and a pin at one step, stepped off along the end; the lines are made by the knife."""
    on_end = [mark for mark in marks if mark.face in ENDS]
    boards = [part.id for part in group if any(mark.part == part.id for mark in on_end)]
    return Step("dividers", (boards[0],), faces_of(on_end), ("face edge",),
                (Line(step, ("a tail and a pin",)),), tool="dividers", master=boards[0])


def _spaced(marks: list[Mark]) -> tuple[Line, ...]:
    """The spacing on the end, so that two ends can be compared."""
    return lines_of([mark for mark in marks if mark.face in ENDS])


def _one_end(group: Parts, marks: list[Mark]) -> list[Step]:
    """On the end first, then down both sides."""
    steps = []
    for on_end in (True, False):
        here = [mark for mark in marks if (mark.face in ENDS) == on_end]
        for tool in ("bevel", "knife"):
            some = tuple(mark for mark in here if mark.tool == tool)
            steps += [_on_boards(group, on_end, lot) for lot in level_sets(some)]
    return steps


def _on_boards(group: Parts, on_end: bool, marks: tuple[Mark, ...]) -> Step:
    kind: Kind = "bevel lines"
    if marks[0].tool == "knife":
        kind = "square across the ends" if on_end else "square down"
    boards = [part for part in group if any(mark.part == part.id for mark in marks)]
    together = kind == "square across the ends"
    return Step(
        kind, ids(boards), faces_of(marks), sources_of(marks), lines_of(marks), marks,
        tool=marks[0].tool, master=boards[0].id if together else "",
        mirrored=together and mirrored(boards),
    )


def _taking(piece: Piece, corners: Iterable[tuple[Corner, list[Mark]]]) -> list[Step]:
    """Boards of one kind at one go: their ends scribed, then squared down to the baseline."""
    found: dict[tuple[str, str], list[tuple[Corner, list[Mark]]]] = {}
    for corner, marks in corners:
        found.setdefault((corner.spacing.choice.first, takes(corner).kind), []).append(
            (corner, [mark for mark in marks if mark.part == takes(corner).id])
        )
    steps: list[Step] = []
    for (first, _), some in found.items():
        met = tuple(Met(one.letter, lends(one).id, takes(one).id) for one, _ in some)
        marks = [mark for _, here in some for mark in here]
        if not marks:
            continue
        # pins are scribed on the end, tails on the side
        scribed = [mark for mark in marks if mark.tool == "bevel"]
        rest = [mark for mark in marks if mark.tool != "bevel"]
        kind: Kind = "pins from tails" if first == "tails" else "tails from pins"
        steps.append(_taken(piece, kind, scribed, met))
        if rest:
            down: Kind = "square down" if first == "tails" else "square across the ends"
            steps.append(_taken(piece, down, rest, ()))
    return steps


def _taken(piece: Piece, kind: Kind, marks: list[Mark], met: tuple[Met, ...]) -> Step:
    return Step(kind, parts_of(piece, marks), faces_of(marks), sources_of(marks), (),
                tuple(marks), tool="knife", corners=met)
