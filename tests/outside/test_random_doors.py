"""Doors that nobody has drawn, written as a maker would write them.

Single ones and pairs, with and without a rebate, inset and overlay, in a space or a carcase, with
plain, raised or tongued panels in grooves, panels or glass in rabbets, middle rails and muntins,
hinges and locks, horns, in woods and climates of every kind. What the program does not stop is
worked out a second time from the words of the file (judge_doors.py), and judged as solids.
"""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import pytest

from layout.errors import BadPiece
from tests.outside import judge_boards, judge_doors, judge_joints, judge_marks, judge_shapes
from tests.outside.outsider import PIECES, Numbers, numbers_of
from tests.outside.test_random_frames import Maker, added_up, stops, table
from tests.outside.test_random_slides import PROOFS

SAMPLES = Path(__file__).parents[2] / "samples"
DOORS, SOLIDS, SEED = 30, 8, 1911
HAIR = Fraction(127, 320)  # 1/64 in


def air(m: Maker, damp: tuple[int, int]) -> str:
    """The air of a room, as an instrument shows it."""
    percent = m.lot.randint(*damp)
    if m.lot.randrange(2):
        return f'"{m.lot.randint(17, 24)} C, {percent} %"'
    return f'"{m.lot.randint(62, 76)} F, {percent} %"'


def climate(m: Maker) -> str:
    """Today and the year: a meter's readings, or air; all between 6 and 14 percent."""
    if m.one_in(2):
        low, high = m.lot.randint(60, 85), m.lot.randint(95, 130)
        now = m.lot.randint(low, high) if not m.one_in(5) else m.lot.randint(62, 135)
        said = [f"{tenths / 10}" for tenths in (now, low, high)]
    else:
        said = [air(m, (40, 60)), air(m, (34, 40)), air(m, (55, 68))]
    return "[climate]\n" + "\n".join(
        f"{key} = {value}" for key, value in zip(("now", "dry", "wet"), said, strict=True)
    )


def wood(m: Maker, word: str) -> str:
    """What a word stands for, where the file says more than the word."""
    rows = [f'[[wood]]\ntimber = "{word}"']
    if m.one_in(2):
        rows.append(f'sawn = "{m.lot.choice(("flat", "quarter", "rift"))}"')
    if m.one_in(2):
        rows.append(f"gravity = 0.{m.lot.randint(40, 75)}")
    if m.one_in(4):
        rows.append(f"radial = 0.{m.lot.randint(12, 24)}\ntangential = 0.{m.lot.randint(25, 40)}")
    return "\n".join(rows)


def seat(m: Maker, thick: Fraction, word: str) -> list[str]:
    """A panel's or a glass's table, in the middle of the door's thickness or near it."""
    kind = m.lot.choice(("plain", "raised", "tongue", "tongue", "loose", "glass"))
    if kind == "glass":
        rows = ["[door.glass]", f"rabbet_depth = {m.some(7, thick / 2)}"]
        if m.one_in(3):
            rows.append(f"thickness = {m.some(3, 5)}")
        return rows + optional(m, lip=(6, 10), room=(1, 4))
    rows = ["[door.panel]"]
    if kind == "loose":
        panel = m.size(5, thick * 2 / 5)
        rows += ['seat = "rabbet"', f"thickness = {m.say(panel)}"]
        if m.one_in(2):
            rows.append(f"rabbet_depth = {m.say(panel + m.size(0, 3))}")
    else:
        tongue = m.size(5, 8)
        panel = tongue if kind == "plain" else m.size(tongue + 5, thick)
        rows += [f'thickness = {m.say(panel)}', f'edge = "{kind}"']
        if kind != "plain":
            rows.append(f"tongue = {m.say(tongue)}")
        if kind == "tongue" and m.one_in(2):
            rows.append(f"wood_behind = {m.some(1, (panel - tongue) / 2)}")
        if kind == "raised":
            rows += [f"border = {m.some(26, 40)}", f"step = {m.some(0, 2)}"]
        if m.one_in(4):
            near = (thick - tongue) / 2 + m.size(0, 2)
            rows.append(f"groove_from_face = {m.say(near)}")
    solid = kind != "loose" and not m.one_in(3)
    if solid:
        own: dict[str, Any] = {}
        if m.one_in(3):
            own["cover"] = m.some(2, 4)
        if m.one_in(3):
            own["play"] = m.some(1, 3)
        if m.one_in(3):
            own["sawn"] = f'"{m.lot.choice(("flat", "quarter", "rift"))}"'
        if m.one_in(2):
            own["held"] = f'"{m.lot.choice(("pins", "spacers", "free"))}"'
        # a free one's groove is told; how deep it is made where it is not has its own test
        told = own.get("held") == '"free"' or m.one_in(2)
        rows.append(f"solid = {table(own)}")
        if m.one_in(4):
            rows.append('grain = "across"')
        if word and m.one_in(3):
            rows.append(f'timber = "{word}"')
        rows += [f"lip = {m.some(8, 12)}"] if told else []
    else:
        rows += ['timber = "birch plywood"', *optional(m, lip=(8, 12))]
    return rows + optional(m, room=(0, 3))


