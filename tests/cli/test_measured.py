"""Sizes as milled, typed: they reach every command, and what they moved is told."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

import layout
from tests.contract import hold

INCH = Fraction(127, 5)
PACKAGE = Path(layout.__file__).parent
BENCH = str(PACKAGE.parent / "samples" / "repair_bench.toml")
HALL_TABLE = str(PACKAGE.parent / "samples" / "hall_table.toml")
MILLED = str(Path(__file__).parents[1] / "tenon_pieces" / "as_milled.toml")
THIN = ("--as-milled", "front left leg.width=2 31/64")


def numbers(call, *words: str) -> dict:  # type: ignore[no-untyped-def,type-arg]
    _, out, _ = call("numbers", *words, "--json")
    told = json.loads(out)
    hold(told)
    return told


def test_numbers_say_what_was_measured_and_what_it_moved(call) -> None:  # type: ignore[no-untyped-def]
    told = numbers(call, BENCH, *THIN)["as_milled"]
    assert told["held"] == "overall"
    wide = str(INCH * Fraction(159, 64))
    assert told["parts"] == [{"part": "front-left-leg", "width": wide, "thickness": None}]
    row = next(one for one in told["moved"] if one["part"] == "front-apron")
    # 48 - 2 * 2 1/2 is 43; the leg is 1/64 thinner
    assert row == {
        "part": "front-apron",
        "name": "shoulder distance",
        "was": str(43 * INCH),
        "is": str(43 * INCH + INCH / 64),
        "by": str(INCH / 64),
    }


def test_numbers_without_anything_measured(call) -> None:  # type: ignore[no-untyped-def]
    assert numbers(call, BENCH)["as_milled"] is None


def test_typed_sizes_add_to_the_file_s_and_win(call) -> None:  # type: ignore[no-untyped-def]
    words = (
        "--as-milled", "front left leg.width=1 31/32", "--as-milled", "back right leg.thickness=2",
    )  # fmt: skip
    told = numbers(call, MILLED, *words)["as_milled"]
    sizes = {one["part"]: (one["width"], one["thickness"]) for one in told["parts"]}
    assert sizes == {
        # width typed, thickness still the file's 1 31/32
        "front-left-leg": (str(INCH * 63 / 32), str(INCH * 63 / 32)),
        "back-long-rail": (str(INCH * 63 / 16), str(INCH * 27 / 32)),
        "back-right-leg": (None, str(INCH * 2)),
    }


def test_held_typed_wins(call) -> None:  # type: ignore[no-untyped-def]
    told = numbers(call, MILLED, "--held", "shoulders")["as_milled"]
    assert told["held"] == "shoulders"
    assert not [one for one in told["moved"] if one["name"] == "shoulder distance"]


def test_sums_end_with_what_moved(call) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = call("sums", MILLED)
    assert code == 0
    section = out.split("As milled: what moved\n")[1].splitlines()
    assert section[:3] == [
        "measured: front left leg, 1 63/64 wide and 1 31/32 thick",
        "measured: back long rail, 3 15/16 wide and 27/32 thick",
        "held: the size over the legs",
    ]
    rows = [" ".join(line.split()) for line in section[3:]]
    assert rows[:2] == ["was is by", "26 26 1/64 +1/64 shoulder distance: front long rail"]
    assert "5/16 9/32 -1/32 inner shoulder: back long rail" in rows
    # the lower edge of a narrower rail, in both legs that bear it: one row
    (edge,) = [row for row in rows if "bottom edge" in row]
    assert edge == (
        "4 3 15/16 -1/16 rail's bottom edge from end A: back right leg and back left leg, for the "
        "back long rail"
    )


def test_sums_show_full_and_bare_and_both_units(call, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call("sums", BENCH, *THIN)  # its rule is 1/32 in
    assert "43 1/32 bare   +1/32 bare   shoulder distance: front apron" in out
    text = Path(MILLED).read_text(encoding="utf-8")
    text = text.replace("[frame]", "both_units = true\n[frame]", 1)
    path = tmp_path / "both.toml"
    path.write_text(text, encoding="utf-8")
    _, out, _ = call("sums", str(path))
    assert "+1/64 in (0.5 mm bare)   shoulder distance" in out


def test_sums_say_nothing_of_it_where_nothing_was_measured(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call("sums", BENCH)
    assert "As milled" not in out


def test_measured_as_drawn_moves_nothing(call) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call("sums", BENCH, "--as-milled", "front left leg.width=2 1/2")
    assert "nothing moved: every measured size is as drawn" in out


@pytest.mark.parametrize("command", ["packet", "card", "sticks", "templates"])
def test_sheets_are_drawn_from_measured_sizes(call, tmp_path: Path, command: str) -> None:  # type: ignore[no-untyped-def]
    drawn = {}
    thin = ("--as-milled", "front left leg.width=42", "--held", "overall")  # of 45 mm
    for name, more in (("nominal", ()), ("thin", thin)):
        words = ("--formats", "svg", "--out", str(tmp_path / name))
        code, _, _ = call(command, HALL_TABLE, *more, *words)
        assert code == 0
        drawn[name] = sorted(p.read_bytes() for p in (tmp_path / name).rglob("*.svg"))
    assert drawn["nominal"] != drawn["thin"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--as-milled", "front leg.width=2"), "there is no part 'front leg'"),
        (("--as-milled", "front left leg.length=2"), "write width or thickness"),
        (("--as-milled", "front left leg=2"), "is no measured size"),
        (("--as-milled", "front left leg.width"), "is no measured size"),
        (("--as-milled", ".width=2"), "is no measured size"),
        (("--as-milled", ""), "is no measured size"),
        (("--as-milled", "front left leg.width=two"), "has no number in it"),
        (("--as-milled", "front left leg.width=0"), "the size is nothing"),
        (("--as-milled", "front left leg.width=-2"), "below zero"),
        (("--as-milled", "front left leg.width=48"), "leave nothing between"),
        ((*THIN, *THIN), "the width of the front left leg is given twice"),
        (("--held", "overall"), "no part has been measured"),
        ((*THIN, "--held", "length"), "write overall or shoulders"),
    ],
)
@pytest.mark.parametrize("command", ["sums", "check", "numbers", "sticks"])
def test_what_can_t_be_measured_is_one_line(  # type: ignore[no-untyped-def]
    call, tmp_path: Path, command: str, words: tuple[str, ...], message: str
) -> None:
    out_to = ("--out", str(tmp_path / "o")) if command == "sticks" else ()
    code, out, err = call(command, BENCH, *words, *out_to)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert message in err
    assert not (tmp_path / "o").exists()


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('name = "back long rail"', 'name = "front left leg"', "is measured twice"),
        ('thickness = "27/32"\nwidth = "3 15/16"', "", "no measured size is given"),
        ('thickness = "27/32"', 'length = "27/32"', "unknown key 'length'"),
        ('name = "back long rail"', 'name = "back rail"', "there is no part 'back rail'"),
        ('held = "overall"', 'held = "legs"', "write one of: overall, shoulders"),
        ('width = "1 63/64"', "width = 0", "more than 0"),
    ],
)
def test_mistakes_in_the_file_have_their_line(  # type: ignore[no-untyped-def]
    call, tmp_path: Path, old: str, new: str, message: str
) -> None:
    text = Path(MILLED).read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "m.toml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    code, _, err = call("sums", str(path))
    assert code == 2
    assert f"{path}, line " in err
    assert message in err
