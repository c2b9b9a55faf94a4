"""The sizes of a dovetailed corner, by name: what applies to it, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from layout.checks.words import figure as said
from layout.joints.dovetail import Corner
from layout.joints.spacing import Kind, Member
from layout.piece import Piece

Row = tuple[str, str]
KINDS: tuple[Kind, ...] = ("tail", "pin", "half pin")


def corner_rows(piece: Piece, corner: Corner) -> list[Row]:
    """Names and figures of one corner: counts, widths at the end and at the baseline, slope,
    and what both boards' gauges are set to.
    """
    spacing, choice = corner.spacing, corner.spacing.choice
    rows: list[Row] = []
    for kind in KINDS:
        many = [one for one in spacing.members if one.kind == kind]
        if many:
            rows.append((f"{kind}s", f"{len(many)}"))
    for kind in KINDS:
        rows += _widths(piece, [one for one in spacing.members if one.kind == kind])
    if spacing.step is not None:
        rows.append(("divider step, a tail and a pin", said(piece, spacing.step)))
    slope = choice.slope
    rows += [
        ("slope", f"{slope.ratio_text}, {slope.degrees_text} degrees"),
        ("slope over the tail", said(piece, spacing.offset)),
        ("baseline of the tails", said(piece, corner.depth)),
        ("baseline of the pins", said(piece, corner.lip + corner.tails.thickness)),
    ]
    if not corner.through:
        rows.append(("lap", said(piece, corner.pins.thickness - corner.depth)))
    if corner.rabbet is not None:
        beside = corner.depth - corner.rabbet.deep
        rows.append(("baseline of the tails at the rabbet", said(piece, beside)))
    return rows


def _widths(piece: Piece, members: list[Member]) -> Iterator[Row]:
    """Both widths of members of one kind: once where they are all alike, else by number."""
    sizes = [(one.end, one.base) for one in members]
    alike = len(set(sizes)) == 1
    for (end, base), same in groupby(members, key=lambda one: (one.end, one.base)):
        some = list(same)
        name = some[0].kind if alike else some[0].name
        if not alike and len(some) > 1:
            word = "and" if len(some) == 2 else "to"
            name = f"{some[0].kind}s {some[0].number} {word} {some[-1].number}"
        yield f"{name} at the end", said(piece, end)
        yield f"{name} at the baseline", said(piece, base)
