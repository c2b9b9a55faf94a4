"""Every total must be what the placed parts measure."""

from __future__ import annotations

from fractions import Fraction

from layout.checks.placed import Ground
from layout.checks.words import said
from layout.mark import Finding, Sum
from layout.piece import Piece

RULE = "sums agree with the placed parts"
MOST_TOLD = 3


def wrong(piece: Piece) -> list[tuple[Sum, Fraction | None]]:
    """Every sum that the placed parts don't confirm, with what they measure (mm) instead."""
    ground = Ground(piece)
    denied = []
    for sum_ in piece.sums:
        for witness in (sum_.witness, sum_.also):
            placed = sum_.total if witness is None else ground.measured(witness)
            if placed != sum_.total:
                denied.append((sum_, placed))
                break
        else:
            # of a chain, every running total is a line to strike
            for total, witness in zip(sum_.running, sum_.along, strict=False):
                placed = ground.measured(witness)
                if placed != total:
                    denied.append((sum_, placed))
                    break
    return denied


def findings(piece: Piece) -> list[Finding]:
    """A stop that names the sums which the placed parts deny; a note when all agree."""
    denied = wrong(piece)
    if not denied:
        count = len(piece.sums)
        return [
            Finding(RULE, "note", (), f"all {count} sums agree with the parts where they stand")
        ]
    told = [_told(piece, sum_, placed) for sum_, placed in denied[:MOST_TOLD]]
    if len(denied) > MOST_TOLD:
        told.append(f"and {len(denied) - MOST_TOLD} more sums")
    figures: list[tuple[str, Fraction]] = []
    for sum_, placed in denied[:MOST_TOLD]:
        name = f"{sum_.full_name} of {sum_.part}"
        figures.append((f"{name}, sum", sum_.total))
        if placed is not None:
            figures.append((f"{name}, placed", placed))
    return [
        Finding(
            RULE,
            "stop",
            tuple(dict.fromkeys(sum_.part for sum_, _ in denied)),
            "; ".join(told),
            tuple(figures),
            "look first at the other stops: a size that can't be cut upsets its sums",
        )
    ]


def _told(piece: Piece, sum_: Sum, placed: Fraction | None) -> str:
    geometry = "nothing that can be measured" if placed is None else said(piece, placed)
    return (
        f"{piece.part(sum_.part).name}: the sum for {sum_.full_name} gives "
        f"{said(piece, sum_.total)}, the parts in place give {geometry}"
    )
