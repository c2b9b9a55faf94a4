"""Which board serves what, what is asked for, and what it costs: small racks worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.piece import work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.piece_file.stock_keys import read_stock
from layout.stock.board_words import bought, bought_words, gap_words, missing_words, total
from layout.stock.boards import BoardPlan, board_plan
from layout.stock.rough import StockChoice

F = Fraction
# Two boards of 22 x 95 x 700 tall, and two of 18 thick between them: nothing is glued up.
CASE = """
piece = "Case"
unit = "mm"
timber = "Pear"
[stock]
{stock}
[[carcase]]
name = "case"
width = {width}
height = 300
depth = 150
thickness = {thick}
dovetails = {{}}
"""


def planned(stock: str = "", width: str = "700", thick: str = "18") -> tuple[
    BoardPlan, StockChoice, list[str]
]:
    text = CASE.format(stock=stock, width=width, thick=thick)
    choice = piece_from(parse_toml(text, "case.toml"))
    piece = work_out(choice)
    own = read_stock(parse_toml(text, "case.toml").table("stock"), "mm")
    plan = board_plan(piece, own)
    words = [*(line for kind in plan.kinds for line in missing_words(piece, kind)),
             *bought_words(piece, plan, own), total(plan, own)]
    return plan, own, words


def board(thickness: str, more: str = "") -> str:
    return ('[[stock.board]]\nname = "one"\ntimber = "pear"\nwidth = 200\nlength = 2400\n'
            f"thickness = {thickness}\n{more}")


@pytest.mark.parametrize(
    ("thickness", "more", "serves"),
    [
        ("24", "", True),  # 18 and the 6 that planing takes
        ("23.5", "", False),
        ("39", "", True),  # 26 is what would be bought, and 13 more
        ("39.5", "", False),
        ("18", "planed = true", True),
        ("17.5", "planed = true", False),
    ],
)
def test_a_board_serves_if_enough_is_left_when_it_is_planed(
    thickness: str, more: str, serves: bool
) -> None:
    plan, _, _ = planned(board(thickness, more))
    assert any(not one.bought for kind in plan.kinds for one in kind.boards) == serves
    assert [one.name for one in plan.unused] == ([] if serves else ["one"])


@pytest.mark.parametrize("width", ["2500.5", "2601.3", "2999.5", "3000"])
def test_a_long_part_has_a_board_to_be_bought_that_holds_it(width: str) -> None:
    """Longer than the usual board, in halves and tenths of a millimetre: none is missing."""
    plan, _, _ = planned(width=width)
    (kind,) = plan.kinds
    assert not kind.missing
    longest = max(one.board.length for one in kind.boards)
    # in whole centimetres, at least the part, 12 more, and 25 off each end
    assert longest % 10 == 0
    assert 0 <= longest - (F(width) + 12 + 50) < 11


def test_prices_go_by_the_timber_whatever_its_letters_and_are_added_up() -> None:
    price = 'price = [{ timber = "pear", price = 2000, per = "cubic metre" }]\n'
    plan, own, words = planned(price + "[[stock.size]]\nwidth = 180\nlength = 1100\n"
                               "[[stock.size]]\nwidth = 180\nlength = 800\n")
    lines = list(bought(plan, own))
    # two of 712 and two of 312: 0.026 x 0.18 x 1.1 is dearer than what is needed of 0.8
    assert sum(one.many for one in lines) >= 2
    for one in lines:
        cubic = one.many * F(26) * one.width * one.length / 10**9
        assert (one.volume, one.cost) == (cubic, cubic * 2000)
    if len(lines) > 1:
        whole = sum((one.cost for one in lines if one.cost is not None), F(0))
        assert words[-1] == f"together {float(whole):.2f}"


def test_a_plan_that_leaves_something_out_promises_no_bound() -> None:
    sizes = '[[stock.size]]\nwidth = 200\nlength = 500\n'
    plan, _, words = planned(sizes)
    (kind,) = plan.kinds
    assert sum(one.many for one in kind.missing) == 2
    assert "can't be less" not in gap_words(kind)
    # 700 and 12, and 25 off each end; 150 and 6, and 3 off the edge
    assert sum("762 long, 159 wide" in one for one in words) == 2


def test_a_set_too_large_for_any_board_is_told_so() -> None:
    match = '[[stock.match]]\nparts = ["case left side", "case right side", "case top"]\n'
    _, _, words = planned('[[stock.size]]\nwidth = 160\nlength = 1000\n' + match)
    assert any("no one board was found to hold all that it is matched with" in one
               for one in words)