def optional(m: Maker, **sizes: tuple[int, int]) -> list[str]:
    """Some of these sizes, one in two."""
    return [f"{key} = {m.some(*reach)}" for key, reach in sizes.items() if m.one_in(2)]


def door(lot: Random) -> str:
    """A file with one door or one pair."""
    m = Maker(lot)
    words = (("european oak", "european ash", "european beech") if m.unit == "mm" else
             ("white ash", "black cherry", "yellow birch", "hard maple", "american beech"))
    word, other = lot.sample(words, 2)
    head = [f'piece = "Door"\nunit = "{m.unit}"\ntimber = "{word}"']
    if not m.one_in(5):
        head.append(climate(m))
    head += [wood(m, one) for one in (word, other) if m.one_in(2)]
    wide, high = m.size(330, 560), m.size(500, 1100)
    thick, stile = m.size(18, 26), m.size(45, 60)
    pair = m.one_in(4)
    wide *= 2 if pair else 1
    rows = ["[[door]]"]
    overlay = m.one_in(4)
    if overlay or m.one_in(3):
        head += ['[[carcase]]\nname = "case"', f"width = {m.say(wide)}\nheight = {m.say(high)}",
                 f"depth = {m.some(200, 300)}\nthickness = {m.some(16, 20)}\nhousing = {{}}"]
        rows.append('openings = ["inside case"]')
    else:
        rows.append(f"space = {{ width = {m.say(wide)}, height = {m.say(high)} }}")
    rows += [f"thickness = {m.say(thick)}\nstiles = {m.say(stile)}"]
    if pair:
        rows += ["pair = true", *optional(m, gap_between=(3, 5))]
        rows += [f"rebate = {m.some(5, 10)}"] if m.one_in(2) else []
    rows += ['mount = "overlay"', *optional(m, over=(5, 12))] if overlay else optional(
        m, gap_sides=(2, 4), gap_top=(1, 3), gap_bottom=(1, 4))
    rows += [f"horns = {m.some(10, 25)}"] if m.one_in(2) else []
    rows += ['hinges_on = "right"'] if not pair and m.one_in(2) else []
    if not m.one_in(3):
        hinges: dict[str, Any] = {"length": m.some(40, 70)}
        if m.one_in(3):
            hinges["count"] = lot.choice((2, 3))
        if m.one_in(3):
            hinges["from_ends"] = m.some(40, 100)
        if m.one_in(4):
            hinges["clear"] = m.some(2, 8)
        rows.append(f"hinges = {table(hinges)}")
    if m.one_in(2):
        lock = {"length": m.some(30, 60)} | ({"above": m.some(150, 350)} if m.one_in(2) else {})
        rows.append(f"lock = {table(lock)}")
    rows += [f'sawn = "{lot.choice(("flat", "quarter", "rift"))}"'] if m.one_in(4) else []
    rows += [f"top = {{ width = {m.some(45, 70)} }}"] if m.one_in(2) else []
    rows += [f"bottom = {{ width = {m.some(55, 90)} }}"] if m.one_in(2) else []
    # a pair has everything twice, and takes as long: few of them are divided too
    plain = pair and not m.one_in(4)
    many = 0 if plain or high < 650 else lot.choice((0, 0, 0, 1, 1, 2))
    for number in range(many):
        rows.append(f"[[door.middle]]\nwidth = {m.some(45, 60)}")
        if number == 0 and m.one_in(2):
            rows.append(f"above = {m.some(150, high / 3)}")
    if not plain and m.one_in(4):
        rows.append(f"[[door.muntin]]\nwidth = {m.some(36, 50)}")
        rows += [f"row = {lot.randint(1, many + 1)}"] if many and m.one_in(2) else []
        rows += ["count = 2"] if m.one_in(4) and not many else []
    return "\n".join([*head, *rows, *seat(m, thick, other)]) + "\n"


