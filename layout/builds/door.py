"""Frame-and-panel doors: stiles, rails, muntins and panels, fitted to an opening.

A door is told from its opening's left lower corner seen from outside: x to the right, y inward, z
up. As in a frame, a stile's end A is its top, its face side outside, its face edge at the door's
outside; a rail's end A is at the left and its face edge above; a muntin's end A is above and its
face edge at the left. Panels stand in rows, the lowest is row 1, from left to right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from layout.builds import corner
from layout.builds.box_choices import Space
from layout.builds.choices import RailChoice
from layout.builds.door_choice import DoorChoice, DoorRail, Hand, MuntinChoice
from layout.builds.frame import LONGEST, StandingRail, part_id, refuse_oversize
from layout.builds.opening import Opening
from layout.builds.panel_fit import Fit, lip_for
from layout.builds.panel_fit import fit as fitted_to
from layout.builds.site import Site, site_of
from layout.builds.tenoned import LongShoulder, TenonedRail, sectioned
from layout.errors import BadPiece
from layout.joints import seat
from layout.joints.rail_end import Approach, Meeting
from layout.joints.seat import SeatSizes
from layout.joints.section import SeatInRail, Terms
from layout.kit import Kit
from layout.part import Part
from layout.wood.timber import Timbers

ZERO = Fraction(0)
Span = tuple[Fraction, Fraction]


class Bay(NamedTuple):
    """One panel of a door in its place: its row and column from the lower left, what bounds it, and
    its clear size in mm.
    """

    row: int
    column: int
    part: Part
    fit: Fit
    left: Part
    right: Part
    lower: Part
    upper: Part
    width: Fraction
    height: Fraction


class Door(NamedTuple):
    """A door worked out: where it stands, its parts, and how its seats lie.

    `x` and `z` are its reach from the opening's corner, `y` its outside face behind the opening's
    plane; `width_terms` and `height_terms` the sums of its sizes. `hand` is the side of its hinges;
    `meets` is the stile that meets the other door of a pair.
    """

    choice: DoorChoice
    name: str
    site: Site
    opening: Opening | None
    x: Span
    z: Span
    y: Fraction
    width_terms: Terms
    height_terms: Terms
    hand: Hand
    stiles: tuple[Part, Part]
    rails: tuple[TenonedRail, ...]  # from the foot to the head
    muntins: tuple[TenonedRail, ...]
    bays: tuple[Bay, ...]
    size: SeatSizes
    clears: Terms = ()
    meets: Hand | None = None

    @property
    def width(self) -> Fraction:
        """Over its stiles, in mm."""
        return self.x[1] - self.x[0]

    @property
    def height(self) -> Fraction:
        """Along its stiles, in mm."""
        return self.z[1] - self.z[0]

    @property
    def parts(self) -> tuple[Part, ...]:
        """All its parts, in the order of the cut list."""
        upright = (one.rail.part for one in self.muntins)
        level = (one.rail.part for one in reversed(self.rails))
        return (*self.stiles, *level, *upright, *(bay.part for bay in self.bays))

    @property
    def stem(self) -> str:
        """What the names of its joints begin with."""
        return part_id(self.name)

    @property
    def hinged(self) -> Part:
        """The stile that the hinges are let into."""
        return self.stiles[0 if self.hand == "left" else 1]

    @property
    def locked(self) -> Part:
        """The stile that the lock is in."""
        return self.stiles[1 if self.hand == "left" else 0]


def fit(
    choice: DoorChoice, openings: Iterable[Opening], free: Fraction, timbers: Timbers, kit: Kit
) -> tuple[Door, ...]:
    """The doors of every opening named, or of a space, which then begins `free` mm from the piece's
    left. BadPiece where there is no such opening, or no room in it.
    """
    _sensible(choice)
    if choice.space is not None:
        lead = choice.gaps.over if choice.mount == "overlay" and free else ZERO
        site = Site((free + lead, ZERO, choice.gaps.over))
        return tuple(_in(choice, choice.name, site, choice.space, None, timbers, kit))
    offered = {opening.name: opening for opening in openings}
    found: list[Door] = []
    for number, name in enumerate(choice.openings, start=1):
        opening = offered.get(name)
        if opening is None:
            listed = ", ".join(f"'{one}'" for one in offered) or "none"
            raise BadPiece(f"there is no opening '{name}'", f"the piece offers: {listed}",
                           choice.where)
        called = f"{choice.name} {number}" if len(choice.openings) > 1 else choice.name
        if choice.mount == "inset" and choice.set_in + choice.thickness > opening.depth:
            raise BadPiece(f"the {choice.name} would stand out at the back of its opening",
                           "let set_in be less", choice.where)
        clear = Space(opening.width, opening.height, opening.depth)
        found += _in(choice, called, site_of(opening), clear, opening, timbers, kit)
    return tuple(found)


def _sensible(choice: DoorChoice) -> None:
    """BadPiece for sizes that can't be meant."""
    sizes = [choice.thickness, choice.stile, choice.top.width, choice.bottom.width, choice.rebate,
             choice.horn, choice.trim, choice.set_in, *choice.gaps, choice.panel.thickness,
             choice.panel.room, choice.seat.lip, choice.seat.panel_thickness,
             *(rail.width for rail in choice.middles), *(one.width for one in choice.muntins)]
    refuse_oversize(sizes, f"the {choice.name}", choice.where)
    rails = (choice.top, choice.bottom, *choice.middles)
    if any(one.tenon.key is not None or one.tenon.projection for one in rails):
        raise BadPiece(f"tenons that stand out of the {choice.name} would keep it from its opening",
                       "leave key and projection out; left_proud says what is planed off",
                       choice.where)
    if choice.trim and not any(one.tenon.through for one in rails):
        raise BadPiece(f"no tenon of the {choice.name} goes through, so none is left proud",
                       "leave left_proud out, or write tenon = { through = true }", choice.where)
    if choice.trim >= choice.stile:
        raise BadPiece(f"the tenons of the {choice.name} are left prouder than its stile is wide",
                       "left_proud is what is planed off afterwards; a little will do",
                       choice.where)
    if choice.rebate_width >= choice.stile:
        raise BadPiece(
            f"the rebate where the {choice.name} meets, with the gap, takes all of its stile",
            "make the rebate narrower, or the stiles wider", choice.where,
        )
    if choice.space is not None and max(choice.space) > LONGEST:
        raise BadPiece(f"the space of the {choice.name} is more than 10 m one way",
                       "check the sizes and the file's unit", choice.where)


