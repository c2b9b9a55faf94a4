"""A judge of marks: every line and point that is laid out, held against the wood it shows.

Each mark must lie on its face, at its stated distance from its stated surface, and coincide with
an edge that the cuts make there. A line struck on a surface that is cut away later (a tenon's top
on the rail's face) is judged by the figure of its cut seen square to that surface. Every role is
known by name: one that the judge doesn't know is an objection.

How a distance is to be read: a line that lies across its reference direction stands there with
its whole length; a sloping line (`haunch slope`, `mitre`, `moulding mitre`, `splay`) with one of
its ends; a point with itself.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

from shapely import LineString, Polygon, unary_union

from tests.outside import judge_dovetails, judge_slides, judge_tops
from tests.outside.judge_boards import AXES, FACES, Board, Cut, Point, figure, section
from tests.outside.judge_joints import Joint, joints

SOURCES = {"face side": ("T", False), "face edge": ("W", False), "far edge": ("W", True),
           "end A": ("L", False), "end B": ("L", True)}
SLOPING = ("haunch slope", "mitre", "moulding mitre", "splay")
OPPOSITE = {"face": "back", "back": "face", "edge": "far edge", "far edge": "edge",
            "end A": "end B", "end B": "end A"}
SPECK = 1e-6
"""Millimetres within which two lines of floats are one."""

# The name of one of several tenons, before a role: its row, then its column.
_NAMED = re.compile(r"((?:(?:upper|lower|first|second) )?(?:(?:outer|inner) )?)(.+)")


@dataclass(frozen=True)
class Mark:
    """A mark on its board: the end points of its line (or its point) in part coordinates."""

    told: dict[str, Any]
    board: Board
    spots: tuple[Point, ...]
    joint: Joint | None
    parts: dict[str, Board]
    """Every board of the piece by its id: what a door's marks say concerns other boards too."""

    fellows: tuple[Mark, ...] = ()
    """The marks of its joint, itself among them; of marks that come in sets only."""

    @property
    def face(self) -> str:
        """The surface that it lies on."""
        return str(self.told["face"])

    @property
    def name(self) -> str:
        """The tenon that it belongs to, with a space after it; empty where there is one only."""
        found = _NAMED.fullmatch(self.told["role"])
        assert found is not None
        return found[1]

    @property
    def role(self) -> str:
        """Its role without the tenon's name."""
        found = _NAMED.fullmatch(self.told["role"])
        assert found is not None
        return found[2]

    @property
    def axis(self) -> str:
        """The part's axis that its distance is measured along."""
        return SOURCES[self.told["from"]][0]

    @property
    def line(self) -> LineString:
        """Its line on the face, in (u, v)."""
        u, v, _, _ = FACES[self.face]
        return LineString(
            [[float(p[AXES.index(u)]), float(p[AXES.index(v)])] for p in self.spots]
        )

    def at(self, axis: str) -> set[Fraction]:
        """Where its spots stand along an axis of the part."""
        return {spot[AXES.index(axis)] for spot in self.spots}

    def stands(self, axis: int) -> set[Fraction]:
        """Where its spots stand along X, Y or Z."""
        return {self.board.place(spot)[axis] for spot in self.spots}

    def own(self, role: str = "") -> list[Cut]:
        """What its joint takes from its board; with a role, only cuts that have this one."""
        return [
            cut for cut in self.board.cuts
            if cut.joint == self.told["joint"] and (not role or _plain(cut.role) == role)
        ]


def plain_role(role: str) -> str:
    """A mark's role without the tenon's name, with N for a number."""
    found = _NAMED.fullmatch(role)
    assert found is not None
    return re.sub(r"\d+", "N", found[2])


def _plain(role: str) -> str:
    """A cut's role on a rail without the end that it names."""
    return role[:-2] if role.endswith((" A", " B")) else role


