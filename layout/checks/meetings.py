"""Do two joints in one part run into each other: every hollow against all others, exactly.

Only pairs that lie close are looked at, found by a search that does not try them all
(layout/near.py). The meeting test for two mortises is geometry; no book prints it.
"""

from __future__ import annotations

from fractions import Fraction

from layout.checks.bodies import tenon_bodies
from layout.checks.hollows import Hollow, hollows, names
from layout.checks.placed import apart as boxes_apart
from layout.checks.placed import cut_box, gaps
from layout.checks.words import at_most, said
from layout.joints.rail_end import Joint, Tenon
from layout.joints.worked import other_axis
from layout.mark import Cut, Finding, Level
from layout.part import Axis, Part, piece_axis
from layout.piece import Piece
from layout.solid.clearance import apart, meet
from layout.solid.convex import common
from layout.solid.near import close_pairs
from layout.solid.rounds import Round

MORTISES = "mortises clear of each other"
SEATS = "seat clear of the joints"
HOLES = "holes clear of other joints"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """A finding for every two hollows of different joints that meet, or nearly meet."""
    found: list[Finding] = []
    told = names(piece)
    joints = {joint.name: joint for joint in piece.joints}
    square_to = {p.joint: other_axis(p.upper.meetings[0].face) for p in piece.panels}
    within = max(piece.choice.wall_least, piece.rule.step_mm)
    for part in piece.parts:
        here = hollows(piece, part, told)
        boxes = [hollow.body.spans for hollow in here]
        for i, j in sorted(close_pairs(boxes, within)):
            one, other = here[i], here[j]
            if one.of == other.of:
                continue
            found += _pair(piece, part, one, other, joints, told, square_to)
    return found


def _pair(
    piece: Piece,
    part: Part,
    one: Hollow,
    other: Hollow,
    joints: dict[str, Joint],
    told: dict[str, str],
    square_to: dict[str, Axis],
) -> list[Finding]:
    if one.is_seat and other.is_seat:
        return _two_seats(piece, part, one.cut, other.cut, told, square_to)
    if one.is_seat or other.is_seat:
        seat, hollow = (one, other) if one.is_seat else (other, one)
        if hollow.of in joints:
            return _seat_and_hollow(piece, part, seat, hollow)
    if one.is_mortise and other.is_mortise:
        return _two_mortises(piece, part, one, other, joints)
    return _two_hollows(piece, part, one, other, joints)


# -- mortises


def _tenon(joint: Joint, cut: Cut) -> Tenon:
    return next(one for one in joint.tenons() if one.called("mortise") == cut.role)


def _meant(one: Joint, other: Joint) -> bool:
    """True where the maker has these two tenons meet: mitred, or one passing the other."""
    kinds = {one.choice.meeting, other.choice.meeting}
    if kinds == {"mitred"}:
        return one.size.mitre is not None and other.size.mitre is not None
    return kinds == {"passing"} and bool(one.size.notches or other.size.notches)


def _between(piece: Piece, one: Joint, a: Cut, other: Joint, b: Cut) -> Fraction:
    """How far the two tenons clear each other in mm; negative where they share wood: by how much
    one of them must be shorter, thinner or narrower.
    """
    mine = tenon_bodies(one, _tenon(one, a), piece.cuts)
    theirs = tenon_bodies(other, _tenon(other, b), piece.cuts)
    shared = [(x, y) for x in mine for y in theirs if common(x, y) is not None]
    if shared:
        return min(max(gaps(x.spans, y.spans)) for x, y in shared)
    return min(apart(x, y) for x in mine for y in theirs)


def _two_mortises(
    piece: Piece, part: Part, one: Hollow, other: Hollow, joints: dict[str, Joint]
) -> list[Finding]:
    a, b = joints[one.of], joints[other.of]
    least = piece.choice.wall_least
    web = boxes_apart(cut_box(part, one.cut), cut_box(part, other.cut))
    if web >= 0:
        web = apart(one.body, other.body)
    if web >= least:
        return []
    clear = _between(piece, a, one.cut, b, other.cut)
    if clear >= 0 and _meant(a, b):
        return []
    pair = f"{a.rail.name} and the {b.rail.name}"
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
            (part.id,),
            f"in the {part.name}, {text}",
            (
                ("web", web),
                ("between the tenons", clear),
                (f"tenon of the {a.rail.name}", a.size.length),
                (f"tenon of the {b.rail.name}", b.size.length),
            ),
            _shorter(piece, part, (a, one.cut), (b, other.cut), least),
        )
    ]


def _shorter(
    piece: Piece,
    part: Part,
    one: tuple[Joint, Cut],
    other: tuple[Joint, Cut],
    least: Fraction,
) -> str:
    """The longest tenons that leave the least wall, as something to try."""
    tries = []
    if one[0].meeting.into != other[0].meeting.into:
        for (entering, _), (_, cut) in ((one, other), (other, one)):
            into = entering.meeting.into
            far_wall = cut.shape.reach(into)[1]
            longest = part.size(into) - far_wall - entering.size.glue_room - least
            if longest > 0:
                tries.append(f"{at_most(piece, longest)} for the {entering.rail.name}")
    instead = 'set the two rails at different heights, or mitre both (meeting = "mitred")'
    if not tries:
        return instead
    return f"shorten one tenon (at most {' or '.join(tries)}), {instead}"


