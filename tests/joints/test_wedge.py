"""Wedges: saw cuts, flared mortises, and the wedge beside a splayed tenon.

The rail is 2 x 1 1/8 in, 4 in below the leg's top; its tenon is 1/2 in thick in the middle (5/16 to
13/16), 1 1/2 in wide (4 1/4 to 5 3/4 below the top), right through legs 2 1/2 in square.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Literal

import pytest

from layout.checks import extras
from layout.checks.solids import findings as overlaps
from layout.errors import BadPiece
from layout.joints import wedge
from layout.joints.choices import PairChoice, TwinChoice
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from tests.pieces import (
    agreed,
    cross,
    cubic,
    frame,
    hull,
    inch,
    inches,
    marks_of,
    measured,
    piece,
    rail,
    reach,
    side_wedge,
    solid,
    tenon,
    through,
    total,
    wedges,
)

HALF = Fraction(1, 2)
CHEEKS = inches("5/16 | 13/16")
# 43 between the shoulders and the legs' 2 1/2 at both ends
LONG = inch(48)
ENDS = (("A", "front-left-leg"), ("B", "front-right-leg"))


def wedged(projection: str = "0", **changes: object) -> Piece:
    choice = through(projection=inch(projection), **changes)
    return agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)))


def from_tip(end: str, low: str, high: str, long: Fraction = LONG) -> tuple[Fraction, Fraction]:
    a, b = inch(low), inch(high)
    return (a, b) if end == "A" else (long - b, long - a)


# -- sizes


@pytest.mark.parametrize(
    ("many", "flare"),
    # half of 1/8 - 1/32 at each end of the mortise; both wedges shared between both ends
    [(1, "3/64"), (2, "3/32")],
)
def test_flare(many: Literal[1, 2], flare: str) -> None:
    assert wedge.flare(wedges(many=many)) == inch(flare)


def test_no_flare_without_a_wedge_thicker_than_its_saw_cut() -> None:
    assert wedge.flare(wedges(thickness=inch("1/32"))) == 0
    p = wedged(wedges=wedges(thickness=inch("1/32")))
    assert [one.role for one in p.cuts if "flare" in one.role] == []


def test_length_of_a_wedge() -> None:
    # three quarters of 2 1/2
    assert wedge.wedge_length(wedges(), inch("2 1/2")) == inch("1 7/8")
    assert wedge.wedge_length(wedges(length=inch(1)), inch("2 1/2")) == inch(1)


# -- in saw cuts


@pytest.mark.parametrize("end", ["A", "B"])
def test_two_saw_cuts(end: str) -> None:
    p = wedged(wedges=wedges())
    # 3/16 inside 1/4 and 1 3/4, and half of 1/32 to each side
    for number, across in ((1, "27/64 | 29/64"), (2, "1 35/64 | 1 37/64")):
        kerf = hull(p, "front-rail", f"front-rail.{end}", f"saw cut {number} {end}")
        assert reach(kerf) == (from_tip(end, "0", "1 7/8"), inches(across), CHEEKS)
        assert solid(kerf) == cubic(inch("1 7/8"), inch("1/32"), inch("1/2"))


@pytest.mark.parametrize("end", ["A", "B"])
def test_one_saw_cut_stands_in_the_middle(end: str) -> None:
    p = wedged(wedges=wedges(many=1, length=inch(1)))
    kerf = hull(p, "front-rail", f"front-rail.{end}", f"saw cut {end}")
    assert reach(kerf) == (from_tip(end, "0", "1"), inches("63/64 | 1 1/64"), CHEEKS)
    assert total(p, "front-rail", "saw cut from the face edge") == inch(1)


@pytest.mark.parametrize(("end", "leg"), ENDS)
@pytest.mark.parametrize(
    ("projection", "deep"),
    # three quarters of 2 1/2; of 2 3/4, less the 1/4 that stands proud
    [("0", "1 7/8"), ("1/4", "1 13/16")],
)
@pytest.mark.parametrize(("many", "flare"), [(1, "3/64"), (2, "3/32")])
def test_flares(
    end: str, leg: str, projection: str, deep: str, many: Literal[1, 2], flare: str
) -> None:
    p = wedged(projection, wedges=wedges(many=many))
    for role, at, way in (("flare", inch("4 1/4"), -1), ("far flare", inch("5 3/4"), +1)):
        cut = hull(p, leg, f"front-rail.{end}", role)
        # widest at the outer face, nothing where the wedges end
        assert set(cut.points) == {
            (along, across, t)
            for along, across in ((at, inch(deep)), (at, 0), (at + way * inch(flare), 0))
            for t in CHEEKS
        }
        assert solid(cut) == cubic(HALF, inch(deep), inch(flare), inch("1/2"))


def test_sums_of_wedges() -> None:
    p = wedged(wedges=wedges())
    assert total(p, "front-rail", "saw cut 1 from the face edge") == inch("7/16")
    assert total(p, "front-rail", "saw cut 2 from the face edge") == inch("1 9/16")
    assert total(p, "front-rail", "wedge and saw cut, long") == inch("1 7/8")
    for end, leg in ENDS:
        assert total(p, leg, f"flare of each mortise end (front rail, end {end})") == inch("3/32")
    own = wedged(wedges=wedges(length=inch(1)))
    assert not any(one.name == "wedge and saw cut, long" for one in own.sums)


@pytest.mark.parametrize(("end", "leg"), ENDS)
def test_the_mortise_is_marked_wider_on_the_outer_face(end: str, leg: str) -> None:
    p = wedged(wedges=wedges())
    for role, at, flared in (
        ("mortise top", "4 1/4", "4 5/32"), ("mortise bottom", "5 3/4", "5 27/32")
    ):  # fmt: skip
        lines = marks_of(p, leg, f"front-rail.{end}", role)
        assert {(one.face, one.tool, one.distance) for one in lines} == {
            ("far edge", "knife", inch(at)),
            ("edge", "knife", inch(flared)),
        }
    # both walls run from mouth to mouth, struck alike on both faces
    walls = marks_of(p, leg, f"front-rail.{end}", "near wall")
    assert {(one.face, one.distance, one.pair) for one in walls} == {
        ("far edge", CHEEKS[0], CHEEKS), ("edge", CHEEKS[0], CHEEKS)
    }  # fmt: skip
    spans = {one.face: [one.line[0][0], one.line[1][0]] for one in walls if one.line}
    assert spans == {
        "far edge": list(inches("4 1/4 | 5 3/4")), "edge": list(inches("4 5/32 | 5 27/32"))
    }  # fmt: skip


def test_saw_cuts_are_lined_on_both_cheeks_and_the_end() -> None:
    p = wedged(wedges=wedges())
    lines = marks_of(p, "front-rail", "front-rail.B", "saw cut 1")
    at, tips = inch("7/16"), from_tip("B", "0", "1 7/8")
    assert {(one.face, one.tool, one.source, one.distance, one.line) for one in lines} == {
        ("face", "marking gauge", "face edge", at, ((tips[0], at), (tips[1], at))),
        ("back", "marking gauge", "face edge", at, ((tips[0], at), (tips[1], at))),
        ("end B", "marking gauge", "face edge", at, ((at, CHEEKS[0]), (at, CHEEKS[1]))),
    }
    bottoms = marks_of(p, "front-rail", "front-rail.B", "saw cut 1, bottom")
    assert [(one.face, one.distance) for one in bottoms] == [
        ("face", LONG - inch("1 7/8")), ("back", LONG - inch("1 7/8"))
    ]  # fmt: skip


def test_every_tenon_of_a_pair_has_its_wedges() -> None:
    # 4 wide, quarters: tenons 1/2 to 1 1/2 and 2 1/2 to 3 1/2
    choice = through(pair=PairChoice(), wedges=wedges())
    p = agreed(frame(rail(width=inch(4), below_top=inch(4), tenon=choice)))
    for name, at in (("upper", "11/16 | 1 5/16"), ("lower", "2 11/16 | 3 5/16")):
        for number, place in enumerate(inches(at), start=1):
            kerf = hull(p, "front-rail", "front-rail.A", f"{name} saw cut {number} A")
            assert reach(kerf)[1] == (place - inch("1/64"), place + inch("1/64"))
            assert total(p, "front-rail", f"{name} saw cut {number} from the face edge") == place
        flare = hull(p, "front-left-leg", "front-rail.A", f"{name} flare")
        # the leg's top is 4 above the rail's edge
        edge = inch("4 1/2") if name == "upper" else inch("6 1/2")
        assert reach(flare)[0] == (edge - inch("3/32"), edge)
    assert [(one.name, one.many) for one in p.loose] == [("wedge", 2)] * 4


def test_twins_have_their_wedges_side_by_side() -> None:
    choice = through(thickness=inch("3/8"), twin=TwinChoice(inch("1/2")), wedges=wedges(many=1))
    p = agreed(
        frame(rail(width=inch(2), thickness=inch(2), below_top=inch(4), tenon=choice))
    )
    for name, cheeks in (("outer", "3/8 | 3/4"), ("inner", "1 1/4 | 1 5/8")):
        kerf = hull(p, "front-rail", "front-rail.A", f"{name} saw cut A")
        assert reach(kerf)[2] == inches(cheeks)
        assert reach(hull(p, "front-left-leg", "front-rail.A", f"{name} far flare"))[2] == (
            inches(cheeks)
        )


def test_wedges_to_cut() -> None:
    p = wedged(wedges=wedges())
    # for each end two, as thick at the thick end and as wide as the tenon; 1 7/8 / 1/8 = 15
    assert [
        (one.name, one.rail, one.many, one.thickness, one.width, one.length) for one in p.loose
    ] == [("wedge", "front-rail", 2, inch("1/2"), inch("1/8"), inch("1 7/8"))] * 2
    assert all("1 in 15" in one.note for one in p.loose)


def test_the_flare_lies_toward_the_outer_face_on_every_bearer() -> None:
    """A stretcher through two rails: their outer faces look to the left and to the right."""
    low = rail("low", sides=("left", "right"), width=inch(3), below_top=inch(12))
    choice = through(wedges=wedges(many=1))
    p = agreed(
        frame(low, crosses=(cross("stretcher", "left low", "right low", tenon=choice),))
    )
    # a tenon 1 1/8 long: the flare reaches 27/32 of it in from the face side, at 0
    for bearer, end in (("left-low", "A"), ("right-low", "B")):
        flare = hull(p, bearer, f"stretcher.{end}", "flare")
        assert reach(flare)[2] == inches("0 | 27/32")
        # upright: 1/2 below the rail's edge (its middle), the tenon 1/4 lower
        assert reach(flare)[1] == (inch("3/4") - inch("3/64"), inch("3/4"))


def test_wedges_shorter_than_the_tenon_stands_proud() -> None:
    """A check tells the maker (a stop); working the piece out must get as far as that."""
    choice = through(projection=inch("1/4"), wedges=wedges(length=inch("1/4")))
    p = piece(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)))
    assert [one.level for one in extras.findings(p) if one.rule == extras.WEDGES] == ["stop"]
    # nothing spreads in the leg: its mortise is as wide outside as inside
    tops = marks_of(p, "front-left-leg", "front-rail.A", "mortise top")
    assert {(one.face, one.distance) for one in tops} == {
        ("far edge", inch("4 1/4")), ("edge", inch("4 1/4"))
    }  # fmt: skip
    assert not any("flare" in one.role for one in p.cuts)


def test_two_ends_of_unlike_length_have_sums_of_unlike_names() -> None:
    # the left leg came out 1/8 thin: tenon 2 3/8, wedges three quarters of each
    p = agreed(
        frame(
            rail(width=inch(2), below_top=inch(4), tenon=through(wedges=wedges())),
            milled=measured(front_left_leg="2 3/8 x 2 1/2"),
        )
    )
    long = [one for one in p.sums if one.name.startswith("wedge and saw cut, long")]
    assert sorted(one.total for one in long) == list(inches("1 25/32 | 1 7/8"))
    names = [(one.part, one.full_name) for one in p.sums]
    assert len(set(names)) == len(names)


# -- beside the tenon


def beside(projection: str = "0", **changes: object) -> Piece:
    """No shoulder on the wedge's side, 1/4 on the other."""
    edge = changes.get("edge", "edge")
    choice = through(
        projection=inch(projection),
        side_wedge=side_wedge(**changes),
        top_shoulder=inch(0 if edge == "edge" else "1/4"),
        bottom_shoulder=inch(0 if edge == "far edge" else "1/4"),
    )
    return agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)))


