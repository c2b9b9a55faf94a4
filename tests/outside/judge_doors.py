"""A judge of doors: frame, panels, hinges, weight and movement, as the maker's own text has them.

Reads the piece file a second time, with the defaults that README publishes, works every size out
anew, and holds the public numbers (format 1) against them. Nothing of the program is read. Woods'
figures are those of tests/outside/reference: Wood Handbook, FPL-GTR-190, 2010, Table 13-5 and
Table 5-3, and DIN 68100 for European woods; moisture of air by the Handbook's equation 4-5.

`judge(numbers, text)` gives a list of objections, empty where every door is sound. Lengths are
exact; only volumes, for weights, are the modeller's floats.
"""

from __future__ import annotations

import csv
import re
import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache, cached_property
from math import isqrt
from pathlib import Path
from typing import Any

from tests.outside import judge_marks
from tests.outside.judge_boards import Board, Cut, boards
from tests.outside.judge_shapes import door_names
from tests.outside.solids import length_in

REFERENCE = Path(__file__).parent / "reference"
ZERO = Fraction(0)
POUND = Fraction(45359237, 100_000_000)  # kg, exact since 1959

# As README has them: in an inch piece, in a metric piece.
USUAL = {
    "gap": ("1/16", "1.5"), "over": ("3/8", "10"), "lip": ("3/8", "10"), "room": ("1/16", "1.5"),
    "tongue": ("1/4", "6"), "wood_behind": ("0", "0"), "border": ("1 1/2", "38"),
    "step": ("1/16", "1.5"), "cover": ("1/8", "3"), "play": ("1/16", "1.5"),
    "glass": ("1/8", "3"), "glass lip": ("5/16", "8"), "glass room": ("1/8", "3"),
    "clear": ("1/8", "3"),
}
MUST = "hinges and lock clear of the joints"
YEAR = "panel through the year"
FREE = "gap round the door through the year"
WEIGHT = "weight of the door"

# The words that the pieces here have for woods, and the rows of the tables.
TABLE_13_5 = {
    "white ash": "Ash, white", "black cherry": "Cherry, black", "yellow birch": "Birch, yellow",
    "hard maple": "Maple, sugar", "american beech": "Beech, American",
    "white oak": "White oak, commercial",
}
DIN_68100 = {
    "european oak": "Eiche", "european ash": "Esche", "european beech": "Buche",
}


def _rows(name: str) -> list[dict[str, str]]:
    text = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in text if not line.startswith("#")))


@cache
def figures(word: str) -> tuple[Fraction, Fraction, Fraction | None]:
    """Radial and tangential change, as a share of the size for 1 % of moisture, and gravity."""
    if word in DIN_68100:
        (row,) = [one for one in _rows("european_shrinkage.csv")
                  if (one["species_de"], one["source"]) == (DIN_68100[word], "A")]
        keys = "radial_pct_per_pct", "tangential_pct_per_pct"
        return Fraction(row[keys[0]]) / 100, Fraction(row[keys[1]]) / 100, None
    (row,) = [one for one in _rows("wood_dimensional_change_13_5.csv")
              if one["species"] == TABLE_13_5[word]]
    heavy = [one for one in _rows("specific_gravity.csv") if one["species"] == TABLE_13_5[word]]
    gravity = Fraction(heavy[0]["G_12pct"]) if heavy else None
    return Fraction(row["C_R"]), Fraction(row["C_T"]), gravity


@cache
def moisture(said: object) -> Fraction:
    """A moisture in percent: a number, or what the wood comes to in air ("20 C, 60 %").

    Wood Handbook, Eq. 4-5, the set for degrees Celsius; a degree Fahrenheit is 5/9 of one.
    """
    if not isinstance(said, str):
        return Fraction(said)  # type: ignore[arg-type]
    found = re.fullmatch(r"([\d.]+) ([CF]), ([\d.]+) %", said)
    assert found is not None, f"the judge can't read the moisture {said!r}"
    heat = Fraction(found[1]) if found[2] == "C" else (Fraction(found[1]) - 32) * Fraction(5, 9)
    damp = Fraction(found[3]) / 100
    text = (REFERENCE / "emc_equation.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text, parse_float=Decimal)["celsius"]
    w, k, k1, k2 = (
        sum((Fraction(c) * heat**power for power, c in enumerate(table[key])), ZERO)
        for key in ("W", "K", "K1", "K2")
    )
    kh = k * damp
    dissolved = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + dissolved)


# -- what the maker told


@dataclass(frozen=True)
class Wood:
    """A timber's word in one file: its figures, its usual sawing, and its three moistures."""

    radial: Fraction
    tangential: Fraction
    gravity: Fraction | None
    sawn: str
    now: Fraction
    dry: Fraction
    wet: Fraction

    def change(self, sawn: str, way: str = "width") -> Fraction:
        """The share of a board's size that 1 % of moisture changes it by, across its grain."""
        both = {"flat": (self.tangential, self.radial), "quarter": (self.radial, self.tangential)}
        mean = (self.radial + self.tangential) / 2
        return both.get(sawn, (mean, mean))[0 if way == "width" else 1]

    def at(self, size: Fraction, sawn: str, then: Fraction, way: str = "width") -> Fraction:
        """How big what is so big now is at another moisture."""
        return size * (1 + self.change(sawn, way) * (then - self.now))


