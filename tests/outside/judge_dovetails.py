"""A judge of dovetailed boxes: drawers, chests and carcases, held to the numbers alone.

A corner is a joint whose cuts are sockets in one board (the pin board) and waste in another (the
tail board). Heights are measured along the boards' width where they stand in the piece; depths
from the tail board's end toward its baseline. What a tail is comes from the sockets, what a pin is
from the waste: two boards' cuts, worked out by two hands, which must make one figure.

What may be hollow in a corner's block, and nothing else:

* the bottom's groove and the bottom's or the back's rabbet, as far as they run through the board
  whose wood stands there;
* above a back that is lower than the sides: the sides are sawn out there to their upper edge, as
  deep as the baseline and right through their thickness. (With half tails the outermost tail is
  whole up to the side's edge.)

The lips of a front stand beside the block: a rabbet that makes them takes nothing of it.
At a rabbet the pin is thinner by the rabbet's depth and the tail board longer by as much.
In a carcase the boards' width runs from front to back: "height" is a depth there.

`judge(numbers)` gives a list of objections, empty where the boxes are sound.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import Any

from manifold3d import Manifold
from shapely import Polygon, unary_union

from tests.outside.judge_boards import (
    NOTHING,
    NUDGE,
    Board,
    Cut,
    boards,
    common,
    corners,
    differ,
    figure,
    hull,
    less,
    overlapping,
    pushed,
    section,
    settled,
)

Spread = tuple[Fraction, Fraction]
Struck = tuple[str, str, str, str, str, Fraction]
"""Part, face, source, role, tool and distance of a gauge line."""

ZERO = Fraction(0)
FLAT = 1e-7
"""Square millimetres that count as none in a plane figure of doubles."""

BOTTOM = re.compile(r"bottom groove|edge rabbet( far edge| end [AB])?")
WASTE = re.compile(r"waste of (half pin|pin) (\d+)( at the rabbet)?")
SOCKET = re.compile(r"socket (\d+)")
SLOT = re.compile(r"screw slot( \d+)?")
GROOVE_RULE = "groove inside a tail"
"""The rule that may tell of a groove that comes out beside a tail."""


@dataclass(frozen=True)
class Corner:
    """Two boards that are dovetailed together."""

    name: str
    tail_board: Board
    pin_board: Board

    def __str__(self) -> str:
        return f"{self.name} ({self.tail_board.name} in {self.pin_board.name})"

    @cached_property
    def wastes(self) -> list[Cut]:
        """What the joint takes from the tail board, lowest first."""
        found = [cut for cut in self.tail_board.cuts if cut.joint == self.name]
        return sorted(found, key=lambda cut: (cut.reach[1], cut.role))

    @cached_property
    def sockets(self) -> list[Cut]:
        """What the joint takes from the pin board, lowest first."""
        found = [cut for cut in self.pin_board.cuts if cut.joint == self.name]
        return sorted(found, key=lambda cut: cut.reach[1])

    @cached_property
    def pins(self) -> list[Cut]:
        """The waste of pins and half pins, without what a rabbet adds to one."""
        return [cut for cut in self.wastes if not cut.role.endswith("at the rabbet")]

    @cached_property
    def steps(self) -> list[Cut]:
        """The waste of a half pin where it is rabbeted."""
        return [cut for cut in self.wastes if cut.role.endswith("at the rabbet")]

    @cached_property
    def tail_length(self) -> Fraction:
        """How deep the sockets are: as long as the tails."""
        return max(cut.reach[2][1] for cut in self.sockets)

    @cached_property
    def tail_end(self) -> str:
        """The end of the tail board that the waste is nearer to: A or B."""
        return _nearer(self.tail_board, self.pins)

    @cached_property
    def pin_end(self) -> str:
        """The end of the pin board that the sockets are nearer to: A or B."""
        return _nearer(self.pin_board, self.sockets)

    @cached_property
    def lip(self) -> Fraction:
        """How far the pin board reaches beyond its sockets: a lip, or nothing."""
        ends = {cut.reach[0][0] if self.pin_end == "A" else self.pin_board.size[0] - cut.reach[0][1]
                for cut in self.sockets}
        assert len(ends) == 1, f"{self}: the sockets begin at {ends}"
        return ends.pop()

    @cached_property
    def span(self) -> Spread:
        """From where to where both boards stand beside each other, along their width."""
        axis = self.tail_board.axes[1][0]
        one, other = self.tail_board.stands[axis], self.pin_board.stands[axis]
        return max(one[0], other[0]), min(one[1], other[1])

    def along(self, board: Board, width: Fraction) -> Fraction:
        """A place across a board as a height in the piece."""
        axis, sign = board.axes[1]
        return board.origin[axis] + width if sign > 0 else board.origin[axis] - width

    def within(self, board: Board, height: Fraction) -> Fraction:
        """A height in the piece as a place across a board."""
        axis, sign = board.axes[1]
        return sign * (height - board.origin[axis])

    def on_tails(self, depth: Fraction) -> Fraction:
        """A depth from the tail board's end as a place along it."""
        return depth if self.tail_end == "A" else self.tail_board.size[0] - depth

    def on_pins(self, deep: Fraction) -> Fraction:
        """A distance from where the sockets begin as a place along the pin board."""
        deep += self.lip
        return deep if self.pin_end == "A" else self.pin_board.size[0] - deep

    def pin_spread(self, cut: Cut, depth: Fraction) -> Spread:
        """From where to where a pin's waste reaches at a depth, in the piece."""
        heights = [self.along(self.tail_board, point[1])
                   for point in section(cut.points, 0, self.on_tails(depth))]
        return min(heights), max(heights)

    def tail_spread(self, cut: Cut, depth: Fraction) -> Spread:
        """From where to where a socket reaches where the tail's depth comes to lie."""
        heights = [self.along(self.pin_board, point[1])
                   for point in section(cut.points, 2, self.tail_length - depth)]
        return min(heights), max(heights)

    def row(self, depth: Fraction) -> list[tuple[str, Spread]]:
        """Pins and tails across the joint at a depth, each by its role, lowest first.

        Pins are cut off where the joint ends; a half pin that a rabbet thins is counted as it
        would be without.
        """
        low, high = self.span
        found = []
        for cut in self.pins:
            start, stop = self.pin_spread(cut, depth)
            for one in self.steps:
                if cut.reach[1][0] == one.reach[1][1]:
                    start = self.along(self.tail_board, one.reach[1][0])
                if cut.reach[1][1] == one.reach[1][0]:
                    stop = self.along(self.tail_board, one.reach[1][1])
            found.append((cut.role.removeprefix("waste of "), (max(start, low), min(stop, high))))
        found += [(cut.role.replace("socket", "tail"), self.tail_spread(cut, depth))
                  for cut in self.sockets]
        return sorted(found, key=lambda one: one[1])

    @cached_property
    def rows(self) -> tuple[list[tuple[str, Spread]], list[tuple[str, Spread]]]:
        """The row at the tails' ends and the row at their baseline."""
        return self.row(ZERO), self.row(self.tail_length)

    @cached_property
    def offset(self) -> Fraction:
        """What a tail's side leans over its length."""
        for cut in self.sockets:
            end, base = self.tail_spread(cut, ZERO), self.tail_spread(cut, self.tail_length)
            if end != base:
                return max(end[1] - base[1], base[0] - end[0])
        raise AssertionError(f"{self}: no tail has a slope")

    @property
    def lapped(self) -> bool:
        """Whether the pin board covers the tails' ends."""
        return self.tail_length < self.pin_board.size[2]


