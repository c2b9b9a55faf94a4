"""What is cut, marked and added up on a door's parts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from layout.builds import hinge
from layout.builds.door import Bay, Door, seat_joint
from layout.builds.tenoned import work_rail
from layout.joints import board_edge, panel_edge, seat
from layout.joints.board_edge import Edge, Rabbet
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Cut, Sum, Witness, add, face_of, high_of, low_of
from layout.part import Part

ZERO = Fraction(0)
MEETING = "meeting"


def work(door: Door, kit: Kit) -> Worked:
    """Tenons, seats, panels, the rebates of a pair, hinges and lock, and every size's sum."""
    done = [work_rail(one, kit) for one in (*door.rails, *door.muntins)]
    seats = list(_seats(door, kit))
    done += seats
    cuts = [cut for one in seats for cut in one.cuts]
    profile = door.choice.panel.profile
    for bay in door.bays:
        done.append(
            panel_edge.work(bay.part, f"{bay.part.id}.edge", profile, door.size.lip, kit)
        )
    if door.meets is not None and door.choice.rebate:
        done.append(_rebate(door))
    done.append(hinge.work(door))
    sums = (*_sizes(door), *_seat_sums(door, cuts), *_panel_sums(door), *_blanks(door))
    return together([*done, Worked(sums=sums), *_pins(door)])


# -- seats


def _seats(door: Door, kit: Kit) -> Iterator[Worked]:
    """The rabbets or grooves: once along each stile, along each rail for each row, and along both
    edges of a muntin.
    """
    choice, size, stem = door.choice.seat, door.size, door.stem
    top, bottom = door.rails[-1].rail.part, door.rails[0].rail.part
    reach = (top.width - size.lip, door.height - bottom.width + size.lip)
    for stile in door.stiles:
        yield seat.work_leg(stile, "far edge", seat_joint(stem), choice, size, reach, kit)
    for row, (lower, upper) in enumerate(pairwise(one.rail.part for one in door.rails), start=1):
        name = seat_joint(stem, row)
        yield seat.work_rail(lower, "edge", name, choice, size, ZERO, kit)
        yield seat.work_rail(upper, "far edge", name, choice, size, ZERO, kit)
    for bay in door.bays:
        name = seat_joint(stem, bay.row, bay.column)
        if bay.left.kind == "muntin":
            yield seat.work_rail(bay.left, "far edge", name, choice, size, ZERO, kit)
        if bay.right.kind == "muntin":
            yield seat.work_rail(bay.right, "edge", name, choice, size, ZERO, kit)


def _seat_sums(door: Door, cuts: list[Cut]) -> Iterator[Sum]:
    """The gauge lines of the seats; on stiles the bottom rail's seat confirms them, on rails and
    muntins the left stile's.
    """
    choice, size = door.choice.seat, door.size
    in_stile = next((cut for cut in cuts if cut.part == door.stiles[0].id), None)
    in_rail = next((cut for cut in cuts if cut.part == door.rails[0].rail.part.id), None)
    if in_stile is None or in_rail is None:
        return
    for part in (*door.stiles, *(one.rail.part for one in (*door.rails, *door.muntins))):
        other = in_rail if part in door.stiles else in_stile
        face = face_of(part.id, "face")
        terms = seat.plane_terms(choice, part)
        if choice.kind == "rabbet":
            yield add("wood in front of the seat", part.id, Witness(face, low_of(other, "T")),
                      *terms)
        else:
            yield add("groove from the face side", part.id, Witness(face, low_of(other, "T")),
                      *terms)
            yield add("far groove wall from the face side", part.id,
                      Witness(face, high_of(other, "T")),
                      (+1, "near groove wall", size.plane),
                      (+1, "width of the groove", choice.panel_thickness))
    if choice.kind == "rabbet":
        yield from _lips(door)


def _lips(door: Door) -> Iterator[Sum]:
    """A rabbet's lip along a far edge, gauged from the face edge; the panel in it confirms it."""
    told: set[str] = set()
    for bay in door.bays:
        make = door.choice.panel
        left = "edge" if make.grain == "up" else "end A"
        top = "end B" if make.grain == "up" else "edge"
        right = "far edge" if make.grain == "up" else "end B"
        for part, face, room in (
            (bay.left, left, bay.fit.wide.room), (bay.upper, top, bay.fit.high.room),
            (bay.right, right, bay.fit.wide.room),
        ):
            far = part is not bay.right or part is door.stiles[1]
            if part.id in told or not far:
                continue
            told.add(part.id)
            yield add("rabbet lip from the face edge", part.id,
                      Witness(face_of(part.id, "edge"), face_of(bay.part.id, face),  # type: ignore[arg-type]
                              plus=-room / 2),
                      (+1, "width", part.width), (-1, "lip", door.size.lip))


# -- sizes


def _sizes(door: Door) -> Iterator[Sum]:
    """The door's own width and height; its parts, where they stand, confirm them."""
    left, right = door.stiles
    yield add("width of the door", left.id,
              Witness(face_of(left.id, "edge"), face_of(right.id, "edge")), *door.width_terms,
              where=door.name)
    yield add("height of the door", left.id,
              Witness(face_of(left.id, "end A"), face_of(left.id, "end B")), *door.height_terms,
              where=door.name)
    yield from _rows(door)


