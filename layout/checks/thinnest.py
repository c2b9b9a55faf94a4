"""The thinnest wood of every kind of part, told even where nothing is wrong."""

from __future__ import annotations

from fractions import Fraction

from layout.checks.hollows import hollows, names
from layout.checks.walls import joint_mortises, walls
from layout.checks.words import said
from layout.mark import Finding
from layout.part import Part
from layout.piece import Piece
from layout.solid.clearance import apart
from layout.solid.near import thinnest

WALL = "thinnest wall"
WEB = "thinnest wood between two joints"


def findings(piece: Piece) -> list[Finding]:
    """A note on the thinnest wall round a mortise, and on the least wood between two joints, for
    each kind of part.
    """
    return _walls(piece) + _webs(piece)


def _walls(piece: Piece) -> list[Finding]:
    least: dict[str, tuple[Fraction, str, Part, str]] = {}
    for joint, mortise in joint_mortises(piece):
        for wall in walls(joint, mortise):
            kind = joint.bearer.kind
            if kind not in least or wall.left < least[kind][0]:
                least[kind] = (wall.left, wall.where, joint.bearer, joint.rail.name)
    return [
        Finding(
            WALL,
            "note",
            (part.id,),
            f"the thinnest wall round a mortise in a {kind} is {said(piece, left)}, {where} for "
            f"the {rail} in the {part.name}",
            (("wall", left),),
        )
        for kind, (left, where, part, rail) in least.items()
        if left > 0
    ]


def _webs(piece: Piece) -> list[Finding]:
    told = names(piece)
    least: dict[str, tuple[Fraction, str, Part]] = {}
    for part in piece.parts:
        here = hollows(piece, part, told)
        bodies = [hollow.body for hollow in here]
        found = thinnest(
            [body.spans for body in bodies],
            [hollow.of for hollow in here],
            lambda i, j, bodies=bodies: apart(bodies[i], bodies[j]),  # type: ignore[misc]
            max(piece.choice.wall_least, piece.rule.step_mm),
        )
        if found is None:
            continue
        one, other = found
        web = apart(bodies[one], bodies[other])
        if web > min(part.width, part.thickness):
            continue  # so far apart that nothing is thin
        if part.kind not in least or web < least[part.kind][0]:
            least[part.kind] = (web, f"{here[one].words} and {here[other].words}", part)
    return [
        Finding(
            WEB,
            "note",
            (part.id,),
            f"the least wood between two joints in a {kind} is {said(piece, web)}, between "
            f"{between} in the {part.name}",
            (("web", web),),
        )
        for kind, (web, between, part) in least.items()
        if web > 0
    ]
