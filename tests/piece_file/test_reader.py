"""Piece files: what is read, what is refused, and that nothing in between can happen."""

from __future__ import annotations

import json
import re
import tomllib
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import jsonschema
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import layout
from layout.checks import check, stopped
from layout.checks.sums import RULE as SUMS_AGREE
from layout.errors import ShoulderlineError
from layout.numbers import numbers
from layout.paper.pages import drawing_area
from layout.paper.sizes import paper_named
from layout.paper.tiles import lay_out
from layout.piece import work_out
from layout.piece_file import tenon_usual as usual
from layout.piece_file.reader import piece_from, read_piece
from layout.piece_file.source import parse_toml
from layout.piece_file.stock_keys import read_stock
from layout.piece_file.table import Table
from layout.sheets.card import CARD_SIZES, cards
from layout.sheets.cut_list_sheet import cut_list_sheets
from layout.sheets.drawing import drawing_sheets
from layout.sheets.lists import check_sheets, sum_sheets
from layout.sheets.stick import sticks
from layout.sheets.template import templates
from tests.contract import piece_judge

INCH = Fraction(127, 5)
PACKAGE = Path(layout.__file__).parent
ROOT = PACKAGE.parent
SCHEMA = piece_judge().schema
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))

EVERY_KEY = """
piece = "Every key"
unit = "in"
rule = "1/64 in"
both_units = true
timber = "oak"
[limits]
wall = "1/8"
web = "1/16"
near_settings = "1/64"
[kit]
chisels = ["1/4", "3/8"]
mortise_bits = ["1/2", "12 mm"]
drills = ["5/16"]
cutters = ["1/4", "1/8"]
dovetail_cutters = ["1/2 at 14 deg", "12 mm at 1:7"]
gauge = "marking gauge"
[frame]
length = 48
depth = 24
height = 30
timber = "ash"
[frame.leg]
width = 2.5
thickness = "63.5 mm"
[frame.tenon]
length = "1 1/4"
thickness = "3/8"
outer_shoulder = "1/4"
top_shoulder = "1/4"
bottom_shoulder = 0
glue_room = 0
[[frame.rail]]
name = "top rail"
sides = ["front", "back", "left", "right"]
top = "flush"
width = 4
thickness = "1 1/8"
set_in = "1/8"
timber = "beech"
tenon = { length = 1 }
[[frame.rail]]
name = "middle rail"
sides = ["front"]
below_top = "1 ft 2 in"
width = 3
thickness = 1.125
set_in = "1/8"
tenon = { bottom_shoulder = "1/4" }
[[frame.rail]]
name = "low rail"
sides = ["front"]
above_floor = "15 cm"
width = 3
thickness = "1 1/8"
set_in = "1/8"
[[panel]]
name = "panel"
openings = ["front under top rail"]
thickness = "0.225"
seat = "rabbet"
lip = "3/8"
rabbet_depth = "1/4"
in_legs = "groove"
run_in_legs = "stopped"
room = "1/16"
grain = "across"
timber = "birch plywood"
[[panel]]
name = "low panel"
openings = ["front under middle rail"]
thickness = "1/4"
seat = "groove"
lip = "1/4"
groove_from_face = "7/16"
"""


EVERY_TENON = (Path(__file__).parent / "every_tenon.toml").read_text(encoding="utf-8")
EVERY_BANK = (Path(__file__).parent / "every_bank.toml").read_text(encoding="utf-8")
EVERY_BOX = (Path(__file__).parent / "every_box.toml").read_text(encoding="utf-8")
EVERY_CASE = (Path(__file__).parent / "every_case.toml").read_text(encoding="utf-8")
EVERY_DOOR = (Path(__file__).parent / "every_door.toml").read_text(encoding="utf-8")
EVERY_TOP = (Path(__file__).parent / "every_top.toml").read_text(encoding="utf-8")
EVERY_BUTTON = (Path(__file__).parent / "every_button.toml").read_text(encoding="utf-8")
EVERY_STOCK = (Path(__file__).parent / "every_stock.toml").read_text(encoding="utf-8")
EVERY = (EVERY_STOCK, EVERY_KEY, EVERY_TENON, EVERY_BOX, EVERY_BANK, EVERY_CASE, EVERY_DOOR,
         EVERY_TOP, EVERY_BUTTON)


def read(text: str):  # type: ignore[no-untyped-def]
    return piece_from(parse_toml(text, "test.toml"))


def plain(text: str) -> object:
    """TOML as the schema's judge wants it: numbers as numbers."""
    return json.loads(json.dumps(tomllib.loads(text, parse_float=float)))


def resolved(schema: dict) -> dict:  # type: ignore[type-arg]
    """A schema with what it refers to, and the table where `false` may stand instead."""
    found = dict(schema)
    if "$ref" in schema:
        found |= SCHEMA["$defs"][schema["$ref"].removeprefix("#/$defs/")]
        if "properties" in schema:  # what this place adds to it
            found["properties"] = found["properties"] | schema["properties"]
    for one in schema.get("oneOf", []):
        if "$ref" in one:
            found |= resolved(one)
    return found


