"""What terminal and paper both tell of a board plan."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import figure
from layout.measure import decimal_text
from layout.piece import Piece
from layout.stock.blanks import Kind
from layout.stock.boards import BoardPlan, KindPlan, Sawn
from layout.stock.rack import Board, same_timber
from layout.stock.rough import StockChoice
from layout.stock.said import counted, money
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


def doing(step: Step) -> str:
    """What a step does, to what."""
    if step.jointed:
        return f"{WORDS['joint an edge']} {step.on}, then {WORDS[step.kind]}"
    return f"{WORDS[step.kind]} {step.on}"


def step_words(piece: Piece, step: Step) -> str:
    """A step, and what comes off in it."""
    told = ", ".join(f"{figure(piece, one.size)} {one.what}" for one in step.pieces)
    return f"{doing(step)}: {told}" if told else doing(step)


def keep_out_words(piece: Piece, board: Board) -> Iterator[str]:
    """What is cut around, from where to where."""
    for one in board.keep_out:
        why = f", {one.why}" if one.why else ""
        yield (f"keep out of {figure(piece, one.start)} to {figure(piece, one.end)} along, "
               f"{figure(piece, one.low)} to {figure(piece, one.high)} across{why}")


def kind_words(piece: Piece, kind: Kind) -> str:
    """What a timber in a thickness is called."""
    return f"{kind.timber or 'no timber named'}, {kind.called or figure(piece, kind.thickness)}"


def name_words(one: Sawn) -> str:
    """What a board is called."""
    return "to buy" if one.bought else one.board.name


def missing_words(piece: Piece, plan: KindPlan) -> Iterator[str]:
    """What is on no board, and what would be large enough for it."""
    for one in plan.missing:
        blank = plan.blanks[one.blank]
        size = f"{figure(piece, one.length)} long, {figure(piece, one.width)} wide"
        if blank.match is not None and sum(
                other.many for other in plan.blanks if other.match == blank.match) > 1:
            yield (f"MISSING: {one.many} × {blank.name}; no one board was found to hold all that "
                   f"it is matched with. By itself it asks for a board {size}")
        else:
            yield (f"MISSING: {one.many} × {blank.name}; no board has room for it. Each asks for a "
                   f"board {size}")


def spare_words(plan: BoardPlan) -> Iterator[str]:
    """Boards of the rack that stay there."""
    for kind in plan.kinds:
        for one in kind.idle:
            yield f"not needed: {one.name}"
    for one in plan.unused:
        yield f"nothing in the piece is made of {one.name}, {one.timber}"


def kerf_words(piece: Piece, plan: KindPlan, stock: StockChoice) -> str:
    """What the plan leaves for the saw, where that is more than it takes."""
    if plan.kerf == stock.kerf:
        return ""
    return f"; {figure(piece, plan.kerf)} left for the saw"


def legend(plan: KindPlan) -> str:
    """What the letters on the boards stand for."""
    told = []
    for called, one in {one.called: one for one in plan.blanks if one.letter}.items():
        several = len(one.each[0]) > 1 and one.match is None
        more = f", {len(one.each[0])} to a blank" if several else ""
        told.append(f"{called} {one.name}{more}")
    return "; ".join(told)


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
    price = next((one for one in stock.prices if same_timber(one.timber, kind.timber)), None)
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
    words = [f"{counted(many, noun)} {where}"
             for many, where in ((there, "of the rack"), (to_buy, "to buy")) if many]
    used = sum(((one.rect.end - one.rect.start) * (one.rect.high - one.rect.low)
                for board in plan.boards for one in board.placed), Fraction(0))
    whole = sum((one.area for one in plan.boards), Fraction(0))
    share = decimal_text(used / whole * 100, 0)
    told = f"{', '.join(words)}, {share} % of it for blanks"
    if plan.missing:
        return told  # a bound is for plans that cut everything
    bound = "sawn in this way it can't be less"
    if plan.least < 1:
        # a bound is rounded down, so that it stays one
        bound = f"sawn in this way it can't be less than {int(plan.least * 100)} % of it"
    return f"{told}; {bound}"


def bought_words(piece: Piece, plan: BoardPlan, stock: StockChoice) -> Iterator[str]:
    """The boards to buy, alike together."""
    for one in bought(plan, stock):
        both = ""
        if one.feet is not None:
            both = (f", {decimal_text(one.feet, 1)} board feet, "
                    f"{decimal_text(one.volume, 4)} cubic metres")
        cost = "" if one.cost is None else f", {money(one.cost, stock)}"
        noun = "sheet" if one.kind.sheet else "board"
        yield (f"{counted(one.many, noun)} of {kind_words(piece, one.kind)}, "
               f"{figure(piece, one.length)} long, {figure(piece, one.width)} wide{both}{cost}")


def total(plan: BoardPlan, stock: StockChoice) -> str:
    """What all boards to buy cost together; nothing where a price is missing, or there is one line
    only.
    """
    costs = [one.cost for one in bought(plan, stock)]
    known = [cost for cost in costs if cost is not None]
    if len(costs) < 2 or len(known) < len(costs):
        return ""
    return f"together {money(sum(known, Fraction(0)), stock)}"
