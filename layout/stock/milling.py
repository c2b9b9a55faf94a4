"""The order of milling for a whole batch: every machine set once for each size, large to small.

Joint a face, plane to thickness, joint an edge, bring to width, crosscut: first of each come the
largest, so that the planer's table only ever closes up and the saw's stop only ever moves nearer
(common practice, no source). Sawing out comes before, from the rough list; boards that are glued up
are brought to thickness and jointed first; a top's strips to their width too, before they are glued
up. Matched blanks stay whole until a face and an edge are true. All lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple, get_args

from layout.stock.rough import Rough

ZERO = Fraction(0)
# Stock at least this share of its width in thickness stands safely on edge in the planer (a leg, a
# rail); thinner stock is brought to width at the saw: common practice, no source.
STANDS = Fraction(1, 3)
Kind = Literal[
    "crosscut rough", "rip rough", "joint a face", "plane to thickness", "joint an edge",
    "part", "strips to width", "glue up", "flatten", "plane to width", "rip to width",
    "square one end", "cut to length",
]
KINDS: tuple[Kind, ...] = get_args(Kind)
# What has no size to set: it is done to everything at one go.
WITHOUT_SIZE = ("joint a face", "joint an edge", "part", "glue up", "square one end")
# What is done to boards, before they are parts: a part's boards may be several entries of the list,
# and of what is done later it is told with the first.
TO_BOARDS = ("crosscut rough", "rip rough", "joint a face", "plane to thickness", "joint an edge",
             "part", "strips to width")


class Batch(NamedTuple):
    """What passes at one setting: boards of one entry of the rough list, and how many."""

    rough: Rough
    many: int


class Step(NamedTuple):
    """One operation at one setting (None: nothing is set), and everything that passes then."""

    kind: Kind
    setting: Fraction | None
    batches: tuple[Batch, ...]

    @property
    def many(self) -> int:
        """How many pieces pass."""
        return sum(one.many for one in self.batches)


def milling(rough: Sequence[Rough]) -> tuple[Step, ...]:
    """Every step in its order; what no board can give is left out."""
    able = [one for one in rough if one.sold is not None]
    later = [one for at, one in enumerate(able)
             if not any(one.row.parts == before.row.parts for before in able[:at])]
    later = [piece for one in later for piece in one.holds or (one,)]
    found: list[Step] = []
    for kind in KINDS:
        among = able if kind in TO_BOARDS else later
        passing = [(one, *_at(kind, one)) for one in among if _takes(kind, one, able)]
        if kind in WITHOUT_SIZE:
            if passing:
                found.append(Step(kind, None, tuple(Batch(one, many) for one, _, many in passing)))
            continue
        found += _by_setting(kind, passing)
    return tuple(found)


def thickness_of(one: Rough) -> Fraction:
    """What a board is planed to: the smaller of the part's sizes, or its layer of it, and what is
    left on until it is glued up.
    """
    if one.strips:
        return one.strips[0]
    return min(one.row.thickness, one.row.width) / one.layers + one.left


def width_of(one: Rough) -> Fraction:
    """What a part is brought to: the larger of its sizes."""
    return max(one.row.thickness, one.row.width)


def on_edge(one: Rough) -> bool:
    """True where it goes through the planer on edge."""
    return one.beside == 1 and min(one.row.thickness, one.row.width) >= width_of(one) * STANDS


def _by_setting(kind: Kind, passing: Iterable[tuple[Rough, Fraction, int]]) -> list[Step]:
    """One step a setting, the largest first."""
    groups: dict[Fraction, list[Batch]] = {}
    for one, setting, many in passing:
        groups.setdefault(setting, []).append(Batch(one, many))
    return [Step(kind, setting, tuple(groups[setting]))
            for setting in sorted(groups, reverse=True)]


def _takes(kind: Kind, one: Rough, able: Sequence[Rough]) -> bool:
    """Does this operation concern these boards."""
    if kind == "part":
        return bool(one.holds)
    if kind == "glue up":
        boards = sum(other.many for other in able if other.row.parts == one.row.parts)
        return one.beside > 1 or one.layers > 1 or bool(one.strips and boards > 1)
    if kind == "strips to width":
        return bool(one.strips)
    if kind == "flatten":
        return bool(one.strips) or one.left > 0
    if kind == "plane to width":
        return not one.strips and on_edge(one)
    if kind == "rip to width":
        return not one.strips and not on_edge(one)
    return True


def _at(kind: Kind, one: Rough) -> tuple[Fraction, int]:
    """The setting, and how many pieces pass: boards until they are glued up, then blanks, and at
    the end parts.
    """
    blanks = -(-one.row.count // one.gang)
    if kind == "strips to width" and one.strips:
        return one.strips[1], one.many
    sizes: dict[Kind, tuple[Fraction, int]] = {
        "crosscut rough": (one.length, one.many),
        "rip rough": (one.width, one.many),
        "plane to thickness": (thickness_of(one), one.many),
        "plane to width": (width_of(one), blanks),
        "rip to width": (width_of(one), blanks),
        "square one end": (ZERO, blanks),
        "cut to length": (one.row.cut_length, one.row.count),
        "glue up": (ZERO, blanks),
        "flatten": (min(one.row.thickness, one.row.width), blanks),
    }
    return sizes.get(kind, (ZERO, one.many))

