"""The square tenons of a rail's end and their mortises, offset where a seat takes wood.

A seat is the rabbet or groove that holds a panel. A rabbet takes wood from the back of the
rail, so the tenon moves toward the face (section.py). Where the rabbet in the leg is run
through, the rail's back shoulder is longer than its front by the rabbet's lip (long-and-short
shoulders: William Noyes, Handwork in Wood, 1910, ch. VII no. 33).

A mortise is the tenon's own volume, carried over to where the rail stands; the sums are added
up separately, and compared.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from layout.joints import haunch, key, mitre, mould, peg, wedge
from layout.joints.rail_end import OPPOSITE, Joint, RailAxis, Tenon, Told
from layout.joints.worked import Span, Worked, other_axis, reference_for, together
from layout.mark import (
    Cut,
    Hull,
    Mark,
    Spot2,
    Sum,
    Surface,
    Witness,
    add,
    face_of,
    high_of,
    low_of,
)
from layout.part import Face

ZERO = Fraction(0)


def work(joints: Sequence[Joint]) -> Worked:
    """Cuts, marks and sums of a rail's tenons, one joint an end, and of their mortises."""
    done: list[Worked] = []
    for joint in joints:
        mortises = {tenon.called("mortise"): _mortise(joint, tenon) for tenon in joint.tenons()}
        waste = _waste(joint)
        marks = [*_rail_marks(joint), *_bearer_marks(joint, mortises)]
        sums: list[Sum] = []
        told = Told(
            _told(joint, joints, [other.size.section for other in joints]),
            _told(joint, joints, [_lengthwise(other) for other in joints]),
        )
        sums += _section_sums(joint, mortises, told.section)
        sums += _depth_sums(joint, mortises, told.length)
        sums += _bearer_sums(joint, mortises, waste)
        done.append(Worked((*waste.values(), *mortises.values()), tuple(marks), tuple(sums)))
        done += [
            one.work(joint, mortises, told) for one in (haunch, mitre, mould, wedge, key, peg)
        ]
    return together(done)


def _lengthwise(joint: Joint) -> object:
    """What a tenon's sums along its length are made of."""
    size = joint.size
    return (size.length, size.depth, size.haunch_length, size.projection, size.length_terms)


def _told(joint: Joint, joints: Sequence[Joint], sizes: Sequence[object]) -> str | None:
    """Where sizes of this end are told: once for both ends where they are alike (""), for each
    by its name where they are not; None for the second of two alike.
    """
    if any(other != sizes[0] for other in sizes):
        return f"end {joint.meeting.end}"
    return "" if joint is joints[0] else None


# -- cuts


def _waste(joint: Joint) -> dict[str, Cut]:
    """The wood around the tenons, by role; empty stretches are left out."""
    size, rail = joint.size, joint.rail
    section = size.section
    whole: Span = (ZERO, rail.width)
    standing = section.spans("T")
    cheeks = (standing[0][0], standing[-1][1])
    step = size.long_from if size.long_by else rail.thickness
    found: dict[str, Hull | None] = {
        # a moulding's shoulder lies further back, over its depth only (mould.py)
        "front cheek waste": _block(
            joint, (ZERO, size.length), whole, (ZERO, size.outer)
        ),
        "back cheek waste": _block(joint, (ZERO, size.length), whole, (cheeks[1], step)),
        "long shoulder waste": _block(
            joint, (ZERO, size.length - size.long_by), whole, (step, rail.thickness)
        ),
    }
    if joint.choice.mould is not None:
        found["front cheek waste"] = mould.front_waste(joint, joint.choice.mould)
    if len(standing) > 1:
        between = (standing[0][1], standing[1][0])
        found["waste between the twins"] = _block(joint, (ZERO, size.length), whole, between)
    for index, role in _gap_roles(joint):
        across = (section.station("W", index), section.station("W", index + 1))
        found[role] = haunch.waste(joint, index, across, cheeks)
    return {
        role: joint.on_rail(role, hull) for role, hull in found.items() if hull is not None
    }


def _block(joint: Joint, u: Span, w: Span, t: Span) -> Hull | None:
    """A square-cornered shape, None where there is nothing of it."""
    return joint.block(u, w, t) if all(low < high for low, high in (u, w, t)) else None


def _gap_roles(joint: Joint) -> list[tuple[int, str]]:
    """The gaps across the width that have any wood, by number, and the roles of their waste."""
    chain = joint.size.section.widths
    names = {0: "top shoulder waste", len(chain) - 1: "bottom shoulder waste"}
    return [
        (index, names.get(index, "web waste"))
        for index, one in enumerate(chain)
        if not one.tenon and one.size > 0
    ]


