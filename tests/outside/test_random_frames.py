"""Frames that nobody has drawn, written as a maker would write them.

Sound ones: whatever the program does not stop, the judges of solids, marks and shapes find
nothing against, every sum adds up, and the JSON keeps its contract. Unsound ones: the program
stops, and says why and where.
"""

from __future__ import annotations

import json
import math
import subprocess
import sys
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from layout.cli.app import run
from layout.errors import BadPiece
from tests.contract import hold
from tests.outside import judge_boards, judge_joints, judge_marks, judge_shapes
from tests.outside.outsider import DRAWS, Numbers, numbers_of

INCH = Fraction(127, 5)  # mm, exact since 1959
PAIRS = (("front", "back"), ("left", "right"))

few = settings(
    deadline=None,
    derandomize=True,
    # A frame takes long to judge: no hunt for the smallest failing one, any one will do.
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[
        HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.function_scoped_fixture
    ],
)
by_chance = st.randoms(use_true_random=True)


class Maker:
    """A maker who draws sizes by lot, on the grid of their rule, and writes them down."""

    def __init__(self, lot: Random) -> None:
        self.lot = lot
        self.unit = lot.choice(("in", "mm"))
        self.step = Fraction(1, 2) if self.unit == "mm" else INCH / 32

    def size(self, least: Fraction | float, most: Fraction | float) -> Fraction:
        """A size between two numbers of mm."""
        low = math.ceil(Fraction(least) / self.step)
        return self.lot.randint(low, max(low, math.floor(Fraction(most) / self.step))) * self.step

    def down(self, mm: Fraction) -> Fraction:
        """The next size on the grid that is not more."""
        return math.floor(mm / self.step) * self.step

    def say(self, mm: Fraction) -> str:
        """A size as it stands in the file."""
        value = mm if self.unit == "mm" else mm / INCH
        whole, rest = divmod(value, 1)
        return f'"{whole} {rest}"' if rest and whole else f'"{value}"'

    def some(self, least: Fraction | float, most: Fraction | float) -> str:
        """A size between two numbers of mm, as it stands in the file."""
        return self.say(self.size(least, most))

    def one_in(self, times: int) -> bool:
        """Once in so many times."""
        return self.lot.randrange(times) == 0


def table(values: dict[str, Any]) -> str:
    """A TOML inline table."""
    said = []
    for key, value in values.items():
        if isinstance(value, dict):
            value = table(value)
        elif isinstance(value, bool):
            value = str(value).lower()
        said.append(f"{key} = {value}")
    return "{ " + ", ".join(said) + " }"


# -- frames that are mostly sound


def tenon(m: Maker, leg: Fraction, width: Fraction, thick: Fraction, alone: bool) -> dict[str, Any]:
    """A tenon's table; `alone` where nothing else comes into the bearer at its height."""
    found: dict[str, Any] = {}
    twin = thick >= 40 and m.one_in(3)
    pair = width >= 90 and m.one_in(2)
    if twin:
        found["twin"] = {"gap": m.some(8, thick / 5)} if m.one_in(2) else {}
    elif m.one_in(2):
        found["thickness"] = m.some(6, thick / 2)
    place = "" if twin else m.lot.choice(("", "", "outer", "inner", "bare"))
    if place in ("outer", "inner"):
        found[f"{place}_shoulder"] = m.some(1, thick / 3)
    elif place == "bare":
        found["barefaced"] = m.lot.choice(('"face"', '"back"'))
    long = leg / 3
    side = False
    if alone and m.one_in(2):
        side = through(m, found, leg, pair, twin)
    elif m.one_in(2):
        long = m.size(15, leg * 6 / 10)
        found["length"] = m.say(long)
    elif m.one_in(3):
        found["stub"] = True
    if not found.get("through") and m.one_in(2):
        found["glue_room"] = m.some(0, 4)
    edge = m.lot.choice(("top", "bottom"))
    haunched = width > 55 and not side and m.one_in(2)
    if haunched:
        haunch: dict[str, Any] = {
            "kind": m.lot.choice(('"square"', '"sloped"')), "edge": f'"{edge}"'
        }
        if m.one_in(3):
            haunch["length"] = m.some(3, long / 2)
        if m.one_in(3):
            haunch["width"] = m.some(8, width / 4)
        if m.one_in(3):
            haunch["room"] = m.some(0, 3)
        found["haunch"] = haunch
    if pair:
        found["pair"] = {}
        if m.one_in(3):
            found["pair"]["web"] = m.some(10, width / 4)
        if m.one_in(2):
            found["pair"]["haunch"] = m.some(3, min(long / 2, 10))
            found["pair"]["room"] = m.some(0, 3)
    for key in ("top", "bottom"):
        if m.one_in(3) and not (haunched and edge == key) and not side:
            found[f"{key}_shoulder"] = m.some(0, width / 6)
    if m.one_in(3):
        pegs: dict[str, Any] = {}
        if m.one_in(2):
            pegs["count"] = m.lot.choice((1, 1, 2))
        if m.one_in(2):
            pegs["diameter"] = m.some(4, 8)
        if m.one_in(2):
            pegs["draw"] = m.some(0, 1.5)
        if m.one_in(3):
            pegs["past"] = m.some(0, 6)
        found["pegs"] = pegs
    return found


