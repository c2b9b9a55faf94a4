"""Panels fitted to a frame's openings, and the seats that hold them.

Cut size = opening + a lip on each side - room to fit; across solid wood the room is the year's.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.frame import (
    Frame,
    StandingRail,
    go,
    part_id,
    refuse_oversize,
    side_name,
)
from layout.builds.opening import Opening, Side
from layout.builds.panel_fit import Fit, FitChoice, SolidChoice, lip_for
from layout.builds.panel_fit import fit as fitted_to
from layout.builds.tenoned import LongShoulder
from layout.errors import BadPiece, Where
from layout.joints import panel_edge, seat
from layout.joints.panel_edge import Profile
from layout.joints.section import SeatInRail
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Cut, Sum, Witness, add, face_of, high_of, low_of
from layout.part import Direction, Face, Part, Placement, Point, piece_axis, sense
from layout.wood.timber import Timbers

ZERO = Fraction(0)


class PanelChoice(NamedTuple):
    """A panel of the maker's list; one is made for every opening named. Lengths in mm.

    Where it is thicker than its seats are wide, `thickness` is the board's and `profile` its edge.
    `open_lip` says that the lip follows from the year; the seat's own then counts for nothing.
    """

    name: str
    openings: tuple[str, ...]
    seat: seat.SeatChoice
    room: Fraction
    grain: Literal["up", "across"]
    timber: str = ""
    where: Where = Where()
    thickness: Fraction | None = None
    profile: Profile | None = None
    solid: SolidChoice | None = None
    open_lip: bool = False

    @property
    def make(self) -> FitChoice:
        """What the panel is."""
        tongue = self.seat.panel_thickness
        return FitChoice(
            self.timber,
            tongue if self.thickness is None else self.thickness,
            Profile("plain", tongue) if self.profile is None else self.profile,
            self.room,
            self.grain,
            self.solid,
            self.where,
        )


class FittedPanel(NamedTuple):
    """One panel in its opening, and where its seat lies."""

    part: Part
    choice: PanelChoice
    opening: Opening
    upper: StandingRail
    lower: StandingRail
    size: seat.SeatSizes
    fit: Fit

    @property
    def joint(self) -> str:
        """The name of its seat as a joint."""
        return f"{self.part.id}.seat"

    def seats_in(self, rail: StandingRail) -> tuple[SeatInRail, ...]:
        """What of this panel's seat the rail carries."""
        edges: list[Literal["edge", "far edge"]] = []
        if rail.part.id == self.upper.part.id:
            edges.append("far edge")
        if rail.part.id == self.lower.part.id:
            edges.append("edge")
        start = self.size.plane - rail.choice.set_in
        kind = self.choice.seat.kind
        runs_out = self.choice.seat.run == "through"
        width = self.choice.seat.panel_thickness
        return tuple(
            SeatInRail(kind, edge, start, self.size.lip, width, runs_out) for edge in edges
        )

    def long_shoulder(self) -> LongShoulder | None:
        """What a rabbet run through the legs asks of the rails on this side."""
        if self.choice.seat.run == "through" and self.choice.seat.kind == "rabbet":
            return LongShoulder(self.size.lip, self.size.plane, self.joint)
        return None


def fit(
    choice: PanelChoice, frame: Frame, timbers: Timbers | None = None
) -> tuple[FittedPanel, ...]:
    """A panel for each opening named. BadPiece where there is no such opening, or no room."""
    make = choice.make
    sizes = (make.thickness, choice.seat.panel_thickness, choice.seat.lip, choice.room)
    refuse_oversize(sizes, f"the {choice.name}", choice.where)
    timbers = Timbers() if timbers is None else timbers
    if choice.open_lip:
        openings = [_opening(choice, name, frame) for name in choice.openings]
        across = tuple(one.width if choice.grain == "up" else one.height for one in openings)
        lip = lip_for(make, across, timbers)
        choice = choice._replace(seat=choice.seat._replace(lip=lip))
    return tuple(_fit_one(choice, name, frame, timbers) for name in choice.openings)


def _opening(choice: PanelChoice, name: str, frame: Frame) -> Opening:
    """The opening of this name, with rails above and below it. BadPiece where there is none."""
    offered = {opening.name: opening for opening in frame.openings}
    opening = offered.get(name)
    if opening is None:
        listed = ", ".join(f"'{one}'" for one in offered) or "none"
        raise BadPiece(
            f"there is no opening '{name}'", f"the frame offers: {listed}", choice.where
        )
    if opening.lower is None:
        raise BadPiece(
            f"the opening '{name}' has no rail at its foot",
            "a panel needs a rail above it and one below; add a rail, or name another opening",
            choice.where,
        )
    return opening


def _fit_one(choice: PanelChoice, name: str, frame: Frame, timbers: Timbers) -> FittedPanel:
    opening = _opening(choice, name, frame)
    assert opening.lower is not None  # looked at there
    rails = {rail.part.id: rail for rail in frame.rails}
    upper, lower = rails[opening.upper.id], rails[opening.lower.id]
    size = seat.sizes(choice.seat, upper.part, upper.choice.set_in)
    made = fitted_to(choice.make, opening.width, opening.height, size.lip, timbers,
                     f"panel in '{name}'")
    front = choice.make.profile.front(choice.make.thickness)
    return FittedPanel(
        _place(choice, opening, size.plane - upper.choice.set_in - front, made),
        choice,
        opening,
        upper,
        lower,
        size,
        made,
    )


