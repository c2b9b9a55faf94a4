"""The size of a card."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class CardSize(NamedTuple):
    """A card lying on its long side, in mm."""

    name: str
    width: Fraction
    height: Fraction
