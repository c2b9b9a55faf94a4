"""Weights worked out by hand, in kilograms and in pounds.

The relation of volume, gravity and moisture: density = 1000 G (1 + M / 100) kg per cubic metre, or
62.4 G (1 + M / 100) lb per cubic foot (USDA Forest Products Laboratory, Wood Handbook, ch. 4; from
memory). The foot is 304.8 mm and the pound 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.measure import nearest
from layout.wood.moisture import Moisture, read_moisture
from layout.wood.species import Figure, all_woods, find
from layout.wood.weight import GLASS, POUND, WATER, mass
from tests.drawn import fractions

F = Fraction
CUBIC_FOOT = F("304.8") ** 3
CUBIC_METRE = F(1000) ** 3
WOODS = [wood for wood in all_woods() if wood.gravity]


def figure(value: str) -> Figure:
    return Figure(F(value), 2, True)


def test_a_cubic_foot_of_red_oak_at_twelve_percent() -> None:
    # 0.028316846592 m3 x 0.63 x 1000 kg x 1.12 = 19.9803669553152 kg, / 0.45359237 = 44.0491690 lb
    kilograms = mass(CUBIC_FOOT, find("red oak").gravity, Moisture(F(12)))
    assert kilograms == F("19.9803669553152")
    assert F(nearest(kilograms / POUND * 10**7), 10**7) == F("44.0491690")


def test_a_cubic_foot_of_water() -> None:
    # 62.4 lb, as every handbook of engineering has it to a tenth
    water = mass(CUBIC_FOOT, figure("1"), Moisture(F(0)))
    assert F(nearest(water / POUND * 10), 10) == F("62.4")


def test_the_units() -> None:
    assert F("0.45359237") == POUND
    assert WATER * CUBIC_METRE == 1000
    assert GLASS * CUBIC_METRE == 2500  # EN 572-1, from memory


@pytest.mark.parametrize("content", [0, 6, 8, 12, 30])
def test_the_density_formula_in_both_units(content: int) -> None:
    for wood in WOODS:
        kilograms = mass(CUBIC_METRE, wood.gravity, Moisture(F(content)))
        assert kilograms == 1000 * wood.gravity.value * (1 + F(content) / 100)
        pounds = mass(CUBIC_FOOT, wood.gravity, Moisture(F(content))) / POUND
        handbook = F("62.4") * wood.gravity.value * (1 + F(content) / 100)
        # 62.4 is good to half a tenth
        assert abs(pounds / handbook - 1) <= F("0.05") / F("62.4")


@given(
    fractions(0, 10**9, 64), fractions(0, 10**9, 64),
    st.sampled_from(WOODS), fractions(0, 30, 100),
)
@settings(max_examples=50, deadline=None)
def test_two_pieces_weigh_what_both_weigh(one: F, other: F, wood: object, content: F) -> None:
    moisture = Moisture(content)
    together = mass(one + other, wood.gravity, moisture)
    assert type(together) is Fraction
    assert together == mass(one, wood.gravity, moisture) + mass(other, wood.gravity, moisture)


def test_moisture_adds_its_own_share() -> None:
    # per cent of the ovendry mass: 100 g of dry wood at 8.5 % weigh 108.5 g
    dry = mass(F(100_000), figure("1"), Moisture(F(0)))
    assert dry == F(1, 10)
    assert mass(F(100_000), figure("1"), Moisture(F(17, 2))) == F("0.1085")


def test_the_air_s_moisture_weighs_exactly() -> None:
    moist = read_moisture("68 F, 45 %")
    assert mass(CUBIC_METRE, figure("0.5"), moist) == 500 + 5 * moist.content


def test_a_door_s_panel() -> None:
    # cherry 300 x 500 x 12 mm at 8 %: 1.8 litres x 0.50 x 1.08 = 0.972 kg
    panel = mass(F(300 * 500 * 12), find("cherry").gravity, Moisture(F(8)))
    assert panel == F("0.972")
    # float glass of 4 mm: 10 kg to the square metre
    assert GLASS * 1000 * 1000 * 4 == 10
