"""The square tenon on a rail's end and its mortise, offset where a seat takes wood from the rail.

A seat is the rabbet or groove that holds a panel. A rabbet takes wood from the back of the
rail, so the tenon moves toward the face: centred in the wood in front of the rabbet unless the
maker gives an outer shoulder. Where the rabbet in the leg is run through, the rail's back
shoulder is longer than its front by the rabbet's lip (long-and-short shoulders: William Noyes,
Handwork in Wood, 1910, ch. VII no. 33).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.worked import (
    Span,
    Worked,
    axis_along,
    box_cut,
    carried,
    other_axis,
    reference_for,
)
from layout.kit import Kit, chisel_for
from layout.mark import (
    Cut,
    Hull,
    Mark,
    Sum,
    Surface,
    Tool,
    Witness,
    add,
    box,
    face_of,
    high_of,
    low_of,
)
from layout.part import FACE_NORMAL, Face, Part

End = Literal["A", "B"]
ZERO = Fraction(0)


class TenonChoice(NamedTuple):
    """What the maker chooses of a tenon, lengths in mm; None is worked out by `sizes`.

    `shoulder` stands for a top or bottom shoulder that the maker leaves open.
    """

    length: Fraction
    glue_room: Fraction
    shoulder: Fraction
    web_least: Fraction
    thickness: Fraction | None = None
    outer_shoulder: Fraction | None = None
    top_shoulder: Fraction | None = None
    bottom_shoulder: Fraction | None = None


class SeatInRail(NamedTuple):
    """A panel's seat as the rail carries it.

    `edge` is the rail edge it is cut along, `start` how far from the face side it begins, `lip`
    how far it goes into the edge; all in mm.
    """

    kind: Literal["rabbet", "groove"]
    edge: Literal["edge", "far edge"]
    start: Fraction
    lip: Fraction


class TenonSizes(NamedTuple):
    """One rail's tenon, worked out; all in mm, measured from the rail's face side and face edge.

    `wood` is the thickness that the seat leaves in front of it, `outer` and `inner` the
    shoulders at the face and the back, `depth` that of the mortise. `long_by` is how much
    longer the back shoulder is, from `long_from` behind the face side on.
    """

    wood: Fraction
    thickness: Fraction
    outer: Fraction
    inner: Fraction
    top: Fraction
    bottom: Fraction
    width: Fraction
    length: Fraction
    depth: Fraction
    glue_room: Fraction
    chosen_by_chisel: bool
    centred: bool
    long_by: Fraction = ZERO
    long_from: Fraction = ZERO


class RailEdges(NamedTuple):
    """The terms that lead from a leg's end A to the rail's top edge and to its bottom edge."""

    top: tuple[tuple[int, str, Fraction], ...]
    bottom: tuple[tuple[int, str, Fraction], ...]


class Meeting(NamedTuple):
    """One end of a rail against one face of a leg."""

    end: End
    leg: Part
    face: Face


def sizes(
    choice: TenonChoice,
    rail: Part,
    seats: tuple[SeatInRail, ...],
    kit: Kit,
    long_by: Fraction = ZERO,
    long_from: Fraction = ZERO,
) -> TenonSizes:
    """The tenon of a rail that carries these seats; nothing is refused here (checks do that)."""
    rabbets = [seat.start for seat in seats if seat.kind == "rabbet"]
    if long_by:
        rabbets.append(long_from)  # filled by the long shoulder, which is no wood for a tenon
    wood = min([rail.thickness, *rabbets])
    thickness = chisel_for(rail.thickness, kit) if choice.thickness is None else choice.thickness
    centred = choice.outer_shoulder is None
    outer = (wood - thickness) / 2 if choice.outer_shoulder is None else choice.outer_shoulder
    # A groove along the edge takes its depth off the tenon's width (William Fairham, Woodwork
    # Joints, 1921, Fig. 134), so a shoulder left open is at least as wide there.
    grooves = {str(seat.edge): seat.lip for seat in seats if seat.kind == "groove"}
    top, bottom = (
        max(choice.shoulder, grooves.get(edge, ZERO)) if given is None else given
        for given, edge in ((choice.top_shoulder, "edge"), (choice.bottom_shoulder, "far edge"))
    )
    return TenonSizes(
        wood=wood,
        thickness=thickness,
        outer=outer,
        inner=rail.thickness - outer - thickness,
        top=top,
        bottom=bottom,
        width=rail.width - top - bottom,
        length=choice.length,
        depth=choice.length + choice.glue_room,
        glue_room=choice.glue_room,
        chosen_by_chisel=choice.thickness is None,
        centred=centred,
        long_by=long_by,
        long_from=long_from,
    )


def work(
    rail: Part,
    size: TenonSizes,
    meetings: tuple[Meeting, ...],
    set_in: Fraction,
    edges: RailEdges,
    kit: Kit,
) -> Worked:
    """Cuts, marks and sums of a rail's tenons and of their mortises.

    `set_in` is how far the rail's face lies behind the leg's; `edges` leads from the leg's end
    A to the rail's edges, for the sums.
    """
    cuts: list[Cut] = []
    marks: list[Mark] = []
    sums: list[Sum] = []
    for meeting in meetings:
        waste = _tenon_waste(rail, size, meeting.end)
        mortise = _mortise(rail, size, meeting)
        cuts += [*waste.values(), mortise]
        marks += _rail_marks(rail, size, meeting.end, kit)
        marks += _leg_marks(rail, size, meeting, mortise, kit)
        sums += _leg_sums(rail, size, meeting, mortise, waste, set_in, edges)
        if meeting is meetings[0]:
            sums = [*_rail_sums(rail, size, meeting, mortise), *sums]
    return Worked(tuple(cuts), tuple(marks), tuple(sums))


def joint_name(rail: Part, end: End) -> str:
    """The joint's name: the rail and the end of it."""
    return f"{rail.id}.{end}"


