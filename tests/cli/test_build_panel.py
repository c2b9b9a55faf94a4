"""One panel, typed: its size worked out by hand, its groove, every option, and every refusal in the
words of the options. White oak moves 0.00365 of its width for each 1 % flat-sawn and 0.00180
quarter-sawn, cherry 0.00248 (Wood Handbook, FPL-GTR-190, 2010, Table 13-5).
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.contract import hold

F = Fraction
INCH = F(127, 5)
MM = F(1)
OAK = F("0.00365")
PANEL = [*"build panel --width 296 --height 463 --thickness 6 --unit mm --timber".split(),
         "white oak"]


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a panel, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    hold(found)
    return dict(found)


def size(call: Any, *words: str, unit: Fraction = MM) -> tuple[Fraction, ...]:
    """Thickness, width and length of the one part there is."""
    found = told(call, *words)
    (row,) = found["cut_list"]
    assert row["count"] == len(found["parts"]) == 1
    return tuple(F(row[key]) / unit for key in ("thickness", "width", "length"))


def words_of(call: Any, *words: str) -> str:
    code, out, err = call(*words)
    assert (code, err) == (0, "")
    return str(out)


def groove(out: str) -> dict[str, str]:
    """The rows under `Groove`, by name."""
    rows = out.split("\nGroove\n")[1].split("\n\n")[0].splitlines()
    return {" ".join(row.split()[:-1]): row.split()[-1] for row in rows}


def test_the_size_by_hand(call) -> None:  # type: ignore[no-untyped-def]
    # 296 + 20 - 3/2 at 10 %, 2 % from now; 463 + 20 - 3/2 along the grain
    assert size(call, *PANEL) == (6, F("314.5") / (1 + 2 * OAK), F("481.5"))


def test_the_groove(call) -> None:  # type: ignore[no-untyped-def]
    out = words_of(call, *PANEL)
    assert out.startswith("Cut list, finished sizes\n1 × ")
    # in the middle of a frame 20 thick
    assert groove(out) == {"depth": "10", "width": "6", "from the frame's face": "7"}
    assert groove(words_of(call, *PANEL, "--frame", "22")) == {
        "depth": "10", "width": "6", "from the frame's face": "8"}
    raised = words_of(call, *PANEL[:6], "--thickness", "14", *PANEL[8:], "--edge", "tongue",
                      "--tongue", "5", "--frame", "25")
    assert groove(raised) == {"depth": "10", "width": "5", "from the frame's face": "10"}


def test_a_wide_panel_s_groove_is_deeper(call) -> None:  # type: ignore[no-untyped-def]
    wide = [*"build panel --width 900 --height 463 --thickness 6 --unit mm --timber".split(),
            "white oak"]
    # (906 x 1.0073 / 0.9927 - 900 + 3/2) / 2 = 10.41, up to the next whole one
    assert groove(words_of(call, *wide))["depth"] == "11"
    assert size(call, *wide)[1] == F("920.5") / (1 + 2 * OAK)


def test_inches(call) -> None:  # type: ignore[no-untyped-def]
    found = size(call, *"build panel --width 14 --height 20 --thickness 1/4 --timber cherry"
                 .split(), unit=INCH)
    assert found == (F(1, 4), (14 + F(3, 4) - F(1, 16)) / (1 + 2 * F("0.00248")),
                     20 + F(3, 4) - F(1, 16))


@pytest.mark.parametrize(
    ("options", "wanted"),
    [
        ("--sawn quarter", (6, F("314.5") / (1 + 2 * F("0.00180")), F("481.5"))),
        ("--sawn rift", (6, F("314.5") / (1 + 2 * (F("0.00180") + OAK) / 2), F("481.5"))),
        ("--plywood", (6, F("314.5"), F("481.5"))),
        ("--lip 12 --room 3 --play 2.5", (6, F("317.5") / (1 + 2 * OAK), 484)),
        # its grain across: 463 + 20 - 3/2 swells, 296 + 20 - 3/2 doesn't
        ("--grain across", (6, F("481.5") / (1 + 2 * OAK), F("314.5"))),
        ("--now 8 --dry 5 --wet 8", (6, F("314.5"), F("481.5"))),
        ("--now 8 --dry 7 --wet 13", (6, F("314.5") / (1 + 5 * OAK), F("481.5"))),
        # (296 + 16) x 1.0073 / 0.9927 - 296 + 3/2, by halves: 11.04, up to 12
        ("--cover 8", (6, F("318.5") / (1 + 2 * OAK), F("485.5"))),
    ],
)
def test_the_size_follows_each_option(call, options: str, wanted: tuple[Fraction, ...]) -> None:  # type: ignore[no-untyped-def]
    assert size(call, *PANEL, *options.split()) == wanted


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("--held free", "nothing keeps a panel in the middle"),
        ("--edge raised --thickness 14 --border 40 --frame 25", "field on face side"),
        ("--edge tongue --thickness 10 --tongue 4 --wood-behind 2",
         "far side of the tongue from the face side"),
        ("--edge raised --thickness 14 --step 1 --frame 25", "bevel, tongue to field"),
        ("--held spacers", "springy spacers"),
        ("--rule 1mm", "millimetres, shown to 1 mm"),
        ("--now 8 --dry 6 --wet 10", "the wood is reckoned at 8.0 % today"),
    ],
)
def test_what_is_printed_follows_each_option(call, options: str, words: str) -> None:  # type: ignore[no-untyped-def]
    assert words in words_of(call, *PANEL, *options.split())


def test_nothing_is_told_of_a_frame_that_was_not_asked_for(call) -> None:  # type: ignore[no-untyped-def]
    out = words_of(call, *PANEL)
    for word in ("stile", "rail", "tenon", "mortise", "door"):
        assert word not in out
    found = told(call, *PANEL)
    for key in ("cuts", "marks", "sums"):
        assert all("panel" in one["part"] for one in found.get(key, []))


def test_a_panel_proud_of_its_frame_is_told_without_a_door(call) -> None:  # type: ignore[no-untyped-def]
    # tongue 6 in the middle of 20: 7 in front of it; 14 - 6 = 8 in front of the tongue
    out = words_of(call, *PANEL, *"--edge raised --thickness 14".split())
    assert "1 mm proud" in out
    assert "door" not in out


def test_no_climate_is_warned_of(call) -> None:  # type: ignore[no-untyped-def]
    out = words_of(call, *PANEL)
    assert "caution: no climate is given" in out


@pytest.mark.parametrize(
    ("options", "flag", "cure"),
    [
        ("--edge round", "--edge", "plain, raised, tongue"),
        ("--tongue 3", "--tongue", "--edge"),
        ("--edge tongue --tongue 9", "--tongue", "a thinner tongue"),
        ("--sawn curly", "--sawn", "flat, quarter, rift"),
        ("--held glue", "--held", "pins, spacers, free"),
        ("--grain side", "--grain", "up, across"),
        ("--cover 0", "--cover", "more than 0"),
        ("--play -1", "--play", "without the minus sign"),
        ("--lip x", "--lip", "write it like"),
        ("--now 8 --wet 9", "--dry", "give --now, --dry and --wet"),
        ("--now 8 --dry 12 --wet 6", "--dry", "exchange them"),
        ("--now wet --dry 6 --wet 9", "--now", "68 F, 45 %"),
        ("--timber oak", "", "White oak, commercial"),
        ("--timber qqqq", "", "no wood 'qqqq'"),
        ("--width 0", "--width", "more than 0"),
        ("--frame 6", "--thickness", "less"),
        ("--thickness 25", "--thickness", "less"),
        ("--room 999", "", "room"),
        ("--width 20000", "", "m"),
    ],
)
def test_a_refusal_speaks_of_the_options(call, options: str, flag: str, cure: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*PANEL, *options.split())
    assert code == 2
    assert out == ""
    assert flag in err
    assert cure in err
    assert err.count("\n") <= 2
    for word in ("line ", "[[door]]", "[door", "stiles", ".toml", "gap_"):
        assert word not in err


def test_a_panel_needs_a_wood(call) -> None:  # type: ignore[no-untyped-def]
    code, _, err = call(*PANEL[:-2])
    assert code == 2
    assert "timber" in err


def test_a_stop_is_code_1(call) -> None:  # type: ignore[no-untyped-def]
    # a groove 1 deep: 296 + 2 - 3/2 shrinks below the opening
    code, out, err = call(*PANEL, "--lip", "1")
    assert (code, err) == (1, "")
    assert "panel through the year" in out


def test_its_sheets_are_written(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    code, _, _ = call(*PANEL, *"--edge raised --thickness 14 --frame 25 --write --formats svg --out"
                      .split(), str(tmp_path))
    assert code == 0
    names = " ".join(path.name for path in tmp_path.rglob("*.svg"))
    assert "panel" in names.lower()
