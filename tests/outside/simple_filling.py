"""Boards filled as one would by eye: the longest first, sections crosscut, strips ripped.

Not clever, but what it fills can be sawn: crosscuts from edge to edge, rips along each section,
then each strip cut to length. So it shows what is enough, never what is too little. Lengths are
exact Fractions of a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple


class Need(NamedTuple):
    """A blank to get out of a board."""

    length: Fraction
    width: Fraction


class Room(NamedTuple):
    """A part of a board: along it and across it."""

    start: Fraction
    end: Fraction
    low: Fraction
    high: Fraction


class Bay(NamedTuple):
    """A board less its ends and its edge, with what to keep out of, and the saw's kerf."""

    room: Room
    outs: tuple[Room, ...]
    kerf: Fraction

    def area(self) -> Fraction:
        return (self.room.end - self.room.start) * (self.room.high - self.room.low)


def _clear(bay: Bay, start: Fraction, need: Need, lows: Iterator[Fraction]) -> Fraction | None:
    """The first of these places across the board where a blank can lie from `start` on."""
    end = start + need.length
    if start < bay.room.start or end > bay.room.end:
        return None
    for low in lows:
        high = low + need.width
        if low >= bay.room.low and high <= bay.room.high and not any(
                start < out.end and out.start < end and low < out.high and out.low < high
                for out in bay.outs):
            return low
    return None


def _lows(bay: Bay, least: Fraction) -> Iterator[Fraction]:
    """From the near edge: where the last strip ends, or just past something to keep out of."""
    yield least
    yield from sorted(out.high for out in bay.outs if out.high > least)


def _starts(bay: Bay, least: Fraction) -> Iterator[Fraction]:
    yield least
    yield from sorted(out.end for out in bay.outs if out.end > least)


def fits(bay: Bay, need: Need) -> bool:
    """Whether one blank alone finds a place."""
    return any(_clear(bay, start, need, _lows(bay, bay.room.low)) is not None
               for start in _starts(bay, bay.room.start))


def fill(bay: Bay, needs: list[Need]) -> list[Need]:
    """What is left over once a board is full."""
    left = sorted(needs, reverse=True)
    at = bay.room.start
    while left:
        found = next(((start, need) for need in left for start in _starts(bay, at)
                      if _clear(bay, start, need, _lows(bay, bay.room.low)) is not None), None)
        if found is None:
            return left
        start, first = found
        _fill_section(bay, start, first.length, left)
        at = start + first.length + bay.kerf
    return left


def _fill_section(bay: Bay, start: Fraction, long: Fraction, left: list[Need]) -> None:
    """Strips of a section, the longest blanks first; each strip is filled end to end."""
    low = bay.room.low
    while True:
        place: tuple[Fraction, Need] | None = None
        for need in left:
            if need.length <= long:
                found = _clear(bay, start, need, _lows(bay, low))
                if found is not None:
                    place = found, need
                    break
        if place is None:
            return
        low, need = place
        left.remove(need)
        at = start + need.length + bay.kerf
        for other in list(left):
            if (other.width <= need.width and at + other.length <= start + long
                    and _clear(bay, at, Need(other.length, need.width), iter([low])) is not None):
                left.remove(other)
                at += other.length + bay.kerf
        low += need.width + bay.kerf
