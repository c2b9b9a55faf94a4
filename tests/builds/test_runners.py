"""Runners, kickers and guides: every size and place, in mm.

The frame of test_drawer: 600 x 600 over legs 50 square, an opening 500 wide and 100 high between
two rails 40 wide and 20 thick, its lower edge at 560; a back rail 180 wide, its inside 580 from
the front. Told from the opening's left lower corner.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import RunChoice
from layout.builds.choices import RailChoice
from layout.builds.drawer import Drawer
from layout.builds.frame import SIDES
from layout.builds.opening import Side
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.piece import Piece
from tests.builds.test_drawer import boxes, drawer, framed, made, mm_rail, spans, stand, terms

F = Fraction
ACROSS: dict[Side, Side] = {"front": "back", "back": "front", "left": "right", "right": "left"}


def runs(**changes: object) -> RunChoice:
    """Runners 40 wide, and nothing else."""
    return RunChoice(F(40))._replace(**changes)  # type: ignore[arg-type]


def run(*rails: RailChoice, side: Side = "front", **changes: object) -> tuple[Piece, Drawer]:
    """A drawer on runners between front rails and a back rail."""
    back = mm_rail("back rail", sides=(ACROSS[side],), width=F(180))
    p, one = framed(back, *rails, side=side, runs=runs(**changes))
    assert wrong(p) == []
    return p, one


def placed(one: Drawer) -> dict[str, object]:
    return {part.id: spans(one, part) for part in one.runs}


@pytest.mark.parametrize("side", SIDES)
def test_runners_are_level_with_the_rail_below_and_reach_the_back_rail(side: Side) -> None:
    p, one = run(side=side)
    assert placed(one) == {
        "drawer-left-runner": ((0, 40), (20, 580), (-40, 0)),
        "drawer-right-runner": ((460, 500), (20, 580), (-40, 0)),
    }
    assert [(part.length, part.width, part.thickness, part.kind, part.timber, part.hand)
            for part in one.runs] == [
        (560, 40, 40, "drawer runner", "pine", "left"),
        (560, 40, 40, "drawer runner", "pine", "right"),
    ]
    behind = {"front": "back rail", "back": "front back rail", "left": "right back rail",
              "right": "left back rail"}[side]
    assert terms(p, "drawer-left-runner", "runner length") == [
        (1, f"opening's front to the {behind}", 580),
        (-1, f"opening's front to the back of the {side} low rail", 20),
    ]


def test_runners_as_thick_as_the_maker_says() -> None:
    _, one = run(thickness=F(25))
    assert placed(one)["drawer-left-runner"] == ((0, 40), (20, 580), (-25, 0))


def test_kickers_are_level_with_the_rail_above() -> None:
    p, one = run(kickers=True)
    assert placed(one) == {
        "drawer-left-runner": ((0, 40), (20, 580), (-40, 0)),
        "drawer-right-runner": ((460, 500), (20, 580), (-40, 0)),
        "drawer-left-kicker": ((0, 40), (20, 580), (100, 140)),
        "drawer-right-kicker": ((460, 500), (20, 580), (100, 140)),
    }
    assert terms(p, "drawer-right-kicker", "kicker length") == [
        (1, "opening's front to the back rail", 580),
        (-1, "opening's front to the back of the front top rail", 20),
    ]


def test_kickers_reach_what_stands_behind_them_not_behind_the_drawer() -> None:
    # 660 to 700 high: behind the kickers, above the drawer and its runners
    above = mm_rail("back rail", sides=("back",))
    p, one = framed(above, runs=runs(kickers=True))
    assert wrong(p) == []
    assert placed(one)["drawer-left-runner"] == ((0, 40), (20, 600), (-40, 0))
    assert placed(one)["drawer-left-kicker"] == ((0, 40), (20, 580), (100, 140))
    # and one 10 nearer, 500 to 600 high, behind the drawer and its runners
    below = mm_rail("low back rail", sides=("back",), width=F(100), below_top=F(100), set_in=F(10))
    p, one = framed(above, below, runs=runs(kickers=True))
    assert wrong(p) == []
    assert placed(one)["drawer-left-runner"] == ((0, 40), (20, 570), (-40, 0))
    assert placed(one)["drawer-left-kicker"] == ((0, 40), (20, 580), (100, 140))
    assert one.rear == 560


def test_face_sides_are_toward_the_drawer() -> None:
    _, one = run(kickers=True, guide_height=F(30))
    assert {part.id: (part.placement.L, part.placement.T) for part in one.runs} == {
        "drawer-left-runner": ("+Y", "-Z"), "drawer-right-runner": ("+Y", "-Z"),
        "drawer-left-kicker": ("+Y", "+Z"), "drawer-right-kicker": ("+Y", "+Z"),
        "drawer-left-guide": ("+Y", "-X"), "drawer-right-guide": ("+Y", "+X"),
    }


def test_guides_fill_what_is_free_beside_the_opening_from_leg_to_leg() -> None:
    # nothing closes the sides: as wide as the legs; from 50 to 550
    p, one = run(guide_height=F(30))
    assert placed(one)["drawer-left-guide"] == ((-50, 0), (50, 550), (0, 30))
    assert placed(one)["drawer-right-guide"] == ((500, 550), (50, 550), (0, 30))
    assert terms(p, "drawer-left-guide", "guide length") == [
        (1, "opening's front to the back left leg", 550),
        (-1, "opening's front to the back of the front left leg", 50),
    ]
    assert [part.kind for part in one.runs] == ["drawer runner"] * 2 + ["drawer guide"] * 2


@pytest.mark.parametrize(
    ("set_in", "left"),
    [
        (5, (-25, 0)),  # rails 5 to 25 from the outside: 50 - 25 = 25 is free
        (0, (-30, 0)),
        (29, (-1, 0)),
        (30, None),  # flush with the legs' inner faces: they guide the drawer themselves
    ],
)
def test_end_rails_leave_less_for_guides(set_in: int, left: tuple[int, int] | None) -> None:
    ends = mm_rail("end rail", sides=("left", "right"), width=F(180), set_in=F(set_in))
    _, one = run(ends, guide_height=F(30))
    guides = {name: spot for name, spot in placed(one).items() if "guide" in name}
    if left is None:
        assert guides == {}
        return
    assert guides == {
        "drawer-left-guide": (left, (50, 550), (0, 30)),
        "drawer-right-guide": ((500, 500 - left[0]), (50, 550), (0, 30)),
    }


def test_rails_above_or_below_the_guides_take_no_room_from_them() -> None:
    # from 660 up, where the guides end at 590
    ends = mm_rail("end rail", sides=("left", "right"))
    _, one = run(ends, guide_height=F(30))
    assert placed(one)["drawer-left-guide"] == ((-50, 0), (50, 550), (0, 30))


def test_guides_as_wide_as_the_maker_says() -> None:
    _, one = run(guide_height=F(30), guide_width=F(12))
    assert placed(one)["drawer-left-guide"] == ((-12, 0), (50, 550), (0, 30))


def test_without_a_back_rail_runners_reach_as_deep_as_the_legs() -> None:
    p, one = framed(runs=runs())
    assert wrong(p) == []
    assert placed(one)["drawer-left-runner"] == ((0, 40), (20, 600), (-40, 0))
    assert terms(p, "drawer-left-runner", "runner length") == [
        (1, "depth of the opening", 600),
        (-1, "opening's front to the back of the front low rail", 20),
    ]


def test_in_a_space_runners_begin_at_its_front() -> None:
    p, one = made(runs=runs(thickness=F(25), kickers=True))
    assert placed(one) == {
        "drawer-left-runner": ((0, 40), (0, 350), (-25, 0)),
        "drawer-right-runner": ((360, 400), (0, 350), (-25, 0)),
        "drawer-left-kicker": ((0, 40), (0, 350), (100, 125)),
        "drawer-right-kicker": ((360, 400), (0, 350), (100, 125)),
    }
    assert terms(p, "drawer-left-runner", "runner length") == [(1, "depth of the opening", 350)]


@pytest.mark.parametrize(
    ("choice", "what", "cure"),
    [
        (runs(), "how thick the runners of the drawer are is missing",
         "give runners.thickness: without a frame there is no rail to be level with"),
        (runs(thickness=F(25), guide_height=F(30)),
         "the drawer has no legs for guides to stand between",
         "leave the guides out, or name an opening of a frame"),
    ],
)
def test_what_a_space_can_not_have(choice: RunChoice, what: str, cure: str) -> None:
    with pytest.raises(BadPiece) as told:
        made(runs=choice)
    assert (told.value.what, told.value.cure) == (what, cure)


def test_a_rail_as_deep_as_the_opening_leaves_no_room_for_runners() -> None:
    back = mm_rail("back rail", sides=("back",), width=F(180), set_in=F(560))
    with pytest.raises(BadPiece, match="no room behind the rail for the runners"):
        framed(back, runs=runs(), length=F(35))


# -- two drawers, one above the other


def two(upper: RunChoice | None, lower: RunChoice | None) -> Piece:
    lowest = mm_rail("lowest rail", below_top=F(280))
    each = [
        drawer(name=name, space=None, openings=(where,), runs=chosen)
        for name, where, chosen in (
            ("upper", "front under top rail", upper), ("lower", "front under low rail", lower),
        )
    ]
    p = boxes(frame=stand(lowest), drawers=tuple(each))
    assert wrong(p) == []
    return p


def test_the_runners_above_are_the_kickers_of_the_drawer_below() -> None:
    both = runs(kickers=True)
    kinds = [part.id for part in two(both, both).parts if part.id.endswith(("runner", "kicker"))]
    assert kinds == [
        "upper-left-runner", "upper-right-runner", "upper-left-kicker", "upper-right-kicker",
        "lower-left-runner", "lower-right-runner",
    ]


def test_a_drawer_below_one_without_runners_keeps_its_kickers() -> None:
    p = two(None, runs(kickers=True))
    assert [part.id for part in p.parts if part.id.endswith("kicker")] == [
        "lower-left-kicker", "lower-right-kicker",
    ]
