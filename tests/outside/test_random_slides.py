"""Slides and housings that nobody has drawn, written as a maker would write them.

Layouts: hundreds of sliding dovetails and housings, both sides sloping or one, parallel, tapered
whole or over the last part, stopped, entered from back or front, with shoulders of every kind, in
carcases of every kind. Each is worked out a second time from the words of the file, by the trade's
own sums (told_slides.py), to the same Fractions; sections by shapely at ends and between.

Pieces: carcases with backs, shelves and partitions nested in one another, with drawers, and
dividers in frames, as solids.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import islice
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import pytest

from layout.errors import BadPiece
from tests.contract import hold
from tests.outside import judge_dovetails, judge_joints, judge_marks, judge_shapes, judge_slides
from tests.outside.judge_boards import boards
from tests.outside.judge_slides import Case, Slide, case_of
from tests.outside.outsider import DRAWS, Numbers, numbers_of
from tests.outside.test_random_dovetails import (
    HAIR,
    _drop,
    _move,
    _move_part,
    _points,
    _some,
    corner_table,
)
from tests.outside.test_random_frames import Maker, table

LAYOUTS, PIECES, SEED = 260 * DRAWS, 25 * DRAWS, 1917
ZERO = Fraction(0)
PROOFS = {"no two parts in one place", "sums agree with the placed parts"}
"""The program's proofs of itself: what they alone stop is its own mistake, not the maker's."""
EXACT = ("cuts", "fit", "figures", "drawn", "told", "places", "marks", "sums")


@dataclass(frozen=True)
class Space:
    """An opening that the maker has left, in mm, and how thick its four boards are."""

    wide: Fraction
    high: Fraction
    left: Fraction
    right: Fraction
    below: Fraction
    above: Fraction


def slide(m: Maker, thick: Fraction, bearer: Fraction, run: Fraction) -> dict[str, Any]:
    """A sliding dovetail's table, for a board so thick in bearers of which the thinner is so."""
    found: dict[str, Any] = {}
    room = Fraction(1, 2) if m.unit == "mm" else Fraction(127, 320)  # 1/64 in
    if m.one_in(3):
        room = m.size(0, 1)
        found["room"] = m.say(room)
    depth = bearer / 3
    if m.one_in(2):
        depth = m.size(3, bearer / 2)
        found["depth"] = m.say(depth)
    slope = m.lot.choice(("", "", "1:6", "1 in 8", "1:5", "3/16 in 1", "8 deg", "10 deg"))
    if slope:
        found["slope"] = f'"{slope}"'
    least = {"": Fraction(7), "1:6": Fraction(6), "1 in 8": Fraction(8), "1:5": Fraction(5),
             "3/16 in 1": Fraction(16, 3), "8 deg": Fraction(7), "10 deg": Fraction(11, 2)}[slope]
    sides = m.lot.choice(("both", "both", "face", "back"))
    if sides != "both" or m.one_in(4):
        found["slopes"] = f'"{sides}"'
    take = (depth - room) / least
    left = thick
    for side in ("face", "back"):
        sloping = sides in ("both", side)
        # the thicker bearer's tail may be longer by a quarter or so
        told = m.size(take * Fraction(5, 4) if sloping else 0, max(take * 2, thick / 4))
        if m.one_in(3) and told:
            found[f"{side}_shoulder"] = m.say(told)
            left -= told
        elif sloping:
            left -= take
    stop = ZERO
    if m.one_in(2):
        stop = m.size(4, min(run / 5, Fraction(25)))
        found["stop"] = m.say(stop)
    if m.one_in(2):
        found["taper"] = m.some(m.step, left / 5)
        if m.one_in(2):
            found["taper_over"] = m.some(run / 6, run / 2)
    if m.one_in(3):
        found["enter"] = m.lot.choice(('"front"', '"back"'))
    return found


