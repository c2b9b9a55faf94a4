"""The order of milling: everything once, in an order that wood allows, settings that only close up.
"""

from __future__ import annotations

import json
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.cli.milling import tell_milling
from layout.piece import work_out
from layout.piece_file.reader import piece_and_stock
from layout.piece_file.source import parse_toml
from layout.piece_file.stock_keys import read_stock
from layout.stock.cut_list import Row
from layout.stock.milling import KINDS, Step, milling, on_edge
from layout.stock.rough import Rough, rough_list
from layout.wood.species import is_sheet

F = Fraction
ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))
STOCK = read_stock(parse_toml("", "s.toml"), "mm")

# What must have been done to a piece before each operation, whatever the machine.
BEFORE = {
    "joint a face": {"crosscut rough", "rip rough"},
    "plane to thickness": {"joint a face"},
    "joint an edge": {"joint a face", "plane to thickness"},
    "glue up": {"plane to thickness", "joint an edge"},
    "plane to width": {"joint an edge"},
    "rip to width": {"joint an edge"},
    "square one end": {"joint an edge"},
    "cut to length": {"square one end"},
}


def sound(steps: tuple[Step, ...], rough: tuple[Rough, ...]) -> None:
    """Every law of a milling order."""
    milled = [one for one in rough if not one.strips and one.sold is not None]
    done: dict[int, list[str]] = {id(one): [] for one in milled}
    for step in steps:
        for batch in step.batches:
            assert batch.many > 0
            history = done[id(batch.rough)]
            assert step.kind not in history, "done twice"
            missing = BEFORE.get(step.kind, set()) - set(history)
            assert not missing, (step.kind, missing)
            if step.kind == "glue up":
                assert batch.rough.beside > 1 or batch.rough.layers > 1
            history.append(step.kind)
    for one in milled:
        history = done[id(one)]
        assert ("plane to width" in history) != ("rip to width" in history)
        assert ("glue up" in history) == (one.beside > 1 or one.layers > 1)
        assert set(history) >= {"crosscut rough", "rip rough", "joint a face",
                                "plane to thickness", "joint an edge", "cut to length"}
        if "plane to width" in history:
            assert on_edge(one)
    # one kind after another, and within each the machine is only ever closed up
    kinds = [step.kind for step in steps]
    assert kinds == sorted(kinds, key=KINDS.index)
    for kind in KINDS:
        sizes = [step.setting for step in steps if step.kind == kind]
        if None in sizes:
            assert sizes == [None]
        else:
            assert all(a > b for a, b in pairwise(sizes))  # type: ignore[operator]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_the_order_for_every_sample(path: Path) -> None:
    choice, stock = piece_and_stock(path)
    p = work_out(choice)
    rough = rough_list(p, stock)
    steps = milling(rough)
    sound(steps, rough)
    # every part of solid wood is cut to its own length once
    cut = Counter[str]()
    for step in steps:
        if step.kind == "cut to length":
            for batch in step.batches:
                assert batch.many == len(batch.rough.row.parts)
                cut.update(batch.rough.row.parts)
                assert {p.part(one).length for one in batch.rough.row.parts} == {step.setting}
    tops = {slab.id for laid in p.tops for slab in laid.top.slabs if laid.top.strips is not None}
    wood = {part.id for part in p.parts if not is_sheet(part.timber) and part.timber != "glass"}
    assert cut == Counter(wood - tops)


def row(number: int, count: int, thick: int, wide: int, long: int) -> Row:
    parts = tuple(f"p{number}-{at}" for at in range(count))
    return Row(f"part {number}", count, "oak", F(thick), F(wide), F(long), "", parts, "")


@st.composite
def batches(draw: st.DrawFn) -> tuple[Rough, ...]:
    found = []
    for number in range(draw(st.integers(1, 8))):
        one = row(number, draw(st.integers(1, 9)), draw(st.integers(5, 94)),
                  draw(st.integers(5, 400)), draw(st.integers(50, 1500)))
        gang = draw(st.integers(1, 3))
        beside, layers = draw(st.integers(1, 3)), draw(st.integers(1, 2))
        blanks = -(-one.count // gang)
        found.append(Rough(one, blanks * beside * layers, STOCK.sold[-1], F(one.width + 6),
                           F(one.length + 12), gang, beside, layers))
    return tuple(found)


@settings(max_examples=100)
@given(batches())
def test_the_order_for_any_batch(rough: tuple[Rough, ...]) -> None:
    sound(milling(rough), rough)


def test_an_order_by_hand() -> None:
    """Two legs of 60 x 60 x 700 and three slats of 12 x 90 x 200, kept two to a blank."""
    leg, slat = row(1, 2, 60, 60, 700), row(2, 3, 12, 90, 200)
    rough = (Rough(leg, 2, STOCK.sold[-1], F(66), F(712)),
             Rough(slat, 2, STOCK.sold[0], F(96), F(427), gang=2))
    told = [(step.kind, step.setting, step.many) for step in milling(rough)]
    assert told == [
        ("crosscut rough", 712, 2), ("crosscut rough", 427, 2),
        ("rip rough", 96, 2), ("rip rough", 66, 2),
        ("joint a face", None, 4),
        ("plane to thickness", 60, 2), ("plane to thickness", 12, 2),
        ("joint an edge", None, 4),
        ("plane to width", 60, 2),
        ("rip to width", 90, 2),  # 12 thick and 90 wide would topple
        ("square one end", None, 4),
        ("cut to length", 700, 2), ("cut to length", 200, 3),
    ]


def test_what_no_board_gives_is_left_out() -> None:
    one = Rough(row(1, 1, 60, 60, 700), 1, None, F(66), F(712))
    assert milling((one,)) == ()


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_words_and_json_tell_the_same_steps(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert tell_milling(path, as_json=True) == 0
    steps = json.loads(capsys.readouterr().out)["steps"]
    assert tell_milling(path) == 0
    words = capsys.readouterr().out
    numbered = [line for line in words.splitlines() if line.lstrip()[:1].isdigit()]
    assert len(numbered) == len(steps)
    for line, step in zip(numbered, steps, strict=True):
        assert line.split(".")[0].strip() == str(step["number"])
        for one in step["pieces"]:
            assert one["name"] in line
    assert "own manual" in words
    assert words.count("(") >= len({step["kind"] for step in steps})  # a caution each
