"""How finding the close cuts of a board, and measuring between them, grows with their number.

Run by hand: python tests/benchmarks/collision_growth.py
Ratios to a bare floor (the same boxes brought to whole numbers and sorted once), not seconds,
so that machines can be compared. The growth exponent is 1 for work that grows as the number of
cuts does, 2 for trying every two.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from fractions import Fraction
from math import lcm, log

from layout.solid.clearance import apart
from layout.solid.convex import Body, block, body
from layout.solid.near import close_pairs
from layout.solid.rounds import Round

COUNTS = (100, 1_000, 10_000)
WITHIN = Fraction(2)
THIRTYSECOND = Fraction(1, 32)


def cuts(many: int) -> list[Body | Round]:
    """Mortises, sloped cuts and bored holes along a board that grows with their number, and a
    groove as long as the board for every hundred of them.
    """
    chance = random.Random(many)
    long = Fraction(3 * many)
    found: list[Body | Round] = []
    for place in range(many):
        x, y, z = (
            chance.randrange(int(reach) * 32) * THIRTYSECOND for reach in (long, Fraction(200), 40)
        )
        a, b, c = (chance.randrange(32, 8 * 32) * THIRTYSECOND for _ in range(3))
        if place % 100 == 0:
            edge = Fraction(-5 * (place // 100))
            found.append(block(((Fraction(0), long), (edge - 4, edge - 2), (-a, Fraction(0)))))
        elif place % 10 == 1:
            found.append(Round(2, (x, y), a / 2, z, z + c))
        elif place % 10 == 2:
            slope = [(x, z), (x + a, z), (x + a, z + c)]
            found.append(body((u, v, w) for u, w in slope for v in (y, y + b)))
        else:
            found.append(block(((x, x + a), (y, y + b), (z, z + c))))
    return found


def floor(some: list[Body | Round]) -> None:
    """What no method can do without: every figure read and put in one order."""
    ends = [[end for span in each.spans for end in span] for each in some]
    scale = lcm(*{end.denominator for row in ends for end in row})
    sorted([end.numerator * (scale // end.denominator) for end in row] for row in ends)


def measure(some: list[Body | Round]) -> int:
    """How many pairs were close; each was measured."""
    pairs = list(close_pairs([each.spans for each in some], WITHIN))
    for i, j in pairs:
        apart(some[i], some[j])
    return len(pairs)


def best(work: Callable[[], object], rounds: int = 7) -> float:
    """The least of the times: what the machine does when nothing disturbs it."""
    times = []
    for _ in range(rounds):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return min(times)


def main() -> None:
    """Print a row for every count, then the growth from the least to the most."""
    print("  cuts   pairs  finding/floor  all/floor  floor")
    rows = []
    for many in COUNTS:
        some = cuts(many)
        boxes = [each.spans for each in some]
        bare = best(lambda some=some: floor(some))
        finding = best(lambda boxes=boxes: list(close_pairs(boxes, WITHIN)))
        whole = best(lambda some=some: measure(some))
        pairs = measure(some)
        rows.append((bare, finding, whole))
        print(
            f"{many:6} {pairs:7} {finding / bare:14.2f} {whole / bare:10.2f} {bare * 1000:6.2f} ms"
        )
    tens = log(COUNTS[-1] / COUNTS[0])
    for name, first, last in zip(
        ("floor", "finding", "finding and measuring"), rows[0], rows[-1], strict=True
    ):
        print(f"{name} grows with the power {log(last / first) / tens:.2f} of the number of cuts")


if __name__ == "__main__":
    main()
