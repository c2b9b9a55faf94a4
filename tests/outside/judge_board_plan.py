"""A judge of board plans: is what `shoulderline boards PIECE --json` tells a plan that can be sawn?

It reads that JSON, the rough list and the cut list (`shoulderline stock PIECE --json`, and with
`--cut-list`) and the [stock] of the piece file itself, by its own small reader. It knows nothing of
how a plan is made: every board is sawn here once more, cut after cut, and every figure is added up
again. `complaints` names whatever does not hold; a good plan has none.

All lengths are exact Fractions of a millimetre; along a board from its end A, across it from its
near edge.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations, groupby
from typing import Any, NamedTuple, cast

from tests.outside.simple_filling import Bay, Need, Room, fill, fits

F = Fraction
Json = dict[str, Any]
INCH = F(127, 5)
FOOT = 12 * INCH
SHEETS = {"plywood", "ply", "mdf", "hardboard", "chipboard", "particleboard", "blockboard", "glass"}
USUAL = {
    "in": {"width": F(1, 4), "length": F(1, 2), "kerf": F(1, 8), "widest": F(8), "ends": F(1),
           "edge": F(1, 8), "board_length": F(96), "sheet_width": F(48), "sheet_length": F(96),
           "thicker": F(1, 2), "planing": F(3, 16)},
    "mm": {"width": F(6), "length": F(12), "kerf": F(3), "widest": F(200), "ends": F(25),
           "edge": F(3), "board_length": F(2400), "sheet_width": F(1220),
           "sheet_length": F(2440), "thicker": F(13), "planing": F(6)},
}
"""What [stock] takes where it says nothing, as the README has it."""
ROUNDED = {"in": INCH / 16, "mm": F(1)}
"""A blank may be sawn larger than it must be, by less than this."""
ROLES = {"crosscut": 0, "joint an edge": 1, "rip": 1, "cut to length": 2}


class Rect(NamedTuple):
    """A piece of a board."""

    start: Fraction
    end: Fraction
    low: Fraction
    high: Fraction

    def meets(self, other: Rect) -> bool:
        """Whether the two have more than an edge in common."""
        return (self.start < other.end and other.start < self.end
                and self.low < other.high and other.low < self.high)

    def inside(self, other: Rect) -> bool:
        return (other.start <= self.start < self.end <= other.end
                and other.low <= self.low < self.high <= other.high)

    def along(self, across: bool) -> tuple[Fraction, Fraction]:
        """From where to where, in the way that a cut's band is measured."""
        return (self.start, self.end) if across else (self.low, self.high)

    def part(self, across: bool, start: Fraction, end: Fraction) -> Rect:
        return (self._replace(start=start, end=end) if across
                else self._replace(low=start, high=end))


class Rack(NamedTuple):
    """A board that the file tells of."""

    name: str
    timber: str
    thickness: Fraction
    length: Fraction
    width: Fraction
    planed: bool
    grain: bool
    keep_out: tuple[Rect, ...]


class Size(NamedTuple):
    """A size that the file says can be bought."""

    timber: str | None
    thickness: Fraction | None
    length: Fraction
    width: Fraction
    grain: bool


class Match(NamedTuple):
    parts: tuple[str, ...]
    how: str


@dataclass(frozen=True)
class Told:
    """[stock] of a piece file, and its unit."""

    unit: str
    lengths: dict[str, Fraction]
    boards: tuple[Rack, ...] = ()
    sizes: tuple[Size, ...] = ()
    matches: tuple[Match, ...] = ()
    prices: dict[str, tuple[Fraction, str]] = field(default_factory=dict)


def is_sheet(timber: str | None) -> bool:
    return bool(SHEETS & set(re.findall("[a-z]+", (timber or "").lower())))


def same(one: str | None, other: str | None) -> bool:
    return (one or "").lower() == (other or "").lower()


def measure(value: Any, unit: str) -> Fraction:
    """What a maker wrote, in mm: 7, 731.37, "1/2", "23 57/64", "4 in"."""
    words = str(value).split()
    if words[-1] in ("in", "mm"):
        unit = words.pop()
    return sum((F(word) for word in words), F(0)) * (INCH if unit == "in" else 1)


