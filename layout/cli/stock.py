"""The `stock` command: the cut list, what to saw out for it, and what to buy."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from layout.checks.words import figure as said
from layout.cli.answer import figure_lines
from layout.cli.cut_list import cut_list_csv, cut_list_lines, cut_list_numbers
from layout.cli.lines import dumped
from layout.cli.shop import opened_shop
from layout.cli.spreadsheet import spreadsheet
from layout.measure import exact_text
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.stock.rough import Rough, StockChoice, Timber, rough_list, sheets, totals
from layout.stock.rough_words import (
    CAUTION,
    amount_words,
    for_words,
    needed,
    sheet_words,
    sold_words,
    timber_words,
)

HEADS = ("boards", "rough", "width", "length", "finished", "timber", "", "for")
CSV_HEADS = ("boards", "rough", "width", "length", "finished thickness", "finished width",
             "finished length", "timber", "letter", "for")
LEFT = (4, 5, 6, 7)  # the columns of words; figures stand at the right


def tell_stock(
    path: Path, as_json: bool = False, as_csv: bool = False, only_cut_list: bool = False
) -> int:
    """Print the cut list, the rough list and what to buy, or the cut list alone; as JSON and for a
    spreadsheet it is one of the two lists. Always 0, for it is a reckoning and no check.
    """
    choice, stock = piece_and_stock(path, opened_shop())
    piece = work_out(choice)
    if only_cut_list:
        told = _cut_list(piece, as_json, as_csv)
    else:
        told = _stock(piece, stock, as_json, as_csv)
    print(told)
    return 0


def _cut_list(piece: Piece, as_json: bool, as_csv: bool) -> str:
    if as_json:
        return dumped(cut_list_numbers(piece))
    return cut_list_csv(piece).rstrip("\n") if as_csv else "\n".join(cut_list_lines(piece))


def _stock(piece: Piece, stock: StockChoice, as_json: bool, as_csv: bool) -> str:
    rough = rough_list(piece, stock)
    if as_json:
        return dumped(_numbers(piece, rough, stock))
    if as_csv:
        return _csv(piece, rough).rstrip("\n")
    return "\n".join([*cut_list_lines(piece), "", *stock_lines(piece, rough, stock)])


def stock_lines(piece: Piece, rough: Sequence[Rough], stock: StockChoice) -> list[str]:
    """The rough list in columns, what to buy of each timber, and the sheets."""
    if not rough:
        return _sheet_lines(piece) or [f"Nothing of the {piece.name} is sawn"]
    rows = [HEADS, *(_row(piece, one) for one in rough)]
    wide = [max(len(row[at]) for row in rows) for at in range(len(HEADS))]
    lines = [f"Rough list of the {piece.name}, added: {said(piece, stock.width)} to widths, "
             f"{said(piece, stock.length)} to lengths", ""]
    for row in rows:
        cells = [f"{cell:<{width}}" if at in LEFT else f"{cell:>{width}}"
                 for at, (cell, width) in enumerate(zip(row, wide, strict=True))]
        lines.append("  ".join(cells).rstrip())
    told = totals(tuple(rough), stock)
    if told:
        lines += ["", needed(stock)]
        lines += figure_lines(
            [(timber_words(piece, one), amount_words(piece, one, stock)) for one in told])
    flat = _sheet_lines(piece)
    return [*lines, *([""] if flat else []), *flat, "", *CAUTION]


def _sheet_lines(piece: Piece) -> list[str]:
    """What sheets the piece takes."""
    flat = sheets(piece)
    if not flat:
        return []
    return ["Sheets, finished sizes without waste",
            *figure_lines([sheet_words(piece, one) for one in flat])]


def _row(piece: Piece, one: Rough) -> tuple[str, ...]:
    return (*_ordered(piece, one), " × ".join(_finished(piece, one)), *_what(one))


def _ordered(piece: Piece, one: Rough) -> tuple[str, ...]:
    """How many boards, how thick, wide and long."""
    return (str(one.many), sold_words(piece, one), said(piece, one.width), said(piece, one.length))


def _finished(piece: Piece, one: Rough) -> tuple[str, str, str]:
    """Thickness, width and length of each part that comes out of them."""
    return (said(piece, one.row.thickness), said(piece, one.row.width),
            said(piece, one.row.length))


def _what(one: Rough) -> tuple[str, str, str]:
    return (one.row.timber or "no timber named", one.row.letter, for_words(one))


def _csv(piece: Piece, rough: Sequence[Rough]) -> str:
    """The rough list for a spreadsheet: a head, then a row each."""
    return spreadsheet(CSV_HEADS, (
        (*_ordered(piece, one), *_finished(piece, one), *_what(one)) for one in rough
    ))


def _numbers(piece: Piece, rough: Sequence[Rough], stock: StockChoice) -> dict[str, Any]:
    """The rough list as exact lengths, volumes and amounts."""

    def sized(one: Rough) -> dict[str, Any]:
        return {
            "name": one.row.name, "parts": list(one.row.parts), "timber": one.row.timber,
            "boards": one.many,
            "sold": None if one.sold is None else one.sold.name,
            "thickness": None if one.sold is None else exact_text(one.sold.rough),
            "width": exact_text(one.width), "length": exact_text(one.length),
            "finished": {
                "thickness": exact_text(one.row.thickness), "width": exact_text(one.row.width),
                "length": exact_text(one.row.length),
            },
            "match": one.match, "how": one.how or None,
            "gang": len(one.holds) or one.gang, "beside": one.beside, "layers": one.layers,
            "board_feet": exact_text(one.feet), "cubic_metres": exact_text(one.volume),
        }

    def bought(one: Timber) -> dict[str, Any]:
        return {
            "timber": one.timber, "sold": one.sold.name, "thickness": exact_text(one.sold.rough),
            "board_feet": exact_text(one.feet), "cubic_metres": exact_text(one.volume),
            "with_waste": [exact_text(size) for size in one.with_waste],
            "cost": None if one.cost is None else exact_text(one.cost),
        }

    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "rough": [sized(one) for one in rough],
        "buy": [bought(one) for one in totals(tuple(rough), stock)],
        "sheets": [
            {"timber": one.timber, "thickness": exact_text(one.thickness), "pieces": one.many,
             "square_metres": exact_text(one.area)} for one in sheets(piece)
        ],
    }
