"""The marking order in words: the same for terminal and paper, figures still exact."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import listed
from layout.mark import Mark
from layout.measure import show
from layout.part import FACE_AXES
from layout.piece import Piece
from layout.settings import Setting
from layout.sheets.groups import SURFACES, told
from layout.sheets.struck import struck
from layout.stock.marking_ends import is_horn, left_at_ends
from layout.stock.marking_step import ENDS, Kind, Line, Step, hands_mirror, taken_at

REFERENCES = "Reference surfaces"
ACROSS = "Lines across, set by set"
ALONG = "Stops and lines along"
GAUGES = "Gauge settings"
MORTISES = "Ends of mortises"
BY_HAND = "Dividers and bevel"
HOLES = "Holes"
WASTE = "Waste"
_PHASES: dict[Kind, str] = {
    "mark reference surfaces": REFERENCES, "end lines": ACROSS, "lay together": ACROSS,
    "tick": ACROSS, "pencil across": ACROSS, "square across": ACROSS, "carry round": ACROSS,
    "glue lines": ALONG, "pencil lines": ALONG, "knife lines": ALONG, "gauge setting": GAUGES,
    "knife between walls": MORTISES, "dividers": BY_HAND,
    "square across the ends": BY_HAND, "bevel lines": BY_HAND, "square down": BY_HAND,
    "pins from tails": BY_HAND, "tails from pins": BY_HAND, "holes": HOLES,
    "crossings": HOLES, "prick through the caps": HOLES,
    "waste crosses": WASTE,
}
# What is said once, under the heading of a phase.
PHASE_NOTES = {
    REFERENCES: (
        "Face mark on the face side, caret on the face edge, A and B on the ends.",
        "Pairs as they will stand, the maker's triangle across them.",
    ),
    ACROSS: (
        "Tick with the part's stick, or with these figures: one tick serves all that lie together, "
        "the square over all of them.",
        "The ends of mortises, and where a groove stops, in pencil: they are knifed when their "
        "walls are gauged.",
        "Carry round each part by itself, the square on its face side and face edge.",
    ),
    GAUGES: ("Every stand of a gauge once; the numbers are those of the cards.",),
    MORTISES: ("On the pencil lines, from wall to wall and no further.",),
    BY_HAND: ("The bevel is set from its card or template.",),
}
ZERO = Fraction(0)
AT = "at"
EVERY_TICK = "at every tick"
HANDS = "left and right hand lie mirrored"
MIRRORED = "they mirror each other, and lie so"
# Where hands lie together it is said when they are laid so, not again at every line.
_SAYS_HANDS: tuple[Kind, ...] = (
    "mark reference surfaces", "lay together", "square across the ends", "prick from the master",
)
_TAIL = re.compile(r"(?:near|far) side of (tail [0-9]+)")
_SLIDE = re.compile(r"^tail side, (?:face|back)$")
_SIDE = re.compile(r"^(?:near|far) side of")
_NUMBERED = re.compile(r" [0-9]+\b")


class Row(NamedTuple):
    """A line of a step: what it is, and its figures in mm, from the reference surface on."""

    label: str
    figures: tuple[Fraction, ...] = ()


class Told(NamedTuple):
    """A step as it is read: its heading, what is done, to which parts, with which figures.

    `phase` is the heading that it stands under. `figures` are what a tool is set to: a gauge's
    stand, a step of the dividers. `head` says what the figures of the rows are measured from.
    """

    number: int
    phase: str
    title: str
    who: str
    figures: tuple[Fraction, ...] = ()
    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    head: str = ""


def told_steps(piece: Piece, steps: tuple[Step, ...]) -> tuple[Told, ...]:
    """Every step in words."""
    found: list[Told] = []
    ticked: dict[tuple[object, ...], tuple[Fraction, ...]] = {}
    ends: Step | None = None
    phase = REFERENCES
    for step in steps:
        phase = _phase(step, phase)
        if step.kind == "tick":
            ticked[step.faces, step.sources, step.master] = figures_of(step.lines)
        known = ticked.get((step.faces, step.sources, step.master))
        told_ = _WORDS[step.kind](piece, step)
        if step.kind in ("pencil across", "square across") and known == figures_of(step.lines):
            told_ = told_._replace(rows=(Row(EVERY_TICK),))
        elif ends is not None and _goes_on(ends, step):
            told_ = told_._replace(rows=(), head="")
        if step.kind == "square across the ends":
            ends = step
        found.append(told_._replace(number=step.number, phase=phase))
    return tuple(found)


def figures_of(lines: tuple[Line, ...]) -> tuple[Fraction, ...]:
    """The figures of lines in their order, each once."""
    return tuple(dict.fromkeys(line.at for line in lines))


def _phase(step: Step, before: str) -> str:
    if step.kind == "prick from the master":
        return before
    if step.kind == "tapers":
        return ALONG if set(step.sources) & set(ENDS) else BY_HAND
    return _PHASES[step.kind]


def _goes_on(ends: Step, step: Step) -> bool:
    """True where the bevel goes on down the sides from lines that were squared across the ends."""
    known = set(step.lines) <= set(ends.lines) and ends.parts == step.parts
    return step.kind == "bevel lines" and known


def _said(piece: Piece, step: Step, title: str, rows: tuple[Row, ...] = (), *notes: str) -> Told:
    if step.mirrored and step.kind in _SAYS_HANDS:
        notes = (*notes, _hands(piece, step))
    return Told(0, "", title, _who(piece, step), (), rows, notes)


def _who(piece: Piece, step: Step) -> str:
    """Which parts these are, as cards say it; their hands where it matters how they lie."""
    parts = [piece.part(one) for one in step.parts]
    return told(piece, parts, hands=step.mirrored and step.kind in _SAYS_HANDS)


def _hands(piece: Piece, step: Step) -> str:
    parts = [piece.part(one) for one in (*step.parts, *([step.master] if step.master else []))]
    if step.kind == "mark reference surfaces":
        return "left and right hand mirror each other"
    return HANDS if hands_mirror(parts) else MIRRORED


def _figured(piece: Piece, step: Step, title: str, *notes: str) -> Told:
    """A step with a row for every figure, and where they are measured from."""
    return _said(piece, step, title, _rows(step), *notes)._replace(head=_from(step))


def _reference(piece: Piece, step: Step) -> Told:
    return _said(piece, step, "Mark the reference surfaces")


def _end_lines(piece: Piece, step: Step) -> Told:
    word = "horns" if is_horn(piece, step.parts[0]) else "what is left proud"
    return _said(
        piece, step, "Square the lines that are end A and end B", _rows(step),
        "with the knife, and carry them round: all is measured from these lines, not from the "
        "wood's ends", f"{word} beyond them until it is glued up",
    )


def _lay(piece: Piece, step: Step) -> Told:
    level = "tops" if all(piece.part(one).kind == "leg" for one in step.parts) else "ends A"
    if set(step.parts) & set(left_at_ends(piece)):
        level = "lines of end A"
    return _said(piece, step, f"Lay together, {level} level", (),
                 f"up: {', then '.join(SURFACES[face] for face in step.faces)}")


def _tick(piece: Piece, step: Step) -> Told:
    return _figured(piece, step, f"Tick the {_faces(step)}")


def _across(piece: Piece, step: Step) -> Told:
    far = (_from(step),) if "end B" in step.sources else ()
    return _said(piece, step, f"{_tool(step)} across the {_faces(step)}", _in_a_row(step), *far)


def _carry(piece: Piece, step: Step) -> Told:
    to = Row(f"to the {_faces(step)}, {_from(step)}")
    return _said(piece, step, f"Carry round with the {step.tool}", (to, *_in_a_row(step)))


def _lines(piece: Piece, step: Step) -> Told:
    return _figured(piece, step, f"{_tool(step)} on {_the_faces(step)}")


def _between(piece: Piece, step: Step) -> Told:
    return _said(piece, step, f"Knife between the walls on the {_faces(step)}", _in_a_row(step),
                 _from(step))


def _glued(piece: Piece, step: Step) -> Told:
    told_ = _figured(piece, step, "See where the glue joints lie", "no line is drawn")
    return told_._replace(head=f"{_from(step)}, on {_the_faces(step)}")


def _tapers(piece: Piece, step: Step) -> Told:
    """The figures of all its lines are taken at the same two places."""
    told_ = _figured(piece, step, f"Knife from tick to tick on {_the_faces(step)}",
                     "a taper: a figure for each end of the line")
    return told_._replace(head=f"{_from(step)}: {_taken(piece, step.marks[0])}")


def _taken(piece: Piece, mark: Mark) -> str:
    """Where across the surface a taper's two figures are taken."""
    part = piece.part(mark.part)
    on_edge = FACE_AXES[mark.face] == ("L", "T")
    size, near, far = (
        (part.thickness, "face side", "back side") if on_edge
        else (part.width, "face edge", "far edge")
    )
    at = taken_at(mark)
    if set(at) <= {ZERO, size}:
        return " | ".join(f"at the {far if one else near}" for one in at)
    return f"{' | '.join(show(one, piece.rule).text for one in at)} from the {near}"


