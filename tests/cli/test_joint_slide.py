"""One sliding dovetail, typed: sizes worked out by hand, rods and machine settings, every option,
and every refusal in the words of the options.
"""

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

from layout.cli.slide_options import RunWords, SlopeWords, pair_choice
from layout.piece_file.case_keys import read_slide
from layout.piece_file.source import parse_toml
from tests.contract import hold
from tests.outside import judge_slides

F = Fraction
INCH = F(127, 5)
SLIDE = "joint slide --board-thickness 3/4 --into 3/4 --width 8".split()
EXAMPLE = [*SLIDE, *"--taper 1/16 --taper-over 2 --stop 1/2".split()]
# 7 in 24 has a root that is a fraction: 1 + 25/24 + 7/24 = 7/3
RODS = [*SLIDE, "--slope=7 in 24", *"--face-shoulder 1/8 --back-shoulder 1/8".split()]


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a slide, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def totals(found: dict[str, Any]) -> dict[str, Fraction]:
    """Sums by name, in inches."""
    return {one["name"].split(" (")[0]: F(one["total"]) / INCH for one in found["sums"]}


def rows(out: str) -> dict[str, str]:
    """Names and figures of what is printed before the sums; two spaces or more part them, or one
    before the longest figure.
    """
    found = {}
    for line in out.split("\n\nSums")[0].splitlines():
        name = next((one for one in sorted(NAMES, key=len, reverse=True)
                     if line.startswith(f"{one} ")), None)
        if name is not None:
            found[name] = line.removeprefix(name).strip()
    return found


_ENDS = ("", ", where it is entered", ", at the closed end")
_AT_BOTH = (
    "neck of the tail", "tip of the tail", "mouth of the socket", "socket at the bottom",
    "shoulder at the face side", "shoulder at the back", "fence to the cutter's centre, face "
    "side", "fence to the cutter's centre, back", "rods that fit the socket",
    "rods that fit the tail", "between two rods in the socket", "over two rods at the tail",
    "from a rod in the socket to its square side", "over a rod at the tail, from its square "
    "side",
)  # fmt: skip
NAMES = (
    *(f"{name}{end}" for end in _ENDS for name in _AT_BOTH),
    "socket depth", "room at the bottom", "tail length", "slope", "slope, face only",
    "slope, back only", "taper", "length of the taper", "socket stops short by, and notch",
    "slides in from", "length of travel", "cutter's side angle", "cutter height, socket",
    "cutter height, tail", "passes, face side", "passes, back",
    "mouth of the socket by the reading", "socket at the bottom by the reading",
)  # fmt: skip


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    sums = totals(found)
    deep = F(3, 4) / 3
    tail = deep - F(1, 64)
    lean = tail / 7
    neck = F(3, 4) - 2 * lean  # the tip is as thick as the board
    assert (tail, lean, neck) == (F(15, 64), F(15, 448), F(153, 224))
    assert sums["socket depth"] == F(1, 4)
    assert sums["tail length"] == tail
    assert sums["neck where it is entered"] == neck
    # 1/4 over 7 on both sides is 1/14
    assert sums["socket at the bottom"] == neck + F(1, 14) == F(169, 224)
    assert sums["neck at the closed end"] == neck - F(1, 16) == F(139, 224)


