"""The keys of carcases and dividers: what is read, what is usual, and what is refused."""

from __future__ import annotations

import json
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from layout.builds.box_choices import DividerChoice
from layout.builds.carcase import BackChoice, CarcaseChoice
from layout.checks import check, stopped
from layout.errors import BadPiece, ShoulderlineError
from layout.joints.slide import SlideChoice
from layout.joints.tongue import TongueChoice
from layout.numbers import numbers
from layout.piece import Piece, PieceChoice, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.contract import piece_judge

INCH = Fraction(127, 5)
EVERY_CASE = (Path(__file__).parent / "every_case.toml").read_text(encoding="utf-8")

HEAD = """piece = "Case"
unit = "UNIT"
"""
OUTSIDE = 'width = "600 mm"\nheight = "400 mm"\ndepth = "250 mm"\nthickness = "20 mm"\n'
CASE = "[[carcase]]\n" + OUTSIDE
SHELF = '[[divider]]\nname = "shelf"\nopening = "inside carcase"\nthickness = "16 mm"\n'
LEGS = """[frame]
length = 24
depth = 20
height = 30
[frame.leg]
width = 2
thickness = 2
[[frame.rail]]
name = "top rail"
sides = ["front", "back"]
top = "flush"
width = 2
thickness = 2
[[frame.rail]]
name = "low rail"
sides = ["front", "back"]
above_floor = 6
width = 2
thickness = 2
"""


def read(text: str) -> PieceChoice:
    return piece_from(parse_toml(text, "case.toml"))


def head(unit: str = "in") -> str:
    return HEAD.replace("UNIT", unit)


def carcase(keys: str = "", unit: str = "in") -> CarcaseChoice:
    """A carcase with these keys; the first of them stands on line 8."""
    (one,) = read(head(unit) + CASE + keys).carcases
    return one


def divider(keys: str = "", unit: str = "in") -> DividerChoice:
    """A divider of that carcase with these keys; the first of them stands on line 12."""
    (one,) = read(head(unit) + CASE + SHELF + keys).dividers
    return one


def slide(keys: str = "", unit: str = "in") -> SlideChoice:
    return divider(f'lies = "level"\nslide = {{ {keys} }}', unit).joint


def housing(keys: str = "", unit: str = "in") -> SlideChoice:
    return divider(f'lies = "level"\nhousing = {{ {keys} }}', unit).joint


def back(keys: str = "", unit: str = "in") -> BackChoice:
    rows = ", ".join(['thickness = "6 mm"', *([keys] if keys else [])])
    found = carcase(f"back = {{ {rows} }}", unit).back
    assert found is not None
    return found


def tongue(keys: str = "", unit: str = "in") -> TongueChoice:
    found = back(f"boards = 2, tongue = {{ {keys} }}", unit).tongue
    assert found is not None
    return found


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
def test_a_carcase_of_which_only_its_sizes_are_said(unit: str) -> None:
    usual = carcase("", unit)
    assert usual.name == "carcase"
    assert (usual.width, usual.height, usual.depth) == (600, 400, 250)
    assert usual.sides == usual.top == usual.bottom == 20
    assert (usual.tails, usual.slid, usual.back) == ("sides", None, None)
    assert (usual.top_in, usual.bottom_in, usual.timber) == (0, 0, "")
    assert (usual.joint.slope.run, usual.joint.lap) == (7, None)
    assert usual.joint.pin == (INCH / 4 if unit == "in" else 6)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_is_usual_in_a_back_and_its_tongues(unit: str) -> None:
    """The numbers as README gives them; their sources stand in layout/defaults.toml."""

    def size(inches: str, mm: str) -> Fraction:
        return Fraction(inches) * INCH if unit == "in" else Fraction(mm)

    assert back("", unit) == (6, size("3/8", "9"), size("1/16", "3/2"), 1, "", None)
    assert back("tongue = false", unit) == back("", unit)
    third = Fraction(1, 3)
    assert tongue("", unit) == (None, size("1/4", "6"), size("1/32", "1"), 0, third)
    assert carcase("back = false", unit).back is None


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_slide_and_a_housing_of_which_nothing_is_said(unit: str) -> None:
    room = INCH / 64 if unit == "in" else Fraction(1, 2)
    for made, run in ((slide("", unit), 7), (housing("", unit), None)):
        assert (made.depth, made.depth_share, made.room) == (None, Fraction(1, 3), room)
        assert (made.shoulders, made.slopes) == ((None, None), "both")
        assert (made.taper, made.taper_over, made.stop, made.enter) == (0, None, 0, "back")
        assert (made.slope.run if made.slope is not None else None) == run
    assert not slide("", unit).square
    assert housing("", unit).square


@pytest.mark.parametrize("lies", ["level", "upright"])
def test_a_divider_of_which_nothing_more_is_said(lies: str) -> None:
    usual = divider(f'lies = "{lies}"\nslide = {{}}')
    assert (usual.name, usual.opening, usual.lies) == ("shelf", "inside carcase", lies)
    assert (usual.thickness, usual.place, usual.set_back) == (16, None, 0)
    assert (usual.depth, usual.timber) == (None, "")


