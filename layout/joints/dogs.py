"""Dog holes: a row of them in a bench's top, bored round, or square ones cut into a strip that is
glued into the top afterwards.

L runs along the row from the vise's end (end A), W from the front edge. A round hole is bored
square through; a square one is a notch in the strip's face edge, which may lean, its head toward
the vise: at the bottom it then lies farther from the vise by thickness x tangent (arithmetic).
Pitch, clearances and edges: defaults.toml, each with its source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import BadPiece, Where
from layout.joints import dog_spacing as spacing
from layout.joints.dog_spacing import Span, Wanted
from layout.joints.worked import Worked
from layout.mark import Cut, Cylinder, Hull, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.measure.slope import Slope
from layout.part import Part

ZERO = Fraction(0)
MOST_HOLES = 100
MOST_NAMED = 3
# Of places and gaps: the search then takes some seconds.
MOST_WAYS = 4_000_000
Shape = Literal["round", "square"]


class Zone(NamedTuple):
    """What a row must miss, in mm from the vise's end."""

    name: str
    low: Fraction
    high: Fraction


class Vise(NamedTuple):
    """How wide a vise opens, and how far its dog stands before the top's end when it is closed; the
    hand's margin that an opening is not used up to. In mm.
    """

    opening: Fraction
    closed: Fraction
    hand: Fraction

    @property
    def most(self) -> Fraction:
        """The widest pitch that it serves."""
        return self.opening - self.hand


class DogChoice(NamedTuple):
    """What a maker can choose of a row, in mm: the dogs' size, `first` from the vise's end to the
    middle of the first hole, `pitch` (None: the usual one, or what the vise serves), `end` least
    from the last hole's edge to the top's end, `clear` from a hole's edge to what it must miss,
    `lines` from the front edge to the middle of each row of round holes. `step`: the grid that an
    uneven row stands on. `wall`: least wood beside a hole. Holes for holdfasts have no vise.
    `name` tells rows of one board apart; `called` is what a hole is called.
    `below`: how far under the board a dog goes on in its hole's direction. `beyond`: how far the
    vise's end lies beyond end A, where an end cap goes over it.
    """

    shape: Shape
    size: Fraction
    vise: Vise | None
    first: Fraction
    usual_pitch: Fraction
    pitch: Fraction | None
    end: Fraction
    clear: Fraction
    wall: Fraction
    step: Fraction
    lines: tuple[Fraction, ...] = ()
    lean: Slope | None = None
    zones: tuple[Zone, ...] = ()
    where: Where = Where()
    name: str = "dogs"
    called: str = "dog hole"
    below: Fraction = ZERO
    beyond: Fraction = ZERO

    @property
    def most(self) -> Fraction | None:
        """The widest pitch that the vise serves; None without one."""
        return None if self.vise is None else self.vise.most


class Dogs(NamedTuple):
    """Rows of holes in a board: evenly spaced, and as they are made. Places are the middles of the
    holes at the top, in mm from end A.
    """

    part: Part
    choice: DogChoice
    pitch: Fraction
    even: tuple[Fraction, ...]
    places: tuple[Fraction, ...]

    @property
    def joint(self) -> str:
        """The name that its cuts and marks carry."""
        return f"{self.part.id}.{self.choice.name}"

    @property
    def lean(self) -> Fraction:
        """How much farther from the vise a hole lies at the bottom, in mm."""
        return lean(self.choice, self.part.thickness)

    @property
    def held(self) -> list[Span]:
        """The lengths of work that are held, from short to long."""
        vise = self.choice.vise
        if vise is None:
            return []
        return spacing.held(self.places, vise.closed - self.choice.size / 2, vise.opening)


def lean(choice: DogChoice, thickness: Fraction) -> Fraction:
    """How much farther from the vise a hole lies at the bottom of a board, in mm."""
    return ZERO if choice.lean is None else choice.lean.offset(thickness)


def blocked(choice: DogChoice, thickness: Fraction) -> list[Span]:
    """Where no hole's middle may stand, for what the row must miss: between these, in mm."""
    half, deep = choice.size / 2, lean(choice, thickness + choice.below)
    return [
        (zone.low - choice.clear - half - deep, zone.high + choice.clear + half)
        for zone in choice.zones
    ]


