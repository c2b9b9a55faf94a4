"""What the year does to the parts, and the diagonals to check at glue-up, on paper."""

from __future__ import annotations

from fractions import Fraction

from layout.checks.words import said
from layout.defaults import default_length
from layout.piece import Piece
from layout.scene.lettering import wrap, wrap_at_most
from layout.scene.strokes import Pen, Sheet
from layout.seasons import Moves, moving
from layout.sheets.easel import LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.groups import told
from layout.sheets.lists import ROW, Area, Block, paged
from layout.squareness import Square, squares
from layout.wood.movement import carried_length


def season_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """A row for every size across the grain: today, and how it changes to dry and to damp."""
    rows = moving(piece)
    if not rows:
        return ()
    blocks = [_season_head(piece), *(_season_row(piece, row, area[0]) for row in rows)]
    return paged(piece, "Through the year", "how the wood moves", blocks, area)


def _columns(width: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    return width * 58 / 100, width * 79 / 100, width


def _season_head(piece: Piece) -> Block:
    year = piece.choice.wood.year
    lines = [
        f"today {year.now.words}, in the dry season {year.dry.words}, in the damp one "
        f"{year.wet.words}",
        "along the grain wood keeps its length; boards differ from the mean of their wood by a "
        "tenth or more",
    ]

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(5)
        for line in lines:
            board.text((ZERO, y), line, NOTE)
            y -= mm("4.2")
        heads = ("size today", "dry season", "damp season")
        for word, x in zip(heads, _columns(width), strict=True):
            board.text((x, mm(2)), word, NOTE, "right")
        board.line((ZERO, ZERO), (width, ZERO), Pen.WIDE)

    return Block(mm(13) + mm("4.2") * len(lines), draw)


def _season_row(piece: Piece, row: Moves, width: Fraction) -> Block:
    owners = wrap_at_most(told(piece, row.parts, hands=False), 2, LABEL, width * 42 / 100)
    wood = wrap_at_most(f"{row.way}, {row.sawn}-sawn: {row.wood}", 2, NOTE, width * 42 / 100)
    height = ROW + mm("5.5") * (len(owners) - 1) + mm(4) * len(wood) + mm(3)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - ROW
        now, dry, wet = _columns(width)
        board.figure((now, y), row.size, LABEL, "right", bold=True)
        for change, x in ((row.dry, dry), (row.wet, wet)):
            sign = "+" if change.share > 0 else "−" if change.share < 0 else ""
            by = carried_length(abs(row.size * change.share), change.digits, piece.rule.unit)
            board.text((x, y), f"{sign}{by}", LABEL, "right")
            board.text((x, y - mm("4.2")), said(piece, row.size * (1 + change.share)), NOTE,
                       "right")
        for line in owners:
            board.text((ZERO, y), line, LABEL)
            y -= mm("5.5")
        y += mm("1.3")
        for line in wood:
            board.text((ZERO, y), line, NOTE)
            y -= mm(4)
        board.line((ZERO, ZERO), (width, ZERO), Pen.THIN)

    return Block(height, draw)


def square_sheets(piece: Piece, area: Area) -> tuple[Sheet, ...]:
    """The diagonals of everything rectangular."""
    found = squares(piece)
    if not found:
        return ()
    blocks = [_square_head(piece, area[0]), *(_square_row(piece, one, area[0]) for one in found)]
    return paged(piece, "Square at glue-up", "both diagonals, corner to corner", blocks, area)


def _square_head(piece: Piece, width: Fraction) -> Block:
    off = default_length("square_difference", piece.choice.unit)
    lines = wrap(
        "Measure both diagonals while the glue is wet: they must be alike. If one is longer, draw "
        "its corners together with a clamp laid slightly askew, and measure again. The last column "
        f"says how far the head stands to one side where they differ by {said(piece, off)}.",
        NOTE, width, False,
    )

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - mm(5)
        for line in lines:
            board.text((ZERO, y), line, NOTE)
            y -= mm("4.2")
        for word, x in zip(("sizes", "diagonal", "leans by"), _columns(width), strict=True):
            board.text((x, mm(2)), word, NOTE, "right")
        board.line((ZERO, ZERO), (width, ZERO), Pen.WIDE)

    return Block(mm(13) + mm("4.2") * len(lines), draw)


def _square_row(piece: Piece, one: Square, width: Fraction) -> Block:
    name = wrap_at_most(one.name, 2, LABEL, width * 34 / 100 - mm(8))
    where = wrap_at_most(one.where, 2, NOTE, width * 34 / 100 - mm(8))
    height = ROW + mm("5.5") * (len(name) - 1) + mm(4) * len(where) + mm(3)
    off = default_length("square_difference", piece.choice.unit)

    def draw(board: Easel, width: Fraction, height: Fraction) -> None:
        y = height - ROW
        board.tick_box((mm(1), y), LABEL)
        sizes, diagonal, lean = _columns(width)
        board.text((sizes, y), f"{said(piece, one.width)} x {said(piece, one.height)}", NOTE,
                   "right")
        board.figure((diagonal, y), one.diagonal, LABEL, "right", bold=True)
        board.figure((lean, y), one.lean(off), LABEL, "right")
        for line in name:
            board.text((mm(8), y), line, LABEL)
            y -= mm("5.5")
        y += mm("1.3")
        for line in where:
            board.text((mm(8), y), line, NOTE)
            y -= mm(4)
        board.line((ZERO, ZERO), (width, ZERO), Pen.THIN)

    return Block(height, draw)
