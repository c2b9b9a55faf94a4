"""Hatching; shapely is the judge of what lies inside a polygon."""

from fractions import Fraction
from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiPoint

from layout.scene.hatch import hatch, hatch_polygon, hatch_rectangle
from layout.scene.strokes import Pen

ZERO = Fraction(0)


def test_lines_run_at_45_degrees_two_mm_apart() -> None:
    lines = hatch_rectangle((ZERO, ZERO), (Fraction(40), Fraction(20)))
    assert {line.pen for line in lines} == {Pen.HATCH}
    for line in lines:
        assert line.b[0] - line.a[0] == line.b[1] - line.a[1] > 0
    offsets = sorted(float(line.a[0] - line.a[1]) / sqrt(2) for line in lines)
    for one, other in pairwise(offsets):
        assert other - one == pytest.approx(2, abs=1e-8)
    # x - y runs from -20 to 40: that is -7.07 to 14.14 steps of 2 sqrt 2, and 0 among them
    assert len(lines) == 7 + 1 + 14


def test_neighbouring_regions_are_hatched_as_one() -> None:
    whole = hatch_rectangle((ZERO, ZERO), (Fraction(30), Fraction(10)))
    left = hatch_rectangle((ZERO, ZERO), (Fraction(10), Fraction(10)))
    right = hatch_rectangle((Fraction(10), ZERO), (Fraction(30), Fraction(10)))
    offsets = {line.a[0] - line.a[1] for line in (*left, *right)}
    assert offsets == {line.a[0] - line.a[1] for line in whole}
    # no line ends at the seam: it goes on from the same spot on the other side (at the corner
    # it would only touch the other region)
    corner = (Fraction(10), Fraction(10))
    seam = {line.b for line in left if line.b[0] == 10} - {corner}
    assert len(seam) == 3
    assert seam == {line.a for line in right if line.a[0] == 10}


def test_the_pitch_can_be_set() -> None:
    fine = hatch_rectangle((ZERO, ZERO), (Fraction(40), Fraction(20)), Fraction(1))
    coarse = hatch_rectangle((ZERO, ZERO), (Fraction(40), Fraction(20)), Fraction(4))
    # steps of sqrt 2 from -14.1 to 28.3, and of 4 sqrt 2 from -3.5 to 7.07
    assert len(fine) == 14 + 1 + 28
    assert len(coarse) == 3 + 1 + 7


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=3, max_size=8))
@settings(max_examples=60, deadline=None)
def test_every_line_runs_from_edge_to_edge_inside_the_polygon(
    spots: list[tuple[int, int]],
) -> None:
    hull = MultiPoint(spots).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1:
        return
    corners = [(Fraction(int(x)), Fraction(int(y))) for x, y in hull.exterior.coords[:-1]]
    total = 0.0
    for line in hatch(corners):
        drawn = LineString([tuple(map(float, line.a)), tuple(map(float, line.b))])
        assert drawn.difference(hull.buffer(1e-9)).length == 0
        for end in (drawn.coords[0], drawn.coords[-1]):
            assert hull.exterior.distance(MultiPoint([end])) < 1e-9
        total += drawn.length
    # the same lines cut by shapely are as long
    step = 2 * sqrt(2)
    expected = sum(
        LineString([(k * step - 200, -200), (k * step + 200, 200)]).intersection(hull).length
        for k in range(-60, 61)
    )
    assert total == pytest.approx(expected, abs=1e-5)


def test_a_triangle_has_the_lines_a_person_counts() -> None:
    # under the diagonal from (0, 0) to (40, 40): x - y runs from 0 to 40, 14.14 steps of 2 sqrt 2
    lines = hatch_polygon(((ZERO, ZERO), (Fraction(40), ZERO), (Fraction(40), Fraction(40))))
    assert len(lines) == 1 + 14
    assert (lines[0].a, lines[0].b) == ((ZERO, ZERO), (Fraction(40), Fraction(40)))
    step = Fraction(2_828_427_124, 1_000_000_000)
    for number, line in enumerate(lines):
        assert line.pen is Pen.HATCH
        assert (line.a, line.b) == ((number * step, ZERO), (Fraction(40), 40 - number * step))
        assert {type(value) for value in (*line.a, *line.b)} == {Fraction}


def test_a_polygon_is_hatched_in_step_with_the_rectangle_beside_it() -> None:
    wedge = hatch_polygon(
        ((Fraction(30), ZERO), (Fraction(30), Fraction(20)), (Fraction(75), Fraction(7)))
    )
    beside = hatch_rectangle((ZERO, ZERO), (Fraction(30), Fraction(20)))
    # every line that reaches the seam from one side goes on from the same spot on the other
    seam = {line.b for line in beside if line.b[0] == 30} - {(Fraction(30), Fraction(20))}
    assert len(seam) == 7
    assert seam == {line.a for line in wedge if line.a[0] == 30}


def test_the_mark_goes_onto_the_lines_and_nothing_is_hatched_as_nothing() -> None:
    corners = ((ZERO, ZERO), (Fraction(9), ZERO), (Fraction(5), Fraction(8)))
    assert {line.mark for line in hatch_polygon(corners, mark="m")} == {"m"}
    assert hatch_polygon(()) == ()
    # two corners, even along a line of the grid
    assert hatch_polygon(((ZERO, ZERO), (Fraction(8), Fraction(8)))) == ()


sixteenths = st.integers(-800, 800).map(lambda n: Fraction(n, 16))


@given(
    st.lists(st.tuples(sixteenths, sixteenths), min_size=3, max_size=9),
    st.sampled_from((Fraction(1), Fraction(2), Fraction(7, 2))),
)
@settings(max_examples=80, deadline=None)
def test_hatching_lies_inside_and_is_as_long_as_area_over_pitch(
    spots: list[tuple[Fraction, Fraction]], pitch: Fraction
) -> None:
    hull = MultiPoint([(float(x), float(y)) for x, y in spots]).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 1:
        return
    # sixteenths are exact in a float, and shapely picks its corners from the spots given
    corners = [(Fraction(x), Fraction(y)) for x, y in hull.exterior.coords[:-1]]
    lines = hatch_polygon(corners, pitch)
    assert {(line.a, line.b) for line in hatch_polygon(corners[::-1], pitch)} == {
        (line.a, line.b) for line in lines
    }
    around = hull.buffer(1e-9)
    for line in lines:
        assert around.covers(LineString([tuple(map(float, line.a)), tuple(map(float, line.b))]))
    # The length that a 45-degree line has inside, over its distance across, rises to one greatest
    # value and falls again (the polygon is convex), and its integral is the area. For such a
    # curve a sum of samples a pitch apart, times the pitch, misses the integral by at most a
    # pitch times the greatest value. That one is found at a corner: between corners the curve is
    # straight. (The step has nine digits: at most 1e-9 of the length on top.)
    greatest = max(
        LineString([(x - 200, y - 200), (x + 200, y + 200)]).intersection(around).length
        for x, y in hull.exterior.coords
    )
    total = sum(sqrt(2) * float(line.b[0] - line.a[0]) for line in lines)
    assert abs(total - hull.area / float(pitch)) <= greatest + 1e-4
