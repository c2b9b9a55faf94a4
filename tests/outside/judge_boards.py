"""The numbers of a piece as solids: every part a box less its cuts, in its place.

Only the JSON object that `shoulderline numbers --json` prints (format 1) is read. Solids are made
and combined by manifold3d, plane figures by shapely. Lengths stay exact Fractions of a millimetre
until a solid is made of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import combinations
from typing import Any

import numpy
from manifold3d import Manifold
from shapely import MultiPoint, Polygon, unary_union

Point = tuple[Fraction, Fraction, Fraction]
Reach = tuple[tuple[Fraction, Fraction], ...]
"""Least and greatest coordinate along three axes."""

NOTHING = 1e-6
"""Cubic millimetres that count as none: two faces of a square metre each, rounded in the last
place of a double, differ by less; a wrong 1/64 in on the smallest tenon is a million times more."""

SHADE = 1e-3
"""Square millimetres by which a shadow's area may be off: the modeller rounds its outlines. A
wrong 1/64 in along an edge of 50 mm is 20 square mm."""

NUDGE = Fraction(1, 8)
"""How far a part is pushed, in mm, to feel what it touches."""

AXES = "LWT"
PIECE_AXES = "XYZ"

# As the contract has it: the two part axes of a face's (u, v), the axis it is square to, and
# whether it lies at that axis' far end.
FACES = {
    "face": ("L", "W", "T", False),
    "back": ("L", "W", "T", True),
    "edge": ("L", "T", "W", False),
    "far edge": ("L", "T", "W", True),
    "end A": ("W", "T", "L", False),
    "end B": ("W", "T", "L", True),
}


def hull(points: Iterable[Point]) -> Manifold:
    """The convex hull of exact points; here, and not before, they become floats."""
    return Manifold.hull_points(numpy.array([[float(v) for v in point] for point in points]))


def corners(reach: Reach) -> list[Point]:
    """The eight corners of a box."""
    return [(a, b, c) for a in reach[0] for b in reach[1] for c in reach[2]]


def reach_of(points: Sequence[Point]) -> Reach:
    """Least and greatest coordinates of some points."""
    return tuple((min(p[i] for p in points), max(p[i] for p in points)) for i in range(3))


def volume(reach: Reach) -> Fraction:
    """The exact volume of a box."""
    (a, b), (c, d), (e, f) = reach
    return (b - a) * (d - c) * (f - e)


def meet(one: Reach, other: Reach) -> bool:
    """Whether two boxes share more than a surface."""
    return all(
        max(a, c) < min(b, d) for (a, b), (c, d) in zip(one, other, strict=True)
    )


SEGMENTS = 64
TURNS = [
    (Fraction(math.cos(2 * math.pi * step / SEGMENTS)),
     Fraction(math.sin(2 * math.pi * step / SEGMENTS)))
    for step in range(SEGMENTS)
]


def bore_points(bore: dict[str, Any]) -> list[Point]:
    """A bored hole as the prism of a polygon drawn in its circle, in part coordinates."""
    along = AXES.index(bore["axis"])
    radius = Fraction(bore["radius"])
    one, other = (Fraction(value) for value in bore["centre"])
    circle = [(one + radius * across, other + radius * up) for across, up in TURNS]
    found = []
    for end in (Fraction(bore["from"]), Fraction(bore["to"])):
        for spot in circle:
            point = list(spot)
            point.insert(along, end)
            found.append((point[0], point[1], point[2]))
    return found


@dataclass(frozen=True)
class Cut:
    """A cut of the numbers: its points in part coordinates, and in the piece."""

    joint: str
    role: str
    points: list[Point]
    placed: list[Point]
    bore: dict[str, Any] | None = None
    """A bored hole's own words: its circle is exact there, its points are those of a prism."""

    @cached_property
    def figures(self) -> dict[tuple[str, str], Any]:
        """Figures of it that were drawn already, by what they are and the face."""
        return {}

    @cached_property
    def solid(self) -> Manifold:
        """What it takes, where it stands in the piece."""
        return hull(self.placed)

    @cached_property
    def reach(self) -> Reach:
        """Its box along L, W and T."""
        return reach_of(self.points)

    @cached_property
    def stands(self) -> Reach:
        """Its box along X, Y and Z."""
        return reach_of(self.placed)

    @property
    def square(self) -> bool:
        """Whether it is a box."""
        return sorted(set(self.points)) == sorted(set(corners(self.reach)))


