"""Reading values out of TOML: right ones exactly, and every wrong one with place and cure."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadPiece, Where
from layout.piece_file.source import MOST_BYTES, parse_toml, read_toml
from layout.piece_file.table import Table
from layout.piece_file.words import MOST_SHOWN

INCH = Fraction(127, 5)  # mm: exactly 25.4 since 1959 (NIST SP 811, 2008, section B.6)

BENCH = """\
piece = "Bench"  # line 1
unit = "in"
both_units = true

[frame]
length = 48
depth = 24.25
height = "33 1/4"
drop = -2

[frame.leg]
width = "2 1/2"

[[frame.rail]]
name = "top rail"
sides = [
    "front",
    "back",
]
width = 4

[[frame.rail]]
width = 3
tenon = { length = 1, shoulder = 0 }

[kit]
chisels = ["1/4", 0.5,
           "3/8"]
pins = 3
"""


def bench() -> Table:
    return parse_toml(BENCH, "bench.toml")


def refused(act: Callable[[], object]) -> BadPiece:
    """The BadPiece that `act` raises, once its message is known to be one line."""
    with pytest.raises(BadPiece) as caught:
        act()
    one_row(caught.value)
    return caught.value


def one_row(error: BadPiece) -> None:
    assert str(error).isprintable()
    assert error.what
    assert error.where.file


def short(value: object) -> str | None:
    """The name of a case in pytest's report, where the value itself may be endless."""
    return value[:30] if isinstance(value, str) else None


def only(value: str) -> Table:
    """A file whose one key, on line 2, holds `value`."""
    return parse_toml(f"\nkey = {value}", "a.toml")


# -- values that are right


def test_values_come_out_exact() -> None:
    table = bench()
    frame = table.table("frame")
    assert table.text("piece") == "Bench"
    assert table.choice("unit", ("in", "mm")) == "in"
    assert table.flag("both_units") is True
    assert frame.length("length", "in") == 48 * INCH
    assert frame.length("depth", "in") == Fraction(97, 4) * INCH
    assert frame.length("depth", "mm") == Fraction(97, 4)
    assert frame.length("height", "in") == Fraction(133, 4) * INCH
    assert frame.length("drop", "mm", positive=False) == -2
    assert frame.table("leg").length("width", "in") == Fraction(5, 2) * INCH
    first, second = frame.tables("rail")
    assert first.texts("sides") == ["front", "back"]
    assert second.table("tenon").length("shoulder", "in", zero_ok=True) == 0
    kit = table.table("kit")
    assert kit.lengths("chisels", "in") == [INCH / 4, INCH / 2, INCH * 3 / 8]
    assert kit.count("pins", 1, 9) == 3


def test_a_decimal_is_not_rounded_on_its_way() -> None:
    # as a binary float 0.1 would be 3602879701896397/36028797018963968
    assert only("0.1").length("key", "mm") == Fraction(1, 10)
    assert only("1e-3").length("key", "mm") == Fraction(1, 1000)
    assert only("0.12345678901").length("key", "mm") == Fraction(12345678901, 10**11)


def test_absent_keys_give_their_defaults() -> None:
    table = parse_toml("", "a.toml")
    assert table.length("a", "mm", Fraction(3)) == 3
    assert table.length("a", "mm", default=Fraction(0)) == 0
    assert table.optional_length("a", "mm") is None
    assert table.lengths("a", "mm", [Fraction(3)]) == [3]
    assert table.text("a", "") == ""
    assert table.texts("a", ()) == []
    assert table.choice("a", ("x", "y"), "y") == "y"
    assert table.count("a", 1, 9, 0) == 0
    assert table.flag("a", False) is False
    assert table.tables("a") == []
    assert not table.has("a")
    empty = table.table("a", optional=True)
    assert not empty.has("b")
    table.finish()