def judge(
    parts: dict[str, Board], told: Iterable[dict[str, Any]]
) -> Iterator[str]:
    """Every objection against marks; those of boxes, those of slides and housings, and those of
    tops have their own judges."""
    boxed, told = judge_dovetails.judge_marks(parts, list(told))
    yield from boxed
    slid, told = judge_slides.judge_marks(parts, told)
    yield from slid
    topped, told = judge_tops.judge_marks(parts, told)
    yield from topped
    by_joint = {joint.name: joint for joint in joints(parts)}
    by_id = {board.id: board for board in parts.values()}
    marks = []
    sets: dict[str, list[Mark]] = {}
    for one in told:
        board = by_id[one["part"]]
        spots = one.get("line") or [one["point"]]
        mark = Mark(one, board, tuple(_spot(board, one["face"], s) for s in spots),
                    by_joint.get(one["joint"]), by_id)
        marks.append(mark)
        if LEAVES.get(plain_role(one["role"])) is _leaf:
            sets.setdefault(one["joint"], []).append(mark)
    for mark in marks:
        mark = replace(mark, fellows=tuple(sets.get(mark.told["joint"], ())))
        one = mark.told
        where = f"{one['role']} on the {one['face']} of {mark.board.name} ({one['joint']})"
        for what in (*_place(mark), *_meaning(mark)):
            yield f"{where} {what}"


def _spot(board: Board, face: str, spot: list[str]) -> Point:
    u, v, normal, far = FACES[face]
    plane = board.size[AXES.index(normal)] if far else Fraction(0)
    at = {u: Fraction(spot[0]), v: Fraction(spot[1]), normal: plane}
    return (at["L"], at["W"], at["T"])


def _place(mark: Mark) -> Iterator[str]:
    """On its face, and at its distance."""
    for spot in mark.spots:
        if not all(0 <= v <= most for v, most in zip(spot, mark.board.size, strict=True)):
            yield f"leaves the face at {spot}"
    axis, from_far = SOURCES[mark.told["from"]]
    if axis not in FACES[mark.face][:2]:
        yield f"is measured from the {mark.told['from']}, which does not bound that face"
        return
    whole = mark.board.size[AXES.index(axis)]
    stands = {whole - v if from_far else v for v in mark.at(axis)}
    distance = Fraction(mark.told["distance"])
    sloping = mark.role in SLOPING
    if sloping and (len(stands) != 2 or distance not in stands):
        yield f"has its ends {stands} from the {mark.told['from']}, none at {distance}"
    if not sloping and stands != {distance}:
        yield f"stands {stands} from the {mark.told['from']}, not {distance}"
    if sloping != (mark.told["tool"] == "bevel"):
        yield f"is struck with a {mark.told['tool']}"
    if "line" in mark.told and mark.spots[0] == mark.spots[1]:
        yield "has no length"


def _meaning(mark: Mark) -> Iterator[str]:
    """Where its role says."""
    if mark.joint is None:
        roles = SEATS | EDGES | LEAVES
        yield from roles.get(plain_role(mark.told["role"]), _unknown)(mark)
        return
    on_rail = mark.board is mark.joint.rail
    roles = ON_RAIL if on_rail else ON_BEARER
    yield from roles.get(plain_role(mark.told["role"]), _unknown)(mark)


def _unknown(mark: Mark) -> Iterator[str]:
    yield f"has a role that the judge doesn't know ({mark.told['tool']})"


# -- figures


def _sides(found: Polygon | None) -> list[LineString]:
    """The straight sides of a figure; corners in the middle of a side don't count."""
    if found is None or found.is_empty:
        return []
    ring = found.simplify(0).exterior.normalize().coords
    return [LineString(pair) for pair in pairwise(ring)]


def _seen(cut: Cut, face: str) -> list[Polygon]:
    """A cut seen square to a face: its shadow, and its own two surfaces nearest to that face and
    furthest from it (a tapered hole is not as long at both).
    """
    if ("seen", face) not in cut.figures:
        u, v, normal, _ = FACES[face]
        axis = AXES.index(normal)
        found = [figure(cut.points, (u, v))]
        found += [figure(section(cut.points, axis, plane), (u, v)) for plane in cut.reach[axis]]
        cut.figures["seen", face] = [one for one in found if one is not None]
    return list(cut.figures["seen", face])


def _near(cut: Cut, face: str) -> Polygon | None:
    """A cut's own surface nearest to a face, seen square to it."""
    u, v, normal, far = FACES[face]
    axis = AXES.index(normal)
    return figure(section(cut.points, axis, cut.reach[axis][1 if far else 0]), (u, v))


def _along(line: LineString, figures: Iterable[Polygon | None]) -> float:
    """How much of a line square to the face's sides runs along the edges of figures, in mm.

    (Such lines and edges are the same doubles where they are the same Fractions.)
    """
    edges = [one.boundary for one in figures if one is not None]
    shared = [found for edge in edges if (found := line.intersection(edge)).length > 0]
    return float(unary_union(shared).length) if shared else 0.0