def properties(schema: dict, where: str = "") -> set[str]:  # type: ignore[type-arg]
    """Every key path in the schema."""
    found = set()
    for key, value in schema.get("properties", {}).items():
        path = f"{where}.{key}" if where else key
        whole = resolved(value)
        found |= {path} | properties(whole, path)
        found |= properties(resolved(whole.get("items", {})), path)
    return found


def one_of_each(found: set[str]) -> set[str]:
    """Key paths, the tenon of a rail, or a door's, taken for the frame's: they have one set. So
    have the dovetails of a carcase, a chest and a drawer's front and back, and the slides and
    housings of a carcase, a divider and a shelf between drawers, and the edge and the year of a
    frame's panel and a door's.
    """
    rails = (r"^(frame\.rail|frame\.cross|drawer\.divide\.rail"
             r"|door|door\.top|door\.bottom|door\.middle|door\.muntin)\.tenon\.")
    tenons = {re.sub(rails, "frame.tenon.", path) for path in found}
    corners = r"^(carcase\.|chest\.|drawer\.front_|drawer\.back_|drawer\.)dovetails\."
    dovetails = {re.sub(corners, "dovetails.", path) for path in tenons}
    slid = r"^(carcase|divider|drawer\.divide\.shelf)\.(slide|housing)\."
    slides = {re.sub(slid, r"\2.", path) for path in dovetails}
    edge = r"^door\.panel\.(solid|edge|tongue|border|step|wood_behind)\b"
    return {re.sub(edge, r"panel.\1", path) for path in slides}


def asked(table: Table, where: str = "") -> set[str]:
    """Every key path that a reader has asked a table for."""
    found = {f"{where}.{key}" if where else key for key in table._asked}
    for key, children in table._children.items():
        for child in children:
            found |= asked(child, f"{where}.{key}" if where else key)
    return found


def paths(value: object, where: str = "") -> set[str]:
    """Every key path in a document."""
    found = set()
    if isinstance(value, dict):
        for key, inner in value.items():
            path = f"{where}.{key}" if where else key
            found |= {path} | paths(inner, path)
    if isinstance(value, list):
        for inner in value:
            found |= paths(inner, where)
    return found


def test_every_key_of_the_schema_is_read() -> None:
    found: set[str] = set()
    for text in EVERY:
        document = plain(text)
        piece_judge().validate(document)
        read(text)  # refuses what it does not know
        found |= one_of_each(paths(document))
    assert one_of_each(properties(SCHEMA)) - found == set()


def test_every_key_that_is_read_is_in_the_schema() -> None:
    for text in EVERY:
        table = parse_toml(text, "test.toml")
        piece_from(table)
        assert one_of_each(asked(table)) - one_of_each(properties(SCHEMA)) == set()


def test_every_property_of_the_schema_is_described() -> None:
    bare = []

    def walk(schema: dict, where: str) -> None:  # type: ignore[type-arg]
        for key, value in schema.get("properties", {}).items():
            whole = resolved(value)
            if not (value.get("description") or whole.get("items", {}).get("description")):
                bare.append(f"{where}.{key}")
            walk(whole, f"{where}.{key}")
            walk(resolved(whole.get("items", {})), f"{where}.{key}")

    walk(SCHEMA, "")
    assert bare == []


