"""A judge of tops: boards, slots, buttons, caps and holes as the maker's own text has them.

Reads the piece file a second time, with the defaults that README publishes, works every size out
anew, and holds the public numbers (format 1) against them. How the wood moves comes from the tables
in reference/ (judge_doors.py says which). All of that is exact; only what a hole meets under the
top is judged with solids.

`judge(numbers, text)` gives a list of objections, empty where every top is sound. `judge_marks` is
for judge_marks.py: it judges what is laid out on tops, and on rails and buttons for them, by the
cuts alone.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import Any

from manifold3d import Manifold

from tests.outside.judge_boards import (
    AXES,
    FACES,
    NOTHING,
    TURNS,
    Board,
    Cut,
    Point,
    Reach,
    boards,
    common,
    corners,
    hull,
    meet,
    reach_of,
)

ZERO = Fraction(0)
Spread = tuple[Fraction, Fraction]

# As README has them: in an inch piece, in a metric piece.
USUAL = {
    "overhang": ("1", "25"), "dogs_below": ("4", "100"), "hand": ("1", "25"),
    "milling": ("1/4", "6"), "jointing": ("1/4", "6"), "spare_thickness": ("1/8", "3"),
    "spare_length": ("1", "25"), "stagger": ("6", "150"), "clamps_apart": ("10", "250"),
    "caul": ("1 1/2", "38"), "cap": ("3", "75"), "tongue_length": ("1", "25"),
    "room": ("1/16", "1.5"), "peg": ("3/8", "10"), "peg_in": ("2", "50"),
    "slot_room": ("1/32", "1"), "apart": ("20", "500"), "button_length": ("2 1/2", "63"),
    "button_block": ("3/4", "20"), "button_tongue": ("3/8", "10"),
    "button_tongue_length": ("1/2", "13"), "button_width": ("1", "25"),
    "button_draw": ("1/32", "1"), "button_cover": ("1/4", "6"), "button_room": ("1/32", "1"),
    "screw_hole": ("3/16", "5"), "screw_head": ("1/2", "12"), "screw_under": ("1", "25"),
    "dogs": ("3/4", "20"), "holdfasts": ("3/4", "19"), "clear": ("1/4", "6"),
    "end": ("1 1/2", "38"),
}
GLUE = 200  # grams to the square metre

# Words that pieces here have for woods, and the words that judge_doors.py looks up.
CALLED = {"cherry": "black cherry", "maple": "hard maple", "beech": "american beech"}

SLOT = re.compile(r"(screw slot|counterbore|cap peg slot) (\d+)(?:, (one end|other end|between))?")
MORTISE = re.compile(r"button mortise (\d+)")
HOLE = re.compile(r"(dog hole|holdfast hole) (\d+)(?:, row (\d+))?")


@dataclass(frozen=True)
class Top:
    """A top: what the numbers say of it, what its maker wrote, and the boards of the piece."""

    told: dict[str, Any]
    table: dict[str, Any]
    file: Any
    numbers: dict[str, Any]
    parts: dict[str, Board]

    @cached_property
    def by_id(self) -> dict[str, Board]:
        """Every board of the piece by its id."""
        return {board.id: board for board in self.parts.values()}

    @cached_property
    def boards(self) -> list[Board]:
        """The boards side by side, from the front."""
        return [self.by_id[one] for one in self.told["parts"]]

    @cached_property
    def caps(self) -> list[Board]:
        """The end caps."""
        return [self.by_id[one] for one in self.told["end_caps"]]

    @cached_property
    def stands(self) -> Reach:
        """What the top reaches along X, Y and Z, its caps with it."""
        spots = [spot for one in (*self.boards, *self.caps) for spot in corners(one.stands)]
        return reach_of(spots)

    @property
    def name(self) -> str:
        """Its name."""
        return str(self.told["name"])

    def fact(self, key: str) -> Fraction:
        """A length that the numbers say of it."""
        return Fraction(self.told[key])

    def mm(self, table: dict[str, Any], key: str, usual: str = "") -> Fraction:
        """A length of one of its tables; left out, what is usual."""
        found = self.file.maybe(table, key)
        return self.usual(usual or key) if found is None else found

    def usual(self, name: str) -> Fraction:
        """A default of README's."""
        word = USUAL[name][0 if self.file.inch else 1]
        return self.file.mm({"it": f"{word} {'in' if self.file.inch else 'mm'}"}, "it")

    def sub(self, key: str) -> dict[str, Any] | None:
        """One of its tables; None where it is left out or false."""
        found = self.table.get(key)
        return None if found in (None, False) else found

    @property
    def right(self) -> bool:
        """Whether the vise is at the right."""
        return self.table.get("vise", {}).get("end") == "right"

    @cached_property
    def wood(self) -> Any:
        """Its timber's figures, of the tables and of the year."""
        word = self.table.get("timber", self.file.toml.get("timber"))
        return self.file.wood(CALLED.get(word, word))

    def year(self, width: Fraction) -> Spread:
        """How narrow and how wide so much of the top is in the course of the year; Wood Handbook,
        Eq. 13-2. On edge it is the boards' thickness that lies across the top."""
        on_edge = (self.sub("strips") or {}).get("lay") == "on edge"
        sawn = self.table.get("sawn", self.wood.sawn)
        way = "thickness" if on_edge else "width"
        found = [self.wood.at(width, sawn, then, way)
                 for then in (self.wood.dry, self.wood.wet, self.wood.now)]
        return min(found), max(found)

    def moves(self, away: Fraction) -> Spread:
        """How far what lies so far from the line that is held moves out and back."""
        low, high = self.year(away)
        return high - away, away - low

    @property
    def held(self) -> Fraction:
        """From the front edge to the line that is held, as told."""
        line = (self.sub("fixing") or {}).get("held", "middle")
        whole = self.stands[1][1] - self.stands[1][0]
        return {"front": ZERO, "middle": whole / 2, "back": whole}[line]


def file_of(text: str) -> Any:
    """A piece file as judge_doors.py reads it; not before it is needed, for that module needs
    judge_marks.py, which needs this one."""
    from tests.outside.judge_doors import File

    return File(text)


def tops_of(
    numbers: dict[str, Any], text: str, parts: dict[str, Board] | None = None
) -> list[Top]:
    """Every top of a piece, with its table of the file."""
    file = file_of(text)
    tables = {one.get("name", "top"): one for one in file.toml.get("top", [])}
    parts = boards(numbers) if parts is None else parts
    assert set(tables) == {one["name"] for one in numbers["tops"]}, "tops that were not asked for"
    return [Top(one, tables[one["name"]], file, numbers, parts) for one in numbers["tops"]]


def judge(
    numbers: dict[str, Any], text: str, subjects: Iterable[str] = (),
    parts: dict[str, Board] | None = None,
) -> list[str]:
    """Every objection; `subjects` are keys of SUBJECTS, left out: all of them."""
    return [
        f"{subject}: {top.name}: {objection}"
        for top in tops_of(numbers, text, parts)
        for subject in subjects or tuple(SUBJECTS)
        for objection in SUBJECTS[subject](top)
    ]


# -- where it lies, how large it is