def test_what_is_usual_in_a_shelf_between_drawers() -> None:
    text = (
        head() + 'timber = "ash"\n' + CASE + '[[drawer]]\nopenings = ["inside carcase"]\n'
        'timber = "cherry"\ndivide = { into = 2, shelf = { thickness = "1/2", housing = {} } }\n'
    )
    (drawer,) = read(text).drawers
    assert drawer.divide is not None
    assert drawer.divide.rail is None
    shelf = drawer.divide.shelf
    assert shelf is not None
    assert (shelf.name, shelf.lies, shelf.thickness) == ("drawer shelf", "level", INCH / 2)
    assert (shelf.set_back, shelf.timber, shelf.joint.square) == (0, "cherry", True)


# -- what is said


def test_every_value_of_a_carcase_arrives() -> None:
    cabinet, case, plain = read(EVERY_CASE).carcases
    assert (cabinet.name, cabinet.timber, cabinet.tails) == ("cabinet", "walnut", "top and bottom")
    assert (cabinet.width, cabinet.height, cabinet.depth) == (30 * INCH, 20 * INCH, 10 * INCH)
    assert (cabinet.sides, cabinet.top, cabinet.bottom) == (
        INCH * 3 / 4, INCH * 7 / 8, INCH * 13 / 16
    )
    assert (cabinet.joint.slope.run, cabinet.joint.pin) == (8, INCH * 5 / 16)
    assert (cabinet.joint.tails, cabinet.joint.lap) == (4, INCH * 3 / 16)
    assert cabinet.slid is None
    assert cabinet.back == (
        INCH / 2, INCH * 5 / 16, INCH / 8, 5, "cedar",
        (INCH * 3 / 16, INCH * 5 / 16, INCH / 16, INCH / 32, Fraction(1, 3)),
    )
    assert (case.top_in, case.bottom_in) == (INCH * 3 / 4, INCH * 5 / 4)
    assert case.back == (INCH / 4, INCH * 3 / 8, INCH / 16, 1, "ash", None)
    assert case.timber == "ash"
    slid = case.slid
    assert slid is not None
    assert slid.slope is not None
    assert (slid.depth, slid.slope.run, slid.slopes) == (INCH * 3 / 8, 6, "face")
    assert slid.shoulders == (INCH / 8, INCH / 16)
    assert (slid.taper, slid.taper_over) == (INCH / 32, 4 * INCH)
    assert (slid.stop, slid.enter, slid.room) == (INCH / 2, "front", INCH / 32)
    assert (plain.name, plain.back, plain.width) == ("carcase", None, 600)
    assert plain.slid is not None
    assert plain.slid.square
    assert (plain.slid.depth, plain.slid.shoulders) == (6, (3, 2))
    assert (plain.slid.stop, plain.slid.enter, plain.slid.room) == (10, "back", 1)


def test_every_value_of_a_divider_arrives() -> None:
    shelf, partition, middle = read(EVERY_CASE).dividers
    assert (shelf.name, shelf.opening, shelf.lies) == ("shelf", "inside cabinet", "level")
    assert (shelf.place, shelf.thickness) == (INCH * 15 / 2, INCH * 5 / 8)
    assert (shelf.set_back, shelf.depth, shelf.timber) == (INCH / 8, 9 * INCH, "oak")
    assert shelf.joint.slope is not None
    assert (shelf.joint.slope.degrees, shelf.joint.slopes) == (8, "back")
    assert (shelf.joint.taper, shelf.joint.taper_over) == (INCH / 16, None)
    assert (partition.opening, partition.lies) == ("below shelf", "upright")
    assert (partition.place, partition.timber) == (INCH * 49 / 4, "ash")
    assert partition.joint.square
    assert (partition.joint.depth, partition.joint.stop) == (INCH * 3 / 16, INCH / 4)
    assert (middle.opening, middle.place) == ("inside case", None)
    trays, boxes = (drawer.divide for drawer in read(EVERY_CASE).drawers)
    assert trays is not None
    assert boxes is not None
    assert trays.shelf is not None
    assert boxes.shelf is not None
    assert (trays.shelf.name, trays.shelf.thickness) == ("tray shelf", INCH / 2)
    assert (trays.shelf.set_back, trays.shelf.timber) == (INCH / 16, "pine")
    assert trays.shelf.joint.depth == INCH * 3 / 16
    assert (boxes.shelf.name, boxes.shelf.joint.shoulders) == ("drawer shelf", (INCH / 16, None))
    assert (boxes.into, boxes.heights) == (2, (3 * INCH, None))


def test_the_piece_with_every_key_can_be_made() -> None:
    made = work_out(read(EVERY_CASE))
    assert not stopped(check(made))
    assert len(made.slides) == 4 + 4 + 2 * 5
    assert len([part for part in made.parts if part.name.startswith("cabinet back board ")]) == 5


WRITTEN = [
    ('"3/4"', (INCH * 3 / 4, Fraction(3, 4))), ("0.7", (INCH * 7 / 10, Fraction(7, 10))),
    ('"19 mm"', (Fraction(19), Fraction(19))), ('"¾ in"', (INCH * 3 / 4, INCH * 3 / 4)),
    ("1", (INCH, Fraction(1))), ('"2 cm"', (Fraction(20), Fraction(20))),
]  # fmt: skip


