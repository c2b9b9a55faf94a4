"""Showing lengths at a rule: small domains in full, the rest at random."""

from __future__ import annotations

from dataclasses import FrozenInstanceError
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadMeasure
from layout.measure import Rule, Shown, default_rule, dual, read_length, read_rule, show
from layout.measure.rule import rules

INCH = Fraction(127, 5)
FINEST = Rule("in", Fraction(1, 128))
INCH_RULES = [rule for rule in rules() if rule.unit == "in"]
METRIC_RULES = [rule for rule in rules() if rule.unit == "mm"]


def at(rule: str, length: str, unit: Literal["in", "mm"] = "in") -> Shown:
    return show(read_length(length, unit, signed=True), read_rule(rule, unit))


# -- rules


@pytest.mark.parametrize(
    ("text", "unit", "shown", "step_mm"),
    [
        ("1/8", "in", "1/8 in", "127/40"),
        ("1/16 in", "in", "1/16 in", "127/80"),
        ("1/32 in", "mm", "1/32 in", "127/160"),
        ('1/32"', "in", "1/32 in", "127/160"),
        ("1/64", "in", "1/64 in", "127/320"),
        ("1/128", "in", "1/128 in", "127/640"),
        ("1 mm", "mm", "1 mm", "1"),
        ("0.5 mm", "in", "0.5 mm", "1/2"),
        ("0.5", "mm", "0.5 mm", "1/2"),
        ("1/2", "mm", "0.5 mm", "1/2"),
        ("0.1", "mm", "0.1 mm", "1/10"),
    ],
)
def test_rules_are_read(
    text: str, unit: Literal["in", "mm"], shown: str, step_mm: str
) -> None:
    rule = read_rule(text, unit)
    assert str(rule) == shown
    assert rule.step_mm == Fraction(step_mm)
    assert read_rule(str(rule), unit) == rule


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("1/3", "in"), ("1/256", "in"), ("1/2", "in"), ("1", "in"), ("0", "in"), ("1/32", "mm"),
        ("2", "mm"), ("0.25", "mm"), ("0.5", "in"), ("", "in"), ("fine", "in"), ("1/0", "in"),
        ("-1/32", "in"), ("1/32 kg", "in"), ("1/32\n", "in"),
        ("1/3\u00a0in", "in"),
    ],
)  # fmt: skip
def test_other_rules_are_refused_with_the_list(text: str, unit: Literal["in", "mm"]) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_rule(text, unit)
    assert caught.value.cure == "write one of: 1/8, 1/16, 1/32, 1/64, 1/128 in; 1, 0.5, 0.1 mm"
    assert caught.value.what
    assert str(caught.value).isprintable()


def test_a_rule_can_only_be_one_that_there_is() -> None:
    with pytest.raises(BadMeasure, match="1/3 in"):
        Rule("in", Fraction(1, 3))
    with pytest.raises(BadMeasure):
        Rule("mm", Fraction(1, 32))
    with pytest.raises(FrozenInstanceError):
        FINEST.step = Fraction(1)  # type: ignore[misc]


def test_default_rules() -> None:
    assert str(default_rule("in")) == "1/32 in"
    assert str(default_rule("mm")) == "0.5 mm"


# -- figures


@pytest.mark.parametrize(
    ("rule", "length", "with_unit"),
    [
        ("1/32", "2 13/32", "2 13/32 in"),
        ("1/32", "2 12/32", "2 3/8 in"),
        ("1/32", "3/32", "3/32 in"),
        ("1/32", "2", "2 in"),
        ("1/32", "0", "0 in"),
        ("1/32", "2.999", "3 in bare"),  # never 2 1/1 or 2 32/32
        ("1/32", "3.001", "3 in full"),
        ("1/32", "0.999", "1 in bare"),
        ("1/32", "2 27/64", "2 7/16 in bare"),  # 77 1/2 graduations: a half goes up
        ("1/32", "0.001", "0 in full"),
        ("1/32", "-2 13/32", "-2 13/32 in"),
        ("1/32", "-2.41", "-2 13/32 in full"),  # farther from 0 than the figure
        ("1/32", "-2.999", "-3 in bare"),
        ("1/32", "-2 27/64", "-2 7/16 in bare"),
        ("1/32", "-0.001", "0 in bare"),  # less than 0, and never -0
        ("1/32", "-1/32", "-1/32 in"),
        ("1/8", "2 1/16", "2 1/8 in bare"),
        ("1/32", "60 mm", "2 3/8 in bare"),
        ("0.5 mm", "43.5 mm", "43.5 mm"),
        ("0.5 mm", "43 mm", "43 mm"),
        ("0.5 mm", "43.2 mm", "43 mm full"),
        ("0.5 mm", "43.25 mm", "43.5 mm bare"),
        ("0.5 mm", "43.99 mm", "44 mm bare"),
        ("0.5 mm", "0.5 mm", "0.5 mm"),
        ("0.5 mm", "-0.5 mm", "-0.5 mm"),
        ("0.5 mm", "0.2 mm", "0 mm full"),
        ("0.1 mm", "43.04 mm", "43 mm full"),
        ("0.1 mm", "0.95 mm", "1 mm bare"),
        ("0.1 mm", "100 mm", "100 mm"),
        ("1 mm", "43.5 mm", "44 mm bare"),
        ("0.5 mm", "2 3/8 in", "60.5 mm bare"),  # 60.325
    ],
)
def test_figures(rule: str, length: str, with_unit: str) -> None:
    assert at(rule, length).with_unit == with_unit