def test_the_cuts_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    cuts = {(cut["part"], cut["role"]): [[F(x) / INCH for x in point] for point in cut["hull"]]
            for cut in found["cuts"]}
    assert set(cuts) == {
        ("slider", "tail waste, face"), ("slider", "tail waste, back"),
        ("slider", "tail waste, face, taper"), ("slider", "tail waste, back, taper"),
        ("slider", "notch at the stop"), ("bearer", "slide socket"),
        ("bearer", "slide socket, taper"),
    }  # fmt: skip
    # entered from the back: closed in front, 1/2 from the face edge, tapered as far as 2 1/2
    for role, span in (("slide socket, taper", (F(1, 2), F(5, 2))), ("slide socket", (F(5, 2), 8))):
        across = [point[1] for point in cuts["bearer", role]]
        assert (min(across), max(across)) == span
        deep = [point[2] for point in cuts["bearer", role]]
        assert (min(deep), max(deep)) == (0, F(1, 4))
    low, high = (f([p[0] for p in cuts["bearer", "slide socket"]]) for f in (min, max))
    assert high - low == F(169, 224)
    notch = [point[1] for point in cuts["slider", "notch at the stop"]]
    assert (min(notch), max(notch)) == (0, F(1, 2))


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*EXAMPLE)
    assert (code, err) == (0, "")
    assert rows(out) == {
        # 153/224 is .6830, 11/16 is .6875; 169/224 is .7545; 15/448 is .0335, 1/32 is .03125
        "neck of the tail, where it is entered": "11/16 bare",
        "tip of the tail, where it is entered": "3/4",
        "mouth of the socket, where it is entered": "11/16 bare",
        "socket at the bottom, where it is entered": "3/4 full",
        "shoulder at the face side, where it is entered": "1/32 full",
        "shoulder at the back, where it is entered": "1/32 full",
        # 139/224 is .6205; 3/4 - 1/16; 155/224 is .6920; 15/448 + 1/32 is .0647
        "neck of the tail, at the closed end": "5/8 bare",
        "tip of the tail, at the closed end": "11/16",
        "mouth of the socket, at the closed end": "5/8 bare",
        "socket at the bottom, at the closed end": "11/16 full",
        "shoulder at the face side, at the closed end": "1/16 full",
        "shoulder at the back, at the closed end": "1/16 full",
        "socket depth": "1/4",
        "room at the bottom": "1/32 bare",
        "tail length": "1/4 bare",
        "slope": "1 in 7, 8.13 degrees",
        "taper": "1/16",
        "length of the taper": "2",
        "socket stops short by, and notch": "1/2",
        "slides in from": "the back",
        "length of travel": "7 1/2",
        "cutter's side angle": "8.13 degrees",
        "cutter height, socket": "1/4",
        "cutter height, tail": "1/4 bare",
    }
    assert "1. marking gauge at 1/4\n" in out
    assert "own manual, its guards and local rules come first.\n" in out
    assert "0 to stop for, 0 cautions" in out
    assert "DISAGREE" not in out


def test_the_section_fairham_tells(call) -> None:  # type: ignore[no-untyped-def]
    """William Fairham, Woodwork Joints, 1921 (later revised printing): a stopped division runs
    parallel for three quarters of its width and tapers over the last quarter.
    """
    found = told(call, *SLIDE, *"--width 14 --taper 1/8 --taper-over 3-1/2".split())
    spans = {}
    for cut in found["cuts"]:
        if cut["part"] == "bearer":
            across = [F(point[1]) / INCH for point in cut["hull"]]
            spans[cut["role"]] = max(across) - min(across)
    assert spans == {"slide socket": 14 * F(3, 4), "slide socket, taper": 14 * F(1, 4)}


# Both boards' lengths and the place along the bearer are untold, so there are no sums of them and
# no cut list.
SUBJECTS = tuple(one for one in judge_slides.SUBJECTS if one not in ("sums", "cut list"))


@pytest.mark.parametrize(
    "options",
    ["", "--stop 1/2", "--one-side face --face-shoulder 1/8", "--one-side back --enter front",
     "--face-shoulder 1/8 --back-shoulder 1/16 --taper 1/8 --taper-over 3 --stop 1",
     "--face-shoulder 1/8 --taper 1/16 --slope=8deg --enter front --stop 3/4",
     "--unit mm --width 200 --board-thickness 18 --into 20 --depth 7 --room 0"],
)  # fmt: skip
def test_the_judge_from_outside_has_no_objection(call, options: str) -> None:  # type: ignore[no-untyped-def]
    assert judge_slides.judge(told(call, *SLIDE, *options.split()), None, SUBJECTS) == []


