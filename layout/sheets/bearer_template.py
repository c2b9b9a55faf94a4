"""Templates of what bears a joint: a stretch of one surface at full size, as it is seen.

The surface that the rail comes to, with the mortise; the outer one where a tenon comes through;
the one that pegs are bored from. Left and right legs mirror each other, so each hand has
templates of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.joints.rail_end import OPPOSITE, Joint, is_mortise
from layout.joints.worked import other_axis
from layout.mark import Cut, Cylinder, Hull, Mark
from layout.part import Face, Part
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap, wrap_at_most
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.beside import Place, figures_below, figures_beside, spread
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.figures_of import circle_on, figure_on
from layout.sheets.groups import SURFACES, base_name, mark_ids
from layout.stock.marking_ends import end_note

BEYOND = mm(12)  # how far gauge lines run on past the crossing
NEAR_END = mm(60)
LONG_FACES: tuple[Face, ...] = ("face", "edge", "back", "far edge")
GAUGED = ("marking gauge", "mortise gauge")

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
    """A stretch of a part's face on paper, seen from outside."""

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


class _Stretch(NamedTuple):
    """What a joint has on one face of its bearer, and the marks that its template shows."""

    joint: Joint
    cuts: tuple[Cut, ...]
    face: Face
    low: Fraction
    high: Fraction
    marks: tuple[Mark, ...]

    @property
    def part(self) -> Part:
        return self.joint.bearer

    @property
    def looks(self) -> object:
        """What must agree for two stretches to share a template."""
        lines = frozenset(
            (mark.role, mark.point, _clipped(mark, self.low, self.high)) for mark in self.marks
        )
        shapes = frozenset(cut.shape for cut in self.cuts)
        part = self.part
        return (part.kind, part.placement.mirrored, self.face, self.low, self.high, shapes, lines)


def bearers(piece: Piece) -> tuple[Sheet, ...]:
    """A template for every distinct face of a bearer that a joint is laid out on."""
    groups: dict[object, list[_Stretch]] = {}
    for joint in piece.joints:
        for found in _stretches(piece, joint):
            groups.setdefault(found.looks, []).append(found)
    ids = mark_ids(piece)
    return tuple(_sheet(piece, group, ids) for group in groups.values())


def _stretches(piece: Piece, joint: Joint) -> Iterator[_Stretch]:
    """The faces of a bearer with lines of this joint, the one that the rail comes to first.

    Marks of other joints are left out: they have templates of their own, and a part that shares
    this one may not have them. Seats of panels are kept: they cross the joint.
    """
    part = joint.bearer
    cuts = tuple(cut for cut in piece.cuts_of(part.id) if cut.joint == joint.name)
    entry = joint.meeting.face
    for face in (entry, *(one for one in LONG_FACES if one != entry)):
        own = [m for m in piece.marks_of(part.id) if m.face == face and m.joint == joint.name]
        ends = [u for mark in own if mark.tool != "pencil" for u in _reach(mark)]
        if not ends:
            continue
        low = ZERO if min(ends) < NEAR_END else _even(min(ends) - mm(20), piece.rule.unit)
        high = min(part.length, max(ends) + mm(22))
        marks = tuple(
            mark
            for mark in piece.marks_of(part.id)
            if mark.face == face
            and (mark.joint == joint.name or mark.joint.endswith(".seat"))
            and (mark.point is not None or _clipped(mark, low, high) is not None)
        )
        yield _Stretch(joint, cuts, face, low, high, marks)


def _reach(mark: Mark) -> tuple[Fraction, ...]:
    if mark.line is not None:
        return (mark.line[0][0], mark.line[1][0])
    return (mark.point[0],) if mark.point is not None else ()


def _clipped(mark: Mark, low: Fraction, high: Fraction) -> tuple[Spot, Spot] | None:
    """What of a mark's line lies in a stretch of the face; None where nothing does."""
    if mark.line is None:
        return None
    (u0, v0), (u1, v1) = sorted(mark.line)
    if max(u0, low) > min(u1, high):
        return None
    if v0 != v1:  # a slope, or a line across: whole or not at all
        return ((u0, v0), (u1, v1)) if low <= u0 and u1 <= high else None
    return ((max(u0, low), v0), (min(u1, high), v1))


