"""Dividers: shelves and partitions slid into what bounds an opening, of a frame or a carcase.

Each stands in one opening, between the two parts that bound it, and divides it in two: `above` and
`below` a shelf, `left of` and `right of` a partition. A shelf's end A is at the left, its face side
on top; a partition's end A is below, its face side at the left. Their face edges are in front.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from layout.builds.box_choices import DividerChoice
from layout.builds.frame import part_id, refuse_oversize
from layout.builds.opening import Opening
from layout.builds.site import Site, nearest_behind, site_of
from layout.errors import BadPiece
from layout.joints import slide
from layout.joints.section import Terms
from layout.joints.slide import Slide, SlideChoice
from layout.kit import DovetailCutter
from layout.mark import Sum, Witness, add
from layout.part import Part, sense

ZERO = Fraction(0)


class Divider(NamedTuple):
    """A divider in its place, and the slides at its two ends."""

    choice: DividerChoice
    part: Part
    opening: Opening
    slides: tuple[Slide, Slide]
    behind: Part | None

    @property
    def site(self) -> Site:
        """The opening's own corner of the piece."""
        return site_of(self.opening)


def fit(
    choice: DividerChoice,
    openings: Iterable[Opening],
    standing: tuple[Part, ...],
    cutters: tuple[DovetailCutter, ...] = (),
) -> tuple[Divider, tuple[Opening, Opening]]:
    """A divider in its opening, and the two that it leaves; its slides sized for the maker's own
    `cutters` where it leaves that open. BadPiece where it can't be.
    """
    opening = _named(choice, openings)
    joint = choice.joint
    given = [size for size in (choice.place, choice.depth, joint.depth, joint.taper_over)
             if size is not None]
    refuse_oversize([choice.thickness, choice.set_back, joint.room, joint.taper, joint.stop,
                     *given], f"the {choice.name}", choice.where)
    site = site_of(opening)
    level = choice.lies == "level"
    if opening.lower is None:
        raise BadPiece(f"'{opening.name}' has nothing below it for a divider to stand in",
                       "name another opening", choice.where)
    bearers = (opening.left, opening.right) if level else (opening.lower, opening.upper)
    clear = opening.height if level else opening.width
    place = (clear - choice.thickness) / 2 if choice.place is None else choice.place
    if place < 0 or place + choice.thickness > clear:
        raise BadPiece(f"the {choice.name} would stand outside its opening",
                       "move it, or make it thinner", choice.where)
    way = 0 if level else 2
    tails = []
    for bearer in bearers:
        low, high = site.spans(bearer)[way]
        deep = slide.depth_of(joint, high - low)
        if deep <= joint.room:
            raise BadPiece(f"the socket for the {choice.name} is no deeper than the room in it",
                           "make the socket deeper, or the room less", joint.where)
        tails.append((deep, deep - joint.room))
    if tails[0] == tails[1]:  # one setting of the cutter for both ends
        joint = slide.for_cutter(joint, choice.thickness, tails[0][0], cutters)
    y0, y1, behind = _reach(choice, opening, site, bearers, standing, place)
    (deep_a, tail_a), (deep_b, tail_b) = tails
    length = tail_a + (opening.width if level else opening.height) + tail_b
    if level:
        spot = (-tail_a, y0, place + choice.thickness)
        placement = site.placed(spot, "right", "inward", "down")
    else:
        placement = site.placed((place, y0, -tail_a), "up", "inward", "right")
    part = Part(part_id(choice.name), choice.name, choice.name, length, y1 - y0,
                choice.thickness, placement, choice.timber)
    sensible(joint, part, max(deep_a, deep_b), choice.name)
    open_end = behind is not None and joint.enter == "front" and not joint.stop
    slides = (
        Slide(f"{part.id}.A", part, "A", bearers[0], joint, deep_a,
              _place(choice, opening, bearers[0], part, place), open_end),
        Slide(f"{part.id}.B", part, "B", bearers[1], joint, deep_b,
              _place(choice, opening, bearers[1], part, place), open_end),
    )
    return Divider(choice, part, opening, slides, behind), _halves(choice, opening, part, place)


def _named(choice: DividerChoice, openings: Iterable[Opening]) -> Opening:
    offered = {opening.name: opening for opening in openings}
    if choice.opening not in offered:
        listed = ", ".join(f"'{one}'" for one in offered) or "none"
        raise BadPiece(f"there is no opening '{choice.opening}'", f"there are: {listed}",
                       choice.where)
    return offered[choice.opening]


def _reach(
    choice: DividerChoice,
    opening: Opening,
    site: Site,
    bearers: tuple[Part, Part],
    standing: tuple[Part, ...],
    place: Fraction,
) -> tuple[Fraction, Fraction, Part | None]:
    """From where to where it reaches inward, and what stands behind it."""
    fronts, backs = zip(*(site.spans(bearer)[1] for bearer in bearers), strict=True)
    y0 = max(fronts) + choice.set_back
    if choice.lies == "level":
        across, up = (ZERO, opening.width), (place, place + choice.thickness)
    else:
        across, up = (place, place + choice.thickness), (ZERO, opening.height)
    behind = nearest_behind(site, standing, across, up, y0 + choice.thickness)
    free = min(backs) if behind is None else min(min(backs), site.spans(behind)[1][0])
    y1 = free if choice.depth is None else y0 + choice.depth
    if y1 > min(backs):
        raise BadPiece(f"the {choice.name} reaches further back than what it is slid into",
                       "make its depth less", choice.where)
    if y1 <= y0:
        raise BadPiece(f"the {choice.name} has no depth left", "set it back less", choice.where)
    if behind is not None and site.spans(behind)[1][0] != y1:
        behind = None
    return y0, y1, behind


