"""Chests: glue lines that weaken a corner, lids and bottoms that are held with stated room."""

from __future__ import annotations

from collections.abc import Iterator

from layout.builds.chest import Chest, glue_lines
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece

GLUE = "glue lines and half pins"
MOVES = "wide boards"


def findings(piece: Piece) -> list[Finding]:
    """Findings on every chest."""
    return [one for chest in piece.chests for one in _of(piece, chest)]


def _of(piece: Piece, chest: Chest) -> Iterator[Finding]:
    spacing = chest.corners[0].spacing
    last = len(spacing.members) - 1
    for part in chest.walls:
        for at in glue_lines(chest.glued[part.id]):
            for index in (0, last):
                low, high = spacing.at_base(index)
                if spacing.members[index].kind == "half pin" and low < at < high:
                    yield Finding(
                        GLUE, "caution", (part.id,),
                        f"a glue line of the {part.name}, {said(piece, at)} from its lower edge, "
                        f"runs into {spacing.members[index].name}: what is beyond it may break off",
                        (("glue line", at),), "make the outermost board wider",
                    )
    bottom, lid = chest.choice.bottom, chest.choice.lid
    if bottom is not None and bottom.kind in ("groove", "rabbet", "rabbeted") and chest.bottom:
        yield Finding(
            MOVES, "note", (chest.bottom.id,),
            f"the {chest.bottom.name} has {said(piece, bottom.room)} of room to fit, stated, not "
            "worked out from the wood: a wide solid bottom wants more across its grain",
            (("room", bottom.room),),
        )
    if lid is not None and chest.lid is not None and lid.kind == "rabbeted":
        yield Finding(
            MOVES, "note", (chest.lid.id,),
            f"the tongue of the {chest.lid.name} has {said(piece, lid.room)} of room, stated, not "
            "worked out from the wood",
            (("room", lid.room),),
        )
