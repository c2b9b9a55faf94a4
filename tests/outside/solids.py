"""A judge from outside: builds every part of a piece as a solid, from the public numbers alone.

It reads the JSON object that `shoulderline numbers --json` prints (format 1) and the maker's own
TOML, and nothing of the program's joints, builds or checks. A part is its box less its cuts, put
in place by its origin and axes. Solids are made and combined by manifold3d, plane figures by
shapely. Lengths stay exact Fractions of a millimetre until a solid is made of them.

`judge(numbers, told)` gives a list of objections, empty where the piece is sound.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from manifold3d import Manifold
from shapely import Polygon, box

from tests.outside import judge_marks
from tests.outside.judge_boards import (
    NOTHING,
    NUDGE,
    PIECE_AXES,
    SHADE,
    Board,
    Cut,
    Reach,
    boards,
    common,
    corners,
    differ,
    hull,
    less,
    meet,
    overlapping,
    pushed,
    reach_of,
    shadow,
    volume,
)

SHOULDER_RULE = "shoulder clear of the seats"
"""The rule that may tell of a shoulder with no wood before it."""

# -- what the maker told: the piece file, read a second time


@dataclass(frozen=True)
class Tenon:
    """The maker's tenon, in mm; None where they left the choice to the program."""

    length: Fraction
    glue_room: Fraction
    thickness: Fraction | None
    outer: Fraction | None
    top: Fraction | None
    bottom: Fraction | None


@dataclass(frozen=True)
class Rail:
    """The maker's rail, in mm; `top` is how high its top edge stands over the floor."""

    name: str
    sides: tuple[str, ...]
    width: Fraction
    thickness: Fraction
    set_in: Fraction
    top: Fraction
    tenon: Tenon

    @property
    def bottom(self) -> Fraction:
        """How high its bottom edge stands over the floor."""
        return self.top - self.width


@dataclass(frozen=True)
class Panel:
    """The maker's panel, in mm; `depth` is a rabbet's from behind, or a groove's from before."""

    name: str
    openings: tuple[str, ...]
    thickness: Fraction
    seat: str
    in_legs: str
    run: str
    lip: Fraction
    room: Fraction
    depth: Fraction | None


@dataclass(frozen=True)
class Told:
    """What a piece file says, in mm."""

    length: Fraction
    depth: Fraction
    height: Fraction
    leg: tuple[Fraction, Fraction]
    rails: tuple[Rail, ...]
    panels: tuple[Panel, ...]
    shoulder: Fraction

    def side(self, side: str) -> Side:
        """Where one side of the frame stands."""
        normal, along = (1, 0) if side in ("front", "back") else (0, 1)
        near = side in ("front", "left")
        outside = Fraction(0) if near else (self.length, self.depth)[normal]
        low, high = self.leg[along], (self.length, self.depth)[along] - self.leg[along]
        return Side(side, normal, along, outside, 1 if near else -1, low, high)

    def on(self, side: str) -> list[Rail]:
        """The rails of one side, highest first."""
        return sorted((r for r in self.rails if side in r.sides), key=lambda r: -r.top)

    def openings(self, panel: Panel) -> Iterator[tuple[Side, Rail, Rail]]:
        """Each opening of a panel: the side, the rail above and the rail below."""
        for opening in panel.openings:
            side, _, above = opening.partition(" under ")
            rails = self.on(side)
            at = [r.name for r in rails].index(above)
            yield self.side(side), rails[at], rails[at + 1]


