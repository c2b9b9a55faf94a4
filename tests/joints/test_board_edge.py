"""Grooves and rabbets along boards: where they lie, how they are struck, what is added up.

A board 300 x 100 x 20 mm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.joints.board_edge import Groove, Rabbet, groove, rabbet_role, rabbets
from layout.kit import usual_kit
from layout.part import Part, Placement
from tests.joints.test_dovetail import line

F = Fraction
ZERO = F(0)
BOARD = Part(
    "board", "board", "board", F(300), F(100), F(20),
    Placement((ZERO, ZERO, ZERO), "+X", "+Y", "+Z"),
)
KIT = usual_kit("mm")
SIZE = Groove((F(6), F(12)), F(5), (ZERO, F(300)))


def test_a_groove_runs_from_end_to_end_between_its_walls() -> None:
    done = groove(BOARD, "box.bottom", SIZE, KIT)
    (cut,) = done.cuts
    assert cut.key == ("board", "box.bottom", "bottom groove")
    assert [cut.shape.reach(axis) for axis in ("L", "W", "T")] == [(0, 300), (6, 12), (0, 5)]
    assert [(m.face, m.tool, m.role, m.source, m.distance, m.line, m.pair) for m in done.marks] == [
        ("face", "mortise gauge", "near groove wall", "face edge", 6, line(0, 6, 300, 6), (6, 12)),
        ("face", "mortise gauge", "far groove wall", "face edge", 12, line(0, 12, 300, 12),
         (6, 12)),
    ]
    assert done.sums == ()


def test_a_marking_gauge_strikes_one_wall_at_a_time() -> None:
    done = groove(BOARD, "box.bottom", SIZE, usual_kit("mm", "marking gauge"))
    assert [(mark.tool, mark.distance, mark.pair) for mark in done.marks] == [
        ("marking gauge", 6, None), ("marking gauge", 12, None),
    ]


def test_a_groove_at_the_very_edge_has_no_near_wall_to_set() -> None:
    done = groove(BOARD, "box.bottom", SIZE._replace(walls=(ZERO, F(6))), KIT)
    assert {(mark.tool, mark.pair) for mark in done.marks} == {("marking gauge", None)}


def test_a_stopped_groove_is_knifed_where_it_stops() -> None:
    done = groove(BOARD, "box.bottom", SIZE._replace(run=(F(9), F(291))), KIT)
    assert done.cuts[0].shape.reach("L") == (9, 291)
    assert [(m.tool, m.source, m.distance, m.line) for m in done.marks
            if m.role == "groove stop"] == [
        ("knife", "end A", 9, line(9, 6, 9, 12)), ("knife", "end A", 291, line(291, 6, 291, 12)),
    ]
    assert done.marks[0].line == line(9, 6, 291, 6)
    one_end = groove(BOARD, "box.bottom", SIZE._replace(run=(F(9), F(300))), KIT)
    assert [m.distance for m in one_end.marks if m.role == "groove stop"] == [9]


def test_an_empty_groove_is_none() -> None:
    assert groove(BOARD, "j", SIZE._replace(deep=ZERO), KIT) == ((), (), (), (), ())


@pytest.mark.parametrize(
    ("edge", "role", "reach", "width_line", "source", "distance", "depth_line"),
    [
        ("edge", "edge rabbet", ((0, 300), (0, 8)), (0, 8, 300, 8), "face edge", 8, (0, 300)),
        ("far edge", "edge rabbet far edge", ((0, 300), (92, 100)), (0, 92, 300, 92), "face edge",
         92, (0, 300)),
        ("end A", "edge rabbet end A", ((0, 8), (0, 100)), (8, 0, 8, 100), "end A", 8, (0, 100)),
        ("end B", "edge rabbet end B", ((292, 300), (0, 100)), (292, 0, 292, 100), "end B", 8,
         (0, 100)),
    ],
)
@pytest.mark.parametrize("side", ["face", "back"])
def test_a_rabbet_takes_the_arris_along_an_edge_or_end(
    side: str, edge: str, role: str, reach: tuple[tuple[int, int], tuple[int, int]],
    width_line: tuple[int, ...], source: str, distance: int, depth_line: tuple[int, int],
) -> None:
    done = rabbets(BOARD, "box.lid", side, {edge: Rabbet(F(8), F(5))})  # type: ignore[arg-type, dict-item]
    (cut,) = done.cuts
    assert cut.key == ("board", "box.lid", role)
    assert (cut.shape.reach("L"), cut.shape.reach("W")) == reach
    # 5 deep from the face side, or from the back: 20 - 5 = 15
    deep = 5 if side == "face" else 15
    assert cut.shape.reach("T") == ((0, 5) if side == "face" else (15, 20))
    low, high = depth_line
    assert [(m.face, m.tool, m.role, m.source, m.distance, m.line) for m in done.marks] == [
        (side, "marking gauge", "rabbet width", source, distance, line(*width_line)),
        (edge, "marking gauge", "rabbet depth", "face side", deep, line(low, deep, high, deep)),
    ]
    told = [(one.name, [tuple(term) for term in one.terms]) for one in done.sums]
    expected = []
    if edge == "far edge":
        expected.append(("rabbet from the face edge",
                         [(1, "width", 100), (-1, "width of the rabbet", 8)]))
    if side == "back":
        expected.append(("rabbet from the face side",
                         [(1, "thickness", 20), (-1, "depth of the rabbet", 5)]))
    assert told == expected
    assert rabbet_role(edge) == role  # type: ignore[arg-type]


def test_rabbets_all_round_come_in_the_order_asked_for_and_empty_ones_not_at_all() -> None:
    some = {"end A": Rabbet(F(8), F(5)), "edge": Rabbet(ZERO, F(5)), "far edge": Rabbet(F(3), F(5))}
    done = rabbets(BOARD, "box.lid", "face", some)  # type: ignore[arg-type]
    assert [cut.role for cut in done.cuts] == ["edge rabbet end A", "edge rabbet far edge"]
    assert len(done.marks) == 4
