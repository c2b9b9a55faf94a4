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
    "strips to width": {"joint an edge"},
    "glue up": {"plane to thickness", "joint an edge"},
    "flatten": {"plane to thickness", "joint an edge"},
    "plane to width": {"joint an edge"},
    "rip to width": {"joint an edge"},
    "square one end": {"joint an edge"},
    "cut to length": {"square one end"},
}


def sound(steps: tuple[Step, ...], rough: tuple[Rough, ...]) -> None:
    """Every law of a milling order."""
    milled = [one for one in rough if one.sold is not None]
    done: dict[int, list[str]] = {id(one): [] for one in milled}
    for step in steps:
        for batch in step.batches:
            assert batch.many > 0
            history = done[id(batch.rough)]
            assert step.kind not in history, "done twice"
            missing = BEFORE.get(step.kind, set()) - set(history)
            assert not missing, (step.kind, missing)
            if step.kind == "glue up" and not batch.rough.strips:
                assert batch.rough.beside > 1 or batch.rough.layers > 1
            history.append(step.kind)
    for one in milled:
        history = done[id(one)]
        assert set(history) >= {"crosscut rough", "rip rough", "joint a face",
                                "plane to thickness", "joint an edge"}
        if one.strips:
            assert "strips to width" in history
            assert not {"plane to width", "rip to width"} & set(history)
            continue
        assert "cut to length" in history
        assert ("plane to width" in history) != ("rip to width" in history)
        assert ("glue up" in history) == (one.beside > 1 or one.layers > 1)
        if "plane to width" in history:
            assert on_edge(one)
    _tops(milled, done)
    # one kind after another, and within each the machine is only ever closed up
    kinds = [step.kind for step in steps]
    assert kinds == sorted(kinds, key=KINDS.index)
    for kind in KINDS:
        sizes = [step.setting for step in steps if step.kind == kind]
        if None in sizes:
            assert sizes == [None]
        else:
            assert all(a > b for a, b in pairwise(sizes))  # type: ignore[operator]


def _tops(milled: list[Rough], done: dict[int, list[str]]) -> None:
    """The strips of a top are glued up once, then flattened, squared and cut to length once."""
    tops: dict[tuple[str, ...], list[str]] = {}
    many: Counter[tuple[str, ...]] = Counter()
    for one in milled:
        if one.strips:
            tops.setdefault(one.row.parts, []).extend(done[id(one)])
            many[one.row.parts] += one.many
    for parts, history in tops.items():
        counted = Counter(history)
        assert counted["glue up"] == (many[parts] > 1)
        assert counted["flatten"] == counted["square one end"] == counted["cut to length"] == 1


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
                for one in batch.rough.row.parts:
                    horns = [door.choice.horn for door in p.doors
                             if one in {stile.id for stile in door.stiles}]
                    assert p.part(one).length + 2 * sum(horns) == step.setting
    wood = {part.id for part in p.parts if not is_sheet(part.timber) and part.timber != "glass"}
    assert cut == Counter(wood)


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


def test_the_strips_of_a_top_by_hand() -> None:
    """Four strips of 40 planed to 38, of 60 ripped to 58, glued to a top of 36 x 232 x 900."""
    top = row(1, 1, 36, 232, 900)
    strips = Rough(top, 4, STOCK.sold[3], F(60), F(950), strips=(F(38), F(58)))
    told = [(step.kind, step.setting, step.many) for step in milling((strips,))]
    assert told == [
        ("crosscut rough", 950, 4), ("rip rough", 60, 4), ("joint a face", None, 4),
        ("plane to thickness", 38, 4), ("joint an edge", None, 4), ("strips to width", 58, 4),
        ("glue up", None, 1), ("flatten", 36, 1), ("square one end", None, 1),
        ("cut to length", 900, 1),
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
