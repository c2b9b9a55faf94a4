"""Hinges and locks: where they stand on a stile, clear of its mortises, and their lines, in mm.

The door is that of test_door.py: stiles 593 long; the mortise of its top rail reaches from 20 to 50
from the stile's top, that of its bottom rail from 533 to 569 2/3. Hinges are 50 long, 3 clear.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.hinge import Fitting, fittings, mortises, nearest_clear
from layout.checks import doors
from layout.mark import Finding
from layout.part import FACE_AXES, Part
from layout.piece import Piece
from tests.builds.test_door import CASE, LEGS, made, read, terms

F = Fraction
TWO = "hinges = { length = 50 }\n"
MIDDLE = "[[door.middle]]\nwidth = 60\n"


def placed(keys: str, **changes: str) -> tuple[Fitting, ...]:
    _, door = made(keys, **changes)
    return fittings(door)


def starts(keys: str) -> list[tuple[str, Fraction, Fraction]]:
    """Name, where it begins, and where it would have begun."""
    return [(one.name, one.start, one.wanted) for one in placed(keys)]


def findings(p: Piece) -> list[Finding]:
    return [one for one in doors.findings(p) if one.rule == doors.HINGE]


# -- places


def test_the_mortises_along_a_stile() -> None:
    _, door = made(MIDDLE)
    # the middle rail from 70 + 201 1/2 above the foot: its tenon between the grooves' 10
    top = 593 - 70 - F(403, 2) - 60
    assert mortises(door, door.stiles[0]) == (
        (20, 50), (top + 10, top + 50), (533, 593 - F(70, 3)),
    )


def test_hinges_one_length_from_the_ends_keep_clear_of_the_tenons() -> None:
    # 50 and 593 - 100 = 493, each too near: after 50 + 3, and to end 3 before 533
    assert starts(TWO) == [("hinge 1", 53, 50), ("hinge 2", 480, 493)]
    for one in placed(TWO):
        assert (one.length, one.open, one.stile.id) == (50, True, "door-left-stile")
        assert one.stop == one.start + 50


def test_further_hinges_stand_at_equal_distances_between() -> None:
    # the middle one of the places that were wanted, 50 and 493: 271 1/2, clear of both tenons
    assert starts("hinges = { length = 50, count = 3 }\n") == [
        ("hinge 1", 53, 50), ("hinge 2", F(543, 2), F(543, 2)), ("hinge 3", 480, 493),
    ]
    # thirds of 443 from 50
    wanted = [each for _, _, each in starts("hinges = { length = 50, count = 4 }\n")]
    assert wanted == [50, 50 + F(443, 3), 50 + F(886, 3), 493]


def test_a_hinge_over_a_middle_rail_s_tenon_moves_to_the_nearer_end_of_it() -> None:
    # that mortise reaches from 271 1/2 to 311 1/2: 3 + 40 down, or 3 + 50 up
    found = starts("hinges = { length = 50, count = 3 }\n" + MIDDLE)
    assert found[1] == ("hinge 2", F(623, 2) + 3, F(543, 2))


def test_a_place_that_is_given_stays() -> None:
    found = starts("hinges = { length = 50, count = 3, from_ends = 30 }\n")
    # only the outermost ones are given; the one between is not
    assert found == [("hinge 1", 30, 30), ("hinge 2", F(543, 2), F(543, 2)), ("hinge 3", 513, 513)]
    one, two, three = placed("hinges = { length = 50, count = 3, from_ends = 30 }\n")
    assert (one.open, two.open, three.open) == (False, True, False)


def test_a_lock_stands_half_way_up_the_other_stile() -> None:
    (one,) = placed("lock = { length = 40 }\n")
    assert (one.name, one.stile.id, one.start, one.stop) == (
        "lock", "door-right-stile", F(593, 2) - 20, F(593, 2) + 20,
    )
    (one,) = placed('hinges_on = "right"\nlock = { length = 40, above = 200 }\n')
    # its middle 200 above the foot
    assert (one.stile.id, one.start, one.open) == ("door-left-stile", 593 - 200 - 20, False)
    # over the middle rail's tenon, 271 1/2 to 311 1/2: 38 down, or 48 up
    (one,) = placed("lock = { length = 40 }\n" + MIDDLE)
    assert (one.start, one.wanted) == (F(623, 2) + 3, F(593, 2) - 20)


def test_a_pair_hangs_at_both_sides_and_is_locked_in_the_middle() -> None:
    p = read("pair = true\n" + TWO + "lock = { length = 40 }\n")
    assert [{one.stile.id for one in fittings(door) if one.name != "lock"} for door in p.doors] == [
        {"left-door-left-stile"}, {"right-door-right-stile"},
    ]
    assert [fittings(door)[-1].stile.id for door in p.doors] == [
        "left-door-right-stile", "right-door-left-stile",
    ]


# -- the nearest clear place


def test_the_nearest_clear_place_by_hand() -> None:
    taken = ((F(20), F(50)), (F(100), F(130)))
    # 30 long, 5 clear: free from 55 to 65 and from 135 on
    assert nearest_clear(F(60), F(30), taken, F(5), F(200)) == 60
    assert nearest_clear(F(40), F(30), taken, F(5), F(200)) == 55
    assert nearest_clear(F(90), F(30), taken, F(5), F(200)) == 65
    assert nearest_clear(F(101), F(30), taken, F(5), F(200)) == 135
    # as near up as down: the upper one
    assert nearest_clear(F(100), F(30), taken, F(5), F(200)) == 65
    # 41 long: no room between the two, and below them only to 200
    assert nearest_clear(F(60), F(41), taken, F(5), F(200)) == 135
    assert nearest_clear(F(60), F(66), taken, F(5), F(200)) is None


@settings(max_examples=80, deadline=None)
@given(
    wanted=st.integers(0, 120), length=st.integers(1, 60), clear=st.integers(0, 6),
    taken=st.lists(st.tuples(st.integers(0, 110), st.integers(1, 30)), max_size=4),
)
def test_the_nearest_clear_place_is_the_nearest_of_all(
    wanted: int, length: int, clear: int, taken: list[tuple[int, int]]
) -> None:
    whole, spans = 120, [(low, low + size) for low, size in taken]
    wanted = min(wanted, whole - length)
    free = [
        at for at in range(whole - length + 1)
        if all(at + length + clear <= low or at >= high + clear for low, high in spans)
    ]
    found = nearest_clear(F(wanted), F(length), tuple((F(a), F(b)) for a, b in spans), F(clear),
                          F(whole))
    if not free:
        assert found is None
    else:
        best = min(abs(at - wanted) for at in free)
        assert found in free
        assert abs(found - wanted) == best


def test_a_place_wanted_beyond_the_stile_s_end_moves_to_that_end() -> None:
    assert nearest_clear(F(70), F(60), (), F(3), F(120)) == 60
    assert nearest_clear(F(-7), F(60), ((F(90), F(95)),), F(3), F(120)) == 0


# -- what is said of them


def test_a_hinge_that_was_moved_is_told() -> None:
    p, _ = made(TWO)
    assert [(one.level, dict(one.figures)) for one in findings(p)] == [
        ("note", {"wanted": 50, "start": 53}), ("note", {"wanted": 493, "start": 480}),
    ]
    assert "is moved from 50 mm to 53 mm from the top of the stile" in findings(p)[0].text
    # one that needn't move is not
    assert findings(made("hinges = { length = 50, from_ends = 63 }\n")[0]) == []
    assert findings(made("lock = { length = 40 }\n")[0]) == []


def test_a_given_place_over_a_mortise_is_warned_of_with_the_nearest_better_one() -> None:
    p, _ = made("hinges = { length = 50, from_ends = 30 }\n")
    upper, lower = findings(p)
    assert (upper.level, lower.level) == ("caution", "caution")
    assert dict(upper.figures) == {"start": 30, "stop": 80}
    assert upper.cure == "let it begin 53 mm from the top of the stile"
    assert lower.cure == "let it begin 480 mm from the top of the stile"
    # just clear, and just not
    assert findings(made("hinges = { length = 50, from_ends = 53 }\n")[0])[1:] == []
    near = findings(made("hinges = { length = 50, from_ends = 52.9 }\n")[0])
    assert [one.figures[0] for one in near] == [("start", F("52.9")), ("start", F("490.1"))]


def test_no_clear_place_at_all() -> None:
    # 477 long between 53 and 530 just goes; 478 does not
    keys = "lock = { length = LONG }\n"
    (one,) = placed(keys.replace("LONG", "477"))
    assert (one.start, one.stop) == (53, 530)
    p, door = made(keys.replace("LONG", "478"))
    (told,) = findings(p)
    assert (told.level, told.cure) == ("caution", "use a shorter one")
    (one,) = fittings(door)
    assert one.start == one.wanted


def test_a_hinge_beyond_the_stile_is_stopped_and_not_drawn() -> None:
    p, _ = made("lock = { length = 50, above = 20 }\n")
    (told,) = findings(p)
    assert (told.level, dict(told.figures)) == ("stop", {"start": 548, "stop": 598})
    assert not [one for one in p.marks if one.joint == "door.lock"]
    assert findings(made("lock = { length = 50, above = 25 }\n")[0])[0].level == "caution"


def test_hinges_over_each_other() -> None:
    p, _ = made("hinges = { length = 200, count = 3, from_ends = 10, clear = 0 }\n")
    stops = [one for one in findings(p) if one.level == "stop"]
    # 10 to 210, 196 1/2 to 396 1/2, 383 to 583
    assert [dict(one.figures) for one in stops] == [{"over": F(27, 2)}, {"over": F(27, 2)}]
    p, _ = made("hinges = { length = 191, count = 3, from_ends = 10, clear = 0 }\n")
    # 10 to 201, 201 to 392, 392 to 583
    assert [one for one in findings(p) if one.level == "stop"] == []


# -- lines


def test_the_lines_on_the_stile_s_outer_edge() -> None:
    p, _ = made(TWO + "lock = { length = 40 }\n")
    found = {(one.part, one.face, one.role, one.distance, one.line) for one in p.marks
             if one.joint in ("door.hinge", "door.lock")}
    assert found == {
        (part, "edge", role, at, ((at, 0), (at, 20)))
        for part, role, at in (
            ("door-left-stile", "hinge 1 top", 53), ("door-left-stile", "hinge 1 bottom", 103),
            ("door-left-stile", "hinge 2 top", 480), ("door-left-stile", "hinge 2 bottom", 530),
            ("door-right-stile", "lock top", F(553, 2)),
            ("door-right-stile", "lock bottom", F(633, 2)),
        )
    }
    assert terms(p, "door-left-stile", "hinge 2 bottom from end A") == [
        (1, "hinge 2 top", 480), (1, "its length", 50),
    ]


def in_space(part: Part, face: str, spot: tuple[Fraction, Fraction]) -> tuple[Fraction, ...]:
    """Where a spot on a part's face lies in the piece."""
    at = {"L": F(0), "W": F(0), "T": F(0)}
    whole = {"far edge": ("W", part.width), "back": ("T", part.thickness)}
    if face in whole:
        at[whole[face][0]] = whole[face][1]
    u, v = FACE_AXES[face]  # type: ignore[index]
    at[u], at[v] = spot
    found = list(part.placement.origin)
    for axis, direction in zip("LWT", part.placement[1:4], strict=True):
        found["XYZ".index(direction[1])] += at[axis] * (1 if direction[0] == "+" else -1)
    return tuple(found)


