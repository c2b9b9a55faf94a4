"""Every wood of the tables through every season: a solid panel never leaves its grooves and never
fills them.

The movement is worked out here a second time, from the copies of the published tables in
tests/outside/reference: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190, 2010, Eq. 13-2
with Table 13-5 between 6 and 14 % of moisture, Eq. 13-3 with Tables 4-3 and 4-4 outside; European
woods with the figures of DIN 68100. Nothing of layout's own movement is called.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from layout.builds.panel_fit import Fit, FitChoice, Grain, SolidChoice, fit, lip_for, stands_in
from layout.defaults import Unit
from layout.errors import BadPiece, Where
from layout.joints.panel_edge import Profile
from layout.piece_file.panel_keys import usual_solid
from layout.wood.moisture import Moisture, climate
from layout.wood.species import Sawn, all_woods
from layout.wood.timber import TimberChoice, Timbers
from tests.outside.test_wood_tables import (
    CHANGE,
    EUROPEAN,
    NO_MOVEMENT,
    SHRINKAGE,
    SHRINKS_AS,
    european_name,
)

F = Fraction
INCH = F(127, 5)
HERE = Where(line=7)
KNOWN = {wood.name: wood for wood in all_woods()}
SAWN: tuple[Sawn, ...] = ("flat", "quarter", "rift")
UNITS: tuple[Unit, ...] = ("in", "mm")
GRAINS: tuple[Grain, ...] = ("up", "across")
USUAL = {unit: usual_solid(unit) for unit in UNITS}
# Woods that begin to shrink at 22 % (heading of the copy of Table 13-5); all others at 30 %.
EARLY = {"Redwood, old growth", "Redwood, young growth", "Cedar, western redcedar",
         "Cedar, northern white"}


class Year(NamedTuple):
    """Percent of moisture today, in the driest and in the wettest season."""

    now: Fraction
    dry: Fraction
    wet: Fraction

    def of(self, timber: str) -> Timbers:
        """As the program is told of it, with a timber."""
        told = TimberChoice(timber, KNOWN[timber])
        return Timbers(climate(*(Moisture(each) for each in self)), (told,))


YEARS = (
    Year(F(8), F(6), F(10)),  # inside Eq. 13-2
    Year(F(14), F(6), F("12.5")),  # today wetter than the year ever gets
    Year(F(6), F(7), F(13)),  # today drier
    Year(F(8), F(4), F(16)),  # beyond it on both sides: Eq. 13-3
    Year(F(9), F(9), F(9)),  # no season at all
)


# -- the movement, from the published tables alone


def pair(row: dict[str, str], radial: str, tangential: str, per: int) -> dict[str, Fraction]:
    """The figures of a row that the table has; a blank is none."""
    named = {"radial": row[radial], "tangential": row[tangential]}
    return {way: F(written) / per for way, written in named.items() if written}


COEFFICIENT = {row["species"]: pair(row, "C_R", "C_T", 1) for row in CHANGE} | {
    european_name(row): pair(row, "radial_pct_per_pct", "tangential_pct_per_pct", 100)
    for row in EUROPEAN if row["source"] != "B"
}
GREEN = {row["species"]: pair(row, "radial_pct", "tangential_pct", 1) for row in SHRINKAGE}


def across(sawn: Sawn) -> tuple[str, ...]:
    """Which way a board's width lies to the rings."""
    return {"flat": ("tangential",), "quarter": ("radial",),
            "rift": ("radial", "tangential")}[sawn]


def share(name: str, sawn: Sawn, before: Fraction, after: Fraction) -> Fraction | None:
    """The share by which a width changes; None where the tables don't say."""
    ways = across(sawn)
    linear, green = COEFFICIENT.get(name, {}), GREEN.get(SHRINKS_AS.get(name, name), {})
    if min(before, after) >= 6 and max(before, after) <= 14 and all(way in linear for way in ways):
        return sum((linear[way] * (after - before) for way in ways), F(0)) / len(ways)  # Eq. 13-2
    if not all(way in green for way in ways):
        return None
    start = 22 if name in EARLY else 30
    changes = [(after - before) / (start * 100 / green[way] - start + before) for way in ways]
    return sum(changes, F(0)) / len(ways)  # Eq. 13-3