class File:
    """A piece file as its maker means it."""

    def __init__(self, text: str) -> None:
        self.toml = tomllib.loads(text, parse_float=Decimal)
        self.inch = self.toml["unit"] == "in"
        self.climate = self.toml.get("climate")

    def mm(self, table: dict[str, Any], key: str, usual: str = "") -> Fraction:
        """A length of a table; left out, what is usual."""
        if key in table:
            return length_in(table[key], self.toml["unit"])
        return self.usual(usual or key)

    def usual(self, name: str) -> Fraction:
        """A default of README's."""
        return length_in(USUAL[name][0 if self.inch else 1], self.toml["unit"])

    def maybe(self, table: dict[str, Any], key: str) -> Fraction | None:
        """A length of a table; None where it is left out."""
        return self.mm(table, key) if key in table else None

    def wood(self, word: str) -> Wood:
        """What a timber's word stands for."""
        own = next((one for one in self.toml.get("wood", []) if one["timber"] == word), {})
        if "radial" in own:
            radial, tangential = Fraction(own["radial"]) / 100, Fraction(own["tangential"]) / 100
            gravity = None
        else:
            radial, tangential, gravity = figures(own.get("like", word))
        climate = self.climate or {"now": 8, "dry": 6, "wet": 10}
        now, dry, wet = (moisture(climate[key]) for key in ("now", "dry", "wet"))
        return Wood(
            radial, tangential, Fraction(own["gravity"]) if "gravity" in own else gravity,
            own.get("sawn", "flat"), moisture(own["moisture"]) if "moisture" in own else now,
            dry, wet,
        )


@dataclass(frozen=True)
class Row:
    """One row of a door's panels, from below: its clear height, its foot, and its cells in X."""

    number: int
    foot: Fraction
    height: Fraction
    cells: list[tuple[Fraction, Fraction]]


