"""The cut list in words, for a spreadsheet and as JSON: finished sizes, the joints at both ends,
what is borne along the length, and the reference surfaces.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from layout.checks.words import figure as said
from layout.cli.spreadsheet import spreadsheet
from layout.measure import exact_text
from layout.piece import Piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.row_words import RowWords, row_words

HEADS = ("assembly", "letter", "count", "part", "timber", "thickness", "width", "length", "end A",
         "end B", "bears", "face side", "face edge", "note")
INDENT = " " * 8


def cut_list_lines(piece: Piece) -> list[str]:
    """The rows under a heading for each assembly, and below each row what it says."""
    lines = [f"Cut list of the {piece.name}, finished sizes with tenons and tails"]
    rows = _told(piece)
    for assembly, same in groupby(rows, key=lambda one: one[0].assembly):
        group = list(same)
        lines += ["", assembly[:1].upper() + assembly[1:]]
        for line, (row, words) in zip(_columns(piece, [row for row, _ in group]), group,
                                      strict=True):
            lines += [line, *_notes(row, words)]
    return lines


def cut_list_csv(piece: Piece) -> str:
    """A row each, sizes as they are shown."""
    return spreadsheet(HEADS, (
        (row.assembly, row.letter, f"{row.count}", row.name, row.timber, *_sizes(piece, row),
         *words, row.note)
        for row, words in _told(piece)
    ))


def cut_list_numbers(piece: Piece) -> dict[str, Any]:
    """The rows with exact lengths, Fractions of a millimetre."""
    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "cut_list": [
            {
                "assembly": row.assembly, "letter": row.letter, "count": row.count,
                "name": row.name, "parts": list(row.parts), "timber": row.timber,
                "thickness": exact_text(row.thickness), "width": exact_text(row.width),
                "length": exact_text(row.length), **words._asdict(), "note": row.note,
            } for row, words in _told(piece)
        ],
    }


def _told(piece: Piece) -> list[tuple[Row, RowWords]]:
    rows = cut_list(piece)
    return list(zip(rows, row_words(piece, rows), strict=True))


def _sizes(piece: Piece, row: Row) -> tuple[str, str, str]:
    return (said(piece, row.thickness), said(piece, row.width), said(piece, row.length))


def _columns(piece: Piece, rows: list[Row]) -> Iterator[str]:
    """Letter, count, name, timber and sizes, each under the one above."""
    cells = [(f"{row.count}", row.letter, row.name, row.timber, *_sizes(piece, row))
             for row in rows]
    wide = [max(len(one[at]) for one in cells) for at in range(7)]
    for count, letter, name, timber, *sizes in cells:
        figures = " × ".join(f"{size:>{w}}" for size, w in zip(sizes, wide[4:], strict=True))
        yield (f"{count:>{max(wide[0], 3)}} {letter:<{max(wide[1], 3)}} {name:<{wide[2]}}  "
               f"{timber:<{wide[3]}}  {figures}").rstrip()


def _notes(row: Row, words: RowWords) -> Iterator[str]:
    for note in (words.ends, words.bears, words.reference, row.note):
        if note:
            yield f"{INDENT}{note}"
