"""The section of a rail's end: every stretch from surface to surface, in closed forms."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.errors import BadPiece
from layout.joints.choices import PairChoice, TenonChoice, TwinChoice
from layout.joints.section import (
    Rule,
    SeatInRail,
    Section,
    Stretch,
    as_milled,
    section,
)
from layout.kit import usual_kit
from tests.drawn import fractions
from tests.pieces import haunch, inch, inches, tenon

KIT = usual_kit("in")
RABBET = SeatInRail("rabbet", "far edge", inch("7/8"), inch("3/8"))
GROOVE = SeatInRail("groove", "far edge", inch("7/16"), inch("5/16"), inch("1/4"), True)
mm = fractions(Fraction(1), Fraction(40), 16)


def cut_across(
    choice: TenonChoice | None = None,
    width: str = "4",
    thickness: str = "1 1/8",
    seats: tuple[SeatInRail, ...] = (),
) -> Section:
    return section(choice or tenon(), inch(width), inch(thickness), seats, KIT)


def sizes(chain: tuple[Stretch, ...]) -> tuple[Fraction, ...]:
    return tuple(one.size for one in chain)


def names(chain: tuple[Stretch, ...]) -> list[str]:
    return [one.name for one in chain]


def rule_of(found: Section, name: str) -> Rule:
    (rule,) = [one for one in found.rules if one.name == name]
    return rule


def rules_hold(found: Section) -> None:
    """Every rule's terms add up to the stretch that it is the rule of."""
    for rule in found.rules:
        size = found.station(rule.axis, rule.stop) - found.station(rule.axis, rule.start)
        assert sum((sign * value for sign, _, value in rule.terms), Fraction(0)) == size, rule.name


# -- through the thickness


def test_a_single_tenon_in_the_middle() -> None:
    found = cut_across()
    # (1 1/8 - 3/8) / 2 on each side; 4 less 1/4 above and below
    assert sizes(found.depths) == inches("3/8 | 3/8 | 3/8")
    assert sizes(found.widths) == inches("1/4 | 3 1/2 | 1/4")
    assert [one.tenon for one in found.depths] == [False, True, False]
    assert [one.tenon for one in found.widths] == [False, True, False]
    assert names(found.depths) == ["outer shoulder", "tenon thickness", "inner shoulder"]
    assert names(found.widths) == ["top shoulder", "tenon width", "bottom shoulder"]
    assert (found.wood, found.share, found.long_by) == (inch("1 1/8"), "", 0)


def test_stations_spans_and_terms_count_from_the_reference_surfaces() -> None:
    found = cut_across(tenon(top_shoulder=inch("1/2"), outer_shoulder=inch("1/8")))
    assert [found.station("W", index) for index in range(4)] == list(inches("0|1/2|3 3/4|4"))
    assert [found.station("T", index) for index in range(4)] == list(inches("0|1/8|1/2|1 1/8"))
    assert found.spans("W") == (inches("1/2 | 3 3/4"),)
    assert found.spans("T") == (inches("1/8 | 1/2"),)
    assert found.terms("W", 0, 2) == (
        (+1, "top shoulder", inch("1/2")), (+1, "tenon width", inch("3 1/4")),
    )  # fmt: skip
    assert found.terms("T", 2, 3) == ((+1, "inner shoulder", inch("5/8")),)


def test_a_rabbet_moves_the_tenon_toward_the_face() -> None:
    # 7/8 in front of the rabbet: (7/8 - 3/8) / 2 = 1/4; 1 1/8 - 1/4 - 3/8 = 1/2 behind
    found = cut_across(seats=(RABBET,))
    assert found.wood == inch("7/8")
    assert sizes(found.depths) == inches("1/4 | 3/8 | 1/2")
    assert rule_of(found, "outer shoulder").terms == (
        (+1, "half of the wood in front of the seat", inch("7/16")),
        (-1, "half of the tenon thickness", inch("3/16")),
    )
    # of two rabbets the deeper one counts: (3/4 - 3/8) / 2 = 3/16
    deeper = RABBET._replace(edge="edge", start=inch("3/4"))
    assert sizes(cut_across(seats=(RABBET, deeper)).depths) == inches("3/16 | 3/8 | 9/16")
    assert sizes(cut_across(seats=(deeper, RABBET)).depths) == inches("3/16 | 3/8 | 9/16")


