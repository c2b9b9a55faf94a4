"""Wedges of through tenons: in saw cuts, or beside the tenon.

Wedges in saw cuts spread the tenon to fill a mortise that is flared toward the outer face.
Wedge as thick as the tenon, mortise ends slightly flared: George A. Ross, Elementary Course in
Woodwork, 1901, Exercise 8; William Noyes, Handwork in Wood, 1910, ch. VII no. 34. Saw cuts near
the tenon's edges: William Fairham, Woodwork Joints, 1921, Fig. 158.
A wedge beside the tenon pulls a splayed edge against the mortise: Ross, Exercise 4.
"""

from __future__ import annotations

from fractions import Fraction

from layout.defaults import default_ratio, share_words
from layout.joints.choices import SideWedgeChoice, WedgeChoice
from layout.joints.rail_end import OPPOSITE, Joint, Tenon, Told
from layout.joints.worked import Loose, Span, Worked, together
from layout.mark import (
    Cut,
    Cylinder,
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
from layout.part import Axis, Face

ZERO = Fraction(0)
FACES: tuple[Face, Face] = ("face", "back")


def wedge_length(choice: WedgeChoice, tenon: Fraction) -> Fraction:
    """How long a wedge is, and how deep its saw cut, in mm."""
    if choice.length is None:
        return tenon * default_ratio("wedge_share")
    return choice.length


def flare(choice: WedgeChoice) -> Fraction:
    """How much each end of the mortise opens toward the outer face, in mm: what the wedges
    spread the tenon by, half to each side.
    """
    return choice.many * (choice.thickness - choice.kerf) / 2


# -- the mortise's mouths


def mouth(joint: Joint, shape: Hull | Cylinder, axis: Axis, face: Face) -> Span:
    """From where to where a mortise opens on a face of the bearer, along an axis of it."""
    low, high = shape.reach(axis)
    if joint.meeting.width.axis != axis:
        return low, high
    outside = face == OPPOSITE[joint.meeting.face]
    before, behind = _opened(joint, outside)
    if not joint.meeting.width.forward:
        before, behind = behind, before
    return low - before, high + behind


def _opened(joint: Joint, outside: bool) -> Span:
    """What wedges add to the mortise on a face, at the face edge and at the far edge (mm)."""
    wedges = joint.choice.wedges
    if wedges is not None:
        reaches = wedge_length(wedges, joint.size.length) > joint.size.projection
        by = max(flare(wedges), ZERO) if outside and reaches else ZERO
        return by, by
    side = joint.choice.side_wedge
    if side is None:
        return ZERO, ZERO
    wedge = side.outer if outside else side.inner
    splay = side.splay if outside else ZERO
    return (wedge, splay) if side.edge == "edge" else (splay, wedge)


def _mouth_sums(joint: Joint, mortise: Cut, tenon: Tenon) -> list[Sum]:
    """Where the mortise opens along the bearer on a face, if not where the tenon's edge is."""
    approach = joint.meeting.width
    if approach.axis != "L":
        return []
    entry = joint.meeting.face
    straight = mortise.shape.reach("L")
    upright = joint.bearer.placement.L[1] == "Z"
    ends = ("top", "bottom") if upright else ("start", "end")
    found = []
    for face, which in ((entry, "inner"), (OPPOSITE[entry], "outer")):
        mouths = mouth(joint, mortise.shape, "L", face)
        for index, word in enumerate(ends):
            off = abs(mouths[index] - straight[index])
            if off == 0:
                continue
            surface = (low_of if index == 0 else high_of)(mortise, "L")
            found.append(
                add(
                    f"{tenon.called(f'mortise {word}')} on the {which} face from end A",
                    joint.bearer.id,
                    Witness(face_of(joint.bearer.id, "end A"), surface,
                            plus=-off if index == 0 else off),
                    (+1, f"mortise {word} at the tenon", straight[index]),
                    (-1 if index == 0 else +1, "opened by", off),
                    where=f"{joint.rail.name}, end {joint.meeting.end}",
                )
            )
    return found


# -- the splayed edge


def splays(joint: Joint, gap: int) -> bool:
    """True for the gap of the section whose tenon edge is splayed."""
    side = joint.choice.side_wedge
    if side is None or side.splay == 0:
        return False
    return gap == (0 if side.edge == "far edge" else len(joint.size.section.widths) - 1)


def splay_lines(joint: Joint) -> list[Mark]:
    """The splayed edge on face and back, from the shoulder to where the leg ends, and on."""
    side, size = joint.choice.side_wedge, joint.size
    (tenon,) = joint.tenons()
    assert side is not None
    edge, way = (
        (tenon.across[0], -1) if side.edge == "far edge" else (tenon.across[1], 1)
    )
    out = edge + way * side.splay
    at = joint.at(size.length)
    marks: list[Mark] = []
    for face in FACES:
        slope = sorted(((at, edge), (joint.at(size.projection), out)))
        marks.append(
            joint.rail_mark(face, "bevel", "splay", "end A", at, (slope[0], slope[1]))
        )
    if 0 < out < joint.rail.width:
        ends: list[tuple[Face, Spot2, Spot2]] = [
            (joint.end_face, (out, ZERO), (out, joint.rail.thickness))
        ]
        if size.projection:
            tips = joint.span((ZERO, size.projection))
            ends += [(face, (tips[0], out), (tips[1], out)) for face in FACES]
        marks += [
            joint.rail_mark(face, "marking gauge", "splayed edge", "face edge", out, (a, b))
            for face, a, b in ends
        ]
    return marks


def _splay_sum(joint: Joint, side: SideWedgeChoice, told: str) -> list[Sum]:
    """Where the splayed edge comes out, from the face edge; the leg's mortise confirms it."""
    section = joint.size.section
    station = 1 if side.edge == "far edge" else len(section.widths) - 1
    out = section.station("W", station) + (-1 if side.edge == "far edge" else 1) * side.splay
    if not 0 < out < joint.rail.width:
        return []
    waste = Surface(
        joint.rail.id,
        cut=(joint.rail.id, joint.name,
             f"{'top' if station == 1 else 'bottom'} shoulder waste {joint.meeting.end}"),
        axis="W",
        high=station == 1,
    )
    # the waste's own reach ends at the shoulder; the splay takes it further
    return [
        add("splayed edge from the face edge", joint.rail.id,
            Witness(face_of(joint.rail.id, "edge"), waste,
                    plus=-side.splay if station == 1 else side.splay),
            *section.terms("W", 0, station),
            (-1 if station == 1 else 1, "splay", side.splay), where=told)
    ]


def splay_waste(joint: Joint, across: Span, cheeks: Span) -> Hull:
    """The waste beside a splayed edge, from the outer face to the shoulder."""
    side, size = joint.choice.side_wedge, joint.size
    assert side is not None
    outside, tenon = across if side.edge == "far edge" else reversed(across)
    way = -1 if side.edge == "far edge" else 1
    return joint.hull(
        (u, w, t)
        for t in cheeks
        for u, w in (
            (size.projection, outside),
            (size.projection, tenon + way * side.splay),
            (size.length, outside),
            (size.length, tenon),
        )
    )


# -- both kinds


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """Saw cuts, flares, wedge spaces and the wedges themselves."""
    if joint.choice.wedges is not None:
        return together(
            _in_saw_cuts(joint, joint.choice.wedges, tenon, mortises, told)
            for tenon in joint.tenons()
        )
    if joint.choice.side_wedge is not None:
        return _beside(joint, joint.choice.side_wedge, mortises, told)
    return Worked()


def _in_saw_cuts(
    joint: Joint, choice: WedgeChoice, tenon: Tenon, mortises: dict[str, Cut], told: Told
) -> Worked:
    size, rail = joint.size, joint.rail
    low, high = tenon.across
    long = wedge_length(choice, size.length)
    spread = flare(choice)
    places = [(low + high) / 2] if choice.many == 1 else [
        low + choice.from_edge, high - choice.from_edge
    ]
    cuts: list[Cut] = []
    marks: list[Mark] = []
    sums: list[Sum] = []
    for number, place in enumerate(places, start=1):
        name = tenon.called("saw cut" if len(places) == 1 else f"saw cut {number}")
        kerf = (place - choice.kerf / 2, place + choice.kerf / 2)
        cut = joint.on_rail(name, joint.block((ZERO, long), kerf, tenon.through))
        cuts.append(cut)
        tips = joint.span((ZERO, long))
        for face, line in (
            ("face", ((tips[0], place), (tips[1], place))),
            ("back", ((tips[0], place), (tips[1], place))),
            (joint.end_face, ((place, tenon.through[0]), (place, tenon.through[1]))),
        ):
            marks.append(
                joint.rail_mark(face, "marking gauge", name, "face edge", place, line)  # type: ignore[arg-type]
            )
        bottom = joint.at(long)
        marks += [
            joint.rail_mark(face, "pencil", f"{name}, bottom", "end A", bottom,
                            ((bottom, kerf[0]), (bottom, kerf[1])))
            for face in ("face", "back")
        ]
        if told.section is not None:
            sums.append(_place_sum(joint, tenon, choice, number, cut, told.section))
    cuts += _flares(joint, tenon, long, spread)
    if spread > 0 and long > size.projection:
        sums += _flare_sums(joint, tenon, choice, cuts, mortises)
        sums += _mouth_sums(joint, mortises[tenon.called("mortise")], tenon)
    if told.length is not None and choice.length is None:
        sums.append(_length_sum(joint, tenon, cuts[0], told.length))
    loose = Loose(
        "wedge", rail.id, choice.many, tenon.through[1] - tenon.through[0], choice.thickness,
        long, f"tapers to nothing, 1 in {_ratio(long / choice.thickness)}", ZERO,
    )
    return Worked(tuple(cuts), tuple(marks), tuple(sums), loose=(loose,))


def _ratio(value: Fraction) -> str:
    """A slope's run to the nearest tenth."""
    tenths = round(value * 10)
    return str(tenths // 10) if tenths % 10 == 0 else f"{tenths // 10}.{tenths % 10}"


def _flares(joint: Joint, tenon: Tenon, long: Fraction, spread: Fraction) -> list[Cut]:
    """The mortise opened toward the outer face, from where the wedges reach to."""
    size = joint.size
    if spread <= 0 or long <= size.projection:
        return []
    cuts = []
    for side, edge, way in (("one", tenon.across[0], -1), ("other", tenon.across[1], 1)):
        outline = [
            (long, edge), (size.projection, edge), (size.projection, edge + way * spread)
        ]
        shape = joint.hull((u, w, t) for u, w in outline for t in tenon.through)
        role = "flare" if side == "one" else "far flare"
        cuts.append(joint.in_bearer(tenon.called(role), shape))
    return cuts


def _place_sum(
    joint: Joint, tenon: Tenon, choice: WedgeChoice, number: int, cut: Cut, told: str
) -> Sum:
    section = joint.size.section
    to_tenon = section.terms("W", 0, tenon.row)
    stretch = section.widths[tenon.row]
    if choice.many == 1:
        more = [(+1, f"half of the {stretch.name}", stretch.size / 2)]
    elif number == 1:
        more = [(+1, "saw cut from the tenon's edge", choice.from_edge)]
    else:
        more = [(+1, stretch.name, stretch.size),
                (-1, "saw cut from the tenon's edge", choice.from_edge)]
    role = cut.role.rpartition(" ")[0]
    return add(
        f"{role} from the face edge",
        joint.rail.id,
        Witness(face_of(joint.rail.id, "edge"), low_of(cut, "W"), plus=choice.kerf / 2),
        *to_tenon,
        *more,
        where=told,
    )


def _flare_sums(
    joint: Joint,
    tenon: Tenon,
    choice: WedgeChoice,
    cuts: list[Cut],
    mortises: dict[str, Cut],
) -> list[Sum]:
    axis = joint.meeting.width.axis
    forward = joint.meeting.width.forward
    mortise = mortises[tenon.called("mortise")]
    flared = next(cut for cut in cuts if cut.role.endswith("flare") and "far" not in cut.role)
    one = low_of(flared, axis) if forward else high_of(flared, axis)
    edge = low_of(mortise, axis) if forward else high_of(mortise, axis)
    many = "wedge" if choice.many == 1 else "two wedges"
    return [
        add(
            f"flare of each mortise end ({tenon.name})" if tenon.name else
            "flare of each mortise end",
            joint.bearer.id,
            Witness(one, edge),
            (+1, f"half of the {many}", choice.many * choice.thickness / 2),
            (-1, f"half of the saw {'cut' if choice.many == 1 else 'cuts'}",
             choice.many * choice.kerf / 2),
            where=f"{joint.rail.name}, end {joint.meeting.end}",
        )
    ]


def _length_sum(joint: Joint, tenon: Tenon, cut: Cut, told: str) -> Sum:
    """How long a wedge is and how deep its saw cut, where that was left open."""
    share = default_ratio("wedge_share")
    return add(
        f"wedge and saw cut, long ({tenon.name})" if tenon.name else "wedge and saw cut, long",
        joint.rail.id,
        Witness(low_of(cut, "L"), high_of(cut, "L")),
        (+1, f"{share_words(share)} of the tenon length", joint.size.length * share),
        where=told,
    )


def _beside(
    joint: Joint, choice: SideWedgeChoice, mortises: dict[str, Cut], told: Told
) -> Worked:
    """One wedge in the mortise beside the tenon, and the splayed edge across from it."""
    size, rail = joint.size, joint.rail
    (tenon,) = joint.tenons()
    low, high = tenon.across
    edge, way = (low, -1) if choice.edge == "edge" else (high, 1)
    outline = [
        (size.length, edge),
        (size.projection, edge),
        (size.projection, edge + way * choice.outer),
        (size.length, edge + way * choice.inner),
    ]
    space = joint.in_bearer(
        "wedge space", joint.hull((u, w, t) for u, w in outline for t in tenon.through)
    )
    cuts = [space]
    other, turn = (high, 1) if choice.edge == "edge" else (low, -1)
    if choice.splay:
        sloped = [
            (size.length, other),
            (size.projection, other),
            (size.projection, other + turn * choice.splay),
        ]
        cuts.append(
            joint.in_bearer(
                "splay space", joint.hull((u, w, t) for u, w in sloped for t in tenon.through)
            )
        )
        if size.projection:
            gap = 0 if choice.edge == "far edge" else len(size.section.widths) - 1
            across = sorted((
                other + turn * choice.splay, ZERO if gap == 0 else rail.width
            ))
            if across[0] < across[1]:
                shape = joint.block(
                    (ZERO, size.projection), (across[0], across[1]), tenon.through
                )
                cuts.append(joint.on_rail("shoulder waste beyond the leg", shape))
    taper = choice.outer - choice.inner
    axis = joint.meeting.width.axis
    before = (choice.edge == "edge") == joint.meeting.width.forward
    mortise = mortises["mortise"]
    sums = [
        *(_splay_sum(joint, choice, told.section) if told.section is not None else []),
        *_mouth_sums(joint, mortise, tenon),
        add("wedge space at the outer face", joint.bearer.id,
            Witness(
                (low_of if before else high_of)(space, axis),
                (low_of if before else high_of)(mortise, axis),
            ),
            (+1, "wedge at the inner face", choice.inner), (+1, "taper of the wedge", taper),
            where=f"{rail.name}, end {joint.meeting.end}"),
    ]
    # a quarter of the leg to spare at both ends, or as far as the wedge has any wood
    spare = size.bearer / 4
    if taper > 0:
        spare = min(spare, size.bearer * choice.inner / taper)
    loose = Loose(
        "wedge", rail.id, 1, tenon.through[1] - tenon.through[0], choice.outer + taper / 4,
        size.bearer * 5 / 4 + spare, "some to spare at both ends, to drive and to trim",
        choice.inner - taper * spare / size.bearer,
    )
    marks = splay_lines(joint) if choice.splay else []
    return Worked(tuple(cuts), tuple(marks), tuple(sums), loose=(loose,))
