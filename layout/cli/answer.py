"""What every command without a piece file asks and answers in the same way."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple, cast

from layout.checks import stopped
from layout.checks.words import figure as said
from layout.cli.lines import check_lines, dumped, sum_lines
from layout.cli.shop import shop_kit
from layout.defaults import Unit, default_length
from layout.errors import BadMeasure, BadRequest, Where
from layout.mark import Finding
from layout.measure import Rule, default_rule, read_rule
from layout.piece import Piece, PieceChoice


class Shown(NamedTuple):
    """How an answer is wanted: in which unit, at which rule, in words or as JSON, and whether
    sheets are written (folder, paper, formats).
    """

    unit: str = "in"
    rule: str | None = None
    both_units: bool = False
    as_json: bool = False
    write: tuple[Path, str | None, str] | None = None


def read_unit(word: str) -> Unit:
    """The unit that bare numbers are in. BadRequest for any other."""
    if word not in ("in", "mm"):
        raise BadRequest(f"'{word}' is no unit to work in", "write in or mm", Where(key="--unit"))
    return cast(Unit, word)


def read_shown_rule(written: str | None, unit: Unit) -> Rule:
    """The rule that sizes are shown at. BadMeasure with its option."""
    if written is None:
        return default_rule(unit)
    try:
        return read_rule(written, unit)
    except BadMeasure as error:
        raise error.at(Where(key="--rule")) from None


def asked(name: str, shown: Shown) -> PieceChoice:
    """A piece of which only its name and how it is shown are known."""
    unit = read_unit(shown.unit)
    return PieceChoice(
        name=name,
        unit=unit,
        rule=read_shown_rule(shown.rule, unit),
        kit=shop_kit(unit),
        wall_least=default_length("wall_least", unit),
        near_settings=default_length("near_settings", unit),
        dual=shown.both_units,
    )


def answer(
    piece: Piece,
    findings: tuple[Finding, ...],
    shown: Shown,
    first: Sequence[str],
    kinds: tuple[str, ...],
    cut_to_length: bool = True,
) -> int:
    """Print a piece, `first` before its sums, settings and checks; 1 on a stop.

    `kinds` are the sheets to write. The JSON has no cut list where no length was said.
    """
    if shown.as_json:
        from layout.numbers import numbers

        told = numbers(piece, findings)
        if not cut_to_length:
            told["cut_list"] = []
        print(dumped(told))
    else:
        lines = [*first, "", "Sums", *sum_lines(piece)]
        lines += ["", "Gauge settings, in this order", *setting_lines(piece)]
        lines += ["", "Checks", *check_lines(findings)]
        print("\n".join(lines))
    if shown.write is not None:
        from layout.cli.packet import write_sheets

        out, paper, formats = shown.write
        write_sheets(piece, findings, kinds, out, paper, formats, None, quiet=shown.as_json)
    return int(stopped(findings))


def figure_lines(rows: Iterable[tuple[str, str]]) -> list[str]:
    """Names and figures in two columns."""
    rows = tuple(rows)
    name, width = (max(len(row[column]) for row in rows) for column in (0, 1))
    return [f"{label:<{name}} {figure:>{width}}" for label, figure in rows]


def setting_lines(piece: Piece) -> list[str]:
    """Every stand of a gauge, and what it strikes."""
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