@dataclass(frozen=True)
class Side:
    """One side of a frame: its normal and its run (0 X, 1 Y), the plane of the legs' faces, which
    way is in, and where the legs' inner faces stand along the run."""

    name: str
    normal: int
    along: int
    outside: Fraction
    inward: int
    low: Fraction
    high: Fraction

    def legs(self) -> tuple[str, str]:
        """The names of its two legs, the one at the low end of the run first."""
        if self.along == 0:
            return f"{self.name} left leg", f"{self.name} right leg"
        return f"front {self.name} leg", f"back {self.name} leg"

    def deep(self, near: Fraction, far: Fraction) -> tuple[Fraction, Fraction]:
        """Two distances behind the legs' faces, as coordinates along the normal."""
        one, other = self.outside + self.inward * near, self.outside + self.inward * far
        return min(one, other), max(one, other)

    def reach(
        self, along: tuple[Fraction, Fraction], deep: tuple[Fraction, Fraction],
        up: tuple[Fraction, Fraction],
    ) -> Reach:
        """A box of this side: along its run, behind the legs' faces, and up."""
        found = {self.along: along, self.normal: self.deep(*deep), 2: up}
        return (found[0], found[1], found[2])


_LENGTH = re.compile(r"(?:(\d+(?:\.\d+)?)(?: (?=\d))?)?(?:(?<![\d.])(\d+/\d+))? ?(in|mm)?")
_UNIT = {"in": Fraction(127, 5), "mm": Fraction(1)}


def length_in(value: object, unit: str) -> Fraction:
    """A length as a maker writes it in a file of this unit, in mm."""
    if not isinstance(value, str):
        return Fraction(value) * _UNIT[unit]  # type: ignore[arg-type]
    found = _LENGTH.fullmatch(value)
    if not found or not (found[1] or found[2]):
        raise AssertionError(f"the judge can't read the length {value!r}")
    return (Fraction(found[1] or 0) + Fraction(found[2] or 0)) * _UNIT[found[3] or unit]


def read_told(text: str) -> Told:
    """A piece file as the maker means it, with the defaults that piece.schema.json tells of."""
    file = tomllib.loads(text, parse_float=Decimal)
    unit = file["unit"]
    inch = unit == "in"

    def mm(value: object) -> Fraction:
        return length_in(value, unit)

    def maybe(table: dict[str, Any], key: str) -> Fraction | None:
        return mm(table[key]) if key in table else None

    shoulder, glue_room, room = (
        (mm("1/4"), mm("1/8"), mm("1/16")) if inch else (mm(6), mm(2), mm("1.5"))
    )
    frame = file["frame"]
    height = mm(frame["height"])

    def rail(table: dict[str, Any]) -> Rail:
        tenon = frame.get("tenon", {}) | table.get("tenon", {})
        width = mm(table["width"])
        if "above_floor" in table:
            top = mm(table["above_floor"]) + width
        else:
            top = height - mm(table.get("below_top", 0))
        return Rail(
            table["name"], tuple(table["sides"]), width, mm(table["thickness"]),
            mm(table.get("set_in", 0)), top,
            Tenon(
                mm(tenon["length"]),
                mm(tenon["glue_room"]) if "glue_room" in tenon else glue_room,
                maybe(tenon, "thickness"), maybe(tenon, "outer_shoulder"),
                maybe(tenon, "top_shoulder"), maybe(tenon, "bottom_shoulder"),
            ),
        )

    def panel(table: dict[str, Any]) -> Panel:
        thickness, seat = mm(table["thickness"]), table["seat"]
        return Panel(
            table["name"], tuple(table["openings"]), thickness, seat,
            table.get("in_legs", seat), table.get("run_in_legs", "stopped"), mm(table["lip"]),
            mm(table["room"]) if "room" in table else room,
            mm(table.get("rabbet_depth", table["thickness"])) if seat == "rabbet"
            else maybe(table, "groove_from_face"),
        )

    return Told(
        mm(frame["length"]), mm(frame["depth"]), height,
        (mm(frame["leg"]["width"]), mm(frame["leg"]["thickness"])),
        tuple(rail(table) for table in frame["rail"]),
        tuple(panel(table) for table in file.get("panel", [])),
        shoulder,
    )


# -- the judgement


def judge(
    numbers: dict[str, Any], told: Told, subjects: Iterable[str] | None = None
) -> list[str]:
    """Every objection against a piece that is said to be sound; none where it is.

    `subjects` are keys of SUBJECTS; left out: all of them. Each objection starts with its subject.
    """
    piece = Piece(boards(numbers), told, numbers["marks"], numbers["checks"])
    return [
        f"{subject}: {objection}"
        for subject in (SUBJECTS if subjects is None else subjects)
        for objection in SUBJECTS[subject](piece)
    ]


