"""Rows for a spreadsheet: comma-separated, and nothing in them is run as a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

# What a spreadsheet would take for a formula.
FORMULA = ("=", "+", "-", "@")


def spreadsheet(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A head and its rows as comma-separated values, a line each."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head)
    for row in rows:
        writer.writerow([plain(cell) for cell in row])
    return out.getvalue()


def plain(cell: str) -> str:
    """A cell that no spreadsheet runs as a formula."""
    return f"'{cell}" if cell.lstrip().startswith(FORMULA) else cell
