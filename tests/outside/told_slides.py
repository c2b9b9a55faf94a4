"""What a maker told of carcases, dividers and slides: their piece file, read a second time.

The defaults are those that layout/defaults.toml and the documents tell of. Everything is worked
out anew, by the trade's own sums, from the words of the file: where each board stands, and what
each slide's tail is at any place along its run.
"""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tests.outside.judge_boards import Reach
from tests.outside.solids import length_in

if TYPE_CHECKING:
    from tests.outside.judge_slides import Case, Slide

ZERO = Fraction(0)
Spread = tuple[Fraction, Fraction]
DEPTH_SHARE = Fraction(1, 3)  # of the bearer
USUAL_RUN = Fraction(7)
USUAL = {"room": ("1/64", "0.5"), "deep": ("3/8", "9"), "back room": ("1/16", "1.5")}
NEAR = 1e-9
"""Degrees become a ratio once, to 1e-12: so near two leans must be."""


@dataclass(frozen=True)
class Opening:
    """A clear space, in mm of the piece: its bounds, what stands behind, and where the boards
    round it begin and end from front to back."""

    x: Spread
    z: Spread
    limit: Fraction
    reach: dict[str, Spread]  # of the boards at the left, right, below and above


@dataclass(frozen=True)
class Stand:
    """Where a board stands."""

    name: str
    stands: Reach


