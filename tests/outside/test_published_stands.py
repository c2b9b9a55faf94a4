"""Stools, stands and small tables out of old books: tenons that touch, are mitred, or pass.

The piece files under pieces/ name their sources and say which sizes are printed and which are
ours. Slats, tops and seats are no part of the frame: where a book prints a sum over them, it is
closed here with what the program gives. Inches; every comparison is exact.

Sources:
  umbrella stand: H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 3, 1912
  taboret, stool, light stand, telephone table, upholstered stool: Ira S. Griffith, Correlated
    Courses in Woodwork and Mechanical Drawing, 1912, Part III, Advanced Projects, Plates 13, 11,
    24, 43 and 7
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from tests.outside.outsider import (
    MEETING,
    OVERLAP,
    PIECES,
    Numbers,
    Reach,
    cut_list,
    findings,
    gap,
    inch,
    mortises,
    numbers_of,
    placed_box,
    published,
    reach_of,
    rules_at,
    size,
    stands,
    the_sum,
    total,
)

LEGS = ("front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg")
SIDES = ("front", "back", "left", "right")
WIDE = "tenon width against its thickness"


@cache
def piece(name: str) -> Numbers:
    return published(name)


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def heights(n: Numbers, *rails: str) -> list[Fraction]:
    """Down a post: above the first rail, the rail, the space below it, ..., to the floor."""
    post = stands(n, "front-left-leg", "Z")
    found, at = [], post[1]
    for rail in rails:
        low, high = stands(n, rail, "Z")
        found += [at - high, high - low]
        at = low
    return [*found, at - post[0]]


# Piece to its printed parts: what the piece file calls them, how many, size as printed (the
# length over the tenons, where it is printed or is the sum of printed numbers).
PARTS = {
    "umbrella_stand": {
        "leg": (4, "1 1/2 x 1 1/2 x 28"),
        "top rail": (4, "7/8 x 2 x 10"),
        "lower rail": (4, "7/8 x 3 x 10"),
    },
    "taboret": {
        "leg": (4, "1 1/2 x 1 1/2 x 18"),
        "upper rail": (1, "3/4 x 1 1/4 x 13"),  # blind, 11 + 2 x 1 (ours)
        "lower rail": (1, "3/4 x 2 1/4 x 14 1/2"),
    },
    "stool": {
        "leg": (4, "1 3/8 x 1 3/8 x 14"),
        # upper rails mitred (ours): 1 3/8 - 9/16 - 1/32 = 25/32 at each end
        "long upper rail": (2, "3/4 x 2 x 18 13/16"),
        "short upper rail": (2, "3/4 x 2 x 12 9/16"),
        "lower end rail": (2, "3/4 x 1 1/2 x 13 3/4"),
        "long lower rail": (2, "5/8 x 1 1/2 x 20"),
    },
    "light_stand": {
        "leg": (4, "1 3/4 x 1 3/4 x 30"),
        # mitred (length ours): 1 3/4 - 11/16 = 1 1/16 at each end
        "upper rail": (4, "7/8 x 3 x 15 5/8"),
        "lower rail": (2, "7/8 x 3 x 15 1/2"),  # 13 1/2 + 2 x 1 (ours)
    },
    "telephone_table": {
        "leg": (4, "1 3/4 x 1 3/4 x 29 1/4"),
        "side rail": (2, "7/8 x 5 x 16 3/4"),  # 14 1/2 + 2 x 1 1/8 (ours)
        "side lower rail": (2, "7/8 x 2 x 18 1/2"),
        "lower rail": (2, "7/8 x 2 x 18 1/2"),
    },
    "upholstered_stool": {
        "leg": (4, "1 3/4 x 1 3/4 x 16"),
        "upper rail": (4, "1 x 1 1/2 x 16 1/8"),  # 14 + 2 x 1 1/16 (mitred, length ours)
        "side lower rail": (2, "3/4 x 3 1/4 x 18"),
        "lower rail": (2, "3/4 x 3 1/4 x 18"),
    },
}


@pytest.mark.parametrize("name", PARTS)
def test_the_parts_as_printed(name: str) -> None:
    wanted = {called: (count, size(text)) for called, (count, text) in PARTS[name].items()}
    assert cut_list(piece(name)) == wanted


# Piece, what is clear between the posts, the posts, over the posts: as printed.
CLEAR = (
    ("umbrella_stand", "9", "1 1/2", "12", "X"),  # 9 + 2 x 1 1/2 = 12
    ("umbrella_stand", "9", "1 1/2", "12", "Y"),
    ("taboret", "11", "1 1/2", "14", "X"),  # 11 + 2 x 1 1/2 = 14
    ("stool", "17 1/4", "1 3/8", "20", "X"),  # 17 1/4 + 2 x 1 3/8 = 20
    ("stool", "11", "1 3/8", "13 3/4", "Y"),  # 11 + 2 x 1 3/8 = 13 3/4
    ("light_stand", "13 1/2", "1 3/4", "17", "X"),
    ("light_stand", "13 1/2", "1 3/4", "17", "Y"),
    ("telephone_table", "14 1/2", "1 3/4", "18", "X"),
    ("telephone_table", "14 1/2", "1 3/4", "18", "Y"),
    ("upholstered_stool", "14", "1 3/4", "17 1/2", "X"),
    ("upholstered_stool", "14", "1 3/4", "17 1/2", "Y"),
)


@pytest.mark.parametrize(("name", "clear", "post", "over", "axis"), CLEAR)
def test_clear_and_over_the_posts(
    name: str, clear: str, post: str, over: str, axis: str
) -> None:
    n = piece(name)
    far = "front-right-leg" if axis == "X" else "back-left-leg"
    assert gap(n, "front-left-leg", far, axis) == inch(clear)
    whole = stands(n, far, axis)[1] - stands(n, "front-left-leg", axis)[0]
    assert whole == inch(clear) + 2 * inch(post) == inch(over)


# Piece, top or cushion, printed overhang each side: 13 1/2 + 2 x 1 3/4 + 2 x 1/2 = 18 and so on.
TOPS = (
    ("light_stand", "18", "1/2"),
    ("telephone_table", "19", "1/2"),  # 14 1/2 + 2 x 1 3/4 + 2 x 1/2 = 19
)


@pytest.mark.parametrize(("name", "top", "overhang"), TOPS)
def test_tops(name: str, top: str, overhang: str) -> None:
    n = piece(name)
    over = stands(n, "front-right-leg", "X")[1] - stands(n, "front-left-leg", "X")[0]
    assert over + 2 * inch(overhang) == inch(top)


# Piece, clear, printed slats and spaces: margin = half of what they leave.
SLATS = (
    # 1/2 (11 - 1 - 1 - 1 1/2 - 1 - 1) = 2 3/4
    ("stool", "left-lower-end-rail", "11", ("1", "1", "1 1/2", "1", "1"), "2 3/4"),
    # 1/2 (13 1/2 - 1 1/2 - 1 - 3 - 1 - 1 1/2) = 2 3/4
    ("light_stand", "left-lower-rail", "13 1/2", ("1 1/2", "1", "3", "1", "1 1/2"), "2 3/4"),
    # 1/2 (14 1/2 - 1 1/2 - 1 - 5 - 1 - 1 1/2) = 2 1/4
    (
        "telephone_table",
        "left-side-lower-rail",
        "14 1/2",
        ("1 1/2", "1", "5", "1", "1 1/2"),
        "2 1/4",
    ),
    # 3 + 3 + 3 = 9: one slat of 3 in the middle
    ("umbrella_stand", "left-lower-rail", "9", ("3",), "3"),
)


@pytest.mark.parametrize(("name", "rail", "clear", "run", "margin"), SLATS)
def test_slats_and_margins_fill_the_rail(
    name: str, rail: str, clear: str, run: tuple[str, ...], margin: str
) -> None:
    between = total(piece(name), rail, "shoulder distance")
    assert between == inch(clear)
    assert (between - sum(inches(*run), Fraction(0))) / 2 == inch(margin)


# -- umbrella stand: tenons that just touch


@pytest.mark.parametrize("side", SIDES)
def test_umbrella_stand_heights_fill_the_post(side: str) -> None:
    # 2 + 2 + 19 + 3 + 2 = 28; the 19 is nowhere typed in
    n = piece("umbrella_stand")
    assert heights(n, f"{side}-top-rail", f"{side}-lower-rail") == inches("2", "2", "19", "3", "2")
    # slats of 20 stand 1/2 in at either end: 19 + 2 x 1/2 = 20
    assert gap(n, f"{side}-lower-rail", f"{side}-top-rail", "Z") + 2 * inch("1/2") == inch("20")


@pytest.mark.parametrize("side", SIDES)
def test_umbrella_stand_length_over_the_tenons(side: str) -> None:
    # 9 + 2 x 1/2 = 10
    n = piece("umbrella_stand")
    for rail in (f"{side}-top-rail", f"{side}-lower-rail"):
        assert the_sum(n, rail, "cut length") == (inches("9", "1/2", "1/2"), inch("10"))


def test_umbrella_stand_tenons_exactly_touch_and_it_is_said() -> None:
    """1 1/2 - 1/2 - 1/2 = 1/2 is the longest that clears, and 1/2 is used: no stop."""
    n = piece("umbrella_stand")
    found = [
        (one["parts"], one["level"], *(
            Fraction(one["figures"][name]) for name in ("web", "between the tenons")
        ))
        for one in findings(n, MEETING)
    ]
    # in every leg at the upper and at the lower rails
    assert len(found) == 8
    assert all(found.count(([leg], "caution", Fraction(0), Fraction(0))) == 2 for leg in LEGS)
    assert all("no wood between the mortises" in one["text"] for one in findings(n, MEETING))
    assert rules_at(n, "stop") == set()
    # tenons 1 1/2 and 2 1/2 wide (ours), 1/2 thick: five times at most
    assert rules_at(n, "caution") == {MEETING}
    # at each height the two tenons share an edge of the leg's wood: both end on the other's cheek
    spots = {
        joint: placed_box(n, leg, reach)
        for (leg, joint), reach in mortises(n).items()
        if leg == "front-left-leg"
    }
    # end A is a rail's left end seen from outside: the front rail's A and the left rail's B
    front, left = spots["front-top-rail.A"], spots["left-top-rail.B"]
    assert front[:2] == ((inch("1"), inch("1 1/2")), (inch("1/2"), inch("1")))
    assert left[:2] == ((inch("1/2"), inch("1")), (inch("1"), inch("1 1/2")))


# -- taboret


def test_taboret_length_over_the_through_tenons() -> None:
    # 11 + 2 x 1 1/2 + 2 x 1/4 = 14 1/2
    n = piece("taboret")
    rail = "front-lower-rail"
    assert the_sum(n, rail, "tenon length") == (inches("1 1/2", "1/4"), inch("1 3/4"))
    assert the_sum(n, rail, "cut length") == (inches("11", "1 3/4", "1 3/4"), inch("14 1/2"))
    left, right = stands(n, "front-left-leg", "X")[0], stands(n, "front-right-leg", "X")[1]
    assert stands(n, rail, "X") == (left - inch("1/4"), right + inch("1/4"))


def test_taboret_lower_tenon_and_its_mortise() -> None:
    # 3/8 x 1 1/2, right through a post of 1 1/2; the rail 3 3/4 above the floor
    n = piece("taboret")
    assert heights(n, "front-lower-rail")[-1] == inch("3 3/4")
    assert the_sum(n, "front-lower-rail", "tenon width") == (
        inches("2 1/4", "-3/8", "-3/8"),
        inch("1 1/2"),
    )
    found = [reach for (_, joint), reach in mortises(n).items() if "lower-rail" in joint]
    # 18 - 3 3/4 - 2 1/4 + 3/8 = 12 3/8; (1 1/2 - 3/8) / 2 = 9/16
    wanted: Reach = (
        (inch("12 3/8"), inch("13 7/8")),
        (Fraction(0), inch("1 1/2")),
        (inch("9/16"), inch("15/16")),
    )
    assert found == [wanted, wanted]


def test_taboret_is_clear() -> None:
    n = piece("taboret")
    assert rules_at(n, "stop") | rules_at(n, "caution") == set()


# -- stool


@pytest.mark.parametrize("side", ["left", "right"])
def test_stool_heights_fill_the_post(side: str) -> None:
    # 1/2 + 2 + 8 1/2 + 1 1/2 + 1 1/2 = 14; the 8 1/2 is nowhere typed in
    n = piece("stool")
    assert heights(n, f"{side}-short-upper-rail", f"{side}-lower-end-rail") == inches(
        "1/2", "2", "8 1/2", "1 1/2", "1 1/2"
    )


def test_stool_long_lower_rails_stand_one_above_the_end_rails() -> None:
    # 1 1/2 + 1 1/2 + 1 = 4
    n = piece("stool")
    for side in ("front", "back"):
        for end in ("left", "right"):
            low = stands(n, f"{end}-lower-end-rail", "Z")
            high = stands(n, f"{side}-long-lower-rail", "Z")
            assert high[0] - low[1] == inch("1")
            assert high[0] == inch("1 1/2") + inch("1 1/2") + inch("1") == inch("4")


def test_stool_through_tenons_are_as_long_as_the_posts() -> None:
    n = piece("stool")
    for rail, clear, over in (
        ("front-long-lower-rail", "17 1/4", "20"),
        ("left-lower-end-rail", "11", "13 3/4"),
    ):
        assert the_sum(n, rail, "tenon length") == ([inch("1 3/8")], inch("1 3/8"))
        assert the_sum(n, rail, "cut length") == (inches(clear, "1 3/8", "1 3/8"), inch(over))


def test_stool_lower_tenons_pass_each_other() -> None:
    n = piece("stool")
    assert findings(n, MEETING) == []
    assert findings(n, OVERLAP) == []
    assert rules_at(n, "stop") | rules_at(n, "caution") == set()


# -- light stand: upper tenons mitred


@pytest.mark.parametrize("side", ["left", "right"])
def test_light_stand_heights_fill_the_post(side: str) -> None:
    # 30 - 1/4 - 7/8 - 3 - 14 - 3 = 8 7/8, the 14 nowhere typed in
    n = piece("light_stand")
    found = heights(n, f"{side}-upper-rail", f"{side}-lower-rail")
    assert found == inches("1 1/8", "3", "14", "3", "8 7/8")
    assert found[0] == inch("1/4") + inch("7/8")


@pytest.mark.parametrize("side", SIDES)
def test_light_stand_upper_tenons_are_mitred(side: str) -> None:
    """As long as a mitre lets them: 1 3/4 - 7/16 - 1/4 = 1 1/16, and 3/8 less on the inside."""
    n = piece("light_stand")
    rail = f"{side}-upper-rail"
    assert the_sum(n, rail, "tenon length") == (inches("1 3/4", "-11/16"), inch("1 1/16"))
    for end in "AB":
        assert the_sum(n, rail, f"short side of the mitre, end {end}") == (
            inches("1 3/4", "-1 1/16"),
            inch("11/16"),
        )
        (waste,) = [
            reach_of(one)
            for one in n["cuts"]
            if one["joint"] == f"{rail}.{end}" and one["role"] == f"mitre waste {end}"
        ]
        # as long as the tenon is thick, over its whole width and thickness
        assert waste[0][1] - waste[0][0] == waste[2][1] - waste[2][0] == inch("3/8")
        assert waste[1:] == (
            (inch("1/2"), inch("2 1/2")),
            (inch("1/4"), inch("5/8")),
        )


def test_light_stand_is_clear() -> None:
    n = piece("light_stand")
    assert rules_at(n, "stop") | rules_at(n, "caution") == set()


def test_light_stand_left_square_is_stopped(tmp_path: Path) -> None:
    """Square tenons of that length run 3/8 into each other: the plate has to mitre them."""
    text = (PIECES / "light_stand.toml").read_text(encoding="utf-8")
    mitred = 'tenon = { meeting = "mitred", mitre_gap = 0 }'
    assert text.count(mitred) == 1
    path = tmp_path / "square.toml"
    path.write_text(text.replace(mitred, 'tenon = { length = "1 1/16" }'), encoding="utf-8")
    n = numbers_of(path)
    # 1 3/4 - 1 1/16 - 1 1/16 = -3/8
    assert {
        (one["parts"][0], one["level"], Fraction(one["figures"]["between the tenons"]))
        for one in findings(n, MEETING)
    } == {(leg, "stop", inch("-3/8")) for leg in LEGS}


# -- telephone table: through tenons that pass


@pytest.mark.parametrize("side", ["left", "right"])
def test_telephone_table_heights_fill_the_post(side: str) -> None:
    # 29 1/4 - 1/4 - 7/8 - 5 - 8 - 2 = 13 1/8, the 8 nowhere typed in
    n = piece("telephone_table")
    found = heights(n, f"{side}-side-rail", f"{side}-side-lower-rail")
    assert found == inches("1 1/8", "5", "8", "2", "13 1/8")
    assert found[0] == inch("1/4") + inch("7/8")


def test_telephone_table_front_and_back_rails_are_two_lower() -> None:
    n = piece("telephone_table")
    for side in ("front", "back"):
        for end in ("left", "right"):
            low = stands(n, f"{side}-lower-rail", "Z")
            high = stands(n, f"{end}-side-lower-rail", "Z")
            assert high[0] - low[0] == inch("2")
            # both are 2 wide: the lower one's upper edge is level with the other's lower one
            assert low[1] == high[0] == inch("13 1/8")


@pytest.mark.parametrize(
    "rail",
    ["front-lower-rail", "back-lower-rail", "left-side-lower-rail", "right-side-lower-rail"],
)
def test_telephone_table_length_over_the_tenons(rail: str) -> None:
    # 14 1/2 + 2 x 1 3/4 + 2 x 1/4 = 18 1/2
    n = piece("telephone_table")
    assert the_sum(n, rail, "tenon length") == (inches("1 3/4", "1/4"), inch("2"))
    assert the_sum(n, rail, "cut length") == (inches("14 1/2", "2", "2"), inch("18 1/2"))


@pytest.mark.parametrize("leg", LEGS)
def test_telephone_table_through_tenons_pass(leg: str) -> None:
    """Both go right through the post, one above the other: 1/2 of wood between them."""
    n = piece("telephone_table")
    through = [
        placed_box(n, leg, reach)
        for (of, joint), reach in mortises(n).items()
        if of == leg and "lower-rail" in joint
    ]
    assert len(through) == 2
    post = tuple(stands(n, leg, axis) for axis in "XYZ")
    (deep_x,) = [one for one in through if one[0] == post[0]]
    (deep_y,) = [one for one in through if one[1] == post[1]]
    # the front or back rail's is the lower one: from 11 1/8 + 1/4 to 13 1/8 - 1/4
    assert deep_x[2] == (inch("11 3/8"), inch("12 7/8"))
    assert deep_y[2] == (inch("13 3/8"), inch("14 7/8"))
    assert deep_y[2][0] - deep_x[2][1] == inch("1/2")
    # both in the middle of the post, so that they cross: 1/2 (1 3/4 - 3/8) = 11/16
    for wide, axis in ((deep_x[1], 1), (deep_y[0], 0)):
        assert (wide[0] - post[axis][0], post[axis][1] - wide[1]) == (inch("11/16"), inch("11/16"))
    assert findings(n, MEETING) == []
    assert findings(n, OVERLAP) == []


def test_telephone_table_says_only_that_the_side_tenon_is_wide() -> None:
    n = piece("telephone_table")
    assert rules_at(n, "stop") == set()
    # 5 - 1 - 1 = 3 (the shoulders are ours) against 3/8: eight times
    assert {
        (one["parts"][0], Fraction(one["figures"]["tenon width"])) for one in findings(n, WIDE)
    } == {(f"{side}-side-rail", inch("3")) for side in ("left", "right")}
    assert rules_at(n, "caution") == {WIDE}


# -- upholstered stool: one shoulder, one pair of rails directly under the other


@pytest.mark.parametrize("side", ["left", "right"])
def test_upholstered_stool_heights(side: str) -> None:
    n = piece("upholstered_stool")
    found = heights(n, f"{side}-upper-rail", f"{side}-side-lower-rail")
    assert (found[0], found[1], found[-1]) == tuple(inches("3/8", "1 1/2", "6 1/2"))
    # 6 1/2 - 3 1/4 = 3 1/4
    for other in ("front", "back"):
        low = stands(n, f"{other}-lower-rail", "Z")
        assert low == (inch("3 1/4"), inch("6 1/2"))
        assert low[1] == stands(n, f"{side}-side-lower-rail", "Z")[0]


@pytest.mark.parametrize(
    "rail",
    ["front-lower-rail", "back-lower-rail", "left-side-lower-rail", "right-side-lower-rail"],
)
def test_upholstered_stool_lower_tenons(rail: str) -> None:
    """1/2 thick in 3/4 stuff with one shoulder of 1/4; 14 + 2 x 1 3/4 + 2 x 1/4 = 18."""
    n = piece("upholstered_stool")
    assert the_sum(n, rail, "outer shoulder") == (inches("3/4", "-1/2"), inch("1/4"))
    assert the_sum(n, rail, "inner shoulder") == (inches("3/4", "-1/4", "-1/2"), Fraction(0))
    assert the_sum(n, rail, "cut length") == (inches("14", "2", "2"), inch("18"))
    cheeks = {
        one["role"]
        for one in n["cuts"]
        if one["part"] == rail and "cheek" in one["role"]
    }
    assert cheeks == {"front cheek waste A", "front cheek waste B"}


def test_upholstered_stool_is_clear() -> None:
    """The upper tenons are mitred, the lower ones pass with 1/2 of wood between them."""
    n = piece("upholstered_stool")
    assert rules_at(n, "stop") | rules_at(n, "caution") == set()
    for side in SIDES:
        assert the_sum(n, f"{side}-upper-rail", "tenon length") == (
            inches("1 3/4", "-11/16"),
            inch("1 1/16"),
        )
