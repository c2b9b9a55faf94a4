"""A row of dog holes, typed: by hand, by a solid modeller from the JSON, read back from paper, and
every refusal.
"""

from __future__ import annotations

import io
import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from manifold3d import Manifold

import layout
from layout.checks import check
from layout.cli.answer import Shown
from layout.cli.dogs import DogWords, dogs_piece
from layout.cli.packet import _sheets
from layout.measure import read_slope
from layout.paper.pdf import write_pdf
from layout.paper.read_pdf import read_pdf
from layout.paper.readback import compare
from layout.paper.sizes import paper_named
from layout.paper.svg import svg_text
from layout.paper.tiles import lay_out
from layout.piece import Piece
from layout.scene.strokes import Circle
from layout.sheets.dog_template import MARGIN, dog_sheets

F = Fraction
INCH = F(127, 5)
SCHEMA = json.loads(
    (Path(layout.__file__).parent / "numbers.schema.json").read_text(encoding="utf-8")
)
ROW = "joint dogs --length 60 --width 24 --thickness 3 --vise 7".split()
ZONES = ["--keep-out", "left leg 10 to 14", "--keep-out", "runner 29 to 31.5"]
STRIP = "joint dogs --length 1200 --width 80 --thickness 80 --vise 150 --unit mm --square"
SQUARE = [*STRIP.split(), "--lean", "3 deg", "--keep-out", "bolt 400 to 415"]


def told(call: Any, *words: str, code: int = 0) -> dict[str, Any]:
    """The JSON of a row, held against the schema."""
    done, out, _ = call(*words, "--json")
    assert done == code
    found = json.loads(out)
    jsonschema.validate(found, SCHEMA)
    return dict(found)


def rows(out: str) -> dict[str, str]:
    lines = out.split("\n\n")[0].splitlines()
    return {found[1]: found[2] for line in lines
            if (found := re.fullmatch(r"(.*?\S) {2,}(\S.*)|(.*)", line)) and found[1]}


def made(**words: Any) -> Piece:
    given: dict[str, Any] = {"length": "60", "width": "24", "thickness": "3", "vise": "7"}
    return dogs_piece(DogWords(**(given | words)), Shown(words.pop("unit", "in")))


def findings(piece: Piece, rule: str) -> list[tuple[str, dict[str, Fraction]]]:
    return [(one.level, dict(one.figures)) for one in check(piece) if one.rule == rule]


# -- by hand


def test_an_even_row_by_hand(call: Any) -> None:
    found = told(call, *ROW)
    centres = [F(cut["cylinder"]["centre"][0]) / INCH for cut in found["cuts"]]
    # the last hole's edge keeps 1 1/2 from the end: 60 - 1 1/2 - 3/8 = 58 1/8 is the limit
    assert centres == [F(4 * number) for number in range(1, 15)]
    assert {F(cut["cylinder"]["centre"][1]) / INCH for cut in found["cuts"]} == {F(3)}
    (chain,) = found["sums"]
    assert F(chain["total"]) == 56 * INCH


def test_six_inches_apart_as_a_published_bench_has_them() -> None:
    # Lon Schleining, Essential workbench, Fine Woodworking Tools & Shops, Winter 2003/2004: square
    # holes 6 in centre to centre, leaning 3 degrees toward the end vise
    p = made(length="72", width="3 1/2", thickness="4", vise="8", pitch="6", square=True,
             lean="3 deg")
    (row,) = p.dogs
    assert row.places == tuple(6 * number * INCH for number in range(1, 12))
    assert findings(p, "pitch against the vise") == []


@pytest.mark.parametrize(
    ("thickness", "lean", "offset"), [("3", "3 deg", "0.157"), ("3 1/2", "2 deg", "0.122")]
)
def test_a_leaning_hole_s_foot(thickness: str, lean: str, offset: str) -> None:
    # T tan(a): 3 in at 3 degrees 0.157, 3 1/2 in at 2 degrees 0.122 (arithmetic)
    p = made(width="3", thickness=thickness, square=True, lean=lean)
    (row,) = p.dogs
    assert abs(row.lean / INCH - F(offset)) < F(1, 2000)
    for cut in p.cuts:
        low, high = cut.shape.reach("L")
        assert high - low == row.choice.size + row.lean


def test_the_pitch_left_open_is_what_the_vise_serves() -> None:
    # 4 in, or the opening less an inch for the hand
    assert made().dogs[0].pitch == 4 * INCH
    assert made(vise="3 1/2").dogs[0].pitch == F(5, 2) * INCH
    assert made(vise="3 1/2", hand="1/2").dogs[0].pitch == 3 * INCH


def test_what_is_held() -> None:
    (row,) = made(closed="1").dogs
    # the first hole's face 4 - 3/8, the vise's dog 1 before the end and 7 further
    assert row.held == [((4 - F(3, 8) + 1) * INCH, (56 - F(3, 8) + 1 + 7) * INCH)]


