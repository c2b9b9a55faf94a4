"""Reading lengths and counts: every form that is taken, every form that is refused."""

from __future__ import annotations

import time
import unicodedata
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import TypeVar

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from layout.errors import BadMeasure, Where
from layout.measure import read_count, read_length

INCH = Fraction(127, 5)
TWO_AND_THREE_EIGHTHS = Fraction(19, 8) * INCH

# what is written, the unit of bare numbers, mm (as a sum where that says more)
READ = [
    # inch fractions
    ("2 3/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2-3/8", "in", TWO_AND_THREE_EIGHTHS),
    ('2-3/8"', "mm", TWO_AND_THREE_EIGHTHS),
    ('2 3/8 "', "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 in", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8in", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 in.", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 inch", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 inches", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 Inches", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8 IN", "mm", TWO_AND_THREE_EIGHTHS),
    ("  2   3/8   in  ", "mm", TWO_AND_THREE_EIGHTHS),
    ("02 3/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2⅜", "in", TWO_AND_THREE_EIGHTHS),
    ("2 ⅜", "in", TWO_AND_THREE_EIGHTHS),
    ("2-⅜", "in", TWO_AND_THREE_EIGHTHS),
    ("2⅜ in", "mm", TWO_AND_THREE_EIGHTHS),
    ("2⅜″", "mm", TWO_AND_THREE_EIGHTHS),
    ("2.375", "in", TWO_AND_THREE_EIGHTHS),
    ("2 6/16", "in", TWO_AND_THREE_EIGHTHS),
    ("19/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2 0/8", "in", 2 * INCH),
    ('5/16"', "mm", Fraction(5, 16) * INCH),
    ("⅜", "in", Fraction(3, 8) * INCH),
    ("⅟8", "in", Fraction(1, 8) * INCH),
    ("2⅟16", "in", Fraction(33, 16) * INCH),
    (".5", "in", Fraction(127, 10)),
    ("0.5", "in", Fraction(127, 10)),
    ("1/3", "in", INCH / 3),
    # other marks for the same
    ("2 3/8″", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8”", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3/8“", "mm", TWO_AND_THREE_EIGHTHS),
    ("2 3⁄8", "in", TWO_AND_THREE_EIGHTHS),
    ("2 3∕8", "in", TWO_AND_THREE_EIGHTHS),
    ("2–3/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2−3/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2‑3/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2\u00a03/8", "in", TWO_AND_THREE_EIGHTHS),
    ("2\u20093/8\u202fin", "mm", TWO_AND_THREE_EIGHTHS),
    # feet and inches
    ("""1' 2 1/2\"""", "mm", Fraction(29, 2) * INCH),
    ("""1'-2 1/2\"""", "mm", Fraction(29, 2) * INCH),
    ("""1' - 2 1/2\"""", "mm", Fraction(29, 2) * INCH),
    ("""1'2-1/2\"""", "mm", Fraction(29, 2) * INCH),
    ("""1'-2½\"""", "mm", Fraction(29, 2) * INCH),
    ("""1' 2.5\"""", "mm", Fraction(29, 2) * INCH),
    ("1′ 2 1/2″", "mm", Fraction(29, 2) * INCH),
    ("1’–2 1⁄2”", "mm", Fraction(29, 2) * INCH),
    ("1 ft 2 in", "mm", 14 * INCH),
    ("1ft2in", "mm", 14 * INCH),
    ("1 ft. 2 in.", "mm", 14 * INCH),
    ("1 foot 2 inches", "mm", 14 * INCH),
    ("2 feet 1 inch", "mm", 25 * INCH),
    ("""0' 11 127/128\"""", "mm", Fraction(1535, 128) * INCH),
    ("""3' 0\"""", "mm", 36 * INCH),
    ("1'", "mm", 12 * INCH),
    ("1 1/2'", "mm", 18 * INCH),
    ("2.5 ft", "mm", 30 * INCH),
    # metric, and by way of pint
    ("60mm", "in", Fraction(60)),
    ("60 mm", "in", Fraction(60)),
    ("60 MM", "in", Fraction(60)),
    ("60 mm.", "in", Fraction(60)),
    ("19.05 mm", "in", Fraction(381, 20)),
    ("6 cm", "in", Fraction(60)),
    ("6.25cm", "in", Fraction(125, 2)),
    ("1 1/2 cm", "in", Fraction(15)),
    ("0.06 m", "in", Fraction(60)),
    ("1 dm", "in", Fraction(100)),
    ("60 millimetres", "in", Fraction(60)),
    ("60 Millimeters", "in", Fraction(60)),
    ("500 µm", "in", Fraction(1, 2)),
    ("500 μm", "in", Fraction(1, 2)),
    ("1 yd", "mm", 36 * INCH),
    ("10 thou", "mm", INCH / 100),
    ("4 hands", "mm", 16 * INCH),
    ("72 points", "mm", INCH),
    # bare
    ("60", "mm", Fraction(60)),
    ("1/2", "mm", Fraction(1, 2)),
    ("0", "in", Fraction(0)),
    ("-0", "in", Fraction(0)),
    ("0 mm", "in", Fraction(0)),
    ("999999 µm", "in", Fraction(999999, 1000)),
    ("100 m", "mm", Fraction(100_000)),
    ("0.00000000001", "mm", Fraction(1, 10**11)),
    # numbers of a TOML file
    (48, "in", 48 * INCH),
    (48, "mm", Fraction(48)),
    (0, "mm", Fraction(0)),
    (Decimal("2.375"), "in", TWO_AND_THREE_EIGHTHS),
    (Decimal("19.05"), "mm", Fraction(381, 20)),
    (Decimal("0.1"), "mm", Fraction(1, 10)),
    (Decimal("60.0"), "mm", Fraction(60)),
    (Decimal("1E-3"), "mm", Fraction(1, 1000)),  # the same Decimal as 0.001
    (Decimal("-0.0"), "mm", Fraction(0)),
]


