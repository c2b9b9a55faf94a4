"""What moved when parts came off the machines thinner or wider than drawn, on paper."""

from __future__ import annotations

from fractions import Fraction

from layout.as_milled import Moved, alike, moved
from layout.checks.words import said
from layout.piece import Piece
from layout.scene.lettering import wrap_at_most
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.groups import told
from layout.sheets.lists import ROW, Area, Block, paged

HELD = {
    "overall": "held: the sizes over the legs; shoulder distances follow",
    "shoulders": "held: the shoulder distances; the sizes over the legs follow",
}


def milled_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """A row for every number that moved: what it was as drawn, what it is, and by how much."""
    if not piece.choice.milled.parts:
        return ()
    groups = alike(piece, moved(piece))
    blocks = [_header(piece, area[0]), *(_row(piece, group, area[0]) for group in groups)]
    return paged(piece, "As milled", "what the measured parts moved", blocks, area)


def _columns(width: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Where the figures stand: as drawn, as measured, and the difference."""
    return width * 64 / 100, width * 81 / 100, width


def _header(piece: Piece, width: Fraction) -> Block:
    milled = piece.choice.milled
    measured = [
        f"{one.part}: {what} {said(piece, size)}"
        for one in milled.parts
        for what, size in (("width", one.width), ("thickness", one.thickness))
        if size is not None
    ]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(5)
        for line in (HELD[milled.held], *measured):
            board.text((ZERO, y), line, NOTE)
            y -= mm("4.2")
        for word, x in zip(("as drawn", "is", "by"), _columns(width), strict=True):
            board.text((x, mm(2)), word, NOTE, "right")
        board.line((ZERO, ZERO), (width, ZERO), Pen.WIDE)

    return Block(mm(13) + mm("4.2") * len(measured), draw)


def _row(piece: Piece, group: tuple[Moved, ...], width: Fraction) -> Block:
    first = group[0]
    owners = told(piece, [piece.part(part) for part in dict.fromkeys(m.part for m in group)],
                  hands=False)
    name = wrap_at_most(first.name, 2, LABEL, width * 48 / 100)
    who = wrap_at_most(owners, 2, NOTE, width * 48 / 100)
    height = ROW + mm("5.5") * (len(name) - 1) + mm(4) * len(who) + mm(2)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - ROW
        board.tick_box((mm(1), y), LABEL)
        was, now, by = _columns(width)
        for size, x, bold in ((first.was, was, False), (first.now, now, True)):
            if size is None:
                board.text((x, y), "none", NOTE, "right")
            else:
                board.figure((x, y), size, LABEL, "right", bold=bold)
        if first.by is not None:
            left = by - board.figure((by, y), abs(first.by), LABEL, "right")
            board.text((left - mm(2), y), "+" if first.by > 0 else "−", LABEL, "right")
        for line in name:
            board.text((mm(8), y), line, LABEL)
            y -= mm("5.5")
        y += mm("1.3")
        for line in who:
            board.text((mm(8), y), line, NOTE)
            y -= mm(4)

    return Block(height, draw)
