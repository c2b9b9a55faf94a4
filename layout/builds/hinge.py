"""Where hinges and lock stand on a door, clear of its tenons, and their lines.

The outermost hinges stand one hinge's length from the door's ends, further ones between them at
equal distances; the lock stands half way up (common practice, no source). A place left open that
would come over a mortise moves to the nearest one that keeps clear of all of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from layout.joints.worked import Worked
from layout.mark import Mark, Sum, Surface, Witness, add, face_of
from layout.part import FACE_AXES, Part, Point

if TYPE_CHECKING:
    from layout.builds.door import Door

ZERO = Fraction(0)
Span = tuple[Fraction, Fraction]


class Fitting(NamedTuple):
    """A hinge or a lock along a stile, in mm from its end A; whether its place was left open, and
    where it would have stood then.
    """

    name: str
    stile: Part
    start: Fraction
    length: Fraction
    open: bool
    wanted: Fraction

    @property
    def stop(self) -> Fraction:
        """Its lower end."""
        return self.start + self.length


def fittings(door: Door) -> tuple[Fitting, ...]:
    """The hinges from the top down, and the lock."""
    return (*_hinges(door), *_lock(door))


def mortises(door: Door, stile: Part) -> tuple[Span, ...]:
    """From where to where the stile's mortises reach along it."""
    found = []
    for one in door.rails:
        top = door.height - (one.rail.top - door.site.origin[2] - door.z[0])
        found += [(top + low, top + high) for low, high in one.size.section.spans("W")]
    return tuple(sorted(found))


def nearest_clear(
    wanted: Fraction, length: Fraction, taken: tuple[Span, ...], clear: Fraction, whole: Fraction
) -> Fraction | None:
    """The start nearest to `wanted` at which this length keeps `clear` of all that is taken, within
    the whole; None where there is no such place. All in mm.
    """
    blocked = [(low - clear - length, high + clear) for low, high in taken]
    tries = [wanted, ZERO, whole - length, *(end for span in blocked for end in span)]
    free = [
        at for at in tries
        if 0 <= at <= whole - length and not any(low < at < high for low, high in blocked)
    ]
    return min(free, key=lambda at: (abs(at - wanted), at)) if free else None


def _placed(
    name: str, stile: Part, wanted: Fraction, length: Fraction, given: bool, clear: Fraction,
    taken: tuple[Span, ...],
) -> Fitting:
    if given:
        return Fitting(name, stile, wanted, length, False, wanted)
    at = nearest_clear(wanted, length, taken, clear, stile.length)
    return Fitting(name, stile, wanted if at is None else at, length, True, wanted)


def _hinges(door: Door) -> Iterator[Fitting]:
    choice = door.choice.hinges
    if choice is None:
        return
    stile, long = door.hinged, choice.length
    ends = long if choice.from_ends is None else choice.from_ends
    taken = mortises(door, stile)
    first, last = ends, stile.length - ends - long
    step = (last - first) / (choice.many - 1)
    for number in range(choice.many):
        outer = number in (0, choice.many - 1)
        yield _placed(f"hinge {number + 1}", stile, first + step * number, long,
                      outer and choice.from_ends is not None, choice.clear, taken)


def _lock(door: Door) -> Iterator[Fitting]:
    choice = door.choice.lock
    if choice is None:
        return
    stile = door.locked
    above = stile.length / 2 if choice.above is None else choice.above
    start = stile.length - above - choice.length / 2
    yield _placed("lock", stile, start, choice.length, choice.above is not None, choice.clear,
                  mortises(door, stile))


def work(door: Door) -> Worked:
    """Their ends as lines on the stile's outer edge; a hinge's also on what the door hangs on."""
    marks: list[Mark] = []
    sums: list[Sum] = []
    for one in fittings(door):
        if not (one.start >= 0 and one.stop <= one.stile.length):
            continue  # a place off the stile: the checks say so
        joint = f"{door.stem}.{one.name.split()[0]}"
        for at, end in ((one.start, "top"), (one.stop, "bottom")):
            line = ((at, ZERO), (at, one.stile.thickness))
            marks.append(Mark(one.stile.id, joint, "edge", "knife", f"{one.name} {end}", "end A",
                              at, line))
        sums.append(add(f"{one.name} bottom from end A", one.stile.id,
                        Witness(face_of(one.stile.id, "end A"), face_of(one.stile.id, "end B"),
                                plus=one.stop - one.stile.length),
                        (+1, f"{one.name} top", one.start), (+1, "its length", one.length)))
        if one.name != "lock":
            marks += _on_case(door, one, joint)
            sums += _case_sums(door, one)
    return Worked(marks=tuple(marks), sums=tuple(sums))


def _hangs_on(door: Door) -> tuple[Part, Surface] | None:
    """What an inset door is hinged to, and its surface that looks at the door."""
    if door.opening is None or door.choice.mount != "inset":
        return None
    left = door.hand == "left"
    bearer = door.opening.left if left else door.opening.right
    return bearer, door.site.surface(bearer, 0, left)


def _on_case(door: Door, one: Fitting, joint: str) -> Iterator[Mark]:
    """The same lines on what the door hangs on, as far behind its front as the door is thick."""
    found = _hangs_on(door)
    if found is None:
        return
    bearer, surface = found
    assert surface.face is not None  # of a part's own six
    x = door.site.spans(bearer)[0][1 if door.hand == "left" else 0]
    head = door.z[1]
    for at, end in ((one.start, "top"), (one.stop, "bottom")):
        spots = []
        for y in (door.y, door.y + door.choice.thickness):
            place = bearer.placement.to_part(door.site.at(x, y, head - at))
            spots.append(_on_face(surface, place))
        (u0, v0), (u1, v1) = sorted(spots)
        if u0 == u1:  # along the hinge the bearer's grain runs as the stile's does
            yield Mark(bearer.id, joint, surface.face, "knife", f"{one.name} {end}", "end A", u0,
                       ((u0, v0), (u1, v1)))


def _on_face(surface: Surface, place: Point) -> tuple[Fraction, Fraction]:
    assert surface.face is not None
    u, v = FACE_AXES[surface.face]
    return place["LWT".index(u)], place["LWT".index(v)]


def _case_sums(door: Door, one: Fitting) -> Iterator[Sum]:
    """Where the hinge begins on the bearer, from its end A."""
    found = _hangs_on(door)
    if found is None:
        return
    bearer, _ = found
    low, high = door.site.spans(bearer)[2]
    stile = one.stile
    if bearer.placement.L == "+Z":
        yield add(f"{one.name} top from end A", bearer.id,
                  Witness(face_of(bearer.id, "end A"), face_of(stile.id, "end A"),
                          plus=-one.start),
                  (+1, "door's head above end A", door.z[1] - low),
                  (-1, f"{one.name} top on the stile", one.start), where=door.name)
    elif bearer.placement.L == "-Z":
        yield add(f"{one.name} top from end A", bearer.id,
                  Witness(face_of(bearer.id, "end A"), face_of(stile.id, "end A"),
                          plus=one.start),
                  (+1, "door's head below end A", high - door.z[1]),
                  (+1, f"{one.name} top on the stile", one.start), where=door.name)
