"""The lists of the year and of diagonals, read back from their sheets. In mm.

The door is that of tests/builds/test_door.py. White oak moves 0.00365 of its width for each 1 %
and 0.00180 of its thickness (Wood Handbook, FPL-GTR-190, 2010, Table 13-5): three digits, and a
difference told to a tenth of 1 % (2.0 %) has two.
"""

from __future__ import annotations

from fractions import Fraction
from math import hypot

from layout.checks.words import said
from layout.piece import Piece
from layout.scene.strokes import Sheet, Text
from layout.sheets.season_list import season_sheets, square_sheets
from layout.squareness import squares
from tests.builds.test_door import read

F = Fraction
AREA = (F(180), F(250))
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 11\n"
# where the three columns end, in hundredths of the width
DRY, DAMP = 180 * F(79, 100), F(180)


def texts(sheets: tuple[Sheet, ...]) -> list[Text]:
    return [one for sheet in sheets for one in sheet.scene.strokes if isinstance(one, Text)]


def column(sheets: tuple[Sheet, ...], x: Fraction) -> list[str]:
    """What ends in a column, from the top down."""
    return [one.words for one in texts(sheets) if one.align == "right" and one.at[0] == x]


def row(sheets: tuple[Sheet, ...], words: str) -> list[str]:
    """Everything at the height of the row that begins with these words, from left to right."""
    (first,) = [one for one in texts(sheets) if one.words == words and one.at[0] == 0]
    level = [one for one in texts(sheets) if one.at[1] == first.at[1]]
    return [one.words for one in sorted(level, key=lambda one: one.at[0])]


def year(keys: str = "", before: str = CLIMATE, **changes: str) -> tuple[Piece, tuple[Sheet, ...]]:
    p = read(keys, before=before, **changes)
    return p, season_sheets(p, AREA)


# -- through the year


def test_a_stile_s_row() -> None:
    _, sheets = year()
    # 50 x 2 x 0.00365 = 0.365, 50 x 3 x 0.00365 = 0.5475
    assert row(sheets, "2 × stile") == ["2 × stile", "50", "−0.37 mm", "+0.55 mm"]
    # 70: 0.511 and 0.7665
    assert row(sheets, "door bottom rail")[1:] == ["70", "−0.51 mm", "+0.77 mm"]


def test_what_a_size_becomes_stands_below_the_change() -> None:
    p, sheets = year()
    dry = [said(p, size * (1 - 2 * F("0.00365"))) for size in (F(50), F(60), F(70))]
    damp = [said(p, size * (1 + 3 * F("0.00365"))) for size in (F(50), F(60), F(70))]
    assert [one for one in column(sheets, DRY) if one in dry] == dry
    assert [one for one in column(sheets, DAMP) if one in damp] == damp


def test_the_wood_and_its_cut_are_told() -> None:
    _, sheets = year('sawn = "quarter"\n')
    told = [one.words for one in texts(sheets)]
    assert "width, quarter-sawn: White oak, commercial" in told
    assert "thickness, quarter-sawn: White oak, commercial" in told
    # 50 x 2 x 0.00180 = 0.18
    assert row(sheets, "2 × stile")[2] == "−0.18 mm"


def test_the_seasons_are_told_at_the_head() -> None:
    _, sheets = year()
    told = [one.words for one in texts(sheets)]
    assert "today 8.0 %, in the dry season 6.0 %, in the damp one 11.0 %" in told
    for head in ("size today", "dry season", "damp season"):
        assert head in told


def test_no_change_has_no_sign() -> None:
    _, sheets = year(before="[climate]\nnow = 8\ndry = 8\nwet = 8\n")
    assert row(sheets, "2 × stile")[2:] == ["0 mm", "0 mm"]
    # wood wetter today than the year ever gets only shrinks
    _, sheets = year(before="[climate]\nnow = 12\ndry = 6\nwet = 10\n")
    assert row(sheets, "2 × stile")[2:] == ["−1.1 mm", "−0.37 mm"]


def test_no_list_without_a_year() -> None:
    assert year(before="")[1] == ()


def test_a_sheet_of_plywood_has_no_row() -> None:
    p, sheets = year()
    assert "door panel" not in " ".join(one.words for one in texts(sheets))
    solid = year(panel="panel = { thickness = 6, lip = 10, solid = {} }\n")[1]
    assert "door panel" in [one.words for one in texts(solid)]
    assert p.part("door-panel").timber == "plywood"


def test_long_lists_go_on() -> None:
    keys = "".join(f"[[door.middle]]\nwidth = {30 + n}\n" for n in range(10))
    p, _ = year(keys, place="space = { width = 400, height = 1500 }\n")
    low = (F(180), F(150))
    sheets = season_sheets(p, low)
    assert len(sheets) > 1
    told = [one.words for one in texts(sheets)]
    for n in range(10):
        assert str(30 + n) in told
    assert all(0 <= one.at[0] <= low[0] and 0 <= one.at[1] <= low[1] for one in texts(sheets))


# -- square at glue-up


def test_every_diagonal_and_its_lean() -> None:
    p = read()
    sheets = square_sheets(p, AREA)
    told = [one.words for one in texts(sheets)]
    for wide, high in ((396, 593), (296, 463)):
        assert f"{wide} mm x {high} mm" in told
        # to the maker's half millimetre: 713.07 and 549.54
        assert f"{round(hypot(wide, high) * 2) / 2:g}" in told
    assert "713" in told
    assert "549.5" in told
    assert [one.words for one in texts(sheets)].count("door") == 2
    # 1 mm of difference: 0.900 and 0.928 of lean, both 1 to the rule, bare
    assert told.count("bare") == 2
    assert "they differ by 1 mm." in " ".join(told)


def test_every_rectangle_has_its_row() -> None:
    p = read("pair = true\n")
    told = [one.words for one in texts(square_sheets(p, AREA))]
    assert [one for one in told if one in ("left door", "right door")] == [
        one.name for one in squares(p)
    ]


def test_a_piece_without_rectangles_has_no_list() -> None:
    p = read()
    assert square_sheets(p._replace(doors=()), AREA) == ()