def _under(top: Top) -> Reach | None:
    """What the top lies on, as X, Y and Z reach; None for one by itself."""
    on = top.told["on"]
    if on is None:
        return None
    if on == "frame":
        frame = top.file.toml["frame"]
        length, depth, height = (top.file.mm(frame, key) for key in ("length", "depth", "height"))
        return ((ZERO, length), (ZERO, depth), (ZERO, height))
    own = [one for name, one in top.parts.items()
           if name in {f"{on} {word}" for word in ("left side", "right side", "top", "bottom")}]
    return reach_of([spot for one in own for spot in corners(one.stands)])


def _sizes(top: Top) -> Iterator[str]:
    """The boards lie side by side and make up the top, which hangs over by what was told."""
    thick = top.file.mm(top.table, "thickness")
    under = _under(top)
    if under is None:
        x, y, _ = top.stands
        told = (top.file.mm(top.table, "length"), top.file.mm(top.table, "width"))
        if (x[1] - x[0], y[1] - y[0]) != told:
            yield f"is {x} by {y}, told {told}"
    else:
        over = top.mm(top.table, "overhang")
        left, right, front, back = (
            top.mm(top.table, f"overhang_{side}") if f"overhang_{side}" in top.table else over
            for side in ("left", "right", "front", "back")
        )
        (x, y, z) = under
        wanted = ((x[0] - left, x[1] + right), (y[0] - front, y[1] + back), (z[1], z[1] + thick))
        if top.stands != wanted:
            yield f"fills {top.stands}, not {wanted}"
    if {one.size[2] for one in (*top.boards, *top.caps)} != {thick}:
        yield f"is not {thick} thick all over"
    x, y, _ = top.stands
    if (x[1] - x[0], y[1] - y[0], thick) != tuple(
        top.fact(key) for key in ("length", "width", "thickness")
    ):
        yield f"is {x} by {y}, the numbers say {top.fact('length')} by {top.fact('width')}"
    yield from _side_by_side(top)


def _side_by_side(top: Top) -> Iterator[str]:
    """From front to back without a gap, all laid alike, end A at the vise; a cap across each end,
    as far out as the top goes, over the tongues."""
    way = -1 if top.right else 1
    at = top.stands[1][0]
    for one in top.boards:
        if one.axes != [(0, way), (1, 1), (2, -1)]:
            yield f"{one.name} is laid {one.axes}"
        if one.stands[1][0] != at or one.stands[0] != top.boards[0].stands[0]:
            yield f"{one.name} fills {one.stands}, not from {at} on"
        at = one.stands[1][1]
    if at != top.stands[1][1]:
        yield f"its boards end at {at}, not at {top.stands[1][1]}"
    table = top.sub("end_caps")
    if bool(top.caps) != (table is not None):
        yield f"has {len(top.caps)} caps"
    if table is None:
        return
    wide, long = top.mm(table, "width", "cap"), top.mm(table, "tongue_length")
    x, y, z = top.stands
    low, high = top.boards[0].stands[0]
    if (low, high) != (x[0] + wide - long, x[1] - wide + long):
        yield f"its boards run {low} to {high} between caps {wide} wide, tongues {long}"
    found = sorted(one.stands for one in top.caps)
    wanted = [((x[0], x[0] + wide), y, z), ((x[1] - wide, x[1]), y, z)]
    if found != wanted:
        yield f"its caps fill {found}, not {wanted}"


# -- how it moves


def _movement(top: Top) -> Iterator[str]:
    """Narrowest and widest of the year, and how far each fixing lies from the held line and
    moves out and back, by the tables."""
    if top.told["narrowest"] is not None or "climate" in top.file.toml:
        year = top.fact("narrowest"), top.fact("widest")
        if year != top.year(top.fact("width")):
            yield f"is {year} over the year, by hand {top.year(top.fact('width'))}"
    if top.fact("held") != top.held:
        yield f"is held at {top.fact('held')}, told {top.held}"
    for one in top.told["fixings"]:
        y = _screw_place(top, one)[1] - top.stands[1][0]
        if one["kind"] == "screws" or one["along"]:
            away = abs(y - top.held)
        else:
            # where the button's tongue meets its rail: nothing but the button's own length (which
            # does not move, along its grain) lies between that and the screw
            away = Fraction(one["away"])
        if Fraction(one["away"]) != away:
            yield f"a fixing on the {one['rail']} is {one['away']} away, by hand {away}"
        told = Fraction(one["out"]), Fraction(one["back"])
        if told != top.moves(Fraction(one["away"])):
            yield f"a fixing on the {one['rail']} moves {told}, by hand {top.moves(away)}"


def _screw_place(top: Top, one: dict[str, Any]) -> Point:
    """Where the screw of a fixing goes into the top today, in the piece."""
    table = top.sub("fixing") or {}
    rail = top.by_id[one["rail"]]
    if one["kind"] == "screws":
        deep = top.file.maybe(table, "screw_from_face")
        deep = rail.size[2] / 2 if deep is None else deep
        return rail.place((Fraction(one["place"]), ZERO, deep))
    button = top.by_id[one["button"]]
    (waste,) = [cut for cut in button.cuts if cut.role == "button waste"]
    tongue = waste.reach[0][1]
    return button.place(((button.size[0] + tongue) / 2, button.size[1] / 2, ZERO))


def _fixings(top: Top) -> Iterator[str]:
    """As many as the rails ask for, evenly enough, in the middle of what is clear."""
    table = top.sub("fixing")
    if table is None:
        if top.told["fixings"]:
            yield "is fixed though that was not asked for"
        return
    kind = table.get("kind", "buttons")
    rails = Counter(one["rail"] for one in top.told["fixings"])
    for rail, count in rails.items():
        own = [one for one in top.told["fixings"] if one["rail"] == rail]
        along = top.by_id[rail].axes[0][0] == 1
        if {one["along"] for one in own} != {along} or {one["kind"] for one in own} != {kind}:
            yield f"the {rail} has {own}"
        if count < (1 if along else 2):
            yield f"the {rail} has {count} only"
        places = sorted(Fraction(one["place"]) for one in own)
        if any(high - low > top.mm(table, "apart") for low, high in pairwise(places)):
            yield f"the {rail}'s stand {places}, more than {top.mm(table, 'apart')} apart"
        words = "screw slot" if kind == "screws" else "button mortise"
        cuts = {int(found[1]) for cut in top.by_id[rail].cuts
                if (found := re.match(rf"{words} (\d+)", cut.role))}
        if cuts != set(range(1, count + 1)):
            yield f"the {rail} has {words}s {sorted(cuts)} for {count}"
    if len(rails) < 2:
        yield f"is fixed to {sorted(rails)} alone"


def _numbered(top: Top) -> Iterator[tuple[int, dict[str, Any]]]:
    """Each fixing with its number on its rail."""
    seen: Counter[str] = Counter()
    for one in top.told["fixings"]:
        seen[one["rail"]] += 1
        yield seen[one["rail"]], one


# -- screws in their slots


def slot(cuts: Iterable[Cut], words: str) -> tuple[list[Cut], list[Cut]]:
    """A slot's cylinders and what lies between them."""
    own = [cut for cut in cuts if (found := SLOT.fullmatch(cut.role)) and
           f"{found[1]} {found[2]}" == words]
    return [cut for cut in own if cut.bore], [cut for cut in own if not cut.bore]


