"""Settings: each stand once, everywhere it serves, in the order the wood allows."""

from __future__ import annotations

from layout.builds.frame import SIDES
from layout.kit import usual_kit
from layout.settings import settings
from tests.pieces import frame, inch, low_rail, panel, piece, rail, seat


def test_each_stand_once_and_every_gauge_line_struck() -> None:
    p = piece(
        frame(rail(sides=SIDES), low_rail(sides=SIDES)),
        panel(seat(), "front under rail", "left under rail"),
    )
    made = settings(p.marks)
    stands = [(s.tool, s.distance, s.second) for s in made]
    assert len(stands) == len(set(stands))
    lines = [m for m in p.marks if m.tool in ("marking gauge", "mortise gauge")]
    assert sum(strike.lines for s in made for strike in s.strikes) == len(lines)
    assert [s.number for s in made] == list(range(1, len(made) + 1))


def test_flush_rail_and_leg_share_one_stand_of_the_mortise_gauge() -> None:
    p = piece(frame(rail(sides=SIDES)))
    (stand,) = [s for s in settings(p.marks) if s.tool == "mortise gauge"]
    assert (stand.distance, stand.second) == (inch("3/8"), inch("3/4"))
    assert {s.part for s in stand.strikes} == {part.id for part in p.parts}
    assert stand.source == "face side and face edge"


def test_marking_gauge_takes_one_line_at_a_time() -> None:
    kit = usual_kit("in", "marking gauge")
    p = piece(frame(rail()), kit=kit)
    assert all(s.second is None for s in settings(p.marks))
    assert {inch("3/8"), inch("3/4")} <= {s.distance for s in settings(p.marks)}


def test_long_lines_come_first_and_tenon_edges_last() -> None:
    p = piece(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    roles = [{strike.role for strike in s.strikes} for s in settings(p.marks)]
    first_wall = next(i for i, r in enumerate(roles) if "near wall" in r)
    last_rabbet = max(i for i, r in enumerate(roles) if r & {"rabbet", "rabbet lip"})
    edges = [i for i, r in enumerate(roles) if r <= {"tenon top", "tenon bottom"}]
    assert last_rabbet < first_wall < min(edges)
