"""`shoulderline movement`: its text and its JSON against sums worked out by hand, each refusal.

Coefficients and shrinkages: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190, 2010,
Tables 13-5 and 4-3.
"""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest

from layout.cli.movement import carried_length, size_lines
from layout.measure import Rule
from layout.wood.moisture import in_air
from layout.wood.movement import Movement

F = Fraction
INCH = F(127, 5)
MEAN = "a board may differ from the mean of its wood by a tenth or more"
MEMORY = "a figure of this wood is from memory, not read in the table"
HANDBOOK = "Wood Handbook, FPL-GTR-190 (2010)"


def lines(call: Any, *words: str) -> list[str]:
    code, out, err = call("movement", *words)
    assert (code, err) == (0, "")
    return out.splitlines()


def told(call: Any, *words: str) -> dict[str, Any]:
    code, out, err = call("movement", *words, "--json")
    assert (code, err) == (0, "")
    return json.loads(out)


# -- the text


def test_the_example_of_the_help(call: Any) -> None:
    # in air of 75 F and 65 % wood comes to 11.857 %; 11.5 in x 0.00365 x 3.857 = 0.1619 in;
    # 11.6619 in is 11 21/32 in and 0.0056 more
    words = ["white oak", "--width", "11 1/2", "--from", "8", "--to", "75 F, 65 %"]
    assert lines(call, *words) == [
        f"White oak, commercial: {HANDBOOK}, Table 13-5",
        "flat-sawn, today 8.0 %",
        "",
        "at 11.9 % (75 F, 65 %)",
        "    width      11 1/2 in x 0.00365 (tangential) for each 1 %, 3.9 %",
        "               = 0.16 in wider, 11 21/32 in full",
        "",
        MEAN,
    ]


def test_the_handbook_s_white_fir(call: Any) -> None:
    # Wood Handbook, p. 13-17: 232 mm from 8 to 11 % becomes 1.7 mm wider, 233.7 mm
    words = "--width 232 --from 8 --to 11 --unit mm --rule 0.1".split()
    assert lines(call, "white fir", *words) == [
        f"Fir, white: {HANDBOOK}, Table 13-5",
        "flat-sawn, today 8.0 %",
        MEMORY,
        "",
        "at 11.0 %",
        "    width      232 mm x 0.00245 (tangential) for each 1 %, 3.0 %",
        "               = 1.7 mm wider, 233.7 mm full",
        "",
        MEAN,
    ]


def test_left_out_it_goes_from_eight_to_six_and_ten(call: Any) -> None:
    # cherry: 2 % x 0.00248 x 250 mm = 1.24 mm; 2 % x 0.00126 x 20 mm = 0.0504 mm
    words = "cherry --width 250 --thickness 20 --unit mm --rule 0.1".split()
    assert lines(call, *words) == [
        f"Cherry, black: {HANDBOOK}, Table 13-5",
        "flat-sawn, today 8.0 %",
        "",
        "at 6.0 %",
        "    width      250 mm x 0.00248 (tangential) for each 1 %, 2.0 %",
        "               = 1.2 mm narrower, 248.8 mm bare",
        "    thickness  20 mm x 0.00126 (radial) for each 1 %, 2.0 %",
        "               = 0.050 mm thinner, 19.9 mm full",
        "",
        "at 10.0 %",
        "    width      250 mm x 0.00248 (tangential) for each 1 %, 2.0 %",
        "               = 1.2 mm wider, 251.2 mm full",
        "    thickness  20 mm x 0.00126 (radial) for each 1 %, 2.0 %",
        "               = 0.050 mm thicker, 20.1 mm bare",
        "",
        MEAN,
    ]


def test_outside_six_to_fourteen_the_shrinkage_is_told(call: Any) -> None:
    # western redcedar from 20 to 8 %: 3 in x 12 / (2200 / 5 - 22 + 20) = 0.0822 in
    words = "--width 3 --from 20 --to 8".split()
    found = lines(call, "western redcedar", *words)
    assert found[4:6] == [
        "    width      3 in x 5 % tangential (Table 4-3) from 22 % to ovendry, 12.0 % from 20.0 %",
        "               = 0.082 in narrower, 2 29/32 in full",
    ]


