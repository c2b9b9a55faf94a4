"""What is read back from a file: edges, circles and texts in mm, and the geometry of reading."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import hypot

Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
IDENTITY: Matrix = (1, 0, 0, 1, 0, 0)


@dataclass(frozen=True)
class Segment:
    """A straight edge read back, in mm from the lower left corner; pen 0 where only filled."""

    a: Point
    b: Point
    pen: float


@dataclass
class ReadPage:
    """A page read back: its size in mm, edges, circles (x, y, radius), and texts."""

    width: float
    height: float
    segments: list[Segment] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)


def gap(a: Point, b: Point) -> float:
    """The distance of two points."""
    return hypot(a[0] - b[0], a[1] - b[1])


def times(first: Matrix, then: Matrix) -> Matrix:
    """One transformation followed by another."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j,
        e * g + f * i + k, e * h + f * j + m,
    )  # fmt: skip


def through(matrix: Matrix, point: Point) -> Point:
    """A point under a transformation."""
    a, b, c, d, e, f = matrix
    return (a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f)