def test_no_length_was_said(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    assert found["cut_list"] == []
    lengths = {part["length"] for part in found["parts"]}
    assert not [one for one in found["sums"] if one["total"] in lengths]
    assert [part["name"] for part in found["parts"]] == ["slider", "bearer"]
    assert not [one for one in found["sums"] if "side of the socket" in one["name"]]


# -- options


@pytest.mark.parametrize(
    ("options", "figures"),
    [
        ("--depth 3/8", {"socket depth": "3/8", "tail length": "3/8 bare"}),
        # tan 8 degrees is .140541
        ("--slope=8deg", {"slope": "1 in 7.115, 8 degrees", "cutter's side angle": "8 degrees"}),
        # one slope of 15/448: 3/4 - 15/448 is .7165, 23/32 is .71875
        ("--one-side face", {"slope, face only": "1 in 7, 8.13 degrees",
                             "neck of the tail": "23/32 bare", "shoulder at the back": "0"}),
        ("--one-side back", {"slope, back only": "1 in 7, 8.13 degrees",
                             "shoulder at the face side": "0",
                             "shoulder at the back": "1/32 full"}),
        # tip: 3/4 - 1/8 + 15/448
        ("--face-shoulder 1/8", {"neck of the tail": "19/32 bare", "tip of the tail": "21/32 full",
                                 "shoulder at the face side": "1/8"}),
        ("--face-shoulder 1/8 --back-shoulder 1/8", {"neck of the tail": "1/2",
                                                     "socket at the bottom": "9/16 full"}),
        ("--taper 1/8 --face-shoulder 1/8 --back-shoulder 1/8",
         {"taper": "1/8", "length of the taper": "8", "neck of the tail, at the closed end": "3/8",
          "shoulder at the face side, at the closed end": "3/16"}),
        ("--stop 3/8 --taper 1/8", {"length of the taper": "7 5/8", "length of travel": "7 5/8"}),
        # all of a taper on the side that slopes
        ("--taper 1/8 --one-side back --back-shoulder 1/8",
         {"shoulder at the back, at the closed end": "1/4",
          "shoulder at the face side, at the closed end": "0"}),
        ("--enter front", {"slides in from": "the front", "length of travel": "8"}),
        ("--room 0", {"room at the bottom": "0", "tail length": "1/4"}),
        ("--room 1/16", {"room at the bottom": "1/16", "tail length": "3/16"}),
        ("--unit mm --width 200 --board-thickness 18 --into 21", {"socket depth": "7",
                                                                  "tail length": "6.5"}),
        ("--both-units", {"socket depth": "1/4 in (6.5 mm bare)"}),
        ("--rule 1/64", {"tail length": "15/64"}),
    ],
)  # fmt: skip
def test_sizes_say_what_applies(call, options: str, figures: dict[str, str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*SLIDE, *options.split())
    assert (code, err) == (0, "")
    found = rows(out)
    assert {name: found.get(name) for name in figures} == figures
    assert "DISAGREE" not in out
    assert "0 to stop for" in out


@pytest.mark.parametrize(
    ("options", "written"),
    [
        ({}, "slide = {}"),
        ({"depth": "3/8", "room": "0", "stop": "1/2", "enter": "front"},
         'slide = { depth = "3/8", room = 0, stop = "1/2", enter = "front" }'),
        ({"slope": "1:6", "one_side": "back", "face_shoulder": "1/16", "back_shoulder": "1/8"},
         'slide = { slope = "1:6", slopes = "back", face_shoulder = "1/16", '
         'back_shoulder = "1/8" }'),
        ({"taper": "1/16", "taper_over": "2"}, 'slide = { taper = "1/16", taper_over = 2 }'),
    ],
)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_typed_and_written_are_the_same(
    options: dict[str, str], written: str, unit: str
) -> None:
    run = {key: value for key, value in options.items() if key in RunWords._fields}
    sloped = {key: value for key, value in options.items() if key not in run}
    found = pair_choice(RunWords("2", "3", "40", **run), SlopeWords(**sloped), unit)  # type: ignore[arg-type]
    root = parse_toml(written, "x.toml")
    want = read_slide(root.table("slide"), unit)  # type: ignore[arg-type]
    assert found.joint._replace(where=None) == want._replace(where=None)  # type: ignore[arg-type]


# -- rods


def test_rods_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *RODS, "--rods", "1/8")
    sums = totals(found)
    constant = F(7, 3)
    mouth = F(3, 4) - 2 * F(1, 8)
    bottom = mouth + 2 * F(1, 4) * F(7, 24)
    assert bottom == F(31, 48)
    assert sums["between two rods in the socket"] == bottom - F(1, 8) * constant == F(17, 48)
    assert sums["over two rods at the tail"] == mouth + F(1, 8) * constant == F(19, 24)


def test_rods_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*RODS, "--rods", "1/8", "--reading", "3/8")
    assert code == 0
    assert "\nWith rods of 1/8 in\n" in out
    found = rows(out)
    # least in the socket: its side leans 7/96, twice that over 7/3 is 1/16. Most: 31/48 less
    # 1 mm over 7/3 is .2599. Tail: twice 15/64 times 7/24 over 7/3 is .0586, next is 1/16; on a
    # shoulder of 1/8: 1/4 over 4/3.
    assert found["rods that fit the socket"] == "from 1/16 in to 1/4 in"
    assert found["rods that fit the tail"] == "from 1/16 in to 3/16 in"
    assert found["between two rods in the socket"] == "11/32 full, 0.3542 in"
    assert found["over two rods at the tail"] == "25/32 full, 0.7917 in"
    # 3/8 + 7/24 = 2/3 at the bottom; less 7/48 is 25/48
    assert found["mouth of the socket by the reading"] == "17/32 bare, 0.5208 in"
    assert found["socket at the bottom by the reading"] == "21/32 full, 0.6667 in"


