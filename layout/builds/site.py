"""Where a box stands: its near left lower corner, and which way is right and inward of it."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.opening import Opening, Side
from layout.joints.worked import Span
from layout.mark import Surface, face_of
from layout.part import (
    FACE_NORMAL,
    FACES,
    Direction,
    Part,
    Placement,
    Point,
    piece_axis,
    sense,
)

_OPPOSITE: dict[Direction, Direction] = {
    "+X": "-X", "-X": "+X", "+Y": "-Y", "-Y": "+Y", "+Z": "-Z", "-Z": "+Z",
}


WAYS: dict[Side, tuple[Direction, Direction]] = {
    "front": ("+X", "+Y"), "back": ("-X", "-Y"), "left": ("-Y", "+X"), "right": ("+Y", "-X"),
}


class Site(NamedTuple):
    """A place in the piece, seen from outside: x to the right, y inward, z up, in mm."""

    origin: Point
    right: Direction = "+X"
    inward: Direction = "+Y"

    def at(self, x: Fraction, y: Fraction, z: Fraction) -> Point:
        """A spot of the box, in piece coordinates."""
        found = list(self.origin)
        ways: tuple[tuple[Direction, Fraction], ...] = (
            (self.right, x), (self.inward, y), ("+Z", z)
        )
        for way, value in ways:
            found[piece_axis(way)] += sense(way) * value
        return (found[0], found[1], found[2])

    def placed(
        self, spot: tuple[Fraction, Fraction, Fraction], length: str, width: str, thick: str
    ) -> Placement:
        """A part whose L, W and T point `right`, `left`, `inward`, `outward`, `up` or `down`."""
        return Placement(self.at(*spot), self.way(length), self.way(width), self.way(thick))

    def way(self, word: str) -> Direction:
        """The piece direction of a word."""
        ways: dict[str, Direction] = {
            "right": self.right, "left": _OPPOSITE[self.right],
            "inward": self.inward, "outward": _OPPOSITE[self.inward],
            "up": "+Z", "down": "-Z",
        }
        return ways[word]

    def spans(self, part: Part) -> tuple[Span, Span, Span]:
        """A part's reach to the right, inward and up from here, in mm."""
        ways: tuple[Direction, ...] = (self.right, self.inward, "+Z")
        found = []
        for way in ways:
            along = piece_axis(way)
            ends = [sense(way) * (at - self.origin[along]) for at in part.reach(along)]
            found.append((min(ends), max(ends)))
        return (found[0], found[1], found[2])

    def surface(self, part: Part, way: int, far: bool) -> Surface:
        """The face of a part that its reach to the right, inward or up (0, 1, 2) begins at, or
        ends at where `far`.
        """
        wanted = self.spans(part)[way][1 if far else 0]
        ways: tuple[Direction, ...] = (self.right, self.inward, "+Z")
        along, sign = piece_axis(ways[way]), sense(ways[way])
        for face in FACES:
            axis = FACE_NORMAL[face][0]
            direction = part.placement.direction(axis)
            if piece_axis(direction) != along:
                continue
            at = part.placement.origin[along] + sense(direction) * part.plane(face)
            if sign * (at - self.origin[along]) == wanted:
                return face_of(part.id, face)
        raise AssertionError("a part has two faces square to every direction")


def site_of(opening: Opening) -> Site:
    """An opening's left lower corner, in the plane of what bounds it above."""
    right, inward = WAYS[opening.side]
    zero = Fraction(0)
    corner = Site((zero, zero, opening.low), right, inward)
    x = corner.spans(opening.left)[0][1]
    y = corner.spans(opening.upper)[1][0]
    return Site(corner.at(x, y, zero), right, inward)


def nearest_behind(
    site: Site, parts: tuple[Part, ...], across: Span, up: Span, start: Fraction
) -> Part | None:
    """The nearest part that stands in the way inward, from `start` on; None where none does."""
    found = []
    for part in parts:
        x, y, z = site.spans(part)
        if y[0] >= start and overlap(x, across) and overlap(z, up):
            found.append((y[0], part))
    return min(found, key=lambda one: one[0])[1] if found else None


def overlap(one: Span, other: Span) -> bool:
    """True where two reaches share more than a point."""
    return max(one[0], other[0]) < min(one[1], other[1])