def _gauge(piece: Piece, step: Step) -> Told:
    assert step.setting is not None
    entries = tuple(Row(one.words(piece)) for one in struck(piece, step.setting))
    one = step.lines[0]
    figures = (one.at,) if one.second is None else (one.at, one.second)
    return Told(0, "", f"Setting {step.setting.number}", _gauge_name(piece, step.setting), figures,
                entries)


# A marking gauge's beam is short: what lies farther in is struck with a panel gauge (common
# practice, no source).
_BEAM = {"mm": Fraction(150), "in": 6 * Fraction(127, 5)}


def _gauge_name(piece: Piece, setting: Setting) -> str:
    """The tool that reaches so far."""
    if setting.tool == "marking gauge" and setting.distance > _BEAM[piece.rule.unit]:
        return "panel gauge"
    return setting.tool


def _dividers(piece: Piece, step: Step) -> Told:
    found = _said(piece, step, "Dividers", (),
                  "a tail and a pin: step along the end from the first line; the knife comes next")
    return found._replace(figures=(step.lines[0].at,))


def _ends(piece: Piece, step: Step) -> Told:
    if not step.lines:
        return _said(piece, step, "Square across the ends", (),
                     "with the knife, from the lines just scribed")
    together = ("lay them together, face edges level",) if len(step.parts) > 1 else ()
    ends = "both ends" if len(step.faces) == 2 else _faces(step)
    return _figured(piece, step, f"Knife across {ends}", *together)