def test_a_tail_is_shorter_than_its_socket_is_deep(call) -> None:  # type: ignore[no-untyped-def]
    found = rows(call(*RODS, *"--rods 1/8 --room 1/16".split())[1])
    assert found["rods that fit the socket"] == "from 1/16 in to 1/4 in"
    # 3/16 long: twice 3/16 times 7/24 over 7/3
    assert found["rods that fit the tail"] == "from 3/64 in to 3/16 in"


def test_a_rod_that_fits_the_socket_only(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*RODS, "--rods", "7/32")
    found = rows(out)
    # 31/48 less 7/32 times 7/3
    assert found["between two rods in the socket"] == "1/8 full, 0.1354 in"
    assert found["over two rods at the tail"] == "none: such a rod does not fit there"
    names = totals(told(call, *RODS, "--rods", "7/32"))
    assert "between two rods in the socket" in names
    assert "over two rods at the tail" not in names


def test_rods_where_the_run_is_tapered(call) -> None:  # type: ignore[no-untyped-def]
    for more in ("", " --taper-over 2", " --enter front --stop 1"):
        found = totals(told(call, *RODS, *f"--rods 1/8 --taper 1/16{more}".split()))
        for name, entered in (("between two rods in the socket", F(17, 48)),
                              ("over two rods at the tail", F(19, 24))):
            assert found[f"{name} where it is entered"] == entered
            assert found[f"{name} at the closed end"] == entered - F(1, 16)


def test_one_rod_where_one_side_slopes(call) -> None:  # type: ignore[no-untyped-def]
    words = [*SLIDE, "--slope=7 in 24", *"--one-side back --back-shoulder 1/8 --rods 1/8".split()]
    found = totals(told(call, *words, "--taper", "1/16"))
    # mouth 5/8, bottom 7/96 wider; half of 1/8 times 7/3 is 7/48
    assert found["from a rod in the socket to its square side where it is entered"] == (
        F(5, 8) + F(7, 96) - F(7, 48)
    )
    assert found["over a rod at the tail, from its square side at the closed end"] == (
        F(5, 8) + F(7, 48) - F(1, 16)
    )


# -- a router table


def test_the_fence_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*EXAMPLE, "--cutter", "1/2")
    found = rows(out)
    # 1/4 less 15/448 is 97/448 = .2165, 7/32 is .21875; 1/32 less at the closed end
    for side in ("face side", "back"):
        name = f"fence to the cutter's centre, {side}"
        assert found[f"{name}, where it is entered"] == "7/32 bare behind the fence"
        assert found[f"{name}, at the closed end"] == "3/16 bare behind the fence"
    assert "passes, back" not in found