def test_text_loses_the_spaces_around_it_only() -> None:
    assert only('"  top  rail \\t"').text("key") == "top  rail"
    assert only('"Wandschränkchen 1/2"').text("key") == "Wandschränkchen 1/2"
    assert only('"' + "x" * 80 + '"').text("key") == "x" * 80


def test_a_false_flag_is_there() -> None:
    assert only("false").has("key")
    assert only("false").flag("key", True) is False


# -- places


def test_places() -> None:
    table = bench()
    frame = table.table("frame")
    first, second = frame.tables("rail")
    tenon = second.table("tenon")
    kit = table.table("kit")
    assert table.where() == Where("bench.toml")
    assert table.where("unit") == Where("bench.toml", 2, "unit")
    assert frame.where() == Where("bench.toml", 5, "frame")
    assert frame.where("height") == Where("bench.toml", 8, "frame.height")
    assert frame.where("missing") == Where("bench.toml", 5, "frame.missing")
    assert first.where("width") == Where("bench.toml", 20, "frame.rail 1 (top rail).width")
    assert second.where("width") == Where("bench.toml", 23, "frame.rail 2.width")
    assert tenon.where("length") == Where("bench.toml", 24, "frame.rail 2.tenon.length")
    absent = first.table("tenon", optional=True)
    assert absent.where("length") == Where("bench.toml", 14, "frame.rail 1 (top rail).tenon.length")
    bad = refused(
        lambda: parse_toml(BENCH.replace('"3/8"', "[]"), "b").table("kit").lengths("chisels", "in")
    )
    assert bad.where == Where("b", 28, "kit.chisels 3")
    assert kit.error("pins", "too many pins", "use 2").where == Where("bench.toml", 29, "kit.pins")
    assert str(frame.error(None, "it is odd", "turn it")) == (
        "bench.toml, line 5, frame: it is odd; turn it"
    )
    one_row(frame.error("depth", "odd\nand \u2028 wide", "turn\rit"))


def test_odd_keys_and_names_stay_on_one_short_line() -> None:
    long = "n" * 500
    text = f"""
        ["a\\nb"."{long}"]
        [[x]]
        name = "two\\nlines \\u202E {long}"
        [[x]]
        name = " "
        [[x]]
        name = 3
    """
    table = parse_toml(text, "odd\nname\udc80.toml")
    place = table.table("a\nb").table(long).where("c")
    assert str(place).isprintable()
    assert place.key is not None
    assert place.key.startswith("'a\\nb'.nnnn")
    assert len(place.key) < 70
    assert place.file == "odd\\nname\\udc80.toml"
    first, second, third = table.tables("x")
    key = first.where().key
    assert key is not None
    assert key.startswith("x 1 (two\\nlines \\u202e nnn")
    assert len(key) < 60
    assert second.where().key == "x 2"
    assert third.where().key == "x 3"


# -- values that are wrong: each act on its text, the place, and words that must be told

