"""Thicknesses that boards are sold in (sold.toml), and the measures that they are sold by."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import NamedTuple

from layout.defaults import Unit
from layout.measure import read_length

INCH = Fraction(127, 5)
# A board foot is 1 in x 12 in x 12 in (NIST Handbook 44, Appendix C: 144 cubic inches).
BOARD_FOOT = 144 * INCH**3
CUBIC_METRE = Fraction(10**9)


class Sold(NamedTuple):
    """A thickness as it is sold, rough, and what it comes out planed on both sides, in mm."""

    name: str
    rough: Fraction
    dressed: Fraction


@cache
def thicknesses(unit: Unit) -> tuple[Sold, ...]:
    """What is usually sold, from thin to thick."""
    text = Path(__file__).with_name("sold.toml").read_text(encoding="utf-8")
    return tuple(
        Sold(one["name"], read_length(one["rough"], unit), read_length(one["dressed"], unit))
        for one in tomllib.loads(text)[unit]["boards"]
    )


def board_feet(thickness: Fraction, width: Fraction, length: Fraction) -> Fraction:
    """Board feet of a board by its rough sizes in mm.

    Thickness x width / 12 x length in feet; less than an inch of thickness counts as an inch
    (William Noyes, Handwork in Wood, 1910, ch. III, Wood Measurements; Charles A. King, Elements of
    Woodwork, 1911, sec. 12).
    """
    return max(thickness, INCH) * width * length / BOARD_FOOT