class Door:
    """One door (of a pair, one of the two): what was told of it, and its parts in the numbers."""

    def __init__(
        self, file: File, table: dict[str, Any], name: str, hand: str, opening: str,
        numbers: dict[str, Any], parts: dict[str, Board],
    ) -> None:
        self.file, self.table, self.name, self.hand = file, table, name, hand
        self.opening, self.numbers, self.all = opening, numbers, parts
        self.id = name.replace(" ", "-")
        self.parts = {
            board.name.removeprefix(f"{name} "): board
            for board in parts.values() if board.name.startswith(f"{name} ")
        }
        self.by_id = {board.id: board for board in parts.values()}

    def mm(self, key: str, usual: str = "") -> Fraction:
        """A length of the door's table."""
        return self.file.mm(self.table, key, usual)

    @property
    def inside(self) -> dict[str, Any]:
        """The table of its panels or of its glass."""
        found: dict[str, Any] = self.table.get("panel") or self.table["glass"]
        return found

    @property
    def glazed(self) -> bool:
        """Whether it holds glass."""
        return "glass" in self.table

    @property
    def grooved(self) -> bool:
        """Whether its panels stand in grooves."""
        return not self.glazed and self.inside.get("seat", "groove") == "groove"

    @property
    def solid(self) -> dict[str, Any] | None:
        """The table of its solid panels' year."""
        found = self.inside.get("solid", False)
        return None if found is False else found

    @property
    def overlay(self) -> bool:
        """Whether it lies on the front of its case."""
        return bool(self.table.get("mount") == "overlay")

    @property
    def timber(self) -> str:
        """The word for the timber of its frame."""
        return str(self.table.get("timber", self.file.toml.get("timber", "")))

    @property
    def panel_timber(self) -> str:
        """The word for the timber of its panels."""
        return str(self.inside.get("timber", self.timber))

    @cached_property
    def hole(self) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]] | None:
        """Where its opening stands along X and Z; None for a space, which stands anywhere."""
        if not self.opening:
            return None
        name = self.opening.removeprefix("inside ").replace(" ", "-")
        left, right, top, bottom = (
            self.by_id[f"{name}-{end}"].stands
            for end in ("left-side", "right-side", "top", "bottom")
        )
        return (left[0][1], right[0][0]), (bottom[2][1], top[2][0])

    @cached_property
    def clear(self) -> tuple[Fraction, Fraction]:
        """Its opening's width and height, as told."""
        if not self.opening:
            space = self.table["space"]
            return self.file.mm(space, "width"), self.file.mm(space, "height")
        name = self.opening.removeprefix("inside ")
        (case,) = [one for one in self.file.toml["carcase"] if one.get("name", "carcase") == name]
        thick = self.file.mm(case, "thickness")
        return self.file.mm(case, "width") - 2 * thick, self.file.mm(case, "height") - 2 * thick

    @cached_property
    def outside(self) -> tuple[Fraction, Fraction]:
        """Its own width and height: what it fills, less its gaps, shared by a pair."""
        wide, high = self.clear
        if self.overlay:
            over = self.mm("over")
            wide, high = wide + 2 * over, high + 2 * over
        else:
            wide -= 2 * self.mm("gap_sides", "gap")
            high -= self.mm("gap_top", "gap") + self.mm("gap_bottom", "gap")
        if self.hand:
            lies_over = self.file.maybe(self.table, "rebate")
            wide += -self.mm("gap_between", "gap") if lies_over is None else lies_over
            wide /= 2
        return wide, high

    @property
    def stile(self) -> Fraction:
        """How wide its stiles are."""
        return self.mm("stiles")

    def rail(self, end: str) -> Fraction:
        """How wide its top or bottom rail is."""
        table = self.table.get(end, {})
        return self.file.mm(table, "width") if "width" in table else self.stile

    @cached_property
    def rows(self) -> list[Row]:
        """Its rows of panels, X from its left, Z from its foot."""
        wide, high = self.outside
        middles = self.table.get("middle", [])
        rails = [self.file.mm(one, "width") for one in middles]
        told = [self.file.maybe(one, "above") for one in middles]
        left = high - self.rail("top") - self.rail("bottom") - sum(rails, ZERO)
        left -= sum((one for one in told if one is not None), ZERO)
        share = left / (told.count(None) + 1)
        heights = [share if one is None else one for one in (*told, None)]
        found, foot = [], self.rail("bottom")
        for number, (height, rail) in enumerate(zip(heights, [*rails, ZERO], strict=True), 1):
            found.append(Row(number, foot, height, self._cells(number, wide - 2 * self.stile)))
            foot += height + rail
        return found

    def _cells(self, number: int, sight: Fraction) -> list[tuple[Fraction, Fraction]]:
        muntins = [one for one in self.table.get("muntin", []) if one.get("row", number) == number]
        if not muntins:
            return [(self.stile, self.stile + sight)]
        (muntin,) = muntins
        many, wide = muntin.get("count", 1), self.file.mm(muntin, "width")
        cell = (sight - many * wide) / (many + 1)
        return [
            (self.stile + at * (cell + wide), self.stile + at * (cell + wide) + cell)
            for at in range(many + 1)
        ]

    @cached_property
    def tongue(self) -> Fraction:
        """How thick the edge of its panels is, and so how wide a groove."""
        plain = self.glazed or self.inside.get("edge", "plain") == "plain"
        if plain:
            return self.file.mm(self.inside, "thickness", "glass")
        return self.file.mm(self.inside, "tongue")

    @cached_property
    def plane(self) -> tuple[Fraction, Fraction]:
        """From where to where its seats lie behind its face."""
        thick = self.mm("thickness")
        if not self.grooved:
            deep = self.file.maybe(self.inside, "rabbet_depth")
            return thick - (self.tongue if deep is None else deep), thick
        near = self.file.maybe(self.inside, "groove_from_face")
        near = (thick - self.tongue) / 2 if near is None else near
        return near, near + self.tongue

    @cached_property
    def lip(self) -> Fraction:
        """How deep its seats are: as told, or as the numbers have the left stile's."""
        told = self.file.maybe(self.inside, "lip")
        if told is not None:
            return told
        if self.solid is None or not self.grooved:
            return self.file.usual("glass lip" if self.glazed else "lip")
        (seat,) = self.seats("left stile")
        return seat.reach[1][1] - seat.reach[1][0]

    def seats(self, part: str) -> list[Cut]:
        """The grooves or rabbets of one of its parts."""
        return [cut for cut in self.parts[part].cuts if cut.joint.endswith(".seat")]

    @property
    def at(self) -> tuple[Fraction, Fraction, Fraction]:
        """Its lower left front corner in the piece."""
        stands = self.parts["left stile"].stands
        return stands[0][0], stands[1][0], stands[2][0]

    def sawn(self) -> str:
        """How its panels are sawn."""
        own = (self.solid or {}).get("sawn")
        return str(own or self.file.wood(self.panel_timber).sawn)

    def findings(self, rule: str) -> list[dict[str, Any]]:
        """What a rule says of one of its parts."""
        own = {board.id for board in self.parts.values()}
        return [
            one for one in self.numbers["checks"]
            if one["rule"] == rule and own & set(one["parts"])
        ]


def doors_of(
    numbers: dict[str, Any], text: str, parts: dict[str, Board] | None = None
) -> list[Door]:
    """Every door that the file tells of."""
    file = File(text)
    parts = boards(numbers) if parts is None else parts
    found = []
    for table in file.toml.get("door", []):
        hands = ("left", "right") if table.get("pair") else ("",)
        places = [(o, h) for o in table.get("openings", [""]) for h in hands]
        for name, (opening, hand) in zip(door_names(table), places, strict=True):
            found.append(Door(file, table, name, hand, opening, numbers, parts))
    return found


