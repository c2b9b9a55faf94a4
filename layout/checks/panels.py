"""Does each panel lie flat in its seat, inside the wood that holds it."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from layout.checks.words import said
from layout.mark import Finding
from layout.part import Part
from layout.piece import Piece

if TYPE_CHECKING:
    from layout.builds.panel import FittedPanel

THICKNESS = "panel against its rail"
PLANE = "panel flat against the frame"
LIP = "lip against the frame"
COVER = "panel covers its opening"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops and cautions for every panel."""
    found: list[Finding] = []
    for panel in piece.panels:
        for rail in (panel.upper, panel.lower):
            found += _in_rail(piece, panel, rail.part, rail.choice.set_in)
        found += _lips(piece, panel)
        cover = panel.size.lip - panel.choice.room
        if cover <= 0:
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
    thickness = panel.part.thickness
    start = panel.size.plane - set_in
    behind = rail.thickness - start
    who = (panel.part.id, rail.id)
    figures = (
        ("panel thickness", thickness),
        ("rail thickness", rail.thickness),
        ("seat from the rail's face", start),
    )
    if thickness >= rail.thickness or start <= 0:
        return [
            Finding(
                THICKNESS,
                "stop",
                who,
                f"the {panel.part.name}, {said(piece, thickness)} thick, leaves no wood in front "
                f"of it in the {rail.name}, {said(piece, rail.thickness)} thick",
                figures,
                "use a thinner panel, a thicker rail or a shallower rabbet",
            )
        ]
    if panel.choice.seat.kind == "groove":
        if behind - thickness <= 0:
            return [
                Finding(
                    THICKNESS,
                    "stop",
                    who,
                    f"the groove for the {panel.part.name} comes out of the back of the "
                    f"{rail.name}",
                    figures,
                    "move the groove toward the face",
                )
            ]
        return []
    if behind < thickness:
        where = "stands proud of" if behind > 0 else "lies behind"
        return [
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
        ]
    return []


def _lips(piece: Piece, panel: FittedPanel) -> list[Finding]:
    lip = panel.size.lip
    found = []
    into = "W" if panel.upper.meetings[0].face == "far edge" else "T"
    bounds: list[tuple[Part, Fraction]] = [
        (panel.upper.part, panel.upper.part.width),
        (panel.lower.part, panel.lower.part.width),
        *((leg, leg.size(into)) for leg in (panel.opening.left, panel.opening.right)),  # type: ignore[arg-type]
    ]
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
