"""A judge of slides and housings: sliding dovetails, housed boards, carcases and dividers.

A slide is a board's end in the board that bears it: they share the joint's name, `shelf.A` is end A
of the shelf. It is looked at from the slider: `run` along its width (which way it is slid), `deep`
from the bearer's surface into the bearer, `across` its thickness from its face side. The bearer's
cuts say what the socket is, the slider's cuts what the tail is: two boards, worked out by two
hands, which must make one figure. All of that is exact; solids come after.

`judge(numbers, text)` gives a list of objections, empty where the piece is sound. Without the text
of the piece file, what the maker told isn't judged.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import Any

from manifold3d import Manifold
from shapely import Polygon, box, unary_union

from tests.outside import judge_dovetails
from tests.outside.judge_boards import (
    AXES,
    FACES,
    NOTHING,
    SHADE,
    Board,
    Cut,
    Point,
    boards,
    common,
    corners,
    figure,
    hull,
    less,
    overlapping,
    pushed,
    section,
    settled,
    slice_at,
)
from tests.outside.judge_dovetails import FLAT, ZERO, Spread, Wanted, _given, _rabbet, _said
from tests.outside.told_slides import Told, read

SOCKET = re.compile(r"(slide socket|housing)(, taper)?")
WASTE = re.compile(r"tail waste, (face|back)(, taper)?")
NOTCH = "notch at the stop"
RABBET = re.compile(r"edge rabbet( far edge)?")
BACK = re.compile(r".* back( board \d+)?")
LINES = re.compile(r"(near|far) side of the socket|socket stop|socket depth|tail shoulder|"
                   r"tail side, (face|back)|notch at the stop")
BORNE_RULES = ("shoulder", "bear", "socket", "reach")
"""Words of the rules that may tell of a shoulder without wood before it."""

SLANT = 0.1
"""Square millimetres by which a sloping side's section may differ a ten thousandth of a millimetre
from the bearer's surface; 1/64 in of shoulder along a run of 50 mm is 20 square mm."""

SPLIT = Fraction(3, 11)
"""A place between two that no one would choose, to look at a section there."""