WRONG: list[tuple[str, Callable[[Table], object], str]] = [
    ("{}", lambda t: t.length("key", "in"), "a length is wanted here, not a table"),
    ("true", lambda t: t.length("key", "in"), "a length is wanted here, not true/false"),
    ("[1]", lambda t: t.length("key", "in"), "a length is wanted here, not a list"),
    ("2024-01-02", lambda t: t.length("key", "in"), "a length is wanted here, not a date"),
    ("07:30:00", lambda t: t.length("key", "in"), "a length is wanted here, not a date"),
    ("0", lambda t: t.length("key", "in"), "must be more than 0, not 0"),
    ('"0 mm"', lambda t: t.length("key", "in"), "must be more than 0, not '0 mm'"),
    ("0.0", lambda t: t.optional_length("key", "in"), "must be more than 0, not 0.0"),
    ("3", lambda t: t.lengths("key", "in"), "a list of lengths is wanted here, not a number (3)"),
    ("[]", lambda t: t.lengths("key", "in"), "this list is empty"),
    ("[1, 0]", lambda t: t.lengths("key", "in"), "key 2: this length must be more than 0"),
    ("[1, [2]]", lambda t: t.lengths("key", "in"), "key 2: a length is wanted here, not a list"),
    ("3", lambda t: t.text("key"), "text is wanted here, not a number (3)"),
    ("3.50", lambda t: t.text("key"), "text is wanted here, not a number (3.50)"),
    ("false", lambda t: t.text("key"), "text is wanted here, not true/false"),
    ('""', lambda t: t.text("key"), "this text is empty"),
    ('" \\t\\u2003 "', lambda t: t.text("key"), "this text is empty"),
    ('"a\\nb"', lambda t: t.text("key"), "(U+000A)"),
    ('"a\\u0000b"', lambda t: t.text("key"), "(U+0000)"),
    ('"a\\u2028b"', lambda t: t.text("key"), "(U+2028)"),
    ('"a\\u202Eb"', lambda t: t.text("key"), "(U+202E)"),
    ('"' + "x" * 81 + '"', lambda t: t.text("key"), "has 81 characters; write at most 80"),
    ('"abcd"', lambda t: t.text("key", most=3), "'abcd' has 4 characters; write at most 3"),
    ('"front"', lambda t: t.texts("key"), "a list of texts is wanted here, not text ('front')"),
    ("[]", lambda t: t.texts("key"), "this list is empty"),
    ('["a", " b", "b"]', lambda t: t.texts("key"), "key 3: 'b' is in the list twice"),
    ('["a", 1]', lambda t: t.texts("key"), "key 2: text is wanted here, not a number (1)"),
    ('"rabet"', lambda t: t.choice("key", ("rabbet", "groove")),
     "'rabet' can't be chosen here; did you mean 'rabbet'? write one of: rabbet, groove"),
    ('"Groove"', lambda t: t.choice("key", ("rabbet", "groove")), "did you mean 'groove'?"),
    ('"x"', lambda t: t.choice("key", ("rabbet", "groove")),
     "'x' can't be chosen here; write one of: rabbet, groove"),
    ("1", lambda t: t.choice("key", ("rabbet", "groove")), "text is wanted here, not a number (1)"),
    ("true", lambda t: t.count("key", 1, 9), "a whole number is wanted here, not true/false"),
    ("[]", lambda t: t.count("key", 1, 9), "a whole number is wanted here, not a list"),
    ('"yes"', lambda t: t.flag("key"),
     "true/false is wanted here, not text ('yes'); write key = true or key = false, without"),
    ("1", lambda t: t.flag("key"), "true/false is wanted here, not a number (1)"),
    ("3", lambda t: t.table("key"), "a table is wanted here, not a number (3)"),
    ("[{}]", lambda t: t.table("key"), "write [key] once, with single brackets"),
    ("{}", lambda t: t.tables("key"), "double the brackets: [[key]]"),
    ("'x'", lambda t: t.tables("key"), "a list of tables is wanted here, not text ('x')"),
    ("[{}, 3]", lambda t: t.tables("key"), "key 2: a table is wanted here, not a number (3)"),
]  # fmt: skip


@pytest.mark.parametrize(("value", "act", "told"), WRONG, ids=short)
def test_a_wrong_value_is_told_with_its_place(
    value: str, act: Callable[[Table], object], told: str
) -> None:
    error = refused(lambda: act(only(value)))
    assert told in str(error)
    assert str(error).startswith("a.toml, line 2, key")
    assert len(str(error)) < 250


