"""Where a top is fixed to the rails under it: evenly along each, moved aside from mortises and from
what stands behind the rail.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
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
STEPS = 16  # a place is sought in steps of this part of a button's width


class Fixings(NamedTuple):
    """A top's fixings: every one with its button, None where it is a screw; the buttons' tongue;
    the rails that are left out, because they lie under an end cap.
    """

    choice: FixingChoice
    found: tuple[tuple[Fixed, Part | None], ...]
    tongue: Fraction
    left_out: tuple[Part, ...] = ()

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
    under_caps = [rail for rail in rails if _under_a_cap(top, rail, choice)]
    found: list[Fixed] = []
    usual = choice.button.tongue_length
    for rail in (rail for rail in rails if rail not in under_caps):
        placed = list(_along(top, rail, choice, standing, cuts))
        found += placed
        if choice.kind == "buttons":  # the next rail's keep clear of these
            standing = (*standing, *(_button(top, one, choice, usual, 0) for one in placed))
    if not found:
        raise BadPiece("all rails under the top lie under its end caps, which nothing is fixed to",
                       "give the top more overhang, or narrower end caps", choice.where)
    left_out = tuple(rail.part for rail in under_caps)
    if choice.kind == "screws":
        for one in found:
            _screw_fits(choice, one)
        return Fixings(choice, tuple((one, None) for one in found), ZERO, left_out)
    tongue, found = _tongue(top, found, choice)
    _sensible(choice, found, tongue)
    buttons = [_button(top, one, choice, tongue, number)
               for number, one in enumerate(found, start=1)]
    return Fixings(choice, tuple(zip(found, buttons, strict=True)), tongue, left_out)


def _under_a_cap(top: Top, rail: StandingRail, choice: FixingChoice) -> bool:
    """True where a rail across the grain would have its fixings in an end cap or its tongue."""
    caps = top.choice.caps
    if caps is None or rail.side not in ("left", "right"):
        return False
    reach = choice.button.length if choice.kind == "buttons" else ZERO
    face = rail.part.placement.to_piece((ZERO, ZERO, ZERO))
    inner = rail.part.placement.to_piece((ZERO, ZERO, rail.part.thickness + reach))
    ends = sorted((top.along(face[0]), top.along(inner[0])))
    return ends[0] < caps.length or ends[1] > top.main.length - caps.length


def _tongue(
    top: Top, found: Sequence[Fixed], choice: FixingChoice
) -> tuple[Fraction, list[Fixed]]:
    """How long all buttons' tongues are, and the fixings as the top moves where their screws are.

    A longer tongue leaves a shorter block, whose screw is nearer to the rail, where the top moves
    otherwise: what a button needs is a straight line over the tongue's length, and the tongue that
    is just what it needs lies where the two are the same.
    """
    usual, longest = choice.button.tongue_length, choice.button.length
    tongue = usual
    for one in found:
        first, last = (fixing.tongue_for(_at_its_screw(top, one, choice, at), choice.button)
                       for at in (usual, longest))
        if usual < longest:
            slope = (last - first) / (longest - usual)
            tongue = max(tongue, (first - slope * usual) / (1 - slope))
    if tongue > usual and tongue >= longest:
        raise BadPiece("the year asks for tongues longer than the buttons are",
                       "make the buttons longer", choice.where)
    return tongue, [_at_its_screw(top, one, choice, tongue) for one in found]


def _at_its_screw(top: Top, one: Fixed, choice: FixingChoice, tongue: Fraction) -> Fixed:
    """A button moves as the top does where its screw is: in the middle of its block, beyond the
    gap that itself comes from that movement.
    """
    if one.along:
        return one
    assert top.year is not None
    inward = sense(one.rail.placement.T)
    block = (choice.button.length - tongue) / 2
    line = top.origin[1] + top.held
    back = one.rail.placement.to_piece((ZERO, ZERO, one.rail.thickness + block))[1]
    base = back - line + inward * choice.button.room
    # gap = room + share x |base + inward x (gap - room)|: solved for what comes on top of the room
    side = 1 if base > 0 else -1
    comes_out = side * inward < 0  # swelling brings the top toward the rail's outer side
    share = top.year.most if comes_out else -top.year.least
    more = share * abs(base) / (1 - share * side * inward)
    away = base + inward * more
    if away * base < 0:
        away = ZERO
    return one._replace(away=abs(away), out=abs(away) * top.year.most,
                        back=-abs(away) * top.year.least,
                        outward=inward if away > 0 else -inward)


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
        if seat.deep >= one.rail.thickness:
            raise BadPiece(f"a button's mortise goes through the {one.rail.name}",
                           "use a thicker rail or a shorter tongue", choice.where)
        if fixing.mortise_walls(button)[1] >= one.rail.width:
            raise BadPiece(f"a button's mortise is lower than the {one.rail.name}",
                           "make the button thinner, or the rail wider", choice.where)


def _screw_fits(choice: FixingChoice, one: Fixed) -> None:
    screw = choice.screw
    if screw.head < screw.hole:
        raise BadPiece("a screw's counterbore is smaller than its hole",
                       "make it 1/16 in wider than the head", choice.where)
    if min(fixing.beside_counterbore(one, screw)) <= 0:
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
    # the outermost first: a shoulder may push them inward, and then the next ones give way
    found: dict[int, Fixed] = {}
    for number in sorted(range(many), key=lambda at: -abs(2 * at + 1 - many)):
        wanted = low + clear * (2 * number + 1) / (2 * many)

        def one_at(place: Fraction, number: int = number) -> Fixed:
            middle = part.thickness / 2 if choice.kind == "buttons" else choice.screw.through(part)
            away = part.placement.to_piece((place, ZERO, middle))[1] - line
            assert top.year is not None
            return Fixed(part, number + 1, place, abs(away), abs(away) * top.year.most,
                         -abs(away) * top.year.least, crosses, _outward(part, crosses, away))

        place = _free(wanted, (low, high), taken, choice, one_at)
        if place is None:
            raise BadPiece(f"there is no room on the {part.name} for a "
                           f"{'button' if choice.kind == 'buttons' else 'screw'}",
                           "fix the top with fewer or smaller ones", choice.where)
        found[number] = one_at(place)
        taken.append(_span(found[number], choice))
    yield from (found[number] for number in range(many))


def _shoulder(rail: StandingRail) -> Fraction:
    """Where the shoulder at end A stands along the rail: at its leg's inner side, in mm."""
    part = rail.part
    axis = piece_axis(part.placement.L)
    low, high = rail.meetings[0].bearer.reach(axis)
    inner = high if sense(part.placement.L) > 0 else low
    return sense(part.placement.L) * (inner - part.placement.origin[axis])