@pytest.mark.parametrize(("written", "found"), WRITTEN)
@pytest.mark.parametrize(
    ("key", "field"),
    [("top_thickness", "top"), ("bottom_thickness", "bottom"), ("width", "width"),
     ("height", "height"), ("depth", "depth"), ("thickness", "sides"), ("top_in", "top_in"),
     ("bottom_in", "bottom_in")],
)  # fmt: skip
def test_sizes_of_a_carcase_in_both_units(
    key: str, field: str, written: str, found: tuple[Fraction, Fraction]
) -> None:
    rows = [row for row in CASE.split("\n") if not row.startswith(key)]
    text = "\n".join([*rows, f"{key} = {written}", "slide = {}"])
    for unit, length in zip(("in", "mm"), found, strict=True):
        (one,) = read(head(unit) + text).carcases
        assert getattr(one, field) == length


@pytest.mark.parametrize(("written", "found"), WRITTEN)
@pytest.mark.parametrize("key", ["depth", "room", "stop", "taper", "taper_over"])
def test_sizes_of_a_slide_in_both_units(
    key: str, written: str, found: tuple[Fraction, Fraction]
) -> None:
    more = "taper = 1, " if key == "taper_over" else ""
    for unit, length in zip(("in", "mm"), found, strict=True):
        assert getattr(slide(f"{more}{key} = {written}", unit), key) == length
        if key in ("depth", "room", "stop"):
            assert getattr(housing(f"{key} = {written}", unit), key) == length


@pytest.mark.parametrize(("written", "found"), WRITTEN)
def test_other_sizes_in_both_units(written: str, found: tuple[Fraction, Fraction]) -> None:
    for unit, length in zip(("in", "mm"), found, strict=True):
        for make in (slide, housing):
            assert make(f"face_shoulder = {written}", unit).shoulders == (length, None)
            assert make(f"back_shoulder = {written}", unit).shoulders == (None, length)
        assert back(f"deep = {written}", unit).deep == length
        assert back(f"room = {written}", unit).room == length
        for key in ("thickness", "length", "room", "gap"):
            assert getattr(tongue(f"{key} = {written}", unit), key) == length
        level, upright = ('lies = "level"\nslide = {}\n', 'lies = "upright"\nslide = {}\n')
        assert divider(f"{level}above = {written}", unit).place == length
        assert divider(f"{upright}from_left = {written}", unit).place == length
        assert divider(f"{level}set_back = {written}", unit).set_back == length
        assert divider(f"{level}depth = {written}", unit).depth == length


def test_what_may_be_nothing() -> None:
    for key in ("room", "stop", "taper"):
        assert getattr(slide(f"{key} = 0"), key) == 0
    assert slide("face_shoulder = 0, back_shoulder = 0").shoulders == (0, 0)
    assert divider('lies = "level"\nabove = 0\nslide = {}').place == 0
    assert divider('lies = "level"\nset_back = 0\nslide = {}').set_back == 0
    slid = carcase("housing = {}\ntop_in = 0\nbottom_in = 0")
    assert (slid.top_in, slid.bottom_in) == (0, 0)
    assert back("room = 0").room == 0
    assert (tongue("room = 0, gap = 0").room, tongue("gap = 0").gap) == (0, 0)


@pytest.mark.parametrize(
    ("written", "run"),
    [("1:6", Fraction(6)), ("1 in 8", Fraction(8)), ("5/8 in 3", Fraction(24, 5))],
)
def test_a_slide_slopes_as_dovetails_do(written: str, run: Fraction) -> None:
    made = slide(f'slope = "{written}"')
    assert made.slope is not None
    assert made.slope.run == run
    assert made.slope == carcase(f'dovetails = {{ slope = "{written}" }}').joint.slope


def test_timber_comes_down_from_what_stands_above() -> None:
    text = head() + 'timber = "ash"\n' + CASE
    (one,) = read(text + "back = { thickness = 1 }").carcases
    assert one.back is not None
    assert (one.timber, one.back.timber) == ("ash", "ash")
    (one,) = read(text + 'timber = "walnut"\nback = { thickness = 1 }').carcases
    assert one.back is not None
    assert (one.timber, one.back.timber) == ("walnut", "walnut")
    (one,) = read(text + 'back = { thickness = 1, timber = "plywood" }').carcases
    assert one.back is not None
    assert (one.timber, one.back.timber) == ("ash", "plywood")
    (board,) = read(text + SHELF + 'lies = "level"\nslide = {}').dividers
    assert board.timber == "ash"


# -- how openings are named


def opened(text: str) -> list[str]:
    """The openings that are left, as a divider for one that is not there lists them."""
    told = refused(
        text + '\n[[divider]]\nname = "last"\nopening = "?"\nlies = "level"\nthickness = 1\n'
        "slide = {}\n"
    )
    return [name.strip("'") for name in told.split("there are: ")[1].split(", ")]


