"""The number writer, the one rounding rule, and exact numbers as text."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadMeasure
from layout.measure import decimal_text, exact_text, nearest, ratio_text, read_exact


@pytest.mark.parametrize(
    ("value", "whole"),
    [
        ("0", 0),
        ("1/2", 1),
        ("-1/2", -1),
        ("3/2", 2),
        ("5/2", 3),  # halves to even would give 2
        ("-5/2", -3),
        ("499999/1000000", 0),
        ("-499999/1000000", 0),
        ("7", 7),
        ("-7", -7),
    ],
)
def test_halves_go_away_from_zero(value: str, whole: int) -> None:
    assert nearest(Fraction(value)) == whole


@settings(deadline=None)
@given(st.fractions())
def test_nearest_is_never_more_than_a_half_away(value: Fraction) -> None:
    assert abs(nearest(value) - value) <= Fraction(1, 2)
    assert nearest(-value) == -nearest(value)


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        ("0", 6, "0"),
        ("60", 6, "60"),
        ("-60", 6, "-60"),
        ("100", 0, "100"),
        ("127/5", 6, "25.4"),
        ("1/3", 6, "0.333333"),
        ("2/3", 6, "0.666667"),
        ("-2/3", 3, "-0.667"),
        ("1/2", 0, "1"),
        ("-1/2", 0, "-1"),
        ("1/8", 2, "0.13"),
        ("-1/8", 2, "-0.13"),
        ("999999/1000000", 3, "1"),
        ("1/10000000", 6, "0"),
        ("-1/10000000", 6, "0"),  # never "-0"
        ("5/10000000", 6, "0.000001"),
        ("1/1000", 6, "0.001"),
        ("10000000000000000000001/2", 6, "5000000000000000000000.5"),
    ],
)
def test_decimal_text(value: str, places: int, text: str) -> None:
    assert decimal_text(Fraction(value), places) == text


@settings(deadline=None)
@given(st.fractions(), st.integers(1, 10**9))
def test_a_ratio_is_written_the_same_in_any_terms(value: Fraction, times: int) -> None:
    written = ratio_text(value.numerator * times, value.denominator * times)
    assert written == decimal_text(value)


@settings(deadline=None)
@given(st.fractions(-(10**9), 10**9), st.integers(0, 9))
def test_decimal_text_agrees_with_the_decimal_module(value: Fraction, places: int) -> None:
    text = decimal_text(value, places)
    assert re.fullmatch(r"-?(0|[1-9][0-9]*)(\.[0-9]*[1-9])?", text)
    assert text != "-0"
    with localcontext() as context:
        context.prec = 60
        twice = value * 2 * 10**places
        if twice.denominator == 1:  # the decimal module must be given every half exactly
            judge = (Decimal(int(twice)) / 2).quantize(Decimal(1), ROUND_HALF_UP)
            assert Fraction(text) * 10**places == int(judge)
    assert abs(Fraction(text) - value) <= Fraction(1, 2 * 10**places)


def test_fewer_than_no_places_is_a_slip_in_the_program() -> None:
    with pytest.raises(ValueError, match="places"):
        decimal_text(Fraction(1), -1)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(127, 5), "127/5"),
        (Fraction(60), "60"),
        (Fraction(-1, 8), "-1/8"),
        (Fraction(0), "0"),
    ],
)
def test_exact_text(value: Fraction, text: str) -> None:
    assert exact_text(value) == text
    assert read_exact(text) == value


@settings(deadline=None)
@given(st.fractions())
def test_exact_text_reads_back(value: Fraction) -> None:
    assert read_exact(exact_text(value)) == value


@pytest.mark.parametrize(
    "text",
    ["", "-0", "2/4", "4/1", "1/0", "01", "1/02", "+1", " 1", "1 ", "1\n", "1.5", "1e3", "1_0",
     "--1", "1/-2", "0/5", "١", "1/2/3", "nan", "9" * 5000, "x" * 300, None, 1, 1.5, Fraction(1)],
)  # fmt: skip
def test_what_exact_text_would_not_write_is_refused(text: object) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_exact(text)
    assert "127/5" in caught.value.cure
    assert str(caught.value).isprintable()


@settings(deadline=None)
@given(st.text(alphabet="0123456789-/+. e\n", max_size=12))
def test_reading_exact_numbers_is_strict(text: str) -> None:
    try:
        value = read_exact(text)
    except BadMeasure:
        return
    assert exact_text(value) == text
