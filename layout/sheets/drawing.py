"""A drawing of the whole: three views, part letters tied to the cut list.

Third angle for inch pieces, first angle for metric ones (ISO 128-30 leaves the choice; the
cone symbol says which).
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from layout.checks.placed import Box, part_box
from layout.part import Part, piece_axis, sense
from layout.piece import Piece
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import HEADING, LABEL, NOTE, ZERO, Easel, mm
from layout.stock.cut_list import cut_list

# ISO 5455 for metric pieces; for inch ones the scales of a rule in quarters and twelfths.
SCALES = {
    "mm": tuple(Fraction(1, n) for n in (2, 5, 10, 15, 20, 25, 50, 100)),
    "in": tuple(Fraction(1, n) for n in (2, 4, 8, 12, 16, 24, 48, 96)),
}
GAP = mm(20)
LEAST_LETTERED = mm(10)  # a part drawn smaller than this has its letter in another view


class View(NamedTuple):
    """A view: which piece axes run right and up, which one is looked along, and from where.

    `far_first` is True where greater coordinates along the line of sight lie further away.
    """

    name: str
    across: int
    up: int
    sight: int
    near_low: bool
    flip: bool = False


FRONT = View("from the front", 0, 2, 1, True)
LEFT = View("from the left", 1, 2, 0, True, flip=True)
RIGHT = View("from the right", 1, 2, 0, False)
TOP = View("from above", 0, 1, 2, False)


def drawing_sheets(piece: Piece, area: tuple[Fraction, Fraction]) -> tuple[Sheet, ...]:
    """One page: the piece from the front, from the side and from above, with overall sizes."""
    board = Easel(piece.rule)
    boxes = {part.id: _seen(piece, part) for part in piece.parts} | _proud(piece)
    spans = [
        (min(b[axis][0] for b in boxes.values()), max(b[axis][1] for b in boxes.values()))
        for axis in range(3)
    ]
    length, depth, height = (high - low for low, high in spans)
    third_angle = piece.rule.unit == "in"
    room = (area[0] - GAP - mm(24), area[1] - GAP - mm(32))
    scales = SCALES[piece.rule.unit]
    scale = next(
        (
            s
            for s in scales
            if (length + depth) * s <= room[0] and (height + depth) * s <= room[1]
        ),
        scales[-1],
    )
    side = RIGHT if third_angle else LEFT
    wide, deep, high = length * scale, depth * scale, height * scale
    left = (area[0] - wide - deep - GAP) / 2
    base = (area[1] - mm(12) - high - deep - GAP) / 2 + mm(2)
    front_at = (left, base) if third_angle else (left, base + deep + GAP)
    top_at = (left, base + high + GAP) if third_angle else (left, base)
    side_at = (left + wide + GAP, front_at[1])
    letters = {part: row.letter for row in cut_list(piece) for part in row.parts}
    for view, at in ((FRONT, front_at), (side, side_at), (TOP, top_at)):
        _view(board, view, at, scale, boxes, spans, letters, piece)
    for origin, way in ((front_at, wide), (side_at, deep)):
        y = origin[1] - mm(12)
        for x in (origin[0], origin[0] + way):
            board.line((x, origin[1] - mm(1)), (x, y - mm(2)), Pen.THIN)
        board.dimension((origin[0], y), (origin[0] + way, y), way / scale)
    x = front_at[0] - mm(10)
    for y in (front_at[1], front_at[1] + high):
        board.line((x - mm(2), y), (front_at[0] - mm(1), y), Pen.THIN)
    board.dimension((x, front_at[1]), (x, front_at[1] + high), height)
    board.text((ZERO, area[1] - mm(9)), piece.name, HEADING, bold=True, room=area[0] - mm(70))
    angle = "third angle" if third_angle else "first angle"
    ratio = f"1:{scale.denominator}"
    board.text((area[0] - mm(32), area[1] - mm(8)), f"{angle}, {ratio}", LABEL, "right")
    _cone(board, (area[0] - mm(28), area[1] - mm(7)), third_angle)
    board.text((ZERO, area[1] - mm(14)), "letters as in the cut list", NOTE)
    return (
        Sheet(
            "The whole",
            "overall sizes and part letters",
            board.scene(*area),
            "page",
            scale=ratio,
        ),
    )


def _seen(piece: Piece, part: Part) -> Box:
    """A part's reach along X, Y and Z without what is hidden in its joints."""
    box = _without_corners(piece, part, part_box(part))
    for panel, around in _seated(piece):
        if panel.id == part.id:
            left, right, lower, upper = (part_box(one) for one in around)
            across = piece_axis(around[2].placement.L)
            sight = {across: _between(left[across], right[across]), 2: (lower[2][1], upper[2][0])}
            return tuple(sight.get(axis, span) for axis, span in enumerate(box))
    for one in piece.rails:
        if one.rail.part.id == part.id:
            along = piece_axis(part.placement.L)
            at_a, at_b = (size.length for size in one.sizes)
            if sense(part.placement.L) < 0:
                at_a, at_b = at_b, at_a
            low, high = box[along]
            shown = (low + at_a, high - at_b)
            return tuple(shown if axis == along else span for axis, span in enumerate(box))
    return box


