"""A top glued up of strips: how many, how wide, of what staves, in which sections, with how many
clamps and how much glue. Pure arithmetic; all lengths in mm.

Boards lie flat and are glued edge to edge, or stand on edge and are glued face to face (a laminated
top: Charles G. Wheeler, Woodworking for Beginners, 1899/1900, Part V, A First-Class Bench). The
number of strips is the width over the widest strip, rounded up (arithmetic). Staves shorter than
the top are butted, and their ends kept apart from those of the strips beside them. Allowances,
stagger, clamps and glue: defaults.toml, each with its source.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate
from typing import Literal, NamedTuple

from layout.errors import BadPiece, Where

ZERO = Fraction(0)
MOST_STRIPS = 100
MOST_STAVES = 20
Lay = Literal["flat", "on edge"]
Heart = Literal["up", "alternate"]


class Spare(NamedTuple):
    """What is left on for later, in mm: `milling` of a rough board's thickness, `edge` of its width
    when it is jointed, `flat` of the glued-up top's thickness, `end` at each end of it.
    """

    milling: Fraction
    edge: Fraction
    flat: Fraction
    end: Fraction


class StripChoice(NamedTuple):
    """The stock that a top is glued up of: rough thickness and width of the boards and their length
    (None: longer than the top), the widest that the planer passes (None: any). `stagger` is the
    least between the ends of staves side by side. `caul`: thickness of the battens under the
    clamps; `reach`: widest spacing of clamps; `spread`: glue in grams to the square metre.
    """

    lay: Lay
    thickness: Fraction
    width: Fraction
    length: Fraction | None
    planer: Fraction | None
    heart: Heart
    spare: Spare
    stagger: Fraction
    caul: Fraction
    reach: Fraction
    spread: Fraction
    where: Where = Where()

    @property
    def widest(self) -> Fraction:
        """How much of the top's width one strip can take."""
        if self.lay == "flat":
            return self.width - self.spare.edge
        return self.thickness - self.spare.milling


class Strip(NamedTuple):
    """One strip as it lies in the finished top: from where to where, counted from the front edge;
    and its staves by length from end A, with what is trimmed off the top's ends.
    """

    low: Fraction
    high: Fraction
    staves: tuple[Fraction, ...]

    @property
    def width(self) -> Fraction:
        """How much of the top's width it takes."""
        return self.high - self.low


