"""Templates: full-size drawings of each joint face, to paste on or prick through.

A mortise is drawn on its leg face as that face is seen, so left and right legs have templates
of their own. A tenon's template folds over the arrises: face, end and back in one piece.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from layout.joints.tenon import joint_name
from layout.joints.worked import other_axis
from layout.mark import Cut, Mark
from layout.part import Face, Part
from layout.piece import Piece
from layout.scene.lettering import wrap, wrap_at_most
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets import section as sections
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import SURFACES, base_name, like_parts, mark_ids

BEYOND = mm(12)  # how far gauge lines run on past the crossing
PAST = mm(25)  # how much of the rail is shown past its shoulder
NEAR_END = mm(60)


def templates(piece: Piece) -> tuple[Sheet, ...]:
    """Every mortise face, every tenon and every seat section of a piece, like ones once."""
    return (*mortises(piece), *tenons(piece), *seats(piece))


# Which way is up when a surface of a right-hand part is looked at with end A at the left (the
# ends: with the face edge at the left): True where the reference surface lies on top.
_REFERENCE_ON_TOP: dict[Face, bool] = {
    "far edge": True,
    "edge": False,
    "back": False,
    "face": True,
    "end A": True,
    "end B": False,
}


def reference_on_top(part: Part, face: Face) -> bool:
    """True where the reference surface lies on top, looking at this face, end A at the left."""
    return _REFERENCE_ON_TOP[face] != part.placement.mirrored


class _Facing(NamedTuple):
    """A stretch of a leg face on paper, seen from outside."""

    part: Part
    face: Face
    low: Fraction
    high: Fraction
    at: Spot

    @property
    def across(self) -> Fraction:
        return self.part.size(other_axis(self.face))

    def spot(self, u: Fraction, v: Fraction) -> Spot:
        up = self.across - v if reference_on_top(self.part, self.face) else v
        return (self.at[0] + u - self.low, self.at[1] + up)


def mortises(piece: Piece) -> tuple[Sheet, ...]:
    """A template for every distinct mortise on every distinct hand of leg."""
    groups: dict[object, list[tuple[Part, Cut, Face]]] = {}
    for one in piece.rails:
        for meeting in one.rail.meetings:
            joint = joint_name(one.rail.part, meeting.end)
            cut = next(c for c in piece.cuts if c.joint == joint and c.role == "mortise")
            others = frozenset(
                (c.role, c.shape) for c in piece.cuts_of(meeting.leg.id) if c.role != "mortise"
            )
            key = (
                meeting.leg.placement.mirrored,
                meeting.face,
                cut.shape,
                others,
                _edges(piece, joint),
            )
            groups.setdefault(key, []).append((meeting.leg, cut, meeting.face))
    return tuple(_mortise_sheet(piece, group) for group in groups.values())


def _edges(piece: Piece, joint: str) -> tuple[Fraction, ...]:
    """Where the rail's edges meet the leg."""
    return tuple(
        m.distance
        for m in piece.marks
        if m.joint == joint and m.role in ("rail top edge", "rail bottom edge")
    )


