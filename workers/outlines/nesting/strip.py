"""The shortest strip that holds some shapes, as far as a fixed number of steps finds it.

The solver stops by the clock, and what it has found by then depends on how busy the machine is. What it finds one step
after another does not, with one thread and one seed. So it runs in a process of its own (`strip_process`), which is
ended after a fixed number of steps: the same shapes lie in the same places every time. A process that takes too long
for its steps answers nothing at all.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import inf, pow
from typing import Any

import shapely

from service.craft.outlines.affine import Point

STEPS = 500
"""The first hundreds are done in a second or two, and reach most of what can be reached."""

STUCK = 2.4
BAYS = 0.57
NO_BAYS = 0.8
"""The search ends after so many stuck steps: the third or a later one in a row without a shorter strip. They take
longest by far, and gain least. The number goes with that of the shapes (to the power of 3/4). It falls, from shapes
that fill `NO_BAYS` of their hulls to none at `BAYS`, for with deep bays a step takes three times as long. Measured on
leaves, letters and squares, ten to forty at a time, a strip takes some two seconds of computing in this way: what lies
loose is pushed together after it, and the last per cent of one search gains less than another start.
"""

FEWEST_STUCK = 3

IN_VAIN = 1
"""So many attempts at a shorter strip that fail end the search as well."""

CPU_SECONDS = 60
"""A process that computes this long is given up, whatever it has found. Ten times what an ordinary month takes."""


class TookTooLong(Exception):
    """The solver was not done with its steps in time. What it had by then would differ from run to run."""


@dataclass(frozen=True)
class StripItem:
    """A shape: the corners of its outer ring in mm, and the turns it may lie in (degrees); none given: any turn."""

    corners: tuple[Point, ...]
    turns: tuple[float, ...]


@dataclass(frozen=True)
class StripPlace:
    """Where a shape lies: turned about the origin by `turn` degrees, then moved (mm; x along the strip)."""

    turn: float
    move: Point


@dataclass(frozen=True)
class StripProblem:
    """Shapes that may touch but not overlap, on a strip `width_mm` wide.

    A strip of `enough_mm` is short enough: the search ends with the first that is. `seconds` by the clock are what
    who asks can wait, which changes nothing of the answer but whether there is one. Another `start` (from 1 up) is
    another search, which ends in another layout.
    """

    items: tuple[StripItem, ...]
    width_mm: float
    enough_mm: float = 0.0
    seconds: float = field(default=inf, compare=False)
    start: int = 1


@lru_cache(maxsize=64)
def solve_strip(problem: StripProblem) -> tuple[StripPlace, ...] | None:
    """A place for every item on the strip, in the items' order; None where the solver found none.

    The places are those of the shortest strip found before `STEPS`, `STUCK` or `IN_VAIN` ends the search.
    `TookTooLong` where that took more than `CPU_SECONDS` of computing, or the seconds of the problem.
    """
    asked = {
        "width": problem.width_mm,
        "enough": problem.enough_mm,
        "steps": STEPS,
        "stuck": count_stuck_steps(problem.items),
        "vain": IN_VAIN,
        "cpu_seconds": CPU_SECONDS,
        "seed": problem.start,
        "items": [{"corners": item.corners, "turns": item.turns or None} for item in problem.items],
    }
    try:
        done = subprocess.run(
            [sys.executable, "-m", "workers.outlines.nesting.strip_process"],
            input=json.dumps(asked),
            capture_output=True,
            text=True,
            check=False,
            timeout=None if problem.seconds == inf else problem.seconds,
        )
    except subprocess.TimeoutExpired:
        raise TookTooLong from None
    if done.returncode < 0:
        # ended by a signal: by the limit of computing time
        raise TookTooLong
    if done.returncode != 0 or not done.stdout:
        return None
    return _read_places(json.loads(done.stdout), len(problem.items))


def count_stuck_steps(items: Sequence[StripItem]) -> int:
    """How many steps in which the search was stuck are waited for before it ends."""
    shapes = [shapely.Polygon(item.corners) for item in items]
    filled = sum(shape.area for shape in shapes) / sum(shape.convex_hull.area for shape in shapes)
    part = min(1.0, (filled - BAYS) / (NO_BAYS - BAYS))
    return max(FEWEST_STUCK, round(STUCK * part * pow(len(shapes), 0.75)))


def _read_places(answer: Sequence[dict[str, Any]], count: int) -> tuple[StripPlace, ...] | None:
    """None unless there is one place for each item."""
    places = {int(place["item"]): StripPlace(place["turn"], (place["x"], place["y"])) for place in answer}
    return tuple(places[i] for i in range(count)) if sorted(places) == list(range(count)) else None
