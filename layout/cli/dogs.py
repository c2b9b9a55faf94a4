"""`joint dogs`: a row of dog holes by itself, without a piece file."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from layout.builds.dog_board import DogBoardChoice
from layout.builds.frame import LONGEST, refuse_oversize
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.tenon_options import size
from layout.cli.typed import as_options
from layout.defaults import Unit, default_length
from layout.errors import BadMeasure, BadPiece, BadRequest, Where
from layout.joints.dogs import DogChoice, Dogs, Vise, Zone
from layout.measure import read_length
from layout.measure.slope import Slope, read_slope
from layout.piece import Piece, work_out_dogs

ZERO = Fraction(0)
MOST_ZONES = 50
_ZONE = re.compile(r"(?P<name>.*?\S)\s+(?P<low>[0-9.].*?)\s+to\s+(?P<high>\S.*)")
# Common practice, no source.
CAUTION = (
    "Back the board up where the bit comes out, and clamp the drill's guide; a hole bored out of",
    "line shows when the dog binds: try it in waste of the same thickness first.",
    "At a machine, its own manual, its guards and local rules come first.",
)


class DogWords(NamedTuple):
    """A row of dog holes, as typed."""

    length: str
    width: str
    thickness: str
    vise: str
    closed: str | None = None
    hand: str | None = None
    dog: str | None = None
    square: bool = False
    lean: str | None = None
    first: str | None = None
    pitch: str | None = None
    end: str | None = None
    lines: tuple[str, ...] = ()
    clear: str | None = None
    step: str | None = None
    zones: tuple[str, ...] = ()


def tell_dogs(words: DogWords, shown: Shown) -> int:
    """Print the row's places, what it holds, sums, settings and checks; 1 on a stop."""
    piece = dogs_piece(words, shown)
    (made,) = piece.dogs
    lines = [*figure_lines(_rows(piece, made)), "", *CAUTION]
    kinds = ("card", "sticks", "templates")
    return answer(piece, check(piece), shown, lines, kinds)


def dogs_piece(words: DogWords, shown: Shown) -> Piece:
    """The board and its row that the options describe."""
    choice = asked("Dog holes", shown)
    board = _board(words, choice.unit, choice.wall_least)
    with as_options({}):
        return work_out_dogs(choice, board)


def _board(words: DogWords, unit: Unit, wall: Fraction) -> DogBoardChoice:
    length, width, thickness, opening = (
        _needed(flag, written, unit) for flag, written in (
            ("--length", words.length), ("--width", words.width),
            ("--thickness", words.thickness), ("--vise", words.vise),
        )
    )
    if length > LONGEST:
        raise BadRequest("a top of more than 10 m", "check it and its unit", Where(key="--length"))
    for flag, value in (("--width", width), ("--thickness", thickness), ("--vise", opening)):
        try:
            refuse_oversize((value,), "a board", Where(key=flag))
        except BadPiece as error:
            raise BadRequest(error.what, error.cure, Where(key=flag)) from None
    hand = _or_usual("--hand", words.hand, "dog_hand", unit, zero_ok=True)
    vise = Vise(opening, size("--closed", words.closed, unit, zero_ok=True) or ZERO, hand)
    if vise.most <= 0:
        raise BadRequest("the hand's margin is no less than the vise opens",
                         "make it less", Where(key="--hand"))
    dog = _or_usual("--dog", words.dog, "dog_size", unit)
    usual = default_length("dog_pitch", unit)
    pitch = size("--pitch", words.pitch, unit)
    first = size("--first", words.first, unit)
    if words.square and words.lines:
        raise BadRequest("square dogs are cut in the front edge of their strip",
                         "leave --line out; --width is that of the strip", Where(key="--line"))
    if words.lean is not None and not words.square:
        raise BadRequest("a round hole is bored square through",
                         "leave --lean out, or give --square", Where(key="--lean"))
    lines = tuple(_needed("--line", one, unit) for one in words.lines)
    if not lines and not words.square:
        lines = (default_length("dog_line", unit),)
    if len(set(lines)) != len(lines):
        raise BadRequest("a row is given twice", "give each row one --line", Where(key="--line"))
    row = DogChoice(
        shape="square" if words.square else "round",
        size=dog,
        vise=vise,
        first=first if first is not None else min(usual, vise.most) if pitch is None else pitch,
        usual_pitch=usual,
        pitch=pitch,
        end=_or_usual("--end", words.end, "dog_end", unit, zero_ok=True),
        clear=_or_usual("--clear", words.clear, "dog_clear", unit, zero_ok=True),
        wall=wall,
        step=_or_usual("--step", words.step, "dog_step", unit),
        lines=lines,
        lean=_lean(words.lean),
        zones=_zones(words.zones, unit, length),
    )
    if row.step < default_length("dog_step", unit) / 8:
        raise BadRequest("the grid is finer than anyone can bore",
                         "leave --step out, or give a coarser one", Where(key="--step"))
    return DogBoardChoice(length, width, thickness, row)


def _needed(flag: str, written: str, unit: Unit) -> Fraction:
    value = size(flag, written, unit)
    assert value is not None  # it is given, so a size or an error came back
    return value


def _or_usual(
    flag: str, written: str | None, usual: str, unit: Unit, zero_ok: bool = False
) -> Fraction:
    value = size(flag, written, unit, zero_ok)
    return default_length(usual, unit) if value is None else value


def _lean(written: str | None) -> Slope | None:
    if written is None:
        return None
    try:
        return read_slope(written)
    except BadMeasure as error:
        raise error.at(Where(key="--lean")) from None


def _zones(written: tuple[str, ...], unit: Unit, length: Fraction) -> tuple[Zone, ...]:
    """What the row must miss, as typed: `left leg 2 to 4 1/2`."""
    where = Where(key="--keep-out")
    if len(written) > MOST_ZONES:
        raise BadRequest(f"{len(written)} things to miss", f"at most {MOST_ZONES}", where)
    found = []
    for one in written:
        parts = _ZONE.fullmatch(one.strip())
        if parts is None:
            raise BadRequest(f"'{one[:40]}' says nothing to miss",
                             'name it, and say from where to where, e.g. "left leg 2 to 4 1/2"',
                             where)
        try:
            low, high = (read_length(parts[side], unit) for side in ("low", "high"))
        except BadMeasure as error:
            raise error.at(where) from None
        if not low < high:
            raise BadRequest(f"the {parts['name']} ends before it begins",
                             "write the place nearer to the vise first", where)
        if low >= length:
            raise BadRequest(f"the {parts['name']} lies beyond the top's end",
                             "places are counted from the vise's end", where)
        found.append(Zone(parts["name"], low, high))
    return tuple(found)


def _rows(piece: Piece, dogs: Dogs) -> list[tuple[str, str]]:
    """Names and figures of the row."""
    gaps = [after - before for before, after in pairwise(dogs.places)]
    rows = [("holes", str(len(dogs.places))), ("pitch wanted", said(piece, dogs.pitch))]
    if gaps and dogs.places != dogs.even:
        rows += [("least gap", said(piece, min(gaps))), ("greatest gap", said(piece, max(gaps)))]
        rows += [(f"hole {number} in an even row", said(piece, place))
                 for number, place in enumerate(dogs.even, start=1)]
    rows += [(f"hole {number}", said(piece, place))
             for number, place in enumerate(dogs.places, start=1)]
    if dogs.held:
        rows += [("shortest work held", said(piece, dogs.held[0][0])),
                 ("longest work held", said(piece, dogs.held[-1][1]))]
    if dogs.lean:
        rows.append(("foot behind the head", said(piece, dogs.lean)))
    return rows
