"""One drawing as an SVG of its full size: width and height in mm, one user unit a millimetre.

Numbers are decimals written from exact Fractions; y runs down in SVG and is turned over here.
Names are text, never markup. Below and beside the drawing stand the bars to measure.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from layout.measure import decimal_text
from layout.paper.bars import THICKNESS, bars_across, bars_up
from layout.paper.bodies import placed
from layout.paper.drawing import PageDrawing
from layout.paper.files import DRAWN_BY
from layout.scene.lettering import clean, em_size, text_width, wrap
from layout.scene.strokes import Circle, Line, Pen, Polygon, Scene, Sheet, Text

_NOTE = Fraction(5, 2)
_EDGE = Fraction(5)
_LINE = Fraction(9, 2)
_LEAST_WIDTH = Fraction(140)  # room for both bars at their full length
_FAMILY = "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"
_ANCHOR = {"left": "start", "middle": "middle", "right": "end"}


def svg_page(drawing: Scene | Sheet, title: str) -> PageDrawing:
    """The drawing, the bars and the title line as one page, as large as they need.

    This is what `svg_text` writes, so that what is read back can be held against it.
    """
    sheet = (
        drawing
        if isinstance(drawing, Sheet)
        else Sheet("", "", drawing, "full size")
    )
    scene = sheet.scene
    left = _EDGE + THICKNESS
    width = max(_LEAST_WIDTH, left + scene.width + _EDGE)
    room = width - left - _EDGE
    # what it is and how it is laid, whole, on as many lines as that takes
    lines = [
        (line, bold)
        for words, bold in (
            (sheet.name, True),
            (sheet.subject, False),
            ("; ".join(part for part in (title, sheet.scale, "print at 100 %") if part), False),
        )
        for line in wrap(words, _NOTE, room, bold)
    ]
    band = _EDGE + _LINE * len(lines)
    foot = band + THICKNESS
    height = foot + scene.height + _EDGE
    furniture = (
        *bars_across((left, band), room),
        *bars_up((_EDGE, foot), height - foot),
        *(
            Text((left, band - _LINE * row), line, _NOTE, bold=bold)
            for row, (line, bold) in enumerate(lines, start=1)
        ),
    )
    return PageDrawing(width, height, title, (placed(0, sheet, (left, foot)),), furniture)


def svg_text(drawing: Scene | Sheet, title: str) -> str:
    """The drawing as the text of an SVG file, at full size and in one piece."""
    import svgwrite

    page = svg_page(drawing, title)
    width, height = decimal_text(page.width), decimal_text(page.height)
    # debug=False: the library's own checks refuse data-* attributes, and are slow
    svg: Any = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    svg.set_desc(title=clean(title), desc=DRAWN_BY)
    svg.add(svg.rect(insert=("0", "0"), size=(width, height), fill="white"))
    group = svg.g(fill="none", stroke="black", stroke_linecap="butt", stroke_linejoin="miter")
    group["font-family"] = _FAMILY
    svg.add(group)
    ids = _Ids()
    for stroke in page.strokes:
        if isinstance(stroke, Text):
            if clean(stroke.words).strip():
                group.add(_text(svg, stroke, page.height))
            continue
        if isinstance(stroke, Line):
            element = svg.line(_at(stroke.a, page.height), _at(stroke.b, page.height))
            if stroke.phase and stroke.pen.dashes:
                element["stroke-dashoffset"] = decimal_text(stroke.phase)
        elif isinstance(stroke, Polygon):
            element = svg.polygon([_at(spot, page.height) for spot in stroke.points])
        else:
            element = svg.circle(_at(stroke.centre, page.height), decimal_text(stroke.radius))
        _dress(element, stroke)
        if stroke.mark:
            element["id"] = ids.new(stroke.mark)
            element["data-mark"] = clean(stroke.mark)
        group.add(element)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{svg.tostring()}\n'


def _at(spot: tuple[Fraction, Fraction], height: Fraction) -> tuple[str, str]:
    return (decimal_text(spot[0]), decimal_text(height - spot[1]))


def _dress(element: Any, stroke: Line | Polygon | Circle) -> None:
    """Pen and fill."""
    pen: Pen | None = stroke.pen
    if pen is None:
        element["stroke"] = "none"
    else:
        element["stroke-width"] = decimal_text(pen.width)
        if pen.dashes:
            element["stroke-dasharray"] = ",".join(decimal_text(dash) for dash in pen.dashes)
    if not isinstance(stroke, Line) and stroke.fill:
        element["fill"] = stroke.fill


def _text(svg: Any, text: Text, height: Fraction) -> Any:
    words = clean(text.words)
    x, y = _at(text.at, height)
    element = svg.text(words, insert=(x, y))
    element["font-size"] = decimal_text(em_size(text.height, text.bold))
    element["fill"] = "black"
    element["stroke"] = "none"
    # where the viewer lacks the font, another one takes exactly as much room
    element["textLength"] = decimal_text(text_width(words, text.height, text.bold))
    element["lengthAdjust"] = "spacingAndGlyphs"
    element["xml:space"] = "preserve"
    if text.align != "left":
        element["text-anchor"] = _ANCHOR[text.align]
    if text.bold:
        element["font-weight"] = "bold"
    if text.turn:
        element["transform"] = f"rotate(-90 {x} {y})"
    return element


class _Ids:
    """Valid XML names from the marks' names, each given out once."""

    def __init__(self) -> None:
        self.given: set[str] = set()

    def new(self, mark: str) -> str:
        stem = re.sub(r"[^A-Za-z0-9_.-]+", "-", mark).strip("-.") or "mark"
        if not re.match(r"[A-Za-z_]", stem):
            stem = f"m-{stem}"
        name, count = stem, 1
        while name in self.given:
            count += 1
            name = f"{stem}-{count}"
        self.given.add(name)
        return name
