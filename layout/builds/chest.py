"""A chest or box: four boards dovetailed at the corners, a bottom, and a lid if wanted.

Face sides are inside, face edges below. The front's end A is at the left, the back's at the
right, an end's at the front. Corners go round from the front left: A, B, C, D.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple, Protocol

from layout.builds.box_choices import ChestBottom, ChestChoice
from layout.builds.frame import LONGEST, part_id, refuse_oversize
from layout.builds.site import Site
from layout.errors import BadPiece
from layout.joints import board_edge, dovetail
from layout.joints.board_edge import Edge, Groove, Rabbet
from layout.joints.dovetail import Corner, EdgeRabbet
from layout.joints.section import Terms
from layout.joints.spacing import Spacing, Wishes, space, tail_around, tail_length
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum, Surface, Witness, add, face_of, high_of
from layout.part import Face, Part

ZERO = Fraction(0)
Boards = tuple[Fraction, ...]


class _Maker(Protocol):
    """Makes a part from its office, its size, its spot, which ways it points, and its timber."""

    def __call__(
        self, office: str, size: tuple[Fraction, ...], spot: tuple[Fraction, Fraction, Fraction],
        ways: tuple[str, str, str], timber: str, hand: str = "",
    ) -> Part: ...


class Chest(NamedTuple):
    """A chest set up: its parts, its corners, its grooves by part id, and the boards that each
    part is glued up of, by part id.
    """

    choice: ChestChoice
    front: Part
    back: Part
    left: Part
    right: Part
    bottom: Part | None
    lid: Part | None
    corners: tuple[Corner, ...]
    grooves: dict[str, Groove]
    glued: dict[str, Boards]

    @property
    def parts(self) -> tuple[Part, ...]:
        """All its parts, in the order of the cut list."""
        more = tuple(part for part in (self.bottom, self.lid) if part is not None)
        return (self.front, self.back, self.left, self.right, *more)

    @property
    def walls(self) -> tuple[Part, ...]:
        """The four boards that are dovetailed."""
        return (self.front, self.back, self.left, self.right)

    @property
    def joint(self) -> str:
        """The name that what holds its bottom goes by."""
        return f"{part_id(self.choice.name)}.bottom"


def boards_of(
    given: tuple[Fraction, ...] | int, width: Fraction, what: str, choice: ChestChoice
) -> Boards:
    """The boards of a glue-up from its lower edge, in mm: as given, or so many alike.

    BadPiece where given ones don't make up the width.
    """
    if isinstance(given, int):
        return (width / given,) * given
    if sum(given, ZERO) != width:
        raise BadPiece(
            f"the boards of the {what} don't add up to its width",
            "give widths that add up, or only how many boards",
            choice.where,
        )
    return given


def stand(choice: ChestChoice, free: Fraction = ZERO) -> Chest:
    """The chest where it stands, its lid no further left than `free` mm. BadPiece where it has no
    inside, or its tails don't fit.
    """
    if max(choice.length, choice.depth) > LONGEST:
        raise BadPiece(f"the {choice.name} is more than 10 m one way",
                       "check the sizes and the file's unit", choice.where)
    bottom, lid = choice.bottom, choice.lid
    sizes = [choice.height, choice.front, choice.ends]
    if bottom is not None:
        sizes += [bottom.thickness, bottom.up, bottom.deep, bottom.room]
    if lid is not None:
        sizes += [lid.thickness, lid.deep, lid.room, lid.front, lid.ends, lid.back]
    refuse_oversize(sizes, f"the {choice.name}", choice.where)
    inside = (choice.length - 2 * choice.ends, choice.depth - 2 * choice.front)
    if min(inside) <= 0:
        raise BadPiece(f"the boards of the {choice.name} leave nothing between them",
                       "make it longer or deeper, or the boards thinner", choice.where)
    raised = _under(bottom)
    over = lid.ends if lid is not None and free else ZERO
    site = Site((free + over, ZERO, raised))
    tails_front = choice.tails == "front and back"
    pin_board = choice.ends if tails_front else choice.front
    tails = tail_length(choice.joint, pin_board)
    if tails <= 0:
        raise BadPiece("the lap takes the whole thickness of the pin board",
                       "make the lap less, or the board thicker", choice.joint.where)
    lap = pin_board - tails
    short_x, short_y = (lap, ZERO) if tails_front else (ZERO, lap)

    def part(office: str, size: tuple[Fraction, ...], spot: tuple[Fraction, Fraction, Fraction],
             ways: tuple[str, str, str], timber: str, hand: str = "") -> Part:
        called = f"{choice.name} {hand} {office}" if hand else f"{choice.name} {office}"
        # front and back are alike: one kind, so that their sums and sticks are told once
        kind = "long side" if office in ("front", "back") else office
        return Part(part_id(called), called, f"{choice.name} {kind}", size[0], size[1],
                    size[2], site.placed(spot, *ways), timber, hand)  # type: ignore[arg-type]

    long, deep, high = choice.length, choice.depth, choice.height
    wood = choice.timber
    front = part("front", (long - 2 * short_x, high, choice.front),
                 (short_x, choice.front, ZERO), ("right", "up", "outward"), wood)
    back = part("back", (long - 2 * short_x, high, choice.front),
                (long - short_x, deep - choice.front, ZERO), ("left", "up", "inward"), wood)
    left = part("end", (deep - 2 * short_y, high, choice.ends),
                (choice.ends, short_y, ZERO), ("inward", "up", "left"), wood, "left")
    right = part("end", (deep - 2 * short_y, high, choice.ends),
                 (long - choice.ends, short_y, ZERO), ("inward", "up", "right"), wood, "right")
    spacing = space(choice.joint, high, tails, _wishes(bottom))
    rabbet = _edge_rabbet(choice)
    corners = tuple(_corners(choice, (front, back, left, right), spacing, rabbet))
    base = _bottom(choice, inside, part) if bottom is not None else None
    top = _lid(choice, inside, part) if lid is not None else None
    grooves = _grooves(choice, (front, back, left, right), spacing)
    glued = {}
    for one, given, what in (
        (front, choice.front_boards, "front"), (back, choice.front_boards, "back"),
        (left, choice.end_boards, "ends"), (right, choice.end_boards, "ends"),
    ):
        glued[one.id] = boards_of(given, one.width, what, choice)
    if base is not None and bottom is not None:
        glued[base.id] = boards_of(bottom.boards, base.width, "bottom", choice)
    if top is not None and lid is not None:
        glued[top.id] = boards_of(lid.boards, top.width, "lid", choice)
    return Chest(choice, front, back, left, right, base, top, corners, grooves, glued)


def _under(bottom: ChestBottom | None) -> Fraction:
    """How far the sides stand off the floor on a bottom below them, in mm."""
    if bottom is None or bottom.kind in ("groove", "rabbet"):
        return ZERO
    return bottom.thickness - (bottom.deep if bottom.kind == "rabbeted" else ZERO)


def _wishes(bottom: ChestBottom | None) -> Wishes:
    if bottom is not None and bottom.kind == "groove":
        return Wishes(groove=(bottom.up, bottom.up + bottom.thickness), clear=bottom.clear)
    if bottom is not None and bottom.kind == "rabbet":
        return Wishes(rabbet_near=bottom.thickness)
    return Wishes()


def _edge_rabbet(choice: ChestChoice) -> EdgeRabbet | None:
    bottom = choice.bottom
    if bottom is None or bottom.kind != "rabbet":
        return None
    joint = f"{part_id(choice.name)}.bottom"
    return EdgeRabbet("near", bottom.thickness, bottom.deep, joint)


def _corners(
    choice: ChestChoice,
    walls: tuple[Part, Part, Part, Part],
    spacing: Spacing,
    rabbet: EdgeRabbet | None,
) -> Iterator[Corner]:
    front, back, left, right = walls
    stem = part_id(choice.name)
    meet = (("A", front, "A", left, "A"), ("B", front, "B", right, "A"),
            ("C", back, "A", right, "B"), ("D", back, "B", left, "B"))
    for letter, long, long_end, end, end_end in meet:
        one: tuple[Part, str] = (long, long_end)
        other: tuple[Part, str] = (end, end_end)
        if choice.tails == "ends":
            one, other = other, one
        yield Corner(f"{stem}.{letter}", letter, one[0], one[1], other[0],  # type: ignore[arg-type]
                     other[1], spacing, rabbet=rabbet)  # type: ignore[arg-type]


def _bottom(choice: ChestChoice, inside: tuple[Fraction, Fraction], part: _Maker) -> Part:
    bottom = choice.bottom
    assert bottom is not None
    timber = bottom.timber
    if bottom.kind in ("groove", "rabbet"):
        into = bottom.deep - bottom.room / 2
        top = bottom.thickness + (bottom.up if bottom.kind == "groove" else ZERO)
        size = (inside[0] + 2 * into, inside[1] + 2 * into, bottom.thickness)
        if min(size) <= 0:
            raise BadPiece(f"the room leaves nothing of the bottom of the {choice.name}",
                           "make the room less", choice.where)
        return part("bottom", size, (choice.ends - into, choice.front - into, top),
                    ("right", "inward", "down"), timber)
    top = bottom.deep if bottom.kind == "rabbeted" else ZERO
    return part("bottom", (choice.length, choice.depth, bottom.thickness), (ZERO, ZERO, top),
                ("right", "inward", "down"), timber)


def _lid(choice: ChestChoice, inside: tuple[Fraction, Fraction], part: _Maker) -> Part:
    """The lid on top: its face side up, a tongue below it where it is rabbeted."""
    lid = choice.lid
    assert lid is not None
    size = (choice.length + 2 * lid.ends, choice.depth + lid.front + lid.back, lid.thickness)
    tongue = lid.deep if lid.kind == "rabbeted" else ZERO
    top = choice.height - tongue + lid.thickness
    return part("lid", size, (-lid.ends, -lid.front, top), ("right", "inward", "down"), lid.timber)


def _grooves(
    choice: ChestChoice, walls: tuple[Part, ...], spacing: Spacing
) -> dict[str, Groove]:
    """The bottom's groove in every wall; where it would show outside it stops short."""
    bottom = choice.bottom
    if bottom is None or bottom.kind != "groove":
        return {}
    span = (bottom.up, bottom.up + bottom.thickness)
    within = tail_around(spacing, span) is not None
    tails_front = choice.tails == "front and back"
    found = {}
    for index, part in enumerate(walls):
        tails = tails_front == (index < 2)
        hold = ZERO
        if bottom.run == "stopped":
            if tails and choice.joint.lap is None:
                hold = spacing.depth - bottom.deep
            elif not tails and not within:
                hold = (choice.front if tails_front else choice.ends) - bottom.deep
        found[part.id] = Groove(span, bottom.deep, (hold, part.length - hold))
    return found


