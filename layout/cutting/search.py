"""The search for a plan: a bound first, then many good patterns, then the best choice of them.

Patterns of whole plans come from filling bed after bed at prices that go up for what was cut with
waste (sequential value correction; from memory); the solver then chooses among all patterns met.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from math import floor, inf
from typing import NamedTuple

from layout.cutting.bound import Bound, column, lower_bound, rows, whole_beds
from layout.cutting.filling import Care, filling
from layout.cutting.job import Item, Job, Pattern
from layout.cutting.lay import Lay, fill, lays
from layout.cutting.solver import TINY, Column, choose
from layout.cutting.tidy import thinned, tidy, without

ROUNDS = 40
# Large racks have fewer rounds: about so many fillings, by beds and items.
MOST_FILLS = 40_000
LEAST_ROUNDS = 3
# Jobs of no more items than this have whole beds filled as full as can be, with little care.
FEW = 60
LITTLE = Care(1500, 100)
FEW_BEDS = 12
# How much of its price an item keeps from one round to the next, and how steeply larger items are
# dearer for their area: they are the hard ones to place. Found by trying.
KEPT = 0.7
STEEP = 1.02
# What is to come from one bed is put on it first.
FIRST = 1000.0


class Plan(NamedTuple):
    """Patterns to cut, a bed each; how many of each item could not be cut; what the beds cost, and
    the bound: no plan that cuts everything costs less.
    """

    patterns: tuple[Pattern, ...]
    missing: tuple[int, ...]
    cost: int
    bound: float


def plan(job: Job, rounds: int = ROUNDS) -> Plan:
    """The cheapest plan that is found. Items that fit on no bed are missing, and so is a set
    (`together`) that was not brought onto one.
    """
    job, hopeless = _possible(job)
    ways = lays(job)
    if not any(item.demand for item in job.items):
        return Plan((), hopeless, 0, 0.0)
    bound = lower_bound(job, ways)
    rounds = max(min(rounds, MOST_FILLS // (len(ways) * len(job.items))), LEAST_ROUNDS)
    pool: dict[tuple[int, bool, tuple[tuple[int, int], ...]], Pattern] = {}
    for one in _patterns(job, ways, bound, rounds):
        clean = without(one, _parted(job, one))
        if clean.sections:
            pool.setdefault((clean.bed, clean.turned, tuple(sorted(clean.counts.items()))), clean)
    chosen = thinned(job, _chosen(job, list(pool.values())))
    done = sum((one.counts for one in chosen), start=Counter[int]())
    missing = tuple(none + item.demand - done[index]
                    for index, (item, none) in enumerate(zip(job.items, hopeless, strict=True)))
    cost = sum(job.beds[one.bed].cost for one in chosen)
    return Plan(tuple(tidy(job, one) for one in chosen), missing, cost,
                whole_beds(job.beds, bound.cost))


def _possible(job: Job) -> tuple[Job, tuple[int, ...]]:
    """The job without what fits on no bed, and how much of each item that is; beds that can give
    nothing are as good as not there.
    """
    ways = lays(job)
    useful = {lay.bed_number for lay in ways if lay.lengths}
    job = job._replace(beds=tuple(
        bed if at in useful else bed._replace(supply=0) for at, bed in enumerate(job.beds)))
    prices = _areas(job)
    fits = [False] * len(job.items)
    for lay in ways:
        for index in range(len(job.items)):
            if not fits[index]:
                one = [int(other == index) for other in range(len(job.items))]
                fits[index] = bool(fill(lay, prices, one, job.kerf).sections)
    for group in job.together:
        held = any(_set_on(job, lay, prices, group) is not None for lay in ways)
        for index in group:
            fits[index] = fits[index] and held
    kept = tuple(item if good else item._replace(demand=0)
                 for item, good in zip(job.items, fits, strict=True))
    return job._replace(items=kept), tuple(
        item.demand - new.demand for item, new in zip(job.items, kept, strict=True))


def _only(job: Job, group: Sequence[int]) -> list[int]:
    """The demands of a set, and none of anything else."""
    return [item.demand if index in group else 0 for index, item in enumerate(job.items)]


def _set_on(
    job: Job, lay: Lay, prices: Sequence[float], group: Sequence[int]
) -> Pattern | None:
    """A pattern of a set and nothing else, if one is found; it is looked for with more care where
    a bed is clear.
    """
    only = _only(job, group)
    one = fill(lay, prices, only, job.kerf)
    if not _holds(one, job, group) and not lay.bed.blocks:
        one = filling(_with_demands(job, only), lay.bed_number, _areas(job), lay.turned,
                      LITTLE).pattern
    return one if _holds(one, job, group) else None


def _holds(one: Pattern, job: Job, group: Iterable[int]) -> bool:
    """Does a pattern give a whole set."""
    counts = one.counts
    return all(counts[index] >= job.items[index].demand for index in group)


def _parted(job: Job, one: Pattern) -> set[int]:
    """The items of a pattern whose set it doesn't give whole."""
    return {index for group in job.together if not _holds(one, job, group) for index in group}