@pytest.mark.parametrize(("end", "leg"), ENDS)
@pytest.mark.parametrize(("edge", "at", "way"), [("edge", "4", -1), ("far edge", "6", +1)])
def test_the_wedge_s_space(end: str, leg: str, edge: str, at: str, way: int) -> None:
    p = beside(edge=edge)
    space = hull(p, leg, f"front-rail.{end}", "wedge space")
    # 1/4 at the inside of the leg, 7/16 at its outside
    assert set(space.points) == {
        (along, across, t)
        for along, across in (
            (inch(at), inch("2 1/2")),
            (inch(at), 0),
            (inch(at) + way * inch("7/16"), 0),
            (inch(at) + way * inch("1/4"), inch("2 1/2")),
        )
        for t in CHEEKS
    }
    assert solid(space) == cubic(HALF, inch("7/16") + inch("1/4"), inch("2 1/2"), inch("1/2"))
    place = f"front rail, end {end}"
    assert total(p, leg, f"wedge space at the outer face ({place})") == inch("7/16")


@pytest.mark.parametrize(("end", "leg"), ENDS)
@pytest.mark.parametrize(
    ("edge", "name", "out", "tenon_edge", "leg_edge", "way"),
    [("edge", "bottom", "2", "1 3/4", "5 3/4", +1), ("far edge", "top", "0", "1/4", "4 1/4", -1)],
)
@pytest.mark.parametrize("splay", ["1/8", "1/4"])
def test_the_edge_across_from_the_wedge_is_splayed(
    end: str, leg: str, edge: str, name: str, out: str, tenon_edge: str, leg_edge: str,
    way: int, splay: str,
) -> None:  # fmt: skip
    p = beside(edge=edge, splay=inch(splay))
    space = hull(p, leg, f"front-rail.{end}", "splay space")
    at, wide = inch(leg_edge), inch(splay)
    assert set(space.points) == {
        (along, across, t)
        for along, across in ((at, inch("2 1/2")), (at, 0), (at + way * wide, 0))
        for t in CHEEKS
    }
    assert solid(space) == cubic(HALF, inch("2 1/2"), wide, inch("1/2"))
    # of the shoulder's 1/4 what the splay leaves at the tip, all of it at the shoulder
    waste = hull(p, "front-rail", f"front-rail.{end}", f"{name} shoulder waste {end}")
    assert solid(waste) == cubic(
        HALF, inch("1/4") - wide + inch("1/4"), inch("2 1/2"), inch("1/2")
    )
    tip = Fraction(0) if end == "A" else LONG
    shoulder = inch("2 1/2") if end == "A" else LONG - inch("2 1/2")
    low, high = sorted((inch(out), inch(tenon_edge)))
    at_tip = inch(tenon_edge) + way * wide
    assert {w for u, w, _ in waste.points if u == tip} == {inch(out), at_tip}
    assert {w for u, w, _ in waste.points if u == shoulder} == {low, high}
    assert [one for one in overlaps(p) if one.level == "stop"] == []


