"""`joint tenon`: one tenon from the command line, without a piece file."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from layout.builds.choices import FrameChoice, LegChoice, RailChoice
from layout.checks import check
from layout.checks.words import figure as said
from layout.cli.answer import Shown, answer, asked, figure_lines
from layout.cli.tenon_options import TenonWords, size, tenon_choice
from layout.cli.tenon_rows import tenon_rows
from layout.defaults import Unit, default_length
from layout.errors import BadRequest
from layout.joints.seat import SeatChoice
from layout.measure import read_length
from layout.piece import Piece, work_out_pair

# How far the legs stand apart where the maker does not say.
UNSAID_BETWEEN = {"in": "12", "mm": "300"}
UNSAID_SUMS = ("shoulder distance", "cut length", "back shoulder distance")


def tell_tenon(
    words: TenonWords, as_json: bool, write: tuple[Path, str | None, str] | None
) -> int:
    """Print one tenon's sizes, sums, settings and checks; 1 on a stop."""
    piece = tenon_piece(words)
    said_over = words.over is not None
    if not said_over:
        piece = _said_alone(piece)
    shown = Shown(words.unit, words.rule, words.both_units, as_json, write)
    return answer(piece, check(piece), shown, _sizes(piece, said_over), ("card", "templates"),
                  cut_to_length=said_over)


def tenon_piece(words: TenonWords) -> Piece:
    """The piece that the options describe: one rail between two legs."""
    choice = asked("One tenon", Shown(words.unit, words.rule, words.both_units))
    unit = choice.unit

    rail_width, rail_thickness, leg_width = (
        _needed(flag, written, unit)
        for flag, written in (
            ("--rail-width", words.rail_width),
            ("--rail-thickness", words.rail_thickness),
            ("--leg-width", words.leg_width),
        )
    )
    over = size("--over", words.over, unit)
    if over is None:
        over = 2 * leg_width + read_length(UNSAID_BETWEEN[unit], unit)
    rail = RailChoice(
        name="rail",
        sides=("front",),
        width=rail_width,
        thickness=rail_thickness,
        set_in=size("--set-in", words.set_in, unit, zero_ok=True) or Fraction(0),
        tenon=tenon_choice(words, unit),
        below_top=Fraction(0),
    )
    leg = LegChoice(leg_width, size("--leg-thickness", words.leg_thickness, unit) or leg_width)
    # legs long enough below the rail that its mortise is not at their foot
    leg_length = rail_width + 2 * leg_width
    seat = _seat(words, unit)
    frame = FrameChoice(over, 2 * leg.thickness, leg_length, leg, (rail,))
    return work_out_pair(choice._replace(frame=frame), seat)


def _needed(flag: str, written: str, unit: Unit) -> Fraction:
    value = size(flag, written, unit)
    assert value is not None  # written is given, so a size or an error came back
    return value


def _seat(words: TenonWords, unit: Unit) -> SeatChoice | None:
    """The rabbet for a panel along the rail's lower edge."""
    panel = size("--panel", words.panel, unit)
    if panel is not None:
        return SeatChoice(
            kind="rabbet",
            panel_thickness=panel,
            lip=size("--lip", words.lip, unit) or default_length("lip", unit),
            depth=size("--rabbet-depth", words.rabbet_depth, unit),
            in_legs="rabbet",
            run="through" if words.run_through else "stopped",
        )
    if words.lip or words.rabbet_depth or words.run_through:
        raise BadRequest(
            "a rabbet is described, but no panel", "give the panel's thickness: --panel 1/4"
        )
    return None


def _said_alone(piece: Piece) -> Piece:
    """The piece without what hangs on the length of the rail, which nobody said."""
    return piece._replace(
        sums=tuple(
            one
            for one in piece.sums
            if one.name not in UNSAID_SUMS and all(t.label != "cut length" for t in one.terms)
        )
    )


def _sizes(piece: Piece, over_given: bool) -> list[str]:
    rows = tenon_rows(piece)
    if over_given:
        rail = piece.rails[0].rail
        rows = [("shoulder distance", rail.shoulders), ("cut length", rail.part.length), *rows]
    lines = figure_lines(
        (label, said(piece, value) if isinstance(value, Fraction) else f"{value}")
        for label, value in rows
    )
    if not over_given:
        lines.append("(say --over to have the shoulder distance and the cut length)")
    return lines
