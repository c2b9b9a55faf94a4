"""One door, typed: a cut list worked out by hand, the same door from a piece file, every option,
and every refusal in the words of the options.
"""

from __future__ import annotations

import json
from fractions import Fraction
from math import hypot
from pathlib import Path
from typing import Any

import pytest

from tests.contract import hold

F = Fraction
INCH = F(127, 5)
DOOR = "build door --width 16 --height 24 --thickness 3/4 --stiles 2".split()
EXAMPLE = [*DOOR, *"--bottom 3 --panel 1/4 --timber cherry --hinge 2".split()]
METRIC = ("build door --width 400 --height 600 --thickness 20 --stiles 50 --panel 6 --plywood"
          " --unit mm --gap 2").split()


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a door, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def sizes(found: dict[str, Any], unit: Fraction = INCH) -> dict[str, tuple[Fraction, ...]]:
    """Thickness, width and length of every row of the cut list."""
    return {
        row["name"]: tuple(F(row[key]) / unit for key in ("thickness", "width", "length"))
        for row in found["cut_list"]
    }


def printed(call: Any, *words: str) -> str:
    code, out, err = call(*words)
    assert (code, err) == (0, "")
    assert "DISAGREE" not in out
    return str(out)


# -- by hand


def test_the_example_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    found = told(call, *EXAMPLE)
    wide, high = 16 - F(1, 8), 24 - F(1, 8)
    # cherry, flat-sawn: 0.00248 of its width for each 1 % (Wood Handbook, FPL-GTR-190, 2010, Table
    # 13-5), 8 % now and 6 to 10 % over the year; 1/16 of play in grooves 3/8 deep
    clear = wide - 4
    panel = (clear + F(3, 4) - F(1, 16)) / (1 + 2 * F("0.00248"))
    tenon = F(3, 4) * 2  # 3/4 of a stile
    assert sizes(found) == {
        "stile": (F(3, 4), 2, high),
        "door top rail": (F(3, 4), 2, clear + 2 * tenon),
        "door bottom rail": (F(3, 4), 3, clear + 2 * tenon),
        "door panel": (F(1, 4), panel, high - 5 + F(3, 4) - F(1, 16)),
    }
    assert {row["name"]: row["count"] for row in found["cut_list"]}["stile"] == 2


def test_the_example_in_words(call) -> None:  # type: ignore[no-untyped-def]
    out = printed(call, *METRIC, "--hinge", "50", "--lock", "40")
    assert out.startswith(
        "Cut list, finished sizes\n"
        "2 × stile             20 ×    50 ×   596  1 left hand, 1 right hand\n"
    )
    own = out.split("\n\n")[1].splitlines()
    assert own[0] == "door"
    figures = {line[:-12].strip(): line[-12:].strip() for line in own[1:]}
    assert {" ".join(line.split()) for line in own[1:]} == {
        "width 396", "height 596", "diagonal 715.5 full", "depth of the groove 10",
        # the mortises end at 40 and begin at 556: both stay one length from the ends
        "top of hinge 1 from the door's top 50", "top of hinge 2 from the door's top 496",
        "middle of the lock from the door's top 298",
    }
    assert len(figures) == 7
    assert F(715) + F(1, 2) < F(hypot(396, 596)) < F(716)
    assert "0 to stop for" in out


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("--top 60 --bottom 70 --horns 15 --lock 40 --lock-above 200",
         ["1 × door top rail     20 ×    60 ", "1 × door bottom rail  20 ×    70 ",
          "    + 15  horn at the foot\n", "middle of the lock from the door's top    396\n"]),
        ("--middle 2 --muntins 2 --rule 1mm",
         ["door middle rail 2", "door muntin 1-2", "door muntin 3-2",
          "millimetres, shown to 1 mm"]),
        ("--through --hinge 50 --hinges 3 --hinges-on right --both-units",
         ["wedge", "top of hinge 3 from the door's top",
          "hinge 1 bottom from end A: door right stile", "20 mm (25/32 in full)"]),
        ("--pair --rebate 8",
         ["left door\nwidth ", "width of the meeting rebate: left door right stile"]),
        ("--room 3 --lip 9 --grain across",
         ["    -   3  room to fit\n", "depth of the groove                         9\n",
          "grain across"]),
    ],
)
def test_what_is_printed_follows_each_option(call, options: str, words: list[str]) -> None:  # type: ignore[no-untyped-def]
    out = " ".join(printed(call, *METRIC, *options.split()).replace("\n", " ¶ ").split())
    for each in words:
        assert " ".join(each.replace("\n", " ¶ ").split()).strip(" ¶") in out


SOLID = [*METRIC[:-5], *"--unit mm --gap 2 --timber".split(), "white oak"]


@pytest.mark.parametrize(
    ("options", "wanted"),
    [
        # quarter-sawn: 0.00180; 296 + 20 - 3/2 at its widest, 2 % to it (Table 13-5)
        ("--panel-sawn quarter", F("314.5") / (1 + 2 * F("0.00180"))),
        ("--panel-timber cherry --play 0.5 --now 8 --dry 7 --wet 12",
         F("315.5") / (1 + 4 * F("0.00248"))),
    ],
)
def test_a_solid_panel_follows_its_year(call, options: str, wanted: Fraction) -> None:  # type: ignore[no-untyped-def]
    words = [word for word in SOLID if word != "--plywood"]
    found = sizes(told(call, *words, *options.split()), F(1))
    assert found["door panel"][1] == wanted


