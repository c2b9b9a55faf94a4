"""A top's pages: nothing leaves them, no two texts overlap, and what is drawn on the underside is
where it is cut, seen from below; drilling strips read back from PDF. In mm.

Frame and top are those of tests/builds/test_top.py. The underside is drawn with the front edge at
the foot, so that the left end lies at the right.
"""

from __future__ import annotations

import io
from fractions import Fraction
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest

import layout
from layout.builds.tops import LaidTop
from layout.paper.pages import drawing_area
from layout.paper.pdf import write_pdf
from layout.paper.read_pdf import read_pdf
from layout.paper.readback import compare
from layout.paper.sizes import paper_named
from layout.paper.tiles import lay_out
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.strokes import Circle, Line, Pen, Polygon, Sheet, Text
from layout.sheets.dog_template import MARGIN, dog_sheets
from layout.sheets.fixing_template import fixings
from layout.sheets.top_sheet import top_sheets
from tests.builds.test_top import ALONE, CASE, CLIMATE, GLUED, SQUARE, read
from tests.sheets.test_sheets import spots, text_box, words

F = Fraction
SAMPLES = Path(layout.__file__).parent.parent / "samples"
BENCH = ('overhang_left = 200\nvise = { opening = 180, end = "END" }\n'
         "row = [{ lines = [80, 580], first = 300 }, "
         '{ holes = "holdfasts", lines = [330], first = 320 }]\n')
LEFT, RIGHT = BENCH.replace("END", "left"), BENCH.replace("END", "right")
LEANING = SQUARE.replace("first = 120", 'first = 120, lean = "1:20"') + "overhang_front = 110\n"
BOLT = LEFT.replace("first = 300 }", 'first = 300, keep_out = [{ name = "bolt hole", from = 560, '
                    "to = 600 }] }")
ON_EDGE = ('strips = { lay = "on edge", stock_thickness = 32, stock_width = 120, '
           "stock_length = 700, planer = 260 }\n")


PIECES = {
    "plain": read(), "left": read(LEFT), "right": read(RIGHT), "bolt": read(BOLT),
    "glued": read(LEFT + GLUED), "on edge": read(LEFT + ON_EDGE + "fixing = {}\n"),
    "screws": read(RIGHT + 'fixing = { kind = "screws" }\n'),
    "square": read(LEANING), "square right": read(
        LEANING.replace("opening = 180", 'opening = 180, end = "right"')),
    "capped": read(LEFT + GLUED + "end_caps = {}\nfixing = { apart = 250 }\n"),
    "alone": read(ALONE + GLUED + "vise = { opening = 180 }\nrow = [{ lines = [250] }]\n",
                  before=CLIMATE),
    "carcase": read("dogs_below = 0\n" + GLUED, before=CLIMATE + CASE),
    "near rows": read("vise = { opening = 180 }\n"
                      "row = [{ lines = [200, 230, 260], first = 110 }]\n"),
    "long": read("overhang_left = 3000\nvise = { opening = 400 }\n"
                 "row = [{ lines = [90], first = 300, pitch = 300 }]\n" + GLUED),
    **{path.stem: work_out(read_piece(path)) for path in sorted(SAMPLES.glob("*.toml"))
       if "[[top]]" in path.read_text(encoding="utf-8")},
}
each_piece = pytest.mark.parametrize("p", PIECES.values(), ids=PIECES.keys())


def area(p: Piece, paper: str = "") -> tuple[Fraction, Fraction]:
    page = paper_named(paper or ("letter" if p.choice.unit == "in" else "A4"))
    lying = drawing_area(page, True)
    return (lying.width, lying.height)


def all_sheets(p: Piece, paper: str = "") -> list[Sheet]:
    return [*top_sheets(p, area(p, paper)), *fixings(p), *dog_sheets(p)]


def underside(p: Piece) -> Sheet:
    (found,) = [one for one in top_sheets(p, area(p)) if one.name.startswith("Underside")]
    return found


def test_there_are_tops_among_the_samples() -> None:
    assert {"repair_bench", "hall_table"} <= set(PIECES)


@each_piece
@pytest.mark.parametrize("paper", ["", "A3"])
def test_nothing_leaves_its_sheet(p: Piece, paper: str) -> None:
    found = all_sheets(p, paper)
    assert found
    for sheet in found:
        for stroke in sheet.scene.strokes:
            for x, y in spots(stroke):
                assert -1 <= x <= sheet.scene.width + 1, (sheet.name, stroke)
                assert -1 <= y <= sheet.scene.height + 1, (sheet.name, stroke)


@each_piece
@pytest.mark.parametrize("paper", ["", "A3"])
def test_no_two_texts_overlap(p: Piece, paper: str) -> None:
    for sheet in all_sheets(p, paper):
        texts = [s for s in sheet.scene.strokes if isinstance(s, Text) and s.words]
        boxes = [text_box(text) for text in texts]
        for (one, a), (other, b) in combinations(zip(texts, boxes, strict=True), 2):
            apart = (
                a[1][0] <= b[0][0] or b[1][0] <= a[0][0] or a[1][1] <= b[0][1] or b[1][1] <= a[0][1]
            )
            assert apart, (sheet.name, one.words, other.words)


