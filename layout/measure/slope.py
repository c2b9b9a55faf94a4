"""Slopes of dovetails: reading what a maker writes, as a ratio or as a cutter's side angle.

A slope is 1 in n and is kept as n. Angles are turned into such a ratio once, here, by integer
arithmetic; nothing else in the program knows of angles.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadMeasure
from layout.measure.exact import decimal_text, nearest
from layout.measure.read import _NUMBER, _PLAIN, _kind, _number, _refuse_unreadable, quoted

LEAST_RUN = Fraction(1)
MOST_RUN = Fraction(50)
MOST_DEGREES = Fraction(45)  # that is 1 in 1
LEAST_DEGREES = Fraction(1)  # about 1 in 57, so already finer than MOST_RUN

PI = Fraction(3_141592_653589_793238_462643_383279, 10**30)
"""The first 30 decimals; what is left out is under 1e-30."""

# Series are added up in whole numbers of 1e-24 and come out good to 1e-20, so the 18 decimals kept
# are good. A run keeps 12: at 1 in 50 a slip in the tangent counts 2500 times.
_ONE = 10**24
_TANGENT_PLACES = 18
_RUN_PLACES = 12

_LIKE = "write it like 1 in 7, 1:7, 5/8 in 3 or 8 degrees"

# Other keyboards' colons and degree signs, beside what all numbers allow for.
_ALSO_PLAIN = str.maketrans({"∶": ":", "º": "°", "˚": "°"})
# Plain text, so that a command that reads no slope doesn't wait for these to be made ready.
_BARE = f"-?{_NUMBER}"
_RATIO = f"(?P<over>{_NUMBER})(?: *: *| +[Ii][Nn] +)(?P<along>{_NUMBER})"
_ANGLE = f"(?P<angle>{_NUMBER}) *(?:°|(?i:deg(?:[.]|rees?)?))"
_MINUS = "^-|(?::|[Ii][Nn]) *-"


class Slope(NamedTuple):
    """How a side leans: 1 across for `run` along, from 1 in 1 to 1 in 50 where it was read.

    `rounded` is True where it came from degrees: the run is then the nearest with 12 decimals,
    and `degrees_asked` the angle as it was written. Otherwise the run is exact.
    """

    run: Fraction
    rounded: bool = False
    degrees_asked: Fraction | None = None

    @property
    def ratio_text(self) -> str:
        """`1 in 7`, `1 in 4.8`; the nearest with three decimals where the run has more."""
        return f"1 in {decimal_text(self.run, 3)}"

    @property
    def degrees(self) -> Fraction:
        """The angle from the perpendicular to the base, in degrees.

        What was asked for, exactly; worked out from a ratio, good to 1e-18.
        """
        if self.degrees_asked is not None:
            return self.degrees_asked
        return _angle_of(self.run)

    @property
    def degrees_text(self) -> str:
        """The angle in degrees with at most two decimals: `8.13`, `7.5`."""
        return decimal_text(self.degrees, 2)

    def offset(self, depth: Fraction) -> Fraction:
        """How far a side leans over `depth`, in the unit of `depth` (mm inside the program)."""
        return depth / self.run


def read_slope(written: object) -> Slope:
    """A slope from what the maker wrote: how far across in how far along, or an angle.

    `1:7`, `1 in 7`, `5/8 in 3`, `1:4.8`; `8 deg`, `7.5 degrees`, `8°`, which is the angle from
    the perpendicular to the base and becomes the nearest run with 12 decimals, marked rounded.
    BadMeasure, without a place, for a number alone, for anything steeper than 1 in 1 or finer
    than 1 in 50, and for everything that is no slope.
    """
    if isinstance(written, bool) or not isinstance(written, (str, int, Decimal)):
        raise BadMeasure(f"a slope can't be {_kind(written)}", _LIKE)
    if not isinstance(written, str):
        raise _bare(written, quoted(written))
    _refuse_unreadable(written, "slope", _LIKE)
    text = written.translate(_PLAIN).translate(_ALSO_PLAIN).strip(" ")
    if found := re.fullmatch(_RATIO, text):
        return _ratio(_number(found["over"], written), _number(found["along"], written), written)
    if found := re.fullmatch(_ANGLE, text):
        return _angle(_number(found["angle"], written), written)
    raise _slip(written, text)


def _ratio(over: Fraction, along: Fraction, written: str) -> Slope:
    if not over or not along:
        raise _zero(written)
    run = along / over
    if run < LEAST_RUN:
        raise BadMeasure(
            f"{quoted(written)} is steeper than 1 in 1 (45 degrees)",
            "how far across comes first, then how far along: write it like 1 in 7",
        )
    if run > MOST_RUN:
        raise _too_fine(written)
    return Slope(run)


def _angle(degrees: Fraction, written: str) -> Slope:
    if not degrees:
        raise _zero(written)
    if degrees > MOST_DEGREES:
        cure = "write the angle from the perpendicular to the base"
        if degrees < 90:  # taken from the base, as a protractor has it
            cure = f"{cure}: {decimal_text(90 - degrees, 3)} degrees"
        raise BadMeasure(f"{quoted(written)} is steeper than 45 degrees (1 in 1)", cure)
    if degrees < LEAST_DEGREES:
        raise _too_fine(written)
    run = Fraction(nearest(10**_RUN_PLACES / tangent(degrees)), 10**_RUN_PLACES)
    if run > MOST_RUN:
        raise _too_fine(written)
    return Slope(run, True, degrees)


def _zero(written: str) -> BadMeasure:
    return BadMeasure(f"{quoted(written)} is no slope: it has a zero in it", _LIKE)


def _too_fine(written: str) -> BadMeasure:
    return BadMeasure(
        f"{quoted(written)} is finer than 1 in 50 (1.15 degrees)",
        "write a slope from 1 in 1 to 1 in 50",
    )


def _bare(written: str | int | Decimal, number: str) -> BadMeasure:
    cure = f'write "1 in {number}" or "{number} degrees"'
    if len(number) > 6 or not re.fullmatch("[1-9][0-9]*(?:[.][0-9]+)?", number):
        cure = _LIKE
    return BadMeasure(f"{quoted(written)} alone may be a ratio or an angle", cure)


def _slip(written: str, text: str) -> BadMeasure:
    """Why a text is no slope, the likeliest reason first."""
    if re.search(_MINUS, text):
        return BadMeasure(f"{quoted(written)} is below zero", "write it without the minus sign")
    if re.fullmatch(_BARE, text):
        return _bare(written, text)
    if "," in text:
        cure = f"write {text.replace(',', '.')}" if text.count(",") == 1 else _LIKE
        return BadMeasure(f"{quoted(written)} has a comma in it", cure)
    if "%" in text:
        return BadMeasure(f"{quoted(written)} is in per cent", _LIKE)
    if "°" in text and re.search("['\"]", text):
        return BadMeasure(f"{quoted(written)} has minutes in it", "write it like 7.5 degrees")
    if re.search("['\"]|mm|cm", text):
        return BadMeasure(f"{quoted(written)} has a unit in it", f"leave it out; {_LIKE}")
    return BadMeasure(f"{quoted(written)} can't be read as a slope", _LIKE)


def tangent(degrees: Fraction) -> Fraction:
    """The tangent of an angle of 0 to 45 degrees, rounded to 18 decimals.

    ValueError for other angles, which are a slip in the program.
    """
    if not 0 <= degrees <= MOST_DEGREES:
        raise ValueError(f"an angle of 0 to 45 degrees, not {degrees}")
    radians = nearest(degrees * PI / 180 * _ONE)
    # x - x^3/3! + x^5/5! ... and 1 - x^2/2! + x^4/4! ..., every second term of one row
    sine = cosine = 0
    term, count = _ONE, 0
    while term:
        sign = -1 if count % 4 > 1 else 1
        if count % 2:
            sine += sign * term
        else:
            cosine += sign * term
        count += 1
        term = nearest(Fraction(term * radians, _ONE * count))
    return Fraction(nearest(Fraction(sine * 10**_TANGENT_PLACES, cosine)), 10**_TANGENT_PLACES)


def _angle_of(run: Fraction) -> Fraction:
    """The angle whose tangent is 1/run, in degrees, rounded to 18 decimals."""
    # Euler's row for the arctangent: with y = x^2/(1 + x^2) it is y/x times
    # 1 + 2/3 y + (2 4)/(3 5) y^2 + ... For x up to 1 each term is less than half the one before;
    # the usual row would hardly end at x = 1.
    share = nearest(_ONE / (run * run + 1))
    total, term, count = 0, _ONE, 0
    while term:
        total += term
        count += 1
        term = nearest(Fraction(term * share * 2 * count, _ONE * (2 * count + 1)))
    radians = run / (run * run + 1) * total / _ONE
    return Fraction(nearest(radians * 180 / PI * 10**_TANGENT_PLACES), 10**_TANGENT_PLACES)
