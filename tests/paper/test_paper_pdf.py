"""The PDF, judged by pypdf (structure, words) and pypdfium2 (ink)."""

import io
from fractions import Fraction
from itertools import pairwise

import pypdfium2
import pytest
from pypdf import PdfReader

from layout.paper.drawing import PageDrawing, Window
from layout.paper.pages import area_on
from layout.paper.pdf import write_pdf
from layout.paper.readback import compare, read_pdf
from layout.paper.sizes import Paper, paper_named
from layout.paper.tiles import lay_out
from layout.scene.crop import bounds
from layout.scene.figures import Plain, figure
from layout.scene.strokes import Circle, Line, Pen, Polygon, Stroke, Text
from tests.paper.scenes import F, busy, pdf_bytes, rectangle, sheet, spot

ODD = Paper("odd", F("187.35"), F("301.07"), F("301.07"))
PAPERS = [paper_named("A4"), paper_named("letter"), paper_named("A6"), ODD]
HOSTILE = [
    "<script>alert(1)</script>",
    "../../etc/passwd",
    "chair 🪑 \u202eLTR שלום",
    "x" * 500,
    "NUL\x00 in \x1b[31m it",
    ") Tj ET (",
    "\\",
    "",
]


def sheets() -> list:  # type: ignore[type-arg]
    return [busy(330, 250), busy(60, 50), sheet(700, 36, "strip"), busy(40, 40, "page")]


def page_of(*strokes: Stroke, width: int = 100, height: int = 60) -> PageDrawing:
    return PageDrawing(F(width), F(height), "page", (Window(0, (F(0), F(0)), strokes),), ())


def picture(data: bytes, scale: int):  # type: ignore[no-untyped-def]
    """The first page as grey pixels, scale * 72 to the inch."""
    page = pypdfium2.PdfDocument(io.BytesIO(data))[0]
    return page.render(scale=scale, grayscale=True).to_pil()


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_media_boxes_are_exact(paper: Paper) -> None:
    pages = lay_out(sheets(), paper, "Bench")
    reader = PdfReader(io.BytesIO(pdf_bytes(pages)))
    assert len(reader.pages) == len(pages) > 3
    for page, written in zip(pages, reader.pages, strict=True):
        assert "/UserUnit" not in written
        assert [float(v) for v in written.mediabox[:2]] == [0, 0]
        for side, mm in zip(written.mediabox[2:], (page.width, page.height), strict=True):
            assert abs(float(side) - float(mm * 72 * 5 / 127)) < 1e-6


@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_every_line_is_where_it_was_drawn(paper: Paper) -> None:
    pages = lay_out(sheets(), paper, "Bench")
    proof = compare(pages, read_pdf(pdf_bytes(pages)))
    assert proof.good
    assert proof.lines > 400
    assert proof.worst_mm < 0.00001


def test_the_viewer_is_asked_not_to_scale() -> None:
    data = pdf_bytes((page_of(rectangle(50, 40)),), "Hall table <1> & Co")
    reader = PdfReader(io.BytesIO(data))
    assert data.startswith(b"%PDF-1.6")
    preferences = reader.trailer["/Root"]["/ViewerPreferences"]  # type: ignore[index]
    assert preferences["/PrintScaling"] == "/None"
    assert reader.metadata is not None
    assert reader.metadata.title == "Hall table <1> & Co"


def test_fonts_are_embedded_and_can_be_read_back() -> None:
    data = pdf_bytes(lay_out(sheets(), paper_named("A4"), "Bench"))
    for page in PdfReader(io.BytesIO(data)).pages:
        fonts = page["/Resources"]["/Font"]  # type: ignore[index]
        used = [fonts[name].get_object() for name in fonts]
        # the library names its own first font on every page and never uses it
        embedded = [f for f in used if f["/Subtype"] == "/TrueType"]
        assert {f["/BaseFont"].split("+")[1] for f in embedded} == {
            "DejaVuSansCondensed", "DejaVuSansCondensed-Bold",
        }
        for font in embedded:
            assert "/FontFile2" in font["/FontDescriptor"]
            assert "/ToUnicode" in font


def test_the_same_pages_give_the_same_bytes_without_a_date() -> None:
    one = pdf_bytes(lay_out(sheets(), paper_named("A4"), "Bench"))
    other = pdf_bytes(lay_out(sheets(), paper_named("A4"), "Bench"))
    assert one == other
    info = PdfReader(io.BytesIO(one)).metadata
    assert info is not None
    # the library's fixed date of an invariant file
    assert "20000101000000" in str(info.get("/CreationDate"))


def test_progress_is_told_page_by_page() -> None:
    told: list[tuple[int, int]] = []
    pages = lay_out(sheets(), paper_named("A4"), "Bench")
    write_pdf(pages, "Bench", io.BytesIO(), lambda done, of: told.append((done, of)))
    assert told == [(n, len(pages)) for n in range(1, len(pages) + 1)]
    with pytest.raises(ValueError, match="at least one page"):
        write_pdf((), "Bench", io.BytesIO())


