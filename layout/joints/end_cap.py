"""End caps (breadboard ends): a board across each end of a top keeps it flat and lets it move.

A tongue on the top's end stands in a groove along the cap, in the middle of the thickness. One peg
holds the cap where the top is held; the others go through slots in the tongue, long enough for the
whole year. Sizes left open: defaults.toml.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import Where
from layout.joints.slot import Slot, slot_cuts
from layout.joints.worked import Loose, Worked, box_cut
from layout.mark import Cut, Cylinder, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.part import Face, Part

ZERO = Fraction(0)
End = Literal["A", "B"]


class CapChoice(NamedTuple):
    """End caps, in mm: their width along the top, the tongue's thickness (None: a third of the
    top's) and length, room at the bottom of its groove; how many pegs, of what size, how far the
    outer ones stand in from the cap's ends, and the room at the ends of their slots.
    """

    width: Fraction
    tongue: Fraction | None
    length: Fraction
    room: Fraction
    pegs: int
    peg: Fraction
    peg_in: Fraction
    slot_room: Fraction
    timber: str
    where: Where = Where()


class Cap(NamedTuple):
    """One cap at one end of the slabs that it holds, from the front; every peg with its slab, its
    place along the cap from the front edge, its slot, and which way is outward (+1: to the
    back). The slab goes outward with its slot and the peg stays, so the slot reaches the other way.
    """

    part: Part
    end: End
    choice: CapChoice
    thick: Fraction
    slabs: tuple[Part, ...]
    pegs: tuple[tuple[int, Fraction, Slot, int], ...]

    @property
    def joint(self) -> str:
        """The name that its cuts and marks carry."""
        return f"{self.part.id}.tongue"


def thickness_of(choice: CapChoice, top: Fraction) -> Fraction:
    """The tongue's thickness in a top of this thickness (mm)."""
    return top / 3 if choice.tongue is None else choice.tongue


def work(cap: Cap) -> Worked:
    """Tongue, groove, peg holes and slots."""
    choice, part = cap.choice, cap.part
    near = (part.thickness - cap.thick) / 2
    groove = box_cut(part, cap.joint, "end groove", (ZERO, part.length),
                     (ZERO, choice.length + choice.room), (near, near + cap.thick))
    assert groove is not None
    tongues = [list(_tongue(cap, slab, near)) for slab in cap.slabs]
    holes = list(_holes(cap))
    slots = [list(_slots(cap, *peg)) for peg in cap.pegs]
    cuts = (groove, *(cut for one in tongues for cut in one), *holes,
            *(cut for one in slots for cut in one))
    loose = (Loose("peg", cap.slabs[-1].id, choice.pegs, choice.peg, choice.peg, part.thickness,
                   "round, through the end caps; glue only the one that has no slot"),)
    sums = (*_sums(cap, groove, tongues, near), *_peg_sums(cap, slots))
    return Worked(cuts, tuple(_marks(cap, near)), sums, (), loose)


def _ends(cap: Cap, slab: Part, deep: Fraction) -> tuple[Fraction, Fraction]:
    """A stretch of the slab's length at this cap's end."""
    return (ZERO, deep) if cap.end == "A" else (slab.length - deep, slab.length)


def _tongue(cap: Cap, slab: Part, near: Fraction) -> Iterator[Cut]:
    along = _ends(cap, slab, cap.choice.length)
    for word, through in (("face", (ZERO, near)), ("back", (near + cap.thick, slab.thickness))):
        cut = box_cut(slab, cap.joint, f"end tongue waste, {word}", along, (ZERO, slab.width),
                      through)
        if cut is not None:
            yield cut


def _peg_along(cap: Cap) -> Fraction:
    """How far into the cap's width its pegs stand, from the joint: half of the tongue."""
    return cap.choice.length / 2


def _holes(cap: Cap) -> Iterator[Cut]:
    for number, (_, place, _, _) in enumerate(cap.pegs, start=1):
        yield Cut(cap.part.id, cap.joint, f"cap peg hole {number}", Cylinder(
            "T", (place, _peg_along(cap)), cap.choice.peg / 2, ZERO, cap.part.thickness))


def _slots(cap: Cap, slab: int, place: Fraction, slot: Slot, outward: int) -> Iterator[Cut]:
    part = cap.slabs[slab]
    number = 1 + [peg[1] for peg in cap.pegs].index(place)
    low, high = _ends(cap, part, cap.choice.length)
    near = (part.thickness - cap.thick) / 2
    across = place - (part.placement.origin[1] - cap.part.placement.origin[1])
    yield from slot_cuts(part, cap.joint, f"cap peg slot {number}", "T", "W",
                         {"L": (low + high) / 2, "W": across}, slot, -outward,
                         (near, near + cap.thick))


def _marks(cap: Cap, near: Fraction) -> Iterator[Mark]:
    part, choice = cap.part, cap.choice
    walls = (near, near + cap.thick)
    for at, word in zip(walls, ("near", "far"), strict=True):
        yield Mark(part.id, cap.joint, "edge", "marking gauge", f"{word} end groove wall",
                   "face side", at, ((ZERO, at), (part.length, at)))
    for number, (_, place, _, _) in enumerate(cap.pegs, start=1):
        yield Mark(part.id, cap.joint, "face", "bit", f"cap peg hole {number}", "end A", place,
                   point=(place, _peg_along(cap)), diameter=choice.peg)
    for slab in cap.slabs:
        source = "end A" if cap.end == "A" else "end B"
        at = _ends(cap, slab, choice.length)[1 if cap.end == "A" else 0]
        faces: tuple[Face, Face] = ("face", "back")
        for face in faces:
            yield Mark(slab.id, cap.joint, face, "knife", "end tongue shoulder", source,
                       choice.length, ((at, ZERO), (at, slab.width)))
        end: Face = "end A" if cap.end == "A" else "end B"
        for at, word in zip(walls, ("near", "far"), strict=True):
            yield Mark(slab.id, cap.joint, end, "marking gauge", f"{word} side of the end tongue",
                       "face side", at, ((ZERO, at), (slab.width, at)))


def _sums(
    cap: Cap, groove: Cut, tongues: Sequence[Sequence[Cut]], near: Fraction
) -> Iterator[Sum]:
    part, slab = cap.part, cap.slabs[-1]
    yield add("near end groove wall from the face side", part.id,
              Witness(face_of(slab.id, "face"), high_of(tongues[-1][0], "T")),
              (+1, "half of the thickness", part.thickness / 2),
              (-1, "half of the tongue", cap.thick / 2))
    yield add("far end groove wall from the face side", part.id,
              Witness(face_of(slab.id, "face"), low_of(tongues[-1][1], "T")),
              (+1, "near end groove wall", near), (+1, "thickness of the tongue", cap.thick))
    yield add("depth of the end groove", part.id,
              Witness(face_of(slab.id, "end A" if cap.end == "A" else "end B"),
                      face_of(part.id, "edge"), plus=cap.choice.room),
              (+1, "length of the tongue", cap.choice.length),
              (+1, "room at its bottom", cap.choice.room))


def _peg_sums(cap: Cap, slots: Sequence[Sequence[Cut]]) -> Iterator[Sum]:
    """How long each slot is: from the far side of its one end to that of the other."""
    for number, (peg, cuts) in enumerate(zip(cap.pegs, slots, strict=True), start=1):
        slab = cap.slabs[peg[0]]
        yield add(f"length of peg slot {number}", slab.id,
                  Witness(low_of(cuts[0], "W"), high_of(cuts[1 if len(cuts) > 1 else 0], "W")),
                  *peg[2].terms, where=cap.part.name)
