"""How a board comes apart, cut by cut: crosscut first, then each section jointed and ripped, then
each strip cut to its blanks. All lengths in mm, exact.

Every cut goes from edge to edge of the piece that is on the saw. What the blade takes is a band: as
wide as the saw's cut, or less where the board ends within it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

ZERO = Fraction(0)
Kind = Literal["crosscut", "joint an edge", "rip", "cut to length"]


class Rect(NamedTuple):
    """A rectangle of a board: along it from `start` to `end`, across it from `low` to `high`."""

    start: Fraction
    end: Fraction
    low: Fraction
    high: Fraction

    @property
    def turned(self) -> Rect:
        """With length and width exchanged."""
        return Rect(self.low, self.high, self.start, self.end)


class Placed(NamedTuple):
    """One blank on a board: which blank, and which of its number (from 0)."""

    blank: int
    number: int
    rect: Rect


class Strip(NamedTuple):
    """A strip of a section, and its blanks from its start on."""

    rect: Rect
    placed: tuple[Placed, ...]


class Section(NamedTuple):
    """A stretch of a board and its strips, from low to high."""

    rect: Rect
    strips: tuple[Strip, ...]


class Cut(NamedTuple):
    """One step at the saw or jointer: what is on it, and the band of it that goes.

    `across` is True for a cut square across the board, False for one along it.
    """

    kind: Kind
    across: bool
    piece: Rect
    start: Fraction
    end: Fraction


def cuts(
    whole: Rect, sections: Sequence[Section], kerf: Fraction, edge: Fraction
) -> tuple[Cut, ...]:
    """Every cut of a board in its order."""
    found: list[Cut] = []
    spans = [(one.rect.start, one.rect.end) for one in sections]
    for piece, band in _apart((whole.start, whole.end), spans, kerf):
        found.append(Cut("crosscut", True, whole._replace(start=piece[0], end=piece[1]), *band))
    for section in sections:
        found += _ripped(section, whole, kerf, edge)
    for section in sections:
        for strip in section.strips:
            found += _to_length(strip, section, kerf)
    return tuple(found)


def _ripped(section: Section, whole: Rect, kerf: Fraction, edge: Fraction) -> Iterator[Cut]:
    """A section's edge is jointed, and its strips ripped from that edge on."""
    piece = section.rect._replace(low=whole.low, high=whole.high)
    if edge:
        yield Cut("joint an edge", False, piece, whole.low, whole.low + edge)
    spans = [(one.rect.low, one.rect.high) for one in section.strips]
    for part, band in _apart((whole.low + edge, whole.high), spans, kerf):
        yield Cut("rip", False, piece._replace(low=part[0], high=part[1]), *band)


def _to_length(strip: Strip, section: Section, kerf: Fraction) -> Iterator[Cut]:
    """A strip's blanks, one after another from its start."""
    spans = [(one.rect.start, one.rect.end) for one in strip.placed]
    piece = strip.rect._replace(start=section.rect.start, end=section.rect.end)
    for part, band in _apart((section.rect.start, section.rect.end), spans, kerf):
        yield Cut("cut to length", True, piece._replace(start=part[0], end=part[1]), *band)


Span = tuple[Fraction, Fraction]


def _apart(whole: Span, spans: Sequence[Span], kerf: Fraction) -> Iterator[tuple[Span, Span]]:
    """The cuts that set these spans free of the whole: what is left of it at each, and the band."""
    at, end = whole
    for low, high in spans:
        if low > at:  # waste before it
            yield (at, end), (max(at, low - kerf), low)
            at = low
        if high < end:
            yield (at, end), (high, min(high + kerf, end))
        at = min(high + kerf, end)


def transposed(cut: Cut) -> Cut:
    """The cut as it lies on a sheet whose sections run the other way."""
    kinds: dict[Kind, Kind] = {"crosscut": "rip", "rip": "crosscut"}
    return Cut(kinds.get(cut.kind, cut.kind), not cut.across, cut.piece.turned, cut.start, cut.end)
