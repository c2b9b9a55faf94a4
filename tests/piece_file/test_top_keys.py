"""The keys of tops: what is read, what is usual, what is refused; and whatever stands there, it is
refused in one line, or its sums hold and its sheets can be drawn.
"""

from __future__ import annotations

import json
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import ValidationError
from jsonschema.validators import validator_for

import layout
from layout.builds.top_choice import Overhang, RowChoice, TopChoice
from layout.checks import check, stopped
from layout.checks.sums import wrong
from layout.defaults import default_ratio
from layout.errors import ShoulderlineError
from layout.joints.dogs import Vise, Zone
from layout.joints.end_cap import CapChoice
from layout.joints.fixing import ButtonChoice, FixingChoice, ScrewChoice
from layout.joints.strips import Spare, StripChoice
from layout.numbers import numbers
from layout.paper.pages import drawing_area
from layout.paper.sizes import paper_named
from layout.paper.tiles import lay_out
from layout.piece import PieceChoice, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.sheets.cut_list_sheet import cut_list_sheets
from layout.sheets.dog_template import dog_sheets
from layout.sheets.fixing_template import fixings
from layout.sheets.lists import sum_sheets
from layout.sheets.top_sheet import top_sheets

F = Fraction
INCH = F(127, 5)
HERE = Path(__file__).parent
EVERY_TOP = (HERE / "every_top.toml").read_text(encoding="utf-8")
EVERY_BUTTON = (HERE / "every_button.toml").read_text(encoding="utf-8")
SCHEMA = json.loads(
    (Path(layout.__file__).parent / "piece_file" / "piece.schema.json").read_text(encoding="utf-8")
)
NUMBERS = json.loads(
    (Path(layout.__file__).parent / "numbers.schema.json").read_text(encoding="utf-8")
)
# made once: a schema is slow to be looked through
PIECE_FILES = validator_for(SCHEMA)(SCHEMA)
TOLD = validator_for(NUMBERS)(NUMBERS)
HEAD = 'piece = "Top"\nunit = "mm"\ntimber = "white oak"\n'
FRAME = """[frame]
length = 1000
depth = 600
height = 800
leg = { width = 60, thickness = 60 }
[[frame.rail]]
name = "rail"
sides = ["front", "back", "left", "right"]
top = "flush"
width = 90
thickness = 28
tenon = { pair = {} }
"""
TOP = "[[top]]\nthickness = 30\n"
LINE = (HEAD + FRAME + TOP).count("\n") + 1  # where the keys of a test begin
CURE_OF_ZERO = "more than 0"


def read(text: str) -> PieceChoice:
    return piece_from(parse_toml(text, "top.toml"))


def top(keys: str = "", unit: str = "mm") -> TopChoice:
    """A top on a frame with these keys."""
    text = (HEAD + FRAME).replace('"mm"', f'"{unit}"') + TOP + keys + "\n"
    (one,) = read(text).tops
    return one


def strips(keys: str = "", unit: str = "mm") -> StripChoice:
    rest = f", {keys}" if keys else ""
    found = top(f"strips = {{ stock_thickness = 50, stock_width = 120{rest} }}", unit).strips
    assert found is not None
    return found


def caps(keys: str = "", unit: str = "mm") -> CapChoice:
    found = top(f"end_caps = {{ {keys} }}", unit).caps
    assert found is not None
    return found


def fixing(keys: str = "", unit: str = "mm") -> FixingChoice:
    found = top(f"fixing = {{ {keys} }}", unit).fixing
    assert found is not None
    return found


def row(keys: str = "lines = [70]", vise: str = "opening = 180", unit: str = "mm") -> RowChoice:
    told = f"vise = {{ {vise} }}\n" if vise else ""
    (one,) = top(f"{told}row = [{{ {keys} }}]", unit).rows
    return one


def refused(text: str) -> str:
    """The one line that a piece is refused in, by the reader or when it is worked out."""
    with pytest.raises(ShoulderlineError) as caught:
        work_out(read(text))
    told = str(caught.value)
    assert told.isprintable()  # one line
    assert len(told) < 500
    return told


# -- every key


@pytest.mark.parametrize("text", [EVERY_TOP, EVERY_BUTTON], ids=["top", "button"])
def test_every_key_of_the_samples_is_read_and_stands(text: str) -> None:
    piece = work_out(read(text))
    PIECE_FILES.validate(tomllib.loads(text, parse_float=float))
    assert wrong(piece) == []
    assert not stopped(tuple(check(piece)))


