"""Dovetails that nobody has drawn, written as a maker would write them.

Layouts: hundreds of corners, through and lapped, of one tail and of many, equal and graduated, by
the pins' places, with half pins and half tails, at slopes told as ratios and as degrees. Each is
worked out a second time here, from the words of the file, by the trade's own sums; the cuts must
come to the same Fractions, and must tile the corner, exactly and in plane figures.

Boxes: drawers and chests of every kind of front and bottom as solids, alone and in a frame.
"""

from __future__ import annotations

import json
import math
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import pytest

from layout.errors import BadPiece
from layout.numbers import numbers
from layout.piece import work_out
from layout.piece_file.reader import read_piece
from tests.contract import hold
from tests.outside import judge_dovetails, judge_joints, judge_marks
from tests.outside.judge_dovetails import Box, Corner, Spread, box_of
from tests.outside.outsider import DRAWS, Numbers, numbers_of
from tests.outside.test_random_frames import Maker, table

LAYOUTS, SEED = 200 * DRAWS, 1902
BOXES = 48 * DRAWS
ZERO = Fraction(0)
PIN = {"in": Fraction(127, 20), "mm": Fraction(6)}  # 1/4 in; 6 mm
ABOUT = {"in": Fraction(127, 4), "mm": Fraction(32)}  # 1 1/4 in; 32 mm


@dataclass
class Told:
    """What a file says of the dovetails of some corners, in mm."""

    said: dict[str, Any] = field(default_factory=dict)
    run: Fraction | None = Fraction(7)
    degrees: int = 0
    pin: Fraction = ZERO
    half_pin: Fraction | None = None
    tails: int = 0
    about: Fraction = ZERO
    pins_at: list[Fraction] = field(default_factory=list)
    share: Fraction = Fraction(1)
    half_tails: bool = False


def slope(m: Maker, told: Told) -> None:
    """A slope, in one of the ways it may be told."""
    way = m.lot.choice(("", "1:n", "1 in n", "over", "degrees"))
    if way in ("1:n", "1 in n"):
        run = m.lot.choice((4, 5, 6, 8, 9))
        told.run = Fraction(run)
        told.said["slope"] = f'"{way.replace("n", str(run))}"'
    elif way == "over":
        told.run, told.said["slope"] = m.lot.choice((
            (Fraction(24, 5), '"5/8 in 3"'), (Fraction(13, 2), '"2 in 13"'),
        ))
    elif way == "degrees":
        told.run, told.degrees = None, m.lot.choice((7, 8, 9, 10, 12))
        told.said["slope"] = f'"{told.degrees} deg"'


def dovetails(m: Maker, width: Fraction, long: Fraction) -> Told:
    """A table for a corner as wide as this, with tails as long as this."""
    told = Told(pin=PIN[m.unit])
    slope(m, told)
    run = told.run or 1 / Fraction(math.tan(math.radians(told.degrees)))
    lean = long / run
    if m.one_in(2):
        told.pin = m.size(2, 9)
        told.said["pin"] = m.say(told.pin)
    if m.one_in(3):
        told.half_tails = True
        told.said["edges"] = '"half tails"'
    elif m.one_in(3):
        told.half_pin = m.size(2, 10)
        told.said["half_pin"] = m.say(told.half_pin)
    if m.one_in(4):
        told.said["first"] = m.lot.choice(('"tails"', '"pins"'))
    least = told.pin + 2 * lean + 6
    most = int((width - 2 * told.pin) / least)
    way = m.lot.choice(("tails", "tails", "tails", "tail_width", "pins_at", "neither"))
    if way == "tails":
        told.tails = max(2 if told.half_tails else 1, min(m.lot.randint(1, 9), most))
        told.said["tails"] = told.tails
    elif way == "pins_at":
        count = max(1, min(m.lot.randint(1, 5), most - 1))
        places = [width * n / (count + 1) + m.size(-3, 3) for n in range(1, count + 1)]
        told.pins_at = [m.down(place) for place in places]
        told.said["pins_at"] = "[" + ", ".join(m.say(one) for one in told.pins_at) + "]"
    else:
        told.about = ABOUT[m.unit]
        if way == "tail_width":
            told.about = m.size(14, 60)
            told.said["tail_width"] = m.say(told.about)
    if way != "pins_at" and m.one_in(3):
        share = m.lot.choice(((7, 8), (3, 4), (9, 10)))
        told.share = Fraction(*share)
        told.said["graduated"] = f'"{share[0]}/{share[1]}"'
    return told


