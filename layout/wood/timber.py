"""The timbers of one piece: what each word of the maker's stands for, and what the year does to it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.errors import ShoulderlineError, Where
from layout.wood.moisture import Climate, Moisture, usual_climate
from layout.wood.movement import Movement, Way, movement
from layout.wood.species import Sawn, Wood, find, is_sheet

ZERO = Fraction(0)
STILL = Movement(ZERO, 3, "keeps its size")


class TimberChoice(NamedTuple):
    """What the maker says of a timber by its word: the wood of the tables (None: the word itself
    is looked up), how it is sawn, its moisture from a meter (None: as the climate says).
    """

    timber: str
    wood: Wood | None = None
    sawn: Sawn = "flat"
    moisture: Moisture | None = None
    where: Where = Where()


class Seasons(NamedTuple):
    """How one way of a board changes from now to the driest and to the wettest of the year."""

    dry: Movement
    wet: Movement

    @property
    def most(self) -> Fraction:
        """The share that it is ever larger than now, 0 or more."""
        return max(ZERO, self.dry.share, self.wet.share)

    @property
    def least(self) -> Fraction:
        """The share that it is ever smaller than now, 0 or less."""
        return min(ZERO, self.dry.share, self.wet.share)


class Timbers(NamedTuple):
    """The climate that the maker gave, None where none was, and what was said of timbers."""

    climate: Climate | None = None
    choices: tuple[TimberChoice, ...] = ()

    @property
    def year(self) -> Climate:
        """The maker's climate, or the usual one."""
        return usual_climate() if self.climate is None else self.climate

    def said_of(self, timber: str) -> TimberChoice:
        """What the maker said of this timber."""
        return next((one for one in self.choices if one.timber == timber), TimberChoice(timber))

    def wood(self, timber: str) -> Wood:
        """The wood that a timber's word stands for. BadWood where the tables don't have it."""
        choice = self.said_of(timber)
        return find(timber) if choice.wood is None else choice.wood

    def now(self, timber: str) -> Moisture:
        """Its moisture today."""
        return self.said_of(timber).moisture or self.year.now

    def sawn(self, timber: str, sawn: Sawn | None = None) -> Sawn:
        """How it is sawn: as said of the part, or else of the timber."""
        return sawn or self.said_of(timber).sawn

    def seasons(self, timber: str, way: Way, sawn: Sawn | None = None) -> Seasons:
        """What the year does to a board's width or thickness. BadWood where that isn't known."""
        if is_sheet(timber):
            return Seasons(STILL, STILL)
        cut, now, year = self.sawn(timber, sawn), self.now(timber), self.year
        try:
            wood = self.wood(timber)
            return Seasons(
                movement(wood, cut, way, now, year.dry), movement(wood, cut, way, now, year.wet)
            )
        except ShoulderlineError as error:
            raise error.at(self.said_of(timber).where) from None
