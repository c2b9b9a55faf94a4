"""Does each panel lie flat in its seat, inside the wood that holds it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from layout.checks.placed import Box, cut_box, part_box
from layout.checks.words import said
from layout.joints.worked import other_axis
from layout.mark import Finding
from layout.part import FACE_NORMAL, Part, piece_axis
from layout.piece import Piece

if TYPE_CHECKING:
    from layout.builds.panel import FittedPanel

THICKNESS = "panel against its rail"
PLANE = "panel flat against the frame"
LIP = "lip against the frame"
COVER = "panel covers its opening"
SEATED = "panel in the middle of its seats"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops and cautions for every panel."""
    if not piece.panels:
        return []
    from layout.checks import year  # a tenon by itself starts faster without the woods

    found: list[Finding] = []
    for choice in dict.fromkeys(panel.choice for panel in piece.panels):
        alike = tuple(panel.part for panel in piece.panels if panel.choice == choice)
        if choice.solid is not None:
            found.append(year.held_finding(alike, choice.solid))
    for panel in piece.panels:
        for rail in (panel.upper, panel.lower):
            found += _in_rail(piece, panel, rail.part, rail.choice.set_in)
        for leg in (panel.opening.left, panel.opening.right):
            found += _in_leg(piece, panel, leg)
        found += _lips(piece, panel)
        found += _off_its_seat(piece, panel)
        found += year.panel_findings(piece, panel.part, panel.choice.make, panel.fit,
                                     (panel.opening.width, panel.opening.height))
        cover = panel.size.lip - panel.choice.room
        if panel.choice.solid is None and cover <= 0:
            found.append(
                Finding(
                    COVER,
                    "stop",
                    (panel.part.id,),
                    f"the {panel.part.name} can slip out: lip {said(piece, panel.size.lip)}, room "
                    f"to fit {said(piece, panel.choice.room)}",
                    (("lip", panel.size.lip), ("room", panel.choice.room)),
                    "make the lip more than the room",
                )
            )
    return found


def _in_rail(piece: Piece, panel: FittedPanel, rail: Part, set_in: Fraction) -> list[Finding]:
    thickness = panel.choice.seat.panel_thickness
    start = panel.size.plane - set_in
    behind = rail.thickness - start
    who = (panel.part.id, rail.id)
    figures = (
        ("panel thickness", thickness),
        ("rail thickness", rail.thickness),
        ("seat from the rail's face", start),
    )
    if thickness >= rail.thickness or start <= 0:
        too_much = "leaves no wood in front of it in" if start <= 0 else "is no thinner than"
        return [
            Finding(
                THICKNESS,
                "stop",
                who,
                f"the {panel.part.name}, {said(piece, thickness)} thick, {too_much} the "
                f"{rail.name}, {said(piece, rail.thickness)} thick",
                figures,
                "use a thinner panel, a thicker rail or a shallower rabbet",
            )
        ]
    if panel.choice.seat.kind == "groove":
        return _groove_walls(piece, panel, rail, start, behind - thickness)
    found = []
    if start < piece.choice.wall_least:
        found.append(_thin(piece, panel, rail, "in front of the rabbet", start))
    if behind < thickness:
        where = "stands proud of" if behind > 0 else "lies behind"
        found.append(
            Finding(
                PLANE,
                "stop" if behind <= 0 else "caution",
                who,
                f"the {panel.part.name}, {said(piece, thickness)} thick, {where} the back of the "
                f"{rail.name}: its rabbet is {said(piece, max(behind, ZERO))} deep",
                (*figures, ("rabbet depth", behind)),
                "make the rabbet as deep as the panel is thick, and see that the backs of the "
                "rails above and below it line up",
            )
        )
    return found


def _groove_walls(
    piece: Piece, panel: FittedPanel, part: Part, front: Fraction, back: Fraction
) -> list[Finding]:
    """The wood left on both sides of a groove."""
    if back <= 0:
        return [
            Finding(
                THICKNESS,
                "stop",
                (panel.part.id, part.id),
                f"the groove for the {panel.part.name} comes out of the back of the {part.name}",
                (("wood behind the groove", back),),
                "move the groove toward the face, or use a thinner panel",
            )
        ]
    walls = (("in front of the groove", front), ("behind the groove", back))
    return [
        _thin(piece, panel, part, where, wall)
        for where, wall in walls
        if wall < piece.choice.wall_least
    ]


def _thin(
    piece: Piece, panel: FittedPanel, part: Part, where: str, wall: Fraction
) -> Finding:
    least = piece.choice.wall_least
    return Finding(
        THICKNESS,
        "caution",
        (panel.part.id, part.id),
        f"only {said(piece, wall)} of wood {where} for the {panel.part.name} in the {part.name}; "
        f"least {said(piece, least)}",
        (("wood", wall), ("least", least)),
        "use a thinner panel, or move its seat",
    )


