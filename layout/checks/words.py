"""How checks put figures into words."""

from __future__ import annotations

from fractions import Fraction

from layout.measure import show
from layout.piece import Piece


def said(piece: Piece, length: Fraction) -> str:
    """A length at the maker's rule with its unit, for the text of a finding."""
    return show(length, piece.rule).with_unit