@cache
def drawn() -> tuple[tuple[str, Numbers], ...]:
    """Files and their numbers, drawn until there are enough that nothing stops."""
    found: list[tuple[str, Numbers]] = []
    refused: list[str] = []
    lot = Random(SEED)
    with TemporaryDirectory() as place:
        path = Path(place) / "door.toml"
        for _ in range(DOORS * 2):
            text = door(Random(lot.random()))
            path.write_text(text, encoding="utf-8")
            try:
                numbers = numbers_of(path)
            except BadPiece as error:
                refused.append(f"{error}\n{text}")
                continue
            stopped = [one["text"] for one in stops(numbers) if one["rule"] not in PROOFS]
            if stopped:
                refused.append(f"{stopped}\n{text}")
                continue
            found.append((text, numbers))
            if len(found) == DOORS:
                return tuple(found)
    raise AssertionError("\n\n".join(refused))


def kinds(text: str, numbers: Numbers) -> Iterator[str]:
    """What a file has that another may not have."""
    for word in ("pair", "rebate", "overlay", "openings", "space", "middle", "muntin", "glass",
                 "rabbet\"", "plain", "raised", "tongue\"", "wood_behind", "solid", "across",
                 "horns", "hinges", "from_ends", "lock", "above", "climate", "radial", "gravity",
                 '"rift"', '"quarter"', '"free"', '"in"', '"mm"', " F, ", " C, "):
        if word in text:
            yield word
    yield from ("no climate" for _ in [0] if "climate" not in text)
    yield from {judge_marks.plain_role(one["role"]) for one in numbers["marks"]}
    yield from {one["rule"] for one in numbers["checks"]}


def test_there_are_doors_of_every_kind() -> None:
    found = {kind for text, numbers in drawn() for kind in kinds(text, numbers)}
    wanted = {
        "pair", "rebate", "overlay", "openings", "space", "middle", "muntin", "glass", "rabbet\"",
        "plain", "raised", "tongue\"", "wood_behind", "solid", "across", "horns", "hinges",
        "from_ends", "lock", "above", "climate", "no climate", "radial", "gravity", '"rift"',
        '"quarter"', '"free"', '"in"', '"mm"', " F, ", " C, ",
        judge_doors.YEAR, judge_doors.FREE, judge_doors.WEIGHT, judge_doors.MUST,
        *judge_marks.EDGES, *judge_marks.LEAVES,
    }
    assert wanted - found == set()


@pytest.mark.parametrize("subject", judge_doors.SUBJECTS)
def test_doors_are_what_the_sums_of_the_trade_give(subject: str) -> None:
    for text, numbers in drawn():
        assert judge_doors.judge(numbers, text, [subject], parts_of(text)) == [], text


@cache
def parts_of(text: str) -> dict[str, judge_boards.Board]:
    """The boards of a drawn file; those of a case without its corners."""
    return judge_boards.boards(bare(dict(drawn())[text]))


def test_every_sum_adds_up() -> None:
    for text, numbers in drawn():
        assert list(added_up(numbers)) == [], text


def test_the_program_s_proofs_of_itself_hold() -> None:
    """No door that was drawn upsets them: a maker could do nothing about it."""
    failed = [
        (one["text"], text) for text, numbers in drawn() for one in stops(numbers)
    ]
    assert failed == []


def bare(numbers: Numbers) -> Numbers:
    """The numbers without what is cut and laid out on a case for its own corners, which other
    judges judge; hinges stay."""
    case = {part["id"] for part in numbers["parts"] if part["id"].startswith("case-")}
    return numbers | {
        key: [one for one in numbers[key]
              if one["part"] not in case or one["joint"].endswith(".hinge")]
        for key in ("cuts", "marks")
    }


