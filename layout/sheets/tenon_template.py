"""Tenon templates: face, end and back of a rail's end in one piece, folded over its arrises.

Where a line lies on the rail's upper edge only (a mitre, a key driven from above), a fourth
surface is joined to the face.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from layout.joints.rail_end import Joint
from layout.mark import Hull, Mark
from layout.part import Face
from layout.piece import Piece
from layout.scene.strokes import Align, Pen, Sheet, Spot
from layout.sheets.beside import Place, figures_below, spread
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.figures_of import figure_on
from layout.sheets.groups import base_name, mark_ids
from layout.stock.marking_ends import end_note

Put = Callable[[Fraction, Fraction], Spot]  # a place on one of the surfaces, on paper
DIM_ROW = mm(11)
FIGURE_ROW = mm(11)  # a stacked fraction of this height has room
PAST = mm(25)  # how much of the rail is shown past its shoulder
GAUGED = ("marking gauge", "mortise gauge")
# What is cut away round the tenon first; what is cut into the tenon later is drawn by its lines.
SHAPED_LATER = ("mitre waste", "notch", "saw cut", "key hole", "peg")
ON_EDGE = ("mitre", "key hole")
FACES_CUT: tuple[Face, Face] = ("face", "back")


class _Fold(NamedTuple):
    """The unfolded surfaces of a rail's end: where each has its places on paper."""

    joint: Joint
    on: dict[Face, Put]
    limit: Fraction  # how far along the rail it is shown, from end A
    head: Fraction
    foot: Fraction

    @property
    def way(self) -> int:
        """+1 where the face lies to the right of the end, -1 to the left."""
        return 1 if self.joint.meeting.end == "A" else -1

    def clip(self, u: Fraction) -> Fraction:
        """A place along the rail, no further than is shown."""
        at_a = self.joint.meeting.end == "A"
        return min(u, self.limit) if at_a else max(u, self.limit)


def tenons(piece: Piece) -> tuple[Sheet, ...]:
    """A template for each end of every distinct tenon: face, end and back, folded over."""
    groups: dict[object, list[Joint]] = {}
    for joint in piece.joints:
        groups.setdefault(_looks(piece, joint), []).append(joint)
    ids = mark_ids(piece)
    return tuple(_sheet(piece, alike, ids) for alike in groups.values())


def _looks(piece: Piece, joint: Joint) -> object:
    """What must agree for two rail ends to share a template."""
    rail, end = joint.rail, joint.meeting.end

    def from_tip(u: Fraction) -> Fraction:
        return u if end == "A" else rail.length - u

    def spots(mark: Mark) -> tuple[Spot, ...]:
        if mark.line is not None:
            return mark.line
        return (mark.point,) if mark.point is not None else ()

    lines = frozenset(
        (mark.role, mark.face, tuple((from_tip(u), v) for u, v in spots(mark)))
        for mark in piece.marks_of(rail.id)
        if mark.joint == joint.name and mark.face not in ("end A", "end B")
    )
    seats = frozenset(
        (cut.role, cut.shape.reach("W"), cut.shape.reach("T"))
        for cut in piece.cuts_of(rail.id)
        if cut.role in ("rabbet", "groove")
    )
    return (end, rail.width, rail.thickness, joint.size.section, joint.size.length, lines, seats)


