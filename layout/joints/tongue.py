"""Tongue and groove: boards side by side, a tongue along one edge in a groove along the next.

Each board but the last carries the tongue on its far edge, each but the first the groove in its
face edge. The tongue stands in the middle of the thickness; `room` is left at the groove's bottom,
`gap` between the boards' edges, for the wood to move.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.joints.worked import Worked, box_cut
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.part import Face, Part

ZERO = Fraction(0)
GROOVE = "tongue groove"


class TongueChoice(NamedTuple):
    """A tongue's thickness (None: a share of the board's) and length, the room at the bottom of
    its groove and the gap between the boards, in mm.
    """

    thickness: Fraction | None
    length: Fraction
    room: Fraction
    gap: Fraction
    share: Fraction = Fraction(1, 3)


def thickness_of(choice: TongueChoice, board: Fraction) -> Fraction:
    """The tongue's thickness in a board of this thickness (mm)."""
    return board * choice.share if choice.thickness is None else choice.thickness


def stands_out(choice: TongueChoice) -> Fraction:
    """How far a tongue stands out from its shoulders, in mm: through the gap and its length."""
    return choice.gap + choice.length


def work(one: Part, other: Part, joint: str, choice: TongueChoice, kit: Kit) -> Worked:
    """The tongue on one board's far edge and the groove in the next one's face edge."""
    tongue = tuple(_tongue(one, joint, choice))
    groove = _groove(other, joint, choice)
    if groove is None or not tongue:
        return Worked()
    marks = (*_tongue_marks(one, joint, choice, kit), *_groove_marks(other, joint, choice, kit))
    sums = tuple(_sums(one, other, choice, tongue[0], groove))
    return Worked((*tongue, groove), marks, sums)


def _cheeks(part: Part, choice: TongueChoice) -> tuple[Fraction, Fraction]:
    """Where the tongue begins and ends through the board, from the face side."""
    thick = thickness_of(choice, part.thickness)
    start = (part.thickness - thick) / 2
    return start, start + thick


def _tongue(part: Part, joint: str, choice: TongueChoice) -> Iterator[Cut]:
    near, far = _cheeks(part, choice)
    across = (part.width - stands_out(choice), part.width)
    for word, through in (("face", (ZERO, near)), ("back", (far, part.thickness))):
        cut = box_cut(part, joint, f"tongue waste, {word}", (ZERO, part.length), across, through)
        if cut is not None:
            yield cut


def _groove(part: Part, joint: str, choice: TongueChoice) -> Cut | None:
    deep = choice.length + choice.room
    return box_cut(part, joint, GROOVE, (ZERO, part.length), (ZERO, deep), _cheeks(part, choice))


def _lines(
    part: Part, joint: str, face: Face, roles: tuple[str, str], choice: TongueChoice, kit: Kit
) -> Iterator[Mark]:
    """Both sides of the tongue or the groove, on an edge."""
    stands = _cheeks(part, choice)
    both = kit.gauge == "mortise gauge"
    for at, role in zip(stands, roles, strict=True):
        yield Mark(part.id, joint, face, "mortise gauge" if both else "marking gauge", role,
                   "face side", at, ((ZERO, at), (part.length, at)),
                   pair=stands if both else None)


def _tongue_marks(part: Part, joint: str, choice: TongueChoice, kit: Kit) -> Iterator[Mark]:
    at = part.width - stands_out(choice)
    faces: tuple[Face, Face] = ("face", "back")
    for face in faces:
        yield Mark(part.id, joint, face, "marking gauge", "tongue shoulder", "face edge", at,
                   ((ZERO, at), (part.length, at)))
    yield from _lines(part, joint, "far edge", ("near side of the tongue",
                                                "far side of the tongue"), choice, kit)


def _groove_marks(part: Part, joint: str, choice: TongueChoice, kit: Kit) -> Iterator[Mark]:
    yield from _lines(part, joint, "edge", ("near groove wall", "far groove wall"), choice, kit)


def _sums(
    one: Part, other: Part, choice: TongueChoice, waste: Cut, groove: Cut
) -> Iterator[Sum]:
    thick = thickness_of(choice, one.thickness)
    near, far = _cheeks(one, choice)
    yield add("near side of the tongue", one.id,
              Witness(face_of(other.id, "face"), low_of(groove, "T")),
              (+1, "half of the thickness", one.thickness / 2),
              (-1, "half of the tongue", thick / 2), where=other.name)
    yield add("far side of the tongue", one.id,
              Witness(face_of(other.id, "face"), high_of(groove, "T")),
              (+1, "near side of the tongue", near), (+1, "thickness of the tongue", far - near),
              where=other.name)
    yield add("near groove wall from the face side", other.id,
              Witness(face_of(one.id, "face"), high_of(waste, "T")),
              (+1, "half of the thickness", other.thickness / 2),
              (-1, "half of the tongue", thick / 2), where=one.name)
    yield add("far groove wall from the face side", other.id,
              Witness(face_of(one.id, "face"), high_of(waste, "T"), plus=thick),
              (+1, "near groove wall", near), (+1, "thickness of the tongue", thick),
              where=one.name)
    terms = [(+1, "width", one.width), (-1, "length of the tongue", choice.length)]
    if choice.gap:
        terms.append((-1, "gap between the boards", choice.gap))
    yield add("shoulder of the tongue", one.id,
              Witness(face_of(one.id, "edge"), face_of(other.id, "edge"), plus=-choice.gap),
              *terms, where=other.name)
    yield add("depth of the groove", other.id,
              Witness(face_of(other.id, "edge"), high_of(groove, "W")),
              (+1, "length of the tongue", choice.length), (+1, "room at the bottom", choice.room),
              where=one.name)
