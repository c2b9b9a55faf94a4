"""One bed filled for the greatest value, and proved: the best sections, whole ones.

A linear programme over sections gives the most that any filling can be worth; then every section
that could still be part of a better one is listed, and the solver chooses among them. For beds
without blocks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf
from typing import NamedTuple

from layout.cutting.job import Bed, Job, Pattern, Section, Strip
from layout.cutting.lay import reach
from layout.cutting.solver import TINY, Column, Relaxed, choose
from layout.cutting.strips import Variant, lengths, table, variants

# Beyond these the filling is good but not proved the best.
MOST_SECTIONS = 60_000
NODES = 20_000


NEAREST = 0.25  # the share of the slack that is looked at first


class Care(NamedTuple):
    """How long to look: sections listed at most, and the solver's nodes."""

    sections: int = MOST_SECTIONS
    nodes: int = NODES


FULL = Care()


class Filling(NamedTuple):
    """A filling, what it is worth, and whether nothing can be worth more."""

    pattern: Pattern
    worth: float
    proved: bool


class _Content(NamedTuple):
    """What a section holds: its length, and how many strips of which variant."""

    length: int
    strips: tuple[tuple[Variant, int], ...]

    def counts(self) -> dict[int, int]:
        found: dict[int, int] = {}
        for one, many in self.strips:
            found[one.item] = found.get(one.item, 0) + many * one.copies
        return found


def filling(
    job: Job, index: int, values: Sequence[float], turned: bool = False, care: Care = FULL
) -> Filling:
    """The filling of one bed (by its index) that is worth most; no item more often than wanted."""
    job, bed = _as_it_lies(job, index, turned)
    kinds = variants(job, bed)
    if not kinds:
        return Filling(Pattern(index, (), turned), 0.0, True)
    top, prices, rent, met = _relaxed(job, bed, kinds, values)
    pool = list(dict.fromkeys(met))
    chosen, worth, _ = _whole(job, bed, pool, values, care)
    proved = top - worth <= TINY * max(top, 1.0)
    # a section that costs more than the slack can be in no filling that is better by anything; the
    # first list is of the nearest only, for a better filling leaves less slack
    for share in (NEAREST, 1.0):
        proved = proved or top - worth <= TINY * max(top, 1.0)
        if proved:
            break
        slack = (top - worth) * share
        listed = list(_near(job, bed, kinds, values, (prices, rent), slack, care))
        more, better, best = _whole(job, bed, list(dict.fromkeys(pool + listed)), values, care)
        proved = best and share == 1 and len(listed) < care.sections
        if better > worth:
            chosen, worth = more, better
    return Filling(Pattern(index, _placed(chosen, job.kerf), turned), worth, proved)


def most_worth(job: Job, index: int, values: Sequence[float], turned: bool = False) -> float:
    """What no filling of a bed is worth more than, no item more often than wanted."""
    job, bed = _as_it_lies(job, index, turned)
    kinds = variants(job, bed)
    return _relaxed(job, bed, kinds, values)[0] if kinds else 0.0


def _as_it_lies(job: Job, index: int, turned: bool) -> tuple[Job, Bed]:
    """A bed and the job as it looks from there; the bed must be clear of blocks."""
    bed = job.beds[index]
    assert not bed.blocks
    if not turned:
        return job, bed
    return job._replace(items=tuple(
        item._replace(length=item.width, width=item.length) for item in job.items)), bed.turned


def _relaxed(
    job: Job, bed: Bed, kinds: Sequence[Variant], values: Sequence[float]
) -> tuple[float, list[float], float, list[_Content]]:
    """The most that shares of sections can be worth; the price of each item and of a unit of length
    at that; the sections met.
    """
    many = len(job.items)
    programme = Relaxed([*((-inf, float(item.demand)) for item in job.items),
                         (-inf, float(bed.length + job.kerf))])
    met: list[_Content] = []
    demand = [item.demand for item in job.items]
    while True:
        priced = programme.solve()
        prices = [max(-price, 0.0) for price in priced.prices[:many]]
        rent = max(-priced.prices[many], 0.0)
        gains = [value - price for value, price in zip(values, prices, strict=True)]
        tables = table(kinds, gains, demand, bed.width, job.kerf)
        fresh = []
        for at, length in enumerate(lengths(kinds)):
            gain = tables.values(at, [bed.width]) - rent * (length + job.kerf)
            if gain > TINY * max(1.0, -priced.cost):
                strips = tables.strips(at, 0, bed.width)
                fresh.append(_content(length, strips, kinds))
        fresh = [one for one in fresh if one not in met]
        if not fresh:
            return -priced.cost, prices, rent, met
        for one in fresh:
            programme.add(_column(job, one, values))
        met += fresh


