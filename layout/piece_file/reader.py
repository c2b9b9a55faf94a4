"""From a piece file to the maker's choices; piece.schema.json in this package describes it.

Nothing is worked out here: every value is read, checked for its kind, and put where the builds
look for it. What the maker leaves out comes from layout/defaults.toml.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Literal, cast

from layout.builds.choices import (
    AsMilled,
    CrossChoice,
    FrameChoice,
    LegChoice,
    Milled,
    RailChoice,
)
from layout.builds.frame import SIDES
from layout.builds.opening import Side
from layout.builds.panel import PanelChoice
from layout.defaults import Unit, default_length
from layout.errors import BadMeasure
from layout.joints.seat import SeatChoice, SeatKind
from layout.measure import Rule, default_rule, read_rule
from layout.piece import PieceChoice
from layout.piece_file.box_keys import read_chest, read_drawer
from layout.piece_file.case_keys import read_carcase, read_divider
from layout.piece_file.door_keys import read_door
from layout.piece_file.kit_keys import NO_SHOP, UNITS, KitKeys, Shop, kit_of, read_kit
from layout.piece_file.panel_keys import read_profile, read_solid
from layout.piece_file.source import read_toml
from layout.piece_file.stock_keys import read_stock
from layout.piece_file.table import Table
from layout.piece_file.tenon_keys import TenonKeys
from layout.piece_file.top_keys import read_top
from layout.piece_file.wood_keys import read_load, read_timbers
from layout.stock.rough import StockChoice

SEATS = ("rabbet", "groove")
RUNS = ("stopped", "through")
GRAINS = ("up", "across")
LIES = ("upright", "flat")
PLACES = ("from_left", "from_front", "above_floor")
HELD = ("overall", "shoulders")


def read_piece(path: str | Path, shop: Shop = NO_SHOP) -> PieceChoice:
    """The choices in a piece file, its kit on top of the shop's. BadPiece with file, line and
    key where it can't be read.
    """
    return piece_from(read_toml(path), shop)


def piece_and_kit(path: str | Path, shop: Shop = NO_SHOP) -> tuple[PieceChoice, KitKeys]:
    """The choices in a piece file, and what its own [kit] says. BadPiece as `read_piece`."""
    table = read_toml(path)
    choice = piece_from(table, shop)
    return choice, read_kit(table.table("kit", optional=True), choice.unit)


def piece_and_stock(path: str | Path, shop: Shop = NO_SHOP) -> tuple[PieceChoice, StockChoice]:
    """The choices in a piece file, and what its [stock] says. BadPiece as `read_piece`."""
    table = read_toml(path)
    choice = piece_from(table, shop)
    return choice, read_stock(table.table("stock", optional=True), choice.unit)


def piece_from(table: Table, shop: Shop = NO_SHOP) -> PieceChoice:
    """The choices in a piece file that is open already."""
    name = table.text("piece", cure='name the piece, e.g. piece = "Hall table"')
    unit = cast(
        Unit, table.choice("unit", UNITS, cure='say what bare numbers are in, e.g. unit = "in"')
    )
    timber = table.text("timber", default="")
    limits = table.table("limits", optional=True)
    web_least = limits.length("web", unit, default=default_length("web_least", unit), zero_ok=True)
    wall_least = limits.length(
        "wall", unit, default=default_length("wall_least", unit), zero_ok=True
    )
    frame = tenons = None
    milled = _as_milled(table.table("as_milled", optional=True), unit)
    if table.has("frame"):
        frame = _frame(table.table("frame"), unit, timber, web_least, wall_least)
        tenon = table.table("frame").table("tenon", optional=True)
        tenons = TenonKeys(tenon, unit, web_least, wall_least)
        frame = frame._replace(milled=milled)
    elif table.has("as_milled"):
        raise table.error("as_milled", "only the parts of a frame can be given as measured",
                          "write the measured sizes into the carcase, chest, drawer or door itself")
    # what the rough list adds is read by the command that makes it; a mistake is told at once
    read_stock(table.table("stock", optional=True), unit)
    chests, drawers = table.tables("chest"), table.tables("drawer")
    carcases, doors = table.tables("carcase"), table.tables("door")
    tops = table.tables("top")
    if frame is None and not (chests or drawers or carcases or doors or tops):
        raise table.error(
            "frame", "there is nothing to make",
            "describe a frame under [frame], a carcase under [[carcase]], a chest under "
            "[[chest]], drawers under [[drawer]], doors under [[door]] or a top under [[top]]",
        )
    choice = PieceChoice(
        name=name,
        unit=unit,
        rule=_rule(table, unit),
        kit=kit_of(unit, shop.keys, read_kit(table.table("kit", optional=True), unit)),
        wall_least=wall_least,
        near_settings=limits.length(
            "near_settings", unit, default=default_length("near_settings", unit), zero_ok=True
        ),
        frame=frame,
        panels=tuple(_panel(one, unit, timber) for one in table.tables("panel")),
        carcases=tuple(read_carcase(one, unit, timber) for one in carcases),
        dividers=tuple(read_divider(one, unit, timber) for one in table.tables("divider")),
        chests=tuple(read_chest(one, unit, timber) for one in chests),
        drawers=tuple(read_drawer(one, unit, timber, tenons) for one in drawers),
        doors=tuple(read_door(one, unit, timber, web_least, wall_least) for one in doors),
        tops=tuple(read_top(one, unit, timber, wall_least) for one in tops),
        drawer_load=read_load(table),
        dual=table.flag("both_units", default=False),
        timbers=read_timbers(table),
        where=table.where(),
    )
    table.finish()
    return choice


def _rule(table: Table, unit: Unit) -> Rule:
    if not table.has("rule"):
        return default_rule(unit)
    try:
        return read_rule(table.text("rule"), unit)
    except BadMeasure as error:
        raise table.error("rule", error.what, error.cure) from None


def _frame(
    table: Table, unit: Unit, timber: str, web_least: Fraction, wall_least: Fraction
) -> FrameChoice:
    leg = table.table("leg", cure="describe the legs under [frame.leg]")
    tenon = table.table("tenon", optional=True)
    common = TenonKeys(tenon, unit, web_least, wall_least)
    rails = table.tables("rail")
    if not rails:
        cure = "add a [[frame.rail]] for each kind of rail"
        raise table.error("rail", "a frame needs rails", cure)
    return FrameChoice(
        length=table.length("length", unit, cure="give the overall length, e.g. length = 48"),
        depth=table.length("depth", unit, cure="give the overall depth, e.g. depth = 24"),
        height=table.length("height", unit, cure="give the overall height, e.g. height = 33"),
        leg=LegChoice(
            leg.length("width", unit, cure="give the leg's width, seen from the front"),
            leg.length("thickness", unit, cure="give the leg's thickness, seen from the side"),
        ),
        rails=tuple(_rail(rail, unit, timber, common) for rail in rails),
        timber=table.text("timber", default=timber),
        where=table.where(),
        crosses=tuple(_cross(one, unit, timber, common) for one in table.tables("cross")),
    )


def _rail(table: Table, unit: Unit, timber: str, common: TenonKeys) -> RailChoice:
    name = table.text("name", cure='name the rail, e.g. name = "top rail"')
    sides = table.texts("sides", cure='say where it goes, e.g. sides = ["front", "back"]')
    for side in sides:
        if side not in SIDES:
            raise table.error("sides", f"there is no side '{side}'", f"one of {', '.join(SIDES)}")
    below_top, above_floor, centred = _height(table, unit)
    return RailChoice(
        name=name,
        sides=cast("tuple[Side, ...]", tuple(sides)),
        width=table.length("width", unit, cure="give the rail's width, seen from outside"),
        thickness=table.length("thickness", unit, cure="give the rail's thickness"),
        set_in=table.length("set_in", unit, default=Fraction(0), zero_ok=True),
        tenon=common.for_rail(table),
        below_top=below_top,
        above_floor=above_floor,
        centred=centred,
        timber=table.text("timber", default=timber),
        where=table.where(),
    )


def _cross(table: Table, unit: Unit, timber: str, common: TenonKeys) -> CrossChoice:
    name = table.text("name", cure='name the cross rail, e.g. name = "stretcher"')
    between = table.texts(
        "between", cure='say what it stands between, e.g. between = ["left foot rail", "right '
        'foot rail"]'
    )
    if len(between) != 2:
        raise table.error("between", f"{len(between)} parts are named", "name two parts")
    rail = RailChoice(
        name=name,
        sides=(),
        width=table.length("width", unit, cure="give its width"),
        thickness=table.length("thickness", unit, cure="give its thickness"),
        set_in=Fraction(0),
        tenon=common.for_rail(table),
        timber=table.text("timber", default=timber),
        where=table.where(),
    )
    return CrossChoice(
        rail,
        (between[0], between[1]),
        table.choice("lies", LIES, default="upright") == "upright",
        tuple(table.optional_length(key, unit, zero_ok=True) for key in PLACES),
    )


def _as_milled(table: Table, unit: Unit) -> AsMilled:
    parts: list[Milled] = []
    for one in table.tables("part"):
        name = one.text("name", cure='say which part, e.g. name = "front left leg"')
        width, thickness = (one.optional_length(key, unit) for key in ("width", "thickness"))
        if width is None and thickness is None:
            raise one.error(None, "no measured size is given", "give its width or its thickness")
        if any(other.part == name for other in parts):
            raise one.error("name", f"'{name}' is measured twice", "keep one of the two")
        parts.append(Milled(name, width, thickness, one.where()))
    held = cast(
        Literal["overall", "shoulders"], table.choice("held", HELD, default="overall")
    )
    return AsMilled(tuple(parts), held)


def _height(
    table: Table, unit: Unit
) -> tuple[Fraction | None, Fraction | None, bool]:
    """Where a rail stands: flush with the leg's top, below it, above the floor, or centred."""
    given = [key for key in ("top", "below_top", "above_floor") if table.has(key)]
    cure = 'write one of: top = "flush", top = "centred", below_top = "3/4", above_floor = 8'
    if not given:
        raise table.error(None, "where the rail stands is missing", cure)
    if len(given) > 1:
        raise table.error(given[1], f"the rail's height is given twice, by {given[0]} too", cure)
    if given == ["top"]:
        if table.choice("top", ("flush", "centred")) == "centred":
            return None, None, True
        return Fraction(0), None, False
    if given == ["below_top"]:
        return table.length("below_top", unit, zero_ok=True), None, False
    return None, table.length("above_floor", unit, zero_ok=True), False


