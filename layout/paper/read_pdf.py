"""One of our own PDFs read back, operator by operator (ISO 32000-1 Annex A)."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from layout.paper.read_page import Matrix, Point, ReadPage, Segment, gap, through, times

_MM = 127 / 360  # a point in mm


def read_pdf(data: bytes) -> list[ReadPage]:
    """The pages of one of our own PDFs: no forms, no images, letters by their ToUnicode maps."""
    import io

    from pypdf import PdfReader
    from pypdf.generic import ContentStream

    reader = PdfReader(io.BytesIO(data))
    pages = []
    for page in reader.pages:
        box = page.mediabox
        read = ReadPage(float(box.width) * _MM, float(box.height) * _MM)
        corner = (-float(box.left), -float(box.bottom))
        content = page.get_contents()
        if content is not None:
            stream = ContentStream(content, reader)
            _PdfReplay(read, corner, _letters(page)).run(stream.operations)
        pages.append(read)
    return pages


def _letters(page: Any) -> dict[str, dict[int, str]]:
    """For each font of a page, what its codes stand for."""
    found = {}
    fonts = page["/Resources"].get_object().get("/Font", {})
    for name, font in fonts.get_object().items():
        to_unicode = font.get_object().get("/ToUnicode")
        pairs = []
        if to_unicode is not None:
            text = to_unicode.get_object().get_data().decode("latin-1")
            pairs = re.findall(r"<([0-9A-Fa-f]{2})>\s*<([0-9A-Fa-f]{4})>\s", text)
        found[name] = {int(code, 16): chr(int(letter, 16)) for code, letter in pairs}
    return found


class _PdfReplay:
    """Walks through a page's operators (ISO 32000-1 Annex A) and notes what they draw."""

    def __init__(
        self, page: ReadPage, corner: Point, letters: dict[str, dict[int, str]]
    ) -> None:
        self.page = page
        self.letters = letters
        self.matrix: Matrix = (1, 0, 0, 1, *corner)
        self.pen = 1 * _MM
        self.kept: list[tuple[Matrix, float]] = []
        self.paths: list[list[Point]] = []
        self.curves: list[list[Point]] = []
        self.font: dict[int, str] = {}
        self.words = ""

    def run(self, operations: Sequence[tuple[Any, bytes]]) -> None:
        for operands, operator in operations:
            step = getattr(self, f"_do_{_NAMES.get(operator, 'nothing')}")
            step(operands)

    def _do_nothing(self, operands: Any) -> None:
        """Colours, dashes, caps: nothing that moves a line."""

    def _do_save(self, operands: Any) -> None:
        self.kept.append((self.matrix, self.pen))

    def _do_restore(self, operands: Any) -> None:
        self.matrix, self.pen = self.kept.pop()

    def _do_matrix(self, operands: Any) -> None:
        a, b, c, d, e, f = (float(value) for value in operands)
        self.matrix = times((a, b, c, d, e, f), self.matrix)

    def _do_width(self, operands: Any) -> None:
        a, b, c, d, _, _ = self.matrix
        self.pen = float(operands[0]) * abs(a * d - b * c) ** (1 / 2) * _MM

    def _do_move(self, operands: Any) -> None:
        self.paths.append([self._point(operands)])
        self.curves.append([])

    def _do_line(self, operands: Any) -> None:
        self.paths[-1].append(self._point(operands))

    def _do_curve(self, operands: Any) -> None:
        self.curves[-1].append(self._point(operands[-2:]))

    def _do_close(self, operands: Any) -> None:
        self.paths[-1].append(self.paths[-1][0])

    def _do_rectangle(self, operands: Any) -> None:
        x, y, w, h = (float(value) for value in operands)
        corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))
        self.paths.append([self._point(corner) for corner in corners])
        self.curves.append([])

    def _do_forget(self, operands: Any) -> None:
        self.paths, self.curves = [], []

    def _do_stroke(self, operands: Any) -> None:
        self._paint(self.pen)

    def _do_close_stroke(self, operands: Any) -> None:
        self._do_close(operands)
        self._paint(self.pen)

    def _do_fill(self, operands: Any) -> None:
        for path in self.paths:
            path.append(path[0])
        self._paint(0)

    def _paint(self, pen: float) -> None:
        for path, curve in zip(self.paths, self.curves, strict=True):
            if curve:
                self.page.circles.append(_circle(curve))
                continue
            for a, b in pairwise(path):
                if a != b:
                    self.page.segments.append(Segment(a, b, pen))
        self.paths, self.curves = [], []

    def _do_text(self, operands: Any) -> None:
        self.words = ""

    def _do_font(self, operands: Any) -> None:
        self.font = self.letters.get(str(operands[0]), {})

    def _do_show(self, operands: Any) -> None:
        string = operands[0]
        codes = getattr(string, "original_bytes", string)
        codes = codes.encode("latin-1") if isinstance(codes, str) else codes
        self.words += "".join(self.font.get(code, "\ufffd") for code in codes)

    def _do_text_end(self, operands: Any) -> None:
        if self.words:
            self.page.texts.append(self.words)

    def _point(self, operands: Any) -> Point:
        x, y = through(self.matrix, (float(operands[0]), float(operands[1])))
        return (x * _MM, y * _MM)


_NAMES = {
    b"q": "save", b"Q": "restore", b"cm": "matrix", b"w": "width",
    b"m": "move", b"l": "line", b"c": "curve", b"v": "curve", b"y": "curve",
    b"h": "close", b"re": "rectangle", b"n": "forget",
    b"S": "stroke", b"s": "close_stroke", b"f": "fill", b"F": "fill", b"f*": "fill",
    b"B": "stroke", b"B*": "stroke", b"b": "close_stroke", b"b*": "close_stroke",
    b"BT": "text", b"Tf": "font", b"Tj": "show", b"ET": "text_end",
}  # fmt: skip


def _circle(curve: list[Point]) -> tuple[float, float, float]:
    """Centre and radius of a circle from the ends of its four arcs."""
    x = sum(point[0] for point in curve) / len(curve)
    y = sum(point[1] for point in curve) / len(curve)
    return (x, y, max(gap((x, y), point) for point in curve))
