"""The keys of a tenon: the frame's [frame.tenon], and a rail's own `tenon` on top of it.

A rail's word counts. What the frame has and a rail must not have is turned off with `false`:
tenon = { haunch = false }.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any, Literal, TypeVar, cast

from layout.defaults import Unit, default_length, default_ratio
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
from layout.piece_file.table import Table

EDGES: dict[str, RailEdge] = {"top": "edge", "bottom": "far edge"}
MEETINGS = ("clear", "mitred", "passing")
Found = TypeVar("Found")
_SLOPE = re.compile(r"1\s*(?:in|:)\s*(.+)")


class TenonKeys:
    """The frame's tenon table, and a rail's own on top of it."""

    def __init__(
        self, common: Table, unit: Unit, web_least: Fraction, wall_least: Fraction
    ) -> None:
        self._unit = unit
        self._usual = TenonChoice(
            glue_room=default_length("glue_room", unit),
            shoulder=default_length("top_shoulder", unit),
            web_least=web_least,
            wall_least=wall_least,
            mitre_gap=default_length("mitre_gap", unit),
        )
        self._common = self._read(common, {})

    def for_rail(self, rail: Table) -> TenonChoice:
        """The rail's tenon choices."""
        own = rail.table("tenon", optional=True)
        values = self._read(own, self._common)
        _go_together(own, values)
        return self._usual._replace(**values)

    def _read(self, table: Table, common: dict[str, Any]) -> dict[str, Any]:
        """What a table says, on top of what is common; by the fields of a TenonChoice."""
        unit = self._unit
        found = dict(common)
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

    def _usually(self, name: str) -> Fraction:
        return default_length(name, self._unit)

    def _size(self, table: Table, key: str, default: str) -> Fraction:
        return table.length(key, self._unit, default=self._usually(default))

    def _haunch(self, table: Table) -> HaunchChoice:
        kind = table.choice("kind", ("square", "sloped", "groove"))
        return HaunchChoice(
            cast(Literal["square", "sloped", "groove"], kind),
            EDGES[table.choice("edge", tuple(EDGES), default="top")],
            table.length(
                "room", self._unit, default=self._usually("haunch_room"), zero_ok=True
            ),
            self._usually("haunch_length"),
            table.optional_length("width", self._unit),
            table.optional_length("length", self._unit),
        )

    def _pair(self, table: Table) -> PairChoice:
        return PairChoice(
            table.optional_length("web", self._unit),
            table.length("haunch", self._unit, default=Fraction(0), zero_ok=True),
            table.length(
                "room", self._unit, default=self._usually("haunch_room"), zero_ok=True
            ),
        )

    def _twin(self, table: Table) -> TwinChoice:
        return TwinChoice(table.optional_length("gap", self._unit))

    def _wedges(self, table: Table) -> WedgeChoice:
        return WedgeChoice(
            cast(Literal[1, 2], table.count("count", 1, 2, default=2)),
            self._size(table, "thickness", "wedge_thickness"),
            self._size(table, "saw_cut", "kerf"),
            self._size(table, "from_edge", "wedge_from_edge"),
            table.optional_length("length", self._unit),
        )

    def _side_wedge(self, table: Table) -> SideWedgeChoice:
        outer = table.length(
            "outer", self._unit, cure="give the wedge's thickness at the leg's outer face"
        )
        return SideWedgeChoice(
            EDGES[table.choice("edge", tuple(EDGES), default="top")],
            outer,
            table.length(
                "inner", self._unit, cure="give its thickness at the face the rail comes to"
            ),
            table.length("splay", self._unit, default=Fraction(0), zero_ok=True),
        )

    def _key(self, table: Table) -> KeyChoice:
        return KeyChoice(
            cast(
                Literal["thickness", "width"],
                table.choice("through", ("thickness", "width"), default="thickness"),
            ),
            self._size(table, "wide", "key_wide"),
            _slope(table, "taper", default_ratio("key_taper")),
            table.length("pull", self._unit, default=self._usually("key_pull"), zero_ok=True),
            self._size(table, "beyond", "key_beyond"),
            self._size(table, "proud", "key_proud"),
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


def _slope(table: Table, key: str, default: Fraction) -> Fraction:
    """A slope written as `1 in 7` or `1:7`, as a ratio."""
    if not table.has(key):
        return default
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


def _go_together(own: Table, values: dict[str, Any]) -> None:
    """BadPiece, at the rail's tenon, where two choices contradict each other."""
    through = values.get("through", False)
    for key, word in (("wedges", "wedges"), ("side_wedge", "a wedge"), ("key", "a key")):
        if values.get(key) is not None and not through:
            raise own.error(
                key if own.has(key) else None,
                f"{word} must come out of a through tenon",
                "write through = true beside it",
            )
    if through and values.get("length") is not None and own.has("length"):
        raise own.error(
            "length",
            "a through tenon is as long as the leg and its projection",
            "leave length out; give projection if it is to stand proud",
        )
    if values.get("wedges") is not None and values.get("side_wedge") is not None:
        raise own.error(None, "two kinds of wedges are given", "keep wedges or side_wedge")
    if values.get("side_wedge") is not None and values.get("pair") is not None:
        raise own.error(None, "a wedge beside the tenon needs one tenon", "leave pair out")
    if values.get("key") is not None and values.get("wedges") is not None:
        raise own.error(None, "the tenon is both wedged and keyed", "keep one of the two")
    shoulders = [
        key
        for key in ("outer_shoulder", "inner_shoulder", "barefaced")
        if values.get(key) is not None
    ]
    if len(shoulders) > 1:
        raise own.error(
            shoulders[1] if own.has(shoulders[1]) else None,
            f"the tenon's place is given twice, by {shoulders[0]} and {shoulders[1]}",
            "keep one of them",
        )
    haunch = values.get("haunch")
    if haunch is not None and haunch.kind == "groove" and haunch.length is not None:
        raise own.error(
            None, "a haunch that fills a groove is as long as the groove is deep",
            "leave the haunch's length out",
        )
    if through and values.get("meeting") == "mitred":
        raise own.error(None, "a through tenon can't be mitred", 'leave out meeting = "mitred"')
