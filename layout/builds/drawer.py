"""Drawers: a front, two sides, a back and a bottom, fitted to an opening.

The drawer is told from the opening's left lower corner, in the plane of the rail above it, seen
from outside: x to the right, y inward, z up. Face sides are inside, face edges below; a side's
end A is at the front, the front's at the left, the back's at the right.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from fractions import Fraction
from typing import NamedTuple

from layout.builds.box_choices import DrawerChoice, Space
from layout.builds.frame import LONGEST, part_id, refuse_oversize
from layout.builds.opening import Opening
from layout.builds.site import Site, nearest_behind, site_of
from layout.errors import BadPiece, BadWood
from layout.joints.board_edge import Groove
from layout.joints.dovetail import Corner
from layout.joints.section import Terms
from layout.joints.spacing import Spacing, Wishes, space, tail_around, tail_length
from layout.joints.worked import Span
from layout.part import Part
from layout.wood.timber import Timbers

ZERO = Fraction(0)


class Hole(NamedTuple):
    """What a drawer is fitted to: where it is, its clear width and height, and the depth to the
    nearest thing behind, as a sum. `behind` is that thing; None where nothing stands there. `hind`
    is a part that ends where the whole depth does.
    """

    site: Site
    width: Fraction
    height: Fraction
    depth: Terms
    opening: Opening | None = None
    behind: Part | None = None
    hind: Part | None = None

    @property
    def deep(self) -> Fraction:
        """The depth, in mm."""
        return total(self.depth)


class Drawer(NamedTuple):
    """A drawer in its opening: its parts, its corners, its grooves by part id. Sizes in mm.

    `width`, `height` and `rear` are those over its sides, and where its back ends behind the
    opening's plane; `out` is where its front's outside stands. `swells` is what its height was made
    less by for the damp season.
    """

    choice: DrawerChoice
    name: str
    hole: Hole
    width: Fraction
    height: Fraction
    out: Fraction
    rear: Fraction
    deep: Fraction
    front: Part
    left: Part
    right: Part
    back: Part
    bottom: Part
    slips: tuple[Part, ...]
    runs: tuple[Part, ...]
    corners: tuple[Corner, ...]
    grooves: dict[str, Groove]
    swells: Fraction = ZERO

    @property
    def parts(self) -> tuple[Part, ...]:
        """All its parts, in the order of the cut list."""
        box = (self.front, self.left, self.right, self.back, self.bottom)
        return (*box, *self.slips, *self.runs)

    @property
    def joint(self) -> str:
        """The name that its bottom's grooves and slots go by."""
        return f"{part_id(self.name)}.bottom"

    @property
    def lip(self) -> Fraction:
        """The front's wood beyond the sides, in mm."""
        return self.choice.lip if self.choice.style == "lipped" else ZERO

    @property
    def inside(self) -> Fraction:
        """Clear width between the sides, in mm."""
        return self.width - 2 * self.choice.sides

    @property
    def shows(self) -> bool:
        """True where the front's groove, run through, comes out beside a tail."""
        return tail_around(self.corners[0].spacing, self.grooves[self.front.id].walls) is None


def total(terms: Terms) -> Fraction:
    """What signed terms add up to, in mm."""
    return sum((sign * value for sign, _, value in terms), ZERO)


def fit(
    choice: DrawerChoice,
    openings: Iterable[Opening],
    standing: tuple[Part, ...],
    free: Fraction = ZERO,
    timbers: Timbers | None = None,
) -> tuple[Drawer, ...]:
    """A drawer for each opening named, among the parts that stand already; or one for a space,
    which then begins at `free` mm from the piece's left. Where `timbers` have a climate, its height
    leaves what its wood will swell.

    BadPiece where there is no such opening, or no room in it.
    """
    most = most_swelling(choice, timbers)
    c, b = choice, choice.bottom
    sizes = [c.front, c.sides, c.back, c.set_in, c.lip, c.lip_thickness, c.drop, c.room_wide,
             c.room_high, c.room_behind, c.height or ZERO, b.thickness, b.up, b.room, b.clear,
             b.deep or ZERO]
    if b.slips is not None:
        sizes += [b.slips.thickness, b.slips.above]
    if b.slots is not None:
        sizes += [b.slots.wide, b.slots.play]
    refuse_oversize(sizes, f"the {choice.name}", choice.where)
    if (choice.length or ZERO) > LONGEST:
        raise BadPiece(f"the {choice.name} is more than 10 m long",
                       "check the sizes and the file's unit", choice.where)
    if choice.space is not None:
        hole = _alone(choice, choice.space, free)
        return (_fitted(choice, choice.name, hole, standing, most),)
    offered = {opening.name: opening for opening in openings}
    found = []
    for number, name in enumerate(choice.openings, start=1):
        if name not in offered:
            listed = ", ".join(f"'{one}'" for one in offered) or "none"
            raise BadPiece(
                f"there is no opening '{name}'", f"the frame offers: {listed}", choice.where
            )
        hole = _hole(offered[name], choice, standing)
        called = f"{choice.name} {number}" if len(choice.openings) > 1 else choice.name
        found.append(_fitted(choice, called, hole, standing, most))
    return tuple(found)


