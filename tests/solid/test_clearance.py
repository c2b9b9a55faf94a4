"""Distances between bodies and holes: closed forms, laws, and shapely and manifold3d as judges."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import hypot, sqrt

import manifold3d
import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from layout.part import Point
from layout.solid.clearance import apart, meet
from layout.solid.convex import Body, block, body, common
from layout.solid.gap import apart_squared, root_below, share_volume
from layout.solid.rounds import Round
from tests.drawn import fractions
from tests.solid.test_convex import (
    MITRED,
    TETRAHEDRON,
    WEDGE,
    at,
    blocks,
    bodies,
    cube,
    hulls,
    points,
    shifted,
    solid,
)

ZERO = Fraction(0)
FINE = Fraction(1, 10**12)
# how far a hole's outline stands off its rim: 1 / cos of half the widest step of its tangents
STAND_OFF = sqrt(1 + 1 / 16**2) - 1

lengths = fractions(-20, 20, 16)
sizes = fractions(Fraction(1, 8), 10, 16)


def hole(axis: int, one: object, two: object, radius: object, start: object, end: object) -> Round:
    a, b, r, s, e = (Fraction(str(value)) for value in (one, two, radius, start, end))
    return Round(axis, (a, b), r, s, e)


@st.composite
def holes(draw: st.DrawFn) -> Round:
    start = draw(lengths)
    deep = draw(sizes) * draw(st.sampled_from((1, -1)))
    return Round(draw(st.sampled_from((0, 1, 2))), (draw(lengths), draw(lengths)), draw(sizes),
                 start, start + deep)  # fmt: skip


def drilled(one: Round, sides: int = 240) -> manifold3d.Manifold:
    """A many-sided rod inside the hole: within a ten-thousandth of its radius."""
    low, high = one.along
    rod = manifold3d.Manifold.cylinder(float(high - low), float(one.radius), -1, sides)
    rod = rod.translate((0, 0, float(low)))
    # z to the hole's axis, keeping the other two in order
    rows = {0: ((0, 0, 1), (1, 0, 0), (0, 1, 0)), 1: ((1, 0, 0), (0, 0, 1), (0, 1, 0)),
            2: ((1, 0, 0), (0, 1, 0), (0, 0, 1))}[one.axis]  # fmt: skip
    middle = [0.0, 0.0, 0.0]
    for axis, value in zip((a for a in range(3) if a != one.axis), one.centre, strict=True):
        middle[axis] = float(value)
    return rod.transform([(*row, shift) for row, shift in zip(rows, middle, strict=True)])


def judged(one: manifold3d.Manifold, other: manifold3d.Manifold) -> float:
    return float(one.min_gap(other, 1000.0))


# --- roots -----------------------------------------------------------------------------------


def test_a_rational_root_is_exact() -> None:
    assert root_below(ZERO) == 0
    assert root_below(Fraction(9, 16)) == Fraction(3, 4)
    assert root_below(Fraction(10**60)) == 10**30


@settings(deadline=None)
@given(st.fractions(min_value=0, max_value=10**6))
def test_a_root_is_just_below_the_true_one(square: Fraction) -> None:
    root = root_below(square)
    assert root**2 <= square < (root + FINE) ** 2
    assert root_below(square**2) == square


# --- bodies ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "square"),
    [
        (cube(0, 0, 0), cube(3, 0, 0), 4),
        (cube(0, 0, 0), cube(4, 5, 0), 9 + 16),
        (cube(0, 0, 0), cube(2, 3, 3), 1 + 4 + 4),
        (cube(0, 0, 0), cube(1, 1, 1), 0),
        (cube(0, 0, 0), cube("1/2", 0, 0), 0),
        # corner (1, 1, 1) to the slope x + y + z = 1, square to it at (1/3, 1/3, 1/3)
        (TETRAHEDRON, cube(1, 1, 1), Fraction(4, 3)),
        # the edge of a cube to the slope z = x / 2, at the corner (2, *, 2): 2 * (2 - 1) / sqrt 5
        (WEDGE, block(((ZERO, Fraction(2)), (ZERO, Fraction(3)), (Fraction(2), Fraction(5)))),
         Fraction(4, 5)),
        # past the slope's foot: to the edge at the wedge's thin end
        (WEDGE, cube(-2, 0, 0), 1),
        (WEDGE, cube(-2, 0, 1), 1 + 1),
        # face to face of two mitred ends, a saw's width apart: x + y = 10 and x + y = 12
        (MITRED, body([at(x, y, z) for x, y in ((12, 0), (20, 0), (8, 4), (20, 4))
                       for z in (0, 2)]), Fraction(2**2, 2)),
        # two edges that pass each other: along y at (4, *, 2), along x at (*, 1, 3)
        (WEDGE, body([at(0, 1, 3), at(9, 1, 3), at(0, 0, 4), at(9, 0, 4), at(0, 2, 4),
                      at(9, 2, 4)]), 1),
        # two leaning ridges that pass each other, one up and one down: no face's plane parts them
        (body([at(0, 0, 0), at(2, 0, 2), at(1, 1, -3), at(1, -1, -5)]),
         body([at(1, -1, 1), at(1, 1, 3), at(2, 0, 8), at(0, 0, 6)]), Fraction(1, 3)),
        # touching in one point, on a slope and on an edge
        (TETRAHEDRON, body([at("1/3", "1/3", "1/3"), at(1, 1, 1), at(1, 1, 2), at(1, 2, 1)]), 0),
        (cube(0, 0, 0), body([at(1, 0, 2), at(1, 1, 0), at(2, 0, 2), at(2, 1, 0), at(2, 5, 5)]), 0),
        # one within the other
        (cube(-9, -9, -9, side=20), TETRAHEDRON, 0),
    ],
)  # fmt: skip
def test_bodies_in_closed_form(one: Body, other: Body, square: Fraction | int) -> None:
    assert apart_squared(one, other) == square
    assert apart_squared(other, one) == square
    assert apart(one, other) == root_below(Fraction(square))
    assert meet(one, other) == meet(other, one) == (common(one, other) is not None)


@settings(deadline=None)
@given(bodies, bodies, points)
def test_laws_of_distance(one: Body, other: Body, by: Point) -> None:
    square = apart_squared(one, other)
    assert square == apart_squared(other, one)
    assert square == apart_squared(shifted(one, by), shifted(other, by))
    assert apart_squared(one, one) == 0
    if meet(one, other):
        assert square == 0
    # pulled apart by more than both are big, the distance is there and not below the boxes'
    away = shifted(other, at(100, 0, 0))
    assert apart_squared(one, away) >= (away.spans[0][0] - one.spans[0][1]) ** 2 > 0


@settings(deadline=None)
@given(bodies, bodies)
def test_manifold3d_finds_the_same_distance(one: Body, other: Body) -> None:
    ours = sqrt(apart_squared(one, other))
    assert ours == pytest.approx(judged(solid(one), solid(other)), rel=1e-5, abs=1e-5)


@settings(deadline=None)
@given(bodies, bodies)
def test_bodies_pushed_box_to_box_do_not_meet(one: Body, other: Body) -> None:
    gap = other.spans[0][0] - one.spans[0][1]
    beside = shifted(other, at(-gap, 0, 0))
    assert not meet(one, beside)
    if one.square and other.square:
        assert meet(one, shifted(beside, at(Fraction(-1, 1000), 0, 0))) == all(
            a[0] < b[1] and b[0] < a[1]
            for a, b in list(zip(one.spans, beside.spans, strict=True))[1:]
        )


flat = st.lists(st.tuples(lengths, lengths), min_size=3, max_size=7)


@settings(deadline=None)
@given(flat, flat)
def test_shapely_finds_the_same_distance_of_upright_prisms(
    one: list[tuple[Fraction, Fraction]], other: list[tuple[Fraction, Fraction]]
) -> None:
    outlines = [shapely.MultiPoint([(float(x), float(y)) for x, y in f]).convex_hull
                for f in (one, other)]  # fmt: skip
    assume(all(outline.area > 1e-9 for outline in outlines))
    a, b = (body([at(x, y, z) for x, y in f for z in (0, 5)]) for f in (one, other))
    assert sqrt(apart_squared(a, b)) == pytest.approx(
        shapely.distance(*outlines), rel=1e-9, abs=1e-9
    )
    shared = shapely.intersection(*outlines).area
    assume(shared == 0 or shared > 1e-9)
    assert share_volume(a, b) == (shared > 0)


# --- holes -----------------------------------------------------------------------------------


def test_a_hole_knows_its_reach_either_way_round() -> None:
    spans = ((Fraction(1), Fraction(3)), (ZERO, Fraction(9)), (Fraction(2), Fraction(4)))
    assert hole(1, 2, 3, 1, 0, 9).spans == spans
    assert hole(1, 2, 3, 1, 9, 0).spans == spans


@pytest.mark.parametrize(
    ("one", "other", "far", "meets"),
    [
        # a hole along z beside, over, at the corner of, and in a cube
        (hole(2, 4, "1/2", 1, 0, 1), cube(0, 0, 0), 2, False),
        (hole(2, "1/2", "1/2", 1, 3, 9), cube(0, 0, 0), 2, False),
        (hole(2, 4, 5, 1, 0, 9), cube(0, 0, 0), 4, False),
        (hole(2, 4, 5, 2, 5, 9), cube(0, 0, 0), 5, False),
        (hole(2, 2, "1/2", 1, 0, 1), cube(0, 0, 0), 0, False),
        (hole(2, "1/2", "1/2", 1, 1, 9), cube(0, 0, 0), 0, False),
        (hole(2, "3/2", "1/2", 1, 9, "1/2"), cube(0, 0, 0), 0, True),
        (hole(2, "1/2", "1/2", "1/8", "1/4", "3/4"), cube(0, 0, 0), 0, True),
        (hole(0, 4, 5, 1, 0, 9), cube(0, 0, 0), 4, False),
        (hole(1, 4, 5, 1, 0, 9), cube(0, 0, 0), 4, False),
        # side by side
        (hole(0, 0, 0, 1, 0, 9), hole(0, 3, 4, 2, 5, 7), 2, False),
        (hole(0, 0, 0, 1, 0, 9), hole(0, 3, 4, 1, 13, 12), hypot(3, 3), False),
        (hole(0, 0, 0, 2, 0, 9), hole(0, 3, 4, 3, 5, 7), 0, False),
        (hole(0, 0, 0, 2, 0, 9), hole(0, 3, 4, 3, 9, 12), 0, False),
        (hole(0, 0, 0, 3, 0, 9), hole(0, 3, 4, 3, 8, 12), 0, True),
        # crossing above each other: axes 5 apart in z
        (hole(0, 0, 0, 1, -9, 9), hole(1, 0, 5, 2, -9, 9), 2, False),
        (hole(0, 0, 0, 3, -9, 9), hole(1, 0, 5, 2, -9, 9), 0, False),
        (hole(0, 0, 0, 3, -9, 9), hole(1, 0, 5, "5/2", -9, 9), 0, True),
        # square to each other, one's end 3 short of the other's axis: 3-4-5 triangles
        (hole(0, 0, 0, 5, -9, 9), hole(1, 0, 6, 2, 3, 9), 0, False),
        (hole(0, 0, 0, 5, -9, 9), hole(1, 0, "23/4", 2, 3, 9), 0, True),
        (hole(0, 0, 0, 5, -9, 9), hole(1, 0, 0, 2, 7, 9), 2, False),
        (hole(0, 0, 0, 5, -9, 9), hole(1, 0, 0, 2, 5, 9), 0, False),
        # a hole over the slope z = x / 2: to its foot at (2, *, 1), and further down
        (hole(1, 0, 5, 1, 0, 3), WEDGE, sqrt(20) - 1, False),
        (hole(1, "3/4", 4, 1, 0, 3), WEDGE, (4 - 3 / 8) / sqrt(5 / 4) - 1, False),
        # beyond a wedge's thin end
        (hole(1, -3, 4, 1, 5, 9), WEDGE, hypot(4, 2), False),
    ],
)
def test_holes_in_closed_form(
    one: Round, other: Body | Round, far: float, meets: bool
) -> None:
    for found in (apart(one, other), apart(other, one)):
        if isinstance(far, int):
            assert found == far
        else:
            assert 0 <= far - float(found) < 1e-9
    assert meet(one, other) == meet(other, one) == meets


def test_the_wood_under_a_blind_hole_over_a_slope_is_not_missed() -> None:
    # The slope z = x / 2 is 1 below the bottom's rim at x = 2, z = 2; beside the hole, above
    # z = 2, the wedge has nothing, and with a taller wedge it is far away.
    rim = 2 / sqrt(5)
    over = hole(2, 1, "3/2", 1, 2, 9)
    assert rim - STAND_OFF <= float(apart(over, WEDGE)) <= rim
    taller = body([at(20 * x, y, 10 * z) for x, y, z in
                   ((0, 0, 0), (0, 3, 0), (1, 0, 0), (1, 3, 0), (1, 0, 1), (1, 3, 1))])
    assert rim - STAND_OFF <= float(apart(over, taller)) <= rim


@settings(deadline=None)
@given(holes(), blocks())
def test_a_hole_and_a_block_by_shapely_in_the_cross_plane(one: Round, other: Body) -> None:
    (x0, x1), (y0, y1) = (span for axis, span in enumerate(other.spans) if axis != one.axis)
    rectangle = shapely.box(*map(float, (x0, y0, x1, y1)))
    between = rectangle.distance(shapely.Point(*map(float, one.centre))) - float(one.radius)
    (low, high), (a, b) = one.along, other.spans[one.axis]
    along = max(float(a - high), float(low - b), 0.0)
    assert float(apart(one, other)) == pytest.approx(hypot(along, max(between, 0.0)), abs=1e-9)
    assume(abs(between) > 1e-9)
    assert meet(one, other) == (between < 0 and low < b and a < high)


@settings(deadline=None, max_examples=60)
@given(holes(), hulls())
@example(hole(2, 1, "3/2", 1, 2, 9), WEDGE)
def test_a_hole_and_a_body_by_manifold3d(one: Round, other: Body) -> None:
    rod = drilled(one)
    ours, theirs = float(apart(one, other)), judged(rod, solid(other))
    # never more than the truth, and less by no more than the outline's stand-off
    slack = 1e-4 + 1e-4 * float(one.radius)
    assert theirs - float(one.radius) * STAND_OFF - slack <= ours <= theirs + slack
    if meet(one, other):
        assert theirs <= slack
    elif ours > slack:
        assert theirs > 0


@settings(deadline=None, max_examples=60)
@given(holes(), holes())
@example(hole(0, 0, 0, 5, -9, 9), hole(1, 0, 6, 2, 3, 9))
def test_two_holes_by_manifold3d(one: Round, other: Round) -> None:
    ours, theirs = float(apart(one, other)), judged(drilled(one), drilled(other))
    slack = 1e-4 + 1e-4 * float(one.radius + other.radius)
    assert ours <= theirs + slack
    if one.axis == other.axis or one.past(other) == 0 == other.past(one):
        assert ours >= theirs - slack
    else:
        assert ours >= float(root_below(apart_squared(block(one.spans), block(other.spans)))) - 1e-9


@settings(deadline=None, max_examples=120)
@given(holes(), holes())
def test_two_holes_share_volume_by_manifold3d(one: Round, other: Round) -> None:
    def rods(more: Fraction) -> float:
        swollen = [
            each._replace(radius=each.radius + more, start=each.along[0] - more,
                          end=each.along[1] + more) for each in (one, other)
        ]  # fmt: skip
        return float((drilled(swollen[0]) ^ drilled(swollen[1])).volume())

    # a hair's breadth between what surely shares and what surely does not
    if meet(one, other):
        assert rods(Fraction(1, 250)) > 0
    else:
        assert rods(Fraction(-1, 250)) == 0


@settings(deadline=None)
@given(st.one_of(holes(), bodies), st.one_of(holes(), bodies))
def test_what_meets_is_not_apart(one: Body | Round, other: Body | Round) -> None:
    assert apart(one, other) == apart(other, one) >= 0
    assert meet(one, other) == meet(other, one)
    if meet(one, other):
        assert apart(one, other) == 0


def test_touching_is_not_meeting_whichever_way_two_holes_run() -> None:
    for one, other in product(range(3), repeat=2):
        a = Round(one, (ZERO, ZERO), Fraction(2), Fraction(-9), Fraction(9))
        third = next(axis for axis in range(3) if axis not in (one, other))
        centre = [Fraction(5) if axis == third else ZERO for axis in range(3) if axis != other]
        for radius, meets in ((Fraction(3), False), (Fraction(301, 100), True)):
            b = Round(other, (centre[0], centre[1]), radius, Fraction(-9), Fraction(9))
            assert meet(a, b) == meets
            assert apart(a, b) == 0
