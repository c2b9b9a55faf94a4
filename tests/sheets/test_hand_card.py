"""Cards for the bevel and the dividers, and the view of a line gauged from an end."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.mark import Mark
from layout.measure import Rule, show
from layout.part import Part, Placement
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.strokes import Line, Pen, Text
from layout.sheets import end_view
from layout.sheets.card import CARD_SIZES, cards
from layout.sheets.easel import Easel
from layout.sheets.hand_card import hand_cards

ZERO = Fraction(0)
INCH = Fraction(127, 5)
BOXES = """
piece = "Boxes"
unit = "in"
[[chest]]
name = "one"
length = 20
depth = 10
height = 7
thickness = "3/4"
dovetails = { slope = "1:6", tails = 3, pin = "1/4", half_pin = "3/8" }
[[chest]]
name = "two"
length = 20
depth = 10
height = 7
thickness = "3/4"
dovetails = { slope = "8 deg", tails = 4, graduated = "7/8" }
"""


@pytest.fixture(scope="module")
def boxes(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    path = tmp_path_factory.mktemp("boxes") / "boxes.toml"
    path.write_text(BOXES, encoding="utf-8")
    return work_out(read_piece(path))


def words(strokes: list[object]) -> list[str]:
    return [stroke.words for stroke in strokes if isinstance(stroke, Text)]


@pytest.mark.parametrize("size", CARD_SIZES.values(), ids=lambda size: size.name)
def test_every_slope_and_every_step_has_a_card(boxes: Piece, size) -> None:  # type: ignore[no-untyped-def]
    bevel, other, dividers = (words(card) for card in hand_cards(boxes, size, stop=False))
    assert "1 in 6" in bevel
    assert "9.46 degrees" in bevel
    assert "8 degrees" in other
    # 7 = 2 x 3/8 + 2 x 1/4 + 3 tails of 1 11/12; a tail and a pin: 2 1/6, 2 5/32 full
    step = show(INCH * Fraction(13, 6), boxes.rule)
    assert (step.figure, step.nuance) == ("2 5/32", "full")
    assert {"Dividers", "2", "5", "32", "full"} <= set(dividers)
    # graduated tails have no one step: no card for the second box
    assert not any("two" in word for word in dividers)
    assert "2 steps" in " ".join(dividers)


def test_cards_say_stop_on_every_card(boxes: Piece) -> None:
    for card in hand_cards(boxes, CARD_SIZES["index"], stop=True):
        assert "STOP: see the checks" in words(card)


def test_they_follow_the_gauge_settings(boxes: Piece) -> None:
    pages = cards(boxes, CARD_SIZES["index"], (Fraction(190), Fraction(240)))
    told = [stroke.words for page in pages for stroke in page.scene.strokes
            if isinstance(stroke, Text)]
    last = max(index for index, word in enumerate(told) if word.startswith("Setting "))
    assert told.index("Bevel") > last
    assert told.index("Dividers") > told.index("Bevel")


def test_the_bevel_on_a_card_leans_as_the_slope_does(boxes: Piece) -> None:
    for card, run in zip(hand_cards(boxes, CARD_SIZES["A6"], stop=False), (6, None), strict=False):
        leaning = [s for s in card if isinstance(s, Line) and s.pen is Pen.WIDE]
        assert len(leaning) == 1
        rise = leaning[0].b[1] - leaning[0].a[1]
        if run is not None:
            assert (leaning[0].b[0] - leaning[0].a[0]) * run == rise


def test_an_end_view_puts_the_line_as_far_from_the_end_as_the_gauge_stands() -> None:
    place = Placement((ZERO, ZERO, ZERO), "+X", "+Y", "+Z")
    part = Part("side", "side", "side", Fraction(400), Fraction(90), Fraction(12), place)
    line = ((Fraction(16), ZERO), (Fraction(16), Fraction(90)))
    mark = Mark("side", "box.A", "face", "marking gauge", "tail baseline", "end A", Fraction(16),
                line)
    board = Easel(Rule("mm", Fraction(1, 2)))
    end_view.draw(board, part, mark, (Fraction(40), Fraction(60)), (Fraction(40), Fraction(30)))
    upright = sorted(
        s.a[0] for s in board.strokes
        if isinstance(s, Line) and s.pen is Pen.WIDE and s.a[0] == s.b[0]
    )
    assert upright == [Fraction(40), Fraction(56)]  # 16 mm apart at full size
    # the board is wider than there is room: broken off above
    level = [s for s in board.strokes if isinstance(s, Line) and s.a[1] == s.b[1] == Fraction(60)]
    assert [s.pen for s in level] == [Pen.HIDDEN]