def _nearer(board: Board, cuts: list[Cut]) -> str:
    middle = sum(sum(cut.reach[0]) for cut in cuts) / (2 * len(cuts))
    return "A" if 2 * middle < board.size[0] else "B"


def joints_of(parts: dict[str, Board]) -> list[Corner]:
    """Every dovetailed corner."""
    found: dict[str, dict[str, Board]] = {}
    for board in parts.values():
        for cut in board.cuts:
            if SOCKET.fullmatch(cut.role):
                found.setdefault(cut.joint, {})["pins"] = board
            elif WASTE.fullmatch(cut.role):
                found.setdefault(cut.joint, {})["tails"] = board
    for name, both in found.items():
        assert set(both) == {"pins", "tails"}, f"{name} has only {set(both)}"
    return [Corner(name, both["tails"], both["pins"]) for name, both in found.items()]


@dataclass(frozen=True)
class Box:
    """What is judged."""

    numbers: dict[str, Any]
    parts: dict[str, Board]
    corners: list[Corner]

    @cached_property
    def by_id(self) -> dict[str, Board]:
        """The boards by their id."""
        return {board.id: board for board in self.parts.values()}

    @cached_property
    def joints(self) -> set[str]:
        """The joints of drawers and chests: corners, bottoms, lips and lids."""
        names = {corner.name.rpartition(".")[0] for corner in self.corners}
        every = {cut.joint for board in self.parts.values() for cut in board.cuts}
        every |= {mark["joint"] for mark in self.numbers["marks"]}
        return {one for one in every if one.partition(".")[0] in names}

    @property
    def marks(self) -> list[dict[str, Any]]:
        """The marks of these joints."""
        return [mark for mark in self.numbers["marks"] if mark["joint"] in self.joints]

    def told(self, rule: str, board: Board) -> bool:
        """Whether a check has told of a board under a rule, more than as a note."""
        return any(one["rule"] == rule and one["level"] != "note" and board.id in one["parts"]
                   for one in self.numbers["checks"])


def box_of(numbers: dict[str, Any]) -> Box:
    """The boards and corners of a piece."""
    parts = boards(numbers)
    return Box(numbers, parts, joints_of(parts))


def judge(
    numbers: dict[str, Any], subjects: tuple[str, ...] = (), box: Box | None = None
) -> list[str]:
    """Every objection; `subjects` are keys of SUBJECTS, left out: all of them."""
    box = box_of(numbers) if box is None else box
    return [
        f"{subject}: {objection}"
        for subject in subjects or tuple(SUBJECTS)
        for objection in SUBJECTS[subject](box)
    ]


def judge_marks(
    parts: dict[str, Board], told: list[dict[str, Any]]
) -> tuple[list[str], list[dict[str, Any]]]:
    """Every objection against the marks of a piece's boxes, and the marks that are no box's."""
    box = Box({"marks": told}, parts, joints_of(parts))
    others = [mark for mark in told if mark["joint"] not in box.joints]
    return list(_marks(box)), others


# -- tails and pins tile the corner: exact


def _tiles(box: Box) -> Iterator[str]:
    """At the tails' ends and at their baseline, pins and tails follow one another without gap or
    overlap from edge to edge; between the two every side is straight.
    """
    for corner in box.corners:
        crooked = list(_prisms(corner))
        if crooked:
            yield from crooked
            continue
        for what, row in zip(("end", "baseline"), corner.rows, strict=True):
            low, high = corner.span
            places = [low, *(place for _, spread in row for place in spread), high]
            if any(a != b for a, b in zip(places[::2], places[1::2], strict=True)):
                yield f"{corner}: at the {what} {places} don't follow one another"
            if any(stop < start or (stop == start and role.startswith(("tail", "pin")))
                   for role, (start, stop) in row):
                yield f"{corner}: at the {what} something is narrower than nothing: {row}"
            kinds = [role.split()[-2] for role, _ in row]
            if any(a == b for a, b in pairwise(kinds)):
                yield f"{corner}: tails and pins don't take turns: {kinds}"
            total = sum(((stop - start) for _, (start, stop) in row), ZERO)
            if total != high - low:
                yield f"{corner}: at the {what} all together are {total}, not {high - low}"
        yield from _numbered(corner)


