"""What a maker can choose of a frame: legs, rails, cross rails, measured parts. Lengths in mm."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.opening import Side
from layout.errors import Where
from layout.joints.choices import TenonChoice


class LegChoice(NamedTuple):
    """A leg's section in mm: width seen from the front, thickness seen from the side."""

    width: Fraction
    thickness: Fraction


class RailChoice(NamedTuple):
    """One rail of the maker's list, in mm; it stands on every side named.

    Exactly one of `below_top` (of the leg, to the rail's top edge; 0 is flush), `above_floor`
    (to its bottom edge) and `centred` (in the leg's length) is given.
    """

    name: str
    sides: tuple[Side, ...]
    width: Fraction
    thickness: Fraction
    set_in: Fraction
    tenon: TenonChoice
    below_top: Fraction | None = None
    above_floor: Fraction | None = None
    centred: bool = False
    timber: str = ""
    where: Where = Where()


class CrossChoice(NamedTuple):
    """A rail between two other parts of the frame: a stretcher, a muntin, a runner, a kicker.

    `rail` holds its sizes and its tenon. It stands between the two parts named; `upright` says
    that a level one stands on edge, else it lies flat. `places` are where its nearer sides stand
    from the frame's left, from its front and above the floor; None is the middle of its bearers.
    """

    rail: RailChoice
    between: tuple[str, str]
    upright: bool = True
    places: tuple[Fraction | None, ...] = (None, None, None)


class Milled(NamedTuple):
    """A part's sizes as they came off the machines, in mm; None where it is as drawn."""

    part: str
    width: Fraction | None = None
    thickness: Fraction | None = None
    where: Where = Where()


class AsMilled(NamedTuple):
    """Measured parts, and what is held: the size over the legs, or the shoulder distances of
    rails that are cut already.
    """

    parts: tuple[Milled, ...] = ()
    held: Literal["overall", "shoulders"] = "overall"

    def of(self, name: str) -> Milled:
        """What was measured of the part of this name."""
        return next((one for one in self.parts if one.part == name), Milled(name))


class FrameChoice(NamedTuple):
    """Overall sizes over the legs in mm, the legs and the rails."""

    length: Fraction
    depth: Fraction
    height: Fraction
    leg: LegChoice
    rails: tuple[RailChoice, ...]
    timber: str = ""
    where: Where = Where()
    crosses: tuple[CrossChoice, ...] = ()
    milled: AsMilled = AsMilled()
