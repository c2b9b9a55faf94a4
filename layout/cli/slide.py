"""`joint slide` and `joint housing`: one board's end in another, without a piece file."""

from __future__ import annotations

from layout.checks import check
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.slide_options import FLAGS, RunWords, SlopeWords, pair_choice
from layout.cli.slide_rows import CAUTION, machine_rows, rod_rows, slide_rows
from layout.cli.tenon_options import size
from layout.cli.typed import as_options, found_in_options
from layout.joints.rods import _said
from layout.piece import Piece, work_out_slide


def tell_slide(words: RunWords, sloped: SlopeWords | None, shown: Shown) -> int:
    """Print one slide's sizes, settings, sums and checks, a housing's where `sloped` is None; 1
    on a stop.
    """
    piece = slide_piece(words, sloped, shown)
    assert piece.slide_pair is not None
    choice, made = piece.slide_pair.choice, piece.slide_pair.slide
    lines = figure_lines(slide_rows(piece, made))
    cutter = reading = None
    if sloped is not None:
        cutter = size("--cutter", sloped.cutter, choice.unit)
        reading = size("--reading", sloped.reading, choice.unit)
    machine = figure_lines(machine_rows(piece, made, cutter))
    lines += ["", "Where a router table cuts it", *machine, *CAUTION]
    if choice.rods is not None:
        rows = figure_lines(rod_rows(piece, made, choice.rods, reading))
        lines += ["", f"With rods of {_said(choice.rods, choice.unit)}", *rows]
    findings = found_in_options(check(piece), FLAGS)
    return answer(piece, findings, shown, lines, ("card", "templates"), cut_to_length=False)


def slide_piece(words: RunWords, sloped: SlopeWords | None, shown: Shown) -> Piece:
    """The piece that the options describe: two boards, one slid into the other."""
    choice = asked("One slide" if sloped is not None else "One housing", shown)
    pair = pair_choice(words, sloped, choice.unit)
    with as_options(FLAGS):
        return work_out_slide(choice, pair)
