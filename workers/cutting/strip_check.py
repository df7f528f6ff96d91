"""Looks strips over by other means than they were made with: every piece laid down, one after the other."""

from __future__ import annotations

from collections.abc import Iterator

from workers.cutting.strip_problem import Problem, Strip, Strips


def check_strips(problem: Problem, strips: Strips) -> list[str]:
    """What is wrong with strips, in sentences; empty where every piece is there once, inside, the right way up."""
    found: list[str] = []
    left = [size.count for size in problem.sizes]
    for number, strip in enumerate(strips, start=1):
        for size in (run.size for run in strip.runs for _ in range(run.count)):
            left[size] -= 1
        found += [f"strip {number}: {wrong}" for wrong in _wrong_in(problem, strip)]
    for size, missing in enumerate(left):
        if missing:
            found.append(f"size {size}: {abs(missing)} pieces {'missing' if missing > 0 else 'too many'}")
    return found


def _wrong_in(problem: Problem, strip: Strip) -> Iterator[str]:
    if not strip.runs or min(run.count for run in strip.runs) < 1:
        yield "it holds a run of no pieces, or none at all"
        return
    edge, tallest = 0, 0
    for run in strip.runs:
        size = problem.sizes[run.size]
        if run.turned and not size.may_turn:
            yield f"size {run.size} lies turned, and must not"
        across, along = (size.height, size.width) if run.turned else (size.width, size.height)
        for _ in range(run.count):
            edge += across
            tallest = max(tallest, along)
    if edge > problem.width:
        yield f"the pieces come to {edge}, the cloth is {problem.width} wide"
    if tallest != strip.height:
        yield f"the tallest piece is {tallest}, the strip {strip.height} high"
