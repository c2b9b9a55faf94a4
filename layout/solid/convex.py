"""Convex bodies, exact: hulls of points, cut by planes; what two share and what is left of one.

All lengths are exact Fractions of a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise, product
from math import lcm
from typing import NamedTuple

from layout.part import Point
from layout.solid.hull import Whole, cross, dot, hull_faces, minus, whole

Span = tuple[Fraction, Fraction]
Box = tuple[Span, Span, Span]

ZERO, ONE = Fraction(0), Fraction(1)

# The corners of a block in the order of itertools.product, around each of its faces as seen
# from outside.
_BLOCK_LOOPS = (
    (0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3),
)  # fmt: skip
_BLOCK_NORMALS: tuple[Point, ...] = (
    (-ONE, ZERO, ZERO), (ONE, ZERO, ZERO), (ZERO, -ONE, ZERO), (ZERO, ONE, ZERO),
    (ZERO, ZERO, -ONE), (ZERO, ZERO, ONE),
)  # fmt: skip


class Plane(NamedTuple):
    """A plane with its inner side: the points where normal . point <= offset.

    The normal points outward and may have any length.
    """

    normal: Point
    offset: Fraction

    def height(self, point: Point) -> Fraction:
        """How far outside a point is, in mm times the normal's length; negative inside."""
        (a, b, c), (x, y, z) = self.normal, point
        return a * x + b * y + c * z - self.offset

    def turned(self) -> Plane:
        """The same plane with its inner side turned outward."""
        a, b, c = self.normal
        return Plane((-a, -b, -c), -self.offset)


class Body(NamedTuple):
    """A convex body with volume.

    `planes` and `loops` go in pairs: the corners on a plane, as places in `corners`, in order
    round the face, counter-clockwise as seen from outside. `spans` is the reach along the three
    axes in mm. `square` is set for a block with its faces square to the axes.
    """

    corners: tuple[Point, ...]
    planes: tuple[Plane, ...]
    loops: tuple[tuple[int, ...], ...]
    spans: Box
    square: bool

    @property
    def faces(self) -> tuple[tuple[Point, ...], ...]:
        """The corners round each face, counter-clockwise as seen from outside."""
        return tuple(tuple(self.corners[place] for place in loop) for loop in self.loops)


def block(spans: Box) -> Body:
    """A square-cornered body from its reach along the three axes, low before high, in mm.

    Raises ValueError where a reach is empty.
    """
    (x0, x1), (y0, y1), (z0, z1) = spans
    if x0 >= x1 or y0 >= y1 or z0 >= z1:
        raise ValueError("a block needs a length, a width and a thickness above nothing")
    offsets = (-x0, x1, -y0, y1, -z0, z1)
    planes = tuple(map(Plane, _BLOCK_NORMALS, offsets))
    return Body(tuple(product(*spans)), planes, _BLOCK_LOOPS, spans, True)


def body(points: Iterable[Point]) -> Body:
    """The convex hull of four or more points, in mm.

    Points given twice, inside, or on a face or an edge do no harm. Raises ValueError where the
    points hold no volume.
    """
    given = tuple(points)
    # pairs of whole numbers hash several times faster than Fractions
    ratios = {tuple(value.as_integer_ratio() for value in point): point for point in given}
    if len(ratios) == 8 and all(len({ratio[axis] for ratio in ratios}) == 2 for axis in range(3)):
        return block(_reach(given))
    return _hull(tuple(ratios.values()))


@lru_cache(maxsize=4096)  # a piece asks for the same cut in several checks
def _hull(points: tuple[Point, ...]) -> Body:
    planes, loops = [], []
    for normal, loop in hull_faces(whole(points)[0]):
        outward = (Fraction(normal[0]), Fraction(normal[1]), Fraction(normal[2]))
        planes.append(Plane(outward, Plane(outward, ZERO).height(points[loop[0]])))
        loops.append(loop)
    return _tidy(points, planes, loops)


def clip(one: Body, plane: Plane) -> Body | None:
    """The part of a body on the plane's inner side; None where it has no volume."""
    if one.square and plane.normal.count(ZERO) == 2:
        return _clip_block(one, plane)
    spots, scale = whole(one.corners)
    many = lcm(*(value.denominator for value in (*plane.normal, plane.offset)))
    normal = whole_normal(plane, many)
    offset = int(plane.offset * many) * scale
    heights = [dot(normal, spot) - offset for spot in spots]
    if max(heights) <= 0:
        return one
    if min(heights) >= 0:
        return None
    corners = list(one.corners)
    crossings: dict[tuple[int, int], int] = {}

    def crossing(inner: int, outer: int) -> int:
        if (inner, outer) not in crossings:
            low, high = heights[inner], heights[outer]
            under = (high - low) * scale
            pairs = zip(spots[inner], spots[outer], strict=True)
            x, y, z = (Fraction(a * high - b * low, under) for a, b in pairs)
            crossings[inner, outer] = len(corners)
            corners.append((x, y, z))
            heights.append(0)
        return crossings[inner, outer]

    planes, loops = [], []
    # the new face has one edge with each face that was cut, walked the other way round
    onward: dict[int, int] = {}
    for face, loop in zip(one.planes, one.loops, strict=True):
        if all(heights[place] >= 0 for place in loop):
            continue
        kept: list[int] = []
        for here, after in _edges(loop):
            if heights[here] <= 0:
                kept.append(here)
            if heights[here] < 0 < heights[after]:
                kept.append(crossing(here, after))
            elif heights[after] < 0 < heights[here]:
                kept.append(crossing(after, here))
        onward.update({b: a for a, b in _edges(kept) if heights[a] == 0 == heights[b]})
        planes.append(face)
        loops.append(tuple(kept))
    cap = [next(iter(onward))]
    while onward[cap[-1]] != cap[0]:
        cap.append(onward[cap[-1]])
    return _tidy(corners, [*planes, plane], [*loops, tuple(cap)])


