"""The records of a drawing at real size: lines, polygons, circles and text in millimetres.

The origin is the lower left corner, x to the right, y up. Everything is an exact Fraction of a
millimetre until a writer puts it on paper. Line kinds follow ISO 128, letter heights ISO 3098.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from typing import Literal

Spot = tuple[Fraction, Fraction]
Align = Literal["left", "middle", "right"]


class Pen(Enum):
    """A line kind: width in mm, and the dash pattern in mm (empty: continuous)."""

    WIDE = ("wide", Fraction(1, 2), ())
    NARROW = ("narrow", Fraction(1, 4), ())
    HIDDEN = ("hidden", Fraction(1, 4), (Fraction(3), Fraction(3, 2)))
    CENTRE = (
        "centre",
        Fraction(9, 50),
        (Fraction(8), Fraction(3, 2), Fraction(1, 2), Fraction(3, 2)),
    )
    FOLD = (
        "fold",
        Fraction(1, 4),
        (Fraction(8), Fraction(3, 2), Fraction(1, 2), Fraction(3, 2), Fraction(1, 2),
         Fraction(3, 2)),
    )
    HATCH = ("hatch", Fraction(13, 100), ())
    THIN = ("thin", Fraction(9, 50), ())
    HEAVY = ("heavy", Fraction(1), ())

    def __init__(self, label: str, width: Fraction, dashes: tuple[Fraction, ...]) -> None:
        self.label = label
        self.width = width
        self.dashes = dashes


@dataclass(frozen=True)
class Line:
    """A straight line; `mark` names the mark of the piece that it shows, if any.

    `phase` is how far into the pen's dash pattern the line starts, in mm: a line cut in two by
    the edge of a page goes on in step with its other half.
    """

    a: Spot
    b: Spot
    pen: Pen = Pen.NARROW
    mark: str = ""
    phase: Fraction = Fraction(0)


@dataclass(frozen=True)
class Polygon:
    """A closed outline, stroked with `pen` (if any) and filled black or white (if asked)."""

    points: tuple[Spot, ...]
    pen: Pen | None = Pen.NARROW
    fill: Literal["", "black", "white"] = ""
    mark: str = ""


@dataclass(frozen=True)
class Circle:
    """A circle, stroked with `pen` (if any) and filled black or white (if asked)."""

    centre: Spot
    radius: Fraction
    pen: Pen | None = Pen.NARROW
    fill: Literal["", "black", "white"] = ""
    mark: str = ""


@dataclass(frozen=True)
class Text:
    """One line of text standing on the baseline at `at`; `height` is that of a capital, in mm.

    `turn` is 0, or 90 for text that reads up the page.
    """

    at: Spot
    words: str
    height: Fraction = Fraction(5, 2)
    align: Align = "left"
    bold: bool = False
    turn: Literal[0, 90] = 0


Stroke = Line | Polygon | Circle | Text


@dataclass(frozen=True)
class Scene:
    """A drawing of a stated size in mm, and its strokes in the order they are drawn."""

    width: Fraction
    height: Fraction
    strokes: tuple[Stroke, ...]


def moved(stroke: Stroke, dx: Fraction, dy: Fraction) -> Stroke:
    """The same stroke, shifted."""

    def shift(spot: Spot) -> Spot:
        return (spot[0] + dx, spot[1] + dy)

    if isinstance(stroke, Line):
        return Line(shift(stroke.a), shift(stroke.b), stroke.pen, stroke.mark, stroke.phase)
    if isinstance(stroke, Polygon):
        return replace(stroke, points=tuple(shift(p) for p in stroke.points))
    if isinstance(stroke, Circle):
        return replace(stroke, centre=shift(stroke.centre))
    return replace(stroke, at=shift(stroke.at))


@dataclass(frozen=True)
class Sheet:
    """One finished drawing and the words that go with it on every page it is printed on.

    `way` says how it goes onto paper: "page" scenes are made to fit one page's drawing area,
    "full size" scenes are cut into tiles where a page is too small, "strip" scenes (sticks) are
    cut to length and laid side by side. `keep_whole` holds spans of x (mm) that a join should
    not fall into, such as the neighbourhood of a knife line.
    """

    name: str
    subject: str
    scene: Scene
    way: Literal["page", "full size", "strip"]
    scale: str = "1:1"
    keep_whole: tuple[tuple[Fraction, Fraction], ...] = ()