def _is_edge(mark: Mark, figures: Iterable[Polygon | None]) -> bool:
    """Whether the whole line runs along edges; a sloping one must be a whole side."""
    found = list(figures)
    return _along(mark.line, found) > mark.line.length - SPECK or _is_side(mark, found)


def _is_side(mark: Mark, figures: Iterable[Polygon | None]) -> bool:
    """Whether the line is a whole side of one of the figures."""
    return any(
        mark.line.equals_exact(one, SPECK) or mark.line.reverse().equals_exact(one, SPECK)
        for found in figures for one in _sides(found)
    )


# -- a bearer's marks


def _mouth(mark: Mark, name: str) -> Any:
    """What a mortise and what opens it toward a surface take of the face."""
    roles = {f"{name}{role}" for role in
             ("mortise", "flare", "far flare", "wedge space", "splay space")}
    found = [mark.board.cut_on(cut, mark.face) for cut in mark.own() if cut.role in roles]
    return unary_union([one for one in found if one is not None])


def _across_the_bearer(mark: Mark, figures: list[Any], high: bool) -> Iterator[str]:
    """A side of one of the figures, at its upper or lower end in the sense of the role."""
    fitting = [one for one in figures if _is_side(mark, [one])]
    if not fitting:
        yield f"is no side of {[one.bounds for one in figures if not one.is_empty]}"
        return
    index = FACES[mark.face].index(mark.axis)
    ends = {(one.bounds[index], one.bounds[index + 2]) for one in fitting}
    at = float(next(iter(mark.at(mark.axis))))
    if not any(abs(at - one[1 if high else 0]) < SPECK for one in ends):
        yield f"stands at {at}, on the wrong side of {ends}"


def _mortise_end(mark: Mark) -> Iterator[str]:
    """Top and bottom by how the bearer stands; start and end from its end A."""
    low = mark.role.endswith(("start", "top"))
    if mark.role.endswith(("top", "bottom")):
        axis, sign = mark.board.axes[0]
        if axis != 2:
            yield "names a height on a part that lies"
            return
        low = (sign < 0) == (mark.role == "mortise top")
    elif mark.board.axes[0][0] == 2:
        yield "names no height on a part that stands"
    yield from _across_the_bearer(mark, [_mouth(mark, mark.name)], not low)


def _mortise_wall(mark: Mark) -> Iterator[str]:
    """A wall of a mortise's mouth, or of a haunch's socket beside it."""
    figures = [_mouth(mark, mark.name)]
    if not _is_side(mark, figures):
        figures = [
            found for cut in mark.own() if cut.role.endswith("socket")
            and (found := mark.board.cut_on(cut, mark.face)) is not None
        ]
    yield from _across_the_bearer(mark, figures, mark.role == "far wall")


def _haunch_edge(mark: Mark) -> Iterator[str]:
    """The end of a haunch's socket away from its mortise."""
    assert mark.joint is not None
    sockets = [cut for cut in mark.own() if cut.role.endswith("haunch socket")]
    if not _is_side(mark, [mark.board.cut_on(cut, mark.face) for cut in sockets]):
        yield "is no side of a haunch's socket"
    axis = AXES.index(mark.axis)
    if mark.at(mark.axis) & {v for cut in mark.joint.mortises for v in cut.reach[axis]}:
        yield "lies at the mortise, not at the haunch's end"


def _rail_surface(mark: Mark) -> Iterator[str]:
    """Where a surface of the rail comes to, right across the bearer's face."""
    assert mark.joint is not None
    axis, sign = mark.board.axes[0]
    low = mark.role in ("rail side", "rail top edge")
    if mark.role in ("rail top edge", "rail bottom edge"):
        if axis != 2:
            yield "names a height on a part that lies"
        low = (mark.role == "rail top edge") == (sign < 0)
    reach = mark.joint.rail.stands[axis]
    wanted = reach[0 if low == (sign > 0) else 1]
    if mark.stands(axis) != {wanted}:
        yield f"stands at {mark.stands(axis)}, the rail's surface at {wanted}"
    across = next(a for a in FACES[mark.face][:2] if a != "L")
    if mark.at(across) != {Fraction(0), mark.board.size[AXES.index(across)]}:
        yield "does not run right across"


def _pegs(mark: Mark, role: str) -> list[Cut]:
    return [
        cut for cut in mark.own()
        if cut.bore is not None and re.fullmatch(role, _plain(cut.role)) is not None
    ]


