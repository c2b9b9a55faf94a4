"""What an outsider needs to hold the program against a book: inches, and the numbers of a piece.

Only the public way in is used: a piece file is read, and everything is taken from the numbers
object (format 1), whose lengths are exact Fractions of a millimetre.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import Any

from layout.checks import check
from layout.numbers import numbers
from layout.piece import work_out
from layout.piece_file.reader import read_piece

PIECES = Path(__file__).parent / "pieces"
INCH = Fraction(127, 5)  # mm, exact since 1959
# How many times as many random pieces are drawn: few enough for CI's six minutes unless more are
# asked for, SHOULDERLINE_DRAWS=4, as after a change to the builds.
DRAWS = int(os.environ.get("SHOULDERLINE_DRAWS", "1"))
MEETING = "mortises clear of each other"
OVERLAP = "no two parts in one place"

Numbers = dict[str, Any]
Size = tuple[Fraction, Fraction, Fraction]
Spread = tuple[Fraction, Fraction]  # from, to
Reach = tuple[Spread, ...]  # along three axes


def inch(text: str) -> Fraction:
    """Inches as a book prints them ("19 1/2", "-1/8", "7") in mm."""
    sign = -1 if text.startswith("-") else 1
    return sign * INCH * sum((Fraction(word) for word in text.lstrip("-").split()), Fraction(0))


def size(text: str) -> Size:
    """Thickness, width and length as a bill of stock prints them: "3/4 x 2 x 11"."""
    thickness, width, length = (inch(one) for one in text.split(" x "))
    return thickness, width, length


def numbers_of(path: Path) -> Numbers:
    """The numbers of a piece file, once through JSON as a reader of the command would get them."""
    piece = work_out(read_piece(path))
    found: Numbers = json.loads(json.dumps(numbers(piece, check(piece))))
    return found


def published(name: str) -> Numbers:
    """The numbers of one of the pieces beside this module."""
    return numbers_of(PIECES / f"{name}.toml")


def one_size(row: dict[str, Any]) -> Size:
    """Thickness, width and length of a part or of a row of the cut list, in mm."""
    return Fraction(row["thickness"]), Fraction(row["width"]), Fraction(row["length"])


def cut_list(n: Numbers) -> dict[str, tuple[int, Size]]:
    """The cut list: name to count and size. No name may come twice."""
    rows = {row["name"]: (row["count"], one_size(row)) for row in n["cut_list"]}
    assert len(rows) == len(n["cut_list"])
    return rows


def parts_by_size(n: Numbers) -> Counter[Size]:
    """How many of the placed parts have each size."""
    return Counter(one_size(part) for part in n["parts"])


def the_sum(n: Numbers, part: str, name: str) -> tuple[list[Fraction], Fraction]:
    """The signed terms of a part's sum, without those that are nothing, and its total, in mm."""
    (found,) = [one for one in n["sums"] if (one["part"], one["name"]) == (part, name)]
    terms = [
        Fraction(term["value"]) * (1 if term["sign"] == "+" else -1) for term in found["terms"]
    ]
    return [term for term in terms if term != 0], Fraction(found["total"])


def total(n: Numbers, part: str, name: str) -> Fraction:
    """A sum's total in mm."""
    return the_sum(n, part, name)[1]


def stands(n: Numbers, part: str, axis: str) -> tuple[Fraction, Fraction]:
    """From where to where a placed part's board reaches along X, Y or Z of the piece, in mm."""
    (found,) = [one for one in n["parts"] if one["id"] == part]
    at = Fraction(found["origin"]["XYZ".index(axis)])
    for own, key in (("L", "length"), ("W", "width"), ("T", "thickness")):
        way = found["axes"][own]
        if way[1] == axis:
            other = at + (1 if way[0] == "+" else -1) * Fraction(found[key])
            return min(at, other), max(at, other)
    raise AssertionError(f"{part} has nothing along {axis}")


def placed(n: Numbers, part: str, spot: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    """A point of a part (L, W, T) where it stands in the piece (X, Y, Z), in mm."""
    (found,) = [one for one in n["parts"] if one["id"] == part]
    at = [Fraction(one) for one in found["origin"]]
    for own, value in zip("LWT", spot, strict=True):
        way = found["axes"][own]
        at["XYZ".index(way[1])] += value if way[0] == "+" else -value
    return tuple(at)


def placed_box(n: Numbers, part: str, reach: Reach) -> Reach:
    """A box in a part's own coordinates as its reach along X, Y and Z of the piece, in mm."""
    one = placed(n, part, tuple(low for low, _ in reach))
    other = placed(n, part, tuple(high for _, high in reach))
    return tuple((min(pair), max(pair)) for pair in zip(one, other, strict=True))


def reach_of(cut: dict[str, Any]) -> Reach:
    """What a cut reaches along its part's L, W and T, in mm."""
    spots = [[Fraction(value) for value in spot] for spot in cut["hull"]]
    return tuple((min(values), max(values)) for values in zip(*spots, strict=True))


def tenon(n: Numbers, rail: str, end: str) -> Reach:
    """The tenon that is left at end A or B of a rail when its waste is gone, in L, W, T.

    The waste beside it is as wide as the rail (a cheek) or not (at its top or bottom edge).
    """
    (part,) = [one for one in n["parts"] if one["id"] == rail]
    width, thickness = Fraction(part["width"]), Fraction(part["thickness"])
    waste = [
        reach_of(cut)
        for cut in n["cuts"]
        if cut["part"] == rail and cut["joint"] == f"{rail}.{end}"
    ]
    (along,) = {one[0] for one in waste}  # all of it goes to the same shoulder
    cheeks = [one[2] for one in waste if one[1] == (0, width)]
    edges = [one[1] for one in waste if one[1] != (0, width)]
    return along, _left_between(edges, width), _left_between(cheeks, thickness)


def _left_between(waste: list[tuple[Fraction, Fraction]], whole: Fraction) -> Spread:
    low, high = Fraction(0), whole
    for start, stop in waste:
        assert start == 0 or stop == whole, "waste lies at a surface of the rail"
        if start == 0:
            low = max(low, stop)
        else:
            high = min(high, start)
    return low, high


def gap(n: Numbers, low: str, high: str, axis: str) -> Fraction:
    """The clear distance along an axis of the piece from one placed part to a higher one, mm."""
    return stands(n, high, axis)[0] - stands(n, low, axis)[1]


def mortises(n: Numbers) -> dict[tuple[str, str], Reach]:
    """(leg, joint) to what each mortise reaches along the leg's L, W and T, in mm."""
    return {
        (cut["part"], cut["joint"]): reach_of(cut) for cut in n["cuts"] if cut["role"] == "mortise"
    }


def mortise_size(reach: Reach, leg: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Length, width and depth of a mortise in a square leg, in mm.

    It is deep along the axis on which it comes out at the leg's far side.
    """
    along, *cross = reach
    (deep,) = [one for one in cross if one[1] == leg]
    (wide,) = [one for one in cross if one[1] != leg]
    return along[1] - along[0], wide[1] - wide[0], deep[1] - deep[0]


def findings(n: Numbers, rule: str) -> list[dict[str, Any]]:
    """What a rule found at the level of a stop or a caution."""
    return [one for one in n["checks"] if one["rule"] == rule and one["level"] != "note"]


def rules_at(n: Numbers, level: str) -> set[str]:
    """The rules that found something at a level."""
    return {one["rule"] for one in n["checks"] if one["level"] == level}