# -- worked out


def work(chest: Chest, kit: Kit) -> Worked:
    """Corners, what holds the bottom, rabbets of bottom and lid, glue lines, and every sum."""
    done = [dovetail.work(corner) for corner in chest.corners]
    grooves: dict[str, Cut] = {}
    for part in chest.walls:
        if part.id in chest.grooves:
            one = board_edge.groove(part, chest.joint, chest.grooves[part.id], kit)
            done.append(one)
            grooves[part.id] = one.cuts[0]
    rabbets: dict[str, Cut] = {}
    rabbet = chest.corners[0].rabbet
    if rabbet is not None:
        for part in chest.walls:
            one = board_edge.rabbets(part, chest.joint, "face",
                                     {"edge": Rabbet(rabbet.wide, rabbet.deep)})
            done.append(one)
            rabbets[part.id] = one.cuts[0]
    done += [_bottom_rabbets(chest), _lid_rabbets(chest), _glue_lines(chest)]
    told = (*_wall_sums(chest), *_bottom_sums(chest, grooves or rabbets), *_lid_sums(chest),
            *_groove_sums(chest, grooves))
    return together([*done, Worked(sums=tuple(told))])


EDGES: tuple[Edge, ...] = ("end A", "end B", "edge", "far edge")


def _bottom_rabbets(chest: Chest) -> Worked:
    """The rabbet round the upper side of a rabbeted bottom: as wide as the walls are thick, and
    half the room more.
    """
    bottom, part = chest.choice.bottom, chest.bottom
    if bottom is None or part is None or bottom.kind != "rabbeted":
        return Worked()
    return board_edge.rabbets(part, chest.joint, "face",
                              _tongue(chest, bottom.deep, bottom.room, ZERO, ZERO, ZERO))


