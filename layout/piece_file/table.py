"""A table of a TOML file that is asked for its keys one by one, and knows where each stands.

Nothing here knows what a piece is: this module reads values of a wanted kind, and turns whatever
is wrong with a file into one BadPiece with its file, line and key. Keys that nobody asked for are
refused at the end (`Table.finish`), because a misspelt key is a size that silently went missing.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Literal

from layout.errors import BadMeasure, BadPiece, Where
from layout.measure import read_count, read_length
from layout.piece_file.lines import MOST_FIGURES, MOST_LEVELS, KeyPath, Scan, scan

MOST_BYTES = 1_000_000
"""A piece file is a few kilobytes; anything near this is some other file."""

MOST_SHOWN = 40
"""Characters of a maker's value that a message repeats."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")


# -- opening a file


def read_toml(path: str | Path) -> Table:
    """The root table of a TOML file. BadPiece where the file can't be opened, read or parsed."""
    file = str(path)
    try:
        with open(path, "rb") as opened:
            written = opened.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise _bad_file(file, "there is no such file", "check the name and the folder") from None
    except IsADirectoryError:
        raise _bad_file(file, "this is a folder", "name the piece file in it") from None
    except PermissionError:
        raise _bad_file(
            file, "this file may not be read", "change its permissions, or copy it"
        ) from None
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        reason = getattr(error, "strerror", None) or str(error)
        raise _bad_file(file, f"this file can't be read ({reason})", "check the name") from None
    if len(written) > MOST_BYTES:
        raise _too_large(file)
    try:
        text = written.decode("utf-8")
    except UnicodeDecodeError as error:
        line = written.count(b"\n", 0, error.start) + 1
        raise _bad_file(
            file, "this is not a text file in UTF-8", "save it as plain text in UTF-8", line
        ) from None
    return parse_toml(text, file)


def parse_toml(text: str, file: str) -> Table:
    """The root table of a TOML text; `file` is the name that errors give. BadPiece if it can't be.

    Numbers with a point come as Decimal, so that nothing is rounded on the way in. Besides what
    TOML itself refuses, so are keys more than MOST_LEVELS deep and bare numbers of more than
    MOST_FIGURES characters: tomllib would take very long over the first and fail on the second.
    """
    if len(text) > MOST_BYTES:
        raise _too_large(file)
    file = one_line(file)  # a file's name may hold a line end; a message may not
    text = text.removeprefix("\ufeff")  # the byte order mark that some editors put first
    seen = scan(text)
    if seen.deep is not None:
        raise _bad_file(
            file,
            f"more than {MOST_LEVELS} levels of lists and tables, one inside another",
            "write it flatter",
            seen.deep,
        )
    if seen.long is not None:
        raise _bad_file(
            file,
            f"a value without quotes that is longer than {MOST_FIGURES} characters",
            "put text in quotes, and write a size with fewer figures",
            seen.long,
        )
    try:
        values = tomllib.loads(text, parse_float=_decimal)
    except tomllib.TOMLDecodeError as error:
        raise _bad_syntax(str(error), text, file, seen) from None
    except (ValueError, ArithmeticError, RecursionError):
        # The scan above has refused what is known to lead here; this is for what isn't known.
        raise _bad_file(
            file, "this can't be read as TOML", "look for a very long number or deep brackets"
        ) from None
    return Table(values, _Source(file, seen.lines))


def _decimal(written: str) -> Decimal:
    """A TOML number with a point or a power, unrounded.

    Decimal itself fails on a power of some twenty figures. Such a number is no size either way,
    so it becomes one that every reader of a size refuses, there where the key and line are known.
    """
    try:
        return Decimal(written)
    except ArithmeticError:
        return Decimal("Infinity")


def _bad_file(file: str, what: str, cure: str, line: int | None = None) -> BadPiece:
    return BadPiece(one_line(what), one_line(cure), Where(one_line(file), line))


def _too_large(file: str) -> BadPiece:
    return _bad_file(
        file, f"more than {MOST_BYTES // 1000} kB is no piece file", "check the name of the file"
    )


