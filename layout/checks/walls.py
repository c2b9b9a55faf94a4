"""Is enough of the bearer left around each mortise, and how much is left at the thinnest."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import said
from layout.joints.rail_end import OPPOSITE, Joint, is_mortise
from layout.joints.wedge import mouth
from layout.mark import Cut, Finding, Level
from layout.part import Axis, Part, piece_axis, sense
from layout.piece import Piece

RULE = "mortise walls"
DEPTH = "tenon length in the leg"
TOP = "shoulder at the end of the leg"
WEB = "web between two tenons"
ZERO = Fraction(0)


class Wall(NamedTuple):
    """Wood left on one side of a mortise, in mm, and what to do where it is too thin."""

    rule: str
    where: str
    left: Fraction
    cure: str


def findings(piece: Piece) -> list[Finding]:
    """Stops where a mortise comes out of its bearer, cautions where a wall is thin."""
    found: list[Finding] = []
    least = piece.choice.wall_least
    for joint, mortise in joint_mortises(piece):
        for wall in walls(joint, mortise):
            if wall.left < least:
                found.append(_thin(piece, joint, wall, least))
    for joint in piece.joints:
        found += _webs(piece, joint, least)
    return found


def joint_mortises(piece: Piece) -> Iterator[tuple[Joint, Cut]]:
    """Every mortise with its joint."""
    by_joint: dict[str, list[Cut]] = {}
    for cut in piece.cuts:
        if is_mortise(cut.role):
            by_joint.setdefault(cut.joint, []).append(cut)
    for joint in piece.joints:
        for cut in by_joint.get(joint.name, []):
            yield joint, cut


def walls(joint: Joint, mortise: Cut) -> list[Wall]:
    """The wood on every closed side of a mortise."""
    bearer, into = joint.bearer, joint.meeting.into
    found = []
    if not joint.size.through:
        found.append(
            Wall(DEPTH, "behind the mortise", bearer.size(into) - joint.size.depth,
                 "make the tenon shorter or the leg wider")
        )
    axes: tuple[Axis, ...] = ("W", "T", "L")
    for axis in axes:
        if axis == into:
            continue
        low, high = _widest(joint, mortise, axis)
        ends = ((low, False), (bearer.size(axis) - high, True))
        for left, far in ends:
            found.append(_wall(bearer, axis, far, left))
    return found


def _widest(joint: Joint, mortise: Cut, axis: Axis) -> tuple[Fraction, Fraction]:
    """A mortise's reach along an axis of its bearer where it is widest: wedges open it."""
    faces = [joint.meeting.face]
    if joint.size.through:
        faces.append(OPPOSITE[joint.meeting.face])
    mouths = [mouth(joint, mortise.shape, axis, face) for face in faces]
    return min(low for low, _ in mouths), max(high for _, high in mouths)


def _wall(bearer: Part, axis: Axis, far: bool, left: Fraction) -> Wall:
    """One of the four sides, in the words of how the bearer stands."""
    direction = bearer.placement.direction(axis)
    if piece_axis(direction) == 2:
        above = (sense(direction) > 0) == far
        where = "above the mortise" if above else "below the mortise"
        cure = (
            "give the tenon a top shoulder, or lower the rail"
            if above
            else "give the tenon a bottom shoulder, or raise the rail"
        )
        return Wall(TOP if axis == "L" else RULE, where, left, cure)
    if axis == "L":
        where = "before the mortise" if not far else "beyond the mortise"
        return Wall(TOP, where, left, "move the rail away from the end")
    if far:
        return Wall(RULE, "inside the mortise", left,
                    "make the tenon thinner, or set the rail in less")
    return Wall(RULE, "outside the mortise", left, "make the outer shoulder or the set-in more")


def _thin(piece: Piece, joint: Joint, wall: Wall, least: Fraction) -> Finding:
    left = (
        f"no wood left {wall.where}: it comes {said(piece, -wall.left)} out of"
        if wall.left < 0
        else f"{'no' if wall.left == 0 else 'only ' + said(piece, wall.left) + ' of'} "
        f"wood left {wall.where} in"
    )
    level: Level = "stop" if wall.left <= 0 else "caution"
    return Finding(
        wall.rule,
        level,
        (joint.bearer.id, joint.rail.id),
        f"{left} the {joint.bearer.name} ({joint.rail.name}); least {said(piece, least)}",
        (
            ("wall", wall.left),
            ("least", least),
            ("tenon length", joint.size.length),
            ("mortise depth", joint.size.depth),
        ),
        wall.cure,
    )


def _opened_by(joint: Joint) -> Fraction:
    """What flares take from the web between two mortises, from both sides, in mm."""
    tenon = joint.tenons()[0]
    axis = joint.meeting.width.axis
    place = joint.in_bearer("web", joint.block((ZERO, joint.size.length), tenon.across,
                                               tenon.through))
    low, high = place.shape.reach(axis)
    wide = mouth(joint, place.shape, axis, OPPOSITE[joint.meeting.face])
    return wide[1] - wide[0] - (high - low) if joint.size.through else ZERO


def _webs(piece: Piece, joint: Joint, least: Fraction) -> list[Finding]:
    """The bearer's wood between two tenons of one rail end."""
    found = []
    section = joint.size.section
    opened = _opened_by(joint)
    for chain, taken in ((section.widths, opened), (section.depths, ZERO)):
        for stretch in chain[1:-1]:
            left = stretch.size - taken
            if stretch.tenon or left >= least:
                continue
            gone = left <= 0
            found.append(
                Finding(
                    WEB,
                    "stop" if gone else "caution",
                    (joint.bearer.id, joint.rail.id),
                    f"{'no' if gone else f'only {said(piece, left)} of'} wood between the "
                    f"two mortises for the {joint.rail.name} in the {joint.bearer.name} "
                    f"({stretch.name}); least {said(piece, least)}",
                    (("web", left), ("least", least)),
                    "make the tenons narrower, or use one",
                )
            )
    return found