@dataclass(frozen=True)
class Piece:
    """What is judged: the parts by name, what was told, and the marks and checks as given."""

    parts: dict[str, Board]
    told: Told
    marks: list[dict[str, Any]]
    checks: list[dict[str, Any]]


def _overlaps(piece: Piece) -> Iterator[str]:
    """No two finished parts share wood."""
    for (one, other), shared in overlapping(piece.parts).items():
        yield f"{one} and {other} share {shared:.6f} mm3"


def rail_ends(told: Told) -> Iterator[tuple[Side, Rail, str, str, Fraction, int]]:
    """Each end of each rail: its side, the maker's rail, its name, its leg's, the plane of the
    leg's inner face along the run, and which way the leg lies."""
    for rail in told.rails:
        for name in rail.sides:
            side = told.side(name)
            low, high = side.legs()
            yield side, rail, f"{name} {rail.name}", low, side.low, -1
            yield side, rail, f"{name} {rail.name}", high, side.high, 1


def _sizes(piece: Piece) -> Iterator[str]:
    """Overall sizes, and every leg's and rail's own box, exactly."""
    parts, told = piece.parts, piece.told
    everything = reach_of([p for board in parts.values() for p in corners(board.stands)])
    overall = ((Fraction(0), told.length), (Fraction(0), told.depth), (Fraction(0), told.height))
    if everything != overall:
        yield f"overall, the parts reach {_say(everything)}, the piece file {_say(overall)}"
    made = [board.solid.bounding_box() for board in parts.values()]
    for axis in range(3):
        low, high = min(b[axis] for b in made), max(b[axis + 3] for b in made)
        if abs(low) > 1e-9 or abs(high - float(overall[axis][1])) > 1e-9:
            yield f"overall, the finished solids reach {low} to {high} along {PIECE_AXES[axis]}"
    expected: dict[str, Reach] = {}
    for x, across in (("left", 0), ("right", told.length - told.leg[0])):
        for y, back in (("front", 0), ("back", told.depth - told.leg[1])):
            expected[f"{y} {x} leg"] = (
                (Fraction(across), across + told.leg[0]),
                (Fraction(back), back + told.leg[1]),
                (Fraction(0), told.height),
            )
    for rail in told.rails:
        for name in rail.sides:
            side = told.side(name)
            expected[f"{name} {rail.name}"] = side.reach(
                (side.low - rail.tenon.length, side.high + rail.tenon.length),
                (rail.set_in, rail.set_in + rail.thickness),
                (rail.bottom, rail.top),
            )
    for name, reach in expected.items():
        if name not in parts:
            yield f"there is no {name}"
        elif parts[name].stands != reach:
            yield f"the {name} fills {_say(parts[name].stands)}, not {_say(reach)}"
    panels = sum(len(panel.openings) for panel in told.panels)
    if len(parts) != len(expected) + panels:
        yield f"{len(parts)} parts, not {len(expected)} and {panels} panels"


def _wood(piece: Piece) -> Iterator[str]:
    """Every cut takes wood, and no part falls asunder."""
    for board in piece.parts.values():
        for cut in board.cuts:
            if common(cut.solid, board.box) < NOTHING:
                yield f"the {cut.role} of the {board.name} ({cut.joint}) takes nothing"
        pieces = len(board.solid.decompose())
        if pieces != 1:
            yield f"the {board.name} is {pieces} pieces"


def _mortise(leg: Board, rail: Board) -> Cut | None:
    """The one mortise that a leg has for a rail: they share the joint's name."""
    joints = {cut.joint for cut in rail.cuts}
    found = [c for c in leg.cuts if c.role == "mortise" and c.joint in joints]
    return found[0] if len(found) == 1 else None


