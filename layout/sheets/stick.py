"""Sticks: full-size strips with every position along the length of a part."""

from __future__ import annotations

import itertools
from fractions import Fraction
from typing import NamedTuple

from layout.checks.words import listed
from layout.joints.rail_end import is_mortise
from layout.mark import Mark
from layout.measure import show
from layout.part import FACES, Face, Part
from layout.piece import Piece
from layout.scene.lettering import fit, text_width
from layout.scene.strokes import Pen, Sheet
from layout.sheets.beside import spread
from layout.sheets.easel import LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.groups import SURFACES, Group, base_name, like_parts, mark_ids, told
from layout.stock.marking_ends import end_note

HEIGHT = mm(36)
MARGIN = mm(14)  # paper left beyond each end of the part
TICK = mm(5)  # foot of a position's line that no label covers
LABEL_FOOT = mm(6)
LABEL_HEAD = mm(35)
LABEL_ROOM = LABEL_HEAD - LABEL_FOOT - mm(1)
CLEAR = mm("0.8")  # between a label and its neighbour or a line
ROW = mm("4.1")  # from one role of a label to the next


class Position(NamedTuple):
    """A place along a part: how far from end A in mm, what it is, and the mark that it shows."""

    at: Fraction
    roles: tuple[str, ...]
    mark: str


def sticks(piece: Piece) -> tuple[Sheet, ...]:
    """A strip for every distinct part, one for each face where its faces differ."""
    ids = mark_ids(piece)
    sheets = []
    for group in like_parts(piece):
        for faces, positions, zones in _strips(piece, group, ids):
            sheets.append(_sheet(piece, group, faces, positions, zones))
    return tuple(sheets)


def _strips(
    piece: Piece, group: Group, ids: dict[Mark, str]
) -> list[tuple[str, list[Position], list[tuple[Fraction, Fraction]]]]:
    """For each strip: which faces it serves, its positions, and the waste between lines."""
    part = group.first
    marks = [mark for mark in piece.marks_of(part.id) if _runs_across(mark)]
    if not marks:
        return [("length and width", _both_ways(part), [])]
    if part.kind != "leg":
        # one strip serves all round; what lies on one surface only says which. Where another
        # rail's edges come to, its mortise tells.
        marks = [mark for mark in marks if mark.tool != "pencil" or _own(mark, part)]
        told = [mark if _own(mark, part) else _on_its_face(mark) for mark in marks]
        names = {new: ids[old] for new, old in zip(told, marks, strict=True)}
        zones = [
            cut.shape.reach("L") for cut in piece.cuts_of(part.id) if is_mortise(cut.role)
        ]
        return [("all round", _positions(told, names), zones)]
    by_face: dict[Face, tuple[list[Position], list[tuple[Fraction, Fraction]]]] = {}
    for face in FACES:
        here = [mark for mark in marks if mark.face == face]
        if here:
            zones = [
                cut.shape.reach("L")
                for cut in piece.cuts_of(part.id)
                if is_mortise(cut.role) and any(mark.joint == cut.joint for mark in here)
            ]
            by_face[face] = (_positions(here, ids), zones)
    merged: list[tuple[str, list[Position], list[tuple[Fraction, Fraction]]]] = []
    for face, (positions, zones) in by_face.items():
        seen = [(p.at, p.roles) for p in positions]
        twin = next((m for m in merged if [(p.at, p.roles) for p in m[1]] == seen), None)
        if twin is None:
            merged.append((SURFACES[face], positions, zones))
        else:
            both = f"{twin[0]} and {SURFACES[face]}"
            merged[merged.index(twin)] = (both, twin[1], twin[2])
    return merged


def _own(mark: Mark, part: Part) -> bool:
    """True where a mark's joint is named after the part, or after the box it is a part of."""
    return mark.joint.startswith(part.id) or part.id.startswith(mark.joint.split(".")[0] + "-")


def _on_its_face(mark: Mark) -> Mark:
    """A mark of a joint that this part bears, its surface named with it."""
    return mark._replace(role=f"{mark.role}, {mark.face}")


def _both_ways(part: Part) -> list[Position]:
    """A part without joints of its own has its length and its width on one stick."""
    if part.length == part.width:
        return [Position(part.length, ("length and width",), "")]
    sides = (Position(part.length, ("length",), ""), Position(part.width, ("width",), ""))
    return sorted(sides, key=lambda side: side.at)


