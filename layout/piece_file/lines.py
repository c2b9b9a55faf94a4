"""On which line of a TOML text each key stands.

tomllib gives values without lines, and an error without a line sends the maker hunting. This
module walks the same text once more and notes lines only. It never decides a value: tomllib does.
It accepts a little more than TOML, so that it never stops before tomllib would; where the text
stops being TOML it stops too, and keeps what it has found so far.

The grammar is that of TOML v1.0.0 (toml.io/en/v1.0.0, 2021).
"""

from __future__ import annotations

import contextlib
import re
import tomllib
from dataclasses import dataclass

KeyPath = tuple[str | int, ...]
"""From the root to a value: keys of tables as text, places in lists as numbers from 0."""

MOST_LEVELS = 32
"""Keys that lie deeper are not followed (a piece file needs five levels)."""

MOST_FIGURES = 100
"""A bare number or date longer than this many characters is reported in `Scan.long`."""

# Quantifiers that end in + give nothing back (*+, ++): a long text is read once, never twice.
_BLANK = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_SPACE = re.compile(r"[ \t]*+")
_DOT = re.compile(r"[ \t]*+\.[ \t]*+")
_EQUALS = re.compile(r"[ \t]*+=[ \t]*+")
_COMMA = re.compile(r",")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]++")
_BASIC = re.compile(r'"(?:[^"\\\n]++|\\[^\n])*+"')
_LITERAL = re.compile(r"'[^'\n]*+'")
# Up to two quotes may stand right before the three that close a multi-line string.
_LONG_BASIC = re.compile(r'"""(?:[^"\\]++|\\.|"(?!""))*+""""{0,2}', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''(?:[^']++|'(?!''))*+''''{0,2}")
# A date may hold a space, so a bare value runs to whatever can only come after one.
_BARE_VALUE = re.compile(r"[^,\]}#\r\n]++")
_BRACKETS = {"[": "]", "{": "}"}


@dataclass(frozen=True)
class Scan:
    """What a walk through a TOML text found; lines are counted from 1.

    `lines` holds the line of every key path. `deep` is the line at which keys went deeper than
    MOST_LEVELS (the walk ends there). `long` is the first line with a bare value longer than
    MOST_FIGURES. `unclosed` is the line where the list, inline table or string began that was
    still open when the text ended or stopped being TOML. `twice` is the first key that is written
    a second time, with the lines of both.
    """

    lines: dict[KeyPath, int]
    deep: int | None
    long: int | None
    unclosed: int | None
    twice: tuple[KeyPath, int, int] | None


def key_lines(text: str) -> dict[KeyPath, int]:
    """The line, from 1, of every key path in a TOML text.

    A table's line is that of its own header, or where there is none that of the first key below
    it. An array of tables has the line of its first header, each of its items the line of its own.
    Items of inline lists count too. A path that is missing has no line of its own; its nearest
    parent then serves. Raises nothing, whatever the text.
    """
    return scan(text).lines


def scan(text: str) -> Scan:
    """The lines of all keys, and what a reader should know before it hands the text to tomllib."""
    walk = _Walk(text)
    with contextlib.suppress(_Lost):
        walk.document()
    unclosed = walk.open[-1].line if walk.open else None
    if walk.open_string is not None:
        unclosed = walk.open_string
    return Scan(walk.lines, walk.deep, walk.long, unclosed, walk.twice)


class _Lost(Exception):
    """From here on the text isn't TOML, or lies too deep; tomllib or the caller says how."""


@dataclass
class _Open:
    """A list or inline table that is not closed yet, and how many items it has so far."""

    bracket: str
    path: KeyPath
    line: int
    count: int = 0


class _Walk:
    """One pass through a text. `at` is the next character, `line` the line it stands on."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.table: KeyPath = ()
        self.lines: dict[KeyPath, int] = {}
        self.items: dict[KeyPath, int] = {}  # how many [[headers]] each array of tables has had
        self.open: list[_Open] = []
        self.open_string: int | None = None
        self.deep: int | None = None
        self.long: int | None = None
        self.twice: tuple[KeyPath, int, int] | None = None

    def document(self) -> None:
        """Every header and every `key = value`, to the end of the text."""
        while True:
            self._take(_BLANK)
            if self.at == len(self.text):
                return
            if self.text.startswith("[[", self.at):
                self._header("[[", "]]")
            elif self.text.startswith("[", self.at):
                self._header("[", "]")
            else:
                path = self._pair(self.table)
                self._value(path)

    # -- pieces of the grammar

    def _take(self, pattern: re.Pattern[str]) -> str | None:
        """Step over what the pattern matches here; None, and no step, where it doesn't."""
        match = pattern.match(self.text, self.at)
        if match is None:
            return None
        self.at = match.end()
        self.line += match.group().count("\n")
        return match.group()

    def _need(self, word: str) -> None:
        if not self.text.startswith(word, self.at):
            raise _Lost
        self.at += len(word)

    def _key(self) -> tuple[str, ...]:
        """A key, dotted or not, as its parts."""
        parts = [self._key_part()]
        while self._take(_DOT) is not None:
            parts.append(self._key_part())
        return tuple(parts)

    def _key_part(self) -> str:
        bare = self._take(_BARE_KEY)
        if bare is not None:
            return bare
        literal = self._take(_LITERAL)
        if literal is not None:
            return literal[1:-1]
        basic = self._take(_BASIC)
        if basic is None:
            raise _Lost
        if "\\" not in basic:
            return basic[1:-1]
        try:
            # Escapes have one reader: tomllib, which will be asked for the value too.
            return str(tomllib.loads(f"key = {basic}")["key"])
        except tomllib.TOMLDecodeError:
            raise _Lost from None

    def _header(self, opening: str, closing: str) -> None:
        """`[a.b]` or `[[a.b]]`: the table that the next keys belong to."""
        self._need(opening)
        self._take(_SPACE)
        key = self._key()
        self._take(_SPACE)
        self._need(closing)
        path: KeyPath = ()
        for part in key[:-1]:
            path = (*path, part)
            self._note_parent(path)
            if path in self.items:  # below an array of tables, its last item is meant
                path = (*path, self.items[path] - 1)
        path = (*path, key[-1])
        if opening == "[[":
            self._note_parent(path)
            count = self.items.get(path, 0)
            self.items[path] = count + 1
            path = (*path, count)
        self._note(path)
        self.table = path

    def _pair(self, table: KeyPath) -> KeyPath:
        """`key =`, up to the value; the value's path."""
        path = table
        key = self._key()
        for part in key[:-1]:
            path = (*path, part)
            self._note_parent(path)
        path = (*path, key[-1])
        if path in self.lines and self.twice is None:
            self.twice = (path, self.lines[path], self.line)
        self._note(path)
        if self._take(_EQUALS) is None:
            raise _Lost
        return path

    def _value(self, path: KeyPath) -> None:
        """Step over a value, noting all that stands inside it.

        A loop with a list of what is open, rather than a call inside a call.
        """
        self._begin(path)
        while self.open:
            inner = self.open[-1]
            self._take(_BLANK)
            if inner.count and not self._closes(inner):
                if self._take(_COMMA) is None:
                    raise _Lost
                self._take(_BLANK)
            if self._closes(inner):
                self.at += 1
                self.open.pop()
                continue
            if inner.bracket == "{":
                item = self._pair(inner.path)
            else:
                item = (*inner.path, inner.count)
                self._note(item)
            inner.count += 1
            self._begin(item)

    def _closes(self, inner: _Open) -> bool:
        return self.text.startswith(_BRACKETS[inner.bracket], self.at)

    def _begin(self, path: KeyPath) -> None:
        """Step over a plain value, or open a list or an inline table."""
        first = self.text[self.at : self.at + 1]
        if first in _BRACKETS:
            self.open.append(_Open(first, path, self.line))
            self.at += 1
        elif first in ('"', "'"):
            self._string()
        else:
            bare = self._take(_BARE_VALUE)
            if bare is None:
                raise _Lost
            if len(bare.rstrip()) > MOST_FIGURES and self.long is None:
                self.long = self.line

    def _string(self) -> None:
        began = self.line
        if self.text.startswith('"""', self.at):
            whole = self._take(_LONG_BASIC)
        elif self.text.startswith("'''", self.at):
            whole = self._take(_LONG_LITERAL)
        else:
            whole = self._take(_BASIC) or self._take(_LITERAL)
        if whole is None:
            self.open_string = began
            raise _Lost

    # -- what has been found

    def _note(self, path: KeyPath) -> None:
        """A key that stands here in its own right, even if a key below it came before it."""
        if len(path) > MOST_LEVELS:
            self._too_deep()
        self.lines[path] = self.line

    def _note_parent(self, path: KeyPath) -> None:
        """A table that is only named here on the way to a key in it."""
        if len(path) > MOST_LEVELS:
            self._too_deep()
        self.lines.setdefault(path, self.line)

    def _too_deep(self) -> None:
        self.deep = self.line
        raise _Lost
