"""Grooves and rabbets along the edges of boards, for bottoms, lids and lips.

A groove lies in the face side, its walls gauged from the face edge; it runs from end to end or
stops short. A rabbet takes away the arris between an edge or an end and a broad side.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.worked import Span, Worked, box_cut
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum, Witness, add, face_of, low_of
from layout.part import FACE_NORMAL, Part

ZERO = Fraction(0)
GROOVE = "bottom groove"
RABBET = "edge rabbet"
Edge = Literal["edge", "far edge", "end A", "end B"]


class Groove(NamedTuple):
    """A groove in a board's face side, in mm: its walls from the face edge, its depth, and its
    run from end A.
    """

    walls: Span
    deep: Fraction
    run: Span


class Rabbet(NamedTuple):
    """A rabbet, in mm: how wide from its edge or end, how deep from the broad side."""

    wide: Fraction
    deep: Fraction


def groove(part: Part, joint: str, size: Groove, kit: Kit) -> Worked:
    """A groove's cut, its walls as gauge lines, and a knife line where it stops."""
    cut = box_cut(part, joint, GROOVE, size.run, size.walls, (ZERO, size.deep))
    if cut is None:
        return Worked()
    near, far = size.walls
    both = kit.gauge == "mortise gauge" and near > 0
    marks = [
        Mark(
            part.id, joint, "face", "mortise gauge" if both else "marking gauge", role,
            "face edge", at, ((size.run[0], at), (size.run[1], at)),
            pair=(near, far) if both else None,
        )
        for at, role in ((near, "near groove wall"), (far, "far groove wall"))
    ]
    for at, beyond in ((size.run[0], ZERO), (size.run[1], part.length)):
        if at != beyond:
            marks.append(
                Mark(part.id, joint, "face", "knife", "groove stop", "end A", at,
                     ((at, near), (at, far)))
            )
    return Worked((cut,), tuple(marks), ())


def rabbet_role(edge: Edge) -> str:
    """What the rabbet at an edge or end is called."""
    return RABBET if edge == "edge" else f"{RABBET} {edge}"


def rabbets(
    part: Part, joint: str, face: Literal["face", "back"], sizes: Mapping[Edge, Rabbet]
) -> Worked:
    """Rabbets on one broad side of a board, each along its whole edge or end."""
    cuts: list[Cut] = []
    marks: list[Mark] = []
    sums: list[Sum] = []
    for edge, size in sizes.items():
        axis, far = FACE_NORMAL[edge]
        whole = part.size(axis)
        across = (whole - size.wide, whole) if far else (ZERO, size.wide)
        through = (ZERO, size.deep) if face == "face" else (
            part.thickness - size.deep, part.thickness
        )
        spans = {"L": (ZERO, part.length), "W": (ZERO, part.width), axis: across}
        cut = box_cut(part, joint, rabbet_role(edge), spans["L"], spans["W"], through)
        if cut is None:
            continue
        cuts.append(cut)
        marks += _rabbet_marks(part, joint, face, edge, size)
        sums += _rabbet_sums(part, face, edge, size, cut)
    return Worked(tuple(cuts), tuple(marks), tuple(sums))


def _rabbet_marks(
    part: Part, joint: str, face: Literal["face", "back"], edge: Edge, size: Rabbet
) -> Iterator[Mark]:
    """One line on the broad side, one on the edge or end itself."""
    axis, far = FACE_NORMAL[edge]
    at = part.size(axis) - size.wide if far else size.wide
    if axis == "L":
        line = ((at, ZERO), (at, part.width))
        yield Mark(part.id, joint, face, "marking gauge", "rabbet width", edge, size.wide, line)
        long = part.width
    else:
        line = ((ZERO, at), (part.length, at))
        yield Mark(part.id, joint, face, "marking gauge", "rabbet width", "face edge", at, line)
        long = part.length
    deep = size.deep if face == "face" else part.thickness - size.deep
    yield Mark(part.id, joint, edge, "marking gauge", "rabbet depth", "face side", deep,
               ((ZERO, deep), (long, deep)))


def _rabbet_sums(
    part: Part, face: Literal["face", "back"], edge: Edge, size: Rabbet, cut: Cut
) -> Iterator[Sum]:
    """What has to be taken off: a far edge is gauged from the face edge, a back from the face."""
    if edge == "far edge":
        yield add(
            "rabbet from the face edge", part.id, Witness(face_of(part.id, "edge"),
                                                          low_of(cut, "W")),
            (+1, "width", part.width), (-1, "width of the rabbet", size.wide), where=edge,
        )
    if face == "back":
        yield add(
            "rabbet from the face side", part.id, Witness(face_of(part.id, "face"),
                                                          low_of(cut, "T")),
            (+1, "thickness", part.thickness), (-1, "depth of the rabbet", size.deep), where=edge,
        )
