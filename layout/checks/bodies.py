"""Cuts and parts as exact bodies: in their part's own coordinates, or where they stand."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from layout.joints.rail_end import Joint, Tenon
from layout.mark import Cut, Cylinder, Hull
from layout.part import Part
from layout.solid.convex import Body, Box, block, body, less
from layout.solid.rounds import Round

ZERO = Fraction(0)


def shape_body(shape: Hull | Cylinder) -> Body | Round:
    """A cut's volume in part coordinates, mm."""
    if isinstance(shape, Cylinder):
        return Round("LWT".index(shape.axis), shape.centre, shape.radius, shape.start, shape.end)
    return body(shape.points)


def placed_body(part: Part, hull: Hull) -> Body:
    """A hull of the part where it stands in the piece, mm."""
    return body(part.placement.to_piece(point) for point in hull.points)


def placed_cuts(part: Part, cuts: Iterable[Cut]) -> list[Body]:
    """Every cut of a part with flat sides, where it stands. (A bored hole takes so little that a
    part counts as whole there; that errs on the side of finding an overlap.)
    """
    return [placed_body(part, cut.shape) for cut in cuts if isinstance(cut.shape, Hull)]


def around(bodies: Iterable[Body]) -> Box:
    """The box around bodies, of which there is at least one."""
    spans = [one.spans for one in bodies]
    found = [
        (min(span[axis][0] for span in spans), max(span[axis][1] for span in spans))
        for axis in range(3)
    ]
    return (found[0], found[1], found[2])


def left_of(whole: Body, taken: Iterable[Body]) -> tuple[Body, ...]:
    """What is left of a body when others are taken out of it, as bodies side by side."""
    pieces: tuple[Body, ...] = (whole,)
    for one in taken:
        pieces = tuple(rest for piece in pieces for rest in less(piece, one))
        if not pieces:
            break
    return pieces


def part_body(part: Part) -> Body:
    """A part's whole board where it stands, mm."""
    one = part.placement.to_piece((ZERO, ZERO, ZERO))
    other = part.placement.to_piece((part.length, part.width, part.thickness))
    spans = [(min(a, b), max(a, b)) for a, b in zip(one, other, strict=True)]
    return block((spans[0], spans[1], spans[2]))


def tenon_bodies(joint: Joint, tenon: Tenon, cuts: Iterable[Cut]) -> tuple[Body, ...]:
    """A tenon's own wood where it stands, less its mitre and its notches."""
    hull = joint.block((ZERO, joint.size.length), tenon.across, tenon.through)
    taken = [
        cut.shape
        for cut in cuts
        if cut.joint == joint.name
        and cut.part == joint.rail.id
        and cut.role.startswith(("mitre", "notch"))
        and isinstance(cut.shape, Hull)
    ]
    return left_of(
        placed_body(joint.rail, hull), [placed_body(joint.rail, one) for one in taken]
    )