@pytest.mark.parametrize(("written", "unit", "length"), READ)
def test_read(written: object, unit: str, length: Fraction) -> None:
    read = read_length(written, unit)
    assert read == length
    assert type(read) is Fraction


@pytest.mark.parametrize(
    ("written", "length"),
    [
        ("-2 3/8", -TWO_AND_THREE_EIGHTHS),
        ("-2-3/8", -TWO_AND_THREE_EIGHTHS),
        ("−2⅜", -TWO_AND_THREE_EIGHTHS),
        ("-⅜", -Fraction(3, 8) * INCH),
        ("-60 mm", Fraction(-60)),
        ("""-1' 2\"""", -14 * INCH),
        (-2, -2 * INCH),
        (Decimal("-2.5"), -Fraction(5, 2) * INCH),
        ("2", 2 * INCH),
        ("0", Fraction(0)),
    ],
)
def test_read_with_a_sign(written: object, length: Fraction) -> None:
    assert read_length(written, "in", signed=True) == length
    if length < 0:
        with pytest.raises(BadMeasure, match="below zero"):
            read_length(written, "in")


def test_every_vulgar_fraction_in_unicode() -> None:
    count = 0
    for code in range(0x110000):
        char = chr(code)
        kind, _, spelt = unicodedata.decomposition(char).partition(" ")
        if kind != "<fraction>" or char == "⅟":  # ⅟ stands before a denominator
            continue
        digits = "".join(chr(int(point, 16)) for point in spelt.split())
        over, under = digits.split("⁄")
        value = Fraction(int(over), int(under)) * INCH
        assert read_length(char, "in") == value, char
        assert read_length(f"7{char}", "in") == 7 * INCH + value, char
        count += 1
    assert count == 19


def test_every_space_in_unicode() -> None:
    for code in range(0x110000):
        char = chr(code)
        if unicodedata.category(char) == "Zs":
            assert read_length(f"{char}2{char}3/8{char}in{char}", "mm") == TWO_AND_THREE_EIGHTHS


LIKE = """write it like 2 3/8, 2.375, 60 mm or 1' 2 1/2\""""