def through(m: Maker, found: dict[str, Any], leg: Fraction, pair: bool, twin: bool) -> bool:
    """Makes a tenon a through one of some kind; True where a wedge stands beside it."""
    found["through"] = True
    kind = m.lot.choice(("flush", "proud", "wedges", "wedges", "side", "key"))
    if kind == "proud" or (kind == "wedges" and m.one_in(3)):
        found["projection"] = m.some(1, 10)
    if kind == "wedges":
        wedges: dict[str, Any] = {"count": m.lot.choice((1, 2))}
        if m.one_in(2):
            wedges["thickness"] = m.some(2, 6)
        if m.one_in(3):
            wedges["saw_cut"] = m.some(0.5, 2)
        if m.one_in(3):
            wedges["length"] = m.some(leg / 2, leg * 9 / 10)
        found["wedges"] = wedges
    elif kind == "side" and not (pair or twin):
        inner = m.size(3, 6)
        found["side_wedge"] = {
            "outer": m.say(inner + m.size(0, 6)), "inner": m.say(inner),
            "splay": m.some(0, min(inner, 5)), "edge": m.lot.choice(('"top"', '"bottom"')),
        }
    elif kind == "key" and not (pair and twin):
        # driven so that two keys stand side by side, not in each other's way
        ways = ['"thickness"'] if pair else ['"width"'] if twin else ['"thickness"', '"width"']
        key: dict[str, Any] = {"through": m.lot.choice(ways)}
        if m.one_in(2):
            key["wide"] = m.some(20, 30)
        if m.one_in(3):
            key["taper"] = m.lot.choice(('"1 in 8"', '"1:10"', '"1 in 12"'))
        if m.one_in(3):
            key["pull"] = m.some(0, 4)
        if m.one_in(3):
            key["proud"] = m.some(3, 30)
        found["key"] = key
    return "side_wedge" in found


def frame(lot: Random) -> str:
    """A frame of one to three levels of rails, with parts between them."""
    m = Maker(lot)
    leg = {"width": m.size(48, 95), "thickness": m.size(48, 95)}
    height = m.size(600, 1000)
    rows = [
        f'piece = "Frame"\nunit = "{m.unit}"\n[frame]\nlength = {m.some(700, 1400)}',
        f"depth = {m.some(450, 900)}\nheight = {m.say(height)}",
        f"leg = {table({key: m.say(value) for key, value in leg.items()})}",
    ]
    levels = lot.choice((1, 2, 2, 3))
    rails: list[tuple[str, tuple[str, ...], Fraction, Fraction]] = []
    for level in range(levels):
        rows += rails_of(m, leg, rails, level, m.down(height / levels))
    rows += cross_rails(m, rails)
    if m.one_in(4):
        name, sides, width, thick = lot.choice(rails)
        rows.append(
            '[as_milled]\nheld = "overall"\n[[as_milled.part]]\nname = "front left leg"\n'
            f"width = {m.say(leg['width'] - m.size(0, 2))}\n"
            f"thickness = {m.say(leg['thickness'] - m.size(0, 2))}\n"
            f'[[as_milled.part]]\nname = "{sides[0]} {name}"\n'
            f"width = {m.say(width - m.size(0, 2))}\nthickness = {m.say(thick - m.size(0, 2))}"
        )
    return "\n".join(rows) + "\n"