def housing(m: Maker, thick: Fraction, bearer: Fraction, run: Fraction) -> dict[str, Any]:
    """A housing's table."""
    found: dict[str, Any] = {}
    if m.one_in(2):
        found["depth"] = m.some(3, bearer / 2)
    for side in ("face", "back"):
        if m.one_in(3):
            found[f"{side}_shoulder"] = m.some(1, thick / 4)
    if m.one_in(2):
        found["stop"] = m.some(4, min(run / 5, Fraction(25)))
    if m.one_in(3):
        found["room"] = m.some(0, 1)
    if m.one_in(3):
        found["enter"] = m.lot.choice(('"front"', '"back"'))
    return found


def joint(m: Maker, thick: Fraction, bearer: Fraction, run: Fraction) -> str:
    """A slide or a housing, as a line of a file."""
    if m.one_in(3):
        return f"housing = {table(housing(m, thick, bearer, run))}"
    return f"slide = {table(slide(m, thick, bearer, run))}"


def carcase(m: Maker, kind: str) -> tuple[str, Space, Fraction]:
    """A carcase of a kind, what is clear inside, and how deep."""
    wide, high, deep = m.size(450, 900), m.size(380, 900), m.size(180, 320)
    side, back = m.size(16, 24), m.size(5, 10)
    name = m.lot.choice(("carcase", "book case"))
    rows = [f'[[carcase]]\nname = "{name}"\nwidth = {m.say(wide)}\nheight = {m.say(high)}',
            f"depth = {m.say(deep)}\nthickness = {m.say(side)}"]
    top = bottom = side
    if m.one_in(3):
        top = m.size(15, 25)
        rows.append(f"top_thickness = {m.say(top)}")
    if m.one_in(3):
        bottom = m.size(15, 25)
        rows.append(f"bottom_thickness = {m.say(bottom)}")
    clear = high - top - bottom
    with_back = not m.one_in(4)
    run = deep - (back if with_back else 0)
    if kind == "dovetailed":
        if m.one_in(2):
            rows.append('tails_on = "top and bottom"')
        if not m.one_in(3):
            rows.append(f"dovetails = {table(corner_table(m))}")
    else:
        above, below = m.size(20, 40), m.size(20, 60)
        if kind == "housed" and m.one_in(2):
            above = ZERO
        own = slide(m, min(top, bottom), side, run) if kind == "slid" else (
            housing(m, min(top, bottom), side, run))
        rows.append(f"{'slide' if kind == 'slid' else 'housing'} = {table(own)}")
        rows.append(f"top_in = {m.say(above)}\nbottom_in = {m.say(below)}")
        clear -= above + below
    if with_back:
        said: dict[str, Any] = {"thickness": m.say(back)}
        if m.one_in(2):
            said["deep"] = m.some(4, 10)
        if m.one_in(2):
            said["room"] = m.some(0, 3)
        if m.one_in(2):
            said["boards"] = m.lot.choice((1, 2, 3, 5))
        rows.append(f"back = {table(said)}")
    inside = Space(wide - 2 * side, clear, side, side, bottom, top)
    return "\n".join(rows) + "\n", inside, run