def test_what_the_sample_says_of_its_tops() -> None:
    choice = read(EVERY_TOP)
    assert choice.drawer_load == F("0.4")
    bench, counter, low, spare = choice.tops
    assert (bench.name, bench.on, bench.size, bench.thickness) == (
        "bench top", "frame", None, INCH * 5 / 2)
    assert bench.overhang == Overhang(INCH * 7 / 2, F(0), INCH * 6, INCH * 3)
    assert (bench.timber, bench.sawn, bench.below, bench.vise) == (
        "white oak", "rift", INCH * 5, "right")
    assert (counter.on, low.on, low.strips, low.caps, low.fixing) == (
        "case", "low case", None, None, None)
    assert (spare.on, spare.size, spare.overhang) == (
        None, (INCH * 40, INCH * 20), Overhang(F(0), F(0), F(0), F(0)))
    assert spare.timber == "hard maple"


def test_what_the_sample_says_of_strips_caps_and_screws() -> None:
    bench = read(EVERY_TOP).tops[0]
    glued, capped, held = bench.strips, bench.caps, bench.fixing
    assert glued is not None
    assert capped is not None
    assert held is not None
    assert glued == StripChoice(
        lay="on edge", thickness=INCH * 9 / 4, width=INCH * 8, length=INCH * 40,
        planer=INCH * 13, heart="up",
        spare=Spare(INCH * 3 / 16, INCH * 5 / 16, INCH * 3 / 16, INCH * 3 / 4),
        stagger=INCH * 5, caul=INCH * 7 / 4, reach=INCH * 9, spread=F(180), where=glued.where,
    )
    assert capped == CapChoice(
        width=INCH * 7 / 2, tongue=INCH * 7 / 8, length=INCH * 5 / 4, room=INCH / 8, pegs=5,
        peg=INCH * 5 / 16, peg_in=INCH * 5 / 2, slot_room=INCH / 16, timber="beech",
        where=capped.where,
    )
    assert (held.kind, held.held, held.apart, held.clear) == (
        "screws", "front", INCH * 18, INCH * 3 / 8)
    assert held.screw == ScrewChoice(INCH / 4, INCH * 5 / 8, INCH * 5 / 4, INCH / 16,
                                     INCH * 13 / 16)


def test_what_the_sample_says_of_buttons() -> None:
    held = read(EVERY_BUTTON).tops[0].fixing
    assert held is not None
    assert (held.kind, held.held, held.apart, held.clear, held.timber) == (
        "buttons", "back", INCH * 15, INCH * 5 / 8, "hard maple")
    assert held.button == ButtonChoice(
        length=INCH * 11 / 4, width=INCH * 9 / 8, block=INCH * 7 / 8, tongue=INCH * 7 / 16,
        tongue_length=INCH * 9 / 16, draw=INCH / 16, cover=INCH * 5 / 16, room=INCH * 3 / 64,
    )


def test_what_the_sample_says_of_its_rows() -> None:
    square, holes = read(EVERY_TOP).tops[0].rows
    dogs = square.dogs
    vise = Vise(INCH * 8, INCH / 2, INCH * 5 / 4)
    assert (dogs.shape, dogs.size, dogs.vise, dogs.name, dogs.called) == (
        "square", INCH * 7 / 8, vise, "holes-1", "dog hole")
    assert (square.front, square.strip, square.off_glue) == (INCH * 5 / 4, INCH * 2, None)
    assert (dogs.first, dogs.pitch, dogs.end, dogs.clear, dogs.step) == (
        INCH * 15 / 2, INCH * 5, INCH * 2, INCH * 3 / 8, INCH / 8)
    assert dogs.lean is not None
    assert dogs.lean.degrees_text == "2"
    assert dogs.zones == (Zone("bolt", INCH * 20, INCH * 41 / 2),)
    dogs = holes.dogs
    assert (dogs.shape, dogs.size, dogs.vise, dogs.name, dogs.called) == (
        "round", INCH * 13 / 16, None, "holes-2", "holdfast hole")
    assert (dogs.lines, dogs.first, dogs.pitch, dogs.usual_pitch) == (
        (INCH * 12, INCH * 37 / 2), INCH * 11, None, INCH * 12)
    assert holes.off_glue == INCH / 16


# -- what is usual: the figures of README's tables


def test_a_top_of_which_nothing_more_is_said() -> None:
    one = top()
    assert (one.name, one.on, one.size, one.timber, one.sawn, one.vise) == (
        "top", None, None, "white oak", None, "left")
    assert (one.strips, one.caps, one.fixing, one.rows) == (None, None, None, ())
    assert (one.overhang, one.below) == (Overhang(F(25), F(25), F(25), F(25)), 100)
    inches = top(unit="in")
    assert (set(inches.overhang), inches.below) == ({INCH}, INCH * 4)
    assert read(HEAD + FRAME + TOP).drawer_load == default_ratio("drawer_load") == F(1, 2)


def test_one_side_s_overhang_goes_before_all() -> None:
    assert top("overhang = 30\noverhang_back = 0\noverhang_left = 80").overhang == Overhang(
        F(30), F(0), F(80), F(30))