@dataclass(frozen=True)
class Slide:
    """A board's end that is slid or housed into a bearer."""

    name: str
    slider: Board
    bearer: Board
    end: str

    def __str__(self) -> str:
        return f"{self.name} (in {self.bearer.name})"

    # -- the slider's own view: run, deep, across

    @cached_property
    def along(self) -> tuple[int, int, int]:
        """The piece axes of run, depth and thickness."""
        return self.slider.axes[1][0], self.slider.axes[0][0], self.slider.axes[2][0]

    @cached_property
    def surface(self) -> Fraction:
        """Where the bearer's surface stands along the slider's length."""
        ends = [self._own(point)[0] for point in corners(self.bearer.stands)]
        return max(ends) if self.end == "A" else min(ends)

    def _own(self, place: Point) -> Point:
        """A point of the piece in the slider's length, width and thickness."""
        start = self.slider.origin
        a, b, c = (place[axis] - start[axis] if sign > 0 else start[axis] - place[axis]
                   for axis, sign in self.slider.axes)
        return a, b, c

    def seen(self, place: Point) -> Point:
        """A point of the piece as (run, deep, across)."""
        long, run, across = self._own(place)
        return run, self.surface - long if self.end == "A" else long - self.surface, across

    def piece(self, spot: Point) -> Point:
        """A point (run, deep, across) in the piece."""
        run, deep, across = spot
        long = self.surface - deep if self.end == "A" else self.surface + deep
        return self.slider.place((long, run, across))

    def on(self, board: Board, face: str, spot: Point) -> tuple[Fraction, Fraction]:
        """A point (run, deep, across) on a face of one of the two boards, as its (u, v)."""
        place = self.piece(spot)
        own = [sign * (place[axis] - board.origin[axis]) for axis, sign in board.axes]
        u, v, _, _ = FACES[face]
        return own[AXES.index(u)], own[AXES.index(v)]

    def face_of(self, board: Board, axis: int, high: bool) -> str:
        """The face of a board that looks along run (0), deep (1) or across (2), or against it."""
        sign = [self.slider.axes[1][1], self.slider.axes[0][1] * (-1 if self.end == "A" else 1),
                self.slider.axes[2][1]][axis]
        toward = sign if high else -sign
        for own, (piece, way) in zip(AXES, board.axes, strict=True):
            if piece == self.along[axis]:
                far = way == toward
                return next(name for name, (_, _, normal, end) in FACES.items()
                            if normal == own and end == far)
        raise AssertionError(f"{self}: no face of {board.name}")

    # -- cuts

    @cached_property
    def in_bearer(self) -> list[Cut]:
        """What the joint takes from the bearer."""
        return [cut for cut in self.bearer.cuts if cut.joint == self.name]

    @cached_property
    def in_slider(self) -> list[Cut]:
        """What the joint takes from the slider."""
        return [cut for cut in self.slider.cuts if cut.joint == self.name]

    @cached_property
    def sockets(self) -> list[list[Point]]:
        """The socket's stretches, each as points (run, deep, across), by their run."""
        found = [[self.seen(p) for p in cut.placed] for cut in self.in_bearer
                 if SOCKET.fullmatch(cut.role)]
        return sorted(found, key=lambda points: spread(points, 0))

    def wastes(self, side: str) -> list[list[Point]]:
        """The waste beside the tail at its face or back, by its run."""
        return self._wastes[side]

    @cached_property
    def _wastes(self) -> dict[str, list[list[Point]]]:
        """The waste by its side."""
        found: dict[str, list[list[Point]]] = {"face": [], "back": []}
        for cut in self.in_slider:
            if what := WASTE.fullmatch(cut.role):
                found[what[1]].append([self.seen(p) for p in cut.placed])
        return {side: sorted(wastes, key=lambda points: spread(points, 0))
                for side, wastes in found.items()}

    @cached_property
    def notches(self) -> list[list[Point]]:
        """The notches where the socket stops."""
        return [[self.seen(p) for p in cut.placed] for cut in self.in_slider if cut.role == NOTCH]

    # -- figures

    @cached_property
    def tail(self) -> Fraction:
        """How far the slider stands in the bearer."""
        return self.surface if self.end == "A" else self.slider.size[0] - self.surface

    @cached_property
    def depth(self) -> Fraction:
        """How deep the socket is."""
        return max(spread(points, 1)[1] for points in self.sockets)

    @cached_property
    def reach(self) -> Spread:
        """From where to where the socket runs."""
        return (min(spread(points, 0)[0] for points in self.sockets),
                max(spread(points, 0)[1] for points in self.sockets))

    @cached_property
    def edges(self) -> Spread:
        """From where to where the bearer reaches along the run."""
        return spread([self.seen(p) for p in corners(self.bearer.stands)], 0)

    @cached_property
    def held(self) -> Spread:
        """From where to where the slider has a tail: its width less the notch."""
        low, high = ZERO, self.slider.size[1]
        for points in self.notches:
            start, stop = spread(points, 0)
            low, high = (max(low, stop), high) if start == 0 else (low, min(high, start))
        return low, high

    def ways(self, told: Sequence[dict[str, Any]] = ()) -> set[int]:
        """Along which way the slider may have been drawn out: 1 where the run grows.

        The socket comes out at the bearer's edge there, isn't stopped there, and is nowhere
        narrower toward it. Where both would do, the side that the socket's lines are on tells.
        """
        found = set()
        for way, at, edge in ((1, self.reach[1], self.edges[1]), (-1, self.reach[0],
                                                                  self.edges[0])):
            notched = any(spread(points, 0)[1 if way > 0 else 0]
                          == (self.slider.size[1] if way > 0 else 0) for points in self.notches)
            mouths = [width(self.socket(r, ZERO)) for r in self.planes][::way]
            if at == edge and not notched and all(a <= b for a, b in pairwise(mouths)):
                found.add(way)
        if len(found) == 2:
            lined = {mark["face"] for mark in told if mark["joint"] == self.name
                     and mark["part"] == self.bearer.id and mark["role"] == "socket depth"}
            found = {way for way in found
                     if self.face_of(self.bearer, 0, way > 0) in lined} or found
        return found

    @cached_property
    def _seen(self) -> dict[tuple[str, Fraction, Fraction], Spread]:
        """Spreads that were worked out already."""
        return {}

    def socket(self, run: Fraction, deep: Fraction) -> Spread:
        """From where to where the socket reaches across, at a place; exact."""
        key = ("socket", run, deep)
        if key not in self._seen:
            self._seen[key] = self._socket(run, deep)
        return self._seen[key]

    def wood(self, run: Fraction, deep: Fraction) -> Spread:
        """From where to where the tail reaches across, at a place; exact."""
        key = ("wood", run, deep)
        if key not in self._seen:
            self._seen[key] = self._wood(run, deep)
        return self._seen[key]

    def _socket(self, run: Fraction, deep: Fraction) -> Spread:
        found = [across for points in self.crossed("socket", run)
                 for _, _, across in section(points, 1, deep)]
        return min(found), max(found)

    def _wood(self, run: Fraction, deep: Fraction) -> Spread:
        low, high = ZERO, self.slider.size[2]
        for points in self.crossed("face", run):
            low = max([low, *(across for _, _, across in section(points, 1, deep))])
        for points in self.crossed("back", run):
            high = min([high, *(across for _, _, across in section(points, 1, deep))])
        return low, high

    @cached_property
    def _crossed(self) -> dict[tuple[str, Fraction], list[list[Point]]]:
        """Sections that were worked out already."""
        return {}

    def crossed(self, what: str, run: Fraction) -> list[list[Point]]:
        """The sections square to the run, there, of the socket's stretches ("socket") or of the
        waste at a side ("face", "back"); of two stretches where they meet."""
        key = (what, run)
        if key not in self._crossed:
            stretches = self.sockets if what == "socket" else self.wastes(what)
            reaches = [(points, spread(points, 0)) for points in stretches]
            self._crossed[key] = [section(points, 0, run) for points, (low, high) in reaches
                                  if low <= run <= high]
        return self._crossed[key]

    @cached_property
    def planes(self) -> list[Fraction]:
        """Where the socket or the tail begins, changes and ends."""
        found = set(self.reach)
        for points in (*self.sockets, *self.wastes("face"), *self.wastes("back")):
            found |= {p[0] for p in points}
        found |= set(self.held)
        return sorted(r for r in found if self.reach[0] <= r <= self.reach[1])

    @cached_property
    def common_run(self) -> Spread:
        """Where tail and socket run beside each other."""
        return max(self.held[0], self.reach[0]), min(self.held[1], self.reach[1])

    @cached_property
    def places(self) -> list[Fraction]:
        """Planes at which tail and socket are laid on one another: ends and between."""
        low, high = self.common_run
        ends = [r for r in self.planes if low <= r <= high]
        between = [a + (b - a) * share for a, b in pairwise(ends)
                   for share in (SPLIT, Fraction(1, 2), Fraction(7, 8))]
        return sorted({*ends, *between})


def spread(points: Iterable[Point], axis: int) -> Spread:
    """Least and greatest coordinate."""
    values = [point[axis] for point in points]
    return min(values), max(values)


def width(one: Spread) -> Fraction:
    """From where to where, as a length."""
    return one[1] - one[0]


