"""Rails with their tenons worked out, and the sums of their lengths."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.frame import StandingRail
from layout.errors import BadPiece
from layout.joints import tenon
from layout.joints.rail_end import Joint, TenonSizes, is_mortise, joint_name
from layout.joints.section import SeatInRail, Section, as_milled, section
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Cut, Sum, Surface, Witness, add, face_of

ZERO = Fraction(0)


class LongShoulder(NamedTuple):
    """On one side of the frame: the lip of a rabbet run through the legs, its plane, and the
    joint that cuts it.
    """

    lip: Fraction
    plane: Fraction
    joint: str


class TenonedRail(NamedTuple):
    """A standing rail with its tenons worked out, at end A and at end B."""

    rail: StandingRail
    sizes: tuple[TenonSizes, TenonSizes]
    filled: str = ""  # the joint whose rabbet in the legs the long shoulder fills

    @property
    def size(self) -> TenonSizes:
        """The tenon at end A."""
        return self.sizes[0]

    def joints(self, kit: Kit) -> tuple[Joint, Joint]:
        """Both of its ends with what bears them."""
        one, other = (
            Joint(self.rail.part, self.rail.choice.tenon, size, meeting, kit)
            for size, meeting in zip(self.sizes, self.rail.meetings, strict=True)
        )
        return one, other


def sectioned(
    rail: StandingRail,
    seats: tuple[SeatInRail, ...],
    long_shoulder: LongShoulder | None,
    kit: Kit,
) -> Section:
    """A rail's tenons cut across, given the seats it carries and the rabbets run through its
    legs. BadPiece where the shoulders leave no tenon.
    """
    choice = rail.choice
    long_by, long_from = ZERO, ZERO
    if long_shoulder is not None:
        long_from = long_shoulder.plane - choice.set_in
        # a rail that lies wholly in front of the rabbet does not reach into it
        long_by = long_shoulder.lip if 0 <= long_from < rail.part.thickness else ZERO
    flat = rail.part.placement.W[1] != "Z"
    found = section(
        choice.tenon,
        choice.width,
        choice.thickness,
        seats,
        kit,
        long_by,
        long_from,
        ("first", "second") if flat else ("upper", "lower"),
        choice.where,
    )
    found = as_milled(found, rail.part.width, rail.part.thickness)
    if any(one.size <= 0 for one in found.widths if one.tenon):
        raise BadPiece(
            f"the shoulders of the {rail.part.name} leave no tenon",
            "top shoulder and bottom shoulder together must be less than the rail's width"
            if choice.tenon.pair is None
            else "top shoulder, web and bottom shoulder together must be less than the rail's "
            "width",
            choice.where,
        )
    return found


def work_rail(one: TenonedRail, kit: Kit) -> Worked:
    """Both joints of a rail, and the sums of its shoulder distance and cut length."""
    joints = one.joints(kit)
    done = tenon.work(joints)
    return together([Worked(sums=_length_sums(one, joints, done.cuts)), done])


def deep_end(joint: Joint, cut: Cut) -> Surface:
    """Where a cut in the bearer ends inside it."""
    into = joint.meeting.into
    entry = joint.bearer.plane(joint.meeting.face)
    return Surface(cut.part, cut=cut.key, axis=into, high=entry == 0)


def _length_sums(
    one: TenonedRail, joints: tuple[Joint, Joint], cuts: tuple[Cut, ...]
) -> tuple[Sum, ...]:
    standing, rail = one.rail, one.rail.part
    left, right = standing.meetings
    floors = []
    beyond = ZERO
    for joint in joints:
        name = joint_name(rail, joint.meeting.end)
        mortise = next(cut for cut in cuts if cut.joint == name and is_mortise(cut.role))
        floors.append(deep_end(joint, mortise))
        beyond += joint.size.projection if joint.size.through else -joint.size.glue_room
    at_a, at_b = (size.length for size in one.sizes)
    between = standing.shoulders
    faces = (face_of(left.bearer.id, left.face), face_of(right.bearer.id, right.face))
    sums = [
        add("shoulder distance", rail.id, Witness(*faces), *standing.between),
        add(
            "cut length",
            rail.id,
            Witness(floors[0], floors[1], plus=beyond),
            (+1, "shoulder distance", between),
            (+1, "tenon at end A", at_a),
            (+1, "tenon at end B", at_b),
        ),
        add(
            "shoulder at end B from end A",
            rail.id,
            Witness(face_of(rail.id, "end A"), faces[1]),
            (+1, "cut length", rail.length),
            (-1, "tenon at end B", at_b),
        ),
    ]
    return (*sums, *_long_sums(one, between))


def _long_sums(one: TenonedRail, between: Fraction) -> list[Sum]:
    """The back shoulders of a rail between rabbets that run through what bears it."""
    rail = one.rail.part
    if not one.size.long_by:
        return []
    long_by = one.size.long_by
    ends = [
        Surface(meeting.bearer.id, cut=(meeting.bearer.id, one.filled, "rabbet"),
                axis=meeting.into, high=meeting.bearer.plane(meeting.face) == 0)
        for meeting in one.rail.meetings
    ]
    at_a, at_b = (
        ((+1, "tenon length", size.length), (-1, "lip", long_by)) for size in one.sizes
    )
    return [
        add(
            "back shoulder distance",
            rail.id,
            # from the bottom of one leg's rabbet to that of the other's
            Witness(ends[0], ends[1]),
            (+1, "shoulder distance", between),
            (+1, "lip at end A", long_by),
            (+1, "lip at end B", long_by),
        ),
        add(
            "back shoulder at end A from end A",
            rail.id,
            Witness(face_of(rail.id, "end A"), ends[0]),
            *at_a,
        ),
        add(
            "back shoulder at end B from end A",
            rail.id,
            Witness(face_of(rail.id, "end A"), ends[1]),
            (+1, "cut length", rail.length),
            *((-sign, label, value) for sign, label, value in at_b),
        ),
    ]