def _mortise_sheet(piece: Piece, group: list[tuple[Part, Cut, Face]]) -> Sheet:
    leg, cut, face = group[0]
    ids = mark_ids(piece)
    top, bottom = cut.shape.reach("L")
    axis = other_axis(face)
    near, far = cut.shape.reach(axis)
    low = ZERO if top < NEAR_END else _even(top - mm(20), piece.rule.unit)
    high = min(leg.length, bottom + mm(22))
    board = Easel(piece.rule)
    left, foot = mm(30), mm(28)
    facing = _Facing(leg, face, low, high, (left, foot))
    right = left + high - low
    head = foot + facing.across

    board.hatch(*_corners(facing, (top, near), (bottom, far)))
    _outline(board, facing)
    for mark in piece.marks_of(leg.id):
        if mark.face == face and mark.line is not None:
            _mark(board, facing, mark, ids[mark], same=mark.joint == cut.joint)
    middle = (near + far) / 2
    board.line(
        facing.spot(top - mm(6), middle), facing.spot(bottom + mm(6), middle), Pen.CENTRE
    )
    gauges = [(value, facing.spot(ZERO, value)[1]) for value in (near, far)]
    _figures_beside(board, gauges, right - mm(2))
    # knife lines: figures from end A below the drawing, on leader lines
    for at, towards in ((top, -1), (bottom, 1)):
        x = facing.spot(at, ZERO)[0]
        board.line((x, foot), (x, foot - mm(9)), Pen.THIN)
        width = board.figure_width(at, NAME, True)
        start = x - width - mm(1) if towards < 0 else x + mm(1)
        board.figure((max(start, mm(2)), foot - mm(8)), at, NAME, bold=True)
    depth = cut.shape.reach("W" if axis == "T" else "T")
    deep = depth[1] - depth[0]
    rails = _rail_names(piece, [c for _, c, _ in group])
    words = "below the leg: knife lines, from end A; at the right: gauge lines, from the heavy edge"
    board.text((mm(2), mm(11)), words, NOTE, room=right + mm(32))
    board.text((mm(2), mm(3)), "mortise depth", LABEL)
    after = mm(36) + board.figure((mm(34), mm(3)), deep, NAME, bold=True)
    lines = wrap_at_most(CAUTION, 2, NOTE, right + mm(28) - after)
    for index, line in enumerate(lines):
        board.text((after + mm(4), mm(3) + mm(4) * (len(lines) - 1 - index)), line, NOTE)
    reference = "face side" if axis == "T" else "face edge"
    hand = f"{leg.hand} hand" if leg.hand else ""
    legs = ", ".join(dict.fromkeys(part.name for part, _, _ in group))
    return Sheet(
        f"Mortise for {rails}: {SURFACES[face]}, {hand}",
        f"{legs}. Heavy edge flush with the {reference}, end A to the left",
        board.scene(right + mm(34), head + mm(8)),
        "full size",
    )


def _even(place: Fraction, unit: str) -> Fraction:
    """A place to start a template at, no further on, that is easy to find with a rule."""
    step = Fraction(127, 10) if unit == "in" else mm(5)
    return place // step * step


def _corners(facing: _Facing, a: Spot, b: Spot) -> tuple[Spot, Spot]:
    one, other = facing.spot(*a), facing.spot(*b)
    return (
        (min(one[0], other[0]), min(one[1], other[1])),
        (max(one[0], other[0]), max(one[1], other[1])),
    )


def _outline(board: Easel, facing: _Facing) -> None:
    """The stretch of the face: reference edge heavy with its caret, ends cut or broken off."""
    part, low, high, across = facing.part, facing.low, facing.high, facing.across
    reference = facing.spot(low, ZERO), facing.spot(high, ZERO)
    board.line(*reference, Pen.HEAVY)
    board.line(facing.spot(low, across), facing.spot(high, across), Pen.WIDE)
    middle = facing.spot((low + high) / 2, ZERO)
    on_top = facing.spot(low, across)[1] < reference[0][1]
    board.caret(middle, mm(4), "up" if on_top else "down")
    for at, is_end, name in ((low, low == 0, "end A"), (high, high == part.length, "end B")):
        a, b = facing.spot(at, ZERO), facing.spot(at, across)
        board.line(a, b, Pen.WIDE if is_end else Pen.HIDDEN)
        x = a[0] - mm(3) if at == low else a[0] + mm(3) + LABEL
        foot = min(a[1], b[1])
        if is_end:
            board.text((x, foot + mm(2)), name, LABEL, bold=True, turn=90)
        elif at == low:
            board.text((x - mm(6), foot + mm(2)), "from end A", NOTE, turn=90)
            board.figure((x, foot + mm(2)), low, LABEL, turn=90)


