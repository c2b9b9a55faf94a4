"""Sections at full size of parts that carry a panel's seat, to hold against their ends."""

from __future__ import annotations

from fractions import Fraction

from layout.mark import Cut
from layout.measure import show
from layout.part import Part
from layout.piece import Piece
from layout.scene.lettering import wrap
from layout.scene.strokes import Sheet
from layout.sheets import section as sections
from layout.sheets.beside import Place, figures_below, figures_beside
from layout.sheets.easel import CAUTION, NOTE, ZERO, Easel, mm
from layout.sheets.groups import base_name


def seats(piece: Piece) -> tuple[Sheet, ...]:
    """A section for every distinct set of seats that lie side by side in a part."""
    groups: dict[object, list[tuple[Part, Fraction, tuple[Cut, ...]]]] = {}
    for part in piece.parts:
        seen = set()
        for cut in (one for one in piece.cuts_of(part.id) if one.role in ("rabbet", "groove")):
            low, high = cut.shape.reach("L")
            along = (max(low, ZERO) + min(high, part.length)) / 2
            here = tuple(
                one
                for one in sections.waste_at(piece, part, along)
                if one.role in ("rabbet", "groove")
            )
            looks = frozenset((c.role, c.shape.reach("W"), c.shape.reach("T")) for c in here)
            if not here or looks in seen:
                continue
            seen.add(looks)
            key = (part.kind, part.width, part.thickness, looks)
            groups.setdefault(key, []).append((part, along, here))
    return tuple(_sheet(piece, group) for group in groups.values())


def _sheet(piece: Piece, group: list[tuple[Part, Fraction, tuple[Cut, ...]]]) -> Sheet:
    part, along, cuts = group[0]
    board = Easel(piece.rule)
    from_side = sorted(
        {value for cut in cuts for value in cut.shape.reach("T") if 0 < value < part.thickness}
    )
    from_edge = sorted(
        {value for cut in cuts for value in cut.shape.reach("W") if 0 < value < part.width}
    )
    sizes = [_size(piece, cut) for cut in cuts]
    left, foot = mm(26), mm(28) + mm(4) * len(sizes)
    head = foot + part.thickness
    drawn = sections.draw(board, piece, part, along, (left, head), Fraction(1), cuts)
    beside = [Place(value, drawn.right, head - value) for value in from_side]
    figures_beside(board, beside, drawn.right)
    figures_below(board, [Place(value, left + value, foot) for value in from_edge])
    board.text((left, head + mm(6)), "face side", NOTE)
    board.text((left - mm(6), foot + mm(1)), "face edge", NOTE, turn=90)
    width = max(drawn.right + mm(34), mm(90))
    y = mm(2)
    for line in [*reversed(wrap(CAUTION, NOTE, width - mm(4), False)), *reversed(sizes)]:
        board.text((mm(2), y), line, NOTE)
        y += mm(4)
    parts = list(dict.fromkeys(one for one, _, _ in group))
    names = ", ".join(one.name for one in parts)
    roles = " and ".join(dict.fromkeys(cut.role for cut in cuts))
    # drawn as end A of a right-hand part is seen; a left-hand part shows it at its other end
    base = base_name(piece, parts)
    where = f"end A of a right hand {base} or end B of a left hand one" if part.hand else "end A"
    return Sheet(
        f"Section: {roles} in the {base}",
        f"{names}. Hold against {where}, face side up, face edge to the left",
        board.scene(width, head + mm(12)),
        "full size",
    )


def _size(piece: Piece, cut: Cut) -> str:
    """How much a seat takes out of the part, in words."""
    (w0, w1), (t0, t1) = cut.shape.reach("W"), cut.shape.reach("T")
    width, thickness = (show(size, piece.rule).text for size in (w1 - w0, t1 - t0))
    return f"{cut.role}: {width} of the width, {thickness} of the thickness"
