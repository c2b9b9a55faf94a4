"""Pegs through the mortise's cheeks and the tenon; drawbored where the tenon's hole is set
nearer the shoulder, so that the peg pulls the joint up.

Offset a quarter of the peg: unattributed excerpt 'Drawboring'; 1/16 in for lighter work: Edwin
W. Foster, Carpentry and Woodwork, 1911, ch. XLIV, Fig. 217b. Peg sizes by the tenon's
thickness, their number and distance from the shoulder: defaults.toml.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.defaults import default_ratio
from layout.joints.choices import PegChoice
from layout.joints.mould import flush_face
from layout.joints.rail_end import Joint, Tenon, Told
from layout.joints.worked import Loose, Span, Worked, reference_for, together
from layout.kit import Kit, nearest_tool
from layout.mark import Cut, Cylinder, Mark, Spot2, Sum, Witness, add, face_of, low_of
from layout.part import AXES, FACE_AXES, FACE_NORMAL, Axis, Face

ZERO = Fraction(0)


class PegSizes(NamedTuple):
    """Pegs worked out, in mm: `from_shoulder` is to the middle of the bearer's hole."""

    many: int
    diameter: Fraction
    from_shoulder: Fraction
    draw: Fraction
    past: Fraction


def sizes(choice: PegChoice, thickness: Fraction, width: Fraction, kit: Kit) -> PegSizes:
    """The pegs of a tenon of this thickness and width."""
    diameter = choice.diameter
    if diameter is None:
        diameter = nearest_tool(thickness * default_ratio("peg_share"), kit.drills)
    each = diameter * default_ratio("peg_width")
    many = choice.many
    if many is None:
        many = max(1, -(-width // each))
    return PegSizes(
        many,
        diameter,
        diameter * default_ratio("peg_from_shoulder")
        if choice.from_shoulder is None
        else choice.from_shoulder,
        diameter * default_ratio("peg_draw") if choice.draw is None else choice.draw,
        diameter if choice.past is None else choice.past,
    )


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """The holes in bearer and tenon, their places on both, and the pegs to cut."""
    del mortises, told
    choice = joint.choice.pegs
    if choice is None or joint.meeting.thickness.axis == "L":
        return Worked()
    return together(_pegged(joint, choice, tenon) for tenon in _pegged_rows(joint))


def _pegged_rows(joint: Joint) -> list[Tenon]:
    """One tenon of each row: a peg goes through twins both at once."""
    rows: dict[int, Tenon] = {}
    for tenon in joint.tenons():
        rows.setdefault(tenon.row, tenon)
    return list(rows.values())


def hole_axis(joint: Joint) -> Axis:
    """The bearer's axis that the pegs are driven along."""
    return joint.meeting.thickness.axis


def _bore(joint: Joint, size: PegSizes) -> Span:
    """The reach of a hole in the bearer along its axis, from the surface it is bored from."""
    axis = hole_axis(joint)
    deep = joint.on_bearer("T", joint.size.far)
    whole = joint.bearer.size(axis)
    if joint.meeting.thickness.forward:
        return (ZERO, min(deep + size.past, whole))
    return (max(deep - size.past, ZERO), whole)


def _pegged(joint: Joint, choice: PegChoice, tenon: Tenon) -> Worked:
    rail, end = joint.rail, joint.size
    low, high = tenon.across
    size = sizes(choice, end.thickness, high - low, joint.kit)
    axis = hole_axis(joint)
    face = flush_face(joint)
    start, stop = _bore(joint, size)
    row = tenon.name.split()[0] if len(end.section.spans("W")) > 1 else ""
    cuts: list[Cut] = []
    marks: list[Mark] = []
    sums: list[Sum] = []
    columns = end.section.spans("T")
    thick = (columns[0][0], columns[-1][1])
    line_at = ZERO
    for number in range(1, size.many + 1):
        w = low + (high - low) * (2 * number - 1) / (2 * size.many)
        name = " ".join(filter(None, (row, "peg", str(number) if size.many > 1 else "")))
        place = joint.place(end.length - size.from_shoulder, w, ZERO)
        centre = _without(axis, place)
        cuts.append(
            Cut(joint.bearer.id, joint.name, f"{name} hole",
                Cylinder(axis, centre, size.diameter / 2, start, stop))
        )
        spot = tuple(place["LWT".index(a)] for a in FACE_AXES[face])
        marks.append(
            Mark(joint.bearer.id, joint.name, face, "bit", name, "end A", place[0],
                 point=(spot[0], spot[1]), diameter=size.diameter)
        )
        line_at = place["LWT".index(joint.meeting.into)]
        in_tenon = joint.at(end.length - size.from_shoulder + size.draw)
        cuts.append(
            Cut(rail.id, joint.name, f"{name} hole in the tenon {joint.meeting.end}",
                Cylinder("T", (in_tenon, w), size.diameter / 2, *thick))
        )
        marks.append(
            Mark(rail.id, joint.name, "face", "bit", f"{name} in the tenon", "end A", in_tenon,
                 point=(in_tenon, w), diameter=size.diameter)
        )
        sums += _peg_sums(joint, tenon, size, number, name, cuts[-2], cuts[-1])
    marks.append(_peg_line(joint, face, line_at, tenon))
    sums.append(_line_sum(joint, size, cuts[0], row))
    loose = Loose(
        "peg", rail.id, size.many, size.diameter, size.diameter, stop - start + size.diameter,
        "with the grain straight through; taper the leading end; one diameter to spare",
    )
    return Worked(tuple(cuts), tuple(marks), tuple(sums), loose=(loose,))


def _without(axis: Axis, place: tuple[Fraction, Fraction, Fraction]) -> Spot2:
    kept = [value for one, value in zip(AXES, place, strict=True) if one != axis]
    return (kept[0], kept[1])


def _peg_line(joint: Joint, face: Face, at: Fraction, tenon: Tenon) -> Mark:
    """The line that the holes of a row stand on, over the length of the mortise."""
    ends = sorted(joint.on_bearer("W", w) for w in tenon.across)
    into = joint.meeting.into
    return Mark(
        joint.bearer.id, joint.name, face, "marking gauge", "peg line", reference_for(into), at,
        ((ends[0], at), (ends[1], at)),
    )


def _line_sum(joint: Joint, size: PegSizes, hole: Cut, row: str) -> Sum:
    into, bearer = joint.meeting.into, joint.bearer
    axis, far = FACE_NORMAL[joint.meeting.face]
    reference: Face = {"W": "edge", "T": "face", "L": "end A"}[axis]  # type: ignore[assignment]
    what = {"W": "width", "T": "thickness", "L": "length"}[into]
    terms = [(+1, "pegs from the shoulder", size.from_shoulder)]
    if far:
        terms = [(+1, f"{bearer.kind} {what}", bearer.size(into)),
                 (-1, "pegs from the shoulder", size.from_shoulder)]
    name = " ".join(filter(None, (row, "peg line")))
    return add(
        f"{name} from the {reference_for(into)}",
        bearer.id,
        Witness(face_of(bearer.id, reference), low_of(hole, into), plus=size.diameter / 2),
        *terms,
        where=f"{joint.rail.name}, end {joint.meeting.end}",
    )


def _peg_sums(
    joint: Joint, tenon: Tenon, size: PegSizes, number: int, name: str, hole: Cut, bored: Cut
) -> list[Sum]:
    """Where a peg stands along the bearer, and along the tenon."""
    rail, end = joint.rail, joint.size
    approach = joint.meeting.width
    half = size.diameter / 2
    part = Fraction(2 * number - 1, 2 * size.many)
    if not approach.forward:
        part = 1 - part
    stretch = end.section.widths[tenon.row]
    count = len(end.section.widths)
    between = end.section.terms(
        "W", *((0, tenon.row) if approach.forward else (tenon.row + 1, count))
    )
    terms = (
        *approach.near,
        *between,
        (+1, f"{part} of the {stretch.name}", stretch.size * part),
    )
    tip = (
        (+1, "tenon length", end.length),
        (-1, "peg from the shoulder", size.from_shoulder),
        (+1, "draw", size.draw),
    )
    where = f"{rail.name}, end {joint.meeting.end}"
    in_tenon = Witness(face_of(rail.id, "end A"), low_of(bored, "L"), plus=half)
    sums = [
        add(
            f"{name} in the tenon at end {joint.meeting.end} from end A",
            rail.id,
            in_tenon,
            *joint.from_end_a(tip),
        )
    ]
    if approach.axis == "L":
        sums.append(
            add(
                f"{name} from end A",
                joint.bearer.id,
                Witness(face_of(joint.bearer.id, "end A"), low_of(hole, "L"), plus=half),
                *terms,
                where=where,
            )
        )
    return sums