def sizes_of_year(name: str, sawn: Sawn, year: Year) -> tuple[Fraction, Fraction] | None:
    """What 1 of width is at its narrowest and at its widest, today among them."""
    changes = [share(name, sawn, year.now, after) for after in (year.dry, year.wet)]
    known = [each for each in changes if each is not None]
    return (1 + min(F(0), *known), 1 + max(F(0), *known)) if len(known) == 2 else None


# -- the panel


def choice(timber: str, sawn: Sawn, unit: Unit, **changes: object) -> FitChoice:
    """A solid panel of which the maker says nothing but how it is sawn."""
    solid = USUAL[unit]._replace(sawn=sawn, **changes)
    return FitChoice(timber, F(10), Profile("plain", F(10)), F(3), "up", solid, HERE)


def fitted(make: FitChoice, clear: Fraction, timbers: Timbers) -> tuple[Fit, Fraction]:
    """The panel of an opening so wide across its grain and 500 along it; its grooves' depth."""
    lip = lip_for(make, (clear,), timbers)
    size = (clear, F(500)) if make.grain == "up" else (F(500), clear)
    return fit(make, *size, lip, timbers, "panel"), lip


def holds(
    name: str, sawn: Sawn, year: Year, unit: Unit, clear: Fraction, grain: Grain = "up",
    **changes: object
) -> bool:
    """Assert that a panel keeps its cover and its play; False where the tables don't know it."""
    make = choice(name, sawn, unit, **changes)._replace(grain=grain)
    of_one = sizes_of_year(name, sawn, year)
    if of_one is None:
        with pytest.raises(BadPiece) as refused:
            fitted(make, clear, year.of(name))
        assert refused.value.where.line == HERE.line
        return False
    found, lip = fitted(make, clear, year.of(name))
    assert make.solid is not None
    cover, play = make.solid.cover, make.solid.play
    moves, still = (found.wide, found.high) if grain == "up" else (found.high, found.wide)
    narrowest, widest = (moves.size * each for each in of_one)
    # what is left of both grooves when it is widest, and what it has of both when it is narrowest
    assert clear + 2 * lip - widest == play
    assert narrowest - clear >= 2 * cover
    assert (moves.narrowest, moves.widest) == (narrowest, widest)
    assert stands_in(moves, clear, lip, "pins") == (narrowest - clear) / 2
    # along the grain it keeps its size, less its room of 3
    assert (still.size, still.narrowest, still.widest) == (500 + 2 * lip - 3,) * 3
    # no deeper than it must be: the usual depth, or one step less would not cover
    less = lip - make.solid.step
    shallower = (clear + 2 * less - play) * of_one[0] / of_one[1]
    assert lip == make.solid.usual_lip or shallower - clear < 2 * cover
    assert lip >= make.solid.usual_lip
    assert (lip - make.solid.usual_lip) % make.solid.step == 0
    return True


WOODS = [name for name in KNOWN if name not in NO_MOVEMENT]