def _bevel(piece: Piece, step: Step) -> Told:
    tails = all(_TAIL.fullmatch(role) for line in step.lines for role in line.roles)
    return _figured(piece, step, f"Bevel on {_the_faces(step)}",
                    *((_works(step),) if tails else ()))


def _down(piece: Piece, step: Step) -> Told:
    """Its figures are those on the end, so they are not told again."""
    return _said(piece, step, "Square down to the baseline", (),
                 f"on {_the_faces(step)}, with the knife, from the lines on the end")


def _scribed(piece: Piece, step: Step) -> Told:
    one, other = ("pins", "tails") if step.kind == "pins from tails" else ("tails", "pins")
    rows: dict[tuple[str, str], list[str]] = {}
    for met in step.corners:
        rows.setdefault((met.takes, met.lends), []).append(met.letter)
    entries = tuple(
        Row(f"{listed(letters)}: {piece.part(takes).name} from {piece.part(lends).name}")
        for (takes, lends), letters in rows.items()
    )
    return _said(piece, step, f"Scribe {one} from {other}", entries,
                 f"the waste between the {other} crossed and cut first")


def _holes(piece: Piece, step: Step) -> Told:
    told_ = _figured(piece, step, f"Prick holes on {_the_faces(step)}")
    return told_._replace(head=f"{_from(step)}, then {_beside(step)}")


