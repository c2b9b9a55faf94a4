"""An opening divided into drawers: every way adds up to the opening exactly."""

from __future__ import annotations

import itertools
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.bank import divided
from layout.builds.box_choices import DivideChoice, DrawerChoice
from layout.builds.choices import RailChoice
from layout.checks import check, stopped
from layout.errors import BadPiece
from layout.joints.section import Terms
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.piece_file.tenon_usual import tenon
from tests.drawn import fractions

ROOT = Path(__file__).parent.parent.parent
RAIL = RailChoice("drawer rail", (), Fraction(22), Fraction(50), Fraction(0), tenon("mm"))


def drawer() -> DrawerChoice:
    return read_piece(ROOT / "samples" / "map_chest.toml").drawers[0]


DRAWER = drawer()


def value(terms: Terms) -> Fraction:
    return sum((sign * size for sign, _, size in terms), Fraction(0))


def heights(choice: DivideChoice, whole: Fraction) -> list[Fraction]:
    return [value(terms) for terms in divided(choice, whole, DRAWER)]


def test_alike() -> None:
    # 478 less three rails of 22 is 412: a quarter is 103
    assert heights(DivideChoice(4, RAIL), Fraction(478)) == [103] * 4


def test_by_a_step() -> None:
    # 82 + 96 + 110 + 124 = 412
    choice = DivideChoice(4, RAIL, step=Fraction(14))
    assert heights(choice, Fraction(478)) == [82, 96, 110, 124]


def test_by_a_ratio() -> None:
    # 4 + 6 + 9 = 19 parts of 380: 80, 120, 180
    choice = DivideChoice(3, RAIL, ratio=Fraction(3, 2))
    assert heights(choice, Fraction(424)) == [80, 120, 180]


def test_by_heights_with_what_is_left_for_one() -> None:
    choice = DivideChoice(3, RAIL, heights=(Fraction(100), None, Fraction(150)))
    assert heights(choice, Fraction(424)) == [100, 130, 150]
    whole = DivideChoice(3, RAIL, heights=(Fraction(100), Fraction(130), Fraction(150)))
    assert heights(whole, Fraction(424)) == [100, 130, 150]


@pytest.mark.parametrize(
    ("choice", "words"),
    [
        (DivideChoice(2, RAIL, heights=(Fraction(100), Fraction(301))), "don't make up"),
        (DivideChoice(2, RAIL, heights=(Fraction(402), None)), "no height"),
        (DivideChoice(4, RAIL, step=Fraction(100)), "no height"),
        (DivideChoice(20, RAIL._replace(width=Fraction(23))), "no height"),
    ],
)
def test_what_can_t_be_is_refused(choice: DivideChoice, words: str) -> None:
    with pytest.raises(BadPiece, match=words):
        divided(choice, Fraction(424), DRAWER)


@given(
    st.integers(2, 12),
    fractions(Fraction(0), Fraction(9), 64),
    fractions(Fraction(1), Fraction(3, 2), 40),
    fractions(Fraction(500), Fraction(1500), 64),
)
@settings(max_examples=200, deadline=None)
def test_heights_and_rails_make_up_the_opening(
    into: int, step: Fraction, ratio: Fraction, whole: Fraction
) -> None:
    for choice in (DivideChoice(into, RAIL, step=step), DivideChoice(into, RAIL, ratio=ratio)):
        try:
            found = heights(choice, whole)
        except BadPiece:
            continue
        assert sum(found) + (into - 1) * RAIL.width == whole
        for above, below in itertools.pairwise(found):
            assert below == (above + step if choice.step else above * choice.ratio)


@pytest.fixture(scope="module")
def chest() -> Piece:
    return work_out(read_piece(ROOT / "samples" / "map_chest.toml"))


def test_rails_stand_between_the_drawers(chest: Piece) -> None:
    # under the top rail, 25 below the legs' tops: 82, 22, 96, 22, 110, 22, 124
    tops = {one.rail.part.name: 620 - one.rail.top for one in chest.rails}
    assert [tops[f"front drawer rail {number}"] for number in (1, 2, 3)] == [107, 225, 357]
    assert [tops[f"back drawer rail {number}"] for number in (1, 2, 3)] == [107, 225, 357]
    # 1.5 of room in each
    assert [one.front.width for one in chest.drawers] == [
        Fraction(161, 2), Fraction(189, 2), Fraction(217, 2), Fraction(245, 2)
    ]


def test_the_chain_of_the_bank_is_the_opening(chest: Piece) -> None:
    (chain,) = [one for one in chest.sums if one.name == "openings of the drawer bank"]
    assert [term.value for term in chain.terms] == [82, 22, 96, 22, 110, 22, 124]
    assert chain.running == (82, 104, 200, 222, 332, 354, 478)
    assert len(chain.along) == 6
    found = check(chest)
    assert not stopped(found)


def read(folder: Path, **changes: Any) -> Piece:
    text = (ROOT / "samples" / "map_chest.toml").read_text(encoding="utf-8")
    for old, new in changes.values():
        assert old in text
        text = text.replace(old, new)
    path = folder / "chest.toml"
    path.write_text(text, encoding="utf-8")
    return work_out(read_piece(path))


def test_a_bank_changes_with_its_opening(tmp_path: Path) -> None:
    # 40 more below: the first is 10 higher, and with it each
    lower = read(tmp_path, rail=("below_top = 503", "below_top = 543"))
    assert [one.hole.height for one in lower.drawers] == [92, 106, 120, 134]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (('openings = ["front under top rail"]', 'openings = ["front under no rail"]'),
         "no opening"),
        (('openings = ["front under top rail"]', 'openings = ["front under bottom rail"]'),
         "no rail below"),
        (('openings = ["front under top rail"]',
          'openings = ["front under top rail", "back under top rail"]'), "at once"),
    ],
)
def test_only_one_closed_opening_can_be_divided(
    change: tuple[str, str], words: str, tmp_path: Path
) -> None:
    with pytest.raises(BadPiece, match=words):
        read(tmp_path, openings=change)
