"""Published shapes on a strip: how dense the solver of layouts lays them, against the best that is known.

Run by hand: python tests/bench/bench_irregular.py [--seconds 30] [--seed 1] FILE.json ...

A file holds a `name`, a `strip_height` and `items`, each with the corners of its shape, how many there are of it, and
the turns allowed (degrees). One thread, for so many seconds by the clock; `cpu s` is what the machine gave of them.
Only the corners, turns and places that were answered enter the density, and Shapely says whether the layout is legal.
"""

import argparse
import json
import resource
from pathlib import Path

import shapely
import spyrrow
from shapely import affinity

BEST_KNOWN = {"albano": 89.5, "fu": 92.4, "shirts": 89.9, "jakobs2": 84.9}
"""Percent. From memory, of papers on packing irregular shapes on a strip, which all measure by these sets."""

TOUCH = 1e-4
"""Shapes may share so much of the smaller one's area: the last digits of places in single precision."""


def measure(path, seconds, seed):
    problem = json.loads(path.read_text())
    height, items = problem["strip_height"], problem["items"]
    shapes = {str(item["id"]): [tuple(corner) for corner in item["shape"]["data"]] for item in items}
    instance = spyrrow.StripPackingInstance(
        problem["name"],
        height,
        [
            spyrrow.Item(str(i["id"]), shapes[str(i["id"])], i["demand"], i.get("allowed_orientations"))
            for i in items
        ],
    )
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=seconds, num_workers=1, seed=seed, quadtree_depth=3
    )
    before = _count_cpu_s()
    solution = instance.solve(config)
    cpu = _count_cpu_s() - before
    laid = [_lay(shapes[placed.id], placed) for placed in solution.placed_items]
    return 100 * sum(s.area for s in laid) / (_length(laid) * height), list_faults(laid, items, height), cpu


def list_faults(laid, items, height):
    """Shapes missing, over the edge or upon each other; nothing where the layout is legal."""
    faults = []
    if len(laid) != sum(item["demand"] for item in items):
        faults.append("shapes are missing")
    _, low, _, high = shapely.total_bounds(laid)
    if low < -TOUCH * height or high > (1 + TOUCH) * height:
        faults.append("over the edge")
    tree = shapely.STRtree(laid)
    upon = [(a, b) for a, b in tree.query(laid, predicate="intersects").T if a < b]
    shared = [laid[a].intersection(laid[b]).area / min(laid[a].area, laid[b].area) for a, b in upon]
    return faults + ["upon each other"] * sum(share > TOUCH for share in shared)


def _lay(corners, placed):
    return affinity.translate(
        affinity.rotate(shapely.Polygon(corners), placed.rotation, origin=(0, 0)), *placed.translation
    )


def _length(laid):
    left, _, right, _ = shapely.total_bounds(laid)
    return right - left


def _count_cpu_s():
    used = resource.getrusage(resource.RUSAGE_SELF)
    return used.ru_utime + used.ru_stime


def compare(files, seconds, seed):
    print("set        best known     here  difference  faults   cpu s")
    differences = []
    for path in files:
        density, faults, cpu = measure(path, seconds, seed)
        best = BEST_KNOWN[path.stem]
        differences.append(best - density)
        print(f"{path.stem:10s} {best:10.1f} {density:8.1f} {best - density:11.1f}", end=" ")
        print(f"{len(faults):7d} {cpu:7.1f}", flush=True)
    print(f"below the best known by {sum(differences) / len(differences):.1f} points on average")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=int, default=30)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("files", nargs="*", type=Path)
    asked = parser.parse_args()
    if asked.files:
        compare(asked.files, asked.seconds, asked.seed)
