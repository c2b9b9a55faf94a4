"""Seats: where their cuts and lines lie in rails and legs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.choices import LegChoice
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.mark import Mark
from layout.piece import Piece
from tests.pieces import agreed, frame, inch, low_rail, panel, piece, rail, seat


def lines(p: Piece, part: str, role: str) -> list[Mark]:
    return [mark for mark in p.marks_of(part) if mark.role == role]


def test_lip_lines_lie_a_lip_from_the_edge_that_carries_the_rabbet() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    # upper rail 4 wide: 4 - 3/8 from the face edge; lower rail: 3/8
    (upper,) = lines(p, "front-rail", "rabbet lip")
    (lower,) = lines(p, "front-low-rail", "rabbet lip")
    assert (upper.distance, lower.distance) == (inch("3 5/8"), inch("3/8"))
    assert (upper.face, lower.face) == ("back", "back")
    assert {m.face for m in lines(p, "front-rail", "rabbet")} == {"far edge"}
    assert {m.face for m in lines(p, "front-low-rail", "rabbet")} == {"edge"}


def test_a_stopped_rabbet_is_knifed_on_both_its_open_sides() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    tops = {m.face: m for m in lines(p, "front-left-leg", "rabbet top")}
    assert set(tops) == {"far edge", "back"}
    # 4 - 3/8 from the top; from the plane at 7/8 to the back, and over the lip
    assert {m.distance for m in tops.values()} == {inch("3 5/8")}
    assert tops["far edge"].line == (
        (inch("3 5/8"), inch("7/8")), (inch("3 5/8"), inch("2 1/2"))
    )
    assert tops["back"].line == ((inch("3 5/8"), inch("2 1/8")), (inch("3 5/8"), inch("2 1/2")))


def test_a_stopped_groove_is_knifed_on_the_face_it_opens_to() -> None:
    grooved = seat(kind="groove", in_legs="groove")
    p = agreed(frame(rail(), low_rail()), panel(grooved, "front under rail"))
    assert {m.face for m in lines(p, "front-left-leg", "groove top")} == {"far edge"}


def test_a_rabbet_run_through_has_no_ends() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(run="through"), "front under rail"))
    (cut,) = [c for c in p.cuts_of("front-left-leg") if c.role == "rabbet"]
    assert cut.shape.reach("L") == (0, inch(30))
    assert lines(p, "front-left-leg", "rabbet top") == []


def test_the_lower_rail_s_rabbet_follows_the_upper_rail_s_plane() -> None:
    thick = low_rail(thickness=inch("1 1/4"))
    p = agreed(frame(rail(), thick), panel(seat(), "front under rail"))
    (cut,) = [c for c in p.cuts_of("front-low-rail") if c.role == "rabbet"]
    assert cut.shape.reach("T") == (inch("7/8"), inch("1 1/4"))
    told = next(
        s for s in p.sums if s.part == "front-low-rail" and s.name == "wood in front of the seat"
    )
    assert [t.label for t in told.terms] == [
        "set in of the upper rail",
        "thickness of the upper rail",
        "rabbet depth of the upper rail",
        "set in of this rail",
    ]
    assert told.total == inch("7/8")


def test_side_panels_seat_in_the_legs_thickness() -> None:
    p = agreed(
        frame(rail(sides=("left",)), low_rail(sides=("left",)),
              leg=LegChoice(inch(3), inch("2 1/2"))),
        panel(seat(), "left under rail"),
    )
    (cut,) = [c for c in p.cuts_of("front-left-leg") if c.role == "rabbet"]
    # gauged 7/8 from the face edge, open to the far edge of a leg 3 wide; lip into 2 1/2
    assert cut.shape.reach("W") == (inch("7/8"), inch(3))
    assert cut.shape.reach("T") == (inch("2 1/8"), inch("2 1/2"))


def test_a_given_rabbet_depth_moves_the_plane() -> None:
    deep = seat(depth=inch("3/8"))
    p = agreed(frame(rail(), low_rail()), panel(deep, "front under rail"))
    assert p.panels[0].size.plane == inch("3/4")


def test_two_different_rabbets_can_t_run_through_one_side() -> None:
    middle = rail("middle", below_top=inch(10))
    one = panel(seat(run="through"), "front under rail")
    other = panel(seat(run="through", lip=inch("1/4")), "front under middle", name="other")
    with pytest.raises(BadPiece, match="two different rabbets"):
        piece(frame(rail(), middle, low_rail()), one, other)
    same = panel(seat(run="through"), "front under middle", name="other")
    assert len(piece(frame(rail(), middle, low_rail()), one, same).panels) == 2


def test_panel_grain_across_lies_along_the_rails() -> None:
    p = agreed(
        frame(rail(), low_rail()), panel(seat(), "front under rail", grain="across")
    )
    part = p.part("front-panel")
    placement = part.placement
    assert (placement.L, placement.W, placement.T) == ("+X", "-Z", "+Y")
    assert (part.length, part.width) == (inch("43 11/16"), inch("16 11/16"))
    # its upper edge: the opening's head at 26, a lip up, half the room down
    assert placement.origin[2] == inch(26) + inch("3/8") - inch("1/32")


def test_openings_say_how_deep_the_frame_is_behind_them() -> None:
    p = agreed(frame(rail(sides=("front", "left"))))
    assert {o.name: o.depth for o in p.openings} == {
        "front under rail": inch(24),
        "left under rail": inch(48),
    }
    assert all(isinstance(o.height, Fraction) for o in p.openings)


@pytest.mark.parametrize("grain", ["up", "across"])
@pytest.mark.parametrize(
    ("in_rails", "in_legs", "run"),
    # a rabbet in the legs serves no groove; what runs through the legs is as in the rails
    [
        ("rabbet", "rabbet", "stopped"), ("rabbet", "rabbet", "through"),
        ("rabbet", "groove", "stopped"),
        ("groove", "groove", "stopped"), ("groove", "groove", "through"),
    ],
)  # fmt: skip
def test_sums_agree_for_every_seat(in_rails: str, in_legs: str, run: str, grain: str) -> None:
    """Every seat that a piece file may ask for: what is cut is what the sums say."""
    chosen = seat(kind=in_rails, in_legs=in_legs, run=run)
    p = agreed(
        frame(
            rail(sides=("front", "left"), width=inch(2)),
            low_rail(sides=("front", "left"), width=inch(2)),
        ),
        panel(chosen, "front under rail", "left under rail", grain=grain),
    )
    assert [one.full_name for one, _ in wrong(p)] == []
    # 16 + 2 between the rails, 43 or 19 between the legs, two lips of 3/8, less 1/16
    across = {"front": inch("43 11/16"), "left": inch("19 11/16")}
    for side, wide in across.items():
        part = p.part(f"{side}-panel")
        sizes = (part.length, part.width) if grain == "up" else (part.width, part.length)
        assert sizes == (inch("20 11/16"), wide)
