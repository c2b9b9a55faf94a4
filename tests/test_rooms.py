"""The rooms of the house: each imports only rooms above it, and no float enters the exact ones."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import layout

PACKAGE = Path(layout.__file__).parent

ROOMS = (
    "errors",
    "measure",
    "defaults",
    "part",
    "mark",
    "solid",
    "wood",
    "kit",
    "joints",
    "builds",
    "piece",
    "as_milled",
    "seasons",
    "squareness",
    "settings",
    "checks",
    "cutting",
    "stock",
    "numbers",
    "scene",
    "sheets",
    "paper",
    "piece_file",
    "cli",
)
# Beside the order: these two must not know each other at all.
STRANGERS = {
    "cutting": {"part", "mark", "wood", "joints", "builds", "piece", "checks", "settings"},
    "paper": {"sheets", "joints", "builds", "piece", "mark", "part", "checks", "settings"},
    "joints": {"scene", "sheets", "paper"},
    "sheets": {"paper", "cli", "piece_file"},
}
EXACT = ("measure", "defaults", "part", "mark", "solid", "wood", "kit", "joints", "builds", "piece",
         "settings", "checks", "stock", "numbers", "scene", "sheets")


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported_rooms(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            words = name.split(".")
            if words[0] == "layout" and len(words) > 1:
                found.add(words[1])
    return found


def test_every_module_is_in_a_room_of_the_list() -> None:
    outside = {room(path) for path in modules()} - set(ROOMS) - {"__init__", "__main__"}
    assert outside == set()


@pytest.mark.parametrize("path", modules(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_room_imports_only_rooms_above_it(path: Path) -> None:
    here = room(path)
    if here in ("__init__", "__main__"):
        return
    above = set(ROOMS[: ROOMS.index(here) + 1])
    below = imported_rooms(path) - above
    assert below == set(), f"{here} imports {below}"
    assert imported_rooms(path) & STRANGERS.get(here, set()) == set()


@pytest.mark.parametrize(
    "path",
    [path for path in modules() if room(path) in EXACT],
    ids=lambda p: str(p.relative_to(PACKAGE)),
)
def test_no_float_literal_and_no_float_call_in_exact_rooms(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant):
            assert not isinstance(node.value, float), f"{path.name}:{node.lineno}"
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id != "float", f"{path.name}:{node.lineno}"


def test_the_checker_sees_an_upward_import(tmp_path: Path) -> None:
    bad = tmp_path / "bad.py"
    bad.write_text("from layout.paper import pdf\nimport layout.cli.app\n", encoding="utf-8")
    assert imported_rooms(bad) == {"paper", "cli"}


def test_heavy_libraries_stay_out_of_a_one_joint_command() -> None:
    code = (
        "import sys; sys.argv = ['shoulderline', 'joint', 'tenon', '--leg-width', '2 1/2', "
        "'--rail-width', '4', '--rail-thickness', '1 1/8', '--length', '1 1/4']\n"
        "from layout.cli.app import run\n"
        "code = run()\n"
        "heavy = [n for n in ('pint', 'reportlab', 'svgwrite', 'pypdf', 'rich.table', 'numpy', "
        "'highspy') "
        "if n in sys.modules]\n"
        "print('HEAVY', code, heavy)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "HEAVY 0 []"
