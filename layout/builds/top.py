"""A top: on a frame, on a carcase, or by itself; glued up of strips, with end caps if wanted.

Its face side is on top, its face edge in front; end A is where the vise is, so that every place
along it is counted from there. Where square dog holes are cut into a strip before it is glued in,
the top is three parts, from the front: a strip that closes the holes, the dog strip, the rest. The
grain runs from end to end.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, groupby
from typing import NamedTuple

from layout.builds.frame import LONGEST, StandingRail, part_id, refuse_oversize
from layout.builds.site import Site
from layout.builds.top_choice import RowChoice, TopChoice
from layout.errors import BadPiece, BadWood
from layout.joints import end_cap, strips
from layout.joints.end_cap import Cap, CapChoice
from layout.joints.slot import Slot, slot_for
from layout.joints.strips import Strips
from layout.mark import Mark, Sum, Witness, add, face_of
from layout.part import Part
from layout.wood.species import Sawn
from layout.wood.timber import Seasons, Timbers

ZERO = Fraction(0)


class Bearing(NamedTuple):
    """What a top lies on: its name, its reach to the right and inward, how high it stands; the
    parts that the top lies on, and the rails among them. In mm.
    """

    name: str
    along: tuple[Fraction, Fraction]
    inward: tuple[Fraction, Fraction]
    height: Fraction
    parts: tuple[Part, ...]
    rails: tuple[StandingRail, ...]


class Top(NamedTuple):
    """A top where it lies. `origin` is its front corner at the left, on its underside; `slabs` its
    parts from the front, `caps` the end caps at its ends A and B; `held` how far from the front
    edge the line lies that doesn't move; `sawn` how it moves across its width: as boards sawn so
    do; `year` is None where its timber isn't known.
    """

    choice: TopChoice
    bearing: Bearing | None
    origin: tuple[Fraction, Fraction, Fraction]
    length: Fraction
    width: Fraction
    slabs: tuple[Part, ...]
    strips: Strips | None
    caps: tuple[Cap, ...]
    held: Fraction
    sawn: Sawn
    year: Seasons | None

    @property
    def main(self) -> Part:
        """The part that its sums and findings are told of: the rearmost slab, the widest."""
        return self.slabs[-1]

    @property
    def strip(self) -> Part | None:
        """The strip that square dog holes are cut in; None where there is none."""
        return self.slabs[1] if len(self.slabs) > 1 else None

    @property
    def parts(self) -> tuple[Part, ...]:
        """All its parts, in the order of the cut list."""
        return (*self.slabs, *(cap.part for cap in self.caps))

    @property
    def beyond(self) -> Fraction:
        """How far its end A lies beyond that of the slabs: the cap's width less its tongue, mm."""
        caps = self.choice.caps
        return ZERO if caps is None else caps.width - caps.length

    def slab_at(self, across: Fraction) -> Part | None:
        """The slab that lies at a distance from the front edge; None where none does."""
        for slab in self.slabs:
            front = slab.placement.origin[1] - self.origin[1]
            if front <= across < front + slab.width:
                return slab
        return None

    def along(self, x: Fraction) -> Fraction:
        """A place of the piece, from left to right, as it is counted from the slabs' end A."""
        return self.main.placement.to_part((x, ZERO, ZERO))[0]


def stand(
    choice: TopChoice, bearings: Sequence[Bearing], free: Fraction, timbers: Timbers
) -> Top:
    """The top where it lies. BadPiece where it can't."""
    bearing = _bearing(choice, bearings)
    if bearing is None:
        assert choice.size is not None
        length, width = choice.size
        origin = (free, ZERO, ZERO)
    else:
        over = choice.overhang
        length = over.left + bearing.along[1] - bearing.along[0] + over.right
        width = over.front + bearing.inward[1] - bearing.inward[0] + over.back
        origin = (bearing.along[0] - over.left, bearing.inward[0] - over.front, bearing.height)
    if length > LONGEST:
        raise BadPiece("the top is more than 10 m long", "check it and its unit", choice.where)
    refuse_oversize((width, choice.thickness), f"the {choice.name}", choice.where)
    caps = choice.caps
    if caps is not None and length <= 2 * caps.width:
        raise BadPiece("the end caps leave nothing of the top between them",
                       "make them narrower, or the top longer", caps.where)
    long = length if caps is None else length - 2 * (caps.width - caps.length)
    widths, names, fixed = _slab_widths(choice, width)
    slabs = _slabs(choice, origin, length, long, widths, names)
    glued = None if choice.strips is None else strips.glued_up(
        choice.strips, long, choice.thickness, widths, fixed
    )
    lines = {"front": ZERO, "middle": width / 2, "back": width}
    held = lines[choice.fixing.held if choice.fixing else "middle"]
    made = Top(choice, bearing, origin, length, width, slabs, glued, (), held,
               _sawn(choice, timbers), _year(choice, timbers))
    return made if caps is None else made._replace(caps=_caps(made, caps))


