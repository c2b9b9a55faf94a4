"""Paper sizes, the PDF unit and the CSS pixel against published figures.

Sources, and whether they were read or are remembered:
- ISO 216, Writing paper and certain classes of printed matter, trimmed sizes, A and B series:
  read in three tables of media sizes (one of them the media names of PWG 5101.1, Standard for
  Media Standardized Names). Rule read there too: side ratio the square root of two, A0 one square
  metre, each side rounded down to whole mm on halving.
- ASME Y14.1, Decimal Inch Drawing Sheet Size and Format, sizes A to E: read in the same tables.
- ISO 32000-1, Document management, Portable document format, 2008: default user unit 1/72 in
  (8.3.2.3, memory; read as the default of UserUnit in a PDF library's documentation).
  ViewerPreferences PrintScaling, since PDF 1.6, values None and AppDefault (Table 150): read in
  the PDF Association's machine-readable object model. Its meaning: memory.
- CSS Values and Units, W3C: 96 px to the inch, 72 pt to the inch: read in many copies.
- The checks at the end are computed, exact to the digits shown.
"""

from __future__ import annotations

import io
from fractions import Fraction
from itertools import pairwise
from math import isqrt

import pytest
from pypdf import PdfReader

from layout.paper.drawing import PageDrawing, Window
from layout.paper.pdf import write_pdf
from layout.paper.readback import read_svg
from layout.paper.sizes import paper_named
from layout.scene.strokes import Line

INCH = Fraction(127, 5)

# mm, ISO 216 (read, three copies)
ISO_A = {
    "A0": (841, 1189), "A1": (594, 841), "A2": (420, 594), "A3": (297, 420), "A4": (210, 297),
    "A5": (148, 210), "A6": (105, 148),
}  # fmt: skip

# inches, ASME Y14.1 sizes A to E and the usual names (read, two copies); index cards (read)
US = {
    "letter": ("8.5", "11"), "legal": ("8.5", "14"), "tabloid": ("11", "17"),
    "ANSI C": ("17", "22"), "ANSI D": ("22", "34"), "ANSI E": ("34", "44"),
    "index 3x5": ("3", "5"), "index 4x6": ("4", "6"), "index 5x8": ("5", "8"),
}  # fmt: skip

# points as published beside the sizes (computed there to four places)
POINTS = {
    "A3": ("841.8898", "1190.5512"), "A4": ("595.2756", "841.8898"),
    "A5": ("419.5276", "595.2756"), "A6": ("297.6378", "419.5276"),
    "letter": ("612", "792"), "legal": ("612", "1008"), "tabloid": ("792", "1224"),
    "index 3x5": ("216", "360"),
}  # fmt: skip


@pytest.mark.parametrize("name", ISO_A)
def test_iso_216_sizes(name: str) -> None:
    paper = paper_named(name)
    assert (paper.width, paper.height) == ISO_A[name]


def test_iso_216_is_halved_and_rounded_down_from_one_square_metre() -> None:
    # A0: one square metre at a ratio of root two: 1000 * 2^(1/4) by 1000 / 2^(1/4) mm
    long, short = round(1000 * 2**0.25), round(1000 / 2**0.25)
    for name in ISO_A:
        paper = paper_named(name)
        assert (paper.width, paper.height) == (short, long)
        # the ratio is root two to within what rounding to a mm can do
        assert abs(isqrt(2 * short * short) - long) <= 2
        long, short = short, long // 2


@pytest.mark.parametrize("name", US)
def test_us_sizes(name: str) -> None:
    paper = paper_named(name)
    assert paper.height is not None
    assert (paper.width / INCH, paper.height / INCH) == tuple(Fraction(n) for n in US[name])


def test_ansi_sizes_double() -> None:
    names = ["letter", "tabloid", "ANSI C", "ANSI D", "ANSI E"]
    for small, large in pairwise(names):
        one, two = paper_named(small), paper_named(large)
        assert one.height is not None
        assert (two.width, two.height) == (one.height, 2 * one.width)


def pdf_of(width: Fraction, height: Fraction, *lines: Line) -> PdfReader:
    page = PageDrawing(width, height, "t", (Window(0, (Fraction(0), Fraction(0)), lines),), ())
    buffer = io.BytesIO()
    write_pdf([page], "t", buffer)
    return PdfReader(io.BytesIO(buffer.getvalue()))


@pytest.mark.parametrize("name", POINTS)
def test_media_boxes_in_the_default_unit_of_a_72nd_inch(name: str) -> None:
    paper = paper_named(name)
    assert paper.height is not None
    page = pdf_of(paper.width, paper.height).pages[0]
    for side, published in zip(page.mediabox[2:], POINTS[name], strict=True):
        assert abs(float(side) - float(published)) < 1e-4
    assert page.get("/UserUnit", 1) == 1


def test_print_scaling_is_a_key_of_pdf_1_6() -> None:
    reader = pdf_of(Fraction(100), Fraction(100))
    assert reader.pdf_header == "%PDF-1.6"
    root = reader.trailer["/Root"].get_object()
    assert root["/ViewerPreferences"]["/PrintScaling"] in ("/None", "/AppDefault")  # type: ignore[index]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]


# computed checks, exact to the digits shown
@pytest.mark.parametrize(
    ("length", "points"),
    [(Fraction(100), "283.464567"), (4 * INCH, "288.0")],
    ids=["100 mm", "4 in"],
)
def test_bars_in_points(length: Fraction, points: str) -> None:
    start = (Fraction(10), Fraction(20))
    line = Line(start, (start[0] + length, start[1]))
    content = pdf_of(Fraction(200), Fraction(100), line).pages[0].get_contents()
    assert content is not None
    ends = [
        float(operands[0]) for operands, operator in content.operations if operator in (b"m", b"l")
    ]
    assert ends[1] - ends[0] == pytest.approx(float(points), abs=2e-6)


def test_100_mm_in_css_pixels() -> None:
    read = read_svg(
        '<svg xmlns="http://www.w3.org/2000/svg" width="377.952756" height="96" '
        'viewBox="0 0 377.952756 96"/>'
    )
    assert read.width == pytest.approx(100, abs=1e-6)
    assert read.height == pytest.approx(25.4, abs=1e-9)


def test_what_fit_to_page_would_do() -> None:
    a4, letter = paper_named("A4"), paper_named("letter")
    assert a4.height is not None
    assert letter.height is not None
    shrunk = min(letter.width / a4.width, letter.height / a4.height)
    assert float(shrunk) == pytest.approx(0.940741, abs=5e-7)
    other = min(a4.width / letter.width, a4.height / letter.height)
    assert float(other) == pytest.approx(0.972673, abs=5e-7)
