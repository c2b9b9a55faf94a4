"""Sheets onto paper: the packet and its separate kinds."""

from __future__ import annotations

import io
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from layout.checks import check, stopped
from layout.cli.lines import counted
from layout.cli.opened import NOT_MEASURED, MilledWords, opened_with_stock
from layout.errors import BadRequest, Where
from layout.mark import Finding
from layout.paper.files import clear_old_drawings, safe_name, write_all
from layout.paper.pages import drawing_area
from layout.paper.pdf import write_pdf
from layout.paper.readback import prove
from layout.paper.sizes import Paper, paper_named
from layout.paper.svg import svg_text
from layout.paper.tiles import lay_out
from layout.piece import Piece
from layout.scene.strokes import Sheet

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

    from layout.stock.rough import StockChoice

ALL = (
    "drawing", "cut list", "rough list", "board plan", "milling", "as milled", "sums", "checks",
    "through the year", "square", "tops", "marking", "card", "sticks", "templates",
)
FORMATS = ("pdf", "svg")
# Sticks and templates are cut to any paper; what is composed to a page needs one to stand on.
FULL_SIZE = {"sticks", "templates"}
LEAST_AREA = (Fraction(170), Fraction(200))
STEPS = (
    "laying out pages",
    "writing the PDF",
    "reading the PDF back",
    "writing the SVGs",
    "putting the files in place",
)
FILE_ENDINGS: dict[tuple[str, ...], str] = {
    ("card",): "cards",
    ("sticks",): "sticks",
    ("templates",): "templates",
}

Area = tuple[Fraction, Fraction]


def write_packet(
    path: Path,
    kinds: tuple[str, ...],
    out: Path,
    paper: str | None,
    formats: str,
    card: str | None,
    milled: MilledWords = NOT_MEASURED,
) -> int:
    """Write these kinds of sheets of a piece file; 1 where a check says stop."""
    piece, stock = opened_with_stock(path, milled)
    findings = check(piece)
    write_sheets(piece, findings, kinds, out, paper, formats, card, stock=stock)
    return int(stopped(findings))


def write_sheets(
    piece: Piece,
    findings: tuple[Finding, ...],
    kinds: tuple[str, ...],
    out: Path,
    paper: str | None,
    formats: str,
    card: str | None,
    quiet: bool = False,
    stock: StockChoice | None = None,
) -> None:
    """Draw, lay out, write and read back; says on standard error what was written. Sheets of stock
    only where it is given.
    """
    wanted = _formats(formats)
    page = paper_named(paper or ("letter" if piece.choice.unit == "in" else "A4"))
    with _progress(len(kinds) + len(STEPS), quiet) as step:
        sheets = list(_sheets(piece, findings, kinds, page, card, step, stock))
        if stopped(findings):
            sheets = [
                replace(s, name=f"STOP: {s.name}", subject=f"STOP, see the checks: {s.subject}")
                for s in sheets
            ]
        stem = safe_name(piece.name)
        ending = FILE_ENDINGS.get(kinds)
        stem = f"{stem}-{ending}" if ending else stem
        files: dict[Path, bytes] = {}
        told = []
        if "pdf" in wanted:
            step(STEPS[0])
            pages = lay_out(sheets, page, piece.name)
            step(STEPS[1])
            buffer = io.BytesIO()
            write_pdf(pages, piece.name, buffer)
            data = buffer.getvalue()
            step(STEPS[2])
            proof = prove(pages, data)
            files[out / f"{stem}.pdf"] = data
            told.append(f"{out / f'{stem}.pdf'}: {len(pages)} pages, {page.name}")
            told.append(f"read back: all {proof.lines} lines stand where they were drawn")
        if "svg" in wanted:
            step(STEPS[3])
            folder = out / f"{stem}-svg"
            for number, sheet in enumerate(sheets, start=1):
                name = f"{number:02d}-{safe_name(sheet.name)}.svg"
                files[folder / name] = svg_text(sheet, piece.name).encode("utf-8")
            told.append(f"{folder}: {len(sheets)} drawings at full size")
        step(STEPS[4])
        write_all(files)
        if "svg" in wanted:
            clear_old_drawings(out / f"{stem}-svg", set(files))
    if quiet:
        return
    for line in told:
        print(line)
    _say_more(piece, findings)


def _say_more(piece: Piece, findings: tuple[Finding, ...]) -> None:
    """What the maker should know before printing."""
    from layout.scene.lettering import clean

    unset = [n for n in (piece.name, *(p.name for p in piece.parts)) if clean(n) != n]
    if unset:
        print(f"some letters can't be printed and stand as ?: {unset[0]!r}", file=sys.stderr)
    cautions = sum(finding.level == "caution" for finding in findings)
    if stopped(findings):
        print("a check says STOP: see the checks before you cut", file=sys.stderr)
        return
    if cautions:
        print(f"{counted(cautions, 'caution')}: see the checks before you cut", file=sys.stderr)
    print("print at 100 %, then measure the bars on the first page")


