"""The shortest strip that holds some shapes, as far as a fixed number of steps finds it.

The solver stops by the clock, and what it has found by then depends on how busy the machine is. What it finds one step
after another does not, with one thread and one seed. So it runs in a process of its own (`strip_process`), which is
ended after a fixed number of steps: the same shapes lie in the same places every time.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf, sqrt
from typing import Any

from service.craft.outlines.affine import Point

STEPS = 400
STEADY_CORNERS = 1000
"""So many steps for shapes with so many corners altogether; fewer for more, whose steps take longer."""

IN_VAIN = 2
"""So many attempts at a shorter strip that fail end the search, whatever steps are left: the rest is mostly waiting."""

CPU_SECONDS = 25
"""A process that computes this long answers with what it has. Computing time, not the clock: a busy machine changes
nothing, and no ordinary month comes near it."""


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


@lru_cache(maxsize=64)
def solve_strip(
    items: tuple[StripItem, ...], width_mm: float, spacing_mm: float, seconds: float = inf
) -> list[StripPlace] | None:
    """A place for every item on a strip `width_mm` wide, in the items' order; None where the solver gave up.

    Shapes lie at least `spacing_mm` apart and half of it inside both edges of the strip and its start. The places are
    those of the shortest strip found in `count_steps` steps, or before `IN_VAIN` attempts failed. Who cannot wait for
    that states after how many `seconds` by the clock the best so far will do.
    """
    asked = {
        "width": width_mm,
        "spacing": spacing_mm,
        "steps": count_steps(sum(len(item.corners) for item in items)),
        "vain": IN_VAIN,
        "cpu_seconds": CPU_SECONDS,
        "seconds": None if seconds == inf else seconds,
        "items": [{"corners": item.corners, "turns": item.turns or None} for item in items],
    }
    done = subprocess.run(
        [sys.executable, "-m", "workers.outlines.nesting.strip_process"],
        input=json.dumps(asked),
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode != 0 or not done.stdout:
        return None
    return _read_places(json.loads(done.stdout), len(items))


def count_steps(corners: int) -> int:
    """How many steps are worth their time for shapes with so many corners altogether.

    >>> count_steps(340), count_steps(1000), count_steps(4000)
    (400, 400, 200)
    """
    return round(STEPS * min(1.0, sqrt(STEADY_CORNERS / max(corners, 1))))


def _read_places(answer: Sequence[dict[str, Any]], count: int) -> list[StripPlace] | None:
    """None unless there is one place for each item."""
    places = {int(place["item"]): StripPlace(place["turn"], (place["x"], place["y"])) for place in answer}
    return [places[i] for i in range(count)] if sorted(places) == list(range(count)) else None
