"""The seat of a panel: a rabbet or a groove in the rails and legs around an opening.

The panel lies in one plane behind the frame's outside face. In a rail the rabbet is open to the
back; in a leg, which is deeper than the rail, it is open to the inside of the frame, so that
the panel still drops in from behind after glue-up. A groove is as wide as the panel is thick.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.worked import Worked, axis_along, box_cut, other_axis, reference_for
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.part import FACE_NORMAL, Face, Part

SeatKind = Literal["rabbet", "groove"]
ZERO = Fraction(0)


class SeatChoice(NamedTuple):
    """What the maker chooses of a seat, lengths in mm.

    `lip` is how far the panel goes into the frame; `depth` that of a rabbet, from the back of
    the rail, or where a groove starts behind the rail's face (None: as thick as the panel; in
    the middle of the rail). `in_legs` may differ from the rails; `run` says whether a leg's
    rabbet stops between the rails or runs through from end to end.
    """

    kind: SeatKind
    panel_thickness: Fraction
    lip: Fraction
    depth: Fraction | None
    in_legs: SeatKind
    run: Literal["stopped", "through"]


class SeatSizes(NamedTuple):
    """Where the seat lies, in mm: its plane behind the frame's outside face, and its lip."""

    plane: Fraction
    lip: Fraction


def sizes(choice: SeatChoice, rail: Part, set_in: Fraction) -> SeatSizes:
    """The seat's plane, worked out on the rail above the opening."""
    if choice.kind == "rabbet":
        depth = choice.panel_thickness if choice.depth is None else choice.depth
        start = rail.thickness - depth
    elif choice.depth is None:
        start = (rail.thickness - choice.panel_thickness) / 2
    else:
        start = choice.depth
    return SeatSizes(set_in + start, choice.lip)


def work_rail(
    rail: Part,
    edge: Literal["edge", "far edge"],
    joint: str,
    choice: SeatChoice,
    size: SeatSizes,
    set_in: Fraction,
    kit: Kit,
) -> Worked:
    """The seat along a rail's edge, from end to end: its cut and marks."""
    start = size.plane - set_in
    stop = rail.thickness if choice.kind == "rabbet" else start + choice.panel_thickness
    across = (ZERO, size.lip) if edge == "edge" else (rail.width - size.lip, rail.width)
    cut = box_cut(rail, joint, choice.kind, (ZERO, rail.length), across, (start, stop))
    if cut is None:
        return Worked()
    lip_line = across[1] if edge == "edge" else across[0]
    whole = (ZERO, rail.length)
    marks = _lines(rail, edge, joint, choice.kind, (start, stop), whole, kit)
    if choice.kind == "rabbet":
        line = ((ZERO, lip_line), (rail.length, lip_line))
        marks.append(
            Mark(
                rail.id, joint, "back", "marking gauge", "rabbet lip", "face edge", lip_line, line
            )
        )
    return Worked((cut,), tuple(marks), ())


def rail_sums(
    rail: Part,
    edge: Literal["edge", "far edge"],
    choice: SeatChoice,
    size: SeatSizes,
    set_in: Fraction,
    leg_cut: Cut,
    leg: Part,
    upper: tuple[Fraction, Part],
    lip_witness: Witness,
) -> list[Sum]:
    """The rail's gauge lines for its seat, confirmed by the leg's seat where it stands.

    `upper` is the set-in and the rail that the seat's plane was worked out on: the lower rail's
    seat follows it. `lip_witness` is what stands in the rail's lip: the panel's edge, or the
    seat's own wall.
    """
    across = other_axis("far edge" if axis_along(leg, rail, "L") == "W" else "back")
    plane = Witness(face_of(rail.id, "face"), low_of(leg_cut, across))
    upper_set_in, upper_rail = upper
    terms = plane_terms(choice, upper_rail)
    if rail.id != upper_rail.id and (upper_set_in, upper_rail.thickness) != (
        set_in,
        rail.thickness,
    ):
        # the panel lies in the upper rail's plane, wherever this rail stands
        terms = [
            (+1, "set in of the upper rail", upper_set_in),
            *((sign, f"{label} of the upper rail", value) for sign, label, value in terms),
            (-1, "set in of this rail", set_in),
        ]
    name = "wood in front of the seat" if choice.kind == "rabbet" else "groove from the face side"
    sums = [add(name, rail.id, plane, *terms)]
    if choice.kind == "groove":
        sums.append(
            add(
                "far groove wall from the face side",
                rail.id,
                Witness(face_of(rail.id, "face"), high_of(leg_cut, across)),
                (+1, "near groove wall", size.plane - set_in),
                (+1, "panel thickness", choice.panel_thickness),
            )
        )
    if edge == "far edge" and choice.kind == "rabbet":
        sums.append(
            add(
                "rabbet lip from the face edge",
                rail.id,
                lip_witness,
                (+1, "rail width", rail.width),
                (-1, "lip", size.lip),
            )
        )
    return sums


def plane_terms(choice: SeatChoice, upper: Part) -> list[tuple[int, str, Fraction]]:
    """How far the seat begins behind the upper rail's face, as the maker chose it."""
    if choice.kind == "rabbet":
        depth = choice.panel_thickness if choice.depth is None else choice.depth
        return [(+1, "thickness", upper.thickness), (-1, "rabbet depth", depth)]
    if choice.depth is not None:
        return [(+1, "groove from the face side", choice.depth)]
    return [
        (+1, "half of the thickness", upper.thickness / 2),
        (-1, "half of the groove width", choice.panel_thickness / 2),
    ]


