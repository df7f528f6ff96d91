"""Programs of stock cutting, put to the solver: rows first, then columns by what they have in each row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workers.cutting.least.highs import INFINITY, End, Program

MOST_LOOKS, FEWEST_LOOKS = 300, 120
LOOKS_TIMES_COLUMNS = 300_000
"""How long one program is worked on: so many looks up of the solver, fewer where it has many columns. Counted, not
timed, so that two runs give the same plan: the time is only a net.
"""

Entries = Mapping[int, float]
"""What a column has in each row."""


@dataclass(frozen=True)
class Row:
    """Bounds of one condition."""

    least: float = -INFINITY
    most: float = INFINITY


def begin_program(rows: Sequence[Row]) -> Program:
    """A program without columns."""
    program = Program()
    for row in rows:
        program.add_row(row.least, row.most)
    return program


def add_column(program: Program, cost: float, entries: Entries, *, whole: bool = False) -> None:
    """One more column, as often as there is reason for it."""
    program.add_column(cost, INFINITY, sorted(entries.items()), whole=whole)


def find_prices(program: Program) -> list[float] | None:
    """The rows' prices at the best solution in parts, or None where there is none."""
    answer = program.solve()
    return [float(price) for price in answer.row_prices] if answer.end is End.BEST else None


@dataclass(frozen=True)
class Whole:
    """A solution in whole numbers; `best` where the solver says that there is none better."""

    values: tuple[int, ...]
    best: bool


def solve_whole(
    rows: Sequence[Row],
    costs: Sequence[float],
    entries: Sequence[Entries],
    *,
    seconds: float,
    start: Sequence[int] | None = None,
    gap: float = 0.0,
    target: float | None = None,
    looks: int = MOST_LOOKS,
) -> Whole | None:
    """The best whole numbers found within the looks allowed and the time; None where none were found.

    It ends with the first that costs no more than `target`, or that only something cheaper by less than `gap` could
    beat: that counts as best.
    """
    program = begin_program(rows)
    for cost, column in zip(costs, entries, strict=True):
        add_column(program, cost, column, whole=True)
    affordable = max(FEWEST_LOOKS, LOOKS_TIMES_COLUMNS // max(1, len(costs)))
    answer = program.solve_whole(
        looks=min(looks, affordable), seconds=seconds, target=target, start=start, gap=gap
    )
    if answer.values is None:
        return None
    return Whole(tuple(round(value) for value in answer.values), answer.end is End.BEST)
