"""One carcase, typed: a cut list worked out by hand, the same carcase from a piece file, every
option, and every refusal in the words of the options.
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

from layout.cli.carcase import CarcaseWords, carcase_choice
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.contract import hold
from tests.outside import judge_slides

F = Fraction
INCH = F(127, 5)
CASE = "build carcase --width 30 --height 36 --depth 12 --thickness 3/4".split()
EXAMPLE = [*CASE, *"--tails 5 --back 1/4 --shelves 2".split()]
SLID = [*CASE, *"--slide --top-in 1 --bottom-in 2".split()]


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a carcase, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def sizes(found: dict[str, Any]) -> dict[str, tuple[Fraction, ...]]:
    """Thickness, width and length of every row of the cut list, in inches."""
    return {
        row["name"]: tuple(F(row[key]) / INCH for key in ("thickness", "width", "length"))
        for row in found["cut_list"]
    }


def totals(found: dict[str, Any]) -> dict[str, Fraction]:
    """Sums by name, in inches; of several with one name, the last."""
    return {one["name"].split(" (")[0]: F(one["total"]) / INCH for one in found["sums"]}


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    inside, high = 30 - 2 * F(3, 4), 36 - 2 * F(3, 4)
    tail = F(3, 4) / 3 - F(1, 64)  # of a shelf
    assert (inside, high, tail) == (F(57, 2), F(69, 2), F(15, 64))
    thick = F(3, 4)
    assert sizes(found) == {
        "carcase side": (thick, 12, 36),
        "carcase top": (thick, 12, 30),
        "carcase bottom": (thick, 12, 30),
        # into both rabbets of 3/8, less room of 1/16
        "carcase back": (F(1, 4), inside + F(3, 4) - F(1, 16), high + F(3, 4) - F(1, 16)),
        # as far as the back
        "shelf 1": (thick, 12 - F(1, 4), inside + 2 * tail),
        "shelf 2": (thick, 12 - F(1, 4), inside + 2 * tail),
    }
    # two shelves between: a third of what they leave
    clear = (high - 2 * thick) / 3
    assert clear == totals(found)["clear between the shelves"] == 11
    low = {part["name"]: F(part["origin"][2]) / INCH for part in found["parts"]}
    # the origin of a shelf is on its top
    assert low["shelf 1"] == thick + 11 + thick
    assert low["shelf 2"] == thick + 2 * (11 + thick)


def test_the_example_s_dovetails_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    sums = totals(told(call, *EXAMPLE))
    over = F(3, 4) / 7
    half = F(1, 4) + over  # 5/14, wider than the back's rabbet of 1/4
    wide = (12 - 2 * half - 4 * F(1, 4)) / 5
    assert (over, half, wide) == (F(3, 28), F(5, 14), F(72, 35))
    assert sums["tail at the end"] == wide
    assert sums["tail at the baseline"] == wide - 2 * over == F(129, 70)
    assert sums["half pin at the end"] == half
    # the rabbet is 3/8 deep
    assert sums["baseline at the rabbet"] == F(3, 4) - F(3, 8)


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*EXAMPLE)
    assert (code, err) == (0, "")
    assert out.startswith(
        "Cut list, finished sizes\n"
        "2 × carcase side    3/4 ×      12 ×       36  1 left hand, 1 right hand\n"
        "1 × carcase top     3/4 ×      12 ×       30\n"
    )
    corners = out.split("\nCorners\n")[1].split("\n\n")[0]
    assert "tails                                                  5\n" in corners
    # 72/35 is 2.0571
    assert "tail at the end                              2 1/16 bare\n" in corners
    shelves = out.split("\nShelves in the sides\n")[1].split("\n\n")[0]
    assert shelves.startswith("clear between the shelves            11\n")
    assert "housing depth                       1/4\n" in shelves
    assert "marking gauge at 11 3/4\n" in out
    assert "0 to stop for, 0 cautions" in out
    assert "DISAGREE" not in out


def test_a_slid_carcase_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *SLID, *"--back 1/4 --back-boards 3 --shelves 1".split())
    inside, tail = F(57, 2), F(15, 64)
    high = 36 - 2 * F(3, 4) - 1 - 2  # between bottom and top
    assert sizes(found) == {
        "carcase side": (F(3, 4), 12, 36),
        # narrower by the back, which goes over their back edges
        "carcase top": (F(3, 4), F(47, 4), inside + 2 * tail),
        "carcase bottom": (F(3, 4), F(47, 4), inside + 2 * tail),
        "carcase back board": (F(1, 4), (inside + F(3, 4) - F(1, 16)) / 3, high + F(3, 2)),
        "shelf 1": (F(3, 4), F(47, 4), inside + 2 * tail),
    }
    assert totals(found)["clear between the shelves"] == (high - F(3, 4)) / 2 == F(123, 8)


@pytest.mark.parametrize(
    "words",
    [EXAMPLE, SLID, [*SLID, *"--back 1/4 --back-boards 3 --shelves 1".split()],
     [*CASE, *"--housing --top-in 1/2 --bottom-in 3 --shelves 3".split()],
     [*CASE, "--tails-on", "top and bottom", "--lap", "1/4", "--back", "3/8"],
     [*CASE, *"--unit mm --width 900 --height 360 --depth 210 --thickness 18 --pin 8".split()]],
)
def test_the_judge_from_outside_has_no_objection(call, words: list[str]) -> None:  # type: ignore[no-untyped-def]
    assert judge_slides.judge(told(call, *words)) == []


# -- options


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("--tails 4", "\ntails                                             4\n"),
        ("--slope 1:6", "1 in 6, 9.46 degrees"),
        ("--pin 3/8", "\npin at the end                                  3/8\n"),
        ("--lap 1/4", "\nlap                                             1/4\n"),
        ("--tails-on=top~and~bottom", "cut the tails first (carcase top and carcase bottom)"),
        ("--slide --top-in 1 --bottom-in 1", "\nTop and bottom in the sides\nneck of the tail "),
        ("--slide --top-in 1 --bottom-in 1 --slope 1:6", "1 in 6, 9.46 degrees"),
        ("--housing", "\nhoused thickness, and housing       3/4\n"),
        ("--housing --top-in 2", "    -      2  top below the sides' ends\n"),
        ("--housing --bottom-in 2", "    + 2  bottom above the sides' ends\n"),
        ("--back 3/8", "\n1 × carcase back    3/8 × 29 3/16 × 35 3/16"),
        ("--back 3/8 --back-boards 4", "\n4 × carcase back board  3/8 × 7 5/16 bare × 35 3/16"),
        ("--shelves 3", "\nclear between the shelves        8 1/16\n"),
        ("--rule 1/64", "inches, shown to 1/64 in"),
        ("--both-units", "3/4 in (19 mm full)"),
        ("--unit mm --width 900 --height 360 --depth 210 --thickness 18",
         "2 × carcase side    18 × 210 × 360"),
    ],
)  # fmt: skip
def test_what_is_printed_follows_each_option(call, options: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CASE, *(word.replace("~", " ") for word in options.split()))
    assert (code, err) == (0, "")
    assert words in out
    assert "DISAGREE" not in out


def test_one_shelf_stands_in_the_middle(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *CASE, "--shelves", "1")
    # (34 1/2 - 3/4) / 2
    assert totals(found)["clear between the shelves"] == F(135, 8)


BASE = CarcaseWords("30", "36", "12", "3/4")


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        (BASE, ""),
        (BASE._replace(tails="5", slope="1:6", pin="1/8", lap="1/4"),
         'dovetails = { tails = 5, slope = "1:6", pin = "1/8", lap = "1/4" }'),
        (BASE._replace(tails_on="top and bottom"), 'tails_on = "top and bottom"'),
        (BASE._replace(slide=True, slope="1:8", top_in="1", bottom_in="0"),
         'slide = { slope = "1:8" }\ntop_in = 1\nbottom_in = 0'),
        (BASE._replace(housing=True), "housing = {}"),
        (BASE._replace(back="1/4", back_boards="3"), 'back = { thickness = "1/4", boards = 3 }'),
    ],
)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_typed_and_written_are_the_same_carcase(
    typed: CarcaseWords, written: str, unit: str
) -> None:
    text = f"""