def _sheet(piece: Piece, alike: list[Joint], ids: dict[Mark, str]) -> Sheet:
    joint = alike[0]
    rail, size, end = joint.rail, joint.size, joint.meeting.end
    marks = [mark for mark in piece.marks_of(rail.id) if mark.joint == joint.name]
    flap = any(
        mark.face == "edge" and mark.role.startswith(ON_EDGE) for mark in marks
    )
    dims = _lengths(joint, marks)
    reach = min(size.length + PAST, rail.length / 2)
    foot = mm(26) + DIM_ROW * len(dims)
    board = Easel(piece.rule)
    figures = [mark.distance for mark in marks if mark.tool in GAUGED]
    margin = max([mm(26), *(board.figure_width(one, NAME, True) + mm(9) for one in figures)])
    fold = _unfolded(joint, reach, foot, margin)
    surfaces: list[Face] = ["face", "back", joint.end_face]
    if flap:
        surfaces.append("edge")
    _waste(board, piece, fold, surfaces)
    _lines(board, piece, fold, surfaces, marks, ids)
    _frame(board, fold, flap)
    _holes(board, fold, marks)
    _gauge_figures(board, fold, marks)
    _length_figures(board, fold, dims)
    _lip_figures(board, piece, fold)
    width = 2 * margin + 2 * reach + rail.thickness
    board.text((mm(2), mm("0.8")), CAUTION, NOTE, room=width - mm(4))
    parts = list(dict.fromkeys(one.rail for one in alike))
    names = ", ".join(part.name for part in parts)
    top = fold.head + mm(16) + (rail.thickness if flap else ZERO)
    note = end_note(piece, parts[0].id)
    return Sheet(
        f"Tenon: {base_name(piece, parts)}, end {end}",
        f"{names}. Heavy edge flush with the face edge; fold over both arrises of end {end}"
        + (f": {note}" if note else ""),
        board.scene(width, top),
        "full size",
    )


def _unfolded(joint: Joint, reach: Fraction, foot: Fraction, margin: Fraction) -> _Fold:
    """End A: back, end, face from left to right; end B the mirror of it. `margin` is the room
    left beside them for figures.
    """
    rail, end = joint.rail, joint.meeting.end
    head = foot + rail.width
    fold_face = margin + (reach + rail.thickness if end == "A" else reach)
    sign = 1 if end == "A" else -1

    def past(u: Fraction) -> Fraction:
        return u if end == "A" else rail.length - u

    def on_face(u: Fraction, w: Fraction) -> Spot:
        return (fold_face + sign * past(u), head - w)

    def on_end(w: Fraction, t: Fraction) -> Spot:
        return (fold_face - sign * t, head - w)

    def on_back(u: Fraction, w: Fraction) -> Spot:
        return (fold_face - sign * (rail.thickness + past(u)), head - w)

    def on_edge(u: Fraction, t: Fraction) -> Spot:
        return (fold_face + sign * past(u), head + t)

    places: dict[Face, Put] = {
        "face": on_face, "back": on_back, joint.end_face: on_end, "edge": on_edge
    }
    limit = reach if end == "A" else rail.length - reach
    return _Fold(joint, places, limit, head, foot)


def _waste(board: Easel, piece: Piece, fold: _Fold, surfaces: list[Face]) -> None:
    """What is cut away round the tenon, hatched on every surface that it comes out on."""
    joint = fold.joint
    for cut in piece.cuts_of(joint.rail.id):
        if cut.joint != joint.name or cut.role.startswith(SHAPED_LATER):
            continue
        if any(word in cut.role for word in SHAPED_LATER) or not isinstance(cut.shape, Hull):
            continue
        for face in surfaces:
            figure = figure_on(cut.shape, joint.rail, face)
            board.hatch_polygon([fold.on[face](u, v) for u, v in figure])
    _crossed(board, piece, fold)


def _crossed(board: Easel, piece: Piece, fold: _Fold) -> None:
    """A cross, as the maker pencils it, over what is cut out of the tenon itself."""
    joint = fold.joint
    for cut in piece.cuts_of(joint.rail.id):
        if cut.joint != joint.name or not isinstance(cut.shape, Hull):
            continue
        if not ("notch" in cut.role or "key hole" in cut.role):
            continue
        low, high = cut.shape.reach("L")
        near, far = cut.shape.reach("W")
        for face in FACES_CUT:
            put = fold.on[face]
            board.line(put(low, near), put(high, far), Pen.THIN)
            board.line(put(low, far), put(high, near), Pen.THIN)