class Board:
    """A part of the numbers, with its cuts, as a solid that stands in the piece."""

    def __init__(self, part: dict[str, Any], cuts: list[dict[str, Any]]) -> None:
        self.id: str = part["id"]
        self.name: str = part["name"]
        self.hand: str = part["hand"]
        self.size = tuple(Fraction(part[key]) for key in ("length", "width", "thickness"))
        self.origin = tuple(Fraction(value) for value in part["origin"])
        self.axes = [
            (PIECE_AXES.index(part["axes"][a][1]), 1 if part["axes"][a][0] == "+" else -1)
            for a in AXES
        ]
        self.cuts = [self._cut(cut) for cut in cuts if cut["part"] == self.id]

    def _cut(self, cut: dict[str, Any]) -> Cut:
        if "hull" in cut:
            points = [(Fraction(a), Fraction(b), Fraction(c)) for a, b, c in cut["hull"]]
        else:
            points = bore_points(cut["cylinder"])
        placed = [self.place(p) for p in points]
        return Cut(cut["joint"], cut["role"], points, placed, cut.get("cylinder"))

    def place(self, point: Sequence[Fraction]) -> Point:
        """A point (L, W, T) as (X, Y, Z)."""
        at = list(self.origin)
        for (axis, sign), value in zip(self.axes, point, strict=True):
            at[axis] = at[axis] + value if sign > 0 else at[axis] - value
        return (at[0], at[1], at[2])

    @property
    def mirrored(self) -> bool:
        """Whether its place turns a right hand into a left one."""
        turn = numpy.zeros((3, 3))
        for i, (axis, sign) in enumerate(self.axes):
            turn[axis, i] = sign
        return bool(numpy.linalg.det(turn) < 0)

    @cached_property
    def stands(self) -> Reach:
        """Its uncut box along X, Y and Z."""
        zero = Fraction(0)
        return reach_of([self.place((zero, zero, zero)), self.place(self.size)])

    @cached_property
    def box(self) -> Manifold:
        """Its uncut box, in place."""
        return hull(corners(self.stands))

    @cached_property
    def solid(self) -> Manifold:
        """The finished part, in place."""
        return less(self.box, self.cuts)

    def face_reach(self, face: str) -> tuple[Fraction, Fraction]:
        """How far u and v of a face run."""
        u, v, _, _ = FACES[face]
        return self.size[AXES.index(u)], self.size[AXES.index(v)]

    def cut_on(self, cut: Cut, face: str) -> Polygon | None:
        """What a cut takes of a face, in (u, v) mm; None where it takes nothing."""
        if ("on", face) not in cut.figures:
            u, v, normal, far = FACES[face]
            plane = self.size[AXES.index(normal)] if far else Fraction(0)
            found = figure(section(cut.points, AXES.index(normal), plane), (u, v))
            cut.figures["on", face] = found
        return cut.figures["on", face]


