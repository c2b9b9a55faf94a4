"""How a cut shows: its figure on a surface of its part, or where a plane goes through it.

A figure is a convex polygon by its corners, in mm: no corner twice and none along a straight
side, counter-clockwise as seen with the first axis to the right and the second one up. Where a
shape meets a plane in a line or a point only, or not at all, there is no figure: no corners.

Outline: A. M. Andrew, Another Efficient Algorithm for Convex Hulls in Two Dimensions, 1979.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import product
from math import isqrt

from layout.mark import Cylinder, Hull, Spot2
from layout.part import AXES, FACE_AXES, FACE_NORMAL, Axis, Face, Part, Point

Span = tuple[Fraction, Fraction]
_FINE = 10**9
_EIGHTHS = 8


def figure_on(shape: Hull | Cylinder, part: Part, face: Face) -> tuple[Spot2, ...]:
    """The polygon in which a cut shows on one surface of its part, in the surface's (u, v), mm.

    A shape may run out beyond the part: it is cut off at the surface's plane and at the
    surface's edges. A bored hole's circle comes as `section_at` gives it; `circle_on` has the
    true one.
    """
    figure = section_at(shape, FACE_NORMAL[face][0], part.plane(face))
    for index, axis in enumerate(FACE_AXES[face]):
        figure = _kept(figure, index, Fraction(0), 1)
        figure = _kept(figure, index, part.size(axis), -1)
    return figure


def section_at(shape: Hull | Cylinder, axis: Axis, value: Fraction) -> tuple[Spot2, ...]:
    """The polygon in which a plane square to a part axis, at `value` mm, goes through a shape.

    In the two other axes, in the order L, W, T; not clipped to any part. A face of the shape
    that lies in the plane counts. Square to a bored hole it is a polygon of 32 corners, all of
    them exactly on the circle; along one it is a rectangle, its width rounded down to a
    billionth of a mm where that is a root no fraction can hold.
    """
    if isinstance(shape, Cylinder):
        return _bored(shape, axis, value)
    return _outline(_in_plane(shape.points, AXES.index(axis), value))


def circle_on(shape: Cylinder, part: Part, face: Face) -> tuple[Spot2, Fraction] | None:
    """Centre in the surface's (u, v) and radius (mm) where a bored hole comes out on a surface.

    None where the hole is not square to the surface, ends before it or lies wholly beside it.
    A circle that runs out over the surface's edge is given whole.
    """
    axis = FACE_NORMAL[face][0]
    low, high = shape.reach(axis)
    if axis != shape.axis or not low <= part.plane(face) <= high:
        return None
    # the spot of the surface nearest to the centre: is it inside the circle?
    away = Fraction(0)
    for middle, along in zip(shape.centre, FACE_AXES[face], strict=True):
        away += (middle - min(max(middle, Fraction(0)), part.size(along))) ** 2
    return (shape.centre, shape.radius) if away < shape.radius**2 else None


def _in_plane(points: Sequence[Point], index: int, value: Fraction) -> list[Spot2]:
    """Where a hull's corners and edges meet a plane, and the lines inside it too: these do no
    harm, since they meet it inside the outline.
    """
    one, other = (i for i in range(3) if i != index)
    found = [(p[one], p[other]) for p in points if p[index] == value]
    below = [p for p in points if p[index] < value]
    above = [p for p in points if p[index] > value]
    for a, b in product(below, above):
        share = (value - a[index]) / (b[index] - a[index])
        found.append((a[one] + (b[one] - a[one]) * share, a[other] + (b[other] - a[other]) * share))
    return found


def _bored(hole: Cylinder, axis: Axis, value: Fraction) -> tuple[Spot2, ...]:
    """A bored hole's section, as `section_at` describes it."""
    if axis == hole.axis:
        low, high = hole.reach(axis)
        return _outline(_on_circle(hole.centre, hole.radius)) if low <= value <= high else ()
    others: list[Axis] = [a for a in AXES if a != hole.axis]
    middle = dict(zip(others, hole.centre, strict=True))
    square = hole.radius**2 - (value - middle[axis]) ** 2
    if square <= 0:
        return ()
    half = _root(square)
    spans: list[Span] = [
        hole.reach(a) if a == hole.axis else (middle[a] - half, middle[a] + half)
        for a in AXES
        if a != axis
    ]
    return _outline(product(*spans))


def _on_circle(centre: Spot2, radius: Fraction) -> list[Spot2]:
    """Spots round a circle with exact coordinates, by the tangent of half the angle.

    Eighths of the tangent put them 7 to 14 degrees apart: the polygon stays within a hundredth
    of the radius of its circle.
    """
    u, v = centre
    found = []
    for eighth in range(_EIGHTHS):
        tangent = Fraction(eighth, _EIGHTHS)
        cosine = (1 - tangent**2) / (1 + tangent**2) * radius
        sine = 2 * tangent / (1 + tangent**2) * radius
        found += [(u + cosine, v + sine), (u - sine, v + cosine)]
        found += [(u - cosine, v - sine), (u + sine, v - cosine)]
    return found


def _root(square: Fraction) -> Fraction:
    """The square root, exact where it is a fraction, else rounded down to a billionth."""
    numerator, denominator = square.numerator, square.denominator
    return Fraction(isqrt(numerator * denominator * _FINE**2), denominator * _FINE)


def _outline(spots: Iterable[tuple[Fraction, ...]]) -> tuple[Spot2, ...]:
    """The corners of the convex hull of spots in a plane; none where it has no area."""
    ordered = sorted({(u, v) for u, v in spots})
    lower = _chain(ordered)
    upper = _chain(ordered[::-1])
    corners = (*lower[:-1], *upper[:-1])
    return corners if len(corners) > 2 else ()


def _chain(ordered: Sequence[Spot2]) -> list[Spot2]:
    """The half of the outline that keeps all the spots on its left."""
    chain: list[Spot2] = []
    for spot in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], spot) <= 0:
            chain.pop()
        chain.append(spot)
    return chain


def _turn(a: Spot2, b: Spot2, c: Spot2) -> Fraction:
    """Above zero where the way from a over b to c turns left, zero where it goes straight."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _kept(corners: tuple[Spot2, ...], index: int, limit: Fraction, sign: int) -> tuple[Spot2, ...]:
    """What of a figure lies on one side of a limit: above it for +1, below it for -1."""
    if all((spot[index] - limit) * sign >= 0 for spot in corners):
        return corners
    found: list[Spot2] = []
    for a, b in zip(corners, (*corners[1:], *corners[:1]), strict=True):
        if (a[index] - limit) * sign >= 0:
            found.append(a)
        if (a[index] - limit) * (b[index] - limit) < 0:
            share = (limit - a[index]) / (b[index] - a[index])
            found.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return _outline(found)