def _sheet(piece: Piece, group: list[_Stretch], ids: dict[Mark, str]) -> Sheet:
    one = group[0]
    part, face = one.part, one.face
    words = _cut_words(one)
    board = Easel(piece.rule)
    left, foot = mm(30), mm(34) + mm(8) * len(words)
    facing = _Facing(part, face, one.low, one.high, (left, foot))
    right = left + one.high - one.low
    head = foot + facing.across
    _waste(board, facing, one)
    _outline(board, facing)
    places = _gauge_places(board, facing, one, ids)
    # past the name of an end that stands there
    beside = right + mm(4) + LABEL if one.high == part.length else right - mm(2)
    reach = max(figures_beside(board, _together(places), beside), right + mm(20))
    reach = max([reach, *(_row_width(board, row) for row in words)])
    _above(board, facing, one, head)
    knifed = sorted({mark.distance for mark in one.marks if _told_below(mark, one)})
    figures_below(board, [Place(at, facing.spot(at, ZERO)[0], foot) for at in knifed])
    _words(board, words, one, reach)
    axis = other_axis(face)
    reference = "face side" if axis == "T" else "face edge"
    hand = f", {part.hand} hand" if part.hand else ""
    note = end_note(piece, part.id)
    parts = ", ".join(dict.fromkeys(each.part.name for each in group))
    rails = base_name(piece, dict.fromkeys(each.joint.rail for each in group))
    return Sheet(
        f"{_kind(one)} for {rails}: {SURFACES[face]}{hand}",
        f"{parts}. Heavy edge flush with the {reference}, end A to the left"
        + (f": {note}" if note else ""),
        board.scene(reach + mm(2), head + mm(13)),
        "full size",
    )


def _kind(one: _Stretch) -> str:
    """What a template is for, in a word."""
    if one.face == one.joint.meeting.face:
        return "Mortise"
    if one.face == OPPOSITE[one.joint.meeting.face] and one.joint.size.through:
        return "Outer end of the mortise"
    roles = {mark.role for mark in one.marks if mark.joint == one.joint.name}
    pegged = any("peg" in role for role in roles)
    if any("moulding" in role for role in roles):
        return "Pegs and moulding" if pegged else "Moulding cut back"
    return "Peg holes"


def _told_below(mark: Mark, one: _Stretch) -> bool:
    """True for the places along the part that are told below the drawing."""
    return (
        mark.joint == one.joint.name
        and mark.source == "end A"
        and mark.tool in ("knife", "bit", "bevel")
    )


def _waste(board: Easel, facing: _Facing, one: _Stretch) -> None:
    """What is cut out of this surface, hatched; on a surface that pegs are bored from, the
    mortise behind it as a hidden outline, and the holes.
    """
    entered = one.face in (one.joint.meeting.face, OPPOSITE[one.joint.meeting.face])
    for cut in one.cuts:
        if isinstance(cut.shape, Hull):
            corners = [facing.spot(u, v) for u, v in figure_on(cut.shape, one.part, one.face)]
            if corners:
                board.hatch_polygon(corners)
                board.polygon(corners, Pen.NARROW)
            elif not entered and is_mortise(cut.role):
                low, high = cut.shape.reach("L")
                near, far = cut.shape.reach(other_axis(one.face))
                board.rectangle(*_corners(facing, (low, near), (high, far)), Pen.HIDDEN)
    if entered:
        for cut in one.cuts:
            if is_mortise(cut.role):
                low, high = cut.shape.reach("L")
                near, far = cut.shape.reach(other_axis(one.face))
                middle = (near + far) / 2
                board.line(facing.spot(low - mm(6), middle), facing.spot(high + mm(6), middle),
                           Pen.CENTRE)
        return
    for cut in one.cuts:
        if isinstance(cut.shape, Cylinder):
            circle = circle_on(cut.shape, one.part, one.face)
            if circle is not None:
                _hole(board, facing.spot(*circle[0]), circle[1])


