"""The one place that talks to the solver (HiGHS): least cost of chosen columns, whole or in part.

Rows: every item at least as often as it is wanted; every bed at most as often as there is one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

# Stops after a fixed amount of work and not of time: the same input gives the same plan.
NODES = 2000
TINY = 1e-7


class Column(NamedTuple):
    """A choice: its cost, and what it gives in which row."""

    cost: float
    gives: Mapping[int, float]


class Priced(NamedTuple):
    """The least cost, and what one more of each row would cost; how much of each column."""

    cost: float
    prices: list[float]
    shares: list[float]


class Relaxed:
    """A linear programme that grows by columns. `rows`: (least, most) of each row."""

    def __init__(self, rows: Sequence[tuple[float, float]]) -> None:
        self._rows = len(rows)
        self._solver = _solver()
        for least, most in rows:
            self._solver.addRow(least, most, 0, [], [])

    def add(self, column: Column) -> None:
        """One more column, of which any share may be taken."""
        rows = sorted(column.gives)
        self._solver.addCol(column.cost, 0.0, _infinity(), len(rows), rows,
                            [float(column.gives[row]) for row in rows])

    def solve(self) -> Priced:
        """Solve it from where it stood last."""
        self._solver.run()
        found = self._solver.getSolution()
        return Priced(self._solver.getInfo().objective_function_value,
                      list(found.row_dual)[: self._rows], list(found.col_value))


class Choice(NamedTuple):
    """How often to take each column, whole numbers; whether no choice of them costs less."""

    many: list[int]
    proved: bool


def choose(
    rows: Sequence[tuple[float, float]], columns: Sequence[Column], nodes: int = NODES
) -> Choice | None:
    """The choice that costs least, as far as so many nodes of the search tell; None where none was
    found.
    """
    solver = _solver()
    for least, most in rows:
        solver.addRow(least, most, 0, [], [])
    for column in columns:
        places = sorted(column.gives)
        solver.addCol(column.cost, 0.0, _infinity(), len(places), places,
                      [float(column.gives[row]) for row in places])
    import highspy

    for index in range(len(columns)):
        solver.changeColIntegrality(index, highspy.HighsVarType.kInteger)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.run()
    if solver.getInfo().primal_solution_status != 2:  # 2: a feasible solution is at hand
        return None
    many = [round(value) for value in solver.getSolution().col_value]
    return Choice(many, solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _infinity() -> float:
    import highspy

    return float(highspy.kHighsInf)


def _solver() -> Any:
    """A silent solver on one thread."""
    import highspy

    make: Any = highspy.Highs  # it has no types of its own
    solver = make()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 1)
    return solver