def _seats(board: Board, parts: dict[str, Board]) -> list[Cut]:
    """The cuts of a leg or rail that are for panels: their joint is no mortise's."""
    joined = {
        c.joint for other in parts.values() for c in other.cuts if c.role.split()[-1] == "mortise"
    }
    return [cut for cut in board.cuts if cut.joint not in joined]


def seat_plane(panel: Panel, above: Rail) -> Fraction:
    """How far behind the legs' faces a panel's face lies; the rail above it decides."""
    if panel.depth is None:
        return above.set_in + (above.thickness - panel.thickness) / 2
    if panel.seat == "rabbet":
        return above.set_in + above.thickness - panel.depth
    return above.set_in + panel.depth


def _front_wood(told: Told, side: Side, rail: Rail) -> Fraction:
    """How thick the wood of a rail is in front of its rabbets; all of it where it has none."""
    planes = [
        seat_plane(panel, above) - rail.set_in
        for panel in told.panels
        if panel.seat == "rabbet"
        for at, above, below in told.openings(panel)
        if at.name == side.name and rail in (above, below)
    ]
    return min([rail.thickness, *planes])


def _grooved(told: Told, side: Side, rail: Rail, top: bool) -> Fraction | None:
    """How deep the groove in a rail's top or bottom edge is; None where there is none."""
    for panel in told.panels:
        for at, above, below in told.openings(panel):
            if at.name == side.name and rail is (below if top else above):
                return panel.lip if panel.seat == "groove" else None
    return None


def _tenons(piece: Piece) -> Iterator[str]:
    """Each mortise is where the maker put it, and holds its tenon and the glue room."""
    parts, told = piece.parts, piece.told
    for side, rail, rail_name, leg_name, plane, out in rail_ends(told):
        leg, board, tenon = parts[leg_name], parts[rail_name], rail.tenon
        at = f"{rail_name} in {leg_name}"
        mortise = _mortise(leg, board)
        if mortise is None or not mortise.square:
            yield f"no single square mortise for the {at}"
            continue
        stands = mortise.stands
        floor = plane + out * (tenon.length + tenon.glue_room)
        if stands[side.along] != (min(plane, floor), max(plane, floor)):
            yield f"mortise of {at} runs {_say(stands)}, from {plane} to {floor} was told"
        # The section of the tenon, from the rail's face and from its top.
        deep = sorted(side.inward * (v - side.outside) - rail.set_in for v in stands[side.normal])
        outer, thick = deep[0], deep[1] - deep[0]
        top, bottom = rail.top - stands[2][1], stands[2][0] - rail.bottom
        if tenon.thickness not in (None, thick):
            yield f"{at} is {thick} thick, not {tenon.thickness}"
        wanted = tenon.outer
        if wanted is None:
            wanted = (_front_wood(told, side, rail) - thick) / 2
        if outer != wanted:
            yield f"{at} has an outer shoulder of {outer}, not {wanted}"
        for which, found, given in (("top", top, tenon.top), ("bottom", bottom, tenon.bottom)):
            groove = _grooved(told, side, rail, which == "top")
            if given is None and groove is None:
                given = told.shoulder
            if given is None and groove not in (None, found) and found != told.shoulder:
                yield f"{at} has a {which} shoulder of {found} at a groove of {groove}"
            if given is not None and found != given:
                yield f"{at} has a {which} shoulder of {found}, not {given}"
        # The modeller's own view: what of the finished rail is in the leg's uncut box.
        tip = plane + out * tenon.length
        section = list(stands)
        section[side.along] = (min(plane, tip), max(plane, tip))
        wood = hull(corners(tuple(section)))
        seats = _seats(leg, parts)
        if common(wood, hull(mortise.placed)) < float(volume(tuple(section))) - NOTHING:
            yield f"{at} is not wholly inside its mortise"
        if common(wood, wood - less(wood, seats)) > NOTHING:
            yield f"{at} runs through a seat for a panel"
        wrong = differ(less(board.solid ^ leg.box, seats), wood)
        if wrong > NOTHING:
            yield f"in the {leg_name} the {rail_name} differs from its tenon by {wrong} mm3"
        # Mortise = tenon and glue room, exactly and by the modeller.
        tenon_volume = volume(tuple(section))
        glue = thick * (stands[2][1] - stands[2][0]) * tenon.glue_room
        if volume(stands) != tenon_volume + glue:
            yield f"mortise of {at} holds {volume(stands)}, not {tenon_volume} + {glue}"
        taken = common(mortise.solid, leg.box)
        if abs(taken - float(tenon_volume + glue)) > NOTHING:
            yield f"mortise of {at} takes {taken} mm3, not {float(tenon_volume + glue)}"


