"""End caps: tongue, groove, pegs and their slots, their sums and their marks. In mm.

Two slabs, 100 and 400 wide, together 500, 30 thick and 900 long between the shoulders with tongues
24 long; a cap 80 wide, 500 long. Three pegs of 10 at 50, 250 and 450 from the front, the second on
the held line. 1 1/2 % wider at the most, 1/2 % narrower; 1 of room at each end of a slot.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.joints.end_cap import Cap, CapChoice, End, thickness_of, work
from layout.joints.slot import slot_for
from layout.joints.worked import Worked
from layout.mark import Cut
from layout.part import Part, Placement

F = Fraction
LONG = F(948)
MOST, LEAST = F(15, 1000), -F(5, 1000)


def slab(name: str, front: int, wide: int) -> Part:
    """A slab with end A at the left."""
    return Part(name, name, name, LONG, F(wide), F(30),
                Placement((F(-24), F(front), F(30)), "+X", "+Y", "-Z"))


FRONT, REST = slab("strip", 0, 100), slab("top", 100, 400)


def cap(end: End = "A", **changes: object) -> Cap:
    choice = CapChoice(
        width=F(80), tongue=F(10), length=F(24), room=F(2), pegs=3, peg=F(10), peg_in=F(50),
        slot_room=F(1), timber="oak",
    )._replace(**changes)  # type: ignore[arg-type]
    x, way = (F(0), "-X") if end == "A" else (F(900), "+X")
    part = Part("cap", "left end cap", "end cap", F(500), F(80), F(30),
                Placement((x, F(0), F(30)), "+Y", way, "-Z"))  # type: ignore[arg-type]
    pegs = tuple(
        (0 if at < 100 else 1, F(at), slot_for(F(10), F(at - 250), MOST, LEAST, F(1)),
         1 if at > 250 else -1)
        for at in (50, 250, 450)
    )
    return Cap(part, end, choice, F(10), (FRONT, REST), pegs)


def cut(done: Worked, part: str, role: str) -> Cut:
    (found,) = [one for one in done.cuts if (one.part, one.role) == (part, role)]
    return found


def reach(one: Cut) -> tuple[tuple[Fraction, Fraction], ...]:
    return (one.shape.reach("L"), one.shape.reach("W"), one.shape.reach("T"))


def in_piece(part: Part, one: Cut) -> tuple[tuple[Fraction, Fraction], ...]:
    """A cut's reach along X, Y and Z."""
    low, high = zip(*reach(one), strict=True)
    a, b = part.placement.to_piece(low), part.placement.to_piece(high)
    return tuple((min(p, q), max(p, q)) for p, q in zip(a, b, strict=True))


def test_a_third_is_the_usual_tongue() -> None:
    assert thickness_of(cap().choice, F(30)) == 10
    assert thickness_of(cap().choice._replace(tongue=None), F(30)) == 10
    assert thickness_of(cap().choice._replace(tongue=None), F(45)) == 15
    assert thickness_of(cap().choice._replace(tongue=F(9)), F(45)) == 9


@pytest.mark.parametrize(("end", "along"), [("A", (0, 24)), ("B", (924, 948))])
def test_tongue_and_groove(end: End, along: tuple[int, int]) -> None:
    done = work(cap(end))
    # 30 less 10: 10 on both sides; the groove 24 and 2 deep
    assert reach(cut(done, "cap", "end groove")) == ((0, 500), (0, 26), (10, 20))
    for part in (FRONT, REST):
        assert reach(cut(done, part.id, "end tongue waste, face")) == (
            along, (0, part.width), (0, 10))
        assert reach(cut(done, part.id, "end tongue waste, back")) == (
            along, (0, part.width), (20, 30))


