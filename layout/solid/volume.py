"""How much room bodies take, exactly."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise

from layout.solid.convex import Body
from layout.solid.hull import cross, dot, minus, whole

ZERO = Fraction(0)


def volume(bodies: Iterable[Body]) -> Fraction:
    """The volume of bodies that don't overlap, in cubic mm: each as tetrahedra from one corner."""
    return sum((_one(body) for body in bodies), ZERO)


def _one(body: Body) -> Fraction:
    spots, scale = whole(body.corners)
    top = spots[0]
    six = 0
    for first, *others in body.loops:
        for one, other in pairwise(others):
            a, b, c = (minus(spots[place], top) for place in (first, one, other))
            six += dot(a, cross(b, c))
    return Fraction(six, 6 * scale**3)
