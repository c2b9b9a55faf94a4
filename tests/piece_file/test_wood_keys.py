"""[climate] and [[wood]] in a piece file: what they say, and every way they can be wrong."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.errors import BadPiece, Where
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.piece_file.wood_keys import read_timbers
from layout.wood.moisture import Moisture, in_air, usual_climate
from layout.wood.species import Figure, find
from layout.wood.timber import TimberChoice, Timbers

F = Fraction
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 10\n"
OAK = '[[wood]]\ntimber = "oak"\n'  # what follows stands in line 3
LIKE = 'write the meter\'s reading, like 8, or the air, like "68 F, 45 %" or "20 C, 45 %"'
NOW = 'say how moist the wood is today, e.g. now = 8, or the shop\'s air, now = "68 F, 45 %"'
DRY = 'say how dry the room gets, e.g. dry = "68 F, 25 %"'
WET = 'say how damp the room gets, e.g. wet = "75 F, 65 %"'
OWN = 'write a decimal, e.g. "0.25"'
GRAVITY = "write a decimal, e.g. 0.65"
STOOL = """\
piece = "Stool"
unit = "in"
[frame]
length = 18
depth = 14
height = 20
[frame.leg]
width = 2
thickness = 2
[[frame.rail]]
name = "rail"
sides = ["front"]
top = "flush"
width = 2
thickness = 1
"""


def read(text: str) -> Timbers:
    table = parse_toml(text, "p.toml")
    found = read_timbers(table)
    table.finish()
    return found


def refused(text: str) -> str:
    with pytest.raises(BadPiece) as caught:
        read(text)
    told = str(caught.value)
    assert "\n" not in told
    return told


def own(written: str, key: str = "radial") -> str:
    """A wood's own figures, one of them as given, in line 3."""
    other = "tangential" if key == "radial" else "radial"
    return f"{OAK}{key} = {written}\n{other} = 0.3\n"


# -- [climate]


def test_without_either_nothing_is_said() -> None:
    found = read("")
    assert found == Timbers(None, ())
    assert found.year == usual_climate()


def test_a_climate_by_the_meter() -> None:
    found = read('[climate]\nnow = 8.5\ndry = "6 %"\nwet = "12 percent"\n').climate
    assert (found.now, found.dry, found.wet) == (
        Moisture(F(17, 2)), Moisture(F(6)), Moisture(F(12))
    )
    assert found.stated


def test_a_climate_by_the_air() -> None:
    found = read('[climate]\nnow = 9\ndry = "68 F, 25 %"\nwet = "25 C, 65 %"\n').climate
    assert found.now == Moisture(F(9), "")
    assert found.dry == Moisture(in_air(F(20), F(25)), "68 F, 25 %")
    assert found.wet == Moisture(in_air(F(25), F(65)), "25 C, 65 %")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("climate = 3\n",
         "line 1, climate: a table is wanted here, not a number (3); write its keys under "
         "[climate]"),
        ("[[climate]]\nnow = 8\n",
         "line 1, climate: one table is wanted here, not a list; write [climate] once, with "
         "single brackets"),
        ("[climate]\n", f"line 1, climate.now: now is missing; {NOW}"),
        ("[climate]\ndry = 6\nwet = 10\n", f"line 1, climate.now: now is missing; {NOW}"),
        ("[climate]\nnow = 8\nwet = 10\n", f"line 1, climate.dry: dry is missing; {DRY}"),
        ("[climate]\nnow = 8\ndry = 6\n", f"line 1, climate.wet: wet is missing; {WET}"),
        ("[climate]\nnow = 8\ndry = 6\nwett = 10\n",
         "line 4, climate.wett: wet is missing, but there is 'wett'; did you mean 'wet'?"),
        (f"{CLIMATE}summer = 12\n",
         "line 5, climate.summer: unknown key 'summer'; known keys here: now, dry, wet"),
        ("[climate]\nnow = 8\ndry = 12\nwet = 10\n",
         "line 3, climate.dry: the dry season, 12.0 %, is wetter than the wet one, 10.0 %; "
         "exchange them"),
    ],
)
def test_what_is_wrong_with_a_climate(text: str, told: str) -> None:
    assert refused(text) == f"p.toml, {told}"