def _lid_rabbets(chest: Chest) -> Worked:
    lid, part = chest.choice.lid, chest.lid
    if lid is None or part is None or lid.kind != "rabbeted":
        return Worked()
    sizes = _tongue(chest, lid.deep, lid.room, lid.ends, lid.front, lid.back)
    return board_edge.rabbets(part, f"{part_id(chest.choice.name)}.lid", "back", sizes)


def _tongue(
    chest: Chest, deep: Fraction, room: Fraction, ends: Fraction, front: Fraction, back: Fraction
) -> dict[Edge, Rabbet]:
    """The rabbets that leave a tongue as large as the inside, less the room."""
    choice = chest.choice
    wide = {"end A": choice.ends + ends, "end B": choice.ends + ends,
            "edge": choice.front + front, "far edge": choice.front + back}
    return {edge: Rabbet(wide[edge] + room / 2, deep) for edge in EDGES}


def glue_lines(boards: Boards) -> tuple[Fraction, ...]:
    """Where boards are glued together, from the lower edge, in mm."""
    found, at = [], ZERO
    for board in boards[:-1]:
        at += board
        found.append(at)
    return tuple(found)


def _glue_lines(chest: Chest) -> Worked:
    marks: list[Mark] = []
    sums: list[Sum] = []
    faces: tuple[Face, Face] = ("face", "back")
    for part in chest.parts:
        boards = chest.glued.get(part.id, ())
        for number, at in enumerate(glue_lines(boards), start=1):
            role = f"glue line {number}" if len(boards) > 2 else "glue line"
            marks += [
                Mark(part.id, chest.joint, face, "pencil", role, "face edge", at,
                     ((ZERO, at), (part.length, at)))
                for face in faces
            ]
        if len(boards) > 1:
            terms = [(+1, f"board {number}", board) for number, board in enumerate(boards, 1)]
            whole = Witness(face_of(part.id, "edge"), face_of(part.id, "far edge"))
            sums.append(add("boards of the glue-up", part.id, whole, *terms))
    return Worked((), tuple(marks), tuple(sums))