def _centre(cut: Cut) -> dict[str, Fraction]:
    """Where a bored hole's middle stands, by the axes it does not run along."""
    assert cut.bore is not None
    others = [a for a in AXES if a != cut.bore["axis"]]
    return dict(zip(others, (Fraction(v) for v in cut.bore["centre"]), strict=True))


def _bored(mark: Mark, holes: list[Cut]) -> Iterator[str]:
    """A point is the centre of the one hole of its name, and says its diameter."""
    if len(holes) != 1:
        yield f"has {len(holes)} holes, not one"
        return
    (hole,) = holes
    assert hole.bore is not None
    if "point" not in mark.told or mark.told["tool"] != "bit":
        yield "is no point for a bit"
        return
    centre = _centre(hole)
    if any(mark.at(axis) != {value} for axis, value in centre.items()):
        yield f"is not the hole's centre {centre}"
    if hole.bore["axis"] != FACES[mark.face][2]:
        yield f"lies on a face that the hole does not run in from, it runs along {hole.bore}"
    if Fraction(mark.told["diameter"]) != 2 * Fraction(hole.bore["radius"]):
        yield f"says {mark.told['diameter']}, the hole's radius is {hole.bore['radius']}"


def _peg(mark: Mark) -> Iterator[str]:
    """In the bearer: the hole starts at this face."""
    holes = _pegs(mark, re.escape(f"{mark.told['role']} hole"))
    yield from _bored(mark, holes)
    far = FACES[mark.face][3]
    for hole in holes:
        assert hole.bore is not None
        whole = mark.board.size[AXES.index(hole.bore["axis"])]
        start = Fraction(hole.bore["to"]) if far else Fraction(hole.bore["from"])
        if start != (whole if far else 0):
            yield f"is on a face that its hole, from {start}, does not come out of"


def _peg_line(mark: Mark) -> Iterator[str]:
    """Through the middles of a row's holes, as long as the row's mortise."""
    assert mark.joint is not None
    reach = sorted(mark.at("L"))
    rows = [cut for cut in mark.joint.mortises if list(cut.reach[0]) == reach]
    if not rows:
        yield f"runs {reach}, as no mortise does"
    holes = [
        hole for hole in _pegs(mark, ".*hole")
        if reach[0] <= _centre(hole)["L"] <= reach[1]
    ]
    across = next(a for a in FACES[mark.face][:2] if a != "L")
    if not holes or any({_centre(hole)[across]} != mark.at(across) for hole in holes):
        yield f"does not pass the middles of {len(holes)} holes"


def _cut_back(mark: Mark) -> Iterator[str]:
    """An edge of what a moulding loses, on the face it is worked on or the one beside it."""
    if not _is_edge(mark, [mark.board.cut_on(cut, mark.face)
                           for cut in mark.own("moulding cut back")]):
        yield "is no edge of what the moulding loses"


ON_BEARER: dict[str, Callable[[Mark], Iterator[str]]] = {
    "mortise top": _mortise_end,
    "mortise bottom": _mortise_end,
    "mortise start": _mortise_end,
    "mortise end": _mortise_end,
    "near wall": _mortise_wall,
    "far wall": _mortise_wall,
    "haunch edge": _haunch_edge,
    "rail top edge": _rail_surface,
    "rail bottom edge": _rail_surface,
    "rail side": _rail_surface,
    "rail far side": _rail_surface,
    "peg": _peg,
    "peg N": _peg,
    "peg line": _peg_line,
    "moulding cut back": _cut_back,
    "moulding mitre": _cut_back,
    "moulding depth": _cut_back,
    "rail edge": _cut_back,
}


# -- a rail's marks


def _gone(mark: Mark) -> list[Polygon]:
    """What the cuts of its joint take from the mark's face."""
    found = [mark.board.cut_on(cut, mark.face) for cut in mark.own() if cut.bore is None]
    return [one for one in found if one is not None]


def _shoulder(mark: Mark) -> Iterator[str]:
    """Between waste and wood on its face, in the plane of the surface that it will touch.

    Where a mitre takes more behind the line, it runs on along the waste's own edge.
    """
    assert mark.joint is not None
    joint = mark.joint
    gone = _gone(mark)
    if not _is_edge(mark, gone) or _along(mark.line, [unary_union(gone)]) <= SPECK:
        yield "is not along the waste"
    if mark.role == "shoulder":
        surfaces = {joint.entry}
    else:
        surfaces = {joint.ends(cut)[1] for cut in joint.seats} - {joint.entry}
    plane = mark.stands(joint.axis)
    if not plane <= surfaces or len(plane) != 1:
        yield f"stands at {plane}, the bearer's surfaces at {surfaces}"