def _prisms(corner: Corner) -> Iterator[str]:
    """Waste goes right through the tail board, from its end to the baseline; sockets as far into
    the pin board as the tail board is thick, and as deep as the tails are long.
    """
    lips = [cut for cut in corner.pin_board.cuts
            if cut.role == f"edge rabbet end {corner.pin_end}" and cut.joint.endswith(".lip")]
    widths = {cut.reach[0][1] - cut.reach[0][0] for cut in lips} or {ZERO}
    if widths != {corner.lip}:
        yield f"{corner}: the sockets begin {corner.lip} from the end, the lip is {widths}"
    if any(cut.reach[2] != (0, corner.tail_length) for cut in lips):
        yield f"{corner}: a lip's rabbet is not as deep as the tails are long"
    long, thick = corner.tail_length, corner.tail_board.size[2]
    planes = {corner.on_tails(ZERO), corner.on_tails(long)}
    for cut in corner.pins:
        if {p[0] for p in cut.points} != planes or {p[2] for p in cut.points} != {ZERO, thick}:
            yield f"{corner}: the {cut.role} reaches {cut.reach}"
        if any(len(section(cut.points, 0, plane)) not in (2, 4) for plane in planes):
            yield f"{corner}: the {cut.role} is no prism"
    sides = {corner.on_pins(ZERO), corner.on_pins(thick)}
    for cut in corner.sockets:
        if {p[0] for p in cut.points} != sides or {p[2] for p in cut.points} != {ZERO, long}:
            yield f"{corner}: the {cut.role} reaches {cut.reach}"
    for cut in (*corner.pins, *corner.sockets):
        if len(set(cut.points)) not in (6, 8):
            yield f"{corner}: the {cut.role} has {len(set(cut.points))} corners"
    if long > corner.pin_board.size[2]:
        yield f"{corner}: tails of {long} in a board of {corner.pin_board.size[2]}"


def _numbered(corner: Corner) -> Iterator[str]:
    """Tails, pins and half pins are numbered from the face edge."""
    row = corner.row(ZERO)
    if corner.tail_board.axes[1][1] < 0:
        row = row[::-1]
    for kind in ("tail", "pin", "half pin"):
        names = [role for role, _ in row if role.rpartition(" ")[0] == kind]
        if names != [f"{kind} {n}" for n in range(1, len(names) + 1)]:
            yield f"{corner}: {kind}s are numbered {names}"
    tails = sum(role.startswith("tail") for role, _ in row)
    halves = sum(role.startswith("half") for role, _ in row)
    if sum(role.startswith("pin") for role, _ in row) != tails - 1 or halves not in (0, 2):
        yield f"{corner}: {tails} tails, {halves} half pins: {[role for role, _ in row]}"


def _leaning(box: Box) -> Iterator[str]:
    """Every side leans by the same offset, outward from the baseline; an edge doesn't lean."""
    for corner in box.corners:
        low, high = corner.span
        offset = corner.offset
        if offset <= 0:
            yield f"{corner}: the tails lean by {offset}"
        end, base = (dict(row) for row in corner.rows)
        for role in end:
            if not role.startswith("tail"):
                continue
            near, far = end[role], base[role]
            by = (far[0] - near[0], near[1] - far[1])
            wanted = (ZERO if near[0] == low else offset, ZERO if near[1] == high else offset)
            if by != wanted:
                yield f"{corner}: {role} leans by {by}, the others by {offset}"


def _rabbets(board: Board) -> list[Cut]:
    """The rabbets along a board's edges that a box's bottom or a carcase's back lies in."""
    return [cut for cut in board.cuts
            if (cut.role, cut.joint.rpartition(".")[2]) in (
                ("edge rabbet", "bottom"), ("edge rabbet far edge", "back"))]


def _steps(box: Box) -> Iterator[str]:
    """Where the pin board is rabbeted, the half pin's waste is shorter by the rabbet's depth and
    as wide as the rabbet."""
    for corner in box.corners:
        rabbets = [cut for cut in _rabbets(corner.pin_board) if cut.reach[2][0] == 0]
        if len(rabbets) != len(corner.steps):
            yield f"{corner}: {len(rabbets)} rabbets, {len(corner.steps)} steps of the baseline"
            continue
        for rabbet, step in zip(rabbets, corner.steps, strict=True):
            short = corner.tail_length - rabbet.reach[2][1]
            along = sorted((corner.on_tails(ZERO), corner.on_tails(short)))
            whole = (ZERO, corner.tail_board.size[2])
            if step.reach != (tuple(along), rabbet.reach[1], whole) or not step.square:
                yield f"{corner}: the {step.role} reaches {step.reach}, the rabbet {rabbet.reach}"


# -- the same with plane figures


def trapezoid(corner: Corner, cut: Cut, spread: Callable[[Cut, Fraction], Spread]) -> Polygon:
    """A pin or a tail seen on the face of the tail board: (depth, height)."""
    end, base = spread(cut, ZERO), spread(cut, corner.tail_length)
    long = float(corner.tail_length)
    return Polygon([(0, float(end[0])), (long, float(base[0])), (long, float(base[1])),
                    (0, float(end[1]))])


def _figures(box: Box) -> Iterator[str]:
    """What is left of the tail board, with the pins of the pin board laid on it, is the whole
    face between end and baseline, once; and so on the end of the pin board.
    """
    for corner in box.corners:
        low, high = (float(one) for one in corner.span)
        long = float(corner.tail_length)
        tails = [trapezoid(corner, cut, corner.tail_spread) for cut in corner.sockets]
        pins = [trapezoid(corner, cut, corner.pin_spread) for cut in corner.pins]
        for one in corner.steps:  # judged exactly by itself
            wide = float(one.reach[1][1] - one.reach[1][0])
            if one.reach[1][0] == 0:
                low += wide
            else:
                high -= wide
        whole = Polygon([(0, low), (long, low), (long, high), (0, high)])
        yield from _once(f"{corner} on the tail board", whole, tails, pins)
        for face in ("face", "back"):
            yield from _left(corner, corner.tail_board, face, whole, tails)
        yield from _left(corner, corner.pin_board, f"end {corner.pin_end}", whole, pins)


def _once(where: str, whole: Polygon, *figures: list[Polygon]) -> Iterator[str]:
    """Some figures cover a rectangle, each place once (what a figure has outside is cut off)."""
    inside = [one.intersection(whole) for many in figures for one in many]
    together = unary_union(inside)
    gap = whole.difference(together).area
    twice = sum(one.area for one in inside) - together.area
    if gap > FLAT or abs(twice) > FLAT:
        yield f"{where}: {gap} mm2 are nobody's, {twice} are twice"


