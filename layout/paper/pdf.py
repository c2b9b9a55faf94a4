"""Pages into one PDF, at full size, the same bytes every time.

The file asks the viewer to print without scaling (ViewerPreferences PrintScaling None, a key of
PDF 1.6), embeds its fonts, and carries no date. A point is exactly 127/360 mm; floats appear only
where the library needs them, in the last step.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO

from layout.paper.drawing import PageDrawing, Rectangle
from layout.scene.lettering import clean, em_size, face, text_width
from layout.scene.strokes import Circle, Line, Pen, Polygon, Spot, Stroke, Text

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Progress = Callable[[int, int], None]
_POINT = Fraction(360, 127)  # points to the millimetre: 72 / 25.4
_GREY = {"black": 0, "white": 1}


def write_pdf(
    pages: Sequence[PageDrawing],
    title: str,
    target: str | Path | BinaryIO,
    progress: Progress | None = None,
) -> None:
    """Write the pages to a path or an open binary file.

    `progress`, where given, is called after each page with pages done and pages in all.
    Raises ValueError for no pages.
    """
    from reportlab.pdfgen.canvas import Canvas

    if not pages:
        raise ValueError("a PDF has at least one page")
    canvas = Canvas(
        str(target) if isinstance(target, (str, Path)) else target,
        pagesize=_size(pages[0]),
        invariant=1,
        pageCompression=1,
        pdfVersion=(1, 6),
    )
    canvas.setTitle(clean(title))
    canvas.setCreator("Shoulderline")
    canvas.setViewerPreference("PrintScaling", "None")
    _fonts()
    for number, page in enumerate(pages, start=1):
        canvas.setPageSize(_size(page))
        canvas.bookmarkPage(f"page{number}")
        canvas.addOutlineEntry(clean(page.title), f"page{number}")
        for window in page.windows:
            _replay(canvas, window.strokes, window.clip)
        _replay(canvas, page.furniture, None)
        canvas.showPage()
        if progress is not None:
            progress(number, len(pages))
    canvas.save()


def _size(page: PageDrawing) -> tuple[float, float]:
    return (_pt(page.width), _pt(page.height))


def _pt(length: Fraction) -> float:
    return float(length * _POINT)


def _fonts() -> None:
    """The shipped fonts, made known to the library once."""
    import io

    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for bold in (False, True):
        font = face(bold)
        if font.name not in known:
            pdfmetrics.registerFont(TTFont(font.name, io.BytesIO(font.data)))


def _replay(canvas: Canvas, strokes: Sequence[Stroke], clip: Rectangle | None) -> None:
    canvas.saveState()
    if clip is not None:
        path = canvas.beginPath()
        (x0, y0), (x1, y1) = clip
        path.rect(_pt(x0), _pt(y0), _pt(x1 - x0), _pt(y1 - y0))
        canvas.clipPath(path, stroke=0, fill=0)
    # Butt caps, so that a line ends exactly where it says; mitred corners.
    canvas.setLineCap(0)
    canvas.setLineJoin(0)
    state = _State(canvas)
    run: list[Line] = []
    for stroke in strokes:
        if isinstance(stroke, Line):
            if run and not _goes_on(run[-1], stroke):
                state.lines(run)
                run = []
            run.append(stroke)
            continue
        if run:
            state.lines(run)
            run = []
        if isinstance(stroke, Text):
            state.text(stroke)
        elif isinstance(stroke, Circle):
            state.circle(stroke)
        else:
            state.polygon(stroke)
    if run:
        state.lines(run)
    canvas.restoreState()


def _goes_on(before: Line, line: Line) -> bool:
    """True where a line starts at the end of the one before, so that they share a corner."""
    return before.b == line.a and before.pen is line.pen and line.a != line.b and not line.phase


class _State:
    """Draws strokes, and changes pen and fill only where the next stroke needs it."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas: Any = canvas
        self.now: tuple[Pen, Fraction] | None = None
        self.fill: str = ""

    def pen(self, pen: Pen, phase: Fraction = Fraction(0)) -> None:
        if self.now == (pen, phase):
            return
        self.canvas.setLineWidth(_pt(pen.width))
        self.canvas.setDash([_pt(dash) for dash in pen.dashes], _pt(phase))
        self.now = (pen, phase)

    def ink(self, fill: str) -> None:
        if fill and fill != self.fill:
            self.canvas.setFillGray(_GREY[fill])
            self.fill = fill

    def lines(self, run: list[Line]) -> None:
        self.pen(run[0].pen, run[0].phase)
        path = self.canvas.beginPath()
        path.moveTo(*_spot(run[0].a))
        for line in run:
            path.lineTo(*_spot(line.b))
        # a run that comes back to its start is a closed outline, whose last corner is joined too
        if len(run) > 2 and run[0].a == run[-1].b:
            path.close()
        self.canvas.drawPath(path, stroke=1, fill=0)

    def polygon(self, polygon: Polygon) -> None:
        path = self.canvas.beginPath()
        path.moveTo(*_spot(polygon.points[0]))
        for spot in polygon.points[1:]:
            path.lineTo(*_spot(spot))
        path.close()
        self._finish(path, polygon)

    def circle(self, circle: Circle) -> None:
        path = self.canvas.beginPath()
        path.circle(*_spot(circle.centre), _pt(circle.radius))
        self._finish(path, circle)

    def _finish(self, path: Any, stroke: Polygon | Circle) -> None:
        if stroke.pen is None and not stroke.fill:
            return
        if stroke.pen is not None:
            self.pen(stroke.pen)
        self.ink(stroke.fill)
        self.canvas.drawPath(path, stroke=int(stroke.pen is not None), fill=int(bool(stroke.fill)))

    def text(self, text: Text) -> None:
        words = clean(text.words)
        if not words.strip():
            return
        self.ink("black")
        width = text_width(words, text.height, text.bold)
        back = {"left": Fraction(0), "middle": width / 2, "right": width}[text.align]
        (x, y) = text.at
        self.canvas.setFont(face(text.bold).name, _pt(em_size(text.height, text.bold)))
        if not text.turn:
            self.canvas.drawString(_pt(x - back), _pt(y), words)
            return
        self.canvas.saveState()
        self.canvas.translate(_pt(x), _pt(y - back))
        self.canvas.rotate(90)
        self.canvas.drawString(0, 0, words)
        self.canvas.restoreState()


def _spot(spot: Spot) -> tuple[float, float]:
    return (_pt(spot[0]), _pt(spot[1]))