# -- sockets and holes


def _two_hollows(
    piece: Piece, part: Part, one: Hollow, other: Hollow, joints: dict[str, Joint]
) -> list[Finding]:
    """A socket, a flare or a hole beside a hollow of another joint."""
    holes = isinstance(one.body, Round) or isinstance(other.body, Round)
    if one.of in joints and other.of in joints and not holes and _meant(
        joints[one.of], joints[other.of]
    ):
        return []
    least = piece.choice.wall_least
    into = meet(one.body, other.body)
    web = ZERO if into else apart(one.body, other.body)
    if web >= least:
        return []
    # two sockets from both sides that touch cut the board in two
    slid = {slide.name for slide in piece.slides}
    into = into or (web == 0 and one.of in slid and other.of in slid)
    text = (
        f"{one.words} runs into {other.words}"
        if into
        else f"{'no' if web == 0 else f'only {said(piece, web)} of'} wood between {one.words} and "
        f"{other.words}; least {said(piece, least)}"
    )
    return [
        Finding(
            HOLES if holes else MORTISES,
            "stop" if into else "caution",
            (part.id,),
            f"in the {part.name}, {text}",
            (("web", web), ("least", least)),
            "move the pegs, make them fewer or thinner, or bore less deep"
            if holes
            else "make one of them less deep, or move it"
            if {one.of, other.of} & slid
            else "set the rails at different heights, or make the haunch shorter",
        )
    ]


# -- seats


def _seat_and_hollow(
    piece: Piece, part: Part, seat: Hollow, hollow: Hollow
) -> list[Finding]:
    seat_box, box = cut_box(part, seat.cut), cut_box(part, hollow.cut)
    between = gaps(seat_box, box)
    web = max(between)
    along = piece_axis(part.placement.L)
    # A groove ends against the mortise of the rail it runs up to, or runs on over its mouth to
    # where a haunch fills it: that is how it should be.
    in_line = all(gap < 0 for axis, gap in enumerate(between) if axis != along)
    within = all(
        box[axis][0] <= seat_box[axis][0] and seat_box[axis][1] <= box[axis][1]
        for axis in range(3)
        if axis != along
    )
    # A tenon in line with a rabbet has its mortise's wall in the rabbet's plane: Ross, 1901,
    # Exercise 6, Fig. 87.
    one_plane = seat.cut.role == "rabbet" and between[piece_axis(part.placement.T)] == 0
    over_mouth = seat.cut.role == "groove" and in_line and within and hollow.is_mortise
    least = ZERO if seat.cut.role == "groove" and in_line else piece.choice.wall_least
    if web >= least or (web == 0 and (in_line or one_plane)) or over_mouth:
        return []
    what = seat.words
    level: Level = "stop" if web < 0 else "caution"
    text = (
        f"{what} runs {said(piece, -web)} into {hollow.words}"
        if web < 0
        else f"{'no' if web == 0 else f'only {said(piece, web)} of'} wood between {what} and "
        f"{hollow.words}; least {said(piece, least)}"
    )
    return [
        Finding(
            SEATS,
            level,
            (part.id,),
            f"in the {part.name}, {text}",
            (("web", web), ("least", least)),
            "make the lip less, the shoulder at that edge more, or move the tenon",
        )
    ]


def _two_seats(
    piece: Piece,
    part: Part,
    one: Cut,
    other: Cut,
    told: dict[str, str],
    square_to: dict[str, Axis],
) -> list[Finding]:
    if part.kind != "leg" or not any(
        _seat_spoiled(part, seat, by, square_to[seat.joint])
        for seat, by in ((one, other), (other, one))
    ):
        return []
    return [
        Finding(
            SEATS,
            "stop",
            (part.id,),
            f"the seats of the {told[one.joint]} and the {told[other.joint]} cut into each other "
            f"in the {part.name}",
            (("overlap", -boxes_apart(cut_box(part, one), cut_box(part, other))),),
            "use a groove in the legs for one of them, a smaller lip, or a thicker leg",
        )
    ]


def _seat_spoiled(leg: Part, seat: Cut, other: Cut, across: Axis) -> bool:
    """True where `other` cuts away the wood that a panel lies against in `seat`.

    `across` is the axis that the panel's plane is square to.

    Two rabbets that meet at the leg's inside corner do no harm while each keeps its plane, nor
    does one rabbet that serves two panels in line.
    """
    if boxes_apart(cut_box(leg, seat), cut_box(leg, other)) >= 0:
        return False
    if all(seat.shape.reach(axis) == other.shape.reach(axis) for axis in ("W", "T")):
        return False
    if seat.role == "groove":
        return True
    plane = seat.shape.reach(across)[0]
    low, high = other.shape.reach(across)
    return low < plane < high
