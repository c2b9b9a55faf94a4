"""The end of a board seen from its face, for a line that is gauged from that end."""

from __future__ import annotations

from fractions import Fraction

from layout.mark import Mark
from layout.part import Part
from layout.scene.strokes import Pen, Spot
from layout.sheets.easel import Easel, mm

SCALES = tuple(Fraction(1, n) for n in range(1, 51))


def draw(
    board: Easel, part: Part, mark: Mark, at: Spot, room: tuple[Fraction, Fraction]
) -> None:
    """A stretch of the board at its end, the end at the left, from its upper left corner `at`.

    The face edge lies below with its caret; an arrow runs from the end to the line that is
    struck. A board too wide for it is broken off above. `room` is how wide and how high it may
    come out, in mm.
    """
    scale = next((s for s in SCALES if mark.distance * s * 2 <= room[0]), SCALES[-1])
    high = room[1] - mm(12)
    wide, line = min(part.width * scale, high), mark.distance * scale
    long = min(room[0], max(line * 3, mm(24)))
    left, top = at
    foot = top - wide
    board.line((left, top), (left + long, top), Pen.HIDDEN if part.width * scale > high else
               Pen.WIDE)
    board.line((left, foot), (left + long, foot), Pen.WIDE)
    board.line((left, foot), (left, top), Pen.WIDE)
    board.line((left + long, foot), (left + long, top), Pen.HIDDEN)
    board.line((left + line, foot - mm(2)), (left + line, top + mm("1.5")), Pen.WIDE)
    board.caret((left + long - mm(6), foot), mm(2), "down")
    y = foot - mm(5)
    board.line((left, foot), (left, y - mm(1)), Pen.THIN)
    board.line((left + line, foot - mm(2)), (left + line, y - mm(1)), Pen.THIN)
    board.arrow((left, y), (left + line, y))
    ratio = "1:1" if scale == 1 else f"1:{scale.denominator}"
    board.text((left, top + mm("2.5")), f"{part.kind} {ratio}", room=room[0] + mm(4))
