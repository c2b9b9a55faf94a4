"""One of our own SVGs read back, transforms and all."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import pairwise
from math import cos, radians, sin
from typing import Any

from layout.paper.read_page import IDENTITY, Matrix, Point, ReadPage, Segment, through, times


def read_svg(text: str) -> ReadPage:
    """One of our own SVGs: lines, polygons, circles and texts under any nest of transforms.

    The white sheet behind the drawing is not counted as an edge.
    """
    root = ET.fromstring(text.encode("utf-8"))
    width, height = _svg_length(root.attrib["width"]), _svg_length(root.attrib["height"])
    box = [float(value) for value in root.attrib["viewBox"].split()]
    page = ReadPage(width, height)
    across, up = width / box[2], height / box[3]
    # user units to mm, y turned back up
    whole: Matrix = (across, 0, 0, -up, -box[0] * across, height + box[1] * up)
    _svg_walk(root, whole, {"stroke": "none", "fill": "black", "stroke-width": "1"}, page)
    return page


def _svg_walk(element: Any, matrix: Matrix, styles: dict[str, str], page: ReadPage) -> None:
    matrix = times(_svg_matrix(element.get("transform", "")), matrix)
    styles = {name: element.get(name, value) for name, value in styles.items()}
    kind = element.tag.rsplit("}", 1)[-1]
    a, b, c, d, _, _ = matrix
    scale = abs(a * d - b * c) ** (1 / 2)
    pen = 0 if styles["stroke"] == "none" else float(styles["stroke-width"]) * scale
    points: list[Point] = []
    if kind == "line":
        points = [
            (float(element.get("x1")), float(element.get("y1"))),
            (float(element.get("x2")), float(element.get("y2"))),
        ]
    elif kind == "polygon":
        pairs = [pair.split(",") for pair in element.get("points").split()]
        points = [(float(x), float(y)) for x, y in pairs]
        points.append(points[0])
    elif kind == "circle":
        x, y = through(matrix, (float(element.get("cx")), float(element.get("cy"))))
        page.circles.append((x, y, float(element.get("r")) * scale))
    elif kind == "text":
        page.texts.append("".join(element.itertext()))
    spots = [through(matrix, point) for point in points]
    page.segments += [
        Segment(one, two, pen) for one, two in pairwise(spots) if one != two
    ]
    for child in element:
        _svg_walk(child, matrix, styles, page)


def _svg_length(text: str) -> float:
    """A length in mm; one without a unit is in CSS pixels, 96 to the inch."""
    number, unit = re.fullmatch(r"([0-9.]+)([a-z]*)", text).groups()  # type: ignore[union-attr]
    return float(number) * {"mm": 1, "cm": 10, "in": 127 / 5, "": 127 / 480, "px": 127 / 480}[unit]


def _svg_matrix(text: str) -> Matrix:
    """The transform attribute: a list of translate, scale, rotate and matrix."""
    matrix = IDENTITY
    for name, inside in re.findall(r"(\w+)\s*\(([^)]*)\)", text):
        n = [float(value) for value in re.split(r"[\s,]+", inside.strip())]
        step: Matrix
        if name == "translate":
            step = (1, 0, 0, 1, n[0], n[1] if len(n) > 1 else 0)
        elif name == "scale":
            step = (n[0], 0, 0, n[-1], 0, 0)
        elif name == "rotate":
            turn = radians(n[0])
            x, y = (n[1], n[2]) if len(n) > 2 else (0, 0)
            step = (cos(turn), sin(turn), -sin(turn), cos(turn), 0, 0)
            step = times(times((1, 0, 0, 1, -x, -y), step), (1, 0, 0, 1, x, y))
        elif name == "matrix":
            step = (n[0], n[1], n[2], n[3], n[4], n[5])
        else:
            raise ValueError(f"{name} is no transform that is written here")
        matrix = times(step, matrix)
    return matrix
