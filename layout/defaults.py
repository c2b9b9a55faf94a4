"""What is taken where the maker says nothing, from defaults.toml, where each source stands."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Literal

from layout.measure import read_length

Unit = Literal["in", "mm"]


@cache
def _table() -> dict[str, dict[str, Any]]:
    # beside this module; importlib.resources costs more than everything else here
    text = Path(__file__).with_name("defaults.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def default_length(name: str, unit: Unit) -> Fraction:
    """A default length in mm for a piece written in `unit`."""
    return read_length(_table()[name][unit], unit)


def default_lengths(name: str, unit: Unit) -> tuple[Fraction, ...]:
    """A default list of lengths in mm for a piece written in `unit`."""
    return tuple(read_length(value, unit) for value in _table()[name][unit])


# Shares as a maker says them; any other is told as a fraction.
_SHARES = {
    Fraction(1, 8): "an eighth",
    Fraction(1, 4): "a quarter",
    Fraction(1, 3): "a third",
    Fraction(1, 2): "half",
    Fraction(3, 4): "three quarters",
}


def share_words(share: Fraction) -> str:
    """A share in words: `a third`, `three quarters`, `2/5`."""
    return _SHARES.get(share, str(share))


def default_ratio(name: str) -> Fraction:
    """A default that is a plain ratio."""
    return Fraction(_table()[name]["in"])



def default_count(name: str) -> int:
    """A default that is a whole number."""
    return int(_table()[name]["in"])
