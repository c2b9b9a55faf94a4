"""Full-length strips for dog holes: to prick their middles through, or to knife square ones from;
and the section of a leaning one.
"""

from __future__ import annotations

from fractions import Fraction

from layout.checks.words import listed, said
from layout.joints.dogs import Dogs, line_name
from layout.mark import Mark
from layout.piece import Piece
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import mark_ids

MARGIN = mm(16)  # paper left beyond the vise's end and beyond the last hole
ABOVE = mm(20)  # over the holes, for their numbers
BELOW = mm(22)  # under them, for their figures
BEYOND = mm(26)  # how much of the board is shown on both sides of a section


def dog_sheets(piece: Piece) -> tuple[Sheet, ...]:
    """A strip for every row of holes, and the section of a hole that leans."""
    ids = mark_ids(piece)
    found = []
    for dogs in piece.dogs:
        found.append(_strip(piece, dogs, ids))
        if dogs.lean:
            found.append(_section(piece, dogs))
    return tuple(found)


def _strip(piece: Piece, dogs: Dogs, ids: dict[Mark, str]) -> Sheet:
    board = Easel(piece.rule)
    whole = dogs.choice.shape == "round"
    size, start = dogs.choice.size, MARGIN
    height = BELOW + size + ABOVE
    # a notch opens at the strip's front edge: at the foot of the drawing, or at its head where the
    # vise is at the right, for the face is then seen the other way round
    turned = _turned(dogs)
    edge = height - mm(2) if turned else ZERO  # clear of the heading over the strip
    low = BELOW if whole else edge - size if turned else ZERO
    middle, high = low + size / 2, low + size
    stop = start + dogs.places[-1] + size / 2 + dogs.lean + mm(6)
    if whole:
        board.line((start, middle), (stop, middle), Pen.CENTRE)
    else:
        board.line((start, edge), (stop, edge), Pen.HEAVY)
    board.line((start, ZERO), (start, height), Pen.WIDE)
    ends = "end A: tongue" if dogs.choice.beyond else "end A, at the vise"
    board.text((start - mm(4), mm(3)), ends, LABEL, bold=True, turn=90)
    if whole:
        name_at, figure_at = high + mm(10), mm(2)
    elif turned:
        name_at, figure_at = low - BELOW - mm(10), low - BELOW + mm(2)
    else:
        name_at, figure_at = high + BELOW + mm(10), high + mm(4)
    for number, place in enumerate(dogs.places, start=1):
        x = start + place
        if whole:
            _round(board, (x, middle), size / 2, _name(dogs, ids, line_name(dogs, number)))
        else:
            _notch(board, dogs, ids, number, (start, low))
        board.text((x, name_at), str(number), NAME, "middle", bold=True)
        board.figure((x + LABEL / 2, figure_at), place, LABEL, bold=True, turn=90)
    what = ("centre line on the row, end at end A; prick every cross"
            if whole else "heavy edge flush with the front edge of the strip, its end at end A")
    if dogs.choice.beyond:
        what = f"before the end caps are on: {what}, which is the tongue's end"
    keep = tuple((start + place - size / 2 - mm(6), start + place + size / 2 + mm(6))
                 for place in dogs.places)
    return Sheet(
        f"{'Drilling' if whole else 'Cutting'} strip: {dogs.part.name}, {dogs.choice.called}s",
        f"{len(dogs.places)} {dogs.choice.called}s{_rows(piece, dogs)}; {what}",
        board.scene(stop + mm(4), height),
        "strip",
        keep_whole=keep,
    )


def _turned(dogs: Dogs) -> bool:
    """True where a board's front edge lies at the head of a drawing of its face that has end A at
    the left.
    """
    return not dogs.part.placement.mirrored


def _rows(piece: Piece, dogs: Dogs) -> str:
    """How far the rows lie from the front edge of their board, in words."""
    lines = [said(piece, line) for line in dogs.choice.lines]
    return f" at {listed(lines)} from the front edge" if lines else ""


