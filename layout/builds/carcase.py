"""A carcase: two sides, a top and a bottom, and a back in a rabbet if wanted.

Face sides are inside, face edges in front. A side's end A is below; the top's and the bottom's are
at the left. Corners go round from the top left: A, B, C, D. What is inside is one opening, for
shelves, partitions and drawers.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from layout.builds.divider import sensible
from layout.builds.frame import LONGEST, part_id, refuse_oversize
from layout.builds.opening import Opening
from layout.builds.site import Site
from layout.errors import BadPiece, Where
from layout.joints import board_edge, dovetail, slide
from layout.joints import tongue as tongues
from layout.joints.board_edge import Edge, Rabbet
from layout.joints.dovetail import Corner, EdgeRabbet
from layout.joints.slide import Slide, SlideChoice
from layout.joints.spacing import DovetailChoice, Spacing, Wishes, space, tail_length
from layout.joints.tongue import TongueChoice, stands_out
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Cut, Sum, Surface, Witness, add, face_of, high_of
from layout.part import Part

ZERO = Fraction(0)


class BackChoice(NamedTuple):
    """A carcase's back: its thickness, which is the rabbet's width; how deep the rabbet is in the
    boards; how much smaller it is cut; how many boards it is made of, side by side, and the tongue
    between two of them.
    """

    thickness: Fraction
    deep: Fraction
    room: Fraction
    boards: int = 1
    timber: str = ""
    tongue: TongueChoice | None = None


class CarcaseChoice(NamedTuple):
    """A carcase by its outside sizes, in mm. Its corners are dovetailed (`joint`), or top and
    bottom are slid into the sides (`slid`), then `top_in` and `bottom_in` from their ends.
    """

    name: str
    width: Fraction
    height: Fraction
    depth: Fraction
    sides: Fraction
    top: Fraction
    bottom: Fraction
    joint: DovetailChoice
    tails: Literal["sides", "top and bottom"] = "sides"
    slid: SlideChoice | None = None
    top_in: Fraction = ZERO
    bottom_in: Fraction = ZERO
    back: BackChoice | None = None
    timber: str = ""
    where: Where = Where()


class Carcase(NamedTuple):
    """A carcase set up: parts, corners or slides, and the opening inside."""

    choice: CarcaseChoice
    left: Part
    right: Part
    top: Part
    bottom: Part
    back: tuple[Part, ...]
    corners: tuple[Corner, ...]
    slides: tuple[Slide, ...]
    opening: Opening

    @property
    def parts(self) -> tuple[Part, ...]:
        """All its parts, in the order of the cut list."""
        return (self.left, self.right, self.top, self.bottom, *self.back)

    @property
    def joint(self) -> str:
        """The name that its back's rabbets go by."""
        return f"{part_id(self.choice.name)}.back"


