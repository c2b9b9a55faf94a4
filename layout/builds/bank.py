"""A drawer bank: an opening of the frame divided into several, one above the other, by rails.

The rails are added to the maker's before the frame stands, so that their tenons, mortises and sums
are those of any rail; the openings between them have drawers.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.builds.box_choices import DivideChoice, DividerChoice, DrawerChoice
from layout.builds.choices import FrameChoice, RailChoice
from layout.builds.frame import OPPOSITE
from layout.builds.opening import Opening, Side
from layout.builds.site import Site
from layout.errors import BadPiece
from layout.joints.section import Terms
from layout.mark import Sum, Witness, add

ZERO = Fraction(0)


class Bank(NamedTuple):
    """A divided opening: its name, whose drawers it has, and the sum of every height."""

    drawer: DrawerChoice
    opening: str
    heights: tuple[Terms, ...]
    names: tuple[str, ...]  # of the openings, from the top

    @property
    def shelves(self) -> bool:
        """True where shelves divide it, not rails."""
        return self.drawer.divide is not None and self.drawer.divide.shelf is not None


def divided(
    choice: DivideChoice, whole: Fraction, drawer: DrawerChoice
) -> tuple[Terms, ...]:
    """The sum of each drawer's opening in an opening of this height, from the top down.

    BadPiece where the heights given don't make it up, or nothing is left for one.
    """
    many = choice.into
    rails = (many - 1) * choice.between
    boards = _between(choice)
    free = whole - rails
    found: list[Terms] = []
    if choice.heights:
        given = sum((one for one in choice.heights if one is not None), ZERO)
        left = free - given
        if None not in choice.heights and left != 0:
            raise BadPiece(
                f"the heights of the {drawer.name}s don't make up their opening",
                'give heights that do, or write "rest" for one of them',
                drawer.where,
            )
        for height in choice.heights:
            if height is not None:
                found.append(((+1, "height as chosen", height),))
                continue
            found.append(((+1, "height of the opening", whole),
                          (-1, boards, rails), (-1, "the other heights", given)))
    else:
        part = 1 / sum((choice.ratio**index for index in range(many)), ZERO)
        steps = choice.step * many * (many - 1) / 2
        first: list[tuple[int, str, Fraction]] = [
            (+1, f"{part} of the opening", whole * part),
            (-1, f"{part} of {boards}", rails * part),
        ]
        if choice.step:
            first.append((-1, f"{part} of all steps", steps * part))
        found.append(tuple(first))
        height = sum((sign * value for sign, _, value in first), ZERO)
        for number in range(1, many):
            # each from the one above it
            above = f"opening {number}"
            if choice.ratio != 1:
                found.append(((+1, f"{choice.ratio} of {above}", height * choice.ratio),))
            elif choice.step:
                found.append(((+1, above, height), (+1, "step", choice.step)))
            else:
                found.append(((+1, f"as {above}", height),))
            height = sum((sign * value for sign, _, value in found[-1]), ZERO)
    if any(sum((s * v for s, _, v in terms), ZERO) <= 0 for terms in found):
        raise BadPiece(
            f"{many} {drawer.name}s leave no height for one of them",
            "make them fewer, the step less, or what stands between them narrower",
            drawer.where,
        )
    return tuple(found)


def _between(choice: DivideChoice) -> str:
    word = "rail" if choice.rail is not None else "shelf"
    if choice.into == 2:
        return f"the {word} between them"
    return f"{choice.into - 1} {'rails' if word == 'rail' else 'shelves'} between them"


def expanded(
    frame: FrameChoice, openings: tuple[Opening, ...], drawers: tuple[DrawerChoice, ...]
) -> tuple[FrameChoice, tuple[DrawerChoice, ...], tuple[Bank, ...]]:
    """The frame with the rails of every bank, the drawers in the openings between them, and the
    banks. BadPiece where an opening can't be divided.
    """
    offered = {opening.name: opening for opening in openings}
    rails: list[RailChoice] = []
    done: list[DrawerChoice] = []
    banks: list[Bank] = []
    for drawer in drawers:
        divide = drawer.divide
        if divide is None or divide.rail is None:
            done.append(drawer)
            continue
        opening = whole(drawer, offered)
        heights = divided(divide, opening.height, drawer)
        names = [opening.name]
        top = frame.height - opening.high
        for number, terms in enumerate(heights[:-1], start=1):
            top += sum((sign * value for sign, _, value in terms), ZERO)
            name = f"{divide.rail.name} {number}"
            sides: dict[Side, None] = {opening.side: None}
            if divide.back_rails:
                sides[OPPOSITE[opening.side]] = None
            rails.append(divide.rail._replace(name=name, sides=tuple(sides), below_top=top))
            top += divide.rail.width
            names.append(f"{opening.side} under {name}")
        done.append(drawer._replace(openings=tuple(names), divide=None))
        banks.append(Bank(drawer, opening.name, heights, tuple(names)))
    return frame._replace(rails=(*frame.rails, *rails)), tuple(done), tuple(banks)


def shelved(
    drawer: DrawerChoice, opening: Opening
) -> tuple[tuple[DividerChoice, ...], DrawerChoice, Bank]:
    """The shelves that divide an opening of a carcase, from the top down; the drawers in what
    they leave; and the bank. BadPiece where the heights can't be.
    """
    divide = drawer.divide
    assert divide is not None
    assert divide.shelf is not None
    heights = divided(divide, opening.height, drawer)
    shelves: list[DividerChoice] = []
    names: list[str] = []
    below, within = opening.height, opening.name
    for number, terms in enumerate(heights[:-1], start=1):
        below -= sum((sign * value for sign, _, value in terms), ZERO) + divide.shelf.thickness
        name = f"{divide.shelf.name} {number}"
        shelves.append(divide.shelf._replace(name=name, opening=within, place=below))
        names.append(f"above {name}")
        within = f"below {name}"
    names.append(within)
    filled = drawer._replace(openings=tuple(names), divide=None)
    return tuple(shelves), filled, Bank(drawer, opening.name, heights, tuple(names))


def whole(drawer: DrawerChoice, offered: dict[str, Opening]) -> Opening:
    """The one opening that is divided. BadPiece where there is none, or nothing below it."""
    if len(drawer.openings) != 1:
        raise BadPiece(f"{len(drawer.openings)} openings are to be divided at once",
                       "name one opening, and give each other one drawers of its own",
                       drawer.where)
    name = drawer.openings[0]
    if name not in offered:
        listed = ", ".join(f"'{one}'" for one in offered) or "none"
        raise BadPiece(f"there is no opening '{name}'", f"there are: {listed}",
                       drawer.where)
    if offered[name].lower is None:
        raise BadPiece(f"'{name}' has no rail below it for a drawer to run on",
                       "add a rail under the drawers", drawer.where)
    return offered[name]


def sums(bank: Bank, openings: tuple[Opening, ...]) -> Iterator[Sum]:
    """Each height, and the whole opening as a chain of heights and rails; the rails where they
    stand confirm them.
    """
    offered = {opening.name: opening for opening in openings}
    here = [offered[name] for name in bank.names]
    site = Site((ZERO, ZERO, ZERO))
    first, last = here[0], here[-1]
    assert last.lower is not None
    head = site.surface(first.upper, 2, False)
    terms: list[tuple[int, str, Fraction]] = []
    along: list[Witness] = []
    for number, (opening, height) in enumerate(zip(here, bank.heights, strict=True), start=1):
        assert opening.lower is not None
        foot = site.surface(opening.lower, 2, True)
        yield add(f"height of opening {number}", first.upper.id,
                  Witness(site.surface(opening.upper, 2, False), foot), *height)
        terms.append((+1, f"opening {number}", opening.height))
        along.append(Witness(head, foot))
        if opening is not last:
            low, high = site.spans(opening.lower)[2]
            word = "shelf" if bank.shelves else "rail"
            terms.append((+1, f"{word} {number}", high - low))
            along.append(Witness(head, site.surface(opening.lower, 2, False)))
    yield add("openings of the drawer bank", first.upper.id,
              Witness(head, site.surface(last.lower, 2, True)), *terms, along=tuple(along[:-1]))
