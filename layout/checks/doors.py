"""Do doors hold together, hang clear of their tenons, and open in every season."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from layout.builds.site import WAYS
from layout.checks import year
from layout.checks.placed import cut_box, gaps
from layout.checks.weights import weight_of
from layout.checks.words import at_least, said
from layout.defaults import default_length
from layout.errors import ShoulderlineError
from layout.joints.rail_end import is_mortise
from layout.mark import Finding
from layout.part import Part, piece_axis
from layout.piece import Piece
from layout.seasons import reckoned

if TYPE_CHECKING:
    from layout.builds.door import Door
    from layout.wood.timber import Seasons

GROOVE = "wood beside a door's seat"
PROUD = "panel against the frame's face"
COVER = year.COVER
REBATE = "meeting rebate clear of the joints"
HINGE = "hinges and lock clear of the joints"
GAP = "gap round the door through the year"
WEIGHT = "weight of the door"
HORNS = "horns"
HAUNCH = "haunch against the groove that it fills"
BEYOND = "overlay door against what it lies on"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops, cautions and notes for every door."""
    found: list[Finding] = []
    for door in piece.doors:
        found += _seats(piece, door)
        found += _haunches(piece, door)
        found += _panels(piece, door)
        found += _meeting(piece, door)
        found += _fittings(piece, door)
        found += _gaps(piece, door)
        found += _beyond(piece, door)
        found += _horns(piece, door)
        found += weight_of(piece, f"the {door.name}", door.parts, WEIGHT)
    return found


def _frame(door: Door) -> tuple[Part, ...]:
    return (*door.stiles, *(one.rail.part for one in (*door.rails, *door.muntins)))


def _seats(piece: Piece, door: Door) -> Iterator[Finding]:
    """The wood in front of a seat, behind a groove, and between two seats of one board."""
    choice, size, least = door.choice.seat, door.size, piece.choice.wall_least
    who = tuple(part.id for part in door.stiles)
    front, thick = size.plane, door.choice.thickness
    walls = [(f"in front of the {choice.kind}", front)]
    if choice.kind == "groove":
        walls.append(("behind the groove", thick - front - choice.panel_thickness))
    for where, wall in walls:
        if wall < least:
            yield Finding(
                GROOVE, "stop" if wall <= 0 else "caution", who,
                f"{said(piece, max(wall, ZERO))} of wood {where} of the {door.name}; least "
                f"{said(piece, least)}", (("wood", wall), ("least", least)),
                "use a thinner panel or tongue, a thicker frame, or move the seat",
            )
    rails = [one.rail.part for one in door.rails]
    both = [*rails[1:-1], *(one.rail.part for one in door.muntins)]
    single = [rails[0], rails[-1], door.stiles[0]]
    for part, many in (*((part, 2) for part in both), *((part, 1) for part in single)):
        left = part.width - many * size.lip
        if left < least:
            yield Finding(
                GROOVE, "stop" if left <= 0 else "caution", (part.id,),
                f"the seats leave {said(piece, max(left, ZERO))} of the {part.name}'s width, "
                f"{said(piece, part.width)}; least {said(piece, least)}",
                (("left", left), ("width", part.width)),
                "make the lip less, or the part wider",
            )


def _haunches(piece: Piece, door: Door) -> Iterator[Finding]:
    """A haunch that fills a groove can't be thicker than the groove is wide."""
    seat = door.choice.seat
    for one in door.rails:
        haunch = one.rail.choice.tenon.haunch
        thick = one.size.thickness
        if haunch is None or haunch.kind != "groove" or thick <= seat.panel_thickness:
            continue
        yield Finding(
            HAUNCH, "stop", (one.rail.part.id,),
            f"the tenon of the {one.rail.part.name} is {said(piece, thick)} thick, and the groove "
            f"that its haunch fills {said(piece, seat.panel_thickness)} wide",
            (("tenon", thick), ("groove", seat.panel_thickness)),
            "leave the tenon's thickness out, or give it a square haunch",
        )


