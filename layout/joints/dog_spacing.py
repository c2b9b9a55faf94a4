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
from math import lcm
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


def most_even(wanted: Wanted, blocked: Sequence[Span]) -> tuple[Fraction, ...] | None:
    """The most even row that misses what is blocked, of as many holes as that takes; None where
    there is none. It goes as far as an even row does: beyond its last hole there is less than a
    pitch to the place that the last one may have.
    """
    steps = int((wanted.limit - wanted.first) // wanted.step)
    if wanted.first > wanted.limit:
        return None
    free = [is_free(wanted.first + at * wanted.step, blocked) for at in range(steps + 1)]
    if not free[0]:
        return None
    scale = lcm(wanted.step.denominator, wanted.pitch.denominator)
    step, pitch = int(wanted.step * scale), int(wanted.pitch * scale)
    offs = {
        gap: abs(gap * step - pitch)
        for gap in range(1, int(wanted.most // wanted.step) + 1)
        if wanted.least <= gap * wanted.step
    }
    end = max(int((wanted.limit - wanted.pitch - wanted.first) // wanted.step) + 1, 0)
    worst = _least_worst(free, end, offs)
    if worst is None:
        return None
    near = {gap: off * off for gap, off in offs.items() if off <= worst}
    return tuple(wanted.first + at * wanted.step for at in _least_squares(free, end, near))


def _least_worst(free: list[bool], end: int, offs: dict[int, int]) -> int | None:
    """The least that the greatest difference of a row can be; None where there is no row.

    From the far end back: what the holes after each place cost at the least. From `end` on there
    need be no more.
    """
    ahead: dict[int, int] = {}
    for at in reversed([at for at, may in enumerate(free) if may]):
        if at >= end:
            ahead[at] = 0
            continue
        ways = [max(off, ahead[at + gap]) for gap, off in offs.items() if at + gap in ahead]
        if ways:
            ahead[at] = min(ways)
    return ahead.get(0)


def _least_squares(free: list[bool], end: int, squares: dict[int, int]) -> list[int]:
    """Of the rows with these gaps, of which there is one, that with the least sum of squares; of
    several the first. By steps from the first hole.
    """
    ahead: dict[int, int] = {}
    taken: dict[int, int] = {}
    for at in reversed([at for at, may in enumerate(free) if may]):
        if at >= end:
            ahead[at] = 0
            continue
        ways = [(ahead[at + gap] + off, gap) for gap, off in squares.items() if at + gap in ahead]
        if ways:
            ahead[at], taken[at] = min(ways)
    row = [0]
    while row[-1] in taken:
        row.append(row[-1] + taken[row[-1]])
    return row


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
