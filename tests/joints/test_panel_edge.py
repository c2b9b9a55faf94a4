"""A panel's edges: what is left of its section is the panel less what is taken off, by shapely; the
lines and sums of each edge. In mm; the panel is 300 long, 200 wide and 16 thick, its tongue 10 long
and 6 thick.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from shapely import MultiPoint, Polygon, box
from shapely.geometry.base import BaseGeometry

from layout.joints.panel_edge import EDGES, Edge, Profile, pin, work
from layout.joints.worked import Worked
from layout.kit import usual_kit
from layout.mark import Cut, Witness, add, face_of
from layout.part import Part, Placement
from layout.solid.convex import body, volume

F = Fraction
KIT = usual_kit("mm")
PANEL = Part("panel", "panel", "panel", F(300), F(200), F(16),
             Placement((F(0), F(0), F(0)), "+X", "+Y", "+Z"), "oak")
LONG = F(10)
RAISED = Profile("raised", F(6), F(40), F(2))
RAISED_BACK = Profile("raised", F(5), F(36), F(0), F(3))
TONGUE = Profile("tongue", F(6))
TONGUE_BACK = Profile("tongue", F(6), back=F(4))
WHOLE_BACK = Profile("tongue", F(6), back=F(10))  # rabbeted behind only
PROFILES = [RAISED, RAISED_BACK, TONGUE, TONGUE_BACK, WHOLE_BACK]


def done(profile: Profile) -> Worked:
    return work(PANEL, "panel.edge", profile, LONG, KIT)


def whole(edge: Edge) -> Fraction:
    """The panel's size square to an edge."""
    return PANEL.length if edge.startswith("end") else PANEL.width


def from_edge(cut: Cut, edge: Edge) -> Polygon:
    """A cut seen along its edge: from the edge across the panel, and down from the face side."""
    axis = 0 if edge.startswith("end") else 1
    far = edge in ("end B", "far edge")
    spots = [(float(whole(edge) - point[axis] if far else point[axis]), float(point[2]))
             for point in cut.shape.points]  # type: ignore[union-attr]
    return MultiPoint(spots).convex_hull  # type: ignore[return-value]


def left(profile: Profile, edge: Edge) -> BaseGeometry:
    """The panel's section at an edge, 80 of it, less every waste of that edge."""
    section: BaseGeometry = box(0, 0, 80, 16)
    for cut in done(profile).cuts:
        if cut.role.endswith(f" {edge}") and not cut.role.endswith(f"far {edge}"):
            section = section.difference(from_edge(cut, edge))
    return section


# -- what is left


@pytest.mark.parametrize("edge", EDGES)
@pytest.mark.parametrize(
    ("profile", "outline"),
    [
        # tongue from 10 to 16 deep, up to 10 from the edge, then up to the step of 2 at 40
        (RAISED, [(0, 16), (0, 10), (10, 10), (40, 2), (40, 0), (80, 0), (80, 16)]),
        # 16 - 3 - 5 = 8 deep; no step at the field; 3 off behind
        (RAISED_BACK, [(0, 13), (0, 8), (10, 8), (36, 0), (80, 0), (80, 16), (10, 16), (10, 13)]),
        (TONGUE, [(0, 16), (0, 10), (10, 10), (10, 0), (80, 0), (80, 16)]),
        (TONGUE_BACK, [(0, 12), (0, 6), (10, 6), (10, 0), (80, 0), (80, 16), (10, 16), (10, 12)]),
        (WHOLE_BACK, [(0, 6), (0, 0), (80, 0), (80, 16), (10, 16), (10, 6)]),
    ],
    ids=["raised", "raised, behind too", "tongue", "tongue, behind too", "behind only"],
)
def test_the_section_that_is_left(
    profile: Profile, outline: list[tuple[int, int]], edge: Edge
) -> None:
    assert left(profile, edge).symmetric_difference(Polygon(outline)).area < 1e-9


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("edge", EDGES)
def test_every_waste_runs_along_its_whole_edge(profile: Profile, edge: Edge) -> None:
    run = PANEL.width if edge.startswith("end") else PANEL.length
    found = [cut for cut in done(profile).cuts
             if cut.role.endswith(f" {edge}") and not cut.role.endswith(f"far {edge}")]
    assert found
    for cut in found:
        assert cut.shape.reach("W" if edge.startswith("end") else "L") == (0, run)
        # a prism: its volume is its section's area times the run
        area = from_edge(cut, edge).area
        assert abs(float(volume(body(cut.shape.points)) / run) - area) < 1e-9  # type: ignore[union-attr]
        assert (cut.part, cut.joint) == ("panel", "panel.edge")


def test_a_plain_edge_takes_nothing_off() -> None:
    assert done(Profile("plain", F(16))) == Worked()
    assert left(Profile("plain", F(16)), "edge").area == 80 * 16


