"""What could go wrong, one file a family of rules.

Every family is a function from a Piece to findings; none stops at the first. The command
decides what a stop means.
"""

from __future__ import annotations

from layout.checks import (
    extras,
    gauges,
    meetings,
    panels,
    places,
    shoulders,
    solids,
    sums,
    tenons,
    thinnest,
    tools,
    walls,
)
from layout.mark import Finding
from layout.piece import Piece


def _boxes(piece: Piece) -> list[Finding]:
    """Dovetails, drawers, chests and slides; their checks are loaded only where there are any."""
    if not piece.corners and not piece.slides:
        return []
    from layout.checks import backs, bottoms, chests, corner_pair, dovetails, drawers, slides

    return [
        *drawers.findings(piece),
        *dovetails.findings(piece),
        *bottoms.findings(piece),
        *corner_pair.findings(piece),
        *chests.findings(piece),
        *backs.findings(piece),
        *slides.findings(piece),
    ]


def _doors(piece: Piece) -> list[Finding]:
    """Doors and what the year does; their checks are loaded only where there is such a thing."""
    found: list[Finding] = []
    if piece.doors:
        from layout.checks import doors

        found += doors.findings(piece)
    if piece.panels or piece.doors or piece.choice.timbers is not None:
        from layout.checks import year

        found += year.findings(piece)
    return found


def _dogs(piece: Piece) -> list[Finding]:
    """Rows of dog holes; their checks are loaded only where there are any."""
    if not piece.dogs:
        return []
    from layout.checks import dogs

    return dogs.findings(piece)


def _tops(piece: Piece) -> list[Finding]:
    """Tops; their checks are loaded only where there is one."""
    if not piece.tops:
        return []
    from layout.checks import tops

    return tops.findings(piece)


FAMILIES = (
    places.findings,
    tenons.findings,
    extras.findings,
    walls.findings,
    meetings.findings,
    shoulders.findings,
    panels.findings,
    _boxes,
    _doors,
    _tops,
    _dogs,
    solids.findings,
    sums.findings,
    tools.findings,
    gauges.findings,
    thinnest.findings,
)

_ORDER = {"stop": 0, "caution": 1, "note": 2}


def check(piece: Piece) -> tuple[Finding, ...]:
    """All findings, the gravest first; within a level causes before what comes of them."""
    found = [finding for family in FAMILIES for finding in family(piece)]
    return tuple(sorted(found, key=lambda finding: _ORDER[finding.level]))


def folded(found: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """For telling: findings of one rule with the same figures once, naming all their parts."""
    alike: dict[object, list[Finding]] = {}
    for finding in found:
        alike.setdefault((finding.rule, finding.level, finding.figures), []).append(finding)
    told: list[Finding] = []
    for same in alike.values():
        first = same[0]
        if len(same) == 1 or not first.figures:
            told += same
            continue
        parts = tuple(dict.fromkeys(part for one in same for part in one.parts))
        text = f"{first.text}; likewise in {len(same) - 1} more places"
        told.append(first._replace(parts=parts, text=text))
    return tuple(told)


def stopped(findings: tuple[Finding, ...]) -> bool:
    """True where a check says stop."""
    return any(finding.level == "stop" for finding in findings)
