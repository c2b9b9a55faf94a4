"""What was really written: our own PDF and SVG read back and held against the drawing.

Reading goes through another library (pypdf) or a plain XML reader, from the file's bytes, so a
fault in a writer can't hide itself. Read sizes are floats: they come from decimal text.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from layout.errors import CantWrite
from layout.paper.drawing import PageDrawing
from layout.paper.read_page import ReadPage, Segment, gap
from layout.paper.read_pdf import read_pdf
from layout.paper.read_svg import read_svg
from layout.scene.lettering import clean
from layout.scene.strokes import Circle, Line, Polygon, Text

__all__ = ["Proof", "compare", "prove", "read_pdf", "read_svg"]

# In mm. All that a print can show lies above TOLERANCE by far.
TOLERANCE = 1 / 1000
_SAME_PEN = 1 / 100
_CELL = 1 / 20


@dataclass(frozen=True)
class Proof:
    """How what was read back compares with what was drawn.

    `lines` edges and circles were looked for and `missing` of them not found; the worst end of
    any of them is `worst_mm` off, missing ones counted by the nearest thing there is. `strange`
    edges were found that nobody drew; `words` texts are missing or strange.
    """

    lines: int
    worst_mm: float
    missing: int
    strange: int
    words: int

    @property
    def good(self) -> bool:
        """True where everything is there, nothing else is, and all is in its place."""
        faults = self.missing or self.strange or self.words
        return not faults and self.worst_mm <= TOLERANCE


def prove(pages: Sequence[PageDrawing], data: bytes) -> Proof:
    """Read a PDF of these pages back and prove that it holds them.

    Raises CantWrite where a line is missing, strange or more than 0.001 mm off.
    """
    proof = compare(pages, read_pdf(data))
    if not proof.good:
        raise CantWrite(
            f"the PDF read back differs from the drawing: of {proof.lines} lines "
            f"{proof.missing} missing and {proof.strange} strange, {proof.words} texts wrong, "
            f"the worst {proof.worst_mm:.4f} mm off",
            "nothing was written; this is a fault in the program, please report it",
        )
    return proof


def compare(pages: Sequence[PageDrawing], read: Sequence[ReadPage]) -> Proof:
    """Hold pages read back against the pages as drawn: sizes, edges, circles and words."""
    if len(pages) != len(read):
        return Proof(0, inf, abs(len(pages) - len(read)), 0, 0)
    proofs = [_compare_page(page, found) for page, found in zip(pages, read, strict=True)]
    return Proof(
        sum(proof.lines for proof in proofs),
        max((proof.worst_mm for proof in proofs), default=inf),
        sum(proof.missing for proof in proofs),
        sum(proof.strange for proof in proofs),
        sum(proof.words for proof in proofs),
    )


def _compare_page(page: PageDrawing, read: ReadPage) -> Proof:
    worst = max(abs(read.width - float(page.width)), abs(read.height - float(page.height)))
    free: dict[tuple[int, int], list[Segment]] = defaultdict(list)
    for segment in read.segments:
        free[_cell(segment)].append(segment)
    wanted = list(_edges(page))
    lost = []
    for segment in wanted:
        near = [
            (_apart(segment, other), cell, other)
            for cell in _around(_cell(segment))
            for other in free.get(cell, ())
            if abs(other.pen - segment.pen) < _SAME_PEN
        ]
        if not near:
            lost.append(segment)
            continue
        off, cell, other = min(near, key=lambda one: one[0])
        free[cell].remove(other)
        worst = max(worst, off)
    for segment in lost:
        worst = max(worst, min((_apart(segment, other) for other in read.segments), default=inf))
    strange = sum(len(rest) for rest in free.values())

    circles = list(read.circles)
    round_ones = [stroke for stroke in page.strokes if isinstance(stroke, Circle) if _drawn(stroke)]
    lost_circles = 0
    for circle in round_ones:
        want = (float(circle.centre[0]), float(circle.centre[1]), float(circle.radius))
        offs = [(_off(want, found), found) for found in circles]
        off, found = min(offs, default=(inf, None))
        if found is None or off > _CELL:
            lost_circles += 1
        else:
            circles.remove(found)
        worst = max(worst, off)

    said = Counter(clean(s.words) for s in page.strokes if isinstance(s, Text))
    for silent in [words for words in said if not words.strip()]:
        del said[silent]
    heard = Counter(read.texts)
    words = (said - heard).total() + (heard - said).total()
    return Proof(
        len(wanted) + len(round_ones), worst, len(lost) + lost_circles,
        strange + len(circles), words,
    )


def _edges(page: PageDrawing) -> Iterator[Segment]:
    """Every straight edge that a page should show."""
    for stroke in page.strokes:
        if isinstance(stroke, Line):
            yield from _edge(stroke.a, stroke.b, stroke.pen.width)
        elif isinstance(stroke, Polygon) and _drawn(stroke):
            pen = Fraction(0) if stroke.pen is None else stroke.pen.width
            ends = (*stroke.points[1:], stroke.points[0])
            for a, b in zip(stroke.points, ends, strict=True):
                yield from _edge(a, b, pen)


def _edge(
    a: tuple[Fraction, Fraction], b: tuple[Fraction, Fraction], pen: Fraction
) -> Iterator[Segment]:
    if a != b:
        yield Segment((float(a[0]), float(a[1])), (float(b[0]), float(b[1])), float(pen))


def _drawn(stroke: Polygon | Circle) -> bool:
    return stroke.pen is not None or bool(stroke.fill)


def _cell(segment: Segment) -> tuple[int, int]:
    """A small square by the middle of an edge: the same whichever end comes first."""
    return (
        round((segment.a[0] + segment.b[0]) / 2 / _CELL),
        round((segment.a[1] + segment.b[1]) / 2 / _CELL),
    )


def _around(cell: tuple[int, int]) -> Iterator[tuple[int, int]]:
    for i in (-1, 0, 1):
        for j in (-1, 0, 1):
            yield (cell[0] + i, cell[1] + j)


def _apart(one: Segment, other: Segment) -> float:
    """How far the worse end is off, whichever way round the edge was drawn."""
    return min(
        max(gap(one.a, other.a), gap(one.b, other.b)),
        max(gap(one.a, other.b), gap(one.b, other.a)),
    )


def _off(one: tuple[float, float, float], other: tuple[float, float, float]) -> float:
    return max(gap(one[:2], other[:2]), abs(one[2] - other[2]))
