"""Findings on drawers in their openings: at every limit; level, figures, cure.

The drawer of test_drawer: a space 400 x 100 x 350, 2 of room in width and height, 10 behind; front
20, sides 12; lap 6; lips 10 wide and 6 thick.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.box_choices import RunChoice
from layout.checks import drawers as checked
from layout.mark import Finding
from layout.piece import Piece
from tests.builds.test_drawer import boxes, drawer, framed, made, mm_rail, stand
from tests.joints.test_spacing import dovetails

F = Fraction
Told = tuple[str, tuple[tuple[str, Fraction], ...], str]


def found(p: Piece, rule: str) -> list[Finding]:
    return [one for one in checked.findings(p) if one.rule == rule]


def told(rule: str, **changes: object) -> list[Told]:
    """Level, figures and cure of every finding of a rule on a drawer in a space."""
    p, _ = made(agreed=False, **changes)
    return [(one.level, one.figures, one.cure) for one in found(p, rule)]


ROOM = "give it 1/64 to 1/32 in, half a millimetre or so, on each side"


def test_a_common_drawer_is_told_its_room_only() -> None:
    p, _ = made()
    (one,) = checked.findings(p)
    assert (one.rule, one.level, one.figures, one.cure) == (
        checked.FITS, "note", (("room in width", 2), ("room in height", 2)), "",
    )
    assert one.parts == ("drawer-front", "drawer-left-side", "drawer-right-side")


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"height": F(101)}, [("stop", (("height", 101), ("opening", 100)),
                               "at most 98 mm fits with the room that is wanted above it")]),
        ({"height": F(100)}, [("caution", (("room in width", 2), ("room in height", 0)), ROOM)]),
        ({"height": F(99)}, [("note", (("room in width", 2), ("room in height", 1)), "")]),
        ({"room_wide": F(0)}, [("caution", (("room in width", 0), ("room in height", 2)), ROOM)]),
        ({"room_high": F(0)}, [("caution", (("room in width", 2), ("room in height", 0)), ROOM)]),
        # reaches 350 + 1
        ({"length": F(351)}, [("stop", (("reach", 351), ("free", 350)),
                               "a drawer at most 350 mm long fits"),
                              ("note", (("room in width", 2), ("room in height", 2)), "")]),
        ({"length": F(350)}, [("note", (("room in width", 2), ("room in height", 2)), "")]),
        # a front set in by 3 leaves less, a lip before the opening more
        ({"length": F(348), "style": "set in", "set_in": F(3)},
         [("stop", (("reach", 351), ("free", 350)), "a drawer at most 347 mm long fits"),
          ("note", (("room in width", 2), ("room in height", 2)), "")]),
        ({"length": F(356), "style": "lipped"},
         [("note", (("room in width", 2), ("room in height", 2)), "")]),
        ({"length": F(357), "style": "lipped"},
         [("stop", (("reach", 351), ("free", 350)), "a drawer at most 356 mm long fits"),
          ("note", (("room in width", 2), ("room in height", 2)), "")]),
    ],
)
def test_a_drawer_goes_into_its_opening(
    changes: dict[str, object], expected: list[Told]
) -> None:
    assert told(checked.FITS, **changes) == expected


@pytest.mark.parametrize(("changes", "words"), [
    ({"room_wide": F(0)}, "no room at its sides: it will bind"),
    ({"room_high": F(0)}, "above it: it will bind"),
    ({"room_wide": F(0), "room_high": F(0)}, "no room at its sides and above it: it will bind"),
])
def test_where_there_is_no_room_is_said(changes: dict[str, object], words: str) -> None:
    (one,) = found(made(**changes)[0], checked.FITS)
    assert one.text.endswith(words)


def test_what_stands_behind_is_named() -> None:
    back = mm_rail("back rail", sides=("back",), width=F(180))
    p, _ = framed(back, length=F(581))
    (stop, _) = found(p, checked.FITS)
    assert (stop.level, stop.figures) == ("stop", (("reach", 581), ("free", 580)))
    assert "runs into the back rail at 580 mm" in stop.text


# -- fronts


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({}, []),
        ({"front_joint": dovetails(lap=F("5.5"))},
         [("stop", (("lip", 6), ("lap", F("5.5"))),
           "make the lap 6 mm or more, or the lip thinner")]),
        ({"front_joint": dovetails()},
         [("stop", (("lip", 6), ("lap", 0)), "make the lap 6 mm or more, or the lip thinner")]),
        # 2 above the drawer, 1 at each side
        ({"lip": F(2)}, [("stop", (("lip", 2), ("covers", 0)), "make the lip more")]),
        ({"lip": F("2.1")}, []),
        ({"lip": F(5), "room_wide": F(12)},
         [("stop", (("lip", 5), ("covers", -1)), "make the lip more")]),
    ],
)
def test_a_lipped_front_covers_its_opening_and_keeps_its_lip(
    changes: dict[str, object], expected: list[Told]
) -> None:
    assert told(checked.FRONT, style="lipped", **changes) == expected


def test_a_flush_front_has_no_lip_to_cover_with() -> None:
    assert told(checked.FRONT, lip=F(1), front_joint=dovetails()) == []


@pytest.mark.parametrize(("set_in", "words"), [(8, "3 mm behind"), (2, "3 mm before"), (5, None)])
def test_rails_set_in_unlike_are_a_caution(set_in: int, words: str | None) -> None:
    rails = (
        mm_rail("top rail", set_in=F(5)), mm_rail("low rail", set_in=F(set_in), below_top=F(140)),
    )
    whole = stand()._replace(rails=rails)  # type: ignore[attr-defined]
    p = boxes(frame=whole, drawers=(drawer(space=None, openings=("front under top rail",)),))
    fronts = found(p, checked.FRONT)
    if words is None:
        assert fronts == []
        return
    (one,) = fronts
    assert (one.level, one.figures, one.cure) == (
        "caution", (("apart", 3),), "bring their fronts into one plane",
    )
    assert one.parts == ("drawer-front", "front-low-rail")
    assert words in one.text


# -- what it runs on


def test_a_drawer_in_a_frame_wants_something_to_run_on() -> None:
    (one,) = found(framed()[0], checked.RUNS)
    assert (one.level, one.parts, one.cure) == (
        "note", ("drawer-left-side", "drawer-right-side"), "",
    )
    # nothing stands at the back of that frame: the runners' rear ends hang free
    free = found(framed(runs=RunChoice(F(40)))[0], checked.RUNS)
    assert [(one.level, one.parts) for one in free] == [
        ("caution", ("drawer-left-runner",)), ("caution", ("drawer-right-runner",)),
    ]
    assert all("rail at the back" in one.cure for one in free)
    # in a space of its own the rest is not the program's
    assert told(checked.RUNS) == []


@pytest.mark.parametrize(("width", "under"), [(12, 11), (13, None), ("0.5", "-0.5")])
def test_runners_reach_under_the_whole_side(width: str, under: str | None) -> None:
    # half of the room, 1, lies beside the drawer
    runs = RunChoice(F(width), thickness=F(20))
    expected = [] if under is None else [
        ("caution", (("under the side", F(under)), ("side", 12)), "make the runners wider"),
    ]
    assert told(checked.RUNS, runs=runs) == expected
