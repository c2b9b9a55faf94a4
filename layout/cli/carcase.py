"""`build carcase`: one carcase from the command line, without a piece file."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from layout.builds.box_choices import DividerChoice
from layout.builds.carcase import CarcaseChoice
from layout.builds.frame import LONGEST, WIDEST
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.dovetail_rows import corner_rows
from layout.cli.drawer import _cut_list
from layout.cli.slide_rows import slide_rows
from layout.cli.typed import as_options, found_in_options, table
from layout.defaults import Unit
from layout.errors import BadRequest, Where
from layout.mark import Sum, Witness, add, face_of
from layout.piece import Piece, work_out
from layout.piece_file.case_keys import read_carcase, read_divider

ZERO = Fraction(0)
MOST_SHELVES = 30
FLAGS = {
    "width": "--width", "height": "--height", "depth": "--depth", "thickness": "--thickness",
    "tails_on": "--tails-on", "top_in": "--top-in", "bottom_in": "--bottom-in",
    "dovetails.slope": "--slope", "dovetails.pin": "--pin", "dovetails.tails": "--tails",
    "dovetails.lap": "--lap", "slide.slope": "--slope", "back.thickness": "--back",
    "back.boards": "--back-boards", "shelves": "--shelves",
}  # fmt: skip


class CarcaseWords(NamedTuple):
    """One carcase: the options as typed."""

    width: str
    height: str
    depth: str
    thickness: str
    slope: str | None = None
    pin: str | None = None
    tails: str | None = None
    lap: str | None = None
    tails_on: str | None = None
    slide: bool = False
    housing: bool = False
    top_in: str | None = None
    bottom_in: str | None = None
    back: str | None = None
    back_boards: str | None = None
    shelves: str | None = None


def tell_carcase(words: CarcaseWords, shown: Shown) -> int:
    """Print one carcase's cut list, corners, sums, settings and checks; 1 on a stop."""
    from layout.cli.packet import ALL  # nothing heavy: the sheets are drawn where they are asked

    piece = carcase_piece(words, shown)
    (case,) = piece.carcases
    lines = ["Cut list, finished sizes", *_cut_list(piece), ""]
    if case.corners:
        lines += ["Corners", *figure_lines(corner_rows(piece, case.corners[0]))]
    else:
        lines += ["Top and bottom in the sides", *figure_lines(slide_rows(piece, case.slides[0]))]
    if piece.dividers:
        one = piece.dividers[0]
        clear = [("clear between the shelves", said(piece, one.choice.place or ZERO))]
        rows = slide_rows(piece, one.slides[0])
        lines += ["", "Shelves in the sides", *figure_lines([*clear, *rows])]
    findings = found_in_options(check(piece), FLAGS)
    return answer(piece, findings, shown, lines, ALL)


def carcase_piece(words: CarcaseWords, shown: Shown) -> Piece:
    """The piece that the options describe: one carcase with its shelves."""
    choice = asked("One carcase", shown)
    with as_options(FLAGS):
        case = carcase_choice(words, choice.unit)
        shelves = _shelves(words, case, choice.unit)
        piece = work_out(choice._replace(carcases=(case,), dividers=shelves))
    return piece._replace(sums=(*piece.sums, *_clear_sums(piece)))


def carcase_choice(words: CarcaseWords, unit: Unit) -> CarcaseChoice:
    """The carcase chosen. BadPiece or BadRequest where it can't be."""
    _refuse_mixed(words)
    slid = words.slide or words.housing
    values: dict[str, object] = {
        "width": words.width,
        "height": words.height,
        "depth": words.depth,
        "thickness": words.thickness,
        "tails_on": words.tails_on,
        "top_in": words.top_in,
        "bottom_in": words.bottom_in,
        "slide": {"slope": words.slope} if words.slide else None,
        "housing": {} if words.housing else None,
        "back": None if words.back is None else {
            "thickness": words.back, "boards": words.back_boards,
        },
    }
    if not slid:
        values["dovetails"] = {
            "slope": words.slope, "pin": words.pin, "tails": words.tails, "lap": words.lap,
        }
    choice = read_carcase(table(values), unit, "")
    where = Where(key=_blamed(choice))
    if choice.slid is not None:
        return choice._replace(slid=choice.slid._replace(where=Where(key="--thickness")),
                               where=where)
    flag = "--tails" if words.tails is not None else "--depth"
    if choice.joint.lap is not None and choice.joint.lap >= choice.sides:
        flag = "--lap"
    return choice._replace(joint=choice.joint._replace(where=Where(key=flag)), where=where)


