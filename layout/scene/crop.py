"""What of a drawing lies inside a rectangle: lines and polygons cut exactly at its border.

Lines: Y.-D. Liang and B. A. Barsky, A New Concept and Method for Line Clipping, 1984.
Polygons: I. E. Sutherland and G. W. Hodgman, Reentrant Polygon Clipping, 1974.
Both in Fractions, so the two sides of a border share their ends exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from math import isqrt

from layout.scene.lettering import depth, text_width
from layout.scene.strokes import Circle, Line, Polygon, Spot, Stroke, Text

_FINE = 10**9


def crop(strokes: Iterable[Stroke], low: Spot, high: Spot) -> tuple[Stroke, ...]:
    """What of the strokes lies in the rectangle with these two corners, in the same order.

    Lines and polygons are cut exactly, the border itself belonging to the inside. Circles and
    text are kept whole where they touch it: the writer's own clip rectangle trims them. A
    polygon that is cut loses no outline and gains none: its fill is cut to a polygon without a
    pen, and its outline becomes lines.
    """
    kept: list[Stroke] = []
    for stroke in strokes:
        if isinstance(stroke, Line):
            part = crop_line(stroke, low, high)
            kept += [part] if part is not None else []
        elif isinstance(stroke, Polygon):
            kept += _crop_polygon(stroke, low, high)
        elif _overlap(bounds(stroke), (low, high)):
            kept.append(stroke)
    return tuple(kept)


def crop_line(line: Line, low: Spot, high: Spot) -> Line | None:
    """The part of a line inside the rectangle, or None where there is none.

    A line that only touches the border in one spot is not inside. The dashes of what is left
    stay where they were on the whole line.
    """
    if line.a == line.b:
        return None
    # most lines lie wholly inside or wholly beyond one side, which needs no division
    outside = [_beyond(spot, low, high) for spot in (line.a, line.b)]
    if not (outside[0] or outside[1]):
        return line
    if outside[0] & outside[1]:
        return None
    start, stop = Fraction(0), Fraction(1)
    for axis in (0, 1):
        here = line.a[axis]
        step = line.b[axis] - here
        if step == 0:
            if not low[axis] <= here <= high[axis]:
                return None
            continue
        enter, leave = sorted(((low[axis] - here) / step, (high[axis] - here) / step))
        start, stop = max(start, enter), min(stop, leave)
    if start >= stop:
        return None
    if start == 0 and stop == 1:
        return line
    phase = line.phase
    if line.pen.dashes and start > 0:
        phase = (phase + start * _length(line.a, line.b)) % sum(line.pen.dashes)
    return replace(line, a=_along(line, start), b=_along(line, stop), phase=phase)


def bounds(stroke: Stroke) -> tuple[Spot, Spot]:
    """The smallest upright rectangle around a stroke, pen widths left out, as two corners."""
    if isinstance(stroke, Line):
        return _around((stroke.a, stroke.b))
    if isinstance(stroke, Polygon):
        return _around(stroke.points)
    if isinstance(stroke, Circle):
        (x, y), r = stroke.centre, stroke.radius
        return ((x - r, y - r), (x + r, y + r))
    return _text_bounds(stroke)


@lru_cache(maxsize=20_000)  # asked again for every page of a long stick
def _text_bounds(text: Text) -> tuple[Spot, Spot]:
    width = text_width(text.words, text.height, text.bold)
    back = {"left": Fraction(0), "middle": width / 2, "right": width}[text.align]
    below = depth(text.height, text.bold)
    # letters with marks above them stand higher than a capital, by about as much as g hangs down
    above = text.height + below
    (x, y) = text.at
    if text.turn:
        return ((x - above, y - back), (x + below, y - back + width))
    return ((x - back, y - below), (x - back + width, y + above))


def _crop_polygon(polygon: Polygon, low: Spot, high: Spot) -> list[Stroke]:
    around = _around(polygon.points)
    if not _overlap(around, (low, high)):
        return []
    if all(low[i] <= around[0][i] and around[1][i] <= high[i] for i in (0, 1)):
        return [polygon]
    kept: list[Stroke] = []
    if polygon.fill:
        inside = crop_points(polygon.points, low, high)
        if len(inside) > 2:
            kept.append(replace(polygon, points=inside, pen=None))
    if polygon.pen is not None:
        ends = (*polygon.points[1:], polygon.points[0])
        walked = Fraction(0)
        for a, b in zip(polygon.points, ends, strict=True):
            edge = Line(a, b, polygon.pen, polygon.mark)
            if polygon.pen.dashes:
                edge = replace(edge, phase=walked % sum(polygon.pen.dashes))
                walked += _length(a, b)
            part = crop_line(edge, low, high)
            kept += [part] if part is not None else []
    return kept


def crop_points(points: Sequence[Spot], low: Spot, high: Spot) -> tuple[Spot, ...]:
    """The corners of what of a polygon lies inside the rectangle; none where nothing does."""
    corners = list(points)
    for axis in (0, 1):
        for limit, sign in ((low[axis], 1), (high[axis], -1)):
            corners = _cut(corners, axis, limit, sign)
    tidy = [spot for spot, before in zip(corners, [None, *corners], strict=False) if spot != before]
    while len(tidy) > 1 and tidy[0] == tidy[-1]:
        tidy.pop()
    return tuple(tidy) if len(set(tidy)) > 2 else ()


def _cut(points: list[Spot], axis: int, limit: Fraction, sign: int) -> list[Spot]:
    """What of a polygon lies on one side of one border line."""
    kept: list[Spot] = []
    for index, spot in enumerate(points):
        before = points[index - 1]
        inside = (spot[axis] - limit) * sign >= 0
        if inside != ((before[axis] - limit) * sign >= 0):
            share = (limit - before[axis]) / (spot[axis] - before[axis])
            other = before[1 - axis] + (spot[1 - axis] - before[1 - axis]) * share
            kept.append((limit, other) if axis == 0 else (other, limit))
        if inside:
            kept.append(spot)
    return kept


def _beyond(spot: Spot, low: Spot, high: Spot) -> int:
    """Which sides of a rectangle a spot lies beyond, a bit for each; 0 inside or on its border.

    D. Cohen and I. Sutherland's outcodes (W. M. Newman and R. F. Sproull, Principles of Interactive
    Computer Graphics, 1973: from memory).
    """
    (x, y) = spot
    across = 1 if x < low[0] else 2 if x > high[0] else 0
    up = 4 if y < low[1] else 8 if y > high[1] else 0
    return across | up


def _along(line: Line, share: Fraction) -> Spot:
    (ax, ay), (bx, by) = line.a, line.b
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def _length(a: Spot, b: Spot) -> Fraction:
    """A line's length. Exact along x and y; on a slope to nine digits, which dashes can bear."""
    dx, dy = abs(b[0] - a[0]), abs(b[1] - a[1])
    if not (dx and dy):
        return dx + dy
    square = dx * dx + dy * dy
    return Fraction(isqrt(int(square * _FINE * _FINE)), _FINE)


def _around(points: Sequence[Spot]) -> tuple[Spot, Spot]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return ((min(xs), min(ys)), (max(xs), max(ys)))


def _overlap(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> bool:
    return all(one[0][i] <= other[1][i] and other[0][i] <= one[1][i] for i in (0, 1))
