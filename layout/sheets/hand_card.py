"""Cards for what is set by hand for dovetails: the bevel's slope, and the dividers' step."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from layout.checks.words import listed
from layout.joints.dovetail import Corner
from layout.measure.slope import Slope
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Stroke
from layout.sheets.bevel_template import slopes
from layout.sheets.card_size import CardSize
from layout.sheets.easel import HEADING, LABEL, NAME, NOTE, Easel, mm

ROW = mm("4.4")


def hand_cards(piece: Piece, size: CardSize, stop: bool) -> list[list[Stroke]]:
    """A card for every slope and one for every divider step of a piece's dovetails.

    `stop` says on each that a check says stop.
    """
    steps: dict[Fraction, list[Corner]] = {}
    for corner in piece.corners:
        step = corner.spacing.step
        if step is not None and len(corner.spacing.tails) > 1:
            steps.setdefault(step, []).append(corner)
    drawn = [_bevel(piece, slope, size) for slope, _ in slopes(piece)]
    drawn += [_dividers(piece, step, corners, size) for step, corners in steps.items()]
    for board in drawn:
        if stop:
            board.text((size.width - mm(5), mm(2)), "STOP: see the checks", LABEL, "right", True)
    return [board.strokes for board in drawn]


def _card(piece: Piece, title: str, size: CardSize) -> Easel:
    board = Easel(piece.rule)
    y = size.height - mm(8)
    board.text((mm(5), y), title, LABEL, bold=True)
    board.text((size.width - mm(5), y), piece.name, LABEL, "right", room=size.width / 2 - mm(8))
    board.line((mm(5), y - mm(2)), (size.width - mm(5), y - mm(2)), Pen.NARROW)
    return board


def _entries(board: Easel, size: CardSize, entries: list[str]) -> None:
    """What it is for, at the right, each with a box to tick."""
    x, y = size.width * 2 / 3, size.height - mm(14)
    for entry in entries:
        lines = wrap(entry, NOTE, size.width / 3 - mm(10), False)
        fit = int((y - mm(7)) // ROW)
        if fit < 1:
            break
        if len(lines) > fit:
            lines = [*lines[: fit - 1], "and more: see the sheets"]
        board.tick_box((x, y - LABEL), LABEL)
        for line in lines:
            board.text((x + mm("5.5"), y - NOTE - mm("0.5")), line)
            y -= ROW
        y -= mm("1.5")


def _bevel(piece: Piece, slope: Slope, size: CardSize) -> Easel:
    """The slope as a ratio and in degrees, with a triangle of its proportions."""
    corners = [one for one in piece.corners if one.spacing.choice.slope.run == slope.run]
    slides = [one for one in piece.slides
              if one.choice.slope is not None and one.choice.slope.run == slope.run]
    board = _card(piece, "Bevel", size)
    high = HEADING
    while high > NAME and text_width(slope.ratio_text, high, True) > size.width / 3 - mm(8):
        high -= mm("0.5")
    middle = size.height / 2
    board.text((mm(6), middle), slope.ratio_text, high, bold=True)
    board.text((mm(6), middle - mm(9)), f"{slope.degrees_text} degrees", LABEL, bold=True)
    board.text((mm(6), mm(10)), "bevel", LABEL, bold=True)
    board.text((mm(6), mm("5.5")), "from the square line")
    long = size.height - mm(34)
    x, foot = size.width / 2 - mm(3), mm(13)
    over = slope.offset(long)
    board.line((x - mm(12), foot), (x + mm(18), foot), Pen.HEAVY)
    board.line((x, foot), (x, foot + long), Pen.CENTRE)
    board.line((x, foot), (x + over, foot + long), Pen.WIDE)
    board.text((x + over / 2, foot + long + mm("1.5")), "1", NOTE, "middle")
    board.text((x - mm("1.5"), foot + long / 2), slope.ratio_text.removeprefix("1 in "), NOTE,
               "right")
    entries = []
    if corners:
        tails = listed(list(dict.fromkeys(corner.tails.kind for corner in corners)))
        pins = listed(list(dict.fromkeys(corner.pins.kind for corner in corners)))
        entries += [
            f"{tails}: sides of the tails on both faces, from the end",
            f"{pins}: sides of the pins on the end, from the face side",
        ]
    if slides:
        tails = listed(list(dict.fromkeys(one.slider.kind for one in slides)))
        bearers = listed(list(dict.fromkeys(one.bearer.kind for one in slides)))
        entries += [f"{tails}: sides of the tail on its edge, from the end",
                    f"{bearers}: sides of the sockets on the edge they are entered from"]
    _entries(board, size, entries)
    return board


def _dividers(
    piece: Piece, step: Fraction, corners: list[Corner], size: CardSize
) -> Easel:
    """A tail and a pin, and where to start stepping from."""
    board = _card(piece, "Dividers", size)
    high = mm(11)
    while high > mm(6) and board.figure_width(step, high, True) > size.width / 4 - mm(2):
        high -= mm(1)
    board.figure((mm(6), size.height / 2 - high / 2), step, high, bold=True)
    if piece.choice.dual:
        board.text((mm(6), size.height / 2 - high - mm(3)), board.other_unit(step))
    board.text((mm(6), mm(10)), "dividers", LABEL, bold=True)
    board.text((mm(6), mm("5.5")), "inches" if board.rule.unit == "in" else "millimetres")
    _stepped(board, corners[0], size)
    entries: dict[tuple[str, int], list[str]] = {}
    for corner in corners:
        tails = len(corner.spacing.tails)
        entries.setdefault((corner.tails.name, tails), []).append(corner.letter)
    told = []
    for (name, tails), letters in entries.items():
        words = f"{name}, corner{'s' if len(letters) > 1 else ''} {listed(sorted(letters))}"
        if corners[0].spacing.members[0].kind == "half pin":
            steps = "1 step" if tails == 2 else f"{tails - 1} steps"
            words += f": {steps} from the line of each half pin"
        told.append(words)
    _entries(board, size, told)
    return board


def _stepped(board: Easel, corner: Corner, size: CardSize) -> None:
    """The end of the tail board to scale: its tails, and the steps over them."""
    spacing = corner.spacing
    left, room = size.width / 4 + mm(16), size.width * 5 / 12 - mm(18)
    scale = room / spacing.width
    foot, high = size.height / 2 - mm(6), mm(8)
    board.rectangle((left, foot), (left + room, foot + high), Pen.WIDE)
    for index, one in enumerate(spacing.members):
        low, far = (left + at * scale for at in spacing.at_end(index))
        if one.kind != "tail":
            board.hatch((low, foot), (far, foot + high))
        else:
            board.line((low, foot), (low, foot + high), Pen.NARROW)
            board.line((far, foot), (far, foot + high), Pen.NARROW)
    starts = [left + spacing.at_end(i)[0] * scale
              for i, one in enumerate(spacing.members) if one.kind == "tail"]
    y = foot + high + mm(4)
    for a, b in pairwise(starts):
        board.line((a, foot + high), (a, y + mm(1)), Pen.THIN)
        board.line((b, foot + high), (b, y + mm(1)), Pen.THIN)
        board.arrow((a, y), (b, y))
