"""The `boards` command: every blank on a board, and the board's cuts in their order."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from layout.checks.words import figure as said
from layout.cli.lines import dumped
from layout.cli.shop import opened_shop
from layout.measure import exact_text
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.stock.board_words import (
    CAUTION,
    bought,
    bought_words,
    gap_words,
    keep_out_words,
    kerf_words,
    kind_words,
    legend,
    missing_words,
    name_words,
    spare_words,
    step_words,
    total,
)
from layout.stock.boards import BoardPlan, KindPlan, Sawn, board_plan
from layout.stock.rack import Board
from layout.stock.rough import StockChoice
from layout.stock.sawing import Rect
from layout.stock.sequence import label, steps


def tell_boards(path: Path, as_json: bool = False) -> int:
    """Print the plan; 1 where something fits on no board, for then it is not the whole piece."""
    choice, stock = piece_and_stock(path, opened_shop())
    piece = work_out(choice)
    plan = board_plan(piece, stock)
    if as_json:
        print(dumped(_numbers(piece, plan, stock)))
    else:
        print("\n".join(board_lines(piece, plan, stock)))
    return int(any(kind.missing for kind in plan.kinds))


def board_lines(piece: Piece, plan: BoardPlan, stock: StockChoice) -> list[str]:
    """The plan as lines of text: a heading a kind, a paragraph a board, then what to buy."""
    lines = [f"Board plan of the {piece.name}: saw's cut {said(piece, stock.kerf)}, "
             f"{said(piece, stock.rack.ends)} off each end, "
             f"{said(piece, stock.rack.edge)} off the edge that is jointed"]
    for kind in plan.kinds:
        lines += ["", f"{kind_words(piece, kind.kind)}: {gap_words(kind)}"
                  f"{kerf_words(piece, kind, stock)}"]
        if legend(kind):
            lines.append(legend(kind))
        for number, board in enumerate(kind.boards, start=1):
            lines += ["", *_board(piece, kind, board, number)]
        lines += missing_words(piece, kind)
    spare = list(spare_words(plan))
    if spare:
        lines += ["", *spare]
    buy = list(bought_words(piece, plan, stock))
    if buy:
        together = total(plan, stock)
        lines += ["", "To buy", *(f"    {line}" for line in [*buy, together] if line)]
    return [*lines, "", *CAUTION]


def _size(piece: Piece, board: Board) -> str:
    return f"{said(piece, board.length)} long, {said(piece, board.width)} wide"


def _board(piece: Piece, kind: KindPlan, board: Sawn, number: int) -> Iterator[str]:
    """One board: what it is, what to keep out of, and its steps."""
    yield f"{number}. {name_words(board)}, {_size(piece, board.board)}"
    for words in keep_out_words(piece, board.board):
        yield f"       {words}"
    for at, step in enumerate(steps(kind, board), start=1):
        yield f"    {at:>3}. {step_words(piece, step)}"


def _numbers(piece: Piece, plan: BoardPlan, stock: StockChoice) -> dict[str, Any]:
    """The plan as exact lengths."""
    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "kinds": [_kind_numbers(one) for one in plan.kinds],
        "unused": [one.name for one in plan.unused],
        "buy": [
            {"timber": one.kind.timber, "thickness": exact_text(one.kind.thickness),
             "sheet": one.kind.sheet, "boards": one.many, "length": exact_text(one.length),
             "width": exact_text(one.width),
             "board_feet": None if one.feet is None else exact_text(one.feet),
             "cubic_metres": exact_text(one.volume),
             "cost": None if one.cost is None else exact_text(one.cost)}
            for one in bought(plan, stock)
        ],
    }


def _kind_numbers(plan: KindPlan) -> dict[str, Any]:
    return {
        "timber": plan.kind.timber, "thickness": exact_text(plan.kind.thickness),
        "sold": plan.kind.called if plan.kind.sold else None,
        "sheet": plan.kind.sheet, "kerf": exact_text(plan.kerf),
        "bound": exact_text(plan.least),
        "blanks": [
            {"name": one.name, "letter": one.letter, "length": exact_text(one.length),
             "width": exact_text(one.width), "many": one.many,
             "parts": [list(parts) for parts in one.each], "match": one.match}
            for one in plan.blanks
        ],
        "boards": [_board_numbers(plan, one) for one in plan.boards],
        "missing": [
            {"blank": one.blank, "many": one.many, "least_length": exact_text(one.length),
             "least_width": exact_text(one.width)} for one in plan.missing
        ],
        "idle": [one.name for one in plan.idle],
    }


def _board_numbers(plan: KindPlan, one: Sawn) -> dict[str, Any]:
    board = one.board
    return {
        "name": board.name, "bought": one.bought, "thickness": exact_text(board.thickness),
        "length": exact_text(board.length), "width": exact_text(board.width),
        "grain": board.grain, "turned": one.turned,
        "rest_of": board.rest_of or None, "starts": exact_text(board.starts),
        "keep_out": [
            {**_rect(Rect(out.start, out.end, out.low, out.high)), "why": out.why}
            for out in board.keep_out
        ],
        "placed": [
            {"blank": each.blank, "number": each.number,
             "label": label(plan.blanks[each.blank], each.number), **_rect(each.rect)}
            for each in one.placed
        ],
        "cuts": [
            {"number": number, "kind": cut.kind, "across": cut.across, "piece": _rect(cut.piece),
             "from": exact_text(cut.start), "to": exact_text(cut.end)}
            for number, cut in enumerate(one.cuts, start=1)
        ],
    }


def _rect(rect: Rect) -> dict[str, str]:
    return {"from": exact_text(rect.start), "to": exact_text(rect.end),
            "low": exact_text(rect.low), "high": exact_text(rect.high)}
