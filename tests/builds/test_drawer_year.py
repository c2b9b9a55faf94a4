"""Drawers through the year: made lower by what their wood will swell, stopped where they can't be
right, a solid bottom's slots judged by what it moves. In mm.

The space is 400 x 100 x 350 with 2 of room above, sides and front of flat-sawn white oak, which
moves 0.00365 of its width for each 1 % (Wood Handbook, FPL-GTR-190, 2010, Table 13-5); beech
(American) 0.00431.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import SlotChoice, Space
from layout.builds.drawer import most_swelling
from layout.checks import check, drawers
from layout.checks.sums import wrong
from layout.checks.words import said
from layout.mark import Finding
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.wood.moisture import Moisture, climate
from layout.wood.timber import TimberChoice, Timbers
from tests.builds.test_drawer import bottom, boxes, drawer

F = Fraction
OAK, BEECH = F("0.00365"), F("0.00431")


def year(now: int, dry: int, wet: int, *timbers: TimberChoice) -> Timbers:
    return Timbers(climate(*(Moisture(F(each)) for each in (now, dry, wet))), timbers)


def made(timbers: Timbers | None, **changes: object) -> Piece:
    usual = {"timber": "white oak", "side_timber": "white oak"}
    p = boxes(drawers=(drawer(**{**usual, **changes}),), timbers=timbers)
    assert wrong(p) == []
    return p


def found(p: Piece) -> list[Finding]:
    return [one for one in drawers.findings(p) if one.rule == drawers.FITS]


def told(p: Piece, level: str) -> list[dict[str, Fraction]]:
    return [dict(one.figures) for one in found(p) if one.level == level]


# -- how high it is made


def test_a_drawer_is_lower_by_what_it_will_swell() -> None:
    (one,) = made(year(8, 6, 12)).drawers
    # 98 high in the dampest season, 4 % from now
    assert one.height == 98 / (1 + 4 * OAK)
    assert one.height * (1 + 4 * OAK) == 100 - 2
    assert one.swells == 98 - one.height
    for part in (one.left, one.right, one.front):
        assert part.width == one.height


def test_without_a_climate_it_is_as_high_as_the_room_says() -> None:
    for timbers in (None, Timbers()):
        (one,) = made(timbers).drawers
        assert (one.height, one.swells) == (98, 0)


def test_wood_that_only_shrinks_leaves_the_height() -> None:
    (one,) = made(year(12, 6, 12)).drawers
    assert (one.height, one.swells) == (98, 0)
    # and so does a driest season that is still damper than today by nothing
    (one,) = made(year(9, 9, 9)).drawers
    assert one.height == 98


def test_the_wood_that_swells_more_decides() -> None:
    choice = drawer(timber="white oak", side_timber="beech, american")
    assert most_swelling(choice, year(8, 6, 12)) == 4 * BEECH
    assert most_swelling(choice._replace(timber="beech, american", side_timber="white oak"),
                         year(8, 6, 12)) == 4 * BEECH
    # quarter-sawn, as the maker says of the timber: 0.00180
    said_ = TimberChoice("white oak", None, "quarter")
    assert most_swelling(drawer(timber="white oak", side_timber="white oak"),
                         year(8, 6, 12, said_)) == 4 * F("0.00180")
    # today wetter than the climate says: only from there on
    own = TimberChoice("white oak", moisture=Moisture(F(11)))
    assert most_swelling(drawer(timber="white oak", side_timber="white oak"),
                         year(8, 6, 12, own)) == OAK


def test_woods_that_the_tables_don_t_have_swell_by_nothing() -> None:
    assert most_swelling(drawer(timber="qqqq", side_timber="qqqq"), year(8, 6, 12)) == 0
    assert most_swelling(drawer(timber="qqqq", side_timber="white oak"), year(8, 6, 12)) == 4 * OAK
    assert most_swelling(drawer(timber="white oak", side_timber="plywood"), None) == 0


def test_a_height_that_is_given_stays() -> None:
    (one,) = made(year(8, 6, 12), height=F(97)).drawers
    assert (one.height, one.swells) == (97, 0)


def test_the_room_s_note_says_how_much_of_it_is_the_year_s() -> None:
    p = made(year(8, 6, 12))
    (one,) = [each for each in found(p) if each.level == "note"]
    height = 98 / (1 + 4 * OAK)
    assert dict(one.figures) == {"room in width": 2, "room in height": 100 - height}
    assert said(p, 98 - height) in one.text
    assert "swell" in one.text
    (plain,) = [each for each in found(made(None)) if each.level == "note"]
    assert dict(plain.figures)["room in height"] == 2
    assert "not worked out" in plain.text


# -- a height that will bind


@pytest.mark.parametrize(
    ("height", "stops"),
    # 100 in the dampest season: 100 / 1.0146
    [(100 / (1 + 4 * OAK), 0), (100 / (1 + 4 * OAK) + F(1, 1000), 1), (F(99), 1), (F(90), 0)],
)
def test_a_given_height_that_will_bind_is_stopped(height: Fraction, stops: int) -> None:
    p = made(year(8, 6, 12), height=height)
    assert told(p, "stop") == stops * [
        {"height": height, "highest": height * (1 + 4 * OAK), "opening": 100}
    ]
    assert told(made(None, height=height), "stop") == []


def test_what_the_cure_takes_off_is_enough() -> None:
    p = made(year(8, 6, 12), height=F(99))
    (one,) = [each for each in found(p) if each.level == "stop"]
    off = 99 * (1 + 4 * OAK) - 100
    assert said(p, off) in one.cure
    assert told(made(year(8, 6, 12), height=99 - off), "stop") == []


# -- a solid bottom

SPACE = Space(F(400), F(100), F(350))


def solid(play: Fraction) -> dict[str, object]:
    """A solid bottom of white oak, its grain from side to side, in slots with so much play."""
    return {"space": SPACE, "bottom": bottom(
        kind="solid", thickness=F(10), tongue=F(6), timber="white oak",
        slots=SlotChoice(None, F(5), play, F(50)),
    )}


def test_a_solid_bottom_that_moves_more_than_its_slots_give() -> None:
    timbers = year(8, 6, 12)
    (one,) = made(timbers, **solid(F(9))).drawers
    # 4 % to the damp season is more than 2 % to the dry one
    moves = one.bottom.width * 4 * OAK
    assert 4 < moves < 6
    assert told(made(timbers, **solid(moves)), "caution") == []
    less = moves - F(1, 1000)
    p = made(timbers, **solid(less))
    assert told(p, "caution") == [{"moves": moves, "play": less}]
    (caution,) = [each for each in found(p) if each.level == "caution"]
    assert caution.parts == (one.bottom.id,)
    assert caution.cure


def test_the_dry_season_counts_where_it_is_farther_away() -> None:
    timbers = year(8, 6, 9)
    (one,) = made(timbers, **solid(F(9))).drawers
    moves = one.bottom.width * 2 * OAK
    assert told(made(timbers, **solid(moves)), "caution") == []
    assert told(made(timbers, **solid(moves - F(1, 1000))), "caution") == [
        {"moves": moves, "play": moves - F(1, 1000)}
    ]


def test_no_climate_no_word_on_the_slots() -> None:
    assert told(made(None, **solid(F(1, 10))), "caution") == []


def test_plywood_has_no_slots_to_judge() -> None:
    assert told(made(year(8, 6, 12)), "caution") == []


def test_a_bottom_of_an_unknown_wood_is_left_to_the_other_check() -> None:
    unknown = solid(F(1, 10))
    unknown["bottom"] = unknown["bottom"]._replace(timber="qqqq")  # type: ignore[attr-defined]
    assert told(made(year(8, 6, 12), **unknown), "caution") == []


@pytest.mark.parametrize("body", [
    "[[carcase]]\nwidth = 500\nheight = 400\ndepth = 300\nthickness = 18\n"
    'dovetails = { tails = 6 }\n[[drawer]]\nopenings = ["inside carcase"]\n',
    "[frame]\nlength = 500\ndepth = 400\nheight = 600\nleg = { width = 45, thickness = 45 }\n"
    '[[frame.rail]]\nname = "top rail"\nsides = ["front", "back", "left", "right"]\n'
    'top = "flush"\nwidth = 40\nthickness = 22\n'
    '[[frame.rail]]\nname = "low rail"\nsides = ["front", "back", "left", "right"]\n'
    'above_floor = 350\nwidth = 40\nthickness = 22\n'
    '[[drawer]]\nopenings = ["front under top rail"]\nrunners = {}\n',
], ids=["carcase", "frame"])
def test_the_parts_in_an_opening_confirm_what_is_left_for_swelling(body: str) -> None:
    head = 'piece = "x"\nunit = "mm"\ntimber = "white oak"\n'
    year = "[climate]\nnow = 9\ndry = 6\nwet = 12\n"
    p = work_out(piece_from(parse_toml(head + year + body, "p.toml")))
    assert p.drawers[0].swells > 0
    assert [one.text for one in check(p) if one.rule == "sums agree with the placed parts"
            and one.level != "note"] == []
