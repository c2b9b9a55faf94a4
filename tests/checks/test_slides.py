"""Findings on slides: each speaks past its limit and is silent at it. All in mm.

The carcase is 440 x 300 x 200 outside, of boards 20 thick; the divider is a shelf 12 thick unless a
test says otherwise. Sockets are 10 deep with 3 of room: tails 7 long that slope 1 at 1 in 7. The
least wood is 5.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.carcase import CarcaseChoice
from layout.checks import check, slides
from layout.joints.slide import SlideChoice
from layout.mark import Finding
from layout.measure.slope import Slope
from layout.piece import Piece
from tests.builds.test_carcase import back, case, housed, slid, slid_case
from tests.builds.test_divider import divider, shelf
from tests.builds.test_drawer import boxes, drawer, mm_rail, stand
from tests.joints.test_spacing import dovetails

F = Fraction
THICK = {"sides": F(20), "top": F(20), "bottom": F(20)}
SIDES = [("shelf", "case-left-side"), ("shelf", "case-right-side")]


def one(choice: SlideChoice, carcase: CarcaseChoice | None = None, **changes: object) -> Piece:
    """A shelf in a carcase."""
    return boxes(carcases=(carcase or case(**THICK),), dividers=(shelf(joint=choice, **changes),))


def found(rule: str, p: Piece) -> list[Finding]:
    return [each for each in slides.findings(p) if each.rule == rule]


def told(rule: str, p: Piece) -> list[tuple[str, tuple[str, ...], dict[str, Fraction]]]:
    """Level, parts and figures of a rule's findings."""
    assert all(each.cure for each in found(rule, p) if each.level != "note")
    return [(each.level, each.parts, dict(each.figures)) for each in found(rule, p)]


def alike(level: str, **figures: object) -> list[tuple[object, ...]]:
    """The same at both ends of the shelf."""
    return [(level, who, {key.replace("_", " "): size for key, size in figures.items()})
            for who in SIDES]


# -- depth


def test_half_of_a_board_is_the_deepest_socket() -> None:
    assert told(slides.DEPTH, one(housed())) == []
    # 10.1 of 20
    deep = one(housed(depth=F(101, 10)))
    assert told(slides.DEPTH, deep) == alike("caution", depth=F(101, 10), board=20, left=F(99, 10))
    assert "more than half" in found(slides.DEPTH, deep)[0].text


def test_some_wood_is_left_behind_a_socket() -> None:
    thin = case(sides=F(10))
    # half of 10 deep: 5 is left, the least
    assert told(slides.DEPTH, one(housed(depth=F(5)), thin)) == []
    # in boards of 9.8 half leaves 4.9
    low = one(housed(depth=F(49, 10)), case(sides=F(98, 10)))
    assert told(slides.DEPTH, low) == alike("caution", depth=F(49, 10), board=F(98, 10),
                                            left=F(49, 10))
    assert "leaves only" in found(slides.DEPTH, low)[0].text


def test_a_socket_through_the_board_is_a_stop() -> None:
    assert told(slides.DEPTH, one(housed(depth=F(20)))) == alike("stop", depth=20, board=20, left=0)
    assert [level for level, _, _ in told(slides.DEPTH, one(housed(depth=F(199, 10))))] == [
        "caution", "caution",
    ]


# -- the tail


def test_a_shoulder_takes_at_least_what_the_slope_does() -> None:
    assert told(slides.TAIL, one(slid(shoulders=(F(1), F(1))))) == []
    less = F(9, 10)
    figures = {"shoulder": less, "slope over the tail": F(1)}
    for shoulders, word in (((less, F(1)), "face"), ((F(1), less), "back")):
        p = one(slid(shoulders=shoulders))
        assert told(slides.TAIL, p) == [("stop", who, figures) for who in SIDES]
        assert f"beyond its {word} at the tip" in found(slides.TAIL, p)[0].text
    # a square side takes nothing
    assert told(slides.TAIL, one(slid(slopes="face", shoulders=(F(1), F(0))))) == []


