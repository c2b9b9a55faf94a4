"""A judge of joints: what the numbers alone say of every rail end, held against the solids.

A joint is a rail's end in the part that bears it: they share the joint's name. The judge knows
which surfaces must touch and which wood must stand in which hollow, whatever the joint's kind.

`judge(numbers)` gives a list of objections, empty where every joint is sound.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from shapely import unary_union

from tests.outside.judge_boards import (
    NOTHING,
    NUDGE,
    SHADE,
    Board,
    Cut,
    boards,
    common,
    flat,
    hull,
    less,
    overlapping,
    pushed,
    slice_at,
)

HAIR = 1e-6
"""How far beside a plane, in mm, a solid is cut to see its section there."""

TELLS_OF_LOST_SHOULDER = ("shoulder clear of the seats", "rail in its place")
"""The rules that may tell of a shoulder with no wood before it: a seat, or a rail that stands
proud of its leg."""


@dataclass(frozen=True)
class Joint:
    """A rail's end in its bearer; `key` is the key driven through its tenon, if there is one."""

    name: str
    rail: Board
    bearer: Board
    keys: tuple[Board, ...]

    def __str__(self) -> str:
        return f"{self.rail.name} in {self.bearer.name}"

    @property
    def end(self) -> str:
        """The rail's end: A or B."""
        return self.name[-1]

    @property
    def axis(self) -> int:
        """The piece axis that the rail runs along: 0 X, 1 Y, 2 Z."""
        return self.rail.axes[0][0]

    @property
    def out(self) -> int:
        """Which way along it the bearer lies, seen from the rail's middle."""
        return self.rail.axes[0][1] * (1 if self.end == "B" else -1)

    @property
    def entry(self) -> Fraction:
        """The plane of the bearer's surface that the rail comes to."""
        return self.bearer.stands[self.axis][0 if self.out > 0 else 1]

    @property
    def beyond(self) -> Fraction:
        """The plane of the bearer's surface across from it."""
        return self.bearer.stands[self.axis][1 if self.out > 0 else 0]

    @property
    def tip(self) -> Fraction:
        """The plane of the rail's own end."""
        return self.rail.stands[self.axis][1 if self.out > 0 else 0]

    def deep(self, plane: Fraction) -> Fraction:
        """How far beyond the entry a plane lies, in mm."""
        return self.out * (plane - self.entry)

    def ends(self, cut: Cut) -> tuple[Fraction, Fraction]:
        """A cut's two planes along the rail: toward the rail's middle, and away from it."""
        low, high = cut.stands[self.axis]
        return (low, high) if self.out > 0 else (high, low)

    @cached_property
    def rail_cuts(self) -> list[Cut]:
        """What the joint takes from the rail."""
        return [cut for cut in self.rail.cuts if cut.joint == self.name]

    @cached_property
    def bearer_cuts(self) -> list[Cut]:
        """What the joint takes from its bearer."""
        return [cut for cut in self.bearer.cuts if cut.joint == self.name]

    @property
    def mortises(self) -> list[Cut]:
        """Its mortises proper."""
        return [cut for cut in self.bearer_cuts if cut.role.split()[-1] == "mortise"]

    @property
    def sockets(self) -> list[Cut]:
        """Its sockets for haunches."""
        return [cut for cut in self.bearer_cuts if cut.role.split()[-1] == "socket"]

    @property
    def waste(self) -> list[Cut]:
        """What goes round the tenons, to one shoulder or another."""
        return [
            cut for cut in self.rail_cuts
            if "waste" in cut.role and "mitre" not in cut.role and cut.bore is None
        ]

    @property
    def seats(self) -> list[Cut]:
        """Rabbets, grooves and mouldings in the bearer, whoever they belong to."""
        return [
            cut for cut in self.bearer.cuts
            if cut.role in ("rabbet", "groove") or cut.role == "moulding cut back"
        ]

    def section(self, board: Board, deep: Fraction, beside: float) -> Any:
        """What is wood of a board a hair before (-) or beyond (+) a depth behind the entry."""
        at = float(self.entry + self.out * deep) + self.out * beside
        return slice_at(board.solid, self.axis, at)

    def seen(self, cut: Cut) -> Any:
        """A cut's figure seen along the rail."""
        return flat(cut.placed, self.axis)


