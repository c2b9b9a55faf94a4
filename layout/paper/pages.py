"""What every page carries round its drawing: frame, title strip, bars, map of the tiles.

The strip holds what ISO 7200 asks of a title block that a workshop needs: what it is, which
sheet, which page, which scale. It is set along the bottom, inside the frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from layout.paper.bars import NOTE, THICKNESS, bars_across, bars_up
from layout.paper.drawing import Rectangle
from layout.paper.sizes import Paper
from layout.scene.lettering import fit, text_width, wrap_at_most
from layout.scene.strokes import Line, Pen, Polygon, Spot, Stroke, Text

MARGIN = Fraction(10)
_SMALL_PAGE = Fraction(120)
_SMALL_MARGIN = Fraction(5)
_STRIP = Fraction(16)
_PAD = Fraction(1)  # between the drawing and the frame
_SHORTEST = Fraction(180)  # of a page off a roll: the strip has to fit along it
_USUAL = Fraction(7, 5)  # of a page off a roll: its length to its width
_TINY = Fraction(9, 5)  # headings in the strip
_LABEL = Fraction(7, 2)
_NAME = Fraction(5)


@dataclass(frozen=True)
class Area:
    """Where a page's drawing goes: the lower left corner and the size, in mm."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


@dataclass(frozen=True)
class PageWords:
    """What the strip of one page says."""

    piece: str
    name: str
    subject: str
    scale: str
    number: int
    count: int


@dataclass(frozen=True)
class TileMap:
    """All pages of one tiled drawing: their rectangles in it, and which of them this page is."""

    pages: tuple[Rectangle, ...]
    this: int


def drawing_area(paper: Paper, landscape: bool) -> Area:
    """Where the drawing goes on a page, in mm: as large as the furniture leaves it.

    For a roll, on a page of 7:5; a drawing that needs it may have a longer or a shorter one
    (see `page_size` and `largest_area`).
    """
    if paper.height is None:
        length = min(paper.limit, paper.width * _USUAL)
        return area_on(*((length, paper.width) if landscape else (paper.width, length)))
    return largest_area(paper, landscape)


def largest_area(paper: Paper, landscape: bool) -> Area:
    """The largest drawing area, in mm; on a roll, that of the longest page."""
    size = (paper.width, paper.limit)
    return area_on(*(size[::-1] if landscape else size))


def page_size(paper: Paper, landscape: bool, used: Spot) -> Spot:
    """Width and height in mm of a page for a drawing of this size; a roll's page is cut to it."""
    across, length = paper.width, paper.limit
    if paper.height is None:
        furniture = area_on(paper.width, paper.limit)
        extra = (
            paper.width - furniture.width if landscape else paper.limit - furniture.height
        )
        length = min(length, max(_SHORTEST, (used[0] if landscape else used[1]) + extra))
    return (length, across) if landscape else (across, length)


def area_on(width: Fraction, height: Fraction) -> Area:
    """The drawing area of a page of this size, in mm."""
    margin = _margin(width, height)
    x, y = margin + THICKNESS, margin + _STRIP + THICKNESS
    return Area(x, y, width - margin - _PAD - x, height - margin - _PAD - y)


def _margin(width: Fraction, height: Fraction) -> Fraction:
    """Cards are too small to give away 10 mm all round."""
    return MARGIN if min(width, height) >= _SMALL_PAGE else _SMALL_MARGIN


def furniture(
    width: Fraction, height: Fraction, words: PageWords, tile_map: TileMap | None = None
) -> tuple[Stroke, ...]:
    """Everything on a page but its drawing: frame, strip, bars, and the map where it is tiled."""
    margin = _margin(width, height)
    low, high = (margin, margin), (width - margin, height - margin)
    strokes: list[Stroke] = [_box(low, high)]
    top = margin + _STRIP
    strokes.append(Line((margin, top), (high[0], top), Pen.NARROW))
    strokes += _strip(margin, high[0], margin, words, tile_map)
    area = area_on(width, height)
    strokes += bars_across((area.x, top), high[0] - area.x)
    strokes += bars_up((margin, area.y), high[1] - area.y)
    note = "measure both bars, across and up"
    room = high[0] - area.x - Fraction(120)
    if text_width(note, NOTE) <= room:
        at = (high[0] - 2, top + (THICKNESS - NOTE) / 2)
        strokes.append(Text(at, note, NOTE, "right"))
    return tuple(strokes)


