"""Pegs: how many, how thick, where in leg and tenon, how far the holes go.

The rail is 2 x 1 1/8 in, 4 in below the leg's top; its tenon is 3/8 in thick (3/8 to 3/4 behind the
face), 1 1/4 in long and 1 1/2 in wide (1/4 to 1 3/4 from the edge). A peg is 1/4 in: the drill
nearest two thirds of 3/8.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.joints.choices import PairChoice, PegChoice, TwinChoice
from layout.joints.peg import PegSizes, sizes
from layout.kit import Kit, usual_kit
from layout.piece import Piece
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    frame,
    hole,
    inch,
    inches,
    joint_of,
    low_rail,
    marks_of,
    rail,
    tenon,
    total,
)

KIT = usual_kit("in")
LONG = inch("45 1/2")


def pegged(pegs: PegChoice | None = None, side: str = "front", **changes: object) -> Piece:
    choice = tenon(pegs=pegs or PegChoice(), **changes)
    return agreed(frame(rail(sides=(side,), width=inch(2), below_top=inch(4), tenon=choice)))


# -- sizes


def test_what_is_left_open() -> None:
    # a quarter of the drill for the draw, one and a half from the shoulder, one past the mortise
    assert sizes(PegChoice(), inch("3/8"), inch("1 1/2"), KIT) == PegSizes(
        1, inch("1/4"), inch("3/8"), inch("1/16"), inch("1/4")
    )


def test_what_is_given() -> None:
    own = PegChoice(3, inch("3/16"), inch("1/2"), Fraction(0), inch("1/8"))
    assert sizes(own, inch("3/8"), inch("1 1/2"), KIT) == PegSizes(
        3, inch("3/16"), inch("1/2"), Fraction(0), inch("1/8")
    )


@pytest.mark.parametrize(
    ("width", "many"),
    # one serves six diameters: 6 x 1/4 = 1 1/2
    [("1/8", 1), ("1 1/2", 1), ("1 33/64", 2), ("3", 2), ("3 1/64", 3), ("4 1/2", 3), ("5", 4)],
)
def test_how_many(width: str, many: int) -> None:
    assert sizes(PegChoice(), inch("3/8"), inch(width), KIT).many == many


@pytest.mark.parametrize(
    ("thickness", "drill"),
    # two thirds: 1/6, 1/4, 9/32 (between 1/4 and 5/16: the larger), 1/3, 5/12, 1/2, 2/3
    [("1/4", "3/16"), ("3/8", "1/4"), ("27/64", "5/16"), ("1/2", "5/16"), ("5/8", "3/8"),
     ("3/4", "1/2"), ("1", "1/2")],
)  # fmt: skip
def test_how_thick(thickness: str, drill: str) -> None:
    assert sizes(PegChoice(), inch(thickness), inch(1), KIT).diameter == inch(drill)


@given(
    st.lists(st.integers(1, 40), min_size=1, max_size=6, unique=True),
    fractions(Fraction(3), Fraction(40), 8),
)
@settings(deadline=None)
def test_no_drill_of_the_maker_s_is_nearer(drills: list[int], thickness: Fraction) -> None:
    kit = Kit((), drills=tuple(map(Fraction, drills)))
    chosen = sizes(PegChoice(), thickness, Fraction(50), kit).diameter
    wanted = thickness * 2 / 3
    assert chosen in kit.drills
    assert all(abs(chosen - wanted) <= abs(other - wanted) for other in kit.drills)


# -- holes


@pytest.mark.parametrize(("end", "leg"), [("A", "front-left-leg"), ("B", "front-right-leg")])
def test_a_hole_in_the_leg(end: str, leg: str) -> None:
    p = pegged()
    bored = hole(p, leg, f"front-rail.{end}", "peg hole")
    # the middle of the tenon: 4 + 1/4 + 3/4 from the top; 3/8 from the shoulder, at 2 1/2
    assert (bored.axis, bored.centre) == ("T", inches("5 | 2 1/8"))
    assert bored.radius == inch("1/8")
    # from the face, through the mortise (to 3/4) and 1/4 past it
    assert (bored.start, bored.end) == (0, inch(1))


@pytest.mark.parametrize(("end", "at"), [("A", "15/16"), ("B", "44 9/16")])
def test_the_tenon_s_hole_lies_nearer_the_shoulder(end: str, at: str) -> None:
    p = pegged()
    bored = hole(p, "front-rail", f"front-rail.{end}", f"peg hole in the tenon {end}")
    # 1 1/4 - 3/8 + 1/16 from the tip
    assert (bored.axis, bored.centre) == ("T", (inch(at), inch(1)))
    assert (bored.radius, (bored.start, bored.end)) == (inch("1/8"), inches("3/8 | 3/4"))


@pytest.mark.parametrize("side", ["front", "back", "left", "right"])
@pytest.mark.parametrize("draw", ["0", "1/16", "1/8"])
def test_the_draw_pulls_every_shoulder_up(side: str, draw: str) -> None:
    """Where the parts stand, the tenon's hole is off the leg's toward the rail's middle."""
    p = pegged(PegChoice(draw=inch(draw)), side=side)
    along = 0 if side in ("front", "back") else 1
    middle = inch(24) if along == 0 else inch(12)
    for end in ("A", "B"):
        joint = joint_of(p, f"{side}-rail.{end}")
        places = []
        for part, role in (
            (joint.bearer, "peg hole"), (joint.rail, f"peg hole in the tenon {end}")
        ):  # fmt: skip
            bored = hole(p, part.id, joint.name, role)
            spot = list(bored.centre)
            spot.insert("LWT".index(bored.axis), bored.start)
            places.append(part.placement.to_piece((spot[0], spot[1], spot[2])))
        in_leg, in_tenon = places
        assert in_leg[2] == in_tenon[2]
        toward = 1 if in_leg[along] < middle else -1
        assert in_tenon[along] - in_leg[along] == toward * inch(draw)