def _left(
    corner: Corner, board: Board, face: str, whole: Polygon, wanted: list[Polygon]
) -> Iterator[str]:
    """What the joint leaves of a face is what the other board's cuts say."""
    cuts = corner.wastes if board is corner.tail_board else corner.sockets
    gone = [one for cut in cuts if (one := board.cut_on(cut, face)) is not None]
    if board is corner.pin_board and corner.lip:  # the end of its body, behind the lip
        gone = [one for cut in cuts if (one := figure(
            section(cut.points, 0, corner.on_pins(ZERO)), ("W", "T"))) is not None]
    seen = [_seen(corner, board, one) for one in gone]
    left = whole.difference(unary_union(seen))
    wrong = left.symmetric_difference(unary_union(wanted).intersection(whole)).area
    if wrong > FLAT:
        yield f"{corner}: the {face} of the {board.name} is off by {wrong} mm2"


def _seen(corner: Corner, board: Board, shape: Polygon) -> Polygon:
    """A figure on a face in that face's (u, v), as (depth, height)."""
    axis, sign = board.axes[1]
    origin = float(board.origin[axis])
    places = []
    for u, v in shape.exterior.coords:
        if board is corner.tail_board:
            depth = u if corner.tail_end == "A" else float(board.size[0]) - u
            places.append((depth, origin + sign * v))
        else:
            places.append((float(corner.tail_length) - v, origin + sign * u))
    return Polygon(places)


# -- solids


def _overlaps(box: Box) -> Iterator[str]:
    """No two finished parts share wood."""
    for (one, other), shared in overlapping(box.parts).items():
        yield f"{one} and {other} share {shared:.6f} mm3"


def _whole(box: Box) -> Iterator[str]:
    """Every cut takes wood, stays on its board, and leaves the board in one piece."""
    for board in box.parts.values():
        for cut in board.cuts:
            if cut.joint not in box.joints:
                continue
            if common(cut.solid, board.box) < NOTHING:
                yield f"the {cut.role} of the {board.name} ({cut.joint}) takes nothing"
            if any(low < 0 or high > most
                   for (low, high), most in zip(cut.reach, board.size, strict=True)):
                yield f"the {cut.role} of the {board.name} ({cut.joint}) leaves its board"
        if len(board.solid.decompose()) != 1:
            yield f"the {board.name} is {len(board.solid.decompose())} pieces"


def _empty(solid: Manifold) -> float:
    return float(settled(solid).volume())


def _blocks(box: Box) -> Iterator[str]:
    """The corner's block is full of wood but for what is accounted for."""
    for corner in box.corners:
        tails, pins = corner.tail_board, corner.pin_board
        rabbets = _rabbets(pins)
        block = settled(tails.box ^ pins.box)
        # the joint alone: pins and tails fill the block and don't share wood
        left = less(tails.box, corner.wastes)
        # where a rabbet thins the half pin, the tail board takes the place
        right = less(pins.box, [*corner.sockets, *rabbets])
        lost = _empty(block - left - right)
        if lost > NOTHING:
            yield f"{corner}: {lost:.6f} mm3 of the corner belong to neither board"
        shared = common(left, right)
        if shared > NOTHING:
            yield f"{corner}: {shared:.6f} mm3 of the corner belong to both boards"
        # the finished boards: hollow only where the bottom's groove or rabbet runs
        grooves = [cut for board in (tails, pins) for cut in board.cuts
                   if BOTTOM.fullmatch(cut.role)
                   and cut.joint.rpartition(".")[2] in ("bottom", "back")]
        hollow = less(settled(block - tails.solid - pins.solid), grooves)
        if _empty(hollow) > NOTHING:
            yield f"{corner}: {_empty(hollow):.6f} mm3 of the corner are hollow"
        yield from _hidden(box, corner, right)
        yield from _beyond(corner, grooves)


def _hidden(box: Box, corner: Corner, pins: Manifold) -> Iterator[str]:
    """No groove shows at the ends unless told: in the pin board it comes out in a tail's socket,
    never in a pin; in the tail board the pin board's lap covers it. One that stops short of the
    end doesn't show.
    """
    end = corner.on_pins(ZERO)
    for cut in corner.pin_board.cuts:
        if cut.role != "bottom groove" or not _reaches(cut, end):
            continue
        at = corner.tail_board.box ^ cut.solid
        if common(at, pins) > NOTHING and not box.told(GROOVE_RULE, corner.pin_board):
            yield f"{corner}: the bottom groove of the {corner.pin_board.name} cuts a pin"
    end = corner.on_tails(ZERO)
    for cut in corner.tail_board.cuts:
        if cut.role != "bottom groove" or not _reaches(cut, end) or corner.lapped:
            continue
        at = corner.pin_board.box ^ cut.solid
        if common(at, corner.tail_board.solid) > NOTHING:
            yield f"{corner}: the {cut.role} is no hollow of the {corner.tail_board.name}"
        if at.volume() > NOTHING and not box.told(GROOVE_RULE, corner.tail_board):
            yield f"{corner}: the bottom groove of the {corner.tail_board.name} shows at its end"


def _reaches(cut: Cut, along: Fraction) -> bool:
    """Whether a cut comes as far as a place along its board."""
    return cut.reach[0][0] <= along <= cut.reach[0][1]


