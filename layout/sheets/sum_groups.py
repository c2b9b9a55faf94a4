"""Equal sums together, so that each is printed once with all the parts it belongs to."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.checks.sums import RULE
from layout.mark import Finding, Sum
from layout.piece import Piece
from layout.sheets.groups import base_name, told


class SumGroup(NamedTuple):
    """Equal sums, told once, and whose they are."""

    first: Sum
    owners: str


def sum_groups(piece: Piece) -> tuple[SumGroup, ...]:
    """The sums of a piece with equal ones together, in order."""
    groups: dict[object, list[Sum]] = {}
    for sum_ in piece.sums:
        kind = piece.part(sum_.part).kind
        groups.setdefault((kind, sum_.name, sum_.terms, sum_.total), []).append(sum_)
    return tuple(SumGroup(same[0], _owners(piece, same)) for same in groups.values())


def _owners(piece: Piece, same: list[Sum]) -> str:
    parts = list(dict.fromkeys(sum_.part for sum_ in same))
    who = told(piece, [piece.part(part) for part in parts]).split(":")[0]
    neighbours = {s.where.split(",")[0] for s in same if s.where}
    named = [part for part in piece.parts if part.name in neighbours]
    if not named:
        return f"{who}, for the {' and '.join(sorted(neighbours))}" if neighbours else who
    place = named[0].name if len(named) == 1 else base_name(piece, named)
    return f"{who}, for the {place}"


def disagreeing(findings: tuple[Finding, ...]) -> set[tuple[str, Fraction]]:
    """Part and total of every sum that the placed parts don't confirm."""
    return {
        (finding.parts[0], value)
        for finding in findings
        if finding.rule == RULE and finding.level == "stop"
        for name, value in finding.figures
        if name == "sum"
    }