def judge(
    numbers: dict[str, Any], text: str, subjects: Iterable[str] | None = None,
    parts: dict[str, Board] | None = None,
) -> list[str]:
    """Every objection; `subjects` are keys of SUBJECTS, left out: all of them."""
    return [
        f"{subject}: {door.name}: {objection}"
        for door in doors_of(numbers, text, parts)
        for subject in (SUBJECTS if subjects is None else subjects)
        for objection in SUBJECTS[subject](door)
    ]


# -- the frame


def _space(door: Door) -> Iterator[str]:
    """It fills its opening, less its gaps; a pair's two lie over each other by the rebate."""
    wide, high = door.outside
    left, right = door.parts["left stile"].stands, door.parts["right stile"].stands
    if right[0][1] - left[0][0] != wide or {s[2][1] - s[2][0] for s in (left, right)} != {high}:
        yield f"is {right[0][1] - left[0][0]} wide and {left[2]} high, by hand {wide} by {high}"
    if left[2] != right[2] or left[1] != right[1]:
        yield "has stiles that stand apart"
    if door.hand:
        yield from _beside(door)
    if door.hole is None:
        return
    (low, high_x), (foot, head) = door.hole
    over = -door.mm("over") if door.overlay else None
    ends = [door.mm(key, "gap") if over is None else over
            for key in ("gap_sides", "gap_sides", "gap_bottom", "gap_top")]
    found = [left[0][0] - low, high_x - right[0][1], left[2][0] - foot, head - left[2][1]]
    for at, (wanted, there) in enumerate(zip(ends, found, strict=True)):
        meets = (at, door.hand) in ((0, "right"), (1, "left"))  # the other one is there
        if wanted != there and not meets:
            yield f"leaves {there}, told {wanted}"
    name = door.opening.removeprefix("inside ").replace(" ", "-")
    front = door.by_id[f"{name}-left-side"].stands[1][0]
    wanted_y = front - door.mm("thickness") if door.overlay else front + (
        door.file.maybe(door.table, "set_in") or ZERO)
    if left[1][0] != wanted_y:
        yield f"has its face at {left[1][0]}, by hand {wanted_y}"


def _beside(door: Door) -> Iterator[str]:
    """The two of a pair at their meeting stiles: cut half away each, or a gap between."""
    name = door.name.removeprefix(f"{door.hand} ")
    one, other = (door.all[f"{hand} {name} {end} stile"]
                  for hand, end in (("left", "right"), ("right", "left")))
    rebate = door.file.maybe(door.table, "rebate")
    gap = door.mm("gap_between", "gap")
    apart = other.stands[0][0] - one.stands[0][1]
    if apart != (gap if rebate is None else -rebate):
        yield f"stands {apart} from the other, told {gap} and a rebate of {rebate}"
    thick = door.mm("thickness")
    mine, far = (one, False) if door.hand == "left" else (other, True)
    cuts = [cut for cut in mine.cuts if cut.joint.endswith(".meeting")]
    if rebate is None:
        if cuts:
            yield "has a rabbet where it meets the other"
        return
    high = door.outside[1]
    deep = (thick / 2, thick) if far else (ZERO, thick / 2)
    wanted = ((ZERO, high), (ZERO, rebate + gap), deep)
    if [cut.reach for cut in cuts] != [wanted]:
        yield f"has the rabbets {[cut.reach for cut in cuts]}, by hand {wanted}"


def _frame(door: Door) -> Iterator[str]:
    """Every stick in its place: stiles, rails and muntins fill the door, with equal cells."""
    wide, high = door.outside
    x, y, z = door.at
    thick = door.mm("thickness")
    rails = {"bottom rail": (ZERO, door.rail("bottom")),
             "top rail": (high - door.rail("top"), high)}
    middles = door.table.get("middle", [])
    for number, middle in enumerate(middles, 1):
        row = door.rows[number - 1]
        name = "middle rail" if len(middles) == 1 else f"middle rail {number}"
        foot = row.foot + row.height
        rails[name] = (foot, foot + door.file.mm(middle, "width"))
    wanted = {"left stile": (ZERO, door.stile, ZERO, high),
              "right stile": (wide - door.stile, wide, ZERO, high)}
    wanted |= {name: (door.stile, wide - door.stile, *reach) for name, reach in rails.items()}
    for row in door.rows:
        for number, (one, other) in enumerate(zip(row.cells, row.cells[1:], strict=False), 1):
            wanted[f"muntin {row.number}-{number}"] = (
                one[1], other[0], row.foot, row.foot + row.height)
    frame = {name for name in door.parts if "panel" not in name and "glass" not in name}
    if frame != set(wanted):
        yield f"is made of {sorted(frame)}, by hand {sorted(wanted)}"
        return
    for name, (low, end, foot, head) in wanted.items():
        board = door.parts[name]
        stands = [tuple(v - at for v in reach)
                  for reach, at in zip(board.stands, (x, y, z), strict=True)]
        if stands[1] != (ZERO, thick):
            yield f"{name} stands {stands[1]} through the door, which is {thick} thick"
        long = board.axes[0][0]
        across = 2 - long
        reach = {0: (low, end), 2: (foot, head)}
        if stands[across] != reach[across]:
            yield f"{name} stands at {stands[across]}, by hand {reach[across]}"
        if "stile" in name:
            if stands[long] != reach[long]:
                yield f"{name} runs {stands[long]}, by hand {reach[long]}"
            continue
        yield from _between(door, name, board, long, reach[long])