def test_a_small_cutter_before_the_fence(call) -> None:  # type: ignore[no-untyped-def]
    words = "--face-shoulder 1/8 --back-shoulder 1/16 --cutter 1/8"
    found = rows(call(*SLIDE, *words.split())[1])
    assert found["fence to the cutter's centre, face side"] == "1/16 before the fence"
    assert found["fence to the cutter's centre, back"] == "0 behind the fence"
    # 1/8 and a slope of 15/448 are wider than the cutter, 1/16 and the slope are not
    assert found["passes, face side"] == "more than one: the waste is wider than the cutter"
    assert "passes, back" not in found


def test_the_cutter_is_for_sides_that_slope(call) -> None:  # type: ignore[no-untyped-def]
    found = rows(call(*SLIDE, *"--one-side back --cutter 1/2".split())[1])
    assert "fence to the cutter's centre, back" in found
    assert "fence to the cutter's centre, face side" not in found


# -- stops and refusals


@pytest.mark.parametrize(
    ("options", "rule", "words"),
    [
        ("--depth 3/4", "depth of sockets and housings", "less deep"),
        ("--face-shoulder 1/64", "tail that holds", "make that shoulder at least"),
    ],
)
def test_a_stop_is_exit_code_1(call, options: str, rule: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*SLIDE, *options.split())
    assert code == 1
    checks = out.split("\n\nChecks\n")[1].splitlines()
    assert checks[0].startswith("STOP: ")
    assert any(one.startswith("STOP: ") and rules == f"    rule: {rule}" and words in cure
               for one, rules, cure in zip(checks, checks[1:], checks[2:], strict=False))
    told(call, *SLIDE, *options.split(), code=1)


@pytest.mark.parametrize(
    ("options", "start", "end"),
    [
        ("--board-thickness 0", "--board-thickness: ", "above zero"),
        ("--into x", "--into: ", ""),
        ("--width=-6", "--width: ", "minus sign"),
        ("--width 100in", "--width: ", "--unit"),
        ("--into 1/64", "--into: the socket is no deeper than the room in it", ""),
        ("--depth 0", "--depth: ", "not '0'"),
        ("--depth 1/64", "--depth: the socket is no deeper than the room in it", ""),
        ("--room 1/4", "--room: the socket is no deeper than the room in it", ""),
        ("--room=-1", "--room: ", ""),
        ("--depth 100in", "--depth: ", "--unit"),
        ("--slope 7", "--slope: '7' alone", ""),
        ("--one-side both", "--one-side: 'both' is no side of a tail", "leave it out for both"),
        ("--face-shoulder 1/0", "--face-shoulder: ", ""),
        ("--face-shoulder 3m", "--face-shoulder: ", "--unit"),
        ("--back-shoulder x", "--back-shoulder: ", ""),
        ("--taper=-1", "--taper: ", ""),
        ("--taper-over 2", "--taper-over: there is no taper", "leave it out"),
        ("--taper 1/16 --taper-over 9", "--taper-over: the taper is longer than the run", ""),
        ("--taper 1/16 --taper-over 8 --stop 1", "--taper-over: the taper is longer", ""),
        ("--stop 8", "--stop: the stop leaves no run", "make the stop less"),
        ("--stop 9", "--stop: the stop leaves no run", ""),
        ("--enter top", "--enter: 'top' can't be chosen here", "back, front"),
        ("--rods 0", "--rods: ", "above zero"),
        ("--rods 1/64", "--rods: a rod of 1/64 in stays behind the arris of the mouth",
         "take rods from 3/64 in to 21/64 in"),
        ("--rods 1/2", "--rods: a rod of 1/2 in touches", "take rods from 3/64 in to 21/64 in"),
        # fits where it is entered, not where it has narrowed by 1/16
        ("--rods 21/64 --taper 1/16", "--rods: ", "take rods from 3/64 in to 19/64 in"),
        ("--face-shoulder 0 --back-shoulder 3/4", "--face-shoulder: nothing is left", ""),
        ("--back-shoulder 3/4", "--back-shoulder: nothing is left of the tail's neck of the slider",
         ""),
        ("--taper 3/4", "--taper: nothing is left of the tail's neck", "the taper less"),
        ("--board-thickness 1/16", "--board-thickness: nothing is left of the tail's neck", ""),
        ("--board-thickness 1/16 --depth 1/3", "--depth: nothing is left of the tail's neck", ""),
        ("--reading 1/2", "--reading: ", "give --rods as well, or leave --reading out"),
        ("--rods 1/8 --reading x", "--reading: ", ""),
        ("--rods 1/8 --reading 0", "--reading: ", "above zero"),
        ("--cutter x", "--cutter: ", ""),
        # the socket is 169/224 wide at its bottom; 1/4 over 7 twice is 1/14
        ("--cutter 1", "--cutter: a cutter of 1 is wider than the socket is at its bottom", ""),
        ("--cutter 1/16", "--cutter: nothing is left of a cutter of 1/16", ""),
        ("--unit cm", "--unit: 'cm' is no unit to work in", "write in or mm"),
        ("--rule x", "--rule: ", ""),
    ],
)  # fmt: skip
def test_refusals_name_the_option(call, options: str, start: str, end: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*SLIDE, *options.split())
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith(f"shoulderline: {start}")
    assert err.rstrip("\n").endswith(end)


