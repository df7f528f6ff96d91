"""From a document to its cut list and its drawing, for tops of 800 and 5,000 patches.

Run by hand: python tests/bench/bench_document.py. Prints seconds and what each part takes for a patch; the last
column is how many times longer it takes than with the smaller top, beside how many times more patches there are.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from service.craft.document import read_document
from service.craft.drawing import draw_exploded, draw_lines, draw_top, take_apart, view_top
from service.craft.scaling import nearest_sizes
from service.craft.warnings import find_warnings
from workers.cutting.cut_list import list_cuts

CLOTHS = ("frost", "leaf", "soil", "plum")
TOPS = ((20, 20), (50, 50))
"""Rows and columns of half-square triangles, two patches each."""

ROUNDS = 3


def written_out(rows: int, columns: int) -> dict[str, Any]:
    """A top in which every unit is written in place: nothing is shared, the hardest to read."""
    cells = [[_triangle(i, j) for j in range(columns)] for i in range(rows)]
    fabrics = {cloth: {"colour": f"#{(i + 2) * 40:02x}8060"} for i, cloth in enumerate(CLOTHS)}
    return {"title": "Seed bed", "fabrics": fabrics, "top": {"unit": "grid", "rows": cells}}


def _triangle(i: int, j: int) -> dict[str, Any]:
    pair = [CLOTHS[(i + j) % 4], CLOTHS[(i * j + 1) % 4]]
    return {"unit": "half-square triangle", "size": ["2", "2"], "fabrics": pair}


def best(way: Callable[[], object]) -> float:
    """Seconds of the quickest of a few rounds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        way()
        times.append(time.perf_counter() - start)
    return min(times)


def measure(rows: int, columns: int) -> tuple[int, dict[str, float]]:
    """How many patches a top has, and seconds for each thing done with it."""
    raw = written_out(rows, columns)
    project = read_document(raw)
    view = view_top(project, {})
    parts = {
        "read": lambda: read_document(raw),
        "cut list": lambda: list_cuts(project),
        "drawing": lambda: draw_top(view_top(project, {})),
    }
    seconds = {name: best(way) for name, way in parts.items()}
    seconds["document to cut list and drawing"] = sum(seconds.values())
    others: dict[str, Callable[[], object]] = {
        "warnings": lambda: find_warnings(project),
        "near sizes": lambda: nearest_sizes(raw, project.rules.round_to * 9),
        "line drawing": lambda: draw_lines(view),
        "taken apart": lambda: draw_exploded(view, take_apart(project.top)),
    }
    seconds |= {name: best(way) for name, way in others.items()}
    return len(view.patches), seconds


def main() -> None:
    """Print the figures."""
    (few, first), (many, second) = (measure(*size) for size in TOPS)
    print(f"{'':34s}{few:>7d} patches{many:>9d} patches   times ({many / few:.2f} times the patches)")
    for name, seconds in first.items():
        more = second[name]
        print(f"{name:34s}{seconds:>13.3f} s{more:>15.3f} s{more / seconds:>8.2f}")


if __name__ == "__main__":
    main()
