"""Mortise templates: a stretch of a leg's face at full size, as that face is seen.

Left and right legs mirror each other, so each hand has templates of its own.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.joints.rail_end import joint_name
from layout.joints.worked import other_axis
from layout.mark import Cut, Mark
from layout.part import Face, Part
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap_at_most
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.beside import Place, figures_beside
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import SURFACES, base_name, mark_ids

BEYOND = mm(12)  # how far gauge lines run on past the crossing
NEAR_END = mm(60)


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


class _Mortise(NamedTuple):
    """A mortise on a leg's face, and the marks that its template shows."""

    leg: Part
    cut: Cut
    face: Face
    low: Fraction
    high: Fraction
    marks: tuple[Mark, ...]

    @property
    def looks(self) -> object:
        """What must agree for two mortises to share a template."""
        lines = frozenset((mark.role, _clipped(mark, self.low, self.high)) for mark in self.marks)
        return (self.leg.placement.mirrored, self.face, self.low, self.high, self.cut.shape, lines)


def mortises(piece: Piece) -> tuple[Sheet, ...]:
    """A template for every distinct mortise on every distinct hand of leg."""
    groups: dict[object, list[_Mortise]] = {}
    for one in piece.rails:
        for meeting in one.rail.meetings:
            joint = joint_name(one.rail.part, meeting.end)
            cut = next(c for c in piece.cuts if c.joint == joint and c.role == "mortise")
            found = _mortise(piece, meeting.bearer, cut, meeting.face)
            groups.setdefault(found.looks, []).append(found)
    ids = mark_ids(piece)
    return tuple(_sheet(piece, group, ids) for group in groups.values())


def _mortise(piece: Piece, leg: Part, cut: Cut, face: Face) -> _Mortise:
    """The stretch of the face round a mortise: its own marks, and those of panels' seats.

    Marks of other mortises are left out: they have templates of their own, and a leg that shares
    this one may not have them.
    """
    top, bottom = cut.shape.reach("L")
    low = ZERO if top < NEAR_END else _even(top - mm(20), piece.rule.unit)
    high = min(leg.length, bottom + mm(22))
    marks = tuple(
        mark
        for mark in piece.marks_of(leg.id)
        if mark.face == face
        and (mark.joint == cut.joint or mark.joint.endswith(".seat"))
        and _clipped(mark, low, high) is not None
    )
    return _Mortise(leg, cut, face, low, high, marks)


def _clipped(mark: Mark, low: Fraction, high: Fraction) -> tuple[Spot, Spot] | None:
    """What of a mark's line lies in a stretch of the face; None where nothing does."""
    if mark.line is None:
        return None
    (u0, v0), (u1, v1) = sorted(mark.line)
    if max(u0, low) > min(u1, high):
        return None
    return ((max(u0, low), v0), (min(u1, high), v1))


def _sheet(piece: Piece, group: list[_Mortise], ids: dict[Mark, str]) -> Sheet:
    leg, cut, face, low, high, marks = group[0]
    top, bottom = cut.shape.reach("L")
    axis = other_axis(face)
    near, far = cut.shape.reach(axis)
    board = Easel(piece.rule)
    left, foot = mm(30), mm(28)
    facing = _Facing(leg, face, low, high, (left, foot))
    right = left + high - low
    head = foot + facing.across

    board.hatch(*_corners(facing, (top, near), (bottom, far)))
    _outline(board, facing)
    places = []
    for mark in marks:
        end = _mark(board, facing, mark, ids[mark], same=mark.joint == cut.joint)
        if end is not None and mark.source != "end A":
            places.append(Place(mark.distance, end[0], end[1], _word(mark)))
    middle = (near + far) / 2
    board.line(
        facing.spot(top - mm(6), middle), facing.spot(bottom + mm(6), middle), Pen.CENTRE
    )
    reach = max(figures_beside(board, _together(places), right - mm(2)), right + mm(20))
    _stops(board, facing, marks, {top, bottom}, head)
    # knife lines: figures from end A below the drawing, on leader lines
    for at, towards in ((top, -1), (bottom, 1)):
        x = facing.spot(at, ZERO)[0]
        board.line((x, foot), (x, foot - mm(9)), Pen.THIN)
        width = board.figure_width(at, NAME, True)
        start = x - width - mm(1) if towards < 0 else x + mm(1)
        board.figure((max(start, mm(2)), foot - mm(8)), at, NAME, bold=True)
    _words(board, facing, cut, far - near, reach)
    reference = "face side" if axis == "T" else "face edge"
    hand = f"{leg.hand} hand" if leg.hand else ""
    legs = ", ".join(dict.fromkeys(one.leg.name for one in group))
    rails = _rail_names(piece, [one.cut for one in group])
    return Sheet(
        f"Mortise for {rails}: {SURFACES[face]}, {hand}",
        f"{legs}. Heavy edge flush with the {reference}, end A to the left",
        board.scene(reach + mm(2), head + mm(11)),
        "full size",
    )