def _lines(
    board: Easel,
    piece: Piece,
    fold: _Fold,
    surfaces: list[Face],
    marks: list[Mark],
    ids: dict[Mark, str],
) -> None:
    """Every mark of the joint, and the lines of seats that run past it."""
    rail = fold.joint.rail
    others = [
        mark
        for mark in piece.marks_of(rail.id)
        if mark.joint.endswith(".seat") and mark.line and mark.line[0][0] != mark.line[1][0]
    ]
    for mark in (*marks, *others):
        if mark.line is None or mark.face not in surfaces:
            continue
        a, b = mark.line
        if mark.face in ("face", "back", "edge"):
            a, b = (fold.clip(a[0]), a[1]), (fold.clip(b[0]), b[1])
        elif mark.joint.endswith(".seat"):
            continue
        pen = Pen.NARROW
        if mark.tool in ("knife", "bevel"):
            pen = Pen.WIDE
        elif mark.tool == "pencil":
            pen = Pen.HIDDEN
        place = fold.on[mark.face]
        board.line(place(*a), place(*b), pen, ids[mark])


def _frame(board: Easel, fold: _Fold, flap: bool) -> None:
    """Outline, folds, names of the surfaces, and the face mark."""
    rail, end = fold.joint.rail, fold.joint.meeting.end
    on_face, on_back, on_end = (
        fold.on["face"], fold.on["back"], fold.on[fold.joint.end_face]
    )
    start = ZERO if end == "A" else rail.length
    outer, inner = on_face(fold.limit, ZERO)[0], on_back(fold.limit, ZERO)[0]
    low, high = min(outer, inner), max(outer, inner)
    head, foot = fold.head, fold.foot
    board.line((low, head), (high, head), Pen.HEAVY)
    board.line((low, foot), (high, foot), Pen.WIDE)
    for x in (low, high):
        board.line((x, foot), (x, head), Pen.HIDDEN)
    for x in (on_end(ZERO, ZERO)[0], on_end(ZERO, rail.thickness)[0]):
        board.line((x, foot - mm(5)), (x, head + mm(5)), Pen.FOLD)
    y = head + mm(7)
    on_edge = fold.on["edge"]
    names: list[tuple[str, Fraction, Fraction, Fraction]] = [
        (f"end {end}", on_end(ZERO, ZERO)[0], on_end(ZERO, rail.thickness)[0], y),
        ("back", on_back(start, ZERO)[0], on_back(fold.limit, ZERO)[0], y),
    ]
    face = (on_face(start, ZERO)[0], on_face(fold.limit, ZERO)[0])
    if flap:
        # the edge is joined to the face: fold along the heavy line
        near, far = on_edge(start, rail.thickness), on_edge(fold.limit, rail.thickness)
        board.line(near, far, Pen.WIDE)
        board.line(on_edge(start, ZERO), near, Pen.WIDE)
        board.line(on_edge(fold.limit, ZERO), far, Pen.HIDDEN)
        names.append(("face edge, folded over; face side below", *face, y + rail.thickness))
    else:
        names.append(("face side", *face, y))
    for words, a, b, at in names:
        board.text(((a + b) / 2, at), words, LABEL, "middle", bold=True)
    x = on_face(fold.limit, ZERO)[0] - fold.way * mm(8)
    board.face_mark((x, head), mm(10), "up")
    board.caret((x, head), mm(4), "up")


def _holes(board: Easel, fold: _Fold, marks: list[Mark]) -> None:
    """Holes in the tenon, pricked through the template before the cheeks are sawn."""
    for mark in marks:
        if mark.point is None or mark.face != "face" or mark.diameter is None:
            continue
        x, y = fold.on["face"](*mark.point)
        arm = mark.diameter / 2 + mm(3)
        board.circle((x, y), mark.diameter / 2, Pen.WIDE)
        board.line((x - arm, y), (x + arm, y), Pen.CENTRE)
        board.line((x, y - arm), (x, y + arm), Pen.CENTRE)


