"""Sheets onto pages: everything is there, nothing twice in the wrong place, no page is empty."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadRequest
from layout.paper.bodies import has_ink
from layout.paper.drawing import PageDrawing, Window
from layout.paper.joins import OVERLAP
from layout.paper.pages import area_on, drawing_area
from layout.paper.sizes import paper_named
from layout.paper.tiles import lay_out
from layout.scene.crop import bounds, crop, crop_points
from layout.scene.figures import Plain, figure
from layout.scene.strokes import Circle, Line, Pen, Polygon, Scene, Sheet, Spot, Stroke, Text
from tests.paper.scenes import F, busy, pdf_bytes, rectangle, sheet, spot, unplaced

A4 = paper_named("A4")
LETTER = paper_named("letter")
A6 = paper_named("A6")
INDEX = paper_named("index 3x5")


def words(page: PageDrawing) -> list[str]:
    return [stroke.words for stroke in page.strokes if isinstance(stroke, Text)]


def windows(pages: tuple[PageDrawing, ...]) -> list[Window]:
    return [window for page in pages for window in page.windows]


def shown(window: Window) -> tuple[Spot, Spot]:
    """A window's rectangle in the drawing's own mm."""
    assert window.shown is not None
    (low, high), (dx, dy) = window.shown, window.shift
    return ((low[0] - dx, low[1] - dy), (high[0] - dx, high[1] - dy))


# --- one page ----------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("landscape", [False, True])
def test_a_sheet_composed_to_the_area_fills_one_page(paper, landscape: bool) -> None:  # type: ignore[no-untyped-def]
    area = drawing_area(paper, landscape)
    drawn = Sheet("Sums", "all", Scene(area.width, area.height,
                  (rectangle(str(area.width), str(area.height)),)), "page")
    (page,) = lay_out([drawn], paper, "Bench")
    assert (page.width > page.height) == landscape
    (window,) = page.windows
    assert window.shift == (area.x, area.y)
    assert window.clip is None


def test_a_small_page_sheet_stands_at_the_top_in_the_middle() -> None:
    (page,) = lay_out([sheet(100, 50, "page")], A4, "Bench")
    area = area_on(page.width, page.height)
    assert page.width > page.height  # wider than high, so the page lies
    assert page.windows[0].shift == (
        area.x + (area.width - 100) / 2, area.y + area.height - 50
    )


def test_a_page_sheet_that_is_too_large_is_refused_with_both_sizes() -> None:
    with pytest.raises(BadRequest, match="'Gusset' is 300 x 200 mm, and A4 has room for 268 x 165"):
        lay_out([sheet(300, 200, "page")], A4, "Bench")


def test_pages_are_numbered_through_and_say_whose_they_are() -> None:
    pages = lay_out([sheet(100, 50, "page", f"S{n}") for n in range(3)], A4, "Hall table")
    for number, page in enumerate(pages, start=1):
        said = words(page)
        assert "Hall table" in said
        assert f"S{number - 1}" in said
        assert str(number) in said
        assert "of 3" in said


def test_a_sheet_without_ink_gives_no_page() -> None:
    blank = sheet(50, 50, strokes=(
        Text(spot(1, 1), "  "), Polygon((spot(0, 0), spot(9, 0), spot(9, 9)), None, "white"),
    ))
    assert lay_out([blank], A4, "Bench") == ()
    assert len(lay_out([blank, sheet(50, 50)], A4, "Bench")) == 1


# --- several full-size drawings on a page --------------------------------------------------------


def test_small_full_size_sheets_share_a_page_in_order() -> None:
    small = [sheet(80, 40, name=f"S{n}", subject=f"of part {n}") for n in range(4)]
    (page,) = lay_out(small, A4, "Bench")
    assert [window.sheet for window in page.windows] == [0, 1, 2, 3]
    for window in page.windows:
        assert {f"S{window.sheet}", f"of part {window.sheet}"} <= set(words(page))
    boxes = [bounds(window.strokes[0]) for window in page.windows]
    for i, (low, high) in enumerate(boxes):
        for other_low, other_high in boxes[i + 1 :]:
            apart = max(other_low[k] - high[k] for k in (0, 1)), max(
                low[k] - other_high[k] for k in (0, 1)
            )
            assert max(apart) >= 6


def test_headings_touch_no_drawing() -> None:
    drawn = [busy(80, 60, name=f"Drawing number {n} with a long name") for n in range(5)]
    for page in lay_out(drawn, LETTER, "Bench"):
        boxes = [
            ((w.shift[0], w.shift[1]), (w.shift[0] + 80, w.shift[1] + 60)) for w in page.windows
        ]
        headings = [s for s in page.furniture if isinstance(s, Text) and s.at[1] > 40]
        for heading in headings:
            low, high = bounds(heading)
            assert not any(
                low[0] < b[0] and a[0] < high[0] and low[1] < b[1] and a[1] < high[1]
                for a, b in boxes
            ), heading.words


def test_a_drawing_as_large_as_the_area_goes_without_a_heading() -> None:
    area = drawing_area(A4, False)
    pages = lay_out(
        [sheet(str(area.width), str(area.height)), sheet(20, 20, name="Little")], A4, "Bench"
    )
    assert len(pages) == 2
    assert pages[0].windows[0].clip is None
    assert pages[0].windows[0].shift[1] == area.y
    assert words(pages[0]).count("Gusset") == 1  # in the strip alone
    assert words(pages[1]).count("Little") == 2


def test_the_order_of_ways_is_kept_and_strips_are_gathered() -> None:
    pages = lay_out(
        [
            sheet(100, 100, "page", "P1"),
            sheet(200, 36, "strip", "T1"),
            sheet(100, 100, "page", "P2"),
            sheet(200, 36, "strip", "T2"),
            sheet(60, 40, "full size", "F1"),
        ],
        A4,
        "Bench",
    )
    assert [page.title for page in pages] == ["P1", "T1; T2", "P2", "F1"]
    assert [sorted({w.sheet for w in page.windows}) for page in pages] == [[0], [1, 3], [2], [4]]


# --- tiles ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_tiles_lie_inside_the_area_and_name_their_neighbours(paper) -> None:  # type: ignore[no-untyped-def]
    pages = lay_out([busy(520, 410)], paper, "Bench")
    where = {shown(page.windows[0]): number for number, page in enumerate(pages, start=1)}
    columns = sorted({low[0] for low, _ in where})
    rows = sorted({low[1] for low, _ in where}, reverse=True)
    assert len(pages) == len(columns) * len(rows) > 4
    grid = {
        (columns.index(low[0]), rows.index(low[1])): number for (low, _), number in where.items()
    }
    for (i, j), number in grid.items():
        page = pages[number - 1]
        area = area_on(page.width, page.height)
        window = page.windows[0].shown
        assert window is not None
        assert area.x <= window[0][0]
        assert window[1][0] <= area.x + area.width
        assert area.y <= window[0][1]
        assert window[1][1] <= area.y + area.height
        expected = {
            f"page {grid[k]}"
            for k in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1))
            if k in grid
        }
        assert {w for w in words(page) if w.startswith("page ")} == expected
        # each number stands beyond its side of the window
        for text in page.furniture:
            if isinstance(text, Text) and text.words.startswith("page "):
                low, high = bounds(text)
                assert (
                    high[0] <= window[0][0] or low[0] >= window[1][0]
                    or high[1] <= window[0][1] or low[1] >= window[1][1]
                )
        assert "1:1" in words(page)


def test_neighbours_have_their_crosses_at_the_same_place_of_the_drawing() -> None:
    pages = lay_out([sheet(300, 100)], A4, "Bench")
    assert len(pages) == 2
    crosses = []
    for page in pages:
        (dx, dy) = page.windows[0].shift
        centres = set()
        for s in page.furniture:
            if isinstance(s, Line) and s.pen is Pen.THIN and s.a[1] == s.b[1] == s.a[1]:
                middle = ((s.a[0] + s.b[0]) / 2 - dx, s.a[1] - dy)
                if s.b[0] - s.a[0] == OVERLAP and 0 < middle[0] < 300 and 0 < middle[1] < 100:
                    centres.add(middle)
        crosses.append(centres)
    assert crosses[0] == crosses[1] == {(150, F(100, 6)), (150, F(500, 6))}


def test_joins_stay_off_what_is_kept_whole() -> None:
    spans = tuple((F(x), F(x + 14)) for x in range(143, 900, 150))
    pages = lay_out([sheet(900, 100, keep_whole=spans)], A4, "Bench")
    rectangles = sorted(shown(window) for window in windows(pages))
    for (_, high), (low, _) in pairwise(rectangles):
        assert high[0] - low[0] == OVERLAP
        join = (high[0] + low[0]) / 2
        assert not any(a < join < b for a, b in spans)


def test_a_tile_with_nothing_on_it_is_left_out() -> None:
    far = sheet(700, 600, strokes=(
        Line(spot(5, 5), spot(30, 5)), Line(spot(690, 590), spot(690, 560)),
        Circle(spot(30, 570), F(20)),
    ))
    pages = lay_out([far], A4, "Bench")
    assert len(pages) == 3
    assert all(has_ink(page.windows[0].strokes) for page in pages)


def test_words_stand_whole_on_one_page() -> None:
    # a word right over where the join would be
    drawn = sheet(300, 100, strokes=(rectangle(300, 100), Text(spot(135, 50), "shoulder", F(5))))
    pages = lay_out([drawn], A4, "Bench")
    having = [page for page in pages if "shoulder" in words(page)]
    assert len(pages) == 2
    assert len(having) == 1
    (text,) = (s for s in having[0].windows[0].strokes if isinstance(s, Text))
    low, high = bounds(text)
    window = having[0].windows[0].shown
    assert window is not None
    assert window[0][0] <= low[0]
    assert high[0] <= window[1][0]


def test_no_crumb_of_a_figure_shows_on_the_page_that_has_it_not() -> None:
    for x in range(140, 162):
        drawn = sheet(300, 100, strokes=(
            rectangle(300, 100), *figure(Plain(121, 13, 32), spot(x, 50), F(5))[0],
        ))
        pages = lay_out([drawn], A4, "Bench")
        parts = [sum(isinstance(s, (Text, Polygon)) for s in w.strokes) for w in windows(pages)]
        # three numbers and a bar, each once
        assert sum(parts) == 4
        assert len(pages) == 2


def test_words_wider_than_any_page_go_over_several() -> None:
    long = Text(spot(10, 50), "word " * 120, F(7, 2))
    pages = lay_out([sheet(900, 100, strokes=(rectangle(900, 100), long))], A4, "Bench")
    assert all(any(w.startswith("word word") for w in words(page)) for page in pages)


def test_the_same_sheets_give_the_same_pages() -> None:
    sheets = [busy(520, 410), busy(90, 60), sheet(700, 36, "strip"), busy(100, 100, "page")]
    assert lay_out(sheets, A4, "Bench") == lay_out(list(sheets), A4, "Bench")


# --- everything is there -------------------------------------------------------------------------


def covered(line: Line, parts: list[Line]) -> bool:
    """True where the parts lie exactly on the line and leave no gap of it."""
    axis = 0 if line.a[0] != line.b[0] else 1
    spans = []
    for part in parts:
        for end in (part.a, part.b):
            across = (end[0] - line.a[0]) * (line.b[1] - line.a[1]) - (end[1] - line.a[1]) * (
                line.b[0] - line.a[0]
            )
            if across != 0:
                return False
        ends = [
            (end[axis] - line.a[axis]) / (line.b[axis] - line.a[axis]) for end in (part.a, part.b)
        ]
        spans.append(sorted(ends))
    reach = F(0)
    for low, high in sorted(spans):
        if low > reach:
            return False
        reach = max(reach, high)
    return reach == 1 and min(low for low, _ in spans) == 0


coordinates = st.tuples(st.integers(0, 4 * 130), st.integers(0, 4 * 110)).map(
    lambda spot: (F(spot[0], 4), F(spot[1], 4))
)


@given(
    st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=6),
    st.lists(coordinates, min_size=3, max_size=3, unique=True),
)
@settings(max_examples=25, deadline=None)
def test_the_tiles_put_together_are_the_drawing(
    ends: list[tuple[Spot, Spot]], corners: list[Spot]
) -> None:
    lines = [Line(a, b, Pen.WIDE, f"line {n}") for n, (a, b) in enumerate(ends) if a != b]
    triangle = Polygon(tuple(corners), Pen.NARROW, "white", "triangle")
    edges = [
        Line(a, b, Pen.NARROW, "triangle")
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    drawing = Sheet("S", "s", Scene(F(130), F(110), (*lines, triangle)), "full size")
    found = windows(lay_out([drawing], INDEX, "Bench"))

    drawn: list[tuple[tuple[Spot, Spot], list[Stroke]]] = [
        (shown(window), unplaced(window)) for window in found
    ]
    # every line is there from end to end
    for line in lines:
        parts = [
            stroke for _, strokes in drawn for stroke in strokes
            if isinstance(stroke, Line) and stroke.mark == line.mark
        ]
        assert covered(line, parts)
    # so is the outline of the triangle, and its fill
    for edge in edges:
        parts = [
            part for _, strokes in drawn for stroke in strokes if stroke.mark == "triangle"  # type: ignore[union-attr]
            for part in outline(stroke) if on(edge, part)
        ]
        assert covered(edge, parts)
    # where two tiles overlap they show the same
    for n, (one, strokes) in enumerate(drawn):
        for other, others in drawn[n + 1 :]:
            low = (max(one[0][0], other[0][0]), max(one[0][1], other[0][1]))
            high = (min(one[1][0], other[1][0]), min(one[1][1], other[1][1]))
            if low[0] < high[0] and low[1] < high[1]:
                assert seen(strokes, low, high) == seen(others, low, high)


def outline(stroke: Stroke) -> list[Line]:
    if isinstance(stroke, Line):
        return [stroke]
    assert isinstance(stroke, Polygon)
    if stroke.pen is None:
        return []
    ends = (*stroke.points[1:], stroke.points[0])
    return [Line(a, b, stroke.pen, stroke.mark) for a, b in zip(stroke.points, ends, strict=True)]


def on(line: Line, part: Line) -> bool:
    """True where both ends of a part lie on the line's own stretch."""
    return all(
        (end[0] - line.a[0]) * (line.b[1] - line.a[1])
        == (end[1] - line.a[1]) * (line.b[0] - line.a[0])
        and min(line.a[0], line.b[0]) <= end[0] <= max(line.a[0], line.b[0])
        and min(line.a[1], line.b[1]) <= end[1] <= max(line.a[1], line.b[1])
        for end in (part.a, part.b)
    )


