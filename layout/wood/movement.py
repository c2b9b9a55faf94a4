"""How much wider, narrower, thicker or thinner wood becomes with its moisture.

Between 6 and 14 % of moisture: change = size x coefficient x difference in moisture (Wood
Handbook, FPL-GTR-190, 2010, Eq. 13-2, coefficients of Table 13-5). Outside: from the shrinkage
between green and ovendry, change = size x difference / (start x 100 / shrinkage - start +
moisture before) (Eq. 13-3, Table 4-3), start being 30 % for most woods. Along the grain wood
hardly moves; that is left out.

A flat-sawn board moves tangentially across its width and radially through its thickness, a
quarter-sawn one the other way round. Rift is taken half way between, its rings at 45 degrees: the
mean of the two, which is what a square turned by 45 degrees shows of them.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import BadWood
from layout.measure import decimal_text, nearest
from layout.wood.moisture import Moisture, percent
from layout.wood.species import Figure, Sawn, Wood

Way = Literal["width", "thickness"]
SAWN: tuple[Sawn, ...] = ("flat", "quarter", "rift")
INCH = Fraction(127, 5)
# The range that the coefficients are good for, in percent of moisture.
LOWEST, HIGHEST = Fraction(6), Fraction(14)


class Movement(NamedTuple):
    """What a size becomes: its share of change, and the figures that it comes from.

    `digits` is how many the figures carry: those of the wood's, and of the difference in moisture
    told to a tenth. `words` tells the sum. `read` is False where a figure is from memory.
    """

    share: Fraction
    digits: int
    words: str
    read: bool = True


def movement(wood: Wood, sawn: Sawn, way: Way, before: Moisture, after: Moisture) -> Movement:
    """How wood changes across its width or through its thickness between two moistures.

    BadWood where the tables don't say.
    """
    low, high = sorted((before.content, after.content))
    if high > wood.starts_at:
        raise BadWood(
            f"at {percent(high)} {wood.name} is wetter than {wood.starts_at} %, where it begins to "
            "shrink", f"give a moisture of at most {wood.starts_at} %",
        )
    ways = _ways(sawn, way)
    inside = low >= LOWEST and high <= HIGHEST
    if inside and all(_coefficient(wood, one) is not None for one in ways):
        return _by_coefficient(wood, ways, before, after)
    if all(_shrinkage(wood, one) is not None for one in ways):
        return _by_shrinkage(wood, ways, before, after)
    if wood.radial is None:
        raise BadWood(f"the tables don't say how {wood.name} moves {_ring_words(ways)}",
                      "give its figures under [[wood]]")
    raise BadWood(
        f"the figures of {wood.name} hold between {LOWEST} and {HIGHEST} % only, not from "
        f"{percent(before.content)} to {percent(after.content)}",
        "keep the moisture within that, or give another wood of its kind",
    )


def carried(value: Fraction, digits: int) -> str:
    """A number with no more digits than it carries: 1.7052 with 2 is `1.7`, 0.0671 is `0.067`."""
    if value == 0:
        return "0"
    first = 0  # the power of ten of its first digit
    while abs(value) >= Fraction(10) ** (first + 1):
        first += 1
    while abs(value) < Fraction(10) ** first:
        first -= 1
    last = first - digits + 1
    many = nearest(value / Fraction(10) ** last)
    if abs(many) == 10**digits:  # rounded up to the next power of ten
        many, last = many // 10, last + 1
    if last >= 0:
        return str(many * 10**last)
    figures = str(abs(many)).rjust(1 - last, "0")
    return f"{'-' if many < 0 else ''}{figures[:last]}.{figures[last:]}"


def carried_length(value: Fraction, digits: int, unit: str) -> str:
    """A length in mm, in its unit as a decimal, with no more digits than it carries."""
    return f"{carried(value / INCH if unit == 'in' else value, digits)} {unit}"


def _ways(sawn: Sawn, way: Way) -> tuple[str, ...]:
    if sawn == "rift":
        return ("radial", "tangential")
    return ("tangential",) if (sawn == "flat") == (way == "width") else ("radial",)


def _ring_words(ways: tuple[str, ...]) -> str:
    return " and ".join(f"{one}ly" for one in ways)


def _coefficient(wood: Wood, way: str) -> Figure | None:
    return wood.radial if way == "radial" else wood.tangential


def _shrinkage(wood: Wood, way: str) -> Figure | None:
    return wood.shrinks[0] if way == "radial" else wood.shrinks[1]


def _figures(found: list[Figure | None]) -> list[Figure]:
    return [figure for figure in found if figure is not None]


def _difference(before: Moisture, after: Moisture) -> tuple[Fraction, int, str]:
    """The difference in moisture, how many digits it has to a tenth, and in words."""
    by = after.content - before.content
    tenths = abs(nearest(by * 10))
    return by, max(len(str(tenths)), 1), percent(abs(by))


def _by_coefficient(
    wood: Wood, ways: tuple[str, ...], before: Moisture, after: Moisture
) -> Movement:
    by, digits, told = _difference(before, after)
    figures = _figures([_coefficient(wood, one) for one in ways])
    mean = sum((figure.value for figure in figures), Fraction(0)) / len(figures)
    digits = min(digits, *(figure.digits for figure in figures))
    what = " and ".join(ways)
    half = "mean of " if len(ways) > 1 else ""
    words = f"{decimal_text(mean, 6)} ({half}{what}) for each 1 %, {told}"
    return Movement(mean * by, digits, words, all(figure.read for figure in figures))


def _by_shrinkage(
    wood: Wood, ways: tuple[str, ...], before: Moisture, after: Moisture
) -> Movement:
    by, digits, told = _difference(before, after)
    figures = _figures([_shrinkage(wood, one) for one in ways])
    start = wood.starts_at
    shares = [
        by / (start * 100 / figure.value - start + before.content) for figure in figures
    ]
    digits = min(digits, *(figure.digits for figure in figures))
    told_as = " and ".join(
        f"{decimal_text(figure.value)} % {way}" for figure, way in zip(figures, ways, strict=True)
    )
    half = "mean of " if len(ways) > 1 else ""
    words = (f"{half}{told_as} ({wood.shrinks_in}) from {decimal_text(start)} % to ovendry, {told} "
             f"from {percent(before.content)}")
    share = sum(shares, Fraction(0)) / len(shares)
    return Movement(share, digits, words, all(figure.read for figure in figures))
