"""The timbers of a piece: what a word stands for, and what the year does to a board of it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.errors import BadWood, Where
from layout.wood.moisture import Moisture, climate, usual_climate
from layout.wood.movement import Movement, movement
from layout.wood.species import find
from layout.wood.timber import STILL, Seasons, TimberChoice, Timbers

F = Fraction
PLACE = Where("piece.toml", 7, "wood 1")


def moist(value: Fraction | int | str) -> Moisture:
    return Moisture(F(value))


def moved(share: str) -> Movement:
    return Movement(F(share), 2, "")


# -- most and least


@pytest.mark.parametrize(
    ("dry", "wet", "most", "least"),
    [
        ("-1/100", "2/100", "2/100", "-1/100"),
        ("-2/100", "-1/100", "0", "-2/100"),  # today is wetter than the year ever gets
        ("1/100", "2/100", "2/100", "0"),  # today is drier
        ("0", "0", "0", "0"),
        ("0", "1/100", "1/100", "0"),
        ("-1/100", "0", "0", "-1/100"),
    ],
)
def test_the_most_and_least_of_a_year_with_today_in_it(
    dry: str, wet: str, most: str, least: str
) -> None:
    year = Seasons(moved(dry), moved(wet))
    assert year.most == F(most)
    assert year.least == F(least)


# -- what a word stands for


def test_a_timber_that_nothing_is_said_of() -> None:
    timbers = Timbers()
    assert timbers.said_of("cherry") == TimberChoice("cherry")
    assert timbers.wood("cherry") == find("Cherry, black")
    assert timbers.sawn("cherry") == "flat"
    assert timbers.year == usual_climate()
    assert timbers.now("cherry").content == 8


def test_what_is_said_counts_for_its_own_word_only() -> None:
    oak = find("white oak")
    timbers = Timbers(
        None,
        (
            TimberChoice("oak", oak, "quarter", moist(9), PLACE),
            TimberChoice("cherry", None, "rift"),
        ),
    )
    assert timbers.wood("oak") == oak
    assert timbers.now("oak").content == 9
    assert timbers.now("cherry").content == timbers.now("walnut").content == 8
    assert [timbers.sawn(word) for word in ("oak", "cherry", "walnut")] == [
        "quarter", "rift", "flat"
    ]
    # a part's own sawing wins
    assert timbers.sawn("oak", "flat") == "flat"
    assert timbers.said_of("Oak") == TimberChoice("Oak")


def test_a_timber_as_dry_as_can_be() -> None:
    timbers = Timbers(None, (TimberChoice("cherry", moisture=moist(0)),))
    assert timbers.now("cherry").content == 0


def test_the_maker_s_climate_is_the_year() -> None:
    own = climate(moist(9), moist(5), moist(12))
    timbers = Timbers(own)
    assert timbers.year is own
    assert timbers.now("cherry").content == 9


# -- what the year does


def test_a_board_s_year_from_its_own_moisture() -> None:
    # cherry 0.00248 tangentially, 0.00126 radially (Wood Handbook, FPL-GTR-190, 2010, Table 13-5)
    year = climate(moist(8), moist(6), moist(12))
    usual = Timbers(year).seasons("cherry", "width")
    assert (usual.dry.share, usual.wet.share) == (-2 * F("0.00248"), 4 * F("0.00248"))
    assert (usual.most, usual.least) == (usual.wet.share, usual.dry.share)
    own = Timbers(year, (TimberChoice("cherry", moisture=moist(10)),)).seasons("cherry", "width")
    assert (own.dry.share, own.wet.share) == (-4 * F("0.00248"), 2 * F("0.00248"))
    thick = Timbers(year).seasons("cherry", "thickness")
    assert (thick.dry.share, thick.wet.share) == (-2 * F("0.00126"), 4 * F("0.00126"))


def test_a_board_s_year_as_it_is_sawn() -> None:
    timbers = Timbers(None, (TimberChoice("cherry", sawn="quarter"),))
    assert timbers.seasons("cherry", "width").wet.share == 2 * F("0.00126")
    assert timbers.seasons("cherry", "width", "flat").wet.share == 2 * F("0.00248")
    assert timbers.seasons("cherry", "width", "rift").wet.share == 2 * F("0.00187")


def test_a_year_is_two_movements() -> None:
    year = climate(moist(9), moist(4), moist(15))
    for way in ("width", "thickness"):
        found = Timbers(year).seasons("sugar maple", way)
        maple = find("sugar maple")
        assert found.dry == movement(maple, "flat", way, moist(9), moist(4))
        assert found.wet == movement(maple, "flat", way, moist(9), moist(15))


@pytest.mark.parametrize("timber", ["birch plywood", "MDF", "glass"])
def test_a_sheet_keeps_its_size(timber: str) -> None:
    # common practice, no source
    own = climate(moist(8), moist(1), moist(29))
    for way in ("width", "thickness"):
        year = Timbers(own).seasons(timber, way)
        assert year == Seasons(STILL, STILL)
        assert year.most == year.least == 0
        assert year.dry.words == "keeps its size"


# -- what can't be known has its place


def test_a_moisture_above_the_wood_s_start_has_the_wood_s_place() -> None:
    timbers = Timbers(
        None, (TimberChoice("cedar", find("western redcedar"), "flat", moist(25), PLACE),)
    )
    with pytest.raises(BadWood) as caught:
        timbers.seasons("cedar", "width")
    assert str(caught.value).startswith("piece.toml, line 7, wood 1: at 25.0 % Cedar, western")


def test_a_wood_that_holds_in_the_middle_only_has_its_place() -> None:
    dry = climate(moist(8), moist(4), moist(10))
    timbers = Timbers(dry, (TimberChoice("oak", find("Eiche"), where=PLACE),))
    with pytest.raises(BadWood, match=r"not from 8\.0 % to 4\.0 %") as caught:
        timbers.seasons("oak", "width")
    assert caught.value.where == PLACE


def test_an_unknown_wood_has_the_place_of_what_was_said_of_it() -> None:
    timbers = Timbers(None, (TimberChoice("bubinga", sawn="quarter", where=PLACE),))
    with pytest.raises(BadWood, match="there is no wood 'bubinga'") as caught:
        timbers.seasons("bubinga", "width")
    assert caught.value.where == PLACE


def test_an_unknown_wood_that_nothing_is_said_of_has_no_place() -> None:
    with pytest.raises(BadWood, match="there is no wood 'bubinga'") as caught:
        Timbers().seasons("bubinga", "width")
    assert caught.value.where == Where()
