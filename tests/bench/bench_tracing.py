"""How near and how fast pictures are traced, beside a contour along pixels.

Run by hand: python tests/bench/bench_tracing.py

The baseline thresholds the picture halfway, walks round the pixels (their middles, put out by half a pixel), and
fits the same curves without corners being put back. Times are of the processor, without painting.
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

from service.craft.outlines import Outline, OutlineFile
from service.craft.outlines.regions import find_regions
from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import HOLED, SHEET, SMOOTH, Flaws, encode, paint, skewed
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


def measure(dpi, flaws, painted):
    """One line of the table for each way."""
    values = paint(painted.values(), dpi=dpi, flaws=flaws)
    data = encode(values, "JPEG", quality=flaws.jpeg) if flaws.jpeg else encode(values)
    start = time.process_time()
    traced = trace_picture(TracingAsked(data, "sheet", dpi=dpi)).file
    middle = time.process_time()
    pixels = trace_pixels(values, dpi)
    end = time.process_time()
    for way, file, seconds in (("traced", traced, middle - start), ("pixels", pixels, end - middle)):
        found = compare(file, painted)
        smooth_ = max(off for name, (off, _) in found.items() if name in SMOOTH or name in HOLED)
        cornered = max(off for name, (off, _) in found.items() if name not in SMOOTH and name not in HOLED)
        nodes = [count for _, count in found.values()]
        print(
            f"{dpi:4d} dpi  jpeg {flaws.jpeg or '-':>3}  blur {flaws.blur}  noise {flaws.noise:4.1f}  {way}: "
            f"smooth {smooth_:.3f} mm, cornered {cornered:.3f} mm, "
            f"nodes {np.mean(nodes):.1f} (most {max(nodes)}), {seconds:.2f} s",
            flush=True,
        )


def main():
    """The table."""
    painted = {name: skewed(shape, 2) for name, shape in SHEET.items()}
    measure(300, Flaws(), painted)  # the first run loads what is loaded once
    for dpi, flaws in [
        (150, Flaws()),
        (300, Flaws()),
        (300, Flaws(jpeg=75)),
        (300, Flaws(noise=12, blur=1.2)),
        (600, Flaws()),
    ]:
        measure(dpi, flaws, painted)


if __name__ == "__main__":
    main()