@dataclass(frozen=True)
class Case:
    """What is judged: all boards, the slides, the numbers, and what the maker told."""

    numbers: dict[str, Any]
    parts: dict[str, Board]
    slides: list[Slide]
    told: Told | None = None

    @cached_property
    def by_id(self) -> dict[str, Board]:
        """The boards by their id."""
        return {board.id: board for board in self.parts.values()}

    @cached_property
    def names(self) -> set[str]:
        """The joints of slides."""
        return {slide.name for slide in self.slides}

    @cached_property
    def backs(self) -> list[tuple[Board, Cut]]:
        """The rabbets for the backs of slid and housed carcases (those with dovetailed corners
        are judged with their corners)."""
        corners = {one.name.rpartition(".")[0] for one in judge_dovetails.joints_of(self.parts)}
        return [(board, cut) for board in self.parts.values() for cut in board.cuts
                if cut.joint.endswith(".back") and cut.joint.rpartition(".")[0] not in corners]

    def way(self, slide: Slide) -> int:
        """Which way a slider is drawn out."""
        found = slide.ways(self.numbers["marks"])
        return 1 if found == {1, -1} or not found else found.pop()

    def says(self, words: Iterable[str], *boards: Board) -> bool:
        """Whether a check tells of all these boards, more than as a note, with one of the words
        in its rule."""
        return any(
            any(word in one["rule"] for word in words) and one["level"] != "note"
            and {board.id for board in boards} & set(one["parts"])
            for one in self.numbers["checks"]
        )


def slides_of(parts: dict[str, Board]) -> list[Slide]:
    """Every slide and housing: wherever a board has a socket for another's end, or one end of a
    board has a slide's waste."""
    by_id = {board.id: board for board in parts.values()}
    bearers: dict[str, list[Board]] = {}
    known = set()
    for board in parts.values():
        for cut in board.cuts:
            if SOCKET.fullmatch(cut.role):
                if board not in bearers.setdefault(cut.joint, []):
                    bearers[cut.joint].append(board)
            elif WASTE.fullmatch(cut.role) or cut.role == NOTCH:
                known.add(cut.joint)
    assert known <= set(bearers), f"{known - set(bearers)} have no socket"
    found = []
    for name, held in bearers.items():
        slider, _, end = name.rpartition(".")
        assert end in ("A", "B"), f"{name} names no end"
        assert slider in by_id, f"{name} names no board"
        assert len(held) == 1, f"{name} has sockets in {[board.name for board in held]}"
        found.append(Slide(name, by_id[slider], held[0], end))
    return found


def case_of(numbers: dict[str, Any], text: str | None = None) -> Case:
    """The boards and slides of a piece."""
    parts = boards(numbers)
    return Case(numbers, parts, slides_of(parts), None if text is None else read(text))


def judge(
    numbers: dict[str, Any], text: str | None = None, subjects: tuple[str, ...] = (),
    case: Case | None = None,
) -> list[str]:
    """Every objection; `subjects` are keys of SUBJECTS, left out: all of them."""
    case = case_of(numbers, text) if case is None else case
    return [
        f"{subject}: {objection}"
        for subject in subjects or tuple(SUBJECTS)
        for objection in SUBJECTS[subject](case)
    ]


def judge_marks(
    parts: dict[str, Board], told: list[dict[str, Any]]
) -> tuple[list[str], list[dict[str, Any]]]:
    """Every objection against marks of slides and of slid carcases, and the marks of others."""
    case = Case({"marks": told}, parts, slides_of(parts))
    own = case.names | {cut.joint for _, cut in case.backs}
    return list(_marks(case)), [mark for mark in told if mark["joint"] not in own]


# -- cuts: their names, and the shape that each name stands for


def _cuts(case: Case) -> Iterator[str]:
    """Every cut of a slide has a role that the judge knows, and the shape of that role."""
    for slide in case.slides:
        for cut in slide.in_bearer:
            if not SOCKET.fullmatch(cut.role):
                yield f"{slide}: the bearer's {cut.role} has a role that the judge doesn't know"
        for cut in slide.in_slider:
            if not (WASTE.fullmatch(cut.role) or cut.role == NOTCH):
                yield f"{slide}: the slider's {cut.role} has a role that the judge doesn't know"
        yield from (f"{slide}: {what}" for what in _sockets(slide))
        yield from (f"{slide}: {what}" for what in _wastes(slide))
    for board, cut in case.backs:
        where = f"the {cut.role} of the {board.name} ({cut.joint})"
        found = RABBET.fullmatch(cut.role)
        if found is None:
            yield f"{where} has a role that the judge doesn't know"
        else:
            yield from (f"{where} {what}" for what in _rabbet(board, cut, found[1] or ""))
            if board.name.rpartition(" ")[2] != "side" or cut.reach[2][0] != 0:
                yield f"{where} is not inside a side"


def _prism(
    points: list[Point], deep: Fraction, many: tuple[int, ...], bend: Fraction | None = None
) -> Iterator[str]:
    """Corners at two places of the run, at the surface and at one depth only; and where a tapered
    socket goes on past its slider, at the slider's edge."""
    runs = {p[0] for p in points}
    if bend in runs and len(runs) == 3:
        runs -= {bend}
        many = (12,)
    if len(runs) != 2 or {p[1] for p in points} != {ZERO, deep}:
        yield f"has its corners at {sorted(runs)}, {sorted({p[1] for p in points})} deep"
    if len(set(points)) not in many:
        yield f"has {len(set(points))} corners"


def _clipped(points: list[Point], within: Spread) -> Spread:
    """A stretch of a run, without what lies beyond."""
    low, high = spread(points, 0)
    return max(low, within[0]), min(high, within[1])


def _bend(slide: Slide, points: list[Point]) -> Fraction | None:
    """The slider's edge, where a stretch of its socket goes on past it."""
    low, high = spread(points, 0)
    for edge in (ZERO, slide.slider.size[1]):
        if low < edge < high:
            return edge
    return None