@each_piece
def test_which_pages_there_are(p: Piece) -> None:
    names = [one.name for one in top_sheets(p, area(p))]
    wanted = []
    for laid in p.tops:
        name = laid.top.choice.name
        wanted += [f"Glue-up: {name}"] if laid.top.strips is not None else []
        if laid.dogs or laid.fixings is not None or laid.top.bearing is not None:
            wanted.append(f"Underside: {name}")
    assert names == wanted


def test_a_plain_top_by_itself_has_no_page() -> None:
    assert top_sheets(read(ALONE, before=CLIMATE), (F(270), F(190))) == ()


# -- the underside


def drawn(p: Piece, laid: LaidTop, sheet: Sheet) -> tuple[Fraction, Fraction, Fraction]:
    """Where the outline's lower left corner is drawn, and its scale, from the wide rectangle."""
    wide = [one for one in sheet.scene.strokes if isinstance(one, Polygon) and one.pen is Pen.WIDE]
    xs = [x for one in wide for x, _ in one.points]
    ys = [y for one in wide for _, y in one.points]
    scale = (max(xs) - min(xs)) / laid.top.length
    assert (max(ys) - min(ys)) / laid.top.width == scale
    return min(xs), min(ys), scale


@each_piece
def test_holes_on_the_underside_stand_where_they_are_cut(p: Piece) -> None:
    for laid in p.tops:
        sheets = [one for one in top_sheets(p, area(p))
                  if one.name == f"Underside: {laid.top.choice.name}"]
        if not laid.dogs:
            continue
        (sheet,) = sheets
        left, foot, scale = drawn(p, laid, sheet)
        wanted = set()
        squares = set()
        for row in laid.dogs:
            for one in p.cuts:
                if one.joint != row.joint:
                    continue
                # the middle of the hole at the underside, carried into the piece
                shape = one.shape
                if row.choice.shape == "round":
                    at = (sum(shape.reach("L")) / 2, sum(shape.reach("W")) / 2, F(0))
                else:
                    low = [spot for spot in shape.points if spot[2] == row.part.thickness]  # type: ignore[union-attr]
                    at = (sum(spot[0] for spot in low) / len(low),
                          sum(spot[1] for spot in low) / len(low), F(0))
                x, y, _ = row.part.placement.to_piece(at)  # type: ignore[arg-type]
                # the piece's left lies at the drawing's right
                spot = (left + (laid.top.origin[0] + laid.top.length - x) * scale,
                        foot + (y - laid.top.origin[1]) * scale)
                (wanted if row.choice.shape == "round" else squares).add(
                    (spot, row.choice.size / 2 * scale))
        rounds = {(one.centre, one.radius) for one in sheet.scene.strokes
                  if isinstance(one, Circle) and one.pen is Pen.WIDE}
        assert rounds == wanted
        boxes = set()
        for one in sheet.scene.strokes:
            if isinstance(one, Polygon) and one.pen is Pen.WIDE and one.fill == "white":
                (x0, y0), (x1, y1) = min(one.points), max(one.points)
                boxes.add((((x0 + x1) / 2, (y0 + y1) / 2), (x1 - x0) / 2))
        assert boxes == squares


@pytest.mark.parametrize("name", ["on edge", "screws", "capped", "hall_table", "repair_bench"])
def test_screws_are_crosses_where_they_come_up(name: str) -> None:
    p = PIECES[name]
    (laid,) = p.tops
    sheet = underside(p)
    left, foot, scale = drawn(p, laid, sheet)
    crosses = set()
    for one in sheet.scene.strokes:
        if isinstance(one, Line) and one.pen is Pen.WIDE and abs(one.a[0] - one.b[0]) == 3 == abs(
                one.a[1] - one.b[1]):
            crosses.add(((one.a[0] + one.b[0]) / 2, (one.a[1] + one.b[1]) / 2))
    wanted = set()
    for mark in p.marks:
        if mark.joint == f"{laid.top.main.id}.fixing":
            assert mark.point is not None
            x, y, _ = p.part(mark.part).placement.to_piece((*mark.point, F(0)))
            wanted.add((left + (laid.top.origin[0] + laid.top.length - x) * scale,
                        foot + (y - laid.top.origin[1]) * scale))
    assert crosses == wanted
    assert laid.fixings is not None
    assert len(wanted) == len(laid.fixings.found)


@pytest.mark.parametrize(("name", "at_right"), [("left", True), ("right", False)])
def test_end_a_is_told_at_its_end(name: str, at_right: bool) -> None:
    p = PIECES[name]
    (laid,) = p.tops
    sheet = underside(p)
    left, _, scale = drawn(p, laid, sheet)
    (told,) = [one for one in sheet.scene.strokes
               if isinstance(one, Text) and one.words == "end A, vise"]
    # seen from below the left end lies at the right
    assert (told.at[0] > left + laid.top.length * scale) == at_right
    assert (told.at[0] < left) == (not at_right)


