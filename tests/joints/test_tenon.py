"""Tenon sizes, cuts and marks against sums that a person can check."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from layout.builds.choices import FrameChoice
from layout.builds.frame import SIDES
from layout.checks.bodies import left_of, part_body, placed_body, placed_cuts
from layout.checks.solids import findings as overlaps
from layout.joints.choices import PairChoice, PegChoice, TenonChoice, TwinChoice
from layout.joints.rail_end import TenonSizes
from layout.joints.section import SeatInRail, section
from layout.kit import Kit, chisel_for, usual_kit
from layout.piece import Piece
from layout.solid.convex import common, volume
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    cut,
    frame,
    haunch,
    hull,
    inch,
    inches,
    key,
    low_rail,
    marks_of,
    mould,
    panel,
    rail,
    reach,
    seat,
    side_wedge,
    tenon,
    through,
    total,
    wedges,
)

BACK_RABBET = SeatInRail("rabbet", "far edge", inch("7/8"), inch("3/8"))


def front_rail(p: Piece):  # type: ignore[no-untyped-def]
    return next(r for r in p.rails if r.rail.part.id == "front-rail")


def sizes(
    choice: TenonChoice, seats: tuple[SeatInRail, ...], thickness: Fraction | None = None
) -> TenonSizes:
    """The tenon of a rail 4 x 1 1/8 in that carries these seats."""
    stock = inch("1 1/8") if thickness is None else thickness
    found = section(choice, inch(4), stock, seats, usual_kit("in"))
    return TenonSizes(found, inch("1 1/4"), choice.glue_room, inch("2 1/2"))


def test_worked_example() -> None:
    # 1 1/8 - 1/4 = 7/8 in front; (7/8 - 3/8)/2 = 1/4 outer; 1 1/8 - 1/4 - 3/8 = 1/2 inner
    p = agreed(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    size = front_rail(p).size
    assert size.wood == inch("7/8")
    assert size.outer == inch("1/4")
    assert size.inner == inch("1/2")
    assert front_rail(p).rail.part.length == inch("45 1/2")
    assert size.depth == inch("1 3/8")


@pytest.mark.parametrize(("set_in", "near", "far"), [("0", "1/4", "5/8"), ("1/8", "3/8", "3/4")])
def test_gauge_stands_on_rail_and_leg(set_in: str, near: str, far: str) -> None:
    p = agreed(
        frame(rail(set_in=inch(set_in)), low_rail(set_in=inch(set_in))),
        panel(seat(), "front under rail"),
    )
    rail_pairs = {m.pair for m in p.marks_of("front-rail") if m.role.endswith("cheek")}
    leg_pairs = {m.pair for m in p.marks_of("front-left-leg") if m.role.endswith("wall")}
    assert rail_pairs == {(inch("1/4"), inch("5/8"))}
    assert leg_pairs == {(inch(near), inch(far))}


def test_mortise_stands_where_the_tenon_enters() -> None:
    p = agreed(frame(rail(tenon=tenon(top_shoulder=inch("1/2"), bottom_shoulder=inch(0)))))
    mortise = cut(p, "front-left-leg", "front-rail.A", "mortise").shape
    # from the leg's top: 1/2 to 4; entered from the far edge, 1 3/8 deep in a leg 2 1/2 wide
    assert mortise.reach("L") == (inch("1/2"), inch(4))
    assert mortise.reach("W") == (inch("1 1/8"), inch("2 1/2"))
    # no seat: centred in 1 1/8, 3/8 + 3/8 + 3/8
    assert mortise.reach("T") == (inch("3/8"), inch("3/4"))


def test_rail_above_the_floor() -> None:
    p = agreed(frame(low_rail()))
    mortise = cut(p, "front-left-leg", "front-low rail.A".replace(" ", "-"), "mortise").shape
    # leg 30 - 6 above the floor - 4 wide = 20 to the rail's top edge, shoulders 1/4
    assert mortise.reach("L") == (inch("20 1/4"), inch("23 3/4"))


def test_rabbet_run_through_makes_a_long_back_shoulder() -> None:
    p = agreed(
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
    size = sizes(tenon(outer_shoulder=inch("3/16")), (BACK_RABBET,))
    assert (size.outer, size.inner) == (inch("3/16"), inch("9/16"))


def test_groove_widens_the_shoulder_left_open() -> None:
    groove = SeatInRail("groove", "far edge", inch("7/16"), inch("1/2"))
    size = sizes(tenon(), (groove,))
    assert (size.top, size.bottom, size.width) == (inch("1/4"), inch("1/2"), inch("3 1/4"))
    given_one = sizes(tenon(bottom_shoulder=inch("1/8")), (groove,))
    assert given_one.bottom == inch("1/8")


# Griffith, Correlated Courses, 1912, Plate 1: 1 in stock, 3/8 tenon (nearest chisel above a
# third); Ross, Elementary Course in Woodwork, 1901, Fig. 87: 1 1/8 divides in three 3/8;
# Mission Furniture, Part 1, 1909, Plant Stand: 3/4 rail, 1/4 tenon.
@pytest.mark.parametrize(("stock", "chisel"), [("1", "3/8"), ("1 1/8", "3/8"), ("3/4", "1/4")])
def test_chisel_nearest_a_third(stock: str, chisel: str) -> None:
    plain = Kit(tuple(inch(w) for w in ("1/4", "3/8", "1/2", "3/4")))
    assert chisel_for(inch(stock), plain) == inch(chisel)


@given(fractions(Fraction(5), Fraction(100), 64))
@settings(deadline=None)
def test_no_chisel_is_nearer_a_third(stock: Fraction) -> None:
    kit = usual_kit("in")
    chosen = chisel_for(stock, kit)
    assert chosen in kit.chisels
    assert all(abs(chosen - stock / 3) <= abs(other - stock / 3) for other in kit.chisels)


@given(
    fractions(Fraction(10), Fraction(60), 32),
    fractions(Fraction(3), Fraction(20), 32),
    fractions(Fraction(0), Fraction(9), 32),
)
@settings(deadline=None)
def test_shoulders_and_tenon_fill_the_rail(
    thickness: Fraction, tenon_thickness: Fraction, rabbet: Fraction
) -> None:
    seat_in = SeatInRail("rabbet", "edge", thickness - rabbet, Fraction(5))
    size = sizes(tenon(thickness=tenon_thickness), (seat_in,), thickness)
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
    p = agreed(frame(rail(), low_rail()), panel(seat(run="through"), "front under rail"))
    assert marks(p, "edge", "shoulder") == [(inch("1 1/4"), 0, inch("7/8"))]
    assert marks(p, "edge", "long shoulder") == [(inch("7/8"), inch("7/8"), inch("1 1/8"))]
    assert marks(p, "back", "long shoulder") == [(inch("7/8"), 0, inch(4))]


def test_a_tenon_without_a_shoulder_is_lined_beside_itself() -> None:
    bare = agreed(frame(rail(tenon=tenon(outer_shoulder=Fraction(0)))))
    at = inch("1 1/4")
    assert marks(bare, "face", "shoulder") == [
        (at, 0, inch("1/4")), (at, inch("3 3/4"), inch(4))
    ]
    no_bottom = agreed(frame(rail(tenon=tenon(bottom_shoulder=Fraction(0)))))
    assert marks(no_bottom, "far edge", "shoulder") == [
        (at, 0, inch("3/8")), (at, inch("3/4"), inch("1 1/8"))
    ]


def test_a_barefaced_tenon_takes_one_gauge_line() -> None:
    p = agreed(frame(rail(tenon=tenon(outer_shoulder=Fraction(0)))))
    cheeks = [m for m in p.marks_of("front-rail") if m.role.endswith("cheek")]
    assert {(m.tool, m.distance, m.pair) for m in cheeks} == {
        ("marking gauge", inch("3/8"), None)
    }


def test_a_mortise_at_the_very_end_has_no_line_there() -> None:
    p = agreed(frame(rail(tenon=tenon(top_shoulder=Fraction(0)))))
    assert [m for m in p.marks_of("front-left-leg") if m.role == "mortise top"] == []
    assert all(m.distance > 0 for m in p.marks)


def test_a_rail_beside_a_rabbet_run_through_keeps_its_tenon_before_it() -> None:
    # three rails, a panel between the upper two, its rabbet run from end to end of the legs
    middle = rail("middle", below_top=inch(12))
    p = agreed(
        frame(rail(), middle, low_rail()), panel(seat(run="through"), "front under rail")
    )
    lowest = next(r for r in p.rails if r.rail.part.id == "front-low-rail")
    assert lowest.size.outer == inch("1/4")  # centred in 7/8, as the others
    assert lowest.size.long_by == inch("3/8")


def test_tenon_lines_on_the_back_end_at_its_own_shoulder() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(run="through"), "front under rail"))
    ends = {
        m.line[1][0]
        for m in p.marks_of("front-rail")
        if m.line and m.face == "back" and m.role == "tenon top" and m.joint == "front-rail.A"
    }
    assert ends == {inch("7/8")}


# -- several tenons


def test_a_pair_and_its_mortises() -> None:
    # eighths and quarters of 4: tenons 1/2 to 1 1/2 and 2 1/2 to 3 1/2
    p = agreed(frame(rail(tenon=tenon(pair=PairChoice()))))
    for name, along in (("upper", "1/2 | 1 1/2"), ("lower", "2 1/2 | 3 1/2")):
        mortise = hull(p, "front-left-leg", "front-rail.A", f"{name} mortise")
        assert reach(mortise) == (inches(along), inches("1 1/8 | 2 1/2"), inches("3/8 | 3/4"))
        top, bottom = (f"{name} mortise {end} from end A (front rail, end A)"
                       for end in ("top", "bottom"))  # fmt: skip
        assert (total(p, "front-left-leg", top), total(p, "front-left-leg", bottom)) == (
            inches(along)
        )
    assert total(p, "front-rail", "upper tenon bottom from the face edge") == inch("1 1/2")
    assert total(p, "front-rail", "lower tenon top from the face edge") == inch("2 1/2")


def test_twins_and_their_mortises() -> None:
    # 2 thick: 3/8 to 3/4 and 1 1/4 to 1 5/8
    p = agreed(frame(rail(thickness=inch(2), tenon=tenon(twin=TwinChoice(inch("1/2"))))))
    for name, through_leg in (("outer", "3/8 | 3/4"), ("inner", "1 1/4 | 1 5/8")):
        mortise = hull(p, "front-right-leg", "front-rail.B", f"{name} mortise")
        assert reach(mortise)[2] == inches(through_leg)
        near, far = inches(through_leg)
        source = "mortise wall from the face side (front rail, end B)"
        assert total(p, "front-right-leg", f"{name} near {source}") == near
        assert total(p, "front-right-leg", f"{name} far {source}") == far
    between = hull(p, "front-rail", "front-rail.A", "waste between the twins A")
    assert reach(between) == (inches("0 | 1 1/4"), inches("0|4"), inches("3/4 | 1 1/4"))
    assert total(p, "front-rail", "outer far cheek from the face side") == inch("3/4")
    assert total(p, "front-rail", "inner near cheek from the face side") == inch("1 1/4")


def test_a_through_mortise_is_marked_on_both_faces_and_has_no_depth() -> None:
    # flush with the outside: 43 + 2 x 2 1/2
    p = agreed(frame(rail(tenon=through())))
    assert front_rail(p).rail.part.length == inch(48)
    mortise = hull(p, "front-left-leg", "front-rail.A", "mortise")
    assert reach(mortise)[1] == inches("0 | 2 1/2")
    faces = {one.face for one in marks_of(p, "front-left-leg", "front-rail.A", "mortise top")}
    assert faces == {"far edge", "edge"}
    assert not any(one.name == "mortise depth" for one in p.sums)
    assert total(p, "front-rail", "tenon length") == inch("2 1/2")
    proud = agreed(frame(rail(tenon=through(projection=inch("1/4")))))
    assert total(proud, "front-rail", "tenon length") == inch("2 3/4")
    assert reach(hull(proud, "front-left-leg", "front-rail.A", "mortise"))[1] == (
        inches("0 | 2 1/2")
    )
    blind = agreed(frame(rail()))
    assert total(blind, "front-rail", "mortise depth") == inch("1 3/8")


@pytest.mark.parametrize(("side", "face"), [("face", "face"), ("back", "back")])
def test_no_shoulder_on_the_bare_side(side: str, face: str) -> None:
    p = agreed(frame(rail(tenon=tenon(barefaced=side))))
    lines = marks(p, face, "shoulder")
    at = inch("1 1/4")
    assert lines == [(at, 0, inch("1/4")), (at, inch("3 3/4"), inch(4))]
    wastes = {one.role for one in p.cuts_of("front-rail") if "cheek" in one.role}
    other = "back" if side == "face" else "front"
    assert wastes == {f"{other} cheek waste A", f"{other} cheek waste B"}


# -- every kind of tenon in every kind of bearer

TENONS = {
    "plain": tenon(length=inch("3/4")),
    "bare face": tenon(length=inch("3/4"), barefaced="face"),
    "bare back": tenon(length=inch("3/4"), barefaced="back"),
    "pair": tenon(length=inch("3/4"), pair=PairChoice(haunch=inch("1/4"), room=inch("1/16"))),
    "twin": tenon(length=inch("3/4"), thickness=inch("1/4"), twin=TwinChoice()),
    "haunch": tenon(length=inch("3/4"), haunch=haunch()),
    "slope": tenon(length=inch("3/4"), haunch=haunch(kind="sloped", edge="far edge")),
    "through": through(),
    "wedged": through(wedges=wedges()),
    "side wedge": through(side_wedge=side_wedge(splay=inch("1/8")), top_shoulder=inch("1/2")),
    "keyed": through(key=key(wide=inch("3/4"))),
    "pegged": tenon(length=inch("3/4"), pegs=PegChoice()),
    "moulded": tenon(length=inch("3/4"), mould=mould()),
}


def standing(choice: TenonChoice, where: str) -> FrameChoice:
    """A frame with this tenon between legs, or between rails of every direction."""
    high = rail(sides=SIDES, width=inch(3), tenon=tenon(length=inch("3/4")))
    low = high._replace(name="low", below_top=inch(20))
    if where == "legs":
        return frame(
            rail(sides=("front", "back"), below_top=inch(4), width=inch(2), tenon=choice),
            rail("end", sides=("left", "right"), below_top=inch(8), width=inch(2), tenon=choice),
        )
    bearers = {
        "stretcher": [("left low", "right low"), ("front low", "back low")],
        "muntin": [(f"{side} rail", f"{side} low") for side in SIDES],
        "ties": [("front left leg", "back left leg"), ("back right leg", "front right leg")],
    }[where]
    places = (None, None, inch(14)) if where == "ties" else (None, None, None)
    return frame(
        high,
        low,
        # the second one lies clear of the first
        crosses=tuple(
            cross(f"cross {number}", one, other, tenon=choice, upright=upright, places=places)
            for number, (one, other) in enumerate(bearers)
            for upright in ((True, False) if where == "stretcher" else (True,))
            if (number == 0) == upright or where != "stretcher"
        ),
    )


@pytest.mark.parametrize("where", ["legs", "stretcher", "muntin", "ties"])
@pytest.mark.parametrize("choice", TENONS.values(), ids=TENONS.keys())
def test_every_tenon_fits_its_mortise(choice: TenonChoice, where: str) -> None:
    """Sums agree; and in place, every tenon's own wood lies in its mortise or beyond it."""
    p = agreed(standing(choice, where))
    tried = 0
    for joint in p.joints:
        if joint.rail.name.endswith(("rail", "low")) and where != "legs":
            continue
        mine = placed_cuts(joint.bearer, p.cuts_of(joint.bearer.id))
        board = part_body(joint.bearer)
        for one in joint.tenons():
            whole = joint.block((Fraction(0), joint.size.length), one.across, one.through)
            there = common(placed_body(joint.rail, whole), board)
            assert there is not None
            assert left_of(there, mine) == ()
            if joint.size.through and joint.choice.side_wedge is None:
                beyond = volume(placed_body(joint.rail, whole)) - volume(there)
                w, t = (high - low for low, high in (one.across, one.through))
                assert beyond == joint.size.projection * w * t
            tried += 1
    assert tried == {"legs": 8, "stretcher": 4, "muntin": 8, "ties": 4}[where] * len(
        p.joints[-1].tenons()
    )


@pytest.mark.parametrize("where", ["legs", "muntin", "ties"])
@pytest.mark.parametrize("choice", TENONS.values(), ids=TENONS.keys())
def test_no_finished_parts_share_wood(choice: TenonChoice, where: str) -> None:
    p = agreed(standing(choice, where))
    assert [one.text for one in overlaps(p) if one.level == "stop"] == []
