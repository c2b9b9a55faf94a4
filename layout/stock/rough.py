"""The rough list: for every row of the cut list the boards to saw out, a little larger all round.

Allowances are a school stock bill's, 1/4 in on the width and 1/2 in on the length (Ira S. Griffith,
Correlated Courses in Woodwork and Mechanical Drawing, 1912, ch. IV sec. 7); thickness goes up to
what is sold. Parts too short to plane safely stay joined in one blank; parts thicker than any board
are laminated, wider ones glued up. All lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from layout.joints.strips import Strips
from layout.piece import Piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.rack import NOTHING, RackChoice
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
    prices, and what the money is called; the boards that are there.
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


class Rough(NamedTuple):
    """Boards of one rough size, for one row of the cut list: how many, how thick they are sold
    (None where no board is thick enough), how wide and long; how many parts each holds end to end
    (`gang`), how many boards side by side (`beside`) and one on another (`layers`) make a part.
    `strips`: staves of a top, which has a page of its own for its glue-up; how thick and wide each
    strip is when it is glued in.
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
    """Boards for every row of solid wood, in the order of the cut list; loose stuff (pegs, wedges,
    screws) comes out of offcuts and has none.
    """
    found: list[Rough] = []
    for row in cut_list(piece):
        if not row.parts or is_sheet(row.timber) or row.timber == "glass":
            continue
        strips = list(_strips(piece, row, choice))
        found += strips or [sawn(piece, row, choice)]
    return tuple(found)


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
        price = next((one for one in choice.prices if one.timber == timber), None)
        cost = None
        if price is not None:
            cost = price.amount * more[0 if price.per == "board foot" else 1]
        found.append(Timber(timber, sold, feet, volume, more, cost))
    return tuple(found)


def _sold_for(thickness: Fraction, choice: StockChoice) -> Sold | None:
    """The thinnest board that comes out so thick; None where none does."""
    return next((one for one in choice.sold if one.dressed >= thickness), None)


def sawn(piece: Piece, row: Row, choice: StockChoice) -> Rough:
    """The boards of one row: side by side, one on another, end to end, as its sizes ask. A part is
    sawn out of the thinnest board it can be, so the smaller of its sizes is the board's thickness.
    """
    thick, wide = sorted((row.thickness, row.width))
    glued = _glued(piece, row)
    beside = glued or -int(-wide // (choice.widest - choice.rack.edge - choice.width))
    layers, sold = 1, _sold_for(thick, choice)
    if sold is None:
        # no board is thick enough: as few layers as will do
        layers = -int(-thick // choice.sold[-1].dressed)
        sold = _sold_for(thick / layers, choice)
    width = wide / beside + choice.width
    gang, length = ganged(row.cut_length, row.count, choice)
    # a short part's boards stay joined end to end: as many blanks as hold them all
    blanks = -(-row.count // gang)
    return Rough(row, blanks * beside * layers, sold, width, length, gang, beside, layers)


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


def _glued(piece: Piece, row: Row) -> int:
    """How many boards a part is glued up of, where its maker says so; else 0."""
    for chest in piece.chests:
        boards = chest.glued.get(row.parts[0], ())
        if len(boards) > 1:
            return len(boards)
    return 0


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
