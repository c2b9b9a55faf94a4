"""Where a top is fixed to the rails under it: evenly along each, moved aside from mortises and from
what stands behind the rail.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.builds.frame import StandingRail, part_id
from layout.builds.site import WAYS, Site, overlap
from layout.builds.top import Top
from layout.errors import BadPiece
from layout.joints import fixing
from layout.joints.fixing import Fixed, FixingChoice
from layout.joints.worked import Loose, Span, Worked
from layout.mark import Cut, Mark
from layout.part import Part, piece_axis, sense

ZERO = Fraction(0)
MOST_FIXINGS = 40


class Fixings(NamedTuple):
    """A top's fixings: every one with its button, None where it is a screw; the buttons' tongue."""

    choice: FixingChoice
    found: tuple[tuple[Fixed, Part | None], ...]
    tongue: Fraction

    @property
    def parts(self) -> tuple[Part, ...]:
        """The buttons."""
        return tuple(button for _, button in self.found if button is not None)


def fit(top: Top, standing: Sequence[Part], cuts: Sequence[Cut]) -> Fixings | None:
    """The fixings of a top on what stands already. BadPiece where they have no place."""
    choice = top.choice.fixing
    if choice is None:
        return None
    rails = () if top.bearing is None else top.bearing.rails
    if not rails:
        raise BadPiece("there are no rails right under the top to fix it to",
                       'lay it on a frame that has rails with top = "flush"', choice.where)
    found: list[Fixed] = []
    for rail in rails:
        found += _along(top, rail, choice, standing, cuts)
    if choice.kind == "screws":
        for one in found:
            _screw_fits(choice, one)
        return Fixings(choice, tuple((one, None) for one in found), ZERO)
    needed = [fixing.tongue_for(one, choice.button) for one in found]
    tongue = max(choice.button.tongue_length, *needed)
    _sensible(choice, found, tongue)
    buttons = [_button(top, one, choice, tongue, number)
               for number, one in enumerate(found, start=1)]
    return Fixings(choice, tuple(zip(found, buttons, strict=True)), tongue)


def _sensible(choice: FixingChoice, found: Sequence[Fixed], tongue: Fraction) -> None:
    button = choice.button
    if button.tongue >= button.block:
        raise BadPiece("a button's tongue is no thinner than its block",
                       "half of the block is usual", choice.where)
    if tongue >= button.length:
        raise BadPiece("a button's tongue takes its whole length", "make the button longer",
                       choice.where)
    for one in found:
        seat = fixing.seat_of(one, button, tongue)
        lower = button.draw + button.block + button.room
        if seat.deep >= one.rail.thickness:
            raise BadPiece(f"a button's mortise goes through the {one.rail.name}",
                           "use a thicker rail or a shorter tongue", choice.where)
        if lower >= one.rail.width:
            raise BadPiece(f"a button's mortise is lower than the {one.rail.name}",
                           "make the button thinner, or the rail wider", choice.where)


def _screw_fits(choice: FixingChoice, one: Fixed) -> None:
    screw = choice.screw
    if screw.head < screw.hole:
        raise BadPiece("a screw's counterbore is smaller than its hole",
                       "make it 1/16 in wider than the head", choice.where)
    wide = fixing.screw_slot(one, screw, screw.head).length / 2 if not one.along else screw.head / 2
    middle = screw.through(one.rail)
    if middle - wide <= 0 or middle + wide >= one.rail.thickness:
        raise BadPiece(f"a screw's counterbore comes out of the side of the {one.rail.name}",
                       "use a smaller screw, a thicker rail, or buttons", choice.where)


def _along(
    top: Top, rail: StandingRail, choice: FixingChoice, standing: Sequence[Part],
    cuts: Sequence[Cut],
) -> Iterator[Fixed]:
    """The fixings of one rail: evenly between its shoulders, each moved to the nearest free place.
    """
    assert top.year is not None
    part = rail.part
    crosses = rail.side in ("left", "right")  # the rail lies across the top's grain
    clear = rail.shoulders
    low = _shoulder(rail)
    high = low + clear
    many = max(1 if crosses else 2, -int(-clear // choice.apart))
    if many > MOST_FIXINGS:
        raise BadPiece(f"the {part.name} would have {many} fixings",
                       f"at most {MOST_FIXINGS}: let them stand farther apart", choice.where)
    line = top.origin[1] + top.held
    taken = list(_taken(rail, choice, standing, cuts))
    for number in range(many):
        wanted = low + clear * (2 * number + 1) / (2 * many)
        half = _half(choice)
        place = _free(wanted, [(a - half, b + half) for a, b in taken], (low + half, high - half))
        if place is None:
            raise BadPiece(f"there is no room on the {part.name} for a "
                           f"{'button' if choice.kind == 'buttons' else 'screw'}",
                           "fix the top with fewer or smaller ones", choice.where)
        middle = part.thickness / 2 if choice.kind == "buttons" else choice.screw.through(part)
        spot = part.placement.to_piece((place, ZERO, middle))
        away = spot[1] - line
        outward = _outward(part, crosses, away)
        yield Fixed(part, number + 1, place, abs(away), abs(away) * top.year.most,
                    -abs(away) * top.year.least, crosses, outward)
        taken.append((place - half, place + half))


def _shoulder(rail: StandingRail) -> Fraction:
    """Where the shoulder at end A stands along the rail: at its leg's inner side, in mm."""
    part = rail.part
    axis = piece_axis(part.placement.L)
    low, high = rail.meetings[0].bearer.reach(axis)
    inner = high if sense(part.placement.L) > 0 else low
    return sense(part.placement.L) * (inner - part.placement.origin[axis])