def test_a_splayed_tenon_that_stands_proud_keeps_its_width_beyond_the_leg() -> None:
    p = beside("1/4", splay=inch("1/8"))
    # 1/8 of the shoulder's 1/4 is still waste beyond the leg; the slope starts at its face
    beyond = hull(p, "front-rail", "front-rail.A", "shoulder waste beyond the leg A")
    assert reach(beyond) == (inches("0 | 1/4"), inches("1 7/8 | 2"), CHEEKS)
    waste = hull(p, "front-rail", "front-rail.A", "bottom shoulder waste A")
    assert reach(waste) == (inches("1/4 | 2 3/4"), inches("1 3/4 | 2"), CHEEKS)


def test_a_wedge_beside_the_tenon_opens_the_mortise_on_both_faces() -> None:
    p = beside(splay=inch("1/8"))
    tops = marks_of(p, "front-left-leg", "front-rail.A", "mortise top")
    assert {(one.face, one.distance) for one in tops} == {
        ("far edge", inch("3 3/4")), ("edge", inch("3 9/16"))
    }  # fmt: skip
    bottoms = marks_of(p, "front-left-leg", "front-rail.A", "mortise bottom")
    assert {(one.face, one.distance) for one in bottoms} == {
        ("far edge", inch("5 3/4")), ("edge", inch("5 7/8"))
    }  # fmt: skip


