"""Slots: a hole made long so that what goes through it can follow the wood. In mm.

What is tried here is the slot that the cuts make, its width and its two ends, and where a screw is
that lies `away` from the held line when the wood is a share larger or smaller than today.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, box, unary_union

from layout.joints.slot import Slot, slot_cuts, slot_for
from layout.mark import Cut, Cylinder, Hull
from layout.part import Axis, Part, Placement

F = Fraction
PART = Part("rail", "rail", "rail", F(1000), F(90), F(40), Placement((F(0),) * 3, "+X", "-Z", "+Y"))
shares = st.integers(0, 60).map(lambda n: F(n, 1000))


def cuts(slot: Slot, outward: int, along: Axis = "T") -> list[Cut]:
    """A slot whose screw stands today at L 300, in the middle of the thickness, 20."""
    centre: dict[Axis, Fraction] = {"L": F(300), "W": F(0), "T": F(20)}
    return list(slot_cuts(PART, "rail.top", "slot", "W", along, centre, slot, outward,
                          (F(0), F(25))))


def seen(some: list[Cut]):  # type: ignore[no-untyped-def]
    """The slot seen along its bore: across is L, up is T."""
    shapes = []
    for one in some:
        if isinstance(one.shape, Cylinder):
            shapes.append(Point(*map(float, one.shape.centre)).buffer(
                float(one.shape.radius), quad_segs=64))
        else:
            (a, b), (c, d) = one.shape.reach("L"), one.shape.reach("T")
            shapes.append(box(float(a), float(c), float(b), float(d)))
    return unary_union(shapes)


def test_by_hand() -> None:
    # 250 from the held line; 1 % wider and 2/5 % narrower at the most: 2 1/2 out and 1 back
    slot = slot_for(F(5), F(250), F(1, 100), -F(4, 1000), F(1))
    assert slot == Slot(F(5), F(5, 2), F(1), F(1))
    assert slot.length == 5 + F(5, 2) + 1 + 2
    assert slot.terms == (
        (+1, "hole", F(5)), (+1, "swelling, from today to the wettest", F(5, 2)),
        (+1, "shrinking, from today to the driest", F(1)), (+1, "room at both ends", F(2)),
    )
    one, other, between = cuts(slot, +1)
    assert [each.role for each in (one, other, between)] == [
        "slot, one end", "slot, other end", "slot, between"]
    assert isinstance(one.shape, Cylinder)
    assert isinstance(other.shape, Cylinder)
    assert isinstance(between.shape, Hull)
    # back by 1 and the room, out by 2 1/2 and the room
    assert (one.shape.centre, other.shape.centre) == ((300, 18), (300, F(47, 2)))
    assert between.shape.reach("T") == (18, F(47, 2))
    assert between.shape.reach("L") == (300 - F(5, 2), 300 + F(5, 2))
    assert {each.shape.reach("W") for each in (one, other, between)} == {(0, 25)}
    # where outward is toward the face, it is the other way round
    one, other, _ = cuts(slot, -1)
    assert (one.shape.reach("T")[0], other.shape.reach("T")[1]) == (
        20 - F(5, 2) - 1 - F(5, 2), 20 + 1 + 1 + F(5, 2))


def test_on_the_held_line_a_hole_is_round() -> None:
    slot = slot_for(F(5), F(0), F(1, 100), -F(1, 100), F(3))
    assert (slot.length, slot.terms) == (5, ((+1, "hole", F(5)),))
    (one,) = cuts(slot, +1)
    assert one.role == "slot"
    assert isinstance(one.shape, Cylinder)
    assert (one.shape.centre, one.shape.radius) == ((300, 20), F(5, 2))


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 800), shares, shares, st.integers(0, 3), st.integers(3, 14))
def test_the_terms_are_the_length(
    away: int, most: Fraction, least: Fraction, room: int, size: int
) -> None:
    slot = slot_for(F(size), F(away), most, -least, F(room))
    assert sum(sign * value for sign, _, value in slot.terms) == slot.length
    assert all(value > 0 for _, _, value in slot.terms)


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 800), shares, shares, st.integers(0, 3), st.integers(3, 14),
       st.sampled_from([+1, -1]), st.sampled_from(["L", "T"]), st.integers(0, 20))
def test_the_screw_always_has_its_room_and_the_slot_is_no_longer(
    away: int, most: Fraction, least: Fraction, room: int, size: int, outward: int, along: Axis,
    twentieths: int,
) -> None:
    slot = slot_for(F(size), F(outward * away), most, -least, F(room))
    some = cuts(slot, outward, along)
    low = min(one.shape.reach(along)[0] for one in some)
    high = max(one.shape.reach(along)[1] for one in some)
    today = F(300) if along == "L" else F(20)
    held = today - outward * away
    # in any season the screw lies as far from the held line as the wood between them is long
    share = -least + (most + least) * F(twentieths, 20)
    at = held + outward * away * (1 + share)
    assert low + room <= at - F(size, 2)
    assert at + F(size, 2) <= high - room
    # in the two outermost seasons there is just the room left
    ends = sorted(held + outward * away * (1 + share) for share in (-least, most))
    assert (low, high) == (ends[0] - F(size, 2) - room, ends[1] + F(size, 2) + room)
    assert high - low == slot.length


@pytest.mark.parametrize("along", ["L", "T"])
@pytest.mark.parametrize("outward", [+1, -1])
def test_the_shape_is_a_hole_moved_along(along: Axis, outward: int) -> None:
    slot = slot_for(F(6), F(400), F(1, 50), -F(1, 100), F(1))
    shape = seen(cuts(slot, outward, along))
    # a rectangle and two half circles (shapely's are of 256 corners)
    straight = float(slot.length - 6)
    assert shape.area == pytest.approx(straight * 6 + 3.14159265 * 9, rel=1e-3)
    for step in range(11):
        share = -0.01 + 0.03 * step / 10
        move = outward * 400 * share
        spot = Point(300 + move, 20) if along == "L" else Point(300, 20 + move)
        assert shape.contains(spot.buffer(2.999, quad_segs=64))
