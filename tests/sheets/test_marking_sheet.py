"""The marking order on paper: every step with its box, figures where they belong, nothing over
anything else.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from layout.builds.frame import SIDES
from layout.measure import other_rule, show
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.lettering import NO_BREAK, text_width, wrap
from layout.scene.strokes import Polygon, Sheet, Text
from layout.sheets.easel import LABEL, NAME
from layout.sheets.lists import TITLE
from layout.sheets.marking_sheet import LEFT, marking_sheets
from layout.sheets.marking_words import PHASE_NOTES, Told, told_steps
from layout.sheets.stick import sticks
from layout.stock.marking import marking
from tests.pieces import frame, piece, rail
from tests.sheets.test_sheets import spots, text_box

ROOT = Path(__file__).parents[2]
BENCH = ROOT / "samples" / "repair_bench.toml"
PIECES = [BENCH]
PIECES += [ROOT / "tests" / "piece_file" / f"every_{name}.toml" for name in ("box", "case")]
# what a page of A4 and one of letter leave to a list, and a wide one
A4, LETTER, WIDE = (Fraction(188), Fraction(259)), (Fraction(194), Fraction(241)), (
    Fraction(275), Fraction(180))
each_piece = pytest.mark.parametrize("path", PIECES, ids=lambda path: path.stem)


@cache
def opened(path: Path) -> Piece:
    return work_out(read_piece(path))


def small() -> Piece:
    return piece(frame(rail(sides=SIDES)))


def texts(sheets: tuple[Sheet, ...]) -> list[Text]:
    return [one for sheet in sheets for one in sheet.scene.strokes if isinstance(one, Text)]


def numbers(sheets: tuple[Sheet, ...]) -> list[Text]:
    """The numbers of the steps, page by page and column by column as they are read."""
    found = []
    for sheet in sheets:
        here = [one for one in texts((sheet,))
                if one.words.isdigit() and one.bold and one.height == LABEL]
        found += sorted(here, key=lambda one: (one.at[0], -one.at[1]))
    return found


@each_piece
def test_every_step_in_its_order_with_a_box(path: Path) -> None:
    p = opened(path)
    area = WIDE if path.stem == "every_box" else LETTER
    sheets = marking_sheets(p, area)
    read = numbers(sheets)
    assert [int(one.words) for one in read] == list(range(1, len(marking(p)) + 1))
    boxes = [one for sheet in sheets for one in sheet.scene.strokes
             if isinstance(one, Polygon) and len(one.points) == 4 and one.fill == ""]
    assert len(boxes) == len(read)
    # a box stands left of its number, at the same height
    feet = {(min(y for _, y in box.points), max(x for x, _ in box.points)) for box in boxes}
    for one in read:
        left, _ = text_box(one)
        assert any(foot == one.at[1] and right < left[0] < right + LEFT for foot, right in feet)


@each_piece
def test_nothing_over_anything_and_all_on_the_page(path: Path) -> None:
    p = opened(path)
    for sheet in marking_sheets(p, A4):
        clear(sheet, A4)
    both = p._replace(choice=p.choice._replace(dual=True))
    for sheet in marking_sheets(both, LETTER):
        clear(sheet, LETTER)


def clear(sheet: Sheet, area: tuple[Fraction, Fraction]) -> None:
    for stroke in sheet.scene.strokes:
        for x, y in spots(stroke):
            assert -1 <= x <= area[0] + 1, (sheet.name, stroke)
            assert -1 <= y <= area[1] + 1, (sheet.name, stroke)
    boxes = sorted(((*text_box(one), one.words) for one in texts((sheet,)) if one.words),
                   key=lambda box: box[0])
    for place, ((_, foot), (right, top), one) in enumerate(boxes):
        for (left, other_foot), (_, other_top), other in boxes[place + 1:]:
            if left >= right:
                break
            assert top <= other_foot or other_top <= foot, (sheet.name, one, other)


def test_the_words_are_those_of_the_terminal() -> None:
    p = small()
    sheets = marking_sheets(p, A4)
    # two columns, each read down; long words are broken into lines, in their order
    read = " ".join(
        one.words for sheet in sheets
        for one in sorted(texts((sheet,)), key=lambda t: (t.at[0] > A4[0] / 2, -t.at[1], t.at[0]))
    )
    for one in told_steps(p, marking(p)):
        for words in (one.title, one.who, one.phase, *one.notes,
                      *PHASE_NOTES.get(one.phase, ())):
            assert words in read, words
    assert {sheet.name for sheet in sheets} == {"Marking order"}


def test_a_gauge_s_stand_is_large_and_bold_at_the_right() -> None:
    """3/8 and 3/4: cheeks and walls at one stand of the mortise gauge, the rail's third."""
    p = small()
    large = [one.words for one in texts(marking_sheets(p, A4))
             if one.bold and one.height == NAME * Fraction(3, 5)]
    # numerators and denominators, in the order of the settings: 3/4 is put down before 3/8
    assert large == ["3", "4", "3", "8", "1", "4", "3", "4"]


