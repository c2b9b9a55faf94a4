"""Where a sheet is drawn up: strokes are put down one by one, then taken off as a Scene."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal

from layout.measure import Rule, Shown, other_rule, show
from layout.scene import arrows
from layout.scene.arrows import Way
from layout.scene.figures import figure, figure_width
from layout.scene.hatch import hatch_polygon, hatch_rectangle
from layout.scene.lettering import fit
from layout.scene.strokes import (
    Align,
    Circle,
    Line,
    Pen,
    Polygon,
    Scene,
    Spot,
    Stroke,
    Text,
    moved,
)

# Under every drawing that leads to a machine or an edge tool.
CAUTION = "At a machine, its own manual, its guards and local rules come first."
NOTE = Fraction(5, 2)
LABEL = Fraction(7, 2)
NAME = Fraction(5)
HEADING = Fraction(7)
ZERO = Fraction(0)


def mm(value: int | str) -> Fraction:
    """A number of millimetres on paper, written as people write it: mm(3), mm("2.5")."""
    return Fraction(value)


class Easel:
    """Collects strokes; x to the right and y up, in mm from the lower left corner."""

    def __init__(self, rule: Rule) -> None:
        self.rule = rule
        self.strokes: list[Stroke] = []

    def put(self, strokes: Iterable[Stroke]) -> None:
        """Strokes made elsewhere."""
        self.strokes.extend(strokes)

    def line(self, a: Spot, b: Spot, pen: Pen = Pen.NARROW, mark: str = "") -> None:
        """A straight line."""
        self.strokes.append(Line(a, b, pen, mark))

    def rectangle(
        self,
        low: Spot,
        high: Spot,
        pen: Pen | None = Pen.NARROW,
        fill: Literal["", "black", "white"] = "",
        mark: str = "",
    ) -> None:
        """An upright rectangle by two corners."""
        (x0, y0), (x1, y1) = low, high
        self.polygon(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), pen, fill, mark)

    def polygon(
        self,
        corners: Sequence[Spot],
        pen: Pen | None = Pen.NARROW,
        fill: Literal["", "black", "white"] = "",
        mark: str = "",
    ) -> None:
        """A closed outline by its corners in order; nothing where there are fewer than three."""
        if len(corners) > 2:
            self.strokes.append(Polygon(tuple(corners), pen, fill, mark))

    def circle(
        self,
        centre: Spot,
        radius: Fraction,
        pen: Pen = Pen.NARROW,
        fill: Literal["", "black", "white"] = "",
    ) -> None:
        """A circle."""
        self.strokes.append(Circle(centre, radius, pen, fill))

    def hatch(self, low: Spot, high: Spot) -> None:
        """Waste, hatched at 45 degrees."""
        if low[0] < high[0] and low[1] < high[1]:
            self.put(hatch_rectangle(low, high))

    def hatch_polygon(self, corners: Sequence[Spot]) -> None:
        """Waste of any convex outline, hatched in step with its neighbours; corners in order."""
        self.put(hatch_polygon(corners))

    def text(
        self,
        at: Spot,
        words: str,
        height: Fraction = NOTE,
        align: Align = "left",
        bold: bool = False,
        turn: Literal[0, 90] = 0,
        room: Fraction | None = None,
    ) -> None:
        """One line of text; shortened where `room` is given and it would not fit."""
        if room is not None:
            words = fit(words, height, room, bold)
        self.strokes.append(Text(at, words, height, align, bold, turn))

    def arrow(self, a: Spot, b: Spot, pen: Pen = Pen.NARROW) -> None:
        """A line from a to b with a filled head at b."""
        self.put(arrows.arrow(a, b, pen))

    def dimension(
        self, a: Spot, b: Spot, length: Fraction, height: Fraction = LABEL, mark: str = ""
    ) -> None:
        """A level or upright dimension line from a to b, its figure over the line (ISO 129)."""
        self.put(arrows.dimension(a, b, self.shown(length), height, mark))

    def face_mark(self, at: Spot, size: Fraction, tail: Way = "down") -> None:
        """The looped face mark, its tail ending at `at`, on the face edge."""
        self.put(arrows.face_mark(at, size, tail))

    def caret(self, at: Spot, size: Fraction, opening: Way = "up") -> None:
        """The caret on the face edge: its point on the edge, opening the way given."""
        self.put(arrows.caret(at, size, opening))

    def tick_box(self, at: Spot, size: Fraction = LABEL) -> None:
        """A box to tick."""
        self.strokes.append(arrows.tick_box(at, size))

    def shown(self, length: Fraction) -> Shown:
        """A length at the maker's rule."""
        return show(length, self.rule)

    def figure(
        self,
        at: Spot,
        length: Fraction,
        height: Fraction = LABEL,
        align: Align = "left",
        bold: bool = False,
        turn: Literal[0, 90] = 0,
    ) -> Fraction:
        """A length as a stacked figure, standing at `at`; returns how wide it came out."""
        shown = self.shown(length)
        if turn == 0:
            strokes, width = figure(shown, at, height, align, bold)
            self.put(strokes)
            return width
        strokes, width = figure(shown, (ZERO, ZERO), height, align, bold)
        self.put(moved(arrows.turned(stroke), *at) for stroke in strokes)
        return width

    def other_unit(self, length: Fraction) -> str:
        """The length in the unit that the piece is not written in, as words."""
        return show(length, other_rule(self.rule)).with_unit

    def figure_width(self, length: Fraction, height: Fraction = LABEL, bold: bool = False) -> (
        Fraction
    ):
        """How wide a length's figure comes out, in mm."""
        return figure_width(self.shown(length), height, bold)

    def scene(self, width: Fraction, height: Fraction) -> Scene:
        """Everything that was put down, as a drawing of this size."""
        return Scene(width, height, tuple(self.strokes))

