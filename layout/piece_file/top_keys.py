"""The keys of [[top]]."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, cast

from layout.builds.top_choice import Hand, Overhang, RowChoice, TopChoice
from layout.defaults import Unit, default_count, default_length
from layout.joints.dogs import DogChoice, Vise, Zone
from layout.joints.end_cap import CapChoice
from layout.joints.fixing import ButtonChoice, FixingChoice, Held, Kind, ScrewChoice
from layout.joints.strips import Heart, Lay, Spare, StripChoice
from layout.piece_file.dovetail_keys import read_slope_of
from layout.piece_file.table import Table
from layout.piece_file.wood_keys import read_sawn

ZERO = Fraction(0)
SIDES = ("front", "back", "left", "right")
HANDS = ("left", "right")
LAYS = ("flat", "on edge")
HEARTS = ("up", "alternate")
KINDS = ("buttons", "screws")
HELD = ("front", "middle", "back")
HOLES = ("dogs", "holdfasts")
SHAPES = ("round", "square")
MOST_PEGS = 15
MOST_ROWS = 12
MOST_LINES = 12
MOST_KEEP_OUTS = 50
MOST_SPREAD = 2000
SQUARE_ONLY = ("front", "strip", "lean")
BUTTON_KEYS = ("button_length", "button_width", "button_block", "button_tongue",
               "button_tongue_length", "button_draw", "button_cover", "button_room")
SCREW_KEYS = ("screw_hole", "screw_head", "screw_under", "slot_room", "screw_from_face")


def read_top(table: Table, unit: Unit, timber: str, wall: Fraction) -> TopChoice:
    """One [[top]]. BadPiece with its place where it can't be read."""
    name = table.text("name", default="top")
    size = _size(table, unit)
    thickness = table.length("thickness", unit, cure="give the finished thickness, e.g. 7/8")
    vise, end = _vise(table, unit)
    rows = table.tables("row")
    if len(rows) > MOST_ROWS:
        raise rows[MOST_ROWS].error(None, f"{len(rows)} rows of holes", f"at most {MOST_ROWS}")
    return TopChoice(
        name=name,
        thickness=thickness,
        size=size,
        on=table.text("on") if table.has("on") else None,
        overhang=_overhang(table, unit) if size is None else Overhang(ZERO, ZERO, ZERO, ZERO),
        timber=table.text("timber", default=timber),
        sawn=read_sawn(table),
        strips=_strips(table, unit),
        caps=_caps(table, unit),
        fixing=_fixing(table, unit),
        vise=end,
        below=table.length("dogs_below", unit, default=default_length("dog_below", unit),
                           zero_ok=True),
        rows=tuple(
            _row(row, unit, wall, vise, f"holes-{number}") for number, row in enumerate(rows, 1)
        ),
        where=table.where(),
    )


def _size(table: Table, unit: Unit) -> tuple[Fraction, Fraction] | None:
    """A top by itself has a size of its own; one on a frame takes it from there."""
    given = [key for key in ("length", "width") if table.has(key)]
    if not given:
        return None
    for key in ("on", "overhang", *(f"overhang_{side}" for side in SIDES), "fixing"):
        if table.has(key):
            raise table.error(key, f"{key} does not go with a size of the top's own",
                              "leave length and width out: they come from what it lies on")
    return (table.length("length", unit, cure="give its length too"),
            table.length("width", unit, cure="give its width too"))


def _overhang(table: Table, unit: Unit) -> Overhang:
    usual = table.length("overhang", unit, default=default_length("top_overhang", unit),
                         zero_ok=True)
    return Overhang(*(
        table.length(f"overhang_{side}", unit, default=usual, zero_ok=True) for side in SIDES
    ))