def _mortise(joint: Joint, tenon: Tenon) -> Cut:
    """The tenon's own place in the bearer, deeper by the glue room, or right through."""
    size = joint.size
    start = size.projection if size.through else -size.glue_room
    shape = joint.block((start, size.length), tenon.across, tenon.through)
    return joint.in_bearer(tenon.called("mortise"), shape)


# -- marks


def _rail_marks(joint: Joint) -> list[Mark]:
    size, rail = joint.size, joint.rail
    section = size.section
    rows, columns = section.spans("W"), section.spans("T")
    tips: Span = joint.span((ZERO, size.length))
    at = joint.at(size.length)
    back_reach = joint.span((ZERO, size.length - size.long_by))
    at_back = joint.at(size.length - size.long_by)
    at_front = joint.at(size.length - mould.longer_by(joint))
    front_reach = joint.span((ZERO, size.length - mould.longer_by(joint)))
    step = size.long_from if size.long_by else rail.thickness
    marks: list[Mark] = []

    def knife(face: Face, where: Fraction, low: Fraction, high: Fraction) -> None:
        if low < high:
            role = "shoulder" if where == at else "long shoulder"
            line = ((where, low), (where, high))
            marks.append(joint.rail_mark(face, "knife", role, "end A", where, line))

    # Where a shoulder is nothing the tenon itself comes out on that surface: the line is cut
    # only beside it, over the waste.
    sides: tuple[tuple[Face, Fraction, Fraction], ...] = (
        ("face", size.outer, at_front),
        ("back", size.inner, at_back),
    )
    for face, shoulder_width, where in sides:
        if shoulder_width > 0:
            knife(face, where, ZERO, rail.width)
        else:
            for gap, (low, high) in enumerate(_between(rows, rail.width)):
                # a haunch comes out there too, and has its own line
                if not haunch.stands_in(joint, 2 * gap):
                    knife(face, where, low, high)
    edges: tuple[tuple[Face, Fraction], ...] = (("edge", size.top), ("far edge", size.bottom))
    for face, shoulder_width in edges:
        if shoulder_width > 0 and not haunch.shows_on(joint, face):
            # where no mitre takes the moulding's corner, its shoulder shows on the edge
            front = mould.layer_on(joint, face)
            knife(face, at_front, ZERO, front)
            knife(face, at, front, step)
        else:
            for low, high in _between(columns, step):
                knife(face, at, low, high)
        knife(face, at_back, step, rail.thickness)

    for (low, high), tenon in zip(columns, joint.tenons(), strict=False):
        tool, pair = joint.pair_tool(low, high)
        for value, role in ((low, "near cheek"), (high, "far cheek")):
            if not 0 < value < rail.thickness:
                continue
            name = tenon.name.split()[-1] if len(columns) > 1 else ""
            told = f"{name} {role}" if name else role
            lines: list[tuple[Face, Spot2, Spot2]] = [
                (joint.end_face, (ZERO, value), (rail.width, value)),
                ("edge", (tips[0], value), (tips[1], value)),
                ("far edge", (tips[0], value), (tips[1], value)),
            ]
            marks += [
                joint.rail_mark(face, tool, told, "face side", value, (a, b), pair)
                for face, a, b in lines
            ]
    for index, (low, high) in enumerate(rows):
        name = f"{section.row_names[index]} " if len(rows) > 1 else ""
        edges_here = ((low, "tenon top", 0), (high, "tenon bottom", len(section.widths) - 1))
        for value, role, gap in edges_here:
            if not 0 < value < rail.width or wedge.splays(joint, gap):
                continue
            lines = [
                ("face", (front_reach[0], value), (front_reach[1], value)),
                (joint.end_face, (value, ZERO), (value, rail.thickness)),
                ("back", (back_reach[0], value), (back_reach[1], value)),
            ]
            marks += [
                joint.rail_mark(
                    face, "marking gauge", f"{name}{role}", "face edge", value, (a, b)
                )
                for face, a, b in lines
            ]
    return marks


def _between(spans: Sequence[Span], size: Fraction) -> list[Span]:
    """What of 0 to `size` these spans leave."""
    edges = [ZERO, *(value for span in spans for value in span), size]
    return [(edges[i], edges[i + 1]) for i in range(0, len(edges), 2)]


