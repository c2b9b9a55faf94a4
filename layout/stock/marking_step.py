"""A step of the marking order: what is done, to which parts, from where, with which figures."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple, get_args

from layout.mark import Mark, Tool
from layout.part import FACES, Face, Part
from layout.piece import Piece
from layout.settings import Setting

Kind = Literal[
    "mark reference surfaces", "end lines", "lay together", "tick", "pencil across",
    "square across", "carry round", "glue lines", "pencil lines", "knife lines", "tapers",
    "gauge setting", "knife between walls", "dividers", "square across the ends", "bevel lines",
    "square down", "pins from tails", "tails from pins", "holes", "crossings",
    "prick through the caps", "prick from the master", "waste crosses",
]
KINDS: tuple[Kind, ...] = get_args(Kind)
ENDS = ("end A", "end B")
SOURCES = ("end A", "end B", "face side", "face edge", "far edge")


class Line(NamedTuple):
    """A figure and what is marked there, in mm from the step's reference surface.

    `second` is the other figure that some lines have: of a mortise gauge its far point, of a
    taper its other end, of a hole how far it lies from the other reference surface.
    """

    at: Fraction
    roles: tuple[str, ...]
    second: Fraction | None = None


class Met(NamedTuple):
    """A dovetailed corner: its letter, the board that lends its lines, and the one that takes them.
    """

    letter: str
    lends: str
    takes: str


class Step(NamedTuple):
    """One thing to do at the bench.

    `parts` are the parts that it is done to, by id, in the order of the piece; where it is done to
    all at once they lie together. `faces` are the surfaces it is done on, `sources` the reference
    surfaces that `lines` are measured from. Every line is on every one of the faces of every one of
    the parts; only a gauge setting and a step with `corners` take in more. `marks` are the marks
    that exist when it is done and did not before. `pencilled` are ends of mortises and grooves that
    are only pencilled here; a later step knifes them, between their walls. `master` is the part
    that the others take their lines from, "" where there is none. `mirrored` says that parts which
    mirror each other (left and right hands) lie together. `corners` are those whose lines one board
    takes from the other. `number` counts from 1 through the whole order.
    """

    kind: Kind
    parts: tuple[str, ...]
    faces: tuple[Face, ...] = ()
    sources: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()
    marks: tuple[Mark, ...] = ()
    pencilled: tuple[Mark, ...] = ()
    tool: Tool | None = None
    setting: Setting | None = None
    master: str = ""
    mirrored: bool = False
    corners: tuple[Met, ...] = ()
    number: int = 0


def hands_mirror(parts: Iterable[Part]) -> bool:
    """True where left and right hands are among them."""
    return {"left", "right"} <= {part.hand for part in parts}


def mirrored(parts: Iterable[Part]) -> bool:
    """True where some of a set mirror the others: hands, or the top and the bottom of a carcase."""
    some = tuple(parts)
    return hands_mirror(some) or len({part.placement.mirrored for part in some}) > 1


def ids(parts: Iterable[Part]) -> tuple[str, ...]:
    """The parts by id."""
    return tuple(part.id for part in parts)


def faces_of(marks: Iterable[Mark]) -> tuple[Face, ...]:
    """The surfaces that marks lie on, in the order of part.FACES."""
    found = {mark.face for mark in marks}
    return tuple(face for face in FACES if face in found)


def sources_of(marks: Iterable[Mark]) -> tuple[str, ...]:
    """The reference surfaces that marks are measured from."""
    found = {mark.source for mark in marks}
    return tuple(one for one in SOURCES if one in found)


def parts_of(piece: Piece, marks: Iterable[Mark]) -> tuple[str, ...]:
    """The parts that marks lie on, by id, in the order of the piece."""
    found = {mark.part for mark in marks}
    return tuple(part.id for part in piece.parts if part.id in found)


def lines_of(marks: Sequence[Mark]) -> tuple[Line, ...]:
    """The figures of marks, each once, from the nearest to the reference surface on."""
    roles: dict[tuple[Fraction, Fraction | None], list[str]] = {}
    for mark in marks:
        here = roles.setdefault((mark.distance, second_of(mark)), [])
        if mark.role not in here:
            here.append(mark.role)
    return tuple(
        Line(at, tuple(words), second)
        for (at, second), words in sorted(roles.items(), key=lambda one: _in_order(*one[0]))
    )


def second_of(mark: Mark) -> Fraction | None:
    """The other figure of a hole, of a taper or of a pair of gauge lines, in mm."""
    if mark.pair is not None:
        return mark.pair[1]
    if mark.point is not None:
        return mark.point[0] if mark.distance == mark.point[1] != mark.point[0] else mark.point[1]
    if is_taper(mark) and mark.line is not None:
        one, other = mark.line
        axis = 0 if mark.source in ENDS else 1
        return other[axis] if one[axis] == mark.distance else one[axis]
    return None


def taken_at(mark: Mark) -> tuple[Fraction, Fraction]:
    """Where a taper's two figures are taken: how far from the face edge, or from the face side on
    an edge, for its distance and then for the other one.
    """
    assert mark.line is not None  # a taper is a line
    one, other = mark.line
    axis = 0 if mark.source in ENDS else 1
    if one[axis] == mark.distance:
        return one[1 - axis], other[1 - axis]
    return other[1 - axis], one[1 - axis]


def is_taper(mark: Mark) -> bool:
    """True for a knife line that is neither square to the grain nor along it."""
    return (
        mark.tool == "knife" and mark.line is not None
        and mark.line[0][0] != mark.line[1][0] and mark.line[0][1] != mark.line[1][1]
    )


def is_across(mark: Mark) -> bool:
    """True for a knife or pencil line square across a long surface, measured from an end."""
    return (
        mark.tool in ("knife", "pencil")
        and mark.line is not None
        and mark.source in ENDS
        and mark.face not in ENDS
        and mark.line[0][0] == mark.line[1][0]
    )


_BETWEEN = re.compile(
    r"(.* )?mortise (top|bottom|start|end)|(.* )?key hole, (inner|outer) end"
    r"|button [0-9]+, (near|far) end|groove (top|bottom|stop)"
    r"|(.* )?haunch edge|(.* )?notch (start|end)"
)


def is_between_walls(mark: Mark) -> bool:
    """True for an end of a mortise or of a groove that stops. It is knifed between the walls only,
    so that no knife line runs over a surface that shows (common practice, no source).
    """
    return is_across(mark) and mark.tool == "knife" and bool(_BETWEEN.fullmatch(mark.role))


def level_sets(marks: Iterable[Mark]) -> list[tuple[Mark, ...]]:
    """Marks shared out so that in each lot every figure is on the same faces of every part."""
    places: dict[tuple[object, ...], dict[str, list[Mark]]] = {}
    for mark in marks:
        key = (mark.source, mark.distance, second_of(mark))
        places.setdefault(key, {}).setdefault(mark.part, []).append(mark)
    found: dict[object, list[Mark]] = {}
    for by_part in places.values():
        on: dict[tuple[Face, ...], list[str]] = {}
        for part, some in by_part.items():
            on.setdefault(faces_of(some), []).append(part)
        for faces, parts in on.items():
            lot = found.setdefault((by_part[parts[0]][0].source, faces, tuple(parts)), [])
            lot += [mark for part in parts for mark in by_part[part]]
    return [tuple(some) for some in found.values()]


def _in_order(at: Fraction, second: Fraction | None) -> tuple[Fraction, Fraction]:
    return at, second if second is not None else Fraction(-1)