def test_what_the_frame_takes_is_hatched_and_named() -> None:
    p = PIECES["left"]
    told = words(top_sheets(p, area(p, "A2")))  # large enough for names
    for name in ("front rail", "back rail"):
        assert name in told
    assert "dashed: the frame; overhang: front 25 mm, back 25 mm, left 200 mm, right 25 mm" in (
        " ".join(told))
    assert "bolt hole" in words([underside(PIECES["bolt"])])


# -- the glue-up


def glue_up(p: Piece) -> Sheet:
    (found,) = [one for one in top_sheets(p, area(p)) if one.name.startswith("Glue-up")]
    return found


@pytest.mark.parametrize("name", ["glued", "on edge", "capped", "alone", "carcase", "hall_table",
                                  "repair_bench"])
def test_the_strips_are_drawn_as_wide_as_they_are(name: str) -> None:
    p = PIECES[name]
    strips = p.tops[0].top.strips
    assert strips is not None
    sheet = glue_up(p)
    boxes = [one for one in sheet.scene.strokes
             if isinstance(one, Polygon) and one.pen is Pen.NARROW and len(one.points) == 4]
    tall = [(min(y for _, y in one.points), max(y for _, y in one.points)) for one in boxes]
    wide = {max(x for x, _ in one.points) - min(x for x, _ in one.points) for one in boxes}
    assert len(wide) == 1
    scale = wide.pop() / strips.long
    assert [(high - low) / scale for low, high in sorted(tall)] == [
        one.width for one in strips.strips]


def test_the_glue_up_in_words() -> None:
    told = " ".join(reversed(words([glue_up(PIECES["on edge"])])))
    strips = PIECES["on edge"].tops[0].top.strips
    assert strips is not None
    assert f"{len(strips.strips)} strips" in told
    assert f"{strips.clamps} clamps" in told
    assert "odd strips: " in told
    assert "even strips: " in told


# -- strips to drill by


@each_piece
def test_the_drilling_strip_has_every_middle(p: Piece) -> None:
    sheets = [one for one in dog_sheets(p) if one.way == "strip"]
    assert len(sheets) == len(p.dogs)
    for row, sheet in zip(p.dogs, sheets, strict=True):
        if row.choice.shape == "round":
            middles = [one.centre[0] - MARGIN for one in sheet.scene.strokes
                       if isinstance(one, Circle) and one.radius == row.choice.size / 2]
            assert sorted(middles) == list(row.places)
        else:
            sides = {one.a[0] - MARGIN for one in sheet.scene.strokes
                     if isinstance(one, Line) and one.mark and one.a[0] == one.b[0]}
            half = row.choice.size / 2
            assert sides == {at + side for at in row.places for side in (-half, half)}


@pytest.mark.parametrize("name", ["left", "right", "square", "square right", "capped"])
def test_the_pages_read_back_from_pdf(name: str) -> None:
    p = PIECES[name]
    page = paper_named("A4")
    pages = lay_out(all_sheets(p), page, "top")
    buffer = io.BytesIO()
    write_pdf(pages, "top", buffer)
    proof = compare(pages, read_pdf(buffer.getvalue()))
    assert proof.good
    assert (proof.missing, proof.strange) == (0, 0)
    assert proof.worst_mm < 0.001


def test_drilled_middles_from_the_pdf() -> None:
    # short enough for one page: a rim of 20 and the spot to prick at every place
    p = read(ALONE.replace("1200", "380") + "vise = { opening = 180 }\n"
             "row = [{ lines = [250], first = 60, pitch = 61 }]\n", before=CLIMATE)
    (row,) = p.dogs
    pages = lay_out(list(dog_sheets(p)), paper_named("A2"), "top")
    buffer = io.BytesIO()
    write_pdf(pages, "top", buffer)
    found = read_pdf(buffer.getvalue())
    circles = [one for page in found for one in page.circles]
    for radius in (10, 0.4):
        middles = sorted(one[:2] for one in circles if abs(one[2] - radius) < 0.001)
        assert len(middles) == len(row.places) == 5
        (x, y) = middles[0]
        for (to_x, to_y), place in zip(middles, row.places, strict=True):
            assert abs(hypot(to_x - x, to_y - y) - float(place - row.places[0])) < 0.001
    # and the first is its own place from the line at end A, square across the row
    (x, _), (to_x, _) = sorted(one[:2] for one in circles if abs(one[2] - 10) < 0.001)[:2]
    assert abs(to_x - x - 61) < 0.001  # the row lies along the page
    level = [one.a[0] for page in found for one in page.segments if abs(one.a[0] - one.b[0]) < 1e-4]
    assert any(abs(x - at - 60) < 0.001 for at in level)