@pytest.mark.parametrize(
    ("value", "act"),
    [
        ('"two"', lambda t: t.length("key", "in")),
        ("-1", lambda t: t.length("key", "in", zero_ok=True)),
        ("-1", lambda t: t.length("key", "in")),
        ("-1", lambda t: t.optional_length("key", "in", zero_ok=True)),
        ('["1/4", "x"]', lambda t: t.lengths("key", "in")),
        ("nan", lambda t: t.length("key", "in")),
        ("-inf", lambda t: t.length("key", "in", positive=False)),
        # none of these may ever be written out in figures
        ("1e999999999", lambda t: t.length("key", "in")),
        ("1e-999999999", lambda t: t.length("key", "in")),
        ("0e999999999", lambda t: t.length("key", "in", zero_ok=True)),
        ("1e99999999999999999999999", lambda t: t.length("key", "in")),
        ("9" * 90, lambda t: t.length("key", "in")),
        ("0x" + "F" * 90, lambda t: t.length("key", "in")),
        ("'" + "1" * 500_000 + "'", lambda t: t.length("key", "in")),
        ("1e999999999", lambda t: t.count("key", 1, 9)),
        ("9" * 90, lambda t: t.count("key", 1, 9)),
        ("10", lambda t: t.count("key", 1, 9)),
        ("2.5", lambda t: t.count("key", 1, 9)),
        ('"two"', lambda t: t.count("key", 1, 9)),
    ],
    ids=short,
)
def test_what_the_measures_refuse_gets_its_place(
    value: str, act: Callable[[Table], object]
) -> None:
    error = refused(lambda: act(only(value)))
    assert (error.where.file, error.where.line) == ("a.toml", 2)
    assert error.where.key in ("key", "key 2")
    assert error.cure
    assert len(str(error)) < 250


