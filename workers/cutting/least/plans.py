"""Plans as patterns: from strips and back to strips, with every piece once."""

from __future__ import annotations

from collections import deque

from workers.cutting.least.field import Field, Pattern
from workers.cutting.strip_problem import Problem, Run, Strip, Strips

Plan = tuple[tuple[Pattern, int], ...]
"""Patterns, and how many strips of each."""


def plan_length(plan: Plan) -> int:
    """How long a plan is, in the field's units."""
    return sum(pattern.height * count for pattern, count in plan)


def gather(strips: list[Pattern]) -> Plan:
    """Strips as a plan: the highest first, equal ones counted."""
    counted: dict[Pattern, int] = {}
    for strip in sorted(strips, key=lambda s: (-s.height, s.counts)):
        counted[strip] = counted.get(strip, 0) + 1
    return tuple(counted.items())


def spread(plan: Plan) -> list[Pattern]:
    """One pattern a strip."""
    return [pattern for pattern, count in plan for _ in range(count)]


def trim(field: Field, plan: Plan) -> Plan:
    """The same plan without the pieces nobody wants: whole runs first, so that fewer strips mix sizes.

    A strip whose highest pieces go is lowered, one that loses everything is left out.
    """
    runs = [dict(pattern.counts) for pattern in spread(plan)]
    over = [-wanted for wanted in field.demand]
    for strip in runs:
        for way, count in strip.items():
            over[field.ways[way].size] += count
    for whole in (True, False):
        for strip in sorted(runs, key=lambda strip: -len(strip)):
            for way in sorted(strip, key=lambda way: (strip[way], -way)):
                size = field.ways[way].size
                if over[size] > 0 and (strip[way] <= over[size] or not whole):
                    taken = min(strip[way], over[size])
                    strip[way] -= taken
                    over[size] -= taken
    left = [tuple((way, n) for way, n in sorted(strip.items()) if n) for strip in runs]
    return gather([Pattern(max(field.ways[way].along for way, _ in runs), runs) for runs in left if runs])


def plan_of(field: Field, problem: Problem, strips: Strips) -> Plan:
    """Strips of a problem as patterns of its field."""
    places = {number: size for size, members in enumerate(field.members) for number in members}
    found = {(way.size, way.lying): number for number, way in enumerate(field.ways)}
    patterns = []
    for strip in strips:
        counts: dict[int, int] = {}
        for run in strip.runs:
            size = problem.sizes[run.size]
            lying = (size.height, size.width) if run.turned else (size.width, size.height)
            way = found[places[run.size], lying]
            counts[way] = counts.get(way, 0) + run.count
        patterns.append(Pattern(strip.height // field.step, tuple(sorted(counts.items()))))
    return gather(patterns)


def strips_of(field: Field, problem: Problem, plan: Plan) -> Strips:
    """A plan without a piece too many as strips of the problem, the highest strip and the highest piece first."""
    waiting = [deque([n, problem.sizes[n].count] for n in members) for members in field.members]
    strips = []
    for pattern in spread(plan):
        runs: list[Run] = []
        for number, count in sorted(pattern.counts, reverse=True):
            way = field.ways[number]
            runs += _take(problem, waiting[way.size], count, way.lying)
        strips.append(Strip(pattern.height * field.step, tuple(runs)))
    return tuple(strips)


def _take(problem: Problem, waiting: deque[list[int]], count: int, lying: tuple[int, int]) -> list[Run]:
    """So many pieces of a place, by the numbers the problem has for it."""
    runs = []
    while count:
        number, still = waiting[0]
        taken = min(count, still)
        size = problem.sizes[number]
        runs.append(Run(number, taken, (size.width, size.height) != lying))
        count -= taken
        waiting[0][1] -= taken
        if not waiting[0][1]:
            waiting.popleft()
    return runs