piece = "x"
unit = "{unit}"
[[carcase]]
width = 30
height = 36
depth = 12
thickness = "3/4"
{written}
"""
    (case,) = piece_from(parse_toml(text, "x.toml")).carcases
    found = carcase_choice(typed, unit)  # type: ignore[arg-type]

    def nowhere(choice: Any) -> Any:
        slid = choice.slid and choice.slid._replace(where=None)
        return choice._replace(where=None, joint=choice.joint._replace(where=None), slid=slid)

    assert nowhere(found) == nowhere(case)


# -- stops and refusals


@pytest.mark.parametrize(
    ("options", "rule", "words"),
    [
        ("--slide", "wood beside sockets", "move it away from the end"),
        ("--pin 1/64", "pins that can be cut", ""),
    ],
)
def test_a_stop_is_exit_code_1(call, options: str, rule: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*CASE, *options.split())
    assert code == 1
    checks = out.split("\n\nChecks\n")[1].splitlines()
    place = checks.index(f"    rule: {rule}")
    assert checks[place - 1].startswith("STOP: ")
    assert words in checks[place + 1]
    told(call, *CASE, *options.split(), code=1)


@pytest.mark.parametrize(
    ("options", "start", "end"),
    [
        ("--width 0", "--width: ", "not '0'"),
        ("--width 1/0", "--width: ", ""),
        ("--height=-4", "--height: ", ""),
        ("--depth x", "--depth: ", ""),
        ("--thickness 0", "--thickness: ", ""),
        ("--width 1", "--width: the boards of the carcase leave nothing between them", ""),
        ("--height 1-1/2", "--height: the boards of the carcase leave nothing", ""),
        ("--width 50m", "--width: ", "check the sizes and --unit"),
        ("--height 50m", "--height: ", "check the sizes and --unit"),
        ("--depth 3m", "--depth: ", "check it and --unit"),
        ("--thickness 3m", "--thickness: ", "check it and --unit"),
        ("--housing --top-in 3m", "--top-in: ", "check it and --unit"),
        ("--housing --bottom-in 3m", "--bottom-in: ", "check it and --unit"),
        ("--housing --bottom-in 35", "--height: the boards of the carcase leave nothing", ""),
        ("--slope 7", "--slope: '7' alone", ""),
        ("--slide --slope 7", "--slope: '7' alone", ""),
        ("--housing --slope 1:7", "--slope: a square housing has no slope", ""),
        ("--pin 0", "--pin: ", ""),
        ("--tails 0", "--tails: ", "from 1 to 100"),
        ("--tails 90", "--tails: 90 tails don't fit", ""),
        ("--depth 1/2", "--depth: there is no room for a tail", ""),
        ("--lap 3/4", "--lap: the lap takes the whole thickness of the pin board", ""),
        ("--lap 0", "--lap: ", ""),
        ("--tails-on doors", "--tails-on: 'doors' can't be chosen here", "sides, top and bottom"),
        ("--slide --housing", "--housing: ", "leave --slide or --housing out"),
        ("--slide --tails 4", "--tails: --tails goes with dovetailed corners",
         "leave it or --slide out"),
        ("--housing --pin 1/4", "--pin: --pin goes with dovetailed corners",
         "leave it or --housing out"),
        ("--slide --lap 1/4", "--lap: --lap goes with dovetailed corners", ""),
        ("--slide --tails-on sides", "--tails-on: --tails-on goes with dovetailed corners", ""),
        ("--top-in 1", "--top-in: --top-in goes with boards slid into the sides", ""),
        ("--bottom-in 1", "--bottom-in: ", "write --slide or --housing too, or leave it out"),
        ("--slide --top-in x", "--top-in: ", ""),
        ("--housing --bottom-in=-1", "--bottom-in: ", ""),
        ("--slide --thickness 1/32", "--thickness: the sockets are no deeper than the room", ""),
        ("--back 0", "--back: ", ""),
        ("--back 12", "--back: the back of the carcase takes its whole depth", "make it thinner"),
        ("--back 3m", "--back: ", "check it and --unit"),
        ("--back 1/4 --back-boards 0", "--back-boards: ", "from 1 to 30"),
        ("--back-boards 3", "--back-boards: there is no back", "leave --back-boards out"),
        ("--shelves 0", "--shelves: ", "from 1 to 30"),
        ("--shelves two", "--shelves: 'two' is not a whole number", ""),
        # 10 1/2 between bottom and top: 13 shelves of 3/4 leave 3/4, 14 nothing
        ("--height 12 --shelves 14", "--shelves: 14 shelves leave nothing between them",
         "take at most 13"),
        ("--shelves 1 --thickness 1/32", "--shelves: the socket for the shelf 1 is no deeper", ""),
        ("--unit cm", "--unit: ", "in or mm"),
        ("--rule 1/7", "--rule: ", ""),
    ],
)  # fmt: skip
def test_refusals_name_the_option(call, options: str, start: str, end: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CASE, *options.split())
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith(f"shoulderline: {start}")
    assert err.rstrip("\n").endswith(end)


def test_a_size_that_was_not_given_is_asked_for(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*"build carcase --width 30 --height 36 --depth 12".split())
    assert (code, out) == (2, "")
    assert err.startswith("shoulderline: Missing option '--thickness'.\n")


@pytest.mark.parametrize("words", [EXAMPLE, SLID])
def test_every_kind_of_sheet_is_written(call, tmp_path: Path, words: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(
        *words, "--write", "--out", str(tmp_path), "--formats", "svg", "--paper", "A4"
    )
    assert code == 0
    assert out.startswith("Cut list")
    names = [path.name for path in (tmp_path / "one-carcase-svg").iterdir()]
    own = ("tails", "pins", "housing") if words is EXAMPLE else ("slide",)
    for kind in ("the-whole", "cut-list", "sums", "checks", "card", "stick", "bevel", *own):
        assert any(kind in name for name in names), kind
    assert not (tmp_path / "one-carcase.pdf").exists()


@pytest.mark.parametrize("words", [EXAMPLE, SLID])
def test_heavy_libraries_stay_out(words: list[str]) -> None:
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
        ["--tails=1", "--tails=9", "--slope=1:4", "--pin=1/64", "--pin=1", "--lap=1/8",
         "--lap=5/8", "--tails-on=top and bottom", "--slide", "--housing", "--top-in=0",
         "--top-in=1", "--bottom-in=3", "--bottom-in=40", "--back=1/4", "--back=1", "--back=12",
         "--back-boards=2", "--back-boards=9", "--shelves=1", "--shelves=4", "--shelves=30",
         "--width=3", "--height=9", "--depth=2", "--thickness=1/4", "--thickness=2",
         "--both-units"]
    ),
    max_size=6,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*CASE, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: --")
        assert err.count("\n") == 1
        assert " = " not in err  # no key of a piece file
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
        cures = [line for line in out.splitlines() if line.startswith("    try: ")]
        assert not [line for line in cures if ' = "' in line or "{}" in line]
