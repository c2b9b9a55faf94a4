"""What is cut, marked and added up on a drawer's parts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds import runners
from layout.builds.drawer import Drawer
from layout.joints import board_edge, dovetail
from layout.joints.board_edge import Edge, Rabbet
from layout.joints.section import Terms
from layout.joints.worked import Worked, box_cut, together
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum, Surface, Witness, add, face_of, high_of
from layout.part import Part

ZERO = Fraction(0)


def work(drawer: Drawer, standing: tuple[Part, ...], kit: Kit) -> Worked:
    """Corners, grooves, lips, slots, and every size of the drawer with its sum."""
    done = [dovetail.work(corner) for corner in drawer.corners]
    grooves = {}
    by_id = {part.id: part for part in drawer.parts}
    for part_id, size in drawer.grooves.items():
        one = board_edge.groove(by_id[part_id], drawer.joint, size, kit)
        done.append(one)
        grooves[part_id] = one.cuts[0]
    if drawer.lip:
        done.append(_lips(drawer))
    if drawer.choice.bottom.tongue is not None:
        done.append(_tongue(drawer))
    done.append(_slots(drawer))
    sockets = [cut for cut in done[0].cuts if cut.part == drawer.front.id]
    told = (
        *_sides(drawer, sockets[0]), *_front(drawer), *_back(drawer),
        *_bottom(drawer, grooves), *_groove_sums(drawer, grooves), *_slip_sums(drawer),
        *runners.sums(drawer, standing),
    )
    return together([*done, Worked(sums=tuple(told))])


def _lips(drawer: Drawer) -> Worked:
    """The rabbet all round a lipped front, its lip left at the outside."""
    size = Rabbet(drawer.lip, drawer.choice.front - drawer.choice.lip_thickness)
    edges: tuple[Edge, ...] = ("end A", "end B", "edge", "far edge")
    joint = f"{drawer.joint.removesuffix('bottom')}lip"
    return board_edge.rabbets(drawer.front, joint, "face", dict.fromkeys(edges, size))


def _tongue(drawer: Drawer) -> Worked:
    """The bottom thinned underneath to fit its grooves: at both ends and in front."""
    bottom = drawer.choice.bottom
    size = Rabbet(drawer.deep, bottom.thickness - bottom.groove)
    edges: tuple[Edge, ...] = ("end A", "end B", "edge")
    return board_edge.rabbets(drawer.bottom, drawer.joint, "back", dict.fromkeys(edges, size))


def slot_places(drawer: Drawer) -> tuple[Fraction, ...]:
    """The middles of the slots from the bottom's end A, in mm: one in the middle of each of so
    many equal stretches.
    """
    slots = drawer.choice.bottom.slots
    if slots is None:
        return ()
    many = slots.many
    if many is None:
        many = max(1, -int(-drawer.inside // slots.every))
    return tuple(
        drawer.bottom.length * Fraction(2 * number + 1, 2 * many) for number in range(many)
    )


def _slots(drawer: Drawer) -> Worked:
    """Slots in the bottom's rear edge for screws into the back: the wood moves past them."""
    slots = drawer.choice.bottom.slots
    part = drawer.bottom
    if slots is None:
        return Worked()
    long = drawer.choice.back / 2 + slots.play
    end = part.width - long
    if end <= 0:
        return Worked()  # no such slot can be cut; the checks say so
    cuts: list[Cut] = []
    marks: list[Mark] = []
    sums: list[Sum] = []
    places = slot_places(drawer)
    for number, at in enumerate(places, start=1):
        role = f"screw slot {number}" if len(places) > 1 else "screw slot"
        span = (at - slots.wide / 2, at + slots.wide / 2)
        cut = box_cut(part, drawer.joint, role, span, (end, part.width), (ZERO, part.thickness))
        if cut is None:
            continue
        cuts.append(cut)
        marks.append(Mark(part.id, drawer.joint, "back", "pencil", f"middle of {role}", "end A",
                          at, ((at, end), (at, part.width))))
        marks.append(Mark(part.id, drawer.joint, "back", "pencil", f"end of {role}", "face edge",
                          end, ((span[0], end), (span[1], end))))
        share = Fraction(2 * number - 1, 2 * len(places))
        middle = Witness(face_of(part.id, "end A"), high_of(cut, "L"), plus=-slots.wide / 2)
        sums.append(add(f"middle of {role}", part.id, middle,
                        (+1, f"{share} of the bottom's length", part.length * share)))
    if cuts:
        rear = Witness(face_of(drawer.front.id, "face"), Surface(
            part.id, cut=cuts[0].key, axis="W"), plus=drawer.deep)
        sums.append(add("end of the screw slot", part.id, rear,
                        (+1, "bottom, front to back", part.width),
                        (-1, "half of the back's thickness", drawer.choice.back / 2),
                        (-1, "room for the wood to move", slots.play)))
    return Worked(tuple(cuts), tuple(marks), tuple(sums))


