"""The options of `joint dovetail` as typed, and the corner that they choose."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.corner_pair import CornerChoice
from layout.builds.frame import refuse_oversize
from layout.cli.tenon_options import size
from layout.cli.typed import as_options, table
from layout.defaults import Unit, default_length
from layout.errors import BadRequest, Where
from layout.joints.board_edge import Rabbet
from layout.joints.spacing import DovetailChoice
from layout.joints.worked import Span
from layout.measure import read_length
from layout.piece_file import box_usual as usual
from layout.piece_file.dovetail_keys import read_dovetails

ZERO = Fraction(0)
# How far both boards reach beyond the corner where nobody says.
UNSAID_LENGTH = {"in": "12", "mm": "300"}

FLAGS = {
    "slope": "--slope", "pin": "--pin", "half_pin": "--half-pin", "tails": "--tails",
    "tail_width": "--tail-width", "pins_at": "--pins-at", "graduated": "--graduated",
    "edges": "--half-tails", "first": "--first", "lap": "--lap",
}  # fmt: skip


class SpacingWords(NamedTuple):
    """How tails and pins share a width, as typed."""

    slope: str | None = None
    pin: str | None = None
    half_pin: str | None = None
    tails: str | None = None
    tail_width: str | None = None


class DovetailWords(NamedTuple):
    """One corner: the options as typed."""

    width: str
    tail_board: str
    pin_board: str
    spacing: SpacingWords = SpacingWords()
    pins_at: str | None = None
    graduated: str | None = None
    half_tails: bool = False
    lap: str | None = None
    lapped: bool = False
    first: str | None = None
    groove_up: str | None = None
    groove_width: str | None = None
    rabbet_width: str | None = None
    rabbet_depth: str | None = None


def corner_choice(words: DovetailWords, unit: Unit) -> CornerChoice:
    """The corner chosen. BadMeasure or BadRequest, naming the option, where it can't be."""
    width, tail_board, pin_board = (
        _board(flag, written, unit)
        for flag, written in (
            ("--width", words.width),
            ("--tail-board", words.tail_board),
            ("--pin-board", words.pin_board),
        )
    )
    lap = size("--lap", words.lap, unit)
    if lap is None and words.lapped:
        lap = usual.lap(pin_board)
    joint = _spaced(words, unit)._replace(lap=lap)
    groove, rabbet = _groove(words, unit), _rabbet(words, unit)
    if groove is not None and rabbet is not None and groove[0] < rabbet.wide:
        raise BadRequest("the groove begins inside the rabbet", "raise it, or leave one of the two "
                         "out", Where(key="--groove-up"))
    return CornerChoice(
        width=width,
        tail_board=tail_board,
        pin_board=pin_board,
        length=read_length(UNSAID_LENGTH[unit], unit) + max(tail_board, pin_board),
        joint=joint._replace(where=Where(key=blamed(words, joint, pin_board))),
        groove=groove,
        groove_deep=default_length("groove_depth", unit),
        clear=default_length("groove_clear", unit),
        rabbet=rabbet,
    )


def _board(flag: str, written: str, unit: Unit) -> Fraction:
    value = size(flag, written, unit)
    assert value is not None  # it is given, so a size or an error came back
    with as_options(FLAGS):
        refuse_oversize((value,), "a board", Where(key=flag))
    return value


def _spaced(words: DovetailWords, unit: Unit) -> DovetailChoice:
    """The dovetails as a piece file would have them."""
    pins_at = None if words.pins_at is None else words.pins_at.split(",")
    values = {
        **words.spacing._asdict(),
        "pins_at": pins_at,
        "graduated": words.graduated,
        "edges": "half tails" if words.half_tails else None,
        "first": words.first,
    }
    with as_options(FLAGS):
        return read_dovetails(table(values), unit, usual.dovetail(unit))


def blamed(words: DovetailWords, joint: DovetailChoice, pin_board: Fraction) -> str:
    """The option to name where the tails don't fit."""
    if joint.lap is not None and joint.lap >= pin_board:
        return "--lap"
    said = (
        ("--tails", words.spacing.tails),
        ("--pins-at", words.pins_at),
        ("--half-pin", words.spacing.half_pin),
    )
    return next((flag for flag, written in said if written is not None), "--width")


def _groove(words: DovetailWords, unit: Unit) -> Span | None:
    up, wide = _together(
        ("--groove-up", words.groove_up), ("--groove-width", words.groove_width), "groove", unit
    )
    return None if up is None or wide is None else (up, up + wide)


def _rabbet(words: DovetailWords, unit: Unit) -> Rabbet | None:
    wide, deep = _together(
        ("--rabbet-width", words.rabbet_width), ("--rabbet-depth", words.rabbet_depth), "rabbet",
        unit,
    )
    return None if wide is None or deep is None else Rabbet(wide, deep)


def _together(
    one: tuple[str, str | None], other: tuple[str, str | None], what: str, unit: Unit
) -> tuple[Fraction | None, Fraction | None]:
    """Two sizes of which neither goes without the other."""
    sizes = (size(*one, unit), size(*other, unit))
    for (flag, written), (needed, missing) in ((one, other), (other, one)):
        if written is not None and missing is None:
            raise BadRequest(f"half of the {what} is described", f"give {needed} as well, or leave "
                             f"{flag} out", Where(key=flag))
    return sizes
