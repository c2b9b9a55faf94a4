"""A judge of shapes: wedges, flares, splays, mitres and pegs as the maker's own text has them.

Reads the piece file a second time, with the defaults that layout/defaults.toml publishes, works
the figures out anew, and holds the numbers against them; plane figures by shapely.

`judge(numbers, text)` gives a list of objections, empty where all shapes are as told.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Any

from shapely import Polygon

from tests.outside.judge_boards import SHADE, Board, Cut, Point, boards, section
from tests.outside.judge_joints import Joint, filled_groove, joints
from tests.outside.solids import length_in

ZERO = Fraction(0)

# As layout/defaults.toml publishes them: in an inch piece, in a metric piece.
USUAL = {
    "wedge_thickness": ("1/8", "3"),
    "kerf": ("1/32", "0.8"),
    "wedge_from_edge": ("3/16", "5"),
    "mitre_gap": ("1/16", "1.5"),
}
WEDGE_SHARE = Fraction(3, 4)
PEG_FROM_SHOULDER, PEG_DRAW = Fraction(3, 2), Fraction(1, 4)


class Told:
    """What a piece file says of every rail's tenon."""

    def __init__(self, text: str) -> None:
        file = tomllib.loads(text, parse_float=Decimal)
        self._unit = file["unit"]
        frame = file.get("frame", {"rail": []})  # a box alone has no rails
        common = frame.get("tenon", {})
        self._tenons: dict[str, dict[str, Any]] = {}
        for rail in frame["rail"]:
            for side in rail["sides"]:
                name = rail["name"]  # a name that says the side already is not given it twice
                name = name if name.split()[0] == side else f"{side} {name}"
                self._tenons[name] = common | rail.get("tenon", {})
        for cross in frame.get("cross", []):
            self._tenons[cross["name"]] = common | cross.get("tenon", {})
        for drawer in file.get("drawer", []):
            # the rails that divide an opening for drawers are named after these
            divide = drawer.get("divide", {})
            for number in range(1, divide.get("into", 1)):
                for side in ("front", "back", "left", "right"):
                    name = f"{side} {drawer.get('name', 'drawer')} rail {number}"
                    self._tenons[name] = common | divide.get("tenon", {})
        for door in file.get("door", []):
            self._tenons |= dict(door_tenons(door))

    def of(self, joint: Joint) -> dict[str, Any]:
        """A rail's tenon table, without what it turns off."""
        found = self._tenons[joint.rail.name]
        return {key: value for key, value in found.items() if value is not False}

    def size(self, table: dict[str, Any], key: str, usual: str = "") -> Fraction | None:
        """A length of a table in mm; left out, what is usual, or None."""
        if key in table:
            return length_in(table[key], self._unit)
        return self.usual(usual) if usual else None

    def usual(self, name: str) -> Fraction:
        """A default in mm."""
        return length_in(USUAL[name][0 if self._unit == "in" else 1], self._unit)


