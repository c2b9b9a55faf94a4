"""What to know about the gauge before it is set: rails set in, and settings nearly alike."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

from layout.checks.words import listed, said
from layout.mark import Finding
from layout.part import Part
from layout.piece import Piece
from layout.settings import GAUGES, settings

SET_IN = "gauge settings of rail and leg"
NEAR = "settings nearly alike"


def findings(piece: Piece) -> list[Finding]:
    """Notes on rails whose leg needs other settings, and on settings close to each other."""
    return _set_in(piece) + _near(piece)


def _set_in(piece: Piece) -> list[Finding]:
    """Rails alike in set-in and tenon are told once.

    A leg that came out thin stands with its outside further in where shoulder distances are
    held: there a rail has another set-in at one end.
    """
    alike: dict[tuple[Fraction, Fraction, Fraction], dict[str, Part]] = {}
    for one in (rail for rail in piece.rails if rail.rail.side is not None):
        far = one.size.outer + one.size.thickness
        set_ins = [
            sum((sign * value for sign, _, value in meeting.thickness.near), Fraction(0))
            for meeting in one.rail.meetings
        ]
        for meeting, set_in in zip(one.rail.meetings, set_ins, strict=True):
            name = one.rail.part.name
            if len(set(set_ins)) > 1:
                name += f" at end {meeting.end}"
            alike.setdefault((set_in, one.size.outer, far), {})[name] = one.rail.part
    found = []
    for (set_in, outer, far), named in alike.items():
        parts = list(dict.fromkeys(named.values()))
        names = listed(list(named))
        verb = "is" if len(named) == 1 else "are"
        rail = _stands(piece, outer, far)
        s = "s" if outer == 0 else ""
        if set_in == 0:
            text = f"the {names} {verb} flush: {rail} serve{s} on rail and leg alike"
        else:
            leg = _stands(piece, set_in + outer, set_in + far)
            how = f"set in {said(piece, set_in)}"
            if set_in < 0:
                how = f"{said(piece, -set_in)} proud of the leg's face"
            text = (
                f"the {names} {verb} {how}: {rail} on the rail, "
                f"{leg} on the leg"
            )
        found.append(
            Finding(
                SET_IN,
                "note",
                tuple(part.id for part in parts),
                text,
                (("set in", set_in), ("outer shoulder", outer), ("far cheek", far)),
            )
        )
    return found


def _stands(piece: Piece, near: Fraction, far: Fraction) -> str:
    """Both stands of a gauge; a barefaced tenon has no line at the face."""
    return f"{said(piece, near)} and {said(piece, far)}" if near > 0 else said(piece, far)


def _near(piece: Piece) -> list[Finding]:
    found = []
    least = piece.choice.near_settings
    for tool in GAUGES:
        alike = [setting for setting in settings(piece.marks) if setting.tool == tool]
        in_order = sorted(alike, key=lambda s: (s.distance, s.second or s.distance))
        for one, other in combinations(in_order, 2):
            apart = other.distance - one.distance
            second = abs((other.second or other.distance) - (one.second or one.distance))
            if max(apart, second) >= least:
                continue
            found.append(
                Finding(
                    NEAR,
                    "note",
                    (),
                    f"settings {one.number} and {other.number} ({tool}) differ by "
                    f"{_only(piece, max(apart, second))}: one might serve",
                    (("apart", max(apart, second)), ("least", least)),
                )
            )
    return found


def _only(piece: Piece, difference: Fraction) -> str:
    """A small difference: at the maker's rule, or as less than that."""
    if difference * 2 < piece.rule.step_mm:
        return f"less than {piece.rule}"
    return f"only {said(piece, difference)}"
