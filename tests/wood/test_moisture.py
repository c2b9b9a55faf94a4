"""What a maker may write for the moisture of wood, what comes of it, and the order of a climate."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadWood
from layout.wood.moisture import (
    Moisture,
    climate,
    fahrenheit,
    in_air,
    percent,
    read_moisture,
    usual_climate,
)

F = Fraction
LIKE = 'write the meter\'s reading, like 8, or the air, like "68 F, 45 %" or "20 C, 45 %"'


def refused(written: object) -> BadWood:
    with pytest.raises(BadWood) as caught:
        read_moisture(written)
    assert "\n" not in str(caught.value)
    return caught.value


# -- a meter's reading


@pytest.mark.parametrize(
    ("written", "content"),
    [
        (8, F(8)), ("8", F(8)), (0, F(0)), ("0", F(0)), (30, F(30)), ("30", F(30)),
        ("8%", F(8)), ("8 %", F(8)), ("8.5 %", F(17, 2)), ("8.5 percent", F(17, 2)),
        ("8.5 per cent", F(17, 2)), ("8 PERCENT", F(8)), (" 8 ", F(8)), ("8   %", F(8)),
        ("\n8\t%", F(8)), (Decimal("8.5"), F(17, 2)), (Decimal("7.123456"), F(7_123_456, 10**6)),
        ("007.0", F(7)),
    ],
)
def test_a_meter_s_reading(written: object, content: Fraction) -> None:
    assert read_moisture(written) == Moisture(content, "")
    assert type(read_moisture(written).content) is Fraction


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 30 * 10**6))
def test_every_reading_up_to_fibre_saturation_is_exact(millionths: int) -> None:
    text = f"{millionths // 10**6}.{millionths % 10**6:06d}"
    assert read_moisture(text).content == F(millionths, 10**6)


@pytest.mark.parametrize("written", [31, "30.000001", "30.1 %", 999_999, Decimal("30.5")])
def test_above_fibre_saturation(written: object) -> None:
    error = refused(written)
    number = str(written).removesuffix(" %")
    assert error.what == (
        f"at {number} % the wood is wetter than fibre saturation, 30 %, where it begins to shrink"
    )
    assert error.cure == "let it dry first; furniture is made between 6 and 14 %"


@pytest.mark.parametrize(
    "written",
    ["", " ", "damp", "-3", -3, "+8", "8.", ".5", "8,5", "8 9", "8 / 2", "1/2", "8 in", "8 % %",
     "% 8", "1e1", Decimal("1E+1"), Decimal("NaN"), Decimal("Infinity"), "1234567", 1234567,
     10**30, "9" * 500, "0.1234567", "８", "٨", "8²", "nan", "68 F", "68, 45 %", "45 %, 68 F",
     "68 K, 45 %", "68 F, 45", "68 F, 45 % 3", "68 F, -1 %", "--5 C, 45 %", "+68 F, 45 %",
     "68 F 45 % at", "1234567 F, 45 %", "68 F, 1234567 %", "68,5 F, 45 %", "six percent"],
)
def test_nonsense(written: object) -> None:
    error = refused(written)
    text = " ".join(str(written).split())
    shown = text if len(text) <= 40 else text[:39] + "…"
    assert error.what == f"'{shown}' is no moisture content"
    assert error.cure == LIKE


@pytest.mark.parametrize("written", [True, False, None, 8.0, F(8), [8], {"now": 8}, b"8"])
def test_another_kind(written: object) -> None:
    error = refused(written)
    assert error.what == "a moisture content is a number or a text"
    assert error.cure == LIKE


# -- the air


@pytest.mark.parametrize(
    ("written", "celsius", "humidity", "air"),
    [
        ("68 F, 45 %", F(20), 45, "68 F, 45 %"),
        ("68F 45%", F(20), 45, "68 F, 45 %"),
        ("68F,45%", F(20), 45, "68 F, 45 %"),
        ("68 °F, 45 % RH", F(20), 45, "68 F, 45 %"),
        ("68 deg F and 45 percent humidity", F(20), 45, "68 F, 45 %"),
        ("68 f at 45 per cent", F(20), 45, "68 F, 45 %"),
        ("20 C, 45 %", F(20), 45, "20 C, 45 %"),
        ("20 c. 45%rh", F(20), 45, "20 C, 45 %"),
        ("  20   C,  45 % ", F(20), 45, "20 C, 45 %"),
        ("20.5 C, 45.5 %", F(41, 2), F(91, 2), "20.5 C, 45.5 %"),
        ("-1 C, 50 %", F(-1), 50, "-1 C, 50 %"),
        ("30 F, 50 %", F(-10, 9), 50, "30 F, 50 %"),
        ("130 F, 50 %", F(490, 9), 50, "130 F, 50 %"),
        ("0 C, 50 %", F(0), 50, "0 C, 50 %"),
    ],
)
def test_the_air(written: str, celsius: Fraction, humidity: Fraction, air: str) -> None:
    found = read_moisture(written)
    assert found == Moisture(in_air(celsius, F(humidity)), air)
    assert type(found.content) is Fraction


@pytest.mark.parametrize("humidity", [0, 100])
def test_the_humidity_reaches_from_nothing_to_everything(humidity: int) -> None:
    content = read_moisture(f"68 F, {humidity} %").content
    # no water in dry air; close below fibre saturation in the dampest
    assert content == 0 if humidity == 0 else 25 < content < 30


@pytest.mark.parametrize("humidity", ["100.1", "101", "999999", "100.000001"])
def test_a_humidity_that_cannot_be(humidity: str) -> None:
    error = refused(f"68 F, {humidity} %")
    assert error.what == f"a humidity of {humidity} % can't be"
    assert error.cure == "it lies between 0 and 100 %"


def test_a_humidity_below_nothing() -> None:
    with pytest.raises(BadWood, match="-1 % can't be"):
        in_air(F(20), F(-1))


@pytest.mark.parametrize(
    ("air", "celsius"),
    [("29.9 F", "-1.2"), ("20 F", "-6.7"), ("-2 C", "-2"), ("130.1 F", "54.5"), ("54.5 C", "54.5"),
     ("200 F", "93.3"), ("-40 C", "-40"), ("-40 F", "-40"), ("999999 F", "555537.2")],
)
def test_a_temperature_outside_the_printed_table(air: str, celsius: str) -> None:
    error = refused(f"{air}, 50 %")
    assert error.what == f"{celsius} C is outside the published table"
    assert error.cure == "it goes from 30 to 130 F, -1.1 to 54.4 C"


@pytest.mark.parametrize(("low", "high"), [("30 F", "29.999999 F"), ("130 F", "130.000001 F")])
def test_the_table_s_ends_are_in_it(low: str, high: str) -> None:
    read_moisture(f"{low}, 50 %")
    refused(f"{high}, 50 %")


def test_degrees() -> None:
    # 0 C is 32 F and 100 C is 212 F (NIST SP 811, 2008, appendix B.8); -40 is the same in both
    for celsius, degrees in ((0, 32), (100, 212), (-40, -40), (20, 68)):
        assert fahrenheit(F(celsius)) == degrees


def test_damper_air_makes_damper_wood_and_warmer_air_drier() -> None:
    # as every row and column of Table 4-2 of the Wood Handbook (FPL-GTR-190, 2010) goes, above
    # 40 F; below that the table is flat
    for degrees in range(5, 55, 5):
        up = [in_air(F(degrees), F(humidity)) for humidity in range(0, 101, 5)]
        assert up == sorted(set(up))
    for humidity in range(5, 91, 5):
        down = [in_air(F(degrees), F(humidity)) for degrees in range(15, 55, 5)]
        assert down == sorted(set(down), reverse=True)


# -- in words


@pytest.mark.parametrize(
    ("value", "text"),
    [(F(8), "8.0 %"), (F(0), "0.0 %"), (F(845, 100), "8.5 %"), (F(8449, 1000), "8.4 %"),
     (F(10), "10.0 %"), (F(999, 100), "10.0 %"), (F(1, 3), "0.3 %"), (F(5, 100), "0.1 %")],
)
def test_a_tenth_of_a_percent(value: Fraction, text: str) -> None:
    assert percent(value) == text
    assert Moisture(value).text == text
    assert Moisture(value).words == text
    assert Moisture(value, "68 F, 45 %").words == f"{text} (68 F, 45 %)"


# -- a climate


def test_a_climate_keeps_its_moistures() -> None:
    now, dry, wet = (Moisture(F(value)) for value in (8, 6, 12))
    found = climate(now, dry, wet)
    assert (found.now, found.dry, found.wet, found.stated) == (now, dry, wet, True)


@pytest.mark.parametrize("now", [3, 20])
def test_today_may_lie_outside_the_seasons(now: int) -> None:
    assert climate(Moisture(F(now)), Moisture(F(6)), Moisture(F(12))).now.content == now


def test_a_room_that_is_always_alike() -> None:
    same = Moisture(F(8))
    assert climate(same, same, same).dry.content == 8


def test_a_dry_season_that_is_wetter() -> None:
    dry, wet = read_moisture("75 F, 65 %"), Moisture(F(8))
    with pytest.raises(BadWood) as caught:
        climate(Moisture(F(8)), dry, wet)
    assert caught.value.what == (
        "the dry season, 11.9 % (75 F, 65 %), is wetter than the wet one, 8.0 %"
    )
    assert caught.value.cure == "exchange them"
    with pytest.raises(BadWood):
        climate(wet, Moisture(F(8_000_001, 10**6)), wet)


def test_the_usual_climate_is_not_the_maker_s() -> None:
    usual = usual_climate()
    assert (usual.dry.content, usual.now.content, usual.wet.content) == (6, 8, 10)
    assert usual.stated is False
    assert usual.now.air == usual.dry.air == usual.wet.air == ""
