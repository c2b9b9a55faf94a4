"""What holds a top, at full size: a button in its mortise in section, and the slots for screws as
they are bored from a rail's lower edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from layout.builds.top import Top
from layout.builds.top_fixing import Fixings
from layout.checks.words import listed, said
from layout.joints import fixing
from layout.joints.fixing import Fixed
from layout.joints.slot import Slot
from layout.piece import Piece
from layout.scene.lettering import wrap
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import CAUTION, LABEL, NOTE, ZERO, Easel, mm

LEFT = mm(22)
SHOWN = mm(14)  # of a top over its rail, and of a rail under a mortise
LEAST_WIDE = mm(150)


def fixings(piece: Piece) -> tuple[Sheet, ...]:
    """A section or a slot for every distinct fixing of every top."""
    found = []
    for laid in piece.tops:
        if laid.fixings is None:
            continue
        alike: dict[object, list[Fixed]] = {}
        for one, _ in laid.fixings.found:
            looks = (one.rail.thickness, one.rail.width, one.along, one.out, one.back,
                     one.outward if not one.along else 0)
            alike.setdefault(looks, []).append(one)
        draw = _button if laid.fixings.choice.kind == "buttons" else _slot
        found += [draw(piece, laid.top, laid.fixings, same) for same in alike.values()]
    return tuple(found)


def _named(same: Sequence[Fixed]) -> str:
    """The rails, and how many fixings each has."""
    rails: dict[str, int] = {}
    for one in same:
        rails[one.rail.name] = rails.get(one.rail.name, 0) + 1
    return listed([f"{many} on the {name}" for name, many in rails.items()])


def _finished(board: Easel, words: Sequence[str], width: Fraction) -> None:
    """Lines of words from the foot of the sheet up, the caution last."""
    lines = [line for one in words for line in wrap(one, LABEL, width - mm(4))]
    for row, line in enumerate(reversed(lines)):
        board.text((mm(2), mm(8) + mm(5) * row), line, LABEL)
    board.text((mm(2), mm(2)), CAUTION, NOTE)


def _button(piece: Piece, top: Top, held: Fixings, same: Sequence[Fixed]) -> Sheet:
    """A rail in section with the button in it, seen along the rail; the rail's face at the left."""
    one, choice = same[0], held.choice.button
    board = Easel(piece.rule)
    seat = fixing.seat_of(one, choice, held.tongue)
    upper, lower = fixing.mortise_walls(choice)
    span = fixing.mortise_span(one, choice)
    words = [
        f"mortise: walls {said(piece, upper)} and {said(piece, lower)} below the rail's upper "
        f"edge, {said(piece, seat.deep)} deep, {said(piece, span[1] - span[0])} long",
        f"button: {said(piece, choice.length)} long, {said(piece, choice.width)} wide, "
        f"{said(piece, choice.block)} thick; tongue {said(piece, seat.tongue)} long, "
        f"{said(piece, choice.tongue)} thick",
        f"set the button today with {said(piece, seat.gap)} between its shoulder and the rail",
    ]
    width = max(LEAST_WIDE, LEFT + one.rail.thickness + choice.length + mm(40))
    foot = mm(14) + mm(5) * sum(len(wrap(word, LABEL, width - mm(4))) for word in words)
    under = foot + lower + SHOWN
    back = LEFT + one.rail.thickness
    _rail_and_top(board, top, (LEFT, back), (foot, under), width)
    floor = back - seat.deep
    board.hatch((floor, under - lower), (back, under - upper))
    board.rectangle((floor, under - lower), (back, under - upper), Pen.NARROW)
    tip = back + seat.gap - seat.tongue
    board.polygon(
        ((tip, under - upper), (tip + seat.tongue, under - upper),
         (tip + seat.tongue, under - choice.draw), (tip + choice.length, under - choice.draw),
         (tip + choice.length, under - choice.draw - choice.block),
         (tip, under - choice.draw - choice.block)), Pen.WIDE, "white")
    middle = tip + seat.tongue + (choice.length - seat.tongue) / 2
    board.line((middle, under - choice.draw - choice.block - mm(3)), (middle, under + mm(6)),
               Pen.CENTRE)
    board.dimension((back, under - lower - mm(8)), (floor, under - lower - mm(8)), seat.deep)
    for level in (upper, lower):
        board.line((LEFT - mm(2), under - level), (floor, under - level), Pen.THIN)
        board.figure((LEFT - mm(3), under - level - LABEL / 2), level, LABEL, "right", bold=True)
    _finished(board, words, width)
    return Sheet(f"Button in its rail: {top.choice.name}",
                 f"{_named(same)}; section along the button, the rail's face at the left",
                 board.scene(width, under + SHOWN + mm(10)), "full size")