# -- sums


def _wall_sums(chest: Chest) -> Iterator[Sum]:
    """Lengths of the four boards: over all, less the laps."""
    choice = chest.choice
    for pair, across, over, word in (
        ((chest.front, chest.back), (chest.left, chest.right), choice.length, "length"),
        ((chest.left, chest.right), (chest.front, chest.back), choice.depth, "depth"),
    ):
        for one in pair:
            lap = (over - one.length) / 2
            if lap:
                yield add("length", one.id,
                          Witness(face_of(across[0].id, "back"), face_of(across[1].id, "back"),
                                  plus=-2 * lap),
                          (+1, f"overall {word}", over), (-1, "both laps", 2 * lap))
        yield add(f"inside {word}", pair[0].id,
                  Witness(face_of(across[0].id, "face"), face_of(across[1].id, "face")),
                  (+1, f"overall {word}", over),
                  (-1, f"thickness of both boards across, {across[0].kind}",
                   2 * across[0].thickness))


def _bottom_sums(chest: Chest, seats: dict[str, Cut]) -> Iterator[Sum]:
    bottom, part, choice = chest.choice.bottom, chest.bottom, chest.choice
    if bottom is None or part is None:
        return
    if bottom.kind in ("groove", "rabbet"):
        for name, one, other, inside, word in (
            ("bottom length", chest.left, chest.right, choice.length - 2 * choice.ends, "length"),
            ("bottom width", chest.front, chest.back, choice.depth - 2 * choice.front, "depth"),
        ):
            floors = Witness(high_of(seats[one.id], "T"), high_of(seats[other.id], "T"),
                             plus=-bottom.room)
            held = "both grooves" if bottom.kind == "groove" else "both rabbets"
            yield add(name, part.id, floors, (+1, f"inside {word}", inside),
                      (+1, held, 2 * bottom.deep), (-1, "room to fit", bottom.room))
    elif bottom.kind == "rabbeted":
        yield from _tongue_sums(chest, part, bottom.room, "bottom")