def ends_of(board: Board, ends: Sequence[Cut]) -> list[tuple[Point, Fraction]]:
    """The middles of a slot's cylinders at their lower `from`, in the piece, and their radii."""
    found = []
    for cut in ends:
        assert cut.bore is not None
        at = [Fraction(v) for v in cut.bore["centre"]]
        at.insert(AXES.index(cut.bore["axis"]), Fraction(cut.bore["from"]))
        found.append((board.place(at), Fraction(cut.bore["radius"])))
    return found


def _slot(
    board: Board, words: str, place: Point, lows: Spread, radius: Fraction,
    depth: tuple[str, Spread],
) -> Iterator[str]:
    """A slot along Y, whose end's middles lie between two places, so deep along an axis."""
    ends, between = slot(board.cuts, words)
    moves = lows != (place[1], place[1])
    if len(ends) != (2 if moves else 1) or len(between) != (1 if moves else 0):
        yield f"{board.name}: {words} has {len(ends)} ends and {len(between)} between"
        return
    found = ends_of(board, ends)
    middles = {spot[1] for spot, _ in found}
    if middles != set(lows):
        yield (f"{board.name}: {words} has its ends' middles at Y "
               f"{[float(v) for v in sorted(middles)]}, wanted {[float(v) for v in lows]}")
    if any(spot[0] != place[0] for spot, _ in found):
        yield f"{board.name}: {words} is not over X {place[0]}"
    if {one for _, one in found} != {radius}:
        yield f"{board.name}: {words} has radii {[one for _, one in found]}, not {radius}"
    axis, deep = depth
    for cut in (*ends, *between):
        if cut.reach[AXES.index(axis)] != deep:
            yield f"{board.name}: {cut.role} runs {cut.reach[AXES.index(axis)]}, not {deep}"
    for cut in between:
        x, y, _ = cut.stands
        if not cut.square or y != tuple(sorted(lows)) or x != (place[0] - radius,
                                                               place[0] + radius):
            yield f"{board.name}: {cut.role} fills {cut.stands}"


def _screws(top: Top) -> Iterator[str]:
    """A slot from the rail's top edge to under the head, as long as the year asks, the way that
    the top moves; a counterbore from there down; their middles in the screw's path."""
    table = top.sub("fixing") or {}
    for number, one in _numbered(top):
        if one["kind"] != "screws":
            continue
        rail = top.by_id[one["rail"]]
        place = _screw_place(top, one)
        out, back = top.moves(Fraction(one["away"]))
        away = 1 if place[1] > top.stands[1][0] + top.held else -1
        room = top.mm(table, "slot_room") if out or back else ZERO
        reach = sorted((place[1] + away * (out + room), place[1] - away * (back + room)))
        under = top.mm(table, "screw_under")
        hole, head = top.mm(table, "screw_hole"), top.mm(table, "screw_head")
        wide = rail.size[1]
        ends = (reach[0], reach[1])
        yield from _slot(rail, f"screw slot {number}", place, ends, hole / 2, ("W", (ZERO, under)))
        yield from _slot(rail, f"counterbore {number}", place, ends, head / 2,
                         ("W", (under, wide)))


# -- buttons


def _buttons(top: Top) -> Iterator[str]:
    """Each button's tongue stands in its rail's mortise, bears on its upper wall, and has room
    all year; its sizes are those told."""
    table = top.sub("fixing") or {}
    long, wide, block, thick, tongue, draw, cover, room = (
        top.mm(table, f"button_{word}") for word in
        ("length", "width", "block", "tongue", "tongue_length", "draw", "cover", "room")
    )
    for number, one in _numbered(top):
        if one["kind"] != "buttons":
            continue
        rail, button = top.by_id[one["rail"]], top.by_id[one["button"]]
        where = f"{button.name} in {rail.name}"
        mortise = [cut for cut in rail.cuts if cut.role == f"button mortise {number}"]
        waste = [cut for cut in button.cuts if cut.role == "button waste"]
        if len(mortise) != 1 or len(waste) != 1 or not (mortise[0].square and waste[0].square):
            yield f"{where}: {len(mortise)} mortises, {len(waste)} wastes"
            continue
        own = waste[0].reach[0][1]
        if button.size != (long, wide, block) and (own == tongue or button.size[1:] !=
                                                   (wide, block)):
            yield f"{where} is {button.size}"
        if own < tongue or waste[0].reach != ((ZERO, own), (ZERO, wide), (ZERO, block - thick)):
            yield f"{where}: a tongue of {own}, waste {waste[0].reach}"
        yield from _button_stands(top, one, where, mortise[0], (own, draw, thick, room))
        yield from _button_moves(top, one, where, mortise[0], (cover, room))


def _tongue(button: Board) -> Reach:
    """A button's tongue in the piece."""
    (waste,) = [cut for cut in button.cuts if cut.role == "button waste"]
    own, _, thick = waste.reach
    ends = ((ZERO, ZERO, thick[1]), (own[1], button.size[1], button.size[2]))
    return reach_of([button.place(one) for one in ends])


def _button_stands(
    top: Top, one: dict[str, Any], where: str, mortise: Cut, sizes: tuple[Fraction, ...]
) -> Iterator[str]:
    """It hangs below the top by what it draws up, against the upper wall, over its mortise."""
    _, draw, thick, room = sizes
    rail, button = top.by_id[one["rail"]], top.by_id[one["button"]]
    back = rail.size[2]
    tongue = _tongue(button)
    if mortise.reach[2][1] != back or mortise.reach[2][0] <= 0:
        yield f"{where}: the mortise is no hole in the rail's back: {mortise.reach}"
    if top.boards[0].stands[2][0] - button.stands[2][1] != draw:
        yield f"{where} does not hang {draw} below the top"
    if tongue[2][1] != mortise.stands[2][1]:
        yield f"{where}: the tongue's upper side {tongue[2]}, the mortise {mortise.stands[2]}"
    if mortise.stands[2][1] - mortise.stands[2][0] != thick + room:
        yield f"{where}: the mortise is {mortise.stands[2]} high, the tongue {thick}"
    run = rail.axes[0][0]
    middle = rail.place((Fraction(one["place"]), ZERO, ZERO))[run]
    if sum(button.stands[run]) / 2 != middle:
        yield f"{where} stands over {button.stands[run]}, not over {middle}"
    away = top.moves(Fraction(one["away"])) if one["along"] else (ZERO, ZERO)
    way = 1 if middle > top.stands[1][0] + top.held else -1
    low, high = button.stands[run]
    ends = ((low - room - away[1], high + room + away[0]) if way > 0 else
            (low - room - away[0], high + room + away[1]))
    if mortise.stands[run] != ends:
        yield f"{where}: the mortise runs {mortise.stands[run]}, wanted {ends}"