def _half(choice: FixingChoice) -> Fraction:
    """Half of what a fixing takes along a rail, with what it must keep from others."""
    if choice.kind == "buttons":
        return choice.button.width / 2 + choice.button.room + choice.clear
    return choice.screw.head / 2 + choice.clear


def _outward(part: Part, crosses: bool, away: Fraction) -> int:
    """Which way along the rail, or through it, leads away from the held line."""
    way = part.placement.L if crosses else part.placement.T
    toward_back = sense(way)
    return toward_back if away > 0 else -toward_back


def _taken(
    rail: StandingRail, choice: FixingChoice, standing: Sequence[Part], cuts: Sequence[Cut]
) -> Iterator[Span]:
    """Stretches of a rail that are cut already where a fixing would go, or have something behind.
    """
    part, button, screw = rail.part, choice.button, choice.screw
    if choice.kind == "buttons":
        # the button takes the rail's inner side, and the room behind it
        deep = under = button.draw + button.block + button.room
        through = (ZERO, part.thickness)
        behind = (part.thickness, part.thickness + button.length)
    else:
        # the screw needs whole wood under its head, and a way up to it from below
        deep, under = part.width, screw.under
        middle = screw.through(part)
        through = behind = (middle - screw.head / 2, middle + screw.head / 2)
    for cut in cuts:
        if cut.part != part.id or cut.shape.reach("W")[0] >= under:
            continue
        if overlap(cut.shape.reach("T"), through):
            yield cut.shape.reach("L")
    assert rail.side is not None
    site = Site(part.placement.origin, *WAYS[rail.side])
    for other in standing:
        x, y, z = site.spans(other)
        if other.id != part.id and overlap(y, behind) and overlap(z, (-deep, ZERO)):
            yield x


def _free(wanted: Fraction, taken: Sequence[Span], within: Span) -> Fraction | None:
    """The place nearest to what is wanted in none of these stretches; of two the lower."""
    edges = [wanted, *within, *(edge for span in taken for edge in span)]
    free = [
        at for at in edges
        if within[0] <= at <= within[1] and not any(low < at < high for low, high in taken)
    ]
    return min(free, key=lambda at: (abs(at - wanted), at), default=None)


def _button(
    top: Top, one: Fixed, choice: FixingChoice, tongue: Fraction, number: int
) -> Part:
    """A button where it stands: its tongue in the rail, its block under the top."""
    button, rail = choice.button, one.rail
    seat = fixing.seat_of(one, button, tongue)
    into = rail.thickness - (seat.tongue - seat.gap)
    corner = rail.placement.to_piece((one.place - button.width / 2, button.draw, into))
    placed = rail.placement._replace(
        origin=corner, L=rail.placement.T, W=rail.placement.L, T=rail.placement.W
    )
    name = f"{top.choice.name} button {number}"
    return Part(part_id(name), name, f"{top.choice.name} button", button.length, button.width,
                button.block, placed, choice.timber or top.choice.timber)


def work(top: Top, fixings: Fixings) -> list[Worked]:
    """Every fixing, and where the top takes its screw."""
    choice, done = fixings.choice, []
    for number, (one, button) in enumerate(fixings.found, start=1):
        if button is None:
            done.append(fixing.work_screw(one, choice.screw))
        else:
            seat = fixing.seat_of(one, choice.button, fixings.tongue)
            done.append(fixing.work_button(one, button, choice.button, seat))
        x, y = screw_at(top, fixings, one)
        slab = top.slab_at(y - top.origin[1])
        if slab is not None:
            at = slab.placement.to_part((x, y, ZERO))
            done.append(Worked(marks=(Mark(
                slab.id, f"{top.main.id}.fixing", "back", "pencil", f"screw {number}", "end A",
                at[0], point=(at[0], at[1]), diameter=choice.screw.hole),)))
    if choice.kind == "screws":
        many, under = len(fixings.found), min(choice.screw.under, fixings.found[0][0].rail.width)
        size = choice.screw.hole
        done.append(Worked(loose=(Loose(
            "screw", fixings.found[0][0].rail.id, many, size, size,
            under + top.choice.thickness * 2 / 3,
            "for holes of this size; at most so long, two thirds into the top"),)))
    return done


def screw_at(top: Top, fixings: Fixings, one: Fixed) -> tuple[Fraction, Fraction]:
    """Where the top takes a fixing's screw, from the piece's left and front, in mm."""
    rail = one.rail
    through = fixings.choice.screw.through(rail)
    if fixings.choice.kind == "buttons":
        seat = fixing.seat_of(one, fixings.choice.button, fixings.tongue)
        block = fixings.choice.button.length - seat.tongue
        through = rail.thickness + seat.gap + block / 2
    x, y, _ = rail.placement.to_piece((one.place, ZERO, through))
    return x, y
