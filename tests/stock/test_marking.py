"""The marking order: every mark once, nothing before what it is measured from or stops at.

What must come before what is told here from the marks themselves, where they begin and end on the
wood, never from the order's own grouping. Shoulders before gauge lines: William Noyes, Handwork in
Wood, 1910, ch. VII no. 32; the rest is common practice, no source.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import product
from pathlib import Path
from random import Random

import pytest

from layout.builds.frame import SIDES
from layout.errors import ShoulderlineError
from layout.mark import Hull, Mark
from layout.part import Axis, Part
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.settings import settings
from layout.stock.cut_list import cut_list
from layout.stock.marking import marking
from layout.stock.marking_step import Step
from tests.outside.test_random_doors import door
from tests.outside.test_random_dovetails import random_box
from tests.outside.test_random_frames import frame as random_frame
from tests.pieces import frame, inch, inches, piece, rail

ROOT = Path(__file__).parents[2]
FILES = [
    *sorted((ROOT / "samples").glob("*.toml")),
    *sorted((ROOT / "tests" / "tenon_pieces").glob("*.toml")),
    # every other one, for time's sake: the laws hold for all
    *sorted((ROOT / "tests" / "outside" / "pieces").glob("*.toml"))[::2],
    *(ROOT / "tests" / "piece_file" / f"every_{name}.toml"
      for name in ("box", "case", "door", "tenon", "top")),
]
GAUGES = ("marking gauge", "mortise gauge")
ENDS = ("end A", "end B")
ACROSS = ("pencil across", "square across")
# One phase after the other: a kind may come again only within its own.
PHASES = {
    "mark reference surfaces": 0, "end lines": 1, "lay together": 1, "tick": 1,
    "pencil across": 1, "square across": 1, "carry round": 1, "glue lines": 2, "pencil lines": 2,
    "knife lines": 2, "gauge setting": 3, "knife between walls": 4, "dividers": 5,
    "square across the ends": 5, "bevel lines": 5, "square down": 5, "pins from tails": 5,
    "tails from pins": 5, "holes": 6, "crossings": 6, "prick through the caps": 6,
    "waste crosses": 7,
}


@cache
def opened(path: Path) -> tuple[Piece, tuple[Step, ...]]:
    p = work_out(read_piece(path))
    return p, marking(p)


def made_at(steps: tuple[Step, ...]) -> dict[int, int]:
    """The number of the step that makes each mark, by the mark's identity."""
    return {id(mark): step.number for step in steps for mark in step.marks}


def marked(p: Piece) -> list[Part]:
    on = {mark.part for mark in p.marks}
    return [part for part in p.parts if part.id in on]


# -- the laws, each an iterator over what breaks it


