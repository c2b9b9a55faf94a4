"""What a maker can choose of a mortise and tenon; lengths in mm, None where a rule works it out.

Records only: what becomes of a choice stands in the module of its name (haunch, peg, ...).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

RailEdge = Literal["edge", "far edge"]
MeetingKind = Literal["clear", "mitred", "passing"]
ZERO = Fraction(0)


class HaunchChoice(NamedTuple):
    """A short shelf of the tenon's thickness beside the tenon, at one edge of the rail.

    `square` is as long at the rail's edge as at the tenon; `sloped` runs out to nothing at the
    edge, so that it is hidden; `groove` fills the groove that runs out at the end of the leg.
    `width` is measured across the rail, `length` from the shoulder; `room` is how much deeper
    the leg's socket is cut than the haunch is long, `usual` the length of one left open.
    """

    kind: Literal["square", "sloped", "groove"]
    edge: RailEdge
    room: Fraction
    usual: Fraction
    width: Fraction | None = None
    length: Fraction | None = None


class PairChoice(NamedTuple):
    """Two tenons one above the other: the web between them, and how long a haunch stands in it
    (0 for none); `room` is how much deeper its socket is cut.
    """

    web: Fraction | None = None
    haunch: Fraction = ZERO
    room: Fraction = ZERO


class TwinChoice(NamedTuple):
    """Two tenons side by side in the thickness, and the gap between them."""

    gap: Fraction | None = None


class WedgeChoice(NamedTuple):
    """Wedges in saw cuts of a through tenon.

    `thickness` is that of a wedge at its thick end, `kerf` that of the saw cut; `from_edge` is
    from the tenon's edge to the middle of a cut, where there are two.
    """

    many: Literal[1, 2]
    thickness: Fraction
    kerf: Fraction
    from_edge: Fraction
    length: Fraction | None = None


class SideWedgeChoice(NamedTuple):
    """One wedge in the mortise beside the tenon, above it or below it.

    `outer` and `inner` are its thickness at the leg's outer face and at the face that the rail
    comes to; `splay` is how much wider the tenon's other edge grows from shoulder to outer face.
    """

    edge: RailEdge
    outer: Fraction
    inner: Fraction
    splay: Fraction = ZERO


class KeyChoice(NamedTuple):
    """A tapered key through the part of a through tenon that stands beyond the leg.

    `way` is what of the tenon it is driven through. `wide` is its size along the rail where it
    enters the tenon, `taper` how much it loses of that in each mm that it is driven, `pull` how
    far its hole reaches in under the leg's face, `width` its other size, `beyond` the wood of
    the tenon beyond the hole, `proud` how far the key stands out at both ends.
    """

    way: Literal["thickness", "width"]
    wide: Fraction
    taper: Fraction
    pull: Fraction
    beyond: Fraction
    proud: Fraction
    width: Fraction | None = None


class PegChoice(NamedTuple):
    """Pegs through the cheeks of the mortise.

    `draw` is how much nearer the shoulder the tenon's hole is bored than the leg's (drawbore; 0
    for none); `past` is how far the hole goes on beyond the mortise.
    """

    many: int | None = None
    diameter: Fraction | None = None
    from_shoulder: Fraction | None = None
    draw: Fraction | None = None
    past: Fraction | None = None


class MouldChoice(NamedTuple):
    """A moulding worked along the inner edges of the frame's face: its width on the face, and
    its depth. It is cut back at the joint and mitred; the face shoulder is longer by its width.
    `edges` are those of the rail's own edges that carry it.
    """

    width: Fraction
    depth: Fraction
    edges: tuple[RailEdge, ...]


class TenonChoice(NamedTuple):
    """What the maker chooses of a tenon.

    `shoulder` stands for a top or bottom shoulder that the maker leaves open. `barefaced` names
    the side without a shoulder. `stub` is a tenon that is meant to be short. `meeting` says
    what becomes of tenons that meet in a corner leg, and `notched` that this one carries the
    notch where they pass. `in_line`: what is left open of its thickness and place follows the
    rail's seat: its back lies in the plane of a rabbet, or it is as thick as a groove. A `through`
    tenon stands `projection` beyond the leg.
    """

    glue_room: Fraction
    shoulder: Fraction
    web_least: Fraction
    wall_least: Fraction
    length: Fraction | None = None
    thickness: Fraction | None = None
    outer_shoulder: Fraction | None = None
    inner_shoulder: Fraction | None = None
    top_shoulder: Fraction | None = None
    bottom_shoulder: Fraction | None = None
    barefaced: Literal["face", "back"] | None = None
    stub: bool = False
    haunch: HaunchChoice | None = None
    pair: PairChoice | None = None
    twin: TwinChoice | None = None
    through: bool = False
    projection: Fraction = ZERO
    wedges: WedgeChoice | None = None
    side_wedge: SideWedgeChoice | None = None
    key: KeyChoice | None = None
    pegs: PegChoice | None = None
    mould: MouldChoice | None = None
    meeting: MeetingKind | None = None
    notched: bool = False
    mitre_gap: Fraction = ZERO
    in_line: bool = False