def told(file: Json) -> Told:
    """[stock] as the file has it: a piece file read by tomllib, decimals as text."""
    unit, stock = file.get("unit", "in"), file.get("stock", {})
    factor = INCH if unit == "in" else F(1)
    lengths = {key: measure(stock[key], unit) if key in stock else usual * factor
               for key, usual in USUAL[unit].items()}
    return Told(
        unit=unit, lengths=lengths,
        boards=tuple(_rack(stock.get("board", []), unit)),
        sizes=tuple(_size(one, unit) for one in stock.get("size", [])),
        matches=tuple(Match(tuple(one["parts"]), one.get("how", "one board"))
                      for one in stock.get("match", [])),
        prices={one["timber"]: (F(str(one["price"])), one["per"])
                for one in stock.get("price", [])},
    )


def _rack(entries: Sequence[Json], unit: str) -> Iterator[Rack]:
    before = 0
    for one in entries:
        width, length = measure(one["width"], unit), measure(one["length"], unit)
        many, name = one.get("count", 1), one.get("name", "")
        for number in range(1, many + 1):
            called = name or f"board {before + number}"
            yield Rack(
                f"{name} {number}" if name and many > 1 else called, one["timber"],
                measure(one["thickness"], unit), length, width,
                one.get("planed", is_sheet(one["timber"])), one.get("grain", True),
                tuple(Rect(measure(out.get("from", 0), unit),
                           measure(out["to"], unit) if "to" in out else length,
                           measure(out.get("low", 0), unit),
                           measure(out["high"], unit) if "high" in out else width)
                      for out in one.get("keep_out", [])))
        before += many


def _size(one: Json, unit: str) -> Size:
    return Size(one.get("timber"),
                measure(one["thickness"], unit) if "thickness" in one else None,
                measure(one["length"], unit), measure(one["width"], unit), one.get("grain", True))


def complaints(plan: Json, rough: Json, cut_list: Json, stock: Told) -> list[str]:
    """Whatever does not hold of a plan; none of a good one."""
    found: list[str] = []
    found += _parts(plan, rough, cut_list, stock)
    found += _matches(plan, stock)
    found += _rack_once(plan, stock)
    found += _bought(plan, stock)
    for kind in plan["kinds"]:
        found += [f"{kind['timber']} {kind['thickness']}: {one}"
                  for one in _kind(plan, kind, rough, stock)]
    return found


def _kind(plan: Json, kind: Json, rough: Json, stock: Told) -> Iterator[str]:
    if kind["sheet"] != is_sheet(kind["timber"]):
        yield "it is taken for a sheet, or not for one"
    # a kerf may be told by the rule's graduation; it is never told as less than the saw takes
    if not 0 <= F(kind["kerf"]) - stock.lengths["kerf"] < ROUNDED[stock.unit]:
        yield "the kerf is not the saw's"
    if not 0 < F(kind["bound"]) <= 1:
        yield f"the bound {kind['bound']} is no share of the cost"
    yield from _counted(kind)
    for board in kind["boards"]:
        named = board["name"] or "a bought board"
        yield from (f"{named}: {one}" for one in _board(kind, board, rough, stock))
    yield from _labels(kind)
    yield from _missing(plan, kind, stock)
    yield from _could_do_with_less(plan, kind, stock)


# ---- what comes out of the blanks

def _counted(kind: Json) -> Iterator[str]:
    """Every number of every blank is placed once, or missing."""
    placed = Counter((one["blank"], one["number"]) for board in kind["boards"]
                     for one in board["placed"])
    missing: Counter[int] = Counter()
    for one in kind["missing"]:
        missing[one["blank"]] += one["many"]
    for at, blank in enumerate(kind["blanks"]):
        if len(blank["parts"]) != blank["many"]:
            yield f"{blank['name']}: {blank['many']} of them tell {len(blank['parts'])} lots"
        there = {number: many for (which, number), many in placed.items() if which == at}
        for number, many in there.items():
            if many > 1:
                yield f"{blank['name']} {number} is placed {many} times"
            if not 0 <= number < blank["many"]:
                yield f"{blank['name']} {number}: there is no such number"
        if len(there) + missing[at] != blank["many"]:
            yield (f"{blank['name']}: {len(there)} placed and {missing[at]} missing of "
                   f"{blank['many']}")
    if any(which not in range(len(kind["blanks"])) for which, _ in placed):
        yield "a blank is placed that the kind has not"


