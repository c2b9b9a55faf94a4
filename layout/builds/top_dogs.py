"""Rows of holes in a top, clear of everything that stands under it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from layout.builds.top import Top
from layout.builds.top_choice import RowChoice
from layout.builds.top_fixing import Fixings, screw_at
from layout.errors import BadPiece
from layout.joints import dogs
from layout.joints.dogs import DogChoice, Dogs, Zone
from layout.joints.worked import Span
from layout.part import Part

ZERO = Fraction(0)


def fit(top: Top, fixings: Fixings | None, standing: Sequence[Part]) -> tuple[Dogs, ...]:
    """Every row in its slab. BadPiece where there is none that misses what it must."""
    found: list[Dogs] = []
    for row in top.choice.rows:
        found.append(_row(top, row, fixings, standing, found))
    return tuple(found)


def _row(
    top: Top, row: RowChoice, fixings: Fixings | None, standing: Sequence[Part],
    others: Sequence[Dogs],
) -> Dogs:
    choice = row.dogs
    half = choice.size / 2
    if choice.shape == "square":
        slab = top.slabs[1]
        front = row.front
        lines: tuple[Fraction, ...] = (front + half,)
    else:
        lines = tuple(_off_glue(top, row, line) for line in choice.lines)
        slab, front = _slab(top, choice, lines)
    zones = [zone._replace(low=zone.low - top.beyond, high=zone.high - top.beyond)
             for zone in choice.zones]
    zones += _caps(top)
    for line in lines:
        band = (line - half, line + half)
        zones += _under(top, choice, band, standing)
        zones += _screws(top, fixings, choice, band)
        if row.off_glue is not None:
            zones += _stave_ends(top, band, row.off_glue - choice.clear)
        for other in others:
            zones += _holes(top, other, choice, band)
    vise = choice.vise
    if vise is not None and top.beyond:
        vise = vise._replace(closed=vise.closed + top.beyond)
    within = tuple(line - front for line in lines) if choice.shape == "round" else ()
    first = choice.first - top.beyond
    if first - half <= 0:
        raise BadPiece("the first hole comes out of the top's end",
                       "put it farther from the vise's end", choice.where)
    made = choice._replace(lines=within, zones=_merged(zones), vise=vise, first=first,
                           end=max(choice.end - top.beyond, ZERO), below=top.choice.below,
                           beyond=top.beyond)
    _not_along(slab, made)
    return dogs.laid_out(slab, made)


def _not_along(slab: Part, choice: DogChoice) -> None:
    """BadPiece where one thing after another takes up all of a row from its first hole on: what
    helps then is to move the row, not its holes.
    """
    taken = dogs.blocked(choice, slab.thickness)
    last = slab.length - choice.end - choice.size / 2 - dogs.lean(choice, slab.thickness)
    for low, high, zones in dogs.stretches(choice, taken):
        if low < choice.first <= last < high:
            longest = max(zones, key=lambda zone: zone.high - zone.low)
            raise BadPiece(f"a row of holes runs along the {longest.name}",
                           "put the row farther in, clear of it", choice.where)


def _slab(top: Top, choice: DogChoice, lines: Sequence[Fraction]) -> tuple[Part, Fraction]:
    """The slab that all rows lie in, and where its front is."""
    half = choice.size / 2
    found = {top.slab_at(line) for line in lines}
    slab = next(iter(found))
    if len(found) > 1 or slab is None:
        raise BadPiece("a row of holes lies outside the top, or rows lie on both sides of its dog "
                       "strip", "let every row lie inside the top", choice.where)
    front = slab.placement.origin[1] - top.origin[1]
    if any(line - half <= front or line + half >= front + slab.width for line in lines):
        edge = "dog strip" if len(top.slabs) > 1 else "top's edge"
        raise BadPiece(f"a row of holes runs into the {edge}", "move the row", choice.where)
    return slab, front


def _off_glue(top: Top, row: RowChoice, line: Fraction) -> Fraction:
    """A row's line moved to the nearest place where its holes keep off the glue lines."""
    if row.off_glue is None:
        return line
    if top.strips is None:
        raise BadPiece("the top is not told to be glued up of strips",
                       "leave off_glue out, or describe its strips", row.dogs.where)
    keep = row.dogs.size / 2 + row.off_glue
    free = [(one.low + keep, one.high - keep) for one in top.strips.strips
            if one.high - one.low >= 2 * keep]
    if not free:
        raise BadPiece("no strip is wide enough for a hole clear of its glue lines",
                       "use wider strips, or make off_glue less", row.dogs.where)
    return min((min(max(line, low), high) for low, high in free),
               key=lambda at: (abs(at - line), at))


def _under(
    top: Top, choice: DogChoice, band: Span, standing: Sequence[Part]
) -> Iterator[Zone]:
    """What stands right under a row, as far down as the dogs go."""
    y0, under = top.origin[1], top.origin[2]
    low, high = band[0] + y0 - choice.clear, band[1] + y0 + choice.clear
    for part in standing:
        y, z = part.reach(1), part.reach(2)
        if y[0] < high and y[1] > low and z[0] < under and z[1] > under - top.choice.below:
            yield _zone(top, part.name, *part.reach(0))


def _zone(top: Top, name: str, x0: Fraction, x1: Fraction) -> Zone:
    ends = sorted((top.along(x0), top.along(x1)))
    return Zone(name, ends[0], ends[1])


def _screws(
    top: Top, fixings: Fixings | None, choice: DogChoice, band: Span
) -> Iterator[Zone]:
    if fixings is None:
        return
    half = fixings.choice.screw.hole / 2
    for number, (one, _) in enumerate(fixings.found, start=1):
        x, y = screw_at(top, fixings, one)
        across = y - top.origin[1]
        if across - half < band[1] + choice.clear and across + half > band[0] - choice.clear:
            yield _zone(top, f"screw {number}", x - half, x + half)


def _caps(top: Top) -> Iterator[Zone]:
    """The tongues at the slabs' ends, that end caps go over."""
    caps = top.choice.caps
    if caps is not None:
        long = top.main.length
        yield Zone("tongue at end A", ZERO, caps.length)
        yield Zone("tongue at end B", long - caps.length, long)


def _stave_ends(top: Top, band: Span, more: Fraction) -> Iterator[Zone]:
    """Where staves meet end to end in the strips that a row lies in."""
    if top.strips is None:
        return
    for number, strip in enumerate(top.strips.strips, start=1):
        if strip.low < band[1] and strip.high > band[0]:
            at = -top.strips.choice.spare.end
            for stave in strip.staves[:-1]:
                at += stave
                yield Zone(f"stave end in strip {number}", at - max(more, ZERO),
                           at + max(more, ZERO))


def _holes(top: Top, other: Dogs, choice: DogChoice, band: Span) -> Iterator[Zone]:
    """The holes of rows that are laid out already, where they come near to this one."""
    size = other.choice.size / 2
    front = other.part.placement.origin[1] - top.origin[1]
    lines = other.choice.lines or (size,)
    for line in lines:
        low, high = front + line - size, front + line + size
        if low < band[1] + choice.wall and high > band[0] - choice.wall:
            for number, place in enumerate(other.places, start=1):
                yield Zone(f"{other.choice.called} {number}", place - size,
                           place + size + other.lean)


def _merged(zones: Sequence[Zone]) -> tuple[Zone, ...]:
    """The zones from end A on, each once."""
    return tuple(sorted(dict.fromkeys(zones), key=lambda zone: (zone.low, zone.high, zone.name)))