def test_a_neck_is_at_least_a_third_of_its_board() -> None:
    # 12 - 4 - 4
    assert told(slides.TAIL, one(slid(shoulders=(F(4), F(4))))) == []
    thin = one(slid(shoulders=(F(4), F(41, 10))))
    assert told(slides.TAIL, thin) == alike("caution", neck=F(39, 10), thickness=12)
    assert "at the closed end" not in found(slides.TAIL, thin)[0].text


def test_a_neck_is_thinnest_at_the_closed_end() -> None:
    # 12 - 2 less a taper of 6
    assert told(slides.TAIL, one(slid(taper=F(6)))) == []
    thin = one(slid(taper=F(61, 10)))
    assert told(slides.TAIL, thin) == alike("caution", neck=F(39, 10), thickness=12)
    assert "at the closed end" in found(slides.TAIL, thin)[0].text


def test_no_neck_at_all_is_a_stop() -> None:
    """The builds refuse it; here it is put together by hand. 12 - 2 is left for the taper."""
    assert told(slides.TAIL, by_hand(taper=F(10))) == alike("stop", neck=0)
    assert told(slides.TAIL, by_hand(taper=F(99, 10)))[0][0] == "caution"
    assert told(slides.TAIL, one(slid(taper=F(99, 10))))[0][0] == "caution"


def by_hand(**changes: object) -> Piece:
    """A shelf whose slides are changed after it was built."""
    p = one(slid())
    (ours,) = p.dividers
    changed = tuple(
        each._replace(choice=each.choice._replace(**changes)) for each in ours.slides  # type: ignore[arg-type]
    )
    return p._replace(dividers=(ours._replace(slides=changed),))  # type: ignore[arg-type]


# -- the slope


@pytest.mark.parametrize("run", [4, 6, 7, 8])
def test_usual_slopes_are_silent(run: int) -> None:
    assert told(slides.SLOPE, one(slid(slope=Slope(F(run))))) == []


@pytest.mark.parametrize(
    ("run", "word"), [(F(39, 10), "steeper than 1 in 4"), (F(81, 10), "less than 1 in 8")]
)
def test_other_slopes_are_a_caution(run: Fraction, word: str) -> None:
    p = one(slid(slope=Slope(run)))
    assert told(slides.SLOPE, p) == alike("caution", run=run)
    assert word in found(slides.SLOPE, p)[0].text


def test_a_housing_has_no_slope() -> None:
    assert told(slides.SLOPE, one(housed())) == []


# -- wood beside the socket


def ends(p: Piece) -> list[tuple[str, tuple[str, ...], Fraction, str]]:
    return [
        (each.level, each.parts, dict(each.figures)["left"],
         "before" if " before the socket" in each.text else "beyond")
        for each in found(slides.ENDS, p)
    ]


def test_wood_beyond_a_socket_at_the_top_and_before_one_at_the_foot() -> None:
    at = {"slid": housed(), "top_in": F(5), "bottom_in": F(5)}
    assert ends(boxes(carcases=(slid_case(**at),))) == []
    high = boxes(carcases=(slid_case(**{**at, "top_in": F(49, 10)}),))
    assert ends(high) == [
        ("caution", ("case-top", f"case-{hand}-side"), F(49, 10), "beyond")
        for hand in ("left", "right")
    ]
    low = boxes(carcases=(slid_case(**{**at, "bottom_in": F(49, 10)}),))
    assert ends(low) == [
        ("caution", ("case-bottom", f"case-{hand}-side"), F(49, 10), "before")
        for hand in ("left", "right")
    ]


def test_a_socket_is_measured_where_it_is_widest() -> None:
    # 10/7 wider at the bottom, less a shoulder of 1: 3/7 more than the board
    least = 5 + F(3, 7)
    at = {"top_in": F(30), "bottom_in": least}
    assert ends(boxes(carcases=(slid_case(**at),))) == []
    low = boxes(carcases=(slid_case(**{**at, "bottom_in": least - F(1, 10)}),))
    assert [row[2] for row in ends(low)] == [F(49, 10)] * 2