@dataclass
class File:
    """A piece file, what it tells of the corners, and what stands at their face edge."""

    text: str
    corners: dict[str, Told]
    groove: Fraction = ZERO  # its near wall from the face edge
    grooved: str = ""  # the corners that it runs to
    clear: Fraction = ZERO  # wood between it and the lowest tail's side
    rabbet: Fraction = ZERO  # its width
    unit: str = "in"


def chest(m: Maker) -> File:
    """A chest, with or without a bottom."""
    thick, ends = m.size(9, 25), m.size(9, 25)
    width = m.size(50, 330)
    on_ends = m.one_in(2)
    pin_board = thick if on_ends else ends
    lap = m.size(2, pin_board / 2) if m.one_in(2) else None
    told = dovetails(m, width, pin_board - (lap or 0))
    if lap is not None:
        told.said["lap"] = m.say(lap)
    rows = [
        f'piece = "Layout"\nunit = "{m.unit}"\n[[chest]]\nlength = {m.some(300, 700)}',
        f"depth = {m.some(150, 290)}\nheight = {m.say(width)}\nthickness = {m.say(thick)}",
        f"end_thickness = {m.say(ends)}",
    ]
    if on_ends:
        rows.append('tails_on = "ends"')
    rows.append(f"dovetails = {table(told.said)}")
    file = File("", dict.fromkeys("ABCD", told), unit=m.unit)
    kind = m.lot.choice(("", "groove", "rabbet"))
    bottom = m.size(4, 9)
    if kind == "rabbet" and not told.half_tails and told.half_pin is None:
        file.rabbet = bottom
        rows.append(f'bottom = {{ kind = "rabbet", thickness = {m.say(bottom)}, '
                    f"deep = {m.some(2, 4)} }}")
    elif kind == "groove":
        file.groove, file.clear, file.grooved = m.size(6, 16), m.size(0, 2), "ABCD"
        rows.append(f'bottom = {{ kind = "groove", thickness = {m.say(bottom)}, '
                    f"deep = {m.some(2, 4)}, up = {m.say(file.groove)}, "
                    f'clear = {m.say(file.clear)}, run = "through" }}')
    file.text = "\n".join(rows) + "\n"
    return file


def drawer(m: Maker) -> File:
    """A drawer whose front and back are dovetailed in two ways."""
    front, sides, back = m.size(12, 25), m.size(9, 16), m.size(9, 16)
    height, room, drop = m.size(60, 260), m.size(0, 4), m.size(0, 12)
    up, bottom, clear = m.size(5, 14), m.size(3, 9), m.size(0, 2)
    lap = m.size(2, front / 2) if m.one_in(2) else None
    own = dovetails(m, height - room, front - (front / 4 if lap is None else lap))
    if lap is not None:
        own.said["lap"] = m.say(lap)
    behind = dovetails(m, height - room - up - bottom - drop, back)
    rows = [
        f'piece = "Layout"\nunit = "{m.unit}"\n[[drawer]]',
        f"space = {{ width = {m.some(250, 500)}, height = {m.say(height)}, "
        f"depth = {m.some(250, 500)} }}",
        f"front = {m.say(front)}\nsides = {m.say(sides)}\nback = {m.say(back)}",
        f"room_high = {m.say(room)}\ndrop = {m.say(drop)}",
        f"bottom = {{ thickness = {m.say(bottom)}, up = {m.say(up)}, clear = {m.say(clear)} }}",
        f"front_dovetails = {table(own.said)}\nback_dovetails = {table(behind.said)}",
    ]
    both = {"A": own, "B": own, "C": behind, "D": behind}
    return File("\n".join(rows) + "\n", both, up, "AB", clear, unit=m.unit)