def _shoulders(piece: Piece) -> Iterator[str]:
    """Each rail touches both legs with its whole shoulder.

    Pushed into a leg by a little, a rail must run into as much wood as its section has beside
    the tenon and the seats that run along it. Where a seat in the leg takes some of that away, a
    check must have told the maker, naming the leg; and only there.
    """
    parts, told = piece.parts, piece.told
    told_of = {
        part for one in piece.checks
        if one["rule"] == SHOULDER_RULE and one["level"] != "note" for part in one["parts"]
    }
    lost: set[str] = set()
    for side, _, rail_name, leg_name, _, out in rail_ends(told):
        leg, board = parts[leg_name], parts[rail_name]
        mortise = _mortise(leg, board)
        if mortise is None:
            continue
        section = _section(board.stands, side)
        for cut in _seats(board, parts):
            section = section.difference(_section(cut.stands, side))
        tenon = _section(mortise.stands, side)
        shoulder = section.difference(tenon).area
        wanted = shoulder * float(NUDGE)
        # Without its tenon, whose tip may stand on the mortise's floor where there's no glue room.
        body = board.solid - mortise.solid
        found = common(pushed(body, side.along, out * NUDGE), leg.solid)
        short = found < wanted - NOTHING
        if short:
            lost.add(leg.id)
            if leg.id in told_of:
                continue  # the maker knows
        if abs(found - wanted) > NOTHING:
            yield (
                f"{rail_name} touches {leg_name} on {found / float(NUDGE):.6f} mm2, "
                f"its shoulder has {wanted / float(NUDGE):.6f}"
            )
    legs = {parts[leg_name].id for _, _, _, leg_name, _, _ in rail_ends(told)}
    for leg_id in sorted((legs & told_of) - lost):
        yield f"{leg_id} is said to have a seat in the way of a shoulder, and has none"


def _section(stands: Reach, side: Side) -> Polygon:
    """A box seen along a side's run."""
    (a, b), (c, d) = stands[side.normal], stands[2]
    return box(float(a), float(c), float(b), float(d))


def _panels(piece: Piece) -> Iterator[str]:
    """Each panel fills its opening, on its seats, by the lip less the room."""
    parts, told = piece.parts, piece.told
    for panel in told.panels:
        for side, above, below in told.openings(panel):
            yield from _panel(parts, told, panel, side, above, below)