def _in(
    choice: DoorChoice, name: str, site: Site, clear: Space, opening: Opening | None,
    timbers: Timbers, kit: Kit,
) -> Iterator[Door]:
    """The door, or the pair, in one opening."""
    gaps = choice.gaps
    inset = choice.mount == "inset"
    side = gaps.sides if inset else -gaps.over
    low, high = (gaps.bottom, gaps.top) if inset else (-gaps.over, -gaps.over)
    x, z = (side, clear.width - side), (low, clear.height - high)
    y = choice.set_in if inset else -choice.thickness
    word = "at each side" if inset else "covered at each side"
    sign = -1 if inset else +1
    across: Terms = ((+1, "width of the opening", clear.width),
                     (sign, word, abs(side)), (sign, word, abs(side)))
    up: Terms = (
        (+1, "height of the opening", clear.height),
        (sign, "free above" if inset else "covered above", abs(high)),
        (sign, "free below" if inset else "covered below", abs(low)),
    )
    if not choice.pair:
        yield _stand(choice, name, site, opening, (x, z, y), (across, up), choice.hand, None,
                     timbers, kit)
        return
    middle = (x[0] + x[1]) / 2
    # half of the whole, less half of the gap; or more by half of what they lie over each other
    share = choice.rebate / 2 if choice.rebate else -gaps.between / 2
    halves = tuple((sign, f"half of {what}", value / 2) for sign, what, value in across)
    more: Terms = (
        (+1, "half of the rebate", choice.rebate / 2) if choice.rebate else
        (-1, "half of the gap between them", gaps.between / 2),
    )
    ends: tuple[tuple[Hand, Span, Hand], ...] = (
        ("left", (x[0], middle + share), "right"), ("right", (middle - share, x[1]), "left")
    )
    for hand, reach, meets in ends:
        yield _stand(choice, f"{hand} {name}", site, opening, (reach, z, y),
                     ((*halves, *more), up), hand, meets, timbers, kit)