def test_a_board_that_was_not_given_is_asked_for(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*"joint slide --width 6 --into 3/4".split())
    assert (code, out) == (2, "")
    assert err.startswith("shoulderline: Missing option '--board-thickness'.\n")


@pytest.mark.parametrize(
    ("words", "option"),
    [("joint slide", "--taper-over"), ("joint housing", "--stop"), ("build carcase", "--shelves")],
)
def test_every_command_has_its_help(call, words: str, option: str) -> None:  # type: ignore[no-untyped-def]
    group, command = words.split()
    _, out, _ = call(group, "--help")
    assert f"\n  {command} " in out
    _, out, _ = call(group, command, "--help")
    assert option in out


def test_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    words = [*EXAMPLE, "--write", "--out", str(tmp_path), "--paper", "A4"]
    code, out, _ = call(*words, "--formats", "pdf,svg")
    assert code == 0
    assert "read back: all" in out
    assert (tmp_path / "one-slide.pdf").stat().st_size > 0
    names = sorted(path.name for path in (tmp_path / "one-slide-svg").iterdir())
    for kind in ("card", "slide-slider-in-bearer", "bevel"):
        assert any(kind in name for name in names), kind


def test_json_stays_json_while_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    told(call, *EXAMPLE, "--write", "--out", str(tmp_path), "--formats", "svg")
    assert not (tmp_path / "one-slide.pdf").exists()
    assert list((tmp_path / "one-slide-svg").iterdir())


def test_heavy_libraries_stay_out() -> None:
    words = [*EXAMPLE, "--rods", "3/64", "--cutter", "1/2"]
    code = (
        f"import sys; sys.argv = ['shoulderline', *{words!r}]\n"
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
        ["--depth=1/8", "--depth=5/8", "--depth=1", "--slope=1:4", "--slope=14deg", "--slope=1:1",
         "--one-side=face", "--one-side=back", "--face-shoulder=0", "--face-shoulder=1/8",
         "--face-shoulder=1", "--back-shoulder=0", "--back-shoulder=1/4", "--taper=0",
         "--taper=1/16", "--taper=1", "--taper-over=2", "--taper-over=8", "--stop=1/2", "--stop=7",
         "--enter=front", "--room=0", "--room=1/8", "--rods=1/16", "--rods=1/8", "--rods=1/4",
         "--reading=1/2", "--reading=3/8", "--cutter=1/4", "--cutter=1/2", "--width=1",
         "--board-thickness=1/8", "--into=1/8", "--into=2", "--both-units", "--rule=1/8"]
    ),
    max_size=7,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*SLIDE, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: --")
        assert err.count("\n") == 1
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
