"""Figures beside a drawing, on leaders that keep them clear of each other."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.scene.lettering import text_width
from layout.scene.strokes import Pen
from layout.sheets.easel import NAME, NOTE, ZERO, Easel, mm


class Place(NamedTuple):
    """A distance to tell in mm, the spot where its line ends, and a word for it if it needs one.

    Beside a drawing the leader starts at the drawing's edge, not at the line's end: a stopped
    line must not look longer than it is.
    """

    value: Fraction
    x: Fraction
    y: Fraction
    word: str = ""


def figures_beside(board: Easel, places: list[Place], x: Fraction) -> Fraction:
    """Distances at the right of a drawing, from x on; returns how far to the right they reach."""
    reach = x
    ordered = sorted(places, key=lambda place: place.y)
    pitch = mm(11)
    wanted = [place.y - pitch / 2 for place in ordered]
    heights = [low + pitch / 2 for low in spread(wanted, [pitch] * len(wanted))]
    for place, y in zip(ordered, heights, strict=True):
        board.line((x, place.y), (x + mm(5), place.y), Pen.THIN)
        board.line((x + mm(5), place.y), (x + mm(10), y), Pen.THIN)
        width = board.figure((x + mm(12), y - NAME / 2), place.value, NAME, bold=True)
        reach = max(reach, x + mm(13) + width)
        if place.word:
            board.text((x + mm(14) + width, y - NOTE / 2), place.word, NOTE)
            reach = max(reach, x + mm(15) + width + text_width(place.word, NOTE))
    return reach


def figures_below(board: Easel, places: list[Place]) -> Fraction:
    """Distances below a drawing, each under the end of its line; returns how far to the right
    they reach.
    """
    return _row(board, places, -1, mm(15))


def figures_above(board: Easel, places: list[Place]) -> Fraction:
    """Distances above a drawing, each over the end of its line; returns how far to the right
    they reach.
    """
    return _row(board, places, +1, mm(10))


def _row(board: Easel, places: list[Place], way: int, foot: Fraction) -> Fraction:
    """Figures in a row, up (+1) or down (-1) from their lines' ends, on leaders."""
    ordered = sorted(places, key=lambda place: place.x)
    widest = max((board.figure_width(one.value, NAME, True) for one in ordered), default=ZERO)
    pitch = widest + mm(2)
    wanted = [place.x - pitch / 2 for place in ordered]
    columns = [low + pitch / 2 for low in spread(wanted, [pitch] * len(wanted))]
    for place, x in zip(ordered, columns, strict=True):
        board.line((place.x, place.y), (place.x, place.y + way * mm(3)), Pen.THIN)
        board.line((place.x, place.y + way * mm(3)), (x, place.y + way * mm(7)), Pen.THIN)
        board.figure((x, place.y + way * foot), place.value, NAME, "middle", bold=True)
    return max((x + pitch / 2 for x in columns), default=ZERO)


def spread(
    wanted: list[Fraction], widths: list[Fraction], gap: Fraction = ZERO
) -> list[Fraction]:
    """Low edges as near as they can be to where they are wanted, in order, not overlapping.

    Labels that would overlap are pushed apart together, about the middle of where they want to
    be, so that none wanders far from its line.
    """
    blocks: list[tuple[Fraction, list[int]]] = []
    for index, want in enumerate(wanted):
        blocks.append((want, [index]))
        while len(blocks) > 1:
            (left, before), (right, after) = blocks[-2], blocks[-1]
            reach = sum((widths[i] + gap for i in before), ZERO)
            if left + reach <= right:
                break
            members = before + after
            offset = ZERO
            total = ZERO
            for member in members:
                total += wanted[member] - offset
                offset += widths[member] + gap
            blocks[-2:] = [(total / len(members), members)]
    lefts = [ZERO] * len(wanted)
    for left, members in blocks:
        for member in members:
            lefts[member] = left
            left += widths[member] + gap
    return lefts
