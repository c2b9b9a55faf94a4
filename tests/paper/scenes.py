"""Drawings to put on paper in tests."""

from __future__ import annotations

import io
from fractions import Fraction

from layout.paper.drawing import PageDrawing, Window
from layout.paper.pdf import write_pdf
from layout.scene.hatch import hatch
from layout.scene.strokes import (
    Circle,
    Line,
    Pen,
    Polygon,
    Scene,
    Sheet,
    Spot,
    Stroke,
    Text,
    moved,
)

F = Fraction


def spot(x: int | str, y: int | str) -> Spot:
    return (F(x), F(y))


def rectangle(width: int | str, height: int | str, pen: Pen | None = Pen.WIDE) -> Polygon:
    return Polygon((spot(0, 0), spot(width, 0), spot(width, height), spot(0, height)), pen)


def sheet(
    width: int | str,
    height: int | str,
    way: str = "full size",
    name: str = "Gusset",
    subject: str = "brace, outside face",
    strokes: tuple[Stroke, ...] | None = None,
    keep_whole: tuple[tuple[Fraction, Fraction], ...] = (),
) -> Sheet:
    drawn = (rectangle(width, height),) if strokes is None else strokes
    scene = Scene(F(width), F(height), drawn)
    return Sheet(name, subject, scene, way, keep_whole=keep_whole)  # type: ignore[arg-type]


def busy(width: int, height: int, way: str = "full size", name: str = "Brace") -> Sheet:
    """A drawing with every kind of stroke, all over its area."""
    triangle = (spot(width // 4, height // 5), spot(width - 9, height // 3),
                spot(width // 2, height - 7))
    strokes: list[Stroke] = [
        rectangle(width, height),
        Polygon(triangle, Pen.NARROW, "white", "triangle"),
        *hatch(triangle),
        Line(spot(0, 0), spot(width, height), Pen.HIDDEN, "diagonal"),
        Line(spot(0, height // 2), spot(width, height // 2), Pen.CENTRE),
        Circle(spot(width // 2, height // 2), F(height, 5), Pen.NARROW),
        Circle(spot(width // 3, height // 2), F(2), None, "black"),
        Text(spot(width // 2, height // 4), "shoulder 2 13/32 — ⅜", F(7, 2), "middle"),
        Text(spot(8, height // 2), "end A", F(5), "left", True, 90),
    ]
    return sheet(width, height, way, name, strokes=tuple(strokes))


def pdf_bytes(pages: tuple[PageDrawing, ...], title: str = "Bench") -> bytes:
    buffer = io.BytesIO()
    write_pdf(pages, title, buffer)
    return buffer.getvalue()


def unplaced(window: Window) -> list[Stroke]:
    """A window's strokes back where they were in the drawing."""
    return [moved(stroke, -window.shift[0], -window.shift[1]) for stroke in window.strokes]
