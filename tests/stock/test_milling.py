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


# What is done to boards, and what to the parts that they become.
TO_BOARDS = {"crosscut rough", "rip rough", "joint a face", "plane to thickness", "joint an edge"}


def sound(steps: tuple[Step, ...], rough: tuple[Rough, ...]) -> None:
    """Every law of a milling order."""
    boards = [one for one in rough if one.sold is not None]
    pieces = [piece for one in boards for piece in one.holds]
    done: dict[int, list[tuple[str, int]]] = {id(one): [] for one in [*boards, *pieces]}
    for one in boards:
        for piece in one.holds:
            done[id(piece)] = done[id(one)]  # what is done to the blank is done to what it holds
    for step in steps:
        for batch in step.batches:
            assert batch.many > 0
            history = done[id(batch.rough)]
            assert (step.kind, id(batch.rough)) not in history, "done twice"
            missing = BEFORE.get(step.kind, set()) - {kind for kind, _ in history}
            assert not missing, (step.kind, missing)
            history.append((step.kind, id(batch.rough)))
    groups: dict[tuple[str, ...], list[Rough]] = {}
    for one in boards:
        assert {kind for kind, at in done[id(one)] if at == id(one)} >= TO_BOARDS
        for piece in one.holds or (one,):
            groups.setdefault(piece.row.parts, []).append(piece)
    for group in groups.values():
        _parts(group, done)
    # one kind after another, and within each the machine is only ever closed up
    kinds = [step.kind for step in steps]
    assert kinds == sorted(kinds, key=KINDS.index)
    for kind in KINDS:
        sizes = [step.setting for step in steps if step.kind == kind]
        if None in sizes:
            assert sizes == [None]
        else:
            assert all(a > b for a, b in pairwise(sizes))  # type: ignore[operator]


def _parts(group: list[Rough], done: dict[int, list[tuple[str, int]]]) -> None:
    """What the boards of the same parts become is squared and cut to length once, glued up and
    flattened once where there are several, brought to width once and in one way.
    """
    own = Counter(kind for one in group for kind, at in done[id(one)] if at == id(one))
    one = group[0]
    assert own["square one end"] == own["cut to length"] == 1
    boards = sum(each.many for each in group)
    several = one.beside > 1 or one.layers > 1 or bool(one.strips and boards > 1)
    assert own["glue up"] == several
    assert own["flatten"] == (bool(one.strips) or one.left > 0)
    assert own["strips to width"] == (len(group) if one.strips else 0)
    if one.strips:
        assert not own["plane to width"] + own["rip to width"]
    else:
        assert own["plane to width"] + own["rip to width"] == 1
        assert own["plane to width"] <= on_edge(one)


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


def test_a_matched_blank_is_parted_when_face_and_edge_are_true() -> None:
    """Two stiles of 20 x 42 x 600, side by side in one blank of 99 x 612."""
    stiles = tuple(Rough(row(number, 1, 20, 42, 600), 1, STOCK.sold[1], F(48), F(612))
                   for number in (1, 2))
    both = row(1, 2, 20, 42, 600)
    blank = Rough(both, 1, STOCK.sold[1], F(99), F(612), match=0, holds=stiles, how="side by side")
    told = [(step.kind, step.setting, step.many) for step in milling((blank,))]
    assert told == [
        ("crosscut rough", 612, 1), ("rip rough", 99, 1), ("joint a face", None, 1),
        ("plane to thickness", 20, 1), ("joint an edge", None, 1), ("part", None, 1),
        ("plane to width", 42, 2), ("square one end", None, 2), ("cut to length", 600, 2),
    ]
    sound(milling((blank,)), (blank,))


def test_boards_of_several_widths_become_one_part() -> None:
    """An end of 20 x 300 x 500 of boards of 160 and 140: 166 and 146 wide, 1 left on."""
    end = row(1, 1, 20, 300, 500)
    boards = tuple(Rough(end, 1, STOCK.sold[2], F(wide), F(512), beside=2, left=F(1))
                   for wide in (166, 146))
    told = [(step.kind, step.setting, step.many) for step in milling(boards)]
    assert told == [
        ("crosscut rough", 512, 2), ("rip rough", 166, 1), ("rip rough", 146, 1),
        ("joint a face", None, 2), ("plane to thickness", 21, 2), ("joint an edge", None, 2),
        ("glue up", None, 1), ("flatten", 20, 1), ("rip to width", 300, 1),
        ("square one end", None, 1), ("cut to length", 500, 1),
    ]
    sound(milling(boards), boards)


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