def test_a_rabbet_run_through_the_legs_takes_wood_as_one_in_the_rail_does() -> None:
    found = section(
        tenon(), inch(4), inch("1 1/8"), (), KIT, long_by=inch("3/8"), long_from=inch("7/8")
    )
    assert (found.wood, found.long_by, found.long_from) == inches("7/8 | 3/8 | 7/8")
    assert sizes(found.depths) == inches("1/4 | 3/8 | 1/2")


def test_a_shoulder_that_is_given_counts() -> None:
    outer = cut_across(tenon(outer_shoulder=inch("3/16")), seats=(RABBET,))
    assert sizes(outer.depths) == inches("3/16 | 3/8 | 9/16")
    assert [rule.name for rule in outer.rules if rule.axis == "T"] == ["inner shoulder"]
    # from behind: 1 1/8 - 1/4 - 3/8 = 1/2 before it, whatever a rabbet takes
    inner = cut_across(tenon(inner_shoulder=inch("1/4")), seats=(RABBET,))
    assert sizes(inner.depths) == inches("1/2 | 3/8 | 1/4")
    assert rule_of(inner, "outer shoulder").terms == (
        (+1, "rail thickness", inch("1 1/8")),
        (-1, "inner shoulder", inch("1/4")),
        (-1, "tenon thickness", inch("3/8")),
    )


@pytest.mark.parametrize(
    ("side", "depths"), [("face", "0 | 3/8 | 3/4"), ("back", "3/4 | 3/8 | 0")]
)
def test_barefaced(side: Literal["face", "back"], depths: str) -> None:
    found = cut_across(tenon(barefaced=side))
    assert sizes(found.depths) == inches(depths)
    rules_hold(found)


@pytest.mark.parametrize(
    # half of it, and the usual chisel nearest; of two equally near, the wider:
    # 1/2 itself; 5/8 itself; 9/16 between 1/2 and 5/8; 7/16 between 3/8 and 1/2; 3/8 itself
    ("stock", "chisel"),
    [("1", "1/2"), ("1 1/4", "5/8"), ("1 1/8", "5/8"), ("7/8", "1/2"), ("3/4", "3/8")],
)
@pytest.mark.parametrize("side", ["face", "back"])
def test_a_barefaced_tenon_is_half_as_thick_as_its_rail(
    side: Literal["face", "back"], stock: str, chisel: str
) -> None:
    found = cut_across(tenon(thickness=None, barefaced=side), thickness=stock)
    assert found.share == "bare_share"
    assert found.depths[1].size == inch(chisel)
    shoulder = inch(stock) - inch(chisel)
    there = found.depths[2] if side == "face" else found.depths[0]
    assert there.size == shoulder


@pytest.mark.parametrize(
    # a third is 3/8; 7/24 nearest 5/16 (1/48, against 1/24 to 1/4); 1/2; 1/4
    ("stock", "chisel"),
    [("1 1/8", "3/8"), ("7/8", "5/16"), ("1 1/2", "1/2"), ("3/4", "1/4")],
)
def test_a_tenon_left_open_is_a_third_as_thick_as_its_rail(stock: str, chisel: str) -> None:
    found = cut_across(tenon(thickness=None), thickness=stock)
    assert (found.share, found.depths[1].size) == ("tenon_share", inch(chisel))


def test_the_share_is_of_the_whole_rail_even_where_a_seat_takes_wood() -> None:
    # a third of 1 1/8, not of the 7/8 in front of the rabbet
    found = cut_across(tenon(thickness=None), seats=(RABBET,))
    assert sizes(found.depths) == inches("1/4 | 3/8 | 1/2")


# -- twins


def test_twins_with_nothing_said_are_as_far_apart_as_they_are_thick() -> None:
    # 1 1/4 / 5 = 1/4 for shoulder, tenon, gap, tenon, shoulder
    found = cut_across(tenon(thickness=None, twin=TwinChoice()), thickness="1 1/4")
    assert sizes(found.depths) == inches("1/4 | 1/4 | 1/4 | 1/4 | 1/4")
    assert found.share == "twin_share"
    assert [one.tenon for one in found.depths] == [False, True, False, True, False]
    assert names(found.depths) == [
        "outer shoulder", "tenon thickness", "gap between the twins", "tenon thickness",
        "inner shoulder",
    ]  # fmt: skip
    assert found.spans("T") == (inches("1/4 | 1/2"), inches("3/4 | 1"))


