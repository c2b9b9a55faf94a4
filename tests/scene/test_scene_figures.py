"""Stacked figures: what they say, how high they stand, and that their parts don't touch."""

from fractions import Fraction

import pytest

from layout.measure import Rule, read_length, read_rule, show
from layout.scene.crop import bounds
from layout.scene.figures import Plain, drop, figure, figure_width, nuance_height
from layout.scene.lettering import text_width
from layout.scene.strokes import Polygon, Stroke, Text

ORIGIN = (Fraction(0), Fraction(0))
THIRTY_SECONDS: Rule = read_rule("1/32", "in")
HEIGHTS = [Fraction(7, 2), Fraction(5), Fraction(14)]


def words(strokes: tuple[Stroke, ...]) -> list[str]:
    return [stroke.words for stroke in strokes if isinstance(stroke, Text)]


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("2 13/32", ["2", "13", "32"]),
        ("5/8", ["5", "8"]),
        ("12", ["12"]),
        ("0", ["0"]),
        ("2.41", ["2", "13", "32", "full"]),  # 2.41 in is 0.004 in more than 2 13/32
        ("2.40", ["2", "13", "32", "bare"]),
    ],
)
def test_inch_figures_say_what_they_show(written: str, told: list[str]) -> None:
    shown = show(read_length(written, "in"), THIRTY_SECONDS)
    strokes, _ = figure(shown, ORIGIN, Fraction(5))
    assert words(strokes) == told
    assert sum(isinstance(s, Polygon) for s in strokes) == (1 if "/" in shown.figure else 0)


def test_metric_and_negative_figures() -> None:
    half = show(Fraction(87, 2), read_rule("0.5", "mm"))
    assert words(figure(half, ORIGIN, Fraction(5))[0]) == ["43.5"]
    assert words(figure(Plain(0, 1, 8, sign=-1), ORIGIN, Fraction(5))[0]) == ["−", "1", "8"]
    assert words(figure(Plain(3, sign=-1), ORIGIN, Fraction(5))[0]) == ["−3"]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("height", HEIGHTS)
def test_numerator_bar_and_denominator_are_stacked_with_air(height: Fraction, bold: bool) -> None:
    strokes, width = figure(Plain(2, 13, 32), ORIGIN, height, "left", bold)
    whole, over, bar, under = strokes
    assert isinstance(over, Text)
    assert isinstance(under, Text)
    assert isinstance(bar, Polygon)
    assert over.height == under.height == height * 6 / 10
    (left, low), (right, high) = bounds(bar)
    assert over.at[1] > high
    assert under.at[1] + under.height < low
    assert over.at[1] - high == low - (under.at[1] + under.height) > height / 20
    # the bar is level, centred on the digits' height, and wider than both numbers
    assert (low + high) / 2 == height / 2
    for number in (over, under):
        assert number.at[0] == (left + right) / 2
        assert text_width(number.words, number.height, bold) < right - left
    # and clear of the whole number
    assert bounds(whole)[1][0] < left
    assert right == width
    assert under.at[1] == -drop(height)


@pytest.mark.parametrize("height", HEIGHTS)
def test_what_is_drawn_is_as_wide_as_what_is_told(height: Fraction) -> None:
    for shown in (Plain(12), Plain(2, 13, 32), Plain(0, 5, 8), Plain(7, 1, 32, nuance="bare")):
        strokes, width = figure(shown, ORIGIN, height)
        assert width == figure_width(shown, height)
        assert max(bounds(stroke)[1][0] for stroke in strokes) == width


def test_alignment_moves_the_whole_figure() -> None:
    shown = Plain(2, 13, 32, nuance="full")
    width = figure_width(shown, Fraction(5))
    left = figure(shown, (-width, Fraction(0)), Fraction(5))[0]
    assert figure(shown, ORIGIN, Fraction(5), "right")[0] == left
    middle = figure(shown, (-width / 2, Fraction(0)), Fraction(5))[0]
    assert figure(shown, ORIGIN, Fraction(5), "middle")[0] == middle


def test_full_and_bare_are_small_but_not_below_a_note() -> None:
    assert nuance_height(Fraction(7, 2)) == Fraction(5, 2)
    assert nuance_height(Fraction(14)) == Fraction(49, 10)
    assert nuance_height(Fraction(2)) == 2
