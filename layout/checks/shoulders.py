"""Does each shoulder have the leg's wood before it.

A rabbet that a panel on the next side of the frame needs may run under a rail's shoulder.
"""

from __future__ import annotations

from fractions import Fraction

from layout.builds.tenoned import TenonedRail
from layout.checks.bodies import around, left_of
from layout.checks.words import said
from layout.joints.haunch import stands_in
from layout.joints.rail_end import Meeting, is_mortise, joint_name
from layout.joints.worked import carried, other_axis
from layout.mark import Cut, Cylinder, Finding, Hull
from layout.part import FACE_NORMAL, Axis, Part
from layout.piece import Piece
from layout.solid.convex import Body, Box, block, common

RULE = "shoulder clear of the seats"
SHOWS = "groove that shows"
LONG = "long shoulder within the tenon"
Span = tuple[Fraction, Fraction]
# a flat figure on the leg's face, made a box for the solid test
FLAT: Span = (Fraction(0), Fraction(1))


def findings(piece: Piece) -> list[Finding]:
    """A caution for every shoulder that a seat in the leg takes wood from."""
    found = _past_the_tenon(piece) + _showing(piece)
    for one in piece.rails:
        for meeting in one.rail.meetings:
            for seat in _seats_across(piece, one, meeting):
                lost = _lost(piece, one, meeting, seat)
                if lost is None:
                    continue
                (length, width) = (high - low for low, high in lost[:2])
                found.append(
                    Finding(
                        RULE,
                        "caution",
                        (meeting.bearer.id, one.rail.part.id),
                        f"the {seat.role} in the {meeting.bearer.name} runs under the shoulder "
                        f"of the {one.rail.part.name}: {said(piece, length)} x "
                        f"{said(piece, width)} of it has no wood before it",
                        (("along the leg", length), ("across it", width)),
                        'fill it with a haunch (haunch = { kind = "groove" }), or make the '
                        "shoulder there no wider than the rail's own groove is deep"
                        if seat.role == "groove"
                        else "use a smaller lip, a thicker leg, a thinner rail, or a groove in "
                        "the legs",
                    )
                )
    return found


def _past_the_tenon(piece: Piece) -> list[Finding]:
    """The back shoulder reaches into the leg by the lip: the tenon must go deeper."""
    return [
        Finding(
            LONG,
            "stop",
            (one.rail.part.id,),
            f"the rabbet run through the legs is {said(piece, one.size.long_by)} wide, the tenon "
            f"of the {one.rail.part.name} {said(piece, one.size.length)} long: its back shoulder "
            "would lie beyond the tenon's end",
            (("lip", one.size.long_by), ("tenon length", one.size.length)),
            "make the lip less or the tenon longer, or stop the rabbet between the rails",
        )
        for one in piece.rails
        if one.size.long_by >= one.size.length
    ]


def _showing(piece: Piece) -> list[Finding]:
    """A groove run through the legs shows where no rail stands before it."""
    if piece.choice.frame is None:
        return []
    found = []
    height = piece.choice.frame.height
    for panel in piece.panels:
        if panel.choice.seat.kind != "groove" or panel.choice.seat.run != "through":
            continue
        rails = [one.rail for one in piece.rails if one.rail.side == panel.opening.side]
        above = height - max(rail.top for rail in rails)
        below = min(rail.bottom for rail in rails)
        for left, where in ((above, "above the highest rail"), (below, "below the lowest rail")):
            if left > 0:
                found.append(
                    Finding(
                        SHOWS,
                        "caution",
                        (panel.opening.left.id, panel.opening.right.id, panel.part.id),
                        f"the groove for the {panel.part.name}, run through the legs, shows "
                        f"{said(piece, left)} {where}",
                        (("shows", left),),
                        'write run_in_legs = "stopped"',
                    )
                )
    return found


def _seats_across(piece: Piece, one: TenonedRail, meeting: Meeting) -> list[Cut]:
    """Seats in the leg for panels on the next side of the frame.

    (Rabbets on the rail's own side are the rail's to fill: it carries the same one, or its back
    shoulder is longer.)
    """
    own = {panel.joint for panel in piece.panels if panel.opening.side == one.rail.side}
    own |= {cut.joint for cut in piece.cuts_of(one.rail.part.id)}  # a joint without a panel's part
    if one.rail.of and one.filled:
        own.add(one.filled)  # the rabbet of a door's frame, which the long shoulder fills
    through = {
        panel.joint
        for panel in piece.panels
        if panel.opening.side == one.rail.side and panel.choice.seat.run == "through"
    }
    return [
        cut
        for cut in piece.cuts_of(meeting.bearer.id)
        if (cut.role in ("rabbet", "groove") and cut.joint not in own)
        # a groove that runs on past the panel is only filled by a haunch
        or (cut.role == "groove" and cut.joint in through)
    ]


def _lost(piece: Piece, one: TenonedRail, meeting: Meeting, seat: Cut) -> Box | None:
    """The part of the shoulder that stands over the seat, as a figure on the leg's face."""
    leg, rail = meeting.bearer, one.rail.part
    into, across = FACE_NORMAL[meeting.face][0], other_axis(meeting.face)
    if seat.shape.reach(into)[1] < leg.size(into):
        return None  # it lies below the leg's face: the shoulder still stands on wood
    whole = carried(
        Hull(((Fraction(0),) * 3, (rail.length, rail.width, rail.thickness))), rail, leg
    )
    shoulder = common(_figure(whole, across), _figure(seat.shape, across))
    if shoulder is None:
        return None
    # where the rail has its tenon, or a seat of its own, there is no shoulder to lose
    free = [
        _figure(carried(cut.shape, rail, leg), across)
        for cut in piece.cuts_of(rail.id)
        if cut.joint.endswith(".seat") and isinstance(cut.shape, Hull)
    ]
    joint = joint_name(rail, meeting.end)
    free += [
        _figure(cut.shape, across)
        for cut in piece.cuts_of(leg.id)
        if cut.joint == joint and is_mortise(cut.role)
    ]
    free += [_figure(shape, across) for shape in _haunches(piece, joint, rail, leg)]
    lost = left_of(shoulder, free)
    return around(lost) if lost else None


def _haunches(piece: Piece, name: str, rail: Part, leg: Part) -> list[Hull]:
    """Where haunches of a rail's end stand before the leg, on the leg."""
    joint = next(one for one in piece.joints if one.name == name)
    section = joint.size.section
    found = []
    for index, stretch in enumerate(section.widths):
        if stretch.tenon or not stands_in(joint, index) or stretch.size <= 0:
            continue
        across = (section.station("W", index), section.station("W", index + 1))
        found += [
            carried(joint.block((Fraction(0), joint.size.length), across, column), rail, leg)
            for column in section.spans("T")
        ]
    return found


def _figure(shape: Hull | Cylinder, across: Axis) -> Body:
    """A shape's reach along the leg and across its face."""
    return block((shape.reach("L"), shape.reach(across), FLAT))
