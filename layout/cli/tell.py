"""Answers in the terminal: the same words and order as on paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from layout.checks import check, stopped
from layout.checks.words import figure as said
from layout.cli.lines import check_lines, dumped, moved_lines, sum_lines
from layout.cli.opened import MilledWords, opened
from layout.piece import Piece

if TYPE_CHECKING:
    from rich.console import Console

    from layout.joints.dovetail import Corner

# Tools whose marks are told by their distance from end A, and what to say of them.
FROM_END_A: dict[str, str] = {"knife": "", "bevel": "bevel: ", "bit": ""}


def tell_sums(path: Path, milled: MilledWords) -> int:
    """Every sum, equal ones once, as it is added with a pencil; then what measured parts moved."""
    piece = opened(path, milled)
    findings = check(piece)
    # all of it worked out before any of it is printed
    for line in [*sum_lines(piece), *moved_lines(piece)]:
        print(line)
    return int(stopped(findings))


def tell_checks(path: Path, milled: MilledWords) -> int:
    """What the checks found; 1 on a stop."""
    findings = check(opened(path, milled))
    for line in check_lines(findings):
        print(line)
    return int(stopped(findings))


def tell_numbers(path: Path, as_json: bool, milled: MilledWords) -> int:
    """Tables of the cut list, the settings and the parts, or the whole as JSON."""
    piece = opened(path, milled)
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
    if piece.rails or any(mark.source == "end A" for mark in piece.marks):
        _marks(piece, console)
    if piece.corners:
        _dovetails(piece, console)


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
    """What is marked at a distance from end A: knife lines, haunch slopes, holes."""
    from rich.table import Table
    from rich.text import Text

    from layout.sheets.groups import SURFACES, like_parts, told

    table = Table(title="Knife lines, slopes and holes, from end A", title_justify="left")
    for name in ("part", "face", "what", "from end A"):
        table.add_column(name)
    for group in like_parts(piece):
        seen: set[tuple[str, str, str]] = set()
        here = [
            m
            for m in piece.marks_of(group.first.id)
            if m.tool in FROM_END_A and m.source == "end A"
        ]
        for mark in sorted(here, key=lambda m: (m.face, m.distance)):
            what = f"{FROM_END_A[mark.tool]}{mark.role}"
            if mark.diameter is not None:
                what = f"{mark.role}, {said(piece, mark.diameter)} across"
            row = (SURFACES[mark.face], what, said(piece, mark.distance))
            if row not in seen:
                seen.add(row)
                table.add_row(*(Text(word) for word in (told(piece, group.parts), *row)))
    console.print(table)


def _dovetails(piece: Piece, console: Console) -> None:
    """Where the sides of the tails stand on the tail boards, at the end and at the baseline."""
    from rich.table import Table
    from rich.text import Text

    table = Table(title="Sides of the tails, from the tail board's face edge", title_justify="left")
    for name in ("tail board", "corner", "side", "at the end", "at the baseline", "slope"):
        table.add_column(name)
    groups: dict[object, list[Corner]] = {}
    for corner in piece.corners:
        groups.setdefault((corner.tails.kind, corner.shift, corner.spacing), []).append(corner)
    for corners in groups.values():
        first = corners[0]
        boards = ", ".join(dict.fromkeys(one.tails.name for one in corners))
        letters = ", ".join(sorted({one.letter for one in corners}))
        row = [boards, letters]
        for which, tail, end, base in first.sides():
            words = [f"{which} side of {tail.name}"]
            words += [said(piece, first.shift + place) for place in (end, base)]
            slope = first.spacing.choice.slope.ratio_text if row[0] else ""
            table.add_row(*(Text(word) for word in (*row, *words, slope)))
            row = ["", ""]
    console.print(table)