def _formats(formats: str) -> set[str]:
    wanted = {word.strip().lower() for word in formats.split(",")}
    for word in sorted(wanted):
        if word not in FORMATS:
            raise BadRequest(
                f"'{word}' is no format", "write pdf, svg or pdf,svg", Where(key="--formats")
            )
    return wanted


def _sheets(
    piece: Piece,
    findings: tuple[Finding, ...],
    kinds: tuple[str, ...],
    page: Paper,
    card: str | None,
    step: Callable[[str], None],
    stock: StockChoice | None = None,
) -> Iterator[Sheet]:
    """The sheets of each kind, in the order of the packet."""
    from layout.sheets.card import CARD_SIZES, cards
    from layout.sheets.cut_list_sheet import cut_list_sheets
    from layout.sheets.drawing import drawing_sheets
    from layout.sheets.lists import check_sheets, sum_sheets
    from layout.sheets.marking_sheet import marking_sheets
    from layout.sheets.milled_list import milled_sheets
    from layout.sheets.season_list import season_sheets, square_sheets
    from layout.sheets.stick import sticks
    from layout.sheets.template import templates
    from layout.sheets.top_sheet import top_sheets

    card_name = card or ("index" if piece.choice.unit == "in" else "A6")
    card_name = {name.lower(): name for name in CARD_SIZES}.get(card_name.lower(), card_name)
    if card_name not in CARD_SIZES:
        raise BadRequest(
            f"there is no card '{card_name}'",
            f"one of {', '.join(CARD_SIZES)}",
            Where(key="--card"),
        )
    upright, lying = _area(page, False), _area(page, True)
    if set(kinds) - FULL_SIZE and (upright[0] < LEAST_AREA[0] or upright[1] < LEAST_AREA[1]):
        raise BadRequest(
            f"{page.name} is too small for lists and cards",
            "use A4, letter or larger; sticks and templates can be had on small paper",
            Where(key="--paper"),
        )
    draw: dict[str, Callable[[], tuple[Sheet, ...]]] = {
        "drawing": lambda: drawing_sheets(piece, lying),
        "cut list": lambda: cut_list_sheets(piece, upright),
        "rough list": lambda: _rough(piece, stock, upright),
        "board plan": lambda: _boards(piece, stock, lying),
        "milling": lambda: _milling(piece, stock, upright),
        "as milled": lambda: milled_sheets(piece, upright),
        "sums": lambda: sum_sheets(piece, upright),
        "checks": lambda: check_sheets(piece, findings, upright),
        "through the year": lambda: season_sheets(piece, upright),
        "square": lambda: square_sheets(piece, upright),
        "tops": lambda: top_sheets(piece, lying),
        "marking": lambda: marking_sheets(piece, upright),
        "card": lambda: cards(piece, CARD_SIZES[card_name], upright, stopped(findings)),
        "sticks": lambda: sticks(piece),
        "templates": lambda: templates(piece),
    }
    for kind in kinds:
        step(f"drawing: {kind}")
        yield from draw[kind]()


def _rough(piece: Piece, stock: StockChoice | None, area: Area) -> tuple[Sheet, ...]:
    if stock is None:
        return ()
    from layout.sheets.rough_list_sheet import rough_sheets

    return rough_sheets(piece, stock, area)


def _boards(piece: Piece, stock: StockChoice | None, area: Area) -> tuple[Sheet, ...]:
    """The board plan, where the maker has told of boards: else nothing is known of any."""
    if stock is None or not (stock.rack.boards or stock.rack.sizes):
        return ()
    from layout.sheets.board_sheet import board_sheets
    from layout.stock.boards import board_plan

    return board_sheets(piece, board_plan(piece, stock), stock, area)


def _milling(piece: Piece, stock: StockChoice | None, area: Area) -> tuple[Sheet, ...]:
    if stock is None:
        return ()
    from layout.sheets.milling_sheet import milling_sheets
    from layout.stock.rough import rough_list

    return milling_sheets(piece, rough_list(piece, stock), area)


def _area(page: Paper, landscape: bool) -> Area:
    area = drawing_area(page, landscape)
    return (area.width, area.height)


@contextmanager
def _progress(steps: int, quiet: bool) -> Iterator[Callable[[str], None]]:
    """A bar on the terminal once the work has taken a second; nothing when it is quicker."""
    if quiet or not sys.stderr.isatty():
        yield lambda words: None
        return
    with ExitStack() as stack:
        started = time.monotonic()
        bars: list[tuple[Progress, TaskID]] = []
        done = 0

        def step(words: str) -> None:
            nonlocal done
            if not bars and time.monotonic() - started >= 1:
                bar = stack.enter_context(_bar())
                bars.append((bar, bar.add_task("", total=steps)))
            for bar, task in bars:
                bar.update(task, description=words, completed=done)
            done += 1

        yield step


def _bar() -> Progress:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    return Progress(
        BarColumn(),
        TextColumn("{task.description}"),
        TimeElapsedColumn(),
        console=Console(stderr=True),
        transient=True,
    )