def _content(length: int, strips: Sequence[Strip], kinds: Sequence[Variant]) -> _Content:
    """A section's content from its strips."""
    known = {(one.item, one.copies, one.width, one.piece): one for one in kinds}
    counts: dict[Variant, int] = {}
    for strip in strips:
        one = known[(strip.item, strip.copies, strip.width, strip.length)]
        counts[one] = counts.get(one, 0) + 1
    longest = max((one.length for one in counts), default=length)
    return _Content(longest, tuple(sorted(counts.items())))


def _column(job: Job, one: _Content, values: Sequence[float]) -> Column:
    counts = one.counts()
    worth = sum(values[item] * many for item, many in counts.items())
    gives = {item: float(many) for item, many in counts.items()}
    gives[len(job.items)] = float(one.length + job.kerf)
    return Column(-worth, gives)


def _whole(
    job: Job, bed: Bed, pool: Sequence[_Content], values: Sequence[float], care: Care
) -> tuple[list[_Content], float, bool]:
    """The best choice of whole sections out of these, what it is worth, whether that is proved."""
    able = [one for one in pool
            if all(many <= job.items[item].demand for item, many in one.counts().items())]
    rows = [*((-inf, float(item.demand)) for item in job.items),
            (-inf, float(bed.length + job.kerf))]
    found = choose(rows, [_column(job, one, values) for one in able], care.nodes) if able else None
    if found is None:
        return [], 0.0, not able
    chosen = [one for one, times in zip(able, found.many, strict=True) for _ in range(times)]
    worth = sum(values[item] * count for one in chosen for item, count in one.counts().items())
    return chosen, worth, found.proved


def _near(
    job: Job, bed: Bed, kinds: Sequence[Variant], values: Sequence[float],
    priced: tuple[Sequence[float], float], slack: float, care: Care,
) -> Iterator[_Content]:
    """Every section whose value is no more than `slack` below what its items and length cost."""
    prices, rent = priced
    gains = [value - price for value, price in zip(values, prices, strict=True)]
    order = sorted(kinds, key=lambda one: -one.length)
    room = bed.width + job.kerf
    left = 0
    # what the variants from each on can gain at most, by the room that is left
    most = [[0.0] * (room + 1)]
    for one in reversed(order):
        most.append(_with(job, one, gains, most[-1], room))
    most.reverse()

    def deeper(
        at: int, free: int, gain: float, used: tuple[tuple[Variant, int], ...],
        counts: dict[int, int],
    ) -> Iterator[_Content]:
        nonlocal left
        length = used[0][0].length if used else 0
        if used and gain - rent * (length + job.kerf) >= -slack - TINY:
            left += 1
            yield _Content(length, tuple(sorted(used)))
        for next_ in range(at, len(order)):
            one = order[next_]
            cost = rent * ((length or one.length) + job.kerf)
            if left >= care.sections:
                return
            if gain + most[next_][free] - cost < -slack - TINY:
                if used:
                    return  # what comes after can gain no more
                continue
            done = counts.get(one.item, 0)
            for many in range(1, free // (one.width + job.kerf) + 1):
                if done + many * one.copies > job.items[one.item].demand:
                    break
                yield from deeper(
                    next_ + 1, free - many * (one.width + job.kerf),
                    gain + many * one.copies * gains[one.item], (*used, (one, many)),
                    {**counts, one.item: done + many * one.copies})

    yield from deeper(0, room, 0.0, (), {})


def _with(
    job: Job, one: Variant, gains: Sequence[float], after: Sequence[float], room: int
) -> list[float]:
    """The most that can be gained in each room with one more variant."""
    step, gain = one.width + job.kerf, one.copies * gains[one.item]
    times = job.items[one.item].demand // one.copies
    found = list(after)
    for many in range(1, min(times, room // step) + 1):
        for free in range(many * step, room + 1):
            found[free] = max(found[free], after[free - many * step] + many * gain)
    return found


def _placed(chosen: Sequence[_Content], kerf: int) -> tuple[Section, ...]:
    """Sections one after another, strips side by side."""
    start, found = 0, []
    for one in sorted(chosen, key=lambda each: -each.length):
        low, strips = 0, []
        for kind, many in one.strips:
            for _ in range(many):
                strips.append(Strip(kind.item, kind.copies, low, kind.piece, kind.width))
                low += kind.width + kerf
        long = max(reach(strip, kerf) for strip in strips)
        found.append(Section(start, long, tuple(strips)))
        start += long + kerf
    return tuple(found)