def own_marks(numbers: Numbers) -> list[dict[str, Any]]:
    """The marks that only doors and their panels have."""
    roles = set(judge_marks.EDGES) | set(judge_marks.LEAVES)
    return [one for one in numbers["marks"] if judge_marks.plain_role(one["role"]) in roles]


def test_a_door_s_own_marks_stand_where_they_must() -> None:
    for text, numbers in drawn():
        parts, marks = parts_of(text), own_marks(bare(numbers))
        assert list(judge_marks.judge(parts, marks)) == [], text


@cache
def shown() -> dict[str, Numbers]:
    """The first file with each role of a cut or a mark."""
    seen: set[str] = set()
    found = {}
    for text, numbers in drawn():
        roles = {re.sub(r"\d+", "N", one["role"]) for key in ("cuts", "marks")
                 for one in numbers[key]}
        if roles - seen:
            found[text] = numbers
            seen |= roles
    return found


def test_marks_are_edges_that_the_cuts_make() -> None:
    for text, numbers in shown().items():
        assert list(judge_marks.judge(parts_of(text), bare(numbers)["marks"])) == [], text


def test_joints_fit_and_haunches_fill() -> None:
    """As solids."""
    chosen = dict(drawn()[:SOLIDS]) | shown()
    for text, numbers in chosen.items():
        subjects = set(judge_joints.SUBJECTS)
        if "[[carcase]]" in text:  # its boards stand in each other without their corners' cuts
            subjects -= {"overlap"}
        assert judge_joints.judge(numbers, subjects, parts_of(text)) == [], text
        assert judge_shapes.judge(numbers, text, parts_of(text)) == [], text


# -- what is left open, and what was found once


def told(where: Path, text: str) -> Numbers:
    path = where / "door.toml"
    path.write_text(text, encoding="utf-8")
    return numbers_of(path)


WIDE = """
piece = "Wide panel"
unit = "mm"
timber = "european oak"
climate = { now = 10, dry = 6, wet = 12 }
[[door]]
space = { width = 700, height = 600 }
thickness = 22
stiles = 60
gap_sides = 4
[door.panel]
thickness = 12
edge = "tongue"
solid = { held = "HELD" }
"""


@pytest.mark.parametrize("held", ["pins", "spacers", "free"])
def test_a_groove_left_open_is_as_deep_as_the_year_asks(tmp_path: Path, held: str) -> None:
    """700 - 2 x 4 - 2 x 60 = 572 clear. Oak moves by 0.36 % (DIN 68100) for 1 % of moisture:
    from 10 to 12 % x 1.0072, from 10 to 6 % x 0.9856, together x 0.97855. With a lip of 10 the
    panel comes to 592 - 1.5 = 590.5 and then to 577.84: 2.92 in each groove, less than the 3 of
    README's cover. One that lies to one side has nothing left in the other."""
    text = WIDE.replace("HELD", held)
    numbers = told(tmp_path, text)
    (door,) = judge_doors.doors_of(numbers, text)
    share = (1 - Fraction(36, 10000) * 4) / (1 + Fraction(36, 10000) * 2)
    narrowest = (572 + 2 * door.lip - Fraction(3, 2)) * share
    inside = narrowest - 572 - door.lip if held == "free" else (narrowest - 572) / 2
    assert door.lip > 10
    assert inside >= 3
    assert stops(numbers) == []
    assert judge_doors.judge(numbers, text) == []


@pytest.mark.parametrize("holds", [
    "[door.glass]\nrabbet_depth = 9",
    '[door.panel]\ntimber = "plywood"\nthickness = 8\nseat = "rabbet"',
])
def test_a_muntin_over_rabbets_is_not_stopped(tmp_path: Path, holds: str) -> None:
    """600 - 3 - 50 - 50 = 497 between the rails; the back shoulders a lip further at each end."""
    text = f"""
piece = "Muntin"
unit = "mm"
[[door]]
space = {{ width = 400, height = 600 }}
thickness = 22
stiles = 50
[[door.muntin]]
width = 40
{holds}
lip = 10
"""
    numbers = told(tmp_path, text)
    totals = {one["name"]: one["total"] for one in numbers["sums"]
              if one["part"] == "door-muntin-1-1"}
    assert totals["shoulder distance"] == "497"
    assert totals["back shoulder distance"] == "517"
    assert judge_doors.judge(numbers, text) == []
    assert [one["text"] for one in stops(numbers)] == []


