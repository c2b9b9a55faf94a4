"""Plans of whole numbers: cut to published instances, to what can be counted by hand, and to the
laws of sawing whatever the job.
"""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cutting.bound import whole_beds
from layout.cutting.filling import filling
from layout.cutting.job import Bed, Block, Item, Job, Pattern
from layout.cutting.lay import lays
from layout.cutting.search import Plan, plan

# Stock of several sizes at least cost, two stages, first cuts across the length, trimming allowed,
# no turning: Cintra, Miyazawa, Wakabayashi and Xavier, European Journal of Operational Research
# 191 (2008), on sizes of J. E. Beasley (1985). Stock (width, length, cost), items (width, length,
# many), best cost known, bound.
GCUT1D = (
    [(250, 250, 62500), (275, 225, 61875), (300, 200, 60000)],
    [(167, 184, 90), (114, 118, 75), (167, 152, 71), (83, 140, 13), (70, 86, 39), (143, 166, 79),
     (120, 160, 63), (66, 148, 93), (87, 141, 61), (69, 165, 85)],
    14871875, 14823125,
)
# The same kind of cutting from one sheet for the greatest value, optimum proved with first cuts
# across the length and with first cuts along it: M. Hifi (1997), instance HH; Cung, Hifi and
# Le Cun (2000), instances CHL5 and CHL2s. Sheet (width, length), items (width, length, value,
# many).
SHEETS = {
    "HH": ((127, 98), [(21, 13, 273, 5), (36, 17, 612, 4), (54, 20, 1080, 2), (24, 27, 648, 1),
                       (18, 65, 1170, 6)], (10689, 9246)),
    "CHL5": ((20, 20), [(14, 2, 28, 1), (1, 5, 5, 1), (20, 4, 80, 2), (12, 3, 36, 3),
                        (11, 8, 88, 2), (11, 6, 66, 2), (7, 9, 63, 1), (17, 5, 85, 1),
                        (7, 14, 98, 2), (1, 7, 7, 3)], (363, 344)),
    "CHL2s": ((62, 55), [(11, 15, 165, 2), (27, 9, 243, 3), (19, 21, 399, 1), (28, 31, 868, 1),
                         (13, 17, 221, 2), (15, 29, 435, 3), (29, 13, 377, 2), (31, 12, 372, 2),
                         (31, 19, 589, 2), (23, 16, 368, 1)], (3162, 3198)),
}


def laws(job: Job, found: Plan) -> None:
    """What holds for any plan: everything once, inside, clear, apart; beds only as there are."""
    given_: dict[int, int] = {}
    for one in found.patterns:
        for item, many in one.counts.items():
            given_[item] = given_.get(item, 0) + many
        _on_bed(job, one)
    for index, item in enumerate(job.items):
        assert given_.get(index, 0) + found.missing[index] == item.demand
    for index, bed in enumerate(job.beds):
        if bed.supply is not None:
            assert sum(one.bed == index for one in found.patterns) <= bed.supply
    assert found.cost == sum(job.beds[one.bed].cost for one in found.patterns)
    if not any(found.missing):
        assert found.bound <= found.cost * (1 + 1e-9)
    for group in job.together:
        wanted = [index for index in group if job.items[index].demand]
        if not wanted:
            continue
        holders = [one for one in found.patterns if any(one.counts[index] for index in wanted)]
        missing = {found.missing[index] == job.items[index].demand for index in wanted}
        assert len(holders) <= 1
        assert missing == {not holders}


def _on_bed(job: Job, one: Pattern) -> None:
    bed = job.beds[one.bed]
    if one.turned:
        assert bed.turn
        bed = bed.turned
    at = 0
    for section in sorted(one.sections, key=lambda each: each.start):
        assert section.start >= at
        end = section.start + section.length
        assert end <= bed.length
        at = end + job.kerf
        low = 0
        for strip in sorted(section.strips, key=lambda each: each.low):
            assert strip.low >= low
            assert strip.low + strip.width <= bed.width
            low = strip.low + strip.width + job.kerf
            item = job.items[strip.item]
            sizes = {(item.length, item.width)}
            if one.turned:
                sizes = {(item.width, item.length)}
            if bed.any_way:
                sizes |= {(b, a) for a, b in sizes}
            assert (strip.length, strip.width) in sizes
            assert strip.copies * (strip.length + job.kerf) - job.kerf <= section.length
            assert strip.copies == 1 or job.stack
            for block in bed.blocks:
                apart = (block.end <= section.start or block.start >= end
                         or block.high <= strip.low or block.low >= strip.low + strip.width)
                assert apart


