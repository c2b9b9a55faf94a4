"""The gauge card: one card a setting, with its figure, a section, and what it strikes."""

from __future__ import annotations

from fractions import Fraction

from layout.mark import Mark
from layout.piece import Piece
from layout.scene.lettering import fit, wrap
from layout.scene.lettering import text_width as text_width_of
from layout.scene.strokes import Pen, Sheet, Stroke, moved
from layout.settings import Setting, settings
from layout.sheets import end_view
from layout.sheets import section as sections
from layout.sheets.card_size import CardSize
from layout.sheets.easel import LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.hand_card import hand_cards
from layout.sheets.struck import Struck, struck

ROW = mm("4.4")
MOST_DRAWN = 2


CARD_SIZES = {
    "index": CardSize("index", mm(127), mm("76.2")),
    "A6": CardSize("A6", mm(148), mm(105)),
}

def cards(
    piece: Piece, size: CardSize, area: tuple[Fraction, Fraction], stop: bool = False
) -> tuple[Sheet, ...]:
    """Pages of cards with cut lines, as many to a page as fit its drawing area (mm).

    `stop` says on every card that a check says stop: cards are cut out and lose their page.
    """
    drawn = [
        strokes
        for setting in settings(piece.marks)
        for strokes in _card(piece, setting, len(settings(piece.marks)), size, stop)
    ]
    drawn += hand_cards(piece, size, stop)
    across = max(1, int(area[0] // size.width))
    down = max(1, int(area[1] // size.height))
    pages = []
    per_page = across * down
    for first in range(0, len(drawn), per_page):
        board = Easel(piece.rule)
        for index, strokes in enumerate(drawn[first : first + per_page]):
            row, column = divmod(index, across)
            x = column * size.width
            y = area[1] - (row + 1) * size.height
            board.put(moved(stroke, x, y) for stroke in strokes)
            board.rectangle((x, y), (x + size.width, y + size.height), Pen.HIDDEN)
        pages.append(
            Sheet(
                "Gauge card",
                "every setting once, in this order, after the knife; cut along the dashes",
                board.scene(*area),
                "page",
                scale="cards 1:1",
            )
        )
    return tuple(pages)


def _card(
    piece: Piece, setting: Setting, of: int, size: CardSize, stop: bool
) -> list[list[Stroke]]:
    """A setting's card, and further ones where it strikes more than one card can say."""
    text_width = size.width / 3
    entries = [
        (entry, wrap(entry.words(piece), NOTE, text_width - mm(10), False))
        for entry in struck(piece, setting)
    ]
    top = size.height - mm(14)
    room = int((top - mm(7)) // ROW)
    loads: list[list[tuple[Struck, list[str]]]] = [[]]
    for entry, lines in entries:
        used = sum(len(before) for _, before in loads[-1])
        # as many entries as there is room for, and for no more drawings than fit beside them
        if loads[-1] and (used + len(lines) > room or len(loads[-1]) == MOST_DRAWN):
            loads.append([])
        loads[-1].append((entry, lines))
    drawn = []
    for index, load in enumerate(loads):
        board = Easel(piece.rule)
        _heading(board, piece, setting, of, size, index)
        if stop:
            board.text((size.width - mm(5), mm(2)), "STOP: see the checks", LABEL, "right", True)
        _figures(board, setting, size, piece.choice.dual)
        _sections(board, piece, setting, size, [entry.example for entry, _ in load])
        y = top
        x = size.width - text_width
        for _, lines in load:
            board.tick_box((x, y - LABEL), LABEL)
            for line in lines:
                board.text((x + mm("5.5"), y - NOTE - mm("0.5")), line)
                y -= ROW
            y -= mm("1.5")
        drawn.append(board.strokes)
    return drawn


def _lengths(setting: Setting) -> list[Fraction]:
    """What the gauge is set to: one distance, or a mortise gauge's two."""
    return [setting.distance] + ([setting.second] if setting.second is not None else [])


def _heading(
    board: Easel, piece: Piece, setting: Setting, of: int, size: CardSize, index: int
) -> None:
    y = size.height - mm(8)
    more = ", continued" if index else ""
    board.text((mm(5), y), f"Setting {setting.number} of {of}{more}", LABEL, bold=True)
    board.text(
        (size.width - mm(5), y), piece.name, LABEL, "right", room=size.width / 2 - mm(8)
    )
    board.line((mm(5), y - mm(2)), (size.width - mm(5), y - mm(2)), Pen.NARROW)


def _figures(board: Easel, setting: Setting, size: CardSize, dual: bool) -> None:
    """The left third: the figure to set, as large as it can be read across the bench."""
    third = size.width / 4 - mm(2)
    lengths = _lengths(setting)
    height = mm(14) if len(lengths) == 1 else mm(9) if dual else mm(11)
    while height > mm(6) and max(board.figure_width(x, height, True) for x in lengths) > third:
        height -= mm(1)
    step = (size.height - (mm(30) if dual else mm(26))) / len(lengths)
    for index, length in enumerate(lengths):
        y = size.height - mm(12) - step * (index + Fraction(1, 2)) - height / 2
        board.figure((mm(6), y), length, height, bold=True)
        if dual:
            board.text((mm(6), y - height * 2 / 3 - mm(4)), board.other_unit(length))
    board.text((mm(6), mm(10)), setting.tool, LABEL, bold=True)
    unit = "inches" if board.rule.unit == "in" else "millimetres"
    board.text((mm(6), mm("5.5")), unit)


def _sections(
    board: Easel, piece: Piece, setting: Setting, size: CardSize, picks: list[Mark]
) -> None:
    """The middle third: a section for each entry, the gauge drawn as an arrow."""
    left = size.width / 4 + mm(12)
    width = size.width * 5 / 12 - mm(12)
    height = (size.height - mm(13)) / len(picks)
    for index, mark in enumerate(picks):
        part = piece.part(mark.part)
        if mark.source in ("end A", "end B"):
            end_view.draw(board, part, mark, (left + mm(4), size.height - mm(17) - height * index),
                          (width - mm(8), height - mm(10)))
            continue
        struck_from_edge = mark.source in ("face edge", "far edge")
        below = mm(4) + 4 * len(_lengths(setting)) if struck_from_edge else ZERO
        room = (width - mm(17), height - mm(8) - below)
        top = size.height - mm(11) - height * index - mm(6)
        along = sections.place_of(piece, mark)
        far = "far edge" in (mark.source, mark.face)
        reach = max(_lengths(setting)) if struck_from_edge else ZERO
        shown = sections.stretch(piece, part, along, far, reach)
        scale = sections.fitting_scale(part, shown[1] - shown[0], *room)
        drawn = sections.draw(
            board, piece, part, along, (left + mm(4), top), scale, shown=shown
        )
        _gauge(board, drawn, mark, setting)
        ratio = "1:1" if scale == 1 else f"1:{scale.denominator}"
        most = width - mm(15) - text_width_of(ratio, NOTE)
        name = f"{fit(part.kind, NOTE, most)} {ratio}"
        # a long name goes over the face mark, which stands at the section's right
        beside = drawn.right - mm(6) - left - mm(4)
        up = mm(1) if text_width_of(name, NOTE) <= beside else mm("3.7")
        board.text((left + mm(4), top + up), name)


def _gauge(board: Easel, section: sections.Section, mark: Mark, setting: Setting) -> None:
    """An arrow from the reference surface to each line that the setting strikes."""
    lengths = _lengths(setting)
    part = section.part
    if mark.source == "face side":
        x = section.right + mm(3)
        board.line((section.right, section.at[1]), (x + mm(2) + 4 * len(lengths), section.at[1]))
        for index, length in enumerate(lengths):
            foot = section.spot(section.high, length)
            board.line(section.spot(section.low, length), (x + mm(4) + 4 * index, foot[1]))
            board.arrow((x + 4 * index, section.at[1]), (x + 4 * index, foot[1]))
        return
    y = section.foot - mm(3)
    start = section.right if mark.source == "far edge" else section.at[0]
    board.line((start, section.foot), (start, y - mm(2) - 4 * len(lengths)))
    for index, length in enumerate(lengths):
        across = part.width - length if mark.source == "far edge" else length
        side = section.spot(across, part.thickness)
        board.line(section.spot(across, ZERO), (side[0], y - mm(2) - 4 * index))
        board.arrow((start, y - 4 * index), (side[0], y - 4 * index))