@pytest.mark.parametrize(("key", "line", "cure"), [("now", 2, NOW), ("dry", 3, DRY),
                                                   ("wet", 4, WET)])
@pytest.mark.parametrize(
    ("written", "what", "better"),
    [
        ("true", "a number or a text is wanted here, not true/false", None),
        ("[8]", "a number or a text is wanted here, not a list", None),
        ("2026-01-01", "a number or a text is wanted here, not a date", None),
        ("{}", "a number or a text is wanted here, not a table", None),
        ("-3", "'-3' is no moisture content", LIKE),
        ('"damp"', "'damp' is no moisture content", LIKE),
        ('""', "'' is no moisture content", LIKE),
        ("1e1", "'1E+1' is no moisture content", LIKE),
        ("nan", "'NaN' is no moisture content", LIKE),
        ("1000000000000", "'1000000000000' is no moisture content", LIKE),
        ("31",
         "at 31 % the wood is wetter than fibre saturation, 30 %, where it begins to shrink",
         "let it dry first; furniture is made between 6 and 14 %"),
        ('"68 F, 101 %"', "a humidity of 101 % can't be", "it lies between 0 and 100 %"),
        ('"20 F, 45 %"', "-6.7 C is outside the published table",
         "it goes from 30 to 130 F, -1.1 to 54.4 C"),
    ],
)
def test_what_is_wrong_with_a_moisture(
    key: str, line: int, cure: str, written: str, what: str, better: str | None
) -> None:
    lines = {"now": "8", "dry": "6", "wet": "10"} | {key: written}
    text = "[climate]\n" + "".join(f"{name} = {value}\n" for name, value in lines.items())
    told = refused(text)
    assert told == f"p.toml, line {line}, climate.{key}: {what}; {better or cure}"


# -- [[wood]]


def test_a_timber_of_the_tables_by_another_word() -> None:
    found = read(f'{OAK}like = "white oak"\n')
    assert found.climate is None
    assert found.choices == (
        TimberChoice("oak", find("White oak, commercial"), "flat", None, Where("p.toml", 1,
                                                                            "wood 1")),
    )


def test_how_it_is_sawn_and_how_moist_it_is() -> None:
    found = read(f'{OAK}sawn = "quarter"\nmoisture = "7.5 %"\n').choices[0]
    assert found.wood is None  # the word itself is looked up
    assert (found.sawn, found.moisture) == ("quarter", Moisture(F(15, 2)))
    air = read(f'{OAK}sawn = "rift"\nmoisture = "20 C, 45 %"\n').choices[0]
    assert (air.sawn, air.moisture) == ("rift", Moisture(in_air(F(20), F(45)), "20 C, 45 %"))
    assert read(f'{OAK}sawn = "flat"\n').choices[0].sawn == "flat"
    assert read(OAK).choices[0] == TimberChoice("oak", where=Where("p.toml", 1, "wood 1"))


def test_figures_of_its_own_are_in_percent() -> None:
    found = read('[[wood]]\ntimber = "bubinga"\nradial = "0.20"\ntangential = 0.315\n')
    wood = found.wood("bubinga")
    assert (wood.name, wood.source) == ("bubinga", "the maker's own figures")
    assert wood.radial == Figure(F(20, 10_000), 2, True)
    assert wood.tangential == Figure(F(315, 100_000), 3, True)
    assert wood.shrinks == (None, None)
    assert wood.gravity is None
    # 2 % wetter, 0.315 % of its width for each
    assert found.seasons("bubinga", "width").wet.share == F("0.0063")


def test_a_bare_number_and_a_text_are_one_figure() -> None:
    assert read(own("0.25")).choices == read(own('"0.25"')).choices


