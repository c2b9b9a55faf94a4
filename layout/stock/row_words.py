"""What the rows of the cut list say besides sizes: the joints at both ends, what is borne along the
length, and where the reference surfaces look.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from layout.checks.words import listed
from layout.part import Part
from layout.piece import Piece
from layout.stock.bears import bears
from layout.stock.cut_list import Row
from layout.stock.end_words import end_words, known
from layout.stock.reference import references


class RowWords(NamedTuple):
    """What a row says; loose stuff, which is cut from a stick, says nothing."""

    end_a: str = ""
    end_b: str = ""
    bears: str = ""
    face_side: str = ""
    face_edge: str = ""

    @property
    def ends(self) -> str:
        """Both ends in one line."""
        if self.end_a == self.end_b:
            return f"both ends: {self.end_a}" if self.end_a else ""
        return f"end A: {self.end_a}; end B: {self.end_b}"

    @property
    def reference(self) -> str:
        """Both reference surfaces in one line."""
        return f"face side {self.face_side}, face edge {self.face_edge}" if self.face_side else ""


def row_words(piece: Piece, rows: Sequence[Row]) -> tuple[RowWords, ...]:
    """What each row says, in the order of the rows. Parts of a row that differ are told apart."""
    have, parts = known(piece), {part.id: part for part in piece.parts}
    ends = end_words(have)
    looks = references(piece, [row.parts for row in rows])
    found = []
    for row, reference in zip(rows, looks, strict=True):
        same = [parts[one] for one in row.parts]
        found.append(RowWords(
            ", or ".join(_phrases(same, [[ends[one, "A"]] for one in row.parts])),
            ", or ".join(_phrases(same, [[ends[one, "B"]] for one in row.parts])),
            "; ".join(_phrases(same, [bears(have, part) for part in same])),
            reference.face_side,
            reference.face_edge,
        ))
    return tuple(found)


def _phrases(parts: Sequence[Part], told: Sequence[Sequence[str]]) -> Iterator[str]:
    """What all parts have, then what some have, with their names."""
    phrases = list(dict.fromkeys(phrase for one in told for phrase in one))
    shared = [phrase for phrase in phrases if all(phrase in one for one in told)]
    yield from shared
    for phrase in phrases:
        if phrase not in shared:
            names = [part.name for part, one in zip(parts, told, strict=True) if phrase in one]
            yield f"{phrase} ({listed(names)})"
