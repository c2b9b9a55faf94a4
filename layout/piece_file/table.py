"""A table of a TOML file that is asked for its keys one by one, and knows where each stands.

Nothing here knows what a piece is: this module reads values of a wanted kind, and turns whatever
is wrong with a file into one BadPiece with its file, line and key. Keys that nobody asked for are
refused at the end (`Table.finish`), because a misspelt key is a size that silently went missing.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from layout.errors import BadMeasure, BadPiece, Where
from layout.measure import read_count, read_length
from layout.piece_file.lines import KeyPath
from layout.piece_file.words import cut, kind_of, nearest, one_line, quoted, shown_key

_LAST = 10**9  # stands for the line of a key whose line is not known: after all others


@dataclass(frozen=True)
class Source:
    """The file that tables come from, and the lines of its keys."""

    file: str
    lines: Mapping[KeyPath, int]

    def line(self, path: KeyPath) -> int | None:
        """The line of a key, or of the nearest table or list around it."""
        while path:
            if path in self.lines:
                return self.lines[path]
            path = path[:-1]
        return None


class Table:
    """One table of a piece file.

    Ask it for each key with the method of the kind that is wanted. A key that is there but of
    another kind, or out of bounds, is a BadPiece with its place. A key that is absent gives the
    default, and where there is none a BadPiece whose cure is the caller's `cure`. When all has
    been asked for, call `finish` on the root.
    """

    def __init__(
        self, values: Mapping[str, object], source: Source, path: KeyPath = (), label: str = ""
    ) -> None:
        """`values` as tomllib gives them; `label` is the table's name in messages."""
        self._values = values
        self._source = source
        self._path = path
        self._label = label
        self._asked: dict[str, None] = {}  # in the order of asking, for the list of known keys
        self._children: dict[str, list[Table]] = {}

    # -- places and errors

    def where(self, key: str | None = None) -> Where:
        """The place of a key, or of the table itself. A key that is absent has its table's line."""
        return self._where(() if key is None else (key,))

    def error(self, key: str | None, what: str, cure: str = "") -> BadPiece:
        """A BadPiece at a key, or at the table itself: to be raised by the caller."""
        return self._error(() if key is None else (key,), what, cure)

    def _where(self, at: KeyPath) -> Where:
        """The place of this table, of a key in it (key,), or of an item in a list (key, index)."""
        label = self._label
        if at:
            label = self._under(str(at[0]))
        for index in at[1:]:
            label += f" {int(index) + 1}"  # makers count from 1
        return Where(self._source.file, self._source.line((*self._path, *at)), label or None)

    def _under(self, key: str) -> str:
        return f"{self._label}.{shown_key(key)}" if self._label else shown_key(key)

    def _error(self, at: KeyPath, what: str, cure: str) -> BadPiece:
        return BadPiece(one_line(what), one_line(cure), self._where(at))

    def _missing(self, key: str, cure: str) -> BadPiece:
        near = nearest(key, [word for word in self._values if word not in self._asked])
        if near is not None:
            found = f"{shown_key(key)} is missing, but there is '{shown_key(near)}'"
            return self._error((near,), found, f"did you mean '{shown_key(key)}'?")
        return self.error(key, f"{shown_key(key)} is missing", cure)

    def _wrong_kind(self, at: KeyPath, wanted: str, value: object, cure: str) -> BadPiece:
        return self._error(at, f"{wanted} is wanted here, not {kind_of(value)}", cure)

    def _ask(self, key: str) -> object | None:
        """The raw value; None if absent (TOML has no empty value). The key is known from now on."""
        self._asked.setdefault(key)
        return self._values.get(key)

    def has(self, key: str) -> bool:
        """Whether the key is there. It counts as known from now on."""
        return self._ask(key) is not None

    def is_false(self, key: str) -> bool:
        """Whether the key is there and turned off with `false`."""
        return self._ask(key) is False

    def is_list(self, key: str) -> bool:
        """Whether the key is there and holds a list."""
        return isinstance(self._ask(key), list)

    # -- lengths

    def length(
        self,
        key: str,
        unit: Literal["in", "mm"],
        default: Fraction | None = None,
        *,
        cure: str = "",
        positive: bool = True,
        zero_ok: bool = False,
    ) -> Fraction:
        """A length in mm; a bare number counts in `unit`. Without a default the key must be there.

        More than 0 is wanted, unless `zero_ok` allows 0, or `positive=False` any length.
        """
        found = self.optional_length(key, unit, positive=positive, zero_ok=zero_ok)
        if found is not None:
            return found
        if default is None:
            raise self._missing(key, cure)
        return default

    def optional_length(
        self,
        key: str,
        unit: Literal["in", "mm"],
        *,
        positive: bool = True,
        zero_ok: bool = False,
    ) -> Fraction | None:
        """A length in mm as `length` reads it, or None where the key is absent."""
        value = self._ask(key)
        if value is None:
            return None
        return self._length((key,), value, unit, positive, zero_ok)

    def lengths(
        self,
        key: str,
        unit: Literal["in", "mm"] | None,
        default: Sequence[Fraction] | None = None,
        *,
        cure: str = "",
    ) -> list[Fraction]:
        """A list of at least one length, each more than 0, in mm and in the order written.

        With `unit` None a bare number is refused: every length must name its own unit.
        """
        items = self._list(key, "a list of lengths", f'{shown_key(key)} = ["1/4", "3/8"]')
        if items is None:
            if default is None:
                raise self._missing(key, cure)
            return list(default)
        return [
            self._length((key, index), item, unit, positive=True, zero_ok=False)
            for index, item in enumerate(items)
        ]

    def lengths_or(
        self, key: str, unit: Literal["in", "mm"], word: str
    ) -> tuple[Fraction | None, ...]:
        """A list of lengths as `lengths` reads it, in which `word` may stand for one: None there.
        """
        items = self._list(key, "a list of lengths", f'{shown_key(key)} = ["3 1/4", "{word}"]')
        return tuple(
            None
            if item == word
            else self._length((key, index), item, unit, positive=True, zero_ok=False)
            for index, item in enumerate(items or ())
        )

    def _length(
        self,
        at: KeyPath,
        value: object,
        unit: Literal["in", "mm"] | None,
        positive: bool,
        zero_ok: bool,
    ) -> Fraction:
        cure = 'write a number, or in quotes a fraction or a size with its unit, e.g. "2 1/2"'
        if isinstance(value, bool) or not isinstance(value, (str, int, Decimal)):
            raise self._wrong_kind(at, "a length", value, cure)
        try:
            length = read_length(value, unit or "mm", signed=not positive)
            own = unit is not None or length == read_length(value, "in", signed=not positive)
        except BadMeasure as error:
            raise self._error(at, error.what, error.cure) from None
        if not own:
            better = 'write the unit with it, e.g. "1/4 in", or unit = "in" at the top of the file'
            raise self._error(at, f"{quoted(value)} names no unit, and the file none", better)
        if positive and length == 0 and not zero_ok:
            raise self._error(at, f"this length must be more than 0, not {quoted(value)}", "")
        return length

    def value(self, key: str, cure: str = "") -> str | int | Decimal:
        """A number or a text as it stands, for a reader of its own; the key must be there."""
        value = self._ask(key)
        if value is None:
            raise self._missing(key, cure)
        if isinstance(value, bool) or not isinstance(value, (str, int, Decimal)):
            raise self._wrong_kind((key,), "a number or a text", value, cure)
        return value

    # -- text, choices, counts, flags

    def text(self, key: str, default: str | None = None, most: int = 80, *, cure: str = "") -> str:
        """Text of 1 to `most` characters on one line, without the spaces around it."""
        value = self._ask(key)
        if value is None:
            if default is None:
                raise self._missing(key, cure)
            return default
        return self._text((key,), value, most)

    def texts(
        self,
        key: str,
        default: Sequence[str] | None = None,
        most: int = 80,
        *,
        cure: str = "",
    ) -> list[str]:
        """A list of at least one text, none of them twice, each as `text` reads it."""
        items = self._list(key, "a list of texts", f'{shown_key(key)} = ["one", "two"]')
        if items is None:
            if default is None:
                raise self._missing(key, cure)
            return list(default)
        found: dict[str, None] = {}
        for index, item in enumerate(items):
            one = self._text((key, index), item, most)
            if one in found:
                raise self._error((key, index), f"{quoted(one)} is in the list twice", "keep one")
            found[one] = None
        return list(found)

    def choice(
        self, key: str, options: Sequence[str], default: str | None = None, *, cure: str = ""
    ) -> str:
        """One of `options`, spelt as there."""
        value = self._ask(key)
        if value is None:
            if default is None:
                raise self._missing(key, cure or f"write one of: {', '.join(options)}")
            return default
        listed = f"write one of: {', '.join(options)}"
        if not isinstance(value, str):
            raise self._wrong_kind((key,), "text", value, listed)
        if value in options:
            return value
        near = nearest(value, options)
        raise self._error(
            (key,),
            f"{quoted(value)} can't be chosen here",
            f"did you mean {near!r}? {listed}" if near is not None else listed,
        )

    def count(
        self, key: str, least: int, most: int, default: int | None = None, *, cure: str = ""
    ) -> int:
        """A whole number from `least` to `most`."""
        value = self._ask(key)
        if value is None:
            if default is None:
                raise self._missing(key, cure)
            return default
        better = f"write a whole number from {least} to {most}"
        if isinstance(value, bool) or not isinstance(value, (str, int, Decimal)):
            raise self._wrong_kind((key,), "a whole number", value, better)
        try:
            return read_count(value, least, most)
        except BadMeasure as error:
            raise self._error((key,), error.what, error.cure) from None

    def flag(self, key: str, default: bool | None = None, *, cure: str = "") -> bool:
        """true or false."""
        value = self._ask(key)
        if value is None:
            if default is None:
                raise self._missing(key, cure)
            return default
        if not isinstance(value, bool):
            name = shown_key(key)
            better = f"write {name} = true or {name} = false, without quotes"
            raise self._wrong_kind((key,), "true/false", value, better)
        return value

    def _text(self, at: KeyPath, value: object, most: int) -> str:
        if not isinstance(value, str):
            raise self._wrong_kind(at, "text", value, "put text in quotes")
        text = value.strip()
        if not text:
            raise self._error(at, "this text is empty", "write something between the quotes")
        if len(text) > most:
            raise self._error(
                at, f"{quoted(text)} has {len(text)} characters", f"write at most {most}"
            )
        for char in text:
            kind = unicodedata.category(char)
            if kind.startswith("C") or kind in ("Zl", "Zp"):
                raise self._error(
                    at,
                    f"a character that can't be printed (U+{ord(char):04X}) is in this text",
                    "write it on one line, in plain letters",
                )
        return text

    def _list(self, key: str, wanted: str, example: str) -> list[object] | None:
        value = self._ask(key)
        if value is None:
            return None
        if not isinstance(value, list):
            raise self._wrong_kind((key,), wanted, value, f"put it in brackets, e.g. {example}")
        if not value:
            raise self._error((key,), "this list is empty", f"e.g. {example}")
        return value

    # -- tables inside this one

    def table(self, key: str, *, optional: bool = False, cure: str = "") -> Table:
        """The table under a key; an empty one if it is absent and `optional`."""
        value = self._ask(key)
        if value is None and not optional:
            raise self._missing(key, cure or f"write it under [{self._heading(key)}]")
        if isinstance(value, list):
            raise self._error(
                (key,),
                "one table is wanted here, not a list",
                f"write [{self._heading(key)}] once, with single brackets",
            )
        if value is not None and not isinstance(value, dict):
            raise self._wrong_kind(
                (key,), "a table", value, f"write its keys under [{self._heading(key)}]"
            )
        if key not in self._children:
            path = (*self._path, key)
            self._children[key] = [Table(value or {}, self._source, path, self._under(key))]
        return self._children[key][0]

    def table_or_off(self, key: str) -> Table | Literal[False] | None:
        """The table under a key, False where the key is `false`, None where it is absent."""
        value = self._ask(key)
        if value is None:
            return None
        if value is False:
            return False
        if value is True:
            name = shown_key(key)
            raise self._error((key,), "a table is wanted here, not true", f"write {name} = {{}}")
        return self.table(key)

    def tables(self, key: str) -> list[Table]:
        """The tables under [[key]], in their order; none if the key is absent."""
        value = self._ask(key)
        if value is None:
            return []
        heading = self._heading(key)
        if isinstance(value, dict):
            raise self._error(
                (key,),
                "a list of tables is wanted here, not a single one",
                f"double the brackets: [[{heading}]]",
            )
        if not isinstance(value, list):
            raise self._wrong_kind(
                (key,), "a list of tables", value, f"write each under [[{heading}]]"
            )
        if key not in self._children:
            found = []
            for index, item in enumerate(value):
                if not isinstance(item, dict):
                    raise self._wrong_kind(
                        (key, index), "a table", item, f"write each under [[{heading}]]"
                    )
                label = f"{self._under(key)} {index + 1}"
                name = item.get("name")
                if isinstance(name, str) and name.strip():
                    label += f" ({cut(name.strip())})"
                found.append(Table(item, self._source, (*self._path, key, index), label))
            self._children[key] = found
        return self._children[key]

    def _heading(self, key: str) -> str:
        """The key as it stands in a heading between brackets: without places in lists."""
        parts = [part for part in self._path if isinstance(part, str)]
        return ".".join(shown_key(part) for part in (*parts, key))

    # -- the end

    def finish(self) -> None:
        """Refuse keys that nobody asked for, here and in every table that was handed out."""
        unknown = list(self._unknown())
        if not unknown:
            return
        # a key without a line comes last; among equals the order in the file stays
        table, key = min(unknown, key=lambda found: found[0].where(found[1]).line or _LAST)
        more = f" (and {len(unknown) - 1} more further on)" if len(unknown) > 1 else ""
        known = list(table._asked)
        if known:
            cure = f"known keys here: {', '.join(known)}"
            near = nearest(key, known)
            if near is not None:
                cure = f"did you mean {near!r}? {cure}"
        else:
            cure = "no keys are known here: take it out"
        raise table.error(key, f"unknown key {quoted(key)}{more}", cure)

    def _unknown(self) -> Iterator[tuple[Table, str]]:
        for key in self._values:
            if key not in self._asked:
                yield self, key
        for children in self._children.values():
            for child in children:
                yield from child._unknown()
