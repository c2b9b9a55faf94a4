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


CABINET = ROOT / "samples" / "wall_cabinet.toml"


def test_horns_are_told_before_anything_is_measured(capsys: pytest.CaptureFixture[str]) -> None:
    """Horns of 15 on stiles that end 360 - 2 x 18 = 324 apart, less the gaps of 1.5: 321."""
    data, lines = told(CABINET, capsys)
    (step,) = [one for one in data["steps"] if one["kind"] == "end lines"]
    assert step["parts"] == ["door-left-stile", "door-right-stile"]
    assert [F(one["at"]) for one in step["distances"]] == [15, 321]
    words = of_step(lines, step["number"])
    assert "15  end A, from the sawn end" in words
    assert "not from the wood's ends" in words
    assert "Lay together, lines of end A level: 2 × stile" in of_step(lines, step["number"] + 1)


def test_a_socket_is_told_only_on_its_own_side(capsys: pytest.CaptureFixture[str]) -> None:
    data, lines = told(CABINET, capsys)
    found = {(step["parts"][0], F(line["at"])): step for step in data["steps"]
             if step["kind"] == "knife lines" for line in step["distances"]}
    assert found["left-partition", F(12)]["faces"] == ["face", "back"]
    assert found["left-partition", F(25)]["faces"] == ["back"]
    assert found["right-partition", F(25)]["faces"] == ["face"]
    assert "Knife on the back side: left partition" in of_step(
        lines, found["left-partition", F(25)]["number"])


def test_a_taper_says_where_its_figures_are(capsys: pytest.CaptureFixture[str]) -> None:
    """It stops 12 from the edge, and tapers over 60: from 72 on it is parallel."""
    _, lines = told(CABINET, capsys)
    at = next(n for n, line in enumerate(lines) if "279 full | 280 bare" in line)
    assert lines[at - 1].strip() == "(from end A: 72 | 12 from the face edge)"


def test_a_panel_gauge_where_a_marking_gauge_does_not_reach(
    capsys: pytest.CaptureFixture[str],
) -> None:
    data, lines = told(CABINET, capsys)
    for step in data["steps"]:
        if step["setting"] is not None:
            far = F(step["distances"][0]["at"]) > 150
            assert ("panel gauge, at" in of_step(lines, step["number"])) == far
    assert any("panel gauge, at 204" in line for line in lines)
    assert {step["tool"] for step in data["steps"] if step["setting"]} <= {
        "marking gauge", "mortise gauge"}


def test_an_end_cap_s_top(capsys: pytest.CaptureFixture[str]) -> None:
    """Which end is told; where lines cross the holes are not listed again; pegs through the cap."""
    data, lines = told(ROOT / "tests" / "piece_file" / "every_top.toml", capsys)
    carried = [step for step in data["steps"] if step["kind"] == "carry round"
               and step["parts"] == ["bench-top"]]
    assert [step["from"] for step in carried] == [["end A"], ["end B"]]
    for step in carried:
        assert f"to the back side, from {step['from'][0]}" in of_step(lines, step["number"])
    (crossed,) = [step for step in data["steps"] if step["kind"] == "crossings"]
    words = of_step(lines, crossed["number"]).splitlines()
    assert [line.split() for line in words[2:]] == [
        ["8", "3/4", "4", "×", "holdfast", "hole,", "row", "1"],
        ["15", "1/4", "4", "×", "holdfast", "hole,", "row", "2"],
    ]
    assert any("Prick the tongues through the end caps: bench top dog strip, bench top" in line
               for line in lines)


def test_ticks_are_named_for_the_part_that_bears_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A lock and a hinge on two stiles at one place: each stile has its own tick."""
    path = tmp_path / "p.toml"
    text = CABINET.read_text(encoding="utf-8")
    # hinge 2 reaches from 238 to 278 on one stile: a lock in the same place on the other
    path.write_text(text.replace("lock = { length = 40 }", "lock = { length = 40, above = 63 }"),
                    encoding="utf-8")
    data, _ = told(path, capsys)
    ticks = {step["parts"][0]: [(F(one["at"]), one["roles"]) for one in step["distances"]]
             for step in data["steps"] if step["kind"] == "tick" and step["faces"] == ["edge"]
             and step["parts"][0].endswith("stile")}
    assert ticks["door-left-stile"] == [(238, ["lock top"]), (278, ["lock bottom"])]
    assert (278, ["hinge 2 bottom"]) in ticks["door-right-stile"]


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
