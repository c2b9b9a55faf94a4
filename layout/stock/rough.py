"""The rough list: for every row of the cut list the boards to saw out, a little larger all round.

Allowances are a school stock bill's, 1/4 in on the width and 1/2 in on the length (Ira S. Griffith,
Correlated Courses in Woodwork and Mechanical Drawing, 1912, ch. IV sec. 7); thickness goes up to
what is sold. Parts too short to plane safely stay joined in one blank; parts thicker than any board
are laminated, wider ones glued up. All lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadRequest
from layout.joints.strips import Strips
from layout.part import Part
from layout.piece import Piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.rack import NOTHING, Match, RackChoice, same_timber
from layout.stock.sold import CUBIC_METRE, Sold, board_feet
from layout.wood.species import is_sheet

ZERO = Fraction(0)


class Price(NamedTuple):
    """What a timber costs, in the maker's money, for a board foot or for a cubic metre."""

    timber: str
    amount: Fraction
    per: str


class StockChoice(NamedTuple):
    """What is added to finished sizes, in mm: to a width, to a length; the saw's cut; the shortest
    blank that machines take, the widest board that is sold; the thicknesses sold; waste as a share;
    prices, and what the money is called; the boards that are there. `step`: widths and lengths are
    made up to whole ones of it; `flat`: left on the thickness of boards that are glued up side by
    side, if the board has so much.
    """

    width: Fraction
    length: Fraction
    kerf: Fraction
    shortest: Fraction
    widest: Fraction
    sold: tuple[Sold, ...]
    waste: Fraction
    prices: tuple[Price, ...] = ()
    money: str = ""
    rack: RackChoice = NOTHING
    step: Fraction = ZERO
    flat: Fraction = ZERO

    def up(self, size: Fraction) -> Fraction:
        """A size made up to whole steps."""
        return -(-size // self.step) * self.step if self.step else size


class Rough(NamedTuple):
    """Boards of one rough size, for one row of the cut list: how many, how thick they are sold
    (None where no board is thick enough), how wide and long; how many parts each holds end to end
    (`gang`), how many boards side by side (`beside`) and one on another (`layers`) make a part.
    `strips`: staves of a top, which has a page of its own for its glue-up; how thick and wide each
    strip is when it is glued in. `left`: what stays on the thickness until it is glued up.
    `match`: the number of the match that keeps it on one board; `holds`: the single pieces of a
    match that is sawn as one blank, in their order, and `how` they lie in it.
    """

    row: Row
    many: int
    sold: Sold | None
    width: Fraction
    length: Fraction
    gang: int = 1
    beside: int = 1
    layers: int = 1
    strips: tuple[Fraction, Fraction] | None = None
    left: Fraction = ZERO
    match: int | None = None
    holds: tuple[Rough, ...] = ()
    how: str = ""

    @property
    def feet(self) -> Fraction:
        """Board feet of all of them."""
        return ZERO if self.sold is None else self.many * board_feet(
            self.sold.rough, self.width, self.length)

    @property
    def volume(self) -> Fraction:
        """Cubic metres of all of them."""
        if self.sold is None:
            return ZERO
        return self.many * self.sold.rough * self.width * self.length / CUBIC_METRE


class Timber(NamedTuple):
    """One timber in one thickness: board feet and cubic metres, and both with the waste added; what
    that costs, None where no price was given.
    """

    timber: str
    sold: Sold
    feet: Fraction
    volume: Fraction
    with_waste: tuple[Fraction, Fraction]
    cost: Fraction | None


class Sheets(NamedTuple):
    """Sheets of one timber and thickness: how many pieces, and their area in square metres."""

    timber: str
    thickness: Fraction
    many: int
    area: Fraction


def rough_list(piece: Piece, choice: StockChoice) -> tuple[Rough, ...]:
    """Boards for every row of solid wood, in the order of the cut list, what is matched after its
    row; loose stuff (pegs, wedges, screws) comes out of offcuts and has none. BadRequest where a
    match can't be.
    """
    matches = matched_parts(piece, choice.rack.matches)
    taken = {part.id for parts in matches for part in parts}
    found: list[tuple[int, Rough]] = []
    rows = [row for row in cut_list(piece) if row.parts]
    for at, row in enumerate(rows):
        if is_sheet(row.timber) or row.timber == "glass":
            continue
        strips = list(_strips(piece, row, choice))
        free = tuple(part for part in row.parts if part not in taken)
        if strips:
            found += [(at, one) for one in strips]
        elif free:
            found += [(at, one) for one in sawn(piece, with_parts(row, free), choice)]
    for number, (match, parts) in enumerate(zip(choice.rack.matches, matches, strict=True)):
        first = next(at for at, row in enumerate(rows) if parts[0].id in row.parts)
        if not is_sheet(rows[first].timber):
            found += [(first, one) for one in _matched(piece, rows, choice, match, parts, number)]
    return tuple(one for _, one in sorted(found, key=lambda pair: pair[0]))


def with_parts(row: Row, parts: tuple[str, ...]) -> Row:
    """A row of the cut list for some of its parts only."""
    return row if parts == row.parts else replace(row, parts=parts, count=len(parts))


def matched_parts(piece: Piece, matches: Sequence[Match]) -> tuple[tuple[Part, ...], ...]:
    """The parts that each match names, in its order. BadRequest where there is no such part, or it
    is matched twice.
    """
    found: list[tuple[Part, ...]] = []
    taken: set[str] = set()
    for match in matches:
        parts = []
        for name in match.parts:
            part = next((one for one in piece.parts if name in (one.id, one.name)), None)
            if part is None:
                raise BadRequest(f"there is no part '{name}' to match",
                                 f"parts are {_listed(piece)}", match.where)
            if part.id in taken:
                raise BadRequest(f"the {part.name} is matched twice", "match it once", match.where)
            taken.add(part.id)
            parts.append(part)
        found.append(tuple(parts))
    return tuple(found)


def _listed(piece: Piece, most: int = 12) -> str:
    names = [one.name for one in piece.parts]
    return ", ".join(names[:most]) + (", ..." if len(names) > most else "")


def _matched(
    piece: Piece, rows: Sequence[Row], choice: StockChoice, match: Match, parts: Sequence[Part],
    number: int,
) -> Iterator[Rough]:
    """The boards of one match: of every row by itself, or one blank that holds all its parts."""
    stripped = {slab.id: laid.top.choice.name for laid in piece.tops
                if laid.top.strips is not None for slab in laid.top.slabs}
    top = next((stripped[part.id] for part in parts if part.id in stripped), None)
    if top is not None:
        raise BadRequest(f"the {top} is glued up of strips that have boards of their own",
                         "leave it out of the match", match.where)
    if match.how == "one board":
        own = [with_parts(row, held) for row in rows
               if (held := tuple(part.id for part in parts if part.id in row.parts))]
        found = [one for row in own for one in sawn(piece, row, choice)]
    else:
        # no part is too short by itself: the one blank is as long as machines ask
        short = choice._replace(shortest=min(part.length for part in parts))
        alone = [with_parts(row, (part.id,)) for part in parts for row in rows
                 if part.id in row.parts]
        found = [one for row in alone for one in sawn(piece, row, short)]
    if len({(one.row.timber, one.sold) for one in found}) > 1:
        raise BadRequest("matched parts are of different timbers or thicknesses",
                         "match parts that one board can give", match.where)
    if match.how == "one board":
        yield from (one._replace(match=number) for one in found)
        return
    glued = next((one.row.name for one in found if one.beside * one.layers > 1), None)
    if glued is not None:
        raise BadRequest(f"the {glued} is glued up of several boards",
                         'it can only be matched as how = "one board"', match.where)
    yield _as_one(choice, match.how, found, number)


def _as_one(choice: StockChoice, how: str, found: Sequence[Rough], number: int) -> Rough:
    """One blank that holds all of a match's parts, a saw's cut between them."""
    between = (len(found) - 1) * choice.kerf
    if how == "end to end":
        length = sum((one.length for one in found), ZERO) + between
        width = max(one.width for one in found)
    else:
        length = max(one.length for one in found)
        width = sum((one.width for one in found), ZERO) + between
    names = dict.fromkeys(one.row.name for one in found)
    letters = dict.fromkeys(one.row.letter for one in found)
    row = replace(found[0].row, name=", ".join(names), letter=" ".join(letters), count=len(found),
                  parts=tuple(part for one in found for part in one.row.parts))
    return Rough(row, 1, found[0].sold, width, max(length, choice.shortest), match=number,
                 holds=tuple(found), how=how)


def sheets(piece: Piece) -> tuple[Sheets, ...]:
    """What sheets the piece takes, by timber and thickness."""
    found: dict[tuple[str, Fraction], list[Row]] = {}
    for row in cut_list(piece):
        if row.parts and is_sheet(row.timber):
            found.setdefault((row.timber, row.thickness), []).append(row)
    return tuple(
        Sheets(timber, thick, sum(row.count for row in rows),
               sum((row.count * row.width * row.length for row in rows), ZERO) / 1_000_000)
        for (timber, thick), rows in found.items()
    )


def totals(rough: tuple[Rough, ...], choice: StockChoice) -> tuple[Timber, ...]:
    """What to buy of each timber in each thickness, in the order they first come."""
    groups: dict[tuple[str, Fraction], list[Rough]] = {}
    for one in rough:
        if one.sold is not None:
            groups.setdefault((one.row.timber, one.sold.rough), []).append(one)
    found = []
    for (timber, _), same in groups.items():
        sold = same[0].sold
        assert sold is not None
        feet = sum((one.feet for one in same), ZERO)
        volume = sum((one.volume for one in same), ZERO)
        more = (feet * (1 + choice.waste), volume * (1 + choice.waste))
        price = next((one for one in choice.prices if same_timber(one.timber, timber)), None)
        cost = None
        if price is not None:
            cost = price.amount * more[0 if price.per == "board foot" else 1]
        found.append(Timber(timber, sold, feet, volume, more, cost))
    return tuple(found)


def _sold_for(thickness: Fraction, choice: StockChoice) -> Sold | None:
    """The thinnest board that comes out so thick; None where none does."""
    return next((one for one in choice.sold if one.dressed >= thickness), None)


def sawn(piece: Piece, row: Row, choice: StockChoice) -> tuple[Rough, ...]:
    """The boards of one row: side by side, one on another, end to end, as its sizes ask; those of
    different widths apart. A part is sawn out of the thinnest board it can be, so the smaller of
    its sizes is the board's thickness.
    """
    thick, wide = sorted((row.thickness, row.width))
    glued = _glued(piece, row)
    usable = choice.widest - choice.rack.edge - choice.width
    beside = len(glued) or -int(-wide // usable)
    layers, sold = 1, _sold_for(thick, choice)
    if sold is None:
        # no board is thick enough: as few layers as will do
        layers = -int(-thick // choice.sold[-1].dressed)
        sold = _sold_for(thick / layers, choice)
    left = ZERO
    if beside > 1 and layers == 1 and sold is not None:
        left = min(choice.flat, sold.dressed - thick)
    gang, length = ganged(row.cut_length, row.count, choice)
    # a short part's boards stay joined end to end: as many blanks as hold them all
    blanks = -(-row.count // gang)
    widths = Counter(glued or (wide / beside,) * beside)
    return tuple(
        Rough(row, blanks * many * layers, sold, choice.up(width + choice.width), choice.up(length),
              gang, beside, layers, left=left)
        for width, many in widths.items())


def ganged(length: Fraction, count: int, choice: StockChoice) -> tuple[int, Fraction]:
    """How many parts stay joined end to end until they are planed, and how long their blank is:
    one, where it is long enough by itself; as many as make it long enough, where there are so many;
    and never shorter than the machines take.
    """
    each = length + choice.length
    if each >= choice.shortest:
        return 1, each
    needed = -int(-(choice.shortest + choice.kerf) // (each + choice.kerf))
    gang = max(min(needed, count), 1)
    whole = gang * each + (gang - 1) * choice.kerf
    return gang, max(whole, choice.shortest)


def _glued(piece: Piece, row: Row) -> tuple[Fraction, ...]:
    """How wide the boards are that a part is glued up of, where its maker says so; else none."""
    for chest in piece.chests:
        boards = chest.glued.get(row.parts[0], ())
        if len(boards) > 1:
            return tuple(boards)
    return ()


def _strips(piece: Piece, row: Row, choice: StockChoice) -> Iterator[Rough]:
    """The staves of a top, where it is told what boards it is glued up of."""
    for laid in piece.tops:
        top = laid.top
        for slab in top.slabs:
            if top.strips is not None and slab.id in row.parts:
                own = replace(row, parts=(slab.id,), count=1)
                front = slab.placement.origin[1] - top.origin[1]
                yield from _staves(own, top.strips, (front, front + slab.width), choice)


def _staves(
    row: Row, strips: Strips, span: tuple[Fraction, Fraction], choice: StockChoice
) -> Iterator[Rough]:
    """The staves of the strips that lie within a span of the top's width, like ones together."""
    stock = strips.choice
    sold = Sold(_called(stock.thickness, choice), stock.thickness,
                stock.thickness - stock.spare.milling)
    kinds: dict[tuple[Fraction, Fraction], int] = {}
    for strip in strips.strips:
        if span[0] <= strip.low < span[1]:
            for stave in strip.staves:
                size = (strip.width, stave)
                kinds[size] = kinds.get(size, 0) + 1
    for (width, length), many in kinds.items():
        sides = (strips.milled, width) if stock.lay == "flat" else (width, strips.milled)
        yield Rough(row, many, sold, sides[1] + stock.spare.edge, length, strips=sides)


def _called(thickness: Fraction, choice: StockChoice) -> str:
    """What a thickness that the maker gave is called: as it is sold, or nothing more than a size.
    """
    return next((one.name for one in choice.sold if one.rough == thickness), "")