def _button_moves(
    top: Top, one: dict[str, Any], where: str, mortise: Cut, sizes: tuple[Fraction, Fraction]
) -> Iterator[str]:
    """Moved with the top to both ends of the year, a tongue stays in its mortise by the cover,
    keeps off its bottom, and its shoulder off the rail."""
    cover, room = sizes
    rail, button = top.by_id[one["rail"]], top.by_id[one["button"]]
    deep = rail.axes[2][0]
    into = -rail.axes[2][1]  # from the rail's back into it
    back = rail.place((ZERO, ZERO, rail.size[2]))[deep]
    floor = rail.place((ZERO, ZERO, mortise.reach[2][0]))[deep]
    tongue = _tongue(button)[deep]
    tip, shoulder = (tongue[1], tongue[0]) if into > 0 else tongue
    moves = (ZERO, ZERO)
    if not one["along"]:
        out, home = top.moves(Fraction(one["away"]))
        # the top takes it away from the held line, or back
        away = 1 if sum(rail.stands[1]) / 2 > top.stands[1][0] + top.held else -1
        moves = (away * out, -away * home)
    for by in moves:
        if into * (tip + by - back) < cover:
            yield f"{where}: moved {float(by)} it stands in its mortise by {tip + by - back}"
        if into * (floor - tip - by) < room:
            yield f"{where}: moved {float(by)} it comes to {floor - tip - by} from the bottom"
        if into * (back - shoulder - by) < room:
            yield f"{where}: moved {float(by)} its shoulder comes to {back - shoulder - by}"


# -- end caps


def _caps(top: Top) -> Iterator[str]:
    """A tongue in the groove of each cap, with room at its bottom; pegs through cap and tongue,
    one without a slot, the others in slots for the whole year."""
    table = top.sub("end_caps")
    if table is None:
        return
    thick = top.file.maybe(table, "tongue")
    thick = top.fact("thickness") / 3 if thick is None else thick
    long, room = top.mm(table, "tongue_length"), top.mm(table, "room")
    whole = top.fact("thickness")
    for cap in top.caps:
        (groove,) = [cut for cut in cap.cuts if cut.role == "end groove"]
        low = (whole - thick) / 2
        if groove.reach != ((ZERO, cap.size[0]), (ZERO, long + room), (low, low + thick)):
            yield f"{cap.name}: its groove is {groove.reach}"
        for board in top.boards:
            waste = {cut.role: cut for cut in board.cuts if cut.joint == groove.joint
                     and cut.role.startswith("end tongue waste")}
            at_left = cap.stands[0][0] < board.stands[0][0]
            at_a = at_left == (board.axes[0][1] > 0)
            at = (ZERO, long) if at_a else (board.size[0] - long, board.size[0])
            wanted = {"face": (ZERO, low), "back": (low + thick, whole)}
            for side, deep in wanted.items():
                cut = waste.get(f"end tongue waste, {side}")
                if cut is None or cut.reach != (at, (ZERO, board.size[1]), deep):
                    yield f"{board.name}: the waste at the {side} of {cap.name} is {cut}"
        yield from _pegs(top, table, cap, (low, low + thick), long)


def _pegs(
    top: Top, table: dict[str, Any], cap: Board, deep: Spread, long: Fraction
) -> Iterator[str]:
    """Bored through the cap, half way along the tongue, evenly from end to end; the slot in the
    tongue lets it go the way that the peg goes as seen from the moving top."""
    count, bore = table.get("pegs", 3), top.mm(table, "peg")
    first = top.mm(table, "peg_in")
    room = top.mm(table, "slot_room")
    holes = [cut for cut in cap.cuts if re.fullmatch(r"cap peg hole \d+", cut.role)]
    if len(holes) != count:
        yield f"{cap.name} has {len(holes)} pegs"
    middles = {}
    for cut in holes:
        ((spot, radius),) = ends_of(cap, [cut])
        middles[int(cut.role.split()[-1])] = spot
        if radius != bore / 2 or cut.reach[2] != (ZERO, cap.size[2]):
            yield f"{cap.name}: {cut.role} is {radius} wide, {cut.reach[2]} deep"
        inner = cap.place((ZERO, long / 2, ZERO))[0]
        if spot[0] != inner:
            yield f"{cap.name}: {cut.role} stands at {spot[0]}, the tongue's middle at {inner}"
    y = sorted(spot[1] for spot in middles.values())
    wanted = [top.stands[1][0] + first + at * (cap.size[0] - 2 * first) / (count - 1)
              for at in range(count)]
    if y != wanted and top.held in (ZERO, top.fact("width")):
        yield f"{cap.name}: its pegs stand at {y}, not {wanted}"
    # of two, one stands on a held line in the middle
    if (y[0], y[-1]) != (wanted[0], wanted[-1]) and (count > 2 or y[-1] != wanted[-1]):
        yield f"{cap.name}: its outer pegs stand at {y[0]} and {y[-1]}"
    yield from _peg_slots(top, cap, middles, (bore, room), deep)


def _peg_slots(
    top: Top, cap: Board, middles: dict[int, Point], sizes: tuple[Fraction, Fraction],
    deep: Spread,
) -> Iterator[str]:
    """Each peg's slot in the board that it goes through."""
    bore, room = sizes
    (joint,) = {cut.joint for cut in cap.cuts}
    fixed = [number for number, spot in middles.items()
             if any(cut.joint == joint and cut.role == f"cap peg slot {number}"
                    for board in top.boards for cut in board.cuts)]
    if len(fixed) != 1:
        yield f"{cap.name}: pegs {fixed} have no slot"
        return
    held = middles[fixed[0]][1]
    line = top.stands[1][0] + top.held
    if abs(held - line) != min(abs(spot[1] - line) for spot in middles.values()):
        yield f"{cap.name}: peg {fixed[0]}, which has no slot, is not the nearest to {line}"
    for number, spot in middles.items():
        board = [one for one in top.boards if one.stands[1][0] < spot[1] < one.stands[1][1]]
        if len(board) != 1:
            yield f"{cap.name}: peg {number} goes through {[one.name for one in board]}"
            continue
        cuts = [cut for cut in board[0].cuts if cut.joint == joint
                and (found := SLOT.fullmatch(cut.role)) and int(found[2]) == number]
        out, back = top.moves(abs(spot[1] - held))
        away = 1 if spot[1] > held else -1
        # the tongue moves out past the peg, so the peg comes toward the held line in its slot
        ends = sorted((spot[1] - away * (out + room), spot[1] + away * (back + room)))
        wanted = (ends[0], ends[1]) if number != fixed[0] else (spot[1], spot[1])
        yield from _slot(_only(board[0], cuts), f"cap peg slot {number}", spot, wanted, bore / 2,
                         ("T", deep))


class _Some(Board):
    """A board with some of its cuts."""

    def __init__(self, board: Board, cuts: list[Cut]) -> None:
        self.__dict__.update(
            id=board.id, name=board.name, hand=board.hand, size=board.size, origin=board.origin,
            axes=board.axes, cuts=cuts,
        )


def _only(board: Board, cuts: list[Cut]) -> Board:
    return _Some(board, cuts)


# -- rows of holes