def dividers(m: Maker, spaces: dict[str, Space], run: Fraction, many: int) -> str:
    """Shelves and partitions in the openings there are; each leaves two."""
    rows = []
    for number in range(1, many + 1):
        fit = [name for name, one in spaces.items() if max(one.wide, one.high) > 130]
        if not fit:
            break
        into = m.lot.choice(fit)
        one = spaces.pop(into)
        level = one.high > 130 and (one.wide <= 130 or m.one_in(2))
        name = f"{'shelf' if level else 'partition'} {number}"
        thick = m.size(12, 20)
        clear = one.high if level else one.wide
        low = (clear - thick) / 2
        rows += ["[[divider]]", f'name = "{name}"\nopening = "{into}"',
                 f'lies = "{"level" if level else "upright"}"\nthickness = {m.say(thick)}']
        if m.one_in(2):
            low = m.size(55, clear - 55 - thick)
            rows.append(f"{'above' if level else 'from_left'} = {m.say(low)}")
        long = run
        if m.one_in(4):
            back = m.size(3, 20)
            long -= back
            rows.append(f"set_back = {m.say(back)}")
        if m.one_in(8):
            rows.append(f"depth = {m.some(run / 2, long * 4 / 5)}")
            long = run / 2
        bearer = min(one.left, one.right) if level else min(one.below, one.above)
        rows.append(joint(m, thick, bearer, long))
        if level:
            spaces[f"below {name}"] = Space(one.wide, low, one.left, one.right, one.below, thick)
            spaces[f"above {name}"] = Space(one.wide, clear - low - thick, one.left, one.right,
                                            thick, one.above)
        else:
            spaces[f"left of {name}"] = Space(low, one.high, one.left, thick, one.below, one.above)
            spaces[f"right of {name}"] = Space(clear - low - thick, one.high, thick, one.right,
                                               one.below, one.above)
    return "\n".join(rows) + "\n"


def case_piece(m: Maker, kind: str) -> str:
    """A carcase with what divides it."""
    text, inside, run = carcase(m, kind)
    name = "book case" if "book case" in text else "carcase"
    return text + dividers(m, {f"inside {name}": inside}, run, m.lot.randint(1, 5))


def frame_piece(m: Maker) -> str:
    """A frame whose front is divided."""
    leg = m.size(40, 56)
    wide, low = m.size(600, 900), m.size(300, 420)
    top, rail = m.size(45, 70), m.size(40, 60)
    thick = m.size(20, 26)
    every = f'sides = ["front", "back", "left", "right"]\nthickness = {m.say(thick)}'
    rows = [
        f"[frame]\nlength = {m.say(wide)}\ndepth = {m.some(350, 500)}\nheight = "
        f"{m.some(680, 740)}\nleg = {{ width = {m.say(leg)}, thickness = {m.say(leg)} }}",
        f'[[frame.rail]]\nname = "top rail"\ntop = "flush"\nwidth = {m.say(top)}\n{every}',
        f'[[frame.rail]]\nname = "low rail"\nbelow_top = {m.say(low)}\nwidth = {m.say(rail)}\n'
        f"{every}",
    ]
    # a partition stands in the rails' edges, which are deep: a board's third is enough
    space = Space(wide - 2 * leg, low - top, leg / 2, leg / 2, thick, thick)
    return "\n".join(rows) + "\n" + dividers(m, {"front under top rail": space}, thick,
                                             m.lot.randint(1, 3))


def bank_piece(m: Maker) -> str:
    """A carcase with drawers over one another between its shelves."""
    text, inside, run = carcase(m, m.lot.choice(("dovetailed", "slid", "housed")))
    name = "book case" if "book case" in text else "carcase"
    spaces = {f"inside {name}": inside}
    rows, into = [], f"inside {name}"
    drawn = []
    for number in (1, 2):
        thick, above = m.size(12, 18), m.size(80, 110)
        rows += [f'[[divider]]\nname = "shelf {number}"\nopening = "{into}"\nlies = "level"',
                 f"thickness = {m.say(thick)}\nabove = {m.say(above)}",
                 joint(m, thick, inside.left, run)]
        drawn.append(f'"below shelf {number}"')
        into = f"above shelf {number}"
    del spaces
    rows += [f"[[drawer]]\nopenings = [{', '.join(drawn)}]\ndovetails = "
             f"{table(corner_table(m, lapped=False))}"]
    return text + "\n".join(rows) + "\n"


KINDS: dict[str, Callable[[Maker], str]] = {
    "dovetailed": lambda m: case_piece(m, "dovetailed"),
    "slid": lambda m: case_piece(m, "slid"),
    "housed": lambda m: case_piece(m, "housed"),
    "frame": frame_piece,
    "bank": bank_piece,
}


