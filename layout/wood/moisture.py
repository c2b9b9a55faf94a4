"""Moisture content of wood: from a meter, or from the air it lies in.

The equation is that of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010,
Eq. 4-5; William T. Simpson, FPL-RN-0268, 1998), in degrees Celsius. With temperature and humidity
as exact numbers it gives an exact number; nothing is rounded before it is shown.

Of the 187 cells of Table 4-2 that were read, 186 lie within 0.052 of it: the table is printed to a
tenth, so 0.05 is its rounding, and the rest is that it was worked out in degrees Fahrenheit, with
coefficients of their own. One cell, 110 F and 20 %, is more than 1 out: a misprint, since the
figures on both sides of it are larger.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadWood
from layout.measure import decimal_text

# W, K, K1 and K2 as polynomials of the temperature in degrees Celsius.
_W = (Fraction(349), Fraction("1.29"), Fraction("0.0135"))
_K = (Fraction("0.805"), Fraction("0.000736"), Fraction("-0.00000273"))
_K1 = (Fraction("6.27"), Fraction("-0.00938"), Fraction("-0.000303"))
_K2 = (Fraction("1.91"), Fraction("0.0407"), Fraction("-0.000293"))

# The printed table (4-2) begins at 30 F; the part of it that was read ends at 130 F.
COLDEST_F, WARMEST_F = Fraction(30), Fraction(130)
# Above this, the fibre saturation point, wood neither swells nor shrinks.
SATURATED = Fraction(30)

_NUMBER = r"([0-9]{1,6}(?:[.][0-9]{1,6})?)"
_PERCENT = rf"{_NUMBER} ?(?:%|per ?cent|percent)"
_METER = re.compile(rf"{_NUMBER}(?: ?(?:%|per ?cent|percent))?", re.IGNORECASE)
_AIR = re.compile(
    rf"(-?){_NUMBER} ?(?:°|deg)? ?(C|F)[.,]? *(?:(?:and|at) )?{_PERCENT}(?: ?(?:RH|humidity))?",
    re.IGNORECASE,
)
_LIKE = 'write the meter\'s reading, like 8, or the air, like "68 F, 45 %" or "20 C, 45 %"'


class Moisture(NamedTuple):
    """The moisture content of wood in percent of its ovendry mass; with the air that it comes from
    as it was written, "" where a meter gave it.
    """

    content: Fraction
    air: str = ""

    @property
    def text(self) -> str:
        """`8.0 %`, as near as the published table goes."""
        return percent(self.content)

    @property
    def words(self) -> str:
        """`8.5 % (68 F, 45 %)`, or the content alone."""
        return f"{self.text} ({self.air})" if self.air else self.text


def percent(value: Fraction) -> str:
    """A moisture content or humidity, to a tenth."""
    text = decimal_text(value, 1)
    return f"{text if '.' in text else text + '.0'} %"


def in_air(celsius: Fraction, humidity: Fraction) -> Fraction:
    """The moisture content in percent that wood comes to in air of this temperature (degrees
    Celsius) and relative humidity (percent). BadWood outside the published range.
    """
    if not 0 <= humidity <= 100:
        raise BadWood(f"a humidity of {decimal_text(humidity)} % can't be",
                      "it lies between 0 and 100 %")
    if not COLDEST_F <= fahrenheit(celsius) <= WARMEST_F:
        raise BadWood(
            f"{decimal_text(celsius, 1)} C is outside the published table",
            f"it goes from {COLDEST_F} to {WARMEST_F} F, -1.1 to 54.4 C",
        )
    w, k, k1, k2 = (
        sum((c * celsius**power for power, c in enumerate(each)), Fraction(0))
        for each in (_W, _K, _K1, _K2)
    )
    kh = k * humidity / 100
    bound = k1 * kh
    twice = k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + (bound + 2 * twice) / (1 + bound + twice))


def fahrenheit(celsius: Fraction) -> Fraction:
    """Degrees Fahrenheit."""
    return celsius * 9 / 5 + 32


def read_moisture(written: object) -> Moisture:
    """A moisture content from what the maker wrote: a meter's reading, `8` or `8.5 %`, or the air,
    `68 F, 45 %`. BadWood, without a place, for anything else.
    """
    if isinstance(written, bool) or not isinstance(written, (str, int, Decimal)):
        raise BadWood("a moisture content is a number or a text", _LIKE)
    text = " ".join(str(written).split())
    shown = text if len(text) <= 40 else f"{text[:39]}…"
    if found := _METER.fullmatch(text):
        content = Fraction(found[1])
        if content > SATURATED:
            raise BadWood(
                f"at {decimal_text(content)} % the wood is wetter than fibre saturation, "
                f"{SATURATED} %, where it begins to shrink",
                "let it dry first; furniture is made between 6 and 14 %",
            )
        return Moisture(content)
    if found := _AIR.fullmatch(text):
        degrees = Fraction(found[2]) * (-1 if found[1] else 1)
        celsius = degrees if found[3].upper() == "C" else (degrees - 32) * 5 / 9
        humidity = Fraction(found[4])
        air = f"{decimal_text(degrees)} {found[3].upper()}, {decimal_text(humidity)} %"
        return Moisture(in_air(celsius, humidity), air)
    raise BadWood(f"'{shown}' is no moisture content", _LIKE)


class Climate(NamedTuple):
    """The wood's moisture on the day it is fitted, and at the driest and wettest of the year.
    `stated` is False where the maker gave none and the usual one is taken.
    """

    now: Moisture
    dry: Moisture
    wet: Moisture
    stated: bool = True


def climate(now: Moisture, dry: Moisture, wet: Moisture) -> Climate:
    """A climate. BadWood where the driest is wetter than the wettest."""
    if dry.content > wet.content:
        raise BadWood(
            f"the dry season, {dry.words}, is wetter than the wet one, {wet.words}",
            "exchange them",
        )
    return Climate(now, dry, wet)


def usual_climate() -> Climate:
    """What is taken where the maker says nothing: furniture in heated rooms of most of the United
    States, 8 % on average (Wood Handbook, FPL-GTR-190, 2010, Table 13-2, read as quoted), between
    6 and 10 % over the year (the same, from memory).
    """
    now, dry, wet = (Moisture(Fraction(value)) for value in (8, 6, 10))
    return Climate(now, dry, wet, stated=False)
