"""Satin, fill and whole projects: how good and how fast. Run by hand: python tests/bench/bench_satin.py

The naive way offsets the outline to both sides, cuts each offset into as many equal parts, and joins them in turn.
Both ways are measured by the same rules: cover of the band by thread 0.4 mm wide, density in squares of 1 mm (99th
percentile over median), longest stitch, and spacing on the leading rail (5th and 95th percentile).
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import numpy as np
import shapely

from tests.stitches.shapes import ZOO
from tests.stitches.test_recipe import document, outline
from tests.stitches.test_satin import band_of, density_ratio, segments_of
from workers.recipe import JobInput
from workers.stitches.curves import draw_outlines, orient
from workers.stitches.fill import sew_fill
from workers.stitches.guides import make_guide
from workers.stitches.recipe import make_stitches
from workers.stitches.satin import finish_lines, gaps_beside, sew_finish
from workers.stitches.settings import USUAL

SECONDS = 1.0
SHAPES = ("circle", "star", "leaf", "crescent", "leek", "letter e")
PROJECT = ("leek", "star", "ring", "letter a", "crescent", "pinwheel", "leaf", "circle", "letter e", "square")


def ours(ring):
    """Our needle points round a ring."""
    guide = make_guide(orient(ring, cloth_inside=True), degrees=30)
    lines = finish_lines(guide, ring[0], draw_outlines([guide.ring]), "satin", USUAL)
    return sew_finish(lines, "satin", USUAL)


def naive(ring):
    """The needle points of the naive way, a point at a time."""
    shape = shapely.Polygon(ring)
    half = USUAL.width_mm / 2 + USUAL.pull_mm
    outer, inner = shape.buffer(half, join_style="mitre").exterior, shape.buffer(-half).boundary
    count = round(outer.length / USUAL.spacing_mm)
    points = []
    for i in range(count):
        points.append(outer.interpolate(i / count, normalized=True).coords[0])
        points.append(inner.interpolate(i / count, normalized=True).coords[0])
    return np.array(points)


def stitches_a_second(way, ring):
    """Speed of one way, in processor time."""
    way(ring)
    made, start = 0, time.process_time()
    while time.process_time() - start < SECONDS:
        made += len(way(ring))
    return made / (time.process_time() - start)


def look(name, points):
    """Cover, density ratio, longest stitch, spacing as parts of the setting."""
    band = band_of(name, USUAL)
    thread = shapely.union_all(shapely.buffer(shapely.linestrings(segments_of([points])), 0.2, quad_segs=4))
    lengths = np.linalg.norm(np.diff(points, axis=0), axis=1)
    spacing = gaps_beside(points[::2]) / USUAL.spacing_mm
    low, high = np.percentile(np.maximum(spacing[: len(points) // 2], 0), [5, 95])
    cover = thread.intersection(band).area / band.area
    return f"{cover:8.2%} {density_ratio(points, band):8.2f} {lengths.max():8.2f} {low:6.2f}-{high:.2f}"


def show_satin():
    """Both ways on every shape."""
    print(
        f"{'shape':9s} {'way':6s} {'a second':>9s} {'cover':>8s} {'p99/med':>8s} {'longest':>8s} outer rail"
    )
    for name in SHAPES:
        for label, way in (("ours", ours), ("naive", naive)):
            ring = ZOO[name][0]
            speed = stitches_a_second(way, ring)
            print(f"{name:9s} {label:6s} {speed:9.0f} {look(name, way(ring))}")


def show_fill():
    """Fill: cover, short stitches, speed."""
    print(f"\n{'fill':9s} {'a second':>9s} {'cover':>8s} {'< 0.7 mm':>8s}")
    for name in SHAPES:
        area = shapely.Polygon(ZOO[name][0])
        start = time.process_time()
        runs = [points for _ in range(5) for points in sew_fill(area, 30, USUAL)]
        speed = sum(map(len, runs)) / (time.process_time() - start)
        stitches = segments_of(runs[: len(runs) // 5])
        thread = shapely.union_all(shapely.buffer(shapely.linestrings(stitches), 0.2, quad_segs=4))
        short = (np.linalg.norm(stitches[:, 1] - stitches[:, 0], axis=1) < 0.7).mean()
        print(f"{name:9s} {speed:9.0f} {thread.intersection(area).area / area.area:8.2%} {short:8.2%}")


def show_project():
    """Twenty pieces from the document to checked files."""
    files = {f"{n.replace(' ', '-')}.svg": outline(f"{n.replace(' ', '-')}.svg", *ZOO[n]) for n in PROJECT}
    pieces = [
        {"name": f"{n} {k}", "outline": f"{n.replace(' ', '-')}.svg", "at": [str(4 + 3 * i), str(4 + 10 * k)]}
        for k in range(2)
        for i, n in enumerate(PROJECT)
    ]
    start = time.process_time()
    made = make_stitches(JobInput("stitches", document(*pieces), files))
    print(f"\n20 pieces, {len(made)} files: {time.process_time() - start:.2f} s")


if __name__ == "__main__":
    show_satin()
    show_fill()
    show_project()
