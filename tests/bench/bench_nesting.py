"""Pieces laid by their shapes: how long against boxes, and how dense on published sets.

Run by hand: python tests/bench/bench_nesting.py [--seconds 30] [FILE.json ...]

Without files: outlines of the demo series on a strip as wide as the room of a 12 in mat, 5 mm apart, in quarter turns,
against two packings of their boxes. With files (a `strip_height`; items with corners, demand and orientations): the
solver for so many seconds, as density in percent.
"""

import argparse
import json
import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import shapely
import spyrrow

from service.craft.outlines import read_svg
from service.craft.outlines.affine import Affine
from workers.outlines.asked import at_origin
from workers.outlines.layout import QUARTER_TURNS
from workers.outlines.nesting import mats
from workers.outlines.shelves import BoxItem, lay_boxes

ROOT = Path(__file__).resolve().parents[2]
WIDTH, SPACING, LONG = 292.8, 5.0, 100_000.0
COUNTS = (10, 16, 24, 40)


def demo_outlines():
    files = sorted(ROOT.glob("seed_data/*/*.svg"))
    shapes = [shape for file in files for shape in read_svg(file.read_bytes(), file.name).shapes]
    return [at_origin(s) for s in shapes if max(s.width_mm, s.height_mm) < WIDTH and s.area_mm2 > 100]


def sample(outlines, count, seed):
    """Outlines by chance, each between its own and two and a half times its size, no side over 200 mm."""
    chance = random.Random(seed)
    picked = []
    for _ in range(count):
        outline = chance.choice(outlines)
        scale = min(chance.uniform(1, 2.5), 200 / max(outline.width_mm, outline.height_mm))
        picked.append(at_origin(outline.moved(Affine.scaling(scale, scale))))
    return picked


def rows_length(outlines):
    items = [BoxItem(o.width_mm, o.height_mm, may_turn=True) for o in outlines]
    spots = lay_boxes(items, WIDTH, LONG, spacing=SPACING)
    sides = [i.width if s.turned else i.height for i, s in zip(items, spots, strict=True)]
    return max(spot.y + side for spot, side in zip(spots, sides, strict=True))


def lowest_length(outlines):
    """Boxes bottom-left: each where its far edge comes to lie nearest the start; the best of four orders and ways."""
    orders = (lambda s: s[0] * s[1], lambda s: s[1], lambda s: s[0], max)
    boxes = [(o.width_mm + SPACING, o.height_mm + SPACING) for o in outlines]
    return min(_lay_lowest(sorted(boxes, key=order, reverse=True)) for order in orders) - SPACING


def _lay_lowest(boxes):
    placed = []
    for box in boxes:
        ways = [(w, h, x, y) for w, h in (box, box[::-1]) for x, y in _corners(placed, w)]
        w, h, x, y = min(ways, key=lambda way: (way[3] + way[1], way[3], way[2]))
        placed.append((x, y, x + w, y + h))
    return max(p[3] for p in placed)


def _corners(placed, width):
    """The lowest free place at every left edge that there is reason to try."""
    xs = {0.0, *(p[2] for p in placed), *(p[0] - width for p in placed)}
    for x in (x for x in xs if x >= 0 and x + width <= WIDTH + SPACING):
        yield x, max((p[3] for p in placed if p[0] < x + width - 1e-9 and x < p[2] - 1e-9), default=0.0)


def shapes_length(outlines):
    shapes = [mats.Shape(o, QUARTER_TURNS) for o in outlines]
    laid = mats._lay_strip(shapes, WIDTH, LONG, SPACING)
    return max(o.box_mm[3] for o in laid)


def compare(counts, seeds):
    outlines = demo_outlines()
    print(f"{len(outlines)} outlines")
    print(f"{'pieces':>6s} {'rows':>8s} {'lowest':>8s} {'shapes':>8s}  of rows  of lowest      s")
    for count in counts:
        for seed in range(seeds):
            picked = sample(outlines, count, seed)
            start = time.perf_counter()
            mine = shapes_length(picked)
            took = time.perf_counter() - start
            rows, lowest = rows_length(picked), lowest_length(picked)
            print(f"{count:6d} {rows:8.1f} {lowest:8.1f} {mine:8.1f}", end=" ")
            print(f"{mine / rows:8.3f} {mine / lowest:10.3f} {took:6.1f}", flush=True)


def measure_file(name, seconds):
    problem = json.loads(Path(name).read_text())
    items, area = [], 0.0
    for item in problem["items"]:
        corners = [tuple(p) for p in item["shape"]["data"]]
        items.append(spyrrow.Item(str(item["id"]), corners, item["demand"], item.get("allowed_orientations")))
        area += shapely.Polygon(corners).area * item["demand"]
    instance = spyrrow.StripPackingInstance(problem["name"], problem["strip_height"], items)
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=seconds, num_workers=2, seed=1
    )
    solution = instance.solve(config)
    density = 100 * area / (solution.width * problem["strip_height"])
    print(f"{problem['name']:10s} {density:5.1f} % in {seconds} s", flush=True)


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", type=int, default=30)
    parser.add_argument("--seeds", type=int, default=2)
    parser.add_argument("files", nargs="*")
    asked = parser.parse_args()
    for file in asked.files:
        measure_file(file, asked.seconds)
    if not asked.files:
        compare(COUNTS, asked.seeds)
