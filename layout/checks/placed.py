"""Where surfaces and cuts stand in the piece: the second path that confirms a sum."""

from __future__ import annotations

from fractions import Fraction

from layout.mark import Cut, Surface, Witness
from layout.part import AXES, FACE_NORMAL, Axis, Part, piece_axis, sense
from layout.piece import Piece

Box = tuple[tuple[Fraction, Fraction], ...]


class Ground:
    """The placed parts and cuts of a piece, found by name."""

    def __init__(self, piece: Piece) -> None:
        self._parts = {part.id: part for part in piece.parts}
        self._cuts = {cut.key: cut for cut in piece.cuts}

    def stand(self, surface: Surface) -> tuple[int, Fraction] | None:
        """The piece axis (0, 1, 2) a surface is square to, and where it stands on it, in mm;
        None for a cut that was never made.
        """
        part = self._parts[surface.part]
        if surface.face is not None:
            return _along(part, FACE_NORMAL[surface.face][0], part.plane(surface.face))
        assert surface.axis is not None
        assert surface.cut is not None
        cut = self._cuts.get(surface.cut)
        if cut is None:
            return None
        return _along(part, surface.axis, cut.shape.reach(surface.axis)[1 if surface.high else 0])

    def measured(self, witness: Witness) -> Fraction | None:
        """The distance that a witness measures on the placed parts, in mm; None where one of its
        surfaces is not there or the two are not parallel.
        """
        one, other = self.stand(witness.one), self.stand(witness.other)
        if one is None or other is None or one[0] != other[0]:
            return None
        return abs(one[1] - other[1]) + witness.plus


def _along(part: Part, axis: Axis, value: Fraction) -> tuple[int, Fraction]:
    direction = part.placement.direction(axis)
    along = piece_axis(direction)
    return along, part.placement.origin[along] + sense(direction) * value


def part_box(part: Part) -> Box:
    """A part's outside, as its reach along X, Y and Z in mm."""
    return _boxed(part, {axis: (Fraction(0), part.size(axis)) for axis in AXES})


def cut_box(part: Part, cut: Cut) -> Box:
    """The reach of one of the part's cuts along X, Y and Z in mm."""
    return _boxed(part, {axis: cut.shape.reach(axis) for axis in AXES})


def _boxed(part: Part, reach: dict[Axis, tuple[Fraction, Fraction]]) -> Box:
    spans: dict[int, tuple[Fraction, Fraction]] = {}
    for axis in AXES:
        ends = [_along(part, axis, value) for value in reach[axis]]
        spans[ends[0][0]] = (min(e[1] for e in ends), max(e[1] for e in ends))
    return tuple(spans[along] for along in range(3))


def gaps(one: Box, other: Box) -> tuple[Fraction, Fraction, Fraction]:
    """Clear distance between two boxes along X, Y and Z; negative where they overlap."""
    found = [max(b[0] - a[1], a[0] - b[1]) for a, b in zip(one, other, strict=True)]
    return (found[0], found[1], found[2])


def apart(one: Box, other: Box) -> Fraction:
    """The clear distance along the axis that keeps two boxes furthest apart, in mm.

    Negative where they overlap: then it is how deep, by the shortest way out.
    """
    return max(gaps(one, other))
