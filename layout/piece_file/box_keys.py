"""The keys of [[drawer]] and [[chest]]."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, cast

from layout.builds.box_choices import (
    BottomChoice,
    ChestBottom,
    ChestChoice,
    DivideChoice,
    DrawerChoice,
    Front,
    LidChoice,
    RunChoice,
    SlipChoice,
    SlotChoice,
    Space,
)
from layout.builds.choices import RailChoice
from layout.defaults import Unit, default_length
from layout.piece_file import box_usual as usual
from layout.piece_file.case_keys import read_shelf
from layout.piece_file.dovetail_keys import read_dovetails, read_lap, read_share
from layout.piece_file.table import Table
from layout.piece_file.tenon_keys import TenonKeys

ZERO = Fraction(0)
STYLES = ("flush", "set in", "lipped")
BOTTOMS = ("plywood", "solid")
RUNS = ("through", "stopped")
TAILS_ON = ("front and back", "ends")
CHEST_BOTTOMS = ("groove", "rabbet", "rabbeted", "planted")
LIDS = ("flat", "rabbeted")
MOST_BOARDS = 12
MOST_SLOTS = 20
MOST_DRAWERS = 20


def read_drawer(
    table: Table, unit: Unit, timber: str, tenons: TenonKeys | None = None
) -> DrawerChoice:
    """One [[drawer]]. BadPiece with its place where it can't be read.

    `tenons` are the frame's, for the rails that divide an opening; None without a frame.
    """
    name = table.text("name", default="drawer")
    openings, space = read_place(table, unit)
    wood = table.text("timber", default=timber)
    front = table.length("front", unit, default=default_length("drawer_front", unit))
    sides = table.length("sides", unit, default=default_length("drawer_sides", unit))
    style = cast(Front, table.choice("style", STYLES, default="flush"))
    for key, goes in (("set_in", "set in"), ("lip", "lipped"), ("lip_thickness", "lipped")):
        if table.has(key) and style != goes:
            raise table.error(
                key, f'{key} does not go with style = "{style}"',
                f'write style = "{goes}", or leave it out',
            )
    set_in = ZERO
    if style == "set in":
        set_in = table.length("set_in", unit, cure="say how far behind the rail, e.g. 1/8")
    thin = table.length(
        "lip_thickness", unit, default=default_length("drawer_lip_thickness", unit)
    )
    if style == "lipped" and thin >= front:
        raise table.error("lip_thickness", "the lip is no thinner than the front",
                          "make it less, or the front thicker")
    corners = table.table("dovetails", optional=True)
    common = read_dovetails(corners, unit, usual.dovetail(unit))
    if corners.has("lap"):
        raise corners.error("lap", "front and back of a drawer have each their own lap",
                            "write it under front_dovetails, or back_dovetails")
    at_front = table.table("front_dovetails", optional=True)
    at_back = table.table("back_dovetails", optional=True)
    fronts, backs = (
        # what is wrong with tails that only `dovetails` speaks of is told where that stands
        common if table.has("dovetails") and not table.has(key)
        else read_dovetails(one, unit, common)
        for key, one in (("front_dovetails", at_front), ("back_dovetails", at_back))
    )
    back = table.length("back", unit, default=sides)
    side_timber = table.text("side_timber", default=wood)
    room = default_length("drawer_room", unit)
    return DrawerChoice(
        name=name,
        openings=openings,
        space=space,
        front=front,
        sides=sides,
        back=back,
        style=style,
        set_in=set_in,
        lip=table.length("lip", unit, default=default_length("drawer_lip", unit)),
        lip_thickness=thin,
        room_wide=table.length("room_wide", unit, default=room, zero_ok=True),
        room_high=table.length("room_high", unit, default=room, zero_ok=True),
        room_behind=table.length(
            "room_behind", unit, default=default_length("drawer_room_behind", unit), zero_ok=True
        ),
        length=table.optional_length("length", unit),
        height=table.optional_length("height", unit),
        drop=table.length("drop", unit, default=default_length("drawer_drop", unit), zero_ok=True),
        front_joint=fronts._replace(
            lap=read_lap(at_front, unit, thin if style == "lipped" else usual.lap(front))
        ),
        back_joint=backs._replace(lap=read_lap(at_back, unit, None)),
        bottom=_bottom(table.table("bottom", optional=True), unit, side_timber),
        runs=_runs(table, unit),
        divide=_divide(table, unit, wood, tenons),
        timber=wood,
        side_timber=side_timber,
        where=table.where(),
    )


def read_place(
    table: Table, unit: Unit, deep: bool = True
) -> tuple[tuple[str, ...], Space | None]:
    """What drawers or doors are fitted to: openings of the piece, or a space of its own. A door's
    space need not be `deep`.
    """
    if table.has("openings") and table.has("space"):
        raise table.error("space", "openings and a space are given", "keep one of the two")
    if table.has("space"):
        space = table.table("space")
        _known(space, *(("width", "height", "depth") if deep else ("width", "height")))
        return (), Space(
            space.length("width", unit, cure="give the clear width of the opening"),
            space.length("height", unit, cure="give its clear height"),
            space.length("depth", unit, cure="give the clear depth behind its front")
            if deep else ZERO,
        )
    own = "{ width = 18, height = 4, depth = 16 }" if deep else "{ width = 18, height = 24 }"
    cure = (
        'say what it fills, e.g. openings = ["front under top rail"], or give its own '
        f"space = {own}"
    )
    return tuple(table.texts("openings", cure=cure)), None


def _known(table: Table, *keys: str) -> None:
    """Make keys known before one of them is found missing: a depth that is there is no misspelt
    width.
    """
    for key in keys:
        table.has(key)


def _divide(
    table: Table, unit: Unit, timber: str, tenons: TenonKeys | None
) -> DivideChoice | None:
    """How the opening named is divided into drawers; None where it is not."""
    divide = table.table_or_off("divide")
    if not divide:
        return None
    if table.has("space"):
        raise table.error("divide", "only an opening of a frame or carcase can be divided",
                          "name the opening, and leave out the space")
    if divide.has("rail") == divide.has("shelf"):
        raise divide.error(
            "shelf" if divide.has("shelf") else None, "what stands between the drawers is "
            + ("said twice" if divide.has("rail") else "missing"),
            'write rail = { width = "7/8", thickness = 2 } in a frame, or shelf = { thickness = '
            '"1/2", housing = {} } in a carcase',
        )
    if divide.has("rail") and tenons is None:
        raise divide.error("rail", "only a frame has rails", "write shelf instead")
    if divide.has("shelf") and divide.has("back_rails"):
        raise divide.error("back_rails", "shelves have no back rails", "leave it out")
    given = [key for key in ("heights", "step", "ratio") if divide.has(key)]
    if len(given) > 1:
        raise divide.error(given[1], f"the heights are said twice, by {given[0]} too",
                           "keep one of heights, step and ratio")
    heights = _heights(divide, unit)
    if heights and divide.has("into"):
        raise divide.error("into", "the heights say already how many drawers there are",
                           "leave into out")
    into = len(heights) or divide.count("into", 2, MOST_DRAWERS,
                                        cure="say into how many drawers, e.g. into = 4")
    rail = shelf = None
    if divide.has("rail") and tenons is not None:
        rail = _rail(divide.table("rail"), unit, timber, tenons)
    else:
        shelf = read_shelf(divide.table("shelf"), unit, timber)
    return DivideChoice(
        into=into,
        rail=rail,
        shelf=shelf,
        heights=heights,
        step=divide.length("step", unit, default=ZERO, zero_ok=True),
        ratio=_ratio(divide),
        back_rails=divide.flag("back_rails", default=False),
    )


def _rail(table: Table, unit: Unit, timber: str, tenons: TenonKeys) -> RailChoice:
    """What stands between two drawers of a frame."""
    return RailChoice(
        name=table.text("name", default="drawer rail"),
        sides=(),
        width=table.length("width", unit, cure="give the rail's width, seen from outside"),
        thickness=table.length("thickness", unit, cure="give the rail's thickness"),
        set_in=table.length("set_in", unit, default=ZERO, zero_ok=True),
        tenon=tenons.for_rail(table),
        timber=table.text("timber", default=timber),
        where=table.where(),
    )


def _heights(divide: Table, unit: Unit) -> tuple[Fraction | None, ...]:
    """The heights of the openings from the top down; None for `rest`."""
    if not divide.has("heights"):
        return ()
    words = divide.lengths_or("heights", unit, "rest")
    if len(words) < 2 or len(words) > MOST_DRAWERS:
        raise divide.error("heights", f"{len(words)} heights divide nothing",
                           f"give 2 to {MOST_DRAWERS}")
    if words.count(None) > 1:
        raise divide.error("heights", '"rest" is there twice', "keep one of them")
    return words


def _ratio(divide: Table) -> Fraction:
    """How many times as high each opening is as the one above it."""
    if not divide.has("ratio"):
        return Fraction(1)
    written = divide.text("ratio", cure='write a ratio, e.g. ratio = "8/7"')
    ratio = read_share(written)
    if ratio is None or not 1 <= ratio <= 2:
        raise divide.error("ratio", f"'{written}' is no ratio that drawers can grow by",
                           'write a fraction from 1 to 2, e.g. ratio = "8/7"')
    return ratio


def _bottom(table: Table, unit: Unit, timber: str) -> BottomChoice:
    kind = table.choice("kind", BOTTOMS, default="plywood")
    plain = usual.bottom(unit, kind)
    slips = table.table_or_off("slips")
    slots = table.table_or_off("slots")
    if slots not in (None, False) and kind == "plywood":
        raise table.error("slots", "a plywood bottom needs no slots: it does not move",
                          'write kind = "solid", or leave them out')
    thickness = table.length("thickness", unit, default=plain.thickness)
    tongue = table.optional_length("tongue", unit)
    if tongue is not None and tongue >= thickness:
        raise table.error("tongue", "the tongue is no thinner than the bottom",
                          "make it less than the thickness, or leave it out")
    return plain._replace(
        thickness=thickness,
        up=table.length("up", unit, default=plain.up),
        deep=table.optional_length("deep", unit),
        tongue=tongue,
        room=table.length("room", unit, default=plain.room, zero_ok=True),
        clear=table.length("clear", unit, default=plain.clear, zero_ok=True),
        run=cast(Literal["through", "stopped"], table.choice("run", RUNS, default="through")),
        slips=_slips(slips, unit) if slips else None,
        slots=plain.slots if slots is None else _slots(slots, unit) if slots else None,
        timber=table.text("timber", default=timber if kind == "solid" else kind),
    )


def _slips(table: Table, unit: Unit) -> SlipChoice:
    plain = usual.slips(unit)
    return SlipChoice(
        table.length("thickness", unit, default=plain.thickness),
        table.length("above", unit, default=plain.above, zero_ok=True),
    )


def _slots(table: Table, unit: Unit) -> SlotChoice:
    plain = usual.slots(unit)
    many = table.count("count", 1, MOST_SLOTS) if table.has("count") else None
    return SlotChoice(
        many,
        table.length("width", unit, default=plain.wide),
        table.length("play", unit, default=plain.play, zero_ok=True),
        plain.every,
    )


def _runs(table: Table, unit: Unit) -> RunChoice | None:
    runners = table.table_or_off("runners")
    if not runners:
        return None
    guides = runners.table_or_off("guides")
    high = wide = None
    if guides:
        high = guides.length("height", unit, cure="say how high the guides are, e.g. 1")
        wide = guides.optional_length("width", unit)
    return RunChoice(
        runners.length("width", unit, default=default_length("runner_width", unit)),
        runners.optional_length("thickness", unit),
        runners.flag("kickers", default=False),
        high,
        wide,
    )


def read_chest(table: Table, unit: Unit, timber: str) -> ChestChoice:
    """One [[chest]]. BadPiece with its place where it can't be read."""
    wood = table.text("timber", default=timber)
    _known(table, "length", "depth", "height", "thickness", "end_thickness")
    thickness = table.length("thickness", unit, cure="give the thickness of its boards")
    dovetails = table.table("dovetails", optional=True)
    return ChestChoice(
        name=table.text("name", default="chest"),
        length=table.length("length", unit, cure="give the overall length, e.g. length = 40"),
        depth=table.length("depth", unit, cure="give the overall depth, e.g. depth = 18"),
        height=table.length("height", unit, cure="give the height of its boards, e.g. height = 16"),
        front=thickness,
        ends=table.length("end_thickness", unit, default=thickness),
        tails=cast(
            Literal["front and back", "ends"],
            table.choice("tails_on", TAILS_ON, default="front and back"),
        ),
        joint=read_dovetails(dovetails, unit, usual.dovetail(unit))._replace(
            lap=read_lap(dovetails, unit, None)
        ),
        front_boards=_boards(table, "front_boards", unit),
        end_boards=_boards(table, "end_boards", unit),
        bottom=_chest_bottom(table, unit, wood),
        lid=_lid(table, unit, wood),
        timber=wood,
        where=table.where(),
    )