def _seated(piece: Piece) -> list[tuple[Part, tuple[Part, Part, Part, Part]]]:
    """Every panel, with what bounds it at the left, at the right, below and above."""
    found = [
        (one.part, (one.opening.left, one.opening.right, one.lower.part, one.upper.part))
        for one in piece.panels
    ]
    found += [
        (bay.part, (bay.left, bay.right, bay.lower, bay.upper))
        for door in piece.doors for bay in door.bays
    ]
    return found


def _between(
    one: tuple[Fraction, Fraction], other: tuple[Fraction, Fraction]
) -> tuple[Fraction, Fraction]:
    """What lies between two reaches."""
    first, second = sorted((one, other))
    return first[1], second[0]


def _fields(
    piece: Piece, view: View, shown: set[str]
) -> list[tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]:
    """The fields of raised panels that are looked at, and their corners' hips."""
    found = []
    for part, _ in _seated(piece):
        toward = (sense(part.placement.T) > 0) == view.near_low
        lines = [mark.line for mark in piece.marks_of(part.id) if mark.role == "field"]
        if piece_axis(part.placement.T) != view.sight or not toward or part.id not in shown:
            continue
        us = sorted({line[0][0] for line in lines if line and line[0][0] == line[1][0]})
        vs = sorted({line[0][1] for line in lines if line and line[0][1] == line[1][1]})
        if len(us) != 2 or len(vs) != 2:
            continue
        corners = [(us[0], vs[0]), (us[0], vs[1]), (us[1], vs[1]), (us[1], vs[0])]
        spots = [part.placement.to_piece((u, v, ZERO)) for u, v in corners]
        seen = [(spot[view.across], spot[view.up]) for spot in spots]
        found += list(pairwise([*seen, seen[0]]))
        sight = _seen(piece, part)
        for across, up in seen:  # the hips run out to the corners of what is seen
            found.append(((across, up), (_nearer(sight[view.across], across),
                                         _nearer(sight[view.up], up))))
    return found


def _nearer(reach: tuple[Fraction, Fraction], to: Fraction) -> Fraction:
    """The nearer end of a reach."""
    return min(reach, key=lambda end: abs(end - to))


def _without_corners(piece: Piece, part: Part, box: Box) -> Box:
    """At a through corner the tail board is drawn whole, at a lapped one the pin board: what the
    other has there lies between its tails or pins, or behind them. A slid board ends at its
    shoulders.
    """
    along = piece_axis(part.placement.L)
    at_a, at_b = ZERO, ZERO
    for corner in piece.corners:
        taken = ZERO
        if corner.through and corner.pins.id == part.id:
            taken, end = corner.tails.thickness, corner.pin_end
        elif not corner.through and corner.tails.id == part.id:
            taken, end = corner.depth, corner.tail_end
        else:
            continue
        at_a, at_b = (taken, at_b) if end == "A" else (at_a, taken)
    for slide in piece.slides:
        if slide.slider.id == part.id:  # its tail lies in the bearer
            at_a, at_b = (slide.tail, at_b) if slide.end == "A" else (at_a, slide.tail)
    if sense(part.placement.L) < 0:
        at_a, at_b = at_b, at_a
    low, high = box[along]
    return tuple((low + at_a, high - at_b) if axis == along else span
                 for axis, span in enumerate(box))


def _sides(
    piece: Piece, view: View, shown: set[str]
) -> list[tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]:
    """The sides of tails that show in a view, across and up: on the outside of a tail board, or of
    a pin board whose tails come through.
    """
    found = []
    for corner in piece.corners:
        boards = [corner.tails, *([corner.pins] if corner.through else [])]
        for part in boards:
            outside = part.placement.T
            toward = (sense(outside) < 0) == view.near_low
            if piece_axis(outside) != view.sight or not toward or part.id not in shown:
                continue
            for mark in piece.marks_of(part.id):
                if mark.joint == corner.name and mark.face == "back" and mark.line is not None:
                    ends = [part.placement.to_piece((u, v, part.thickness)) for u, v in mark.line]
                    a, b = ((end[view.across], end[view.up]) for end in ends)
                    found.append((a, b))
    return found


