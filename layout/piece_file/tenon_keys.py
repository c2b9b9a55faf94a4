"""The keys of a tenon: the frame's [frame.tenon], and a rail's own `tenon` on top of it.

A rail's word counts. What the frame has and a rail must not have is turned off with `false`:
tenon = { haunch = false }.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any, Literal, cast

from layout.defaults import Unit
from layout.errors import BadMeasure
from layout.joints.choices import (
    HaunchChoice,
    KeyChoice,
    MeetingKind,
    MouldChoice,
    PairChoice,
    PegChoice,
    RailEdge,
    SideWedgeChoice,
    TenonChoice,
    TwinChoice,
    WedgeChoice,
)
from layout.measure import read_length
from layout.piece_file import tenon_usual as usual
from layout.piece_file.table import Table

EDGES: dict[str, RailEdge] = {"top": "edge", "bottom": "far edge"}
MEETINGS = ("clear", "mitred", "passing")
_SLOPE = re.compile(r"1\s*(?:in|:)\s*(.+)")


class TenonKeys:
    """The frame's tenon table, and a rail's own on top of it."""

    def __init__(
        self, common: Table, unit: Unit, web_least: Fraction, wall_least: Fraction
    ) -> None:
        self._unit = unit
        self._usual = usual.tenon(unit, web_least, wall_least)
        self._table = common
        self._common = self._read(common)
        if self._common.get("through") and "length" in self._common:
            both = self._usual._replace(through=True, length=self._common["length"])
            self._refuse_clash(both, common)

    def for_rail(self, rail: Table) -> TenonChoice:
        """The rail's tenon choices. BadPiece where two of them contradict each other."""
        table = rail.table("tenon", optional=True)
        own = self._read(table)
        choice = self._usual._replace(**(_left_standing(self._common, own) | own))
        self._refuse_clash(choice, table)
        return choice

    def _refuse_clash(self, choice: TenonChoice, table: Table) -> None:
        found = usual.clash(choice, lambda key: "through = true" if key == "through" else key)
        if found is None:
            return
        at = table if table.has(found.key) else self._table
        raise at.error(found.key if at.has(found.key) else None, found.what, found.cure)

    def _read(self, table: Table) -> dict[str, Any]:
        """What a table says, by the fields of a TenonChoice; what it turns off is None."""
        unit = self._unit
        found: dict[str, Any] = {}
        for key in ("length", "thickness"):
            if table.has(key):
                found[key] = table.length(key, unit)
        for key in (
            "outer_shoulder",
            "inner_shoulder",
            "top_shoulder",
            "bottom_shoulder",
            "glue_room",
            "projection",
            "mitre_gap",
        ):
            if table.has(key):
                found[key] = table.length(key, unit, zero_ok=True)
        if table.has("barefaced"):
            found["barefaced"] = table.choice("barefaced", ("face", "back"))
        for key in ("stub", "through", "notched"):
            if table.has(key):
                found[key] = table.flag(key)
        if table.has("meeting"):
            found["meeting"] = cast(MeetingKind, table.choice("meeting", MEETINGS))
        readers: dict[str, Callable[[Table], object]] = {
            "haunch": self._haunch,
            "pair": self._pair,
            "twin": self._twin,
            "wedges": self._wedges,
            "side_wedge": self._side_wedge,
            "key": self._key,
            "pegs": self._pegs,
            "mould": self._mould,
        }
        for key, read in readers.items():
            one = table.table_or_off(key)
            if one is False:
                found[key] = None
            elif one is not None:
                found[key] = read(one)
        return found

    def _haunch(self, table: Table) -> HaunchChoice:
        kind = table.choice("kind", ("square", "sloped", "groove"))
        return usual.haunch(
            self._unit,
            cast(Literal["square", "sloped", "groove"], kind),
            _edge(table),
            table.optional_length("width", self._unit),
            table.optional_length("length", self._unit),
            table.optional_length("room", self._unit, zero_ok=True),
        )

    def _pair(self, table: Table) -> PairChoice:
        return usual.pair(
            self._unit,
            table.optional_length("web", self._unit),
            table.length("haunch", self._unit, default=Fraction(0), zero_ok=True),
            table.optional_length("room", self._unit, zero_ok=True),
        )

    def _twin(self, table: Table) -> TwinChoice:
        return TwinChoice(table.optional_length("gap", self._unit))

    def _wedges(self, table: Table) -> WedgeChoice:
        return usual.wedges(
            self._unit,
            cast(Literal[1, 2], table.count("count", 1, 2, default=2)),
            table.optional_length("thickness", self._unit),
            table.optional_length("saw_cut", self._unit),
            table.optional_length("from_edge", self._unit),
            table.optional_length("length", self._unit),
        )

    def _side_wedge(self, table: Table) -> SideWedgeChoice:
        outer = table.length(
            "outer", self._unit, cure="give the wedge's thickness at the leg's outer face"
        )
        inner = table.length(
            "inner", self._unit, cure="give its thickness at the face the rail comes to"
        )
        if inner > outer:
            raise table.error(
                "inner", "the wedge is thicker inside than outside: it can't be driven in",
                "write inner no more than outer",
            )
        return SideWedgeChoice(
            _edge(table),
            outer,
            inner,
            table.length("splay", self._unit, default=Fraction(0), zero_ok=True),
        )

    def _key(self, table: Table) -> KeyChoice:
        ways = ("thickness", "width")
        return usual.key(
            self._unit,
            cast(
                Literal["thickness", "width"], table.choice("through", ways, default="thickness")
            ),
            table.optional_length("wide", self._unit),
            _slope(table, "taper"),
            table.optional_length("pull", self._unit, zero_ok=True),
            table.optional_length("beyond", self._unit),
            table.optional_length("proud", self._unit),
            table.optional_length("width", self._unit),
        )

    def _pegs(self, table: Table) -> PegChoice:
        return PegChoice(
            table.count("count", 1, 20) if table.has("count") else None,
            table.optional_length("diameter", self._unit),
            table.optional_length("from_shoulder", self._unit),
            table.optional_length("draw", self._unit, zero_ok=True),
            table.optional_length("past", self._unit, zero_ok=True),
        )

    def _mould(self, table: Table) -> MouldChoice:
        edges = table.texts("edges", cure='say which edges carry it, e.g. edges = ["bottom"]')
        for edge in edges:
            if edge not in EDGES:
                raise table.error("edges", f"there is no edge '{edge}'", "write top or bottom")
        return MouldChoice(
            table.length("width", self._unit, cure="give its width on the face"),
            table.length("depth", self._unit, cure="give its depth from the face"),
            tuple(EDGES[edge] for edge in edges),
        )


