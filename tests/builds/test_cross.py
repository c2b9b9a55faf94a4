"""Rails between rails: where they stand, which surfaces they go into, and what can't stand.

The frame is 48 x 24 x 30 in over legs 2 1/2 in square. Its rails are 2 x 1 1/8 in, flush: the
upper ones at the top, the low ones 10 in above the floor. Cross rails are 2 x 1 1/8 in with
tenons 3/4 in long and 3/8 thick.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.choices import CrossChoice
from layout.builds.cross import reach
from layout.builds.frame import SIDES
from layout.checks import check, places
from layout.checks.placed import part_box
from layout.errors import BadPiece
from layout.joints.choices import PairChoice
from layout.part import Face, Part
from layout.piece import Piece
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    frame,
    inch,
    inches,
    joint_of,
    measured,
    piece,
    rail,
    tenon,
    total,
)

UPPER = rail(sides=SIDES, width=inch(2))
LOW = rail("low", sides=SIDES, width=inch(2), below_top=None, above_floor=inch(10))
Box = tuple[tuple[Fraction, Fraction], ...]


def crossed(*crosses: CrossChoice, **changes: object) -> Piece:
    return agreed(frame(UPPER, LOW, crosses=crosses, **changes))


def box(x: str, y: str, z: str) -> Box:
    return (inches(x), inches(y), inches(z))


def faces(p: Piece, name: str) -> tuple[Face, Face]:
    return (joint_of(p, f"{name}.A").meeting.face, joint_of(p, f"{name}.B").meeting.face)


def bearers(p: Piece, name: str) -> tuple[str, str]:
    return (joint_of(p, f"{name}.A").bearer.name, joint_of(p, f"{name}.B").bearer.name)


def shared(p: Piece) -> list[str]:
    return [one.text for one in check(p) if one.rule == "no two parts in one place"
            and one.level == "stop"]  # fmt: skip


# -- where it stands


def test_a_stretcher_on_edge_between_the_side_rails() -> None:
    p = crossed(cross("stretcher", "left low", "right low"))
    # from rail to rail 1 1/8 to 46 7/8, 3/4 more at both ends; in the middle of 24; the rails'
    # height, 10 to 12
    assert part_box(p.part("stretcher")) == box("3/8 | 47 5/8", "11 7/16 | 12 9/16", "10 | 12")
    assert faces(p, "stretcher") == ("back", "back")
    assert bearers(p, "stretcher") == ("left low", "right low")
    place = p.part("stretcher").placement
    assert (place.L, place.W, place.T) == ("+X", "-Z", "+Y")


def test_a_stretcher_that_lies_flat() -> None:
    p = crossed(cross("stretcher", "left low", "right low", upright=False))
    # 2 along the rails, 1 1/8 high in the middle of their height
    assert part_box(p.part("stretcher")) == box(
        "3/8 | 47 5/8", "11 | 13", "10 7/16 | 11 9/16"
    )
    place = p.part("stretcher").placement
    assert (place.L, place.W, place.T) == ("+X", "+Y", "-Z")


@pytest.mark.parametrize(
    ("upright", "rows"), [(True, ("upper", "lower")), (False, ("first", "second"))]
)
def test_a_pair_of_tenons_is_named_by_how_the_rail_lies(
    upright: bool, rows: tuple[str, str]
) -> None:
    # quarters of 2: 1/4 to 3/4 and 1 1/4 to 1 3/4 from its edge, which looks up or to the front
    choice = tenon(length=inch("3/4"), pair=PairChoice())
    p = crossed(
        cross("stretcher", "left low", "right low", upright=upright, tenon=choice)
    )
    mortises = [one for one in p.cuts_of("right-low") if one.joint == "stretcher.B"]
    assert [one.role for one in mortises] == [f"{row} mortise" for row in rows]
    first, second = mortises
    # in the right rail from its upper edge, or from its end A, at the front; it is 19 + 2 x 1 1/4
    # long
    if upright:
        assert first.shape.reach("W") == inches("1/4 | 3/4")
        assert second.shape.reach("W") == inches("1 1/4 | 1 3/4")
    else:
        middle = inch("21 1/2") / 2
        assert first.shape.reach("L") == (middle - inch("3/4"), middle - inch("1/4"))
        assert second.shape.reach("L") == (middle + inch("1/4"), middle + inch("3/4"))


def test_a_kicker_from_front_to_back() -> None:
    flat = crossed(cross("kicker", "front rail", "back rail", upright=False,
                         places=(inch(6), None, inch("28 5/8"))))  # fmt: skip
    assert part_box(flat.part("kicker")) == box("6 | 8", "3/8 | 23 5/8", "28 5/8 | 29 3/4")
    place = flat.part("kicker").placement
    assert (place.L, place.W, place.T) == ("+Y", "+X", "-Z")
    on_edge = crossed(cross("kicker", "front rail", "back rail"))
    assert part_box(on_edge.part("kicker")) == box("23 7/16 | 24 9/16", "3/8 | 23 5/8", "28 | 30")
    place = on_edge.part("kicker").placement
    assert (place.L, place.W, place.T) == ("+Y", "-Z", "+X")
    assert bearers(on_edge, "kicker") == ("front rail", "back rail")


@pytest.mark.parametrize(
    ("side", "x", "y"),
    [
        ("front", "23 | 25", "0 | 1 1/8"),
        ("back", "23 | 25", "22 7/8 | 24"),
        ("left", "0 | 1 1/8", "11 | 13"),
        ("right", "46 7/8 | 48", "11 | 13"),
    ],
)
def test_a_muntin_stands_as_the_rails_of_its_side_do(side: str, x: str, y: str) -> None:
    p = crossed(cross("muntin", f"{side} rail", f"{side} low"))
    # between 12 and 28, and 3/4 into both; end A is the upper one
    assert part_box(p.part("muntin")) == box(x, y, "11 1/4 | 28 3/4")
    assert bearers(p, "muntin") == (f"{side} rail", f"{side} low")
    assert faces(p, "muntin") == ("far edge", "edge")
    place, theirs = p.part("muntin").placement, p.part(f"{side}-rail").placement
    assert (place.L, place.W, place.T) == ("-Z", theirs.L, theirs.T)


@pytest.mark.parametrize("turned", [False, True])
def test_the_order_of_the_names_does_not_matter(turned: bool) -> None:
    for one, other in (
        ("left low", "right low"), ("front rail", "back rail"), ("front rail", "front low")
    ):  # fmt: skip
        names = (other, one) if turned else (one, other)
        p = crossed(cross("tie", *names))
        assert bearers(p, "tie") == (one, other)


@pytest.mark.parametrize("upright", [True, False])
def test_between_legs(upright: bool) -> None:
    """Its width runs up the legs in any case: that way its tenon has their long grain."""
    p = crossed(
        cross("tie", "front left leg", "back left leg", places=(None, None, inch(5)),
              upright=upright)
    )  # fmt: skip
    # 2 up the legs, in the middle of their width: (2 1/2 - 1 1/8) / 2 = 11/16
    assert part_box(p.part("tie")) == box("11/16 | 1 13/16", "1 3/4 | 22 1/4", "5 | 7")
    assert faces(p, "tie") == ("back", "back")


def test_on_another_cross_rail() -> None:
    p = crossed(
        cross("left bar", "front low", "back low", places=(inch(16), None, None)),
        cross("right bar", "front low", "back low", places=(inch(30), None, None)),
        cross("bridge", "left bar", "right bar"),
    )
    # between 16 + 1 1/8 and 30
    assert part_box(p.part("bridge"))[0] == inches("16 3/8 | 30 3/4")
    assert part_box(p.part("bridge"))[1] == inches("11 7/16 | 12 9/16")
    assert shared(p) == []


def test_places_count_from_the_left_the_front_and_the_floor() -> None:
    p = crossed(
        cross("kicker", "front rail", "back rail", places=(inch(9), None, inch("28 1/4")),
              width=inch("1 1/2")),
        cross("muntin", "left rail", "left low", places=(None, inch(5), None)),
    )  # fmt: skip
    assert part_box(p.part("kicker"))[0][0] == inch(9)
    assert part_box(p.part("kicker"))[2] == inches("28 1/4 | 29 3/4")
    assert part_box(p.part("muntin"))[1] == inches("5 | 7")
    # across its rails it stands in their middle still
    assert part_box(p.part("muntin"))[0] == inches("0 | 1 1/8")


def test_it_stands_in_the_middle_of_what_its_bearers_share() -> None:
    # the back rail is higher by 1/2: 28 1/2 to 30 above the floor against 28 to 30
    high = rail("back bar", sides=("back",), width=inch("1 1/2"))
    front = rail("front bar", sides=("front",), width=inch(2))
    p = agreed(
        frame(front, high, crosses=(
            cross("tie", "front bar", "back bar", width=inch(1)),
        ))
    )  # fmt: skip
    assert part_box(p.part("tie"))[2] == inches("28 3/4 | 29 3/4")


def test_reach_is_from_shoulder_to_shoulder_along_the_grain_only() -> None:
    p = crossed()
    part: Part = p.part("front-rail")
    lengths = {part.id: inches("1 1/4 | 1 1/4")}
    assert reach(part, 0, lengths) == inches("2 1/2 | 45 1/2")  # type: ignore[arg-type]
    assert reach(part, 0, {}) == inches("1 1/4 | 46 3/4")
    assert reach(part, 1, lengths) == inches("0 | 1 1/8")  # type: ignore[arg-type]
    back = p.part("back-rail")
    one_end = {back.id: inches("1 1/4 | 1")}
    # its end A is at the right
    assert reach(back, 0, one_end) == (inch("2 1/4"), inch("45 1/2"))  # type: ignore[arg-type]


# -- how it lies on its bearers


def test_the_same_way_as_its_bearer_or_against_it() -> None:
    p = crossed(cross("kicker", "front rail", "back rail", upright=False,
                      places=(inch(6), None, None)))  # fmt: skip
    front, back = (joint_of(p, f"kicker.{end}").meeting for end in ("A", "B"))
    # its width runs to the right: as the front rail's length does, against the back rail's
    assert (front.width.axis, front.width.forward) == ("L", True)
    assert (back.width.axis, back.width.forward) == ("L", False)
    # its face side is on top, as their edges are
    assert (front.thickness.axis, front.thickness.forward) == ("W", True)
    assert (back.thickness.axis, back.thickness.forward) == ("W", True)
    # 1 1/4 of tenon to the left of 2 1/2: end A of the front rail is 1 1/4 from the left
    assert front.width.near == (
        (+1, "kicker from the left", inch(6)),
        (-1, "end A of the front rail from the left", inch("1 1/4")),
    )
    assert back.width.near == (
        (+1, "end A of the back rail from the left", inch("46 3/4")),
        (-1, "far side of the kicker from the left", inch(8)),
    )
    assert front.width.far == (*front.width.near, (+1, "rail width", inch(2)))
    # in the middle of their 2
    assert front.thickness.near == (
        (+1, "half of the width of the front rail", inch(1)),
        (-1, "half of the thickness of the kicker", inch("9/16")),
    )


def test_sums_on_the_bearers_of_a_kicker() -> None:
    p = crossed(cross("kicker", "front rail", "back rail", upright=False,
                      places=(inch(6), None, None)))  # fmt: skip
    # 6 - 1 1/4, and its tenon 1/4 narrower on each side; 46 3/4 - 8 from the right
    front, back = "(kicker, end A)", "(kicker, end B)"
    assert total(p, "front-rail", f"rail's side from end A {front}") == inch("4 3/4")
    assert total(p, "front-rail", f"rail's far side from end A {front}") == inch("6 3/4")
    assert total(p, "front-rail", f"mortise start from end A {front}") == inch(5)
    assert total(p, "front-rail", f"mortise end from end A {front}") == inch("6 1/2")
    assert total(p, "back-rail", f"rail's side from end A {back}") == inch("38 3/4")
    assert total(p, "back-rail", f"mortise start from end A {back}") == inch(39)
    assert total(p, "back-rail", f"mortise end from end A {back}") == inch("40 1/2")
    # thickness 1 1/8 in the middle of 2: 7/16, and 3/8 more to the tenon
    for part, place in (("front-rail", front), ("back-rail", back)):
        assert total(p, part, f"near mortise wall from the face edge {place}") == inch("13/16")
        assert total(p, part, f"far mortise wall from the face edge {place}") == inch("1 3/16")


def test_sums_of_a_cross_rail_s_length() -> None:
    p = crossed(
        cross("stretcher", "left low", "right low"),
        cross("muntin", "front rail", "front low"),
    )
    # 46 7/8 - 1 1/8, and 28 - 12; two tenons of 3/4
    assert total(p, "stretcher", "shoulder distance") == inch("45 3/4")
    assert total(p, "stretcher", "cut length") == inch("47 1/4")
    assert total(p, "muntin", "shoulder distance") == inch(16)
    assert total(p, "muntin", "cut length") == inch("17 1/2")
    (one,) = [s for s in p.sums if (s.part, s.name) == ("stretcher", "shoulder distance")]
    assert [(term.sign, term.label) for term in one.terms] == [
        (+1, "right low from the left"), (-1, "inner side of the left low from the left")
    ]  # fmt: skip


@given(
    fractions(Fraction(80), Fraction(1000), 8),
    fractions(Fraction(30), Fraction(250), 8),
    fractions(Fraction(20), Fraction(49), 8),
    fractions(Fraction(10), Fraction(40), 8),
    st.booleans(),
)
@settings(max_examples=10, deadline=None)
def test_wherever_it_stands_its_sums_agree(
    left: Fraction, front: Fraction, width: Fraction, thickness: Fraction, upright: bool
) -> None:
    sizes = {"width": width, "thickness": thickness, "upright": upright}
    p = crossed(
        cross("kicker", "front rail", "back rail", places=(left, None, None), **sizes),
        cross("runner", "left low", "right low", places=(None, front + 60, None), **sizes),
        cross("muntin", "back rail", "back low", places=(left, None, None), **sizes),
        cross("side muntin", "right rail", "right low", places=(None, front + 60, None), **sizes),
    )
    along = (width, thickness) if not upright else (thickness, width)
    assert part_box(p.part("kicker"))[0] == (left, left + along[0])
    assert part_box(p.part("runner"))[1] == (front + 60, front + 60 + along[0])
    # an upright part's width is along its rails in any case
    assert part_box(p.part("muntin"))[0] == (left, left + width)
    assert part_box(p.part("side-muntin"))[1] == (front + 60, front + 60 + width)


def test_a_measured_cross_rail_keeps_its_reference_surfaces() -> None:
    # 1/16 narrower and 1/32 thinner than drawn: the upper edge and the front stay
    drawn = cross("stretcher", "left low", "right low")
    p = crossed(drawn, milled=measured(stretcher="1 15/16 x 1 3/32"))
    assert part_box(p.part("stretcher")) == (
        inches("3/8 | 47 5/8"), inches("11 7/16 | 12 17/32"), inches("10 1/16 | 12")
    )  # fmt: skip


# -- what can't stand


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("left low", "front low"),  # round a corner
        ("left low", "right rail"),  # askew: apart in height as well
        ("left low", "left low"),  # one part
        ("front left leg", "back right leg"),  # across the corners
        ("front left leg", "left rail"),  # joined
        ("front rail", "front left leg"),
        ("left low", "front right leg"),  # side by side, but of two directions
    ],
)
def test_parts_that_do_not_face_each_other(one: str, other: str) -> None:
    with pytest.raises(BadPiece, match="do not face each other") as caught:
        crossed(cross("tie", one, other))
    assert "side by side or one above the other" in caught.value.cure


def test_a_part_that_is_not_there() -> None:
    with pytest.raises(BadPiece, match="no part 'left middle' for the tie to stand on") as caught:
        crossed(cross("tie", "left middle", "right low"))
    assert "'front left leg'" in caught.value.cure
    assert "'right low'" in caught.value.cure


def test_only_cross_rails_before_it_bear_a_cross_rail() -> None:
    bar = cross("bar", "front low", "back low", places=(inch(16), None, None))
    with pytest.raises(BadPiece, match="no part 'bar'"):
        crossed(cross("bridge", "bar", "right low"), bar)


@pytest.mark.parametrize(
    ("one", "other", "places", "words"),
    [
        ("left low", "right low", (inch(1), None, None), "from the left"),
        ("front low", "back low", (None, inch(1), None), "from the front"),
        ("front rail", "front low", (None, None, inch(1)), "above the floor"),
    ],
)
def test_a_place_along_its_own_length(
    one: str, other: str, places: tuple[Fraction | None, ...], words: str
) -> None:
    with pytest.raises(BadPiece, match=f"where the tie stands {words} is given"):
        crossed(cross("tie", one, other, places=places))


# -- and its place is checked as it really stands


def placed_wrongly(p: Piece) -> list[str]:
    return [one.level for one in check(p) if one.rule == places.RULE]


@pytest.mark.parametrize("width", ["2", "6"])
def test_a_flat_rail_near_the_floor_is_not_below_it(width: str) -> None:
    """It is 1 1/8 high and stands on 1 7/16: its width lies level."""
    foot = rail("foot", sides=("front", "back"), width=inch(2), below_top=None,
                above_floor=inch(1))  # fmt: skip
    p = agreed(
        frame(UPPER, foot, crosses=(
            cross("shelf", "front foot", "back foot", width=inch(width), upright=False),
        ))
    )  # fmt: skip
    assert part_box(p.part("shelf"))[2] == inches("1 7/16 | 2 9/16")
    assert placed_wrongly(p) == []


def test_a_wide_muntin_between_low_rails_is_not_below_the_floor() -> None:
    """Its width lies level: it ends in the lower rail, 3/4 below that one's top."""
    foot = rail("foot", sides=("front",), width=inch(2), below_top=None, above_floor=inch(1))
    bar = rail("bar", sides=("front",), width=inch(2), below_top=None, above_floor=inch(5))
    p = agreed(
        frame(foot, bar, crosses=(
            cross("block", "front bar", "front foot", width=inch(8)),
        ))
    )  # fmt: skip
    assert part_box(p.part("block"))[2] == inches("2 1/4 | 5 3/4")
    assert placed_wrongly(p) == []