def test_a_housing_at_the_very_end_is_a_rabbet_and_a_slide_there_is_a_stop() -> None:
    at = {"top_in": F(0), "bottom_in": F(0)}
    assert ends(boxes(carcases=(slid_case(slid=housed(), **at),))) == []
    assert [row[0] for row in ends(boxes(carcases=(slid_case(**at),)))] == ["stop"] * 4
    # with a shoulder of just the slope over the socket it would leave no wood at all
    just = slid(shoulders=(F(10, 7), F(10, 7)))
    assert [row[0::2] for row in ends(boxes(carcases=(slid_case(slid=just, **at),)))] == [
        ("stop", 0)] * 4


# -- sliding home


def home(p: Piece, part: str = "shelf") -> list[tuple[str, tuple[str, ...], str]]:
    return [(each.level, each.parts, each.text) for each in found(slides.HOME, p)
            if each.parts[0] == part]


@pytest.mark.parametrize("enter", ["back", "front"])
def test_which_way_and_how_far_a_board_slides(enter: str) -> None:
    p = one(slid(enter=enter))
    assert home(p) == [
        ("note", ("shelf",), f"the shelf slides in from the {enter}, 200 mm to travel"),
    ]
    assert dict(found(slides.HOME, p)[0].figures) == {"travel": 200}


def test_a_stop_makes_the_travel_shorter() -> None:
    assert dict(found(slides.HOME, one(slid(stop=F(12))))[0].figures) == {"travel": 188}


def test_a_back_in_its_rabbet_can_wait() -> None:
    """It is named, and it stops nothing: it goes in afterwards."""
    p = one(slid(), case(**THICK, back=back()))
    assert home(p) == [
        ("note", ("shelf",),
         "the shelf slides in from the back, 194 mm to travel, before the case back"),
    ]
    # from the front it is not in the way
    assert "before" not in home(one(slid(enter="front"), case(**THICK, back=back())))[0][2]


def test_two_loose_boards_are_named_and_more_by_what_they_are() -> None:
    two = one(slid(), case(**THICK, back=back(boards=2)))
    assert home(two)[0][2].endswith("before the case back board 1 and the case back board 2")
    three = one(slid(), case(**THICK, back=back(boards=3)))
    assert home(three)[0][2].endswith("before the case back board")


def test_a_slid_top_can_wait_too() -> None:
    """A partition slides in between top and bottom, which bear it: they are not in its way."""
    p = boxes(carcases=(slid_case(),), dividers=(divider(joint=slid()),))
    assert home(p, "part") == [
        ("note", ("part",), "the part slides in from the back, 200 mm to travel"),
    ]
    assert home(p, "case-top") == [
        ("note", ("case-top",), "the case top slides in from the back, 200 mm to travel"),
    ]


def test_what_slides_before_a_board_can_wait() -> None:
    """A shelf that reaches less far, with another board behind it at the same height."""
    p = boxes(carcases=(case(**THICK),), dividers=(
        shelf(depth=F(80), place=F(100), joint=slid(enter="front")),
        shelf("high", "above shelf", place=F(40)),
    ))
    assert home(p)[0][2] == "the shelf slides in from the front, 80 mm to travel"
    assert home(p, "high")[0][2] == "the high slides in from the back, 200 mm to travel"


def before_a_rail(set_in: int, **changes: object) -> Piece:
    """A shelf between the front legs, 604 to 616 above the floor, its left tail at 43 to 50 of
    the leg's 50; behind that leg a rail 20 thick, 580 to 620 above the floor.
    """
    end = mm_rail("end rail", sides=("left",), below_top=F(80), set_in=F(set_in))
    return boxes(frame=stand(end), dividers=(
        shelf(opening="front under top rail", joint=slid(**changes)),
    ))


def test_a_rail_tenoned_into_its_leg_stands_in_its_way() -> None:
    p = before_a_rail(24)  # to 44
    note, stop = found(slides.HOME, p)
    assert (note.level, note.text) == (
        "note", "the shelf slides in from the back, 50 mm to travel",
    )
    assert (stop.level, stop.parts, dict(stop.figures)) == (
        "stop", ("shelf", "left-end-rail"), {"travel": 50},
    )
    assert stop.text == (
        "the shelf can't slide in from the back: the left end rail stands in its way and is joined "
        "to what bears it"
    )
    assert stop.cure == 'write enter = "front", or shorten what stands there'


