"""What a drawer runs on: runners level with the rail below it, kickers level with the rail above,
guides beside it. Plain boards between the front and whatever stands behind, glued and screwed.

A runner as thick as the rail is wide is the kicker of the drawer below it as well.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from layout.builds.box_choices import RunChoice
from layout.builds.frame import part_id, refuse_oversize
from layout.builds.opening import Opening
from layout.builds.site import nearest_behind, overlap
from layout.errors import BadPiece
from layout.joints.worked import Span
from layout.mark import Sum, Surface, Witness, add
from layout.part import Part

if TYPE_CHECKING:
    from layout.builds.drawer import Drawer

ZERO = Fraction(0)
HANDS: tuple[Literal["left", "right"], ...] = ("left", "right")


def runs_of(drawer: Drawer, standing: tuple[Part, ...]) -> tuple[Part, ...]:
    """Runners, kickers and guides of one drawer, as the maker wants them."""
    runs = drawer.choice.runs
    assert runs is not None
    sizes = [runs.width, *(one for one in (runs.thickness, runs.guide_height, runs.guide_width)
                           if one is not None)]
    refuse_oversize(sizes, f"what the {drawer.choice.name} runs on", drawer.choice.where)
    found = [*_runners(drawer, runs, standing)]
    if runs.kickers:
        found += _kickers(drawer, runs, standing)
    if runs.guide_height is not None:
        found += _guides(drawer, runs, standing)
    return tuple(found)


def _part(
    drawer: Drawer, office: str, hand: Literal["left", "right"], size: tuple[Fraction, ...],
    spot: tuple[Fraction, Fraction, Fraction], ways: tuple[str, str, str],
) -> Part:
    called = f"{drawer.name} {hand} {office}"
    return Part(part_id(called), called, f"{drawer.choice.name} {office}", size[0], size[1],
                size[2], drawer.hole.site.placed(spot, *ways), drawer.choice.side_timber, hand)


def _behind(
    drawer: Drawer, standing: tuple[Part, ...], start: Fraction, across: Span, up: Span
) -> Part | None:
    return nearest_behind(drawer.hole.site, standing, across, up, start)


def _reach(
    drawer: Drawer, standing: tuple[Part, ...], start: Fraction, across: Span, up: Span
) -> Fraction:
    """How far inward a board can run from `start`: to what stands behind, or the hole's depth."""
    found = _behind(drawer, standing, start, across, up)
    return drawer.hole.site.spans(found)[1][0] if found is not None else drawer.hole.deep


def _runners(
    drawer: Drawer, runs: RunChoice, standing: tuple[Part, ...]
) -> Iterator[Part]:
    hole, opening = drawer.hole, drawer.hole.opening
    start, thickness = ZERO, runs.thickness
    if opening is not None and opening.lower is not None:
        rail = hole.site.spans(opening.lower)
        start = rail[1][1]
        thickness = rail[2][1] - rail[2][0] if thickness is None else thickness
    if thickness is None:
        raise BadPiece(
            f"how thick the runners of the {drawer.choice.name} are is missing",
            "give runners.thickness: without a frame there is no rail to be level with",
            drawer.choice.where,
        )
    for hand, across, way in _sides(drawer, runs):
        end = _reach(drawer, standing, start, across, (-thickness, ZERO))
        _left(drawer, end - start, "runners")
        x = across[0] if hand == "left" else across[1]
        yield _part(drawer, "runner", hand, (end - start, runs.width, thickness),
                    (x, start, ZERO), ("inward", way, "down"))


def _kickers(
    drawer: Drawer, runs: RunChoice, standing: tuple[Part, ...]
) -> Iterator[Part]:
    """Boards above the drawer's sides that keep it from tipping when it is drawn."""
    hole, opening = drawer.hole, drawer.hole.opening
    thickness, start = runs.thickness, ZERO
    if opening is not None:
        rail = hole.site.spans(opening.upper)
        start = rail[1][1]
        thickness = rail[2][1] - rail[2][0] if thickness is None else thickness
    assert thickness is not None  # the runners had one
    for hand, across, way in _sides(drawer, runs):
        end = _reach(drawer, standing, start, across, (hole.height, hole.height + thickness))
        _left(drawer, end - start, "kickers")
        x = across[0] if hand == "left" else across[1]
        yield _part(drawer, "kicker", hand, (end - start, runs.width, thickness),
                    (x, start, hole.height), ("inward", way, "up"))


