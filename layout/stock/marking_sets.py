"""Which parts lie together to be marked, and which of them are alike, so that one serves as master.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.mark import Mark
from layout.part import Face, Part
from layout.piece import Piece
from layout.stock.marking_step import is_across

Parts = tuple[Part, ...]
_Place = tuple[Face, str, str, Fraction]


class Marked(NamedTuple):
    """A piece, its parts that have marks in the order of the piece, and the marks of each by id."""

    piece: Piece
    parts: Parts
    marks: Mapping[str, tuple[Mark, ...]]

    def of(self, parts: Iterable[Part]) -> tuple[Mark, ...]:
        """The marks of these parts, part by part."""
        return tuple(mark for part in parts for mark in self.marks[part.id])


def marked_parts(piece: Piece) -> Marked:
    """The parts that have something to mark."""
    found: dict[str, list[Mark]] = {}
    for mark in piece.marks:
        found.setdefault(mark.part, []).append(mark)
    parts = tuple(part for part in piece.parts if part.id in found)
    return Marked(piece, parts, {part: tuple(marks) for part, marks in found.items()})


def by_kind(marked: Marked) -> tuple[Parts, ...]:
    """All parts of a kind (legs, rails, drawer sides), and at the end those that are alone."""
    found: dict[str, list[Part]] = {}
    for part in marked.parts:
        found.setdefault(part.kind, []).append(part)
    several = [tuple(parts) for parts in found.values() if len(parts) > 1]
    alone = tuple(part for part in marked.parts if len(found[part.kind]) == 1)
    return (*several, alone) if alone else tuple(several)


def alike(parts: Iterable[Part], marks: Mapping[str, Sequence[Mark]]) -> tuple[Parts, ...]:
    """Parts of one size that have the same of these marks, up to mirror image; the first is master.

    `marks` are those that count, by part; a part without any is left out. Parts that mirror each
    other do so in their placements, so their marks have the same numbers in part coordinates.
    """
    found: dict[object, list[Part]] = {}
    for part in parts:
        if marks.get(part.id):
            found.setdefault(_shape(part, marks[part.id]), []).append(part)
    return tuple(map(tuple, found.values()))


def sets(marked: Marked) -> tuple[Parts, ...]:
    """Parts that lie together with their ends level.

    They are of one length and of one kind or size, and alike or with at least one line in common:
    at the same distance from the same end, on the same surface (common practice, no source).
    """
    found: list[tuple[list[Part], set[_Place]]] = []
    for group in alike(marked.parts, marked.marks):
        first = group[0]
        places = _places(marked.marks[first.id])
        joined = [one for one in found if _together(one, first, places)]
        merged = (
            [part for parts, _ in joined for part in parts] + list(group),
            places.union(*(one for _, one in joined)),
        )
        found = [one for one in found if one not in joined] + [merged]
    order = {part.id: number for number, part in enumerate(marked.parts)}
    ordered = [tuple(sorted(parts, key=lambda one: order[one.id])) for parts, _ in found]
    return tuple(sorted(ordered, key=lambda parts: order[parts[0].id]))


def _together(one: tuple[list[Part], set[_Place]], first: Part, places: set[_Place]) -> bool:
    return any(_like(other, first) for other in one[0]) and not places.isdisjoint(one[1])


def _like(one: Part, other: Part) -> bool:
    """True for two rails of one length, or for boards of one size, whatever they are called."""
    if one.length != other.length:
        return False
    size = (one.width, one.thickness) == (other.width, other.thickness)
    return size or one.kind == other.kind


def _places(marks: Iterable[Mark]) -> set[_Place]:
    """Where the lines across a part lie, so that two parts can be compared."""
    return {
        (mark.face, mark.tool, mark.source, mark.distance) for mark in marks if is_across(mark)
    }


def _shape(part: Part, marks: Iterable[Mark]) -> object:
    """What must agree for one part to be marked from another."""
    shapes = frozenset(
        (mark.face, mark.tool, mark.role, mark.source, mark.distance, mark.line, mark.point,
         mark.diameter)
        for mark in marks
    )
    return (part.length, part.width, part.thickness, shapes)
