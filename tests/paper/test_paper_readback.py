"""The proof of a packet must be able to fail."""

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader, PdfWriter, Transformation

from layout.errors import CantWrite
from layout.paper.drawing import PageDrawing
from layout.paper.readback import Proof, compare, prove, read_pdf, read_svg
from layout.paper.sizes import paper_named
from layout.paper.tiles import lay_out
from layout.scene.strokes import Circle, Line, Pen, Stroke, Text
from tests.paper.scenes import F, busy, pdf_bytes, sheet

PAGES = lay_out([busy(330, 250), busy(60, 50), sheet(700, 36, "strip")], paper_named("A4"), "B")
GOOD = pdf_bytes(PAGES)


def without(page: PageDrawing, kind: type, **wanted: object) -> PageDrawing:
    """The page with the first stroke of its drawing that is so left out."""
    window = page.windows[0]
    strokes = list(window.strokes)
    gone = next(
        s for s in strokes
        if isinstance(s, kind) and all(getattr(s, k) == v for k, v in wanted.items())
    )
    strokes.remove(gone)
    return replace(page, windows=(replace(window, strokes=tuple(strokes)), *page.windows[1:]))


def changed(stroke_from: Stroke, stroke_to: Stroke) -> tuple[PageDrawing, ...]:
    page = PAGES[0]
    window = page.windows[0]
    strokes = tuple(stroke_to if s == stroke_from else s for s in window.strokes)
    assert strokes != window.strokes
    return (replace(page, windows=(replace(window, strokes=strokes),)), *PAGES[1:])


def first(kind: type) -> Stroke:
    return next(s for s in PAGES[0].windows[0].strokes if isinstance(s, kind))