def _along(rail: Part, end: End, start: Fraction, stop: Fraction) -> Span:
    """A reach along L, counted from the named end of the rail."""
    if end == "A":
        return (start, stop)
    return (rail.length - stop, rail.length - start)


def _tenon_waste(rail: Part, size: TenonSizes, end: End) -> dict[str, Cut]:
    """The wood around the tenon, by role; empty ones are left out."""
    width, thickness = (ZERO, rail.width), (ZERO, rail.thickness)
    far = size.outer + size.thickness
    cheeks = (size.outer, far)
    full = _along(rail, end, ZERO, size.length)
    step = size.long_from if size.long_by else rail.thickness
    wanted = {
        "front cheek waste": (full, width, (ZERO, size.outer)),
        "back cheek waste": (full, width, (far, step)),
        "long shoulder waste": (
            _along(rail, end, ZERO, size.length - size.long_by),
            width,
            (step, thickness[1]),
        ),
        "top shoulder waste": (full, (ZERO, size.top), cheeks),
        "bottom shoulder waste": (full, (rail.width - size.bottom, rail.width), cheeks),
    }
    joint = joint_name(rail, end)
    cut = {role: box_cut(rail, joint, f"{role} {end}", *spans) for role, spans in wanted.items()}
    return {role: one for role, one in cut.items() if one is not None}


def _mortise(rail: Part, size: TenonSizes, meeting: Meeting) -> Cut:
    """The tenon's own place in the leg, deeper by the glue room."""
    tenon = box(
        _along(rail, meeting.end, -size.glue_room, size.length),
        (size.top, rail.width - size.bottom),
        (size.outer, size.outer + size.thickness),
    )
    hull = carried(tenon, rail, meeting.leg)
    return Cut(meeting.leg.id, joint_name(rail, meeting.end), "mortise", hull)


def _pair_tool(kit: Kit, near: Fraction, far: Fraction) -> tuple[Tool, Span | None]:
    """Both walls at one stand, or one line at a time, as the maker chooses."""
    if kit.gauge == "mortise gauge" and near > 0:
        return "mortise gauge", (near, far)
    return "marking gauge", None


