"""Sheets and rolls of paper by name, in exact millimetres (sizes.toml, where the sources stand)."""

from __future__ import annotations

import difflib
import tomllib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any

from layout.errors import BadRequest

_MM = {"mm": Fraction(1), "in": Fraction(127, 5)}


@dataclass(frozen=True)
class Paper:
    """A sheet standing upright, or a roll (`height` is None), in mm.

    `limit` is the longest page that may come off a roll; for a sheet it is the sheet's height.
    """

    name: str
    width: Fraction
    height: Fraction | None
    limit: Fraction


def paper_named(name: str) -> Paper:
    """The paper of this name; capitals, blanks and hyphens don't matter.

    Raises BadRequest, with the names that there are and the nearest to what was written.
    """
    papers = _papers()
    written = _key(name)
    found = {_key(one.name): one for one in papers}.get(written)
    if found is not None:
        return found
    names = {_key(one.name): one.name for one in papers}
    near = difflib.get_close_matches(written, names, n=1, cutoff=0.5)
    hint = f"did you mean {names[near[0]]}? " if near else ""
    raise BadRequest(
        f"no paper is called '{name}'",
        f"{hint}There are {', '.join(one.name for one in papers)}",
    )


def paper_names() -> tuple[str, ...]:
    """Every name that `paper_named` knows."""
    return tuple(one.name for one in _papers())


def _key(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())


@cache
def _papers() -> tuple[Paper, ...]:
    text = resources.files("layout.paper").joinpath("sizes.toml").read_text(encoding="utf-8")
    table: dict[str, Any] = tomllib.loads(text)
    sheets = [
        Paper(row["name"], _mm(row, "width"), _mm(row, "height"), _mm(row, "height"))
        for row in table["sheet"]
    ]
    roll = table["roll"]
    limit = Fraction(roll["limit"]) * _MM[roll["limit_unit"]]
    rolls = [Paper(row["name"], _mm(row, "width"), None, limit) for row in roll["widths"]]
    return (*sheets, *rolls)


def _mm(row: dict[str, str], side: str) -> Fraction:
    return Fraction(row[side]) * _MM[row["unit"]]