def test_what_is_not_solid_is_a_sheet(tmp_path: Path) -> None:
    """README takes plywood to keep its size, and the schema a panel without `solid` for plywood or
    another sheet, whatever the timber of the frame is."""
    text = WIDE.replace('solid = { held = "HELD" }', "")
    numbers = told(tmp_path, text)
    moving = {part for row in numbers["movement"] for part in row["parts"]}
    assert "door-left-stile" in moving
    assert "door-panel" not in moving


CHEST_END = """
piece = "Panelled chest end"
unit = "in"
timber = "white oak"
[climate]
now = 8
dry = "68 F, 25 %"
wet = "75 F, 60 %"
[[wood]]
timber = "white oak"
sawn = "quarter"
[frame]
length = 30
depth = 18
height = 22
leg = { width = 2, thickness = 2 }
[[frame.rail]]
name = "top rail"
sides = ["left", "right"]
top = "flush"
width = "2 1/2"
thickness = 1
[[frame.rail]]
name = "low rail"
sides = ["left", "right"]
above_floor = 3
width = "2 1/2"
thickness = 1
[[panel]]
name = "end panel"
openings = ["left under top rail", "right under top rail"]
thickness = "5/8"
seat = "groove"
edge = "raised"
tongue = "5/16"
solid = {}
"""


def test_a_solid_panel_in_a_frame_fits_the_whole_year(tmp_path: Path) -> None:
    """README's chest end: 18 - 2 x 2 = 14 clear between the legs, 22 - 2 1/2 - 3 - 2 1/2 = 14
    between the rails. Quarter-sawn white oak: radial, Table 13-5."""
    numbers = told(tmp_path, CHEST_END)
    wood = judge_doors.File(CHEST_END).wood("white oak")
    assert wood.change("quarter") == Fraction("0.0018")  # white oak, radial, read in the table
    boards = [one for one in numbers["parts"] if one["name"].endswith("end panel")]
    assert len(boards) == 2
    inch, clear = Fraction(127, 5), 14 * Fraction(127, 5)
    for board in boards:
        lips = {
            max(spot) - min(spot) for cut in numbers["cuts"]
            if cut["role"] == "groove" and cut["part"].startswith(board["id"].split("-")[0])
            for spot in [[Fraction(point[1]) for point in cut["hull"]]]
        }
        (lip,) = lips
        assert lip == inch * 3 / 8
        width, length = Fraction(board["width"]), Fraction(board["length"])
        # grain up: its length keeps, less the usual room of 1/16; its width is held by the year
        assert length == clear + 2 * lip - inch / 16
        assert wood.at(width, "quarter", wood.wet) == clear + 2 * lip - inch / 16
        # the air of 68 F and 25 % dries it to 5.4 %, under the 6 % that the coefficient is good
        # from: Wood Handbook, Eq. 13-3, with the radial shrinkage of white oak in Table 4-3, 5.6 %
        assert wood.dry < 6
        by = (wood.dry - wood.now) / (3000 / Fraction("5.6") - 30 + wood.now)
        narrowest = width * (1 + by)
        assert (narrowest - clear) / 2 >= inch / 8
        (said,) = [one for one in numbers["checks"]
                   if one["rule"] == judge_doors.YEAR and board["id"] in one["parts"]]
        assert Fraction(said["figures"]["narrowest"]) == narrowest
    assert stops(numbers) == []


@pytest.mark.parametrize(("sample", "where", "width", "height"), [
    # 900 - 2 x 18 - 260 - 16 - 312 - 16 = 260; 360 - 2 x 18 = 324
    ("wall_cabinet", "right of right partition", '"260"', '"324"'),
    # told from the left: 13 1/2; 33 1/4 - 4 - 6 - 3 1/2 = 19 3/4
    ("repair_bench", "left of left upright", '"13 1/2"', '"19 3/4"'),
])
def test_the_samples_doors_are_what_the_sums_give(
    sample: str, where: str, width: str, height: str
) -> None:
    path = SAMPLES / f"{sample}.toml"
    text = path.read_text(encoding="utf-8")
    opening = f'openings = ["{where}"]'
    assert text.count(opening) == 1
    space = text.replace(opening, f"space = {{ width = {width}, height = {height} }}")
    assert judge_doors.judge(numbers_of(path), space) == []


