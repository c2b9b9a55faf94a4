"""Tops, what holds them and the holes in them, from the public numbers alone.

Drawn by hand, published, and drawn by lot. What the program does not stop is worked out a second
time from the words of the file (judge_tops.py), and judged as solids by manifold3d: no hole meets
anything under the top, and no screw, button or peg is held when the wood moves. The wood's figures
are those of the Wood Handbook, FPL-GTR-190, 2010, Tables 13-5 and 5-3 (tests/outside/reference);
printed rules stand in reference/top_rules.csv.
"""

from __future__ import annotations

import copy
import csv
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from layout.errors import BadPiece
from tests.outside import judge_boards, judge_marks, judge_tops
from tests.outside.judge_boards import NOTHING, Board, Cut, common, hull, pushed
from tests.outside.outsider import INCH, PIECES, Numbers, inch, numbers_of, total
from tests.outside.test_random_doors import climate
from tests.outside.test_random_frames import Maker, by_chance, few, stops, table

SAMPLES = Path(__file__).parents[2] / "samples"
REFERENCE = Path(__file__).parent / "reference"
DRAWN, ANSWERED = 24, Fraction(1, 2)
HAIR = Fraction(127, 320)  # 1/64 in
F = Fraction

# -- drawn by hand

YEAR = """
[climate]
now = 8
dry = "68 F, 30 %"
wet = "72 F, 60 %"
"""

FRAME = """
[frame]
length = 60
depth = 24
height = 33
leg = { width = 3, thickness = 3 }
tenon = { top_shoulder = "1/2", pair = {} }
[[frame.rail]]
name = "top rail"
sides = ["front", "back", "left", "right"]
top = "flush"
width = 4
thickness = "1 1/2"
"""

ROUND = f"""
piece = "Round holes, vise at the left"
unit = "in"
timber = "hard maple"
{YEAR}{FRAME}
[[frame.cross]]
name = "bearer"
between = ["front top rail", "back top rail"]
width = 3
thickness = "1 1/2"
from_left = 24
[[top]]
thickness = 3
overhang = 1
overhang_left = 6
vise = {{ opening = 7, closed = "1/2" }}
[top.strips]
lay = "on edge"
stock_thickness = "1 3/4"
stock_width = 8
stock_length = 48
planer = 12
[top.fixing]
kind = "buttons"
held = "front"
[[top.row]]
lines = [5, 12]
[[top.row]]
holes = "holdfasts"
lines = [20]
"""

SQUARE = f"""
piece = "Square leaning dogs, vise at the right"
unit = "in"
timber = "white oak"
{YEAR}{FRAME}
[[top]]
thickness = 3
overhang = 1
overhang_front = 5
overhang_right = 8
vise = {{ opening = 9, closed = 1, end = "right" }}
strips = {{ lay = "on edge", stock_thickness = 2, stock_width = 8, planer = 14 }}
fixing = {{ kind = "screws", held = "front" }}
[[top.row]]
shape = "square"
front = "1 1/2"
strip = "1 5/8"
lean = "3 deg"
[[top.row]]
holes = "holdfasts"
lines = [16, 22]
"""

CAPPED = f"""
piece = "End caps"
unit = "in"
timber = "hard maple"
{YEAR}{FRAME}
[[top]]
thickness = 3
overhang = "1 1/2"
overhang_left = 6
overhang_right = 5
vise = {{ opening = 8 }}
end_caps = {{ width = 3, pegs = 5 }}
fixing = {{ kind = "screws", held = "front" }}
[[top.row]]
lines = [6]
"""

DRAWERS = """
piece = "Drawers under the top"
unit = "mm"
timber = "cherry"
[climate]
now = 12
dry = "20 C, 35 %"
wet = "22 C, 65 %"
[frame]
length = 1400
depth = 600
height = 800
leg = { width = 80, thickness = 80 }
[[frame.rail]]
name = "top rail"
sides = ["front", "back"]
top = "flush"
width = 30
thickness = 60
tenon = { twin = {}, top_shoulder = 5, bottom_shoulder = 5, length = 30 }
[[frame.rail]]
name = "low rail"
sides = ["front", "back"]
below_top = 200
width = 40
thickness = 60
tenon = { twin = {}, top_shoulder = 5, bottom_shoulder = 5, length = 30 }
[[frame.rail]]
name = "end rail"
sides = ["left", "right"]
top = "flush"
width = 120
thickness = 30
tenon = { pair = {}, length = 30 }
[[divider]]
name = "upright"
opening = "front under top rail"
lies = "upright"
from_left = 490
thickness = 20
slide = { slope = "1:6" }
[[drawer]]
openings = ["left of upright"]
side_timber = "hard maple"
dovetails = { tails = 4 }
[[top]]
thickness = 60
overhang = 30
overhang_front = 60
overhang_left = 150
vise = { opening = 200, closed = 10 }
dogs_below = 60
strips = { stock_thickness = 70, stock_width = 200, planer = 350 }
fixing = { kind = "screws", screw_under = 15, screw_head = 11 }
[[top.row]]
lines = [40, 500]
[[top.row]]
holes = "holdfasts"
lines = [400]
"""

CARCASE = """
piece = "On a carcase"
unit = "mm"
timber = "white oak"
[climate]
now = 9
dry = 7
wet = 13
[[carcase]]
name = "cabinet"
width = 1200
height = 800
depth = 500
thickness = 20
dovetails = { tails = 8 }
[[top]]
thickness = 60
overhang = 40
overhang_front = 150
overhang_back = 150
vise = { opening = 200, end = "right" }
end_caps = {}
strips = { lay = "on edge", stock_thickness = 52, stock_width = 160, planer = 300 }
[[top.row]]
lines = [90]
[[top.row]]
holes = "holdfasts"
lines = [720]
"""