def _bearing(choice: TopChoice, bearings: Sequence[Bearing]) -> Bearing | None:
    if choice.size is not None:
        return None
    if not bearings:
        raise BadPiece("there is nothing for the top to lie on",
                       "describe a frame, or give the top's own length and width", choice.where)
    if choice.on is None:
        return bearings[0]
    for one in bearings:
        if one.name == choice.on:
            return one
    raise BadPiece(f"there is no '{choice.on}' for the top to lie on",
                   f"one of: {', '.join(one.name for one in bearings)}", choice.where)


def _square_row(choice: TopChoice) -> RowChoice | None:
    """The row of square holes, which has a strip of its own; None where there is none."""
    found = [row for row in choice.rows if row.dogs.shape == "square"]
    if len(found) > 1:
        raise BadPiece("two rows of square dog holes", "one row can be square; make the others "
                       "round", found[1].dogs.where)
    return found[0] if found else None


def _slab_widths(
    choice: TopChoice, width: Fraction
) -> tuple[tuple[Fraction, ...], tuple[str, ...], tuple[bool, ...]]:
    """Widths of the slabs from the front, what they are called, which are one strip each."""
    row = _square_row(choice)
    if row is None:
        return (width,), (choice.name,), (False,)
    front, rest = row.front, width - row.front - row.strip
    if rest <= 0:
        raise BadPiece("the dog strip leaves nothing of the top behind it",
                       "make it narrower, or put it farther in front", row.dogs.where)
    if row.strip - row.dogs.size < row.dogs.wall:
        raise BadPiece("the dog holes leave too little of the strip's width",
                       "make the strip wider, or the dogs smaller", row.dogs.where)
    names = (f"{choice.name} front strip", f"{choice.name} dog strip", choice.name)
    return (front, row.strip, rest), names, (False, True, False)


def _slabs(
    choice: TopChoice, origin: tuple[Fraction, Fraction, Fraction], length: Fraction,
    long: Fraction, widths: Sequence[Fraction], names: Sequence[str],
) -> tuple[Part, ...]:
    site = Site(origin)
    inset = (length - long) / 2
    start, way = (inset, "right") if choice.vise == "left" else (length - inset, "left")
    found = []
    for width, end, name in zip(widths, accumulate(widths), names, strict=True):
        placed = site.placed((start, end - width, choice.thickness), way, "inward", "down")
        found.append(Part(part_id(name), name, name, long, width, choice.thickness, placed,
                          choice.timber))
    return tuple(found)


# Boards on edge show their thickness across the top: flat-sawn ones then move as quarter-sawn.
_ON_EDGE: dict[Sawn, Sawn] = {"flat": "quarter", "quarter": "flat", "rift": "rift"}


def _sawn(choice: TopChoice, timbers: Timbers) -> Sawn:
    """How the top moves across its width."""
    boards = timbers.sawn(choice.timber, choice.sawn)
    on_edge = choice.strips is not None and choice.strips.lay == "on edge"
    return _ON_EDGE[boards] if on_edge else boards


def _year(choice: TopChoice, timbers: Timbers) -> Seasons | None:
    """What the year does to its width. BadPiece where something depends on it and it isn't known.
    """
    try:
        return timbers.seasons(choice.timber, "width", _sawn(choice, timbers))
    except BadWood as error:
        needs = choice.caps or choice.fixing
        if needs is None:
            return None
        what = error.what if choice.timber else "the top's timber is not named"
        cure = error.cure if choice.timber else 'name it, e.g. timber = "white oak"'
        raise BadPiece(what, cure, error.at(choice.where).where) from None


def _caps(top: Top, choice: CapChoice) -> tuple[Cap, ...]:
    """A cap over each end, its face edge at the joint."""
    assert top.year is not None
    thick = end_cap.thickness_of(choice, top.choice.thickness)
    if thick >= top.choice.thickness:
        raise BadPiece("the end caps' tongue is no thinner than the top",
                       "make it a third of the thickness", choice.where)
    if choice.length + choice.room >= choice.width:
        raise BadPiece("the end caps' groove goes through them",
                       "make the tongue shorter, or the caps wider", choice.where)
    pegs = _pegs(top, choice)
    found = []
    site = Site(top.origin)
    for hand in ("left", "right"):
        name = f"{top.choice.name} {hand} end cap"
        x = choice.width if hand == "left" else top.length - choice.width
        placed = site.placed((x, ZERO, top.choice.thickness), "inward", hand, "down")
        part = Part(part_id(name), name, f"{top.choice.name} end cap", top.width, choice.width,
                    top.choice.thickness, placed, choice.timber or top.choice.timber,
                    hand)
        end: end_cap.End = "A" if hand == top.choice.vise else "B"
        found.append(Cap(part, end, choice, thick, top.slabs, pegs))
    return tuple(found)