# what is written, what is wrong with it, what would be right
REFUSED = [
    ("1/0", "'1/0' has 0 under its fraction bar", "write it like 3/8"),
    ("2 0/0", "'2 0/0' has 0 under its fraction bar", "write it like 3/8"),
    ("⅟0", "'⅟0' has 0 under its fraction bar", "write it like 3/8"),
    ("1-1/2-3", "has a number after its fraction", "write one fraction"),
    ("2 9/8", "the fraction in '2 9/8' is one or more", "under one, like 2 3/8"),
    ("2 8/8", "the fraction in '2 8/8' is one or more", "under one, like 2 3/8"),
    ("2-9/8 in", "is one or more", "under one"),
    ("NaN", "'NaN' has no number in it", LIKE),
    ("inf", "'inf' has no number in it", LIKE),
    ("-Infinity", "has no number in it", LIKE),
    ("in", "'in' has no number in it", LIKE),
    ('"', "has no number in it", LIKE),
    ("-", "has no number in it", LIKE),
    ("/", "has no number in it", LIKE),
    (".", "has no number in it", LIKE),
    ("two", "has no number in it", LIKE),
    ("٣", "has no number in it", LIKE),
    ("²", "has no number in it", LIKE),
    ("1e400", "'1e400' has an exponent", "write the number out"),
    ("1E3 mm", "has an exponent", "write the number out"),
    ("1e-3", "has an exponent", "write the number out"),
    ("1.e5", "has an exponent", "write the number out"),
    ("1e5in", "has an exponent", "write the number out"),
    ("", "this length is empty", LIKE),
    ("   ", "this length is empty", LIKE),
    ("\u00a0", "this length is empty", LIKE),
    ("19,05 mm", "'19,05 mm' has a comma in it", "write 19.05 mm"),
    ("19,05", "has a comma in it", "write 19.05"),
    (",5", "has a comma in it", "write .5"),
    ("1,200 mm", "has a comma in it", "write 1200 mm for thousands, 1.200 mm for a decimal"),
    ("1 ft, 2 in", "has a comma in it", "leave it out; write it like"),
    ("1_000", "'1_000' has an underscore in it", "leave it out"),
    ("2 3", "'2 3' is two numbers side by side", "a fraction like 2 3/8"),
    ("2-3", "is two numbers side by side", "a decimal like 2.375"),
    ("2 3 in", "is two numbers side by side", "a fraction like 2 3/8"),
    ("2 3 3/8", "is two numbers side by side", "a fraction like 2 3/8"),
    ("2 - 3/8", "has a space beside its hyphen", "write 2-3/8 close up, or 2 3/8"),
    ("2 -3/8", "has a space beside its hyphen", "write 2-3/8 close up"),
    ("2- 3/8", "has a space beside its hyphen", "write 2-3/8 close up"),
    ("--2", "'--2' has two minus signs", "write one, or none"),
    ("- -2", "has two minus signs", "write one, or none"),
    ("- 2", "can't be read as a length", LIKE),
    ("2--3/8", "can't be read as a length", LIKE),
    ("+2", "has a plus sign in it", "leave it out"),
    ("1/2/3", "'1/2/3' has more than one fraction bar", "write one fraction, like 2 3/8"),
    ("2 1/2/3", "has more than one fraction bar", "write one fraction"),
    ("1/-2", "can't be read as a length", LIKE),
    ("3 / 8", "has spaces in its fraction", "write it close up"),
    ("2 3/ 8", "has spaces in its fraction", "write it close up"),
    ("2.5 1/2", "mixes a decimal and a fraction", "write one or the other"),
    ("2.5½", "mixes a decimal and a fraction", "write one or the other"),
    ("1/2.5", "mixes a decimal and a fraction", "write one or the other"),
    ("1 1/2.5", "mixes a decimal and a fraction", "write one or the other"),
    ("½½", "has a number after its fraction", "write one fraction"),
    ("½2", "has a number after its fraction", "write one fraction"),
    ("1/2½", "has a number after its fraction", "write one fraction"),
    ("1/½", "can't be read as a length", LIKE),
    ("2.", "has a point with no digit after it", LIKE),
    ("2. in", "has a point with no digit after it", LIKE),
    ("1.2.3", "can't be read as a length", LIKE),
    ("2/", "can't be read as a length", LIKE),
    ("/2", "can't be read as a length", LIKE),
    ("-2", "'-2' is below zero", "write it without the minus sign"),
    ("-1/8 in", "is below zero", "without the minus"),
    ("100.001 m", "'100.001 m' is more than 100 m", "check the number and its unit"),
    ("3938 in", "is more than 100 m", "check the number"),
    ("999999999999", "is more than 100 m", "check the number"),
    ("0.1 mile", "is more than 100 m", "check the number"),
    ("1234567890123", "has more than 12 digits", "write fewer digits"),
    ("1.234567890123", "has more than 12 digits", "write fewer digits"),
    ("0000000000001", "has more than 12 digits", "write fewer digits"),
    ("1/1234567890123", "has more than 12 digits", "write fewer digits"),
    ("1" * 60, "has more than 12 digits", "write fewer digits"),
    ("1" * 61, "'11111111111111111111…' is too long for a length", "at most 60 characters"),
    ("2" + " " * 60, "is too long for a length", "at most 60 characters"),
    ("\n" * 100_000, "is too long for a length", "at most 60 characters"),
    ("2\n", "(U+000A) stands in this length", "take it out"),
    ("2 3/8\nin", "(U+000A)", "take it out"),
    ("2\t3/8", "(U+0009)", "take it out"),
    ("\x00", "(U+0000)", "take it out"),
    ("2\x1b[31m", "(U+001B)", "take it out"),
    ("2\x7f", "(U+007F)", "take it out"),
    ("2\u2028", "(U+2028)", "take it out"),
    ("2\u200b3/8", "(U+200B)", "take it out"),
    ("\ufeff2", "(U+FEFF)", "take it out"),
    ("2\u202e", "(U+202E)", "take it out"),
    ("\ud800", "(U+D800)", "take it out"),
    ("45°", "is an angle or a temperature, not a length", LIKE),
    ("""1' 2""", "has no unit at its end", """1' 2 1/2\""""),
    ("1 ft 2 1/2", "has no unit at its end", """1' 2 1/2\""""),
    ("""1.5' 2\"""", "the feet in '1.5' 2\"' are not whole", """write it like 1' 6\""""),
    ("""1 1/2' 2\"""", "are not whole", """write it like 1' 6\""""),
    ("""1' 12\"""", "the inches in '1' 12\"' are a foot or more", "write inches under 12"),
    ("""1' 2 9/8\"""", "is one or more", "under one"),
    ("1 m 20 cm", "'1 m 20 cm' is two lengths", "only feet and inches go together"),
    ("""2" 1'""", "is two lengths", "only feet and inches go together"),
    ("2 in 3 in", "is two lengths", "only feet and inches go together"),
    ("2 ft 3 ft", "is two lengths", "only feet and inches go together"),
    ("1 ft 2 kg", "'kg' is a unit of weight, not of length", "mm"),
    ("5 kg", "'kg' is a unit of weight, not of length", "mm"),
    ("5 wibbles", "there is no unit 'wibbles'", "mm"),
    ("0x10", "has no unit at its end", "write feet and inches"),
    ("2 3/8 in in", "can't be read as a length", LIKE),
    ("2 3/16 in in", "can't be read as a length", LIKE),
    ("2⅟16 in in", "can't be read as a length", LIKE),
    ("2 cm**2", "can't be read as a length", LIKE),
    ("2 in*3", "can't be read as a length", LIKE),
    ("2(3)", "can't be read as a length", LIKE),
    ("2''", "can't be read as a length", LIKE),
    ("2 дм", "can't be read as a length", LIKE),
    ("2 3/8 — 1/64", "can't be read as a length", LIKE),
    ("{length}", "has no number in it", LIKE),
    # not text
    (True, "a length can't be true", LIKE),
    (False, "a length can't be false", LIKE),
    (None, "a length can't be left empty", LIKE),
    (2.5, "a length can't be a binary float", LIKE),
    (float("nan"), "a length can't be a binary float", LIKE),
    ([2], "a length can't be a list", LIKE),
    ({"a": 2}, "a length can't be a table", LIKE),
    (b"2", "a length can't be of this kind", LIKE),
    (Fraction(1, 2), "a length can't be of this kind", LIKE),
    (-2, "-2 is below zero", "without the minus"),
    (10**6, "1000000 is more than 100 m", "check the number"),
    (10**12, "has more than 12 digits", "write fewer digits"),
    (10**5000, "has more than 12 digits", "write fewer digits"),
    (-(10**5000), "has more than 12 digits", "write fewer digits"),
    (Decimal("-0.5"), "-0.5 is below zero", "without the minus"),
    (Decimal("NaN"), "NaN is no number", LIKE),
    (Decimal("sNaN"), "sNaN is no number", LIKE),
    (Decimal("-Infinity"), "-Infinity is no number", LIKE),
    (Decimal("1E+400000000"), "1E+400000000 has an exponent", "write the number out"),
    (Decimal("1E+3"), "1E+3 has an exponent", "write the number out"),
    (Decimal("0E+999999999"), "has an exponent", "write the number out"),
    (Decimal("1E-400000000"), "has more than 12 digits", "write fewer digits"),
    (Decimal("0E-400000000"), "has more than 12 digits", "write fewer digits"),
    (Decimal("1.234567890123"), "has more than 12 digits", "write fewer digits"),
    (Decimal("0.000000000001"), "has more than 12 digits", "write fewer digits"),
    (Decimal("1" * 5000), "has more than 12 digits", "write fewer digits"),
]