def test_quarter_and_rift(call: Any) -> None:
    quarter = lines(call, *"cherry --width 10 --to 12 --sawn quarter".split())
    assert quarter[1] == "quarter-sawn, today 8.0 %"
    assert quarter[4] == "    width      10 in x 0.00126 (radial) for each 1 %, 4.0 %"
    assert quarter[5] == "               = 0.050 in wider, 10 1/16 in bare"
    rift = lines(call, *"cherry --width 10 --to 12 --sawn rift".split())
    assert rift[1] == "rift-sawn, today 8.0 %"
    assert rift[4] == (
        "    width      10 in x 0.00187 (mean of radial and tangential) for each 1 %, 4.0 %"
    )


def test_no_difference_keeps_the_size(call: Any) -> None:
    found = lines(call, *"cherry --width 3 --thickness 7/8 --from 8 --to 8".split())
    assert found[3:6] == [
        "at 8.0 %", "    width      3 in, as today", "    thickness  7/8 in, as today"
    ]


def test_a_size_with_a_unit_of_its_own(call: Any) -> None:
    assert lines(call, "cherry", "--width", "254 mm", "--to", "10")[4].startswith(
        "    width      10 in x "
    )


def test_the_air_of_today(call: Any) -> None:
    found = lines(call, "cherry", "--width", "3", "--from", "20 C, 45 %", "--to", "8")
    assert found[1] == "flat-sawn, today 8.5 % (20 C, 45 %)"
    assert found[3] == "at 8.0 %"


def test_a_remembered_shrinkage_is_told_where_it_counts(call: Any) -> None:
    # honeylocust: coefficients read in Table 13-5, shrinkage from memory of Table 4-3
    words = "--width 3 --from 8 --to".split()
    assert MEMORY not in lines(call, "honeylocust", *words, "10")
    assert MEMORY in lines(call, "honeylocust", *words, "20")


def test_read_figures_are_not_told_as_remembered(call: Any) -> None:
    assert MEMORY not in lines(call, *"cherry --width 3".split())
    assert MEMORY in lines(call, *"teak --width 3".split())
    # teak has no shrinkage; western redcedar's was read, its coefficients are from memory
    assert MEMORY in lines(call, "western redcedar", *"--width 3 --from 8 --to 10".split())


def test_a_rule_of_the_maker_s(call: Any) -> None:
    fine = lines(call, *"cherry --width 3 --to 10 --rule 1/64".split())
    # 3 x 1.00496 = 3.01488 in, 0.95 of a 64th above 3
    assert fine[5] == "               = 0.015 in wider, 3 1/64 in bare"


# -- one line of a sum


@pytest.mark.parametrize(
    ("way", "share", "first", "then"),
    [
        ("width", "1/100", "10 in x why", "= 0.10 in wider, 10 3/32 in full"),
        ("width", "-1/100", "10 in x why", "= 0.10 in narrower, 9 29/32 in bare"),
        ("thickness", "1/100", "10 in x why", "= 0.10 in thicker, 10 3/32 in full"),
        ("thickness", "-1/100", "10 in x why", "= 0.10 in thinner, 9 29/32 in bare"),
    ],
)
def test_the_lines_of_a_size(way: str, share: str, first: str, then: str) -> None:
    change = Movement(F(share), 2, "why")
    assert size_lines(way, 10 * INCH, change, Rule("in", F(1, 32))) == [first, then]


def test_a_length_with_the_digits_it_carries() -> None:
    assert carried_length(F("2.54"), 2, "in") == "0.10 in"
    assert carried_length(F("2.54"), 2, "mm") == "2.5 mm"
    assert carried_length(F("25.4"), 3, "in") == "1.00 in"


# -- the JSON


def test_json_is_exact(call: Any) -> None:
    # rift white oak: (0.00180 + 0.00365) / 2 = 0.002725 for each percent
    words = ["white oak", "--width", "100", "--thickness", "20", "--to", "6", "--to", "12",
             "--sawn", "rift", "--unit", "mm"]
    assert told(call, *words) == {
        "format": 1,
        "wood": "White oak, commercial",
        "source": f"{HANDBOOK}, Table 13-5",
        "sawn": "rift",
        "from": "8",
        "to": [
            {
                "moisture": "6",
                "width": {"before": "100", "after": "19891/200", "change": "-109/200"},
                "thickness": {"before": "20", "after": "19891/1000", "change": "-109/1000"},
            },
            {
                "moisture": "12",
                "width": {"before": "100", "after": "10109/100", "change": "109/100"},
                "thickness": {"before": "20", "after": "10109/500", "change": "109/500"},
            },
        ],
    }


