"""Sections of slides at full size, to hold against the work: the socket, and the tail beside it.

Both are seen from the edge that the board is entered from; where the run is tapered, a second row
shows them at the closed end.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import listed
from layout.errors import Where
from layout.joints.slide import (
    SIDES,
    Side,
    Slide,
    bearer_face,
    entry_face,
    which,
)
from layout.mark import Mark
from layout.measure import show
from layout.part import FACE_NORMAL, Direction, piece_axis, sense
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import mark_ids

BESIDE = mm(24)  # how much of the bearer is shown at both sides of its socket
ABOVE = mm(22)  # how much of the slider is shown behind its shoulders
GAP = mm(26)


class _Row(NamedTuple):
    """One section: its taper, and what it is called."""

    taper: Fraction
    words: str


def slide_sections(piece: Piece) -> tuple[Sheet, ...]:
    """A sheet for every distinct socket with its tail."""
    groups: dict[object, list[Slide]] = {}
    for slide in piece.slides:
        groups.setdefault(_looks(slide), []).append(slide)
    ids = mark_ids(piece)
    return tuple(_sheet(piece, group, ids) for group in groups.values())


def _looks(slide: Slide) -> object:
    """What must agree for two slides to share a sheet."""
    thick = slide.bearer.size(FACE_NORMAL[bearer_face(slide)][0])
    return (slide.slider.kind, slide.bearer.kind, slide.choice._replace(where=Where()), slide.depth,
            slide.slider.thickness, thick, slide.slider.width, which(slide, "face"),
            face_at_left(slide))


def _sheet(piece: Piece, group: list[Slide], ids: dict[Mark, str]) -> Sheet:
    slide = group[0]
    stations = slide.stations()
    rows = [_Row(stations[-1][1], "where it is entered")]
    if slide.choice.taper:
        rows.append(_Row(slide.choice.taper, "at the closed end"))
    board = Easel(piece.rule)
    thick = slide.bearer.size(FACE_NORMAL[bearer_face(slide)][0])
    words = [line for one in _words(piece, group) for line in wrap(one, LABEL, mm(150), False)]
    y = mm(6) + mm(5) * len(words)
    high = ABOVE + thick + mm(34)
    top = y + high * len(rows)
    width = mm(156)
    for index, row in enumerate(rows):
        surface = top - high * index - ABOVE
        reach = _row(board, piece, slide, row, surface, ids if index == 0 else {})
        width = max(width, reach)
    y -= mm(3)
    for line in words:
        board.text((mm(2), y), line, LABEL)
        y -= mm(5)
    board.text((mm(2), mm("0.8")), CAUTION, NOTE)
    sliders = listed(list(dict.fromkeys(one.slider.name for one in group)))
    bearers = listed(list(dict.fromkeys(one.bearer.name for one in group)))
    name = "Housing" if slide.choice.square else "Slide"
    return Sheet(
        f"{name}: {sliders} in {bearers}",
        f"sections seen from the {slide.choice.enter}; hold them against the edge",
        board.scene(width + mm(4), top + mm(12)),
        "full size",
    )


def _row(
    board: Easel, piece: Piece, slide: Slide, row: _Row, surface: Fraction, ids: dict[Mark, str]
) -> Fraction:
    """The socket and the tail side by side; returns how far to the right they reach."""
    x = mm(14) + board.figure_width(slide.depth, NAME, True) + BESIDE
    board.text((mm(2), surface + ABOVE + mm(5)), row.words, LABEL, bold=True)
    right = _socket(board, piece, slide, row, (x, surface), ids)
    return _tail(board, piece, slide, row, (right + GAP, surface), ids)


def _sides(slide: Slide, taper: Fraction, into: Fraction) -> tuple[Fraction, Fraction]:
    """The face side's and the back's place through the slider, in mm from its face side."""
    return slide.side_at("face", taper, into), slide.side_at("back", taper, into)


def face_at_left(slide: Slide) -> bool:
    """True where the slider's face side comes at the left, held with the bearer's surface up and
    the edge that it is entered from toward us: right is up x toward us.
    """
    place = slide.slider.placement
    up = _way(place.L, slide.end == "A")
    toward = _way(place.W, slide.choice.enter == "back")
    right = (
        up[1] * toward[2] - up[2] * toward[1],
        up[2] * toward[0] - up[0] * toward[2],
        up[0] * toward[1] - up[1] * toward[0],
    )
    return right == _way(place.T, True)


def _way(direction: Direction, forward: bool) -> tuple[int, int, int]:
    found = [0, 0, 0]
    found[piece_axis(direction)] = sense(direction) * (1 if forward else -1)
    return (found[0], found[1], found[2])


def _across(slide: Slide, x: Fraction, t: Fraction) -> Fraction:
    """A place through the slider's thickness on paper, its left side at x."""
    return x + (t if face_at_left(slide) else slide.slider.thickness - t)