def test_pegs_of_a_side_rail_are_driven_along_the_leg_s_width() -> None:
    p = pegged(side="left")
    bored = hole(p, "front-left-leg", "left-rail.B", "peg hole")
    # centre in L and T
    assert (bored.axis, bored.centre) == ("W", inches("5 | 2 1/8"))
    assert (bored.start, bored.end) == (0, inch(1))
    (bit,) = marks_of(p, "front-left-leg", "left-rail.B", "peg")
    assert (bit.face, bit.point) == ("edge", inches("5 | 2 1/8"))


@pytest.mark.parametrize(
    ("past", "stop"),
    # the mortise ends at 3/4 of 2 1/2; no further than through the leg
    [("0", "3/4"), ("1", "1 3/4"), ("1 3/4", "2 1/2"), ("5", "2 1/2")],
)
def test_how_far_a_hole_goes(past: str, stop: str) -> None:
    p = pegged(PegChoice(past=inch(past)))
    bored = hole(p, "front-left-leg", "front-rail.A", "peg hole")
    assert (bored.start, bored.end) == (0, inch(stop))
    # a peg is one diameter longer than its hole
    assert {one.length for one in p.loose} == {inch(stop) + inch("1/4")}


def test_a_hole_starts_at_the_leg_s_face_even_where_the_rail_is_set_in() -> None:
    choice = tenon(pegs=PegChoice())
    p = agreed(frame(rail(width=inch(2), set_in=inch("1/2"), below_top=inch(4), tenon=choice)))
    bored = hole(p, "front-left-leg", "front-rail.A", "peg hole")
    assert (bored.start, bored.end) == (0, inch("1 1/2"))


def test_several_pegs_stand_at_equal_distances() -> None:
    p = pegged(PegChoice(3))
    # 1 1/2 in three: the middles of its thirds, 1/4 and 3/4 and 1 1/4 from its edge
    for number, w in enumerate(inches("1/2 | 1 | 1 1/2"), start=1):
        bored = hole(p, "front-left-leg", "front-rail.A", f"peg {number} hole")
        assert bored.centre == (inch(4) + w, inch("2 1/8"))
        own = hole(p, "front-rail", "front-rail.A", f"peg {number} hole in the tenon A")
        assert own.centre == (inch("15/16"), w)
        name = f"peg {number} from end A (front rail, end A)"
        assert total(p, "front-left-leg", name) == inch(4) + w
    assert [one.many for one in p.loose] == [3, 3]