def _tenon_edge(mark: Mark) -> Iterator[str]:
    """At a mortise's wall, along an edge of the waste, and nowhere on wood that stays."""
    assert mark.joint is not None
    joint = mark.joint
    axis, sign = mark.board.axes[AXES.index(mark.axis)]
    first = mark.role in ("near cheek", "tenon top")
    words = mark.name.split()
    mortises = [cut for cut in joint.mortises if set(words) <= set(cut.role.split())]
    walls = {cut.stands[axis][0 if first == (sign > 0) else 1] for cut in mortises}
    if len(walls) != 1 or mark.stands(axis) != walls:
        yield f"stands at {mark.stands(axis)}, the mortise's wall at {walls}"
    seen = [one for cut in joint.waste for one in _seen(cut, mark.face)]
    # beside a haunch the tenon's edge is no edge of the wood: the line runs on there
    if _along(mark.line, seen) <= SPECK:
        yield "is along no edge of the waste"
    yield from _on_waste(mark)


def _on_waste(mark: Mark) -> Iterator[str]:
    """No line is left on wood that shows: it is cut away with the waste, or lies on the tenon or
    the haunch itself where no waste covers that.
    """
    assert mark.joint is not None
    if mark.face in ("end A", "end B"):
        return
    u, v, normal, far = FACES[mark.face]
    allowed = _gone(mark)
    for hollow in (*mark.joint.mortises, *mark.joint.sockets):
        points = [_point(mark.board, point) for point in hollow.placed]
        depths = [point[AXES.index(normal)] for point in points]
        surface = mark.board.size[AXES.index(normal)] if far else Fraction(0)
        shape = figure(points, (u, v))
        if shape is not None and (max(depths) if far else min(depths)) == surface:
            allowed.append(shape)
    if any(one.covers(mark.line) for one in allowed):
        return
    left = mark.line.difference(unary_union(allowed).buffer(SPECK)).length
    if left > SPECK:
        yield f"runs {left:.4f} mm over wood that shows"


def _point(board: Board, point: Point) -> Point:
    """A point of the piece in a board's own coordinates."""
    a, b, c = (sign * (point[axis] - board.origin[axis]) for axis, sign in board.axes)
    return (a, b, c)


def _edge_of(role: str) -> Callable[[Mark], Iterator[str]]:
    """A line along the edge of its own cut, seen square to the face."""

    def judged(mark: Mark) -> Iterator[str]:
        found = [cut for cut in mark.own() if re.fullmatch(f"{mark.name}{role}", _plain(cut.role))]
        if not found:
            yield "has no cut of its own"
        if not any(_is_edge(mark, [one]) for cut in found for one in _seen(cut, mark.face)):
            yield "is no edge of its own cut"
        yield from _on_waste(mark)

    return judged


def _haunch(mark: Mark) -> Iterator[str]:
    """Where a haunch ends, across the whole of it; or its slope, end to end."""
    assert mark.joint is not None
    joint = mark.joint
    ending = [cut for cut in joint.waste if joint.deep(joint.ends(cut)[0]) > 0
              or not cut.square]
    seen = [one for cut in ending for one in _seen(cut, mark.face)]
    if not _is_side(mark, seen):
        yield f"is no side of {[one.bounds for one in seen]}"


def _splayed_edge(mark: Mark) -> Iterator[str]:
    """Where a splayed edge comes out at the rail's end, struck right across it."""
    waste = [cut for cut in mark.own() if cut.role.split()[0] in ("top", "bottom")]
    if _along(mark.line, [mark.board.cut_on(cut, mark.face) for cut in waste]) <= SPECK:
        yield "is no edge of the waste there"
    if mark.at("T") != {Fraction(0), mark.board.size[2]}:
        yield "does not run right across"


def _notch(mark: Mark) -> Iterator[str]:
    """An edge of one of the notches, at the end that its role names."""
    notches = [cut for cut in mark.own() if re.match(r"notch (\d+ )?for the ", cut.role)]
    index = FACES[mark.face].index(mark.axis)
    high = mark.role in ("notch end", "notch bottom")
    fits = [
        one for cut in notches if (one := figure(cut.points, FACES[mark.face][:2])) is not None
        and _is_side(mark, [one])
        and abs(one.bounds[index + (2 if high else 0)] - float(min(mark.at(mark.axis)))) < SPECK
    ]
    if not fits:
        yield "is no such side of a notch"


