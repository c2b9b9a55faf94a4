"""Slots: holes made long so that a screw or a peg follows the wood as it swells and shrinks.

What lies `away` from the line where the wood is held goes farther from it by away x swelling and
nearer to it by away x shrinking (arithmetic on the year's movement). The slot is as long as the
hole, and both of these, and the room left at each end.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.joints.section import Terms
from layout.mark import Cut, Cylinder, Hull
from layout.part import AXES, Axis, Part

ZERO = Fraction(0)


class Slot(NamedTuple):
    """A hole of `size` and how far its middle goes, in mm: `out` from the held line, `back` to it,
    `room` more at each end. Where it lies on the held line it is round.
    """

    size: Fraction
    out: Fraction
    back: Fraction
    room: Fraction

    @property
    def length(self) -> Fraction:
        """Its whole length, in mm."""
        return self.size + self.out + self.back + 2 * self.room

    def reach(self, outward: int) -> tuple[Fraction, Fraction]:
        """How far it reaches from today's middle toward its low and its high end, in mm; `outward`
        is +1 where the held line lies at the low side.
        """
        far, near = (self.size / 2 + by + self.room for by in (self.out, self.back))
        return (near, far) if outward > 0 else (far, near)

    @property
    def terms(self) -> Terms:
        """Its length as a sum."""
        found: Terms = ((+1, "hole", self.size),)
        if self.out:
            found = (*found, (+1, "swelling, from today to the wettest", self.out))
        if self.back:
            found = (*found, (+1, "shrinking, from today to the driest", self.back))
        if self.room:
            found = (*found, (+1, "room at both ends", 2 * self.room))
        return found


def slot_for(
    size: Fraction, away: Fraction, most: Fraction, least: Fraction, room: Fraction
) -> Slot:
    """The slot at a distance from the held line, for shares of swelling (0 or more) and shrinking
    (0 or less).
    """
    if away == 0:
        return Slot(size, ZERO, ZERO, ZERO)
    return Slot(size, abs(away) * most, -abs(away) * least, room)


def slot_cuts(
    part: Part,
    joint: str,
    role: str,
    bore: Axis,
    along: Axis,
    centre: dict[Axis, Fraction],
    slot: Slot,
    outward: int,
    deep: tuple[Fraction, Fraction],
) -> Iterator[Cut]:
    """A slot bored along one axis and long along another; `centre` is where its screw stands today,
    `outward` is +1 where the held line lies lower along the slot.
    """
    radius = slot.size / 2
    low, high = slot.reach(outward)
    ends = sorted({centre[along] - low + radius, centre[along] + high - radius})
    words = ("",) if len(ends) == 1 else (", one end", ", other end")
    for end, word in zip(ends, words, strict=True):
        at = {**centre, along: end}
        spot = [at[axis] for axis in AXES if axis != bore]
        yield Cut(part.id, joint, role + word,
                  Cylinder(bore, (spot[0], spot[1]), radius, *deep))
    if len(ends) == 2:
        reach: dict[Axis, tuple[Fraction, Fraction]] = {
            axis: (at - radius, at + radius) for axis, at in centre.items()
        }
        reach[along], reach[bore] = (ends[0], ends[1]), deep
        yield Cut(part.id, joint, f"{role}, between",
                  Hull(tuple((x, y, z) for x in reach["L"] for y in reach["W"]
                             for z in reach["T"])))
