"""Whole pieces out of old books, held part by part against what the books print.

Each piece file under pieces/ names its source and says which sizes are printed and which are
ours. Here stand the printed bills of stock and the sums that a reader can do on the printed
numbers; parts that are no part of a leg-and-rail frame (tops, slats, shelves, mitred doors) are
left out. Inches, as the books print them; every comparison is exact.

Some of the printed tenons are wider than a newer book allows, six times their thickness
(Charles G. Wheeler, Woodworking for Beginners, 1899/1900, Part V, Mortising: a mortise at most six
times as long as it is wide). The program says so, and the tests say which.

Sources:
  plant stand, hall seat: H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 1, 1909
  medicine cabinet: H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 2, 1910
  piano bench: H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 3, 1912
  common table: J. S. Zerbe, Carpentry for Boys, 1914, ch. V
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import isqrt
from pathlib import Path

import pytest

from tests.outside.outsider import (
    MEETING,
    OVERLAP,
    Numbers,
    Size,
    cut_list,
    findings,
    gap,
    inch,
    mortise_size,
    mortises,
    numbers_of,
    one_size,
    parts_by_size,
    placed,
    placed_box,
    published,
    reach_of,
    rules_at,
    size,
    stands,
    tenon,
    the_sum,
    total,
)

FILES = Path(__file__).parent / "pieces"
LEGS = ("front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg")
PIECES = ("plant_stand", "hall_seat", "piano_bench", "medicine_cabinet", "common_table")
WIDE = "tenon width against its thickness"
MITRED = 'meeting = "mitred"\nmitre_gap = 0\n'


@cache
def piece(name: str) -> Numbers:
    return published(name)


def square_ended(tmp_path: Path) -> Numbers:
    """The common table with its tenons left square."""
    text = (FILES / "common_table.toml").read_text(encoding="utf-8")
    assert text.count(MITRED) == 1
    path = tmp_path / "square.toml"
    path.write_text(text.replace(MITRED, ""), encoding="utf-8")
    return numbers_of(path)


def unmitred(n: Numbers) -> Numbers:
    """The numbers without what a mitre takes: the tenons as they are before it is cut."""
    return n | {"cuts": [cut for cut in n["cuts"] if not cut["role"].startswith("mitre waste")]}


def diagonal(one: Fraction, other: Fraction) -> Fraction:
    """The root of two squares added, rounded down to 1e-12 mm as the program tells distances."""
    whole = (one**2 + other**2) * 10**24
    found = Fraction(isqrt(whole.numerator // whole.denominator), 10**12)
    assert found**2 <= one**2 + other**2 < (found + Fraction(1, 10**12)) ** 2
    return found


@dataclass(frozen=True)
class Line:
    """A line of a bill: how many, their size, and what the piece file calls them.

    A bill puts parts of one size together that the piece file names apart; `names` says how many
    of each. `allowed` is what the book orders above the finished width and length.
    """

    count: int
    printed: str
    names: dict[str, int]
    allowed: tuple[str, str] = ("0", "0")

    @property
    def finished(self) -> Size:
        """The printed size less what the book orders above it."""
        thickness, width, length = size(self.printed)
        more_width, more_length = self.allowed
        return thickness, width - inch(more_width), length - inch(more_length)


# Half an inch more in length; a quarter more in width, where a board is ordered to its width.
POST = ("0", "1/2")
BOARD = ("1/4", "1/2")

BILLS = {
    "plant_stand": (
        Line(4, "1 1/4 x 1 1/4 x 20", {"leg": 4}),
        Line(4, "3/4 x 3 x 11", {"upper rail": 4}),
        Line(2, "3/4 x 2 x 11", {"lower rail": 2}),
    ),
    "hall_seat": (
        Line(4, "1 1/2 x 1 1/2 x 28", {"leg": 4}),
        Line(2, "3/4 x 2 1/2 x 36 1/2", {"side rail": 2}),
        Line(2, "3/4 x 4 x 14 1/2", {"end rail": 2}),
        Line(2, "1 x 1 x 36 1/2", {"side brace": 2}),
        Line(2, "1 x 1 x 14 1/2", {"end brace": 2}),
        Line(2, "3/4 x 2 x 14 1/2", {"top end brace": 2}),
    ),
    # Ordered sizes: finished = ordered - allowance.
    "piano_bench": (
        Line(4, "1 1/2 x 1 1/2 x 20", {"leg": 4}, POST),
        Line(2, "7/8 x 4 1/4 x 36", {"long rail": 2}, BOARD),
        Line(2, "7/8 x 4 1/4 x 13", {"short rail": 2}, BOARD),
        Line(2, "7/8 x 2 1/2 x 13", {"lower rail": 2}, BOARD),
    ),
    "medicine_cabinet": (
        Line(4, "1 1/2 x 1 1/2 x 28", {"leg": 4}),
        Line(4, "3/4 x 2 x 16", {"upper side rail": 2, "lower side rail": 2}),
        Line(4, "3/4 x 2 x 7", {"upper end rail": 2, "lower end rail": 2}),
        Line(1, "1/4 x 15 1/2 x 23 1/4", {"back panel": 1}),
        Line(2, "1/4 x 6 1/2 x 23 1/4", {"end panel": 2}),
    ),
    # No bill: the sizes of legs and facing boards, and the lengths over the tenons, are in the
    # text (34 + 2 x 1 1/2 = 37, 28 + 2 x 1 1/2 = 31). Leg: height 30 less the top of 1.
    "common_table": (
        Line(4, "2 x 2 x 29", {"leg": 4}),
        Line(2, "1 x 7 x 37", {"long facing board": 2}),
        Line(2, "1 x 7 x 31", {"short facing board": 2}),
    ),
}


@pytest.mark.parametrize("name", PIECES)
def test_the_bill_of_stock_line_by_line(name: str) -> None:
    rows = cut_list(piece(name))
    wanted = {
        called: (count, line.finished)
        for line in BILLS[name]
        for called, count in line.names.items()
    }
    assert rows == wanted
    for line in BILLS[name]:
        assert sum(rows[called][0] for called in line.names) == line.count


@pytest.mark.parametrize("name", PIECES)
def test_the_placed_parts_are_the_bill(name: str) -> None:
    wanted: Counter[Size] = Counter()
    for line in BILLS[name]:
        wanted[line.finished] += line.count
    assert parts_by_size(piece(name)) == wanted


def test_piano_bench_ordered_is_finished_and_the_allowance() -> None:
    # 19 1/2 + 1/2 = 20; 4 + 1/4 = 4 1/4; 2 1/4 + 1/4 = 2 1/2
    rows = cut_list(piece("piano_bench"))
    more, wider = inch("1/2"), inch("1/4")
    for called, ordered in (
        ("leg", "1 1/2 x 1 1/2 x 20"),
        ("long rail", "7/8 x 4 1/4 x 36"),
        ("short rail", "7/8 x 4 1/4 x 13"),
        ("lower rail", "7/8 x 2 1/2 x 13"),
    ):
        thickness, width, length = rows[called][1]
        allowed = width if called == "leg" else width + wider
        assert (thickness, allowed, length + more) == size(ordered)


# Piece, rails, printed clear distance, tenon, printed length over the tenons.
LENGTHS = (
    # 10 + 2 x 1/2 = 11
    ("plant_stand", ("front-upper-rail", "back-upper-rail"), "10", "1/2", "11"),
    ("plant_stand", ("left-upper-rail", "right-upper-rail"), "10", "1/2", "11"),
    ("plant_stand", ("left-lower-rail", "right-lower-rail"), "10", "1/2", "11"),
    # 35 + 2 x 3/4 = 36 1/2 and 13 + 2 x 3/4 = 14 1/2
    ("hall_seat", ("front-side-rail", "back-side-rail"), "35", "3/4", "36 1/2"),
    ("hall_seat", ("front-side-brace", "back-side-brace"), "35", "3/4", "36 1/2"),
    ("hall_seat", ("left-end-rail", "right-end-rail"), "13", "3/4", "14 1/2"),
    ("hall_seat", ("left-end-brace", "right-end-brace"), "13", "3/4", "14 1/2"),
    ("hall_seat", ("left-top-end-brace", "right-top-end-brace"), "13", "3/4", "14 1/2"),
    # 33 + 2 x 1 1/4 = 36 - 1/2 and 10 + 2 x 1 1/4 = 13 - 1/2
    ("piano_bench", ("front-long-rail", "back-long-rail"), "33", "1 1/4", "35 1/2"),
    ("piano_bench", ("left-short-rail", "right-short-rail"), "10", "1 1/4", "12 1/2"),
    ("piano_bench", ("left-lower-rail", "right-lower-rail"), "10", "1 1/4", "12 1/2"),
    # 15 + 2 x 1/2 = 16 and 6 + 2 x 1/2 = 7
    ("medicine_cabinet", ("front-upper-side-rail", "back-upper-side-rail"), "15", "1/2", "16"),
    ("medicine_cabinet", ("front-lower-side-rail", "back-lower-side-rail"), "15", "1/2", "16"),
    ("medicine_cabinet", ("left-upper-end-rail", "right-upper-end-rail"), "6", "1/2", "7"),
    ("medicine_cabinet", ("left-lower-end-rail", "right-lower-end-rail"), "6", "1/2", "7"),
    # 34 + 2 x 1 1/2 = 37 and 28 + 2 x 1 1/2 = 31
    ("common_table", ("front-long-facing-board", "back-long-facing-board"), "34", "1 1/2", "37"),
    ("common_table", ("left-short-facing-board", "right-short-facing-board"), "28", "1 1/2", "31"),
)


@pytest.mark.parametrize(("name", "rails", "clear", "tenon", "over"), LENGTHS)
def test_clear_distance_and_length_over_the_tenons(
    name: str, rails: tuple[str, str], clear: str, tenon: str, over: str
) -> None:
    n = piece(name)
    for rail in rails:
        assert total(n, rail, "shoulder distance") == inch(clear)
        assert the_sum(n, rail, "cut length") == (
            [inch(clear), inch(tenon), inch(tenon)],
            inch(over),
        )


@pytest.mark.parametrize(
    ("name", "long", "short"),
    [
        ("plant_stand", "10", "10"),
        ("hall_seat", "35", "13"),
        ("piano_bench", "33", "10"),
        ("medicine_cabinet", "15", "6"),
        ("common_table", "34", "28"),  # 42 - 4 - 4 and 36 - 4 - 4: top less overhang and leg
    ],
)
def test_the_placed_legs_leave_the_printed_clear_distance(name: str, long: str, short: str) -> None:
    n = piece(name)
    assert gap(n, "front-left-leg", "front-right-leg", "X") == inch(long)
    assert gap(n, "back-left-leg", "back-right-leg", "X") == inch(long)
    assert gap(n, "front-left-leg", "back-left-leg", "Y") == inch(short)
    assert gap(n, "front-right-leg", "back-right-leg", "Y") == inch(short)


# Piece, end of the rails' ids, tenon width, thickness, length: printed, but for what the piece
# file calls ours.
TENONS = (
    ("plant_stand", "upper-rail", "2", "1/4", "1/2"),
    ("plant_stand", "lower-rail", "1", "1/4", "1/2"),
    # thickness not printed: of 1/4, 3/8, 1/2 the chisel nearest to a third of 3/4, and of 1
    # (William Fairham, Woodwork Joints, 1921, General Rule); width by our own shoulders
    ("hall_seat", "side-rail", "2", "1/4", "3/4"),
    ("hall_seat", "end-rail", "3 1/2", "1/4", "3/4"),
    ("hall_seat", "top-end-brace", "1 1/2", "1/4", "3/4"),
    ("hall_seat", "side-brace", "3/4", "3/8", "3/4"),
    ("hall_seat", "left-end-brace", "3/4", "3/8", "3/4"),
    ("hall_seat", "right-end-brace", "3/4", "3/8", "3/4"),
    # the same: of 1/4, 5/16, 3/8 nearest to 7/24 is 5/16
    ("piano_bench", "long-rail", "3 1/2", "5/16", "1 1/4"),
    ("piano_bench", "short-rail", "3 1/2", "5/16", "1 1/4"),
    ("piano_bench", "lower-rail", "1 3/4", "5/16", "1 1/4"),
    # width not printed: a shoulder as deep as the groove, 1/4, and the usual 1/4 at the other edge
    ("medicine_cabinet", "side-rail", "1 1/2", "1/4", "1/2"),
    ("medicine_cabinet", "end-rail", "1 1/2", "1/4", "1/2"),
    # 7 - 1/2 = 6 1/2
    ("common_table", "facing-board", "6 1/2", "1/2", "1 1/2"),
)


@pytest.mark.parametrize(("name", "rails", "width", "thickness", "length"), TENONS)
def test_tenons_and_their_mortises(
    name: str, rails: str, width: str, thickness: str, length: str
) -> None:
    n = piece(name)
    leg = cut_list(n)["leg"][1][0]
    wanted = (inch(width), inch(thickness), inch(length))
    ids = [part["id"] for part in n["parts"] if part["id"].endswith(rails)]
    assert len(ids) in {1, 2, 4}
    for rail in ids:
        assert total(n, rail, "tenon width") == inch(width)
    # the depth of the mortise is the tenon's length: nothing is left at the bottom in these books
    cut = {
        joint: mortise_size(reach, leg)
        for (_, joint), reach in mortises(n).items()
        if joint.rsplit(".", 1)[0] in ids
    }
    assert len(cut) == 2 * len(ids)
    assert set(cut.values()) == {wanted}


@pytest.mark.parametrize("name", PIECES)
def test_every_rail_has_a_mortise_at_either_end(name: str) -> None:
    n = piece(name)
    rails = [
        part["id"]
        for part in n["parts"]
        if part["id"] not in LEGS and not part["id"].endswith("panel")
    ]
    joints = Counter(joint.rsplit(".", 1)[0] for _, joint in mortises(n))
    assert joints == Counter(dict.fromkeys(rails, 2))


@pytest.mark.parametrize("name", PIECES)
def test_each_tenon_fills_its_mortise_where_they_stand(name: str) -> None:
    """What the waste leaves of a rail's end is the mortise's own box: these have no glue room.

    (The common table's, before their mitres are cut.)
    """
    n = unmitred(piece(name))
    for (leg, joint), reach in mortises(n).items():
        rail, end = joint.rsplit(".", 1)
        assert placed_box(n, rail, tenon(n, rail, end)) == placed_box(n, leg, reach)


def test_plant_stand_tenon_in_its_rail() -> None:
    n = piece("plant_stand")
    for side in ("front", "back", "left", "right"):
        # 1/2 + 2 + 1/2 = 3
        terms, width = the_sum(n, f"{side}-upper-rail", "tenon width")
        assert (terms, width) == ([inch("3"), inch("-1/2"), inch("-1/2")], inch("2"))
        # 1/4 + 1/4 + 1/4 = 3/4
        assert total(n, f"{side}-upper-rail", "outer shoulder") == inch("1/4")
        assert total(n, f"{side}-upper-rail", "inner shoulder") == inch("1/4")
    for side in ("left", "right"):
        # 1/2 + 1 + 1/2 = 2
        terms, width = the_sum(n, f"{side}-lower-rail", "tenon width")
        assert (terms, width) == ([inch("2"), inch("-1/2"), inch("-1/2")], inch("1"))


def test_plant_stand_top_and_slats_close() -> None:
    n = piece("plant_stand")
    clear = total(n, "front-upper-rail", "shoulder distance")
    left, right = (stands(n, leg, "X") for leg in ("front-left-leg", "front-right-leg"))
    posts = (left[1] - left[0]) + (right[1] - right[0])
    # 10 + 2 x 1 1/4 + 2 x 1 1/2 = 15 1/2
    assert clear + posts + 2 * inch("1 1/2") == inch("15 1/2")
    # the printed run of slats and spaces fills what is clear: 1 + 2 + 1 + 2 + 1 + 2 + 1 = 10
    run = sum((inch(one) for one in ("1", "2", "1", "2", "1", "2", "1")), Fraction(0))
    assert clear == run


def test_hall_seat_seat_and_end_openings() -> None:
    n = piece("hall_seat")
    # 13 + 2 x 1 1/2 = 16: the seat is as wide as the posts stand deep
    assert stands(n, "back-left-leg", "Y")[1] - stands(n, "front-left-leg", "Y")[0] == inch("16")
    # 35 + 2 x 3/8 = 35 3/4: the seat lies between the end rails
    assert gap(n, "left-end-rail", "right-end-rail", "X") == inch("35 3/4")
    # 5 1/2 + 2 x 1/2 = 6 1/2: slats are 1/2 in at either end
    for side in ("left", "right"):
        opening = gap(n, f"{side}-end-rail", f"{side}-top-end-brace", "Z")
        assert opening == inch("5 1/2")
        assert opening + 2 * inch("1/2") == inch("6 1/2")


@pytest.mark.parametrize("side", ["left", "right"])
def test_piano_bench_heights_fill_the_post(side: str) -> None:
    # 4 + 9 1/2 + 2 1/4 + 3 3/4 = 19 1/2, read up the placed parts; the 9 1/2 is nowhere typed in
    n = piece("piano_bench")
    lower, upper = f"{side}-lower-rail", f"{side}-short-rail"
    low, high = stands(n, lower, "Z"), stands(n, upper, "Z")
    post = stands(n, f"front-{side}-leg", "Z")
    assert low[0] - post[0] == inch("3 3/4")
    assert low[1] - low[0] == inch("2 1/4")
    assert gap(n, lower, upper, "Z") == inch("9 1/2")
    assert high[1] - high[0] == inch("4")
    assert high[1] == post[1] == inch("19 1/2")
    # the slats: 9 1/2 showing, 1/2 in at either end, 1/2 for squaring: ordered 11
    assert gap(n, lower, upper, "Z") + 2 * inch("1/2") + inch("1/2") == inch("11")


def test_piano_bench_overhangs() -> None:
    n = piece("piano_bench")
    deep = stands(n, "back-left-leg", "Y")[1] - stands(n, "front-left-leg", "Y")[0]
    long = stands(n, "front-right-leg", "X")[1] - stands(n, "front-left-leg", "X")[0]
    # top 16 x 40: (16 - 10 - 2 x 1 1/2) / 2 = 1 1/2 and (40 - 33 - 2 x 1 1/2) / 2 = 2
    assert (inch("16") - deep) / 2 == inch("1 1/2")
    assert (inch("40") - long) / 2 == inch("2")


CABINET_SIDES = (("front", "side"), ("back", "side"), ("left", "end"), ("right", "end"))


@pytest.mark.parametrize(("side", "kind"), CABINET_SIDES)
def test_medicine_cabinet_heights_fill_the_post(side: str, kind: str) -> None:
    # 3/4 + 2 + 22 3/4 + 2 + 1/2 = 28, read up the placed parts; 22 3/4 is nowhere typed in
    n = piece("medicine_cabinet")
    lower, upper = f"{side}-lower-{kind}-rail", f"{side}-upper-{kind}-rail"
    low, high = stands(n, lower, "Z"), stands(n, upper, "Z")
    post = stands(n, "front-left-leg", "Z")
    assert low[0] - post[0] == inch("1/2")
    assert low[1] - low[0] == inch("2")
    assert gap(n, lower, upper, "Z") == inch("22 3/4")
    assert high[1] - high[0] == inch("2")
    assert post[1] - high[1] == inch("3/4")
    assert post[1] - post[0] == inch("28")


@pytest.mark.parametrize(
    ("panel", "clear", "width"),
    [
        ("back-panel", "15", "15 1/2"),  # 15 + 2 x 1/4 = 15 1/2
        ("left-end-panel", "6", "6 1/2"),  # 6 + 2 x 1/4 = 6 1/2
        ("right-end-panel", "6", "6 1/2"),
    ],
)
def test_medicine_cabinet_panels(panel: str, clear: str, width: str) -> None:
    n = piece("medicine_cabinet")
    lips = [inch("1/4"), inch("1/4")]
    assert the_sum(n, panel, "panel width") == ([inch(clear), *lips], inch(width))
    # 22 3/4 + 2 x 1/4 = 23 1/4
    assert total(n, panel, "height of the opening") == inch("22 3/4")
    assert the_sum(n, panel, "panel length") == ([inch("22 3/4"), *lips], inch("23 1/4"))
    (part,) = [one for one in n["parts"] if one["id"] == panel]
    assert one_size(part) == (inch("1/4"), inch(width), inch("23 1/4"))


def test_medicine_cabinet_tenons_are_as_wide_as_the_groove_and_in_line_with_it() -> None:
    # Printed: both 1/4. Rail 3/4, so both stand at 1/4 and 1/2 from its face; the post's are 3/8
    # more: 5/8 and 7/8.
    n = piece("medicine_cabinet")
    stand = {
        place: {
            (Fraction(one["distance"]), Fraction(one["second"]))
            for one in n["settings"]
            for strike in one["strikes"]
            if one["tool"] == "mortise gauge" and strike["part"].endswith(place)
        }
        for place in ("rail", "leg")
    }
    assert stand == {
        "rail": {(inch("1/4"), inch("1/2"))},
        "leg": {(inch("5/8"), inch("7/8"))},
    }
    in_rails = {mark["role"] for mark in n["marks"] if mark["part"] == "back-upper-side-rail"}
    assert {"near cheek", "far cheek", "near groove wall", "far groove wall"} <= in_rails


def test_medicine_cabinet_top_bottom_and_door_fit_between_the_rails() -> None:
    n = piece("medicine_cabinet")
    # top and bottom: 15 + 2 x 3/8 = 15 3/4 and 6 + 2 x 3/8 = 6 3/4
    for level in ("upper", "lower"):
        left, right = f"left-{level}-end-rail", f"right-{level}-end-rail"
        front, back = f"front-{level}-side-rail", f"back-{level}-side-rail"
        assert gap(n, left, right, "X") == inch("15 3/4")
        assert gap(n, front, back, "Y") == inch("6 3/4")
    # the door's rails are as long as its opening: 15 and 22 3/4
    assert gap(n, "front-left-leg", "front-right-leg", "X") == inch("15")
    assert gap(n, "front-lower-side-rail", "front-upper-side-rail", "Z") == inch("22 3/4")
    # over the posts: 15 + 2 x 1 1/2 = 18 and 6 + 2 x 1 1/2 = 9
    left, right = stands(n, "front-left-leg", "X"), stands(n, "front-right-leg", "X")
    front, back = stands(n, "front-left-leg", "Y"), stands(n, "back-left-leg", "Y")
    assert (right[1] - left[0], back[1] - front[0]) == (inch("18"), inch("9"))


BOARDS = (
    "front-long-facing-board",
    "back-long-facing-board",
    "left-short-facing-board",
    "right-short-facing-board",
)


def test_common_table_legs_are_gauged_at_a_half_and_one() -> None:
    """Zerbe strikes 1/2 and 1 from the work side; it takes one stand of the gauge for all legs."""
    n = piece("common_table")
    on_legs = {
        (Fraction(one["distance"]), Fraction(one["second"])): Counter(
            {
                strike["part"]: sum(
                    other["count"]
                    for other in one["strikes"]
                    if other["part"] == strike["part"] and other["role"] == "near wall"
                )
                for strike in one["strikes"]
            }
        )
        for one in n["settings"]
        if one["tool"] == "mortise gauge"
        and any(strike["part"] in LEGS for strike in one["strikes"])
    }
    # two mortises in each leg; no rail is struck at this stand
    assert on_legs == {(inch("1/2"), inch("1")): Counter(dict.fromkeys(LEGS, 2))}


def test_common_table_boards_are_gauged_a_quarter_less() -> None:
    # (1 - 1/2) / 2 = 1/4 and 1/4 + 1/2 = 3/4; the board is set in by 1/2 - 1/4 = 1/4
    n = piece("common_table")
    for board in BOARDS:
        near = {
            Fraction(mark["distance"])
            for mark in n["marks"]
            if mark["part"] == board and mark["role"] == "near cheek"
        }
        far = {
            Fraction(mark["distance"])
            for mark in n["marks"]
            if mark["part"] == board and mark["role"] == "far cheek"
        }
        assert (near, far) == ({inch("1/4")}, {inch("3/4")})
    over = stands(n, "front-left-leg", "Y")[0]
    assert stands(n, "front-long-facing-board", "Y") == (over + inch("1/4"), over + inch("1 1/4"))


def test_common_table_mortises_run_from_a_half_to_seven() -> None:
    n = piece("common_table")
    found = mortises(n)
    assert len(found) == 8
    for (leg, _), (along, *cross) in found.items():
        assert leg in LEGS
        assert along == (inch("1/2"), inch("7"))
        # across: 1/2 to 1 from the work side; deep: from 2 - 1 1/2 to the far side
        assert sorted(cross) == [(inch("1/2"), inch("1")), (inch("1/2"), inch("2"))]
    for role, at in (("mortise top", "1/2"), ("mortise bottom", "7")):
        knifed = [
            (mark["tool"], mark["from"], Fraction(mark["distance"]))
            for mark in n["marks"]
            if mark["role"] == role
        ]
        assert Counter(knifed) == Counter({("knife", "end A", inch(at)): 8})


def test_common_table_tenon_is_cut_at_the_top_edge_only() -> None:
    n = piece("common_table")
    for board in BOARDS:
        # 7 - 1/2 = 6 1/2
        assert the_sum(n, board, "tenon width") == ([inch("7"), inch("-1/2")], inch("6 1/2"))
        assert the_sum(n, board, "mortise depth") == ([inch("1 1/2")], inch("1 1/2"))
        across = {
            reach_of(cut)[1]
            for cut in n["cuts"]
            if cut["part"] == board and "shoulder waste" in cut["role"]
        }
        assert across == {(Fraction(0), inch("1/2"))}  # from the face edge, which is on top


def meets(n: Numbers) -> dict[str, tuple[str, Fraction]]:
    """Leg to the level of the meeting finding there and what is left between the tenons."""
    found = {}
    for one in findings(n, MEETING):
        (leg,) = one["parts"]
        assert leg not in found
        found[leg] = (one["level"], Fraction(one["figures"]["between the tenons"]))
    return found


def test_plant_stand_tenons_just_touch() -> None:
    # 1 1/4 - (1/4 + 1/4 + 1/4) - 1/2 = 0: they can be cut, with no wood left between them
    n = piece("plant_stand")
    assert meets(n) == dict.fromkeys(LEGS, ("caution", Fraction(0)))
    assert rules_at(n, "stop") == set()
    # the upper tenons, 2 wide and 1/4 thick, are too wide besides
    assert rules_at(n, "caution") == {MEETING, WIDE}


def test_medicine_cabinet_tenons_clear_by_an_eighth_each_way() -> None:
    # 1 1/2 - 5/8 - 1/4 = 5/8 and 5/8 - 1/2 = 1/8, at the upper and at the lower rails: each tenon
    # ends 1/8 before the other's cheek, so their corners stand the root of 1/8^2 + 1/8^2 apart.
    # Both are less than the 3/16 asked for.
    n = piece("medicine_cabinet")
    apart = diagonal(inch("1/8"), inch("1/8"))
    assert inch("11/64") < apart < inch("3/16")
    left = [
        (one["parts"], one["level"], Fraction(one["figures"]["between the tenons"]))
        for one in findings(n, MEETING)
    ]
    assert len(left) == 8
    assert all(left.count(([leg], "caution", apart)) == 2 for leg in LEGS)
    assert {Fraction(one["figures"]["web"]) for one in findings(n, MEETING)} == {apart}
    assert rules_at(n, "stop") == set()
    # 1 1/2 wide and 1/4 thick is six times, and no more: not too wide
    assert rules_at(n, "caution") == {MEETING}


# The books' own numbers do not go together here; the program has to say so.
CONFLICTS = (
    # Bill and clear distances print tenons of 3/4 in posts of 1 1/2. With side and end rails at
    # one height they meet on the centre line, whatever their thickness; with 1/4 tenons in the
    # middle, 1 1/2 - 5/8 - 1/4 = 5/8 would clear: they run 1/8 into each other. The braces
    # (3/4 tenons too) stand at different heights and pass.
    ("hall_seat", "-1/8", "side-rail", "end-rail", ("1/8", "1/8", "2")),
    # Tenons of 1 1/4 (half of 36 - 1/2 - 33) in posts of 1 1/2. With 5/16 tenons in the middle
    # (19/32 to 29/32), 1 1/2 - 29/32 = 19/32 would clear: they run 21/32 into each other. Of
    # the wood that both claim, 5/16 x 5/16 is left, as far as they share a height.
    ("piano_bench", "-21/32", "long-rail", "short-rail", ("5/16", "5/16", "3 1/2")),
    # Zerbe bevels the ends so that they meet: square ends of 1 1/2 do not fit, for
    # 2 - 1/2 - 1/2 = 1 is the longest that clears. Left square, they have to be stopped.
    ("common_table", "-1/2", "long-facing-board", "short-facing-board", ("1/2", "1/2", "6 1/2")),
)


@pytest.mark.parametrize(("name", "left", "long", "short", "shared"), CONFLICTS)
def test_tenons_that_cannot_be_cut_as_printed_are_stopped(
    tmp_path: Path, name: str, left: str, long: str, short: str, shared: tuple[str, str, str]
) -> None:
    n = square_ended(tmp_path) if name == "common_table" else piece(name)
    assert meets(n) == dict.fromkeys(LEGS, ("stop", inch(left)))
    for one in findings(n, MEETING):
        where, side, _ = one["parts"][0].split("-")
        assert f"{where} {long.replace('-', ' ')}" in one["text"]
        assert f"{side} {short.replace('-', ' ')}" in one["text"]
    overlaps = {
        frozenset(one["parts"]): tuple(
            Fraction(one["figures"][f"overlap along {axis}"]) for axis in "XYZ"
        )
        for one in findings(n, OVERLAP)
    }
    wanted = tuple(inch(one) for one in shared)
    assert overlaps == {
        frozenset((f"{where}-{long}", f"{side}-{short}")): wanted
        for where in ("front", "back")
        for side in ("left", "right")
    }
    # and nothing else is wrong with the piece but tenons too wide for their thickness
    assert rules_at(n, "stop") == {MEETING, OVERLAP}
    assert rules_at(n, "caution") == {WIDE}


# Piece to the rails whose tenon is more than six times as wide as it is thick, and how many times.
TOO_WIDE = {
    "plant_stand": {"upper-rail": "8"},  # 2 and 1/4; the lower ones, 1 and 1/4, are not
    "hall_seat": {"side-rail": "8", "left-end-rail": "14", "right-end-rail": "14"},  # in 1/4
    "piano_bench": {"long-rail": "56/5", "short-rail": "56/5"},  # 3 1/2 and 5/16
    "medicine_cabinet": {},  # 1 1/2 and 1/4 is just six
    "common_table": {"facing-board": "13"},  # 6 1/2 and 1/2
}


@pytest.mark.parametrize("name", PIECES)
def test_tenons_too_wide_for_their_thickness_are_told(name: str) -> None:
    n = piece(name)
    told = {
        one["parts"][0]: Fraction(one["figures"]["tenon width"])
        / Fraction(one["figures"]["tenon thickness"])
        for one in findings(n, WIDE)
    }
    assert len(told) == len(findings(n, WIDE))
    wanted = {
        part["id"]: Fraction(times)
        for end, times in TOO_WIDE[name].items()
        for part in n["parts"]
        if part["id"].endswith(end)
    }
    assert told == wanted
    assert all(one["level"] == "caution" for one in findings(n, WIDE))
    # what the table of printed tenons says of them is the same
    more_than_six = {
        (end, Fraction(width) / Fraction(thickness))
        for end, width, thickness in (
            (rails, inch(wide), inch(thick))
            for piece_name, rails, wide, thick, _ in TENONS
            if piece_name == name
        )
        if width > 6 * thickness
    }
    assert {times for _, times in more_than_six} == set(wanted.values())


# -- the common table's bevelled ends


def ends_of(n: Numbers) -> list[tuple[str, str]]:
    return [(board, end) for board in BOARDS for end in "AB"]


def test_common_table_tenons_are_as_long_as_a_mitre_with_no_gap_allows() -> None:
    # from the shoulder to the other tenon's near cheek 2 - 1/2 = 1 1/2, as printed, and to its far
    # cheek 2 - 1/2 - 1/2 = 1, the longest that would clear with a square end
    n = piece("common_table")
    for board, end in ends_of(n):
        long, short = ("long side of the mitre", "short side of the mitre")
        assert the_sum(n, board, f"{long}, end {end}") == (
            [inch("2"), inch("-1/2")],
            inch("1 1/2"),
        )
        assert the_sum(n, board, f"{short}, end {end}") == ([inch("2"), inch("-1")], inch("1"))
    # 37 - 1 1/2 + 1 = 36 1/2 and 31 - 1 1/2 + 1 = 30 1/2
    for board, length, at in ((BOARDS[0], "37", "36 1/2"), (BOARDS[2], "31", "30 1/2")):
        name = "mitre, short side at end {} from end A"
        assert the_sum(n, board, name.format("A")) == ([inch("1 1/2"), inch("-1")], inch("1/2"))
        assert the_sum(n, board, name.format("B")) == (
            [inch(length), inch("-1 1/2"), inch("1")],
            inch(at),
        )


def test_common_table_bevel_is_as_long_as_the_tenon_is_thick() -> None:
    """It starts at the tip on the outer cheek and leaves the inner one 1/2 back: 45 degrees."""
    n = piece("common_table")
    for board, end in ends_of(n):
        (part,) = [one for one in n["parts"] if one["id"] == board]
        length = Fraction(part["length"])

        def along(text: str, length: Fraction = length, end: str = end) -> Fraction:
            return inch(text) if end == "A" else length - inch(text)

        slope = ((along("0"), inch("1/4")), (along("1/2"), inch("3/4")))
        (waste,) = [
            cut
            for cut in n["cuts"]
            if cut["part"] == board and cut["role"] == f"mitre waste {end}"
        ]
        corners = {tuple(Fraction(value) for value in spot) for spot in waste["hull"]}
        assert corners == {
            (at, width, thick)
            for at, thick in (*slope, (along("0"), inch("3/4")))
            for width in (inch("1/2"), inch("7"))  # the tenon's own edges
        }
        struck = [
            (mark["face"], tuple(tuple(Fraction(v) for v in spot) for spot in mark["line"]))
            for mark in n["marks"]
            if mark["part"] == board
            and mark["role"] == "mitre"
            and mark["joint"] == f"{board}.{end}"
        ]
        line = (min(slope), max(slope))
        assert sorted(struck) == [("edge", line), ("far edge", line)]
        assert {mark["tool"] for mark in n["marks"] if mark["role"] == "mitre"} == {"bevel"}


def test_common_table_bevels_lie_on_one_another_where_the_boards_stand() -> None:
    n = piece("common_table")
    planes: dict[str, list[frozenset[tuple[Fraction, ...]]]] = {leg: [] for leg in LEGS}
    for board, end in ends_of(n):
        ((leg, _),) = [one for one in mortises(n) if one[1] == f"{board}.{end}"]
        (waste,) = [
            cut
            for cut in n["cuts"]
            if cut["part"] == board and cut["role"] == f"mitre waste {end}"
        ]
        spots = [tuple(Fraction(value) for value in spot) for spot in waste["hull"]]
        # the third corner of the waste is the one at the tip and the inner cheek
        tip = min(s[0] for s in spots) if end == "A" else max(s[0] for s in spots)
        slope = [s for s in spots if not (s[0] == tip and s[2] == inch("3/4"))]
        planes[leg].append(frozenset(placed(n, board, spot) for spot in slope))
    for one, other in planes.values():
        assert len(one) == 4
        assert one == other


def test_common_table_mitred_is_clear() -> None:
    n = piece("common_table")
    assert findings(n, MEETING) == []
    assert findings(n, OVERLAP) == []
    assert rules_at(n, "stop") == set()
    assert rules_at(n, "caution") == {WIDE}