def test_stock_of_several_sizes_comes_as_near_as_what_is_published() -> None:
    stock, items, best, bound = GCUT1D
    job = Job(tuple(Bed(long, wide, cost) for wide, long, cost in stock),
              tuple(Item(long, wide, many) for wide, long, many in items), stack=False)
    found = plan(job)
    laws(job, found)
    assert not any(found.missing)
    # a tenth of a per cent: the aim is 1 %, and what is published lies 0.33 % over the bound
    assert best <= found.cost * 1.001
    assert found.cost <= best * 1.001
    # the published bound is that of the same linear programme, made up to whole units of cost
    assert found.bound == pytest.approx(bound, rel=1e-6)


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("turned", [False, True], ids=["across first", "along first"])
def test_one_sheet_is_filled_to_the_published_optimum(name: str, turned: bool) -> None:
    (wide, long), items, best = SHEETS[name]
    job = Job((Bed(long, wide, 1, 1, turn=turned),),
              tuple(Item(b, a, many) for a, b, _, many in items), stack=False)
    values = [float(value) for _, _, value, _ in items]
    found = filling(job, 0, values, turned)
    assert found.proved
    assert found.worth == best[turned]
    assert sum(values[item] * many for item, many in found.pattern.counts.items()) == best[turned]
    _on_bed(job, found.pattern)
    assert all(many <= items[item][3] for item, many in found.pattern.counts.items())


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    kerf = draw(st.integers(0, 3))
    items = tuple(
        Item(draw(st.integers(5, 70)), draw(st.integers(1, 25)), draw(st.integers(0, 4)))
        for _ in range(draw(st.integers(1, 6))))
    beds = []
    for number in range(draw(st.integers(1, 4))):
        long, wide = draw(st.integers(20, 120)), draw(st.integers(8, 40))
        blocks = []
        for _ in range(draw(st.integers(0, 3))):
            start, low = draw(st.integers(0, long - 1)), draw(st.integers(0, wide - 1))
            blocks.append(Block(start, min(start + draw(st.integers(max(kerf, 1), 20)), long), low,
                                min(low + draw(st.integers(max(kerf, 1), 20)), wide)))
        endless = number == 0 and draw(st.booleans())
        beds.append(Bed(long, wide, long * wide * (1 + 9 * endless),
                        None if endless else draw(st.integers(0, 2)), tuple(blocks),
                        draw(st.booleans()), draw(st.booleans())))
    together = ()
    if len(items) > 2 and draw(st.booleans()):
        together = ((0, 1),)
    return Job(tuple(beds), items, kerf, together, draw(st.booleans()))


@settings(max_examples=60, deadline=None)
@given(jobs())
def test_the_laws_of_sawing_hold_for_any_job(job: Job) -> None:
    laws(job, plan(job, 4))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(3, 30), min_size=1, max_size=7), st.integers(30, 60),
       st.integers(0, 2))
def test_lengths_of_one_width_need_as_few_boards_as_can_be(
    longs: list[int], board: int, kerf: int
) -> None:
    """All of the board's own width: how few boards do is found by trying every way to share."""
    job = Job((Bed(board, 10, 1),), tuple(Item(one, 10, 1) for one in longs), kerf)
    found = plan(job)
    laws(job, found)
    assert found.cost == _fewest([one + kerf for one in longs], board + kerf)


def _fewest(sizes: list[int], room: int) -> int:
    """By trying: the first takes any company it has room for, and the rest as few as can be."""
    if not sizes:
        return 0
    first, rest = sizes[0], sizes[1:]
    return 1 + min(
        _fewest([one for at, one in enumerate(rest) if at not in taken], room)
        for many in range(len(rest) + 1)
        for taken in combinations(range(len(rest)), many)
        if first + sum(rest[at] for at in taken) <= room)


def test_what_fits_on_no_bed_is_missing_and_the_rest_is_cut() -> None:
    job = Job((Bed(100, 20, 1, 1),), (Item(101, 5, 2), Item(40, 20, 2), Item(10, 21, 1)))
    found = plan(job)
    laws(job, found)
    assert found.missing == (2, 0, 1)


def test_a_bed_of_the_rack_is_taken_before_one_that_costs_more() -> None:
    rack = Bed(100, 20, 2000, 1)
    job = Job((rack, Bed(50, 20, 3000)), (Item(40, 20, 2),))
    found = plan(job)
    assert [one.bed for one in found.patterns] == [0]
    assert found.bound == found.cost == 2000


