"""HiGHS, the solver of linear and whole-number programs, asked in one way: one thread, the state of its answer seen to.

All its instances in a process must have the same number of threads, or later runs return nothing without an error.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto
from typing import Any

import highspy
import numpy as np
import numpy.typing as npt

INFINITY = float(highspy.kHighsInf)
_STATUS = highspy.HighsModelStatus
_LOOKS_UP = highspy.cb.HighsCallbackType.kCallbackMipInterrupt
_NO_TERMS = (np.array([], np.int32), np.array([], np.float64))

Numbers = npt.NDArray[np.float64]


class End(Enum):
    """How a run ended: the best there is, nothing there is, or a limit struck."""

    BEST = auto()
    NOTHING = auto()
    LIMIT = auto()


@dataclass(frozen=True)
class Answer:
    """What a run found. `values`, one a column, is None where nothing was found; prices belong to a linear run."""

    end: End
    cost: float
    values: Numbers | None
    row_prices: Numbers
    column_prices: Numbers


class Program:
    """Columns from 0 up that cost least within rows; each linear run starts where the last one ended."""

    def __init__(self) -> None:
        self._solver = highspy.Highs()  # type: ignore[no-untyped-call]
        for name, value in {"output_flag": False, "threads": 1, "random_seed": 1}.items():
            self._solver.setOptionValue(name, value)
        self.columns = 0
        self.rows = 0
        self._whole: list[int] = []

    def add_row(self, lowest: float, highest: float, terms: Sequence[tuple[int, float]] = ()) -> int:
        """One more row over columns that are there; its number."""
        self._solver.addRow(lowest, highest, len(terms), *_arrays(terms))
        self.rows += 1
        return self.rows - 1

    def add_column(
        self, cost: float, highest: float, terms: Sequence[tuple[int, float]], *, whole: bool = False
    ) -> int:
        """One more column in rows that are there; its number. `whole`: it counts in whole-number runs only in ones."""
        self._solver.addCol(cost, 0.0, highest, len(terms), *_arrays(terms))
        if whole:
            self._whole.append(self.columns)
        self.columns += 1
        return self.columns - 1

    def bound_row(self, row: int, lowest: float, highest: float) -> None:
        """Other limits of a row."""
        self._solver.changeRowBounds(row, lowest, highest)

    def bound_column(self, column: int, lowest: float, highest: float) -> None:
        """Other limits of a column."""
        self._solver.changeColBounds(column, lowest, highest)

    def price(self, column: int, cost: float) -> None:
        """Another cost of a column."""
        self._solver.changeColCost(column, cost)

    @property
    def seconds(self) -> float:
        """How long all runs took together."""
        return float(self._solver.getRunTime())

    def solve(self) -> Answer:
        """In parts of columns too."""
        self._solver.run()
        return self._answer()

    def solve_whole(
        self,
        *,
        seconds: float,
        nodes: int | None = None,
        looks: int | None = None,
        target: float | None = None,
        start: Sequence[float] | None = None,
        gap: float = 0.999,
    ) -> Answer:
        """Whole columns in ones; ends with the first as cheap as `target`, or that nothing beats by more than `gap`.

        It looks into so many branches at most. It also looks up from its work now and then, at the same points in
        every run: at the `looks`-th time it is stopped. After so many seconds it is stopped anywhere. `start` is a
        solution at hand.
        """
        options: dict[str, float | int] = {
            "time_limit": self.seconds + max(seconds, 0.01),
            "mip_rel_gap": 0.0,
            "mip_abs_gap": gap,
        }
        if nodes is not None:
            options["mip_max_nodes"] = nodes
        if target is not None:
            options["objective_target"] = target + 0.5
        for name, value in options.items():
            self._solver.setOptionValue(name, value)
        kinds = np.array([highspy.HighsVarType.kInteger] * len(self._whole))
        self._solver.changeColsIntegrality(len(self._whole), np.array(self._whole, np.int32), kinds)
        if start is not None:
            known = highspy.HighsSolution()
            known.col_value = [float(value) for value in start]
            self._solver.setSolution(known)
        self._run(looks)
        return self._answer()

    def _run(self, looks: int | None) -> None:
        """Runs until it is done or has looked up so often."""
        if looks is None:
            self._solver.run()
            return
        count = 0

        def look(kind: Any, message: str, known: Any, wish: Any, given: Any) -> None:
            nonlocal count
            count += 1
            wish.user_interrupt = count >= looks

        self._solver.setCallback(look, None)
        self._solver.startCallback(_LOOKS_UP)
        self._solver.run()
        self._solver.stopCallback(_LOOKS_UP)

    def _answer(self) -> Answer:
        status, info, solution = (
            self._solver.getModelStatus(),
            self._solver.getInfo(),
            self._solver.getSolution(),
        )
        found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        if status == _STATUS.kInfeasible:
            end = End.NOTHING
        elif status == _STATUS.kOptimal and found:
            end = End.BEST
        else:
            end = End.LIMIT
        return Answer(
            end,
            float(info.objective_function_value),
            np.array(solution.col_value, np.float64) if found else None,
            np.array(solution.row_dual, np.float64),
            np.array(solution.col_dual, np.float64),
        )


def _arrays(terms: Sequence[tuple[int, float]]) -> tuple[npt.NDArray[np.int32], Numbers]:
    if not terms:
        return _NO_TERMS
    places, factors = zip(*terms, strict=True)
    return np.array(places, np.int32), np.array(factors, np.float64)
