"""Fold templates of dovetails: lines where the numbers say, strips that agree on the arris, the
right hand.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from lxml import etree

import layout
from layout.joints.dovetail import Corner
from layout.mark import Mark
from layout.paper.svg import svg_text
from layout.part import Part, piece_axis, sense
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import read_toml
from layout.scene.strokes import Line, Pen, Sheet
from layout.sheets.bevel_template import LONG, bevels
from layout.sheets.dovetail_template import _Fold, _unfolded, dovetails
from layout.sheets.groups import mark_ids

SAMPLES = Path(layout.__file__).parent.parent / "samples"
ODD = """
piece = "Odd boxes"
unit = "in"
[[drawer]]
name = "lipped"
space = { width = 13, height = 4, depth = 11 }
style = "lipped"
front_dovetails = { tails = 3, slope = "8 deg" }
[[drawer]]
name = "through"
space = { width = 13, height = 5, depth = 11 }
front_dovetails = { tails = 2, lap = false }
bottom = { run = "stopped" }
[[chest]]
name = "rabbeted"
length = 20
depth = 9
height = 7
thickness = "3/4"
tails_on = "ends"
dovetails = { tails = 3, edges = "half pins" }
bottom = { kind = "rabbet", thickness = "1/2" }
[[chest]]
name = "running"
length = 18
depth = 9
height = 6
thickness = "1/2"
dovetails = { tails = 4, edges = "half tails" }
"""


def odd(folder: Path) -> Piece:
    path = folder / "odd.toml"
    path.write_text(ODD, encoding="utf-8")
    return work_out(piece_from(read_toml(path)))


@pytest.fixture(scope="module", params=["bedding_box", "map_chest", "odd"])
def piece(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Piece:
    if request.param == "odd":
        return odd(tmp_path_factory.mktemp("odd"))
    return work_out(piece_from(read_toml(SAMPLES / f"{request.param}.toml")))


def sheet_of(sheets: tuple[Sheet, ...], corner: Corner, what: str) -> Sheet:
    """The one template that names this corner of this box."""
    letter = corner.letter
    box = corner.name.rsplit(".", 1)[0].replace("-", " ")
    found = [
        sheet
        for sheet in sheets
        if sheet.name.startswith(what.capitalize())
        and box in sheet.name
        and letter in sheet.name.split("corner")[1]
    ]
    assert len(found) == 1, (corner.name, what, [sheet.name for sheet in found])
    return found[0]


def folds(piece: Piece) -> list[tuple[Corner, str, _Fold, Sheet]]:
    sheets = dovetails(piece)
    assert len({sheet.name for sheet in sheets}) == len(sheets)
    return [
        (corner, what, _unfolded(corner, what), sheet_of(sheets, corner, what))  # type: ignore[arg-type]
        for corner in piece.corners
        for what in ("tails", "pins")
    ]


def names_of(piece: Piece) -> dict[str, Mark]:
    return {name: mark for mark, name in mark_ids(piece).items()}


def strips(sheet: Sheet) -> tuple[Fraction, Fraction, int]:
    """Where the fold lies, where the heavy edge stands, and which way the board goes from it."""
    (fold,) = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.FOLD]
    (heavy,) = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.HEAVY]
    middle = (fold.a[0] + fold.b[0]) / 2
    return fold.a[1], heavy.a[0], 1 if middle > heavy.a[0] else -1


def svg_lines(piece: Piece, sheet: Sheet) -> list[tuple[str, float, float, float, float]]:
    """Every line with a mark's name in the SVG: name, x and y up from the lower left corner, as
    another library reads them.
    """
    root = etree.fromstring(svg_text(sheet, piece.name).encode("utf-8"))
    high = float(root.get("viewBox").split()[3])
    found = []
    for line in root.iter("{http://www.w3.org/2000/svg}line"):
        name = (line.get("id") or "").split("-")[0].split(".")[0]
        if name.startswith("m"):
            x1, y1, x2, y2 = (float(line.get(key)) for key in ("x1", "y1", "x2", "y2"))
            found.append((name, x1, high - y1, x2, high - y2))
    return found


def drawn_sides(names: dict[str, Mark], sheet: Sheet) -> list[Line]:
    return [
        stroke
        for stroke in sheet.scene.strokes
        if isinstance(stroke, Line)
        and stroke.mark
        and "side of tail" in names[stroke.mark].role
    ]


def test_the_two_strips_agree_on_the_arris(piece: Piece) -> None:
    """Folded, a line of the end strip goes on in one of the other: both cross the fold there."""
    names = names_of(piece)
    for corner, _what, _fold, sheet in folds(piece):
        fold, _, _ = strips(sheet)
        above, below = set(), set()
        for line in drawn_sides(names, sheet):
            for spot, other in ((line.a, line.b), (line.b, line.a)):
                if spot[1] == fold:
                    (above if other[1] > fold else below).add(spot[0])
        assert above == below
        assert len(above) == len(list(corner.sides()))


def test_every_tail_corner_lies_where_the_chain_says(piece: Piece) -> None:
    """Measured on paper from the heavy edge: at the end, at the fold and at the baseline."""
    names = names_of(piece)
    for corner, what, fold_, sheet in folds(piece):
        fold, edge, way = strips(sheet)
        start = corner.shift if what == "tails" else Fraction(0)
        ends = {start + end for _, _, end, _ in corner.sides()}
        bases = {start + base for _, _, _, base in corner.sides()}
        high = fold + fold_.thick if what == "tails" else None
        long = corner.depth if what == "tails" else corner.tails.thickness
        at_top, at_fold, at_base = set(), set(), set()
        for line in drawn_sides(names, sheet):
            for x, y in (line.a, line.b):
                place = (x - edge) * way
                if y == fold:
                    at_fold.add(place)
                elif y == fold - long:
                    at_base.add(place)
                else:
                    assert y > fold
                    at_top.add(place)
                    if high is not None:
                        assert y == high
        outside = fold_.side == "back"
        if what == "tails":
            assert (at_top, at_fold, at_base) == (ends, ends, bases)
        elif outside:  # pins are narrow outside, where the fold is, and wide inside
            assert (at_top, at_fold, at_base) == (bases, ends, ends)
        else:  # lapped: seen from inside
            assert (at_top, at_fold, at_base) == (ends, bases, bases)


def test_the_svg_has_every_line_within_a_thousandth(piece: Piece) -> None:
    for sheet in dovetails(piece):
        wanted = sorted(
            tuple(float(v) for v in (*s.a, *s.b))
            for s in sheet.scene.strokes
            if isinstance(s, Line) and s.mark
        )
        found = sorted(line[1:] for line in svg_lines(piece, sheet))
        assert len(found) == len(wanted) > 0
        # the drawing may stand off the sheet's edge
        dx, dy = found[0][0] - wanted[0][0], found[0][1] - wanted[0][1]
        for one, other in zip(wanted, found, strict=True):
            assert (other[0] - dx, other[1] - dy) == pytest.approx(one[:2], abs=0.001)
            assert (other[2] - dx, other[3] - dy) == pytest.approx(one[2:], abs=0.001)


def cross(a: tuple[int, ...], b: tuple[int, ...]) -> tuple[int, int, int]:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def way_of(part: Part, axis: str, sign: int) -> tuple[int, int, int]:
    direction = part.placement.direction(axis)  # type: ignore[arg-type]
    found = [0, 0, 0]
    found[piece_axis(direction)] = sense(direction) * sign
    return (found[0], found[1], found[2])


def test_each_template_is_for_the_hand_that_it_is_laid_on(piece: Piece) -> None:
    """With the end up and the shown side toward us, right is up x toward us."""
    for _corner, _what, fold, sheet in folds(piece):
        up = way_of(fold.part, "L", -1 if fold.end == "end A" else +1)
        toward = way_of(fold.part, "T", +1 if fold.side == "back" else -1)
        from_edge = way_of(fold.part, "W", +1)
        right = cross(up, toward)
        assert strips(sheet)[2] == (1 if from_edge == right else -1)
        assert from_edge in (right, tuple(-v for v in right))


def test_every_corner_is_named_on_a_template_for_tails_and_one_for_pins(piece: Piece) -> None:
    assert len(folds(piece)) == 2 * len(piece.corners)


def test_waste_is_hatched_on_both_strips(piece: Piece) -> None:
    for sheet in dovetails(piece):
        fold, _, _ = strips(sheet)
        hatch = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.HATCH]
        assert any(min(s.a[1], s.b[1]) >= fold for s in hatch)
        assert any(max(s.a[1], s.b[1]) <= fold for s in hatch)


def test_a_bevel_leans_as_its_slope_says(piece: Piece) -> None:
    slopes = {corner.spacing.choice.slope.run for corner in piece.corners}
    sheets = bevels(piece)
    assert len(sheets) == len(slopes)
    for sheet, run in zip(sheets, dict.fromkeys(
        corner.spacing.choice.slope.run for corner in piece.corners
    ), strict=True):
        leaning = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.WIDE]
        assert len(leaning) == 2
        for line in leaning:
            assert abs(line.b[0] - line.a[0]) == LONG / run
            assert abs(line.b[1] - line.a[1]) == LONG