def _patterns(job: Job, ways: Sequence[Lay], bound: Bound, rounds: int) -> Iterator[Pattern]:
    """Everything that the solver may choose from."""
    for one, _ in bound.patterns:
        yield one
    yield from _rounded(job, ways, bound)
    demand = [item.demand for item in job.items]
    for lay in ways:
        yield fill(lay, _areas(job), demand, job.kerf)
    if sum(demand) <= FEW:
        yield from _filled(job, ways)
    areas = [area**STEEP for area in _areas(job)]
    prices = list(areas)
    for number in range(rounds):
        if number == rounds // 2 and max(bound.prices) > 0:
            prices = list(bound.prices)  # and once from the bound's prices
        made = list(_whole(job, ways, prices, list(demand)))
        yield from made
        prices = _corrected(job, made, prices, areas)


def _filled(job: Job, ways: Sequence[Lay]) -> list[Pattern]:
    """A plan of beds each filled as full as it can be, the cheapest for its area first, and the
    fillings that were not taken for it. Only of beds without blocks, and of a few.
    """
    left = [item.demand for item in job.items]
    values = _areas(job)
    clear = [lay for lay in ways if not lay.bed.blocks and lay.lengths][:FEW_BEDS]
    supply = [inf if bed.supply is None else bed.supply for bed in job.beds]
    known: dict[int, Pattern] = {}
    made: list[Pattern] = []

    def make(lay: Lay, left: Sequence[int]) -> Pattern:
        made.append(filling(_with_demands(job, left), lay.bed_number, values, lay.turned,
                            LITTLE).pattern)
        return made[-1]

    while any(left):
        free = [at for at, lay in enumerate(clear) if supply[lay.bed_number] > 0]
        one = _fullest(job, clear, free, values, left, known, make)
        if one is None:
            break
        for item, many in one.counts.items():
            left[item] -= many
        supply[one.bed] -= 1
    return made


def _rounded(job: Job, ways: Sequence[Lay], bound: Bound) -> Iterator[Pattern]:
    """The bound's own patterns as often as it takes them whole; then plans for what is left."""
    left = [item.demand for item in job.items]
    for one, share in bound.patterns:
        for item, many in one.counts.items():
            left[item] -= many * floor(share + TINY)
    yield from _whole(job, ways, bound.prices, [max(one, 0) for one in left])


