"""How tails and pins share the width of a dovetailed corner, exactly.

The width is told from its near edge, the face edge of both boards, as a chain: half pin, tail,
pin, tail, ... half pin; where no half pin is wanted, the outermost tails run to the edges. Every
member has two sizes: at the end, where tails are widest and pins narrowest, and at the baseline.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import Literal, NamedTuple

from layout.errors import BadPiece, Where
from layout.joints.section import Terms
from layout.measure.slope import Slope

ZERO = Fraction(0)
MOST_TAILS = 100
Kind = Literal["half pin", "pin", "tail"]
Span = tuple[Fraction, Fraction]


class DovetailChoice(NamedTuple):
    """What the maker chooses of dovetails, lengths in mm.

    `lap` is what is left over the tails' ends; None for through dovetails. `pin` is a pin's
    narrowest width, at the end. `half_pin` is that of both half pins; None makes them as wide at
    the baseline as a whole pin. One of `tails` (how many), `tail_width` (about how wide at the
    end) and `pins_at` (middles of the pins from the face edge) says how the tails lie.
    `graduated` is what each tail is of the next one toward the middle. `edges` says what stands
    at the edges; `first` which board is cut first and laid on the other to mark it.
    """

    slope: Slope
    pin: Fraction
    tail_width: Fraction | None
    tails: int | None = None
    pins_at: tuple[Fraction, ...] = ()
    half_pin: Fraction | None = None
    lap: Fraction | None = None
    graduated: Fraction = Fraction(1)
    edges: Literal["half pins", "half tails"] = "half pins"
    first: Literal["tails", "pins"] = "tails"
    where: Where = Where()


class Wishes(NamedTuple):
    """What else lies in the corner and wants its place, in mm from the near edge.

    `groove` should fall inside a tail, `clear` away from its sides; rabbets along an edge want
    a half pin at least as wide as they are.
    """

    groove: Span | None = None
    clear: Fraction = ZERO
    rabbet_near: Fraction = ZERO
    rabbet_far: Fraction = ZERO


NOTHING_ELSE = Wishes()


class Member(NamedTuple):
    """A tail, a pin or a half pin: its widths at the end and at the baseline, in mm, and its
    number among its kind, from 1.
    """

    kind: Kind
    number: int
    end: Fraction
    base: Fraction

    @property
    def name(self) -> str:
        """`tail 2`; `half pin 1` at the near edge, `half pin 2` at the far one."""
        return f"{self.kind} {self.number}"


class Spacing(NamedTuple):
    """A width shared out. `offset` is how far a side slopes over the tails' length, in mm;
    `halves` are the sums of the two half pins at the end.
    """

    choice: DovetailChoice
    width: Fraction
    depth: Fraction
    offset: Fraction
    members: tuple[Member, ...]
    halves: tuple[Terms, Terms]

    @property
    def tails(self) -> tuple[Member, ...]:
        """The tails from the near edge."""
        return tuple(one for one in self.members if one.kind == "tail")

    @property
    def pins(self) -> tuple[Member, ...]:
        """The pins, half pins too, from the near edge."""
        return tuple(one for one in self.members if one.kind != "tail")

    def at_end(self, index: int) -> Span:
        """Where a member of the chain lies at the end, in mm from the near edge."""
        ends = [ZERO, *accumulate(one.end for one in self.members)]
        return ends[index], ends[index + 1]

    def at_base(self, index: int) -> Span:
        """Where it lies at the baseline."""
        ends = [ZERO, *accumulate(one.base for one in self.members)]
        return ends[index], ends[index + 1]

    @property
    def step(self) -> Fraction | None:
        """The divider step, a tail and a pin, where all are equal; else None."""
        steps = {
            tail.end + pin.end
            for tail, pin in pairwise(self.members)
            if tail.kind == "tail" and pin.kind == "pin"
        }
        last = {one.end for one in self.tails}
        return steps.pop() if len(steps) == 1 and len(last) == 1 else None


def tail_length(choice: DovetailChoice, pin_board: Fraction) -> Fraction:
    """How long the tails are: the pin board's thickness (mm), less the lap."""
    return pin_board - (choice.lap or ZERO)