def most_swelling(choice: DrawerChoice, timbers: Timbers | None) -> Fraction:
    """The greatest share that the wood of its front and sides will be higher than today; 0 without
    a climate, and for woods that the tables don't have.
    """
    if timbers is None or timbers.climate is None:
        return ZERO
    found = [ZERO]
    for timber in (choice.timber, choice.side_timber):
        with suppress(BadWood):
            found.append(timbers.seasons(timber, "width").most)
    return max(found)


def _alone(choice: DrawerChoice, given: Space, free: Fraction) -> Hole:
    refuse_oversize((given.width, given.height, given.depth), f"the space of the {choice.name}",
                    choice.where)
    depth: Terms = ((+1, "depth of the opening", given.depth),)
    lip = choice.lip if free and choice.style == "lipped" else ZERO
    return Hole(Site((free + lip, ZERO, ZERO)), given.width, given.height, depth)


def _hole(opening: Opening, choice: DrawerChoice, standing: tuple[Part, ...]) -> Hole:
    """An opening of a frame, and what stands behind it."""
    if opening.lower is None:
        raise BadPiece(
            f"'{opening.name}' has no rail below it for a drawer to run on",
            "add a rail under the drawer",
            choice.where,
        )
    site = site_of(opening)
    outside = site.spans(opening.left)[1][0]  # the legs' outside, before the rail's face
    behind = nearest_behind(site, standing, (ZERO, opening.width), (ZERO, opening.height),
                            outside + opening.depth / 2)
    depth: list[tuple[int, str, Fraction]] = [(+1, "depth over the legs", opening.depth)]
    if outside < 0:
        depth.append((-1, "rail's face behind the leg's", -outside))
    elif outside > 0:
        depth.append((+1, "rail's face before the leg's", outside))
    if behind is not None:
        free = site.spans(behind)[1][0]
        taken = opening.depth + outside - free
        depth.append((-1, f"inside of the {behind.name} from the back", taken))
    ends = outside + opening.depth
    hind = next((part for part in standing if site.spans(part)[1][1] == ends), None)
    return Hole(site, opening.width, opening.height, tuple(depth), opening, behind, hind)