def _follow(what: str, found: list[list[Point]], whole: Spread) -> Iterator[str]:
    """Stretches that follow one another from end to end of a run."""
    runs = [spread(points, 0) for points in found]
    places = [whole[0], *(place for run in runs for place in run), whole[1]]
    if any(a != b for a, b in zip(places[::2], places[1::2], strict=True)):
        yield f"the {what} runs {runs}, not {whole}"


def _sockets(slide: Slide) -> Iterator[str]:
    """Stretches of one depth, from the closed end to the bearer's edge; the tapered one is called
    so where there is a parallel one beside it."""
    roles = Counter(cut.role for cut in slide.in_bearer)
    kinds = {cut.role.removesuffix(", taper") for cut in slide.in_bearer}
    if len(kinds) != 1 or max(roles.values()) > 1:
        yield f"the sockets are {dict(roles)}"
    for cut in slide.in_bearer:
        points = [slide.seen(p) for p in cut.placed]
        for what in _prism(points, slide.depth, (8,), _bend(slide, points)):
            yield f"the {cut.role} {what}"
        # the run past the slider is never tapered
        tapered = len({width(slide.socket(r, ZERO)) for r in _clipped(points, slide.common_run)
                       }) != 1
        if cut.role.endswith(", taper") != (tapered and len(slide.sockets) > 1):
            yield f"the {cut.role} has mouths of {[slide.socket(r, ZERO) for r in slide.planes]}"
    if kinds == {"housing"} and any(
        slide.socket(r, ZERO) != slide.socket(r, slide.depth) for r in slide.planes
    ):
        yield "the housing has sloping sides"
    yield from _follow("socket", slide.sockets, slide.reach)
    if not slide.ways():
        yield f"the socket runs {slide.reach} of {slide.edges}: it can't be entered"
    if not 0 < slide.depth < width(spread([slide.seen(p) for p in corners(slide.bearer.stands)],
                                          1)):
        yield f"the socket is {slide.depth} deep"


def _wastes(slide: Slide) -> Iterator[str]:
    """Beside the tail, from the slider's end to its shoulder, as far as the tail runs; a notch
    takes all of the board."""
    thick = slide.slider.size[2]
    if slide.tail <= 0:
        yield f"the slider ends {-slide.tail} before its bearer"
        return
    for side, surface in (("face", ZERO), ("back", thick)):
        found = slide.wastes(side)
        for points in found:
            yield from (f"the waste at the {side} {what}"
                        for what in _prism(points, slide.tail, (6, 7, 8)))
            on = {(p[0], p[1]) for p in points if p[2] == surface}
            if len(on) != 4:
                yield f"the waste at the {side} meets the surface at {sorted(on)}"
        if found:
            yield from _follow(f"waste at the {side}", found, slide.held)
    roles = Counter(cut.role for cut in slide.in_slider)
    for role, many in roles.items():
        if many > 1:
            yield f"{many} cuts are called {role}"
    both = len(slide.sockets) > 1
    for cut in slide.in_slider:
        found_role = WASTE.fullmatch(cut.role)
        if found_role and found_role[2] and not both:
            yield f"the {cut.role} has no parallel stretch beside it"
    for points in slide.notches:
        run, deep, across = (spread(points, axis) for axis in range(3))
        whole = slide.slider.size[1]
        if deep != (ZERO, slide.tail) or across != (ZERO, thick) or len(set(points)) != 8:
            yield f"the notch takes {deep} by {across}"
        if (run[0] == 0) == (run[1] == whole) or run[0] < 0 or run[1] > whole:
            yield f"the notch runs {run} of {whole}"


# -- the fit: exact


def _fit(case: Case) -> Iterator[str]:
    """Wherever tail and socket run beside each other, their sections have the same sides, and the
    socket is deeper by one room; its closed end is where the tail ends."""
    for slide in case.slides:
        room = slide.depth - slide.tail
        if room < 0:
            yield f"{slide}: a tail of {slide.tail} in a socket {slide.depth} deep"
            continue
        for run in slide.places:
            for deep in (ZERO, slide.tail):
                tail, socket = slide.wood(run, deep), slide.socket(run, deep)
                if tail != socket:
                    yield f"{slide}: {run} along and {deep} deep, tail {tail} in {socket}"
            low, high = slide.wood(run, ZERO)
            if not 0 <= low < high <= slide.slider.size[2]:
                yield f"{slide}: a neck of {low}..{high} {run} along"
        way = case.way(slide)
        closed = slide.reach[0 if way > 0 else 1]
        if closed != slide.held[0 if way > 0 else 1]:
            yield f"{slide}: the socket is closed at {closed}, the tail runs {slide.held}"
        last = slide.held[1 if way > 0 else 0]
        if last != (slide.slider.size[1] if way > 0 else 0):
            yield f"{slide}: the tail does not run out at the edge that goes in last"
        yield from _past(slide, way, last)


def _past(slide: Slide, way: int, last: Fraction) -> Iterator[str]:
    """Past the slider the socket is as wide as where it is entered, to the bearer's edge."""
    edge = slide.edges[1 if way > 0 else 0]
    if (edge - last) * way < 0:
        return  # the slider stands out beyond its bearer
    for deep in (ZERO, slide.depth):
        if slide.socket(last, deep) != slide.socket(edge, deep):
            yield f"{slide}: past the slider the socket is {slide.socket(edge, deep)}"