@cache
def layouts() -> tuple[tuple[File, Box], ...]:
    """As many files as there are layouts to see; each drawer has two."""
    lot = Random(SEED)
    found: list[tuple[File, Box]] = []
    seen = tried = 0
    with TemporaryDirectory() as folder:
        path = Path(folder) / "layout.toml"
        while seen < LAYOUTS:
            tried += 1
            assert tried < 2 * LAYOUTS, "most layouts are refused"
            file = lot.choice((chest, drawer))(Maker(lot))
            path.write_text(file.text, encoding="utf-8")
            try:
                piece = work_out(read_piece(path))
            except BadPiece:
                continue
            found.append((file, box_of(json.loads(json.dumps(numbers(piece, ()))))))
            seen += len({id(told) for told in file.corners.values()})
    return tuple(found)


# -- the same layout by the trade's own sums


def half_pins(told: Told, file: File, lean: Fraction, letter: str) -> tuple[Fraction, Fraction]:
    """Both half pins at the end, in mm: nearest the face edge, and at the far edge.

    Left to the program, a half pin is as wide at the baseline as a whole pin; where a groove
    would come out in it, it gives way, as long as half a pin is left of it; where a rabbet runs
    along it, it is at least as wide as that. A drawer's back stands above the groove.
    """
    if told.half_tails:
        return ZERO, ZERO
    if told.half_pin is not None:
        return told.half_pin, told.half_pin
    usual = told.pin + lean
    near = usual
    if letter in file.grooved:
        narrower = file.groove - file.clear - lean
        if told.pin / 2 <= narrower < usual:
            near = narrower
    return max(near, file.rabbet), usual


def shares(told: Told, count: int) -> list[Fraction]:
    """How wide each tail is against the widest, at the end."""
    inward = [min(n, count - 1 - n) for n in range(count)]
    found = [told.share ** (max(inward) - steps) for steps in inward]
    if told.half_tails:
        found[0] /= 2
        found[-1] /= 2
    return found


def tails_by_sum(
    told: Told, width: Fraction, lean: Fraction, halves: tuple[Fraction, Fraction], count: int
) -> list[Spread]:
    """From where to where each tail stands at the end, in mm from the face edge."""
    if told.pins_at:
        walls = [place + side for place in told.pins_at
                 for side in (-told.pin / 2, told.pin / 2)]
        walls = [halves[0], *walls, width - halves[1]]
        return list(zip(walls[::2], walls[1::2], strict=True))
    parts = shares(told, count)
    widest = (width - sum(halves) - (count - 1) * told.pin) / sum(parts)
    found, at = [], halves[0]
    for part in parts:
        found.append((at, at + part * widest))
        at += part * widest + told.pin
    return found


def count_of(told: Told, corner: Corner) -> int:
    """How many tails were told; where only their width was, what the program chose."""
    if told.pins_at:
        return len(told.pins_at) + 1
    return told.tails or len(corner.sockets)


def corners_of(file: File, box: Box) -> Iterator[tuple[Corner, Told]]:
    """Each corner with what was told of it."""
    assert len(box.corners) == 4
    for corner in box.corners:
        yield corner, file.corners[corner.name[-1]]


def lean_of(told: Told, corner: Corner) -> Fraction:
    """The tail length over the slope's run; degrees are turned into a ratio once, to 1e-12."""
    if told.run is not None:
        return corner.tail_length / told.run
    ratio = corner.tail_length / corner.offset
    assert abs(float(ratio) - 1 / math.tan(math.radians(told.degrees))) < 1e-9
    return corner.offset


def test_there_are_layouts_of_every_kind() -> None:
    kinds: Counter[str] = Counter()
    for file, box in layouts():
        for corner, told in corners_of(file, box):
            kinds[file.unit] += 1
            kinds["lapped" if corner.lapped else "through"] += 1
            kinds[f"{len(corner.sockets)} tails"] += 1
            kinds["graduated" if told.share != 1 else "equal"] += 1
            kinds["half tails" if told.half_tails else "half pins"] += 1
            kinds["places" if told.pins_at else "count" if told.tails else "width"] += 1
            kinds["degrees" if told.run is None else "ratio"] += 1
    wanted = {"in", "mm", "lapped", "through", "graduated", "equal", "half tails", "half pins",
              "places", "count", "width", "degrees", "ratio", *(f"{n} tails" for n in range(1, 10))}
    assert wanted <= {kind for kind, times in kinds.items() if times >= 4}, kinds


