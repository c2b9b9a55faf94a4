"""The keys of dovetails: what is read, what is usual, whose word counts, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadPiece
from layout.joints.spacing import DovetailChoice, Wishes, space
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml

INCH = Fraction(127, 5)

CHEST = """piece = "Box"
unit = "UNIT"
[[chest]]
length = "600 mm"
depth = "300 mm"
height = "250 mm"
thickness = "18 mm"
[chest.dovetails]
"""

DRAWER = """piece = "Drawer"
unit = "in"
[[drawer]]
space = { width = 18, height = 5, depth = 16 }
[drawer.dovetails]
ALL
[drawer.front_dovetails]
FRONT
[drawer.back_dovetails]
BACK
"""


def chest(keys: str = "", unit: str = "in") -> DovetailChoice:
    """The dovetails of a chest with these keys; the first of them stands on line 9."""
    text = CHEST.replace("UNIT", unit) + keys
    (one,) = piece_from(parse_toml(text, "box.toml")).chests
    return one.joint


def drawer(both: str = "", front: str = "", back: str = "") -> tuple[DovetailChoice, ...]:
    """The dovetails at a drawer's front and back; their first keys stand on lines 6, 8 and 10."""
    text = DRAWER.replace("ALL", both).replace("FRONT", front).replace("BACK", back)
    (one,) = piece_from(parse_toml(text, "box.toml")).drawers
    return one.front_joint, one.back_joint


def refused(keys: str) -> str:
    """The one line that a chest with these dovetails is refused in."""
    with pytest.raises(BadPiece) as caught:
        chest(keys)
    told = str(caught.value)
    assert "\n" not in told
    assert told.isprintable()
    return told


@pytest.mark.parametrize(
    ("unit", "pin", "wide"),
    [("in", INCH / 4, INCH * 5 / 4), ("mm", Fraction(6), Fraction(32))],
)
def test_what_is_left_out_is_usual(unit: str, pin: Fraction, wide: Fraction) -> None:
    """Sources of 1:7, 1/4 in and 1 1/4 in: layout/defaults.toml."""
    usual = chest("", unit)
    assert (usual.slope.run, usual.slope.rounded) == (7, False)
    assert (usual.pin, usual.tail_width) == (pin, wide)
    assert (usual.tails, usual.pins_at, usual.half_pin) == (None, (), None)
    assert (usual.graduated, usual.edges, usual.first) == (1, "half pins", "tails")
    assert usual.lap is None


@pytest.mark.parametrize(
    ("written", "run"),
    [
        ("1:7", 7), ("1 in 8", 8), ("5/8 in 3", Fraction(24, 5)), ("1:4.8", Fraction(24, 5)),
        ("2 : 13", Fraction(13, 2)), ("½ in 3", 6), ("1 IN 6", 6), ("45 deg", 1),
    ],
)  # fmt: skip
def test_slopes(written: str, run: Fraction) -> None:
    assert chest(f"slope = '{written}'").slope.run == run


@pytest.mark.parametrize(
    ("written", "tangent"),
    # six places of a table of natural tangents, from memory
    [("8 deg", Fraction(140541, 10**6)), ("7.5 degrees", Fraction(131652, 10**6)),
     ("14°", Fraction(249328, 10**6))],
)  # fmt: skip
def test_a_cutter_s_angle(written: str, tangent: Fraction) -> None:
    slope = chest(f"slope = '{written}'").slope
    assert slope.rounded
    assert abs(1 / slope.run - tangent) <= Fraction(1, 2 * 10**6)


@pytest.mark.parametrize(
    ("written", "field", "inches", "metric"),
    [
        ('pin = "3/16"', "pin", INCH * 3 / 16, Fraction(3, 16)),
        ("pin = 0.5", "pin", INCH / 2, Fraction(1, 2)),
        ('pin = "7 mm"', "pin", Fraction(7), Fraction(7)),
        ('half_pin = "3/8 in"', "half_pin", INCH * 3 / 8, INCH * 3 / 8),
        ("half_pin = 1", "half_pin", INCH, Fraction(1)),
        ('tail_width = "1 1/2"', "tail_width", INCH * 3 / 2, Fraction(3, 2)),
        ("tails = 5", "tails", 5, 5),
        ('graduated = "7/8"', "graduated", Fraction(7, 8), Fraction(7, 8)),
        ('graduated = " 7 / 8 "', "graduated", Fraction(7, 8), Fraction(7, 8)),
        ('graduated = "0.9"', "graduated", Fraction(9, 10), Fraction(9, 10)),
        ('graduated = "1/2"', "graduated", Fraction(1, 2), Fraction(1, 2)),
        ('graduated = "1"', "graduated", 1, 1),
        ('edges = "half tails"', "edges", "half tails", "half tails"),
        ('first = "pins"', "first", "pins", "pins"),
        ('lap = "1/8"', "lap", INCH / 8, Fraction(1, 8)),
        ("lap = false", "lap", None, None),
    ],
)
def test_each_key_arrives(written: str, field: str, inches: object, metric: object) -> None:
    assert getattr(chest(written), field) == inches
    assert getattr(chest(written, "mm"), field) == metric