def _rail_and_top(
    board: Easel, top: Top, across: tuple[Fraction, Fraction], up: tuple[Fraction, Fraction],
    width: Fraction,
) -> None:
    """The rail up to the top's underside, broken off below, and the top over it."""
    foot, under = up
    for x in across:
        board.line((x, foot), (x, under), Pen.WIDE)
    board.line((across[0], foot), (across[1], foot), Pen.HIDDEN)
    board.line((mm(6), under), (width - mm(6), under), Pen.WIDE)
    over = under + min(SHOWN, top.choice.thickness)
    pen = Pen.WIDE if top.choice.thickness <= SHOWN else Pen.HIDDEN
    board.line((mm(6), over), (width - mm(6), over), pen)
    board.text((across[1] + mm(4), under + mm(3)), "top", NOTE)
    board.text(((across[0] + across[1]) / 2, foot + mm(2)), "rail", NOTE, "middle")


def _slot(piece: Piece, top: Top, held: Fixings, same: Sequence[Fixed]) -> Sheet:
    """The slot as it is bored, seen on the rail's lower edge: face at the foot of the sheet."""
    one, choice = same[0], held.choice.screw
    board = Easel(piece.rule)
    shank = fixing.screw_slot(one, choice, choice.hole)
    head = fixing.screw_slot(one, choice, choice.head)
    way = "along the rail" if one.along else "across the rail"
    holes = ("one hole" if shank.length == shank.size else
             f"slot {said(piece, shank.length)} long {way}, {said(piece, shank.size)} wide: bore "
             "both ends, then cut out between")
    under = min(choice.under, one.rail.width)
    words = [holes, f"counterbore {said(piece, choice.head)} wide from below, up to "
             f"{said(piece, under)} under the rail's upper edge",
             "the cross is where the screw goes today"]
    if one.rail.width <= under:
        words[1] = "no counterbore: the rail is no deeper than the wood under the head"
    width = max(LEAST_WIDE, head.length + mm(60))
    foot = mm(20) + mm(5) * sum(len(wrap(word, LABEL, width - mm(4))) for word in words)
    deep = one.rail.thickness
    at = (width / 2, foot + choice.through(one.rail))
    for y, word in ((foot, "face side"), (foot + deep, "back")):
        board.line((mm(24), y), (width - mm(6), y), Pen.WIDE)
        board.text((mm(4), y - NOTE / 2), word, NOTE)
    for slot, pen in ((head, Pen.NARROW), (shank, Pen.WIDE)):
        if slot is shank or one.rail.width > under:
            _outline(board, at, slot, one, pen)
    arm = mm(4)
    board.line((at[0] - arm, at[1]), (at[0] + arm, at[1]), Pen.THIN)
    board.line((at[0], at[1] - arm), (at[0], at[1] + arm), Pen.THIN)
    board.dimension((width - mm(14), foot), (width - mm(14), at[1]), choice.through(one.rail))
    _finished(board, words, width)
    return Sheet(f"Screw slot: {top.choice.name}",
                 f"{_named(same)}; the rail's lower edge, its end B at the left",
                 board.scene(width, foot + deep + mm(12)), "full size")


def _outline(board: Easel, at: Spot, slot: Slot, one: Fixed, pen: Pen) -> None:
    """A slot round a screw: two circles and the lines that touch both."""
    radius = slot.size / 2
    before, after = slot.reach(one.outward)
    low, high = radius - before, after - radius
    if low == high:
        board.circle(at, radius, pen)
        return
    # seen from below, with the face toward the reader, the rail runs from right to left
    ends = [(at[0] - by, at[1]) if one.along else (at[0], at[1] + by) for by in (low, high)]
    for end in ends:
        board.circle(end, radius, pen)
    (ax, ay), (bx, by_) = ends
    across = (ZERO, radius) if one.along else (radius, ZERO)
    for sign in (-1, 1):
        board.line((ax + sign * across[0], ay + sign * across[1]),
                   (bx + sign * across[0], by_ + sign * across[1]), pen)
