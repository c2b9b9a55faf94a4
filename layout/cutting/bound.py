"""No plan costs less: the linear programme over all patterns, made up to what whole beds can cost.

Columns are made as they are wanted (P. C. Gilmore and R. E. Gomory, A linear programming approach
to the cutting-stock problem, 1961; from memory). Every round of prices gives a bound by itself, so
the last one needs not be reached.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count
from math import ceil, gcd, inf
from typing import NamedTuple

from layout.cutting.filling import most_worth
from layout.cutting.job import Bed, Job, Pattern
from layout.cutting.lay import Lay, best, pattern, sections
from layout.cutting.solver import TINY, Column, Priced, Relaxed

MOST_PRICED = 2000  # beds priced at most, all rounds together
MOST_SUMS = 20_000_000
SMALL = 1e-9


class Bound(NamedTuple):
    """The bound, the prices of items that gave it, and the patterns met with their shares."""

    cost: float
    prices: tuple[float, ...]
    patterns: tuple[tuple[Pattern, float], ...]


def column(job: Job, one: Pattern) -> Column:
    """A pattern as a column: what it gives of each item, and that it takes a bed."""
    gives = {item: float(many) for item, many in one.counts.items()}
    gives[len(job.items) + one.bed] = 1.0
    return Column(job.beds[one.bed].cost, gives)


def rows(job: Job) -> list[tuple[float, float]]:
    """Items at least as often as wanted, then beds at most as often as there are."""
    return [(float(item.demand), inf) for item in job.items] + [
        (-inf, inf if bed.supply is None else float(bed.supply)) for bed in job.beds]


def lower_bound(job: Job, ways: Sequence[Lay]) -> Bound:
    """Prices and patterns until no pattern is worth more than it costs."""
    programme = Relaxed(rows(job))
    # so that there is an answer from the start: what is missing costs more than any bed
    dear = 10.0 * max(bed.cost for bed in job.beds)
    for index in range(len(job.items)):
        programme.add(Column(dear, {index: 1.0}))
    demand = [item.demand for item in job.items]
    patterns: list[Pattern] = []
    found = 0.0
    for number in count(1):
        priced = programme.solve()
        prices = [max(price, 0.0) for price in priced.prices[: len(demand)]]
        worths, new = _priced_out(job, ways, priced, prices, demand)
        found = max(found, _bound(job, prices, worths))
        if not new or number * len(ways) >= MOST_PRICED:
            break
        for one in new:
            programme.add(column(job, one))
        patterns += new
    found = max(found, _bound(job, prices, _proper(job, ways, prices, worths)))
    shares = priced.shares[len(demand):]
    return Bound(found, tuple(prices), tuple(zip(patterns, shares, strict=False)))


def _priced_out(
    job: Job, ways: Sequence[Lay], priced: Priced, prices: Sequence[float], demand: Sequence[int]
) -> tuple[list[float], list[Pattern]]:
    """What each bed is worth at most at these prices; patterns that are worth more than they cost.
    """
    worths = [0.0] * len(job.beds)
    new = []
    for lay in ways:
        bed = job.beds[lay.bed_number]
        top = best(lay, prices, demand, job.kerf)
        worth = float(top.worth[0])
        worths[lay.bed_number] = max(worths[lay.bed_number], worth)
        rent = priced.prices[len(demand) + lay.bed_number]
        if worth > (bed.cost - rent) * (1 + TINY) + TINY:
            new.append(pattern(lay, sections(lay, top)))
    return worths, new


def _bound(job: Job, prices: Sequence[float], worths: Sequence[float]) -> float:
    """What any plan that cuts everything costs at least, by these prices, if no pattern of a bed is
    worth more than is told. Prices may all be made larger or smaller together: so much that no bed
    without end is worth more than it costs, and for the others what they are worth too much is paid
    back. The best such scale is one at which some bed is worth just what it costs.
    """
    whole = sum(item.demand * price for item, price in zip(job.items, prices, strict=True))
    beds = [(bed, worth) for bed, worth in zip(job.beds, worths, strict=True) if worth > 0]
    most = min((bed.cost / worth for bed, worth in beds if bed.supply is None), default=inf)
    scales = {bed.cost / worth for bed, worth in beds if bed.cost / worth <= most}

    def told(scale: float) -> float:
        back = sum(bed.supply * min(0.0, bed.cost - worth * scale) for bed, worth in beds
                   if bed.supply is not None)
        return whole * scale + back

    return max((told(scale) for scale in scales), default=0.0)


def _proper(
    job: Job, ways: Sequence[Lay], prices: Sequence[float], worths: Sequence[float]
) -> list[float]:
    """What each bed is worth at most at these prices, no item taken more often than it is wanted:
    known better than from strips alone where a bed is clear of blocks.
    """
    found = [0.0] * len(job.beds)
    for lay in ways:
        if not lay.lengths:
            continue
        worth = worths[lay.bed_number]
        if not lay.bed.blocks:
            worth = min(worth, most_worth(job, lay.bed_number, prices, lay.turned))
        found[lay.bed_number] = max(found[lay.bed_number], worth)
    return found


def whole_beds(beds: Sequence[Bed], bound: float) -> float:
    """The bound, made up to the least that whole beds can cost; as it is where that is too much to
    try.
    """
    unit = gcd(*(bed.cost for bed in beds))
    # a little less, for the bound is a float
    least = ceil(bound / unit * (1 - SMALL) - TINY)
    most = least + max(bed.cost for bed in beds) // unit
    if most > MOST_SUMS:
        return bound
    # a bit for every sum that can be reached: the sums with one more of a bed are shifted by it
    reached, all_sums = 1, (1 << (most + 1)) - 1
    for bed in beds:
        cost = bed.cost // unit
        for _ in range(min(most // cost, most if bed.supply is None else bed.supply)):
            more = (reached | reached << cost) & all_sums
            if more == reached:
                break
            reached = more
    over = reached >> least
    return float((least + (over & -over).bit_length() - 1) * unit) if over else bound
