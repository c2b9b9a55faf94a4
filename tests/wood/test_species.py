"""Finding a wood by the words that a maker has for it, and telling sheets from wood."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadWood
from layout.wood.species import Wood, all_woods, find, is_sheet

F = Fraction
OWN = "give its figures under [[wood]]"


def refused(words: str) -> BadWood:
    with pytest.raises(BadWood) as caught:
        find(words)
    assert "\n" not in str(caught.value)
    assert repr(words)[1:-1] in caught.value.what
    return caught.value


# -- found


def test_every_wood_is_found_by_its_own_name_in_any_capitals() -> None:
    for wood in all_woods():
        for words in (wood.name, wood.name.upper(), wood.name.lower(), f"  {wood.name} "):
            assert find(words).name.lower() == wood.name.lower()
        assert find(wood.name) == wood


def test_no_two_woods_have_one_name() -> None:
    names = [wood.name for wood in all_woods()]
    assert len(set(names)) == len(names) == 172


@pytest.mark.parametrize("words", ["".join(part) for part in permutations(["cherry ", "black "])])
def test_the_order_of_words_does_not_matter(words: str) -> None:
    assert find(words).name == "Cherry, black"


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Walnut, black", "Walnut, black"),
        ("black walnut", "Walnut, black"),
        ("BLACK WALNUT", "Walnut, black"),
        ("walnut black", "Walnut, black"),
        ("black-walnut", "Walnut, black"),
        ("black   walnut", "Walnut, black"),
        ("eastern white pine", "Pine, eastern white"),
        ("white eastern pine", "Pine, eastern white"),
        ("Douglas fir, coast", "Douglas-fir, coast"),
        ("coast douglas fir", "Douglas-fir, coast"),
        ("yellow poplar", "Yellow-poplar"),
        ("sugar maple", "Maple, sugar"),
        # the only name that has the word
        ("cherry", "Cherry, black"),
        ("tanoak", "Tanoak"),
        ("water oak", "Red oak: water, laurel, willow"),
        ("live oak", "White oak, live"),
        ("sitka", "Spruce, Sitka"),
        # a name of the tables counts before a word of two others
        ("teak", "Teak"),
        ("iroko", "Iroko"),
        # the whole name counts before the only name that has the words
        ("elm (Ruester)", "elm (Ruester)"),
        ("Douglas-fir (Douglasie)", "Douglas-fir (Douglasie)"),
    ],
)
def test_a_wood_is_found(words: str, name: str) -> None:
    assert find(words).name == name


@pytest.mark.parametrize(
    ("words", "name"),
    [
        # what makers call woods: common practice, no source
        ("white oak", "White oak, commercial"),
        ("White Oak", "White oak, commercial"),
        ("oak, white", "White oak, commercial"),
        ("red oak", "Red oak, commercial"),
        ("oak, red", "Red oak, commercial"),
        ("hard maple", "Maple, sugar"),
        ("HARD  MAPLE", "Maple, sugar"),
        ("maple, hard", "Maple, sugar"),
        ("rock maple", "Maple, sugar"),
        ("american walnut", "Walnut, black"),
        ("american cherry", "Cherry, black"),
        ("tulip poplar", "Yellow-poplar"),
        ("tulipwood", "Yellow-poplar"),
        ("linden", "Basswood, American"),
        ("yellow pine", "Pine, longleaf"),
        ("pecan", "Hickory, pecan"),
        ("mahogany", "Mahogany (true)"),
        ("african mahogany", "Khaya (African mahogany)"),
    ],
)
def test_what_makers_call_it(words: str, name: str) -> None:
    assert find(words).name == name


@pytest.mark.parametrize(
    ("german", "name"),
    [
        ("Eiche", "European oak (Eiche)"),
        ("eiche", "European oak (Eiche)"),
        ("BUCHE", "European beech (Buche)"),
        ("Fichte", "Norway spruce (Fichte)"),
        ("Kiefer", "Scots pine (Kiefer)"),
        ("Esche", "European ash (Esche)"),
        ("Nussbaum", "European walnut (Nussbaum)"),
        ("Tanne", "silver fir (Tanne)"),
        ("Birke", "birch (Birke)"),
        ("Pappel", "poplar (Pappel)"),
        ("Laerche", "larch (Laerche)"),
        ("Ruester", "elm (Ruester)"),
        # as a German writes them
        ("Lärche", "larch (Laerche)"),
        ("Rüster", "elm (Ruester)"),
        ("Nußbaum", "European walnut (Nussbaum)"),
    ],
)
def test_german_names(german: str, name: str) -> None:
    assert find(german).name == name


# -- several, or none


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ("walnut", ["Walnut, black", "European walnut (Nussbaum)"]),
        ("white pine", ["Pine, eastern white", "Pine, western white"]),
        ("larch", ["Larch, western", "larch (Laerche)"]),
        ("silver fir", ["Fir, Pacific silver", "silver fir (Tanne)"]),
        ("poplar", ["Yellow-poplar", "Cottonwood, balsam poplar", "poplar (Pappel)"]),
        (
            "maple",
            # first what makers have a word for: hard maple
            ["Maple, sugar", "Maple, bigleaf", "Maple, red", "Maple, silver", "Maple, black",
             "Maple, striped"],
        ),
    ],
)
def test_words_of_several_woods_list_them(words: str, names: list[str]) -> None:
    error = refused(words)
    assert error.what == f"'{words}' could be several woods"
    assert error.cure == "write one of " + ", ".join(f"'{name}'" for name in names)
    for name in names:  # what is listed is found
        assert find(name).name == name


def test_many_woods_are_cut_to_six() -> None:
    error = refused("oak")
    assert error.cure.startswith("write one of 'Red oak, commercial', 'White oak, comm")
    assert error.cure.endswith("'White oak, live', ...")
    assert error.cure.count("'") == 12


@pytest.mark.parametrize(
    ("misspelt", "name"),
    [
        ("cherri", "Cherry, black"),
        ("wallnut", "Walnut, black"),
        ("wallnut", "European walnut (Nussbaum)"),
        ("Hackbery", "Hackberry"),
        ("sasafras", "Sassafras"),
        ("mahagony", "Mahogany (true)"),
        ("Eihce", "European oak (Eiche)"),
        ("wite oak", "White oak, commercial"),
        ("black chery", "Cherry, black"),
    ],
)
def test_misspelt_words_suggest(misspelt: str, name: str) -> None:
    error = refused(misspelt)
    assert error.what == f"there is no wood '{misspelt}' in the tables"
    assert error.cure.startswith("did you mean '")
    assert f"'{name}'" in error.cure
    assert error.cure.endswith(f"? or {OWN}")


@pytest.mark.parametrize("words", ["zzz", "xyloxylon qqq", "", "   ", "---", "123", "木", "'"])
def test_an_unknown_wood_says_what_to_do(words: str) -> None:
    with pytest.raises(BadWood) as caught:
        find(words)
    assert caught.value.what == f"there is no wood '{words}' in the tables"
    assert caught.value.cure == f"see the tables; or {OWN}"


def test_a_wood_that_is_not_one_of_the_tables_gets_no_other_s_figures() -> None:
    for words in ("bubinga", "black cherry tree", "cherry plum", "oak veneered chipboard"):
        refused(words)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=30))
def test_any_text_is_a_wood_or_a_refusal(words: str) -> None:
    try:
        found = find(words)
    except BadWood:
        assert not any(wood.name == words for wood in all_woods())
    else:
        assert found in all_woods()


# -- what a wood has


def test_a_wood_has_its_figures() -> None:
    # Wood Handbook, FPL-GTR-190, 2010, Tables 13-5, 4-3 and 5-3
    cherry = find("cherry")
    assert isinstance(cherry, Wood)
    assert (cherry.radial.value, cherry.radial.digits) == (F(126, 100_000), 3)
    assert (cherry.tangential.value, cherry.tangential.digits) == (F(248, 100_000), 3)
    assert [each.value for each in cherry.shrinks] == [F(37, 10), F(71, 10)]
    assert [each.digits for each in cherry.shrinks] == [2, 2]
    assert cherry.gravity.value == F(1, 2)
    assert cherry.gravity.digits == 2
    assert cherry.starts_at == 30


def test_leading_noughts_are_no_digits_and_trailing_ones_are() -> None:
    assert find("yellow cedar").radial.digits == 2  # 0.00095
    assert find("basswood").radial.digits == 3  # 0.00230
    assert find("basswood").shrinks[0].digits == 2  # 6.6
    assert find("beech, American").shrinks[1].digits == 3  # 11.9
    assert find("Eiche").radial.digits == 2  # 0.16 in percent


def test_only_four_woods_begin_to_shrink_lower() -> None:
    # Wood Handbook, FPL-GTR-190, 2010: 22 % where Tables 4-3 and 13-5 agree only so
    lower = {wood.name: wood.starts_at for wood in all_woods() if wood.starts_at != 30}
    assert lower == dict.fromkeys(
        ["Cedar, northern white", "Cedar, western redcedar", "Redwood, old growth",
         "Redwood, young growth"], F(22)
    )


def test_a_missing_figure_is_none_and_not_nought() -> None:
    gray = find("gray birch")  # Table 4-3 has a blank
    assert gray.radial is gray.tangential is None
    assert gray.shrinks[0].value == F(52, 10)
    assert gray.shrinks[1] is None
    assert find("Greenheart").shrinks == (None, None)
    assert find("Greenheart").gravity is None


def test_every_figure_is_exact_and_more_than_nothing() -> None:
    for wood in all_woods():
        for each in (wood.radial, wood.tangential, *wood.shrinks, wood.gravity):
            if each is not None:
                assert type(each.value) is Fraction
                assert each.value > 0
                assert each.digits in (2, 3)
        assert type(wood.starts_at) is Fraction


# -- sheets


@pytest.mark.parametrize(
    "words",
    ["plywood", "birch plywood", "Plywood, birch", "ply", "birch ply", "MDF", "mdf 18",
     "hardboard", "chipboard", "particleboard", "blockboard", "glass", "float glass", "GLASS"],
)
def test_sheets_and_glass(words: str) -> None:
    # common practice, no source
    assert is_sheet(words)


@pytest.mark.parametrize(
    "words", ["oak", "birch", "oak, red", "board", "plywoods", "glasswood", "supply", ""]
)
def test_wood_is_no_sheet(words: str) -> None:
    assert not is_sheet(words)


def test_no_wood_of_the_tables_is_a_sheet() -> None:
    assert not any(is_sheet(wood.name) for wood in all_woods())