def shrunk(data: bytes, scale: float) -> bytes:
    """The same file with everything on its pages scaled, as a printer does it."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(data)))
    for page in writer.pages:
        page.add_transformation(Transformation().scale(scale))
    buffer = io.BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


def test_a_good_packet_is_proved() -> None:
    proof = prove(PAGES, GOOD)
    assert proof.good
    assert proof.lines > 300
    assert (proof.missing, proof.strange, proof.words) == (0, 0, 0)
    assert proof.worst_mm < 0.00001


def test_a_page_fitted_to_other_paper_is_found_out() -> None:
    # A4 fitted to Letter is printed at 279.4/297 = 0.9407
    scaled = shrunk(GOOD, 0.9407)
    proof = compare(PAGES, read_pdf(scaled))
    assert not proof.good
    assert proof.missing > proof.lines * 0.9
    assert proof.worst_mm > 1
    with pytest.raises(CantWrite, match="differs from the drawing"):
        prove(PAGES, scaled)


def test_a_hair_too_small_is_found_out_too() -> None:
    proof = compare(PAGES, read_pdf(shrunk(GOOD, 0.9999)))
    assert not proof.good
    # a 10 000th of the way to the far corner of the page
    assert 0.01 < proof.worst_mm < 0.06


def test_a_missing_line_is_found_out() -> None:
    pages = (without(PAGES[0], Line), *PAGES[1:])
    proof = compare(PAGES, read_pdf(pdf_bytes(pages)))
    assert (proof.missing, proof.strange) == (1, 0)
    with pytest.raises(CantWrite, match="1 missing and 0 strange"):
        prove(PAGES, pdf_bytes(pages))


def test_a_line_that_nobody_drew_is_found_out() -> None:
    pages = (without(PAGES[0], Line), *PAGES[1:])
    proof = compare(pages, read_pdf(GOOD))
    assert (proof.missing, proof.strange) == (0, 1)
    assert not proof.good


def test_one_of_two_equal_lines_missing_is_found_out() -> None:
    line = first(Line)
    assert isinstance(line, Line)
    window = PAGES[0].windows[0]
    twice = replace(PAGES[0], windows=(replace(window, strokes=(*window.strokes, line)),))
    proof = compare((twice, *PAGES[1:]), read_pdf(GOOD))
    assert proof.missing == 1


def test_a_line_moved_by_a_hundredth_is_found_out() -> None:
    line = first(Line)
    assert isinstance(line, Line)
    moved = replace(line, b=(line.b[0] + F(1, 100), line.b[1]))
    proof = compare(PAGES, read_pdf(pdf_bytes(changed(line, moved))))
    assert not proof.good
    assert proof.worst_mm == pytest.approx(0.01, abs=0.001)


def test_another_pen_a_lost_circle_and_other_words_are_found_out() -> None:
    line = first(Line)
    assert isinstance(line, Line)
    proof = compare(PAGES, read_pdf(pdf_bytes(changed(line, replace(line, pen=Pen.HEAVY)))))
    assert (proof.missing, proof.strange) == (1, 1)

    circle = first(Circle)
    assert isinstance(circle, Circle)
    small = replace(circle, radius=circle.radius - 1)
    proof = compare(PAGES, read_pdf(pdf_bytes(changed(circle, small))))
    assert (proof.missing, proof.strange) == (1, 1)

    pages = (*PAGES[1:2], *PAGES[1:])
    wrong = compare(pages, read_pdf(GOOD))
    assert wrong.words > 0
    text = next(t for p in PAGES for t in p.windows[0].strokes if isinstance(t, Text))
    owner = next(n for n, p in enumerate(PAGES) if text in p.windows[0].strokes)
    fewer = [*PAGES[:owner], without(PAGES[owner], Text), *PAGES[owner + 1 :]]
    assert compare(PAGES, read_pdf(pdf_bytes(tuple(fewer)))).words == 1


def test_a_page_of_another_size_and_a_lost_page_are_found_out() -> None:
    larger = (replace(PAGES[0], width=PAGES[0].width + 1), *PAGES[1:])
    proof = compare(PAGES, read_pdf(pdf_bytes(larger)))
    assert proof.worst_mm == pytest.approx(1, abs=1e-6)
    assert not compare(PAGES, read_pdf(pdf_bytes(PAGES[:-1]))).good
    assert not compare([], read_pdf(GOOD)).good
    assert not Proof(1, 0.0011, 0, 0, 0).good


def test_svg_transforms_are_followed() -> None:
    read = read_svg(
        '<svg xmlns="http://www.w3.org/2000/svg" width="10cm" height="50mm" viewBox="0 0 200 100">'
        '<g transform="translate(20 10) scale(2)" stroke="black" stroke-width="0.5">'
        '<line x1="0" y1="0" x2="10" y2="0" transform="rotate(90)"/>'
        '<line x1="0" y1="0" x2="5" y2="0" transform="matrix(1 0 0 1 5 5)" stroke-width="1"/>'
        '<polygon points="0,0 4,0 4,4" stroke="none"/></g></svg>'
    )
    assert (read.width, read.height) == (100, 50)
    turned, shifted, *triangle = read.segments
    # half a mm to the unit: 20,10 is 10 mm in and 5 mm down from the top
    assert turned.a == pytest.approx((10, 45))
    assert turned.b == pytest.approx((10, 35))
    assert turned.pen == pytest.approx(0.5)
    assert shifted.a == pytest.approx((15, 40))
    assert shifted.b == pytest.approx((20, 40))
    assert shifted.pen == pytest.approx(1)
    assert len(triangle) == 3
    assert {edge.pen for edge in triangle} == {0}


def test_an_svg_in_pixels_is_read_at_96_to_the_inch() -> None:
    read = read_svg(
        '<svg xmlns="http://www.w3.org/2000/svg" width="96" height="192px" viewBox="0 0 96 192"/>'
    )
    assert (read.width, read.height) == (pytest.approx(25.4), pytest.approx(50.8))
    with pytest.raises(ValueError, match="skewX"):
        read_svg(
            '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9" viewBox="0 0 9 9">'
            '<g transform="skewX(9)"/></svg>'
        )