# -- the judge itself: it must be able to object


PAIR = """
piece = "Pair"
unit = "mm"
timber = "european oak"
climate = { now = 9, dry = 7, wet = 11 }
wood = [{ timber = "european oak", gravity = 0.67 }]
[[carcase]]
name = "case"
width = 860
height = 1140
depth = 300
thickness = 20
housing = {}
[[door]]
openings = ["inside case"]
pair = true
rebate = 8
gap_between = 4
thickness = 22
stiles = 55
bottom = { width = 65 }
horns = 20
hinges = { length = 60, count = 3 }
lock = { length = 50 }
[[door.middle]]
width = 55
above = 420
[[door.muntin]]
row = 1
width = 45
[door.panel]
thickness = 16
edge = "tongue"
wood_behind = 4
solid = { sawn = "quarter" }
"""
RAISED = """
piece = "Raised"
unit = "mm"
timber = "european ash"
climate = { now = "19 C, 50 %", dry = "21 C, 35 %", wet = "20 C, 65 %" }
wood = [{ timber = "european ash", gravity = 0.66 }]
[[door]]
space = { width = 260, height = 324 }
thickness = 18
stiles = 42
bottom = { width = 50 }
hinges_on = "right"
hinges = { length = 40 }
lock = { length = 40 }
[door.panel]
thickness = 12
edge = "raised"
border = 30
solid = {}
"""
GLASS = (PIECES / "small_glass_door_horns.toml").read_text(encoding="utf-8")

Spoil = Callable[[Numbers], object]


@cache
def printed(text: str) -> str:
    with TemporaryDirectory() as where:
        return json.dumps(bare(told(Path(where), text)))


def sound(text: str) -> Numbers:
    """Numbers of its own for everyone, to be spoilt."""
    found: Numbers = json.loads(printed(text))
    return found


@pytest.mark.parametrize("text", [PAIR, RAISED, GLASS], ids=["pair", "raised", "glass"])
def test_the_judge_has_nothing_against_what_is_sound(text: str) -> None:
    numbers = sound(text)
    assert stops(numbers) == []
    assert judge_doors.judge(numbers, text) == []


def some(rows: list[dict[str, Any]], **what: str) -> dict[str, Any]:
    """The first row that says so."""
    return next(row for row in rows if all(row[key] == value for key, value in what.items()))


def more(rows: list[dict[str, Any]], key: str, by: Fraction, **what: str) -> None:
    """A length of a row, changed."""
    row = some(rows, **what)
    row[key] = str(Fraction(row[key]) + by)


def shift(cut: dict[str, Any], axis: int, by: Fraction) -> None:
    """A cut, moved along one axis of its part."""
    for point in cut["hull"]:
        point[axis] = str(Fraction(point[axis]) + by)


def widen(cut: dict[str, Any], axis: int, by: Fraction, least: bool = False) -> None:
    """A cut's high end along one axis, or its low one, moved."""
    reach = [Fraction(point[axis]) for point in cut["hull"]]
    end = min(reach) if least else max(reach)
    for point in cut["hull"]:
        if Fraction(point[axis]) == end:
            point[axis] = str(end + by)


def elsewhere(n: Numbers, axis: int, by: Fraction, *parts: str) -> None:
    """Every part whose id begins so, moved along X, Y or Z."""
    for part in n["parts"]:
        if part["id"].startswith(parts):
            part["origin"][axis] = str(Fraction(part["origin"][axis]) + by)


def without(rows: list[dict[str, Any]], **what: str) -> None:
    """The first row that says so, left out."""
    rows.remove(some(rows, **what))


def figure(n: Numbers, rule: str, key: str) -> None:
    """A check's figure, a hair more."""
    row = next(one for one in n["checks"] if one["rule"] == rule and one["figures"])
    row["figures"][key] = str(Fraction(row["figures"][key]) + HAIR)