def _figures(case: Case) -> Iterator[str]:
    """The same with plane figures: at each place the tail shares nothing with the bearer's wood,
    and leaves free of its socket the room at the bottom, no more."""
    for slide in case.slides:
        if slide.tail > slide.depth:
            continue  # judged exactly
        thick = float(slide.slider.size[2])
        below = float(slide.depth - slide.tail)
        for run in slide.places:
            socket = _section(slide, "socket", run)
            if socket is None:
                yield f"{slide}: no socket {run} along"
                continue
            board = box(0, 0, float(slide.tail), thick)
            gone = [_section(slide, side, run) for side in ("face", "back")]
            tail = board.difference(unary_union([one for one in gone if one is not None]))
            shared = tail.difference(socket).area
            low, high = slide.socket(run, slide.tail)
            floor = slide.socket(run, slide.depth)
            room = below * float(width((low, high)) + width(floor)) / 2
            free = socket.difference(tail).area
            if shared > FLAT or abs(free - room) > FLAT:
                yield (f"{slide}: {run} along, tail and bearer share {shared} mm2, {free} mm2 are "
                       f"free, the room is {room}")


def _section(slide: Slide, what: str, run: Fraction) -> Polygon | None:
    """The section of a joint's cut square to the run, in (deep, across); stretches that meet there
    have one section."""
    figures = [figure([(p[1], p[2], ZERO) for p in points], ("L", "W"))
               for points in slide.crossed(what, run)]
    met = [one for one in figures if one is not None]
    return unary_union(met) if met else None


# -- drawing out


def _drawn(case: Case) -> Iterator[str]:
    """Drawn out along the run, a tail never comes into its bearer, and gets only looser.

    All sides are flat between the places where something changes, so it is proved by the places
    where something of the one comes to where something of the other changes.
    """
    for slide in case.slides:
        way = case.way(slide)
        low, high = slide.reach
        edge = high if way > 0 else low
        if slide.tail > slide.depth:
            continue
        starts = [r for r in slide.places if low <= r <= high]
        for start in starts:
            stops = sorted({*slide.planes, *((a + b) / 2 for a, b in pairwise(slide.planes))})
            way_out = [r for r in stops if (r - start) * way > 0 and (edge - r) * way >= 0]
            for deep in (ZERO, slide.tail):
                tail = slide.wood(start, deep)
                before = (ZERO, ZERO)
                for run in way_out[::way]:
                    socket = slide.socket(run, deep)
                    free = (tail[0] - socket[0], socket[1] - tail[1])
                    if min(free) < 0 or free[0] < before[0] or free[1] < before[1]:
                        yield (f"{slide}: what is {start} along and {deep} deep has {free} free "
                               f"when drawn to {run}, {before} before")
                    before = free


def _moved(case: Case) -> Iterator[str]:
    """The finished slider, moved out by steps, is in no bearer and in nothing that stood there
    before it: not the boards of its carcase, not the dividers before it in the list."""
    order = [one.slider.name for one in case.slides]
    dividers = case.told.order if case.told is not None else list(dict.fromkeys(order))
    for slider in {slide.slider.id: slide.slider for slide in case.slides}.values():
        own = [slide for slide in case.slides if slide.slider is slider]
        ways = {case.way(slide) for slide in own}
        if len(ways) != 1:
            yield f"the {slider.name} would be slid in two ways"
            continue
        way = ways.pop()
        axis, sign = slider.axes[1]
        inner = [slide.reach[0] if way > 0 else slide.reach[1] for slide in own]
        outer = [slide.edges[1] if way > 0 else slide.edges[0] for slide in own]
        whole = max(abs(b - a) for a, b in zip(inner, outer, strict=True))
        others = {slide.bearer.id: slide.bearer for slide in own}
        others |= {board.id: board for board in _before(case, slider, dividers)}
        for by in (Fraction(1, 8), whole / 3, whole * Fraction(9, 10), whole):
            moved = pushed(slider.solid, axis, sign * way * by)
            for board in others.values():
                shared = common(moved, board.solid)
                if shared > NOTHING:
                    yield f"the {slider.name}, drawn out {by}, shares {shared} mm3 with the " \
                          f"{board.name}"


def _before(case: Case, slider: Board, dividers: list[str]) -> list[Board]:
    """What stands already when a board is slid in, of a carcase's boards and of dividers."""
    if slider.name not in dividers:
        return []  # a carcase's own top or bottom: its sides are its bearers
    at = dividers.index(slider.name)
    cases = {} if case.told is None else case.told.cases
    own = [f"{name} {what}" for name in cases for what in ("left side", "right side", "top",
                                                         "bottom")]
    return [case.parts[name] for name in (*own, *dividers[:at]) if name in case.parts]


# -- solids


def _overlaps(case: Case) -> Iterator[str]:
    """No two finished parts share wood."""
    for (one, other), shared in overlapping(case.parts).items():
        yield f"{one} and {other} share {shared:.6f} mm3"


def _wood(case: Case) -> Iterator[str]:
    """Every cut of a slide takes wood and stays on its board, and no board falls asunder."""
    ours = {board.id for slide in case.slides for board in (slide.slider, slide.bearer)}
    backs = {cut.joint for _, cut in case.backs}
    for board in case.parts.values():
        for cut in board.cuts:
            if cut.joint not in case.names | backs:
                continue
            where = f"the {cut.role} of the {board.name} ({cut.joint})"
            if common(cut.solid, board.box) < NOTHING:
                yield f"{where} takes nothing"
            if any(low < 0 or high > most
                   for (low, high), most in zip(cut.reach, board.size, strict=True)):
                yield f"{where} leaves its board"
        if board.id in ours and len(board.solid.decompose()) != 1:
            yield f"the {board.name} is {len(board.solid.decompose())} pieces"