@pytest.mark.parametrize("profile", PROFILES)
def test_the_tongue_is_of_one_thickness_as_deep_as_the_groove(profile: Profile) -> None:
    front = profile.front(PANEL.thickness)
    assert front == 16 - profile.back - profile.tongue
    for edge in EDGES:
        for at in (F(1, 2), F(5), F(19, 2)):
            slit = left(profile, edge).intersection(box(float(at), -1, float(at) + 1e-6, 17))
            low, high = slit.bounds[1], slit.bounds[3]
            assert (round(low, 9), round(high, 9)) == (front, front + profile.tongue)


def test_the_roles_of_the_cuts() -> None:
    roles = {cut.role for cut in done(RAISED_BACK).cuts}
    assert roles == {f"{what} {edge}" for what in ("raise", "back waste") for edge in EDGES}
    assert {cut.role for cut in done(TONGUE).cuts} == {f"tongue waste {edge}" for edge in EDGES}
    assert {cut.role for cut in done(WHOLE_BACK).cuts} == {f"back waste {edge}" for edge in EDGES}


# -- lines


def lines(profile: Profile, face: str) -> set[tuple[object, ...]]:
    return {(one.tool, one.role, one.source, one.distance, one.line)
            for one in done(profile).marks if one.face == face}


def test_the_lines_of_a_raised_panel() -> None:
    assert lines(RAISED, "face") == {
        ("marking gauge", "field", "face edge", 40, ((0, 40), (300, 40))),
        ("marking gauge", "field", "far edge", 40, ((0, 160), (300, 160))),
        ("marking gauge", "field", "end A", 40, ((40, 0), (40, 200))),
        ("marking gauge", "field", "end B", 40, ((260, 0), (260, 200))),
    }
    # the tongue's far side is the panel's back: one line on each edge
    for edge in EDGES:
        run = 200 if edge.startswith("end") else 300
        assert lines(RAISED, edge) == {
            ("marking gauge", "near side of the tongue", "face side", 10, ((0, 10), (run, 10))),
        }
    assert lines(RAISED, "back") == set()


def test_the_lines_of_a_tongue_with_wood_off_behind_it() -> None:
    for face in ("face", "back"):
        assert {(role, source, at) for _, role, source, at, _ in lines(TONGUE_BACK, face)} == {
            ("tongue shoulder", source, 10)
            for source in ("face edge", "far edge", "end A", "end B")
        }
    # one stand of a mortise gauge strikes both of its sides
    for edge in EDGES:
        found = [one for one in done(TONGUE_BACK).marks if one.face == edge]
        assert {(one.role, one.distance) for one in found} == {
            ("near side of the tongue", 6), ("far side of the tongue", 12),
        }
        assert {one.pair for one in found} == {(6, 12)}
        assert {one.tool for one in found} == {"mortise gauge"}


def test_a_kit_with_a_marking_gauge_alone() -> None:
    kit = KIT._replace(gauge="marking gauge")
    found = work(PANEL, "panel.edge", TONGUE_BACK, LONG, kit).marks
    assert {(one.tool, one.pair) for one in found} == {("marking gauge", None)}


def test_a_tongue_flush_with_the_face_has_no_shoulder_there() -> None:
    assert lines(WHOLE_BACK, "face") == set()
    assert {at for _, _, _, at, _ in lines(WHOLE_BACK, "back")} == {10}
    assert {(role, at) for _, role, _, at, _ in lines(WHOLE_BACK, "edge")} == {
        ("far side of the tongue", 6)
    }


# -- sums


def sums(profile: Profile) -> dict[str, tuple[Fraction, list[tuple[int, str, Fraction]]]]:
    return {one.name: (one.total, [tuple(term) for term in one.terms])  # type: ignore[misc]
            for one in done(profile).sums}


def test_the_sums() -> None:
    assert sums(RAISED) == {
        "near side of the tongue from the face side": (
            10, [(1, "thickness of the panel", 16), (-1, "thickness of the tongue", 6)]),
        "bevel, tongue to field": (
            30, [(1, "border, edge to field", 40), (-1, "length of the tongue", 10)]),
    }
    assert sums(TONGUE_BACK) == {
        "near side of the tongue from the face side": (
            6, [(1, "thickness of the panel", 16), (-1, "wood behind the tongue", 4),
                (-1, "thickness of the tongue", 6)]),
        "far side of the tongue from the face side": (
            12, [(1, "near side of the tongue", 6), (1, "thickness of the tongue", 6)]),
    }
    assert list(sums(WHOLE_BACK)) == ["far side of the tongue from the face side"]
    assert sums(WHOLE_BACK)["far side of the tongue from the face side"][0] == 6


def test_a_pin_is_a_pencil_line_on_the_back_over_the_groove() -> None:
    told = add("panel pin from end A", "rail",
               Witness(face_of("rail", "end A"), face_of("panel", "edge")),
               (+1, "tenon", F(20)), (+1, "half of the opening", F(150)))
    rail = PANEL._replace(id="rail")
    found = pin(rail, "seat", (F(190), F(200)), told)
    (mark,) = found.marks
    assert (mark.part, mark.joint, mark.face, mark.tool, mark.role) == (
        "rail", "seat", "back", "pencil", "panel pin")
    assert (mark.source, mark.distance, mark.line) == ("end A", 170, ((170, 190), (170, 200)))
    assert found.sums == (told,)
    assert found.cuts == ()