def test_pins_whose_middles_are_given() -> None:
    found = chest('pins_at = ["1 1/2", "70 mm", 5]')
    assert found.pins_at == (INCH * 3 / 2, 70, 5 * INCH)
    assert found.tails is None


def test_a_number_a_width_and_places_take_each_other_s_turn() -> None:
    """What the front says of how the tails lie takes back what all four corners say of it."""
    front, back = drawer("tails = 3", "tail_width = 2")
    assert (front.tails, front.tail_width, back.tails) == (None, 2 * INCH, 3)
    front, back = drawer("pins_at = [1, 2]", "tails = 4", "tail_width = 1")
    assert (front.tails, front.pins_at) == (4, ())
    assert (back.tails, back.pins_at, back.tail_width) == (None, (), INCH)
    front, back = drawer("tails = 4", "", "pins_at = [2]")
    assert (front.tails, back.tails, back.pins_at) == (4, None, (2 * INCH,))


def test_a_corner_s_word_counts_before_that_of_all_four() -> None:
    front, back = drawer(
        'slope = "1:8"\npin = "3/16"\nhalf_pin = "3/8"\nfirst = "pins"\ngraduated = "7/8"',
        'slope = "1:6"\nfirst = "tails"',
        'pin = "1/2"\nhalf_pin = "1/4"\ngraduated = "1"',
    )
    assert (front.slope.run, back.slope.run) == (6, 8)
    assert (front.first, back.first) == ("tails", "pins")
    assert (front.pin, back.pin) == (INCH * 3 / 16, INCH / 2)
    assert (front.half_pin, back.half_pin) == (INCH * 3 / 8, INCH / 4)
    assert (front.graduated, back.graduated) == (Fraction(7, 8), 1)


def test_places_are_those_of_the_table_that_speaks() -> None:
    front, back = drawer("tails = 3", "pin = 1")
    assert (front.where.line, front.where.key) == (7, "drawer 1.front_dovetails")
    assert (back.where.line, back.where.key) == (9, "drawer 1.back_dovetails")


def test_a_half_pin_left_open_is_as_wide_at_the_baseline_as_a_pin() -> None:
    """George A. Ross, Elementary Course in Woodwork, 1901, Exercise 7, Fig. 101: 3 1/2 in wide,
    1/2 in thick, 1:4; seven parts of 1/2 in at the baseline; at the end half pins of 3/8, tails
    of 3/4 and pins of 1/4. README tells the same sum.
    """
    choice = chest('slope = "1:4"\npin = "1/4"\ntails = 3')
    found = space(choice, INCH * 7 / 2, INCH / 2)
    assert [one.base for one in found.members] == [INCH / 2] * 7
    eighths = [one.end / INCH * 8 for one in found.members]
    assert eighths == [3, 6, 2, 6, 2, 6, 3]


@pytest.mark.parametrize(
    ("up", "half_pin"),
    [
        # pins of 1/4 in, tails of 1/2 in, 1:8, 1/32 in clear: a side leans 1/16 in
        ("1/2", "5/16"),  # the groove is in the bottom tail anyway: pin + lean
        ("1/4", "5/32"),  # it gives way: 1/4 - 1/32 - 1/16
        ("7/32", "1/8"),  # just half a pin left
        ("3/16", "5/16"),  # less would be left: it does not give way at all
    ],
)
def test_a_half_pin_left_open_gives_way_to_a_groove(up: str, half_pin: str) -> None:
    """Worked by hand from what README says of it."""
    choice = chest('slope = "1:8"\npin = "1/4"\ntails = 3')
    low = Fraction(up) * INCH
    wishes = Wishes(groove=(low, low + INCH / 4), clear=INCH / 32)
    found = space(choice, 5 * INCH, INCH / 2, wishes)
    assert found.members[0].end == Fraction(half_pin) * INCH
    assert found.members[-1].end == INCH * 5 / 16


