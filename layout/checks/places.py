"""Does each rail have its place: between floor and leg top, clear of its neighbours."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from layout.builds.frame import SIDES
from layout.builds.tenoned import TenonedRail
from layout.checks.placed import part_box
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece

RULE = "rail in its place"


def _proud(piece: Piece, one: TenonedRail) -> list[Finding]:
    """Cautions for a rail that stands out beyond what bears it; alike at both ends once."""
    rail, part = one.rail, one.rail.part
    found: list[Finding] = []
    seen: set[tuple[str, Fraction, Fraction, Fraction]] = set()
    for meeting in rail.meetings:
        for word, approach in (("width", meeting.width), ("thickness", meeting.thickness)):
            if approach.axis == "L":
                continue  # along the bearer: walls and places tell of that
            size = meeting.bearer.size(approach.axis)
            near, far = (
                sum((sign * value for sign, _, value in terms), Fraction(0))
                for terms in (approach.near, approach.far)
            )
            proud = max(-near, far - size)
            if proud <= 0 or (word, near, far, size) in seen:
                continue
            seen.add((word, near, far, size))
            side = "outside" if -near == proud else "inside"
            found.append(
                Finding(
                    RULE,
                    "caution",
                    (part.id, meeting.bearer.id),
                    f"the {'back of the ' if side == 'inside' and rail.side else ''}"
                    f"{part.name} stands {said(piece, proud)} proud of the "
                    f"{meeting.bearer.name}'s {side}: it reaches from {said(piece, near)} to "
                    f"{said(piece, far)} behind its reference surface, against "
                    f"{said(piece, size)}",
                    (("proud", proud), ("bearer", size)),
                    "set it in less, or make the rail thinner"
                    if rail.side
                    else "move it, or make it narrower or thinner",
                )
            )
    return found


def findings(piece: Piece) -> list[Finding]:
    """Stops for rails off the leg or over one another; cautions for rails proud of the leg."""
    if piece.choice.frame is None:
        return []
    found: list[Finding] = []
    height = piece.choice.frame.height
    for one in (each for each in piece.rails if not each.rail.of):
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
        else:
            found += _proud(piece, one)
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