def test_a_set_stays_on_one_bed_though_two_would_be_cheaper() -> None:
    """40 and 60 long: the short beds hold one each and cost less; together only the long one."""
    items = (Item(40, 10, 1), Item(60, 10, 1))
    beds = (Bed(40, 10, 4, 1), Bed(60, 10, 6, 1), Bed(101, 10, 20, 1))
    assert plan(Job(beds, items, 1)).cost == 10
    found = plan(Job(beds, items, 1, ((0, 1),)))
    assert (found.cost, [one.bed for one in found.patterns]) == (20, [2])
    lost = plan(Job(beds[:2], items, 1, ((0, 1),)))
    assert (lost.missing, lost.patterns) == ((1, 1), ())


def test_a_set_that_fills_a_bed_nearly_is_found() -> None:
    """7 x 3 three times, 3 x 1 twice, 6 x 7 and 12 x 5 on 23 x 10: 12 x 5 and 7 x 3 beside each
    other (8 of 10), then 7 x 3 three high or beside 6 x 7 (10 of 10), the small ones with it.
    """
    items = (Item(7, 3, 3), Item(3, 1, 2), Item(6, 7, 1), Item(12, 5, 1))
    job = Job((Bed(23, 10, 230),), items, 0, ((0, 1, 2, 3),))
    found = plan(job)
    laws(job, found)
    assert not any(found.missing)


def test_one_bed_that_holds_everything_is_taken_though_others_fill_better() -> None:
    """The small beds are filled whole, and dearer together than the one that holds all."""
    items = (Item(50, 10, 1), Item(30, 10, 1), Item(20, 5, 1))
    beds = (Bed(50, 10, 60, 1), Bed(30, 10, 40, 1), Bed(20, 5, 15, 1), Bed(101, 10, 110, 1))
    assert plan(Job(beds, items)).cost == 110


def test_strips_go_beside_a_knot_and_sections_past_it() -> None:
    """100 x 20, a knot from 40 to 50 across 8 to 12: 100 x 8 twice pass it, 100 x 9 can't."""
    bed = Bed(100, 20, 1, 1, (Block(40, 50, 8, 12),))
    assert plan(Job((bed,), (Item(100, 8, 2),))).missing == (0,)
    assert plan(Job((bed,), (Item(100, 9, 1),))).missing == (1,)
    # 40 before it, 50 after it, of the whole width
    found = plan(Job((bed,), (Item(40, 20, 1), Item(50, 20, 1))))
    assert found.missing == (0, 0)
    assert {section.start for section in found.patterns[0].sections} == {0, 50}


def test_a_sheet_may_be_cut_along_first_and_pieces_turned_only_where_it_has_no_grain() -> None:
    # a strip of 100 x 30 along, and beside it 60 x 70 and 40 x 70: first cut along the length
    items = (Item(100, 30, 1), Item(60, 70, 1), Item(40, 70, 1))
    sheet = Bed(100, 100, 1, 1)
    assert any(plan(Job((sheet,), items, stack=False)).missing)
    found = plan(Job((sheet._replace(turn=True),), items, stack=False))
    assert (found.missing, found.patterns[0].turned) == ((0, 0, 0), True)
    tall = (Item(20, 90, 1),)
    lying = Bed(100, 50, 1, 1, turn=True)
    assert plan(Job((lying,), tall)).missing == (1,)
    assert plan(Job((lying._replace(any_way=True),), tall)).missing == (0,)


def test_a_bound_is_made_up_to_what_whole_beds_cost() -> None:
    beds = (Bed(1, 1, 70, 1), Bed(1, 1, 40, None))
    assert whole_beds(beds, 0.5) == 40
    assert whole_beds(beds, 41) == 70
    assert whole_beds(beds, 71) == 80
    assert whole_beds(beds, 81) == 110
    assert whole_beds((Bed(1, 1, 70, 1),), 71) == 71  # nothing can cost as much


def test_sections_start_only_where_they_can_be_pushed_to() -> None:
    job = Job((Bed(30, 10, 1, 1, (Block(12, 14, 0, 3),)),), (Item(7, 5, 1),), 1)
    lay, = lays(job)
    # at the start; after 7 and the saw's cut, twice; behind the knot, and after one more there
    assert lay.places == (0, 8, 14, 16, 22)
