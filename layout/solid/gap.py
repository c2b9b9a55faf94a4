"""How far apart two convex bodies are, exactly: the least distance between their corners, edges
and faces.

All lengths are exact Fractions of a millimetre; both bodies are brought to one common
denominator, and all sums are of whole numbers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import gcd, isqrt
from typing import NamedTuple

from layout.part import Point
from layout.solid.convex import Body, Box, overlap
from layout.solid.hull import Whole, cross, dot, minus, whole

Ratio = tuple[int, int]

_FINE = 10**12


class _Frame(NamedTuple):
    """Corners, edges and faces in whole numbers; a face is its outward normal and its corners."""

    corners: Sequence[Whole]
    edges: Sequence[tuple[Whole, Whole]]
    faces: Sequence[tuple[Whole, Sequence[Whole]]]


def apart_squared(one: Body, other: Body) -> Fraction:
    """The square of the least distance between two bodies, in square mm, exact.

    0 where they touch or overlap.
    """
    if one.square and other.square:
        return boxes_apart_squared(one.spans, other.spans)
    a, b, scale = _frames(one.corners, one.loops, other.corners, other.loops)
    if _share_volume(a, b):
        return Fraction(0)
    return _least(a, b, scale)


def polygon_apart_squared(polygon: Sequence[Point], other: Body) -> Fraction:
    """The square of the least distance from a flat convex polygon to a body, in square mm.

    The body must not reach through the polygon's plane. Corners in order, either way round.
    """
    loop = tuple(range(len(polygon)))
    a, b, scale = _frames(polygon, (loop,), other.corners, other.loops)
    return _least(a, b, scale)


def boxes_apart_squared(one: Box, other: Box) -> Fraction:
    """The square of the least distance between two boxes, in square mm; 0 where they touch."""
    total = Fraction(0)
    for (low, high), (other_low, other_high) in zip(one, other, strict=True):
        gap = max(other_low - high, low - other_high)
        if gap > 0:
            total += gap * gap
    return total


def share_volume(one: Body, other: Body) -> bool:
    """True where two bodies share volume; touching is not sharing."""
    if not overlap(one.spans, other.spans):
        return False
    if one.square and other.square:
        return True
    a, b, _ = _frames(one.corners, one.loops, other.corners, other.loops)
    return _share_volume(a, b)


def root_below(square: Fraction) -> Fraction:
    """The square root of a number not below 0: exact where it is rational, otherwise rounded
    down to 10**-12 (of a mm, where the square is in square mm).
    """
    over, under = isqrt(square.numerator), isqrt(square.denominator)
    if over * over == square.numerator and under * under == square.denominator:
        return Fraction(over, under)
    return Fraction(isqrt(square.numerator * _FINE * _FINE // square.denominator), _FINE)


def _frames(
    one: Sequence[Point],
    one_loops: Sequence[Sequence[int]],
    other: Sequence[Point],
    other_loops: Sequence[Sequence[int]],
) -> tuple[_Frame, _Frame, int]:
    spots, scale = whole((*one, *other))
    here = _frame(spots[: len(one)], one_loops)
    return here, _frame(spots[len(one) :], other_loops), scale


def _frame(spots: Sequence[Whole], loops: Sequence[Sequence[int]]) -> _Frame:
    edges = set()
    faces = []
    for loop in loops:
        for a, b in zip(loop, (*loop[1:], loop[0]), strict=True):
            edges.add((min(a, b), max(a, b)))
        round_it = [spots[place] for place in loop]
        first, second, third = round_it[:3]
        faces.append((_short(cross(minus(second, first), minus(third, first))), round_it))
    return _Frame(spots, [(spots[a], spots[b]) for a, b in sorted(edges)], faces)


def _short(direction: Whole) -> Whole:
    many = gcd(*direction)
    return (direction[0] // many, direction[1] // many, direction[2] // many)


def _share_volume(one: _Frame, other: _Frame) -> bool:
    """True where no plane keeps two bodies apart.

    If any plane does, then one that is square to a face's normal, or along an edge of each
    (S. Gottschalk, M. C. Lin, D. Manocha, OBBTree, 1996, for boxes; it holds for all
    polyhedra).
    """
    return not any(_parted(way, one.corners, other.corners) for way in _ways(one, other))


def _ways(one: _Frame, other: _Frame) -> Iterator[Whole]:
    for frame in (one, other):
        yield from (normal for normal, _ in frame.faces)
    for a, b in product(_directions(one.edges), _directions(other.edges)):
        way = cross(a, b)
        if way != (0, 0, 0):
            yield way


def _parted(way: Whole, one: Sequence[Whole], other: Sequence[Whole]) -> bool:
    here, there = [dot(way, spot) for spot in one], [dot(way, spot) for spot in other]
    return max(here) <= min(there) or max(there) <= min(here)


def _directions(edges: Iterable[tuple[Whole, Whole]]) -> list[Whole]:
    """Each direction once, whichever way along it."""
    found = set()
    for a, b in edges:
        way = _short(minus(b, a))
        found.add(max(way, (-way[0], -way[1], -way[2])))
    return sorted(found)


def _least(one: _Frame, other: _Frame, scale: int) -> Fraction:
    """The least square of a distance, for bodies that share no volume: there, two nearest points
    are a corner and a corner, an edge or a face of the other, or lie on two edges.
    """
    over, under = 0, 0
    for square, by in _candidates(one, other):
        if under == 0 or square * under < over * by:
            over, under = square, by
            if over == 0:
                break
    return Fraction(over, under * scale * scale)


def _candidates(one: _Frame, other: _Frame) -> Iterator[Ratio]:
    """Squares of distances between points of the two, as ratios; the least one among them."""
    for a, b in product(one.corners, other.corners):
        way = minus(a, b)
        yield dot(way, way), 1
    for here, there in ((one, other), (other, one)):
        for spot in here.corners:
            for edge in there.edges:
                yield from _to_edge(spot, edge)
            for face in there.faces:
                yield from _to_face(spot, face)
    for a_edge, b_edge in product(one.edges, other.edges):
        yield from _edge_to_edge(a_edge, b_edge)


def _to_edge(spot: Whole, edge: tuple[Whole, Whole]) -> Iterator[Ratio]:
    """Square to the edge, where the foot lies on it."""
    along, way = minus(edge[1], edge[0]), minus(spot, edge[0])
    length = dot(along, along)
    if 0 < dot(way, along) < length:
        off = cross(way, along)
        yield dot(off, off), length


def _to_face(spot: Whole, face: tuple[Whole, Sequence[Whole]]) -> Iterator[Ratio]:
    """Square to the face, where the foot lies in it."""
    normal, loop = face
    before = loop[-1]
    for after in loop:
        if dot(normal, cross(minus(after, before), minus(spot, before))) < 0:
            return
        before = after
    height = dot(normal, minus(spot, loop[0]))
    yield height * height, dot(normal, normal)


def _edge_to_edge(one: tuple[Whole, Whole], other: tuple[Whole, Whole]) -> Iterator[Ratio]:
    """Square to both edges, where both feet lie on them.

    V. J. Lumelsky, On Fast Computation of Distance between Line Segments, 1985.
    """
    u, v, w = minus(one[1], one[0]), minus(other[1], other[0]), minus(one[0], other[0])
    a, b, c, d, e = dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)
    under = a * c - b * b
    if under and 0 <= b * e - c * d <= under and 0 <= a * e - b * d <= under:
        height = dot(w, cross(u, v))
        yield height * height, under
