"""Hatching at 45 degrees, clipped exactly to what it fills.

The lines lie on one grid of the whole sheet (x - y a whole number of steps), so that two regions
side by side are hatched as one.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from layout.scene.strokes import Line, Pen, Spot

PITCH = Fraction(2)
# The step along x between lines that stand one mm apart: the square root of two. It only sets
# how close the lines stand, so nine digits of it do.
_STEP = Fraction(1_414_213_562, 1_000_000_000)


def hatch_polygon(
    corners: Sequence[Spot], pitch: Fraction = PITCH, mark: str = ""
) -> tuple[Line, ...]:
    """Hatch lines of a convex polygon, given by its corners in order either way round, in mm.

    `pitch` is the distance between the lines, square to them, in mm. Fewer than three corners
    enclose nothing and get no lines; a polygon with a hollow corner is not checked for.
    """
    if len(corners) < 3:
        return ()
    step = pitch * _STEP
    offsets = [x - y for x, y in corners]
    lines = []
    first = -(-min(offsets) // step)
    last = max(offsets) // step
    for number in range(int(first), int(last) + 1):
        line = number * step
        ends = _crossings(corners, [offset - line for offset in offsets])
        if len(ends) == 2:
            lines.append(Line(ends[0], ends[1], Pen.HATCH, mark))
    return tuple(lines)


hatch = hatch_polygon  # the shorter name it had first, still in use


def hatch_rectangle(
    low: Spot, high: Spot, pitch: Fraction = PITCH, mark: str = ""
) -> tuple[Line, ...]:
    """Hatch lines of an upright rectangle, given by two opposite corners, in mm."""
    (x0, y0), (x1, y1) = low, high
    return hatch_polygon(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), pitch, mark)


def _crossings(corners: Sequence[Spot], beyond: Sequence[Fraction]) -> list[Spot]:
    """Where a hatch line enters and leaves the polygon: two spots, or none.

    `beyond` says how far each corner lies beyond the line, as x - y. A line that only touches a
    corner gives one spot, which hatches nothing.
    """
    found: set[Spot] = set()
    # the sign of a Fraction is that of its numerator, which is quick to ask
    sides = [one.numerator for one in beyond]
    for here, a in enumerate(corners):
        if sides[here] == 0:
            found.add(a)
        if sides[here - 1] < 0 < sides[here] or sides[here] < 0 < sides[here - 1]:
            b = corners[here - 1]
            share = beyond[here] / (beyond[here] - beyond[here - 1])
            found.add((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    # a whole edge may lie on the line, its spots then being the two ends
    ordered = sorted(found)
    return [ordered[0], ordered[-1]] if len(ordered) > 1 else ordered
