"""No two parts may want the same wood: the finished solids, where they stand, must not overlap.

Every cut of a square joint is a box, so the test is exact: the space that two parts share is
divided at every face of every cut into cells, and a cell is either wood or air in each part.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise, product

from layout.checks.placed import Box, apart, cut_box, part_box
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece

RULE = "no two parts in one place"
Span = tuple[Fraction, Fraction]


def findings(piece: Piece) -> list[Finding]:
    """A stop for every two parts whose finished wood overlaps; a note when none does."""
    boxes = {part.id: part_box(part) for part in piece.parts}
    cuts = {
        part.id: [cut_box(part, cut) for cut in piece.cuts_of(part.id)] for part in piece.parts
    }
    found = []
    tried = 0
    for one, other in combinations(piece.parts, 2):
        if apart(boxes[one.id], boxes[other.id]) >= 0:
            continue
        tried += 1
        shared = overlap(boxes[one.id], cuts[one.id], boxes[other.id], cuts[other.id])
        if shared is None:
            continue
        size = " x ".join(said(piece, high - low) for low, high in shared)
        found.append(
            Finding(
                RULE,
                "stop",
                (one.id, other.id),
                f"the {one.name} and the {other.name} run into each other: they share a piece of "
                f"about {size}",
                tuple(
                    (f"overlap along {axis}", high - low)
                    for axis, (low, high) in zip("XYZ", shared, strict=True)
                ),
                "see the other findings on these two parts",
            )
        )
    if not found:
        found.append(
            Finding(
                RULE,
                "note",
                (),
                f"the finished parts, where they stand, share no wood ({tried} joined pairs tried)",
            )
        )
    return found


def overlap(one: Box, one_cuts: list[Box], other: Box, other_cuts: list[Box]) -> Box | None:
    """The box around all the wood that two finished parts share, or None; exact, in mm."""
    common = [(max(a[0], b[0]), min(a[1], b[1])) for a, b in zip(one, other, strict=True)]
    if any(low >= high for low, high in common):
        return None
    near_one = [cut for cut in one_cuts if _meets(cut, common)]
    near_other = [cut for cut in other_cuts if _meets(cut, common)]
    steps = [
        sorted(
            {low, high}
            | {
                edge
                for cut in (*near_one, *near_other)
                for edge in cut[axis]
                if low < edge < high
            }
        )
        for axis, (low, high) in enumerate(common)
    ]
    shared: list[Box] = []
    for cell in product(*(list(pairwise(values)) for values in steps)):
        middle = [(low + high) / 2 for low, high in cell]
        if not any(_inside(middle, cut) for cut in (*near_one, *near_other)):
            shared.append(cell)
    if not shared:
        return None
    return tuple(
        (min(cell[axis][0] for cell in shared), max(cell[axis][1] for cell in shared))
        for axis in range(3)
    )


def _meets(cut: Box, common: list[Span]) -> bool:
    return all(c[0] < b[1] and b[0] < c[1] for c, b in zip(cut, common, strict=True))


def _inside(point: list[Fraction], cut: Box) -> bool:
    return all(low < value < high for value, (low, high) in zip(point, cut, strict=True))
