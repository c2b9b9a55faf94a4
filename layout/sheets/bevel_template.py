"""The bevel's setting at full size: a slope against a square edge, one for each slope."""

from __future__ import annotations

from fractions import Fraction

from layout.measure.slope import Slope
from layout.piece import Piece
from layout.scene.strokes import Pen, Sheet
from layout.sheets.easel import HEADING, LABEL, NAME, NOTE, Easel, mm

LONG = mm(80)  # how far along the slope is drawn


def bevels(piece: Piece) -> tuple[Sheet, ...]:
    """A drawing for every slope of dovetails and slides."""
    return tuple(_sheet(piece, slope, kinds) for slope, kinds in slopes(piece))


def slopes(piece: Piece) -> list[tuple[Slope, list[str]]]:
    """Every slope of a piece, with the kinds of board that have tails of it."""
    found: dict[Fraction, tuple[Slope, list[str]]] = {}
    told = [(corner.spacing.choice.slope, corner.tails.kind) for corner in piece.corners]
    told += [
        (slide.choice.slope, slide.slider.kind)
        for slide in piece.slides
        if slide.choice.slope is not None
    ]
    for slope, kind in told:
        kinds = found.setdefault(slope.run, (slope, []))[1]
        if kind not in kinds:
            kinds.append(kind)
    return list(found.values())


def _sheet(piece: Piece, slope: Slope, kinds: list[str]) -> Sheet:
    board = Easel(piece.rule)
    over = slope.offset(LONG)
    foot, middle = mm(16), mm(70)
    board.line((mm(10), foot), (mm(130), foot), Pen.HEAVY)
    for way in (-1, 1):
        x = middle + way * mm(28)
        board.line((x, foot), (x, foot + LONG), Pen.CENTRE)
        board.line((x, foot), (x + way * over, foot + LONG), Pen.WIDE)
        board.line((x, foot + LONG + mm(2)), (x + way * over, foot + LONG + mm(2)), Pen.THIN)
        board.text((x + way * over / 2, foot + LONG + mm(4)), "1", LABEL, "middle")
        board.text((x - way * mm(2), foot + LONG / 2), slope.ratio_text.removeprefix("1 in "),
                   LABEL, "right" if way > 0 else "left")
    y = foot + LONG + mm(14)
    board.text((mm(10), y), slope.ratio_text, HEADING, bold=True)
    board.text((mm(130), y), f"{slope.degrees_text} degrees", NAME, "right", bold=True)
    board.text((mm(10), mm(9)), "the board's end, or the stock of a square: heavy line", NOTE)
    board.text((mm(10), mm(4)), f"for the {', the '.join(kinds)}", NOTE, room=mm(125))
    return Sheet(
        f"Bevel: {slope.ratio_text}",
        "set the bevel to a wide line against the heavy one; degrees are from the square line",
        board.scene(mm(140), y + mm(12)),
        "full size",
    )
