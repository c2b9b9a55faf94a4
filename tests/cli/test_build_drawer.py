"""One drawer, typed: a cut list worked out by hand, the same drawer from a piece file, every
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

from layout.cli.dovetail_options import SpacingWords
from layout.cli.drawer import DrawerWords, drawer_choice
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.contract import hold
from tests.outside import judge_dovetails

F = Fraction
INCH = F(127, 5)
OPENING = "build drawer --width 18 --height 4 --depth 16".split()
EXAMPLE = [*OPENING, "--tails", "2"]


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a drawer, held against the schema."""
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


def totals(found: dict[str, Any], part: str) -> dict[str, list[Fraction]]:
    """The sums of one part, in inches."""
    sums: dict[str, list[Fraction]] = {}
    for one in found["sums"]:
        if one["part"] == part:
            sums.setdefault(one["name"].split(" (")[0], []).append(F(one["total"]) / INCH)
    return sums


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    wide, high = 18 - F(1, 16), 4 - F(1, 16)
    lap = F(3, 4) / 4  # 3/16
    side = 16 - F(1, 2) - lap  # the depth, less the room behind and the lap
    # above the groove and its width, less the drop
    back = high - F(1, 4) - F(1, 4) - F(1, 4)
    # between the sides, into both grooves, less the room
    across = wide - 2 * F(1, 2) + 2 * F(1, 4) - F(1, 16)
    # the side without its tails, into the front's groove, to the back's outside
    along = side - (F(3, 4) - lap) + F(1, 4)
    assert (wide, high, side, back, across, along) == (
        F(287, 16), F(63, 16), F(245, 16), F(51, 16), F(139, 8), 15,
    )  # fmt: skip
    assert sizes(found) == {
        "drawer front": (F(3, 4), high, wide),
        "drawer side": (F(1, 2), high, side),
        "drawer back": (F(1, 2), back, wide),
        "drawer bottom": (F(1, 4), along, across),
    }
    assert [row["count"] for row in found["cut_list"]] == [1, 2, 1, 1]


def test_the_example_s_dovetails_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    over = F(9, 16) / 7  # 9/112
    near = F(1, 4) - F(1, 32) - over  # the groove stays clear of the tail's side
    far = F(1, 4) + over
    wide = (F(63, 16) - near - far - F(1, 4)) / 2
    assert (near, far, wide) == (F(31, 224), F(37, 112), F(721, 448))
    sums = totals(found, "drawer-left-side")
    assert sums["half pin 1 at the end"] == [near]
    assert sums["half pin 2 at the end"] == [far]
    assert sums["tail at the end"][0] == wide
    assert sums["tail at the baseline"][0] == wide - 2 * over == F(649, 448)
    # at the baseline the half pin below ends 1/32 under the groove
    assert sums["half pin 1 at the baseline"] == [F(7, 32)]
    # behind: through, 1/2 over 7 is 1/14; 51/16 wide
    half = F(1, 4) + F(1, 14)
    assert sums["half pin at the end"] == [half] == [F(9, 28)]
    assert sums["tail at the end"][1] == (F(51, 16) - 2 * half - F(1, 4)) / 2 == F(257, 224)


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*EXAMPLE)
    assert (code, err) == (0, "")
    assert out.startswith(
        "Cut list, finished sizes\n"
        "1 × drawer front   3/4 × 3 15/16 × 17 15/16\n"
        "2 × drawer side    1/2 × 3 15/16 ×  15 5/16  1 left hand, 1 right hand\n"
        "1 × drawer back    1/2 ×  3 3/16 × 17 15/16\n"
        "1 × drawer bottom  1/4 ×      15 ×   17 3/8\n"
        "\nFront corners\ntails "
    )
    front, back = (
        dict(line.rsplit("  ", 1) for line in part.splitlines())
        for part in out.split("\n\nSums")[0].split(" corners\n")[1:]
        for part in [part.split("\n\n")[0]]
    )
    front = {name.strip(): figure.strip() for name, figure in front.items()}
    back = {name.strip(): figure.strip() for name, figure in back.items()}
    assert (front["lap"], front["baseline of the tails"], front["tails"]) == ("3/16", "9/16", "2")
    assert (back["baseline of the tails"], back["baseline of the pins"]) == ("1/2", "1/2")
    assert "lap" not in back
    assert "    +      16  depth for the drawer\n" in out
    assert "1. marking gauge at 9/16\n" in out
    assert "mortise gauge at 1/4 and 1/2\n" in out
    assert "0 to stop for, 0 cautions" in out
    assert "DISAGREE" not in out


