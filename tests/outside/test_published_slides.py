"""Slides, housings and cases out of old books, as printed.

The piece files under pieces/ name their sources and say which sizes are printed, which are ours,
and what a file can't tell of. Inches; every comparison is exact.

Sources:
  Ira S. Griffith, Correlated Courses in Woodwork and Mechanical Drawing, 1912, Beginning Projects,
    Plate 27; Part III, Advanced Projects, Plate 47
  George A. Ross, Elementary Course in Woodwork, 1901, Exercise 10, Figs. 113-115
  Edwin W. Foster, Carpentry and Woodwork, 1911, ch. XXIII, Fig. 136
  William Fairham, Woodwork Joints, 1921 (later revised printing read), Dovetail Grooving; Frame
    Dovetails, Fig. 284 C
  William Noyes, Handwork in Wood, 1910, ch. VII no. 28
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import accumulate
from pathlib import Path

import pytest

from tests.outside import judge_dovetails, judge_slides
from tests.outside.judge_slides import Case, Slide, case_of
from tests.outside.outsider import (
    PIECES,
    Numbers,
    cut_list,
    findings,
    gap,
    inch,
    numbers_of,
    parts_by_size,
    published,
    rules_at,
    size,
    the_sum,
    total,
)
from tests.outside.test_handbook_rules import printed

FILES = ("griffith_housing", "griffith_cabinet", "ross_sliding_top", "nail_cabinet",
         "fairham_division")
ZERO = Fraction(0)


@cache
def piece(name: str) -> Numbers:
    return published(name)


@cache
def case(name: str) -> Case:
    return case_of(piece(name), (PIECES / f"{name}.toml").read_text(encoding="utf-8"))


def slide(name: str, joint: str) -> Slide:
    (found,) = [one for one in case(name).slides if one.name == joint]
    return found


# -- Griffith, Plate 27: a housing as gauge settings


def test_griffith_gauges_half_an_inch_and_two_and_a_half() -> None:
    """1/2 * (3 - 2) = 1/2 and 1/2 + 2 = 2-1/2, each struck on the edge and on both ends."""
    first = (inch("3") - inch("2")) / 2
    second = first + inch("2")
    assert (first, second) == (inch("1/2"), inch("2 1/2"))
    for side, stand in (("face", first), ("back", second)):
        strikes = [
            (Fraction(one["distance"]), one["tool"], strike["from"], strike["face"],
             strike["count"])
            for one in piece("griffith_housing")["settings"] for strike in one["strikes"]
            if strike["role"] == f"tail side, {side}"
        ]
        assert sorted(strikes) == [
            (stand, "marking gauge", "face side", "end A", 1),
            (stand, "marking gauge", "face side", "end B", 1),
            (stand, "marking gauge", "face side", "far edge", 2),  # beside either end
        ]


def test_griffith_housing_and_tongue() -> None:
    """Housed 1/4 deep in 3/4, the tongue 2 wide."""
    for end in "AB":
        one = slide("griffith_housing", f"piece.{end}")
        assert one.bearer.size[2] == inch("3/4")
        assert one.depth == one.tail == inch("1/4")
        for run in one.places:
            assert one.wood(run, ZERO) == one.wood(run, one.tail) == (inch("1/2"), inch("2 1/2"))
        terms, neck = the_sum(piece("griffith_housing"), "piece",
                              f"neck where it is entered ({one.bearer.name})")
        assert (terms, neck) == ([inch("3"), inch("-1/2"), inch("-1/2")], inch("2"))


# -- Griffith, Plate 47: three shelves in two sides


UP_THE_SIDE = ("4", "7/8", "25 3/8", "7/8", "4 1/2", "7/8", "3 1/2")


def test_griffith_cabinet_up_the_side() -> None:
    """3-1/2 + 7/8 + 4-1/2 + 7/8 + 25-3/8 + 7/8 + 4 = 40: both sides of the three housings."""
    *places, whole = accumulate(inch(one) for one in UP_THE_SIDE)
    assert whole == inch("40")
    for hand, end in (("left", "A"), ("right", "B")):
        side = f"cabinet-{hand}-side"
        lines = sorted(
            (Fraction(mark["distance"]), mark["role"].partition(" ")[0])
            for mark in piece("griffith_cabinet")["marks"]
            if mark["part"] == side and mark["face"] == "face" and "side of the" in mark["role"]
        )
        assert lines == list(zip(places, ["near", "far"] * 3, strict=True))
        for shelf, near in (("cabinet bottom", 0), ("shelf", 2), ("cabinet top", 4)):
            for which, at in (("near", places[near]), ("far", places[near + 1])):
                assert total(piece("griffith_cabinet"), side,
                             f"{which} side of the socket ({shelf})") == at
        assert slide("griffith_cabinet", f"shelf.{end}").bearer.size[0] == whole


def test_griffith_cabinet_clear_spaces() -> None:
    """20-1/8 between the sides; 25-3/8 for the door; 20-1/8 + 2 x 7/8 over the sides."""
    n = piece("griffith_cabinet")
    assert gap(n, "cabinet-left-side", "cabinet-right-side", "X") == inch("20 1/8")
    assert gap(n, "cabinet-bottom", "shelf", "Z") == inch("25 3/8")
    assert gap(n, "shelf", "cabinet-top", "Z") == inch("4 1/2")
    assert total(n, "shelf", "between the shoulders") == inch("20 1/8")
    assert total(n, "cabinet-top", "inside width") == inch("20 1/8")
    assert total(n, "cabinet-left-side", "inside height") == inch("25 3/8") + inch("7/8") + inch(
        "4 1/2")
    assert cut_list(n)["cabinet side"] == (2, size("7/8 x 14 x 40"))


# -- Ross, Exercise 10: ends let 1/4 into the sides


def test_ross_box_bill() -> None:
    """12 + 2 x 1/8 = 12-1/4; 7 - 2 x 1/2 + 2 x 1/4 = 6-1/2."""
    n = piece("ross_sliding_top")
    assert inch("12") + 2 * inch("1/8") == inch("12 1/4")
    assert parts_by_size(n) == {
        size("1/2 x 5 x 12 1/4"): 2,
        size("1/2 x 5 x 6 1/2"): 2,
    }
    assert the_sum(n, "box-top", "inside width") == (
        [inch("7"), -2 * inch("1/2")], inch("6"))
    assert the_sum(n, "box-top", "length") == ([inch("6"), 2 * inch("1/4")], inch("6 1/2"))


def test_ross_box_inside() -> None:
    """12 - 2 x 1/2 = 11 between the ends; over the ends 12, and 1/8 of the sides beyond each."""
    n = piece("ross_sliding_top")
    assert total(n, "box-left-side", "inside height") == inch("11")
    assert gap(n, "box-bottom", "box-top", "Z") == inch("11")
    for joint, near, far in (("box-bottom.A", "1/8", "5/8"), ("box-top.A", "11 5/8", "12 1/8")):
        one = slide("ross_sliding_top", joint)
        assert one.depth == one.tail == inch("1/4")
        places = [Fraction(mark["distance"]) for mark in n["marks"]
                  if mark["joint"] == joint and mark["face"] == "face"
                  and "side of the socket" in mark["role"]]
        assert sorted(places) == [inch(near), inch(far)]


# -- Foster, Fig. 136


def test_foster_cabinet_bill() -> None:
    """25-1/8 - 2 x 1/2 = 24-1/8, + 2 x 1/4 = 24-5/8: four shelves, two ends."""
    n = piece("nail_cabinet")
    assert parts_by_size(n) == {
        size("1/2 x 12 x 24 5/8"): 4,
        size("1/2 x 12 x 14"): 2,
    }
    assert total(n, "cabinet-top", "inside width") == inch("24 1/8")
    for shelf in ("lower-shelf", "upper-shelf"):
        assert the_sum(n, shelf, "between the shoulders") == ([inch("24 1/8")], inch("24 1/8"))
        assert the_sum(n, shelf, "length") == (
            [inch("24 1/8"), inch("1/4"), inch("1/4")], inch("24 5/8"))


# -- Fairham, Fig. 284 C


def test_fairham_division_is_parallel_for_three_quarters() -> None:
    printed("JR147", "parallel 3/4 W, taper 1/4 W", "division 14 in wide")
    for end in "AB":
        one = slide("fairham_division", f"division.{end}")
        assert one.slider.size[1] == inch("14")
        necks = {run: one.wood(run, ZERO) for run in one.places}
        widest = necks[one.held[1]]
        parallel = min(run for run, neck in necks.items() if neck == widest)
        assert one.held[1] - parallel == inch("14") * Fraction(3, 4) == inch("10 1/2")
        assert parallel == inch("14") / 4  # taper and notch, to the front
        assert one.held[0] == one.reach[0] == inch("1/2")
        narrow = necks[one.held[0]]
        assert (widest[1] - widest[0]) - (narrow[1] - narrow[0]) == inch("1/8")


# -- the rules of handbooks, held against what is left to the program


SIDE = """piece = "Case"
unit = "in"
[[carcase]]
width = 30
height = 20
depth = 12
thickness = "3/4"
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = "3/4"
"""


def worked(folder: Path, words: str) -> tuple[Numbers, Case]:
    path = folder / "case.toml"
    text = f"{SIDE}slide = {{ {words} }}\n"
    path.write_text(text, encoding="utf-8")
    n = numbers_of(path)
    return n, case_of(n, text)


def test_the_slope_left_out_is_one_that_fairham_and_noyes_would_take(tmp_path: Path) -> None:
    """As for dovetails, 1 in 8 to 1 in 6."""
    printed("JR144", "1:8 to 1:6")
    _, found = worked(tmp_path, "")
    for one in found.slides:
        low, high = one.socket(ZERO, ZERO), one.socket(ZERO, one.depth)
        for lean in (low[0] - high[0], high[1] - low[1]):
            assert Fraction(1, 8) <= lean / one.depth <= Fraction(1, 6)


def test_noyes_one_sided_housing(tmp_path: Path) -> None:
    """One side square; the shoulder on the sloping side alone, gauged at the housing's depth."""
    printed("JR145", "depth d; slope as dovetail")
    n, found = worked(tmp_path, 'slopes = "face", room = 0, depth = "1/4"')
    for one in found.slides:
        square = one.wood(ZERO, ZERO)[1], one.wood(ZERO, one.tail)[1]
        assert square == (inch("3/4"), inch("3/4"))
        assert one.wood(ZERO, ZERO)[0] > one.wood(ZERO, one.tail)[0] == 0
        lines = [(mark["face"], Fraction(mark["distance"]), mark["from"]) for mark in n["marks"]
                 if mark["joint"] == one.name and mark["role"] == "tail shoulder"]
        assert lines == [("face", inch("1/4"), f"end {one.end}")]


