"""What a maker can choose of drawers and chests. Lengths in mm."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.choices import RailChoice
from layout.errors import Where
from layout.joints.slide import SlideChoice
from layout.joints.spacing import DovetailChoice

ZERO = Fraction(0)
Front = Literal["flush", "set in", "lipped"]


class SlotChoice(NamedTuple):
    """Slots for the screws that hold a solid bottom to the back: how many (None: as many as the
    width asks for, one in each `every`), how wide, and how much room each leaves to move.
    """

    many: int | None
    wide: Fraction
    play: Fraction
    every: Fraction


class SlipChoice(NamedTuple):
    """A grooved strip glued inside a drawer side: its thickness, and its wood above the groove."""

    thickness: Fraction
    above: Fraction


class BottomChoice(NamedTuple):
    """A drawer's bottom. `up` is its groove's lower wall above the lower edge of the sides, `deep`
    the groove's depth (None: the usual, but at most half of a side), `tongue` the groove's width
    where the bottom is thicker and rabbeted underneath; `room` how much narrower it is cut
    than its grooves would hold. `run` says whether the front's groove may come out at the
    sides; `slips` that the sides carry slips instead of grooves.
    """

    kind: Literal["plywood", "solid"]
    thickness: Fraction
    up: Fraction
    usual_deep: Fraction
    deep: Fraction | None
    tongue: Fraction | None
    room: Fraction
    clear: Fraction
    run: Literal["through", "stopped"] = "through"
    slips: SlipChoice | None = None
    slots: SlotChoice | None = None
    timber: str = ""

    @property
    def groove(self) -> Fraction:
        """The groove's width, in mm."""
        return self.thickness if self.tongue is None else self.tongue


class RunChoice(NamedTuple):
    """What a drawer runs on, in mm: runners (width, thickness; None: as thick as the rail under
    the drawer is wide), kickers of the same section, guides (height; their width fills what is
    free beside the opening).
    """

    width: Fraction
    thickness: Fraction | None = None
    kickers: bool = False
    guide_height: Fraction | None = None
    guide_width: Fraction | None = None


class Space(NamedTuple):
    """An opening without a frame around it, in mm: clear width and height, and the depth from its
    front to the nearest thing behind.
    """

    width: Fraction
    height: Fraction
    depth: Fraction


class DividerChoice(NamedTuple):
    """A shelf or partition of the maker's list, lengths in mm.

    `place` is the clear space below a shelf, or at the left of a partition; None is the middle.
    `set_back` is how far its front edge lies behind the opening's plane; `depth` how far it
    reaches inward from there (None: as far as what bears it and nothing stands in the way).
    """

    name: str
    opening: str
    lies: Literal["level", "upright"]
    thickness: Fraction
    joint: SlideChoice
    place: Fraction | None = None
    set_back: Fraction = ZERO
    depth: Fraction | None = None
    timber: str = ""
    where: Where = Where()


class DivideChoice(NamedTuple):
    """How an opening is divided, from the top down; lengths in mm.

    `into` so many, alike, or each `step` higher than the one above it, or `ratio` times as high;
    or of the `heights` given, of which one may be None: what is left. What stands between two is a
    `rail` in a frame, a `shelf` in a carcase.
    """

    into: int
    rail: RailChoice | None
    heights: tuple[Fraction | None, ...] = ()
    step: Fraction = ZERO
    ratio: Fraction = Fraction(1)
    back_rails: bool = False
    shelf: DividerChoice | None = None

    @property
    def between(self) -> Fraction:
        """How much height each rail or shelf takes, in mm."""
        if self.rail is not None:
            return self.rail.width
        return self.shelf.thickness if self.shelf is not None else ZERO


class DrawerChoice(NamedTuple):
    """Drawers of the maker's list: one for every opening named, or one for a space. `divide` says
    that the opening named is divided first.
    """

    name: str
    openings: tuple[str, ...]
    space: Space | None
    front: Fraction
    sides: Fraction
    back: Fraction
    style: Front
    set_in: Fraction
    lip: Fraction
    lip_thickness: Fraction
    room_wide: Fraction
    room_high: Fraction
    room_behind: Fraction
    length: Fraction | None
    height: Fraction | None
    drop: Fraction
    front_joint: DovetailChoice
    back_joint: DovetailChoice
    bottom: BottomChoice
    runs: RunChoice | None = None
    divide: DivideChoice | None = None
    timber: str = ""
    side_timber: str = ""
    where: Where = Where()


class ChestBottom(NamedTuple):
    """A chest's bottom: a panel in grooves, a board in a rabbet round the lower edges, a board
    rabbeted itself so that its tongue stands in the box, or one planted on below.
    """

    kind: Literal["groove", "rabbet", "rabbeted", "planted"]
    thickness: Fraction
    up: Fraction
    deep: Fraction
    room: Fraction
    clear: Fraction
    run: Literal["through", "stopped"] = "stopped"
    boards: tuple[Fraction, ...] | int = 1
    timber: str = ""


class LidChoice(NamedTuple):
    """A chest's lid: flat, or rabbeted so that its tongue drops into the box. Its overhangs."""

    kind: Literal["flat", "rabbeted"]
    thickness: Fraction
    deep: Fraction
    room: Fraction
    front: Fraction
    ends: Fraction
    back: Fraction
    boards: tuple[Fraction, ...] | int = 1
    timber: str = ""


class ChestChoice(NamedTuple):
    """A dovetailed box by its outside sizes; `height` is that of its four sides. `tails` says
    which boards carry the tails. Boards that a side is glued up of are told from its lower edge.
    """

    name: str
    length: Fraction
    depth: Fraction
    height: Fraction
    front: Fraction
    ends: Fraction
    tails: Literal["front and back", "ends"]
    joint: DovetailChoice
    front_boards: tuple[Fraction, ...] | int = 1
    end_boards: tuple[Fraction, ...] | int = 1
    bottom: ChestBottom | None = None
    lid: LidChoice | None = None
    timber: str = ""
    where: Where = Where()
