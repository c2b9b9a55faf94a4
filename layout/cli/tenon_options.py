"""The options of `joint tenon` as typed, and the tenon that they choose."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple, cast

from layout.defaults import Unit
from layout.errors import BadMeasure, BadRequest, Where
from layout.joints.choices import (
    HaunchChoice,
    KeyChoice,
    PairChoice,
    PegChoice,
    TenonChoice,
    TwinChoice,
    WedgeChoice,
)
from layout.measure import read_count, read_length
from layout.piece_file import tenon_usual as usual

HAUNCHES = ("square", "sloped")
BARE = ("face", "back")
MOST_PEGS = 20


class MoreWords(NamedTuple):
    """What a tenon may have beyond a shoulder on every side."""

    inner_shoulder: str | None = None
    barefaced: str | None = None
    stub: bool = False
    haunch: str | None = None
    haunch_width: str | None = None
    haunch_length: str | None = None
    pair: bool = False
    web: str | None = None
    twin: bool = False
    through: bool = False
    projection: str | None = None
    wedges: str | None = None
    key: bool = False
    pegs: str | None = None
    draw: str | None = None


class TenonWords(NamedTuple):
    """One tenon in one leg: the options as typed."""

    rail_width: str
    rail_thickness: str
    leg_width: str
    length: str | None = None
    leg_thickness: str | None = None
    over: str | None = None
    thickness: str | None = None
    outer_shoulder: str | None = None
    top_shoulder: str | None = None
    bottom_shoulder: str | None = None
    glue_room: str | None = None
    set_in: str = "0"
    panel: str | None = None
    rabbet_depth: str | None = None
    lip: str | None = None
    run_through: bool = False
    unit: str = "in"
    rule: str | None = None
    both_units: bool = False
    more: MoreWords = MoreWords()


def tenon_choice(words: TenonWords, unit: Unit) -> TenonChoice:
    """The tenon chosen. BadMeasure or BadRequest, naming the option, where it can't be."""
    more = words.more
    _go_beside(more)

    def length(key: str, written: str | None, zero_ok: bool = False) -> Fraction | None:
        return size(_flag(key), written, unit, zero_ok)

    plain = usual.tenon(unit)
    glue_room = length("glue_room", words.glue_room, zero_ok=True)
    choice = plain._replace(
        length=length("length", words.length),
        glue_room=plain.glue_room if glue_room is None else glue_room,
        thickness=length("thickness", words.thickness),
        outer_shoulder=length("outer_shoulder", words.outer_shoulder, zero_ok=True),
        inner_shoulder=length("inner_shoulder", more.inner_shoulder, zero_ok=True),
        top_shoulder=length("top_shoulder", words.top_shoulder, zero_ok=True),
        bottom_shoulder=length("bottom_shoulder", words.bottom_shoulder, zero_ok=True),
        barefaced=cast(
            "Literal['face', 'back'] | None", _one_of("barefaced", more.barefaced, BARE)
        ),
        stub=more.stub,
        haunch=_haunch(more, unit),
        pair=_pair(more, unit),
        twin=TwinChoice() if more.twin else None,
        through=more.through,
        projection=length("projection", more.projection, zero_ok=True) or Fraction(0),
        wedges=_wedges(more, unit),
        key=_key(more, unit),
        pegs=_pegs(more, unit),
    )
    clash = usual.clash(choice, _flag)
    if clash is not None:
        raise BadRequest(clash.what, clash.cure, Where(key=_flag(clash.key)))
    return choice


def size(
    flag: str, written: str | None, unit: Unit, zero_ok: bool = False
) -> Fraction | None:
    """What an option says, in mm; None where it is left out. BadMeasure with the option."""
    if written is None:
        return None
    try:
        value = read_length(written, unit)
    except BadMeasure as error:
        raise error.at(Where(key=flag)) from None
    if value == 0 and not zero_ok:
        raise BadMeasure("the size is nothing", "write a size above zero", Where(key=flag))
    return value


def _flag(key: str) -> str:
    return f"--{key.replace('_', '-')}"


def _go_beside(more: MoreWords) -> None:
    """BadRequest where an option tells more of something that was not asked for."""
    needs = (
        ("haunch_width", more.haunch_width, more.haunch, "no haunch is", "--haunch square"),
        ("haunch_length", more.haunch_length, more.haunch, "no haunch is", "--haunch square"),
        ("web", more.web, more.pair, "no pair is", "--pair"),
        ("draw", more.draw, more.pegs, "no pegs are", "--pegs 0"),
    )
    for key, written, given, none, what in needs:
        if written is not None and not given:
            raise BadRequest(
                f"{none} asked for",
                f"add {what}, or leave {_flag(key)} out",
                Where(key=_flag(key)),
            )


def _one_of(key: str, written: str | None, options: tuple[str, ...]) -> str | None:
    if written is None or written in options:
        return written
    raise BadRequest(
        f"'{written}' can't be chosen here", f"write {' or '.join(options)}", Where(key=_flag(key))
    )


def _count(key: str, written: str, least: int, most: int) -> int:
    try:
        return read_count(written, least, most)
    except BadMeasure as error:
        raise error.at(Where(key=_flag(key))) from None


def _haunch(more: MoreWords, unit: Unit) -> HaunchChoice | None:
    kind = _one_of("haunch", more.haunch, HAUNCHES)
    if kind is None:
        return None
    return usual.haunch(
        unit,
        cast(Literal["square", "sloped"], kind),
        width=size("--haunch-width", more.haunch_width, unit),
        length=size("--haunch-length", more.haunch_length, unit),
    )


def _pair(more: MoreWords, unit: Unit) -> PairChoice | None:
    return usual.pair(unit, size("--web", more.web, unit)) if more.pair else None


def _wedges(more: MoreWords, unit: Unit) -> WedgeChoice | None:
    if more.wedges is None:
        return None
    return usual.wedges(unit, cast(Literal[1, 2], _count("wedges", more.wedges, 1, 2)))


def _key(more: MoreWords, unit: Unit) -> KeyChoice | None:
    return usual.key(unit) if more.key else None


def _pegs(more: MoreWords, unit: Unit) -> PegChoice | None:
    if more.pegs is None:
        return None
    many = _count("pegs", more.pegs, 0, MOST_PEGS)
    return PegChoice(many or None, draw=size("--draw", more.draw, unit, zero_ok=True))
