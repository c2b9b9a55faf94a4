"""Ends that are not the wood's ends yet: horns, and tenons left proud.

A door's stile is cut longer by its horns, a through rail by what is planed off its tenons; both are
taken off when the door is glued up. Its finished ends are lines until then, squared round first,
and everything is measured from them (common practice, no source).
"""

from __future__ import annotations

from fractions import Fraction

from layout.measure import show
from layout.piece import Piece
from layout.stock.marking_sets import Parts
from layout.stock.marking_step import Line, Step, ids

FROM_SAWN = "end A, from the sawn end"
FROM_LINE = "end B, from the line of end A"


def left_at_ends(piece: Piece) -> dict[str, Fraction]:
    """What a part is left longer by at each of its ends, in mm, by part id; no part without."""
    found: dict[str, Fraction] = {}
    for door in piece.doors:
        horn, trim = door.choice.horn, door.choice.trim
        if horn:
            found |= {stile.id: horn for stile in door.stiles}
        if trim:
            found |= {one.rail.part.id: trim for one in door.rails if one.size.through}
    return found


def is_horn(piece: Piece, part: str) -> bool:
    """True where what is left is a stile's horn, not a tenon."""
    return any(stile.id == part for door in piece.doors for stile in door.stiles)


def end_note(piece: Piece, part: str) -> str:
    """For a stick or a template: where a part's ends are, "" where they are the wood's own."""
    left = left_at_ends(piece).get(part)
    if left is None:
        return ""
    why = "horn" if is_horn(piece, part) else "left proud"
    return f"each end is a line {show(left, piece.rule).text} from the sawn end ({why})"


def end_line_steps(piece: Piece, parts: Parts) -> list[Step]:
    """The lines that stand for the ends of one set, for each amount that is left there."""
    left = left_at_ends(piece)
    groups: dict[tuple[Fraction, Fraction], list[str]] = {}
    for part in parts:
        if part.id in left:
            groups.setdefault((left[part.id], part.length), []).append(part.id)
    return [
        Step("end lines", ids(part for part in parts if part.id in some),
             ("face", "back", "edge", "far edge"), (),
             (Line(more, (FROM_SAWN,)), Line(length, (FROM_LINE,))), tool="knife")
        for (more, length), some in groups.items()
    ]
