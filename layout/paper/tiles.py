"""Sheets onto pages: one to a page, several to a page, or cut into tiles and strips.

The same sheets on the same paper always give the same pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from layout.errors import BadRequest
from layout.paper.bodies import Body, Side, border, has_ink, neighbour, placed, shows
from layout.paper.drawing import PageDrawing
from layout.paper.joins import Piece, Spans, Tile, join_crosses, pieces, word_spans
from layout.paper.pages import (
    Area,
    PageWords,
    TileMap,
    area_on,
    furniture,
    largest_area,
    page_size,
)
from layout.paper.shelves import shelf_pages
from layout.paper.sizes import Paper
from layout.paper.strips import strip_pages
from layout.scene.strokes import Sheet, Stroke, Text

_BORDER = Fraction(9, 2)  # round a tile, for the numbers of its neighbours
_NOTE = Fraction(5, 2)

Place = tuple[int, int]  # column from the left, row from the top
Numbered = tuple[int, Sheet]


def lay_out(sheets: Sequence[Sheet], paper: Paper, piece: str) -> tuple[PageDrawing, ...]:
    """Every page that the sheets need, in order, with all its furniture.

    Sheets of way "strip" are gathered where the first of them stands, to share pages;
    neighbouring sheets of way "full size" share a page where they fit. A sheet without ink
    gives no page. Raises BadRequest where a sheet of way "page" is too large for the paper.
    """
    bodies = [body for group in _groups(sheets) for body in _group_bodies(group, paper)]
    pages = []
    for index, body in enumerate(bodies):
        words = PageWords(piece, body.name, body.subject, body.scale, index + 1, len(bodies))
        around = furniture(body.width, body.height, words, body.tile_map)
        extra = tuple(
            Text(note.at, f"page {index + 1 + note.offset}", _NOTE, "middle", turn=note.turn)
            for note in body.neighbours
        )
        pages.append(
            PageDrawing(
                body.width, body.height, body.title, body.windows,
                (*body.marks, *extra, *around),
            )
        )
    return tuple(pages)


def _groups(sheets: Sequence[Sheet]) -> Iterator[list[Numbered]]:
    """Sheets that are put on paper together: all strips, each run of full-size ones."""
    numbered = [(i, sheet) for i, sheet in enumerate(sheets) if has_ink(sheet.scene.strokes)]
    strips = [one for one in numbered if one[1].way == "strip"]
    run: list[Numbered] = []
    for one in numbered:
        if one[1].way == "full size":
            run.append(one)
            continue
        if run:
            yield run
            run = []
        if one[1].way == "page":
            yield [one]
        elif one is strips[0]:
            yield strips
    if run:
        yield run


def _group_bodies(group: list[Numbered], paper: Paper) -> list[Body]:
    way = group[0][1].way
    if way == "page":
        return [_one_page(group[0], paper)]
    if way == "strip":
        tallest = largest_area(paper, True).height
        fitting = [one for one in group if one[1].scene.height <= tallest - _BORDER]
        return strip_pages(fitting, paper) + [
            body for one in group if one not in fitting for body in _tiled(one, paper)
        ]
    bodies: list[Body] = []
    small: list[Numbered] = []
    for one in group:
        if _fits(one[1], largest_area(paper, False)) or _fits(one[1], largest_area(paper, True)):
            small.append(one)
            continue
        bodies += shelf_pages(small, paper) + _tiled(one, paper)
        small = []
    return bodies + shelf_pages(small, paper)


def _fits(sheet: Sheet, area: Area) -> bool:
    return sheet.scene.width <= area.width and sheet.scene.height <= area.height


def _one_page(one: Numbered, paper: Paper) -> Body:
    """A sheet made to fit a page, the way up that wastes least and then suits it best."""
    number, sheet = one
    scene = sheet.scene
    choices = []
    for landscape in (False, True):
        if _fits(sheet, largest_area(paper, landscape)):
            width, height = page_size(paper, landscape, (scene.width, scene.height))
            unlike = landscape != (scene.width > scene.height)
            choices.append((width * height, unlike, width, height))
    if not choices:
        room = largest_area(paper, scene.width > scene.height)
        raise BadRequest(
            f"the sheet '{sheet.name}' is {_mm(scene.width)} x {_mm(scene.height)} mm, and "
            f"{paper.name} has room for {_mm(room.width)} x {_mm(room.height)} mm",
            "choose a larger paper",
        )
    _, _, width, height = min(choices)
    area = area_on(width, height)
    left = area.x + (area.width - scene.width) / 2
    foot = area.y + area.height - scene.height
    window = placed(number, sheet, (left, foot))
    return Body(
        width, height, (window,), sheet.name, sheet.subject, sheet.scale, sheet.name
    )


def _mm(length: Fraction) -> str:
    tenths = round(length * 10)
    return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else f"{tenths // 10}"


@dataclass(frozen=True)
class _Grid:
    """How a drawing is cut into columns and rows (rows from the top)."""

    landscape: bool
    columns: tuple[Piece, ...]
    rows: tuple[Piece, ...]
    tiles: dict[Place, Tile]  # those on which there is anything to see, row by row


def _tiled(one: Numbered, paper: Paper) -> list[Body]:
    """A drawing over several pages, the way up that needs fewest."""
    number, sheet = one
    grids = [_grid(sheet, largest_area(paper, landscape), landscape) for landscape in (False, True)]
    grid = min(grids, key=lambda g: (len(g.tiles), _page_area(g, paper)))
    return [_tile(number, sheet, grid, index, paper) for index in range(len(grid.tiles))]


def _page_area(grid: _Grid, paper: Paper) -> Fraction:
    used = (_longest(grid.columns) + 2 * _BORDER, _longest(grid.rows) + 2 * _BORDER)
    width, height = page_size(paper, grid.landscape, used)
    return width * height


def _longest(cut: tuple[Piece, ...]) -> Fraction:
    return max(piece.high - piece.low for piece in cut)


def _grid(sheet: Sheet, area: Area, landscape: bool) -> _Grid:
    """Columns and rows of tiles, and the places where there is anything to see."""
    scene = sheet.scene
    cuts = []
    for axis, length, room, firm in (
        (0, scene.width, area.width, sheet.keep_whole),
        (1, scene.height, area.height, ()),
    ):
        spans = Spans(firm, word_spans(scene.strokes, axis))
        cuts.append(pieces(length, room if length <= room else room - 2 * _BORDER, spans))
    columns, rows = cuts[0], cuts[1][::-1]
    tiles = {
        (i, j): Tile.of(column, row)
        for j, row in enumerate(rows)
        for i, column in enumerate(columns)
    }
    every = tuple(tiles.values())
    seen = {place: tile for place, tile in tiles.items() if shows(sheet, tile, every)}
    return _Grid(landscape, columns, rows, seen)


def _tile(number: int, sheet: Sheet, grid: _Grid, index: int, paper: Paper) -> Body:
    places = tuple(grid.tiles)
    i, j = places[index]
    tile = grid.tiles[i, j]
    low, high = tile.low, tile.high
    used = (high[0] - low[0] + 2 * _BORDER, high[1] - low[1] + 2 * _BORDER)
    width, height = page_size(paper, grid.landscape, used)
    area = area_on(width, height)
    shift = (
        area.x + (area.width - (high[0] - low[0])) / 2 - low[0],
        area.y + (area.height - (high[1] - low[1])) / 2 - low[1],
    )
    window = placed(number, sheet, shift, tile, tuple(grid.tiles.values()))
    assert window.shown is not None
    marks: list[Stroke] = []
    neighbours = []
    around: tuple[tuple[Place, Side], ...] = (
        ((i - 1, j), "left"), ((i + 1, j), "right"), ((i, j - 1), "up"), ((i, j + 1), "down"),
    )
    for place, side in around:
        if place not in grid.tiles:
            continue
        core_low = (tile.core_low[0] + shift[0], tile.core_low[1] + shift[1])
        core_high = (tile.core_high[0] + shift[0], tile.core_high[1] + shift[1])
        marks += join_crosses(*border(side, core_low, core_high))
        offset = places.index(place) - index
        neighbours.append(neighbour(side, window.shown, offset))
    cores = tuple((one.core_low, one.core_high) for one in grid.tiles.values())
    title = f"{sheet.name} ({index + 1} of {len(grid.tiles)})"
    return Body(
        width, height, (window,), sheet.name, sheet.subject, sheet.scale, title,
        tuple(marks), tuple(neighbours), TileMap(cores, index) if len(cores) > 1 else None,
    )
