"""Hulls of points in whole numbers: the ground that exact convex bodies stand on.

Points in Fractions of a millimetre are multiplied by a common denominator first: sums of whole
numbers are many times faster than sums of Fractions, and as exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import gcd, lcm

from layout.part import Point

Whole = tuple[int, int, int]


def whole(points: Sequence[Point]) -> tuple[list[Whole], int]:
    """The points in whole numbers, and what they were multiplied by."""
    ratios = [[value.as_integer_ratio() for value in point] for point in points]
    scale = lcm(*{under for point in ratios for _, under in point})
    spots = [tuple(over * (scale // under) for over, under in point) for point in ratios]
    return [(x, y, z) for x, y, z in spots], scale


def dot(a: Whole, b: Whole) -> int:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Whole, b: Whole) -> Whole:
    """The vector product: square to both."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def minus(a: Whole, b: Whole) -> Whole:
    """From b to a."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def hull_faces(spots: Sequence[Whole]) -> list[tuple[Whole, tuple[int, ...]]]:
    """Each face of a hull: its shortest whole outward normal, and the places of its corners.

    Tries the plane through every three points: for the few corners of a cut this is quick, and
    extra points on a face need no special care.
    """
    found: list[tuple[Whole, tuple[int, ...]]] = []
    known: list[set[int]] = []
    for places in combinations(range(len(spots)), 3):
        if any(face.issuperset(places) for face in known):
            continue
        a, b, c = (spots[place] for place in places)
        normal = cross(minus(b, a), minus(c, a))
        if normal == (0, 0, 0):
            continue
        level = dot(normal, a)
        on: list[int] = []
        side = 0
        for place, spot in enumerate(spots):
            height = dot(normal, spot) - level
            if height == 0:
                on.append(place)
            elif side * height < 0:
                break
            else:
                side = 1 if height > 0 else -1
        else:
            if side == 0:
                break  # all points in one plane
            known.append(set(on))
            found.append(_outward(normal, side, on, spots))
    if not found:
        raise ValueError("these points hold no volume: they lie in one plane")
    return found


def _outward(
    normal: Whole, side: int, on: list[int], spots: Sequence[Whole]
) -> tuple[Whole, tuple[int, ...]]:
    """A face's shortest outward normal, where the body lies on `side`, and its corners in order."""
    short = gcd(*normal) * -side
    outward = (normal[0] // short, normal[1] // short, normal[2] // short)
    # seen along the axis nearest to the normal, no two points of the face fall together
    axis = max(range(3), key=lambda index: abs(outward[index]))
    one, two = (axis + 1) % 3, (axis + 2) % 3
    places = {(spots[place][one], spots[place][two]): place for place in on}
    loop = [places[spot] for spot in flat_hull(places)]
    return outward, tuple(loop if outward[axis] > 0 else loop[::-1])


def flat_hull(spots: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The corners of the convex hull of points in a plane, counter-clockwise.

    A. M. Andrew, Another Efficient Algorithm for Convex Hulls in Two Dimensions, 1979.
    """
    ordered = sorted(set(spots))
    sides = []
    for row in (ordered, ordered[::-1]):
        kept: list[tuple[int, int]] = []
        for x, y in row:
            while len(kept) > 1:
                (ax, ay), (bx, by) = kept[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                    break
                kept.pop()
            kept.append((x, y))
        sides.append(kept[:-1])
    return sides[0] + sides[1]
