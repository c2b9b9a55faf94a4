"""Where the dog holes of a row stand: evenly, or, round what they must miss, as evenly as can be.

"As evenly as can be" has a stated measure: the greatest difference of any gap from the pitch is as
small as it can be; of all such rows, the sum of the squares of the differences is as small as it
can be; of those, the first. The search tries every place on a grid and so finds the best there is
(tests hold it against trying every row). Nothing here knows of boards.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

Span = tuple[Fraction, Fraction]
ZERO = Fraction(0)


class Wanted(NamedTuple):
    """A row as it is asked for, in mm from the vise's end: the first hole, the pitch, the least and
    the greatest gap, how far the last hole may stand; the grid that holes stand on, from the first
    one on.
    """

    first: Fraction
    pitch: Fraction
    least: Fraction
    most: Fraction
    limit: Fraction
    step: Fraction


def even(wanted: Wanted) -> tuple[Fraction, ...]:
    """Holes at the pitch as far as they may stand; none where not even the first may."""
    many = (wanted.limit - wanted.first) // wanted.pitch + 1
    return tuple(wanted.first + wanted.pitch * number for number in range(max(many, 0)))


def is_free(place: Fraction, blocked: Sequence[Span]) -> bool:
    """True where a hole may stand: in none of these stretches, at their ends still."""
    return not any(low < place < high for low, high in blocked)


def differences(places: Sequence[Fraction], pitch: Fraction) -> tuple[Fraction, Fraction]:
    """How uneven a row is: the greatest difference from the pitch, and the sum of their squares."""
    off = [abs(after - before - pitch) for before, after in pairwise(places)]
    return max(off, default=ZERO), sum((one * one for one in off), ZERO)


def most_even(
    wanted: Wanted, many: int, blocked: Sequence[Span]
) -> tuple[Fraction, ...] | None:
    """The most even row of this many holes that misses what is blocked; None where there is none.
    """
    if many < 1 or not is_free(wanted.first, blocked) or wanted.first > wanted.limit:
        return None
    free = _free_steps(wanted, blocked)
    widest = [
        gap for gap in range(1, int(wanted.most // wanted.step) + 1)
        if wanted.least <= gap * wanted.step
    ]
    offs = sorted({abs(gap * wanted.step - wanted.pitch) for gap in widest})
    low, high = 0, len(offs) - 1
    if many > 1 and (not offs or not _reached(_gaps(wanted, widest, offs[-1]), many, free)[-1]):
        return None
    while low < high:  # the least difference that still lets a row through
        middle = (low + high) // 2
        if _reached(_gaps(wanted, widest, offs[middle]), many, free)[-1]:
            high = middle
        else:
            low = middle + 1
    gaps = _gaps(wanted, widest, offs[low]) if offs else []
    return _least_squares(wanted, gaps, many, free)


def _free_steps(wanted: Wanted, blocked: Sequence[Span]) -> int:
    """The grid as the bits of a number: 1 where a hole may stand."""
    steps = int((wanted.limit - wanted.first) // wanted.step)
    return sum(
        1 << at for at in range(steps + 1)
        if is_free(wanted.first + at * wanted.step, blocked)
    )


def _gaps(wanted: Wanted, widest: list[int], off: Fraction) -> list[int]:
    """The gaps, in steps, that differ from the pitch by no more than `off`."""
    return [gap for gap in widest if abs(gap * wanted.step - wanted.pitch) <= off]


def _reached(gaps: list[int], many: int, free: int) -> list[int]:
    """For each hole the places that it can have, as bits."""
    found = [1]
    for _ in range(many - 1):
        after = 0
        for gap in gaps:
            after |= found[-1] << gap
        found.append(after & free)
    return found


def _least_squares(
    wanted: Wanted, gaps: list[int], many: int, free: int
) -> tuple[Fraction, ...]:
    """Of the rows with these gaps the one with the least sum of squares, the first of several."""
    cost = {gap: (gap * wanted.step - wanted.pitch) ** 2 for gap in gaps}
    best: dict[int, tuple[Fraction, tuple[int, ...]]] = {0: (ZERO, (0,))}
    for _ in range(many - 1):
        after: dict[int, tuple[Fraction, tuple[int, ...]]] = {}
        for at, (squares, row) in best.items():
            for gap in gaps:
                there = at + gap
                if not free >> there & 1:
                    continue
                way = (squares + cost[gap], (*row, there))
                if there not in after or way < after[there]:
                    after[there] = way
        best = after
    _, row = min(best.values())
    return tuple(wanted.first + at * wanted.step for at in row)


# -- what a row holds


def held(places: Sequence[Fraction], near: Fraction, opening: Fraction) -> list[Span]:
    """The lengths of work that a row holds between its dogs and the vise's, in mm: stretches from
    short to long. `near` is from a hole's place to the vise's dog when the vise is closed, less the
    place itself (negative where the dog's face stands before its middle); the vise opens by
    `opening`.
    """
    found: list[Span] = []
    for place in places:
        span = (max(place + near, ZERO), place + near + opening)
        if span[1] <= 0:
            continue
        if found and span[0] <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], span[1]))
        else:
            found.append(span)
    return found