@pytest.mark.parametrize(
    ("unit", "spare", "stagger", "caul", "reach"),
    [("mm", (6, 6, 3, 25), 150, 38, 250),
     ("in", (INCH / 4, INCH / 4, INCH / 8, INCH), INCH * 6, INCH * 3 / 2, INCH * 10)],
)
def test_strips_left_to_the_usual(
    unit: str, spare: tuple[Fraction, ...], stagger: Fraction, caul: Fraction, reach: Fraction
) -> None:
    one = strips(unit=unit)
    assert tuple(one.spare) == spare
    assert (one.stagger, one.caul, one.reach, one.spread) == (stagger, caul, reach, 200)
    assert (one.lay, one.heart, one.length, one.planer) == ("flat", "alternate", None, None)


@pytest.mark.parametrize(
    ("unit", "sizes"),
    [("mm", (75, 25, F(3, 2), 10, 50, 1)),
     ("in", (INCH * 3, INCH, INCH / 16, INCH * 3 / 8, INCH * 2, INCH / 32))],
)
def test_end_caps_left_to_the_usual(unit: str, sizes: tuple[Fraction, ...]) -> None:
    one = caps(unit=unit)
    assert (one.width, one.length, one.room, one.peg, one.peg_in, one.slot_room) == sizes
    assert (one.tongue, one.pegs, one.timber) == (None, 3, "")


@pytest.mark.parametrize(
    ("unit", "apart", "clear", "button", "screw"),
    [("mm", 500, 12, (63, 25, 20, 10, 13, 1, 6, 1), (5, 12, 25, 1)),
     ("in", INCH * 20, INCH / 2,
      (INCH * 5 / 2, INCH, INCH * 3 / 4, INCH * 3 / 8, INCH / 2, INCH / 32, INCH / 4, INCH / 32),
      (INCH * 3 / 16, INCH / 2, INCH, INCH / 32))],
)
def test_fixings_left_to_the_usual(
    unit: str, apart: Fraction, clear: Fraction, button: tuple[Fraction, ...],
    screw: tuple[Fraction, ...],
) -> None:
    one = fixing(unit=unit)
    assert (one.kind, one.held, one.apart, one.clear, one.timber) == (
        "buttons", "middle", apart, clear, "")
    assert (tuple(one.button), tuple(one.screw)) == (button, (*screw, None))
    assert fixing('kind = "screws"', unit).screw == one.screw


def test_rows_left_to_the_usual() -> None:
    one = row()
    dogs = one.dogs
    assert (dogs.shape, dogs.size, dogs.lines, dogs.called) == ("round", 20, (70,), "dog hole")
    assert (dogs.pitch, dogs.first, dogs.usual_pitch) == (None, 100, 100)
    assert (dogs.end, dogs.clear, dogs.step, dogs.lean, dogs.zones) == (38, 6, 1, None, ())
    assert (dogs.vise, one.off_glue) == (Vise(F(180), F(0), F(25)), None)
    held = row('holes = "holdfasts", lines = [70]').dogs
    assert (held.size, held.usual_pitch, held.first, held.vise, held.called) == (
        19, 300, 300, None, "holdfast hole")
    inches = row(vise="opening = 8", unit="in").dogs
    assert (inches.size, inches.first, inches.end, inches.clear, inches.step) == (
        INCH * 3 / 4, INCH * 4, INCH * 3 / 2, INCH / 4, INCH / 16)
    assert row('holes = "holdfasts", lines = [70]', "", "in").dogs.first == INCH * 12


@pytest.mark.parametrize(
    ("keys", "vise", "first"),
    [
        ("lines = [70]", "opening = 90", 65),  # what the vise serves is less than a usual pitch
        ("lines = [70]", "opening = 90, hand = 0", 90),
        ("lines = [70], pitch = 80", "opening = 180", 80),
        ("lines = [70], pitch = 80, first = 130", "opening = 180", 130),
        ('lines = [70], holes = "holdfasts", pitch = 210', "opening = 90", 210),
    ],
)
def test_the_first_hole_left_open(keys: str, vise: str, first: int) -> None:
    assert row(keys, vise).dogs.first == first


def test_off_glue_of_nothing_is_not_left_out() -> None:
    assert row("lines = [70], off_glue = 0").off_glue == 0
    assert row("lines = [70]").off_glue is None


@pytest.mark.parametrize("key", ["strips", "end_caps", "fixing"])
def test_false_is_left_out(key: str) -> None:
    assert top(f"{key} = false") == top()._replace(where=top(f"{key} = false").where)


# -- refused: each wrong value in one message with file, line, key and cure