@pytest.mark.parametrize(
    "options",
    ["--tails 2", "--style lipped --slips", "--through --stopped", "--bottom solid --runners 7/8",
     "--unit mm --width 450 --height 100 --depth 400 --lap 6"],
)
def test_the_judge_from_outside_has_no_objection(call, options: str) -> None:  # type: ignore[no-untyped-def]
    assert judge_dovetails.judge(told(call, *OPENING, *options.split())) == []


# -- options


@pytest.mark.parametrize(
    ("options", "figures"),
    [
        ("--front 7/8", {"drawer front": (F(7, 8), F(63, 16), F(287, 16))}),
        # a lap of 7/32 from a front of 7/8
        ("--front 7/8 --sides 3/8",
         {"drawer side": (F(3, 8), F(63, 16), F(31, 2) - F(7, 32)),
          "drawer back": (F(3, 8), F(51, 16), F(287, 16))}),
        ("--back 3/8", {"drawer back": (F(3, 8), F(51, 16), F(287, 16)),
                        "drawer side": (F(1, 2), F(63, 16), F(245, 16))}),
        ("--set-in 1/8 --style=set~in", {"drawer side": (F(1, 2), F(63, 16), F(243, 16))}),
        # the lip stands before the opening, and its 1/4 is the lap: 16 - 1/2 + 1/4 - 1/4
        ("--style lipped", {"drawer front": (F(3, 4), F(75, 16), F(299, 16)),
                            "drawer side": (F(1, 2), F(63, 16), F(31, 2))}),
        ("--style lipped --lip 1/2 --lip-thickness 3/8 --front 7/8",
         {"drawer front": (F(7, 8), F(79, 16), F(303, 16)),
          "drawer side": (F(1, 2), F(63, 16), F(31, 2))}),
        ("--bottom solid --bottom-thickness 3/8 --tongue 1/4 --groove-up 3/8",
         {"drawer bottom": (F(3, 8), F(15), F(139, 8)),
          # 63/16 - 3/8 - 1/4 - 1/4
          "drawer back": (F(1, 2), F(49, 16), F(287, 16))}),
        # half of a slip of 3/8 is a groove of 3/16
        ("--slips", {"drawer slip": (F(3, 8), F(11, 16), F(57, 4)),
                     "drawer bottom": (F(1, 4), F(239, 16), F(33, 2))}),
        ("--runners 7/8", {"drawer runner": (F(7, 8), F(3, 2), F(16))}),
        ("--lap 1/4", {"drawer side": (F(1, 2), F(63, 16), F(61, 4))}),
        ("--through --stopped", {"drawer side": (F(1, 2), F(63, 16), F(31, 2))}),
        ("--room-wide 1/8", {"drawer back": (F(1, 2), F(51, 16), F(143, 8))}),
        ("--room-high 1/8", {"drawer side": (F(1, 2), F(31, 8), F(245, 16))}),
        ("--room-behind 0", {"drawer side": (F(1, 2), F(63, 16), F(253, 16))}),
        ("--drop 0", {"drawer back": (F(1, 2), F(55, 16), F(287, 16))}),
    ],
)  # fmt: skip
def test_the_cut_list_follows_each_option(call, options: str, figures: Any) -> None:  # type: ignore[no-untyped-def]
    words = [word.replace("~", " ") for word in options.split()]
    found = sizes(told(call, *OPENING, *words))
    assert {name: found[name] for name in figures} == figures


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("--tails 3", "\ntails                                             3\n"),
        ("--tail-width 3/4", "\ntails                                             4\n"),
        ("--slope 1:6", "1 in 6, 9.46 degrees"),
        ("--pin 3/16", "\npin at the end                                 3/16\n"),
        ("--half-pin 1/8", "\nhalf pin at the end                             1/8\n"),
        ("--rule 1/64", "inches, shown to 1/64 in"),
        ("--both-units", "3/4 in (19 mm full)"),
        ("--unit mm --width 450 --height 100 --depth 400", "2 × drawer side    12 × 98.5 ×   383"),
        ("--through --half-pin 1/8", "the front's dovetails are through"),
    ],
)
def test_what_is_printed_follows_each_option(call, options: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*OPENING, *options.split())
    assert code == 0
    assert words in out
    assert "DISAGREE" not in out


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        (DrawerWords("18", "4", "16"), ""),
        (DrawerWords("18", "4", "16", front="7/8", sides="3/8", back="1/4"),
         'front = "7/8"\nsides = "3/8"\nback = "1/4"'),
        (DrawerWords("18", "4", "16", style="set in", set_in="1/8"),
         'style = "set in"\nset_in = "1/8"'),
        (DrawerWords("18", "4", "16", style="lipped", lip="1/2", lip_thickness="3/16"),
         'style = "lipped"\nlip = "1/2"\nlip_thickness = "3/16"'),
        (DrawerWords("18", "4", "16", bottom="solid", bottom_thickness="3/8", tongue="1/4",
                     groove_up="3/8", stopped=True, slips=True),
         'bottom = { kind = "solid", thickness = "3/8", tongue = "1/4", up = "3/8", run = "stopped"'
         ", slips = {} }"),
        (DrawerWords("18", "4", "16", runners="7/8"), 'runners = { thickness = "7/8" }'),
        (DrawerWords("18", "4", "16", lap="1/4",
                     spacing=SpacingWords("1:6", "1/8", "3/16", "3")),
         'dovetails = { slope = "1:6", pin = "1/8", half_pin = "3/16", tails = 3 }\n'
         'front_dovetails = { lap = "1/4" }'),
        (DrawerWords("18", "4", "16", spacing=SpacingWords(tail_width="1")),
         "dovetails = { tail_width = 1 }"),
        (DrawerWords("18", "4", "16", through=True), "front_dovetails = { lap = false }"),
        (DrawerWords("18", "4", "16", room_wide="0", room_high="1/8", room_behind="1", drop="0"),
         'room_wide = 0\nroom_high = "1/8"\nroom_behind = 1\ndrop = 0'),
    ],
)  # fmt: skip
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_typed_and_written_are_the_same_drawer(typed: DrawerWords, written: str, unit: str) -> None:
    text = f"""
piece = "x"
unit = "{unit}"
[[drawer]]
space = {{ width = 18, height = 4, depth = 16 }}
{written}
"""
    (drawer,) = piece_from(parse_toml(text, "x.toml")).drawers
    found = drawer_choice(typed, unit)  # type: ignore[arg-type]

    def nowhere(choice: Any) -> Any:
        joints = {key: getattr(choice, key)._replace(where=None)
                  for key in ("front_joint", "back_joint")}
        return choice._replace(where=None, **joints)

    assert nowhere(found) == nowhere(drawer)