class _Place(NamedTuple):
    """A door's frame where it stands: what places its parts."""

    choice: DoorChoice
    name: str
    site: Site
    x: Span
    z: Span
    y: Fraction

    @property
    def clear(self) -> Fraction:
        """Between the stiles, in mm."""
        return self.x[1] - self.x[0] - 2 * self.choice.stile


def _stand(
    choice: DoorChoice, name: str, site: Site, opening: Opening | None,
    reach: tuple[Span, Span, Fraction], terms: tuple[Terms, Terms], hand: Hand,
    meets: Hand | None, timbers: Timbers, kit: Kit,
) -> Door:
    place = _Place(choice, name, site, *reach)
    height = place.z[1] - place.z[0]
    if place.x[1] <= place.x[0] or height <= 0:
        raise BadPiece(f"what is free around the {name} leaves nothing of it",
                       "make the gaps less, or the opening larger", choice.where)
    if place.clear <= 0:
        raise BadPiece(f"the stiles of the {name} leave nothing between them",
                       "make them narrower, or the door wider", choice.where)
    stiles = (_stile(place, "left"), _stile(place, "right"))
    feet, heights = _rows(place)
    columns = _columns(place, len(heights))
    lip = choice.seat.lip
    if choice.open_lip:
        up = choice.panel.grain == "up"
        clears = tuple(row[0] for row in columns) if up else tuple(heights)
        lip = lip_for(choice.panel, clears, timbers)
    wanted = choice.seat._replace(lip=lip)
    choice = choice._replace(seat=wanted)
    place = place._replace(choice=choice)
    size = seat.sizes(wanted, stiles[0], ZERO)
    try:
        rails, muntins = _framed(place, stiles, feet, columns, size, kit)
    except BadPiece as error:
        solid = choice.panel.solid
        if not choice.open_lip or solid is None or lip <= solid.usual_lip:
            raise
        # the shoulders are not the cause: they clear grooves that the panel's year made so deep
        raise BadPiece(
            f"for its year the panel of the {choice.name} asks for grooves too deep for its frame",
            "ask for less cover and play, divide the opening, or use quarter-sawn wood",
            choice.panel.where,
        ) from error
    bays = tuple(_bays(place, stiles, rails, muntins, size, timbers))
    return Door(choice, name, site, opening, place.x, place.z, place.y, *terms, hand, stiles,
                rails, muntins, bays, size, meets=meets)


def _stile(place: _Place, hand: Hand) -> Part:
    choice, called = place.choice, f"{place.name} {hand} stile"
    left = hand == "left"
    spot = (place.x[0] if left else place.x[1], place.y, place.z[1])
    ways = ("down", "right" if left else "left", "inward")
    placed = place.site.placed(spot, *ways)
    return Part(part_id(called), called, "stile", place.z[1] - place.z[0], choice.stile,
                choice.thickness, placed, choice.timber, "left" if placed.mirrored else "right")


def _rows(place: _Place) -> tuple[list[tuple[Fraction, DoorRail, str]], list[Fraction]]:
    """The rails from the foot up: the foot of each above the door's foot, what it is, its name; and
    the clear heights between them.
    """
    choice, height = place.choice, place.z[1] - place.z[0]
    middles = choice.middles
    taken = choice.top.width + choice.bottom.width + sum(
        (rail.width for rail in middles), ZERO
    )
    given = sum((rail.above for rail in middles if rail.above is not None), ZERO)
    left = height - taken - given
    open_rows = 1 + sum(rail.above is None for rail in middles)
    if left <= 0:
        raise BadPiece(f"the rails of the {place.name} leave nothing between them",
                       "make them narrower, or the door higher", choice.where)
    share = left / open_rows
    rails = [(ZERO, choice.bottom, "bottom rail")]
    heights: list[Fraction] = []
    foot = choice.bottom.width
    for number, rail in enumerate(middles, start=1):
        heights.append(share if rail.above is None else rail.above)
        foot += heights[-1]
        name = f"middle rail {number}" if len(middles) > 1 else "middle rail"
        rails.append((foot, rail, name))
        foot += rail.width
    heights.append(share)
    rails.append((height - choice.top.width, choice.top, "top rail"))
    return rails, heights


