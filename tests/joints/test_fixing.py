"""Buttons in mortises and screws in slots, one at a time, on a rail by itself. In mm.

A rail 1000 long, 90 wide and 28 thick stands at the front, its face in front: L to the right, W
down, T inward. The top moves in and out over it, or along it where `along` is said. A button is 63
long, 25 wide and 20 thick, its tongue 10 thick; 1 of draw, 6 to stay in its mortise, 1 of room.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.joints.fixing import (
    ButtonChoice,
    Fixed,
    ScrewChoice,
    in_and_out,
    mortise_length,
    mortise_span,
    screw_slot,
    seat_of,
    tongue_for,
    work_button,
    work_screw,
)
from layout.joints.slot import Slot
from layout.joints.worked import Worked
from layout.mark import Cut, Mark
from layout.part import Part, Placement

F = Fraction
RAIL = Part("rail", "front rail", "rail", F(1000), F(90), F(28),
            Placement((F(0), F(0), F(800)), "+X", "-Z", "+Y"))
BUTTON = ButtonChoice(F(63), F(25), F(20), F(10), F(13), F(1), F(6), F(1))
SCREW = ScrewChoice(F(5), F(12), F(25), F(1))
moves = st.integers(0, 90).map(lambda n: F(n, 10))
ways = st.sampled_from([+1, -1])


def fixed(out: Fraction | int = 0, back: Fraction | int = 0, along: bool = False,
          outward: int = +1, place: int = 300) -> Fixed:
    away = F(0) if not out and not back else F(100)
    return Fixed(RAIL, 2, F(place), away, F(out), F(back), along, outward)


def button(length: int = 63) -> Part:
    return Part("button", "top button 1", "top button", F(length), F(25), F(20),
                Placement((F(0),) * 3, "+X", "+Y", "+Z"))


def cut(done: Worked, role: str) -> Cut:
    (found,) = [one for one in done.cuts if one.role == role]
    return found


def reach(one: Cut) -> tuple[tuple[Fraction, Fraction], ...]:
    return (one.shape.reach("L"), one.shape.reach("W"), one.shape.reach("T"))


def marks(done: Worked, part: str, face: str) -> dict[str, Mark]:
    return {one.role: one for one in done.marks if (one.part, one.face) == (part, face)}


# -- buttons


def test_a_button_on_the_held_line() -> None:
    one = fixed()
    assert in_and_out(one) == (0, 0)
    assert seat_of(one, BUTTON, F(13)) == (1, 13, 13)
    assert tongue_for(one, BUTTON) == 1 + 6
    done = work_button(one, button(), BUTTON, seat_of(one, BUTTON, F(13)))
    # 25 and 1 at each side; 1 and 10 down to the upper wall, 10 and 1 more to the lower
    assert reach(cut(done, "button mortise 2")) == (
        (300 - F(27, 2), 300 + F(27, 2)), (11, 22), (15, 28))
    assert reach(cut(done, "button waste")) == ((0, 13), (0, 25), (0, 10))


@pytest.mark.parametrize(
    ("outward", "toward", "from_it"), [(+1, 2, 5), (-1, 5, 2)], ids=["inward", "outward"]
)
def test_a_tongue_that_slides_in_and_out(outward: int, toward: int, from_it: int) -> None:
    # out by 5 and back by 2: toward the rail's outside by what comes that way
    one = fixed(5, 2, outward=outward)
    assert in_and_out(one) == (toward, from_it)
    # the gap, what it draws out, and 6 in the mortise
    assert tongue_for(one, BUTTON) == toward + 1 + from_it + 6
    seat = seat_of(one, BUTTON, F(20))
    assert seat == (toward + 1, 20, 20)
    # along the rail it does not move
    assert mortise_span(one, BUTTON) == (300 - F(27, 2), 300 + F(27, 2))


@pytest.mark.parametrize(("outward", "span"), [(+1, (2, 5)), (-1, (5, 2))])
def test_a_button_that_slides_along(outward: int, span: tuple[int, int]) -> None:
    one = fixed(5, 2, along=True, outward=outward)
    assert seat_of(one, BUTTON, F(13)) == (1, 13, 13)
    assert tongue_for(one, BUTTON) == 7
    low, high = mortise_span(one, BUTTON)
    assert (300 - low, high - 300) == (F(27, 2) + span[0], F(27, 2) + span[1])
    assert mortise_length(one, BUTTON) == (
        (+1, "width of the button", 25), (+1, "swelling, from today to the wettest", 5),
        (+1, "shrinking, from today to the driest", 2), (+1, "room at both ends", 2),
    )


@settings(max_examples=150, deadline=None)
@given(moves, moves, st.booleans(), ways, st.integers(0, 30))
def test_all_year_the_tongue_stays_in_and_touches_nothing(
    out: Fraction, back: Fraction, along: bool, outward: int, more: int
) -> None:
    one = fixed(out, back, along, outward)
    tongue = max(F(13), tongue_for(one, BUTTON)) + more
    seat = seat_of(one, BUTTON, tongue)
    done = work_button(one, button(120), BUTTON, seat)
    (low, high), _, (bottom, mouth) = reach(cut(done, "button mortise 2"))
    assert mouth == 28
    # today the shoulder stands `gap` before the rail's inner side
    shoulder = 28 + seat.gap
    tip = shoulder - tongue
    for move in (-back, F(0), out):
        away = F(0) if along else outward * move
        beside = outward * move if along else F(0)
        assert tip + away >= bottom + BUTTON.room
        assert shoulder + away >= 28 + BUTTON.room
        assert 28 - (tip + away) >= BUTTON.cover
        assert low + BUTTON.room <= 300 - F(25, 2) + beside
        assert 300 + F(25, 2) + beside <= high - BUTTON.room
    # and a shorter mortise would not do
    ends = sorted(outward * move if along else F(0) for move in (-back, out))
    assert (low, high) == (300 - F(27, 2) + ends[0], 300 + F(27, 2) + ends[1])
    for told in done.sums:
        assert sum(term.sign * term.value for term in told.terms) == told.total
    totals = {told.name: told.total for told in done.sums}
    assert totals == {
        "upper wall of the button mortise": 11, "length of the button mortise": high - low,
        "depth of the button mortise": 28 - bottom, "gap before the button's shoulder": seat.gap,
    }


def test_a_button_is_drawn_up() -> None:
    # today its block is 1 below the top and the tongue bears on the upper wall: 1 + 20 - 10 = 11
    done = work_button(fixed(), button(), BUTTON, seat_of(fixed(), BUTTON, F(13)))
    upper = cut(done, "button mortise 2").shape.reach("W")[0]
    waste = cut(done, "button waste").shape.reach("T")[1]
    assert upper == BUTTON.draw + waste
    lower = cut(done, "button mortise 2").shape.reach("W")[1]
    assert lower - upper == BUTTON.tongue + BUTTON.room


def test_what_is_struck_for_a_button() -> None:
    one = fixed(5, 2, along=True)
    done = work_button(one, button(), BUTTON, seat_of(one, BUTTON, F(13)))
    back = marks(done, "rail", "back")
    low, high = mortise_span(one, BUTTON)
    assert {role: (each.tool, each.source, each.distance) for role, each in back.items()} == {
        "upper wall of button mortise 2": ("marking gauge", "face edge", 11),
        "lower wall of button mortise 2": ("marking gauge", "face edge", 22),
        "button 2, near end": ("knife", "end A", low),
        "button 2, far end": ("knife", "end A", high),
    }
    assert back["upper wall of button mortise 2"].line == ((low, 11), (high, 11))
    assert back["button 2, far end"].line == ((high, 11), (high, 22))
    (shoulder,) = marks(done, "button", "face").values()
    assert (shoulder.role, shoulder.tool, shoulder.source, shoulder.distance) == (
        "button shoulder", "knife", "end A", 13)
    (side,) = marks(done, "button", "end A").values()
    assert (side.role, side.source, side.distance) == (
        "upper side of the button's tongue", "face side", 10)


# -- screws


def test_a_screw_on_the_held_line() -> None:
    done = work_screw(fixed(), SCREW)
    assert [one.role for one in done.cuts] == ["screw slot 2", "counterbore 2"]
    assert reach(cut(done, "screw slot 2")) == (
        (300 - F(5, 2), 300 + F(5, 2)), (0, 25), (14 - F(5, 2), 14 + F(5, 2)))
    assert reach(cut(done, "counterbore 2")) == ((294, 306), (25, 90), (8, 20))
    (told,) = done.sums
    assert (told.total, told.name) == (5, "length of screw slot 2")


@pytest.mark.parametrize("along", [True, False])
@pytest.mark.parametrize("outward", [+1, -1])
def test_a_screw_s_slot_lies_the_way_the_top_moves(along: bool, outward: int) -> None:
    done = work_screw(fixed(5, 2, along, outward), SCREW)
    at, axis, other = (300, "L", "T") if along else (14, "T", "L")
    sides = (2, 5) if outward > 0 else (5, 2)
    for role, half in (("screw slot 2", F(5, 2)), ("counterbore 2", F(6))):
        ends = [one for one in done.cuts if one.role.startswith(role)]
        assert len(ends) == 3
        low = min(one.shape.reach(axis)[0] for one in ends)  # type: ignore[arg-type]
        high = max(one.shape.reach(axis)[1] for one in ends)  # type: ignore[arg-type]
        assert (at - low, high - at) == (half + sides[0] + 1, half + sides[1] + 1)
        beside = 14 if along else 300
        assert {one.shape.reach(other) for one in ends} == {  # type: ignore[arg-type]
            (beside - half, beside + half)}
    (told,) = done.sums
    assert told.total == 5 + 5 + 2 + 2


@settings(max_examples=100, deadline=None)
@given(moves, moves, st.booleans(), ways, st.integers(4, 24))
def test_the_screw_has_its_room_all_year(
    out: Fraction, back: Fraction, along: bool, outward: int, from_face: int
) -> None:
    one = fixed(out, back, along, outward)
    choice = SCREW._replace(from_face=F(from_face))
    done = work_screw(one, choice)
    at, axis = (F(300), "L") if along else (F(from_face), "T")
    for role, half in (("screw slot 2", F(5, 2)), ("counterbore 2", F(6))):
        ends = [each for each in done.cuts if each.role.startswith(role)]
        low = min(each.shape.reach(axis)[0] for each in ends)  # type: ignore[arg-type]
        high = max(each.shape.reach(axis)[1] for each in ends)  # type: ignore[arg-type]
        room = 1 if one.away else 0
        for move in (-back, F(0), out):
            assert low + room <= at + outward * move - half
            assert at + outward * move + half <= high - room


def test_a_rail_that_is_no_deeper_than_the_wood_under_the_head() -> None:
    done = work_screw(fixed(5, 2), SCREW._replace(under=F(120)))
    assert {one.role for one in done.cuts} == {
        "screw slot 2, one end", "screw slot 2, other end", "screw slot 2, between"}
    assert {one.shape.reach("W") for one in done.cuts} == {(0, 90)}


def test_what_is_bored_for_a_screw() -> None:
    done = work_screw(fixed(5, 2), SCREW)
    told = marks(done, "rail", "far edge")
    assert {role: (each.point, each.diameter) for role, each in told.items()} == {
        "screw slot 2, one end": ((300, 14 - 2 - 1), 5),
        "screw slot 2, other end": ((300, 14 + 5 + 1), 5),
        "counterbore 2, one end": ((300, 14 - 2 - 1), 12),
        "counterbore 2, other end": ((300, 14 + 5 + 1), 12),
    }
    assert {one.tool for one in told.values()} == {"bit"}


def test_a_slot_for_the_head_is_as_much_longer() -> None:
    one = fixed(5, 2)
    assert screw_slot(one, SCREW, SCREW.hole) == Slot(F(5), F(5), F(2), F(1))
    assert screw_slot(one, SCREW, SCREW.head).length - SCREW.head == (
        screw_slot(one, SCREW, SCREW.hole).length - SCREW.hole)
    assert SCREW.through(RAIL) == 14
    assert SCREW._replace(from_face=F(9)).through(RAIL) == 9