def stand(choice: CarcaseChoice, free: Fraction = ZERO) -> Carcase:
    """The carcase where it stands, `free` mm from the piece's left. BadPiece where it has no
    inside, or its corners don't fit.
    """
    _sensible(choice)
    site = Site((free, ZERO, ZERO))
    slid, back = choice.slid, choice.back
    lap_side, lap_top, tail = ZERO, ZERO, ZERO
    spacings: tuple[Spacing, Spacing] | None = None
    if slid is None:
        if choice.tails == "sides":
            lap_side = choice.joint.lap or ZERO
            spacings = (_spacing(choice, choice.top), _spacing(choice, choice.bottom))
        else:
            lap_top = choice.joint.lap or ZERO
            spacings = (_spacing(choice, choice.sides),) * 2
    else:
        deep = slide.depth_of(slid, choice.sides)
        tail = deep - slid.room
    inner = choice.depth - (back.thickness if slid is not None and back is not None else ZERO)
    foot = choice.bottom + (choice.bottom_in if slid is not None else ZERO)
    head = choice.height - choice.top - (choice.top_in if slid is not None else ZERO)
    clear = choice.width - 2 * choice.sides
    long = choice.width - 2 * lap_top if slid is None else clear + 2 * tail
    start = lap_top if slid is None else choice.sides - tail

    def part(office: str, size: tuple[Fraction, Fraction, Fraction],
             spot: tuple[Fraction, Fraction, Fraction], ways: tuple[str, str, str],
             hand: str = "") -> Part:
        called = f"{choice.name} {hand} {office}" if hand else f"{choice.name} {office}"
        return Part(part_id(called), called, f"{choice.name} {office}", *size,
                    site.placed(spot, *ways), choice.timber, hand)  # type: ignore[arg-type]

    high = choice.height - 2 * lap_side
    left = part("side", (high, choice.depth, choice.sides), (choice.sides, ZERO, lap_side),
                ("up", "inward", "left"), "left")
    right = part("side", (high, choice.depth, choice.sides),
                 (choice.width - choice.sides, ZERO, lap_side), ("up", "inward", "right"),
                 "right")
    top = part("top", (long, inner, choice.top), (start, ZERO, head), ("right", "inward", "up"))
    bottom = part("bottom", (long, inner, choice.bottom), (start, ZERO, foot),
                  ("right", "inward", "down"))
    corners: tuple[Corner, ...] = ()
    slides: tuple[Slide, ...] = ()
    if spacings is not None:
        corners = tuple(_corners(choice, (left, right, top, bottom), spacings))
    elif slid is not None:
        for level in (top, bottom):
            sensible(slid, level, slide.depth_of(slid, choice.sides), level.name)
        slides = tuple(_slides(choice, slid, (left, right, top, bottom)))
    opening = Opening(
        f"inside {choice.name}", "front", clear, head - foot, choice.depth, foot, head, top,
        bottom, left, right,
    )
    boards = tuple(_back(choice, site, clear, (foot, head))) if back is not None else ()
    return Carcase(choice, left, right, top, bottom, boards, corners, slides, opening)


def _spacing(choice: CarcaseChoice, pin_board: Fraction) -> Spacing:
    """Tails and pins over the depth, where the pin board is so thick (mm)."""
    tails = tail_length(choice.joint, pin_board)
    if tails <= 0:
        raise BadPiece("the lap takes the whole thickness of the pin board",
                       "make the lap less, or the board thicker", choice.joint.where)
    back = choice.back.thickness if choice.back is not None else ZERO
    return space(choice.joint, choice.depth, tails, Wishes(rabbet_far=back))


def _sensible(choice: CarcaseChoice) -> None:
    if max(choice.width, choice.height) > LONGEST:
        raise BadPiece(f"the {choice.name} is more than 10 m one way",
                       "check the sizes and the file's unit", choice.where)
    sizes = [choice.depth, choice.sides, choice.top, choice.bottom, choice.top_in,
             choice.bottom_in]
    if choice.back is not None:
        sizes += [choice.back.thickness, choice.back.deep, choice.back.room]
        if choice.back.tongue is not None:
            tongue = choice.back.tongue
            sizes += [tongue.length, tongue.room, tongue.gap, tongue.thickness or ZERO]
    refuse_oversize(sizes, f"the {choice.name}", choice.where)
    if choice.width <= 2 * choice.sides or choice.height <= (
        choice.top + choice.bottom + choice.top_in + choice.bottom_in
    ):
        raise BadPiece(f"the boards of the {choice.name} leave nothing between them",
                       "make it larger, or the boards thinner", choice.where)
    if choice.back is not None and choice.back.thickness >= choice.depth:
        raise BadPiece(f"the back of the {choice.name} takes its whole depth",
                       "make it thinner", choice.where)
    if choice.slid is not None and slide.depth_of(choice.slid, choice.sides) <= choice.slid.room:
        raise BadPiece("the sockets are no deeper than the room in them",
                       "make them deeper, or the room less", choice.slid.where)


def _corners(
    choice: CarcaseChoice,
    boards: tuple[Part, Part, Part, Part],
    spacings: tuple[Spacing, Spacing],
) -> Iterator[Corner]:
    """The four corners; `spacings` are those at the top and at the bottom."""
    left, right, top, bottom = boards
    stem = part_id(choice.name)
    rabbet = None
    if choice.back is not None:
        rabbet = EdgeRabbet("far", choice.back.thickness, choice.back.deep, f"{stem}.back")
    meet = (("A", left, "B", top, "A"), ("B", right, "B", top, "B"),
            ("C", right, "A", bottom, "B"), ("D", left, "A", bottom, "A"))
    for letter, side, side_end, level, level_end in meet:
        one: tuple[Part, str] = (side, side_end)
        other: tuple[Part, str] = (level, level_end)
        if choice.tails != "sides":
            one, other = other, one
        yield Corner(f"{stem}.{letter}", letter, one[0], one[1], other[0],  # type: ignore[arg-type]
                     other[1], spacings[level is bottom], rabbet=rabbet)  # type: ignore[arg-type]