ALONE = """
piece = "By itself"
unit = "in"
timber = "hard maple"
[[top]]
length = 72
width = 20
thickness = 3
vise = { opening = 9, end = "right" }
strips = { lay = "on edge", stock_thickness = 2, stock_width = 8 }
[[top.row]]
shape = "square"
front = 1
strip = "1 3/4"
lean = "2 deg"
pitch = 6
first = 6
[[top.row]]
holes = "holdfasts"
lines = [17]
first = 12
off_glue = "1/16"
"""

OWN = {
    "rounds": ROUND, "squares": SQUARE, "caps": CAPPED, "drawers": DRAWERS, "carcase": CARCASE,
    "alone": ALONE,
}
TEXTS = {
    **OWN,
    # test_solids.py looks at their other joints and marks
    **{path.stem: path.read_text(encoding="utf-8") for path in (
        SAMPLES / "repair_bench.toml", SAMPLES / "hall_table.toml",
        PIECES / "library_table_top.toml",
    )},
}
BORED = [name for name, text in TEXTS.items() if "[[top.row]]" in text]


def numbers_from(text: str) -> Numbers:
    """The numbers of a text, through a file as a maker would."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "piece.toml"
        path.write_text(text, encoding="utf-8")
        return numbers_of(path)


@cache
def numbers(name: str) -> Numbers:
    return numbers_from(TEXTS[name])


@cache
def parts(name: str) -> dict[str, Board]:
    return judge_boards.boards(numbers(name))


@cache
def tops(name: str) -> list[judge_tops.Top]:
    return judge_tops.tops_of(numbers(name), TEXTS[name], parts(name))


@pytest.mark.parametrize("name", TEXTS)
def test_nothing_is_stopped(name: str) -> None:
    assert [one["text"] for one in stops(numbers(name))] == []


@pytest.mark.parametrize("name", TEXTS)
@pytest.mark.parametrize("subject", judge_tops.SUBJECTS)
def test_tops_are_as_told(name: str, subject: str) -> None:
    assert judge_tops.judge(numbers(name), TEXTS[name], [subject], parts(name)) == []


@pytest.mark.parametrize("name", OWN)
def test_every_mark_is_an_edge_or_a_middle_of_its_cut(name: str) -> None:
    assert list(judge_marks.judge(parts(name), numbers(name)["marks"])) == []


@pytest.mark.parametrize("name", OWN)
def test_no_two_parts_share_wood(name: str) -> None:
    assert judge_boards.overlapping(parts(name)) == {}


def test_the_pieces_show_every_kind_of_cut() -> None:
    roles = {re.sub(r"\d+", "N", cut["role"]) for name in TEXTS for cut in numbers(name)["cuts"]}
    assert {
        "button mortise N", "button waste", "screw slot N", "screw slot N, one end",
        "screw slot N, other end", "screw slot N, between", "counterbore N",
        "counterbore N, one end", "dog hole N", "dog hole N, row N", "holdfast hole N",
        "holdfast hole N, row N", "end tongue waste, face", "end tongue waste, back",
        "cap peg slot N", "cap peg slot N, between", "end groove", "cap peg hole N",
    } <= roles


# -- a) what stands under the holes


@pytest.mark.parametrize("name", BORED)
def test_no_hole_meets_what_stands_under_the_top(name: str) -> None:
    """Every hole, fattened by `clear` and made longer by `below`, against every other part."""
    met, seen = [], 0
    for row in numbers(name)["dogs"]:
        (board,) = [one for one in parts(name).values() if one.id == row["part"]]
        (top,) = [one for one in numbers(name)["tops"] if board.id in one["parts"]]
        own = {*top["parts"], *top["end_caps"]}
        for cut in judge_tops.holes_of(row, board).values():
            solid, _ = judge_tops.probe(row, board, cut)
            seen += 1
            met += [(cut.role, other.name) for other in parts(name).values()
                    if other.id not in own and common(solid, other.solid) > NOTHING]
    assert met == []
    assert seen == sum(len(row["places"]) * max(1, len(row["lines"]))
                       for row in numbers(name)["dogs"]) > 0


@pytest.mark.parametrize("name", ["rounds", "drawers", "repair_bench"])
def test_holes_do_not_stand_even_where_something_is_in_the_way(name: str) -> None:
    """The even row would meet something: else the test above proves little."""
    assert any(row["even"] != row["places"] for row in numbers(name)["dogs"])


def test_a_leg_under_a_hole_is_found() -> None:
    found = copy.deepcopy(numbers("rounds"))
    (leg,) = [one for one in found["parts"] if one["id"] == "front-left-leg"]
    (row, _) = found["dogs"]
    # the leg is moved along until its middle is under the third hole, and back to the row
    left = F(found["parts"][[p["id"] for p in found["parts"]].index("top")]["origin"][0])
    leg["origin"][0] = str(left + F(row["places"][2]) - F(leg["width"]) / 2)
    leg["origin"][1] = str(F(row["lines"][0]) - 2 * INCH)
    said = judge_tops.judge(found, ROUND, ["clear"])
    assert any("dog hole 3, row 1 of top.holes-1 meets the front left leg" in one for one in said)


# -- b) what the dogs hold


def rows_with_a_vise() -> list[dict[str, Any]]:
    return [row for name in BORED for row in numbers(name)["dogs"] if row["vise"]]


def is_held(row: dict[str, Any], length: Fraction) -> bool:
    """Some hole's dog and the vise's, opened by no more than it opens, stand so far apart."""
    opening, closed = F(row["vise"]["opening"]), F(row["vise"]["closed"])
    return any(
        F(place) - F(row["size"]) / 2 + closed <= length
        <= F(place) - F(row["size"]) / 2 + closed + opening
        for place in row["places"]
    )


@settings(few, max_examples=150)
@given(data=st.data())
def test_every_length_that_is_said_to_be_held_can_be(data: st.DataObject) -> None:
    row = data.draw(st.sampled_from(rows_with_a_vise()))
    low, high = (F(one) for one in data.draw(st.sampled_from(row["held"])))
    share = data.draw(st.fractions(0, 1, max_denominator=10_000))
    assert is_held(row, low + share * (high - low))


@settings(few, max_examples=100)
@given(data=st.data())
def test_no_other_length_can_be(data: st.DataObject) -> None:
    row = data.draw(st.sampled_from(rows_with_a_vise()))
    length = data.draw(st.fractions(0, 3000, max_denominator=1000))
    told = any(F(low) <= length <= F(high) for low, high in row["held"])
    assert is_held(row, length) == told
    for low, high in row["held"]:
        for beyond in (F(low) - F(1, 1000), F(high) + F(1, 1000)):
            assert not is_held(row, beyond)


def test_a_vise_too_small_for_a_gap_holds_two_stretches() -> None:
    """By hand: dogs of 1 in at 10 and 20 in, a vise that opens 4: 9 1/2 to 13 1/2 in, and 19 1/2
    to 23 1/2."""
    row = {"size": "1", "vise": {"opening": "4", "closed": "0"}, "places": ["10", "20"]}
    assert judge_tops.held(row) == [(F(19, 2), F(27, 2)), (F(39, 2), F(47, 2))]


@pytest.mark.parametrize("name", BORED)
def test_no_gap_is_wider_than_the_vise_serves(name: str) -> None:
    for row in numbers(name)["dogs"]:
        if row["vise"]:
            most = F(row["vise"]["opening"]) - F(row["vise"]["hand"])
            assert all(F(b) - F(a) <= most for a, b in pairwise(row["places"]))


# -- c) the wood moves


def moved_out_and_back(top: judge_tops.Top, away: Fraction) -> tuple[Fraction, Fraction]:
    """By hand: `away` x coefficient x points of moisture to the wettest and the driest, or none
    where today is wetter or drier than those (Wood Handbook, Eq. 13-2)."""
    wood = top.wood
    edge = (top.sub("strips") or {}).get("lay") == "on edge"
    share = wood.radial if edge else wood.tangential  # the pieces here are all flat-sawn
    out = max(F(0), away * share * (wood.wet - wood.now))
    return out, max(F(0), away * share * (wood.now - wood.dry))


def pin(at: tuple[Fraction, ...], radius: Fraction, low: Fraction, high: Fraction) -> Manifold:
    """An upright round pin in the piece."""
    return hull([(at[0] + radius * a, at[1] + radius * b, z)
                 for a, b in judge_boards.TURNS for z in (low, high)])


def fixed(kind: str) -> list[tuple[str, judge_tops.Top, int, dict[str, Any]]]:
    """Every fixing of one kind of the pieces: with its top and its number on its rail."""
    return [
        (name, top, number, one)
        for name in TEXTS for top in tops(name)
        for number, one in judge_tops._numbered(top) if one["kind"] == kind
    ]


def test_screws_are_free_in_their_slots_all_year() -> None:
    """A screw as thick as the hole, moved by what the tables say, shares nothing with its rail;
    a hair beyond the room that is left at the slot's ends it does."""
    every = fixed("screws")
    assert len(every) > 20
    for name, top, _, one in every:
        rail = top.by_id[one["rail"]]
        place = judge_tops._screw_place(top, one)
        table_ = top.sub("fixing") or {}
        radius = top.mm(table_, "screw_hole") / 2
        line = top.stands[1][0] + top.held
        out, back = moved_out_and_back(top, abs(place[1] - line))
        away = 1 if place[1] > line else -1
        low, high = rail.stands[2]
        solid = pin(place, radius, low - 1, high + 1)
        for by in (out, -back):
            assert common(pushed(solid, 1, away * by), rail.solid) < NOTHING, (name, one)
        if out or back:
            room = top.mm(table_, "slot_room")
            for by in (out + room + HAIR, -back - room - HAIR):
                assert common(pushed(solid, 1, away * by), rail.solid) > NOTHING, (name, one)


