"""Packets of the samples, on every kind of paper, read back: lines where the numbers say."""

from __future__ import annotations

import io
from functools import cache, lru_cache
from pathlib import Path

import pytest
from lxml import etree

import layout
from layout.checks import check
from layout.cli.packet import ALL, _sheets
from layout.mark import Finding
from layout.paper.pdf import write_pdf
from layout.paper.read_pdf import read_pdf
from layout.paper.readback import compare
from layout.paper.sizes import paper_named
from layout.paper.svg import svg_text
from layout.paper.tiles import lay_out
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.strokes import Line, Sheet

SAMPLES = sorted((Path(layout.__file__).parent.parent / "samples").glob("*.toml"))
# the smallest piece on every paper, the largest on their own only
LARGE = {
    "bedding_box": ("letter", "A4", "roll 24 in"),
    "writing_table": ("letter",), "map_chest": ("A4",), "wall_cabinet": ("A4",),
    "repair_bench": ("letter", "roll 24 in"),
}
PAPERS = ("letter", "A4", "legal", "tabloid", "A3", "roll 24 in", "roll 610 mm")


@cache  # the same piece goes onto every paper
def worked(path: Path) -> tuple[Piece, tuple[Finding, ...]]:
    piece = work_out(read_piece(path))
    return piece, check(piece)


@lru_cache(maxsize=2)
def full_size(path: Path) -> list[Sheet]:
    """Sticks and templates: they are drawn alike for every paper."""
    return sheets_of(path, "letter", ("sticks", "templates"))


def sheets_of(path: Path, paper: str, kinds: tuple[str, ...]) -> list[Sheet]:
    piece, findings = worked(path)
    return list(_sheets(piece, findings, kinds, paper_named(paper), None, lambda words: None))


def packet(path: Path, paper: str) -> list[Sheet]:
    assert ALL[-2:] == ("sticks", "templates")
    return sheets_of(path, paper, ALL[:-2]) + full_size(path)


# every paper with one inch piece and one metric one; the largest piece on the commonest
@pytest.mark.parametrize(
    ("path", "paper"),
    [
        (path, paper)
        for path in SAMPLES
        for paper in LARGE.get(path.stem, PAPERS)
    ],
    ids=lambda value: value.stem if isinstance(value, Path) else value,
)
def test_every_line_of_the_pdf_is_where_it_was_drawn(path: Path, paper: str) -> None:
    sheets = packet(path, paper)
    pages = lay_out(sheets, paper_named(paper), path.stem)
    buffer = io.BytesIO()
    write_pdf(pages, path.stem, buffer)
    proof = compare(pages, read_pdf(buffer.getvalue()))
    assert proof.good
    assert proof.lines > 1000
    assert proof.missing == 0
    assert proof.worst_mm < 0.001


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_every_marked_line_of_the_svgs_is_where_it_was_drawn(path: Path) -> None:
    compared = 0
    for sheet in packet(path, "letter"):
        root = etree.fromstring(svg_text(sheet, path.stem).encode("utf-8"))
        width, height = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
        assert [float(number) for number in root.get("viewBox").split()] == [0, 0, width, height]
        wanted = sorted(
            (float(s.a[0]), float(s.b[0]), float(s.a[1] - s.b[1]))
            for s in sheet.scene.strokes
            if isinstance(s, Line) and s.mark
        )
        # y runs down the page in SVG, and the drawing may stand off its edge
        found = sorted(
            (float(e.get("x1")), float(e.get("x2")), float(e.get("y2")) - float(e.get("y1")))
            for e in root.iter("{http://www.w3.org/2000/svg}line")
            if (e.get("id") or "").startswith("m")
        )
        assert len(found) == len(wanted)
        if not wanted:
            continue
        shift = found[0][0] - wanted[0][0]
        for one, other in zip(wanted, found, strict=True):
            assert other[0] - shift == pytest.approx(one[0], abs=0.001)
            assert other[1] - shift == pytest.approx(one[1], abs=0.001)
            assert other[2] == pytest.approx(one[2], abs=0.001)
            compared += 1
    assert compared > 80
