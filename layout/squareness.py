"""The diagonals of everything rectangular, to check at glue-up, and what a difference means.

Of a frame that has leaned over, w wide and with its head s to one side, the diagonals differ by
d1 - d2 with d1 x d1 - d2 x d2 = 4 w s. Together they are as good as twice the true diagonal D, so
that s = D (d1 - d2) / (2 w).
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt
from typing import NamedTuple

from layout.piece import Piece

_PLACES = 10**12


class Square(NamedTuple):
    """A rectangle to measure across its corners: what it is, how it is seen, its sizes in mm."""

    name: str
    where: str
    width: Fraction
    height: Fraction

    @property
    def diagonal(self) -> Fraction:
        """From corner to corner, in mm to 1e-12: a root is no fraction."""
        return root(self.width**2 + self.height**2)

    def lean(self, difference: Fraction) -> Fraction:
        """How far its head stands to one side of its foot where the diagonals differ by so much; in
        mm.
        """
        return self.diagonal * difference / (2 * self.width)


def root(value: Fraction) -> Fraction:
    """The square root, rounded down at 12 decimals."""
    return Fraction(isqrt(value.numerator * _PLACES**2 // value.denominator), _PLACES)


def squares(piece: Piece) -> tuple[Square, ...]:
    """Every rectangle of a piece, like ones once."""
    found: list[Square] = []
    frame = piece.choice.frame
    if frame is not None and len({one.rail.side for one in piece.rails}) > 1:
        sides = {one.rail.side for one in piece.rails}
        if sides & {"front", "back"}:
            found.append(Square("frame, front and back", "over the legs, head to foot",
                                frame.length, frame.height))
        if sides & {"left", "right"}:
            found.append(Square("frame, left and right", "over the legs, head to foot",
                                frame.depth, frame.height))
        found.append(Square("frame, from above", "over the legs", frame.length, frame.depth))
    for case in piece.carcases:
        one = case.choice
        found.append(Square(one.name, "outside, from the front", one.width, one.height))
    for chest in piece.chests:
        box = chest.choice
        found.append(Square(box.name, "outside, from above", box.length, box.depth))
    for drawer in piece.drawers:
        found.append(Square(drawer.name, "over its sides, from above", drawer.width,
                            drawer.left.length))
    for door in piece.doors:
        found.append(Square(door.name, "over its stiles, without horns", door.width,
                            door.height))
        rails = [one.rail for one in door.rails]
        inside = door.height - rails[0].part.width - rails[-1].part.width
        found.append(Square(door.name, "inside its frame, while the horns are on",
                            door.width - 2 * door.choice.stile, inside))
    return tuple(dict.fromkeys(found))
