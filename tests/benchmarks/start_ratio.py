"""How long `joint tenon` takes, against the bare floor of importing typer.

Run by hand: python tests/benchmarks/start_ratio.py
Ratios, not seconds, so that machines can be compared; the aim is at most 2.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time

FLOOR = [sys.executable, "-c", "import typer"]
TENON = [
    sys.executable, "-m", "layout", "joint", "tenon", "--over", "48", "--leg-width", "2 1/2",
    "--rail-width", "4", "--rail-thickness", "1 1/8", "--length", "1 1/4", "--panel", "1/4",
]
# a unit that only pint knows, against a floor that imports pint as well
PINT_FLOOR = [sys.executable, "-c", "import typer, pint"]
TENON_CM = [word if word != "48" else "122 cm" for word in TENON]


def best(command: list[str], rounds: int = 15) -> float:
    """The lower third of the times: what the machine does when nothing disturbs it."""
    # an installed program has its bytecode beside it; so has the floor
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    times = []
    for _ in range(rounds):
        started = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
        times.append(time.perf_counter() - started)
    return sorted(times)[rounds // 3]


def main() -> None:
    """Print both ratios."""
    print(f"joint tenon / import typer: {best(TENON) / best(FLOOR):.2f}")
    print(f"joint tenon in cm / import typer and pint: {best(TENON_CM) / best(PINT_FLOOR):.2f}")


if __name__ == "__main__":
    main()