def _between(
    door: Door, name: str, board: Board, long: int, clear: tuple[Fraction, Fraction]
) -> Iterator[str]:
    """A rail's or muntin's shoulders come to the sticks it stands between; over a rabbet that runs
    through, the back ones a lip further."""
    through = not door.grooved and door.inside.get("run", "through") == "through"
    start = (door.at[0], door.at[2])[long // 2]
    for end, sign in (("A", board.axes[0][1]), ("B", -board.axes[0][1])):
        own = [cut for cut in board.cuts if cut.joint == f"{board.id}.{end}"]
        plane = clear[0 if sign > 0 else 1] + start
        for role, wanted in (("front cheek waste", plane), ("long shoulder waste",
                                                             plane - sign * door.lip)):
            found = {
                max(v * sign for v in cut.stands[long]) * sign
                for cut in own if cut.role == f"{role} {end}"
            }
            if role.startswith("long") and not through:
                if found:
                    yield f"{name} has a longer shoulder at end {end}"
            elif found != {wanted}:
                yield f"{name} has its {role} end {end} at {found}, by hand {wanted}"


def _seat(door: Door) -> Iterator[str]:
    """Each edge that faces a cell has one seat: as deep as the lip, in the plane, and no other."""
    told = "groove" if door.grooved else "rabbet"
    inner = {"left stile": 1, "right stile": 1, "top rail": 1, "bottom rail": 1}
    for name, board in door.parts.items():
        if "panel" in name or "glass" in name:
            continue
        whole = board.size[1]
        edges = {"stile": [whole], "top rail": [whole], "bottom rail": [ZERO]}.get(
            name if name in inner and "rail" in name else name.split()[-1], [ZERO, whole])
        found: list[Any] = []
        for cut in door.seats(name):
            if cut.role != told or cut.reach[2] != door.plane:
                yield f"{name} has a {cut.role} at {cut.reach[2]}, by hand a {told} at {door.plane}"
            found.append(cut.reach[1])
            run = door.inside.get("run", "through")
            if run == "through" and cut.reach[0] != (ZERO, board.size[0]):
                yield f"{name}'s {told} runs {cut.reach[0]}, not from end to end"
        wanted = [(ZERO, door.lip) if edge == 0 else (whole - door.lip, whole) for edge in edges]
        if Counter(found) != Counter(wanted):
            yield f"{name} has seats at {found}, by hand {wanted}"


# -- what it holds


def _panels(door: Door) -> Iterator[str]:
    """Each cell has one panel, in its middle; its size is the cell's with both lips, less the room,
    and across solid wood so that at its widest the play is left."""
    x, y, z = door.at
    word = "glass" if door.glazed else "panel"
    wanted = {}
    for row in door.rows:
        for number, cell in enumerate(row.cells, 1):
            name = f"{word} {row.number}"
            if len(row.cells) > 1:
                name += f"-{number}"
            elif len(door.rows) == 1:
                name = word
            wanted[name] = ((x + cell[0], x + cell[1]), (z + row.foot, z + row.foot + row.height))
    found = {name for name in door.parts if word in name}
    if found != set(wanted):
        yield f"holds {sorted(found)}, by hand {sorted(wanted)}"
        return
    across = 2 if door.inside.get("grain") == "across" else 0
    for name, cell in wanted.items():
        board = door.parts[name]
        if not door.glazed and board.axes[0][0] != 2 - across:
            yield f"{name} has its grain along {board.axes[0]}"
        for axis, clear in ((0, cell[0]), (2, cell[1])):
            low, high = board.stands[axis]
            if low + high != sum(clear):
                yield f"{name} stands at {(low, high)}, not in the middle of {clear}"
            yield from _size(door, name, high - low, clear[1] - clear[0],
                             door.solid is not None and axis == across)
        yield from _through(door, name, board, y)


def _size(
    door: Door, name: str, size: Fraction, clear: Fraction, moves: bool
) -> Iterator[str]:
    """One way of a panel: held against its cell, today or through the year."""
    deep = clear + 2 * door.lip
    if not moves:
        room = door.file.mm(door.inside, "room", "glass room" if door.glazed else "room")
        if size != deep - room:
            yield f"{name} is {size}, by hand {deep - room}"
        return
    wood, solid = door.file.wood(door.panel_timber), door.solid or {}
    widest = wood.at(size, door.sawn(), max(wood.now, wood.wet))
    narrowest = wood.at(size, door.sawn(), min(wood.now, wood.dry))
    play, cover = door.file.mm(solid, "play"), door.file.mm(solid, "cover")
    if widest != deep - play:
        yield f"{name} comes to {widest} of {deep} between its bottoms, told a play of {play}"
    # kept in the middle it stands alike in both; a free one may lie against one bottom
    free = solid.get("held") == "free"
    stands = narrowest - clear - door.lip if free else (narrowest - clear) / 2
    said = [one for one in door.findings(YEAR) if door.parts[name].id in one["parts"]]
    if stands < cover and not any(one["level"] in ("stop", "caution") for one in said):
        yield f"{name} stands {float(stands)} in its seats at its narrowest, told {cover}"
    if not said:
        yield f"{name}: no check says what the year does"
    for one in said:
        told = {key: Fraction(value) for key, value in one["figures"].items()}
        own = {"narrowest": narrowest, "widest": widest, "stands in": stands, "free": play}
        if len(one["parts"]) == 1 and told != own:
            yield f"{name} is said to come to {told}, by hand {own}"


def _lip(door: Door) -> Iterator[str]:
    """A lip left open is the usual one, or as much more as the year asks and no more."""
    if "lip" in door.inside or door.solid is None or not door.grooved:
        return
    usual, solid = door.file.usual("lip"), door.solid
    wood = door.file.wood(door.panel_timber)
    play, cover = door.file.mm(solid, "play"), door.file.mm(solid, "cover")
    asked = []
    upright = door.inside.get("grain", "up") == "up"
    for row in door.rows:
        clears = [b - a for a, b in row.cells] if upright else [row.height]
        for clear in clears:
            # (clear + 2 lip - play) x share, for a lip, is what it has come to at its narrowest:
            # clear + 2 cover in the middle, clear + lip + cover where it may lie to one side
            share = (wood.at(Fraction(1), door.sawn(), min(wood.now, wood.dry))
                     / wood.at(Fraction(1), door.sawn(), max(wood.now, wood.wet)))
            if solid.get("held") == "free":
                asked.append((clear + cover - (clear - play) * share) / (2 * share - 1))
            else:
                asked.append(((clear + 2 * cover) / share - clear + play) / 2)
    most = max(asked)
    step = Fraction(127, 5) / 16 if door.file.inch else Fraction(1)
    if door.lip < max(usual, most) or door.lip >= max(usual, most) + step * (most > usual) + (
            0 if most > usual else Fraction(1, 10**9)):
        yield f"has a lip of {door.lip}, usual is {usual}, the year asks {float(most)}"


def _through(door: Door, name: str, board: Board, y: Fraction) -> Iterator[str]:
    """A panel's edge lies in its seats' plane: a rabbet's front bears it, a groove is filled."""
    thick = door.file.mm(door.inside, "thickness", "glass")
    if board.size[2] != thick:
        yield f"{name} is {board.size[2]} thick, told {thick}"
    edge = "plain" if door.glazed else door.inside.get("edge", "plain")
    behind = door.file.mm(door.inside, "wood_behind") if edge != "plain" else ZERO
    tongue = (thick - behind - door.tongue, thick - behind)
    low = board.stands[1][0] - y + tongue[0]
    if low != door.plane[0]:
        yield f"{name}'s edge begins {low} behind the face, its seat at {door.plane[0]}"
    cuts = {cut.role: cut for cut in board.cuts}
    front = {"plain": "", "raised": "raise", "tongue": "tongue waste"}[edge]
    wanted = {f"{front} {side}" for side in SURFACES if front}
    wanted |= {f"back waste {side}" for side in SURFACES if behind}
    if set(cuts) != wanted or len(cuts) != len(board.cuts):
        yield f"{name} has the cuts {sorted(cuts)}, by hand {sorted(wanted)}"
        return
    border = door.file.mm(door.inside, "border") if edge == "raised" else door.lip
    for role, cut in cuts.items():
        axis, far = SURFACES[role.removeprefix(front).removeprefix("back waste").strip()]
        whole = board.size[axis]
        profile = {(whole - p[axis] if far else p[axis], p[2]) for p in cut.points}
        shape = {(ZERO, ZERO), (ZERO, tongue[0]), (door.lip, tongue[0])}
        if role.startswith("back"):
            shape = {(a, t) for a in (ZERO, door.lip) for t in (tongue[1], thick)}
        elif edge == "tongue":
            shape |= {(door.lip, ZERO)}
        else:
            step = door.file.mm(door.inside, "step")
            shape |= {(border, step), (border, ZERO)}
        if profile != shape:
            yield f"{name}'s {role} has the profile {sorted(profile)}, by hand {sorted(shape)}"


SURFACES = {"edge": (1, False), "far edge": (1, True), "end A": (0, False), "end B": (0, True)}


# -- what hangs it and shuts it


def _hinges(door: Door) -> Iterator[str]:
    """Hinges on one stile, a lock on the other, each in its place or the nearest clear one."""
    side = door.hand or door.table.get("hinges_on", "left")
    other = "left" if side == "right" else "right"
    high = door.outside[1]
    wanted: dict[str, list[tuple[str, Fraction, Fraction, Fraction, bool]]] = {
        side: [], other: []}
    hinges, lock = (door.table.get(key, False) for key in ("hinges", "lock"))
    if hinges is not False:
        long, many = door.file.mm(hinges, "length"), hinges.get("count", 2)
        ends = door.file.maybe(hinges, "from_ends")
        first = long if ends is None else ends
        step = (high - 2 * first - long) / (many - 1)
        for number in range(many):
            open_ = ends is None or 0 < number < many - 1
            wanted[side].append((f"hinge {number + 1}", first + number * step, long,
                                 door.file.mm(hinges, "clear"), open_))
    if lock is not False:
        long = door.file.mm(lock, "length")
        above = door.file.maybe(lock, "above")
        top = high - (high / 2 if above is None else above) - long / 2
        wanted[other].append(("lock", top, long, door.file.mm(lock, "clear"), above is None))
    for end, leaves in wanted.items():
        board = door.parts[f"{end} stile"]
        marks = {
            one["role"]: Fraction(one["distance"]) for one in door.numbers["marks"]
            if one["part"] == board.id and one["role"] != "panel pin"
            and judge_marks.plain_role(one["role"]) in judge_marks.LEAVES
        }
        roles = {f"{what} {place}" for what, *_ in leaves for place in ("top", "bottom")}
        if set(marks) != roles:
            yield f"{end} stile has {sorted(marks)}, by hand {sorted(roles)}"
            continue
        for what, place, long, clear, open_ in leaves:
            top, bottom = marks[f"{what} top"], marks[f"{what} bottom"]
            if bottom - top != long:
                yield f"{what} is {bottom - top} long, told {long}"
            yield from _leaf(door, board, what, top, place, long, clear, open_)


def _leaf(
    door: Door, board: Board, what: str, top: Fraction, place: Fraction, long: Fraction,
    clear: Fraction, open_: bool,
) -> Iterator[str]:
    """A leaf keeps clear of every mortise, moved as little as that takes; a place that was given
    stays, and a check says where it does not keep clear."""
    mortises = [cut.reach[0] for cut in board.cuts
                if cut.role.split()[-1] in ("mortise", "flare")]

    def fits(at: Fraction) -> bool:
        inside = at >= 0 and at + long <= door.outside[1]
        return inside and all(at + long + clear <= low or high + clear <= at
                              for low, high in mortises)

    said = [one for one in door.findings(MUST) if board.id in one["parts"] and what in one["text"]]
    if not open_:
        if top != place:
            yield f"{what} stands {top} from the top, told {place}"
        if not fits(place) and not any(one["level"] != "note" for one in said):
            yield f"{what} at {place} runs into a mortise, and no check says so"
        return
    spots = [place, *(low - clear - long for low, _ in mortises),
             *(high + clear for _, high in mortises)]
    near = [abs(at - place) for at in spots if fits(at)]
    if not near:
        if not said:
            yield f"{what} has no clear place, and no check says so"
    elif not fits(top) or abs(top - place) != min(near):
        yield f"{what} stands {top} from the top, wanted at {place}, clear {min(near)} beside that"
    elif (top != place) != any(one["level"] == "note" for one in said):
        yield f"{what} is moved from {place} to {top}, said: {[one['text'] for one in said]}"


# -- lists


def _root(square: Fraction) -> Fraction:
    """A square root, rounded down at twelve decimals."""
    scale = 10**12
    return Fraction(isqrt(square.numerator * scale**2 // square.denominator), scale)


def _diagonals(door: Door) -> Iterator[str]:
    """Over the stiles and inside the frame, by Pythagoras."""
    wide, high = door.outside
    inside = (wide - 2 * door.stile, high - door.rail("top") - door.rail("bottom"))
    rows = [tuple(Fraction(one[key]) for key in ("width", "height", "diagonal"))
            for one in door.numbers["squareness"] if one["name"] == door.name]
    wanted = [(w, h, _root(w * w + h * h)) for w, h in ((wide, high), inside)]
    if rows != wanted:
        yield f"has the diagonals {rows}, by hand {wanted}"


def _movement(door: Door) -> Iterator[str]:
    """Each wooden part is once in the list for its width and once for its thickness, and moves by
    size x coefficient x points of moisture (Wood Handbook, Eq. 13-2)."""
    rows = door.numbers["movement"]
    reckoned = door.file.climate is not None or door.solid is not None
    for name, board in door.parts.items():
        held = "panel" in name
        if not reckoned or "glass" in name or (held and door.solid is None):
            if any(board.id in row["parts"] for row in rows):
                yield f"{name} is in the list of what moves"
            continue
        word = door.panel_timber if held else door.timber
        wood = door.file.wood(word)
        sawn = door.sawn() if held else door.table.get("sawn", wood.sawn)
        for way, size in (("width", board.size[1]), ("thickness", board.size[2])):
            own = [row for row in rows if board.id in row["parts"] and row["way"] == way]
            if len(own) != 1:
                yield f"{name} is {len(own)} times in the list, for its {way}"
            for row in own:
                if row["sawn"] != sawn or Fraction(row["size"]) != size:
                    yield f"{name} is listed as {row['sawn']} and {row['size']}, {way}"
                told = tuple(Fraction(row[key]) for key in ("dry", "wet"))
                wanted = tuple(wood.at(size, row["sawn"], then, way) - size
                               for then in (wood.dry, wood.wet))
                if told != wanted:
                    yield f"{name}'s {way} moves by {told}, by hand {wanted}"


def _gaps(door: Door) -> Iterator[str]:
    """An inset door grows by its two stiles, at the side away from its hinges; a pair in the
    middle by its four. Its rails keep their length, and its stiles theirs."""
    said = door.findings(FREE)
    pressed = door.overlay and not door.hand
    if door.file.climate is None or pressed or door.hand == "right":
        return
    if len(said) != 1:
        yield f"{len(said)} checks say what the gaps become"
        return
    wood = door.file.wood(door.timber)
    sawn = door.table.get("sawn", wood.sawn)
    many = 4 if door.hand else 2
    today = door.mm("gap_between" if door.hand else "gap_sides", "gap")

    def left(then: Fraction) -> Fraction:
        return today - many * (wood.at(door.stile, sawn, then) - door.stile)

    wanted = {"today": today, "least": min(today, left(wood.wet)),
              "most": max(today, left(wood.dry))}
    told = {key: Fraction(value) for key, value in said[0]["figures"].items()}
    if told != wanted:
        yield f"is said to leave {told}, by hand {wanted}"
    if (said[0]["level"] == "stop") != (wanted["least"] <= 0):
        yield f"leaves {float(wanted['least'])} in the dampest season: a {said[0]['level']}"


def _weight(door: Door) -> Iterator[str]:
    """Volume x specific gravity x (1 + moisture): the tables' gravity is of ovendry mass and the
    volume at 12 % (Wood Handbook, ch. 4); what is said has two figures."""
    kilos = 0.0
    for name, board in door.parts.items():
        if "glass" in name or ("panel" in name and door.solid is None):
            return
        word = door.panel_timber if "panel" in name else door.timber
        if not word or (wood := door.file.wood(word)).gravity is None:
            return
        litres = board.solid.volume() / 1e6
        kilos += litres * float(wood.gravity * (1 + wood.now / 100))
    said = [one["text"] for one in door.findings(WEIGHT)]
    if len(said) != 1:
        yield f"{len(said)} checks say what it weighs"
        return
    for unit, one in (("kg", 1.0), ("lb", float(POUND))):
        found = re.search(rf"([\d.]+) {unit}", said[0])
        if found is None:
            yield f"is said nothing of in {unit}: {said[0]}"
            continue
        decimals = len(found[1].partition(".")[2])
        shown = float(found[1])
        # two figures, or whole numbers from ten on
        half = 0.5 * 10**-decimals
        if decimals == 0 and shown >= 100:
            half = 5
        if abs(kilos / one - shown) > half * 1.000001 or (shown < 10 and decimals == 0):
            yield f"weighs {kilos / one:.4f} {unit}, said: {said[0]}"


def _orders(door: Door) -> Iterator[str]:
    """Stiles are ordered longer by two horns, rails by what through tenons are left proud."""
    horn, proud = (door.file.maybe(door.table, key) for key in ("horns", "left_proud"))
    sums = {(one["part"], one["name"]): Fraction(one["total"]) for one in door.numbers["sums"]}
    for name, board in door.parts.items():
        told = sums.get((board.id, "length with horns"))
        wanted = board.size[0] + 2 * horn if "stile" in name and horn else None
        if told != wanted:
            yield f"{name} is ordered {told} long, by hand {wanted}"
        told = sums.get((board.id, "length with tenons left proud"))
        if told is not None and (proud is None or told != board.size[0] + 2 * proud):
            yield f"{name} is sawn {told} long, {proud} proud at each end"


SUBJECTS: dict[str, Callable[[Door], Iterator[str]]] = {
    "space": _space,
    "frame": _frame,
    "seat": _seat,
    "panels": _panels,
    "lip": _lip,
    "hinges": _hinges,
    "diagonals": _diagonals,
    "movement": _movement,
    "gaps": _gaps,
    "weight": _weight,
    "orders": _orders,
}
