"""Which of many boxes are close to each other, without trying every two.

All lengths are exact Fractions of a millimetre, multiplied by a common denominator first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import combinations, product
from math import lcm
from typing import NamedTuple

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]
# low and high along X, Y and Z, then the box's place in the list
Row = tuple[int, int, int, int, int, int, int]

_HANDFUL = 6


class _Group(NamedTuple):
    """Boxes that lie together: around them all, and either two halves or a handful of boxes."""

    around: Row
    halves: tuple[_Group, _Group] | None
    rows: list[Row]


def close_pairs(boxes: Sequence[Box], within: Fraction) -> Iterator[tuple[int, int]]:
    """Every i < j whose boxes have a gap less than `within` along every axis, in mm.

    Boxes that overlap or touch are close. Two boxes that are not given have a distance of
    `within` at least. The order is the same at every run, but not sorted. Raises ValueError
    where `within` is not above 0.
    """
    if within <= 0:
        raise ValueError("`within` must be above 0")
    if len(boxes) < 2:
        return
    rows, far = _rows(boxes, within)
    todo = [(top := _grouped(rows), top)]
    while todo:
        one, other = todo.pop()
        if one is other:
            if one.halves is None:
                yield from _close(combinations(one.rows, 2), far)
            else:
                first, second = one.halves
                todo += [(first, first), (second, second), (first, second)]
        elif not _are_close(one.around, other.around, far):
            continue
        elif one.halves is None and other.halves is None:
            yield from _close(product(one.rows, other.rows), far)
        elif other.halves is None or (
            one.halves is not None and _size(one.around) >= _size(other.around)
        ):
            assert one.halves is not None
            todo += [(half, other) for half in one.halves]
        else:
            todo += [(one, half) for half in other.halves]


def thinnest(
    boxes: Sequence[Box],
    owners: Sequence[object],
    apart: Callable[[int, int], Fraction],
    start: Fraction,
) -> tuple[int, int] | None:
    """The two volumes of different owners that are least apart; None where all have one owner.

    `apart` gives the distance between two volumes by their places, in mm, 0 at least; `boxes`
    lie around the volumes, so no distance is less than the boxes' own. Tries within `start` mm
    (above 0), and twice as far each time that nothing is found: a distance below what was tried
    can't be missed. Of two pairs equally far apart, the one that comes first in the list.
    """
    if len(set(owners)) < 2:
        return None
    known: dict[tuple[int, int], Fraction] = {}
    within = start
    while True:
        for pair in close_pairs(boxes, within):
            if pair not in known and owners[pair[0]] != owners[pair[1]]:
                known[pair] = apart(*pair)
        if known:
            least = min(known.values())
            if least < within:
                return min(pair for pair, distance in known.items() if distance == least)
        within *= 2


def _rows(boxes: Sequence[Box], within: Fraction) -> tuple[list[Row], int]:
    """The boxes in whole numbers, and `within` in the same measure."""
    ratios = [
        (*x0.as_integer_ratio(), *x1.as_integer_ratio(), *y0.as_integer_ratio(),
         *y1.as_integer_ratio(), *z0.as_integer_ratio(), *z1.as_integer_ratio())
        for (x0, x1), (y0, y1), (z0, z1) in boxes
    ]  # fmt: skip
    scale = lcm(within.denominator, *{under for ratio in ratios for under in ratio[1::2]})
    many = {under: scale // under for ratio in ratios for under in ratio[1::2]}
    rows = [
        (a * many[b], c * many[d], e * many[f], g * many[h], i * many[j], k * many[m], place)
        for place, (a, b, c, d, e, f, g, h, i, j, k, m) in enumerate(ratios)
    ]
    return rows, int(within * scale)


def _grouped(rows: list[Row]) -> _Group:
    """Boxes in halves of halves.

    Halved by whichever end of the boxes lies most scattered: so grooves as long as the board
    come together in groups of their own, and do not make the groups of small cuts long.
    """
    columns = list(zip(*rows, strict=True))
    low = [min(column) for column in columns]
    high = [max(column) for column in columns]
    around = (low[0], high[1], low[2], high[3], low[4], high[5], -1)
    widest = max(range(6), key=lambda index: high[index] - low[index])
    if len(rows) <= _HANDFUL or low[widest] == high[widest]:
        return _Group(around, None, rows)
    rows.sort(key=lambda row: row[widest])
    middle = len(rows) // 2
    return _Group(around, (_grouped(rows[:middle]), _grouped(rows[middle:])), rows)


def _size(around: Row) -> int:
    return max(around[1] - around[0], around[3] - around[2], around[5] - around[4])


def _are_close(one: Row, other: Row, far: int) -> bool:
    return (
        one[0] - other[1] < far
        and other[0] - one[1] < far
        and one[2] - other[3] < far
        and other[2] - one[3] < far
        and one[4] - other[5] < far
        and other[4] - one[5] < far
    )


def _close(pairs: Iterator[tuple[Row, Row]], far: int) -> Iterator[tuple[int, int]]:
    for one, other in pairs:
        if _are_close(one, other, far):
            i, j = one[6], other[6]
            yield (i, j) if i < j else (j, i)