WRONG = [
    ("thicknes = 30", "top 1.thicknes: unknown key 'thicknes'", "did you mean 'thickness'"),
    ('name = ""', "top 1.name: this text is empty", "between the quotes"),
    ("name = 3", "top 1.name: text is wanted here", "put text in quotes"),
    ('on = "shed"', "there is no 'shed' for the top to lie on", "one of: frame"),
    ("overhang = -1", "top 1.overhang: -1 is below zero", "without the minus sign"),
    ('overhang_front = "far"', "top 1.overhang_front: 'far' has no number", "write it like"),
    ("overhang_side = 3", "top 1.overhang_side: unknown key", "did you mean"),
    ('sawn = "curly"', "top 1.sawn: 'curly' can't be chosen here", "flat, quarter, rift"),
    ("length = 900", "top 1.width: width is missing", "give its width too"),
    ("width = 900", "top 1.length: length is missing", "give its length too"),
    ('length = 900\nwidth = 500\non = "frame"', "top 1.on: on does not go with a size",
     "leave length and width out"),
    ("length = 900\nwidth = 500\noverhang = 3", "top 1.overhang: overhang does not go",
     "leave length and width out"),
    ("length = 900\nwidth = 500\noverhang_back = 3", "top 1.overhang_back: overhang_back does not",
     "leave length and width out"),
    ("length = 900\nwidth = 500\nfixing = {}", "top 1.fixing: fixing does not go with a size",
     "leave length and width out"),
    ("dogs_below = -1", "top 1.dogs_below: -1 is below zero", "without the minus sign"),
    ("vise = { end = \"left\" }", "top 1.vise.opening: opening is missing", "opening = 8"),
    ("vise = { opening = 0 }", "top 1.vise.opening: this length must be", CURE_OF_ZERO),
    ("vise = { opening = 25 }", "top 1.vise.opening: the hand's margin is no less than the vise",
     "make it less"),
    ("vise = { opening = 90, hand = 90 }", "top 1.vise.hand: the hand's margin is no less",
     "make it less"),
    ('vise = { opening = 90, end = "back" }', "top 1.vise.end: 'back' can't be chosen",
     "left, right"),
    ("vise = { opening = 90, closed = -2 }", "top 1.vise.closed: -2 is below zero",
     "without the minus sign"),
    ("vise = 90", "top 1.vise: a table is wanted", "[top.vise]"),
    ("strips = true", "top 1.strips: a table is wanted here, not true", "strips = {}"),
    ("end_caps = true", "top 1.end_caps: a table is wanted here, not true", "end_caps = {}"),
    ("fixing = true", "top 1.fixing: a table is wanted here, not true", "fixing = {}"),
    ("row = 3", "top 1.row: ", "[[top.row]]"),
]
STRIPS = [
    ("stock_width = 120", "strips.stock_thickness: stock_thickness is missing", "thickness, e.g."),
    ("stock_thickness = 50", "strips.stock_width: stock_width is missing", "width, e.g. 6"),
    ("ROUGH, lay = \"upright\"", "strips.lay: 'upright' can't be chosen", "flat, on edge"),
    ("ROUGH, heart = \"down\"", "strips.heart: 'down' can't be chosen", "up, alternate"),
    ("ROUGH, glue_spread = 0", "strips.glue_spread: 0 is not from 1 to 2000", "whole number"),
    ("ROUGH, glue_spread = 2001", "strips.glue_spread: 2001 is not from 1", "whole number"),
    ("ROUGH, glue_spread = 1.5", "strips.glue_spread: 1.5 is not a whole number", "whole number"),
    ("ROUGH, clamps_apart = 0", "strips.clamps_apart: this length must be", CURE_OF_ZERO),
    ("ROUGH, planer = 0", "strips.planer: this length must be", CURE_OF_ZERO),
    ("ROUGH, stock_length = 0", "strips.stock_length: this length must be", CURE_OF_ZERO),
    ("ROUGH, milling = -1", "strips.milling: -1 is below zero", "without the minus sign"),
    ("ROUGH, jointing = -1", "strips.jointing: -1 is below zero", "without the minus sign"),
    ("ROUGH, caul = -1", "strips.caul: -1 is below zero", "without the minus sign"),
    ("ROUGH, stagger = -1", "strips.stagger: -1 is below zero", "without the minus sign"),
    ("ROUGH, plane = 300", "strips.plane: unknown key 'plane'", "did you mean 'planer'"),
    ("ROUGH, jointing = 120", "strips: the allowances leave nothing of the stock", "thicker stock"),
    ("stock_thickness = 38, stock_width = 120", "strips: the stock is not thick enough",
     "heavier stock"),
    ("stock_thickness = 50, stock_width = 38, lay = \"on edge\"",
     "strips: the stock is not wide enough", "heavier stock"),
    ("ROUGH, planer = 100", "strips: a strip is wider than the planer passes", "narrower stock"),
    ("stock_thickness = 50, stock_width = 12", "strips: the top needs 109 strips", "at most 100"),
    ("ROUGH, stock_length = 50", "strips: each strip would be of 22 staves", "at most 20"),
]
CAPS = [
    ("width = 0", "end_caps.width: this length must be", CURE_OF_ZERO),
    ("tongue = 0", "end_caps.tongue: this length must be", CURE_OF_ZERO),
    ("pegs = 1", "end_caps.pegs: 1 is not from 2 to 15", "whole number"),
    ("pegs = 16", "end_caps.pegs: 16 is not from 2 to 15", "whole number"),
    ("peg = 0", "end_caps.peg: this length must be", CURE_OF_ZERO),
    ("room = -1", "end_caps.room: -1 is below zero", "without the minus sign"),
    ("slot_room = -1", "end_caps.slot_room: -1 is below zero", "without the minus sign"),
    ("widht = 90", "end_caps.widht: unknown key 'widht'", "did you mean 'width'"),
    ("tongue = 30", "end_caps: the end caps' tongue is no thinner than the top", "third"),
    ("tongue_length = 73.5", "end_caps: the end caps' groove goes through them", "caps wider"),
    ("width = 525, tongue_length = 10", "end_caps: the end caps leave nothing of the top between",
     "narrower"),
    ("peg_in = 325", "end_caps: the pegs stand in farther than half", "smaller peg_in"),
]
FIXING = [
    ('kind = "nails"', "fixing.kind: 'nails' can't be chosen", "buttons, screws"),
    ('held = "left"', "fixing.held: 'left' can't be chosen", "front, middle, back"),
    ("apart = 0", "fixing.apart: this length must be", CURE_OF_ZERO),
    ("clear = -1", "fixing.clear: -1 is below zero", "without the minus sign"),
    ("screw_hole = 5", 'fixing.screw_hole: screw_hole does not go with kind = "buttons"',
     "leave it out"),
    ("slot_room = 1", 'fixing.slot_room: slot_room does not go with kind = "buttons"',
     "leave it out"),
    ('kind = "screws", button_width = 5', 'fixing.button_width: button_width does not go with',
     "leave it out"),
    ('kind = "screws", timber = "oak"', "fixing.timber: timber does not go with", "leave it out"),
    ('kind = "screws", screw_from_face = 0', "fixing.screw_from_face: this length must be",
     CURE_OF_ZERO),
    ('kind = "screws", screw_hole = 13', "fixing: a screw's counterbore is smaller than its hole",
     "than the head"),
    ('kind = "screws", screw_head = 28', "fixing: a screw's counterbore comes out of the side",
     "smaller screw"),
    ("button_tongue = 20", "fixing: a button's tongue is no thinner than its block", "half"),
    ("button_length = 13", "fixing: a button's tongue takes its whole length", "longer"),
    ("button_tongue_length = 28, button_length = 80", "fixing: a button's mortise goes through",
     "thicker rail"),
    ("button_block = 88", "fixing: a button's mortise is lower than the front rail", "thinner"),
    ("apart = 20", "fixing: the front rail would have 44 fixings", "at most 40"),
    ("apart = 30", "fixing: there is no room on the front rail for a button", "fewer or smaller"),
    ("aprt = 30", "fixing.aprt: unknown key 'aprt'", "did you mean 'apart'"),
]
ROWS = [
    ("", "row 1.lines: lines is missing", "lines = [3]"),
    ("lines = []", "row 1.lines: this list is empty", "e.g."),
    ("lines = [70, 70]", "row 1.lines: a row is given twice", "give each row once"),
    ("lines = [0]", "row 1.lines 1: this length must be", CURE_OF_ZERO),
    ("lines = 70", "row 1.lines: ", "put it in brackets"),
    ('lines = [70], holes = "pegs"', "row 1.holes: 'pegs' can't be chosen", "dogs, holdfasts"),
    ('lines = [70], shape = "oval"', "row 1.shape: 'oval' can't be chosen", "round, square"),
    ("lines = [70], front = 20", 'row 1.front: front does not go with shape = "round"',
     "leave it out"),
    ("lines = [70], strip = 20", 'row 1.strip: strip does not go with shape = "round"',
     "leave it out"),
    ('lines = [70], lean = "3 deg"', 'row 1.lean: lean does not go with shape = "round"',
     "leave it out"),
    ('shape = "square", front = 30, strip = 60, lines = [70]',
     'row 1.lines: lines does not go with shape = "square"', "leave it out"),
    ('shape = "square", front = 30, strip = 60, off_glue = 7',
     'row 1.off_glue: off_glue does not go with shape = "square"', "leave it out"),
    ('shape = "square", strip = 60', "row 1.front: front is missing", "closes the holes"),
    ('shape = "square", front = 30', "row 1.strip: strip is missing", "holes are cut in"),
    ('shape = "square", holes = "holdfasts", front = 30, strip = 60',
     "row 1.shape: holdfast holes are round", "leave shape out"),
    ('shape = "square", front = 30, strip = 60, lean = "x"',
     "row 1.lean: 'x' can't be read as a slope", "write it like"),
    ("lines = [70], size = 0", "row 1.size: this length must be", CURE_OF_ZERO),
    ("lines = [70], step = 0.1", "row 1.step: the grid is finer than anyone can bore", "coarser"),
    ("lines = [70], pitch = 0", "row 1.pitch: this length must be", CURE_OF_ZERO),
    ("lines = [70], end = -1", "row 1.end: -1 is below zero", "without the minus sign"),
    ("lines = [70], clear = -1", "row 1.clear: -1 is below zero", "without the minus sign"),
    ("lines = [70], off_glue = -1", "row 1.off_glue: -1 is below zero", "without the minus sign"),
    ("lines = [70], keepout = []", "row 1.keepout: unknown key", "did you mean 'keep_out'"),
    ("lines = [70], keep_out = [{ from = 3, to = 5 }]", "keep_out 1.name: name is missing",
     "say what it is"),
    ('lines = [70], keep_out = [{ name = "bolt", to = 5 }]',
     "keep_out 1 (bolt).from: from is missing", "from the vise's end"),
    ('lines = [70], keep_out = [{ name = "bolt", from = 5 }]',
     "keep_out 1 (bolt).to: to is missing", "from the vise's end"),
    ('lines = [70], keep_out = [{ name = "bolt", from = 5, to = 5 }]',
     "keep_out 1 (bolt).to: it ends before it begins", "as from"),
]


