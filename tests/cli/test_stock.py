"""`stock`: the rough list in words, as JSON and for a spreadsheet, and what it refuses."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from layout.cli.stock import tell_stock
from layout.errors import ShoulderlineError

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))
FRAME = (ROOT / "tests" / "piece_file" / "every_stock.toml").read_text(encoding="utf-8")
F = Fraction


def told(tmp_path: Path, text: str, **how: bool) -> int:
    path = tmp_path / "p.toml"
    path.write_text(text, encoding="utf-8")
    return tell_stock(path, **how)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_json_words_and_spreadsheet_agree(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    tell_stock(path, as_json=True)
    data = json.loads(capsys.readouterr().out)
    tell_stock(path, as_csv=True)
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert rows[0] == ["boards", "rough", "width", "length", "timber", "for"]
    assert [int(row[0]) for row in rows[1:]] == [one["boards"] for one in data["rough"]]
    tell_stock(path)
    words = capsys.readouterr().out
    for one in data["rough"]:
        assert re.search(rf"\b{re.escape(one['name'])}\b", words)
    # what is bought is what the boards take, and the waste on top
    for one in data["buy"]:
        same = [F(board["board_feet"]) for board in data["rough"]
                if (board["timber"], board["thickness"]) == (one["timber"], one["thickness"])]
        assert F(one["board_feet"]) == sum(same)
        assert F(one["with_waste"][0]) == sum(same) * F(6, 5)


def test_prices_in_the_maker_s_money(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told(tmp_path, FRAME.replace('unit = "in"', 'unit = "in"\ntimber = "oak"'))
    out = capsys.readouterr().out
    assert "To buy, with 15 % for waste" in out
    (leg,) = re.findall(r"oak, 12/4 +([0-9.]+) board feet, [0-9.]+ cubic metres, ([0-9.]+) EUR",
                        out)
    # 4 legs of 3 in (2 in comes out 1 13/16) x 2 1/4 x 20 1/2, and 15 % more, at 9.50
    feet = 4 * 3 * F("2.25") * F("20.5") / 144 * F("1.15")
    assert leg == (str(float(round(feet, 1))), f"{float(feet * F('9.5')):.2f}")


def test_nothing_in_a_spreadsheet_is_run_as_a_formula(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told(tmp_path, FRAME.replace('name = "rail"', 'name = "=1+1"'), as_csv=True)
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert "'=1+1" in {row[5] for row in rows}


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('price = "9.50"', 'price = "free"', "stock.price 1.price: 'free' is no price"),
        ('per = "board foot"', 'per = "pound"', "stock.price 1.per"),
        ("waste = 15", "waste = 400", "stock.waste"),
        ("widest = 8", 'widest = "1/8"', "stock.widest: the widest board is no wider"),
        ("planing = \"3/16\"\n", "", "stock.planing: planing is missing"),
        ('planing = "3/16"', "planing = 1", "stock.planing: planing leaves nothing"),
        ('thicknesses = [1, "1 1/4", "1 1/2", 2, 3]\n', "", "planing goes with thicknesses"),
        ("shortest = 12", "shortest = -12", "stock.shortest"),
        ("kerf = ", "curf = ", "curf"),
    ],
)
def test_what_is_refused(old: str, new: str, words: str, tmp_path: Path) -> None:
    assert old in FRAME
    with pytest.raises(ShoulderlineError) as caught:
        told(tmp_path, FRAME.replace(old, new))
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_timber_with_two_prices(tmp_path: Path) -> None:
    twice = '[[stock.price]]\ntimber = "oak"\nprice = 9\nper = "board foot"\n'
    with pytest.raises(ShoulderlineError, match="given two prices"):
        told(tmp_path, FRAME.replace("[frame]", f"{twice}[frame]"))


def test_the_command_itself(call: Any, tmp_path: Path) -> None:
    path = tmp_path / "p.toml"
    path.write_text(FRAME, encoding="utf-8")
    code, out, err = call("stock", str(path))
    assert (code, err) == (0, "")
    assert "until they are planed" in out
    code, out, err = call("stock", str(tmp_path / "none.toml"))
    assert (code, out) == (2, "")
    assert "Traceback" not in err
