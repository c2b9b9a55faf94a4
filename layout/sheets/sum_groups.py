"""Equal sums together, so that each is printed once with all the parts it belongs to."""

from __future__ import annotations

from typing import NamedTuple

from layout.checks.sums import wrong
from layout.mark import Sum
from layout.piece import Piece
from layout.sheets.groups import base_name, told


class SumGroup(NamedTuple):
    """Equal sums, told once, whose they are, and whether the placed parts confirm them all."""

    first: Sum
    owners: str
    agrees: bool


def sum_groups(piece: Piece) -> tuple[SumGroup, ...]:
    """The sums of a piece with equal ones together, in order."""
    groups: dict[object, list[Sum]] = {}
    for sum_ in piece.sums:
        kind = piece.part(sum_.part).kind
        groups.setdefault((kind, sum_.name, sum_.terms, sum_.total), []).append(sum_)
    denied = [sum_ for sum_, _ in wrong(piece)]
    return tuple(
        SumGroup(same[0], _owners(piece, same), not any(one in denied for one in same))
        for same in groups.values()
    )


def _owners(piece: Piece, same: list[Sum]) -> str:
    parts = list(dict.fromkeys(sum_.part for sum_ in same))
    who = told(piece, [piece.part(part) for part in parts], hands=False)
    neighbours = {s.where.split(",")[0] for s in same if s.where}
    named = [part for part in piece.parts if part.name in neighbours]
    if not named:
        word = "at" if all(one in ("end A", "end B") for one in neighbours) else "for the"
        return f"{who}, {word} {' and '.join(sorted(neighbours))}" if neighbours else who
    place = named[0].name if len(named) == 1 else base_name(piece, named)
    return f"{who}, for the {place}"