@pytest.mark.parametrize(
    "text",
    [
        EVERY_TENON.replace("haunch = false", "haunch = true", 1),
        EVERY_TENON.replace('taper = "1 in 8"', "taper = 8"),
        EVERY_TENON.replace("count = 2, diameter", "count = 0, diameter"),
        EVERY_TENON.replace('edges = ["top", "bottom"]', "edges = []"),
        EVERY_TENON.replace('lies = "flat"', 'lies = "level"'),
        EVERY_TENON.replace('held = "shoulders"', 'held = "both"'),
        EVERY_TENON.replace('name = "stretcher"\nwidth = "2 15/16"', 'name = "stretcher"'),
        EVERY_TENON.replace('"right passing end rail"]', '"right", "left"]'),
        EVERY_TENON.replace('top = "centred"', 'top = "centred"\nabove_floor = 3'),
        EVERY_BANK.replace("into = 5", "into = 1"),
        EVERY_BANK.replace("into = 5", "into = 21"),
        EVERY_BANK.replace("into = 5, ", ""),
        EVERY_BANK.replace("into = 5", 'into = 5, ratio = "6/5"'),
        EVERY_BANK.replace("heights = [8", "into = 3, heights = [8"),
        EVERY_BANK.replace('"rest", "9 1/2"', '"rest", "rest"'),
        EVERY_BANK.replace('[8, "rest", "9 1/2"]', "[8]"),
        EVERY_BANK.replace('"6/5"', "1.2"),
        EVERY_BANK.replace("rail = { width = 1, thickness = 1 }", "rail = { width = 1 }"),
        EVERY_BOX.replace('style = "set in"', 'style = "inset"'),
        EVERY_BOX.replace("space = {", 'openings = ["front under low rail"]\nspace = {', 1),
        EVERY_BOX.replace("space = { width = 20, height = 5, depth = 15 }", ""),
        EVERY_BOX.replace("height = 5, depth = 15", "height = 5"),
        EVERY_BOX.replace("openings = [", "opening = ["),
        EVERY_BOX.replace('["front under top rail", "front under middle rail"]', "[]"),
        EVERY_BOX.replace('"front under middle rail"]', '"front under top rail"]'),
        EVERY_BOX.replace('slope = "1:6"', 'slope = "6"'),
        EVERY_BOX.replace('slope = "1:6"', "slope = 6"),
        EVERY_BOX.replace("tails = 3", "tails = 0"),
        EVERY_BOX.replace("tails = 3", "tails = 101"),
        EVERY_BOX.replace("tails = 3", "tails = 3, tail_width = 1"),
        EVERY_BOX.replace("tails = 2", "tails = 2, pins_at = [1, 2]"),
        EVERY_BOX.replace("tail_width = 1,", "tail_width = 1, pins_at = [1, 2],"),
        EVERY_BOX.replace('pins_at = ["1 1/4", "2 1/2", "3 3/4"]', "pins_at = []"),
        EVERY_BOX.replace('graduated = "7/8"', "graduated = 0.875"),
        EVERY_BOX.replace('graduated = "7/8"', 'graduated = "1e-9"'),
        EVERY_BOX.replace('edges = "half tails"', 'edges = "tails"'),
        EVERY_BOX.replace('first = "pins"', 'first = "both"'),
        EVERY_BOX.replace("lap = false", "lap = true"),
        EVERY_BOX.replace('first = "pins"', 'lap = "1/8"'),
        EVERY_BOX.replace('kind = "solid"', 'kind = "ply"'),
        EVERY_BOX.replace("count = 3", "count = 21"),
        EVERY_BOX.replace("count = 3", "many = 3"),
        EVERY_BOX.replace("slots = false", "slots = true"),
        EVERY_BOX.replace("runners = false", "runners = true"),
        EVERY_BOX.replace("kickers = true", "kickers = {}"),
        EVERY_BOX.replace('height = "3/4", width = "1/2"', 'width = "1/2"'),
        EVERY_BOX.replace("length = 30\n", ""),
        EVERY_BOX.replace("height = 12\nthickness", "height = 12\nthick"),
        EVERY_BOX.replace('tails_on = "ends"', 'tails_on = "front"'),
        EVERY_BOX.replace("front_boards = 2", "front_boards = 13"),
        EVERY_BOX.replace("front_boards = 2", "front_boards = 0"),
        EVERY_BOX.replace("front_boards = 2", "front_boards = []"),
        EVERY_BOX.replace('kind = "groove"', 'kind = "nailed"'),
        EVERY_BOX.replace('kind = "groove", ', ""),
        EVERY_BOX.replace('kind = "groove", thickness = "1/2"', 'kind = "groove"'),
        EVERY_BOX.replace('kind = "rabbeted", thickness = "7/8"', 'kind = "rabbeted"'),
        EVERY_BOX.replace("lid = false", "lid = true"),
        EVERY_BOX.replace("[[chest]]", "[chest]", 1).split("[[chest]]")[0],
        EVERY_CASE.replace('height = 20\n', ""),
        EVERY_CASE.replace('tails_on = "top and bottom"', 'tails_on = "top"'),
        EVERY_CASE.replace('tails_on = "top and bottom"', "top_in = 1"),
        EVERY_CASE.replace('tails_on = "top and bottom"', "bottom_in = 0"),
        EVERY_CASE.replace('tails_on = "top and bottom"', "slide = {}"),
        EVERY_CASE.replace('tails_on = "top and bottom"', "housing = {}"),
        EVERY_CASE.replace('top_in = "3/4"', "dovetails = {}"),
        EVERY_CASE.replace('top_in = "3/4"', "housing = {}"),
        EVERY_CASE.replace('top_in = "3/4"', 'tails_on = "sides"'),
        EVERY_CASE.replace('lap = "3/16" }', "lap = true }"),
        EVERY_CASE.replace("back = false", "back = true"),
        EVERY_CASE.replace("back = false", "back = {}"),
        EVERY_CASE.replace("boards = 5\n", ""),
        EVERY_CASE.replace("boards = 5", "boards = 1"),
        EVERY_CASE.replace("boards = 5", "boards = 31"),
        EVERY_CASE.replace("boards = 5", "boards = [2, 2]"),
        EVERY_CASE.replace('tongue = { thickness = "3/16", ', "tongue = { wide = 1, "),
        EVERY_CASE.replace("timber = \"cedar\"", "up = 1"),
        EVERY_CASE.replace('slope = "1:6"', "slope = 6"),
        EVERY_CASE.replace('slopes = "face"', 'slopes = "front"'),
        EVERY_CASE.replace('taper = "1/32"\n', ""),
        EVERY_CASE.replace('enter = "front"', 'enter = "left"'),
        EVERY_CASE.replace('enter = "back"', 'taper = "1/32"'),
        EVERY_CASE.replace('enter = "back"', 'slope = "1:7"'),
        EVERY_CASE.replace('name = "shelf"\n', ""),
        EVERY_CASE.replace('opening = "inside cabinet"\n', ""),
        EVERY_CASE.replace('lies = "level"\n', ""),
        EVERY_CASE.replace('lies = "level"', 'lies = "flat"'),
        EVERY_CASE.replace('lies = "level"', 'lies = "upright"'),
        EVERY_CASE.replace('lies = "upright"', 'lies = "level"'),
        EVERY_CASE.replace('thickness = "5/8"\n', ""),
        EVERY_CASE.replace("depth = 9\ntimber", "depth = 9\nhousing = {}\ntimber"),
        EVERY_CASE.replace("slide = {}\n", ""),
        EVERY_CASE.replace("slide = {}\n", "slide = true\n"),
        EVERY_CASE.replace("slide = {}\n", "slide = false\n"),
        EVERY_CASE.replace('thickness = "1/2"\nset_back', "set_back"),
        EVERY_CASE.replace('slide = { depth = "3/16" }\n', ""),
        EVERY_CASE.replace('slide = { depth = "3/16" }', "slide = {}\nhousing = {}"),
        EVERY_CASE.replace("into = 2\n", "into = 2\nrail = { width = 1, thickness = 1 }\n"),
        EVERY_CASE.replace("into = 2\n", "into = 2\nback_rails = true\n"),
        EVERY_CASE.replace("[[carcase]]", "[carcase]", 1).split("[[carcase]]")[0],
        EVERY_CASE[EVERY_CASE.index("[[divider]]"):EVERY_CASE.index("[[drawer]]")],
        'piece = "Nothing"\nunit = "in"\n',
        'piece = "Nothing"\nunit = "in"\nchest = []\ndrawer = []\ncarcase = []\n',
    ],
)
def test_schema_and_reader_refuse_the_same(text: str) -> None:
    assert text not in (EVERY_TENON, EVERY_BOX, EVERY_BANK, EVERY_CASE, EVERY_DOOR)
    with pytest.raises(jsonschema.ValidationError):
        piece_judge().validate(plain(text))
    with pytest.raises(ShoulderlineError):
        read(text)