def _name(dogs: Dogs, ids: dict[Mark, str], role: str) -> str:
    """The name that a line on the top goes by."""
    return next(name for mark, name in ids.items()
                if mark.joint == dogs.joint and mark.face == "face" and mark.role == role)


def _round(board: Easel, at: tuple[Fraction, Fraction], radius: Fraction, name: str) -> None:
    """A hole's rim, the line across the row that its middle lies on, a spot to prick."""
    x, y = at
    arm = radius + mm(4)
    board.circle(at, radius, Pen.WIDE)
    board.line((x, y - arm), (x, y + arm), Pen.NARROW, name)
    board.line((x - mm(4), y), (x + mm(4), y), Pen.NARROW)
    board.circle(at, mm("0.4"), Pen.NARROW, "black")


def _notch(
    board: Easel, dogs: Dogs, ids: dict[Mark, str], number: int, corner: Spot
) -> None:
    """A notch in the top: its sides to knife, its waste hatched, its foot as a hidden outline.
    `corner` is where end A and the lower one of the notch's two long sides meet on the sheet.
    """
    (start, low), size, place = corner, dogs.choice.size, dogs.places[number - 1]
    near, far = start + place - size / 2, start + place + size / 2
    board.hatch((near, low), (far, low + size))
    inner = low if _turned(dogs) else low + size
    board.line((near, inner), (far, inner), Pen.NARROW)
    for x, word in ((near, "near side"), (far, "far side")):
        name = _name(dogs, ids, f"{line_name(dogs, number)} {word}")
        board.line((x, low), (x, low + size), Pen.WIDE, name)
        if dogs.lean:
            board.line((x + dogs.lean, low), (x + dogs.lean, low + size), Pen.HIDDEN)


def _section(piece: Piece, dogs: Dogs) -> Sheet:
    """One hole seen from the front edge, to hold against the strip's edge or to make a jig by."""
    assert dogs.choice.lean is not None
    board = Easel(piece.rule)
    size, deep, slope = dogs.choice.size, dogs.part.thickness, dogs.choice.lean
    foot, left = mm(34), mm(10)
    head = foot + deep
    near = left + BEYOND
    right = near + size + dogs.lean + BEYOND
    corners = [(near, head), (near + size, head), (near + size + dogs.lean, foot),
               (near + dogs.lean, foot)]
    board.hatch_polygon(corners)
    board.polygon(corners, Pen.WIDE)
    for y in (foot, head):
        board.line((left, y), (near + (dogs.lean if y == foot else ZERO), y), Pen.WIDE)
        board.line((near + size + (dogs.lean if y == foot else ZERO), y), (right, y), Pen.WIDE)
    for x in (left, right):
        board.line((x, foot), (x, head), Pen.HIDDEN)
    board.line((near, head), (near, foot - mm(8)), Pen.THIN)
    board.line((near + dogs.lean, foot), (near + dogs.lean, foot - mm(8)), Pen.THIN)
    board.figure((near + dogs.lean + mm(3), foot - mm(8)), dogs.lean, LABEL, bold=True)
    board.dimension((near, head + mm(6)), (near + size, head + mm(6)), size)
    board.text((left, head + mm(3)), "vise", LABEL, bold=True)
    words = [
        f"the head leans toward the vise: {slope.ratio_text}, {slope.degrees_text} degrees; the "
        "foot",
        f"lies {said(piece, dogs.lean)} farther from it over {said(piece, deep)} of thickness",
        CAUTION,
    ]
    for row, line in enumerate(reversed(words)):
        board.text((mm(2), mm(2) + mm(4) * row), line, NOTE)
    return Sheet(
        f"Dog hole: section of the {dogs.part.name}",
        f"seen from the {'back' if _turned(dogs) else 'front'} edge, the vise at the left; hatched "
        "is waste",
        board.scene(max(right + mm(6), mm(110)), head + mm(16)),
        "full size",
    )
