"""A library table with mitred tenons, through tenons and a keyed shelf, as Foster prints it.

Source: Edwin W. Foster, Carpentry and Woodwork, 1911, ch. XLI, Fig. 196 (two sheets). Two of the
printed numbers do not agree with the others; the program's sums are held against both sides of
each conflict. Inches; every comparison is exact.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest

from tests.outside.outsider import (
    MEETING,
    OVERLAP,
    Numbers,
    Reach,
    gap,
    inch,
    mortises,
    one_size,
    placed_box,
    published,
    reach_of,
    rules_at,
    size,
    stands,
    the_sum,
    total,
)

SIDES = ("front", "back", "left", "right")
LEGS = ("front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg")


@pytest.fixture(scope="module")
def n() -> Numbers:
    return published("library_table")


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def span(low: str, high: str) -> tuple[Fraction, Fraction]:
    return inch(low), inch(high)


def test_bill_of_the_frame(n: Numbers) -> None:
    sizes = Counter(one_size(part) for part in n["parts"])
    for count, printed in (
        (4, "2 1/2 x 2 1/2 x 29"),
        (2, "7/8 x 3 x 42"),
        (2, "7/8 x 3 x 24"),
        (2, "7/8 x 3 x 26 1/2"),
        (4, "3/4 x 7/8 x 2 1/2"),  # the wedges
    ):
        assert sizes[size(printed)] == count
    assert sum(sizes.values()) == 15  # and one shelf
    # the cut list says the same, row by row as the bill; the shelf's printed length does not agree
    # with the rest (below)
    assert [(row["count"], row["name"], one_size(row)) for row in n["cut_list"]] == [
        (4, "leg", size("2 1/2 x 2 1/2 x 29")),
        (2, "top rail", size("7/8 x 3 x 42")),
        (2, "top rail", size("7/8 x 3 x 24")),
        (2, "cross rail", size("7/8 x 3 x 26 1/2")),
        (1, "shelf", size("3/4 x 12 x 44 5/8")),
        (4, "key", size("3/4 x 7/8 x 2 1/2")),
    ]


@pytest.mark.parametrize(
    ("sides", "top", "clear", "over"),
    [
        (("front", "back"), "48", "39", "42"),
        (("left", "right"), "30", "21", "24"),
    ],
)
def test_top_rails(
    n: Numbers, sides: tuple[str, str], top: str, clear: str, over: str
) -> None:
    # 48 - 2 x 2 - 2 x 2 1/2 = 39, 30 - 2 x 2 - 2 x 2 1/2 = 21
    assert inch(top) - 2 * inch("2") - 2 * inch("2 1/2") == inch(clear)
    for side in sides:
        rail = f"{side}-top-rail"
        terms, found = the_sum(n, rail, "shoulder distance")
        assert terms == [inch(top) - 2 * inch("2"), *inches("-2 1/2", "-2 1/2")]
        assert found == inch(clear)
        # 39 + 2 x 1 1/2 = 42, 21 + 2 x 1 1/2 = 24
        assert the_sum(n, rail, "cut length") == (inches(clear, "1 1/2", "1 1/2"), inch(over))
        # 1 + 2 = 3: the shoulder is at the top only
        assert the_sum(n, rail, "tenon width") == (inches("3", "-1"), inch("2"))
        # flush with the outside: the other face has all of the shoulder, 7/8 - 1/2 = 3/8
        assert the_sum(n, rail, "inner shoulder") == (inches("7/8", "-1/2"), inch("3/8"))


def test_top_tenons_are_cut_on_three_sides(n: Numbers) -> None:
    """At the back, at the top, and at the mitred end; not at the face, nor below."""
    for side in SIDES:
        for end in "AB":
            roles = {
                one["role"]
                for one in n["cuts"]
                if one["part"] == f"{side}-top-rail" and one["joint"].endswith(f".{end}")
            }
            assert roles == {
                f"back cheek waste {end}", f"top shoulder waste {end}", f"mitre waste {end}",
            }


def test_top_mortises_are_two_long_and_start_one_below_the_top(n: Numbers) -> None:
    found = {key: reach for key, reach in mortises(n).items() if "top-rail" in key[1]}
    assert len(found) == 8
    for (_, _joint), (along, *cross) in found.items():
        assert along == span("1", "3")
        # 1/2 wide, from our 1 behind the leg's face; 1 1/2 deep
        assert sorted(cross) == [span("1", "1 1/2"), span("1", "2 1/2")]


def test_top_tenons_come_to_their_point_at_the_printed_length(n: Numbers) -> None:
    # 2 1/2 - 1 = 1 1/2 on the outside, 2 1/2 - 1 1/2 = 1 on the inside
    for side in SIDES:
        for end in "AB":
            rail = f"{side}-top-rail"
            assert the_sum(n, rail, f"long side of the mitre, end {end}") == (
                inches("2 1/2", "-1"),
                inch("1 1/2"),
            )
            assert the_sum(n, rail, f"short side of the mitre, end {end}") == (
                inches("2 1/2", "-1 1/2"),
                inch("1"),
            )


@pytest.mark.parametrize("side", ["left", "right"])
def test_cross_rails(n: Numbers, side: str) -> None:
    rail = f"{side}-cross-rail"
    # 2 1/2 + 1/4 = 2 3/4 and 21 + 2 x 2 3/4 = 26 1/2
    assert the_sum(n, rail, "tenon length") == (inches("2 1/2", "1/4"), inch("2 3/4"))
    assert the_sum(n, rail, "cut length") == (inches("21", "2 3/4", "2 3/4"), inch("26 1/2"))
    front, back = stands(n, "front-left-leg", "Y")[0], stands(n, "back-left-leg", "Y")[1]
    assert stands(n, rail, "Y") == (front - inch("1/4"), back + inch("1/4"))
    assert stands(n, rail, "Z")[0] == inch("6")


def test_conflict_twenty_between_the_cross_rails_shoulders(n: Numbers) -> None:
    """The drawing prints 20 between the shoulders, the rail 26 1/2 and its tenons 2 3/4.

    20 + 2 x 2 3/4 = 25 1/2, not 26 1/2; the other sums say 21, and so does the program.
    """
    printed = inch("20")
    for side in ("left", "right"):
        found = total(n, f"{side}-cross-rail", "shoulder distance")
        assert found == inch("21") == printed + inch("1")
        assert printed + 2 * inch("2 3/4") == inch("25 1/2")
        assert total(n, f"{side}-cross-rail", "cut length") - inch("25 1/2") == inch("1")


def test_conflict_length_of_the_shelf(n: Numbers) -> None:
    """The bill prints 44 3/4; 39 + 2 x 13/16 + 2 x 2 = 44 5/8, and so the program has it."""
    printed = inch("44 3/4")
    # cross rails of 7/8 in the middle of 2 1/2: 13/16 on either side
    assert (inch("2 1/2") - inch("7/8")) / 2 == inch("13/16")
    between = total(n, "shelf", "shoulder distance")
    assert between == inch("39") + 2 * inch("13/16") == inch("40 5/8")
    assert between == gap(n, "left-cross-rail", "right-cross-rail", "X")
    assert the_sum(n, "shelf", "cut length") == (inches("40 5/8", "2", "2"), inch("44 5/8"))
    assert printed - total(n, "shelf", "cut length") == inch("1/8")


def test_height_and_top(n: Numbers) -> None:
    # 29 + 7/8 = 29 7/8
    assert stands(n, "front-left-leg", "Z")[1] + inch("7/8") == inch("29 7/8")
    over = stands(n, "front-right-leg", "X")[1] - stands(n, "front-left-leg", "X")[0]
    deep = stands(n, "back-left-leg", "Y")[1] - stands(n, "front-left-leg", "Y")[0]
    assert (over + 2 * inch("2"), deep + 2 * inch("2")) == span("48", "30")


@pytest.mark.parametrize("side", ["left", "right"])
def test_shelf_tenons_divide_the_cross_rail(n: Numbers, side: str) -> None:
    # 5 + 2 + 7 + 2 + 5 = 21, from post to post
    rail = f"{side}-cross-rail"
    found = [
        placed_box(n, rail, reach_of(cut))[1]
        for cut in n["cuts"]
        if cut["part"] == rail and cut["role"] in ("first mortise", "second mortise")
    ]
    edges = sorted(value for one in found for value in one)
    posts = stands(n, "front-left-leg", "Y")[1], stands(n, "back-left-leg", "Y")[0]
    lines = [posts[0], *edges, posts[1]]
    run = [high - low for low, high in pairwise(lines)]
    assert run == inches("5", "2", "7", "2", "5")
    assert sum(run, Fraction(0)) == inch("21")


def test_shelf_tenons(n: Numbers) -> None:
    # 1/2 + 2 + 7 + 2 + 1/2 = 12; 7/8 + 1 1/8 = 2, as thick as the shelf
    for which in ("first", "second"):
        assert total(n, "shelf", f"{which} tenon width") == inch("2")
    assert the_sum(n, "shelf", "second tenon top from the face edge") == (
        inches("1/2", "2", "7"),
        inch("9 1/2"),
    )
    assert the_sum(n, "shelf", "tenon length") == (inches("7/8", "1 1/8"), inch("2"))
    assert total(n, "shelf", "outer shoulder") == total(n, "shelf", "inner shoulder") == 0


def test_shelf_lies_flat_where_it_is_wide(n: Numbers) -> None:
    low, high = stands(n, "shelf", "Y")
    assert high - low == inch("12")
    low, high = stands(n, "shelf", "Z")
    assert high - low == inch("3/4")
    # in the middle of the cross rails' 3 (ours): 6 + 3/2 - 3/8
    assert low == inch("7 1/8")


def test_wedges(n: Numbers) -> None:
    """3/4 x 7/8 x 2 1/2: through 3/4 of shelf, 7/8 proud on both sides of it."""
    wedges = [part for part in n["parts"] if "key" in part["id"]]
    assert len(wedges) == 4
    shelf = stands(n, "shelf", "Z")
    for one in wedges:
        assert one_size(one) == size("3/4 x 7/8 x 2 1/2")
        low, high = stands(n, one["id"], "Z")
        assert (shelf[0] - low, high - shelf[1]) == span("7/8", "7/8")
        # 1 in 7 over 2 1/2: 5/14 less at the thin end
        (taper,) = [cut for cut in n["cuts"] if cut["part"] == one["id"]]
        assert reach_of(taper)[1] == (inch("7/8") - inch("5/14"), inch("7/8"))
    # they bear on the cross rails: their plain side stands on the rail's outer face
    outer = stands(n, "left-cross-rail", "X")[0], stands(n, "right-cross-rail", "X")[1]
    for one in wedges:
        low, high = stands(n, one["id"], "X")
        assert high == outer[0] or low == outer[1]


def test_wedge_holes_reach_under_the_cross_rail(n: Numbers) -> None:
    # 7/8 - 1/16 = 13/16 from the shoulder
    for which in ("first", "second"):
        name = f"key hole from the shoulder of the {which} tenon"
        assert the_sum(n, "shelf", name) == (inches("7/8", "-1/16"), inch("13/16"))
    holes: list[Reach] = [
        reach_of(cut) for cut in n["cuts"] if cut["part"] == "shelf" and "key hole" in cut["role"]
    ]
    # in the middle of each tenon of 2: 1/2 + 5/8 = 1 1/8 and 9 1/2 + 5/8 = 10 1/8
    assert sorted({hole[1] for hole in holes}) == [
        span("1 1/8", "1 7/8"), span("10 1/8", "10 7/8"),
    ]


def test_nothing_is_in_the_way_of_anything(n: Numbers) -> None:
    found = rules_at(n, "stop") | rules_at(n, "caution")
    assert MEETING not in found
    assert OVERLAP not in found


def test_nothing_is_stopped(n: Numbers) -> None:
    """A shelf that lies flat 7 1/8 above the floor is nowhere below it, as wide as it is."""
    assert [one["text"] for one in n["checks"] if one["level"] == "stop"] == []
    assert rules_at(n, "caution") == set()
