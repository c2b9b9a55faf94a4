"""The keys of [kit], in a piece file and in the shop file that every piece shares.

The shop file holds [kit], and `unit` for its bare numbers; nothing else. A piece's own keys win
one by one: a piece that lists its chisels still takes the shop's drills.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple, cast

from layout.defaults import Unit
from layout.kit import GaugeKind, Kit, usual_kit
from layout.piece_file.table import Table

UNITS = ("in", "mm")
TOOLS = ("chisels", "mortise_bits", "drills", "cutters")
GAUGES = ("mortise gauge", "marking gauge")


class KitKeys(NamedTuple):
    """What one [kit] says: its lists by key, in mm; the gauge; None where it names none."""

    lists: dict[str, tuple[Fraction, ...]]
    gauge: GaugeKind | None = None


class Shop(NamedTuple):
    """What a shop file says; `unit` is None where every size has its own."""

    keys: KitKeys
    unit: Unit | None = None


NO_SHOP = Shop(KitKeys({}))


def read_kit(table: Table, unit: Unit | None) -> KitKeys:
    """What a [kit] table says; without a unit every length must name its own. BadPiece."""
    lists = {key: tuple(table.lengths(key, unit)) for key in TOOLS if table.has(key)}
    gauge = table.choice("gauge", GAUGES) if table.has("gauge") else None
    return KitKeys(lists, cast("GaugeKind | None", gauge))


def read_shop(path: str | Path) -> Shop:
    """A shop file. BadPiece with file, line and key where it can't be read."""
    from layout.piece_file.source import read_toml

    table = read_toml(path, "shop file")
    unit = cast("Unit | None", table.choice("unit", UNITS) if table.has("unit") else None)
    keys = read_kit(table.table("kit", optional=True), unit)
    table.finish()
    return Shop(keys, unit)


def kit_of(unit: Unit, shop: KitKeys, own: KitKeys | None = None) -> Kit:
    """The tools of a piece in this unit: its own keys, else the shop's, else the usual ones."""
    lists = shop.lists | (own.lists if own else {})
    gauge = (own.gauge if own else None) or shop.gauge or "mortise gauge"
    return usual_kit(unit, gauge)._replace(**lists, listed=frozenset(lists))  # type: ignore[arg-type]
