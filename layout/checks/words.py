"""How checks put figures into words."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from layout.measure import dual, show
from layout.piece import Piece


def said(piece: Piece, length: Fraction) -> str:
    """A length at the maker's rule with its unit, in both units where the piece asks for it."""
    return dual(length, piece.rule) if piece.choice.dual else show(length, piece.rule).with_unit


def figure(piece: Piece, length: Fraction) -> str:
    """A length at the maker's rule without its unit; in both units where the piece asks for it."""
    return dual(length, piece.rule) if piece.choice.dual else show(length, piece.rule).text


def at_most(piece: Piece, length: Fraction) -> str:
    """A limit at the maker's rule, rounded down: a size set to what is said keeps the limit."""
    step = piece.rule.step_mm
    return said(piece, length // step * step)


def at_least(piece: Piece, length: Fraction) -> str:
    """A limit at the maker's rule, rounded up: a size set to what is said keeps the limit."""
    step = piece.rule.step_mm
    return said(piece, -(-length // step) * step)


def listed(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
