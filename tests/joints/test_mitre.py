"""Mitred tenon ends and notches: what is cut, the lines, the sums.

Legs 2 1/2 in square, rails 2 x 1 1/8 in on all four sides, tenons 3/8 in thick in the middle:
a mortise lies 3/8 to 3/4 from the leg's outside. Tenons are 1/4 in shorter than the rail at
top and bottom, so 1 1/2 in wide.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from layout.builds.frame import SIDES
from layout.checks import check
from layout.checks.bodies import tenon_bodies
from layout.checks.sums import wrong
from layout.joints.choices import PairChoice
from layout.mark import Cut
from layout.piece import Piece
from layout.solid.clearance import apart, meet
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cubic,
    frame,
    hull,
    inch,
    inches,
    joint_of,
    marks_of,
    piece,
    rail,
    reach,
    solid,
    tenon,
    total,
)

HALF = Fraction(1, 2)
GAP = inch("1/16")
# long side: 2 1/2 - 3/8 - 1/32; short: 2 1/2 - 3/4 - 1/32
LONG_SIDE, SHORT_SIDE = inch("2 3/32"), inch("1 23/32")


def mitred(length: str | None = None, gap: Fraction = GAP, **changes: object) -> Piece:
    own = None if length is None else inch(length)
    choice = tenon(length=own, meeting="mitred", mitre_gap=gap, **changes)
    return agreed(frame(rail(sides=SIDES, width=inch(2), below_top=inch(2), tenon=choice)))


def whole_length(p: Piece, part: str) -> Fraction:
    return p.part(part).length


def from_tip(p: Piece, part: str, end: str, u: Fraction) -> Fraction:
    return u if end == "A" else whole_length(p, part) - u


# -- mitres


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("end", ["A", "B"])
def test_a_mitre_from_tip_to_cheek(side: str, end: str) -> None:
    p = mitred()
    part = f"{side}-rail"
    size = joint_of(p, f"{part}.{end}").size
    assert (size.length, size.depth) == (LONG_SIDE, LONG_SIDE + inch("1/8"))
    waste = hull(p, part, f"{part}.{end}", f"mitre waste {end}")
    # from the tip's outer corner to 3/8 up the inner cheek, over the tenon's width
    assert set(waste.points) == {
        (from_tip(p, part, end, u), w, t)
        for u, t in ((0, inch("3/8")), (0, inch("3/4")), (inch("3/8"), inch("3/4")))
        for w in inches("1/4 | 1 3/4")
    }
    assert solid(waste) == cubic(HALF, inch("3/8"), inch("3/8"), inch("1 1/2"))


def test_sums_of_a_mitre() -> None:
    p = mitred()
    # 48 - 5 between the shoulders, 2 3/32 at both ends: 47 3/16
    assert whole_length(p, "front-rail") == inch("47 3/16")
    assert total(p, "front-rail", "tenon length") == LONG_SIDE
    for end in ("A", "B"):
        assert total(p, "front-rail", f"long side of the mitre, end {end}") == LONG_SIDE
        assert total(p, "front-rail", f"short side of the mitre, end {end}") == SHORT_SIDE
    name = "mitre, short side at end {} from end A"
    assert total(p, "front-rail", name.format("A")) == inch("3/8")
    assert total(p, "front-rail", name.format("B")) == inch("46 13/16")


def test_lines_of_a_mitre() -> None:
    p = mitred()
    for end, tip, short in (
        ("A", Fraction(0), inch("3/8")), ("B", inch("47 3/16"), inch("46 13/16"))
    ):  # fmt: skip
        slope = {(tip, inch("3/8")), (short, inch("3/4"))}
        lines = marks_of(p, "front-rail", f"front-rail.{end}", "mitre")
        assert sorted(one.face for one in lines) == ["edge", "far edge"]
        assert all((one.tool, set(one.line or ())) == ("bevel", slope) for one in lines)
        (across,) = marks_of(p, "front-rail", f"front-rail.{end}", "mitre, short side")
        assert (across.face, across.tool, across.distance) == ("back", "knife", short)
        assert across.line == ((short, inch("1/4")), (short, inch("1 3/4")))


def test_a_shorter_tenon_is_square_as_far_as_the_slope() -> None:
    # 3/32 short of the long side: 3/32 of the tip's 3/8 stays square
    p = mitred("2")
    waste = hull(p, "front-rail", "front-rail.A", "mitre waste A")
    assert set(waste.points) == {
        (u, w, t)
        for u, t in ((0, inch("15/32")), (0, inch("3/4")), (inch("9/32"), inch("3/4")))
        for w in inches("1/4 | 1 3/4")
    }
    assert solid(waste) == cubic(HALF, inch("9/32"), inch("9/32"), inch("1 1/2"))
    assert total(p, "front-rail", "short side of the mitre, end A") == SHORT_SIDE
    assert not any(one.name.startswith("long side") for one in p.sums)


def test_a_mitre_goes_across_both_tenons_of_a_pair() -> None:
    # eighths of 2: tenons 1/4 to 3/4 and 1 1/4 to 1 3/4
    p = mitred(pair=PairChoice())
    assert reach(hull(p, "front-rail", "front-rail.A", "mitre waste A"))[1] == inches(
        "1/4 | 1 3/4"
    )


def test_a_mitre_without_a_gap_touches_all_along() -> None:
    p = mitred(gap=Fraction(0))
    one, other = joint_of(p, "front-rail.A"), joint_of(p, "left-rail.B")
    (mine,) = tenon_bodies(one, one.tenons()[0], p.cuts)
    (theirs,) = tenon_bodies(other, other.tenons()[0], p.cuts)
    assert apart(mine, theirs) == 0
    assert not meet(mine, theirs)


@given(
    fractions(Fraction(4), Fraction(12), 4),
    fractions(Fraction(4), Fraction(12), 4),
    fractions(Fraction(5), Fraction(14), 4),
    fractions(Fraction(5), Fraction(14), 4),
    fractions(Fraction(0), Fraction(4), 4),
)
@settings(max_examples=25, deadline=None)
def test_mitred_tenons_of_any_thickness_clear_each_other_by_the_gap(
    thick: Fraction, end_thick: Fraction, outer: Fraction, end_outer: Fraction, gap: Fraction
) -> None:
    """Moved nearer by half the gap each, two mitred tenons touch; they never share wood."""

    def choice(thickness: Fraction, shoulder: Fraction) -> object:
        return tenon(
            length=None, thickness=thickness, outer_shoulder=shoulder, meeting="mitred",
            mitre_gap=gap,
        )  # fmt: skip

    p = agreed(
        frame(
            rail(sides=("front",), width=inch(2), tenon=choice(thick, outer)),
            rail("end", sides=("left",), width=inch(2), tenon=choice(end_thick, end_outer)),
        )
    )
    one, other = joint_of(p, "front-rail.A"), joint_of(p, "left-end.B")
    (mine,) = tenon_bodies(one, one.tenons()[0], p.cuts)
    (theirs,) = tenon_bodies(other, other.tenons()[0], p.cuts)
    assert not meet(mine, theirs)
    # along the front rail: its tip stands half the gap off the end rail's outer cheek
    assert mine.spans[0][0] == end_outer + gap / 2
    assert theirs.spans[1][0] == outer + gap / 2
    # and its inner cheek half the gap off the end rail's inner one
    inner = min(x for x, y, _ in mine.corners if y == outer + thick)
    assert inner == end_outer + end_thick + gap / 2


@pytest.mark.parametrize("length", ["1 23/32", "1 1/2", "1"])
@pytest.mark.parametrize("gap", [GAP, Fraction(0)])
def test_a_mitred_tenon_that_ends_before_the_slope(length: str, gap: Fraction) -> None:
    """As short as the short side, or shorter: there is nothing to mitre, and nothing is wrong."""
    choice = tenon(length=inch(length), meeting="mitred", mitre_gap=gap)
    p = piece(frame(rail(sides=SIDES, width=inch(2), below_top=inch(2), tenon=choice)))
    assert wrong(p) == []
    assert [one.role for one in p.cuts if one.role.startswith("mitre")] == []
    assert {one.level for one in check(p)} <= {"note", "caution"}


# -- notches


def passing(
    length: str | None = None, end_length: str | None = None, **changes: object
) -> Piece:
    """Front and back rails carry the notch; the side rails' tenons, 3/4 in high, go through it."""
    notched = tenon(
        length=None if length is None else inch(length), meeting="passing", notched=True, **changes
    )
    passes = tenon(
        length=None if end_length is None else inch(end_length),
        meeting="passing", top_shoulder=inch("5/8"), bottom_shoulder=inch("5/8"),
    )  # fmt: skip
    return agreed(
        frame(
            rail(sides=("front", "back"), width=inch(2), below_top=inch(2), tenon=notched),
            rail("end", sides=("left", "right"), width=inch(2), below_top=inch(2), tenon=passes),
        )
    )


