"""Parts and joints that are alike share a sheet: mirror hands share a stick, not a template."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from layout.checks.words import listed
from layout.mark import Mark
from layout.part import Part
from layout.piece import Piece


class Group(NamedTuple):
    """Parts with the same sizes, cuts and marks; `base` is what they have in common by name."""

    base: str
    parts: tuple[Part, ...]

    @property
    def first(self) -> Part:
        """The one that is drawn."""
        return self.parts[0]


def like_parts(piece: Piece) -> tuple[Group, ...]:
    """All parts of a piece, those alike together, in the order of the piece."""
    groups: dict[object, list[Part]] = {}
    for part in piece.parts:
        groups.setdefault(_shape(piece, part), []).append(part)
    return tuple(Group(base_name(piece, parts), tuple(parts)) for parts in groups.values())


def base_name(piece: Piece, parts: Iterable[Part]) -> str:
    """The names in the maker's list that these parts stand for, without the sides."""
    names: list[str] = []
    choices = {one.rail.part.id: one.rail.choice.name for one in piece.rails}
    choices |= {panel.part.id: panel.choice.name for panel in piece.panels}
    for part in parts:
        name = choices.get(part.id, part.kind)
        if name not in names:
            names.append(name)
    return ", ".join(names)


def told(piece: Piece, parts: Iterable[Part], hands: bool = True) -> str:
    """Which parts these are: all of one kind by count, some of it by their names.

    `4 × leg: 2 left hand, 2 right hand`, `2 × end rail`, `front left leg and front right leg`;
    without `hands` only `4 × leg`.
    """
    chosen: dict[str, list[Part]] = {}
    for part in parts:
        chosen.setdefault(base_name(piece, [part]), []).append(part)
    everyone = [base_name(piece, [part]) for part in piece.parts]
    words = []
    for base, some in chosen.items():
        if len(some) < everyone.count(base) or len(some) == 1:
            words.append(listed([part.name for part in some]))
            continue
        found = [part.hand for part in some] if hands else []
        split = ", ".join(
            f"{found.count(hand)} {hand} hand" for hand in ("left", "right") if hand in found
        )
        words.append(f"{len(some)} × {base}" + (f": {split}" if split else ""))
    return ", ".join(words)


# Surfaces as they are named on paper: none that could be taken for the back of the piece.
SURFACES = {
    "face": "face side",
    "edge": "face edge",
    "back": "back side",
    "far edge": "far edge",
    "end A": "end A",
    "end B": "end B",
}


def _shape(piece: Piece, part: Part) -> object:
    """What must agree for two parts to share a stick: sizes, cuts and lines in part coordinates."""
    cuts = frozenset((cut.role, cut.shape) for cut in piece.cuts_of(part.id))
    marks = frozenset(
        (mark.face, mark.tool, mark.role, mark.line) for mark in piece.marks_of(part.id)
    )
    return (part.kind, part.length, part.width, part.thickness, cuts, marks)


def mark_ids(piece: Piece) -> dict[Mark, str]:
    """A short name for every mark of a piece, for the strokes that show it."""
    return {mark: f"m{number}" for number, mark in enumerate(piece.marks, start=1)}
