"""The `stock` command: what to buy and saw out, from the cut list."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from layout.cli.answer import figure_lines
from layout.cli.lines import dumped, said
from layout.cli.shop import opened_shop
from layout.measure import decimal_text, exact_text, nearest
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.stock.rough import Rough, StockChoice, Timber, rough_list, sheets, totals

# Common practice, no source; the shop rule on short stock stands in defaults.toml.
CAUTION = (
    "Short blanks stay joined until they are planed: never feed a piece shorter than the machine's",
    "manual allows. Its guards, its manual and local rules come first.",
)
HEADS = ("boards", "rough", "width", "length", "timber", "for")
# What a spreadsheet would take for a formula.
FORMULA = ("=", "+", "-", "@")


def tell_stock(path: Path, as_json: bool = False, as_csv: bool = False) -> int:
    """Print the rough list and what to buy; always 0, for it is a reckoning and no check."""
    choice, stock = piece_and_stock(path, opened_shop())
    piece = work_out(choice)
    rough = rough_list(piece, stock)
    if as_json:
        print(dumped(_numbers(piece, rough, stock)))
    elif as_csv:
        print(_csv(piece, rough), end="")
    else:
        print("\n".join(stock_lines(piece, rough, stock)))
    return 0


def stock_lines(piece: Piece, rough: Sequence[Rough], stock: StockChoice) -> list[str]:
    """The rough list in columns, what to buy of each timber, and the sheets."""
    rows = [HEADS, *(_row(piece, one) for one in rough)]
    wide = [max(len(row[at]) for row in rows) for at in range(len(HEADS))]
    lines = [f"Rough list of the {piece.name}, added: {said(piece, stock.width)} to widths, "
             f"{said(piece, stock.length)} to lengths", ""]
    for row in rows:
        cells = [f"{cell:>{width}}" if at < 4 else f"{cell:<{width}}"
                 for at, (cell, width) in enumerate(zip(row, wide, strict=True))]
        lines.append("  ".join(cells).rstrip())
    told = totals(tuple(rough), stock)
    if told:
        percent = decimal_text(stock.waste * 100)
        lines += ["", f"To buy, with {percent} % for waste"]
        lines += figure_lines([(_named(piece, one), _amount(piece, one, stock)) for one in told])
    flat = sheets(piece)
    if flat:
        lines += ["", "Sheets, finished sizes without waste"]
        lines += figure_lines([
            (f"{said(piece, one.thickness)} {one.timber}",
             f"{one.many} pieces, {decimal_text(one.area, 2)} square metres") for one in flat
        ])
    return [*lines, "", *CAUTION]


def _row(piece: Piece, one: Rough) -> tuple[str, ...]:
    thick = "none so thick" if one.sold is None else one.sold.name or said(piece, one.sold.rough)
    return (str(one.many), thick, said(piece, one.width), said(piece, one.length),
            one.row.timber or "no timber named", _for(one))


def _for(one: Rough) -> str:
    """What the boards are for, and how they make it."""
    words = [f"{one.row.count} × {one.row.name}" if one.row.count > 1 else one.row.name]
    if one.beside > 1:
        words.append(f"{one.beside} side by side")
    if one.layers > 1:
        words.append(f"{one.layers} one on another")
    if one.gang > 1:
        words.append(f"{one.gang} joined end to end until planed")
    return ", ".join(words)


def _named(piece: Piece, one: Timber) -> str:
    thick = one.sold.name or said(piece, one.sold.rough)
    return f"{one.timber or 'no timber named'}, {thick}"


def _amount(piece: Piece, one: Timber, stock: StockChoice) -> str:
    """Both measures, the piece's own first, and what it costs."""
    feet, metres = one.with_waste
    both = [f"{decimal_text(feet, 1)} board feet", f"{decimal_text(metres, 4)} cubic metres"]
    words = ", ".join(both if piece.rule.unit == "in" else reversed(both))
    if one.cost is not None:
        cents = nearest(one.cost * 100)
        words += f", {cents // 100}.{cents % 100:02d} {stock.money}".rstrip()
    return words


def _csv(piece: Piece, rough: Sequence[Rough]) -> str:
    """The rough list for a spreadsheet: a head, then a row each."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADS)
    for one in rough:
        writer.writerow([_plain(cell) for cell in _row(piece, one)])
    return out.getvalue()


def _plain(cell: str) -> str:
    """A cell that no spreadsheet runs as a formula."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell


def _numbers(piece: Piece, rough: Sequence[Rough], stock: StockChoice) -> dict[str, Any]:
    """The rough list as exact lengths, volumes and amounts."""

    def sized(one: Rough) -> dict[str, Any]:
        return {
            "name": one.row.name, "parts": list(one.row.parts), "timber": one.row.timber,
            "boards": one.many,
            "sold": None if one.sold is None else one.sold.name,
            "thickness": None if one.sold is None else exact_text(one.sold.rough),
            "width": exact_text(one.width), "length": exact_text(one.length),
            "gang": one.gang, "beside": one.beside, "layers": one.layers,
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
