"""The keys of dovetails: what a drawer or chest says of all its corners, and of some of them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal, cast

from layout.defaults import Unit
from layout.errors import BadMeasure, BadPiece
from layout.joints.spacing import MOST_TAILS, DovetailChoice
from layout.measure.slope import Slope, read_slope
from layout.piece_file.table import Table
from layout.piece_file.words import quoted

EDGES = ("half pins", "half tails")
FIRST = ("tails", "pins")
# How the tails lie is said by one of these.
LIES = ("tails", "tail_width", "pins_at")
# A fraction or a decimal of few figures: an exponent could ask for a number of any length.
_SHARE = re.compile("[0-9]{1,4} */ *[0-9]{1,4}|[01]?[.][0-9]{1,6}|1")


def read_dovetails(table: Table, unit: Unit, usual: DovetailChoice) -> DovetailChoice:
    """What a table says, on top of `usual`. BadPiece where two of its keys contradict each other.

    The lap is read by `read_lap`: it belongs to a board, not to the spacing.
    """
    choice = usual._replace(where=table.where())
    if table.has("slope"):
        choice = choice._replace(slope=read_slope_of(table))
    if table.has("pin"):
        choice = choice._replace(pin=table.length("pin", unit))
    if table.has("half_pin"):
        choice = choice._replace(half_pin=table.length("half_pin", unit))
    choice = _lie(table, unit, choice)
    if table.has("graduated"):
        choice = choice._replace(graduated=_graduated(table))
    if table.has("edges"):
        edges = table.choice("edges", EDGES)
        choice = choice._replace(edges=cast(Literal["half pins", "half tails"], edges))
    if table.has("first"):
        first = table.choice("first", FIRST)
        choice = choice._replace(first=cast(Literal["tails", "pins"], first))
    if choice.pins_at and choice.graduated != 1:
        raise table.error(
            "graduated" if table.has("graduated") else "pins_at",
            "tails between given pins can't be graduated as well",
            "leave out graduated, or pins_at",
        )
    if choice.edges == "half tails" and choice.half_pin is not None:
        raise table.error(
            "half_pin" if table.has("half_pin") else "edges",
            "a half pin does not go with edges = \"half tails\"",
            "leave one of the two out",
        )
    return choice


def _lie(table: Table, unit: Unit, choice: DovetailChoice) -> DovetailChoice:
    """How many tails, how wide, or between which pins: one of the three."""
    given = [key for key in LIES if table.has(key)]
    if len(given) > 1:
        raise table.error(
            given[1], f"how the tails lie is said twice, by {given[0]} too",
            f"keep one of {', '.join(LIES)}",
        )
    if given == ["tails"]:
        count = table.count("tails", 1, MOST_TAILS)
        return choice._replace(tails=count, pins_at=())
    if given == ["tail_width"]:
        wide = table.length("tail_width", unit)
        return choice._replace(tail_width=wide, tails=None, pins_at=())
    if given == ["pins_at"]:
        return choice._replace(pins_at=tuple(table.lengths("pins_at", unit)), tails=None)
    return choice


def read_slope_of(table: Table, key: str = "slope") -> Slope:
    """A slope as the maker wrote it. A bare number is no text and says neither ratio nor angle."""
    try:
        return read_slope(_written(table, key, f'write it like {key} = "1:7" or "8 degrees"'))
    except BadMeasure as error:
        raise table.error(key, error.what, error.cure) from None


def _graduated(table: Table) -> Fraction:
    """What each tail is of the next one toward the middle: a share from 1/2 to 1."""
    cure = 'write a fraction from 1/2 to 1, e.g. graduated = "7/8"'
    written = _written(table, "graduated", cure)
    share = read_share(written)
    if share is None or not Fraction(1, 2) <= share <= 1:
        what = f"{quoted(written)} is no share that tails can shrink by"
        raise table.error("graduated", what, cure)
    return share


def _written(table: Table, key: str, cure: str) -> str:
    """The text at a key. Where something else stands there, the cure shows what to write."""
    try:
        return table.text(key)
    except BadPiece as error:
        raise table.error(key, error.what, cure) from None


def read_share(written: str) -> Fraction | None:
    """A plain share such as `7/8` or `0.9`; None where it is none."""
    if _SHARE.fullmatch(written) is None:
        return None
    try:
        return Fraction(written.replace(" ", ""))
    except ZeroDivisionError:
        return None


def read_lap(table: Table, unit: Unit, usual: Fraction | None) -> Fraction | None:
    """How much covers the tails' ends, in mm; None for through dovetails (`lap = false`)."""
    if not table.has("lap"):
        return usual
    if table.is_false("lap"):
        return None
    return table.length("lap", unit)
