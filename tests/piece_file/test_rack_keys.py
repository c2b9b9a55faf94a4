"""The rack's keys of [stock]: whatever stands there, it is read, or refused in one line that names
the file, the line and the key.
"""

from __future__ import annotations

import sys
from fractions import Fraction
from pathlib import Path

import pytest

from layout.cli.app import run
from layout.piece_file.reader import piece_and_stock

INCH = Fraction(127, 5)
HEAD = 'piece = "Footstool"\nunit = "in"\ntimber = "cherry"\n[stock]\n'
FIRST = HEAD.count("\n") + 1  # the line where the keys of a test begin
FRAME = """
[frame]
length = 16
depth = 12
height = 9
leg = { width = "1 1/2", thickness = "1 1/2" }
tenon = { length = "5/8", top_shoulder = "3/8" }
[[frame.rail]]
name = "rail"
sides = ["front", "back", "left", "right"]
top = "flush"
width = "1 3/4"
thickness = "3/4"
"""


def entry(heading: str, keys: dict[str, str], /, **other: str | None) -> str:
    """[[stock.name]] with these keys, one a line; None leaves a key out."""
    told = keys | other
    lines = [f"{key} = {value}\n" for key, value in told.items() if value is not None]
    return f"[[stock.{heading}]]\n{''.join(lines)}"


def board(**keys: str | None) -> str:
    """A board; its keys stand on the lines 1 to 4 after the heading, others from 5 on."""
    return entry("board", {"timber": '"cherry"', "thickness": "1", "width": "6", "length": "80"},
                 **keys)


def size(**keys: str | None) -> str:
    return entry("size", {"width": "6", "length": "80"}, **keys)


def match(parts: str = '["front rail", "back rail"]', **keys: str) -> str:
    return entry("match", {"parts": parts}, **keys)


def out(*tables: str) -> str:
    """A board with these places to keep out of, on its line 5."""
    return board(keep_out=f"[{', '.join(tables)}]")