def work_leg(
    leg: Part,
    face: Face,
    joint: str,
    choice: SeatChoice,
    size: SeatSizes,
    reach: tuple[Fraction, Fraction],
    kit: Kit,
) -> Worked:
    """The seat in a leg, its cut and marks: `face` looks into the opening, `reach` is its
    stretch from end A.
    """
    across = other_axis(face)
    entry = FACE_NORMAL[face][0]
    inner = leg.size(entry)
    start = size.plane
    stop = leg.size(across) if choice.in_legs == "rabbet" else start + choice.panel_thickness
    run = reach if choice.run == "stopped" else (ZERO, leg.length)
    spans = {"L": run, across: (start, stop), entry: (inner - size.lip, inner)}
    cut = box_cut(leg, joint, choice.in_legs, spans["L"], spans["W"], spans["T"])
    if cut is None:
        return Worked()
    marks = _lines(leg, face, joint, choice.in_legs, (start, stop), run, kit)
    lip_line = inner - size.lip
    # a rabbet's open side comes out on the surface square to the one that looks into the opening
    open_face: Face = "back" if entry == "W" else "far edge"
    if choice.in_legs == "rabbet":
        line = ((run[0], lip_line), (run[1], lip_line))
        marks.append(
            Mark(
                leg.id,
                joint,
                open_face,
                "marking gauge",
                "rabbet lip",
                reference_for(entry),
                lip_line,
                line,
            )
        )
    if choice.run == "stopped":
        lines: list[tuple[Face, Fraction, Fraction]] = [(face, start, stop)]
        if choice.in_legs == "rabbet":
            lines.append((open_face, lip_line, inner))
        for at, role in (
            (run[0], f"{choice.in_legs} top"),
            (run[1], f"{choice.in_legs} bottom"),
        ):
            for surface, low, high in lines:
                line = ((at, low), (at, high))
                marks.append(Mark(leg.id, joint, surface, "knife", role, "end A", at, line))
    return Worked((cut,), tuple(marks), ())


def leg_sums(
    leg: Part,
    choice: SeatChoice,
    size: SeatSizes,
    rail: Part,
    rail_cut: Cut,
    set_in: Fraction,
    face: Face,
    where: str,
    lip_witness: Witness,
) -> list[Sum]:
    """The leg's gauge lines for the seat, confirmed by the rail's seat where it stands.

    `lip_witness` is what stands in the leg's lip: the panel's edge, or the seat's own wall.
    """
    across = other_axis(face)
    entry = FACE_NORMAL[face][0]
    reference: Face = "face" if across == "T" else "edge"
    witness = Witness(
        face_of(leg.id, reference), low_of(rail_cut, axis_along(rail, leg, across))
    )
    behind = plane_terms(choice, rail)
    terms = [
        (+1, "set in behind the leg's face", set_in),
        *((sign, f"{label} of the rail", value) for sign, label, value in behind),
    ]
    sums = [
        add(
            f"{choice.in_legs} from the {reference_for(across)}",
            leg.id,
            witness,
            *terms,
            where=where,
        )
    ]
    if choice.in_legs == "groove":
        along = axis_along(rail, leg, across)
        # a panel that lies in a rabbet in the rail ends where the groove in the leg does
        far = low_of(rail_cut, along) if choice.kind == "rabbet" else high_of(rail_cut, along)
        more = choice.panel_thickness if choice.kind == "rabbet" else ZERO
        sums.append(
            add(
                f"far groove wall from the {reference_for(across)}",
                leg.id,
                Witness(face_of(leg.id, reference), far, plus=more),
                (+1, "near groove wall", size.plane),
                (+1, "panel thickness", choice.panel_thickness),
                where=where,
            )
        )
    if choice.in_legs == "rabbet":
        sums.append(
            add(
                f"rabbet lip from the {reference_for(entry)}",
                leg.id,
                lip_witness,
                (+1, "leg width" if entry == "W" else "leg thickness", leg.size(entry)),
                (-1, "lip", size.lip),
                where=where,
            )
        )
    return sums


def _lines(
    part: Part,
    face: Face,
    joint: str,
    kind: SeatKind,
    reach: tuple[Fraction, Fraction],
    run: tuple[Fraction, Fraction],
    kit: Kit,
) -> list[Mark]:
    """Gauge lines along a seat: one for a rabbet, both walls for a groove."""
    source = reference_for(other_axis(face))
    start, stop = reach
    if kind == "rabbet":
        line = ((run[0], start), (run[1], start))
        return [
            Mark(part.id, joint, face, "marking gauge", "rabbet", source, start, line)
        ]
    both = kit.gauge == "mortise gauge" and start > 0
    return [
        Mark(
            part.id,
            joint,
            face,
            "mortise gauge" if both else "marking gauge",
            role,
            source,
            at,
            ((run[0], at), (run[1], at)),
            pair=(start, stop) if both else None,
        )
        for at, role in ((start, "near groove wall"), (stop, "far groove wall"))
    ]