def _fitted(
    choice: DrawerChoice, name: str, hole: Hole, standing: tuple[Part, ...],
    most: Fraction = ZERO,
) -> Drawer:
    """One drawer in its opening: every part where it stands."""
    bottom = choice.bottom
    width = hole.width - choice.room_wide
    swells = ZERO
    if choice.height is None:
        height = (hole.height - choice.room_high) / (1 + most)
        swells = hole.height - choice.room_high - height
    else:
        height = choice.height
    out = {"flush": ZERO, "set in": choice.set_in, "lipped": -choice.lip_thickness}[choice.style]
    lip = choice.lip if choice.style == "lipped" else ZERO
    rear = hole.deep - choice.room_behind
    if choice.length is not None:
        rear = out + choice.length
    inner = out + choice.front
    deep = _groove_depth(choice)
    tails = tail_length(choice.front_joint, choice.front)
    top = bottom.up + bottom.groove
    back_height = height - choice.drop - top
    _room(choice, hole, (width, height, rear - inner - choice.back, back_height, tails))
    site, x0 = hole.site, choice.room_wide / 2
    side_length = rear - inner + tails - (choice.back_joint.lap or ZERO)

    def part(office: str, size: tuple[Fraction, ...], spot: tuple[Fraction, ...],
             ways: tuple[str, str, str], timber: str, hand: str = "") -> Part:
        called = f"{hand} {office}".strip()
        return Part(
            part_id(f"{name} {called}"), f"{name} {called}", f"{choice.name} {office}",
            size[0], size[1], size[2], site.placed((spot[0], spot[1], spot[2]), *ways),
            timber, hand,  # type: ignore[arg-type]
        )

    wood = choice.timber
    front = part("front", (width + 2 * lip, height + 2 * lip, choice.front),
                 (x0 - lip, inner, -lip), ("right", "up", "outward"), wood)
    left = part("side", (side_length, height, choice.sides),
                (x0 + choice.sides, inner - tails, ZERO), ("inward", "up", "left"),
                choice.side_timber, "left")
    right = part("side", (side_length, height, choice.sides),
                 (x0 + width - choice.sides, inner - tails, ZERO), ("inward", "up", "right"),
                 choice.side_timber, "right")
    back = part("back", (width, back_height, choice.back), (x0 + width, rear - choice.back, top),
                ("left", "up", "inward"), choice.side_timber)
    slip = bottom.slips.thickness if bottom.slips is not None else ZERO
    across = width - 2 * choice.sides - 2 * slip + 2 * deep - bottom.room
    if across <= 0:
        cure = "make the room less" if bottom.slips is None else "make the slips thinner"
        raise BadPiece(f"nothing is left of the {name}'s bottom between the sides", cure,
                       choice.where)
    board = part("bottom", (across, rear - inner + deep, bottom.thickness),
                 (x0 + choice.sides + slip - deep + bottom.room / 2, inner - deep, top),
                 ("right", "inward", "down"), bottom.timber)
    slips: tuple[Part, ...] = ()
    if bottom.slips is not None:
        size = (rear - choice.back - inner, top + bottom.slips.above, slip)
        slips = (
            part("slip", size, (x0 + choice.sides + slip, inner, ZERO),
                 ("inward", "up", "left"), choice.side_timber, "left"),
            part("slip", size, (x0 + width - choice.sides - slip, inner, ZERO),
                 ("inward", "up", "right"), choice.side_timber, "right"),
        )
    walls = (bottom.up, top)
    fronts = space(choice.front_joint, height, tails,
                   Wishes(groove=walls, clear=bottom.clear))
    backs = space(choice.back_joint, back_height, tail_length(choice.back_joint, choice.back))
    stem = part_id(name)
    corners = (
        Corner(f"{stem}.A", "A", left, "A", front, "A", fronts, lip, lip),
        Corner(f"{stem}.B", "B", right, "A", front, "B", fronts, lip, lip),
        Corner(f"{stem}.C", "C", right, "B", back, "A", backs, open_far=choice.drop > 0),
        Corner(f"{stem}.D", "D", left, "B", back, "B", backs, open_far=choice.drop > 0),
    )
    grooves = _grooves(choice, front, (left, right), slips, fronts, walls, lip, slip, deep)
    drawer = Drawer(choice, name, hole, width, height, out, rear, deep, front, left, right, back,
                    board, slips, (), corners, grooves, swells)
    if choice.runs is None:
        return drawer
    from layout.builds.runners import runs_of

    return drawer._replace(runs=runs_of(drawer, standing))


def _groove_depth(choice: DrawerChoice) -> Fraction:
    """How deep the bottom's grooves are: as given, or the usual, but at most half of a side."""
    bottom = choice.bottom
    if bottom.deep is not None:
        return bottom.deep
    bearer = choice.sides if bottom.slips is None else bottom.slips.thickness
    return min(bottom.usual_deep, bearer / 2)


def _room(
    choice: DrawerChoice, hole: Hole, sizes: tuple[Fraction, ...]
) -> None:
    """BadPiece where a drawer has no size left one way."""
    width, height, inside, back_height, tails = sizes
    tries = (
        (min(width - 2 * choice.sides, width), "width",
         "make the opening wider, or the sides or the room beside them less"),
        (height, "height", "make the opening higher, or the room above the drawer less"),
        (inside, "depth inside",
         "make the opening deeper, the drawer longer, or front and back thinner"),
        (back_height, "height for its back",
         "lower the bottom's groove, drop the back less, or make the opening higher"),
    )
    for left, word, cure in tries:
        if left <= 0:
            raise BadPiece(f"the {choice.name} would have no {word}", cure, choice.where)
    if tail_length(choice.back_joint, choice.back) <= 0:
        raise BadPiece("the lap takes the whole thickness of the back",
                       "make the lap less, or the back thicker", choice.back_joint.where)
    if tails <= 0:
        raise BadPiece("the lap takes the whole thickness of the front",
                       "make the lap less, or the front thicker", choice.front_joint.where)


def _grooves(
    choice: DrawerChoice,
    front: Part,
    sides: tuple[Part, Part],
    slips: tuple[Part, ...],
    fronts: Spacing,
    walls: Span,
    lip: Fraction,
    slip: Fraction,
    deep: Fraction,
) -> dict[str, Groove]:
    """The bottom's groove in every part that has one, by part id."""
    found = {}
    stop = choice.bottom.run == "stopped"
    # the front's own groove stops where the bottom's corner comes to
    hold = lip + choice.sides + slip - deep
    within = tail_around(fronts, walls) is not None
    run = (hold, front.length - hold) if stop and not within else (ZERO, front.length)
    found[front.id] = Groove((walls[0] + lip, walls[1] + lip), deep, run)
    for side in slips or sides:
        start = ZERO
        if not slips and stop and choice.front_joint.lap is None:
            start = fronts.depth - deep
        found[side.id] = Groove(walls, deep, (start, side.length))
    return found
