"""One end of a rail against one face of the part that bears it: what every tenon module reads.

Places on a rail's end are told in three numbers: u from the tenon's tip along the rail, w from
the rail's face edge, t from its face side; all in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.choices import TenonChoice
from layout.joints.section import Section, Terms
from layout.joints.worked import Span, carried, reference_for
from layout.kit import Kit
from layout.mark import Cut, Hull, Mark, Spot2, Surface, Tool, face_of, high_of, low_of
from layout.part import FACE_AXES, FACE_NORMAL, Axis, Face, Part, Point

End = Literal["A", "B"]
RailAxis = Literal["W", "T"]
ZERO = Fraction(0)

OPPOSITE: dict[Face, Face] = {
    "face": "back",
    "back": "face",
    "edge": "far edge",
    "far edge": "edge",
    "end A": "end B",
    "end B": "end A",
}


class Approach(NamedTuple):
    """How a rail's width or thickness lies along an axis of its bearer.

    `forward` is True where both grow the same way. `near` leads from the bearer's reference
    surface to the rail's nearer surface, `far` to the farther one; the terms of a sum.
    """

    axis: Axis
    forward: bool
    near: Terms
    far: Terms


class Meeting(NamedTuple):
    """One end of a rail against one face of its bearer: a leg, or another rail."""

    end: End
    bearer: Part
    face: Face
    width: Approach
    thickness: Approach

    @property
    def into(self) -> Axis:
        """The bearer's axis that the tenon goes in along."""
        return FACE_NORMAL[self.face][0]

    def approach(self, axis: RailAxis) -> Approach:
        """How the rail's width or thickness lies on the bearer."""
        return self.width if axis == "W" else self.thickness


class Mitre(NamedTuple):
    """A mitred tip: how far from the tip the slope leaves the outer and the inner cheek (u, mm).

    `outer` may be less than 0: the tip is then square for some way.
    """

    outer: Fraction
    inner: Fraction
    terms: tuple[tuple[str, Terms], ...]  # the sums of the long and the short side


class Notch(NamedTuple):
    """Wood taken from a tenon where another passes through it: reach along u and across w (mm).

    `passes` names the rail that passes. The terms are those of the four sides: from the tip, and
    from the face edge.
    """

    along: Span
    across: Span
    passes: str
    start_terms: Terms
    stop_terms: Terms
    top_terms: Terms
    bottom_terms: Terms


class TenonSizes(NamedTuple):
    """One end's tenon, worked out; all in mm. `depth` is that of the mortise.

    The length of a through tenon counts to its tip beyond the bearer. `length_terms` is the sum
    that a length left open came from, empty where it was given; `could_mitre` names the rail it
    then meets, and how long its long side would be if both were mitred.
    """

    section: Section
    length: Fraction
    glue_room: Fraction
    bearer: Fraction
    through: bool = False
    projection: Fraction = ZERO
    haunch_length: Fraction = ZERO
    web_haunch: Fraction = ZERO
    mitre: Mitre | None = None
    notches: tuple[Notch, ...] = ()
    length_terms: Terms = ()
    could_mitre: tuple[str, Fraction] | None = None

    @property
    def depth(self) -> Fraction:
        """The mortise's depth: right through, or the tenon's length and room for glue."""
        return self.bearer if self.through else self.length + self.glue_room

    @property
    def wood(self) -> Fraction:
        """The thickness that seats leave in front of them."""
        return self.section.wood

    @property
    def outer(self) -> Fraction:
        """The shoulder at the face."""
        return self.section.depths[0].size

    @property
    def inner(self) -> Fraction:
        """The shoulder at the back."""
        return self.section.depths[-1].size

    @property
    def top(self) -> Fraction:
        """The shoulder (or haunch) at the face edge."""
        return self.section.widths[0].size

    @property
    def bottom(self) -> Fraction:
        """The shoulder (or haunch) at the far edge."""
        return self.section.widths[-1].size

    @property
    def thickness(self) -> Fraction:
        """One tenon's thickness."""
        return self.section.depths[1].size

    @property
    def width(self) -> Fraction:
        """One tenon's width."""
        return self.section.widths[1].size

    @property
    def far(self) -> Fraction:
        """The innermost cheek, from the face side."""
        return self.section.spans("T")[-1][1]

    @property
    def long_by(self) -> Fraction:
        """How much longer the back shoulder is."""
        return self.section.long_by

    @property
    def long_from(self) -> Fraction:
        """How far behind the face side the longer shoulder begins."""
        return self.section.long_from