def _beside(step: Step) -> str:
    """Where a hole's second figure is from."""
    return f"from {'the face edge' if FACE_AXES[step.faces[0]][1] == 'W' else 'the face side'}"


def _crossings(piece: Piece, step: Step) -> Told:
    """The lines are there: what is told is how many holes lie on each gauge line."""
    rows: dict[tuple[Fraction, str], int] = {}
    for mark in step.marks:
        assert mark.point is not None  # a hole
        key = (mark.point[1], _NUMBERED.sub("", mark.role, count=1))
        rows[key] = rows.get(key, 0) + 1
    told_ = _said(
        piece, step, f"Prick where the lines cross on {_the_faces(step)}",
        tuple(Row(f"{many} × {role}", (at,)) for (at, role), many in sorted(rows.items())),
    )
    return told_._replace(head=f"gauge line, {_beside(step)}")


def _through_caps(piece: Piece, step: Step) -> Told:
    return _said(piece, step, "Prick the tongues through the end caps", (),
                 "the caps bored and pushed home; how long the slots are is told in the sums")


def _prick(piece: Piece, step: Step) -> Told:
    others = "the other" if len(step.parts) == 1 else "the others"
    name = piece.part(step.master).name
    return _said(piece, step, f"Prick {others} from {name}", (), _works(step))


def _crosses(piece: Piece, step: Step) -> Told:
    return _said(piece, step, "Cross the waste of every cut", (),
                 "then compare the pairs before you saw")


_WORDS: dict[Kind, Callable[[Piece, Step], Told]] = {
    "mark reference surfaces": _reference, "end lines": _end_lines, "lay together": _lay,
    "tick": _tick, "pencil across": _across, "square across": _across, "carry round": _carry,
    "glue lines": _glued, "pencil lines": _lines, "knife lines": _lines, "tapers": _tapers,
    "gauge setting": _gauge, "knife between walls": _between, "dividers": _dividers,
    "square across the ends": _ends, "bevel lines": _bevel, "square down": _down,
    "pins from tails": _scribed, "tails from pins": _scribed, "holes": _holes,
    "crossings": _crossings, "prick through the caps": _through_caps,
    "prick from the master": _prick, "waste crosses": _crosses,
}


def _faces(step: Step) -> str:
    return listed([SURFACES[face] for face in step.faces])


def _the_faces(step: Step) -> str:
    return listed([face if face in ENDS else f"the {SURFACES[face]}" for face in step.faces])


def _tool(step: Step) -> str:
    return "Pencil" if step.tool == "pencil" else "Knife"


def _from(step: Step) -> str:
    """The reference surface, as cards say it."""
    return f"from {listed([one if one in ENDS else f'the {one}' for one in step.sources])}"


def _rows(step: Step) -> tuple[Row, ...]:
    """A row for every figure; a tail has one with both its sides."""
    rows: dict[str, Row] = {}
    for line in step.lines:
        figures = (line.at,) if line.second is None else (line.at, line.second)
        label = listed(list(dict.fromkeys(map(_role, line.roles))))
        tail = _TAIL.fullmatch(label)
        if tail and len(figures) == 1:
            before = rows.get(tail[1], Row(tail[1]))
            rows[tail[1]] = before._replace(figures=(*before.figures, line.at))
        else:
            rows[f"{label} {line}"] = Row(label, figures)
    return tuple(rows.values())


def _in_a_row(step: Step) -> tuple[Row, ...]:
    """The figures alone: what they are was said where they were ticked."""
    return (Row(AT, figures_of(step.lines)),)


def _role(role: str) -> str:
    """As sticks say it."""
    return "back shoulder" if role == "long shoulder" else role


def _works(step: Step) -> str:
    """What the lines are for, each once."""
    roles = [role for line in step.lines for role in line.roles]
    return listed(list(dict.fromkeys(map(_plain, roles))))


def _plain(role: str) -> str:
    """Without its number, which one entry for all of them does not need."""
    if _TAIL.fullmatch(role):
        return "sides of the tails"
    return _NUMBERED.sub("", _SIDE.sub("sides of", _SLIDE.sub("sides of the tail", _role(role))))