def test_every_value_of_a_tenon_arrives() -> None:
    choice = read(EVERY_TENON)
    tenons = {one.name: one.tenon for one in choice.frame.rails}
    half = INCH / 2
    pegs = tenons["pegged rail"].pegs
    assert pegs == (2, INCH * 5 / 16, half, INCH / 16, INCH / 4)
    haunch = tenons["pegged rail"].haunch
    assert haunch == ("sloped", "edge", INCH / 8, half, INCH, INCH * 3 / 8)
    assert tenons["paired rail"].pair == (INCH, half, INCH / 8)
    assert tenons["paired rail"].haunch is None
    assert tenons["paired rail"].inner_shoulder == half
    assert tenons["twin rail"].twin == (INCH * 3 / 4,)
    assert tenons["twin rail"].stub
    assert tenons["wedged rail"].wedges == (2, INCH * 3 / 16, INCH / 16, INCH / 4, 2 * INCH)
    assert tenons["wedged rail"].projection == INCH / 4
    assert tenons["tight rail"].side_wedge == ("edge", half, INCH / 4, INCH / 8)
    assert tenons["keyed rail"].key == (
        "thickness", INCH, Fraction(1, 8), INCH / 8, INCH, half, INCH * 3 / 4
    )
    assert tenons["moulded rail"].mould == (INCH / 4, INCH / 4, ("edge", "far edge"))
    assert tenons["moulded rail"].barefaced == "back"
    assert choice.frame.rails[6].centred
    assert (tenons["mitred rail"].meeting, tenons["mitred rail"].mitre_gap) == ("mitred", INCH / 8)
    assert tenons["passing rail"].notched
    assert not tenons["passing end rail"].notched
    stretcher, slat = choice.frame.crosses
    assert stretcher.between == ("left passing end rail", "right passing end rail")
    assert stretcher.places == (None, 14 * INCH, INCH * 17 / 2)
    assert (stretcher.upright, slat.upright) == (True, False)
    assert slat.places == (20 * INCH, None, None)
    assert (stretcher.rail.timber, stretcher.rail.tenon.glue_room) == ("ash", INCH / 16)
    milled = choice.frame.milled
    assert milled.held == "shoulders"
    assert [one[:3] for one in milled.parts] == [
        ("front left leg", INCH * 95 / 32, INCH * 47 / 16),
        ("stretcher", INCH * 47 / 16, None),
    ]
    agree = [f.level for f in check(work_out(choice)) if f.rule == SUMS_AGREE]
    assert agree == ["note"]


def test_what_is_left_out_of_a_tenon_is_usual() -> None:
    text = """
piece = "Bare"
unit = "mm"
[frame]
length = 900
depth = 500
height = 700
[frame.leg]
width = 60
thickness = 60
[[frame.rail]]
name = "rail"
sides = ["front"]
top = "flush"
width = 90
thickness = 30
tenon = TENON
"""
    (first,) = read(text.replace("TENON", "{}")).frame.rails
    assert first.tenon == usual.tenon("mm")
    assert first.tenon.length is None
    (keyed,) = read(text.replace("TENON", "{ through = true, key = {} }")).frame.rails
    assert keyed.tenon.key == ("thickness", 22, Fraction(1, 7), Fraction(3, 2), 28, 22, None)
    (wedged,) = read(text.replace("TENON", "{ through = true, wedges = {} }")).frame.rails
    assert wedged.tenon.wedges == (2, 3, Fraction(4, 5), 5, None)
    (haunched,) = read(text.replace("TENON", '{ haunch = { kind = "square" } }')).frame.rails
    assert haunched.tenon.haunch == ("square", "edge", 1, 12, None, None)