def _hole(board: Easel, centre: Spot, radius: Fraction) -> None:
    """A hole to bore: its rim, and a cross to prick its centre through."""
    board.circle(centre, radius, Pen.WIDE)
    arm = radius + mm(3)
    x, y = centre
    board.line((x - arm, y), (x + arm, y), Pen.CENTRE)
    board.line((x, y - arm), (x, y + arm), Pen.CENTRE)
    board.circle(centre, mm("0.4"), Pen.NARROW, "black")


def _gauge_places(
    board: Easel, facing: _Facing, one: _Stretch, ids: dict[Mark, str]
) -> list[Place]:
    """Draws every mark; returns where gauge lines end at the right, to be told there."""
    places = []
    for mark in one.marks:
        own = mark.joint == one.joint.name
        end = _mark(board, facing, mark, ids[mark], same=own)
        if end is not None and mark.tool in GAUGED and mark.source != "end A":
            places.append(Place(mark.distance, end[0], end[1], _word(mark, one)))
    return places


def _word(mark: Mark, one: _Stretch) -> str:
    """What a gauge line belongs to."""
    if mark.joint.endswith(".seat"):
        return "groove" if "groove" in mark.role else mark.role
    if "wall" in mark.role:
        name = mark.role.replace("near wall", "").replace("far wall", "").strip()
        return f"{name} mortise" if name else "mortise"
    return mark.role


def _together(places: list[Place]) -> list[Place]:
    """One figure for every line, however many joints it serves; named where that is not plain."""
    by_line: dict[tuple[Fraction, Fraction], list[Place]] = {}
    for place in places:
        by_line.setdefault((place.value, place.y), []).append(place)
    found = []
    for same in by_line.values():
        words = sorted({place.word for place in same}, key=lambda word: (word != "mortise", word))
        if len(words) > 1 and all(word.endswith("mortise") for word in words):
            words = ["mortise"]
        word = "" if words == ["mortise"] else " and ".join(words)
        found.append(max(same, key=lambda place: place.x)._replace(word=word))
    return found


def _above(board: Easel, facing: _Facing, one: _Stretch, head: Fraction) -> None:
    """Above the drawing: where a seat stops, and where the rail's edges come to."""
    told = {mark.distance for mark in one.marks if _told_below(mark, one)}
    seen: dict[Fraction, str] = {}
    for mark in one.marks:
        seat = mark.joint.endswith(".seat")
        if mark.source != "end A" or mark.line is None or mark.distance in told:
            continue
        if seat or mark.tool == "pencil":
            seen.setdefault(mark.distance, mark.role)
    inside = {
        at: role for at, role in seen.items() if facing.low < at < facing.high
    }
    places = sorted(inside)
    widths = [
        board.figure_width(at, LABEL) + text_width(inside[at], NOTE) + mm(6) for at in places
    ]
    xs = [facing.spot(at, ZERO)[0] for at in places]
    lefts = spread([x + mm(1) for x in xs], widths)
    # none may reach over the figures at the right
    limit = facing.spot(facing.high, ZERO)[0]
    for index in reversed(range(len(lefts))):
        lefts[index] = min(lefts[index], limit - widths[index])
        limit = lefts[index]
    for at, x, left in zip(places, xs, lefts, strict=True):
        board.line((x, head), (x, head + mm(3)), Pen.THIN)
        width = board.figure((left + mm(1), head + mm(7)), at, LABEL)
        board.text((left + mm(2) + width, head + mm(7)), inside[at], NOTE)
        # to the words' nearest end, or under them where the line comes up there
        end = left + mm(2) + width + text_width(inside[at], NOTE)
        board.line((x, head + mm(3)), (min(max(x, left), end), head + mm(6)), Pen.THIN)


def _cut_words(one: _Stretch) -> list[list[tuple[str, Fraction | None]]]:
    """How wide and how deep each kind of cut is: rows of words, each with a figure after it."""
    into = one.joint.meeting.into
    entered = one.face in (one.joint.meeting.face, OPPOSITE[one.joint.meeting.face])
    rows: list[list[tuple[str, Fraction | None]]] = []
    for cut in one.cuts:
        row = _row(one, cut, into, entered)
        if row is not None and row not in rows:
            rows.append(row)
    return rows