@pytest.mark.parametrize("end", ["A", "B"])
def test_pegs_go_through_cap_and_tongue_in_one_place(end: End) -> None:
    one = cap(end)
    done = work(one)
    for number, (index, place, slot, outward) in enumerate(one.pegs, start=1):
        bored = in_piece(one.part, cut(done, "cap", f"cap peg hole {number}"))
        # in the middle of the tongue's length of 24, right through the cap
        x = -12 if end == "A" else 912
        assert bored == ((x - 5, x + 5), (place - 5, place + 5), (0, 30))
        part = (FRONT, REST)[index]
        cuts = [each for each in done.cuts if each.part == part.id
                and each.role.startswith(f"cap peg slot {number}")]
        spans = [in_piece(part, each) for each in cuts]
        assert {span[2] for span in spans} == {(10, 20)}  # through the tongue only
        assert {span[0] for span in spans} == {(x - 5, x + 5)}
        low, high = min(span[1][0] for span in spans), max(span[1][1] for span in spans)
        # the wood goes out and takes its slot along; the peg, staying, goes the other way in it
        away = abs(place - 250)
        sides = sorted((place - outward * away * MOST, place - outward * away * LEAST))
        more = F(1) if away else F(0)
        assert high - low == slot.length
        assert (low, high) == (sides[0] - 5 - more, sides[1] + 5 + more)


@pytest.mark.parametrize("share", [LEAST, F(0), MOST / 2, MOST])
def test_the_slab_follows_with_its_slots_all_year(share: Fraction) -> None:
    # pegs stay where the cap has them; the slot's middle moves away from the held line with the
    # wood, that is, seen from the wood its peg moves the other way
    one = cap()
    done = work(one)
    for number, (index, place, _, _) in enumerate(one.pegs, start=1):
        part = (FRONT, REST)[index]
        spans = [in_piece(part, each)[1] for each in done.cuts if each.part == part.id
                 and each.role.startswith(f"cap peg slot {number}")]
        move = (place - 250) * share
        low, high = min(a for a, _ in spans) + move, max(b for _, b in spans) + move
        room = 1 if place != 250 else 0
        assert low + room <= place - 5
        assert place + 5 <= high - room


def test_sums() -> None:
    done = work(cap())
    told = {one.full_name: one.total for one in done.sums}
    out, back = 200 * MOST, -200 * LEAST
    assert told == {
        "near end groove wall from the face side": 10,
        "far end groove wall from the face side": 20,
        "depth of the end groove": 26,
        "length of peg slot 1 (left end cap)": 10 + out + back + 2,
        "length of peg slot 2 (left end cap)": 10,
        "length of peg slot 3 (left end cap)": 10 + out + back + 2,
    }
    for one in done.sums:
        assert sum(term.sign * term.value for term in one.terms) == one.total
        assert one.witness is not None


@pytest.mark.parametrize("end", ["A", "B"])
def test_marks_lie_on_the_edges_of_cuts(end: End) -> None:
    done = work(cap(end))
    told = {(one.part, one.face, one.role) for one in done.marks}
    slab_end = f"end {end}"
    assert told == {
        ("cap", "edge", "near end groove wall"), ("cap", "edge", "far end groove wall"),
        *(("cap", "face", f"cap peg hole {number}") for number in (1, 2, 3)),
        *((part, face, "end tongue shoulder") for part in ("strip", "top")
          for face in ("face", "back")),
        *((part, slab_end, f"{word} side of the end tongue") for part in ("strip", "top")
          for word in ("near", "far")),
    }
    for mark in done.marks:
        if mark.role == "end tongue shoulder":
            assert (mark.tool, mark.source, mark.distance) == ("knife", slab_end, 24)
            assert {spot[0] for spot in mark.line} == {24 if end == "A" else 924}
        if mark.role.startswith("near"):
            assert (mark.source, mark.distance) == ("face side", 10)
        if mark.role.startswith("far"):
            assert mark.distance == 20
        if mark.tool == "bit":
            assert mark.point == (mark.distance, 12)
            assert mark.diameter == 10


def test_pegs_are_told_as_loose_stuff() -> None:
    (loose,) = work(cap()).loose
    assert (loose.name, loose.many, loose.thickness, loose.width, loose.length) == (
        "peg", 3, 10, 10, 30)
    assert "no slot" in loose.note


def test_each_slot_lies_in_its_own_slab() -> None:
    done = work(cap())
    parts = [[one.part for one in done.cuts if one.role.startswith(f"cap peg slot {number}")]
             for number in (1, 2, 3)]
    assert parts == [["strip"] * 3, ["top"], ["top"] * 3]