PLACE = "box.toml, line 9, chest 1.dovetails"


@pytest.mark.parametrize(
    ("keys", "key", "words", "cure"),
    [
        # a slope
        ("slope = 7", "slope", "text is wanted here", 'slope = "1:7"'),
        ("slope = 0.14", "slope", "text is wanted here", "8 degrees"),
        ('slope = "7"', "slope", "may be a ratio or an angle", "1 in 7"),
        ('slope = "7:1"', "slope", "steeper than 1 in 1", "how far across comes first"),
        ('slope = "1:60"', "slope", "finer than 1 in 50", "1 in 1 to 1 in 50"),
        ('slope = "1:0"', "slope", "has a zero in it", "1 in 7"),
        ('slope = "-1:7"', "slope", "below zero", "minus"),
        ('slope = "82 deg"', "slope", "steeper than 45", "8 degrees"),
        ('slope = "1/4 in"', "slope", "can't be read as a slope", "1 in 7"),
        ('slope = "1 mm in 7 mm"', "slope", "unit in it", "leave it out"),
        ('slope = "14 %"', "slope", "per cent", "1 in 7"),
        ('slope = ""', "slope", "empty", "1:7"),
        ('slope = "steep"', "slope", "can't be read as a slope", "1 in 7"),
        ('slope = "1e9:1e9"', "slope", "can't be read as a slope", "1 in 7"),
        ("slope = []", "slope", "text is wanted here", "1:7"),
        ("slope = { run = 7 }", "slope", "text is wanted here", "1:7"),
        ('slope = "1:7\\u0007"', "slope", "can't be printed", "1:7"),
        # lengths
        ("pin = 0", "pin", "more than 0", ""),
        ("pin = -1", "pin", "below zero", "minus"),
        ('pin = "1/0"', "pin", "0 under its fraction bar", "3/8"),
        ('pin = "1//4"', "pin", "can't be read as a length", "2 3/8"),
        ('pin = "1/4 lb"', "pin", "a unit of weight", "in, ft"),
        ("pin = true", "pin", "a length is wanted", "write a number"),
        ('pin = "9999 ft"', "pin", "more than 100 m", "its unit"),
        ("pin = 1e400", "pin", "has an exponent", "write the number out"),
        ("pin = nan", "pin", "no number", "2 3/8"),
        ("half_pin = 0", "half_pin", "more than 0", ""),
        ("half_pin = false", "half_pin", "a length is wanted", "write a number"),
        ("tail_width = 0", "tail_width", "more than 0", ""),
        ("lap = 0", "lap", "more than 0", ""),
        ("lap = true", "lap", "a length is wanted", "write a number"),
        # how the tails lie
        ("tails = 0", "tails", "not from 1 to 100", "from 1 to 100"),
        ("tails = -3", "tails", "-3", "from 1 to 100"),
        ("tails = 101", "tails", "not from 1 to 100", "from 1 to 100"),
        ("tails = 2.5", "tails", "not a whole number", "whole number"),
        ("tails = 1e99", "tails", "not a whole number", "from 1 to 100"),
        ("tails = true", "tails", "a whole number is wanted", "from 1 to 100"),
        ("tails = [3]", "tails", "a whole number is wanted", "from 1 to 100"),
        ("tails = 3\ntail_width = 1", "tail_width", "said twice, by tails too", "keep one of"),
        ("pins_at = [1]\ntails = 3", "pins_at", "said twice, by tails too", "keep one of"),
        ("pins_at = [1]\ntail_width = 1", "pins_at", "by tail_width too", "keep one of"),
        ("pins_at = []", "pins_at", "empty", "e.g."),
        ("pins_at = 3", "pins_at", "a list of lengths is wanted", "in brackets"),
        ("pins_at = [1, 0]", "pins_at 2", "more than 0", ""),
        ('pins_at = [1, "2 kg"]', "pins_at 2", "a unit of weight", "in, ft"),
        # graduated
        ("graduated = 0.9", "graduated", "text is wanted", '"7/8"'),
        ('graduated = "9/8"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "1/3"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "0/8"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "7/0"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "0"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "-7/8"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "7_0/8_0"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "٧/٨"', "graduated", "no share", "from 1/2 to 1"),
        ('graduated = "7/8 in"', "graduated", "no share", "from 1/2 to 1"),
        ("pins_at = [1]\ngraduated = '7/8'", "graduated", "can't be graduated", "leave out"),
        # edges and the first board
        ('edges = "half tail"', "edges", "can't be chosen", "did you mean 'half tails'"),
        ('first = "tail"', "first", "can't be chosen", "did you mean 'tails'"),
        ("first = true", "first", "text is wanted", "tails, pins"),
        (
            "edges = 'half tails'\nhalf_pin = 1", "half_pin", "does not go with", "leave one",
        ),
        # what nobody asks for
        ("angle = 8", "angle", "unknown key 'angle'", "slope"),
        ("halfpin = 1", "halfpin", "unknown key", "did you mean 'half_pin'"),
    ],
)  # fmt: skip
def test_what_is_wrong_has_its_place_and_a_cure(
    keys: str, key: str, words: str, cure: str
) -> None:
    told = refused(keys)
    line = 9 + next(
        number for number, row in enumerate(keys.split("\n")) if row.startswith(key.split(" ")[0])
    )
    assert told.startswith(f"box.toml, line {line}, chest 1.dovetails.{key}: ")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better
    assert better or "more than 0" in what


