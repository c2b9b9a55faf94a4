"""The leg-and-rail frame: four legs, and rails between them on any side at any height.

Reference surfaces are the outside faces of the frame: they are chosen to show, and every gauge
line starts there, so that left and right legs are hands of each other. A leg's end A is its
top; a rail's end A is the left one seen from outside, its face edge the upper one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.choices import FrameChoice, RailChoice
from layout.builds.opening import Opening, Side
from layout.errors import BadPiece, Where
from layout.joints.rail_end import Approach, Meeting
from layout.joints.section import Terms
from layout.part import Axis, Direction, Face, Part, Placement, Point, piece_axis, sense

SIDES: tuple[Side, ...] = ("front", "back", "left", "right")
OPPOSITE: dict[Side, Side] = {"front": "back", "back": "front", "left": "right", "right": "left"}
ZERO = Fraction(0)


class StandingRail(NamedTuple):
    """A rail in its place between two legs, or a cross rail between two rails (no side).

    `between` is the sum of its shoulder distance; `of` names the door that it belongs to, "" for
    the frame's own.
    """

    part: Part
    choice: RailChoice
    side: Side | None
    top: Fraction
    meetings: tuple[Meeting, Meeting]
    between: Terms = ()
    of: str = ""

    @property
    def shoulders(self) -> Fraction:
        """The shoulder distance, in mm."""
        return sum((sign * value for sign, _, value in self.between), ZERO)

    @property
    def bottom(self) -> Fraction:
        """Its bottom edge above the floor, in mm."""
        return self.top - self.part.width


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


Lengths = Mapping[str, tuple[Fraction, Fraction]]  # of the tenons at both ends, by part id


def stand(choice: FrameChoice, lengths: Lengths | None = None) -> Frame:
    """Legs and rails in their places. BadPiece where the legs leave no room between them.

    Without `lengths` the rails end at their shoulders.
    """
    if max(choice.length, choice.depth, choice.height) > LONGEST:
        raise BadPiece(
            "the frame is more than 10 m one way",
            "check the sizes and the file's unit",
            choice.where,
        )
    if len(choice.rails) + len(choice.crosses) > MOST_RAILS:
        raise BadPiece(
            f"the frame has {len(choice.rails) + len(choice.crosses)} kinds of rail",
            f"make it at most {MOST_RAILS}, or split the piece",
            choice.where,
        )
    refuse_oversize((choice.leg.width, choice.leg.thickness), "a leg", choice.where)
    for one in choice.milled.parts:
        measured = [size for size in (one.width, one.thickness) if size is not None]
        refuse_oversize((ZERO, *measured), f"the measured {one.part}", one.where)
    for rail in (*choice.rails, *(cross.rail for cross in choice.crosses)):
        sizes = (rail.width, rail.thickness, rail.set_in, rail.tenon.length or ZERO)
        refuse_oversize(sizes, f"the {rail.name}", rail.where)
    legs = _legs(choice)
    rails = []
    for rail in choice.rails:
        for side in rail.sides:
            rails.append(stand_rail(rail, _view(side, legs), choice, lengths or {}))
    openings = _openings(choice, legs, rails)
    if choice.crosses:
        from layout.builds.cross import stand_crosses

        rails += stand_crosses(choice, tuple(legs.values()), rails, lengths or {})
    _measured_parts_exist(choice, [*legs.values(), *(rail.part for rail in rails)])
    return Frame(choice, tuple(legs.values()), tuple(rails), openings)


def _measured_parts_exist(choice: FrameChoice, parts: list[Part]) -> None:
    names = [part.name for part in parts]
    for one in choice.milled.parts:
        if one.part not in names:
            raise BadPiece(
                f"there is no part '{one.part}' to have been measured",
                f"the parts are: {', '.join(names)}",
                one.where,
            )


def refuse_oversize(sizes: Iterable[Fraction], what: str, where: Where) -> None:
    """BadPiece where a size across the grain, in mm, can't be meant."""
    if max(sizes) > WIDEST:
        raise BadPiece(f"{what} has a size of more than 2 m", "check it and the file's unit", where)


