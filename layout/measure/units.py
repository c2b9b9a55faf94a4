"""How long a unit is, in mm: inch, foot and mm at once, all others by way of pint."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from layout.errors import BadMeasure

# Exactly 25.4 mm: international yard and pound agreement, 1959 (NIST SP 811, 2008, App. B.9).
INCH = Fraction(127, 5)
FOOT = 12 * INCH
MM = Fraction(1)

# Known without pint, which takes 0.2 s to load.
AT_ONCE: Mapping[str, Fraction] = {
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "ft": FOOT,
    "foot": FOOT,
    "feet": FOOT,
    "'": FOOT,
    "mm": MM,
}

_USUAL = "write one of: in, ft, yd, mm, cm, m"


def unit_length(written: str) -> Fraction:
    """The length of one unit in mm; capitals and a stop at the end (`in.`) make no difference.

    BadMeasure where the unit is unknown, with the nearest known one, or measures no length.
    """
    name = written.lower().removesuffix(".")
    if name in AT_ONCE:
        return AT_ONCE[name]
    lengths, others = _tables()
    if name in lengths:
        return lengths[name]
    if name in others:
        raise BadMeasure(f"'{written}' is a unit of {others[name]}, not of length", _USUAL)
    raise BadMeasure(f"there is no unit '{written}'", _nearest(name, lengths))


def _nearest(name: str, lengths: Mapping[str, Fraction]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(name, lengths, n=1)
    return f"did you mean '{close[0]}'? {_USUAL}" if close else _USUAL


@cache
def _tables() -> tuple[dict[str, Fraction], dict[str, str]]:
    """From units.txt by way of pint, by name in small letters: lengths in mm, and other kinds."""
    from importlib import resources

    from pint import UnitRegistry

    text = resources.files("layout.measure").joinpath("units.txt").read_text(encoding="utf-8")
    # Fraction for whatever pint would read as a float; no cache folder, nothing is written.
    registry: Any = UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(text.splitlines())
    lengths: dict[str, Fraction] = {}
    others: dict[str, str] = {}
    for name in registry:
        kind = str(registry.get_dimensionality(name))
        if kind == "[length]":
            lengths[name.lower()] = registry.convert(Fraction(1), name, "millimeter")
        else:
            others[name.lower()] = kind.strip("[]")
    return lengths, others