def _muntin_of(choice: DoorChoice, row: int) -> MuntinChoice | None:
    """The muntins of a row: its own, or those of every row."""
    own = next((one for one in choice.muntins if one.row == row), None)
    return own or next((one for one in choice.muntins if one.row is None), None)


def _one_muntin_a_row(choice: DoorChoice) -> None:
    """BadPiece where a row is given muntins twice."""
    seen: set[int | None] = set()
    for number, muntin in enumerate(choice.muntins, start=1):
        if muntin.row in seen:
            row = "every row" if muntin.row is None else f"row {muntin.row}"
            raise BadPiece(f"muntin {number} is for {row}, which has muntins already",
                           "give each row one [[door.muntin]]; count says how many", muntin.where)
        seen.add(muntin.row)


def _columns(place: _Place, rows: int) -> list[list[Fraction]]:
    """For each row the clear widths between stiles and muntins. BadPiece where nothing is left."""
    _one_muntin_a_row(place.choice)
    for muntin in place.choice.muntins:
        if muntin.row is not None and muntin.row > rows:
            raise BadPiece(f"there is no row {muntin.row} of panels in the {place.name}",
                           f"it has {rows}; the lowest is row 1", muntin.where)
    found = []
    for row in range(1, rows + 1):
        wanted = _muntin_of(place.choice, row)
        many = 0 if wanted is None else wanted.many
        wide = ZERO if wanted is None else wanted.width
        clear = (place.clear - many * wide) / (many + 1)
        if clear <= 0 and wanted is not None:
            raise BadPiece(f"the muntins of the {place.name} leave nothing between them",
                           "make them narrower, or fewer", wanted.where)
        found.append([clear] * (many + 1))
    return found


def _rail_choice(place: _Place, rail: DoorRail | MuntinChoice, name: str) -> RailChoice:
    choice = place.choice
    return RailChoice(f"{choice.name} {name}", (), rail.width, choice.thickness, ZERO,
                      rail.tenon, timber=choice.timber, where=rail.where)


Stood = tuple[StandingRail, ...]
Lengths = dict[str, tuple[Fraction, Fraction]]


def _framed(
    place: _Place, stiles: tuple[Part, Part],
    rows: list[tuple[Fraction, DoorRail, str]], columns: list[list[Fraction]],
    size: SeatSizes, kit: Kit,
) -> tuple[tuple[TenonedRail, ...], tuple[TenonedRail, ...]]:
    """Rails and muntins with their tenons: shoulder to shoulder first, then with their lengths."""
    level, upright = _standing(place, stiles, rows, columns, {})
    cut_across = [
        corner.Sectioned(rail, sectioned(rail, _seats(place, rail, rows, columns, size),
                                         _long(place, size, rail), kit), _groove(place, size),
                         ZERO if rail in upright else place.choice.rebate_width)
        for rail in (*level, *upright)
    ]
    ends = corner.tenon_ends(cut_across)
    lengths = {name: (a.length, b.length) for name, (a, b) in ends.items()}
    level, upright = _standing(place, stiles, rows, columns, lengths)

    def tenoned(rail: StandingRail) -> TenonedRail:
        long = _long(place, size, rail)
        return TenonedRail(rail, ends[rail.part.id], long.joint if long is not None else "")

    return tuple(map(tenoned, level)), tuple(map(tenoned, upright))


def _groove(place: _Place, size: SeatSizes) -> Fraction:
    """How deep a groove a haunch would fill."""
    return size.lip if place.choice.seat.kind == "groove" else ZERO