def rows_of(top: Top) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Each row that was told of, and what the numbers have for it."""
    ids = set(top.told["parts"])
    told = [one for one in top.numbers["dogs"] if one["part"] in ids]
    tables = top.table.get("row", [])
    assert len(told) == len(tables), f"{len(told)} rows, told {len(tables)}"
    by_number = {int(one["joint"].rpartition("-")[2]): one for one in told}
    return [(table, by_number[number]) for number, table in enumerate(tables, 1)]


def holes_of(row: dict[str, Any], board: Board) -> dict[tuple[int, int], Cut]:
    """A row's cuts by the number of the place and of the line."""
    found = {}
    for cut in board.cuts:
        if cut.joint == row["joint"]:
            name = HOLE.fullmatch(cut.role)
            assert name is not None, cut.role
            assert name[1] == row["hole"], cut.role
            found[int(name[2]), int(name[3] or 1)] = cut
    return found


def _holes(top: Top) -> Iterator[str]:
    """At every place and on every line one hole of the size told, right through the top."""
    for table, row in rows_of(top):
        board = top.by_id[row["part"]]
        kind = table.get("holes", "dogs")
        size = top.mm(table, "size", kind)
        cuts = holes_of(row, board)
        places = [Fraction(one) for one in row["places"]]
        square = table.get("shape") == "square"
        lines = [ZERO] if square else [
            top.file.mm({"it": one}, "it") + top.stands[1][0] - board.stands[1][0]
            for one in table["lines"]
        ]
        if (row["shape"], Fraction(row["size"])) != ("square" if square else "round", size):
            yield f"{row['joint']} is {row['shape']}, {row['size']}"
        if not square and len({Fraction(one) for one in row["lines"]}) != len(lines):
            yield f"{row['joint']} has lines {row['lines']}"
        if "off_glue" not in table and not square and [Fraction(v) for v in row["lines"]] != lines:
            yield f"{row['joint']} has lines {row['lines']}, told {lines}"
        wanted = {(at, line) for at in range(1, len(places) + 1)
                  for line in range(1, len(lines) + 1)}
        if set(cuts) != wanted:
            yield f"{row['joint']} has holes {sorted(set(cuts) ^ wanted)} too many or too few"
            continue
        for (at, line), cut in cuts.items():
            yield from _hole(row, board, cut, places[at - 1],
                             ZERO if square else Fraction(row["lines"][line - 1]))
        yield from _spaced(top, table, row, places)


def _hole(
    row: dict[str, Any], board: Board, cut: Cut, place: Fraction, line: Fraction
) -> Iterator[str]:
    """One hole: a cylinder through T, or square at the strip's front, leaning by the lean."""
    whole, half = board.size[2], Fraction(row["size"]) / 2
    if row["shape"] == "round":
        if cut.bore is None or (
            cut.bore["axis"], [Fraction(v) for v in cut.bore["centre"]],
            Fraction(cut.bore["radius"]), Fraction(cut.bore["from"]), Fraction(cut.bore["to"]),
        ) != ("T", [place, line], half, ZERO, whole):
            yield f"{cut.role} is {cut.bore}"
        return
    lean = Fraction(row["lean"])
    wanted = {
        (place + side + shift, across, deep)
        for side in (-half, half) for across in (ZERO, 2 * half)
        for shift, deep in ((ZERO, ZERO), (lean, whole))
    }
    if set(cut.points) != wanted:
        yield f"{cut.role} has the corners {sorted(cut.points)}"


def _spaced(
    top: Top, table: dict[str, Any], row: dict[str, Any], places: list[Fraction]
) -> Iterator[str]:
    """No gap is wider than the vise serves; the last hole keeps off the end; what is told to be
    held is, and no more."""
    if sorted(set(places)) != places:
        yield f"{row['joint']} stands {places}"
    vise = top.sub("vise")
    half = Fraction(row["size"]) / 2
    (low, high) = top.stands[0]
    whole = top.by_id[row["part"]].stands[0]
    # from the part's end A to the top's own ends: caps lie beyond the boards
    before = high - whole[1] if top.right else whole[0] - low
    beyond = top.by_id[row["part"]].size[0] + (whole[0] - low if top.right else high - whole[1])
    if beyond - places[-1] - half < top.mm(table, "end"):
        yield f"{row['joint']} comes to {beyond - places[-1] - half} from the end"
    first = top.file.maybe(table, "first")
    if first is not None and places[0] + before != first:
        yield f"{row['joint']} begins at {places[0] + before}, told {first}"
    clear = half + top.mm(table, "clear")
    for zone in table.get("keep_out", []):
        start, stop = (top.file.mm(zone, key) - before for key in ("from", "to"))
        if any(start - clear < place < stop + clear for place in places):
            yield f"{row['joint']} comes too near the {zone['name']}: {places}"
    if table.get("holes") == "holdfasts":
        if row["vise"] is not None or row["held"]:
            yield f"{row['joint']} is spaced for a vise"
        return
    if vise is None:
        return
    opening, closed = top.mm(vise, "opening"), top.file.maybe(vise, "closed") or ZERO
    told = row["vise"] and tuple(Fraction(row["vise"][k]) for k in ("opening", "closed", "hand"))
    if told != (opening, closed + before, top.mm(vise, "hand")):
        yield f"{row['joint']} is spaced for {told}"
    if any(b - a > opening - top.mm(vise, "hand") for a, b in pairwise(places)):
        yield f"{row['joint']} has a gap wider than the vise serves: {places}"
    if [tuple(Fraction(v) for v in one) for one in row["held"]] != held(row):
        yield f"{row['joint']} is said to hold {row['held']}, by hand {held(row)}"


def held(row: dict[str, Any]) -> list[Spread]:
    """The lengths that a row holds: each hole's, from closed to wide open, joined."""
    half = Fraction(row["size"]) / 2
    opening, closed = (Fraction(row["vise"][key]) for key in ("opening", "closed"))
    found: list[Spread] = []
    for place in sorted(Fraction(one) for one in row["places"]):
        low = place - half + closed
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], low + opening)
        else:
            found.append((low, low + opening))
    return found


# -- what stands under the holes


def probe(row: dict[str, Any], board: Board, cut: Cut) -> tuple[Manifold, Reach]:
    """A hole made fatter by what it must keep clear and longer downward, and the box round it."""
    clear, below = Fraction(row["clear"]), Fraction(row["below"])
    whole = board.size[2]
    lean = Fraction(row["lean"]) / whole
    spots: list[Point] = []
    for deep in (ZERO, whole + below):
        if cut.bore is not None:
            along, across = (Fraction(v) for v in cut.bore["centre"])
            far = Fraction(cut.bore["radius"]) + clear
            spots += [(along + far * a, across + far * b, deep) for a, b in TURNS]
        else:
            top_points = [p for p in cut.points if p[2] == cut.reach[2][0]]
            low, high = min(p[0] for p in top_points), max(p[0] for p in top_points)
            near, far = min(p[1] for p in top_points), max(p[1] for p in top_points)
            # only along the row: front and back of a square hole are the strips' own
            spots += [(at + lean * deep, w, deep) for at in (low - clear, high + clear)
                      for w in (near, far)]
    placed = [board.place(one) for one in spots]
    return hull(placed), reach_of(placed)


