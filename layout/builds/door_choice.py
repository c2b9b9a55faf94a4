"""What a maker can choose of frame-and-panel doors. Lengths in mm, None where a rule works it out.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.box_choices import Space
from layout.builds.panel_fit import FitChoice
from layout.errors import Where
from layout.joints.choices import TenonChoice
from layout.joints.seat import SeatChoice
from layout.wood.species import Sawn

ZERO = Fraction(0)
Hand = Literal["left", "right"]


class DoorRail(NamedTuple):
    """A rail of a door: its width and tenons. `above` is clear space between it and the rail below
    it, for a middle rail; None shares what is left out equally.
    """

    width: Fraction
    tenon: TenonChoice
    above: Fraction | None = None
    where: Where = Where()


class MuntinChoice(NamedTuple):
    """Uprights that divide one row of a door's panels, or every row (`row` None; the lowest is 1):
    how many, how wide, their tenons.
    """

    row: int | None
    many: int
    width: Fraction
    tenon: TenonChoice
    where: Where = Where()


class Gaps(NamedTuple):
    """What is free around an inset door: at each side, above, below, and between a pair. An overlay
    door covers its opening by `over` on every side instead.
    """

    sides: Fraction
    top: Fraction
    bottom: Fraction
    between: Fraction
    over: Fraction = ZERO


class HingeChoice(NamedTuple):
    """Butt hinges along the stile: how long a leaf is, how many, how far from the door's ends to
    the outermost (None: one hinge's length), and the least wood between hinge and mortise.
    """

    length: Fraction
    many: int
    from_ends: Fraction | None
    clear: Fraction


class LockChoice(NamedTuple):
    """A lock or knob on the other stile: its height along it, the middle of it above the door's
    foot (None: half way up), and the least wood between it and a mortise.
    """

    length: Fraction
    above: Fraction | None
    clear: Fraction


class DoorChoice(NamedTuple):
    """A door of the maker's list; one, or a pair, is made for every opening named or for a space.

    `rebate` is how far the meeting stiles of a pair lie over each other (0: they only meet).
    `horn` is what the stiles are left longer by at each end until glued up, `trim` what a through
    tenon is left proud to be planed off. `open_lip`: the grooves' depth follows from the year.
    """

    name: str
    openings: tuple[str, ...]
    space: Space | None
    pair: bool
    mount: Literal["inset", "overlay"]
    set_in: Fraction
    gaps: Gaps
    thickness: Fraction
    stile: Fraction
    top: DoorRail
    bottom: DoorRail
    middles: tuple[DoorRail, ...]
    muntins: tuple[MuntinChoice, ...]
    seat: SeatChoice
    panel: FitChoice
    panel_name: str = "panel"
    open_lip: bool = False
    rebate: Fraction = ZERO
    horn: Fraction = ZERO
    trim: Fraction = ZERO
    hand: Hand = "left"
    hinges: HingeChoice | None = None
    lock: LockChoice | None = None
    timber: str = ""
    sawn: Sawn | None = None
    where: Where = Where()

    @property
    def rebate_width(self) -> Fraction:
        """How wide the rebate of a meeting stile is, with the gap in it; 0 where there is none."""
        return self.rebate + self.gaps.between if self.rebate else ZERO