def test_a_gravity_of_its_own() -> None:
    # with a wood of the tables, by like or by its own word, and with figures of its own
    like = read(f'{OAK}like = "cherry"\ngravity = 0.62\n').choices[0].wood
    assert like == find("cherry")._replace(gravity=Figure(F(62, 100), 2, True))
    word = read('[[wood]]\ntimber = "cherry"\ngravity = "0.625"\n').choices[0].wood
    assert word == find("cherry")._replace(gravity=Figure(F(5, 8), 3, True))
    figures = read(f"{own('0.2')}gravity = 1.2\n").choices[0].wood
    assert figures.gravity == Figure(F(6, 5), 2, True)
    assert figures.radial.value == F(2, 1000)


def test_several_timbers_in_their_order() -> None:
    found = read('[[wood]]\ntimber = "b"\n[[wood]]\ntimber = "a"\nlike = "teak"\n')
    assert [one.timber for one in found.choices] == ["b", "a"]
    assert [one.where.line for one in found.choices] == [1, 3]
    assert found.wood("a") == find("teak")


def test_a_piece_has_them() -> None:
    piece = piece_from(parse_toml(f'{STOOL}{CLIMATE}{OAK}like = "cherry"\n', "p.toml"))
    assert piece.timbers.climate.wet == Moisture(F(10))
    assert piece.timbers.wood("oak") == find("cherry")
    plain = piece_from(parse_toml(STOOL, "p.toml"))
    assert plain.wood == Timbers()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[wood]\ntimber = "oak"\n',
         "line 1, wood: a list of tables is wanted here, not a single one; double the brackets: "
         "[[wood]]"),
        ("wood = 3\n",
         "line 1, wood: a list of tables is wanted here, not a number (3); write each under "
         "[[wood]]"),
        ("wood = [3]\n",
         "line 1, wood 1: a table is wanted here, not a number (3); write each under [[wood]]"),
        ('[[wood]]\nlike = "cherry"\n',
         'line 1, wood 1.timber: timber is missing; say which timber of the piece, e.g. timber = '
         '"oak"'),
        ('[[wood]]\ntimber = ""\n',
         "line 2, wood 1.timber: this text is empty; write something between the quotes"),
        ("[[wood]]\ntimber = 3\n",
         "line 2, wood 1.timber: text is wanted here, not a number (3); put text in quotes"),
        (f'{OAK}\n{OAK}like = "cherry"\n',
         "line 5, wood 2.timber: 'oak' is told twice; keep one of the two"),
        (f'{OAK}like = "cherri"\n',
         "line 3, wood 1.like: there is no wood 'cherri' in the tables; did you mean 'Cherry, "
         "black'? or give its figures under [[wood]]"),
        (f'{OAK}like = "walnut"\n',
         "line 3, wood 1.like: 'walnut' could be several woods; write one of 'Walnut, black', "
         "'European walnut (Nussbaum)'"),
        (f"{OAK}like = 3\n",
         "line 3, wood 1.like: text is wanted here, not a number (3); put text in quotes"),
        (f'{OAK}like = ""\n',
         "line 3, wood 1.like: this text is empty; write something between the quotes"),
        (f"{OAK}radial = 0.2\n",
         "line 3, wood 1.radial: radial is given without tangential; give both, in percent of the "
         "size for 1 % of moisture"),
        (f"{OAK}tangential = 0.2\n",
         "line 3, wood 1.tangential: tangential is given without radial; give both, in percent of "
         "the size for 1 % of moisture"),
        (f'{own("0.2")}like = "cherry"\n',
         "line 5, wood 1.like: its figures are given too; keep like, or the figures"),
        (f'{OAK}sawn = "riftt"\n',
         "line 3, wood 1.sawn: 'riftt' can't be chosen here; did you mean 'rift'? write one of: "
         "flat, quarter, rift"),
        (f"{OAK}sawn = 3\n",
         "line 3, wood 1.sawn: text is wanted here, not a number (3); write one of: flat, "
         "quarter, rift"),
        (f"{OAK}moisture = 40\n",
         "line 3, wood 1.moisture: at 40 % the wood is wetter than fibre saturation, 30 %, where "
         "it begins to shrink; let it dry first; furniture is made between 6 and 14 %"),
        (f'{OAK}moisture = "wet"\n',
         f"line 3, wood 1.moisture: 'wet' is no moisture content; {LIKE}"),
        (f"{OAK}moisture = true\n",
         "line 3, wood 1.moisture: a number or a text is wanted here, not true/false"),
        (f"{OAK}moistur = 3\n",
         "line 3, wood 1.moistur: unknown key 'moistur'; did you mean 'moisture'? known keys "
         "here: timber, like, radial, tangential, gravity, sawn, moisture"),
        ('[[wood]]\ntimber = "walnut"\ngravity = 0.6\n',
         "line 2, wood 1.timber: 'walnut' could be several woods; write one of 'Walnut, black', "
         "'European walnut (Nussbaum)'"),
        ('[[wood]]\ntimber = "zzz"\ngravity = 0.6\n',
         "line 2, wood 1.timber: there is no wood 'zzz' in the tables; see the tables; or give its "
         "figures under [[wood]]"),
    ],
)
def test_what_is_wrong_with_a_wood(text: str, told: str) -> None:
    assert refused(text) == f"p.toml, {told}"


