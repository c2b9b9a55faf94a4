"""Wedges and keys at full size: their outline seen from the side, to paste on and cut round."""

from __future__ import annotations

from fractions import Fraction

from layout.joints.worked import Loose
from layout.part import Part
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, Easel, mm
from layout.sheets.groups import base_name

LEFT, FOOT = mm(24), mm(40)


def small_parts(piece: Piece) -> tuple[Sheet, ...]:
    """A template for every distinct wedge and every distinct key."""
    wedges: dict[object, list[Loose]] = {}
    for item in piece.loose:
        if item.thin is not None:
            key = (item.thickness, item.width, item.length, item.thin)
            wedges.setdefault(key, []).append(item)
    keys: dict[object, list[Part]] = {}
    for part in piece.parts:
        if part.kind == "key":
            keys.setdefault((part.length, part.width, part.thickness), []).append(part)
    return (
        *(_wedge(piece, same) for same in wedges.values()),
        *(_key(piece, same) for same in keys.values()),
    )


def _wedge(piece: Piece, same: list[Loose]) -> Sheet:
    one = same[0]
    assert one.thin is not None  # only tapered things come here
    rails = base_name(piece, dict.fromkeys(piece.part(item.rail) for item in same))
    count = sum(item.many for item in same)
    return _tapered(
        piece,
        f"Wedge: {rails}",
        f"{count} of them; the grain runs along the length",
        (one.length, one.width, one.thin, one.thickness),
    )


def _key(piece: Piece, same: list[Part]) -> Sheet:
    one = same[0]
    taper = next(cut for cut in piece.cuts_of(one.id) if cut.role == "key taper")
    thin = taper.shape.reach("W")[0]
    names = ", ".join(part.name for part in same)
    return _tapered(
        piece, f"Key: {len(same)} of them", f"{names}. Its plain edge bears on the leg",
        (one.length, one.width, thin, one.thickness),
    )


def _tapered(
    piece: Piece,
    name: str,
    subject: str,
    sizes: tuple[Fraction, Fraction, Fraction, Fraction],
) -> Sheet:
    """The side of a tapered piece: its length, both of its ends, and how thick it is."""
    length, thick, thin, through = sizes
    board = Easel(piece.rule)
    foot = FOOT
    outline: list[Spot] = [
        (LEFT, foot), (LEFT + length, foot), (LEFT + length, foot + thin), (LEFT, foot + thick)
    ]
    board.polygon(outline, Pen.WIDE)
    board.line((LEFT, foot), (LEFT + length, foot), Pen.HEAVY)
    board.dimension((LEFT, foot - mm(15)), (LEFT + length, foot - mm(15)), length, NAME)
    for x in (LEFT, LEFT + length):
        board.line((x, foot), (x, foot - mm(17)), Pen.THIN)
    board.figure((LEFT - mm(2), foot + thick / 2 - NAME / 2), thick, NAME, "right", bold=True)
    right = LEFT + length + mm(2)
    if thin > 0:
        board.figure((right, foot + thin / 2 - NAME / 2), thin, NAME, bold=True)
    else:
        board.text((right, foot + mm("0.5")), "to nothing", LABEL)
    width = max(length + LEFT * 2, mm(100))
    board.text((mm(2), mm(13)), "thickness", LABEL)
    board.figure((mm(4) + text_width("thickness", LABEL), mm(13)), through, NAME, bold=True)
    for index, line in enumerate(reversed(wrap(CAUTION, NOTE, width - mm(4), False))):
        board.text((mm(2), mm(2) + mm(4) * index), line, NOTE)
    return Sheet(name, subject, board.scene(width, foot + thick + mm(8)), "full size")