def test_openings_are_named_after_what_divides_them() -> None:
    text = head() + CASE
    assert opened(text) == ["inside carcase"]
    text += SHELF + 'lies = "level"\nhousing = {}\n'
    assert opened(text) == ["below shelf", "above shelf"]
    text += '[[divider]]\nname = "post"\nopening = "above shelf"\nlies = "upright"\nslide = {}\n'
    text += "thickness = 1\n"
    assert opened(text) == ["below shelf", "left of post", "right of post"]
    assert opened(text + '[[carcase]]\nname = "other"\n' + OUTSIDE)[-1] == "inside other"


def test_a_divider_stands_in_a_frame_too() -> None:
    text = head() + LEGS + SHELF.replace("inside carcase", "front under top rail")
    made = work_out(read(text + 'lies = "upright"\nslide = {}'))
    assert {slide.bearer.name for slide in made.slides} == {"front top rail", "front low rail"}
    made = work_out(read(text + 'lies = "level"\nhousing = {}'))
    assert {slide.bearer.name for slide in made.slides} == {"front left leg", "front right leg"}


def test_an_opening_that_is_divided_is_gone() -> None:
    twice = SHELF + 'lies = "level"\nslide = {}\n'
    told = refused(head() + CASE + twice + twice.replace('"shelf"', '"other"'))
    assert told == (
        "case.toml, line 14, divider 2 (other): there is no opening 'inside carcase'; "
        "there are: 'below shelf', 'above shelf'"
    )


def test_a_divider_alone_is_nothing_to_make() -> None:
    told = refused(head() + SHELF + 'lies = "level"\nslide = {}\n')
    assert told.startswith("case.toml, frame: there is nothing to make; ")
    assert "a carcase under [[carcase]]" in told


# -- what is refused


