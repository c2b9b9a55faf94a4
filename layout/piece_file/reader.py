"""From a piece file to the maker's choices; piece.schema.json in this package describes it.

Nothing is worked out here: every value is read, checked for its kind, and put where the builds
look for it. What the maker leaves out comes from layout/defaults.toml.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Literal, cast

from layout.builds.frame import SIDES, FrameChoice, LegChoice, RailChoice
from layout.builds.opening import Side
from layout.builds.panel import PanelChoice
from layout.defaults import Unit, default_length
from layout.errors import BadMeasure
from layout.joints.seat import SeatChoice, SeatKind
from layout.joints.tenon import TenonChoice
from layout.kit import GaugeKind, Kit, usual_kit
from layout.measure import Rule, default_rule, read_rule
from layout.piece import PieceChoice
from layout.piece_file.source import read_toml
from layout.piece_file.table import Table

UNITS = ("in", "mm")
GAUGES = ("mortise gauge", "marking gauge")
SEATS = ("rabbet", "groove")
RUNS = ("stopped", "through")
GRAINS = ("up", "across")


def read_piece(path: str | Path) -> PieceChoice:
    """The choices in a piece file. BadPiece with file, line and key where it can't be read."""
    return piece_from(read_toml(path))


def piece_from(table: Table) -> PieceChoice:
    """The choices in a piece file that is open already."""
    name = table.text("piece", cure='name the piece, e.g. piece = "Hall table"')
    unit = cast(
        Unit, table.choice("unit", UNITS, cure='say what bare numbers are in, e.g. unit = "in"')
    )
    timber = table.text("timber", default="")
    limits = table.table("limits", optional=True)
    web_least = limits.length("web", unit, default=default_length("web_least", unit), zero_ok=True)
    choice = PieceChoice(
        name=name,
        unit=unit,
        rule=_rule(table, unit),
        kit=_kit(table, unit),
        wall_least=limits.length(
            "wall", unit, default=default_length("wall_least", unit), zero_ok=True
        ),
        near_settings=limits.length(
            "near_settings", unit, default=default_length("near_settings", unit), zero_ok=True
        ),
        frame=_frame(table.table("frame", cure="describe the frame under [frame]"), unit, timber,
                     web_least),
        panels=tuple(_panel(one, unit, timber) for one in table.tables("panel")),
        dual=table.flag("both_units", default=False),
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


def _kit(table: Table, unit: Unit) -> Kit:
    kit = table.table("kit", optional=True)
    gauge = cast(GaugeKind, kit.choice("gauge", GAUGES, default="mortise gauge"))
    if not kit.has("chisels"):
        return usual_kit(unit, gauge)
    return Kit(tuple(kit.lengths("chisels", unit)), gauge)


def _frame(table: Table, unit: Unit, timber: str, web_least: Fraction) -> FrameChoice:
    leg = table.table("leg", cure="describe the legs under [frame.leg]")
    tenon = table.table("tenon", optional=True)
    common = _Tenon(tenon, unit, web_least)
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
    )


class _Tenon:
    """The frame's tenon table, and a rail's own on top of it: the rail's word counts."""

    def __init__(self, common: Table, unit: Unit, web_least: Fraction) -> None:
        self._common = common
        self._unit = unit
        self._web_least = web_least
        self._values = {key: self._read(common, key) for key in self._KEYS}

    _KEYS = (
        "length",
        "thickness",
        "outer_shoulder",
        "top_shoulder",
        "bottom_shoulder",
        "glue_room",
    )
    _MAY_BE_ZERO = ("outer_shoulder", "top_shoulder", "bottom_shoulder", "glue_room")

    def _read(self, table: Table, key: str) -> Fraction | None:
        return table.optional_length(key, self._unit, zero_ok=key in self._MAY_BE_ZERO)

    def for_rail(self, rail: Table) -> TenonChoice:
        """The rail's tenon choices."""
        own = rail.table("tenon", optional=True)
        value = {
            key: own_value if (own_value := self._read(own, key)) is not None else common
            for key, common in self._values.items()
        }
        if value["length"] is None:
            raise own.error(
                "length",
                "the tenon's length is missing",
                'give it for all rails under [frame.tenon], or here: tenon = { length = "1 1/4" }',
            )
        room = value["glue_room"]
        return TenonChoice(
            length=value["length"],
            glue_room=default_length("glue_room", self._unit) if room is None else room,
            shoulder=default_length("top_shoulder", self._unit),
            web_least=self._web_least,
            thickness=value["thickness"],
            outer_shoulder=value["outer_shoulder"],
            top_shoulder=value["top_shoulder"],
            bottom_shoulder=value["bottom_shoulder"],
        )


def _rail(table: Table, unit: Unit, timber: str, common: _Tenon) -> RailChoice:
    name = table.text("name", cure='name the rail, e.g. name = "top rail"')
    sides = table.texts("sides", cure='say where it goes, e.g. sides = ["front", "back"]')
    for side in sides:
        if side not in SIDES:
            raise table.error("sides", f"there is no side '{side}'", f"one of {', '.join(SIDES)}")
    below_top, above_floor = _height(table, unit)
    return RailChoice(
        name=name,
        sides=cast("tuple[Side, ...]", tuple(sides)),
        width=table.length("width", unit, cure="give the rail's width, seen from outside"),
        thickness=table.length("thickness", unit, cure="give the rail's thickness"),
        set_in=table.length("set_in", unit, default=Fraction(0), zero_ok=True),
        tenon=common.for_rail(table),
        below_top=below_top,
        above_floor=above_floor,
        timber=table.text("timber", default=timber),
        where=table.where(),
    )


def _height(table: Table, unit: Unit) -> tuple[Fraction | None, Fraction | None]:
    """Where a rail stands: flush with the leg's top, below it, or above the floor."""
    given = [key for key in ("top", "below_top", "above_floor") if table.has(key)]
    cure = 'write one of: top = "flush", below_top = "3/4", above_floor = 8'
    if not given:
        raise table.error(None, "where the rail stands is missing", cure)
    if len(given) > 1:
        raise table.error(given[1], f"the rail's height is given twice, by {given[0]} too", cure)
    if given == ["top"]:
        table.choice("top", ("flush",))
        return Fraction(0), None
    if given == ["below_top"]:
        return table.length("below_top", unit, zero_ok=True), None
    return None, table.length("above_floor", unit, zero_ok=True)


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
    if run == "through" and (kind, in_legs) != ("rabbet", "rabbet"):
        raise table.error(
            "run_in_legs",
            "only a rabbet can run through the legs",
            'a groove run through would show above the rail: write run_in_legs = "stopped"',
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
    return PanelChoice(
        name=name,
        openings=tuple(openings),
        seat=SeatChoice(
            kind=kind,
            panel_thickness=table.length(
                "thickness", unit, cure="give the panel's thickness as measured, e.g. 0.22"
            ),
            lip=table.length("lip", unit, cure="say how far the panel goes into the frame"),
            depth=table.optional_length(depth_key, unit),
            in_legs=in_legs,
            run=run,
        ),
        room=table.length(
            "room", unit, default=default_length("panel_room", unit), zero_ok=True
        ),
        grain=cast(Literal["up", "across"], table.choice("grain", GRAINS, default="up")),
        timber=table.text("timber", default=timber),
        where=table.where(),
    )