def test_the_wedge_s_side_is_the_rail_s_edge_whichever_way_its_bearer_runs() -> None:
    """A kicker's edge looks to the left: to end A of the front rail, to end B of the back one."""
    choice = through(
        side_wedge=side_wedge(splay=inch("1/8")), top_shoulder=inch("1/2"),
        bottom_shoulder=inch("1/4"),
    )  # fmt: skip
    high = rail(sides=("front", "back"), width=inch(3))
    p = agreed(
        frame(high, crosses=(
            cross("kicker", "front rail", "back rail", upright=False, tenon=choice,
                  places=(inch(10), None, None)),
        ))
    )  # fmt: skip
    # the tenon 10 1/2 to 11 3/4 from the left; the wedge opens 1/4 inside and 7/16 outside to the
    # left of it, the splay 1/8 outside to the right
    for bearer, end, at, way in (
        ("front-rail", "A", inch("1 1/4"), +1), ("back-rail", "B", inch("46 3/4"), -1)
    ):  # fmt: skip
        assert reach(hull(p, bearer, f"kicker.{end}", "wedge space"))[0] == tuple(
            sorted(way * (inch(x) - at) for x in ("10 1/16", "10 1/2"))
        )
        for face, low, high_end in (
            ("back", "10 1/4", "11 3/4"), ("face", "10 1/16", "11 7/8")
        ):  # fmt: skip
            lines = {
                one.distance
                for role in ("mortise start", "mortise end")
                for one in marks_of(p, bearer, f"kicker.{end}", role)
                if one.face == face
            }
            assert lines == {way * (inch(x) - at) for x in (low, high_end)}


