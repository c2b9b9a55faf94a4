"""The cut list of drawers and chests: rows, sizes, and what each says. In mm."""

from __future__ import annotations

from fractions import Fraction

from layout.builds.box_choices import RunChoice
from layout.stock.cut_list import Row, cut_list
from tests.builds.test_chest import base, chest, lid
from tests.builds.test_drawer import boxes, drawer, made, stand

F = Fraction
Short = tuple[str, int, str, Fraction, Fraction, Fraction, str]


def short(row: Row) -> Short:
    """A row as it is read: length, width and thickness last."""
    return (row.name, row.count, row.timber, row.length, row.width, row.thickness, row.note)


def test_the_rows_of_a_drawer() -> None:
    p, _ = made(runs=RunChoice(F(40), thickness=F(25)))
    assert [short(row) for row in cut_list(p)] == [
        ("drawer front", 1, "oak", 398, 98, 20, ""),
        ("drawer runner", 2, "pine", 350, 40, 25, "1 left hand, 1 right hand"),
        ("drawer back", 1, "pine", 398, 80, 14, ""),
        ("drawer side", 2, "pine", 334, 98, 12, "1 left hand, 1 right hand"),
        ("drawer bottom", 1, "plywood", 384, 326, 6, ""),
    ]
    assert [row.letter for row in cut_list(p)] == ["A", "B", "C", "D", "E"]
    assert cut_list(p)[3].parts == ("drawer-left-side", "drawer-right-side")
    assert {row.assembly for row in cut_list(p)} == {"drawer"}


def test_like_drawers_share_their_rows() -> None:
    low = stand()._replace(rails=(  # type: ignore[attr-defined]
        *stand().rails,  # type: ignore[attr-defined]
        stand().rails[1]._replace(name="lowest rail", below_top=F(280)),  # type: ignore[attr-defined]
    ))
    choice = drawer(space=None, openings=("front under top rail", "front under low rail"))
    rows = {row.name: row for row in cut_list(boxes(frame=low, drawers=(choice,)))}
    assert (rows["drawer front"].count, rows["drawer front"].parts) == (
        2, ("drawer-1-front", "drawer-2-front"),
    )
    assert (rows["drawer side"].count, rows["drawer side"].note) == (
        4, "2 left hand, 2 right hand",
    )
    assert rows["drawer side"].assembly == "drawers 1 and 2"


def test_the_rows_of_a_chest() -> None:
    p = boxes(chests=(chest(bottom=base("planted"), lid=lid(boards=2), front_boards=2,
                            end_boards=(F(60), F(40))),))
    assert [short(row) for row in cut_list(p)] == [
        ("chest end", 2, "pine", 300, 100, 14,
         "1 left hand, 1 right hand; glued up of 2 boards from the lower edge: 60, 40 wide"),
        ("chest long side", 2, "pine", 500, 100, 12,
         "chest front, chest back; glued up of 2 boards 50 wide"),
        ("chest bottom", 1, "cedar", 500, 300, 10, ""),
        ("chest lid", 1, "oak", 510, 311, 15, "glued up of 2 boards 155.5 wide"),
    ]


def test_drawers_of_other_sizes_have_rows_of_their_own() -> None:
    p = boxes(drawers=(drawer(name="till"), drawer(name="tray", height=F(90))))
    assert [(row.name, row.width) for row in cut_list(p) if row.name.endswith("front")] == [
        ("till front", 98), ("tray front", 90),
    ]
    assert list(dict.fromkeys(row.assembly for row in cut_list(p))) == ["drawer till",
                                                                       "drawer tray"]