def test_cuts_tile_every_corner() -> None:
    """N tails and N - 1 pins and two half pins are the width, at the end and at the baseline; the
    plane figures of both boards cover the corner once."""
    for file, box in layouts():
        found = judge_dovetails.judge(box.numbers, ("tiles", "slope", "steps", "figures"), box)
        assert not found, f"{found}\n{file.text}"


def test_cuts_are_what_the_sums_of_the_trade_give() -> None:
    for file, box in layouts():
        for corner, told in corners_of(file, box):
            low, high = corner.span
            lean = lean_of(told, corner)
            halves = half_pins(told, file, lean, corner.name[-1])
            count = count_of(told, corner)
            wanted = tails_by_sum(told, high - low, lean, halves, count)
            end, base = (
                [(a - low, b - low) for role, (a, b) in row if role.startswith("tail")]
                for row in corner.rows
            )
            assert end == wanted, f"{corner}: {end}\n{wanted}\n{file.text}"
            edges = (ZERO, high - low)
            assert base == [
                (a if a in edges else a + lean, b if b in edges else b - lean) for a, b in wanted
            ], f"{corner}\n{file.text}"


def mean_tail(told: Told, corner: Corner, file: File, count: int) -> Fraction:
    """How wide so many tails would be at the end, in the mean; a half tail counts half."""
    low, high = corner.span
    lean = lean_of(told, corner)
    halves = half_pins(told, file, lean, corner.name[-1])
    tails = tails_by_sum(told, high - low, lean, halves, count)
    return sum((b - a for a, b in tails), ZERO) / (count - 1 if told.half_tails else count)


def test_a_width_that_was_asked_for_is_met_as_whole_tails_allow() -> None:
    """One tail fewer would be wider than what was told, one more narrower; where tails are
    graduated, in the mean."""
    judged = 0
    for file, box in layouts():
        for corner, told in corners_of(file, box):
            if told.tails or told.pins_at:
                continue
            count = len(corner.sockets)
            assert mean_tail(told, corner, file, count + 1) < told.about, f"{corner}\n{file.text}"
            if count > (2 if told.half_tails else 1):
                fewer = mean_tail(told, corner, file, count - 1)
                assert fewer > told.about, f"{corner}\n{file.text}"
            judged += 1
    assert judged > 40


# -- whole boxes, as solids

KINDS = ("drawer", "chest", "frame")
PARTS = {
    "drawer": {"front", "left side", "right side", "back", "bottom", "left slip", "right slip",
               "left runner", "right runner", "left kicker", "right kicker", "left guide",
               "right guide"},
    "chest": {"front", "back", "left end", "right end", "bottom", "lid"},
}


def corner_table(m: Maker, lapped: bool = True) -> dict[str, Any]:
    """A few choices about dovetails, for boards of any size."""
    said: dict[str, Any] = {}
    if m.one_in(2):
        said["slope"] = m.lot.choice(('"1:6"', '"1 in 8"', '"5/8 in 3"', '"8 deg"'))
    if m.one_in(3):
        said["pin"] = m.some(3, 7)
    if m.one_in(2):
        said[m.lot.choice(("tails", "tail_width"))] = None
    if "tails" in said:
        said["tails"] = m.lot.choice((2, 3, 4))
    if "tail_width" in said:
        said["tail_width"] = m.some(18, 45)
    if m.one_in(5):
        said["edges"] = '"half tails"'
    if m.one_in(4):
        said["graduated"] = '"7/8"'
    if lapped and m.one_in(4):
        said["lap"] = m.some(2, 6)
    return said


