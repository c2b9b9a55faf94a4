"""The options that tell a wood and its year, for commands without a piece file."""

from __future__ import annotations

from typing import NamedTuple

from layout.cli.typed import table
from layout.errors import BadRequest, Where
from layout.piece_file.wood_keys import read_timbers
from layout.wood.timber import Timbers

FLAGS = {"climate.now": "--now", "climate.dry": "--dry", "climate.wet": "--wet"}


class YearWords(NamedTuple):
    """How moist the wood is and will be, as typed; None where nothing was."""

    now: str | None = None
    dry: str | None = None
    wet: str | None = None


def timbers(words: YearWords) -> Timbers:
    """The climate that was typed, or the usual one. BadPiece or BadRequest where it can't be read.
    """
    given = words._asdict()
    if not any(given.values()):
        return Timbers()
    missing = [key for key, written in given.items() if written is None]
    if missing:
        raise BadRequest(
            f"--{missing[0]} is missing", "give --now, --dry and --wet, or none of them",
            Where(key=f"--{missing[0]}"),
        )
    return read_timbers(table({"climate": given}))
