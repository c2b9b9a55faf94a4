"""With shoulder distances held, a thin leg's outside lies further in: its gauge settings differ."""

from __future__ import annotations

from layout.builds.frame import SIDES
from layout.checks import check, gauges
from tests.pieces import frame, inch, measured, piece, rail


def test_a_thin_leg_s_settings_are_told_for_its_end_alone() -> None:
    # the front left leg came out 1/8 narrower: its outside lies 1/8 in, the rail's face with the
    # others' stands 1/8 proud of it; shoulders 3/8, tenon 3/8
    p = piece(
        frame(
            rail(sides=SIDES, width=inch(2), below_top=inch(4)),
            milled=measured("shoulders", front_left_leg="2 3/8 x 2 1/2"),
        )
    )
    told = [one for one in check(p) if one.rule == gauges.SET_IN]
    figures = {dict(one.figures)["set in"]: one.text for one in told}
    assert set(figures) == {inch(0), -inch("1/8")}
    assert "left rail at end B is 1/8 in proud" in figures[-inch("1/8")]
    assert "1/4 in and 5/8 in on the leg" in figures[-inch("1/8")]
    assert "left rail at end A" in figures[inch(0)]
    assert "at end B" not in figures[inch(0)]