def joints(parts: dict[str, Board]) -> list[Joint]:
    """Every rail end with what bears it."""
    by_id = {board.id: board for board in parts.values()}
    holders: dict[str, list[Board]] = {}
    keys: dict[str, list[Board]] = {}
    for board in parts.values():
        for name in {cut.joint for cut in board.cuts}:
            roles = [cut.role for cut in board.cuts if cut.joint == name]
            if any(role.split()[-1] == "mortise" for role in roles):
                holders.setdefault(name, []).append(board)
            if any(role.endswith("key taper") for role in roles):
                keys.setdefault(name, []).append(board)
    found = []
    for name, held_by in holders.items():
        rail, _, end = name.rpartition(".")
        assert end in ("A", "B"), f"{name} names no end"
        (bearer,) = held_by
        found.append(Joint(name, by_id[rail], bearer, tuple(keys.get(name, ()))))
    return found


@dataclass(frozen=True)
class Piece:
    """What is judged: the parts by name, the joints, and sums and checks as given."""

    parts: dict[str, Board]
    joints: list[Joint]
    sums: list[dict[str, Any]]
    checks: list[dict[str, Any]]

    def told(self, rules: Iterable[str], board: Board) -> bool:
        """Whether a check has told of a part under one of these rules, more than as a note."""
        return any(
            one["rule"] in rules and one["level"] != "note" and board.id in one["parts"]
            for one in self.checks
        )

    def the_sum(self, joint: Joint, name: str) -> dict[str, Fraction] | None:
        """A sum of a joint's rail, or of its bearer for that rail, as {label: value} and total.

        Where both ends are alike it is given once; where they differ, an end is named.
        """
        at_end, whole = f"{name} (end {joint.end})", name
        in_bearer = f"{name} ({joint.rail.name}, end {joint.end})"
        for part, wanted in (
            (joint.bearer.id, in_bearer), (joint.rail.id, at_end), (joint.rail.id, whole)
        ):
            for one in self.sums:
                if (one["part"], one["name"]) == (part, wanted):
                    return {t["label"]: Fraction(t["value"]) for t in one["terms"]} | {
                        "total": Fraction(one["total"])
                    }
        return None


def judge(
    numbers: dict[str, Any], subjects: Iterable[str] | None = None,
    parts: dict[str, Board] | None = None,
) -> list[str]:
    """Every objection against the joints of a piece that is said to be sound; none where it is.

    `subjects` are keys of SUBJECTS; left out: all of them. Each objection starts with its subject.
    `parts` are the numbers' boards, where they were made already.
    """
    parts = boards(numbers) if parts is None else parts
    piece = Piece(parts, joints(parts), numbers["sums"], numbers["checks"])
    return [
        f"{subject}: {objection}"
        for subject in (SUBJECTS if subjects is None else subjects)
        for objection in SUBJECTS[subject](piece)
    ]


# -- wood in two places, wood in pieces


def _overlaps(piece: Piece) -> Iterator[str]:
    """No two finished parts share wood."""
    for (one, other), shared in overlapping(piece.parts).items():
        yield f"{one} and {other} share {shared:.6f} mm3"


def _wood(piece: Piece) -> Iterator[str]:
    """Every cut takes wood of its board, lies on it, and no part falls asunder."""
    for board in piece.parts.values():
        for cut in board.cuts:
            if common(cut.solid, board.box) < NOTHING:
                yield f"the {cut.role} of the {board.name} ({cut.joint}) takes nothing"
            outside = [
                reach for reach, whole in zip(cut.reach, board.size, strict=True)
                if reach[0] < 0 or reach[1] > whole
            ]
            if outside:
                yield f"the {cut.role} of the {board.name} ({cut.joint}) leaves its board"
        pieces = len(board.solid.decompose())
        if pieces != 1:
            yield f"the {board.name} is {pieces} pieces"


# -- shoulders


def _shoulders(piece: Piece) -> Iterator[str]:
    """Each shoulder lies in a surface of its bearer, exactly, and touches it all over.

    Where a seat takes wood from under it, or the rail stands proud of the bearer, a check must
    have told the maker. What the joint itself hollows out beside the tenon is no loss.
    """
    for joint in piece.joints:
        planes: dict[Fraction, list[Cut]] = {}
        for cut in joint.waste:
            planes.setdefault(joint.deep(joint.ends(cut)[0]), []).append(cut)
        if Fraction(0) not in planes:
            yield f"{joint}: no shoulder lies in the bearer's surface, only at {sorted(planes)}"
        floors = {joint.deep(joint.ends(cut)[1]) for cut in joint.seats}
        for deep, cuts in planes.items():
            roles = ", ".join(sorted(cut.role for cut in cuts))
            if deep < 0:
                yield f"{joint}: the {roles} ends {-deep} before the bearer"
            elif deep == 0 or deep in floors:
                yield from _touch(piece, joint, deep)
            elif not all(_round_a_haunch(joint, cut) for cut in cuts):
                yield f"{joint}: the {roles} ends {deep} inside the bearer, where nothing is"