@pytest.mark.parametrize(
    ("thickness", "levels"), [("1 1/8", []), ("1 5/32", ["caution"]), ("1 3/8", ["caution"])]
)
def test_a_muntin_thicker_than_its_rails_stands_proud(thickness: str, levels: list[str]) -> None:
    p = agreed(
        frame(UPPER, LOW, crosses=(
            cross("muntin", "front rail", "front low", thickness=inch(thickness)),
        ))
    )  # fmt: skip
    assert placed_wrongly(p) == levels
    for one in (one for one in check(p) if one.rule == places.RULE):
        # in the middle of the rails: half of the more stands out on each side
        assert dict(one.figures)["proud"] == (inch(thickness) - inch("1 1/8")) / 2


def test_a_muntin_that_overhangs_both_rails_another_way_is_told_of_both() -> None:
    # the upper rail is set in 3/8: it reaches from 3/8 to 1 1/2, the low one from 0 to 1 1/8.
    # Half way, 3/4, a muntin 1 thick reaches from 1/4 to 1 1/4: 1/8 out of each
    upper = UPPER._replace(set_in=inch("3/8"))
    p = piece(
        frame(upper, LOW, crosses=(cross("muntin", "front rail", "front low", thickness=inch(1)),))
    )
    told = [one for one in check(p) if one.rule == places.RULE]
    assert {one.parts[1] for one in told} == {"front-rail", "front-low"}
    assert {dict(one.figures)["proud"] for one in told} == {inch("1/8")}


def test_a_cross_rail_that_stands_above_its_bearers_is_told() -> None:
    # 29 1/2 + 1 1/8 comes 5/8 above the rails and the legs
    p = piece(
        frame(UPPER, crosses=(
            cross("kicker", "front rail", "back rail", upright=False,
                  places=(inch(20), None, inch("29 1/2")), tenon=tenon(length=inch("1/2"))),
        ))
    )  # fmt: skip
    assert placed_wrongly(p) == ["stop"]