# as long as the wall behind and the glue room allow: 2 1/2 - 3/16 - 1/8
REACH = inch("2 3/16")


@pytest.mark.parametrize(("part", "side"), [("front-rail", "left"), ("back-rail", "right")])
def test_a_notch_is_where_the_other_tenon_passes(part: str, side: str) -> None:
    p = passing()
    assert joint_of(p, f"{part}.A").size.length == REACH
    assert joint_of(p, f"{side}-end.A").size.length == REACH
    for end in ("A", "B"):
        notch = hull(p, part, f"{part}.{end}", f"notch for the end {end}")
        # the tip lies 5/16 from the leg's outside, the other's walls 3/8 and 3/4
        along = sorted(from_tip(p, part, end, u) for u in inches("1/16 | 7/16"))
        assert reach(notch) == (tuple(along), inches("5/8 | 1 3/8"), inches("3/8 | 3/4"))
        assert solid(notch) == cubic(inch("3/8"), inch("3/4"), inch("3/8"))


def test_sums_and_lines_of_a_notch() -> None:
    p = passing()
    # 43 between the shoulders and 2 x 2 3/16
    long = inch("47 3/8")
    assert whole_length(p, "front-rail") == long
    sums = {
        "notch start at end A from end A": inch("1/16"),
        "notch end at end A from end A": inch("7/16"),
        "notch start at end B from end A": long - inch("7/16"),
        "notch end at end B from end A": long - inch("1/16"),
        "notch top from the face edge, end A": inch("5/8"),
        "notch bottom from the face edge, end A": inch("1 3/8"),
        "notch top from the face edge, end B": inch("5/8"),
        "notch bottom from the face edge, end B": inch("1 3/8"),
    }
    assert {one.name: one.total for one in p.sums if one.name.startswith("notch")} == sums
    w = inches("5/8 | 1 3/8")
    for role, at in (("notch start", inch("1/16")), ("notch end", inch("7/16"))):
        lines = marks_of(p, "front-rail", "front-rail.A", role)
        assert [(one.face, one.tool, one.distance, one.line) for one in lines] == [
            (face, "knife", at, ((at, w[0]), (at, w[1]))) for face in ("face", "back")
        ]
    for role, at in (("notch top", w[0]), ("notch bottom", w[1])):
        lines = marks_of(p, "front-rail", "front-rail.A", role)
        assert [(one.face, one.tool, one.source, one.distance) for one in lines] == [
            (face, "marking gauge", "face edge", at) for face in ("face", "back")
        ]
    assert [one for one in p.cuts if "notch" in one.role and "end" in one.part] == []


