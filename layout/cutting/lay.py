"""The best sections for a bed, at given prices: along its length, past what must be kept out of.

Only places matter that a section can have when all are pushed toward the start, against each other
or against the end of a block (normal positions: J. C. Herz, Recursive computational procedure for
two-dimensional stock cutting, 1972; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from layout.cutting.job import Bed, Job, Pattern, Section, Strip
from layout.cutting.strips import Floats, Table, Variant, lengths, table, variants

Ints = NDArray[np.int64]
Clear = tuple[tuple[int, int], ...]  # (low, width) of each clear stretch across a section


class Lay(NamedTuple):
    """A bed one way round, ready to be asked again and again: its places, and for each length of
    section and place what is clear there and where the next section may start.
    """

    bed: Bed
    bed_number: int
    turned: bool
    kinds: tuple[Variant, ...]
    lengths: tuple[int, ...]
    places: tuple[int, ...]
    after: Ints
    which: Ints
    clears: tuple[tuple[int, Clear], ...]


def lays(job: Job) -> tuple[Lay, ...]:
    """Every bed of the job, each way that its sections may run."""
    found = []
    for index, bed in enumerate(job.beds):
        found.append(_lay(job, index, bed, False))
        if bed.turn:
            found.append(_lay(_turned(job), index, bed.turned, True))
    return tuple(found)


def _turned(job: Job) -> Job:
    """The job as it looks from a turned bed."""
    return job._replace(items=tuple(
        one._replace(length=one.width, width=one.length) for one in job.items))


def _lay(job: Job, index: int, bed: Bed, turned: bool) -> Lay:
    kinds = variants(job, bed)
    longs = lengths(kinds)
    places = _places(bed, longs, job.kerf)
    at = {place: number for number, place in enumerate(places)}
    after = np.zeros((len(places), max(len(longs), 1)), dtype=np.int64)
    which = np.zeros_like(after)
    clears: dict[tuple[int, Clear], int] = {(0, ()): 0}
    for number, start in enumerate(places):
        for kind, length in enumerate(longs):
            end = start + length
            fits = end <= bed.length
            key = (kind, _clear(bed, start, end)) if fits else (0, ())
            which[number, kind] = clears.setdefault(key, len(clears))
            after[number, kind] = at.get(end + job.kerf, len(places)) if fits else number + 1
    return Lay(bed, index, turned, kinds, longs, places, after, which, tuple(clears))


def _places(bed: Bed, longs: Sequence[int], kerf: int) -> tuple[int, ...]:
    """Where a section may start: the bed's own start, the ends of blocks, and after sections."""
    found = {0, *(block.end for block in bed.blocks)}
    waiting = sorted(found)
    least = min(longs, default=bed.length + 1)
    while waiting:
        start = waiting.pop()
        for length in longs:
            place = start + length + kerf
            if place + least <= bed.length and place not in found:
                found.add(place)
                waiting.append(place)
    return tuple(sorted(found))


def _clear(bed: Bed, start: int, end: int) -> Clear:
    """What is clear across a section that reaches from start to end."""
    low, found = 0, []
    met = [one for one in bed.blocks if one.start < end and start < one.end]
    for block in sorted(met, key=lambda one: one.low):
        if block.low > low:
            found.append((low, block.low - low))
        low = max(low, block.high)
    if bed.width > low:
        found.append((low, bed.width - low))
    return tuple(found)


class Best(NamedTuple):
    """What a bed is worth at most from each place on, and which length of section begins there (or
    -1: nothing does).
    """

    worth: Floats
    choice: Ints
    strips: Table


def best(lay: Lay, prices: Sequence[float], left: Sequence[int], kerf: int) -> Best:
    """The most valuable sections at these prices, no strip with more of an item than is left (all
    strips together may have more).
    """
    strips = table(lay.kinds, prices, left, lay.bed.width, kerf)
    values = np.array([
        strips.values(kind, [width for _, width in clear]) if clear else 0.0
        for kind, clear in lay.clears
    ])
    many = len(lay.places)
    worth = np.zeros(many + 1)
    choice = np.full(many, -1, dtype=np.int64)
    if not lay.lengths:
        return Best(worth, choice, strips)
    gains = values[lay.which]
    for number in range(many - 1, -1, -1):
        worth[number] = worth[number + 1]
        whole = gains[number] + worth[lay.after[number]]
        kind = int(whole.argmax())
        if gains[number, kind] > 0 and whole[kind] > worth[number]:
            worth[number] = whole[kind]
            choice[number] = kind
    return Best(worth, choice, strips)


def sections(lay: Lay, found: Best, number: int = 0) -> list[Section]:
    """The best sections from a place (by its number) on."""
    chosen = []
    while number < len(lay.places):
        kind = int(found.choice[number])
        if kind < 0:
            number += 1
            continue
        start = lay.places[number]
        _, clear = lay.clears[int(lay.which[number, kind])]
        strips: list[Strip] = []
        for low, width in clear:
            strips += found.strips.strips(kind, low, width)
        chosen.append(Section(start, lay.lengths[kind], tuple(strips)))
        number = int(lay.after[number, kind])
    return chosen


def pattern(lay: Lay, chosen: Sequence[Section]) -> Pattern:
    """A pattern of sections of this bed."""
    return Pattern(lay.bed_number, tuple(chosen), lay.turned)


def fill(lay: Lay, prices: Sequence[float], left: Sequence[int], kerf: int) -> Pattern:
    """A good pattern that takes no more of anything than is left: section after section, worked
    out anew whenever something has run out.
    """
    remaining = list(left)
    chosen: list[Section] = []
    number = 0
    while number < len(lay.places):
        found = sections(lay, best(lay, prices, remaining, kerf), number)
        if not found:
            break
        for at, section in enumerate(found):
            strips = _left(section, remaining)
            whole = len(strips) == len(section.strips)
            if at and not whole:
                break  # something has run out: see what is best from here on
            for strip in strips:
                remaining[strip.item] -= strip.copies
            taken = Section(section.start, max(reach(one, kerf) for one in strips), strips)
            chosen.append(taken)
            number = _next(lay, taken, kerf)
            if not whole:
                break
    return pattern(lay, chosen)


def _left(section: Section, remaining: Sequence[int]) -> tuple[Strip, ...]:
    """The strips of a section of which enough remains to be cut: the first of them always."""
    left = list(remaining)
    strips: list[Strip] = []
    for strip in section.strips:
        if left[strip.item] >= strip.copies:
            left[strip.item] -= strip.copies
            strips.append(strip)
    return tuple(strips)


def reach(strip: Strip, kerf: int) -> int:
    """How long a strip is, its items end to end with the saw's cuts between."""
    return strip.copies * (strip.length + kerf) - kerf


def _next(lay: Lay, section: Section, kerf: int) -> int:
    """The number of the first place after a section."""
    end = section.start + section.length + kerf
    return next((number for number, place in enumerate(lay.places) if place >= end),
                len(lay.places))
