"""What holds a top on its rails and lets it move: buttons in mortises, or screws in slots.

A button is a block screwed to the top, its tongue in a mortise in the rail's inner side (Edwin W.
Foster, Carpentry and Woodwork, 1911, ch. XLI, Fig. 196 i). Along a rail that crosses the grain it
slides in a longer mortise; on a rail along the grain its tongue slides in and out. A screw goes up
through the rail from a counterbore (H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 1,
1909, A Mission Plant Stand), its hole a slot the way the top moves. Sizes left open: defaults.toml.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import Where
from layout.joints.section import Terms
from layout.joints.slot import Slot, slot_cuts
from layout.joints.worked import Span, Worked, box_cut
from layout.mark import Cut, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.part import Axis, Part

ZERO = Fraction(0)
Kind = Literal["buttons", "screws"]
Held = Literal["front", "middle", "back"]


class ButtonChoice(NamedTuple):
    """A button, in mm: its length with the tongue, its width, the block's thickness; the tongue's
    thickness and usual length; how much lower the block stands than the top, to be drawn up; how
    far the tongue must stand in its mortise at the least; room around it.
    """

    length: Fraction
    width: Fraction
    block: Fraction
    tongue: Fraction
    tongue_length: Fraction
    draw: Fraction
    cover: Fraction
    room: Fraction


class ScrewChoice(NamedTuple):
    """A screw, in mm: its hole through the rail, the counterbore for its head, the rail's wood
    under the head; room at each end of a slot; how far from the rail's face it goes up (None: in
    the middle).
    """

    hole: Fraction
    head: Fraction
    under: Fraction
    room: Fraction
    from_face: Fraction | None = None

    def through(self, rail: Part) -> Fraction:
        """How far from a rail's face the screw goes up, in mm."""
        return rail.thickness / 2 if self.from_face is None else self.from_face


class FixingChoice(NamedTuple):
    """How a top is held: the line across its grain that doesn't move, how far fixings may stand
    apart, and what they are.
    """

    kind: Kind
    held: Held
    apart: Fraction
    clear: Fraction
    button: ButtonChoice
    screw: ScrewChoice
    timber: str = ""
    where: Where = Where()


class Fixed(NamedTuple):
    """One fixing where it stands: its rail, its number there, its middle along the rail from end A,
    how far from the held line it is, and what the year does there: `out` from that line, `back` to
    it. `along`: the top moves along this rail. `outward`: +1 where that is toward the rail's end B,
    or to its inner side.
    """

    rail: Part
    number: int
    place: Fraction
    away: Fraction
    out: Fraction
    back: Fraction
    along: bool
    outward: int

    @property
    def joint(self) -> str:
        """The name that its cuts and marks carry."""
        return f"{self.rail.id}.top"


# -- buttons


class Seat(NamedTuple):
    """A button in its mortise: the gap before its shoulder, the tongue, the mortise's depth."""

    gap: Fraction
    tongue: Fraction
    deep: Fraction


def seat_of(one: Fixed, choice: ButtonChoice, tongue: Fraction) -> Seat:
    """How a button with so long a tongue sits on its rail, in mm."""
    toward, _ = (ZERO, ZERO) if one.along else in_and_out(one)
    gap = toward + choice.room
    return Seat(gap, tongue, tongue - gap + toward + choice.room)


def tongue_for(one: Fixed, choice: ButtonChoice) -> Fraction:
    """How long a button's tongue must be to stay in its mortise all year, in mm."""
    toward, from_it = (ZERO, ZERO) if one.along else in_and_out(one)
    return toward + choice.room + from_it + choice.cover


def in_and_out(one: Fixed) -> Span:
    """How far the top ever moves toward the rail's outer side there, and away from it, in mm."""
    return (one.back, one.out) if one.outward > 0 else (one.out, one.back)


def mortise_length(one: Fixed, choice: ButtonChoice) -> Terms:
    """A mortise along the rail, as a sum."""
    found: Terms = ((+1, "width of the button", choice.width),)
    if one.along and one.out:
        found = (*found, (+1, "swelling, from today to the wettest", one.out))
    if one.along and one.back:
        found = (*found, (+1, "shrinking, from today to the driest", one.back))
    return (*found, (+1, "room at both ends", 2 * choice.room))


def mortise_span(one: Fixed, choice: ButtonChoice) -> Span:
    """From where to where a button's mortise reaches along the rail, in mm."""
    out, back = (one.out, one.back) if one.along else (ZERO, ZERO)
    low, high = Slot(choice.width, out, back, choice.room).reach(one.outward)
    return one.place - low, one.place + high


def mortise_walls(choice: ButtonChoice) -> Span:
    """How far a button's mortise lies below the rail's upper edge, from wall to wall, in mm. Its
    upper wall is the one that the tongue is drawn up against.
    """
    upper = choice.draw + choice.block - choice.tongue
    return upper, upper + choice.tongue + choice.room


