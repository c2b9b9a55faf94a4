"""Money and counts in words, for lists of stock."""

from __future__ import annotations

from fractions import Fraction

from layout.measure import nearest
from layout.stock.rough import StockChoice


def money(cost: Fraction, stock: StockChoice) -> str:
    """A sum of money, to the cent."""
    cents = nearest(cost * 100)
    return f"{cents // 100}.{cents % 100:02d} {stock.money}".rstrip()


def counted(many: int, noun: str) -> str:
    """1 board, 2 boards."""
    return f"{many} {noun}{'s' * (many != 1)}"