def held_to_its_line(keys: str, what: str, cure: str, line: int = LINE) -> None:
    told = refused(HEAD + FRAME + TOP + keys + "\n")
    assert told.startswith(f"top.toml, line {line}, top 1")
    assert what in told
    assert cure in told


@pytest.mark.parametrize(("keys", "what", "cure"), WRONG)
def test_a_wrong_value_of_a_top(keys: str, what: str, cure: str) -> None:
    # what is missing, or to be found nowhere, is told of where the top begins
    table = ("is missing" in what and "vise" not in what) or keys.startswith('on = "shed"')
    held_to_its_line(keys, what, cure, LINE - 2 if table else LINE + keys.count("\n"))


@pytest.mark.parametrize(("keys", "what", "cure"), STRIPS)
def test_a_wrong_value_of_strips(keys: str, what: str, cure: str) -> None:
    rough = keys.replace("ROUGH", "stock_thickness = 50, stock_width = 120")
    held_to_its_line(f"strips = {{ {rough} }}", what, cure)


@pytest.mark.parametrize(("keys", "what", "cure"), CAPS)
def test_a_wrong_value_of_end_caps(keys: str, what: str, cure: str) -> None:
    held_to_its_line(f"end_caps = {{ {keys} }}", what, cure)


@pytest.mark.parametrize(("keys", "what", "cure"), FIXING)
def test_a_wrong_value_of_a_fixing(keys: str, what: str, cure: str) -> None:
    held_to_its_line(f"fixing = {{ {keys} }}", what, cure)


