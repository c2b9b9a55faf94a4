"""A board of the finished piece, its six surfaces, and where it stands.

Part coordinates: L from end A along the grain, W from the face edge, T from the face side.
Piece coordinates: X left to right, Y front to back, Z floor to up. All lengths are exact
Fractions of a millimetre.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

Point = tuple[Fraction, Fraction, Fraction]
Axis = Literal["L", "W", "T"]
Direction = Literal["+X", "-X", "+Y", "-Y", "+Z", "-Z"]
Face = Literal["face", "back", "edge", "far edge", "end A", "end B"]

AXES: tuple[Axis, Axis, Axis] = ("L", "W", "T")
FACES: tuple[Face, ...] = ("face", "back", "edge", "far edge", "end A", "end B")

# The two part axes that lie in each surface, in the order of its (u, v) coordinates.
FACE_AXES: dict[Face, tuple[Axis, Axis]] = {
    "face": ("L", "W"),
    "back": ("L", "W"),
    "edge": ("L", "T"),
    "far edge": ("L", "T"),
    "end A": ("W", "T"),
    "end B": ("W", "T"),
}

# The part axis that a surface is square to, and whether it lies at the far end of that axis.
FACE_NORMAL: dict[Face, tuple[Axis, bool]] = {
    "face": ("T", False),
    "back": ("T", True),
    "edge": ("W", False),
    "far edge": ("W", True),
    "end A": ("L", False),
    "end B": ("L", True),
}

_PIECE_AXES = "XYZ"


def piece_axis(direction: Direction) -> int:
    """0, 1 or 2 for a direction along X, Y or Z."""
    return _PIECE_AXES.index(direction[1])


def sense(direction: Direction) -> int:
    """+1 or -1."""
    return 1 if direction[0] == "+" else -1


class Placement(NamedTuple):
    """Where part coordinates lie in the piece: an origin, and where L, W and T point.

    A placement may mirror; that is what makes left-hand and right-hand parts.
    """

    origin: Point
    L: Direction
    W: Direction
    T: Direction

    def direction(self, axis: Axis) -> Direction:
        """The piece direction in which a part axis points."""
        return {"L": self.L, "W": self.W, "T": self.T}[axis]

    def to_piece(self, point: Point) -> Point:
        """A point in part coordinates (L, W, T), in piece coordinates (X, Y, Z)."""
        placed = list(self.origin)
        for direction, value in zip((self.L, self.W, self.T), point, strict=True):
            along = piece_axis(direction)
            # asked of every point of every cut: adding is much quicker than a product by +1 or -1
            placed[along] = placed[along] + value if direction[0] == "+" else placed[along] - value
        return (placed[0], placed[1], placed[2])

    def to_part(self, point: Point) -> Point:
        """A point in piece coordinates (X, Y, Z), in part coordinates (L, W, T)."""
        found = []
        for direction in (self.L, self.W, self.T):
            along = piece_axis(direction)
            here, start = point[along], self.origin[along]
            found.append(here - start if direction[0] == "+" else start - here)
        return (found[0], found[1], found[2])

    @property
    def mirrored(self) -> bool:
        """True where L, W, T make a left-handed set in the piece."""
        order = [piece_axis(d) for d in (self.L, self.W, self.T)]
        swaps = sum(1 for i in range(3) for j in range(i) if order[j] > order[i])
        flips = sum(1 for d in (self.L, self.W, self.T) if sense(d) < 0)
        return (swaps + flips) % 2 == 1


class Part(NamedTuple):
    """One board of the finished piece: finished sizes, tenons included, and its place.

    `hand` is "left", "right", or "" where the part has no mirror twin.
    `kind` names what it is in the trade's words (leg, rail, panel); parts of one kind and
    shape share a stick.
    """

    id: str
    name: str
    kind: str
    length: Fraction
    width: Fraction
    thickness: Fraction
    placement: Placement
    timber: str = ""
    hand: Literal["", "left", "right"] = ""

    def size(self, axis: Axis) -> Fraction:
        """Length, width or thickness, in mm."""
        return {"L": self.length, "W": self.width, "T": self.thickness}[axis]

    def reach(self, along: int) -> tuple[Fraction, Fraction]:
        """From where to where the board reaches along X, Y or Z (0, 1 or 2), in mm."""
        one = self.placement.origin[along]
        axis = next(a for a in AXES if piece_axis(self.placement.direction(a)) == along)
        other = one + sense(self.placement.direction(axis)) * self.size(axis)
        return min(one, other), max(one, other)

    def plane(self, face: Face) -> Fraction:
        """Where a surface stands along the part axis it is square to, in mm."""
        axis, far = FACE_NORMAL[face]
        return self.size(axis) if far else Fraction(0)
