"""How far apart two volumes are, convex bodies or bored holes, and whether they share volume.

All lengths are exact Fractions of a millimetre. Where a length is a root, or where a hole's
rounding meets a slope, `apart` is never more than the true distance.
"""

from __future__ import annotations

from fractions import Fraction

from layout.solid.convex import Body, Span, block, clip
from layout.solid.gap import apart_squared, polygon_apart_squared, root_below, share_volume
from layout.solid.rounds import Round, Spot2, across, beside, outline, plane_across, shadow_squared

ZERO = Fraction(0)


def apart(one: Body | Round, other: Body | Round) -> Fraction:
    """The least distance between two volumes, in mm; 0 where they touch or overlap.

    Exact, but for roots that are not rational, each rounded down to 10**-12 mm, for:
    two bodies; a hole and a square block; two holes side by side; two holes square to each
    other where the nearest points of their axes lie within both holes' reaches; a hole and a
    sloped body that comes no nearer beyond the hole's ends than beside it.

    A lower bound for the rest. A sloped body beyond the end of a hole is measured from a
    many-sided outline, up to 0.2 % of the radius outside the rim. Two holes square to each
    other that pass by each other's ends are measured with either one as its bounding box.
    """
    if isinstance(one, Body):
        if isinstance(other, Body):
            return root_below(apart_squared(one, other))
        return _round_to_body(other, one)
    if isinstance(other, Body):
        return _round_to_body(one, other)
    return _round_to_round(one, other)


def meet(one: Body | Round, other: Body | Round) -> bool:
    """True where two volumes share volume, exactly; touching is not meeting."""
    if isinstance(one, Body):
        if isinstance(other, Body):
            return share_volume(one, other)
        return _round_meets_body(other, one)
    if isinstance(other, Body):
        return _round_meets_body(one, other)
    return _round_meets_round(one, other)


def _round_to_body(hole: Round, other: Body) -> Fraction:
    if other.square:
        return _hypotenuse(_gap(hole.along, other.spans[hole.axis]), across(hole, other))
    level = beside(hole, other)
    least = None if level is None else across(hole, level)
    for end, sense in zip(hole.along, (1, -1), strict=True):
        beyond = clip(other, plane_across(hole.axis, sense, end))
        if beyond is None:
            continue
        # quick, and mostly enough: as if the nearest height and the nearest place across fell
        # together
        bound = _hypotenuse(_gap(hole.along, beyond.spans[hole.axis]), across(hole, beyond))
        if least is None or bound < least:
            closer = root_below(polygon_apart_squared(outline(hole, end), beyond))
            bound = max(bound, closer)
            least = bound if least is None else min(least, bound)
    assert least is not None  # a body is beside a hole, beyond one of its ends, or both
    return least


def _round_to_round(one: Round, other: Round) -> Fraction:
    if one.axis == other.axis:
        between = root_below(_squared(one.centre, other.centre)) - one.radius - other.radius
        return _hypotenuse(_gap(one.along, other.along), max(between, ZERO))
    if one.past(other) == 0 == other.past(one):
        return max(_axes_apart(one, other) - one.radius - other.radius, ZERO)
    return max(
        _round_to_body(one, block(other.spans)),
        _round_to_body(other, block(one.spans)),
    )


def _round_meets_body(hole: Round, other: Body) -> bool:
    level = beside(hole, other)
    return level is not None and shadow_squared(hole, level) < hole.radius**2


def _round_meets_round(one: Round, other: Round) -> bool:
    if one.axis == other.axis:
        (low, high), (other_low, other_high) = one.along, other.along
        reach = (one.radius + other.radius) ** 2
        return low < other_high and other_low < high and _squared(one.centre, other.centre) < reach
    # Where its axis passes by the other's end, only the side of a hole gets over the other, and
    # the further it has to go there, the flatter it is: half as thick as the root of
    # radius^2 - past^2. They meet where the two half thicknesses are more than the axes are apart.
    one_half = one.radius**2 - one.past(other) ** 2
    other_half = other.radius**2 - other.past(one) ** 2
    if one_half <= 0 or other_half <= 0:
        return False
    wanting = _axes_apart(one, other) ** 2 - one_half - other_half
    return wanting < 0 or wanting**2 < 4 * one_half * other_half


def _axes_apart(one: Round, other: Round) -> Fraction:
    """The distance between the axes of two holes square to each other, as endless lines."""
    third = 3 - one.axis - other.axis
    return abs(one.middle(third) - other.middle(third))


def _gap(one: Span, other: Span) -> Fraction:
    return max(other[0] - one[1], one[0] - other[1], ZERO)


def _squared(one: Spot2, other: Spot2) -> Fraction:
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2


def _hypotenuse(one: Fraction, other: Fraction) -> Fraction:
    return root_below(one * one + other * other) if one and other else one + other
