"""The marking order: the whole layout of a piece, from the first pencil mark to the last cross.

Reference surfaces first, because everything is measured from them; then, set by set, the lines
across parts that lie together, pencil before knife; then every gauge setting once, in the order and
with the numbers of `layout.settings` (shoulders are knifed before any gauge line: William Noyes,
Handwork in Wood, 1910, ch. VII no. 32); then what is set by hand, bevel and dividers; then holes;
and last the crosses in the waste. Where nothing else is said: common practice, no source.

All lengths are exact Fractions of a mm.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Set
from functools import partial
from typing import NamedTuple

from layout.mark import Hull, Mark
from layout.piece import Piece
from layout.settings import GAUGES, Setting, settings
from layout.stock.marking_dovetails import dovetail_steps, tail_marks
from layout.stock.marking_lengths import length_steps, wall_steps
from layout.stock.marking_sets import Marked, Parts, alike, by_kind, marked_parts, sets
from layout.stock.marking_step import (
    ENDS,
    Kind,
    Line,
    Step,
    faces_of,
    hands_mirror,
    ids,
    is_across,
    is_taper,
    level_sets,
    lines_of,
    mirrored,
    parts_of,
    sources_of,
    taken_at,
)


class _Sort(NamedTuple):
    """Marks of one part that are made at one go; `like` is what else they have in common."""

    kind: Kind
    source: str
    like: str


def marking(piece: Piece) -> tuple[Step, ...]:
    """Every step in its order, numbered from 1; every mark of the piece is made in one of them."""
    marked = marked_parts(piece)
    rest = _rest(marked)
    together = sets(marked)
    steps = [
        *(_reference(parts) for parts in by_kind(marked)),
        *(step for parts in together for step in length_steps(marked, parts)),
        *_from_masters(marked, rest, _before_gauges),
        *(_gauge(piece, setting) for setting in settings(piece.marks)),
        *(step for parts in together for step in wall_steps(marked, parts)),
        *dovetail_steps(marked),
        *_from_masters(marked, rest, _after_gauges),
        *_from_masters(marked, rest, partial(_holes, _crossed(marked))),
        *_through_caps(piece),
        *_crosses(marked),
    ]
    return tuple(step._replace(number=number) for number, step in enumerate(steps, start=1))


def _reference(parts: Parts) -> Step:
    """Face side and face edge, the ends' letters, the triangle across a set."""
    return Step("mark reference surfaces", ids(parts), ("face", "edge", "end A", "end B"),
                tool="pencil", mirrored=hands_mirror(parts))


def _gauge(piece: Piece, setting: Setting) -> Step:
    """Everything that one stand of a gauge strikes."""
    roles = dict.fromkeys(mark.role for mark in setting.marks)
    return Step(
        "gauge setting", parts_of(piece, setting.marks), faces_of(setting.marks),
        sources_of(setting.marks), (Line(setting.distance, tuple(roles), setting.second),),
        setting.marks, tool=setting.marks[0].tool, setting=setting,
    )


def _rest(marked: Marked) -> dict[str, list[Mark]]:
    """What neither goes across a set nor comes from a gauge nor belongs to tails, part by part."""
    tails = {mark for _, marks in tail_marks(marked).values() for mark in marks}
    return {
        part.id: [mark for mark in marked.marks[part.id]
                  if mark.tool not in GAUGES and not is_across(mark) and mark not in tails]
        for part in marked.parts
    }


# Where boards are glued up: the joints are there already, no line is drawn.
_GLUE = re.compile(r"glue line [0-9]+")


def _before_gauges(mark: Mark) -> Kind | None:
    """Lines that gauge lines stop at, and pencil lines: stops, notches, a socket that tapers."""
    if mark.point is not None or mark.tool in ("bit", "bevel", "dividers"):
        return None
    if is_taper(mark):
        return "tapers" if mark.source in ENDS else None
    if mark.tool == "pencil" and _GLUE.fullmatch(mark.role):
        return "glue lines"
    return "pencil lines" if mark.tool == "pencil" else "knife lines"


def _after_gauges(mark: Mark) -> Kind | None:
    """Lines that start from gauge lines: what is sloped, and a tail that tapers."""
    if mark.point is not None:
        return None
    if mark.tool in ("bevel", "dividers"):
        return "bevel lines" if mark.tool == "bevel" else "dividers"
    return "tapers" if is_taper(mark) and mark.source not in ENDS else None


def _holes(crossed: Set[Mark], mark: Mark) -> Kind | None:
    if mark in crossed:
        return "crossings"
    return "holes" if mark.point is not None or mark.tool == "bit" else None


