"""The record of a page that is ready to print: what the PDF writer replays and readback proves."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from layout.scene.strokes import Spot, Stroke

Rectangle = tuple[Spot, Spot]


@dataclass(frozen=True)
class Window:
    """A drawing, or a piece of one, as it stands on a page (strokes in page mm).

    `sheet` counts the sheets handed to `lay_out`, from 0; `shift` is where that sheet's own
    origin would lie on the page. Where only a piece shows, `shown` is its rectangle on the page
    and every line and polygon already ends there; `clip`, a little larger for the pens' widths,
    trims circles and text. Both are None where nothing is cut off.
    """

    sheet: int
    shift: Spot
    strokes: tuple[Stroke, ...]
    shown: Rectangle | None = None

    @property
    def clip(self) -> Rectangle | None:
        """What a writer may put ink on."""
        if self.shown is None:
            return None
        (x0, y0), (x1, y1) = self.shown
        half = Fraction(1, 2)
        return ((x0 - half, y0 - half), (x1 + half, y1 + half))


@dataclass(frozen=True)
class PageDrawing:
    """A page: its size in mm, its title, the drawings on it, and everything round them."""

    width: Fraction
    height: Fraction
    title: str
    windows: tuple[Window, ...]
    furniture: tuple[Stroke, ...]

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """Every stroke on the page, in the order drawn."""
        drawn = tuple(stroke for window in self.windows for stroke in window.strokes)
        return drawn + self.furniture
