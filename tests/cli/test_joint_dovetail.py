"""One dovetailed corner, typed: sizes worked out by hand, published corners, every option, and
every refusal in the words of the options.
"""

from __future__ import annotations

import json
import subprocess
import sys
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import layout
from layout.cli.typed import IN_WORDS, in_options
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.contract import hold
from tests.outside import judge_dovetails

F = Fraction
INCH = F(127, 5)
PACKAGE = Path(layout.__file__).parent
CORNER = "joint dovetail --width 6 --tail-board 1/2 --pin-board 3/4".split()
EXAMPLE = [*CORNER, "--tails", "4", "--lapped"]


def rows(out: str) -> dict[str, str]:
    """The sizes printed before the sums, by name."""
    lines = out.split("\n\nSums")[0].splitlines()
    names = [*NAMES, *(f"{kind} {n} {at}" for kind in ("tail", "half pin") for n in range(1, 9)
                       for at in ("at the end", "at the baseline")),
             "tails 2 and 3 at the end", "tails 2 and 3 at the baseline"]
    found = {}
    for line in lines:
        name = next(n for n in sorted(names, key=len, reverse=True) if line.startswith(n))
        found[name] = line.removeprefix(name).strip()
    return found


NAMES = (
    "tails", "pins", "half pins", "tail at the end", "tail at the baseline", "pin at the end",
    "pin at the baseline", "half pin at the end", "half pin at the baseline",
    "divider step, a tail and a pin", "slope", "slope over the tail", "baseline of the tails",
    "baseline of the pins", "lap", "baseline of the tails at the rabbet",
)  # fmt: skip


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a corner, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def totals(found: dict[str, Any]) -> dict[str, Fraction]:
    """Sums by name, in inches; where both boards have one, the last."""
    return {one["name"].split(" (")[0]: F(one["total"]) / INCH for one in found["sums"]}


def places(found: dict[str, Any], part: str, face: str) -> list[Fraction]:
    """Where the tails' sides are struck on a surface, in inches from the face edge."""
    marks = [one for one in found["marks"]
             if one["part"] == part and one["face"] == face and "side of tail" in one["role"]]
    return sorted({F(one["distance"]) / INCH for one in marks})


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    sums = totals(found)
    lap = F(3, 4) / 4
    tail = F(3, 4) - lap  # 9/16
    over = tail / 7  # 9/112
    half_pin = F(1, 4) + over  # 37/112: as wide at the baseline as a whole pin
    # what is left of 6 after two half pins and three pins, shared by four
    wide = (6 - 2 * half_pin - 3 * F(1, 4)) / 4
    assert (tail, over, half_pin, wide) == (F(9, 16), F(9, 112), F(37, 112), F(257, 224))
    assert sums["tail length"] == tail
    assert sums["baseline of the pins"] == F(1, 2)
    assert sums["slope over the tail"] == over
    assert sums["half pin at the end"] == half_pin
    assert sums["half pin at the baseline"] == sums["pin at the baseline"] == F(23, 56)
    assert sums["tail at the end"] == wide
    assert sums["tail at the baseline"] == wide - 2 * over == F(221, 224)
    assert sums["divider step"] == wide + F(1, 4) == F(313, 224)
    # 4 tails, 3 pins and 2 half pins make up the width at the end and at the baseline
    assert 4 * wide + 3 * F(1, 4) + 2 * half_pin == 6
    assert 4 * F(221, 224) + 5 * F(23, 56) == 6
    assert sums["tails and pins at the baseline"] == 6


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*EXAMPLE)
    assert (code, err) == (0, "")
    assert rows(out) == {
        "tails": "4", "pins": "3", "half pins": "2",
        # 257/224 is 1.1473, and 1 5/32 is 1.15625
        "tail at the end": "1 5/32 bare",
        "tail at the baseline": "1 bare",  # 221/224
        "pin at the end": "1/4",
        "pin at the baseline": "13/32 full",  # 23/56 is .4107, 13/32 is .40625
        "half pin at the end": "11/32 bare",  # 37/112 is .3304, 11/32 is .34375
        "half pin at the baseline": "13/32 full",
        "divider step, a tail and a pin": "1 13/32 bare",  # 313/224 is 1.3973
        "slope": "1 in 7, 8.13 degrees",
        "slope over the tail": "3/32 bare",  # 9/112 is .0804, 3/32 is .09375
        "baseline of the tails": "9/16",
        "baseline of the pins": "1/2",
        "lap": "3/16",
    }
    assert "    +  3/4  thickness of the pin board\n    - 3/16  lap\n    = 9/16\n" in out
    assert "1. marking gauge at 9/16\n" in out
    assert "2. marking gauge at 1/2\n" in out
    assert "0 to stop for, 0 cautions" in out
    assert "DISAGREE" not in out


