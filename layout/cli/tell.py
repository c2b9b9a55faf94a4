"""Answers in the terminal: the same words and order as on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from layout.checks import check, stopped
from layout.cli.lines import check_lines, dumped, said, sum_lines
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece

if TYPE_CHECKING:
    from rich.console import Console

def opened(path: Path) -> Piece:
    """A piece file, read and worked out."""
    return work_out(read_piece(path))


def tell_sums(path: Path) -> int:
    """Every sum, equal ones once, as it is added with a pencil."""
    piece = opened(path)
    findings = check(piece)
    for line in sum_lines(piece):
        print(line)
    return int(stopped(findings))


def tell_checks(path: Path) -> int:
    """What the checks found; 1 on a stop."""
    findings = check(opened(path))
    for line in check_lines(findings):
        print(line)
    return int(stopped(findings))


def tell_numbers(path: Path, as_json: bool) -> int:
    """Tables of the cut list, the settings and the parts, or the whole as JSON."""
    piece = opened(path)
    findings = check(piece)
    if as_json:
        from layout.numbers import numbers

        print(dumped(numbers(piece, findings)))
    else:
        _tables(piece)
    return int(stopped(findings))


def _tables(piece: Piece) -> None:
    from rich.console import Console

    console = Console()
    _cut_list(piece, console)
    _settings(piece, console)
    _marks(piece, console)


def _cut_list(piece: Piece, console: Console) -> None:
    from rich.table import Table
    from rich.text import Text

    from layout.stock.cut_list import cut_list

    table = Table(title="Cut list, finished sizes", title_justify="left")
    for name in ("count", "", "part", "timber", "thickness", "width", "length", ""):
        table.add_column(name, justify="right" if name in ("count", "length") else "left")
    for row in cut_list(piece):
        words = [f"{row.count}", row.letter, row.name, row.timber]
        words += [said(piece, value) for value in (row.thickness, row.width, row.length)]
        table.add_row(*(Text(word) for word in (*words, row.note)))
    console.print(table)


def _settings(piece: Piece, console: Console) -> None:
    from rich.table import Table
    from rich.text import Text

    from layout.settings import settings
    from layout.sheets.struck import struck

    table = Table(title="Gauge settings, in this order", title_justify="left")
    for name in ("", "tool", "set to", "strikes", "lines"):
        table.add_column(name)
    for setting in settings(piece.marks):
        figures = said(piece, setting.distance)
        if setting.second is not None:
            figures += f" and {said(piece, setting.second)}"
        for index, entry in enumerate(struck(piece, setting)):
            first = (f"{setting.number}", setting.tool, figures) if index == 0 else ("", "", "")
            table.add_row(*(Text(word) for word in (*first, entry.words(piece), f"{entry.lines}")))
    console.print(table)


def _marks(piece: Piece, console: Console) -> None:
    from rich.table import Table
    from rich.text import Text

    from layout.sheets.groups import SURFACES, like_parts, told

    table = Table(title="Knife lines, from end A", title_justify="left")
    for name in ("part", "face", "what", "from end A"):
        table.add_column(name)
    for group in like_parts(piece):
        seen: set[tuple[str, str, str]] = set()
        knife = [m for m in piece.marks_of(group.first.id) if m.tool == "knife"]
        for mark in sorted(knife, key=lambda m: (m.face, m.distance)):
            row = (SURFACES[mark.face], mark.role, said(piece, mark.distance))
            if row not in seen:
                seen.add(row)
                table.add_row(*(Text(word) for word in (told(piece, group.parts), *row)))
    console.print(table)
