"""How near and how fast pictures are traced, beside a contour along pixels.

Run by hand: python tests/bench/bench_tracing.py [150 300 600]

The baseline thresholds the picture halfway, walks round the pixels (their middles, put out by half a pixel), and
fits the same curves without corners being put back. Times are of the processor, without painting; `ratio` is that of
tracing to the baseline. A negative number of lost shapes tells of specks that were taken for shapes.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

# One thread for sums, as in the process that traces an upload: others only wait, and their time would count.
os.environ["OPENBLAS_NUM_THREADS"] = "1"

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from service.craft.outlines import Outline, OutlineFile, OutlineUnreadable, flatten
from service.craft.outlines.regions import find_regions
from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import (
    CORNERED,
    HOLED,
    SHEET,
    SMOOTH,
    Flaws,
    cover_sheet,
    develop,
    encode,
    paint,
    skewed,
)
from tests.outlines.tracing.test_accuracy import compare
from workers.outlines.tracing import trace_picture
from workers.outlines.tracing.corners import SMOOTHING_MM, STEP_MM, Traced
from workers.outlines.tracing.curves import draw_contour
from workers.outlines.tracing.iso_lines import find_iso_lines
from workers.outlines.tracing.points import resample, smooth
from workers.outlines.tracing.trace import LIMITS


def trace_pixels(values, dpi):
    """The baseline: ink or paper and nothing between, so that every edge runs halfway between two pixels."""
    binary = (values > (int(values.min()) + int(values.max())) / 2).astype(np.float32)
    lines = find_iso_lines(np.pad(binary, 1, constant_values=1.0), 0.5, most_points=10**7)
    contours = []
    for line in lines:
        points = (line - 0.5) * 25.4 / dpi
        if np.ptp(points, axis=0).max() > 2:
            even = smooth(resample(points, STEP_MM), 2 * SMOOTHING_MM / STEP_MM)
            contours.append(draw_contour(Traced(even, STEP_MM, ()), tolerance=0.05))
    regions = find_regions(contours, by_parity=True, limits=LIMITS)
    return OutlineFile("pixels", "", tuple(Outline("", rings) for rings in regions.rings))


def cusps_of(file):
    """Places where a ring turns back on itself (by more than 150 degrees): no shape of the sheet has one."""
    count = 0
    for ring in (ring for shape in file.shapes for ring in shape.rings):
        at = np.array(flatten(ring, tolerance_mm=0.002))
        way = np.roll(at, -1, axis=0) - at
        way = way[np.hypot(*way.T) > 1e-3]
        following = np.roll(way, -1, axis=0)
        turn = np.arctan2(
            way[:, 0] * following[:, 1] - way[:, 1] * following[:, 0], (way * following).sum(axis=1)
        )
        count += int((np.abs(turn) > np.radians(150)).sum())
    return count


def row_of(file, painted):
    """How far off, how many nodes and cusps, and how many shapes were lost."""
    found = compare(file, painted)
    smooth, cornered = (
        max(off for name, (off, _) in found.items() if name in kind)
        for kind in ({**SMOOTH, **HOLED}, CORNERED)
    )
    nodes = [count for _, count in found.values()]
    lost = len(painted) - len(file.shapes)
    return (
        f"{smooth:7.3f} {cornered:8.3f} {np.mean(nodes):6.1f} {max(nodes):5d} {cusps_of(file):5d} {lost:5d}"
    )


def measure(words, dpi, flaws, covered, painted):
    """Two lines of the table, one for each way."""
    values = develop(covered, flaws=flaws)
    data = encode(values, "JPEG", quality=flaws.jpeg) if flaws.jpeg else encode(values)
    start = time.process_time()
    traced = trace_picture(TracingAsked(data, "sheet", dpi=dpi)).file
    middle = time.process_time()
    try:
        pixels = trace_pixels(values, dpi)
    except OutlineUnreadable:
        pixels = None
    end = time.process_time()
    took = middle - start, end - middle
    print(f"{words:28s} traced {row_of(traced, painted)} {took[0]:6.2f} {took[0] / took[1]:6.2f}")
    row = row_of(pixels, painted) if pixels else "  its lines are too tangled to be shapes"
    print(f"{'':28s} pixels {row} {took[1]:6.2f}", flush=True)


CASES = {
    "as scanned": Flaws(),
    "blur 1.6 px": Flaws(blur=1.6),
    "noise 12, blur 1.2 px": Flaws(noise=12, blur=1.2),
    "JPEG 75": Flaws(jpeg=75),
    "light falls to half, JPEG 85": Flaws(light=(0.35, 0.2), noise=4, blur=1.2, jpeg=85),
}
"""All are 2 degrees askew. As scanned: blur 0.8 px, noise of 6 in 255, light that falls by a tenth."""


def main():
    """The table, of all resolutions or of those that are named."""
    painted = {name: skewed(shape, 2) for name, shape in SHEET.items()}
    # the first run loads what is loaded once
    trace_picture(TracingAsked(encode(paint([SHEET["circle"]], dpi=50)), "first", dpi=50))
    for dpi in [int(word) for word in sys.argv[1:]] or [300, 150, 600]:
        covered = cover_sheet(painted.values(), dpi=dpi)
        print(f"{dpi} dpi, a pixel is {25.4 / dpi:.3f} mm; mm off, seconds of the processor")
        print(f"{'':35s}  smooth cornered  nodes  most cusps  lost      s  ratio")
        for words, flaws in CASES.items():
            measure(words, dpi, flaws, covered, painted)


if __name__ == "__main__":
    main()