def _beyond(corner: Corner, grooves: list[Cut]) -> Iterator[str]:
    """Beside the pin board the tail board is whole below, and sawn out above to its edge; where
    the outermost tail runs to the edge there is no waste to saw out with.
    """
    tails = corner.tail_board
    axis, sign = tails.axes[1]
    own, other = tails.stands[axis], corner.pin_board.stands[axis]
    depths = sorted((corner.on_tails(ZERO), corner.on_tails(corner.tail_length)))
    top = max((cut.reach[1][1] for cut in corner.pins), default=ZERO)
    sawn = top >= corner.within(tails, other[1])
    for low, high, gone in ((own[0], other[0], False), (other[1], own[1], sawn)):
        if low >= high:
            continue
        widths = sorted(corner.within(tails, one) for one in (low, high))
        reach = (tuple(depths), tuple(widths), (ZERO, tails.size[2]))
        block = hull([tails.place(p) for p in corners(reach)])
        left = _empty(block ^ tails.solid)
        if gone and left > NOTHING:
            yield f"{corner}: {left:.6f} mm3 of the {tails.name} stand above the back"
        lost = _empty(less(settled(block - tails.solid), grooves))
        if not gone and lost > NOTHING:
            yield f"{corner}: {lost:.6f} mm3 of the {tails.name} are gone below the back"
    if sign < 0:
        yield f"{corner}: the face edge of the {tails.name} is not below"


def _bottoms(box: Box) -> Iterator[str]:
    """A bottom stands in each groove, as thick there as the groove is wide."""
    for board in box.parts.values():
        for cut in board.cuts:
            if cut.role != "bottom groove":
                continue
            inside = [(bottom, bottom.solid ^ cut.solid) for bottom in box.parts.values()
                      if bottom.name.endswith("bottom") and cut.joint in _joints(bottom, cut)]
            held = [(bottom, solid) for bottom, solid in inside if solid.volume() > NOTHING]
            if len(held) != 1:
                yield f"{len(held)} bottoms stand in the {cut.role} of the {board.name}"
                continue
            low, high = cut.stands[2]
            reach = held[0][1].bounding_box()
            if abs(reach[2] - float(low)) > 1e-9 or abs(reach[5] - float(high)) > 1e-9:
                yield (f"the bottom in the {cut.role} of the {board.name} is {reach[2]}.."
                       f"{reach[5]}, the groove {low}..{high}")


def _joints(bottom: Board, cut: Cut) -> set[str]:
    """The joints that a bottom may share with a groove: those of its own box."""
    name = bottom.name.removesuffix(" bottom").replace(" ", "-")
    return {f"{name}.bottom"} & {cut.joint}


def _held(box: Box) -> Iterator[str]:
    """A bottom that is pushed to one side as far as it goes still stands in the groove across."""
    for bottom in box.parts.values():
        if not bottom.name.endswith("bottom"):
            continue
        grooves = [(board, cut) for board in box.parts.values() for cut in board.cuts
                   if cut.role == "bottom groove" and _joints(bottom, cut)]
        for board, cut in grooves:
            axis, sign = board.axes[2]  # from the face side into the board
            mouth, floor = _into(cut, axis, sign)
            edge = bottom.stands[axis][1 if sign > 0 else 0]
            for other, across in grooves:
                if other.axes[2] != (axis, -sign):
                    continue
                away = _into(across, axis, -sign)[1]
                slack = abs(away - bottom.stands[axis][0 if sign > 0 else 1])
                left = sign * (edge - mouth) - slack
                told = any("bottom" in one["rule"] and one["level"] != "note"
                           and bottom.id in one["parts"] for one in box.numbers["checks"])
                if left <= 0 and not told:
                    yield (f"the {bottom.name} can slip {-left} out of the groove of the "
                           f"{board.name}, {abs(floor - mouth)} deep")


def _hands(box: Box) -> Iterator[str]:
    """A left board of a box is the mirror of the right one, and each is called by its hand."""
    for board in box.parts.values():
        if " left " not in board.name or not _of_a_box(box, board):
            continue
        twin = box.parts[board.name.replace(" left ", " right ")]
        middle = (board.stands[0][0] + twin.stands[0][1]) / 2
        # what is slid or housed into one of them only has its own judge
        own, other = (less(one.box, [cut for cut in one.cuts if cut.joint in box.joints])
                      for one in (board, twin))
        image = pushed(pushed(own, 0, -middle).mirror([1.0, 0.0, 0.0]), 0, middle)
        wrong = differ(image, other)
        if wrong > NOTHING:
            yield f"the {board.name} mirrored differs from the {twin.name} by {wrong} mm3"
        if (board.hand, twin.hand) != ("left", "right"):
            yield f"the {board.name} is {board.hand!r}, the {twin.name} {twin.hand!r}"
        if not board.mirrored and not twin.mirrored:
            yield f"neither the {board.name} nor its twin is a mirror of the other"


def _of_a_box(box: Box, board: Board) -> bool:
    return any(board.id.startswith(f"{corner.name.rpartition('.')[0]}-") for corner in box.corners)


def _stock(box: Box) -> Iterator[str]:
    """The cut list has each board of a box, at its size, and no more of them."""
    sizes = ("thickness", "width", "length")
    parts = Counter(tuple(one[key] for key in sizes) for one in box.numbers["parts"])
    listed: Counter[tuple[str, ...]] = Counter()
    for one in box.numbers["cut_list"]:
        listed[tuple(one[key] for key in sizes)] += one["count"]
    for one in box.numbers["parts"]:
        size = tuple(one[key] for key in sizes)
        if _of_a_box(box, box.by_id[one["id"]]) and parts[size] != listed[size]:
            yield f"the {one['name']} is listed {listed[size]} times, there are {parts[size]}"


def _into(cut: Cut, axis: int, sign: int) -> Spread:
    """A groove's mouth and its floor."""
    low, high = cut.stands[axis]
    return (low, high) if sign > 0 else (high, low)


def _boards_round(box: Box, name: str) -> dict[str, Board]:
    """The four boards of a box, by what they are called after its name."""
    own = {one for corner in box.corners if corner.name.rpartition(".")[0] == name.replace(" ", "-")
           for one in (corner.tail_board.name, corner.pin_board.name)}
    return {one.removeprefix(name).strip(): box.parts[one] for one in own}


def _seats(box: Box) -> Iterator[str]:
    """A lid lies on all four boards; a chest's bottom can't be pushed up past any of them."""
    for board in box.parts.values():
        for what, by in (("lid", -NUDGE), ("bottom", NUDGE)):
            name = board.name.removesuffix(f" {what}")
            boards_round = _boards_round(box, name)
            if name == board.name or not {"left end", "right end"} <= set(boards_round):
                continue
            moved = pushed(board.solid, 2, by)
            for one in boards_round.values():
                if common(moved, one.solid) <= NOTHING:
                    yield f"the {board.name} doesn't bear on the {one.name}"


