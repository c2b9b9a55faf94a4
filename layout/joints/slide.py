"""A board slid into another: sliding dovetails, and square housings as their plain case.

The slider's end is told as it lies in its own coordinates: l from its tip, w along the run from its
face edge, t through its thickness. Its tail goes into a socket that runs across the bearer. From
the entry the run may narrow toward the closed end, all the way or over its last part: a taper
bites only on the last tap. The socket is the tail's own volume and its room, carried into the
bearer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from layout.errors import Where
from layout.joints.dovetail import End
from layout.joints.section import Terms
from layout.joints.worked import Span, Worked, axis_along, carried, reference_for
from layout.kit import DovetailCutter
from layout.mark import (
    Cut,
    Hull,
    Mark,
    Spot2,
    Sum,
    Tool,
    Witness,
    add,
    face_of,
    high_of,
    low_of,
)
from layout.measure.slope import Slope
from layout.part import AXES, FACE_AXES, FACE_NORMAL, Axis, Face, Part, Point, piece_axis

ZERO = Fraction(0)
SOCKET = "slide socket"
HOUSING = "housing"
Side = Literal["face", "back"]
SIDES: tuple[Side, Side] = ("face", "back")
LONG_FACES: tuple[Face, ...] = ("face", "back", "edge", "far edge")


class SlideChoice(NamedTuple):
    """What the maker chooses of a slide, lengths in mm.

    `depth` is the socket's; None: a share of the bearer. `slope` None makes a square housing.
    `slopes` says which sides of the tail slope. `shoulders` are those at the slider's face side
    and back, at the bearer's surface and where the run is entered; None: as much as the slope
    takes, so that the tail's tip is as thick as the board. `taper` is how much narrower the
    closed end is than the entry, `taper_over` the length it takes (None: the whole run). `stop`
    is how far the socket ends short of the closed edge. `room` is left at the bottom.
    `open_slope` says that the slope was not chosen, `cutter` the diameter of the maker's own that
    the socket was sized for.
    """

    depth: Fraction | None
    slope: Slope | None
    room: Fraction
    slopes: Literal["both", "face", "back"] = "both"
    shoulders: tuple[Fraction | None, Fraction | None] = (None, None)
    taper: Fraction = ZERO
    taper_over: Fraction | None = None
    stop: Fraction = ZERO
    enter: Literal["front", "back"] = "back"
    depth_share: Fraction = Fraction(1, 3)
    open_slope: bool = False
    cutter: Fraction | None = None
    where: Where = Where()

    @property
    def square(self) -> bool:
        """True for a housing."""
        return self.slope is None

    def leans(self, side: Side) -> bool:
        """True where this side of the tail slopes."""
        return self.slope is not None and self.slopes in ("both", side)


class Slide(NamedTuple):
    """A slider's end in its bearer. `place` leads from the bearer's reference surface to the
    slider's nearer side. `runs_out` says that the closed end runs out into a rabbet.
    """

    name: str
    slider: Part
    end: End
    bearer: Part
    choice: SlideChoice
    depth: Fraction
    place: Terms
    runs_out: bool = False

    @property
    def tail(self) -> Fraction:
        """How far the tail stands out from its shoulders, in mm."""
        return self.depth - self.choice.room

    def shoulder(self, side: Side) -> Fraction:
        """The shoulder at a side where the run is entered, in mm."""
        given = self.choice.shoulders[SIDES.index(side)]
        return self.lean(side, self.tail) if given is None else given

    def lean(self, side: Side, length: Fraction) -> Fraction:
        """How far a side slopes over a length into the bearer, in mm."""
        slope = self.choice.slope
        return slope.offset(length) if slope is not None and self.choice.leans(side) else ZERO

    @property
    def neck(self) -> Fraction:
        """The tail's thickness at the bearer's surface, where the run is entered, in mm."""
        return self.slider.thickness - self.shoulder("face") - self.shoulder("back")

    @property
    def end_face(self) -> Face:
        """The slider's end that goes in."""
        return "end A" if self.end == "A" else "end B"

    def along(self, l: Fraction) -> Fraction:  # noqa: E741
        """A length from the tip, along the slider's L."""
        return l if self.end == "A" else self.slider.length - l

    def narrowing(self, side: Side, taper: Fraction) -> Fraction:
        """How much of a taper a side takes: sloping sides share it; a housing's both sides do."""
        leaning = [one for one in SIDES if self.choice.leans(one)] or list(SIDES)
        return taper / len(leaning) if side in leaning else ZERO

    def stations(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Places along the run from the closed end to the entry, each with its taper, in mm."""
        choice, width = self.choice, self.slider.width
        whole = width - choice.stop
        over = whole if choice.taper_over is None else choice.taper_over
        found = [(choice.stop, choice.taper)]
        if choice.taper and over < whole:
            found.append((choice.stop + over, ZERO))
        found.append((width, ZERO))
        if choice.enter == "front":
            found = [(width - w, taper) for w, taper in found]
        return tuple(found)

    def side_at(self, side: Side, taper: Fraction, into: Fraction) -> Fraction:
        """Where a side of the tail lies through the slider's thickness, `into` mm beyond the
        bearer's surface.
        """
        off = self.shoulder(side) + self.narrowing(side, taper) - self.lean(side, into)
        return off if side == "face" else self.slider.thickness - off


def depth_of(choice: SlideChoice, bearer: Fraction) -> Fraction:
    """How deep the socket is in a bearer of this thickness (mm)."""
    return bearer * choice.depth_share if choice.depth is None else choice.depth


def suited(choice: SlideChoice, board: Fraction, cutters: Iterable[Fraction]) -> SlideChoice:
    """A housing of which no shoulder was chosen, made as wide as the widest of the maker's own
    cutters that is no wider than the board: what is left of the board is a shoulder at its face
    side. Anything else stays as it is.
    """
    fitting = [one for one in cutters if one <= board]
    if not choice.square or choice.shoulders != (None, None) or not fitting:
        return choice
    return choice._replace(shoulders=(board - max(fitting), ZERO))


def for_cutter(
    choice: SlideChoice, board: Fraction, depth: Fraction, cutters: Iterable[DovetailCutter]
) -> SlideChoice:
    """A sliding dovetail of which neither slope nor shoulders were chosen, sized for one of the
    maker's own cutters: the widest that is no wider than the board and leaves a neck of a third of
    it, so that one pass makes the socket. `board` and the socket's `depth` in mm. Anything else
    stays as it is.
    """
    if not choice.open_slope or choice.shoulders != (None, None) or choice.slopes != "both":
        return choice
    fitting = [
        one for one in cutters
        if one.diameter <= board
        and (one.diameter - 2 * one.slope.offset(depth)) * 3 >= board
    ]
    if not fitting:
        return choice
    best = max(fitting, key=lambda one: one.diameter)
    shoulder = (board - best.diameter) / 2 + best.slope.offset(depth)
    return choice._replace(slope=best.slope, shoulders=(shoulder, shoulder), cutter=best.diameter)


def work(slide: Slide) -> Worked:
    """Cuts, marks and sums of one slide, for both boards."""
    tail = tuple(_tail_cuts(slide))
    sockets = tuple(_sockets(slide))
    marks = (*_tail_marks(slide), *_socket_marks(slide))
    return Worked((*tail, *sockets), marks, tuple(_sums(slide, tail, sockets)))


# -- cuts


def _spans(slide: Slide) -> Iterator[tuple[str, tuple[Fraction, Fraction],
                                           tuple[Fraction, Fraction]]]:
    """The stretches of the run with a word for each: (w, taper) at both ends."""
    stations = slide.stations()
    for one, other in pairwise(stations):
        word = ", taper" if one[1] != other[1] and len(stations) > 2 else ""
        yield word, one, other


def _tail_cuts(slide: Slide) -> Iterator[Cut]:
    """Waste at both sides of the tail, and the notch before a stopped socket."""
    slider, choice = slide.slider, slide.choice
    for word, one, other in _spans(slide):
        for side in SIDES:
            base = ZERO if side == "face" else slider.thickness
            points = []
            for w, taper in (one, other):
                for l, into in ((ZERO, slide.tail), (slide.tail, ZERO)):  # noqa: E741
                    at = slide.side_at(side, taper, into)
                    points += [(slide.along(l), w, base), (slide.along(l), w, at)]
            if all(point[2] == base for point in points):
                continue
            yield Cut(slider.id, slide.name, f"tail waste, {side}{word}",
                      Hull(tuple(dict.fromkeys(points))))
    if choice.stop:
        low, high = _beyond(slide)
        hull = Hull(tuple(
            (slide.along(l), w, t) for l in (ZERO, slide.tail)  # noqa: E741
            for w in (low, high) for t in (ZERO, slider.thickness)
        ))
        yield Cut(slider.id, slide.name, "notch at the stop", hull)


def _beyond(slide: Slide) -> Span:
    """The slider's stretch before a stopped socket."""
    if slide.choice.enter == "back":
        return ZERO, slide.choice.stop
    return slide.slider.width - slide.choice.stop, slide.slider.width


def _entry(slide: Slide) -> Fraction:
    """Where the bearer's own edge lies at the entry, along the slider's width."""
    return _edge(slide, entered=True)


def _edge(slide: Slide, entered: bool) -> Fraction:
    """Where the bearer's edge lies at the entry, or the other one, along the slider's width."""
    along = piece_axis(slide.slider.placement.W)
    low, high = slide.bearer.reach(along)
    spots = []
    for at in (low, high):
        spot = list(slide.slider.placement.origin)
        spot[along] = at
        spots.append(slide.slider.placement.to_part((spot[0], spot[1], spot[2]))[1])
    return max(spots) if (slide.choice.enter == "back") == entered else min(spots)


def _sockets(slide: Slide) -> Iterator[Cut]:
    """The socket in the bearer: the tail's run, as deep as it and its room, out to the edge."""
    role = HOUSING if slide.choice.square else SOCKET
    entry = _entry(slide)
    last = slide.stations()[-1]
    for word, one, other in _spans(slide):
        ends = [one, (entry, last[1])] if other == last else [one, other]
        if other == last and one[1] != other[1]:
            # past the slider the run goes on as wide as it is entered
            ends = [one, other, (entry, other[1])]
        points = [
            point
            for w, taper in ends
            for l, into in ((slide.tail, ZERO), (-slide.choice.room, slide.depth))  # noqa: E741
            for point in (
                (slide.along(l), w, slide.side_at("face", taper, into)),
                (slide.along(l), w, slide.side_at("back", taper, into)),
            )
        ]
        hull = carried(Hull(tuple(points)), slide.slider, slide.bearer)
        yield Cut(slide.bearer.id, slide.name, f"{role}{word}", hull)


# -- marks


def bearer_face(slide: Slide) -> Face:
    """The surface of the bearer that the slider's end comes to."""
    tip = slide.slider.placement.to_piece((slide.along(slide.tail), ZERO, ZERO))
    along = piece_axis(slide.slider.placement.L)
    for face in LONG_FACES:
        axis = FACE_NORMAL[face][0]
        if piece_axis(slide.bearer.placement.direction(axis)) != along:
            continue
        spot: dict[Axis, Fraction] = {axis: slide.bearer.plane(face)}
        point = (spot.get("L", ZERO), spot.get("W", ZERO), spot.get("T", ZERO))
        if slide.bearer.placement.to_piece(point)[along] == tip[along]:
            return face
    raise AssertionError("a slider's shoulders stand on its bearer")


def entry_face(slide: Slide) -> Face:
    """The edge of the bearer that the socket is entered from."""
    axis = axis_along(slide.bearer, slide.slider, "W")
    entry = slide.slider.placement.to_piece((ZERO, _entry(slide), ZERO))
    at = slide.bearer.placement.to_part(entry)[AXES.index(axis)]
    for face, (normal, far) in FACE_NORMAL.items():
        if normal == axis and at == (slide.bearer.size(axis) if far else ZERO):
            return face
    raise AssertionError("a socket runs out at an edge of its bearer")


def _on_bearer(slide: Slide, point: Point) -> Point:
    """A point of the slider, in the bearer's coordinates."""
    return slide.bearer.placement.to_part(slide.slider.placement.to_piece(point))


def _face_spot(face: Face, point: Point) -> Spot2:
    u, v = FACE_AXES[face]
    return (point[AXES.index(u)], point[AXES.index(v)])


def _socket_marks(slide: Slide) -> Iterator[Mark]:
    """Mouth lines, the stop, and the section on the edge that the socket is entered from."""
    bearer, face, edge = slide.bearer, bearer_face(slide), entry_face(slide)
    entry = _entry(slide)
    stations = slide.stations()
    sides = {side: which(slide, side) for side in SIDES}
    for side in SIDES:
        for one, other in pairwise((*stations, (entry, stations[-1][1]))):
            if one[0] == other[0]:
                continue
            ends = [
                _face_spot(face, _on_bearer(
                    slide, (slide.along(slide.tail), w, slide.side_at(side, taper, ZERO))))
                for w, taper in (other, one)
            ]
            if all(u in (ZERO, bearer.length) for u, _ in ends):
                continue  # the bearer's own end: a rabbet has no such side
            yield Mark(bearer.id, slide.name, face, "knife", f"{sides[side]} side of the socket",
                       "end A", ends[0][0], (ends[0], ends[1]))
    yield from _stop_mark(slide, face)
    taper = stations[-1][1]
    bottom = []
    for side in SIDES:
        top, foot = (
            _face_spot(edge, _on_bearer(slide, (slide.along(l), entry,
                                                slide.side_at(side, taper, into))))
            for l, into in ((slide.tail, ZERO), (-slide.choice.room, slide.depth))  # noqa: E741
        )
        bottom.append(foot)
        if {top[0], foot[0]} <= {ZERO, bearer.length}:
            continue
        tool: Tool = "bevel" if slide.choice.leans(side) else "knife"
        yield Mark(bearer.id, slide.name, edge, tool, f"{sides[side]} side of the socket", "end A",
                   top[0], (top, foot))
    axis = FACE_NORMAL[face][0]
    index = FACE_AXES[edge].index(axis)
    yield Mark(bearer.id, slide.name, edge, "marking gauge", "socket depth", reference_for(axis),
               bottom[0][index], (bottom[0], bottom[1]))


def which(slide: Slide, side: Side) -> str:
    """`near` for the side of the socket nearer to the bearer's end A, else `far`."""
    places = {
        one: _on_bearer(slide, (slide.along(slide.tail), ZERO,
                                slide.side_at(one, ZERO, ZERO)))[0]
        for one in SIDES
    }
    other: Side = "back" if side == "face" else "face"
    return "near" if places[side] < places[other] else "far"


def _stop_mark(slide: Slide, face: Face) -> Iterator[Mark]:
    """Where a socket ends inside its bearer, square across its mouth: stopped, or because the
    board itself is set back.
    """
    w, taper = slide.stations()[0]
    if slide.runs_out or w == _edge(slide, entered=False):
        return  # no wall closes it
    ends = [
        _face_spot(face, _on_bearer(
            slide, (slide.along(slide.tail), w, slide.side_at(side, taper, ZERO))))
        for side in SIDES
    ]
    axis = FACE_AXES[face][1]
    yield Mark(slide.bearer.id, slide.name, face, "knife", "socket stop", reference_for(axis),
               ends[0][1], (ends[0], ends[1]))


def _tail_marks(slide: Slide) -> Iterator[Mark]:
    """The shoulder all round, the tail's sides on the end and on the edge that goes in last."""
    slider, tail = slide.slider, slide.tail
    at = slide.along(tail)
    low, high = sorted(station[0] for station in (slide.stations()[0], slide.stations()[-1]))
    for side in SIDES:
        if any(slide.side_at(side, taper, ZERO) not in (ZERO, slider.thickness)
               for _, taper in slide.stations()):
            yield Mark(slider.id, slide.name, side, "marking gauge", "tail shoulder",
                       slide.end_face, tail, ((at, low), (at, high)))
    edge: Face = "far edge" if slide.choice.enter == "back" else "edge"
    taper = slide.stations()[-1][1]
    for side in SIDES:
        neck, tip = slide.side_at(side, taper, ZERO), slide.side_at(side, taper, tail)
        if neck in (ZERO, slider.thickness):
            continue
        tool: Tool = "bevel" if slide.choice.leans(side) else "marking gauge"
        yield Mark(slider.id, slide.name, edge, tool, f"tail side, {side}", "face side", neck,
                   ((slide.along(ZERO), tip), (at, neck)))
        for one, other in pairwise(slide.stations()):
            ends = [(w, slide.side_at(side, each, tail)) for w, each in (other, one)]
            if all(t in (ZERO, slider.thickness) for _, t in ends):
                continue
            parallel = ends[0][1] == ends[1][1]
            # told at the closed end where they part: at the entry it may lie on the arris
            yield Mark(slider.id, slide.name, slide.end_face,
                       "marking gauge" if parallel else "knife", f"tail side, {side}",
                       "face side", ends[1][1], (ends[0], ends[1]))
    if slide.choice.stop:
        w = slide.stations()[0][0]
        for side in SIDES:
            yield Mark(slider.id, slide.name, side, "knife", "notch at the stop", "face edge", w,
                       ((slide.along(ZERO), w), (at, w)))


# -- sums


def _sums(slide: Slide, tail: tuple[Cut, ...], sockets: tuple[Cut, ...]) -> Iterator[Sum]:
    slider, bearer, choice = slide.slider, slide.bearer, slide.choice
    into = axis_along(bearer, slider, "L")
    across = axis_along(bearer, slider, "T")
    entry = sockets[-1]
    where = bearer.name
    if choice.depth is None:
        floor = high_of(entry, into) if bearer_face(slide) in ("face", "edge") else low_of(
            entry, into)
        yield add("socket depth", bearer.id, Witness(face_of(bearer.id, bearer_face(slide)), floor),
                  (+1, f"{choice.depth_share} of the {bearer.name}'s thickness", slide.depth),
                  where=slider.name)
    surface = face_of(bearer.id, bearer_face(slide))
    yield add("tail length", slider.id, Witness(surface, face_of(slider.id, slide.end_face)),
              (+1, "socket depth", slide.depth), (-1, "room at the bottom", choice.room),
              where=where)
    leans = sum((slide.lean(side, slide.depth) for side in SIDES), ZERO)
    shoulders = [(side, slide.shoulder(side)) for side in SIDES]
    terms = [(-1, f"shoulder at the {_named(side)}", size) for side, size in shoulders if size]
    yield add("neck where it is entered", slider.id,
              Witness(low_of(entry, across), high_of(entry, across), plus=-leans),
              (+1, "thickness", slider.thickness), *terms, where=where)
    if leans:
        assert choice.slope is not None
        words = f"depth sloped {choice.slope.ratio_text}"
        if choice.slopes == "both":
            words += ", on both sides"
        yield add("socket at the bottom", bearer.id,
                  Witness(low_of(entry, across), high_of(entry, across)),
                  (+1, "mouth where it is entered", slide.neck), (+1, words, leans),
                  where=slider.name)
    if choice.taper:
        both = [cut for cut in tail if cut.role.endswith(", taper")] or list(tail)
        front = {side: [cut for cut in both if f"waste, {side}" in cut.role] for side in SIDES}
        if front["face"] or front["back"]:
            face, back = face_of(slider.id, "face"), face_of(slider.id, "back")
            closed = Witness(
                high_of(front["face"][0], "T") if front["face"] else face,
                low_of(front["back"][0], "T") if front["back"] else back,
            )
            yield add("neck at the closed end", slider.id, closed,
                      (+1, "neck where it is entered", slide.neck), (-1, "taper", choice.taper),
                      where=where)
    yield from _place_sums(slide, entry, across)


def _named(side: Side) -> str:
    return "face side" if side == "face" else "back"


def _place_sums(slide: Slide, entry: Cut, across: Axis) -> Iterator[Sum]:
    """Both sides of the mouth from the bearer's reference surface; the slider confirms them."""
    near: Side = "face" if which(slide, "face") == "near" else "back"
    far: Side = "back" if near == "face" else "face"
    bearer, slider = slide.bearer, slide.slider
    reference: Face = "end A" if across == "L" else "edge" if across == "W" else "face"
    start = face_of(bearer.id, reference)
    shoulder: Terms = ()
    if slide.shoulder(near):
        shoulder = ((+1, "shoulder", slide.shoulder(near)),)
    yield add("near side of the socket", bearer.id,
              Witness(start, face_of(slider.id, near), plus=slide.shoulder(near)),
              *slide.place, *shoulder, where=slider.name)
    yield add("far side of the socket", bearer.id,
              Witness(start, high_of(entry, across), plus=-slide.lean(far, slide.depth)),
              *slide.place, *shoulder, (+1, "mouth where it is entered", slide.neck),
              where=slider.name)
