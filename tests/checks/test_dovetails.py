"""Findings on dovetails: at every limit, just inside and just outside; level, figures, cure.

The chest of test_chest: sides 100 high, tails 14 long in ends 14 thick at 1 in 7, so a side slopes
2; pin 6, half pins 8 and 10, two tails of 39 and 35. The narrowest chisel is 4 mm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import dovetails as checked
from layout.mark import Finding
from layout.measure.slope import Slope
from layout.piece import Piece
from tests.builds.test_chest import base, chest
from tests.builds.test_drawer import boxes, drawer
from tests.joints.test_spacing import dovetails

F = Fraction
Told = tuple[str, tuple[tuple[str, Fraction], ...], str]


def one_chest(high: int | Fraction = 100, *, kind: str = "", deep: int = 6,
              **changes: object) -> Piece:
    """A chest whose dovetails are changed so."""
    bottom = base(kind, deep=F(deep)) if kind else None
    return boxes(chests=(chest(height=F(high), bottom=bottom, joint=dovetails(**changes)),))


def found(p: Piece, rule: str) -> list[Finding]:
    return [one for one in checked.findings(p) if one.rule == rule]


def told(p: Piece, rule: str) -> list[Told]:
    """Level, figures and cure of every finding of a rule."""
    return [(one.level, one.figures, one.cure) for one in found(p, rule)]


def test_common_dovetails_are_told_nothing_but_which_board_is_first() -> None:
    p = one_chest()
    assert [(one.rule, one.level) for one in checked.findings(p)] == [(checked.FIRST, "note")]


def test_corners_alike_are_told_once_with_all_their_boards() -> None:
    (one,) = found(one_chest(slope=Slope(F(5))), checked.SLOPE)
    assert one.parts == ("chest-front", "chest-left-end", "chest-right-end", "chest-back")
    assert one.text.startswith("chest, corners A, B, C and D: ")


def test_front_and_back_of_a_drawer_are_told_apart() -> None:
    steep = dovetails(slope=Slope(F(5)))
    p = boxes(drawers=(drawer(front_joint=steep._replace(lap=F(6)), back_joint=steep),))
    assert [one.text.split(": ")[0] for one in found(p, checked.SLOPE)] == [
        "drawer, corners A and B", "drawer, corners C and D",
    ]


# -- pins


@pytest.mark.parametrize(
    ("pin", "half", "least"), [("0.79", 8, "0.79"), (6, "0.79", "0.79"), ("0.5", "0.7", "0.5")]
)
def test_no_pin_is_narrower_than_a_saw_cut(pin: str, half: str, least: str) -> None:
    assert told(one_chest(pin=F(pin), half_pin=F(half)), checked.PINS) == [
        ("stop", (("pin", F(least)), ("saw cut", F(4, 5))),
         "make pins and half pins at least 1 mm bare"),
    ]


def test_a_pin_as_wide_as_a_saw_cut_can_be_cut() -> None:
    (one,) = found(one_chest(pin=F(4, 5), half_pin=F(4, 5)), checked.PINS)
    assert one.level == "caution"


@pytest.mark.parametrize(
    ("pin", "words"),
    [("3.9", "fits at the baseline only"), (1, "fits at the baseline only"),
     ("0.8", "fits at the baseline only")],
)
def test_a_pin_narrower_than_every_chisel_is_a_caution(pin: str, words: str) -> None:
    p = one_chest(pin=F(pin))
    # 4 wider at the baseline
    (one,) = found(p, checked.PINS)
    assert one.figures == (("pin at the end", F(pin)), ("pin at the baseline", F(pin) + 4),
                           ("chisel", 4))
    assert (one.level, one.cure) == (
        "caution", "make the pin 4 mm, or list a narrower chisel in the kit",
    )
    assert words in one.text


def test_a_chisel_wider_than_the_baseline_fits_nowhere() -> None:
    p = one_chest(pin=F(1), slope=Slope(F(28)))  # 14 / 28 = 1/2: 1 + 1 = 2
    (one,) = found(p, checked.PINS)
    assert "fits nowhere between them" in one.text


def test_one_tail_has_no_pin_for_a_chisel() -> None:
    assert found(one_chest(pin=F(3), tails=1, half_pin=F(8)), checked.PINS) == []
    assert found(one_chest(pin=F(4)), checked.PINS) == []


@pytest.mark.parametrize(("half", "expected"), [
    ("2.9", [("caution", (("half pin", F("2.9")), ("half of a pin", 3)),
              "make half pins at least 3 mm; half pins left open are as wide at the baseline as a "
              "whole pin")]),
    ("3", []),
])
def test_a_half_pin_keeps_half_a_pin(half: str, expected: list[Told]) -> None:
    assert told(one_chest(half_pin=F(half)), checked.HALF) == expected


# -- slope


@pytest.mark.parametrize(
    ("run", "level", "cure"),
    [
        ("3.9", "caution", "take 1 in 6 to 1 in 8"),
        ("4", "note", ""),
        ("5.9", "note", ""),
        ("6", None, None),
        ("8", None, None),
        ("8.1", "caution", "take 1 in 6 to 1 in 8"),
    ],
)
def test_slopes_in_use_are_told_nothing(run: str, level: str | None, cure: str | None) -> None:
    expected = [] if level is None else [(level, (("run", F(run)),), cure)]
    assert told(one_chest(slope=Slope(F(run))), checked.SLOPE) == expected


def test_an_angle_is_said_to_be_rounded() -> None:
    (one,) = found(one_chest(slope=Slope(F(7), rounded=True)), checked.SLOPE)
    assert one.level == "note"
    assert "twelve decimals" in one.text


# -- tails against pins


@pytest.mark.parametrize(("high", "expected"), [
    (112, []),  # half pins 8, pin 6: tails 45
    ("112.2", [("note", (("tail", F("45.1")), ("usual at most", 45)), "")]),
])
def test_a_tail_wider_than_usual_is_noted(high: str, expected: list[Told]) -> None:
    # a pin wide enough, so that four pins are more than the tail: 20, and half pins 8
    p = one_chest(F(high) + 14, tails=2, pin=F(20), half_pin=F(8))
    assert told(p, checked.TAILS) == expected


@pytest.mark.parametrize(("high", "expected"), [
    (110, []),  # 22 for pins, tails 44; 40 at the baseline are four times 10
    ("110.2", [("note", (("tail at the baseline", F("40.1")), ("pin at the baseline", 10)), "")]),
])
def test_a_tail_of_more_than_four_pins_is_noted(high: str, expected: list[Told]) -> None:
    assert told(one_chest(F(high), tails=2), checked.TAILS) == expected


@pytest.mark.parametrize(("high", "expected"), [
    (40, []),  # tails 9 and 5: half of a pin
    (39, [("caution", (("tail at the baseline", F("4.5")), ("pin at the baseline", 10)),
           "use fewer tails, or narrower pins")]),
])
def test_a_tail_less_than_half_a_pin_at_its_baseline_is_weak(
    high: int, expected: list[Told]
) -> None:
    assert told(one_chest(high, tails=2), checked.TAILS) == expected


def test_one_tail_is_held_against_no_pin() -> None:
    assert told(one_chest(61, tails=1), checked.TAILS) == []


# -- lap


@pytest.mark.parametrize(("lap", "expected"), [
    ("2.4", [("caution", (("lap", F("2.4")), ("least", F("2.5"))), "make the lap more")]),
    ("2.5", []),
    # tails 6 in ends 14 thick: half of the front's 12
    ("8", []),
    ("8.1", [("caution", (("tail length", F("5.9")), ("thickness", 12)),
              "make the lap less, or the pin board thicker")]),
    (None, []),
])
def test_laps_neither_thin_nor_thick(lap: str | None, expected: list[Told]) -> None:
    assert told(one_chest(lap=None if lap is None else F(lap)), checked.LAP) == expected


# -- rabbets: the bottom is 10 thick


@pytest.mark.parametrize(("changes", "half", "cure"), [
    ({"half_pin": F("9.9")}, F("9.9"), "make the half pin at least 10 mm, or leave half_pin out"),
    ({"edges": "half tails"}, 0, "leave half pins at the edges"),
])
def test_a_rabbet_lies_in_a_half_pin(
    changes: dict[str, object], half: Fraction, cure: str
) -> None:
    assert told(one_chest(kind="rabbet", **changes), checked.RABBET) == [
        ("stop", (("rabbet", 10), ("half pin", half)), cure),
    ]


def test_a_half_pin_as_wide_as_the_rabbet_will_do() -> None:
    assert told(one_chest(kind="rabbet", half_pin=F(10)), checked.RABBET) == []
    assert told(one_chest(kind="rabbet"), checked.RABBET) == []


@pytest.mark.parametrize(("deep", "lap", "left"), [
    (12, None, 12),  # all of the front
    (11, None, None),
    (10, 4, 10),  # all of the tails
    (9, 4, None),
])
def test_a_rabbet_leaves_wood(deep: int, lap: int | None, left: int | None) -> None:
    p = one_chest(kind="rabbet", deep=deep, lap=None if lap is None else F(lap))
    expected = [] if left is None else [
        ("stop", (("rabbet", deep), ("wood", left)), "make it shallower"),
    ]
    assert told(p, checked.RABBET) == expected


# -- which board first


def test_which_board_is_cut_first_lends_its_outline() -> None:
    (tails,) = found(one_chest(), checked.FIRST)
    assert (tails.level, tails.parts) == ("note", ("chest-front", "chest-back"))
    assert tails.text.startswith("cut the tails first (chest long side)")
    assert "mark the pins from it" in tails.text
    (pins,) = found(one_chest(first="pins"), checked.FIRST)
    assert pins.parts == ("chest-left-end", "chest-right-end")
    assert "mark the tails from it" in pins.text
