"""All tops of a piece, worked out last: what they lie on, what they are fixed to, and everything
that their holes must miss stands by then.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.builds import top as top_build
from layout.builds import top_dogs, top_fixing
from layout.builds.carcase import Carcase
from layout.builds.frame import StandingRail
from layout.builds.top import Bearing, Top
from layout.builds.top_choice import TopChoice
from layout.builds.top_fixing import Fixings
from layout.errors import BadPiece
from layout.joints import dogs, end_cap
from layout.joints.dogs import Dogs
from layout.joints.worked import Worked
from layout.mark import Cut
from layout.part import Part
from layout.wood.timber import Timbers

ZERO = Fraction(0)
APART = Fraction(100)


class LaidTop(NamedTuple):
    """A top where it lies, what fixes it, and its rows of holes."""

    top: Top
    fixings: Fixings | None
    dogs: tuple[Dogs, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """The top's parts, and the buttons."""
        return (*self.top.parts, *(() if self.fixings is None else self.fixings.parts))


def bearings(
    parts: Sequence[Part], rails: Sequence[StandingRail], carcases: Sequence[Carcase]
) -> tuple[Bearing, ...]:
    """What tops can lie on: the frame, named so, and every carcase by its name."""
    found = []
    legs = [part for part in parts if part.kind == "leg"]
    if legs:
        height = max(leg.reach(2)[1] for leg in legs)
        flush = tuple(rail for rail in rails
                      if not rail.of and rail.side is not None and rail.top == height)
        found.append(_bearing("frame", legs, height,
                              (*legs, *(rail.part for rail in flush)), flush))
    for case in carcases:
        height = max(part.reach(2)[1] for part in case.parts)
        found.append(_bearing(case.choice.name, case.parts, height, case.parts, ()))
    return tuple(found)


def _bearing(
    name: str, around: Sequence[Part], height: Fraction, parts: tuple[Part, ...],
    rails: tuple[StandingRail, ...],
) -> Bearing:
    spans = [(min(part.reach(way)[0] for part in around),
              max(part.reach(way)[1] for part in around)) for way in (0, 1)]
    return Bearing(name, spans[0], spans[1], height, parts, rails)


def stand(
    choices: Sequence[TopChoice], on: tuple[Bearing, ...], standing: Sequence[Part],
    cuts: Sequence[Cut], timbers: Timbers,
) -> tuple[LaidTop, ...]:
    """Every top. BadPiece where one can't be laid, fixed or bored as it is asked."""
    found: list[LaidTop] = []
    taken: set[str] = set()
    free = max((part.reach(0)[1] + APART for part in standing), default=ZERO)
    for choice in choices:
        top = top_build.stand(choice, on, free, timbers)
        if top.bearing is not None:
            if top.bearing.name in taken:
                raise BadPiece(f"the {top.bearing.name} is given two tops", "one is enough: give "
                               "the other what it lies on, or its own size", choice.where)
            taken.add(top.bearing.name)
        else:
            free += top.length + APART
        fixings = top_fixing.fit(top, standing, cuts)
        under = (*standing, *(fixings.parts if fixings is not None else ()))
        found.append(LaidTop(top, fixings, top_dogs.fit(top, fixings, under)))
    return tuple(found)


def work(laid: LaidTop) -> list[Worked]:
    """Cuts, marks and sums of a top and of everything made in it."""
    top = laid.top
    done = [Worked(marks=top_build.marks(top), sums=top_build.sums(top))]
    done += [end_cap.work(cap) for cap in top.caps]
    if laid.fixings is not None:
        done += top_fixing.work(top, laid.fixings)
    done += [dogs.work(row) for row in laid.dogs]
    return done