FRAME_SAYS = """
piece = "Whose word"
unit = "mm"
[frame]
length = 900
depth = 500
height = 700
[frame.leg]
width = 60
thickness = 60
[frame.tenon]
FRAME
[[frame.rail]]
name = "rail"
sides = ["front"]
top = "flush"
width = 90
thickness = 30
tenon = { RAIL }
"""


@pytest.mark.parametrize(
    ("frame", "rail", "key", "value"),
    [
        ("length = 30", "through = true", "length", None),
        ("stub = true", "through = true", "stub", False),
        ("through = true\nwedges = {}", "through = false", "wedges", None),
        ("through = true\nwedges = {}", "key = {}", "wedges", None),
        ("through = true\nprojection = 5", "through = false", "projection", 0),
        ("outer_shoulder = 8", "inner_shoulder = 9", "outer_shoulder", None),
        ("inner_shoulder = 8", 'barefaced = "back"', "inner_shoulder", None),
        ("top_shoulder = 8", 'haunch = { kind = "square" }', "top_shoulder", None),
        ("pegs = {}", "pegs = false", "pegs", None),
        ('meeting = "passing"\nnotched = true', 'meeting = "clear"', "notched", False),
    ],
)
def test_a_rail_s_word_takes_back_the_frame_s(
    frame: str, rail: str, key: str, value: object
) -> None:
    text = FRAME_SAYS.replace("FRAME", frame).replace("RAIL", rail)
    (one,) = read(text).frame.rails
    assert getattr(one.tenon, key) == value


@pytest.mark.parametrize(
    ("frame", "rail", "place", "words"),
    [
        ("", "wedges = {}", "line 19, frame.rail 1 (rail).tenon.wedges", "through = true"),
        ("", "key = {}", "tenon.key", "through = true"),
        ("", "projection = 5", "tenon.projection", "through = true"),
        ("", "through = true, length = 5", "tenon.length", "leave length out"),
        ("through = true\nlength = 5", "", "line 13, frame.tenon.length", "leave length out"),
        ("through = true", "length = 5", "frame.rail 1 (rail).tenon.length", "leave length out"),
        ("through = true", "stub = true", "tenon.stub", "keep one"),
        ("", "through = true, wedges = {}, key = {}", "tenon.key", "wedges and a key"),
        (
            "", "through = true, twin = {}, side_wedge = { outer = 9, inner = 5 }",
            "tenon.side_wedge", "needs one tenon",
        ),
        (
            "", "through = true, side_wedge = { outer = 5, inner = 9 }", "side_wedge.inner",
            "can't be driven in",
        ),
        ("", 'outer_shoulder = 5, barefaced = "back"', "tenon.barefaced", "given twice"),
        (
            "", 'top_shoulder = 5, haunch = { kind = "square" }', "tenon.top_shoulder",
            "haunch's width",
        ),
        ('haunch = { kind = "square" }', "top_shoulder = 5", "rail).tenon.top_shoulder", "haunch"),
        ("", 'haunch = { kind = "groove", length = 5 }', "tenon.haunch", "groove is deep"),
        ("", "notched = true", "tenon.notched", "passing"),
        ("", 'through = true, meeting = "mitred"', "tenon.meeting", "can't be mitred"),
        ("", "pair = true", "tenon.pair", "pair = {}"),
        ("", 'through = true, key = { taper = "1 in 0.5" }', "tenon.key.taper", "too steep"),
        ("", 'through = true, key = { taper = "7" }', "tenon.key.taper", "1 in 7"),
    ],
)
def test_choices_that_contradict_each_other(
    frame: str, rail: str, place: str, words: str
) -> None:
    with pytest.raises(ShoulderlineError) as caught:
        read(FRAME_SAYS.replace("FRAME", frame).replace("RAIL", rail))
    told = str(caught.value)
    assert place in told
    assert words in told
    assert "; " in told


def test_the_keys_of_the_first_piece_arrive() -> None:
    choice = read(EVERY_KEY)
    assert choice.dual
    assert choice.kit.gauge == "marking gauge"
    assert choice.kit.chisels == (Fraction(127, 20), Fraction(381, 40))
    assert choice.kit.mortise_bits == (Fraction(127, 10), 12)
    assert choice.kit.drills == (Fraction(127, 16),)
    assert choice.kit.listed == {"chisels", "mortise_bits", "drills", "cutters"}
    assert choice.wall_least == Fraction(127, 40)
    assert choice.frame.leg.thickness == Fraction(127, 2)
    first, middle, low = choice.frame.rails
    assert (first.below_top, first.above_floor) == (0, None)
    assert middle.below_top == 14 * Fraction(127, 5)
    assert low.above_floor == 150
    assert first.tenon.length == Fraction(127, 5)
    assert middle.tenon.length == Fraction(127, 4)
    assert first.tenon.bottom_shoulder == 0
    assert (first.timber, middle.timber) == ("beech", "oak")
    assert choice.frame.timber == "ash"
    assert choice.panels[0].seat.in_legs == "groove"
    assert choice.panels[1].seat.depth == Fraction(889, 80)
    assert not stopped(check(work_out(choice)))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_samples_follow_the_schema(path: Path) -> None:
    piece_judge().validate(plain(path.read_text(encoding="utf-8")))
    assert read_piece(path).where.file == str(path)