def _in_leg(piece: Piece, panel: FittedPanel, leg: Part) -> list[Finding]:
    """The leg must be deep enough for the panel's plane and for the panel behind it."""
    across = other_axis(panel.upper.meetings[0].face)
    behind = leg.size(across) - panel.size.plane
    thickness = panel.choice.seat.panel_thickness
    if behind <= 0:
        return [
            Finding(
                THICKNESS,
                "stop",
                (panel.part.id, leg.id),
                f"the {panel.part.name} lies behind the {leg.name}, which is "
                f"{said(piece, leg.size(across))} deep: there is no wood for its seat",
                (("panel behind the face", panel.size.plane), ("leg", leg.size(across))),
                "use a deeper leg, or set the rails in less",
            )
        ]
    if panel.choice.seat.in_legs == "groove":
        return _groove_walls(piece, panel, leg, panel.size.plane, behind - thickness)
    if behind < thickness:
        return [
            Finding(
                PLANE,
                "caution",
                (panel.part.id, leg.id),
                f"the {panel.part.name}, {said(piece, thickness)} thick, stands proud of the "
                f"{leg.name}: its rabbet there is {said(piece, behind)} deep",
                (("panel thickness", thickness), ("rabbet depth", behind)),
                "use a deeper leg, or set the rails in less",
            )
        ]
    return []


def _off_its_seat(piece: Piece, panel: FittedPanel) -> list[Finding]:
    """The panel's edges must lie half the room from the bottoms of its seats, all round."""
    seats = [
        cut_box(piece.part(cut.part), cut) for cut in piece.cuts if cut.joint == panel.joint
    ]
    if len(seats) < 4:
        return [
            Finding(
                SEATED,
                "stop",
                (panel.part.id,),
                f"the {panel.part.name} has no seat on every side: {len(seats)} of 4 could be cut",
                (),
                "see the other findings on it",
            )
        ]
    box = part_box(panel.part)
    normal = piece_axis(panel.part.placement.T)
    for axis in (one for one in range(3) if one != normal):
        half = (panel.fit.high if axis == 2 else panel.fit.wide).room / 2
        # the seats of the two members that stand across this axis, seen along it
        wanted = (
            min(seat[axis][0] for seat in _bounding(seats, axis)) + half,
            max(seat[axis][1] for seat in _bounding(seats, axis)) - half,
        )
        if wanted != box[axis]:
            return [
                Finding(
                    SEATED,
                    "stop",
                    (panel.part.id,),
                    f"the {panel.part.name} does not lie in the middle of its seats",
                    (("off", max(abs(wanted[0] - box[axis][0]), abs(wanted[1] - box[axis][1]))),),
                    "please report this piece file: the program is wrong",
                )
            ]
    return []


def _bounding(seats: list[Box], axis: int) -> list[Box]:
    """The two seats whose bottoms bound the panel along an axis: the shorter ones along it."""
    return sorted(seats, key=lambda seat: seat[axis][1] - seat[axis][0])[:2]


def _lips(piece: Piece, panel: FittedPanel) -> list[Finding]:
    lip = panel.size.lip
    found = []
    into = FACE_NORMAL[panel.upper.meetings[0].face][0]
    legs = (panel.opening.left, panel.opening.right)
    bounds: list[tuple[Part, Fraction]] = [
        (panel.upper.part, panel.upper.part.width),
        (panel.lower.part, panel.lower.part.width),
        *((leg, leg.size(into)) for leg in legs),
    ]
    for leg in legs:
        if 0 < leg.size(into) - lip < piece.choice.wall_least:
            found.append(
                _thin(piece, panel, leg, "beyond the lip", leg.size(into) - lip)._replace(rule=LIP)
            )
    for rail in (panel.upper, panel.lower):
        both = sum(
            (seat.lip for other in piece.panels for seat in other.seats_in(rail)), ZERO
        )
        left = rail.part.width - both
        if lip < rail.part.width and left < piece.choice.wall_least:
            found.append(
                Finding(
                    LIP,
                    "stop" if left <= 0 else "caution",
                    (panel.part.id, rail.part.id),
                    f"the seats leave {said(piece, left)} of the {rail.part.name}'s width, "
                    f"{said(piece, rail.part.width)}; least {said(piece, piece.choice.wall_least)}",
                    (("left", left), ("rail width", rail.part.width)),
                    "make the lips less, or the rail wider",
                )
            )
    for part, size in bounds:
        if lip >= size:
            found.append(
                Finding(
                    LIP,
                    "stop",
                    (panel.part.id, part.id),
                    f"a lip of {said(piece, lip)} cuts right through the {part.name}, "
                    f"{said(piece, size)} there",
                    (("lip", lip), ("wood", size)),
                    "make the lip less",
                )
            )
    return found