def end_words(joint: Joint) -> tuple[str, str]:
    """What the two ends of a mortise along the bearer are called."""
    upright = joint.bearer.placement.L[1] == "Z"
    return ("top", "bottom") if upright else ("start", "end")


def _bearer_marks(joint: Joint, mortises: dict[str, Cut]) -> list[Mark]:
    bearer, entry = joint.bearer, joint.meeting.face
    across = other_axis(entry)
    source = reference_for(across)
    first, last = end_words(joint)
    marks: list[Mark] = []
    faces = [entry, OPPOSITE[entry]] if joint.size.through else [entry]
    for tenon in joint.tenons():
        shape = mortises[tenon.called("mortise")].shape
        near, far = shape.reach(across)
        tool, pair = joint.pair_tool(near, far)
        for face in faces:
            top, bottom = wedge.mouth(joint, shape, "L", face)
            low, high = wedge.mouth(joint, shape, across, face)
            same = (low, high) == (near, far)
            for at, role in ((top, f"mortise {first}"), (bottom, f"mortise {last}")):
                line = ((at, low), (at, high))
                marks.append(
                    Mark(bearer.id, joint.name, face, "knife", tenon.called(role), "end A", at,
                         line)
                )
            for at, role in ((low, "near wall"), (high, "far wall")):
                line = ((top, at), (bottom, at))
                marks.append(
                    Mark(bearer.id, joint.name, face, tool if same else "marking gauge",
                         tenon.called(role), source, at, line, pair=pair if same else None)
                )
    along: RailAxis = "W" if joint.meeting.width.axis == "L" else "T"
    names = ("rail top edge", "rail bottom edge") if along == "W" and first == "top" else (
        "rail side", "rail far side")
    corners = [joint.place(ZERO, ZERO, ZERO), joint.place(ZERO, joint.rail.width,
                                                          joint.rail.thickness)]
    for at, role in zip(sorted(corner[0] for corner in corners), names, strict=True):
        line = ((at, ZERO), (at, bearer.size(across)))
        marks.append(Mark(bearer.id, joint.name, entry, "pencil", role, "end A", at, line))
    return marks


# -- sums


def _section_sums(joint: Joint, mortises: dict[str, Cut], where: str | None) -> list[Sum]:
    """Sizes across the rail; the bearer's mortises, where they stand, confirm them."""
    if where is None:
        return []
    rail, section = joint.rail, joint.size.section
    sums: list[Sum] = []

    def confirmed(axis: RailAxis, start: int, stop: int) -> Witness:
        return Witness(
            joint.surface(axis, start, mortises), joint.surface(axis, stop, mortises)
        )

    for rule in section.rules:
        witness = confirmed(rule.axis, rule.start, rule.stop)
        sums.append(add(rule.name, rail.id, witness, *rule.terms, where=where))
    lines: tuple[tuple[RailAxis, str], ...] = (("T", "face side"), ("W", "face edge"))
    for axis, source in lines:
        chain = section.chain(axis)
        for station in range(2, len(chain)):
            begins = chain[station].tenon
            name = _line_name(joint, axis, station, begins)
            terms = section.terms(axis, 0, station)
            if station == len(chain) - 1 and axis == "W":
                last = chain[station]
                terms = ((+1, "rail width", rail.width), (-1, last.name, last.size))
            sums.append(
                add(f"{name} from the {source}", rail.id, confirmed(axis, 0, station), *terms,
                    where=where)
            )
    return sums


def _depth_sums(joint: Joint, mortises: dict[str, Cut], where: str | None) -> list[Sum]:
    """The tenon's length, where it was left open, and the mortise's depth."""
    if where is None:
        return []
    rail, size, into = joint.rail, joint.size, joint.meeting.into
    sums: list[Sum] = []
    if size.length_terms:
        sums.append(
            add("tenon length", rail.id,
                Witness(face_of(joint.bearer.id, joint.meeting.face),
                        face_of(rail.id, joint.end_face)),
                *size.length_terms, where=where)
        )
    if not size.through:
        low, high = next(iter(mortises.values())).shape.reach(into)
        sums.append(
            add(
                "mortise depth",
                rail.id,
                # from the bearer's face to where the tenon's end really stops, and the room
                # beyond it
                Witness(
                    face_of(joint.bearer.id, joint.meeting.face),
                    face_of(rail.id, joint.end_face),
                    plus=high - low - size.length,
                ),
                (+1, "tenon length", size.length),
                (+1, "room for glue", size.glue_room),
                where=where,
            )
        )
    return sums