def seen(strokes: list[Stroke], low: Spot, high: Spot) -> tuple[set[object], Fraction]:
    """The lines inside a rectangle, and the area that is filled."""
    found: set[object] = set()
    filled = F(0)
    for stroke in strokes:
        for line in outline(stroke):
            for part in crop([line], low, high):
                assert isinstance(part, Line)
                found.add((*sorted((part.a, part.b)), part.mark))
        if isinstance(stroke, Polygon) and stroke.fill:
            filled += area(crop_points(stroke.points, low, high))
    return found, filled


def area(points: tuple[Spot, ...]) -> Fraction:
    pairs = zip(points, (*points[1:], *points[:1]), strict=True)
    return abs(sum((a[0] * b[1] - b[0] * a[1] for a, b in pairs), F(0))) / 2


def test_the_fill_of_a_cut_polygon_is_all_there() -> None:
    corners = (spot(3, 5), spot(125, 30), spot(60, 105))
    drawing = sheet(130, 110, strokes=(Polygon(corners, None, "black"),))
    cores = F(0)
    found = windows(lay_out([drawing], INDEX, "Bench"))
    assert len(found) > 3
    lows = sorted({shown(w)[0][0] for w in found})
    highs = sorted({shown(w)[1][0] for w in found})
    xs = [F(0), *((a + b) / 2 for a, b in zip(highs, lows[1:], strict=False)), F(130)]
    lows = sorted({shown(w)[0][1] for w in found})
    highs = sorted({shown(w)[1][1] for w in found})
    ys = [F(0), *((a + b) / 2 for a, b in zip(highs, lows[1:], strict=False)), F(110)]
    for window in found:
        low, high = shown(window)
        # from join to join each part of the drawing is on one tile
        core_low = (max(x for x in xs if x - low[0] in (0, 5)),
                    max(y for y in ys if y - low[1] in (0, 5)))
        core_high = (min(x for x in xs if high[0] - x in (0, 5)),
                     min(y for y in ys if high[1] - y in (0, 5)))
        for stroke in unplaced(window):
            assert isinstance(stroke, Polygon)
            cores += area(crop_points(stroke.points, core_low, core_high))
    assert cores == area(corners)


