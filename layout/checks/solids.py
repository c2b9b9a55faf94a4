"""No two parts may want the same wood: the finished solids, where they stand, must not overlap.

The space that two boards share is taken apart along the faces of their cuts, exactly; whatever
is wood in both is an overlap.
"""

from __future__ import annotations

from fractions import Fraction

from layout.checks.bodies import around, left_of, part_body, placed_cuts
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece
from layout.solid.convex import Body, common, volume
from layout.solid.near import close_pairs

RULE = "no two parts in one place"


def findings(piece: Piece) -> list[Finding]:
    """A stop for every two parts whose finished wood overlaps; a note when none does."""
    boards = [part_body(part) for part in piece.parts]
    cuts = [placed_cuts(part, piece.cuts_of(part.id)) for part in piece.parts]
    found = []
    tried = 0
    for i, j in sorted(close_pairs([board.spans for board in boards], piece.rule.step_mm)):
        shared = common(boards[i], boards[j])
        if shared is None:
            continue
        tried += 1
        both = left_of(shared, _meeting([*cuts[i], *cuts[j]], shared))
        if not both:
            continue
        one, other = piece.parts[i], piece.parts[j]
        spans = around(both)
        size = " x ".join(said(piece, high - low) for low, high in spans)
        found.append(
            Finding(
                RULE,
                "stop",
                (one.id, other.id),
                f"the {one.name} and the {other.name} run into each other: they share a piece of "
                f"about {size}",
                (
                    *(
                        (f"overlap along {axis}", high - low)
                        for axis, (low, high) in zip("XYZ", spans, strict=True)
                    ),
                    ("overlap in cubic mm", sum((volume(body) for body in both), Fraction(0))),
                ),
                "see the other findings on these two parts",
            )
        )
    if not found:
        pairs = "1 joined pair" if tried == 1 else f"{tried} joined pairs"
        found.append(
            Finding(
                RULE,
                "note",
                (),
                f"the finished parts, where they stand, share no wood ({pairs} tried)",
            )
        )
    return found


def _meeting(cuts: list[Body], shared: Body) -> list[Body]:
    """The cuts that reach into a body, the largest first: they leave the fewest pieces."""
    near = [cut for cut in cuts if common(cut, shared) is not None]
    return sorted(near, key=volume, reverse=True)
