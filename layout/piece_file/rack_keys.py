"""The keys of [stock] that tell what boards are there, what can be bought, what belongs together.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from layout.defaults import Unit, default_length
from layout.piece_file.table import Table
from layout.stock.rack import HOWS, Board, How, KeepOut, Match, RackChoice, Size
from layout.wood.species import is_sheet

ZERO = Fraction(0)
MOST_BOARDS = 200
MOST_SIZES = 30
MOST_MATCHES = 60
MOST_KEEP_OUT = 40


def read_rack(table: Table, unit: Unit) -> RackChoice:
    """The rack, as [stock] tells it. BadPiece where it can't be read."""

    def usual(key: str, name: str, zero_ok: bool = True) -> Fraction:
        return table.length(key, unit, default=default_length(name, unit), zero_ok=zero_ok)

    boards: list[Board] = []
    for one in _tables(table, "board", MOST_BOARDS):
        for found in _board(one, unit, len(boards)):
            if any(found.name == other.name for other in boards):
                raise one.error("name", f"there are two boards '{found.name}'",
                                "give each a name of its own")
            boards.append(found)
        if len(boards) > MOST_BOARDS:
            raise one.error("count", "the rack holds too many boards", f"at most {MOST_BOARDS}")
    ends, edge = usual("ends", "stock_ends"), usual("edge", "stock_edge")
    return RackChoice(
        boards=tuple(boards),
        sizes=tuple(_size(one, unit) for one in _tables(table, "size", MOST_SIZES)),
        matches=tuple(_match(one) for one in _tables(table, "match", MOST_MATCHES)),
        ends=ends,
        edge=edge,
        thicker=usual("thicker", "stock_thicker"),
        length=usual("board_length", "stock_board_length", zero_ok=False),
        sheet=(usual("sheet_width", "stock_sheet_width", zero_ok=False),
               usual("sheet_length", "stock_sheet_length", zero_ok=False)),
    )


def _tables(table: Table, key: str, most: int) -> list[Table]:
    found = table.tables(key)
    if len(found) > most:
        raise table.error(key, f"{len(found)} of them", f"at most {most}")
    return found


def _board(table: Table, unit: Unit, before: int) -> Iterator[Board]:
    """The boards of one entry: as many as its count, alike."""
    timber = table.text("timber", cure='say of which timber, e.g. timber = "cherry"')
    width, length = _sizes(table, unit)
    count = table.count("count", 1, MOST_BOARDS, default=1)
    name = table.text("name", default="", most=40)
    found = Board(
        name="",
        timber=timber,
        thickness=table.length("thickness", unit, cure="say how thick it is, e.g. 1"),
        width=width,
        length=length,
        planed=table.flag("planed", default=is_sheet(timber)),
        grain=_grain(table, timber),
        keep_out=tuple(_keep_out(one, unit, width, length)
                       for one in _tables(table, "keep_out", MOST_KEEP_OUT)),
    )
    for number in range(1, count + 1):
        called = name or f"board {before + number}"
        yield found._replace(name=f"{name} {number}" if name and count > 1 else called)


def _sizes(table: Table, unit: Unit) -> tuple[Fraction, Fraction]:
    return (table.length("width", unit, cure="say how wide it is, e.g. 8"),
            table.length("length", unit, cure="say how long it is, e.g. 96"))


def _grain(table: Table, timber: str) -> bool:
    """Whether pieces must lie along it."""
    grain = table.flag("grain", default=True)
    if not grain and not is_sheet(timber):
        raise table.error("grain", f"{timber} has grain", "only a sheet can be without")
    return grain


def _keep_out(table: Table, unit: Unit, width: Fraction, length: Fraction) -> KeepOut:
    """What to cut around; a side that is not told reaches to the board's own."""
    if not any(table.has(key) for key in ("from", "to", "low", "high")):
        raise table.error(None, "it says nowhere what to keep out of",
                          "give from and to along the board, or low and high across it")
    start, end = _span(table, unit, ("from", "to"), length, "long")
    low, high = _span(table, unit, ("low", "high"), width, "wide")
    return KeepOut(start, end, low, high, table.text("why", default="", most=30))


def _span(
    table: Table, unit: Unit, keys: tuple[str, str], most: Fraction, word: str
) -> tuple[Fraction, Fraction]:
    low = table.length(keys[0], unit, default=ZERO, zero_ok=True)
    high = table.length(keys[1], unit, default=most)
    if high > most:
        raise table.error(keys[1], f"it reaches past the board, which is less {word}",
                          "measure from end A, and from the near edge")
    if low >= high:
        raise table.error(keys[0], f"{keys[0]} is not before {keys[1]}",
                          "give the smaller distance first")
    return low, high


def _size(table: Table, unit: Unit) -> Size:
    width, length = _sizes(table, unit)
    timber = table.text("timber", default="")
    grain = table.flag("grain", default=True)
    if not grain and not (timber and is_sheet(timber)):
        raise table.error("grain", "only a sheet can be without grain", "name the sheet's timber")
    return Size(timber or None, table.optional_length("thickness", unit), width, length, grain)


def _match(table: Table) -> Match:
    parts = table.texts("parts", cure='name the parts, e.g. parts = ["left stile", "right stile"]')
    if len(parts) < 2:
        raise table.error("parts", "one part matches nothing", "name two or more")
    how = cast(How, table.choice("how", HOWS, default="one board"))
    return Match(tuple(parts), how, table.where("parts"))
