"""Sticks onto pages."""

from fractions import Fraction
from itertools import pairwise

import pytest

from layout.paper.joins import OVERLAP
from layout.paper.pages import area_on, largest_area
from layout.paper.sizes import Paper, paper_named
from layout.paper.strips import roman
from layout.paper.tiles import lay_out
from layout.scene.crop import bounds
from layout.scene.strokes import Line, Pen, Sheet, Text
from tests.paper.scenes import F, rectangle, sheet, spot

A4 = paper_named("A4")
LETTER = paper_named("letter")


def stick(length: int, name: str = "Stick", lines: tuple[int, ...] = ()) -> Sheet:
    strokes = (
        rectangle(length, 36),
        *(Line(spot(x, 0), spot(x, 36), Pen.WIDE, f"{name} {x}") for x in lines),
    )
    keep = tuple((F(x - 4), F(x + 10)) for x in lines)
    return sheet(length, 36, "strip", name, f"all round; {name}", strokes, keep)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_four_full_lanes_go_on_a_landscape_page(paper: Paper) -> None:
    room = largest_area(paper, True)
    full = [stick(int(room.width), f"S{n}") for n in range(8)]
    pages = lay_out(full, paper, "Bench")
    assert [len(page.windows) for page in pages] == [4, 4]
    for page in pages:
        assert page.width > page.height
        area = area_on(page.width, page.height)
        feet = [window.shift[1] for window in page.windows]
        for upper, lower in pairwise(feet):
            assert upper - lower >= 40  # a strip and its words
        assert feet[-1] >= area.y
        assert feet[0] + 36 <= area.y + area.height


def test_pieces_cover_the_stick_and_are_joined_at_crosses() -> None:
    pages = lay_out([stick(900, "Leg", (40, 250, 480, 700))], A4, "Bench")
    (page,) = pages
    reaches = []
    for window in page.windows:
        assert window.shown is not None
        (low, _), (high, _) = window.shown
        reaches.append((low - window.shift[0], high - window.shift[0]))
    assert reaches[0][0] == 0
    assert reaches[-1][1] == 900
    for (_, high), (low, _) in pairwise(reaches):
        assert high - low == OVERLAP
        join = high - OVERLAP / 2
        assert not any(x - 4 < join < x + 10 for x in (40, 250, 480, 700))
    # every piece but the last starts and ends with the same crosses as its neighbours
    levels = [s for s in page.furniture if isinstance(s, Line) and s.pen is Pen.THIN
              and s.a[1] == s.b[1] and s.b[0] - s.a[0] == OVERLAP]
    crosses = []
    for window in page.windows:
        (dx, dy) = window.shift
        crosses.append({
            ((s.a[0] + s.b[0]) / 2 - dx, s.a[1] - dy)
            for s in levels
            if dy < s.a[1] < dy + 36
        })
    joins = [high - OVERLAP / 2 for _, high in reaches[:-1]]
    for left, right, join in zip(crosses, crosses[1:], joins, strict=False):
        assert {(join, 6), (join, 30)} <= left & right


def test_every_line_of_a_stick_is_there_at_its_place() -> None:
    lines = (40, 250, 480, 700)
    (page,) = lay_out([stick(900, "Leg", lines)], A4, "Bench")
    for x in lines:
        found = {
            line.a[0] - window.shift[0]
            for window in page.windows
            for line in window.strokes
            if isinstance(line, Line) and line.mark == f"Leg {x}"
        }
        assert found == {x}


def test_pieces_say_which_they_are_and_what_joins_them() -> None:
    (page,) = lay_out([stick(600, "Leg"), stick(100, "Cleat")], A4, "Bench")
    said = [s.words for s in page.furniture if isinstance(s, Text)]
    assert {"I-1 of 3", "I-2 of 3", "I-3 of 3", "II"} <= set(said)
    assert sorted(w for w in said if w.startswith("to ")) == [
        "to I-1", "to I-2", "to I-2", "to I-3",
    ]
    assert said.count("Leg") == 3
    assert "Cleat" in said
    # the words over a piece stay over it
    area = area_on(page.width, page.height)
    for text in page.furniture:
        if isinstance(text, Text) and text.at[1] > area.y:
            assert bounds(text)[1][0] <= area.x + area.width


def test_short_pieces_share_a_lane_and_lanes_fill_as_few_pages_as_can_be() -> None:
    # in order these need five lanes, long ones first four: 200+60, 190+70, 180+80, 170+90
    lengths = [60, 70, 80, 90, 170, 180, 190, 200]
    pages = lay_out([stick(n, f"S{n}") for n in lengths], A4, "Bench")
    (page,) = pages
    lanes = {window.shift[1] for window in page.windows}
    assert len(lanes) == 4
    boxes = sorted((w.shift[1], w.shift[0], lengths[w.sheet]) for w in page.windows)
    for (foot, left, length), (next_foot, next_left, _) in pairwise(boxes):
        if foot == next_foot:
            assert left + length + 6 <= next_left


def test_on_a_roll_a_stick_stays_in_one_piece() -> None:
    roll = paper_named("roll 24 in")
    (page,) = lay_out([stick(2400, "Leg"), stick(1800, "Rail")], roll, "Bench")
    assert len(page.windows) == 2
    assert area_on(page.width, page.height).width == 2400


def test_a_strip_higher_than_the_page_is_tiled() -> None:
    tall = sheet(600, 400, "strip")
    pages = lay_out([tall, stick(100)], A4, "Bench")
    assert len(pages) > 4
    assert sum(len(page.windows) for page in pages) == len(pages)


def test_roman_figures() -> None:
    assert [roman(n) for n in (1, 4, 9, 14, 40, 49, 90, 138)] == [
        "I", "IV", "IX", "XIV", "XL", "XLIX", "XC", "CXXXVIII",
    ]


def test_as_few_pages_as_the_length_allows() -> None:
    sticks = [stick(n, f"S{n}") for n in (740, 740, 1018, 300, 95, 660)]
    pages = lay_out(sticks, A4, "Bench")
    room = largest_area(A4, True).width
    least = sum(Fraction(n) for n in (740, 740, 1018, 300, 95, 660)) / room / 4
    assert len(pages) == -(-least // 1)