def drawer_bottom(m: Maker) -> dict[str, Any]:
    """A bottom of any kind."""
    said: dict[str, Any] = {"thickness": m.some(4, 10)}
    solid = m.one_in(2)
    if solid:
        said["kind"] = '"solid"'
        if m.one_in(2):
            said["thickness"], said["tongue"] = m.some(9, 12), m.some(4, 7)
        slots = m.lot.choice(("left out", "none", "some"))
        if slots == "none":
            said["slots"] = False
        elif slots == "some":
            said["slots"] = {"count": m.lot.choice((1, 2, 3)), "width": m.some(3, 6),
                             "play": m.some(2, 8)}
    if m.one_in(2):
        said["up"] = m.some(6, 14)
    if m.one_in(3):
        said["deep"] = m.some(3, 6)
    if m.one_in(3):
        said["room"] = m.some(0, 2)
    if m.one_in(3):
        said["run"] = '"stopped"'
    if m.one_in(3):
        said["slips"] = {"thickness": m.some(8, 12)} if m.one_in(2) else {}
    return said


def drawer_rows(m: Maker, where: str) -> str:
    """A drawer, in a space or in openings of a frame."""
    rows = ["[[drawer]]", where]
    style = m.lot.choice(("flush", "set in", "lipped"))
    rows.append(f'style = "{style}"')
    if style == "set in":
        rows.append(f"set_in = {m.some(1, 6)}")
    if style == "lipped" and m.one_in(2):
        rows.append(f"lip = {m.some(4, 10)}\nlip_thickness = {m.some(4, 8)}")
    rows.append(f"sides = {m.some(9, 16)}")
    if m.one_in(2):
        rows.append(f"back = {m.some(9, 16)}")
    if m.one_in(2):
        rows.append(f"drop = {m.some(0, 12)}")
    if m.one_in(3):
        rows.append(f"room_wide = {m.some(1, 3)}\nroom_high = {m.some(1, 3)}")
    rows.append(f"bottom = {table(drawer_bottom(m))}")
    rows.append(f"dovetails = {table(corner_table(m, lapped=False))}")
    if style != "lipped" and m.one_in(3):
        lap = "false" if m.one_in(3) else m.some(3, 8)
        rows.append(f"front_dovetails = {{ lap = {lap} }}")
    return "\n".join(rows) + "\n"


def random_box(kind: str, lot: Random) -> str:
    """A piece file: a drawer in a space, a chest, or a table with one or two drawers."""
    m = Maker(lot)
    head = f'piece = "Box"\nunit = "{m.unit}"\n'
    if kind == "drawer":
        where = (f"space = {{ width = {m.some(250, 600)}, height = {m.some(70, 220)}, "
                 f"depth = {m.some(250, 550)} }}")
        if m.one_in(3):
            where += f"\nrunners = {{ thickness = {m.some(15, 25)} }}"
        return head + drawer_rows(m, where)
    if kind == "chest":
        return head + chest_rows(m)
    return head + frame_rows(m)


def chest_rows(m: Maker) -> str:
    """A chest with a bottom of any kind, most with a lid."""
    rows = [f"[[chest]]\nlength = {m.some(300, 900)}\ndepth = {m.some(200, 290)}"]
    height = m.size(90, 400)
    rows.append(f"height = {m.say(height)}\nthickness = {m.some(12, 22)}")
    if m.one_in(2):
        rows.append(f"end_thickness = {m.some(12, 22)}")
    if m.one_in(3):
        rows.append('tails_on = "ends"')
    for key in ("front_boards", "end_boards"):
        if m.one_in(3):
            rows.append(f"{key} = {m.lot.choice((2, 3))}")
    kind = m.lot.choice(("groove", "groove", "rabbet", "rabbeted", "planted", "none"))
    if kind != "none":
        said: dict[str, Any] = {"kind": f'"{kind}"', "thickness": m.some(6, 12)}
        if kind == "groove":
            if m.one_in(3):
                said["run"] = '"through"'
            if m.one_in(2):
                said["up"] = m.some(8, 20)
        if kind in ("groove", "rabbet") and m.one_in(2):
            said["deep"] = m.some(3, 6)
        if kind != "planted" and m.one_in(3):
            said["room"] = m.some(0, 3)
        rows.append(f"bottom = {table(said)}")
    if not m.one_in(3):
        lid: dict[str, Any] = {
            "kind": m.lot.choice(('"flat"', '"rabbeted"')), "thickness": m.some(12, 22)
        }
        for side in ("front", "ends", "back"):
            if m.one_in(2):
                lid[f"overhang_{side}"] = m.some(0, 20)
        if m.one_in(2):
            lid["boards"] = m.lot.choice((2, 3))
        rows.append(f"lid = {table(lid)}")
    rows.append(f"dovetails = {table(corner_table(m))}")
    return "\n".join(rows) + "\n"


