"""What can be wrong with what a maker wrote: one root error, each with its place and its cure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Self


@dataclass(frozen=True)
class Where:
    """A place in something the maker wrote: a file and line, a key, or a command-line option."""

    file: str | None = None
    line: int | None = None
    key: str | None = None

    def __str__(self) -> str:
        """`file, line 12, frame.rail 2.width` with whatever of it is known."""
        named = []
        if self.file is not None:
            named.append(self.file)
        if self.line is not None:
            named.append(f"line {self.line}")
        if self.key is not None:
            named.append(self.key)
        return ", ".join(named)


class ShoulderlineError(Exception):
    """The root of every error that the maker can cure.

    `what` is one sentence on what is wrong, `cure` what would be right, `where` the place.
    The message is one line: place, what, cure.
    """

    def __init__(self, what: str, cure: str = "", where: Where | None = None) -> None:
        self.what = what
        self.cure = cure
        self.where = where or Where()
        super().__init__(what)

    def at(self, where: Where) -> Self:
        """The same error, with the parts of its place that were not known yet filled in."""
        known = self.where
        merged = replace(
            where,
            file=known.file if known.file is not None else where.file,
            line=known.line if known.line is not None else where.line,
            key=known.key if known.key is not None else where.key,
        )
        return type(self)(self.what, self.cure, merged)

    def __str__(self) -> str:
        """Place, what is wrong, what would be right."""
        place = str(self.where)
        text = f"{place}: {self.what}" if place else self.what
        return f"{text}; {self.cure}" if self.cure else text


class BadMeasure(ShoulderlineError, ValueError):
    """A length, a count or a rule that can't be read."""


class BadPiece(ShoulderlineError, ValueError):
    """A piece file that can't be a piece: unknown key, wrong type, impossible value."""


class BadRequest(ShoulderlineError, ValueError):
    """A command that can't be carried out as typed."""


class CantWrite(ShoulderlineError, OSError):
    """A sheet that can't be put where the maker asked."""


class BadWood(ShoulderlineError, ValueError):
    """A wood that the tables don't have, or a moisture that it can't have."""
