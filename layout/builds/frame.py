"""The leg-and-rail frame: four legs, and rails between them on any side at any height.

Reference surfaces are the outside faces of the frame: they are chosen to show, and every gauge
line starts there, so that left and right legs are hands of each other. A leg's end A is its
top; a rail's end A is the left one seen from outside, its face edge the upper one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.opening import Opening, Side
from layout.errors import BadPiece, Where
from layout.joints import tenon
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Sum, Surface, Witness, add, face_of, low_of
from layout.part import Axis, Direction, Face, Part, Placement, Point, piece_axis, sense

SIDES: tuple[Side, ...] = ("front", "back", "left", "right")
OPPOSITE: dict[Side, Side] = {"front": "back", "back": "front", "left": "right", "right": "left"}
ZERO = Fraction(0)


class LegChoice(NamedTuple):
    """A leg's section in mm: width seen from the front, thickness seen from the side."""

    width: Fraction
    thickness: Fraction


class RailChoice(NamedTuple):
    """One rail of the maker's list, in mm; it stands on every side named.

    Exactly one of `below_top` (of the leg, to the rail's top edge; 0 is flush) and
    `above_floor` (to its bottom edge) is given.
    """

    name: str
    sides: tuple[Side, ...]
    width: Fraction
    thickness: Fraction
    set_in: Fraction
    tenon: tenon.TenonChoice
    below_top: Fraction | None = None
    above_floor: Fraction | None = None
    timber: str = ""
    where: Where = Where()


class FrameChoice(NamedTuple):
    """Overall sizes over the legs in mm, the legs and the rails."""

    length: Fraction
    depth: Fraction
    height: Fraction
    leg: LegChoice
    rails: tuple[RailChoice, ...]
    timber: str = ""
    where: Where = Where()


class StandingRail(NamedTuple):
    """A rail in its place between two legs."""

    part: Part
    choice: RailChoice
    side: Side
    top: Fraction
    meetings: tuple[tenon.Meeting, tenon.Meeting]

    @property
    def bottom(self) -> Fraction:
        """Its bottom edge above the floor, in mm."""
        return self.top - self.choice.width


class Frame(NamedTuple):
    """A frame set up: its parts where they stand, and the openings between them."""

    choice: FrameChoice
    legs: tuple[Part, ...]
    rails: tuple[StandingRail, ...]
    openings: tuple[Opening, ...]


class SideView(NamedTuple):
    """A side seen from outside: which way is right and inward, and the legs at its ends."""

    side: Side
    right: Direction
    inward: Direction
    left_leg: Part
    right_leg: Part
    leg_face: Face

    @property
    def across(self) -> Literal["X", "Y"]:
        """The piece axis along the rail."""
        return "X" if self.right[1] == "X" else "Y"


def side_name(side: Side, name: str) -> str:
    """A part's name: its side and its name in the maker's list, which may say the side already."""
    return name if name.split()[0] == side else f"{side} {name}"


def part_id(name: str) -> str:
    """A part's id from its name: words joined by hyphens."""
    return "-".join(name.split())


# Sizes in mm beyond which a unit was mistaken: of a frame, and of a board across its grain.
LONGEST = Fraction(10_000)
WIDEST = Fraction(2_000)
MOST_RAILS = 40


def stand(choice: FrameChoice) -> Frame:
    """Legs and rails in their places. BadPiece where the legs leave no room between them."""
    if max(choice.length, choice.depth, choice.height) > LONGEST:
        raise BadPiece(
            "the frame is more than 10 m one way",
            "check the sizes and the file's unit",
            choice.where,
        )
    if len(choice.rails) > MOST_RAILS:
        raise BadPiece(
            f"the frame has {len(choice.rails)} kinds of rail",
            f"make it at most {MOST_RAILS}, or split the piece",
            choice.where,
        )
    refuse_oversize((choice.leg.width, choice.leg.thickness), "a leg", choice.where)
    for rail in choice.rails:
        sizes = (rail.width, rail.thickness, rail.set_in, rail.tenon.length)
        refuse_oversize(sizes, f"the {rail.name}", rail.where)
    legs = _legs(choice)
    rails = []
    for rail in choice.rails:
        for side in rail.sides:
            view = _view(side, legs)
            rails.append(stand_rail(rail, view, over_legs(choice, side), choice.height))
    openings = _openings(choice, legs, rails)
    return Frame(choice, tuple(legs.values()), tuple(rails), openings)


def refuse_oversize(sizes: Iterable[Fraction], what: str, where: Where) -> None:
    """BadPiece where a size across the grain, in mm, can't be meant."""
    if max(sizes) > WIDEST:
        raise BadPiece(f"{what} has a size of more than 2 m", "check it and the file's unit", where)