def coverage(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Every mark of the piece in one step, and nothing else in any."""
    got = Counter(id(mark) for step in steps for mark in step.marks)
    known = {id(mark) for mark in p.marks}
    yield from (f"made {got[id(mark)]} times: {mark}" for mark in p.marks if got[id(mark)] != 1)
    yield from (f"no mark of the piece: {mark}"
                for step in steps for mark in step.marks if id(mark) not in known)
    if [step.number for step in steps] != list(range(1, len(steps) + 1)):
        yield "numbers"


def told_truly(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """A step names the parts, the surfaces, the reference surfaces and the figures of its marks,
    and every one of its figures is on every surface that it names of every part.
    """
    for step in steps:
        marks = (*step.marks, *step.pencilled)
        if not marks:
            continue
        if {mark.part for mark in marks} != set(step.parts):
            yield f"{step.number}: parts"
        if {mark.face for mark in marks} != set(step.faces):
            yield f"{step.number}: faces"
        if {mark.source for mark in marks} != set(step.sources):
            yield f"{step.number}: from {step.sources}"
        there = {(mark.part, mark.face, mark.distance) for mark in marks}
        told = set(product(step.parts, step.faces, (line.at for line in step.lines)))
        if step.lines and step.kind != "gauge setting" and told != there:
            yield f"{step.number}: not there: {told ^ there}"
        figures = [line.at for line in step.lines]
        if figures != sorted(figures):
            yield f"{step.number}: not in order from the reference"
        if step.corners or not figures:
            continue  # scribed from the other board
        exact = {mark.pair[0] if mark.pair else mark.distance for mark in marks}
        if exact != set(figures):
            yield f"{step.number}: figures"


def phases(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """References first, then across, along, gauges, by hand, holes; the crosses last."""
    reached = 0
    for step in steps:
        if step.kind == "prick from the master":
            continue
        if step.kind == "tapers":
            here = 2 if set(step.sources) <= set(ENDS) else PHASES["bevel lines"]
        else:
            here = PHASES[step.kind]
        if here < reached:
            yield f"{step.number}: {step.kind}"
        reached = here
    crossed = [step for step in steps if step.kind == "waste crosses"]
    hollow = {cut.part for cut in p.cuts if isinstance(cut.shape, Hull)}
    want = [part.id for part in marked(p) if part.id in hollow]
    if [list(step.parts) for step in crossed] != ([want] if want else []):
        yield "crosses"


def references(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Nothing on a part before its reference surfaces are marked, each part's once."""
    done: list[str] = []
    for step in steps:
        if step.kind == "mark reference surfaces":
            done += step.parts
        elif set(step.parts) - set(done):
            yield f"{step.number}: {set(step.parts) - set(done)} not yet"
    if sorted(done) != sorted(part.id for part in marked(p)):
        yield "reference surfaces not once each"


def gauges(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """The settings of the cards, in their order, each once, with everything that it strikes."""
    found = [step for step in steps if step.kind == "gauge setting"]
    if [step.setting for step in found] != list(settings(p.marks)):
        yield "settings"
    for step in found:
        assert step.setting is not None
        if step.marks != step.setting.marks:
            yield f"setting {step.setting.number}: marks"
        line = step.lines[0]
        if (line.at, line.second) != (step.setting.distance, step.setting.second):
            yield f"setting {step.setting.number}: figures"


def stops_at(line: Mark, other: Mark) -> bool:
    """True where an end of one line lies on another, square to it, on the same surface."""
    if line.line is None or other.line is None or line.face != other.face:
        return False
    (a, b), ends = other.line, line.line
    for axis in (0, 1):
        if a[axis] == b[axis]:
            low, high = sorted((a[1 - axis], b[1 - axis]))
            along = ends[0][1 - axis] == ends[1][1 - axis]
            return along and any(
                spot[axis] == a[axis] and low <= spot[1 - axis] <= high for spot in ends
            )
    return False


def walls_at(p: Piece, mark: Mark, open_end: bool = False) -> int:
    """How many gauged walls a knife line across runs between, where it is an end of a cut with wood
    beyond both its ends: a mortise, a groove that stops; else 0. A mortise that is open at an arris
    has one. With `open_end` also of a cut that runs out at the part's end: a notch at a tip.
    The cut's own size says so, not the mark's name.
    """
    if mark.tool != "knife" or mark.line is None or mark.line[0][0] != mark.line[1][0] \
            or mark.face in ENDS:
        return 0
    across: Axis = "W" if mark.face in ("face", "back") else "T"
    low, high = sorted((mark.line[0][1], mark.line[1][1]))
    part = p.part(mark.part)
    gauged = [one for one in p.marks_of(part.id) if one.tool in GAUGES and one.face == mark.face]
    walls = sum(any(lies_on(one, spot) for one in gauged) for spot in mark.line)
    for cut in p.cuts_of(part.id):
        if not isinstance(cut.shape, Hull):
            continue
        along = {spot[0] for spot in cut.shape.points}  # an end may slope
        inside = open_end or 0 < min(along) < max(along) < part.length
        if mark.line[0][0] in along and inside \
                and (walls == 2 or low == 0 or high == part.size(across)):
            side, other = cut.shape.reach(across)
            if low <= side < other <= high:
                return walls
    return 0


def mortise_ends(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """An end of a mortise is pencilled once, then its walls are gauged, then it is knifed from one
    to the other.
    """
    at = made_at(steps)
    pencilled: dict[int, list[int]] = defaultdict(list)
    for step in steps:
        for mark in step.pencilled:
            pencilled[id(mark)].append(step.number)
    knifed = {id(mark) for step in steps if step.kind == "knife between walls"
              for mark in step.marks}
    walls: dict[tuple[str, str], list[Mark]] = defaultdict(list)
    for mark in p.marks:
        if mark.tool in GAUGES:
            walls[mark.part, mark.face].append(mark)
    for mark in p.marks:
        walls_ = walls_at(p, mark, open_end=True)
        must = walls_at(p, mark) == 2
        if (must and id(mark) not in knifed) or (walls_ == 0 and id(mark) in knifed):
            yield f"knifed between walls or not: {mark}"
        if id(mark) not in knifed:
            continue
        assert mark.line is not None
        stops = [[wall for wall in walls[mark.part, mark.face] if lies_on(wall, spot)]
                 for spot in mark.line]
        gauged = [at[id(one)] for some in stops for one in some]
        if sum(map(bool, stops)) != walls_ or max(gauged, default=0) > at[id(mark)]:
            yield f"no walls yet: {mark}"
        first = min(gauged, default=0)
        if len(pencilled[id(mark)]) != 1 or pencilled[id(mark)][0] > first:
            yield f"not pencilled once before its walls: {mark}"


def lies_on(line: Mark, spot: tuple[Fraction, Fraction]) -> bool:
    """True where a spot is on a line along the part."""
    assert line.line is not None
    (a, v), (b, other) = sorted(line.line)
    return v == other == spot[1] and a <= spot[0] <= b


def end_lines(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Where something is left at an end, the line that is the end comes before all that is measured
    from there, and it lies where the cut list's length has it.
    """
    left = {part: row for row in cut_list(p) if row.left for part in row.parts}
    drawn: dict[str, int] = {}
    for step in steps:
        if step.kind == "end lines":
            for part in step.parts:
                row = left[part]
                if figures(step) != (row.left / 2, row.length) or part in drawn:
                    yield f"{step.number}: {part}"
                drawn[part] = step.number
        elif set(step.sources) & set(ENDS):
            yield from (f"{step.number}: {part} has no end" for part in step.parts
                        if part in left and part not in drawn)
    yield from (f"no end line: {part}" for part in {m.part for m in p.marks} & set(left)
                if part not in drawn)


def knife_before_gauge(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """A gauge line stops at a knife line that is there already. Tails and pins come from gauge
    lines, and ends of mortises from their walls: they are other laws'.
    """
    at = made_at(steps)
    between = {id(mark) for step in steps if step.kind == "knife between walls"
               for mark in step.marks}
    lines: dict[str, list[Mark]] = defaultdict(list)
    for mark in p.marks:
        if mark.tool == "knife" and " of tail " not in mark.role \
                and "half pin" not in mark.role and id(mark) not in between:
            lines[mark.part].append(mark)
    for mark in p.marks:
        if mark.tool not in GAUGES:
            continue
        for knife in lines[mark.part]:
            if stops_at(mark, knife) and at[id(knife)] > at[id(mark)]:
                yield f"{mark} before {knife}"


def bevels_after(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """A sloped line comes after the gauge and knife lines that it starts from and ends at; holes
    after every line.
    """
    at = made_at(steps)
    lines: dict[tuple[str, str], list[Mark]] = defaultdict(list)
    last: dict[str, int] = defaultdict(int)
    for mark in p.marks:
        if mark.line is None:
            continue
        last[mark.part] = max(last[mark.part], at[id(mark)])
        if mark.tool != "bevel" and (mark.tool in GAUGES or mark.source in ENDS):
            lines[mark.part, mark.face].append(mark)
    for mark in p.marks:
        if mark.tool == "bevel":
            yield from (f"{mark} before {other}" for other in lines[mark.part, mark.face]
                        if at[id(other)] > at[id(mark)])
        if mark.point is not None and last[mark.part] > at[id(mark)]:
            yield f"{mark} before a line of its part"


def dovetails(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Baselines, then the first board's tails or pins, then the other board's from them."""
    at = made_at(steps)
    kinds = {step.number: step.kind for step in steps}
    for corner in p.corners:
        mine = [mark for mark in p.marks if mark.joint == corner.name]
        sides = [mark for mark in mine if mark.tool not in GAUGES
                 and (" of tail " in mark.role or "half pin" in mark.role)]
        struck = [at[id(mark)] for mark in mine if mark.tool in GAUGES]
        first = corner.spacing.choice.first
        lends, takes = (corner.tails.id, corner.pins.id)
        if first == "pins":
            lends, takes = takes, lends
        early = [at[id(mark)] for mark in sides if mark.part == lends]
        late = [at[id(mark)] for mark in sides if mark.part == takes]
        if not early or not late or not max(struck) < min(early) <= max(early) < min(late):
            yield f"{corner.name}: {struck}, {early}, {late}"
        scribed = {kinds[at[id(mark)]] for mark in sides
                   if mark.part == takes and mark.tool == "bevel"}
        if scribed != {"pins from tails" if first == "tails" else "tails from pins"}:
            yield f"{corner.name}: {scribed}"
        met = [(one.letter, one.lends, one.takes) for step in steps for one in step.corners]
        if met.count((corner.letter, lends, takes)) < 1:
            yield f"{corner.name} is not told"
    if sum(len(step.corners) for step in steps) != len(p.corners):
        yield "corners not once each"


def together(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Parts of a kind and a length that share a line lie together; what is squared across several
    at once lies together, with that surface up, and has its line in the same place on each.
    """
    laid = [step for step in steps if step.kind == "lay together"]
    where = {part: step for step in laid for part in step.parts}
    if sum(len(step.parts) for step in laid) != len(where):
        yield "a part lies in two sets"
    places: dict[str, set[tuple[object, ...]]] = defaultdict(set)
    for mark in p.marks:
        if mark.line and mark.tool in ("knife", "pencil") and mark.source in ENDS \
                and mark.face not in ENDS and mark.line[0][0] == mark.line[1][0]:
            places[mark.part].add((mark.face, mark.tool, mark.source, mark.distance))
    some = [part for part in p.parts if part.id in places]
    for number, one in enumerate(some):
        for other in some[:number]:
            alike = (one.kind, one.length) == (other.kind, other.length)
            if alike and places[one.id] & places[other.id] \
                    and where.get(one.id) is not where.get(other.id, steps):
                yield f"{one.id} and {other.id} lie apart"
    for step in laid:
        parts = [p.part(one) for one in step.parts]
        if len(parts) < 2 or len({part.length for part in parts}) != 1:
            yield f"{step.number}: no set"
        if {"left", "right"} <= {part.hand for part in parts} and not step.mirrored:
            yield f"{step.number}: hands"
        turned = {part.placement.mirrored for part in parts}
        if step.mirrored != (len(turned) == 2):
            yield f"{step.number}: mirrored {step.mirrored}, stands {turned}"
    for step in steps:
        if step.kind not in ACROSS:
            continue
        if len(step.parts) > 1:
            bench = where.get(step.parts[0])
            if bench is None or not set(step.parts) <= set(bench.parts) \
                    or bench.number > step.number or step.faces[0] not in bench.faces:
                yield f"{step.number}: not laid together"
        later = {(mark.part, mark.distance) for mark in step.pencilled}
        for part in step.parts:
            for line in step.lines:
                tool = "knife" if (part, line.at) in later else step.tool
                place = (step.faces[0], tool, step.sources[0], line.at)
                if place not in places[part]:
                    yield f"{step.number}: no line at {line.at} on {part}"


def ticked(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """Every line across was ticked on the master of those that lie together, once; what is carried
    round was squared across that very part.
    """
    ticks: Counter[tuple[object, ...]] = Counter()
    squared: set[tuple[object, ...]] = set()
    for step in steps:
        at = [(step.sources[0], line.at) for line in step.lines] if step.sources else []
        if step.kind == "tick":
            if step.parts != (step.master,):
                yield f"{step.number}: ticked on more than the master"
            ticks.update((step.master, step.faces[0], *one) for one in at)
        elif step.kind in ACROSS:
            if step.master not in step.parts:
                yield f"{step.number}: the master lies elsewhere"
            for one in at:
                if ticks[step.master, step.faces[0], *one] != 1:
                    yield f"{step.number}: {one} is not ticked once"
            squared |= {(part, step.tool, *one) for part in step.parts for one in at}
            names = {part: {(m.distance, m.role) for m in (*step.marks, *step.pencilled)
                            if m.part == part} for part in step.parts}
            if any(names[part] != names[step.master] for part in step.parts):
                yield f"{step.number}: not the same thing on each"
        elif step.kind == "carry round":
            for part in step.parts:
                for one in at:
                    if (part, step.tool, *one) not in squared:
                        yield f"{step.number}: {one} was never on {part}"
    used = {(step.master, step.faces[0], step.sources[0], line.at)
            for step in steps if step.kind in ACROSS for line in step.lines}
    yield from (f"a tick for nothing: {one}" for one in set(ticks) - used)


def masters(p: Piece, steps: tuple[Step, ...]) -> Iterator[str]:
    """What is pricked stands on the master already, which is of one size with the others and has
    the same figures.
    """
    by_number = {step.number: step for step in steps}
    for step in steps:
        if step.kind != "prick from the master":
            continue
        before = by_number[step.number - 1]
        if before.parts != (step.master,) or before.lines != step.lines:
            yield f"{step.number}: the master is not marked just before"
        if step.master in step.parts:
            yield f"{step.number}: the master from itself"
        sizes = {(part.length, part.width, part.thickness)
                 for part in map(p.part, (step.master, *step.parts))}
        if len(sizes) != 1:
            yield f"{step.number}: {sizes}"
        shape = Counter((m.face, m.role, m.line, m.point) for m in before.marks)
        for part in step.parts:
            if Counter((m.face, m.role, m.line, m.point)
                       for m in step.marks if m.part == part) != shape:
                yield f"{step.number}: {part} differs"


LAWS = (coverage, told_truly, phases, references, gauges, knife_before_gauge, mortise_ends,
        end_lines, bevels_after,
        dovetails, together, ticked, masters)


def broken(p: Piece, steps: tuple[Step, ...]) -> list[str]:
    return [f"{law.__name__}: {what}" for law in LAWS for what in law(p, steps)]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_law_on_every_piece(path: Path) -> None:
    p, steps = opened(path)
    assert p.marks
    assert broken(p, steps) == []


def test_the_pieces_show_every_kind_of_step() -> None:
    shown = {step.kind for path in FILES for step in opened(path)[1]}
    assert shown == {*PHASES, "tapers", "prick from the master"}


@pytest.mark.parametrize("kind", ["frame", "drawer", "chest", "door"])
def test_every_law_on_pieces_drawn_by_lot(tmp_path: Path, kind: str) -> None:
    path = tmp_path / "piece.toml"
    stood = 0
    for number in range(4):
        lot = Random(f"{kind} {number}")
        texts = {"frame": random_frame, "door": door}
        text = texts[kind](lot) if kind in texts else random_box(kind, lot)
        path.write_text(text, encoding="utf-8")
        try:
            p = work_out(read_piece(path))
        except ShoulderlineError:
            continue  # drawn so that it can't stand
        assert broken(p, marking(p)) == [], text
        stood += 1
    assert stood >= 2


# -- laws that can be broken


@pytest.mark.parametrize(
    ("law", "spoil"),
    [
        (coverage, lambda steps: steps[:-3]),
        (coverage, lambda steps: (*steps, steps[-3])),
        (told_truly, lambda steps: tuple(s._replace(faces=s.faces[1:]) for s in steps)),
        (told_truly, lambda steps: tuple(s._replace(lines=s.lines[::-1]) for s in steps)),
        (phases, lambda steps: steps[::-1]),
        (references, lambda steps: steps[1:]),
        (gauges, lambda steps: tuple(sorted(steps, key=lambda s: -s.number))),
        (together, lambda steps: tuple(s for s in steps if s.kind != "lay together")),
        (together, lambda steps: tuple(s._replace(mirrored=False) for s in steps)),
        (ticked, lambda steps: tuple(s for s in steps if s.kind != "tick")),
        (ticked, lambda steps: tuple(s for s in steps if s.kind not in ACROSS)),
        (mortise_ends, lambda steps: tuple(s._replace(pencilled=()) for s in steps)),
        (mortise_ends, lambda steps: tuple(s for s in steps if s.kind != "knife between walls")),
    ],
)
def test_a_broken_order_is_seen(law, spoil) -> None:  # type: ignore[no-untyped-def]
    p, steps = opened(ROOT / "samples" / "hall_table.toml")
    assert list(law(p, steps)) == []
    assert list(law(p, spoil(steps))) != []


def renumbered(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    return tuple(step._replace(number=number) for number, step in enumerate(steps, start=1))


@pytest.mark.parametrize("spoil", [
    lambda steps: tuple(s for s in steps if s.kind != "end lines"),
    lambda steps: sorted(steps, key=lambda s: s.kind == "end lines"),
    lambda steps: tuple(s._replace(lines=s.lines[1:]) for s in steps),
])
def test_a_missing_or_late_end_line_is_seen(spoil) -> None:  # type: ignore[no-untyped-def]
    p, steps = opened(ROOT / "samples" / "wall_cabinet.toml")
    assert list(end_lines(p, steps)) == []
    assert list(end_lines(p, renumbered(tuple(spoil(steps))))) != []


def test_mortises_knifed_before_their_walls_are_seen() -> None:
    p, steps = opened(ROOT / "samples" / "writing_table.toml")
    assert list(mortise_ends(p, steps)) == []
    early = sorted(steps, key=lambda s: s.kind == "gauge setting")
    assert list(mortise_ends(p, renumbered(tuple(early)))) != []


@pytest.mark.parametrize("law", [knife_before_gauge, bevels_after, dovetails, masters])
def test_the_order_the_other_way_round_is_seen(law) -> None:  # type: ignore[no-untyped-def]
    p, steps = opened(ROOT / "tests" / "piece_file" / "every_case.toml")
    if law is bevels_after:
        p, steps = opened(ROOT / "samples" / "writing_table.toml")
    if law is knife_before_gauge:
        p, steps = opened(ROOT / "samples" / "hall_table.toml")
    assert list(law(p, steps)) == []
    assert list(law(p, renumbered(steps[::-1]))) != []


# -- by hand


def figures(step: Step) -> tuple[Fraction, ...]:
    return tuple(line.at for line in step.lines)


def test_a_frame_by_hand() -> None:
    """48 x 24 over legs 2 1/2 square; rails 4 x 1 1/8 flush with faces and tops; tenons 1 1/4 long,
    3/8 thick, shoulders of 1/4 above and below.

    Mortises: 1/4 to 4 - 1/4 = 3 3/4. Long rails: 48 - 2 x 2 1/2 = 43 between shoulders, from
    1 1/4 to 44 1/4; end rails 24 - 5 = 19, to 20 1/4. Cheeks: 3/8 in the middle of 1 1/8, so 3/8
    and 3/4; walls in the leg the same, as the rail is flush with it.
    """
    legs = ("front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg")
    long, end = ("front-rail", "back-rail"), ("left-rail", "right-rail")
    steps = marking(piece(frame(rail(sides=SIDES))))
    told = [(step.kind, step.parts, step.faces, figures(step)) for step in steps]
    mortise, edge = inches("1/4 | 3 3/4"), inches("4")
    on_long, on_end = inches("1 1/4 | 44 1/4"), inches("1 1/4 | 20 1/4")
    ends = ("face", "edge", "end A", "end B")
    around = ("face", "back", "far edge")
    assert told[:14] == [
        ("mark reference surfaces", legs, ends, ()),
        ("mark reference surfaces", (*long, *end), ends, ()),
        ("lay together", legs, ("far edge",), ()),
        ("tick", legs[:1], ("far edge",), (*mortise, *edge)),
        ("pencil across", legs, ("far edge",), (*mortise, *edge)),
        ("carry round", legs, ("back",), (*mortise, *edge)),
        ("lay together", long, ("edge",), ()),
        ("tick", long[:1], ("edge",), on_long),
        ("square across", long, ("edge",), on_long),
        ("carry round", long, around, on_long),
        ("lay together", end, ("edge",), ()),
        ("tick", end[:1], ("edge",), on_end),
        ("square across", end, ("edge",), on_end),
        ("carry round", end, around, on_end),
    ]
    assert [(step.kind, step.lines[0].at, step.lines[0].second) for step in steps[14:17]] == [
        ("gauge setting", inch("3/8"), inch("3/4")),  # walls and cheeks: one stand, first
        ("gauge setting", inch("1/4"), None),
        ("gauge setting", inch("3 3/4"), None),
    ]
    assert steps[14].parts == (*legs, *long, *end)
    # the mortises' ends only now, on both surfaces of every leg
    assert told[17:] == [
        ("knife between walls", legs, ("back", "far edge"), mortise),
        ("waste crosses", (*legs, *long, *end), (), ()),
    ]
    assert [len(step.pencilled) for step in steps[4:6]] == [8, 8]
    assert [len(step.marks) for step in (*steps[4:6], steps[17])] == [4, 4, 16]
    assert [step.mirrored for step in steps if step.kind == "lay together"] == [True, False, False]


def test_four_legs_with_two_patterns_lie_together() -> None:
    """A rail in front only: the back legs share the end rails' lines, and lie with the front ones.
    """
    steps = marking(piece(frame(
        rail("end rail", sides=("left", "right")),
        rail("low rail", sides=("front",), below_top=None, above_floor=inch(6)),
    )))
    (laid,) = [s for s in steps if s.kind == "lay together" and "front-left-leg" in s.parts]
    assert len(laid.parts) == 4
    on_legs = {(s.parts, s.faces) for s in steps if s.kind == "pencil across"
               and "front-left-leg" in s.parts}
    front = ("front-left-leg", "front-right-leg")
    assert on_legs == {(laid.parts, ("back",)), (front, ("far edge",))}


def test_tails_are_pricked_across_both_sides_and_pins_come_from_them() -> None:
    p, steps = opened(ROOT / "samples" / "map_chest.toml")
    sides = ("drawer-1-left-side", "drawer-1-right-side")
    own = [step.kind for step in steps if step.parts == sides]
    # front end: across, bevel; back end: across with the half pin's square side, bevel, down
    assert own == ["square across the ends", "bevel lines", "square across the ends",
                   "bevel lines", "square down"]
    steps_off = [step for step in steps if step.kind == "dividers" and step.parts == sides[:1]]
    assert [step.lines[0].at for step in steps_off] == [
        corner.spacing.step for corner in p.corners if corner.name in ("drawer-1.A", "drawer-1.D")
    ]
    (pins,) = [step for step in steps if step.kind == "pins from tails"
               and "drawer-1-front" in step.parts]
    assert ("A", *sides[:1], "drawer-1-front") in pins.corners
    assert ("B", *sides[1:], "drawer-1-front") in pins.corners


def test_top_and_bottom_of_a_carcase_lie_together() -> None:
    """They are two kinds of board, of one size, with the partitions' sockets in common."""
    _, steps = opened(ROOT / "samples" / "wall_cabinet.toml")
    (laid,) = [step for step in steps
               if step.kind == "lay together" and "cabinet-top" in step.parts]
    assert laid.parts == ("cabinet-top", "cabinet-bottom")
    assert laid.mirrored


def test_what_has_no_marks_is_left_out() -> None:
    p, steps = opened(ROOT / "samples" / "repair_bench.toml")
    bare = {part.id for part in p.parts} - {mark.part for mark in p.marks}
    assert "left-end-panel" in bare
    assert bare.isdisjoint(part for step in steps for part in step.parts)


def test_the_same_piece_gives_the_same_order() -> None:
    p, steps = opened(ROOT / "samples" / "map_chest.toml")
    assert marking(p) == steps
