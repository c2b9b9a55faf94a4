"""Is enough of the leg left around each mortise."""

from __future__ import annotations

from fractions import Fraction

from layout.checks.words import said
from layout.joints.tenon import joint_name
from layout.joints.worked import other_axis
from layout.mark import Finding, Level
from layout.part import FACE_NORMAL
from layout.piece import Piece

RULE = "mortise walls"
DEPTH = "tenon length in the leg"
TOP = "shoulder at the end of the leg"


def findings(piece: Piece) -> list[Finding]:
    """Stops where a mortise comes out of the leg, cautions where a wall is thin."""
    found: list[Finding] = []
    least = piece.choice.wall_least
    for one in piece.rails:
        for meeting in one.rail.meetings:
            leg = meeting.leg
            joint = joint_name(one.rail.part, meeting.end)
            mortise = next(
                c for c in piece.cuts if c.joint == joint and c.role == "mortise"
            ).shape
            into = FACE_NORMAL[meeting.face][0]
            across = other_axis(meeting.face)
            behind = leg.size(into) - one.size.depth
            top, bottom = mortise.reach("L")
            near, far = mortise.reach(across)
            walls: list[tuple[str, str, Fraction, str]] = [
                (DEPTH, "behind the mortise", behind, "make the tenon shorter or the leg wider"),
                (RULE, "outside the mortise", near, "make the outer shoulder or the set-in more"),
                (
                    RULE,
                    "inside the mortise",
                    leg.size(across) - far,
                    "make the tenon thinner, or set the rail in less",
                ),
                (TOP, "above the mortise", top, "give the tenon a top shoulder, or lower the rail"),
                (
                    TOP,
                    "below the mortise",
                    leg.length - bottom,
                    "give the tenon a bottom shoulder, or raise the rail",
                ),
            ]
            for rule, where, wall, cure in walls:
                if wall >= least:
                    continue
                level: Level = "stop" if wall <= 0 else "caution"
                left = (
                    f"no wood left {where}: it comes {said(piece, -wall)} out of"
                    if wall < 0
                    else f"{'no' if wall == 0 else 'only ' + said(piece, wall) + ' of'} "
                    f"wood left {where} in"
                )
                found.append(
                    Finding(
                        rule,
                        level,
                        (leg.id, one.rail.part.id),
                        f"{left} the {leg.name} ({one.rail.part.name}); least "
                        f"{said(piece, least)}",
                        (
                            ("wall", wall),
                            ("least", least),
                            ("tenon length", one.size.length),
                            ("mortise depth", one.size.depth),
                        ),
                        cure,
                    )
                )
    return found