def _pegs(top: Top, choice: CapChoice) -> tuple[tuple[int, Fraction, Slot, int], ...]:
    """Evenly from near one end of the cap to near the other, one of them on the held line."""
    assert top.year is not None
    first, last = choice.peg_in, top.width - choice.peg_in
    if last <= first:
        raise BadPiece("the pegs stand in farther than half of the end cap's length",
                       "give a smaller peg_in", choice.where)
    places = [first + (last - first) * n / (choice.pegs - 1) for n in range(choice.pegs)]
    nearest = min(range(choice.pegs), key=lambda n: abs(places[n] - top.held))
    tight = min(max(top.held, first), last)
    places[nearest] = tight
    found = []
    for place in places:
        slab = top.slab_at(place)
        assert slab is not None
        slot = slot_for(choice.peg, place - tight, top.year.most, top.year.least, choice.slot_room)
        front = slab.placement.origin[1] - top.origin[1]
        outward = 1 if place > tight else -1
        before, after = slot.reach(-outward)
        if len(top.slabs) > 1 and not (front <= place - before
                                       and place + after <= front + slab.width):
            raise BadPiece("a peg of the end caps stands on the edge of the dog strip",
                           "give another peg_in, or another number of pegs", choice.where)
        found.append((top.slabs.index(slab), place, slot, outward))
    return tuple(found)


# -- sums and marks


def sums(top: Top) -> tuple[Sum, ...]:
    """Its length, its width and its strips."""
    main, over = top.main, top.choice.overhang
    found = []
    outer = [face_of(cap.part.id, "far edge") for cap in top.caps]
    ends = outer or [face_of(main.id, "end A"), face_of(main.id, "end B")]
    if top.bearing is not None:
        found.append(add(
            "length over all", main.id, Witness(ends[0], ends[1]),
            (+1, f"length of the {top.bearing.name}", top.bearing.along[1] - top.bearing.along[0]),
            (+1, "overhang at the left", over.left), (+1, "overhang at the right", over.right)))
        found.append(add(
            "width over all", main.id,
            Witness(face_of(top.slabs[0].id, "edge"), face_of(main.id, "far edge")),
            (+1, f"depth of the {top.bearing.name}", top.bearing.inward[1] - top.bearing.inward[0]),
            (+1, "overhang in front", over.front), (+1, "overhang behind", over.back)))
    if top.caps:
        caps = top.caps[0].choice
        found.append(add(
            "length with both tongues", main.id,
            Witness(face_of(top.caps[0].part.id, "edge"), face_of(top.caps[1].part.id, "edge"),
                    plus=2 * caps.length),
            (+1, "length over all", top.length), (-1, "two end caps", 2 * caps.width),
            (+1, "two tongues", 2 * caps.length)))
    if top.strips is not None and len(top.strips.strips) > 1:
        equal = [(width, len(list(same))) for width, same in
                 groupby(strip.width for strip in top.strips.strips)]
        terms = tuple((+1, f"{many} strips, all alike" if many > 1 else "1 strip", width * many)
                      for width, many in equal)
        found.append(add(
            "strips across the top", main.id,
            Witness(face_of(top.slabs[0].id, "edge"), face_of(main.id, "far edge")), *terms))
    return tuple(found)


def marks(top: Top) -> tuple[Mark, ...]:
    """On the underside, where what it lies on ends."""
    if top.bearing is None:
        return ()
    found = []
    over = top.choice.overhang
    for slab in top.slabs:
        for x in top.bearing.along:
            at = top.along(x)
            found.append(Mark(slab.id, f"{top.main.id}.overhang", "back", "pencil", "overhang",
                              "end A", at, ((at, ZERO), (at, slab.width))))
        front = slab.placement.origin[1] - top.origin[1]
        for y, word in ((over.front, "in front"), (top.width - over.back, "behind")):
            at = y - front
            if 0 < at < slab.width:
                found.append(Mark(slab.id, f"{top.main.id}.overhang", "back", "pencil",
                                  f"overhang {word}", "face edge", at,
                                  ((ZERO, at), (slab.length, at))))
    return tuple(found)
