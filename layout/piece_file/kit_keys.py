"""The keys of [kit], in a piece file and in the shop file that every piece shares.

The shop file holds [kit], and `unit` for its bare numbers; nothing else. A piece's own keys win
one by one: a piece that lists its chisels still takes the shop's drills.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple, cast

from layout.defaults import Unit
from layout.errors import BadMeasure
from layout.kit import DovetailCutter, GaugeKind, Kit, usual_kit
from layout.measure import read_length, read_slope
from layout.piece_file.table import Table

UNITS = ("in", "mm")
TOOLS = ("chisels", "mortise_bits", "drills", "cutters")
GAUGES = ("mortise gauge", "marking gauge")


class KitKeys(NamedTuple):
    """What one [kit] says: its lists by key, in mm; the gauge; None where it names none."""

    lists: dict[str, tuple[Fraction, ...]]
    gauge: GaugeKind | None = None
    dovetail_cutters: tuple[DovetailCutter, ...] | None = None


class Shop(NamedTuple):
    """What a shop file says; `unit` is None where every size has its own."""

    keys: KitKeys
    unit: Unit | None = None


NO_SHOP = Shop(KitKeys({}))


def read_kit(table: Table, unit: Unit | None) -> KitKeys:
    """What a [kit] table says; without a unit every length must name its own. BadPiece."""
    lists = {key: tuple(table.lengths(key, unit)) for key in TOOLS if table.has(key)}
    gauge = table.choice("gauge", GAUGES) if table.has("gauge") else None
    return KitKeys(lists, cast("GaugeKind | None", gauge), _dovetail_cutters(table, unit))


def _dovetail_cutters(table: Table, unit: Unit | None) -> tuple[DovetailCutter, ...] | None:
    """Cutters told by diameter and slope, such as `1/2 at 14 deg`; None where none are listed."""
    key, cure = "dovetail_cutters", 'write each like "1/2 at 14 deg" or "12 mm at 1:7"'
    if not table.has(key):
        return None
    found = []
    for words in table.texts(key, cure=cure):
        size, _, slope = words.partition(" at ")
        try:
            diameter = read_length(size, unit or "mm")
            if unit is None and diameter != read_length(size, "in"):
                raise BadMeasure(f"'{size}' names no unit, and the file none", cure)
            if diameter == 0:
                raise BadMeasure("a cutter of no diameter", cure)
            found.append(DovetailCutter(diameter, read_slope(slope)))
        except BadMeasure as error:
            raise table.error(key, error.what, error.cure if slope else cure) from None
    return tuple(found)


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
    cutters = (own.dovetail_cutters if own else None) or shop.dovetail_cutters or ()
    kit = usual_kit(unit, gauge)._replace(**lists, listed=frozenset(lists))  # type: ignore[arg-type]
    return kit._replace(dovetail_cutters=cutters)
