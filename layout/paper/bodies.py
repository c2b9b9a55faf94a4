"""A page before its number is known: its drawings and marks, and what its strip will say."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layout.paper.drawing import Rectangle, Window
from layout.paper.joins import Tile
from layout.paper.pages import TileMap
from layout.scene.crop import bounds, crop
from layout.scene.strokes import Line, Polygon, Sheet, Spot, Stroke, Text, moved

Side = Literal["left", "right", "up", "down"]
_AWAY = Fraction(3, 2)
_NOTE = Fraction(5, 2)


@dataclass(frozen=True)
class Neighbour:
    """Where the number of a neighbouring page is written; `offset` counts pages from this one."""

    at: Spot
    offset: int
    turn: Literal[0, 90]


@dataclass(frozen=True)
class Body:
    """A page of this size in mm: what stands on it, and the words for its strip."""

    width: Fraction
    height: Fraction
    windows: tuple[Window, ...]
    name: str
    subject: str
    scale: str
    title: str
    marks: tuple[Stroke, ...] = ()
    neighbours: tuple[Neighbour, ...] = ()
    tile_map: TileMap | None = None


def placed(
    number: int,
    sheet: Sheet,
    shift: Spot,
    tile: Tile | None = None,
    tiles: Sequence[Tile] = (),
) -> Window:
    """A sheet's drawing moved to its place on a page.

    Where a tile is given (one of `tiles`), only what lies on it. Words, bars of figures and
    arrowheads that stand whole on one of the tiles are put on that one alone, so that no half of
    them shows on another.
    """
    strokes: Iterable[Stroke] = sheet.scene.strokes
    shown = None
    if tile is not None:
        here = [one for one in strokes if _is_here(one, tile, tiles)]
        strokes = crop(here, tile.low, tile.high)
        shown = (_add(tile.low, shift), _add(tile.high, shift))
    return Window(number, shift, tuple(moved(stroke, *shift) for stroke in strokes), shown)


def shows(sheet: Sheet, tile: Tile, tiles: Sequence[Tile]) -> bool:
    """True where anything of a sheet would be seen on one of these tiles."""
    # asked of one stroke after the other, as the first that is seen settles it
    return any(
        has_ink(crop((stroke,), tile.low, tile.high))
        for stroke in sheet.scene.strokes
        if _is_here(stroke, tile, tiles)
    )


def _is_here(stroke: Stroke, tile: Tile, tiles: Sequence[Tile]) -> bool:
    # an unmarked black shape is part of a sign: a figure's bar, an arrowhead
    sign = (
        isinstance(stroke, Polygon)
        and stroke.fill == "black"
        and stroke.pen is None
        and not stroke.mark
    )
    if not (sign or isinstance(stroke, Text)):
        return True
    low, high = bounds(stroke)
    if any(high[i] < tile.low[i] or tile.high[i] < low[i] for i in (0, 1)):
        return False
    holding = [one for one in tiles if one.holds(low, high)]
    if not holding:
        return True
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    owner = next((one for one in holding if one.owns(middle)), holding[0])
    return tile == owner


def has_ink(strokes: Iterable[Stroke]) -> bool:
    """True where anything would be seen on white paper."""
    return any(_is_ink(stroke) for stroke in strokes)


def _is_ink(stroke: Stroke) -> bool:
    if isinstance(stroke, Line):
        return stroke.a != stroke.b
    if isinstance(stroke, Text):
        return bool(stroke.words.strip())
    return stroke.pen is not None or stroke.fill == "black"


def border(side: Side, low: Spot, high: Spot) -> tuple[Spot, Spot]:
    """One side of a rectangle, as a line."""
    (x0, y0), (x1, y1) = low, high
    return {
        "left": ((x0, y0), (x0, y1)),
        "right": ((x1, y0), (x1, y1)),
        "up": ((x0, y1), (x1, y1)),
        "down": ((x0, y0), (x1, y0)),
    }[side]


def neighbour(side: Side, shown: Rectangle, offset: int) -> Neighbour:
    """The place for a neighbour's number: just beyond the middle of that side."""
    (ax, ay), (bx, by) = border(side, *shown)
    x, y = (ax + bx) / 2, (ay + by) / 2
    if side == "left":
        return Neighbour((x - _AWAY, y), offset, 90)
    if side == "right":
        return Neighbour((x + _AWAY + _NOTE, y), offset, 90)
    if side == "up":
        return Neighbour((x, y + _AWAY), offset, 0)
    return Neighbour((x, y - _AWAY - _NOTE), offset, 0)


def shared(sheets: Iterable[Sheet]) -> tuple[str, str, str, str]:
    """Name, subject, scale and title of a page that several sheets share."""
    ordered = list(dict.fromkeys(sheets))
    if len(ordered) == 1:
        one = ordered[0]
        return one.name, one.subject, one.scale, one.name
    names = "; ".join(dict.fromkeys(sheet.name for sheet in ordered))
    scales = {sheet.scale for sheet in ordered}
    scale = scales.pop() if len(scales) == 1 else "as drawn"
    return names, "each drawing carries its own heading", scale, names


def _add(spot: Spot, shift: Spot) -> Spot:
    return (spot[0] + shift[0], spot[1] + shift[1])
