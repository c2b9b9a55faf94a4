"""Dovetails, drawers and boxes out of old books, as printed.

The piece files under pieces/ name their sources and say which sizes are printed and which are
ours. Widths of tails and pins are read off the cuts. Inches; every comparison is exact.

Sources:
  Ira S. Griffith, Correlated Courses in Woodwork and Mechanical Drawing, 1912, Part III, Advanced
    Projects, Plate 40 (both halves)
  George A. Ross, Elementary Course in Woodwork, 1901, Exercise 7, Figs. 101 and 102
  Edwin W. Foster, Carpentry and Woodwork, 1911, ch. XXXV, Figs. 180 and 181
  Spons' Mechanics' Own Book, Tables, Figs. 572 to 584
  William Noyes, Handwork in Wood, 1910, ch. VII no. 48
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import accumulate

import pytest

from tests.outside import judge_dovetails
from tests.outside.judge_dovetails import Box, Corner, box_of
from tests.outside.outsider import (
    INCH,
    Numbers,
    cut_list,
    inch,
    published,
    rules_at,
    size,
    stands,
    the_sum,
)

PIECES = ("griffith_two_pins", "griffith_half_blind", "ross_three_tails", "toilet_box",
          "kitchen_table", "noyes_corner")


@cache
def piece(name: str) -> Numbers:
    return published(name)


@cache
def box(name: str) -> Box:
    return box_of(piece(name))


def corners(name: str, letters: str = "ABCD") -> list[Corner]:
    found = [one for one in box(name).corners if one.name[-1] in letters]
    assert len(found) == len(letters)
    return found


def widths(corner: Corner, at: str) -> list[Fraction]:
    """Of pins and tails from the lower edge up, at the end or at the baseline; in inches."""
    row = corner.rows[0 if at == "end" else 1]
    return [(stop - start) / INCH for _, (start, stop) in row]


def fractions(text: str) -> list[Fraction]:
    """A row as a book prints it: "9/16 + 3/8 + 1-1/8"."""
    return [inch(one.replace("-", " ")) / INCH for one in text.split(" + ")]


# Piece, its corners, where, the row as printed.
ROWS = (
    # Griffith, Plate 40 left: CHECK sums over 3
    ("griffith_two_pins", "ABCD", "end", "9/16 + 3/8 + 1-1/8 + 3/8 + 9/16"),
    ("griffith_two_pins", "ABCD", "baseline", "7/16 + 5/8 + 7/8 + 5/8 + 7/16"),
    # Griffith, Plate 40 right: CHECK sums over 3 1/2, at the lap and at the baseline
    ("griffith_half_blind", "AB", "end", "1/4 + 15/16 + 1/8 + 7/8 + 1/8 + 15/16 + 1/4"),
    ("griffith_half_blind", "AB", "baseline", "3/8 + 11/16 + 3/8 + 5/8 + 3/8 + 11/16 + 3/8"),
    # Ross, Exercise 7, Fig. 101: seven equal parts at the baseline
    ("ross_three_tails", "ABCD", "end", "3/8 + 3/4 + 1/4 + 3/4 + 1/4 + 3/4 + 3/8"),
    ("ross_three_tails", "ABCD", "baseline", "1/2 + 1/2 + 1/2 + 1/2 + 1/2 + 1/2 + 1/2"),
    # Noyes' method: tails of 3 1/2 / 3 - 1/2 between sockets of 1/2, half of one at each edge
    ("noyes_corner", "ABCD", "baseline", "1/4 + 2/3 + 1/2 + 2/3 + 1/2 + 2/3 + 1/4"),
)


@pytest.mark.parametrize(("name", "letters", "at", "row"), ROWS)
def test_the_row_as_printed(name: str, letters: str, at: str, row: str) -> None:
    for corner in corners(name, letters):
        assert widths(corner, at) == fractions(row)


# Piece, corners, lean of a side over the tails' length, as printed or as its two widths have it.
SLOPES = (
    ("griffith_two_pins", "ABCD", Fraction(1, 6)),  # 5/16 - 3/16 over 3/4
    ("griffith_half_blind", "AB", Fraction(1, 4)),  # 3/8 - 1/4 over 1/2
    ("ross_three_tails", "ABCD", Fraction(1, 4)),  # printed: 1 in 4; 1/2 - 3/8 over 1/2
    ("noyes_corner", "ABCD", Fraction(5, 24)),  # printed: 5/8 in to 3 in
)


@pytest.mark.parametrize(("name", "letters", "slope"), SLOPES)
def test_the_slope_as_printed(name: str, letters: str, slope: Fraction) -> None:
    for corner in corners(name, letters):
        assert corner.offset / corner.tail_length == slope


# Piece, corners, middles of the pins from the lower edge, as printed.
MIDDLES = (
    ("griffith_two_pins", "ABCD", "3/4 + 2-1/4"),
    ("griffith_half_blind", "AB", "1-1/4 + 2-1/4"),
    ("noyes_corner", "ABCD", "7/6 + 7/3"),  # the width in three equal spaces
)


@pytest.mark.parametrize(("name", "letters", "middles"), MIDDLES)
@pytest.mark.parametrize("at", ["end", "baseline"])
def test_the_pins_stand_where_printed(name: str, letters: str, middles: str, at: str) -> None:
    for corner in corners(name, letters):
        row = corner.rows[0 if at == "end" else 1]
        low = corner.span[0]
        found = [((start + stop) / 2 - low) / INCH for role, (start, stop) in row
                 if role.startswith("pin")]
        assert found == fractions(middles)


def test_the_places_add_up_to_the_rows() -> None:
    """The far sides of the rows, added up from the lower edge, are the places on the marks."""
    for name, letters, at, row in ROWS:
        sums = [inch("0"), *(one * INCH for one in accumulate(fractions(row)))]
        for corner in corners(name, letters):
            low = corner.span[0]
            board, role = corner.tail_board, "side of tail"
            marks = [mark for mark in piece(name)["marks"]
                     if mark["part"] == board.id and mark["joint"] == corner.name
                     and role in mark["role"] and mark["face"] == "face"]
            assert marks
            there = corner.on_tails(corner.tail_length if at == "baseline" else inch("0"))
            for mark in marks:
                (place,) = [Fraction(v) for u, v in mark["line"] if Fraction(u) == there]
                assert place - corner.within(board, low) in sums


def test_griffith_half_blind_lap_and_groove() -> None:
    """Front 3/4, side 1/2, tails 1/2 long: a lap of 1/4; the groove lies in the lowest tail."""
    n = piece("griffith_half_blind")
    for corner in corners("griffith_half_blind", "AB"):
        assert corner.tail_length == inch("1/2")
        assert corner.pin_board.size[2] - corner.tail_length == inch("1/4")
        terms, total = the_sum(n, corner.tail_board.id, "tail length (drawer front)")
        assert (terms, total) == ([inch("3/4"), inch("-1/4")], inch("1/2"))
        (groove,) = [cut for cut in corner.pin_board.cuts if cut.role == "bottom groove"]
        tail = corner.tail_spread(corner.sockets[0], corner.tail_length)
        assert tail[0] < groove.stands[2][0] < groove.stands[2][1] < tail[1]


def test_toilet_box_parts_and_sums() -> None:
    """Foster's bill, and his sums: 3 + 2 x 1/4 = 3 1/2; 11 - 1/2 - 2 x 1/4 = 10; 7 - ... = 6."""
    n = piece("toilet_box")
    assert cut_list(n) == {
        "box long side": (2, size("1/2 x 3 x 11")),
        "box end": (2, size("1/2 x 3 x 7")),
        "box bottom": (1, size("1/2 x 7 x 11")),
        "box lid": (1, size("1/2 x 7 x 11")),
    }
    low, high = stands(n, "box-bottom", "Z")[0], stands(n, "box-lid", "Z")[1]
    assert high - low == inch("3 1/2")
    for part in ("box-bottom", "box-lid"):
        for axis, over, tongue in (("X", "11", "10"), ("Y", "7", "6")):
            along = stands(n, part, axis)
            assert along[1] - along[0] == inch(over)
            ends = {"X": (" end A", " end B"), "Y": ("", " far edge")}[axis]
            cut = [inch(over)]
            for board in box("toilet_box").parts.values():
                for one in board.cuts:
                    if board.id == part and one.role in [f"edge rabbet{end}" for end in ends]:
                        spread = one.stands["XY".index(axis)]
                        cut.append(spread[0] - spread[1])
            assert len(cut) == 3
            assert sum(cut) == inch(tongue)