def _legs(choice: FrameChoice) -> dict[str, Part]:
    """The four legs by name, front and back, left and right: two pairs of hands."""
    legs = {}
    for near in ("front", "back"):
        for across in ("left", "right"):
            name = f"{near} {across} leg"
            measured = choice.milled.of(name)
            width = choice.leg.width if measured.width is None else measured.width
            thickness = choice.leg.thickness if measured.thickness is None else measured.thickness
            # where shoulder distances are held, a thin leg's outside moves in, not its inside
            held = choice.milled.held == "shoulders"
            thin = choice.leg.width - width if held else ZERO
            shallow = choice.leg.thickness - thickness if held else ZERO
            placement = Placement(
                (
                    thin if across == "left" else choice.length - thin,
                    shallow if near == "front" else choice.depth - shallow,
                    choice.height,
                ),
                "-Z",
                "+X" if across == "left" else "-X",
                "+Y" if near == "front" else "-Y",
            )
            legs[f"{near} {across}"] = Part(
                part_id(name),
                name,
                "leg",
                choice.height,
                width,
                thickness,
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


def outside(choice: FrameChoice, side: Side) -> Fraction:
    """Where the frame's outside face on a side stands, as drawn, along Y or X; in mm."""
    return {"front": ZERO, "back": choice.depth, "left": ZERO, "right": choice.length}[side]


def set_in_at(choice: FrameChoice, rail: RailChoice, view: SideView, leg: Part) -> Fraction:
    """How far a rail's face lies behind this leg's own: less where a thin leg's outside moved."""
    moved = leg.placement.origin[piece_axis(view.inward)] - outside(choice, view.side)
    return rail.set_in - sense(view.inward) * moved


def stand_rail(
    choice: RailChoice, view: SideView, frame: FrameChoice, lengths: Lengths
) -> StandingRail:
    """A rail between its two legs: shoulder to shoulder plus a tenon at each end."""
    over = over_legs(frame, view.side)
    sizes = [leg_size(view, leg) for leg in (view.left_leg, view.right_leg)]
    word = "width" if view.leg_face == "far edge" else "thickness"
    drawn = ""
    if frame.milled.held == "shoulders":
        drawn = " as drawn"
        sizes = [getattr(frame.leg, word)] * 2
    between: Terms = (
        (+1, f"over the legs{drawn}", over),
        (-1, f"left leg {word}{drawn}", sizes[0]),
        (-1, f"right leg {word}{drawn}", sizes[1]),
    )
    clear = over - sizes[0] - sizes[1]
    if clear <= 0:
        raise BadPiece(
            f"the legs leave nothing between them on the {view.side}",
            "make the frame longer or deeper there, or the legs thinner",
            choice.where,
        )
    if choice.centred:
        top = (frame.height + choice.width) / 2
    elif choice.below_top is not None:
        top = frame.height - choice.below_top
    else:
        top = (choice.above_floor or ZERO) + choice.width
    name = side_name(view.side, choice.name)
    measured = frame.milled.of(name)
    at_a, at_b = lengths.get(part_id(name), (ZERO, ZERO))
    # From the left leg's outside corner to the rail's end A: past the leg, back by the tenon.
    origin = list(
        go(view.left_leg.placement.origin, view.right, leg_size(view, view.left_leg) - at_a)
    )
    origin[piece_axis(view.inward)] = (
        outside(frame, view.side) + sense(view.inward) * choice.set_in
    )
    part = Part(
        part_id(name),
        name,
        "rail",
        at_a + clear + at_b,
        choice.width if measured.width is None else measured.width,
        choice.thickness if measured.thickness is None else measured.thickness,
        Placement((origin[0], origin[1], top), view.right, "-Z", view.inward),
        choice.timber,
    )
    ends: tuple[tuple[Literal["A", "B"], Part], ...] = (
        ("A", view.left_leg), ("B", view.right_leg)
    )
    meetings = [
        Meeting(
            end,
            leg,
            view.leg_face,
            _down_the_leg(choice, frame.height, part.width),
            _behind_its_face(part, set_in_at(frame, choice, view, leg), view),
        )
        for end, leg in ends
    ]
    return StandingRail(part, choice, view.side, top, (meetings[0], meetings[1]), between)


def _down_the_leg(choice: RailChoice, leg_height: Fraction, measured: Fraction) -> Approach:
    """The terms that lead from a leg's top, end A, to the rail's edges.

    A rail that came out narrower or wider keeps its top edge where it was drawn.
    """
    width = (+1, "rail width", measured)
    if choice.centred:
        middle: Terms = (
            (+1, "half of the leg length", leg_height / 2),
            (-1, "half of the rail width", choice.width / 2),
        )
        return Approach("L", True, middle, (*middle, width))
    if choice.below_top is not None:
        label = "rail flush with the leg's top" if choice.below_top == 0 else "rail below leg top"
        top: Terms = ((+1, label, choice.below_top),)
        return Approach("L", True, top, (*top, width))
    bottom: Terms = (
        (+1, "leg length", leg_height),
        (-1, "rail above the floor", choice.above_floor or ZERO),
    )
    drawn = "rail width" if measured == choice.width else "rail width as drawn"
    near = (*bottom, (-1, drawn, choice.width))
    return Approach("L", True, near, bottom if measured == choice.width else (*near, width))


def _behind_its_face(rail: Part, set_in: Fraction, view: SideView) -> Approach:
    """The terms that lead from a leg's outside face to the rail's face and back."""
    near: Terms = ((+1, "set in behind the leg's face", set_in),)
    axis: Axis = "T" if view.leg_face == "far edge" else "W"
    return Approach(axis, True, near, (*near, (+1, "rail thickness", rail.thickness)))


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
            found.append(
                Opening(
                    f"{side} under {upper.choice.name}",
                    side,
                    upper.shoulders,
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