def _clear(top: Top) -> Iterator[str]:
    """Nothing that is not the top's own stands in a hole, or under it as far as a dog goes down,
    or nearer than the clear wood; holes of different rows share nothing."""
    own = {board.id for board in (*top.boards, *top.caps)}
    below = top.mm(top.table, "dogs_below")
    every: list[tuple[str, Manifold, Reach]] = []
    for table, row in rows_of(top):
        board = top.by_id[row["part"]]
        told = Fraction(row["below"]), Fraction(row["clear"])
        if told != (below, top.mm(table, "clear")):
            yield f"{row['joint']} keeps clear by {told}"
        for cut in holes_of(row, board).values():
            yield from _off_the_screws(top, row, cut)
            solid, reach = probe(row, board, cut)
            for other in top.parts.values():
                if other.id in own or not meet(reach, other.stands):
                    continue
                shared = common(solid, other.solid)
                if shared > NOTHING:
                    yield f"{cut.role} of {row['joint']} meets the {other.name}: {shared} mm3"
            for joint, hole, stands in every:
                if joint != row["joint"] and meet(stands, cut.stands):
                    shared = common(hole, cut.solid)
                    if shared > NOTHING:
                        yield f"{cut.role} of {row['joint']} meets {joint}: {shared} mm3"
        every += [(row["joint"], cut.solid, cut.stands) for cut in holes_of(row, board).values()]


def _off_the_screws(top: Top, row: dict[str, Any], cut: Cut) -> Iterator[str]:
    """A round hole keeps the clear wood to every screw that comes up into the top."""
    if cut.bore is None:
        return
    hole = top.mm(top.sub("fixing") or {}, "screw_hole")
    keep = Fraction(row["size"]) / 2 + Fraction(row["clear"]) + hole / 2
    (x, y) = (sum(cut.stands[0]) / 2, sum(cut.stands[1]) / 2)
    for one in top.told["fixings"]:
        place = _screw_place(top, one)
        if one["kind"] == "screws" and (x - place[0]) ** 2 + (y - place[1]) ** 2 < keep**2:
            yield f"{cut.role} of {row['joint']} meets a screw of the {one['rail']}"


# -- strips, staves, clamps and glue


