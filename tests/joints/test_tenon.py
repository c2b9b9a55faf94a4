"""Tenon sizes, cuts and marks against sums that a person can check."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.joints.tenon import SeatInRail, sizes
from layout.kit import Kit, chisel_for, usual_kit
from layout.mark import Cut
from layout.piece import Piece
from tests.pieces import frame, inch, low_rail, panel, piece, rail, seat, tenon

BACK_RABBET = SeatInRail("rabbet", "far edge", inch("7/8"), inch("3/8"))


def front_rail(p: Piece):  # type: ignore[no-untyped-def]
    return next(r for r in p.rails if r.rail.part.id == "front-rail")


def cut(p: Piece, part: str, joint: str, role: str) -> Cut:
    return next(c for c in p.cuts if c.key == (part, joint, role))


def test_worked_example() -> None:
    # 1 1/8 - 1/4 = 7/8 in front; (7/8 - 3/8)/2 = 1/4 outer; 1 1/8 - 1/4 - 3/8 = 1/2 inner
    p = piece(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    size = front_rail(p).size
    assert size.wood == inch("7/8")
    assert size.outer == inch("1/4")
    assert size.inner == inch("1/2")
    assert front_rail(p).rail.part.length == inch("45 1/2")
    assert size.depth == inch("1 3/8")


@pytest.mark.parametrize(("set_in", "near", "far"), [("0", "1/4", "5/8"), ("1/8", "3/8", "3/4")])
def test_gauge_stands_on_rail_and_leg(set_in: str, near: str, far: str) -> None:
    p = piece(
        frame(rail(set_in=inch(set_in)), low_rail(set_in=inch(set_in))),
        panel(seat(), "front under rail"),
    )
    rail_pairs = {m.pair for m in p.marks_of("front-rail") if m.role.endswith("cheek")}
    leg_pairs = {m.pair for m in p.marks_of("front-left-leg") if m.role.endswith("wall")}
    assert rail_pairs == {(inch("1/4"), inch("5/8"))}
    assert leg_pairs == {(inch(near), inch(far))}


def test_mortise_stands_where_the_tenon_enters() -> None:
    p = piece(frame(rail(tenon=tenon(top_shoulder=inch("1/2"), bottom_shoulder=inch(0)))))
    mortise = cut(p, "front-left-leg", "front-rail.A", "mortise").shape
    # from the leg's top: 1/2 to 4; entered from the far edge, 1 3/8 deep in a leg 2 1/2 wide
    assert mortise.reach("L") == (inch("1/2"), inch(4))
    assert mortise.reach("W") == (inch("1 1/8"), inch("2 1/2"))
    # no seat: centred in 1 1/8, 3/8 + 3/8 + 3/8
    assert mortise.reach("T") == (inch("3/8"), inch("3/4"))


def test_rail_above_the_floor() -> None:
    p = piece(frame(low_rail()))
    mortise = cut(p, "front-left-leg", "front-low rail.A".replace(" ", "-"), "mortise").shape
    # leg 30 - 6 above the floor - 4 wide = 20 to the rail's top edge, shoulders 1/4
    assert mortise.reach("L") == (inch("20 1/4"), inch("23 3/4"))


def test_rabbet_run_through_makes_a_long_back_shoulder() -> None:
    p = piece(
        frame(rail(), low_rail()), panel(seat(run="through"), "front under rail")
    )
    one = front_rail(p)
    assert (one.size.long_by, one.size.long_from) == (inch("3/8"), inch("7/8"))
    waste = cut(p, "front-rail", "front-rail.A", "long shoulder waste A").shape
    assert waste.reach("L") == (0, inch("7/8"))  # 1 1/4 tenon less 3/8 lip
    back = {m.distance for m in p.marks_of("front-rail") if m.role == "long shoulder"}
    assert back == {inch("7/8"), inch("44 5/8")}
    total = next(s.total for s in p.sums if s.name == "back shoulder distance")
    assert total == inch("43 3/4")  # 43 + 2 x 3/8


def test_given_outer_shoulder_counts() -> None:
    size = sizes(
        tenon(outer_shoulder=inch("3/16")), piece(frame(rail())).part("front-rail"),
        (BACK_RABBET,), usual_kit("in"),
    )
    assert (size.outer, size.inner) == (inch("3/16"), inch("9/16"))


def test_groove_widens_the_shoulder_left_open() -> None:
    part = piece(frame(rail())).part("front-rail")
    groove = SeatInRail("groove", "far edge", inch("7/16"), inch("1/2"))
    size = sizes(tenon(), part, (groove,), usual_kit("in"))
    assert (size.top, size.bottom, size.width) == (inch("1/4"), inch("1/2"), inch("3 1/4"))
    given_one = sizes(tenon(bottom_shoulder=inch("1/8")), part, (groove,), usual_kit("in"))
    assert given_one.bottom == inch("1/8")


# Griffith, Correlated Courses, 1912, Plate 1: 1 in stock, 3/8 tenon (nearest chisel above a
# third); Ross, Elementary Course in Woodwork, 1901, Fig. 87: 1 1/8 divides in three 3/8;
# Mission Furniture, Part 1, 1909, Plant Stand: 3/4 rail, 1/4 tenon.
@pytest.mark.parametrize(("stock", "chisel"), [("1", "3/8"), ("1 1/8", "3/8"), ("3/4", "1/4")])
def test_chisel_nearest_a_third(stock: str, chisel: str) -> None:
    plain = Kit(tuple(inch(w) for w in ("1/4", "3/8", "1/2", "3/4")))
    assert chisel_for(inch(stock), plain) == inch(chisel)


@given(st.fractions(Fraction(5), Fraction(100), max_denominator=64))
def test_no_chisel_is_nearer_a_third(stock: Fraction) -> None:
    kit = usual_kit("in")
    chosen = chisel_for(stock, kit)
    assert chosen in kit.chisels
    assert all(abs(chosen - stock / 3) <= abs(other - stock / 3) for other in kit.chisels)


@given(
    st.fractions(Fraction(10), Fraction(60), max_denominator=32),
    st.fractions(Fraction(3), Fraction(20), max_denominator=32),
    st.fractions(Fraction(0), Fraction(9), max_denominator=32),
)
def test_shoulders_and_tenon_fill_the_rail(
    thickness: Fraction, tenon_thickness: Fraction, rabbet: Fraction
) -> None:
    part = piece(frame(rail(thickness=thickness))).part("front-rail")
    seat_in = SeatInRail("rabbet", "edge", thickness - rabbet, Fraction(5))
    size = sizes(tenon(thickness=tenon_thickness), part, (seat_in,), usual_kit("in"))
    assert size.outer + size.thickness + size.inner == thickness
    # centred: the same wood in front of the tenon as between it and the rabbet
    assert size.outer == size.wood - size.outer - size.thickness


def marks(p: Piece, face: str, role: str) -> list[tuple[Fraction, Fraction, Fraction]]:
    """Knife lines on the rail: where along it, from, to."""
    found = []
    for m in p.marks_of("front-rail"):
        if m.face == face and m.role == role and m.joint == "front-rail.A":
            assert m.line is not None
            found.append((m.line[0][0], m.line[0][1], m.line[1][1]))
    return sorted(found)


def test_shoulder_lines_on_the_edges_step_where_the_back_shoulder_is_longer() -> None:
    p = piece(frame(rail(), low_rail()), panel(seat(run="through"), "front under rail"))
    assert marks(p, "edge", "shoulder") == [(inch("1 1/4"), 0, inch("7/8"))]
    assert marks(p, "edge", "long shoulder") == [(inch("7/8"), inch("7/8"), inch("1 1/8"))]
    assert marks(p, "back", "long shoulder") == [(inch("7/8"), 0, inch(4))]


def test_a_tenon_without_a_shoulder_is_lined_beside_itself() -> None:
    bare = piece(frame(rail(tenon=tenon(outer_shoulder=Fraction(0)))))
    at = inch("1 1/4")
    assert marks(bare, "face", "shoulder") == [
        (at, 0, inch("1/4")), (at, inch("3 3/4"), inch(4))
    ]
    no_bottom = piece(frame(rail(tenon=tenon(bottom_shoulder=Fraction(0)))))
    assert marks(no_bottom, "far edge", "shoulder") == [
        (at, 0, inch("3/8")), (at, inch("3/4"), inch("1 1/8"))
    ]


def test_a_barefaced_tenon_takes_one_gauge_line() -> None:
    p = piece(frame(rail(tenon=tenon(outer_shoulder=Fraction(0)))))
    cheeks = [m for m in p.marks_of("front-rail") if m.role.endswith("cheek")]
    assert {(m.tool, m.distance, m.pair) for m in cheeks} == {
        ("marking gauge", inch("3/8"), None)
    }


def test_a_mortise_at_the_very_end_has_no_line_there() -> None:
    p = piece(frame(rail(tenon=tenon(top_shoulder=Fraction(0)))))
    assert [m for m in p.marks_of("front-left-leg") if m.role == "mortise top"] == []
    assert all(m.distance > 0 for m in p.marks)


def test_a_rail_beside_a_rabbet_run_through_keeps_its_tenon_before_it() -> None:
    # three rails, a panel between the upper two, its rabbet run from end to end of the legs
    middle = rail("middle", below_top=inch(12))
    p = piece(
        frame(rail(), middle, low_rail()), panel(seat(run="through"), "front under rail")
    )
    lowest = next(r for r in p.rails if r.rail.part.id == "front-low-rail")
    assert lowest.size.outer == inch("1/4")  # centred in 7/8, as the others
    assert lowest.size.long_by == inch("3/8")


def test_tenon_lines_on_the_back_end_at_its_own_shoulder() -> None:
    p = piece(frame(rail(), low_rail()), panel(seat(run="through"), "front under rail"))
    ends = {
        m.line[1][0]
        for m in p.marks_of("front-rail")
        if m.line and m.face == "back" and m.role == "tenon top" and m.joint == "front-rail.A"
    }
    assert ends == {inch("7/8")}
