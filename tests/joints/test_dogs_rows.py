"""Rows of holes in a board: those without a vise, and what is left over from what they must miss.
In mm; holes of 20, a pitch of 100, 6 clear of what they miss, 38 beyond the last one.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadPiece, Where
from layout.joints.dog_spacing import differences
from layout.joints.dogs import MOST_HOLES, DogChoice, Dogs, Vise, Zone, laid_out, lean, work
from layout.measure import read_slope
from layout.part import Part, Placement

F = Fraction
HERE = Where(line=5)


def board(length: int = 1000, thickness: int = 60) -> Part:
    return Part("top", "top", "top", F(length), F(500), F(thickness),
                Placement((F(0), F(0), F(0)), "+X", "+Y", "-Z"))


def holdfasts(**changes: object) -> DogChoice:
    usual = DogChoice(
        shape="round", size=F(20), vise=None, first=F(100), usual_pitch=F(100), pitch=None,
        end=F(38), clear=F(6), wall=F(4), step=F(1), lines=(F(80),), where=HERE, name="holes-1",
        called="holdfast hole",
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def zones(*spans: tuple[int, int]) -> tuple[Zone, ...]:
    return tuple(Zone(f"leg {n}", F(low), F(high)) for n, (low, high) in enumerate(spans, start=1))


def refused(choice: DogChoice, part: Part | None = None) -> str:
    with pytest.raises(BadPiece) as caught:
        laid_out(part or board(), choice)
    assert caught.value.where == HERE
    assert caught.value.cure
    return caught.value.what


def test_an_even_row_by_hand() -> None:
    row = laid_out(board(), holdfasts())
    # 1000 - 38 - 10 = 952 is the limit
    assert row.places == row.even == tuple(F(100 * n) for n in range(1, 10))
    assert (row.held, row.pitch, row.lean) == ([], 100, 0)
    assert laid_out(board(), holdfasts(pitch=F(284))).places == (100, 384, 668, 952)
    assert laid_out(board(), holdfasts(pitch=F("284.1"))).places == (100, F("384.1"), F("668.2"))


def test_one_hole_may_be_left_out() -> None:
    # between 250 - 16 and 350 + 16 there is no place
    row = laid_out(board(), holdfasts(zones=zones((250, 350))))
    # 266 to the first free place behind it, in two gaps of 133; in three, the last would be of 132
    # at the least and the two before it of 67: no better, and more of them uneven
    assert row.places == (100, 233, 366, 466, 566, 666, 766, 866)
    # a vise that serves 130 can't go over the 132 that are blocked
    vise = Vise(F(155), F(0), F(25))
    assert refused(holdfasts(vise=vise, zones=zones((250, 350)))).startswith(
        "no row of holes misses all that it must")


def test_two_left_out_side_by_side_are_too_many() -> None:
    # 200 and 400 are free and 200 apart, which is two pitches
    row = laid_out(board(), holdfasts(zones=zones((216, 384))))
    assert row.places == row.even[:2] + row.even[3:]
    # one more is too many
    assert refused(holdfasts(zones=zones((216, 385)))).startswith(
        "no row of holes misses all that it must")


def every_row(choice: DogChoice, part: Part) -> Iterator[tuple[Fraction, ...]]:
    """All rows on the grid that miss the zones, no gap wider than two pitches."""
    limit = part.length - choice.end - choice.size / 2

    def free(place: Fraction) -> bool:
        keep = choice.size / 2 + choice.clear
        return all(place <= zone.low - keep or place >= zone.high + keep for zone in choice.zones)

    def further(row: tuple[Fraction, ...]) -> Iterator[tuple[Fraction, ...]]:
        if row[-1] + choice.usual_pitch > limit:
            yield row
        place = row[-1] + choice.step
        while place <= min(limit, row[-1] + 2 * choice.usual_pitch):
            if place - row[-1] >= choice.size + choice.wall and free(place):
                yield from further((*row, place))
            place += choice.step

    if free(choice.first):
        yield from further((choice.first,))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(10, 34), st.integers(1, 8)), max_size=2),
       st.sampled_from([20, 25]))
def test_no_row_without_a_vise_is_more_even(spans: list[tuple[int, int]], step: int) -> None:
    part = board(380)
    choice = holdfasts(zones=zones(*((10 * low, 10 * (low + wide)) for low, wide in spans)),
                       step=F(step))
    rows = list(every_row(choice, part))
    told = ""
    try:
        found = laid_out(part, choice)
    except BadPiece as error:
        told = str(error)
    if told:
        assert rows == []
        return
    if found.places == found.even:  # an even row need not stand on the grid
        assert all(place % step or any(place in row for row in rows) for place in found.places)
        return
    best = min((*differences(row, F(100)), row) for row in rows)
    assert (*differences(found.places, F(100)), found.places) == best


def test_what_takes_the_first_hole_is_named() -> None:
    assert refused(holdfasts(zones=zones((400, 410), (110, 130)))) == (
        "the first hole runs into the leg 2")
    assert laid_out(board(), holdfasts(zones=zones((116, 130)))).places[0] == 100


def test_a_row_longer_than_anyone_bores() -> None:
    assert MOST_HOLES == 100
    assert refused(holdfasts(pitch=F(24), first=F(20)), board(4000)) == "a row of 164 holes"
    assert len(laid_out(board(2467 + 38), holdfasts(pitch=F(24), first=F(81))).places) == 100


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"first": F("952.1")}, "the first hole comes too near to the end of the top"),
        ({"pitch": F("23.9")}, "the holes would stand nearer than a hole and the least wood "
         "beside it"),
        ({"step": F(1, 100), "zones": zones((295, 300))},
         "the grid is too fine for so long a top"),
    ],
)
def test_what_is_refused(changes: dict[str, object], what: str) -> None:
    assert refused(holdfasts(**changes)) == what


def test_holes_of_several_lines_by_hand() -> None:
    row = laid_out(board(300), holdfasts(lines=(F(80), F(200))))
    assert row.places == (100, 200)
    done = work(row)
    assert [(one.role, one.shape.reach("L"), one.shape.reach("W"), one.shape.reach("T"))
            for one in done.cuts] == [
        ("holdfast hole 1, row 1", (90, 110), (70, 90), (0, 60)),
        ("holdfast hole 2, row 1", (190, 210), (70, 90), (0, 60)),
        ("holdfast hole 1, row 2", (90, 110), (190, 210), (0, 60)),
        ("holdfast hole 2, row 2", (190, 210), (190, 210), (0, 60)),
    ]
    assert {(one.joint, one.part) for one in done.cuts} == {("top.holes-1", "top")}
    bits = [one for one in done.marks if one.tool == "bit"]
    assert [(one.role, one.point, one.diameter) for one in bits] == [
        ("holdfast hole 1, row 1", (100, 80), 20), ("holdfast hole 2, row 1", (200, 80), 20),
        ("holdfast hole 1, row 2", (100, 200), 20), ("holdfast hole 2, row 2", (200, 200), 20),
    ]
    lines = {one.distance for one in done.marks if one.role == "line of the holdfast holes"}
    assert lines == {80, 200}
    (told,) = done.sums
    assert (told.name, told.total) == ("middles of the holdfast holes", 200)
    assert [term.value for term in told.terms] == [100, 100]


def test_a_leaning_hole_is_blocked_earlier() -> None:
    # 60 thick at 1 in 10: the foot lies 6 farther from the vise
    choice = holdfasts(shape="square", lines=(), lean=read_slope("1 in 10"), vise=Vise(
        F(180), F(0), F(25)), called="dog hole", first=F(100))
    assert lean(choice, F(60)) == 6
    for low, fits in ((222, True), (221, False)):
        row: Dogs = laid_out(board(), choice._replace(zones=zones((low, low + 5))))
        # a hole at 200 reaches to 210, its foot to 216, and 6 clear
        assert (row.places[1] == 200) == fits
    for high, fits in ((184, True), (185, False)):
        row = laid_out(board(), choice._replace(zones=zones((high - 5, high))))
        assert (row.places[1] == 200) == fits