def test_the_parts_of_a_figure() -> None:
    shown = at("1/32", "2.41")
    assert (shown.sign, shown.whole, shown.numerator, shown.denominator) == (1, 2, 13, 32)
    assert (shown.decimals, shown.unit, shown.nuance) == ("", "in", "full")
    assert shown.drift == (Fraction("2.41") - Fraction(77, 32)) * INCH
    assert (shown.figure, shown.text) == ("2 13/32", "2 13/32 full")
    shown = at("0.5 mm", "-43.45 mm")
    assert (shown.sign, shown.whole, shown.numerator, shown.denominator) == (-1, 43, 0, 1)
    assert (shown.decimals, shown.unit, shown.nuance) == ("5", "mm", "bare")
    assert shown.drift == Fraction(1, 20)
    assert (shown.figure, shown.text) == ("-43.5", "-43.5 bare")
    shown = at("0.5 mm", "43 mm")
    assert (shown.whole, shown.numerator, shown.denominator, shown.decimals) == (43, 0, 1, "")


def honest(length: Fraction, rule: Rule) -> Shown:
    """What must be so for every length at every rule."""
    shown = show(length, rule)
    assert shown.length + shown.drift == length
    assert abs(shown.drift) <= rule.step_mm / 2
    assert (shown.length / rule.step_mm).denominator == 1
    grown = abs(length) - abs(shown.length) if shown.length else length
    assert shown.nuance == ("full" if grown > 0 else "bare" if grown < 0 else "")
    assert 0 <= shown.numerator < shown.denominator
    assert Fraction(shown.numerator, shown.denominator).denominator == shown.denominator
    if rule.unit == "in":
        assert shown.decimals == ""
        assert shown.denominator in (1, 2, 4, 8, 16, 32, 64, 128)
        assert shown.denominator <= rule.step.denominator
    else:
        assert (shown.numerator, shown.denominator) == (0, 1)
        assert not shown.decimals.endswith("0")
    assert not shown.figure.startswith("-0 ")
    assert shown.figure != "-0"
    # the figure itself, read by the reader, is the shown length
    read = read_length(f"{shown.figure} {shown.unit}", "in", signed=True)
    assert read == shown.length
    return shown


@pytest.mark.parametrize("rule", rules(), ids=str)
def test_every_128th_up_to_three_inches(rule: Rule) -> None:
    for n in range(-3 * 128, 3 * 128 + 1):
        exact = honest(n * INCH / 128, rule).drift == 0
        if rule.unit == "in":
            assert exact == (n % (128 // rule.step.denominator) == 0)


@pytest.mark.parametrize("rule", METRIC_RULES, ids=str)
def test_every_twentieth_up_to_30_mm(rule: Rule) -> None:
    for n in range(-600, 601):
        exact = honest(Fraction(n, 20), rule).drift == 0
        assert exact == (Fraction(n, 20) % rule.step == 0)


@pytest.mark.parametrize("rule", INCH_RULES, ids=str)
def test_just_below_a_whole_inch(rule: Rule) -> None:
    hair = Fraction(1, 10**9)
    for whole in range(1, 50):
        shown = honest(whole * INCH - hair, rule)
        assert (shown.figure, shown.nuance) == (str(whole), "bare")


@settings(deadline=None)
@given(st.fractions(-99_990, 99_990), st.sampled_from(rules()))
def test_any_length_at_any_rule(length: Fraction, rule: Rule) -> None:
    honest(length, rule)


@settings(deadline=None)
@given(st.integers(0, 128 * 3900))
def test_a_128th_is_shown_exactly_and_reads_back(n: int) -> None:
    shown = show(n * INCH / 128, FINEST)
    assert shown.nuance == ""
    assert read_length(shown.figure, "in") == n * INCH / 128
    assert read_length(shown.with_unit, "mm") == n * INCH / 128


@settings(deadline=None)
@given(st.integers(0, 1_000_000))
def test_a_tenth_of_a_mm_is_shown_exactly_and_reads_back(n: int) -> None:
    shown = show(Fraction(n, 10), Rule("mm", Fraction(1, 10)))
    assert shown.nuance == ""
    assert read_length(shown.figure, "mm") == Fraction(n, 10)


# -- both units


@pytest.mark.parametrize(
    ("length", "rule", "text"),
    [
        ("60 mm", "0.5 mm", "60 mm (2 3/8 in bare)"),  # 2.3622 in
        ("2 3/8 in", "1/32 in", "2 3/8 in (60.5 mm bare)"),  # 60.325 mm
        ("2 in", "1/64 in", "2 in (51 mm bare)"),  # 50.8 mm
        ("25.4 mm", "0.1 mm", "25.4 mm (1 in)"),
        ("43.2 mm", "0.5 mm", "43 mm full (1 11/16 in full)"),  # 54.42 thirty-seconds
        ("0", "1/32 in", "0 in (0 mm)"),
    ],
)
def test_dual(length: str, rule: str, text: str) -> None:
    assert dual(read_length(length, "mm"), read_rule(rule, "mm")) == text
