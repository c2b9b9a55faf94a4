"""Boxes side by side: where each stands, which comes first, and what two of them can't share."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import Space
from layout.checks.sums import wrong
from layout.errors import BadPiece
from tests.builds.test_chest import chest, lid
from tests.builds.test_drawer import boxes, drawer, stand

F = Fraction


def test_boxes_stand_side_by_side_100_mm_apart() -> None:
    p = boxes(
        chests=(chest(name="one"), chest(name="two", length=F(200))),
        drawers=(drawer(name="till"), drawer(name="tray", space=Space(F(300), F(100), F(350)))),
    )
    assert wrong(p) == []
    # 500 and 100; 600 + 200 and 100; the drawer's 1 to 399 within its space; 900 + 399 + 100
    assert [p.part(name).reach(0) for name in ("one-front", "two-front", "till-front",
                                               "tray-front")] == [
        (0, 500), (600, 800), (901, 1299), (1400, 1698),
    ]


def test_an_overhanging_lid_comes_no_nearer() -> None:
    p = boxes(chests=(chest(name="one", lid=lid()), chest(name="two", lid=lid())))
    # the first lid ends at 505, the second begins 100 further
    assert [p.part(name).reach(0) for name in ("one-lid", "two-lid", "two-front")] == [
        (-5, 505), (605, 1115), (610, 1110),
    ]


def test_a_lipped_front_comes_no_nearer() -> None:
    p = boxes(chests=(chest(),), drawers=(drawer(style="lipped"),))
    # the lip begins where the space does, and half the room further
    assert p.part("drawer-front").reach(0) == (601, 1019)
    assert p.part("drawer-left-side").reach(0)[0] == 611


def test_boxes_stand_beside_a_frame() -> None:
    p = boxes(frame=stand(), chests=(chest(),),
              drawers=(drawer(space=None, openings=("front under top rail",)),
                       drawer(name="other")))
    # the frame is 600 long; what stands in it takes no room beside it
    assert p.part("chest-front").reach(0) == (700, 1200)
    assert p.part("drawer-front").reach(0) == (51, 549)
    assert p.part("other-front").reach(0) == (1301, 1699)


def test_chests_are_told_before_drawers_after_the_frame() -> None:
    p = boxes(frame=stand(), chests=(chest(),), drawers=(drawer(),))
    firsts = [part.id for part in p.parts]
    assert firsts.index("front-left-leg") < firsts.index("chest-front") < firsts.index(
        "drawer-front")
    assert [corner.name for corner in p.corners] == [
        f"{name}.{letter}" for name in ("chest", "drawer") for letter in "ABCD"
    ]


def test_two_drawers_in_one_opening_are_refused() -> None:
    twice = [drawer(name=name, space=None, openings=("front under top rail",))
             for name in ("one", "two")]
    with pytest.raises(BadPiece) as told:
        boxes(frame=stand(), drawers=tuple(twice))
    assert told.value.what == "the opening 'front under top rail' is given two drawers"
    assert told.value.cure == "name each opening once"
    both = drawer(space=None, openings=("front under top rail", "front under top rail"))
    with pytest.raises(BadPiece, match="two drawers"):
        boxes(frame=stand(), drawers=(both,))


def test_two_boxes_of_one_name_are_refused() -> None:
    with pytest.raises(BadPiece, match="two parts would both be called 'chest front'"):
        boxes(chests=(chest(), chest()))
    with pytest.raises(BadPiece, match="two parts would both be called 'box front'"):
        boxes(chests=(chest(name="box"),), drawers=(drawer(name="box"),))
