"""What holds a top on its rails: where, how many, in what, and what is refused. In mm.

Frame, top, timber and climate are those of test_top.py: rails 28 thick flush with the outsides of
legs 60 square, 880 long between them in front and behind, 480 at the ends. The held line, unless
said otherwise, is the middle, 300 from the front of the frame: 286 from the middle of either long
rail. What lies `away` from it moves out by away x 4 x 0.00365 and back by away x 0.00365.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.tops import LaidTop
from layout.checks import check
from layout.joints.fixing import Fixed, tongue_for
from layout.mark import Cut
from layout.part import Part
from layout.piece import Piece
from tests.builds.test_top import BACK, CASE, CLIMATE, FRAME, OUT, line_of, made, read, refused
from tests.pieces import cut, marks_of, reach, total

F = Fraction
BUTTONS = "fixing = {}\n"
SCREWS = 'fixing = { kind = "screws" }\n'
DAMP = "[climate]\nnow = 8\ndry = 7\nwet = 14\n"  # out by six times as much as back
ENDS = ("left-rail", "right-rail")
LONG = ("front-rail", "back-rail")


def held(laid: LaidTop, rail: str) -> list[Fixed]:
    assert laid.fixings is not None
    return [one for one, _ in laid.fixings.found if one.rail.id == rail]


def cuts_of(p: Piece, rail: str, role: str) -> list[Cut]:
    return [one for one in p.cuts if one.joint == f"{rail}.top" and one.role.startswith(role)]


def middle(rail: Part, one: Fixed) -> tuple[Fraction, Fraction]:
    """Where a fixing stands, from the piece's left and front."""
    x, y, _ = rail.placement.to_piece((one.place, F(0), rail.thickness / 2))
    return x, y


# -- how many, and where


@pytest.mark.parametrize("keys", [BUTTONS, SCREWS])
def test_evenly_between_the_legs(keys: str) -> None:
    _, laid = made(keys)
    assert laid.fixings is not None
    assert len(laid.fixings.found) == 6
    # 880 in stretches of at most 500: two, at a quarter and three; 480 at the ends: one
    for rail in LONG:
        xs = sorted(middle(one.rail, one)[0] for one in held(laid, rail))
        assert xs == [60 + 220, 60 + 660]
    for rail in ENDS:
        assert [middle(one.rail, one)[1] for one in held(laid, rail)] == [300]


