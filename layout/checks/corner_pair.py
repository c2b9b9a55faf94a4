"""The groove of a corner by itself: does it fall inside a tail, is there wood round it."""

from __future__ import annotations

from collections.abc import Iterator

from layout.checks.bottoms import inside, wood
from layout.mark import Finding
from layout.piece import Piece


def findings(piece: Piece) -> list[Finding]:
    """Stops where the groove comes out or leaves no wood; nothing where there is none."""
    return [*_findings(piece)]


def _findings(piece: Piece) -> Iterator[Finding]:
    pair = piece.corner_pair
    if pair is None or pair.choice.groove is None:
        return
    for part in (pair.tails, pair.pins):
        yield from wood(piece, part, pair.grooves[part.id])
    cure = "move the groove, or make the half pin less"
    yield from inside(piece, pair.corner, pair.choice.groove, (pair.pins,),
                      (pair.tails.id,), pair.choice.clear,
                      False, "", cure)