def _span(one: Fixed, choice: FixingChoice) -> Span:
    """What a fixing takes along its rail, in mm: a button's mortise, or a screw's counterbore."""
    if choice.kind == "buttons":
        return fixing.mortise_span(one, choice.button)
    slot = fixing.screw_slot(one, choice.screw, choice.screw.head)
    low, high = slot.reach(one.outward) if one.along else (slot.size / 2, slot.size / 2)
    return one.place - low, one.place + high


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
        deep = under = fixing.mortise_walls(button)[1]
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


def _free(
    wanted: Fraction, within: Span, taken: Sequence[Span], choice: FixingChoice,
    one_at: Callable[[Fraction], Fixed],
) -> Fraction | None:
    """The place nearest to what is wanted where a fixing keeps clear of the shoulders and of these
    stretches; of two the lower. None where there is none.
    """
    clear = choice.clear

    def may(place: Fraction) -> bool:
        low, high = _span(one_at(place), choice)
        return low - clear >= within[0] and high + clear <= within[1] and all(
            high + clear <= start or stop <= low - clear for start, stop in taken
        )

    if may(wanted):
        return wanted
    half = _span(one_at(wanted), choice)[1] - wanted + clear
    # beside each stretch, where a fixing is as long everywhere; elsewhere step by step
    beside = [at for start, stop in (within, *taken) for at in (start - half, start + half,
                                                                stop - half, stop + half)]
    step = choice.button.width / STEPS
    many = int((within[1] - within[0]) // step) + 1
    steps = [wanted + sign * step * number for number in range(1, many + 1) for sign in (-1, 1)]
    free = (at for at in sorted((*beside, *steps), key=lambda at: (abs(at - wanted), at))
            if within[0] <= at <= within[1] and may(at))
    return next(free, None)


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