def _runs(box: Box) -> Iterator[str]:
    """A runner bears a drawer's side from below, a kicker stands over it, a guide beside it."""
    for board in box.parts.values():
        found = re.fullmatch(r"(.*) (left|right) (runner|kicker|guide)", board.name)
        if found is None:
            continue
        name, hand, what = found.groups()
        side = box.parts[f"{name} {hand} side"]
        sides, own = side.stands, board.stands
        over = all(max(a[0], b[0]) < min(a[1], b[1])
                   for a, b in zip(sides[:2], own[:2], strict=True))
        if what == "runner" and (own[2][1] != sides[2][0] or not over):
            yield f"the {board.name} reaches up to {own[2][1]}, the side down to {sides[2][0]}"
        if what == "kicker" and (own[2][0] < sides[2][1] or not over):
            yield f"the {board.name} reaches down to {own[2][0]}, the side up to {sides[2][1]}"
        if what == "guide":
            gap = sides[0][0] - own[0][1] if hand == "left" else own[0][0] - sides[0][1]
            if gap < 0 or own[2][0] >= sides[2][1] or own[2][1] <= sides[2][0]:
                yield f"the {board.name} stands {gap} beside the side"


# -- cuts by name


def _cuts(box: Box) -> Iterator[str]:
    """Every cut of a box has a role that the judge knows, and lies where that role says."""
    for board in box.parts.values():
        for cut in board.cuts:
            if cut.joint not in box.joints:
                continue
            where = f"the {cut.role} of the {board.name} ({cut.joint})"
            if WASTE.fullmatch(cut.role) or SOCKET.fullmatch(cut.role):
                continue  # judged with its corner
            if cut.role == "bottom groove":
                yield from (f"{where} {what}" for what in _groove(board, cut))
            elif found := re.fullmatch(r"edge rabbet( far edge| end [AB])?", cut.role):
                yield from (f"{where} {what}" for what in _rabbet(board, cut, found[1] or ""))
            elif SLOT.fullmatch(cut.role):
                yield from (f"{where} {what}" for what in _slot(board, cut))
            else:
                yield f"{where} has a role that the judge doesn't know"


def _groove(board: Board, cut: Cut) -> Iterator[str]:
    """In the face side, along the grain, with wood on both sides and behind."""
    (_, _), (near, far), (top, deep) = cut.reach
    if not cut.square or top != 0 or deep >= board.size[2]:
        yield f"is {deep} deep from {top} in a board of {board.size[2]}"
    if near <= 0 or far >= board.size[1]:
        yield f"runs {near}..{far} across a board of {board.size[1]}"


def _rabbet(board: Board, cut: Cut, at: str) -> Iterator[str]:
    """Along the whole of the edge or end that it names, at one of the two surfaces."""
    axis = 0 if at.startswith(" end") else 1
    whole = board.size[axis]
    far = at in (" far edge", " end B")
    reach = cut.reach[axis]
    if not cut.square or (reach[1] != whole if far else reach[0] != 0) or reach == (0, whole):
        yield f"runs {reach} of {whole}"
    along = 1 - axis
    if cut.reach[along] != (0, board.size[along]):
        yield f"runs {cut.reach[along]} along {board.size[along]}"
    low, high = cut.reach[2]
    if (low == 0) == (high == board.size[2]):
        yield f"is {low}..{high} deep in a board of {board.size[2]}"


def _slot(board: Board, cut: Cut) -> Iterator[str]:
    """Right through the bottom, open at its back edge."""
    if not cut.square or cut.reach[2] != (0, board.size[2]):
        yield f"is {cut.reach[2]} deep"
    if cut.reach[1][1] != board.size[1] or cut.reach[1][0] <= 0:
        yield f"runs {cut.reach[1]} of {board.size[1]}"


# -- marks by name


@dataclass(frozen=True)
class Wanted:
    """A line that has to be struck: who, where, with what, from what, how far, between what."""

    part: str
    joint: str
    role: str
    face: str
    tool: str
    source: str
    distance: Fraction
    line: frozenset[tuple[Fraction, Fraction]]


def _given(mark: dict[str, Any]) -> Wanted:
    line = frozenset((Fraction(u), Fraction(v)) for u, v in mark.get("line", [mark.get("point")]))
    return Wanted(mark["part"], mark["joint"], mark["role"], mark["face"], mark["tool"],
                  mark["from"], Fraction(mark["distance"]), line)


def _marks(box: Box) -> Iterator[str]:
    """The lines on the boards are those that the cuts ask for, each once, and no others.

    Lines of roles that the judge doesn't know are left over and objected to.
    """
    wanted: Counter[Wanted] = Counter()
    for corner in box.corners:
        wanted.update(_corner_lines(corner))
    for board in box.parts.values():
        for cut in board.cuts:
            if cut.joint in box.joints and BOTTOM.fullmatch(cut.role):
                lines = _groove_lines if cut.role == "bottom groove" else _rabbet_lines
                wanted.update(lines(board, cut))
            elif cut.joint in box.joints and SLOT.fullmatch(cut.role):
                wanted.update(_slot_lines(board, cut))
    given = Counter(_given(mark) for mark in box.marks
                    if not mark["role"].startswith("glue line"))
    for one in wanted - given:
        yield f"missing: {_said(one)}"
    for one in given - wanted:
        yield f"not asked for by any cut: {_said(one)}"
    yield from _glue_lines(box)


def _said(one: Wanted) -> str:
    line = " to ".join(f"({u}, {v})" for u, v in sorted(one.line))
    return (f"{one.role} on the {one.face} of {one.part} ({one.joint}), {one.tool}, {one.distance}"
            f" from the {one.source}, {line}")


def _corner_lines(corner: Corner) -> Iterator[Wanted]:
    yield from _tail_lines(corner)
    yield from _pin_lines(corner)


