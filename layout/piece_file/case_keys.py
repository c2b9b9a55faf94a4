"""The keys of [[carcase]] and [[divider]], and of the slides and housings that both may have."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, cast

from layout.builds.box_choices import DividerChoice
from layout.builds.carcase import BackChoice, CarcaseChoice
from layout.defaults import Unit, default_length
from layout.joints.slide import SlideChoice
from layout.joints.tongue import TongueChoice
from layout.piece_file import box_usual as usual
from layout.piece_file.dovetail_keys import read_dovetails, read_lap, read_slope_of
from layout.piece_file.table import Table

ZERO = Fraction(0)
TAILS_ON = ("sides", "top and bottom")
LIES = ("level", "upright")
SLOPES = ("both", "face", "back")
ENTERS = ("back", "front")
MOST_BACK_BOARDS = 30


def read_slide(table: Table, unit: Unit) -> SlideChoice:
    """A sliding dovetail. BadPiece with its place where it can't be read."""
    choice = usual.slide(unit)._replace(where=table.where())
    if table.has("slope"):
        choice = choice._replace(slope=read_slope_of(table), open_slope=False)
    slopes = table.choice("slopes", SLOPES, default="both")
    choice = choice._replace(
        slopes=cast(Literal["both", "face", "back"], slopes),
        taper=table.length("taper", unit, default=ZERO, zero_ok=True),
        taper_over=table.optional_length("taper_over", unit),
    )
    if choice.taper_over is not None and not choice.taper:
        raise table.error("taper_over", "there is no taper", "give taper too, or leave it out")
    return _run(table, unit, choice)


def read_housing(table: Table, unit: Unit) -> SlideChoice:
    """A square housing. BadPiece with its place where it can't be read."""
    square = usual.slide(unit)._replace(slope=None, open_slope=False, where=table.where())
    return _run(table, unit, square)


def _run(table: Table, unit: Unit, choice: SlideChoice) -> SlideChoice:
    """What slides and housings have in common."""
    enter = table.choice("enter", ENTERS, default="back")
    return choice._replace(
        depth=table.optional_length("depth", unit),
        room=table.length("room", unit, default=choice.room, zero_ok=True),
        shoulders=(
            table.optional_length("face_shoulder", unit, zero_ok=True),
            table.optional_length("back_shoulder", unit, zero_ok=True),
        ),
        stop=table.length("stop", unit, default=ZERO, zero_ok=True),
        enter=cast(Literal["back", "front"], enter),
    )


def _joined(table: Table, unit: Unit) -> SlideChoice:
    """How a board's ends are joined: by a sliding dovetail or a housing."""
    if table.has("slide") == table.has("housing"):
        raise table.error(
            "housing" if table.has("housing") else None,
            "how it is joined is said twice" if table.has("slide") else
            "how it is joined is missing",
            "write slide = {} for a sliding dovetail, or housing = {}",
        )
    if table.has("slide"):
        return read_slide(table.table("slide"), unit)
    return read_housing(table.table("housing"), unit)


def read_shelf(table: Table, unit: Unit, timber: str) -> DividerChoice:
    """What stands between two drawers of a carcase; its place follows from theirs."""
    return DividerChoice(
        name=table.text("name", default="drawer shelf"),
        opening="",
        lies="level",
        thickness=table.length("thickness", unit, cure="give the shelf's thickness"),
        joint=_joined(table, unit),
        set_back=table.length("set_back", unit, default=ZERO, zero_ok=True),
        timber=table.text("timber", default=timber),
        where=table.where(),
    )


