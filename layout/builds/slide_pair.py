"""One slid end by itself: a board slid or housed into another, without a carcase.

The boards stand as a shelf and the left side of a carcase do: the slider's face side on top, its
end A in the bearer's face side, both face edges in front. Where along the bearer it stands, nobody
said: it is drawn in the middle, and no size is told from there.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.divider import sensible
from layout.builds.site import Site
from layout.defaults import Unit
from layout.errors import BadMeasure, BadPiece, Where
from layout.joints import rods, slide
from layout.joints.slide import SIDES, Slide, SlideChoice
from layout.joints.worked import Worked, axis_along
from layout.kit import Kit
from layout.mark import Cut, Sum, Surface, Witness, add, face_of, high_of, low_of
from layout.part import Part

ZERO = Fraction(0)
KINDS: tuple[Literal["socket", "tail"], ...] = ("socket", "tail")
# Sums from the bearer's end, which nobody told.
PLACED = ("near side of the socket", "far side of the socket")


class SlidePairChoice(NamedTuple):
    """What a maker can choose of one slid end, in mm. `width` is that of both boards, which is
    the run; `slider` and `bearer` are their thicknesses; `length` is how far the slider stands
    out, and the bearer's length beside it. `rods`: the rods that it is checked with, where they
    were asked for, and the unit to tell of them in.
    """

    width: Fraction
    slider: Fraction
    bearer: Fraction
    length: Fraction
    joint: SlideChoice
    rods: Fraction | None = None
    rods_where: Where = Where()
    unit: Unit = "mm"


class SlidePair(NamedTuple):
    """The two boards where they stand, and the slide between them."""

    choice: SlidePairChoice
    slider: Part
    bearer: Part
    slide: Slide


def stand(choice: SlidePairChoice, kit: Kit) -> SlidePair:
    """The two boards where they stand. BadPiece where nothing is left of run, socket or tail."""
    cutters = kit.cutters if "cutters" in kit.listed else ()
    joint = slide.suited(choice.joint, choice.slider, cutters)
    deep = slide.depth_of(joint, choice.bearer)
    joint = slide.for_cutter(joint, choice.slider, deep, kit.dovetail_cutters)
    if deep <= joint.room:
        raise BadPiece("the socket is no deeper than the room in it",
                       "make the socket deeper, or the room less", joint.where)
    site = Site((ZERO, ZERO, ZERO))
    tail, below = deep - joint.room, choice.length / 2
    bearer = Part("bearer", "bearer", "bearer", choice.length + choice.slider, choice.width,
                  choice.bearer, site.placed((choice.bearer, ZERO, ZERO), "up", "inward", "left"))
    slider = Part("slider", "slider", "slider", tail + choice.length, choice.width, choice.slider,
                  site.placed((choice.bearer - tail, ZERO, below + choice.slider),
                              "right", "inward", "down"))
    sensible(joint, slider, deep, "slider")
    made = Slide("slider.A", slider, "A", bearer, joint, deep,
                 ((+1, "drawn in the middle", below),))
    return SlidePair(choice, slider, bearer, made)


def work(pair: SlidePair) -> Worked:
    """Tail, socket and their sums; with rods, what is measured between and over them.

    BadPiece where such rods can't be laid in the socket.
    """
    done = slide.work(pair.slide)
    sums = [one for one in done.sums if one.name not in PLACED]
    sums += _rod_sums(pair, done.cuts)
    return done._replace(sums=tuple(sums))


# -- rods


def rod_section(
    made: Slide, kind: Literal["socket", "tail"], taper: Fraction = ZERO
) -> rods.Section:
    """What rods are laid in, where the run has narrowed by `taper` mm. Only for sloping sides."""
    slope = made.choice.slope
    assert slope is not None
    leaning = [side for side in SIDES if made.choice.leans(side)]
    shoulder = min(made.shoulder(side) + made.narrowing(side, taper) for side in leaning)
    return rods.Section(
        kind, slope.run, made.neck - taper, made.depth if kind == "socket" else made.tail,
        "both" if len(leaning) == 2 else "one", shoulder if kind == "tail" else None,
    )


def tapers(made: Slide) -> tuple[Fraction, ...]:
    """How much the run has narrowed where rods are laid in: entered, and closed if tapered."""
    return (ZERO, made.choice.taper) if made.choice.taper else (ZERO,)


def _rod_sums(pair: SlidePair, cuts: tuple[Cut, ...]) -> Iterator[Sum]:
    """The readings, each confirmed by the other board. Where rods don't rest on the tail's
    shoulders, there is none over them.
    """
    made, rod, unit = pair.slide, pair.choice.rods, pair.choice.unit
    if rod is None:
        return
    for taper in tapers(made):
        where = "" if not made.choice.taper else (
            " at the closed end" if taper else " where it is entered")
        for kind in KINDS:
            part = pair.bearer if kind == "socket" else pair.slider
            section = rod_section(made, kind, taper)
            if kind == "tail" and not fits(section, rod, unit):
                continue
            try:
                terms = rods.sums(section, rod, unit)
            except (BadMeasure, BadPiece) as error:
                raise BadPiece(error.what, error.cure, pair.choice.rods_where) from None
            yield add(f"{measured(section)}{where}", part.id,
                      _rod_witness(pair, cuts, section, taper, terms[-1]), *terms)


def measured(section: rods.Section) -> str:
    """What is measured with rods there, in words."""
    if section.rods == 1:
        return ("from a rod in the socket to its square side" if section.kind == "socket" else
                "over a rod at the tail, from its square side")
    return "between two rods in the socket" if section.kind == "socket" else (
        "over two rods at the tail")


def fits(section: rods.Section, rod: Fraction, unit: Unit) -> bool:
    """Whether such a rod fits."""
    try:
        found = rods.fitting(section, unit)
    except BadPiece:
        return False
    return found.least <= rod <= found.greatest


def _rod_witness(
    pair: SlidePair, cuts: tuple[Cut, ...], section: rods.Section, taper: Fraction,
    taken: tuple[int, str, Fraction],
) -> Witness:
    """The width that the cuts have there, with what the rods take of it or add: where the run is
    entered, the bottom of the socket; at the closed end, the neck between the tail's wastes.
    """
    made = pair.slide
    by_rods = taken[0] * taken[2]
    if not taper:
        across = axis_along(pair.bearer, pair.slider, "T")
        entry = [cut for cut in cuts if cut.part == pair.bearer.id][-1]
        leans = made.lean("face", made.depth) + made.lean("back", made.depth)
        more = -leans if section.kind == "tail" else ZERO
        return Witness(low_of(entry, across), high_of(entry, across), plus=by_rods + more)
    more = section.bottom - section.mouth if section.kind == "socket" else ZERO
    return Witness(_closed(pair, cuts, "face"), _closed(pair, cuts, "back"), plus=by_rods + more)


def _closed(pair: SlidePair, cuts: tuple[Cut, ...], side: Literal["face", "back"]) -> Surface:
    """Where a side of the neck lies on the slider at the closed end."""
    for cut in cuts:
        if cut.part == pair.slider.id and cut.role.startswith(f"tail waste, {side}"):
            return high_of(cut, "T") if side == "face" else low_of(cut, "T")
    return face_of(pair.slider.id, side)