def _legs(choice: FrameChoice) -> dict[str, Part]:
    """The four legs by name, front and back, left and right: two pairs of hands."""
    legs = {}
    for near in ("front", "back"):
        for across in ("left", "right"):
            placement = Placement(
                (
                    ZERO if across == "left" else choice.length,
                    ZERO if near == "front" else choice.depth,
                    choice.height,
                ),
                "-Z",
                "+X" if across == "left" else "-X",
                "+Y" if near == "front" else "-Y",
            )
            name = f"{near} {across} leg"
            legs[f"{near} {across}"] = Part(
                part_id(name),
                name,
                "leg",
                choice.height,
                choice.leg.width,
                choice.leg.thickness,
                placement,
                choice.timber,
                "left" if placement.mirrored else "right",
            )
    return legs


def _view(side: Side, legs: Mapping[str, Part]) -> SideView:
    """A side of the frame seen from outside."""
    if side == "front":
        return SideView(side, "+X", "+Y", legs["front left"], legs["front right"], "far edge")
    if side == "back":
        return SideView(side, "-X", "-Y", legs["back right"], legs["back left"], "far edge")
    if side == "left":
        return SideView(side, "-Y", "+X", legs["back left"], legs["front left"], "back")
    return SideView(side, "+Y", "-X", legs["front right"], legs["back right"], "back")


def over_legs(choice: FrameChoice, side: Side) -> Fraction:
    """The overall size along a side, over the legs."""
    return choice.length if side in ("front", "back") else choice.depth


def leg_size(view: SideView, leg: Part) -> Fraction:
    """A leg's size along the rail."""
    return leg.width if view.leg_face == "far edge" else leg.thickness


def stand_rail(
    choice: RailChoice, view: SideView, over: Fraction, leg_height: Fraction
) -> StandingRail:
    """A rail between its two legs: shoulder to shoulder plus a tenon at each end."""
    between = over - leg_size(view, view.left_leg) - leg_size(view, view.right_leg)
    if between <= 0:
        raise BadPiece(
            f"the legs leave nothing between them on the {view.side}",
            "make the frame longer or deeper there, or the legs thinner",
            choice.where,
        )
    if choice.below_top is not None:
        top = leg_height - choice.below_top
    else:
        top = (choice.above_floor or ZERO) + choice.width
    name = side_name(view.side, choice.name)
    # From the left leg's outside corner to the rail's end A: past the leg, back by the tenon.
    origin = go(
        view.left_leg.placement.origin,
        view.right,
        leg_size(view, view.left_leg) - choice.tenon.length,
    )
    origin = go(origin, view.inward, choice.set_in)
    origin = (origin[0], origin[1], top)
    part = Part(
        part_id(name),
        name,
        "rail",
        between + 2 * choice.tenon.length,
        choice.width,
        choice.thickness,
        Placement(origin, view.right, "-Z", view.inward),
        choice.timber,
    )
    meetings = (
        tenon.Meeting("A", view.left_leg, view.leg_face),
        tenon.Meeting("B", view.right_leg, view.leg_face),
    )
    return StandingRail(part, choice, view.side, top, meetings)


def go(point: Point, direction: Direction, by: Fraction) -> Point:
    """A point of the piece moved along one of its directions, by mm."""
    moved = list(point)
    moved[piece_axis(direction)] += sense(direction) * by
    return (moved[0], moved[1], moved[2])


def _openings(
    choice: FrameChoice, legs: Mapping[str, Part], rails: list[StandingRail]
) -> tuple[Opening, ...]:
    """The space under every rail, down to the next rail on its side or to the floor."""
    found = []
    for side in SIDES:
        view = _view(side, legs)
        here = sorted((r for r in rails if r.side == side), key=lambda r: -r.top)
        for upper, lower in zip(here, [*here[1:], None], strict=False):
            low = lower.top if lower else ZERO
            if upper.bottom <= low:
                continue
            across = leg_size(view, view.left_leg) + leg_size(view, view.right_leg)
            found.append(
                Opening(
                    f"{side} under {upper.choice.name}",
                    side,
                    over_legs(choice, side) - across,
                    upper.bottom - low,
                    over_legs(choice, "left" if side in ("front", "back") else "front"),
                    low,
                    upper.bottom,
                    upper.part,
                    lower.part if lower else None,
                    view.left_leg,
                    view.right_leg,
                )
            )
    return tuple(found)


class LongShoulder(NamedTuple):
    """On one side of the frame: the lip of a rabbet run through the legs, its plane, and the
    joint that cuts it.
    """

    lip: Fraction
    plane: Fraction
    joint: str


class TenonedRail(NamedTuple):
    """A standing rail with its tenon worked out."""

    rail: StandingRail
    size: tenon.TenonSizes
    filled: str = ""  # the joint whose rabbet in the legs the long shoulder fills


