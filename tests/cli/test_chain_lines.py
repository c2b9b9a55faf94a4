"""Chains along a board as lines of text: the running total stands after each term."""

from __future__ import annotations

from fractions import Fraction

from layout.cli.lines import sum_lines
from layout.mark import Sum, Witness, add, face_of
from layout.measure import default_rule
from layout.piece import Piece
from tests.pieces import frame, inch, piece, rail

PART = "front-rail"  # 4 in wide


def chain(*terms: tuple[int, str, Fraction]) -> Sum:
    """A chain over the rail's width. Its running totals are witnessed by a distance of nothing."""
    edge = face_of(PART, "edge")
    whole = Witness(edge, face_of(PART, "far edge"))
    sum_ = add("across the rail", PART, whole, *terms)
    return sum_._replace(along=tuple(Witness(edge, edge, plus=one) for one in sum_.running[:-1]))


def told(p: Piece, sum_: Sum) -> list[str]:
    return sum_lines(p._replace(sums=(sum_,)))


def test_a_chain_has_its_running_totals_in_a_column() -> None:
    p = piece(frame(rail()))
    lines = told(
        p,
        chain(
            (+1, "half pin", inch("3/8")),
            (+1, "tail 1", inch("2 13/32")),
            (+1, "pin 1 and tail 2", inch("1 1/2")),
            (-1, "lip", inch("9/32")),
        ),
    )
    assert lines == [
        "across the rail: front rail",
        "    +     3/8  half pin              3/8",
        "    + 2 13/32  tail 1            2 25/32",
        "    +   1 1/2  pin 1 and tail 2   4 9/32",
        "    -    9/32  lip                     4",
        "    =       4",
        "      the parts in place measure the same",
        "",
        "inches, shown to 1/32 in",
    ]


def test_a_sum_that_is_no_chain_is_told_as_ever() -> None:
    p = piece(frame(rail()))
    one = chain((+1, "half pin", inch("3/8")), (+1, "tail 1", inch("3 5/8")))
    assert told(p, one._replace(along=())) == [
        "across the rail: front rail",
        "    +   3/8  half pin",
        "    + 3 5/8  tail 1",
        "    =     4",
        "      the parts in place measure the same",
        "",
        "inches, shown to 1/32 in",
    ]


def test_both_units_and_roundings_keep_their_columns() -> None:
    p = piece(frame(rail()), dual=True, rule=default_rule("in"))
    lines = told(
        p, chain((+1, "a third", inch(4) / 3), (+1, "the rest of the width", inch(8) / 3))
    )
    # 1 1/3 in is 1 11/32 bare, 33.867 mm; 2 2/3 in is 2 21/32 full, 67.733 mm
    first, second = "1 11/32 in bare (34 mm bare)", "2 21/32 in full (67.5 mm full)"
    all_of_it = "4 in (101.5 mm full)"
    assert lines[1:4] == [
        f"    + {first:>30}  a third                {first}",
        f"    + {second:>30}  the rest of the width  {all_of_it:>28}",
        f"    = {all_of_it:>30}",
    ]


def test_a_running_total_that_the_parts_deny_is_shouted() -> None:
    p = piece(frame(rail()))
    right = chain((+1, "half pin", inch("3/8")), (+1, "tail 1", inch("3 5/8")))
    (witness,) = right.along
    wrong = right._replace(along=(witness._replace(plus=witness.plus + 1),))
    assert "      the parts in place measure the same" in told(p, right)
    assert "      THE PARTS IN PLACE DISAGREE" in told(p, wrong)
