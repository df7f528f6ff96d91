"""The process that `strip` starts: a problem in JSON on standard input, places in JSON on standard output.

It imports nothing but the solver, so that it starts at once. The solver keeps to its order of steps with one thread and
one seed; it runs beside, and the whole process ends as soon as the asked number of steps has been reported. Nothing
here looks at a clock; the system ends a process that has computed too long.
"""

from __future__ import annotations

import json
import resource
import sys
import threading
from collections.abc import Sequence
from typing import Any

import spyrrow

LONGEST_S = 3600
"""The solver wants a limit by the clock; the limits of steps and of computing time end it long before."""

QUADTREE_DEPTH = 3
"""The same strips as with more, a little sooner: some dozens of shapes need no finer map."""

LOOK_EVERY_S = 0.02

STUCK_AT = 3
"""One or two steps on the way to a shorter strip are quick."""


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
        seed=asked["seed"],
        quadtree_depth=QUADTREE_DEPTH,
    )
    queue = spyrrow.ProgressQueue()
    solver = threading.Thread(target=instance.solve, args=(config, queue), daemon=True)
    solver.start()
    reports: list[tuple[Any, Any]] = []
    running, end = True, None
    while running and end is None:
        solver.join(LOOK_EVERY_S)
        running = solver.is_alive()
        reports += queue.drain()
        end = find_end([(kind, solution.width) for kind, solution in reports], asked)
    found = [solution for kind, solution in reports[:end] if is_legal(kind)]
    return min(found, key=lambda solution: solution.width, default=None)


def find_end(reports: Sequence[tuple[Any, float]], asked: dict[str, Any]) -> int | None:
    """How many reports (kind, length) count; None while there are too few to say.

    They count up to so many `steps`, so many attempts in `vain`, the first strip that is short `enough`, or so many
    steps that were `stuck`: the third or a later one in a row without a shorter strip.
    """
    failed = stuck = since = 0
    for i, (kind, length) in enumerate(reports[: asked["steps"]]):
        legal = is_legal(kind)
        since = 0 if legal else since + 1
        stuck += since >= STUCK_AT
        failed += kind == spyrrow.ReportType.ExplInfeas
        if failed >= asked["vain"] or stuck >= asked["stuck"] or (legal and length <= asked["enough"]):
            return i + 1
    return asked["steps"] if len(reports) >= asked["steps"] else None


def is_legal(kind: Any) -> bool:
    """Whether a report comes with shapes that do not overlap."""
    return any(kind == one for one in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.Final))


def main() -> None:
    """Reads a problem, writes its places."""
    asked = json.load(sys.stdin)
    resource.setrlimit(resource.RLIMIT_CPU, (asked["cpu_seconds"], asked["cpu_seconds"] + 1))
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