# numbered, because pytest can't write out all of these as names
@pytest.mark.parametrize(("written", "what", "cure"), REFUSED, ids=range(len(REFUSED)))
def test_refused(written: object, what: str, cure: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_length(written, "in")
    error = caught.value
    assert what in error.what
    assert cure in error.cure
    assert error.where == Where()
    assert str(error).isprintable()
    assert len(str(error)) < 200
    assert error.__cause__ is None


def test_a_place_can_be_added() -> None:
    with pytest.raises(BadMeasure) as caught:
        read_length("2 9/8", "in")
    placed = caught.value.at(Where("bench.toml", 12, "frame.rail"))
    assert str(placed).startswith("bench.toml, line 12, frame.rail: the fraction in '2 9/8'")


def test_the_unit_of_bare_numbers_is_in_or_mm() -> None:
    with pytest.raises(BadMeasure, match="'cm'"):
        read_length(2, "cm")


# -- at random


@settings(deadline=None)
@given(
    st.integers(0, 99), st.integers(1, 128), st.integers(0, 127),
    st.sampled_from(["{} {}/{}", "{}-{}/{}", "{} {}⁄{}", '{} {}/{}"', "{}–{}/{} in."]),
)  # fmt: skip
def test_mixed_numbers(whole: int, under: int, over: int, form: str) -> None:
    written = form.format(whole, over, under)
    if over < under:
        assert read_length(written, "in") == (whole + Fraction(over, under)) * INCH
    else:
        with pytest.raises(BadMeasure, match="one or more"):
            read_length(written, "in")


@settings(deadline=None)
@given(st.decimals(0, 3900, places=7), st.sampled_from(["in", "mm"]))
def test_decimals_in_text_and_as_numbers(number: Decimal, unit: str) -> None:
    expected = Fraction(number) * (INCH if unit == "in" else 1)
    assert read_length(f"{number:f}", unit) == expected
    assert read_length(number, unit) == expected


Read = TypeVar("Read")


def told(act: Callable[[], Read]) -> Read | None:
    """What `act` gives, or None where it raises a BadMeasure, which must be fit to be printed."""
    try:
        return act()
    except BadMeasure as caught:
        error = caught
    assert error.what
    assert error.cure
    assert str(error).isprintable()
    assert len(str(error)) < 250
    return None


LIKELY = st.text(alphabet="0123456789 ./-'\"½⅜⅟″′,_+eEinftmckgµ\n°\u00a0–", max_size=14)


@settings(deadline=None)
@given(LIKELY | st.text(max_size=70), st.sampled_from(["in", "mm"]), st.booleans())
@example("1" * 30 + " " * 30, "in", False)
@example("-" * 60, "in", True)
@example(" -" * 30, "in", True)
@example("1/" * 30, "in", False)
@example("1 " * 30, "in", False)
@example("½" * 60, "in", False)
@example("a" * 59 + "1", "mm", False)
@example("1" + "a" * 59, "mm", False)
def test_any_text_is_a_length_or_a_bad_measure(text: str, unit: str, signed: bool) -> None:
    started = time.perf_counter()
    length = told(lambda: read_length(text, unit, signed=signed))
    if length is not None:
        assert type(length) is Fraction
        assert abs(length) <= 100_000
        assert signed or length >= 0
    assert time.perf_counter() - started < 2  # loading pint, the first time, is the most of it


@settings(deadline=None)
@given(st.decimals() | st.integers() | st.none() | st.booleans() | st.floats() | st.binary())
def test_any_value_is_a_length_or_a_bad_measure(value: object) -> None:
    length = told(lambda: read_length(value, "in", signed=True))
    if length is not None:
        assert isinstance(value, (int, Decimal))
        assert length == Fraction(value) * INCH


# -- counts


@pytest.mark.parametrize(
    ("written", "count"), [(1, 1), (200, 200), ("4", 4), (" 12 ", 12), ("007", 7), ("\u00a03", 3)]
)
def test_counts(written: object, count: int) -> None:
    assert read_count(written) == count


def test_the_bounds_of_a_count() -> None:
    assert read_count(0, 0, 3) == 0
    assert read_count("-2", -5, 3) == -2
    assert read_count(3, 0, 3) == 3
    for beyond in (-1, 4, "4", "-1"):
        with pytest.raises(BadMeasure, match=f"{beyond}'? is not from 0 to 3"):
            read_count(beyond, 0, 3)


REFUSED_COUNTS = [
    (0, "0 is not from 1 to 200"),
    (201, "201 is not from 1 to 200"),
    (10**5000, "this number is not from 1 to 200"),
    ("0", "'0' is not from 1 to 200"),
    ("2.0", "'2.0' is not a whole number"),
    ("1/1", "is not a whole number"),
    ("two", "is not a whole number"),
    ("1e2", "is not a whole number"),
    ("1_0", "is not a whole number"),
    ("٣", "is not a whole number"),
    ("3 pcs", "is not a whole number"),
    ("", "this count is empty"),
    ("3\n", "(U+000A) stands in this count"),
    ("1" * 13, "more than 12 digits"),
    ("1" * 5000, "too long for a count"),
    (Decimal("2.5"), "2.5 is not a whole number"),
    (Decimal("4.0"), "4.0 is not a whole number"),
    (Decimal("1E+400000000"), "is not a whole number"),
    (Decimal("NaN"), "NaN is not a whole number"),
    (True, "a count can't be true"),
    (None, "a count can't be left empty"),
    (2.0, "a count can't be a binary float"),
    ([2], "a count can't be a list"),
]


@pytest.mark.parametrize(("written", "what"), REFUSED_COUNTS, ids=range(len(REFUSED_COUNTS)))
def test_refused_counts(written: object, what: str) -> None:
    with pytest.raises(BadMeasure) as caught:
        read_count(written)
    assert what in caught.value.what
    assert caught.value.where == Where()
    assert str(caught.value).isprintable()


@settings(deadline=None)
@given(st.text(max_size=70) | st.decimals() | st.integers() | st.none())
def test_any_value_is_a_count_or_a_bad_measure(value: object) -> None:
    count = told(lambda: read_count(value))
    if count is not None:
        assert 1 <= count <= 200