@pytest.mark.parametrize(("keys", "what", "cure"), ROWS)
def test_a_wrong_value_of_a_row(keys: str, what: str, cure: str) -> None:
    held_to_its_line(f"vise = {{ opening = 180 }}\nrow = [{{ {keys} }}]", what, cure, LINE + 1)


def test_dog_holes_without_a_vise() -> None:
    what, cure = "dog holes must be spaced for a vise, and there is none", "make them holdfast"
    held_to_its_line("row = [{ lines = [70] }]", f"row 1: {what}", cure)
    held_to_its_line('row = [{ holes = "dogs", lines = [70] }]', f"row 1.holes: {what}", cure)
    assert row('holes = "holdfasts", lines = [70]', "").dogs.vise is None


def test_too_many_rows_and_too_many_things_to_miss() -> None:
    rows = ", ".join(f'{{ holes = "holdfasts", lines = [{30 + 40 * n}] }}' for n in range(13))
    held_to_its_line(f"row = [{rows}]", "row 13: 13 rows of holes", "at most 12")
    zones = ", ".join(f'{{ name = "bolt", from = {n}, to = {n + 1} }}' for n in range(51))
    held_to_its_line(f'row = [{{ holes = "holdfasts", lines = [70], keep_out = [{zones}] }}]',
                     "row 1.keep_out: 51 things to miss", "at most 50")


def test_thickness_must_be_there() -> None:
    told = refused(HEAD + FRAME + "[[top]]\n")
    assert told.startswith(f"top.toml, line {LINE - 2}, top 1.thickness: thickness is missing")


