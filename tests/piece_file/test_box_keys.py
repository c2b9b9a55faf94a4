"""The keys of drawers and chests: what is read, what is usual, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.box_choices import ChestChoice, DrawerChoice
from layout.errors import BadPiece, ShoulderlineError
from layout.piece import Piece, PieceChoice, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml

INCH = Fraction(127, 5)
EVERY_BOX = (Path(__file__).parent / "every_box.toml").read_text(encoding="utf-8")

HEAD = """piece = "Box"
unit = "UNIT"
"""
SPACE = 'space = { width = "450 mm", height = "100 mm", depth = "400 mm" }\n'
OUTSIDE = 'length = "900 mm"\ndepth = "400 mm"\nheight = "300 mm"\nthickness = "20 mm"\n'
FRAME = """[frame]
length = 24
depth = 20
height = 30
[frame.leg]
width = 2
thickness = 2
[[frame.rail]]
name = "top rail"
sides = ["front"]
top = "flush"
width = "1 1/2"
thickness = 1
[[frame.rail]]
name = "low rail"
sides = ["front", "back"]
below_top = 6
width = "1 1/2"
thickness = 1
"""


def read(text: str) -> PieceChoice:
    return piece_from(parse_toml(text, "box.toml"))


def drawer(keys: str = "", unit: str = "in") -> DrawerChoice:
    """A drawer with these keys; the first of them stands on line 5."""
    (one,) = read(HEAD.replace("UNIT", unit) + "[[drawer]]\n" + SPACE + keys).drawers
    return one


def chest(keys: str = "", unit: str = "in") -> ChestChoice:
    """A chest with these keys; the first of them stands on line 8."""
    (one,) = read(HEAD.replace("UNIT", unit) + "[[chest]]\n" + OUTSIDE + keys).chests
    return one


def refused(text: str) -> str:
    """The one line that a piece is refused in, by the reader or when it is worked out."""
    with pytest.raises(ShoulderlineError) as caught:
        work_out(read(text))
    told = str(caught.value)
    assert told.isprintable()  # one line, nothing that a terminal would obey
    assert len(told) < 400
    return told


# -- what is usual


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_drawer_of_which_only_its_space_is_said(unit: str) -> None:
    """The numbers as README gives them; their sources stand in layout/defaults.toml."""
    usual = drawer("", unit)

    def size(inches: str, mm: str) -> Fraction:
        return Fraction(inches) * INCH if unit == "in" else Fraction(mm)

    assert (usual.name, usual.openings, usual.space) == ("drawer", (), (450, 100, 400))
    assert usual.front == size("3/4", "20")
    assert usual.sides == usual.back == size("1/2", "12")
    assert (usual.style, usual.set_in) == ("flush", 0)
    assert usual.lip == size("3/8", "10")
    assert usual.lip_thickness == size("1/4", "6")
    assert usual.room_wide == usual.room_high == size("1/16", "3/2")
    assert usual.room_behind == size("1/2", "12")
    assert (usual.length, usual.height) == (None, None)
    assert usual.drop == size("1/4", "6")
    assert usual.front_joint.lap == usual.front / 4
    assert usual.back_joint.lap is None
    assert usual.runs is None
    bottom = usual.bottom
    assert (bottom.kind, bottom.timber, bottom.run) == ("plywood", "plywood", "through")
    assert bottom.thickness == bottom.up == bottom.usual_deep == size("1/4", "6")
    assert (bottom.deep, bottom.tongue, bottom.slips, bottom.slots) == (None, None, None, None)
    assert bottom.room == size("1/16", "3/2")
    assert bottom.clear == size("1/32", "4/5")


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_tables_that_are_only_asked_for(unit: str) -> None:
    """Empty tables turn a thing on with what is usual for it."""
    found = drawer('runners = {}\nbottom = { kind = "solid", slips = {}, slots = {} }', unit)

    def size(inches: str, mm: str) -> Fraction:
        return Fraction(inches) * INCH if unit == "in" else Fraction(mm)

    assert found.runs == (size("3/2", "40"), None, False, None, None)
    assert found.bottom.slips == (size("3/8", "10"), size("3/16", "5"))
    slots = (None, size("3/16", "5"), size("1/8", "3"), size("12", "300"))
    assert found.bottom.slots == slots
    assert drawer('bottom = { kind = "solid" }', unit).bottom.slots == slots
    assert drawer('bottom = { kind = "solid", slots = false }', unit).bottom.slots is None
    assert drawer("bottom = { slots = false, slips = false }", unit).bottom.slots is None
    assert drawer("runners = false", unit).runs is None
    assert drawer("runners = { guides = false }", unit).runs == found.runs


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_chest_of_which_only_its_sizes_are_said(unit: str) -> None:
    usual = chest("", unit)

    def size(inches: str, mm: str) -> Fraction:
        return Fraction(inches) * INCH if unit == "in" else Fraction(mm)

    assert usual.name == "chest"
    assert (usual.length, usual.depth, usual.height) == (900, 400, 300)
    assert usual.front == usual.ends == 20
    assert usual.tails == "front and back"
    assert (usual.front_boards, usual.end_boards) == (1, 1)
    assert (usual.bottom, usual.lid, usual.joint.lap) == (None, None, None)
    grooved = chest('bottom = { kind = "groove", thickness = 10 }', unit).bottom
    assert grooved is not None
    assert (grooved.up, grooved.deep) == (size("1/2", "12"), size("1/4", "6"))
    assert (grooved.room, grooved.clear) == (size("1/16", "3/2"), size("1/32", "4/5"))
    assert (grooved.run, grooved.boards) == ("stopped", 1)
    planted = chest('bottom = { kind = "planted", thickness = 10 }', unit).bottom
    assert planted is not None
    assert planted.room == 0
    lid = chest("lid = { thickness = 20 }", unit).lid
    assert lid is not None
    assert (lid.kind, lid.front, lid.ends, lid.back, lid.boards) == ("flat", 0, 0, 0, 1)
    tongued = chest('lid = { kind = "rabbeted", thickness = 20 }', unit).lid
    assert tongued is not None
    assert (tongued.deep, tongued.room) == (size("1/4", "6"), size("1/16", "3/2"))


# -- what is said


def test_every_value_of_a_drawer_arrives() -> None:
    till, tray, lipped = read(EVERY_BOX).drawers
    assert till.name == "till"
    assert till.openings == ("front under top rail", "front under middle rail")
    assert till.space is None
    assert (till.front, till.sides, till.back) == (
        INCH * 13 / 16, INCH * 7 / 16, INCH * 3 / 8
    )
    assert (till.room_wide, till.room_high, till.room_behind) == (
        INCH / 8, INCH * 3 / 32, INCH * 3 / 4
    )
    assert (till.length, till.height, till.drop) == (16 * INCH, INCH * 33 / 8, INCH * 3 / 16)
    assert (till.timber, till.side_timber, till.bottom.timber) == ("cherry", "oak", "cedar")
    front, back = till.front_joint, till.back_joint
    assert (front.slope.run, back.slope.run) == (6, Fraction(24, 5))
    assert front.pin == back.pin == INCH * 3 / 16
    assert front.first == back.first == "pins"
    assert (front.tails, front.tail_width, front.lap) == (None, INCH, INCH * 7 / 32)
    assert (back.tails, back.lap, back.edges) == (3, None, "half tails")
    assert (front.graduated, back.graduated) == (Fraction(7, 8), 1)
    assert till.runs == (INCH * 7 / 4, INCH * 3 / 2, True, INCH * 3 / 4, INCH / 2)
    bottom = till.bottom
    assert (bottom.kind, bottom.thickness, bottom.up) == (
        "solid", INCH * 3 / 8, INCH * 5 / 16
    )
    assert (bottom.deep, bottom.tongue, bottom.groove) == (INCH * 3 / 16, INCH / 4, INCH / 4)
    assert (bottom.room, bottom.clear) == (INCH / 8, INCH / 16)
    assert bottom.slots == (3, INCH / 4, INCH * 3 / 16, 12 * INCH)
    assert tray.space == (20 * INCH, 5 * INCH, 15 * INCH)
    assert (tray.style, tray.set_in, tray.runs) == ("set in", INCH / 8, None)
    assert tray.front_joint.pins_at == (INCH * 5 / 4, INCH * 5 / 2, INCH * 15 / 4)
    assert (tray.back_joint.pins_at, tray.back_joint.tails) == ((), 2)
    assert tray.front_joint.half_pin == tray.back_joint.half_pin == INCH / 4
    assert (tray.bottom.run, tray.bottom.slips) == ("stopped", (INCH / 2, INCH / 4))
    assert (tray.bottom.timber, tray.timber, tray.side_timber) == ("plywood", "ash", "ash")
    assert (lipped.style, lipped.lip, lipped.lip_thickness) == (
        "lipped", INCH * 5 / 16, INCH * 3 / 16
    )
    assert lipped.space == (400, 100, 350)
    assert lipped.front_joint.lap == lipped.lip_thickness


def test_every_value_of_a_chest_arrives() -> None:
    box, plain = read(EVERY_BOX).chests
    assert (box.name, box.timber, box.tails) == ("box", "pine", "ends")
    assert (box.length, box.depth, box.height) == (30 * INCH, 16 * INCH, 12 * INCH)
    assert (box.front, box.ends) == (INCH * 3 / 4, INCH * 7 / 8)
    assert box.front_boards == 2
    assert box.end_boards == (5 * INCH, INCH * 9 / 2, INCH * 5 / 2)
    assert (box.joint.pin, box.joint.half_pin) == (INCH * 5 / 16, INCH * 3 / 8)
    assert (box.joint.tails, box.joint.lap) == (5, INCH / 8)
    assert box.joint.slope.degrees == 8
    assert box.bottom == (
        "groove", INCH / 2, INCH * 5 / 8, INCH * 3 / 8, INCH / 8, INCH / 16, "through", 3, "cedar"
    )
    assert box.lid == (
        "rabbeted", INCH * 7 / 8, INCH * 5 / 16, INCH / 8, INCH * 3 / 4, INCH / 2, INCH / 8, 2,
        "oak",
    )
    assert (plain.name, plain.timber) == ("chest", "ash")
    assert (plain.bottom, plain.lid) == (None, None)
    assert (plain.length, plain.front) == (600, 18)


@pytest.mark.parametrize(
    ("written", "found"),
    [
        ('"3/4"', (INCH * 3 / 4, Fraction(3, 4))), ("0.7", (INCH * 7 / 10, Fraction(7, 10))),
        ('"19 mm"', (Fraction(19), Fraction(19))), ('"¾ in"', (INCH * 3 / 4, INCH * 3 / 4)),
        ("1", (INCH, Fraction(1))), ('"2 cm"', (Fraction(20), Fraction(20))),
    ],
)  # fmt: skip
@pytest.mark.parametrize(
    "key",
    ["front", "sides", "back", "room_wide", "room_high", "room_behind", "length", "height", "drop"],
)
def test_sizes_of_a_drawer_in_both_units(
    key: str, written: str, found: tuple[Fraction, Fraction]
) -> None:
    assert getattr(drawer(f"{key} = {written}"), key) == found[0]
    assert getattr(drawer(f"{key} = {written}", "mm"), key) == found[1]


@pytest.mark.parametrize("key", ["room_wide", "room_high", "room_behind", "drop"])
def test_rooms_may_be_nothing(key: str) -> None:
    assert getattr(drawer(f"{key} = 0"), key) == 0


@pytest.mark.parametrize("kind", ["groove", "rabbet", "rabbeted", "planted"])
def test_every_kind_of_chest_bottom(kind: str) -> None:
    bottom = chest(f'bottom = {{ kind = "{kind}", thickness = "1/2" }}').bottom
    assert bottom is not None
    assert (bottom.kind, bottom.thickness) == (kind, INCH / 2)


@pytest.mark.parametrize(
    ("written", "found"),
    [
        ("3", 3), ('"3"', 3), ("12", 12), ('["150 mm", "150 mm"]', (150, 150)),
        ('["100 mm", 7, "22.2 mm"]', (100, 7 * INCH, Fraction(111, 5))),
    ],
)  # fmt: skip
def test_boards_as_a_number_or_as_widths(written: str, found: object) -> None:
    made = chest(
        f"front_boards = {written}\nend_boards = {written}\n"
        f'bottom = {{ kind = "planted", thickness = 1, boards = {written} }}\n'
        f"lid = {{ thickness = 1, boards = {written} }}"
    )
    assert made.bottom is not None
    assert made.lid is not None
    assert made.front_boards == made.end_boards == found
    assert made.bottom.boards == made.lid.boards == found


def test_timber_comes_down_from_what_stands_above() -> None:
    text = HEAD.replace("UNIT", "in") + 'timber = "ash"\n[[drawer]]\n' + SPACE
    (one,) = read(text).drawers
    assert (one.timber, one.side_timber, one.bottom.timber) == ("ash", "ash", "plywood")
    (one,) = read(text + 'timber = "cherry"\nbottom = { kind = "solid" }').drawers
    assert (one.timber, one.side_timber, one.bottom.timber) == ("cherry",) * 3
    (one,) = read(text + 'side_timber = "oak"\nbottom = { kind = "solid" }').drawers
    assert (one.timber, one.side_timber, one.bottom.timber) == ("ash", "oak", "oak")


def test_a_back_is_as_thick_as_the_sides() -> None:
    assert drawer('sides = "5/8"').back == INCH * 5 / 8


def test_a_lap_follows_the_front() -> None:
    assert drawer("front = 1").front_joint.lap == INCH / 4
    assert drawer("front_dovetails = { lap = false }").front_joint.lap is None
    assert drawer('style = "lipped"\nlip_thickness = "5/16"').front_joint.lap == INCH * 5 / 16
    own = drawer('style = "lipped"\nfront_dovetails = { lap = "3/8" }')
    assert own.front_joint.lap == INCH * 3 / 8
    assert drawer('back_dovetails = { lap = "1/8" }').back_joint.lap == INCH / 8


def test_one_of_frame_chest_and_drawer_is_enough() -> None:
    head = HEAD.replace("UNIT", "in")
    assert read(head + FRAME).frame is not None
    for boxes in ("[[drawer]]\n" + SPACE, "[[chest]]\n" + OUTSIDE):
        choice = read(head + boxes)
        assert choice.frame is None
        assert choice.milled.parts == ()
        assert len(work_out(choice).corners) == 4


# -- what is refused


@pytest.mark.parametrize(
    ("keys", "place", "words", "cure"),
    [
        # what it is fitted to
        (
            'openings = ["front under top rail"]', "line 4, drawer 1.space",
            "openings and a space are given", "keep one",
        ),
        # the style and what goes with it
        ('style = "inset"', "line 5, drawer 1.style", "can't be chosen", "flush, set in, lipped"),
        ("lip = 1", "line 5, drawer 1.lip", 'does not go with style = "flush"', '"lipped"'),
        ("lip_thickness = 1", "line 5, drawer 1.lip_thickness", '"flush"', '"lipped"'),
        ("set_in = 1", "line 5, drawer 1.set_in", '"flush"', 'write style = "set in"'),
        ('style = "lipped"\nset_in = 1', "line 6, drawer 1.set_in", '"lipped"', '"set in"'),
        ('style = "set in"\nlip = 1', "line 6, drawer 1.lip", '"set in"', '"lipped"'),
        ('style = "set in"', "line 3, drawer 1.set_in", "missing", "how far behind the rail"),
        ('style = "set in"\nset_in = 0', "line 6, drawer 1.set_in", "more than 0", ""),
        (
            'style = "lipped"\nlip_thickness = "3/4"', "line 6, drawer 1.lip_thickness",
            "no thinner than the front", "make it less",
        ),
        (
            'style = "lipped"\nfront = "1/4"', "line 3, drawer 1.lip_thickness",
            "no thinner than the front", "front thicker",
        ),
        # the bottom
        (
            "bottom = { slots = {} }", "line 5, drawer 1.bottom.slots", "plywood bottom needs no",
            'write kind = "solid"',
        ),
        ("bottom = { slots = true }", "line 5, drawer 1.bottom.slots", "a table", "slots = {}"),
        ("bottom = { slips = true }", "line 5, drawer 1.bottom.slips", "a table", "slips = {}"),
        (
            'bottom = { tongue = "1/4" }', "line 5, drawer 1.bottom.tongue",
            "no thinner than the bottom", "less than the thickness",
        ),
        (
            "bottom = { thickness = 1, tongue = 2 }", "line 5, drawer 1.bottom.tongue",
            "no thinner than the bottom", "leave it out",
        ),
        ("bottom = { tongue = 0 }", "line 5, drawer 1.bottom.tongue", "more than 0", ""),
        ("bottom = { up = 0 }", "line 5, drawer 1.bottom.up", "more than 0", ""),
        ("bottom = { deep = 0 }", "line 5, drawer 1.bottom.deep", "more than 0", ""),
        ("bottom = { room = -1 }", "line 5, drawer 1.bottom.room", "below zero", "minus"),
        ('bottom = { kind = "ply" }', "line 5, drawer 1.bottom.kind", "", "plywood, solid"),
        ('bottom = { run = "stop" }', "line 5, drawer 1.bottom.run", "", "'stopped'"),
        (
            'bottom = { kind = "solid", slots = { count = 0 } }',
            "line 5, drawer 1.bottom.slots.count", "not from 1 to 20", "from 1 to 20",
        ),
        ("bottom = false", "line 5, drawer 1.bottom", "a table is wanted", "[drawer.bottom]"),
        ("bottom = { depth = 1 }", "line 5, drawer 1.bottom.depth", "unknown key", "deep"),
        # what it runs on
        ("runners = true", "line 5, drawer 1.runners", "a table is wanted", "runners = {}"),
        ("runners = {}", "line 3, drawer 1", "thick", "runners.thickness"),
        ("runners = { kickers = 1 }", "line 5, drawer 1.runners.kickers", "true/false", "true or"),
        (
            "runners = { guides = {} }", "line 5, drawer 1.runners.guides.height", "missing",
            "how high",
        ),
        (
            "runners = { thickness = 1, guides = { height = 1 } }", "line 3, drawer 1",
            "no legs for guides", "leave the guides out",
        ),
        # sizes
        ("front = 0", "line 5, drawer 1.front", "more than 0", ""),
        ("sides = -1", "line 5, drawer 1.sides", "below zero", "minus"),
        ('sides = "1/2 lb"', "line 5, drawer 1.sides", "a unit of weight", "in, ft"),
        ('sides = "1/2 in 3 mm"', "line 5, drawer 1.sides", "", ""),
        ('sides = "1/2/3"', "line 5, drawer 1.sides", "one fraction bar", "2 3/8"),
        ('front = "90 m"', "line 3, drawer 1", "more than 2 m", "the file's unit"),
        ("room_wide = 99", "line 3, drawer 1", "more than 2 m", "the file's unit"),
        ("room_wide = 17", "line 3, drawer 1", "no width", "opening wider"),
        ("room_high = 4", "line 3, drawer 1", "no height", "opening higher"),
        ("room_behind = 16", "line 3, drawer 1", "no depth", "opening deeper"),
        ("drop = 4", "line 3, drawer 1", "for its back", "drop the back less"),
        (
            "front_dovetails = { lap = 1 }", "line 5, drawer 1.front_dovetails", "whole thickness",
            "make the lap less",
        ),
        # what is wrong with the tails is told where they are spoken of
        ("dovetails = { tails = 50 }", "line 5, drawer 1.dovetails", "don't fit", "at most"),
        (
            "dovetails = { pin = 1 }\nback_dovetails = { tails = 9 }",
            "line 6, drawer 1.back_dovetails", "don't fit", "at most",
        ),
        ("dovetails = { pin = 9 }", "line 5, drawer 1.dovetails", "no room for a tail", "slope"),
        # keys and kinds
        ("heigth = 3", "line 5, drawer 1.heigth", "unknown key", "did you mean 'height'"),
        ("width = 3", "line 5, drawer 1.width", "unknown key", "known keys here"),
        ('front = ["3/4"]', "line 5, drawer 1.front", "a length is wanted", "write a number"),
        ("timber = 3", "line 5, drawer 1.timber", "text is wanted", "in quotes"),
        ('timber = ""', "line 5, drawer 1.timber", "empty", "between the quotes"),
        ("name = 3", "line 5, drawer 1.name", "text is wanted", "in quotes"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_drawer_has_its_place_and_a_cure(
    keys: str, place: str, words: str, cure: str
) -> None:
    told = refused(HEAD.replace("UNIT", "in") + "[[drawer]]\n" + SPACE + keys)
    assert told.startswith(f"box.toml, {place}")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better
    assert better or "more than 0" in what


@pytest.mark.parametrize(
    ("keys", "place", "words", "cure"),
    [
        ('tails_on = "front"', "line 8, chest 1.tails_on", "", "front and back, ends"),
        ("end_thickness = 0", "line 8, chest 1.end_thickness", "more than 0", ""),
        ("end_thickness = 18", "line 3, chest 1", "leave nothing between them", "boards thinner"),
        ('name = ""', "line 8, chest 1.name", "empty", "between the quotes"),
        # boards
        ("front_boards = 0", "line 8, chest 1.front_boards", "not from 1 to 12", "from 1 to 12"),
        ("front_boards = 13", "line 8, chest 1.front_boards", "not from 1 to 12", "from 1 to 12"),
        ("front_boards = 1.5", "line 8, chest 1.front_boards", "whole number", "from 1 to 12"),
        ("front_boards = true", "line 8, chest 1.front_boards", "whole number", "from 1 to 12"),
        ('front_boards = "all"', "line 8, chest 1.front_boards", "whole number", "from 1 to 12"),
        ("front_boards = {}", "line 8, chest 1.front_boards", "whole number", "from 1 to 12"),
        ("front_boards = []", "line 8, chest 1.front_boards", "empty", "e.g."),
        ("front_boards = [6, 0]", "line 8, chest 1.front_boards 2", "more than 0", ""),
        ("front_boards = [6, {}]", "line 8, chest 1.front_boards 2", "a length is wanted", "write"),
        ("front_boards = [6, 6]", "line 3, chest 1", "boards of the front don't add up", "add up"),
        ("end_boards = [1]", "line 3, chest 1", "boards of the ends don't add up", "how many"),
        # the bottom
        ("bottom = true", "line 8, chest 1.bottom", "a table is wanted", "bottom = {}"),
        ("bottom = {}", "line 8, chest 1.bottom.kind", "missing", "groove, rabbet, rabbeted"),
        (
            'bottom = { kind = "groove" }', "line 8, chest 1.bottom.thickness", "missing",
            "bottom's thickness",
        ),
        ('bottom = { kind = "nailed" }', "line 8, chest 1.bottom.kind", "", "planted"),
        *(
            (
                f'bottom = {{ kind = "{kind}", thickness = 1, {key} }}',
                f"line 8, chest 1.bottom.{key.split(' ')[0]}", f'does not go with kind = "{kind}"',
                "leave it out",
            )
            for kind, keys in (
                ("rabbet", ("up = 1", 'run = "through"', "clear = 1")),
                ("rabbeted", ("up = 1", 'run = "through"', "clear = 1")),
                ("planted", ("up = 1", 'run = "through"', "clear = 1", "deep = 1", "room = 1")),
            )
            for key in keys
        ),
        (
            'bottom = { kind = "planted", thickness = 1, boards = [1] }', "line 3, chest 1",
            "boards of the bottom don't add up", "how many",
        ),
        # the lid
        ("lid = true", "line 8, chest 1.lid", "a table is wanted", "lid = {}"),
        ("lid = {}", "line 8, chest 1.lid.thickness", "missing", "lid's thickness"),
        ("lid = { thickness = 1, deep = 1 }", "line 8, chest 1.lid.deep", '"flat"', "leave it"),
        ("lid = { thickness = 1, room = 1 }", "line 8, chest 1.lid.room", '"flat"', "leave it"),
        (
            "lid = { thickness = 1, overhang = 1 }", "line 8, chest 1.lid.overhang",
            "unknown key", "overhang_",
        ),
        (
            "lid = { thickness = 1, boards = [1] }", "line 3, chest 1",
            "boards of the lid don't add up", "how many",
        ),
        # dovetails
        ("dovetails = { lap = 2 }", "line 8, chest 1.dovetails", "whole thickness", "lap less"),
        ("dovetails = { tails = 50 }", "line 8, chest 1.dovetails", "don't fit", "at most"),
        ("front_dovetails = {}", "line 8, chest 1.front_dovetails", "unknown key", "dovetails"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_chest_has_its_place_and_a_cure(
    keys: str, place: str, words: str, cure: str
) -> None:
    told = refused(HEAD.replace("UNIT", "in") + "[[chest]]\n" + OUTSIDE + keys)
    assert told.startswith(f"box.toml, {place}")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better
    assert better or "more than 0" in what


@pytest.mark.parametrize("key", ["length", "depth", "height", "thickness"])
def test_a_chest_s_sizes_must_be_there(key: str) -> None:
    rows = [row for row in OUTSIDE.split("\n") if not row.startswith(key)]
    told = refused(HEAD.replace("UNIT", "in") + "[[chest]]\n" + "\n".join(rows))
    assert told.startswith(f"box.toml, line 3, chest 1.{key}: {key} is missing; give the ")


def test_ends_of_another_thickness_are_not_taken_for_a_slip_of_the_pen() -> None:
    rows = OUTSIDE.replace("thickness", "end_thickness")
    told = refused(HEAD.replace("UNIT", "in") + "[[chest]]\n" + rows)
    assert told == (
        "box.toml, line 3, chest 1.thickness: thickness is missing; "
        "give the thickness of its boards"
    )


@pytest.mark.parametrize("key", ["width", "height", "depth"])
def test_a_space_s_sizes_must_be_there(key: str) -> None:
    space = SPACE.replace(f"{key} = ", "other = ")
    told = refused(HEAD.replace("UNIT", "in") + "[[drawer]]\n" + space)
    assert told.startswith(f"box.toml, line 4, drawer 1.space.{key}: {key} is missing; give ")


@pytest.mark.parametrize(
    ("text", "place", "words", "cure"),
    [
        ("", "frame", "nothing to make", "doors under [[door]] or a top under [[top]]"),
        ("drawer = []\n", "frame", "nothing to make", "a frame under [frame]"),
        ("[[drawer]]\n", "line 3, drawer 1.openings", "missing", "or give its own space = {"),
        (
            '[[drawer]]\nopenings = ["front under top rail"]\n', "line 3, drawer 1",
            "there is no opening 'front under top rail'", "none",
        ),
        ("[drawer]\n" + SPACE, "line 3, drawer", "a list of tables", "[[drawer]]"),
        ("[chest]\n" + OUTSIDE, "line 3, chest", "a list of tables", "[[chest]]"),
        ("drawer = 3\n", "line 3, drawer", "a list of tables", "[[drawer]]"),
        ("chest = [3]\n", "line 3, chest 1", "a table is wanted", "[[chest]]"),
        (
            "[[chest]]\n" + OUTSIDE + '[as_milled]\nheld = "overall"\n', "line 8, as_milled",
            "only the parts of a frame", "into the carcase, chest, drawer or door",
        ),
        (
            "[[drawer]]\n" + SPACE + '[[panel]]\nname = "p"\nopenings = ["front under top rail"]\n'
            'thickness = 1\nseat = "rabbet"\nlip = 1\n',
            "line 5, panel 1 (p)", "needs a frame", "add a [frame]",
        ),
        (
            "[[drawer]]\n" + SPACE + "[[drawer]]\n" + SPACE, "line 5, drawer 2",
            "both be called 'drawer front'", "a name of its own",
        ),
        (
            "[[chest]]\n" + OUTSIDE + '[[drawer]]\nname = "chest"\n' + SPACE,
            "line 8, drawer 1 (chest)", "both be called 'chest front'", "a name of its own",
        ),
    ],
)  # fmt: skip
def test_what_does_not_make_a_piece(text: str, place: str, words: str, cure: str) -> None:
    told = refused(HEAD.replace("UNIT", "in") + text)
    assert told.startswith(f"box.toml, {place}")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better


@pytest.mark.parametrize(
    ("openings", "words", "cure"),
    [
        ('["front under tip rail"]', "no opening 'front under tip rail'", "front under top rail"),
        ('["front under low rail"]', "no rail below it", "add a rail under"),
        ('["back under low rail"]', "no rail below it", "add a rail under"),
        ('["front under top rail", "front under top rail"]', "in the list twice", "keep one"),
        ("[]", "empty", "e.g."),
        ('"front under top rail"', "a list of texts", "in brackets"),
        ("[3]", "text is wanted", "in quotes"),
    ],
)
def test_openings_that_are_not_there(openings: str, words: str, cure: str) -> None:
    told = refused(
        HEAD.replace("UNIT", "in") + FRAME + f"[[drawer]]\nopenings = {openings}\n"
    )
    assert ", drawer 1" in told
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better


def test_an_opening_holds_one_drawer() -> None:
    one = '[[drawer]]\nname = "NAME"\nopenings = ["front under top rail"]\n'
    told = refused(
        HEAD.replace("UNIT", "in") + FRAME + one.replace("NAME", "a") + one.replace("NAME", "b")
    )
    assert "drawer 2 (b)" in told
    assert "is given two drawers; name each opening once" in told


# -- names


@pytest.mark.parametrize(
    "name",
    ["a\\nb", "\\u001b[31m", "\\u202e", "\\u0000", "\\u2028", "a\\tb", "\\ufeff", " ", "x" * 81],
)
@pytest.mark.parametrize("where", ["[[drawer]]\n" + SPACE, "[[chest]]\n" + OUTSIDE])
@pytest.mark.parametrize("key", ["name", "timber"])
def test_names_that_could_not_be_printed(where: str, name: str, key: str) -> None:
    told = refused(HEAD.replace("UNIT", "in") + where + f'{key} = "{name}"\n')
    assert f".{key}: " in told
    assert "; " in told


@pytest.mark.parametrize("name", ["../../up", "/up/x", "con", "..", "a\\\\b", "-rf", "é ½", "%s"])
def test_a_name_is_never_a_path(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Sheets are named after parts: whatever a drawer is called, they stay in their folder."""
    import sys

    from layout.cli.app import run
    from layout.cli.shop import VARIABLE

    inner = tmp_path / "in" / "ner"
    inner.mkdir(parents=True)
    (inner / "piece.toml").write_text(
        HEAD.replace("UNIT", "in") + "[[drawer]]\n" + SPACE + f'name = "{name}"\n', encoding="utf-8"
    )
    monkeypatch.setenv(VARIABLE, "")
    monkeypatch.chdir(inner)
    words = ["templates", "piece.toml", "--formats", "svg", "--out", "sheets"]
    monkeypatch.setattr(sys, "argv", ["shoulderline", *words])
    assert run() == 0, capsys.readouterr().err
    written = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert len(written) > 1
    assert {path.parent for path in written} == {inner, *(
        path.parent for path in written if (inner / "sheets") in path.parents
    )}
    for path in written:
        assert path.name.isascii()
        assert not set(path.name) & set("/\\%: ")


