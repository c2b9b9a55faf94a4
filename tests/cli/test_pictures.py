"""README's picture is what the program draws now."""

from __future__ import annotations

from pathlib import Path

import layout
from layout.paper.svg import svg_text
from layout.piece import work_out
from layout.piece_file.reader import read_piece
from layout.sheets.bearer_template import bearers

ROOT = Path(layout.__file__).parent.parent


def test_the_picture_is_up_to_date() -> None:
    piece = work_out(read_piece(ROOT / "samples" / "repair_bench.toml"))
    name = "Mortise for end rail: back side, left hand"
    (sheet,) = [sheet for sheet in bearers(piece) if sheet.name == name]
    kept = (ROOT / "samples" / "pictures" / "mortise.svg").read_text(encoding="utf-8")
    assert kept == svg_text(sheet, piece.name)


def test_readme_shows_it() -> None:
    assert "(samples/pictures/mortise.svg)" in (ROOT / "README.md").read_text(encoding="utf-8")