@pytest.mark.parametrize(
    ("options", "rule", "words"),
    [
        ("--half-pin 1/2", "groove inside a tail", "write --stopped; with its"),
        ("--style lipped --lap 1/8", "drawer front against the opening", "the lip thinner"),
        ("--pin 1/64", "pins that can be cut", ""),
        ("--bottom solid --bottom-thickness 1/2 --tongue 1/8 --groove-up 1/4",
         "bottom against its groove", "raise the groove"),
    ],
)  # fmt: skip
def test_a_stop_is_exit_code_1(call, options: str, rule: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*OPENING, *options.split())
    assert code == 1
    checks = out.split("\n\nChecks\n")[1].splitlines()
    place = checks.index(f"    rule: {rule}")
    assert checks[place - 1].startswith("STOP: ")
    assert words in checks[place + 1]
    told(call, *OPENING, *options.split(), code=1)


@pytest.mark.parametrize(
    ("options", "start", "end"),
    [
        ("--width 0", "--width: ", "not '0'"),
        ("--width 1/0", "--width: '1/0' has 0 under its fraction bar", ""),
        ("--height=-4", "--height: '-4' is below zero", ""),
        ("--depth x", "--depth: ", ""),
        ("--width 1", "--width: the drawer would", ""),
        ("--height 3/4", "--height: the drawer would", "or make the opening higher"),
        ("--depth 1", "--depth: the drawer would", ""),
        ("--depth 1 --height 3/4", "--depth: the drawer would", ""),
        ("--depth 1 --height 1/16", "--height: the drawer would", ""),
        ("--width 50m", "--width: ", "check it and --unit"),
        ("--sides 3m", "--sides: ", "check it and --unit"),
        ("--runners 3m", "--runners: ", "check it and --unit"),
        ("--bottom-thickness 3m", "--bottom-thickness: ", "check it and --unit"),
        ("--front 0", "--front: ", ""),
        ("--back 1/0", "--back: ", ""),
        ("--style round", "--style: 'round' can't be chosen here", "flush, set in, lipped"),
        ("--style=set~in", "--set-in: --set-in is missing", "e.g. 1/8"),
        ("--set-in 1/8", "--set-in: --set-in does not go with --style flush",
         'write --style "set in", or leave it out'),
        ("--lip 1/4", "--lip: --lip does not go with --style flush",
         "write --style lipped, or leave it out"),
        ("--lip-thickness 1/4", "--lip-thickness: --lip-thickness does not go", ""),
        ("--bottom ply", "--bottom: 'ply' can't be chosen here", "plywood, solid"),
        ("--bottom-thickness 0", "--bottom-thickness: ", ""),
        ("--tongue 1/4", "--tongue: the tongue is no thinner than the bottom", ""),
        ("--groove-up 0", "--groove-up: ", ""),
        ("--runners 0", "--runners: ", ""),
        ("--slope 7", "--slope: ", ""),
        ("--pin 0", "--pin: ", ""),
        ("--half-pin 3", "--half-pin: there is no room for a tail", ""),
        ("--tails 0", "--tails: ", "from 1 to 100"),
        ("--tails two", "--tails: 'two' is not a whole number", ""),
        # the front's tails at the end, with half pins of 31/224 and 37/112: ten would have
        # (63/16 - 15/32 - 9/4) / 10 = .122, less than twice 9/112 = .161; nine have .192
        ("--tails 10", "--tails: 10 tails don't fit", "at most 9 tails fit with pins and half "
         "pins like these"),
        # the back's, 51/16 wide and with half pins of 9/28: seven have .149, twice 1/14 is
        # .143; eight have .099
        ("--tails 9", "--tails, at the back: 9 tails don't fit", "at most 7 tails fit with pins "
         "and half pins like these"),
        ("--tails 2 --tail-width 1", "--tail-width: how the tails lie is said twice, by --tails "
         "too", "keep one of --tails, --tail-width"),
        ("--lap 3/4", "--lap: the lap takes the whole thickness of the front", ""),
        ("--lap 0", "--lap: ", ""),
        ("--lap 1/4 --through", "--lap: through dovetails have no lap", ""),
        ("--room-wide=-1", "--room-wide: ", ""),
        ("--room-high x", "--room-high: ", ""),
        ("--room-behind 1/0", "--room-behind: ", ""),
        ("--drop x", "--drop: ", ""),
        ("--unit cm", "--unit: ", "in or mm"),
        ("--rule 1/7", "--rule: ", ""),
    ],
)  # fmt: skip
def test_refusals_name_the_option(call, options: str, start: str, end: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*OPENING, *(word.replace("~", " ") for word in options.split()))
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert err.startswith(f"shoulderline: {start}")
    assert err.rstrip("\n").endswith(end)