def test_ross_exercise_7(call) -> None:  # type: ignore[no-untyped-def]
    """George A. Ross, Elementary Course in Woodwork, 1901, Exercise 7, Figs. 101-102."""
    words = "joint dovetail --width 3-1/2 --tail-board 1/2 --pin-board 1/2 --slope 1:4 --tails 3"
    found = told(call, *words.split())
    # end: 3/8, 3/4, 1/4, 3/4, 1/4, 3/4, 3/8; baseline: seven times 1/2
    end = [F(3, 8), F(9, 8), F(11, 8), F(17, 8), F(19, 8), F(25, 8)]
    assert places(found, "tail-board", "end A") == end
    assert places(found, "pin-board", "end A") == [F(n, 2) for n in range(1, 7)]
    assert totals(found)["divider step"] == 1


def test_griffith_plate_40(call) -> None:  # type: ignore[no-untyped-def]
    """Ira S. Griffith, Correlated Courses in Woodwork, 1912, Part III, Plate 40 (right half)."""
    words = (
        "joint dovetail --width 3-1/2 --tail-board 1/2 --pin-board 3/4 --lap 1/4 --slope 1:4 "
        "--pin 1/8 --half-pin 1/4 --pins-at"
    )
    found = told(call, *words.split(), "1-1/4, 2-1/4")
    # at the lap 1/4, 15/16, 1/8, 7/8, 1/8, 15/16, 1/4
    end = [F(1, 4), F(19, 16), F(21, 16), F(35, 16), F(37, 16), F(13, 4)]
    assert places(found, "tail-board", "end A") == end
    # at the baseline 3/8, 11/16, 3/8, 5/8, 3/8, 11/16, 3/8
    base = [F(3, 8), F(17, 16), F(23, 16), F(33, 16), F(39, 16), F(25, 8)]
    assert places(found, "pin-board", "end A") == base
    lap = [m for m in found["marks"] if m["role"] == "lap"]
    assert [F(one["distance"]) / INCH for one in lap] == [F(1, 2)]


@pytest.mark.parametrize(
    "options",
    ["", "--tails 4 --lapped", "--rabbet-width 3/8 --rabbet-depth 1/4",
     "--lapped --groove-up 1/4 --groove-width 1/4", "--half-tails --graduated 7/8 --tails 5",
     "--pins-at=1,3 --slope=8deg", "--unit mm --width 150 --tail-board 12 --pin-board 20 --lap 5"],
)  # fmt: skip
def test_the_judge_from_outside_has_no_objection(call, options: str) -> None:  # type: ignore[no-untyped-def]
    # all but the bottom: there is none to stand in the groove
    subjects = tuple(one for one in judge_dovetails.SUBJECTS if one != "bottom")
    assert judge_dovetails.judge(told(call, *CORNER, *options.split()), subjects) == []


# -- options


