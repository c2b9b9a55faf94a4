"""Cross rails: parts that stand between two other parts of the frame, not between two legs.

A stretcher between two low rails, a muntin between an upper and a lower rail, a runner or a
kicker from the front rail to the back one. Which surfaces they go into follows from where the
two bearers stand: the ones that face each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.builds.choices import CrossChoice, FrameChoice
from layout.builds.frame import Lengths, StandingRail, part_id
from layout.errors import BadPiece
from layout.joints.rail_end import Approach, Meeting
from layout.joints.section import Terms
from layout.part import (
    AXES,
    FACE_NORMAL,
    FACES,
    Axis,
    Direction,
    Face,
    Part,
    Placement,
    piece_axis,
    sense,
)

ZERO = Fraction(0)
Span = tuple[Fraction, Fraction]
# How a place along X, Y and Z is told.
FROM = ("from the left", "from the front", "above the floor")


class _Bearers(NamedTuple):
    """The two parts, the lower one along the cross rail first, and the piece's axes: along the
    cross rail, along the bearers, and the third.
    """

    one: Part
    other: Part
    run: int
    along: int
    across: int


def stand_crosses(
    choice: FrameChoice,
    legs: Sequence[Part],
    rails: Sequence[StandingRail],
    lengths: Lengths,
) -> list[StandingRail]:
    """Every cross rail in its place, each after those that it may itself stand on."""
    parts = {part.name: part for part in (*legs, *(rail.part for rail in rails))}
    stood = []
    for cross in choice.crosses:
        standing = _stand(cross, choice, parts, lengths)
        parts[standing.part.name] = standing.part
        stood.append(standing)
    return stood


def reach(part: Part, axis: int, lengths: Lengths) -> Span:
    """A part's reach along a piece axis, along its own length only from shoulder to shoulder."""
    for own in AXES:
        direction = part.placement.direction(own)
        if piece_axis(direction) == axis:
            start, stop = ZERO, part.size(own)
            if own == "L" and part.id in lengths:
                start, stop = lengths[part.id][0], stop - lengths[part.id][1]
            ends = [
                part.placement.origin[axis] + sense(direction) * value for value in (start, stop)
            ]
            return min(ends), max(ends)
    raise AssertionError("a placed part has an axis along every axis of the piece")


def _stand(
    cross: CrossChoice, frame: FrameChoice, parts: dict[str, Part], lengths: Lengths
) -> StandingRail:
    choice = cross.rail
    bearers = _bearers(cross, parts, lengths)
    one, other, run = bearers.one, bearers.other, bearers.run
    if cross.places[run] is not None:
        raise BadPiece(
            f"where the {choice.name} stands {FROM[run]} is given, but it runs that way between "
            f"the {one.name} and the {other.name}",
            "leave that place out",
            choice.where,
        )
    low, high = reach(one, run, lengths)[1], reach(other, run, lengths)[0]
    measured = frame.milled.of(choice.name)
    width = choice.width if measured.width is None else measured.width
    thickness = choice.thickness if measured.thickness is None else measured.thickness
    width_axis = _width_axis(bearers, cross.upright)
    thick_axis = 3 - run - width_axis
    sizes = {width_axis: (width, choice.width), thick_axis: (thickness, choice.thickness)}
    at_a, at_b = lengths.get(part_id(choice.name), (ZERO, ZERO))
    placement = _directions(bearers, width_axis, thick_axis)
    origin = [ZERO, ZERO, ZERO]
    # end A is the left, the front or the upper one
    down = run == 2
    origin[run] = high + at_a if down else low - at_a
    nearer: dict[int, Fraction] = {}
    for axis in (bearers.along, bearers.across):
        nearer[axis] = _nearer_side(cross, bearers, axis, sizes[axis][1], lengths)
        direction = placement[1] if axis == width_axis else placement[2]
        # reference surfaces stay where they were drawn; a measured size moves the far side
        far = nearer[axis] + sizes[axis][1]
        origin[axis] = nearer[axis] if sense(direction) > 0 else far
    part = Part(
        part_id(choice.name),
        choice.name,
        "rail",
        at_a + (high - low) + at_b,
        width,
        thickness,
        Placement((origin[0], origin[1], origin[2]), *placement),
        choice.timber,
    )
    lower, upper = (other, one) if down else (one, other)
    meetings = [
        _meeting(part, end, bearer, bearers)
        for end, bearer in (("A", lower), ("B", upper))
    ]
    between: Terms = (
        (+1, f"{other.name} {FROM[run]}", high),
        (-1, f"inner side of the {one.name} {FROM[run]}", low),
    )
    top = max(part.placement.to_piece((ZERO, w, t))[2] for w in (ZERO, width)
              for t in (ZERO, thickness))
    return StandingRail(part, choice, None, top, (meetings[0], meetings[1]), between)