# what stands there; how many lines after the first the mistake is; its key; words of the message
REFUSED = [
    # figures
    (board(width="0"), 3, "board 1.width", "must be more than 0"),
    (board(width="-6"), 3, "board 1.width", "below zero"),
    (board(length='"0"'), 4, "board 1.length", "must be more than 0"),
    (board(thickness='"1/0"'), 2, "board 1.thickness", "0 under its fraction bar"),
    (board(width='"six"'), 3, "board 1.width", "has no number in it"),
    (board(width="1e400"), 3, "board 1.width", "exponent"),
    (board(width="nan"), 3, "board 1.width", "is no number"),
    (board(width="inf"), 3, "board 1.width", "is no number"),
    (board(length="99999999999999999999"), 4, "board 1.length", "more than 12 digits"),
    (board(width="1000000"), 3, "board 1.width", "more than 100 m"),
    (board(length="true"), 4, "board 1.length", "a length is wanted here"),
    (board(length="[]"), 4, "board 1.length", "not a list"),
    (board(length='"5 fathoms"'), 4, "board 1.length", "no unit 'fathoms'"),
    (board(width=None), 0, "board 1.width", "width is missing"),
    (board(timber=None), 0, "board 1.timber", "timber is missing"),
    (board(thickness=None), 0, "board 1.thickness", "thickness is missing"),
    # words
    (board(timber='""'), 1, "board 1.timber", "empty"),
    (board(timber="3"), 1, "board 1.timber", "text is wanted"),
    (board(timber=f'"{"x" * 81}"'), 1, "board 1.timber", "at most 80"),
    (board(name='""'), 5, "board 1.name", "empty"),
    (board(name=f'"{"n" * 41}"'), 5, "board 1 (", "at most 40"),
    (board(name='"a\\u001b[31m"'), 5, "board 1 (", "can't be printed"),
    (board(name='"a\\nb"'), 5, "board 1 (", "can't be printed"),
    (board(planed='"yes"'), 5, "board 1.planed", "true/false is wanted"),
    (board(planed="1"), 5, "board 1.planed", "true/false is wanted"),
    (board(grain='"no"'), 5, "board 1.grain", "true/false is wanted"),
    (board(grain="false"), 5, "board 1.grain", "cherry has grain"),
    (board(lenght="3"), 5, "board 1.lenght", "did you mean 'length'"),
    (board(name='"a"') + board(name='"a"'), 11, "board 2 (a).name", "there are two boards 'a'"),
    # how many
    (board(count="0"), 5, "board 1.count", "from 1 to 200"),
    (board(count="-1"), 5, "board 1.count", "from 1 to 200"),
    (board(count="201"), 5, "board 1.count", "from 1 to 200"),
    (board(count="1" + "0" * 30), 5, "board 1.count", "from 1 to 200"),
    (board(count="1.5"), 5, "board 1.count", "not a whole number"),
    (board(count='"two"'), 5, "board 1.count", "not a whole number"),
    (board(count="true"), 5, "board 1.count", "a whole number is wanted"),
    (board(count="150") + board(count="51"), 11, "board 2.count", "too many boards"),
    (board() * 201, 0, "board", "at most 200"),
    (size() * 31, 0, "size", "at most 30"),
    (match() * 61, 0, "match", "at most 60"),
    (out(*["{ from = 1, to = 2 }"] * 41), 5, "board 1.keep_out", "at most 40"),
    # no tables
    ("board = 3\n", 0, "board", "a list of tables is wanted"),
    ('board = "cherry"\n', 0, "board", "a list of tables is wanted"),
    ("board = [1, 2]\n", 0, "board 1", "a table is wanted"),
    ('board = { timber = "cherry" }\n', 0, "board", "double the brackets"),
    ("size = 1\n", 0, "size", "a list of tables is wanted"),
    ("size = [[]]\n", 0, "size 1", "a table is wanted"),
    ('match = "front rail"\n', 0, "match", "a list of tables is wanted"),
    ('match = [["front rail", "back rail"]]\n', 0, "match 1", "a table is wanted"),
    (board(keep_out='"knot"'), 5, "board 1.keep_out", "a list of tables is wanted"),
    (board(keep_out="{ from = 3, to = 4 }"), 5, "board 1.keep_out", "double the brackets"),
    (board(keep_out="[3]"), 5, "board 1.keep_out 1", "a table is wanted"),
    # what to keep out of
    (out("{ from = 90, to = 95 }"), 5, "board 1.keep_out 1.to", "reaches past the board"),
    (out("{ from = 20, to = 81 }"), 5, "board 1.keep_out 1.to", "reaches past the board"),
    (out("{ from = 80 }"), 5, "board 1.keep_out 1.from", "not before to"),
    (out("{ from = 30, to = 20 }"), 5, "board 1.keep_out 1.from", "not before to"),
    (out("{ from = 20, to = 20 }"), 5, "board 1.keep_out 1.from", "not before to"),
    (out("{ low = 2, high = 7 }"), 5, "board 1.keep_out 1.high", "reaches past the board"),
    (out("{ low = 6 }"), 5, "board 1.keep_out 1.low", "not before high"),
    (out("{ to = 0 }"), 5, "board 1.keep_out 1.to", "must be more than 0"),
    (out("{ from = -1, to = 3 }"), 5, "board 1.keep_out 1.from", "below zero"),
    (out("{}"), 5, "board 1.keep_out 1", "says nowhere"),
    (out('{ why = "knot" }'), 5, "board 1.keep_out 1", "says nowhere"),
    (out(f'{{ to = 4, why = "{"k" * 31}" }}'), 5, "board 1.keep_out 1.why", "at most 30"),
    (out("{ to = 4, why = 3 }"), 5, "board 1.keep_out 1.why", "text is wanted"),
    (out("{ to = 4, deep = 1 }"), 5, "board 1.keep_out 1.deep", "unknown key"),
    (out("{ to = 4 }", "{ to = 99 }"), 5, "board 1.keep_out 2.to", "reaches past the board"),
    # what is sold
    (size(width="0"), 1, "size 1.width", "must be more than 0"),
    (size(length="-1"), 2, "size 1.length", "below zero"),
    (size(width=None), 0, "size 1.width", "width is missing"),
    (size(thickness="0"), 3, "size 1.thickness", "must be more than 0"),
    (size(grain="false"), 3, "size 1.grain", "only a sheet"),
    (size(timber='"cherry"', grain="false"), 4, "size 1.grain", "only a sheet"),
    (size(count="3"), 3, "size 1.count", "unknown key"),
    # what belongs together
    (match('["front rail"]'), 1, "match 1.parts", "name two or more"),
    (match("[]"), 1, "match 1.parts", "empty"),
    (match('"front rail"'), 1, "match 1.parts", "a list of texts is wanted"),
    (match('["front rail", "front rail"]'), 1, "match 1.parts 2", "in the list twice"),
    (match('["front rail", 3]'), 1, "match 1.parts 2", "text is wanted"),
    (match('["front rail", ""]'), 1, "match 1.parts 2", "empty"),
    (match('["front rail", ["back rail"]]'), 1, "match 1.parts 2", "text is wanted"),
    (match('["front rail", "arm"]'), 1, "match 1.parts", "no part 'arm'"),
    (match('["rail", "front rail"]'), 1, "match 1.parts", "no part 'rail'"),
    (match('["front rail", "front left leg"]'), 1, "match 1.parts", "different timbers or thick"),
    (match() * 2, 3, "match 2.parts", "front rail is matched twice"),
    (match() + match('["left rail", "back rail"]'), 3, "match 2.parts", "is matched twice"),
    (match(how='"glued"'), 2, "match 1.how", "one board, end to end, side by side"),
    (match(how="3"), 2, "match 1.how", "text is wanted"),
    ("[[stock.match]]\n", 0, "match 1.parts", "parts is missing"),
    # lengths of [stock] itself
    ("ends = -1\n", 0, "ends", "below zero"),
    ('ends = "x"\n', 0, "ends", "has no number in it"),
    ("ends = [1]\n", 0, "ends", "a length is wanted"),
    ("edge = -1\n", 0, "edge", "below zero"),
    ("edge = true\n", 0, "edge", "a length is wanted"),
    ("thicker = -1\n", 0, "thicker", "below zero"),
    ("board_length = 0\n", 0, "board_length", "must be more than 0"),
    ('board_length = "1/0"\n', 0, "board_length", "0 under its fraction bar"),
    ("sheet_width = 0\n", 0, "sheet_width", "must be more than 0"),
    ("sheet_length = -3\n", 0, "sheet_length", "below zero"),
    ("edge = 8\n", 0, "edge", "the widest board"),  # as wide as the widest that is sold: 8 in
]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "p.toml"