@settings(max_examples=12, deadline=None)
@given(st.integers(150, 900), st.integers(0, 20), st.sampled_from(["buttons", "screws"]))
def test_no_farther_apart_than_said(apart: int, clear: int, kind: str) -> None:
    _, laid = made(f'fixing = {{ kind = "{kind}", apart = {apart}, clear = {clear} }}\n')
    for rail, long in ((LONG[0], 880), (LONG[1], 880), (ENDS[0], 480), (ENDS[1], 480)):
        found = held(laid, rail)
        # as few as there can be, but two on a rail along the grain
        assert len(found) == max(1 if rail in ENDS else 2, -(-long // apart))
        at = [middle(one.rail, one)[0 if rail in LONG else 1] - 60 for one in found]
        at.sort()
        assert all(after - before <= apart for before, after in pairwise(at))
        assert [at[0], long - at[-1]] == [F(long, 2 * len(found))] * 2
        assert [one.number for one in found] == list(range(1, len(found) + 1))


# A button moves as the top does at its screw: behind the rail (28), the gap (1 and what comes
# toward the rail) and half of the block (25). From the middle, 300: 300 - 28 - 1 - 25 = 246, less
# the swelling there, so that away x (1 + OUT) = 246.
MIDDLE = 246 / (1 + OUT)


def test_how_far_each_is_from_the_held_line() -> None:
    _, laid = made(BUTTONS)
    for rail in LONG:
        for one in held(laid, rail):
            assert (one.away, one.out, one.back) == (MIDDLE, MIDDLE * OUT, MIDDLE * BACK)
            assert not one.along
            assert one.outward == -1  # to the rail's outer side, which is its face
    for rail in ENDS:
        (one,) = held(laid, rail)
        assert (one.away, one.out, one.back, one.along) == (0, 0, 0, True)


@pytest.mark.parametrize("line", ["front", "back"])
def test_held_along_an_edge_of_the_top(line: str) -> None:
    _, laid = made(BUTTONS.replace("{}", f'{{ held = "{line}" }}'))
    assert laid.fixings is not None
    # the top's edges lie 25 beyond the rails' outsides; behind a rail half of the block is left of
    # 63 less the tongue. Toward the near rail the top comes by shrinking, toward the far one by
    # swelling.
    half = (63 - laid.fixings.tongue) / 2
    near = (25 + 28 + 1 + half) / (1 - BACK)
    far = (625 - 28 - 1 - half) / (1 + OUT)
    front, back = (near, far) if line == "front" else (far, near)
    assert {one.away for one in held(laid, "front-rail")} == {front}
    assert {one.away for one in held(laid, "back-rail")} == {back}
    for rail in ENDS:
        assert {one.away for one in held(laid, rail)} == {325}
    # away from the front edge is inward on the front rail, and outward on the back one
    signs = (1, -1) if line == "front" else (-1, 1)
    assert {one.outward for one in held(laid, "front-rail")} == {signs[0]}
    assert {one.outward for one in held(laid, "back-rail")} == {signs[1]}


# -- buttons


def test_a_button_by_hand() -> None:
    p, laid = made(BUTTONS)
    assert laid.fixings is not None
    assert laid.fixings.tongue == 13  # more than the year asks: 3.54 + 0.88 + 1 + 6
    joint = "front-rail.top"
    out = MIDDLE * OUT
    # upper wall 1 + 20 - 10 = 11 down, 10 of tongue and 1 of room; as deep as the tongue: of that
    # the gap of 1 + swelling stands before it and as much is left behind it
    assert reach(cut(p, "front-rail", joint, "button mortise 1").shape)[1:] == (
        (11, 22), (28 - 13, 28))
    one = held(laid, "front-rail")[0]
    low, high = cut(p, "front-rail", joint, "button mortise 1").shape.reach("L")
    assert (low, high) == (one.place - F(27, 2), one.place + F(27, 2))
    assert total(p, "front-rail", "upper wall of the button mortise (button 1)") == 11
    assert total(p, "front-rail", "depth of the button mortise (button 1)") == 13
    assert total(p, "top-button-1", "gap before the button's shoulder") == 1 + out
    (button,) = [part for part in p.parts if part.id == "top-button-1"]
    assert (button.length, button.width, button.thickness) == (63, 25, 20)
    # its block lies 1 below the top, behind the rail by the gap
    assert button.reach(2) == (779, 799)
    assert button.reach(1) == (28 - 13 + 1 + out, 28 + 63 - 13 + 1 + out)
    assert reach(cut(p, button.id, joint, "button waste").shape) == ((0, 13), (0, 25), (0, 10))


def test_a_tongue_as_long_as_the_year_asks() -> None:
    p, laid = made('fixing = { held = "front", button_length = 80 }\n', before=DAMP + FRAME)
    assert laid.fixings is not None
    # on the back rail: 6 % out and 1 % back, 1 of room and 6 to stay in, where the screw is; the
    # block behind a tongue of t is 80 - t, so the screw lies at 625 - 28 - 1 - (80 - t) / 2 less
    # the swelling there
    share, t = F("0.00365"), laid.fixings.tongue
    away = (596 - (80 - t) / 2) / (1 + 6 * share)
    assert away * share * 7 + 1 + 6 <= t < away * share * 7 + 1 + 6 + F(1, 4)
    for number, (one, _) in enumerate(laid.fixings.found, start=1):
        gap = total(p, f"top-button-{number}", "gap before the button's shoulder")
        if one.rail.id == "front-rail":  # the front is held: toward the rail's outside by shrinking
            assert gap == 1 + (54 + (80 - t) / 2) / (1 - share) * share
        if one.rail.id == "back-rail":
            assert gap == 1 + away * share * 6
        if one.along:
            assert gap == 1


@pytest.mark.parametrize("room", ["0", "1"])
def test_a_tongue_is_no_longer_than_the_year_asks(room: str) -> None:
    # a longer tongue moves the screws, and so what is asked: with no room to round it up it must
    # still be found, and to the last bit
    keys = f'fixing = {{ held = "front", button_length = 90, button_room = {room} }}\n'
    _, laid = made(keys, before=DAMP + FRAME)
    assert laid.fixings is not None
    asked = [tongue_for(one, laid.fixings.choice.button) for one, _ in laid.fixings.found]
    assert laid.fixings.tongue == max(asked) > 13


def test_a_year_that_asks_for_more_than_the_button_is_refused() -> None:
    what, cure, _ = refused('fixing = { held = "front", button_length = 16 }\n',
                            before=DAMP + FRAME)
    assert what == "the year asks for tongues longer than the buttons are"
    assert cure == "make the buttons longer"


@pytest.mark.parametrize("line", ["front", "middle", "back"])
def test_a_tongue_stays_in_its_mortise_and_touches_nothing_all_year(line: str) -> None:
    p, laid = made(f'fixing = {{ held = "{line}", apart = 240 }}\n')
    assert laid.fixings is not None
    for one, button in laid.fixings.found:
        assert button is not None
        mortise = cut(p, one.rail.id, one.joint, f"button mortise {one.number}").shape
        # the tongue, in the rail's coordinates: its tip and its shoulder through the thickness
        ends = [one.rail.placement.to_part(button.placement.to_piece((at, F(0), F(0))))[2]
                for at in (F(0), laid.fixings.tongue)]
        tip, shoulder = min(ends), max(ends)
        bottom = mortise.reach("T")[0]
        for year in (-one.back, F(0), one.out):
            move = F(0) if one.along else year * one.outward
            assert tip + move >= bottom + 1
            assert shoulder + move >= one.rail.thickness + 1
            assert one.rail.thickness - (tip + move) >= 6
        # and along a rail that crosses the grain the block slides in a mortise long enough
        low, high = mortise.reach("L")
        for year in (-one.back, F(0), one.out):
            move = year * one.outward if one.along else F(0)
            assert low + 1 <= one.place - F(25, 2) + move
            assert one.place + F(25, 2) + move <= high - 1


def test_a_button_s_mortise_along_the_rails_at_the_ends() -> None:
    p, laid = made("fixing = { apart = 240 }\n")
    one, other = sorted(held(laid, "left-rail"), key=lambda each: middle(each.rail, each)[1])
    # at a quarter and three of 480: 120 from the middle on both sides
    assert [middle(each.rail, each)[1] for each in (one, other)] == [180, 420]
    for each in (one, other):
        low, high = cut(p, "left-rail", each.joint, f"button mortise {each.number}").shape.reach(
            "L")
        assert high - low == 25 + 2 + 120 * (OUT + BACK)
        ys = sorted(each.rail.placement.to_piece((at, F(0), F(0)))[1] for at in (low, high))
        # longer away from the middle, for it swells more than it shrinks
        out, back = 120 * OUT, 120 * BACK
        toward = (F(27, 2) + out, F(27, 2) + back)
        y = middle(each.rail, each)[1]
        assert ys == ([y - toward[0], y + toward[1]] if each is one
                      else [y - toward[1], y + toward[0]])


def test_where_the_top_takes_a_button_s_screw() -> None:
    p, _ = made(BUTTONS)
    (mark,) = marks_of(p, "top", "top.fixing", "screw 1")
    # half way along the block of 50, behind the gap
    assert mark.face == "back"
    assert mark.point == (25 + 60 + 220, 25 + 28 + 1 + MIDDLE * OUT + 25)


def test_buttons_are_of_the_top_s_timber_or_their_own() -> None:
    _, laid = made(BUTTONS)
    assert laid.fixings is not None
    assert {part.timber for part in laid.fixings.parts} == {"white oak"}
    _, laid = made('fixing = { timber = "beech" }\n')
    assert laid.fixings is not None
    assert {part.timber for part in laid.fixings.parts} == {"beech"}


def test_buttons_in_a_corner_leave_each_other_room() -> None:
    # between slim legs the blocks at the corner of two rails would share their place, though there
    # is 53 between each of them and the next on its own rail
    slim = FRAME.replace("width = 60, thickness = 60", "width = 35, thickness = 35")
    p = read("fixing = { apart = 110 }\n", before=CLIMATE + slim)
    (laid,) = p.tops
    assert laid.fixings is not None
    for one, other in combinations(laid.fixings.parts, 2):
        assert any(one.reach(way)[1] <= other.reach(way)[0]
                   or other.reach(way)[1] <= one.reach(way)[0] for way in (0, 1, 2)), (
                       one.id, other.id)


# -- what is there already


@pytest.mark.parametrize("kind", ["buttons", "screws"])
def test_fixings_keep_clear_of_what_stands_behind_a_rail(kind: str) -> None:
    # a cross rail from front to back, flush on top, in the way of the front's first fixing
    cross = FRAME + ('[[frame.cross]]\nname = "bearer"\nbetween = ["front rail", "back rail"]\n'
                     "width = 60\nthickness = 40\nfrom_left = 270\nabove_floor = 740\n")
    p, laid = made(f'fixing = {{ kind = "{kind}" }}\n', before=CLIMATE + cross)
    bearer = p.part("bearer")
    low, high = bearer.reach(0)
    half = F(27, 2) if kind == "buttons" else 6
    for rail in LONG:
        for one in held(laid, rail):
            x = middle(one.rail, one)[0]
            assert x + half + 12 <= low or high + 12 <= x - half
    # moved by no more than it must be: to one of the two sides
    moved = [middle(one.rail, one)[0] for one in held(laid, "front-rail")]
    assert min(abs(x - (low - 12 - half)) + abs(x - (high + 12 + half)) for x in moved) == (
        high - low + 24 + 2 * half)


def test_every_mortise_keeps_the_least_to_what_is_beside_it() -> None:
    # README: clear is the least to a mortise; the button's is longer by what the top moves
    p, laid = made('fixing = { apart = 60, held = "front" }\n', before=DAMP + FRAME)
    for rail in ENDS:
        part = p.part(rail)
        legs = sorted(part.placement.to_part((F(0), F(y), F(0)))[0] for y in (60, 540))
        ends = sorted(one.shape.reach("L") for one in cuts_of(p, rail, "button mortise"))
        assert len(ends) == len(held(laid, rail)) == 8
        assert all(after[0] - before[1] >= 12 for before, after in pairwise(ends))
        assert ends[0][0] - legs[0] >= 12
        assert legs[1] - ends[-1][1] >= 12


# -- screws


def test_a_screw_by_hand() -> None:
    p, laid = made(SCREWS)
    joint = "front-rail.top"
    out, back = 286 * OUT, 286 * BACK
    one = held(laid, "front-rail")[0]
    # its slot lies across the rail: out is to the front, where T is less
    ends = [cut(p, "front-rail", joint, f"screw slot 1, {word}").shape for word in
            ("one end", "other end")]
    assert [reach(end)[0] for end in ends] == [(one.place - F(5, 2), one.place + F(5, 2))] * 2
    assert (ends[0].reach("T")[0], ends[1].reach("T")[1]) == (
        14 - F(5, 2) - out - 1, 14 + F(5, 2) + back + 1)
    assert {end.reach("W") for end in ends} == {(0, 25)}
    bored = cut(p, "front-rail", joint, "counterbore 1, one end").shape
    assert (bored.reach("W"), bored.reach("T")[0]) == ((25, 90), 14 - 6 - out - 1)
    assert total(p, "front-rail", "length of screw slot 1") == 5 + out + back + 2
    # at the ends of the frame the one screw stands on the held line: a round hole
    assert [each.role for each in cuts_of(p, "left-rail", "")] == ["screw slot 1", "counterbore 1"]
    (loose,) = [each for each in p.loose if each.name == "screw"]
    assert (loose.many, loose.thickness, loose.length) == (6, 5, 25 + 20)


def test_a_screw_up_through_another_place() -> None:
    p, laid = made('fixing = { kind = "screws", screw_from_face = 16 }\n')
    one = held(laid, "front-rail")[0]
    assert one.away == 284
    assert cut(p, "front-rail", one.joint, "screw slot 1, other end").shape.reach("T")[1] == (
        16 + F(5, 2) + 284 * BACK + 1)
    (mark,) = marks_of(p, "top", "top.fixing", "screw 1")
    assert mark.point == (25 + 60 + 220, 25 + 16)


def test_a_rail_no_deeper_than_the_wood_under_the_head_has_no_counterbore() -> None:
    p, _ = made('fixing = { kind = "screws", screw_under = 90 }\n')
    assert cuts_of(p, "front-rail", "counterbore") == []
    assert cut(p, "left-rail", "left-rail.top", "screw slot 1").shape.reach("W") == (0, 90)


@pytest.mark.parametrize("line", ["front", "middle", "back"])
def test_a_screw_has_room_in_its_slot_all_year(line: str) -> None:
    keys = f'fixing = {{ kind = "screws", held = "{line}", apart = 240, screw_head = 8 }}\n'
    p, laid = made(keys, before=CLIMATE + FRAME.replace("thickness = 28", "thickness = 40"))
    assert laid.fixings is not None
    for one, _ in laid.fixings.found:
        for role, size in ((f"screw slot {one.number}", 5), (f"counterbore {one.number}", 8)):
            axis = "L" if one.along else "T"
            ends = [each.shape.reach(axis) for each in cuts_of(p, one.rail.id, role)]
            low, high = min(end[0] for end in ends), max(end[1] for end in ends)
            at = one.place if one.along else one.rail.thickness / 2
            if not one.away:
                assert (low, high) == (at - F(size, 2), at + F(size, 2))
                continue
            sides = sorted((at + one.out * one.outward, at - one.back * one.outward))
            assert (low, high) == (sides[0] - F(size, 2) - 1, sides[1] + F(size, 2) + 1)


@pytest.mark.parametrize("thick", range(20, 40, 4))
@pytest.mark.parametrize("before", [CLIMATE, DAMP])
def test_no_slot_comes_out_of_its_rail(thick: int, before: str) -> None:
    # a slot that is longer outward than inward needs more wood on that side
    frame = before + FRAME.replace("thickness = 28", f"thickness = {thick}")
    away = 300 - F(thick, 2)
    out = away * F("0.00365") * (4 if before == CLIMATE else 6)
    reaches_out = F(thick, 2) - 6 - out - 1 <= 0
    if reaches_out:
        what, cure, line = refused(SCREWS, before=frame)
        assert what.startswith("a screw's counterbore comes out of the side of the ")
        assert "thicker rail" in cure
        assert line == line_of("fixing", SCREWS, frame)
        return
    p, _ = made(SCREWS, before=frame)
    for one in p.cuts:
        if one.joint.endswith("rail.top"):
            low, high = one.shape.reach("T")
            assert 0 < low < high < thick


# -- refused


@pytest.mark.parametrize(
    ("keys", "what"),
    [
        (BUTTONS.replace("{}", "{ button_tongue = 20 }"),
         "a button's tongue is no thinner than its block"),
        (BUTTONS.replace("{}", "{ button_length = 13 }"),
         "a button's tongue takes its whole length"),
        (BUTTONS.replace("{}", "{ button_tongue_length = 28 }"),
         "a button's mortise goes through the front rail"),
        (BUTTONS.replace("{}", "{ button_block = 88 }"),
         "a button's mortise is lower than the front rail"),
        (BUTTONS.replace("{}", "{ button_width = 240, apart = 200 }"),
         "there is no room on the front rail for a button"),
        (SCREWS.replace(" }", ", screw_head = 4 }"),
         "a screw's counterbore is smaller than its hole"),
        (SCREWS.replace(" }", ", apart = 21 }"), "the front rail would have 42 fixings"),
        (SCREWS.replace(" }", ", screw_from_face = 6 }"),
         "a screw's counterbore comes out of the side of the front rail"),
    ],
)
def test_what_is_refused(keys: str, what: str) -> None:
    told, cure, line = refused(keys)
    assert told == what
    assert cure
    assert line == line_of("fixing", keys)


@pytest.mark.parametrize(
    "before",
    [CLIMATE + FRAME.replace('top = "flush"', "below_top = 1"),
     CLIMATE + FRAME.replace('top = "flush"', "above_floor = 100"), CLIMATE + CASE],
)
@pytest.mark.parametrize("keys", [BUTTONS, SCREWS])
def test_nothing_right_under_the_top_to_fix_it_to(before: str, keys: str) -> None:
    what, cure, line = refused(keys, before=before)
    assert what == "there are no rails right under the top to fix it to"
    assert 'top = "flush"' in cure
    assert line == line_of("fixing", keys, before)


def test_only_the_rails_that_are_flush_count() -> None:
    two = FRAME.replace('"front", "back", "left", "right"', '"front", "back"')
    low = two + '[[frame.rail]]\nname = "low"\nsides = ["left", "right"]\nabove_floor = 100\n' + (
        "width = 90\nthickness = 28\n")
    _, laid = made(BUTTONS, before=CLIMATE + low)
    assert laid.fixings is not None
    assert {one.rail.id for one, _ in laid.fixings.found} == {"front-rail", "back-rail"}


def test_a_timber_that_is_not_known_can_not_be_held() -> None:
    what, cure, line = refused('timber = "stone"\n' + BUTTONS)
    assert "stone" in what
    assert cure
    assert line == line_of("[[top]]", 'timber = "stone"\n')
    what, cure, _ = refused(BUTTONS, head='piece = "Test"\nunit = "mm"\n')
    assert what == "the top's timber is not named"
    assert "white oak" in cure


def test_what_stands_is_sound() -> None:
    # (12 of counterbore leave too little beside it in a rail of 28; 8 do not)
    for keys in (BUTTONS, SCREWS.replace(" }", ", screw_head = 8 }")):
        p, _ = made(keys)
        assert [one for one in check(p) if one.level != "note"
                and "tenon" not in one.rule] == []
