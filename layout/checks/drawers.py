"""Does each drawer go into its opening, with room to run, and something to run on."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.drawer import Drawer, most_swelling
from layout.builds.opening import Opening
from layout.checks.placed import gaps, part_box
from layout.checks.words import at_most, said
from layout.errors import BadWood
from layout.mark import Finding
from layout.piece import Piece

FITS = "drawer in its opening"
FRONT = "drawer front against the opening"
RUNS = "what the drawer runs on"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Findings on every drawer, the way it fits first."""
    return [one for drawer in piece.drawers for one in _of(piece, drawer)]


def _of(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    choice, hole = drawer.choice, drawer.hole
    who = (drawer.front.id, drawer.left.id, drawer.right.id)
    if drawer.height > hole.height:
        over = said(piece, drawer.height - hole.height)
        yield Finding(
            FITS, "stop", who,
            f"the {drawer.name}, {said(piece, drawer.height)} high, is {over} higher than its "
            f"opening, {said(piece, hole.height)}",
            (("height", drawer.height), ("opening", hole.height)),
            f"at most {at_most(piece, hole.height - choice.room_high)} fits with the room that is "
            "wanted above it" if hole.height > choice.room_high else
            "lower it, and want less room above it",
        )
    if drawer.rear > hole.deep:
        meets = "is deeper than its opening,"
        if hole.behind is not None:
            meets = f"runs into the {hole.behind.name} at"
        yield Finding(
            FITS, "stop", who,
            f"the {drawer.name} reaches {said(piece, drawer.rear)} inward and {meets} "
            f"{said(piece, hole.deep)}",
            (("reach", drawer.rear), ("free", hole.deep)),
            f"a drawer at most {at_most(piece, hole.deep - drawer.out)} long fits",
        )
    room = hole.height - drawer.height
    if choice.room_wide == 0 or room == 0:
        yield Finding(
            FITS, "caution", who,
            f"the {drawer.name} has no room {'at its sides' if choice.room_wide == 0 else ''}"
            f"{' and ' if choice.room_wide == 0 and room == 0 else ''}"
            f"{'above it' if room == 0 else ''}: it will bind",
            (("room in width", choice.room_wide), ("room in height", room)),
            "give it 1/64 to 1/32 in, half a millimetre or so, on each side",
        )
    elif room > 0:
        told = ("That much is stated, not worked out from the wood: fit high drawers in a dry "
                "season with more")
        if drawer.swells:
            told = (f"{said(piece, drawer.swells)} of it is what its wood will swell from today to "
                    "the dampest season")
        yield Finding(
            FITS, "note", who,
            f"the {drawer.name} has {said(piece, choice.room_wide)} of room in width and "
            f"{said(piece, room)} in height. {told}",
            (("room in width", choice.room_wide), ("room in height", room)),
        )
    yield from _year(piece, drawer)
    yield from _front(piece, drawer)
    yield from _runs(piece, drawer)


def _year(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    """A height that was given must leave what the wood swells; and a solid bottom's slots too."""
    timbers = piece.choice.wood
    if timbers.climate is None:
        return
    highest = drawer.height * (1 + most_swelling(drawer.choice, timbers))
    if drawer.height < drawer.hole.height < highest:
        yield Finding(
            FITS, "stop", (drawer.front.id, drawer.left.id, drawer.right.id),
            f"the {drawer.name} will bind: {said(piece, drawer.height)} high today, "
            f"{said(piece, highest)} in the dampest season, its opening "
            f"{said(piece, drawer.hole.height)}",
            (("height", drawer.height), ("highest", highest), ("opening", drawer.hole.height)),
            f"make it {said(piece, highest - drawer.hole.height)} lower, or more",
        )
    bottom = drawer.choice.bottom
    if bottom.kind != "solid" or bottom.slots is None:
        return
    try:
        year = timbers.seasons(drawer.bottom.timber, "width")
    except BadWood:
        return  # told with the other timbers that the tables don't have
    moves = drawer.bottom.width * max(year.most, -year.least)
    if moves > bottom.slots.play:
        yield Finding(
            FITS, "caution", (drawer.bottom.id,),
            f"the {drawer.bottom.name} moves {said(piece, moves)} over the year, its slots give "
            f"only {said(piece, bottom.slots.play)} each way",
            (("moves", moves), ("play", bottom.slots.play)),
            "give the slots more play, or use quarter-sawn wood or plywood",
        )


def _front(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    choice, hole = drawer.choice, drawer.hole
    if choice.style == "lipped":
        lap = choice.front - drawer.corners[0].depth
        if lap < choice.lip_thickness:
            yield Finding(
                FRONT, "stop", (drawer.front.id,),
                f"the {drawer.front.name}'s lip is {said(piece, choice.lip_thickness)} thick, its "
                f"lap only {said(piece, lap)}: the tails would run into the lip",
                (("lip", choice.lip_thickness), ("lap", lap)),
                f"make the lap {said(piece, choice.lip_thickness)} or more, or the lip thinner",
            )
        cover = choice.lip - max(choice.room_wide / 2, hole.height - drawer.height)
        if cover <= 0:
            yield Finding(
                FRONT, "stop", (drawer.front.id,),
                f"the {drawer.front.name}'s lip, {said(piece, choice.lip)}, does not cover the "
                "room round the drawer",
                (("lip", choice.lip), ("covers", cover)), "make the lip more",
            )
        if choice.lip > 2 * choice.front:
            yield Finding(
                FRONT, "caution", (drawer.front.id,),
                f"the {drawer.front.name}'s lip stands out {said(piece, choice.lip)}, more than "
                f"twice the front's thickness, {said(piece, choice.front)}: it will break off",
                (("lip", choice.lip), ("thickness", choice.front)), "make the lip less",
            )
        yield from _lips_free(piece, drawer)
    opening = hole.opening
    if opening is None or opening.lower is None:
        return
    off = hole.site.spans(opening.lower)[1][0]
    if off:
        yield Finding(
            FRONT, "caution", (drawer.front.id, opening.lower.id),
            f"the {opening.lower.name} stands {said(piece, abs(off))} "
            f"{'behind' if off > 0 else 'before'} the {opening.upper.name}; the {drawer.name} is "
            f"fitted to the {opening.upper.name}",
            (("apart", abs(off)),), "bring their fronts into one plane",
        )


def _lips_free(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    """A lip needs a flat place: no leg that stands before the rail, no lip of the next drawer."""
    front = part_box(drawer.front)
    for part in piece.parts:
        if part.id == drawer.front.id or max(gaps(front, part_box(part))) >= 0:
            continue
        if part.kind == drawer.left.kind or part.id in {one.id for one in drawer.parts}:
            continue
        if any(part.id == other.front.id for other in piece.drawers):
            words, cure = "its lip and the next one's meet", "make the lips less"
        else:
            words = f"the {part.name} stands where its lip would lie"
            cure = "set the rails flush with the legs, make the lip less, or take another style"
        yield Finding(FRONT, "stop", (drawer.front.id, part.id),
                      f"the {drawer.front.name} can't close: {words}",
                      (("lip", drawer.choice.lip),), cure)


def _runs_free(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    """Runners, kickers and guides need places of their own, and something to be fixed to."""
    for run in drawer.runs:
        box = part_box(run)
        for part in piece.parts:
            if part.id != run.id and max(gaps(box, part_box(part))) < 0:
                yield Finding(RUNS, "stop", (run.id, part.id),
                              f"the {run.name} runs into the {part.name}", (),
                              "make it narrower or thinner")
                break
        rear = drawer.hole.site.spans(run)[1][1]
        if drawer.hole.opening is not None and not any(
            drawer.hole.site.spans(part)[1][0] == rear
            and all(gap <= 0 for gap in gaps(box, part_box(part)))
            for part in piece.parts
            if part.id != run.id
        ):
            yield Finding(RUNS, "caution", (run.id,),
                          f"nothing stands behind the {run.name} for its rear end to be fixed to",
                          (), "add a rail at the back, or fix it to the side of the frame")


def _bears(drawer: Drawer, opening: Opening) -> bool:
    """True where what bounds the opening below reaches under the drawer's whole length."""
    lower = opening.lower
    return lower is not None and drawer.hole.site.spans(lower)[1][1] >= drawer.rear


def _runs(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    choice = drawer.choice
    if choice.runs is None:
        opening = drawer.hole.opening
        if opening is not None and _bears(drawer, opening):
            return  # it runs on the shelf or the bottom below it
        if opening is not None:
            yield Finding(
                RUNS, "note", (drawer.left.id, drawer.right.id),
                f"no runners are planned for the {drawer.name}: write runners = {{}} for plain "
                "ones, or add cross rails under its sides",
            )
        return
    yield from _runs_free(piece, drawer)
    under = choice.runs.width - choice.room_wide / 2
    if under < choice.sides:
        yield Finding(
            RUNS, "caution", tuple(part.id for part in drawer.runs),
            f"the runners of the {drawer.name} reach {said(piece, max(under, ZERO))} under its "
            f"sides, which are {said(piece, choice.sides)} thick",
            (("under the side", under), ("side", choice.sides)), "make the runners wider",
        )