def _named_marks(
    piece: Piece, slide: Slide, on_bearer: bool, ids: dict[Mark, str]
) -> dict[str, str]:
    """The names of the marks on the edge shown, by role."""
    part = slide.bearer if on_bearer else slide.slider
    edge = entry_face(slide) if on_bearer else (
        "far edge" if slide.choice.enter == "back" else "edge")
    return {
        mark.role: ids[mark]
        for mark in piece.marks_of(part.id)
        if mark.joint == slide.name and mark.face == edge and mark in ids
    }


def _socket(
    board: Easel, piece: Piece, slide: Slide, row: _Row, at: Spot, ids: dict[Mark, str]
) -> Fraction:
    """The bearer's edge with the socket in it; its surface lies above."""
    x, y = at
    thick = slide.bearer.size(FACE_NORMAL[bearer_face(slide)][0])
    mouth = _sides(slide, row.taper, ZERO)
    floor = _sides(slide, row.taper, slide.depth)
    corners = [
        (_across(slide, x, mouth[0]), y), (_across(slide, x, mouth[1]), y),
        (_across(slide, x, floor[1]), y - slide.depth),
        (_across(slide, x, floor[0]), y - slide.depth),
    ]
    board.hatch_polygon(corners)
    marks = _named_marks(piece, slide, True, ids)
    names: dict[Side, str] = {side: f"{which(slide, side)} side of the socket" for side in SIDES}
    left, right = x - BESIDE, x + slide.slider.thickness + BESIDE
    board.line(corners[0], corners[3], Pen.WIDE, marks.get(names["face"], ""))
    board.line(corners[1], corners[2], Pen.WIDE, marks.get(names["back"], ""))
    board.line(corners[3], corners[2], Pen.WIDE, marks.get("socket depth", ""))
    for end, corner in zip((left, right), sorted(corners[:2]), strict=True):
        board.line((end, y), corner, Pen.WIDE)
    board.line((left, y - thick), (right, y - thick), Pen.WIDE)
    for end in (left, right):
        board.line((end, y - thick), (end, y), Pen.HIDDEN)
    board.text((left, y - thick - mm("3.6")), slide.bearer.kind, NOTE, room=BESIDE)
    # its widths over the surface and under the board, its depth at the left
    over = sorted((corners[0][0], corners[1][0]))
    under = sorted((corners[3][0], corners[2][0]))
    _width(board, (over[0], over[1]), y, mm(9), mouth[1] - mouth[0])
    _width(board, (under[0], under[1]), y - thick, -mm(9), floor[1] - floor[0], y - slide.depth)
    _depth(board, left - mm(6), y, y - slide.depth, slide.depth, left)
    return right