def _rail_marks(rail: Part, size: TenonSizes, end: End, kit: Kit) -> list[Mark]:
    joint = joint_name(rail, end)
    near, far = size.outer, size.outer + size.thickness
    tool, pair = _pair_tool(kit, near, far)
    shoulder = _along(rail, end, ZERO, size.length)
    at = shoulder[1] if end == "A" else shoulder[0]
    back_reach = _along(rail, end, ZERO, size.length - size.long_by)
    at_back = back_reach[1] if end == "A" else back_reach[0]
    step = size.long_from if size.long_by else rail.thickness
    marks: list[Mark] = []

    def knife(face: Face, where: Fraction, low: Fraction, high: Fraction) -> None:
        if low < high:
            line = ((where, low), (where, high))
            role = "shoulder" if where == at else "long shoulder"
            marks.append(Mark(rail.id, joint, face, "knife", role, "end A", where, line))

    # Where a shoulder is nothing the tenon itself comes out on that surface: the line is cut
    # only beside it, over the waste.
    sides: tuple[tuple[Face, Fraction, Fraction], ...] = (
        ("face", size.outer, at),
        ("back", size.inner, at_back),
    )
    for face, shoulder_width, where in sides:
        if shoulder_width > 0:
            knife(face, where, ZERO, rail.width)
        else:
            knife(face, where, ZERO, size.top)
            knife(face, where, rail.width - size.bottom, rail.width)
    edges: tuple[tuple[Face, Fraction], ...] = (("edge", size.top), ("far edge", size.bottom))
    for face, shoulder_width in edges:
        if shoulder_width > 0:
            knife(face, at, ZERO, step)
        else:
            knife(face, at, ZERO, near)
            knife(face, at, far, step)
        knife(face, at_back, step, rail.thickness)

    end_face: Face = "end A" if end == "A" else "end B"
    for value, role in ((near, "near cheek"), (far, "far cheek")):
        if not 0 < value < rail.thickness:
            continue
        lines: list[tuple[Face, Span, Span]] = [
            (end_face, (ZERO, value), (rail.width, value)),
            ("edge", (shoulder[0], value), (shoulder[1], value)),
            ("far edge", (shoulder[0], value), (shoulder[1], value)),
        ]
        for face, a, b in lines:
            marks.append(
                Mark(rail.id, joint, face, tool, role, "face side", value, (a, b), pair=pair)
            )
    for value, role in (
        (size.top, "tenon top"),
        (rail.width - size.bottom, "tenon bottom"),
    ):
        if not 0 < value < rail.width:
            continue
        lines = [
            ("face", (shoulder[0], value), (shoulder[1], value)),
            (end_face, (value, ZERO), (value, rail.thickness)),
            ("back", (back_reach[0], value), (back_reach[1], value)),
        ]
        for face, a, b in lines:
            marks.append(
                Mark(rail.id, joint, face, "marking gauge", role, "face edge", value, (a, b))
            )
    return marks


def _leg_marks(
    rail: Part, size: TenonSizes, meeting: Meeting, mortise: Cut, kit: Kit
) -> list[Mark]:
    leg, face = meeting.leg, meeting.face
    joint = joint_name(rail, meeting.end)
    across = other_axis(face)
    top, bottom = mortise.shape.reach("L")
    near, far = mortise.shape.reach(across)
    tool, pair = _pair_tool(kit, near, far)
    source = reference_for(across)
    marks = [
        Mark(leg.id, joint, face, "knife", role, "end A", at, ((at, near), (at, far)))
        for at, role in ((top, "mortise top"), (bottom, "mortise bottom"))
    ]
    marks += [
        Mark(
            leg.id, joint, face, tool, role, source, at, ((top, at), (bottom, at)), pair=pair
        )
        for at, role in ((near, "near wall"), (far, "far wall"))
    ]
    edges = carried(
        Hull(((ZERO, ZERO, ZERO), (ZERO, rail.width, rail.thickness))), rail, leg
    )
    low, high = edges.reach("L")
    for at, role in ((low, "rail top edge"), (high, "rail bottom edge")):
        line = ((at, ZERO), (at, leg.size(across)))
        marks.append(Mark(leg.id, joint, face, "pencil", role, "end A", at, line))
    return marks