def test_buttons_stay_in_their_mortises_all_year() -> None:
    """A button moved with the top enters no wood, drawn up or not, and its tongue stays in its
    mortise by the cover at least."""
    every = fixed("buttons")
    assert len(every) > 20
    for name, top, number, one in every:
        rail, button = top.by_id[one["rail"]], top.by_id[one["button"]]
        (mortise,) = [cut for cut in rail.cuts if cut.role == f"button mortise {number}"]
        line = top.stands[1][0] + top.held
        place = judge_tops._screw_place(top, one)[1]
        out, back = moved_out_and_back(top, abs(place - line))
        away = 1 if place > line else -1
        cover = top.mm(top.sub("fixing") or {}, "button_cover")
        tongue = judge_tops._tongue(button)
        across = rail.axes[2][0]
        section = F(1)
        for axis in range(3):
            if axis != across:
                section *= tongue[axis][1] - tongue[axis][0]
        for by in (F(0), away * out, -away * back):
            solid = pushed(button.solid, 1, by)
            assert common(solid, rail.solid) < NOTHING, (name, one)
            inside = common(solid, mortise.solid)
            assert inside >= float(cover * section) - NOTHING, (name, one)


def test_buttons_move_as_the_wood_does_at_their_screws() -> None:
    """A button is held by its screw, and does not move along its own grain: it goes as far as the
    top does there, not as far as it does over the rail. Held in front, that is more: the 1 2/3 in
    of white oak between (0.00365, Table 13-5) move by 0.036 in from 13 % to 7 %, and the room is
    1/32 in, 0.031."""
    text = f"""
piece = "Held in front, damp today"
unit = "in"
timber = "white oak"
[climate]
now = 13
dry = 7
wet = 13
{FRAME}
[[top]]
thickness = 2
fixing = {{ kind = "buttons", held = "front" }}
"""
    n = numbers_from(text)
    (top,) = judge_tops.tops_of(n, text)
    met = []
    for one in top.told["fixings"]:
        rail, button = top.by_id[one["rail"]], top.by_id[one["button"]]
        away = judge_tops._screw_place(top, one)[1] - top.stands[1][0]
        _, back = moved_out_and_back(top, away)
        if common(pushed(button.solid, 1, -back), rail.solid) > NOTHING:
            met.append((button.name, rail.name, float(away), one["away"]))
    assert met == []


