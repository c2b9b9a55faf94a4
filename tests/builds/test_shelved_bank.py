"""An opening of a carcase divided into drawers by shelves: it adds up exactly in each way, in mm.

The carcase is 440 wide and 300 deep; its inside, between boards 14 thick, is as high as a test
says.
Shelves are 12 thick, housed 10 deep with 3 of room.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import DivideChoice
from layout.checks import check, stopped
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.piece import Piece
from tests.builds.test_carcase import case, housed, stands
from tests.builds.test_divider import divider, shelf
from tests.builds.test_drawer import boxes, drawer, stand, terms
from tests.joints.test_spacing import dovetails

F = Fraction
SHELF = shelf("drawer shelf", "", joint=housed())


def bank(
    inside: int, into: int, *, shelf: object = SHELF, openings: tuple[str, ...] = ("inside case",),
    front: int = 20, **changes: object,
) -> Piece:
    """A bank in a carcase this high inside, all sums confirmed."""
    divide = DivideChoice(into, None, shelf=shelf, **changes)  # type: ignore[arg-type]
    p = boxes(
        carcases=(case(height=F(inside + 28), depth=F(300)),),
        drawers=(drawer(space=None, openings=openings, divide=divide, front=F(front),
                        front_joint=dovetails(lap=F(6), tails=1),
                        back_joint=dovetails(tails=1)),),
    )
    assert wrong(p) == []
    return p


def clear(p: Piece) -> list[Fraction]:
    """The height of every drawer's opening, from the top."""
    found = []
    for one in p.drawers:
        assert one.hole.opening is not None
        found.append(one.hole.opening.height)
    return found


def names(p: Piece) -> list[str]:
    return [one.hole.opening.name for one in p.drawers if one.hole.opening is not None]


def foots(p: Piece) -> list[Fraction]:
    """The underside of every shelf, from the top, above the carcase's inside foot."""
    return [stands(one.part)[2][0] - 14 for one in p.dividers]


def test_alike() -> None:
    p = bank(324, 3)
    # 324 less two shelves of 12 is 300
    assert clear(p) == [100, 100, 100]
    # 324 - 100 - 12, less 100 and 12 again
    assert foots(p) == [212, 100]
    assert not stopped(check(p))


def test_openings_and_shelves_are_named_from_the_top() -> None:
    p = bank(324, 3)
    assert [one.part.name for one in p.dividers] == ["drawer shelf 1", "drawer shelf 2"]
    assert [one.choice.opening for one in p.dividers] == ["inside case", "below drawer shelf 1"]
    assert names(p) == ["above drawer shelf 1", "above drawer shelf 2", "below drawer shelf 2"]
    assert [one.front.name for one in p.drawers] == [
        "drawer 1 front", "drawer 2 front", "drawer 3 front",
    ]
    # the first drawer's front is 1 less at each side: 2 in all, over the upper shelf
    assert stands(p.part("drawer-1-front"))[2] == (238, 336)


def test_each_higher_by_a_step() -> None:
    # 399 - 24 = 375; less the steps 15 + 30 = 330: 110, 125, 140
    p = bank(399, 3, step=F(15))
    assert clear(p) == [110, 125, 140]
    assert sum(clear(p)) + 24 == 399
    assert foots(p) == [277, 140]
    assert terms(p, "case-top", "height of opening 1") == [
        (1, "1/3 of the opening", 133), (-1, "1/3 of 2 shelves between them", 8),
        (-1, "1/3 of all steps", 15),
    ]
    assert terms(p, "case-top", "height of opening 3") == [(1, "opening 2", 125), (1, "step", 15)]


def test_each_higher_by_a_ratio() -> None:
    # 404 - 24 = 380 in 4 + 6 + 9 = 19 parts: 80, 120, 180
    p = bank(404, 3, ratio=F(3, 2))
    assert clear(p) == [80, 120, 180]
    assert foots(p) == [312, 180]
    assert terms(p, "case-top", "height of opening 1") == [
        (1, "4/19 of the opening", F(4 * 404, 19)),
        (-1, "4/19 of 2 shelves between them", F(4 * 24, 19)),
    ]
    assert terms(p, "case-top", "height of opening 3") == [(1, "3/2 of opening 2", 180)]


