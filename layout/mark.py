"""What joints make and sheets read: cuts, marks, sums and findings.

All lengths are exact Fractions of a millimetre.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from typing import Literal, NamedTuple

from layout.part import Axis, Face, Point

Spot2 = tuple[Fraction, Fraction]
Tool = Literal[
    "knife", "marking gauge", "mortise gauge", "bevel", "dividers", "pencil", "bit"
]
Level = Literal["stop", "caution", "note"]


class Hull(NamedTuple):
    """The convex hull of points in part coordinates (L, W, T)."""

    points: tuple[Point, ...]

    def reach(self, axis: Axis) -> tuple[Fraction, Fraction]:
        """Least and greatest coordinate along a part axis, in mm."""
        index = "LWT".index(axis)
        values = [point[index] for point in self.points]
        return min(values), max(values)


class Cylinder(NamedTuple):
    """A bored hole along a part axis; `centre` is given in the two other axes, in order."""

    axis: Axis
    centre: Spot2
    radius: Fraction
    start: Fraction
    end: Fraction

    def reach(self, axis: Axis) -> tuple[Fraction, Fraction]:
        """Least and greatest coordinate along a part axis, in mm."""
        if axis == self.axis:
            return min(self.start, self.end), max(self.start, self.end)
        middle = self.centre["LWT".replace(self.axis, "").index(axis)]
        return middle - self.radius, middle + self.radius


def box(
    along: tuple[Fraction, Fraction],
    across: tuple[Fraction, Fraction],
    through: tuple[Fraction, Fraction],
) -> Hull:
    """A square-cornered hull: its reach along L, along W and along T, in mm."""
    return Hull(tuple((l, w, t) for l in along for w in across for t in through))  # noqa: E741


class Cut(NamedTuple):
    """A volume taken out of a part; part, joint and role together name it."""

    part: str
    joint: str
    role: str
    shape: Hull | Cylinder

    @property
    def key(self) -> tuple[str, str, str]:
        """Its name in the piece."""
        return (self.part, self.joint, self.role)


class Mark(NamedTuple):
    """One line or point that the maker lays out on one face.

    `line` holds two (u, v) spots in the face's own two axes (part.FACE_AXES); a point has one
    spot and a `diameter`. `source` is the reference surface that the distance is taken from
    (face side, face edge, end A, end B). `pair` is set on both lines that one stand of a
    mortise gauge strikes at once: the near and the far distance.
    """

    part: str
    joint: str
    face: Face
    tool: Tool
    role: str
    source: str
    distance: Fraction
    line: tuple[Spot2, Spot2] | None = None
    point: Spot2 | None = None
    diameter: Fraction | None = None
    pair: tuple[Fraction, Fraction] | None = None


class Term(NamedTuple):
    """One row of a sum: +1 or -1, what it is, and its value in mm."""

    sign: int
    label: str
    value: Fraction


class Surface(NamedTuple):
    """A surface of a placed part that a sum can be checked against.

    Either one of the part's own six faces, or the low or high end of one of its cuts along a
    part axis.
    """

    part: str
    face: Face | None = None
    cut: tuple[str, str, str] | None = None
    axis: Axis | None = None
    high: bool = False


def face_of(part: str, face: Face) -> Surface:
    """A part's own face, as a surface to measure from."""
    return Surface(part, face=face)


def low_of(cut: Cut, axis: Axis) -> Surface:
    """Where a cut starts along a part axis."""
    return Surface(cut.part, cut=cut.key, axis=axis)


def high_of(cut: Cut, axis: Axis) -> Surface:
    """Where a cut ends along a part axis."""
    return Surface(cut.part, cut=cut.key, axis=axis, high=True)


class Witness(NamedTuple):
    """How the placed parts confirm a total: the distance between two surfaces, plus `plus`.

    It must not be the way the total was worked out: it measures the wood, where the parts
    stand, usually on the other part of the joint.
    """

    one: Surface
    other: Surface
    plus: Fraction = Fraction(0)


class Sum(NamedTuple):
    """A worked addition with named terms, its total, and what in the placed parts confirms it.

    `also` is a second witness where the size shows on both parts of a joint: both must agree.
    `along` confirms the running total after each term but the last, where the terms follow one
    another along a board and every running total is a line to strike: a chain. Such a sum is
    told with its running totals.
    `where` names the neighbour that the size belongs to, where a part has several such sizes
    (`front apron, end A`). Labels name parts by their office (left leg, upper rail), so that
    equal sums on several parts read alike and print once.
    """

    name: str
    part: str
    terms: tuple[Term, ...]
    total: Fraction
    witness: Witness
    where: str = ""
    also: Witness | None = None
    along: tuple[Witness, ...] = ()

    @property
    def running(self) -> tuple[Fraction, ...]:
        """The running total after each term, in mm; the last is the total."""
        return tuple(accumulate(term.sign * term.value for term in self.terms))

    @property
    def full_name(self) -> str:
        """Name and place together."""
        return f"{self.name} ({self.where})" if self.where else self.name


def add(
    name: str,
    part: str,
    witness: Witness,
    *terms: tuple[int, str, Fraction],
    where: str = "",
    also: Witness | None = None,
    along: tuple[Witness, ...] = (),
) -> Sum:
    """A Sum of (sign, label, value) rows, totalled exactly."""
    rows = tuple(Term(*term) for term in terms)
    total = sum((row.sign * row.value for row in rows), Fraction(0))
    return Sum(name, part, rows, total, witness, where, also, along)


class Finding(NamedTuple):
    """What a check found: the rule, how grave, the parts, the words, and the figures in mm."""

    rule: str
    level: Level
    parts: tuple[str, ...]
    text: str
    figures: tuple[tuple[str, Fraction], ...] = ()
    cure: str = ""