def test_pegs_are_free_in_their_slots_all_year() -> None:
    """The peg stands in the cap, which does not move; the top's boards move past it, from the peg
    that has no slot."""
    seen = 0
    for name in TEXTS:
        for top in tops(name):
            for cap in top.caps:
                for board, peg, away in pegs(top, cap):
                    out, back = moved_out_and_back(top, abs(away))
                    way = 1 if away > 0 else -1
                    for by in (way * out, -way * back):
                        shared = common(pushed(board.solid, 1, by), peg)
                        assert shared < NOTHING, (name, cap.name, float(away), float(by))
                    seen += 1
    assert seen >= 16


def pegs(top: judge_tops.Top, cap: Board) -> Iterator[tuple[Board, Manifold, Fraction]]:
    """Each peg of a cap, the board that it goes through, and how far it is from the held one."""
    (joint,) = {cut.joint for cut in cap.cuts}
    (held,) = {
        cut.role.rpartition(" ")[2] for board in top.boards for cut in board.cuts
        if cut.joint == joint and re.fullmatch(r"cap peg slot \d+", cut.role)
    }
    holes = {cut.role.rpartition(" ")[2]: judge_tops.ends_of(cap, [cut])[0]
             for cut in cap.cuts if cut.role.startswith("cap peg hole")}
    for spot, radius in holes.values():
        (board,) = [one for one in top.boards if one.stands[1][0] < spot[1] < one.stands[1][1]]
        low, high = board.stands[2]
        yield board, pin(spot, radius, low, high), spot[1] - holes[held][0][1]


SHORT = f"""
piece = "The end rails lie under the caps"
unit = "in"
timber = "hard maple"
{YEAR}{FRAME}
[[top]]
thickness = 3
end_caps = {{}}
fixing = {{ kind = "screws", held = "front" }}
"""


def test_no_screw_of_the_fixing_goes_into_an_end_cap() -> None:
    """Over the end rails lies nothing but the cap, which does not move as the top does, and the
    tongue in it: a screw there holds cap and tongue together. A refusal or a word is an answer."""
    try:
        n = numbers_from(SHORT)
    except BadPiece:
        return
    (top,) = judge_tops.tops_of(n, SHORT)
    table_ = top.sub("end_caps") or {}
    long = top.mm(table_, "tongue_length")
    low, high = top.boards[0].stands[0]
    into_caps = [
        one["rail"] for one in top.told["fixings"]
        if not low + long < judge_tops._screw_place(top, one)[0] < high - long
    ]
    said = [one for one in n["checks"] if one["level"] != "note" and "cap" in one["text"]]
    assert into_caps == [] or said


# -- d) strips, clamps, glue, weight


def test_the_sample_bench_s_strips_by_hand() -> None:
    """52 in of top and 1 in on each end: 54; 26 in wide of strips 1 1/4 - 1/4 = 1 in: 26; boards
    42 in long: two staves each; 1 3/4 + 1/8 = 1 7/8 high. A planer of 12 in passes 12 strips: three
    sections, 9 + 9 + 8. Clamps 2 x (1 1/2 + 1) = 5 in apart: 54 / 5, so 11. Glue: 25 joints of
    54 x 1 7/8 and 26 butts of 1 x 1 7/8 = 2531 1/4 + 48 3/4 = 2580 square inches."""
    (top,) = numbers("repair_bench")["tops"]
    assert [F(one["width"]) for one in top["strips"]] == [INCH] * 26
    assert [one["section"] for one in top["strips"]] == [1] * 9 + [2] * 9 + [3] * 8
    for one in top["strips"]:
        assert sum(F(stave) for stave in one["staves"]) == 54 * INCH
        assert len(one["staves"]) == 2
        assert max(F(stave) for stave in one["staves"]) <= 42 * INCH
    firsts = [F(one["staves"][0]) for one in top["strips"]]
    assert all(abs(a - b) >= 6 * INCH for a, b in pairwise(firsts))
    assert (top["clamps"], F(top["clamp_spacing"])) == (11, 5 * INCH)
    assert F(top["glue_area"]) == 2580 * INCH**2
    assert F(top["glue_grams"]) == 2580 * INCH**2 / 1_000_000 * 200


def test_the_sample_table_s_strips_by_hand() -> None:
    """370 mm wide of boards 160 - 6 = 154 mm: three of 370/3; 1090 + 2 x 25 = 1140 long, 20 + 3
    high. A planer of 260 passes two. Clamps: 2 x (38 + 370/3) is more than 250, so 250 apart:
    1140 / 250, so 5. Glue: 2 x 1140 x 23 = 52440 square mm, 200 g to the square metre."""
    (top,) = numbers("hall_table")["tops"]
    assert [(F(one["width"]), one["staves"], one["section"]) for one in top["strips"]] == [
        (F(370, 3), ["1140"], 1), (F(370, 3), ["1140"], 1), (F(370, 3), ["1140"], 2),
    ]
    assert (top["clamps"], top["clamp_spacing"]) == (5, "250")
    assert (top["glue_area"], F(top["glue_grams"])) == ("52440", F("10.488"))


def gravity(species: str) -> Fraction:
    lines = (REFERENCE / "specific_gravity.csv").read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    (found,) = [row["G_12pct"] for row in rows if row["species"] == species]
    return F(found)