def _strip(
    left: Fraction, right: Fraction, foot: Fraction, words: PageWords, tile_map: TileMap | None
) -> list[Stroke]:
    """The cells of the strip: piece, sheet, map, page, scale; piece and sheet share what's left."""
    whole = right - left
    scale = min(Fraction(32), whole / 4)
    page = min(Fraction(24), whole / 6)
    plan = min(Fraction(34), whole / 5) if tile_map is not None else Fraction(0)
    rest = whole - scale - page - plan
    narrow = rest < 70
    piece = Fraction(0) if narrow else min(Fraction(60), rest * 2 / 5)

    strokes: list[Stroke] = []
    x = left

    def cell(cell_width: Fraction, heading: str) -> Fraction:
        """Opens a cell at x: its heading, and the line before it. Gives where its words start."""
        if x > left:
            strokes.append(Line((x, foot), (x, foot + _STRIP), Pen.THIN))
        strokes.append(Text((x + 2, foot + _STRIP - 3), fit(heading, _TINY, cell_width - 3), _TINY))
        return x + 2

    if not narrow:
        strokes += _in_two(cell(piece, "piece"), foot, words.piece, piece - 4)
        x += piece
    sheet = rest - piece
    heading = words.piece if narrow else "sheet"
    strokes += _named(cell(sheet, heading), foot, words.name, words.subject, sheet - 4)
    x += sheet
    if tile_map is not None:
        cell(plan, "")
        strokes += _map((x + 2, foot + 2), (x + plan - 2, foot + _STRIP - 2), tile_map)
        x += plan
    at = cell(page, "page")
    number, of = f"{words.number}", f"of {words.count}"
    strokes.append(Text((at, foot + Fraction(5)), number, _NAME, bold=True))
    after = at + text_width(number, _NAME, True) + Fraction(3, 2)
    beside = after + text_width(of, NOTE) < x + page
    strokes.append(Text((after, foot + 5) if beside else (at, foot + Fraction(7, 5)), of, NOTE))
    x += page
    at = cell(scale, "scale")
    strokes += _scale(at, foot, words.scale, scale - 4)
    return strokes


def _in_two(x: Fraction, foot: Fraction, words: str, width: Fraction) -> list[Stroke]:
    """A name at label height, or, too long for that, as a note on two lines."""
    if text_width(words, _LABEL, True) <= width:
        return [Text((x, foot + Fraction(13, 2)), words, _LABEL, bold=True)]
    return [
        Text((x, y), line, NOTE, bold=True)
        for line, y in zip(
            wrap_at_most(words, 2, NOTE, width, True), (foot + 7, foot + 3), strict=False
        )
    ]


def _named(
    x: Fraction, foot: Fraction, name: str, subject: str, width: Fraction
) -> list[Stroke]:
    """The sheet's name, and under it what it is of and how to lay it: three lines at most."""
    bases = (foot + Fraction(42, 5), foot + Fraction(24, 5), foot + Fraction(6, 5))
    if text_width(name, _LABEL, True) > width:
        names = wrap_at_most(name, 2, NOTE, width, True)
        told = wrap_at_most(subject, 3 - len(names), NOTE, width)
        return [
            Text((x, y), line, NOTE, bold=bold)
            for (line, bold), y in zip(
                [*((line, True) for line in names), *((line, False) for line in told)],
                bases,
                strict=False,
            )
        ]
    lines = wrap_at_most(subject, 2, NOTE, width)
    if len(lines) < 2:
        bases = (foot + Fraction(15, 2), foot + Fraction(3), foot)
    return [
        Text((x, bases[0]), name, _LABEL, bold=True),
        *(Text((x, y), line, NOTE) for line, y in zip(lines, bases[1:], strict=False)),
    ]


def _scale(x: Fraction, foot: Fraction, scale: str, width: Fraction) -> list[Stroke]:
    real = scale == "1:1"
    lines: list[Stroke] = []
    if text_width(scale, _NAME, real) <= width:
        lines.append(Text((x, foot + Fraction(13, 2)), scale, _NAME, bold=real))
    else:
        bases = (foot + Fraction(44, 5), foot + Fraction(26, 5))
        lines += [
            Text((x, y), line, NOTE)
            for line, y in zip(wrap_at_most(scale, 2, NOTE, width), bases, strict=False)
        ]
    demand = "print at 100 %"
    if text_width(demand, NOTE) > width:
        demand = "at 100 %"
    lines.append(Text((x, foot + Fraction(7, 5)), demand, NOTE))
    return lines


def _map(low: Spot, high: Spot, tile_map: TileMap) -> list[Stroke]:
    """All pages of the drawing, small, with this one filled."""
    corners = [spot for page in tile_map.pages for spot in page]
    wide, tall = max(x for x, _ in corners), max(y for _, y in corners)
    scale = min((high[0] - low[0]) / wide, (high[1] - low[1]) / tall)
    left = (low[0] + high[0] - wide * scale) / 2
    foot = (low[1] + high[1] - tall * scale) / 2
    strokes: list[Stroke] = []
    for index, page in enumerate(tile_map.pages):
        a, b = [(left + x * scale, foot + y * scale) for x, y in page]
        strokes.append(_box(a, b, Pen.THIN, index == tile_map.this))
    return strokes


def _box(low: Spot, high: Spot, pen: Pen = Pen.NARROW, filled: bool = False) -> Polygon:
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    return Polygon(corners, pen, "black" if filled else "")

