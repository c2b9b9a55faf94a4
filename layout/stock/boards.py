"""The board plan: every blank on a board that is there or can be bought, and how it is sawn.

Boards to buy count more than all of the rack, so that the rack goes first as far as can be found.
The search works in whole units (layout/cutting); where sizes have no common unit that is coarse
enough, blanks are sawn up to a unit larger than they are listed. All lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, gcd, lcm
from typing import TYPE_CHECKING, NamedTuple

from layout.piece import Piece
from layout.stock.blanks import Blank, Kind, blanks
from layout.stock.rack import Board, RackChoice, Size, same_timber
from layout.stock.rough import StockChoice
from layout.stock.sawing import Cut, Placed, Rect, Section, Strip, cuts, transposed
from layout.stock.sold import INCH

if TYPE_CHECKING:
    from layout.cutting.job import Block, Job, Pattern
    from layout.cutting.job import Section as Found

ZERO = Fraction(0)
# The longest board is at most so many units long, for the search to stay quick.
MOST_UNITS = 5000
SQUARE_CM = 100


class Sawn(NamedTuple):
    """One board of the plan: which, whether it is to be bought, its sections and cuts; whether
    something is made of its rest too (`shared`).
    """

    board: Board
    bought: bool
    sections: tuple[Section, ...]
    cuts: tuple[Cut, ...]
    turned: bool = False
    shared: bool = False

    @property
    def area(self) -> Fraction:
        """Of the whole board, in square mm."""
        return self.board.length * self.board.width

    @property
    def placed(self) -> Iterator[Placed]:
        """Every blank on it."""
        for section in self.sections:
            for strip in section.strips:
                yield from strip.placed


class Missing(NamedTuple):
    """Blanks that no board can give: which, how many, and the least board that would do."""

    blank: int
    many: int
    width: Fraction
    length: Fraction


class KindPlan(NamedTuple):
    """The plan of one timber in one thickness. `least`: the bound, as a share of what the plan
    costs; `idle`: boards of the rack that it does without; `kerf`: what it leaves for the saw.
    """

    kind: Kind
    blanks: tuple[Blank, ...]
    boards: tuple[Sawn, ...]
    missing: tuple[Missing, ...]
    least: Fraction
    idle: tuple[Board, ...]
    kerf: Fraction


class BoardPlan(NamedTuple):
    """The plans of a piece, and boards of the rack that nothing in it is made of."""

    kinds: tuple[KindPlan, ...]
    unused: tuple[Board, ...]


class _Bed(NamedTuple):
    """Boards of one kind that are alike but for their names, as the search sees them: the boards (a
    size to buy is one, and there is no end of it), whether they are bought, what of each is usable.
    """

    alike: tuple[Board, ...]
    bought: bool
    usable: Rect

    @property
    def board(self) -> Board:
        """Any of them."""
        return self.alike[0]


def board_plan(piece: Piece, stock: StockChoice) -> BoardPlan:
    """Every blank of the piece on a board. BadRequest where a match can't be."""
    rack = list(stock.rack.boards)
    wanted = blanks(piece, stock)
    found: dict[Kind, KindPlan] = {}
    served: set[int] = set()
    # from thick to thin: a thick board can stand in for a thin one, and not the other way round
    for kind, of_kind in sorted(wanted, key=lambda pair: -pair[0].thickness):
        fitting = [at for at, one in enumerate(rack)
                   if serves(one, kind, of_kind, stock)]
        served |= {id(rack[at]) for at in fitting}
        plan = _planned(piece, kind, of_kind, [rack[at] for at in fitting], stock)
        found[kind] = plan
        sawn = [one for one in plan.boards if not one.bought]
        rack = [one for one in rack if not any(one is other.board for other in sawn)]
        if not kind.sheet:
            rack += [one for each in sawn for one in _rest(each, plan.kerf)]
    plans = _idle_once([found[kind] for kind, _ in wanted])
    return BoardPlan(plans, tuple(one for one in stock.rack.boards if id(one) not in served))


