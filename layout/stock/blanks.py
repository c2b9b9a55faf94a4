"""Blanks: what a board plan has to cut, one by one, from the rough list.

A blank is a part with its allowances, a board of a part that is glued up, or several parts that
stay together for a while. All lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadRequest
from layout.piece import Piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.milling import thickness_of
from layout.stock.rough import Rough, StockChoice, matched_parts, rough_list
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
    """Every blank of the piece, by timber and thickness, sheets last. BadRequest
    where a match names no part, or one that can't be one blank.
    """
    found: dict[Kind, list[Blank]] = {}
    for one in rough_list(piece, stock):
        kind, blank = _of(one)
        found.setdefault(kind, []).append(blank)
    timbers = list(dict.fromkeys(kind.timber for kind in found))
    found = dict(sorted(found.items(), key=lambda pair: timbers.index(pair[0].timber)))
    for kind, blank in _of_sheets(piece, stock):
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


def _of(one: Rough) -> tuple[Kind, Blank]:
    """The blanks of one entry of the rough list."""
    if one.sold is None:
        kind = Kind(one.row.timber, min(one.row.thickness, one.row.width), sold=False)
    else:
        kind = Kind(one.row.timber, one.sold.rough, one.sold.name)
    name = f"{one.row.name}: {len(one.holds)} {one.how}" if one.holds else one.row.name
    return kind, Blank(name, _shares(one), one.length, one.width, thickness_of(one),
                       one.row.letter, one.match)


def _shares(one: Rough) -> tuple[tuple[str, ...], ...]:
    """The parts that come out of each board."""
    parts = one.row.parts
    if one.holds:
        return (parts,)
    if one.strips:
        return (parts,) * one.many
    blanks = [parts[at:at + one.gang] for at in range(0, len(parts), one.gang)]
    return tuple(blank for blank in blanks for _ in range(one.many // len(blanks)))


def _of_sheets(piece: Piece, stock: StockChoice) -> Iterator[tuple[Kind, Blank]]:
    """The blanks that sheets give, at their finished sizes; matches as one board."""
    matches = matched_parts(piece, stock.rack.matches)
    number = {part.id: at for at, parts in enumerate(matches) for part in parts}
    for match, parts in zip(stock.rack.matches, matches, strict=True):
        if match.how != "one board" and any(is_sheet(part.timber) for part in parts):
            raise BadRequest("parts of a sheet can't be one blank",
                             'match them as how = "one board"', match.where)
    for row in sheet_rows(piece):
        kind = Kind(row.timber, row.thickness, sheet=True)
        groups: dict[int | None, list[str]] = {}
        for part in row.parts:
            groups.setdefault(number.get(part), []).append(part)
        for at, held in groups.items():
            yield kind, Blank(row.name, tuple((part,) for part in held), row.length, row.width,
                              row.thickness, row.letter, at)


def sheet_rows(piece: Piece) -> tuple[Row, ...]:
    """The rows of the cut list that are cut from sheets of wood."""
    return tuple(row for row in cut_list(piece)
                 if row.parts and is_sheet(row.timber) and row.timber != "glass")