def _slides(
    choice: CarcaseChoice, slid: SlideChoice, boards: tuple[Part, Part, Part, Part]
) -> Iterator[Slide]:
    left, right, top, bottom = boards
    deep = slide.depth_of(slid, choice.sides)
    open_end = choice.back is not None and slid.enter == "front" and not slid.stop
    for level, place in (
        (top, ((+1, "side height", choice.height), (-1, "top below the sides' ends",
                                                    choice.top_in),
               (-1, "thickness of the top", choice.top))),
        (bottom, ((+1, "bottom above the sides' ends", choice.bottom_in),)),
    ):
        yield Slide(f"{level.id}.A", level, "A", left, slid, deep, place, open_end)
        yield Slide(f"{level.id}.B", level, "B", right, slid, deep, place, open_end)


def _back(
    choice: CarcaseChoice, site: Site, clear: Fraction, inside: tuple[Fraction, Fraction]
) -> Iterator[Part]:
    """The back in its rabbet, or its boards side by side; they stand upright."""
    back = choice.back
    assert back is not None
    into = back.deep - back.room / 2
    whole = clear + 2 * into
    if whole <= 0 or inside[1] - inside[0] + 2 * into <= 0:
        raise BadPiece(f"the room leaves nothing of the back of the {choice.name}",
                       "make the room less", choice.where)
    if choice.slid is None:
        low, high = inside[0] - into, inside[1] + into
    else:  # over the back edges of top and bottom
        low, high = inside[0] - choice.bottom, inside[1] + choice.top
    tongue = back.tongue
    gap = tongue.gap if tongue is not None else ZERO
    wide = (whole - gap * (back.boards - 1)) / back.boards
    if wide <= 0:
        raise BadPiece(f"the gaps leave nothing of the boards of the {choice.name}'s back",
                       "make the gaps less, or the boards fewer", choice.where)
    for number in range(back.boards):
        more = ZERO
        if tongue is not None and number < back.boards - 1:
            more = stands_out(tongue)
        name = f"{choice.name} back" + (f" board {number + 1}" if back.boards > 1 else "")
        kind = f"{choice.name} back" + (" board" if back.boards > 1 else "")
        spot = (choice.sides - into + (wide + gap) * number, choice.depth - back.thickness, low)
        yield Part(part_id(name), name, kind, high - low, wide + more, back.thickness,
                   site.placed(spot, "up", "right", "inward"), back.timber)


# -- worked out


def work(carcase: Carcase, kit: Kit) -> Worked:
    """Corners or slides, the back's rabbets, and every size with its sum."""
    done = [dovetail.work(corner) for corner in carcase.corners]
    done += [slide.work(one) for one in carcase.slides]
    back = carcase.choice.back
    rabbets: dict[str, Cut] = {}
    if back is not None:
        walls = [carcase.left, carcase.right]
        if carcase.choice.slid is None:
            walls += [carcase.top, carcase.bottom]
        size: dict[Edge, Rabbet] = {"far edge": Rabbet(back.thickness, back.deep)}
        for part in walls:
            one = board_edge.rabbets(part, carcase.joint, "face", size)
            done.append(one)
            rabbets[part.id] = one.cuts[0]
        if back.tongue is not None:
            for number, (board, following) in enumerate(pairwise(carcase.back), start=1):
                name = f"{carcase.joint}.{number}"
                done.append(tongues.work(board, following, name, back.tongue, kit))
    return together([*done, Worked(sums=tuple(_sums(carcase, rabbets)))])


