"""Lengths and money in words, for lists of stock."""

from __future__ import annotations

from fractions import Fraction

from layout.measure import dual, nearest, show
from layout.piece import Piece
from layout.stock.rough import StockChoice


def figure(piece: Piece, length: Fraction) -> str:
    """A length in mm at the maker's rule; in both units where the piece asks for it."""
    return dual(length, piece.rule) if piece.choice.dual else show(length, piece.rule).text


def money(cost: Fraction, stock: StockChoice) -> str:
    """A sum of money, to the cent."""
    cents = nearest(cost * 100)
    return f"{cents // 100}.{cents % 100:02d} {stock.money}".rstrip()


def counted(many: int, noun: str) -> str:
    """1 board, 2 boards."""
    return f"{many} {noun}{'s' * (many != 1)}"
