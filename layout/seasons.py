"""What the year does to every part: the movement table of a piece."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.errors import BadWood
from layout.part import Part
from layout.piece import Piece
from layout.wood.movement import Movement, Way
from layout.wood.species import Sawn, is_sheet

WAYS: tuple[Way, Way] = ("width", "thickness")


class Moves(NamedTuple):
    """Parts of one timber, sawn alike and of one size across the grain: what the dry and the damp
    season make of that size, in mm.
    """

    parts: tuple[Part, ...]
    wood: str
    sawn: Sawn
    way: Way
    size: Fraction
    dry: Movement
    wet: Movement


def moving(piece: Piece) -> tuple[Moves, ...]:
    """Every part's width and thickness, like ones together; none without a climate to reckon with.
    Sheets keep their size, and a timber that the tables don't have is left out (`unknown`).
    """
    if not reckoned(piece):
        return ()
    groups: dict[tuple[str, Sawn, Way, Fraction], list[Part]] = {}
    timbers, ways = piece.choice.wood, _sawn(piece)
    left_out = {part.id for part in unknown(piece)}
    for part in piece.parts:
        if part.id in left_out or is_sheet(part.timber):
            continue
        for way in WAYS:
            sawn = timbers.sawn(part.timber, ways.get(part.id))
            size = part.size("W" if way == "width" else "T")
            groups.setdefault((part.timber, sawn, way, size), []).append(part)
    found = []
    for (timber, sawn, way, size), parts in groups.items():
        year = timbers.seasons(timber, way, sawn)
        found.append(Moves(tuple(parts), timbers.wood(timber).name, sawn, way, size, year.dry,
                           year.wet))
    return tuple(found)


def reckoned(piece: Piece) -> bool:
    """True where the maker gave a climate, or something asks for one."""
    solid = [panel.fit.year for panel in piece.panels]
    solid += [bay.fit.year for door in piece.doors for bay in door.bays]
    solid += [laid.top.year for laid in piece.tops]
    return piece.choice.wood.climate is not None or any(year is not None for year in solid)


def unknown(piece: Piece) -> tuple[Part, ...]:
    """Parts of a timber that the tables don't have, or whose figures don't reach so far."""
    found = []
    for part in piece.parts:
        if is_sheet(part.timber):
            continue
        try:
            for way in WAYS:
                piece.choice.wood.seasons(part.timber, way)
        except BadWood:
            found.append(part)
    return tuple(found)


def _sawn(piece: Piece) -> dict[str, Sawn]:
    """How single parts are sawn, where that was said of them."""
    found: dict[str, Sawn] = {}
    for panel in piece.panels:
        if panel.choice.solid is not None and panel.choice.solid.sawn is not None:
            found[panel.part.id] = panel.choice.solid.sawn
    for laid in piece.tops:
        found |= {slab.id: laid.top.sawn for slab in laid.top.slabs}
    for door in piece.doors:
        if door.choice.sawn is not None:
            frame = (*door.stiles, *(one.rail.part for one in (*door.rails, *door.muntins)))
            found |= {part.id: door.choice.sawn for part in frame}
        solid = door.choice.panel.solid
        if solid is not None and solid.sawn is not None:
            found |= {bay.part.id: solid.sawn for bay in door.bays}
    return found
