"""Checking a sliding dovetail with two equal round rods laid in its acute corners.

Neither the bottom of a socket nor the neck of a tail can be reached with a rule: the arrises lean
over them. Rods (the shanks of two like drills) lie against base and sloping side, and the distance
between them in a socket, or over them on a tail, tells how wide the corners stand apart. Where one
side only slopes, one rod lies in its corner, and the square side is the other end of the measure.

With a the acute angle between side and base, a rod of diameter D touches the base D/2 cot(a/2) from
the corner, and its far side lies D/2 beyond: D/2 times 1 + cot(a/2) from the corner.
    over the rods on a tail       = neck + D (1 + cot(a/2))
    between the rods in a socket  = bottom - D (1 + cot(a/2)), bottom = mouth + 2 depth cot(a)
Source: the rule of Machinery's Handbook as quoted in a shop column of 2009 (tail), and a
machinist's reference page that has both forms; both read, they agree; the handbook's page was not
seen.

A slope of 1 in n has tan(a) = n, so cot(a) = 1/n and cot(a/2) = sqrt(1 + 1/n^2) + 1/n. The root is
exact where it is rational, otherwise rounded, as `rod_constant` says.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import BadMeasure, BadPiece
from layout.joints.section import Terms
from layout.measure import Rule, Slope, decimal_text, show
from layout.measure.rule import Unit
from layout.solid.gap import root_below

ZERO = Fraction(0)
LEAST_BETWEEN = Fraction(1)
"""The least distance in mm between two rods, or a rod and the square side, in a socket: the
thinnest jaw or drill that goes between them (common practice, no source)."""

# root_below is good to 1e-12; moved up by as much again, a rod of a metre is still good to 1e-20
_FINER = 10**12
_PLACES = 6
# what drills are stepped by, so that a range told can be met: ASME B94.11M, ISO 235, from memory
_STEPS: dict[Unit, Rule] = {"in": Rule("in", Fraction(1, 64)), "mm": Rule("mm", Fraction(1, 10))}


class Section(NamedTuple):
    """What the rods are laid in: the section of a socket or of a tail, lengths in mm.

    The sides slope 1 in `run`. `mouth` is the width where it is narrowest: of a socket at the
    surface, of a tail at its neck. `depth` is the socket's, or the length of the tail. `sides` says
    whether both slope or one, the other being square. `shoulder` is the width of a tail's narrower
    shoulder that carries a rod, None where it is wide enough for any; a socket has none.
    """

    kind: Literal["socket", "tail"]
    run: Fraction
    mouth: Fraction
    depth: Fraction
    sides: Literal["both", "one"] = "both"
    shoulder: Fraction | None = None

    @property
    def rods(self) -> int:
        """How many rods are laid in: one for each side that slopes."""
        return 2 if self.sides == "both" else 1

    @property
    def lean(self) -> Fraction:
        """How far one side slopes over the depth, in mm."""
        return self.depth / self.run

    @property
    def bottom(self) -> Fraction:
        """The greatest width, in mm: at a socket's bottom, at a tail's tip."""
        return self.mouth + self.rods * self.lean


class Constant(NamedTuple):
    """1 + cot(a/2): times the rod's diameter it is what two rods take; `rounded` where the root
    is no fraction, and then good to 1e-23.
    """

    value: Fraction
    rounded: bool


class Fitting(NamedTuple):
    """The least and the greatest diameter of rod that fits, in mm; both of them still do."""

    least: Fraction
    greatest: Fraction


class Widths(NamedTuple):
    """Widths worked back from a reading, in mm: at the mouth or neck, and at the bottom or tip."""

    mouth: Fraction
    bottom: Fraction


def rod_constant(run: Fraction) -> Constant:
    """1 + cot(a/2) for sides that slope 1 in `run`."""
    square = 1 + 1 / run**2
    root = _root(square)
    return Constant(1 + root + 1 / run, root * root != square)


def reading(section: Section, rod_diameter: Fraction, unit: Unit = "mm") -> Fraction:
    """What is measured with rods of this diameter (mm), in mm.

    In a socket the distance between the rods, on a tail over the rods; with one sloping side,
    from its rod to the square side. BadMeasure with the diameters that fit, in `unit`, where this
    one does not; BadPiece where none does.
    """
    return sum((sign * value for sign, _, value in sums(section, rod_diameter, unit)), ZERO)


def sums(section: Section, rod_diameter: Fraction, unit: Unit = "mm") -> Terms:
    """The terms of the reading, in mm, to be added: sign, what it is, value. Refuses what
    `reading` does.
    """
    _refuse_rod(section, rod_diameter, fitting(section, unit), unit)
    rods = _taken(section, rod_diameter)
    words = _rod_words(section)
    if section.kind == "tail":
        return ((+1, "neck", section.mouth), (+1, words, rods))
    lean = f"depth sloped {Slope(section.run).ratio_text}"
    if section.sides == "both":
        lean += ", on both sides"
    return (
        (+1, "mouth", section.mouth),
        (+1, lean, section.bottom - section.mouth),
        (-1, words, rods),
    )


def width_from_reading(
    section: Section, rod_diameter: Fraction, measured: Fraction, unit: Unit = "mm"
) -> Widths:
    """The true widths of a socket or tail that reads `measured` (mm) with rods of this diameter.

    Of `section` slope and depth count, not the width it was drawn with. BadMeasure where the rod
    does not fit, or the reading leaves no width.
    """
    _refuse_section(section)
    # the piece that was measured may be narrower than drawn: what is between its rods has shown
    # itself to be enough, so that is not asked again
    _refuse_rod(section, rod_diameter, _seated(section, unit), unit)
    taken = _taken(section, rod_diameter)
    leans = section.bottom - section.mouth
    if section.kind == "tail":
        mouth, least, why = measured - taken, taken, "leaves no neck"
    else:
        # a rod that stands out of its corner takes at least what the sides lean
        mouth, least, why = measured + taken - leans, ZERO, "is no distance"
    if measured <= least:
        word = "over" if section.kind == "tail" else "between" if section.rods == 2 else "beside"
        rods = "rods" if section.rods == 2 else "a rod"
        raise BadMeasure(
            f"{_said(measured, unit)} {word} {rods} of {_said(rod_diameter, unit)} {why}",
            f"it has to be more than {_said(least, unit)}: measure again, or look at the rods",
        )
    return Widths(mouth, mouth + leans)


def fitting(section: Section, unit: Unit = "mm") -> Fitting:
    """The diameters of rods that fit, in mm. BadPiece, with lengths in `unit`, where none does.

    A rod that fits touches the sloping side and not its arris; it rests on the shoulder; two in
    a socket, or one and the square side, leave LEAST_BETWEEN between them. Then they can't reach
    the opposite side either, which leans away from the middle downward. Least: the rod stands out
    beyond the arris that leans over it (out of a socket's, past a tail's tip), so that a straight
    jaw held square to the base meets the rod and not the arris, anywhere along the run
    (common practice, no source).
    """
    _refuse_section(section)
    least, greatest = _seated(section, unit)
    if section.kind == "socket":
        greatest = min(greatest, _before_they_meet(section))
    if least > greatest:
        raise BadPiece(
            f"no rod fits this socket: its mouth is {_said(section.mouth, unit)} wide, and between "
            f"{_who(section)} less than {_said(LEAST_BETWEEN, unit)} is left",
            "check it with its tail, or make it wider",
        )
    return Fitting(least, greatest)


# -- limits, in mm


def _seated(section: Section, unit: Unit) -> Fitting:
    """The rods that lie right in their corner and can be reached past the arris."""
    over = rod_constant(section.run).value
    # rod's far side, D/2 (1 + cot(a/2)) from the corner, at least as far out as the arris
    least = 2 * section.lean / over
    greatest = min(_on_the_side(section), _on_the_shoulder(section))
    if least > greatest:
        assert section.shoulder is not None  # a rod on the side always stands out
        wide = section.lean * (over - 1) / over
        raise BadPiece(
            f"no rod fits this tail: on a shoulder {_said(section.shoulder, unit)} wide it stays "
            "behind the arris of the tip",
            f"it has to be at least {_up(wide, unit)}; otherwise check the tail in its socket",
        )
    return Fitting(least, greatest)


def _on_the_side(section: Section) -> Fraction:
    """The greatest rod that touches the sloping side: D/2 cot(a/2) up it, which is as high as
    that times sin(a), at most the depth; cot(a/2) sin(a) = 1 + cos(a).
    """
    cot = 1 / section.run
    root = rod_constant(section.run).value - 1 - cot
    return 2 * section.depth / (1 + cot / root)


def _on_the_shoulder(section: Section) -> Fraction:
    """The greatest rod that rests on a tail's shoulder, D/2 cot(a/2) from the neck."""
    if section.shoulder is None:
        return _on_the_side(section)
    return 2 * section.shoulder / (rod_constant(section.run).value - 1)


