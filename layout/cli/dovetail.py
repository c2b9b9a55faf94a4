"""`joint dovetail`: one dovetailed corner from the command line, without a piece file."""

from __future__ import annotations

from layout.checks import check
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.dovetail_options import FLAGS, DovetailWords, corner_choice
from layout.cli.dovetail_rows import corner_rows
from layout.cli.typed import as_options, found_in_options
from layout.mark import Finding
from layout.piece import Piece, work_out_corner


def tell_dovetail(words: DovetailWords, shown: Shown) -> int:
    """Print one corner's sizes, sums, settings and checks; 1 on a stop."""
    piece = dovetail_piece(words, shown)
    lines = figure_lines(corner_rows(piece, piece.corners[0]))
    kinds = ("card", "templates")
    return answer(piece, _findings(piece), shown, lines, kinds, cut_to_length=False)


def dovetail_piece(words: DovetailWords, shown: Shown) -> Piece:
    """The piece that the options describe: two boards and their corner."""
    choice = asked("One corner", shown)
    corner = corner_choice(words, choice.unit)
    with as_options(FLAGS):
        return work_out_corner(choice, corner)


def _findings(piece: Piece) -> tuple[Finding, ...]:
    return found_in_options(check(piece), FLAGS)