class Told:
    """A piece file with carcases and dividers."""

    def __init__(self, text: str) -> None:
        file = tomllib.loads(text, parse_float=Decimal)
        self._unit: str = file["unit"]
        self.cases: dict[str, dict[str, Any]] = {
            one.get("name", "carcase"): one for one in file.get("carcase", [])
        }
        self.dividers: dict[str, dict[str, Any]] = {
            one["name"]: one for one in file.get("divider", [])
        }

    @property
    def order(self) -> list[str]:
        """The dividers' names as they follow one another."""
        return list(self.dividers)

    def mm(self, value: object) -> Fraction:
        """A length of the file."""
        return length_in(value, self._unit)

    def usual(self, name: str) -> Fraction:
        """A default."""
        return self.mm(USUAL[name][0 if self._unit == "in" else 1])

    def joints(self) -> set[str]:
        """The names of all slides that there must be."""
        found = [f"{name}-{what}" for name, one in self.cases.items()
                 if "slide" in one or "housing" in one for what in ("top", "bottom")]
        found += self.dividers
        return {f"{one.replace(' ', '-')}.{end}" for one in found for end in "AB"}

    # -- one slide

    def _table(self, slide: Slide) -> tuple[dict[str, Any], bool]:
        """What was told of a slide, and whether it is a sliding dovetail."""
        for name, one in self.cases.items():
            if slide.slider.name in (f"{name} top", f"{name} bottom"):
                return _either(one)
        return _either(self.dividers[slide.slider.name])

    def slide(self, slide: Slide) -> Iterator[str]:
        """Every difference between a slide and what was told of it."""
        table, slid = self._table(slide)
        axis = slide.slider.axes[0][0]
        low, high = slide.bearer.stands[axis]
        depth = self.mm(table["depth"]) if "depth" in table else (high - low) * DEPTH_SHARE
        room = self.mm(table["room"]) if "room" in table else self.usual("room")
        if (slide.depth, slide.tail) != (depth, depth - room):
            yield f"{slide.depth} deep for a tail of {slide.tail}, told {depth} and room {room}"
            return
        kinds = {cut.role.partition(",")[0] for cut in slide.in_bearer}
        if kinds != {"slide socket" if slid else "housing"}:
            yield f"told {table}, the socket is called {kinds}"
        way = 1 if table.get("enter", "back") == "back" else -1  # its face edge is in front
        if way not in slide.ways():
            yield f"it is entered from {slide.ways()}, told {table.get('enter')}"
            return
        yield from self._sides(slide, table, slid, way)

    def _sides(
        self, slide: Slide, table: dict[str, Any], slid: bool, way: int
    ) -> Iterator[str]:
        """The tail's two sides, along the run."""
        thick, wide = slide.slider.size[2], slide.slider.size[1]
        slopes = table.get("slopes", "both")
        sloping = [slid and slopes in ("both", side) for side in ("face", "back")]
        lean = self._lean(slide, table) if slid else ZERO
        leans = [lean if one else ZERO for one in sloping]
        shoulders = [
            self.mm(table[f"{side}_shoulder"]) if f"{side}_shoulder" in table else leans[index]
            for index, side in enumerate(("face", "back"))
        ]
        stop, taper = self.mm(table.get("stop", 0)), self.mm(table.get("taper", 0))
        over = self.mm(table["taper_over"]) if "taper_over" in table else wide - stop
        closed = stop if way > 0 else wide - stop
        if slide.held[0 if way > 0 else 1] != closed:
            yield f"the tail runs {slide.held} of {wide}, stop {stop}"
            return
        # the parallel stretch ends where the taper begins, so it is looked at there as well
        start = closed + way * over
        for run in sorted({*slide.places, start}):
            if not slide.common_run[0] <= run <= slide.common_run[1]:
                continue
            gone = abs(run - closed)
            narrower = taper * (1 - gone / over) if gone < over else ZERO
            for deep in (ZERO, slide.tail):
                sides = [shoulder + narrower * one / sum(sloping) if one else shoulder
                         for shoulder, one in zip(shoulders, sloping, strict=True)]
                if deep:
                    sides = [side - one for side, one in zip(sides, leans, strict=True)]
                wanted = (sides[0], thick - sides[1])
                if slide.wood(run, deep) != wanted:
                    yield f"{run} along, {deep} deep: {slide.wood(run, deep)}, told {wanted}"

    def _lean(self, slide: Slide, table: dict[str, Any]) -> Fraction:
        """What a sloping side leans over the tail's length."""
        words = table.get("slope", "1:7")
        if found := re.fullmatch(r"(\d+(?:\.\d+)?) deg", words):
            wanted = float(slide.tail) * math.tan(math.radians(float(found[1])))
            run = slide.places[0]
            neck, tip = slide.wood(run, ZERO), slide.wood(run, slide.tail)
            lean = max(neck[0] - tip[0], tip[1] - neck[1])
            assert abs(float(lean) - wanted) < NEAR, f"{slide} leans {lean}, told {words}"
            return lean
        over, run_words = re.split(r":| in ", words)
        return slide.tail * Fraction(over) / Fraction(run_words)

    # -- where boards stand

    def places(self, case: Case) -> Iterator[str]:
        """Every difference between the boards and where they were told to stand."""
        openings: dict[str, Opening] = {}
        for name, one in self.cases.items():
            boards, opening = self._carcase(case, name, one)
            openings[f"inside {name}"] = opening
            yield from _compare(case, boards)
            yield from self._backs(case, name, one, opening)
        for name, one in self.dividers.items():
            known = openings.get(one["opening"]) or _of_frame(case, one["opening"])
            if known is None:
                yield f"the judge doesn't know the opening {one['opening']!r}"
                continue
            openings.pop(one["opening"], None)
            board, parts = self._divider(case, name, one, known)
            openings |= parts
            yield from _compare(case, [board])
            yield from _laid(case, name, one["lies"] == "level")

    def _carcase(
        self, case: Case, name: str, one: dict[str, Any]
    ) -> tuple[list[Stand], Opening]:
        """The boards of a carcase, and what is clear inside."""
        wide, high, deep = (self.mm(one[key]) for key in ("width", "height", "depth"))
        side = self.mm(one["thickness"])
        top, bottom = (self.mm(one.get(f"{what}_thickness", one["thickness"]))
                       for what in ("top", "bottom"))
        back = self.mm(one["back"]["thickness"]) if "back" in one else ZERO
        far = deep
        if "slide" in one or "housing" in one:
            joint, _ = _either(one)
            above, below = self.mm(one.get("top_in", 0)), self.mm(one.get("bottom_in", 0))
            depth = self.mm(joint["depth"]) if "depth" in joint else side * DEPTH_SHARE
            room = self.mm(joint["room"]) if "room" in joint else self.usual("room")
            x = (side - depth + room, wide - side + depth - room)
            far, tall = deep - back, (ZERO, high)
            along = (ZERO, wide)
        else:
            above = below = ZERO
            lap = self.mm(one.get("dovetails", {}).get("lap", False) or 0)
            on_sides = one.get("tails_on", "sides") == "sides"
            x = (ZERO, wide) if on_sides else (lap, wide - lap)
            tall = (lap, high - lap) if on_sides else (ZERO, high)
            along = (ZERO, wide)
        y = (ZERO, deep)
        lies = (ZERO, far)
        inside = (bottom + below, high - above - top)
        found = [
            Stand(f"{name} left side", ((ZERO, side), y, tall)),
            Stand(f"{name} right side", ((along[1] - side, along[1]), y, tall)),
            Stand(f"{name} top", (x, lies, (inside[1], high - above))),
            Stand(f"{name} bottom", (x, lies, (below, inside[0]))),
        ]
        reach = {"left": y, "right": y, "below": lies, "above": lies}
        return found, Opening((side, wide - side), inside, deep - back, reach)

    def _backs(
        self, case: Case, name: str, one: dict[str, Any], inside: Opening
    ) -> Iterator[str]:
        """The back fills its rabbets but for the room, in as many boards as were told."""
        found = {board.name: board for board in case.parts.values()
                 if board.name == f"{name} back" or board.name.startswith(f"{name} back board ")}
        if "back" not in one:
            if found:
                yield f"{sorted(found)} without a back"
            return
        table = one["back"]
        many = table.get("boards", 1)
        thick = self.mm(table["thickness"])
        deep = self.mm(table["deep"]) if "deep" in table else self.usual("deep")
        room = self.mm(table["room"]) if "room" in table else self.usual("back room")
        x = (inside.x[0] - deep + room / 2, inside.x[1] + deep - room / 2)
        if "slide" in one or "housing" in one:
            parts = case.parts
            z = (parts[f"{name} bottom"].stands[2][0], parts[f"{name} top"].stands[2][1])
        else:
            z = (inside.z[0] - deep + room / 2, inside.z[1] + deep - room / 2)
        y = (inside.limit, inside.limit + thick)
        share = (x[1] - x[0]) / many
        names = [f"{name} back"] if many == 1 else [f"{name} back board {n}"
                                                    for n in range(1, many + 1)]
        if sorted(found) != sorted(names):
            yield f"the back is {sorted(found)}, {many} boards were told"
            return
        yield from _compare(case, [
            Stand(board, ((x[0] + n * share, x[0] + (n + 1) * share), y, z))
            for n, board in enumerate(names)
        ])

    def _divider(
        self, case: Case, name: str, one: dict[str, Any], into: Opening
    ) -> tuple[Stand, dict[str, Opening]]:
        """Where a divider stands, and what it leaves on its two sides."""
        thick = self.mm(one["thickness"])
        level = one["lies"] == "level"
        clear, along = (into.z, into.x) if level else (into.x, into.z)
        key = "above" if level else "from_left"
        low = clear[0] + self.mm(one[key]) if key in one else (
            clear[0] + (clear[1] - clear[0] - thick) / 2)
        sides = ("left", "right") if level else ("below", "above")
        # both its bearers reach as far forward as this
        front = max(into.reach[side][0] for side in sides) + self.mm(one.get("set_back", 0))
        back = min([into.limit, *(into.reach[side][1] for side in sides)])
        if "depth" in one:
            back = front + self.mm(one["depth"])
        tails = {slide.end: slide.tail for slide in case.slides if slide.slider.name == name}
        run = (along[0] - tails.get("A", ZERO), along[1] + tails.get("B", ZERO))
        own = (low, low + thick)
        y = (front, back)
        stand = Stand(name, (run, y, own) if level else (own, y, run))
        names = ("below", "above") if level else ("left of", "right of")
        found = {}
        for side, spread, mine in ((names[0], (clear[0], low), 1),
                                   (names[1], (low + thick, clear[1]), 0)):
            edge = ("below", "above") if level else ("left", "right")
            reach = into.reach | {edge[mine]: y}
            found[f"{side} {name}"] = Opening(
                into.x if level else spread, spread if level else into.z, into.limit, reach,
            )
        return stand, found