README = (ROOT / "README.md").read_text(encoding="utf-8")
README_BLOCKS = re.findall(r"^```toml\n(.*?)^```", README, flags=re.MULTILINE | re.DOTALL)
# A block that names its piece is a whole piece file; the others can be added to the whole one
# that stands before them.
README_FILES = [text for text in README_BLOCKS if text.startswith("piece = ")]
README_MORE = [
    ([one for one in README_BLOCKS[:number] if one in README_FILES][-1], text)
    for number, text in enumerate(README_BLOCKS)
    if text not in README_FILES
]


def test_the_readme_s_piece_file_works() -> None:
    made = work_out(read(README_FILES[0]))
    assert {p.part.name for p in made.panels} == {"left end panel", "right end panel"}


@pytest.mark.parametrize("whole", README_FILES, ids=lambda text: text.split("\n")[0])
def test_the_readme_s_piece_files_have_nothing_against_them(whole: str) -> None:
    piece_judge().validate(plain(whole))
    assert {f.level for f in check(work_out(read(whole)))} == {"note"}


def test_the_readme_has_solid_panels_and_a_pair_of_doors() -> None:
    ends = work_out(read(README_FILES[4]))
    assert [panel.choice.make.profile.kind for panel in ends.panels] == ["raised", "raised"]
    pair = work_out(read(README_FILES[5]))
    assert [door.meets for door in pair.doors] == ["right", "left"]
    assert [len(door.bays) for door in pair.doors] == [3, 3]


def test_the_readme_has_a_top_with_dogs_and_holdfasts_and_a_price() -> None:
    bench = work_out(read(README_FILES[6]))
    assert [row.choice.called for row in bench.dogs] == ["dog hole", "holdfast hole"]
    assert bench.tops[0].fixings is not None
    stock = parse_toml(README_FILES[7], "README.md").table("stock")
    assert [one.timber for one in read_stock(stock, "in").prices] == ["cherry"]


def test_the_readme_has_a_drawer_in_a_frame_and_a_chest() -> None:
    assert len(README_FILES) == 9
    bank = work_out(read(README_FILES[2]))
    assert len(bank.drawers) == 4
    made = work_out(read(README_FILES[1]))
    assert [drawer.hole.opening.name for drawer in made.drawers] == ["front under top rail"]
    (more,) = (text for whole, text in README_MORE if "[[chest]]" in text)
    assert [chest.choice.name for chest in work_out(read(README_FILES[1] + more)).chests]


def test_the_readme_has_a_cabinet_with_a_shelf_a_partition_and_drawers() -> None:
    cabinet = README_FILES[3]
    made = work_out(read(cabinet))
    assert [case.choice.name for case in made.carcases] == ["cabinet"]
    assert [one.choice.name for one in made.dividers] == ["shelf", "partition"]
    assert [drawer.hole.opening.name for drawer in made.drawers] == ["left of partition"]
    (more,) = (text for whole, text in README_MORE if whole == cabinet)
    assert len(work_out(read(cabinet + more)).drawers) == 3


@pytest.mark.parametrize(
    ("whole", "more"), README_MORE, ids=lambda text: text.split("\n")[0]
)
def test_what_the_readme_adds_to_it_works_too(whole: str, more: str) -> None:
    text = whole + more
    piece_judge().validate(plain(text))
    made = work_out(read(text))
    assert made.parts != work_out(read(whole)).parts
    assert not stopped(check(made))


def test_the_readme_tells_every_key() -> None:
    keys = {path.split(".")[-1] for path in properties(SCHEMA)}
    assert {key for key in keys if not re.search(rf"\b{key}\b", README)} == set()


def test_the_readme_s_own_part_on_boxes_tells_every_key_of_theirs() -> None:
    """Some of them, such as `lip` and `length`, are keys of other tables too."""
    start = README.index("## Drawers and chests\n")
    prose = re.sub(r"^```.*?^```", "", README[start : README.index("\n## ", start)],
                   flags=re.MULTILINE | re.DOTALL)
    told = " ".join(re.findall(r"`([^`]+)`", prose))
    keys = {
        path.split(".")[-1]
        for path in one_of_each(properties(SCHEMA))
        if path.startswith(("drawer.", "chest.", "dovetails."))
        and ".tenon." not in path
        and ".shelf." not in path  # told where other shelves are
    }
    assert {key for key in keys if not re.search(rf"\b{key}\b", told)} == set()