def test_a_rail_that_leaves_its_way_free_is_silent() -> None:
    note = [("note", ("shelf",), "the shelf slides in from the back, 50 mm to travel")]
    assert home(before_a_rail(23)) == note  # to 43: it passes
    assert [row[0] for row in home(before_a_rail(24, enter="front"))] == ["note"]


def test_what_is_not_reached_is_not_in_the_way() -> None:
    """The rail's tenon is 20 long: the rail begins 30 behind the leg's face."""
    own = boxes(frame=stand(mm_rail("end rail", sides=("left",), below_top=F(80), set_in=F(24))),
                dividers=(shelf(opening="front under top rail", depth=F(15)),))
    # 15 deep and 15 to travel: from 15 to 30
    assert [row[0] for row in home(own)] == ["note"]


def test_a_dovetailed_board_in_its_way_is_a_stop() -> None:
    """Only a piece put together by hand has one there: the top, moved to behind the shelf."""
    p = one(slid(), depth=F(80))
    top = p.part("case-top")
    height = p.part("shelf").reach(2)[0]
    for back_by, level in ((80, ["note", "stop"]), (159, ["note", "stop"]), (160, ["note"])):
        moved = top._replace(placement=top.placement._replace(origin=(F(0), F(back_by), height)))
        odd = p._replace(parts=tuple(moved if one is top else one for one in p.parts))
        assert [row[0] for row in home(odd)] == level


def test_a_shelf_on_the_left_slides_in_from_inside_the_frame() -> None:
    """Its inward way is to the right: the rail behind it is on the front."""
    rear = mm_rail("rear rail", sides=("front",), below_top=F(80), set_in=F(24))
    p = boxes(frame=stand(rear, side="left"), dividers=(
        shelf(opening="left under top rail", joint=slid()),
    ))
    assert [(row[0], row[1]) for row in home(p)] == [
        ("note", ("shelf",)), ("stop", ("shelf", "front-rear-rail")),
    ]


@pytest.mark.parametrize(("enter", "levels"), [("back", ["note", "stop"]), ("front", ["note"])])
def test_a_shelf_at_the_back_of_a_frame_has_its_own_front(enter: str, levels: list[str]) -> None:
    """Its inward way is forward: the rail on the left lies behind it as it does in front."""
    end = mm_rail("end rail", sides=("left",), below_top=F(80), set_in=F(24))
    p = boxes(frame=stand(end, side="back"), dividers=(
        shelf(opening="back under top rail", joint=slid(enter=enter)),
    ))
    assert [row[0] for row in home(p)] == levels


def test_a_drawer_in_an_opening_is_loose() -> None:
    """What runs loose can wait: a shelf below it slides in first."""
    p = boxes(carcases=(case(**THICK, depth=F(300), height=F(260)),), dividers=(
        shelf(place=F(100), depth=F(100), joint=slid(enter="back")),
    ), drawers=(drawer(space=None, openings=("above shelf",), front_joint=dovetails(lap=F(6),
                                                                                   tails=1)),))
    assert home(p) == [("note", ("shelf",), "the shelf slides in from the back, 100 mm to travel")]


def test_both_ends_are_entered_from_one_edge() -> None:
    """Only a piece put together by hand can have it otherwise."""
    p = one(slid())
    ours = p.dividers[0]
    first, other = ours.slides
    turned = other._replace(choice=other.choice._replace(enter="front"))
    odd = p._replace(dividers=(ours._replace(slides=(first, turned)),))
    assert [level for level, _, _ in home(odd)] == ["stop"]
    assert found(slides.HOME, odd)[0].cure == "enter both ends from the same edge"


def test_the_checks_run_with_all_the_others() -> None:
    rules = {each.rule for each in check(one(slid()))}
    assert slides.HOME in rules
    assert {each.level for each in check(one(slid()))} == {"note"}
