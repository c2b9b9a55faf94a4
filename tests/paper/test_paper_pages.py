"""What every page carries round its drawing."""

from fractions import Fraction

import pytest

from layout.paper.bars import THICKNESS, bar_lengths, bars_across, bars_up
from layout.paper.pages import (
    PageWords,
    TileMap,
    area_on,
    drawing_area,
    furniture,
    largest_area,
    page_size,
)
from layout.paper.sizes import paper_named, paper_names
from layout.scene.crop import bounds
from layout.scene.strokes import Line, Polygon, Stroke, Text

F = Fraction
INCH = F(127, 5)
WORDS = PageWords("Hall table", "Gusset", "brace, outside face", "1:1", 3, 12)


def texts(strokes: tuple[Stroke, ...]) -> dict[str, Text]:
    return {stroke.words: stroke for stroke in strokes if isinstance(stroke, Text)}


def test_letter_leaves_room_to_draw() -> None:
    upright = drawing_area(paper_named("letter"), False)
    lying = drawing_area(paper_named("letter"), True)
    assert upright.width >= 186
    assert upright.height >= 232
    assert lying.width >= 250
    assert lying.height >= 170


@pytest.mark.parametrize("name", paper_names())
@pytest.mark.parametrize("landscape", [False, True])
def test_nothing_round_the_drawing_reaches_into_it_or_off_the_page(
    name: str, landscape: bool
) -> None:
    paper = paper_named(name)
    area = drawing_area(paper, landscape)
    width, height = page_size(paper, landscape, (area.width, area.height))
    assert area_on(width, height) == area
    low, high = (area.x, area.y), (area.x + area.width, area.y + area.height)
    tiles = TileMap((((F(0), F(0)), (F(9), F(9))), ((F(9), F(0)), (F(20), F(9)))), 1)
    strokes = furniture(width, height, WORDS, tiles)
    frame, *rest = strokes
    for stroke in rest:
        (x0, y0), (x1, y1) = bounds(stroke)
        assert x1 <= low[0] or y1 <= low[1] or x0 >= high[0] or y0 >= high[1], stroke
        (fx0, fy0), (fx1, fy1) = bounds(frame)
        # letters with accents may rise a little over what is reckoned for the plain ones
        assert fx0 <= x0, stroke
        assert fy0 <= y0, stroke
        assert x1 <= fx1, stroke
        assert y1 <= fy1, stroke
    said = texts(strokes)
    for words in ("Gusset", "3", "of 12", "1:1", "page", "scale"):
        assert words in said
    assert any("at 100 %" in words for words in said)
    assert any(words.startswith("Hall") for words in said)


@pytest.mark.parametrize("name", ["letter", "A4", "tabloid", "roll 36 in"])
def test_the_frame_stands_ten_mm_in(name: str) -> None:
    frame = furniture(F(300), F(400), WORDS)[0]
    assert isinstance(frame, Polygon)
    assert bounds(frame) == ((10, 10), (290, 390))


def test_real_size_is_said_in_bold_and_another_scale_is_not() -> None:
    assert texts(furniture(F(210), F(297), WORDS))["1:1"].bold
    other = PageWords("Hall table", "The whole", "three views", "1:10", 1, 12)
    assert not texts(furniture(F(210), F(297), other))["1:10"].bold


def test_words_too_long_for_the_strip_are_shortened_not_run_over() -> None:
    long = "word " * 200
    words = PageWords(long, long, long, long, 1, 1)
    strokes = furniture(F(210), F(297), words)
    cells = sorted(
        {s.a[0] for s in strokes if isinstance(s, Line) and s.a[0] == s.b[0] and s.a[1] == 10}
    )
    for text in (s for s in strokes if isinstance(s, Text) and s.at[1] < 26 and not s.turn):
        (x0, _), (x1, _) = bounds(text)
        assert not any(x0 < cell < x1 for cell in cells), text.words
        assert x1 < 200


def test_the_bars_are_as_long_as_they_say() -> None:
    across = bars_across((F(20), F(30)), F(170))
    up = bars_up((F(20), F(30)), F(230))
    for strokes, axis in ((across, 0), (up, 1)):
        lines = [s for s in strokes if isinstance(s, Line)]
        long = [s for s in lines if abs(s.b[axis] - s.a[axis]) > 50]
        assert sorted(abs(s.b[axis] - s.a[axis]) for s in long) == [100, 4 * INCH]
        ticks = [s for s in lines if s not in long]
        start = 20 if axis == 0 else 30
        assert sorted({t.a[axis] - start for t in ticks}) == sorted(
            {F(10 * n) for n in range(11)} | {INCH * n for n in range(5)}
        )
        for tick in ticks:
            assert tick.a[axis] == tick.b[axis]
        assert {"100 mm", "4 in"} == set(texts(strokes))
        for stroke in strokes:
            low, high = bounds(stroke)
            assert (30 if axis == 0 else 20) <= low[1 - axis]
            assert high[1 - axis] <= (30 if axis == 0 else 20) + THICKNESS


def test_short_paper_has_shorter_bars_that_say_so() -> None:
    assert bar_lengths(F(170)) == (100, 4)
    assert bar_lengths(F(70)) == (50, 2)
    strokes = bars_across((F(0), F(0)), F(70))
    assert set(texts(strokes)) == {"50 mm", "2 in"}
    assert max(s.b[0] for s in strokes if isinstance(s, Line)) == 2 * INCH
    assert max(bounds(stroke)[1][0] for stroke in strokes) <= 70
    assert bars_across((F(0), F(0)), F(5)) == ()


def test_the_map_shows_all_pages_and_fills_this_one() -> None:
    tiles = TileMap(
        (((F(0), F(0)), (F(100), F(80))), ((F(100), F(0)), (F(150), F(80)))), 1
    )
    plain = furniture(F(210), F(297), WORDS)
    boxes = [
        s for s in furniture(F(210), F(297), WORDS, tiles)
        if isinstance(s, Polygon) and s not in plain
    ]
    assert [box.fill for box in boxes] == ["", "black"]
    (a, b), (c, d) = bounds(boxes[0]), bounds(boxes[1])
    # to scale, side by side
    assert (b[0] - a[0]) / (d[0] - c[0]) == 2
    assert b[0] == c[0]
    assert b[1] - a[1] == d[1] - c[1] == (b[0] - a[0]) * F(80, 100)


def test_a_page_off_a_roll_is_cut_to_its_drawing() -> None:
    roll = paper_named("roll 24 in")
    across, length = page_size(roll, False, (F(500), F(1500)))
    assert across == 24 * INCH
    assert area_on(across, length).height == 1500
    length, across = page_size(roll, True, (F(1500), F(500)))
    assert across == 24 * INCH
    assert area_on(length, across).width == 1500
    assert page_size(roll, False, (F(500), F(99999)))[1] == roll.limit
    assert page_size(roll, False, (F(50), F(10)))[1] == 180
    assert largest_area(roll, False).height > drawing_area(roll, False).height