def _round_a_haunch(joint: Joint, cut: Cut) -> bool:
    """Whether a cut ends at a haunch: behind it lies a socket, or a seat that a haunch fills, or
    nothing is left (between twins).
    """
    to_shoulder = [one for one in joint.waste if joint.ends(one)[0] == joint.entry]
    behind = unary_union(
        [joint.seen(one) for one in (*joint.sockets, *joint.seats, *to_shoulder) if one is not cut]
    )
    return bool(joint.seen(cut).difference(behind.buffer(1e-9)).area < SHADE)


def _touch(piece: Piece, joint: Joint, deep: Fraction) -> Iterator[str]:
    shoulder = joint.section(joint.rail, deep, -HAIR).difference(
        joint.section(joint.rail, deep, HAIR)
    )
    wood = joint.section(joint.bearer, deep, HAIR)
    touching = shoulder.intersection(wood).area
    if touching <= SHADE:
        yield f"{joint}: the shoulder {deep} behind the bearer's surface touches nothing"
        return
    own = unary_union([joint.seen(cut) for cut in joint.bearer_cuts if cut.bore is None])
    lost = shoulder.difference(wood).difference(own.buffer(1e-9)).area
    told = piece.told(TELLS_OF_LOST_SHOULDER, joint.rail) and piece.told(
        TELLS_OF_LOST_SHOULDER, joint.bearer
    )
    if lost > SHADE and not told:
        yield (
            f"{joint}: {lost:.4f} mm2 of its shoulder {deep} behind the bearer's surface has no "
            f"wood before it; {touching:.4f} has"
        )


# -- tenons in their mortises


def _tenons(piece: Piece) -> Iterator[str]:
    """Each tenon fills its mortise at the mouth, and leaves the stated room beyond it."""
    for joint in piece.joints:
        mouth = joint.section(joint.rail, Fraction(0), HAIR)
        mortises = unary_union([joint.seen(cut) for cut in joint.mortises])
        empty = mortises.difference(mouth).area
        if empty > SHADE:
            yield f"{joint}: {empty:.4f} mm2 of the mortise's mouth has no tenon in it"
        held = unary_union([mortises, *(joint.seen(c) for c in (*joint.sockets, *joint.seats))])
        astray = mouth.difference(held.buffer(1e-9)).area
        # a splayed edge is wider than the mortise's mouth by what a hair's depth adds
        if astray > SHADE:
            yield f"{joint}: {astray:.4f} mm2 of the tenon stands beside its mortise"
        yield from _depths(piece, joint)
        yield from _inside(joint)


def _depths(piece: Piece, joint: Joint) -> Iterator[str]:
    deep = {joint.deep(joint.ends(cut)[1]) for cut in joint.mortises}
    mouths = {joint.ends(cut)[0] for cut in joint.mortises}
    if mouths != {joint.entry}:
        yield f"{joint}: the mortises begin at {mouths}, the bearer's surface is {joint.entry}"
    if len(deep) != 1:
        yield f"{joint}: mortises of one tenon are {deep} deep"
        return
    (depth,) = deep
    length = joint.deep(joint.tip)
    whole = joint.deep(joint.beyond)
    if length >= whole or depth >= whole:
        if depth != whole:
            yield f"{joint}: the tenon goes through, its mortise is {depth} of {whole} deep"
        return
    told = piece.the_sum(joint, "mortise depth")
    if told is None:
        yield f"{joint}: no sum tells the mortise's depth"
        return
    said = (told["tenon length"], told["room for glue"], told["total"])
    if said != (length, depth - length, depth):
        yield f"{joint}: the sum says {said}, the parts {(length, depth - length, depth)}"
    worked = piece.the_sum(joint, "tenon length")
    if worked is not None and worked["total"] != length:
        yield f"{joint}: a tenon length of {worked['total']} was worked out, it is {length}"


def _inside(joint: Joint) -> Iterator[str]:
    """The rail's wood in its bearer is in the joint's own hollows and seats, and nowhere else."""
    inside = less(joint.rail.solid ^ joint.bearer.box, (*joint.bearer_cuts, *joint.seats))
    if inside.volume() > NOTHING:
        yield f"{joint}: {inside.volume():.6f} mm3 of the rail stand outside its hollows"


# -- haunches