def _proud(piece: Piece) -> dict[str, Box]:
    """The ends of through tenons that stand out beyond their bearers, by joint and tenon."""
    found = {}
    for joint in piece.joints:
        if joint.size.projection == 0:
            continue
        for tenon in joint.tenons():
            hull = joint.block((ZERO, joint.size.projection), tenon.across, tenon.through)
            points = [joint.rail.placement.to_piece(point) for point in hull.points]
            found[joint.name + tenon.name] = tuple(
                (min(p[axis] for p in points), max(p[axis] for p in points)) for axis in range(3)
            )
    return found


def _view(
    board: Easel,
    view: View,
    at: Spot,
    scale: Fraction,
    boxes: dict[str, Box],
    spans: list[tuple[Fraction, Fraction]],
    letters: dict[str, str],
    piece: Piece,
) -> None:
    """One view: what lies nearest hides what lies behind it, whole outlines at a time.

    `boxes` holds the parts by id, and the ends of tenons that stand proud by other names.
    """

    def spot(across: Fraction, up: Fraction) -> Spot:
        low, high = spans[view.across]
        x = high - across if view.flip else across - low
        y = up - spans[view.up][0]
        return (at[0] + x * scale, at[1] + y * scale)

    def nearness(name: str) -> Fraction:
        low, high = boxes[name][view.sight]
        return low if view.near_low else -high

    ordered = sorted(boxes, key=nearness, reverse=True)
    for name in ordered:
        box = boxes[name]
        a = spot(box[view.across][0], box[view.up][0])
        b = spot(box[view.across][1], box[view.up][1])
        low = (min(a[0], b[0]), min(a[1], b[1]))
        high = (max(a[0], b[0]), max(a[1], b[1]))
        board.rectangle(low, high, Pen.WIDE, "white")
    in_sight = {name for name in ordered if _is_seen(name, ordered, boxes, view)}
    lines = (*_sides(piece, view, in_sight), *_fields(piece, view, in_sight))
    for one, other in lines:
        board.line(spot(*one), spot(*other), Pen.NARROW)
    seen: set[tuple[Spot, str]] = set()
    for name in reversed(ordered):
        if name not in letters:
            continue
        box = boxes[name]
        middle = spot(
            (box[view.across][0] + box[view.across][1]) / 2,
            (box[view.up][0] + box[view.up][1]) / 2,
        )
        longest = max(box[axis][1] - box[axis][0] for axis in (view.across, view.up)) * scale
        if longest < LEAST_LETTERED or any(_near(middle, other) for other, _ in seen):
            continue
        if name not in in_sight:
            continue
        seen.add((middle, letters[name]))
    for middle, letter in sorted(seen):
        board.circle(middle, mm("2.6"), Pen.THIN, "white")
        board.text((middle[0], middle[1] - mm("1.25")), letter, NOTE, "middle", bold=True)
    board.text((at[0] + mm(2), at[1] - mm(5)), view.name, NOTE)


def _near(one: Spot, other: Spot) -> bool:
    return abs(one[0] - other[0]) < mm(6) and abs(one[1] - other[1]) < mm(6)


def _is_seen(name: str, ordered: Iterable[str], boxes: dict[str, Box], view: View) -> bool:
    """True where nothing nearer covers the middle of the part."""
    box = boxes[name]
    middle = [(box[axis][0] + box[axis][1]) / 2 for axis in (view.across, view.up)]
    behind = True
    for other in ordered:
        if other == name:
            behind = False
            continue
        if behind:
            continue
        span = boxes[other]
        if all(
            span[axis][0] <= value <= span[axis][1]
            for axis, value in zip((view.across, view.up), middle, strict=True)
        ):
            return False
    return True


def _cone(board: Easel, at: Spot, third_angle: bool) -> None:
    """The cone symbol of the projection (ISO 128-30)."""
    (x, y), small, large = at, mm("1.6"), mm(3)
    rings = x + mm(4) if third_angle else x + mm(18)
    cone = x + mm(10) if third_angle else x + mm(2)
    for radius in (small, large):
        board.circle((rings, y), radius, Pen.NARROW)
    # seen from its small end at the left, both circles show: that view stands at the left in
    # third angle, at the right in first
    right = cone + mm(8)
    corners = ((cone, y - small), (right, y - large), (right, y + large), (cone, y + small))
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        board.line(a, b, Pen.NARROW)
    board.line((x - mm(1), y), (x + mm(23), y), Pen.CENTRE)