def _vise(table: Table, unit: Unit) -> tuple[Vise | None, Hand]:
    """The vise that serves the dog holes, and at which end of the top it is."""
    if not table.has("vise"):
        return None, "left"
    vise = table.table("vise")
    opening = vise.length("opening", unit, cure="say how wide it opens, e.g. opening = 8")
    hand = vise.length("hand", unit, default=default_length("dog_hand", unit), zero_ok=True)
    if hand >= opening:
        raise vise.error("hand" if vise.has("hand") else "opening",
                         "the hand's margin is no less than the vise opens", "make it less")
    end = cast(Hand, vise.choice("end", HANDS, default="left"))
    return Vise(opening, vise.length("closed", unit, default=ZERO, zero_ok=True), hand), end


def _strips(table: Table, unit: Unit) -> StripChoice | None:
    strips = table.table_or_off("strips")
    if not isinstance(strips, Table):
        return None
    for key in ("stock_thickness", "stock_width", "stock_length"):
        strips.has(key)  # known, so that none is taken for another one misspelt

    def usual(key: str, name: str) -> Fraction:
        return strips.length(key, unit, default=default_length(name, unit), zero_ok=True)

    return StripChoice(
        lay=cast(Lay, strips.choice("lay", LAYS, default="flat")),
        thickness=strips.length("stock_thickness", unit,
                                cure="give the rough boards' thickness, e.g. 2"),
        width=strips.length("stock_width", unit, cure="give the rough boards' width, e.g. 6"),
        length=strips.optional_length("stock_length", unit),
        planer=strips.optional_length("planer", unit),
        heart=cast(Heart, strips.choice("heart", HEARTS, default="alternate")),
        spare=Spare(usual("milling", "top_milling"), usual("jointing", "top_jointing"),
                    usual("spare_thickness", "top_spare_thickness"),
                    usual("spare_length", "top_spare_length")),
        stagger=usual("stagger", "top_stagger"),
        caul=usual("caul", "top_caul"),
        reach=strips.length("clamps_apart", unit,
                            default=default_length("top_clamps_apart", unit)),
        spread=Fraction(strips.count("glue_spread", 1, MOST_SPREAD,
                                     default=default_count("glue_spread"))),
        where=strips.where(),
    )


def _caps(table: Table, unit: Unit) -> CapChoice | None:
    caps = table.table_or_off("end_caps")
    if not isinstance(caps, Table):
        return None
    return CapChoice(
        width=caps.length("width", unit, default=default_length("top_cap_width", unit)),
        tongue=caps.optional_length("tongue", unit),
        length=caps.length("tongue_length", unit, default=default_length("top_cap_tongue", unit)),
        room=caps.length("room", unit, default=default_length("top_cap_room", unit), zero_ok=True),
        pegs=caps.count("pegs", 2, MOST_PEGS, default=3),
        peg=caps.length("peg", unit, default=default_length("top_cap_peg", unit)),
        peg_in=caps.length("peg_in", unit, default=default_length("top_cap_peg_in", unit)),
        slot_room=caps.length("slot_room", unit, default=default_length("top_slot_room", unit),
                              zero_ok=True),
        timber=caps.text("timber", default=""),
        where=caps.where(),
    )


def _fixing(table: Table, unit: Unit) -> FixingChoice | None:
    fixing = table.table_or_off("fixing")
    if not isinstance(fixing, Table):
        return None
    kind = cast(Kind, fixing.choice("kind", KINDS, default="buttons"))
    wrong = SCREW_KEYS if kind == "buttons" else (*BUTTON_KEYS, "timber")
    for key in wrong:
        if fixing.has(key):
            raise fixing.error(key, f'{key} does not go with kind = "{kind}"', "leave it out")

    def usual(key: str, name: str = "", zero_ok: bool = False) -> Fraction:
        return fixing.length(key, unit, default=default_length(name or key, unit), zero_ok=zero_ok)

    return FixingChoice(
        kind=kind,
        held=cast(Held, fixing.choice("held", HELD, default="middle")),
        apart=usual("apart", "top_fixings_apart"),
        clear=usual("clear", "top_fixings_clear", zero_ok=True),
        button=ButtonChoice(
            *(usual(key, zero_ok=key in ("button_draw", "button_cover", "button_room"))
              for key in BUTTON_KEYS)
        ),
        screw=ScrewChoice(usual("screw_hole"), usual("screw_head"), usual("screw_under"),
                          usual("slot_room", "top_slot_room", zero_ok=True),
                          fixing.optional_length("screw_from_face", unit)),
        timber=fixing.text("timber", default="") if kind == "buttons" else "",
        where=fixing.where(),
    )


