"""Widths and heights of letters; Pillow's FreeType is the judge of what the fonts hold."""

from fractions import Fraction
from importlib import resources

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import ImageFont

from layout.scene.lettering import (
    ELLIPSIS,
    clean,
    depth,
    em_size,
    face,
    fit,
    text_width,
    wrap,
    wrap_at_most,
)

HEIGHT = Fraction(5, 2)
WORDS = "Top rail 2 13/32 ½ × ⅜ — é, quirk & bead"


def judge(bold: bool) -> ImageFont.FreeTypeFont:
    path = resources.files("layout.scene").joinpath("fonts", f"{face(bold).name}.ttf")
    # one pixel a font unit
    return ImageFont.truetype(str(path), 2048, layout_engine=ImageFont.Layout.BASIC)


@pytest.mark.parametrize("bold", [False, True])
def test_every_letter_is_as_wide_as_freetype_finds_it(bold: bool) -> None:
    font = judge(bold)
    for letter in sorted(set(WORDS + "0123456789AWijgpf…−")):
        assert face(bold).widths[letter] == round(font.getlength(letter))


@pytest.mark.parametrize("bold", [False, True])
def test_a_capital_is_as_high_as_was_asked_for(bold: bool) -> None:
    _, top, _, bottom = judge(bold).getbbox("H", anchor="ls")
    assert face(bold).capital == -top
    assert bottom == 0
    # 14 mm figures: a capital of `capital` units at an em of em_size is 14 mm high
    assert em_size(Fraction(14), bold) * -top / 2048 == 14


@pytest.mark.parametrize("bold", [False, True])
def test_deep_letters_hang_as_low_as_freetype_finds_them(bold: bool) -> None:
    lowest = max(judge(bold).getbbox(letter, anchor="ls")[3] for letter in "gpqyj,;")
    # the outline's own lowest point; a picture of it may reach one pixel further
    assert abs(depth(Fraction(1), bold) * face(bold).capital - lowest) <= 1


def test_a_width_is_the_sum_of_its_letters_and_grows_with_the_height() -> None:
    single = sum(text_width(letter, HEIGHT) for letter in WORDS)
    assert text_width(WORDS, HEIGHT) == single
    assert text_width(WORDS, 3 * HEIGHT) == 3 * single
    assert text_width("", HEIGHT) == 0


@pytest.mark.parametrize(
    ("dirty", "expected"),
    [
        ("rail\x00\x1b[31m", "rail??[31m"),
        ("two\nlines\tand", "two?lines?and"),
        ("\u202egnp.exe", "?gnp.exe"),
        ("שלום", "????"),
        ("chair 🪑 😀", "chair ? ?"),
        ("e\u0301", "é"),
        ("\ud800 alone", "? alone"),
        ("<script>&amp;", "<script>&amp;"),
        ("½ ⅛ ⅜ ⅝ ⅞ × − “leg”", "½ ⅛ ⅜ ⅝ ⅞ × − “leg”"),
    ],
)
def test_what_cant_be_set_becomes_a_question_mark(dirty: str, expected: str) -> None:
    assert clean(dirty) == expected


@given(st.text(max_size=60))
@settings(max_examples=60, deadline=None)
def test_any_text_is_made_settable_and_stays_so(words: str) -> None:
    settable = clean(words)
    assert clean(settable) == settable
    for bold in (False, True):
        assert set(settable) <= face(bold).widths.keys()


def test_words_that_fit_are_left_alone() -> None:
    assert fit("Top rail", HEIGHT, text_width("Top rail", HEIGHT)) == "Top rail"


def test_words_that_are_too_wide_end_in_an_ellipsis_and_fit() -> None:
    room = text_width("Top rail", HEIGHT) - Fraction(1, 1000)
    short = fit("Top rail", HEIGHT, room)
    assert short == "Top r" + ELLIPSIS
    assert text_width(short, HEIGHT) <= room < text_width("Top ra" + ELLIPSIS, HEIGHT)
    assert fit("Top rail", HEIGHT, Fraction(1, 100)) == ""


def test_wrapping_breaks_at_blanks() -> None:
    room = text_width("left hand leg", HEIGHT)
    assert wrap("left hand leg  and right hand leg", HEIGHT, room) == [
        "left hand leg", "and right", "hand leg",
    ]
    assert wrap("   ", HEIGHT, room) == []


def test_a_word_wider_than_the_line_is_broken() -> None:
    room = text_width("xxxx", HEIGHT)
    assert wrap("x" * 10 + " y", HEIGHT, room) == ["xxxx", "xxxx", "xx y"]
    # even where a single letter is too wide, every line carries one
    assert wrap("abc", HEIGHT, Fraction(0)) == ["a", "b", "c"]


def test_at_most_so_many_lines() -> None:
    room = text_width("left hand leg", HEIGHT)
    lines = wrap_at_most("left hand leg and right hand leg", 2, HEIGHT, room)
    assert lines[0] == "left hand leg"
    assert lines[1].startswith("and right")
    assert lines[1].endswith(ELLIPSIS)
    assert len(lines) == 2


@given(st.text("abc WMil", max_size=80), st.integers(4, 60))
@settings(max_examples=60, deadline=None)
def test_wrapped_lines_lose_no_letter_and_fit(words: str, width: int) -> None:
    lines = wrap(words, HEIGHT, Fraction(width))
    assert "".join(lines).replace(" ", "") == words.replace(" ", "")
    assert all(text_width(line, HEIGHT) <= width for line in lines)
