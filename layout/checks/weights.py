"""What parts weigh together, from their finished volume."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layout.checks.bodies import left_of, part_body, placed_cuts
from layout.checks.words import listed
from layout.errors import BadWood
from layout.mark import Cut, Cylinder, Finding
from layout.part import AXES, Part
from layout.piece import Piece
from layout.solid.volume import volume
from layout.wood.movement import carried
from layout.wood.weight import GLASS, POUND, mass

ZERO = Fraction(0)
DIGITS = 2
# Far more digits than any weight carries.
PI = Fraction("3.14159265358979")


def weight_of(
    piece: Piece, what: str, parts: Sequence[Part], rule: str
) -> Iterator[Finding]:
    """A note on what parts weigh together; what has no figure is named and left out."""
    whole, counted, left_out = ZERO, 0, []
    for part in parts:
        heavy = part_mass(piece, part)
        if heavy is None:
            left_out.append(f"what is of {part.timber}" if part.timber else
                            "the parts whose timber is not named")
        else:
            whole += heavy
            counted += 1
    if not counted:
        yield Finding(rule, "note", tuple(part.id for part in parts),
                      f"what {what} weighs is not known: no specific gravity for "
                      f"{listed(list(dict.fromkeys(left_out)))}", (),
                      "give its gravity under [[wood]]")
        return
    without = f", without {listed(list(dict.fromkeys(left_out)))}" if left_out else ""
    yield Finding(rule, "note", tuple(part.id for part in parts), f"{what} weighs about "
                  f"{mass_words(piece, whole)}{without}", ())


def mass_words(piece: Piece, kilos: Fraction) -> str:
    """A mass in the piece's own unit first, with no more digits than the figures carry."""
    kilograms, pounds = carried(kilos, DIGITS), carried(kilos / POUND, DIGITS)
    if piece.rule.unit == "in":
        return f"{pounds} lb ({kilograms} kg)"
    return f"{kilograms} kg ({pounds} lb)"


def _bored(cuts: Sequence[Cut]) -> Fraction:
    """The wood of bored holes that no other cut comes near, in cubic mm. (The two ends of a slot
    are left in: the cut between them takes most of them already.)
    """
    boxes = [tuple(cut.shape.reach(axis) for axis in AXES) for cut in cuts]
    found = ZERO
    for at, cut in enumerate(cuts):
        if not isinstance(cut.shape, Cylinder):
            continue
        near = any(
            all(one[0] < other[1] and other[0] < one[1]
                for one, other in zip(boxes[at], box, strict=True))
            for place, box in enumerate(boxes) if place != at
        )
        if not near:
            found += PI * cut.shape.radius**2 * abs(cut.shape.end - cut.shape.start)
    return found


def part_mass(piece: Piece, part: Part) -> Fraction | None:
    """Kilograms of a finished part; None where no figure is known for its timber."""
    cuts = piece.cuts_of(part.id)
    left = volume(left_of(part_body(part), placed_cuts(part, cuts))) - _bored(cuts)
    if part.timber == "glass":
        return left * GLASS
    timbers = piece.choice.wood
    try:
        gravity = timbers.wood(part.timber).gravity
    except BadWood:
        return None
    return None if gravity is None else mass(left, gravity, timbers.now(part.timber))