def seat_joint(stem: str, row: int | None = None, column: int | None = None) -> str:
    """The name of a seat: the stiles' own, that of the rails on a row, that of a muntin's bay."""
    inner = "".join(f".{number}" for number in (row, column) if number is not None)
    return f"{stem}{inner}.seat"


def _row_of(rail: StandingRail) -> int:
    """The row that a muntin stands in, from its name."""
    return int(rail.part.id.rsplit("-", 2)[1])


def _long(place: _Place, size: SeatSizes, rail: StandingRail) -> LongShoulder | None:
    """What a rabbet run through the stiles, or the rails, asks of what is tenoned into them."""
    choice = place.choice.seat
    if choice.kind != "rabbet" or choice.run != "through":
        return None
    row = _row_of(rail) if rail.part.kind == "muntin" else None
    return LongShoulder(size.lip, size.plane, seat_joint(part_id(place.name), row))


def _seats(
    place: _Place, rail: StandingRail, rows: list[tuple[Fraction, DoorRail, str]],
    columns: list[list[Fraction]], size: SeatSizes,
) -> tuple[SeatInRail, ...]:
    """What of the seats a rail carries: along the edges that look at a row; a muntin along both."""
    choice = place.choice.seat
    edges: list[Literal["edge", "far edge"]] = ["edge", "far edge"]
    if rail.part.kind != "muntin":
        name = rail.choice.name
        if name.endswith("bottom rail"):
            edges = ["edge"]
        elif name.endswith("top rail"):
            edges = ["far edge"]
    runs_out = choice.run == "through"
    return tuple(
        SeatInRail(choice.kind, edge, size.plane, size.lip, choice.panel_thickness, runs_out)
        for edge in edges
    )


def _standing(
    place: _Place, stiles: tuple[Part, Part], rows: list[tuple[Fraction, DoorRail, str]],
    columns: list[list[Fraction]], lengths: Lengths,
) -> tuple[Stood, Stood]:
    """Rails from the foot up, and muntins row by row from the left."""
    level = tuple(_rail(place, stiles, row, lengths) for row in rows)
    upright = []
    for row, (lower, upper) in enumerate(pairwise(level), start=1):
        wanted = _muntin_of(place.choice, row)
        if wanted is None:
            continue
        for number in range(1, wanted.many + 1):
            at = columns[row - 1][0] * number + wanted.width * (number - 1)
            upright.append(
                _muntin(place, (lower, upper), wanted, (row, number), at, lengths)
            )
    return level, tuple(upright)


def _rail(
    place: _Place, stiles: tuple[Part, Part], row: tuple[Fraction, DoorRail, str],
    lengths: Lengths,
) -> StandingRail:
    foot, wanted, name = row
    called = f"{place.name} {name}"
    at_a, at_b = lengths.get(part_id(called), (ZERO, ZERO))
    top = place.z[0] + foot + wanted.width
    spot = (place.x[0] + place.choice.stile - at_a, place.y, top)
    part = Part(part_id(called), called, "rail", at_a + place.clear + at_b, wanted.width,
                place.choice.thickness, place.site.placed(spot, "right", "down", "inward"),
                place.choice.timber)
    long = stiles[0].length
    near: Terms
    if name == "top rail":
        near = ((+1, "rail flush with the stile's top", ZERO),)
        far: Terms = (*near, (+1, "rail width", wanted.width))
    else:
        far = ((+1, "stile length", long),)
        if foot:
            far = (*far, (-1, "rail above the stile's foot", foot))
        near = (*far, (-1, "rail width", wanted.width))
    through = Approach("T", True, ((+1, "behind the stile's face", ZERO),),
                       ((+1, "rail thickness", part.thickness),))
    ends: tuple[tuple[Literal["A", "B"], Part], ...] = (("A", stiles[0]), ("B", stiles[1]))
    meetings = [
        Meeting(end, stile, "far edge", Approach("L", True, near, far), through)
        for end, stile in ends
    ]
    between: Terms = ((+1, "width of the door", place.x[1] - place.x[0]),
                      (-1, "left stile", place.choice.stile),
                      (-1, "right stile", place.choice.stile))
    return StandingRail(part, _rail_choice(place, wanted, name), None,
                        place.site.origin[2] + top, (meetings[0], meetings[1]), between,
                        place.name)