def frame_rows(m: Maker) -> str:
    """A table: a rail above its drawers and one below, side by side or one over the other."""
    two = m.one_in(2)
    leg = m.size(44, 60)
    rows = [
        f"[frame]\nlength = {m.some(700, 1100)}\ndepth = {m.some(400, 600)}\nheight = "
        f"{m.some(700, 760)}\nleg = {{ width = {m.say(leg)}, thickness = {m.say(leg)} }}",
        '[[frame.rail]]\nname = "apron"\nsides = ["left", "right", "back"]\ntop = "flush"',
        f"width = {m.some(230, 250)}\nthickness = {m.some(18, 24)}",
    ]
    at = ZERO
    names = ["top rail", "middle rail", "low rail"] if two else ["top rail", "low rail"]
    for name in names:
        thick = m.size(18, 25)
        top = 'top = "flush"' if name == "top rail" else f"below_top = {m.say(at)}"
        rows.append(f'[[frame.rail]]\nname = "{name}"\nsides = ["front"]\n{top}\n'
                    f"width = {m.say(thick)}\nthickness = {m.say(m.down(leg) - m.size(5, 12))}")
        at += thick + m.size(70, 85)
    openings = [f'"front under {name}"' for name in names[:-1]]
    where = f"openings = [{', '.join(openings)}]"
    if m.one_in(2):
        guides = {"guides": {"height": m.some(10, 20), "width": m.some(10, 20)}}
        where += f"\nrunners = {table(guides if m.one_in(2) else {'width': m.some(25, 45)})}"
        where = where.replace(" }\n", " }\n")
        if m.one_in(2):
            where = where[:-2] + ", kickers = true }"
    return "\n".join(rows) + "\n" + drawer_rows(m, where)


def sound(kind: str) -> list[tuple[str, Numbers]]:
    """Boxes of a kind that the program does not stop, as many as are judged."""
    lot = Random(f"{kind} {SEED}")
    found: list[tuple[str, Numbers]] = []
    refused: Counter[str] = Counter()
    with TemporaryDirectory() as folder:
        path = Path(folder) / "box.toml"
        while len(found) < BOXES // len(KINDS):
            text = random_box(kind, lot)
            path.write_text(text, encoding="utf-8")
            try:
                n = numbers_of(path)
            except BadPiece as told:
                refused[str(told).partition(": ")[2]] += 1
            else:
                stops = [one["rule"] for one in n["checks"] if one["level"] == "stop"]
                refused.update(stops)
                if not stops:
                    found.append((text, n))
            assert refused.total() < 2 * BOXES, f"most are refused: {refused}"
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_a_box_that_is_not_stopped_is_sound(kind: str) -> None:
    for text, n in sound(kind):
        hold(n)
        box = box_of(n)
        found = judge_dovetails.judge(n, (), box)
        found += names(kind, n)
        if kind == "frame":
            found += judge_joints.judge(n, ("wood", "shoulder"), box.parts)
            found += judge_marks.judge(box.parts, n["marks"])
        assert not found, "\n".join(found) + f"\n{text}"


SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_the_samples_are_sound(path: Path) -> None:
    """Every box among the samples; a file that has one has corners to judge."""
    n = numbers_of(path)
    assert judge_dovetails.judge(n) == []
    text = path.read_text(encoding="utf-8")
    assert bool(box_of(n).corners) == any(
        f"[[{box}]]" in text for box in ("drawer", "chest", "carcase")
    )


