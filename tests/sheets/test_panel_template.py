"""A panel's edge at full size: read back from the sheet, it is the panel's section in the groove
that the frame has, with the edge where today, the dry and the damp season leave it. In mm.

The door is that of tests/builds/test_door.py, of flat-sawn white oak, which moves 0.00365 of its
width for each 1 % (Wood Handbook, FPL-GTR-190, 2010, Table 13-5).
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

import pytest

from layout.checks.words import said
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from layout.scene.strokes import Line, Pen, Polygon, Sheet, Text
from layout.sheets.panel_template import panel_edges
from layout.sheets.template import templates
from tests.builds.test_door import HEAD, LEGS, read

F = Fraction
Spot = tuple[Fraction, Fraction]
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 11\n"
RAISED = ('panel = { thickness = 14, edge = "raised", tongue = 5, wood_behind = 2, border = 40,'
          ' step = 2, lip = 10, solid = {} }\n')
TONGUE = 'panel = { thickness = 12, edge = "tongue", tongue = 6, lip = 10, solid = {} }\n'
PLAIN = "panel = { thickness = 6, lip = 10, solid = {} }\n"
# Opening 296 and two grooves of 10, less 3/2; 3 % to the damp season, 2 % to the dry one
FLOORS = F(316)
WIDEST = FLOORS - F(3, 2)
TODAY = WIDEST / (1 + 3 * F("0.00365"))
NARROWEST = TODAY * (1 - 2 * F("0.00365"))


class Drawn(NamedTuple):
    """A sheet read back, from the groove's bottom to the right and down from the frame's face."""

    outline: list[Spot]
    seasons: list[Fraction]
    frame: set[tuple[Spot, Spot]]


def one_sheet(panel: str, keys: str = "", **changes: str) -> Sheet:
    (sheet,) = panel_edges(read(keys, panel=panel, before=CLIMATE, **changes))
    assert (sheet.way, sheet.scale) == ("full size", "1:1")
    return sheet


def read_back(sheet: Sheet) -> Drawn:
    lines = [one for one in sheet.scene.strokes if isinstance(one, Line)]
    narrow = [one for one in lines if one.pen is Pen.NARROW]
    # the frame's face is the highest line of its section, the groove's bottom its only upright
    # that no other one goes on from
    head = max(max(one.a[1], one.b[1]) for one in narrow)
    uprights = [one for one in narrow if one.a[0] == one.b[0]]
    left = min(one.a[0] for one in uprights)

    def at(spot: Spot) -> Spot:
        return (spot[0] - left, head - spot[1])

    wide = [one for one in lines if one.pen is Pen.WIDE]
    assert all(one.b == other.a for one, other in pairwise(wide))
    outline = [at(wide[0].a), *(at(one.b) for one in wide)]
    # what is filled white under it is the same figure
    (ground,) = [one for one in sheet.scene.strokes if isinstance(one, Polygon)]
    assert [at(spot) for spot in ground.points] == outline
    edge = min(x for x, _ in outline)
    dashed = [one for one in lines if one.pen is Pen.HIDDEN and one.a[0] == one.b[0]]
    near = sorted(at(one.a)[0] for one in dashed if 0 < at(one.a)[0] < edge + 10)
    frame = {(at(one.a), at(one.b)) for one in narrow}
    return Drawn(outline, near, frame)


def words(sheet: Sheet) -> str:
    return " ".join(one.words for one in reversed(sheet.scene.strokes) if isinstance(one, Text))


@pytest.mark.parametrize(
    ("panel", "plane", "thick", "outline"),
    [
        # from the edge, and down from the panel's face side; 22 beyond the border or the lip
        (RAISED, F(15, 2), (7, 5), [(62, 0), (40, 0), (40, 2), (10, 7), (0, 7), (0, 12), (10, 12),
                                    (10, 14), (62, 14)]),
        (TONGUE, 7, (6, 6), [(32, 0), (10, 0), (10, 6), (0, 6), (0, 12), (32, 12)]),
        (PLAIN, 7, (0, 6), [(32, 0), (0, 0), (0, 6), (32, 6)]),
    ],
    ids=["raised", "tongue", "plain"],
)
def test_the_section_read_back(
    panel: str, plane: Fraction, thick: tuple[int, int], outline: list[tuple[int, int]]
) -> None:
    found = read_back(one_sheet(panel))
    edge = (FLOORS - TODAY) / 2
    front, tongue = thick
    # the tongue's front side lies against the groove's front wall
    assert found.outline == [(edge + w, plane - front + t) for w, t in outline]
    # the groove: 10 deep, as wide as the tongue is thick, in a frame 20 thick
    assert {((F(10), plane), (F(0), plane)), ((F(0), plane), (F(0), plane + tongue)),
            ((F(0), plane + tongue), (F(10), plane + tongue))} <= found.frame
    assert max(y for line in found.frame for _, y in line) == 20
    # the edge of the tongue in the damp season and in the dry one
    assert found.seasons == [(FLOORS - WIDEST) / 2, (FLOORS - NARROWEST) / 2]
    assert found.seasons[0] == F(3, 4)
    assert found.seasons[1] < 10 - 3  # it covers 3 at least


def test_what_is_free_is_told_in_words() -> None:
    p = read(panel=RAISED, before=CLIMATE)
    (sheet,) = panel_edges(p)
    for size in (TODAY, NARROWEST, WIDEST):
        assert said(p, (FLOORS - size) / 2) in words(sheet)
    # 14 - 2 - 5 - 2 = 5 of fall in 40 - 10
    assert "the bevel falls 5 mm in 30 mm; the step at the field is 2 mm" in words(sheet)


def test_the_figures_on_a_raised_edge() -> None:
    texts = [one.words for one in one_sheet(RAISED).scene.strokes if isinstance(one, Text)]
    # below: the groove's depth and the border; beside: step, both sides of the tongue
    for figure in ("10", "40", "2", "7", "12"):
        assert figure in texts


def test_nothing_dashed_where_nothing_moves() -> None:
    (sheet,) = panel_edges(read(panel=RAISED, before="[climate]\nnow = 8\ndry = 8\nwet = 8\n"))
    assert read_back(sheet).seasons == []
    assert min(x for x, _ in read_back(sheet).outline) == F(3, 4)


def test_which_panels_are_drawn() -> None:
    assert panel_edges(read()) == ()  # a plain sheet
    p = read(panel=RAISED)
    assert set(panel_edges(p)) <= set(templates(p))
    worked = read(panel='panel = { thickness = 12, edge = "tongue", tongue = 6, lip = 10,'
                  ' timber = "plywood" }\n')
    (sheet,) = panel_edges(worked)
    # a sheet keeps its size: nothing dashed, no words on the year
    assert read_back(sheet).seasons == []
    assert "season" not in words(sheet)


def test_like_panels_share_a_sheet() -> None:
    sheet = one_sheet(RAISED, "[[door.middle]]\nwidth = 50\n")
    assert "door panel 1" in sheet.subject
    assert "door panel 2" in sheet.subject


def test_a_sheet_s_year_is_that_of_every_panel_it_is_for() -> None:
    # grain across: rows 1000 and 163 high move by very different lengths
    p = read("[[door.middle]]\nwidth = 50\nabove = 1000\n", before=CLIMATE,
             place="space = { width = 400, height = 1350 }\n",
             panel=RAISED.replace("lip = 10", 'lip = 15, grain = "across"'))
    for bay in p.doors[0].bays:
        sheets = [one for one in panel_edges(p) if f"{bay.part.name}." in one.subject
                  or f"{bay.part.name}," in one.subject]
        (sheet,) = sheets
        free = (bay.height + 30 - bay.part.width) / 2
        assert f"{said(p, free)} today" in words(sheet)


def test_a_frame_s_panel_behind_set_in_rails() -> None:
    panel = ('[[panel]]\nname = "end"\nopenings = ["front under head"]\nthickness = 12\n'
             'seat = "groove"\nedge = "tongue"\ntongue = 6\nlip = 10\nsolid = {}\n')
    text = HEAD + CLIMATE + LEGS.replace("SIDE", "front") + panel
    p: Piece = work_out(piece_from(parse_toml(text, "frame.toml")))
    (sheet,) = panel_edges(p)
    found = read_back(sheet)
    # the groove in the middle of a rail 20 thick, counted from the rail's own face
    assert ((F(10), F(7)), (F(0), F(7))) in found.frame
    widest = 420 - F(3, 2)
    today = widest / (1 + 3 * F("0.00365"))
    assert min(x for x, _ in found.outline) == (420 - today) / 2