def rails_of(
    m: Maker, leg: dict[str, Fraction], rails: list[Any], level: int, band: Fraction
) -> Iterator[str]:
    """The rails of one level of a frame: on two sides, or on all four."""
    all_round = m.one_in(2)
    groups = PAIRS if all_round else (m.lot.choice(PAIRS),)
    meeting = m.lot.choice(("clear", "mitred", "passing", "apart")) if all_round else ""
    notched = m.lot.randrange(2)
    drop = m.size(0, band / 5)
    for i, sides in enumerate(groups):
        deep, across = (
            (leg["width"], leg["thickness"]) if sides[0] == "front"
            else (leg["thickness"], leg["width"])
        )
        width = m.size(45, 70 if meeting == "apart" else min(band * 2 / 5, 150))
        thick = m.size(20, across * 6 / 10)
        set_in = m.size(0, 8) if m.one_in(2) else Fraction(0)
        down = level * band + drop
        if meeting == "apart" and i == 1:
            down += 70 + m.size(10, 20)
        own = tenon(m, deep, width, thick, alone=not all_round or meeting == "apart")
        if meeting not in ("", "apart"):
            own["meeting"] = f'"{meeting}"'
        if meeting == "mitred":
            own.pop("twin", None)
            own.pop("length", None)
            own["mitre_gap"] = m.some(0, 4)
        if meeting == "passing" and i == notched:
            own["notched"] = True
        name = f"{'long' if sides[0] == 'front' else 'end'} rail {level}"
        rails.append((name, sides, width, thick))
        listed = ", ".join(f'"{side}"' for side in sides)
        yield (
            f'[[frame.rail]]\nname = "{name}"\nsides = [{listed}]\n'
            f"below_top = {m.say(m.down(down))}\nwidth = {m.say(width)}\n"
            f"thickness = {m.say(thick)}\nset_in = {m.say(set_in)}\ntenon = {table(own)}"
        )


def cross_rails(m: Maker, rails: list[Any]) -> Iterator[str]:
    """A stretcher between two opposite rails, or a muntin between two of one side."""
    found = []
    if m.one_in(3):
        name, sides, width, thick = m.lot.choice(rails)
        found.append(("stretcher", [f"{side} {name}" for side in sides], width * 3 / 4, 30, thick))
    for name, sides, width, thick in rails:
        below = [one for one in rails if one[0] > name and one[1] == sides]
        if below and m.one_in(3):
            other = below[0]
            found.append(("muntin", [f"{sides[0]} {name}", f"{sides[0]} {other[0]}"], 90,
                          min(thick, other[3]) - 8, min(width, other[2])))
            break
    for name, between, width, thick, deep in found:
        wide, stout = m.size(25, width), m.size(12, thick)
        own = tenon(m, deep, wide, stout, alone=True)
        if not own.get("through"):
            own["length"] = m.some(6, deep * 6 / 10)
        flat = 'lies = "flat"\n' if name == "stretcher" and m.one_in(3) else ""
        yield (
            f'[[frame.cross]]\nname = "{name}"\nbetween = ["{between[0]}", "{between[1]}"]\n{flat}'
            f"width = {m.say(wide)}\nthickness = {m.say(stout)}\ntenon = {table(own)}"
        )


def panelled(lot: Random) -> str:
    """A front with a panel: in grooves that haunches fill, or with a moulding before a rabbet."""
    m = Maker(lot)
    leg = m.size(40, 60)
    thick = m.size(22, 30)
    lip = m.size(6, 10)
    panel = m.size(6, 9)
    rows = [
        f'piece = "Panelled frame"\nunit = "{m.unit}"\n[frame]\nlength = {m.some(500, 900)}\n'
        f"depth = {m.some(300, 500)}\nheight = {m.some(500, 900)}\n"
        f"leg = {{ width = {m.say(leg)}, thickness = {m.say(leg)} }}"
    ]
    moulded = m.one_in(2)
    long = m.size(20, leg * 6 / 10)
    for name, place in (("top rail", 'top = "flush"'), ("foot rail", f"above_floor = "
                                                        f"{m.some(0, 60)}")):
        own: dict[str, Any] = {"length": m.say(long)}
        if moulded:
            wide, deep = m.size(4, 8), m.size(4, 8)
            edge = '["bottom"]' if name == "top rail" else '["top"]'
            own |= {"thickness": m.some(6, 8), "outer_shoulder": m.say(m.down(deep + 2)),
                    "mould": {"width": m.say(wide), "depth": m.say(deep), "edges": edge}}
        else:
            end = '"top"' if name == "top rail" else '"bottom"'
            own["haunch"] = {"kind": '"groove"', "edge": end}
        rows.append(
            f'[[frame.rail]]\nname = "{name}"\nsides = ["front"]\n{place}\n'
            f"width = {m.some(60, 90)}\nthickness = {m.say(thick)}\ntenon = {table(own)}"
        )
    rows.append(
        f'[[panel]]\nname = "panel"\nopenings = ["front under top rail"]\n'
        f"thickness = {m.say(panel)}\nlip = {m.say(lip)}\nrun_in_legs = \"through\"\n"
        f'seat = "{"rabbet" if moulded else "groove"}"'
    )
    return "\n".join(rows) + "\n"