def _saw_cut(mark: Mark) -> Iterator[str]:
    """The middle of a saw cut, as long as it is on that face."""
    (cut,) = mark.own(mark.told["role"]) or [None]
    if cut is None:
        yield "has no saw cut"
        return
    axis = AXES.index(mark.axis)
    if mark.at(mark.axis) != {sum(cut.reach[axis]) / 2}:
        yield f"is not the middle of {cut.reach[axis]}"
    other = next(a for a in FACES[mark.face][:2] if a != mark.axis)
    if sorted(mark.at(other)) != list(cut.reach[AXES.index(other)]):
        yield f"runs {mark.at(other)}, the saw cut {cut.reach[AXES.index(other)]}"


def _saw_cut_bottom(mark: Mark) -> Iterator[str]:
    """Where a saw cut ends, as wide as it is."""
    (cut,) = mark.own(mark.told["role"].removesuffix(", bottom")) or [None]
    if cut is None:
        yield "has no saw cut"
        return
    assert mark.joint is not None
    if mark.stands(mark.joint.axis) != {mark.joint.ends(cut)[0]}:
        yield f"stands at {mark.at('L')}, the saw cut is {cut.reach[0]}"
    if not _is_side(mark, _seen(cut, mark.face)):
        yield "is not as wide as the saw cut"


def _key_hole(mark: Mark) -> Iterator[str]:
    """A side of the hole where it comes out at the mark's face, the one that its role names."""
    assert mark.joint is not None
    holes = mark.own(f"{mark.name}key hole")
    if len(holes) != 1:
        yield f"has {len(holes)} holes, not one"
        return
    found = _near(holes[0], mark.face)
    if found is None or not _is_side(mark, [found]):
        yield "is no side of the hole there"
        return
    index = FACES[mark.face].index(mark.axis)
    at = float(next(iter(mark.at(mark.axis))))
    if mark.role.endswith("end"):
        inner = mark.role.endswith("inner end")
        toward_high = (mark.joint.end == "A") == inner
    else:
        toward_high = mark.role.endswith("far side")
    if abs(at - found.bounds[index + (2 if toward_high else 0)]) > SPECK:
        yield f"stands at {at}, on the wrong side of {found.bounds}"


def _peg_in_tenon(mark: Mark) -> Iterator[str]:
    """The tenon's hole: nearer to the shoulder than the bearer's by the draw, or in line."""
    assert mark.joint is not None
    joint = mark.joint
    end = joint.end
    yield from _bored(mark, [
        cut for cut in mark.own()
        if cut.bore is not None
        and cut.role == f"{mark.told['role'].removesuffix(' in the tenon')} hole in the tenon {end}"
    ])


ON_RAIL: dict[str, Callable[[Mark], Iterator[str]]] = {
    "shoulder": _shoulder,
    "long shoulder": _shoulder,
    "near cheek": _tenon_edge,
    "far cheek": _tenon_edge,
    "tenon top": _tenon_edge,
    "tenon bottom": _tenon_edge,
    "splay": _edge_of("(?:top|bottom) shoulder waste"),
    "splayed edge": _splayed_edge,
    "haunch end": _haunch,
    "haunch slope": _haunch,
    "mitre": _edge_of("mitre waste"),
    "mitre, short side": _edge_of("mitre waste"),
    "notch start": _notch,
    "notch end": _notch,
    "notch top": _notch,
    "notch bottom": _notch,
    "saw cut": _saw_cut,
    "saw cut N": _saw_cut,
    "saw cut, bottom": _saw_cut_bottom,
    "saw cut N, bottom": _saw_cut_bottom,
    "key hole, near side": _key_hole,
    "key hole, far side": _key_hole,
    "key hole, inner end": _key_hole,
    "key hole, outer end": _key_hole,
    "peg in the tenon": _peg_in_tenon,
    "peg N in the tenon": _peg_in_tenon,
    "moulding mitre": _edge_of("moulding mitre waste.*"),
}


# -- seats for panels


def _seat(mark: Mark) -> Iterator[str]:
    """An edge of its seat on that face."""
    found = [mark.board.cut_on(cut, mark.face) for cut in mark.own()]
    if not any(_is_edge(mark, [one]) for one in found):
        yield f"is no edge of its seat {[one.bounds for one in found if one is not None]}"


def _seat_wall(mark: Mark) -> Iterator[str]:
    """The near or the far wall of a groove, from the surface it is gauged from."""
    yield from _seat(mark)
    at = AXES.index(mark.axis)
    walls = {cut.reach[at][1 if mark.role == "far groove wall" else 0] for cut in mark.own()}
    if not mark.at(mark.axis) <= walls:
        yield f"stands at {mark.at(mark.axis)}, the wall at {walls}"


