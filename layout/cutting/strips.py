"""The best strips for a section: how a section's width is shared among items, at given prices.

One table for every length of section: row after row of the knapsack problem, items from short to
long, so that the table of a length holds just the items that are no longer than it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from layout.cutting.job import Bed, Item, Job, Strip

Floats = NDArray[np.float64]


class Variant(NamedTuple):
    """A way to lay an item in a strip: `copies` end to end, so long in all; each piece as it lies.
    """

    length: int
    width: int
    item: int
    copies: int
    piece: int


class Take(NamedTuple):
    """A row of the table: so many strips of a variant at once."""

    variant: Variant
    many: int
    weight: int


class Table(NamedTuple):
    """Best values by width, a row after each Take; the row at which each length's items end."""

    rows: tuple[Floats, ...]
    takes: tuple[Take, ...]
    ends: tuple[int, ...]
    kerf: int

    def values(self, length: int, widths: Sequence[int]) -> float:
        """What a section of the length (by index) is worth over these clear widths."""
        row = self.rows[self.ends[length]]
        return float(sum(row[width + self.kerf] for width in widths))

    def strips(self, length: int, low: int, width: int) -> list[Strip]:
        """The strips that are worth the most, from `low` on."""
        at, room = self.ends[length], width + self.kerf
        chosen: list[Take] = []
        while at:
            if self.rows[at][room] > self.rows[at - 1][room]:
                chosen.append(self.takes[at - 1])
                room -= self.takes[at - 1].weight
            at -= 1
        found = []
        for take in sorted(chosen, key=lambda one: (-one.variant.width, one.variant.item)):
            one = take.variant
            for _ in range(take.many):
                found.append(Strip(one.item, one.copies, low, one.piece, one.width))
                low += one.width + self.kerf
        return found


def variants(job: Job, bed: Bed) -> tuple[Variant, ...]:
    """Every way to lay an item in a strip of a bed, from short to long."""
    found = []
    for index, item in enumerate(job.items):
        ways = {(item.length, item.width)}
        if bed.any_way:
            ways.add((item.width, item.length))
        for length, width in sorted(ways):
            found += _stacks(job, index, item, (length, width), (bed.length, bed.width))
    return tuple(sorted(found))


def _stacks(
    job: Job, index: int, item: Item, size: tuple[int, int], room: tuple[int, int]
) -> list[Variant]:
    """One copy, two end to end, and so on, as long as they fit."""
    length, width = size
    if width > room[1]:
        return []
    most = item.demand if job.stack else 1
    most = min(most, (room[0] + job.kerf) // (length + job.kerf))
    return [
        Variant(copies * (length + job.kerf) - job.kerf, width, index, copies, length)
        for copies in range(1, most + 1)
    ]


def lengths(kinds: Sequence[Variant]) -> tuple[int, ...]:
    """Every length that a section may have."""
    return tuple(sorted({one.length for one in kinds}))


def table(
    kinds: Sequence[Variant], prices: Sequence[float], left: Sequence[int], widest: int, kerf: int
) -> Table:
    """The tables at these prices of one item each, where so many of each are left to cut."""
    rows: list[Floats] = [np.zeros(widest + kerf + 1)]
    takes: list[Take] = []
    ends: list[int] = []
    for index, one in enumerate(kinds):
        for many in _powers(_most(one, prices, left, widest, kerf)):
            weight = many * (one.width + kerf)
            row = rows[-1].copy()
            np.maximum(row[weight:], rows[-1][:-weight] + many * one.copies * prices[one.item],
                       out=row[weight:])
            rows.append(row)
            takes.append(Take(one, many, weight))
        if index + 1 == len(kinds) or kinds[index + 1].length != one.length:
            ends.append(len(rows) - 1)
    return Table(tuple(rows), tuple(takes), tuple(ends), kerf)


def _most(
    one: Variant, prices: Sequence[float], left: Sequence[int], widest: int, kerf: int
) -> int:
    """How many strips of a variant can be used side by side."""
    if prices[one.item] <= 0:
        return 0
    return min(left[one.item] // one.copies, (widest + kerf) // (one.width + kerf))


def _powers(many: int) -> list[int]:
    """1, 2, 4, ... and a rest, of which any number up to `many` can be added up."""
    found = []
    step = 1
    while many > 0:
        step = min(step, many)
        found.append(step)
        many -= step
        step *= 2
    return found