def _before_they_meet(section: Section) -> Fraction:
    """The greatest rods in a socket with enough between them to measure."""
    over = rod_constant(section.run).value
    return (section.bottom - LEAST_BETWEEN) * 2 / section.rods / over


def _refuse_rod(section: Section, rod: Fraction, fits: Fitting, unit: Unit) -> None:
    if fits.least <= rod <= fits.greatest:
        return
    socket = section.kind == "socket"
    arris = "the arris of the mouth" if socket else "the arris of the tail's tip"
    if rod < fits.least:
        why = f"stays behind {arris}, where a straight jaw does not reach it"
    elif rod > _on_the_side(section):
        why = f"touches {arris} and not the sloping side"
    elif rod > _on_the_shoulder(section):
        why = f"does not rest on a shoulder {_said(section.shoulder or ZERO, unit)} wide"
    else:
        why = f"is too thick: {_who(section)} leave less than {_said(LEAST_BETWEEN, unit)} between"
    raise BadMeasure(
        f"a rod of {_said(rod, unit)} {why}", f"take {_range(fits.least, fits.greatest, unit)}"
    )


def _refuse_section(section: Section) -> None:
    """BadPiece for a section that is none."""
    narrow = "mouth" if section.kind == "socket" else "neck"
    sizes = [("run of the slope", section.run), (narrow, section.mouth), ("depth", section.depth)]
    if section.shoulder is not None:
        sizes.append(("shoulder", section.shoulder))
    for name, size in sizes:
        if size <= 0:
            raise BadPiece(
                f"a {section.kind} can't be checked with rods: its {name} is "
                f"{'zero' if size == 0 else 'below zero'}",
                "make it more than zero",
            )
    if section.kind == "socket" and section.shoulder is not None:
        raise ValueError("a socket has no shoulder for a rod to rest on")