def test_twins_with_a_gap_of_their_own() -> None:
    # (2 - 2 x 3/8 - 1/2) / 2 = 3/8
    found = cut_across(tenon(twin=TwinChoice(inch("1/2"))), thickness="2")
    assert sizes(found.depths) == inches("3/8 | 3/8 | 1/2 | 3/8 | 3/8")
    assert rule_of(found, "outer shoulder").terms == (
        (+1, "half of the rail thickness", inch(1)),
        (-1, "half of the twins", inch("5/8")),
    )


@pytest.mark.parametrize(
    ("changes", "depths"),
    [
        # 2 - 2 x 3/8 - 1/2 = 3/4 is left for the shoulders
        ({"outer_shoulder": inch("1/4")}, "1/4 | 3/8 | 1/2 | 3/8 | 1/2"),
        ({"inner_shoulder": inch("1/4")}, "1/2 | 3/8 | 1/2 | 3/8 | 1/4"),
        ({"barefaced": "face"}, "0 | 3/8 | 1/2 | 3/8 | 3/4"),
        ({"barefaced": "back"}, "3/4 | 3/8 | 1/2 | 3/8 | 0"),
    ],
)
def test_twins_off_the_middle(changes: dict[str, object], depths: str) -> None:
    found = cut_across(tenon(twin=TwinChoice(inch("1/2")), **changes), thickness="2")
    assert sizes(found.depths) == inches(depths)
    rules_hold(found)


# -- across the width


def test_a_shoulder_left_open_is_at_least_as_wide_as_a_groove_is_deep() -> None:
    shallow, deep = GROOVE._replace(lip=inch("1/8")), GROOVE._replace(lip=inch("1/2"))
    assert sizes(cut_across(seats=(shallow,)).widths) == inches("1/4 | 3 1/2 | 1/4")
    assert sizes(cut_across(seats=(deep,)).widths) == inches("1/4 | 3 1/4 | 1/2")
    above = deep._replace(edge="edge")
    assert sizes(cut_across(seats=(above,)).widths) == inches("1/2 | 3 1/4 | 1/4")
    # one that was given stays, and so does one beside a rabbet
    own = cut_across(tenon(bottom_shoulder=inch("1/8")), seats=(deep,))
    assert own.widths[-1].size == inch("1/8")
    assert sizes(cut_across(seats=(RABBET,)).widths) == inches("1/4 | 3 1/2 | 1/4")


def test_a_pair_in_eighths_and_quarters() -> None:
    # 4 wide: an eighth, then thirds of the 3 that are left, an eighth
    found = cut_across(tenon(pair=PairChoice()))
    assert sizes(found.widths) == inches("1/2 | 1 | 1 | 1 | 1/2")
    assert [one.tenon for one in found.widths] == [False, True, False, True, False]
    assert names(found.widths) == [
        "top shoulder", "upper tenon width", "web", "lower tenon width", "bottom shoulder",
    ]  # fmt: skip
    assert rule_of(found, "top shoulder").terms == (
        (+1, "an eighth of the rail width", inch("1/2")),
    )
    assert rule_of(found, "web between the tenons").terms == (
        (+1, "a third of the rail width", inch("4/3")),
        (-1, "a third of the top shoulder", inch("1/6")),
        (-1, "a third of the bottom shoulder", inch("1/6")),
    )
    assert rule_of(found, "lower tenon width").terms == (
        (+1, "half of the rail width", inch(2)),
        (-1, "half of the top shoulder", inch("1/4")),
        (-1, "half of the bottom shoulder", inch("1/4")),
        (-1, "half of the web", inch("1/2")),
    )