def read(text: str) -> Told:
    """A piece file as its maker means it."""
    return Told(text)


def _either(one: dict[str, Any]) -> tuple[dict[str, Any], bool]:
    return (one["slide"], True) if "slide" in one else (one["housing"], False)


def _compare(case: Case, boards: list[Stand]) -> Iterator[str]:
    for board in boards:
        if board.name not in case.parts:
            yield f"there is no {board.name}"
        elif case.parts[board.name].stands != tuple(board.stands):
            yield (f"the {board.name} fills {_said(case.parts[board.name].stands)}, told "
                   f"{_said(board.stands)}")


def _said(reach: Reach) -> str:
    return " x ".join(f"{low}..{high}" for low, high in reach)


def _laid(case: Case, name: str, level: bool) -> Iterator[str]:
    """A shelf's face side is on top and its end A at the left; a partition's face side is at the
    left and its end A below; the face edge is in front."""
    wanted = [(0, 1), (1, 1), (2, -1)] if level else [(2, 1), (1, 1), (0, 1)]
    if name in case.parts and case.parts[name].axes != wanted:
        yield f"the {name} is laid out along {case.parts[name].axes}"


def _of_frame(case: Case, opening: str) -> Opening | None:
    """An opening of a frame's front, between its legs, under one rail and over the next."""
    found = re.fullmatch(r"front under (.+)", opening)
    legs = [case.parts.get(f"front {hand} leg") for hand in ("left", "right")]
    above = None if found is None else (
        case.parts.get(f"front {found[1]}") or case.parts.get(found[1]))
    if above is None or legs[0] is None or legs[1] is None:
        return None
    top = above.stands[2][0]
    x = (legs[0].stands[0][1], legs[1].stands[0][0])
    under = [board for board in case.parts.values() if board.name.startswith("front ")
             and not board.name.endswith(" leg") and board.stands[2][1] < top]
    if not under:
        return None
    below = max(under, key=lambda board: board.stands[2][1])
    reach = {"left": legs[0].stands[1], "right": legs[1].stands[1], "below": below.stands[1],
             "above": above.stands[1]}
    return Opening(x, (below.stands[2][1], top), max(one[1] for one in reach.values()), reach)
