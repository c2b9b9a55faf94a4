"""How the search for the most even row of dog holes grows with the length of the top.

Run by hand: python tests/benchmarks/dog_search_growth.py
Ratios to a bare floor (going over the grid once), not seconds, so that machines can be compared.
The growth exponent is 1 for work that grows as the top does, as the search should: it goes over the
places once for each of its two measures, whatever the number of holes.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from fractions import Fraction
from math import log

from layout.joints.dog_spacing import Wanted, is_free, most_even

LENGTHS = (500, 1_000, 2_000, 4_000)
STEP = Fraction(1)


def row(long: int) -> tuple[Wanted, list[tuple[Fraction, Fraction]]]:
    """A row with something to miss in every half metre."""
    wanted = Wanted(Fraction(100), Fraction(100), Fraction(25), Fraction(150), Fraction(long), STEP)
    blocked = [(Fraction(at), Fraction(at + 40)) for at in range(180, long, 500)]
    return wanted, blocked


def floor(wanted: Wanted, blocked: list[tuple[Fraction, Fraction]]) -> int:
    """What no method can do without: every place on the grid looked at once."""
    return sum(is_free(Fraction(at), blocked) for at in range(int(wanted.limit)))


def best_of(call: Callable[[], object], many: int = 3) -> float:
    found = []
    for _ in range(many):
        start = time.perf_counter()
        call()
        found.append(time.perf_counter() - start)
    return min(found)


def main() -> None:
    before: tuple[int, float] | None = None
    for long in LENGTHS:
        wanted, blocked = row(long)
        search = best_of(lambda: most_even(wanted, blocked))  # noqa: B023
        bare = best_of(lambda: floor(wanted, blocked))  # noqa: B023
        growth = ""
        if before is not None:
            growth = f", growth {log(search / before[1]) / log(long / before[0]):.2f}"
        print(f"{long} mm: {search / bare:.1f} times the floor{growth}")
        before = (long, search)


if __name__ == "__main__":
    main()
