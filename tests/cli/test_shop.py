"""The shop file as the commands find it, and the command that shows which tools count."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import typer

from layout.cli.shop import VARIABLE, shop_place

SAMPLE = str(Path(__file__).parents[2] / "samples" / "repair_bench.toml")
TENON = (
    "joint tenon --leg-width 2 --rail-width 2 --rail-thickness 1 --length 1 --json".split()
)


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop file with one chisel, 7 mm, named by the variable."""
    path = tmp_path / "tools.toml"
    path.write_text('[kit]\nchisels = ["7 mm"]\ngauge = "marking gauge"\n', encoding="utf-8")
    monkeypatch.setenv(VARIABLE, str(path))
    return path


def lines(out: str) -> dict[str, list[str]]:
    """The rows of the kit command: figures and origin by list."""
    rows = {}
    for line in out.split("\n\n")[0].splitlines():
        name, *rest = [cell.strip() for cell in line.split("  ") if cell.strip()]
        rows[name] = rest
    return rows


def test_without_a_variable_it_is_in_the_user_s_settings_folder(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv(VARIABLE)
    assert shop_place() == os.path.join(typer.get_app_dir("shoulderline"), "shop.toml")


def test_the_variable_comes_first(shop: Path) -> None:
    assert shop_place() == str(shop)


def test_no_file_is_no_error(call, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setenv(VARIABLE, str(tmp_path / "none.toml"))
    assert call("check", SAMPLE)[0] == 0
    assert call(*TENON)[0] == 0
    code, out, _ = call("kit")
    assert code == 0
    assert f"shop file: {tmp_path / 'none.toml'} (there is no such file)" in out


def test_one_tenon_is_made_with_the_shop_s_chisel(call, shop: Path) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call(*TENON)
    told = json.loads(out)
    assert [c["figures"]["chisel"] for c in told["checks"] if "chisel" in c["figures"]] == ["7"]
    assert {s["tool"] for s in told["settings"]} == {"marking gauge"}


def test_a_piece_is_made_with_it_too(call, shop: Path) -> None:  # type: ignore[no-untyped-def]
    piece = str(Path(__file__).parents[1] / "tenon_pieces" / "moulded.toml")  # lists no tools
    _, out, _ = call("kit", piece)
    assert lines(out)["chisels"] == ["7 mm", "shop file"]
    _, out, _ = call("numbers", piece, "--json")
    told = json.loads(out)
    assert {s["tool"] for s in told["settings"]} == {"marking gauge"}
    # its mortises are 3/8 wide, the one chisel of the shop's list is not
    assert [c for c in told["checks"] if c["rule"] == "a tool for each size"]


@pytest.mark.parametrize("words", [TENON, ["kit"], ["check", SAMPLE]])
def test_a_bad_shop_file_is_one_line(call, shop: Path, words: list[str]) -> None:  # type: ignore[no-untyped-def]
    shop.write_text("[kit]\nchisels = [7]\n", encoding="utf-8")
    code, out, err = call(*words)
    assert (code, out) == (2, "")
    assert err.startswith(f"shoulderline: {shop}, line 2, kit.chisels 1: 7 names no unit")
    assert err.count("\n") == 1


def test_kit_tells_where_each_list_comes_from(call, shop: Path, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    _, out, _ = call("kit")
    rows = lines(out)
    assert rows["chisels"] == ["7 mm", "shop file"]
    assert rows["drills"] == ["3/16, 1/4, 5/16, 3/8, 1/2", "usual sizes"]
    assert rows["cutters"] == ["none"]
    assert rows["gauge"] == ["marking gauge", "shop file"]
    assert out.endswith(f"inches, shown to 1/32 in\nshop file: {shop}\n")
    own = Path(__file__).parents[1] / "tenon_pieces" / "pegs.toml"
    _, out, _ = call("kit", str(own))
    rows = lines(out)
    assert rows["chisels"] == ["8, 10, 12", "piece file"]
    assert rows["drills"] == ["6, 8", "piece file"]
    assert rows["gauge"] == ["marking gauge", "shop file"]


def test_kit_without_a_piece_counts_in_the_shop_s_unit(call, shop: Path) -> None:  # type: ignore[no-untyped-def]
    shop.write_text('unit = "mm"\n[kit]\nchisels = [7, "1/4 in"]\n', encoding="utf-8")
    _, out, _ = call("kit")
    assert lines(out)["chisels"] == ["7, 1/4 in", "shop file"]
    _, out, _ = call("kit", "--unit", "in")
    assert lines(out)["chisels"] == ["7 mm, 1/4", "shop file"]


@pytest.mark.parametrize("words", [("kit", "--unit", "ft"), ("kit", SAMPLE, "--unit", "mm")])
def test_kit_refuses_a_unit_in_one_line(call, words: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    code, out, err = call(*words)
    assert (code, out) == (2, "")
    assert err.startswith("shoulderline: --unit: ")


def test_reading_a_shop_file_loads_nothing_heavy(shop: Path) -> None:
    code = (
        f"import sys; sys.argv = ['shoulderline', *{TENON!r}]\n"
        "from layout.cli.app import run\n"
        "code = run()\n"
        "heavy = [n for n in ('pint', 'reportlab', 'svgwrite', 'pypdf', 'rich.table', "
        "'layout.builds.panel', 'layout.piece_file.reader') if n in sys.modules]\n"
        "print('HEAVY', code, heavy, 'layout.piece_file.table' in sys.modules)"
    )
    command = [sys.executable, "-c", code]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "HEAVY 0 [] True"
    without = {**os.environ, VARIABLE: ""}
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=without)
    assert done.stdout.splitlines()[-1] == "HEAVY 0 [] False"