def _strips(top: Top) -> Iterator[str]:
    """Widths and lengths add up, the stock gives them, and the planer passes them."""
    table = top.sub("strips")
    if table is None:
        if top.told["strips"] or top.told["clamps"] is not None:
            yield "is glued up though that was not asked for"
        return
    strips = top.told["strips"]
    widths = [Fraction(one["width"]) for one in strips]
    if sum(widths) != top.fact("width"):
        yield f"its strips are {sum(widths)} wide together"
    edge = table.get("lay") == "on edge"
    thick, wide = (top.mm(table, f"stock_{key}") for key in ("thickness", "width"))
    milled, jointed = thick - top.mm(table, "milling"), wide - top.mm(table, "jointing")
    high = top.fact("thickness") + top.mm(table, "spare_thickness")
    limit, other = (milled, jointed) if edge else (jointed, milled)
    if max(widths) > limit or high > other:
        yield f"strips of {max(widths)} by {high} do not come out of {limit} by {other}"
    long = top.boards[0].size[0] + 2 * top.mm(table, "spare_length")
    for one in strips:
        if sum((Fraction(v) for v in one["staves"]), ZERO) != long:
            yield f"a strip is {one['staves']} long, not {long}"
        stock = top.file.maybe(table, "stock_length")
        if stock is not None and max(Fraction(v) for v in one["staves"]) > stock:
            yield f"a stave of {one['staves']} is longer than the stock"
    fewest = sum(-(-part.size[1] // limit) for part in top.boards)
    if len(strips) != fewest:
        yield f"is of {len(strips)} strips, {fewest} would do"
    yield from _staggered(top, table)
    yield from _off_glue(top)
    sections = Counter[int]()
    for one in strips:
        sections[one["section"]] += Fraction(one["width"])  # type: ignore[assignment]
    planer = top.file.maybe(table, "planer")
    if [one["section"] for one in strips] != sorted(one["section"] for one in strips):
        yield "its sections are not side by side"
    if planer is not None and max(sections.values()) > planer:
        yield f"sections {sections} are wider than the planer"
    if planer is not None and (len(sections), max(sections.values())) != _sections(widths, planer):
        yield f"sections {sections}, by hand {_sections(widths, planer)}"
    yield from _clamps(top, table, long, high, widths)


def _sections(widths: list[Fraction], planer: Fraction) -> tuple[int, Fraction]:
    """How few sections the planer passes, and how narrow the widest of them can be."""
    best: list[dict[int, Fraction]] = [{0: ZERO}]
    for end in range(1, len(widths) + 1):
        found: dict[int, Fraction] = {}
        for start in range(end):
            wide = sum(widths[start:end], ZERO)
            for count, widest in best[start].items():
                if wide <= planer:
                    now = max(widest, wide)
                    found[count + 1] = min(found.get(count + 1, now), now)
        best.append(found)
    fewest = min(best[-1])
    return fewest, best[-1][fewest]


def _off_glue(top: Top) -> Iterator[str]:
    """A row that must keep off the glue lines is moved as little as that takes, and meets no
    stave's end in its strip."""
    long = top.mm(top.sub("strips") or {}, "spare_length")
    lines, at = [ZERO], ZERO
    for one in top.told["strips"]:
        at += Fraction(one["width"])
        lines.append(at)
    for table, row in rows_of(top):
        if "off_glue" not in table or row["shape"] == "square":
            continue
        keep = Fraction(row["size"]) / 2 + top.file.mm(table, "off_glue")
        front = top.by_id[row["part"]].stands[1][0] - top.stands[1][0]
        for told, line in zip(table["lines"], row["lines"], strict=True):
            wished, found = top.file.mm({"it": told}, "it"), Fraction(line) + front
            near = min(abs(wished - min(max(wished, low + keep), high - keep))
                       for low, high in pairwise(lines) if high - low >= 2 * keep)
            (strip,) = [one for one, (low, high) in
                        zip(top.told["strips"], pairwise(lines), strict=True)
                        if low + keep <= found <= high - keep] or [None]
            if strip is None or abs(found - wished) != near:
                yield f"the row at {wished} is moved to {found}, {near} would do"
                continue
            for end in joints_of(strip["staves"]):
                if any(abs(Fraction(p) - end + long) < keep for p in row["places"]):
                    yield f"a hole of {row['joint']} meets the stave's end at {end - long}"


def joints_of(staves: Sequence[str]) -> list[Fraction]:
    """Where one stave ends and the next begins."""
    found, at = [], ZERO
    for one in staves[:-1]:
        at += Fraction(one)
        found.append(at)
    return found


def _staggered(top: Top, table: dict[str, Any]) -> Iterator[str]:
    """The ends of staves side by side are far enough apart."""
    least = top.mm(table, "stagger")
    for one, other in pairwise(top.told["strips"]):
        for a in joints_of(one["staves"]):
            for b in joints_of(other["staves"]):
                if abs(a - b) < least:
                    yield f"stave ends lie {abs(a - b)} apart in strips side by side"


def _clamps(
    top: Top, table: dict[str, Any], long: Fraction, high: Fraction, widths: list[Fraction]
) -> Iterator[str]:
    """So close that pressure spread at 45 degrees through caul and outer strip meets the next."""
    spread = 2 * (top.mm(table, "caul") + min(widths[0], widths[-1]))
    apart = min(spread, top.mm(table, "clamps_apart"))
    count = max(2, -(-long // apart))
    if (top.fact("clamp_spacing"), top.told["clamps"]) != (apart, count):
        yield f"{top.told['clamps']} clamps {top.told['clamp_spacing']}, by hand {count} {apart}"
    area = (len(widths) - 1) * long * high
    # and the ends of staves, butted
    area += sum(((len(one["staves"]) - 1) * Fraction(one["width"]) * high
                 for one in top.told["strips"]), ZERO)
    grams = area / 1_000_000 * table.get("glue_spread", GLUE)
    if (top.fact("glue_area"), top.fact("glue_grams")) != (area, grams):
        yield f"glue on {top.told['glue_area']}, by hand {area}"


# -- marks


@dataclass(frozen=True)
class Wanted:
    """A mark that a cut asks for: where, with what, and its spots in (u, v)."""

    part: str
    joint: str
    face: str
    role: str
    tool: str
    source: str
    distance: Fraction
    spots: tuple[tuple[Fraction, Fraction], ...]
    diameter: Fraction | None = None

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What tells it from others."""
        return self.part, self.joint, self.face, self.role


SOURCES = {"face side": ("T", False), "face edge": ("W", False), "end A": ("L", False),
           "end B": ("L", True)}


def _line(
    board: Board, cut: Cut, face: str, role: str, tool: str, source: str, at: Fraction,
    run: Spread,
) -> Wanted:
    """A line square to its reference, at a place of its axis, so far along the other."""
    axis, far = SOURCES[source]
    u, v, _, _ = FACES[face]
    spots = tuple((at, one) if u == axis else (one, at) for one in run)
    assert axis in (u, v)
    whole = board.size[AXES.index(axis)]
    return Wanted(board.id, cut.joint, face, role, tool, source, whole - at if far else at, spots)


def _bit(board: Board, cut: Cut, face: str) -> Wanted:
    """The middle of a bored hole."""
    assert cut.bore is not None
    at = tuple(Fraction(v) for v in cut.bore["centre"])
    return Wanted(board.id, cut.joint, face, cut.role, "bit", "end A", at[0], ((at[0], at[1]),),
                  2 * Fraction(cut.bore["radius"]))


def wanted_of(board: Board, joints: set[str] | None = None) -> Iterator[Wanted]:
    """What the cuts of a board for a top ask to be laid out on it; all, or those of joints."""
    for cut in board.cuts:
        if joints is not None and cut.joint not in joints:
            continue
        length, width, deep = cut.reach
        if found := MORTISE.fullmatch(cut.role):
            word = f"of button mortise {found[1]}"
            for role, at in (("upper", width[0]), ("lower", width[1])):
                yield _line(board, cut, "back", f"{role} wall {word}", "marking gauge",
                            "face edge", at, length)
            for role, at in (("near", length[0]), ("far", length[1])):
                yield _line(board, cut, "back", f"button {found[1]}, {role} end", "knife", "end A",
                            at, width)
        elif cut.role == "button waste":
            yield _line(board, cut, "face", "button shoulder", "knife", "end A", length[1], width)
            yield _line(board, cut, "end A", "upper side of the button's tongue",
                        "marking gauge", "face side", deep[1], width)
        elif cut.role.startswith(("screw slot", "counterbore")) and cut.bore:
            yield _bit(board, cut, "far edge")
        elif cut.role.startswith("end tongue waste"):
            side = cut.role.rpartition(" ")[2]
            at_a = length[0] == 0
            end, shoulder = ("end A", length[1]) if at_a else ("end B", length[0])
            yield _line(board, cut, side, "end tongue shoulder", "knife", end, shoulder, width)
            role, at = ("near", deep[1]) if side == "face" else ("far", deep[0])
            yield _line(board, cut, end, f"{role} side of the end tongue", "marking gauge",
                        "face side", at, width)
        elif cut.role == "end groove":
            for role, at in (("near", deep[0]), ("far", deep[1])):
                yield _line(board, cut, "edge", f"{role} end groove wall", "marking gauge",
                            "face side", at, length)
        elif cut.role.startswith("cap peg hole"):
            yield _bit(board, cut, "face")
        elif found := HOLE.fullmatch(cut.role):
            yield from _of_hole(board, cut, found)


def _of_hole(board: Board, cut: Cut, found: re.Match[str]) -> Iterator[Wanted]:
    """A hole's lines: its row's, its own across that, and its middle or its two sides."""
    whole = (ZERO, board.size[0])
    name = f"{found[1].removesuffix(' hole')} {found[2]}"
    if cut.bore is not None:
        _, line = (Fraction(v) for v in cut.bore["centre"])
        yield _line(board, cut, "face", f"line of the {found[1]}s", "marking gauge", "face edge",
                    line, whole)
        yield _bit(board, cut, "face")
        return
    top = sorted(p for p in cut.points if p[2] == cut.reach[2][0])
    bottom = sorted(p for p in cut.points if p[2] == cut.reach[2][1])
    yield _line(board, cut, "face", f"depth of the {found[1]}s", "marking gauge", "face edge",
                cut.reach[1][1], whole)
    for role, at in (("near", 0), ("far", -1)):
        here, there = top[at], bottom[at]
        yield _line(board, cut, "face", f"{name} {role} side", "knife", "end A", here[0],
                    cut.reach[1])
        tool = "knife" if here[0] == there[0] else "bevel"
        yield Wanted(board.id, cut.joint, "edge", f"{name} {role} side", tool, "end A", here[0],
                     ((here[0], ZERO), (there[0], there[2])))


OVERHANG = re.compile(r"overhang( in front| behind)?")
SCREW = re.compile(r"screw (\d+)")
ACROSS = re.compile(r"(dog|holdfast) (\d+)")


def _is_own(mark: dict[str, Any], keys: set[tuple[str, str, str, str]]) -> bool:
    """Whether a mark is for a top: it has one of its roles."""
    role = mark["role"]
    if (mark["part"], mark["joint"], mark["face"], role) in keys:
        return True
    own = mark["joint"].endswith((".overhang", ".fixing")) or ".holes-" in mark["joint"]
    return own and any(one.fullmatch(role) for one in (OVERHANG, SCREW, ACROSS))


def judge_marks(
    parts: dict[str, Board], told: list[dict[str, Any]]
) -> tuple[list[str], list[dict[str, Any]]]:
    """Every objection against marks of tops, and the marks of others."""
    wanted: dict[tuple[str, str, str, str], list[Wanted]] = {}
    joints = {mark["joint"] for mark in told}
    for board in parts.values():
        for one in wanted_of(board, joints):
            wanted.setdefault(one.key, []).append(one)
    own = [mark for mark in told if _is_own(mark, set(wanted))]
    by_id = {board.id: board for board in parts.values()}
    found = []
    for mark in own:
        where = f"{mark['role']} on the {mark['face']} of {mark['part']} ({mark['joint']})"
        key = (mark["part"], mark["joint"], mark["face"], mark["role"])
        judged = _held_against(mark, wanted[key]) if key in wanted else _by_place(
            mark, by_id[mark["part"]], parts)
        found += [f"{where} {what}" for what in judged]
    return found, [mark for mark in told if mark not in own]


def _spots(mark: dict[str, Any]) -> tuple[tuple[Fraction, Fraction], ...]:
    spots = mark.get("line") or [mark["point"]]
    return tuple((Fraction(a), Fraction(b)) for a, b in spots)


def _held_against(mark: dict[str, Any], wanted: list[Wanted]) -> Iterator[str]:
    """Exactly one of the lines or points that cuts of this name ask for."""
    size = mark.get("diameter")
    found = (mark["tool"], mark["from"], Fraction(mark["distance"]), sorted(_spots(mark)),
             None if size is None else Fraction(size))
    asked = [(one.tool, one.source, one.distance, sorted(one.spots), one.diameter)
             for one in wanted]
    if found not in asked:
        yield f"is {found}, its cuts ask for {asked}"


def _by_place(mark: dict[str, Any], board: Board, parts: dict[str, Board]) -> Iterator[str]:
    """Pencil marks that no cut asks for: over what the top lies on, over a screw, across a row."""
    axis, far = SOURCES[mark["from"]]
    u, v, normal, behind = FACES[mark["face"]]
    spots = _spots(mark)
    at = {spot[(u, v).index(axis)] for spot in spots}
    whole = board.size[AXES.index(axis)]
    distance = Fraction(mark["distance"])
    if at != {whole - distance if far else distance} or mark["tool"] != "pencil":
        yield f"stands at {at}, {distance} from the {mark['from']}, with a {mark['tool']}"
    plane = board.size[AXES.index(normal)] if behind else ZERO
    placed = []
    for spot in spots:
        point = {u: spot[0], v: spot[1], normal: plane}
        placed.append(board.place((point["L"], point["W"], point["T"])))
    if ACROSS.fullmatch(mark["role"]):
        yield from _across_a_row(mark, board, spots)
    elif mark["face"] != "back":
        yield f"lies on the {mark['face']}"
    elif OVERHANG.fullmatch(mark["role"]):
        yield from _overhang(mark, board, placed, parts)
    else:
        yield from _over_a_screw(placed[0], board, parts)


def _across_a_row(
    mark: dict[str, Any], board: Board, spots: tuple[tuple[Fraction, Fraction], ...]
) -> Iterator[str]:
    """A line across the hole, as long as that is wide, or across all lines of the row."""
    holes = [cut for cut in board.cuts if cut.joint == mark["joint"]
             and (found := HOLE.fullmatch(cut.role))
             and f"{found[1].removesuffix(' hole')} {found[2]}" == mark["role"]]
    if not holes or any(cut.bore is None for cut in holes):
        yield "has no hole of its own"
        return
    middles = {Fraction(cut.bore["centre"][0]) for cut in holes if cut.bore}
    ends = (min(cut.reach[1][0] for cut in holes), max(cut.reach[1][1] for cut in holes))
    lone = {cut.reach[1] for cut in holes}
    run = tuple(sorted(spot[1] for spot in spots))
    if {spot[0] for spot in spots} != middles:
        yield f"stands at {spots}, the holes' middles at {middles}"
    # the polygon in a hole's circle has its points at the circle's very ends
    if run != ends and run not in lone:
        yield f"runs {run}, the holes {ends}"


def _overhang(
    mark: dict[str, Any], board: Board, placed: list[Point], parts: dict[str, Board]
) -> Iterator[str]:
    """Right across the board, where the outside of what it lies on comes to."""
    level = board.stands[2][0]
    under = [one.stands for one in parts.values() if one.stands[2][1] == level]
    if not under:
        yield "is of a top that lies on nothing"
        return
    reach = reach_of([spot for one in under for spot in corners(one)])
    axis = 0 if mark["role"] == "overhang" else 1
    wanted = {"overhang": set(reach[0]), "overhang in front": {reach[1][0]},
              "overhang behind": {reach[1][1]}}[mark["role"]]
    if not {spot[axis] for spot in placed} <= wanted:
        yield f"stands at {[spot[axis] for spot in placed]}, the outside at {wanted}"
    if tuple(sorted(spot[1 - axis] for spot in placed)) != board.stands[1 - axis]:
        yield "does not run right across"


def _over_a_screw(place: Point, board: Board, parts: dict[str, Board]) -> Iterator[str]:
    """In a screw's slot, or over the middle of a button's block. (Where in the slot, only the
    year can tell: the judge of the whole top says that.)"""
    for one in parts.values():
        for cut in one.cuts:
            if cut.role == "button waste":
                (x, y, _) = one.place(((one.size[0] + cut.reach[0][1]) / 2, one.size[1] / 2, ZERO))
                if (x, y) == place[:2]:
                    return
        for number in {found[2] for cut in one.cuts if (found := SLOT.fullmatch(cut.role))
                       and found[1] == "screw slot"}:
            ends, _ = slot(one.cuts, f"screw slot {number}")
            at = [spot for spot, _ in ends_of(one, ends)]
            if {spot[0] for spot in at} == {place[0]} and (
                min(spot[1] for spot in at) <= place[1] <= max(spot[1] for spot in at)
            ):
                return
    yield f"stands at {place}, over no screw"


def _laid_out(top: Top) -> Iterator[str]:
    """Every line and point that a cut for this top asks for is there once, and every screw has
    its place on the top's back."""
    told = Counter((m["part"], m["joint"], m["face"], m["role"]) for m in top.numbers["marks"])
    rails = {one["rail"] for one in top.told["fixings"]}
    buttons = {one["button"] for one in top.told["fixings"] if one["button"]}
    ids = {*top.told["parts"], *top.told["end_caps"], *rails, *buttons}
    for board in top.parts.values():
        if board.id in ids:
            # the row's line is one, however many holes stand on it
            spots: dict[tuple[str, str, str, str], set[Any]] = {}
            for one in wanted_of(board):
                spots.setdefault(one.key, set()).add(one.spots)
            for key, own in spots.items():
                if told[key] != len(own):
                    yield f"{told[key]} marks {key}, not {len(own)}"
    for number, one in enumerate(top.told["fixings"], 1):
        place = _screw_place(top, one)
        own = [m for m in top.numbers["marks"] if m["role"] == f"screw {number}"
               and m["part"] in top.told["parts"]]
        if len(own) != 1:
            yield f"{len(own)} places for screw {number}"
            continue
        board = top.by_id[own[0]["part"]]
        (spot,) = _spots(own[0])
        found = board.place((spot[0], spot[1], board.size[2]))
        for cut in board.cuts:
            (a, b), (c, d), (_, back) = cut.reach
            if back == board.size[2] and a < spot[0] < b and c < spot[1] < d:
                yield f"screw {number} stands where the {cut.role} takes the wood"
        if found[:2] != place[:2]:
            yield f"screw {number} stands over {found[:2]}, wanted {place[:2]}"
        hole = top.mm(top.sub("fixing") or {}, "screw_hole")
        if Fraction(own[0]["diameter"]) != hole:
            yield f"screw {number} is {own[0]['diameter']} thick"


SUBJECTS: dict[str, Callable[[Top], Iterator[str]]] = {
    "sizes": _sizes,
    "movement": _movement,
    "fixings": _fixings,
    "screws": _screws,
    "buttons": _buttons,
    "caps": _caps,
    "holes": _holes,
    "clear": _clear,
    "strips": _strips,
    "laid out": _laid_out,
}
