"""Figures to read at arm's length: a length with its fraction stacked over a level bar.

Numerator and denominator stand at 0.6 of the figure's height. `full` or `bare` follows small,
where the rounding moved the figure.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from layout.scene.lettering import text_width
from layout.scene.strokes import Align, Polygon, Spot, Stroke, Text

SMALL = Fraction(3, 5)  # numerator and denominator, of the figure's height
_BAR_MIDDLE = Fraction(1, 2)  # the bar runs at half the figure's height
_BAR_THICK = Fraction(7, 100)
_BAR_THICK_BOLD = Fraction(11, 100)
_BAR_OVER = Fraction(7, 100)  # the bar reaches past the wider number by this, either side
_AIR = Fraction(15, 100)  # between the bar and the numbers
_GAP = Fraction(14, 100)  # between whole number and fraction
_WORD_GAP = Fraction(25, 100)
_WORD_SHARE = Fraction(35, 100)
_WORD_LEAST = Fraction(5, 2)
MINUS = "\u2212"


class Shown(Protocol):
    """What a figure says: sign (-1 or 1), whole number, fraction or decimals, full or bare."""

    @property
    def sign(self) -> int:
        """-1 or 1."""

    @property
    def whole(self) -> int:
        """The whole number, without its sign."""

    @property
    def numerator(self) -> int:
        """0 where there is no fraction."""

    @property
    def denominator(self) -> int:
        """What the numerator counts."""

    @property
    def decimals(self) -> str:
        """The digits after the point, or nothing."""

    @property
    def nuance(self) -> str:
        """`full`, `bare` or nothing."""


@dataclass(frozen=True)
class Plain:
    """A figure from plain numbers, for those that have no length to show."""

    whole: int
    numerator: int = 0
    denominator: int = 1
    decimals: str = ""
    nuance: str = ""
    sign: int = 1


def figure(
    shown: Shown,
    at: Spot,
    height: Fraction,
    align: Align = "left",
    bold: bool = False,
) -> tuple[tuple[Stroke, ...], Fraction]:
    """The strokes of a figure standing on the baseline at `at`, and its width in mm.

    `height` is that of the whole number's digits, in mm. A stacked fraction reaches from
    `drop(height)` below the baseline to as much above the digits.
    """
    strokes: list[Stroke] = []
    width = figure_width(shown, height, bold)
    left = {"left": at[0], "middle": at[0] - width / 2, "right": at[0] - width}[align]
    x, base = left, at[1]

    whole = _whole(shown)
    if whole:
        strokes.append(Text((x, base), whole, height, "left", bold))
        x += text_width(whole, height, bold)
    if shown.numerator:
        if whole:
            x += height * _GAP
        small = height * SMALL
        bar = _bar_width(shown, height, bold)
        middle = x + bar / 2
        half = height * (_BAR_THICK_BOLD if bold else _BAR_THICK) / 2
        level = base + height * _BAR_MIDDLE
        over = level + height * _AIR
        under = level - height * _AIR - small
        strokes.append(Text((middle, over), str(shown.numerator), small, "middle", bold))
        corners = ((x, level - half), (x + bar, level - half), (x + bar, level + half),
                   (x, level + half))
        strokes.append(Polygon(corners, None, "black"))
        strokes.append(Text((middle, under), str(shown.denominator), small, "middle", bold))
        x += bar
    if shown.nuance:
        x += height * _WORD_GAP
        strokes.append(Text((x, base), shown.nuance, nuance_height(height)))
    return tuple(strokes), width


def figure_width(shown: Shown, height: Fraction, bold: bool = False) -> Fraction:
    """How wide a figure comes out, in mm, `full` or `bare` included."""
    whole = _whole(shown)
    width = text_width(whole, height, bold)
    if shown.numerator:
        width += _bar_width(shown, height, bold)
        if whole:
            width += height * _GAP
    if shown.nuance:
        width += height * _WORD_GAP + text_width(shown.nuance, nuance_height(height))
    return width


def drop(height: Fraction) -> Fraction:
    """How far a stacked fraction reaches below the baseline (and above the digits), in mm."""
    return height * (SMALL + _AIR - _BAR_MIDDLE)


def nuance_height(height: Fraction) -> Fraction:
    """How high `full` or `bare` is set beside a figure: small, but never below a note's 2.5 mm.

    Beside a figure that is itself smaller, it is as high as the figure.
    """
    return min(height, max(_WORD_LEAST, height * _WORD_SHARE))


def _whole(shown: Shown) -> str:
    """What stands before the fraction; nothing where a fraction stands alone."""
    minus = MINUS if shown.sign < 0 else ""
    if shown.decimals:
        return f"{minus}{shown.whole}.{shown.decimals}"
    if shown.whole or not shown.numerator:
        return f"{minus}{shown.whole}"
    return minus


def _bar_width(shown: Shown, height: Fraction, bold: bool) -> Fraction:
    small = height * SMALL
    numbers = (str(shown.numerator), str(shown.denominator))
    return max(text_width(n, small, bold) for n in numbers) + 2 * height * _BAR_OVER