def _word(mark: Mark) -> str:
    """What a gauge line belongs to."""
    if mark.joint.endswith(".seat"):
        return "groove" if "groove" in mark.role else mark.role
    return "mortise"


def _together(places: list[Place]) -> list[Place]:
    """One figure for every line, however many joints it serves; named where that is not plain."""
    by_line: dict[tuple[Fraction, Fraction], list[Place]] = {}
    for place in places:
        by_line.setdefault((place.value, place.y), []).append(place)
    found = []
    for same in by_line.values():
        words = sorted({place.word for place in same}, key=lambda word: word != "mortise")
        word = "" if words == ["mortise"] else " and ".join(words)
        found.append(same[0]._replace(word=word))
    return found


def _stops(
    board: Easel, facing: _Facing, marks: tuple[Mark, ...], told: set[Fraction], head: Fraction
) -> None:
    """Where a seat stops, above the drawing, unless the mortise stops there too."""
    for mark in marks:
        if mark.joint.endswith(".seat") and mark.source == "end A" and mark.distance not in told:
            x = facing.spot(mark.distance, ZERO)[0]
            board.line((x, head), (x, head + mm(8)), Pen.THIN)
            width = board.figure((x + mm(1), head + mm(3)), mark.distance, NAME, bold=True)
            board.text((x + mm(2) + width, head + mm(3)), mark.role, NOTE)


def _words(board: Easel, facing: _Facing, cut: Cut, wide: Fraction, reach: Fraction) -> None:
    """Below the drawing: what the figures are, the mortise's width and depth, the caution."""
    words = "below the leg: knife lines, from end A; at the right: gauge lines, from the heavy edge"
    told = wrap_at_most(words, 2, NOTE, reach - mm(2))
    for index, line in enumerate(told):
        board.text((mm(2), mm(11) + mm(4) * (len(told) - 1 - index)), line, NOTE)
    low, high = cut.shape.reach("W" if other_axis(facing.face) == "T" else "T")
    x = mm(2)
    for word, size in (("mortise", wide), ("wide,", high - low)):
        board.text((x, mm(3)), word, LABEL)
        x += text_width(word, LABEL) + mm(2)
        x += board.figure((x, mm(3)), size, NAME, bold=True) + mm(2)
    board.text((x, mm(3)), "deep", LABEL)
    x += text_width("deep", LABEL) + mm(4)
    lines = wrap_at_most(CAUTION, 2, NOTE, reach - x)
    for index, line in enumerate(lines):
        board.text((x, mm(3) + mm(4) * (len(lines) - 1 - index)), line, NOTE)


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


def _mark(
    board: Easel, facing: _Facing, mark: Mark, name: str, same: bool
) -> Spot | None:
    """One mark; gauge lines of this joint run on past the crossing, as a maker's do.

    Returns where its line ends at the right, if any of it shows.
    """
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
        return None
    board.line(facing.spot(low, v0), facing.spot(high, v1), pen, name)
    return facing.spot(high, v1)


def _rail_names(piece: Piece, cuts: list[Cut]) -> str:
    joints = {cut.joint for cut in cuts}
    parts = [
        one.rail.part
        for one in piece.rails
        if any(joint_name(one.rail.part, m.end) in joints for m in one.rail.meetings)
    ]
    return base_name(piece, parts)