# -- whatever stands in a file

SIZES = st.sampled_from(
    ["0", "1", "-1", "0.25", '"1/4"', '"3/8"', '"7/8"', "2", "3.5", "12", "40", '"60mm"', '"1/0"',
     "nan", "inf", "1e400", '""', '"3 kg"', "true", "false", "[]", "{}", '"9999 ft"', "78",
     '"0.0001"', '"½"']
)  # fmt: skip
DRAWER_SIZES = (
    "front", "sides", "back", "room_wide", "room_high", "room_behind", "drop", "set_in", "lip",
    "lip_thickness", "bottom.thickness", "bottom.up", "bottom.deep", "bottom.tongue",
    "bottom.room", "bottom.clear", "bottom.slips.thickness", "bottom.slips.above",
    "bottom.slots.width", "bottom.slots.play", "runners.width", "runners.thickness",
    "dovetails.pin", "dovetails.half_pin", "front_dovetails.lap", "back_dovetails.tail_width",
)  # fmt: skip
CHEST_SIZES = (
    "length", "depth", "height", "thickness", "end_thickness", "bottom.thickness", "bottom.up",
    "bottom.deep", "bottom.room", "bottom.clear", "lid.thickness", "lid.deep", "lid.room",
    "lid.overhang_front", "lid.overhang_ends", "lid.overhang_back", "front_boards", "end_boards",
    "dovetails.pin", "dovetails.half_pin", "dovetails.lap", "dovetails.tails",
)  # fmt: skip


