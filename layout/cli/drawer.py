"""`build drawer`: one drawer for an opening from the command line, without a piece file."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.box_choices import DrawerChoice
from layout.builds.frame import WIDEST
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.dovetail_options import SpacingWords
from layout.cli.dovetail_rows import corner_rows
from layout.cli.typed import as_options, found_in_options, table
from layout.defaults import Unit
from layout.errors import BadRequest, Where
from layout.joints.spacing import DovetailChoice
from layout.piece import Piece, work_out
from layout.piece_file.box_keys import read_drawer
from layout.stock.cut_list import cut_list

OWN = ("front", "sides", "back", "style", "set_in", "lip", "lip_thickness", "room_wide",
       "room_high", "room_behind", "drop")  # fmt: skip
FLAGS = {key: f"--{key.replace('_', '-')}" for key in OWN} | {
    "space.width": "--width", "space.height": "--height", "space.depth": "--depth",
    "dovetails.slope": "--slope", "dovetails.pin": "--pin", "dovetails.half_pin": "--half-pin",
    "dovetails.tails": "--tails", "dovetails.tail_width": "--tail-width",
    "front_dovetails.lap": "--lap",
    "bottom.kind": "--bottom", "bottom.thickness": "--bottom-thickness",
    "bottom.tongue": "--tongue", "bottom.up": "--groove-up",
    "runners.thickness": "--runners", "bottom.run": "--stopped",
}  # fmt: skip


class DrawerWords(NamedTuple):
    """One drawer: the options as typed."""

    width: str
    height: str
    depth: str
    front: str | None = None
    sides: str | None = None
    back: str | None = None
    style: str | None = None
    set_in: str | None = None
    lip: str | None = None
    lip_thickness: str | None = None
    bottom: str | None = None
    bottom_thickness: str | None = None
    tongue: str | None = None
    groove_up: str | None = None
    stopped: bool = False
    slips: bool = False
    runners: str | None = None
    spacing: SpacingWords = SpacingWords()
    lap: str | None = None
    through: bool = False
    room_wide: str | None = None
    room_high: str | None = None
    room_behind: str | None = None
    drop: str | None = None


def tell_drawer(words: DrawerWords, shown: Shown) -> int:
    """Print one drawer's cut list, dovetails, sums, settings and checks; 1 on a stop."""
    from layout.cli.packet import ALL  # nothing heavy: the sheets are drawn where they are asked

    piece = drawer_piece(words, shown)
    findings = found_in_options(check(piece), FLAGS)
    lines = ["Cut list, finished sizes", *_cut_list(piece)]
    for name, corner in (("Front", piece.corners[0]), ("Back", piece.corners[2])):
        lines += ["", f"{name} corners", *figure_lines(corner_rows(piece, corner))]
    return answer(piece, findings, shown, lines, ALL)


def drawer_piece(words: DrawerWords, shown: Shown) -> Piece:
    """The piece that the options describe: one drawer in a space of its own."""
    choice = asked("One drawer", shown)
    with as_options(FLAGS):
        return work_out(choice._replace(drawers=(drawer_choice(words, choice.unit),)))


def drawer_choice(words: DrawerWords, unit: Unit) -> DrawerChoice:
    """The drawer chosen. BadPiece or BadRequest where it can't be."""
    if words.through and words.lap is not None:
        raise BadRequest("through dovetails have no lap", "leave --through or --lap out",
                         Where(key="--lap"))
    own = words._asdict()
    values = {
        **{key: own[key] for key in OWN},
        "space": {"width": words.width, "height": words.height, "depth": words.depth},
        "dovetails": words.spacing._asdict(),
        "front_dovetails": {"lap": False if words.through else words.lap},
        "bottom": {
            "kind": words.bottom,
            "thickness": words.bottom_thickness,
            "tongue": words.tongue,
            "up": words.groove_up,
            "run": "stopped" if words.stopped else None,
            "slips": {} if words.slips else None,
        },
        "runners": None if words.runners is None else {"thickness": words.runners},
    }
    choice = read_drawer(table(values), unit, "")
    return choice._replace(
        front_joint=_blaming(words, choice.front_joint, choice.front, ""),
        back_joint=_blaming(words, choice.back_joint, choice.back, ", at the back"),
        where=Where(key=_blamed(choice)),
    )


def _blaming(
    words: DrawerWords, joint: DovetailChoice, board: Fraction, place: str
) -> DovetailChoice:
    """Dovetails with the option to name where they don't fit on the board with the pins."""
    if joint.lap is not None and joint.lap >= board:
        return joint._replace(where=Where(key="--lap"))
    said = (("--tails", words.spacing.tails), ("--half-pin", words.spacing.half_pin))
    flag = next((flag for flag, written in said if written is not None), "--height")
    return joint._replace(where=Where(key=f"{flag}{place}"))


def _blamed(choice: DrawerChoice) -> str | None:
    """The option to name where the drawer can't be: the first size that can't be meant, or else
    the side of the opening that leaves the drawer nothing. None where there is neither.
    """
    space, bottom = choice.space, choice.bottom
    assert space is not None
    sizes: dict[str, object] = {f"--{key}": value for key, value in space._asdict().items()}
    sizes |= {FLAGS[key]: value for key, value in choice._asdict().items() if key in OWN}
    sizes |= {"--bottom-thickness": bottom.thickness, "--groove-up": bottom.up}
    if choice.runs is not None:
        sizes["--runners"] = choice.runs.thickness
    for flag, size in sizes.items():
        if isinstance(size, Fraction) and size > WIDEST:
            return flag
    high = space.height - choice.room_high
    left = (  # in the order that they are looked at in
        ("--width", space.width - choice.room_wide - 2 * choice.sides),
        ("--height", high),
        ("--depth", space.depth - choice.room_behind - choice.front - choice.back),
        ("--height", high - choice.drop - bottom.up - bottom.groove),
    )
    return next((flag for flag, size in left if size <= 0), None)


def _cut_list(piece: Piece) -> list[str]:
    """The rows of the cut list: how many, what, thickness × width × length, and what to know."""
    rows = cut_list(piece)
    sizes = [
        tuple(said(piece, one) for one in (row.thickness, row.width, row.length)) for row in rows
    ]
    widths = [max(len(size[column]) for size in sizes) for column in range(3)]
    name = max(len(row.name) for row in rows)
    lines = []
    for row, size in zip(rows, sizes, strict=True):
        figures = " × ".join(f"{text:>{width}}" for text, width in zip(size, widths, strict=True))
        lines.append(f"{row.count} × {row.name:<{name}}  {figures}  {row.note}".rstrip())
    return lines
