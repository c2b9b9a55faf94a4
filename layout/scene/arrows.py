"""The signs of drawings and of the bench: arrows, dimension lines, face marks, crosses, boxes.

Arrowheads and dimension lines follow ISO 129: filled heads, 3 mm long, the figure over the line.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import isqrt
from typing import Literal

from layout.scene.figures import Shown, drop, figure, figure_width
from layout.scene.strokes import Line, Pen, Polygon, Spot, Stroke, Text, moved

HEAD = Fraction(3)
_HEAD_HALF_WIDTH = Fraction(1, 6)  # of its length
_FINE = 10**18

Way = Literal["up", "down", "left", "right"]
_WAYS: dict[Way, tuple[int, int]] = {
    "up": (0, 1),
    "down": (0, -1),
    "left": (-1, 0),
    "right": (1, 0),
}

# The looped face mark as the pencil draws it, on a square of 10 with its tail's end at (0, 0):
# up from the edge, over and round a loop, and back across its own tail.
_FACE_MARK = (
    (0, 0), (1, 2), (2, 4), (3, 6), (4, 8), (5, 9), (6, 10), (7, 10), (8, 9), (8, 8),
    (7, 6), (6, 5), (4, 4), (2, 4), (0, 5),
)


def arrowhead(tip: Spot, towards: Spot, size: Fraction = HEAD) -> Polygon:
    """A filled arrowhead, `size` mm long, with its tip here.

    It points the way from (0, 0) to `towards`, which may be of any length but not nothing.
    """
    (x, y), (dx, dy) = tip, _unit(towards)
    half = size * _HEAD_HALF_WIDTH
    back = (x - dx * size, y - dy * size)
    left = (back[0] - dy * half, back[1] + dx * half)
    right = (back[0] + dy * half, back[1] - dx * half)
    return Polygon((tip, left, right), None, "black")


def arrow(
    a: Spot, b: Spot, pen: Pen = Pen.NARROW, size: Fraction = HEAD, mark: str = ""
) -> tuple[Stroke, ...]:
    """A line from a to b with a filled head at b."""
    return (Line(a, b, pen, mark), arrowhead(b, _from_to(a, b), size))


def dimension(
    a: Spot, b: Spot, shown: Shown, height: Fraction = Fraction(7, 2), mark: str = ""
) -> tuple[Stroke, ...]:
    """A level or upright dimension line between two spots, with its figure over it (ISO 129).

    An upright one reads up the page, its figure at the left. Where the line is too short for
    heads and figure, the heads come from outside and the figure stands beyond b.
    Raises ValueError for a sloping line.
    """
    if a[0] != b[0] and a[1] != b[1]:
        raise ValueError("a dimension line runs level or upright")
    level = a[1] == b[1]
    # worked out lying level from the origin, then put in its place
    length = abs(b[0] - a[0]) + abs(b[1] - a[1])
    width = figure_width(shown, height)
    zero = Fraction(0)
    flat: list[Stroke] = []
    up = Fraction(1) + (drop(height) if shown.numerator else zero)
    start, stop = (zero, zero), (length, zero)
    if length >= width + 2 * HEAD + 1:
        flat.append(Line(start, stop, Pen.THIN, mark))
        flat += [arrowhead(start, (Fraction(-1), zero)), arrowhead(stop, (Fraction(1), zero))]
        flat += figure(shown, (length / 2, up), height, "middle")[0]
    else:
        out = 2 * HEAD
        flat.append(Line((-out, zero), (length + out + 1 + width, zero), Pen.THIN, mark))
        flat += [arrowhead(start, (Fraction(1), zero)), arrowhead(stop, (Fraction(-1), zero))]
        flat += figure(shown, (length + out + 1, up), height, "left")[0]
    low = (min(a[0], b[0]), min(a[1], b[1]))
    return tuple(moved(stroke if level else turned(stroke), *low) for stroke in flat)


def fold_line(a: Spot, b: Spot) -> Line:
    """Where paper folds over an arris: long dash, dot, dot."""
    return Line(a, b, Pen.FOLD)


def cross(low: Spot, high: Spot, pen: Pen = Pen.NARROW) -> tuple[Line, Line]:
    """The cross in waste: both diagonals of an upright rectangle."""
    return (Line(low, high, pen), Line((low[0], high[1]), (high[0], low[1]), pen))


def face_mark(at: Spot, size: Fraction, tail: Way = "down") -> tuple[Line, ...]:
    """The looped face mark, `size` mm high; the end of its tail, at `at`, lies on the face edge.

    `tail` says which way that edge lies from the loop.
    """
    dx, dy = _WAYS[tail]
    spots = []
    for across, along in _rounded(_FACE_MARK):
        u, v = size * across / 10, size * along / 10
        spots.append((at[0] - u * dy - v * dx, at[1] + u * dx - v * dy))
    return tuple(Line(a, b, Pen.NARROW) for a, b in pairwise(spots))


@cache
def _rounded(corners: tuple[tuple[int, int], ...]) -> tuple[Spot, ...]:
    """A line through these corners with the corners cut off, and those cut off again.

    Both ends stay where they are.
    """
    spots = [(Fraction(x), Fraction(y)) for x, y in corners]
    for _ in range(2):
        cut = [spots[0]]
        for a, b in pairwise(spots):
            cut.append(((3 * a[0] + b[0]) / 4, (3 * a[1] + b[1]) / 4))
            cut.append(((a[0] + 3 * b[0]) / 4, (a[1] + 3 * b[1]) / 4))
        spots = [*cut, spots[-1]]
    return tuple(spots)


def caret(at: Spot, size: Fraction, opening: Way = "up") -> tuple[Line, Line]:
    """The caret on the face edge: its point on the edge at `at`, opening the way given."""
    dx, dy = _WAYS[opening]
    feet = [
        (at[0] + dx * size - dy * side * size / 2, at[1] + dy * size + dx * side * size / 2)
        for side in (1, -1)
    ]
    return (Line(feet[0], at), Line(at, feet[1]))


def grain_arrow(middle: Spot, length: Fraction, upright: bool = False) -> tuple[Stroke, ...]:
    """A light arrow with a head at both ends: which way the grain runs."""
    half = length / 2
    dx, dy = (Fraction(0), half) if upright else (half, Fraction(0))
    a = (middle[0] - dx, middle[1] - dy)
    b = (middle[0] + dx, middle[1] + dy)
    size = min(HEAD * 2 / 3, length / 3)
    return (
        Line(a, b, Pen.THIN),
        arrowhead(b, _from_to(a, b), size),
        arrowhead(a, _from_to(b, a), size),
    )


def tick_box(at: Spot, size: Fraction = Fraction(7, 2)) -> Polygon:
    """A box to tick, its lower left corner here."""
    (x, y) = at
    return Polygon(((x, y), (x + size, y), (x + size, y + size), (x, y + size)))


def turned(stroke: Stroke) -> Stroke:
    """The same stroke a quarter turn to the left about the origin; level text reads up."""
    def turn(spot: Spot) -> Spot:
        return (-spot[1], spot[0])

    if isinstance(stroke, Line):
        return replace(stroke, a=turn(stroke.a), b=turn(stroke.b))
    if isinstance(stroke, Polygon):
        return replace(stroke, points=tuple(turn(point) for point in stroke.points))
    if isinstance(stroke, Text):
        if stroke.turn:
            raise ValueError("text that reads up the page can't be turned further")
        return replace(stroke, at=turn(stroke.at), turn=90)
    return replace(stroke, centre=turn(stroke.centre))


def _from_to(a: Spot, b: Spot) -> Spot:
    return (b[0] - a[0], b[1] - a[1])


def _unit(way: Spot) -> Spot:
    """The same way, one mm long. Exact along x and y; elsewhere good to far below any pen."""
    dx, dy = way
    if not (dx or dy):
        raise ValueError("an arrow of no length points nowhere")
    square = dx * dx + dy * dy
    # the root of p/q is the root of p*q over q; eighteen more digits make up for taking it whole
    whole = isqrt(square.numerator * square.denominator * _FINE * _FINE)
    length = Fraction(whole, square.denominator * _FINE)
    return (dx / length, dy / length)