def _clip_block(one: Body, plane: Plane) -> Body | None:
    axis = next(index for index in range(3) if plane.normal[index])
    at = plane.offset / plane.normal[axis]
    low, high = one.spans[axis]
    span = (low, min(high, at)) if plane.normal[axis] > 0 else (max(low, at), high)
    if span[0] >= span[1]:
        return None
    if span == (low, high):
        return one
    x, y, z = (span if index == axis else one.spans[index] for index in range(3))
    return block((x, y, z))


def common(one: Body, other: Body) -> Body | None:
    """The volume that two bodies share; None where they only touch or are apart."""
    if not overlap(one.spans, other.spans):
        return None
    if one.square and other.square:
        x, y, z = (
            (max(a, c), min(b, d)) for (a, b), (c, d) in zip(one.spans, other.spans, strict=True)
        )
        return block((x, y, z))
    left: Body | None = one
    for plane in other.planes:
        if left is None:
            break
        left = clip(left, plane)
    return left


def less(one: Body, other: Body) -> tuple[Body, ...]:
    """`one` without `other`, as convex bodies that share no volume with each other.

    () where nothing is left, `one` itself where the two share no volume.
    """
    if not overlap(one.spans, other.spans):
        return (one,)
    if one.square and other.square:
        return _less_block(one.spans, other.spans)
    pieces = []
    rest = one
    for plane in other.planes:
        inside = clip(rest, plane)
        if inside is None:
            return (one,)
        if inside is not rest:
            outside = clip(rest, plane.turned())
            assert outside is not None
            pieces.append(outside)
        rest = inside
    return tuple(pieces)


def _less_block(one: Box, other: Box) -> tuple[Body, ...]:
    """What is left of a block without another that it overlaps: a slice off each of its sides."""
    pieces = []
    rest = list(one)

    def cut_off(axis: int, span: Span) -> None:
        x, y, z = (span if index == axis else rest[index] for index in range(3))
        pieces.append(block((x, y, z)))

    for axis, (start, stop) in enumerate(other):
        low, high = rest[axis]
        if low < start:
            cut_off(axis, (low, start))
            low = start
        if stop < high:
            cut_off(axis, (stop, high))
            high = stop
        rest[axis] = (low, high)
    return tuple(pieces)


def volume(one: Body) -> Fraction:
    """Volume in cubic mm."""
    if one.square:
        (x0, x1), (y0, y1), (z0, z1) = one.spans
        return (x1 - x0) * (y1 - y0) * (z1 - z0)
    spots, scale = whole(one.corners)
    six_times = 0
    for first, *others in one.loops:
        a = minus(spots[first], spots[0])
        for here, after in pairwise(others):
            b, c = minus(spots[here], spots[0]), minus(spots[after], spots[0])
            six_times += dot(a, cross(b, c))
    return Fraction(six_times, 6 * scale**3)


def reach(one: Body) -> Box:
    """Least and greatest coordinate along each of the three axes, in mm."""
    return one.spans


def overlap(one: Box, other: Box) -> bool:
    """True where two boxes share volume; touching is not sharing."""
    return all(a[0] < b[1] and b[0] < a[1] for a, b in zip(one, other, strict=True))


def whole_normal(plane: Plane, many: int) -> Whole:
    """A plane's normal times `many`, which must make it whole."""
    a, b, c = plane.normal
    return (int(a * many), int(b * many), int(c * many))


def _reach(points: Sequence[Point]) -> Box:
    spots, scale = whole(points)
    x, y, z = (
        (Fraction(min(values), scale), Fraction(max(values), scale))
        for values in zip(*spots, strict=True)
    )
    return (x, y, z)


def _edges(loop: Sequence[int]) -> list[tuple[int, int]]:
    return list(zip(loop, (*loop[1:], loop[0]), strict=True))


def _tidy(corners: Sequence[Point], planes: list[Plane], loops: list[tuple[int, ...]]) -> Body:
    """A body from its faces, without the points that are no corners."""
    used = sorted({place for loop in loops for place in loop})
    places = {old: new for new, old in enumerate(used)}
    kept = tuple(corners[place] for place in used)
    if len(planes) == 6 and all(plane.normal.count(ZERO) == 2 for plane in planes):
        return block(_reach(kept))
    renamed = tuple(tuple(places[place] for place in loop) for loop in loops)
    return Body(kept, tuple(planes), renamed, _reach(kept), False)