def test_a_pitch_wider_than_the_vise_opens_is_told() -> None:
    p = made(pitch="9")
    assert findings(p, "pitch against the vise") == [
        ("caution", {"gap": 9 * INCH, "most": 6 * INCH})
    ]
    first = (9 - F(3, 8)) * INCH
    assert findings(p, "work that the dogs hold")[0] == (
        "caution", {"from": first + 7 * INCH, "to": first + 9 * INCH}
    )
    assert made().dogs[0].held[1:] == []


def test_rows_too_near_the_edge_or_one_another() -> None:
    rule = "wood beside the dog holes"
    assert findings(made(), rule) == []
    assert findings(made(lines=("1/2",)), rule) == [
        ("caution", {"wood": INCH / 8, "least": F(3, 16) * INCH})
    ]
    assert findings(made(lines=("3", "3 7/8")), rule) == [
        ("caution", {"wood": INCH / 8, "least": F(3, 16) * INCH})
    ]
    assert findings(made(lines=("3", "3 1/2")), rule)[0][0] == "stop"


# -- a solid modeller, from the JSON alone


def solid(cut: dict[str, Any]) -> Manifold:
    if "cylinder" in cut:
        bored = cut["cylinder"]
        assert bored["axis"] == "T"
        x, y = (float(F(value)) for value in bored["centre"])
        low, high = float(F(bored["from"])), float(F(bored["to"]))
        round_ = Manifold.cylinder(high - low, float(F(bored["radius"])), circular_segments=256)
        return round_.translate((x, y, low))
    return Manifold.hull_points([[float(F(value)) for value in point] for point in cut["hull"]])


@pytest.mark.parametrize(
    ("words", "zones", "clear"),
    [
        ([*ROW, *ZONES], [(10 * 25.4, 14 * 25.4), (29 * 25.4, 31.5 * 25.4)], 25.4 / 4),
        (SQUARE, [(400, 415)], 6),
        ([*ROW, *ZONES, "--line", "3", "--line", "20", "--clear", "1/2"],
         [(10 * 25.4, 14 * 25.4), (29 * 25.4, 31.5 * 25.4)], 25.4 / 2),
    ],
    ids=["round", "square", "two rows"],
)
def test_every_hole_misses_every_zone(
    call: Any, words: list[str], zones: list[tuple[float, float]], clear: float
) -> None:
    found = told(call, *words)
    (part,) = found["parts"]
    size = [float(F(part[side])) for side in ("length", "width", "thickness")]
    board = Manifold.cube(size)
    holes = [solid(cut) for cut in found["cuts"]]
    assert len(holes) > 9
    for low, high in zones:
        # as wide as what must be missed and the clearance, less a hair for the modeller's floats
        kept = Manifold.cube([high - low + 2 * clear - 2e-6, size[1], size[2]]).translate(
            [low - clear + 1e-6, 0, 0])
        for hole in holes:
            assert (hole ^ kept).volume() < 1e-6
    # and each takes its own wood out of the board
    bored = board
    for hole in holes:
        bored = bored - hole
    taken = sum((hole ^ board).volume() for hole in holes)
    assert bored.volume() == pytest.approx(board.volume() - taken, rel=1e-9)


def test_a_hole_moved_into_a_zone_is_stopped() -> None:
    p = made(zones=("left leg 10 to 14",))
    cut = p.cuts[1]
    moved = cut._replace(shape=cut.shape._replace(centre=(10 * INCH, cut.shape.centre[1])))
    hurt = p._replace(cuts=(p.cuts[0], moved, *p.cuts[2:]))
    rule = "dog holes clear of what they must miss"
    assert [level for level, _ in findings(p, rule)] == ["note"]
    assert [level for level, _ in findings(hurt, rule)] == ["stop"]
    assert any(one.level == "stop" and "sums" in one.rule for one in check(hurt))


# -- both spacings


def test_both_spacings_are_shown(call: Any) -> None:
    code, out, _ = call(*ROW, *ZONES)
    assert code == 0
    shown = rows(out)
    assert shown["hole 3 in an even row"] == "12"
    assert shown["hole 2"] == "9 5/16"
    assert shown["greatest gap"] == "5 5/16"
    assert "an even 4 in a hole would run into the left leg" in out
    _, plain, _ = call(*ROW)
    assert "even row" not in plain


# -- paper


@pytest.mark.parametrize("words", [
    {"zones": ("left leg 10 to 14",)},
    {"zones": ("left leg 10 to 14",), "width": "3", "square": True, "lean": "3 deg"},
])
def test_the_strip_read_back(words: dict[str, Any]) -> None:
    p = made(**words)
    sheets = list(_sheets(p, check(p), ("card", "sticks", "templates"), paper_named("letter"),
                          None, lambda words: None))
    pages = lay_out(sheets, paper_named("letter"), "dogs")
    buffer = io.BytesIO()
    write_pdf(pages, "dogs", buffer)
    proof = compare(pages, read_pdf(buffer.getvalue()))
    assert proof.good
    assert proof.missing == 0
    assert proof.worst_mm < 0.001
    names = (": top, dog holes", ": dog strip, dog holes")
    assert any(sheet.name.endswith(names) for sheet in sheets)


