"""Linear and whole-number programs, put to HiGHS one thread each; a run that gives no plan says so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import highspy
import numpy as np

INFINITE = highspy.kHighsInf
MOST_NODES, FEWEST_NODES = 300, 40
NODES_TIMES_COLUMNS = 120_000
"""Branches looked at in one program, fewer where it has many columns. Counted, not timed, so that two runs give the
same plan: the time is only a net.
"""


@dataclass(frozen=True)
class Row:
    """Bounds of one condition."""

    least: float = -INFINITE
    most: float = INFINITE


@dataclass
class Program:
    """A program that only grows: rows first, then columns of a cost and their entries by row."""

    rows: Sequence[Row]
    costs: list[float] = field(default_factory=list)
    entries: list[Mapping[int, float]] = field(default_factory=list)
    solver: highspy.Highs = field(init=False)

    def __post_init__(self) -> None:
        self.solver = _start(self.rows)

    def add(self, cost: float, entries: Mapping[int, float]) -> int:
        """One more column; its number."""
        self.costs.append(cost)
        self.entries.append(entries)
        _add(self.solver, cost, entries)
        return len(self.costs) - 1

    def prices(self) -> list[float] | None:
        """The rows' dual values at the best solution in fractions, or None where there is none."""
        self.solver.run()
        if self.solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        return [float(dual) for dual in self.solver.getSolution().row_dual]


@dataclass(frozen=True)
class Whole:
    """A solution in whole numbers; `best` where the solver says that there is none better."""

    values: tuple[int, ...]
    best: bool


def solve_whole(
    rows: Sequence[Row],
    costs: Sequence[float],
    entries: Sequence[Mapping[int, float]],
    *,
    seconds: float,
    start: Sequence[int] | None = None,
    gap: float = 0.0,
    target: float | None = None,
    nodes: int = MOST_NODES,
) -> Whole | None:
    """The best whole numbers found within the nodes allowed and the time; None where none were found.

    It ends with the first that costs no more than `target`, or that only something cheaper by less than `gap` could
    beat: that counts as best.
    """
    solver = _start(rows)
    solver.setOptionValue("time_limit", float(seconds))
    affordable = max(FEWEST_NODES, NODES_TIMES_COLUMNS // max(1, len(costs)))
    solver.setOptionValue("mip_max_nodes", min(nodes, affordable))
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", gap)
    if target is not None:
        solver.setOptionValue("objective_target", target + 0.5)
    for number, (cost, column) in enumerate(zip(costs, entries, strict=True)):
        _add(solver, cost, column)
        solver.changeColIntegrality(number, highspy.HighsVarType.kInteger)
    if start is not None:
        known = highspy.HighsSolution()
        known.col_value = [float(value) for value in start]
        solver.setSolution(known)
    solver.run()
    if solver.getInfo().primal_solution_status != highspy.kSolutionStatusFeasible:
        return None
    values = tuple(round(value) for value in solver.getSolution().col_value)
    return Whole(values, solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _start(rows: Sequence[Row]) -> highspy.Highs:
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("output_flag", False)
    # every solver of a process must have the same number of threads, or later runs give nothing, without a word
    solver.setOptionValue("threads", 1)
    for row in rows:
        solver.addRow(row.least, row.most, 0, np.array([], np.int32), np.array([], np.float64))
    return solver


def _add(solver: highspy.Highs, cost: float, entries: Mapping[int, float]) -> None:
    rows = np.array(sorted(entries), np.int32)
    values = np.array([float(entries[row]) for row in sorted(entries)], np.float64)
    solver.addCol(cost, 0.0, INFINITE, len(rows), rows, values)
