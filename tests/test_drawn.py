"""The random numbers of the tests are all that they say, and no others."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import Phase, find, given, settings
from hypothesis import strategies as st

from tests.drawn import fractions

RANGES = [
    (-1, 1, 4), (Fraction(1, 8), 1, 5), (Fraction(1, 20), Fraction(1, 6), 9), (0, 0, 3),
    (Fraction(-7, 3), Fraction(-1, 2), 4),
]  # fmt: skip
ANY = settings(max_examples=5000, phases=(Phase.generate,), database=None)
"""No hunt for a simpler one."""


@pytest.mark.parametrize(("least", "most", "under"), RANGES)
def test_every_one_can_be_drawn(least: Fraction | int, most: Fraction | int, under: int) -> None:
    wanted = {
        Fraction(over, by)
        for by in range(1, under + 1)
        for over in range(ceil(least * by), floor(most * by) + 1)
    }
    assert wanted
    drawing = fractions(least, most, under)
    for one in wanted:
        assert find(drawing, lambda drawn, one=one: drawn == one, settings=ANY) == one


@settings(deadline=None, max_examples=60)
@given(st.data())
def test_none_lies_outside(data: st.DataObject) -> None:
    ends = st.fractions(-9, 9, max_denominator=7)
    least, most = sorted((data.draw(ends), data.draw(ends)))
    under = data.draw(st.integers(least.denominator, 30))
    drawn = data.draw(fractions(least, most, under))
    assert least <= drawn <= most
    assert drawn.denominator <= under
