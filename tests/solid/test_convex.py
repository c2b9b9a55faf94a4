"""Exact convex bodies: closed forms, laws that hold for any bodies, and manifold3d as a judge."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, permutations, product

import manifold3d
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from layout.part import Point
from layout.solid.convex import (
    Body,
    Plane,
    block,
    body,
    clip,
    common,
    less,
    reach,
    volume,
)
from layout.solid.gap import share_volume
from tests.drawn import fractions

ZERO = Fraction(0)


def at(*values: int | str | Fraction) -> Point:
    x, y, z = (Fraction(value) for value in values)
    return (x, y, z)


def cube(*low: int | str, side: int | str = 1) -> Body:
    x, y, z = at(*low)
    s = Fraction(side)
    return block(((x, x + s), (y, y + s), (z, z + s)))


TETRAHEDRON = body([at(0, 0, 0), at(1, 0, 0), at(0, 1, 0), at(0, 0, 1)])
# 4 long, 3 wide, 0 thick at x = 0 and 2 at x = 4
WEDGE = body([at(0, 0, 0), at(0, 3, 0), at(4, 0, 0), at(4, 3, 0), at(4, 0, 2), at(4, 3, 2)])
# the end of a board 10 x 4 x 2, mitred across its width at 45 degrees
MITRED = body([at(x, y, z) for x, y in ((0, 0), (10, 0), (6, 4), (0, 4)) for z in (0, 2)])

lengths = fractions(-20, 20, 16)
points = st.tuples(lengths, lengths, lengths)


@st.composite
def hulls(draw: st.DrawFn) -> Body:
    try:
        return body(draw(st.lists(points, min_size=4, max_size=9)))
    except ValueError:
        assume(False)
        raise


@st.composite
def blocks(draw: st.DrawFn) -> Body:
    low = draw(points)
    sizes = draw(st.tuples(*[fractions(Fraction(1, 8), 20, 16)] * 3))
    x, y, z = ((a, a + size) for a, size in zip(low, sizes, strict=True))
    return block((x, y, z))


bodies = st.one_of(hulls(), blocks())


def solid(one: Body) -> manifold3d.Manifold:
    return manifold3d.Manifold.hull_points(np.array(one.corners, dtype=np.float64))


def well_made(one: Body) -> None:
    """Every law of a body's make-up, by its own exact figures."""
    for plane, face in zip(one.planes, one.faces, strict=True):
        assert all(plane.height(corner) == 0 for corner in face)
        assert all(plane.height(c) < 0 for c in set(one.corners) - set(face))
        assert len(set(face)) == len(face) >= 3
        for a, b, c in zip(face, face[1:] + face[:1], face[2:] + face[:2], strict=True):
            assert Plane(plane.normal, ZERO).height(turn(a, b, c)) > 0
    assert len(one.corners) - len(edges(one)) + len(one.faces) == 2  # Euler
    for axis in range(3):
        values = [corner[axis] for corner in one.corners]
        assert reach(one)[axis] == (min(values), max(values))


def turn(a: Point, b: Point, c: Point) -> Point:
    u, v = ([q - p for p, q in zip(s, t, strict=True)] for s, t in ((a, b), (b, c)))
    return (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])


def edges(one: Body) -> set[frozenset[Point]]:
    return {
        frozenset((a, b)) for face in one.faces for a, b in zip(face, face[1:] + face[:1],
                                                                strict=True)
    }  # fmt: skip


def test_a_unit_cube() -> None:
    one = body(cube(0, 0, 0).corners)
    assert one == cube(0, 0, 0)
    assert one.square
    assert volume(one) == 1
    well_made(one)


@pytest.mark.parametrize(
    ("one", "cubic", "faces", "corners"),
    [
        (TETRAHEDRON, Fraction(1, 6), 4, 4),
        (WEDGE, Fraction(4 * 3 * 2, 2), 5, 6),
        (MITRED, Fraction((10 + 6) * 4, 2) * 2, 6, 8),
    ],
    ids=["tetrahedron", "wedge", "mitred"],
)
def test_closed_forms(one: Body, cubic: Fraction, faces: int, corners: int) -> None:
    assert (volume(one), len(one.faces), len(one.corners)) == (cubic, faces, corners)
    assert not one.square
    well_made(one)