def _runs_across(mark: Mark) -> bool:
    """True for knife and pencil lines square across the length."""
    return (
        mark.line is not None
        and mark.source in ("end A", "end B")
        and mark.line[0][0] == mark.line[1][0]
        and mark.face not in ("end A", "end B")
    )


def _along(mark: Mark) -> Fraction:
    """How far from end A a line across the part lies: a baseline is gauged from either end."""
    assert mark.line is not None
    return mark.line[0][0]


def _positions(marks: list[Mark], ids: dict[Mark, str]) -> list[Position]:
    found: dict[Fraction, tuple[list[str], str]] = {}
    for mark in sorted(marks, key=_along):
        roles, _ = found.setdefault(_along(mark), ([], ids[mark]))
        # on a rail's stick, which serves all round, the long shoulder is the back's alone
        role = "back shoulder" if mark.role == "long shoulder" else mark.role
        if role not in roles:
            roles.append(role)
    return [Position(at, tuple(roles), name) for at, (roles, name) in found.items()]


def _sheet(
    piece: Piece,
    group: Group,
    faces: str,
    positions: list[Position],
    zones: list[tuple[Fraction, Fraction]],
) -> Sheet:
    part = group.first
    board = Easel(piece.rule)
    jointed = any(position.mark for position in positions)
    everything = [*positions, Position(part.length, (), "")] if jointed else positions
    start, stop = MARGIN, MARGIN + everything[-1].at

    for low, high in zones:
        board.hatch((start + low, ZERO), (start + high, TICK))
    for position in everything[:-1]:
        x = start + position.at
        pencil = all(role.startswith("rail ") for role in position.roles)
        board.line((x, ZERO), (x, HEIGHT), Pen.HIDDEN if pencil else Pen.WIDE, position.mark)
    board.line((start, ZERO), (start, HEIGHT), Pen.WIDE)
    board.line((stop, ZERO), (stop, HEIGHT), Pen.WIDE)
    board.line((start, ZERO), (stop, ZERO), Pen.HEAVY)
    board.line((start, HEIGHT), (stop, HEIGHT), Pen.NARROW)

    if piece.choice.dual:
        everything = [
            place._replace(roles=(*place.roles, board.other_unit(place.at)))
            for place in everything
        ]
    taken = _labels(board, start, everything)
    below = f"{faces}; {told(piece, group.parts)}"
    lines = [(start + place.at, start + place.at) for place in everything]
    title = _title(piece, group)
    note = end_note(piece, part.id)
    named = _names(board, title, (below, note), start, stop, [*taken, *lines])
    board.text((start - mm(3), mm(4)), "end A", NAME, bold=True, turn=90)
    if jointed:
        board.text((stop + mm(3) + NAME, mm(4)), "end B", NAME, bold=True, turn=90)
    spans = [
        (min(low, start + position.at) - mm(2), max(high, start + position.at) + mm(2))
        for (low, high), position in zip(taken, everything, strict=True)
    ]
    keep = tuple(sorted([*spans, *named]))
    return Sheet(
        f"Stick: {title}",
        f"{faces}; {told(piece, group.parts)}; from end A along the heavy edge"
        + (f": {note}" if note else ""),
        board.scene(stop + MARGIN, HEIGHT),
        "strip",
        keep_whole=keep,
    )


def _title(piece: Piece, group: Group) -> str:
    """What the stick is of: the name in the maker's list; where other sticks have the same one,
    the parts themselves.
    """
    alike = [part for part in piece.parts if base_name(piece, [part]) == group.base]
    if len(alike) == len(group.parts) or len(group.parts) > 2:
        return group.base
    return listed([part.name for part in group.parts])


def _labels(
    board: Easel, start: Fraction, positions: list[Position]
) -> list[tuple[Fraction, Fraction]]:
    """A label beside every line, moved aside where lines stand close; returns what they cover."""
    widths = [_label_width(board, position) for position in positions]
    lefts = _places([start + position.at for position in positions], widths, start)
    covered = []
    for position, left, width in zip(positions, lefts, widths, strict=True):
        x = start + position.at
        right = left + width
        if not left - mm(2) <= x <= left and not right <= x <= right + mm(2):
            middle = left + width / 2
            board.line((x, TICK), (middle, LABEL_FOOT + mm(1)), Pen.THIN)
        figure_space = _figure_space(board, position)
        baseline = left + figure_space - (figure_space - LABEL) / 2
        board.figure((baseline, LABEL_FOOT + mm(1)), position.at, LABEL, bold=True, turn=90)
        for row, role in enumerate(position.roles, start=1):
            words = fit(_short(role), NOTE, LABEL_ROOM, False)
            at = (left + figure_space + ROW * row - mm("0.6"), LABEL_FOOT + mm(1))
            board.text(at, words, NOTE, turn=90)
        covered.append((left, right))
    return covered


