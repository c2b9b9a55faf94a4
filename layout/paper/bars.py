"""The bars to measure: 100 mm and 4 in, back to back, across and up the page.

A print is at full size where each bar measures what it says. Each ends exactly where its label
says; on paper too small for it, a bar is shorter and says that.
"""

from __future__ import annotations

from fractions import Fraction

from layout.scene.arrows import turned
from layout.scene.lettering import text_width
from layout.scene.strokes import Line, Pen, Spot, Stroke, Text, moved

THICKNESS = Fraction(8)  # room for both bars, square to their length
NOTE = Fraction(5, 2)
_INCH = Fraction(127, 5)
_TEN = Fraction(10)
_TICK = Fraction(2)
_UPPER = Fraction(23, 5)  # where the mm bar runs in the band, from below
_LOWER = Fraction(17, 5)
_LABEL_GAP = Fraction(3, 2)


def bar_lengths(room: Fraction) -> tuple[int, int]:
    """The longest bars that fit `room` mm with their labels: mm (of 100) and inches (of 4)."""
    free = room - text_width("100 mm", NOTE) - _LABEL_GAP - 1
    return (max(0, min(100, int(free // _TEN) * 10)), max(0, min(4, int(free // _INCH))))


def bars_across(at: Spot, room: Fraction) -> tuple[Stroke, ...]:
    """Both bars, starting at `at` (the lower left corner of their band, THICKNESS high)."""
    return tuple(moved(stroke, *at) for stroke in _bars(room))


def bars_up(at: Spot, room: Fraction) -> tuple[Stroke, ...]:
    """Both bars up the page, starting at `at` (the lower left corner of their band)."""
    return tuple(moved(turned(stroke), at[0] + THICKNESS, at[1]) for stroke in _bars(room))


def _bars(room: Fraction) -> list[Stroke]:
    mm, inches = bar_lengths(room)
    long, short = max(mm * Fraction(1), inches * _INCH), Fraction(0)
    strokes: list[Stroke] = []
    for count, step, unit, level, way in (
        (mm // 10, _TEN, "mm", _UPPER, 1),
        (inches, _INCH, "in", _LOWER, -1),
    ):
        if not count:
            continue
        length = count * step
        strokes.append(Line((short, level), (length, level), Pen.NARROW))
        for number in range(count + 1):
            x = number * step
            tall = _TICK if number in (0, count) else _TICK * 3 / 5
            strokes.append(Line((x, level), (x, level + way * tall), Pen.THIN))
        label = f"{mm} mm" if unit == "mm" else f"{inches} in"
        base = level if way > 0 else level - NOTE
        strokes.append(Text((long + _LABEL_GAP, base), label, NOTE))
    return strokes
