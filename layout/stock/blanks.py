"""Blanks: what a board plan has to cut, one by one, from the rough list.

A blank is a part with its allowances, a board of a part that is glued up, or several parts that
stay together for a while. All lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadRequest
from layout.part import Part
from layout.piece import Piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.milling import thickness_of
from layout.stock.rack import Match
from layout.stock.rough import Rough, StockChoice, rough_list, sawn
from layout.wood.species import is_sheet

ZERO = Fraction(0)


class Blank(NamedTuple):
    """Blanks of one size: what they are called, the parts that come out of each of them (the same
    part again and again where it is glued up of several), how long and wide they are.
    """

    name: str
    each: tuple[tuple[str, ...], ...]
    length: Fraction
    width: Fraction
    thickness: Fraction
    letter: str = ""
    match: int | None = None
    first: int = 0
    alike: int = 1

    @property
    def many(self) -> int:
        """How many of them are wanted."""
        return len(self.each)

    @property
    def called(self) -> str:
        """Their letter in the cut list; their name where they have none."""
        return self.letter or self.name


class Kind(NamedTuple):
    """A timber in a thickness as it is sold rough, and what that is called; a sheet's is its own.
    `sold` is False where no board is thick enough.
    """

    timber: str
    thickness: Fraction
    called: str = ""
    sheet: bool = False
    sold: bool = True


def blanks(
    piece: Piece, stock: StockChoice
) -> tuple[tuple[Kind, tuple[Blank, ...]], ...]:
    """Every blank of the piece, by timber and thickness, in the order of the cut list. BadRequest
    where a match names no part, or one that can't be one blank.
    """
    matched = _parts(piece, stock.rack.matches)
    taken = {part.id for parts in matched for part in parts}
    found: dict[Kind, list[Blank]] = {}
    for kind, blank in _single(piece, stock, taken):
        found.setdefault(kind, []).append(blank)
    for number, (match, parts) in enumerate(zip(stock.rack.matches, matched, strict=True)):
        for kind, blank in _together(piece, stock, match, parts, number):
            found.setdefault(kind, []).append(blank)
    return _numbered(found)


def _numbered(found: dict[Kind, list[Blank]]) -> tuple[tuple[Kind, tuple[Blank, ...]], ...]:
    """The blanks, those of one letter numbered through, so that no two have one label."""
    alike: Counter[str] = Counter()
    for of_kind in found.values():
        for one in of_kind:
            alike[one.called] += one.many
    done: Counter[str] = Counter()
    told = []
    for kind, of_kind in found.items():
        numbered = []
        for one in of_kind:
            numbered.append(one._replace(first=done[one.called], alike=alike[one.called]))
            done[one.called] += one.many
        told.append((kind, tuple(numbered)))
    return tuple(told)


def _single(
    piece: Piece, stock: StockChoice, taken: set[str]
) -> Iterator[tuple[Kind, Blank]]:
    """The blanks of every row, less the parts that a match has taken."""
    for one in rough_list(piece, stock):
        free = tuple(part for part in one.row.parts if part not in taken)
        if one.strips or len(free) == len(one.row.parts):
            yield from _of(one)
        elif free:
            yield from _of(sawn(piece, replace(one.row, parts=free, count=len(free)), stock))
    for row in sheet_rows(piece):
        free = tuple(part for part in row.parts if part not in taken)
        if free:
            yield _sheet_kind(row), Blank(row.name, tuple((part,) for part in free), row.length,
                                          row.width, row.thickness, row.letter)


def _sheet_kind(row: Row) -> Kind:
    return Kind(row.timber, row.thickness, sheet=True)


def _of(one: Rough, match: int | None = None) -> Iterator[tuple[Kind, Blank]]:
    """The blanks of one entry of the rough list."""
    if one.sold is None:
        kind = Kind(one.row.timber, min(one.row.thickness, one.row.width), sold=False)
    else:
        kind = Kind(one.row.timber, one.sold.rough, one.sold.name)
    yield kind, Blank(one.row.name, _shares(one), one.length, one.width, thickness_of(one),
                      one.row.letter, match)


def _shares(one: Rough) -> tuple[tuple[str, ...], ...]:
    """The parts that come out of each board."""
    parts = one.row.parts
    if one.strips:
        return (parts[:1],) * one.many
    blanks = [parts[at:at + one.gang] for at in range(0, len(parts), one.gang)]
    return tuple(blank for blank in blanks for _ in range(one.beside * one.layers))


def _parts(piece: Piece, matches: Sequence[Match]) -> list[tuple[Part, ...]]:
    """The parts that each match names, in its order."""
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
    return found


def _listed(piece: Piece, most: int = 12) -> str:
    names = [one.name for one in piece.parts]
    return ", ".join(names[:most]) + (", ..." if len(names) > most else "")


def _together(
    piece: Piece, stock: StockChoice, match: Match, parts: Sequence[Part], number: int
) -> Iterator[tuple[Kind, Blank]]:
    """The blanks of one match: separate ones, or one that holds all its parts."""
    if match.how == "one board":
        found = [pair for row in _rows(piece, parts)
                 for pair in _matched(piece, stock, row, number)]
    else:
        # no part is too short by itself: the one blank is as long as machines ask
        short = stock._replace(shortest=min(part.length for part in parts))
        alone = [row for part in parts for row in _rows(piece, (part,))]
        found = [pair for row in alone for pair in _matched(piece, short, row, number)]
    if len({kind for kind, _ in found}) > 1:
        raise BadRequest("matched parts are of different timbers or thicknesses",
                         "match parts that one board can give", match.where)
    if match.how == "one board":
        yield from found
        return
    glued = next((blank.name for _, blank in found if blank.many > 1), None)
    if glued is not None:
        raise BadRequest(f"the {glued} is glued up of several boards",
                         'it can only be matched as how = "one board"', match.where)
    yield found[0][0], _as_one(stock, match, parts, [blank for _, blank in found], number)


def _as_one(
    stock: StockChoice, match: Match, parts: Sequence[Part], each: Sequence[Blank], number: int
) -> Blank:
    """One blank that holds all of a match's parts, a saw's cut between them."""
    between = (len(each) - 1) * stock.kerf
    if match.how == "end to end":
        length = sum((one.length for one in each), ZERO) + between
        width = max(one.width for one in each)
    else:
        length = max(one.length for one in each)
        width = sum((one.width for one in each), ZERO) + between
    names = list(dict.fromkeys(one.name for one in each))
    letters = dict.fromkeys(one.letter for one in each)
    return Blank(f"{', '.join(names)}: {len(each)} {match.how}",
                 (tuple(part.id for part in parts),), max(length, stock.shortest), width,
                 each[0].thickness, " ".join(letters), number)


def _rows(piece: Piece, parts: Sequence[Part]) -> Iterator[Row]:
    """The rows of the cut list that hold these parts, with these parts only."""
    ids = {part.id for part in parts}
    for row in cut_list(piece):
        held = tuple(part for part in row.parts if part in ids)
        if held:
            yield replace(row, parts=held, count=len(held))


def _matched(
    piece: Piece, stock: StockChoice, row: Row, number: int
) -> Iterator[tuple[Kind, Blank]]:
    """A matched row's blanks."""
    if is_sheet(row.timber):
        yield _sheet_kind(row), Blank(row.name, tuple((part,) for part in row.parts), row.length,
                                      row.width, row.thickness, row.letter, number)
        return
    yield from _of(sawn(piece, row, stock), number)


def sheet_rows(piece: Piece) -> tuple[Row, ...]:
    """The rows of the cut list that are cut from sheets of wood."""
    return tuple(row for row in cut_list(piece)
                 if row.parts and is_sheet(row.timber) and row.timber != "glass")
