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
from layout.piece_file.reader import piece_from, read_piece
from layout.piece_file.source import parse_toml
from layout.sheets.card import CARD_SIZES, cards
from layout.sheets.drawing import drawing_sheets
from layout.sheets.lists import check_sheets, cut_list_sheets, sum_sheets
from layout.sheets.stick import sticks
from layout.sheets.template import templates

PACKAGE = Path(layout.__file__).parent
ROOT = PACKAGE.parent
SCHEMA = json.loads((PACKAGE / "piece_file" / "piece.schema.json").read_text(encoding="utf-8"))
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


def read(text: str):  # type: ignore[no-untyped-def]
    return piece_from(parse_toml(text, "test.toml"))


def plain(text: str) -> object:
    """TOML as the schema's judge wants it: numbers as numbers."""
    return json.loads(json.dumps(tomllib.loads(text, parse_float=float)))


def properties(schema: dict, where: str = "") -> set[str]:  # type: ignore[type-arg]
    """Every key path in the schema."""
    found = set()
    for key, value in schema.get("properties", {}).items():
        path = f"{where}.{key}" if where else key
        found.add(path)
        found |= properties(value, path)
        found |= properties(value.get("items", {}), path)
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
    document = plain(EVERY_KEY)
    jsonschema.validate(document, SCHEMA)
    missing = properties(SCHEMA) - paths(document)
    # a rail's own tenon takes the same keys as the frame's
    assert {path for path in missing if not path.startswith("frame.rail.tenon.")} == set()
    choice = read(EVERY_KEY)
    assert choice.dual
    assert choice.kit.gauge == "marking gauge"
    assert choice.kit.chisels == (Fraction(127, 20), Fraction(381, 40))
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
    jsonschema.validate(plain(path.read_text(encoding="utf-8")), SCHEMA)
    assert read_piece(path).where.file == str(path)


def test_the_readme_s_piece_file_works() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (whole,) = re.findall(r"^```toml\n(.*?)^```", text, flags=re.MULTILINE | re.DOTALL)
    jsonschema.validate(plain(whole), SCHEMA)
    made = work_out(read(whole))
    assert {p.part.name for p in made.panels} == {"left end panel", "right end panel"}
    assert {f.level for f in check(made)} == {"note"}


def test_the_readme_tells_every_key() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    keys = {path.split(".")[-1] for path in properties(SCHEMA)}
    assert {key for key in keys if not re.search(rf"\b{key}\b", text)} == set()


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
        ('run_in_legs = "stopped"', 'run_in_legs = "through"', "only a rabbet"),
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
GOOD = st.sampled_from(["0.25", '"3/8"', '"1 1/8"', "1", "2", "4", '"30mm"', "10", '"1/2"'])
SIDES = st.sampled_from(
    ['["front"]', '["left", "right"]', '["front", "back", "left", "right"]', '["front", "front"]',
     "[]", '"front"']
)

GOOD_SIDES = st.sampled_from(
    ['["front"]', '["left", "right"]', '["front", "back", "left", "right"]']
)


@st.composite
def piece_files(draw: st.DrawFn) -> str:
    """Piece files, mostly possible, with a hostile value here and there."""

    def size(*usual: str) -> str:
        return draw(SIZES if draw(st.integers(0, 14)) == 0 else st.sampled_from(usual))

    lines = [
        'piece = "Fuzz"',
        f'unit = "{draw(st.sampled_from(["in", "mm", "in", "in"]))}"',
        "[frame]",
        f"length = {size('24', '48', '600')}",
        f"depth = {size('18', '24', '300')}",
        f"height = {size('30', '700')}",
        "[frame.leg]",
        f"width = {size('2', '2.5', '40')}",
        f"thickness = {size('2', '1.5', '40')}",
        "[frame.tenon]",
        f"length = {size('1', '0.75', '20')}",
    ]
    for key in ("thickness", "outer_shoulder", "top_shoulder", "bottom_shoulder", "glue_room"):
        if draw(st.booleans()):
            lines.append(f"{key} = {draw(SIZES if draw(st.integers(0, 9)) == 0 else GOOD)}")
    for number in range(draw(st.integers(1, 3))):
        height = draw(
            st.sampled_from(['top = "flush"', "below_top = 1", "above_floor = 6", "below_top = 14"])
        )
        lines += [
            "[[frame.rail]]",
            f'name = "rail {number}"',
            f"sides = {draw(SIDES if draw(st.integers(0, 9)) == 0 else GOOD_SIDES)}",
            height,
            f"width = {size('3', '4', '60')}",
            f"thickness = {size('1', '0.75', '20')}",
        ]
        if draw(st.booleans()):
            lines.append(f"set_in = {size('0', '0.125', '3')}")
    for number in range(draw(st.integers(0, 2))):
        side = draw(st.sampled_from(["front", "left"]))
        kind = draw(st.sampled_from(["rabbet", "groove"]))
        lines += [
            "[[panel]]",
            f'name = "panel {number}"',
            f'openings = ["{side} under rail {draw(st.integers(0, 2))}"]',
            f"thickness = {size('0.25', '6')}",
            f'seat = "{kind}"',
            f"lip = {size('0.375', '10')}",
        ]
        if kind == "rabbet" and draw(st.booleans()):
            lines.append('run_in_legs = "through"')
    return "\n".join(lines)


@settings(max_examples=60, deadline=None)
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