def tenoned(
    frame_rail: StandingRail,
    seats: tuple[tenon.SeatInRail, ...],
    long_shoulder: LongShoulder | None,
    kit: Kit,
) -> TenonedRail:
    """A rail's tenon, given the seats it carries and the rabbets run through its legs."""
    rail, choice = frame_rail.part, frame_rail.choice
    long_by, long_from = ZERO, ZERO
    if long_shoulder is not None:
        long_from = long_shoulder.plane - choice.set_in
        # a rail that lies wholly in front of the rabbet does not reach into it
        long_by = long_shoulder.lip if 0 <= long_from < rail.thickness else ZERO
    size = tenon.sizes(choice.tenon, rail, seats, kit, long_by, long_from)
    if size.width <= 0:
        raise BadPiece(
            f"the shoulders of the {rail.name} leave no tenon",
            "top shoulder and bottom shoulder together must be less than the rail's width",
            choice.where,
        )
    joint = long_shoulder.joint if long_shoulder is not None else ""
    return TenonedRail(frame_rail, size, joint)


def work_rail(one: TenonedRail, over: Fraction, leg_height: Fraction, kit: Kit) -> Worked:
    """Both joints of a rail, and the sums of its shoulder distance and cut length."""
    standing, size = one.rail, one.size
    rail, choice = standing.part, standing.choice
    joint = tenon.work(
        rail, size, standing.meetings, choice.set_in, _edges(standing, leg_height), kit
    )
    return together([Worked(sums=_length_sums(one, over, joint)), joint])


def _edges(standing: StandingRail, leg_height: Fraction) -> tenon.RailEdges:
    """The terms that lead from a leg's top, end A, to the rail's edges."""
    choice = standing.choice
    width = (+1, "rail width", choice.width)
    if choice.below_top is not None:
        label = "rail flush with the leg's top" if choice.below_top == 0 else "rail below leg top"
        top = ((+1, label, choice.below_top),)
        return tenon.RailEdges(top, (*top, width))
    bottom = (
        (+1, "leg length", leg_height),
        (-1, "rail above the floor", choice.above_floor or ZERO),
    )
    return tenon.RailEdges((*bottom, (-1, "rail width", choice.width)), bottom)


def _length_sums(one: TenonedRail, over: Fraction, joint: Worked) -> tuple[Sum, ...]:
    standing, size = one.rail, one.size
    rail = standing.part
    left, right = standing.meetings
    word = "width" if left.face == "far edge" else "thickness"
    along: Axis = "W" if word == "width" else "T"
    leg_sizes = [m.leg.size(along) for m in (left, right)]
    between = over - sum(leg_sizes, ZERO)
    mortises = {cut.joint: cut for cut in joint.cuts if cut.role == "mortise"}
    floors = [low_of(mortises[tenon.joint_name(rail, m.end)], along) for m in (left, right)]
    sums = [
        add(
            "shoulder distance",
            rail.id,
            Witness(face_of(left.leg.id, left.face), face_of(right.leg.id, right.face)),
            (+1, "over the legs", over),
            (-1, f"left leg {word}", leg_sizes[0]),
            (-1, f"right leg {word}", leg_sizes[1]),
        ),
        add(
            "cut length",
            rail.id,
            Witness(floors[0], floors[1], plus=-2 * size.glue_room),
            (+1, "shoulder distance", between),
            (+1, "tenon at end A", size.length),
            (+1, "tenon at end B", size.length),
        ),
        add(
            "shoulder at end B from end A",
            rail.id,
            Witness(face_of(rail.id, "end A"), face_of(right.leg.id, right.face)),
            (+1, "cut length", rail.length),
            (-1, "tenon at end B", size.length),
        ),
    ]
    if size.long_by:
        ends = [
            Surface(m.leg.id, cut=(m.leg.id, one.filled, "rabbet"), axis=along)
            for m in (left, right)
        ]
        sums.append(
            add(
                "back shoulder distance",
                rail.id,
                # from the bottom of one leg's rabbet to that of the other's
                Witness(ends[0], ends[1]),
                (+1, "shoulder distance", between),
                (+1, "lip at end A", size.long_by),
                (+1, "lip at end B", size.long_by),
            )
        )
        tenon_less_lip = (
            (+1, "tenon length", size.length),
            (-1, "lip", size.long_by),
        )
        sums.append(
            add(
                "back shoulder at end A from end A",
                rail.id,
                Witness(face_of(rail.id, "end A"), ends[0]),
                *tenon_less_lip,
            )
        )
        sums.append(
            add(
                "back shoulder at end B from end A",
                rail.id,
                Witness(face_of(rail.id, "end A"), ends[1]),
                (+1, "cut length", rail.length),
                *((-sign, label, value) for sign, label, value in tenon_less_lip),
            )
        )
    return tuple(sums)