# -- sums


def _width_terms(drawer: Drawer) -> Terms:
    return ((+1, "width of the opening", drawer.hole.width),
            (-1, "room in width", drawer.choice.room_wide))


def _legs(drawer: Drawer, plus: Fraction) -> Witness | None:
    """The clear width between the legs, as a second witness."""
    opening, site = drawer.hole.opening, drawer.hole.site
    if opening is None:
        return None
    return Witness(site.surface(opening.left, 0, True), site.surface(opening.right, 0, False),
                   plus=plus - drawer.choice.room_wide)


def _over_sides(drawer: Drawer, plus: Fraction) -> Witness:
    return Witness(face_of(drawer.left.id, "back"), face_of(drawer.right.id, "back"), plus=plus)


def _front(drawer: Drawer) -> Iterator[Sum]:
    lips: Terms = ((+1, "lips at both ends", 2 * drawer.lip),) if drawer.lip else ()
    yield add("front length", drawer.front.id, _over_sides(drawer, 2 * drawer.lip),
              *_width_terms(drawer), *lips, also=_legs(drawer, 2 * drawer.lip))
    if drawer.lip:
        yield add("front height", drawer.front.id,
                  Witness(face_of(drawer.left.id, "edge"), face_of(drawer.left.id, "far edge"),
                          plus=2 * drawer.lip),
                  (+1, "side height", drawer.height),
                  (+1, "lips above and below", 2 * drawer.lip))
    else:
        yield from _height(drawer, drawer.front, "front height")


def _height(drawer: Drawer, part: Part, name: str) -> Iterator[Sum]:
    """A height from the opening's, confirmed by the rails, or by the other of front and side."""
    if drawer.choice.height is not None:
        return
    opening, site = drawer.hole.opening, drawer.hole.site
    if opening is not None and opening.lower is not None:
        witness = Witness(site.surface(opening.lower, 2, True),
                          site.surface(opening.upper, 2, False),
                          plus=-drawer.choice.room_high - drawer.swells)
    else:
        other, lip = (drawer.front, -2 * drawer.lip) if part.id != drawer.front.id else (
            drawer.left, ZERO)
        witness = Witness(face_of(other.id, "edge"), face_of(other.id, "far edge"), plus=lip)
    swelling: Terms = ((-1, "swelling, from now to the dampest season", drawer.swells),)
    if not drawer.swells:
        swelling = ()
    yield add(name, part.id, witness, (+1, "height of the opening", drawer.hole.height),
              (-1, "room in height", drawer.choice.room_high), *swelling)


def _sides(drawer: Drawer, socket: Cut) -> Iterator[Sum]:
    choice, hole = drawer.choice, drawer.hole
    if len(hole.depth) > 1:
        site, opening = hole.site, hole.opening
        assert opening is not None
        start = site.surface(opening.upper, 1, False)
        end = None
        if hole.behind is not None:
            end = Witness(start, site.surface(hole.behind, 1, False))
        elif hole.hind is not None:
            end = Witness(start, site.surface(hole.hind, 1, True))
        if end is not None:
            yield add("depth for the drawer", drawer.left.id, end, *hole.depth)
    lap = choice.front - drawer.corners[0].depth
    back_lap = choice.back_joint.lap or ZERO
    terms: list[tuple[int, str, Fraction]]
    if choice.length is not None:
        terms = [(+1, "drawer length", choice.length)]
    else:
        terms = [(+1, "depth for the drawer", hole.deep),
                 (-1, "room behind the drawer", choice.room_behind)]
        if choice.style == "set in":
            terms.append((-1, "front set in", choice.set_in))
        elif choice.style == "lipped":
            terms.append((+1, "thickness of the lip", choice.lip_thickness))
    if lap:
        terms.append((-1, "lap in front" if back_lap else "lap", lap))
    if back_lap:
        terms.append((-1, "lap at the back", back_lap))
    for side in (drawer.left, drawer.right):
        yield add("side length", side.id,
                  Witness(high_of(socket, "T"), face_of(drawer.back.id, "back"), plus=-back_lap),
                  *terms)
    for side in (drawer.left, drawer.right):
        yield from _height(drawer, side, "side height")


def _back(drawer: Drawer) -> Iterator[Sum]:
    choice, bottom = drawer.choice, drawer.choice.bottom
    yield add("back length", drawer.back.id, _over_sides(drawer, ZERO), *_width_terms(drawer),
              also=_legs(drawer, ZERO))
    drop: Terms = ((-1, "back lower than the sides", choice.drop),) if choice.drop else ()
    yield add("back height", drawer.back.id,
              Witness(face_of(drawer.bottom.id, "face"), face_of(drawer.left.id, "far edge"),
                      plus=-choice.drop),
              (+1, "side height", drawer.height),
              (-1, "groove above the lower edge", bottom.up),
              (-1, "width of the groove", bottom.groove), *drop)


