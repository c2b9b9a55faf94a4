"""`build top`: one top by itself, without a piece file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from layout.builds.top import Top
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.drawer import _cut_list
from layout.cli.typed import as_options, found_in_options, table
from layout.cli.year_options import FLAGS as YEAR
from layout.cli.year_options import YearWords, timbers
from layout.errors import BadRequest, Where
from layout.piece import Piece, work_out
from layout.piece_file.top_keys import read_top

FLAGS = YEAR | {
    "length": "--length", "width": "--width", "thickness": "--thickness", "timber": "--timber",
    "sawn": "--sawn", "strips": "--stock-thickness", "strips.lay": "--on-edge",
    "strips.stock_thickness": "--stock-thickness", "strips.stock_width": "--stock-width",
    "strips.stock_length": "--stock-length", "strips.planer": "--planer",
    "strips.heart": "--heart", "end_caps": "--end-caps", "end_caps.width": "--end-caps",
    "end_caps.pegs": "--pegs", "vise": "--vise", "vise.opening": "--vise", "row": "--row",
    "row.lines": "--row", "row.first": "--first", "row.pitch": "--pitch", "row.size": "--dog",
    "row.holes": "--row",
}  # fmt: skip


class TopWords(NamedTuple):
    """One top: the options as typed."""

    length: str
    width: str
    thickness: str
    year: YearWords
    timber: str | None = None
    sawn: str | None = None
    on_edge: bool = False
    stock_thickness: str | None = None
    stock_width: str | None = None
    stock_length: str | None = None
    planer: str | None = None
    heart: str | None = None
    end_caps: str | None = None
    pegs: str | None = None
    vise: str | None = None
    rows: tuple[str, ...] = ()
    first: str | None = None
    pitch: str | None = None
    dog: str | None = None


def tell_top(words: TopWords, shown: Shown) -> int:
    """Print one top's cut list, its strips, sums, settings and checks; 1 on a stop."""
    from layout.cli.packet import ALL  # nothing heavy: the sheets are drawn where they are asked

    piece = top_piece(words, shown)
    lines = ["Cut list, finished sizes", *_cut_list(piece)]
    for laid in piece.tops:
        rows = _rows(piece, laid.top)
        if rows:
            lines += ["", "Glue-up", *figure_lines(rows)]
    return answer(piece, found_in_options(check(piece), FLAGS), shown, lines, ALL)


def top_piece(words: TopWords, shown: Shown) -> Piece:
    """The piece that the options describe: one top."""
    choice = asked("One top", shown)
    with as_options(FLAGS):
        made = read_top(table(_values(words)), choice.unit, words.timber or "", choice.wall_least)
        return work_out(choice._replace(tops=(made,), timbers=timbers(words.year)))


def _values(words: TopWords) -> Mapping[str, object]:
    """The keys of [[top]]. BadRequest where options are said together that don't go together."""
    strips = (words.stock_thickness, words.stock_width)
    more = (words.stock_length, words.planer, words.heart)
    row = (words.first, words.pitch, words.dog)
    pairs = (
        (any(strips) != all(strips), "--stock-width" if strips[0] else "--stock-thickness",
         "of the rough boards only one size is given", "give --stock-thickness and --stock-width"),
        (not any(strips) and (any(more) or words.on_edge), "--stock-thickness",
         "the rough boards' sizes are missing", "give --stock-thickness and --stock-width"),
        (words.pegs is not None and words.end_caps is None, "--pegs",
         "there are no end caps to peg", "give --end-caps, or leave it out"),
        (any(one is not None for one in row) and not words.rows, "--row",
         "there is no row of dog holes", "say where, e.g. --row 3"),
        (words.vise is not None and not words.rows, "--row",
         "a vise is given but no row of dog holes", "say where, e.g. --row 3"),
    )
    for wrong, flag, what, cure in pairs:
        if wrong:
            raise BadRequest(what, cure, Where(key=flag))
    return {
        "length": words.length, "width": words.width, "thickness": words.thickness,
        "sawn": words.sawn,
        "strips": None if not all(strips) else {
            "lay": "on edge" if words.on_edge else "flat",
            "stock_thickness": words.stock_thickness, "stock_width": words.stock_width,
            "stock_length": words.stock_length, "planer": words.planer, "heart": words.heart,
        },
        "end_caps": None if words.end_caps is None else {
            "width": words.end_caps, "pegs": words.pegs,
        },
        "vise": None if words.vise is None else {"opening": words.vise},
        "row": None if not words.rows else [{
            "lines": list(words.rows), "first": words.first, "pitch": words.pitch,
            "size": words.dog,
        }],
    }  # fmt: skip


def _rows(piece: Piece, top: Top) -> list[tuple[str, str]]:
    """What the top is glued up of."""
    strips = top.strips
    if strips is None:
        return []
    rows = [("strips", str(len(strips.strips))), ("each", said(piece, strips.strips[0].width)),
            ("glued up thick", said(piece, strips.milled)),
            ("glued up long", said(piece, strips.long)), ("clamps", str(strips.clamps))]
    if len(strips.sections) > 1:
        rows += [(f"section {number}", f"{many} strips, {said(piece, wide)}")
                 for number, (many, wide) in enumerate(
                     zip(strips.sections, strips.section_widths, strict=True), start=1)]
    return rows