def _shoulders(case: Case) -> Iterator[str]:
    """What a slider has more of before its bearer's surface than behind it is its shoulder: there
    is wood of the bearer before all of it, or a check tells."""
    for slide in case.slides:
        axis = slide.along[1]
        at = float(slide.piece((ZERO, ZERO, ZERO))[axis])
        into = 1 if slide.piece((ZERO, slide.depth, ZERO))[axis] > at else -1
        before = slice_at(slide.slider.solid, axis, at - into * 1e-4)
        behind = slice_at(slide.slider.solid, axis, at + into * 1e-4)
        bearer = slice_at(slide.bearer.solid, axis, at + into * 1e-4)
        # a sloping side has already left its mouth by 1e-5 mm there
        shoulder = before.difference(behind.buffer(1e-3, join_style="mitre"))
        free = shoulder.difference(bearer.buffer(1e-3, join_style="mitre")).area
        if free > SHADE and not case.says(BORNE_RULES, slide.bearer, slide.slider):
            yield f"{slide}: {free} mm2 of the shoulder have no wood before them"
        planes = [r for r in slide.places if slide.held[0] <= r <= slide.held[1]]
        neck = sum((width(slide.wood(a, ZERO)) + width(slide.wood(b, ZERO))) * (b - a)
                   for a, b in pairwise(planes)) / 2
        wanted = float(slide.slider.size[1] * slide.slider.size[2] - neck)
        if abs(before.area - behind.area - wanted) > SLANT:
            yield (f"{slide}: {before.area - behind.area} mm2 of shoulder at the bearer's surface, "
                   f"{wanted} beside the neck")


def _filled(case: Case) -> Iterator[str]:
    """A socket holds its tail but for the room at the bottom and what lies past the slider."""
    for slide in case.slides:
        if slide.tail > slide.depth or slide.tail <= 0:
            continue
        socket = Manifold()
        for cut in slide.in_bearer:
            if SOCKET.fullmatch(cut.role):
                socket = settled(socket + cut.solid)
        thick = slide.slider.size[2]
        low, high = slide.edges
        wide = (-thick, 2 * thick)
        free = [((low, high), (slide.tail, slide.depth + 1), wide)]
        if low < 0:
            free.append(((low, ZERO), (-ZERO, slide.depth + 1), wide))
        if high > slide.slider.size[1]:
            free.append(((slide.slider.size[1], high), (ZERO, slide.depth + 1), wide))
        left = settled(socket - slide.slider.solid)
        for reach in free:
            left = settled(left - hull([slide.piece(p) for p in corners(reach)]))
        # another joint's cut may cross the slider's end
        others = [cut for cut in slide.slider.cuts if cut.joint != slide.name]
        hollow = float(less(left, others).volume())
        if hollow > NOTHING:
            yield f"{slide}: {hollow} mm3 of the socket are hollow"
        inside = settled(slide.slider.solid ^ slide.bearer.box)
        outside = common(inside - socket, slide.bearer.solid)
        if outside > NOTHING:
            yield f"{slide}: {outside} mm3 of the slider stand in the bearer's wood"


# -- marks by name


def _on(slide: Slide, board: Board, role: str, face: str, tool: str, source: str,
        spots: Sequence[Point], entered: Point) -> Wanted:
    """A line between places of a slide, on a board's face; it says how far it is where the run is
    entered."""
    ends = frozenset(slide.on(board, face, spot) for spot in spots)
    own = dict(zip(FACES[face][:2], slide.on(board, face, entered), strict=True))
    axis, far = {"face side": ("T", False), "face edge": ("W", False), "end A": ("L", False),
                 "end B": ("L", True)}[source]
    at = own[axis]
    return Wanted(board.id, slide.name, role, face, tool, source,
                  board.size[AXES.index(axis)] - at if far else at, ends)


def _bearer_lines(case: Case, slide: Slide) -> Iterator[Wanted]:
    """The mouth's two sides along the run, where it stops, and its figure at the entry."""
    board, way = slide.bearer, case.way(slide)
    face = slide.face_of(board, 1, False)
    edge = slide.face_of(board, 0, way > 0)
    entry = slide.edges[1 if way > 0 else 0]
    closed = slide.reach[0 if way > 0 else 1]
    mouth, floor = slide.socket(entry, ZERO), slide.socket(entry, slide.depth)
    ends = [slide.on(board, face, (entry, ZERO, mouth[side]))[0] for side in (0, 1)]
    names = ("near", "far") if ends[0] < ends[1] else ("far", "near")
    for side, name in enumerate(names):
        role = f"{name} side of the socket"
        start = (entry, ZERO, mouth[side])
        if 0 < ends[side] < board.size[0]:  # an end of the board is no line
            for runs in pairwise(slide.planes):
                spots = [(r, ZERO, slide.socket(r, ZERO)[side]) for r in runs]
                yield _on(slide, board, role, face, "knife", "end A", spots, start)
            tool = "knife" if mouth[side] == floor[side] else "bevel"
            yield _on(slide, board, role, edge, tool, "end A",
                      (start, (entry, slide.depth, floor[side])), start)
    across = [(closed, ZERO, place) for place in slide.socket(closed, ZERO)]
    if _stops(slide, face, closed, way):
        source = "face edge" if face in ("face", "back") else "face side"
        yield _on(slide, board, "socket stop", face, "knife", source, across, across[0])
    bottom = [(entry, slide.depth, place) for place in floor]
    source = "face side" if face in ("face", "back") else "face edge"
    yield _on(slide, board, "socket depth", edge, "marking gauge", source, bottom, bottom[0])


def _stops(slide: Slide, face: str, closed: Fraction, way: int) -> bool:
    """Whether there is wood of the bearer's surface beyond the socket's closed end: neither its
    edge nor a rabbet that the socket runs out in."""
    if closed == slide.edges[0 if way > 0 else 1]:
        return False
    low, high = slide.socket(closed, ZERO)
    hair = Fraction(1, 1000)
    strip = Polygon([[float(v) for v in slide.on(slide.bearer, face, (r, ZERO, t))]
                     for r, t in ((closed, low), (closed, high), (closed - way * hair, high),
                                  (closed - way * hair, low))])
    gone = [one for cut in slide.bearer.cuts if cut.joint != slide.name
            and (one := slide.bearer.cut_on(cut, face)) is not None]
    return float(strip.difference(unary_union(gone)).area) > strip.area / 2


