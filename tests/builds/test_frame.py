"""Legs and rails in their places, hands and openings."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.frame import SIDES
from layout.checks.placed import part_box
from layout.errors import BadPiece
from tests.pieces import agreed, frame, inch, low_rail, panel, piece, rail, seat


def test_four_legs_two_hands() -> None:
    p = agreed(frame(rail(sides=SIDES)))
    hands = {part.name: part.hand for part in p.parts if part.kind == "leg"}
    assert hands == {
        "front left leg": "left",
        "front right leg": "right",
        "back left leg": "right",
        "back right leg": "left",
    }


def test_mirror_legs_have_the_same_joints_in_their_own_coordinates() -> None:
    p = agreed(frame(rail(sides=SIDES)))
    shapes = [
        {(c.role, c.shape.reach("L"), c.shape.reach("W"), c.shape.reach("T"))
         for c in p.cuts_of(part.id)}
        for part in p.parts
        if part.kind == "leg"
    ]
    assert len(shapes[0]) == 2
    assert all(shape == shapes[0] for shape in shapes)


@pytest.mark.parametrize(
    ("side", "axis", "outside"),
    [("front", 1, 0), ("back", 1, 24), ("left", 0, 0), ("right", 0, 48)],
)
def test_rail_face_lies_set_in_behind_the_legs(side: str, axis: int, outside: int) -> None:
    p = agreed(frame(rail(sides=(side,), set_in=inch("1/8"))))
    span = part_box(p.part(f"{side}-rail"))[axis]
    inside = inch("1/8") if outside == 0 else -inch("1/8")
    assert inch(outside) + inside in span
    assert span[1] - span[0] == inch("1 1/8")


def test_rails_reach_a_tenon_into_each_leg() -> None:
    p = agreed(frame(rail(sides=SIDES)))
    # 48 - 2 x 2 1/2 + 2 x 1 1/4 and 24 - 5 + 2 1/2
    assert p.part("front-rail").length == inch("45 1/2")
    assert p.part("left-rail").length == inch("21 1/2")
    assert part_box(p.part("front-rail"))[0] == (inch("1 1/4"), inch("46 3/4"))


def test_openings_are_named_by_the_rail_above() -> None:
    p = agreed(frame(rail(), low_rail()))
    openings = {o.name: o for o in p.openings}
    assert set(openings) == {"front under rail", "front under low rail"}
    upper = openings["front under rail"]
    # 30 - 4 - (6 + 4) = 16 high, 43 wide
    assert (upper.width, upper.height) == (inch(43), inch(16))
    assert upper.lower is not None
    assert openings["front under low rail"].lower is None
    assert openings["front under low rail"].height == inch(6)


def test_a_thicker_leg_moves_everything_that_hangs_on_it() -> None:
    from layout.builds.choices import LegChoice

    thin = agreed(frame(rail()))
    thick = agreed(frame(rail(), leg=LegChoice(inch(3), inch(3))))
    assert thin.part("front-rail").length - thick.part("front-rail").length == inch(1)


def test_legs_that_leave_nothing_between_them() -> None:
    with pytest.raises(BadPiece, match="leave nothing between"):
        piece(frame(rail(), length=inch(5)))


@pytest.mark.parametrize("way", ["length", "depth", "height"])
def test_a_frame_too_large_to_be_meant(way: str) -> None:
    # 1200 typed for millimetres in an inch file: 30 m
    with pytest.raises(BadPiece, match="more than 10 m"):
        piece(frame(rail(), **{way: inch(1200)}))


@pytest.mark.parametrize("key", ["width", "thickness", "set_in"])
def test_a_rail_too_large_to_be_meant(key: str) -> None:
    with pytest.raises(BadPiece, match="more than 2 m"):
        piece(frame(rail(**{key: Fraction(2001)})))


def test_a_panel_too_large_to_be_meant() -> None:
    with pytest.raises(BadPiece, match="the panel has a size of more than 2 m"):
        piece(frame(rail(), low_rail()), panel(seat(lip=Fraction(2001)), "front under rail"))


def test_more_rails_than_can_be_meant() -> None:
    rails = [rail(f"rail {n}", below_top=None, above_floor=inch(n)) for n in range(41)]
    with pytest.raises(BadPiece, match="41 kinds"):
        piece(frame(*rails))


def test_a_name_that_says_its_side_is_not_given_it_twice() -> None:
    p = agreed(frame(rail("front rail"), rail("apron", below_top=inch(10))))
    assert [r.rail.part.name for r in p.rails] == ["front rail", "front apron"]


def test_panel_size_is_opening_and_lips_less_room() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    part = p.part("front-panel")
    # up the grain 16 + 2 x 3/8 - 1/16, across 43 + 2 x 3/8 - 1/16
    assert part.length == inch("16 11/16")
    assert part.width == inch("43 11/16")
    # its face lies in the rabbet: 7/8 behind the front
    assert part_box(part)[1] == (inch("7/8"), inch("1 1/8"))


def test_leg_rabbet_is_open_to_the_inside() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(), "front under rail"))
    (rabbet,) = [c for c in p.cuts_of("front-left-leg") if c.role == "rabbet"]
    assert rabbet.shape.reach("T") == (inch("7/8"), inch("2 1/2"))
    assert rabbet.shape.reach("W") == (inch("2 1/8"), inch("2 1/2"))
    # stopped: the opening runs 4 to 20 from the top, and a lip beyond at each end
    assert rabbet.shape.reach("L") == (inch("3 5/8"), inch("20 3/8"))


def test_groove_in_a_leg_is_as_wide_as_the_panel() -> None:
    grooved = seat(kind="groove", in_legs="groove")
    p = agreed(frame(rail(), low_rail()), panel(grooved, "front under rail"))
    (groove,) = [c for c in p.cuts_of("front-left-leg") if c.role == "groove"]
    assert groove.shape.reach("T") == (inch("7/16"), inch("11/16"))


@pytest.mark.parametrize(
    ("opening", "words"),
    [("front under nothing", "no opening"), ("front under low rail", "no rail at its foot")],
)
def test_panels_need_an_opening_with_a_rail_at_its_foot(opening: str, words: str) -> None:
    with pytest.raises(BadPiece, match=words):
        piece(frame(rail(), low_rail()), panel(seat(), opening))


def test_two_parts_of_one_name() -> None:
    with pytest.raises(BadPiece, match="front rail"):
        piece(frame(rail(), rail(below_top=inch(10))))


def test_shoulders_that_leave_no_tenon() -> None:
    from tests.pieces import tenon

    with pytest.raises(BadPiece, match="leave no tenon"):
        piece(frame(rail(tenon=tenon(top_shoulder=inch(2), bottom_shoulder=inch(2)))))


def test_room_that_leaves_no_panel() -> None:
    with pytest.raises(BadPiece, match="leaves nothing"):
        piece(
            frame(rail(), low_rail()),
            panel(seat(), "front under rail", room=Fraction(1000)),
        )