# -- figures


def _root(square: Fraction) -> Fraction:
    return root_below(square * _FINER**2) / _FINER


def _taken(section: Section, rod: Fraction) -> Fraction:
    """What the rods take of the width, or add to it, in mm."""
    return rod * rod_constant(section.run).value * section.rods / 2


def _rod_words(section: Section) -> str:
    """`rod diameter times 2.15301, rounded`; half of it where there is one rod."""
    value, rounded = rod_constant(section.run)
    half = "" if section.rods == 2 else "half the "
    text = decimal_text(value, _PLACES)
    word = ", rounded" if rounded or Fraction(text) != value else ""
    return f"{half}rod diameter times {text}{word}"


def _who(section: Section) -> str:
    """What a jaw has to go between in a socket."""
    return "two of them" if section.rods == 2 else "the rod and the square side"


def _said(length: Fraction, unit: Unit) -> str:
    """A length in mm, in a unit, exactly where drills go that fine, else with four decimals."""
    rule = _STEPS[unit]
    if (length / rule.step_mm).denominator == 1:
        return show(length, rule).with_unit
    one = rule.step_mm / rule.step
    return f"{decimal_text(length / one, 4)} {unit}"


def _up(length: Fraction, unit: Unit) -> str:
    """A limit that has to be met, rounded up to a step of drills, so that it serves."""
    step = _STEPS[unit].step_mm
    return _said(-(-length // step) * step, unit)


def _range(least: Fraction, greatest: Fraction, unit: Unit) -> str:
    """`rods from 1.2 mm to 15.7 mm`, rounded inward, so that whatever is told fits."""
    for step in (_STEPS[unit].step_mm, _STEPS[unit].step_mm / _STEPS[unit].step / 10_000):
        low, high = -(-least // step) * step, greatest // step * step
        if low < high:
            return f"rods from {_said(low, unit)} to {_said(high, unit)}"
        if low == high:
            return f"rods of {_said(low, unit)}"
    return f"rods of about {_said(least, unit)}"