@pytest.mark.parametrize(
    ("before", "place", "bearer"),
    [
        (CASE, "inside case", {"left": "case-left-side", "right": "case-right-side"}),
        (LEGS.replace("SIDE", "front"), "front under head",
         {"left": "front-left-leg", "right": "front-right-leg"}),
        (LEGS.replace("SIDE", "left"), "left under head",
         {"left": "back-left-leg", "right": "front-left-leg"}),
    ],
)
@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_same_lines_on_what_the_door_hangs_on(
    before: str, place: str, bearer: dict[str, str], hand: str
) -> None:
    p, door = made(f'openings = ["{place}"]\nset_in = 1\nhinges_on = "{hand}"\n' + TWO, place="",
                   before=before)
    stile, other = door.hinged, p.part(bearer[hand])
    lines = {part.id: {one.role: [in_space(part, one.face, spot) for spot in one.line or ()]
                       for one in p.marks_of(part.id) if one.joint == "door.hinge"}
             for part in (stile, other)}
    assert set(lines[stile.id]) == set(lines[other.id]) == {
        f"hinge {number} {end}" for number in (1, 2) for end in ("top", "bottom")
    }
    across = 0 if "front" in place or "case" in place else 1
    for role, spots in lines[stile.id].items():
        theirs = lines[other.id][role]
        # at one height, over the whole thickness of the door, and 2 apart across it
        assert {spot[2] for spot in spots} == {spot[2] for spot in theirs}
        assert sorted(spot[1 - across] for spot in spots) == sorted(
            spot[1 - across] for spot in theirs
        )
        assert {abs(one[across] - two[across]) for one in spots for two in theirs} == {2}
        # what is told of the line is how far it lies from the end it is measured from
        (mark,) = [one for one in p.marks_of(other.id) if one.role == role]
        ends = sorted((in_space(other, "face", (F(0), F(0)))[2],
                       in_space(other, "face", (other.length, F(0)))[2]))
        start = ends[1] if other.placement.L == "-Z" else ends[0]
        assert mark.distance == abs(theirs[0][2] - start)
    for number in (1, 2):
        (told,) = [one for one in p.sums if one.part == other.id
                   and one.name == f"hinge {number} top from end A"]
        (mark,) = [one for one in p.marks_of(other.id) if one.role == f"hinge {number} top"]
        assert told.total == mark.distance


def test_an_overlay_door_marks_nothing_on_the_case() -> None:
    p, _ = made('openings = ["inside case"]\nmount = "overlay"\n' + TWO, place="", gaps="",
                before=CASE)
    assert {one.part for one in p.marks if one.joint == "door.hinge"} == {"door-left-stile"}