@pytest.mark.parametrize(
    ("load", "what"), [('"heavy"', "'heavy' is no figure"), ("9", "heavier than iron"),
                       ("-1", "is no figure"), ('"1/2"', "is no figure")],
)
def test_a_wrong_drawer_load(load: str, what: str) -> None:
    told = refused(HEAD + f"drawer_load = {load}\n" + FRAME + TOP)
    assert told.startswith("top.toml, line 4, drawer_load: ")
    assert what in told


@pytest.mark.parametrize("timber", ['timber = "stone"\n', 'timber = "pear root"\n'])
@pytest.mark.parametrize("held", ["fixing = {}", "end_caps = {}"])
def test_what_moves_must_be_known(timber: str, held: str) -> None:
    told = refused(HEAD + FRAME + TOP + timber + held + "\n")
    assert told.startswith(f"top.toml, line {LINE - 2}, top 1")
    assert timber.split('"')[1] in told
    # where nothing depends on it, it may be anything
    assert work_out(read(HEAD + FRAME + TOP + timber)).tops[0].top.year is None


def test_a_top_of_which_no_timber_is_said() -> None:
    bare = HEAD.replace('timber = "white oak"\n', "")
    told = refused(bare + FRAME + TOP + "fixing = {}\n")
    assert told.startswith(f"top.toml, line {LINE - 3}, top 1")
    assert "the top's timber is not named" in told
    assert 'timber = "white oak"' in told


# -- schema and reader


@pytest.mark.parametrize(
    "text",
    [
        EVERY_TOP.replace('thickness = "2 1/2"\n', "", 1),
        EVERY_TOP.replace('sawn = "rift"', 'sawn = "curly"'),
        EVERY_TOP.replace('end = "right"', 'end = "back"'),
        EVERY_TOP.replace("opening = 8, ", ""),
        EVERY_TOP.replace("dogs_below = 5", "dogs_above = 5"),
        EVERY_TOP.replace('lay = "on edge"', 'lay = "edge"'),
        EVERY_TOP.replace("stock_width = 8\n", ""),
        EVERY_TOP.replace('stock_thickness = "2 1/4"\n', ""),
        EVERY_TOP.replace('heart = "up"', 'heart = "down"'),
        EVERY_TOP.replace("glue_spread = 180", "glue_spread = 0"),
        EVERY_TOP.replace("glue_spread = 180", "glue_spread = 2001"),
        EVERY_TOP.replace("pegs = 5", "pegs = 1"),
        EVERY_TOP.replace("pegs = 5", "pegs = 16"),
        EVERY_TOP.replace('kind = "screws"', 'kind = "nails"'),
        EVERY_TOP.replace('held = "front"', 'held = "left"'),
        EVERY_TOP.replace('holes = "holdfasts"', 'holes = "pegs"'),
        EVERY_TOP.replace('shape = "square"', 'shape = "oval"'),
        EVERY_TOP.replace('lines = [12, "18 1/2"]', "lines = []"),
        EVERY_TOP.replace('lines = [12, "18 1/2"]', "lines = 12"),
        EVERY_TOP.replace('lean = "2 deg"', "lean = 2"),
        EVERY_TOP.replace('name = "bolt", ', ""),
        EVERY_TOP.replace("from = 20, ", ""),
        EVERY_TOP.replace(', to = "20 1/2"', ""),
        EVERY_TOP.replace("strips = false", "strips = true"),
        EVERY_TOP.replace("end_caps = false", "end_caps = true"),
        EVERY_TOP.replace("fixing = false", "fixing = true"),
        EVERY_TOP.replace('on = "case"', 'on = ""'),
        EVERY_TOP.replace("[[top]]", "[top]", 1).split("[top.strips]")[0],
    ],
)
def test_schema_and_reader_refuse_the_same(text: str) -> None:
    assert text != EVERY_TOP
    with pytest.raises(ValidationError):
        PIECE_FILES.validate(tomllib.loads(text, parse_float=float))
    with pytest.raises(ShoulderlineError):
        read(text)


def test_a_top_is_on_a_frame_or_a_piece_by_itself() -> None:
    alone = HEAD + "[[top]]\nlength = 900\nwidth = 400\nthickness = 20\n"
    for text in (HEAD + FRAME + TOP, alone):
        PIECE_FILES.validate(tomllib.loads(text, parse_float=float))
        assert read(text).tops


# -- whatever stands there

LENGTHS = st.sampled_from(["0", "1", "3", "7.5", "12", "20", "45", "90", "260", "700", "1500",
                           "20000", "-4", '"1/3 in"', '"x"'])
SOME = st.sampled_from(["7.5", "12", "20", "45", "90", "260", "700"])


