"""Every total must be what the placed parts measure."""

from __future__ import annotations

from layout.checks.placed import Ground
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece

RULE = "sums agree with the placed parts"


def findings(piece: Piece) -> list[Finding]:
    """A stop for every sum that the placed parts don't confirm; a note when all agree."""
    found = []
    ground = Ground(piece)
    for sum_ in piece.sums:
        geometry = ground.measured(sum_.witness)
        if geometry == sum_.total:
            continue
        part = piece.part(sum_.part)
        told = "nothing that can be measured" if geometry is None else said(piece, geometry)
        found.append(
            Finding(
                RULE,
                "stop",
                (sum_.part,),
                f"{part.name}: the sum for {sum_.full_name} gives {said(piece, sum_.total)}, "
                f"the parts in place give {told}",
                (("sum", sum_.total),) + ((("placed", geometry),) if geometry is not None else ()),
                "look first at the other stops: a size that can't be cut upsets its sums",
            )
        )
    if not found:
        count = len(piece.sums)
        found.append(
            Finding(RULE, "note", (), f"all {count} sums agree with the parts where they stand")
        )
    return found
