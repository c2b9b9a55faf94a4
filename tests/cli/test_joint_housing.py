"""One square housing, typed: sizes worked out by hand, every option, and every refusal."""

from __future__ import annotations

import json
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from layout.cli.shop import VARIABLE
from layout.cli.slide_options import RunWords, pair_choice
from layout.piece_file.case_keys import read_housing
from layout.piece_file.source import parse_toml
from tests.contract import hold
from tests.outside import judge_slides

F = Fraction
INCH = F(127, 5)
HOUSING = "joint housing --board-thickness 3/4 --into 3/4 --width 8".split()
EXAMPLE = [*HOUSING, *"--depth 1/4 --face-shoulder 1/8 --stop 1/2".split()]
NAMES = (
    "housed thickness, and housing", "shoulder at the face side", "shoulder at the back",
    "housing depth", "room at the bottom", "length of the housed end",
    "socket stops short by, and notch", "slides in from", "length of travel",
    "cutter height, housing",
)  # fmt: skip


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a housing, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def rows(out: str) -> dict[str, str]:
    """Names and figures of what is printed before the sums."""
    lines = out.split("\n\nSums")[0].splitlines()
    return {name: line.removeprefix(name).strip()
            for line in lines for name in NAMES if line.startswith(f"{name} ")}


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    sums = {one["name"].split(" (")[0]: F(one["total"]) / INCH for one in found["sums"]}
    assert sums["neck where it is entered"] == F(3, 4) - F(1, 8) == F(5, 8)
    assert sums["tail length"] == F(1, 4) - F(1, 64)
    (housing,) = [cut for cut in found["cuts"] if cut["role"] == "housing"]
    spans = [{F(point[axis]) / INCH for point in housing["hull"]} for axis in range(3)]
    assert max(spans[0]) - min(spans[0]) == F(5, 8)
    assert spans[1] == {F(1, 2), F(8)}  # from the stop to the back edge
    assert spans[2] == {F(0), F(1, 4)}
    # a shoulder at one side only: one waste, and the notch before the stop
    assert sorted(cut["role"] for cut in found["cuts"] if cut["part"] == "slider") == [
        "notch at the stop", "tail waste, face"
    ]


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*EXAMPLE)
    assert (code, err) == (0, "")
    assert rows(out) == {
        "housed thickness, and housing": "5/8",
        "shoulder at the face side": "1/8",
        "shoulder at the back": "0",
        "housing depth": "1/4",
        "room at the bottom": "1/32 bare",  # 1/64
        "length of the housed end": "1/4 bare",  # 15/64
        "socket stops short by, and notch": "1/2",
        "slides in from": "the back",
        "length of travel": "7 1/2",
        "cutter height, housing": "1/4",
    }
    assert "1. marking gauge at 1/8\n" in out
    assert "slope" not in out
    assert "own manual, its guards and local rules come first.\n" in out
    assert "0 to stop for, 0 cautions" in out
    assert "DISAGREE" not in out


def test_griffith_s_depth(call) -> None:  # type: ignore[no-untyped-def]
    """Ira S. Griffith, Correlated Courses in Woodwork and Mechanical Drawing, 1912: a housing in
    3/4 in stock is 1/4 in deep, a third, and its gauge is set to that.
    """
    _, out, _ = call(*HOUSING)
    assert rows(out)["housing depth"] == "1/4"
    assert "1. marking gauge at 1/4\n      bearer: socket depth" in out


@pytest.mark.parametrize(
    "options",
    ["", "--stop 1/2 --face-shoulder 1/8", "--back-shoulder 1/4 --enter front --room 0",
     "--face-shoulder 1/16 --back-shoulder 1/16 --stop 1 --enter front",
     "--unit mm --width 200 --board-thickness 18 --into 20 --depth 6"],
)
def test_the_judge_from_outside_has_no_objection(call, options: str) -> None:  # type: ignore[no-untyped-def]
    # the lengths of both boards and the place along the bearer are untold
    subjects = tuple(one for one in judge_slides.SUBJECTS if one not in ("sums", "cut list"))
    assert judge_slides.judge(told(call, *HOUSING, *options.split()), None, subjects) == []


# -- options


