"""The sizes of a slide, by name: what applies to it, and nothing else; what a machine is set to,
and what is measured with rods.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.slide_pair import KINDS, fits, measured, rod_section
from layout.checks.words import figure as said
from layout.errors import BadMeasure, BadPiece, BadRequest, Where
from layout.joints import rods
from layout.joints.slide import SIDES, Side, Slide
from layout.measure import decimal_text
from layout.piece import Piece

ZERO = Fraction(0)
INCH = Fraction(127, 5)

SIDE_NAMES: dict[Side, str] = {"face": "face side", "back": "back"}
Row = tuple[str, str]
# Work that is caught between a turning cutter and the fence is thrown; a board on its end tips
# (common practice, no source).
CAUTION = (
    "Keep the board on the outside of the cutter, never between cutter and fence; feed against the",
    "cutter's turning, a square block behind the board; try the settings in waste first.",
    "At a machine, its own manual, its guards and local rules come first.",
)


def slide_rows(piece: Piece, made: Slide) -> list[Row]:
    """Names and figures of one slid end: tail and socket, slope, and how it goes in."""
    choice = made.choice
    square = choice.square
    rows: list[Row] = []
    for words, taper in _ends(made):
        neck = made.neck - taper
        # how far the sides spread over the tail, and over the socket's depth
        spread = [sum((made.lean(side, into) for side in SIDES), ZERO)
                  for into in (made.tail, made.depth)]
        if square:
            rows.append((f"housed thickness, and housing{words}", said(piece, neck)))
        else:
            rows += [
                (f"neck of the tail{words}", said(piece, neck)),
                (f"tip of the tail{words}", said(piece, neck + spread[0])),
                (f"mouth of the socket{words}", said(piece, neck)),
                (f"socket at the bottom{words}", said(piece, neck + spread[1])),
            ]
        for side, name in SIDE_NAMES.items():
            shoulder = made.shoulder(side) + made.narrowing(side, taper)
            rows.append((f"shoulder at the {name}{words}", said(piece, shoulder)))
    rows += [
        ("housing depth" if square else "socket depth", said(piece, made.depth)),
        ("room at the bottom", said(piece, choice.room)),
        ("length of the housed end" if square else "tail length", said(piece, made.tail)),
    ]
    if choice.slope is not None:
        leaning = choice.slopes if choice.slopes != "both" else ""
        rows.append(("slope" + (f", {leaning} only" if leaning else ""),
                     f"{choice.slope.ratio_text}, {choice.slope.degrees_text} degrees"))
    if choice.taper:
        over = made.slider.width - choice.stop if choice.taper_over is None else choice.taper_over
        rows += [("taper", said(piece, choice.taper)), ("length of the taper", said(piece, over))]
    if choice.stop:
        rows.append(("socket stops short by, and notch", said(piece, choice.stop)))
    rows += [
        ("slides in from", f"the {choice.enter}"),
        ("length of travel", said(piece, made.slider.width - choice.stop)),
    ]
    return rows


def _ends(made: Slide) -> tuple[tuple[str, Fraction], ...]:
    """The places where a run's sizes differ, in words, each with its taper."""
    if not made.choice.taper:
        return (("", ZERO),)
    return ((", where it is entered", ZERO), (", at the closed end", made.choice.taper))


# -- a router table


def machine_rows(piece: Piece, made: Slide, cutter: Fraction | None) -> list[Row]:
    """What a router table is set to: the cutter stands up through it, for the tail buried in the
    fence so that the board's side runs along the fence and its end on the table.

    BadRequest where such a cutter can't cut the joint.
    """
    slope = made.choice.slope
    if slope is None:
        return [("cutter height, housing", said(piece, made.depth))]
    rows = [
        ("cutter's side angle", f"{slope.degrees_text} degrees"),
        ("cutter height, socket", said(piece, made.depth)),
        ("cutter height, tail", said(piece, made.tail)),
    ]
    if cutter is None:
        return rows
    _refuse_cutter(piece, made, cutter)
    for side, name in SIDE_NAMES.items():
        if made.choice.leans(side):
            rows += _fence(piece, made, side, name, cutter)
    return rows


def _fence(piece: Piece, made: Slide, side: Side, name: str, cutter: Fraction) -> Iterator[Row]:
    """The cutter is widest at its top, which comes to the shoulder: its radius reaches to the
    neck from where its centre is.
    """
    for words, taper in _ends(made):
        behind = cutter / 2 - made.shoulder(side) - made.narrowing(side, taper)
        place = "behind" if behind >= 0 else "before"
        yield (f"fence to the cutter's centre, {name}{words}",
               f"{said(piece, abs(behind))} {place} the fence")
    wide = made.shoulder(side) + made.narrowing(side, made.choice.taper) + made.lean(
        side, made.tail)
    if wide > cutter:
        # at the table the cutter is narrower by what its side leans
        yield f"passes, {name}", "more than one: the waste is wider than the cutter"


def _refuse_cutter(piece: Piece, made: Slide, cutter: Fraction) -> None:
    assert made.choice.slope is not None
    section = rod_section(made, "socket", made.choice.taper)
    most, least = section.bottom, 2 * made.choice.slope.offset(made.depth)
    where = Where(key="--cutter")
    if cutter > most:
        raise BadRequest(f"a cutter of {said(piece, cutter)} is wider than the socket is at its "
                         f"bottom, {said(piece, most)}", "take a narrower one", where)
    if cutter <= least:
        raise BadRequest(f"nothing is left of a cutter of {said(piece, cutter)} with such sides "
                         f"{said(piece, made.depth)} down from its top",
                         f"take one wider than {said(piece, least)}", where)


# -- rods


def rod_rows(piece: Piece, made: Slide, rod: Fraction, reading: Fraction | None) -> list[Row]:
    """Which rods fit, what is measured between and over these, and what a reading comes to.

    BadRequest where the reading can't be.
    """
    unit = piece.choice.unit
    rows = []
    for words, taper in _ends(made):
        for kind in KINDS:
            rows.append((f"rods that fit the {kind}{words}",
                         _range(rod_section(made, kind, taper), piece)))
    for words, taper in _ends(made):
        for kind in KINDS:
            section = rod_section(made, kind, taper)
            told = "none: such a rod does not fit there"
            if fits(section, rod, unit):
                told = _fine(piece, rods.reading(section, rod, unit))
            rows.append((f"{measured(section)}{words}", told))
    if reading is not None:
        try:
            true = rods.width_from_reading(rod_section(made, "socket"), rod, reading, unit)
        except BadMeasure as error:
            raise BadRequest(error.what, error.cure, Where(key="--reading")) from None
        rows += [
            ("mouth of the socket by the reading", _fine(piece, true.mouth)),
            ("socket at the bottom by the reading", _fine(piece, true.bottom)),
        ]
    return rows


def _range(section: rods.Section, piece: Piece) -> str:
    unit = piece.choice.unit
    try:
        found = rods.fitting(section, unit)
    except BadPiece:
        return "none"
    return rods._range(found.least, found.greatest, unit).removeprefix("rods ")


def _fine(piece: Piece, length: Fraction) -> str:
    """A length at the rule, and in decimals as a caliper shows it."""
    inches = piece.rule.unit == "in"
    figure = decimal_text(length / INCH, 4) if inches else decimal_text(length, 2)
    return f"{said(piece, length)}, {figure} {piece.rule.unit}"
