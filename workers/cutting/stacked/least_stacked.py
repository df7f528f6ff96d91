"""The least cloth in strips with stacked pieces: never more than without stacking, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import floor

from workers.cutting.stacked.by_hand import stack_by_hand
from workers.cutting.stacked.generation import Stacks
from workers.cutting.stacked.stacks import Column, StackedStrip, count_stacked
from workers.cutting.stock.columns import Columns
from workers.cutting.stock.problem import CutSheet, Stock, StockProblem
from workers.cutting.stock.program import Row, solve_whole
from workers.cutting.stock.recombine import recombine
from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, Run, Size, Strip, Strips
from workers.patience import Left, endless

Plans = list[tuple[StackedStrip, ...]]

NEARLY = 1e-6
ROUNDS = 8
MOST_HEIGHTS = 12


@dataclass(frozen=True)
class LeastStacked:
    """Strips with stacked pieces and their length; no plan whose strips are no higher is shorter than the bound."""

    strips: tuple[StackedStrip, ...]
    length: int
    lower_bound: int


def least_stacked(
    problem: Problem, known: Strips, *, thorough: bool = True, seconds: float = 30.0, left: Left = endless
) -> LeastStacked:
    """The shortest plan found, each search ending after about `seconds`; the longest search only if `thorough`.

    `known` is a plan without stacking: it is among the plans looked at, and its highest strip is the highest allowed.
    """
    stacks = Stacks(problem, max(strip.height for strip in known))
    plans = [tuple(as_stacked(strip, problem.sizes) for strip in known), *_by_hand(stacks, known)]
    bound = area_bound(problem)
    if left() > 0 and min(map(measure, plans)) > bound and not stacks.fine:
        plans, bound = _search(stacks, plans, bound, min(seconds, left() / 2), thorough=thorough)
    best = min(plans, key=lambda plan: (measure(plan), len(plan)))
    return LeastStacked(best, measure(best), min(measure(best), bound))


def _search(stacks: Stacks, known: Plans, bound: int, seconds: float, *, thorough: bool) -> tuple[Plans, int]:
    """More plans by column generation, the best of what it finds, and what no plan is shorter than."""
    plans, sizes = list(known), stacks.problem.sizes
    stacks.strips |= dict.fromkeys(strip for plan in plans for strip in plan)
    plans.append(trim_stacked(_round(stacks), sizes))
    bound = max(bound, stacks.bound, stacks.bound_by_area())
    if min(map(measure, plans)) > bound:
        plans += _choose(stacks, min(plans, key=measure), bound, seconds)
    if thorough and min(map(measure, plans)) > bound:
        plans += recombine_stacked(stacks, plans, bound, seconds)
    return plans, bound


def measure(strips: Iterable[StackedStrip]) -> int:
    """How much cloth strips take along the roll, in steps."""
    return sum(strip.height for strip in strips)


def as_stacked(strip: Strip, sizes: Sequence[Size]) -> StackedStrip:
    """A strip without stacking: every piece is a column."""
    columns = []
    for run in strip.runs:
        size = sizes[run.size]
        columns += [Column(size.height if run.turned else size.width, (replace(run, count=1),))] * run.count
    return StackedStrip(strip.height, tuple(columns))


def _by_hand(stacks: Stacks, known: Strips) -> Plans:
    """Stacked at the table, the pieces lying as in the plan without stacking, as tall, or as flat as may be."""
    sizes = stacks.problem.sizes
    lying = {run.size: run.turned for strip in known for run in strip.runs}
    choices = [[way for way in stacks.ways if way.size == size] for size in sorted(lying)]
    layings = [
        [next(way for way in ways if way.turned == lying[way.size]) for ways in choices],
        [max(ways, key=lambda way: way.along) for ways in choices],
        [min(ways, key=lambda way: way.along) for ways in choices],
    ]
    stacked = (stack_by_hand(stacks.problem, ways) for ways in layings)
    return [trim_stacked(strips, sizes) for strips in stacked if strips]


def _round(stacks: Stacks) -> tuple[StackedStrip, ...]:
    """Whole strips out of the shares of the best solution; what is then still wanted is solved again."""
    wanted, cut = list(stacks.problem.sizes), list[StackedStrip]()
    for _ in range(ROUNDS):
        shares = stacks.generate(wanted)
        chosen = [strip for strip, share in shares for _ in range(floor(share + NEARLY))]
        if not chosen:
            chosen = [strip for strip, share in sorted(shares, key=lambda one: -one[1])[:1] if share > NEARLY]
        cut += chosen
        made = count_stacked(chosen)
        wanted = [replace(size, count=max(0, size.count - made[n])) for n, size in enumerate(wanted)]
        if not any(size.count for size in wanted):
            break
    rest = [strip for strip, share in stacks.generate(wanted) for _ in range(int(share > NEARLY))]
    return (*cut, *rest) if any(size.count for size in wanted) else tuple(cut)


def _choose(stacks: Stacks, start: tuple[StackedStrip, ...], bound: int, seconds: float) -> Plans:
    """The best plan out of whole strips found so far; none where time was too short."""
    stacks.strips |= dict.fromkeys(start)
    strips = list(stacks.strips)
    rows = [Row(least=float(size.count)) for size in stacks.problem.sizes]
    entries = [{n: float(count) for n, count in count_stacked([strip]).items()} for strip in strips]
    costs = [float(strip.height) for strip in strips]
    begin = [start.count(strip) for strip in strips]
    found = solve_whole(rows, costs, entries, start=begin, gap=0.99, target=float(bound), seconds=seconds)
    if found is None:
        return []
    chosen = (strip for strip, times in zip(strips, found.values, strict=True) for _ in range(times))
    return [trim_stacked(chosen, stacks.problem.sizes)]


def recombine_stacked(stacks: Stacks, plans: Plans, bound: int, seconds: float) -> Plans:
    """The best plan put together anew out of columns and places for them; none where time was too short.

    A strip is a piece of cloth of its own: as wide as it is high, as high as the roll is wide, and its columns are
    the strips of that piece. So it is the problem of cloth sold in pieces, where a piece costs its height.
    """
    sizes = tuple(replace(size, width=size.height, height=size.width) for size in stacks.problem.sizes)
    heights = pick_heights(stacks, plans)
    stock = tuple(Stock(height, stacks.problem.width, None, height) for height in heights)
    columns = Columns(StockProblem(sizes, stock, None))
    pool = dict.fromkeys(strip for plan in plans for strip in plan) | stacks.strips
    columns.collect((_as_sheet(strip, heights) for strip in pool if strip.height in heights), ())
    columns.bound = bound
    columns.weigh_by_area()
    columns.generate()
    most = min(map(measure, plans))
    found = recombine(columns, most=most, seconds=seconds, neat=False)
    if found is None:
        return []
    strips = (StackedStrip(heights[sheet.stock], _as_columns(sheet)) for sheet in found.plan[0])
    return [trim_stacked(strips, stacks.problem.sizes)]


def pick_heights(stacks: Stacks, plans: Plans) -> list[int]:
    """The heights worth a closer look: those of the plans, then those found first."""
    ordered = dict.fromkeys(strip.height for plan in reversed(plans) for strip in plan)
    ordered |= dict.fromkeys(strip.height for strip in stacks.strips)
    needed = {strip.height for strip in plans[0]}
    picked = [height for height in ordered if height not in needed][: max(0, MOST_HEIGHTS - len(needed))]
    return sorted({*needed, *picked})


def _as_sheet(strip: StackedStrip, heights: Sequence[int]) -> CutSheet:
    columns = tuple(Strip(column.width, column.runs) for column in strip.columns)
    return CutSheet(heights.index(strip.height), 0, False, columns)


def _as_columns(sheet: CutSheet) -> tuple[Column, ...]:
    return tuple(Column(strip.height, strip.runs) for strip in sheet.strips)


def trim_stacked(strips: Iterable[StackedStrip], sizes: Sequence[Size]) -> tuple[StackedStrip, ...]:
    """The same strips without the pieces nobody wants, the highest first; each as high as its highest column."""
    still = [size.count for size in sizes]
    trimmed = []
    for strip in sorted(strips, key=lambda one: -one.height):
        columns = [column for column in (_trim(column, sizes, still) for column in strip.columns) if column]
        if columns:
            height = max(_height(column, sizes) for column in columns)
            trimmed.append(StackedStrip(height, tuple(columns)))
    return tuple(sorted(trimmed, key=lambda one: -one.height))


def _trim(column: Column, sizes: Sequence[Size], still: list[int]) -> Column | None:
    runs = []
    for run in column.runs:
        count = min(run.count, still[run.size])
        still[run.size] -= count
        if count:
            runs.append(Run(run.size, count, run.turned))
    if not runs:
        return None
    widest = max(sizes[run.size].height if run.turned else sizes[run.size].width for run in runs)
    return Column(widest, tuple(runs))


def _height(column: Column, sizes: Sequence[Size]) -> int:
    return sum(
        run.count * (sizes[run.size].width if run.turned else sizes[run.size].height) for run in column.runs
    )