FEATURES = (
    "twin", "pair", "barefaced", "stub", 'kind = "square"', 'kind = "sloped"', 'kind = "groove"',
    "wedges", "side_wedge", "key", "pegs", "mould", 'meeting = "mitred"', 'meeting = "passing"',
    "stretcher", "muntin", "as_milled", 'unit = "in"', 'unit = "mm"',
)


def stops(found: Numbers) -> list[dict[str, Any]]:
    return [one for one in found["checks"] if one["level"] == "stop"]


def worked(path: Path, text: str) -> Numbers:
    """A text's numbers, through a file as a maker would."""
    path.write_text(text, encoding="utf-8")
    return numbers_of(path)


def added_up(found: Numbers) -> Iterator[str]:
    """Every sum whose terms don't make its total."""
    for one in found["sums"]:
        total = sum(
            (Fraction(term["value"]) * (1 if term["sign"] == "+" else -1) for term in one["terms"]),
            Fraction(0),
        )
        if total != Fraction(one["total"]):
            yield f"{one['name']} of {one['part']}: {total}, not {one['total']}"


def lengths_of(value: Any, key: str = "") -> Iterator[str]:
    """Every length of the numbers: what stands where the contract has an exact Fraction."""
    if isinstance(value, dict):
        for name, one in value.items():
            yield from lengths_of(one, name)
    elif isinstance(value, list):
        for one in value:
            yield from lengths_of(one, key)
    elif isinstance(value, str) and key in {
        "length", "width", "thickness", "origin", "hull", "centre", "radius", "from", "to",
        "distance", "second", "line", "point", "diameter", "value", "total",
    } and value not in {"face side", "face edge", "end A", "end B", "face side and face edge"}:
        yield value


def test_random_frames_are_sound_or_stopped(tmp_path: Path) -> None:
    seen: set[str] = set()
    judged = []
    path = tmp_path / "piece.toml"

    @settings(few, max_examples=30 * DRAWS)
    @given(lot=by_chance)
    def judge(lot: Random) -> None:
        text = panelled(lot) if lot.randrange(6) == 0 else frame(lot)
        found = worked(path, text)
        hold(found)
        assert json.loads(json.dumps(found)) == found
        lengths = list(lengths_of(found))
        assert len(lengths) > 100
        assert [one for one in lengths if str(Fraction(one)) != one] == []
        assert list(added_up(found)) == []
        parts = judge_boards.boards(found)
        ids = {board.name: board.id for board in parts.values()}
        overlapping = {
            frozenset(ids[name] for name in pair) for pair in judge_boards.overlapping(parts)
        }
        told = {
            frozenset(one["parts"]) for one in stops(found)
            if one["rule"] == "no two parts in one place"
        }
        assert told == overlapping, text
        if stops(found):
            return
        subjects = set(judge_joints.SUBJECTS) - {"overlap"}  # told above
        assert judge_joints.judge(found, subjects, parts) == [], text
        assert list(judge_marks.judge(parts, found["marks"])) == [], text
        assert judge_shapes.judge(found, text, parts) == [], text
        judged.append(text)
        seen.update(one for one in FEATURES if one in text)

    judge()
    assert set(FEATURES) - seen == set()
    assert len(judged) >= 20


# -- frames that can't be made, each for one reason


