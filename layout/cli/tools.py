"""The `kit` command: which tools sizes are chosen from, and where each list comes from."""

from __future__ import annotations

import os
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from typing import cast

from layout.cli.shop import VARIABLE, opened_shop, shop_place
from layout.defaults import Unit
from layout.errors import BadRequest, Where
from layout.kit import Kit
from layout.measure import Rule, default_rule, other_rule, show
from layout.piece_file.kit_keys import TOOLS, UNITS, KitKeys, Shop, kit_of
from layout.piece_file.reader import piece_and_kit

USUAL = "usual sizes"
SHOP = "shop file"
PIECE = "piece file"


def tell_kit(path: Path | None, unit: str | None) -> int:
    """Print every list that counts, and its origin; always 0."""
    shop = opened_shop()
    own = KitKeys({})
    if path is None:
        named = _unit(unit) or shop.unit or "in"
        kit, rule = kit_of(named, shop.keys), default_rule(named)
    elif unit is not None:
        raise BadRequest(
            "a piece file has its own unit", "leave the unit out", Where(key="--unit")
        )
    else:
        choice, own = piece_and_kit(path, shop)
        kit, rule = choice.kit, choice.rule
    print("\n".join(kit_lines(kit, rule, shop, own)))
    return 0


def _unit(word: str | None) -> Unit | None:
    if word is None or word in UNITS:
        return cast("Unit | None", word)
    raise BadRequest(f"'{word}' is no unit to work in", "write in or mm", Where(key="--unit"))


def kit_lines(kit: Kit, rule: Rule, shop: Shop, own: KitKeys) -> list[str]:
    """The lists of a kit, each with its sizes and where it comes from."""
    rows = [
        (key.replace("_", " "), _figures(getattr(kit, key), rule), _from(key, kit, shop, own))
        for key in TOOLS
    ]
    if kit.dovetail_cutters:
        told = ", ".join(
            f"{_figure(one.diameter, rule)} at {one.slope.degrees_text} deg"
            for one in kit.dovetail_cutters
        )
        rows.append(("dovetail cutters", told, PIECE if own.dovetail_cutters else SHOP))
    origin = PIECE if own.gauge else SHOP if shop.keys.gauge else "usual"
    rows.append(("gauge", kit.gauge, origin))
    name, figures = (max(len(row[column]) for row in rows) for column in (0, 1))
    lines = [f"{row[0]:<{name}}  {row[1]:<{figures}}  {row[2]}".rstrip() for row in rows]
    unit = "inches" if rule.unit == "in" else "millimetres"
    return [*lines, "", f"{unit}, shown to {rule}", _shop_line()]


def _figures(sizes: Iterable[Fraction], rule: Rule) -> str:
    return ", ".join(_figure(size, rule) for size in sizes) or "none"


def _figure(size: Fraction, rule: Rule) -> str:
    """A tool's size as it is called: one of the other unit by its own figure, `10 mm`."""
    here, there = show(size, rule), show(size, other_rule(rule))
    return there.with_unit if here.drift and not there.drift else here.text


def _from(key: str, kit: Kit, shop: Shop, own: KitKeys) -> str:
    if key in own.lists:
        return PIECE
    if key in shop.keys.lists:
        return SHOP
    return USUAL if getattr(kit, key) else ""


def _shop_line() -> str:
    place = shop_place()
    if not place:
        return f"shop file: none, {VARIABLE} is empty"
    there = "" if os.path.exists(place) else " (there is no such file)"
    return f"shop file: {place}{there}"