# What tomllib says, at the start of its message, and what a maker is told instead.
_SYNTAX = (
    (
        "Expected newline or end of document after a statement",
        "something follows the value on this line",
        'put a size with a fraction, a comma or a unit in quotes, e.g. "2 1/2"',
    ),
    (
        "Invalid value",
        "no value that can be read stands here",
        "put text and fractions in quotes; write 0.5, not .5; true and false have small letters",
    ),
    ("Expected '=' after a key", "an = is missing after the key", "write key = value"),
    (
        "Invalid statement",
        "this line is no key = value",
        "write key = value, the key in letters from a to z; put # before a remark",
    ),
    (
        "Invalid initial character for a key",
        "a key is missing here",
        "keys are letters, figures and _; no comma goes before a closing }",
    ),
    ("Expected ']]'", "the ]] is missing", "write the heading as [[name]]"),
    ("Expected ']'", "the ] is missing", "write the heading as [name]"),
    ("Unclosed array", "the list isn't closed", "put a comma between its items and ] at its end"),
    (
        "Unclosed inline table",
        "the { is not closed on its own line",
        "put a comma between its keys and } at its end, all on one line",
    ),
    ("Unterminated string", "the closing quote is missing", "end the text with the same quote"),
    ("Expected \"'''\"", "the closing ''' is missing", "end the text with the same quotes"),
    ('Expected \'"""\'', 'the closing """ is missing', "end the text with the same quotes"),
    ('Expected "\'"', "the closing quote is missing", "end the text with the same quote"),
    (
        "Illegal character '\\n'",
        "the closing quote is missing on this line",
        "end the text with the same quote",
    ),
    ("Illegal character", "a control character stands in the text", "take it out"),
    ("Found invalid character", "a control character or line end is in the way", "take it out"),
    ("Unescaped '\\'", "a \\ stands alone in the text", "write \\\\, or use single quotes"),
    ("Invalid hex value", "a \\u needs four hexadecimal figures", "write the character itself"),
    ("Escaped character", "this \\u stands for no character", "write the character itself"),
    ("Cannot overwrite", "this key or heading is used twice", "keep one of the two"),
    ("Duplicate inline table key", "this key is used twice", "keep one of the two"),
    (
        "Cannot declare",
        "this heading is used twice, or is a key already",
        "keep one; where several are meant, write each with double brackets, e.g. [[frame.rail]]",
    ),
    ("Cannot ", "this adds to a table that is closed already", "write all its keys in one place"),
    ("Invalid date", "there is no such date or time", "put text in quotes"),
)
_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_CURLY = "“”„‟‘’‚‛″′"


def _bad_syntax(message: str, text: str, file: str, seen: Scan) -> BadPiece:
    """tomllib's message as a maker's sentence, with its line."""
    place = _PLACE.search(message)
    told = message[: place.start()] if place else message
    if place and place[1]:
        line, column = int(place[1]), int(place[2])
    else:
        line, column = text.rstrip().count("\n") + 1, None
    what, cure = f"this can't be read as TOML ({_cut(told)})", "see the line named here"
    for start, plain, better in _SYNTAX:
        if told.startswith(start):
            what, cure = plain, better
            break
    if told.startswith(("Cannot overwrite", "Duplicate")) and seen.twice is not None:
        path, first, line = seen.twice
        what = f"{_shown(str(path[-1]))} is given twice"
        cure = f"keep one of the two; the first is on line {first}"
    elif column is not None and _character(text, line, column) in _CURLY:
        what, cure = "a curly quote stands here", 'use straight quotes, as in "2 1/2"'
    elif seen.unclosed is not None and (column is None or seen.unclosed < line):
        if column is None:  # the text ran out: where it began says more than where it ends
            line = seen.unclosed
            if told.startswith(("Invalid value", "Unclosed")):
                what, cure = "what is opened here is never closed", "put ] or } at its end"
        else:
            cure += f" (or close what was opened on line {seen.unclosed})"
    return _bad_file(file, what, cure, line)


def _character(text: str, line: int, column: int) -> str:
    """The character at a place that tomllib named; a space past the end of the line."""
    row = text.split("\n")[line - 1]
    return row[column - 1 : column] or " "


# -- words for messages


def one_line(text: str) -> str:
    """The text with every line end, control and other unprintable character written as escape."""
    return "".join(
        char if char.isprintable() else char.encode("unicode_escape").decode() for char in text
    )


def _cut(text: str) -> str:
    text = one_line(text[: MOST_SHOWN + 1])
    return text if len(text) <= MOST_SHOWN else text[: MOST_SHOWN - 1] + "…"


