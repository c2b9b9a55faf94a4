"""The cut list: what shares a row, what it is called, and what else it says."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby, pairwise
from pathlib import Path

import pytest

from layout.builds.frame import SIDES
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock, read_piece
from layout.stock.assemblies import assemblies, titled
from layout.stock.cut_list import cut_list
from layout.stock.rough import rough_list
from tests.pieces import frame, inch, key, low_rail, panel, piece, rail, seat, through

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))
EVERY = sorted((ROOT / "tests" / "piece_file").glob("every_*.toml"))


def opened(path: Path) -> Piece:
    return work_out(read_piece(path))


def test_parts_alike_share_a_row_with_their_count_and_note() -> None:
    p = piece(
        frame(rail(sides=SIDES), low_rail(sides=SIDES)),
        panel(seat(), "left under rail", "right under rail", grain="across"),
    )
    listed = cut_list(p)
    assert [(row.name, row.count) for row in listed] == [
        ("leg", 4), ("rail", 2), ("rail", 2), ("low rail", 2), ("low rail", 2), ("panel", 2),
    ]
    assert sum(row.count for row in listed) == len(p.parts)
    rows = {(row.name, row.count): row for row in listed}
    assert rows["leg", 4].note == "2 left hand, 2 right hand"
    assert rows["panel", 2].note == "grain across, along the length"
    # across the grain up: 16 + 3/4 - 1/16; along it 24 - 5 + 3/4 - 1/16
    assert rows["panel", 2].length == inch("19 11/16")
    assert rows["panel", 2].width == inch("16 11/16")


def test_rows_of_one_name_say_which_parts_they_are() -> None:
    notes = [row.note for row in cut_list(piece(frame(rail(sides=SIDES)))) if row.name == "rail"]
    assert notes == [
        "front rail, back rail; length includes both tenons",
        "left rail, right rail; length includes both tenons",
    ]


def test_one_row_of_a_name_needs_no_names() -> None:
    (row,) = [row for row in cut_list(piece(frame(rail()))) if row.name == "rail"]
    assert row.note == "length includes both tenons"


def test_other_timber_is_another_row() -> None:
    oak = rail("rail", timber="oak")
    ash = rail("rail", sides=("back",), timber="ash")
    rows = [row for row in cut_list(piece(frame(oak, ash))) if row.name == "rail"]
    assert [(row.count, row.timber) for row in rows] == [(1, "oak"), (1, "ash")]


def test_letters_go_on_after_z() -> None:
    rails = [
        rail(f"rail {n}", below_top=None, above_floor=inch(n), width=inch("1/2"),
             tenon=rail().tenon._replace(top_shoulder=0, bottom_shoulder=0))
        for n in range(28)
    ]
    letters = [row.letter for row in cut_list(piece(frame(*rails)))]
    assert letters[:3] == ["A", "B", "C"]
    assert letters[25:29] == ["Z", "AA", "AB", "AC"]


@pytest.mark.parametrize("path", [*SAMPLES, *EVERY], ids=lambda path: path.stem)
def test_rows_are_grouped_as_a_maker_reads_them(path: Path) -> None:
    """By assembly, each in one stretch; in it by timber, each in one stretch; there from thick to
    thin; the letters follow, and every part of the piece is in one row.
    """
    p = opened(path)
    rows = cut_list(p)
    stretches = [name for name, _ in groupby(row.assembly for row in rows)]
    assert len(stretches) == len(set(stretches)) > 0
    assert stretches == [one.name for one in assemblies(p)]
    for _, same in groupby(rows, key=lambda row: row.assembly):
        group = list(same)
        timbers = [name for name, _ in groupby(row.timber for row in group)]
        assert len(timbers) == len(set(timbers))
        for one, following in pairwise(group):
            if one.timber == following.timber:
                assert one.thickness >= following.thickness
    letters = [row.letter for row in rows if row.parts]
    assert letters == sorted(letters, key=lambda letter: (len(letter), letter))
    assert len(letters) == len(set(letters))
    listed = [one for row in rows for one in row.parts]
    assert sorted(listed) == sorted(part.id for part in p.parts)
    belongs = {part: one.name for one in assemblies(p) for part in one.parts}
    assert all(belongs[one] == row.assembly for row in rows for one in row.parts)


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("samples/map_chest", ["frame", "drawers 1 to 4"]),
        ("samples/bedding_box", ["chest box"]),
        ("samples/wall_cabinet", ["carcase cabinet", "door"]),
        ("samples/repair_bench", ["frame", "cupboard door", "top", "loose stuff"]),
        ("tests/piece_file/every_box", ["frame", "chest box", "chest", "drawers till 1 and 2",
                                        "drawer tray", "drawer lipped one"]),
        ("tests/piece_file/every_door", ["frame", "doors pair, left and right", "glass door",
                                         "ply door", "loose stuff"]),
        ("tests/piece_file/every_top", ["frame", "carcase case", "carcase low case", "bench top",
                                        "top counter", "top low counter", "spare top",
                                        "loose stuff"]),
    ],
)
def test_what_the_assemblies_are_called(name: str, found: list[str]) -> None:
    assert [one.name for one in assemblies(opened(ROOT / f"{name}.toml"))] == found


@pytest.mark.parametrize(
    ("word", "name", "called"),
    [("top", "top", "top"), ("door", "cupboard door", "cupboard door"),
     ("carcase", "cabinet", "carcase cabinet"), ("top", "stop", "top stop")],
)
def test_a_name_that_says_what_it_is_stands_alone(word: str, name: str, called: str) -> None:
    assert titled(word, name) == called


def test_shelves_and_partitions_belong_to_what_they_stand_in() -> None:
    rows = {row.name: row for row in cut_list(opened(ROOT / "samples" / "wall_cabinet.toml"))}
    assert {rows[name].assembly for name in ("left partition", "shelf")} == {"carcase cabinet"}
    rows = {row.name: row for row in cut_list(opened(ROOT / "samples" / "repair_bench.toml"))}
    assert rows["left upright"].assembly == "frame"


def test_keys_pegs_and_wedges_say_what_they_belong_to() -> None:
    p = piece(frame(rail("keyed rail", width=inch(6), tenon=through(
        projection=inch("2 1/2"), key=key(), top_shoulder=inch(1), bottom_shoulder=inch(1)))))
    (row,) = [row for row in cut_list(p) if row.assembly == "loose stuff"]
    assert (row.name, row.count) == ("key", 2)
    assert row.note.startswith("for the keyed rail; ")
    rows = cut_list(opened(ROOT / "samples" / "writing_table.toml"))
    loose = {row.name: row for row in rows if row.assembly == "loose stuff"}
    assert set(loose) == {"wedge", "peg"}
    assert loose["wedge"].note.startswith("for the stretcher; ")
    assert loose["peg"].note.startswith("for the foot rail; ")


@pytest.mark.parametrize("name", ["repair_bench", "wall_cabinet"])
def test_stiles_are_cut_with_their_horns(name: str) -> None:
    """Both ends of every stile: 1/2 in at the bench, 15 mm at the cabinet; sawn out for that."""
    choice, stock = piece_and_stock(ROOT / "samples" / f"{name}.toml")
    rough = {one.row.name: one for one in rough_list(work_out(choice), stock)}
    horns = {"repair_bench": inch(1), "wall_cabinet": Fraction(30)}[name]
    stile = rough["stile"].row
    assert (stile.left, stile.cut_length) == (horns, stile.length + horns)
    assert rough["stile"].length == stile.length + horns + stock.length
    assert all(one.row.left == 0 for one in rough.values() if one.row.name != "stile")
