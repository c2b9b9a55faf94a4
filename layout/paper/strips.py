"""Sticks onto pages: long strips cut to the page's length and laid side by side.

Strips are numbered in Roman figures, as carpenters number what belongs together. Every piece
says which strip it is of and which piece (IV-2 of 3), and what joins it at either end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from layout.paper.bodies import Body, placed, shared
from layout.paper.drawing import Window
from layout.paper.joins import Piece, Spans, Tile, join_cross, pieces, word_spans
from layout.paper.pages import area_on, largest_area, page_size
from layout.paper.sizes import Paper
from layout.scene.lettering import fit, text_width
from layout.scene.strokes import Sheet, Spot, Stroke, Text

_NOTE = Fraction(5, 2)
_HEADING = Fraction(21, 5)  # the band above a strip that its words stand in
_LIFT = Fraction(6, 5)  # of their baseline over the strip
_BETWEEN = Fraction(6)  # two pieces one after the other
_LEAST_APART = Fraction(4, 5)
_MOST_APART = Fraction(5)
_AIR = Fraction(3)
_LEAST_WIDTH = Fraction(52)  # a short piece still has room for its words


@dataclass(frozen=True)
class _Strip:
    """One piece of one strip, with the room it takes on a page."""

    number: int
    sheet: Sheet
    piece: Piece
    whole: tuple[Piece, ...]
    index: int
    ordinal: str

    @property
    def count(self) -> int:
        return len(self.whole)

    def called(self, index: int) -> str:
        """A piece of this strip by its short name: IV-2."""
        return f"{self.ordinal}-{index + 1}"

    @property
    def width(self) -> Fraction:
        return max(self.piece.high - self.piece.low, _LEAST_WIDTH)

    @property
    def height(self) -> Fraction:
        return self.sheet.scene.height + _HEADING


def strip_pages(sheets: Sequence[tuple[int, Sheet]], paper: Paper) -> list[Body]:
    """Landscape pages with all pieces of all strips, on as few pages as they can be put.

    `sheets` come with their numbers; none is higher than a page.
    """
    room = largest_area(paper, True)
    strips = []
    for ordinal, (number, sheet) in enumerate(sheets, start=1):
        scene = sheet.scene
        spans = Spans(sheet.keep_whole, word_spans(scene.strokes, 0))
        cut = pieces(scene.width, room.width, spans, even=False)
        strips += [
            _Strip(number, sheet, one, cut, i, roman(ordinal)) for i, one in enumerate(cut)
        ]
    # off a roll the page needs to be no longer than the longest piece
    length = room.width if paper.height is not None else max(strip.width for strip in strips)
    lanes = _lanes(strips, length)
    loads: list[list[list[_Strip]]] = []
    free = Fraction(0)
    for lane in lanes:
        height = max(strip.height for strip in lane)
        if not loads or height > free:
            loads.append([])
            free = room.height
        loads[-1].append(lane)
        free -= height + _LEAST_APART
    return [_page(load, paper) for load in loads]


def _lanes(strips: list[_Strip], length: Fraction) -> list[list[_Strip]]:
    """Pieces one after the other along lanes: in their order, or the long ones first.

    The order given wins unless the other one needs fewer lanes.
    """
    in_order = _first_fit(strips, length)
    long_first = _first_fit(sorted(strips, key=lambda strip: -strip.width), length)
    if len(long_first) >= len(in_order):
        return in_order
    place = {id(strip): index for index, strip in enumerate(strips)}
    return sorted(long_first, key=lambda lane: min(place[id(strip)] for strip in lane))


def _first_fit(strips: Sequence[_Strip], length: Fraction) -> list[list[_Strip]]:
    lanes: list[list[_Strip]] = []
    for strip in strips:
        for lane in lanes:
            taken = sum((other.width + _BETWEEN for other in lane), Fraction(0))
            if taken + strip.width <= length:
                lane.append(strip)
                break
        else:
            lanes.append([strip])
    return lanes


def _page(lanes: list[list[_Strip]], paper: Paper) -> Body:
    heights = [max(strip.height for strip in lane) for lane in lanes]
    used_width = max(
        sum((strip.width + _BETWEEN for strip in lane), -_BETWEEN) for lane in lanes
    )
    width, height = page_size(paper, True, (used_width, sum(heights, Fraction(0))))
    area = area_on(width, height)
    apart = _MOST_APART
    if len(lanes) > 1:
        apart = min(apart, (area.height - sum(heights)) / (len(lanes) - 1))
    windows: list[Window] = []
    marks: list[Stroke] = []
    spare = area.height - sum(heights) - apart * (len(lanes) - 1)
    y = area.y + area.height - min(_AIR, spare)
    for lane, lane_height in zip(lanes, heights, strict=True):
        x = area.x
        for strip in lane:
            foot = y - strip.height
            shift = (x - strip.piece.low, foot)
            windows.append(_window(strip, shift))
            marks += _marks(strip, shift)
            x += strip.width + _BETWEEN
        y -= lane_height + apart
    sheets = [strip.sheet for lane in lanes for strip in lane]
    name, subject, scale, title = shared(sheets)
    if any(strip.count > 1 for lane in lanes for strip in lane):
        subject = "Roman figures number the strips; join their pieces at the crosses"
    return Body(width, height, tuple(windows), name, subject, scale, title, tuple(marks))


def _window(strip: _Strip, shift: Spot) -> Window:
    if strip.count == 1:
        return placed(strip.number, strip.sheet, shift)
    height = strip.sheet.scene.height
    across = Piece(Fraction(0), height, (Fraction(0), height))
    tiles = tuple(Tile.of(piece, across) for piece in strip.whole)
    return placed(strip.number, strip.sheet, shift, tiles[strip.index], tiles)


def _marks(strip: _Strip, shift: Spot) -> list[Stroke]:
    """The words over a piece, and the crosses on its joins."""
    left = strip.piece.low + shift[0]
    right = left + strip.width
    top = shift[1] + strip.sheet.scene.height
    base = top + _LIFT
    strokes: list[Stroke] = []
    room_left, room_right = left, right
    for index, join, at in (
        (strip.index - 1, strip.piece.core[0], "left"),
        (strip.index + 1, strip.piece.core[1], "right"),
    ):
        if not 0 <= index < strip.count:
            continue
        words = f"to {strip.called(index)}"
        needs = text_width(words, _NOTE) + 4
        if at == "left":
            strokes.append(Text((left, base), words, _NOTE))
            room_left += needs
        else:
            strokes.append(Text((left + strip.piece.high - strip.piece.low, base), words, _NOTE,
                                "right"))
            room_right -= needs
        for share in (Fraction(1, 6), Fraction(5, 6)):
            y = shift[1] + strip.sheet.scene.height * share
            strokes += join_cross((join + shift[0], y))
    name, subject = strip.sheet.name, strip.sheet.subject
    number = f"{strip.called(strip.index)} of {strip.count}" if strip.count > 1 else strip.ordinal
    x = room_left
    for words, bold in ((number, True), (name, True), (subject, False)):
        told = fit(words, _NOTE, room_right - x, bold)
        if told:
            strokes.append(Text((x, base), told, _NOTE, bold=bold))
        x += text_width(told, _NOTE, bold) + 3
        if x >= room_right:
            break
    return strokes


def roman(number: int) -> str:
    """A whole number above nothing in Roman figures."""
    written = ""
    for value, letters in (
        (100, "C"), (90, "XC"), (50, "L"), (40, "XL"), (10, "X"), (9, "IX"), (5, "V"),
        (4, "IV"), (1, "I"),
    ):
        count, number = divmod(number, value)
        written += letters * count
    return written
