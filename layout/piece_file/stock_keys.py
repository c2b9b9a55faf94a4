"""The keys of [stock]: what is added to finished sizes, what is sold, and what it costs."""

from __future__ import annotations

import re
from fractions import Fraction

from layout.defaults import Unit, default_length, default_ratio
from layout.measure.read import quoted
from layout.piece_file.rack_keys import read_rack
from layout.piece_file.table import Table
from layout.stock.rough import Price, StockChoice
from layout.stock.sold import Sold, thicknesses

PER = ("board foot", "cubic metre")
MOST_WASTE = 300
MOST_PRICES = 30
_MONEY = re.compile(r"[0-9]{1,7}(?:[.][0-9]{1,4})?|[.][0-9]{1,4}")


def read_stock(table: Table, unit: Unit) -> StockChoice:
    """[stock], or what is usual where it says nothing. BadPiece where it can't be read."""

    def usual(key: str, name: str, zero_ok: bool = True) -> Fraction:
        return table.length(key, unit, default=default_length(name, unit), zero_ok=zero_ok)

    width = usual("width", "stock_width")
    widest = usual("widest", "stock_widest", zero_ok=False)
    rack = read_rack(table, unit)
    if widest <= width + rack.edge:
        named = next((key for key in ("widest", "width", "edge") if table.has(key)), "widest")
        raise table.error(named, "the widest board is no wider than what is added to a width and "
                          "what is jointed off its edge",
                          "give the width that boards are sold in")
    prices = table.tables("price")
    if len(prices) > MOST_PRICES:
        raise table.error("price", f"{len(prices)} prices", f"at most {MOST_PRICES}")
    found: list[Price] = []
    for one in prices:
        price = _price(one)
        if any(price.timber == other.timber for other in found):
            raise one.error("timber", f"'{price.timber}' is given two prices", "keep one")
        found.append(price)
    waste = table.count("waste", 0, MOST_WASTE, default=int(default_ratio("stock_waste") * 100))
    return StockChoice(
        width=width,
        length=usual("length", "stock_length"),
        kerf=usual("kerf", "stock_kerf"),
        shortest=usual("shortest", "stock_shortest"),
        widest=widest,
        sold=_sold(table, unit),
        waste=Fraction(waste, 100),
        prices=tuple(found),
        money=table.text("money", default="", most=10),
        rack=rack,
        step=usual("step", "stock_step"),
        flat=usual("flat", "stock_flat"),
    )


def _sold(table: Table, unit: Unit) -> tuple[Sold, ...]:
    """The thicknesses that are sold: as usual, or the maker's own less what planing takes."""
    if not table.has("thicknesses"):
        if table.has("planing"):
            raise table.error("planing", "planing goes with thicknesses of your own",
                              "give thicknesses too, or leave it out")
        return thicknesses(unit)
    rough = sorted(set(table.lengths("thicknesses", unit)))
    planing = table.length("planing", unit, zero_ok=True,
                           cure="say what planing both sides takes off, e.g. 1/4")
    if planing >= rough[0]:
        raise table.error("planing", "planing leaves nothing of the thinnest board",
                          "make it less, or leave that thickness out")
    known = {one.rough: one.name for one in thicknesses(unit)}
    return tuple(Sold(known.get(one, ""), one, one - planing) for one in rough)


def _price(table: Table) -> Price:
    timber = table.text("timber", cure='say of which timber, e.g. timber = "hard maple"')
    written = str(table.value("price", "give the price, e.g. price = 9.50"))
    if _MONEY.fullmatch(written) is None:
        raise table.error("price", f"{quoted(written)} is no price", "write a decimal, e.g. 9.50")
    per = table.choice("per", PER, cure='say for how much, e.g. per = "board foot"')
    return Price(timber, Fraction(written), per)
