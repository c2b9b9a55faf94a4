"""What is asked, and what is answered: beds to cut from, items to cut, patterns of one bed.

All sizes are whole numbers of one unit. A pattern is cut in stages: sections right across the bed,
each section into strips along it, each strip into its items (all of one kind), end to end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple


class Block(NamedTuple):
    """A rectangle of a bed that nothing may be cut from: along its length, across its width.
    Neither way may it be narrower than the saw's cut, which goes through it.
    """

    start: int
    end: int
    low: int
    high: int


class Bed(NamedTuple):
    """What is cut up: its length and width, its cost (at least 1), how many there are (None: as
    many as are wanted), where nothing may be cut from; whether its sections may also run the other
    way (`turn`), and whether items may lie on it the other way too (`any_way`).
    """

    length: int
    width: int
    cost: int
    supply: int | None = None
    blocks: tuple[Block, ...] = ()
    turn: bool = False
    any_way: bool = False

    @property
    def turned(self) -> Bed:
        """The same bed with length and width exchanged."""
        return self._replace(
            length=self.width, width=self.length,
            blocks=tuple(Block(one.low, one.high, one.start, one.end) for one in self.blocks))


class Item(NamedTuple):
    """What is wanted: length, width, how many."""

    length: int
    width: int
    demand: int


class Job(NamedTuple):
    """Beds, items and the saw's cut. `together`: items (by index) that must come from one bed.
    `stack`: a strip may hold several of an item end to end, not one only.
    """

    beds: tuple[Bed, ...]
    items: tuple[Item, ...]
    kerf: int = 0
    together: tuple[tuple[int, ...], ...] = ()
    stack: bool = True


class Strip(NamedTuple):
    """One strip of a section: so many copies of an item end to end, from `low` on across the bed;
    `length` and `width` as each lies there.
    """

    item: int
    copies: int
    low: int
    length: int
    width: int


class Section(NamedTuple):
    """A stretch of the bed's length, and its strips from low to high."""

    start: int
    length: int
    strips: tuple[Strip, ...]


class Pattern(NamedTuple):
    """How one bed is cut up. `turned`: its sections run the other way, and all its numbers are in
    the turned bed.
    """

    bed: int
    sections: tuple[Section, ...]
    turned: bool = False

    @property
    def counts(self) -> Counter[int]:
        """How many of each item it gives."""
        found: Counter[int] = Counter()
        for strip in self.strips:
            found[strip.item] += strip.copies
        return found

    @property
    def strips(self) -> Iterator[Strip]:
        """All its strips."""
        for section in self.sections:
            yield from section.strips
