"""A moulding along the frame's inner edges, cut back at the joint and mitred.

The face shoulder is longer than the back one by the moulding's width (George A. Ross,
Elementary Course in Woodwork, 1901, Exercise 8, Figs. 106-107: shoulder length = sight + twice
the depth of the moulding). The moulding itself is worked after the joint is cut and is not
taken off here; what is taken off is the bearer's, where the rail's shoulder comes through it.
"""

from __future__ import annotations

from fractions import Fraction

from layout.joints.choices import MouldChoice, RailEdge
from layout.joints.rail_end import Joint, Told
from layout.joints.worked import Worked, reference_for
from layout.mark import Cut, Hull, Mark, Spot2, Sum, Surface, Witness, add, face_of
from layout.part import FACE_AXES, Face

ZERO = Fraction(0)


def longer_by(joint: Joint) -> Fraction:
    """How much longer the face shoulder is, in mm."""
    return joint.choice.mould.width if joint.choice.mould is not None else ZERO


def layer_on(joint: Joint, edge: Face) -> Fraction:
    """How deep from the face the longer shoulder shows on an edge of the rail, in mm: the
    moulding's depth, nothing on an edge that carries the moulding (it is mitred there).
    """
    mould = joint.choice.mould
    if mould is None or edge in mould.edges or joint.size.outer <= 0:
        return ZERO
    return mould.depth


def front_waste(joint: Joint, mould: MouldChoice) -> Hull | None:
    """The waste before the tenon: to the plain shoulder behind the moulding, or all of it to the
    longer shoulder where the moulding is as deep as the shoulder is wide.
    """
    size, whole = joint.size, (ZERO, joint.rail.width)
    if size.outer <= 0:
        return None
    if mould.width >= size.length:
        return joint.block((ZERO, size.length), whole, (ZERO, size.outer))
    if mould.depth >= size.outer:
        return joint.block((ZERO, size.length - mould.width), whole, (ZERO, size.outer))
    return joint.block((ZERO, size.length), whole, (mould.depth, size.outer))


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """The longer face shoulder, the mitres, and what the bearer's moulding loses."""
    del mortises, told
    mould = joint.choice.mould
    if mould is None or mould.width >= joint.size.length:
        return Worked()  # (a moulding wider than the tenon is long is a stop in the checks)
    size, rail = joint.size, joint.rail
    cuts: list[Cut] = []
    marks: list[Mark] = []
    back = size.length - mould.width  # where the face shoulder lies, from the tip
    layer = (ZERO, mould.depth)
    if mould.depth < size.outer:
        shape = joint.block((ZERO, back), (ZERO, rail.width), layer)
        cuts.append(joint.on_rail("moulding shoulder waste", shape))
    for edge in mould.edges:
        corner, tip = _mitre(joint, mould, edge)
        shape = joint.hull((u, w, t) for u, w in (*tip, (back, corner[1])) for t in layer)
        cuts.append(joint.on_rail(f"moulding mitre waste, {edge}", shape))
        line = tuple(sorted((joint.at(u), w) for u, w in tip))
        marks.append(
            joint.rail_mark("face", "bevel", "moulding mitre", "end A", joint.at(back),
                            (line[0], line[1]))
        )
    outline = _cut_back(joint, mould)
    cut = joint.in_bearer(
        "moulding cut back", joint.hull((u, w, t) for u, w in outline for t in layer)
    )
    cuts.append(cut)
    marks += _bearer_lines(joint, mould, outline)
    return Worked(tuple(cuts), tuple(marks), tuple(_sums(joint, mould, cut)))


def _mitre(joint: Joint, mould: MouldChoice, edge: RailEdge) -> tuple[Spot2, tuple[Spot2, Spot2]]:
    """The inside corner at one edge of the rail (u, w), and the two ends of the mitre there."""
    u = joint.size.length
    w = ZERO if edge == "edge" else joint.rail.width
    way = 1 if edge == "edge" else -1
    return (u, w), ((u, w), (u - mould.width, w + way * mould.width))


def _cut_back(joint: Joint, mould: MouldChoice) -> list[Spot2]:
    """The outline of what the bearer's face loses, as (u, w) corners."""
    u, width = joint.size.length, joint.rail.width
    top = mould.width if "edge" in mould.edges else ZERO
    bottom = mould.width if "far edge" in mould.edges else ZERO
    return [
        (u, ZERO),
        (u, width),
        (u - mould.width, width - bottom),
        (u - mould.width, top),
    ]


def _bearer_lines(joint: Joint, mould: MouldChoice, outline: list[Spot2]) -> list[Mark]:
    """On the bearer's face that is flush with the rail's: the line to cut back to, the mitres."""
    face = flush_face(joint)
    into = joint.meeting.into
    axes = FACE_AXES[face]

    def spot(corner: Spot2) -> Spot2:
        place = joint.place(corner[0], corner[1], ZERO)
        return (place["LWT".index(axes[0])], place["LWT".index(axes[1])])

    spots = [spot(corner) for corner in outline]
    at = joint.place(joint.size.length - mould.width, ZERO, ZERO)["LWT".index(into)]
    line = (min(spots[2], spots[3]), max(spots[2], spots[3]))
    marks = [
        Mark(joint.bearer.id, joint.name, face, "marking gauge", "moulding cut back",
             reference_for(into), at, line)
    ]
    for one, other in ((spots[0], spots[3]), (spots[1], spots[2])):
        ends = (min(one, other), max(one, other))
        if one[0] == other[0]:
            marks.append(Mark(joint.bearer.id, joint.name, face, "knife", "rail edge", "end A",
                              one[0], ends))
        else:
            marks.append(Mark(joint.bearer.id, joint.name, face, "bevel", "moulding mitre",
                              "end A", one[0], ends))
    marks.append(
        joint.bearer_line(joint.meeting.face, "T", mould.depth, (ZERO, joint.rail.width),
                          "moulding depth")
    )
    return marks


def flush_face(joint: Joint) -> Face:
    """The bearer's face that lies in line with the rail's face side."""
    approach = joint.meeting.thickness
    faces: dict[str, tuple[Face, Face]] = {
        "L": ("end A", "end B"),
        "W": ("edge", "far edge"),
        "T": ("face", "back"),
    }
    return faces[approach.axis][0 if approach.forward else 1]


def _sums(joint: Joint, mould: MouldChoice, cut: Cut) -> list[Sum]:
    into, bearer, rail = joint.meeting.into, joint.bearer, joint.rail
    size = joint.size
    deep_is_low = joint.meeting.face in ("back", "far edge", "end B")
    bottom = Surface(cut.part, cut=cut.key, axis=into, high=not deep_is_low)
    reference: Face = {"L": "end A", "W": "edge", "T": "face"}[into]  # type: ignore[assignment]
    what = {"L": "length", "W": "width", "T": "thickness"}[into]
    end = joint.meeting.end
    sums = [
        add(
            f"face shoulder at end {end} from end A",
            rail.id,
            Witness(face_of(rail.id, "end A"), bottom),
            *joint.from_end_a(((+1, "tenon length", size.length),
                               (-1, "moulding width", mould.width))),
        )
    ]
    if deep_is_low:
        sums.append(
            add(
                f"moulding cut back from the {reference_for(into)}",
                bearer.id,
                Witness(face_of(bearer.id, reference), bottom),
                (+1, f"{bearer.kind} {what}", bearer.size(into)),
                (-1, "moulding width", mould.width),
                where=f"{rail.name}, end {end}",
            )
        )
    return sums
