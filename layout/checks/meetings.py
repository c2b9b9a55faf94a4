"""Do two joints in one leg run into each other.

The meeting test for two mortises is geometry (they meet where the entering tenon is longer than
the leg less the far wall of the other mortise); no book prints it.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from layout.checks.placed import apart, cut_box, gaps
from layout.checks.words import at_most, said
from layout.joints.tenon import joint_name
from layout.joints.worked import other_axis
from layout.mark import Cut, Finding, Level
from layout.part import FACE_NORMAL, Axis, Part, piece_axis
from layout.piece import Piece

MORTISES = "mortises clear of each other"
SEATS = "seat clear of the joints"
ZERO = Fraction(0)


class _Entered(NamedTuple):
    """A mortise and the tenon that enters it."""

    cut: Cut
    rail: str
    length: Fraction
    room: Fraction
    into: Axis


def findings(piece: Piece) -> list[Finding]:
    """One finding for every two cuts of different joints that meet, or nearly meet, in a leg."""
    found: list[Finding] = []
    entered = _entered(piece)
    panel_names = {panel.joint: panel.part.name for panel in piece.panels}
    panel_names |= {cut.joint: "panel" for cut in piece.cuts if cut.joint not in panel_names}
    square_to = {p.joint: other_axis(p.upper.meetings[0].face) for p in piece.panels}
    far_enough = max(piece.choice.wall_least, ZERO)
    for leg in (part for part in piece.parts if part.kind == "leg"):
        boxed = [(cut, cut_box(leg, cut)) for cut in piece.cuts_of(leg.id)]
        for (one, one_box), (other, other_box) in combinations(boxed, 2):
            if one.joint == other.joint or apart(one_box, other_box) >= far_enough:
                continue
            mortises = [entered[cut.key] for cut in (one, other) if cut.key in entered]
            if len(mortises) == 2:
                found += _two_mortises(piece, leg, mortises[0], mortises[1])
            elif mortises:
                seat = other if one is mortises[0].cut else one
                found += _seat_and_mortise(piece, leg, seat, mortises[0], panel_names[seat.joint])
            elif any(
                _seat_spoiled(leg, seat, by, square_to[seat.joint])
                for seat, by in ((one, other), (other, one))
            ):
                found.append(
                    Finding(
                        SEATS,
                        "stop",
                        (leg.id,),
                        f"the seats of the {panel_names[one.joint]} and the "
                        f"{panel_names[other.joint]} cut into each other in the {leg.name}",
                        (("overlap", -apart(cut_box(leg, one), cut_box(leg, other))),),
                        "use a groove in the legs for one of them, a smaller lip, or a thicker leg",
                    )
                )
    return found


def _entered(piece: Piece) -> dict[tuple[str, str, str], _Entered]:
    mortises = {cut.joint: cut for cut in piece.cuts if cut.role == "mortise"}
    found = {}
    for one in piece.rails:
        for meeting in one.rail.meetings:
            cut = mortises[joint_name(one.rail.part, meeting.end)]
            found[cut.key] = _Entered(
                cut,
                one.rail.part.name,
                one.size.length,
                one.size.glue_room,
                FACE_NORMAL[meeting.face][0],
            )
    return found


def _two_mortises(piece: Piece, leg: Part, one: _Entered, other: _Entered) -> list[Finding]:
    boxes = cut_box(leg, one.cut), cut_box(leg, other.cut)
    web = apart(*boxes)
    least = piece.choice.wall_least
    if web >= least:
        return []
    # The tenons end before their mortises do: each gives its room along its own axis.
    between = list(gaps(*boxes))
    for entered in (one, other):
        between[piece_axis(leg.placement.direction(entered.into))] += entered.room
    clear = max(between)
    pair = f"{one.rail} and the {other.rail}"
    level: Level = "stop" if clear < 0 else "caution"
    if clear < 0:
        text = f"the tenons of the {pair} run {said(piece, -clear)} into each other"
    elif web < 0:
        apart_by = f"clear by {said(piece, clear)}" if clear else "just touch"
        text = f"the mortises of the {pair} open into each other; their tenons {apart_by}"
    else:
        left = "no wood" if web == 0 else f"only {said(piece, web)} of wood"
        text = f"{left} between the mortises of the {pair}; least {said(piece, least)}"
    return [
        Finding(
            MORTISES,
            level,
            (leg.id,),
            f"in the {leg.name}, {text}",
            (
                ("web", web),
                ("between the tenons", clear),
                (f"tenon of the {one.rail}", one.length),
                (f"tenon of the {other.rail}", other.length),
            ),
            _shorter(piece, leg, one, other, least),
        )
    ]


def _shorter(piece: Piece, leg: Part, one: _Entered, other: _Entered, least: Fraction) -> str:
    """The longest tenons that leave the least wall, as something to try."""
    tries = []
    if one.into != other.into:
        for entering, neighbour in ((one, other), (other, one)):
            far_wall = neighbour.cut.shape.reach(entering.into)[1]
            longest = leg.size(entering.into) - far_wall - entering.room - least
            if longest > 0:
                tries.append(f"{at_most(piece, longest)} for the {entering.rail}")
    instead = "set the two rails at different heights, or mitre the ends where they meet by hand"
    if not tries:
        return instead
    return f"shorten one tenon (at most {' or '.join(tries)}), {instead}"


def _seat_and_mortise(
    piece: Piece, leg: Part, seat: Cut, entered: _Entered, panel: str
) -> list[Finding]:
    between = gaps(cut_box(leg, seat), cut_box(leg, entered.cut))
    web = max(between)
    along = piece_axis(leg.placement.L)
    # A groove ends against the mortise of the rail it runs up to: that is how it should be.
    in_line = all(gap < 0 for axis, gap in enumerate(between) if axis != along)
    least = ZERO if seat.role == "groove" and in_line else piece.choice.wall_least
    if web >= least or (web == 0 and in_line):
        return []
    what = f"the {seat.role} for the {panel}"
    level: Level = "stop" if web < 0 else "caution"
    text = (
        f"{what} runs {said(piece, -web)} into the mortise of the {entered.rail}"
        if web < 0
        else f"{'no' if web == 0 else f'only {said(piece, web)} of'} wood between {what} and the "
        f"mortise of the {entered.rail}; least {said(piece, least)}"
    )
    return [
        Finding(
            SEATS,
            level,
            (leg.id,),
            f"in the {leg.name}, {text}",
            (("web", web), ("least", least)),
            "make the lip less, the shoulder at that edge more, or move the tenon",
        )
    ]


def _seat_spoiled(leg: Part, seat: Cut, other: Cut, across: Axis) -> bool:
    """True where `other` cuts away the wood that a panel lies against in `seat`.

    `across` is the axis that the panel's plane is square to.

    Two rabbets that meet at the leg's inside corner do no harm while each keeps its plane, nor
    does one rabbet that serves two panels in line.
    """
    if apart(cut_box(leg, seat), cut_box(leg, other)) >= 0:
        return False
    if all(seat.shape.reach(axis) == other.shape.reach(axis) for axis in ("W", "T")):
        return False
    if seat.role == "groove":
        return True
    plane = seat.shape.reach(across)[0]
    low, high = other.shape.reach(across)
    return low < plane < high