def work_button(one: Fixed, button: Part, choice: ButtonChoice, seat: Seat) -> Worked:
    """The mortise in the rail, and the block cut down to its tongue."""
    rail = one.rail
    shoulder, walls = choice.block - choice.tongue, mortise_walls(choice)
    span = mortise_span(one, choice)
    mortise = box_cut(rail, one.joint, f"button mortise {one.number}", span, walls,
                      (rail.thickness - seat.deep, rail.thickness))
    waste = box_cut(button, one.joint, "button waste", (ZERO, seat.tongue), (ZERO, button.width),
                    (ZERO, shoulder))
    assert mortise is not None
    assert waste is not None
    marks = (*_mortise_marks(one, span, walls), *_button_marks(one, button, seat, shoulder))
    sums = tuple(_button_sums(one, button, choice, seat, mortise, waste))
    return Worked((mortise, waste), marks, sums)


def _mortise_marks(one: Fixed, span: Span, walls: Span) -> Iterator[Mark]:
    rail = one.rail
    for at, word in zip(walls, ("upper", "lower"), strict=True):
        yield Mark(rail.id, one.joint, "back", "marking gauge",
                   f"{word} wall of button mortise {one.number}", "face edge", at,
                   ((span[0], at), (span[1], at)))
    for at, word in zip(span, ("near", "far"), strict=True):
        yield Mark(rail.id, one.joint, "back", "knife",
                   f"button {one.number}, {word} end", "end A", at,
                   ((at, walls[0]), (at, walls[1])))


def _button_marks(one: Fixed, button: Part, seat: Seat, shoulder: Fraction) -> Iterator[Mark]:
    yield Mark(button.id, one.joint, "face", "knife", "button shoulder", "end A", seat.tongue,
               ((seat.tongue, ZERO), (seat.tongue, button.width)))
    yield Mark(button.id, one.joint, "end A", "marking gauge", "upper side of the button's tongue",
               "face side", shoulder, ((ZERO, shoulder), (button.width, shoulder)))


def _button_sums(
    one: Fixed, button: Part, choice: ButtonChoice, seat: Seat, mortise: Cut, waste: Cut
) -> Iterator[Sum]:
    rail, where = one.rail, f"button {one.number}"
    yield add("upper wall of the button mortise", rail.id,
              Witness(face_of(rail.id, "edge"), high_of(waste, "T")),
              (+1, "thickness of the button", choice.block),
              (-1, "thickness of its tongue", choice.tongue), (+1, "drawn up by", choice.draw),
              where=where)
    yield add("length of the button mortise", rail.id,
              Witness(low_of(mortise, "L"), high_of(mortise, "L")), *mortise_length(one, choice),
              where=where)
    toward, _ = (ZERO, ZERO) if one.along else in_and_out(one)
    yield add("depth of the button mortise", rail.id,
              Witness(low_of(mortise, "T"), high_of(mortise, "T")),
              (+1, "length of the tongue", seat.tongue), (-1, "gap before the shoulder", seat.gap),
              *(((+1, "the top comes toward the rail by", toward),) if toward else ()),
              (+1, "room at the bottom", choice.room), where=where)
    yield add("gap before the button's shoulder", button.id,
              Witness(face_of(rail.id, "back"), high_of(waste, "L")),
              *(((+1, "the top comes toward the rail by", toward),) if toward else ()),
              (+1, "room", choice.room))


# -- screws


def screw_slot(one: Fixed, choice: ScrewChoice, size: Fraction) -> Slot:
    """The slot of this width at a screw, in mm."""
    if one.away == 0:
        return Slot(size, ZERO, ZERO, ZERO)
    return Slot(size, one.out, one.back, choice.room)


def beside_counterbore(one: Fixed, choice: ScrewChoice) -> Span:
    """The wood of the rail in front of a counterbore and behind it, in mm; less than 0 where it
    comes out of a side.
    """
    slot, middle = screw_slot(one, choice, choice.head), choice.through(one.rail)
    before, after = (slot.size / 2, slot.size / 2) if one.along else slot.reach(one.outward)
    return middle - before, one.rail.thickness - middle - after


def work_screw(one: Fixed, choice: ScrewChoice) -> Worked:
    """The slot for a screw's shank, and the counterbore for its head."""
    rail = one.rail
    middle = choice.through(rail)
    along: Axis = "L" if one.along else "T"
    centre: dict[Axis, Fraction] = {"L": one.place, "W": ZERO, "T": middle}
    under = min(choice.under, rail.width)
    shank = screw_slot(one, choice, choice.hole)
    cuts = list(slot_cuts(rail, one.joint, f"screw slot {one.number}", "W", along, centre, shank,
                          one.outward, (ZERO, under)))
    if under < rail.width:
        cuts += slot_cuts(rail, one.joint, f"counterbore {one.number}", "W", along, centre,
                          screw_slot(one, choice, choice.head), one.outward, (under, rail.width))
    marks = [
        Mark(rail.id, one.joint, "far edge", "bit", cut.role, "end A",
             _middle(cut, "L"), point=(_middle(cut, "L"), _middle(cut, "T")),
             diameter=choice.head if cut.role.startswith("counterbore") else choice.hole)
        for cut in cuts if not cut.role.endswith("between")
    ]
    ends = [cut for cut in cuts if cut.role.startswith("screw slot")]
    told = add(f"length of screw slot {one.number}", rail.id,
               Witness(low_of(ends[0], along), high_of(ends[1 if len(ends) > 1 else 0], along)),
               *shank.terms)
    return Worked(tuple(cuts), tuple(marks), (told,))


def _middle(cut: Cut, axis: Axis) -> Fraction:
    low, high = cut.shape.reach(axis)
    return (low + high) / 2