def space(
    choice: DovetailChoice, width: Fraction, depth: Fraction, wishes: Wishes = NOTHING_ELSE
) -> Spacing:
    """Tails and pins over a width, with tails of a length; all in mm.

    BadPiece where they don't fit, with what would.
    """
    offset = choice.slope.offset(depth)
    sums = _halves(choice, offset, wishes)
    if choice.pins_at:
        return _around(choice, width, depth, offset, sums)
    halves = _value(sums[0]), _value(sums[1])
    count = choice.tails
    if choice.edges == "half tails" and count == 1:
        raise BadPiece(
            "one tail that runs to both edges has no pin beside it",
            "make it 2 tails or more, or leave half pins at the edges",
            choice.where,
        )
    least = 2 if choice.edges == "half tails" else 1
    if count is None:
        count = _count(choice, width, halves)
        if count > MOST_TAILS or not _fits(choice, width, offset, halves, count):
            count = max(least, min(count, _most(choice, width, offset, halves)))
    if count > MOST_TAILS or not _fits(choice, width, offset, halves, count):
        most = _most(choice, width, offset, halves)
        raise _no_room(choice, count, most)
    tails = _tails(choice, width, halves, count)
    return Spacing(choice, width, depth, offset, _chain(choice, offset, halves, tails), sums)


def tail_share(spacing: Spacing, number: int) -> Fraction:
    """Which share of all the wood for tails this tail takes (number from 1)."""
    weights = _weights(spacing.choice, len(spacing.tails))
    return weights[number - 1] / sum(weights)


def tail_around(spacing: Spacing, span: Span) -> Member | None:
    """The tail that a groove lies wholly inside, measured at the baseline where tails are
    narrowest; None where there is none. `span` is in mm from the near edge of the joint.
    """
    for index, one in enumerate(spacing.members):
        low, high = spacing.at_base(index)
        if one.kind == "tail" and low <= span[0] and span[1] <= high:
            return one
    return None


def most_tails(
    choice: DovetailChoice, width: Fraction, depth: Fraction, wishes: Wishes = NOTHING_ELSE
) -> int:
    """The greatest number of tails that still have wood at their baseline; 0 where none has."""
    offset = choice.slope.offset(depth)
    sums = _halves(choice, offset, wishes)
    return _most(choice, width, offset, (_value(sums[0]), _value(sums[1])))


def _halves(choice: DovetailChoice, offset: Fraction, wishes: Wishes) -> tuple[Terms, Terms]:
    """The sums of both half pins' narrow widths; none where tails run to the edges.

    As wide at the baseline as a whole pin: so George A. Ross, Elementary Course in Woodwork,
    1901, Exercise 7, and Ira S. Griffith, Correlated Courses, 1912, Plate 40 (right). A half pin
    gives way to a groove, as long as it keeps half a pin, and grows with a rabbet.
    """
    if choice.edges == "half tails":
        return (), ()
    if choice.half_pin is not None:
        given: Terms = ((+1, "half pin", choice.half_pin),)
        return given, given
    usual: Terms = ((+1, "pin", choice.pin), (+1, "slope over the tail", offset))
    near, far = (
        ((+1, "width of the rabbet", rabbet),) if rabbet > _value(usual) else usual
        for rabbet in (wishes.rabbet_near, wishes.rabbet_far)
    )
    if wishes.groove is not None:
        room: Terms = (
            (+1, "groove from the face edge", wishes.groove[0]),
            (-1, "wood between groove and tail side", wishes.clear),
            (-1, "slope over the tail", offset),
        )
        if max(choice.pin / 2, wishes.rabbet_near) <= _value(room) < _value(near):
            near = room
    return near, far


def _value(terms: Terms) -> Fraction:
    return sum((sign * value for sign, _, value in terms), ZERO)


