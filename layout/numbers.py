"""The numbers of a piece as one public, versioned object (format 1); lengths are exact.

Every length is a string holding a Fraction of a millimetre. numbers.schema.json in this
package describes the object.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from layout.mark import Cut, Finding, Hull, Mark, Sum
from layout.measure import exact_text
from layout.part import Part
from layout.piece import Piece
from layout.seasons import Moves, moving
from layout.settings import Setting, settings
from layout.squareness import Square, squares
from layout.stock.cut_list import Row, cut_list

if TYPE_CHECKING:  # most pieces have neither
    from layout.builds.tops import LaidTop
    from layout.joints.dogs import Dogs

FORMAT = 1


def numbers(piece: Piece, findings: tuple[Finding, ...]) -> dict[str, Any]:
    """Everything worked out of a piece, ready for json.dumps."""
    return {
        "format": FORMAT,
        "piece": piece.name,
        "rule": str(piece.rule),
        "parts": [_part(part) for part in piece.parts],
        "cuts": [_cut(cut) for cut in piece.cuts],
        "marks": [_mark(mark) for mark in piece.marks],
        "settings": [_setting(setting) for setting in settings(piece.marks)],
        "sums": [_sum(sum_) for sum_ in piece.sums],
        "checks": [_finding(finding) for finding in findings],
        "cut_list": [_row(row) for row in cut_list(piece)],
        "as_milled": _as_milled(piece),
        "movement": [_moves(one) for one in moving(piece)],
        "squareness": [_square(one) for one in squares(piece)],
        "tops": [_top(one) for one in piece.tops],
        "dogs": [_dogs(one) for one in piece.dogs],
    }


def _spot(values: tuple[Fraction, ...]) -> list[str]:
    return [exact_text(value) for value in values]


def _part(part: Part) -> dict[str, Any]:
    placement = part.placement
    return {
        "id": part.id,
        "name": part.name,
        "hand": part.hand,
        "timber": part.timber,
        "length": exact_text(part.length),
        "width": exact_text(part.width),
        "thickness": exact_text(part.thickness),
        "origin": _spot(placement.origin),
        "axes": {"L": placement.L, "W": placement.W, "T": placement.T},
    }


def _cut(cut: Cut) -> dict[str, Any]:
    named = {"part": cut.part, "joint": cut.joint, "role": cut.role}
    if isinstance(cut.shape, Hull):
        return named | {"hull": [_spot(point) for point in cut.shape.points]}
    bore = cut.shape
    return named | {
        "cylinder": {
            "axis": bore.axis,
            "centre": _spot(bore.centre),
            "radius": exact_text(bore.radius),
            "from": exact_text(bore.start),
            "to": exact_text(bore.end),
        }
    }


def _mark(mark: Mark) -> dict[str, Any]:
    told: dict[str, Any] = {
        "part": mark.part,
        "joint": mark.joint,
        "face": mark.face,
        "tool": mark.tool,
        "role": mark.role,
        "from": mark.source,
        "distance": exact_text(mark.distance),
    }
    if mark.line is not None:
        told["line"] = [_spot(spot) for spot in mark.line]
    if mark.point is not None:
        told["point"] = _spot(mark.point)
    if mark.diameter is not None:
        told["diameter"] = exact_text(mark.diameter)
    return told


def _setting(setting: Setting) -> dict[str, Any]:
    return {
        "number": setting.number,
        "tool": setting.tool,
        "from": setting.source,
        "distance": exact_text(setting.distance),
        "second": None if setting.second is None else exact_text(setting.second),
        "strikes": [
            {
                "part": s.part,
                "face": s.face,
                "from": s.source,
                "role": s.role,
                "count": s.lines,
            }
            for s in setting.strikes
        ],
    }


def _sum(sum_: Sum) -> dict[str, Any]:
    return {
        "name": sum_.full_name,
        "part": sum_.part,
        "terms": [
            {
                "label": term.label,
                "sign": "+" if term.sign > 0 else "-",
                "value": exact_text(term.value),
            }
            for term in sum_.terms
        ],
        "total": exact_text(sum_.total),
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "level": finding.level,
        "parts": list(finding.parts),
        "text": finding.text,
        "figures": {name: exact_text(value) for name, value in finding.figures},
        "try": finding.cure,
    }


def _row(row: Row) -> dict[str, Any]:
    return {
        "name": row.name,
        "count": row.count,
        "timber": row.timber,
        "thickness": exact_text(row.thickness),
        "width": exact_text(row.width),
        "length": exact_text(row.length),
        "note": row.note,
    }


def _as_milled(piece: Piece) -> dict[str, Any] | None:
    """What was measured, what is held, and the sums that moved; None where nothing was."""
    milled = piece.choice.milled
    if not milled.parts:
        return None
    from layout.as_milled import moved

    ids = {part.name: part.id for part in piece.parts}
    return {
        "held": milled.held,
        "parts": [
            {
                "part": ids[one.part],
                "width": _exact_or_none(one.width),
                "thickness": _exact_or_none(one.thickness),
            }
            for one in milled.parts
        ],
        "moved": [
            {
                "part": one.part,
                "name": one.full_name,
                "was": _exact_or_none(one.was),
                "is": _exact_or_none(one.now),
                "by": _exact_or_none(one.by),
            }
            for one in moved(piece)
        ],
    }


def _moves(row: Moves) -> dict[str, Any]:
    """What the year does to one size; the changes are signed."""
    return {
        "parts": [part.id for part in row.parts],
        "wood": row.wood,
        "sawn": row.sawn,
        "way": row.way,
        "size": exact_text(row.size),
        "dry": exact_text(row.size * row.dry.share),
        "wet": exact_text(row.size * row.wet.share),
    }


def _square(one: Square) -> dict[str, Any]:
    return {
        "name": one.name,
        "where": one.where,
        "width": exact_text(one.width),
        "height": exact_text(one.height),
        "diagonal": exact_text(one.diagonal),
    }


def _top(laid: LaidTop) -> dict[str, Any]:
    """What a top is glued up of, what fixes it, and how it moves."""
    top = laid.top
    year = top.year
    strips = top.strips
    sections = () if strips is None else strips.sections
    numbers_ = [number for number, many in enumerate(sections, start=1) for _ in range(many)]
    return {
        "name": top.choice.name,
        "on": None if top.bearing is None else top.bearing.name,
        "parts": [slab.id for slab in top.slabs],
        "end_caps": [cap.part.id for cap in top.caps],
        "length": exact_text(top.length),
        "width": exact_text(top.width),
        "thickness": exact_text(top.choice.thickness),
        "held": exact_text(top.held),
        "narrowest": None if year is None else exact_text(top.width * (1 + year.least)),
        "widest": None if year is None else exact_text(top.width * (1 + year.most)),
        "strips": [] if strips is None else [
            {"width": exact_text(one.width), "staves": _spot(one.staves), "section": number}
            for one, number in zip(strips.strips, numbers_, strict=True)
        ],
        "glue_area": None if strips is None else exact_text(strips.glue_area),
        "glue_grams": None if strips is None else exact_text(strips.glue),
        "clamps": None if strips is None else strips.clamps,
        "clamp_spacing": None if strips is None else exact_text(strips.clamp_spacing),
        "fixings": [] if laid.fixings is None else [
            {
                "rail": one.rail.id,
                "kind": laid.fixings.choice.kind,
                "place": exact_text(one.place),
                "away": exact_text(one.away),
                "out": exact_text(one.out),
                "back": exact_text(one.back),
                "along": one.along,
                "button": None if button is None else button.id,
            }
            for one, button in laid.fixings.found
        ],
    }


def _dogs(dogs: Dogs) -> dict[str, Any]:
    """A row of holes: as it would be even, as it is, what it misses and what it holds."""
    choice, vise = dogs.choice, dogs.choice.vise
    return {
        "part": dogs.part.id,
        "joint": dogs.joint,
        "hole": choice.called,
        "shape": choice.shape,
        "size": exact_text(choice.size),
        "lean": exact_text(dogs.lean),
        "pitch": exact_text(dogs.pitch),
        "step": exact_text(choice.step),
        "clear": exact_text(choice.clear),
        "below": exact_text(choice.below),
        "vise": None if vise is None else {
            "opening": exact_text(vise.opening),
            "closed": exact_text(vise.closed),
            "hand": exact_text(vise.hand),
        },
        "even": _spot(dogs.even),
        "places": _spot(dogs.places),
        "lines": _spot(choice.lines),
        "zones": [
            {"name": zone.name, "from": exact_text(zone.low), "to": exact_text(zone.high)}
            for zone in choice.zones
        ],
        "held": [_spot(span) for span in dogs.held],
    }


def _exact_or_none(value: Fraction | None) -> str | None:
    return None if value is None else exact_text(value)