def _panel(
    parts: dict[str, Board], told: Told, panel: Panel, side: Side, above: Rail, below: Rail
) -> Iterator[str]:
    at = f"{panel.name} {side.name} under {above.name}"
    opening = ((side.low, side.high), (below.top, above.bottom))
    # The panel is the part that stands across the middle of the opening, in the right depth.
    middle = [(low + high) / 2 for low, high in opening]
    rails = {f"{side.name} {r.name}" for r in (above, below)}
    frame = {name: parts[name] for name in (*side.legs(), *rails)}
    found = [
        b for name, b in parts.items()
        if b.stands[side.along][0] < middle[0] < b.stands[side.along][1]
        and b.stands[2][0] < middle[1] < b.stands[2][1]
        and meet(b.stands, side.reach(opening[0], (Fraction(0), told.leg[side.normal]),
                                      opening[1]))
    ]
    if len(found) != 1:
        yield f"{len(found)} parts fill the opening of the {at}"
        return
    board = found[0]
    # By the figures: lip less room, the plane of the seat, and every seat in that plane.
    for (low, high), (a, b) in zip(opening, (board.stands[side.along], board.stands[2]),
                                   strict=True):
        laps = (low - a, b - high)
        if sum(laps) != 2 * panel.lip - panel.room or not all(
            panel.lip - panel.room <= lap <= panel.lip for lap in laps
        ):
            yield f"{at} laps {laps}, lip {panel.lip}, room {panel.room}"
    plane = seat_plane(panel, above)
    near = min(side.inward * (v - side.outside) for v in board.stands[side.normal])
    thick = board.stands[side.normal][1] - board.stands[side.normal][0]
    if near != plane:
        yield f"{at} lies {near} behind the legs' faces, its seat {plane}"
    if thick != panel.thickness:
        yield f"{at} is {thick} thick, not {panel.thickness}"
    yield from _seat_reach(parts, panel, side, above, below, near, at)
    # By the modeller: inside the seats, over the whole opening, and touching in front.
    for name, member in frame.items():
        outside_seat = less(board.solid ^ member.box, _seats(member, parts)).volume()
        if outside_seat > NOTHING:
            yield f"{at} takes {outside_seat} mm3 of the {name} outside its seat"
    outline = shadow((b.solid for b in frame.values()), side.normal)
    holes = [] if outline.geom_type != "Polygon" else [Polygon(r) for r in outline.interiors]
    if len(holes) != 1:
        yield f"the frame round {at} has {len(holes)} openings in its outline"
        return
    cover = shadow([board.solid], side.normal)
    lap = float(panel.lip - panel.room)
    if not cover.buffer(1e-6, join_style="mitre").covers(
        holes[0].buffer(lap, join_style="mitre")
    ):
        yield f"{at} does not cover its opening by {lap} mm"
    lapped = cover.area - holes[0].area
    ways = [(-1, "front")] if panel.seat == "rabbet" or panel.in_legs == "rabbet" else [
        (-1, "front"), (1, "back")]
    for way, named in ways:
        moved = pushed(board.solid, side.normal, side.inward * way * NUDGE)
        felt = sum(common(moved, member.solid) for member in frame.values())
        if abs(felt / float(NUDGE) - lapped) > SHADE:
            yield (
                f"{at} rests on {felt / float(NUDGE)} mm2 at its {named}, it laps {lapped}"
            )
    if panel.seat == panel.in_legs == "rabbet":
        away = pushed(board.solid, side.normal, side.inward * told.leg[side.normal])
        path = Manifold.batch_hull([board.solid, away])
        for name, member in frame.items():
            if common(path, member.solid) > NOTHING:
                yield f"{at} can't be put in from behind, the {name} is in the way"


def _seat_reach(
    parts: dict[str, Board], panel: Panel, side: Side, above: Rail, below: Rail,
    near: Fraction, at: str,
) -> Iterator[str]:
    """Each member has a seat that begins in the panel's plane and goes in by the lip."""
    low_leg, high_leg = side.legs()
    up = (below.top - panel.lip, above.bottom + panel.lip)
    walls = {
        low_leg: (side.along, 0, side.low - panel.lip),
        high_leg: (side.along, 1, side.high + panel.lip),
        f"{side.name} {above.name}": (2, 1, up[1]),
        f"{side.name} {below.name}": (2, 0, up[0]),
    }
    for name, (axis, end, wall) in walls.items():
        member = parts[name]
        leg = name in side.legs()
        kind = panel.in_legs if leg else panel.seat
        fit = []
        for seat in _seats(member, parts):
            deep = sorted(side.inward * (v - side.outside) for v in seat.stands[side.normal])
            behind = max(side.inward * (v - side.outside) for v in member.stands[side.normal])
            far = behind if kind == "rabbet" else near + panel.thickness
            run = seat.stands[2 if leg else side.along]
            whole = member.stands[2 if leg else side.along]
            wanted = up if leg and panel.run == "stopped" else whole
            if deep == [near, far] and seat.stands[axis][end] == wall and run == wanted:
                fit.append(seat)
        if len(fit) != 1:
            yield f"{len(fit)} seats of the {name} fit the {at}"