def test_level_dashes_are_in_step_on_neighbouring_pages() -> None:
    line = Line(spot(0, 50), spot(300, 50), Pen.HIDDEN, "far side")
    pages = lay_out([sheet(300, 100, strokes=(line,))], A4, "Bench")
    phases = []
    for window in windows(pages):
        (part,) = (s for s in unplaced(window) if isinstance(s, Line))
        phases.append((part.a[0] - part.phase) % sum(Pen.HIDDEN.dashes))
    assert phases == [0, 0]


# --- ink on paper --------------------------------------------------------------------------------


def test_no_page_of_a_mixed_packet_is_blank() -> None:
    import io

    import pypdfium2

    sheets = [
        busy(520, 410), *(busy(70 + 9 * n, 40 + 5 * n) for n in range(6)),
        sheet(1400, 36, "strip"), sheet(90, 36, "strip"), busy(100, 100, "page"),
    ]
    pages = lay_out(sheets, A4, "Bench")
    document = pypdfium2.PdfDocument(io.BytesIO(pdf_bytes(pages)))
    assert len(document) == len(pages)
    for page, printed in zip(pages, document, strict=True):
        picture = printed.render(scale=1, grayscale=True).to_pil()
        area = area_on(page.width, page.height)
        per_mm = 72 / 25.4
        top = float(page.height - area.y - area.height)
        box = [float(area.x), top, float(area.x + area.width), float(page.height - area.y)]
        inside = picture.crop([round(value * per_mm) for value in box])
        dark = sum(inside.histogram()[:128])
        assert dark > 20, page.title