def _haunches(piece: Piece) -> Iterator[str]:
    """Each haunch fills its socket but for the stated room.

    A square one is a block; a sloped one and its socket run out to nothing at the rail's edge, so
    that both hold half of a block.
    """
    for joint in piece.joints:
        for socket in joint.sockets:
            kind = "web" if "web" in socket.role else "haunch"
            told = piece.the_sum(joint, f"{kind} socket depth")
            if told is None:
                yield f"{joint}: no sum tells the depth of the {socket.role}"
                continue
            label = "web haunch length" if kind == "web" else "haunch length"
            long, room, total = told[label], told["room in the socket"], told["total"]
            depth = joint.deep(joint.ends(socket)[1])
            if depth != total or long + room != total:
                yield f"{joint}: the {socket.role} is {depth} deep, the sum says {total}"
            if joint.ends(socket)[0] != joint.entry:
                yield f"{joint}: the {socket.role} does not begin at the bearer's surface"
            area = joint.seen(socket).area
            share = 1 if socket.square else 0.5
            taken = hull(socket.placed).volume()
            wood = common(joint.rail.solid, socket.solid)
            bored = sum(
                common(cut.solid, socket.solid) for cut in joint.rail_cuts if cut.bore is not None
            )
            if abs(taken - share * area * float(total)) > NOTHING:
                yield f"{joint}: the {socket.role} takes {taken} mm3"
            if abs(wood + bored - share * area * float(long)) > NOTHING:
                yield (
                    f"{joint}: {wood} mm3 of haunch stand in the {socket.role}, "
                    f"{share * area * float(long)} were told"
                )


def filled_groove(joint: Joint) -> Iterator[str]:
    """A haunch that is said to fill a groove in the bearer does: width, depth, and to its end.

    The groove runs out at the bearer's end; what is judged is the stretch that the rail covers.
    """
    rows = [cut for cut in joint.waste if cut.role.split()[0] in ("top", "bottom")]
    haunched = [cut for cut in rows if joint.deep(joint.ends(cut)[0]) > 0]
    if len(haunched) != 1:
        yield f"{joint}: {len(haunched)} haunches, not one"
        return
    (over,) = haunched
    deep = joint.deep(joint.ends(over)[0])
    grooves = [
        cut for cut in joint.bearer.cuts
        if cut.role == "groove" and joint.seen(cut).intersection(joint.seen(over)).area > SHADE
    ]
    if len(grooves) != 1:
        yield f"{joint}: {len(grooves)} grooves before its haunch, not one"
        return
    (groove,) = grooves
    across = next(i for i in range(3) if i not in (joint.axis, joint.bearer.axes[0][0]))
    if over.stands[across] != groove.stands[across]:
        yield f"{joint}: haunch {over.stands[across]}, groove {groove.stands[across]}"
    depth = joint.deep(joint.ends(groove)[1])
    if deep != depth:
        yield f"{joint}: the haunch is {deep} long, the groove {depth} deep"
    # every bit of the groove in the haunch's height is wood of the rail
    box = list(groove.stands)
    along = joint.bearer.axes[0][0]
    box[along] = over.stands[along]
    stretch = hull([(a, b, c) for a in box[0] for b in box[1] for c in box[2]])
    empty = (stretch - joint.rail.solid).volume()
    if empty > NOTHING:
        yield f"{joint}: {empty} mm3 of the groove are left empty beside the haunch"


# -- mouldings


def _mouldings(piece: Piece) -> Iterator[str]:
    """What a bearer's moulding loses, the rail's longer shoulder and its mitres fill."""
    for joint in piece.joints:
        for cut in joint.bearer_cuts:
            if cut.role == "moulding cut back":
                empty = (cut.solid - joint.rail.solid).volume()
                if empty > NOTHING:
                    yield f"{joint}: {empty:.6f} mm3 of the {cut.role} have no wood in them"


# -- notches


def _notches(piece: Piece) -> Iterator[str]:
    """A notch goes right through its tenon's thickness, and is as long as the other is thick."""
    for joint in piece.joints:
        third = joint.rail.axes[2][0]
        for cut in joint.rail_cuts:
            if not cut.role.startswith("notch"):
                continue
            if cut.stands[third] != _together(joint, third):
                yield f"{joint}: the {cut.role} does not go right through"
            passing = [
                _together(other, joint.axis) for other in piece.joints
                if other.bearer is joint.bearer and other.axis != joint.axis
            ]
            inner, outer = joint.ends(cut)
            walls = [(a, b) if joint.out > 0 else (b, a) for a, b in passing]
            if not any(
                inner == wall[0] and outer in (wall[1], joint.tip) for wall in walls
            ):
                yield f"{joint}: the {cut.role} runs {inner}..{outer}, no tenon passes so: {walls}"