def door_tenons(door: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """The rails and muntins of a door by name, and the tenon that README tells of each: left out,
    top and bottom rail have a haunch that fills the groove, or a square one over a rabbet."""
    over = door.get("panel", {}).get("seat", "groove") if "panel" in door else "rabbet"
    haunch = {"haunch": {"kind": {"groove": "groove", "rabbet": "square"}[over]}}
    common = door.get("tenon", {})
    middles = door.get("middle", [])
    for name in door_names(door):
        for end in ("top", "bottom"):
            own = door.get(end, {}).get("tenon", {})
            yield f"{name} {end} rail", haunch | common | own
        for number, middle in enumerate(middles, 1):
            number_of = f" {number}" if len(middles) > 1 else ""
            yield f"{name} middle rail{number_of}", common | middle.get("tenon", {})
        for muntin in door.get("muntin", []):
            rows = [muntin["row"]] if "row" in muntin else range(1, len(middles) + 2)
            for row in rows:
                for number in range(1, muntin.get("count", 1) + 1):
                    yield f"{name} muntin {row}-{number}", common | muntin.get("tenon", {})


def door_names(door: dict[str, Any]) -> list[str]:
    """One door for each opening, numbered where there are several; a pair is two."""
    name = door.get("name", "door")
    many = len(door.get("openings", [""]))
    names = [name] if many == 1 else [f"{name} {number}" for number in range(1, many + 1)]
    if not door.get("pair"):
        return names
    return [f"{hand} {name}" for name in names for hand in ("left", "right")]


def judge(
    numbers: dict[str, Any], text: str, parts: dict[str, Board] | None = None
) -> list[str]:
    """Every objection; `parts` are the numbers' boards, where they were made already."""
    told = Told(text)
    every = joints(boards(numbers) if parts is None else parts)
    return [
        f"{word}: {objection}"
        for joint in every
        for word, judged in SUBJECTS.items()
        for objection in judged(joint, told, every)
    ]


def _across(joint: Joint) -> int:
    """The piece axis of the rail's width."""
    return joint.rail.axes[1][0]


def _mouth(cuts: list[Cut], joint: Joint, deep: Fraction) -> tuple[Fraction, Fraction]:
    """How far some cuts together reach across the rail's width, at a depth; exact."""
    plane = joint.entry + joint.out * deep
    found = [
        point[_across(joint)] for cut in cuts for point in section(cut.placed, joint.axis, plane)
    ]
    return min(found), max(found)


def _groups(joint: Joint) -> Iterator[tuple[str, Cut]]:
    """Each mortise with the words before its role."""
    for mortise in joint.mortises:
        yield mortise.role.removesuffix("mortise"), mortise


def _wedges(joint: Joint, told: Told, every: list[Joint]) -> Iterator[str]:
    """Saw cuts where they were told, and flares of wedges * (thickness - saw cut) / 2 each end."""
    table = told.of(joint).get("wedges")
    saws = [cut for cut in joint.rail_cuts if "saw cut" in cut.role]
    if table is None:
        if saws:
            yield f"{joint}: {len(saws)} saw cuts without wedges"
        return
    many = table.get("count", 2)
    thickness = told.size(table, "thickness", "wedge_thickness")
    kerf = told.size(table, "saw_cut", "kerf")
    from_edge = told.size(table, "from_edge", "wedge_from_edge")
    length = joint.deep(joint.tip)
    whole = joint.deep(joint.beyond)
    long = told.size(table, "length")
    assert thickness is not None
    assert kerf is not None
    assert from_edge is not None
    long = length * WEDGE_SHARE if long is None else long
    spread = max(ZERO, many * (thickness - kerf) / 2)
    axis = _across(joint)
    for name, mortise in _groups(joint):
        flares = [
            cut for cut in joint.bearer_cuts if cut.role in (f"{name}flare", f"{name}far flare")
        ]
        if len(flares) != (2 if spread else 0):
            yield f"{joint}: {len(flares)} flares of the {mortise.role}"
        low, high = mortise.stands[axis]
        mouth = _mouth([mortise, *flares], joint, whole)
        if mouth != (low - spread, high + spread):
            yield f"{joint}: the {mortise.role} opens to {mouth}, by {spread} each end was told"
        for cut in flares:
            if cut.stands[_third(joint)] != mortise.stands[_third(joint)]:
                yield f"{joint}: the {cut.role} is not as thick as the {mortise.role}"
            deep = sorted(joint.deep(plane) for plane in joint.ends(cut))
            if deep != [length - long, whole]:
                yield f"{joint}: the {cut.role} runs {deep}, from {length - long} to {whole}"
                continue
            # a triangle: at its inner end it has come to nothing
            inner = _mouth([cut], joint, length - long)
            if inner[0] != inner[1] or inner[0] not in (low, high):
                yield f"{joint}: the {cut.role} ends {inner} wide"
        middles = (
            [(low + high) / 2] if many == 1 else [low + from_edge, high - from_edge]
        )
        own = [cut for cut in saws if low <= cut.stands[axis][0] < high
               and cut.stands[_third(joint)] == mortise.stands[_third(joint)]]
        found = sorted(cut.stands[axis] for cut in own)
        if found != [(middle - kerf / 2, middle + kerf / 2) for middle in middles]:
            yield f"{joint}: saw cuts at {found}, their middles told at {middles}"
        for cut in own:
            deep = sorted(joint.deep(plane) for plane in joint.ends(cut))
            if deep != [length - long, length]:
                yield f"{joint}: the {cut.role} runs {deep}, to {length - long} was told"


def _third(joint: Joint) -> int:
    """The piece axis of the rail's thickness."""
    return joint.rail.axes[2][0]


def _side_wedge(joint: Joint, told: Told, every: list[Joint]) -> Iterator[str]:
    """The wedge's room at both surfaces, and the splayed edge across from it."""
    table = told.of(joint).get("side_wedge")
    if table is None:
        return
    splay = told.size(table, "splay") or ZERO
    wedge = {deep: told.size(table, key) for key, deep in
             (("inner", ZERO), ("outer", joint.deep(joint.beyond)))}
    axis, sign = joint.rail.axes[1]
    top = table.get("edge", "top") == "top"
    at_low = top == (sign > 0)  # the wedge stands at the mortise's low side
    (mortise,) = joint.mortises
    low, high = mortise.stands[axis]
    cuts = [c for c in joint.bearer_cuts if c.role in ("mortise", "wedge space", "splay space")]
    if len({cut.stands[_third(joint)] for cut in cuts}) != 1:
        yield f"{joint}: the wedge's room is not as thick as the mortise"
    for deep, thick in wedge.items():
        assert thick is not None
        wide = splay if deep else ZERO
        wanted = (low - thick, high + wide) if at_low else (low - wide, high + thick)
        mouth = _mouth(cuts, joint, deep)
        if mouth != wanted:
            yield f"{joint}: {deep} deep it opens {mouth}, told {wanted}"
    # the tenon's own splayed edge at its outer face, from the waste beside it
    edge = {high if at_low else low, (high + splay) if at_low else (low - splay)}
    corners = {
        point[axis] for cut in joint.waste if cut.role.split()[0] == ("bottom" if top else "top")
        for point in cut.placed
    }
    if splay and not edge <= corners:
        yield f"{joint}: the splayed edge stands at {corners}, told {edge}"


# -- mitres


def _plan(joint: Joint, point: Point) -> tuple[Fraction, Fraction]:
    """A point seen from above the tenon: along its rail, and through its thickness."""
    return point[joint.axis], point[_third(joint)]


def slope(joint: Joint) -> tuple[Point, Point]:
    """The two ends of a mitred tip's slope in plan: at the outer cheek or the tip, and at the
    inner cheek."""
    (waste,) = [cut for cut in joint.rail_cuts if cut.role.startswith("mitre waste")]
    level = min(point[_across(joint)] for point in waste.placed)
    outline = [point for point in waste.placed if point[_across(joint)] == level]
    deepest = {joint.deep(point[joint.axis]): point for point in outline}
    inner = deepest[min(deepest)]
    others = [p for p in outline if joint.deep(p[joint.axis]) == max(deepest)]
    outer = max(others, key=lambda p: abs(p[_third(joint)] - inner[_third(joint)]))
    return outer, inner


def outline(joint: Joint) -> list[tuple[Fraction, Fraction]]:
    """A mitred tenon in plan, from the bearer's surface: along X and Y of the piece."""
    outer, inner = slope(joint)
    cheeks = joint.mortises[0].stands[_third(joint)]
    far = inner[_third(joint)]
    near = cheeks[0] if far == cheeks[1] else cheeks[1]
    shape = [(joint.entry, near), (joint.tip, near), (joint.tip, outer[_third(joint)]),
             (inner[joint.axis], far), (joint.entry, far)]
    return [(a, b) if joint.axis == 0 else (b, a) for a, b in shape]


def _mitres(joint: Joint, told: Told, every: list[Joint]) -> Iterator[str]:
    """Two mitred tenons in plan: clear of each other, parallel, and as far apart as was asked."""
    if not any(cut.role.startswith("mitre waste") for cut in joint.rail_cuts):
        return
    partners = [
        other for other in every
        if other.bearer is joint.bearer and other.axis != joint.axis
        and any(cut.role.startswith("mitre waste") for cut in other.rail_cuts)
        and any(a.stands[2][0] < b.stands[2][1] and b.stands[2][0] < a.stands[2][1]
                for a in joint.mortises for b in other.mortises)
    ]
    if not partners:
        yield f"{joint}: is mitred against nothing"
    for other in partners:
        one, two = Polygon(outline(joint)), Polygon(outline(other))
        if not (one.is_valid and two.is_valid):
            yield f"{joint} and {other}: a mitre runs past a cheek of its tenon"
            continue
        shared = one.intersection(two).area
        if shared > SHADE:
            yield f"{joint} and {other}: share {shared} mm2 in plan"
        outer, inner = slope(joint)
        theirs = slope(other)
        x, y = joint.axis, other.axis
        if (inner[x] - outer[x]) * (theirs[1][y] - theirs[0][y]) != (
            (inner[y] - outer[y]) * (theirs[1][x] - theirs[0][x])
        ):
            yield f"{joint} and {other}: their slopes are not parallel"
            continue
        # from a point of this slope along this tenon to the line of the other slope
        steep = (theirs[1][x] - theirs[0][x]) / (theirs[1][y] - theirs[0][y])
        there = theirs[0][x] + steep * (inner[y] - theirs[0][y])
        gap = joint.out * (there - inner[x])
        halves = [told.size(told.of(j), "mitre_gap", "mitre_gap") for j in (joint, other)]
        assert halves[0] is not None
        assert halves[1] is not None
        # each gives half, measured along itself; seen along this one the other's half is as much
        # more as its tenon is thicker
        wanted = halves[0] / 2 + halves[1] / 2 * abs(steep)
        if gap != wanted:
            yield f"{joint} and {other}: {gap} apart along the first, told {wanted}"
        yield from _sides(joint, other, halves[0] / 2)


def _sides(joint: Joint, other: Joint, half: Fraction) -> Iterator[str]:
    """Long and short side: from the shoulder to the leg's outside, less the neighbour's walls."""
    size = joint.deep(joint.beyond)
    walls = sorted(size - joint.deep(plane) for plane in other.mortises[0].stands[joint.axis])
    outer, inner = slope(joint)
    long, short = size - walls[0] - half, size - walls[1] - half
    if joint.deep(inner[joint.axis]) != short:
        yield f"{joint}: short side {joint.deep(inner[joint.axis])}, by hand {short}"
    if joint.deep(joint.tip) > long:
        yield f"{joint}: {joint.deep(joint.tip)} long, by hand {long} at most"
    cheeks = joint.mortises[0].stands[_third(joint)]
    if outer[_third(joint)] in cheeks and joint.deep(joint.tip) != long:
        yield f"{joint}: long side {joint.deep(joint.tip)}, by hand {long}"


# -- pegs


def _pegs(joint: Joint, told: Told, every: list[Joint]) -> Iterator[str]:
    """The tenon's hole is nearer the shoulder than the leg's by the draw, at one height; both go
    right through what they hold."""
    table = told.of(joint).get("pegs")
    in_bearer = {
        cut.role.removesuffix(" hole"): cut for cut in joint.bearer_cuts if cut.bore is not None
    }
    in_tenon = {
        cut.role[:-2].removesuffix(" hole in the tenon"): cut
        for cut in joint.rail_cuts if cut.bore is not None
    }
    if set(in_bearer) != set(in_tenon) or (table is None and in_bearer):
        yield f"{joint}: holes for {sorted(in_bearer)} and {sorted(in_tenon)}"
        return
    if table is None:
        return
    if not in_bearer:
        yield f"{joint}: no pegs"
    for name, hole in in_bearer.items():
        bored = in_tenon[name]
        assert hole.bore is not None
        assert bored.bore is not None
        diameter = told.size(table, "diameter") or 2 * Fraction(hole.bore["radius"])
        given = (told.size(table, "from_shoulder"), told.size(table, "draw"),
                 told.size(table, "past"))
        from_shoulder = diameter * PEG_FROM_SHOULDER if given[0] is None else given[0]
        draw = diameter * PEG_DRAW if given[1] is None else given[1]
        past = diameter if given[2] is None else given[2]
        for cut in (hole, bored):
            assert cut.bore is not None
            if 2 * Fraction(cut.bore["radius"]) != diameter:
                yield f"{joint}: {cut.role} is {cut.bore['radius']} in radius, told {diameter}"
        one, other = _middle(joint.bearer, hole), _middle(joint.rail, bored)
        if joint.deep(one[joint.axis]) != from_shoulder:
            yield f"{joint}: {name} stands {joint.deep(one[joint.axis])} from the shoulder"
        if joint.deep(one[joint.axis]) - joint.deep(other[joint.axis]) != draw:
            yield f"{joint}: {name} draws from {one} to {other}, told {draw}"
        if one[_across(joint)] != other[_across(joint)]:
            yield f"{joint}: {name} stands at two heights, {one} and {other}"
        through = _third(joint)
        standing = [mortise.stands[through] for mortise in joint.mortises]
        low, high = min(s[0] for s in standing), max(s[1] for s in standing)
        if bored.stands[through] != (low, high):
            yield f"{joint}: {bored.role} runs {bored.stands[through]}, the tenon {(low, high)}"
        whole = joint.bearer.stands[through]
        outside = joint.rail.axes[2][1] > 0  # the rail's face side lies at the low end
        wanted = (
            (whole[0], min(high + past, whole[1])) if outside
            else (max(low - past, whole[0]), whole[1])
        )
        if hole.stands[through] != wanted:
            yield f"{joint}: {hole.role} runs {hole.stands[through]}, told {wanted}"


def _middle(board: Board, cut: Cut) -> Point:
    """The middle of a bored hole where it stands."""
    assert cut.bore is not None
    at = {"LWT".index(cut.bore["axis"]): Fraction(cut.bore["from"])}
    others = [i for i in range(3) if i not in at]
    at |= dict(zip(others, (Fraction(v) for v in cut.bore["centre"]), strict=True))
    return board.place((at[0], at[1], at[2]))


def _grooves(joint: Joint, told: Told, every: list[Joint]) -> Iterator[str]:
    """A haunch that fills a groove fills it."""
    haunch = told.of(joint).get("haunch")
    if haunch is not None and haunch["kind"] == "groove":
        yield from filled_groove(joint)


SUBJECTS: dict[str, Callable[[Joint, Told, list[Joint]], Iterator[str]]] = {
    "wedges": _wedges,
    "side wedge": _side_wedge,
    "mitre": _mitres,
    "pegs": _pegs,
    "groove": _grooves,
}