def test_the_readme_s_part_on_carcases_tells_every_key_of_theirs() -> None:
    start = README.index("## Carcases, shelves and partitions\n")
    prose = re.sub(r"^```.*?^```", "", README[start : README.index("\n## ", start)],
                   flags=re.MULTILINE | re.DOTALL)
    told = " ".join(re.findall(r"`([^`]+)`", prose))
    starts = ("carcase.", "divider.", "slide.", "housing.", "drawer.divide.shelf.")
    keys = {
        path.split(".")[-1] for path in one_of_each(properties(SCHEMA)) if path.startswith(starts)
    }
    assert len(keys) > 30
    assert {key for key in keys if not re.search(rf"\b{key}\b", told)} == set()


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('piece = "Every key"', "", "piece is missing"),
        ('unit = "in"', 'unit = "inch"', "in"),
        ('rule = "1/64 in"', 'rule = "1/60 in"', "1/64"),
        ("chisels = [", "chisel = [", "chisels"),
        ("[frame.leg]", "[frame.legs]", "leg"),
        ('top = "flush"', 'top = "flushed"', "flush"),
        ('top = "flush"', "", "where the rail stands is missing"),
        ('top = "flush"', 'top = "flush"\nabove_floor = 3', "given twice"),
        ('sides = ["front"]', 'sides = ["frnt"]', "front"),
        ('sides = ["front"]', "sides = []", "sides"),
        ('seat = "groove"', 'seat = "slot"', "groove"),
        ('groove_from_face = "7/16"', 'rabbet_depth = "1/4"', "does not go with"),
        ('lip = "1/4"', "", "lip is missing"),
        ('in_legs = "groove"\nrun_in_legs = "stopped"', 'run_in_legs = "trough"', "through"),
        ('run_in_legs = "stopped"', 'run_in_legs = "through"', "the same in rails and legs"),
        ('openings = ["front under top rail"]', 'openings = ["front"]', "front under top rail"),
        ('openings = ["front under top rail"]', 'openings = ["front under low rail"]', "foot"),
        ("[[frame.rail]]", "[frame.rail]", "used twice"),
        ('in_legs = "groove"', 'seat = "rabbet"', "seat is given twice"),
        ('groove_from_face = "7/16"', 'in_legs = "rabbet"', "from behind"),
        ("length = 48", 'length = "48 kg"', "length"),
        ("length = 48", "length = 5", "leave nothing between"),
        ('name = "low panel"', 'name = "panel"', "two parts"),
    ],
)
def test_mistakes_are_named_with_their_place_and_a_cure(old: str, new: str, words: str) -> None:
    assert old in EVERY_KEY
    with pytest.raises(ShoulderlineError) as caught:
        work_out(read(EVERY_KEY.replace(old, new, 1)))
    told = str(caught.value)
    assert "\n" not in told
    assert told.startswith("test.toml")
    assert words in told
    assert "; " in told


SIZES = st.sampled_from(
    ["0", "1", "-1", "0.25", '"1/4"', '"3/8"', '"7/8"', '"1 1/8"', "2", "3.5", "4", "12", "40",
     '"60mm"', '"2 cm"', '"1/0"', '"1-1/2-3"', "nan", "inf", "1e400", '""', '"3 kg"', "true",
     "[]", '"9999 ft"', "100000", '"0.0001"', '"½"']
)  # fmt: skip
SIDES = st.sampled_from(
    ['["front"]', '["left", "right"]', '["front", "back", "left", "right"]', '["front", "front"]',
     "[]", '"front"']
)

GOOD_SIDES = st.sampled_from(
    ['["front"]', '["left", "right"]', '["front", "back", "left", "right"]']
)