def test_a_pair_with_a_web_and_shoulders_of_its_own() -> None:
    # 4 - 2 x 1/2 - 3/4 = 2 1/4, half of it each
    found = cut_across(tenon(pair=PairChoice(inch("3/4"))))
    assert sizes(found.widths) == inches("1/2 | 1 1/8 | 3/4 | 1 1/8 | 1/2")
    # 4 - 1/4 - 3/4 - 1 = 2
    own = tenon(
        pair=PairChoice(inch(1)), top_shoulder=inch("1/4"), bottom_shoulder=inch("3/4")
    )
    assert sizes(cut_across(own).widths) == inches("1/4 | 1 | 1 | 1 | 3/4")


def test_a_pair_clears_a_groove_deeper_than_an_eighth() -> None:
    deep = GROOVE._replace(lip=inch("5/8"))
    # 4 - 1/2 - 5/8 = 2 7/8, in thirds
    found = cut_across(tenon(pair=PairChoice()), seats=(deep,))
    third = inch("23/24")
    assert sizes(found.widths) == (inch("1/2"), third, third, third, inch("5/8"))
    level = GROOVE._replace(lip=inch("1/2"))
    assert sizes(cut_across(tenon(pair=PairChoice()), seats=(level,)).widths) == inches(
        "1/2 | 1 | 1 | 1 | 1/2"
    )
    # on a rail 1 wide an eighth is as deep as a groove of 1/8, and less than the usual 1/4
    small = GROOVE._replace(lip=inch("1/8"))
    assert sizes(cut_across(tenon(pair=PairChoice()), width="1", seats=(small,)).widths) == (
        inches("1/8 | 1/4 | 1/4 | 1/4 | 1/8")
    )


def test_the_tenons_of_a_rail_that_lies_flat_are_first_and_second() -> None:
    found = section(
        tenon(pair=PairChoice()), inch(4), inch("1 1/8"), (), KIT, row_names=("first", "second")
    )
    assert found.row_names == ("first", "second")
    assert names(found.widths)[1::2] == ["first tenon width", "second tenon width"]


@pytest.mark.parametrize(
    ("edge", "given_width", "pair", "widths"),
    [
        # a third of 3; the other shoulder 1/4
        ("edge", None, False, "1 | 1 3/4 | 1/4"),
        ("far edge", None, False, "1/4 | 1 3/4 | 1"),
        ("edge", "5/8", False, "5/8 | 2 1/8 | 1/4"),
        ("far edge", "5/8", False, "1/4 | 2 1/8 | 5/8"),
        # beside a pair a quarter of 3, an eighth at the other edge: 3 - 3/4 - 3/8 = 1 7/8
        ("edge", None, True, "3/4 | 5/8 | 5/8 | 5/8 | 3/8"),
        ("far edge", None, True, "3/8 | 5/8 | 5/8 | 5/8 | 3/4"),
        ("edge", "9/8", True, "9/8 | 1/2 | 1/2 | 1/2 | 3/8"),
    ],
)
def test_haunch_widths(
    edge: Literal["edge", "far edge"], given_width: str | None, pair: bool, widths: str
) -> None:
    wide = None if given_width is None else inch(given_width)
    choice = tenon(
        haunch=haunch(edge=edge, width=wide), pair=PairChoice() if pair else None
    )
    found = cut_across(choice, width="3")
    assert sizes(found.widths) == inches(widths)
    at = 0 if edge == "edge" else -1
    assert found.widths[at].name == "haunch"
    assert names(found.widths).count("haunch") == 1
    rules_hold(found)


def test_a_haunch_stands_where_a_shoulder_was_given() -> None:
    choice = tenon(haunch=haunch(), top_shoulder=inch("1/8"), bottom_shoulder=inch("1/2"))
    assert sizes(cut_across(choice, width="3").widths) == inches("1 | 1 1/2 | 1/2")


# -- haunches that fill a groove


def test_a_haunch_that_fills_a_groove_gives_the_tenon_its_thickness_and_place() -> None:
    choice = tenon(thickness=None, haunch=haunch(kind="groove"))
    found = cut_across(choice, width="3", seats=(GROOVE,))
    # groove 7/16 to 11/16 behind the face; 1 1/8 - 11/16 = 7/16
    assert sizes(found.depths) == inches("7/16 | 1/4 | 7/16")
    assert found.share == ""
    assert rule_of(found, "outer shoulder").terms == ((+1, "groove from the face", inch("7/16")),)
    off_middle = GROOVE._replace(start=inch("3/16"))
    moved = cut_across(choice, width="3", seats=(off_middle,))
    assert sizes(moved.depths) == inches("3/16 | 1/4 | 11/16")
    # said again, the groove's own width changes nothing
    same = cut_across(choice._replace(thickness=inch("1/4")), width="3", seats=(off_middle,))
    assert same.depths == moved.depths