# Files at which the judge objected once: each must now be sound, or stopped.
FOUND = {
    "half tails at a back that is lower than the sides": """
[[drawer]]
space = { width = 14, height = 5, depth = 18 }
dovetails = { edges = "half tails", tails = 3 }
""",
    "a groove that shows at all four ends of a chest, told of one board": """
[[chest]]
length = 40
depth = 6
height = 4
thickness = "7/8"
bottom = { kind = "groove", thickness = "3/4", up = "1/2", run = "through" }
""",
    "a drawer's bottom too narrow for its grooves": """
[[drawer]]
space = { width = 14, height = 5, depth = 12 }
bottom = { kind = "solid", thickness = "1/4", deep = "1/8", room = "1/4" }
""",
    "a drawer's bottom that can slip out of a slip": """
[[drawer]]
space = { width = 14, height = 5, depth = 12 }
bottom = { kind = "solid", thickness = "1/4", slips = {}, room = "1/4" }
""",
    "a chest's bottom too narrow for its grooves": """
[[chest]]
length = 20
depth = 12
height = 8
thickness = "3/4"
bottom = { kind = "groove", thickness = "1/2", deep = "1/8", room = "3/8" }
""",
}


@pytest.mark.parametrize("what", FOUND)
def test_what_was_found_once(tmp_path: Path, what: str) -> None:
    path = tmp_path / "box.toml"
    path.write_text(f'piece = "Box"\nunit = "in"\n{FOUND[what]}', encoding="utf-8")
    try:
        n = numbers_of(path)
    except BadPiece:
        return
    if not any(one["level"] == "stop" for one in n["checks"]):
        assert judge_dovetails.judge(n) == []


def names(kind: str, n: Numbers) -> Iterator[str]:
    """Every part of a box is called by one of the names of the trade."""
    usual = PARTS["chest" if kind == "chest" else "drawer"]
    for part in n["parts"]:
        first, _, rest = part["name"].partition(" ")
        if first == "drawer" and rest[:1].isdigit():
            rest = rest.partition(" ")[2]
        if first in ("drawer", "chest") and rest not in usual:
            yield f"a part is called {part['name']}"


# -- the judge itself: what is wrong must be seen

CHEST = """piece = "Chest"
unit = "in"
[[chest]]
length = 20
depth = 12
height = 6
thickness = "3/4"
front_boards = 2
dovetails = { tails = 3, lap = "1/4" }
bottom = { kind = "rabbet", thickness = "3/8" }
lid = { kind = "rabbeted", thickness = "3/4" }
"""
DRAWER = """piece = "Drawer"
unit = "in"
[[drawer]]
space = { width = 14, height = 5, depth = 18 }
style = "lipped"
bottom = { kind = "solid", thickness = "3/8", tongue = "1/4", run = "stopped" }
"""
RUNNING = DRAWER.replace('style = "lipped"', "runners = { thickness = 1, kickers = true }")
HAIR = Fraction(1, 64)


def _some(rows: list[dict[str, Any]], **what: str) -> dict[str, Any]:
    """The first row that says so."""
    return next(row for row in rows if all(row[key] == value for key, value in what.items()))


def _points(cut: dict[str, Any], axis: int, by: Fraction, least: bool) -> None:
    """Moves the points of a hull that lie least or furthest along an axis."""
    values = [Fraction(point[axis]) for point in cut["hull"]]
    at = min(values) if least else max(values)
    for point in cut["hull"]:
        if Fraction(point[axis]) == at:
            point[axis] = str(at + by)


def _move(rows: list[dict[str, Any]], key: str, by: Fraction, **what: str) -> None:
    row = _some(rows, **what)
    row[key] = str(Fraction(row[key]) + by)


def _move_part(n: Numbers, part: str, axis: int, by: Fraction | int) -> None:
    origin = _some(n["parts"], id=part)["origin"]
    origin[axis] = str(Fraction(origin[axis]) + by)


def _drop(rows: list[dict[str, Any]], **what: str) -> None:
    rows.remove(_some(rows, **what))


Spoil = Callable[[Numbers], None]