def _panel(table: Table, unit: Unit, timber: str) -> PanelChoice:
    name = table.text("name", cure='name the panel, e.g. name = "end panel"')
    openings = table.texts(
        "openings", cure='say what it fills, e.g. openings = ["left under top rail"]'
    )
    kind = cast(SeatKind, table.choice("seat", SEATS, cure='write seat = "rabbet" or "groove"'))
    in_legs = cast(SeatKind, table.choice("in_legs", SEATS, default=kind))
    run = cast(
        Literal["stopped", "through"], table.choice("run_in_legs", RUNS, default="stopped")
    )
    if run == "through" and kind != in_legs:
        raise table.error(
            "run_in_legs",
            "a seat run through the legs must be the same in rails and legs",
            'write run_in_legs = "stopped", or one kind of seat for both',
        )
    if (kind, in_legs) == ("groove", "rabbet"):
        raise table.error(
            "in_legs",
            "a panel in grooved rails can't be put in from behind",
            'a rabbet in the legs would serve for nothing: write in_legs = "groove"',
        )
    wrong = "groove_from_face" if kind == "rabbet" else "rabbet_depth"
    if table.has(wrong):
        raise table.error(wrong, f"{wrong} does not go with seat = \"{kind}\"", "leave it out")
    depth_key = "rabbet_depth" if kind == "rabbet" else "groove_from_face"
    thickness = table.length(
        "thickness", unit, cure="give the panel's thickness as measured, e.g. 0.22"
    )
    profile = read_profile(table, unit, thickness)
    solid = read_solid(table, unit)
    for key, given in (("edge", profile.kind != "plain"), ("solid", solid is not None)):
        if given and kind == "rabbet":
            raise table.error(key, f'{key} does not go with seat = "rabbet"',
                              'write seat = "groove", or leave it out')
    open_lip = solid is not None and not table.has("lip")
    return PanelChoice(
        name=name,
        openings=tuple(openings),
        seat=SeatChoice(
            kind=kind,
            panel_thickness=profile.tongue,
            lip=Fraction(0) if open_lip else table.length(
                "lip", unit, cure="say how far the panel goes into the frame"
            ),
            depth=table.optional_length(depth_key, unit),
            in_legs=in_legs,
            run=run,
        ),
        room=table.length(
            "room", unit, default=default_length("panel_room", unit), zero_ok=True
        ),
        grain=cast(Literal["up", "across"], table.choice("grain", GRAINS, default="up")),
        timber=table.text("timber", default="plywood" if solid is None else timber),
        where=table.where(),
        thickness=thickness,
        profile=profile,
        solid=solid,
        open_lip=open_lip,
    )