class Told(NamedTuple):
    """Where a rail end's sums say whose they are: "" for both ends alike, the end's name where
    they differ, None where the other end has told them. Its section's, and those of its length.
    """

    section: str | None
    length: str | None


class Tenon(NamedTuple):
    """One of the tenons of a rail end: its name ("" where there is only one), and its reach."""

    name: str
    row: int  # its stretch across the width
    column: int  # its stretch through the thickness
    across: Span
    through: Span

    def called(self, role: str) -> str:
        """A role with the tenon's name before it: `upper mortise`."""
        return f"{self.name} {role}" if self.name else role


class Joint(NamedTuple):
    """A rail end and its bearer, with what was worked out for them."""

    rail: Part
    choice: TenonChoice
    size: TenonSizes
    meeting: Meeting
    kit: Kit

    @property
    def name(self) -> str:
        """The joint's name."""
        return joint_name(self.rail, self.meeting.end)

    @property
    def bearer(self) -> Part:
        """The part with the mortise."""
        return self.meeting.bearer

    @property
    def end_face(self) -> Face:
        """The rail's own end here."""
        return "end A" if self.meeting.end == "A" else "end B"

    def at(self, u: Fraction) -> Fraction:
        """A place counted from the tip, from the rail's end A."""
        return u if self.meeting.end == "A" else self.rail.length - u

    def span(self, u: Span) -> Span:
        """A reach counted from the tip, along the rail's L, low first."""
        a, b = self.at(u[0]), self.at(u[1])
        return (min(a, b), max(a, b))

    def hull(self, points: Iterable[Point]) -> Hull:
        """A shape given by places (u, w, t), in the rail's coordinates."""
        return Hull(tuple(sorted((self.at(u), w, t) for u, w, t in points)))

    def block(self, u: Span, w: Span, t: Span) -> Hull:
        """A square-cornered shape by its reach along u, w and t."""
        return self.hull((a, b, c) for a in u for b in w for c in t)

    def on_rail(self, role: str, shape: Hull) -> Cut:
        """A cut in the rail; its role says which end."""
        return Cut(self.rail.id, self.name, f"{role} {self.meeting.end}", shape)

    def in_bearer(self, role: str, shape: Hull) -> Cut:
        """A cut in the bearer, given in the rail's coordinates: carried over where it stands."""
        return Cut(self.bearer.id, self.name, role, carried(shape, self.rail, self.bearer))

    def place(self, u: Fraction, w: Fraction, t: Fraction) -> Point:
        """A place of the rail's end in the bearer's coordinates (L, W, T)."""
        (point,) = carried(self.hull([(u, w, t)]), self.rail, self.bearer).points
        return point

    def tenons(self) -> tuple[Tenon, ...]:
        """The tenons of this end: upper before lower, outer before inner."""
        return tenons_of(self.size.section)

    def pair_tool(self, near: Fraction, far: Fraction) -> tuple[Tool, Span | None]:
        """Both lines at one stand of the gauge, or one line at a time, as the maker chooses."""
        if self.kit.gauge == "mortise gauge" and near > 0:
            return "mortise gauge", (near, far)
        return "marking gauge", None

    def rail_mark(
        self,
        face: Face,
        tool: Tool,
        role: str,
        source: str,
        distance: Fraction,
        line: tuple[Spot2, Spot2],
        pair: Span | None = None,
    ) -> Mark:
        """A line on the rail."""
        return Mark(self.rail.id, self.name, face, tool, role, source, distance, line, pair=pair)

    def from_end_a(self, terms: Terms) -> Terms:
        """A sum counted from the tip, from the rail's end A."""
        if self.meeting.end == "A":
            return terms
        turned = tuple((-sign, name, value) for sign, name, value in terms)
        return ((+1, "cut length", self.rail.length), *turned)

    def bearer_line(
        self,
        face: Face,
        axis: RailAxis,
        value: Fraction,
        reach: Span,
        role: str,
        pair: Span | None = None,
    ) -> Mark:
        """A line on the bearer where the rail's width or thickness has this value, over a reach
        of the other: a knife line across the grain, a gauge line along it.

        `pair` holds both values of a mortise gauge's two lines, of which this is one.
        """
        ends = []
        for across in reach:
            w, t = (value, across) if axis == "W" else (across, value)
            ends.append(self._on_face(face, self.place(self.size.length, w, t)))
        line = (min(ends), max(ends))
        approach = self.meeting.approach(axis)
        at = self.on_bearer(axis, value)
        if approach.axis == "L":
            return Mark(
                self.bearer.id, self.name, face, "knife", role, "end A", at, line
            )
        tool: Tool = "marking gauge"
        both: Span | None = None
        if pair is not None:
            stands = sorted(self.on_bearer(axis, one) for one in pair)
            tool, both = self.pair_tool(stands[0], stands[1])
        return Mark(
            self.bearer.id, self.name, face, tool, role, reference_for(approach.axis), at, line,
            pair=both,
        )

    def on_bearer(self, axis: RailAxis, value: Fraction) -> Fraction:
        """A place on the rail's width or thickness, from the bearer's reference surface."""
        place = self.place(ZERO, value, ZERO) if axis == "W" else self.place(ZERO, ZERO, value)
        return place["LWT".index(self.meeting.approach(axis).axis)]

    def _on_face(self, face: Face, place: Point) -> Spot2:
        u, v = FACE_AXES[face]
        return (place["LWT".index(u)], place["LWT".index(v)])

    def surface(self, axis: RailAxis, station: int, cuts: dict[str, Cut]) -> Surface:
        """Where the tenon's section has a station, seen on the bearer: a mortise's wall, or the
        rail's own surface at either end of the section. `cuts` are the mortises by role.
        """
        chain = self.size.section.chain(axis)
        faces: tuple[Face, Face] = ("edge", "far edge") if axis == "W" else ("face", "back")
        if station in (0, len(chain)):
            return face_of(self.rail.id, faces[0 if station == 0 else 1])
        begins = chain[station].tenon
        stretch = station if begins else station - 1
        one = next(
            tenon for tenon in self.tenons()
            if (tenon.row if axis == "W" else tenon.column) == stretch
        )
        approach = self.meeting.approach(axis)
        side = low_of if begins == approach.forward else high_of
        return side(cuts[one.called("mortise")], approach.axis)


def joint_name(rail: Part, end: End) -> str:
    """The joint's name: the rail and the end of it."""
    return f"{rail.id}.{end}"


def tenons_of(section: Section) -> tuple[Tenon, ...]:
    """The tenons that a section holds, each with its name where there are several."""
    rows = [index for index, one in enumerate(section.widths) if one.tenon]
    columns = [index for index, one in enumerate(section.depths) if one.tenon]
    found = []
    for row in rows:
        for column in columns:
            words = []
            if len(rows) > 1:
                words.append(section.row_names[rows.index(row)])
            if len(columns) > 1:
                words.append("outer" if column == columns[0] else "inner")
            found.append(
                Tenon(
                    " ".join(words),
                    row,
                    column,
                    (section.station("W", row), section.station("W", row + 1)),
                    (section.station("T", column), section.station("T", column + 1)),
                )
            )
    return tuple(found)


def is_mortise(role: str) -> bool:
    """True for the role of a mortise: `mortise`, `upper mortise`, `inner mortise`."""
    return role.split()[-1] == "mortise" and "key" not in role
