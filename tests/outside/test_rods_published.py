"""Rods in the corners of dovetails against published figures, as many places as they are printed.

The rows stand in reference/dovetail_rods.toml with their sources. What was computed for us and not
printed is tested apart: it can only show that two ways of computing agree.

Published pages disagree about which width the rods are counted from, and only one can be right:
`rests` asks a picture, in which a rod lies where its reading says.
"""

from __future__ import annotations

import math
import tomllib
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import shapely

from layout.joints.rods import Section, fitting, reading, rod_constant
from layout.measure import decimal_text, read_slope

SOURCE = Path(__file__).parent / "reference" / "dovetail_rods.toml"
FIGURES = tomllib.loads(SOURCE.read_text(encoding="utf-8"), parse_float=Decimal)
CLOSE = 1e-9  # mm

Row = dict[str, Any]


def run_of(flank_deg: int | Decimal) -> Fraction:
    """The slope whose sides stand at this angle to the base, as a maker would write it."""
    return read_slope(f"{90 - flank_deg} deg").run


def rounded_to(printed: Decimal, value: Fraction) -> bool:
    """Is this figure the value, to as many decimals as it has?"""
    places = -int(printed.as_tuple().exponent)
    return Fraction(decimal_text(value, places)) == Fraction(printed)


def printed(kind: str) -> list[Row]:
    rows: list[Row] = FIGURES[kind]
    assert all(row["how"].startswith("read") for row in rows)
    return rows


# -- printed


@pytest.mark.parametrize("row", printed("over_rods"), ids=lambda row: row["what"])
def test_over_the_rods(row: Row) -> None:
    # no depth is printed: any that the rod fits will do, since it does not count
    for depth in (Fraction(row["rod"]), Fraction(row["rod"]) * 3 / 2):
        tail = Section("tail", run_of(row["flank_deg"]), Fraction(row["root"]), depth)
        assert rounded_to(row["printed"], reading(tail, Fraction(row["rod"])))


@pytest.mark.parametrize("row", printed("constant"), ids=lambda row: row["what"])
def test_the_constant(row: Row) -> None:
    assert rounded_to(row["printed"], rod_constant(run_of(row["flank_deg"])).value)


@pytest.mark.parametrize("row", printed("wide"), ids=lambda row: row["what"])
def test_the_wide_width(row: Row) -> None:
    sizes = run_of(row["flank_deg"]), Fraction(row["narrow"]), Fraction(row["depth"])
    for section in (Section("tail", *sizes), Section("socket", *sizes)):
        assert rounded_to(row["printed"], section.bottom)


@pytest.mark.parametrize("row", printed("vee"), ids=lambda row: row["what"])
def test_a_plug_in_a_vee(row: Row) -> None:
    # from the corner to the rod's middle: D/2 up, and D/2 cot(a/2) along
    along = rod_constant(run_of(row["included_deg"])).value - 1
    away = math.hypot(1, along) * float(row["plug"]) / 2
    assert rounded_to(row["exact"], Fraction(away))
    # four-place sines: good to 5 in 100000 of a sine of 0.5373
    assert abs(away - float(row["printed"])) < away * 0.00005 / 0.5373


# -- both forms of the machinist's page, with c, h, L and M


@pytest.mark.parametrize("flank_deg", [45, 55, 60, 75])
@pytest.mark.parametrize("rod", ["3", "5.5", "6.35"])
def test_both_forms_of_the_formula(flank_deg: int, rod: str) -> None:
    h, wide, a = 6.0, 40.0, math.radians(flank_deg)
    c = h / math.tan(a)
    mouth = Fraction(40) - 2 * Fraction(6) / run_of(flank_deg)
    rods = float(rod) * (1 + 1 / math.tan(a / 2))
    tail = Section("tail", run_of(flank_deg), mouth, Fraction(6))
    greatest = 2 * h * math.tan(a / 2) / math.sin(a)
    assert abs(float(fitting(tail).greatest) - greatest) < CLOSE
    if float(rod) > 2 * c / (1 + 1 / math.tan(a / 2)):  # it stands out past the arris
        x = reading(tail, Fraction(rod))
        y = reading(tail._replace(kind="socket"), Fraction(rod))
        assert abs(float(x) - (wide - 2 * c + rods)) < CLOSE
        assert abs(float(y) - (float(mouth) + 2 * c - rods)) < CLOSE
    else:
        assert Fraction(rod) < fitting(tail).least


# -- published pages that are wrong


def rests(section: Section, rod: float, measured: float) -> bool:
    """Does a rod touch the sloping side, where a reading puts it? By shapely's distance."""
    neck, depth, lean = float(section.mouth), float(section.depth), float(section.lean)
    if section.kind == "tail":  # neck from 0 to the right, its side leaning out to the left
        corner, arris, middle = 0.0, -lean, (neck - measured) / 2 + rod / 2
    else:
        corner, arris = 0.0, lean
        middle = (neck + 2 * lean - measured) / 2 - rod / 2
    side = shapely.LineString([(corner, 0), (arris, depth)])
    return bool(abs(side.distance(shapely.Point(middle, rod / 2)) - rod / 2) < CLOSE)


def test_the_pages_that_count_from_the_other_width_put_the_rods_elsewhere() -> None:
    assert len(FIGURES["wrong"]) == 3
    run, rod, a = run_of(60), Fraction(8), math.radians(60)
    tail = Section("tail", run, Fraction(30), Fraction(8))
    socket = tail._replace(kind="socket")
    rods = float(rod) * float(rod_constant(run).value)
    assert rests(tail, float(rod), float(reading(tail, rod)))
    assert rests(socket, float(rod), float(reading(socket, rod)))
    # a male from its wide base or flat, a female from its throat
    assert not rests(tail, float(rod), float(tail.bottom) + rods)
    assert not rests(socket, float(rod), float(socket.mouth) - rods)
    # M = W + D/sin(a/2) - D, whichever width W is
    for width in (tail.mouth, tail.bottom):
        measured = float(width) + float(rod) / math.sin(a / 2) - float(rod)
        assert not rests(tail, float(rod), measured)


# -- computed for us, not printed


@pytest.mark.parametrize("row", FIGURES["slope"], ids=lambda row: row["ratio"])
def test_constants_of_slopes_and_cutters(row: Row) -> None:
    assert row["how"] == "computed"
    assert rounded_to(row["constant"], rod_constant(read_slope(row["ratio"]).run).value)


@pytest.mark.parametrize("row", FIGURES["greatest"], ids=lambda row: row["what"])
def test_the_greatest_rod(row: Row) -> None:
    tail = Section("tail", run_of(row["flank_deg"]), Fraction(100), Fraction(1))
    assert rounded_to(row["share"], fitting(tail).greatest)