def _tail_lines(corner: Corner) -> Iterator[Wanted]:
    """On the tail board: the baseline at the bottoms of the waste, the sides on both faces, and
    square across the end."""
    board, long = corner.tail_board, corner.tail_length
    end = f"end {corner.tail_end}"
    thick = board.size[2]

    def gauged(role: str, face: str, deep: Fraction, start: Fraction, stop: Fraction) -> Wanted:
        at = corner.on_tails(deep)
        return Wanted(board.id, corner.name, role, face, "marking gauge", end, deep,
                      frozenset(((at, start), (at, stop))))

    bottom = corner.within(board, corner.span[0])
    top = max((cut.reach[1][1] for cut in corner.pins), default=ZERO)
    top = max(top, corner.within(board, corner.span[1]))
    for step in corner.steps:
        low, high = step.reach[1]
        short = step.reach[0][1] - step.reach[0][0]
        lowest = low == 0
        inner = high if lowest else low
        bottom, top = (high, top) if lowest else (bottom, low)
        for face in ("face", "back"):
            yield gauged("baseline at the rabbet", face, short, low, high)
        yield gauged("baseline at the rabbet", "edge" if lowest else "far edge", short, ZERO,
                     thick)
        # outside, where no rabbet shows it, the line between the two baselines
        yield Wanted(board.id, corner.name, "step at the rabbet", "back", "knife", "face edge",
                     inner, frozenset((corner.on_tails(at), inner) for at in (short, long)))
    for face in ("face", "back"):
        yield gauged("tail baseline", face, long, bottom, top)
    if any(cut.reach[1][0] == 0 for cut in corner.pins):
        yield gauged("tail baseline", "edge", long, ZERO, thick)
    if any(cut.reach[1][1] == board.size[1] for cut in corner.pins):
        yield gauged("tail baseline", "far edge", long, ZERO, thick)
    for cut in corner.pins[:1]:
        start = cut.reach[1][0]
        if start == bottom != 0 and not any(one.reach[1][0] == 0 for one in corner.steps):
            # the board across begins higher up: its lowest pin has a square side there
            role = cut.role.replace("waste", "square side")
            ends = corner.on_tails(ZERO), corner.on_tails(long)
            for face in ("face", "back"):
                yield Wanted(board.id, corner.name, role, face, "knife", "face edge", start,
                             frozenset((at, start) for at in ends))
            yield Wanted(board.id, corner.name, role, end, "knife", "face edge", start,
                         frozenset(((start, ZERO), (start, thick))))
    for number, side, at_end, at_base in _sides(corner, board):
        role = f"{side} side of tail {number}"
        sloping = frozenset(((corner.on_tails(ZERO), at_end), (corner.on_tails(long), at_base)))
        for face in ("face", "back"):
            yield Wanted(board.id, corner.name, role, face, "bevel", "face edge", at_end, sloping)
        yield Wanted(board.id, corner.name, role, end, "knife", "face edge", at_end,
                     frozenset(((at_end, ZERO), (at_end, thick))))


def _sides(corner: Corner, board: Board) -> Iterator[tuple[int, str, Fraction, Fraction]]:
    """Each tail's two sides across a board: number, near or far, at the end, at the baseline.

    A tail that runs to an edge has no side there.
    """
    low, high = corner.span
    for number, cut in enumerate(corner.sockets, 1):
        end, base = corner.tail_spread(cut, ZERO), corner.tail_spread(cut, corner.tail_length)
        for side, index, edge in (("near", 0, low), ("far", 1, high)):
            if not (end[index] == base[index] == edge):
                yield (number, side, corner.within(board, end[index]),
                       corner.within(board, base[index]))


def _pin_lines(corner: Corner) -> Iterator[Wanted]:
    """On the pin board: the baseline, the lap, the bevel lines on its end that show a socket's
    cross section, and their square lines down to the baseline."""
    board, long = corner.pin_board, corner.tail_length
    end = f"end {corner.pin_end}"
    deep = corner.tail_board.size[2]
    low, high = (corner.within(board, one) for one in corner.span)
    faces = ("face",) if corner.lapped else ("face", "back")
    start, stop = corner.on_pins(ZERO), corner.on_pins(deep)
    for face in faces:
        yield Wanted(board.id, corner.name, "pin baseline", face, "marking gauge", end,
                     corner.lip + deep,
                     frozenset(((stop, low), (stop, high))))
    if corner.lapped:
        yield Wanted(board.id, corner.name, "lap", end, "marking gauge", "face side", long,
                     frozenset(((low, long), (high, long))))
    for number, side, at_end, at_base in _sides(corner, board):
        role = f"{side} side of tail {number}"
        yield Wanted(board.id, corner.name, role, end, "bevel", "face edge", at_base,
                     frozenset(((at_base, ZERO), (at_end, long))))
        for face in faces:
            at = at_base if face == "face" else at_end
            yield Wanted(board.id, corner.name, role, face, "knife", "face edge", at,
                         frozenset(((start, at), (stop, at))))


def _groove_lines(board: Board, cut: Cut) -> Iterator[Wanted]:
    """Its two walls, and a knife line where it stops short of an end."""
    (start, stop), (near, far), _ = cut.reach
    for role, at in (("near groove wall", near), ("far groove wall", far)):
        yield Wanted(board.id, cut.joint, role, "face", "mortise gauge", "face edge", at,
                     frozenset(((start, at), (stop, at))))
    for at, end in ((start, ZERO), (stop, board.size[0])):
        if at != end:
            yield Wanted(board.id, cut.joint, "groove stop", "face", "knife", "end A", at,
                         frozenset(((at, near), (at, far))))