def test_a_thickness_of_its_own_stays_in_the_middle() -> None:
    choice = tenon(haunch=haunch(kind="groove"))
    found = cut_across(choice, width="3", seats=(GROOVE._replace(start=inch("3/16")),))
    assert sizes(found.depths) == inches("3/8 | 3/8 | 3/8")


@pytest.mark.parametrize("seats", [(), (RABBET,), (GROOVE._replace(runs_out=False),)])
def test_no_groove_to_fill(seats: tuple[SeatInRail, ...]) -> None:
    with pytest.raises(BadPiece, match="no groove runs out") as caught:
        cut_across(tenon(haunch=haunch(kind="groove")), seats=seats)
    assert 'run_in_legs = "through"' in caught.value.cure


@pytest.mark.parametrize("kind", ["square", "sloped"])
def test_other_haunches_ask_for_no_groove(kind: Literal["square", "sloped"]) -> None:
    found = cut_across(tenon(haunch=haunch(kind=kind)), width="3", seats=(GROOVE,))
    assert sizes(found.depths) == inches("3/8 | 3/8 | 3/8")


# -- every combination


def combinations() -> list[TenonChoice]:
    """Every way of one or two tenons, shoulders open or given, and haunches."""
    found = []
    for thick, place, twin, pair, edge, shoulder in product(
        (None, inch("1/4")),
        ({}, {"outer_shoulder": inch("1/8")}, {"inner_shoulder": inch("1/8")},
         {"barefaced": "face"}, {"barefaced": "back"}),
        (None, TwinChoice(), TwinChoice(inch("3/16"))),
        (None, PairChoice(), PairChoice(inch("3/4"))),
        (None, "edge", "far edge"),
        (None, inch("3/8")),
    ):  # fmt: skip
        found.append(
            tenon(
                thickness=thick, twin=twin, pair=pair, bottom_shoulder=shoulder,
                haunch=None if edge is None else haunch(edge=edge), **place,
            )
        )
    return found


@pytest.mark.parametrize("seats", [(), (RABBET,), (GROOVE,)])
def test_stretches_fill_the_rail_and_rules_hold(seats: tuple[SeatInRail, ...]) -> None:
    for choice in combinations():
        found = cut_across(choice, thickness="1 1/2", seats=seats)
        assert sum(sizes(found.widths), Fraction(0)) == inch(4)
        assert sum(sizes(found.depths), Fraction(0)) == inch("1 1/2")
        assert len(found.spans("T")) == (2 if choice.twin else 1)
        assert len(found.spans("W")) == (2 if choice.pair else 1)
        rules_hold(found)


@given(mm, mm, mm)
@settings(deadline=None)
def test_a_tenon_left_to_itself_has_as_much_wood_before_it_as_behind(
    thickness: Fraction, tenon_thickness: Fraction, rabbet: Fraction
) -> None:
    seat = SeatInRail("rabbet", "edge", thickness - rabbet, Fraction(5))
    found = section(
        tenon(thickness=tenon_thickness), inch(4), thickness, (seat,), KIT
    )
    outer, standing, inner = sizes(found.depths)
    assert outer + standing + inner == thickness
    assert outer == found.wood - outer - standing


# -- as it came off the machines


def test_a_rail_as_drawn_keeps_its_section() -> None:
    nominal = cut_across()
    assert as_milled(nominal, inch(4), inch("1 1/8")) is nominal