def test_each_of_a_pair_has_its_pegs() -> None:
    # 4 wide, quarters: tenons 1/2 to 1 1/2 and 2 1/2 to 3 1/2
    choice = tenon(pair=PairChoice(), pegs=PegChoice(1))
    p = agreed(frame(rail(width=inch(4), below_top=inch(4), tenon=choice)))
    for row, at in (("upper", "5"), ("lower", "7")):
        bored = hole(p, "front-left-leg", "front-rail.A", f"{row} peg hole")
        assert bored.centre == (inch(at), inch("2 1/8"))
        name = f"{row} peg from end A (front rail, end A)"
        assert total(p, "front-left-leg", name) == inch(at)
        line = f"{row} peg line from the face edge (front rail, end A)"
        assert total(p, "front-left-leg", line) == inch("2 1/8")
    assert [(one.name, one.many) for one in p.loose] == [("peg", 1)] * 4


def test_one_peg_goes_through_both_twins() -> None:
    # 2 thick: twins 3/8 to 3/4 and 1 1/4 to 1 5/8
    choice = tenon(twin=TwinChoice(inch("1/2")), pegs=PegChoice())
    p = agreed(frame(rail(width=inch(2), thickness=inch(2), below_top=inch(4), tenon=choice)))
    own = hole(p, "front-rail", "front-rail.A", "peg hole in the tenon A")
    assert (own.start, own.end) == inches("3/8 | 1 5/8")
    bored = hole(p, "front-left-leg", "front-rail.A", "peg hole")
    assert (bored.start, bored.end) == (0, inch("1 7/8"))
    assert [one.many for one in p.loose] == [1, 1]


def test_pegs_of_a_through_tenon_are_counted_from_the_shoulder_too() -> None:
    choice = tenon(length=None, through=True, projection=inch("1/4"), pegs=PegChoice())
    p = agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)))
    assert hole(p, "front-left-leg", "front-rail.A", "peg hole").centre[1] == inch("2 1/8")
    # 2 3/4 long: 2 3/4 - 3/8 + 1/16
    own = hole(p, "front-rail", "front-rail.A", "peg hole in the tenon A")
    assert own.centre == inches("2 7/16 | 1")


# -- lines, sums, the pegs


def test_lines_of_pegs() -> None:
    p = pegged()
    (bit,) = marks_of(p, "front-left-leg", "front-rail.A", "peg")
    assert (bit.face, bit.tool, bit.point, bit.diameter) == (
        "face", "bit", inches("5 | 2 1/8"), inch("1/4")
    )  # fmt: skip
    (line,) = marks_of(p, "front-left-leg", "front-rail.A", "peg line")
    assert (line.face, line.tool, line.source, line.distance) == (
        "face", "marking gauge", "face edge", inch("2 1/8")
    )  # fmt: skip
    # along the mortise
    assert line.line == (inches("4 1/4 | 2 1/8"), inches("5 3/4 | 2 1/8"))
    (own,) = marks_of(p, "front-rail", "front-rail.B", "peg in the tenon")
    assert (own.face, own.tool, own.point, own.diameter) == (
        "face", "bit", inches("44 9/16 | 1"), inch("1/4")
    )  # fmt: skip


def test_sums_of_pegs() -> None:
    p = pegged()
    for leg, end in (("front-left-leg", "A"), ("front-right-leg", "B")):
        place = f"(front rail, end {end})"
        assert total(p, leg, f"peg line from the face edge {place}") == inch("2 1/8")
        assert total(p, leg, f"peg from end A {place}") == inch(5)
    assert total(p, "front-rail", "peg in the tenon at end A from end A") == inch("15/16")
    assert total(p, "front-rail", "peg in the tenon at end B from end A") == inch("44 9/16")
    by_side = pegged(side="right")
    place = "(right rail, end A)"
    assert total(by_side, "front-right-leg", f"peg line from the face side {place}") == (
        inch("2 1/8")
    )