def test_a_file_can_be_written_by_its_path(tmp_path) -> None:  # type: ignore[no-untyped-def]
    pages = (page_of(rectangle(50, 40)),)
    write_pdf(pages, "Bench", tmp_path / "bench.pdf")
    assert (tmp_path / "bench.pdf").read_bytes() == pdf_bytes(pages)


# --- words ---------------------------------------------------------------------------------------


def test_figures_and_fractions_are_read_back_as_they_were_set() -> None:
    strokes = figure(Plain(2, 13, 32, nuance="full"), spot(10, 20), F(14))[0]
    page = page_of(*strokes, Text(spot(10, 50), "½ ⅛ ⅜ ⅝ ⅞ × — “leg” é", F(5), bold=True))
    (read,) = read_pdf(pdf_bytes((page,)))
    assert read.texts == ["2", "13", "32", "full", "½ ⅛ ⅜ ⅝ ⅞ × — “leg” é"]
    # and so does pypdf's own reader of words
    extracted = PdfReader(io.BytesIO(pdf_bytes((page,)))).pages[0].extract_text()
    for words in read.texts:
        assert words in extracted


def test_text_of_more_than_one_subset_is_read_back() -> None:
    letters = "".join(chr(code) for code in range(0xA1, 0x250) if code != 0xAD)
    page = page_of(Text(spot(1, 5), letters, F(3)))
    (read,) = read_pdf(pdf_bytes((page,)))
    assert read.texts == [letters]


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_break_no_page(name: str) -> None:
    drawn = [
        sheet(60, 40, name=name, subject=name, strokes=(
            rectangle(60, 40), Text(spot(2, 2), name, F(3)),
        )),
        sheet(600, 36, "strip", name, name),
        sheet(400, 300, name=name, subject=name),
    ]
    pages = lay_out(drawn, paper_named("A4"), name)
    data = pdf_bytes(pages, name)
    proof = compare(pages, read_pdf(data))
    assert proof.good
    for page in pages:
        for stroke in page.furniture:
            (x0, y0), (x1, y1) = bounds(stroke)
            assert x0 >= 0
            assert x1 <= page.width, stroke
            assert y0 >= 0
            assert y1 <= page.height, stroke


# --- ink -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS[:2], ids=lambda p: p.name)
def test_the_100_mm_bar_measures_100_mm_in_pixels(paper: Paper) -> None:
    pages = lay_out([sheet(60, 40)], paper, "Bench")
    data = pdf_bytes(pages)
    scale = 16  # 45 pixels to the mm
    per_mm = scale * 72 / 25.4
    page = pages[0]
    area = area_on(page.width, page.height)
    document = pypdfium2.PdfDocument(io.BytesIO(data))

    # the band of the mm bar's own line, between its ticks' far ends and the inch bar's
    def dark_run(low: tuple[float, float], high: tuple[float, float], across: bool) -> int:
        width, height = float(page.width), float(page.height)
        points = 72 / 25.4
        crop = (low[0] * points, low[1] * points, (width - high[0]) * points,
                (height - high[1]) * points)
        image = document[0].render(scale=scale, crop=crop, grayscale=True).to_pil()
        box = image.point(lambda value: 255 if value < 128 else 0).getbbox()
        assert box is not None
        return box[2] - box[0] if across else box[3] - box[1]

    level = float(area.y) - 8 + 4.6
    x = float(area.x)
    found = dark_run((x - 1, level - 0.1), (x + 101.3, level + 0.1), True)
    # the end ticks' pens reach 0.09 mm beyond either end
    assert found / per_mm == pytest.approx(100 + 0.18, abs=0.05)

    upright = float(area.x) - 8 + 8 - 4.6
    y = float(area.y)
    found = dark_run((upright - 0.1, y - 1), (upright + 0.1, y + 101.3), False)
    assert found / per_mm == pytest.approx(100 + 0.18, abs=0.05)


def test_lines_end_where_they_say_and_are_as_wide_as_their_pen() -> None:
    data = pdf_bytes((page_of(Line(spot(20, 30), spot(70, 30), Pen.HEAVY)),))
    scale = 20
    per_mm = scale * 72 / 25.4
    box = picture(data, scale).point(lambda value: 255 if value < 128 else 0).getbbox()
    assert box is not None
    left, top, right, bottom = (edge / per_mm for edge in box)
    assert (left, right) == (pytest.approx(20, abs=0.03), pytest.approx(70, abs=0.03))
    assert (60 - bottom, 60 - top) == (pytest.approx(29.5, abs=0.03), pytest.approx(30.5, abs=0.03))