def _mark(board: Easel, facing: _Facing, mark: Mark, name: str, same: bool) -> None:
    """One mark; gauge lines of this joint run on past the crossing, as a maker's do."""
    assert mark.line is not None
    (u0, v0), (u1, v1) = mark.line
    if mark.tool == "pencil":
        pen = Pen.HIDDEN
    elif mark.tool == "knife":
        pen = Pen.WIDE
    else:
        pen = Pen.NARROW
        if same:
            u0, u1 = min(u0, u1) - BEYOND, max(u0, u1) + BEYOND
    low, high = max(min(u0, u1), facing.low), min(max(u0, u1), facing.high)
    if low > high:
        return
    board.line(facing.spot(low, v0), facing.spot(high, v1), pen, name)


def _figures_beside(board: Easel, places: list[tuple[Fraction, Fraction]], x: Fraction) -> None:
    """Distances at the right of a drawing, each (value, height of its line), on leaders that
    keep the figures clear of each other.
    """
    ordered = sorted(places, key=lambda place: place[1])
    heights = _spread([y for _, y in ordered], mm(11))
    for (value, place), y in zip(ordered, heights, strict=True):
        board.line((x, place), (x + mm(5), place), Pen.THIN)
        board.line((x + mm(5), place), (x + mm(10), y), Pen.THIN)
        board.figure((x + mm(12), y - NAME / 2), value, NAME, bold=True)


def _figures_below(board: Easel, places: list[tuple[Fraction, Fraction]], y: Fraction) -> None:
    """Distances below a drawing, each (value, place of its line), on leaders likewise."""
    ordered = sorted(places, key=lambda place: place[1])
    widest = max((board.figure_width(value, NAME, True) for value, _ in ordered), default=ZERO)
    columns = _spread([x for _, x in ordered], widest + mm(2))
    for (value, place), x in zip(ordered, columns, strict=True):
        board.line((place, y), (place, y - mm(3)), Pen.THIN)
        board.line((place, y - mm(3)), (x, y - mm(7)), Pen.THIN)
        board.figure((x, y - mm(15)), value, NAME, "middle", bold=True)


def _spread(places: list[Fraction], pitch: Fraction) -> list[Fraction]:
    """Places in order, moved apart about their middle until none is nearer than the pitch."""
    if all(b - a >= pitch for a, b in pairwise(places)):
        return places
    middle = (places[0] + places[-1]) / 2
    first = middle - pitch * (len(places) - 1) / 2
    return [first + pitch * index for index in range(len(places))]


def _rail_names(piece: Piece, cuts: list[Cut]) -> str:
    joints = {cut.joint for cut in cuts}
    parts = [
        one.rail.part
        for one in piece.rails
        if any(joint_name(one.rail.part, m.end) in joints for m in one.rail.meetings)
    ]
    return base_name(piece, parts)


def tenons(piece: Piece) -> tuple[Sheet, ...]:
    """A template for each end of every distinct rail: face, end and back, folded over."""
    sheets = []
    for group in like_parts(piece):
        if group.first.kind == "rail":
            for end in ("A", "B"):
                names = ", ".join(part.name for part in group.parts)
                sheets.append(_tenon_sheet(piece, group.first, end, group.base, names))
    return tuple(sheets)


def _tenon_sheet(piece: Piece, rail: Part, end: str, base: str, names: str) -> Sheet:
    one = next(r for r in piece.rails if r.rail.part.id == rail.id)
    size = one.size
    ids = mark_ids(piece)
    board = Easel(piece.rule)
    reach = min(size.length + PAST, rail.length / 2)
    foot = mm(21)
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
    if size.outer > 0:
        board.hatch(*_box(on_face(start, ZERO), on_face(shoulder, rail.width)))
    back_shoulder = size.length - size.long_by
    back_at = back_shoulder if end == "A" else rail.length - back_shoulder
    if size.inner > 0:
        board.hatch(*_box(on_back(start, ZERO), on_back(back_at, rail.width)))
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
    _tenon_frame(board, rail, reach, on_face, on_end, on_back, end, limit)
    _tenon_figures(board, rail, size.top, size.bottom, (near, far), on_face, on_end, limit, foot)
    _shoulder_figure(board, size.length, on_face(start, rail.width), on_face(shoulder, rail.width))
    if size.long_by:
        _shoulder_figure(
            board, back_shoulder, on_back(start, rail.width), on_back(back_at, rail.width)
        )
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