def table_of(**keys: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """An inline table of some of these keys."""
    each = st.fixed_dictionaries({}, optional=keys)
    return each.map(lambda one: "{ " + ", ".join(f"{k} = {v}" for k, v in one.items()) + " }")


def words(*some: str) -> st.SearchStrategy[str]:
    return st.sampled_from([f'"{one}"' for one in some])


GLUED = st.builds(
    lambda rough, more: "{ " + rough + (", " + more[2:] if len(more) > 4 else " }"),
    st.sampled_from(["stock_thickness = 50, stock_width = 120",
                     "stock_thickness = 40, stock_width = 60"]),
    table_of(lay=words("flat", "on edge"), stock_length=SOME, planer=SOME, spare_length=LENGTHS,
             stagger=SOME, caul=LENGTHS, clamps_apart=SOME, heart=words("up", "alternate")),
)
CAPPED = table_of(width=SOME, tongue=LENGTHS, tongue_length=SOME, pegs=st.integers(1, 16).map(str),
                  peg=SOME, peg_in=SOME, slot_room=LENGTHS, room=LENGTHS)
HELD = st.one_of(
    table_of(kind=words("buttons"), held=words("front", "middle", "back"), apart=SOME,
             clear=LENGTHS, button_length=SOME, button_width=SOME, button_block=SOME,
             button_tongue=SOME, button_tongue_length=SOME, button_draw=LENGTHS,
             button_cover=LENGTHS, button_room=LENGTHS),
    table_of(held=words("front", "middle", "back"), apart=SOME, screw_hole=SOME, screw_head=SOME,
             screw_under=SOME, slot_room=LENGTHS, screw_from_face=SOME).map(
                 lambda one: one.replace("{ ", '{ kind = "screws", ', 1)),
)
BORED = st.one_of(
    table_of(pitch=SOME, size=SOME, first=SOME, end=LENGTHS, clear=LENGTHS, off_glue=LENGTHS,
             holes=words("dogs", "holdfasts")).map(
                 lambda one: one.replace("{ ", "{ lines = [45, 260], ", 1)),
    table_of(pitch=SOME, size=SOME, first=SOME, lean=words("3 deg", "1:20", "60 deg")).map(
        lambda one: one.replace("{ ", '{ shape = "square", front = 45, strip = 60, ', 1)),
)


@st.composite
def tops(draw: st.DrawFn) -> str:
    """A [[top]], likely or not."""
    keys = draw(st.fixed_dictionaries({}, optional={
        "overhang": LENGTHS, "overhang_left": LENGTHS, "overhang_front": LENGTHS,
        "dogs_below": LENGTHS, "sawn": words("flat", "quarter", "rift"),
        "strips": GLUED, "end_caps": CAPPED, "fixing": HELD,
        "vise": st.sampled_from(['{ opening = 180 }', '{ opening = 90, end = "right" }']),
        "row": st.lists(BORED, min_size=1, max_size=2).map(lambda rows: f"[{', '.join(rows)}]"),
    }))
    thick = draw(st.sampled_from(["20", "30", "45"]))
    alone = "length = 900\nwidth = 400\n" if draw(st.integers(0, 3)) == 0 else ""
    told = "".join(f"{key} = {value}\n" for key, value in keys.items())
    return f"[[top]]\nthickness = {thick}\n{alone}{told}"


# A top at its best, so that there is always one that is drawn.
GOOD = """overhang_left = 200
strips = { stock_thickness = 50, stock_width = 120, stock_length = 700, planer = 260 }
end_caps = { pegs = 5, peg_in = 30 }
fixing = { kind = "screws" }
vise = { opening = 180, end = "right" }
row = [{ lines = [150, 260], first = 260 }, { shape = "square", front = 60, strip = 60, \
lean = "3 deg", first = 260, clear = 2 }]
"""


def drawn_or_refused(text: str) -> bool:
    """True where it is drawn."""
    told = ""
    try:
        piece = work_out(read(HEAD + FRAME + text))
    except ShoulderlineError as error:
        told = str(error)
    if told:
        assert told.isprintable()
        assert told.startswith("top.toml, line ")
        return False
    for one in piece.sums:
        assert sum((t.sign * t.value for t in one.terms), F(0)) == one.total
    findings = check(piece)
    TOLD.validate(json.loads(json.dumps(numbers(piece, findings))))
    if not stopped(findings):
        assert wrong(piece) == []
    page = paper_named("A4")
    upright, lying = drawing_area(page, False), drawing_area(page, True)
    up = (upright.width, upright.height)
    pages = lay_out(
        [*top_sheets(piece, (lying.width, lying.height)), *fixings(piece), *dog_sheets(piece),
         *cut_list_sheets(piece, up), *sum_sheets(piece, up)], page, "top")
    assert pages
    return True


@settings(max_examples=25, deadline=None)
@given(tops())
def test_any_top_is_refused_in_one_line_or_its_sums_hold(text: str) -> None:
    drawn_or_refused(text)


def test_a_good_top_is_drawn() -> None:
    assert drawn_or_refused(TOP + GOOD)
