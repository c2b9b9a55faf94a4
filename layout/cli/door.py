"""`build door` and `build panel`: one door, or one panel, without a piece file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from layout.builds.door import Door
from layout.builds.door_choice import DoorChoice
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.drawer import _cut_list
from layout.cli.typed import as_options, found_in_options, table
from layout.cli.year_options import FLAGS as YEAR
from layout.cli.year_options import YearWords, timbers
from layout.defaults import Unit, default_length
from layout.errors import BadRequest, Where
from layout.piece import Piece, work_out
from layout.piece_file.door_keys import read_door
from layout.squareness import squares

PANEL = {
    "panel.thickness": "--panel", "panel.edge": "--edge", "panel.tongue": "--tongue",
    "panel.border": "--border", "panel.step": "--step", "panel.wood_behind": "--wood-behind",
    "panel.lip": "--lip", "panel.room": "--room", "panel.grain": "--grain",
    "panel.timber": "--panel-timber", "panel.solid.cover": "--cover", "panel.solid.play": "--play",
    "panel.solid.held": "--held", "panel.solid.sawn": "--panel-sawn",
}  # fmt: skip
FLAGS = PANEL | YEAR | {
    "space.width": "--width", "space.height": "--height", "thickness": "--thickness",
    "stiles": "--stiles", "top.width": "--top", "bottom.width": "--bottom",
    "over": "--overlay", "rebate": "--rebate", "gap_sides": "--gap", "gap_top": "--gap",
    "gap_bottom": "--gap", "gap_between": "--gap", "horns": "--horns",
    "glass.rabbet_depth": "--glass", "glass.lip": "--lip", "hinges.length": "--hinge",
    "hinges.count": "--hinges", "lock.length": "--lock", "lock.above": "--lock-above",
    "timber": "--timber", "sawn": "--sawn", "muntin.count": "--muntins",
    "middle": "--middle", "hinges_on": "--hinges-on", "pair": "--pair", "solid": "--plywood",
    "rabbet_depth": "--glass", "space": "--width", "glass.thickness": "--glass",
}  # fmt: skip
ONE_PANEL = PANEL | YEAR | {
    "panel.thickness": "--thickness", "panel.timber": "--timber", "panel.solid.sawn": "--sawn",
    "space.width": "--width", "space.height": "--height", "thickness": "--frame",
    "solid": "--plywood",
}  # fmt: skip
MOST_MIDDLES = 10
PANEL_SHEETS = ("cut list", "sums", "checks", "through the year", "card", "sticks", "templates")


class PanelWords(NamedTuple):
    """What a panel is, as typed; `plywood` says that it keeps its size."""

    thickness: str | None = None
    plywood: bool = False
    edge: str | None = None
    tongue: str | None = None
    border: str | None = None
    step: str | None = None
    wood_behind: str | None = None
    lip: str | None = None
    room: str | None = None
    grain: str | None = None
    timber: str | None = None
    sawn: str | None = None
    cover: str | None = None
    play: str | None = None
    held: str | None = None

    def values(self) -> dict[str, object]:
        """The keys of [door.panel]."""
        solid = {"cover": self.cover, "play": self.play, "held": self.held, "sawn": self.sawn}
        return {
            "thickness": self.thickness, "edge": self.edge, "tongue": self.tongue,
            "border": self.border, "step": self.step, "wood_behind": self.wood_behind,
            "lip": self.lip, "room": self.room, "grain": self.grain,
            "timber": "plywood" if self.plywood else self.timber,
            "solid": False if self.plywood else solid,
        }


class DoorWords(NamedTuple):
    """One door or pair: the options as typed."""

    width: str
    height: str
    thickness: str
    stiles: str
    panel: PanelWords
    year: YearWords
    top: str | None = None
    bottom: str | None = None
    middles: str | None = None
    muntins: str | None = None
    glass: str | None = None
    overlay: str | None = None
    pair: bool = False
    rebate: str | None = None
    gap: str | None = None
    horns: str | None = None
    through: bool = False
    hinges_on: str | None = None
    hinge: str | None = None
    hinges: str | None = None
    lock: str | None = None
    lock_above: str | None = None
    timber: str | None = None
    sawn: str | None = None


def tell_door(words: DoorWords, shown: Shown) -> int:
    """Print one door's cut list, its hinges, sums, settings and checks; 1 on a stop."""
    from layout.cli.packet import ALL  # nothing heavy: the sheets are drawn where they are asked

    piece = door_piece(words, shown)
    lines = ["Cut list, finished sizes", *_cut_list(piece)]
    for door in piece.doors:
        lines += ["", door.name, *figure_lines(_rows(piece, door))]
    findings = found_in_options(check(piece), FLAGS)
    return answer(piece, findings, shown, lines, ALL)


def door_piece(words: DoorWords, shown: Shown) -> Piece:
    """The piece that the options describe: one door, or one pair."""
    choice = asked("One door", shown)
    with as_options(FLAGS):
        door = read_door(
            table(_door_values(words)), choice.unit, words.timber or "",
            default_length("web_least", choice.unit), choice.wall_least,
        )
        wood = timbers(words.year)
        return work_out(choice._replace(doors=(door,), timbers=wood))


