"""Random exact numbers for hypothesis, drawn quickly."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from hypothesis import strategies as st

Number = Fraction | int


def fractions(least: Number, most: Number, max_denominator: int) -> st.SearchStrategy[Fraction]:
    """Every fraction from `least` to `most` with a denominator of `max_denominator` at most.

    The values of `st.fractions`, which makes strategies anew for every number and takes longer
    than most of what is tested with them. Here a denominator and a place on the finest grid are
    drawn, and the place is brought to that denominator.
    """
    fitting = {
        under: (ceil(least * under), floor(most * under)) for under in range(1, max_denominator + 1)
    }
    fitting = {under: (low, high) for under, (low, high) in fitting.items() if low <= high}

    def brought(drawn: tuple[int, int]) -> Fraction:
        under, place = drawn
        low, high = fitting[under]
        return Fraction(min(max(place * under // max_denominator, low), high), under)

    places = st.integers(floor(least * max_denominator), ceil(most * max_denominator))
    return st.tuples(st.sampled_from(sorted(fitting)), places).map(brought)
