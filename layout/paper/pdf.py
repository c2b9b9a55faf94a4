"""Pages into one PDF, at full size, the same bytes every time.

The file asks the viewer to print without scaling (ViewerPreferences PrintScaling None, a key of
PDF 1.6), embeds its fonts, and carries the library's fixed date in place of today's. A point is
exactly 127/360 mm; all lengths but the size of letters are written by our own number writer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO

from layout.measure import ratio_text
from layout.paper.drawing import PageDrawing, Rectangle
from layout.scene.lettering import clean, em_size, face, text_width
from layout.scene.strokes import Circle, Line, Pen, Polygon, Spot, Stroke, Text

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Progress = Callable[[int, int], None]
_POINT = Fraction(360, 127)  # points to the millimetre: 72 / 25.4
_GREY = {"black": 0, "white": 1}
# How far along its tangent the handle of a quarter's Bezier curve lies: 4/3 (root of 2, less 1).
_ARC = Fraction(5_522_847_498, 10_000_000_000)


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


def _size(page: PageDrawing) -> tuple[Any, Any]:
    """A page's size in points: decimals, of which the library keeps every digit."""
    from decimal import Decimal

    return (Decimal(_pt(page.width)), Decimal(_pt(page.height)))


def _pt(length: Fraction) -> str:
    """A length in points, to a millionth."""
    # asked for every end of every line: not worth bringing to lowest terms
    return ratio_text(length.numerator * 360, length.denominator * 127)


def _spot(spot: Spot) -> str:
    return f"{_pt(spot[0])} {_pt(spot[1])}"


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
    writer = _Writer(canvas)
    # Butt caps, so that a line ends exactly where it says; mitred corners.
    writer.put("q 0 J 0 j")
    if clip is not None:
        (x0, y0), (x1, y1) = clip
        writer.put(f"{_spot(clip[0])} {_pt(x1 - x0)} {_pt(y1 - y0)} re W n")
    run: list[Line] = []
    for stroke in strokes:
        if run and not (isinstance(stroke, Line) and _goes_on(run[-1], stroke)):
            writer.lines(run)
            run = []
        if isinstance(stroke, Line):
            run.append(stroke)
        elif isinstance(stroke, Text):
            writer.text(stroke)
        elif isinstance(stroke, Circle):
            writer.circle(stroke)
        else:
            writer.polygon(stroke)
    if run:
        writer.lines(run)
    writer.put("Q")


def _goes_on(before: Line, line: Line) -> bool:
    """True where a line starts at the end of the one before, so that they share a corner."""
    return before.b == line.a and before.pen is line.pen and line.a != line.b and not line.phase


class _Writer:
    """Writes strokes as PDF operators, and changes pen and fill only where a stroke needs it.

    The library's own drawing calls keep six or seven digits of a number, too few on a long
    page: so lines go in as operators, with all their digits, and only letters are left to it.
    """

    def __init__(self, canvas: Canvas) -> None:
        self.canvas: Any = canvas
        self.now: tuple[Pen, Fraction] | None = None
        self.fill = ""

    def put(self, operators: str) -> None:
        """Operators as they stand (ISO 32000-1 Annex A)."""
        self.canvas.addLiteral(operators)

    def pen(self, pen: Pen, phase: Fraction = Fraction(0)) -> None:
        """Width and dashes of the strokes that follow."""
        if self.now != (pen, phase):
            dashes = " ".join(_pt(dash) for dash in pen.dashes)
            self.put(f"{_pt(pen.width)} w [{dashes}] {_pt(phase)} d")
            self.now = (pen, phase)

    def ink(self, fill: str) -> None:
        """What the strokes that follow are filled with, where they are."""
        if fill and fill != self.fill:
            self.put(f"{_GREY[fill]} g")
            self.fill = fill

    def lines(self, run: list[Line]) -> None:
        """Lines that go on from one another, as one path."""
        self.pen(run[0].pen, run[0].phase)
        path = [f"{_spot(run[0].a)} m", *(f"{_spot(line.b)} l" for line in run)]
        # a run that comes back to its start is a closed outline, whose last corner is joined too
        closed = len(run) > 2 and run[0].a == run[-1].b
        self.put(f"{' '.join(path)} {'h S' if closed else 'S'}")

    def polygon(self, polygon: Polygon) -> None:
        """A closed outline."""
        first, *rest = polygon.points
        path = [f"{_spot(first)} m", *(f"{_spot(spot)} l" for spot in rest), "h"]
        self._paint(" ".join(path), polygon)

    def circle(self, circle: Circle) -> None:
        """Four arcs, each within 0.03 % of the radius of a true quarter."""
        (x, y), r = circle.centre, circle.radius
        path = [f"{_spot((x + r, y))} m"]
        for dx, dy in ((1, 0), (0, 1), (-1, 0), (0, -1)):
            # from the point this way to the one a quarter further on
            end = (x - dy * r, y + dx * r)
            out = (x + dx * r - dy * r * _ARC, y + dy * r + dx * r * _ARC)
            back = (end[0] + dx * r * _ARC, end[1] + dy * r * _ARC)
            path.append(f"{_spot(out)} {_spot(back)} {_spot(end)} c")
        self._paint(f"{' '.join(path)} h", circle)

    def _paint(self, path: str, stroke: Polygon | Circle) -> None:
        if stroke.pen is None and not stroke.fill:
            return
        if stroke.pen is not None:
            self.pen(stroke.pen)
        self.ink(stroke.fill)
        operator = ("B" if stroke.fill else "S") if stroke.pen is not None else "f"
        self.put(f"{path} {operator}")

    def text(self, text: Text) -> None:
        """One line of text, moved back by what its alignment asks."""
        words = clean(text.words)
        if not words.strip():
            return
        self.ink("black")
        width = text_width(words, text.height, text.bold)
        back = {"left": Fraction(0), "middle": width / 2, "right": width}[text.align]
        (x, y) = text.at
        at = (x, y - back) if text.turn else (x - back, y)
        self.put(f"q {'0 1 -1 0' if text.turn else '1 0 0 1'} {_spot(at)} cm")
        size = float(em_size(text.height, text.bold) * _POINT)
        self.canvas.setFont(face(text.bold).name, size)
        self.canvas.drawString(0, 0, words)
        self.put("Q")