def text_of(kind: str, lot: Random) -> str:
    """A piece file of a kind."""
    m = Maker(lot)
    return f'piece = "Case"\nunit = "{m.unit}"\n' + KINDS[kind](m)


@cache
def layouts() -> tuple[tuple[str, Case], ...]:
    """As many files as there are slides to see, none of them stopped."""
    lot = Random(SEED)
    found: list[tuple[str, Case]] = []
    seen = 0
    for text, n in not_stopped(lambda: lot.choice(tuple(KINDS)), lot):
        found.append((text, case_of(n, text)))
        seen += len(found[-1][1].slides)
        if seen >= LAYOUTS:
            break
    return tuple(found)


def not_stopped(kind: Callable[[], str], lot: Random) -> Iterator[tuple[str, Numbers]]:
    """One piece after another that the program does not stop; most it must not stop."""
    refused: Counter[str] = Counter()
    made = 0
    with TemporaryDirectory() as folder:
        path = Path(folder) / "case.toml"
        while True:
            text = text_of(kind(), lot)
            path.write_text(text, encoding="utf-8")
            try:
                n = numbers_of(path)
            except BadPiece as told:
                refused[str(told).partition(": ")[2]] += 1
                continue
            stops = {one["rule"]: one["text"] for one in n["checks"] if one["level"] == "stop"}
            assert not stops or set(stops) - PROOFS, f"{stops}\n{text}"
            refused.update(list(stops))
            if not stops:
                made += 1
                yield text, n
            assert refused.total() < 10 + made, f"most are refused: {refused}"


def kinds_of(one: Slide, way: int) -> set[str]:
    """What is special about a slide, by its cuts."""
    low, high = one.common_run
    necks = [one.wood(r, ZERO) for r in (low, high)]
    tip = one.wood(low, one.tail)
    found = {"housing" if necks[0] == tip else "slide"}
    if necks[0] != tip:
        square = [necks[0][0] == tip[0], necks[0][1] == tip[1]]
        found.add("one side" if any(square) else "both sides")
    if necks[0] != necks[1]:
        found.add("tapered in part" if len(one.sockets) > 1 else "tapered whole")
    found.add("stopped" if one.notches else "not stopped")
    found.add("from the high edge" if way > 0 else "from the face edge")
    found |= {f"shoulder at the {side}" for side in ("face", "back") if one.wastes(side)}
    if tip != (ZERO, one.slider.size[2]) and "slide" in found:
        found.add("tip thinner than the board")
    return found


def test_there_are_slides_of_every_kind() -> None:
    kinds: Counter[str] = Counter()
    for _, case in layouts():
        for one in case.slides:
            kinds.update(kinds_of(one, case.way(one)))
    assert {kind for kind, times in kinds.items() if times >= 15} >= {
        "slide", "housing", "one side", "both sides", "tapered in part", "tapered whole",
        "stopped", "not stopped", "from the high edge", "from the face edge",
        "shoulder at the face", "shoulder at the back", "tip thinner than the board",
    }, kinds


@pytest.mark.parametrize("subject", EXACT)
def test_every_slide_is_as_told_and_fits(subject: str) -> None:
    found = []
    for text, case in layouts():
        for objection in judge_slides.judge(case.numbers, text, (subject,), case):
            found.append(f"{objection}\n{text}")
    assert not found, f"{len(found)}\n" + "\n".join(found[:3])


# -- whole pieces, as solids