def section(points: Sequence[Point], axis: int, at: Fraction) -> list[Point]:
    """The corners of a convex body's section square to an axis; exact, in no order."""
    # all in whole numbers of a common measure, which are as exact as Fractions and far quicker
    scale = math.lcm(at.denominator, *(value.denominator for p in points for value in p))
    plane = at.numerator * (scale // at.denominator)
    whole = [tuple(v.numerator * (scale // v.denominator) for v in p) for p in points]
    low = [spot for spot in whole if spot[axis] < plane]
    high = [spot for spot in whole if spot[axis] > plane]
    found = [p for p, spot in zip(points, whole, strict=True) if spot[axis] == plane]
    crossed = set()
    for one in low:
        for other in high:
            part, run = plane - one[axis], other[axis] - one[axis]
            a, b, c = (x * run + part * (y - x) for x, y in zip(one, other, strict=True))
            crossed.add((a, b, c, run * scale))
    found += [(Fraction(a, by), Fraction(b, by), Fraction(c, by)) for a, b, c, by in crossed]
    return found


def figure(points: Iterable[Point], axes: Sequence[str]) -> Polygon | None:
    """The convex figure of points of a part seen along the axis not named; None without area."""
    i, j = (AXES.index(axis) for axis in axes)
    found = MultiPoint(numpy.array([[float(p[i]), float(p[j])] for p in points])).convex_hull
    return found if isinstance(found, Polygon) and not found.is_empty else None


def boards(numbers: dict[str, Any]) -> dict[str, Board]:
    """Every part of the numbers by its name."""
    found = [Board(part, numbers["cuts"]) for part in numbers["parts"]]
    assert len({board.name for board in found}) == len(found), "two parts of one name"
    return {board.name: board for board in found}


def settled(solid: Manifold) -> Manifold:
    """A solid, made now. The modeller puts its work off and then joins long rows of steps in an
    order of its own, and has been seen to lose a face that way.
    """
    solid.status()
    return solid


def less(solid: Manifold, cuts: Iterable[Cut]) -> Manifold:
    """What cuts leave of a solid."""
    for cut in cuts:
        solid = settled(solid - cut.solid)
    return solid


def common(one: Manifold, other: Manifold) -> float:
    """The volume that two solids share, in cubic mm."""
    return float((settled(one) ^ settled(other)).volume())


def differ(one: Manifold, other: Manifold) -> float:
    """The volume that is in one of two solids only, in cubic mm."""
    return float((one - other).volume() + (other - one).volume())


def pushed(solid: Manifold, axis: int, by: Fraction) -> Manifold:
    """A solid moved along X, Y or Z."""
    step = [0.0, 0.0, 0.0]
    step[axis] = float(by)
    return solid.translate(step)


def shadow(solids: Iterable[Manifold], normal: int) -> Any:
    """What some solids cover when seen along X or Y, as a shapely figure in (run, height).

    The view along X has Y to the right, the view along Y has X to the right.
    """
    # Rows give the new x, y, z; a swap of two axes mirrors, which a shadow doesn't mind.
    right = 1 - normal
    turn = numpy.zeros((3, 4))
    turn[0, right] = turn[1, 2] = turn[2, normal] = 1
    figures = []
    for solid in solids:
        rings = [Polygon(ring) for ring in solid.transform(turn).project().to_polygons()]
        filled = [ring for ring in rings if ring.exterior.is_ccw]
        holes = [ring for ring in rings if not ring.exterior.is_ccw]
        figures.append(unary_union(filled).difference(unary_union(holes)))
    return unary_union(figures)


def slice_at(solid: Manifold, axis: int, at: float) -> Any:
    """A solid's section square to X, Y or Z, as a shapely figure in the other two, in order."""
    others = [i for i in range(3) if i != axis]
    turn = numpy.zeros((3, 4))
    turn[0, others[0]] = turn[1, others[1]] = turn[2, axis] = 1
    rings = [Polygon(ring) for ring in solid.transform(turn).slice(at).to_polygons()]
    filled = [ring for ring in rings if ring.exterior.is_ccw]
    holes = [ring for ring in rings if not ring.exterior.is_ccw]
    return unary_union(filled).difference(unary_union(holes))


def flat(points: Iterable[Point], axis: int) -> Any:
    """Points of the piece seen along X, Y or Z, as their convex figure in the other two."""
    others = [i for i in range(3) if i != axis]
    return MultiPoint([[float(p[i]) for i in others] for p in points]).convex_hull


def overlapping(parts: dict[str, Board]) -> dict[tuple[str, str], float]:
    """Each two finished parts that share wood, and how much, in cubic mm."""
    found = {}
    for one, other in combinations(parts.values(), 2):
        if meet(one.stands, other.stands):
            shared = common(one.solid, other.solid)
            if shared > NOTHING:
                # worked out a second way, for the modeller has been seen to make a sliver of
                # boards that only touch: what one takes of the other's box, less the other's cuts
                shared = min(shared, float(less(one.solid ^ other.box, other.cuts).volume()))
            if shared > NOTHING:
                found[(one.name, other.name)] = shared
    return found