def _seat_end(mark: Mark) -> Iterator[str]:
    """The upper or lower end of a seat in a leg."""
    yield from _seat(mark)
    ends = {cut.stands[2][1 if mark.role.endswith("top") else 0] for cut in mark.own()}
    if not mark.stands(2) <= ends:
        yield f"stands at {mark.stands(2)}, the seat's end at {ends}"


SEATS: dict[str, Callable[[Mark], Iterator[str]]] = {
    "rabbet": _seat,
    "rabbet lip": _seat,
    "near groove wall": _seat_wall,
    "far groove wall": _seat_wall,
    "rabbet top": _seat_end,
    "rabbet bottom": _seat_end,
    "groove top": _seat_end,
    "groove bottom": _seat_end,
}


# -- a panel's worked edges, a pair's rebate


BESIDE = {"face edge": "edge", "far edge": "far edge", "end A": "end A", "end B": "end B"}
"""The edge or end of a panel that lies at the surface a mark is gauged from."""


def _worked_away(kinds: tuple[str, ...]) -> Callable[[Mark], Iterator[str]]:
    """The line at which what is worked away along one edge of a panel ends.

    On the panel's face or back it is as far from that edge as the waste goes in; on the edge
    itself it is a side of the tongue. It runs right along, over the other edges' waste.
    """

    def judged(mark: Mark) -> Iterator[str]:
        flat = mark.face in ("face", "back")
        name = BESIDE.get(mark.told["from"]) if flat else mark.face
        if not flat and mark.told["from"] != "face side":
            yield f"is gauged from the {mark.told['from']}, not from the face side"
        roles = {f"{kind} {name}" for kind in kinds}
        found = [
            cut for cut in mark.own()
            if cut.role in roles and mark.board.cut_on(cut, mark.face) is not None
        ]
        if len(found) != 1:
            yield f"has {len(found)} such cuts along the {name}"
            return
        yield from _inner_side(mark, found[0])

    return judged


def _inner_side(mark: Mark, cut: Cut) -> Iterator[str]:
    """The side of a cut's figure on the face away from the surface of the board it lies at."""
    figure_there = mark.board.cut_on(cut, mark.face)
    if figure_there is None or not _is_side(mark, [figure_there]):
        yield f"is no side of the {cut.role}"
        return
    low, high = cut.reach[AXES.index(mark.axis)]
    whole = mark.board.size[AXES.index(mark.axis)]
    if (low == 0) == (high == whole):
        yield f"is of a cut, {low} to {high}, that lies at no surface"
        return
    inner = high if low == 0 else low
    if mark.at(mark.axis) != {inner}:
        yield f"stands at {mark.at(mark.axis)}, the {cut.role} ends at {inner}"


def _rebate(mark: Mark) -> Iterator[str]:
    """The one rabbet along a meeting stile's edge; its width on face or back, its depth on the
    edge."""
    wide = mark.role == "rabbet width"
    if (mark.face in ("face", "back")) != wide:
        yield f"lies on the {mark.face}"
    if mark.told["from"] != ("face edge" if wide else "face side"):
        yield f"is gauged from the {mark.told['from']}"
    found = mark.own("edge rabbet")
    if len(found) != 1:
        yield f"has {len(found)} rabbets, not one"
        return
    yield from _inner_side(mark, found[0])


EDGES: dict[str, Callable[[Mark], Iterator[str]]] = {
    "near side of the tongue": _worked_away(("raise", "tongue waste")),
    "far side of the tongue": _worked_away(("back waste",)),
    "field": _worked_away(("raise",)),
    "tongue shoulder": _worked_away(("tongue waste", "back waste")),
    "rabbet width": _rebate,
    "rabbet depth": _rebate,
}


# -- what hangs a door, shuts it, and keeps its panels in the middle