def _parts(plan: Json, rough: Json, cut_list: Json, stock: Told) -> Iterator[str]:
    """Every part of the lists comes out of the blanks as often as it must, and no other."""
    wanted: Counter[str] = Counter()
    for row in rough["rough"]:
        # so many blanks hold the parts, and each takes as many boards as it is glued of
        blanks = -(-len(row["parts"]) // row["gang"])
        for part in row["parts"]:
            wanted[part] += row["boards"] // blanks
    flat = [row for row in cut_list["cut_list"]
            if is_sheet(row["timber"]) and "glass" not in row["timber"].lower().split()]
    for row in flat:
        wanted.update(row["parts"])
    there: Counter[str] = Counter()
    for kind in plan["kinds"]:
        for blank in kind["blanks"]:
            for lot in blank["parts"]:
                there.update(lot)
    for part in sorted(wanted.keys() | there.keys()):
        if wanted[part] != there[part]:
            yield f"{part} comes out of {there[part]} blanks, not {wanted[part]}"
    for kind in plan["kinds"]:
        rows = flat if kind["sheet"] else [
            row | {"of": _finished_sizes(cut_list)} for row in rough["rough"]]
        for blank in kind["blanks"]:
            for lot in blank["parts"]:
                yield from _large_enough(kind, blank, lot, rows, stock)
    yield from _as_many_as_listed(plan, rough, stock)


def _large_enough(
    kind: Json, blank: Json, lot: Sequence[str], rows: Sequence[Json], stock: Told
) -> Iterator[str]:
    """The parts of a blank fit in it, beside what is added, and the saw's cuts between them."""
    size = F(blank["length"]), F(blank["width"])
    sizes = []
    for part in lot:
        its = [row for row in rows if part in row["parts"] and same(row["timber"], kind["timber"])
               and F(row["thickness"]) == F(kind["thickness"])]
        if not its:
            yield f"{blank['name']}: {part} is of another timber or thickness"
            return
        sizes.append(min(_least(row, part, kind["sheet"], stock) for row in its))
    kerfs = (len(lot) - 1) * stock.lengths["kerf"]
    added = (F(0), F(0)) if kind["sheet"] else (stock.lengths["length"], stock.lengths["width"])
    lengths, widths = [one[0] for one in sizes], [one[1] for one in sizes]
    end_to_end = sum(lengths) + kerfs + added[0], max(widths) + added[1]
    beside = max(lengths) + added[0], sum(widths) + kerfs + added[1]
    if not any(size[0] >= one[0] and size[1] >= one[1] for one in (end_to_end, beside)):
        yield f"{blank['name']} is too small for {', '.join(lot)}"


def _finished_sizes(cut_list: Json) -> dict[str, tuple[Fraction, Fraction]]:
    """Length and width of every part; a board's width is the larger of its two sizes."""
    return {part: (F(row["length"]), max(F(row["width"]), F(row["thickness"])))
            for row in cut_list["cut_list"] for part in row["parts"]}


def _least(row: Json, part: str, sheet: bool, stock: Told) -> tuple[Fraction, Fraction]:
    """Length and width of one part of a row, without what is added."""
    if sheet:
        return F(row["length"]), F(row["width"])
    if row["how"] is not None:
        return cast("tuple[Fraction, Fraction]", row["of"][part])
    length = F(row["length"]) - stock.lengths["length"]
    if row["gang"] > 1:
        length = (length - (row["gang"] - 1) * stock.lengths["kerf"]) / row["gang"]
    return length, F(row["width"]) - stock.lengths["width"]


def _as_many_as_listed(plan: Json, rough: Json, stock: Told) -> Iterator[str]:
    """Rows that no match touches give as many blanks, of just their size."""
    matched = {part.lower().replace(" ", "-") for match in stock.matches for part in match.parts}
    for row in rough["rough"]:
        if matched & set(row["parts"]) or row["match"] is not None:
            continue
        many = sum(
            blank["many"] for kind in plan["kinds"] for blank in kind["blanks"]
            if same(kind["timber"], row["timber"])
            and F(kind["thickness"]) == F(row["thickness"])
            and (F(blank["length"]), F(blank["width"])) == (F(row["length"]), F(row["width"]))
            and {part for lot in blank["parts"] for part in lot} == set(row["parts"]))
        if many != row["boards"]:
            yield f"{row['name']}: {many} blanks of its size, not {row['boards']}"


def _labels(kind: Json) -> Iterator[str]:
    """What is written on a blank names it: no other size or match has the same."""
    by_label: dict[str, set[int]] = {}
    for board in kind["boards"]:
        for one in board["placed"]:
            by_label.setdefault(one["label"], set()).add(one["blank"])
    for label, blanks in sorted(by_label.items()):
        if len(blanks) > 1:
            yield f"the label {label} stands on blanks that are not alike"


def _matches(plan: Json, stock: Told) -> Iterator[str]:
    every = [(kind, at, blank) for kind in plan["kinds"]
             for at, blank in enumerate(kind["blanks"]) if blank["match"] is not None]
    numbers = {blank["match"] for _, _, blank in every}
    if not numbers <= set(range(len(stock.matches))):
        yield "a blank belongs to a match that the file has not"
    for number, match in enumerate(stock.matches):
        ids = [part.lower().replace(" ", "-") for part in match.parts]
        mine = [(kind, at, blank) for kind, at, blank in every if blank["match"] == number]
        named = [part for _, _, blank in mine for lot in blank["parts"] for part in lot]
        if set(named) != set(ids):
            yield f"match {number + 1} is of {sorted(set(named))}"
        if match.how != "one board":
            lots = [lot for _, _, blank in mine for lot in blank["parts"]]
            if any(lot != ids for lot in lots) or not lots:
                yield f"match {number + 1}: its parts are not in one blank in their order"
            continue
        homes = {id(board) for kind, at, _ in mine for board in kind["boards"]
                 for one in board["placed"] if one["blank"] == at}
        if len(homes) > 1:
            yield f"match {number + 1} lies on {len(homes)} boards"


# ---- boards

def _rack_once(plan: Json, stock: Told) -> Iterator[str]:
    """Every board of the rack is used once at most, and accounted for."""
    used: Counter[str] = Counter()
    idle: set[str] = set(plan["unused"])
    for kind in plan["kinds"]:
        idle |= set(kind["idle"])
        used.update(board["name"] for board in kind["boards"]
                    if not board["bought"] and board["rest_of"] is None)
    yield from _rests(plan)
    names = Counter(one.name for one in stock.boards)
    for name, many in used.items():
        if many > names[name]:
            yield f"the rack's {name} is used {many} times"
    for name in sorted(names.keys() | idle):
        if name not in names:
            yield f"{name} is not in the rack"
        elif name not in idle and used[name] < names[name]:
            yield f"{name} is neither used nor left over"
        elif names[name] == 1 and used[name] and name in idle:
            yield f"{name} is used and left over"


def _rests(plan: Json) -> Iterator[str]:
    """The rest of a board is what lies behind all that was taken from it, once, knots and all."""
    there = [(kind, board) for kind in plan["kinds"] for board in kind["boards"]
             if not board["bought"]]
    rests = Counter(board["rest_of"] for _, board in there if board["rest_of"] is not None)
    for name, many in rests.items():
        if many > 1:
            yield f"the rest of {name} is used {many} times"
    for _, rest in there:
        if rest["rest_of"] is None:
            continue
        parents = [(kind, board) for kind, board in there if board["name"] == rest["rest_of"]]
        if len(parents) != 1:
            yield f"{rest['name']}: nothing else is made of that board"
            continue
        kind, board = parents[0]
        starts = F(rest["starts"])
        taken = max(F(one["to"]) for one in board["placed"]) + F(kind["kerf"])
        same_board = all(rest[key] == board[key] for key in ("width", "thickness", "grain"))
        if starts < taken or starts + F(rest["length"]) > F(board["length"]) or not same_board:
            yield f"{rest['name']} is not what is left"
        outs = {(max(F(out["from"]) - starts, F(0)), F(out["to"]) - starts, F(out["low"]),
                 F(out["high"])) for out in board["keep_out"] if F(out["to"]) > starts}
        if outs - {tuple(_rect(out)) for out in rest["keep_out"]}:
            yield f"{rest['name']} has lost what is to be kept out of"


def _whole(board: Json) -> Rect:
    return Rect(F(0), F(board["length"]), F(0), F(board["width"]))


def _rect(one: Json) -> Rect:
    return Rect(F(one["from"]), F(one["to"]), F(one["low"]), F(one["high"]))


def _of_rack(board: Json, stock: Told) -> Rack | None:
    """The board of the file that a board of the plan is."""
    outs = Counter(_rect(out) for out in board["keep_out"])
    for one in stock.boards:
        if (one.name == board["name"] and one.thickness == F(board["thickness"])
                and (one.length, one.width) == (F(board["length"]), F(board["width"]))
                and one.grain == board["grain"] and Counter(one.keep_out) == outs):
            return one
    return None


def _as_rack(board: Json, kind: Json) -> Rack:
    """The rest of a board as a board (what it is the rest of is seen to by _rests)."""
    return Rack(board["name"], kind["timber"], F(board["thickness"]), F(board["length"]),
                F(board["width"]), False, board["grain"],
                tuple(_rect(out) for out in board["keep_out"]))


def _thick_enough(one: Rack, kind: Json, finished: Fraction, stock: Told) -> bool:
    """Whether a board of the rack can give blanks of this kind."""
    asked = F(kind["thickness"])
    if kind["sheet"]:
        return one.thickness == asked
    # planing takes 3/16 in or 6 mm at the least (what is sold, and what it comes out)
    off = F(0) if one.planed else stock.lengths["planing"]
    least = min(finished + off, asked)
    return least <= one.thickness <= asked + stock.lengths["thicker"]


def _board(kind: Json, board: Json, rough: Json, stock: Told) -> Iterator[str]:
    if board["bought"]:
        if not any(_same_size(size, board) for size in sizes(kind, stock)):
            yield "it is of no size that is sold"
        if F(board["thickness"]) != F(kind["thickness"]) or board["keep_out"]:
            yield "a bought board is as thick as the kind, and whole"
    else:
        one = _of_rack(board, stock)
        if board["rest_of"] is not None:
            one = _as_rack(board, kind)
        if one is None:
            yield "it is not as the file tells it"
        elif not same(one.timber, kind["timber"]):
            yield f"it is {one.timber}"
        elif not _thick_enough(one, kind, _finished(kind, board, rough), stock):
            yield "it is too thin, or too thick"
    if not board["placed"]:
        yield "nothing comes out of it"
    if board["turned"] and not kind["sheet"]:
        yield "boards are not ripped from end to end first"
    yield from _places(kind, board, stock)
    yield from _sawn(kind, board, stock)
    yield from _order(kind, board, stock)


def _finished(kind: Json, board: Json, rough: Json) -> Fraction:
    """The greatest finished thickness among the parts that a board gives."""
    parts = {part for one in board["placed"] if one["blank"] < len(kind["blanks"])
             for lot in kind["blanks"][one["blank"]]["parts"] for part in lot}
    return max((F(row["finished"]["thickness"]) / row["layers"] for row in rough["rough"]
                if parts & set(row["parts"])), default=F(0))


def sizes(kind: Json, stock: Told) -> list[Size]:
    """What can be bought for a kind: the file's own sizes, or the usual one."""
    own = [size for size in stock.sizes
           if ((size.timber is None and not kind["sheet"]) or same(size.timber, kind["timber"]))
           and size.thickness in (None, F(kind["thickness"]))]
    if own:
        return own
    if kind["sheet"]:
        return [Size(None, None, stock.lengths["sheet_length"], stock.lengths["sheet_width"], True)]
    # longer, and wider, where a blank asks for it
    length, width = stock.lengths["board_length"], stock.lengths["widest"]
    # in whole inches or centimetres
    step = INCH if stock.unit == "in" else F(10)
    longest = max(F(blank["length"]) for blank in kind["blanks"]) + 2 * stock.lengths["ends"]
    widest = max(F(blank["width"]) for blank in kind["blanks"]) + stock.lengths["edge"]
    longest, widest = (-(-one // step) * step for one in (longest, widest))
    return [Size(None, None, one, other, True) for one in sorted({length, max(length, longest)})
            for other in sorted({width, max(width, widest)})]


def _same_size(size: Size, board: Json) -> bool:
    if size.grain != board["grain"] or size.width != F(board["width"]):
        return False
    return size.length == F(board["length"])


def _bought(plan: Json, stock: Told) -> Iterator[str]:
    """What to buy is what the plan takes, and its measure and price are right."""
    taken: Counter[tuple[Any, ...]] = Counter()
    for kind in plan["kinds"]:
        for board in kind["boards"]:
            if board["bought"]:
                taken[kind["timber"], F(kind["thickness"]), F(board["length"]),
                      F(board["width"])] += 1
    listed: Counter[tuple[Any, ...]] = Counter()
    for one in plan["buy"]:
        key = one["timber"], F(one["thickness"]), F(one["length"]), F(one["width"])
        listed[key] += one["boards"]
        if not one["sheet"]:
            yield from _amount(one, stock)
    if taken != listed:
        yield "what to buy is not what the plan takes"


def _amount(one: Json, stock: Told) -> Iterator[str]:
    """A board foot is thickness x width / 12 x length in feet, at least 1 in thick (Noyes 1910)."""
    thick, wide, long = F(one["thickness"]), F(one["width"]), F(one["length"])
    feet = one["boards"] * max(F(1), thick / INCH) * (wide / FOOT) * (long / FOOT)
    metres = one["boards"] * thick * wide * long / 10**9
    if F(one["board_feet"]) != feet or F(one["cubic_metres"]) != metres:
        yield f"to buy: {one['board_feet']} board feet, {one['cubic_metres']} cubic metres"
    price = stock.prices.get(one["timber"])
    due = price and price[0] * (feet if price[1] == "board foot" else metres)
    if (None if one["cost"] is None else F(one["cost"])) != due:
        yield f"to buy: it costs {one['cost']}"


# ---- places and cuts

def _places(kind: Json, board: Json, stock: Told) -> Iterator[str]:
    whole, kerf = _whole(board), F(kind["kerf"])
    outs = [_rect(one) for one in board["keep_out"]]
    ends, edge = (F(0), F(0)) if kind["sheet"] else (stock.lengths["ends"], stock.lengths["edge"])
    room = Rect(ends, whole.end - ends, edge, whole.high)
    rects = [(one["label"], _rect(one)) for one in board["placed"]]
    for one, (label, rect) in zip(board["placed"], rects, strict=True):
        if not rect.inside(whole):
            yield f"{label} is not on the board"
        elif not rect.inside(room):
            yield f"{label} is too near an end or the near edge"
        if any(rect.meets(out) for out in outs):
            yield f"{label} lies where the board is to be kept out of"
        if one["blank"] < len(kind["blanks"]):
            yield from _size_of(label, rect, kind["blanks"][one["blank"]], kind, board, stock)
    for (name, one_), (other, two) in combinations(rects, 2):
        if one_.meets(two):
            yield f"{name} and {other} overlap"
        elif not _apart(one_, two, kerf):
            yield f"{name} and {other} have no room for the saw between them"


def _apart(one: Rect, two: Rect, kerf: Fraction) -> bool:
    """A straight cut parts any two, and the saw takes its kerf there."""
    return (two.start - one.end >= kerf or one.start - two.end >= kerf
            or two.low - one.high >= kerf or one.low - two.high >= kerf)


def _size_of(
    label: str, rect: Rect, blank: Json, kind: Json, board: Json, stock: Told
) -> Iterator[str]:
    sawn = rect.end - rect.start, rect.high - rect.low
    ways = [(F(blank["length"]), F(blank["width"]))]
    if kind["sheet"] and not board["grain"]:
        ways.append((ways[0][1], ways[0][0]))
    if not any(0 <= has - must < ROUNDED[stock.unit] for way in ways
               for has, must in [(sawn[0], way[0])] if 0 <= sawn[1] - way[1] < ROUNDED[stock.unit]):
        yield f"{label} is sawn {float(sawn[0])} x {float(sawn[1])}, which is not its size"


def _sawn(kind: Json, board: Json, stock: Told) -> Iterator[str]:
    """The board is sawn, cut after cut; what is left must be the blanks, and waste."""
    there, kerf = Counter([_whole(board)]), F(kind["kerf"])
    rects = [(one["label"], _rect(one)) for one in board["placed"]]
    for at, cut in enumerate(board["cuts"], 1):
        piece, across = _rect(cut["piece"]), cut["across"]
        start, end = F(cut["from"]), F(cut["to"])
        if cut["number"] != at:
            yield f"cut {at} has the number {cut['number']}"
        if not there[piece]:
            yield f"cut {at}: there is no such piece on the saw"
            continue
        low, high = piece.along(across)
        if not low <= start <= end <= high or (start == end and (kerf or start in (low, high))):
            yield f"cut {at} is not on its piece"
            continue
        yield from _band(at, cut, (low, high), kerf, stock)
        for label, rect in rects:
            if rect.meets(piece.part(across, start, end)):
                yield f"cut {at} runs through {label}"
        there[piece] -= 1
        for left, right in ((low, start), (end, high)):
            if left < right:
                there[piece.part(across, left, right)] += 1
    for label, rect in rects:
        if not there[rect]:
            yield f"{label} does not come off the saw as a piece of its own"


def _band(
    at: int, cut: Json, reach: tuple[Fraction, Fraction], kerf: Fraction, stock: Told
) -> Iterator[str]:
    """What a cut takes away: the kerf, or less along a side of the piece; a jointed edge."""
    start, end = F(cut["from"]), F(cut["to"])
    if cut["kind"] == "joint an edge":
        if start != 0 or start != reach[0] or end - start != stock.lengths["edge"]:
            yield f"cut {at} does not joint the near edge"
    elif end - start > kerf:
        yield f"cut {at} takes more than the saw does"
    elif end - start < kerf and start != reach[0] and end != reach[1]:
        yield f"cut {at} takes less than the saw does"


def _order(kind: Json, board: Json, stock: Told) -> Iterator[str]:
    """First into sections, then each section on its own, and last to length."""
    stages = list(_stages(board))
    if stages != sorted(stages):
        yield "the cuts are not in the order of the shop"
    for at, cut in enumerate(board["cuts"], 1):
        ripped = cut["kind"] in ("rip", "joint an edge")
        if cut["kind"] not in ROLES or (not board["turned"] and cut["across"] == ripped):
            yield f"cut {at} is no {cut['kind']}"
        if cut["kind"] == "joint an edge" and kind["sheet"]:
            yield f"cut {at}: a sheet's edge is not jointed"
    second = [cut for stage, cut in zip(stages, board["cuts"], strict=True) if stage == 1]
    sections = [_rect(cut["piece"]).along(not board["turned"]) for cut in second]
    runs = [key for key, _ in groupby(sections)]
    if len(runs) != len(set(runs)):
        yield "a section is taken up twice"
    if kind["sheet"] or not stock.lengths["edge"]:
        return
    for section, cuts in groupby(second, key=lambda cut: _rect(cut["piece"]).along(True)):
        kinds = [cut["kind"] for cut in cuts]
        if kinds[0] != "joint an edge" or "joint an edge" in kinds[1:]:
            yield f"the section from {section[0]} is ripped before its edge is jointed, or after"


def _stages(board: Json) -> Iterator[int]:
    """0, 1 or 2 for each cut. A turned sheet is ripped into sections first, then crosscut."""
    if not board["turned"]:
        yield from (ROLES.get(cut["kind"], 3) for cut in board["cuts"])
        return
    crosscut = False
    for cut in board["cuts"]:
        crosscut = crosscut or cut["across"]
        yield 1 if cut["across"] else 2 if crosscut else 0


# ---- what is missing, and what is bought without need

def _free(plan: Json, kind: Json, stock: Told, rough_too: bool = True) -> list[Rack]:
    """Boards of the rack that this kind has, or that nothing has, and that are surely fit for it.

    A planed board may be thinner than the kind and still serve; such are left out here, for it is
    enough to know some that serve."""
    elsewhere = {board["name"] for other in plan["kinds"] if other is not kind
                 for board in other["boards"] if not board["bought"]}
    here = {board["name"] for board in kind["boards"] if not board["bought"]}
    asked = F(kind["thickness"])
    return [one for one in stock.boards
            if same(one.timber, kind["timber"]) and one.name not in elsewhere
            and (rough_too or one.name not in here) and one.thickness == asked]


def _bay(length: Fraction, width: Fraction, outs: Iterable[Rect], kind: Json, stock: Told) -> Bay:
    ends, edge = (F(0), F(0)) if kind["sheet"] else (stock.lengths["ends"], stock.lengths["edge"])
    return Bay(Room(ends, length - ends, edge, width), tuple(Room(*out) for out in outs),
               F(kind["kerf"]))


def _bays_of_sizes(kind: Json, stock: Told) -> list[Bay]:
    return [_bay(size.length, size.width, (), kind, stock) for size in sizes(kind, stock)]


def _missing(plan: Json, kind: Json, stock: Told) -> Iterator[str]:
    """A blank is missing only where nothing that is free or sold can hold it."""
    ends, edge = (F(0), F(0)) if kind["sheet"] else (stock.lengths["ends"], stock.lengths["edge"])
    for one in kind["missing"]:
        blank = kind["blanks"][one["blank"]]
        need = Need(F(blank["length"]), F(blank["width"]))
        if not 0 < one["many"] <= blank["many"]:
            yield f"{blank['name']}: {one['many']} missing"
        if blank["match"] is not None and stock.matches[blank["match"]].how == "one board":
            continue  # one of them may well find a place where all do not
        if (F(one["least_length"]), F(one["least_width"])) != (
                need.length + 2 * ends, need.width + edge):
            yield f"{blank['name']}: the least board that holds it is told wrong"
        bays = _bays_of_sizes(kind, stock)
        bays += [_bay(rack.length, rack.width, rack.keep_out, kind, stock)
                 for rack in _free(plan, kind, stock, rough_too=False)]
        if any(fits(bay, need) for bay in bays):
            yield f"{blank['name']} is missing, and a board holds it"


def _could_do_with_less(plan: Json, kind: Json, stock: Told) -> Iterator[str]:
    """A simple filling of the same boards must not buy less than a plan that says none can."""
    bought = sum(board["bought"] for board in kind["boards"])
    one_board = any(blank["match"] is not None and stock.matches[blank["match"]].how == "one board"
                    for blank in kind["blanks"])
    if not bought or kind["missing"] or one_board:
        return
    needs = [Need(F(blank["length"]), F(blank["width"]))
             for blank in kind["blanks"] for _ in range(blank["many"])]
    rack = [_bay(one.length, one.width, one.keep_out, kind, stock)
            for one in _free(plan, kind, stock)]
    left = needs
    for bay in sorted(rack, key=Bay.area, reverse=True):
        left = fill(bay, left)
    if not left:
        yield f"{bought} bought, and what is there holds everything"
    sold = _bays_of_sizes(kind, stock)
    if len(sold) != 1:
        return
    mine = 0
    while left:
        rest = fill(sold[0], left)
        if len(rest) == len(left):
            return
        mine, left = mine + 1, rest
    if mine < bought * F(kind["bound"]):
        yield f"no plan is said to buy less than {bought} x {kind['bound']}, and {mine} do"
    elif mine < bought:
        yield f"{bought} bought, and {mine} do"