def said_weight(n: Numbers, what: str) -> tuple[float, float, float, float]:
    """Kilograms and pounds that a check says of something, each with half of its last place."""
    (text,) = [one["text"] for one in n["checks"]
               if one["rule"] == "weight" and one["text"].startswith(what)]
    found = []
    for unit in ("kg", "lb"):
        number = re.search(rf"([\d.]+) {unit}", text)
        assert number is not None, text
        places = len(number[1].partition(".")[2])
        whole = float(number[1])
        half = 5.0 if whole >= 100 else 0.5 * 10**-places
        found += [whole, half]
    return found[0], found[1], found[2], found[3]


PLAIN = """
piece = "Plain"
unit = "mm"
timber = "hard maple"
[climate]
now = 8
dry = 6
wet = 10
[[top]]
length = 400
width = 300
thickness = 60
"""
HOLED = PLAIN + """
[[top.row]]
holes = "holdfasts"
lines = [100, 200]
pitch = 90
first = 60
end = 20
size = 40
"""


def test_the_weight_of_a_plain_top_by_hand() -> None:
    """400 x 300 x 60 mm = 7.2 litres; sugar maple has a gravity of 0.63 (Table 5-3), with 8 % of
    moisture 0.63 x 1.08 = 0.6804 kg to the litre: 4.899 kg, 10.80 lb."""
    assert gravity("Maple, sugar") == F("0.63")
    mass = F("7.2") * F("0.63") * F("1.08")
    assert mass == F("4.89888")
    kilos, half, pounds, half_pound = said_weight(numbers_from(PLAIN), "the top weighs")
    assert (kilos, half) == (4.9, pytest.approx(0.05))
    assert abs(pounds - float(mass) / 0.45359237) <= half_pound


def test_the_weight_of_a_top_with_holes_by_hand() -> None:
    """Two rows of four holes of 40 mm, 60 deep: 8 x pi x 20^2 x 60 = 0.6032 litres less, so
    6.5968 litres: 4.4885 kg."""
    n = numbers_from(HOLED)
    assert len([cut for cut in n["cuts"] if "cylinder" in cut]) == 8
    mass = (7.2 - 8 * math.pi * 20**2 * 60 / 1e6) * 0.63 * 1.08
    assert mass == pytest.approx(4.4885, abs=1e-3)
    kilos, half, _, _ = said_weight(n, "the top weighs")
    assert (kilos, half) == (4.5, pytest.approx(0.05))


@pytest.mark.parametrize(
    ("name", "species", "moisture"),
    [("hall_table", "Cherry, black", 9), ("library_table_top", "Oak, white", 8)],
)
def test_what_top_and_piece_weigh(name: str, species: str, moisture: int) -> None:
    """All of one timber: the modeller's volume of the finished parts x G x (1 + M / 100)."""
    dense = float(gravity(species) * (1 + F(moisture, 100)))
    (top,) = tops(name)
    for what, boards in (
        ("the top weighs", [*top.boards, *top.caps]),
        ("the whole piece", list(parts(name).values())),
    ):
        mass = sum(board.solid.volume() for board in boards) / 1e6 * dense
        kilos, half, pounds, half_pound = said_weight(numbers(name), what)
        assert abs(kilos - mass) <= half * 1.001, (what, mass)
        assert abs(pounds - mass / 0.45359237) <= half_pound * 1.001, (what, mass)


# -- e) published

with (REFERENCE / "top_rules.csv").open(encoding="utf-8") as file:
    RULES = {row["id"]: row for row in csv.DictReader(x for x in file if not x.startswith("#"))}


def printed(rule: str, *figures: str) -> None:
    """The row of this rule names each of these figures."""
    text = f"{RULES[rule]['number_or_formula']} | {RULES[rule]['worked_example']}"
    for figure in figures:
        assert figure in text, f"{rule} does not say {figure}: {text}"


def test_fosters_top_and_buttons() -> None:
    """Edwin W. Foster, Carpentry and Woodwork, 1911, ch. XLI, Fig. 196: top 48 x 30 x 7/8 (JR243);
    buttons 2 1/2 long, tongues 1/2 x 3/8, blocks 3/4, two to a long side, one to an end (JR237)."""
    printed("JR243", "top 48 x 30 x 7/8")
    printed("JR237", "2-1/2 in long", "tongue 1/2 x 3/8", "block 3/4 thick",
            "two per long side, one per end")
    n = numbers("library_table_top")
    (top,) = n["tops"]
    assert [F(top[key]) for key in ("length", "width", "thickness")] == [
        inch("48"), inch("30"), inch("7/8")
    ]
    on = [one["rail"] for one in top["fixings"]]
    assert {rail: on.count(rail) for rail in set(on)} == {
        "front-top-rail": 2, "back-top-rail": 2, "left-top-rail": 1, "right-top-rail": 1,
    }
    for one in top["fixings"]:
        board = next(b for b in parts("library_table_top").values() if b.id == one["button"])
        assert (board.size[0], board.size[2]) == (inch("2 1/2"), inch("3/4"))
        (waste,) = board.cuts
        assert waste.reach[0][1] == inch("1/2")
        assert board.size[2] - waste.reach[2][1] == inch("3/8")


