"""Bored holes: where they stand, what of a body lies beside one, and their distance across.

All lengths are exact Fractions of a millimetre.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from layout.part import Point
from layout.solid.convex import Body, Box, Plane, Span, clip
from layout.solid.gap import root_below
from layout.solid.hull import Whole, flat_hull, whole

Spot2 = tuple[Fraction, Fraction]

ZERO = Fraction(0)
# The many-sided outline round a disc stands off it by 0.2 % of the radius at most.
_SIDES_PER_QUARTER = 16


class Round(NamedTuple):
    """A bored hole along axis 0, 1 or 2, in mm.

    `centre` is given in the two other axes, in order; `start` and `end` in either order. The
    radius is above 0.
    """

    axis: int
    centre: Spot2
    radius: Fraction
    start: Fraction
    end: Fraction

    @property
    def along(self) -> Span:
        """Where it starts and ends, low before high."""
        return min(self.start, self.end), max(self.start, self.end)

    @property
    def spans(self) -> Box:
        """Least and greatest coordinate along each of the three axes."""
        found = [(middle - self.radius, middle + self.radius) for middle in self.centre]
        found.insert(self.axis, self.along)
        return (found[0], found[1], found[2])

    def middle(self, axis: int) -> Fraction:
        """Where its own axis stands along one of the two other axes."""
        return self.centre[axis if axis < self.axis else axis - 1]

    def past(self, other: Round) -> Fraction:
        """How far its own axis passes by the nearer end of a hole square to it; 0 for no end."""
        low, high = other.along
        return max(low - self.middle(other.axis), self.middle(other.axis) - high, ZERO)


def beside(hole: Round, other: Body) -> Body | None:
    """The part of a body within the hole's reach along its axis; None where there is none."""
    low, high = hole.along
    above = clip(other, plane_across(hole.axis, -1, low))
    return clip(above, plane_across(hole.axis, 1, high)) if above is not None else None


def plane_across(axis: int, sense: int, value: Fraction) -> Plane:
    """The plane square to an axis with its inner side below (sense 1) or above (-1) a value."""
    normal = [ZERO, ZERO, ZERO]
    normal[axis] = Fraction(sense)
    return Plane((normal[0], normal[1], normal[2]), sense * value)


def across(hole: Round, other: Body) -> Fraction:
    """The distance across the hole's axis from its wall to a body's shadow along it."""
    return max(root_below(shadow_squared(hole, other)) - hole.radius, ZERO)


def shadow_squared(hole: Round, other: Body) -> Fraction:
    """The square of the distance from the hole's centre to a body's shadow along its axis."""
    points = [(ZERO, *hole.centre), *((ZERO, *_flat(hole, spot)) for spot in other.corners)]
    spots, scale = whole(points)
    over, under = _to_polygon(spots[0], flat_hull((y, z) for _, y, z in spots[1:]))
    return Fraction(over, under * scale * scale)


def _to_polygon(spot: Whole, corners: Sequence[tuple[int, int]]) -> tuple[int, int]:
    """The square of a distance in the plane, as a ratio; 0 inside. Corners counter-clockwise."""
    _, x, y = spot
    inside = True
    best = (0, 0)
    for (ax, ay), (bx, by) in zip(corners, (*corners[1:], corners[0]), strict=True):
        u, v, p, q = bx - ax, by - ay, x - ax, y - ay
        area, foot, length = u * q - v * p, u * p + v * q, u * u + v * v
        inside = inside and area >= 0
        if foot < 0:
            found = (p * p + q * q, 1)
        elif foot > length:
            found = ((x - bx) ** 2 + (y - by) ** 2, 1)
        else:
            found = (area * area, length)
        if best[1] == 0 or found[0] * best[1] < best[0] * found[1]:
            best = found
    return (0, 1) if inside else best


def _flat(hole: Round, spot: Point) -> Spot2:
    one, two = (spot[axis] for axis in range(3) if axis != hole.axis)
    return (one, two)


def outline(hole: Round, at: Fraction) -> list[Point]:
    """The corners of a many-sided outline just outside the hole's rim, at one of its ends."""
    found = []
    for u, v in _ring():
        spot = [hole.centre[0] + hole.radius * u, hole.centre[1] + hole.radius * v]
        spot.insert(hole.axis, at)
        found.append((spot[0], spot[1], spot[2]))
    return found


@lru_cache(maxsize=1)
def _ring() -> tuple[Spot2, ...]:
    """The corners where neighbouring tangents of the unit circle cross, in order round it.

    The tangents touch at ((1 - t^2) / (1 + t^2), 2t / (1 + t^2)), so all corners are rational.
    """
    steps = [Fraction(step, _SIDES_PER_QUARTER) for step in range(_SIDES_PER_QUARTER + 1)]
    quarter = [((1 - s * t) / (1 + s * t), (s + t) / (1 + s * t)) for s, t in pairwise(steps)]
    ring = list(quarter)
    for _ in range(3):
        quarter = [(-v, u) for u, v in quarter]
        ring += quarter
    return tuple(ring)
