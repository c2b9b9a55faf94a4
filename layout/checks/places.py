"""Does each rail have its place: between floor and leg top, clear of its neighbours."""

from __future__ import annotations

from itertools import pairwise

from layout.builds.frame import SIDES
from layout.checks.placed import part_box
from layout.checks.words import said
from layout.joints.worked import other_axis
from layout.mark import Finding
from layout.piece import Piece

RULE = "rail in its place"


def findings(piece: Piece) -> list[Finding]:
    """Stops for rails off the leg or over one another; cautions for rails proud of the leg."""
    found: list[Finding] = []
    height = piece.choice.frame.height
    for one in piece.rails:
        rail, part = one.rail, one.rail.part
        # along the height, however the part lies; without its tenons where it stands upright
        bottom, top = (
            (rail.bottom, rail.top) if rail.side is not None else part_box(part)[2]
        )
        if bottom < 0 or top > height:
            over = max(-bottom, top - height)
            end = "below the floor" if bottom < 0 else "above the leg's top"
            found.append(
                Finding(
                    RULE,
                    "stop",
                    (part.id,),
                    f"the {part.name} is {said(piece, part.width)} wide and comes "
                    f"{said(piece, over)} {end}; the leg is {said(piece, height)} long",
                    (("rail width", part.width), ("leg length", height), ("over", over)),
                    "make the rail narrower or move it",
                )
            )
        for meeting in rail.meetings:
            leg_size = meeting.bearer.size(other_axis(meeting.face))
            proud = rail.choice.set_in + part.thickness - leg_size
            if proud > 0 and meeting.end == "A":
                found.append(
                    Finding(
                        RULE,
                        "caution",
                        (part.id, meeting.bearer.id),
                        f"the back of the {part.name} stands {said(piece, proud)} proud of the "
                        f"{meeting.bearer.name}'s inside: set in {said(piece, rail.choice.set_in)} "
                        f"+ rail {said(piece, part.thickness)} against a leg of "
                        f"{said(piece, leg_size)}",
                        (("proud", proud), ("leg", leg_size)),
                        "set it in less, or make the rail thinner",
                    )
                )
    for side in SIDES:
        here = sorted((r.rail for r in piece.rails if r.rail.side == side), key=lambda r: -r.top)
        for upper, lower in pairwise(here):
            overlap = lower.top - upper.bottom
            if overlap > 0:
                found.append(
                    Finding(
                        RULE,
                        "stop",
                        (upper.part.id, lower.part.id),
                        f"the {upper.part.name} and the {lower.part.name} overlap by "
                        f"{said(piece, overlap)} in height",
                        (("overlap", overlap),),
                        "make one narrower, or move one of them",
                    )
                )
    return found