def _gauge_figures(board: Easel, fold: _Fold, marks: list[Mark]) -> None:
    """Gauge figures: from the face edge beside the face, from the face side under the end."""
    on_face, on_end = fold.on["face"], fold.on[fold.joint.end_face]
    way = fold.way
    from_edge = sorted(
        {m.distance for m in marks if m.tool in GAUGED and m.source == "face edge"}
    )
    x = on_face(fold.limit, ZERO)[0]
    wanted = [-(fold.head - value) - FIGURE_ROW / 2 for value in from_edge]
    ys = [-(low + FIGURE_ROW / 2) for low in spread(wanted, [FIGURE_ROW] * len(wanted))]
    align: Align = "left" if way > 0 else "right"
    for value, y in zip(from_edge, ys, strict=True):
        line_y = fold.head - value
        board.line((x, line_y), (x + way * mm(2), line_y), Pen.THIN)
        board.line((x + way * mm(2), line_y), (x + way * mm(5), y), Pen.THIN)
        board.figure((x + way * mm(6), y - NAME / 2), value, NAME, align, bold=True)
    from_side = sorted(
        {
            m.distance
            for m in marks
            if m.tool in GAUGED and m.source == "face side" and m.face == fold.joint.end_face
        }
    )
    figures_below(
        board, [Place(value, on_end(ZERO, value)[0], fold.foot) for value in from_side]
    )


class _Length(NamedTuple):
    """A length from the end of the rail, to be dimensioned on a surface."""

    word: str
    length: Fraction
    face: Face


def _lengths(joint: Joint, marks: list[Mark]) -> list[_Length]:
    """The places along the rail that are knifed on face and back, from its end, nearest first."""
    rail, end = joint.rail, joint.meeting.end
    found: dict[tuple[Fraction, Face], str] = {}
    faces: tuple[Face, Face] = ("face", "back")
    for face in faces:
        for mark in marks:
            if mark.face != face or mark.source != "end A" or mark.tool not in (
                "knife", "bit", "pencil", "bevel",
            ):
                continue
            from_tip = mark.distance if end == "A" else rail.length - mark.distance
            if face == "back" and (from_tip, "face") in found:
                continue
            found.setdefault((from_tip, face), mark.role)
    told = [_Length(role, length, face) for (length, face), role in found.items()]
    return sorted(told, key=lambda one: (one.length, one.face))


def _length_figures(board: Easel, fold: _Fold, dims: list[_Length]) -> None:
    """Dimension lines below, one under the other, each with its word."""
    start = ZERO if fold.joint.meeting.end == "A" else fold.joint.rail.length
    for index, one in enumerate(dims):
        put = fold.on[one.face]
        u = one.length if fold.joint.meeting.end == "A" else fold.joint.rail.length - one.length
        a, b = put(start, fold.joint.rail.width), put(u, fold.joint.rail.width)
        y = fold.foot - mm(24) - DIM_ROW * index
        for spot in (a, b):
            board.line(spot, (spot[0], y - mm(1)), Pen.THIN)
        way = 1 if b[0] > a[0] else -1
        align: Align = "left" if way > 0 else "right"
        x = b[0] + way * mm(2)
        board.arrow((a[0], y), (b[0], y))
        width = board.figure((x, y - NAME / 2), one.length, NAME, align, bold=True)
        board.text((x + way * (width + mm(2)), y - mm("1.2")), one.word, NOTE, align)


def _lip_figures(board: Easel, piece: Piece, fold: _Fold) -> None:
    """The lines of rabbets on the back, told beside it, on the side away from the end."""
    way = -fold.way
    x = fold.on["back"](fold.limit, ZERO)[0]
    for mark in piece.marks_of(fold.joint.rail.id):
        if mark.role == "rabbet lip":
            y = fold.head - mark.distance
            board.line((x, y), (x + way * mm(4), y), Pen.THIN)
            align: Align = "left" if way > 0 else "right"
            board.figure((x + way * mm(5), y - LABEL / 2), mark.distance, LABEL, align)
            board.text((x + way * mm(5), y - LABEL / 2 - mm("4.5")), "rabbet lip", NOTE, align)