def _panels(piece: Piece, door: Door) -> Iterator[Finding]:
    make, choice = door.choice.panel, door.choice
    if make.solid is not None:
        in_rabbet = choice.seat.kind == "rabbet"
        yield year.held_finding(tuple(bay.part for bay in door.bays), make.solid, in_rabbet)
    for bay in door.bays:
        yield from year.panel_findings(piece, bay.part, make, bay.fit, (bay.width, bay.height))
        if make.solid is None and door.size.lip - make.room <= 0:
            yield Finding(
                COVER, "stop", (bay.part.id,),
                f"the {bay.part.name} can slip out: lip {said(piece, door.size.lip)}, room to fit "
                f"{said(piece, make.room)}", (("lip", door.size.lip), ("room", make.room)),
                "make the lip more than the room",
            )
    first = door.bays[0].part
    proud = make.profile.front(make.thickness) - door.size.plane
    behind = make.thickness - proud - choice.thickness
    who = tuple(bay.part.id for bay in door.bays)
    if proud > 0:
        yield Finding(
            PROUD, "caution", who,
            f"the {first.name} stands {said(piece, proud)} proud of the frame's face",
            (("proud", proud),), "use a thinner panel, or move the groove back",
        )
    if behind > 0:
        what = "deeper" if choice.seat.kind == "rabbet" else "nearer to the face"
        yield Finding(
            PROUD, "caution", who,
            f"the {first.name} stands {said(piece, behind)} out behind the frame",
            (("behind", behind),), f"use a thinner panel, or make its seat {what}",
        )


def _meeting(piece: Piece, door: Door) -> Iterator[Finding]:
    """The wood between a pair's rebate and the mortises from the other edge."""
    from layout.builds.door_work import MEETING

    stile = door.stiles[1 if door.meets == "right" else 0]
    cuts = piece.cuts_of(stile.id)
    rebates = [cut for cut in cuts if cut.joint == f"{door.stem}.{MEETING}"]
    if not rebates or door.meets is None:
        return
    rebate, least = cut_box(stile, rebates[0]), piece.choice.wall_least
    webs = [max(gaps(rebate, cut_box(stile, cut))) for cut in cuts if is_mortise(cut.role)]
    web = min(webs, default=least)
    if web < least:
        yield Finding(
            REBATE, "stop" if web < 0 else "caution", (stile.id,),
            f"the rebate of the {stile.name} runs {said(piece, -web)} into a mortise" if web < 0
            else f"only {said(piece, web)} of wood between the rebate of the {stile.name} and a "
            f"mortise; least {said(piece, least)}", (("web", web), ("least", least)),
            "make the rebate narrower, the tenons shorter, or the stiles wider",
        )


# -- hinges and lock


def _fittings(piece: Piece, door: Door) -> Iterator[Finding]:
    from layout.builds.hinge import fittings, mortises, nearest_clear

    made = fittings(door)
    for one in made:
        choice = door.choice.lock if one.name == "lock" else door.choice.hinges
        assert choice is not None  # it was made from one
        who, clear = (one.stile.id,), choice.clear
        if one.start < 0 or one.stop > one.stile.length:
            yield Finding(
                HINGE, "stop", who, f"the {one.name} of the {door.name} lies beyond the stile's "
                f"end: {said(piece, one.length)} long, the stile {said(piece, one.stile.length)}",
                (("start", one.start), ("stop", one.stop)), "move it, or use a shorter one",
            )
            continue
        taken = mortises(door, one.stile)
        over = [span for span in taken
                if one.start < span[1] + clear and span[0] - clear < one.stop]
        if over:
            better = nearest_clear(one.start, one.length, taken, clear, one.stile.length)
            cure = "use a shorter one" if better is None else (
                f"let it begin {said(piece, better)} from the top of the stile")
            yield Finding(
                HINGE, "caution", who,
                f"the {one.name} of the {door.name} comes within {said(piece, clear)} of a "
                "mortise: its screws would find the tenon's end grain, or nothing",
                (("start", one.start), ("stop", one.stop)), cure,
            )
        elif one.open and one.start != one.wanted:
            yield Finding(
                HINGE, "note", who,
                f"the {one.name} of the {door.name} is moved from {said(piece, one.wanted)} to "
                f"{said(piece, one.start)} from the top of the stile, clear of the tenons",
                (("wanted", one.wanted), ("start", one.start)),
            )
    for upper, lower in pairwise(one for one in made if one.name != "lock"):
        if lower.start < upper.stop:
            yield Finding(
                HINGE, "stop", (upper.stile.id,),
                f"{upper.name} and {lower.name} of the {door.name} lie over each other",
                (("over", upper.stop - lower.start),), "use fewer or shorter hinges",
            )


# -- the year


