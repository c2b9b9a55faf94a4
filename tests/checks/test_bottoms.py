"""Findings on bottoms and their grooves: at every limit; level, figures, cure.

The drawer of test_drawer: sides 12 thick and 98 high, groove 6 to 12 above the lower edge and 6
deep; bottom 384 x 326 x 6. The chest of test_chest: sides 100 high, front 12 and ends 14 thick,
groove 12 to 22, 6 deep. Least wood 5. A half pin left open is 10 at the baseline.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import SlipChoice
from layout.checks import bottoms as checked
from layout.mark import Finding
from layout.piece import Piece
from tests.builds.test_chest import base, chest, lid
from tests.builds.test_drawer import bottom, boxes, made, solid
from tests.joints.test_spacing import dovetails

F = Fraction
Told = tuple[str, tuple[tuple[str, Fraction], ...], str]
STOP_SHORT = 'write run = "stopped" under the bottom'


def found(p: Piece, rule: str) -> list[Finding]:
    return [one for one in checked.findings(p) if one.rule == rule]


def told(found_: list[Finding]) -> list[Told]:
    return [(one.level, one.figures, one.cure) for one in found_]


def of_drawer(rule: str, **changes: object) -> list[Finding]:
    return found(made(agreed=False, **changes)[0], rule)


def of_chest(rule: str, **changes: object) -> list[Finding]:
    return found(boxes(chests=(chest(**changes),)), rule)


def test_a_common_drawer_and_chest_are_told_where_the_groove_lies() -> None:
    p, _ = made()
    (one,) = checked.findings(p)
    assert (one.rule, one.level, one.parts, one.figures, one.cure) == (
        checked.INSIDE, "note", ("drawer-front",), (("from", 6), ("to", 12)), "",
    )
    assert "lies inside tail 1" in one.text
    (one,) = checked.findings(boxes(chests=(chest(bottom=base("groove")),)))
    assert (one.rule, one.level, one.parts, one.figures) == (
        checked.INSIDE, "note", ("chest-left-end", "chest-right-end"), (("from", 12), ("to", 22)),
    )
    assert checked.findings(boxes(chests=(chest(),))) == []


# -- inside a tail


def test_a_groove_that_crosses_the_half_pin_is_told_where_it_would_lie() -> None:
    # tails (98 - 16 - 6) / 2 = 38, at the baseline 10 to 44; 44 - 6 = 38
    (one,) = of_drawer(checked.INSIDE, bottom=bottom(up=F(4)))
    assert (one.level, one.parts, one.figures) == (
        "stop", ("drawer-front", "drawer-left-side", "drawer-right-side"),
        (("from", 4), ("to", 10)),
    )
    assert one.cure == f"{STOP_SHORT}; with its lower wall from 10 mm to 38 mm above the lower " \
        "edge it would lie inside tail 1; a narrower pin lets the half pin give way to it"
    assert "it crosses half pin 1 and would show" in one.text


def test_a_groove_that_crosses_a_pin_is_told_how_many_tails_would_hide_it() -> None:
    # 44 to 50: three tails of 70 / 3 have their middle one from 39 1/3 to 58 2/3 at the baseline
    (one,) = of_drawer(checked.INSIDE, bottom=bottom(up=F(44)))
    assert one.level == "stop"
    assert "crosses pin 1 and" in one.text
    assert one.cure.endswith("it would lie inside tail 1; with 3 tails it would lie inside one")


def test_pins_at_given_places_are_not_counted_anew() -> None:
    given = dovetails(lap=F(6), pins_at=(F(49),))
    (one,) = of_drawer(checked.INSIDE, bottom=bottom(up=F(44)), front_joint=given)
    assert one.level == "stop"
    assert one.cure.endswith("it would lie inside tail 1")


def test_a_groove_across_pin_and_half_pin_names_both() -> None:
    wide = bottom(thickness=F(50), up=F(4))
    (one,) = of_drawer(checked.INSIDE, bottom=wide)
    assert "crosses half pin 1 and pin 1 and would show" in one.text


def test_a_groove_that_stops_is_noted() -> None:
    (one,) = of_drawer(checked.INSIDE, bottom=bottom(up=F(4), run="stopped"))
    assert (one.level, one.parts, one.figures, one.cure) == (
        "note", ("drawer-front",), (("from", 4), ("to", 10)), "",
    )
    assert "crosses half pin 1; it stops short" in one.text


def test_half_tails_hide_a_groove_at_the_very_edge() -> None:
    halves = dovetails(lap=F(6), edges="half tails")
    (one,) = of_drawer(checked.INSIDE, bottom=bottom(up=F(1)), front_joint=halves)
    assert one.level == "note"


def test_through_dovetails_show_the_sides_groove() -> None:
    through = {"front": F(14), "front_joint": dovetails()}
    hidden, shown = of_drawer(checked.INSIDE, **through)
    assert hidden.level == "note"
    assert (shown.level, shown.parts, shown.figures) == (
        "caution", ("drawer-left-side", "drawer-right-side"), (("hole high", 6), ("hole wide", 6)),
    )
    assert shown.cure == f"{STOP_SHORT}, or slips = {{}}; or plug the holes"
    for hides in (bottom(run="stopped"), bottom(slips=SlipChoice(F(10), F(5)))):
        assert [one.level for one in of_drawer(checked.INSIDE, bottom=hides, **through)] == ["note"]


def test_a_chests_groove_run_through_shows_at_the_corners() -> None:
    hidden, shown = of_chest(checked.INSIDE, bottom=base("groove", run="through"))
    assert hidden.level == "note"
    assert (shown.level, shown.parts, shown.figures, shown.cure) == (
        "caution", ("chest-front", "chest-back"), (("hole high", 10), ("hole wide", 6)),
        f"{STOP_SHORT}, or plug the holes",
    )
    lapped = {"bottom": base("groove", run="through"), "joint": dovetails(lap=F(4))}
    assert [one.level for one in of_chest(checked.INSIDE, **lapped)] == ["note"]


def test_a_chests_groove_beside_a_tail_is_a_stop_where_it_runs_through() -> None:
    beside = base("groove", up=F(5), run="through")
    (one,) = of_chest(checked.INSIDE, bottom=beside, joint=dovetails(lap=F(4)))
    assert one.level == "stop"
    assert set(one.parts) == {"chest-left-end", "chest-right-end", "chest-front", "chest-back"}
    # tails 10 long slope 10/7: half pin 62/7 at the baseline, and (94 - 104/7) / 2 - 20/7 = 257/7
    # beyond it; to the half mm upward and downward, 10 wide
    assert one.cure == f"{STOP_SHORT}; with its lower wall from 9 mm to 35.5 mm above the lower " \
        "edge it would lie inside tail 1; a narrower pin lets the half pin give way to it"
    (one,) = of_chest(checked.INSIDE, bottom=beside._replace(run="stopped"))
    assert one.level == "note"


# -- wood round the groove


@pytest.mark.parametrize(("up", "expected"), [
    (5, []), (4, [("caution", (("wood", 4), ("least", 5)), "raise the groove")] * 3),
])
def test_wood_is_left_below_a_groove(up: int, expected: list[Told]) -> None:
    assert told(of_drawer(checked.WOOD, bottom=bottom(up=F(up)))) == expected


@pytest.mark.parametrize(("deep", "expected"), [
    (6, []),  # half of a side
    (7, [("caution", (("deep", 7), ("left", 5)),
          "make it at most half of the thickness, or use slips")] * 2),
    (12, [("caution", (("deep", 12), ("left", 8)),  # of the front's 20
           "make it at most half of the thickness, or use slips"),
          *[("stop", (("deep", 12), ("thickness", 12)), "make it less than 6 mm deep")] * 2]),
])
def test_wood_is_left_behind_a_groove(deep: int, expected: list[Told]) -> None:
    assert told(of_drawer(checked.WOOD, bottom=bottom(deep=F(deep)))) == expected


@pytest.mark.parametrize(("up", "count"), [("89.9", 0), ("90", 4)])
def test_a_groove_stays_below_the_upper_edge(up: str, count: int) -> None:
    found_ = of_chest(checked.WOOD, bottom=base("groove", up=F(up)))
    assert [(one.level, one.cure) for one in found_] == [
        ("stop", "lower the groove, or make it narrower"),
    ] * count


# -- the bottom itself


@pytest.mark.parametrize(("up", "level", "below"), [(7, None, None), (6, "caution", 0),
                                                    (5, "stop", 1)])
def test_a_bottom_hangs_no_lower_than_the_sides(
    up: int, level: str | None, below: int | None
) -> None:
    # 10 thick with a tongue of 4: 6 of it are below the groove
    thick = bottom(thickness=F(10), tongue=F(4), up=F(up))
    expected = [] if level is None else [
        (level, (("below the sides", below),),
         "raise the groove to more than 6 mm above the lower edge, or make the bottom thinner"),
    ]
    assert told(of_drawer(checked.BOTTOM, bottom=thick)) == expected


def test_a_solid_bottom_is_glued_in_front_only() -> None:
    (one,) = of_drawer(checked.BOTTOM, bottom=solid())
    assert (one.level, one.parts, one.figures) == (
        "note", ("drawer-bottom",), (("room to move", 3),),
    )
    assert of_drawer(checked.BOTTOM, bottom=bottom(kind="solid")) == []


@pytest.mark.parametrize(("room", "level", "held"), [
    ("5.9", None, None),
    ("6", "caution", "3"),  # half of the groove
    ("11.9", "caution", "0.05"),
    ("12", "stop", "0"),
])
@pytest.mark.parametrize("kind", ["drawer", "groove", "rabbet"])
def test_a_bottom_lies_in_its_seats(
    kind: str, room: str, level: str | None, held: str | None
) -> None:
    if kind == "drawer":
        found_ = of_drawer(checked.HELD, bottom=bottom(room=F(room)))
    else:
        found_ = of_chest(checked.HELD, bottom=base(kind, room=F(room)))
    expected = [] if held is None else [
        (level, (("room", F(room)), ("deep", 6), ("held", F(held))),
         "make the room less, or the seats deeper"),
    ]
    assert told(found_) == expected


@pytest.mark.parametrize(("changes", "expected"), [
    ({"many": 3, "wide": F("127.9")}, []),
    # 384 in three
    ({"many": 3, "wide": F(128)}, [("stop", (("slot", 128), ("bottom for each", 128)),
                                    "make them fewer or narrower")]),
    # half of the back and the play: 7 + 319 = 326
    ({"play": F("318.9")}, []),
    ({"play": F(319)}, [("stop", (("slot", 326), ("bottom", 326)), "make the play less")]),
])
def test_slots_end_inside_the_bottom(changes: dict[str, object], expected: list[Told]) -> None:
    assert told(of_drawer(checked.SLOTS, bottom=solid(**changes))) == expected


@pytest.mark.parametrize(("above", "count"), [(86, 0), (87, 1)])
def test_slips_are_no_higher_than_the_sides(above: int, count: int) -> None:
    found_ = of_drawer(checked.HELD, bottom=bottom(slips=SlipChoice(F(10), F(above))))
    assert told(found_) == [
        ("stop", (("slip", 99), ("side", 98)),
         "leave less wood above the groove, or lower the groove"),
    ] * count


@pytest.mark.parametrize(("deep", "stops"), [(9, []), (10, ["chest-bottom"]),
                                            (15, ["chest-bottom", "chest-lid"])])
def test_rabbets_leave_something_of_bottoms_and_lids(deep: int, stops: list[str]) -> None:
    found_ = of_chest(checked.BOTTOM, bottom=base("rabbeted", deep=F(deep)),
                      lid=lid("rabbeted", deep=F(deep)))
    assert [(one.level, one.parts, one.figures, one.cure) for one in found_] == [
        ("stop", (part,), (("deep", deep), ("thickness", 10 if "bottom" in part else 15)),
         "make it shallower") for part in stops
    ]


@pytest.mark.parametrize(("room", "count"), [("275.9", 0), ("276", 2)])
def test_tongues_leave_something_to_stand_in_the_box(room: str, count: int) -> None:
    # 300 - 24 inside
    found_ = of_chest(checked.HELD, bottom=base("rabbeted", room=F(room)),
                      lid=lid("rabbeted", room=F(room)))
    assert told(found_) == [
        ("stop", (("room", 276), ("inside", 276)), "make the room less"),
    ] * count