def _boards(table: Table, key: str, unit: Unit) -> tuple[Fraction, ...] | int:
    """How many boards a side is glued up of, or their widths from the lower edge up."""
    if table.is_list(key):
        return tuple(table.lengths(key, unit))
    return table.count(key, 1, MOST_BOARDS, default=1)


def _chest_bottom(table: Table, unit: Unit, timber: str) -> ChestBottom | None:
    bottom = table.table_or_off("bottom")
    if not bottom:
        return None
    kind = bottom.choice("kind", CHEST_BOTTOMS)
    for key, goes in (("up", ("groove",)), ("run", ("groove",)), ("clear", ("groove",)),
                      ("deep", ("groove", "rabbet", "rabbeted")),
                      ("room", ("groove", "rabbet", "rabbeted"))):
        if bottom.has(key) and kind not in goes:
            raise bottom.error(key, f'{key} does not go with kind = "{kind}"', "leave it out")
    room = ZERO if kind == "planted" else default_length("bottom_room", unit)
    return ChestBottom(
        kind=cast(Literal["groove", "rabbet", "rabbeted", "planted"], kind),
        thickness=bottom.length("thickness", unit, cure="give the bottom's thickness"),
        up=bottom.length("up", unit, default=default_length("chest_groove_up", unit)),
        deep=bottom.length("deep", unit, default=default_length("chest_hold", unit)),
        room=bottom.length("room", unit, default=room, zero_ok=True),
        clear=bottom.length(
            "clear", unit, default=default_length("groove_clear", unit), zero_ok=True
        ),
        run=cast(Literal["through", "stopped"], bottom.choice("run", RUNS, default="stopped")),
        boards=_boards(bottom, "boards", unit),
        timber=bottom.text("timber", default=timber),
    )


def _lid(table: Table, unit: Unit, timber: str) -> LidChoice | None:
    lid = table.table_or_off("lid")
    if not lid:
        return None
    kind = lid.choice("kind", LIDS, default="flat")
    for key in ("deep", "room"):
        if lid.has(key) and kind != "rabbeted":
            raise lid.error(key, f'{key} does not go with kind = "{kind}"', "leave it out")
    return LidChoice(
        kind=cast(Literal["flat", "rabbeted"], kind),
        thickness=lid.length("thickness", unit, cure="give the lid's thickness"),
        deep=lid.length("deep", unit, default=default_length("chest_hold", unit)),
        room=lid.length("room", unit, default=default_length("bottom_room", unit), zero_ok=True),
        front=lid.length("overhang_front", unit, default=ZERO, zero_ok=True),
        ends=lid.length("overhang_ends", unit, default=ZERO, zero_ok=True),
        back=lid.length("overhang_back", unit, default=ZERO, zero_ok=True),
        boards=_boards(lid, "boards", unit),
        timber=lid.text("timber", default=timber),
    )
