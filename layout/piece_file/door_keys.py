"""The keys of [[door]]."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, cast

from layout.builds.door_choice import (
    DoorChoice,
    DoorRail,
    Gaps,
    Hand,
    HingeChoice,
    LockChoice,
    MuntinChoice,
)
from layout.builds.panel_fit import FitChoice
from layout.defaults import Unit, default_length
from layout.joints.choices import TenonChoice
from layout.joints.panel_edge import Profile
from layout.joints.seat import SeatChoice, SeatKind
from layout.piece_file import tenon_usual as usual
from layout.piece_file.box_keys import read_place
from layout.piece_file.panel_keys import read_profile, read_solid
from layout.piece_file.table import Table
from layout.piece_file.tenon_keys import TenonKeys
from layout.piece_file.wood_keys import read_sawn

ZERO = Fraction(0)
MOUNTS = ("inset", "overlay")
HANDS = ("left", "right")
SEATS = ("groove", "rabbet")
RUNS = ("through", "stopped")
GRAINS = ("up", "across")
MOST_RAILS = 10
MOST_MUNTINS = 12
MOST_HINGES = 6
INSET_ONLY = ("gap_sides", "gap_top", "gap_bottom", "set_in")


def read_door(
    table: Table, unit: Unit, timber: str, web_least: Fraction, wall_least: Fraction
) -> DoorChoice:
    """One [[door]]. BadPiece with its place where it can't be read."""
    name = table.text("name", default="door")
    openings, space = read_place(table, unit, deep=False)
    wood = table.text("timber", default=timber)
    mount = table.choice("mount", MOUNTS, default="inset")
    for key in INSET_ONLY:
        if table.has(key) and mount == "overlay":
            raise table.error(key, f'{key} does not go with mount = "overlay"',
                              "say with over how far it covers its opening, or leave it out")
    if table.has("over") and mount == "inset":
        raise table.error("over", 'over does not go with mount = "inset"',
                          'write mount = "overlay", or leave it out')
    pair = table.flag("pair", default=False)
    for key in ("rebate", "gap_between"):
        if table.has(key) and not pair:
            raise table.error(key, f"{key} goes with a pair of doors",
                              "write pair = true, or leave it out")
    if table.has("hinges_on") and pair:
        raise table.error("hinges_on", "a pair has its hinges at both sides", "leave it out")
    thickness = table.length("thickness", unit, cure="give the thickness of its frame")
    stile = table.length("stiles", unit, cure="give the width of its stiles, e.g. stiles = 2")
    panel_name, seat, panel, open_lip = _infill(table, unit, wood, thickness)
    tenons = TenonKeys(table.table("tenon", optional=True), unit, web_least, wall_least)
    rails = _Rails(unit, tenons, table.table("tenon", optional=True), seat)
    gap = default_length("door_gap", unit)
    horn = table.length("horns", unit, default=ZERO, zero_ok=True)
    return DoorChoice(
        name=name,
        openings=openings,
        space=space,
        pair=pair,
        mount=cast(Literal["inset", "overlay"], mount),
        set_in=table.length("set_in", unit, default=ZERO, zero_ok=True),
        gaps=Gaps(
            table.length("gap_sides", unit, default=gap, zero_ok=True),
            table.length("gap_top", unit, default=gap, zero_ok=True),
            table.length("gap_bottom", unit, default=gap, zero_ok=True),
            table.length("gap_between", unit, default=gap, zero_ok=True),
            table.length("over", unit, default=default_length("door_over", unit))
            if mount == "overlay" else ZERO,
        ),
        thickness=thickness,
        stile=stile,
        top=rails.rail(table.table("top", optional=True), stile, "edge"),
        bottom=rails.rail(table.table("bottom", optional=True), stile, "far edge"),
        middles=_middles(table, rails, unit),
        muntins=tuple(rails.muntin(one) for one in table.tables("muntin")),
        seat=seat,
        panel=panel,
        panel_name=panel_name,
        open_lip=open_lip,
        rebate=table.length("rebate", unit, default=ZERO, zero_ok=True),
        horn=horn,
        trim=table.length("left_proud", unit, default=ZERO, zero_ok=True),
        hand=cast(Hand, table.choice("hinges_on", HANDS, default="left")),
        hinges=_hinges(table, unit),
        lock=_lock(table, unit),
        timber=wood,
        sawn=read_sawn(table),
        where=table.where(),
    )