def _rabbet_lines(board: Board, cut: Cut) -> Iterator[Wanted]:
    """Its width on the surface that it is cut from, its depth on the edge or end beside it."""
    length, width, thick = board.size
    side = cut.role.removeprefix("edge rabbet").strip() or "edge"
    across = 0 if side.startswith("end") else 1
    whole = board.size[across]
    low, high = cut.reach[across]
    inner = low if side in ("far edge", "end B") else high
    surface = "face" if cut.reach[2][0] == 0 else "back"
    deep = cut.reach[2][1] if surface == "face" else cut.reach[2][0]
    if across == 0:
        line = frozenset(((inner, ZERO), (inner, width)))
        source, distance = side, inner if side == "end A" else whole - inner
        depth = frozenset(((ZERO, deep), (width, deep)))
    else:
        line = frozenset(((ZERO, inner), (length, inner)))
        source, distance = "face edge", inner
        depth = frozenset(((ZERO, deep), (length, deep)))
    assert 0 < deep < thick
    yield Wanted(board.id, cut.joint, "rabbet width", surface, "marking gauge", source, distance,
                 line)
    yield Wanted(board.id, cut.joint, "rabbet depth", side, "marking gauge", "face side", deep,
                 depth)


def _slot_lines(board: Board, cut: Cut) -> Iterator[Wanted]:
    """Down its middle, and across where it ends; under the bottom, where it is cut."""
    (low, high), (start, stop), _ = cut.reach
    middle = (low + high) / 2
    yield Wanted(board.id, cut.joint, f"middle of {cut.role}", "back", "pencil", "end A", middle,
                 frozenset(((middle, start), (middle, stop))))
    yield Wanted(board.id, cut.joint, f"end of {cut.role}", "back", "pencil", "face edge", start,
                 frozenset(((low, start), (high, start))))


def _glue_lines(box: Box) -> Iterator[str]:
    """Along the whole board, on its face and its back at the same places, numbered upward."""
    for board in box.parts.values():
        lines: dict[str, list[tuple[Fraction, str]]] = {"face": [], "back": []}
        for mark in box.marks:
            if mark["part"] != board.id or not mark["role"].startswith("glue line"):
                continue
            one = _given(mark)
            ends = {(ZERO, one.distance), (board.size[0], one.distance)}
            if (one.tool, one.source) != ("pencil", "face edge") or one.line != ends:
                yield f"{_said(one)}: not a pencil line along the board"
            if not 0 < one.distance < board.size[1] or one.face not in lines:
                yield f"{_said(one)}: not on the board"
                continue
            lines[one.face].append((one.distance, one.role))
        if sorted(lines["face"]) != sorted(lines["back"]):
            yield f"{board.name}: glue lines {lines} on face and back"
        names = [role for _, role in sorted(lines["face"])]
        if len(names) > 1 and names != [f"glue line {n}" for n in range(1, len(names) + 1)]:
            yield f"{board.name}: glue lines are numbered {names}"


# -- settings and sums


def _settings(box: Box) -> Iterator[str]:
    """Each gauge line on a box's board is struck by one setting, at its distance, from its source.

    Two settings of a mortise gauge may share one distance: so lines are counted over all of them.
    """
    struck: Counter[Struck] = Counter()
    own = {mark["part"] for mark in box.marks}
    # all lines on these boards, a divider's among them
    lines = Counter(_struck(mark, Fraction(mark["distance"])) for mark in box.numbers["marks"]
                    if mark["part"] in own and mark["tool"] in ("marking gauge", "mortise gauge"))
    for one in box.numbers["settings"]:
        stands = [Fraction(one[key]) for key in ("distance", "second") if one[key] is not None]
        words = one["from"].split(" and ")
        for strike in one["strikes"]:
            if strike["part"] not in own:
                continue
            source = strike["from"]
            if source not in words and not (source.startswith("end ") and "end" in words):
                yield f"setting {one['number']} is from the {one['from']}, strikes from {source}"
            keys = [_struck({**strike, "tool": one["tool"]}, stand) for stand in stands]
            there = [key for key in keys if lines[key]]
            if len(there) != 1:
                yield f"setting {one['number']} strikes {strike}, lines stand at {len(there)} of it"
                continue
            struck[there[0]] += strike["count"]
    for key in (lines - struck) | (struck - lines):
        yield f"{key} is struck {struck[key]} times, marked {lines[key]} times"


def _struck(one: dict[str, Any], distance: Fraction) -> Struck:
    """What a gauge does: where, from what, with which tool, for what, at what distance."""
    return one["part"], one["face"], one["from"], one["role"], one["tool"], distance


def _sums(box: Box) -> Iterator[str]:
    """Every sum adds up; those over tails and pins have the widths that the cuts have."""
    for one in box.numbers["sums"]:
        total = sum((Fraction(t["value"]) * (1 if t["sign"] == "+" else -1)
                     for t in one["terms"]), ZERO)
        if total != Fraction(one["total"]):
            yield f"{one['name']} of {one['part']} gives {one['total']}, is {total}"
    for corner in box.corners:
        for what, row in zip(("end", "baseline"), corner.rows, strict=True):
            widths = {role: stop - start for role, (start, stop) in row}
            for board, other in ((corner.tail_board, corner.pin_board),
                                 (corner.pin_board, corner.tail_board)):
                name = f"tails and pins at the {what} ({other.name})"
                told = [one for one in box.numbers["sums"]
                        if one["part"] == board.id and one["name"] == name]
                if not told and board is corner.pin_board and corner.lapped and what == "end":
                    continue  # the tails' ends lie inside a lapped board
                if len(told) != 1:
                    yield f"{corner}: {len(told)} sums are called {name!r}"
                    continue
                terms = {t["label"]: Fraction(t["value"]) for t in told[0]["terms"]}
                if {key: terms.get(key) for key in widths} != widths:
                    yield f"{corner}: {name} says {terms}, the cuts {widths}"
                if Fraction(told[0]["total"]) != board.size[1]:
                    yield f"{corner}: {name} comes to {told[0]['total']}, not {board.size[1]}"


SUBJECTS: dict[str, Callable[[Box], Iterator[str]]] = {
    "tiles": _tiles,
    "slope": _leaning,
    "steps": _steps,
    "figures": _figures,
    "cuts": _cuts,
    "marks": _marks,
    "settings": _settings,
    "sums": _sums,
    "wood": _whole,
    "overlap": _overlaps,
    "corner": _blocks,
    "bottom": _bottoms,
    "held": _held,
    "hands": _hands,
    "cut list": _stock,
    "seat": _seats,
    "runner": _runs,
}