def unsound(m: Maker, long: dict[str, Any], end: dict[str, Any], leg: Fraction,
            end_set_in: Fraction | None = None, length: Fraction | None = None) -> str:
    """Long rails and end rails at one height, in square legs."""
    rows = [
        f'piece = "Unsound"\nunit = "{m.unit}"\n[frame]\n'
        f"length = {m.say(length) if length else m.some(700, 1200)}\n"
        f"depth = {m.some(400, 700)}\nheight = {m.some(600, 900)}\n"
        f"leg = {{ width = {m.say(leg)}, thickness = {m.say(leg)} }}"
    ]
    for name, sides, own, set_in in (
        ("long rail", '"front", "back"', long, Fraction(0)),
        ("end rail", '"left", "right"', end, end_set_in or Fraction(0)),
    ):
        rows.append(
            f'[[frame.rail]]\nname = "{name}"\nsides = [{sides}]\n'
            f"below_top = {m.say(20 * m.step)}\nwidth = {m.say(WIDTH[m.unit])}\n"
            f"thickness = {m.say(THICK[m.unit])}\nset_in = {m.say(set_in)}\n"
            f"tenon = {table(own)}"
        )
    return "\n".join(rows) + "\n"


WIDTH = {"mm": Fraction(90), "in": INCH * Fraction(7, 2)}
THICK = {"mm": Fraction(24), "in": INCH}
LONG = {"front-long-rail", "back-long-rail"}
LEGS = {"front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg"}
Cause = tuple[str, str, set[str]]
"""The rule that finds it (none where the file is refused), words of what it says, and the parts
that are named: all of them, each by one finding or more."""


def too_thick(m: Maker) -> tuple[str, Cause]:
    own = {"thickness": m.say(THICK[m.unit] + m.size(1, 10)), "length": m.some(15, 25)}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "wood for the tenon", "comes out of the rail", LONG
    )


def shoulders_too_wide(m: Maker) -> tuple[str, Cause]:
    top = m.size(20, 60)
    own = {"top_shoulder": m.say(top),
           "bottom_shoulder": m.say(WIDTH[m.unit] - top + m.size(0, 10))}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "", "the shoulders of the front long rail leave no tenon", set()
    )


def nothing_between(m: Maker) -> tuple[str, Cause]:
    leg = m.size(60, 80)
    text = unsound(m, {"length": m.some(15, 20)}, {"length": m.some(15, 20)}, leg,
                   length=2 * leg - m.size(0, 20))
    return text, ("", "the legs leave nothing between them on the front", set())


def too_long_at_one_height(m: Maker) -> tuple[str, Cause]:
    leg = m.size(50, 60)
    # outer shoulder 6, tenon 8 thick: from the leg's face 14; 14 + 40 reach past a leg's 50
    own = {"length": m.say(leg - m.size(4, 10)), "thickness": m.say(m.size(8, 9)),
           "outer_shoulder": m.say(m.size(6, 8)), "glue_room": '"0"'}
    return unsound(m, own, own, leg), (
        "mortises clear of each other", "into each other", LEGS
    )


def peg_into_the_neighbour(m: Maker) -> tuple[str, Cause]:
    # the end rail's mortise stands 30 to 38 mm behind the leg's face and 22 mm or more deep in
    # it; the long rail's peg stands in that column and is bored past it
    leg = m.size(60, 60)
    set_in = m.size(22, 22)
    shape = {"thickness": m.some(8, 8), "outer_shoulder": m.some(8, 8)}
    pegs = {"count": 1, "diameter": m.some(6, 6), "from_shoulder": m.some(25, 27),
            "draw": '"0"', "past": m.some(28, 34)}
    long = shape | {"length": m.some(38, 40), "pegs": pegs}
    end = shape | {"length": m.some(20, 22), "glue_room": m.some(1, 2)}
    return unsound(m, long, end, leg, end_set_in=set_in), (
        "holes clear of other joints", "peg hole of the front long rail", LEGS
    )


def haunch_as_long(m: Maker) -> tuple[str, Cause]:
    length = m.size(15, 25)
    own = {"length": m.say(length),
           "haunch": {"kind": m.lot.choice(('"square"', '"sloped"')),
                      "length": m.say(length + m.size(0, 5))}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "haunch", "the haunch of the front long rail", LONG
    )


def web_haunch_as_long(m: Maker) -> tuple[str, Cause]:
    length = m.size(15, 25)
    own = {"length": m.say(length), "pair": {"haunch": m.say(length + m.size(0, 5))}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "haunch", "front long rail", LONG
    )


