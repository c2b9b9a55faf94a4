"""The options of `joint slide` and `joint housing` as typed, and the slide that they choose."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.builds.frame import refuse_oversize
from layout.builds.slide_pair import SlidePairChoice
from layout.cli.tenon_options import size
from layout.cli.typed import as_options, table
from layout.defaults import Unit
from layout.errors import BadRequest, Where
from layout.joints.slide import SIDES, SlideChoice, depth_of
from layout.measure import read_length
from layout.piece_file.case_keys import read_housing, read_slide

ZERO = Fraction(0)
# How far both boards reach beyond the joint where nobody says.
UNSAID_LENGTH = {"in": "12", "mm": "300"}

FLAGS = {
    "depth": "--depth", "slope": "--slope", "slopes": "--one-side",
    "face_shoulder": "--face-shoulder", "back_shoulder": "--back-shoulder", "taper": "--taper",
    "taper_over": "--taper-over", "stop": "--stop", "enter": "--enter", "room": "--room",
}  # fmt: skip


class RunWords(NamedTuple):
    """What slides and housings have in common, as typed."""

    board_thickness: str
    into: str
    width: str
    depth: str | None = None
    face_shoulder: str | None = None
    back_shoulder: str | None = None
    stop: str | None = None
    enter: str | None = None
    room: str | None = None


class SlopeWords(NamedTuple):
    """What only a sliding dovetail has, as typed; and what it is cut and checked with."""

    slope: str | None = None
    one_side: str | None = None
    taper: str | None = None
    taper_over: str | None = None
    rods: str | None = None
    reading: str | None = None
    cutter: str | None = None


def pair_choice(words: RunWords, sloped: SlopeWords | None, unit: Unit) -> SlidePairChoice:
    """The slide chosen, or the housing where `sloped` is None. BadMeasure or BadRequest, naming
    the option, where it can't be.
    """
    slider, bearer, width = (
        _board(flag, written, unit)
        for flag, written in (
            ("--board-thickness", words.board_thickness),
            ("--into", words.into),
            ("--width", words.width),
        )
    )
    with as_options(FLAGS):
        joint = _joint(words, sloped, unit)
        for flag, length in _sizes(joint):
            refuse_oversize((length,), "the joint", Where(key=flag))
    return SlidePairChoice(
        width=width,
        slider=slider,
        bearer=bearer,
        length=read_length(UNSAID_LENGTH[unit], unit),
        joint=joint._replace(where=Where(key=_blamed(words, joint, slider, bearer, width))),
        rods=_rods(sloped, unit) if sloped is not None else None,
        rods_where=Where(key="--rods"),
        unit=unit,
    )


def _board(flag: str, written: str, unit: Unit) -> Fraction:
    value = size(flag, written, unit)
    assert value is not None  # it is given, so a size or an error came back
    with as_options(FLAGS):
        refuse_oversize((value,), "a board", Where(key=flag))
    return value


def _joint(words: RunWords, sloped: SlopeWords | None, unit: Unit) -> SlideChoice:
    """The joint as a piece file would have it."""
    values: dict[str, object] = {
        "depth": words.depth,
        "face_shoulder": words.face_shoulder,
        "back_shoulder": words.back_shoulder,
        "stop": words.stop,
        "enter": words.enter,
        "room": words.room,
    }
    if sloped is None:
        return read_housing(table(values), unit)
    if sloped.one_side not in (None, *SIDES):
        raise BadRequest(f"'{sloped.one_side}' is no side of a tail",
                         "write face or back, or leave it out for both", Where(key="--one-side"))
    values |= {
        "slope": sloped.slope,
        "slopes": sloped.one_side,
        "taper": sloped.taper,
        "taper_over": sloped.taper_over,
    }
    return read_slide(table(values), unit)


def _sizes(joint: SlideChoice) -> Iterator[tuple[str, Fraction]]:
    """Every length of the joint with its option."""
    sizes = (
        ("--depth", joint.depth), ("--face-shoulder", joint.shoulders[0]),
        ("--back-shoulder", joint.shoulders[1]), ("--taper", joint.taper),
        ("--taper-over", joint.taper_over), ("--stop", joint.stop), ("--room", joint.room),
    )  # fmt: skip
    for flag, length in sizes:
        if length is not None:
            yield flag, length


def _blamed(
    words: RunWords, joint: SlideChoice, slider: Fraction, bearer: Fraction, width: Fraction
) -> str:
    """The option to name where the boards can't stand, in the order that they are looked at."""
    deep = depth_of(joint, bearer)
    if deep <= joint.room:
        return _first((("--room", words.room), ("--depth", words.depth)), "--into")
    if joint.stop >= width:
        return "--stop"
    if joint.taper_over is not None and joint.taper_over > width - joint.stop:
        return "--taper-over"
    lean = ZERO if joint.slope is None else joint.slope.offset(deep - joint.room)
    neck = slider
    for side, given in zip(SIDES, joint.shoulders, strict=True):
        neck -= given if given is not None else lean if joint.leans(side) else ZERO
    if neck > 0:
        return "--taper"
    said = (("--face-shoulder", words.face_shoulder), ("--back-shoulder", words.back_shoulder),
            ("--depth", words.depth))
    return _first(said, "--board-thickness")


def _first(said: tuple[tuple[str, str | None], ...], otherwise: str) -> str:
    """The first option of these that was typed."""
    return next((flag for flag, written in said if written is not None), otherwise)


def _rods(sloped: SlopeWords, unit: Unit) -> Fraction | None:
    """The diameter of the rods."""
    rods = size("--rods", sloped.rods, unit)
    if rods is None and sloped.reading is not None:
        raise BadRequest("a reading tells nothing without its rods",
                         "give --rods as well, or leave --reading out", Where(key="--reading"))
    return rods
