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
from collections.abc import Callable
from typing import NamedTuple

from layout.mark import Hull, Mark
from layout.piece import Piece
from layout.settings import GAUGES, Setting, settings
from layout.stock.marking_dovetails import dovetail_steps, tail_marks
from layout.stock.marking_lengths import length_steps
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
    lines_of,
    mirrored,
    parts_of,
    sources_of,
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
    steps = [
        *(_reference(parts) for parts in by_kind(marked)),
        *(step for parts in sets(marked) for step in length_steps(marked, parts)),
        *_from_masters(marked, rest, _before_gauges),
        *(_gauge(piece, setting) for setting in settings(piece.marks)),
        *dovetail_steps(marked),
        *_from_masters(marked, rest, _after_gauges),
        *_from_masters(marked, rest, _holes),
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
        setting.marks, setting.marks[0].tool, setting,
    )


def _rest(marked: Marked) -> dict[str, list[Mark]]:
    """What neither goes across a set nor comes from a gauge nor belongs to tails, part by part."""
    tails = {mark for _, marks in tail_marks(marked).values() for mark in marks}
    return {
        part.id: [mark for mark in marked.marks[part.id]
                  if mark.tool not in GAUGES and not is_across(mark) and mark not in tails]
        for part in marked.parts
    }


def _before_gauges(mark: Mark) -> Kind | None:
    """Lines that gauge lines stop at, and pencil lines: stops, notches, a socket that tapers."""
    if mark.point is not None or mark.tool in ("bit", "bevel", "dividers"):
        return None
    if is_taper(mark):
        return "tapers" if mark.source in ENDS else None
    return "pencil lines" if mark.tool == "pencil" else "knife lines"


def _after_gauges(mark: Mark) -> Kind | None:
    """Lines that start from gauge lines: what is sloped, and a tail that tapers."""
    if mark.point is not None:
        return None
    if mark.tool in ("bevel", "dividers"):
        return "bevel lines" if mark.tool == "bevel" else "dividers"
    return "tapers" if is_taper(mark) and mark.source not in ENDS else None


def _holes(mark: Mark) -> Kind | None:
    return "holes" if mark.point is not None or mark.tool == "bit" else None


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
    work, as it may want another slope.
    """
    if kind == "holes":
        return mark.face
    return _EACH.sub("", mark.role) if kind == "bevel lines" else ""


# A pencil line is not cut to, so it comes first.
_RANK: tuple[Kind, ...] = (
    "pencil lines", "knife lines", "tapers", "dividers", "bevel lines", "holes"
)


def _ranked(sort: _Sort) -> tuple[int, str, str]:
    """Bevel lines before the tapers that start from them, on a tail; else as in _RANK."""
    after = sort.kind == "tapers" and sort.source not in ENDS
    return (len(_RANK) if after else _RANK.index(sort.kind)), sort.source, sort.like


def _one_sort(group: Parts, sort: _Sort, marks: dict[str, list[Mark]]) -> list[Step]:
    """The master's marks of one sort, then those of the others."""
    master = group[0].id
    mine = tuple(marks[master])
    steps = [Step(sort.kind, (master,), faces_of(mine), sources_of(mine), lines_of(mine), mine,
                  mine[0].tool, master=master if len(group) > 1 else "")]
    others = tuple(mark for part in group[1:] for mark in marks[part.id])
    if others:
        steps.append(
            Step("prick from the master", ids(group[1:]), faces_of(others), sources_of(others),
                 lines_of(others), others, others[0].tool, master=master,
                 mirrored=mirrored(group))
        )
    return steps


def _crosses(marked: Marked) -> list[Step]:
    """Where wood comes away by saw, chisel or plane; a bored hole wants no cross."""
    cut = {one.part for one in marked.piece.cuts if isinstance(one.shape, Hull)}
    parts = tuple(part for part in marked.parts if part.id in cut)
    return [Step("waste crosses", ids(parts), tool="pencil")] if parts else []