def _bearers(
    cross: CrossChoice, parts: dict[str, Part], lengths: Lengths
) -> _Bearers:
    """The two parts named. BadPiece where they don't face each other."""
    found = []
    for name in cross.between:
        if name not in parts:
            listed = ", ".join(f"'{one}'" for one in parts)
            raise BadPiece(
                f"there is no part '{name}' for the {cross.rail.name} to stand on",
                f"the parts are: {listed}",
                cross.rail.where,
            )
        found.append(parts[name])
    one, other = found
    apart = [
        axis
        for axis in range(3)
        if _gap(reach(one, axis, lengths), reach(other, axis, lengths)) > 0
    ]
    lines = {piece_axis(one.placement.L), piece_axis(other.placement.L)}
    if len(apart) != 1 or len(lines) != 1 or apart[0] in lines:
        raise BadPiece(
            f"the {one.name} and the {other.name} do not face each other",
            "name two parts that stand side by side or one above the other, of one direction",
            cross.rail.where,
        )
    run, along = apart[0], lines.pop()
    if reach(one, run, lengths)[0] > reach(other, run, lengths)[0]:
        one, other = other, one
    return _Bearers(one, other, run, along, 3 - run - along)


def _gap(one: Span, other: Span) -> Fraction:
    return max(one[0] - other[1], other[0] - one[1])


def _width_axis(bearers: _Bearers, upright: bool) -> int:
    """The piece axis that the cross rail's width lies along: with the bearers' grain for an
    upright part; for a level one upright, or along the bearers where it lies flat.
    """
    if bearers.run == 2 or bearers.along == 2:
        return bearers.along
    return 2 if upright else bearers.along


def _directions(
    bearers: _Bearers, width_axis: int, thick_axis: int
) -> tuple[Direction, Direction, Direction]:
    """Where L, W and T point. The face side lies toward the front or the left, on a flat part on
    top; on a part between rails of one side of the frame, outside, as theirs do.
    """
    ways: tuple[Direction, Direction, Direction] = ("+X", "+Y", "-Z")
    run = ways[bearers.run]
    width, thick = ways[width_axis], ways[thick_axis]
    if bearers.run == 2:
        place = bearers.one.placement
        width = next(d for d in (place.L, place.W, place.T) if piece_axis(d) == width_axis)
        thick = next(d for d in (place.L, place.W, place.T) if piece_axis(d) == thick_axis)
    return run, width, thick


def _nearer_side(
    cross: CrossChoice, bearers: _Bearers, axis: int, size: Fraction, lengths: Lengths
) -> Fraction:
    """Where the side nearer to the left, the front or the floor stands; in mm."""
    given = cross.places[axis]
    if given is not None:
        return given
    low, high = reach(bearers.one, axis, lengths)
    low2, high2 = reach(bearers.other, axis, lengths)
    return (max(low, low2) + min(high, high2) - size) / 2


def _meeting(part: Part, end: str, bearer: Part, bearers: _Bearers) -> Meeting:
    face = _facing(bearer, bearers)
    approaches = []
    owns: tuple[Literal["W", "T"], Literal["W", "T"]] = ("W", "T")
    for own in owns:
        direction = part.placement.direction(own)
        axis = piece_axis(direction)
        theirs = next(a for a in AXES if piece_axis(bearer.placement.direction(a)) == axis)
        forward = sense(direction) == sense(bearer.placement.direction(theirs))
        approaches.append(_approach(part, own, bearer, theirs, forward, axis))
    ends: Literal["A", "B"] = "A" if end == "A" else "B"
    return Meeting(ends, bearer, face, approaches[0], approaches[1])


def _facing(bearer: Part, bearers: _Bearers) -> Face:
    """The surface of a bearer that looks at the other one."""
    toward = 1 if bearer is bearers.one or bearer.id == bearers.one.id else -1
    for face in FACES:
        axis, far = FACE_NORMAL[face]
        direction = bearer.placement.direction(axis)
        if piece_axis(direction) == bearers.run and sense(direction) * (1 if far else -1) == toward:
            return face
    raise AssertionError("a part has a surface each way along every axis")


def _approach(
    part: Part, own: Literal["W", "T"], bearer: Part, theirs: Axis, forward: bool, axis: int
) -> Approach:
    """From the bearer's reference surface to the cross rail's nearer and farther surface."""
    direction = bearer.placement.direction(theirs)
    start = bearer.placement.origin[axis]
    size = part.size(own)
    place = part.placement
    ends = sorted((
        place.origin[axis], place.origin[axis] + sense(place.direction(own)) * size
    ))
    nearer = ends[0] if sense(direction) > 0 else ends[1]
    reference = {"L": "end A", "W": "face edge", "T": "face side"}[theirs]
    whole = bearer.size(theirs)
    word = {"W": "width", "T": "thickness"}[own]
    off = sense(direction) * (nearer - start)
    near: Terms
    if off * 2 == whole - size:
        what = {"L": "length", "W": "width", "T": "thickness"}[theirs]
        near = (
            (+1, f"half of the {what} of the {bearer.name}", whole / 2),
            (-1, f"half of the {word} of the {part.name}", size / 2),
        )
    elif sense(direction) > 0:
        near = ((+1, f"{part.name} {FROM[axis]}", nearer),
                (-1, f"{reference} of the {bearer.name} {FROM[axis]}", start))
    else:
        near = ((+1, f"{reference} of the {bearer.name} {FROM[axis]}", start),
                (-1, f"far side of the {part.name} {FROM[axis]}", nearer))
    return Approach(theirs, forward, near, (*near, (+1, f"rail {word}", size)))