@pytest.mark.parametrize(
    ("options", "figures"),
    [
        ("--depth 3/8 --room 0", {"housing depth": "3/8", "length of the housed end": "3/8",
                                  "room at the bottom": "0", "cutter height, housing": "3/8"}),
        ("--into 1-1/2", {"housing depth": "1/2"}),
        ("--board-thickness 1", {"housed thickness, and housing": "1"}),
        ("--face-shoulder 1/8 --back-shoulder 1/4", {"housed thickness, and housing": "3/8",
                                                     "shoulder at the back": "1/4"}),
        ("--stop 1", {"socket stops short by, and notch": "1", "length of travel": "7"}),
        ("--enter front --width 6", {"slides in from": "the front", "length of travel": "6"}),
        ("--unit mm --width 200 --board-thickness 18 --into 21",
         {"housing depth": "7", "length of the housed end": "6.5"}),
        ("--both-units", {"housing depth": "1/4 in (6.5 mm bare)"}),
        ("--rule 1/64", {"length of the housed end": "15/64"}),
    ],
)  # fmt: skip
def test_sizes_say_what_applies(call, options: str, figures: dict[str, str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*HOUSING, *options.split())
    assert (code, err) == (0, "")
    found = rows(out)
    assert {name: found.get(name) for name in figures} == figures
    assert "DISAGREE" not in out


def test_it_is_made_as_wide_as_a_cutter_of_the_shop(
    call, tmp_path: Path, monkeypatch: pytest.MonkeyPatch  # type: ignore[no-untyped-def]
) -> None:
    path = tmp_path / "tools.toml"
    path.write_text('[kit]\ncutters = ["1/2 in", "5/8 in", "1 in"]\n', encoding="utf-8")
    monkeypatch.setenv(VARIABLE, str(path))
    found = rows(call(*HOUSING)[1])
    assert found["housed thickness, and housing"] == "5/8"
    assert found["shoulder at the face side"] == "1/8"
    # what was said stays
    found = rows(call(*HOUSING, "--back-shoulder", "1/4")[1])
    assert found["housed thickness, and housing"] == "1/2"


@pytest.mark.parametrize(
    ("options", "written"),
    [
        ({}, "housing = {}"),
        ({"depth": "3/8", "room": "0", "stop": "1/2", "enter": "front", "face_shoulder": "1/8",
          "back_shoulder": "1/16"},
         'housing = { depth = "3/8", room = 0, stop = "1/2", enter = "front", '
         'face_shoulder = "1/8", back_shoulder = "1/16" }'),
    ],
)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_typed_and_written_are_the_same(
    options: dict[str, str], written: str, unit: str
) -> None:
    found = pair_choice(RunWords("2", "3", "40", **options), None, unit)  # type: ignore[arg-type]
    want = read_housing(parse_toml(written, "x.toml").table("housing"), unit)  # type: ignore[arg-type]
    assert found.joint._replace(where=None) == want._replace(where=None)  # type: ignore[arg-type]


# -- stops and refusals


@pytest.mark.parametrize(
    ("options", "rule", "words"),
    [("--depth 3/4", "depth of sockets and housings", "less deep")],
)
def test_a_stop_is_exit_code_1(call, options: str, rule: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*HOUSING, *options.split())
    assert code == 1
    checks = out.split("\n\nChecks\n")[1].splitlines()
    place = checks.index(f"    rule: {rule}")
    assert checks[place - 1].startswith("STOP: ")
    assert words in checks[place + 1]
    told(call, *HOUSING, *options.split(), code=1)


@pytest.mark.parametrize(
    ("options", "start", "end"),
    [
        ("--board-thickness 0", "--board-thickness: ", "above zero"),
        ("--into 1/0", "--into: ", "like 3/8"),
        ("--width 100in", "--width: ", "--unit"),
        ("--into 1/64", "--into: the socket is no deeper than the room in it", ""),
        ("--depth 0", "--depth: ", "not '0'"),
        ("--depth 1/64", "--depth: the socket is no deeper than the room in it", ""),
        ("--room 1/4", "--room: the socket is no deeper than the room in it", ""),
        ("--room x", "--room: ", ""),
        ("--face-shoulder x", "--face-shoulder: ", ""),
        ("--back-shoulder=-1", "--back-shoulder: ", ""),
        ("--face-shoulder 3/4", "--face-shoulder: nothing is left", "the taper less"),
        ("--back-shoulder 1", "--back-shoulder: nothing is left", ""),
        ("--face-shoulder 1/2 --back-shoulder 1/2", "--face-shoulder: nothing is left", ""),
        ("--stop 8", "--stop: the stop leaves no run", ""),
        ("--stop 3m", "--stop: ", "--unit"),
        ("--enter left", "--enter: 'left' can't be chosen here", "back, front"),
        ("--unit cm", "--unit: 'cm' is no unit to work in", "write in or mm"),
        ("--rule x", "--rule: ", ""),
    ],
)
def test_refusals_name_the_option(call, options: str, start: str, end: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*HOUSING, *options.split())
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith(f"shoulderline: {start}")
    assert err.rstrip("\n").endswith(end)


def test_what_slopes_is_no_option_of_a_housing(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*HOUSING, "--slope=1:7")
    assert (code, out) == (2, "")
    assert "--slope" in err.splitlines()[0]


def test_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    words = [*EXAMPLE, "--write", "--out", str(tmp_path), "--paper", "A4", "--formats", "pdf,svg"]
    code, out, _ = call(*words)
    assert code == 0
    assert "read back: all" in out
    names = sorted(path.name for path in (tmp_path / "one-housing-svg").iterdir())
    assert any("housing-slider-in-bearer" in name for name in names)
    assert any("card" in name for name in names)
    assert not any("bevel" in name for name in names)


def test_heavy_libraries_stay_out() -> None:
    code = (
        f"import sys; sys.argv = ['shoulderline', *{EXAMPLE!r}]\n"
        "from layout.cli.app import run\n"
        "code = run()\n"
        "heavy = [n for n in ('pint', 'reportlab', 'svgwrite', 'pypdf', 'rich.table', 'numpy') "
        "if n in sys.modules]\n"
        "print('HEAVY', code, heavy)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "HEAVY 0 []"


FLAGS = st.lists(
    st.sampled_from(
        ["--depth=1/8", "--depth=5/8", "--depth=1", "--face-shoulder=0", "--face-shoulder=1/8",
         "--face-shoulder=1", "--back-shoulder=0", "--back-shoulder=1/4", "--stop=1/2", "--stop=7",
         "--enter=front", "--room=0", "--room=1/8", "--width=1", "--board-thickness=1/8",
         "--into=1/8", "--into=2", "--both-units"]
    ),
    max_size=6,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*HOUSING, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: --")
        assert err.count("\n") == 1
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