def _rows(door: Door) -> Iterator[Sum]:
    """What is clear between rails, and between uprights."""
    rails = [one.rail.part for one in door.rails]
    middles = door.choice.middles
    open_rows = 1 + sum(rail.above is None for rail in middles)
    terms: list[tuple[int, str, Fraction]] = [(+1, "height of the door", door.height)]
    terms += [(-1, part.name.removeprefix(f"{door.name} "), part.width) for part in rails]
    terms += [(-1, f"clear below the middle rail {number}", rail.above)
              for number, rail in enumerate(middles, start=1) if rail.above is not None]
    if open_rows > 1:
        share = f"1/{open_rows} of the "
        terms = [(sign, f"{share}{what}", value / open_rows) for sign, what, value in terms]
    lower, upper = rails[-2], rails[-1]
    yield add("clear between the rails", lower.id,
              Witness(face_of(upper.id, "far edge"), face_of(lower.id, "edge")), *terms,
              where=door.name)
    told: set[int] = set()
    for bay in door.bays:
        muntins = [one for one in door.bays if one.row == bay.row]
        if len(muntins) == 1 or bay.row in told:
            continue
        told.add(bay.row)
        many = len(muntins)
        wide = muntins[0].right.width
        shoulders = door.width - door.stiles[0].width - door.stiles[1].width
        of = "the muntin" if many == 2 else f"{many - 1} muntins"
        yield add("clear between the uprights", bay.right.id,
                  Witness(face_of(bay.left.id, "far edge"), face_of(bay.right.id, "edge")),
                  (+1, f"1/{many} of the shoulder distance", shoulders / many),
                  (-1, f"1/{many} of {of}", (many - 1) * wide / many), where=f"row {bay.row}")


def _panel_sums(door: Door) -> Iterator[Sum]:
    """Each panel's cut size; the panel as it was made confirms it."""
    make, lip = door.choice.panel, door.size.lip
    for bay in door.bays:
        part = bay.part
        sides = Witness(face_of(part.id, "edge"), face_of(part.id, "far edge"))
        ends = Witness(face_of(part.id, "end A"), face_of(part.id, "end B"))
        up = make.grain == "up"
        rows = (
            ("panel width" if up else "panel length", sides if up else ends,
             "width of the opening", bay.width, bay.fit.wide),
            ("panel length" if up else "panel width", ends if up else sides,
             "height of the opening", bay.height, bay.fit.high),
        )
        for name, witness, what, clear, made in rows:
            yield add(name, part.id, witness, (+1, what, clear), (+1, "lip", lip),
                      (+1, "lip", lip), *made.off)


def _blanks(door: Door) -> Iterator[Sum]:
    """What stiles and rails are cut to until the door is glued up: with horns, and with through
    tenons left proud. (Horns of 1/2 in, rails 1/8 in longer at each end: George A. Ross, Elementary
    Course in Woodwork, 1901, Exercise 8.)
    """
    horn, trim = door.choice.horn, door.choice.trim
    if horn:
        for stile in door.stiles:
            yield add("length with horns", stile.id,
                      Witness(face_of(stile.id, "end A"), face_of(stile.id, "end B"),
                              plus=2 * horn),
                      (+1, "stile length", stile.length), (+1, "horn at the top", horn),
                      (+1, "horn at the foot", horn))
    for one in door.rails:
        if trim and one.size.through:
            left, right = door.stiles
            yield add("length with tenons left proud", one.rail.part.id,
                      Witness(face_of(left.id, "edge"), face_of(right.id, "edge"),
                              plus=2 * (trim + one.size.projection)),
                      (+1, "cut length", one.rail.part.length), (+1, "proud at end A", trim),
                      (+1, "proud at end B", trim))


# -- pairs, pins


def _rebate(door: Door) -> Worked:
    """The meeting stile's rebate: the left door's in front, the right one's behind it, so that the
    right door closes over the left one. Both are half of the thickness deep.
    """
    choice = door.choice
    part = door.stiles[1 if door.meets == "right" else 0]
    face = "face" if door.meets == "right" else "back"
    sizes: dict[Edge, Rabbet] = {"edge": Rabbet(choice.rebate_width, choice.thickness / 2)}
    one = board_edge.rabbets(part, f"{door.stem}.{MEETING}", face, sizes)  # type: ignore[arg-type]
    if not one.cuts:
        return one
    told = add("width of the meeting rebate", part.id,
               Witness(face_of(part.id, "edge"), high_of(one.cuts[0], "W")),
               (+1, "rebate", choice.rebate), (+1, "gap between them", choice.gaps.between))
    return Worked(one.cuts, one.marks, (*one.sums, told))


def _pins(door: Door) -> Iterator[Worked]:
    """Where a solid panel is pinned: in the middle of each of its ends."""
    solid = door.choice.panel.solid
    if solid is None or solid.held != "pins":
        return
    for bay in door.bays:
        up = door.choice.panel.grain == "up"
        for bearer in (bay.lower, bay.upper) if up else (bay.left, bay.right):
            yield _pin(door, bay, bearer, up)


def _pin(door: Door, bay: Bay, bearer: Part, up: bool) -> Worked:
    lip, name = door.size.lip, seat_joint(door.stem, bay.row, bay.column)
    far = bearer in (bay.upper, bay.left, door.stiles[1])  # what looks at the panel with that edge
    across = (bearer.width - lip, bearer.width) if far else (ZERO, lip)
    if up:
        start = door.site.spans(bearer)[0][0]
        near, clear = door.site.spans(bay.left)[0][1] - start, bay.width
    else:
        head = door.site.spans(bearer)[2][1]
        near, clear = head - door.site.spans(bay.upper)[2][0], bay.height
    # the panel lies in the middle: its own middle confirms it
    told = add("panel pin from end A", bearer.id,
               Witness(face_of(bearer.id, "end A"), face_of(bay.part.id, "edge"),
                       plus=bay.part.width / 2),
               (+1, "opening from end A", near), (+1, "half of the opening", clear / 2),
               where=bay.part.name)
    return panel_edge.pin(bearer, name, across, told)
