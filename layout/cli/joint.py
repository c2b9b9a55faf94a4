"""`joint tenon`: one tenon from the command line, without a piece file."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple, cast

from layout.builds.choices import FrameChoice, LegChoice, RailChoice
from layout.checks import check, stopped
from layout.cli.lines import check_lines, dumped, said, sum_lines
from layout.defaults import Unit, default_length
from layout.errors import BadMeasure, BadRequest, Where
from layout.joints.choices import TenonChoice
from layout.joints.seat import SeatChoice
from layout.kit import usual_kit
from layout.measure import default_rule, read_length, read_rule
from layout.numbers import numbers
from layout.piece import Piece, PieceChoice, work_out_pair

# How far the legs stand apart where the maker does not say.
UNSAID_BETWEEN = {"in": "12", "mm": "300"}
UNSAID_SUMS = (
    "shoulder distance",
    "cut length",
    "shoulder at end B from end A",
    "back shoulder distance",
    "back shoulder at end B from end A",
)


class TenonWords(NamedTuple):
    """The options of `joint tenon` as typed."""

    rail_width: str
    rail_thickness: str
    length: str
    leg_width: str
    leg_thickness: str | None
    over: str | None
    thickness: str | None
    outer_shoulder: str | None
    top_shoulder: str | None
    bottom_shoulder: str | None
    glue_room: str | None
    set_in: str
    panel: str | None
    rabbet_depth: str | None
    lip: str | None
    run_through: bool
    unit: str
    rule: str | None
    both_units: bool = False


def tell_tenon(
    words: TenonWords, as_json: bool, write: tuple[Path, str | None, str] | None
) -> int:
    """Print one tenon's sizes, sums, settings and checks; 1 on a stop."""
    piece = tenon_piece(words)
    if words.over is None:
        # what stands between the legs was not said, so nothing is said of it
        piece = piece._replace(sums=tuple(s for s in piece.sums if s.name not in UNSAID_SUMS))
    findings = check(piece)
    if as_json:
        told = numbers(piece, findings)
        if words.over is None:
            told["cut_list"] = []  # no length was said
        print(dumped(told))
    else:
        lines = [*_sizes(piece, words.over is not None), "", "Sums", *sum_lines(piece)]
        lines += ["", "Gauge settings, in this order", *_settings(piece)]
        lines += ["", "Checks", *check_lines(findings)]
        print("\n".join(lines))
    if write is not None:
        from layout.cli.packet import write_sheets

        out, paper, formats = write
        write_sheets(piece, findings, ("card", "templates"), out, paper, formats, None,
                     quiet=as_json)
    return int(stopped(findings))


def tenon_piece(words: TenonWords) -> Piece:
    """The piece that the options describe: one rail between two legs."""
    if words.unit not in ("in", "mm"):
        raise BadRequest(
            f"'{words.unit}' is no unit to work in", "write in or mm", Where(key="--unit")
        )
    unit = cast(Unit, words.unit)

    def length(flag: str, written: str | None, zero_ok: bool = False) -> Fraction | None:
        if written is None:
            return None
        try:
            value = read_length(written, unit)
        except BadMeasure as error:
            raise error.at(Where(key=flag)) from None
        if value == 0 and not zero_ok:
            raise BadMeasure(
                "the size is nothing", "write a size above zero", Where(key=flag)
            )
        return value

    def needed(flag: str, written: str) -> Fraction:
        value = length(flag, written)
        assert value is not None  # written is given, so a size or an error came back
        return value

    rail_width = needed("--rail-width", words.rail_width)
    rail_thickness = needed("--rail-thickness", words.rail_thickness)
    leg_width = needed("--leg-width", words.leg_width)
    over = length("--over", words.over)
    if over is None:
        over = 2 * leg_width + read_length(UNSAID_BETWEEN[unit], unit)
    glue_room = length("--glue-room", words.glue_room, zero_ok=True)
    tenon = TenonChoice(
        length=needed("--length", words.length),
        glue_room=default_length("glue_room", unit) if glue_room is None else glue_room,
        shoulder=default_length("top_shoulder", unit),
        web_least=default_length("web_least", unit),
        wall_least=default_length("wall_least", unit),
        thickness=length("--thickness", words.thickness),
        outer_shoulder=length("--outer-shoulder", words.outer_shoulder, zero_ok=True),
        top_shoulder=length("--top-shoulder", words.top_shoulder, zero_ok=True),
        bottom_shoulder=length("--bottom-shoulder", words.bottom_shoulder, zero_ok=True),
    )
    rail = RailChoice(
        name="rail",
        sides=("front",),
        width=rail_width,
        thickness=rail_thickness,
        set_in=length("--set-in", words.set_in, zero_ok=True) or Fraction(0),
        tenon=tenon,
        below_top=Fraction(0),
    )
    leg = LegChoice(leg_width, length("--leg-thickness", words.leg_thickness) or leg_width)
    # legs long enough below the rail that its mortise is not at their foot
    leg_length = rail_width + 2 * leg_width
    panel = length("--panel", words.panel)
    seat = None
    if panel is not None:
        seat = SeatChoice(
            kind="rabbet",
            panel_thickness=panel,
            lip=length("--lip", words.lip) or default_length("lip", unit),
            depth=length("--rabbet-depth", words.rabbet_depth),
            in_legs="rabbet",
            run="through" if words.run_through else "stopped",
        )
    elif words.lip or words.rabbet_depth or words.run_through:
        raise BadRequest(
            "a rabbet is described, but no panel", "give the panel's thickness: --panel 1/4"
        )
    try:
        rule = default_rule(unit) if words.rule is None else read_rule(words.rule, unit)
    except BadMeasure as error:
        raise error.at(Where(key="--rule")) from None
    choice = PieceChoice(
        name="One tenon",
        unit=unit,
        rule=rule,
        kit=usual_kit(unit),
        wall_least=default_length("wall_least", unit),
        near_settings=default_length("near_settings", unit),
        dual=words.both_units,
        frame=FrameChoice(over, 2 * leg.thickness, leg_length, leg, (rail,)),
    )
    return work_out_pair(choice, seat)


def _sizes(piece: Piece, over_given: bool) -> list[str]:
    (one,) = piece.rails
    size, rail = one.size, one.rail.part
    rows = [
        ("tenon thickness", size.thickness),
        ("tenon width", size.width),
        ("tenon length", size.length),
        ("outer shoulder", size.outer),
        ("inner shoulder", size.inner),
        ("top shoulder", size.top),
        ("bottom shoulder", size.bottom),
        ("mortise depth", size.depth),
    ]
    if over_given:
        rows = [
            ("shoulder distance", rail.length - 2 * size.length),
            ("cut length", rail.length),
            *rows,
        ]
    figures = [(label, said(piece, value)) for label, value in rows]
    width = max(len(figure) for _, figure in figures)
    lines = [f"{label:<18} {figure:>{width}}" for label, figure in figures]
    if not over_given:
        lines.append("(say --over to have the shoulder distance and the cut length)")
    return lines


def _settings(piece: Piece) -> list[str]:
    from layout.settings import settings
    from layout.sheets.struck import struck

    lines = []
    for setting in settings(piece.marks):
        figures = said(piece, setting.distance)
        if setting.second is not None:
            figures += f" and {said(piece, setting.second)}"
        lines.append(f"{setting.number}. {setting.tool} at {figures}")
        lines += [f"      {entry.words(piece)}" for entry in struck(piece, setting)]
    return lines
