"""Joints at the ends in words, and what parts bear: of files that hold every kind of joint."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from layout.joints.rail_end import is_mortise
from layout.mark import Cut
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.stock import bears as bearing
from layout.stock.cut_list import Row, cut_list
from layout.stock.end_words import known
from layout.stock.row_words import RowWords, row_words

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "samples"
EVERY = ROOT / "tests" / "piece_file"
FILES = [*sorted(SAMPLES.glob("*.toml")), *sorted(EVERY.glob("every_*.toml"))]


@cache
def opened(path: Path) -> Piece:
    return work_out(read_piece(path))


@cache
def told(path: Path) -> tuple[tuple[Row, RowWords], ...]:
    p = opened(path)
    rows = cut_list(p)
    return tuple(zip(rows, row_words(p, rows), strict=True))


def words(path: Path, name: str, at: int = 0) -> RowWords:
    return [one for row, one in told(path) if row.name == name][at]


@pytest.mark.parametrize(
    ("file", "name", "ends"),
    [
        ("every_tenon", "pegged rail", "tenon 1 1/2 long, sloped haunch, drawbored, into the leg"),
        ("every_tenon", "paired rail", "pair of tenons 2 1/4 long, haunched between, into the leg"),
        ("every_tenon", "tight rail",
         "through tenon 3 long, dovetailed and wedged, into the leg"),
        ("every_tenon", "mitred rail", "tenon 2 7/16 long, mitred, into the leg"),
        ("every_door", "glass door top rail",
         "through tenon 2 1/4 long, haunched, back shoulder longer, wedged, into the stile"),
        ("every_door", "pair top rail", "tenon 1 5/16 long, haunch in the groove, into the stile"),
        ("every_door", "pair panel", "tongued, in the groove"),
        ("every_door", "end panel", "raised, in the groove"),
        ("every_door", "glass door glass", "square, in the rabbet"),
        ("every_box", "box end", "5 tails 5/8 long, lapped"),
        ("every_box", "lipped one front", "1 pin and 2 half pins 1/2 long, lapped, rabbeted"),
        ("every_box", "till back", "2 pins 7/16 long, through"),  # half tails at the edges
        ("every_box", "till bottom", "rabbeted, in the groove"),
        ("every_case", "cabinet back board", "square, in the rabbet"),
        ("every_case", "case back", "square"),
        ("every_case", "carcase top", "housed 3/16 full deep, stopped, into the carcase side"),
        ("every_case", "case top",
         "sliding dovetail 11/32 long, one side sloped, tapered, stopped, into the case side"),
        ("every_top", "bench top", "tongue 1 1/4 long, into the end cap"),
    ],
)
def test_both_ends_alike(file: str, name: str, ends: str) -> None:
    found = words(EVERY / f"{file}.toml", name)
    assert (found.end_a, found.end_b) == (ends, ends)
    assert found.ends == f"both ends: {ends}"


@pytest.mark.parametrize(
    ("file", "name", "end_a", "end_b"),
    [
        ("every_box", "till side", "3 tails 19/32 long, lapped", "3 tails 3/8 long, through"),
        ("every_door", "pair muntin", "stub tenon 5/8 long, into the pair middle rail",
         "stub tenon 5/8 long, into the pair bottom rail"),
        ("every_tenon", "passing rail",
         "tenon 2 21/32 long, notched for the passing end rail, into the leg",
         "tenon 2 11/16 long, notched for the passing end rail, into the leg"),
        ("every_tenon", "moulded rail",
         "barefaced tenon 2 7/32 full long, moulding mitred, into the leg",
         "barefaced tenon 2 1/4 long, moulding mitred, into the leg"),
        ("every_button", "top button", "tongue into its mortise", "square"),
    ],
)
def test_ends_that_differ(file: str, name: str, end_a: str, end_b: str) -> None:
    found = words(EVERY / f"{file}.toml", name)
    assert (found.end_a, found.end_b) == (end_a, end_b)
    assert found.ends == f"end A: {end_a}; end B: {end_b}"


@pytest.mark.parametrize(
    ("path", "name", "borne"),
    [
        (SAMPLES / "repair_bench.toml", "top", "22 dog holes; 5 holdfast holes"),
        (SAMPLES / "repair_bench.toml", "apron",
         "3 screw slots, counterbored; 2 dovetail sockets (front apron)"),
        (SAMPLES / "writing_table.toml", "leg",
         "5 mortises; 2 peg holes; 1 haunch socket (front left leg and front right leg); "
         "2 haunch sockets (back left leg and back right leg)"),
        (SAMPLES / "writing_table.toml", "foot rail", "1 mortise, through"),
        (SAMPLES / "hall_table.toml", "long rail", "3 button mortises"),
        (SAMPLES / "wall_cabinet.toml", "cabinet top",
         "2 dovetail sockets; rabbet along the far edge"),
        (SAMPLES / "wall_cabinet.toml", "left partition", "1 housing"),
        (SAMPLES / "map_chest.toml", "drawer bottom", "3 screw slots; rabbet along the face edge"),
        (EVERY / "every_top.toml", "bench top end cap", "5 peg holes; groove for the tongue"),
        (EVERY / "every_door.toml", "pair middle rail", "1 mortise; 2 grooves for panels"),
        (EVERY / "every_door.toml", "glass door top rail", "rabbet for glass"),
        (EVERY / "every_door.toml", "end panel", "raised along both edges"),
        (EVERY / "every_case.toml", "cabinet back board",
         "tongue along the far edge; groove along the face edge (cabinet back board 2, "
         "cabinet back board 3 and cabinet back board 4)"),
    ],
)
def test_what_is_borne(path: Path, name: str, borne: str) -> None:
    assert words(path, name).bears == borne


def test_a_horn_is_told_at_both_ends_of_a_stile() -> None:
    found = words(SAMPLES / "repair_bench.toml", "stile")
    assert found.ends == "both ends: square, with a horn of 1/2 until glued up"


def test_parts_of_a_row_that_differ_are_told_apart() -> None:
    """The left apron's end A is behind, the right one's in front, where its neighbour differs."""
    found = words(EVERY / "every_box.toml", "apron")
    short, long = ("pair of tenons 1 1/32 long, into the leg",
                   "pair of tenons 1 1/2 long, into the leg")
    assert found.end_a == f"{short} (left apron), or {long} (right apron)"
    assert found.end_b == f"{long} (left apron), or {short} (right apron)"


def test_loose_stuff_says_nothing() -> None:
    rows = [(row, one) for row, one in told(SAMPLES / "writing_table.toml") if not row.parts]
    assert [row.name for row, _ in rows] == ["wedge", "peg"]
    assert all(one == RowWords() and one.ends == one.reference == "" for _, one in rows)


# Cuts along a part's length that are no word of their own: they belong to a mortise, a slot or an
# end that is told. (A part's own end joints are told by their records.)
SILENT = re.compile(
    r"(far )?flare|splay space|wedge space|counterbore .*|key taper|button waste"
    r"|edge rabbet end [AB]|raise end [AB]|(tongue|back) waste end [AB]|end tongue waste, .*"
    r"|back waste (far )?edge"
)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_cut_goes_untold(path: Path) -> None:
    """Every cut along a part either changes what is said of it, or belongs to one that does."""
    p = opened(path)
    have = known(p)
    tried = 0
    for part in p.parts:
        for cut in have.cuts[part.id]:
            if cut.joint in have.own[part.id] or SILENT.fullmatch(cut.role):
                continue
            alone = have._replace(cuts={**have.cuts, part.id: [cut]})
            assert bearing.bears(alone, part) != (), (part.id, cut.role)
            tried += 1
    assert tried > 0


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_mortises_told_are_the_mortises_cut(path: Path) -> None:
    """Counted again by hand: every row of one kind of parts against the cuts themselves."""
    p = opened(path)

    def mortises(one: str) -> list[Cut]:
        return [cut for cut in p.cuts if cut.part == one and is_mortise(cut.role)
                and not cut.role.startswith("button")]

    for row, said in told(path):
        counts = {len(mortises(one)) for one in row.parts}
        found = {int(many) for many in re.findall(r"(?<!button )\b(\d+) mortises?\b", said.bears)}
        assert found == counts - {0}, row.name