@st.composite
def piece_files(draw: st.DrawFn) -> str:
    """Piece files, most of them possible; every other one has one hostile value somewhere.

    Sizes bring their own unit, so that they suit the file whichever unit it has.
    """
    hostile = draw(st.one_of(st.none(), st.integers(0, 40)))
    asked = 0

    def is_hostile() -> bool:
        nonlocal asked
        asked += 1
        return asked - 1 == hostile

    def size(*usual: str) -> str:
        return draw(SIZES if is_hostile() else st.sampled_from([f'"{one}"' for one in usual]))

    def sides() -> str:
        return draw(SIDES if is_hostile() else GOOD_SIDES)

    lines = [
        'piece = "Fuzz"',
        f'unit = "{draw(st.sampled_from(["in", "mm"]))}"',
        "[frame]",
        f"length = {size('24 in', '48 in', '600 mm')}",
        f"depth = {size('18 in', '24 in', '400 mm')}",
        f"height = {size('30 in', '700 mm')}",
        "[frame.leg]",
        f"width = {size('2 in', '2.5 in', '40 mm')}",
        f"thickness = {size('2 in', '1.5 in', '40 mm')}",
        "[frame.tenon]",
    ]
    for key, good in (
        ("length", "3/4 in"), ("thickness", "1/4 in"), ("outer_shoulder", "1/4 in"),
        ("top_shoulder", "1/4 in"), ("bottom_shoulder", "3/8 in"), ("glue_room", "2 mm"),
    ):  # fmt: skip
        if draw(st.booleans()):
            lines.append(f"{key} = {size(good)}")
    places = ['top = "flush"', 'below_top = "7 in"', 'below_top = "14 in"', 'above_floor = "6 in"']
    first = draw(st.integers(0, 1))
    number_of_rails = draw(st.integers(1, 3))
    for number in range(number_of_rails):
        lines += [
            "[[frame.rail]]",
            f'name = "rail {number}"',
            f"sides = {sides()}",
            places[first + number],
            f"width = {size('2 in', '3 in', '60 mm')}",
            f"thickness = {size('1 in', '3/4 in', '20 mm')}",
        ]
        if draw(st.booleans()):
            lines.append(f"set_in = {size('0 in', '1/8 in', '3 mm')}")
    foot = draw(st.integers(0, 2))
    if number_of_rails > 1 and foot < 2:
        side = draw(st.sampled_from(["front", "left"]))
        kind = draw(st.sampled_from(["rabbet", "groove"]))
        lines += [
            "[[panel]]",
            'name = "panel"',
            f'openings = ["{side} under rail {foot}"]',
            f"thickness = {size('1/4 in', '6 mm')}",
            f'seat = "{kind}"',
            f"lip = {size('3/8 in', '10 mm')}",
        ]
        if kind == "rabbet" and draw(st.booleans()):
            lines.append('run_in_legs = "through"')
    if draw(st.integers(0, 2)) == 0:
        style = draw(st.sampled_from(["flush", "lipped"]))
        lines += [
            "[[drawer]]",
            'openings = ["front under rail 0"]' if draw(st.booleans())
            else 'space = { width = "18 in", height = "5 in", depth = "16 in" }',
            f'style = "{style}"',
            f"sides = {size('1/2 in', '12 mm')}",
            f"dovetails = {{ pin = {size('1/4 in', '6 mm')} }}",
            f"bottom = {{ thickness = {size('1/4 in', '6 mm')}, up = {size('1/4 in', '13 mm')} }}",
        ]
    if draw(st.integers(0, 2)) == 0:
        kind = draw(st.sampled_from(["groove", "rabbet", "rabbeted", "planted"]))
        lines += [
            "[[chest]]",
            f"length = {size('30 in', '700 mm')}",
            f"depth = {size('15 in', '350 mm')}",
            f"height = {size('12 in', '250 mm')}",
            f"thickness = {size('3/4 in', '18 mm')}",
            f"dovetails = {{ half_pin = {size('1/4 in', '8 mm')} }}",
            f'bottom = {{ kind = "{kind}", thickness = {size("1/2 in", "10 mm")} }}',
        ]
    if draw(st.integers(0, 2)) == 0:
        corners = draw(st.sampled_from(["dovetails", "slide", "housing"]))
        lies = draw(st.sampled_from(["level", "upright"]))
        joined = draw(st.sampled_from(["slide", "housing"]))
        lines += [
            "[[carcase]]",
            f"width = {size('24 in', '700 mm')}",
            f"height = {size('15 in', '350 mm')}",
            f"depth = {size('10 in', '250 mm')}",
            f"thickness = {size('3/4 in', '18 mm')}",
            f"back = {{ thickness = {size('1/4 in', '6 mm')} }}",
            f"{corners} = {{}}",
            *([] if corners == "dovetails" else [f"top_in = {size('1 in', '0 mm')}"]),
            "[[divider]]",
            'name = "divider"',
            'opening = "inside carcase"',
            f'lies = "{lies}"',
            f"thickness = {size('5/8 in', '16 mm')}",
            f"{joined} = {{ depth = {size('1/4 in', '5 mm')}, stop = {size('1/2 in', '8 mm')} }}",
        ]
    return "\n".join(lines)


@settings(max_examples=12, deadline=None)
@given(piece_files())
@example(EVERY_KEY.replace("width = 4", "width = 400"))  # a rail wider than the leg is tall
@example(EVERY_KEY.replace('thickness = "0.225"', "thickness = 2"))  # thicker than its rail
@example(EVERY_KEY.replace('outer_shoulder = "1/4"', "outer_shoulder = 3"))
@example(EVERY_KEY.replace('lip = "3/8"', "lip = 30"))
def test_a_piece_file_is_refused_in_one_line_or_its_sums_hold(text: str) -> None:
    refused = ""
    try:
        piece = work_out(read(text))
    except ShoulderlineError as error:
        refused = str(error)
    if refused:
        assert "\n" not in refused
        assert "test.toml" in refused
        return
    for one in piece.sums:
        assert sum((t.sign * t.value for t in one.terms), Fraction(0)) == one.total
    findings = check(piece)
    numbers(piece, findings)
    if not stopped(findings):
        agree = [f for f in findings if f.rule == SUMS_AGREE]
        assert [f.level for f in agree] == ["note"]
    # every sheet of it can be drawn and laid out, whatever the checks say
    page = paper_named("letter")
    upright, lying = drawing_area(page, False), drawing_area(page, True)
    up = (upright.width, upright.height)
    lay_out(
        [
            *drawing_sheets(piece, (lying.width, lying.height)),
            *cut_list_sheets(piece, up),
            *sum_sheets(piece, up),
            *check_sheets(piece, findings, up),
            *cards(piece, CARD_SIZES["index"], up),
            *sticks(piece),
            *templates(piece),
        ],
        page,
        piece.name,
    )


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200))
def test_any_text_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(ShoulderlineError) as caught:
        read(text)
    assert "\n" not in str(caught.value)


def test_numbers_in_the_file_stay_exact() -> None:
    choice = read(EVERY_KEY.replace("length = 48", "length = 48.1"))
    assert choice.frame.length == Fraction(Decimal("48.1")) * Fraction(127, 5)