def test_zerbes_frame_from_its_top() -> None:
    """J. S. Zerbe, Carpentry for Boys, 1914, ch. V: a top of 42 x 36 over 2 in all round, legs of
    2 in: 42 - 4 - 4 = 34, 36 - 4 - 4 = 28 (JR234); tenons of 1 1/2: rails of 37 and 31 (JR235)."""
    printed("JR234", "42 - 4 - 4 = 34", "36 - 4 - 4 = 28")
    printed("JR235", "34 + 3 = 37", "28 + 3 = 31")
    n = numbers_from("""
piece = "Zerbe's table"
unit = "in"
[frame]
length = 38
depth = 32
height = 29
leg = { width = 2, thickness = 2 }
tenon = { length = "1 1/2", meeting = "passing", top_shoulder = "1/2", thickness = "3/8" }
[[frame.rail]]
name = "long rail"
sides = ["front", "back"]
top = "flush"
width = 2
thickness = 1
[[frame.rail]]
name = "short rail"
sides = ["left", "right"]
below_top = "2 1/4"
width = 2
thickness = 1
[[top]]
thickness = 1
overhang = 2
""")
    (top,) = n["tops"]
    assert (F(top["length"]), F(top["width"])) == (inch("42"), inch("36"))
    for rail, distance, cut in (("front-long-rail", "34", "37"), ("left-short-rail", "28", "31")):
        assert total(n, rail, "shoulder distance") == inch(distance)
        assert total(n, rail, "cut length") == inch(cut)


