"""How wood moves: both formulas exactly, where each holds, and numbers with the digits they carry.

Formulas: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190, 2010, Eq. 13-2 (6 to 14 %,
Table 13-5) and Eq. 13-3 (elsewhere, Tables 4-3 and 4-4). Here they are worked out a second time
from what they mean: a share of the size for each 1 %, and a size that shrinks in a straight line
from its green size at the start to the green size less its shrinkage at 0 %.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadWood
from layout.wood.moisture import Moisture
from layout.wood.movement import HIGHEST, LOWEST, SAWN, carried, movement
from layout.wood.species import Figure, Wood, all_woods, find
from tests.drawn import fractions

F = Fraction
CHERRY = find("black cherry")  # C 0.00126 and 0.00248, S 3.7 and 7.1
REDCEDAR = find("western redcedar")  # shrinking starts at 22 %, S 2.4 and 5.0
GRAND_FIR = find("grand fir")  # S 3.4 and 7.5, no coefficients
OAK = find("European oak")  # coefficients 0.16 and 0.36 %, no shrinkage
GRAY_BIRCH = find("gray birch")  # S 5.2 radially only
WAYS = ("width", "thickness")

contents = fractions(0, 30, 1000)
middling = fractions(6, 14, 1000)
with_shrinkage = st.sampled_from([wood for wood in all_woods() if None not in wood.shrinks])
with_coefficients = st.sampled_from([wood for wood in all_woods() if wood.radial])


def share(
    wood: Wood, before: Fraction | int | str, after: Fraction | int | str,
    sawn: str = "flat", way: str = "width",
) -> Fraction:
    found = movement(wood, sawn, way, Moisture(F(before)), Moisture(F(after))).share
    assert type(found) is Fraction
    return found


def by_its_shrinkage(wood: Wood) -> Wood:
    return wood._replace(radial=None, tangential=None)


def of_green(shrinks: Fraction, starts_at: Fraction, content: Fraction) -> Fraction:
    """A size as a share of the green size, `shrinks` in percent."""
    return 1 - shrinks / 100 * (starts_at - content) / starts_at


# -- between 6 and 14 %: the coefficients


def test_each_percent_moves_it_by_the_coefficient() -> None:
    # radially 0.00126 and tangentially 0.00248 for 1 %, two percent
    assert share(CHERRY, 8, 10, "flat", "width") == F(496, 100_000)
    assert share(CHERRY, 8, 10, "flat", "thickness") == F(252, 100_000)
    assert share(CHERRY, 8, 10, "quarter", "width") == F(252, 100_000)
    assert share(CHERRY, 8, 10, "quarter", "thickness") == F(496, 100_000)
    assert share(CHERRY, 8, 10, "rift", "width") == F(374, 100_000)
    assert share(CHERRY, 8, 10, "rift", "thickness") == F(374, 100_000)
    assert share(CHERRY, 10, 8) == -F(496, 100_000)


@given(with_coefficients, middling, middling, middling)
@settings(max_examples=60, deadline=None)
def test_it_is_linear(wood: Wood, a: Fraction, b: Fraction, c: Fraction) -> None:
    assert share(wood, a, b) == wood.tangential.value * (b - a)
    assert share(wood, a, b) + share(wood, b, c) == share(wood, a, c)
    assert share(wood, a, b) == -share(wood, b, a)


def test_no_difference_moves_nothing() -> None:
    for wood, content in ((CHERRY, 8), (CHERRY, 20), (GRAND_FIR, 8), (OAK, 14)):
        assert share(wood, content, content) == 0


# -- elsewhere: the shrinkage


def test_from_the_start_to_ovendry_it_shrinks_by_the_table() -> None:
    # 7.1 % tangentially and 3.7 % radially; western redcedar 5.0 and 2.4 %, from 22 %
    assert share(CHERRY, 30, 0) == -F(71, 1000)
    assert share(CHERRY, 30, 0, "quarter") == -F(37, 1000)
    assert share(CHERRY, 30, 0, "rift") == -F(54, 1000)
    assert share(REDCEDAR, 22, 0) == -F(50, 1000)
    assert share(REDCEDAR, 22, 0, "quarter") == -F(24, 1000)


def test_the_handbook_s_closed_form() -> None:
    # Eq. 13-3: D (Mf - Mi) / (30 100 / S - 30 + Mi); cherry flat-sawn from 20 to 8 %
    assert share(CHERRY, 20, 8) == F(-12) / (F(3000) / F("7.1") - 30 + 20)
    # and with 22 for western redcedar
    assert share(REDCEDAR, 20, 8) == F(-12) / (F(2200) / 5 - 22 + 20)


@given(with_shrinkage, st.sampled_from(["flat", "quarter"]), st.sampled_from(WAYS), contents,
       contents)
@settings(max_examples=100, deadline=None)
def test_a_size_lies_on_the_line_from_green_to_ovendry(
    wood: Wood, sawn: str, way: str, before: Fraction, after: Fraction
) -> None:
    before, after = min(before, wood.starts_at), min(after, wood.starts_at)
    radial, tangential = wood.shrinks
    shrinks = (tangential if (sawn == "flat") == (way == "width") else radial).value
    found = share(by_its_shrinkage(wood), before, after, sawn, way)
    assert 1 + found == (
        of_green(shrinks, wood.starts_at, after) / of_green(shrinks, wood.starts_at, before)
    )


@given(with_shrinkage, st.sampled_from(["flat", "quarter"]), contents, contents, contents)
@settings(max_examples=60, deadline=None)
def test_there_and_back_by_shrinkage_returns_exactly(
    wood: Wood, sawn: str, a: Fraction, b: Fraction, c: Fraction
) -> None:
    wood = by_its_shrinkage(wood)
    a, b, c = (min(each, wood.starts_at) for each in (a, b, c))
    size = F(29_210, 100)
    moved = size
    for before, after in ((a, b), (b, c), (c, a)):
        moved *= 1 + share(wood, before, after, sawn)
    assert moved == size


# -- how it is sawn


@given(st.sampled_from([wood for wood in all_woods() if wood.name != "Birch, gray"]), middling,
       middling)
@settings(max_examples=60, deadline=None)
def test_flat_and_quarter_are_each_other_turned_and_rift_is_their_mean(
    wood: Wood, before: Fraction, after: Fraction
) -> None:
    if wood.radial is None and wood.shrinks == (None, None):
        return
    flat, quarter, rift = (
        [share(wood, before, after, sawn, way) for way in WAYS] for sawn in SAWN
    )
    assert flat == quarter[::-1]
    assert rift[0] == rift[1] == (flat[0] + quarter[0]) / 2


def along(radial: Fraction, tangential: Fraction, x: int, y: int) -> Fraction:
    """What wood stretches along the line from (0, 0) to (x, y), x along the radius and y along the
    rings: the part of the far end's move that lies along the line, by the line's length.
    """
    move = (radial * x, tangential * y)
    return (move[0] * x + move[1] * y) / (x * x + y * y)


@pytest.mark.parametrize("wood", [CHERRY, OAK, GRAND_FIR, REDCEDAR], ids=lambda wood: wood.name)
def test_rift_is_the_strain_at_forty_five_degrees(wood: Wood) -> None:
    # small strains, as any book of mechanics turns them
    radial = share(wood, 8, 12, "quarter", "width")
    tangential = share(wood, 8, 12, "flat", "width")
    assert along(radial, tangential, 1, 0) == radial
    assert along(radial, tangential, 0, 1) == tangential
    diagonal, across = along(radial, tangential, 1, 1), along(radial, tangential, -1, 1)
    assert share(wood, 8, 12, "rift", "width") == diagonal
    assert share(wood, 8, 12, "rift", "thickness") == across
    # rings a little nearer to flat or to quarter lie on either side
    assert along(radial, tangential, 21, 20) < diagonal < along(radial, tangential, 20, 21)


# -- where each formula holds


def test_the_coefficients_hold_from_six_to_fourteen() -> None:
    assert (LOWEST, HIGHEST) == (6, 14)


@pytest.mark.parametrize(
    ("before", "after"), [(6, 14), (14, 6), (6, 6), (14, 14), (6, 7), (13, 14)]
)
def test_at_its_ends_the_coefficient_holds(before: int, after: int) -> None:
    assert share(CHERRY, before, after) == F(248, 100_000) * (after - before)
    assert share(OAK, before, after) == F(36, 10_000) * (after - before)


@pytest.mark.parametrize(
    ("before", "after"),
    [("5.999999", "14"), ("6", "14.000001"), ("14.000001", "6"), ("14", "5.999999"), ("0", "3"),
     ("15", "30"), ("5", "6"), ("14", "15")],
)
def test_just_outside_the_shrinkage_holds_and_nothing_else(before: str, after: str) -> None:
    line = of_green(F("7.1"), F(30), F(after)) / of_green(F("7.1"), F(30), F(before))
    assert share(CHERRY, before, after) == line - 1
    assert share(CHERRY, before, after) != F(248, 100_000) * (F(after) - F(before))
    with pytest.raises(BadWood) as caught:
        share(OAK, before, after)
    assert caught.value.what.startswith(
        "the figures of European oak (Eiche) hold between 6 and 14 % only, not from "
    )
    assert caught.value.cure == "keep the moisture within that, or give another wood of its kind"


def test_the_two_formulas_stay_close_at_the_ends() -> None:
    # they meet at a start of 10 %; at 6 or 14 % they differ by less than a hundredth of the sum
    for before, after in ((6, 14), (14, 6), (6, 7), (14, 13)):
        coefficient = share(CHERRY, before, after)
        shrinkage = share(by_its_shrinkage(CHERRY), before, after)
        assert coefficient != shrinkage
        assert abs(coefficient / shrinkage - 1) < F(2, 100)


def test_a_wood_without_coefficients_goes_by_its_shrinkage_everywhere() -> None:
    # grand fir, Table 4-3: 7.5 % tangentially
    for before, after in ((8, 10), (6, 14), (3, 20), (30, 0)):
        line = of_green(F("7.5"), F(30), F(after)) / of_green(F("7.5"), F(30), F(before))
        assert share(GRAND_FIR, before, after) == line - 1


def test_a_wood_with_half_its_shrinkage_moves_that_way_only() -> None:
    line = of_green(F("5.2"), F(30), F(6)) / of_green(F("5.2"), F(30), F(8))
    assert share(GRAY_BIRCH, 8, 6, "quarter", "width") == line - 1
    assert share(GRAY_BIRCH, 8, 6, "flat", "thickness") == line - 1
    for sawn, way, words in (
        ("flat", "width", "tangentially"), ("quarter", "thickness", "tangentially"),
        ("rift", "width", "radially and tangentially"),
    ):
        with pytest.raises(BadWood) as caught:
            share(GRAY_BIRCH, 8, 6, sawn, way)
        assert caught.value.what == f"the tables don't say how Birch, gray moves {words}"
        assert caught.value.cure == "give its figures under [[wood]]"


def test_wetter_than_where_it_begins_to_shrink() -> None:
    share(REDCEDAR, 22, 8)
    share(CHERRY, 30, 8)
    for wood, before, after, text in (
        (REDCEDAR, "22.1", "8", "22.1 % Cedar, western redcedar is wetter than 22 %"),
        (REDCEDAR, "8", "22.000001", "22.0 % Cedar, western redcedar is wetter than 22 %"),
        (CHERRY, "30.1", "8", "30.1 % Cherry, black is wetter than 30 %"),
        (OAK, "31", "8", "31.0 % European oak (Eiche) is wetter than 30 %"),
    ):
        with pytest.raises(BadWood) as caught:
            share(wood, before, after)
        assert caught.value.what == f"at {text}, where it begins to shrink"
        assert caught.value.cure == f"give a moisture of at most {wood.starts_at} %"


# -- the words and the digits of a sum


@pytest.mark.parametrize(
    ("wood", "sawn", "before", "after", "digits", "words"),
    [
        (CHERRY, "flat", 8, 11, 2, "0.00248 (tangential) for each 1 %, 3.0 %"),
        (CHERRY, "quarter", 8, 6, 2, "0.00126 (radial) for each 1 %, 2.0 %"),
        (CHERRY, "rift", 8, 6, 2, "0.00187 (mean of radial and tangential) for each 1 %, 2.0 %"),
        (CHERRY, "flat", 8, F("8.4"), 1, "0.00248 (tangential) for each 1 %, 0.4 %"),
        (CHERRY, "flat", 8, F("8.01"), 1, "0.00248 (tangential) for each 1 %, 0.0 %"),
        (CHERRY, "flat", 20, 8, 2,
         "7.1 % tangential (Table 4-3) from 30 % to ovendry, 12.0 % from 20.0 %"),
        (CHERRY, "rift", 20, 8, 2,
         "mean of 3.7 % radial and 7.1 % tangential (Table 4-3) from 30 % to ovendry, 12.0 % from "
         "20.0 %"),
        (REDCEDAR, "flat", 20, 8, 2,
         "5 % tangential (Table 4-3) from 22 % to ovendry, 12.0 % from 20.0 %"),
        (find("sugar maple"), "flat", 6, 14, 2, "0.00353 (tangential) for each 1 %, 8.0 %"),
        # 11.9 % has three digits, a difference of 15.0 has three too
        (find("American beech"), "flat", 20, 5, 3,
         "11.9 % tangential (Table 4-3) from 30 % to ovendry, 15.0 % from 20.0 %"),
        (OAK, "flat", 6, 14, 2, "0.0036 (tangential) for each 1 %, 8.0 %"),
    ],
)
def test_what_a_sum_says(
    wood: Wood, sawn: str, before: int, after: Fraction, digits: int, words: str
) -> None:
    found = movement(wood, sawn, "width", Moisture(F(before)), Moisture(F(after)))
    assert found.words == words
    assert found.digits == digits


def test_no_more_digits_than_the_poorest_figure() -> None:
    one, three = Figure(F(2, 1000), 1, True), Figure(F(252, 100_000), 3, True)
    wood = Wood("x", "y", one, three)
    for sawn, digits in (("quarter", 1), ("rift", 1), ("flat", 2)):
        assert movement(wood, sawn, "width", Moisture(F(8)), Moisture(F(11))).digits == digits


def test_an_imported_wood_names_its_own_table() -> None:
    # Table 4-4 has the imported woods, Table 4-3 those grown in the United States
    afrormosia = find("Afrormosia")
    assert afrormosia.source.endswith("Table 4-4")
    found = movement(afrormosia, "flat", "width", Moisture(F(8)), Moisture(F(10)))
    assert "(Table 4-4)" in found.words


@pytest.mark.parametrize(
    ("words", "before", "after", "read"),
    [
        ("cherry", 8, 10, True),
        ("black willow", 8, 10, False),  # its radial figure was read, its tangential one not
        ("white fir", 8, 10, False),
        ("teak", 8, 10, False),
        ("Eiche", 8, 10, True),
        ("Afrormosia", 8, 10, True),  # Table 4-4, read
        ("grand fir", 8, 10, True),  # Table 4-3, read
        ("striped maple", 8, 10, False),  # Table 4-3, from memory
        # coefficients read in Table 13-5, shrinkage from memory of Table 4-3, and the other way
        ("honeylocust", 8, 10, True),
        ("honeylocust", 8, 20, False),
        ("western redcedar", 8, 10, False),
        ("western redcedar", 8, 20, True),
    ],
)
def test_a_figure_from_memory_is_told(words: str, before: int, after: int, read: bool) -> None:
    found = movement(find(words), "rift", "width", Moisture(F(before)), Moisture(F(after)))
    assert found.read is read


# -- numbers with no more digits than they carry


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("1.7052", 2, "1.7"), ("0.0671", 2, "0.067"), ("0.01935", 2, "0.019"),
        ("0.01935", 3, "0.0194"), ("0", 3, "0"), ("1.96", 2, "2.0"), ("0.996", 2, "1.0"),
        ("9.96", 2, "10"), ("99.5", 2, "100"), ("0.0996", 2, "0.10"), ("0.05", 1, "0.05"),
        ("0.05", 3, "0.0500"), ("1234.5", 2, "1200"), ("1250", 2, "1300"), ("1249.99", 2, "1200"),
        ("-1.25", 2, "-1.3"), ("-0.0996", 2, "-0.10"), ("-99.5", 2, "-100"), ("2.5", 1, "3"),
        ("-2.5", 1, "-3"), ("0.25", 1, "0.3"), ("10", 1, "10"), ("9.5", 1, "10"), ("1", 1, "1"),
        ("1", 2, "1.0"), ("100", 3, "100"), ("100", 4, "100.0"),
    ],
)
def test_carried(value: str, digits: int, text: str) -> None:
    assert carried(F(value), digits) == text


@given(st.fractions(max_denominator=10**6), st.integers(1, 7))
@settings(max_examples=250, deadline=None)
def test_carried_is_what_decimal_arithmetic_rounds_to(value: Fraction, digits: int) -> None:
    against_decimal(value, digits)


@given(st.integers(-(10**5), 10**5), st.integers(0, 8), st.integers(1, 4))
@settings(max_examples=250, deadline=None)
def test_carried_takes_halves_away_from_zero(units: int, power: int, digits: int) -> None:
    against_decimal(F(2 * units + 1, 2 * 10**power), digits)


def against_decimal(value: Fraction, digits: int) -> None:
    text = carried(value, digits)
    if value == 0:
        assert text == "0"
        return
    # enough digits that a quotient of these never looks like a half where it is none
    with localcontext() as context:
        context.prec = 60
        exact = Decimal(value.numerator) / Decimal(value.denominator)
        last = exact.adjusted() - digits + 1
        rounded = exact.quantize(Decimal(1).scaleb(last), rounding=ROUND_HALF_UP)
    assert F(text) == F(rounded)
    assert "e" not in text.lower()
    assert text.startswith("-") == (value < 0)
    # as many digits as it carries, counted from the first that is no nought
    figures = text.lstrip("-").replace(".", "").lstrip("0")
    shown = len(figures) if "." in text else max(len(figures.rstrip("0")), 1)
    assert shown == digits if "." in text else shown <= digits
    if "." in text:
        assert not text.endswith(".")
        assert text.lstrip("-")[0].isdigit()


@pytest.mark.parametrize(("sawn", "way"), list(product(SAWN, WAYS)))
def test_a_drier_board_is_never_larger(sawn: str, way: str) -> None:
    for wood in all_woods():
        try:
            less, more = share(wood, 8, 6, sawn, way), share(wood, 8, 10, sawn, way)
        except BadWood:
            # gray birch has volumetric shrinkage only, the two pines nothing but a gravity
            assert wood.name in ("Birch, gray", "Pine, sand", "Pine, spruce")
            continue
        assert less < 0 < more
        assert abs(less) < F(2, 100)  # none of the tables' woods moves 1 % for 1 %