def test_capitals_stand_as_high_as_they_say() -> None:
    data = pdf_bytes((page_of(Text(spot(10, 20), "H", F(14))),))
    scale = 20
    per_mm = scale * 72 / 25.4
    box = picture(data, scale).point(lambda value: 255 if value < 128 else 0).getbbox()
    assert box is not None
    assert (box[3] - box[1]) / per_mm == pytest.approx(14, abs=0.05)
    assert 60 - box[3] / per_mm == pytest.approx(20, abs=0.05)


def test_text_that_reads_up_stands_in_the_middle_of_its_place() -> None:
    data = pdf_bytes((page_of(Text(spot(50, 30), "HHHH", F(5), "middle", turn=90)),))
    scale = 20
    per_mm = scale * 72 / 25.4
    box = picture(data, scale).point(lambda value: 255 if value < 128 else 0).getbbox()
    assert box is not None
    assert box[2] / per_mm == pytest.approx(50, abs=0.05)
    assert (box[1] + box[3]) / 2 / per_mm == pytest.approx(30, abs=0.1)
    assert box[3] - box[1] > box[2] - box[0]


def test_a_cut_outline_keeps_its_corner() -> None:
    """Lines that go on from one another are joined: the corner's own square of ink is there."""
    corner = spot(20, 20)
    lines = (Line(spot(20, 50), corner, Pen.HEAVY), Line(corner, spot(50, 20), Pen.HEAVY))
    image = picture(pdf_bytes((page_of(*lines),)), 20)
    per_mm = 20 * 72 / 25.4
    assert image.getpixel((round(19.75 * per_mm), round((60 - 19.75) * per_mm))) < 128
    # but only where they really meet
    apart = (lines[0], Line(spot(21, 20), spot(50, 20), Pen.HEAVY))
    image = picture(pdf_bytes((page_of(*apart),)), 20)
    assert image.getpixel((round(19.75 * per_mm), round((60 - 19.75) * per_mm))) > 128


def test_white_covers_and_black_fills() -> None:
    page = page_of(
        rectangle(100, 60, None), Polygon(rectangle(60, 40).points, None, "black"),
        Circle(spot(30, 20), F(10), None, "white"),
    )
    image = picture(pdf_bytes((page,)), 4)
    per_mm = 4 * 72 / 25.4
    assert image.getpixel((round(5 * per_mm), round(55 * per_mm))) < 50
    assert image.getpixel((round(30 * per_mm), round(40 * per_mm))) > 200


def test_what_hangs_out_of_a_tile_is_trimmed() -> None:
    strokes = (rectangle(300, 100), Circle(spot(150, 50), F(45), Pen.HEAVY))
    pages = lay_out([sheet(300, 100, strokes=strokes)], paper_named("A4"), "Bench")
    assert len(pages) == 2
    window = pages[0].windows[0].shown
    assert window is not None
    image = picture(pdf_bytes(pages), 4)
    per_mm = 4 * 72 / 25.4
    right, top = float(window[1][0]), float(pages[0].height - window[1][1])
    beyond = image.crop(
        [round(v * per_mm) for v in (right + 1, top + 10, right + 1.4, top + 90)]
    )
    inside = image.crop([round(v * per_mm) for v in (right - 2, top + 1, right, top + 90)])
    assert beyond.getextrema()[0] > 128
    assert inside.getextrema()[0] < 128


def test_dashes_have_the_lengths_of_their_pen() -> None:
    data = pdf_bytes((page_of(Line(spot(10, 30), spot(60, 30), Pen.HIDDEN)),))
    scale = 20
    per_mm = scale * 72 / 25.4
    image = picture(data, scale)
    level = round(30 * per_mm)
    dark = [image.getpixel((x, level)) < 128 for x in range(image.width)]
    turns = [i / per_mm for i, (a, b) in enumerate(pairwise(dark), 1) if a != b]
    assert turns[:4] == pytest.approx([10, 13, 14.5, 17.5], abs=0.05)


def test_a_long_page_is_as_exact_as_a_short_one() -> None:
    """The library alone would keep seven digits: 0.002 mm on five metres."""
    line = Line((Fraction(14999, 3), F(10)), (Fraction(1, 7), F(50)))
    page = page_of(line, width=5000)
    (read,) = read_pdf(pdf_bytes((page,)))
    assert read.width == pytest.approx(5000, abs=1e-6)
    assert read.segments[0].a[0] == pytest.approx(14999 / 3, abs=1e-6)
    assert read.segments[0].b[0] == pytest.approx(1 / 7, abs=1e-6)


def test_small_numbers_are_written_without_an_exponent() -> None:
    tiny = Line((Fraction(1, 10**5), F(10)), (F(50), F(10)), Pen.HIDDEN, phase=Fraction(1, 10**5))
    content = PdfReader(io.BytesIO(pdf_bytes((page_of(tiny),)))).pages[0].get_contents()
    assert content is not None
    numbers = [word for word in content.get_data().split() if word[:1] in b"0123456789.-"]
    assert b"0.000028" in numbers
    assert not any(b"e" in number.lower() for number in numbers)