def _whole(
    job: Job, ways: Sequence[Lay], prices: Sequence[float], left: list[int]
) -> Iterator[Pattern]:
    """Bed after bed, the one that gives most for its cost first, until nothing is left."""
    supply = [inf if bed.supply is None else bed.supply for bed in job.beds]
    waiting = [group for group in job.together if any(left[index] for index in group)]
    known: dict[int, Pattern] = {}

    def make(lay: Lay, left: Sequence[int]) -> Pattern:
        return fill(lay, prices, left, job.kerf)

    while any(left):
        group = waiting.pop(0) if waiting else ()
        hidden = {index for other in waiting for index in other}
        shown = [0 if index in hidden else many for index, many in enumerate(left)]
        raised = [price * FIRST if index in group else price for index, price in enumerate(prices)]
        free = [at for at, lay in enumerate(ways) if supply[lay.bed_number] > 0]
        if group:
            one = _bed_for_set(job, [ways[at] for at in free], (prices, raised), shown, group)
        else:
            one = _fullest(job, ways, free, prices, shown, known, make)
        if one is None:
            if not group:
                return
            for index in group:
                left[index] = 0
            continue
        counts = one.counts
        many = min(left[item] // each for item, each in counts.items())
        if group or job.beds[one.bed].supply is not None:
            many = 1
        for item, each in counts.items():
            left[item] -= each * many
        supply[one.bed] -= many
        yield one


def _fullest(
    job: Job, ways: Sequence[Lay], free: Sequence[int], prices: Sequence[float],
    left: Sequence[int], known: dict[int, Pattern], make: Callable[[Lay, Sequence[int]], Pattern],
) -> Pattern | None:
    """The filling that gives most for its bed's cost; None where nothing fits any more. What is
    `known` of a bed stays good until something of it runs out; then it is made anew.
    """
    best, most = None, 0.0
    for at in free:
        one = known.get(at)
        if one is None or any(many > left[item] for item, many in one.counts.items()):
            one = known[at] = make(ways[at], left)
        worth = _worth(job, one, prices)
        if worth > most:
            best, most = one, worth
    return best


def _worth(job: Job, one: Pattern, prices: Sequence[float]) -> float:
    """What a pattern gives for its bed's cost."""
    return sum(many * prices[item] for item, many in one.counts.items()) / job.beds[one.bed].cost


def _bed_for_set(
    job: Job, free: Sequence[Lay], prices: tuple[Sequence[float], Sequence[float]],
    left: Sequence[int], group: Sequence[int],
) -> Pattern | None:
    """The filling that gives most for its bed's cost among those that hold a set. Prices as they
    are, and with the set's raised so that it is put on first.
    """
    plain, raised = prices
    best, most = None, 0.0
    for lay in free:
        full = fill(lay, raised, left, job.kerf)
        one = full if _holds(full, job, group) else _set_on(job, lay, plain, group)
        if one is not None and _worth(job, one, plain) > most:
            best, most = one, _worth(job, one, plain)
    return best


def _corrected(
    job: Job, made: Sequence[Pattern], prices: Sequence[float], areas: Sequence[float]
) -> list[float]:
    """Prices for the next round: dearer what lay in badly filled beds."""
    found = list(prices)
    scale = sum(prices) / max(sum(areas), TINY)
    for one in made:
        bed = job.beds[one.bed]
        used = sum(many * _area(job.items[item]) for item, many in one.counts.items())
        for item in one.counts:
            dear = areas[item] * scale * bed.length * bed.width / used
            found[item] = KEPT * found[item] + (1 - KEPT) * dear
    return found


def _area(item: Item) -> int:
    return item.length * item.width


def _areas(job: Job) -> list[float]:
    """The items' areas, as prices."""
    return [float(_area(item)) for item in job.items]


def _with_demands(job: Job, demands: Sequence[int]) -> Job:
    """The job with so many of each item wanted."""
    return job._replace(items=tuple(
        item._replace(demand=many) for item, many in zip(job.items, demands, strict=True)))


def _chosen(job: Job, patterns: Sequence[Pattern]) -> list[Pattern]:
    """The cheapest choice of patterns that cuts everything, or all but what costs least to miss."""
    grouped = {index for group in job.together for index in group}
    given = rows(job)
    for index in grouped:
        given[index] = (0.0, inf)
    for group in job.together:
        given.append((1.0 if any(job.items[index].demand for index in group) else 0.0, inf))
    columns = [_column(job, one) for one in patterns]
    dear = 10.0 * max(bed.cost for bed in job.beds)
    singles = [index for index, item in enumerate(job.items)
               if item.demand and index not in grouped]
    columns += [Column(dear, {index: 1.0}) for index in singles]
    base = len(job.items) + len(job.beds)
    columns += [Column(dear * len(group), {base + at: 1.0})
                for at, group in enumerate(job.together)]
    choice = choose(given, columns)
    assert choice is not None  # missing everything is always an answer
    return [one for one, times in zip(patterns, choice.many, strict=False) for _ in range(times)]


def _column(job: Job, one: Pattern) -> Column:
    """A pattern's column, with the sets that it holds."""
    base = len(job.items) + len(job.beds)
    found = column(job, one)
    held = {base + at: 1.0 for at, group in enumerate(job.together)
            if any(index in one.counts for index in group)}
    return Column(found.cost, {**found.gives, **held})