def test_json_in_inches_and_from_the_air(call: Any) -> None:
    found = told(call, "cherry", "--width", "11 1/2", "--from", "68 F, 45 %", "--to", "12")
    start = in_air(F(20), F(45))
    assert F(found["from"]) == start
    (step,) = found["to"]
    assert set(step) == {"moisture", "width"}  # no thickness was asked for
    before, change = 23 * INCH / 2, 23 * INCH / 2 * F("0.00248") * (12 - start)
    assert {key: F(value) for key, value in step["width"].items()} == {
        "before": before, "after": before + change, "change": change
    }


def test_json_outside_six_to_fourteen(call: Any) -> None:
    found = told(call, "cherry", "--thickness", "20", "--from", "20", "--to", "8", "--unit", "mm")
    change = F(-12) * 20 / (F(3000) / F("3.7") - 30 + 20)
    assert F(found["to"][0]["thickness"]["change"]) == change
    assert F(found["to"][0]["thickness"]["after"]) == 20 + change


# -- refusals

LIKE = 'write the meter\'s reading, like 8, or the air, like "68 F, 45 %" or "20 C, 45 %"'


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["zzz", "--width", "3"],
         "WOOD: there is no wood 'zzz' in the tables; "),
        (["walnut", "--width", "3"],
         "WOOD: 'walnut' could be several woods; write one of 'Walnut, black', 'European walnut "
         "(Nussbaum)'"),
        (["cherri", "--width", "3"],
         "WOOD: there is no wood 'cherri' in the tables; did you mean 'Cherry, black'?"),
        (["plywood", "--width", "3"], "WOOD: "),
        (["cherry"],
         '--width: no size is given; give --width "11 1/2", or --thickness'),
        (["cherry", "--width", "0"], "--width: a size must be more than 0"),
        (["cherry", "--thickness", "0"], "--thickness: a size must be more than 0"),
        (["cherry", "--width=-3"], "--width: '-3' is below zero; "),
        (["cherry", "--width", "wide"], "--width: 'wide' has no number in it; "),
        (["cherry", "--width", "3", "--thickness", "thin"],
         "--thickness: 'thin' has no number in it; "),
        (["cherry", "--width", ""], "--width: "),
        (["cherry", "--width", "9" * 400], "--width: "),
        (["cherry", "--width", "3", "--sawn", "riftt"],
         "--sawn: a board can't be sawn 'riftt'; one of flat, quarter, rift"),
        (["cherry", "--width", "3", "--unit", "cm"],
         "--unit: 'cm' is no unit to work in; write in or mm"),
        (["cherry", "--width", "3", "--rule", "x"], "--rule: 'x' has no number in it; "),
        (["cherry", "--width", "3", "--from", "40"],
         "--from: at 40 % the wood is wetter than fibre saturation, 30 %, where it begins to "
         "shrink; let it dry first"),
        (["cherry", "--width", "3", "--from", ""],
         f"--from: '' is no moisture content; {LIKE}"),
        (["cherry", "--width", "3", "--to", "damp"],
         f"--to: 'damp' is no moisture content; {LIKE}"),
        (["cherry", "--width", "3", "--to", "6", "--to", "68 F, 101 %"],
         "--to: a humidity of 101 % can't be; it lies between 0 and 100 %"),
        (["cherry", "--width", "3", "--to", "20 F, 45 %"],
         "--to: -6.7 C is outside the published table; it goes from 30 to 130 F"),
        (["western redcedar", "--width", "3", "--to", "25"],
         "--to: at 25.0 % Cedar, western redcedar is wetter than 22 %, where it begins to shrink; "
         "give a moisture of at most 22 %"),
        (["Eiche", "--width", "3", "--to", "5"],
         "--to: the figures of European oak (Eiche) hold between 6 and 14 % only, not from 8.0 % "
         "to 5.0 %; "),
        (["gray birch", "--width", "3"], "the tables don't say how Birch, gray moves tangentially"),
        # the option at fault is the one to name
        (["western redcedar", "--width", "3", "--from", "25", "--to", "8"],
         "--from: at 25.0 % Cedar, western redcedar is wetter than 22 %"),
    ],
)
@pytest.mark.parametrize("as_json", [False, True], ids=["text", "json"])
def test_each_refusal(call: Any, words: list[str], said: str, as_json: bool) -> None:
    code, out, err = call("movement", *words, *(["--json"] if as_json else []))
    assert (code, out) == (2, "")
    assert err.endswith("\n")
    assert err.count("\n") == 1
    assert "Traceback" not in err
    assert err.startswith("shoulderline: ")
    assert said in err
    if said.startswith(("-", "WOOD")):
        assert err.startswith(f"shoulderline: {said}")
