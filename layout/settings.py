"""Gauge lines grouped into settings: each stand of a gauge made once, struck everywhere."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.mark import Mark
from layout.part import Face

GAUGES = ("mortise gauge", "marking gauge")

# Shoulders are knifed before any gauge line (William Noyes, Handwork in Wood, 1910, ch. VII
# no. 32). Then long lines, walls and cheeks, and last the lines that only bound a tenon's
# width (common practice, no source).
# Baselines of dovetails are struck before them, from the ends, while the boards are square all
# round.
_BASELINES = {"tail baseline", "pin baseline", "baseline at the rabbet"}
_LONG_LINES = {
    "rabbet", "rabbet lip", "near groove wall", "far groove wall", "rabbet width", "rabbet depth",
}
_TENON_EDGES = ("tenon top", "tenon bottom")
_SOURCES = ("face side", "face edge", "far edge", "end A", "end B")

_ENDS = ("end A", "end B")


class Strike(NamedTuple):
    """What one setting strikes on one face of one part, from where, and how many such lines."""

    part: str
    face: Face
    source: str
    role: str
    lines: int


class Setting(NamedTuple):
    """One stand of one gauge, in mm from its stock; `second` is a mortise gauge's other point.

    The stock bears on the face side for some lines and on the face edge for others; the stand
    is the same, so it is one setting, and each strike says which. `source` names them all: the
    two ends of a board as `end`.
    """

    number: int
    tool: str
    source: str
    distance: Fraction
    second: Fraction | None
    strikes: tuple[Strike, ...]
    marks: tuple[Mark, ...]


_Key = tuple[str, Fraction, Fraction | None]


def settings(marks: Iterable[Mark]) -> tuple[Setting, ...]:
    """Every gauge line of a piece, grouped by stand, in the order to strike them."""
    groups: dict[_Key, list[Mark]] = {}
    for mark in marks:
        if mark.tool in GAUGES:
            near, far = mark.pair or (mark.distance, None)
            groups.setdefault((mark.tool, near, far), []).append(mark)

    def order(key: _Key) -> tuple[int, int, int, Fraction, Fraction]:
        tool, near, far = key
        roles = {mark.role for mark in groups[key]}
        bounds = all(role.endswith(_TENON_EDGES) for role in roles)
        rank = 0 if roles & _LONG_LINES else 2 if bounds else 1
        rank = -1 if roles & _BASELINES else rank
        first = min(_SOURCES.index(mark.source) for mark in groups[key])
        return (rank, first, GAUGES.index(tool), near, far or near)

    found = []
    for number, key in enumerate(sorted(groups, key=order), start=1):
        tool, near, far = key
        struck: dict[tuple[str, Face, str, str], int] = {}
        for mark in groups[key]:
            at = (mark.part, mark.face, mark.source, mark.role)
            struck[at] = struck.get(at, 0) + 1
        strikes = tuple(Strike(*at, count) for at, count in struck.items())
        in_order = sorted({s.source for s in strikes}, key=_SOURCES.index)
        sources = dict.fromkeys("end" if one in _ENDS else one for one in in_order)
        found.append(
            Setting(number, tool, " and ".join(sources), near, far, strikes, tuple(groups[key]))
        )
    return tuple(found)
