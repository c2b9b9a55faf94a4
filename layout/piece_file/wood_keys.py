"""The keys of [climate] and [[wood]]: how moist the wood is, what each timber's word stands for."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import cast

from layout.defaults import default_ratio
from layout.errors import BadWood
from layout.measure.read import quoted
from layout.piece_file.table import Table
from layout.wood.moisture import Climate, Moisture, climate, read_moisture
from layout.wood.movement import SAWN
from layout.wood.species import Figure, Sawn, Wood, find
from layout.wood.timber import TimberChoice, Timbers

SEASONS = ("now", "dry", "wet")
OWN = ("radial", "tangential")
# Kilograms to the litre: what is heavier than iron is a mistake.
MOST_LOAD = 8
_DECIMAL = re.compile(r"[0-9]{1,4}(?:[.][0-9]{0,6})?|[.][0-9]{1,6}")
_CURES = {
    "now": 'say how moist the wood is today, e.g. now = 8, or the shop\'s air, now = "68 F, 45 %"',
    "dry": 'say how dry the room gets, e.g. dry = "68 F, 25 %"',
    "wet": 'say how damp the room gets, e.g. wet = "75 F, 65 %"',
}


def read_timbers(table: Table) -> Timbers:
    """[climate] and every [[wood]] of a piece file. BadPiece where they can't be read."""
    choices: list[TimberChoice] = []
    for one in table.tables("wood"):
        choice = _timber(one)
        if any(choice.timber == other.timber for other in choices):
            raise one.error("timber", f"'{choice.timber}' is told twice", "keep one of the two")
        choices.append(choice)
    if not table.has("climate"):
        return Timbers(None, tuple(choices))
    return Timbers(_climate(table.table("climate")), tuple(choices))


def _climate(table: Table) -> Climate:
    now, dry, wet = (read_moisture_of(table, key, _CURES[key]) for key in SEASONS)
    try:
        return climate(now, dry, wet)
    except BadWood as error:
        raise table.error("dry", error.what, error.cure) from None


def read_moisture_of(table: Table, key: str, cure: str = "") -> Moisture:
    """A moisture content. BadPiece with its place where it can't be read."""
    written = table.value(key, cure)
    try:
        return read_moisture(written)
    except BadWood as error:
        raise table.error(key, error.what, error.cure) from None


def read_sawn(table: Table) -> Sawn | None:
    """How a board is sawn; None where it isn't said."""
    return cast(Sawn, table.choice("sawn", SAWN)) if table.has("sawn") else None


def read_load(table: Table) -> Fraction:
    """What a loaded drawer holds, in kilograms to the litre of its inside."""
    if not table.has("drawer_load"):
        return default_ratio("drawer_load")
    written = str(table.value("drawer_load"))
    cure = "write kilograms to the litre as a decimal, e.g. 0.5"
    if _DECIMAL.fullmatch(written) is None:
        raise table.error("drawer_load", f"{quoted(written)} is no figure", cure)
    if Fraction(written) > MOST_LOAD:
        raise table.error("drawer_load", f"{quoted(written)} is heavier than iron", cure)
    return Fraction(written)


def _timber(table: Table) -> TimberChoice:
    timber = table.text("timber", cure='say which timber of the piece, e.g. timber = "oak"')
    like = None
    if table.has("like"):
        words = table.text("like")
        try:
            like = find(words)
        except BadWood as error:
            raise table.error("like", error.what, error.cure) from None
    own = [key for key in OWN if table.has(key)]
    if len(own) == 1:
        missing = next(key for key in OWN if key not in own)
        raise table.error(own[0], f"{own[0]} is given without {missing}",
                          "give both, in percent of the size for 1 % of moisture")
    if own and like is not None:
        raise table.error("like", "its figures are given too", "keep like, or the figures")
    if own:
        radial, tangential = (_figure(table, key, 100) for key in OWN)
        like = Wood(timber, "the maker's own figures", radial, tangential)
    if table.has("gravity"):
        if like is None:
            like = _looked_up(table, timber)
        like = like._replace(gravity=_figure(table, "gravity", 1))
    return TimberChoice(
        timber,
        like,
        read_sawn(table) or "flat",
        read_moisture_of(table, "moisture") if table.has("moisture") else None,
        table.where(),
    )


def _looked_up(table: Table, timber: str) -> Wood:
    try:
        return find(timber)
    except BadWood as error:
        raise table.error("timber", error.what, error.cure) from None


def _figure(table: Table, key: str, per: int) -> Figure:
    """A figure as the maker has it: in percent, or a specific gravity; more than 0."""
    written = str(table.value(key))
    most = Fraction(1) if per == 100 else Fraction(3, 2)
    cure = 'write a decimal, e.g. "0.25"' if per == 100 else "write a decimal, e.g. 0.65"
    if _DECIMAL.fullmatch(written) is None:
        raise table.error(key, f"{quoted(written)} is no figure", cure)
    if not 0 < Fraction(written) < most:
        raise table.error(key, f"{quoted(written)} can't be a wood's", cure)
    digits = len(written.replace(".", "").lstrip("0"))
    return Figure(Fraction(written) / per, digits, True)