def read_divider(table: Table, unit: Unit, timber: str) -> DividerChoice:
    """One [[divider]]. BadPiece with its place where it can't be read."""
    for key in ("slide", "depth"):
        table.has(key)  # known from here on: a slide that is there is no misspelt lies
    lies = table.choice("lies", LIES, cure='write lies = "level" or lies = "upright"')
    level = lies == "level"
    for key, other, goes in (
        ("above", "from_left", "level"), ("from_left", "above", "upright"),
    ):
        if table.has(key) and lies != goes:
            raise table.error(key, f'{key} does not go with lies = "{lies}"',
                              f"write {other} instead, or leave it out")
    return DividerChoice(
        name=table.text("name", cure='name it, e.g. name = "shelf"'),
        opening=table.text("opening", cure='say what it divides, e.g. opening = "inside cabinet"'),
        lies=cast(Literal["level", "upright"], lies),
        thickness=table.length("thickness", unit, cure="give its thickness"),
        joint=_joined(table, unit),
        place=table.optional_length("above" if level else "from_left", unit, zero_ok=True),
        set_back=table.length("set_back", unit, default=ZERO, zero_ok=True),
        depth=table.optional_length("depth", unit),
        timber=table.text("timber", default=timber),
        where=table.where(),
    )


def read_carcase(table: Table, unit: Unit, timber: str) -> CarcaseChoice:
    """One [[carcase]]. BadPiece with its place where it can't be read."""
    wood = table.text("timber", default=timber)
    for key in ("width", "height", "depth", "thickness", "top_thickness", "bottom_thickness"):
        table.has(key)  # known from here on: a top_thickness that is there is no misspelt thickness
    thickness = table.length("thickness", unit, cure="give the thickness of its boards")
    ways = [key for key in ("dovetails", "slide", "housing") if table.has(key)]
    if len(ways) > 1:
        raise table.error(ways[1], f"how the corners are joined is said by {ways[0]} too",
                          "keep one of dovetails, slide and housing")
    slid = None
    if ways == ["slide"]:
        slid = read_slide(table.table("slide"), unit)
    elif ways == ["housing"]:
        slid = read_housing(table.table("housing"), unit)
    for key in ("top_in", "bottom_in"):
        if table.has(key) and slid is None:
            raise table.error(key, f"{key} goes with boards slid into the sides",
                              "write slide = {} or housing = {} too, or leave it out")
    if table.has("tails_on") and slid is not None:
        raise table.error("tails_on", "tails_on goes with dovetailed corners", "leave it out")
    dovetails = table.table("dovetails", optional=True)
    return CarcaseChoice(
        name=table.text("name", default="carcase"),
        width=table.length("width", unit, cure="give the overall width"),
        height=table.length("height", unit, cure="give the overall height"),
        depth=table.length("depth", unit, cure="give the overall depth"),
        sides=thickness,
        top=table.length("top_thickness", unit, default=thickness),
        bottom=table.length("bottom_thickness", unit, default=thickness),
        joint=read_dovetails(dovetails, unit, usual.dovetail(unit))._replace(
            lap=read_lap(dovetails, unit, None)
        ),
        tails=cast(
            Literal["sides", "top and bottom"], table.choice("tails_on", TAILS_ON, default="sides")
        ),
        slid=slid,
        top_in=table.length("top_in", unit, default=ZERO, zero_ok=True),
        bottom_in=table.length("bottom_in", unit, default=ZERO, zero_ok=True),
        back=_back(table, unit, wood),
        timber=wood,
        where=table.where(),
    )


def _back(table: Table, unit: Unit, timber: str) -> BackChoice | None:
    back = table.table_or_off("back")
    if not back:
        return None
    return BackChoice(
        back.length("thickness", unit, cure="give the back's thickness"),
        back.length("deep", unit, default=default_length("back_deep", unit)),
        back.length("room", unit, default=default_length("bottom_room", unit), zero_ok=True),
        back.count("boards", 1, MOST_BACK_BOARDS, default=1),
        back.text("timber", default=timber),
        _tongue(back, unit),
    )


def _tongue(back: Table, unit: Unit) -> TongueChoice | None:
    """The tongue between two boards of a back."""
    tongue = back.table_or_off("tongue")
    if not tongue:
        return None
    if back.count("boards", 1, MOST_BACK_BOARDS, default=1) == 1:
        raise back.error("tongue", "a back of one board has no tongue",
                         "say how many boards it has, e.g. boards = 5")
    plain = usual.tongue(unit)
    return plain._replace(
        thickness=tongue.optional_length("thickness", unit),
        length=tongue.length("length", unit, default=plain.length),
        room=tongue.length("room", unit, default=plain.room, zero_ok=True),
        gap=tongue.length("gap", unit, default=plain.gap, zero_ok=True),
    )
