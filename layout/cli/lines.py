"""Sums, findings and figures as lines of text; nothing here opens a file."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from layout.checks import folded
from layout.mark import Finding
from layout.measure import dual, show
from layout.piece import Piece

LEVELS = {"stop": "STOP", "caution": "caution", "note": "note"}


def sum_lines(piece: Piece) -> list[str]:
    """The sums as lines of text."""
    from layout.sheets.sum_groups import sum_groups

    lines: list[str] = []
    for group in sum_groups(piece):
        sum_ = group.first
        lines.append(f"{sum_.name}: {group.owners}")
        figures = [said(piece, term.value) for term in sum_.terms]
        total = said(piece, sum_.total)
        width = max(len(text) for text in (*figures, total))
        for term, figure in zip(sum_.terms, figures, strict=True):
            sign = "+" if term.sign > 0 else "-"
            lines.append(f"    {sign} {figure:>{width}}  {term.label}")
        lines.append(f"    = {total:>{width}}")
        told = "the parts in place measure the same"
        if not group.agrees:
            told = "THE PARTS IN PLACE DISAGREE"
        lines += [f"      {told}", ""]
    unit = "inches" if piece.rule.unit == "in" else "millimetres"
    lines.append(f"{unit}, shown to {piece.rule}")
    return lines


def said(piece: Piece, length: Fraction) -> str:
    """A length at the maker's rule; in both units where the piece asks for it."""
    return dual(length, piece.rule) if piece.choice.dual else show(length, piece.rule).text


def check_lines(findings: tuple[Finding, ...]) -> list[str]:
    """The findings as lines of text, the gravest first, and a count."""
    lines = []
    for finding in folded(findings):
        lines.append(f"{LEVELS[finding.level]}: {finding.text}")
        lines.append(f"    rule: {finding.rule}")
        if finding.cure:
            lines.append(f"    try: {finding.cure}")
    counts = {level: sum(f.level == level for f in findings) for level in LEVELS}
    lines.append(
        f"{counts['stop']} to stop for, {counts['caution']} cautions, {counts['note']} notes"
    )
    return lines


def dumped(told: dict[str, Any]) -> str:
    """The numbers of a piece as JSON."""
    import json

    return json.dumps(told, indent=1, ensure_ascii=False)
