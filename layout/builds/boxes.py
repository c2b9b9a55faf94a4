"""All carcases, chests, dividers, drawers and doors of a piece, worked out after its frame."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.builds import bank, divider, door_work, drawer_work
from layout.builds import carcase as carcases
from layout.builds import chest as chests
from layout.builds import door as doors
from layout.builds import drawer as drawers
from layout.builds.bank import Bank
from layout.builds.box_choices import ChestChoice, DividerChoice, DrawerChoice
from layout.builds.carcase import Carcase, CarcaseChoice
from layout.builds.chest import Chest
from layout.builds.divider import Divider
from layout.builds.door import Door
from layout.builds.door_choice import DoorChoice
from layout.builds.drawer import Drawer
from layout.builds.opening import Opening
from layout.errors import BadPiece
from layout.joints import slide
from layout.joints.worked import Worked
from layout.kit import Kit
from layout.part import Part
from layout.wood.timber import Timbers

# How far apart things stand that belong to no frame: 100 mm, so that none touches another.
APART = Fraction(100)


class Boxes(NamedTuple):
    """Carcases, chests, dividers and drawers where they stand, and what they give."""

    carcases: tuple[Carcase, ...]
    chests: tuple[Chest, ...]
    dividers: tuple[Divider, ...]
    drawers: tuple[Drawer, ...]
    done: tuple[Worked, ...]
    openings: tuple[Opening, ...] = ()
    doors: tuple[Door, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """Their parts, in the order of the cut list."""
        of_carcases = (part for carcase in self.carcases for part in carcase.parts)
        of_chests = (part for chest in self.chests for part in chest.parts)
        of_drawers = (part for drawer in self.drawers for part in drawer.parts)
        dividers = (divider.part for divider in self.dividers)
        of_doors = (part for door in self.doors for part in door.parts)
        return (*of_carcases, *of_chests, *dividers, *of_drawers, *of_doors)


class BoxChoices(NamedTuple):
    """What the maker wrote of boxes, in their order."""

    carcases: tuple[CarcaseChoice, ...] = ()
    chests: tuple[ChestChoice, ...] = ()
    dividers: tuple[DividerChoice, ...] = ()
    drawers: tuple[DrawerChoice, ...] = ()
    doors: tuple[DoorChoice, ...] = ()


def stand(
    choices: BoxChoices,
    openings: tuple[Opening, ...],
    standing: tuple[Part, ...],
    kit: Kit,
    timbers: Timbers | None = None,
) -> Boxes:
    """Carcases and chests, dividers, drawers and doors in the openings of what stands already.
    BadPiece where one can't be.
    """
    timbers = Timbers() if timbers is None else timbers
    boxes: list[Chest] = []
    # a door covers an opening that is divided behind it, too
    offered = {opening.name: opening for opening in openings}
    cases: list[Carcase] = []
    free = _beside(standing)
    for case in choices.carcases:
        cases.append(carcases.stand(case, free))
        free = max(free, _beside(cases[-1].parts))
        openings = (*openings, cases[-1].opening)
        offered[cases[-1].opening.name] = cases[-1].opening
        standing = (*standing, *cases[-1].parts)
    dividers: list[Divider] = []
    cutters = kit.cutters if "cutters" in kit.listed else ()
    for wanted in choices.dividers:
        joint = slide.suited(wanted.joint, wanted.thickness, cutters)
        openings, standing = _divide(
            wanted._replace(joint=joint), openings, standing, dividers, kit
        )
        offered |= {opening.name: opening for opening in openings}
    drawer_choices: list[DrawerChoice] = []
    banks: list[Bank] = []
    for drawer in choices.drawers:
        if drawer.divide is None:
            drawer_choices.append(drawer)
            continue
        opening = bank.whole(drawer, {one.name: one for one in openings})
        shelves, filled, made = bank.shelved(drawer, opening)
        for shelf in shelves:
            joint = slide.suited(shelf.joint, shelf.thickness, cutters)
            openings, standing = _divide(
                shelf._replace(joint=joint), openings, standing, dividers, kit
            )
        offered |= {opening.name: opening for opening in openings}
        drawer_choices.append(filled)
        banks.append(made)
    chest_choices = choices.chests
    for wanted_chest in chest_choices:
        boxes.append(chests.stand(wanted_chest, free))
        free = max(free, _beside(boxes[-1].parts))
    found: list[Drawer] = []
    for choice in drawer_choices:
        found += drawers.fit(choice, openings, standing, free, timbers)
        if choice.space is not None:
            free = max(free, _beside(found[-1].parts))
    hung: list[Door] = []
    for door in choices.doors:
        hung += doors.fit(door, offered.values(), free, timbers, kit)
        if door.space is not None:
            free = max(free, _beside(hung[-1].parts))
    _one_each(found)
    _one_door_each(hung)
    found = [_without_double(drawer, found) for drawer in found]
    around = (*standing, *(part for drawer in found for part in drawer.runs))
    done = [chests.work(chest, kit) for chest in boxes]
    done += [drawer_work.work(each, around, kit) for each in found]
    done += [carcases.work(case, kit) for case in cases]
    done += [door_work.work(each, kit) for each in hung]
    for one in dividers:
        done += [slide.work(each) for each in one.slides]
        done.append(Worked(sums=tuple(divider.sums(one))))
    told = [sum_ for made in banks for sum_ in bank.sums(made, openings)]
    done.append(Worked(sums=tuple(told)))
    return Boxes(tuple(cases), tuple(boxes), tuple(dividers), tuple(found), tuple(done), openings,
                 tuple(hung))


def _divide(
    choice: DividerChoice,
    openings: tuple[Opening, ...],
    standing: tuple[Part, ...],
    dividers: list[Divider],
    kit: Kit,
) -> tuple[tuple[Opening, ...], tuple[Part, ...]]:
    """Openings and parts once a divider stands; it joins the others."""
    made, halves = divider.fit(choice, openings, standing, kit.dovetail_cutters)
    dividers.append(made)
    at = [opening.name for opening in openings].index(made.opening.name)
    return (*openings[:at], *halves, *openings[at + 1:]), (*standing, made.part)


def _beside(parts: Iterable[Part]) -> Fraction:
    """Where the next thing may stand, to the right of these; 0 where there are none."""
    reach = [part.reach(0)[1] for part in parts]
    return max(reach) + APART if reach else Fraction(0)


def _one_each(found: list[Drawer]) -> None:
    seen: set[str] = set()
    for drawer in found:
        opening = drawer.hole.opening
        if opening is None:
            continue
        if opening.name in seen:
            raise BadPiece(f"the opening '{opening.name}' is given two drawers",
                           "name each opening once", drawer.choice.where)
        seen.add(opening.name)


def _one_door_each(hung: list[Door]) -> None:
    """BadPiece where an opening is given two doors that aren't one pair."""
    seen: dict[str, DoorChoice] = {}
    for door in hung:
        if door.opening is None:
            continue
        other = seen.setdefault(door.opening.name, door.choice)
        if other.name != door.choice.name:
            raise BadPiece(f"the opening '{door.opening.name}' is given two doors",
                           "name each opening once, or write pair = true", door.choice.where)


def _without_double(drawer: Drawer, found: list[Drawer]) -> Drawer:
    """The drawer without kickers where the runners of the one above it serve as such."""
    opening = drawer.hole.opening
    if opening is None:
        return drawer
    for other in found:
        above = other.hole.opening
        if above is None or above.lower is None or above.lower.id != opening.upper.id:
            continue
        if any(run.kind.endswith(" runner") for run in other.runs):
            runs = tuple(run for run in drawer.runs if not run.kind.endswith(" kicker"))
            return drawer._replace(runs=runs)
    return drawer
