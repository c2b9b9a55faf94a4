"""Tenons that meet in a corner leg: mitred at their ends, or notched where another passes.

Mitred ends: William Fairham, Woodwork Joints, 1921, 'Table Framing' (Fig. 167). A notch in one
tenon that the other passes through: the same, 'Interlocking Chair Joint' (Fig. 189).
Where they meet is worked out by the build that knows both rails (builds/corner.py).
"""

from __future__ import annotations

from fractions import Fraction

from layout.joints.rail_end import Joint, Mitre, Notch, Told
from layout.joints.worked import Worked, together
from layout.mark import Cut, Mark, Sum, Witness, add, face_of, high_of, low_of

ZERO = Fraction(0)


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """What a mitre or notches take from the tenon, with their lines and sums."""
    del mortises, told
    notches = joint.size.notches
    done = [
        _notched(joint, notch, f" {number}" if len(notches) > 1 else "")
        for number, notch in enumerate(notches, start=1)
    ]
    if joint.size.mitre is not None:
        done.append(_mitred(joint, joint.size.mitre))
    return together(done)


def _mitred(joint: Joint, mitre: Mitre) -> Worked:
    rail, size = joint.rail, joint.size
    rows, (column,) = size.section.spans("W"), size.section.spans("T")
    near, far = column
    if mitre.outer < 0:  # the tip is square as far as the slope
        start = near + (far - near) * -mitre.outer / (mitre.inner - mitre.outer)
        outline = [(ZERO, start), (mitre.inner, far), (ZERO, far)]
    else:
        start = near
        outline = [(ZERO, near), (mitre.inner, far), (ZERO, far)]
    across = (rows[0][0], rows[-1][1])
    shape = joint.hull((u, w, t) for u, t in outline for w in across)
    cut = joint.on_rail("mitre waste", shape)
    end = joint.meeting.end
    short = joint.at(mitre.inner)
    slope = ((joint.at(ZERO), start), (short, far))
    marks = [
        joint.rail_mark(face, "bevel", "mitre", "end A", short, (min(slope), max(slope)))
        for face in ("edge", "far edge")
    ]
    line = ((short, across[0]), (short, across[1]))
    marks.append(joint.rail_mark("back", "knife", "mitre, short side", "end A", short, line))
    (_, long_terms), (_, short_terms) = mitre.terms
    face = face_of(joint.bearer.id, joint.meeting.face)
    slope_end = high_of(cut, "L") if end == "A" else low_of(cut, "L")
    tip = face_of(rail.id, joint.end_face)
    sums = [
        add(f"short side of the mitre, end {end}", rail.id, Witness(face, slope_end),
            *short_terms),
        add(f"mitre, short side at end {end} from end A", rail.id,
            Witness(face_of(rail.id, "end A"), slope_end),
            *joint.from_end_a(((+1, "tenon length", size.length),
                               (-1, "short side", size.length - mitre.inner)))),
    ]
    if mitre.outer == 0:
        sums.append(
            add(f"long side of the mitre, end {end}", rail.id, Witness(face, tip), *long_terms)
        )
    return Worked((cut,), tuple(marks), tuple(sums))


def _notched(joint: Joint, notch: Notch, number: str) -> Worked:
    """One notch; `number` tells it from others in the same tenon."""
    size = joint.size
    columns = size.section.spans("T")
    through = (columns[0][0], columns[-1][1])
    shape = joint.block(notch.along, notch.across, through)
    cut = joint.on_rail(f"notch{number} for the {notch.passes}", shape)
    low, high = joint.span(notch.along)
    marks: list[Mark] = []
    sums: list[Sum] = []
    tip = joint.span((ZERO, size.length))
    for at, role in ((low, "notch start"), (high, "notch end")):
        if tip[0] < at < tip[1]:
            line = ((at, notch.across[0]), (at, notch.across[1]))
            marks += [
                joint.rail_mark(face, "knife", role, "end A", at, line)
                for face in ("face", "back")
            ]
    tops = size.section.spans("W")
    for at, role in zip(notch.across, ("notch top", "notch bottom"), strict=True):
        if any(a < at < b for a, b in tops):
            line = ((low, at), (high, at))
            marks += [
                joint.rail_mark(face, "marking gauge", role, "face edge", at, line)
                for face in ("face", "back")
            ]
    surfaces = {"notch start": low_of(cut, "L"), "notch end": high_of(cut, "L")}
    ends = (notch.start_terms, notch.stop_terms)
    if joint.meeting.end == "B":
        ends = (ends[1], ends[0])
    for role, terms in zip(surfaces, ends, strict=True):
        if not terms:
            continue  # the notch runs out at the tip
        sums.append(
            add(f"{role}{number} at end {joint.meeting.end} from end A", joint.rail.id,
                Witness(face_of(joint.rail.id, "end A"), surfaces[role]),
                *joint.from_end_a(terms))
        )
    for role, wall, terms in (
        ("notch top", low_of(cut, "W"), notch.top_terms),
        ("notch bottom", high_of(cut, "W"), notch.bottom_terms),
    ):
        if terms:
            sums.append(
                add(f"{role}{number} from the face edge, end {joint.meeting.end}", joint.rail.id,
                    Witness(face_of(joint.rail.id, "edge"), wall), *terms)
            )
    return Worked((cut,), tuple(marks), tuple(sums))
