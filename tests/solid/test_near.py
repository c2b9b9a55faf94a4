"""Close pairs of boxes, against trying every two."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import layout.solid.near
from layout.solid.gap import boxes_apart_squared, root_below
from layout.solid.near import Box, close_pairs, thinnest
from tests.drawn import fractions

SIXTEENTH = Fraction(1, 16)
lengths = fractions(-9, 9, 12)
spans = st.tuples(lengths, fractions(0, 12, 12)).map(
    lambda pair: (pair[0], pair[0] + pair[1])
)
boxes = st.lists(st.tuples(spans, spans, spans), max_size=40)
withins = fractions(Fraction(1, 100), 8, 100)


def every_pair(some: list[Box], within: Fraction) -> set[tuple[int, int]]:
    return {
        (i, j)
        for (i, a), (j, b) in combinations(enumerate(some), 2)
        if all(max(p[0] - q[1], q[0] - p[1]) < within for p, q in zip(a, b, strict=True))
    }


def box(*ends: int | str | Fraction) -> Box:
    x0, x1, y0, y1, z0, z1 = (Fraction(end) for end in ends)
    return ((x0, x1), (y0, y1), (z0, z1))


def small_cuts(many: int, chance: random.Random) -> list[Box]:
    """Cuts of 1 to 12 mm along a board of 100 x 30 mm that grows with their number."""
    found = []
    for _ in range(many):
        ends: list[Fraction] = []
        for reach, most in ((2 * many, 12), (100, 6), (30, 6)):
            low = chance.randrange(reach * 16) * SIXTEENTH
            ends += [low, low + chance.randrange(16, most * 16) * SIXTEENTH]
        found.append(box(*ends))
    return found


def long_grooves(many: int, long: int) -> list[Box]:
    """Grooves of 1 mm all along the board, 3 mm from each other, below and beside it."""
    return [
        box(0, long, -3 * (i % 50) - 2, -3 * (i % 50) - 1, -3 * (i // 50) - 2, -3 * (i // 50) - 1)
        for i in range(many)
    ]


@settings(deadline=None)
@given(boxes, withins)
def test_the_pairs_are_those_of_trying_every_two(some: list[Box], within: Fraction) -> None:
    found = list(close_pairs(some, within))
    assert len(found) == len(set(found))
    assert set(found) == every_pair(some, within)
    assert found == list(close_pairs(some, within))


@pytest.mark.parametrize("seed", range(3))
def test_a_board_full_of_cuts_and_grooves(seed: int) -> None:
    chance = random.Random(seed)
    some = small_cuts(300, chance) + long_grooves(60, 600)
    chance.shuffle(some)
    for within in (Fraction(1, 3), Fraction(5)):
        pairs = every_pair(some, within)
        assert set(close_pairs(some, within)) == pairs
        assert len(pairs) > 10


def test_a_gap_of_just_the_distance_is_not_close() -> None:
    two = [box(0, 1, 0, 1, 0, 1), box("3/2", 2, 0, 1, 0, 1)]
    assert list(close_pairs(two, Fraction(1, 2))) == []
    assert list(close_pairs(two, Fraction(501, 1000))) == [(0, 1)]


def test_touching_overlapping_and_equal_boxes_are_close() -> None:
    some = [box(0, 2, 0, 2, 0, 2), box(2, 3, 2, 3, 2, 3), box(1, 3, 1, 3, 1, 3)]
    assert set(close_pairs(some, Fraction(1, 10**9))) == {(0, 1), (0, 2), (1, 2)}
    same = [some[0]] * 20
    assert set(close_pairs(same, Fraction(1))) == set(combinations(range(20), 2))


def test_none_and_one_have_no_pairs() -> None:
    assert list(close_pairs([], Fraction(1))) == []
    assert list(close_pairs([box(0, 1, 0, 1, 0, 1)], Fraction(1))) == []


@pytest.mark.parametrize("within", [0, -1])
def test_a_distance_of_nothing_is_refused(within: int) -> None:
    with pytest.raises(ValueError, match="above 0"):
        list(close_pairs([], Fraction(within)))


@pytest.mark.parametrize("kind", ["small cuts", "grooves beside small cuts"])
def test_ten_times_the_boxes_are_not_a_hundred_times_the_work(
    kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried = 0
    honest = layout.solid.near._are_close

    def counted(*given: object) -> bool:
        nonlocal tried
        tried += 1
        return honest(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(layout.solid.near, "_are_close", counted)
    work = []
    for many in (500, 5000):
        some = small_cuts(many, random.Random(7))
        if kind != "small cuts":
            some += long_grooves(many, 2 * many)
        tried = 0
        pairs = sum(1 for _ in close_pairs(some, Fraction(1)))
        assert pairs > many / 30
        work.append(tried)
    assert work[1] < 20 * work[0]
    assert work[1] < 5000 * 100


@settings(deadline=None)
@given(
    st.lists(st.tuples(st.tuples(spans, spans, spans), st.sampled_from("abc")), max_size=15),
    withins,
)
def test_the_thinnest_wood_is_that_of_trying_every_two(
    some: list[tuple[Box, str]], start: Fraction
) -> None:
    around, owners = [each[0] for each in some], [each[1] for each in some]

    def apart(i: int, j: int) -> Fraction:
        return root_below(boxes_apart_squared(around[i], around[j]))

    found = thinnest(around, owners, apart, start)
    pairs = [(i, j) for i, j in combinations(range(len(some)), 2) if owners[i] != owners[j]]
    if not pairs:
        assert found is None
        return
    assert found in pairs
    assert apart(*found) == min(apart(*pair) for pair in pairs)


def test_the_thinnest_wood_is_by_the_volumes_not_by_their_boxes() -> None:
    # 0 and 1 touch by their boxes but their volumes are 5 mm apart, those of 0 and 2 only 3
    some = [box(0, 1, 0, 1, 0, 1), box(1, 2, 0, 1, 0, 1), box(-4, -3, 0, 1, 0, 1)]
    apart = {(0, 1): Fraction(5), (0, 2): Fraction(3), (1, 2): Fraction(9)}
    for start in (Fraction(1, 8), Fraction(4), Fraction(100)):
        assert thinnest(some, "abc", lambda i, j: apart[i, j], start) == (0, 2)
    assert thinnest(some, "aba", lambda i, j: apart[i, j], Fraction(1)) == (0, 1)
    assert thinnest(some, "aaa", lambda i, j: apart[i, j], Fraction(1)) is None


def test_of_two_pairs_equally_far_apart_the_first_is_told() -> None:
    row = [box(3 * i, 3 * i + 1, 0, 1, 0, 1) for i in range(9)]
    assert thinnest(row, range(9), lambda i, j: Fraction(3 * (j - i) - 1), Fraction(9)) == (0, 1)