def _rest(sawn: Sawn, kerf: Fraction) -> Iterator[Board]:
    """What is left of a board behind its last section, as a board of its own for thinner parts."""
    board = sawn.board
    starts = max(section.rect.end for section in sawn.sections) + kerf
    if starts >= board.length:
        return
    outs = tuple(
        one._replace(start=max(one.start - starts, ZERO), end=one.end - starts)
        for one in board.keep_out if one.end > starts)
    yield board._replace(name=f"rest of {board.name}", length=board.length - starts,
                         keep_out=outs, rest_of=board.name, starts=starts)


def _idle_once(plans: Sequence[KindPlan]) -> tuple[KindPlan, ...]:
    """The plans, each board that none of them needs told once, and of rests those that are used
    told where they come from.
    """
    told = {id(one.board) for plan in plans for one in plan.boards}
    used = {one.board.rest_of for plan in plans for one in plan.boards}
    found = []
    for plan in plans:
        idle = tuple(one for one in plan.idle if id(one) not in told and not one.rest_of)
        told |= {id(one) for one in idle}
        boards = tuple(one._replace(shared=not one.bought and one.board.name in used)
                       for one in plan.boards)
        found.append(plan._replace(idle=idle, boards=boards))
    return tuple(found)


def serves(board: Board, kind: Kind, of_kind: Sequence[Blank], stock: StockChoice) -> bool:
    """Can blanks of a kind be sawn out of this board: it is of the timber, as thick as the thickest
    of them and what planing takes, and no more than so much thicker than is asked for. A planed
    board must only be as thick as they are.
    """
    if not same_timber(board.timber, kind.timber):
        return False
    if kind.sheet:
        return board.thickness == kind.thickness
    enough = max(one.thickness for one in of_kind)
    if not board.planed:
        enough += planing(kind, stock)
    return kind.sold and enough <= board.thickness <= kind.thickness + stock.rack.thicker


def planing(kind: Kind, stock: StockChoice) -> Fraction:
    """What planing both sides takes off a board of a kind."""
    same = [one for one in stock.sold if one.rough == kind.thickness] or stock.sold
    return min(one.rough - one.dressed for one in same)


def _planned(
    piece: Piece, kind: Kind, of_kind: tuple[Blank, ...], there: Sequence[Board], stock: StockChoice
) -> KindPlan:
    """The plan of one kind."""
    rack = stock.rack
    beds = [_Bed(alike, False, _usable(alike[0], rack, kind)) for alike in _alike(there)]
    beds += [_Bed((one,), True, _usable(one, rack, kind))
             for one in _to_buy(kind, of_kind, stock, piece.rule.unit)]
    beds = [one for one in beds if one.usable.end > one.usable.start
            and one.usable.high > one.usable.low]
    if not kind.sold or not beds:
        return KindPlan(kind, of_kind, (), tuple(
            _missing(at, one.many, one, kind, rack) for at, one in enumerate(of_kind)),
            Fraction(1), tuple(there), stock.kerf)
    from layout.cutting.search import plan

    unit = _unit(piece, beds, of_kind, stock)
    job = _job(beds, of_kind, stock, unit, kind)
    answer = plan(job)
    boards = tuple(_sawn(job, unit, answer.patterns, beds))
    taken = {id(one.board) for one in boards}
    missing = tuple(_missing(at, many, of_kind[at], kind, rack)
                    for at, many in enumerate(answer.missing) if many)
    least = Fraction(ceil(answer.bound), answer.cost) if answer.cost else Fraction(1)
    return KindPlan(kind, of_kind, boards, missing, min(least, Fraction(1)), tuple(
        one for one in there if id(one) not in taken),
        job.kerf * unit)