def unlisted(n: Numbers, part: str) -> None:
    """A part, taken out of the list of what moves."""
    for row in n["movement"]:
        row["parts"] = [one for one in row["parts"] if one != part]


ONE = Fraction(1)
SPOILT: tuple[tuple[str, str, str, Spoil], ...] = (
    ("a door is too narrow", RAISED, "space",
     lambda n: elsewhere(n, 0, -HAIR, "door-right-stile")),
    ("a pair leaves another gap", PAIR, "space", lambda n: elsewhere(n, 0, HAIR, "left-door")),
    ("a pair stands too high", PAIR, "space",
     lambda n: elsewhere(n, 2, HAIR, "left-door", "right-door")),
    ("a pair is set back", PAIR, "space",
     lambda n: elsewhere(n, 1, HAIR, "left-door", "right-door")),
    ("a rebate is too narrow", PAIR, "space",
     lambda n: widen(some(n["cuts"], joint="left-door.meeting"), 1, -HAIR)),
    ("a rebate is missing", PAIR, "space",
     lambda n: without(n["cuts"], joint="right-door.meeting")),
    ("a rail is too low", PAIR, "frame",
     lambda n: elsewhere(n, 2, -HAIR, "left-door-middle-rail")),
    ("a rail is wider", RAISED, "frame",
     lambda n: more(n["parts"], "width", HAIR, id="door-bottom-rail")),
    ("a muntin is out of the middle", PAIR, "frame",
     lambda n: elsewhere(n, 0, HAIR, "left-door-muntin-1-1")),
    ("a muntin is gone", PAIR, "frame", lambda n: without(n["parts"], id="left-door-muntin-1-1")),
    ("a shoulder is short", RAISED, "frame",
     lambda n: widen(some(n["cuts"], part="door-top-rail", role="front cheek waste A"), 0, -HAIR)),
    ("a back shoulder is not long enough", GLASS, "frame",
     lambda n: widen(some(n["cuts"], part="door-top-rail", role="long shoulder waste A"), 0, HAIR)),
    ("a groove is off the middle", RAISED, "seat",
     lambda n: shift(some(n["cuts"], part="door-top-rail", role="groove"), 2, HAIR)),
    ("a rabbet is too wide", GLASS, "seat",
     lambda n: widen(some(n["cuts"], part="door-bottom-rail", role="rabbet"), 1, HAIR)),
    ("a groove is missing", PAIR, "seat",
     lambda n: without(n["cuts"], part="left-door-muntin-1-1", role="groove")),
    ("a panel is 1 mm wider", RAISED, "panels",
     lambda n: more(n["parts"], "width", ONE, id="door-panel")),
    ("a panel is a hair wider, and in the middle", RAISED, "panels",
     lambda n: (more(n["parts"], "width", HAIR, id="door-panel"),
                elsewhere(n, 0, -HAIR / 2, "door-panel"))),
    ("a panel is a hair longer, and in the middle", PAIR, "panels",
     lambda n: (more(n["parts"], "length", HAIR, id="left-door-panel-2"),
                elsewhere(n, 2, -HAIR / 2, "left-door-panel-2"))),
    ("a glass is higher up", GLASS, "panels", lambda n: elsewhere(n, 2, HAIR, "door-glass")),
    ("a panel lies before its groove", PAIR, "panels",
     lambda n: elsewhere(n, 1, -HAIR, "left-door-panel-2")),
    ("a tongue is too thick", PAIR, "panels",
     lambda n: widen(some(n["cuts"], role="tongue waste end A"), 2, -HAIR)),
    ("a border is too broad", RAISED, "panels",
     lambda n: widen(some(n["cuts"], role="raise edge"), 1, HAIR)),
    ("a panel is said to come to less", RAISED, "panels",
     lambda n: figure(n, judge_doors.YEAR, "narrowest")),
    ("nothing is said of a panel's year", RAISED, "panels",
     lambda n: without(n["checks"], rule=judge_doors.YEAR)),
    ("a groove is deeper than it need be", RAISED, "lip",
     lambda n: widen(some(n["cuts"], part="door-left-stile", role="groove"), 1, -ONE, True)),
    ("a hinge is a hair lower", RAISED, "hinges",
     lambda n: [more(n["marks"], "distance", HAIR, part="door-right-stile", role=f"hinge 2 {end}")
                for end in ("top", "bottom")]),
    ("a hinge is moved without a word", PAIR, "hinges",
     lambda n: without(n["checks"], rule=judge_doors.MUST)),
    ("a mortise comes nearer to a hinge", RAISED, "hinges",
     lambda n: shift(some(n["cuts"], part="door-right-stile", joint="door-bottom-rail.B"), 0,
                     -HAIR)),
    ("a lock is short", PAIR, "hinges",
     lambda n: more(n["marks"], "distance", -HAIR, role="lock bottom")),
    ("a lock is on the hinges' stile", RAISED, "hinges",
     lambda n: some(n["marks"], role="lock top").update(part="door-right-stile")),
    ("a diagonal is a hair longer", GLASS, "diagonals",
     lambda n: more(n["squareness"], "diagonal", HAIR, name="door")),
    ("dry and damp are exchanged", RAISED, "movement",
     lambda n: [row.update(dry=row["wet"], wet=row["dry"]) for row in n["movement"]]),
    ("a panel is taken for flat-sawn", PAIR, "movement",
     lambda n: some(n["movement"], sawn="quarter", way="width").update(sawn="flat")),
    ("a stile is in no list", PAIR, "movement", lambda n: unlisted(n, "left-door-left-stile")),
    ("a gap is said to become more", PAIR, "gaps", lambda n: figure(n, judge_doors.FREE, "least")),
    ("a weight is a tenth out", RAISED, "weight",
     lambda n: some(n["checks"], rule=judge_doors.WEIGHT).update(
         text="the door weighs about 0.94 kg (2.1 lb)")),
    ("a horn is left off", PAIR, "orders",
     lambda n: more(n["sums"], "total", Fraction(-20), name="length with horns")),
    ("a tenon is left less proud", GLASS, "orders",
     lambda n: more(n["sums"], "total", -HAIR, name="length with tenons left proud")),
)


