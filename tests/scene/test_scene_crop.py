"""Cropping; shapely is the judge of plane geometry."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, MultiPoint, box
from shapely.geometry import Polygon as Area

from layout.scene.crop import bounds, crop, crop_line, crop_points
from layout.scene.lettering import text_width
from layout.scene.strokes import Circle, Line, Pen, Polygon, Spot, Stroke, Text

F = Fraction
LOW, HIGH = (F(0), F(0)), (F(30), F(20))
WINDOW = box(0, 0, 30, 20)

halves = st.integers(-40, 120).map(lambda n: F(n, 2))
spots = st.tuples(halves, halves)


def test_a_line_is_cut_exactly() -> None:
    line = Line((F(-10), F(-3)), (F(50), F(4)), Pen.WIDE, "shoulder")
    part = crop_line(line, LOW, HIGH)
    # y runs from -3 to 4 over 60: it is 0 at x = 60 * 3/7 - 10, and 5/3 at x = 30
    assert part == Line((F(110, 7), F(0)), (F(30), F(5, 3)), Pen.WIDE, "shoulder")


def test_lines_on_the_border_stay_and_mere_touches_go() -> None:
    edge = Line((F(0), F(0)), (F(30), F(0)))
    assert crop([edge], LOW, HIGH) == (edge,)
    corner = Line((F(-1), F(1)), (F(1), F(-1)))
    assert crop([corner], LOW, HIGH) == ()
    assert crop([Line((F(5), F(5)), (F(5), F(5)))], LOW, HIGH) == ()
    assert crop([Line((F(31), F(0)), (F(31), F(20)))], LOW, HIGH) == ()


@given(spots, spots)
@settings(max_examples=80, deadline=None)
def test_lines_are_cut_as_shapely_cuts_them(a: Spot, b: Spot) -> None:
    part = crop_line(Line(a, b), LOW, HIGH)
    expected = LineString([tuple(map(float, a)), tuple(map(float, b))]).intersection(WINDOW)
    if part is None:
        assert expected.length == 0
        return
    found = LineString([tuple(map(float, part.a)), tuple(map(float, part.b))])
    assert found.hausdorff_distance(expected) < 1e-9
    # exactly on the line, not merely near it
    across = (part.a[0] - a[0]) * (b[1] - a[1]) - (part.a[1] - a[1]) * (b[0] - a[0])
    assert across == 0


@given(st.lists(spots, min_size=3, max_size=7))
@settings(max_examples=80, deadline=None)
def test_fills_are_cut_as_shapely_cuts_them(corners: list[Spot]) -> None:
    hull = MultiPoint([tuple(map(float, spot)) for spot in corners]).convex_hull
    if hull.geom_type != "Polygon":
        return
    points = [(F(x), F(y)) for x, y in hull.exterior.coords[:-1]]
    inside = crop_points(points, LOW, HIGH)
    expected = hull.intersection(WINDOW)
    found = Area([tuple(map(float, spot)) for spot in inside]).area if inside else 0
    assert found == pytest.approx(expected.area, abs=1e-9)


def test_a_cut_polygon_keeps_its_own_outline_and_gains_none() -> None:
    square = Polygon(
        ((F(10), F(10)), (F(40), F(10)), (F(40), F(40)), (F(10), F(40))), Pen.WIDE, "white", "m"
    )
    fill, *edges = crop([square], LOW, HIGH)
    assert isinstance(fill, Polygon)
    assert set(fill.points) == {(10, 10), (30, 10), (30, 20), (10, 20)}
    assert (fill.pen, fill.fill, fill.mark) == (None, "white", "m")
    # only what was drawn before: no line along the window's own border
    assert edges == [
        Line((F(10), F(10)), (F(30), F(10)), Pen.WIDE, "m"),
        Line((F(10), F(20)), (F(10), F(10)), Pen.WIDE, "m"),
    ]
    assert crop([square], (F(0), F(0)), (F(50), F(50))) == (square,)
    assert crop([square], (F(50), F(50)), (F(60), F(60))) == ()


def test_circles_and_text_stay_whole_where_they_touch() -> None:
    width = text_width("rail", F(5))
    near = Text((-width + 1, F(5)), "rail", F(5))
    far = Text((-width - 1, F(5)), "rail", F(5))
    inside = Circle((F(-3), F(5)), F(4))
    outside = Circle((F(-5), F(5)), F(4))
    strokes: list[Stroke] = [near, far, inside, outside]
    assert crop(strokes, LOW, HIGH) == (near, inside)


def test_text_that_reads_up_is_bounded_upright() -> None:
    text = Text((F(0), F(0)), "rail", F(5), "middle", turn=90)
    (x0, y0), (x1, y1) = bounds(text)
    assert y1 - y0 == text_width("rail", F(5))
    assert y0 == -y1
    assert x0 < -5 < 0 < x1


def test_dashes_go_on_in_step_over_a_cut() -> None:
    line = Line((F(-7), F(5)), (F(50), F(5)), Pen.HIDDEN)
    part = crop_line(line, LOW, HIGH)
    assert part is not None
    # the pattern is 3 + 1.5 long; 7 mm of line went before
    assert part.phase == F(7) % F(9, 2) == F(5, 2)
    again = crop_line(part, (F(10), F(0)), HIGH)
    assert again is not None
    assert again.phase == F(17) % F(9, 2)


def test_dashes_run_round_the_corners_of_a_cut_polygon() -> None:
    square = Polygon(((F(-7), F(5)), (F(10), F(5)), (F(10), F(50)), (F(-7), F(50))), Pen.HIDDEN)
    bottom, right = (s for s in crop([square], LOW, HIGH) if isinstance(s, Line))
    assert bottom.phase == F(7) % F(9, 2)
    assert right.phase == F(17) % F(9, 2)
