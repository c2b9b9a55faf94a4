"""Lines of keys, judged by tomllib and by the rules of TOML v1.0.0 (toml.io/en/v1.0.0, 2021)."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.piece_file.lines import MOST_FIGURES, MOST_LEVELS, KeyPath, key_lines, scan


def paths(value: Any, path: KeyPath = ()) -> Iterator[KeyPath]:
    """Every key path that tomllib's result holds, and every place in its lists."""
    if isinstance(value, dict):
        inside = list(value.items())
    elif isinstance(value, list):
        inside = list(enumerate(value))
    else:
        return
    for key, item in inside:
        yield (*path, key)
        yield from paths(item, (*path, key))


# Each text with the line of every path, counted by hand.
TEXTS: dict[str, tuple[str, dict[KeyPath, int]]] = {
    "nothing": ("", {}),
    "only remarks": ("# piece = 'no'\n\n   # [frame]\n", {}),
    "one key": ('piece = "Bench"', {("piece",): 1}),
    "after remarks": ("# one\n\n\tlength = 48 # three\n", {("length",): 3}),
    "windows line ends": ("a = 1\r\n\r\nb = 2\r\n[c]\r\nd = 3", {
        ("a",): 1, ("b",): 3, ("c",): 4, ("c", "d"): 5,
    }),
    "table": ("[frame]\nlength = 48\n[ kit . 'chisels' ] # x\na = 1", {
        ("frame",): 1, ("frame", "length"): 2,
        ("kit",): 3, ("kit", "chisels"): 3, ("kit", "chisels", "a"): 4,
    }),
    "parent after child": ("[frame.leg]\nwidth = 1\n\n[frame]\nlength = 2", {
        ("frame", "leg"): 1, ("frame", "leg", "width"): 2, ("frame",): 4, ("frame", "length"): 5,
    }),
    "arrays of tables": (
        "[[frame.rail]]\nname = 'a'\n[frame.rail.tenon]\nlength = 1\n"
        "[[frame.rail]]\n[[frame.rail.pin]]\n[[frame.rail.pin]]\nat = 2\n",
        {
            ("frame",): 1, ("frame", "rail"): 1, ("frame", "rail", 0): 1,
            ("frame", "rail", 0, "name"): 2,
            ("frame", "rail", 0, "tenon"): 3, ("frame", "rail", 0, "tenon", "length"): 4,
            ("frame", "rail", 1): 5, ("frame", "rail", 1, "pin"): 6,
            ("frame", "rail", 1, "pin", 0): 6, ("frame", "rail", 1, "pin", 1): 7,
            ("frame", "rail", 1, "pin", 1, "at"): 8,
        },
    ),
    "dotted keys": ("leg.width = 1\nleg . thick = 2\n[x]\na.b.c = 3", {
        ("leg",): 1, ("leg", "width"): 1, ("leg", "thick"): 2,
        ("x",): 3, ("x", "a"): 4, ("x", "a", "b"): 4, ("x", "a", "b", "c"): 4,
    }),
    "quoted keys": (
        "\"a.b\" = 1\n'c = \"d' = 2\n\"e\\\"\\u0041 \\t# [\" = 3\n\"\" = 4\n3.14 = 5\n"
        "['[x]'.\"]\"]",
        {
            ("a.b",): 1, ('c = "d',): 2, ('e"A \t# [',): 3, ("",): 4, ("3",): 5, ("3", "14"): 5,
            ("[x]",): 6, ("[x]", "]"): 6,
        },
    ),
    "text that looks like keys": (
        'a = """\n[frame]\nlength = 1 \\""" \\\\\n"" b = 2"""\nb = \'\'\'\nc = 1\n\\\'\'\'\n'
        'd = "# \\" ] }" # e = 1\nf = \'\\\'\n',
        {("a",): 1, ("b",): 5, ("d",): 8, ("f",): 9},
    ),
    "quotes before closing quotes": (
        'a = """"x"""""\nb = \'\'\'\'x\'\'\'\'\'\nc = """"""\nd = \'\'\'\'\'\'\ne = ""\nf = \'\'',
        {("a",): 1, ("b",): 2, ("c",): 3, ("d",): 4, ("e",): 5, ("f",): 6},
    ),
    "list over lines": ('sides = [ # [\n  "front", # ]\n\n  "ba,]ck"\n  , ]\nwidth = 4', {
        ("sides",): 1, ("sides", 0): 2, ("sides", 1): 4, ("width",): 6,
    }),
    "lists in lists": ("a = [[], [\n1,\n[2]], []]\nb = []", {
        ("a",): 1, ("a", 0): 1, ("a", 1): 1, ("a", 1, 0): 2, ("a", 1, 1): 3, ("a", 1, 1, 0): 3,
        ("a", 2): 3, ("b",): 4,
    }),
    "inline tables": ("a = {}\nb = { x.y = 1, 'z' = { q = [\n"
                      "1, {w = '''\n'''}, 2] }, v = 3 }\nc=1", {
        ("a",): 1, ("b",): 2, ("b", "x"): 2, ("b", "x", "y"): 2, ("b", "z"): 2,
        ("b", "z", "q"): 2, ("b", "z", "q", 0): 3, ("b", "z", "q", 1): 3,
        ("b", "z", "q", 1, "w"): 3, ("b", "z", "q", 2): 4, ("b", "v"): 4, ("c",): 5,
    }),
    "inline tables in a list": ("rail = [\n  { name = 'a', w = 1 },\n  { name = 'b' },\n]", {
        ("rail",): 1, ("rail", 0): 2, ("rail", 0, "name"): 2, ("rail", 0, "w"): 2,
        ("rail", 1): 3, ("rail", 1, "name"): 3,
    }),
    "numbers, dates": (
        "a = -1_000\nb = 6.6e-3\nc = 0xDEAD\nd = 1979-05-27 07:32:00Z # x\n"
        "e = [1979-05-27,\n07:32:00]\nf = -inf\ng=true",
        {
            ("a",): 1, ("b",): 2, ("c",): 3, ("d",): 4, ("e",): 5, ("e", 0): 5, ("e", 1): 6,
            ("f",): 7, ("g",): 8,
        },
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", TEXTS)
def test_lines_counted_by_hand(name: str) -> None:
    text, lines = TEXTS[name]
    # the hand count is held to tomllib first: it names the very paths that tomllib yields
    assert set(lines) == set(paths(tomllib.loads(text)))
    assert key_lines(text) == lines


@pytest.mark.parametrize("name", [name for name in TEXTS if name != "parent after child"])
def test_the_text_before_a_keys_line_does_not_hold_the_key(name: str) -> None:
    """Judged by tomllib alone: whatever it reads from the lines before, the key isn't there.

    Left out is the text whose table is implied before its own header: there the header counts.
    """
    text, _ = TEXTS[name]
    rows = text.replace("\r\n", "\n").split("\n")
    ends = {}
    for count in range(len(rows) + 1):
        try:
            before = set(paths(tomllib.loads("\n".join(rows[:count]))))
        except tomllib.TOMLDecodeError:
            continue
        for path in before:
            ends.setdefault(path, count)
    for path, line in key_lines(text).items():
        assert line <= ends[path]


# -- generated documents: the writer notes the line of each key as it writes it

BARE = st.sampled_from(["width", "rail-2", "3", "_", "Top_Rail", "inf", "true"])
QUOTED = st.sampled_from(
    [
        "",
        "a.b",
        "[x]",
        "x = 1",
        "#",
        "'",
        '"',
        "\\",
        "é",
        "日本",
        "]]",
        "tab\t",
        "two\nlines",
        "\x00",
    ]
)
SCALARS = [
    "0", "-17", "+1_000", "0xBEEF", "0o17", "0b11", "1.5", "6e-3", "-inf", "nan", "true", "false",
    "1979-05-27", "07:32:00.5", "1979-05-27 07:32:00", "1979-05-27T00:32:00-07:00",
    '""', "''", '"a # b"', '"\\"\\\\"', "'\\'", '"[x]"', "'k = 1, ]}'", '"é\\u00e9"',
    '"""a\n[x]\nk = 1\n"""', "'''\n# a\\'''", '""""""', '"""\\\n   b\\""" ""\n"""""', "''''x'''''",
]  # fmt: skip


class Writer:
    """Writes TOML in a layout drawn at random, and keeps what tomllib and key_lines should say."""

    def __init__(self, draw: Any) -> None:
        self.draw = draw
        self.text = ""
        self.lines: dict[KeyPath, int] = {}
        self.number = 0
        self.newline = draw(st.sampled_from(["\n", "\r\n"]))

    def write(self, text: str) -> None:
        self.text += text

    def one_of(self, *options: str) -> str:
        return self.draw(st.sampled_from(options))

    def note(self, path: KeyPath) -> None:
        self.lines.setdefault(path, self.text.count("\n") + 1)

    def gap(self) -> None:
        """What may stand between the items of a list, or between statements."""
        nl = self.newline
        self.write(self.one_of("", " ", "", nl, f" # ] }} x = 1{nl}\t", f"{nl}#[y]{nl}{nl}"))

    def key(self) -> str:
        """A key that is new in the whole document: the number after its last k is."""
        self.number += 1
        before = self.draw(BARE if self.draw(st.booleans()) else QUOTED)
        return f"{before}k{self.number}"

    def key_text(self, key: str) -> str:
        forms = []
        if all(c.isascii() and (c.isalnum() or c in "-_") for c in key):
            forms.append(key)
        if "'" not in key and key.isprintable():
            forms.append(f"'{key}'")
        plain = key.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
        forms.append('"' + plain.replace("\t", "\\t").replace("\x00", "\\u0000") + '"')
        forms.append('"' + "".join(f"\\U{ord(c):08x}" for c in key) + '"')
        return self.draw(st.sampled_from(forms))

    def pair(self, table: KeyPath, depth: int) -> None:
        path = table
        parts = [self.key() for _ in range(self.draw(st.integers(1, 3)))]
        for index, part in enumerate(parts):
            path = (*path, part)
            self.note(path)
            self.write(("" if index == 0 else self.one_of(".", " . ")) + self.key_text(part))
        self.write(self.one_of("=", " = ", "\t= "))
        self.value(path, depth)

    def value(self, path: KeyPath, depth: int) -> None:
        kind = self.draw(st.sampled_from(["scalar", "list", "table"] if depth else ["scalar"]))
        if kind == "scalar":
            self.write(self.draw(st.sampled_from(SCALARS)))
        elif kind == "list":
            self.write("[")
            count = self.draw(st.integers(0, 3))
            for index in range(count):
                self.gap()
                self.note((*path, index))
                self.value((*path, index), depth - 1)
                self.gap()
                if index < count - 1 or self.draw(st.booleans()):
                    self.write(",")
            self.gap()
            self.write("]")
        else:
            self.write("{")
            for index in range(self.draw(st.integers(0, 2))):
                self.write(self.one_of(", ", " ,") if index else self.one_of("", " "))
                self.pair(path, depth - 1)
            self.write(self.one_of("", " "))
            self.write("}")

    def statements(self, table: KeyPath) -> None:
        for _ in range(self.draw(st.integers(0, 2))):
            self.gap()
            self.new_row()
            self.pair(table, 2)
            self.write(self.one_of("", " ", " # k = [1") + self.newline)

    def new_row(self) -> None:
        if self.text and not self.text.endswith("\n"):
            self.write(self.newline)

    def header(self, parent: tuple[KeyPath, str]) -> tuple[KeyPath, str]:
        """A header for a new table or array below `parent`, its keys, and maybe more items."""
        place, heading = parent
        key = self.key()
        shown = self.key_text(key)
        heading = f"{heading} . {shown}" if heading else shown
        array = self.draw(st.booleans())
        path: KeyPath = (*place, key)
        for index in range(self.draw(st.integers(1, 3)) if array else 1):
            self.gap()
            self.new_row()
            self.note(path)
            if array:
                self.note((*path, index))
            self.write(f"[[{heading}]]" if array else f"[ {heading} ]")
            self.write(self.one_of("", "  # [z]") + self.newline)
            self.statements((*path, index) if array else path)
        return ((*path, index) if array else path, heading)


@st.composite
def documents(draw: Any) -> tuple[str, dict[KeyPath, int]]:
    writer = Writer(draw)
    writer.statements(())
    last: tuple[KeyPath, str] = ((), "")
    for _ in range(draw(st.integers(0, 4))):
        last = writer.header(draw(st.sampled_from([((), ""), last])))
    return writer.text, writer.lines


@settings(max_examples=150, deadline=None)
@given(documents())
def test_lines_of_generated_documents(document: tuple[str, dict[KeyPath, int]]) -> None:
    text, lines = document
    assert set(lines) == set(paths(tomllib.loads(text)))  # the writer writes what it means
    assert key_lines(text) == lines


@settings(max_examples=100, deadline=None)
@given(documents(), st.data())
def test_no_text_is_an_error_and_what_came_before_stays(
    document: tuple[str, dict[KeyPath, int]], data: st.DataObject
) -> None:
    """Cut anywhere: keys above the cut keep their lines, save those that a later header moves."""
    text, lines = document
    cut = data.draw(st.integers(0, len(text)))
    found = key_lines(text[:cut])
    whole_rows = text[:cut].count("\n")
    assert all(found.get(path) == line for path, line in lines.items() if line <= whole_rows)
    assert all(line <= whole_rows + 1 for line in found.values())


@settings(max_examples=100, deadline=None)
@given(st.text() | st.text(alphabet="[]{}\"'\\=.,#\n\r ab1"))
def test_arbitrary_text_gives_lines_that_the_text_has(text: str) -> None:
    rows = text.count("\n") + 1
    assert all(1 <= line <= rows for line in key_lines(text).values())
    try:
        wanted = set(paths(tomllib.loads(text, parse_float=Decimal)))
    except tomllib.TOMLDecodeError:
        return
    assert set(key_lines(text)) == wanted


# -- what else a walk tells


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = 1\nb = " + "[" * (MOST_LEVELS + 1), 2),
        ("a = " + "{a=" * (MOST_LEVELS + 1), 1),
        ("\n\n" + ".".join("a" * (MOST_LEVELS + 1)) + " = 1", 3),
        ("\n[" + ".".join("a" * (MOST_LEVELS + 1)) + "]", 2),
        # each part short enough, but not one below the other
        ("[" + ".".join("a" * MOST_LEVELS) + "]\n\nb = 1", 3),
        # 100 000 parts: refused at once: tomllib takes time by the square of the parts
        (".".join("a" * 100_000) + " = 1", 1),
    ],
    ids=lambda value: str(value)[:30],
)
def test_keys_that_lie_too_deep(text: str, line: int) -> None:
    assert scan(text).deep == line


def test_the_deepest_keys_that_are_followed() -> None:
    text = ".".join("a" * MOST_LEVELS) + " = 1"
    assert scan(text).deep is None
    assert key_lines(text)[("a",) * MOST_LEVELS] == 1


def test_long_bare_values() -> None:
    fits, long = "1" * MOST_FIGURES, "1" * (MOST_FIGURES + 1)
    assert scan(f"a = {fits}   \nb = '{long}'").long is None
    assert scan(f"a = [\n{fits},\n{long}]\nb = {long}").long == 3
    assert set(key_lines(f"a = {long}\nb = 2")) == {("a",), ("b",)}


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = [1]\n", None),
        ('a = 1\nsides = ["front"\n\nwidth = 4', 2),
        ("a = [\n[1, 2],\n[3,\n4\n", 3),
        ("a = 1\nb = { c = 1,\n\n d", 2),
        ('a = 1\n\nb = """x\n\ny', 3),
        ("b = '''x\n\ny''", 1),
        ("a = 1\nb = 'x\n", 2),
    ],
)
def test_where_something_was_left_open(text: str, line: int | None) -> None:
    assert scan(text).unclosed == line


@pytest.mark.parametrize(
    ("text", "twice"),
    [
        ("a = 1\nb.c = 2\nb.d = 3", None),
        ("[[a]]\nb = 1\n[[a]]\nb = 1", None),
        ("a = 1\n\na = 2\na = 3", (("a",), 1, 3)),
        ("[a]\nb = 1\n'b' = 1", (("a", "b"), 2, 3)),
        ("a = {b = 1, b = 2}", (("a", "b"), 1, 1)),
        ("a.b = 1\na = 2", (("a",), 1, 2)),
    ],
)
def test_keys_written_twice(text: str, twice: tuple[KeyPath, int, int] | None) -> None:
    assert scan(text).twice == twice