def _tail(
    board: Easel, piece: Piece, slide: Slide, row: _Row, at: Spot, ids: dict[Mark, str]
) -> Fraction:
    """The slider's edge with its tail, pointing down like the socket."""
    x, y = at
    neck = _sides(slide, row.taper, ZERO)
    tip = _sides(slide, row.taper, slide.tail)
    thick = slide.slider.thickness
    marks = _named_marks(piece, slide, False, ids)
    foot = y - slide.tail
    for side, base, at_neck, at_tip in (
        ("face", ZERO, neck[0], tip[0]), ("back", thick, neck[1], tip[1])
    ):
        base, at_neck, at_tip = (_across(slide, x, t) for t in (base, at_neck, at_tip))
        waste = [(base, y), (at_neck, y), (at_tip, foot), (base, foot)]
        kept = list(dict.fromkeys(waste))
        board.hatch_polygon(kept)
        if base != at_neck:
            board.line((base, y), (at_neck, y), Pen.WIDE)
        board.line((at_neck, y), (at_tip, foot), Pen.WIDE, marks.get(f"tail side, {side}", ""))
        board.line((base, y), (base, y + ABOVE - mm(4)), Pen.WIDE)
    tips = sorted(_across(slide, x, t) for t in tip)
    board.line((tips[0], foot), (tips[1], foot), Pen.WIDE)
    board.line((x, y + ABOVE - mm(4)), (x + thick, y + ABOVE - mm(4)), Pen.HIDDEN)
    words = f"face side at the {'left' if face_at_left(slide) else 'right'}"
    board.text((x, y + ABOVE - mm(2)), words, NOTE)
    _width(board, (tips[0], tips[1]), foot, -mm(9), tip[1] - tip[0])
    _depth(board, x + thick + mm(8), y, foot, slide.tail, x + thick)
    beside = x + thick + mm(10) + board.figure_width(slide.tail, NAME, True)
    return max(beside, x + text_width(words, NOTE))


def _width(
    board: Easel,
    span: tuple[Fraction, Fraction],
    y: Fraction,
    off: Fraction,
    length: Fraction,
    start: Fraction | None = None,
) -> None:
    """A width between two upright leaders from y, its figure beyond them."""
    for x in span:
        board.line((x, y if start is None else start), (x, y + off), Pen.THIN)
    at = y + off * 2 / 3
    board.arrow((span[1], at), (span[0], at))
    board.arrow((span[0], at), (span[1], at))
    up = mm(1) if off > 0 else -NAME - mm(4)
    board.figure(((span[0] + span[1]) / 2, y + off + up), length, NAME, "middle", bold=True)


def _depth(
    board: Easel, x: Fraction, top: Fraction, foot: Fraction, length: Fraction, edge: Fraction
) -> None:
    """A depth between two level leaders at x, its figure beside them, away from the drawing."""
    for y in (top, foot):
        board.line((edge, y), (x, y), Pen.THIN)
    board.arrow((x, top), (x, foot))
    board.arrow((x, foot), (x, top))
    left = x < edge
    board.figure((x - mm(2) if left else x + mm(2), (top + foot) / 2 - NAME / 2), length, NAME,
                 "right" if left else "left", bold=True)


def _shoulders(slide: Slide, told: Callable[[Fraction], str]) -> list[str]:
    """What is sawn off beside the neck, where it is entered and at the closed end."""
    rows = []
    places = [(slide.stations()[-1][1], "")]
    if slide.choice.taper:
        places = [(places[0][0], " where it is entered"),
                  (slide.choice.taper, " at the closed end")]
    for taper, where in places:
        neck = _sides(slide, taper, ZERO)
        sizes = [(neck[0], "at the face side"),
                 (slide.slider.thickness - neck[1], "at the back")]
        words = [f"{told(size)} {word}" for size, word in sizes if size]
        if words:
            rows.append(f"Shoulder{where}: {', '.join(words)}.")
    return rows


def _words(piece: Piece, group: list[Slide]) -> list[str]:
    """Slope, direction and travel, stop and taper, a sentence each."""
    slide = group[0]
    choice = slide.choice

    def told(length: Fraction) -> str:
        return show(length, piece.rule).with_unit

    run = slide.slider.width - choice.stop
    rows = [f"Slid in from the {choice.enter}, {told(run)} to travel. Hatched is waste."]
    if choice.slope is not None:
        rows[0] = (f"Bevel {choice.slope.ratio_text}, {choice.slope.degrees_text} degrees. "
                   + rows[0])
    rows += _shoulders(slide, told)
    if choice.stop:
        rows.append(f"The socket stops {told(choice.stop)} short of the other edge; the board is "
                    "notched there.")
    if choice.taper:
        over = "the whole run"
        if choice.taper_over is not None:
            over = f"the last {told(choice.taper_over)}"
        rows.append(f"It narrows by {told(choice.taper)} over {over}.")
    ends = listed(list(dict.fromkeys(f"{one.slider.name}, {one.end_face}" for one in group)))
    rows.append(f"For {ends}.")
    return rows
