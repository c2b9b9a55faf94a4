"""What measured parts move: the piece as drawn against the piece as measured."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.as_milled import Moved, alike, as_drawn, compared, moved
from layout.builds.choices import AsMilled, Milled
from layout.errors import BadPiece
from layout.piece import Piece, work_out
from tests.pieces import frame, inch, piece, rail

THIN = Milled("front left leg", width=inch("2 31/64"))


def measured(*parts: Milled, held: str = "overall", **changes: object) -> Piece:
    """48 x 24 in over legs 2 1/2 in square, one rail in front, and what came out different."""
    milled = AsMilled(parts, held)  # type: ignore[arg-type]
    return piece(frame(rail(**changes), milled=milled))


def by_name(found: tuple[Moved, ...]) -> dict[str, tuple[Fraction | None, Fraction | None]]:
    return {f"{one.part}: {one.full_name}": (one.was, one.now) for one in found}


def test_a_thin_leg_makes_the_rail_longer() -> None:
    found = by_name(moved(measured(THIN)))
    # 48 - 2 1/2 - 2 31/64; and twice 1 1/4 more; less 1 1/4 at end B
    assert found == {
        "front-rail: shoulder distance": (inch(43), inch("43 1/64")),
        "front-rail: cut length": (inch("45 1/2"), inch("45 33/64")),
        "front-rail: shoulder at end B from end A": (inch("44 1/4"), inch("44 17/64")),
    }
    assert {one.by for one in moved(measured(THIN))} == {inch("1/64")}


def test_held_shoulders_move_the_gauge_lines_of_that_leg_instead() -> None:
    thin = Milled("front left leg", thickness=inch("2 31/64"))
    # the leg's face moved in by 1/64: the rail's face lies that much less behind it
    found = by_name(moved(measured(thin, held="shoulders", set_in=inch("1/8"))))
    assert {name.split(":")[0] for name in found} == {"front-left-leg"}
    near = found["front-left-leg: near mortise wall from the face side (front rail, end A)"]
    assert near == (inch("1/2"), inch("31/64"))


def test_nothing_measured_moves_nothing() -> None:
    assert moved(piece(frame(rail()))) == ()
    same = Milled("front left leg", width=inch("2 1/2"))
    assert moved(measured(same)) == ()


def test_one_sum_for_both_ends_is_the_counterpart_of_end_b_s_own() -> None:
    here = measured(THIN)
    both = next(s for s in here.sums if s.name == "mortise depth" and s.part == "front-rail")
    own = both._replace(where="end B")
    # as drawn one sum served for both ends, now end B has its own: nothing moved
    assert compared(here._replace(sums=(both,)), here._replace(sums=(both, own))) == ()
    deeper = own._replace(total=own.total + 1)
    told = compared(here._replace(sums=(both,)), here._replace(sums=(both, deeper)))
    assert told == (Moved("front-rail", both.name, "end B", both.total, deeper.total),)


def test_a_sum_that_only_one_side_has_is_told() -> None:
    here = measured(THIN)
    lost = next(s for s in here.sums if s.name == "mortise depth" and not s.where)
    without = here._replace(
        sums=tuple(s for s in here.sums if s.name != "mortise depth")
    )
    gone = [one for one in compared(here, without) if one.part == "front-rail"]
    assert Moved("front-rail", "mortise depth", "", lost.total, None) in gone
    new = [one for one in compared(without, here) if one.part == "front-rail"]
    assert Moved("front-rail", "mortise depth", "", None, lost.total) in new
    assert {one.by for one in (*gone, *new)} == {None}


def test_sums_of_one_name_are_compared_in_their_order() -> None:
    here = measured(THIN)
    one = next(s for s in here.sums if s.name == "mortise depth" and not s.where)
    other = one._replace(total=one.total + 1)
    twice = here._replace(sums=(one, one))
    told = compared(twice, here._replace(sums=(one, other)))
    assert told == (Moved(one.part, one.name, "", one.total, one.total + 1),)
    # one for both ends, then one for each
    assert compared(here._replace(sums=(one,)), twice) == ()
    assert compared(twice, here._replace(sums=(one,))) == ()
    assert compared(here._replace(sums=(one,)), here._replace(sums=(one, other))) == told


def test_rows_that_read_alike_are_told_once() -> None:
    both = frame(
        rail(sides=("front", "back")),
        milled=AsMilled((THIN, Milled("back left leg", width=inch("2 31/64")))),
    )
    here = piece(both)
    groups = alike(here, moved(here))
    assert [(group[0].name, len(group)) for group in groups] == [
        ("shoulder distance", 2), ("cut length", 2), ("shoulder at end B from end A", 2),
    ]  # fmt: skip


def test_a_piece_that_can_t_stand_as_drawn_says_so() -> None:
    thick = [Milled(f"front {side} leg", width=inch(2)) for side in ("left", "right")]
    legs = frame(rail(), length=inch(5), milled=AsMilled(tuple(thick)))
    here = piece(legs)  # 5 - 2 - 2 leaves 1; as drawn 5 - 2 1/2 - 2 1/2 leaves nothing
    with pytest.raises(BadPiece, match="as drawn, the legs leave nothing between them"):
        moved(here)


def test_moved_sums_are_all_those_that_differ() -> None:
    here = measured(THIN, Milled("front rail", width=inch("3 15/16"), thickness=inch("1 1/16")))
    drawn = work_out(as_drawn(here.choice))
    before = {(s.part, s.full_name): s.total for s in drawn.sums}
    after = {(s.part, s.full_name): s.total for s in here.sums}
    differ = {key for key in before.keys() & after.keys() if before[key] != after[key]}
    assert differ
    assert differ <= {(one.part, one.full_name) for one in moved(here)}
