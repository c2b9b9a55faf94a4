"""How near board plans come to published results: a table of instances, run by hand.

    python tests/benchmarks/cutting_gap.py FOLDER

FOLDER holds the instances as JSON files, which are not part of the project: `gcut*.json` (stock
of several sizes, least cost: Cintra, Miyazawa, Wakabayashi and Xavier 2008, after Beasley 1985) and
`two_stage_knapsack.json` (one sheet, greatest value, proved optima: Wang 1983, Oliveira and
Ferreira 1990, Tschoke and Holthofer 1995, Hifi 1997, Fayard and others 1998, Cung and others 2000).
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

from layout.cutting.filling import filling
from layout.cutting.job import Bed, Item, Job
from layout.cutting.search import plan


def least_cost(folder: Path) -> None:
    """Cost against the best known, and against our own bound and the published one."""
    print(f"{'instance':<10} {'cost':>12} {'best known':>12} {'gap':>8} {'to bound':>9} {'s':>6}")
    gaps = []
    for path in sorted(folder.glob("gcut*.json")):
        told = json.loads(path.read_text(encoding="utf-8"))
        job = Job(tuple(Bed(long, wide, cost) for wide, long, cost in told["stock"]),
                  tuple(Item(long, wide, many) for wide, long, many in told["items"]),
                  stack=False)
        start = time.perf_counter()
        found = plan(job)
        took = time.perf_counter() - start
        if any(found.missing):
            sys.exit(f"{told['instance']}: something is missing")
        gaps.append(found.cost / told["best_known"] - 1)
        over = found.cost / max(found.bound, told["bound"]) - 1
        print(f"{told['instance']:<10} {found.cost:>12} {told['best_known']:>12.0f} "
              f"{100 * gaps[-1]:>7.3f}% {100 * over:>8.3f}% {took:>6.1f}")
    if gaps:
        print(f"mean gap {100 * sum(gaps) / len(gaps):.3f} %")


def one_sheet(path: Path) -> None:
    """Value against the proved optimum, first cuts either way."""
    right, slowest = 0, 0.0
    told = json.loads(path.read_text(encoding="utf-8"))["instances"]
    wanted = 0
    for one in told:
        wide, long = one["sheet"]
        job = Job((Bed(long, wide, 1, 1, turn=True),),
                  tuple(Item(b, a, many) for a, b, _, many in one["items"]), stack=False)
        values = [float(value) for _, _, value, _ in one["items"]]
        for name, turned in (("horizontal", False), ("vertical", True)):
            if name not in one["optimum"]:
                continue
            wanted += 1
            start = time.perf_counter()
            found = filling(job, 0, values, turned)
            took = time.perf_counter() - start
            slowest = max(slowest, took)
            good = found.proved and round(found.worth) == one["optimum"][name]
            right += good
            if not good:
                print(f"{one['instance']} {name}: {found.worth}, optimum {one['optimum'][name]}")
    print(f"one sheet: {right} of {wanted} at the proved optimum, slowest {slowest:.1f} s")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    least_cost(Path(sys.argv[1]))
    one_sheet(Path(sys.argv[1]) / "two_stage_knapsack.json")