def test_glass(call) -> None:  # type: ignore[no-untyped-def]
    base = [*DOOR, *"--glass 3/8 --lip 1/4".split()]
    found = sizes(told(call, *base))
    # 1/8 thick, 1/8 of room each way
    assert found["door glass"] == (
        F(1, 8), 16 - F(1, 8) - 4 + F(1, 2) - F(1, 8), 24 - F(1, 8) - 4 + F(1, 2) - F(1, 8)
    )


def test_an_overlay_door(call) -> None:  # type: ignore[no-untyped-def]
    words = [word for word in METRIC if word not in ("--gap", "2")]
    found = sizes(told(call, *words, "--overlay", "12"), F(1))
    assert found["stile"] == (20, 50, 624)


# -- the same door from a piece file


def test_typed_and_written_are_the_same_door(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    text = """piece = "One door"
unit = "mm"
[climate]
now = 8
dry = 6
wet = 11
[[door]]
space = { width = 500, height = 900 }
thickness = 22
stiles = 55
timber = "cherry"
sawn = "quarter"
bottom = { width = 70 }
horns = 20
gap_sides = 2
gap_top = 2
gap_bottom = 2
hinges = { length = 60, count = 3 }
lock = { length = 40, above = 500 }
[[door.middle]]
width = 55
[[door.muntin]]
width = 55
[door.panel]
thickness = 14
edge = "raised"
tongue = 5
border = 36
step = 1
wood_behind = 2
solid = { cover = 4, play = 2, held = "spacers", sawn = "rift" }
"""
    file = tmp_path / "door.toml"
    file.write_text(text, encoding="utf-8")
    words = ("build door --width 500 --height 900 --thickness 22 --stiles 55 --unit mm --bottom 70"
             " --timber cherry --sawn quarter --horns 20 --gap 2 --hinge 60 --hinges 3 --lock 40"
             " --lock-above 500 --middle 1 --muntins 1 --panel 14 --edge raised --tongue 5"
             " --border 36 --step 1 --wood-behind 2 --cover 4 --play 2 --held spacers"
             " --panel-sawn rift --now 8 --dry 6 --wet 11").split()
    typed = told(call, *words)
    written = told(call, "numbers", str(file))
    assert set(typed) == set(written)
    for key in sorted(set(written) - {"checks"}):  # a check's cure speaks of keys, or of options
        assert typed[key] == written[key], key
    assert [one["text"] for one in typed["checks"]] == [one["text"] for one in written["checks"]]


# -- refused


@pytest.mark.parametrize(
    ("options", "flag", "cure"),
    [
        ("--glass 8", "--glass", "keep --panel or --glass"),
        ("--hinges 3", "--hinges", "give --hinge too"),
        ("--lock-above 30", "--lock-above", "give --lock too"),
        ("--overlay 10", "--gap", "keep --overlay or --gap"),
        ("--rebate 8", "--rebate", "write --pair"),
        ("--muntins 99", "--muntins", "whole number from 1 to 12"),
        ("--middle 99", "--middle", "whole number"),
        ("--hinge 50 --hinges 9", "--hinges", "from 2 to 6"),
        ("--hinges-on top", "--hinges-on", "left, right"),
        ("--sawn curly", "--sawn", "flat, quarter, rift"),
        ("--edge round", "--edge", "plain, raised, tongue"),
        ("--tongue 3", "--tongue", "--edge"),
        ("--grain side", "--grain", "up, across"),
        ("--now 8", "--dry", "give --now, --dry and --wet"),
        ("--now 8 --dry 12 --wet 6", "--dry", "exchange them"),
        ("--now 80 --dry 6 --wet 12", "--now", "let it dry first"),
        ("--gap -1", "--gap", "without the minus sign"),
        ("--horns x", "--horns", "write it like"),
        ("--pair --hinges-on left --hinge 50", "--hinges-on", "leave it out"),
        ("--room 999", "", "room"),
        ("--stiles 300", "stiles", "narrower"),
        ("--thickness 6", "", "leaves no wood"),
    ],
)
def test_a_refusal_speaks_of_the_options(call, options: str, flag: str, cure: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*METRIC, *options.split())
    assert code == 2
    assert out == ""
    assert flag in err
    assert cure in err
    assert err.count("\n") <= 2
    # nothing of piece files
    for word in ("line ", "[[door]]", "[door", "gap_sides", "hinges_on", "pair = true", ".toml"):
        assert word not in err


def test_a_door_that_holds_nothing(call) -> None:  # type: ignore[no-untyped-def]
    code, _, err = call(*DOOR)
    assert code == 2
    assert "--panel" in err
    assert "or --glass" in err


def test_a_stop_is_code_1(call) -> None:  # type: ignore[no-untyped-def]
    # the lip is no more than the room
    code, out, err = call(*METRIC, "--lip", "5", "--room", "5")
    assert (code, err) == (1, "")
    assert "panel covers its opening" in out
    assert "1 to stop for" in out


def test_its_whole_packet_is_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*METRIC, "--write", "--out", str(tmp_path), "--formats", "svg")
    assert code == 0
    assert len(list(tmp_path.rglob("*.svg"))) > 5
    assert str(tmp_path) in out.replace("\n", "")