def _lap_behind(drawer: Drawer) -> Terms:
    """What the back stands beyond the sides' ends, where it is lapped."""
    lap = drawer.choice.back_joint.lap
    return ((+1, "lap at the back", lap),) if lap else ()


def _bottom(drawer: Drawer, grooves: dict[str, Cut]) -> Iterator[Sum]:
    choice, bottom = drawer.choice, drawer.choice.bottom
    yield add("width between the sides", drawer.bottom.id,
              Witness(face_of(drawer.left.id, "face"), face_of(drawer.right.id, "face")),
              *_width_terms(drawer), (-1, "both sides", 2 * choice.sides))
    bearers = drawer.slips or (drawer.left, drawer.right)
    slips: Terms = ()
    if bottom.slips is not None:
        slips = ((-1, "both slips", 2 * bottom.slips.thickness),)
    floors = [high_of(grooves[part.id], "T") for part in bearers]
    yield add("bottom, side to side", drawer.bottom.id,
              Witness(floors[0], floors[1], plus=-bottom.room),
              (+1, "width between the sides", drawer.inside), *slips,
              (+1, "both grooves", 2 * drawer.deep), (-1, "room to fit", bottom.room))
    yield add("bottom, front to back", drawer.bottom.id,
              Witness(high_of(grooves[drawer.front.id], "T"), face_of(drawer.back.id, "back")),
              (+1, "side length", drawer.left.length), *_lap_behind(drawer),
              (-1, "tail length in the front", drawer.corners[0].depth),
              (+1, "depth of the groove", drawer.deep))


def _groove_sums(drawer: Drawer, grooves: dict[str, Cut]) -> Iterator[Sum]:
    """Where the grooves lie and stop; the bottom's own faces confirm it."""
    bottom = drawer.choice.bottom
    by_id = {part.id: part for part in drawer.parts}
    for part_id, cut in grooves.items():
        part, size = by_id[part_id], drawer.grooves[part_id]
        lip: Terms = ((+1, "lip", drawer.lip),) if part_id == drawer.front.id and drawer.lip else ()
        edge, top = face_of(part_id, "edge"), face_of(drawer.bottom.id, "face")
        if lip:
            yield add("near groove wall from the face edge", part_id,
                      Witness(edge, top, plus=-bottom.groove),
                      (+1, "groove above the lower edge", bottom.up), *lip)
        yield add("far groove wall from the face edge", part_id, Witness(edge, top),
                  (+1, "groove above the lower edge", bottom.up),
                  (+1, "width of the groove", bottom.groove), *lip)
        if size.run[0]:
            yield from _stop_sums(drawer, part, cut)


def _stop_sums(drawer: Drawer, part: Part, cut: Cut) -> Iterator[Sum]:
    """Where a stopped groove starts and ends, from end A."""
    bottom = drawer.choice.bottom
    start = Witness(face_of(part.id, "end A"), Surface(part.id, cut=cut.key, axis="L"))
    if part.id != drawer.front.id:
        yield add("start of the groove from end A", part.id, start,
                  (+1, "tail length in the front", drawer.corners[0].depth),
                  (-1, "depth of the groove", drawer.deep))
        return
    terms: list[tuple[int, str, Fraction]] = [(+1, "thickness of a side", drawer.choice.sides)]
    if drawer.lip:
        terms.append((+1, "lip", drawer.lip))
    if bottom.slips is not None:
        terms.append((+1, "thickness of a slip", bottom.slips.thickness))
    terms.append((-1, "depth of the groove", drawer.deep))
    yield add("start of the groove from end A", part.id, start, *terms)
    held = sum((sign * value for sign, _, value in terms), ZERO)
    yield add("end of the groove from end A", part.id,
              Witness(face_of(part.id, "end A"), high_of(cut, "L")),
              (+1, "front length", part.length), (-1, "start of the groove", held))


def _slip_sums(drawer: Drawer) -> Iterator[Sum]:
    slips = drawer.choice.bottom.slips
    if slips is None:
        return
    bottom = drawer.choice.bottom
    for part in drawer.slips:
        yield add("slip length", part.id,
                  Witness(face_of(drawer.front.id, "face"), face_of(drawer.back.id, "face")),
                  (+1, "side length", drawer.left.length), *_lap_behind(drawer),
                  (-1, "tail length in the front", drawer.corners[0].depth),
                  (-1, "thickness of the back", drawer.choice.back))
        yield add("slip height", part.id,
                  Witness(face_of(drawer.bottom.id, "face"), face_of(drawer.left.id, "edge"),
                          plus=slips.above),
                  (+1, "groove above the lower edge", bottom.up),
                  (+1, "width of the groove", bottom.groove),
                  (+1, "wood above the groove", slips.above))