def test_toilet_box_has_twelve_dovetails() -> None:
    """Three a corner."""
    assert [len(one.sockets) for one in corners("toilet_box")] == [3, 3, 3, 3]


def test_kitchen_table_frame() -> None:
    """Spons: rails 35 and 19 over the tenons, 32 and 16 clear: tenons of 1 1/2."""
    rows = cut_list(piece("kitchen_table"))
    # legs 29 long is ours
    assert {name: rows[name] for name in rows if not name.startswith("drawer")} == {
        "leg": (4, size("2 x 2 x 29")),
        "back rail": (1, size("1 x 5 x 35")),
        "end rail": (2, size("1 x 5 x 19")),
        # they lie flat: 2 deep
        "upper rail": (1, size("2 x 3/4 x 35")),
        "lower rail": (1, size("2 x 1 x 35")),
    }


def test_kitchen_table_drawer() -> None:
    """Sides 5/8; the front lapped 5/8 deep with 4 pins, the back 3 pins and 1 narrower; the sides
    1/2 shorter than the depth from the rail's face to the back rail."""
    n = piece("kitchen_table")
    rows = cut_list(n)
    front, side, back = (rows[f"drawer {name}"][1] for name in ("front", "side", "back"))
    assert side[0] == back[0] == inch("5/8")
    assert front[1] - back[1] == inch("1")
    # 5 - 3/4 - 1 = 3 1/4 of opening, from front rail to front rail
    opening = stands(n, "front-upper-rail", "Z")[0] - stands(n, "front-lower-rail", "Z")[1]
    assert opening == inch("3 1/4")
    assert opening - front[1] == inch("1/16")
    depth = stands(n, "back-rail", "Y")[0] - stands(n, "front-upper-rail", "Y")[0]
    assert depth - side[2] == inch("1/2")
    for letters, pins in (("AB", 4), ("CD", 3)):
        for corner in corners("kitchen_table", letters):
            assert corner.tail_length == inch("5/8")
            assert len(corner.pins) == pins
            assert corner.lapped == (letters == "AB")


@pytest.mark.parametrize("name", PIECES)
def test_the_piece_is_sound(name: str) -> None:
    assert rules_at(piece(name), "stop") == set()
    assert judge_dovetails.judge(piece(name), (), box(name)) == []
