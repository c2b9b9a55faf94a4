"""One dovetailed corner by itself: a board with tails and a board with pins.

The boards stand as the left side and the front of a drawer do: face sides inside, face edges
below, the pin board's end A and the tail board's end A at the corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.builds.site import Site
from layout.errors import BadPiece
from layout.joints import board_edge, dovetail
from layout.joints.board_edge import Groove, Rabbet
from layout.joints.dovetail import Corner, EdgeRabbet
from layout.joints.spacing import DovetailChoice, Wishes, space, tail_length
from layout.joints.worked import Span, Worked, together
from layout.kit import Kit
from layout.mark import Cut, Sum, Witness, add, face_of, high_of
from layout.part import Part

ZERO = Fraction(0)
# As the corners of a chest are named, and what holds its bottom; templates tell the box by it.
BOX = "box"
HELD = f"{BOX}.bottom"


class CornerChoice(NamedTuple):
    """What a maker can choose of one corner, in mm. `width` is that of both boards, `tail_board`
    and `pin_board` their thicknesses, `length` that of both.

    `groove` are a bottom's groove walls from the face edge, `groove_deep` its usual depth, at
    most half of each board, and `clear` the wood between it and a tail's side. `rabbet` runs
    along both face edges.
    """

    width: Fraction
    tail_board: Fraction
    pin_board: Fraction
    length: Fraction
    joint: DovetailChoice
    groove: Span | None = None
    groove_deep: Fraction = ZERO
    clear: Fraction = ZERO
    rabbet: Rabbet | None = None


class CornerPair(NamedTuple):
    """The two boards where they stand, their corner, and their grooves by part id."""

    choice: CornerChoice
    tails: Part
    pins: Part
    corner: Corner
    grooves: dict[str, Groove]


def stand(choice: CornerChoice) -> CornerPair:
    """The corner where it stands. BadPiece where its tails don't fit."""
    deep = tail_length(choice.joint, choice.pin_board)
    if deep <= 0:
        raise BadPiece("the lap takes the whole thickness of the pin board",
                       "make the lap less, or the board thicker", choice.joint.where)
    site = Site((ZERO, ZERO, ZERO))
    pins = _board("pin board", choice, choice.pin_board,
                  site, (ZERO, choice.pin_board, ZERO), ("right", "up", "outward"))
    tails = _board("tail board", choice, choice.tail_board,
                   site, (choice.tail_board, choice.pin_board - deep, ZERO),
                   ("inward", "up", "left"))
    rabbet = choice.rabbet
    spacing = space(
        choice.joint, choice.width, deep,
        Wishes(choice.groove, choice.clear, rabbet.wide if rabbet is not None else ZERO),
    )
    edge = None
    if rabbet is not None:
        edge = EdgeRabbet("near", rabbet.wide, rabbet.deep, HELD)
    corner = Corner(f"{BOX}.A", "A", tails, "A", pins, "A", spacing, rabbet=edge)
    return CornerPair(choice, tails, pins, corner, _grooves(choice, corner))


def _board(
    name: str,
    choice: CornerChoice,
    thick: Fraction,
    site: Site,
    spot: tuple[Fraction, Fraction, Fraction],
    ways: tuple[str, str, str],
) -> Part:
    return Part(name.replace(" ", "-"), name, name, choice.length, choice.width, thick,
                site.placed(spot, *ways))


def _grooves(choice: CornerChoice, corner: Corner) -> dict[str, Groove]:
    """The groove in both boards. In the pin board it runs out into a socket; in the tail board
    it stops where the bottom's edge comes to, unless a lap covers the tails' ends.
    """
    if choice.groove is None:
        return {}
    in_pins, in_tails = (
        min(choice.groove_deep, part.thickness / 2) for part in (corner.pins, corner.tails)
    )
    start = corner.depth - in_pins if corner.through else ZERO
    return {
        corner.tails.id: Groove(choice.groove, in_tails, (start, corner.tails.length)),
        corner.pins.id: Groove(choice.groove, in_pins, (ZERO, corner.pins.length)),
    }


def work(pair: CornerPair, kit: Kit) -> Worked:
    """Tails and pins, groove and rabbet, and their sums."""
    boards = {part.id: part for part in (pair.tails, pair.pins)}
    done = [dovetail.work(pair.corner)]
    grooves: dict[str, Cut] = {}
    for part_id, size in pair.grooves.items():
        one = board_edge.groove(boards[part_id], HELD, size, kit)
        done.append(one)
        grooves |= {cut.part: cut for cut in one.cuts}
    if pair.choice.rabbet is not None:
        done += [
            board_edge.rabbets(part, HELD, "face", {"edge": pair.choice.rabbet})
            for part in boards.values()
        ]
    return together([*done, Worked(sums=tuple(_groove_sums(pair, grooves)))])


def _groove_sums(pair: CornerPair, grooves: dict[str, Cut]) -> Iterator[Sum]:
    """Where the grooves lie and start; each board's is measured on the other's."""
    if pair.choice.groove is None or len(grooves) < 2:
        return
    near, far = pair.choice.groove
    for part, other in ((pair.tails, pair.pins), (pair.pins, pair.tails)):
        yield add("far groove wall from the face edge", part.id,
                  Witness(face_of(part.id, "edge"), high_of(grooves[other.id], "W")),
                  (+1, "groove above the face edge", near),
                  (+1, "width of the groove", far - near))
    if pair.corner.through:
        yield add("start of the groove from end A", pair.tails.id,
                  Witness(face_of(pair.tails.id, "end A"), high_of(grooves[pair.pins.id], "T")),
                  (+1, "tail length", pair.corner.depth),
                  (-1, "depth of the groove in the pin board", pair.grooves[pair.pins.id].deep))