def sensible(joint: SlideChoice, part: Part, deep: Fraction, name: str) -> None:
    """BadPiece where a slide's sizes can't be meant, its stop or taper takes more than the run, or
    nothing is left of its neck; `deep` is the deepest of its sockets, in mm.
    """
    given = [size for size in (joint.depth, joint.taper_over, *joint.shoulders)
             if size is not None]
    refuse_oversize([joint.room, joint.taper, joint.stop, *given], f"the slide of the {name}",
                    joint.where)
    if joint.stop >= part.width:
        raise BadPiece(f"the stop leaves no run of the {name}", "make the stop less", joint.where)
    if joint.taper_over is not None and joint.taper_over > part.width - joint.stop:
        raise BadPiece(f"the taper is longer than the run of the {name}",
                       "let it take less of the run, or leave its length out", joint.where)
    tried = Slide("", part, "A", part, joint, deep, ())
    if tried.neck - joint.taper <= 0:
        raise BadPiece(f"nothing is left of the tail's neck of the {name}",
                       "make the shoulders, the depth, the slope or the taper less", joint.where)


def _place(
    choice: DividerChoice, opening: Opening, bearer: Part, part: Part, place: Fraction
) -> Terms:
    """From the bearer's end A to the divider's nearer side."""
    site = site_of(opening)
    level = choice.lies == "level"
    way = 2 if level else 0
    direction = bearer.placement.L
    start = site.spans(bearer)[way]
    forward = sense(direction) > 0 if level else direction == site.right
    word = "below" if level else "at the left of"
    clear = opening.height if level else opening.width
    if forward:
        base = -start[0]
        gap: Terms = ((+1, f"clear {word} the {choice.name}", place),)
        if choice.place is None:
            gap = ((+1, "half of the opening", clear / 2),
                   (-1, "half of its thickness", part.thickness / 2))
        edge = "foot" if level else "left side"
        return ((+1, f"the opening's {edge} from end A", base), *gap)
    base = start[1] - clear
    gap = ((+1, "whole opening", clear), (-1, f"clear {word} the {choice.name}", place),
           (-1, "thickness", part.thickness))
    if choice.place is None:
        gap = ((+1, "half of the opening", clear / 2),
               (-1, "half of its thickness", part.thickness / 2))
    edge = "head" if level else "right side"
    return ((+1, f"the opening's {edge} from end A", base), *gap)


def _halves(
    choice: DividerChoice, opening: Opening, part: Part, place: Fraction
) -> tuple[Opening, Opening]:
    """The two openings that a divider leaves."""
    thick = choice.thickness
    if choice.lies == "level":
        return (
            opening._replace(name=f"below {choice.name}", height=place,
                             high=opening.low + place, upper=part),
            opening._replace(name=f"above {choice.name}", height=opening.height - place - thick,
                             low=opening.low + place + thick, lower=part),
        )
    return (
        opening._replace(name=f"left of {choice.name}", width=place, right=part),
        opening._replace(name=f"right of {choice.name}", width=opening.width - place - thick,
                         left=part),
    )


def sums(divider: Divider) -> Iterable[Sum]:
    """Its length between shoulders and over its tails, and how far it reaches inward."""
    part, opening, site = divider.part, divider.opening, divider.site
    level = divider.choice.lies == "level"
    one, other = divider.slides
    way = 0 if level else 2
    clear = opening.width if level else opening.height
    words = "width of the opening" if level else "height of the opening"
    faces = Witness(site.surface(one.bearer, way, True), site.surface(other.bearer, way, False))
    yield add("between the shoulders", part.id, faces, (+1, words, clear))
    tails: Terms = ((+1, "tail at end A", one.tail), (+1, "tail at end B", other.tail))
    yield add("length", part.id,
              Witness(site.surface(one.bearer, way, True), site.surface(other.bearer, way, False),
                      plus=one.tail + other.tail),
              (+1, "between the shoulders", clear), *tails)
    if divider.choice.depth is None:
        y1 = site.spans(part)[1][1]
        end = divider.behind or min((one.bearer, other.bearer),
                                    key=lambda bearer: site.spans(bearer)[1][1])
        far = site.surface(end, 1, divider.behind is None)
        start = max((one.bearer, other.bearer), key=lambda bearer: site.spans(bearer)[1][0])
        front = site.spans(start)[1][0]
        back: Terms = ((-1, "set back in front", divider.choice.set_back),)
        yield add("width", part.id,
                  Witness(site.surface(start, 1, False), far, plus=-divider.choice.set_back),
                  (+1, f"front of the {start.name} to the {end.name}", y1 - front),
                  *(back if divider.choice.set_back else ()))
