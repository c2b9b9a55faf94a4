"""Both pages of every top; what has nothing to show is left out."""

from __future__ import annotations

from layout.piece import Piece
from layout.scene.strokes import Sheet
from layout.sheets.glue_up_sheet import glue_up
from layout.sheets.plan import Area
from layout.sheets.underside_sheet import underside


def top_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """The glue-up of every top that is told what it is glued up of, and its underside."""
    found = []
    for laid in piece.tops:
        if laid.top.strips is not None:
            found.append(glue_up(piece, laid.top, laid.top.strips, area))
        if laid.dogs or laid.fixings is not None or laid.top.bearing is not None:
            found.append(underside(piece, laid, area))
    return tuple(found)
