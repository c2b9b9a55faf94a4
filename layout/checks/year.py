"""Does a solid panel stay in its grooves the whole year, and never fill them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.panel_fit import Across, Fit, FitChoice, SolidChoice, stands_in
from layout.checks.words import said
from layout.errors import BadWood
from layout.mark import Finding
from layout.part import Part
from layout.piece import Piece
from layout.seasons import reckoned, unknown
from layout.wood.species import is_sheet

YEAR = "panel through the year"
EDGE = "edge of the panel"
HELD = "panel free to move"
COVER = "panel covers its opening"
CLIMATE = "moisture of the wood"
ZERO = Fraction(0)

_HOW = {
    "pins": "one pin through the frame from behind, in the middle of each end, holds a panel by "
    "its tongue",
    "spacers": "springy spacers in the grooves along both long edges keep a panel in the middle",
    "free": "nothing keeps a panel in the middle",
}
_IN_RABBET = ("beads hold a panel in its rabbet from behind: nail them to the frame, never to the "
              "panel")


def panel_findings(
    piece: Piece, part: Part, make: FitChoice, fit: Fit, clear: tuple[Fraction, Fraction]
) -> Iterator[Finding]:
    """A panel in an opening of this clear width and height, in mm."""
    yield from _edge(piece, part, make, fit)
    solid = make.solid
    if solid is None or fit.year is None:
        if _is_wood(piece, make.timber):
            yield Finding(
                YEAR, "caution", (part.id,),
                f"the {part.name} is of {make.timber}, which moves, but is fitted like a sheet", (),
                "give it solid = {}, then it is fitted for the whole year; or name the sheet",
            )
        return
    across, opening = (fit.wide, clear[0]) if make.grain == "up" else (fit.high, clear[1])
    floors = opening + 2 * fit.lip
    free = floors - across.widest
    stands = stands_in(across, opening, fit.lip, solid.held)
    who = (part.id,)
    along = fit.high if make.grain == "up" else fit.wide
    # pins keep a panel in the middle of its length too
    holds = (2 if solid.held == "pins" else 1) * fit.lip
    if along.room >= holds:
        yield Finding(
            COVER, "stop", who,
            f"the {part.name} can slip out along its grain: lip {said(piece, fit.lip)}, room to "
            f"fit {said(piece, along.room)}", (("lip", fit.lip), ("room", along.room)),
            "make the room less, or the lip more",
        )
    figures = (("narrowest", across.narrowest), ("widest", across.widest),
               ("stands in", stands), ("free", free))
    if free <= 0:
        yield Finding(
            YEAR, "stop", who,
            f"the {part.name} fills its grooves at its widest, {said(piece, across.widest)}: from "
            f"bottom to bottom they are {said(piece, floors)} apart", figures,
            "leave some play, or make the panel of narrower boards or quarter-sawn wood",
        )
    if stands < solid.cover:
        # a groove deeper by 1 makes the panel wider by what is left of 2 when it has shrunk; one
        # that slides has 1 more of it on the other side
        shrunk = across.narrowest / across.widest
        deeper = (solid.cover - stands) / (shrunk if solid.held != "free" else 2 * shrunk - 1)
        little = (f"stands only {said(piece, stands)} in a groove" if stands > 0 else
                  f"stands clear of a groove by {said(piece, -stands)}")
        how = "" if solid.held != "free" else "; kept in the middle by pins it would do better"
        yield Finding(
            YEAR, "stop" if stands <= 0 else "caution", who,
            f"the {part.name} {little} at its narrowest, "
            f" {said(piece, across.narrowest)}; least {said(piece, solid.cover)}{how}",
            figures,
            f"make the grooves {said(piece, deeper)} deeper, use quarter-sawn or drier wood, or "
            "divide the opening",
        )
    else:
        yield Finding(
            YEAR, "note", who, _told(piece, part, make, across, stands), figures,
        )


def _is_wood(piece: Piece, timber: str) -> bool:
    """True for a timber that the tables have; a word that they don't have may be a sheet's."""
    if not timber or is_sheet(timber):
        return False
    try:
        piece.choice.wood.wood(timber)
    except BadWood:
        return False
    return True


def held_finding(
    parts: tuple[Part, ...], solid: SolidChoice, in_rabbet: bool = False
) -> Finding:
    """What keeps panels of one kind in the middle, and that no glue may come near them."""
    more = len(parts) - 1
    others = "" if not more else " or the other one" if more == 1 else f" or the {more} others"
    who = f"the {parts[0].name}{others}"
    return Finding(
        HELD, "note", tuple(part.id for part in parts),
        f"glue the frame, never {who}; {_IN_RABBET if in_rabbet else _HOW[solid.held]}; wax the "
        "corners", (),
    )


def _told(
    piece: Piece, part: Part, make: FitChoice, across: Across, stands: Fraction
) -> str:
    wood = piece.choice.wood
    sawn = wood.sawn(make.timber, make.solid.sawn if make.solid is not None else None)
    return (
        f"the {part.name}, {sawn}-sawn {make.timber}, is {said(piece, across.size)} across the "
        f"grain today, {said(piece, across.narrowest)} at its narrowest and "
        f"{said(piece, across.widest)} at its widest; it stands at least {said(piece, stands)} in "
        "each groove"
    )


def _edge(piece: Piece, part: Part, make: FitChoice, fit: Fit) -> Iterator[Finding]:
    """The field must lie inside the frame, and wood must be left of the panel."""
    profile = make.profile
    if profile.kind == "plain":
        return
    front = profile.front(make.thickness)
    if profile.kind == "raised":
        border, who = profile.border, (part.id,)
        if border <= fit.lip:
            yield Finding(
                EDGE, "stop", who,
                f"the field of the {part.name} begins {said(piece, border)} from its edge, inside "
                f"the groove, {said(piece, fit.lip)} deep", (("border", border), ("lip", fit.lip)),
                "make the border wider",
            )
        if 2 * border >= min(part.width, part.length):
            yield Finding(
                EDGE, "stop", who, f"the borders leave no field on the {part.name}",
                (("border", border),), "make the border narrower",
            )
        if profile.step >= front:
            yield Finding(
                EDGE, "stop", who,
                f"the step at the field, {said(piece, profile.step)}, is no less than the whole "
                f"fall to the tongue, {said(piece, front)}",
                (("step", profile.step), ("fall", front)), "make the step less",
            )


def findings(piece: Piece) -> list[Finding]:
    """Which moisture was reckoned with, and for which parts it could not be."""
    return [*_climate(piece), *_unknown(piece)] if reckoned(piece) else []


def _climate(piece: Piece) -> Iterator[Finding]:
    year = piece.choice.wood.year
    if not year.stated:
        yield Finding(
            CLIMATE, "caution", (),
            f"no climate is given: the wood is taken at {year.now.words} today, and between "
            f"{year.dry.words} and {year.wet.words} over the year (Wood Handbook, Table 13-2: the "
            "mean as quoted, the range from memory)", (),
            "measure your wood, and say what the rooms are like where the piece will stand",
        )
        return
    if not year.dry.content <= year.now.content <= year.wet.content:
        yield Finding(
            CLIMATE, "caution", (),
            f"today's {year.now.words} lies outside the year, {year.dry.words} to "
            f"{year.wet.words}: today counts as its driest or its dampest too", (),
            "let the wood come to the room first, or widen the seasons",
        )
    yield Finding(
        CLIMATE, "note", (),
        f"the wood is reckoned at {year.now.words} today, at {year.dry.words} in the dry season "
        f"and {year.wet.words} in the damp one; boards differ from the mean of their wood by a "
        "tenth or more", (),
    )


def _unknown(piece: Piece) -> Iterator[Finding]:
    """Timbers that are left out of the movement table."""
    by_timber: dict[str, list[str]] = {}
    for part in unknown(piece):
        by_timber.setdefault(part.timber, []).append(part.id)
    for timber, parts in by_timber.items():
        try:
            piece.choice.wood.seasons(timber, "width")
            piece.choice.wood.seasons(timber, "thickness")
        except BadWood as error:
            what = error.what if timber else "no timber is named"
            many = "one part" if len(parts) == 1 else f"{len(parts)} parts"
            yield Finding(
                CLIMATE, "caution", tuple(parts),
                f"the movement of {many} is not reckoned: {what}", (), error.cure,
            )
