"""The sizes of one tenon, by name: what applies to it, and nothing else."""

from __future__ import annotations

from fractions import Fraction

from layout.joints import peg, wedge
from layout.joints.rail_end import Joint
from layout.piece import Piece

Row = tuple[str, Fraction | int]


def tenon_rows(piece: Piece) -> list[Row]:
    """Names and sizes (mm; a plain count for pegs and wedges) of the first tenon of a piece."""
    joint = piece.joints[0]
    size = joint.size
    depth = "mortise, right through" if size.through else "mortise depth"
    rows: list[Row] = [
        ("tenon thickness", size.thickness),
        *_across(joint),
        ("tenon length", size.length),
        ("outer shoulder", size.outer),
        ("inner shoulder", size.inner),
        *_edges(joint),
        (depth, size.depth),
    ]
    if size.through:
        rows.append(("stands proud of the leg", size.projection))
    return [*rows, *_wedge(joint), *_key(piece, joint), *_pegs(joint)]


def _across(joint: Joint) -> list[Row]:
    """The tenons side by side, and one above the other, with what lies between them."""
    section = joint.size.section
    inside = [*section.depths[2:-1], *section.widths[1:-1]]
    named = {"web": "web between the tenons"}
    rows: list[Row] = []
    for one in inside:
        if one.name != "tenon thickness":
            rows.append((named.get(one.name, one.name), one.size))
    return rows


def _edges(joint: Joint) -> list[Row]:
    """What stands beside the tenon at both edges of the rail: a shoulder, or a haunch."""
    choice, size = joint.choice.haunch, joint.size
    rows: list[Row] = []
    for edge, word, value in (("edge", "top", size.top), ("far edge", "bottom", size.bottom)):
        if choice is None or choice.edge != edge:
            rows.append((f"{word} shoulder", value))
            continue
        kind = "sloped haunch" if choice.kind == "sloped" else "haunch"
        rows += [
            (f"{kind} width", value),
            (f"{kind} length", size.haunch_length),
        ]
        if choice.kind != "groove":
            rows.append(("haunch socket depth", size.haunch_length + choice.room))
    return rows


def _wedge(joint: Joint) -> list[Row]:
    choice = joint.choice.wedges
    if choice is None:
        return []
    rows: list[Row] = [
        ("wedges", choice.many),
        ("wedge thickness", choice.thickness),
        ("wedge and saw cut, long", wedge.wedge_length(choice, joint.size.length)),
    ]
    if choice.many == 2:
        rows.append(("saw cut from the tenon's edge", choice.from_edge))
    return [*rows, ("flare of each mortise end", wedge.flare(choice))]


def _key(piece: Piece, joint: Joint) -> list[Row]:
    choice = joint.choice.key
    if choice is None:
        return []
    part = next(part for part in piece.parts if part.kind == "key")
    return [
        ("key where it enters", choice.wide),
        ("key width", part.thickness),
        ("key length", part.length),
        ("wood beyond the key", joint.size.projection - choice.wide),
    ]


def _pegs(joint: Joint) -> list[Row]:
    choice, size = joint.choice.pegs, joint.size
    if choice is None:
        return []
    found = peg.sizes(choice, size.thickness, size.width, joint.kit)
    each = " in each tenon" if len(size.section.spans("W")) > 1 else ""
    return [
        (f"pegs{each}", found.many),
        ("peg diameter", found.diameter),
        ("pegs from the shoulder", found.from_shoulder),
        ("draw", found.draw),
    ]
