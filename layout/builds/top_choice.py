"""What a maker can choose of a top."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import Where
from layout.joints.dogs import DogChoice
from layout.joints.end_cap import CapChoice
from layout.joints.fixing import FixingChoice
from layout.joints.strips import StripChoice
from layout.wood.species import Sawn

ZERO = Fraction(0)
Hand = Literal["left", "right"]


class Overhang(NamedTuple):
    """How far a top reaches beyond what it lies on, in mm."""

    front: Fraction
    back: Fraction
    left: Fraction
    right: Fraction


class RowChoice(NamedTuple):
    """A row of holes in a top (several at the same places, if it has several lines), and the least
    from a hole's edge to a glue line where it must keep clear of those (None: it need not). Square
    holes are cut into a strip of its own of the width `strip`, `front` mm from the front edge.
    """

    dogs: DogChoice
    off_glue: Fraction | None = None
    front: Fraction = ZERO
    strip: Fraction = ZERO


class TopChoice(NamedTuple):
    """A top: on a frame or a carcase (`on`; None: on the frame), or by itself of a stated `size`;
    its thickness, and everything that is made in it. `vise`: at which end places of dog holes are
    counted from. `below`: how far under the top a hole needs room, in mm.
    """

    name: str
    thickness: Fraction
    size: tuple[Fraction, Fraction] | None = None
    on: str | None = None
    overhang: Overhang = Overhang(ZERO, ZERO, ZERO, ZERO)
    timber: str = ""
    sawn: Sawn | None = None
    strips: StripChoice | None = None
    caps: CapChoice | None = None
    fixing: FixingChoice | None = None
    vise: Hand = "left"
    below: Fraction = ZERO
    rows: tuple[RowChoice, ...] = ()
    where: Where = Where()
