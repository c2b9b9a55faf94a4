"""Mouldings: the longer face shoulder, its mitres, and what the leg's moulding loses.

The rail is 2 x 1 1/8 in, 4 in below the leg's top, in three 3/8: shoulder, tenon, shoulder. The
tenon is 1 1/4 in long, the leg 2 1/2 in square, the moulding 1/4 in wide.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from layout.builds.frame import SIDES
from layout.checks.solids import findings as overlaps
from layout.joints.choices import RailEdge
from layout.piece import Piece
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cubic,
    frame,
    hull,
    inch,
    inches,
    marks_of,
    mould,
    rail,
    reach,
    solid,
    tenon,
    total,
)

HALF = Fraction(1, 2)
LONG = inch("45 1/2")
BOTH: tuple[RailEdge, RailEdge] = ("edge", "far edge")
EDGES: list[tuple[RailEdge, ...]] = [("edge",), ("far edge",), BOTH]


def moulded(depth: str = "1/4", *edges: RailEdge, side: str = "front", **changes: object) -> Piece:
    choice = mould(depth=inch(depth), edges=edges or ("far edge",), **changes)
    own = tenon(mould=choice)
    return agreed(frame(rail(sides=(side,), width=inch(2), below_top=inch(4), tenon=own)))


def from_tip(end: str, low: str, high: str) -> tuple[Fraction, Fraction]:
    a, b = inch(low), inch(high)
    return (a, b) if end == "A" else (LONG - b, LONG - a)


@pytest.mark.parametrize("end", ["A", "B"])
def test_the_face_shoulder_lies_nearer_the_tip_by_the_moulding(end: str) -> None:
    p = moulded()
    joint = f"front-rail.{end}"
    # 1 1/4 - 1/4, as deep as the moulding; behind it to the plain shoulder
    before = hull(p, "front-rail", joint, f"moulding shoulder waste {end}")
    assert reach(before) == (from_tip(end, "0", "1"), inches("0|2"), inches("0 | 1/4"))
    behind = hull(p, "front-rail", joint, f"front cheek waste {end}")
    assert reach(behind) == (from_tip(end, "0", "1 1/4"), inches("0|2"), inches("1/4 | 3/8"))
    plain = inch("1 1/4") if end == "A" else LONG - inch("1 1/4")
    longer = inch(1) if end == "A" else LONG - inch(1)
    width, thickness, depth = inches("2 | 1 1/8 | 1/4")
    # on the plain edge the longer shoulder shows over the moulding's depth; on the moulded one the
    # mitre takes it
    assert shoulder_lines(p, joint) == {
        ("long shoulder", "face", longer, Fraction(0), width),
        ("long shoulder", "edge", longer, Fraction(0), depth),
        ("shoulder", "edge", plain, depth, thickness),
        ("shoulder", "far edge", plain, Fraction(0), thickness),
        ("shoulder", "back", plain, Fraction(0), width),
    }


def shoulder_lines(p: Piece, joint: str) -> set[tuple[str, str, Fraction, Fraction, Fraction]]:
    """Knife lines round a shoulder: role, surface, where along the rail, from, to."""
    found = set()
    for role in ("shoulder", "long shoulder"):
        for one in marks_of(p, "front-rail", joint, role):
            assert one.line is not None
            assert one.line[0][0] == one.line[1][0] == one.distance
            found.add((role, one.face, one.distance, one.line[0][1], one.line[1][1]))
    return found


def test_the_tenon_s_lines_on_the_face_end_at_the_longer_shoulder() -> None:
    p = moulded()
    for end in ("A", "B"):
        for role, at in (("tenon top", inch("1/4")), ("tenon bottom", inch("1 3/4"))):
            lines = {
                one.face: one.line for one in marks_of(p, "front-rail", f"front-rail.{end}", role)
            }
            near, far = from_tip(end, "0", "1")
            assert lines["face"] == ((near, at), (far, at))
            near, far = from_tip(end, "0", "1 1/4")
            assert lines["back"] == ((near, at), (far, at))


@pytest.mark.parametrize("edges", EDGES)
def test_the_longer_shoulder_shows_on_plain_edges_only(edges: tuple[RailEdge, ...]) -> None:
    p = moulded("1/4", *edges)
    shows = {
        line[1] for line in shoulder_lines(p, "front-rail.A") if line[0] == "long shoulder"
    }
    assert shows == {"face", *(edge for edge in BOTH if edge not in edges)}


@pytest.mark.parametrize("depth", ["3/8", "1/2"])
def test_a_moulding_as_deep_as_the_shoulder_leaves_one_waste(depth: str) -> None:
    p = moulded(depth)
    waste = hull(p, "front-rail", "front-rail.A", "front cheek waste A")
    assert reach(waste) == (inches("0|1"), inches("0|2"), inches("0 | 3/8"))
    assert not any(one.role.startswith("moulding shoulder") for one in p.cuts)


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize(
    ("edge", "out", "inside"), [("edge", "0", "1/4"), ("far edge", "2", "1 3/4")]
)
def test_a_mitre_at_each_moulded_edge(end: str, edge: RailEdge, out: str, inside: str) -> None:
    p = moulded("1/4", edge)
    role = f"moulding mitre waste, {edge} {end}"
    waste = hull(p, "front-rail", f"front-rail.{end}", role)
    corners = (("1 1/4", out), ("1", inside), ("1", out))
    assert set(waste.points) == {
        (inch(u) if end == "A" else LONG - inch(u), inch(w), t)
        for u, w in corners
        for t in inches("0 | 1/4")
    }
    assert solid(waste) == cubic(HALF, inch("1/4"), inch("1/4"), inch("1/4"))
    (line,) = marks_of(p, "front-rail", f"front-rail.{end}", "moulding mitre")
    assert (line.face, line.tool) == ("face", "bevel")
    assert set(line.line or ()) == {
        (inch(u) if end == "A" else LONG - inch(u), inch(w)) for u, w in corners[:2]
    }
    mitres = [one.role for one in p.cuts if one.role.startswith("moulding mitre")]
    assert len(mitres) == 2  # one an end


@pytest.mark.parametrize(("end", "leg"), [("A", "front-left-leg"), ("B", "front-right-leg")])
@pytest.mark.parametrize(
    ("edges", "top", "bottom"),
    [(("edge",), "1/4", "0"), (("far edge",), "0", "1/4"), (BOTH, "1/4", "1/4")],
)
def test_the_leg_is_cut_back_between_the_mitres(
    end: str, leg: str, edges: tuple[RailEdge, ...], top: str, bottom: str
) -> None:
    p = moulded("1/4", *edges)
    cut = hull(p, leg, f"front-rail.{end}", "moulding cut back")
    inside, back = inches("2 1/2 | 2 1/4")
    assert set(cut.points) == {
        (along, across, t)
        for along, across in (
            (inch(4), inside), (inch(6), inside),
            (inch(6) - inch(bottom), back), (inch(4) + inch(top), back),
        )
        for t in inches("0 | 1/4")
    }  # fmt: skip
    # 2 at the leg's edge, less the mitres at the line
    mean = (inch(2) + inch(2) - inch(top) - inch(bottom)) / 2
    assert solid(cut) == cubic(mean, inch("1/4"), inch("1/4"))


def test_lines_on_the_leg() -> None:
    p = moulded()
    leg, joint = "front-left-leg", "front-rail.A"
    (line,) = marks_of(p, leg, joint, "moulding cut back")
    assert (line.face, line.tool, line.source, line.distance) == (
        "face", "marking gauge", "face edge", inch("2 1/4")
    )  # fmt: skip
    assert line.line == (inches("4 | 2 1/4"), inches("5 3/4 | 2 1/4"))
    (mitre,) = marks_of(p, leg, joint, "moulding mitre")
    assert (mitre.face, mitre.tool) == ("face", "bevel")
    assert set(mitre.line or ()) == {inches("6 | 2 1/2"), inches("5 3/4 | 2 1/4")}
    # square across at the plain edge
    (plain,) = marks_of(p, leg, joint, "rail edge")
    assert (plain.tool, plain.distance, plain.line) == (
        "knife", inch(4), (inches("4 | 2 1/4"), inches("4 | 2 1/2"))
    )  # fmt: skip
    # how deep, on the edge that the rail comes to
    (deep,) = marks_of(p, leg, joint, "moulding depth")
    assert (deep.face, deep.source, deep.distance) == ("far edge", "face side", inch("1/4"))
    assert deep.line == (inches("4 | 1/4"), inches("6 | 1/4"))


@pytest.mark.parametrize("edges", EDGES)
def test_sums(edges: tuple[RailEdge, ...]) -> None:
    p = moulded("1/4", *edges)
    assert total(p, "front-rail", "face shoulder at end A from end A") == inch(1)
    assert total(p, "front-rail", "face shoulder at end B from end A") == inch("44 1/2")
    for leg, end in (("front-left-leg", "A"), ("front-right-leg", "B")):
        name = f"moulding cut back from the face edge (front rail, end {end})"
        assert total(p, leg, name) == inch("2 1/4")


def test_a_side_rail_s_moulding_is_cut_back_on_the_leg_s_edge() -> None:
    p = moulded(side="left")
    # the left rail's end B meets the front leg: face edge outside, inward along T
    cut = hull(p, "front-left-leg", "left-rail.B", "moulding cut back")
    assert reach(cut) == (inches("4|6"), inches("0 | 1/4"), inches("2 1/4 | 2 1/2"))
    (line,) = marks_of(p, "front-left-leg", "left-rail.B", "moulding cut back")
    assert (line.face, line.source, line.distance) == ("edge", "face side", inch("2 1/4"))
    name = "moulding cut back from the face side (left rail, end B)"
    assert total(p, "front-left-leg", name) == inch("2 1/4")


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("edges", EDGES)
@given(
    fractions(Fraction(1), Fraction(12), 8),
    fractions(Fraction(1), Fraction(9), 8),
)
@settings(max_examples=5, deadline=None)
def test_rail_and_leg_share_the_moulding_s_wood_out_without_a_gap(
    side: str, edges: tuple[RailEdge, ...], wide: Fraction, deep: Fraction
) -> None:
    """What the leg gives up is just what the rail's longer shoulder takes."""
    p = agreed(
        frame(
            rail(sides=(side,), width=inch(2), below_top=inch(4),
                 tenon=tenon(mould=mould(width=wide, depth=deep, edges=edges)))
        )
    )  # fmt: skip
    assert [one for one in overlaps(p) if one.level == "stop"] == []
    for end in ("A", "B"):
        lost = [one for one in p.cuts if one.role == "moulding cut back" and one.joint[-1] == end]
        mitres = [one for one in p.cuts if one.role.endswith(end) and "mitre" in one.role]
        taken = cubic(wide, inch(2), deep) - sum(solid(one.shape) for one in mitres)
        assert [solid(one.shape) for one in lost] == [taken]