@pytest.mark.parametrize("power", ["999999999", "-999999999", "99999999999999999999"])
def test_a_share_with_an_exponent_is_never_written_out(power: str) -> None:
    assert "no share" in refused(f'graduated = "1e{power}"')


@pytest.mark.parametrize(
    ("both", "front", "back", "place", "words"),
    [
        ('lap = "1/4"', "", "", "line 6, drawer 1.dovetails.lap", "write it under front_dovetails"),
        ("lap = false", "", "", "line 6, drawer 1.dovetails.lap", "back_dovetails"),
        (
            "half_pin = 1", 'edges = "half tails"', "", "line 8, drawer 1.front_dovetails.edges",
            "does not go with",
        ),
        (
            'edges = "half tails"', "", "half_pin = 1", "line 10, drawer 1.back_dovetails.half_pin",
            "does not go with",
        ),
        (
            'graduated = "7/8"', "pins_at = [1]", "", "line 8, drawer 1.front_dovetails.pins_at",
            "can't be graduated",
        ),
        ("", "", "lap = 0", "line 10, drawer 1.back_dovetails.lap", "more than 0"),
        ("", "width = 1", "", "line 8, drawer 1.front_dovetails.width", "unknown key"),
    ],
)
def test_what_contradicts_the_word_of_all_four_corners(
    both: str, front: str, back: str, place: str, words: str
) -> None:
    with pytest.raises(BadPiece) as caught:
        drawer(both, front, back)
    told = str(caught.value)
    assert told.startswith(f"box.toml, {place}: ")
    assert words in told


def test_a_front_may_take_back_the_half_tails_of_all_four() -> None:
    front, back = drawer('edges = "half tails"', "edges = 'half pins'\nhalf_pin = 1")
    assert (front.edges, front.half_pin) == ("half pins", INCH)
    assert (back.edges, back.half_pin) == ("half tails", None)


@pytest.mark.parametrize("table", ["dovetails = 3", "dovetails = false", "dovetails = [{}]"])
def test_dovetails_that_are_no_table(table: str) -> None:
    text = CHEST.replace("UNIT", "in").replace("[chest.dovetails]", table)
    with pytest.raises(BadPiece) as caught:
        piece_from(parse_toml(text, "box.toml"))
    assert str(caught.value).startswith("box.toml, line 8, chest 1.dovetails: ")
    assert "[chest.dovetails]" in str(caught.value)


VALUES = st.one_of(
    st.text(max_size=30).map(lambda text: f"'{text}'"),
    st.integers().map(str),
    st.floats().map(lambda number: repr(number).replace("e+", "e")),
    st.fractions().map(lambda share: f"'{share}'"),
    st.sampled_from(["true", "false", "[]", "{}", "[1, 2]", "'7/8'", "'1:7'", "'8 deg'", "3"]),
)
KEYS = st.sampled_from(
    ["slope", "pin", "half_pin", "tails", "tail_width", "pins_at", "graduated", "edges", "first",
     "lap"]
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(KEYS, VALUES, min_size=1, max_size=4))
def test_whatever_stands_there_is_read_or_refused_in_one_line(given_keys: dict[str, str]) -> None:
    refused = ""
    try:
        found = chest("\n".join(f"{key} = {value}" for key, value in given_keys.items()))
    except BadPiece as error:
        refused = str(error)
    if refused:
        assert "\n" not in refused
        assert refused.startswith("box.toml, line ")
        return
    assert 1 <= found.slope.run <= 50
    assert found.pin > 0
    assert Fraction(1, 2) <= found.graduated <= 1