def test_the_far_shoulders_take_up_what_the_machines_took() -> None:
    # 1/32 thinner and 1/16 narrower
    found = as_milled(cut_across(), inch("3 15/16"), inch("1 3/32"))
    assert sizes(found.widths) == inches("1/4 | 3 1/2 | 3/16")
    assert sizes(found.depths) == inches("3/8 | 3/8 | 11/32")
    assert found.wood == inch("1 3/32")
    assert rule_of(found, "inner shoulder").terms == (
        (+1, "rail thickness", inch("1 3/32")),
        (-1, "outer shoulder", inch("3/8")),
        (-1, "tenon thickness", inch("3/8")),
    )
    # the tenon's width was drawn on the rail as drawn
    assert rule_of(found, "tenon width").terms[0] == (+1, "rail width as drawn", inch(4))


def test_twins_and_pairs_keep_their_lines_on_a_rail_that_came_out_thinner() -> None:
    nominal = cut_across(
        tenon(twin=TwinChoice(inch("1/2")), pair=PairChoice(inch("3/4"))), thickness="2"
    )
    found = as_milled(nominal, inch("3 7/8"), inch("1 15/16"))
    assert sizes(found.depths) == inches("3/8 | 3/8 | 1/2 | 3/8 | 5/16")
    assert sizes(found.widths) == inches("1/2 | 1 1/8 | 3/4 | 1 1/8 | 3/8")


def test_a_rail_in_front_of_its_seat_has_the_wood_that_the_seat_leaves() -> None:
    nominal = cut_across(seats=(RABBET,))
    assert as_milled(nominal, inch(4), inch("1 1/16")).wood == inch("7/8")
    assert as_milled(nominal, inch(4), inch("3/4")).wood == inch("3/4")


def test_a_rail_that_came_out_thicker_has_the_more_wood() -> None:
    # no seat takes wood from it: all of it is there
    found = as_milled(cut_across(), inch(4), inch("1 3/16"))
    assert sizes(found.depths) == inches("3/8 | 3/8 | 7/16")
    assert found.wood == inch("1 3/16")


@given(
    st.sampled_from(combinations()),
    fractions(Fraction(-3), Fraction(3), 16),
    fractions(Fraction(-3), Fraction(3), 16),
)
@settings(deadline=None)
def test_every_line_but_the_last_stays_where_it_was_drawn(
    choice: TenonChoice, wider: Fraction, thicker: Fraction
) -> None:
    nominal = cut_across(choice, thickness="1 1/2")
    found = as_milled(nominal, inch(4) + wider, inch("1 1/2") + thicker)
    for axis, more in (("W", wider), ("T", thicker)):
        before, after = nominal.chain(axis), found.chain(axis)  # type: ignore[arg-type]
        assert after[:-1] == before[:-1]
        assert after[-1] == before[-1]._replace(size=before[-1].size + more)


@pytest.mark.parametrize(("width", "thickness"), [("3 15/16", "1 15/32"), ("4 1/16", "1 17/32")])
def test_rules_hold_on_a_rail_that_came_out_otherwise(width: str, thickness: str) -> None:
    for choice in combinations():
        rules_hold(as_milled(cut_across(choice, thickness="1 1/2"), inch(width), inch(thickness)))


@pytest.mark.parametrize(
    "choice",
    [tenon(), tenon(haunch=haunch()), tenon(pair=PairChoice()), tenon(twin=TwinChoice())],
)
def test_what_a_sum_calls_the_rail_s_size_is_its_size(choice: TenonChoice) -> None:
    """A term that names the rail's width or thickness, or a share of it, says which one: the
    one as drawn, or the one that came off the machines.
    """
    came_out = {"width": inch("3 15/16"), "thickness": inch("1 15/32")}
    drawn = {"width": inch(4), "thickness": inch("1 1/2")}
    shares = {"half of the ": 2, "a third of the ": 3, "a quarter of the ": 4,
              "an eighth of the ": 8}  # fmt: skip
    found = as_milled(cut_across(choice, thickness="1 1/2"), *came_out.values())
    tried = 0
    for rule in found.rules:
        for _, name, value in rule.terms:
            share = next((s for s in shares if name.startswith(s)), "")
            what = name.removeprefix(share)
            if not what.startswith("rail "):
                continue
            size = what.removeprefix("rail ").removesuffix(" as drawn")
            whole = (drawn if what.endswith(" as drawn") else came_out)[size]
            assert value == whole / shares.get(share, 1), (rule.name, name)
            tried += 1
    assert tried