class Strips(NamedTuple):
    """A top's strips, and what they are glued up by: `sections` counts the strips in each."""

    choice: StripChoice
    length: Fraction
    thickness: Fraction
    strips: tuple[Strip, ...]
    sections: tuple[int, ...]

    @property
    def milled(self) -> Fraction:
        """How thick the glue-up is before it is planed flat."""
        return self.thickness + self.choice.spare.flat

    @property
    def long(self) -> Fraction:
        """How long it is before its ends are trimmed."""
        return self.length + 2 * self.choice.spare.end

    @property
    def lines(self) -> tuple[Fraction, ...]:
        """The glue lines, from the front edge."""
        return tuple(strip.high for strip in self.strips[:-1])

    @property
    def section_widths(self) -> tuple[Fraction, ...]:
        """How wide each section is, from the front."""
        ends = list(accumulate(self.sections))
        return tuple(
            self.strips[end - 1].high - self.strips[end - count].low
            for end, count in zip(ends, self.sections, strict=True)
        )

    @property
    def glue_area(self) -> Fraction:
        """Square mm of joints between strips, and between staves end to end."""
        beside = len(self.lines) * self.long * self.milled
        ends = sum(((len(one.staves) - 1) * one.width for one in self.strips), ZERO) * self.milled
        return beside + ends

    @property
    def glue(self) -> Fraction:
        """Grams of glue, at the spread that was taken."""
        return self.glue_area / 1_000_000 * self.choice.spread

    @property
    def clamp_spacing(self) -> Fraction:
        """The widest that clamps may stand apart: pressure spreads at 45 degrees from each, through
        caul and outermost strip, to the first glue line; no more than `reach`.
        """
        outer = min(self.strips[0].width, self.strips[-1].width)
        return min(2 * (self.choice.caul + outer), self.choice.reach)

    @property
    def clamps(self) -> int:
        """How many clamps: the outermost no farther than half a spacing from the ends."""
        return -int(-self.long // self.clamp_spacing)

    @property
    def per_board(self) -> int:
        """How many strips a rough board gives across its width, the saw's cut within the edge's
        allowance.
        """
        if self.choice.lay == "flat":
            return 1
        return int(self.choice.width // (self.milled + self.choice.spare.edge))


def glued_up(
    choice: StripChoice, length: Fraction, thickness: Fraction, slabs: Sequence[Fraction],
    fixed: Sequence[bool] = (),
) -> Strips:
    """Strips for a top of this length and thickness, glued up of slabs of these widths from the
    front; a slab that is `fixed` is one strip. BadPiece where the stock can't give them.
    """
    spare = choice.spare
    if choice.widest <= 0:
        raise BadPiece("the allowances leave nothing of the stock",
                       "use wider or thicker stock", choice.where)
    deep = choice.thickness - spare.milling if choice.lay == "flat" else choice.width - spare.edge
    if deep < thickness + spare.flat:
        word = "thick" if choice.lay == "flat" else "wide"
        raise BadPiece(f"the stock is not {word} enough for the top and what is planed off it",
                       "use heavier stock, or make the top thinner", choice.where)
    widths: list[Fraction] = []
    for number, slab in enumerate(slabs):
        many = 1 if number < len(fixed) and fixed[number] else -int(-slab // choice.widest)
        if many > MOST_STRIPS:
            raise BadPiece(f"the top needs {many} strips", f"at most {MOST_STRIPS}: check the "
                           "sizes and their unit", choice.where)
        if slab / many > choice.widest:
            raise BadPiece("the dog strip is wider than the stock gives",
                           "make it narrower, or use wider stock", choice.where)
        widths += [slab / many] * many
    ends = list(accumulate(widths))
    staves = _staves(choice, length + 2 * spare.end)
    strips = tuple(
        Strip(end - width, end, staves[number % 2])
        for number, (width, end) in enumerate(zip(widths, ends, strict=True))
    )
    return Strips(choice, length, thickness, strips, _sections(choice, widths))


def stave_stagger(strips: Strips) -> Fraction | None:
    """The least between stave ends of strips side by side; None where there are no such ends."""
    if len(strips.strips) < 2:
        return None
    odd, even = (set(accumulate(one.staves[:-1])) for one in strips.strips[:2])
    return min((abs(one - other) for one in odd for other in even), default=None)


def _staves(
    choice: StripChoice, long: Fraction
) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """The staves of every odd and every even strip.

    As few staves as can be, of one length, where shifting their ends to and fro by what the boards
    are longer gives the stagger; otherwise every other strip begins and ends with half a stave.
    """
    if choice.length is None or choice.length >= long:
        return (long,), (long,)
    many = -int(-long // choice.length)
    if many > MOST_STAVES:
        raise BadPiece(f"each strip would be of {many} staves", f"at most {MOST_STAVES}",
                       choice.where)
    each = long / many
    shift = min(choice.length - each, each / 4)
    if 2 * shift >= choice.stagger:
        inner = (each,) * (many - 2)
        return ((each + shift, *inner, each - shift), (each - shift, *inner, each + shift))
    half = each / 2
    return (each,) * many, (half, *(each,) * (many - 1), half)


def _sections(choice: StripChoice, widths: list[Fraction]) -> tuple[int, ...]:
    """As few sections as pass the planer, the widest as narrow as can be; of such the first ones
    as wide as may be.
    """
    if choice.planer is None:
        return (len(widths),)
    if max(widths) > choice.planer:
        raise BadPiece("a strip is wider than the planer passes",
                       "use narrower stock, or leave planer out", choice.where)
    many = len(_filled(widths, choice.planer))
    starts = [ZERO, *accumulate(widths)]
    spans = sorted({high - low for low in starts for high in starts if low < high})
    least = next(span for span in spans
                 if span >= max(widths) and len(_filled(widths, span)) <= many)
    return _filled(widths, least)


def _filled(widths: list[Fraction], most: Fraction) -> tuple[int, ...]:
    """How many strips each section takes where every one is filled up to `most`."""
    counts, wide = [0], ZERO
    for width in widths:
        if counts[-1] and wide + width > most:
            counts.append(0)
            wide = ZERO
        counts[-1] += 1
        wide += width
    return tuple(counts)