@pytest.mark.parametrize(
    ("act", "told"),
    [
        (lambda t: t.length("a", "in", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.lengths("a", "in", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.text("a", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.texts("a", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.count("a", 1, 9, cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.flag("a", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.table("a", cure="give it"), "frame.a: a is missing; give it"),
        (lambda t: t.table("a"), "frame.a: a is missing; write it under [frame.a]"),
        (lambda t: t.choice("a", ("x", "y")), "frame.a: a is missing; write one of: x, y"),
    ],
)
def test_a_missing_key_is_told_with_its_tables_line(
    act: Callable[[Table], object], told: str
) -> None:
    error = refused(lambda: act(bench().table("frame")))
    assert str(error) == f"bench.toml, line 5, {told}"


def test_headings_in_cures_are_those_of_the_file() -> None:
    text = '[[a]]\n[[a]]\n[a."b c"]\nd = 1\n[a."b c".e]'
    inner = parse_toml(text, "a.toml").tables("a")[1].table("b c")
    assert refused(lambda: inner.table("d")).cure == "write its keys under [a.'b c'.d]"
    assert refused(lambda: inner.tables("e")).cure == "double the brackets: [[a.'b c'.e]]"


# -- keys that nobody asked for


def ask_all(table: Table) -> Table:
    """Ask for everything that BENCH holds."""
    for key in ("piece", "unit", "both_units"):
        assert table.has(key)
    frame = table.table("frame")
    for key in ("length", "depth", "height", "drop"):
        frame.has(key)
    frame.table("leg").has("width")
    for rail in frame.tables("rail"):
        for key in ("name", "sides", "width"):
            rail.has(key)
        tenon = rail.table("tenon", optional=True)
        tenon.has("length")
        tenon.has("shoulder")
    kit = table.table("kit")
    kit.has("chisels")
    kit.has("pins")
    return table


def test_finish_passes_when_all_was_asked_for() -> None:
    ask_all(bench()).finish()


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('width = "2', 'widht = "2', "line 12, frame.leg.widht: unknown key 'widht'; "
         "did you mean 'width'? known keys here: width"),
        ("width = 3", "WIDTH = 3", "line 23, frame.rail 2.WIDTH: unknown key 'WIDTH'; "
         "did you mean 'width'? known keys here: name, sides, width, tenon"),
        ("pins", "zzz", "line 29, kit.zzz: unknown key 'zzz'; known keys here: chisels, pins"),
        ("shoulder = 0", "x.y = 0", "line 24, frame.rail 2.tenon.x: unknown key 'x'; "),
        ("[kit]", "[tools]\n[kit]", "line 26, tools: unknown key 'tools'; "),
        ("[kit]", "[[frame.leg.foot]]\na = 1\n[kit]",
         "line 26, frame.leg.foot: unknown key 'foot'"),
        ("pins = 3", "pins = 3\nx = 1\n[y]\nz = 1\n[frame.leg.w]",
         "line 30, kit.x: unknown key 'x' (and 2 more further on); "),
        ("pins = 3", 'pins = 3\n"a\\nb" = 1', "line 30, kit.'a\\nb': unknown key 'a\\nb'; "),
    ],
)  # fmt: skip
def test_finish_refuses_the_first_unknown_key(old: str, new: str, told: str) -> None:
    assert BENCH.count(old) == 1
    table = ask_all(parse_toml(BENCH.replace(old, new), "bench.toml"))
    assert str(refused(table.finish)).startswith(f"bench.toml, {told}")


def test_finish_where_no_key_is_known() -> None:
    table = parse_toml("[a]\nb = 1", "a.toml")
    table.table("a")
    assert refused(table.finish).cure == "no keys are known here: take it out"


def test_a_table_that_is_asked_for_twice_is_the_same() -> None:
    table = bench()
    assert table.table("frame") is table.table("frame")
    assert table.table("frame").tables("rail")[0] is table.table("frame").tables("rail")[0]


def test_a_very_long_unknown_key_is_told_short_and_soon() -> None:
    table = parse_toml("k" * 900_000 + " = 1", "a.toml")
    table.has("known")
    assert len(str(refused(table.finish))) < 200


# -- files that can't be opened or read


def test_a_file_with_mark_and_windows_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(b"\xef\xbb\xbf[a]\r\nb = 'x'\r\nc = 2\r\n")
    table = read_toml(path)
    assert table.table("a").where("c") == Where(str(path), 3, "a.c")
    assert read_toml(str(path)).table("a").text("b") == "x"


def test_files_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    absent = refused(lambda: read_toml(tmp_path / "absent.toml"))
    assert str(absent) == (
        f"{tmp_path / 'absent.toml'}: there is no such file; check the name and the folder"
    )
    assert "folder" in refused(lambda: read_toml(tmp_path)).what
    (tmp_path / "file").write_text("a = 1")
    assert "can't be read" in refused(lambda: read_toml(tmp_path / "file" / "a.toml")).what
    assert "can't be read" in refused(lambda: read_toml("a\0b")).what
    assert "can't be read" in refused(lambda: read_toml("x" * 5000)).what

    def closed(*_: Any, **__: Any) -> None:  # a file mode binds no administrator, so it is acted
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", closed)
    assert "may not be read" in refused(lambda: read_toml(tmp_path / "file")).what


@pytest.mark.parametrize(
    ("written", "line"),
    [
        (b"a = 1\nb = '\xe9'", 2),  # Latin-1
        ("a = 1".encode("utf-16"), 1),
        (b"\n\n# \xed\xa0\x80", 3),  # a surrogate
    ],
)
def test_a_file_that_is_not_utf8(tmp_path: Path, written: bytes, line: int) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(written)
    error = refused(lambda: read_toml(path))
    assert "UTF-8" in error.what
    assert error.where == Where(str(path), line)


def test_a_file_that_is_too_large(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_bytes(b"#" * MOST_BYTES)
    read_toml(path).finish()
    path.write_bytes(b"#" * (MOST_BYTES + 1))
    assert "1000 kB" in refused(lambda: read_toml(path)).what
    assert "1000 kB" in refused(lambda: parse_toml("#" * (MOST_BYTES + 1), "a")).what


@pytest.mark.parametrize(
    ("text", "line", "what", "cure"),
    [
        ("a = 1\nw = 2 1/2", 2, "something follows the value", '"2 1/2"'),
        ("w = 2,5", 1, "something follows the value", "quotes"),
        ("w = 33 mm\n", 1, "something follows the value", "unit in quotes"),
        ("\n\nw = .5", 3, "no value that can be read", "0.5"),
        ("piece = Hall table", 1, "no value that can be read", "quotes"),
        ("a = 1\nb = “2”", 2, "a curly quote", "straight quotes"),
        ("a: 3", 1, "an = is missing", "key = value"),
        ("a = 1\nlength", 2, "an = is missing", "key = value"),
        ("= 3", 1, "no key = value", "key = value"),
        ("a = 'x\nb = 2", 1, "the closing quote is missing", "same quote"),
        ('a = "x\nb = 2', 1, "the closing quote is missing", "same quote"),
        ('a = 1\nb = """x\n\ny', 2, "the closing quote is missing", "same quote"),
        ("\nb = '''x\n\ny", 2, "the closing ''' is missing", "same quotes"),
        ("b = [1,\n2\n\nc = 3", 4, "the list isn't closed", "opened on line 1"),
        ("b = [\n1,\n\n", 1, "never closed", "]"),
        ("b = { c = 1\nd = 2", 1, "the { is not closed", "}"),
        ("b = { c = 1, }", 1, "a key is missing here", "closing }"),
        ("[[frame.rail]\na = 1", 1, "the ]] is missing", "[[name]]"),
        ("[frame\na = 1", 1, "the ] is missing", "[name]"),
        ("a = 1\n\na = 2\nb = 3", 3, "a is given twice", "the first is on line 1"),
        ("a = { b = 1, b = 2 }", 1, "b is given twice", "the first is on line 1"),
        ("[a]\n[b]\n[a]", 3, "this heading is used twice", "[[frame.rail]]"),
        ("a = 1\n[a.b]", 2, "used twice", "keep one"),
        ("a = 'x\ty'\nb = '\x01'", 2, "control character", "take it out"),
        ("# \x00", 1, "control character", "take it out"),
        ('a = "\\q"', 1, "a \\ stands alone", "single quotes"),
        ("a = " + "[" * 100_000, 1, "levels of lists and tables", "flatter"),
        (".".join("a" * 400_000) + " = 1", 1, "levels of lists and tables", "flatter"),
        ("a = 1\nb = " + "1" * 5000, 2, "longer than 100 characters", "fewer figures"),
        ("b = 0." + "1" * 500_000, 1, "longer than 100 characters", "fewer figures"),
    ],
    ids=short,
)
def test_what_is_no_toml_is_told_in_plain_words(text: str, line: int, what: str, cure: str) -> None:
    error = refused(lambda: parse_toml(text, "a.toml"))
    assert what in error.what
    assert cure in error.cure
    assert error.where == Where("a.toml", line)


def test_every_kind_of_message_that_tomllib_has_is_translated() -> None:
    """Read from tomllib's own source, so that a new Python that words things anew is noticed."""
    import inspect
    from tomllib import _parser

    from layout.piece_file.source import _SYNTAX

    source = inspect.getsource(_parser)
    raised = r"(?:suffixed_err\(\s*src,\s*pos,|TOMLDecodeError\()\s*f?"
    messages = re.findall(raised + r"""(".*?[^\\]"|'.*?')""", source)
    assert len(messages) > 15
    starts = tuple(start for start, _, _ in _SYNTAX)
    for message in messages:
        if message.startswith('"{msg}'):  # where tomllib adds the place to any of the others
            continue
        told = message[1:-1].replace("\\\\", "\\").replace("{expect!r}", "\"'''\"")
        assert told.startswith(starts), message


# -- whatever stands in a file, BadPiece is the only error


def attempt(act: Callable[[], object]) -> object:
    """What `act` gives, or the BadPiece that it raises; any other error fails the test."""
    try:
        return act()
    except BadPiece as error:
        one_row(error)
        return error


def ask_wildly(table: Table, depth: int = 0) -> None:
    """Ask for every key there is as every kind there is."""
    for key in [*list(table._values)[:12], "missing", "widht"]:
        asks: list[Callable[[], object]] = [
            lambda key=key: table.length(key, "in"),
            lambda key=key: table.length(key, "mm", Fraction(1), positive=False),
            lambda key=key: table.optional_length(key, "in", zero_ok=True),
            lambda key=key: table.lengths(key, "in"),
            lambda key=key: table.text(key),
            lambda key=key: table.texts(key),
            lambda key=key: table.choice(key, ("front", "back")),
            lambda key=key: table.count(key, 0, 9),
            lambda key=key: table.flag(key),
            lambda key=key: table.table(key, optional=True),
            lambda key=key: table.tables(key),
        ]
        for ask in asks:
            found = attempt(ask)
            inner = found if isinstance(found, list) else [found]
            for one in inner[:3]:
                if isinstance(one, Table) and depth < 3:
                    ask_wildly(one, depth + 1)


def survives(text: str) -> None:
    table = attempt(lambda: parse_toml(text, "a.toml"))
    if isinstance(table, BadPiece):
        assert table.where.line is not None
        assert 1 <= table.where.line <= text.count("\n") + 1
        return
    assert isinstance(table, Table)
    unknown = attempt(table.finish)
    if isinstance(unknown, BadPiece):
        assert unknown.where.line is not None
    else:
        assert not table._values  # nobody has asked for anything yet
    ask_wildly(table)


@settings(max_examples=150, deadline=None)
@given(st.text() | st.text(alphabet="[]{}\"'\\=.,#-+\n\r ab01e_:T"))
def test_arbitrary_text(text: str) -> None:
    survives(text)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200))
def test_arbitrary_bytes(tmp_path_factory: pytest.TempPathFactory, written: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "bytes.toml"
    path.write_bytes(written)
    table = attempt(lambda: read_toml(path))
    if isinstance(table, Table):
        ask_wildly(table)
    else:
        assert isinstance(table, BadPiece)


SPLICES = [
    "", "[", "]", "[[", "{", "}", '"', "'", '"""', "'''", "=", ".", ",", "#", "\n", "\r", "\\", " ",
    "1e99999", "-", "inf", "nan", "true", "0x", "1/2", "\x00", "“", "é", "\u2028", "2024-01-01",
    "[frame]\n", "[[frame]]\n", "a.b.c = 1\n", "9" * 120, "{ x = [1, {y = 2}] }", '""', "[[]]",
]  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_piece_file_with_something_changed(data: st.DataObject) -> None:
    """Cut out a few characters here and there, and put in what makers and editors put in."""
    text = BENCH
    for _ in range(data.draw(st.integers(1, 3))):
        start = data.draw(st.integers(0, len(text)))
        length = data.draw(st.integers(0, 6))
        text = text[:start] + data.draw(st.sampled_from(SPLICES)) + text[start + length :]
    survives(text)


@settings(max_examples=100, deadline=None)
@given(
    st.sampled_from(re.findall(r"(?<== ).+?(?=\s*(?:#.*)?\n)", BENCH)),
    st.one_of(
        st.integers().map(str),
        st.decimals().map(lambda number: str(Decimal(number)).lower().replace("snan", "nan")),
        st.text(max_size=50).map(lambda text: f"'{text}'"),
        st.sampled_from(["[1, 'a']", "{ a = 1 }", "[{ name = '\\u0000' }]", "true", "[[1], []]"]),
    ),
)
def test_a_piece_file_with_another_value(old: str, new: str) -> None:
    survives(BENCH.replace(f"= {old}", f"= {new}", 1))


def test_shown_values_are_short() -> None:
    error = refused(lambda: only(f"'{'x' * 39}\\'").choice("key", ("a",)))
    shown = error.what.removesuffix(" can't be chosen here")
    assert len(shown) == MOST_SHOWN
    assert shown.endswith("…'")
    assert "'" + "x" * 38 + "'" in str(refused(lambda: only(f"'{'x' * 38}'").choice("key", ("a",))))
