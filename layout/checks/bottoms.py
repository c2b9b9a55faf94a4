"""Bottoms and their grooves: does the groove stay hidden in a tail, is there wood round it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.chest import Chest
from layout.builds.drawer import Drawer
from layout.builds.drawer_work import slot_places
from layout.checks.words import at_most, said
from layout.joints.board_edge import Groove
from layout.joints.dovetail import Corner
from layout.joints.spacing import Spacing, Wishes, most_tails, space, tail_around
from layout.mark import Finding
from layout.part import Part
from layout.piece import Piece
from layout.seasons import unknown

INSIDE = "groove inside a tail"
WOOD = "wood round the groove"
BOTTOM = "bottom against its groove"
HELD = "bottom held by its seats"
SLOTS = "screw slots in the bottom"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops where a groove comes out or leaves no wood; cautions where little is left."""
    found: list[Finding] = []
    for drawer in piece.drawers:
        found += _drawer(piece, drawer)
    for chest in piece.chests:
        found += _chest(piece, chest)
    return found


def _drawer(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    bottom = drawer.choice.bottom
    parts = {part.id: part for part in drawer.parts}
    for part_id, groove in drawer.grooves.items():
        yield from wood(piece, parts[part_id], groove)
    corner = drawer.corners[0]
    span = (bottom.up, bottom.up + bottom.groove)
    cure = 'write run = "stopped" under the bottom'
    sides = (drawer.left.id, drawer.right.id)
    yield from inside(piece, corner, span, (drawer.front,), sides, bottom.clear,
                      bottom.run == "stopped", f"{drawer.name}: ", cure)
    if corner.spacing.choice.lap is None and bottom.run == "through" and bottom.slips is None:
        yield Finding(
            INSIDE, "caution", (drawer.left.id, drawer.right.id),
            f"{drawer.name}: the front's dovetails are through, so the sides' groove shows in the "
            f"ends of the bottom tails: a hole {said(piece, bottom.groove)} high and "
            f"{said(piece, drawer.deep)} wide at each end of the front",
            (("hole high", bottom.groove), ("hole wide", drawer.deep)),
            cure + ", or slips = {}; or plug the holes",
        )
    yield from _held(piece, drawer.bottom, drawer.deep, bottom.room, drawer.name)
    yield from _slots(piece, drawer)
    yield from _slips(piece, drawer)
    below = bottom.up + bottom.groove - bottom.thickness
    if below <= 0:
        how = f"hangs {said(piece, -below)} below" if below else "lies flush with"
        yield Finding(
            BOTTOM, "stop" if below else "caution", (drawer.bottom.id,),
            f"{drawer.name}: the bottom {how} the sides' lower edges and would drag",
            (("below the sides", -below),),
            f"raise the groove to more than {said(piece, bottom.thickness - bottom.groove)} above "
            "the lower edge, or make the bottom thinner",
        )
    if bottom.slots is not None and drawer.choice.bottom.kind == "solid":
        reckoned = piece.choice.wood.climate is not None and drawer.bottom not in unknown(piece)
        told = "" if reckoned else ". That much is stated, not worked out from the wood"
        yield Finding(
            BOTTOM, "note", (drawer.bottom.id,),
            f"{drawer.name}: glue the solid bottom in the front's groove only; its slots let it "
            f"move {said(piece, bottom.slots.play)} each way{told}",
            (("room to move", bottom.slots.play),),
        )


def _held(
    piece: Piece, board: Part, deep: Fraction, room: Fraction, words: str
) -> Iterator[Finding]:
    """A bottom cut smaller by its room must still lie in its grooves or rabbets."""
    held = deep - room / 2
    if held * 2 > deep:
        return
    left = f"only {said(piece, held)} of it lies" if held > 0 else "nothing of it would lie"
    yield Finding(
        HELD, "stop" if held <= 0 else "caution", (board.id,),
        f"{words}: the bottom is cut {said(piece, room)} smaller and its seats are "
        f"{said(piece, deep)} deep: {left} in each",
        (("room", room), ("deep", deep), ("held", held)),
        "make the room less, or the seats deeper",
    )


def _slots(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    """Slots must have wood between them, and end inside the bottom."""
    slots, part = drawer.choice.bottom.slots, drawer.bottom
    if slots is None:
        return
    each = part.length / len(slot_places(drawer))
    if slots.wide >= each:
        yield Finding(
            SLOTS, "stop", (part.id,),
            f"{drawer.name}: slots {said(piece, slots.wide)} wide leave no wood of the "
            f"{said(piece, each)} of bottom that each has",
            (("slot", slots.wide), ("bottom for each", each)),
            "make them fewer or narrower",
        )
    long = drawer.choice.back / 2 + slots.play
    if long >= part.width:
        yield Finding(
            SLOTS, "stop", (part.id,),
            f"{drawer.name}: a slot {said(piece, long)} long cuts through the bottom, "
            f"{said(piece, part.width)} front to back",
            (("slot", long), ("bottom", part.width)), "make the play less",
        )


def _slips(piece: Piece, drawer: Drawer) -> Iterator[Finding]:
    """A slip higher than the side that it is glued to stands out above it."""
    for slip in drawer.slips[:1]:
        if slip.width > drawer.height:
            yield Finding(
                HELD, "stop", tuple(part.id for part in drawer.slips),
                f"{drawer.name}: its slips are {said(piece, slip.width)} high, its sides only "
                f"{said(piece, drawer.height)}",
                (("slip", slip.width), ("side", drawer.height)),
                "leave less wood above the groove, or lower the groove",
            )


def inside(
    piece: Piece,
    corner: Corner,
    span: tuple[Fraction, Fraction],
    boards: tuple[Part, ...],
    others: tuple[str, ...],
    clear: Fraction,
    stopped: bool,
    words: str,
    cure: str,
) -> Iterator[Finding]:
    """The pin board's groove must run out into a socket; else it shows in the pins.

    `span` is the groove from the near edge, `clear` its wood to a tail's side, in mm; `stopped`
    says that it ends before it could show; `words` begin every finding, `cure` its cure.
    """
    spacing, board = corner.spacing, boards[0]
    who = tuple(one.id for one in boards)
    tail = tail_around(spacing, span)
    if tail is not None:
        yield Finding(
            INSIDE, "note", who,
            f"{words}the bottom's groove in the {board.name}, {said(piece, span[0])} to "
            f"{said(piece, span[1])} from the lower edge, lies inside {tail.name}",
            (("from", span[0]), ("to", span[1])),
        )
        return
    where = _where(spacing, span)
    if stopped:
        yield Finding(
            INSIDE, "note", who,
            f"{words}the bottom's groove in the {board.name} crosses {where}; it stops short of "
            "the ends and does not show",
            (("from", span[0]), ("to", span[1])),
        )
        return
    yield Finding(
        INSIDE, "stop", (*who, *others),
        f"{words}the bottom's groove in the {board.name}, {said(piece, span[0])} to "
        f"{said(piece, span[1])} from the lower edge, lies inside no tail: it crosses {where} and "
        f"would show as a hole in both ends of the {board.name}",
        (("from", span[0]), ("to", span[1])),
        f"{cure}{_would_fit(piece, spacing, span, clear)}",
    )


def _where(spacing: Spacing, span: tuple[Fraction, Fraction]) -> str:
    """Which pins a groove runs into, or the end of the width."""
    crossed = []
    for index, one in enumerate(spacing.members):
        low, high = spacing.at_base(index)
        if one.kind != "tail" and low < span[1] and span[0] < high:
            crossed.append(one.name)
    return " and ".join(crossed) or "the edge of the joint"


def _would_fit(
    piece: Piece, spacing: Spacing, span: tuple[Fraction, Fraction], clear: Fraction
) -> str:
    """Another place for the groove, or another number of tails, that would hide it."""
    wide = span[1] - span[0]
    told = ""
    for index, one in enumerate(spacing.members):
        low, high = spacing.at_base(index)
        if one.kind == "tail" and high - low >= wide:
            step = piece.rule.step_mm
            first = -(-low // step) * step
            if first + wide <= high:
                told += f"; with its lower wall from {said(piece, first)} to " \
                        f"{at_most(piece, high - wide)} above the lower edge it would lie inside " \
                        f"{one.name}"
            break
    choice = spacing.choice
    if choice.pins_at:
        return told
    wishes = Wishes(groove=span, clear=clear)
    most = most_tails(choice, spacing.width, spacing.depth, wishes)
    for count in range(most, 0, -1):
        if count == 1 and choice.edges == "half tails":
            break
        tried = space(choice._replace(tails=count), spacing.width, spacing.depth, wishes)
        if tail_around(tried, span) is not None:
            return f"{told}; with {count} tail{'s' if count > 1 else ''} it would lie inside one"
    if choice.half_pin is None and spacing.members[0].kind == "half pin":
        told += "; a narrower pin lets the half pin give way to it"
    return told


def wood(piece: Piece, part: Part, groove: Groove) -> Iterator[Finding]:
    """Findings on the wood behind a groove and below it."""
    least = piece.choice.wall_least
    left = part.thickness - groove.deep
    if left <= 0 or groove.walls[1] >= part.width:
        yield Finding(
            WOOD, "stop", (part.id,),
            f"the bottom's groove, {said(piece, groove.deep)} deep and up to "
            f"{said(piece, groove.walls[1])} from the edge, comes out of the {part.name}, "
            f"{said(piece, part.thickness)} thick and {said(piece, part.width)} wide",
            (("deep", groove.deep), ("thickness", part.thickness)),
            f"make it less than {said(piece, part.thickness / 2)} deep"
            if left <= 0 else "lower the groove, or make it narrower",
        )
    elif groove.deep * 2 > part.thickness:
        yield Finding(
            WOOD, "caution", (part.id,),
            f"the bottom's groove takes {said(piece, groove.deep)} of the {part.name}'s "
            f"{said(piece, part.thickness)}: only {said(piece, left)} is left behind it",
            (("deep", groove.deep), ("left", left)),
            "make it at most half of the thickness, or use slips",
        )
    if 0 < groove.walls[0] < least:
        yield Finding(
            WOOD, "caution", (part.id,),
            f"only {said(piece, groove.walls[0])} of wood is left below the bottom's groove in the "
            f"{part.name}; least {said(piece, least)}",
            (("wood", groove.walls[0]), ("least", least)),
            "raise the groove",
        )


def _chest(piece: Piece, chest: Chest) -> Iterator[Finding]:
    bottom = chest.choice.bottom
    walls = {part.id: part for part in chest.walls}
    for part_id, groove in chest.grooves.items():
        yield from wood(piece, walls[part_id], groove)
    for board, deep, thickness in _rabbeted(chest):
        if deep >= thickness:
            yield Finding(
                BOTTOM, "stop", (board.id,),
                f"a rabbet {said(piece, deep)} deep leaves nothing of the {board.name}, "
                f"{said(piece, thickness)} thick",
                (("deep", deep), ("thickness", thickness)), "make it shallower",
            )
    if bottom is not None and chest.bottom is not None and bottom.kind in ("groove", "rabbet"):
        yield from _held(piece, chest.bottom, bottom.deep, bottom.room, chest.choice.name)
    yield from _tongues(piece, chest)
    if bottom is None or bottom.kind != "groove":
        return
    corner = chest.corners[0]
    span = (bottom.up, bottom.up + bottom.thickness)
    stopped = bottom.run == "stopped"
    pins = tuple(dict.fromkeys(one.pins for one in chest.corners))
    tails = tuple(dict.fromkeys(one.tails.id for one in chest.corners))
    yield from inside(piece, corner, span, pins, tails, bottom.clear, stopped, "",
                       'write run = "stopped" under the bottom')
    if corner.spacing.choice.lap is None and not stopped:
        yield Finding(
            INSIDE, "caution", tails,
            f"the dovetails are through, so the groove run through the {corner.tails.kind} shows "
            f"at all four corners as a hole {said(piece, bottom.thickness)} high and "
            f"{said(piece, bottom.deep)} wide",
            (("hole high", bottom.thickness), ("hole wide", bottom.deep)),
            'write run = "stopped" under the bottom, or plug the holes',
        )


def _tongues(piece: Piece, chest: Chest) -> Iterator[Finding]:
    """The tongue of a rabbeted bottom or lid must have something left to stand in the box."""
    choice = chest.choice
    inside = min(choice.length - 2 * choice.ends, choice.depth - 2 * choice.front)
    for part, seat in ((chest.bottom, choice.bottom), (chest.lid, choice.lid)):
        if part is None or seat is None or seat.kind != "rabbeted" or seat.room < inside:
            continue
        yield Finding(
            HELD, "stop", (part.id,),
            f"a room of {said(piece, seat.room)} leaves no tongue of the {part.name}: the box is "
            f"{said(piece, inside)} wide inside",
            (("room", seat.room), ("inside", inside)), "make the room less",
        )


def _rabbeted(chest: Chest) -> Iterator[tuple[Part, Fraction, Fraction]]:
    bottom, lid = chest.choice.bottom, chest.choice.lid
    if bottom is not None and bottom.kind == "rabbeted" and chest.bottom is not None:
        yield chest.bottom, bottom.deep, bottom.thickness
    if lid is not None and lid.kind == "rabbeted" and chest.lid is not None:
        yield chest.lid, lid.deep, lid.thickness