def test_every_kind_of_sheet_is_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    words = [*EXAMPLE, "--write", "--out", str(tmp_path), "--formats", "svg", "--paper", "A4"]
    code, out, _ = call(*words)
    assert code == 0
    assert out.startswith("Cut list")
    names = [path.name for path in (tmp_path / "one-drawer-svg").iterdir()]
    for kind in ("the-whole", "cut-list", "sums", "checks", "card", "stick", "tails", "pins",
                 "bevel"):
        assert any(kind in name for name in names), kind
    assert not (tmp_path / "one-drawer.pdf").exists()


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
        ["--front=1/4", "--front=1", "--sides=1/8", "--sides=9", "--back=3", "--style=lipped",
         "--style=set in", "--set-in=1/8", "--lip=1/32", "--lip=1", "--lip-thickness=1",
         "--bottom=solid", "--bottom-thickness=3/4", "--tongue=1/8", "--groove-up=1/16",
         "--groove-up=2", "--stopped", "--slips", "--runners=7/8", "--slope=1:4", "--pin=1/64",
         "--half-pin=1/8", "--half-pin=1", "--tails=1", "--tails=7", "--tail-width=1/4",
         "--lap=1/8", "--through", "--room-wide=0", "--room-high=3", "--room-behind=0",
         "--drop=2", "--width=3", "--both-units"]
    ),
    max_size=6,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*OPENING, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: ")
        assert err.count("\n") == 1
        assert " = " not in err  # no key of a piece file
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
        cures = [line for line in out.splitlines() if line.startswith("    try: ")]
        assert not [line for line in cures if ' = "' in line or "{}" in line]