def test_a_socket_is_less_than_half_of_the_side(tmp_path: Path) -> None:
    """Side 3/4: under 3/8. Left out it is less; at more than half a check tells of it."""
    printed("JR146", "depth < half the side", "side 3/4 -> depth under 3/8")
    n, found = worked(tmp_path, "")
    assert all(one.depth < inch("3/8") for one in found.slides)
    assert not findings(n, "depth of sockets and housings")
    n, _ = worked(tmp_path, 'depth = "13/32"')
    told = {part for one in findings(n, "depth of sockets and housings") for part in one["parts"]}
    assert {"carcase-left-side", "carcase-right-side"} <= told


def test_a_shelf_of_twelve_inches_tapers_three_eighths(tmp_path: Path) -> None:
    """1/4 over 8 is 3/8 over 12; at 1 in 5 the whole joint fits, and can be drawn."""
    printed("JR146", "slope 1 in 5", "taper about 1/4 in over 8 in", "12 in shelf -> taper 3/8")
    assert inch("1/4") / inch("8") * inch("12") == inch("3/8")
    n, found = worked(
        tmp_path, 'slope = "1:5", taper = "3/8", depth = "1/4", slopes = "back", room = 0')
    for one in found.slides:
        mouths = [one.socket(run, ZERO) for run in one.reach]
        lost = [mouth[1] - mouth[0] for mouth in mouths]
        assert lost[1] - lost[0] == inch("3/8")
        assert mouths[0][0] == mouths[1][0]  # all of it on the side that slopes
        assert (one.socket(ZERO, one.depth)[1] - mouths[0][1]) / one.depth == Fraction(1, 5)
    assert judge_slides.judge(n, None, ("fit", "figures", "drawn"), found) == []


@pytest.mark.parametrize("name", FILES)
def test_the_piece_is_sound(name: str) -> None:
    text = (PIECES / f"{name}.toml").read_text(encoding="utf-8")
    assert rules_at(piece(name), "stop") == set()
    assert judge_slides.judge(piece(name), text, (), case(name)) == []
    assert judge_dovetails.judge(piece(name)) == []