def laid_out(part: Part, choice: DogChoice) -> Dogs:
    """The row in a board. BadPiece where no hole can stand, or no row misses what it must."""
    pitch = choice.pitch
    if pitch is None:
        pitch = choice.usual_pitch if choice.most is None else min(choice.usual_pitch, choice.most)
    least = choice.size + choice.wall
    if pitch < least:
        raise BadPiece(
            "the holes would stand nearer than a hole and the least wood beside it",
            "make the pitch wider, the dogs smaller, or use a vise that opens wider",
            choice.where,
        )
    half, deep = choice.size / 2, lean(choice, part.thickness)
    limit = part.length - choice.end - half - deep
    # without a vise a gap may be twice the pitch: one hole left out
    most = 2 * pitch if choice.most is None else max(choice.most, pitch)
    wanted = Wanted(choice.first, pitch, least, most, limit, choice.step)
    row = spacing.even(wanted)
    if not row:
        raise BadPiece("the first hole comes too near to the end of the top",
                       "make the top longer, or the first hole nearer to the vise", choice.where)
    if len(row) > MOST_HOLES:
        raise BadPiece(f"a row of {len(row)} holes", f"at most {MOST_HOLES}: check the pitch",
                       choice.where)
    taken = blocked(choice, part.thickness)
    if all(spacing.is_free(place, taken) for place in row):
        return Dogs(part, choice, pitch, row, row)
    if not spacing.is_free(choice.first, taken):
        hit = next(zone for zone, span in zip(choice.zones, taken, strict=True)
                   if span[0] < choice.first < span[1])
        raise BadPiece(f"the first hole runs into the {hit.name}",
                       "move the first hole; all others are spaced from it", choice.where)
    grid = (limit - choice.first) / choice.step
    if grid * (wanted.most - least) / choice.step > MOST_WAYS:
        raise BadPiece("the grid is too fine for so long a top",
                       "search on a coarser one: make the step wider", choice.where)
    found = spacing.most_even(wanted, taken)
    if found is None:
        raise BadPiece("no row of holes misses all that it must, serves the vise and goes to the "
                       "top's end",
                       f"the widest thing to miss is the {_widest(choice, taken)}: lay out what "
                       "lies beyond it by itself, take less clearance, or a vise that opens wider",
                       choice.where)
    if len(found) > MOST_HOLES:
        raise BadPiece(f"a row of {len(found)} holes", f"at most {MOST_HOLES}: check the pitch",
                       choice.where)
    return Dogs(part, choice, pitch, row, found)


def stretches(choice: DogChoice, taken: list[Span]) -> list[tuple[Fraction, Fraction, list[Zone]]]:
    """Stretches in which no hole can stand, and all zones that take up each."""
    found: list[tuple[Fraction, Fraction, list[Zone]]] = []
    for (low, high), zone in sorted(zip(taken, choice.zones, strict=True)):
        if found and low < found[-1][1]:
            before = found[-1]
            found[-1] = (before[0], max(before[1], high), [*before[2], zone])
        else:
            found.append((low, high, [zone]))
    return found


def _widest(choice: DogChoice, taken: list[Span]) -> str:
    """What takes up the widest stretch beyond the first hole: the names of all that meet there."""
    beyond = [one for one in stretches(choice, taken) if one[1] > choice.first]
    _, _, zones = max(beyond, key=lambda one: one[1] - one[0])
    named = list(dict.fromkeys(zone.name for zone in zones))
    more = f" and {len(named) - MOST_NAMED} more" if len(named) > MOST_NAMED else ""
    return " with the ".join(named[:MOST_NAMED]) + more


# -- cuts, marks, sums


def work(dogs: Dogs) -> Worked:
    """The holes, what is struck for them, and where each stands."""
    cuts = tuple(_cuts(dogs))
    marks = _round_marks(dogs) if dogs.choice.shape == "round" else _square_marks(dogs)
    return Worked(cuts, tuple(marks), tuple(_sums(dogs, cuts)))


def _named(dogs: Dogs, number: int, line: int) -> str:
    many = len(dogs.choice.lines) > 1
    return f"{dogs.choice.called} {number}" + (f", row {line + 1}" if many else "")


