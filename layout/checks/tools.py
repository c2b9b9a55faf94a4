"""Does the maker have a tool for each size: only where they list their own (kit)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from layout.checks.words import said
from layout.joints import peg
from layout.kit import neighbours
from layout.mark import Finding
from layout.piece import Piece

RULE = "a tool for each size"


def findings(piece: Piece) -> list[Finding]:
    """A caution for every size that none of the listed tools makes, with the nearest two."""
    kit = piece.choice.kit
    found: list[Finding] = []
    for one in piece.rails:
        name = one.rail.part.name
        if kit.listed & {"chisels", "mortise_bits"}:
            found += _missing(
                piece, one.rail.part.id, f"mortise of the {name}", one.size.thickness,
                kit.mortise_tools, "chisel or mortise bit",
            )
        pegs = one.rail.choice.tenon.pegs
        if pegs is not None and "drills" in kit.listed:
            size = peg.sizes(pegs, one.size.thickness, one.size.width, kit)
            found += _missing(
                piece, one.rail.part.id, f"peg hole of the {name}", size.diameter, kit.drills,
                "drill",
            )
    if "cutters" in kit.listed:
        for panel in piece.panels:
            seat = panel.choice.seat
            if "groove" in (seat.kind, seat.in_legs):
                found += _missing(
                    piece, panel.part.id, f"groove for the {panel.part.name}",
                    seat.panel_thickness, kit.cutters, "cutter",
                )
        for slide in piece.slides:
            if slide.choice.square:
                found += _missing(
                    piece, slide.bearer.id,
                    f"housing for the {slide.slider.name} in the {slide.bearer.name}", slide.neck,
                    kit.cutters, "cutter",
                )
        for part, name, wide in _bottom_grooves(piece):
            found += _missing(
                piece, part, f"bottom groove of the {name}", wide, kit.cutters, "cutter"
            )
    return found


def _bottom_grooves(piece: Piece) -> Iterator[tuple[str, str, Fraction]]:
    """The front of every drawer and chest with a grooved bottom, its name, the groove's width."""
    for drawer in piece.drawers:
        yield drawer.front.id, drawer.name, drawer.choice.bottom.groove
    for chest in piece.chests:
        bottom = chest.choice.bottom
        if bottom is not None and bottom.kind == "groove":
            yield chest.front.id, chest.choice.name, bottom.thickness


def _missing(
    piece: Piece,
    part: str,
    what: str,
    size: Fraction,
    tools: Iterable[Fraction],
    word: str,
) -> list[Finding]:
    owned = set(tools)
    if size in owned:
        return []
    near = neighbours(size, owned)
    nearest = " and ".join(said(piece, one) for one in near)
    return [
        Finding(
            RULE,
            "caution",
            (part,),
            f"no {word} of yours makes the {what}, {said(piece, size)}; the nearest: {nearest}",
            (("size", size), *((f"nearest {number}", one) for number, one in enumerate(near, 1))),
            f"choose one of those, or add the {word} to the kit",
        )
    ]
