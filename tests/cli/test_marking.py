"""`marking`: the steps in words and as JSON, with the figures and numbers of the other commands."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from layout.cli.app import run
from layout.cli.lines import said
from layout.cli.marking import tell_marking
from layout.cli.opened import NOT_MEASURED
from layout.cli.tell import tell_numbers
from layout.piece import work_out
from layout.piece_file.reader import read_piece

ROOT = Path(__file__).parents[2]
SAMPLES = [ROOT / "samples" / f"{name}.toml"
           for name in ("bedding_box", "hall_table", "wall_cabinet")]
HALL = ROOT / "samples" / "hall_table.toml"
F = Fraction


def told(path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[dict[str, Any], list[str]]:
    """The JSON and the lines of words."""
    assert tell_marking(path, as_json=True) == 0
    data = json.loads(capsys.readouterr().out)
    assert tell_marking(path) == 0
    return data, capsys.readouterr().out.splitlines()


def of_step(lines: list[str], number: int) -> str:
    """Everything that is said of one step."""
    heads = [n for n, line in enumerate(lines) if re.match(r" *[0-9]+\. ", line)]
    first = next(n for n in heads if lines[n].split(".")[0].strip() == str(number))
    after = [n for n in heads if n > first]
    return "\n".join(lines[first:after[0] if after else len(lines)])


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_words_and_json_tell_the_same_steps(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data, lines = told(path, capsys)
    p = work_out(read_piece(path))
    assert (data["format"], data["piece"], data["rule"]) == (1, p.name, str(p.rule))
    heads = [line for line in lines if re.match(r" *[0-9]+\. ", line)]
    assert [int(line.split(".")[0]) for line in heads] == [s["number"] for s in data["steps"]]
    assert sum(step["marks"] for step in data["steps"]) == len(p.marks)
    ids = {part.id for part in p.parts}
    for step in data["steps"]:
        words = of_step(lines, step["number"])
        assert all(one in words for one in step["words"])
        assert set(step["parts"]) <= ids
        assert step["phase"] in lines
        if step["kind"] in ("tick", "holes", "dividers", "gauge setting", "knife lines"):
            for one in step["distances"]:
                assert said(p, F(one["at"])) in words
                assert one["second"] is None or said(p, F(one["second"])) in words


def test_settings_are_numbered_as_everywhere(capsys: pytest.CaptureFixture[str]) -> None:
    data, lines = told(HALL, capsys)
    tell_numbers(HALL, True, NOT_MEASURED)
    settings = json.loads(capsys.readouterr().out)["settings"]
    steps = [step for step in data["steps"] if step["setting"] is not None]
    assert [(s["setting"], s["tool"], s["distances"][0]["at"], s["distances"][0]["second"])
            for s in steps] == [(s["number"], s["tool"], s["distance"], s["second"])
                                for s in settings]
    for step in steps:
        assert f". Setting {step['setting']}: {step['tool']}, at " in of_step(
            lines, step["number"])


def test_lengths_are_exact_fractions(capsys: pytest.CaptureFixture[str]) -> None:
    data, _ = told(HALL, capsys)
    tick = next(step for step in data["steps"] if step["kind"] == "tick")
    assert (tick["parts"], tick["from"], tick["master"]) == (
        ["front-left-leg"], ["end A"], "front-left-leg")
    # tenon shoulders of 15, then in the 95 - 15 - 12 that remain three equal shares of 22 17/24
    share = (F(95) - 15 - F(95) / 8) / 3
    assert [F(one["at"]) for one in tick["distances"]] == [
        15, 15 + share, 15 + 2 * share, 15 + 3 * share, 95]


def test_hands_are_told_where_they_lie(capsys: pytest.CaptureFixture[str]) -> None:
    data, lines = told(HALL, capsys)
    laid = [step for step in data["steps"] if step["kind"] == "lay together"]
    for step in laid:
        assert ("mirrored" in of_step(lines, step["number"])) == step["mirrored"]
    legs = of_step(lines, laid[0]["number"])
    assert "Lay together, tops level: 4 × leg: 2 left hand, 2 right hand" in legs
    assert "(left and right hand lie mirrored)" in legs


def test_figures_in_both_units(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "p.toml"
    path.write_text("both_units = true\n" + HALL.read_text(encoding="utf-8"), encoding="utf-8")
    _, lines = told(path, capsys)
    assert any("15 mm (19/32 in bare)  upper mortise top" in line for line in lines)


def test_the_command(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.argv", ["shoulderline", "marking", str(HALL)])
    assert run() == 0
    assert capsys.readouterr().out.startswith("Marking the Hall table\nmillimetres, shown to")


def test_a_file_that_is_not_there(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.argv", ["shoulderline", "marking", "nowhere.toml"])
    assert run() == 2
    assert "nowhere.toml" in capsys.readouterr().err
