"""`stock`: the cut list and the rough list in words, as JSON and for a spreadsheet, and what it
refuses.
"""

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
from layout.measure import show
from layout.piece import work_out
from layout.piece_file.reader import read_piece

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
    assert rows[0] == ["boards", "rough", "width", "length", "finished thickness",
                       "finished width", "finished length", "timber", "letter", "for"]
    assert [int(row[0]) for row in rows[1:]] == [one["boards"] for one in data["rough"]]
    tell_stock(path)
    words = capsys.readouterr().out
    # ordered and finished sizes stand side by side, and are the cut list's
    tell_stock(path, as_json=True, only_cut_list=True)
    cut = {tuple(one["parts"]): one for one in json.loads(capsys.readouterr().out)["cut_list"]}
    for one, row in zip(data["rough"], rows[1:], strict=True):
        if one["how"] is None:
            (listed,) = (row for parts, row in cut.items() if set(one["parts"]) <= set(parts))
            sizes = {key: listed[key] for key in ("thickness", "width", "length")}
            assert one["finished"] == sizes
            assert row[8] == listed["letter"]
        line = (f"{' × '.join(row[4:7])} +{re.escape(row[7])} +{re.escape(row[8])} +"
                f"{re.escape(row[9])}\n")
        assert re.search(f" {re.escape(row[3])}  {line}", words)
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
    assert "Timber needed, with 15 % for waste" in out
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
    assert "'=1+1" in {row[9] for row in rows}
    told(tmp_path, FRAME.replace('name = "rail"', 'name = "=1+1"'), as_csv=True, only_cut_list=True)
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert "'=1+1" in {row[3] for row in rows}
    assert not any(cell.lstrip().startswith(("=", "+", "-", "@")) for row in rows for cell in row)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_cut_list_alone(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Words, spreadsheet and JSON say the same, row by row; the JSON's lengths are exact."""
    p = work_out(read_piece(path))
    tell_stock(path, as_json=True, only_cut_list=True)
    data = json.loads(capsys.readouterr().out)
    tell_stock(path, as_csv=True, only_cut_list=True)
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    tell_stock(path, only_cut_list=True)
    words = capsys.readouterr().out
    assert "Rough list" not in words
    assert "Timber needed" not in words
    tell_stock(path)
    assert capsys.readouterr().out.startswith(words)
    assert rows[0] == ["assembly", "letter", "count", "part", "timber", "thickness", "width",
                       "length", "end A", "end B", "bears", "face side", "face edge", "note"]
    assert (data["format"], data["piece"]) == (1, p.name)
    for one, row in zip(data["cut_list"], rows[1:], strict=True):
        exact = [F(one[key]) for key in ("thickness", "width", "length")]
        for part in (p.part(name) for name in one["parts"]):
            assert [part.thickness, part.width, part.length] == exact
        assert row[:5] == [one["assembly"], one["letter"], str(one["count"]), one["name"],
                           one["timber"]]
        assert row[5:8] == [show(size, p.rule).text for size in exact]
        assert row[8:] == [one[key] for key in ("end_a", "end_b", "bears", "face_side",
                                                "face_edge", "note")]
        for cell in row[9:11] + row[13:]:
            assert cell in words
        assert all(row[8:10] + row[11:13]) == bool(one["parts"])
    headings = [line for line in words.splitlines()[1:] if line and not line.startswith(" ")]
    assert headings == list(dict.fromkeys(
        one["assembly"][0].upper() + one["assembly"][1:] for one in data["cut_list"]))


def test_the_hall_table_s_cut_list_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    tell_stock(ROOT / "samples" / "hall_table.toml", only_cut_list=True)
    lines = capsys.readouterr().out.splitlines()
    assert lines[:8] == [
        "Cut list of the Hall table, finished sizes with tenons and tails",
        "",
        "Frame",
        "  4 A   leg         cherry  45 × 45 × 740",
        "        both ends: square",
        "        5 mortises",
        "        face side outside (in front or behind), face edge outside (at the left or right)",
        "        2 left hand, 2 right hand",
    ]


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
    code, out, err = call("stock", str(path), "--cut-list", "--csv")
    assert (code, err) == (0, "")
    assert out.startswith("assembly,letter,count,part,")
    code, out, err = call("stock", str(tmp_path / "none.toml"))
    assert (code, out) == (2, "")
    assert "Traceback" not in err