def test_a_notch_may_run_out_at_the_tip() -> None:
    # tip 1/2 from the outside, past the other's near wall at 3/8: 0 to 3/4 - 1/2
    p = passing("2")
    notch = hull(p, "front-rail", "front-rail.A", "notch for the end A")
    assert reach(notch)[0] == inches("0 | 1/4")
    assert marks_of(p, "front-rail", "front-rail.A", "notch start") == []
    names = [one.name for one in p.sums if one.part == "front-rail"]
    assert "notch start at end A from end A" not in names
    assert total(p, "front-rail", "notch end at end A from end A") == inch("1/4")
    # at end B the notch starts there and runs out at the tip: 43 + 2 x 2 = 47
    assert total(p, "front-rail", "notch start at end B from end A") == inch("46 3/4")
    assert "notch end at end B from end A" not in names


def test_a_tenon_that_ends_before_the_other_has_no_notch() -> None:
    # it comes as far as the far wall at 3/4
    p = passing("1 3/4")
    assert [one for one in p.cuts if "notch" in one.role] == []


def test_a_notch_stops_at_the_edge_of_the_rail() -> None:
    # the side rail stands 1 lower: its tenon lies 3 5/8 to 4 3/8 below the top, the front
    # rail's edge at 4
    notched = tenon(length=None, meeting="passing", notched=True)
    passes = tenon(
        length=None, meeting="passing", top_shoulder=inch("5/8"), bottom_shoulder=inch("5/8")
    )
    p = agreed(
        frame(
            rail(width=inch(2), below_top=inch(2), tenon=notched),
            rail("end", sides=("left",), width=inch(2), below_top=inch(3), tenon=passes),
        )
    )
    notch = hull(p, "front-rail", "front-rail.A", "notch for the end A")
    assert reach(notch)[1] == inches("1 5/8 | 2")
    assert total(p, "front-rail", "notch top from the face edge, end A") == inch("1 5/8")
    assert not any(one.name.startswith("notch bottom") for one in p.sums)
    # the right legs have no side rail
    assert {one.joint for one in p.cuts if "notch" in one.role} == {"front-rail.A"}


def test_a_pair_passes_through_two_notches() -> None:
    notched = tenon(length=None, meeting="passing", notched=True)
    # quarters of 3: tenons 3/8 to 1 1/8 and 1 7/8 to 2 5/8
    passes = tenon(length=None, meeting="passing", pair=PairChoice())
    p = agreed(
        frame(
            rail(sides=("front",), width=inch(3), below_top=inch(2), tenon=notched),
            rail("end", sides=("left",), width=inch(3), below_top=inch(2), tenon=passes),
        )
    )
    found: list[Cut] = [one for one in p.cuts if "notch" in one.role]
    assert sorted(one.shape.reach("W") for one in found) == [
        inches("3/8 | 1 1/8"), inches("1 7/8 | 2 5/8")
    ]  # fmt: skip
    # two cuts of one part are told apart by their names
    assert len({one.key for one in found}) == 2


def test_passing_tenons_share_no_wood() -> None:
    p = passing()
    one, other = joint_of(p, "front-rail.A"), joint_of(p, "left-end.B")
    mine = tenon_bodies(one, one.tenons()[0], p.cuts)
    theirs = tenon_bodies(other, other.tenons()[0], p.cuts)
    assert not any(meet(a, b) for a in mine for b in theirs)
    # it fits without room: above, below and on both sides they touch
    assert min(apart(a, b) for a in mine for b in theirs) == 0
