"""A piece as a command was asked for it: the file, the maker's shop, and sizes measured since."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Literal, NamedTuple, cast

from layout.builds.choices import AsMilled, Milled
from layout.cli.shop import opened_shop
from layout.defaults import Unit
from layout.errors import BadMeasure, BadRequest, Where
from layout.measure import read_length
from layout.piece import Piece, PieceChoice, work_out
from layout.piece_file.reader import HELD, piece_and_stock, read_piece
from layout.stock.rough import StockChoice

FLAG = "--as-milled"
SIZES = ("width", "thickness")
CURE = f'write the part, its size and the measure, e.g. {FLAG} "front left leg.width=2 31/64"'


class MilledWords(NamedTuple):
    """What was typed of parts as they came off the machines: each size, and what is held."""

    sizes: tuple[str, ...] = ()
    held: str | None = None


NOT_MEASURED = MilledWords()


def opened(path: Path, milled: MilledWords = NOT_MEASURED) -> Piece:
    """A piece file, read and worked out with what was measured."""
    return work_out(measured(read_piece(path, opened_shop()), milled))


def opened_with_stock(
    path: Path, milled: MilledWords = NOT_MEASURED
) -> tuple[Piece, StockChoice]:
    """A piece file as `opened` gives it, and what it says of stock."""
    choice, stock = piece_and_stock(path, opened_shop())
    return work_out(measured(choice, milled)), stock


def measured(choice: PieceChoice, milled: MilledWords) -> PieceChoice:
    """A piece's choices with the measured sizes that were typed on top of the file's own.

    BadRequest or BadMeasure where they can't be read.
    """
    if choice.frame is None:
        if milled.sizes or milled.held is not None:
            raise BadRequest(
                "only the legs and rails of a frame can be given as measured",
                "write the measured sizes into the carcase, chest, drawer or door itself",
                Where(key=FLAG if milled.sizes else "--held"),
            )
        return choice
    parts = {one.part: one for one in choice.milled.parts}
    typed: set[tuple[str, str]] = set()
    for words in milled.sizes:
        name, size, value = _read(words, choice.unit)
        if (name, size) in typed:
            raise BadRequest(
                f"the {size} of the {name} is given twice", "keep one of the two", Where(key=FLAG)
            )
        typed.add((name, size))
        one = parts.get(name, Milled(name, where=Where(key=FLAG)))
        parts[name] = one._replace(**{size: value})  # type: ignore[arg-type]
    held = choice.milled.held
    if milled.held is not None:
        held = _held(milled.held, bool(parts))
    everything = AsMilled(tuple(parts.values()), held)
    return choice._replace(frame=choice.frame._replace(milled=everything))


def _read(words: str, unit: Unit) -> tuple[str, str, Fraction]:
    """`front left leg.width=2 31/64` as part, size and mm."""
    named, equals, written = words.partition("=")
    name, dot, size = (word.strip() for word in named.rpartition("."))
    if not (equals and dot and name and written.strip()):
        raise BadRequest(f"'{_short(words)}' is no measured size", CURE, Where(key=FLAG))
    if size not in SIZES:
        raise BadRequest(
            f"'{_short(size)}' of the {_short(name)} can't be measured",
            f"write {' or '.join(SIZES)} after the point",
            Where(key=FLAG),
        )
    at = Where(key=f"{FLAG} {_short(name)}.{size}")
    try:
        value = read_length(written, unit)
    except BadMeasure as error:
        raise error.at(at) from None
    if value == 0:
        raise BadMeasure("the size is nothing", "write a size above zero", at)
    return name, size, value


def _held(word: str, any_measured: bool) -> Literal["overall", "shoulders"]:
    if word not in HELD:
        raise BadRequest(
            f"'{_short(word)}' can't be held",
            f"write {' or '.join(HELD)}",
            Where(key="--held"),
        )
    if not any_measured:
        raise BadRequest(
            "no part has been measured",
            f"give the measured sizes with {FLAG}, or under [as_milled] in the file",
            Where(key="--held"),
        )
    return cast(Literal["overall", "shoulders"], word)


def _short(words: str) -> str:
    """What was typed, on one line and no longer than a message repeats."""
    from layout.piece_file.words import cut

    return cut(words)