def _alike(boards: Sequence[Board]) -> Iterator[tuple[Board, ...]]:
    """Boards that differ in nothing but their names, together."""
    found: dict[Board, list[Board]] = {}
    for one in boards:
        found.setdefault(one._replace(name=""), []).append(one)
    for alike in found.values():
        yield tuple(alike)


def _to_buy(
    kind: Kind, of_kind: Sequence[Blank], stock: StockChoice, unit: str
) -> Iterator[Board]:
    """The sizes that can be bought of a kind: the maker's own, else the usual one, and larger where
    a blank asks for it.
    """
    if not kind.sold:
        return
    rack = stock.rack
    own = [one for one in rack.sizes if _sold_as(one, kind)]
    thickness = kind.thickness
    if not own:
        width, length = rack.sheet if kind.sheet else (stock.widest, rack.length)
        longest = max(one.length for one in of_kind) + 2 * rack.ends
        if not kind.sheet:
            length = max(length, _handy(longest, unit))
            width = max(width, _handy(max(one.width for one in of_kind) + rack.edge, unit))
        own = [Size(None, None, width, length)]
    for one in own:
        yield Board("", kind.timber, thickness, one.width, one.length, False, one.grain)


def _handy(size: Fraction, unit: str) -> Fraction:
    """A size to ask for: made up to whole inches or centimetres."""
    step = INCH if unit == "in" else Fraction(10)
    return -(-size // step) * step


def _sold_as(size: Size, kind: Kind) -> bool:
    if size.timber is not None and not same_timber(size.timber, kind.timber):
        return False
    if size.thickness is None:
        return size.timber is not None or not kind.sheet
    return size.thickness == kind.thickness


def _usable(board: Board, rack: RackChoice, kind: Kind) -> Rect:
    """What of a board is left when its ends are cut off and its edge is jointed; all of a sheet."""
    if kind.sheet:
        return Rect(ZERO, board.length, ZERO, board.width)
    return Rect(rack.ends, board.length - rack.ends, rack.edge, board.width)


def _missing(at: int, many: int, blank: Blank, kind: Kind, rack: RackChoice) -> Missing:
    """What to ask for where no board was enough."""
    more = (ZERO, ZERO) if kind.sheet else (rack.edge, 2 * rack.ends)
    return Missing(at, many, blank.width + more[0], blank.length + more[1])


def _unit(
    piece: Piece, beds: Sequence[_Bed], of_kind: Sequence[Blank], stock: StockChoice
) -> Fraction:
    """The largest unit in which every size is whole; where that is too fine, 1/4 mm or 1/64 in,
    doubled until it is coarse enough.
    """
    sizes = [stock.kerf]
    for bed in beds:
        sizes += [bed.usable.start, bed.usable.end, bed.usable.low, bed.usable.high]
    for blank in of_kind:
        sizes += [blank.length, blank.width]
    below = lcm(*(one.denominator for one in sizes))
    unit = Fraction(gcd(*(int(one * below) for one in sizes)), below)
    longest = max(max(bed.usable.end, bed.usable.high) for bed in beds)
    if longest <= MOST_UNITS * unit:
        return unit
    coarse = INCH / 64 if piece.rule.unit == "in" else Fraction(1, 4)
    while longest > MOST_UNITS * coarse:
        coarse *= 2
    return coarse


def _job(
    beds: Sequence[_Bed], of_kind: Sequence[Blank], stock: StockChoice, unit: Fraction, kind: Kind
) -> Job:
    """The same in whole units: blanks no smaller, boards no larger than they are."""
    from layout.cutting.job import Bed, Item, Job

    kerf = ceil(stock.kerf / unit)
    areas = [_counts(bed.board, kind) for bed in beds]
    rack = sum(area * len(bed.alike)
               for bed, area in zip(beds, areas, strict=True) if not bed.bought)
    dear = 1 + rack // min(
        (area for bed, area in zip(beds, areas, strict=True) if bed.bought), default=1)
    made = tuple(
        Bed(floor((bed.usable.end - bed.usable.start) / unit),
            floor((bed.usable.high - bed.usable.low) / unit),
            area * dear if bed.bought else area, None if bed.bought else len(bed.alike),
            tuple(_blocks(bed, unit, kerf)), kind.sheet, not bed.board.grain)
        for bed, area in zip(beds, areas, strict=True))
    items = tuple(Item(ceil(one.length / unit), ceil(one.width / unit), one.many)
                  for one in of_kind)
    matched: dict[int, list[int]] = {}
    for at, one in enumerate(of_kind):
        if one.match is not None:
            matched.setdefault(one.match, []).append(at)
    together = tuple(tuple(group) for group in matched.values()
                     if sum(of_kind[at].many for at in group) > 1)
    return Job(made, items, kerf, together)


