"""The keys of a panel that a frame's panel and a door's have in common: its edge, and its year."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, cast

from layout.builds.panel_fit import Held, SolidChoice
from layout.defaults import Unit, default_length
from layout.joints.panel_edge import Profile
from layout.piece_file.table import Table
from layout.piece_file.wood_keys import read_sawn

ZERO = Fraction(0)
EDGES = ("plain", "raised", "tongue")
HELD = ("pins", "spacers", "free")
ONLY_WITH = {"border": ("raised",), "step": ("raised",), "tongue": ("raised", "tongue"),
             "wood_behind": ("raised", "tongue")}


def read_profile(table: Table, unit: Unit, thickness: Fraction) -> Profile:
    """A panel's edge. BadPiece with its place where it can't be."""
    for key in ("edge", *ONLY_WITH):
        table.has(key)
    kind = cast(
        Literal["plain", "raised", "tongue"], table.choice("edge", EDGES, default="plain")
    )
    for key, kinds in ONLY_WITH.items():
        if table.has(key) and kind not in kinds:
            raise table.error(key, f'{key} does not go with edge = "{kind}"',
                              f'write edge = "{kinds[0]}" too, or leave it out')
    if kind == "plain":
        return Profile("plain", thickness)
    profile = Profile(
        kind,
        table.length("tongue", unit, default=default_length("panel_tongue", unit)),
        table.length("border", unit, default=default_length("panel_border", unit))
        if kind == "raised" else ZERO,
        table.length("step", unit, default=default_length("panel_step", unit), zero_ok=True)
        if kind == "raised" else ZERO,
        table.length("wood_behind", unit, default=ZERO, zero_ok=True),
    )
    if profile.front(thickness) < 0 or (kind == "raised" and profile.front(thickness) == 0):
        raise table.error(
            "tongue" if table.has("tongue") else "thickness",
            "the tongue and the wood behind it leave nothing of the panel in front of it",
            "use a thicker panel, or a thinner tongue",
        )
    return profile


def read_solid(table: Table, unit: Unit) -> SolidChoice | None:
    """A solid panel's year; None where the panel is a sheet."""
    solid = table.table_or_off("solid")
    if not isinstance(solid, Table):
        return None
    return usual_solid(unit)._replace(
        cover=solid.length("cover", unit, default=default_length("panel_cover", unit)),
        play=solid.length("play", unit, default=default_length("panel_play", unit), zero_ok=True),
        held=cast(Held, solid.choice("held", HELD, default="pins")),
        sawn=read_sawn(solid),
    )


def usual_solid(unit: Unit) -> SolidChoice:
    """A solid panel of which nothing more has been said."""
    return SolidChoice(
        default_length("panel_cover", unit),
        default_length("panel_play", unit),
        "pins",
        default_length("panel_lip", unit),
        default_length("panel_lip_step", unit),
    )
