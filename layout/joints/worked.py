"""What every joint gives back, and the small helpers that joints share."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.mark import Cut, Hull, Mark, Sum, box
from layout.part import AXES, FACE_AXES, Axis, Face, Part, piece_axis

Span = tuple[Fraction, Fraction]


class Loose(NamedTuple):
    """Small stuff that is made to a size but has no place of its own: wedges, pegs. In mm.

    `rail` is the id of the rail whose joint it belongs to. `thin` is the width at the thin end
    of a wedge, None for a peg.
    """

    name: str
    rail: str
    many: int
    thickness: Fraction
    width: Fraction
    length: Fraction
    note: str
    thin: Fraction | None = None


class Worked(NamedTuple):
    """Cuts, marks and sums, for both parts of a joint or for many joints together; the parts that
    a joint itself brings (keys), and its loose stuff.
    """

    cuts: tuple[Cut, ...] = ()
    marks: tuple[Mark, ...] = ()
    sums: tuple[Sum, ...] = ()
    parts: tuple[Part, ...] = ()
    loose: tuple[Loose, ...] = ()


def together(many: Iterable[Worked]) -> Worked:
    """Everything that several joints give, in their order."""
    everything = tuple(many)
    return Worked(
        tuple(cut for one in everything for cut in one.cuts),
        tuple(mark for one in everything for mark in one.marks),
        tuple(sum_ for one in everything for sum_ in one.sums),
        tuple(part for one in everything for part in one.parts),
        tuple(item for one in everything for item in one.loose),
    )


def box_cut(
    part: Part, joint: str, role: str, along: Span, across: Span, through: Span
) -> Cut | None:
    """A square-cornered cut by its reach along L, W and T (mm); None where it is empty."""
    if any(low >= high for low, high in (along, across, through)):
        return None
    return Cut(part.id, joint, role, box(along, across, through))


def carried(hull: Hull, from_part: Part, to_part: Part) -> Hull:
    """The same place in the piece, in another part's coordinates: how a tenon's size and stand
    reach the leg without being worked out a second time.
    """
    points = (to_part.placement.to_part(from_part.placement.to_piece(p)) for p in hull.points)
    # in order, so that the same place carried from two sides is the same hull
    return Hull(tuple(sorted(points)))


def axis_along(part: Part, other: Part, axis: Axis) -> Axis:
    """The axis of `part` that lies along an axis of `other`, either way round."""
    wanted = piece_axis(other.placement.direction(axis))
    return next(a for a in AXES if piece_axis(part.placement.direction(a)) == wanted)


def reference_for(axis: Axis) -> str:
    """The reference surface that distances along a part axis are taken from."""
    return {"L": "end A", "W": "face edge", "T": "face side"}[axis]


def other_axis(face: Face) -> Axis:
    """The axis of a long face that is not L."""
    return FACE_AXES[face][1]


def on_wood(marks: Iterable[Mark], parts: dict[str, Part]) -> tuple[Mark, ...]:
    """The marks that lie on their part: a line off the wood can't be struck.

    (An impossible size is a stop in the checks; its line would only confuse.)
    """
    kept = []
    for mark in marks:
        part = parts[mark.part]
        sizes = [part.size(axis) for axis in FACE_AXES[mark.face]]
        spots = mark.line or ((mark.point,) if mark.point else ())
        if mark.distance > 0 and all(
            0 <= value <= size for spot in spots for value, size in zip(spot, sizes, strict=True)
        ):
            kept.append(mark)
    return tuple(kept)