def _place(
    choice: PanelChoice,
    opening: Opening,
    behind: Fraction,
    made: Fit,
) -> Part:
    """The panel in the middle of its seats, this far behind the upper rail's face; its face side
    is the outside one.
    """
    view = opening.upper.placement
    right, inward = view.L, view.T
    across, height = made.wide.size, made.high.size
    # the lower left corner of the panel's outside face, seen from outside
    corner = go(_inner_corner(opening, right), right, made.wide.room / 2 - made.lip)
    corner = _level_with(corner, go(view.origin, inward, behind), inward)
    low = opening.low - made.lip + made.high.room / 2
    if choice.grain == "up":
        origin = (corner[0], corner[1], low)
        placement = Placement(origin, "+Z", right, inward)
        length, width = height, across
    else:
        origin = (corner[0], corner[1], low + height)
        placement = Placement(origin, right, "-Z", inward)
        length, width = across, height
    name = side_name(opening.side, choice.name)
    here = [one for one in choice.openings if one.split()[0] == opening.side]
    if len(here) > 1:
        name = f"{name} {here.index(opening.name) + 1}"
    return Part(
        part_id(name),
        name,
        "panel",
        length,
        width,
        choice.make.thickness,
        placement,
        choice.timber,
    )


def _inner_corner(opening: Opening, right: Direction) -> Point:
    """The left leg's outside corner, moved along the side past the leg."""
    leg = opening.left
    past = leg.width if piece_axis(leg.placement.W) == piece_axis(right) else leg.thickness
    return go(leg.placement.origin, right, past)


def _level_with(point: Point, other: Point, direction: Direction) -> Point:
    """A point moved along a direction until it is level with another."""
    moved = list(point)
    moved[piece_axis(direction)] = other[piece_axis(direction)]
    return (moved[0], moved[1], moved[2])


def _set_in_at(fitted: FittedPanel, leg: Part) -> Fraction:
    """How far the upper rail's face lies behind this leg's own, where both stand."""
    place = fitted.upper.part.placement
    along = piece_axis(place.T)
    return sense(place.T) * (place.origin[along] - leg.placement.origin[along])


def work(fitted: FittedPanel, leg_height: Fraction, kit: Kit) -> Worked:
    """The seat all round, and the sums of the opening, the seat and the panel."""
    choice, size, opening = fitted.choice.seat, fitted.size, fitted.opening
    rails = (
        (fitted.upper, "far edge", "upper"),
        (fitted.lower, "edge", "lower"),
    )
    in_rails = {
        name: seat.work_rail(
            rail.part, edge, fitted.joint, choice, size, rail.choice.set_in, kit  # type: ignore[arg-type]
        )
        for rail, edge, name in rails
    }
    face = fitted.upper.meetings[0].face
    reach = (
        leg_height - opening.high - size.lip,
        leg_height - opening.low + size.lip,
    )
    in_legs = {
        name: seat.work_leg(leg, face, fitted.joint, choice, _on(fitted, leg), reach, kit)
        for name, leg in (("left", opening.left), ("right", opening.right))
    }
    cuts = {name: done.cuts[0] for name, done in (in_rails | in_legs).items() if done.cuts}
    sums: list[Sum] = []
    for rail, edge, name in rails:
        if "left" in cuts and name in cuts:
            sums += seat.rail_sums(
                rail.part,
                edge,  # type: ignore[arg-type]
                choice,
                size,
                rail.choice.set_in,
                cuts["left"],
                opening.left,
                (fitted.upper.choice.set_in, fitted.upper.part),
                _edge_in_rail(fitted),
            )
    for name, leg in (("left", opening.left), ("right", opening.right)):
        if name in cuts and "upper" in cuts:
            sums += seat.leg_sums(
                leg,
                choice,
                _on(fitted, leg),
                fitted.upper.part,
                cuts["upper"],
                _set_in_at(fitted, leg),
                face,
                fitted.part.name,
                _edge_in_leg(fitted, leg, name),
            )
            if choice.run == "stopped":
                sums += _stop_sums(fitted, leg, leg_height, cuts)
    sums += _panel_sums(fitted)
    edges = panel_edge.work(fitted.part, f"{fitted.part.id}.edge", fitted.choice.make.profile,
                            size.lip, kit)
    told = Worked(sums=tuple(sums))
    return together([*in_rails.values(), *in_legs.values(), told, edges, *_pins(fitted)])


