"""Diagonals by Pythagoras, and what a difference of two of them means, by leaning a frame over. In
mm.
"""

from __future__ import annotations

from fractions import Fraction
from math import hypot, isclose

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from layout.piece import work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.squareness import Square, root, squares
from tests.builds.test_door import CASE, HEAD, LEGS, read
from tests.drawn import fractions

F = Fraction


def square(width: Fraction | int, height: Fraction | int) -> Square:
    return Square("it", "", F(width), F(height))


# -- Pythagoras


@pytest.mark.parametrize(
    ("width", "height", "diagonal"),
    [(3, 4, 5), (4, 3, 5), (5, 12, 13), (8, 15, 17), (20, 21, 29), (F("1.5"), 2, F("2.5")),
     (F(3, 7), F(4, 7), F(5, 7))],
)
def test_right_triangles_in_whole_numbers(
    width: Fraction, height: Fraction, diagonal: Fraction
) -> None:
    assert 0 <= diagonal - square(width, height).diagonal < F(1, 10**12)


@given(width=fractions(1, 3000, 640),
       height=fractions(1, 3000, 640))
def test_the_diagonal_s_square_is_the_sum_of_both(width: Fraction, height: Fraction) -> None:
    found = square(width, height).diagonal
    whole = width**2 + height**2
    assert found**2 <= whole < (found + F(1, 10**12)) ** 2


def test_a_root_is_no_float() -> None:
    assert root(F(2)) == F(1414213562373, 10**12)
    assert isinstance(root(F(2)), Fraction)
    assert root(F(0)) == 0


# -- what a difference means


def leaned(width: float, height: float, off: float) -> float:
    """How much the diagonals differ of a frame whose head stands to one side by so much: its
    stiles keep their length and swing about their feet.
    """
    head = (height**2 - off**2) ** 0.5
    return hypot(width + off, head) - hypot(width - off, head)


@settings(max_examples=100)
@given(width=st.integers(150, 2500), height=st.integers(150, 2500), off=st.integers(1, 60))
@example(width=396, height=593, off=10)
def test_the_lean_that_a_difference_tells_by_leaning_a_frame(
    width: int, height: int, off: int
) -> None:
    lean = off / 10
    difference = leaned(width, height, lean)
    told = square(width, height).lean(F(difference))
    # the sum of both diagonals is twice the true one but for (lean / width) squared or so
    assert isclose(float(told), lean, rel_tol=2 * (lean / min(width, height)) ** 2 + 1e-6)


def test_a_door_of_396_by_593_by_hand() -> None:
    # D = 713.06...; 1 mm of difference: 713.06 / 792 = 0.9003 mm at the head
    one = square(396, 593)
    assert round(float(one.diagonal), 4) == 713.0673
    assert one.lean(F(1)) == one.diagonal / 792
    assert round(float(one.lean(F(1))), 4) == 0.9003
    assert one.lean(F(0)) == 0


# -- which rectangles


def named(text: str) -> set[tuple[str, Fraction, Fraction]]:
    p = work_out(piece_from(parse_toml(text, "it.toml")))
    return {(one.name, one.width, one.height) for one in squares(p)}


def test_a_door_s_outside_and_its_inside() -> None:
    # inside: 396 - 2 x 50 by 593 - 60 - 70
    assert {(one.name, one.width, one.height) for one in squares(read())} == {
        ("door", 396, 593), ("door", 296, 463),
    }


def test_each_door_of_a_pair() -> None:
    found = [(one.name, one.width) for one in squares(read("pair = true\ngap_between = 3\n"))]
    assert found == [("left door", F(393, 2)), ("left door", F(193, 2)),
                     ("right door", F(393, 2)), ("right door", F(193, 2))]


def test_horns_do_not_count() -> None:
    assert {(one.width, one.height) for one in squares(read("horns = 20\n"))} == {
        (396, 593), (296, 463),
    }


def test_a_carcase_from_the_front() -> None:
    assert named(HEAD + CASE) == {("case", 440, 640)}


def test_frames_from_every_side_that_has_rails() -> None:
    # 500 x 400 over the legs, 800 high
    assert named(HEAD + LEGS.replace('"SIDE"', '"front", "back", "left", "right"')) == {
        ("frame, front and back", 500, 800), ("frame, left and right", 400, 800),
        ("frame, from above", 500, 400),
    }
    two = named(HEAD + LEGS.replace('"SIDE"', '"front", "back"'))
    assert ("frame, front and back", 500, 800) in two
    assert not [one for one in two if one[0] == "frame, left and right"]


def test_a_drawer_and_a_chest_from_above() -> None:
    found = named(HEAD + '[[drawer]]\nname = "drawer"\n'
                  "space = { width = 300, height = 100, depth = 350 }\nfront = 20\nsides = 12\n"
                  'back = 12\n[[chest]]\nname = "chest"\nlength = 700\ndepth = 350\nheight = 300\n'
                  "thickness = 20\n")
    drawer = next(one for one in found if one[0] == "drawer")
    assert drawer[1] == 300 - F(3, 2)  # less the usual room at its sides
    assert ("chest", 700, 350) in found


def test_like_rectangles_stand_once() -> None:
    p = read()
    assert len(squares(p)) == len(set(squares(p)))
