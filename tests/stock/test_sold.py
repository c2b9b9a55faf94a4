"""Board feet and sold thicknesses against published tables and worked sums."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from layout.measure import read_length
from layout.stock.sold import BOARD_FOOT, CUBIC_METRE, INCH, board_feet, thicknesses

F = Fraction
FOOT = 12 * INCH
TABLE = Path(__file__).parents[1] / "outside" / "reference" / "board_measure.txt"


def feet(thick: str, wide: str, long: str) -> Fraction:
    """Inches, inches, feet."""
    return board_feet(F(thick) * INCH, F(wide) * INCH, F(long) * FOOT)


# William Noyes, Handwork in Wood, 1910, pp. 48 and 109-110: board measure on the steel square.
@pytest.mark.parametrize(
    ("thick", "wide", "long", "told"),
    [("1", "6", "12", "6"), ("1", "9", "5", "15/4"), ("1", "13", "23", "299/12"),
     ("1", "12", "8", "8")],
)
def test_noyes_s_boards(thick: str, wide: str, long: str, told: str) -> None:
    assert feet(thick, wide, long) == F(told)


def test_griffith_s_table_of_330() -> None:
    """Ira S. Griffith, Carpentry, 1916/1919, Appendix III, but for its one misprint."""
    lines = [line.split() for line in TABLE.read_text(encoding="utf-8").splitlines()
             if line and not line.startswith("#")]
    lengths = lines[0][1:]
    tried, wrong = 0, []
    for section, *figures in lines[1:]:
        thick, wide = section.split("x")
        for long, told in zip(lengths, figures, strict=True):
            tried += 1
            if round(feet(thick, wide, long)) != int(told.rstrip("*")):
                wrong.append((section, long, told))
    assert tried == 330
    assert wrong == [("12x14", "12", "163*")]


def test_foster_s_packing_case() -> None:
    """Edwin W. Foster, Carpentry and Woodwork, 1911, ch. LI, Fig. 235: 67 8/9 ft of 1 in boards."""
    top = 2 * feet("1", str(F(38)), "14/3")
    sides = 2 * feet("1", "30", "14/3")
    ends = 2 * feet("1", "30", "3")
    assert top + sides + ends == F(611, 9)


def test_less_than_an_inch_counts_as_an_inch() -> None:
    """Charles A. King, Elements of Woodwork, 1911, sec. 12 (A)."""
    assert feet("3/4", "6", "12") == feet("1", "6", "12") == 6
    assert feet("5/4", "6", "12") == F(15, 2)


def test_a_board_foot_and_a_cubic_metre() -> None:
    # 1 cubic metre / (12 x 12 x 1 in) = 423.776 board feet (NIST Handbook 44, App. C, by its inch)
    assert round(CUBIC_METRE / BOARD_FOOT, 3) == F("423.776")


def test_quarters_rough_and_dressed() -> None:
    """NHLA rules as in the Wood Handbook, FPL-GTR-190, 2010, Table 6-2."""
    table = {"4/4": ("1", "13/16"), "5/4": ("1 1/4", "1 1/16"), "6/4": ("1 1/2", "1 5/16"),
             "8/4": ("2", "1 3/4"), "12/4": ("3", "2 3/4"), "16/4": ("4", "3 3/4")}
    found = {one.name: (one.rough, one.dressed) for one in thicknesses("in")}
    for name, sizes in table.items():
        assert found[name] == tuple(read_length(size, "in") for size in sizes)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_thicknesses_grow(unit: str) -> None:
    sold = thicknesses(unit)  # type: ignore[arg-type]
    assert [one.rough for one in sold] == sorted({one.rough for one in sold})
    assert [one.dressed for one in sold] == sorted({one.dressed for one in sold})
    assert all(0 < one.dressed < one.rough for one in sold)
