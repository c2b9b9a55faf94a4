"""Where a drawing to scale lies on a page, as large as the page lets it be."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.piece import Piece
from layout.scene.strokes import Spot
from layout.sheets.drawing import SCALES
from layout.sheets.easel import mm

Area = tuple[Fraction, Fraction]
BESIDE = mm(30)  # left free at each side of a drawing for its figures


class Plan(NamedTuple):
    """A drawing to scale: where its lower left corner lies, and how large it is on paper."""

    at: Spot
    scale: Fraction
    width: Fraction
    height: Fraction

    @property
    def ratio(self) -> str:
        """Its scale in words."""
        usual = self.scale.numerator == 1
        return f"1:{self.scale.denominator}" if usual else "not to scale"


def plan_on(
    piece: Piece, length: Fraction, width: Fraction, area: Area, below: Fraction, above: Fraction
) -> Plan:
    """A drawing of this length and width in the middle of a page, at a usual scale; `below` and
    `above` it so much stays free, in mm.
    """
    room = (area[0] - 2 * BESIDE, area[1] - below - above)
    scales = SCALES[piece.rule.unit]
    scale = next((one for one in scales if length * one <= room[0] and width * one <= room[1]),
                 min(scales[-1], room[0] / length, room[1] / width))
    wide, high = length * scale, width * scale
    return Plan(((area[0] - wide) / 2, below + (room[1] - high) / 2), scale, wide, high)
