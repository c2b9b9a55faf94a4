"""The woods of the published tables, found by the words that a maker uses.

Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), Tables 13-5, 4-3, 4-4
and 5-3; for European woods the figures that DIN 68100 has. Each stands in its file beside this.
"""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Literal, NamedTuple

from layout.errors import BadWood

Sawn = Literal["flat", "quarter", "rift"]
HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010)"
EUROPEAN = "figures as in DIN 68100"
STARTS_AT = Fraction(30)
MOST_NAMED = 6
_SPELT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})


class Figure(NamedTuple):
    """A figure of a table: its value, how many digits it carries, and whether it was read in the
    source.
    """

    value: Fraction
    digits: int
    read: bool


class Wood(NamedTuple):
    """A wood of the tables.

    `radial` and `tangential` are the change of size per 1 % of moisture content, as a share of the
    size; `shrinks` the same two ways from green to ovendry, in percent of the green size, out of
    the table `shrinks_in`. Shrinking starts at `starts_at` percent of moisture. `gravity` is on
    ovendry mass and volume at 12 %. None where the tables say nothing. `source` names the table.
    """

    name: str
    source: str
    radial: Figure | None = None
    tangential: Figure | None = None
    shrinks: tuple[Figure | None, Figure | None] = (None, None)
    shrinks_in: str = ""
    starts_at: Fraction = STARTS_AT
    gravity: Figure | None = None


def is_sheet(words: str) -> bool:
    """True for plywood and other sheets, and glass, which keep their size."""
    return bool(set(_words(words)) & set(_names()["sheets"]["words"]))


def find(words: str) -> Wood:
    """The wood that these words name. BadWood where there is none, or more than one.

    A name of the tables counts first, then what makers call a wood, then the words of a name in any
    order, then the only name that has them all.
    """
    woods = _woods()
    asked = _words(words)
    for name, wood in woods.items():
        if name.lower() == words.strip().lower():
            return wood
    for called, name in _names()["called"].items():
        if sorted(_words(called)) == sorted(asked):
            return woods[name]
    same = [wood for name, wood in woods.items() if sorted(_words(name)) == sorted(asked)]
    if same:
        return same[0]
    holding = _once(
        wood for name, wood in woods.items() if asked and set(asked) <= set(_words(name))
    )
    if len(holding) == 1:
        return holding[0]
    if holding:
        usual = list(_names()["called"].values())  # first what makers most likely mean
        holding.sort(key=lambda wood: wood.name not in usual)
        raise BadWood(f"'{words}' could be several woods", f"write one of {_listed(holding)}")
    raise BadWood(f"there is no wood '{words}' in the tables", _nearest(asked))


def all_woods() -> tuple[Wood, ...]:
    """Every wood of the tables, in their order."""
    return tuple(_woods().values())


def _once(woods: Iterable[Wood]) -> list[Wood]:
    """Woods, less the rows of Table 4-3 that belong to another one of them."""
    found = list(woods)
    belonging = {_names()["shrinkage"].get(wood.name) for wood in found}
    return [wood for wood in found if wood.name not in belonging]


def _words(text: str) -> list[str]:
    """Words in small letters, a German's umlauts as the tables have them."""
    return re.findall(r"[a-z]+", text.lower().translate(_SPELT))


def _listed(woods: Iterable[Wood]) -> str:
    names = [f"'{wood.name}'" for wood in woods]
    more = ", ..." if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more


def _nearest(asked: list[str]) -> str:
    """Woods that share a word with these, or one that is spelt nearly so."""
    from difflib import get_close_matches

    known = {word: wood for wood in reversed(all_woods()) for word in _words(wood.name)}
    known = {word: wood for word, wood in known.items() if len(word) > 2}
    close = [found for word in asked for found in get_close_matches(word, known, n=2)]
    near = dict.fromkeys(
        wood for word in close for wood in all_woods() if word in _words(wood.name)
    )
    own = "or give its figures under [[wood]]"
    return f"did you mean {_listed(near)}? {own}" if near else f"see the tables; {own}"


# -- the tables


def _file(name: str) -> str:
    return Path(__file__).with_name(name).read_text(encoding="utf-8")


def _rows(name: str) -> list[dict[str, str]]:
    lines = [line for line in _file(name).splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@cache
def _names() -> dict[str, dict[str, str]]:
    return tomllib.loads(_file("names.toml"))


def _figure(written: str, how: str, per: int = 1) -> Figure | None:
    """A figure as printed; None where the table has a blank. `per` 100 turns percent to shares."""
    if not written:
        return None
    digits = len(written.replace(".", "").lstrip("0"))
    return Figure(Fraction(written) / per, digits, how == "read")


def _table_of(row: dict[str, str]) -> str:
    """The table that a wood's shrinkage stands in."""
    return "Table 4-4" if row["group"] == "imported" else "Table 4-3"


@cache
def _woods() -> dict[str, Wood]:
    names = _names()
    shrinkage = {row["species"]: row for row in _rows("shrinkage.csv")}
    gravity = {row["species"]: row for row in _rows("specific_gravity.csv")}

    def rest(wood: Wood) -> Wood:
        shrinks = shrinkage.get(names["shrinkage"].get(wood.name, wood.name))
        weighs = gravity.get(names["gravity"].get(wood.name, wood.name))
        return wood._replace(
            shrinks=(None, None) if shrinks is None else (
                _figure(shrinks["radial"], shrinks["how"]),
                _figure(shrinks["tangential"], shrinks["how"]),
            ),
            shrinks_in="" if shrinks is None else _table_of(shrinks),
            starts_at=Fraction(names["starts_at"].get(wood.name, STARTS_AT)),
            gravity=None if weighs is None else _figure(weighs["gravity"], weighs["how"]),
        )

    found: dict[str, Wood] = {}
    for row in _rows("dimensional_change.csv"):
        found[row["species"]] = rest(Wood(
            row["species"], f"{HANDBOOK}, Table 13-5",
            _figure(row["radial"], row["how_radial"]),
            _figure(row["tangential"], row["how_tangential"]),
        ))
    for name, row in shrinkage.items():
        if name not in found:
            found[name] = rest(Wood(name, f"{HANDBOOK}, {_table_of(row)}"))
    for name in gravity:
        if name not in found and name not in names["gravity"].values():
            found[name] = rest(Wood(name, f"{HANDBOOK}, Table 5-3"))
    for row in _rows("european.csv"):
        name = f"{row['species']} ({row['german']})"
        if name not in found:
            found[name] = Wood(
                name, EUROPEAN, _figure(row["radial"], row["how"], 100),
                _figure(row["tangential"], row["how"], 100),
            )
    return found