def test_points_given_twice_inside_on_faces_and_on_edges_do_no_harm() -> None:
    extra = [at("1/2", "1/2", "1/2"), at("1/2", "1/2", 0), at("1/2", 0, 0), at(0, 0, 0)]
    assert body([*extra, *cube(0, 0, 0).corners]) == cube(0, 0, 0)


def test_points_on_the_edges_of_a_slope_do_no_harm() -> None:
    halves = [
        at(*((p + q) / 2 for p, q in zip(*edge, strict=True))) for edge in edges(TETRAHEDRON)
    ]
    one = body([*halves, *TETRAHEDRON.corners])
    well_made(one)
    assert set(one.corners) == set(TETRAHEDRON.corners)


def test_eight_points_with_two_values_each_way_need_not_be_a_block() -> None:
    corners = cube(0, 0, 0).corners
    one = body([*corners[:7], corners[0]])
    assert volume(one) == Fraction(5, 6)  # a cube with one corner cut off
    well_made(one)


@pytest.mark.parametrize(
    "flat",
    [
        [],
        [at(0, 0, 0), at(1, 0, 0), at(0, 1, 0)],
        [at(x, y, x + y) for x in (0, 1) for y in (0, 1)],
        [at(i, 2 * i, 3 * i) for i in range(5)],
        [at(x, y, 0) for x in (0, 1) for y in (0, 1)] * 2,
    ],
    ids=["none", "three", "in a plane", "in a line", "twice in a plane"],
)
def test_points_without_volume_are_refused(flat: list[Point]) -> None:
    with pytest.raises(ValueError, match="volume"):
        body(flat)


def test_an_empty_block_is_refused() -> None:
    with pytest.raises(ValueError, match="block"):
        block(((ZERO, ZERO), (ZERO, Fraction(1)), (ZERO, Fraction(1))))


def test_clip_a_cube_corner_to_corner() -> None:
    half = clip(cube(0, 0, 0), Plane(at(1, 1, 0), Fraction(1)))
    assert half is not None
    assert volume(half) == Fraction(1, 2)
    well_made(half)
    sixth = clip(cube(0, 0, 0), Plane(at(1, 1, 1), Fraction(1)))
    assert sixth is not None
    assert set(sixth.corners) == set(TETRAHEDRON.corners)


def test_a_cube_has_a_hexagon_in_its_middle() -> None:
    half = clip(cube(0, 0, 0), Plane(at(1, 1, 1), Fraction(3, 2)))
    assert half is not None
    assert volume(half) == Fraction(1, 2)
    assert sorted(len(face) for face in half.faces) == [3, 3, 3, 5, 5, 5, 6]
    well_made(half)


def test_a_plane_that_only_touches_leaves_all_or_nothing() -> None:
    for one in (cube(0, 0, 0), TETRAHEDRON):
        for plane in one.planes:
            assert clip(one, plane) is one
            assert clip(one, plane.turned()) is None
    corner = Plane(at(1, 1, 1), ZERO)
    assert clip(TETRAHEDRON, corner) is None
    assert clip(TETRAHEDRON, corner.turned()) is TETRAHEDRON


def test_common_of_cubes() -> None:
    shared = common(cube(0, 0, 0), cube("1/2", "1/3", "1/4"))
    assert shared is not None
    assert volume(shared) == Fraction(1, 2) * Fraction(2, 3) * Fraction(3, 4)
    for apart in (cube(1, 0, 0), cube(1, 1, 0), cube(1, 1, 1), cube(2, 0, 0)):
        assert common(cube(0, 0, 0), apart) is None
        assert less(cube(0, 0, 0), apart) == (cube(0, 0, 0),)


def test_bodies_that_touch_on_a_slope_share_nothing() -> None:
    top = body([at(0, 0, 0), at(0, 3, 0), at(4, 0, 2), at(4, 3, 2), at(0, 0, 2), at(0, 3, 2)])
    assert common(top, WEDGE) is None
    assert not share_volume(top, WEDGE)
    assert less(top, WEDGE) == (top,)
    assert volume(top) + volume(WEDGE) == 4 * 3 * 2


def test_less_leaves_a_frame_round_a_hole() -> None:
    frame = less(cube(0, 0, 0, side=3), cube(1, 1, 1))
    assert len(frame) == 6
    assert sum(map(volume, frame)) == 26
    assert less(cube(1, 1, 1), cube(0, 0, 0, side=3)) == ()
    assert less(cube(1, 1, 1), cube(1, 1, 1)) == ()


