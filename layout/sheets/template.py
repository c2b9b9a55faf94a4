"""Templates: full-size drawings of each joint face, to paste on or prick through."""

from __future__ import annotations

from layout.piece import Piece
from layout.scene.strokes import Sheet
from layout.sheets.bearer_template import bearers
from layout.sheets.bevel_template import bevels
from layout.sheets.dog_template import dog_sheets
from layout.sheets.dovetail_template import dovetails
from layout.sheets.fixing_template import fixings
from layout.sheets.panel_template import panel_edges
from layout.sheets.seat_section import seats
from layout.sheets.slide_template import slide_sections
from layout.sheets.small_template import small_parts
from layout.sheets.tenon_template import tenons


def templates(piece: Piece) -> tuple[Sheet, ...]:
    """Every face with a joint, tenon, seat section, panel edge, wedge, key, dovetail, slide,
    bevel, fixing of a top and row of dog holes of a piece, like ones once.
    """
    return (
        *bearers(piece), *tenons(piece), *seats(piece), *panel_edges(piece), *small_parts(piece),
        *dovetails(piece), *slide_sections(piece), *bevels(piece), *fixings(piece),
        *dog_sheets(piece),
    )
