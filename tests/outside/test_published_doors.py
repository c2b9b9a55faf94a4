"""Two doors as books print them, built as doors, part by part. Every comparison is exact.

Sources: W. M. Foster, Carpentry and Woodwork, 1911, ch. XL, Fig. 194, a small panelled door; and
George A. Ross, Elementary Course in Woodwork, 1901, Exercise 8, Figs. 106-107, a small glass door
with the cut list beside it. Inches.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import isqrt

import pytest

from tests.outside import judge_boards, judge_joints
from tests.outside.outsider import (
    Numbers,
    Reach,
    cut_list,
    findings,
    gap,
    inch,
    mortises,
    parts_by_size,
    published,
    reach_of,
    rules_at,
    size,
    stands,
    the_sum,
    total,
)

STILES = ("door-left-stile", "door-right-stile")
RAILS = ("door-top-rail", "door-bottom-rail")
OUTSIDE, INSIDE = "over its stiles, without horns", "inside its frame, while the horns are on"
ZERO = Fraction(0)


@pytest.fixture(scope="module")
def foster() -> Numbers:
    return published("raised_panel_door")


@pytest.fixture(scope="module")
def ross() -> Numbers:
    return published("small_glass_door_horns")


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def spread(low: str, high: str) -> tuple[Fraction, Fraction]:
    return inch(low), inch(high)


def cuts_of(n: Numbers, part: str, role: str) -> list[Reach]:
    return [reach_of(c) for c in n["cuts"] if c["part"] == part and c["role"] == role]


def rounded_down(value: Fraction) -> Fraction:
    """A square root, rounded down at twelve decimals, by whole numbers."""
    scale = 10**12
    return Fraction(isqrt(value.numerator * scale**2 // value.denominator), scale)


def diagonals(n: Numbers) -> dict[str, tuple[Fraction, Fraction, Fraction]]:
    found = {
        one["where"]: tuple(Fraction(one[key]) for key in ("width", "height", "diagonal"))
        for one in n["squareness"] if one["name"] == "door"
    }
    assert len(found) == len(n["squareness"])
    return found  # type: ignore[return-value]


# -- Foster's panelled door


def test_the_parts_of_the_panelled_door(foster: Numbers) -> None:
    # tenons 1 1/8: 10 + 2 x 1 1/8 = 12 1/4; panel 10 + 3/4 and 12 1/2 + 3/4
    assert cut_list(foster) == {
        "stile": (2, size("3/4 x 2 x 17")),
        "door top rail": (1, size("3/4 x 2 x 12 1/4")),
        "door bottom rail": (1, size("3/4 x 2 1/2 x 12 1/4")),
        "door panel": (1, size("1/2 x 10 3/4 x 13 1/4")),
    }
    assert parts_by_size(foster) == Counter({
        row: count for count, row in cut_list(foster).values()
    })


def test_the_panelled_door_stands_as_drawn(foster: Numbers) -> None:
    # 14 - 2 - 2 = 10 and 17 - 2 - 2 1/2 = 12 1/2
    assert gap(foster, *STILES, "X") == inch("10")
    assert gap(foster, RAILS[1], RAILS[0], "Z") == inch("12 1/2")
    assert (stands(foster, STILES[0], "X"), stands(foster, STILES[1], "X")) == (
        spread("0", "2"), spread("12", "14")
    )
    for stile in STILES:
        assert stands(foster, stile, "Z") == spread("0", "17")
    assert stands(foster, RAILS[0], "Z") == spread("15", "17")
    assert stands(foster, RAILS[1], "Z") == spread("0", "2 1/2")
    # 3/8 into each groove: 2 - 3/8 .. 12 + 3/8, 2 1/2 - 3/8 .. 15 + 3/8; no clearance anywhere
    assert stands(foster, "door-panel", "X") == spread("1 5/8", "12 3/8")
    assert stands(foster, "door-panel", "Z") == spread("2 1/8", "15 3/8")
    # the groove is in the middle, 1/4 .. 1/2 behind the face; the field is flush with the frame
    assert stands(foster, "door-panel", "Y") == spread("0", "1/2")


def test_the_grooves_of_the_panelled_door(foster: Numbers) -> None:
    for part, wide in ((STILES[0], "2"), (STILES[1], "2"), (RAILS[0], "2")):
        [(along, across, deep)] = cuts_of(foster, part, "groove")
        assert across == (inch(wide) - inch("3/8"), inch(wide))
        assert deep == spread("1/4", "1/2")
        assert along[0] == 0
    [(_, across, deep)] = cuts_of(foster, RAILS[1], "groove")
    assert (across, deep) == (spread("0", "3/8"), spread("1/4", "1/2"))
    pairs = {
        (Fraction(one["distance"]), Fraction(one["second"])) for one in foster["settings"]
        if any("groove wall" in strike["role"] for strike in one["strikes"])
    }
    assert pairs == {spread("1/4", "1/2")}


def test_the_sums_of_the_panelled_door(foster: Numbers) -> None:
    assert the_sum(foster, STILES[0], "width of the door (door)") == (inches("14"), inch("14"))
    assert the_sum(foster, STILES[0], "height of the door (door)") == (inches("17"), inch("17"))
    assert the_sum(foster, RAILS[1], "clear between the rails (door)") == (
        inches("17", "-2 1/2", "-2"), inch("12 1/2")
    )
    for rail in RAILS:
        assert the_sum(foster, rail, "shoulder distance") == (
            inches("14", "-2", "-2"), inch("10")
        )
        assert total(foster, rail, "cut length") == inch("12 1/4")
    assert the_sum(foster, "door-panel", "panel width") == (
        inches("10", "3/8", "3/8"), inch("10 3/4")
    )
    assert the_sum(foster, "door-panel", "panel length") == (
        inches("12 1/2", "3/8", "3/8"), inch("13 1/4")
    )


def test_the_haunches_of_the_panelled_door_fill_its_grooves(foster: Numbers) -> None:
    """Beside the tenon, a third of the rail, a haunch as long as the groove is deep."""
    for rail, wide, third, edge in (
        (RAILS[0], "2", "2/3", "top"), (RAILS[1], "2 1/2", "5/6", "bottom")
    ):
        for end, shoulder, tip in (("A", "1 1/8", "0"), ("B", "11 1/8", "12 1/4")):
            over = cuts_of(foster, rail, f"{edge} shoulder waste {end}")
            assert len(over) == 1
            along, across, _ = over[0]
            haunch = inch(shoulder) + inch("3/8") * (-1 if end == "A" else 1)
            assert along == tuple(sorted((haunch, inch(tip))))
            assert across[1] - across[0] == inch(third)
            assert across == ((ZERO, inch(third)) if edge == "top"
                              else (inch(wide) - inch(third), inch(wide)))
    found = judge_joints.joints(judge_boards.boards(foster))
    assert len(found) == 4
    for joint in found:
        assert list(judge_joints.filled_groove(joint)) == []


def test_the_raised_panel_s_tongue_fits_the_groove(foster: Numbers) -> None:
    for surface in ("edge", "far edge", "end A", "end B"):
        [cut] = [c for c in foster["cuts"] if c["role"] == f"raise {surface}"]
        # 1/2 - 1/4: a tongue of 1/4 is left all along, 3/8 wide and flat; then up to 1/16 below
        # the field, 1 1/4 from the edge
        axis = 1 if "edge" in surface else 0
        whole = inch("10 3/4") if axis else inch("13 1/4")
        far = surface in ("far edge", "end B")
        profile = {
            (whole - at if far else at, t)
            for spot in cut["hull"] for at, t in [(Fraction(spot[axis]), Fraction(spot[2]))]
        }
        assert profile == {
            (ZERO, ZERO), (ZERO, inch("1/4")), (inch("3/8"), inch("1/4")),
            (inch("1 1/4"), inch("1/16")), (inch("1 1/4"), ZERO),
        }


def test_the_diagonals_of_the_panelled_door(foster: Numbers) -> None:
    # 14^2 + 17^2 = 485; 10^2 + (25/2)^2 = 1025/4; times 25.4^2
    mm = Fraction(127, 5) ** 2
    assert diagonals(foster) == {
        OUTSIDE: (inch("14"), inch("17"), rounded_down(485 * mm)),
        INSIDE: (inch("10"), inch("12 1/2"), rounded_down(Fraction(1025, 4) * mm)),
    }
    # so that a rounding that is too coarse is seen: sqrt 485 = 22.0227155... in
    assert abs(float(diagonals(foster)[OUTSIDE][2]) - 22.0227155 * 25.4) < 1e-5


def test_what_is_said_of_the_panelled_door(foster: Numbers) -> None:
    assert rules_at(foster, "stop") == rules_at(foster, "caution") == set()


# -- Ross's glass door


def test_the_bill_of_the_glass_door(ross: Numbers) -> None:
    """Stiles (2) 1 x 2 x 13; bottom rail 1 x 2 x 9 1/4; top rail 1 x 1 1/2 x 9 1/4."""
    rows = {row["name"]: row for row in ross["cut_list"]}
    for name, part, finished, ordered, what in (
        ("stile", STILES[0], "1 x 2 x 12", "1 x 2 x 13", "length with horns"),
        ("door bottom rail", RAILS[1], "1 x 2 x 9", "1 x 2 x 9 1/4",
         "length with tenons left proud"),
        ("door top rail", RAILS[0], "1 x 1 1/2 x 9", "1 x 1 1/2 x 9 1/4",
         "length with tenons left proud"),
    ):
        assert cut_list(ross)[name] == (2 if name == "stile" else 1, size(finished))
        thickness, width, length = size(ordered)
        assert (thickness, width) == size(finished)[:2]
        assert total(ross, part, what) == length
        # the list itself says what to saw to
        assert f"cut {ordered.split(' x ')[2]} long" in rows[name]["note"]
    assert set(rows) == {"stile", "door bottom rail", "door top rail", "door glass", "wedge"}
    # two to each of four tenons
    assert rows["wedge"]["count"] == 8


def test_horns_and_what_is_left_proud_are_added_up(ross: Numbers) -> None:
    for stile in STILES:
        assert the_sum(ross, stile, "length with horns") == (
            inches("12", "1/2", "1/2"), inch("13")
        )
    for rail in RAILS:
        assert the_sum(ross, rail, "length with tenons left proud") == (
            inches("9", "1/8", "1/8"), inch("9 1/4")
        )
        # planed off they are flush: the tenon is as long as the stile is wide
        assert the_sum(ross, rail, "tenon length") == (inches("2"), inch("2"))
        assert the_sum(ross, rail, "cut length") == (inches("5", "2", "2"), inch("9"))
        assert stands(ross, rail, "X") == spread("0", "9")


def test_the_sight_of_the_glass_door(ross: Numbers) -> None:
    # 9 - 2 - 2 = 5; 12 - 1 1/2 - 2 = 8 1/2
    assert gap(ross, *STILES, "X") == inch("5")
    assert gap(ross, RAILS[1], RAILS[0], "Z") == inch("8 1/2")
    assert the_sum(ross, RAILS[1], "clear between the rails (door)") == (
        inches("12", "-2", "-1 1/2"), inch("8 1/2")
    )
    # glass 5 + 2 x 5/16 - 1/8 = 5 1/2, 8 1/2 + 2 x 5/16 - 1/8 = 9
    assert cut_list(ross)["door glass"] == (1, size("1/8 x 5 1/2 x 9"))
    assert stands(ross, "door-glass", "X") == spread("1 3/4", "7 1/4")
    assert stands(ross, "door-glass", "Z") == spread("1 3/4", "10 3/4")
    # its face against the rabbet, 1 - 5/16 = 11/16 behind the face
    assert stands(ross, "door-glass", "Y") == spread("11/16", "13/16")


def test_the_rebate_goes_round(ross: Numbers) -> None:
    """5/16 wide and, ours, 5/16 deep; right along every stick."""
    deep = spread("11/16", "1")
    for part in STILES:
        assert cuts_of(ross, part, "rabbet") == [(spread("0", "12"), spread("1 11/16", "2"), deep)]
    for rail, across in ((RAILS[0], spread("1 3/16", "1 1/2")), (RAILS[1], spread("0", "5/16"))):
        assert cuts_of(ross, rail, "rabbet") == [(spread("0", "9"), across, deep)]


@pytest.mark.parametrize("rail", RAILS)
def test_the_back_shoulders_are_a_rebate_longer(ross: Numbers, rail: str) -> None:
    assert the_sum(ross, rail, "shoulder distance") == (inches("9", "-2", "-2"), inch("5"))
    # 5 + 2 x 5/16
    assert the_sum(ross, rail, "back shoulder distance") == (
        inches("5", "5/16", "5/16"), inch("5 5/8")
    )
    # from the finished end: 2 - 5/16 = 1 11/16 and 9 - 1 11/16 = 7 5/16
    assert total(ross, rail, "back shoulder at end A from end A") == inch("1 11/16")
    assert total(ross, rail, "back shoulder at end B from end A") == inch("7 5/16")
    for end, front, back in (
        ("A", spread("0", "2"), spread("0", "1 11/16")),
        ("B", spread("7", "9"), spread("7 5/16", "9")),
    ):
        (before,) = cuts_of(ross, rail, f"front cheek waste {end}")
        (behind,) = cuts_of(ross, rail, f"long shoulder waste {end}")
        assert (before[0], behind[0]) == (front, back)


@pytest.mark.parametrize("rail", RAILS)
def test_the_tenons_of_the_glass_door(ross: Numbers, rail: str) -> None:
    # 5/16 + 1/4 + 7/16 = 1: the back cheek is 7/16 from the back
    assert the_sum(ross, rail, "inner shoulder") == (inches("1", "-5/16", "-1/4"), inch("7/16"))
    assert total(ross, rail, "far cheek from the face side") == inch("9/16")
    pairs = {
        (Fraction(one["distance"]), Fraction(one["second"])) for one in ross["settings"]
        if one["tool"] == "mortise gauge"
        and any(strike["role"] == "near cheek" for strike in one["strikes"])
    }
    assert pairs == {spread("5/16", "9/16")}


def test_the_mortises_of_the_glass_door(ross: Numbers) -> None:
    # 5/8 from the top and 7/8 long; 3/4 from the foot and 1 1/4 long: 12 - 3/4 = 11 1/4; through 2
    found = mortises(ross)
    assert found == {
        (stile, f"{rail}.{end}"): (along, spread("0", "2"), spread("5/16", "9/16"))
        for stile, end in zip(STILES, "AB", strict=True)
        for rail, along in zip(RAILS, (spread("5/8", "1 1/2"), spread("10", "11 1/4")), strict=True)
    }
    assert the_sum(ross, RAILS[0], "tenon width") == (inches("1 1/2", "-5/8"), inch("7/8"))
    assert the_sum(ross, RAILS[1], "tenon width") == (inches("2", "-3/4"), inch("1 1/4"))
    # both ends of every mortise are opened for wedges
    flares = [c for c in ross["cuts"] if c["role"] in ("flare", "far flare")]
    assert Counter(c["part"] for c in flares) == dict.fromkeys(STILES, 4)


def test_the_diagonals_of_the_glass_door(ross: Numbers) -> None:
    # 9^2 + 12^2 = 15^2; 5^2 + (17/2)^2 = 389/4
    assert diagonals(ross) == {
        OUTSIDE: (inch("9"), inch("12"), inch("15")),
        INSIDE: (inch("5"), inch("8 1/2"), rounded_down(Fraction(389, 4) * Fraction(127, 5) ** 2)),
    }


def test_what_is_said_of_the_glass_door(ross: Numbers) -> None:
    """The rebate leaves 11/16 - 9/16 = 1/8 beside the mortise."""
    assert rules_at(ross, "stop") == set()
    seat = "seat clear of the joints"
    assert rules_at(ross, "caution") == {seat}
    assert {Fraction(one["figures"]["web"]) for one in findings(ross, seat)} == {inch("1/8")}