def _quoted(value: object) -> str:
    """A value as the maker wrote it, near enough to be found again, and never long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        whole = repr(value[:MOST_SHOWN])
        if len(whole) <= MOST_SHOWN:
            return whole
        return f"{whole[: MOST_SHOWN - 2]}…{whole[-1]}"
    return _cut(str(value))


def _shown(key: str) -> str:
    """A key in a path: bare if it can be, in quotes otherwise."""
    return _cut(key) if _BARE.fullmatch(key) else _quoted(key)


def _kind(value: object) -> str:
    """What a maker calls a value of this type."""
    if isinstance(value, bool):
        return "true/false"
    if isinstance(value, str):
        return f"text ({_quoted(value)})"
    if isinstance(value, (int, Decimal)):
        return f"a number ({_quoted(value)})"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "a table"
    return "a date"  # of the kinds of value in TOML only dates and times are left


def _nearest(word: str, words: Sequence[str]) -> str | None:
    """The one of `words` that `word` was probably meant to be, whatever its capitals."""
    from difflib import get_close_matches

    by_small = {known.lower(): known for known in words}
    # no word of ours is as long as this; comparing a very long one takes very long
    close = get_close_matches(word[:MOST_SHOWN].lower(), by_small, n=1)
    return by_small[close[0]] if close else None


# -- the table


@dataclass(frozen=True)
class _Source:
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
        self, values: Mapping[str, object], source: _Source, path: KeyPath = (), label: str = ""
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
        return f"{self._label}.{_shown(key)}" if self._label else _shown(key)

    def _error(self, at: KeyPath, what: str, cure: str) -> BadPiece:
        return BadPiece(one_line(what), one_line(cure), self._where(at))

    def _missing(self, key: str, cure: str) -> BadPiece:
        near = _nearest(key, [word for word in self._values if word not in self._asked])
        if near is not None:
            found = f"{_shown(key)} is missing, but there is '{_shown(near)}'"
            return self._error((near,), found, f"did you mean '{_shown(key)}'?")
        return self.error(key, f"{_shown(key)} is missing", cure)

    def _wrong_kind(self, at: KeyPath, wanted: str, value: object, cure: str) -> BadPiece:
        return self._error(at, f"{wanted} is wanted here, not {_kind(value)}", cure)

    def _ask(self, key: str) -> object | None:
        """The raw value; None if absent (TOML has no empty value). The key is known from now on."""
        self._asked.setdefault(key)
        return self._values.get(key)

    def has(self, key: str) -> bool:
        """Whether the key is there. It counts as known from now on."""
        return self._ask(key) is not None

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
        unit: Literal["in", "mm"],
        default: Sequence[Fraction] | None = None,
        *,
        cure: str = "",
    ) -> list[Fraction]:
        """A list of at least one length, each more than 0, in mm and in the order written."""
        items = self._list(key, "a list of lengths", f'{_shown(key)} = ["1/4", "3/8"]')
        if items is None:
            if default is None:
                raise self._missing(key, cure)
            return list(default)
        return [
            self._length((key, index), item, unit, positive=True, zero_ok=False)
            for index, item in enumerate(items)
        ]

    def _length(
        self,
        at: KeyPath,
        value: object,
        unit: Literal["in", "mm"],
        positive: bool,
        zero_ok: bool,
    ) -> Fraction:
        cure = 'write a number, or in quotes a fraction or a size with its unit, e.g. "2 1/2"'
        if isinstance(value, bool) or not isinstance(value, (str, int, Decimal)):
            raise self._wrong_kind(at, "a length", value, cure)
        try:
            length = read_length(value, unit, signed=not positive)
        except BadMeasure as error:
            raise self._error(at, error.what, error.cure) from None
        if positive and length == 0 and not zero_ok:
            raise self._error(at, f"this length must be more than 0, not {_quoted(value)}", "")
        return length

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
        items = self._list(key, "a list of texts", f'{_shown(key)} = ["one", "two"]')
        if items is None:
            if default is None:
                raise self._missing(key, cure)
            return list(default)
        found: dict[str, None] = {}
        for index, item in enumerate(items):
            one = self._text((key, index), item, most)
            if one in found:
                raise self._error((key, index), f"{_quoted(one)} is in the list twice", "keep one")
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
        near = _nearest(value, options)
        raise self._error(
            (key,),
            f"{_quoted(value)} can't be chosen here",
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
            name = _shown(key)
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
                at, f"{_quoted(text)} has {len(text)} characters", f"write at most {most}"
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
                    label += f" ({_cut(name.strip())})"
                found.append(Table(item, self._source, (*self._path, key, index), label))
            self._children[key] = found
        return self._children[key]

    def _heading(self, key: str) -> str:
        """The key as it stands in a heading between brackets: without places in lists."""
        parts = [part for part in self._path if isinstance(part, str)]
        return ".".join(_shown(part) for part in (*parts, key))

    # -- the end

    def finish(self) -> None:
        """Refuse keys that nobody asked for, here and in every table that was handed out."""
        unknown = list(self._unknown())
        if not unknown:
            return
        # a key without a line comes last; among equals the order in the file stays
        table, key = min(unknown, key=lambda found: found[0].where(found[1]).line or MOST_BYTES)
        more = f" (and {len(unknown) - 1} more further on)" if len(unknown) > 1 else ""
        known = list(table._asked)
        if known:
            cure = f"known keys here: {', '.join(known)}"
            near = _nearest(key, known)
            if near is not None:
                cure = f"did you mean {near!r}? {cure}"
        else:
            cure = "no keys are known here: take it out"
        raise table.error(key, f"unknown key {_quoted(key)}{more}", cure)

    def _unknown(self) -> Iterator[tuple[Table, str]]:
        for key in self._values:
            if key not in self._asked:
                yield self, key
        for children in self._children.values():
            for child in children:
                yield from child._unknown()