def _sides(
    drawer: Drawer, runs: RunChoice
) -> Iterator[tuple[Literal["left", "right"], Span, str]]:
    """Where the boards under the two sides lie, and which way they are wide."""
    wide = drawer.hole.width
    yield "left", (ZERO, runs.width), "right"
    yield "right", (wide - runs.width, wide), "left"


def _guides(
    drawer: Drawer, runs: RunChoice, standing: tuple[Part, ...]
) -> Iterator[Part]:
    """Boards beside the drawer, from leg to leg, flush with the legs' inner faces."""
    hole, opening = drawer.hole, drawer.hole.opening
    if opening is None:
        raise BadPiece(
            f"the {drawer.choice.name} has no legs for guides to stand between",
            "leave the guides out, or name an opening of a frame",
            drawer.choice.where,
        )
    assert runs.guide_height is not None
    high = runs.guide_height
    for hand, leg in zip(HANDS, (opening.left, opening.right), strict=True):
        start = hole.site.spans(leg)[1][1]
        wide = runs.guide_width
        if wide is None:
            wide = _free_beside(drawer, standing, opening, hand, high)
        if wide <= 0:
            continue  # what closes the side is flush with the legs: it guides the drawer itself
        across = (-wide, ZERO) if hand == "left" else (hole.width, hole.width + wide)
        end = _reach(drawer, standing, start, across, (ZERO, high))
        _left(drawer, end - start, "guides")
        x = ZERO if hand == "left" else hole.width
        yield _part(drawer, "guide", hand, (end - start, high, wide), (x, start, ZERO),
                    ("inward", "up", hand))


def _free_beside(
    drawer: Drawer, standing: tuple[Part, ...], opening: Opening, hand: str, high: Fraction
) -> Fraction:
    """How much is free beside the opening, to the nearest part that closes the side; else as much
    as the leg is wide.
    """
    site, width = drawer.hole.site, drawer.hole.width
    leg = site.spans(opening.left if hand == "left" else opening.right)
    free = leg[0][1] - leg[0][0]
    inward = (leg[1][1], drawer.hole.deep)
    for part in standing:
        if part.kind == "leg":
            continue  # the guide runs from leg to leg
        x, y, z = site.spans(part)
        if overlap(y, inward) and overlap(z, (ZERO, high)):
            gap = -x[1] if hand == "left" else x[0] - width
            if gap >= 0:
                free = min(free, gap)
            elif overlap(x, (-free, ZERO) if hand == "left" else (width, width + free)):
                return ZERO
    return free


def _left(drawer: Drawer, length: Fraction, what: str) -> None:
    if length <= 0:
        raise BadPiece(f"there is no room behind the rail for the {what} of the {drawer.name}",
                       "make the opening deeper, or leave them out", drawer.choice.where)


def sums(drawer: Drawer, standing: tuple[Part, ...]) -> Iterator[Sum]:
    """How long each runner, kicker and guide is: between the parts before and behind it."""
    site = drawer.hole.site
    for part in drawer.runs:
        x, y, z = site.spans(part)
        before = _before(drawer, standing, part)
        after = _behind(drawer, standing, y[1], x, z)
        reach = y[1]
        words = "depth of the opening"
        end = site.surface(part, 1, True)
        if after is not None and site.spans(after)[1][0] == y[1]:
            words = f"opening's front to the {after.name}"
            end = site.surface(after, 1, False)
        start: Surface = site.surface(part, 1, False)
        terms = [(+1, words, reach)]
        if before is not None:
            terms.append((-1, f"opening's front to the back of the {before.name}", y[0]))
            start = site.surface(before, 1, True)
        office = part.kind.removeprefix(drawer.choice.name).strip()
        yield add(f"{office} length", part.id, Witness(start, end), *terms)


def _before(drawer: Drawer, standing: tuple[Part, ...], part: Part) -> Part | None:
    """The part that it butts against in front."""
    site = drawer.hole.site
    x, y, z = site.spans(part)
    for other in standing:
        a, b, c = site.spans(other)
        if b[1] == y[0] and overlap(a, x) and overlap(c, z):
            return other
    opening = drawer.hole.opening
    if opening is not None and part.kind.endswith("guide"):
        return opening.left if part.hand == "left" else opening.right
    return None