# What is done to the numbers of a box, and the subject that must object.
SPOILT: tuple[tuple[str, str, str, Spoil], ...] = (
    ("a socket leans otherwise", CHEST, "tiles",
     lambda n: _points(_some(n["cuts"], role="socket 2"), 1, HAIR, True)),
    ("a socket is too deep", CHEST, "tiles",
     lambda n: _points(_some(n["cuts"], role="socket 2"), 2, HAIR, False)),
    ("a pin's waste is missing", CHEST, "figures",
     lambda n: _drop(n["cuts"], role="waste of pin 1")),
    ("a pin's waste goes past the baseline", DRAWER, "corner",
     lambda n: _points(_some(n["cuts"], role="waste of pin 1"), 0, HAIR, False)),
    ("a socket is missing", DRAWER, "overlap",
     lambda n: _drop(n["cuts"], role="socket 2")),
    ("the baseline doesn't step at the rabbet", CHEST, "steps",
     lambda n: _drop(n["cuts"], role="waste of half pin 1 at the rabbet")),
    ("a pin has another number", CHEST, "tiles",
     lambda n: _some(n["cuts"], role="waste of pin 1").update(role="waste of pin 7")),
    ("a cut has a new name", DRAWER, "cuts",
     lambda n: _some(n["cuts"], role="bottom groove").update(role="bottom housing")),
    ("a groove is too wide", DRAWER, "bottom",
     lambda n: _points(_some(n["cuts"], role="bottom groove"), 1, HAIR, False)),
    ("a rabbet misses its edge", CHEST, "cuts",
     lambda n: _points(_some(n["cuts"], role="edge rabbet"), 1, HAIR, True)),
    ("a board stands elsewhere", DRAWER, "overlap",
     lambda n: _move_part(n, "drawer-left-side", 0, HAIR)),
    ("a lid lies too high", CHEST, "seat",
     lambda n: _move_part(n, "chest-lid", 2, 4)),
    ("a runner lies too low", RUNNING, "runner",
     lambda n: _move_part(n, "drawer-left-runner", 2, -HAIR)),
    ("a bottom can fall out", DRAWER, "held",
     lambda n: _move(n["parts"], "length", Fraction(-12), id="drawer-bottom")),
    ("a side has the other hand", DRAWER, "hands",
     lambda n: _some(n["parts"], id="drawer-left-side").update(hand="right")),
    ("a board is cut too short", CHEST, "cut list",
     lambda n: _move(n["cut_list"], "length", HAIR, name="chest end")),
    ("a line is missing", DRAWER, "marks", lambda n: _drop(n["marks"], role="lap")),
    ("a line says another distance", DRAWER, "marks",
     lambda n: _move(n["marks"], "distance", HAIR, role="near side of tail 2", tool="bevel")),
    ("a line lies elsewhere", CHEST, "marks",
     lambda n: _some(n["marks"], role="far side of tail 2", tool="knife").update(
         line=[["0", "0"], ["1", "0"]])),
    ("a line is struck with another tool", CHEST, "marks",
     lambda n: _some(n["marks"], role="pin baseline").update(tool="knife")),
    ("a line has a new name", CHEST, "marks",
     lambda n: _some(n["marks"], role="baseline at the rabbet").update(role="step")),
    ("a glue line is on one side only", CHEST, "marks",
     lambda n: _drop(n["marks"], role="glue line", face="back")),
    ("a slot's middle is off", DRAWER, "marks",
     lambda n: _points(_some(n["cuts"], role="screw slot 1"), 0, HAIR, True)),
    ("a gauge stands elsewhere", DRAWER, "settings",
     lambda n: _move(n["settings"], "distance", HAIR, tool="marking gauge")),
    ("a gauge strikes a line less", CHEST, "settings",
     lambda n: n["settings"][0]["strikes"].pop() and None),
    ("a sum is off", DRAWER, "sums", lambda n: _move(n["sums"], "total", HAIR)),
    ("a tail in a sum is off", CHEST, "sums",
     lambda n: _some(n["sums"], name="tails and pins at the end (chest left end)").update(
         terms=[], total="0")),
)


@pytest.mark.parametrize(("what", "text", "subject", "spoil"), SPOILT)
def test_the_judge_sees(
    tmp_path: Path, what: str, text: str, subject: str, spoil: Spoil
) -> None:
    path = tmp_path / "box.toml"
    path.write_text(text, encoding="utf-8")
    n = numbers_of(path)
    assert judge_dovetails.judge(n) == []
    spoil(n)
    assert judge_dovetails.judge(n, (subject,)), what
