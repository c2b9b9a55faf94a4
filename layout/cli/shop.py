"""The shop file: the maker's tools, listed once for every piece.

SHOULDERLINE_SHOP names it; without that it is shop.toml in the user's own settings folder. Where
there is no such file, the usual tools count.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from layout.defaults import Unit
from layout.kit import Kit, usual_kit

if TYPE_CHECKING:  # read only where there is a shop file: one tenon starts faster without
    from layout.piece_file.kit_keys import Shop

VARIABLE = "SHOULDERLINE_SHOP"


def shop_place() -> str:
    """Where the shop file is looked for; "" where the maker wants none (the variable is empty)."""
    named = os.environ.get(VARIABLE)
    if named is not None:
        return named
    import typer

    return os.path.join(typer.get_app_dir("shoulderline"), "shop.toml")


def found_place() -> str:
    """The shop file that there is; "" where there is none."""
    place = shop_place()
    return place if place and os.path.exists(place) else ""


def opened_shop() -> Shop:
    """What the shop file says; nothing where there is none. BadPiece where it can't be read."""
    from layout.piece_file.kit_keys import NO_SHOP, read_shop

    place = found_place()
    return read_shop(place) if place else NO_SHOP


def shop_kit(unit: Unit) -> Kit:
    """The tools of work without a piece file. BadPiece where the shop file can't be read."""
    if not found_place():
        return usual_kit(unit)
    from layout.piece_file.kit_keys import kit_of

    return kit_of(unit, opened_shop().keys)
