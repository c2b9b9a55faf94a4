"""The `marking` command: the whole layout of the piece in order, step by step."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from layout.checks.words import figure as said
from layout.cli.lines import dumped
from layout.cli.opened import opened
from layout.measure import exact_text
from layout.piece import Piece
from layout.sheets.marking_words import AT, PHASE_NOTES, Row, Told, told_steps
from layout.stock.marking import marking
from layout.stock.marking_step import Line, Step


def tell_marking(path: Path, as_json: bool = False) -> int:
    """Print the steps; always 0."""
    piece = opened(path)
    steps = marking(piece)
    if as_json:
        print(dumped(_numbers(piece, steps)))
        return 0
    print("\n".join(marking_lines(piece, steps)))
    return 0


def marking_lines(piece: Piece, steps: tuple[Step, ...]) -> list[str]:
    """The steps as lines of text, numbered, under a heading for every phase."""
    unit = "inches" if piece.rule.unit == "in" else "millimetres"
    lines = [f"Marking the {piece.name}", f"{unit}, shown to {piece.rule}"]
    before = ""
    for one in told_steps(piece, steps):
        if one.phase != before:
            lines += ["", one.phase, *(f"    {note}" for note in PHASE_NOTES.get(one.phase, ()))]
            before = one.phase
        lines += _step_lines(piece, one)
    if not steps:
        lines += ["", "nothing to mark"]
    return lines


def _step_lines(piece: Piece, one: Told) -> list[str]:
    figures = " and ".join(said(piece, figure) for figure in one.figures)
    head = f"{one.number:>3}. {one.title}: {one.who}" + (f", at {figures}" if figures else "")
    wide = max((len(_figures(piece, row)) for row in one.rows if row.label != AT), default=0)
    heads = (one.head,) if one.head and one.rows else ()
    return [
        head,
        *(f"     ({note})" for note in (*one.notes, *heads)),
        *(f"       {_row(piece, row, wide)}" for row in one.rows),
    ]


def _row(piece: Piece, row: Row, wide: int) -> str:
    """A figure stands before what it is, in a column; a run of figures after its word."""
    if not row.figures:
        return row.label
    if row.label == AT:
        return f"at {', '.join(said(piece, one) for one in row.figures)}"
    return f"{_figures(piece, row):>{wide}}  {row.label}"


def _figures(piece: Piece, row: Row) -> str:
    return " | ".join(said(piece, figure) for figure in row.figures)


def _numbers(piece: Piece, steps: tuple[Step, ...]) -> dict[str, Any]:
    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "steps": [_step(step, one)
                  for step, one in zip(steps, told_steps(piece, steps), strict=True)],
    }


def _step(step: Step, one: Told) -> dict[str, Any]:
    return {
        "number": step.number, "kind": step.kind, "phase": one.phase,
        "parts": list(step.parts), "faces": list(step.faces), "from": list(step.sources),
        "tool": step.tool,
        "distances": [_line(line) for line in step.lines],
        "setting": None if step.setting is None else step.setting.number,
        "master": step.master or None, "mirrored": step.mirrored,
        "corners": [{"letter": met.letter, "from": met.lends, "to": met.takes}
                    for met in step.corners],
        "marks": len(step.marks),
        "words": [one.title, *([one.who] if one.who else []), *one.notes],
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "at": exact_text(line.at),
        "second": None if line.second is None else exact_text(line.second),
        "roles": list(line.roles),
    }