def _tenon_frame(  # type: ignore[no-untyped-def]
    board: Easel, rail: Part, reach: Fraction, on_face, on_end, on_back, end: str, limit: Fraction
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


def _tenon_figures(  # type: ignore[no-untyped-def]
    board: Easel,
    rail: Part,
    top: Fraction,
    bottom: Fraction,
    cheeks: Spot,
    on_face,
    on_end,
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
        align = "left" if way > 0 else "right"
        board.figure((x + way * mm(5), y - NAME / 2), value, NAME, align, bold=True)  # type: ignore[arg-type]
    places = [(value, on_end(ZERO, value)[0]) for value in cheeks if 0 < value < rail.thickness]
    for index, (value, at) in enumerate(places):
        board.line((at, foot), (at, foot - mm(4)), Pen.THIN)
        first = (index == 0) == (way < 0)
        align = "right" if first else "left"
        shift = -mm(1) if first else mm(1)
        board.figure((at + shift, foot - mm(11)), value, NAME, align, bold=True)  # type: ignore[arg-type]


def _shoulder_figure(board: Easel, length: Fraction, a: Spot, b: Spot) -> None:
    """The tenon's length, from the end to the shoulder."""
    y = a[1] - mm(7)
    for spot in (a, b):
        board.line(spot, (spot[0], y - mm(2)), Pen.THIN)
    board.dimension((a[0], y), (b[0], y), length)


def seats(piece: Piece) -> tuple[Sheet, ...]:
    """Sections at full size of every part that carries a panel's seat, like ones once."""
    sheets = []
    for group in like_parts(piece):
        part = group.first
        cuts = [cut for cut in piece.cuts_of(part.id) if cut.role in ("rabbet", "groove")]
        if cuts:
            names = ", ".join(p.name for p in group.parts)
            sheets.append(_seat_sheet(piece, part, cuts, group.base, names))
    return tuple(sheets)


def _seat_sheet(piece: Piece, part: Part, cuts: list[Cut], base: str, names: str) -> Sheet:
    board = Easel(piece.rule)
    from_side = sorted(
        {value for cut in cuts for value in cut.shape.reach("T") if 0 < value < part.thickness}
    )
    from_edge = sorted(
        {value for cut in cuts for value in cut.shape.reach("W") if 0 < value < part.width}
    )
    left, foot = mm(26), mm(28)
    head = foot + part.thickness
    low, high = cuts[0].shape.reach("L")
    drawn = sections.draw(board, piece, part, (low + high) / 2, (left, head), Fraction(1))
    _figures_beside(board, [(value, head - value) for value in from_side], drawn.right)
    _figures_below(board, [(value, left + value) for value in from_edge], foot)
    board.text((left, head + mm(6)), "face side", NOTE)
    board.text((left - mm(6), foot + mm(1)), "face edge", NOTE, turn=90)
    roles = " and ".join(dict.fromkeys(cut.role for cut in cuts))
    width = drawn.right + mm(34)
    lines = wrap(CAUTION, NOTE, max(width - mm(4), mm(40)), False)
    for index, line in enumerate(lines):
        board.text((mm(2), mm(2) + mm(4) * (len(lines) - 1 - index)), line, NOTE)
    # drawn as end A of a right-hand part is seen; a left-hand part shows it at its other end
    where = "end A of a right hand leg or end B of a left hand one" if part.hand else "end A"
    return Sheet(
        f"Section: {roles} in the {base}",
        f"{names}. Hold against {where}, face side up, face edge to the left",
        board.scene(width, head + mm(12)),
        "full size",
    )