@pytest.mark.parametrize("kind", KINDS)
def test_a_piece_that_is_not_stopped_is_sound(kind: str) -> None:
    pieces = not_stopped(lambda: kind, Random(f"{kind} {SEED}"))
    for text, n in islice(pieces, PIECES // len(KINDS)):
        hold(n)
        found = judge_slides.judge(n, text)
        box = judge_dovetails.box_of(n)
        found += judge_dovetails.judge(n, (), box)
        found += judge_marks.judge(box.parts, n["marks"])
        if kind == "frame":
            found += judge_joints.judge(n, ("wood",), box.parts)
            found += judge_shapes.judge(n, text, box.parts)
        assert not found, "\n".join(found) + f"\n{text}"


SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_the_samples_are_sound(path: Path) -> None:
    """Every slide among the samples; a file that tells of one has one."""
    text = path.read_text(encoding="utf-8")
    n = numbers_of(path)
    assert judge_slides.judge(n, text) == []
    told = "[[divider]]" in text or ("[[carcase]]" in text and "dovetails" not in text)
    assert bool(case_of(n).slides) == told


# Files at which the judge objected once: each must now be sound, or be refused in words.
FOUND = {
    "a top and a bottom of two thicknesses, dovetailed to the sides": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
top_thickness = 24
""",
    "a top and a bottom of two thicknesses, lapped": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
bottom_thickness = 16
dovetails = { lap = 3 }
""",
    "a tapered tail whose tip is as thick as the board": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = 18
slide = { taper = 2 }
""",
    "a tapered tail that slopes on one side": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = 18
slide = { taper = 2, slopes = "back" }
""",
    "a shelf set back from the front, not stopped": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = 18
set_back = 10
slide = {}
""",
    "a top in rabbets at the sides' ends": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
top_in = 0
bottom_in = 30
housing = {}
""",
    "shoulders that leave nothing between them": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = 18
housing = { face_shoulder = 9, back_shoulder = 9 }
""",
    "sockets in both sides of a shelf, as deep together as it is thick": """
[[carcase]]
width = 600
height = 400
depth = 250
thickness = 20
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = 18
housing = {}
[[divider]]
name = "lower"
opening = "below shelf"
lies = "upright"
thickness = 16
housing = { depth = 9 }
[[divider]]
name = "upper"
opening = "above shelf"
lies = "upright"
thickness = 16
housing = { depth = 9 }
""",
}


@pytest.mark.parametrize("what", FOUND)
def test_what_was_found_once(tmp_path: Path, what: str) -> None:
    path = tmp_path / "case.toml"
    text = f'piece = "Case"\nunit = "mm"\n{FOUND[what]}'
    path.write_text(text, encoding="utf-8")
    try:
        n = numbers_of(path)
    except BadPiece:
        return
    stops = {one["rule"] for one in n["checks"] if one["level"] == "stop"}
    assert not stops or stops - PROOFS, stops
    if not stops:
        assert judge_slides.judge(n, text) == []
        assert judge_dovetails.judge(n) == []


# -- the judge itself: what is wrong must be seen

CASE = """piece = "Case"
unit = "in"
[[carcase]]
width = 24
height = 16
depth = 10
thickness = "3/4"
back = { thickness = "1/4", boards = 2 }
slide = {}
top_in = 1
bottom_in = 1
[[divider]]
name = "shelf"
opening = "inside carcase"
lies = "level"
thickness = "3/4"
above = 5
slide = { taper = "1/8", taper_over = 3, stop = "1/2", face_shoulder = "3/16" }
[[divider]]
name = "post"
opening = "below shelf"
lies = "upright"
thickness = "5/8"
housing = { depth = "1/4", face_shoulder = "1/8", stop = "3/8" }
"""


def _shift(cut: dict[str, Any], axis: int, by: Fraction) -> None:
    """Moves a whole hull."""
    for point in cut["hull"]:
        point[axis] = str(Fraction(point[axis]) + by)


Spoil = Callable[[Numbers], object]

# What is done to the numbers of a case, and the subject that must object.
SPOILT: tuple[tuple[str, str, Spoil], ...] = (
    ("a socket is too wide at its bottom", "fit",
     lambda n: _points(_some(n["cuts"], role="slide socket", joint="shelf.A"), 0, HAIR, False)),
    ("a socket stands elsewhere", "fit",
     lambda n: _shift(_some(n["cuts"], role="housing", joint="post.A"), 0, HAIR)),
    ("a socket is elsewhere, in the figures", "figures",
     lambda n: _shift(_some(n["cuts"], role="housing", joint="post.A"), 0, HAIR)),
    ("a tail is too thick", "overlap",
     lambda n: _points(_some(n["cuts"], role="tail waste, face", joint="post.A"), 2, -HAIR,
                       False)),
    ("a tail is too thin", "filled",
     lambda n: _points(_some(n["cuts"], role="tail waste, face", joint="post.A"), 2, HAIR,
                       False)),
    ("a socket is too deep", "told",
     lambda n: _points(_some(n["cuts"], role="housing", joint="post.A"), 2, HAIR, False)),
    ("one stretch of a socket is deeper", "cuts",
     lambda n: _points(_some(n["cuts"], role="slide socket", joint="shelf.A"), 2, HAIR, False)),
    ("a taper gets narrower on the way out", "drawn",
     lambda n: _points(_some(n["cuts"], role="slide socket", joint="shelf.A"), 0, -HAIR, False)),
    ("a socket stops too soon", "fit",
     lambda n: _points(_some(n["cuts"], role="housing", joint="post.A"), 1, HAIR, True)),
    ("a socket does not come out at the edge", "cuts",
     lambda n: _points(_some(n["cuts"], role="housing", joint="post.A"), 1, -HAIR, False)),
    ("a taper has lost its name", "cuts",
     lambda n: _some(n["cuts"], role="slide socket, taper").update(role="slide socket")),
    ("a cut has a new name", "cuts",
     lambda n: _some(n["cuts"], role="notch at the stop").update(role="stop notch")),
    ("a notch is missing", "overlap",
     lambda n: _drop(n["cuts"], role="notch at the stop", joint="post.A")),
    ("a back's rabbet has a new name", "cuts",
     lambda n: _some(n["cuts"], role="edge rabbet far edge").update(role="back rabbet")),
    ("a board is too short between its shoulders", "shoulder",
     lambda n: _points(_some(n["cuts"], role="tail waste, face", joint="shelf.B"), 0, -HAIR,
                       True)),
    ("a tail is too short", "cuts",
     lambda n: _move(n["parts"], "length", -HAIR, id="shelf")),
    ("a shelf stands higher", "places",
     lambda n: _move_part(n, "shelf", 2, HAIR)),
    ("a back board lies beside its place", "places",
     lambda n: _move_part(n, "carcase-back-board-2", 0, HAIR)),
    ("a shelf runs into what stood there before", "moved",
     lambda n: _move_part(n, "post", 2, -HAIR)),
    ("a side has the other hand", "hands",
     lambda n: _some(n["parts"], id="carcase-left-side").update(hand="right")),
    ("a board is cut too long", "cut list",
     lambda n: _move(n["cut_list"], "length", HAIR, name="shelf")),
    ("a back board is not listed", "cut list",
     lambda n: _drop(n["cut_list"], name="carcase back board")),
    ("a line is missing", "marks", lambda n: _drop(n["marks"], role="socket stop")),
    ("a line is struck twice", "marks",
     lambda n: n["marks"].append(dict(_some(n["marks"], role="socket depth")))),
    ("a line says another distance", "marks",
     lambda n: _move(n["marks"], "distance", HAIR, role="tail shoulder")),
    ("a line lies elsewhere", "marks",
     lambda n: _some(n["marks"], role="near side of the socket", tool="bevel").update(
         line=[["0", "0"], ["1", "0"]])),
    ("a line is struck with another tool", "marks",
     lambda n: _some(n["marks"], role="tail side, face").update(tool="knife")),
    ("a line is on the other face", "marks",
     lambda n: _some(n["marks"], role="tail shoulder").update(face="back")),
    ("near is called far", "marks",
     lambda n: _some(n["marks"], role="near side of the socket").update(
         role="far side of the socket")),
    ("a line has a new name", "marks",
     lambda n: _some(n["marks"], role="notch at the stop").update(role="notch")),
    ("a rabbet's line is missing", "marks", lambda n: _drop(n["marks"], role="rabbet depth")),
    ("a gauge stands elsewhere", "settings",
     lambda n: [_move([one], "distance", HAIR) for one in n["settings"]]),
    ("a gauge strikes a line less", "settings",
     lambda n: [one["strikes"].pop() for one in n["settings"]]),
    ("a sum is off", "sums", lambda n: _move(n["sums"], "total", HAIR)),
    ("a sum and its terms are off alike", "sums",
     lambda n: _some(n["sums"], name="tail length (shelf)").update(terms=[], total="0")),
    ("a sum is missing", "sums", lambda n: _drop(n["sums"], name="length", part="shelf")),
    ("no note tells which way it slides", "home",
     lambda n: n["checks"].clear()),
)


@cache
def spoilt_case() -> str:
    """The numbers of the case, as they are printed."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "case.toml"
        path.write_text(CASE, encoding="utf-8")
        return json.dumps(numbers_of(path))


def test_the_judge_has_nothing_to_say_of_a_sound_case() -> None:
    assert judge_slides.judge(json.loads(spoilt_case()), CASE) == []


@pytest.mark.parametrize(("what", "subject", "spoil"), SPOILT)
def test_the_judge_sees(what: str, subject: str, spoil: Spoil) -> None:
    n = json.loads(spoilt_case())
    assert judge_slides.judge(n, CASE, (subject,)) == []
    spoil(n)
    assert judge_slides.judge(n, CASE, (subject,)), what


def test_marks_of_slides_are_judged_with_all_the_others() -> None:
    """A role that no judge knows is seen from the judge of marks too."""
    n = json.loads(spoilt_case())
    parts = boards(n)
    assert list(judge_marks.judge(parts, n["marks"])) == []
    for role in ("socket depth", "tail shoulder", "rabbet width"):
        other = json.loads(spoilt_case())
        _some(other["marks"], role=role).update(role="seat")
        assert list(judge_marks.judge(parts, other["marks"]))


DOVETAILED = """piece = "Case"
unit = "in"
[[carcase]]
width = 24
height = 16
depth = 10
thickness = "3/4"
back = { thickness = "1/4" }
"""

# What is done to a dovetailed carcase's back, and the subject of dovetails that must object.
BACK_SPOILT: tuple[tuple[str, str, Spoil], ...] = (
    ("the baseline doesn't step at the rabbet", "steps",
     lambda n: _drop(n["cuts"], role="waste of half pin 2 at the rabbet")),
    ("the step is too narrow", "steps",
     lambda n: _points(_some(n["cuts"], role="waste of half pin 2 at the rabbet"), 1, HAIR, True)),
    ("the step is too short", "corner",
     lambda n: _points(_some(n["cuts"], role="waste of half pin 2 at the rabbet",
                             joint="carcase.D"), 0, -HAIR, False)),
    ("the rabbet is deeper in the top", "steps",
     lambda n: _points(_some(n["cuts"], part="carcase-top", role="edge rabbet far edge"), 2, HAIR,
                       False)),
    ("a rabbet misses its edge", "cuts",
     lambda n: _points(_some(n["cuts"], role="edge rabbet far edge"), 1, -HAIR, False)),
    ("the step's line is missing", "marks", lambda n: _drop(n["marks"], role="step at the rabbet")),
    ("a back stands in the sides", "overlap", lambda n: _move_part(n, "carcase-back", 1, -HAIR)),
)


@pytest.mark.parametrize(("what", "subject", "spoil"), BACK_SPOILT)
def test_the_judge_of_dovetails_sees_a_carcase(
    tmp_path: Path, what: str, subject: str, spoil: Spoil
) -> None:
    path = tmp_path / "case.toml"
    path.write_text(DOVETAILED, encoding="utf-8")
    n = numbers_of(path)
    assert judge_dovetails.judge(n) == []
    spoil(n)
    assert judge_dovetails.judge(n, (subject,)), what