def _muntin(
    place: _Place, between: tuple[StandingRail, StandingRail], wanted: MuntinChoice,
    number: tuple[int, int], at: Fraction, lengths: Lengths,
) -> StandingRail:
    """A muntin `at` mm from the left stile, between the rails below and above its row."""
    lower, upper = between
    called = f"{place.name} muntin {number[0]}-{number[1]}"
    at_a, at_b = lengths.get(part_id(called), (ZERO, ZERO))
    head, foot = upper.bottom, lower.top
    clear = head - foot
    z = place.site.origin[2]
    spot = (place.x[0] + place.choice.stile + at, place.y, head - z + at_a)
    part = Part(part_id(called), called, "muntin", at_a + clear + at_b, wanted.width,
                place.choice.thickness, place.site.placed(spot, "down", "right", "inward"),
                place.choice.timber)
    meetings = []
    ends: tuple[tuple[Literal["A", "B"], StandingRail, Literal["far edge", "edge"]], ...] = (
        ("A", upper, "far edge"), ("B", lower, "edge"))
    for end, rail, face in ends:
        tip = lengths.get(rail.part.id, (ZERO, ZERO))[0]
        near: Terms = ((+1, "tenon at end A", tip), (+1, "muntin from the left stile", at))
        across = Approach("L", True, near, (*near, (+1, "muntin width", wanted.width)))
        through = Approach("T", True, ((+1, "behind the rail's face", ZERO),),
                           ((+1, "muntin thickness", part.thickness),))
        meetings.append(Meeting(end, rail.part, face, across, through))
    terms: Terms = ((+1, "foot of the upper rail above the floor", head),
                    (-1, "head of the lower rail above the floor", foot))
    choice = _rail_choice(place, wanted, "muntin")
    return StandingRail(part, choice, None, head, (meetings[0], meetings[1]), terms, place.name)


def _bays(
    place: _Place, stiles: tuple[Part, Part], rails: tuple[TenonedRail, ...],
    muntins: tuple[TenonedRail, ...], size: SeatSizes, timbers: Timbers,
) -> Iterator[Bay]:
    """The panels, row by row from the left."""
    choice = place.choice
    several = len(rails) > 2 or bool(muntins)
    for row, (lower, upper) in enumerate(pairwise(one.rail for one in rails), start=1):
        uprights = [one.rail.part for one in muntins if _row_of(one.rail) == row]
        bounds = [stiles[0], *uprights, stiles[1]]
        for column, (left, right) in enumerate(pairwise(bounds), start=1):
            x = (place.site.spans(left)[0][1], place.site.spans(right)[0][0])
            low = place.site.spans(lower.part)[2][1]
            width, height = x[1] - x[0], place.site.spans(upper.part)[2][0] - low
            called = f"{place.name} {choice.panel_name}"
            if several:
                called += f" {row}-{column}" if uprights else f" {row}"
            made = fitted_to(choice.panel, width, height, size.lip, timbers, called)
            part = _panel(place, called, (x[0], low), made, size)
            yield Bay(row, column, part, made, left, right, lower.part, upper.part, width, height)


def _panel(
    place: _Place, called: str, corner_at: tuple[Fraction, Fraction], made: Fit, size: SeatSizes
) -> Part:
    """A panel in the middle of its seats."""
    make = place.choice.panel
    x = corner_at[0] - made.lip + made.wide.room / 2
    low = corner_at[1] - made.lip + made.high.room / 2
    y = place.y + size.plane - make.profile.front(make.thickness)
    kind = f"{place.choice.name} {place.choice.panel_name}"
    across, high = made.wide.size, made.high.size
    if make.grain == "up":
        placed = place.site.placed((x, y, low), "up", "right", "inward")
        long, wide = high, across
    else:
        placed = place.site.placed((x, y, low + high), "right", "down", "inward")
        long, wide = across, high
    return Part(part_id(called), called, kind, long, wide, make.thickness, placed, make.timber)