def test_every_middle_in_the_svg() -> None:
    p = made(zones=("left leg 10 to 14",))
    (row,) = p.dogs
    (strip,) = dog_sheets(p)
    middles = {stroke.centre[0] - MARGIN for stroke in strip.scene.strokes
               if isinstance(stroke, Circle) and stroke.radius == row.choice.size / 2}
    assert middles == set(row.places)
    svg = svg_text(strip, "dogs")
    told_at = [float(found) for found in re.findall(r'<circle[^>]*cx="([0-9.]+)"', svg)]
    radii = [float(found) for found in re.findall(r'<circle[^>]* r="([0-9.]+)"', svg)]
    rims = [x for x, r in zip(told_at, radii, strict=True) if r > 5]
    assert len(rims) == len(row.places)
    shift = rims[0] - float(row.places[0])
    for x, place in zip(sorted(rims), row.places, strict=True):
        assert abs(x - shift - float(place)) < 0.001


def test_same_input_same_bytes(call: Any) -> None:
    assert call(*ROW, *ZONES) == call(*ROW, *ZONES)


# -- refused


@pytest.mark.parametrize(
    ("words", "told_of"),
    [
        (["--keep-out", "leg"], "--keep-out: 'leg' says nothing to miss; name it, and say from"),
        (["--keep-out", "leg 5 to 4"], "--keep-out: the leg ends before it begins"),
        (["--keep-out", "leg 70 to 74"], "--keep-out: the leg lies beyond the top's end"),
        (["--keep-out", "leg 1/0 to 4"], "--keep-out: "),
        (["--keep-out", "leg 3 to 5"], "the first hole runs into the leg; move the first hole"),
        (["--keep-out", "leg 20 to 26"], "no row of holes misses all that it must, serves the"),
        (["--keep-out", "leg 20 to 26"], "the widest thing to miss is the leg: lay out what lies"),
        (["--keep-out", "leg 5 to 59"], "no row of holes misses all that it must"),
        (["--pitch", "1/2"], "the holes would stand nearer than a hole and the least wood"),
        (["--first", "59"], "the first hole comes too near to the end of the top"),
        (["--first", "1/4"], "the first hole comes out of the top's end"),
        (["--line", "1/4"], "a row of dog holes comes out of the top's edge"),
        (["--line", "24"], "a row of dog holes comes out of the top's edge"),
        (["--line", "3", "--line", "3"], "--line: a row is given twice"),
        (["--lean", "3 deg"], "--lean: a round hole is bored square through"),
        (["--square", "--line", "3"], "--line: square dogs are cut in the front edge"),
        (["--square", "--lean", "x"], "--lean: "),
        (["--hand", "7"], "--hand: the hand's margin is no less than the vise opens"),
        (["--dog", "0"], "--dog: "),
        (["--step", "1/5000"], "--step: the grid is finer than anyone can bore"),
        (["--length", "100000"], "--length: "),
        (["--unit", "cubits"], "--unit: 'cubits' is no unit to work in"),
    ],
)
def test_what_is_refused(call: Any, words: list[str], told_of: str) -> None:
    code, out, err = call(*ROW, *words)
    assert (code, out) == (2, "")
    assert err.startswith("shoulderline: ")
    assert told_of in err
    assert err.count("\n") == 1


def test_a_long_row_on_a_fine_grid(call: Any) -> None:
    # 32 1/2 ft: some seconds at most on the usual grid, and refused where it would take minutes
    long = "joint dogs --length 390 --width 24 --thickness 3 --vise 8".split()
    zone = ["--keep-out", "leg 100 to 105"]
    assert call(*long, *zone)[0] == 0
    code, out, err = call(*long, *zone, "--step", "1/128")
    assert (code, out) == (2, "")
    assert "the grid is too fine for so long a top" in err


def test_a_strip_too_narrow_for_its_dogs(call: Any) -> None:
    code, _, err = call(*ROW, "--square", "--width", "7/8")
    assert code == 2
    assert "too little of the strip's width" in err


def test_too_many_holes(call: Any) -> None:
    code, _, err = call(*"joint dogs --length 390 --width 24 --thickness 3 --vise 4".split(),
                        "--pitch", "1", "--dog", "1/2")
    assert code == 2
    assert "at most 100" in err


def test_a_slope_is_a_lean(call: Any) -> None:
    assert read_slope("1 in 20").offset(F(80)) == 4
    p = dogs_piece(DogWords("1200", "80", "80", "150", square=True, lean="1 in 20"), Shown("mm"))
    assert p.dogs[0].lean == 4