def _line_name(joint: Joint, axis: RailAxis, station: int, begins: bool) -> str:
    """What is struck on the rail at a station of its section."""
    section = joint.size.section
    stretch = station if begins else station - 1
    one = next(
        tenon for tenon in joint.tenons()
        if (tenon.row if axis == "W" else tenon.column) == stretch
    )
    words = one.name.split()
    several = len(section.spans(axis)) > 1
    name = f"{words[0] if axis == 'W' else words[-1]} " if several else ""
    if axis == "T":
        return f"{name}{'near' if begins else 'far'} cheek"
    return f"{name}tenon {'top' if begins else 'bottom'}"


def _bearer_sums(
    joint: Joint, mortises: dict[str, Cut], waste: dict[str, Cut]
) -> list[Sum]:
    """Where the mortises stand on the bearer; the rail, where it stands, confirms it."""
    bearer = joint.bearer
    where = f"{joint.rail.name}, end {joint.meeting.end}"
    first, last = end_words(joint)
    sums: list[Sum] = []
    axes: tuple[RailAxis, RailAxis] = ("T", "W")
    for axis in axes:
        approach = joint.meeting.approach(axis)
        reference: Face = {"L": "end A", "W": "edge", "T": "face"}[approach.axis]  # type: ignore[assignment]
        source = reference_for(approach.axis)
        if approach.axis == "L":
            faces: tuple[Face, Face] = ("edge", "far edge") if axis == "W" else ("face", "back")
            nearer, farther = faces if approach.forward else reversed(faces)
            words = ("top edge", "bottom edge") if axis == "W" and first == "top" else (
                "side", "far side")
            for word, face, terms in zip(
                words, (nearer, farther), (approach.near, approach.far), strict=True
            ):
                sums.append(
                    add(f"rail's {word} from end A", bearer.id,
                        Witness(face_of(bearer.id, "end A"), face_of(joint.rail.id, face)),
                        *terms, where=where)
                )
        chain = joint.size.section.chain(axis)
        order = range(1, len(chain)) if approach.forward else range(len(chain) - 1, 0, -1)
        for station in order:
            begins = chain[station].tenon == approach.forward
            stretch = station if chain[station].tenon else station - 1
            for tenon in joint.tenons():
                if (tenon.row if axis == "W" else tenon.column) != stretch:
                    continue
                other = tenon.column if axis == "W" else tenon.row
                if other != min(
                    t.column if axis == "W" else t.row for t in joint.tenons()
                ):
                    continue  # the same line, struck once for all that lie along it
                cut = mortises[tenon.called("mortise")]
                if approach.axis == "L":
                    name = tenon.called(f"mortise {first if begins else last}")
                else:
                    name = tenon.called(f"{'near' if begins else 'far'} mortise wall")
                between = joint.size.section.terms(
                    axis, *((0, station) if approach.forward else (station, len(chain)))
                )
                # the far end from the rail's far edge, where that is the shorter sum
                base, more = approach.near, between
                if axis == "W" and approach.forward and station == len(chain) - 1:
                    base = approach.far
                    more = ((-1, chain[station].name, chain[station].size),)
                sums.append(
                    add(
                        f"{name} from {source if source == 'end A' else f'the {source}'}",
                        bearer.id,
                        Witness(
                            face_of(bearer.id, reference),
                            _rail_surface(joint, axis, station, waste),
                        ),
                        *base,
                        *more,
                        where=where,
                        also=Witness(
                            face_of(bearer.id, reference),
                            (low_of if begins else high_of)(cut, approach.axis),
                        ),
                    )
                )
    return sums


def _rail_surface(
    joint: Joint, axis: RailAxis, station: int, waste: dict[str, Cut]
) -> Surface:
    """Where the rail's own wood has a station of its section: the end of a waste against the
    tenon, or the rail's surface where there is no waste.
    """
    chain = joint.size.section.chain(axis)
    before = not chain[station].tenon  # the tenon lies before this station, the gap after it
    gap = station if before else station - 1
    if axis == "W":
        roles = dict(_gap_roles(joint))
        role, bare = roles.get(gap), ("edge" if gap == 0 else "far edge")
    else:
        names = {0: "front cheek waste", len(chain) - 1: "back cheek waste"}
        role, bare = names.get(gap, "waste between the twins"), "face" if gap == 0 else "back"
        if gap == len(chain) - 1 and role not in waste:
            role = "long shoulder waste"
    if role is None or role not in waste:
        return face_of(joint.rail.id, bare)  # type: ignore[arg-type]
    return (low_of if before else high_of)(waste[role], axis)
