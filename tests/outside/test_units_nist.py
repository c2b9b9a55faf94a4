"""The inch, the foot and the yard against published definitions.

Sources:
- NIST Special Publication 811, Guide for the Use of the International System of Units (A. Thompson
  and B. N. Taylor), 2008, Appendix B.9, factors for units listed by kind of quantity, length;
- NIST Handbook 44, Specifications, Tolerances, and Other Technical Requirements for Weighing and
  Measuring Devices, Appendix C, General Tables of Units of Measurement.
Status: memory for both texts (the copies at hand opened only at their contents pages); read for
the same figures in the definition file of the pint library: yard = 0.9144 m, foot = yard / 3,
inch = yard / 36, survey foot = 1200/3937 m.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint
import pytest

from layout.errors import BadMeasure
from layout.measure import read_length

# Exact lengths in mm; bold in SP 811, which marks factors that are exact.
PUBLISHED = {
    "inch": Fraction("25.4"),
    "foot": Fraction("304.8"),
    "yard": Fraction("914.4"),
}
SURVEY_FOOT = Fraction(1200, 3937) * 1000


@pytest.fixture(scope="module")
def registry() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize(
    ("unit", "spellings"),
    [
        ("inch", ("1 inch", "1 in", "1 in.", '1"', "1″", "1 inches")),
        ("foot", ("1 foot", "1 ft", "1'", "1′", "12 in", "1 feet")),
        ("yard", ("1 yard", "1 yd", "3 ft", "36 in", "1 yards")),
    ],
)
def test_our_reader(unit: str, spellings: tuple[str, ...]) -> None:
    for written in spellings:
        assert read_length(written, "mm") == PUBLISHED[unit], written


@pytest.mark.parametrize("unit", PUBLISHED)
def test_pints_default_registry(unit: str, registry: Any) -> None:
    assert registry.convert(Fraction(1), unit, "millimeter") == PUBLISHED[unit]


def test_a_bare_number_in_an_inch_piece() -> None:
    assert read_length(1, "in") == PUBLISHED["inch"]
    assert read_length("1", "in") == PUBLISHED["inch"]


def test_the_foot_is_never_the_us_survey_foot(registry: Any) -> None:
    # deprecated by NIST and NGS from 2023 (memory); 2 parts in a million longer
    assert registry.convert(Fraction(1), "survey_foot", "millimeter") == SURVEY_FOOT
    assert PUBLISHED["foot"] < SURVEY_FOOT
    for word in ("foot", "feet", "ft", "Ft.", "'"):
        assert read_length(f"1 {word}", "mm") == PUBLISHED["foot"]
    for word in ("survey_foot", "survey foot", "US survey foot", "sft", "rod", "chain", "link",
                 "furlong", "fathom"):
        with pytest.raises(BadMeasure):
            read_length(f"1/4 {word}", "mm")