def _middles(table: Table, rails: _Rails, unit: Unit) -> tuple[DoorRail, ...]:
    tables = table.tables("middle")
    if len(tables) > MOST_RAILS:
        raise tables[MOST_RAILS].error(None, f"a door of {len(tables)} middle rails",
                                       f"make it at most {MOST_RAILS}")
    found = []
    for one in tables:
        rail = rails.rail(one, None, None)
        found.append(rail._replace(above=one.optional_length("above", unit)))
    return tuple(found)


class _Rails:
    """The rails and muntins of one door: what they have in common."""

    def __init__(self, unit: Unit, tenons: TenonKeys, common: Table, seat: SeatChoice) -> None:
        self._unit = unit
        self._tenons = tenons
        self._common = common
        self._seat = seat

    def rail(
        self, table: Table, width: Fraction | None, outside: Literal["edge", "far edge"] | None
    ) -> DoorRail:
        """A rail; `width` is that of one left out, `outside` its edge at the door's end."""
        tenon = self._tenons.for_rail(table)._replace(in_line=True)
        if outside is not None and not self._says_shoulder(table, outside):
            # a haunch fills the groove; over a rabbet it is square
            run_out = self._seat.kind == "groove" and self._seat.run == "through"
            kind: Literal["groove", "square"] = "groove" if run_out else "square"
            tenon = tenon._replace(haunch=usual.haunch(self._unit, kind, outside))
        wide = table.length("width", self._unit, default=width, cure="give the rail's width")
        return DoorRail(wide, tenon, None, table.where())

    def _says_shoulder(self, table: Table, outside: str) -> bool:
        """True where the maker says what the tenon has at the door's end."""
        key = "top_shoulder" if outside == "edge" else "bottom_shoulder"
        own = table.table("tenon", optional=True)
        return any(
            one.has(word) for one in (own, self._common) for word in (key, "haunch")
        )

    def muntin(self, table: Table) -> MuntinChoice:
        """Muntins: stub tenons as long as the grooves are deep and a little more."""
        tenon: TenonChoice = self._tenons.for_rail(table)._replace(
            haunch=None, wedges=None, in_line=True
        )
        own = table.table("tenon", optional=True)
        if not own.has("through"):
            tenon = tenon._replace(through=False, projection=ZERO, stub=True, pegs=None, key=None,
                                   side_wedge=None)
        if not own.has("length"):
            tenon = tenon._replace(length=None)
        return MuntinChoice(
            table.count("row", 1, MOST_RAILS + 1) if table.has("row") else None,
            table.count("count", 1, MOST_MUNTINS, default=1),
            table.length("width", self._unit, cure="give the muntin's width"),
            tenon,
            table.where(),
        )


