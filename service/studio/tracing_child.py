"""The process that traces one picture: it sets itself limits, then loads what the entry point names.

On its standard input a line of JSON (the fields of `TracingAsked` but its bytes), then the picture; on its
standard output one JSON object with an `outcome`.
"""

from __future__ import annotations

import json
import resource
import sys
from importlib.metadata import entry_points
from typing import Any

from service.craft.outlines import to_json
from service.craft.tracing import CannotTrace, TracingAsked
from service.processes import die_with_parent

GROUP, NAME = "batchbee.computations", "tracing"
"""The entry point in pyproject.toml that names what traces; nothing here imports a worker."""

MOST_BYTES = 3_000_000_000
"""Of address space: a picture of 64 million pixels with the libraries took 0.83 GB."""
MOST_CPU_SECONDS = 20


def main() -> None:
    """Trace what comes in and say the outcome."""
    _set_limits()
    head = json.loads(sys.stdin.buffer.readline())
    between = head.pop("between")
    points = tuple((x, y) for x, y in between) if between else None
    asked = TracingAsked(data=sys.stdin.buffer.read(), between=points, **head)  # type: ignore[arg-type]
    json.dump(answer(asked), sys.stdout)


def answer(asked: TracingAsked) -> dict[str, Any]:
    """What became of a picture, as JSON."""
    for entry in entry_points(group=GROUP, name=NAME):
        try:
            traced = entry.load()(asked)
        except CannotTrace as why:
            return {"outcome": "faults", "faults": [fault.to_json() for fault in why.faults]}
        except MemoryError:
            return {"outcome": "memory"}
        return {"outcome": "traced", "file": to_json(traced.file), "overlay": traced.overlay}
    return {"outcome": "nothing"}


def _set_limits() -> None:
    die_with_parent()
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_SECONDS, MOST_CPU_SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))


if __name__ == "__main__":
    main()