def saw_cuts_together(m: Maker) -> tuple[str, Cause]:
    own = {"through": True, "top_shoulder": m.some(30, 35), "bottom_shoulder": m.some(30, 35),
           "wedges": {"count": 2, "from_edge": m.some(16, 18)}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "wedges", "the two saw cuts in the tenon of the front long rail", LONG
    )


def no_wood_beyond(m: Maker) -> tuple[str, Cause]:
    wide = m.size(20, 25)
    own = {"through": True, "projection": m.say(wide - m.size(0, 5)),
           "key": {"wide": m.say(wide)}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "key", "the tenon of the front long rail stands", LONG
    )


def keys_in_one_place(m: Maker) -> tuple[str, Cause]:
    """Two tenons one above the other, with keys from above; or side by side, from the face."""
    own: dict[str, Any] = {"through": True}
    if m.one_in(2):
        own |= {"pair": {}, "key": {"through": '"width"'}}
    else:
        own |= {"twin": {}, "thickness": m.some(4, 5), "key": {"through": '"thickness"'}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "", "two keys driven that way would run into each other", set()
    )


def notch_cuts_off(m: Maker) -> tuple[str, Cause]:
    own = {"top_shoulder": m.some(10, 20), "bottom_shoulder": m.some(10, 20),
           "meeting": '"passing"', "notched": True}
    end = {"top_shoulder": m.some(0, 8), "bottom_shoulder": m.some(0, 8),
           "meeting": '"passing"'}
    return unsound(m, own, end, m.size(60, 80)), (
        "notch", "leaves nothing of the front long rail's tenon", LONG
    )


def splay_too_wide(m: Maker) -> tuple[str, Cause]:
    inner = m.size(3, 5)
    own = {"through": True, "bottom_shoulder": m.some(15, 20),
           "side_wedge": {"outer": m.say(inner + m.size(1, 4)), "inner": m.say(inner),
                          "splay": m.say(inner + m.size(1, 6))}}
    return unsound(m, own, {"length": m.some(15, 20)}, m.size(60, 80)), (
        "wedges", "the tenon of the front long rail can't go in", LONG
    )


UNSOUND: dict[str, Callable[[Maker], tuple[str, Cause]]] = {
    one.__name__: one
    for one in (
        too_thick, shoulders_too_wide, nothing_between, too_long_at_one_height,
        peg_into_the_neighbour, haunch_as_long, web_haunch_as_long, saw_cuts_together,
        no_wood_beyond, keys_in_one_place, notch_cuts_off, splay_too_wide,
    )
}


@pytest.mark.parametrize("kind", UNSOUND)
def test_an_unsound_frame_is_stopped_for_its_true_cause(tmp_path: Path, kind: str) -> None:
    path = tmp_path / "piece.toml"

    @settings(few, max_examples=5)
    @given(lot=by_chance)
    def stopped(lot: Random) -> None:
        text, (rule, words, parts) = UNSOUND[kind](Maker(lot))
        if not rule:
            with pytest.raises(BadPiece) as refused:
                worked(path, text)
            assert words in str(refused.value)
            return
        found = [one for one in stops(worked(path, text)) if one["rule"] == rule]
        assert parts <= {part for one in found for part in one["parts"]}, text
        assert any(words in one["text"] for one in found), text

    stopped()


@pytest.mark.parametrize("kind", UNSOUND)
def test_the_command_stops_on_an_unsound_frame(
    tmp_path: Path, kind: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit 1 where a check says stop, 2 with one message where the file is refused."""
    text, (rule, words, _) = UNSOUND[kind](Maker(Random(1)))
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    # in this process; in one of its own below
    monkeypatch.setattr(sys, "argv", ["shoulderline", "check", str(path)])
    code = run()
    out, err = capsys.readouterr()
    told = " ".join((out + err).split())
    assert code == (1 if rule else 2), told
    assert words in told
    if not rule:
        assert len(err.strip().splitlines()) == 1


@pytest.mark.parametrize(("kind", "code"), [("too_thick", 1), ("nothing_between", 2)])
def test_a_shell_is_told_too(tmp_path: Path, kind: str, code: int) -> None:
    """A process of its own ends with the same exit codes."""
    text, (_, words, _) = UNSOUND[kind](Maker(Random(1)))
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "layout", "check", str(path)],
        capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2],
    )
    told = " ".join((done.stdout + done.stderr).split())
    assert done.returncode == code, told
    assert words in told
    if code == 2:
        assert len(done.stderr.strip().splitlines()) == 1
