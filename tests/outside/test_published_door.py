"""A small glass door with moulding, rebate and wedged through tenons, as Ross prints it.

Source: George A. Ross, Elementary Course in Woodwork, 1901, Exercise 8, Figs. 106-107, with the
cut list beside them. Inches; every comparison is exact.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.outside.outsider import (
    Numbers,
    cut_list,
    findings,
    gap,
    inch,
    mortises,
    published,
    rules_at,
    size,
    stands,
    the_sum,
    total,
)

STILES = ("front-left-leg", "front-right-leg")
RAILS = ("front-top-rail", "front-bottom-rail")
SEAT = "seat clear of the joints"


@pytest.fixture(scope="module")
def n() -> Numbers:
    return published("small_glass_door")


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def test_bill(n: Numbers) -> None:
    rows = cut_list(n)
    # 9 + 2 x 1/8 = 9 1/4
    assert rows["top rail"] == (1, size("1 x 1 1/2 x 9 1/4"))
    assert rows["bottom rail"] == (1, size("1 x 2 x 9 1/4"))
    # the bill orders the stiles with horns: 12 + 2 x 1/2 = 13
    thickness, width, length = rows["leg"][1]
    assert (thickness, width, length + 2 * inch("1/2")) == size("1 x 2 x 13")


def test_sight_size(n: Numbers) -> None:
    # 9 - 2 x 2 = 5 and 12 - 1 1/2 - 2 = 8 1/2
    assert gap(n, *STILES, "X") == inch("9") - 2 * inch("2") == inch("5")
    assert gap(n, RAILS[1], RAILS[0], "Z") == inch("8 1/2")
    assert stands(n, STILES[1], "X")[1] - stands(n, STILES[0], "X")[0] == inch("9")
    # glass: 5 + 2 x 5/16 and 8 1/2 + 2 x 5/16, less the 1/8 to spare (ours)
    lips = inches("5/16", "5/16")
    assert the_sum(n, "front-glass", "panel width")[0] == [inch("5"), *lips, inch("-1/8")]
    assert the_sum(n, "front-glass", "panel length")[0] == [inch("8 1/2"), *lips, inch("-1/8")]


@pytest.mark.parametrize("rail", RAILS)
def test_shoulders_stand_a_moulding_and_a_rebate_further_apart(n: Numbers, rail: str) -> None:
    # 5 + 2 x 5/16 = 5 5/8, in front by the moulding and behind by the rebate
    assert the_sum(n, rail, "shoulder distance")[1] == inch("5")
    at_a = total(n, rail, "face shoulder at end A from end A")
    at_b = total(n, rail, "face shoulder at end B from end A")
    assert at_b - at_a == inch("5 5/8")
    assert the_sum(n, rail, "back shoulder distance") == (
        inches("5", "5/16", "5/16"),
        inch("5 5/8"),
    )
    # 2 + 1/8 - 5/16 = 1 13/16 from the rail's end to either shoulder
    assert at_a == total(n, rail, "back shoulder at end A from end A") == inch("1 13/16")


@pytest.mark.parametrize("rail", RAILS)
def test_tenon_thickness(n: Numbers, rail: str) -> None:
    # 5/16 + 1/4 + 7/16 = 1
    assert the_sum(n, rail, "inner shoulder") == (inches("1", "-5/16", "-1/4"), inch("7/16"))
    stands_at = {
        (Fraction(one["distance"]), Fraction(one["second"]))
        for one in n["settings"]
        if one["tool"] == "mortise gauge"
        and any(strike["role"] == "near cheek" for strike in one["strikes"])
    }
    assert stands_at == {(inch("5/16"), inch("9/16"))}


def test_mortises(n: Numbers) -> None:
    # 5/8 from the top and 7/8 long, 5/8 + 7/8 = 1 1/2; 3/4 from the foot and 1 1/4 long,
    # 3/4 + 1 1/4 = 2; through 2
    assert the_sum(n, RAILS[0], "tenon width") == (inches("1 1/2", "-5/8"), inch("7/8"))
    assert the_sum(n, RAILS[1], "tenon width") == (inches("2", "-3/4"), inch("1 1/4"))
    found = mortises(n)
    assert len(found) == 4
    for (_, joint), reach in found.items():
        top = joint.startswith(RAILS[0])
        along = inches("5/8", "1 1/2") if top else inches("10", "11 1/4")
        across = ((Fraction(0), inch("2")), (inch("5/16"), inch("9/16")))
        assert reach == (tuple(along), *across)
    assert inch("12") - inch("11 1/4") == inch("3/4")


@pytest.mark.parametrize("rail", RAILS)
def test_tenons_stand_an_eighth_proud_to_be_trimmed(n: Numbers, rail: str) -> None:
    assert the_sum(n, rail, "tenon length") == (inches("2", "1/8"), inch("2 1/8"))
    left, right = stands(n, STILES[0], "X")[0], stands(n, STILES[1], "X")[1]
    assert stands(n, rail, "X") == (left - inch("1/8"), right + inch("1/8"))


def test_wedges_go_between_tenon_and_mortise_ends(n: Numbers) -> None:
    """Each end of every mortise is flared toward the outside."""
    flares = [cut for cut in n["cuts"] if cut["role"] in ("flare", "far flare")]
    assert len(flares) == 8
    assert {cut["part"] for cut in flares} == set(STILES)


def test_what_is_said_of_it(n: Numbers) -> None:
    """With the rebate 5/16 deep (ours) 11/16 - 9/16 = 1/8 is left beside tenon and mortise."""
    assert rules_at(n, "stop") == set()
    assert rules_at(n, "caution") == {SEAT}
    assert {Fraction(one["figures"]["web"]) for one in findings(n, SEAT)} == {inch("1/8")}
