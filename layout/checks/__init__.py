"""What could go wrong, one file a family of rules.

Every family is a function from a Piece to findings; none stops at the first. The command
decides what a stop means.
"""

from __future__ import annotations

from layout.checks import gauges, meetings, panels, places, shoulders, solids, sums, tenons, walls
from layout.mark import Finding
from layout.piece import Piece

FAMILIES = (
    sums.findings,
    places.findings,
    tenons.findings,
    walls.findings,
    meetings.findings,
    shoulders.findings,
    panels.findings,
    solids.findings,
    gauges.findings,
)

_ORDER = {"stop": 0, "caution": 1, "note": 2}


def check(piece: Piece) -> tuple[Finding, ...]:
    """All findings, the gravest first; within a level in the order of the families."""
    found = [finding for family in FAMILIES for finding in family(piece)]
    return tuple(sorted(found, key=lambda finding: _ORDER[finding.level]))


def stopped(findings: tuple[Finding, ...]) -> bool:
    """True where a check says stop."""
    return any(finding.level == "stop" for finding in findings)