@pytest.mark.parametrize(
    ("options", "figures"),
    [
        # through: the baseline is the pin board's thickness, 3/4 over 7 is 3/28
        ("--tails 3", {"tails": "3", "pins": "2", "baseline of the tails": "3/4",
                       "slope over the tail": "3/32 full", "lap": None}),
        ("--lap 1/4", {"lap": "1/4", "baseline of the tails": "1/2"}),
        ("--slope=1:6 --lap 3/8", {"slope": "1 in 6, 9.46 degrees", "slope over the tail": "1/16"}),
        # tan 8 degrees is .140541, one over it 7.11537
        ("--slope=8deg", {"slope": "1 in 7.115, 8 degrees"}),
        # 6 less 2 * 3/4 is 4 1/2
        ("--tails 1 --half-pin 3/4", {"pins": None, "tails": "1", "tail at the end": "4 1/2",
                                      "half pin at the end": "3/4",
                                      "divider step, a tail and a pin": None}),
        ("--pin 3/8", {"pin at the end": "3/8", "half pin at the end": "15/32 full"}),
        # (6 + 1/4 - 2 * (1/4 + 3/28)) / (1/2 + 1/4) is 7.4: seven
        ("--tail-width 1/2", {"tails": "7"}),
        # no half pins: (6 - 2 * 1/4) / 2 in the middle, half of that at the edges
        ("--half-tails --tails 3", {"half pins": None, "tail 1 at the end": "1 3/8",
                                    "tail 2 at the end": "2 3/4", "tail 3 at the end": "1 3/8"}),
        # weights 1/2, 1, 1, 1/2 of 6 - 2 * 1/2 - 3 * 1/4 = 4 1/4: sevenths of a half less
        ("--graduated 1/2 --tails 4 --half-pin 1/2",
         {"tail 1 at the end": "23/32 bare", "tails 2 and 3 at the end": "1 13/32 full",
          "tail 4 at the end": "23/32 bare"}),
        # 3 - 1/8 - 1/2; 6 - 3 - 1/8 - 1/2
        ("--pins-at=3 --half-pin 1/2", {"tails": "2", "tail at the end": "2 3/8"}),
        # the half pin there grows to the rabbet; 3/4 - 1/4
        ("--rabbet-width 1/2 --rabbet-depth 1/4",
         {"half pin 1 at the end": "1/2", "half pin 2 at the end": "11/32 full",
          "baseline of the tails at the rabbet": "1/2"}),
        # 1/4 - 1/32 - 9/112 = 31/224 lets the groove fall inside the tail; at least half a pin
        ("--lapped --groove-up 1/4 --groove-width 1/4",
         {"half pin 1 at the end": "1/8 full", "half pin 1 at the baseline": "7/32"}),
        ("--unit mm --width 150 --tail-board 12 --pin-board 20 --rule 0.5",
         {"baseline of the tails": "20", "baseline of the pins": "12", "pin at the end": "6"}),
        ("--rule 1/16 --both-units", {"baseline of the tails": "3/4 in (19 mm full)"}),
        ("--rule 1/64", {"slope over the tail": "7/64 bare"}),
    ],
)  # fmt: skip
def test_sizes_say_what_applies(call, options: str, figures: dict[str, str | None]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CORNER, *options.split())
    assert (code, err) == (0, "")
    found = rows(out)
    assert {name: found.get(name) for name in figures} == figures
    assert "DISAGREE" not in out
    assert "0 to stop for" in out


@pytest.mark.parametrize(("which", "other"), [("tails", "pins"), ("pins", "tails")])
def test_what_is_cut_first_is_told(call, which: str, other: str) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*CORNER, "--first", which)
    assert f"cut the {which} first" in out
    assert f"cut the {other} first" not in out


