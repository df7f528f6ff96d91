"""Satin stitches a second, ours against the naive two-rail way. Run by hand: python tests/bench/bench_satin.py

The naive way offsets the outline to both sides, cuts each offset into as many equal parts, and joins them in turn,
a point at a time. It is timed for speed alone; its stitches fan at corners.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import shapely

from tests.stitches.shapes import ZOO
from workers.stitches.curves import draw_outlines, orient
from workers.stitches.guides import make_guide
from workers.stitches.satin import finish_lines, sew_finish
from workers.stitches.settings import StitchSettings

SECONDS = 1.0
SETTINGS = StitchSettings()


def ours(ring):
    guide = make_guide(orient(ring, cloth_inside=True), degrees=30)
    lines = finish_lines(guide, ring[0], draw_outlines([guide.ring]), "satin", SETTINGS)
    return len(sew_finish(lines, "satin", SETTINGS))


def naive(ring):
    shape = shapely.Polygon(ring)
    half = SETTINGS.width_mm / 2 + SETTINGS.pull_mm
    outer, inner = shape.buffer(half, join_style="mitre").exterior, shape.buffer(-half).boundary
    count = round(outer.length / SETTINGS.spacing_mm)
    points = []
    for i in range(count):
        points.append(outer.interpolate(i / count, normalized=True))
        points.append(inner.interpolate(i / count, normalized=True))
    return len(points)


def stitches_a_second(way, ring):
    way(ring)
    made, start = 0, time.perf_counter()
    while time.perf_counter() - start < SECONDS:
        made += way(ring)
    return made / (time.perf_counter() - start)


if __name__ == "__main__":
    print(f"{'shape':12s} {'ours /s':>10s} {'naive /s':>10s}  ratio")
    for name in ("circle", "star", "leaf", "crescent", "leek"):
        mine, plain = (stitches_a_second(way, ZOO[name][0]) for way in (ours, naive))
        print(f"{name:12s} {mine:10.0f} {plain:10.0f}  {mine / plain:5.2f}")
