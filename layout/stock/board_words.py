"""What terminal and paper both tell of a board plan."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.measure import decimal_text, dual, show
from layout.piece import Piece
from layout.stock.blanks import Kind
from layout.stock.boards import BoardPlan, KindPlan, Sawn
from layout.stock.rough import StockChoice
from layout.stock.sawing import Kind as CutKind
from layout.stock.sequence import Step
from layout.stock.sold import CUBIC_METRE, board_feet

WORDS: dict[CutKind, str] = {
    "crosscut": "crosscut",
    "joint an edge": "joint the near edge of",
    "rip": "rip",
    "cut to length": "cut to rough length",
}
# Common practice, no source.
CAUTION = (
    "Rip only what lies flat and has one straight edge at the fence; joint it first.",
    "No offcut may be caught between blade and fence. Riving knife, guard and push stick;",
    "the machine's own manual, its guards and local rules come first.",
)


def figure(piece: Piece, length: Fraction) -> str:
    """A length at the maker's rule; in both units where the piece asks for it."""
    return dual(length, piece.rule) if piece.choice.dual else show(length, piece.rule).text


def doing(step: Step) -> str:
    """What a step does, to what."""
    if step.jointed:
        return f"{WORDS['joint an edge']} {step.on}, then {WORDS[step.kind]}"
    return f"{WORDS[step.kind]} {step.on}"


def kind_words(piece: Piece, kind: Kind) -> str:
    """What a timber in a thickness is called."""
    return f"{kind.timber or 'no timber named'}, {kind.called or figure(piece, kind.thickness)}"


def name_words(one: Sawn) -> str:
    """What a board is called."""
    return "to buy" if one.bought else one.board.name


class Bought(NamedTuple):
    """Boards to buy of one size: how many, board feet (None for sheets), cubic metres, what they
    cost (None where no price was given).
    """

    kind: Kind
    many: int
    length: Fraction
    width: Fraction
    feet: Fraction | None
    volume: Fraction
    cost: Fraction | None


def bought(plan: BoardPlan, stock: StockChoice) -> Iterator[Bought]:
    """What is to be bought, by kind and size, in the order of the plan."""
    for kind in plan.kinds:
        sizes: dict[tuple[Fraction, Fraction], int] = {}
        for one in kind.boards:
            if one.bought:
                size = (one.board.length, one.board.width)
                sizes[size] = sizes.get(size, 0) + 1
        for (length, width), many in sizes.items():
            yield _bought(kind.kind, many, length, width, stock)


def _bought(
    kind: Kind, many: int, length: Fraction, width: Fraction, stock: StockChoice
) -> Bought:
    feet = None if kind.sheet else many * board_feet(kind.thickness, width, length)
    volume = many * kind.thickness * width * length / CUBIC_METRE
    price = next((one for one in stock.prices if one.timber == kind.timber), None)
    cost = None
    if price is not None and feet is not None:
        cost = price.amount * (feet if price.per == "board foot" else volume)
    return Bought(kind, many, length, width, feet, volume, cost)


def gap_words(plan: KindPlan) -> str:
    """How good the plan is: what it takes, and what no plan can do without."""
    if not plan.boards:
        return "no board"
    there = sum(not one.bought for one in plan.boards)
    to_buy = len(plan.boards) - there
    noun = "sheet" if plan.kind.sheet else "board"
    words = [f"{many} {noun}{'s' * (many > 1)} {where}"
             for many, where in ((there, "of the rack"), (to_buy, "to buy")) if many]
    used = sum(((one.rect.end - one.rect.start) * (one.rect.high - one.rect.low)
                for board in plan.boards for one in board.placed), Fraction(0))
    whole = sum((one.area for one in plan.boards), Fraction(0))
    share = decimal_text(used / whole * 100, 0)
    if plan.least == 1:
        bound = "none sawn in this way takes less"
    else:
        least = decimal_text(plan.least * 100, 1)
        bound = f"none sawn in this way takes less than {least} % of that"
        if there and to_buy:
            bound += ", boards to buy counted dearer than the rack's"
    return f"{', '.join(words)}; {share} % of it becomes blanks; {bound}"


def bought_words(piece: Piece, plan: BoardPlan, stock: StockChoice) -> Iterator[str]:
    """The boards to buy, alike together."""
    for one in bought(plan, stock):
        both = ""
        if one.feet is not None:
            both = (f", {decimal_text(one.feet, 1)} board feet, "
                    f"{decimal_text(one.volume, 4)} cubic metres")
        cost = "" if one.cost is None else f", {decimal_text(one.cost, 2)} {stock.money}".rstrip()
        noun = "sheet" if one.kind.sheet else "board"
        yield (f"{one.many} {noun}{'s' * (one.many > 1)} of {kind_words(piece, one.kind)}, "
               f"{figure(piece, one.length)} long, {figure(piece, one.width)} wide{both}{cost}")