def test_the_wedge_to_cut_is_left_long() -> None:
    p = beside()
    # a quarter of the leg more at both ends: the taper of 3/16 over the leg goes on for 3/64
    assert [
        (one.many, one.thickness, one.width, one.length, one.thin) for one in p.loose
    ] == [(1, inch("1/2"), inch("31/64"), inch("3 3/4"), inch("13/64"))] * 2


def test_a_wedge_is_nowhere_thinner_than_nothing() -> None:
    # 1/16 at the inner face, and 7/16 of taper: a quarter of that beyond it is more
    p = beside(outer=inch("1/2"), inner=inch("1/16"))
    assert all(one.thin >= 0 for one in p.loose)


TWINS = """
piece = "Twins"
unit = "in"
[frame]
length = 48
depth = 24
height = 30
leg = { width = "2 1/2", thickness = "2 1/2" }
[[frame.rail]]
name = "rail"
sides = ["front"]
below_top = 4
width = 2
thickness = 2
tenon = { through = true, MANY = {}, side_wedge = { outer = "7/16", inner = "1/4" } }
"""


@pytest.mark.parametrize("many", ["pair", "twin"])
def test_a_wedge_beside_the_tenon_needs_one_tenon(many: str, tmp_path: Path) -> None:
    path = tmp_path / "piece.toml"
    path.write_text(TWINS.replace("MANY", many), encoding="utf-8")
    with pytest.raises(BadPiece, match="needs one tenon"):
        work_out(read_piece(path))


def test_no_wedges_no_cuts() -> None:
    p = wedged()
    assert p.loose == ()
    assert not any("saw cut" in one.role or "wedge" in one.role for one in p.cuts)
    plain = agreed(frame(rail(width=inch(2), tenon=tenon())))
    assert plain.loose == ()
