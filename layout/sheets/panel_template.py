"""The edge of a solid panel at full size, in the groove that it stands in: to hold against the
panel's end, and to see what the year does to it.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from layout.builds.panel_fit import Fit, FitChoice
from layout.checks.words import said
from layout.part import Part
from layout.piece import Piece
from layout.scene.lettering import wrap
from layout.scene.strokes import Pen, Sheet
from layout.sheets.beside import Place, figures_below, figures_beside
from layout.sheets.easel import CAUTION, NOTE, ZERO, Easel, mm
from layout.sheets.groups import base_name

BEYOND = mm(22)  # of the panel's field, or of its face
FRAME = mm(14)  # of the frame beyond the groove's bottom


class _Edge(NamedTuple):
    """A panel's edge in its groove, in mm: the panel, what it is, how it fits across the grain, the
    opening there, how thick the frame is and how far behind its face the groove begins.
    """

    part: Part
    make: FitChoice
    fit: Fit
    clear: Fraction
    frame: Fraction
    plane: Fraction


def panel_edges(piece: Piece) -> tuple[Sheet, ...]:
    """A drawing for every kind of worked or solid edge."""
    groups: dict[object, list[_Edge]] = {}
    for edge in _edges(piece):
        if edge.make.solid is None and edge.make.profile.kind == "plain":
            continue
        # what is solid moves by its size
        clear = edge.clear if edge.make.solid is not None else None
        key = (edge.make, edge.fit.lip, edge.frame, edge.plane, clear)
        groups.setdefault(key, []).append(edge)
    return tuple(_sheet(piece, group) for group in groups.values())


def _edges(piece: Piece) -> list[_Edge]:
    found = []
    for panel in piece.panels:
        make, opening, rail = panel.choice.make, panel.opening, panel.upper
        clear = opening.width if make.grain == "up" else opening.height
        plane = panel.size.plane - rail.choice.set_in
        found.append(_Edge(panel.part, make, panel.fit, clear, rail.part.thickness, plane))
    for door in piece.doors:
        for bay in door.bays:
            make = door.choice.panel
            clear = bay.width if make.grain == "up" else bay.height
            found.append(_Edge(bay.part, make, bay.fit, clear, door.choice.thickness,
                               door.size.plane))
    return found


def _sheet(piece: Piece, group: list[_Edge]) -> Sheet:
    edge = group[0]
    board = Easel(piece.rule)
    make, lip = edge.make, edge.fit.lip
    across = edge.fit.wide if make.grain == "up" else edge.fit.high
    floors = edge.clear + 2 * lip
    now, dry, wet = ((floors - size) / 2 for size in (across.size, across.narrowest, across.widest))
    profile = make.profile
    long = (profile.border if profile.kind == "raised" else lip) + BEYOND
    width = max(mm(16) + FRAME + now + long + mm(44), mm(120))
    lines = [line for words in _words(piece, edge, (now, dry, wet))
             for line in wrap(words, NOTE, width - mm(4), False)]
    front = make.profile.front(make.thickness)
    proud = max(ZERO, front - edge.plane)
    foot = mm(26) + mm(4) * len(lines)
    left = mm(16) + FRAME
    low = foot + max(ZERO, make.thickness - front - (edge.frame - edge.plane))
    head = low + edge.frame  # the frame's face
    _frame(board, edge, (left, head))
    at = left + now
    top = head - edge.plane + front
    outline = [(at + w, top - t) for w, t in _outline(make, lip, long)]
    board.polygon(outline, None, "white")
    for a, b in pairwise(outline):
        board.line(a, b, Pen.WIDE)
    board.line(outline[-1], outline[0], Pen.HIDDEN)
    tongue = (top - front, top - front - make.profile.tongue)
    for place in dict.fromkeys((dry, wet)):
        if place != now:
            board.line((left + place, tongue[0]), (left + place, tongue[1]), Pen.HIDDEN)
    _figures(board, make, lip, (at, top), long, foot)
    board.text((left, max(head, top) + mm(8)), "face side", NOTE)
    y = mm(2)
    for line in [*reversed(wrap(CAUTION, NOTE, width - mm(4), False)), *reversed(lines)]:
        board.text((mm(2), y), line, NOTE)
        y += mm(4)
    parts = list(dict.fromkeys(one.part for one in group))
    names = ", ".join(part.name for part in parts)
    return Sheet(
        f"Panel edge: {base_name(piece, parts)}",
        f"{names}. Hold against an end, face side up; the frame's groove is at the left",
        board.scene(width, head + proud + mm(14)),
        "full size",
    )


def _words(
    piece: Piece, edge: _Edge, free: tuple[Fraction, Fraction, Fraction]
) -> list[str]:
    """What is free at the groove's bottom, and what the profile is set by."""
    now, dry, wet = (said(piece, one) for one in free)
    profile, words = edge.make.profile, []
    if edge.make.solid is not None:
        words.append(f"free at the bottom of each groove: {now} today, {dry} in the driest season, "
                     f"{wet} in the dampest (dashed)")
    if profile.kind == "raised":
        fall = profile.front(edge.make.thickness) - profile.step
        run = profile.border - edge.fit.lip
        words.append(f"the bevel falls {said(piece, fall)} in {said(piece, run)}; the step at the "
                     f"field is {said(piece, profile.step)}")
    return words


def _frame(board: Easel, edge: _Edge, at: tuple[Fraction, Fraction]) -> None:
    """The frame's section round the groove; `at` is the groove's bottom at the face's height."""
    x, head = at
    far, back = x - FRAME, head - edge.frame
    sight = x + edge.fit.lip
    near = head - edge.plane
    deep = near - edge.make.profile.tongue
    board.line((far, head), (far, back), Pen.HIDDEN)
    for a, b in (
        ((far, head), (sight, head)), ((sight, head), (sight, near)), ((sight, near), (x, near)),
        ((x, near), (x, deep)), ((x, deep), (sight, deep)), ((sight, deep), (sight, back)),
        ((sight, back), (far, back)),
    ):
        board.line(a, b, Pen.NARROW)


def _outline(
    make: FitChoice, lip: Fraction, long: Fraction
) -> list[tuple[Fraction, Fraction]]:
    """The panel's section from its broken end along the face to the edge and back: from the edge,
    and from the face side.
    """
    profile, thick = make.profile, make.thickness
    front = profile.front(thick)
    low = front + profile.tongue
    top = {
        "plain": [(ZERO, ZERO)],
        "tongue": [(lip, ZERO), (lip, front), (ZERO, front)],
        "raised": [(profile.border, ZERO), (profile.border, profile.step), (lip, front),
                   (ZERO, front)],
    }[profile.kind]
    foot = [(ZERO, low), (lip, low), (lip, thick)] if profile.back else [(ZERO, low)]
    points = [(long, ZERO), *top, *foot, (long, thick)]
    return list(dict.fromkeys(points))


def _figures(
    board: Easel, make: FitChoice, lip: Fraction, at: tuple[Fraction, Fraction], long: Fraction,
    foot: Fraction,
) -> None:
    """Depths from the face side at the right, distances from the panel's edge below."""
    profile = make.profile
    front = profile.front(make.thickness)
    depths = {profile.step if profile.kind == "raised" else ZERO, front, front + profile.tongue}
    x, top = at
    beside = [Place(value, x + long, top - value) for value in sorted(depths)
              if 0 < value < make.thickness]
    figures_beside(board, beside, x + long)
    marks = {lip, profile.border} if profile.kind == "raised" else {lip}
    if profile.kind != "plain":
        figures_below(board, [Place(value, x + value, foot) for value in sorted(marks)])