def _slider_lines(case: Case, slide: Slide) -> Iterator[Wanted]:
    """The shoulders, the tail's figure on the edge that goes in last, its sides on the end, and
    the notch."""
    board, way = slide.slider, case.way(slide)
    end = f"end {slide.end}"
    last = slide.held[1 if way > 0 else 0]
    edge = slide.face_of(board, 0, way > 0)
    for index, side in enumerate(("face", "back")):
        surface = board.size[2] * index
        wastes = slide.wastes(side)
        neck, tip = slide.wood(last, ZERO)[index], slide.wood(last, slide.tail)[index]
        role = f"tail side, {side}"
        for points in wastes:
            runs = spread(points, 0)
            yield _on(slide, board, "tail shoulder", side, "marking gauge", end,
                      [(r, ZERO, surface) for r in runs], (last, ZERO, surface))
            tips = [slide.wood(r, slide.tail)[index] for r in runs]
            if tips[0] == tips[1] == surface:
                continue  # the tail is as thick as the board
            tool = "marking gauge" if tips[0] == tips[1] else "knife"
            # told where the stretch is furthest from the entry: there it may lie on the arris
            far = max(runs, key=lambda r: abs(r - last))
            yield _on(slide, board, role, end, tool, "face side",
                      [(r, slide.tail, t) for r, t in zip(runs, tips, strict=True)],
                      (far, slide.tail, slide.wood(far, slide.tail)[index]))
        if neck != surface:
            yield _on(slide, board, role, edge, "marking gauge" if neck == tip else "bevel",
                      "face side", ((last, ZERO, neck), (last, slide.tail, tip)),
                      (last, ZERO, neck))
    if slide.notches:
        run = slide.held[0 if way > 0 else 1]
        for index, side in enumerate(("face", "back")):
            spots = [(run, deep, board.size[2] * index) for deep in (ZERO, slide.tail)]
            yield _on(slide, board, NOTCH, side, "knife", "face edge", spots, spots[0])


def _joined(lines: Iterable[Wanted]) -> tuple[Counter[Wanted], list[str]]:
    """Lines of one meaning that follow one another in one direction, as one line each; and what
    overlaps."""
    groups: dict[Wanted, list[list[tuple[Fraction, Fraction]]]] = {}
    wrong = []
    for one in lines:
        if len(one.line) != 2:
            wrong.append(f"no line: {_said(one)}")
            continue
        key = replace(one, line=frozenset())
        groups.setdefault(key, []).append(sorted(one.line))
    found: Counter[Wanted] = Counter()
    for key, many in groups.items():
        straight: dict[tuple[Fraction, ...], list[list[tuple[Fraction, Fraction]]]] = {}
        for (a, b), (c, d) in many:
            # the line's direction, and where it would cross an axis
            steep = (ZERO, Fraction(1)) if a == c else (Fraction(1), (d - b) / (c - a))
            foot = a if a == c else b - a * steep[1]
            straight.setdefault((*steep, foot), []).append([(a, b), (c, d)])
        for pieces in straight.values():
            pieces.sort()
            at = pieces[0]
            for start, stop in pieces[1:]:
                if start < at[1]:
                    wrong.append(f"struck twice: {_said(key)} {start}")
                if start <= at[1]:
                    at = [at[0], max(at[1], stop)]
                    continue
                found[replace(key, line=frozenset(at))] += 1
                at = [start, stop]
            found[replace(key, line=frozenset(at))] += 1
    return found, wrong


def _marks(case: Case) -> Iterator[str]:
    """The lines are those that the cuts ask for, each once, and no others."""
    asked: list[Wanted] = []
    for slide in case.slides:
        asked += _bearer_lines(case, slide)
        asked += _slider_lines(case, slide)
    for board, cut in case.backs:
        if RABBET.fullmatch(cut.role):
            asked += judge_dovetails._rabbet_lines(board, cut)
    own = case.names | {cut.joint for _, cut in case.backs}
    told = [mark for mark in case.numbers["marks"] if mark["joint"] in own]
    for mark in told:
        if mark["joint"] in case.names and not LINES.fullmatch(mark["role"]):
            yield f"{mark['role']} ({mark['joint']}) is a role that the judge doesn't know"
    wanted, _ = _joined(asked)
    given, wrong = _joined(_given(mark) for mark in told)
    yield from wrong
    for one in wanted - given:
        yield f"missing: {_said(one)}"
    for one in given - wanted:
        yield f"not asked for by any cut: {_said(one)}"


# -- settings, sums, cut list


def _settings(case: Case) -> Iterator[str]:
    """Each gauge line of a slide is struck by one setting, at its distance."""
    ours = [mark for mark in case.numbers["marks"] if mark["joint"] in case.names]
    roles = {(mark["part"], mark["role"]) for mark in ours}
    lines = Counter(_struck(mark, mark["tool"], Fraction(mark["distance"])) for mark in ours
                    if mark["tool"] in ("marking gauge", "mortise gauge"))
    struck: Counter[tuple[Any, ...]] = Counter()
    for one in case.numbers["settings"]:
        for strike in one["strikes"]:
            if (strike["part"], strike["role"]) not in roles:
                continue
            if strike["from"] not in one["from"].split(" and ") and not (
                strike["from"].startswith("end ") and "end" in one["from"]
            ):
                yield f"setting {one['number']} is from the {one['from']}: {strike}"
            struck[_struck(strike, one["tool"], Fraction(one["distance"]))] += strike["count"]
    for key in (lines - struck) | (struck - lines):
        yield f"{key} is struck {struck[key]} times, marked {lines[key]} times"
    for mark in ours:
        if Fraction(mark["distance"]) <= 0 and mark["tool"] in ("marking gauge", "mortise gauge"):
            yield f"a gauge can't be set to {mark['distance']}: {mark['role']} ({mark['joint']})"