@st.composite
def boxes(draw: st.DrawFn) -> str:
    """A drawer or a chest with up to four sizes out of all reason."""
    drawn = draw(st.booleans())
    sizes = draw(
        st.dictionaries(
            st.sampled_from(DRAWER_SIZES if drawn else CHEST_SIZES), SIZES, min_size=1, max_size=4
        )
    )
    usual = {
        "space.width": "18", "space.height": "5", "space.depth": "16",
        "style": draw(st.sampled_from(['"flush"', '"set in"', '"lipped"'])),
        "bottom.kind": draw(st.sampled_from(['"plywood"', '"solid"'])),
    } if drawn else {
        "length": "30", "depth": "15", "height": "12", "thickness": '"3/4"',
        "bottom.kind": draw(st.sampled_from(['"groove"', '"rabbet"', '"rabbeted"', '"planted"'])),
        "bottom.thickness": '"1/2"',
        "lid.kind": draw(st.sampled_from(['"flat"', '"rabbeted"'])), "lid.thickness": '"7/8"',
    }  # fmt: skip
    rows = [f"{key} = {value}" for key, value in {**usual, **sizes}.items()]
    heading = "[[drawer]]" if drawn else "[[chest]]"
    return "\n".join(['piece = "Fuzz"', 'unit = "in"', heading, *rows])


@settings(max_examples=300, deadline=None)
@given(boxes())
def test_a_box_is_refused_in_one_line_or_its_sums_add_up(text: str) -> None:
    refused = ""
    try:
        made: Piece = work_out(read(text))
    except BadPiece as error:
        refused = str(error)
    if refused:
        assert "\n" not in refused
        assert refused.startswith("box.toml, line ")
        return
    for one in made.sums:
        assert sum((term.sign * term.value for term in one.terms), Fraction(0)) == one.total