@pytest.mark.parametrize(("text", "line", "key", "words"), REFUSED,
                         ids=[f"{number}-{one[2]}" for number, one in enumerate(REFUSED)])
def test_what_can_t_be_read_is_refused_in_one_line(
    text: str, line: int, key: str, words: str, file: Path,
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:
    file.write_text(HEAD + text + FRAME, encoding="utf-8")
    monkeypatch.setattr(sys, "argv", ["shoulderline", "boards", str(file)])
    code = run()
    printed, told = capsys.readouterr()
    assert (code, printed) == (2, "")
    assert f"{file}, line {FIRST + line}, stock.{key}" in told
    assert words in told
    assert told.count("\n") == 1
    assert "Traceback" not in told


@pytest.mark.parametrize("command", ["stock", "milling", "boards"])
def test_a_bad_rack_is_refused_by_every_command_that_reads_stock(
    command: str, file: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file.write_text(HEAD + board(count="0") + FRAME, encoding="utf-8")
    monkeypatch.setattr(sys, "argv", ["shoulderline", command, str(file)])
    assert run() == 2
    assert "stock.board 1.count" in capsys.readouterr().err


def test_a_board_arrives_as_it_is_told(file: Path) -> None:
    text = board(
        width='"7 3/8"', length='"731.37 mm"', count="2", name='"from the loft"', planed="true",
        keep_out='[{ from = 3, to = "4 1/2", why = "knot" }, { low = "6 7/8", why = "sapwood" }]')
    file.write_text(HEAD + text + board() + board(count="2") + FRAME, encoding="utf-8")
    _, stock = piece_and_stock(file)
    first, *others = stock.rack.boards
    assert (first.name, first.timber, first.planed, first.grain) == (
        "from the loft 1", "cherry", True, True)
    assert (first.thickness, first.width, first.length) == (
        INCH, INCH * 59 / 8, Fraction("731.37"))
    # a side that is not told is the board's own
    whole, wide = first.length, first.width
    assert [tuple(one) for one in first.keep_out] == [
        (3 * INCH, INCH * 9 / 2, 0, wide, "knot"), (0, whole, INCH * 55 / 8, wide, "sapwood")]
    # boards without a name are numbered through the rack
    assert [one.name for one in others] == ["from the loft 2", "board 3", "board 4", "board 5"]


def test_boards_of_another_kind_or_none_at_all_are_no_mistake(file: Path) -> None:
    file.write_text(HEAD + board(timber='"bog oak"') + "keep_out = []\n" + FRAME, encoding="utf-8")
    _, stock = piece_and_stock(file)
    assert [one.timber for one in stock.rack.boards] == ["bog oak"]
    file.write_text(HEAD + "board = []\nsize = []\nmatch = []\n" + FRAME, encoding="utf-8")
    _, stock = piece_and_stock(file)
    assert (stock.rack.boards, stock.rack.sizes, stock.rack.matches) == ((), (), ())


def test_what_is_left_out_is_usual(file: Path) -> None:
    """As the README has it: 1 in off each end, 1/8 in off an edge, boards of 96 in, 4 x 8 ft."""
    file.write_text(HEAD + FRAME, encoding="utf-8")
    rack = piece_and_stock(file)[1].rack
    assert (rack.ends, rack.edge, rack.thicker) == (INCH, INCH / 8, INCH / 2)
    assert (rack.length, rack.sheet) == (96 * INCH, (48 * INCH, 96 * INCH))
    file.write_text(HEAD.replace('"in"', '"mm"') + FRAME.replace("16", "400"), encoding="utf-8")
    rack = piece_and_stock(file)[1].rack
    assert (rack.ends, rack.edge, rack.thicker) == (25, 3, 13)
    assert (rack.length, rack.sheet) == (2400, (1220, 2440))