def _struck(one: dict[str, Any], tool: str, distance: Fraction) -> tuple[Any, ...]:
    return one["part"], one["face"], one["from"], one["role"], tool, distance


def _sums(case: Case) -> Iterator[str]:
    """Every sum adds up, and those of slides come to what the cuts have."""
    found: dict[tuple[str, str], list[Fraction]] = {}
    for one in case.numbers["sums"]:
        total = sum((Fraction(t["value"]) * (1 if t["sign"] == "+" else -1)
                     for t in one["terms"]), ZERO)
        if total != Fraction(one["total"]):
            yield f"{one['name']} of {one['part']} gives {one['total']}, is {total}"
        found.setdefault((one["part"], one["name"]), []).append(Fraction(one["total"]))
    for slide in case.slides:
        for part, name, value in _wanted_sums(case, slide):
            given = found.get((part, name), [])
            if set(given) != {value}:
                yield f"{slide}: the sum {name!r} of {part} is {given}, the cuts have {value}"


def _wanted_sums(case: Case, slide: Slide) -> Iterator[tuple[str, str, Fraction]]:
    """The sums that a slide has, with what the cuts say."""
    slider, bearer, way = slide.slider, slide.bearer, case.way(slide)
    entry, closed = slide.held[:: -way][0], slide.held[::way][0]
    neck = width(slide.wood(entry, ZERO))
    mouth = slide.socket(entry, ZERO)
    floor = width(slide.socket(entry, slide.depth))
    yield slider.id, f"tail length ({bearer.name})", slide.tail
    yield slider.id, f"neck where it is entered ({bearer.name})", neck
    if width(slide.wood(closed, ZERO)) != neck:
        yield (slider.id, f"neck at the closed end ({bearer.name})",
               width(slide.wood(closed, ZERO)))
    if floor != width(mouth):
        yield bearer.id, f"socket at the bottom ({slider.name})", floor
    face = slide.face_of(bearer, 1, False)
    ends = sorted(slide.on(bearer, face, (entry, ZERO, place))[0] for place in mouth)
    for name, place in zip(("near", "far"), ends, strict=True):
        yield bearer.id, f"{name} side of the socket ({slider.name})", place
    yield slider.id, "length", slider.size[0]


def _stock(case: Case) -> Iterator[str]:
    """The cut list has each board that slides, bears or closes a back, at its size, by count."""
    sizes = ("thickness", "width", "length")
    parts = Counter(tuple(one[key] for key in sizes) for one in case.numbers["parts"])
    listed: Counter[tuple[str, ...]] = Counter()
    for one in case.numbers["cut_list"]:
        listed[tuple(one[key] for key in sizes)] += one["count"]
    ours = {board.id for slide in case.slides for board in (slide.slider, slide.bearer)}
    ours |= {board.id for board in case.parts.values() if BACK.fullmatch(board.name)}
    for one in case.numbers["parts"]:
        size = tuple(one[key] for key in sizes)
        if one["id"] in ours and parts[size] != listed[size]:
            yield f"the {one['name']} is listed {listed[size]} times, there are {parts[size]}"


# -- what the maker told


def _told(case: Case) -> Iterator[str]:
    """Depth, room, slope, shoulders, taper, stop and entry are what the file says."""
    if case.told is None:
        return
    for slide in case.slides:
        yield from (f"{slide}: {what}" for what in case.told.slide(slide))
    wanted = case.told.joints()
    if case.names != wanted:
        yield f"the joints are {sorted(case.names)}, told {sorted(wanted)}"


def _places(case: Case) -> Iterator[str]:
    """Every board of a carcase, and every divider, stands where it was told."""
    if case.told is not None:
        yield from case.told.places(case)


def _home(case: Case) -> Iterator[str]:
    """A note tells of each board that slides, and from where."""
    words: dict[str, list[str]] = {}
    for one in case.numbers["checks"]:
        if one["rule"] == "boards that slide home":
            for part in one["parts"]:
                words.setdefault(part, []).append(one["text"])
    for slide in case.slides:
        texts = words.get(slide.slider.id, [])
        side = "back" if case.way(slide) > 0 else "front"  # its face edge is in front
        if not any(f"from the {side}" in text for text in texts):
            yield f"the {slide.slider.name} slides in, told {texts}"


def _hands(case: Case) -> Iterator[str]:
    """A carcase's left side is laid out as the mirror of the right one."""
    for board in case.parts.values():
        if not board.name.endswith(" left side") or case.told is None:
            continue
        if board.name.removesuffix(" left side") not in case.told.cases:
            continue
        twin = case.parts[board.name.replace(" left side", " right side")]
        if (board.hand, twin.hand) != ("left", "right") or board.mirrored == twin.mirrored:
            yield f"the {board.name} is {board.hand!r}, the {twin.name} {twin.hand!r}"


SUBJECTS: dict[str, Callable[[Case], Iterator[str]]] = {
    "cuts": _cuts,
    "fit": _fit,
    "figures": _figures,
    "drawn": _drawn,
    "told": _told,
    "places": _places,
    "marks": _marks,
    "settings": _settings,
    "sums": _sums,
    "cut list": _stock,
    "home": _home,
    "hands": _hands,
    "wood": _wood,
    "overlap": _overlaps,
    "shoulder": _shoulders,
    "filled": _filled,
    "moved": _moved,
}