def _pins(fitted: FittedPanel) -> Iterator[Worked]:
    """Where a solid panel is pinned, with its grain up: in the middle of both rails. (A leg is too
    thick for it: across the grain use spacers.)
    """
    solid = fitted.choice.solid
    if solid is None or solid.held != "pins" or fitted.choice.grain != "up":
        return
    lip, opening = fitted.size.lip, fitted.opening
    start = _inner_corner(opening, opening.upper.placement.L)
    for rail, far in ((fitted.upper.part, True), (fitted.lower.part, False)):
        across = (rail.width - lip, rail.width) if far else (ZERO, lip)
        # the panel lies in the middle: its own middle confirms it
        told = add("panel pin from end A", rail.id,
                   Witness(face_of(rail.id, "end A"), face_of(fitted.part.id, "edge"),
                           plus=fitted.part.width / 2),
                   (+1, "tenon at end A", rail.placement.to_part(start)[0]),
                   (+1, "half of the opening", opening.width / 2), where=fitted.part.name)
        yield panel_edge.pin(rail, fitted.joint, across, told)


def _on(fitted: FittedPanel, leg: Part) -> seat.SeatSizes:
    """The seat as this leg has it: its plane counted from the leg's own outside face."""
    moved = _set_in_at(fitted, leg) - fitted.upper.choice.set_in
    return fitted.size._replace(plane=fitted.size.plane + moved)


def _edge_in_rail(fitted: FittedPanel) -> Witness:
    """From the upper rail's face edge to the panel's edge in it, less the room beyond that."""
    top: Face = "end B" if fitted.choice.grain == "up" else "edge"
    edge = face_of(fitted.part.id, top)
    return Witness(
        face_of(fitted.upper.part.id, "edge"), edge, plus=-fitted.fit.high.room / 2
    )


def _edge_in_leg(fitted: FittedPanel, leg: Part, side: str) -> Witness:
    """From the leg's outside to the panel's edge in it, less the room left beyond that edge."""
    along = fitted.upper.meetings[0].face
    reference: Face = "edge" if along == "far edge" else "face"
    near: Face = "edge" if fitted.choice.grain == "up" else "end A"
    far: Face = "far edge" if fitted.choice.grain == "up" else "end B"
    panel_edge = face_of(fitted.part.id, near if side == "left" else far)
    return Witness(face_of(leg.id, reference), panel_edge, plus=-fitted.fit.wide.room / 2)


def _stop_sums(
    fitted: FittedPanel, leg: Part, leg_height: Fraction, cuts: dict[str, Cut]
) -> list[Sum]:
    """Where the leg's seat stops; the rails' seats, where they stand, confirm it."""
    lip, opening, kind = fitted.size.lip, fitted.opening, fitted.choice.seat.in_legs
    ends = []
    if "upper" in cuts:
        ends.append((f"{kind} top from end A", opening.high, -1, "upper rail", low_of, "upper"))
    if "lower" in cuts:
        ends.append((f"{kind} bottom from end A", opening.low, +1, "lower rail", high_of, "lower"))
    return [
        add(
            name,
            leg.id,
            Witness(face_of(leg.id, "end A"), surface(cuts[cut], "W")),
            (+1, "leg length", leg_height),
            (-1, f"{'bottom' if sign < 0 else 'top'} of the {rail} above the floor", height),
            (sign, "lip", lip),
            where=fitted.part.name,
        )
        for name, height, sign, rail, surface, cut in ends
    ]


def _panel_sums(fitted: FittedPanel) -> list[Sum]:
    """The panel's cut size; the panel as it was made confirms it."""
    opening, size, choice = fitted.opening, fitted.size, fitted.choice
    part, upper, lower = fitted.part, fitted.upper.part, fitted.lower.part
    sides = Witness(face_of(part.id, "edge"), face_of(part.id, "far edge"))
    ends = Witness(face_of(part.id, "end A"), face_of(part.id, "end B"))
    across = ("panel width", sides) if choice.grain == "up" else ("panel length", ends)
    upright = ("panel length", ends) if choice.grain == "up" else ("panel width", sides)
    sums = [
        add(
            "height of the opening",
            part.id,
            Witness(face_of(upper.id, "far edge"), face_of(lower.id, "edge")),
            (+1, "bottom of the upper rail above the floor", opening.high),
            (-1, "top of the lower rail above the floor", opening.low),
        )
    ]
    for (name, witness), what, clear, made in (
        (across, "width of the opening (shoulder distance)", opening.width, fitted.fit.wide),
        (upright, "height of the opening", opening.height, fitted.fit.high),
    ):
        sums.append(
            add(
                name,
                part.id,
                witness,
                (+1, what, clear),
                (+1, "lip", size.lip),
                (+1, "lip", size.lip),
                *made.off,
            )
        )
    return sums


def through_on(side: Side, panels: tuple[FittedPanel, ...]) -> LongShoulder | None:
    """The rabbet run through the legs of a side, if any; BadPiece where two differ."""
    wanted = [
        shoulder
        for panel in panels
        if panel.opening.side == side and (shoulder := panel.long_shoulder())
    ]
    if len({(shoulder.lip, shoulder.plane) for shoulder in wanted}) > 1:
        panel = next(p for p in panels if p.opening.side == side and p.long_shoulder())
        raise BadPiece(
            f"two different rabbets are run through the legs on the {side}",
            "give them one lip and one depth, or stop them between the rails",
            panel.choice.where,
        )
    return wanted[0] if wanted else None