def _rail_sums(rail: Part, size: TenonSizes, meeting: Meeting, mortise: Cut) -> list[Sum]:
    """Sizes on the rail; the leg's mortise, where it stands, confirms them."""
    across = other_axis(meeting.face)
    into_leg = FACE_NORMAL[meeting.face][0]
    sums: list[Sum] = []
    # The rail's face side lies toward the leg's reference surface, so the near wall is low.
    near_wall, far_wall = low_of(mortise, across), high_of(mortise, across)
    if size.centred:
        what = "wood in front of the seat" if size.wood < rail.thickness else "rail thickness"
        sums.append(
            add(
                "outer shoulder",
                rail.id,
                Witness(face_of(rail.id, "face"), near_wall),
                (+1, f"half of the {what}", size.wood / 2),
                (-1, "half of the tenon thickness", size.thickness / 2),
            )
        )
    sums.append(
        add(
            "inner shoulder",
            rail.id,
            Witness(far_wall, face_of(rail.id, "back")),
            (+1, "rail thickness", rail.thickness),
            (-1, "outer shoulder", size.outer),
            (-1, "tenon thickness", size.thickness),
        )
    )
    sums.append(
        add(
            "far cheek from the face side",
            rail.id,
            Witness(face_of(rail.id, "face"), far_wall),
            (+1, "outer shoulder", size.outer),
            (+1, "tenon thickness", size.thickness),
        )
    )
    sums.append(
        add(
            "tenon width",
            rail.id,
            Witness(low_of(mortise, "L"), high_of(mortise, "L")),
            (+1, "rail width", rail.width),
            (-1, "top shoulder", size.top),
            (-1, "bottom shoulder", size.bottom),
        )
    )
    sums.append(
        add(
            "tenon bottom from the face edge",
            rail.id,
            Witness(face_of(rail.id, "edge"), high_of(mortise, "L")),
            (+1, "rail width", rail.width),
            (-1, "bottom shoulder", size.bottom),
        )
    )
    sums.append(
        add(
            "mortise depth",
            rail.id,
            # from the leg's face to where the tenon's end really stops, and the room beyond it
            Witness(
                face_of(meeting.leg.id, meeting.face),
                face_of(rail.id, "end A" if meeting.end == "A" else "end B"),
                plus=mortise.shape.reach(into_leg)[1]
                - mortise.shape.reach(into_leg)[0]
                - size.length,
            ),
            (+1, "tenon length", size.length),
            (+1, "room for glue", size.glue_room),
        )
    )
    return sums


def _leg_sums(
    rail: Part,
    size: TenonSizes,
    meeting: Meeting,
    mortise: Cut,
    waste: dict[str, Cut],
    set_in: Fraction,
    edges: RailEdges,
) -> list[Sum]:
    """Where the mortise stands on the leg; the rail, where it stands, confirms it."""
    leg, face = meeting.leg, meeting.face
    across = other_axis(face)
    reference: Face = "face" if across == "T" else "edge"
    source = reference_for(across)
    where = f"{rail.name}, end {meeting.end}"

    def edge_of(role: str, high: bool, bare: Face) -> Surface:
        """Where a waste ends against the tenon; the rail's own surface where there is none."""
        cut = waste.get(role)
        if cut is None:
            return face_of(rail.id, bare)
        axis = axis_along(rail, leg, across) if "cheek" in role or "long" in role else "W"
        return high_of(cut, axis) if high else low_of(cut, axis)

    back = "back cheek waste" if "back cheek waste" in waste else "long shoulder waste"
    return [
        add(
            f"near mortise wall from the {source}",
            leg.id,
            Witness(face_of(leg.id, reference), edge_of("front cheek waste", True, "face")),
            (+1, "set in behind the leg's face", set_in),
            (+1, "outer shoulder", size.outer),
            where=where,
            also=Witness(face_of(leg.id, reference), low_of(mortise, across)),
        ),
        add(
            f"far mortise wall from the {source}",
            leg.id,
            Witness(face_of(leg.id, reference), edge_of(back, False, "back")),
            (+1, "set in behind the leg's face", set_in),
            (+1, "outer shoulder", size.outer),
            (+1, "tenon thickness", size.thickness),
            where=where,
            also=Witness(face_of(leg.id, reference), high_of(mortise, across)),
        ),
        add(
            "rail's top edge from end A",
            leg.id,
            Witness(face_of(leg.id, "end A"), face_of(rail.id, "edge")),
            *edges.top,
            where=where,
        ),
        add(
            "rail's bottom edge from end A",
            leg.id,
            Witness(face_of(leg.id, "end A"), face_of(rail.id, "far edge")),
            *edges.bottom,
            where=where,
        ),
        add(
            "mortise top from end A",
            leg.id,
            Witness(face_of(leg.id, "end A"), edge_of("top shoulder waste", True, "edge")),
            *edges.top,
            (+1, "top shoulder", size.top),
            where=where,
            also=Witness(face_of(leg.id, "end A"), low_of(mortise, "L")),
        ),
        add(
            "mortise bottom from end A",
            leg.id,
            Witness(
                face_of(leg.id, "end A"), edge_of("bottom shoulder waste", False, "far edge")
            ),
            *edges.bottom,
            (-1, "bottom shoulder", size.bottom),
            where=where,
            also=Witness(face_of(leg.id, "end A"), high_of(mortise, "L")),
        ),
    ]
