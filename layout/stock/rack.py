"""Boards and sheets that are there, sizes that can be bought, and parts that belong on one board.

All lengths in mm. Along a board is from its end A, across it from its near edge.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple, get_args

from layout.errors import Where

How = Literal["one board", "end to end", "side by side"]
HOWS: tuple[How, ...] = get_args(How)


class KeepOut(NamedTuple):
    """What is cut around: a knot, a split, a strip of sapwood. `start` to `end` along the board,
    `low` to `high` across it.
    """

    start: Fraction
    end: Fraction
    low: Fraction
    high: Fraction
    why: str = ""


class Board(NamedTuple):
    """A board or sheet. `planed`: the thickness is what it has planed, not rough. `grain`: pieces
    lie along it only; a sheet without may have them either way. `rest_of`: the name of the board
    that it is the rest of, and `starts` how far from that one's end A.
    """

    name: str
    timber: str
    thickness: Fraction
    width: Fraction
    length: Fraction
    planed: bool = False
    grain: bool = True
    keep_out: tuple[KeepOut, ...] = ()
    rest_of: str = ""
    starts: Fraction = Fraction(0)


class Size(NamedTuple):
    """A size that can be bought; with no timber or thickness named, of every one."""

    timber: str | None
    thickness: Fraction | None
    width: Fraction
    length: Fraction
    grain: bool = True


class Match(NamedTuple):
    """Parts, by their names, that are to come from one board: anyhow, or as one blank, in this
    order end to end or side by side. `where` it was asked for.
    """

    parts: tuple[str, ...]
    how: How
    where: Where = Where()


class RackChoice(NamedTuple):
    """What is there, what can be bought, what belongs together; in mm: what comes off each end of a
    board and off its edge before it is ripped; how much thicker than asked a board may be; the
    usual board to buy, how long, and sheet.
    """

    boards: tuple[Board, ...]
    sizes: tuple[Size, ...]
    matches: tuple[Match, ...]
    ends: Fraction
    edge: Fraction
    thicker: Fraction
    length: Fraction
    sheet: tuple[Fraction, Fraction]


NOTHING = RackChoice((), (), (), *(Fraction(0),) * 4, (Fraction(0), Fraction(0)))


def same_timber(one: str, other: str) -> bool:
    """Do two names mean one timber: large letters and small are the same."""
    return one.casefold() == other.casefold()
