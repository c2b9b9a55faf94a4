"""The lines across a set of parts: ticked on one, squared across all of them, carried round each.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.mark import Mark, Tool
from layout.part import Face, Part
from layout.stock.marking_ends import end_line_steps
from layout.stock.marking_sets import Marked, Parts
from layout.stock.marking_step import (
    SOURCES,
    Step,
    faces_of,
    ids,
    is_across,
    is_between_walls,
    level_sets,
    lines_of,
    mirrored,
    parts_of,
)

# Boards lie together on edge, so that the most of them go under one square; the face edge is a
# reference surface and comes first (common practice, no source).
_UP: tuple[Face, ...] = ("edge", "far edge", "face", "back")
# Pencil before knife: the pencil says where, the knife only what is cut to.
_TOOLS: tuple[Tool, ...] = ("pencil", "knife")


class _At(NamedTuple):
    """Lines drawn with one tool at one distance from one end."""

    tool: Tool
    source: str
    distance: Fraction


class _Across(NamedTuple):
    """What is squared across the same parts with one tool, with this surface up."""

    face: Face
    source: str
    tool: Tool
    parts: tuple[str, ...]


class _Round(NamedTuple):
    """What is carried round to the same surfaces of the same parts."""

    source: str
    tool: Tool
    faces: tuple[Face, ...]
    parts: tuple[str, ...]


def length_steps(marked: Marked, parts: Parts) -> list[Step]:
    """Every step that the lines across one set of parts take."""
    across, around = _shared_out(parts, [mark for mark in marked.of(parts) if is_across(mark)])
    steps = end_line_steps(marked.piece, parts)
    if any(len(one.parts) > 1 for one in across):
        up = dict.fromkeys(one.face for one in across if len(one.parts) > 1)
        steps.append(Step("lay together", ids(parts), tuple(up), mirrored=mirrored(parts)))
    for face, source in dict.fromkeys((one.face, one.source) for one in across):
        here = {key: marks for key, marks in across.items() if key[:2] == (face, source)}
        steps += [_tick(face, source, master, here)
                  for master in dict.fromkeys(one.parts[0] for one in here)]
        steps += [_square(parts, key, marks) for key, marks in here.items()]
    steps += [_carry(key, marks) for key, marks in around.items()]
    return steps


def wall_steps(marked: Marked, parts: Parts) -> list[Step]:
    """The ends of the mortises and grooves of one set, when their walls are gauged."""
    ends = [mark for mark in marked.of(parts) if is_between_walls(mark)]
    return [
        Step("knife between walls", parts_of(marked.piece, some), faces_of(some),
             (some[0].source,), lines_of(some), some, tool="knife")
        for some in level_sets(ends)
    ]


def _drawn(mark: Mark) -> Tool:
    """What a line across is drawn with at first."""
    return "pencil" if is_between_walls(mark) else mark.tool


def _made(marks: list[Mark]) -> tuple[Mark, ...]:
    return tuple(mark for mark in marks if not is_between_walls(mark))


def _pencilled(marks: list[Mark]) -> tuple[Mark, ...]:
    return tuple(mark for mark in marks if is_between_walls(mark))


def _tick(face: Face, source: str, master: str, here: dict[_Across, list[Mark]]) -> Step:
    """The master's ticks: all that is squared across from it with this surface up."""
    marks = [mark for key, some in here.items() if key.parts[0] == master
             for mark in some if mark.part == master]
    return Step("tick", (master,), (face,), (source,), lines_of(marks), tool="pencil",
                master=master)


def _square(parts: Parts, key: _Across, marks: list[Mark]) -> Step:
    chosen = [part for part in parts if part.id in key.parts]
    return Step(
        "square across" if key.tool == "knife" else "pencil across",
        key.parts, (key.face,), (key.source,), lines_of(marks), _made(marks), _pencilled(marks),
        key.tool, master=key.parts[0], mirrored=mirrored(chosen),
    )


def _carry(key: _Round, marks: list[Mark]) -> Step:
    return Step("carry round", key.parts, faces_of(marks), (key.source,), lines_of(marks),
                _made(marks), _pencilled(marks), key.tool)


def _shared_out(
    parts: Parts, marks: list[Mark]
) -> tuple[dict[_Across, list[Mark]], dict[_Round, list[Mark]]]:
    """What is squared across together, and what is then carried round each part."""
    places: dict[_At, list[Mark]] = {}
    for mark in marks:
        places.setdefault(_At(_drawn(mark), mark.source, mark.distance), []).append(mark)
    across: dict[_Across, list[Mark]] = {}
    around: dict[_Round, list[Mark]] = {}
    for at in sorted(places, key=lambda one: one.distance):
        left = places[at]
        while left:
            face = _upmost(parts, left)
            some = _named_alike(parts, [mark for mark in left if mark.face == face])
            first = [mark for mark in left if mark.face == face and mark.part in some]
            across.setdefault(_Across(face, at.source, at.tool, some), []).extend(first)
            others = [mark for mark in left if mark.part in some and mark.face != face]
            for round_, carried in _by_faces(at, some, others).items():
                around.setdefault(round_, []).extend(carried)
            left = [mark for mark in left if mark.part not in some]
    in_order = sorted(around, key=lambda one: (_TOOLS.index(one.tool), SOURCES.index(one.source)))
    return _ordered(across), {key: around[key] for key in in_order}


def _named_alike(parts: Parts, marks: list[Mark]) -> tuple[str, ...]:
    """The first part with such a line, and those where it is the same thing: what is ticked on one
    for others bears their names too.
    """
    roles: dict[str, set[str]] = {}
    for mark in marks:
        roles.setdefault(mark.part, set()).add(mark.role)
    on = [part.id for part in parts if part.id in roles]
    return tuple(one for one in on if roles[one] == roles[on[0]])


def _by_faces(at: _At, parts: Iterable[str], marks: list[Mark]) -> dict[_Round, list[Mark]]:
    """Marks at one distance, the parts together that they go round to the same surfaces on."""
    faces = {one: faces_of(mark for mark in marks if mark.part == one) for one in parts}
    found: dict[_Round, list[Mark]] = {}
    for mark in marks:
        mine = faces[mark.part]
        same = tuple(one for one in parts if faces[one] == mine)
        found.setdefault(_Round(at.source, at.tool, mine, same), []).append(mark)
    return found


def _upmost(parts: Parts, marks: list[Mark]) -> Face:
    """The surface that lies up: with the most parts, in one plane where that can be."""
    def order(face: Face) -> tuple[int, bool, int]:
        here = {mark.part for mark in marks if mark.face == face}
        level = _level(face, [part for part in parts if part.id in here])
        return -len(here), not level, _UP.index(face)

    return min({mark.face for mark in marks}, key=order)


def _level(face: Face, parts: list[Part]) -> bool:
    """True where these surfaces of parts on one bench lie in one plane."""
    heights = {part.width if face in ("edge", "far edge") else part.thickness for part in parts}
    return len(heights) == 1


def _ordered(across: dict[_Across, list[Mark]]) -> dict[_Across, list[Mark]]:
    """While they lie together first, then what only some of them have; surface by surface."""
    most: dict[tuple[Face, str], int] = {}
    for key in across:
        here = (key.face, key.source)
        most[here] = max(most.get(here, 0), len(key.parts))

    def order(key: _Across) -> tuple[int, ...]:
        return (-most[key.face, key.source], _UP.index(key.face), SOURCES.index(key.source),
                -len(key.parts), _TOOLS.index(key.tool))

    return {key: across[key] for key in sorted(across, key=order)}
