"""Figures of cuts; sums on paper, shapely (areas) and manifold3d (slices) are the judges."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import pi

import numpy
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from layout.mark import Cylinder, Hull, Spot2, box
from layout.measure import default_rule
from layout.part import (
    AXES,
    FACE_AXES,
    FACE_NORMAL,
    FACES,
    Axis,
    Face,
    Part,
    Placement,
    Point,
)
from layout.scene.hatch import hatch_rectangle
from layout.scene.strokes import Pen, Polygon
from layout.sheets.easel import Easel
from layout.sheets.figures_of import circle_on, figure_on, section_at
from tests.drawn import fractions

F = Fraction
ZERO = F(0)
PART = Part(
    "leg", "leg", "leg", F(700), F(60), F(30), Placement((ZERO, ZERO, ZERO), "+Z", "+X", "+Y")
)


def spots(*pairs: tuple[int | str, int | str]) -> tuple[Spot2, ...]:
    return tuple((F(u), F(v)) for u, v in pairs)


def hull(*points: tuple[int, int, int]) -> Hull:
    return Hull(tuple((F(a), F(b), F(c)) for a, b, c in points))


def swept(outline: tuple[tuple[int, int], ...], through: tuple[int, int]) -> Hull:
    """A figure in L and W, drawn out along T."""
    return hull(*((along, across, t) for along, across in outline for t in through))


def area(corners: tuple[Spot2, ...]) -> Fraction:
    """Shoelace sum: above zero where the corners go round counter-clockwise."""
    ends = (*corners[1:], *corners[:1])
    return sum((a[0] * b[1] - a[1] * b[0] for a, b in zip(corners, ends, strict=True)), ZERO) / 2


def shape_of(corners: tuple[Spot2, ...]) -> shapely.Geometry:
    return shapely.Polygon([(float(u), float(v)) for u, v in corners])


def figures(shape: Hull | Cylinder) -> dict[Face, tuple[Spot2, ...]]:
    """Every surface on which the shape shows."""
    found = {face: figure_on(shape, PART, face) for face in FACES}
    return {face: corners for face, corners in found.items() if corners}


def test_a_box_mortise_shows_only_where_it_comes_out() -> None:
    mouth = spots((100, 10), (180, 10), (180, 20), (100, 20))
    blind = box((F(100), F(180)), (ZERO, F(40)), (F(10), F(20)))
    assert figures(blind) == {"edge": mouth}
    through = box((F(100), F(180)), (ZERO, F(60)), (F(10), F(20)))
    assert figures(through) == {"edge": mouth, "far edge": mouth}
    proud = box((F(100), F(180)), (F(-5), F(65)), (F(10), F(20)))
    assert figures(proud) == {"edge": mouth, "far edge": mouth}
    inside = box((F(100), F(180)), (F(1), F(59)), (F(10), F(20)))
    assert figures(inside) == {}


def test_a_cut_that_runs_out_is_cut_at_the_edges_of_each_surface() -> None:
    # a rabbet over the arris of face and edge, and out over end A
    rabbet = box((F(-9), F(50)), (F(-9), F(12)), (F(-9), F(8)))
    assert figures(rabbet) == {
        "face": spots((0, 0), (50, 0), (50, 12), (0, 12)),
        "edge": spots((0, 0), (50, 0), (50, 8), (0, 8)),
        "end A": spots((0, 0), (12, 0), (12, 8), (0, 8)),
    }


def test_a_sloped_haunch_wedge() -> None:
    # no depth at end A, 12 deep at 30 from it
    wedge = swept(((0, 0), (30, 0), (30, 12)), (10, 20))
    # on end A it has a line only
    assert figures(wedge) == {"edge": spots((0, 10), (30, 10), (30, 20), (0, 20))}
    assert section_at(wedge, "T", F(15)) == spots((0, 0), (30, 0), (30, 12))
    # a quarter along, a quarter deep
    quarter = section_at(wedge, "L", F(15, 2))
    assert quarter == spots((0, 10), (3, 10), (3, 20), (0, 20))
    # at 4 deep, the last two thirds of its length
    assert section_at(wedge, "W", F(4)) == spots((10, 10), (30, 10), (30, 20), (10, 20))


def test_a_flared_mortise_is_wider_where_it_comes_out() -> None:
    flared = swept(((100, 0), (150, 0), (90, 60), (160, 60)), (10, 20))
    assert figures(flared) == {
        "edge": spots((100, 10), (150, 10), (150, 20), (100, 20)),
        "far edge": spots((90, 10), (160, 10), (160, 20), (90, 20)),
    }
    # drawn out to 80, it is 80..170 there: at the surface three quarters of the flare
    proud = swept(((100, 0), (150, 0), (80, 80), (170, 80)), (10, 20))
    assert figures(proud)["far edge"] == spots((85, 10), (165, 10), (165, 20), (85, 20))
    assert section_at(proud, "W", F(20)) == spots((95, 10), (155, 10), (155, 20), (95, 20))


def test_a_corner_cut_off_shows_as_a_triangle_on_three_surfaces() -> None:
    corner = hull((700, 0, 0), (680, 0, 0), (700, 30, 0), (700, 0, 10))
    assert figures(corner) == {
        "face": spots((680, 0), (700, 0), (700, 30)),
        "edge": spots((680, 0), (700, 0), (700, 10)),
        "end B": spots((0, 0), (30, 0), (0, 10)),
    }
    # drawn out beyond the wood: 740 - L + (2/3)(W + 30) + 2 (T + 10) <= 140 in it, so on the face
    # L >= 640 at W 0; at L 700 W <= 90, which is off the wood, so L >= 680 at the far edge
    proud = hull((740, -30, -10), (600, -30, -10), (740, 180, -10), (740, -30, 60))
    assert figures(proud) == {
        "face": spots((640, 0), (700, 0), (700, 60), (680, 60)),
        "far edge": spots((680, 0), (700, 0), (700, 10)),
        "edge": spots((640, 0), (700, 0), (700, 30)),
        "end B": spots((0, 0), (60, 0), (60, 10), (0, 30)),
    }
    # 740 - L + (2/3)(W + 60) + 2 (T + 20) <= 120 in this one: it has the part's corner only
    missed = hull((740, -60, -20), (620, -60, -20), (740, 120, -20), (740, -60, 40))
    assert figures(missed) == {}


def test_touching_in_a_line_or_a_point_is_no_figure() -> None:
    ridge = hull((100, 20, 5), (200, 20, 5), (100, 20, 25), (200, 20, 25), (100, 0, 9), (200, 0, 9))
    assert figures(ridge) == {}
    spike = hull((100, 20, 5), (200, 20, 5), (150, 20, 25), (150, 0, 9))
    assert figures(spike) == {}
    assert figures(Hull(())) == {}
    # beside the surface, sharing only its arris
    assert "face" not in figures(box((F(10), F(20)), (F(-5), ZERO), (ZERO, F(5))))


def test_a_bored_hole_shows_as_its_circle() -> None:
    peg = Cylinder("T", (F(40), F(25)), F(4), ZERO, F(18))
    assert circle_on(peg, PART, "face") == ((F(40), F(25)), F(4))
    assert circle_on(peg, PART, "back") is None
    assert circle_on(peg, PART, "edge") is None
    assert figures(peg).keys() == {"face"}
    # from the other side, and right through
    assert circle_on(peg._replace(start=F(35), end=F(18)), PART, "back") == ((F(40), F(25)), F(4))
    through = peg._replace(end=F(30))
    assert figures(through).keys() == {"face", "back"}
    # each axis: the centre is in the order of (u, v)
    along = Cylinder("L", (F(25), F(9)), F(3), ZERO, F(50))
    assert circle_on(along, PART, "end A") == ((F(25), F(9)), F(3))
    across = Cylinder("W", (F(90), F(9)), F(3), F(20), F(60))
    assert circle_on(across, PART, "far edge") == ((F(90), F(9)), F(3))
    assert circle_on(across, PART, "edge") is None


def test_a_circle_beside_the_surface_does_not_come_out_on_it() -> None:
    # centre 3 and 4 beyond the corner of the face: 5 away
    beside = Cylinder("T", (F(-3), F(-4)), F(5), ZERO, F(30))
    assert circle_on(beside, PART, "face") is None
    wider = beside._replace(radius=F(51, 10))
    assert circle_on(wider, PART, "face") == ((F(-3), F(-4)), F(51, 10))


def test_the_polygon_of_a_circle_has_its_corners_exactly_on_it() -> None:
    peg = Cylinder("T", (F(40), F(25)), F(4), ZERO, F(18))
    corners = figure_on(peg, PART, "face")
    assert len(corners) == 32
    assert {(u - 40) ** 2 + (v - 25) ** 2 for u, v in corners} == {F(16)}
    assert float(area(corners)) == pytest.approx(16 * pi, rel=0.01)
    # each side stays within a hundredth of the radius
    for (u, v), (x, y) in pairwise((*corners, corners[0])):
        assert ((u + x) / 2 - 40) ** 2 + ((v + y) / 2 - 25) ** 2 > F(99, 25) ** 2


def test_a_hole_that_breaks_out_of_a_side_shows_as_a_rectangle() -> None:
    # centre 3 inside the edge, radius 5: half as wide as a 3-4-5 triangle is high
    groove = Cylinder("L", (F(3), F(15)), F(5), ZERO, F(100))
    assert figure_on(groove, PART, "edge") == spots((0, 11), (100, 11), (100, 19), (0, 19))
    assert circle_on(groove, PART, "edge") is None
    # a root that no fraction holds: never wider than it is, and nine digits of it
    (_, low), _, (_, high), _ = figure_on(groove._replace(radius=F(4)), PART, "edge")
    assert 0 <= 7 - ((high - low) / 2) ** 2 < F(1, 10**8)
    # touching in a line only, or not at all
    assert figure_on(groove._replace(radius=F(3)), PART, "edge") == ()
    assert figure_on(groove._replace(radius=F(2)), PART, "edge") == ()


def test_an_easel_draws_and_hatches_a_figure() -> None:
    board = Easel(default_rule("mm"))
    wedge = spots((0, 0), (30, 0), (30, 12))
    board.polygon(wedge, Pen.WIDE, "white", "haunch")
    assert board.strokes == [Polygon(wedge, Pen.WIDE, "white", "haunch")]
    # what does not show on a surface leaves nothing on the sheet
    board.polygon(())
    board.hatch_polygon(())
    assert len(board.strokes) == 1
    square = Easel(board.rule)
    square.hatch_polygon(spots((0, 0), (30, 0), (30, 12), (0, 12)))
    assert square.strokes == list(hatch_rectangle((ZERO, ZERO), (F(30), F(12))))
    assert len(square.strokes) == 4 + 1 + 10


def test_an_easel_draws_a_rectangle_as_its_polygon() -> None:
    one, other = Easel(default_rule("mm")), Easel(default_rule("mm"))
    one.rectangle((ZERO, ZERO), (F(8), F(5)), None, "black", "m")
    other.polygon(spots((0, 0), (8, 0), (8, 5), (0, 5)), None, "black", "m")
    assert one.strokes == other.strokes == [
        Polygon(spots((0, 0), (8, 0), (8, 5), (0, 5)), None, "black", "m")
    ]


def lengths(low: int, high: int) -> st.SearchStrategy[Fraction]:
    return fractions(low, high, 64)


@st.composite
def reaches(draw: st.DrawFn, size: int) -> tuple[Fraction, Fraction]:
    """A stretch along an axis, often flush with the part or out beyond it."""
    one, other = (
        draw(st.one_of(lengths(-20, size + 20), st.sampled_from((ZERO, F(size)))))
        for _ in range(2)
    )
    return min(one, other), max(one, other)


@given(reaches(700), reaches(60), reaches(30), st.sampled_from(FACES))
@settings(max_examples=200, deadline=None)
def test_a_box_covers_exactly_its_share_of_each_surface(
    along: tuple[Fraction, Fraction],
    across: tuple[Fraction, Fraction],
    through: tuple[Fraction, Fraction],
    face: Face,
) -> None:
    reach: dict[Axis, tuple[Fraction, Fraction]] = {"L": along, "W": across, "T": through}
    low, high = reach[FACE_NORMAL[face][0]]
    expected = F(int(low <= PART.plane(face) <= high))
    for axis in FACE_AXES[face]:
        expected *= max(ZERO, min(reach[axis][1], PART.size(axis)) - max(reach[axis][0], ZERO))
    figure = figure_on(box(along, across, through), PART, face)
    assert area(figure) == expected
    assert bool(figure) == (expected > 0)


whole = st.integers(-40, 40)


@given(
    st.lists(st.tuples(whole, whole), min_size=3, max_size=7),
    st.integers(1, 4).map(lambda n: F(n, 2)),
    st.tuples(whole, whole),
    st.integers(0, 20).map(lambda n: F(n, 20)),
    st.sampled_from(FACES),
)
@settings(max_examples=200, deadline=None)
def test_a_frustum_shows_its_own_figure_grown_and_shifted(
    outline: list[tuple[int, int]],
    growth: Fraction,
    shift: tuple[int, int],
    share: Fraction,
    face: Face,
) -> None:
    flat = shapely.MultiPoint(outline).convex_hull
    if flat.geom_type != "Polygon":
        return
    axis = FACE_NORMAL[face][0]
    index = AXES.index(axis)
    # its ends lie 100 apart on the two sides of the surface's plane, `share` of it before it
    near = PART.plane(face) - 100 * share

    def point(u: Fraction, v: Fraction, away: Fraction) -> Point:
        values = [u, v]
        values.insert(index, near + away)
        return (values[0], values[1], values[2])

    shape = Hull(
        tuple(
            spot
            for u, v in outline
            for spot in (
                point(F(u), F(v), ZERO),
                point(u * growth + shift[0], v * growth + shift[1], F(100)),
            )
        )
    )
    scale = 1 + (growth - 1) * share
    corners = {
        (F(u) * scale + shift[0] * share, F(v) * scale + shift[1] * share)
        for u, v in flat.exterior.coords
    }
    section = section_at(shape, axis, PART.plane(face))
    assert set(section) == corners
    assert len(section) == len(corners)
    assert area(section) == F(flat.area) * scale**2
    # judged by area and cover: shapely's own difference trips over edges that nearly coincide
    size = [float(PART.size(a)) for a in FACE_AXES[face]]
    kept = shape_of(section).intersection(shapely.box(0, 0, *size))
    figure = figure_on(shape, PART, face)
    assert float(area(figure)) == pytest.approx(kept.area, abs=1e-6)
    assert not figure or kept.buffer(1e-6).covers(shape_of(figure))


@given(
    st.lists(st.tuples(whole, whole, whole), min_size=4, max_size=12),
    st.sampled_from(AXES),
    st.integers(-39, 39).map(lambda n: F(2 * n + 1, 2)),
)
@settings(max_examples=200, deadline=None)
def test_any_hull_is_cut_as_a_solid_modeller_cuts_it(
    points: list[tuple[int, int, int]], axis: Axis, value: Fraction
) -> None:
    index = AXES.index(axis)
    others = [i for i in range(3) if i != index]
    turned = numpy.array([[p[others[0]], p[others[1]], p[index]] for p in points], dtype=float)
    solid = Manifold.hull_points(turned)
    section = section_at(hull(*points), axis, value)
    if solid.is_empty():  # a flat one: the modeller has none, and a plane can only cut a line of it
        assert section == ()
        return
    assert float(area(section)) == pytest.approx(solid.slice(float(value)).area(), abs=1e-6)
    # round once, always to the left, no corner along a straight side
    for a, b, c in zip(section, section[1:] + section[:1], section[2:] + section[:2], strict=True):
        assert (b[0] - a[0]) * (c[1] - a[1]) > (b[1] - a[1]) * (c[0] - a[0])