@pytest.mark.parametrize(
    ("what", "text", "subject", "spoil"), SPOILT, ids=[one[0] for one in SPOILT]
)
def test_the_judge_sees(what: str, text: str, subject: str, spoil: Spoil) -> None:
    numbers = sound(text)  # which nothing is said against, see above
    spoil(numbers)
    assert judge_doors.judge(numbers, text, [subject]) != [], what


def test_every_subject_of_the_judge_is_spoilt() -> None:
    assert {subject for _, _, subject, _ in SPOILT} == set(judge_doors.SUBJECTS)


@pytest.mark.parametrize("text", [PAIR, RAISED], ids=["pair", "raised"])
def test_a_door_s_mark_moved_by_a_sixty_fourth_is_found(text: str) -> None:
    """The first of each role on each face: it moves with its distance, its fellows stay."""
    parts, marks = judge_boards.boards(sound(text)), own_marks(sound(text))
    assert list(judge_marks.judge(parts, marks)) == []
    first: dict[tuple[str, ...], int] = {}
    for at, one in enumerate(marks):
        first.setdefault((judge_marks.plain_role(one["role"]), one["face"], one["from"]), at)
    assert len(first) >= 13
    for at in first.values():
        mark = copy.deepcopy(marks[at])
        axis, far = judge_marks.SOURCES[mark["from"]]
        across = judge_boards.FACES[mark["face"]].index(axis)
        for spot in mark["line"]:
            spot[across] = str(Fraction(spot[across]) + HAIR)
        mark["distance"] = str(Fraction(mark["distance"]) + (-HAIR if far else HAIR))
        spoilt = [one for one in marks if one["joint"] == mark["joint"] and one is not marks[at]]
        found = list(judge_marks.judge(parts, [mark, *spoilt]))
        if mark["joint"].endswith(".lock"):  # it has no fellow as long, only what was told
            found += judge_doors.judge(sound(text) | {"marks": [mark, *spoilt]}, text, ["hinges"])
        assert found != [], mark
        # one of a hinge's lines that is not there is missed by its fellows
        if mark["joint"].endswith((".hinge", ".lock")):
            assert list(judge_marks.judge(parts, spoilt)) != [], mark