def test_planes_can_have_any_length() -> None:
    for many in (Fraction(1, 7), Fraction(12)):
        (a, b, c), offset = WEDGE.planes[-1]
        longer = Plane((a * many, b * many, c * many), offset * many)
        kept = clip(cube(1, 1, 0), WEDGE.planes[-1])
        assert kept is not None
        again = clip(cube(1, 1, 0), longer)
        assert again is not None
        assert again.corners == kept.corners


@settings(deadline=None)
@given(st.lists(points, min_size=4, max_size=9))
def test_a_hull_holds_its_points_and_no_corner_of_its_own(given_points: list[Point]) -> None:
    try:
        one = body(given_points)
    except ValueError:
        assert abs(solid_volume(given_points)) < 1e-9
        return
    well_made(one)
    assert set(one.corners) <= set(given_points)
    assert all(plane.height(p) <= 0 for plane in one.planes for p in given_points)
    assert float(volume(one)) == pytest.approx(solid_volume(given_points), rel=1e-6, abs=1e-9)


def solid_volume(some: list[Point]) -> float:
    return float(manifold3d.Manifold.hull_points(np.array(some, dtype=np.float64)).volume())


@settings(deadline=None)
@given(hulls(), st.permutations(range(9)))
def test_the_order_of_the_points_does_not_matter(one: Body, order: list[int]) -> None:
    shuffled = body([one.corners[i] for i in order if i < len(one.corners)])
    assert set(shuffled.corners) == set(one.corners)
    assert set(shuffled.planes) == set(one.planes)
    assert volume(shuffled) == volume(one)


@settings(deadline=None)
@given(bodies, points, fractions(-40, 40, 8))
def test_a_plane_divides_a_body_in_two(one: Body, normal: Point, offset: Fraction) -> None:
    assume(any(normal))
    plane = Plane(normal, offset)
    sides = [half for half in (clip(one, plane), clip(one, plane.turned())) if half is not None]
    assert sum(map(volume, sides)) == volume(one)
    for half in sides:
        well_made(half)


@settings(deadline=None)
@given(bodies, bodies)
def test_one_is_what_is_common_and_what_is_left(one: Body, other: Body) -> None:
    shared, pieces = common(one, other), less(one, other)
    left = sum(map(volume, pieces))
    assert volume(one) == left + (volume(shared) if shared is not None else 0)
    assert (shared is not None) == share_volume(one, other)
    for piece in pieces:
        well_made(piece)
        assert common(piece, other) is None
    assert all(common(a, b) is None for a, b in combinations(pieces, 2))
    if shared is not None:
        well_made(shared)
        back = common(other, one)
        assert back is not None
        assert volume(back) == volume(shared)
        assert set(back.corners) == set(shared.corners)


@settings(deadline=None)
@given(bodies, bodies)
def test_manifold3d_finds_the_same_volumes(one: Body, other: Body) -> None:
    shared = common(one, other)
    ours = float(volume(shared)) if shared is not None else 0.0
    size = float(max(volume(one), volume(other)))
    assert ours == pytest.approx((solid(one) ^ solid(other)).volume(), rel=1e-6, abs=1e-6 * size)
    left = float(sum(map(volume, less(one, other))))
    assert left == pytest.approx((solid(one) - solid(other)).volume(), rel=1e-6, abs=1e-6 * size)


@settings(deadline=None)
@given(bodies, bodies, points)
def test_moving_both_moves_what_they_share(one: Body, other: Body, by: Point) -> None:
    shared, moved = common(one, other), common(shifted(one, by), shifted(other, by))
    if shared is None:
        assert moved is None
        return
    assert moved is not None
    assert set(moved.corners) == set(shifted(shared, by).corners)


def shifted(one: Body, by: Point) -> Body:
    return body([at(*(a + b for a, b in zip(c, by, strict=True))) for c in one.corners])


def test_every_mirror_and_turn_of_the_wedge_has_its_volume() -> None:
    # part placements mirror: the outside of a face must stay outside
    for order, signs in product(permutations(range(3)), product((1, -1), repeat=3)):
        ways = list(zip(order, signs, strict=True))
        turned = body([at(*(sign * c[axis] for axis, sign in ways)) for c in WEDGE.corners])
        well_made(turned)
        assert volume(turned) == volume(WEDGE)