def _sums(carcase: Carcase, rabbets: dict[str, Cut]) -> Iterator[Sum]:
    choice = carcase.choice
    left, right, top, bottom = carcase.left, carcase.right, carcase.top, carcase.bottom
    for part, one, other, over, word in (
        (left, bottom, top, choice.height, "height"), (right, bottom, top, choice.height, "height"),
        (top, left, right, choice.width, "width"), (bottom, left, right, choice.width, "width"),
    ):
        laps = over - part.length
        if choice.slid is None and laps:
            yield add("length", part.id,
                      Witness(face_of(one.id, "back"), face_of(other.id, "back"), plus=-laps),
                      (+1, f"overall {word}", over), (-1, "both laps", laps))
    yield add("inside width", top.id, Witness(face_of(left.id, "face"), face_of(right.id, "face")),
              (+1, "overall width", choice.width), (-1, "both sides", 2 * choice.sides))
    if carcase.slides:
        tails = 2 * carcase.slides[0].tail
        for part in (top, bottom):
            yield add("length", part.id,
                      Witness(face_of(left.id, "face"), face_of(right.id, "face"), plus=tails),
                      (+1, "inside width", choice.width - 2 * choice.sides),
                      (+1, "both tails", tails))
    height = [(+1, "overall height", choice.height), (-1, "thickness of the top", choice.top),
              (-1, "thickness of the bottom", choice.bottom)]
    if choice.top_in and carcase.slides:
        height.append((-1, "top below the sides' ends", choice.top_in))
    if choice.bottom_in and carcase.slides:
        height.append((-1, "bottom above the sides' ends", choice.bottom_in))
    yield add("inside height", left.id,
              Witness(face_of(bottom.id, "face"), face_of(top.id, "face")), *height)
    yield from _back_sums(carcase, rabbets)


def _back_sums(carcase: Carcase, rabbets: dict[str, Cut]) -> Iterator[Sum]:
    choice, back = carcase.choice, carcase.choice.back
    if back is None:
        return
    first, last = carcase.back[0], carcase.back[-1]
    floors = Witness(high_of(rabbets[carcase.left.id], "T"), high_of(rabbets[carcase.right.id],
                                                                     "T"), plus=-back.room)
    yield add("back, side to side", first.id, floors,
              (+1, "inside width", choice.width - 2 * choice.sides),
              (+1, "both rabbets", 2 * back.deep), (-1, "room to fit", back.room))
    if back.boards > 1:
        whole = choice.width - 2 * choice.sides + 2 * back.deep - back.room
        many = back.boards
        terms = [(+1, f"1/{many} of the back, side to side", whole / many)]
        tongue = back.tongue
        if tongue is not None and tongue.gap:
            gaps = "the gap" if many == 2 else f"{many - 1} gaps"
            terms.append((-1, f"1/{many} of {gaps}", tongue.gap * (many - 1) / many))
        cover = sum((sign * value for sign, _, value in terms), ZERO)
        pitch = cover + (tongue.gap if tongue is not None else ZERO)
        shown = Witness(face_of(first.id, "edge"), face_of(last.id, "edge"),
                        plus=cover - pitch * (many - 1))
        yield add("board between its shoulders", first.id, shown, *terms)
        if tongue is not None:
            more = [(+1, "board between its shoulders", cover),
                    (+1, "length of the tongue", tongue.length)]
            if tongue.gap:
                more.append((+1, "gap between the boards", tongue.gap))
            yield add("width of a board", first.id,
                      Witness(face_of(first.id, "edge"), face_of(last.id, "edge"),
                              plus=cover + stands_out(tongue) - pitch * (many - 1)), *more)
    if choice.slid is None:
        foots = Witness(Surface(carcase.bottom.id, cut=rabbets[carcase.bottom.id].key, axis="T",
                                high=True),
                        high_of(rabbets[carcase.top.id], "T"), plus=-back.room)
        inside = carcase.opening.height
        yield add("back height", first.id, foots, (+1, "inside height", inside),
                  (+1, "both rabbets", 2 * back.deep), (-1, "room to fit", back.room))
    else:
        yield add("back height", first.id,
                  Witness(face_of(carcase.bottom.id, "back"), face_of(carcase.top.id, "back")),
                  (+1, "inside height", carcase.opening.height),
                  (+1, "thickness of the top", choice.top),
                  (+1, "thickness of the bottom", choice.bottom))
        for part in (carcase.top, carcase.bottom):
            yield add("width", part.id,
                      Witness(face_of(carcase.left.id, "edge"), face_of(first.id, "face")),
                      (+1, "overall depth", choice.depth),
                      (-1, "thickness of the back", back.thickness))