def _door_values(words: DoorWords) -> Mapping[str, object]:
    """The keys of [[door]]. BadRequest where options are said together that don't go together."""
    _refuse_mixed(words)
    middle_rails = table({"middle": words.middles}).count("middle", 0, MOST_MIDDLES, default=0)
    width = words.top or words.stiles
    around = ("gap_sides", "gap_top", "gap_bottom", *(("gap_between",) if words.pair else ()))
    gaps = {} if words.gap is None else dict.fromkeys(around, words.gap)
    return {
        "space": {"width": words.width, "height": words.height},
        "thickness": words.thickness,
        "stiles": words.stiles,
        "top": {"width": words.top},
        "bottom": {"width": words.bottom},
        "middle": [{"width": width}] * middle_rails,
        "muntin": [] if words.muntins is None else [{"count": words.muntins, "width": width}],
        "mount": None if words.overlay is None else "overlay",
        "over": words.overlay,
        "pair": words.pair,
        "rebate": words.rebate,
        **gaps,
        "horns": words.horns,
        "tenon": {"through": True, "wedges": {}} if words.through else None,
        "hinges_on": words.hinges_on,
        "hinges": None if words.hinge is None else {
            "length": words.hinge, "count": words.hinges,
        },
        "lock": None if words.lock is None else {
            "length": words.lock, "above": words.lock_above,
        },
        "sawn": words.sawn,
        "panel": None if words.glass is not None else words.panel.values(),
        "glass": None if words.glass is None else {
            "rabbet_depth": words.glass, "lip": words.panel.lip,
        },
    }


def _refuse_mixed(words: DoorWords) -> None:
    pairs = (
        (words.glass is not None and words.panel.thickness is not None, "--glass",
         "a panel and glass are given", "keep --panel or --glass"),
        (words.glass is None and words.panel.thickness is None, "--panel",
         "what the door holds is missing", "give the panel's thickness, or --glass"),
        (words.hinges is not None and words.hinge is None, "--hinges",
         "how long a hinge is is missing", "give --hinge too, e.g. --hinge 2"),
        (words.lock_above is not None and words.lock is None, "--lock-above",
         "there is no lock to place", "give --lock too, or leave it out"),
        (words.overlay is not None and words.gap is not None, "--gap",
         "an overlay door has no gap round it", "keep --overlay or --gap"),
    )
    for wrong, flag, what, cure in pairs:
        if wrong:
            raise BadRequest(what, cure, Where(key=flag))


def _rows(piece: Piece, door: Door) -> list[tuple[str, str]]:
    """A door's own figures: size, diagonal, panels, hinges and lock."""
    from layout.builds.hinge import fittings

    rows = [("width", said(piece, door.width)), ("height", said(piece, door.height))]
    diagonal = next(one.diagonal for one in squares(piece) if one.name == door.name)
    rows.append(("diagonal", said(piece, diagonal)))
    rows.append((f"depth of the {door.choice.seat.kind}", said(piece, door.size.lip)))
    for one in fittings(door):
        name = "middle of the lock" if one.name == "lock" else f"top of {one.name}"
        at = one.start + one.length / 2 if one.name == "lock" else one.start
        rows.append((f"{name} from the door's top", said(piece, at)))
    return rows


# -- one panel


class OnePanelWords(NamedTuple):
    """One panel for a clear opening in a frame of this thickness: the options as typed."""

    width: str
    height: str
    frame: str | None
    panel: PanelWords
    year: YearWords


def tell_panel(words: OnePanelWords, shown: Shown) -> int:
    """Print one panel's size, its grooves, its year and checks; 1 on a stop."""
    piece = panel_piece(words, shown)
    (door,) = piece.doors
    (bay,) = door.bays
    lines = ["Cut list, finished sizes", *_cut_list(piece), "", "Groove"]
    size, choice = door.size, door.choice.seat
    lines += figure_lines((
        ("depth", said(piece, size.lip)),
        ("width", said(piece, choice.panel_thickness)),
        ("from the frame's face", said(piece, size.plane)),
    ))
    findings = tuple(
        one for one in found_in_options(check(piece), ONE_PANEL)
        if set(one.parts) <= {bay.part.id}
    )
    return answer(piece, findings, shown, lines, PANEL_SHEETS)


def panel_piece(words: OnePanelWords, shown: Shown) -> Piece:
    """The panel alone, fitted to a frame that is left out of what is told."""
    choice = asked("One panel", shown)
    unit: Unit = choice.unit
    with as_options(ONE_PANEL):
        door = read_door(table(_frame(words, unit)), unit, "", default_length("web_least", unit),
                         choice.wall_least)
        door = _around(door, unit)
        whole = work_out(choice._replace(doors=(door,), timbers=timbers(words.year)))
    (bay,) = whole.doors[0].bays
    panel = bay.part.id
    return whole._replace(
        parts=(bay.part,),
        cuts=whole.cuts_of(panel),
        marks=whole.marks_of(panel),
        sums=tuple(one for one in whole.sums if one.part == panel),
        rails=(),
        loose=(),
    )


def _frame(words: OnePanelWords, unit: Unit) -> Mapping[str, object]:
    """The keys of a door whose opening is the panel's."""
    return {
        "name": "framed",
        "space": {"width": words.width, "height": words.height},
        "gap_sides": 0, "gap_top": 0, "gap_bottom": 0,
        "thickness": words.frame or ("3/4 in" if unit == "in" else "20 mm"),
        "stiles": 1,
        "panel": words.panel.values(),
    }


def _around(door: DoorChoice, unit: Unit) -> DoorChoice:
    """The door grown so that what was its whole is now clear between stiles and rails; they are
    wide enough for any groove.
    """
    assert door.space is not None
    wide = default_length("panel_lip", unit) * 8 + 2 * door.seat.lip
    space = door.space._replace(
        width=door.space.width + 2 * wide, height=door.space.height + 2 * wide
    )
    return door._replace(
        space=space, stile=wide, top=door.top._replace(width=wide),
        bottom=door.bottom._replace(width=wide),
    )