def _refuse_mixed(words: CarcaseWords) -> None:
    """BadRequest where options are said together that don't go together."""
    if words.slide and words.housing:
        raise BadRequest("top and bottom are slid or housed, not both",
                         "leave --slide or --housing out", Where(key="--housing"))
    slid = words.slide or words.housing
    dovetailed = (("--tails", words.tails), ("--pin", words.pin), ("--lap", words.lap),
                  ("--tails-on", words.tails_on))
    for flag, written in dovetailed:
        if slid and written is not None:
            how = "--slide" if words.slide else "--housing"
            raise BadRequest(f"{flag} goes with dovetailed corners", f"leave it or {how} out",
                             Where(key=flag))
    if words.housing and words.slope is not None:
        raise BadRequest("a square housing has no slope", "leave it out, or write --slide instead",
                         Where(key="--slope"))
    for flag, written in (("--top-in", words.top_in), ("--bottom-in", words.bottom_in)):
        if not slid and written is not None:
            raise BadRequest(f"{flag} goes with boards slid into the sides",
                             "write --slide or --housing too, or leave it out", Where(key=flag))
    if words.back_boards is not None and words.back is None:
        raise BadRequest("there is no back to be made of boards",
                         "give its thickness with --back, or leave --back-boards out",
                         Where(key="--back-boards"))


def _blamed(choice: CarcaseChoice) -> str | None:
    """The option to name where the carcase can't be: the first size that can't be meant, or else
    what leaves nothing between its boards.
    """
    back = choice.back
    sizes = (
        ("--width", choice.width, LONGEST), ("--height", choice.height, LONGEST),
        ("--depth", choice.depth, WIDEST), ("--thickness", choice.sides, WIDEST),
        ("--top-in", choice.top_in, WIDEST), ("--bottom-in", choice.bottom_in, WIDEST),
        ("--back", back.thickness if back is not None else ZERO, WIDEST),
    )  # fmt: skip
    for flag, size, most in sizes:
        if size > most:
            return flag
    left = (
        ("--width", choice.width - 2 * choice.sides),
        ("--height", _inside(choice)),
        ("--back", choice.depth - (back.thickness if back is not None else ZERO)),
    )
    return next((flag for flag, size in left if size <= 0), None)


# -- shelves


def _inside(choice: CarcaseChoice) -> Fraction:
    """The clear height inside, in mm."""
    return choice.height - choice.top - choice.bottom - choice.top_in - choice.bottom_in


def _shelves(
    words: CarcaseWords, case: CarcaseChoice, unit: Unit
) -> tuple[DividerChoice, ...]:
    """Shelves from below, each in what is above the one before it."""
    if words.shelves is None:
        return ()
    many = table({"shelves": words.shelves}).count("shelves", 1, MOST_SHELVES)
    inside, where = _inside(case), Where(key="--shelves")
    clear = (inside - many * case.sides) / (many + 1)
    if inside > 0 and clear <= 0:
        raise BadRequest(f"{many} shelves leave nothing between them",
                         f"take at most {(inside / case.sides).__ceil__() - 1}", where)
    found = []
    opening = f"inside {case.name}"
    for number in range(1, many + 1):
        values = {"name": f"shelf {number}", "opening": opening, "lies": "level",
                  "thickness": words.thickness, "housing": {}}
        one = read_divider(table(values), unit, "")
        joint = one.joint._replace(where=where)
        found.append(one._replace(place=clear, joint=joint, where=where))
        opening = f"above shelf {number}"
    return tuple(found)


def _clear_sums(piece: Piece) -> Iterator[Sum]:
    """How far the shelves are apart, as the boards in place have it."""
    if not piece.dividers:
        return
    (case,) = piece.carcases
    many = len(piece.dividers)
    inside, thick = case.opening.height, case.choice.sides
    first, last = piece.dividers[0].part, piece.dividers[-1].part
    shelves = "the shelf's thickness" if many == 1 else f"the {many} shelves' thicknesses"
    # measured below the first, and above the last
    yield add(
        "clear between the shelves", first.id,
        Witness(face_of(case.bottom.id, "face"), face_of(first.id, "back")),
        (+1, f"1/{many + 1} of the inside height", inside / (many + 1)),
        (-1, f"1/{many + 1} of {shelves}", many * thick / (many + 1)),
        also=Witness(face_of(last.id, "face"), face_of(case.top.id, "face")),
    )
