"""How tails and pins share a width: every size by a sum that a person can check, in mm.

Unless a test says otherwise: width 100, tails 14 long at 1 in 7, so a side slopes 2; pin 6, so
10 at the baseline; half pin left open, so 6 + 2 = 8 at the end and 10 at the baseline.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadPiece
from layout.joints.spacing import (
    MOST_TAILS,
    DovetailChoice,
    Spacing,
    Wishes,
    most_tails,
    space,
    tail_around,
    tail_length,
    tail_share,
)
from layout.measure.slope import Slope
from tests.drawn import fractions

F = Fraction
Sizes = list[tuple[str, int, Fraction, Fraction]]


def dovetails(**changes: object) -> DovetailChoice:
    """1 in 7, pins 6, tails about 32, all in mm, through."""
    usual = DovetailChoice(slope=Slope(F(7)), pin=F(6), tail_width=F(32))
    return usual._replace(**changes)  # type: ignore[arg-type]


def spaced(
    width: int | Fraction = 100, wishes: Wishes = Wishes(), **changes: object  # noqa: B008
) -> Spacing:
    """Tails 14 long over a width."""
    return space(dovetails(**changes), F(width), F(14), wishes)


def sizes(found: Spacing) -> Sizes:
    """Kind, number, width at the end and at the baseline of every member."""
    return [(one.kind, one.number, one.end, one.base) for one in found.members]


def ends(found: Spacing) -> list[Fraction]:
    """Widths of the tails at the end."""
    return [tail.end for tail in found.tails]


def half_pins(wishes: Wishes, **changes: object) -> tuple[Fraction, Fraction]:
    """Both half pins at the end."""
    members = spaced(wishes=wishes, **changes).members
    return members[0].end, members[-1].end


# -- equal tails


def test_two_equal_tails_with_every_size_at_the_end_and_at_the_baseline() -> None:
    found = spaced(tails=2)
    # wood for tails: 100 - 2 x 8 - 6 = 78, that is 39 each; 39 - 2 x 2 = 35 at the baseline
    assert sizes(found) == [
        ("half pin", 1, 8, 10), ("tail", 1, 39, 35), ("pin", 1, 6, 10), ("tail", 2, 39, 35),
        ("half pin", 2, 8, 10),
    ]
    assert (found.width, found.depth, found.offset) == (100, 14, 2)
    assert [found.at_end(i) for i in range(5)] == [(0, 8), (8, 47), (47, 53), (53, 92), (92, 100)]
    assert [found.at_base(i) for i in range(5)] == [
        (0, 10), (10, 45), (45, 55), (55, 90), (90, 100),
    ]
    assert found.step == 45  # 39 + 6
    assert [one.name for one in found.members] == [
        "half pin 1", "tail 1", "pin 1", "tail 2", "half pin 2",
    ]
    assert [one.name for one in found.tails] == ["tail 1", "tail 2"]
    assert [one.name for one in found.pins] == ["half pin 1", "pin 1", "half pin 2"]


def test_one_tail_stands_between_two_half_pins_and_has_no_divider_step() -> None:
    found = spaced(tails=1)
    # 100 - 2 x 8 = 84; 84 - 4 = 80
    assert sizes(found) == [("half pin", 1, 8, 10), ("tail", 1, 84, 80), ("half pin", 2, 8, 10)]
    assert found.step is None


# (width - 2 x 8 + 6) / (32 + 6), to the nearest; a half counts up
@pytest.mark.parametrize(
    ("width", "count"),
    [(100, 2), (104, 2), (105, 3), (120, 3), (142, 3), (143, 4), (48, 1), (30, 1)],
)
def test_how_many_tails_come_nearest_to_the_width_wanted(width: int, count: int) -> None:
    assert len(spaced(width).tails) == count


def test_a_tail_width_too_small_gives_as_many_tails_as_fit() -> None:
    assert len(spaced(tail_width=F(1, 10)).tails) == 8
    # and no tail width is as wide as a pin: (100 - 16 + 6) / 12 = 7 1/2, so 8
    assert len(spaced(tail_width=None).tails) == 8


def test_the_lap_shortens_the_tails() -> None:
    assert tail_length(dovetails(), F(20)) == 20
    assert tail_length(dovetails(lap=F(5)), F(20)) == 15


# -- graduated


@pytest.mark.parametrize(
    ("share", "count", "width", "expected"),
    [
        # wood 116 - 16 - 12 = 88; 7/8 + 1 + 7/8 = 11/4; 88 / (11/4) = 32
        ("7/8", 3, 116, [28, 32, 28]),
        # wood 140 - 16 - 24 = 100; 1/4 + 1/2 + 1 + 1/2 + 1/4 = 5/2; 100 / (5/2) = 40
        ("1/2", 5, 140, [10, 20, 40, 20, 10]),
        # wood 154 - 16 - 18 = 120; 1/2 + 1 + 1 + 1/2 = 3; two in the middle
        ("1/2", 4, 154, [20, 40, 40, 20]),
        # two tails: both are in the middle
        ("1/2", 2, 100, [39, 39]),
    ],
)
def test_graduated_tails_shrink_toward_the_edges(
    share: str, count: int, width: int, expected: list[int]
) -> None:
    found = spaced(width, tails=count, graduated=F(share))
    assert ends(found) == expected
    assert found.step is None if len(set(expected)) > 1 else found.step == 45


def test_a_tails_share_of_the_wood_is_its_weight() -> None:
    found = spaced(140, tails=5, graduated=F(1, 2))
    assert [tail_share(found, n) for n in range(1, 6)] == [
        F(1, 10), F(1, 5), F(2, 5), F(1, 5), F(1, 10),
    ]


# -- half tails at the edges


def test_half_tails_are_half_as_wide_and_slope_on_one_side_only() -> None:
    # about 32: 76 / (32 + 6) + 1 = 3 tails; wood 76 - 2 x 6 = 64, in quarters: 16, 32, 16
    found = spaced(76, edges="half tails")
    assert sizes(found) == [
        ("tail", 1, 16, 14), ("pin", 1, 6, 10), ("tail", 2, 32, 28), ("pin", 2, 6, 10),
        ("tail", 3, 16, 14),
    ]
    assert found.halves == ((), ())
    assert found.step is None
    assert (found.at_end(0), found.at_base(4)) == ((0, 16), (62, 76))


def test_half_tails_are_graduated_too() -> None:
    # weights 1/4 / 2, 1/2, 1, 1/2, 1/8: 9/4; wood 96 - 24 = 72; 72 / (9/4) = 32
    found = spaced(96, edges="half tails", tails=5, graduated=F(1, 2))
    assert ends(found) == [4, 16, 32, 16, 4]


def test_two_half_tails_meet_at_one_pin_however_narrow() -> None:
    found = spaced(14, edges="half tails")
    # 14 / 38 + 1 would be one tail; (14 - 6) / 2 = 4; 4 - 2 = 2
    assert sizes(found) == [("tail", 1, 4, 2), ("pin", 1, 6, 10), ("tail", 2, 4, 2)]


def test_one_tail_to_both_edges_is_refused() -> None:
    with pytest.raises(BadPiece, match="no pin beside it") as told:
        spaced(edges="half tails", tails=1)
    assert told.value.cure == "make it 2 tails or more, or leave half pins at the edges"


# -- pins at given places


def test_pins_stand_where_their_middles_are_given() -> None:
    found = spaced(pins_at=(F(30), F(70)))
    # 30 - 3 - 8 = 19; 70 - 3 - 33 = 34; 92 - 73 = 19
    assert ends(found) == [19, 34, 19]
    assert [found.at_end(i) for i in (2, 4)] == [(27, 33), (67, 73)]
    assert found.step is None


def test_pins_given_with_half_tails_leave_what_is_left_at_the_edges() -> None:
    found = spaced(pins_at=(F(30), F(60)), edges="half tails")
    # 30 - 3 = 27, less one slope 25; 57 - 33 = 24 and 20; 100 - 63 = 37 and 35
    assert sizes(found) == [
        ("tail", 1, 27, 25), ("pin", 1, 6, 10), ("tail", 2, 24, 20), ("pin", 2, 6, 10),
        ("tail", 3, 37, 35),
    ]


def test_evenly_given_pins_have_a_divider_step() -> None:
    # half pins 8; one pin in the middle: tails 39 each
    assert spaced(pins_at=(F(50),)).step == 45


@pytest.mark.parametrize(
    "places",
    [
        (50, 60),  # 60 - 50 - 6 = 4, less 2 x 2: nothing
        (60, 40),  # not in order
        (15,),  # 15 - 3 - 8 = 4: nothing at the near edge
        (85,),  # nothing at the far edge
        (120,),
    ],
)
def test_pins_too_close_are_refused(places: tuple[int, ...]) -> None:
    with pytest.raises(BadPiece, match="the pins stand so close") as told:
        spaced(pins_at=tuple(F(one) for one in places))
    assert told.value.cure == "give the middles of the pins in order from the face edge, " \
        "further apart"


def test_pins_just_far_enough_apart_stand() -> None:
    assert ends(spaced(pins_at=(F(50), F(601, 10)))) == [39, F(41, 10), F(289, 10)]


# -- half pins


def test_a_half_pin_as_given_is_both() -> None:
    found = spaced(half_pin=F(5), tails=2)
    assert [(one.end, one.base) for one in found.members if one.kind == "half pin"] == [
        (5, 7), (5, 7),
    ]
    assert ends(found) == [42, 42]  # (100 - 10 - 6) / 2
    assert found.halves == (((1, "half pin", 5),), ((1, "half pin", 5),))


def test_a_half_pin_left_open_tells_its_sum() -> None:
    usual = ((1, "pin", 6), (1, "slope over the tail", 2))
    assert spaced().halves == (usual, usual)


@pytest.mark.parametrize(
    ("groove", "near"),
    [
        (12, 8),  # 12 - 1 - 2 = 9: no need to give way
        (11, 8),  # 8: just room
        (9, 6),  # 9 - 1 - 2
        (6, 3),  # half of a pin is the least
        (5, 8),  # 2 would be less than half of a pin: it stays, and the checks say so
    ],
)
def test_the_near_half_pin_gives_way_to_a_groove(groove: int, near: int) -> None:
    wishes = Wishes(groove=(F(groove), F(groove + 6)), clear=F(1))
    assert half_pins(wishes) == (near, 8)


def test_what_gave_way_leaves_the_clear_between_groove_and_tail_side() -> None:
    found = spaced(wishes=Wishes(groove=(F(9), F(15)), clear=F(1)))
    assert found.at_base(1)[0] == 8  # 9 - 1
    assert found.halves[0] == (
        (1, "groove from the face edge", 9), (-1, "wood between groove and tail side", 1),
        (-1, "slope over the tail", 2),
    )
    one = tail_around(found, (F(9), F(15)))
    assert one is not None
    assert one.name == "tail 1"


def test_a_half_pin_that_is_given_gives_way_to_nothing() -> None:
    assert half_pins(Wishes(groove=(F(9), F(15)), clear=F(1)), half_pin=F(8)) == (8, 8)
    assert half_pins(Wishes(rabbet_near=F(12)), half_pin=F(8)) == (8, 8)


@pytest.mark.parametrize(
    ("rabbets", "halves"),
    [((12, 0), (12, 8)), ((0, 12), (8, 12)), ((8, 8), (8, 8)), ((9, 10), (9, 10))],
)
def test_half_pins_grow_to_the_width_of_a_rabbet(
    rabbets: tuple[int, int], halves: tuple[int, int]
) -> None:
    near, far = (F(one) for one in rabbets)
    assert half_pins(Wishes(rabbet_near=near, rabbet_far=far)) == halves


def test_a_half_pin_gives_way_no_further_than_a_rabbet_is_wide() -> None:
    # 7 - 1 - 2 = 4 would do for the groove, but the rabbet is 5 wide
    both = Wishes(groove=(F(7), F(10)), clear=F(1), rabbet_near=F(5))
    assert half_pins(both) == (8, 8)
    assert half_pins(both._replace(rabbet_near=F(4))) == (4, 8)


def test_a_grown_half_pin_tells_the_rabbet() -> None:
    assert spaced(wishes=Wishes(rabbet_near=F(12))).halves == (
        ((1, "width of the rabbet", 12),), ((1, "pin", 6), (1, "slope over the tail", 2)),
    )


# -- which tail a groove lies in


@pytest.mark.parametrize(
    ("span", "name"),
    [
        ((10, 45), "tail 1"),  # from side to side
        ((20, 26), "tail 1"),
        ((55, 60), "tail 2"),
        ((9, 15), None),  # begins in the half pin at the baseline, though not at the end
        ((40, 46), None),
        ((48, 52), None),
        ((20, 80), None),
        ((92, 98), None),
    ],
)
def test_a_groove_lies_in_a_tail_where_that_is_narrowest(
    span: tuple[int, int], name: str | None
) -> None:
    tail = tail_around(spaced(tails=2), (F(span[0]), F(span[1])))
    assert (tail and tail.name) == name


# -- what does not fit


def test_most_tails_still_have_wood_at_their_baseline() -> None:
    # n tails: (84 - 6 (n - 1)) / n > 4, so n < 9
    assert most_tails(dovetails(), F(100), F(14)) == 8
    # a wider half pin leaves less: (100 - 20 - 8 + 6) / 10 = 7.8
    assert most_tails(dovetails(), F(100), F(14), Wishes(rabbet_near=F(20))) == 7
    assert most_tails(dovetails(), F(20), F(14)) == 0
    assert most_tails(dovetails(pin=F(1, 1000)), F(10_000), F(1, 1000)) == MOST_TAILS


@pytest.mark.parametrize(
    ("width", "count", "what", "cure"),
    [
        (100, 9, "9 tails don't fit", "at most 8 tails fit with pins and half pins like these"),
        (30, 2, "2 tails don't fit", "at most 1 tail fits with pins and half pins like these"),
        (20, None, "there is no room for a tail between the half pins",
         "make the half pins or the slope less, or the boards wider"),
        (20, 3, "there is no room for a tail between the half pins",
         "make the half pins or the slope less, or the boards wider"),
        (100, 101, "101 tails don't fit", "at most 8 tails fit with pins and half pins like these"),
    ],
)
def test_tails_that_do_not_fit_are_refused_with_what_would(
    width: int, count: int | None, what: str, cure: str
) -> None:
    with pytest.raises(BadPiece) as told:
        spaced(width, tails=count)
    assert told.value.what.startswith(what)
    assert told.value.cure == cure


def test_one_tail_more_or_less_is_the_limit() -> None:
    assert len(spaced(tails=8).tails) == 8
    assert sizes(spaced(tails=8))[1] == ("tail", 1, F(21, 4), F(5, 4))  # (84 - 42) / 8


# -- whatever is chosen

CHOICES = st.builds(
    dovetails,
    slope=fractions(1, 50, 8).map(Slope),
    pin=fractions(3, 12, 64),
    tail_width=fractions(12, 60, 8),
    tails=st.none() | st.integers(2, 9),
    half_pin=st.none() | fractions(F(1, 10), 20, 64),
    graduated=fractions(F(1, 2), 1, 16),
    edges=st.sampled_from(["half pins", "half tails"]),
    pins_at=st.just(()) | st.lists(
        fractions(5, 200, 16), min_size=1, max_size=4, unique=True
    ).map(lambda places: tuple(sorted(places))),
)
WISHES = st.builds(
    Wishes,
    groove=st.none() | st.integers(1, 30).map(lambda low: (F(low), F(low + 6))),
    clear=fractions(0, 2, 16),
    rabbet_near=st.integers(0, 30).map(F),
    rabbet_far=st.integers(0, 30).map(F),
)


@settings(deadline=None)  # other work on the machine is no fault of these sums
@given(
    CHOICES, WISHES, fractions(20, 200, 16),
    fractions(2, 30, 16),
)
def test_members_fill_the_width_at_both_places_and_every_side_leans_by_the_slope(
    choice: DovetailChoice, wishes: Wishes, width: Fraction, depth: Fraction
) -> None:
    try:
        found = space(choice, width, depth, wishes)
    except BadPiece:
        return
    assert sum(one.end for one in found.members) == width
    assert sum(one.base for one in found.members) == width
    lean = depth / choice.slope.run
    last = len(found.members) - 1
    for index, one in enumerate(found.members):
        end, base = found.at_end(index), found.at_base(index)
        out = 1 if one.kind == "tail" else -1
        # an outer side of the whole width is square; every other leans by the slope
        assert base[0] - end[0] == (out * lean if index > 0 else 0)
        assert end[1] - base[1] == (out * lean if index < last else 0)
        if one.kind == "tail":
            assert one.base > 0
        if one.kind == "pin":
            assert one.end == choice.pin
    assert [one.kind == "tail" for one in found.members] == [
        (index % 2 == 0) == (choice.edges == "half tails") for index in range(last + 1)
    ]