def _crossed(marked: Marked) -> Set[Mark]:
    """Holes where a line across and a gauge line cross: the lines say where they are."""
    lines: dict[tuple[str, str], list[Mark]] = defaultdict(list)
    holes = []
    for mark in marked.of(marked.parts):
        if mark.point is not None:
            holes.append(mark)
        elif is_across(mark) or mark.tool in GAUGES:
            lines[mark.part, mark.face].append(mark)
    return {
        hole for hole in holes
        if {is_across(one) for one in lines[hole.part, hole.face] if _runs_over(one, hole)}
        == {True, False}
    }


def _runs_over(mark: Mark, hole: Mark) -> bool:
    """True where a line along or across a surface runs through a hole's middle."""
    if mark.line is None or hole.point is None:
        return False
    return all(min(one, other) <= at <= max(one, other)
               for one, other, at in zip(*mark.line, hole.point, strict=True))


def _through_caps(piece: Piece) -> list[Step]:
    """A tongue takes its pegs' places from the end caps, when these are on and bored: it has no
    marks of its own.
    """
    tongues = {cut.part for cut in piece.cuts if cut.role.startswith("cap peg slot")}
    parts = tuple(part.id for part in piece.parts if part.id in tongues)
    return [Step("prick through the caps", parts)] if parts else []


def _from_masters(
    marked: Marked, rest: dict[str, list[Mark]], kind_of: Callable[[Mark], Kind | None]
) -> list[Step]:
    """One of parts that are alike from the figures, the others pricked from it."""
    found: dict[_Sort, dict[str, list[Mark]]] = {}
    for part in marked.parts:
        for mark in rest[part.id]:
            kind = kind_of(mark)
            if kind is not None:
                sort = _Sort(kind, mark.source, _like(kind, mark))
                found.setdefault(sort, {}).setdefault(part.id, []).append(mark)
    steps: list[tuple[int, tuple[int, str, str], list[Step]]] = []
    order = {part.id: number for number, part in enumerate(marked.parts)}
    for sort, marks in found.items():
        for group in alike(marked.parts, marks):
            steps.append((order[group[0].id], _ranked(sort), _one_sort(group, sort, marks)))
    in_order = sorted(steps, key=lambda one: one[:2])
    return [step for _, _, some in in_order for step in some]


_EACH = re.compile(r"[0-9]+|\b(?:near|far)\b|, (?:face|back)$")


def _like(kind: Kind, mark: Mark) -> str:
    """Of holes the surface: their second figure is from what lies beside it. Of bevel lines their
    work, as it may want another slope. Of tapers where their two figures are taken.
    """
    if kind in ("holes", "crossings"):
        return mark.face
    if kind == "tapers":
        return " ".join(map(str, taken_at(mark)))
    return _EACH.sub("", mark.role) if kind == "bevel lines" else ""


# A pencil line is not cut to, so it comes first.
_RANK: tuple[Kind, ...] = (
    "glue lines", "pencil lines", "knife lines", "tapers", "dividers", "bevel lines", "crossings",
    "holes",
)


def _ranked(sort: _Sort) -> tuple[int, str, str]:
    """Bevel lines before the tapers that start from them, on a tail; else as in _RANK."""
    after = sort.kind == "tapers" and sort.source not in ENDS
    return (len(_RANK) if after else _RANK.index(sort.kind)), sort.source, sort.like


def _one_sort(group: Parts, sort: _Sort, marks: dict[str, list[Mark]]) -> list[Step]:
    """The master's marks of one sort, then those of the others; first what is on one surface, then
    what is on another, so that none is told where it is not.
    """
    if sort.kind == "glue lines":
        every = [mark for part in group for mark in marks[part.id]]
        return [_step(sort.kind, some) for some in level_sets(every)]
    master = group[0].id
    steps: list[Step] = []
    for mine in level_sets(marks[master]):
        steps.append(_step(sort.kind, mine)._replace(master=master if len(group) > 1 else ""))
        places = set(map(_place, mine))
        others = tuple(mark for part in group[1:] for mark in marks[part.id]
                       if _place(mark) in places)
        if others:
            steps.append(_step("prick from the master", others)._replace(
                master=master, mirrored=mirrored(group)))
    return steps


def _step(kind: Kind, marks: tuple[Mark, ...]) -> Step:
    parts = tuple(dict.fromkeys(mark.part for mark in marks))
    return Step(kind, parts, faces_of(marks), sources_of(marks), lines_of(marks), marks,
                tool=marks[0].tool)


def _place(mark: Mark) -> tuple[object, ...]:
    """What a mark has in common with the same one on a part that is alike."""
    return mark.face, mark.role, mark.line, mark.point


def _crosses(marked: Marked) -> list[Step]:
    """Where wood comes away by saw, chisel or plane; a bored hole wants no cross."""
    cut = {one.part for one in marked.piece.cuts if isinstance(one.shape, Hull)}
    parts = tuple(part for part in marked.parts if part.id in cut)
    return [Step("waste crosses", ids(parts), tool="pencil")] if parts else []
