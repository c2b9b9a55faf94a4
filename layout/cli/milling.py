"""The `milling` command: every machine set once for each size, in order, for the whole batch."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from layout.checks.words import figure as said
from layout.cli.lines import dumped
from layout.cli.shop import opened_shop
from layout.measure import exact_text
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.stock.milling import Kind, Step, milling
from layout.stock.milling_words import GRAIN, LAST, TOLD, who
from layout.stock.rough import rough_list


def tell_milling(path: Path, as_json: bool = False) -> int:
    """Print the steps; always 0."""
    choice, stock = piece_and_stock(path, opened_shop())
    piece = work_out(choice)
    rough = rough_list(piece, stock)
    steps = milling(rough)
    if as_json:
        print(dumped(_numbers(piece, steps)))
        return 0
    print("\n".join(milling_lines(piece, steps)))
    return 0


def milling_lines(piece: Piece, steps: tuple[Step, ...]) -> list[str]:
    """The steps as lines of text, numbered, a heading and a caution for every operation."""
    if not steps:
        return [f"Nothing of the {piece.name} is milled"]
    lines: list[str] = [f"Milling the {piece.name}", "", *GRAIN]
    before: Kind | None = None
    for number, step in enumerate(steps, start=1):
        if step.kind != before:
            words, caution = TOLD[step.kind]
            lines += ["", words, f"    ({caution})"]
            before = step.kind
        lines.append(f"{number:>3}. {_setting(piece, step)}{who(step)}")
    return [*lines, "", LAST]


def _setting(piece: Piece, step: Step) -> str:
    return "" if step.setting is None else f"{said(piece, step.setting)}: "


def _numbers(piece: Piece, steps: tuple[Step, ...]) -> dict[str, Any]:
    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "steps": [
            {
                "number": number, "kind": step.kind,
                "setting": None if step.setting is None else exact_text(step.setting),
                "pieces": [{"name": one.rough.row.name, "parts": list(one.rough.row.parts),
                            "many": one.many} for one in step.batches],
            }
            for number, step in enumerate(steps, start=1)
        ],
    }
