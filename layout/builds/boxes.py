"""All chests and drawers of a piece, set up and worked out after its frame."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.builds import chest as chests
from layout.builds import drawer as drawers
from layout.builds import drawer_work
from layout.builds.box_choices import ChestChoice, DrawerChoice
from layout.builds.chest import Chest
from layout.builds.drawer import Drawer
from layout.builds.opening import Opening
from layout.errors import BadPiece
from layout.joints.worked import Worked
from layout.kit import Kit
from layout.part import Part

# How far apart things stand that belong to no frame: 100 mm, so that none touches another.
APART = Fraction(100)


class Boxes(NamedTuple):
    """Chests and drawers where they stand, and what they give."""

    chests: tuple[Chest, ...]
    drawers: tuple[Drawer, ...]
    done: tuple[Worked, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """Their parts, chests first."""
        of_chests = (part for chest in self.chests for part in chest.parts)
        of_drawers = (part for drawer in self.drawers for part in drawer.parts)
        return (*of_chests, *of_drawers)


def stand(
    chest_choices: Iterable[ChestChoice],
    drawer_choices: Iterable[DrawerChoice],
    openings: tuple[Opening, ...],
    standing: tuple[Part, ...],
    kit: Kit,
) -> Boxes:
    """Chests, and drawers in the openings of what stands already. BadPiece where one can't be."""
    boxes: list[Chest] = []
    free = _beside(standing)
    for one in chest_choices:
        boxes.append(chests.stand(one, free))
        free = max(free, _beside(boxes[-1].parts))
    found: list[Drawer] = []
    for choice in drawer_choices:
        found += drawers.fit(choice, openings, standing, free)
        if choice.space is not None:
            free = max(free, _beside(found[-1].parts))
    _one_each(found)
    found = [_without_double(drawer, found) for drawer in found]
    around = (*standing, *(part for drawer in found for part in drawer.runs))
    done = [chests.work(chest, kit) for chest in boxes]
    done += [drawer_work.work(one, around, kit) for one in found]
    return Boxes(tuple(boxes), tuple(found), tuple(done))


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
