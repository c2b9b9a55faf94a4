"""Sums, findings and figures as lines of text; nothing here opens a file."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from layout.checks import folded
from layout.checks.words import figure as said
from layout.mark import Finding
from layout.piece import Piece

if TYPE_CHECKING:
    from layout.as_milled import Moved

HELD = {
    "overall": "the size over the legs",
    "shoulders": "the shoulder distances, of rails that are cut already",
}
LEVELS = {"stop": "STOP", "caution": "caution", "note": "note"}


def sum_lines(piece: Piece) -> list[str]:
    """The sums as lines of text; a chain along a board has its running totals at the right."""
    from layout.sheets.sum_groups import sum_groups

    lines: list[str] = []
    for group in sum_groups(piece):
        sum_ = group.first
        lines.append(f"{sum_.name}: {group.owners}")
        figures = [said(piece, term.value) for term in sum_.terms]
        total = said(piece, sum_.total)
        width = max(len(text) for text in (*figures, total))
        beside = [term.label for term in sum_.terms]
        if sum_.along:
            beside = _with_running(beside, [said(piece, one) for one in sum_.running])
        for term, figure, words in zip(sum_.terms, figures, beside, strict=True):
            sign = "+" if term.sign > 0 else "-"
            lines.append(f"    {sign} {figure:>{width}}  {words}")
        lines.append(f"    = {total:>{width}}")
        told = "the parts in place measure the same"
        if not group.agrees:
            told = "THE PARTS IN PLACE DISAGREE"
        lines += [f"      {told}", ""]
    unit = "inches" if piece.rule.unit == "in" else "millimetres"
    lines.append(f"{unit}, shown to {piece.rule}")
    return lines


def _with_running(labels: list[str], totals: list[str]) -> list[str]:
    """The labels of a chain, each with the running total that it leads to, in columns."""
    label, total = (max(len(text) for text in texts) for texts in (labels, totals))
    return [
        f"{one:<{label}}  {running:>{total}}"
        for one, running in zip(labels, totals, strict=True)
    ]


def moved_lines(piece: Piece) -> list[str]:
    """What measured parts moved: was, is and by, rows alike once; none where nothing was measured.

    BadPiece where the piece as drawn can't stand.
    """
    milled = piece.choice.milled
    if not milled.parts:
        return []
    from layout.as_milled import alike, moved

    lines = ["", "As milled: what moved"]
    for one in milled.parts:
        sizes = [
            f"{said(piece, value)} {word}"
            for word, value in (("wide", one.width), ("thick", one.thickness))
            if value is not None
        ]
        lines.append(f"measured: {one.part}, {' and '.join(sizes)}")
    lines.append(f"held: {HELD[milled.held]}")
    rows = [("was", "is", "by", "")]
    for group in alike(piece, moved(piece)):
        first = group[0]
        rows.append(
            (
                "none" if first.was is None else said(piece, first.was),
                "none" if first.now is None else said(piece, first.now),
                "" if first.by is None else _signed(piece, first.by),
                f"{first.name}: {_owners(piece, group)}",
            )
        )
    if len(rows) == 1:
        return [*lines, "nothing moved: every measured size is as drawn"]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    for row in rows:
        figures = [f"{text:>{width}}" for text, width in zip(row, widths, strict=False)]
        lines.append(f"    {'   '.join((*figures, row[3]))}".rstrip())
    return lines


def _signed(piece: Piece, length: Fraction) -> str:
    return f"{'+' if length > 0 else '-'}{said(piece, abs(length))}"


def _owners(piece: Piece, group: tuple[Moved, ...]) -> str:
    """Whose a row is, and for which neighbour or at which end."""
    from layout.sheets.groups import base_name, told

    ids = dict.fromkeys(one.part for one in group)
    who = told(piece, [piece.part(one) for one in ids], hands=False)
    places = dict.fromkeys(one.where.split(",")[0] for one in group if one.where)
    neighbours = [part for part in piece.parts if part.name in places]
    if neighbours:
        one = neighbours[0].name if len(neighbours) == 1 else base_name(piece, neighbours)
        return f"{who}, for the {one}"
    ends = [place for place in places if place.startswith("end ")]
    if ends and all(one.where for one in group):
        return f"{who}, at {' and '.join(ends)}"
    others = [place for place in places if place not in ends]
    return f"{who}, for the {' and '.join(others)}" if others else who


def check_lines(findings: tuple[Finding, ...]) -> list[str]:
    """The findings as lines of text, the gravest first, and a count."""
    lines = []
    for finding in folded(findings):
        lines.append(f"{LEVELS[finding.level]}: {finding.text}")
        lines.append(f"    rule: {finding.rule}")
        if finding.cure:
            lines.append(f"    try: {finding.cure}")
    counts = {level: sum(f.level == level for f in findings) for level in LEVELS}
    cautions, notes = counted(counts["caution"], "caution"), counted(counts["note"], "note")
    lines.append(f"{counts['stop']} to stop for, {cautions}, {notes}")
    return lines


def counted(many: int, word: str) -> str:
    """`1 caution`, `2 cautions`."""
    return f"{many} {word}" if many == 1 else f"{many} {word}s"


def dumped(told: dict[str, Any]) -> str:
    """The numbers of a piece as JSON."""
    import json

    return json.dumps(told, indent=1, ensure_ascii=False)