def test_pegs_to_cut() -> None:
    p = pegged()
    assert [
        (one.name, one.rail, one.many, one.thickness, one.width, one.length, one.thin)
        for one in p.loose
    ] == [("peg", "front-rail", 1, inch("1/4"), inch("1/4"), inch("1 1/4"), None)] * 2


# -- other bearers


def test_pegs_are_driven_from_the_cross_rail_s_face_side() -> None:
    """Between the right legs a cross rail's face side looks to the left: into the frame."""
    choice = tenon(length=inch(1), pegs=PegChoice())
    p = agreed(
        frame(
            rail(width=inch(2), sides=("front", "back")),
            crosses=(
                cross("tie", "front right leg", "back right leg", tenon=choice,
                      places=(None, None, inch(10))),
            ),
        )
    )  # fmt: skip
    # centred in the leg: 2 1/2 / 2 = 1 1/4, its tenon 1 1/16 to 1 7/16 from the leg's outside;
    # bored from the inside at 2 1/2, through the mortise and 1/4 past it: to 13/16
    for leg, end in (("front-right-leg", "A"), ("back-right-leg", "B")):
        bored = hole(p, leg, f"tie.{end}", "peg hole")
        # 30 - 12 to its upper edge, 1 to the middle of it
        assert (bored.axis, bored.centre) == ("W", inches("19 | 2 1/8"))
        assert (bored.start, bored.end) == inches("13/16 | 2 1/2")
        (bit,) = marks_of(p, leg, f"tie.{end}", "peg")
        assert bit.face == "far edge"


def test_pegs_of_a_muntin_go_through_the_rails() -> None:
    choice = tenon(length=inch("3/4"), thickness=inch("3/8"), pegs=PegChoice(draw=Fraction(0)))
    p = agreed(
        frame(
            rail(width=inch(2)),
            low_rail(width=inch(2)),
            crosses=(cross("muntin", "front rail", "front low rail", tenon=choice),),
        )
    )
    # into the upper rail from its far edge at 2, into the lower from its edge at 0
    for bearer, end, across in (
        ("front-rail", "A", inch("1 5/8")), ("front-low-rail", "B", inch("3/8"))
    ):  # fmt: skip
        bored = hole(p, bearer, f"muntin.{end}", "peg hole")
        assert (bored.axis, bored.centre) == ("T", (LONG / 2, across))
        assert (bored.start, bored.end) == (0, inch(1))


def test_pegs_of_a_kicker_are_counted_from_each_rail_s_own_end() -> None:
    # 10 to 12 from the left: two pegs, a quarter and three quarters of 1 1/2 from 10 1/4
    choice = tenon(length=inch("3/4"), pegs=PegChoice(2, draw=Fraction(0)))
    p = agreed(
        frame(
            rail(width=inch(3), sides=("front", "back")),
            crosses=(
                cross("kicker", "front rail", "back rail", upright=False, tenon=choice,
                      places=(inch(10), None, None)),
            ),
        )
    )  # fmt: skip
    # the front rail's end A stands 1 1/4 from the left, the back one's 46 3/4
    for bearer, end, ends_at, way in (
        ("front-rail", "A", inch("1 1/4"), +1), ("back-rail", "B", inch("46 3/4"), -1)
    ):  # fmt: skip
        for number, x in enumerate(inches("10 5/8 | 11 3/8"), start=1):
            bored = hole(p, bearer, f"kicker.{end}", f"peg {number} hole")
            assert (bored.axis, bored.centre[0]) == ("W", way * (x - ends_at))
            name = f"peg {number} from end A (kicker, end {end})"
            assert total(p, bearer, name) == way * (x - ends_at)


def test_a_stretcher_s_cheeks_lie_across_its_rail_and_are_not_pegged() -> None:
    low = rail("low", sides=("left", "right"), width=inch(3), below_top=inch(12))
    choice = tenon(length=inch("3/4"), pegs=PegChoice())
    p = agreed(
        frame(low, crosses=(cross("stretcher", "left low", "right low", tenon=choice),))
    )
    assert [one for one in p.cuts if "peg" in one.role] == []
    assert p.loose == ()
