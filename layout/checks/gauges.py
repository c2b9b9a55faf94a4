"""What to know about the gauge before it is set: rails set in, and settings nearly alike."""

from __future__ import annotations

from itertools import pairwise

from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece
from layout.settings import GAUGES, settings

SET_IN = "gauge settings of rail and leg"
NEAR = "settings nearly alike"


def findings(piece: Piece) -> list[Finding]:
    """Notes on rails whose leg needs other settings, and on settings close to each other."""
    return _set_in(piece) + _near(piece)


def _set_in(piece: Piece) -> list[Finding]:
    found = []
    for one in piece.rails:
        set_in, size = one.rail.choice.set_in, one.size
        far = size.outer + size.thickness
        name = one.rail.part.name
        rail = f"{said(piece, size.outer)} and {said(piece, far)}"
        if set_in == 0:
            text = f"the {name} is flush: {rail} serve on rail and leg alike"
        else:
            leg = f"{said(piece, set_in + size.outer)} and {said(piece, set_in + far)}"
            text = f"the {name} is set in {said(piece, set_in)}: {rail} on the rail, {leg} on the leg"
        found.append(
            Finding(
                SET_IN,
                "note",
                (one.rail.part.id,),
                text,
                (("set in", set_in), ("outer shoulder", size.outer), ("far cheek", far)),
            )
        )
    return found


def _near(piece: Piece) -> list[Finding]:
    found = []
    least = piece.choice.near_settings
    for tool in GAUGES:
        alike = [setting for setting in settings(piece.marks) if setting.tool == tool]
        in_order = sorted(alike, key=lambda s: (s.distance, s.second or s.distance))
        for one, other in pairwise(in_order):
            apart = other.distance - one.distance
            second = abs((other.second or other.distance) - (one.second or one.distance))
            if max(apart, second) >= least:
                continue
            found.append(
                Finding(
                    NEAR,
                    "note",
                    (),
                    f"settings {one.number} and {other.number} ({tool}) differ by only "
                    f"{said(piece, max(apart, second))}: one might serve",
                    (("apart", max(apart, second)), ("least", least)),
                )
            )
    return found
