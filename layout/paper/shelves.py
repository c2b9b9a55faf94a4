"""Small full-size drawings side by side and under each other, each with its heading above it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from layout.paper.bodies import Body, placed, shared
from layout.paper.drawing import Window
from layout.paper.pages import area_on, largest_area, page_size
from layout.paper.sizes import Paper
from layout.scene.lettering import wrap_at_most
from layout.scene.strokes import Sheet, Spot, Stroke, Text, moved

_GAP = Fraction(6)
_NAME = Fraction(7, 2)
_NAME_STEP = Fraction(5)
_NOTE = Fraction(5, 2)
_NOTE_STEP = Fraction(4)
_UNDER = Fraction(3)  # between the heading's last baseline and the drawing
_AIR = Fraction(3)
_HEADING_WIDTH = Fraction(70)  # a narrow drawing's heading may be this wide


@dataclass(frozen=True)
class _Block:
    """A drawing and its heading; heading strokes are measured from the block's top left corner."""

    number: int
    sheet: Sheet
    width: Fraction
    height: Fraction
    heading: tuple[Stroke, ...]


def shelf_pages(sheets: Sequence[tuple[int, Sheet]], paper: Paper) -> list[Body]:
    """Pages of drawings at full size, in order, each page holding as many as fit.

    `sheets` come with their numbers; each fits a page one way up or the other. A drawing that
    only fits without its heading has a page to itself (its name is in the strip).
    """
    bodies = []
    left = list(sheets)
    while left:
        body, count = _next_page(left, paper)
        bodies.append(body)
        left = left[count:]
    return bodies


def _next_page(sheets: list[tuple[int, Sheet]], paper: Paper) -> tuple[Body, int]:
    choices = []
    for landscape in (False, True):
        room = largest_area(paper, landscape)
        blocks, spots = _shelve(sheets, room.width, room.height)
        if not blocks:
            number, sheet = sheets[0]
            scene = sheet.scene
            if scene.width > room.width or scene.height > room.height:
                continue
            blocks, spots = [_Block(number, sheet, scene.width, scene.height, ())], [_ORIGIN]
        used = (
            max(x + block.width for block, (x, _) in zip(blocks, spots, strict=True)),
            max(block.height - y for block, (_, y) in zip(blocks, spots, strict=True)),
        )
        width, height = page_size(paper, landscape, used)
        # a drawing keeps its heading if it can; then as many drawings, then as little paper
        rank = (not blocks[0].heading, -len(blocks), width * height, landscape)
        choices.append((rank, blocks, spots, (width, height)))
    _, blocks, spots, (width, height) = min(choices, key=lambda choice: choice[0])
    area = area_on(width, height)
    # a little air under the frame, where there is any
    low = min(y - block.height for block, (_, y) in zip(blocks, spots, strict=True))
    top = area.y + area.height - min(_AIR, area.height + low)
    windows: list[Window] = []
    marks: list[Stroke] = []
    for block, (x, y) in zip(blocks, spots, strict=True):
        corner = (area.x + x, top + y)
        marks += [moved(stroke, *corner) for stroke in block.heading]
        foot = corner[1] - block.height
        windows.append(placed(block.number, block.sheet, (corner[0], foot)))
    name, subject, scale, title = shared(block.sheet for block in blocks)
    body = Body(width, height, tuple(windows), name, subject, scale, title, tuple(marks))
    return body, len(blocks)


_ORIGIN: Spot = (Fraction(0), Fraction(0))


def _shelve(
    sheets: list[tuple[int, Sheet]], width: Fraction, height: Fraction
) -> tuple[list[_Block], list[Spot]]:
    """As many of the first sheets as fit, and their top left corners from that of the area.

    Blocks go along a shelf until it is full, then a new shelf starts under the tallest of them.
    """
    blocks: list[_Block] = []
    spots: list[Spot] = []
    x, y, deepest = Fraction(0), Fraction(0), Fraction(0)
    for number, sheet in sheets:
        block = _block(number, sheet, width)
        if x and x + block.width > width:
            x, y, deepest = Fraction(0), y - deepest - _GAP, Fraction(0)
        if block.width > width or block.height - y > height:
            break
        blocks.append(block)
        spots.append((x, y))
        x += block.width + _GAP
        deepest = max(deepest, block.height)
    return blocks, spots


def _block(number: int, sheet: Sheet, room: Fraction) -> _Block:
    scene = sheet.scene
    width = max(scene.width, min(room, _HEADING_WIDTH))
    heading: list[Stroke] = []
    y = Fraction(0)
    for line in wrap_at_most(sheet.name, 3, _NAME, width, True):
        y -= _NAME if not heading else _NAME_STEP
        heading.append(Text((Fraction(0), y), line, _NAME, bold=True))
    for line in wrap_at_most(sheet.subject, 4, _NOTE, width):
        y -= _NOTE_STEP
        heading.append(Text((Fraction(0), y), line, _NOTE))
    height = scene.height - y + (_UNDER if heading else 0)
    return _Block(number, sheet, width, height, tuple(heading))