# -- hands


def _hands(piece: Piece) -> Iterator[str]:
    """Left and right parts mirror each other, where the frame is the same on both sides."""
    parts, told = piece.parts, piece.told
    signs: dict[str, set[bool]] = {"left": set(), "right": set()}
    for board in parts.values():
        if board.hand:
            signs[board.hand].add(board.mirrored)
    if len(signs["left"]) > 1 or len(signs["right"]) > 1 or signs["left"] & signs["right"]:
        yield f"placements of left and right parts mirror alike: {signs}"
    for axis, one, other in ((0, "left", "right"), (1, "front", "back")):
        if not _even(told, one, other):
            continue
        middle = (told.length, told.depth)[axis] / 2
        flip = [0.0, 0.0, 0.0]
        flip[axis] = 1.0
        for name, board in parts.items():
            if one not in name.split():
                continue
            twin = parts[" ".join(other if word == one else word for word in name.split())]
            image = pushed(pushed(board.solid, axis, -middle).mirror(flip), axis, middle)
            wrong = differ(image, twin.solid)
            if wrong > NOTHING or abs(image.volume() - twin.solid.volume()) > NOTHING:
                yield f"{name} mirrored differs from {twin.name} by {wrong} mm3"
            if name.endswith(" leg") and {board.hand, twin.hand} != {"left", "right"}:
                yield f"{name} is {board.hand!r}, its mirror {twin.name} {twin.hand!r}"


def _even(told: Told, one: str, other: str) -> bool:
    """Whether rails and panels are the same on two opposite sides."""
    if any((one in rail.sides) != (other in rail.sides) for rail in told.rails):
        return False
    for panel in told.panels:
        named = {opening.partition(" under ")[::2] for opening in panel.openings}
        turned = {
            ({one: other, other: one}.get(side, side), rail) for side, rail in named
        }
        if named != turned:
            return False
    return True


# -- marks


def _marks(piece: Piece) -> Iterator[str]:
    """Every mark lies on its part, at its distance, along an edge that the cuts will make."""
    yield from judge_marks.judge(piece.parts, piece.marks)


def _lines(piece: Piece) -> Iterator[str]:
    """Each mortise has its four lines, each rail end a shoulder line on every face it shows on."""
    parts = piece.parts
    drawn: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for mark in piece.marks:
        drawn.setdefault((mark["part"], mark["joint"]), []).append((mark["role"], mark["face"]))
    for _, _, rail_name, leg_name, _, _ in rail_ends(piece.told):
        leg, board = parts[leg_name], parts[rail_name]
        mortise = _mortise(leg, board)
        if mortise is None:
            continue
        at = f"{rail_name} in {leg_name}"
        roles = [role for role, _ in drawn.get((leg.id, mortise.joint), [])]
        for role in ("mortise top", "mortise bottom", "near wall", "far wall"):
            if roles.count(role) != 1:
                yield f"{roles.count(role)} for the {role} of {at}"
        waste = [cut for cut in board.cuts if cut.joint == mortise.joint]
        lined = {f for r, f in drawn.get((board.id, mortise.joint), []) if r.endswith("shoulder")}
        shown = {f for f in ("face", "back", "edge", "far edge")
                 if any(board.cut_on(cut, f) is not None for cut in waste)}
        if lined != shown:
            yield f"the shoulder of {at} is lined on {sorted(lined)}, shows on {sorted(shown)}"


SUBJECTS: dict[str, Callable[[Piece], Iterator[str]]] = {
    "sizes": _sizes,
    "wood": _wood,
    "overlap": _overlaps,
    "tenon": _tenons,
    "shoulder": _shoulders,
    "panel": _panels,
    "hands": _hands,
    "mark": _marks,
    "lines": _lines,
}


def _say(reach: Reach) -> str:
    return " x ".join(f"{low}..{high}" for low, high in reach)