def _edge(table: Table) -> RailEdge:
    return EDGES[table.choice("edge", tuple(EDGES), default="top")]


def _slope(table: Table, key: str) -> Fraction | None:
    """A slope written as `1 in 7` or `1:7`, as a ratio; None where it is left out."""
    if not table.has(key):
        return None
    words = table.text(key)
    found = _SLOPE.fullmatch(words)
    cure = 'write how far it runs for one of taper, e.g. "1 in 7"'
    if found is None:
        raise table.error(key, f"'{words}' is no slope", cure)
    try:
        run = read_length(found.group(1), "mm")
    except BadMeasure as error:
        raise table.error(key, error.what, cure) from None
    if run < 1:
        raise table.error(key, f"'{words}' is too steep for a key", cure)
    return 1 / run


def _left_standing(common: dict[str, Any], own: dict[str, Any]) -> dict[str, Any]:
    """What of the frame's tenon still counts beside a rail's own words.

    A rail that says where its tenon sits, how long it is or what it is driven with takes back
    what the frame says of the same thing in other words.
    """
    gone: set[str] = set()
    for group in (usual.SHOULDERS, usual.DRIVEN):
        if any(own.get(key) is not None for key in group):
            gone |= set(group)
    if own.get("through"):
        gone |= {"length", "stub"}
        if common.get("meeting") == "mitred":
            gone.add("meeting")  # it goes past the others, not to them
    if own.get("through") is False:
        gone |= set(usual.DRIVEN)
    if not own.get("through", common.get("through")):
        gone.add("projection")
    if own.get("meeting", common.get("meeting")) != "passing":
        gone.add("notched")
    if own.get("haunch") is not None:
        gone.add(usual.shoulder_beside(own["haunch"]))
    return {key: value for key, value in common.items() if key not in gone}
