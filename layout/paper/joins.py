"""Where a drawing longer than the paper is cut, and the marks that put it together again.

Neighbouring pieces overlap by 10 mm. The join is the middle of the overlap: crosses on it, at
the same place of the drawing on both pieces, are laid on each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Self

from layout.scene.crop import bounds
from layout.scene.strokes import Line, Pen, Spot, Stroke, Text

OVERLAP = Fraction(10)
Span = tuple[Fraction, Fraction]
_ARM = OVERLAP / 2
_GRAVE = 1000
_WORDS_APART = Fraction(3)  # words closer than this belong together, as a figure's do
_LEAST = Fraction(1, 5)  # of the longest step: no piece is shorter than that


@dataclass(frozen=True)
class Piece:
    """One piece of a length, in mm: from `low` to `high`, overlaps included.

    `core` runs from join to join: the cores of all pieces make up the length without overlap.
    """

    low: Fraction
    high: Fraction
    core: Span


@dataclass(frozen=True)
class Tile:
    """One page's part of a drawing, as rectangles in the drawing's mm: with overlaps, and core."""

    low: Spot
    high: Spot
    core_low: Spot
    core_high: Spot

    @classmethod
    def of(cls, column: Piece, row: Piece) -> Self:
        """The tile where a column and a row meet."""
        return cls(
            (column.low, row.low), (column.high, row.high),
            (column.core[0], row.core[0]), (column.core[1], row.core[1]),
        )

    def holds(self, low: Spot, high: Spot) -> bool:
        """True where the whole of a rectangle lies on this tile."""
        return all(self.low[i] <= low[i] and high[i] <= self.high[i] for i in (0, 1))

    def owns(self, spot: Spot) -> bool:
        """True where a spot lies in this tile's core."""
        return all(self.core_low[i] <= spot[i] <= self.core_high[i] for i in (0, 1))


@dataclass(frozen=True)
class Spans:
    """Spans of a length that are better left whole, in mm.

    `firm` is worth a piece more, where that spares it a join; `soft` is not.
    """

    firm: tuple[Span, ...] = ()
    soft: tuple[Span, ...] = ()


def pieces(
    length: Fraction, room: Fraction, spans: Spans | None = None, even: bool = True
) -> tuple[Piece, ...]:
    """A length of mm cut into pieces no longer than `room`, as few as can be.

    The joins are kept out of the spans where that can be, the firm ones first. `even` makes
    the pieces about equally long; otherwise all but the last are as long as they can be.
    """
    spans = spans or Spans()
    assert room > OVERLAP, "a piece holds more than its overlap"
    if length <= room:
        return (Piece(Fraction(0), length, (Fraction(0), length)),)
    fewest = -((OVERLAP - length) // (room - OVERLAP))
    plan = _plan(length, room, fewest, spans, even)
    if plan[0] >= _GRAVE:
        plan = min(plan, _plan(length, room, fewest + 1, spans, even), key=_gravity)
    starts = plan[1]
    lows = [Fraction(0), *starts]
    highs = [start + OVERLAP for start in starts] + [length]
    joins = [Fraction(0), *(start + OVERLAP / 2 for start in starts), length]
    return tuple(
        Piece(low, high, (joins[i], joins[i + 1]))
        for i, (low, high) in enumerate(zip(lows, highs, strict=True))
    )


_Plan = tuple[int, tuple[Fraction, ...]]


def _gravity(plan: _Plan) -> int:
    return plan[0] // _GRAVE


def _plan(length: Fraction, room: Fraction, count: int, spans: Spans, even: bool) -> _Plan:
    """Where the overlaps of `count` pieces start, and how grave the joins' faults are together.

    Goes from overlap to overlap and keeps, for every place where one can start, the best way
    to get there: least fault first, then least shift from where the joins would fall by
    themselves.
    """
    step = room - OVERLAP
    least_step = step * _LEAST
    share = (length - OVERLAP) / count
    half = OVERLAP / 2
    # the places where an overlap just clears a span, or its join does
    edges = {high for _, high in spans.firm} | {low - OVERLAP for low, _ in spans.firm}
    for low, high in (*spans.firm, *spans.soft):
        edges |= {high - half, low - half}
    ways: dict[Fraction, tuple[int, Fraction, tuple[Fraction, ...]]] = {
        Fraction(0): (0, Fraction(0), ())
    }
    for number in range(1, count):
        # far enough for the pieces that are left to reach the end, not so far that they shrink
        least = length - OVERLAP - step * (count - number)
        most = min(step * number, length - OVERLAP - least_step * (count - number))
        target = share * number if even else most
        places = {place for place in {share * number, most, *edges} if least <= place <= most}
        faults_at = {place: _fault(place, spans) for place in places}
        reached: dict[Fraction, tuple[int, Fraction, tuple[Fraction, ...]]] = {}
        for before, (faults, shift, starts) in ways.items():
            for place, fault in faults_at.items():
                if not before + least_step <= place <= before + step:
                    continue
                way = (
                    faults + fault,
                    shift + abs(place - target),
                    (*starts, place),
                )
                if place not in reached or way < reached[place]:
                    reached[place] = way
        ways = reached
    best = min(ways.values())
    return best[0], best[2]


def _fault(start: Fraction, spans: Spans) -> int:
    """How bad an overlap starting here is, worst first: its join is in a firm span, in a soft
    one, or the overlap touches a firm one (which is then still whole on one of the pieces).
    """
    join = start + OVERLAP / 2
    if any(low < join < high for low, high in spans.firm):
        return _GRAVE
    soft = any(low < join < high for low, high in spans.soft)
    touched = any(low < start + OVERLAP and start < high for low, high in spans.firm)
    return 10 * soft + touched


def word_spans(strokes: Iterable[Stroke], axis: int) -> tuple[Span, ...]:
    """What the words of a drawing cover along x (axis 0) or y (1); close neighbours as one."""
    reaches = sorted(
        (low[axis], high[axis])
        for low, high in (bounds(stroke) for stroke in strokes if isinstance(stroke, Text))
    )
    merged: list[Span] = []
    for low, high in reaches:
        if merged and low - merged[-1][1] < _WORDS_APART:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return tuple(merged)


def join_crosses(a: Spot, b: Spot) -> tuple[Stroke, ...]:
    """Two crosses on a level or upright join from a to b, a sixth of its length from its ends."""
    strokes: list[Stroke] = []
    for share in (Fraction(1, 6), Fraction(5, 6)):
        strokes += join_cross((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return tuple(strokes)


def join_cross(at: Spot) -> tuple[Stroke, ...]:
    """One cross, its arms as long as the overlap is wide on either side of the join."""
    (x, y) = at
    return (
        Line((x - _ARM, y), (x + _ARM, y), Pen.THIN),
        Line((x, y - _ARM), (x, y + _ARM), Pen.THIN),
    )