@pytest.mark.parametrize("sawn", SAWN)
@pytest.mark.parametrize("year", YEARS, ids=lambda year: "-".join(map(str, year)))
def test_every_wood_covers_its_grooves_and_never_fills_them(year: Year, sawn: Sawn) -> None:
    known = 0
    for number, name in enumerate(WOODS):
        # every wood in both units and both ways, over the years; one width between 3 and 30 in that
        # differs from wood to wood, of some also either end
        turn = number + YEARS.index(year) + SAWN.index(sawn)
        unit, grain = UNITS[turn % 2], GRAINS[turn // 2 % 2]
        end, between = (3, 30)[turn // 4 % 2], 3 + F(27 * (number % 89), 89)
        widths = (end, between) if turn % 3 == 0 else (between,)
        told = {holds(name, sawn, year, unit, clear * INCH, grain) for clear in widths}
        assert len(told) == 1
        known += told.pop()
    wanted = sum(sizes_of_year(name, sawn, year) is not None for name in WOODS)
    assert known == wanted
    # Table 13-5 alone has 118 rows, a few with a blank; Tables 4-3 and 4-4 have 124
    assert known > 110


def test_the_tables_have_as_many_woods_as_are_tried() -> None:
    assert len(WOODS) == len(set(COEFFICIENT) | set(GREEN))
    for year in YEARS:
        for sawn in ("flat", "quarter"):
            assert sum(sizes_of_year(name, sawn, year) is not None for name in WOODS) > 110


@pytest.mark.parametrize("name", NO_MOVEMENT)
def test_a_wood_without_figures_is_refused_at_its_place(name: str) -> None:
    assert not holds(name, "flat", YEARS[0], "in", 10 * INCH)


# Percent of moisture that the tables are good for on either side of them.
PERCENT = st.integers(40, 190).map(lambda tenths: F(tenths, 10))


@settings(max_examples=40, deadline=None)
@given(
    name=st.sampled_from(WOODS), sawn=st.sampled_from(SAWN), unit=st.sampled_from(UNITS),
    now=PERCENT, ends=st.tuples(PERCENT, PERCENT),
    wide=st.integers(3 * 64, 30 * 64), cover=st.integers(1, 32), play=st.integers(0, 16),
    grain=st.sampled_from(GRAINS),
)
@example(name="White oak, commercial", sawn="flat", unit="in", now=F(8), ends=(F(6), F(10)),
         wide=30 * 64, cover=8, play=4, grain="up")
def test_any_wood_year_width_cover_and_play(
    name: str, sawn: Sawn, unit: Unit, now: Fraction, ends: tuple[Fraction, Fraction], wide: int,
    cover: int, play: int, grain: Grain,
) -> None:
    year = Year(now, min(ends), max(ends))
    sixty_fourth = INCH / 64
    holds(name, sawn, year, unit, wide * sixty_fourth, grain, cover=cover * sixty_fourth,
          play=play * sixty_fourth)


# -- by hand


OAK = "White oak, commercial"


def test_white_oak_by_hand() -> None:
    # Table 13-5: 0.00365 tangentially. 2 % either way: 0.0073 of the width.
    make = choice(OAK, "flat", "in")
    found, lip = fitted(make, 20 * INCH, Timbers(climate(*(Moisture(F(p)) for p in (8, 6, 10)))))
    # (20 + 1/4) x 1.0073 / 0.9927 - 20 + 1/16 = 0.3603...; a half of it is less than 3/8
    assert lip == F(3, 8) * INCH
    assert found.wide.widest == (20 + F(3, 4) - F(1, 16)) * INCH
    assert found.wide.size == found.wide.widest / F("1.0073")
    assert found.wide.narrowest == found.wide.size * F("0.9927")
    assert found.wide.off == (
        (-1, "play at its widest", INCH / 16),
        (-1, "swelling, from now to its widest", found.wide.widest * F("0.0073") / F("1.0073")),
    )
    assert found.wide.room == INCH / 16 + found.wide.widest - found.wide.size
    # at 30 in: (30.25 x 1.0073 / 0.9927 - 30 + 0.0625) / 2 = 0.3787..., up to the next 1/16
    assert lip_for(make, (20 * INCH, 30 * INCH, 5 * INCH), Timbers()) == F(7, 16) * INCH


def test_what_a_timber_s_own_moisture_changes() -> None:
    # Quarter-sawn 0.00180; wood at 12 % only shrinks in a year of 6 to 10
    year = climate(*(Moisture(F(p)) for p in (8, 6, 10)))
    timbers = Timbers(year, (TimberChoice("oak", None, "quarter", Moisture(F(12))),))
    oak = choice(OAK, "quarter", "mm")._replace(timber="oak")
    with pytest.raises(BadPiece, match="could be several"):
        fitted(oak, F(400), timbers)
    timbers = Timbers(year, (TimberChoice(OAK, None, "quarter", Moisture(F(12))),))
    own = choice(OAK, "quarter", "mm")
    found, lip = fitted(own._replace(solid=own.solid and own.solid._replace(sawn=None)), F(400),
                        timbers)
    assert lip == 10
    assert found.wide.size == found.wide.widest == 400 + 20 - F(3, 2)
    assert found.wide.narrowest == found.wide.size * (1 - 6 * F("0.00180"))
    assert found.wide.off == ((-1, "play at its widest", F(3, 2)),)


def test_a_groove_that_is_given_stays() -> None:
    make = choice(OAK, "flat", "mm")
    found = fit(make, F(400), F(300), F(4), Timbers(), "panel")
    assert found.lip == 4
    assert found.wide.widest == 400 + 8 - F(3, 2)
    assert stands_in(found.wide, F(400), F(4), "pins") < 3


# -- kept in the middle, or not


@pytest.mark.parametrize("held", ["pins", "spacers"])
def test_what_is_kept_in_the_middle_has_the_same_in_both_grooves(held: str) -> None:
    make = choice(OAK, "flat", "in", held=held)
    found, lip = fitted(make, 24 * INCH, Timbers())
    stands = stands_in(found.wide, 24 * INCH, lip, held)  # type: ignore[arg-type]
    assert stands == (found.wide.narrowest - 24 * INCH) / 2


def test_a_free_panel_may_slide_to_the_bottom_of_one_groove() -> None:
    make = choice(OAK, "flat", "in", held="free")
    found, lip = fitted(make, 24 * INCH, Timbers())
    # one edge at -lip, the other where the panel ends
    assert stands_in(found.wide, 24 * INCH, lip, "free") == (
        -lip + found.wide.narrowest - 24 * INCH
    )


@pytest.mark.parametrize("name", [OAK, "Maple, sugar", "European oak (Eiche)"])
def test_a_free_panel_s_grooves_are_deep_enough_where_it_has_slid_to_one_side(name: str) -> None:
    # README, `cover`: least that it stands in each groove at its narrowest; the depth is left open
    make = choice(name, "flat", "in", held="free")
    assert make.solid is not None
    for wide in (5, 12, 20, 30):
        found, lip = fitted(make, wide * INCH, Timbers())
        assert stands_in(found.wide, wide * INCH, lip, "free") >= make.solid.cover


# -- refused


def test_a_sheet_s_grooves_follow_no_year() -> None:
    make = FitChoice("plywood", F(6), Profile("plain", F(6)), F(2), where=HERE)
    found = fit(make, F(400), F(300), F(8), Timbers(), "panel")
    assert (found.wide.size, found.high.size, found.year) == (414, 314, None)
    assert found.wide.narrowest == found.wide.widest == 414
    assert found.wide.off == ((-1, "room to fit", 2),)
    with pytest.raises(BadPiece, match="how deep the panel goes into its seats is missing") as bad:
        lip_for(make, (F(400),), Timbers())
    assert (bad.value.where.line, bad.value.cure) == (7, "say how deep the grooves are")


@pytest.mark.parametrize(
    ("timber", "what", "cure"),
    [
        ("", "a solid panel's timber is not named", 'name it, e.g. timber = "white oak"'),
        ("qqqq", "there is no wood 'qqqq' in the tables",
         "see the tables; or give its figures under [[wood]]"),
    ],
)
def test_a_solid_panel_s_wood_must_be_known(timber: str, what: str, cure: str) -> None:
    with pytest.raises(BadPiece) as bad:
        lip_for(choice(timber, "flat", "mm"), (F(300),), Timbers())
    assert (bad.value.what, bad.value.cure, bad.value.where.line) == (what, cure, 7)


@pytest.mark.parametrize(("wide", "high"), [(10, 300), (300, 10)])
def test_room_that_leaves_nothing_is_refused(wide: int, high: int) -> None:
    solid = SolidChoice(F(3), F(31), "pins", F(10), F(1), "flat")
    make = FitChoice(OAK, F(10), Profile("plain", F(10)), F(31), "up", solid, HERE)
    # 10 + 2 x 10 - 31 is less than nothing
    with pytest.raises(BadPiece, match="the room to fit leaves nothing of the panel") as bad:
        fit(make, F(wide), F(high), F(10), Timbers(), "panel")
    assert bad.value.cure == "room is what the panel is cut smaller by; make it less"
    assert bad.value.where.line == 7