def _together(joint: Joint, axis: int) -> tuple[Fraction, Fraction]:
    """How far a joint's mortises reach along X, Y or Z, with what is between them."""
    reaches = [mortise.stands[axis] for mortise in joint.mortises]
    return min(reach[0] for reach in reaches), max(reach[1] for reach in reaches)


# -- keys


def _keys(piece: Piece) -> Iterator[str]:
    """Each key bears on its bearer and on the outer end of its hole, and goes through."""
    for joint in piece.joints:
        holes = [cut for cut in joint.rail_cuts if "key hole" in cut.role]
        if len(holes) != len(joint.keys):
            yield f"{joint}: {len(holes)} key holes, {len(joint.keys)} keys"
            continue
        for key in joint.keys:
            near = [hole for hole in holes if common(hole.solid, key.solid) > NOTHING]
            if len(near) != 1:
                yield f"{key.name}: stands in {len(near)} holes"
                continue
            yield from _key(joint, key, near[0])


def _key(joint: Joint, key: Board, hole: Cut) -> Iterator[str]:
    axis, out = joint.axis, joint.out
    plain = key.stands[axis][0 if out > 0 else 1]
    if plain != joint.beyond:
        yield f"{key.name}: its plain side stands at {plain}, the bearer's face at {joint.beyond}"
    bearing = slice_at(key.solid, axis, float(plain) + out * HAIR).intersection(
        slice_at(joint.bearer.solid, axis, float(plain) - out * HAIR)
    )
    if bearing.area <= SHADE:
        yield f"{key.name}: does not bear on the {joint.bearer.name}"
    # The taper's plane and that of the hole's outer end are one, exactly: two points of each.
    driven = key.axes[0][0]
    (taper,) = [cut for cut in key.cuts if cut.role.endswith("key taper")]
    outer = key.stands[axis][1 if out > 0 else 0]
    slope = {(p[driven], p[axis]) for p in taper.placed}
    slope -= {(d, outer) for d in {d for d, a in slope if a != outer}}
    ends = [
        (d, (max if out > 0 else min)(p[axis] for p in hole.placed if p[driven] == d))
        for d in {p[driven] for p in hole.placed}
    ]
    if len(slope) != 2:
        yield f"{key.name}: its taper begins and ends at {slope}"
        return
    one, other = sorted(slope)
    for d, a in ends:
        wanted = one[1] + (other[1] - one[1]) * (d - one[0]) / (other[0] - one[0])
        if a != wanted:
            yield f"{key.name}: the hole's outer end stands at {a}, the key there at {wanted}"
    moved = pushed(key.solid, axis, out * NUDGE)
    felt = common(moved, joint.rail.solid) / float(NUDGE)
    across = next(i for i in range(3) if i not in (axis, driven))
    low, high = hole.stands[across]
    length = hole.stands[driven][1] - hole.stands[driven][0]
    if abs(felt - float((high - low) * length)) > SHADE:
        yield f"{key.name}: bears on {felt} mm2 of the hole's outer end"
    if key.stands[across] != (low, high):
        yield f"{key.name}: is {key.stands[across]} across, its hole {(low, high)}"
    inner = (min if out > 0 else max)(p[axis] for p in hole.placed)
    if out * (plain - inner) < 0:
        yield f"{key.name}: stands {out * (inner - plain)} inside the hole's inner end"
    tenon = [
        m.stands for m in joint.mortises
        if m.stands[across][0] <= low < high <= m.stands[across][1]
        and m.stands[driven][0] < hole.stands[driven][1]
        and hole.stands[driven][0] < m.stands[driven][1]
    ]
    if [one[driven] for one in tenon] != [hole.stands[driven]]:
        yield f"{key.name}: its hole runs {hole.stands[driven]}, through {tenon}"
    start, stop = hole.stands[driven]
    if not key.stands[driven][0] <= start < stop <= key.stands[driven][1]:
        yield f"{key.name}: does not go through: {key.stands[driven]} in {start}..{stop}"


SUBJECTS: dict[str, Callable[[Piece], Iterator[str]]] = {
    "overlap": _overlaps,
    "wood": _wood,
    "shoulder": _shoulders,
    "tenon": _tenons,
    "haunch": _haunches,
    "moulding": _mouldings,
    "notch": _notches,
    "key": _keys,
}
