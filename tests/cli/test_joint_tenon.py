"""What one joint can have, typed: the choices are the piece file's own, and the sizes say them."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from layout.cli.joint import tenon_piece
from layout.cli.tenon_options import MoreWords, TenonWords, tenon_choice
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml

INCH = Fraction(127, 5)
LEG = "joint tenon --leg-width 2-1/2 --rail-width 4 --rail-thickness 1-1/8".split()


def rows(out: str) -> dict[str, str]:
    """The sizes printed before the sums, by name."""
    lines = out.split("\n\nSums")[0].splitlines()
    found = {}
    for line in lines:
        if line.startswith("("):
            continue
        name = next(n for n in sorted(NAMES, key=len, reverse=True) if line.startswith(n))
        found[name] = line.removeprefix(name).strip()
    return found


NAMES = (
    "shoulder distance", "cut length", "tenon thickness", "tenon width", "upper tenon width",
    "lower tenon width", "web between the tenons", "gap between the twins", "tenon length",
    "outer shoulder", "inner shoulder", "top shoulder", "bottom shoulder", "haunch width",
    "haunch length", "sloped haunch width", "sloped haunch length", "haunch socket depth",
    "mortise depth", "mortise, right through", "stands proud of the leg", "wedges",
    "wedge thickness", "wedge and saw cut, long", "saw cut from the tenon's edge",
    "flare of each mortise end", "key where it enters", "key width", "key length",
    "wood beyond the key", "pegs", "pegs in each tenon", "peg diameter",
    "pegs from the shoulder", "draw",
)  # fmt: skip


@pytest.mark.parametrize(
    ("options", "figures"),
    [
        # three quarters of the leg: 3/4 * 2 1/2
        ("", {"tenon length": "1 7/8", "mortise depth": "2"}),
        # a third of it: 5/6, shown as 27/32 less 1/96
        ("--stub", {"tenon length": "27/32 bare"}),
        (
            # a quarter of 4 is 1 beside a pair; a third is 1 1/3
            "--haunch square --haunch-width 1 --haunch-length 3/8",
            {
                "haunch width": "1", "haunch length": "3/8", "haunch socket depth": "7/16",
                "tenon width": "2 3/4", "bottom shoulder": "1/4",
            },
        ),
        ("--haunch sloped", {"sloped haunch width": "1 11/32 bare", "sloped haunch length": "1/2"}),
        # half of a tenon of 3/4 is less than the usual 1/2
        ("--haunch square --length 3/4", {"haunch length": "3/8"}),
        (
            # an eighth of 4 above and below; (3 - 1 1/2) / 2 each
            "--pair --web 1-1/2 --pegs 2",
            {
                "upper tenon width": "3/4", "lower tenon width": "3/4",
                "web between the tenons": "1 1/2", "top shoulder": "1/2",
                "bottom shoulder": "1/2", "pegs in each tenon": "2",
            },
        ),
        (
            "--twin --rail-thickness 2-1/2",
            {"tenon thickness": "1/2", "gap between the twins": "1/2", "outer shoulder": "1/2",
             "inner shoulder": "1/2"},
        ),
        # nearest half of 1 1/8
        (
            "--barefaced face --set-in 1/2",
            {"tenon thickness": "5/8", "outer shoulder": "0", "inner shoulder": "1/2"},
        ),
        (
            "--inner-shoulder 1/4 --thickness 3/8",
            {"outer shoulder": "1/2", "inner shoulder": "1/4"},
        ),
        (
            "--through --projection 1/4 --wedges 2 --over 48",
            {
                # 48 - 2 * 2 1/2, and 2 * (2 1/2 + 1/4) more
                "shoulder distance": "43", "cut length": "48 1/2", "tenon length": "2 3/4",
                "mortise, right through": "2 1/2", "stands proud of the leg": "1/4",
                "wedges": "2", "wedge thickness": "1/8", "wedge and saw cut, long": "2 1/16",
                "saw cut from the tenon's edge": "3/16", "flare of each mortise end": "3/32",
            },
        ),
        (
            "--through --key --top-shoulder 1/2 --bottom-shoulder 1/2",
            {
                # the key's 7/8 and 1 1/8 beyond it; a third of 3; 3/8 + 2 * 7/8
                "stands proud of the leg": "2", "tenon length": "4 1/2",
                "key where it enters": "7/8", "key width": "1", "key length": "2 1/8",
                "wood beyond the key": "1 1/8",
            },
        ),
        (
            # 2/3 of 3/8 is 1/4; 3 1/2 wide: one for every 1 1/2
            "--pegs 0",
            {
                "pegs": "3", "peg diameter": "1/4", "pegs from the shoulder": "3/8",
                "draw": "1/16",
            },
        ),
        ("--pegs 1 --draw 0", {"pegs": "1", "draw": "0"}),
    ],
)
def test_sizes_say_what_applies(call, options: str, figures: dict[str, str]) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call(*LEG, *options.split())
    assert code == 0
    found = rows(out)
    assert {name: found.get(name) for name in figures} == figures
    assert "DISAGREE" not in out


@pytest.mark.parametrize(
    ("options", "absent"),
    [
        ("", ("haunch", "web", "gap", "wedge", "key", "peg", "flare", "proud", "draw", "cut l")),
        ("--haunch square", ("top shoulder",)),
        ("--pair", ("tenon width",)),
        ("--through", ("mortise depth",)),
    ],
)
def test_sizes_say_nothing_else(call, options: str, absent: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*LEG, *options.split())
    assert [name for name in rows(out) if name.startswith(absent)] == []


def test_a_length_left_out_is_said_with_its_sum(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*LEG)
    assert "tenon length: front rail\n    + 1 7/8  3/4 of the leg width\n    = 1 7/8\n" in out
    _, out, _ = call(*LEG, "--glue-room", "1/2")
    # 2 1/2 - 3/16 - 1/2 is less than 3/4 of the leg
    assert "    -    3/16  least wood behind the mortise\n    -     1/2  room for glue\n" in out
    assert rows(out)["tenon length"] == "1 13/16"
    _, out, _ = call(*LEG, "--length", "1")
    assert "\ntenon length:" not in out


@pytest.mark.parametrize(
    "options", ["--haunch square", "--pegs 0", "--run-through --panel 1/4", "--through --key"]
)
def test_without_over_no_sum_hangs_on_the_rail_s_length(call, options: str) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*LEG, *options.split())
    sums = out.split("\n\nSums\n")[1]
    assert "cut length" not in sums
    assert "shoulder distance" not in sums
    _, out, _ = call(*LEG, "--over", "48", *options.split())
    sums = out.split("\n\nSums\n")[1]
    assert "cut length" in sums
    assert "shoulder distance" in sums


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        (MoreWords(haunch="sloped", haunch_width="1", haunch_length="1/2"),
         'haunch = { kind = "sloped", width = 1, length = "1/2" }'),
        (MoreWords(pair=True, web="3/4"), 'pair = { web = "3/4" }'),
        (MoreWords(twin=True), "twin = {}"),
        (MoreWords(through=True, projection="1/4", wedges="1"),
         'through = true, projection = "1/4", wedges = { count = 1 }'),
        (MoreWords(through=True, key=True), "through = true, key = {}"),
        (MoreWords(pegs="0"), "pegs = {}"),
        (MoreWords(pegs="3", draw="1/32"), 'pegs = { count = 3, draw = "1/32" }'),
        (MoreWords(stub=True, barefaced="back"), 'stub = true, barefaced = "back"'),
        (MoreWords(inner_shoulder="1/4"), 'inner_shoulder = "1/4"'),
        (MoreWords(), ""),
    ],
)  # fmt: skip
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_typed_and_written_are_the_same_choice(typed: MoreWords, written: str, unit: str) -> None:
    text = f"""