def _row(
    one: _Stretch, cut: Cut, into: str, entered: bool
) -> list[tuple[str, Fraction | None]] | None:
    if isinstance(cut.shape, Cylinder):
        if entered:
            return None
        deep = abs(cut.shape.end - cut.shape.start)
        return [("bore", 2 * cut.shape.radius), ("wide,", deep), ("deep", None)]
    low, high = cut.shape.reach(into)  # type: ignore[arg-type]
    deep = high - low
    if is_mortise(cut.role):
        if not entered:
            return None
        near, far = cut.shape.reach(one.joint.meeting.thickness.axis)
        end: list[tuple[str, Fraction | None]] = (
            [("wide, right through: mark and cut from both faces", None)]
            if one.joint.size.through
            else [("wide,", deep), ("deep", None)]
        )
        return [("mortise", far - near), *end]
    if cut.role.endswith("socket") and one.face == one.joint.meeting.face:
        haunch = one.joint.choice.haunch
        sloped = "haunch" in cut.role and haunch is not None and haunch.kind == "sloped"
        tail = "deep at the mortise, sloping to nothing" if sloped else "deep"
        return [(cut.role, deep), (tail, None)]
    if cut.role == "moulding cut back" and one.face != one.joint.meeting.face:
        mould = one.joint.choice.mould
        assert mould is not None  # the cut comes from it
        return [("cut the moulding back", mould.width), ("wide,", mould.depth), ("deep", None)]
    return None


def _row_width(board: Easel, row: list[tuple[str, Fraction | None]]) -> Fraction:
    """How far to the right a row of words and figures reaches."""
    width = mm(4)
    for word, size in row:
        width += text_width(word, LABEL) + mm(2)
        if size is not None:
            width += board.figure_width(size, NAME, True) + mm(2)
    return width


def _words(
    board: Easel,
    rows: list[list[tuple[str, Fraction | None]]],
    one: _Stretch,
    reach: Fraction,
) -> None:
    """Below the drawing: what the figures are, the sizes of the cuts, the caution."""
    y = mm(8)
    for row in reversed(rows):
        x = mm(2)
        for word, size in row:
            board.text((x, y), word, LABEL)
            x += text_width(word, LABEL) + mm(2)
            if size is not None:
                x += board.figure((x, y), size, NAME, bold=True) + mm(2)
        y += mm(8)
    words = "below: knife lines, from end A; at the right: gauge lines, from the heavy edge"
    if one.face not in (one.joint.meeting.face, OPPOSITE[one.joint.meeting.face]):
        words = "below: from end A; at the right: gauge lines, from the heavy edge"
    told = wrap_at_most(words, 2, NOTE, reach - mm(4))
    for index, line in enumerate(reversed(told)):
        board.text((mm(2), y + mm("0.5") + mm(4) * index), line, NOTE)
    board.text((mm(2), mm(2)), wrap(CAUTION, NOTE, reach - mm(4), False)[0], NOTE)


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
    if mark.line is None:
        return None
    (u0, v0), (u1, v1) = mark.line
    if mark.tool == "pencil":
        pen = Pen.HIDDEN
    elif mark.tool in ("knife", "bevel"):
        pen = Pen.WIDE
    else:
        pen = Pen.NARROW
        if same and v0 == v1:
            u0, u1 = min(u0, u1) - BEYOND, max(u0, u1) + BEYOND
    if v0 != v1:
        if not (facing.low <= min(u0, u1) and max(u0, u1) <= facing.high):
            return None
        board.line(facing.spot(u0, v0), facing.spot(u1, v1), pen, name)
        return facing.spot(max(u0, u1), v1)
    low, high = max(min(u0, u1), facing.low), min(max(u0, u1), facing.high)
    if low > high:
        return None
    board.line(facing.spot(low, v0), facing.spot(high, v1), pen, name)
    return facing.spot(high, v1)
