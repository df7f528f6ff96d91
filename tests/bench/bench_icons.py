"""How many drawings of an icon set pass from the reader to the cut files, and how many are put right on the way.

Run by hand on any folder of SVG files: python tests/bench/bench_icons.py FOLDER [HOW MANY]

Each icon is made 90 mm wide, as icons are drawn in a few pixels. A set is fetched with its own registry's client and
unpacked; tests/outlines/icons holds twelve of the set "bootstrap-icons" 1.13.2 (MIT licence).
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

os.environ["OPENBLAS_NUM_THREADS"] = "1"
sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.outlines.icons_to_cut import cut_all, read_icons

IN_ONE_JOB = 25
SECONDS_A_JOB = 20
"""Each job is told to be done by then, as the queue tells it: the bench asks what is lost, not how close they lie."""


def main():
    """One line of counts; icons that were refused, with why."""
    folder, most = Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 200
    paths = sorted(folder.glob("*.svg"))
    paths = paths[:: max(1, len(paths) // most)][:most]  # every n-th, so that no kind of icon is left out
    start = time.monotonic()
    read, refused = read_icons(paths)
    middle = time.monotonic()
    wanted = [f"{file.name} {shape.name}" for file in read for shape in file.shapes]
    cut = []
    for first in range(0, len(read), IN_ONE_JOB):
        cut += cut_all(read[first : first + IN_ONE_JOB], SECONDS_A_JOB)
        print(f"  {len(cut)} of {len(wanted)} shapes cut", file=sys.stderr, flush=True)
    right = [file for file in read if file.notes]
    print(
        f"{len(paths)} icons: {len(read)} read in {middle - start:.1f} s ({len(wanted)} shapes), "
        f"{len(refused)} refused in words, {len(right)} put right or with a note ({len(right) / len(paths):.0%}), "
        f"{len(cut)} shapes cut, {len(set(wanted) - set(cut))} lost; {time.monotonic() - middle:.1f} s"
    )
    for name, why in refused.items():
        print(f"  {name}: {why}")


if __name__ == "__main__":
    main()