def _tongue_sums(chest: Chest, part: Part, room: Fraction, what: str) -> Iterator[Sum]:
    """How wide each rabbet is, and the tongue that they leave."""
    choice = chest.choice
    for name, walls, inside, word in (
        ("length of the tongue", (chest.left, chest.right), choice.length - 2 * choice.ends,
         "length"),
        ("width of the tongue", (chest.front, chest.back), choice.depth - 2 * choice.front,
         "depth"),
    ):
        yield add(name, part.id,
                  Witness(face_of(walls[0].id, "face"), face_of(walls[1].id, "face"), plus=-room),
                  (+1, f"inside {word}", inside), (-1, "room to fit", room))
    lid = choice.lid if what == "lid" else None
    over = (lid.ends, lid.front, lid.back) if lid is not None else (ZERO, ZERO, ZERO)
    sides = (("end A", chest.left, over[0], "ends"), ("edge", chest.front, over[1], "front"),
             ("far edge", chest.back, over[2], "back"))
    for edge, wall, overhang, word in sides:
        more: Terms = ((+1, f"overhang at the {word}", overhang),) if overhang else ()
        if room:
            more = (*more, (+1, "half of the room to fit", room / 2))
        yield add("width of the rabbet", part.id,
                  Witness(face_of(part.id, edge), face_of(wall.id, "face"),  # type: ignore[arg-type]
                          plus=room / 2),
                  (+1, f"thickness of the {wall.kind}", wall.thickness), *more,
                  where=wall.name)


def _lid_sums(chest: Chest) -> Iterator[Sum]:
    lid, part, choice = chest.choice.lid, chest.lid, chest.choice
    if lid is None or part is None:
        return
    yield add("lid length", part.id,
              Witness(face_of(chest.left.id, "back"), face_of(chest.right.id, "back"),
                      plus=2 * lid.ends),
              (+1, "overall length", choice.length),
              *([(+1, "overhang at both ends", 2 * lid.ends)] if lid.ends else []))
    over = lid.front + lid.back
    yield add("lid width", part.id,
              Witness(face_of(chest.front.id, "back"), face_of(chest.back.id, "back"), plus=over),
              (+1, "overall depth", choice.depth),
              *([(+1, "overhang in front", lid.front)] if lid.front else []),
              *([(+1, "overhang behind", lid.back)] if lid.back else []))
    if lid.kind == "rabbeted":
        yield from _tongue_sums(chest, part, lid.room, "lid")


def _groove_sums(chest: Chest, grooves: dict[str, Cut]) -> Iterator[Sum]:
    bottom, choice = chest.choice.bottom, chest.choice
    if bottom is None or chest.bottom is None:
        return
    for part in chest.walls:
        if part.id not in grooves:
            continue
        cut, size = grooves[part.id], chest.grooves[part.id]
        yield add("far groove wall from the face edge", part.id,
                  Witness(face_of(part.id, "edge"), face_of(chest.bottom.id, "face")),
                  (+1, "groove above the lower edge", bottom.up),
                  (+1, "width of the groove", bottom.thickness))
        if not size.run[0]:
            continue
        tails = any(corner.tails.id == part.id for corner in chest.corners)
        across = choice.ends if part in (chest.front, chest.back) else choice.front
        words = "tail length" if tails else "baseline of the pins"
        held = chest.corners[0].depth if tails else across
        yield add("start of the groove from end A", part.id,
                  Witness(face_of(part.id, "end A"),
                          Surface(part.id, cut=cut.key, axis="L")),
                  (+1, words, held), (-1, "depth of the groove", bottom.deep))
        yield add("end of the groove from end A", part.id,
                  Witness(face_of(part.id, "end A"), high_of(cut, "L")),
                  (+1, "length", part.length), (-1, "start of the groove", size.run[0]))