def test_wheelers_strips_on_edge() -> None:
    """Arithmetic on the rule of Charles G. Wheeler, Woodworking for Beginners, 1899/1900 (JR176):
    a top of 18 in from strips of 1 3/4: ten make 17 1/2, too little, so eleven."""
    printed("JR176", "n = ceil(W / t_strip)", "11 strips")
    n = numbers_from("""
piece = "Wheeler's top"
unit = "in"
[[top]]
length = 70
width = 18
thickness = 3
strips = { lay = "on edge", stock_thickness = 2, stock_width = 4, milling = "1/4" }
""")
    (top,) = n["tops"]
    assert -(-F(18) // F(7, 4)) == 11
    widths = [F(one["width"]) for one in top["strips"]]
    assert len(widths) == 11
    assert sum(widths) == inch("18")
    assert max(widths) <= inch("1 3/4")


@pytest.mark.parametrize(
    ("thick", "lean", "shown"), [("3", "3 deg", "0.157"), ("3 1/2", "2 deg", "0.122")]
)
def test_how_far_a_leaning_hole_leans(thick: str, lean: str, shown: str) -> None:
    """x = T tan a (JR182, arithmetic)."""
    printed("JR182", shown)
    n = numbers_from(f"""
piece = "Leaning"
unit = "in"
[[top]]
length = 60
width = 12
thickness = "{thick}"
vise = {{ opening = 9 }}
[[top.row]]
shape = "square"
front = 1
strip = 2
lean = "{lean}"
""")
    (row,) = n["dogs"]
    by_hand = float(inch(thick)) * math.tan(math.radians(float(lean.split()[0])))
    assert float(F(row["lean"])) == pytest.approx(by_hand, abs=1e-9)
    assert f"{float(F(row['lean']) / INCH):.3f}" == shown


def test_windsors_counterbore() -> None:
    """H. H. Windsor (ed.), Mission Furniture, Part 1, 1909, A Mission Plant Stand: holes from
    below 1 1/2 in up, 1/16 in wider than the head (JR238). Ours: rails of 3 in, heads of 3/8."""
    printed("JR238", "counterbore 1-1/2 in up", "1/16 in over the head")
    text = ROUND.replace(
        'kind = "buttons"\n',
        'kind = "screws"\nscrew_under = "2 1/2"\nscrew_head = "7/16"\n',
    )
    n = numbers_from(text)
    bores = [cut["cylinder"] for cut in n["cuts"]
             if cut["role"].startswith("counterbore") and "cylinder" in cut]
    assert len(bores) > 8
    for one in bores:
        assert F(one["to"]) - F(one["from"]) == inch("1 1/2")
        assert 2 * F(one["radius"]) == inch("3/8") + inch("1/16")


# -- drawn by lot


def draw_frame(m: Maker) -> tuple[list[str], Fraction]:
    """Legs and rails under the top, sometimes a bearer from front to back."""
    leg = m.size(60, 95)
    length, depth = m.size(1000, 1800), m.size(480, 760)
    rows = [
        f"[frame]\nlength = {m.say(length)}\ndepth = {m.say(depth)}\nheight = {m.some(700, 900)}",
        f"leg = {{ width = {m.say(leg)}, thickness = {m.say(leg)} }}\ntenon = {{ pair = {{}} }}",
    ]
    thick = m.size(26, leg * 3 / 5)
    rows.append(
        '[[frame.rail]]\nname = "top rail"\nsides = ["front", "back", "left", "right"]\n'
        f'top = "flush"\nwidth = {m.some(85, 120)}\nthickness = {m.say(thick)}'
    )
    if m.one_in(3):
        rows.append(
            '[[frame.cross]]\nname = "bearer"\nbetween = ["front top rail", "back top rail"]\n'
            f"width = {m.some(50, 70)}\nthickness = {m.some(25, 40)}\n"
            f"from_left = {m.some(300, 600)}"
        )
    return rows, leg


def draw_row(m: Maker, far: Fraction, shape: str, dogs: bool) -> list[str]:
    rows = ["[[top.row]]"]
    if not dogs:
        rows.append('holes = "holdfasts"')
    if shape == "square":
        rows += ['shape = "square"', f"front = {m.some(25, 35)}", f"strip = {m.some(38, 50)}"]
        if m.one_in(2):
            rows.append(f'lean = "{m.lot.randint(2, 4)} deg"')
    else:
        lines = sorted({m.size(150, far - 130) for _ in range(m.lot.choice((1, 1, 2)))})
        rows.append(f"lines = [{', '.join(m.say(one) for one in lines)}]")
    if m.one_in(3):
        rows.append(f"pitch = {m.some(85, 130) if dogs else m.some(200, 400)}")
    if m.one_in(3):
        rows.append(f"first = {m.some(80, 260)}")
    if m.one_in(3):
        rows.append(f"clear = {m.some(3, 10)}")
    if m.one_in(4):
        rows.append(f'[[top.row.keep_out]]\nname = "socket"\nfrom = {m.some(400, 450)}\n'
                    f"to = {m.some(460, 500)}")
    return rows


def draw_bench(lot: Random) -> str:
    """A bench with a top: fixed, capped, glued up and bored in every way."""
    m = Maker(lot)
    wood = lot.choice(("hard maple", "white oak", "cherry", "white ash"))
    rows = [f'piece = "Bench"\nunit = "{m.unit}"\ntimber = "{wood}"', climate(m)]
    frame, _ = draw_frame(m)
    rows += frame
    thick = m.size(45, 90)
    square = m.one_in(3)
    front = m.size(95, 130) if square else m.size(0, 40)
    rows += ["[[top]]", f"thickness = {m.say(thick)}", f"overhang = {m.some(10, 60)}",
             f"overhang_front = {m.say(front)}"]
    for side in ("left", "right"):
        if m.one_in(2):
            rows.append(f"overhang_{side} = {m.some(60, 250)}")
    end = lot.choice(("left", "right"))
    vise: dict[str, Any] = {"opening": m.some(170, 280), "end": f'"{end}"'}
    if m.one_in(2):
        vise["closed"] = m.some(0, 20)
    rows.append(f"vise = {table(vise)}")
    rows += draw_made(m, thick)
    far = front + m.size(450, 480)
    rows += draw_row(m, far, "square" if square else "round", dogs=True)
    if m.one_in(2):
        rows += draw_row(m, far, "round", dogs=m.one_in(3))
    return "\n".join(rows) + "\n"


def draw_made(m: Maker, thick: Fraction) -> list[str]:
    """How a top is glued up, capped and fixed; or not."""
    rows = []
    if not m.one_in(4):
        edge = m.one_in(2)
        across, high = m.size(58, 75), thick + m.size(12, 30)
        strips = {"lay": '"on edge"' if edge else '"flat"',
                  "stock_thickness": m.say(across if edge else high),
                  "stock_width": m.say(high if edge else m.size(120, 220))}
        if m.one_in(2):
            strips["planer"] = m.some(250, 400)
        if m.one_in(2):
            strips["stock_length"] = m.some(1100, 1500)
        rows.append(f"strips = {table(strips)}")
    if m.one_in(3):
        caps = {"pegs": str(m.lot.randint(2, 6))} if m.one_in(2) else {"width": m.some(60, 100)}
        rows.append(f"end_caps = {table(caps)}")
    if not m.one_in(5):
        fixing = {"kind": f'"{m.lot.choice(("buttons", "screws"))}"',
                  "held": f'"{m.lot.choice(("front", "middle", "back"))}"'}
        if m.one_in(3):
            fixing["apart"] = m.some(350, 700)
        rows.append(f"fixing = {table(fixing)}")
    return rows


@dataclass(frozen=True)
class Answer:
    """A drawn file, and what the program says: its numbers, or why it refused."""

    text: str
    numbers: Numbers | None
    refused: str = ""


@cache
def drawn() -> list[Answer]:
    """What the program makes of every drawn file."""
    found: list[Answer] = []

    @settings(few, max_examples=DRAWN)
    @given(lot=by_chance)
    def one(lot: Random) -> None:
        text = draw_bench(lot)
        try:
            found.append(Answer(text, numbers_from(text)))
        except BadPiece as error:
            found.append(Answer(text, None, str(error)))

    one()
    return found


def answered() -> list[tuple[str, Numbers]]:
    return [(one.text, one.numbers) for one in drawn() if one.numbers and not stops(one.numbers)]


@cache
def drawn_parts(text: str) -> dict[str, Board]:
    (found,) = [one for at, one in answered() if at == text][:1]
    return judge_boards.boards(found)


def test_most_drawn_benches_are_answered() -> None:
    assert len(drawn()) >= 20
    assert len(answered()) >= ANSWERED * len(drawn()), [one.refused for one in drawn()]


def test_the_drawn_benches_are_of_every_kind() -> None:
    every = [n for _, n in answered()]
    rows = [row for n in every for row in n["dogs"]]
    assert {row["shape"] for row in rows} == {"round", "square"}
    assert {row["hole"] for row in rows} == {"dog hole", "holdfast hole"}
    assert {one["kind"] for n in every for top in n["tops"] for one in top["fixings"]} == {
        "screws", "buttons"
    }
    assert any(top["end_caps"] for n in every for top in n["tops"])
    assert any(part["axes"]["L"] == "-X" for n in every for part in n["parts"]
               if part["id"] == "top")


@pytest.mark.parametrize("subject", judge_tops.SUBJECTS)
def test_drawn_benches_are_as_told(subject: str) -> None:
    for text, found in answered():
        assert judge_tops.judge(found, text, [subject], drawn_parts(text)) == [], text


def test_the_marks_of_drawn_benches() -> None:
    for text, found in answered():
        said, others = judge_tops.judge_marks(drawn_parts(text), found["marks"])
        assert said == [], text
        assert len(others) < len(found["marks"])
        own = [one["role"] for one in others if one["joint"].split(".")[0] == "top"
               or one["joint"].endswith(".top")]
        assert own == [], text


# -- the judge itself: it must be able to object


def spoilt_cut(cut: dict[str, Any], axis: int, by: Fraction) -> dict[str, Any]:
    """A cut moved along an axis of its part; a bored one across its own."""
    found = copy.deepcopy(cut)
    if "hull" in found:
        for point in found["hull"]:
            point[axis] = str(F(point[axis]) + by)
    else:
        centre = found["cylinder"]["centre"]
        centre[axis % 2] = str(F(centre[axis % 2]) + by)
    return found


def of_a_top(cut: dict[str, Any]) -> bool:
    role = cut["role"]
    return bool(
        judge_tops.SLOT.fullmatch(role) or judge_tops.MORTISE.fullmatch(role)
        or judge_tops.HOLE.fullmatch(role)
        or role.startswith(("button waste", "end tongue", "end groove", "cap peg"))
    )


def first_of_each(rows: list[dict[str, Any]], known: Any) -> list[int]:
    seen: dict[str, int] = {}
    for at, one in enumerate(rows):
        if known(one):
            role = re.sub(r"\d+", "N", one["role"])
            seen.setdefault(f"{role} {one.get('face', '')}", at)
    return list(seen.values())


SPOILT = ("caps", "alone", "hall_table")


@pytest.mark.parametrize("name", SPOILT)
def test_a_cut_moved_by_a_sixty_fourth_is_found(name: str) -> None:
    """One of every role along every axis, by the cuts alone: no mark is asked."""
    found, text = numbers(name), TEXTS[name]
    subjects = ("screws", "buttons", "caps", "holes")
    sound = judge_tops.judge(found, text, subjects, parts(name))
    cuts = first_of_each(found["cuts"], of_a_top)
    assert len(cuts) >= 2
    for at in cuts:
        for axis in range(3 if "hull" in found["cuts"][at] else 2):
            cut = spoilt_cut(found["cuts"][at], axis, HAIR)
            spoilt = found | {"cuts": [*found["cuts"][:at], cut, *found["cuts"][at + 1:]]}
            (part,) = [one for one in found["parts"] if one["id"] == cut["part"]]
            changed = {part["name"]: Board(part, spoilt["cuts"])}
            said = judge_tops.judge(spoilt, text, subjects, parts(name) | changed)
            assert set(said) - set(sound), (cut, axis)


@pytest.mark.parametrize("name", SPOILT)
def test_a_mark_moved_by_a_sixty_fourth_is_found(name: str) -> None:
    """Its distance moves with it, so that only the cut can tell."""
    found = numbers(name)
    keys = {one.key for board in parts(name).values() for one in judge_tops.wanted_of(board)}
    marks = first_of_each(found["marks"], lambda one: judge_tops._is_own(one, keys))
    assert len(marks) >= 8
    for at in marks:
        mark = copy.deepcopy(found["marks"][at])
        axis, far = judge_marks.SOURCES[mark["from"]]
        across = judge_boards.FACES[mark["face"]].index(axis)
        for spot in mark.get("line") or [mark["point"]]:
            spot[across] = str(F(spot[across]) + HAIR)
        mark["distance"] = str(F(mark["distance"]) + (-HAIR if far else HAIR))
        said = list(judge_marks.judge(parts(name), [mark]))
        assert said, mark


def test_a_screw_s_place_moved_across_its_slot_is_found() -> None:
    """In the slot still, but not where the screw stands today."""
    found = numbers("repair_bench")
    at = next(i for i, one in enumerate(found["marks"]) if one["role"] == "screw 1")
    mark = copy.deepcopy(found["marks"][at])
    mark["point"][1] = str(F(mark["point"][1]) + HAIR)
    spoilt = found | {"marks": [*found["marks"][:at], mark, *found["marks"][at + 1:]]}
    assert judge_tops.judge(spoilt, TEXTS["repair_bench"], ["laid out"]) != []


@pytest.mark.parametrize(
    ("name", "subject", "role"),
    [("hall_table", "laid out", "button shoulder"), ("caps", "laid out", "cap peg hole 1"),
     ("squares", "laid out", "dog 3 far side"), ("repair_bench", "laid out", "screw 4")],
)
def test_a_mark_that_is_not_there_is_missed(name: str, subject: str, role: str) -> None:
    found = numbers(name)
    at = next(i for i, one in enumerate(found["marks"]) if one["role"] == role)
    left = [one for i, one in enumerate(found["marks"]) if i != at]
    assert judge_tops.judge(found | {"marks": left}, TEXTS[name], [subject]) != []


FIGURES: list[tuple[str, str, str, Any]] = [
    ("hall_table", "movement", "narrowest", lambda v: str(F(v) + F(1, 100))),
    ("hall_table", "movement", "widest", lambda v: str(F(v) - F(1, 100))),
    ("hall_table", "movement", "held", lambda v: str(F(v) + HAIR)),
    ("hall_table", "sizes", "length", lambda v: str(F(v) + HAIR)),
    ("hall_table", "strips", "clamps", lambda v: v - 1),
    ("hall_table", "strips", "glue_area", lambda v: str(F(v) + 1)),
    ("repair_bench", "strips", "strips", lambda v: v[:-1]),
    ("repair_bench", "strips", "strips", lambda v: [v[0], v[0], *v[2:]]),
    ("hall_table", "fixings", "fixings", lambda v: v[:-3]),
]


@pytest.mark.parametrize(("name", "subject", "key", "spoil"), FIGURES)
def test_a_wrong_figure_is_found(name: str, subject: str, key: str, spoil: Any) -> None:
    found = copy.deepcopy(numbers(name))
    (top,) = found["tops"]
    top[key] = spoil(top[key])
    assert judge_tops.judge(found, TEXTS[name], [subject]) != []


def test_a_held_stretch_too_long_is_found() -> None:
    found = copy.deepcopy(numbers("rounds"))
    row = found["dogs"][0]
    row["held"][0][1] = str(F(row["held"][0][1]) + HAIR)
    assert judge_tops.judge(found, ROUND, ["holes"]) != []


def test_a_bored_hole_of_the_judge_is_round() -> None:
    """The pin that is moved about in the slots has the area of a polygon of 64 corners."""
    solid = pin((F(5), F(7), F(0)), F(3), F(0), F(10))
    assert solid.volume() == pytest.approx(64 / 2 * 9 * math.sin(2 * math.pi / 64) * 10)
    cut = Cut("j", "hole", [], [])
    assert cut.bore is None
