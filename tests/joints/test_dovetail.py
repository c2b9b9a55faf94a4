"""One dovetailed corner: every cut, mark and sum, in mm, by sums that a person can check.

Tail board 200 long and 12 thick, pin board 300 long and 14 thick, both 100 wide where nothing else
is said. Two tails at 1 in 7 over 14: a side slopes 2. Pin 6, half pins 8, so at the end half pin
0 to 8, tail 8 to 47, pin 47 to 53, tail 53 to 92, half pin 92 to 100; at the baseline 0 to 10, 10
to 45, 45 to 55, 55 to 90, 90 to 100.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.site import Site
from layout.checks.sums import wrong
from layout.joints.board_edge import Rabbet, rabbets
from layout.joints.dovetail import Corner, EdgeRabbet, End, work
from layout.joints.spacing import NOTHING_ELSE, Wishes, space, tail_length
from layout.joints.worked import Worked
from layout.mark import Hull, Mark, Sum
from layout.part import Part
from layout.piece import Piece
from tests.joints.test_spacing import dovetails
from tests.pieces import frame, piece, rail

F = Fraction
ZERO = F(0)
Flat = tuple[object, ...]
BOTH: tuple[End, End] = ("A", "B")
HANDS = [(one, other) for one in BOTH for other in BOTH]


def corner(
    tail_end: End = "A", pin_end: End = "A", *, tail_wide: int = 100, pin_wide: int = 100,
    raised: int = 0, lip: int = 0, over: int | None = None, wishes: Wishes = NOTHING_ELSE,
    open_far: bool = False, rabbet: EdgeRabbet | None = None, **changes: object,
) -> Corner:
    """Two boards where they stand: the pin board across, its near edge `raised` above the tail
    board's, `lip` of it beyond the tail board at its end and at both edges; the tails share `over`.
    """
    choice = dovetails(**{"tails": 2, **changes})
    depth = tail_length(choice, F(14))
    site = Site((ZERO, ZERO, ZERO))
    near = 14 - depth  # where the tail board's end stands, from the pin board's outside
    tails = Part(
        "tails", "box side", "box side", F(200), F(tail_wide), F(12),
        site.placed(
            (F(lip + 12 if pin_end == "A" else 300 - lip - 12),
             near if tail_end == "A" else near + 200, ZERO),
            "inward" if tail_end == "A" else "outward", "up", "left" if pin_end == "A" else "right",
        ),
    )
    pins = Part(
        "pins", "box front", "box front", F(300), F(pin_wide), F(14),
        site.placed((ZERO, F(14), F(raised - lip)), "right", "up", "outward"),
    )
    spacing = space(choice, F(pin_wide - 2 * lip if over is None else over), depth, wishes)
    return Corner("box.A", "A", tails, tail_end, pins, pin_end, spacing, F(lip), F(lip),
                  open_far=open_far, rabbet=rabbet)


def stood(one: Corner, *more: Worked) -> Piece:
    """The corner as a piece of its own, so that its sums can be measured."""
    done = (work(one), *more)
    plain = piece(frame(rail()))
    return plain._replace(
        parts=(one.tails, one.pins),
        cuts=tuple(cut for each in done for cut in each.cuts),
        sums=tuple(sum_ for each in done for sum_ in each.sums),
    )


def points(done: Worked, part: str, role: str) -> set[tuple[Fraction, ...]]:
    """The corners of a cut."""
    (found,) = [cut for cut in done.cuts if (cut.part, cut.role) == (part, role)]
    assert isinstance(found.shape, Hull)
    return set(found.shape.points)


def wedge(
    reach: tuple[int, int], near: tuple[int, int], far: tuple[int, int], along: str
) -> set[tuple[Fraction, ...]]:
    """A cut's corners. `along` L: as wide as `near` at L 0 and as `far` at the baseline L 14 or
    whatever reach says, through T 0 to 12. `along` T: `near` at T 0, `far` at T reach[1], L 0 to
    reach[0].
    """
    if along == "L":
        ends = ((F(reach[0]), near), (F(reach[1]), far))
        return {(at, F(w), t) for at, span in ends for w in span for t in (ZERO, F(12))}
    depths = ((ZERO, near), (F(reach[1]), far))
    return {(at, F(w), t) for t, span in depths for w in span for at in (ZERO, F(reach[0]))}


def flat(mark: Mark) -> Flat:
    """What a mark says, line and all."""
    return (mark.face, mark.tool, mark.role, mark.source, mark.distance, mark.line)


def line(*spots: int | Fraction) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    a, b, c, d = (F(one) for one in spots)
    return ((a, b), (c, d))


def marks(done: Worked, part: str) -> set[Flat]:
    found = [flat(mark) for mark in done.marks if mark.part == part]
    assert len(found) == len(set(found))
    return set(found)


def told(done: Worked) -> dict[tuple[str, str], list[tuple[int, str, Fraction]]]:
    """The terms of every sum by part and name."""
    return {(one.part, one.name): [tuple(term) for term in one.terms] for one in done.sums
             if not one.along}


def chains(done: Worked) -> dict[tuple[str, str], Sum]:
    return {(one.part, one.name): one for one in done.sums if one.along}


# -- through


def test_the_cuts_of_a_through_corner() -> None:
    done = work(corner())
    assert [(cut.part, cut.role) for cut in done.cuts] == [
        ("tails", "waste of half pin 1"), ("tails", "waste of pin 1"),
        ("tails", "waste of half pin 2"), ("pins", "socket 1"), ("pins", "socket 2"),
    ]
    assert {cut.joint for cut in done.cuts} == {"box.A"}
    assert points(done, "tails", "waste of half pin 1") == wedge((0, 14), (0, 8), (0, 10), "L")
    assert points(done, "tails", "waste of pin 1") == wedge((0, 14), (47, 53), (45, 55), "L")
    assert points(done, "tails", "waste of half pin 2") == wedge((0, 14), (92, 100), (90, 100), "L")
    # in the pin board: as far as the tail board is thick, narrow inside, wide outside
    assert points(done, "pins", "socket 1") == wedge((12, 14), (10, 45), (8, 47), "T")
    assert points(done, "pins", "socket 2") == wedge((12, 14), (55, 90), (53, 92), "T")


# each side of each tail: its place at the end, at the baseline
SIDES = [
    ("near side of tail 1", 8, 10), ("far side of tail 1", 47, 45),
    ("near side of tail 2", 53, 55), ("far side of tail 2", 92, 90),
]


def test_the_marks_of_a_through_corners_tail_board() -> None:
    expected: set[Flat] = set()
    for face, across in (("face", 100), ("back", 100), ("edge", 12), ("far edge", 12)):
        expected.add((face, "marking gauge", "tail baseline", "end A", F(14),
                      line(14, 0, 14, across)))
    for role, end, base in SIDES:
        for face in ("face", "back"):
            expected.add((face, "bevel", role, "face edge", F(end), line(0, end, 14, base)))
        expected.add(("end A", "knife", role, "face edge", F(end), line(end, 0, end, 12)))
    assert marks(work(corner()), "tails") == expected


def test_the_marks_of_a_through_corners_pin_board() -> None:
    expected: set[Flat] = set()
    for face in ("face", "back"):
        expected.add((face, "marking gauge", "pin baseline", "end A", F(12), line(12, 0, 12, 100)))
    for role, end, base in SIDES:
        expected.add(("end A", "bevel", role, "face edge", F(base), line(base, 0, end, 14)))
        expected.add(("face", "knife", role, "face edge", F(base), line(0, base, 12, base)))
        expected.add(("back", "knife", role, "face edge", F(end), line(0, end, 12, end)))
    assert marks(work(corner()), "pins") == expected


def test_the_sums_of_a_through_corner() -> None:
    done = work(corner())
    assert told(done) == {
        ("tails", "tail length"): [(1, "thickness of the box front", 14)],
        ("pins", "baseline of the pins"): [(1, "thickness of the box side", 12)],
        ("tails", "slope over the tail"): [(1, "tail length sloped 1 in 7", 2)],
        ("tails", "half pin at the end"): [(1, "pin", 6), (1, "slope over the tail", 2)],
        ("tails", "half pin at the baseline"): [
            (1, "half pin at the end", 8), (1, "slope over the tail", 2),
        ],
        ("tails", "pin at the baseline"): [
            (1, "pin at the end", 6), (1, "slope over the tail, on both sides", 4),
        ],
        ("tails", "tail at the end"): [
            (1, "1/2 of the width", 50), (-1, "1/2 of both half pins", 8),
            (-1, "1/2 of the pin", 3),
        ],
        ("tails", "tail at the baseline"): [
            (1, "tail at the end", 39), (-1, "slope over the tail, on both sides", 4),
        ],
        ("tails", "divider step"): [(1, "tail at the end", 39), (1, "pin at the end", 6)],
    }
    assert wrong(stood(corner())) == []


def test_the_chains_of_a_through_corner_run_over_both_boards() -> None:
    names = ["half pin 1", "tail 1", "pin 1", "tail 2", "half pin 2"]
    at_end, at_base = (8, 47, 53, 92, 100), (10, 45, 55, 90, 100)
    found = chains(work(corner()))
    assert {key: one.running for key, one in found.items()} == {
        ("tails", "tails and pins at the end"): at_end,
        ("tails", "tails and pins at the baseline"): at_base,
        ("pins", "tails and pins at the end"): at_end,
        ("pins", "tails and pins at the baseline"): at_base,
    }
    for one in found.values():
        assert [term.label for term in one.terms] == names
        # a witness for every running total but the last
        assert len(one.along) == 4
    assert {one.where for one in found.values()} == {"box front", "box side"}


# -- both ends, both hands


@pytest.mark.parametrize(("tail_end", "pin_end"), HANDS)
@pytest.mark.parametrize("lap", [None, F(7, 2)])
def test_an_end_b_is_the_mirror_of_end_a(tail_end: End, pin_end: End, lap: Fraction | None) -> None:
    done, plain = work(corner(tail_end, pin_end, lap=lap)), work(corner(lap=lap))
    turned = {"tails": (tail_end, F(200)), "pins": (pin_end, F(300))}
    for cut, usual in zip(done.cuts, plain.cuts, strict=True):
        end, long = turned[cut.part]
        assert (cut.part, cut.role) == (usual.part, usual.role)
        assert isinstance(cut.shape, Hull)
        assert isinstance(usual.shape, Hull)
        mirrored = {(long - at if end == "B" else at, w, t) for at, w, t in usual.shape.points}
        assert set(cut.shape.points) == mirrored
    for mark, usual_mark in zip(done.marks, plain.marks, strict=True):
        end, long = turned[mark.part]
        assert (mark.distance, mark.role, mark.tool) == (
            usual_mark.distance, usual_mark.role, usual_mark.tool,
        )
        assert mark.line is not None
        assert usual_mark.line is not None
        if mark.face in ("end A", "end B"):
            assert mark.face == f"end {end}"
            assert mark.line == usual_mark.line
        else:
            assert mark.line == tuple(
                (long - at if end == "B" else at, v) for at, v in usual_mark.line
            )
        if usual_mark.source == "end A":
            assert mark.source == f"end {end}"
    assert [(one.full_name, one.terms) for one in done.sums] == [
        (one.full_name, one.terms) for one in plain.sums
    ]
    assert wrong(stood(corner(tail_end, pin_end, lap=lap))) == []


# -- lapped: 14 - 7/2 = 21/2 long, so a side slopes 3/2; half pins 15/2; (100 - 15 - 6) / 2 = 79/2


def test_a_lapped_corner_keeps_its_lap_in_the_pin_board() -> None:
    done = work(corner(lap=F(7, 2)))
    half, deep = F(15, 2), F(21, 2)
    (socket,) = [cut for cut in done.cuts if cut.role == "socket 1"]
    assert isinstance(socket.shape, Hull)
    assert set(socket.shape.points) == {
        (at, w, t) for at in (ZERO, F(12))
        for t, span in ((ZERO, (F(9), F(91, 2))), (deep, (half, F(47)))) for w in span
    }
    (waste,) = [cut for cut in done.cuts if cut.role == "waste of half pin 1"]
    assert waste.shape.reach("L") == (0, deep)
    found = marks(done, "pins")
    assert ("end A", "marking gauge", "lap", "face side", deep, line(0, deep, 100, deep)) in found
    # nothing comes out at the back
    assert "back" not in {one[0] for one in found}
    assert ("face", "marking gauge", "pin baseline", "end A", F(12), line(12, 0, 12, 100)) in found
    assert ("end A", "bevel", "near side of tail 1", "face edge", F(9), line(9, 0, half, deep)) \
        in found
    assert len(found) == 2 + 2 * 4
    assert {one[4] for one in marks(done, "tails") if one[2] == "tail baseline"} == {deep}


def test_the_sums_of_a_lapped_corner() -> None:
    done = work(corner(lap=F(7, 2)))
    sums = told(done)
    assert sums["tails", "tail length"] == [
        (1, "thickness of the box front", 14), (-1, "lap", F(7, 2)),
    ]
    assert sums["tails", "slope over the tail"] == [(1, "tail length sloped 1 in 7", F(3, 2))]
    # the pin board has no end to see the chain at
    assert set(chains(done)) == {
        ("tails", "tails and pins at the end"), ("tails", "tails and pins at the baseline"),
        ("pins", "tails and pins at the baseline"),
    }


# -- lipped: the front 10 beyond the sides at its end and at both edges


@pytest.mark.parametrize(("tail_end", "pin_end"), HANDS)
def test_a_lip_moves_everything_on_the_pin_board(tail_end: End, pin_end: End) -> None:
    one = corner(tail_end, pin_end, pin_wide=120, lip=10, lap=F(7, 2))
    done = work(one)
    (socket,) = [cut for cut in done.cuts if cut.role == "socket 1"]
    # from 10 to 22 from the end; 9 and 91/2 at the face, and 10 more
    assert socket.shape.reach("L") == ((10, 22) if pin_end == "A" else (278, 290))
    assert socket.shape.reach("W") == (F(35, 2), 57)
    (waste,) = [cut for cut in done.cuts if cut.role == "waste of half pin 1"]
    assert waste.shape.reach("W") == (0, 9)
    at = F(22) if pin_end == "A" else F(278)
    found = marks(done, "pins")
    assert ("face", "marking gauge", "pin baseline", f"end {pin_end}", F(22),
            ((at, F(10)), (at, F(110)))) in found
    assert (f"end {pin_end}", "marking gauge", "lap", "face side", F(21, 2),
            line(10, F(21, 2), 110, F(21, 2))) in found
    assert (f"end {pin_end}", "bevel", "near side of tail 1", "face edge", F(19),
            line(19, 0, F(35, 2), F(21, 2))) in found
    start = F(10) if pin_end == "A" else F(290)
    assert ("face", "knife", "near side of tail 1", "face edge", F(19),
            ((start, F(19)), (at, F(19)))) in found
    sums = told(done)
    assert sums["pins", "baseline of the pins"] == [
        (1, "thickness of the box side", 12), (1, "lip", 10),
    ]
    chain = chains(done)["pins", "tails and pins at the baseline"]
    assert chain.running == (10, 19, F(111, 2), F(129, 2), 101, 110, 120)
    assert [term.label for term in chain.terms][::6] == ["lip", "lip"]
    assert len(chain.along) == 6
    # the tail board is no wider than the joint, and knows nothing of the lip
    assert chains(done)["tails", "tails and pins at the end"].total == 100
    assert wrong(stood(one)) == []


# -- a back that stands above the lower edge and ends below the upper one


@pytest.mark.parametrize(("tail_end", "pin_end"), HANDS)
def test_a_lower_back_leaves_wood_below_and_is_sawn_out_above(
    tail_end: End, pin_end: End
) -> None:
    one = corner(tail_end, pin_end, tail_wide=130, raised=20, open_far=True)
    assert one.shift == 20
    done = work(one)
    (first,) = [cut for cut in done.cuts if cut.role == "waste of half pin 1"]
    (last,) = [cut for cut in done.cuts if cut.role == "waste of half pin 2"]
    # 20 + 8, 20 + 10; 20 + 90 up to the far edge
    assert first.shape.reach("W") == (20, 30)
    assert last.shape.reach("W") == (110, 130)
    assert {w for at, w, _ in points(done, "tails", "waste of half pin 2")
            if at == one.on_tails(ZERO)} == {112, 130}
    (socket,) = [cut for cut in done.cuts if cut.role == "socket 1"]
    assert socket.shape.reach("W") == (8, 47)
    found = marks(done, "tails")
    l = one.on_tails(F(14))  # noqa: E741
    assert {mark for mark in found if mark[2] == "tail baseline"} == {
        (face, "marking gauge", "tail baseline", f"end {tail_end}", F(14),
         ((l, F(low)), (l, F(high))))
        for face, low, high in (("face", 20, 130), ("back", 20, 130), ("far edge", 0, 12))
    }
    start = one.on_tails(ZERO)
    square = {(face, "knife", "square side of half pin 1", "face edge", F(20),
               ((start, F(20)), (l, F(20)))) for face in ("face", "back")}
    square.add((f"end {tail_end}", "knife", "square side of half pin 1", "face edge", F(20),
                line(20, 0, 20, 12)))
    assert {mark for mark in found if "square" in str(mark[2])} == square
    assert ("face", "bevel", "near side of tail 1", "face edge", F(28),
            ((start, F(28)), (l, F(30)))) in found
    chain = chains(done)["tails", "tails and pins at the end"]
    assert chain.running == (20, 28, 67, 73, 112, 120, 130)
    assert [term.label for term in chain.terms][::6] == [
        "box side below the box front", "box side above the box front",
    ]
    assert len(chain.along) == 6
    assert chains(done)["pins", "tails and pins at the end"].running == (8, 47, 53, 92, 100)
    assert wrong(stood(one)) == []


def test_wood_above_a_back_stays_where_it_is_not_sawn_out() -> None:
    one = corner(tail_wide=130, raised=20)
    done = work(one)
    (last,) = [cut for cut in done.cuts if cut.role == "waste of half pin 2"]
    assert last.shape.reach("W") == (110, 120)
    squares = {(mark[2], mark[4]) for mark in marks(done, "tails") if "square" in str(mark[2])}
    assert squares == {("square side of half pin 1", 20), ("square side of half pin 2", 120)}
    assert {mark[0] for mark in marks(done, "tails") if mark[2] == "tail baseline"} == {
        "face", "back",
    }
    assert wrong(stood(one)) == []


# -- half tails at the edges: (100 - 6) / 2 = 47, 45 at the baseline


def test_half_tails_leave_the_edges_of_the_tail_board_whole() -> None:
    one = corner(edges="half tails")
    done = work(one)
    assert [cut.role for cut in done.cuts] == ["waste of pin 1", "socket 1", "socket 2"]
    assert points(done, "pins", "socket 1") == wedge((12, 14), (0, 45), (0, 47), "T")
    found = marks(done, "tails")
    assert {mark[0] for mark in found if mark[2] == "tail baseline"} == {"face", "back"}
    assert {mark[2] for mark in found} == {
        "tail baseline", "far side of tail 1", "near side of tail 2",
    }
    sums = told(done)
    assert ("tails", "half pin at the end") not in sums
    assert sums["tails", "tail at the end"] == [
        (1, "1/2 of the width", 50), (-1, "1/2 of the pin", 3),
    ]
    assert sums["tails", "tail at the baseline"] == [
        (1, "tail at the end", 47), (-1, "slope over the tail", 2),
    ]
    assert wrong(stood(one)) == []


# -- a rabbet 12 wide and 5 deep along the near edge of both boards


@pytest.mark.parametrize(("tail_end", "pin_end"), HANDS)
@pytest.mark.parametrize("edge", ["near", "far"])
def test_beside_a_rabbet_the_tail_boards_baseline_steps_out(
    tail_end: End, pin_end: End, edge: str
) -> None:
    wishes = Wishes(rabbet_near=F(12)) if edge == "near" else Wishes(rabbet_far=F(12))
    rabbet = EdgeRabbet(edge, F(12), F(5), "box.bottom")  # type: ignore[arg-type]
    one = corner(tail_end, pin_end, wishes=wishes, rabbet=rabbet)
    done = work(one)

    def up(*at: int) -> list[Fraction]:
        return sorted(F(w if edge == "near" else 100 - w) for w in at)

    number = 1 if edge == "near" else 2
    role = f"waste of half pin {number}"
    (plain,) = [cut for cut in done.cuts if cut.role == role]
    (stepped,) = [cut for cut in done.cuts if cut.role == f"{role} at the rabbet"]
    far = [one.on_tails(F(9)), one.on_tails(F(14)), one.on_tails(ZERO)]
    # 14 - 5 = 9 long in the rabbet, 12 wide; beyond it the half pin goes on to 14 at the baseline
    assert stepped.shape.reach("L") == tuple(sorted((far[0], far[2])))
    assert list(stepped.shape.reach("W")) == up(0, 12)
    assert stepped.shape.reach("T") == (0, 12)
    assert plain.shape.reach("L") == tuple(sorted((far[1], far[2])))
    assert list(plain.shape.reach("W")) == up(12, 14)
    found = marks(done, "tails")
    outer = "edge" if edge == "near" else "far edge"
    other = "far edge" if edge == "near" else "edge"
    stand = {(mark[0], mark[2], mark[4], mark[5]) for mark in found
             if mark[1] == "marking gauge"}

    def across(at: Fraction, low: Fraction, high: Fraction) -> object:
        return ((at, low), (at, high))

    at_rabbet = {
        (face, "baseline at the rabbet", F(9), across(far[0], *up(0, 12)))
        for face in ("face", "back")
    }
    at_rabbet.add((outer, "baseline at the rabbet", F(9), across(far[0], ZERO, F(12))))
    beyond = {(face, "tail baseline", F(14), across(far[1], *up(12, 100)))
              for face in ("face", "back")}
    beyond.add((other, "tail baseline", F(14), across(far[1], ZERO, F(12))))
    assert stand == at_rabbet | beyond
    assert told(done)["tails", "baseline at the rabbet"] == [
        (1, "tail length", 14), (-1, "depth of the rabbet", 5),
    ]
    cut_edge = "edge" if edge == "near" else "far edge"
    seats = rabbets(one.pins, "box.bottom", "face", {cut_edge: Rabbet(F(12), F(5))})  # type: ignore[dict-item]
    assert wrong(stood(one, seats)) == []


# -- sums of the tails' widths


def terms_of(one: Corner, name: str) -> list[tuple[int, str, Fraction]]:
    return told(work(one))["tails", name]


def test_graduated_tails_are_told_from_the_middle() -> None:
    # wood 116 - 16 - 12 = 88; 32 in the middle, 7/8 of it beside
    one = corner(tail_wide=116, pin_wide=116, tails=3, graduated=F(7, 8))
    sums = told(work(one))
    assert sums["tails", "tail 1 at the end"] == [(1, "7/8 of tail 2", 28)]
    assert sums["tails", "tail 2 at the end"] == [
        (1, "4/11 of the width", F(464, 11)), (-1, "4/11 of both half pins", F(64, 11)),
        (-1, "4/11 of 2 pins", F(48, 11)),
    ]
    # tail 3 is as wide as tail 1 and told with it
    assert ("tails", "tail 3 at the end") not in sums
    assert ("tails", "divider step") not in sums
    assert wrong(stood(one)) == []


def test_one_tail_takes_all_the_wood() -> None:
    one = corner(tails=1)
    assert terms_of(one, "tail at the end") == [(1, "the width", 100), (-1, "both half pins", 16)]
    assert wrong(stood(one)) == []


def test_tails_between_given_pins_are_told_from_their_middles() -> None:
    one = corner(tails=None, pins_at=(F(30), F(65)))
    sums = told(work(one))
    assert sums["tails", "tail 1 at the end"] == [
        (1, "middle of pin 1", 30), (-1, "half pin", 8), (-1, "half of the pin", 3),
    ]
    assert sums["tails", "tail 2 at the end"] == [
        (1, "middle of pin 2", 65), (-1, "middle of pin 1", 30), (-1, "half of both pins", 6),
    ]
    assert sums["tails", "tail 3 at the end"] == [
        (1, "width", 100), (-1, "half pin", 8), (-1, "middle of pin 2", 65),
        (-1, "half of the pin", 3),
    ]
    assert wrong(stood(one)) == []


def test_given_pins_between_half_tails_need_no_half_pin() -> None:
    one = corner(tails=None, pins_at=(F(30), F(60)), edges="half tails")
    sums = told(work(one))
    assert sums["tails", "tail 1 at the end"] == [
        (1, "middle of pin 1", 30), (-1, "half of the pin", 3),
    ]
    assert sums["tails", "tail 3 at the end"] == [
        (1, "width", 100), (-1, "middle of pin 2", 60), (-1, "half of the pin", 3),
    ]
    assert wrong(stood(one)) == []


def test_half_pins_that_differ_are_both_told() -> None:
    wishes = Wishes(rabbet_near=F(12))
    sums = [one for one in work(corner(wishes=wishes)).sums if one.name.startswith("half pin")]
    # the rabbet's half pin is as wide as it is: nothing to add up; then the far one
    assert [(one.name, one.total) for one in sums] == [
        ("half pin 1 at the baseline", 14), ("half pin 2 at the end", 8),
        ("half pin 2 at the baseline", 10),
    ]
    assert wrong(stood(corner(wishes=wishes))) == []


# -- where things lie


def test_lengths_are_told_from_the_end_that_meets() -> None:
    one = corner("B", "B", pin_wide=120, lip=10)
    assert (one.on_tails(F(14)), one.on_pins(F(12))) == (186, 278)
    assert (one.depth, one.high, one.through, one.shift) == (14, 110, True, 0)
    assert corner(lap=F(3)).through is False


def test_sides_go_from_the_near_edge_and_leave_out_square_edges() -> None:
    assert [(which, tail.number, end, base) for which, tail, end, base in corner().sides()] == [
        ("near", 1, 8, 10), ("far", 1, 47, 45), ("near", 2, 53, 55), ("far", 2, 92, 90),
    ]
    halves = corner(edges="half tails").sides()
    assert [(which, tail.number, end, base) for which, tail, end, base in halves] == [
        ("far", 1, 47, 45), ("near", 2, 53, 55),
    ]
