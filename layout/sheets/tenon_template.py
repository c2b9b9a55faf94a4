"""Tenon templates: face, end and back of a rail's end in one piece, folded over its arrises."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from layout.builds.tenoned import TenonedRail
from layout.part import Part
from layout.piece import Piece
from layout.scene.strokes import Align, Pen, Sheet, Spot
from layout.sheets.beside import Place, figures_below
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import base_name, mark_ids

Put = Callable[[Fraction, Fraction], Spot]  # a place on one of the three surfaces, on paper
PAST = mm(25)  # how much of the rail is shown past its shoulder


def tenons(piece: Piece) -> tuple[Sheet, ...]:
    """A template for each end of every distinct tenon: face, end and back, folded over."""
    groups: dict[object, list[TenonedRail]] = {}
    for one in piece.rails:
        part = one.rail.part
        seats = frozenset(
            (cut.role, cut.shape.reach("W"), cut.shape.reach("T"))
            for cut in piece.cuts_of(part.id)
            if cut.role in ("rabbet", "groove")
        )
        groups.setdefault((part.width, part.thickness, one.size, seats), []).append(one)
    sheets = []
    for alike in groups.values():
        parts = [one.rail.part for one in alike]
        names = ", ".join(part.name for part in parts)
        sheets += [
            _tenon_sheet(piece, alike[0], end, base_name(piece, parts), names) for end in ("A", "B")
        ]
    return tuple(sheets)


def _tenon_sheet(piece: Piece, one: TenonedRail, end: str, base: str, names: str) -> Sheet:
    rail, size = one.rail.part, one.size
    ids = mark_ids(piece)
    board = Easel(piece.rule)
    reach = min(size.length + PAST, rail.length / 2)
    foot = mm(36)
    head = foot + rail.width
    # end A: back, end, face from left to right; end B the mirror of it
    fold_face = mm(22) + (reach + rail.thickness if end == "A" else reach)
    sign = 1 if end == "A" else -1

    def on_face(u: Fraction, w: Fraction) -> Spot:
        past = u if end == "A" else rail.length - u
        return (fold_face + sign * past, head - w)

    def on_end(w: Fraction, t: Fraction) -> Spot:
        return (fold_face - sign * t, head - w)

    def on_back(u: Fraction, w: Fraction) -> Spot:
        past = u if end == "A" else rail.length - u
        return (fold_face - sign * (rail.thickness + past), head - w)

    joint = f"{rail.id}.{end}"
    near, far = size.outer, size.outer + size.thickness
    start = ZERO if end == "A" else rail.length
    shoulder = size.length if end == "A" else rail.length - size.length
    # waste: the cheeks on face and back, and all round the tenon on the end
    strips = ((ZERO, size.top), (rail.width - size.bottom, rail.width))
    for low, high in [(ZERO, rail.width)] if size.outer > 0 else strips:
        board.hatch(*_box(on_face(start, low), on_face(shoulder, high)))
    back_shoulder = size.length - size.long_by
    back_at = back_shoulder if end == "A" else rail.length - back_shoulder
    for low, high in [(ZERO, rail.width)] if size.inner > 0 else strips:
        board.hatch(*_box(on_back(start, low), on_back(back_at, high)))
    for w0, w1, t0, t1 in (
        (ZERO, rail.width, ZERO, max(near, ZERO)),
        (ZERO, rail.width, min(far, rail.thickness), rail.thickness),
        (ZERO, size.top, max(near, ZERO), far),
        (rail.width - size.bottom, rail.width, max(near, ZERO), far),
    ):
        if w0 < w1 and t0 < t1:
            board.hatch(*_box(on_end(w0, t0), on_end(w1, t1)))
    places = {"face": on_face, "back": on_back, f"end {end}": on_end}
    limit = reach if end == "A" else rail.length - reach
    for mark in piece.marks_of(rail.id):
        place = places.get(mark.face)
        if place is None or mark.line is None:
            continue
        along = mark.face in ("face", "back")
        if mark.joint != joint and not (along and mark.line[0][0] != mark.line[1][0]):
            continue
        a, b = mark.line
        if along:
            a, b = _clip(a, limit, end), _clip(b, limit, end)
        pen = Pen.WIDE if mark.tool == "knife" else Pen.NARROW
        board.line(place(*a), place(*b), pen, ids[mark])
    _tenon_frame(board, rail, on_face, on_end, on_back, end, limit)
    _tenon_figures(board, rail, size.top, size.bottom, (near, far), on_face, on_end, limit, foot)
    _shoulder_figure(board, size.length, on_face(start, rail.width), on_face(shoulder, rail.width))
    if size.long_by:
        _shoulder_figure(
            board, back_shoulder, on_back(start, rail.width), on_back(back_at, rail.width)
        )
    back = on_back(limit, ZERO)[0]
    _lip_figures(board, piece, rail, back, -1 if end == "A" else 1, head)
    width = mm(44) + 2 * reach + rail.thickness
    board.text((mm(2), mm("0.8")), CAUTION, NOTE, room=width - mm(4))
    return Sheet(
        f"Tenon: {base}, end {end}",
        f"{names}. Heavy edge flush with the face edge; fold over both arrises of end {end}",
        board.scene(width, head + mm(16)),
        "full size",
    )


def _clip(spot: Spot, limit: Fraction, end: str) -> Spot:
    u = min(spot[0], limit) if end == "A" else max(spot[0], limit)
    return (u, spot[1])


def _box(a: Spot, b: Spot) -> tuple[Spot, Spot]:
    return ((min(a[0], b[0]), min(a[1], b[1])), (max(a[0], b[0]), max(a[1], b[1])))


def _tenon_frame(
    board: Easel, rail: Part, on_face: Put, on_end: Put, on_back: Put, end: str, limit: Fraction
) -> None:
    """Outline, folds, names of the three surfaces, and the face mark."""
    start = ZERO if end == "A" else rail.length
    outer, inner = on_face(limit, ZERO)[0], on_back(limit, ZERO)[0]
    low, high = min(outer, inner), max(outer, inner)
    head, foot = on_face(start, ZERO)[1], on_face(start, rail.width)[1]
    board.line((low, head), (high, head), Pen.HEAVY)
    board.line((low, foot), (high, foot), Pen.WIDE)
    for x in (low, high):
        board.line((x, foot), (x, head), Pen.HIDDEN)
    for x in (on_end(ZERO, ZERO)[0], on_end(ZERO, rail.thickness)[0]):
        board.line((x, foot - mm(5)), (x, head + mm(5)), Pen.FOLD)
    y = head + mm(7)
    for words, a, b in (
        ("face side", on_face(start, ZERO)[0], on_face(limit, ZERO)[0]),
        (f"end {end}", on_end(ZERO, ZERO)[0], on_end(ZERO, rail.thickness)[0]),
        ("back", on_back(start, ZERO)[0], on_back(limit, ZERO)[0]),
    ):
        board.text(((a + b) / 2, y), words, LABEL, "middle", bold=True)
    past_shoulder = on_face(limit, ZERO)[0]
    way = 1 if end == "A" else -1
    board.face_mark((past_shoulder - way * mm(8), head), mm(10), "up")
    board.caret((past_shoulder - way * mm(8), head), mm(4), "up")


def _tenon_figures(
    board: Easel,
    rail: Part,
    top: Fraction,
    bottom: Fraction,
    cheeks: Spot,
    on_face: Put,
    on_end: Put,
    limit: Fraction,
    foot: Fraction,
) -> None:
    """Gauge figures: from the face edge beside the face, from the face side under the end."""
    x = on_face(limit, ZERO)[0]
    way = 1 if x > on_end(ZERO, ZERO)[0] else -1
    for value in (top, rail.width - bottom):
        if not 0 < value < rail.width:
            continue
        y = on_face(limit, value)[1]
        board.line((x, y), (x + way * mm(4), y), Pen.THIN)
        align: Align = "left" if way > 0 else "right"
        board.figure((x + way * mm(5), y - NAME / 2), value, NAME, align, bold=True)
    figures_below(
        board,
        [
            Place(value, on_end(ZERO, value)[0], foot)
            for value in cheeks
            if 0 < value < rail.thickness
        ],
    )


def _lip_figures(
    board: Easel, piece: Piece, rail: Part, x: Fraction, way: int, head: Fraction
) -> None:
    """The lines of rabbets on the back, told beside it, on the side away from the end."""
    for mark in piece.marks_of(rail.id):
        if mark.role == "rabbet lip":
            y = head - mark.distance
            board.line((x, y), (x + way * mm(4), y), Pen.THIN)
            align: Align = "left" if way > 0 else "right"
            board.figure((x + way * mm(5), y - LABEL / 2), mark.distance, LABEL, align)
            board.text((x + way * mm(5), y - LABEL / 2 - mm("4.5")), "rabbet lip", NOTE, align)


def _shoulder_figure(board: Easel, length: Fraction, a: Spot, b: Spot) -> None:
    """The tenon's length, from the end to the shoulder."""
    y = a[1] - mm(24)
    for spot in (a, b):
        board.line(spot, (spot[0], y - mm(2)), Pen.THIN)
    board.dimension((a[0], y), (b[0], y), length, NAME)