def line_name(dogs: Dogs, number: int) -> str:
    """What a line across a hole is called, short enough for a stick: `dog 3`, `holdfast 3`."""
    return f"{dogs.choice.called.removesuffix(' hole')} {number}"


def _lines(dogs: Dogs) -> tuple[Fraction, ...]:
    """How far from the front edge the middle of each row lies."""
    return dogs.choice.lines if dogs.choice.shape == "round" else (dogs.choice.size / 2,)


def _cuts(dogs: Dogs) -> Iterator[Cut]:
    part, size = dogs.part, dogs.choice.size
    for line, across in enumerate(_lines(dogs)):
        for number, place in enumerate(dogs.places, start=1):
            role = _named(dogs, number, line)
            shape: Cylinder | Hull
            if dogs.choice.shape == "round":
                shape = Cylinder("T", (place, across), size / 2, ZERO, part.thickness)
            else:
                low = place - size / 2
                shape = Hull(tuple(
                    (low + along + dogs.lean * deep, wide, part.thickness * deep)
                    for along in (ZERO, size) for wide in (ZERO, size) for deep in (0, 1)
                ))
            yield Cut(part.id, dogs.joint, role, shape)


def _round_marks(dogs: Dogs) -> Iterator[Mark]:
    """The line of each row, struck from the front edge, and where each hole crosses it."""
    part, half = dogs.part, dogs.choice.size / 2
    for line, across in enumerate(dogs.choice.lines):
        role = f"line of the {dogs.choice.called}s"
        yield Mark(part.id, dogs.joint, "face", "marking gauge", role, "face edge", across,
                   ((ZERO, across), (part.length, across)))
        for number, place in enumerate(dogs.places, start=1):
            role = line_name(dogs, number)
            yield Mark(part.id, dogs.joint, "face", "pencil", role, "end A", place,
                       ((place, across - half), (place, across + half)))
            yield Mark(part.id, dogs.joint, "face", "bit", _named(dogs, number, line), "end A",
                       place, point=(place, across), diameter=dogs.choice.size)


def _square_marks(dogs: Dogs) -> Iterator[Mark]:
    """Both sides of each notch across the strip's top and bottom, its slopes down the front edge,
    and how deep it goes.
    """
    part, size, deep = dogs.part, dogs.choice.size, dogs.part.thickness
    role = f"depth of the {dogs.choice.called}s"
    yield Mark(part.id, dogs.joint, "face", "marking gauge", role, "face edge", size,
               ((ZERO, size), (part.length, size)))
    for number, place in enumerate(dogs.places, start=1):
        for side, word in ((-size / 2, "near side"), (size / 2, "far side")):
            top, foot = place + side, place + side + dogs.lean
            role = f"{line_name(dogs, number)} {word}"
            yield Mark(part.id, dogs.joint, "face", "knife", role, "end A", top,
                       ((top, ZERO), (top, size)))
            yield Mark(part.id, dogs.joint, "edge", "bevel" if dogs.lean else "knife", role,
                       "end A", top, ((top, ZERO), (foot, deep)))


def _sums(dogs: Dogs, cuts: tuple[Cut, ...]) -> Iterator[Sum]:
    """The row as a chain: from the vise's end to the first hole, then gap by gap."""
    part, half = dogs.part, dogs.choice.size / 2
    end = face_of(part.id, "end A")
    first = cuts[:len(dogs.places)]
    stands = [Witness(end, low_of(cut, "L"), plus=half) for cut in first]
    beyond = dogs.choice.beyond
    terms = [(+1, "first hole from the vise's end", dogs.places[0] + beyond)]
    if beyond:  # the cap is no part of this board: from the vise's end, then from end A
        terms.append((-1, "end cap beyond the tongue", beyond))
        stands.insert(0, stands[0]._replace(plus=half + beyond))
    for number in range(1, len(dogs.places)):
        gap = dogs.places[number] - dogs.places[number - 1]
        terms.append((+1, f"hole {number} to {number + 1}", gap))
    yield add(f"middles of the {dogs.choice.called}s", part.id, stands[-1], *terms,
              along=tuple(stands[:-1]))
    if dogs.lean:
        yield add("foot of a dog hole behind its head", part.id,
                  Witness(low_of(first[0], "L"), high_of(first[0], "L"), plus=-dogs.choice.size),
                  (+1, "lean over the thickness", dogs.lean))
