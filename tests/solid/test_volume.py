"""The volume of bodies: closed forms, cuts that add up, and manifold3d as a judge."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import manifold3d
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layout.part import Point
from layout.solid.convex import Body, block, body, common, less
from layout.solid.volume import volume
from tests.drawn import fractions

F = Fraction
lengths = fractions(-20, 20, 16)
points = st.tuples(lengths, lengths, lengths)


def at(*values: int | str) -> Point:
    x, y, z = (F(value) for value in values)
    return (x, y, z)


def box(low: tuple[int | str, ...], high: tuple[int | str, ...]) -> Body:
    x, y, z = ((F(a), F(b)) for a, b in zip(low, high, strict=True))
    return block((x, y, z))


def judged(one: Body) -> float:
    hull = manifold3d.Manifold.hull_points(np.array(one.corners, dtype=np.float64))
    return float(hull.volume())


@st.composite
def hulls(draw: st.DrawFn) -> Body:
    try:
        return body(draw(st.lists(points, min_size=4, max_size=10)))
    except ValueError:
        assume(False)
        raise


@st.composite
def boxes(draw: st.DrawFn) -> Body:
    low = draw(points)
    sizes = draw(st.tuples(*[fractions(F(1, 8), 20, 16)] * 3))
    x, y, z = ((a, a + size) for a, size in zip(low, sizes, strict=True))
    return block((x, y, z))


# -- closed forms


@pytest.mark.parametrize(
    ("low", "high", "cubic"),
    [
        ((0, 0, 0), (1, 1, 1), "1"),
        ((0, 0, 0), (10, 4, 2), "80"),
        ((-5, -2, -1), (5, 2, 1), "80"),
        ((100, 200, 300), (101, 202, 303), "6"),
        (("1/3", "1/7", 0), ("2/3", "3/7", "1/11"), "2/231"),
    ],
)
def test_a_block(low: tuple[int, ...], high: tuple[int, ...], cubic: str) -> None:
    assert volume([box(low, high)]) == F(cubic)


@pytest.mark.parametrize(
    ("corners", "cubic"),
    [
        # a tetrahedron: a sixth of the box on its edges
        ([(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)], F(1, 6)),
        ([(0, 0, 0), (2, 0, 0), (0, 3, 0), (0, 0, 5)], F(30, 6)),
        ([(9, 9, 9), (10, 9, 9), (9, 10, 9), (9, 9, 10)], F(1, 6)),
        # the regular one in a cube: a third of the cube
        ([(0, 0, 0), (1, 1, 0), (1, 0, 1), (0, 1, 1)], F(1, 3)),
        # an octahedron: two pyramids of base 2 and height 1
        ([(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)], F(4, 3)),
        # a wedge: half a box
        ([(0, 0, 0), (0, 3, 0), (4, 0, 0), (4, 3, 0), (4, 0, 2), (4, 3, 2)], F(12)),
        # a pyramid: a third of base by height
        ([(0, 0, 0), (3, 0, 0), (0, 3, 0), (3, 3, 0), (1, 2, 4)], F(12)),
        # a raised panel's field: a frustum, h (A + a + root of A a) / 3
        ([*product((0, 4), (0, 4), (0,)), *product((1, 3), (1, 3), (3,))],
         F(3 * (16 + 4 + 8), 3)),
    ],
)
def test_closed_forms(corners: list[tuple[int, ...]], cubic: Fraction) -> None:
    one = body([at(*corner) for corner in corners])
    assert volume([one]) == cubic
    assert type(volume([one])) is Fraction


def test_nothing_and_several() -> None:
    assert volume([]) == 0
    assert type(volume([])) is Fraction
    cube = box((0, 0, 0), (1, 1, 1))
    beside = box((5, 0, 0), (7, 1, 1))
    assert volume([cube, beside]) == 3
    assert volume(iter((cube, beside, cube))) == 4


# -- cuts


def test_a_board_less_its_mortise() -> None:
    # 2 x 2 x 18 less 1/2 x 3 x 1 1/4
    leg = box((0, 0, 0), (2, 2, 18))
    mortise = box(("3/4", "3/4", 13), (3, "5/4", 16))
    assert volume(less(leg, mortise)) == 72 - F(5, 4) * F(1, 2) * 3
    assert volume([leg]) == 72


def test_a_hole_through_the_middle() -> None:
    assert volume(less(box((0, 0, 0), (3, 3, 3)), box((1, 1, -1), (2, 2, 4)))) == 27 - 3


@given(boxes(), boxes())
@settings(max_examples=60, deadline=None)
def test_what_is_cut_and_what_is_left_add_up(one: Body, other: Body) -> None:
    shared = common(one, other)
    left = volume(less(one, other))
    cut = F(0) if shared is None else volume([shared])
    # the shared box again, from the two reaches alone
    sides = [min(a[1], b[1]) - max(a[0], b[0])
             for a, b in zip(one.spans, other.spans, strict=True)]
    assert cut == (sides[0] * sides[1] * sides[2] if min(sides) > 0 else 0)
    assert left + cut == volume([one])


@given(boxes(), hulls())
@settings(max_examples=25, deadline=None)
def test_a_slanting_cut_adds_up_too(one: Body, other: Body) -> None:
    shared = common(one, other)
    assert volume(less(one, other)) + (0 if shared is None else volume([shared])) == volume([one])


# -- a judge


@given(hulls())
@settings(max_examples=60, deadline=None)
def test_hulls_against_manifold3d(one: Body) -> None:
    exact = volume([one])
    assert exact > 0
    assert float(exact) == pytest.approx(judged(one), rel=1e-9, abs=1e-9)


@given(hulls(), st.tuples(lengths, lengths, lengths), fractions(F(1, 4), 4, 8))
@settings(max_examples=30, deadline=None)
def test_moved_turned_over_and_grown(one: Body, by: Point, times: Fraction) -> None:
    exact = volume([one])
    moved = body([tuple(a + b for a, b in zip(corner, by, strict=True)) for corner in one.corners])
    turned = body([(y, z, x) for x, y, z in one.corners])
    flipped = body([(-x, y, z) for x, y, z in one.corners])
    grown = body([tuple(each * times for each in corner) for corner in one.corners])
    assert [volume([each]) for each in (moved, turned, flipped)] == [exact] * 3
    assert volume([grown]) == exact * times**3