@pytest.mark.parametrize(
    ("keys", "place", "words", "cure"),
    [
        # how the corners are joined
        (
            "dovetails = {}\nslide = {}", "line 9, carcase 1.slide", "said by dovetails too",
            "keep one of dovetails, slide and housing",
        ),
        (
            "housing = {}\ndovetails = {}", "line 8, carcase 1.housing", "said by dovetails too",
            "keep one",
        ),
        ("slide = {}\nhousing = {}", "line 9, carcase 1.housing", "said by slide too", "keep one"),
        ("top_in = 1", "line 8, carcase 1.top_in", "slid into the sides", "write slide = {}"),
        ("bottom_in = 0", "line 8, carcase 1.bottom_in", "slid into the sides", "leave it out"),
        (
            "dovetails = {}\ntop_in = 1", "line 9, carcase 1.top_in", "slid into the sides",
            "housing = {}",
        ),
        (
            'slide = {}\ntails_on = "sides"', "line 9, carcase 1.tails_on",
            "goes with dovetailed corners", "leave it out",
        ),
        (
            'housing = {}\ntails_on = "top and bottom"', "line 9, carcase 1.tails_on",
            "goes with dovetailed corners", "leave it out",
        ),
        ('tails_on = "top"', "line 8, carcase 1.tails_on", "can't be", "sides, top and bottom"),
        ("slide = true", "line 8, carcase 1.slide", "a table is wanted", "[carcase.slide]"),
        ("housing = false", "line 8, carcase 1.housing", "a table is wanted", "[carcase.housing]"),
        ("dovetails = 3", "line 8, carcase 1.dovetails", "a table is wanted", "[carcase.dove"),
        ("dovetails = { tails = 50 }", "line 8, carcase 1.dovetails", "don't fit", "at most"),
        ("dovetails = { lap = 2 }", "line 8, carcase 1.dovetails", "whole thickness", "lap less"),
        ("front_dovetails = {}", "line 8, carcase 1.front_dovetails", "unknown key", "dovetails"),
        # sizes
        ("top_thickness = 0", "line 8, carcase 1.top_thickness", "more than 0", ""),
        ("bottom_thickness = -1", "line 8, carcase 1.bottom_thickness", "below zero", "minus"),
        ("slide = {}\ntop_in = -1", "line 9, carcase 1.top_in", "below zero", "minus"),
        ("top_thickness = 16", "line 3, carcase 1", "leave nothing between", "boards thinner"),
        ("slide = {}\ntop_in = 15", "line 3, carcase 1", "leave nothing between", "make it larger"),
        ('top_thickness = "90 m"', "line 3, carcase 1", "more than 2 m", "the file's unit"),
        ("end_thickness = 1", "line 8, carcase 1.end_thickness", "unknown key", "known keys here"),
        ("heigth = 3", "line 8, carcase 1.heigth", "unknown key", "did you mean 'height'"),
        # the back
        ("back = true", "line 8, carcase 1.back", "a table is wanted", "back = {}"),
        ("back = {}", "line 8, carcase 1.back.thickness", "missing", "back's thickness"),
        ("back = { thickness = 0 }", "line 8, carcase 1.back.thickness", "more than 0", ""),
        ("back = { thickness = 10 }", "line 3, carcase 1", "takes its whole depth", "thinner"),
        ("back = { thickness = 1, deep = 0 }", "line 8, carcase 1.back.deep", "more than 0", ""),
        ("back = { thickness = 1, up = 1 }", "line 8, carcase 1.back.up", "unknown key", "deep"),
        *(
            (
                f"back = {{ thickness = 1, boards = {many} }}", "line 8, carcase 1.back.boards", "",
                "from 1 to 30",
            )
            for many in ("0", "31", "1.5", "true", "[3, 3]")
        ),
        (
            "back = { thickness = 1, tongue = {} }", "line 8, carcase 1.back.tongue",
            "a back of one board has no tongue", "say how many",
        ),
        (
            "back = { thickness = 1, boards = 1, tongue = {} }", "line 8, carcase 1.back.tongue",
            "a back of one board has no tongue", "boards = 5",
        ),
        (
            "back = { thickness = 1, boards = 3, tongue = true }", "line 8, carcase 1.back.tongue",
            "a table is wanted", "tongue = {}",
        ),
        (
            "back = { thickness = 1, boards = 3, tongue = { length = 0 } }",
            "line 8, carcase 1.back.tongue.length", "more than 0", "",
        ),
        (
            "back = { thickness = 1, boards = 3, tongue = { wide = 1 } }",
            "line 8, carcase 1.back.tongue.wide", "unknown key", "known keys here",
        ),
        # names
        ('name = ""', "line 8, carcase 1.name", "empty", "between the quotes"),
        ("timber = 3", "line 8, carcase 1.timber", "text is wanted", "in quotes"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_carcase_has_its_place_and_a_cure(
    keys: str, place: str, words: str, cure: str
) -> None:
    told = refused(head() + CASE + keys)
    assert told.startswith(f"case.toml, {place}: ")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better
    assert better or "more than 0" in what


LEVEL, UPRIGHT = 'lies = "level"\n', 'lies = "upright"\n'


@pytest.mark.parametrize(
    ("keys", "place", "words", "cure"),
    [
        # how it lies and where
        ("slide = {}", "line 8, divider 1 (shelf).lies", "missing", 'lies = "level"'),
        ('lies = "flat"', "line 12, divider 1 (shelf).lies", "can't be chosen", "level, upright"),
        (
            UPRIGHT + "slide = {}\nabove = 3", "line 14, divider 1 (shelf).above",
            'above does not go with lies = "upright"', "write from_left instead",
        ),
        (
            LEVEL + "slide = {}\nfrom_left = 0", "line 14, divider 1 (shelf).from_left",
            'from_left does not go with lies = "level"', "write above instead",
        ),
        (LEVEL + "slide = {}\nabove = 14", "line 8, divider 1 (shelf)", "outside", "move it"),
        (UPRIGHT + "slide = {}\nfrom_left = 22", "line 8, divider 1 (shelf)", "outside", "move"),
        (LEVEL + "slide = {}\nabove = -1", "line 14, divider 1 (shelf).above", "below", "minus"),
        (LEVEL + 'slide = {}\nabove = "9 m"', "line 8, divider 1 (shelf)", "2 m", "file's unit"),
        # how it is joined
        (LEVEL, "line 8, divider 1 (shelf)", "how it is joined is missing", "or housing = {}"),
        (
            LEVEL + "housing = {}\nslide = {}", "line 13, divider 1 (shelf).housing",
            "said twice", "write slide = {}",
        ),
        (LEVEL + "slide = true", "line 13, divider 1 (shelf).slide", "a table is wanted", "[divid"),
        (LEVEL + "slide = false", "line 13, divider 1 (shelf).slide", "a table is wanted", "[div"),
        (LEVEL + "dovetails = {}\nslide = {}", "line 13, divider 1 (shelf).dovetails", "unknown",
         "known keys here"),
        # what goes with a slide only
        *(
            (
                LEVEL + f"housing = {{ {key} }}",
                f"line 13, divider 1 (shelf).housing.{key.split(' ')[0]}", "unknown key",
                "known keys here: ",
            )
            for key in ('slope = "1:7"', 'slopes = "both"', "taper = 1", "taper_over = 1")
        ),
        # the slide itself
        (
            LEVEL + "slide = { taper_over = 3 }", "line 13, divider 1 (shelf).slide.taper_over",
            "there is no taper", "give taper too",
        ),
        (
            LEVEL + "slide = { taper = 0, taper_over = 3 }",
            "line 13, divider 1 (shelf).slide.taper_over", "there is no taper", "leave it out",
        ),
        (
            LEVEL + 'slide = { taper = "1/16", taper_over = 0 }',
            "line 13, divider 1 (shelf).slide.taper_over", "more than 0", "",
        ),
        (
            LEVEL + 'slide = { taper = "1/16", taper_over = 10 }',
            "line 13, divider 1 (shelf).slide", "longer than the run", "less of the run",
        ),
        (LEVEL + "slide = { stop = 10 }", "line 13, divider 1 (shelf).slide", "no run", "stop les"),
        (LEVEL + "slide = { depth = 0 }", "line 13, divider 1 (shelf).slide.depth", "than 0", ""),
        (
            LEVEL + "slide = { depth = 1, room = 1 }", "line 13, divider 1 (shelf).slide",
            "no deeper than the room", "the room less",
        ),
        (LEVEL + "housing = { room = -1 }", "line 13, divider 1 (shelf).housing.room", "", "minus"),
        (LEVEL + "slide = { slope = 7 }", "line 13, divider 1 (shelf).slide.slope", "text", "1:7"),
        (
            LEVEL + 'slide = { slope = "7:1" }', "line 13, divider 1 (shelf).slide.slope",
            "steeper than 1 in 1", "1 in 7",
        ),
        (LEVEL + 'slide = { slopes = "neither" }', "line 13, divider 1 (shelf).slide.slopes", "",
         "both, face, back"),
        (LEVEL + 'slide = { enter = "left" }', "line 13, divider 1 (shelf).slide.enter", "",
         "back, front"),
        # its depth
        (LEVEL + "slide = {}\ndepth = 0", "line 14, divider 1 (shelf).depth", "more than 0", ""),
        (LEVEL + "slide = {}\ndepth = 10", "line 8, divider 1 (shelf)", "further back", "less"),
        (LEVEL + "slide = {}\nset_back = 10", "line 8, divider 1 (shelf)", "no depth left", "less"),
        # its name
        (LEVEL + "slide = {}\ntimber = 3", "line 14, divider 1 (shelf).timber", "text", "quotes"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_divider_has_its_place_and_a_cure(
    keys: str, place: str, words: str, cure: str
) -> None:
    told = refused(head() + CASE + SHELF + keys)
    assert told.startswith(f"case.toml, {place}: ")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better
    assert better or "more than 0" in what


@pytest.mark.parametrize("key", ["width", "height", "depth", "thickness"])
def test_a_carcase_s_sizes_must_be_there(key: str) -> None:
    rows = [row for row in OUTSIDE.split("\n") if not row.startswith(key)]
    told = refused(head() + "[[carcase]]\n" + "\n".join(rows))
    assert told.startswith(f"case.toml, line 3, carcase 1.{key}: {key} is missing; give the ")


@pytest.mark.parametrize("other", ["top_thickness", "bottom_thickness"])
def test_a_board_of_its_own_thickness_is_not_taken_for_a_slip_of_the_pen(other: str) -> None:
    told = refused(head() + CASE.replace("thickness", other))
    assert told == (
        "case.toml, line 3, carcase 1.thickness: thickness is missing; "
        "give the thickness of its boards"
    )


@pytest.mark.parametrize("key", ["name", "opening", "thickness"])
def test_what_a_divider_must_have(key: str) -> None:
    rows = [row for row in SHELF.split("\n") if not row.startswith(key)]
    told = refused(head() + CASE + "\n".join(rows) + LEVEL + "slide = {}")
    assert told.startswith("case.toml, line 8, divider 1")
    assert f".{key}: {key} is missing; " in told


@pytest.mark.parametrize(
    ("shelf", "place", "words", "cure"),
    [
        ("", ".divide", "missing", 'shelf = { thickness = "1/2", housing = {} }'),
        ("shelf = {}", ".divide.shelf.thickness", "missing", "the shelf's thickness"),
        ("shelf = { thickness = 1 }", ".divide.shelf", "how it is joined is missing", "slide = {}"),
        (
            "shelf = { thickness = 1, slide = {}, housing = {} }", ".divide.shelf.housing",
            "said twice", "slide = {}",
        ),
        (
            "shelf = { thickness = 1, slide = {} }, rail = { width = 1, thickness = 1 }",
            ".divide.shelf", "said twice", "in a carcase",
        ),
        (
            "rail = { width = 1, thickness = 1 }", ".divide.rail", "only a frame has rails",
            "write shelf",
        ),
        (
            "shelf = { thickness = 1, slide = {} }, back_rails = false", ".divide.back_rails",
            "no back rails", "leave it out",
        ),
        (
            "shelf = { thickness = 1, slide = {}, above = 3 }", ".divide.shelf.above",
            "unknown key", "known keys here",
        ),
    ],
)
def test_what_is_wrong_between_two_drawers(
    shelf: str, place: str, words: str, cure: str
) -> None:
    divide = ", ".join(["into = 2", *([shelf] if shelf else [])])
    told = refused(
        head() + CASE
        + f'[[drawer]]\nopenings = ["inside carcase"]\ndivide = {{ {divide} }}\n'
    )
    assert told.startswith(f"case.toml, line 10, drawer 1{place}: ")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better


@pytest.mark.parametrize(
    ("text", "place", "words", "cure"),
    [
        ("carcase = []\n", "frame", "nothing to make", "[[carcase]]"),
        ("[carcase]\n" + OUTSIDE, "line 3, carcase", "a list of tables", "[[carcase]]"),
        ("carcase = 3\n", "line 3, carcase", "a list of tables", "[[carcase]]"),
        ("carcase = [3]\n", "line 3, carcase 1", "a table is wanted", "[[carcase]]"),
        ("divider = 3\n" + CASE, "line 3, divider", "a list of tables", "[[divider]]"),
        ('[divider]\nname = "x"\n' + CASE, "line 3, divider", "a list of tables", "[[divider]]"),
        (
            CASE + '[[panel]]\nname = "p"\nopenings = ["inside carcase"]\nthickness = 1\n'
            'seat = "rabbet"\nlip = 1\n',
            "line 8, panel 1 (p)", "needs a frame", "add a [frame]",
        ),
        # names that clash
        (CASE + CASE, "line 8, carcase 2", "both be called 'carcase left side'", "of its own"),
        (
            CASE + SHELF.replace('"shelf"', '"carcase top"') + LEVEL + "slide = {}",
            "line 8, divider 1 (carcase top)", "both be called 'carcase top'", "of its own",
        ),
        (
            CASE + SHELF + LEVEL + "slide = {}\n"
            + SHELF.replace("inside carcase", "above shelf") + LEVEL + "slide = {}",
            "line 14, divider 2 (shelf)", "both be called 'shelf'", "of its own",
        ),
        (
            CASE + '[[chest]]\nname = "carcase"\nlength = 9\ndepth = 9\nheight = 9\nthickness = 1\n'
            'bottom = { kind = "planted", thickness = 1 }\n',
            "line 8, chest 1 (carcase)", "both be called 'carcase bottom'", "of its own",
        ),
        (
            CASE + '[[drawer]]\nname = "carcase"\nopenings = ["inside carcase"]\n',
            "line 8, drawer 1 (carcase)", "both be called 'carcase ", "of its own",
        ),
    ],
)  # fmt: skip
def test_what_does_not_make_a_piece(text: str, place: str, words: str, cure: str) -> None:
    told = refused(head() + text)
    assert told.startswith(f"case.toml, {place}: ")
    what, _, better = told.partition("; ")
    assert words in what
    assert cure in better


@pytest.mark.parametrize(
    "name",
    ["a\\nb", "\\u001b[31m", "\\u202e", "\\u0000", "\\u2028", "a\\tb", "\\ufeff", " ", "x" * 81],
)
@pytest.mark.parametrize(
    ("where", "key"),
    [("carcase", "name"), ("carcase", "timber"), ("divider", "name"), ("divider", "timber"),
     ("divider", "opening")],
)  # fmt: skip
def test_names_that_could_not_be_printed(where: str, key: str, name: str) -> None:
    text = head() + CASE
    if where == "divider":
        rows = [row for row in SHELF.split("\n") if not row.startswith(key)]
        text += "\n".join(rows) + LEVEL + "slide = {}\n"
    told = refused(text + f'{key} = "{name}"\n')
    assert f".{key}: " in told
    assert "; " in told


# -- reader and schema


def plain(text: str) -> object:
    """TOML as the schema's judge wants it: numbers as numbers."""
    return json.loads(json.dumps(tomllib.loads(text, parse_float=float)))


RUN = {
    "depth": ["1", '"1/4"', "[]"], "face_shoulder": ["0", '"1/8"'], "back_shoulder": ["0", "true"],
    "stop": ["0", '"1/2"'], "enter": ['"back"', '"front"', '"left"'], "room": ["0", "-1"],
}  # fmt: skip
SLIDE = RUN | {
    "slope": ['"1:7"', '"8 deg"', "7", '"7"'], "slopes": ['"both"', '"back"', '"none"'],
    "taper": ['"1/16"', "1"], "taper_over": ["1", '"3 mm"'],
}  # fmt: skip
TONGUE = {"thickness": ["1"], "length": ["1"], "room": ["0"], "gap": ["0", "1"], "wide": ["1"]}
BACK = {
    "thickness": ["1", '"1/4"'], "deep": ["1"], "room": ["0"], "timber": ['"oak"', '""'],
    "boards": ["2", "1", "30", "31", "0"], "tongue": TONGUE,
}  # fmt: skip


def inline(draw: st.DrawFn, keys: dict[str, object], must: tuple[str, ...] = ()) -> str:
    """A table with some of these keys; those that must be there are missing now and then."""
    rows = []
    for key, values in keys.items():
        if draw(st.integers(0, 19)) > (18 if key in must else 4):
            continue
        rows.append(f"{key} = {value_of(draw, values)}")
    return f"{{ {', '.join(rows)} }}"


def value_of(draw: st.DrawFn, values: object) -> str:
    """One of the values; of a table, such a table, or what may not stand in its place."""
    if isinstance(values, dict):
        odd = draw(st.integers(0, 29))
        if odd < 2:
            return ("false", "true")[odd]
        return inline(draw, values, ("thickness",))
    assert isinstance(values, list)
    right = values[0]  # the first one is; most are taken, so that few things are wrong at once
    return right if draw(st.integers(0, 5)) else draw(st.sampled_from(values))


@st.composite
def cases(draw: st.DrawFn) -> str:
    """A carcase and a divider whose tables and keys are there or not, right or wrong. No size is
    0 that must not be: lengths are the reader's own business.
    """

    def rows(keys: dict[str, object], must: tuple[str, ...], one_of: tuple[str, ...]) -> list[str]:
        found = []
        chosen = draw(st.sampled_from([*(one_of * 4), None, "all"]))
        for key, values in keys.items():
            if key in one_of:
                there = chosen in (key, "all")
            else:
                there = draw(st.integers(0, 39)) < (39 if key in must else 4)
            if there:
                found.append(f"{key} = {value_of(draw, values)}")
        return found

    case = rows(
        {"width": ["600"], "height": ["400"], "depth": ["250"], "thickness": ["20"],
         "top_thickness": ["18"], "bottom_thickness": ["18"], "name": ['"case"', '""'],
         "timber": ['"oak"', "3"], "tails_on": ['"sides"', '"top and bottom"', '"ends"'],
         "top_in": ["0", "10"], "bottom_in": ["0", "10"], "slide": SLIDE, "housing": RUN,
         "dovetails": {"tails": ["3", "0"], "pin": ["5"], "lap": ["false", "3", "true"]},
         "back": BACK},
        ("width", "height", "depth", "thickness"), ("slide", "housing", "dovetails"),
    )  # fmt: skip
    board = rows(
        {"name": ['"shelf"'], "opening": ['"inside carcase"', "3"],
         "lies": ['"level"', '"upright"', '"flat"'], "thickness": ["16"], "above": ["0", "100"],
         "from_left": ["0", "100"], "set_back": ["0", "5"], "depth": ["100"],
         "timber": ['"oak"'], "place": ["3"], "slide": SLIDE, "housing": RUN},
        ("name", "opening", "lies", "thickness"), ("slide", "housing"),
    )  # fmt: skip
    parts = ["[[carcase]]", *case] if draw(st.integers(0, 9)) else []
    if draw(st.booleans()):
        parts += ["[[divider]]", *board]
    return "\n".join(['piece = "Fuzz"', 'unit = "mm"', *parts])


@settings(max_examples=300, deadline=None)
@given(cases())
def test_schema_and_reader_agree_whatever_keys_there_are(text: str) -> None:
    fits = piece_judge().is_valid(plain(text))
    refused = ""
    try:
        read(text)
    except BadPiece as error:
        refused = str(error)
    assert fits == (not refused), refused


# -- whatever stands in a file

SIZES = st.sampled_from(
    ["0", "1", "-1", "0.25", '"1/4"', '"3/8"', '"7/8"', "2", "3.5", "9", "12", "40", '"60mm"',
     '"1/0"', "nan", "inf", "1e400", '""', '"3 kg"', "true", "false", "[]", "{}", '"9999 ft"',
     "78", '"0.0001"', '"½"']
)  # fmt: skip
RUN_SIZES = ("depth", "face_shoulder", "back_shoulder", "stop", "room")
CASE_SIZES = (
    "width", "height", "depth", "thickness", "top_thickness", "bottom_thickness", "top_in",
    "bottom_in", "back.thickness", "back.deep", "back.room", "back.boards",
    "back.tongue.thickness", "back.tongue.length", "back.tongue.room", "back.tongue.gap",
    "dovetails.pin", "dovetails.half_pin", "dovetails.lap", "dovetails.tails",
)  # fmt: skip
BOARD_SIZES = ("above", "from_left", "thickness", "set_back", "depth")


@st.composite
def hostile(draw: st.DrawFn) -> str:
    """A carcase with a divider, and up to three sizes out of all reason."""
    joined = draw(st.sampled_from(["slide", "housing"]))
    corners = draw(st.sampled_from(["dovetails", "slide", "housing"]))
    lies = draw(st.sampled_from(["level", "upright"]))
    case = {
        "width": "24", "height": "16", "depth": "9", "thickness": '"3/4"',
        "back.thickness": '"1/4"', "back.boards": draw(st.sampled_from(["2", "3"])),
        "back.tongue.length": '"1/4"',
    }  # fmt: skip
    board = {"name": '"shelf"', "opening": '"inside carcase"', "lies": f'"{lies}"',
             "thickness": '"5/8"', f"{joined}.enter": '"back"'}
    if corners != "dovetails":
        case |= {f"{corners}.enter": '"back"', "top_in": "1", "bottom_in": "1"}
    runs = [f"{joined}.{key}" for key in RUN_SIZES]
    if joined == "slide":
        runs += ["slide.taper", "slide.taper"]
    others = [one for one in CASE_SIZES if corners == "dovetails" or "dovetails." not in one]
    if corners == "dovetails":
        others = [one for one in others if one not in ("top_in", "bottom_in")]
    else:
        others += [f"{corners}.{key}" for key in RUN_SIZES]
    at = "from_left" if lies == "level" else "above"
    boards = [one for one in (*BOARD_SIZES, *runs) if one != at]
    for _ in range(draw(st.integers(1, 3))):
        if draw(st.booleans()):
            case[draw(st.sampled_from(others))] = draw(SIZES)
        else:
            board[draw(st.sampled_from(boards))] = draw(SIZES)
    return "\n".join(
        ['piece = "Fuzz"', 'unit = "in"',
         "[[carcase]]", *(f"{key} = {value}" for key, value in case.items()),
         "[[divider]]", *(f"{key} = {value}" for key, value in board.items())]
    )  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(hostile())
# a neck of nothing, and a stop that leaves no run: cuts without a volume
@example(head() + CASE + SHELF + 'lies = "level"\nhousing = { face_shoulder = "16 mm" }')
@example(head() + CASE + 'slide = { stop = "250 mm" }\ntop_in = 1\nbottom_in = 1')
def test_a_carcase_is_refused_in_one_line_or_its_sums_add_up(text: str) -> None:
    refused = ""
    try:
        made: Piece = work_out(read(text))
    except BadPiece as error:
        refused = str(error)
    if refused:
        assert "\n" not in refused
        assert refused.startswith("case.toml, line ")
        return
    for one in made.sums:
        assert sum((term.sign * term.value for term in one.terms), Fraction(0)) == one.total
    numbers(made, check(made))