def _counts(board: Board, kind: Kind) -> int:
    """What a board counts for: its area in square cm, and more where it is thicker than asked, so
    that it is kept for what needs it.
    """
    thick = max(board.thickness / kind.thickness, Fraction(1))
    return ceil(board.length * board.width * thick / SQUARE_CM)


def _blocks(bed: _Bed, unit: Fraction, kerf: int) -> Iterator[Block]:
    """What must be kept out of, in units, and no narrower than the saw's cut."""
    from layout.cutting.job import Block

    usable = bed.usable
    long = floor((usable.end - usable.start) / unit)
    wide = floor((usable.high - usable.low) / unit)
    for one in bed.board.keep_out:
        start = max(floor((one.start - usable.start) / unit), 0)
        end = min(max(ceil((one.end - usable.start) / unit), start + kerf), long)
        low = max(floor((one.low - usable.low) / unit), 0)
        high = min(max(ceil((one.high - usable.low) / unit), low + kerf), wide)
        if start < end and low < high:
            yield Block(start, end, low, high)


def _sawn(
    job: Job, unit: Fraction, patterns: Sequence[Pattern], beds: Sequence[_Bed]
) -> Iterator[Sawn]:
    """Every pattern on its board, in mm, with its cuts."""
    done = [0] * len(job.items)
    waiting = [list(bed.alike) for bed in beds]
    for one in sorted(patterns, key=lambda each: each.bed):
        bed = beds[one.bed]
        board = bed.board if bed.bought else waiting[one.bed].pop(0)
        whole = Rect(ZERO, bed.board.length, ZERO, bed.board.width)
        usable = bed.usable
        if one.turned:
            whole, usable = whole.turned, usable.turned
        sections = tuple(_section(each, usable, unit, job.kerf, done) for each in one.sections)
        steps = cuts(whole, sections, job.kerf * unit, usable.low)
        if one.turned:
            sections = tuple(_turned(each) for each in sections)
            steps = tuple(transposed(each) for each in steps)
        yield Sawn(board, bed.bought, sections, steps, one.turned)


def _section(
    found: Found, usable: Rect, unit: Fraction, kerf: int, done: list[int]
) -> Section:
    """A section of a pattern in mm; counts what is placed."""
    start = usable.start + found.start * unit
    strips = []
    for one in sorted(found.strips, key=lambda each: each.low):
        low = usable.low + one.low * unit
        high = low + one.width * unit
        placed = []
        for copy in range(one.copies):
            here = start + copy * (one.length + kerf) * unit
            placed.append(Placed(one.item, done[one.item],
                                 Rect(here, here + one.length * unit, low, high)))
            done[one.item] += 1
        strips.append(Strip(Rect(start, placed[-1].rect.end, low, high), tuple(placed)))
    rect = Rect(start, start + found.length * unit, strips[0].rect.low, strips[-1].rect.high)
    return Section(rect, tuple(strips))


def _turned(one: Section) -> Section:
    """A section as it lies on a sheet whose sections run the other way."""
    strips = tuple(
        Strip(strip.rect.turned, tuple(
            each._replace(rect=each.rect.turned) for each in strip.placed))
        for strip in one.strips)
    return Section(one.rect.turned, strips)
