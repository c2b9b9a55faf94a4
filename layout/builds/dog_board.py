"""A row of dog holes by itself: the top that round holes are bored in, or the strip that square
ones are cut in before it is glued into the top.

The board lies as it will: its face side on top, its front edge toward the front, the vise at its
left end.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.site import Site
from layout.errors import BadPiece
from layout.joints import dogs
from layout.joints.dogs import DogChoice, Dogs
from layout.part import Part

ZERO = Fraction(0)


class DogBoardChoice(NamedTuple):
    """The board's length, width and thickness in mm, and its row of holes."""

    length: Fraction
    width: Fraction
    thickness: Fraction
    dogs: DogChoice


def stand(choice: DogBoardChoice) -> Dogs:
    """The board with its row laid out. BadPiece where the holes can't be in it."""
    row = choice.dogs
    name = "top" if row.shape == "round" else "dog strip"
    if row.shape == "square" and choice.width - row.size < row.wall:
        raise BadPiece("the dog holes leave too little of the strip's width",
                       "make the strip wider, or the dogs smaller", row.where)
    for line in row.lines:
        if line - row.size / 2 <= 0 or line + row.size / 2 >= choice.width:
            raise BadPiece("a row of dog holes comes out of the top's edge",
                           "move the row, or make the top wider", row.where)
    if row.first - row.size / 2 <= 0:
        raise BadPiece("the first hole comes out of the top's end",
                       "put it farther from the vise's end", row.where)
    site = Site((ZERO, ZERO, ZERO))
    placed = site.placed((ZERO, ZERO, choice.thickness), "right", "inward", "down")
    part = Part(name.replace(" ", "-"), name, name, choice.length, choice.width, choice.thickness,
                placed)
    return dogs.laid_out(part, row)
