"""Findings on chests: glue lines in half pins, and what has only stated room to move.

Sides 100 high; half pins are 10 at the baseline.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import chests as checked
from layout.mark import Finding
from tests.builds.test_chest import base, lid, made
from tests.joints.test_spacing import dovetails

F = Fraction


def found(rule: str, **changes: object) -> list[Finding]:
    p, _ = made(**changes)
    return [one for one in checked.findings(p) if one.rule == rule]


@pytest.mark.parametrize(
    ("boards", "lines"),
    [((9, 91), [9]), ((10, 90), []), ((50, 50), []), ((91, 9), [91]), ((90, 10), []),
     ((5, 90, 5), [5, 95])],
)
def test_a_glue_line_in_a_half_pin_is_a_caution(boards: tuple[int, ...], lines: list[int]) -> None:
    glued = found(checked.GLUE, end_boards=tuple(F(one) for one in boards))
    assert [(one.level, one.parts, one.figures, one.cure) for one in glued] == [
        ("caution", (part,), (("glue line", at),), "make the outermost board wider")
        for part in ("chest-left-end", "chest-right-end") for at in lines
    ]


def test_half_tails_have_no_half_pins_to_break() -> None:
    glued = {"front_boards": (F(5), F(95)), "joint": dovetails(edges="half tails")}
    assert found(checked.GLUE, **glued) == []


@pytest.mark.parametrize("kind", ["groove", "rabbet", "rabbeted"])
def test_a_bottoms_room_is_stated(kind: str) -> None:
    (one,) = found(checked.MOVES, bottom=base(kind))
    assert (one.level, one.parts, one.figures, one.cure) == (
        "note", ("chest-bottom",), (("room", 2),), "",
    )


def test_what_has_no_room_is_told_none() -> None:
    assert found(checked.MOVES, bottom=base("planted"), lid=lid()) == []
    assert found(checked.MOVES) == []


def test_a_lids_tongue_has_stated_room() -> None:
    (one,) = found(checked.MOVES, lid=lid("rabbeted"))
    assert (one.level, one.parts, one.figures) == ("note", ("chest-lid",), (("room", 2),))