def _row(
    table: Table, unit: Unit, wall: Fraction, vise: Vise | None, name: str
) -> RowChoice:
    """One [[top.row]]."""
    dog = table.choice("holes", HOLES, default="dogs") == "dogs"
    if dog and vise is None:
        raise table.error("holes" if table.has("holes") else None,
                          "dog holes must be spaced for a vise, and there is none",
                          "say how wide a vise opens, or make them holdfast holes")
    shape = cast(Literal["round", "square"], table.choice("shape", SHAPES, default="round"))
    if shape == "square" and not dog:
        raise table.error("shape", "holdfast holes are round", "leave shape out")
    for key in ("lines", "off_glue") if shape == "square" else SQUARE_ONLY:
        if table.has(key):
            raise table.error(key, f'{key} does not go with shape = "{shape}"', "leave it out")
    usual = default_length("dog_pitch" if dog else "holdfast_pitch", unit)
    pitch = table.optional_length("pitch", unit)
    first = table.optional_length("first", unit)
    if first is None:
        first = pitch if pitch is not None else usual if vise is None or not dog else min(
            usual, vise.most)
    size_name = "dog_size" if dog else "holdfast_size"
    lines: list[Fraction] = []
    if shape == "round":
        lines = table.lengths("lines", unit, cure="say how far from the front edge each row lies, "
                              "e.g. lines = [3]")
    if len(lines) > MOST_LINES:
        raise table.error("lines", f"{len(lines)} lines of holes", f"at most {MOST_LINES} to a row")
    if len(set(lines)) != len(lines):
        raise table.error("lines", "a row is given twice", "give each row once")
    step = table.length("step", unit, default=default_length("dog_step", unit))
    if step < default_length("dog_step", unit) / 8:
        raise table.error("step", "the grid is finer than anyone can bore", "give a coarser one")
    dogs = DogChoice(
        shape=shape,
        size=table.length("size", unit, default=default_length(size_name, unit)),
        vise=vise if dog else None,
        first=first,
        usual_pitch=usual,
        pitch=pitch,
        end=table.length("end", unit, default=default_length("dog_end", unit), zero_ok=True),
        clear=table.length("clear", unit, default=default_length("dog_clear", unit), zero_ok=True),
        wall=wall,
        step=step,
        lines=tuple(lines),
        lean=read_slope_of(table, "lean") if table.has("lean") else None,
        zones=_keep_outs(table, unit),
        where=table.where(),
        name=name,
        called="dog hole" if dog else "holdfast hole",
    )
    if shape == "round":
        return RowChoice(dogs, table.optional_length("off_glue", unit, zero_ok=True))
    return RowChoice(
        dogs,
        None,
        table.length("front", unit, cure="give the width of the strip that closes the holes in "
                     "front"),
        table.length("strip", unit, cure="give the width of the strip that the holes are cut in"),
    )


def _keep_outs(table: Table, unit: Unit) -> tuple[Zone, ...]:
    found = []
    tables = table.tables("keep_out")
    if len(tables) > MOST_KEEP_OUTS:
        raise table.error("keep_out", f"{len(tables)} things to miss", f"at most {MOST_KEEP_OUTS}")
    for one in tables:
        low = one.length("from", unit, zero_ok=True,
                         cure="say where it begins, from the vise's end")
        high = one.length("to", unit, cure="say where it ends, from the vise's end")
        if high <= low:
            raise one.error("to", "it ends before it begins",
                            "write the place nearer to the vise as from")
        found.append(Zone(one.text("name", cure="say what it is"), low, high))
    return tuple(found)
