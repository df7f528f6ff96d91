"""The process that `strip` starts: a problem in JSON on standard input, places in JSON on standard output.

It imports nothing but the solver, so that it starts at once. The solver keeps to its order of steps with one thread and
one seed; it runs beside, and the whole process ends as soon as the asked number of steps has been reported.
"""

from __future__ import annotations

import json
import resource
import sys
import threading
from collections.abc import Sequence
from math import inf
from typing import Any

import spyrrow

SEED = 1
LONGEST_S = 3600
"""The solver wants a limit by the clock; the limits of steps and of computing time end it long before."""

LOOK_EVERY_S = 0.02


def build_instance(asked: dict[str, Any]) -> Any:
    """The solver's own form of a problem."""
    items = [
        spyrrow.Item(str(i), [tuple(corner) for corner in item["corners"]], 1, item["turns"])
        for i, item in enumerate(asked["items"])
    ]
    return spyrrow.StripPackingInstance("strip", asked["width"], items)


def solve(asked: dict[str, Any]) -> Any | None:
    """The shortest solution of the first steps, the earlier of equals; None if there is none."""
    instance = build_instance(asked)
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        total_computation_time=None,
        exploration_time=LONGEST_S,
        compression_time=0,
        num_workers=1,
        seed=SEED,
        min_items_separation=asked["spacing"],
    )
    queue = spyrrow.ProgressQueue()
    solver = threading.Thread(target=instance.solve, args=(config, queue), daemon=True)
    solver.start()
    reports: list[Any] = []
    running, end = True, None
    looks, most_looks = 0, inf if asked["seconds"] is None else asked["seconds"] / LOOK_EVERY_S
    while running and end is None and looks < most_looks and count_seconds() < asked["cpu_seconds"]:
        looks += 1
        solver.join(LOOK_EVERY_S)
        running = solver.is_alive()
        reports += queue.drain()
        end = find_end([kind for kind, _ in reports], asked["steps"], asked["vain"])
    legal = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.Final)
    found = [solution for kind, solution in reports[:end] if any(kind == one for one in legal)]
    return min(found, key=lambda solution: solution.width, default=None)


def count_seconds() -> float:
    """The seconds that this process has computed."""
    used = resource.getrusage(resource.RUSAGE_SELF)
    return used.ru_utime + used.ru_stime


def find_end(kinds: Sequence[Any], steps: int, vain: int) -> int | None:
    """How many reports count: up to so many steps, or to so many attempts in vain; None while there are fewer."""
    failed = [i for i, kind in enumerate(kinds[:steps]) if kind == spyrrow.ReportType.ExplInfeas]
    if len(failed) >= vain:
        return failed[vain - 1] + 1
    return steps if len(kinds) >= steps else None


def main() -> None:
    """Reads a problem, writes its places."""
    asked = json.load(sys.stdin)
    resource.setrlimit(resource.RLIMIT_CPU, (asked["cpu_seconds"] + 5, asked["cpu_seconds"] + 10))
    solution = solve(asked)
    if solution is None:
        return
    places = [
        {"item": int(p.id), "turn": p.rotation, "x": p.translation[0], "y": p.translation[1]}
        for p in solution.placed_items
    ]
    sys.stdout.write(json.dumps(places))


if __name__ == "__main__":
    main()
