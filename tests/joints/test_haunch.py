"""Haunches and their sockets: where they lie, what is cut for them, and their sums.

The rail is 3 x 1 1/8 in, its tenon 3/8 in thick in the middle and 1 1/4 long; a haunch is a
third of the rail wide, 1 in. The leg is 2 1/2 in square.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given, settings

from layout.checks.bodies import left_of, shape_body
from layout.joints import haunch as haunches
from layout.joints.choices import HaunchChoice, PairChoice, TwinChoice
from layout.piece import Piece
from layout.solid.convex import Body, volume
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    cubic,
    frame,
    haunch,
    hull,
    inch,
    inches,
    joint_of,
    low_rail,
    marks_of,
    panel,
    rail,
    reach,
    seat,
    solid,
    tenon,
    total,
)

RailEdge = Literal["edge", "far edge"]
HALF = Fraction(1, 2)
EDGES: tuple[RailEdge, RailEdge] = ("edge", "far edge")
# the rail is 45 1/2 in from tip to tip: 48 - 2 x 2 1/2 + 2 x 1 1/4
LONG = inch("45 1/2")


def haunched(choice: HaunchChoice, below: str = "0", **changes: object) -> Piece:
    one = tenon(haunch=choice, **changes)
    return agreed(frame(rail(width=inch(3), below_top=inch(below), tenon=one)))


def from_tip(end: str, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """A reach from the tip of the tenon, counted from end A."""
    return (low, high) if end == "A" else (LONG - high, LONG - low)


# -- how long


@pytest.mark.parametrize(
    ("tenon_length", "own", "long"),
    [
        ("1 1/4", None, "1/2"),  # the usual length: half of the tenon is 5/8
        ("1", None, "1/2"),  # level
        ("3/4", None, "3/8"),  # half of the tenon
        ("1 1/4", "7/8", "7/8"),  # as given
        ("3/4", "5/8", "5/8"),
    ],
)
@pytest.mark.parametrize("kind", ["square", "sloped"])
def test_length(
    kind: Literal["square", "sloped"], tenon_length: str, own: str | None, long: str
) -> None:
    choice = haunch(kind=kind, length=None if own is None else inch(own))
    # a groove has no say in it
    assert haunches.length(choice, inch(tenon_length), inch("3/16")) == inch(long)


def test_length_in_a_groove_and_without_a_haunch() -> None:
    filling = haunch(kind="groove", length=inch(1))
    assert haunches.length(filling, inch("1 1/4"), inch("3/16")) == inch("3/16")
    assert haunches.length(None, inch("1 1/4"), inch("3/16")) == 0


# -- square


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize(
    ("edge", "width", "along_leg"),
    # the rail 4 in below the top: haunch 4 to 5, or 7 - 1 to 7
    [("edge", "0|1", "4|5"), ("far edge", "2|3", "6|7")],
)
def test_square(end: str, edge: RailEdge, width: str, along_leg: str) -> None:
    p = haunched(haunch(edge=edge), below="4")
    name = "top" if edge == "edge" else "bottom"
    waste = hull(p, "front-rail", f"front-rail.{end}", f"{name} shoulder waste {end}")
    # the haunch stands 1/2 of the tenon's 1 1/4: 3/4 is cut away beside the tenon
    assert reach(waste) == (
        from_tip(end, Fraction(0), inch("3/4")), inches(width), inches("3/8 | 3/4")
    )  # fmt: skip
    assert solid(waste) == cubic(inch("3/4"), inch(1), inch("3/8"))
    leg = "front-left-leg" if end == "A" else "front-right-leg"
    socket = hull(p, leg, f"front-rail.{end}", "haunch socket")
    # 1/2 + 1/16 deep from the leg's inside at 2 1/2
    assert reach(socket) == (inches(along_leg), inches("1 15/16 | 2 1/2"), inches("3/8 | 3/4"))
    assert solid(socket) == cubic(inch("9/16"), inch(1), inch("3/8"))


# -- sloped


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize("edge", EDGES)
def test_sloped(end: str, edge: RailEdge) -> None:
    p = haunched(haunch(kind="sloped", edge=edge), below="4")
    name = "top" if edge == "edge" else "bottom"
    waste = hull(p, "front-rail", f"front-rail.{end}", f"{name} shoulder waste {end}")
    out, tenon_side = (0, inch(1)) if edge == "edge" else (inch(3), inch(2))
    # cut to the shoulder at the rail's edge, to 3/4 beside the tenon
    corners = {
        (u if end == "A" else LONG - u, w, t)
        for u, w in ((0, out), (inch("1 1/4"), out), (0, tenon_side), (inch("3/4"), tenon_side))
        for t in inches("3/8 | 3/4")
    }
    assert set(waste.points) == corners
    assert solid(waste) == cubic(HALF, inch("1 1/4") + inch("3/4"), inch(1), inch("3/8"))
    leg = "front-left-leg" if end == "A" else "front-right-leg"
    socket = hull(p, leg, f"front-rail.{end}", "haunch socket")
    # from the leg's top: the edge at 4 or 7, the tenon's side at 5 or 6, 9/16 deep there
    at_edge, at_tenon = inches("4|5") if edge == "edge" else inches("7|6")
    inside, deep = inches("2 1/2 | 1 15/16")
    assert set(socket.points) == {
        (along, across, t)
        for along, across in ((at_edge, inside), (at_tenon, inside), (at_tenon, deep))
        for t in inches("3/8 | 3/4")
    }
    assert solid(socket) == cubic(HALF, inch("9/16"), inch(1), inch("3/8"))


@pytest.mark.parametrize("kind", ["square", "sloped"])
@pytest.mark.parametrize("edge", EDGES)
@pytest.mark.parametrize("end", ["A", "B"])
@given(
    fractions(Fraction(1), Fraction(30), 8),
    fractions(Fraction(0), Fraction(4), 8),
    fractions(Fraction(1), Fraction(60), 8),
)
@settings(max_examples=6, deadline=None)
def test_the_haunch_fills_its_socket_but_for_the_room(
    kind: Literal["square", "sloped"],
    edge: RailEdge,
    end: str,
    long: Fraction,
    room: Fraction,
    wide: Fraction,
) -> None:
    """Put together, all of the haunch lies in its socket; what stays empty there is the room."""
    choice = haunch(kind=kind, edge=edge, length=long, room=room, width=wide)
    p = haunched(choice, below="4")
    joint = joint_of(p, f"front-rail.{end}")
    name = "top" if edge == "edge" else "bottom"
    low, high = (Fraction(0), wide) if edge == "edge" else (inch(3) - wide, inch(3))
    whole = joint.block((Fraction(0), joint.size.length), (low, high), inches("3/8 | 3/4"))
    gap = shape_body(whole)
    waste = hull(p, "front-rail", joint.name, f"{name} shoulder waste {end}")
    assert isinstance(gap, Body)
    here = left_of(gap, [shape_body(waste)])  # type: ignore[list-item]
    half = 1 if kind == "square" else HALF
    assert sum(map(volume, here)) == cubic(half, long, wide, inch("3/8"))
    socket = hull(p, joint.bearer.id, joint.name, "haunch socket")
    place = joint.bearer.placement, joint.rail.placement
    carried = shape_body(
        socket._replace(
            points=tuple(place[1].to_part(place[0].to_piece(one)) for one in socket.points)
        )
    )
    assert isinstance(carried, Body)
    outside = [rest for piece_of in here for rest in left_of(piece_of, [carried])]
    assert outside == []
    assert volume(carried) == cubic(half, long + room, wide, inch("3/8"))


# -- lines and sums


@pytest.mark.parametrize("edge", EDGES)
def test_lines_of_a_square_haunch(edge: RailEdge) -> None:
    p = haunched(haunch(edge=edge), below="4")
    at = {"A": inch("3/4"), "B": LONG - inch("3/4")}
    across = inches("0|1") if edge == "edge" else inches("2|3")
    for end, where in at.items():
        lines = marks_of(p, "front-rail", f"front-rail.{end}", "haunch end")
        assert {(one.face, one.line) for one in lines} == {
            ("face", ((where, across[0]), (where, across[1]))),
            ("back", ((where, across[0]), (where, across[1]))),
            (edge, ((where, inch("3/8")), (where, inch("3/4")))),
        }
        assert {(one.tool, one.source, one.distance) for one in lines} == {
            ("knife", "end A", where)
        }
    # on the leg: both walls along the haunch, and its end across at the rail's edge
    along, edge_at = (inches("4|5"), inch(4)) if edge == "edge" else (inches("6|7"), inch(7))
    (line,) = marks_of(p, "front-left-leg", "front-rail.A", "haunch edge")
    assert (line.face, line.tool, line.distance) == ("far edge", "knife", edge_at)
    assert line.line == ((edge_at, inch("3/8")), (edge_at, inch("3/4")))
    walls = [
        one
        for one in p.marks_of("front-left-leg")
        if one.role.endswith("wall") and one.line and one.line[0][0] == along[0]
        and one.line[1][0] == along[1]
    ]  # fmt: skip
    assert {(one.role, one.distance, one.pair, one.face) for one in walls} == {
        ("near wall", inch("3/8"), inches("3/8 | 3/4"), "far edge"),
        ("far wall", inch("3/4"), inches("3/8 | 3/4"), "far edge"),
    }


def test_a_haunch_at_the_leg_s_end_has_no_line_there() -> None:
    p = haunched(haunch())
    assert marks_of(p, "front-left-leg", "front-rail.A", "haunch edge") == []
    low = rail(
        width=inch(3), below_top=None, above_floor=Fraction(0),
        tenon=tenon(haunch=haunch(edge="far edge")),
    )  # fmt: skip
    foot = agreed(frame(low))
    assert reach(hull(foot, "front-left-leg", "front-rail.A", "haunch socket"))[0] == inches(
        "29|30"
    )
    assert marks_of(foot, "front-left-leg", "front-rail.A", "haunch edge") == []


@pytest.mark.parametrize("edge", EDGES)
def test_the_shoulder_line_leaves_out_a_haunch_that_shows(edge: RailEdge) -> None:
    def at_shoulder(p: Piece) -> list[tuple[Fraction, Fraction]]:
        return sorted(
            (one.line[0][1], one.line[1][1])
            for one in marks_of(p, "front-rail", "front-rail.A", "shoulder")
            if one.face == edge and one.line
        )

    assert at_shoulder(haunched(haunch(edge=edge), below="4")) == [
        inches("0 | 3/8"), inches("3/4 | 1 1/8")
    ]  # fmt: skip
    # a sloped one runs out to nothing there: the line goes right across
    assert at_shoulder(haunched(haunch(kind="sloped", edge=edge), below="4")) == [
        inches("0 | 1 1/8")
    ]


@pytest.mark.parametrize("bare", ["face", "back"])
@pytest.mark.parametrize("edge", EDGES)
def test_on_a_bare_side_the_shoulder_is_lined_beside_tenon_and_haunch(
    edge: RailEdge, bare: str
) -> None:
    p = haunched(haunch(edge=edge), below="4", barefaced=bare)
    lines = [
        one.line
        for one in marks_of(p, "front-rail", "front-rail.A", "shoulder")
        if one.face == bare
    ]
    # 1 of haunch, then the tenon, then 1/4 of shoulder at the other edge
    low, high = inches("2 3/4 | 3") if edge == "edge" else inches("0 | 1/4")
    at = inch("1 1/4")
    assert lines == [((at, low), (at, high))]


def test_on_a_bare_side_a_haunch_in_the_web_is_not_crossed_either() -> None:
    # eighths of 3: web 1 1/8 to 1 7/8
    for pair, between in ((WEB, []), (WEB._replace(haunch=Fraction(0)), [inches("1 1/8|1 7/8")])):
        choice = tenon(pair=pair, barefaced="back")
        p = agreed(frame(rail(width=inch(3), below_top=inch(4), tenon=choice)))
        spans = [
            (one.line[0][1], one.line[1][1])
            for one in marks_of(p, "front-rail", "front-rail.A", "shoulder")
            if one.face == "back" and one.line
        ]
        assert sorted(spans) == [inches("0 | 3/8"), *between, inches("2 5/8 | 3")]


@pytest.mark.parametrize("edge", EDGES)
def test_lines_of_a_sloped_haunch(edge: RailEdge) -> None:
    p = haunched(haunch(kind="sloped", edge=edge), below="4")
    out, beside = inches("0|1") if edge == "edge" else inches("3|2")
    for end in ("A", "B"):
        ends = {
            (inch("3/4") if end == "A" else LONG - inch("3/4"), beside),
            (inch("1 1/4") if end == "A" else LONG - inch("1 1/4"), out),
        }
        lines = marks_of(p, "front-rail", f"front-rail.{end}", "haunch slope")
        assert sorted(one.face for one in lines) == ["back", "face"]
        assert all(one.tool == "bevel" and set(one.line or ()) == ends for one in lines)
        assert marks_of(p, "front-rail", f"front-rail.{end}", "haunch end") == []


@pytest.mark.parametrize("kind", ["square", "sloped"])
@pytest.mark.parametrize("edge", EDGES)
def test_sums(kind: Literal["square", "sloped"], edge: RailEdge) -> None:
    p = haunched(haunch(kind=kind, edge=edge), below="4")
    # 1 1/4 - 1/2, and as far from the other end
    assert total(p, "front-rail", "haunch at end A from end A") == inch("3/4")
    assert total(p, "front-rail", "haunch at end B from end A") == inch("44 3/4")
    for leg, end in (("front-left-leg", "A"), ("front-right-leg", "B")):
        assert total(p, leg, f"haunch socket depth (front rail, end {end})") == inch("9/16")
    assert total(p, "front-rail", "haunch width") == inch(1)
    assert not any(one.name == "haunch length" for one in p.sums)


def test_a_length_that_was_halved_has_its_sum() -> None:
    p = haunched(haunch(), length=inch("3/4"))
    assert total(p, "front-rail", "haunch length") == inch("3/8")
    assert total(p, "front-left-leg", "haunch socket depth (front rail, end A)") == inch("7/16")


# -- in a groove


def test_a_haunch_that_fills_a_groove_needs_no_socket() -> None:
    grooved = seat(kind="groove", in_legs="groove", run="through")  # 1/4 wide, lip 3/8
    choice = tenon(thickness=None, haunch=haunch(kind="groove"))
    p = agreed(
        frame(rail(width=inch(3), tenon=choice), low_rail(width=inch(3))),
        panel(grooved, "front under rail"),
    )
    assert not any("socket" in one.role for one in p.cuts)
    size = joint_of(p, "front-rail.A").size
    # as long as the lip, as thick as the groove, in its place: (1 1/8 - 1/4) / 2 from the face
    assert (size.haunch_length, size.thickness, size.outer) == inches("3/8 | 1/4 | 7/16")
    waste = hull(p, "front-rail", "front-rail.A", "top shoulder waste A")
    assert reach(waste) == (inches("0 | 7/8"), inches("0|1"), inches("7/16 | 11/16"))
    # the leg's groove, run out at its top, is just where the haunch comes
    groove = hull(p, "front-left-leg", "front-panel.seat", "groove")
    assert reach(groove)[1:] == (inches("2 1/8 | 2 1/2"), inches("7/16 | 11/16"))
    assert total(p, "front-rail", "haunch at end A from end A") == inch("7/8")


# -- in the web of a pair


WEB = PairChoice(inch("3/4"), inch("3/8"), inch("1/16"))


def test_a_haunch_in_the_web() -> None:
    # eighths of 3 at the edges; 3 - 2 x 3/8 - 3/4 = 1 1/2, so tenons of 3/4: web 1 1/8 to 1 7/8
    p = agreed(frame(rail(width=inch(3), below_top=inch(4), tenon=tenon(pair=WEB))))
    for end, leg in (("A", "front-left-leg"), ("B", "front-right-leg")):
        waste = hull(p, "front-rail", f"front-rail.{end}", f"web waste {end}")
        assert reach(waste) == (
            from_tip(end, Fraction(0), inch("7/8")),
            inches("1 1/8 | 1 7/8"),
            inches("3/8 | 3/4"),
        )
        socket = hull(p, leg, f"front-rail.{end}", "web socket")
        # 4 below the top; 3/8 + 1/16 deep
        assert reach(socket) == (
            inches("5 1/8 | 5 7/8"), inches("2 1/16 | 2 1/2"), inches("3/8 | 3/4")
        )  # fmt: skip
        depth = f"web socket depth (front rail, end {end})"
        assert total(p, leg, depth) == inch("7/16")
    assert total(p, "front-rail", "web haunch at end A from end A") == inch("7/8")
    assert total(p, "front-rail", "web haunch at end B from end A") == LONG - inch("7/8")
    # lines on both sides of the rail
    lines = marks_of(p, "front-rail", "front-rail.A", "haunch end")
    across = ((inch("7/8"), inch("1 1/8")), (inch("7/8"), inch("1 7/8")))
    assert [(one.face, one.line) for one in lines] == [("face", across), ("back", across)]


def test_a_web_without_a_haunch_is_cut_to_the_shoulder() -> None:
    p = agreed(frame(rail(width=inch(3), tenon=tenon(pair=PairChoice(inch("3/4"))))))
    waste = hull(p, "front-rail", "front-rail.A", "web waste A")
    assert solid(waste) == cubic(inch("1 1/4"), inch("3/4"), inch("3/8"))
    assert not any("socket" in one.role for one in p.cuts)


def test_a_haunch_at_the_edge_and_one_in_the_web() -> None:
    p = agreed(frame(rail(width=inch(4), tenon=tenon(pair=WEB, haunch=haunch()))))
    # a quarter of 4 for the haunch, an eighth below: 4 - 1 - 1/2 - 3/4 = 1 3/4
    roles = {one.role for one in p.cuts_of("front-left-leg")}
    assert roles == {"upper mortise", "lower mortise", "haunch socket", "web socket"}
    assert reach(hull(p, "front-left-leg", "front-rail.A", "web socket"))[0] == (
        inch("1 7/8"), inch("2 5/8")
    )  # fmt: skip


def test_twins_have_a_socket_each() -> None:
    # 2 - 2 x 3/8 - 1/2 leaves 3/8 before, between 1/2, behind 3/8
    choice = tenon(twin=TwinChoice(inch("1/2")), haunch=haunch())
    p = agreed(frame(rail(width=inch(3), thickness=inch(2), tenon=choice)))
    for role, through in (("outer", "3/8 | 3/4"), ("inner", "1 1/4 | 1 5/8")):
        socket = hull(p, "front-left-leg", "front-rail.A", f"{role} haunch socket")
        assert reach(socket) == (inches("0|1"), inches("1 15/16 | 2 1/2"), inches(through))
    # the waste between them goes to the shoulder; beside them to the haunch
    between = hull(p, "front-rail", "front-rail.A", "waste between the twins A")
    assert reach(between) == (inches("0 | 1 1/4"), inches("0|3"), inches("3/4 | 1 1/4"))


# -- in rails that bear a rail


@pytest.mark.parametrize("kind", ["square", "sloped"])
@pytest.mark.parametrize("edge", EDGES)
def test_a_muntin_s_haunch_lies_the_same_way_in_both_rails(
    kind: Literal["square", "sloped"], edge: RailEdge
) -> None:
    choice = tenon(length=inch("3/4"), haunch=haunch(kind=kind, edge=edge))
    p = agreed(
        frame(
            rail(width=inch(2)),
            low_rail(width=inch(2)),
            crosses=(cross("muntin", "front rail", "front low rail", tenon=choice),),
        )
    )
    # in the middle of rails 45 1/2 long from tip to tip, 2 wide: 21 3/4 to 23 3/4; a third, 2/3
    middle = LONG / 2
    third = inch("2/3")
    along = (middle - inch(1), middle - inch(1) + third)
    if edge == "far edge":
        along = (middle + inch(1) - third, middle + inch(1))
    for bearer, end in (("front-rail", "A"), ("front-low-rail", "B")):
        socket = hull(p, bearer, f"muntin.{end}", "haunch socket")
        assert socket.reach("L") == along
        # half of 3/4 and 1/16: into the upper rail from its far edge, the lower from its edge
        deep = inch("7/16")
        assert socket.reach("W") == ((inch(2) - deep, inch(2)) if end == "A" else (0, deep))