def _weights(choice: DovetailChoice, count: int) -> list[Fraction]:
    """How the tails share their wood: graduated toward the edges, half tails at them."""
    weights = [choice.graduated ** min(i, count - 1 - i) for i in range(count)]
    # told from the middle: the middle tails weigh 1
    middle = choice.graduated ** ((count - 1) // 2)
    weights = [middle / weight for weight in weights]
    if choice.edges == "half tails" and count > 1:
        weights[0] /= 2
        weights[-1] /= 2
    return weights


def _count(choice: DovetailChoice, width: Fraction, halves: Span) -> int:
    """How many tails come nearest to the width that is wanted of one."""
    wanted = choice.tail_width or choice.pin
    pitch = wanted + choice.pin
    whole = (width - sum(halves) + choice.pin) / pitch
    if choice.edges == "half tails":
        whole += 1 - choice.pin / pitch
    return max(2 if choice.edges == "half tails" else 1, int(whole + Fraction(1, 2)))


def _tails(
    choice: DovetailChoice, width: Fraction, halves: Span, count: int
) -> list[Fraction]:
    """The widths of so many tails at the end; they may come out less than nothing."""
    wood = width - sum(halves) - (count - 1) * choice.pin
    weights = _weights(choice, count)
    return [wood * weight / sum(weights) for weight in weights]


def _fits(
    choice: DovetailChoice, width: Fraction, offset: Fraction, halves: Span, count: int
) -> bool:
    """True where each of so many tails has wood at its baseline."""
    chain = _chain(choice, offset, halves, _tails(choice, width, halves, count))
    return all(one.base > 0 for one in chain if one.kind == "tail")


def _most(choice: DovetailChoice, width: Fraction, offset: Fraction, halves: Span) -> int:
    """The greatest number of tails that fit; 0 where not even one does."""
    count = 0
    while count < MOST_TAILS and _fits(choice, width, offset, halves, count + 1):
        count += 1
    return count


def _chain(
    choice: DovetailChoice, offset: Fraction, halves: Span, tails: Sequence[Fraction]
) -> tuple[Member, ...]:
    """The members in order, each with both sizes."""
    chain: list[Member] = []
    to_edge = choice.edges == "half tails"
    if not to_edge:
        chain.append(Member("half pin", 1, halves[0], halves[0] + offset))
    for index, tail in enumerate(tails):
        if index > 0:
            chain.append(Member("pin", index, choice.pin, choice.pin + 2 * offset))
        slopes = 2
        if to_edge:
            slopes -= (index == 0) + (index == len(tails) - 1)
        chain.append(Member("tail", index + 1, tail, tail - slopes * offset))
    if not to_edge:
        chain.append(Member("half pin", 2, halves[1], halves[1] + offset))
    return tuple(chain)


def _around(
    choice: DovetailChoice,
    width: Fraction,
    depth: Fraction,
    offset: Fraction,
    sums: tuple[Terms, Terms],
) -> Spacing:
    """Tails between pins whose middles are given."""
    halves = _value(sums[0]), _value(sums[1])
    half = choice.pin / 2
    starts = [halves[0], *(middle + half for middle in choice.pins_at)]
    stops = [*(middle - half for middle in choice.pins_at), width - halves[1]]
    tails = [stop - start for start, stop in zip(starts, stops, strict=True)]
    members = _chain(choice, offset, halves, tails)
    if any(one.base <= 0 for one in members if one.kind == "tail"):
        raise BadPiece(
            "the pins stand so close that a tail between them, or at the edge, has no wood left "
            "at its baseline",
            "give the middles of the pins in order from the face edge, further apart",
            choice.where,
        )
    return Spacing(choice, width, depth, offset, members, sums)


def _no_room(choice: DovetailChoice, count: int, most: int) -> BadPiece:
    if most == 0:
        return BadPiece(
            "there is no room for a tail between the half pins",
            "make the half pins or the slope less, or the boards wider",
            choice.where,
        )
    if most == 1 and choice.edges == "half tails":
        return BadPiece(
            "there is no room for two half tails and the pin between them",
            "make the pin or the slope less, or the boards wider",
            choice.where,
        )
    fits = "at most 1 tail fits" if most == 1 else f"at most {most} tails fit"
    return BadPiece(
        f"{count} tails don't fit: they would have no wood left at their baseline",
        f"{fits} with pins and half pins like these",
        choice.where,
    )
