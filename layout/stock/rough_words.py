"""What terminal and paper both tell of the rough list."""

from __future__ import annotations

from layout.checks.words import figure
from layout.measure import decimal_text
from layout.piece import Piece
from layout.stock.rough import Rough, Sheets, StockChoice, Timber
from layout.stock.said import counted, money

# Common practice, no source; the shop rule on short stock stands in defaults.toml.
CAUTION = (
    "Short blanks stay joined until they are planed: never feed a piece shorter than the machine's",
    "manual allows. Its guards, its manual and local rules come first.",
)


def sold_words(piece: Piece, one: Rough) -> str:
    """What thickness to ask for."""
    return "none so thick" if one.sold is None else one.sold.name or figure(piece, one.sold.rough)


def for_words(one: Rough) -> str:
    """What the boards are for, and how they make it."""
    words = [f"{one.row.count} × {one.row.name}" if one.row.count > 1 else one.row.name]
    if one.strips:
        words = [f"strips of the {one.row.name}"]
    if one.holds:
        words = [f"{one.row.name}, {len(one.holds)} in one blank {one.how}"]
    if one.beside > 1:
        words.append(f"glued up of {one.beside} side by side")
    if one.layers > 1:
        words.append(f"glued up of {one.layers} one on another")
    if one.gang > 1:
        words.append(f"{one.gang} joined end to end until planed")
    return ", ".join(words)


def finished_words(piece: Piece, one: Rough) -> str:
    """What the parts are finished to; of matched ones the first."""
    sizes = (one.row.thickness, one.row.width, one.row.length)
    return f"finished {' × '.join(figure(piece, size) for size in sizes)}"


def needed(stock: StockChoice) -> str:
    """The heading over the timber that the rough list comes to."""
    return f"Timber needed, with {decimal_text(stock.waste * 100)} % for waste"


def timber_words(piece: Piece, one: Timber) -> str:
    """A timber and its thickness as it is sold."""
    thick = one.sold.name or figure(piece, one.sold.rough)
    return f"{one.timber or 'no timber named'}, {thick}"


def amount_words(piece: Piece, one: Timber, stock: StockChoice) -> str:
    """Both measures, the piece's own first, and what it costs."""
    feet, metres = one.with_waste
    both = [f"{decimal_text(feet, 1)} board feet", f"{decimal_text(metres, 4)} cubic metres"]
    words = ", ".join(both if piece.rule.unit == "in" else reversed(both))
    if one.cost is not None:
        words += f", {money(one.cost, stock)}"
    return words


def sheet_words(piece: Piece, one: Sheets) -> tuple[str, str]:
    """Which sheets, and how much of them."""
    return (f"{figure(piece, one.thickness)} {one.timber}",
            f"{counted(one.many, 'piece')}, {decimal_text(one.area, 2)} square metres")