def test_no_length_was_said(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    assert found["cut_list"] == []
    lengths = {part["length"] for part in found["parts"]}
    assert not [one for one in found["sums"] if one["total"] in lengths]
    assert [part["name"] for part in found["parts"]] == ["tail board", "pin board"]


def test_a_groove_lies_in_both_boards(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *CORNER, *"--groove-up 1/2 --groove-width 1/4".split())
    cuts = {cut["part"]: cut["hull"] for cut in found["cuts"] if cut["role"] == "bottom groove"}
    spans = {
        part: [(min(F(p[i]) for p in hull) / INCH, max(F(p[i]) for p in hull) / INCH)
               for i in range(3)]
        for part, hull in cuts.items()
    }
    # half of the 1/2 board and the usual 1/4 are the same; the tail board's starts at
    # 3/4 - 1/4, so that no hole shows in the tail's end
    assert spans["tail-board"] == [(F(1, 2), F(51, 4)), (F(1, 2), F(3, 4)), (0, F(1, 4))]
    assert spans["pin-board"] == [(0, F(51, 4)), (F(1, 2), F(3, 4)), (0, F(1, 4))]
    sums = totals(found)
    assert sums["far groove wall from the face edge"] == F(3, 4)
    assert sums["start of the groove from end A"] == F(1, 2)
    _, out, _ = call(*CORNER, *"--groove-up 1/2 --groove-width 1/4".split())
    assert "mortise gauge at 1/2 and 3/4" in out
    assert "1/2 in to 3/4 in from the lower edge, lies inside tail 1" in out


@pytest.mark.parametrize(
    ("options", "rule", "words"),
    [
        ("--pin 1/64", "pins that can be cut", "at least 1/32 in"),
        ("--half-pin 1/64", "pins that can be cut", "at least 1/32 in"),
        ("--groove-up 1/4 --groove-width 1/4", "groove inside a tail", "move the groove"),
        ("--groove-up 1/2 --groove-width 6", "wood round the groove", "lower the groove"),
        ("--rabbet-width 1/2 --rabbet-depth 1/4 --half-pin 1/4", "rabbet inside the half pin",
         "or leave --half-pin out"),
        ("--rabbet-width 1/4 --rabbet-depth 1/2", "rabbet inside the half pin", "shallower"),
    ],
)  # fmt: skip
def test_a_stop_is_exit_code_1(call, options: str, rule: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*CORNER, *options.split())
    assert code == 1
    checks = out.split("\n\nChecks\n")[1].splitlines()
    # the gravest first, and no corner named where there is only one
    assert checks[0].startswith("STOP: ")
    assert "corner A" not in out
    place = checks.index(f"    rule: {rule}")
    assert checks[place - 1].startswith("STOP: ")
    assert checks[place + 1].startswith("    try: ")
    assert words in checks[place + 1]
    told(call, *CORNER, *options.split(), code=1)


@pytest.mark.parametrize(
    ("options", "start", "end"),
    [
        ("--width 0", "--width: ", "above zero"),
        ("--width=-6", "--width: ", "minus sign"),
        ("--width 1/0", "--width: ", "like 3/8"),
        ("--width 100in", "--width: ", "--unit"),
        ("--tail-board x", "--tail-board: ", ""),
        ("--pin-board 0", "--pin-board: ", "above zero"),
        ("--tails 0", "--tails: ", "from 1 to 100"),
        ("--tails=-1", "--tails: ", "from 1 to 100"),
        ("--tails 1/0", "--tails: '1/0' is not a whole number", ""),
        # eleven tails are the last with wood at the baseline: (6 - 5/7 - 10/4) / 11 > 3/14
        ("--tails 12", "--tails: 12 tails don't fit", "at most 11 tails fit with pins and half "
         "pins like these"),
        ("--tails 3 --half-pin 2-1/2", "--tails: 3 tails don't fit", "at most 2 tails fit with "
         "pins and half pins like these"),
        ("--half-pin 3", "--half-pin: there is no room for a tail", ""),
        ("--width 1/2", "--width: there is no room for a tail", ""),
        ("--half-tails --tails 1", "--tails: one tail that runs to both edges", ""),
        ("--tails 3 --tail-width 1", "--tail-width: how the tails lie is said twice, by --tails "
         "too", "keep one of --tails, --tail-width, --pins-at"),
        ("--tail-width 1 --pins-at 3", "--pins-at: how the tails lie is said twice, by "
         "--tail-width too", ""),
        ("--pins-at 3,2", "--pins-at: the pins stand so close", ""),
        ("--pins-at 1,x", "--pins-at: 'x'", ""),
        ("--pins-at 1,,2", "--pins-at: this length is empty", ""),
        ("--pins-at=3 --graduated 7/8", "--graduated: ", "leave out --graduated, or --pins-at"),
        ("--graduated 2", "--graduated: '2' is no share", "e.g. --graduated 7/8"),
        ("--graduated 1/0", "--graduated: '1/0' is no share", ""),
        ("--half-tails --half-pin 1/4", "--half-pin: a half pin does not go with --half-tails", ""),
        ("--slope 7", "--slope: '7' alone", ""),
        ("--slope 1:0", "--slope: '1:0' is no slope", ""),
        ("--slope 60deg", "--slope: ", "30 degrees"),
        ("--slope=", "--slope: this text is empty", '--slope 1:7 or "8 degrees"'),
        ("--pin 0", "--pin: ", "not '0'"),
        ("--half-pin 1/0", "--half-pin: ", ""),
        ("--lap 0", "--lap: ", ""),
        ("--lap 3/4", "--lap: the lap takes the whole thickness of the pin board", ""),
        ("--lap 2 --tails 3", "--lap: the lap takes the whole thickness of the pin board", ""),
        ("--first sides", "--first: 'sides' can't be chosen here", "tails, pins"),
        ("--groove-up 1/4", "--groove-up: ", "give --groove-width as well, or leave --groove-up "
         "out"),
        ("--groove-width 1/4", "--groove-width: ", "give --groove-up as well, or leave "
         "--groove-width out"),
        ("--rabbet-depth 1/4", "--rabbet-depth: ", "give --rabbet-width as well, or leave "
         "--rabbet-depth out"),
        ("--rabbet-width 0", "--rabbet-width: ", ""),
        ("--groove-up 1/4 --groove-width 1/4 --rabbet-width 3/8 --rabbet-depth 1/4",
         "--groove-up: the groove begins inside the rabbet", ""),
        ("--unit cm", "--unit: 'cm' is no unit to work in", "write in or mm"),
        ("--rule x", "--rule: ", ""),
    ],
)  # fmt: skip
def test_refusals_name_the_option(call, options: str, start: str, end: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CORNER, *options.split())
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith(f"shoulderline: {start}")
    assert err.rstrip("\n").endswith(end)


def test_a_board_that_was_not_given_is_asked_for(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*"joint dovetail --width 6 --pin-board 3/4".split())
    assert (code, out) == (2, "")
    assert err.startswith("shoulderline: Missing option '--tail-board'.\n")


# -- typed and written


@pytest.mark.parametrize(
    ("options", "written"),
    [
        ("", ""),
        ("--tails 5 --slope=1:8", 'tails = 5, slope = "1:8"'),
        ("--lap 1/8 --tails 4", 'lap = "1/8", tails = 4'),
        ("--tail-width 3/4 --graduated 7/8", 'tail_width = "3/4", graduated = "7/8"'),
        ("--half-tails --first pins", 'edges = "half tails", first = "pins"'),
        ("--pins-at=2,4 --pin 3/16", 'pins_at = [2, 4], pin = "3/16"'),
        ("--half-pin 1/2", 'half_pin = "1/2"'),
    ],
)  # fmt: skip
def test_typed_and_written_share_the_same_tails(call, options: str, written: str) -> None:  # type: ignore[no-untyped-def]
    from layout.piece import work_out

    text = f"""
piece = "x"
unit = "in"
[[chest]]
length = 20
depth = 20
height = 6
thickness = "1/2"
end_thickness = "3/4"
dovetails = {{ {written} }}
"""
    corner = work_out(piece_from(parse_toml(text, "x.toml"))).corners[0]
    width = [one.end / INCH for one in corner.spacing.members]
    base = [one.base / INCH for one in corner.spacing.members]
    found = told(call, *CORNER, *options.split())
    ends = [0, *places(found, "tail-board", "end A"), 6]
    bases = [0, *places(found, "pin-board", "end A"), 6]
    assert [b - a for a, b in pairwise(ends)] == width
    assert [b - a for a, b in pairwise(bases)] == base


def test_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    words = [*EXAMPLE, "--write", "--out", str(tmp_path), "--paper", "A4"]
    code, out, _ = call(*words, "--formats", "pdf,svg")
    assert code == 0
    assert "read back: all" in out
    assert (tmp_path / "one-corner.pdf").stat().st_size > 0
    names = sorted(path.name for path in (tmp_path / "one-corner-svg").iterdir())
    assert any("tails" in name for name in names)
    assert any("pins" in name for name in names)
    assert any("card" in name for name in names)
    assert any("bevel" in name for name in names)


def test_json_stays_json_while_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    words = [*EXAMPLE, "--write", "--out", str(tmp_path), "--formats", "svg"]
    told(call, *words)
    assert not (tmp_path / "one-corner.pdf").exists()
    assert list((tmp_path / "one-corner-svg").iterdir())


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


# -- words


def test_what_a_file_is_told_to_say_is_still_said_there() -> None:
    """Each phrase that is put into options stands in the package, or it would never be met."""
    sources = [path for path in PACKAGE.rglob("*.py") if path.name != "typed.py"]
    text = "\n".join(path.read_text(encoding="utf-8") for path in sources).replace('\\"', '"')
    for written, _ in IN_WORDS:
        known = written.replace("by tails too", "by {given[0]} too")
        assert known in text, written


@pytest.mark.parametrize(
    ("written", "typed"),
    [
        ('write style = "set in", or', 'write --style "set in", or'),
        ('write style = "lipped"', "write --style lipped"),
        ("lip does not go with", "--lip does not go with"),
        ("leave half_pin out", "leave --half-pin out"),
        # not a key by itself, not the maker's own words
        ("the lip is thin", "the lip is thin"),
        ("'half_pin' can't be chosen", "'half_pin' can't be chosen"),
        ("half_pins", "half_pins"),
    ],
)
def test_words_of_options(written: str, typed: str) -> None:
    flags = {"style": "--style", "lip": "--lip", "dovetails.half_pin": "--half-pin"}
    assert in_options(written, flags) == typed


# -- commands that wait


def test_every_command_is_listed_and_has_its_options(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call("--help")
    commands = ("packet", "card", "sticks", "templates", "sums", "check", "numbers", "kit",
                "joint", "build")
    assert [word for word in commands if f"\n  {word} " not in out] == []
    for words, option in (
        (("joint", "tenon"), "--rail-width"),
        (("joint", "dovetail"), "--tail-board"),
        (("build", "drawer"), "--runners"),
        (("packet",), "--paper"),
    ):
        _, out, _ = call(*words, "--help")
        assert option in out


def test_a_command_that_was_misspelt_is_guessed(call) -> None:  # type: ignore[no-untyped-def]
    code, _, err = call("joint", "dovetial")
    assert code == 2
    assert "Did you mean 'dovetail'?" in err


FLAGS = st.lists(
    st.sampled_from(
        ["--tails=1", "--tails=3", "--tails=9", "--tail-width=1/2", "--pins-at=1,3", "--pins-at=5",
         "--pin=1/64", "--pin=1", "--half-pin=1/8", "--half-pin=2", "--graduated=1/2",
         "--graduated=7/8", "--half-tails", "--lap=1/8", "--lap=5/8", "--lapped", "--first=pins",
         "--groove-up=1/4", "--groove-up=3", "--groove-width=1/4", "--rabbet-width=3/8",
         "--rabbet-depth=1/4", "--rabbet-depth=1", "--slope=1:4", "--slope=14deg", "--slope=1:1",
         "--width=1", "--tail-board=1/8", "--pin-board=3", "--both-units", "--rule=1/8"]
    ),
    max_size=7,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CORNER, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: --")
        assert err.count("\n") == 1
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