def _leaf(mark: Mark) -> Iterator[str]:
    """An end of a hinge or of a lock, knifed right across a stile's outer edge, and across the
    surface that the door hangs at, as far as the door is thick.

    Every board of the set has all of its lines, at the same heights; a door in a space of its own
    and one that lies on its case have the stile only, and a lock has nothing else anywhere.
    """
    what = mark.told["role"].rpartition(" ")[0]
    if (mark.told["tool"], mark.told["from"]) != ("knife", "end A"):
        yield f"is struck with a {mark.told['tool']} from the {mark.told['from']}"
    lines = {(one.board.id, one.told["role"]): one for one in mark.fellows}
    boards = {one.board.id: one.board for one in mark.fellows}
    whats = {role.rpartition(" ")[0] for _, role in lines}
    roles = {f"{one} {end}" for one in whats for end in ("top", "bottom")}
    missing = [(board, role) for board in boards for role in roles if (board, role) not in lines]
    if missing or len(lines) != len(mark.fellows):
        yield f"is one of {sorted(lines)}, without {sorted(missing)}"
        return
    stiles = [board for board in boards.values() if board.name.endswith(" stile")]
    if len(stiles) != 1 or len(boards) > (1 if what == "lock" else 2):
        yield f"lies on one of {sorted(boards)}"
        return
    long = {
        one: min(lines[mark.board.id, f"{one} top"].stands(2))
        - max(lines[mark.board.id, f"{one} bottom"].stands(2)) for one in whats
    }
    if min(long.values()) <= 0 or len(set(long.values())) != 1:
        yield f"is one end of {long} in mm, not all alike"
    if mark.board is stiles[0]:
        yield from _on_the_stile(mark)
    else:
        yield from _at_the_stile(mark, lines[stiles[0].id, mark.told["role"]])


def _on_the_stile(mark: Mark) -> Iterator[str]:
    """Right across the edge away from the door's rails."""
    if mark.face != "edge" or mark.at("T") != {Fraction(0), mark.board.size[2]}:
        yield "does not lie right across the stile's outer edge"
    joint = mark.told["joint"].rpartition(".")[0]
    rails = [one for name, one in mark.parts.items() if name == f"{joint}-top-rail"]
    if len(rails) != 1:
        yield f"is of a door with {len(rails)} top rails"
        return
    axis, out = mark.board.axes[1]
    middle = sum(rails[0].stands[axis]) / 2
    if (next(iter(mark.stands(axis))) - middle) * out >= 0:
        yield "lies on the edge that the rails go into"


def _at_the_stile(mark: Mark, fellow: Mark) -> Iterator[str]:
    """On a surface that faces the stile's edge, at the same height and depth as the line there."""
    for axis in (1, 2):
        if mark.stands(axis) != fellow.stands(axis):
            yield f"stands at {mark.stands(axis)}, its fellow on the stile at {fellow.stands(axis)}"
    here, there = _outward(mark), _outward(fellow)
    if here[0] != there[0] or here[1] != -there[1]:
        yield "does not face the stile's edge"
        return
    axis, out = there
    if (next(iter(mark.stands(axis))) - next(iter(fellow.stands(axis)))) * out < 0:
        yield "lies on the stile's far side"


def _outward(mark: Mark) -> tuple[int, int]:
    """The piece axis that a mark's face is square to, and which way it looks."""
    _, _, normal, far = FACES[mark.face]
    axis, sign = mark.board.axes[AXES.index(normal)]
    return axis, sign if far else -sign


def _pin(mark: Mark) -> Iterator[str]:
    """On the back, behind the groove, from the edge to the groove's bottom, in the middle of the
    one panel whose end stands in the groove there."""
    if (mark.face, mark.told["tool"], mark.told["from"]) != ("back", "pencil", "end A"):
        yield f"is on the {mark.face}, with a {mark.told['tool']} from the {mark.told['from']}"
    grooves = [
        cut for cut in mark.board.cuts
        if cut.role == "groove" and cut.reach[1] == tuple(sorted(mark.at("W")))
    ]
    if len(grooves) != 1:
        yield f"lies behind {len(grooves)} grooves"
        return
    along = mark.board.axes[0][0]
    (at,) = mark.stands(along)
    held = [
        board for board in mark.parts.values()
        if board is not mark.board and board.axes[0][0] != along
        and not (board.box ^ grooves[0].solid).is_empty()
        and board.stands[along][0] < at < board.stands[along][1]
        and board.axes[2][0] == mark.board.axes[2][0] and not board.name.endswith(" stile")
        and "muntin" not in board.name
    ]
    if [sum(board.stands[along]) / 2 for board in held] != [at]:
        yield f"stands at {at}, before the middles of {[board.name for board in held]}"


LEAVES: dict[str, Callable[[Mark], Iterator[str]]] = {
    "hinge N top": _leaf,
    "hinge N bottom": _leaf,
    "lock top": _leaf,
    "lock bottom": _leaf,
    "panel pin": _pin,
}