def test_heights_with_what_is_left_for_one() -> None:
    # 404 - 24 - 90 - 150
    p = bank(404, 3, heights=(F(90), None, F(150)))
    assert clear(p) == [90, 140, 150]
    assert terms(p, "case-top", "height of opening 2") == [
        (1, "height of the opening", 404), (-1, "2 shelves between them", 24),
        (-1, "the other heights", 240),
    ]


def test_heights_that_make_up_the_opening() -> None:
    assert clear(bank(204, 2, heights=(F(92), F(100)))) == [92, 100]
    with pytest.raises(BadPiece, match="don't make up their opening"):
        bank(204, 2, heights=(F(92), F(101)))


def test_one_shelf_between_two() -> None:
    p = bank(212, 2)
    assert clear(p) == [100, 100]
    assert names(p) == ["above drawer shelf 1", "below drawer shelf 1"]
    assert terms(p, "case-top", "height of opening 1") == [
        (1, "1/2 of the opening", 106), (-1, "1/2 of the shelf between them", 6),
    ]


def test_a_chain_down_the_whole_opening() -> None:
    p = bank(404, 3, ratio=F(3, 2))
    assert terms(p, "case-top", "openings of the drawer bank") == [
        (1, "opening 1", 80), (1, "shelf 1", 12), (1, "opening 2", 120), (1, "shelf 2", 12),
        (1, "opening 3", 180),
    ]
    (chain,) = [one for one in p.sums if one.name == "openings of the drawer bank"]
    assert (chain.running, len(chain.along)) == ((80, 92, 212, 224, 404), 4)


def test_a_shelf_is_as_the_maker_wrote_it() -> None:
    own = SHELF._replace(name="tray shelf", thickness=F(10), set_back=F(25), timber="fir")
    p = bank(210, 2, shelf=own, front=25)
    part = p.part("tray-shelf-1")
    # 412 and a tail of 7 at both ends
    assert stands(part) == ((7, 433), (25, 300), (114, 124))
    assert (part.timber, names(p)) == ("fir", ["above tray shelf 1", "below tray shelf 1"])


def test_a_bank_stands_beside_a_partition() -> None:
    p = boxes(
        carcases=(case(height=F(240), depth=F(300)),), dividers=(divider(place=F(100)),),
        drawers=(drawer(space=None, openings=("right of part",),
                        front_joint=dovetails(lap=F(6), tails=1),
                        back_joint=dovetails(tails=1), divide=DivideChoice(2, None, shelf=SHELF)),),
    )
    assert wrong(p) == []
    # 412 - 100 - 12 = 300, from 14 + 100 + 12 = 126
    assert stands(p.part("drawer-shelf-1"))[0] == (119, 433)
    assert clear(p) == [100, 100]


def test_shelves_divide_a_frames_opening_too() -> None:
    p = boxes(
        frame=stand(),
        drawers=(drawer(space=None, openings=("front under top rail",), sides=F(8), length=F(200),
                        front_joint=dovetails(lap=F(6), tails=1, pin=F(3)),
                        back_joint=dovetails(tails=1, pin=F(3)),
                        divide=DivideChoice(2, None, shelf=SHELF)),),
    )
    assert wrong(p) == []
    # (100 - 12) / 2; the opening begins at 560
    assert clear(p) == [44, 44]
    assert stands(p.part("drawer-shelf-1")) == ((43, 557), (0, 50), (604, 616))


@pytest.mark.parametrize(
    ("changes", "what"),
    [
        ({"openings": ("inside case", "inside case")}, "2 openings are to be divided at once"),
        ({"openings": ("nowhere",)}, "there is no opening 'nowhere'"),
        ({"inside": 24}, "3 drawers leave no height for one of them"),
        ({"step": F(100)}, "3 drawers leave no height for one of them"),
    ],
)
def test_what_cannot_be_divided_is_refused(changes: dict[str, object], what: str) -> None:
    with pytest.raises(BadPiece) as told:
        bank(**{"inside": 324, "into": 3, **changes})  # type: ignore[arg-type]
    assert told.value.what == what
