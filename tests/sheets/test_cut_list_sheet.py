"""The cut list's page: headings that never stand alone, and every word under its row."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.strokes import Sheet, Text
from layout.sheets.cut_list_sheet import HEAD, HEAD_LINE, LINE, cut_list_sheets
from layout.sheets.easel import LABEL, NAME, NOTE
from layout.sheets.lists import ROW, TITLE
from layout.stock.cut_list import cut_list
from layout.stock.row_words import row_words

ROOT = Path(__file__).parents[2]
PAGES = {"A4": (Fraction(170), Fraction(235)), "letter": (Fraction(176), Fraction(217)),
         "low": (Fraction(170), Fraction(90))}
PIECES: dict[str, Piece] = {
    path.stem: work_out(read_piece(path))
    for path in (*(ROOT / "samples").glob("*.toml"),
                 *(ROOT / "tests" / "piece_file").glob("every_[dt]*.toml"))
}


def texts(sheet: Sheet, height: Fraction) -> list[Text]:
    """Texts of one height from the top down."""
    found = [one for one in sheet.scene.strokes if isinstance(one, Text) and one.height == height]
    return sorted(found, key=lambda one: -one.at[1])


@pytest.mark.parametrize("name", sorted(PIECES))
@pytest.mark.parametrize("page", sorted(PAGES))
def test_headings_lead_their_rows(name: str, page: str) -> None:
    """In order one heading an assembly, `continued` at the head of each further page; below every
    heading stands a row, close by.
    """
    p, area = PIECES[name], PAGES[page]
    found, rows = [], []
    for sheet in cut_list_sheets(p, area):
        lines = [one for one in texts(sheet, NAME) if one.bold]
        counts = [one for one in texts(sheet, LABEL) if one.bold and one.align == "right"]
        assert lines[0].at[1] == area[1] - TITLE - HEAD + 2
        heads: list[Text] = []
        for line in lines:
            if heads and heads[-1].at[1] - line.at[1] == HEAD_LINE:  # a long name's second line
                first = heads.pop()
                heads.append(replace(line, words=f"{first.words} {line.words}"))
            else:
                heads.append(line)
        for head in heads:
            more = [one for one in texts(sheet, NOTE)
                    if one.at[1] == head.at[1] and one.words == "continued"]
            assert not more or head is heads[0]  # once a page, at its head
            found.append((head.words, bool(more)))
            below = max(one.at[1] for one in counts if one.at[1] < head.at[1])
            assert head.at[1] - below == ROW + 2
        for stroke in sheet.scene.strokes:
            if isinstance(stroke, Text):
                assert 0 < stroke.at[1] < area[1]
        rows += [one.words for one in counts]
    assert rows == [str(row.count) for row in cut_list(p)]
    names = [row.assembly[0].upper() + row.assembly[1:] for row in cut_list(p)]
    assert [head for head, more in found if not more] == list(dict.fromkeys(names))


@pytest.mark.parametrize("name", sorted(PIECES))
def test_what_a_row_says_stands_under_it(name: str) -> None:
    p = PIECES[name]
    told = ""
    for sheet in cut_list_sheets(p, PAGES["A4"]):
        notes = [one for one in texts(sheet, NOTE) if one.at[0] in (22, 25)]
        told += " ".join(one.words for one in notes) + " "
        for one in notes:  # no note at a row's own height
            assert not any(one.at[1] == row.at[1] for row in texts(sheet, LABEL))
        for one, following in pairwise(notes):
            assert one.at[1] - following.at[1] >= LINE
    rows = cut_list(p)
    at = 0
    for row, words in zip(rows, row_words(p, rows), strict=True):
        for said in (words.ends, words.bears, words.reference, row.note):
            at = told.index(said, at) + len(said)
    assert at > 0