piece = "x"
unit = "{unit}"
[frame]
length = 48
depth = 24
height = 30
[frame.leg]
width = 2
thickness = 2
[[frame.rail]]
name = "rail"
sides = ["front"]
top = "flush"
width = 4
thickness = 1
tenon = {{ {written} }}
"""
    (rail,) = piece_from(parse_toml(text, "x.toml")).frame.rails
    words = TenonWords("4", "1", "2", unit=unit, more=typed)
    assert tenon_choice(words, unit) == rail.tenon  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ("--wedges 2", "--wedges: wedges must come out of a through tenon"),
        ("--key", "--key: a key must come out of a through tenon"),
        ("--through --length 2", "--length: a through tenon is as long as the leg"),
        ("--through --stub", "--stub: "),
        ("--projection 1/4", "--projection: only a through tenon"),
        ("--through --wedges 1 --key", "--key: the tenon has both wedges and a key"),
        ("--barefaced back --outer-shoulder 1/4", "by --outer-shoulder and --barefaced"),
        ("--inner-shoulder 0 --outer-shoulder 1/4", "by --outer-shoulder and --inner-shoulder"),
        ("--haunch square --top-shoulder 1", "--top-shoulder: a haunch stands where"),
        ("--haunch round", "--haunch: 'round' can't be chosen here; write square or sloped"),
        ("--haunch groove", "--haunch: 'groove' can't be chosen here"),
        ("--barefaced front", "write face or back"),
        ("--haunch-width 1", "add --haunch square"),
        ("--haunch-length 1", "add --haunch square"),
        ("--web 1", "add --pair"),
        ("--draw 0", "add --pegs 0"),
        ("--wedges 3 --through", "--wedges: '3' is not from 1 to 2"),
        ("--pegs -1", "--pegs"),
        ("--pegs many", "--pegs: 'many' is not a whole number"),
        ("--pegs 1 --draw x", "--draw: "),
        ("--length 0", "--length: the size is nothing"),
        ("--pair --web 0", "--web: the size is nothing"),
        ("--haunch square --haunch-width 5", "leave no tenon"),
    ],
)
def test_contradictions_are_one_message(call, options: str, words: str) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*LEG, *options.split())
    assert code == 2
    assert out == ""
    assert err.count("\n") == 1
    assert err.startswith("shoulderline: ")
    assert words in err


def test_nothing_typed_changes_the_plain_tenon() -> None:
    words = TenonWords("4", "1 1/8", "2 1/2", length="1 1/4")
    (rail,) = tenon_piece(words).rails
    assert rail.size.length == INCH * 5 / 4
    assert rail.rail.choice.tenon.haunch is None


def test_every_option_s_numbers_are_json(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*LEG, "--through", "--key", "--json")
    told = json.loads(out)
    assert [p["name"] for p in told["parts"] if "key" in p["id"]]
    assert told["as_milled"] is None


FLAGS = st.lists(
    st.sampled_from(
        ["--haunch=square", "--haunch=sloped", "--haunch-width=1", "--haunch-length=1/2",
         "--barefaced=face", "--barefaced=back", "--inner-shoulder=1/4", "--pair", "--web=1/2",
         "--twin", "--through", "--projection=1/2", "--wedges=1", "--wedges=2", "--key",
         "--pegs=0", "--pegs=7", "--draw=0", "--draw=1/8", "--stub", "--length=1",
         "--panel=1/4", "--run-through", "--rail-thickness=3/8", "--leg-width=1/2",
         "--leg-thickness=1", "--set-in=1/2", "--thickness=2", "--rail-width=1",
         "--top-shoulder=0", "--bottom-shoulder=3"]
    ),
    max_size=7,
    unique=True,
)  # fmt: skip


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(FLAGS)
def test_any_options_are_answered_or_refused(call, flags: list[str]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*LEG, *flags)
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.startswith("shoulderline: ")
        assert err.count("\n") == 1
    else:
        assert "Sums" in out
        assert ("DISAGREE" in out) <= (code == 1)