def _places(lines: list[Fraction], widths: list[Fraction], start: Fraction) -> list[Fraction]:
    """Left edges of the labels, so that none stands on a line where that can be.

    The labels go in their order into the gaps between the lines, each behind its line or before
    it, or else in another gap, on a leader; of all ways the one with the least of that. The last
    line is the part's end: nothing stands behind it. Where there is no way, the labels stand as
    near to their lines as they can.
    """
    ends = [start, *lines]
    many = _shared_out(lines, widths, ends)
    if many is None:
        middles = [line - width / 2 for line, width in zip(lines, widths, strict=True)]
        return spread(middles, widths, CLEAR)
    lefts: list[Fraction] = []
    for gap, count in enumerate(many):
        first = len(lefts)
        here = range(first, first + count)
        x = ends[gap] + CLEAR
        for index in here:
            if index == max(first, gap):  # from here on they belong to lines farther on
                rest = sum((widths[one] + CLEAR for one in here if one >= index), ZERO)
                x = max(x, ends[gap + 1] - rest)
            lefts.append(x)
            x += widths[index] + CLEAR
    return lefts


def _shared_out(
    lines: list[Fraction], widths: list[Fraction], ends: list[Fraction]
) -> list[int] | None:
    """How many labels stand in each gap; gap n lies before line n. None where there is no room.

    Gap by gap, the best way to have placed each number of labels so far.
    """
    total = len(lines)
    ways: dict[int, tuple[int, list[int]]] = {0: (0, [])}
    for gap in range(total):
        room = ends[gap + 1] - ends[gap]
        found: dict[int, tuple[int, list[int]]] = {}
        for placed, (off, before) in ways.items():
            for count in range(total - placed + 1):
                here = range(placed, placed + count)
                both = placed < gap < placed + count
                need = sum((widths[one] + CLEAR for one in here), CLEAR if both else ZERO)
                if need > room:
                    break
                way = (off + sum(_off(one, gap) for one in here), [*before, count])
                if way[0] < found.get(placed + count, (way[0] + 1, []))[0]:
                    found[placed + count] = way
        ways = found
    return ways[total][1] if total in ways else None


def _off(label: int, gap: int) -> int:
    """How badly a label stands in a gap: behind its line well, before it nearly so; farther off
    the worse, the more lines its leader crosses.
    """
    crossed = gap - label - 1 if gap > label else label - gap
    return 4 * crossed**2 + (0 if gap > label else 1)


def _short(role: str) -> str:
    """A role that is too long for its place, without the word that the hatching says too."""
    if text_width(role, NOTE, False) <= LABEL_ROOM:
        return role
    return role.replace("mortise ", "")


def _label_width(board: Easel, position: Position) -> Fraction:
    """A label is as wide as its figure is high, and a row of words for each role beside it."""
    return _figure_space(board, position) + ROW * len(position.roles)


def _figure_space(board: Easel, position: Position) -> Fraction:
    shown = show(position.at, board.rule)
    return LABEL * Fraction(19, 10) if shown.numerator else LABEL * Fraction(5, 4)


def _names(
    board: Easel,
    title: str,
    below: tuple[str, str],
    start: Fraction,
    stop: Fraction,
    taken: list[tuple[Fraction, Fraction]],
) -> list[tuple[Fraction, Fraction]]:
    """The part's name, and `below` it two lines of notes, in every stretch free of labels and lines
    (`taken`); returns what the names cover.
    """
    edges = sorted([(start, start), *taken, (stop, stop)])
    covered = []
    widest = max(text_width(words, NOTE) for words in below)
    need = max(text_width(title, NAME, True), widest) + mm(8)
    left = start
    for (_, reached), (right, _) in itertools.pairwise(edges):
        left = max(left, reached)
        # long stretches carry the name more than once, so that every page has it
        room = right - left
        count = int(room // mm(230)) + 1
        for turn in range(count):
            slot = left + room * turn / count
            if room / count < need:
                continue
            board.text((slot + mm(4), mm(22)), title, NAME, bold=True)
            for words, y in zip(below, (mm(16), mm(11)), strict=True):
                if words:
                    board.text((slot + mm(4), y), words, NOTE)
            covered.append((slot + mm(2), slot + need))
    return covered
