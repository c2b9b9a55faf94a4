"""Arrows, dimension lines and the marks of the bench."""

from fractions import Fraction
from itertools import pairwise

import pytest

from layout.scene.arrows import (
    arrow,
    arrowhead,
    caret,
    cross,
    dimension,
    face_mark,
    fold_line,
    grain_arrow,
    tick_box,
    turned,
)
from layout.scene.crop import bounds
from layout.scene.figures import Plain, figure_width
from layout.scene.strokes import Circle, Line, Pen, Polygon, Stroke, Text

F = Fraction


def parts(strokes: tuple[Stroke, ...]) -> tuple[list[Line], list[Polygon], list[Text]]:
    lines = [s for s in strokes if isinstance(s, Line)]
    heads = [s for s in strokes if isinstance(s, Polygon) and len(s.points) == 3]
    return lines, heads, [s for s in strokes if isinstance(s, Text)]


def test_a_head_is_three_mm_long_filled_and_ends_at_its_tip() -> None:
    head = arrowhead((F(10), F(5)), (F(7), F(0)))
    assert head.points == ((10, 5), (7, F(11, 2)), (7, F(9, 2)))
    assert (head.fill, head.pen) == ("black", None)
    # a 3-4-5 direction stays exact
    sloped = arrowhead((F(0), F(0)), (F(3), F(4)))
    middle = [(a + b) / 2 for a, b in zip(*sloped.points[1:], strict=True)]
    assert middle == [F(-9, 5), F(-12, 5)]
    # any other is right to far below a pen's width
    steep = arrowhead((F(0), F(0)), (F(1), F(1)))
    (x, y) = [(a + b) / 2 for a, b in zip(*steep.points[1:], strict=True)]
    assert abs(x * x + y * y - 9) < F(1, 10**12)
    with pytest.raises(ValueError, match="points nowhere"):
        arrowhead((F(0), F(0)), (F(0), F(0)))


def test_an_arrow_points_from_a_to_b() -> None:
    line, head = arrow((F(0), F(0)), (F(0), F(-20)), mark="gauge 1")
    assert line == Line((F(0), F(0)), (F(0), F(-20)), Pen.NARROW, "gauge 1")
    assert isinstance(head, Polygon)
    assert {y for _, y in head.points[1:]} == {-17}


def test_a_dimension_has_its_figure_over_the_line_and_heads_at_both_ends() -> None:
    lines, heads, texts = parts(dimension((F(80), F(20)), (F(10), F(20)), Plain(2, 13, 32)))
    assert [(line.a, line.b) for line in lines] == [((10, 20), (80, 20))]
    assert {head.points[0] for head in heads} == {(10, 20), (80, 20)}
    assert all(10 <= x <= 80 for head in heads for x, _ in head.points)
    # nothing of the figure, its denominator included, touches the line
    assert min(text.at[1] for text in texts) > 20


def test_a_short_dimension_has_heads_outside_and_its_figure_beyond() -> None:
    shown = Plain(0, 5, 16)
    lines, heads, texts = parts(dimension((F(0), F(0)), (F(5), F(0)), shown))
    assert {head.points[0] for head in heads} == {(0, 0), (5, 0)}
    outside = [x for head in heads for x, _ in head.points[1:]]
    assert all(x < 0 or x > 5 for x in outside)
    assert min(bounds(text)[0][0] for text in texts) > 5
    assert lines[0].b[0] >= 5 + figure_width(shown, F(7, 2))


def test_an_upright_dimension_reads_up_at_the_left() -> None:
    _, heads, texts = parts(dimension((F(50), F(0)), (F(50), F(90)), Plain(3, 1, 2)))
    assert {text.turn for text in texts} == {90}
    assert max(bounds(text)[1][0] for text in texts) <= 50
    assert {head.points[0] for head in heads} == {(50, 0), (50, 90)}
    with pytest.raises(ValueError, match="level or upright"):
        dimension((F(0), F(0)), (F(1), F(2)), Plain(1))


def test_signs_of_the_bench() -> None:
    assert fold_line((F(0), F(0)), (F(9), F(0))).pen is Pen.FOLD
    assert cross((F(0), F(0)), (F(4), F(2))) == (
        Line((F(0), F(0)), (F(4), F(2))), Line((F(0), F(2)), (F(4), F(0))),
    )
    one, two = caret((F(10), F(0)), F(4), "up")
    assert one.b == two.a == (10, 0)
    assert {one.a, two.b} == {(8, 4), (12, 4)}
    assert tick_box((F(1), F(2))).points == (
        (1, 2), (F(9, 2), 2), (F(9, 2), F(11, 2)), (1, F(11, 2)),
    )
    line, head, tail = grain_arrow((F(0), F(0)), F(30), upright=True)
    assert isinstance(line, Line)
    assert (line.a, line.b, line.pen) == ((0, -15), (0, 15), Pen.THIN)
    assert isinstance(head, Polygon)
    assert isinstance(tail, Polygon)
    assert (head.points[0], tail.points[0]) == ((0, 15), (0, -15))


@pytest.mark.parametrize("tail", ["up", "down", "left", "right"])
def test_the_face_mark_is_one_line_that_loops_and_stands_on_its_tail(tail: str) -> None:
    lines = face_mark((F(3), F(4)), F(10), tail)  # type: ignore[arg-type]
    assert lines[0].a == (3, 4)
    for before, line in pairwise(lines):
        assert before.b == line.a
    assert crossings(lines) == 1
    ends = [line.b for line in lines]
    # the loop lies away from the edge that the tail points to
    away = {"down": min(y - 4 for _, y in ends), "up": min(4 - y for _, y in ends),
            "left": min(x - 3 for x, _ in ends), "right": min(3 - x for x, _ in ends)}[tail]
    assert away > 0


def crossings(lines: tuple[Line, ...]) -> int:
    from shapely.geometry import LineString

    drawn = [LineString([tuple(map(float, s.a)), tuple(map(float, s.b))]) for s in lines]
    return sum(
        one.crosses(other)
        for i, one in enumerate(drawn)
        for other in drawn[i + 2 :]
    )


def test_a_quarter_turn() -> None:
    assert turned(Line((F(1), F(2)), (F(3), F(4)))) == Line((F(-2), F(1)), (F(-4), F(3)))
    assert turned(Circle((F(1), F(2)), F(3))) == Circle((F(-2), F(1)), F(3))
    text = Text((F(1), F(0)), "up")
    assert turned(text) == Text((F(0), F(1)), "up", turn=90)
    with pytest.raises(ValueError, match="turned further"):
        turned(turned(text))