def _gaps(piece: Piece, door: Door) -> Iterator[Finding]:
    """Stiles swell across the door and its hinges hold one side: the other side's gap changes by
    all of it. Along its height, with the grain, a door keeps its size.
    """
    if not reckoned(piece):
        return
    choice = door.choice
    try:
        stiles = piece.choice.wood.seasons(choice.timber, "width", choice.sawn)
    except ShoulderlineError as error:
        yield Finding(
            GAP, "caution", tuple(part.id for part in door.stiles),
            f"how the {door.name} moves is not reckoned: {error}", (),
            "name its timber as the tables do, or give its figures under [[wood]]",
        )
        return
    if choice.mount == "overlay" and not choice.pair:
        yield from _overlay(piece, door, stiles)
        return
    doors = 2 if choice.pair else 1
    gap = choice.gaps.between if choice.pair else choice.gaps.sides
    if choice.pair and door.meets != "right":
        return  # told with the left one
    wood = 2 * choice.stile * doors
    tight, wide = gap - wood * stiles.most, gap - wood * stiles.least
    where = "where the two meet" if choice.pair else f"at the {_other(door)} side"
    who = tuple(part.id for part in door.stiles)
    figures = (("today", gap), ("least", tight), ("most", wide))
    name = choice.name if choice.pair else door.name
    if tight <= 0:
        yield Finding(
            GAP, "stop", who,
            f"the {name} will bind: the gap {where}, {said(piece, gap)} today, closes in the damp "
            f"season: the stiles swell {said(piece, wood * stiles.most)} together", figures,
            f"leave {said(piece, gap - tight)} and a little more there",
        )
        return
    least = default_length("gap_least", piece.choice.unit)
    yield Finding(
        GAP, "caution" if tight < least else "note", who,
        f"the gap of the {name} {where} is {said(piece, gap)} today, {said(piece, tight)} in the "
        f"dampest season and {said(piece, wide)} in the driest; its height does not change",
        figures, f"leave {at_least(piece, gap - tight + least)} there" if tight < least else "",
    )
    if choice.rebate:
        lap = choice.rebate + wood * stiles.least
        if lap <= 0:
            yield Finding(
                GAP, "stop", who,
                f"the meeting stiles of the {name} come apart in the driest season: they lie over "
                f"each other by {said(piece, choice.rebate)} today",
                (("rebate", choice.rebate), ("driest", lap)), "make the rebate wider",
            )


def _overlay(piece: Piece, door: Door, stiles: Seasons) -> Iterator[Finding]:
    """How far an overlay door still covers its opening when it is at its narrowest."""
    over = door.choice.gaps.over
    least = over + 2 * door.choice.stile * stiles.least
    who = tuple(part.id for part in door.stiles)
    figures = (("today", over), ("driest", least))
    if least <= 0:
        yield Finding(
            GAP, "stop", who,
            f"the {door.name} no longer covers its opening in the driest season: it covers "
            f"{said(piece, over)} at each side today", figures, "let it cover more",
        )
    else:
        yield Finding(
            GAP, "note", who,
            f"the {door.name} covers its opening by {said(piece, over)} at the {_other(door)} side "
            f"today, and by {said(piece, least)} in the driest season", figures,
        )


def _beyond(piece: Piece, door: Door) -> Iterator[Finding]:
    """Does an overlay door lie on what is around its opening, or reach out beyond it."""
    if door.choice.mount != "overlay" or door.opening is None:
        return
    across = piece_axis(WAYS[door.opening.side][0])
    around = [part.reach(across) for part in (door.opening.left, door.opening.right)]
    own = [stile.reach(across) for stile in door.stiles]
    out = max(min(span[0] for span in around) - min(span[0] for span in own),
              max(span[1] for span in own) - max(span[1] for span in around))
    if out > 0:
        yield Finding(
            BEYOND, "caution", tuple(stile.id for stile in door.stiles),
            f"the {door.name} reaches {said(piece, out)} out beyond what is around its opening",
            (("beyond", out),), "let it cover less: make over smaller",
        )


def _other(door: Door) -> str:
    return "right" if door.hand == "left" else "left"


def _horns(piece: Piece, door: Door) -> Iterator[Finding]:
    """Horns are sawn off last; without them a mortise near the end wants care."""
    horn = door.choice.horn
    if horn:
        yield Finding(
            HORNS, "note", tuple(part.id for part in door.stiles),
            f"the stiles of the {door.name} keep {said(piece, horn)} of horn at each end until "
            "the door is glued up: end A on sticks and templates is the finished end",
            (("horn", horn),),
        )