def _infill(
    table: Table, unit: Unit, timber: str, thickness: Fraction
) -> tuple[str, SeatChoice, FitChoice, bool]:
    """What the frame holds: a panel, or glass in a rabbet."""
    if table.has("panel") and table.has("glass"):
        raise table.error("glass", "a panel and glass are given", "keep one of the two")
    if table.has("glass"):
        return _glass(table.table("glass"), unit, thickness)
    panel = table.table("panel", cure="say what the door holds: [door.panel] or [door.glass]")
    kind = cast(SeatKind, panel.choice("seat", SEATS, default="groove"))
    run = cast(Literal["through", "stopped"], panel.choice("run", RUNS, default="through"))
    wrong = "groove_from_face" if kind == "rabbet" else "rabbet_depth"
    if panel.has(wrong):
        raise panel.error(wrong, f"{wrong} does not go with seat = \"{kind}\"", "leave it out")
    thick = panel.length("thickness", unit, cure="give the panel's thickness as measured")
    profile = read_profile(panel, unit, thick)
    solid = read_solid(panel, unit)
    if kind == "rabbet" and profile.kind != "plain":
        raise panel.error("edge", 'a worked edge does not go with seat = "rabbet"',
                          'write seat = "groove", or leave it out')
    open_lip = not panel.has("lip")
    if open_lip and solid is None:
        lip = default_length("panel_lip", unit)
    else:
        lip = ZERO if open_lip else panel.length("lip", unit)
    depth_key = "rabbet_depth" if kind == "rabbet" else "groove_from_face"
    seat = SeatChoice(kind, profile.tongue, lip, panel.optional_length(depth_key, unit), kind, run)
    _inside(panel, seat, profile.tongue, thickness)
    make = FitChoice(
        panel.text("timber", default="plywood" if solid is None else timber),
        thick,
        profile,
        panel.length("room", unit, default=default_length("panel_room", unit), zero_ok=True),
        cast(Literal["up", "across"], panel.choice("grain", GRAINS, default="up")),
        solid,
        panel.where(),
    )
    return "panel", seat, make, open_lip and solid is not None


def _inside(table: Table, seat: SeatChoice, wide: Fraction, thickness: Fraction) -> None:
    """A seat must leave wood in front of it, and a groove behind it too."""
    key = "rabbet_depth" if seat.kind == "rabbet" else "groove_from_face"
    if seat.kind == "rabbet":
        fits = (seat.depth or wide) < thickness
    else:
        start = (thickness - wide) / 2 if seat.depth is None else seat.depth
        fits = start > 0 and start + wide < thickness
    if fits:
        return
    if not table.has(key):
        key = "tongue" if table.has("tongue") else "thickness"
    cure = 'make it less, or give the panel edge = "tongue"' if seat.kind == "groove" else ""
    raise table.error(
        key, f"the {seat.kind} leaves no wood of the frame beside it",
        cure or "make the rabbet shallower, or the frame thicker",
    )


def _glass(
    glass: Table, unit: Unit, thickness: Fraction
) -> tuple[str, SeatChoice, FitChoice, bool]:
    thick = glass.length("thickness", unit, default=default_length("glass_thickness", unit))
    lip = glass.length("lip", unit, default=default_length("glass_lip", unit))
    seat = SeatChoice(
        "rabbet", thick, lip,
        glass.length("rabbet_depth", unit, cure="give the depth of its rabbet, e.g. 5/16"),
        "rabbet",
        cast(Literal["through", "stopped"], glass.choice("run", RUNS, default="through")),
    )
    _inside(glass, seat, thick, thickness)
    room = glass.length("room", unit, default=default_length("glass_room", unit), zero_ok=True)
    make = FitChoice("glass", thick, Profile("plain", thick), room, where=glass.where())
    return "glass", seat, make, False


def _hinges(table: Table, unit: Unit) -> HingeChoice | None:
    hinges = table.table_or_off("hinges")
    if not isinstance(hinges, Table):
        return None
    return HingeChoice(
        hinges.length("length", unit, cure="give the length of a hinge's leaf, e.g. 2"),
        hinges.count("count", 2, MOST_HINGES, default=2),
        hinges.optional_length("from_ends", unit),
        hinges.length("clear", unit, default=default_length("hinge_clear", unit), zero_ok=True),
    )


def _lock(table: Table, unit: Unit) -> LockChoice | None:
    lock = table.table_or_off("lock")
    if not isinstance(lock, Table):
        return None
    return LockChoice(
        lock.length("length", unit, cure="give the lock's length along the stile, e.g. 2"),
        lock.optional_length("above", unit),
        lock.length("clear", unit, default=default_length("hinge_clear", unit), zero_ok=True),
    )
