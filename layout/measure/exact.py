"""Exact numbers as text, and the one rounding rule. Integer arithmetic only."""

from __future__ import annotations

import re
from fractions import Fraction

from layout.errors import BadMeasure

_EXACT = re.compile(r"-?(?:0|[1-9][0-9]*)(?:/[1-9][0-9]*)?")
# Far longer than any sum of sizes and slopes gets; keeps int() from long work on odd input.
_MOST_EXACT = 1000


def nearest(value: Fraction) -> int:
    """The nearest whole number, halves away from zero: 5/2 is 3, -5/2 is -3.

    This is the only rounding rule in the project; a size is shown, and a coordinate written,
    by counting graduations or decimals with it.
    """
    return _nearest(value.numerator, value.denominator)


def _nearest(above: int, below: int) -> int:
    """The nearest whole number to a fraction of two whole numbers, `below` more than 0."""
    whole = (2 * abs(above) + below) // (2 * below)
    return whole if above >= 0 else -whole


def decimal_text(value: Fraction, places: int = 6) -> str:
    """A number as a plain decimal for the writers of PDF and SVG: "43.5", "-0.25", "60".

    At most `places` decimals (0 or more), halves away from zero. No exponent, no trailing zeros,
    no point without a decimal after it, and never "-0". ValueError where `places` is negative.
    """
    return ratio_text(value.numerator, value.denominator, places)


def ratio_text(above: int, below: int, places: int = 6) -> str:
    """As `decimal_text`, of a ratio of two whole numbers, `below` more than 0; in any terms."""
    if places < 0:
        raise ValueError(f"places must be 0 or more, not {places}")
    units = _nearest(above * 10**places, below)
    sign = "-" if units < 0 else ""
    digits = str(abs(units)).rjust(places + 1, "0")
    whole, decimals = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"


def exact_text(value: Fraction) -> str:
    """A number without any rounding, as the JSON contract has it: "127/5", "60", "-1/8"."""
    return str(value)


def read_exact(text: object) -> Fraction:
    """What `exact_text` wrote. BadMeasure for anything that `exact_text` would not write."""
    cure = 'write a whole number or a fraction in lowest terms, e.g. "60" or "127/5"'
    if not isinstance(text, str):
        raise BadMeasure(f"an exact number is text, not {type(text).__name__}", cure)
    if len(text) > _MOST_EXACT:
        raise BadMeasure(f"an exact number of more than {_MOST_EXACT} characters", cure)
    if _EXACT.fullmatch(text) is not None:
        value = Fraction(text)
        if exact_text(value) == text:
            return value
    shown = text if len(text) <= 40 else f"{text[:39]}…"
    raise BadMeasure(f"{shown!r} is no exact number in lowest terms", cure)