NO_FIGURES = ("x", "", "-0.2", "0,2", "1/4", "0.2 %", ".", "0.2.5", "²")
NOT_A_WOOD_S = ("0", "0.0")


@pytest.mark.parametrize("key", ["radial", "tangential"])
@pytest.mark.parametrize("written", NO_FIGURES)
def test_a_figure_that_is_none(key: str, written: str) -> None:
    assert refused(own(f'"{written}"', key)) == (
        f"p.toml, line 3, wood 1.{key}: '{written}' is no figure; {OWN}"
    )


@pytest.mark.parametrize("key", ["radial", "tangential"])
@pytest.mark.parametrize("written", [*NOT_A_WOOD_S, "150", "149", "10"])
def test_a_figure_that_no_wood_has(key: str, written: str) -> None:
    # the wood that moves most in the tables, apitong, moves 0.527 % (Wood Handbook, FPL-GTR-190,
    # 2010, Table 13-5); the whole shrinkage of azobe, 11 %, is for thirty percent (Table 4-4)
    assert refused(own(written, key)) == (
        f"p.toml, line 3, wood 1.{key}: '{written}' can't be a wood's; {OWN}"
    )


@pytest.mark.parametrize("written", NO_FIGURES)
def test_a_gravity_that_is_none(written: str) -> None:
    assert refused(f'{OAK}like = "cherry"\ngravity = "{written}"\n') == (
        f"p.toml, line 4, wood 1.gravity: '{written}' is no figure; {GRAVITY}"
    )


@pytest.mark.parametrize("written", [*NOT_A_WOOD_S, "1.5", "150"])
def test_a_gravity_that_no_wood_has(written: str) -> None:
    # cell walls alone are about 1.5 (Wood Handbook, ch. 4, from memory)
    assert refused(f'{OAK}like = "cherry"\ngravity = {written}\n') == (
        f"p.toml, line 4, wood 1.gravity: '{written}' can't be a wood's; {GRAVITY}"
    )


@pytest.mark.parametrize("key", ["radial", "gravity"])
@pytest.mark.parametrize("written", ['"5."', '"٣"', '"0.1234567890123"', "0.1234567890123"])
def test_a_figure_that_looks_like_one_has_its_place_too(key: str, written: str) -> None:
    text = own(written) if key == "radial" else f'{OAK}gravity = {written}\nlike = "cherry"\n'
    assert refused(text).startswith(f"p.toml, line 3, wood 1.{key}: ")


@pytest.mark.parametrize("written", ["true", "[1]", "{}"])
@pytest.mark.parametrize("key", ["radial", "gravity"])
def test_a_figure_of_another_kind(key: str, written: str) -> None:
    text = own(written) if key == "radial" else f'{OAK}gravity = {written}\nlike = "cherry"\n'
    assert refused(text).startswith(
        f"p.toml, line 3, wood 1.{key}: a number or a text is wanted here, not "
    )