def test_figures_of_a_tick_end_under_each_other() -> None:
    p = opened(ROOT / "samples" / "hall_table.toml")
    sheets = marking_sheets(p, A4)
    told = told_steps(p, marking(p))
    tick = next(one for one in told if one.title == "Tick the back side" and len(one.rows) == 4)
    found = [one for one in texts(sheets) if one.words in ("560", "566", "594", "600")
             and one.height == LABEL]
    first = found[:4]
    assert [one.words for one in first] == [row_figure(p, tick, n) for n in range(4)]
    rights = {text_box(one)[1][0] for one in first}
    assert len(rights) == 1
    assert all(a.at[1] > b.at[1] for a, b in pairwise(first))


def row_figure(p: Piece, one: Told, number: int) -> str:
    return show(one.rows[number].figures[0], p.rule).text


def test_both_units_where_the_piece_asks_for_them() -> None:
    choice = small().choice._replace(dual=True)
    p = work_out(choice)
    words = [one.words for one in texts(marking_sheets(p, A4))]
    for one in told_steps(p, marking(p)):
        for figure in one.figures:
            assert show(figure, other_rule(p.rule)).with_unit in words
    assert not any("mm" in one.words for one in texts(marking_sheets(small(), A4)))


def test_a_step_longer_than_a_column_goes_on_in_the_next() -> None:
    p = opened(BENCH)
    low = (Fraction(188), TITLE + 60)
    sheets = marking_sheets(p, low)
    assert [int(one.words) for one in numbers(sheets)] == list(range(1, len(marking(p)) + 1))
    for sheet in sheets:
        clear(sheet, low)


def test_a_count_stays_with_its_name() -> None:
    for path in PIECES:
        for one in texts(marking_sheets(opened(path), A4)):
            assert not one.words.startswith("×"), one.words
            assert not one.words.endswith("×"), one.words
    words = "every part: 2 × side"
    room = text_width("every part: 2 ×", LABEL)
    assert wrap(words, LABEL, room) == ["every part: 2 ×", "side"]
    bound = words.replace(" × ", f"{NO_BREAK}×{NO_BREAK}")
    assert wrap(bound, LABEL, room) == ["every part:", "2 × side"]


def test_sticks_of_stiles_with_horns_say_where_the_ends_are() -> None:
    p = opened(ROOT / "samples" / "wall_cabinet.toml")
    words = "each end is a line 15 from the sawn end (horn)"
    for sheet in sticks(p):
        mine = [one for one in texts((sheet,)) if one.words == words]
        assert bool(mine) == (words in sheet.subject) == ("stile" in sheet.name), sheet.name


def test_nothing_to_mark_no_page() -> None:
    assert marking_sheets(small()._replace(marks=(), cuts=()), A4) == ()
