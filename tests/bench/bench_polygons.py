"""Large straight-seam blocks from document to cut list, sewing plan and drawing. python tests/bench/bench_polygons.py

Squares halved along a diagonal, squares with a diamond and its long triangles (templates), squares with cut corners;
800 and 5,000 patches in one block.
"""

import sys
import time
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from service.craft.document import read_document
from service.craft.drawing import draw_top, view_top
from tests.block_shapes import BASE, DARK, MAIN, corners_cut, half
from tests.more_blocks import at
from tests.straight_blocks import document, unit
from workers.cutting.cut_list import list_cuts
from workers.sewing.plan import plan_sewing


def halves(count):
    """Half-square triangles in a square, turned so that hardly any two rows are alike."""
    n = round((count / 2) ** 0.5)
    ways = ("nw", "ne", "se", "sw")
    cells = [(x, y) for y in range(n) for x in range(n)]
    shapes = [
        s
        for x, y in cells
        for s in half(x, y, 1, ways[(7919 * x * x + 104729 * y * y + 31 * x * y) % 1013 % 4], MAIN, BASE)
    ]
    return shapes, n, n


def diamonds(count):
    """Rectangles two by one with a diamond and four long triangles each."""
    n = round((count / 10) ** 0.5)
    shapes = []
    for y in range(2 * n):
        for x in range(0, 2 * n, 2):
            a, b, c, d = (x + 1, y), (x + 2, y + Fraction(1, 2)), (x + 1, y + 1), (x, y + Fraction(1, 2))
            shapes.append(([a, b, c, d], (MAIN, DARK)[(x + y) % 2]))
            tips = [((x, y), d, a), ((x + 2, y), a, b), ((x + 2, y + 1), b, c), ((x, y + 1), c, d)]
            shapes += [([tip, p, q], BASE) for tip, p, q in tips]
    return shapes, 2 * n, 2 * n


def octagons(count):
    """Squares with their four corners cut off: bases with corner squares."""
    n = round((count / 5) ** 0.5)
    cells = [(x, y) for y in range(n) for x in range(n)]
    shapes = [
        s for x, y in cells for s in at(3 * x, 3 * y, corners_cut(3, 1, (MAIN, DARK)[(x + y) % 2], BASE))
    ]
    return shapes, 3 * n, 3 * n


STEPS = {
    "read": lambda raw, _: read_document(raw),
    "cut list": lambda _, project: list_cuts(project),
    "set in": lambda _, project: project.top.set_in,
    "sewing": lambda _, project: plan_sewing(project),
    "drawing": lambda _, project: draw_top(view_top(project, {})),
}

if __name__ == "__main__":
    print(f"{'block':10s} {'patches':>8s} " + " ".join(f"{name:>9s}" for name in STEPS))
    for make in (halves, diamonds, octagons):
        for count in (800, 5000):
            shapes, width, height = make(count)
            raw = document(unit(shapes, width, height))
            project = read_document(raw)
            times = []
            for step in STEPS.values():
                start = time.perf_counter()
                step(raw, project)
                times.append(time.perf_counter() - start)
            print(f"{make.__name__:10s} {len(shapes):8d} " + " ".join(f"{t:7.2f} s" for t in times))
