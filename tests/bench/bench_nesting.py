"""Pieces laid by their shapes: how long against boxes.

Run by hand: python tests/bench/bench_nesting.py [--seeds 3] [--counts 10 16] [--sets letters] [--spacing 3.175]

Three sets of outlines (`nesting_sets.py`) on a strip as wide as the room of a 12 in mat, 5 mm apart, against four
packings of their boxes with quarter turns (`box_packings.py`): the same pieces, width and spacing. `rows` and `lowest`
are the project's own, upright boxes in shelves and bottom-left. `rects` and `aslant` are those of a library, upright
boxes and the least ones in any turn. `of best` is what is saved of the shortest of the four, `of aslant` of the last.

`bound` is the length below which no layout can be: that in which the pieces, with half the spacing round them, leave
nothing free. `filled` is how much of the strip they take as laid, and `at 24 %` how much they would where it was 24 %
shorter than the shortest packing: more than 1 cannot be. `--patience 4` waits four times as long for shorter strips as
cut files do.
"""

import argparse
import resource
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import shapely

from service.craft.outlines.polygons import to_polygon
from tests.bench.box_packings import PACKINGS
from tests.bench.nesting_sets import SETS
from workers.outlines.layout import ANY_TURN
from workers.outlines.nesting import mats, strip
from workers.outlines.nesting.check import find_layout_faults

WIDTH, SPACING, LONG = 292.8, 5.0, 100_000.0
COUNTS = (10, 16, 24, 40)
AIM = 0.24


def compare(counts, seeds, names, spacing):
    print(f"set     pieces seed {' '.join(f'{name:>7s}' for name in PACKINGS)}  shapes   bound", end="  ")
    print("of best  of aslant  filled  at 24 %  faults  cpu s")
    every = []
    for name in names:
        for count in counts:
            found = [_compare_one(name, seed, SETS[name](count, seed), spacing) for seed in range(seeds)]
            _sum_up(f"{name} {count}", found)
            every += [(name, one) for one in found]
        _sum_up(name, [one for of, one in every if of == name])
    _sum_up("all", [one for _, one in every])


def _sum_up(name, found):
    """What was saved of every packing, mean and least, and the computing it took, mean and most."""
    print(f"{name}: shorter than", end=" ")
    for packing in (*PACKINGS, "best"):
        saved = [one[packing] for one in found]
        print(f"{packing} by {100 * sum(saved) / len(saved):.1f} % ({100 * min(saved):.1f})", end=", ")
    took = [one["cpu"] for one in found]
    print(f"cpu s {sum(took) / len(found):.1f} ({max(took):.1f})", flush=True)


def _compare_one(name, seed, picked, spacing):
    start = _count_cpu_s()
    laid = mats._lay_strip([mats.Shape(o, ANY_TURN) for o in picked], WIDTH, LONG, spacing)
    took = _count_cpu_s() - start
    mine, count = max(o.box_mm[3] for o in laid), len(picked)
    packed = {packing: measure(picked, WIDTH, spacing) for packing, measure in PACKINGS.items()}
    packed["best"] = min(packed.values())
    faults = find_layout_faults(laid, picked, [ANY_TURN] * count, (0, 0, WIDTH, mine), spacing)
    bound = bound_length(picked, spacing)
    saved = {packing: 1 - mine / length for packing, length in packed.items()}
    filled, asked = ((bound + spacing) / (length + spacing) for length in (mine, (1 - AIM) * packed["best"]))
    print(f"{name:7s} {count:6d} {seed:4d} {' '.join(f'{packed[p]:7.1f}' for p in PACKINGS)}", end=" ")
    print(f"{mine:7.1f} {bound:7.1f} {saved['best']:8.3f} {saved['aslant']:10.3f}", end=" ")
    print(f"{filled:7.3f} {asked:8.3f} {len(faults):7d} {took:6.1f}", flush=True)
    return {**saved, "cpu": took}


def bound_length(outlines, spacing):
    """The pieces widened by half the spacing overlap nowhere, and reach no further than that out of the strip."""
    taken = sum(shapely.Polygon(to_polygon(o).exterior).buffer(spacing / 2).area for o in outlines)
    return taken / (WIDTH + spacing) - spacing


def _count_cpu_s():
    """Of this process and those it waited for."""
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--patience", type=float, default=1.0)
    parser.add_argument("--spacing", type=float, default=SPACING)
    parser.add_argument("--counts", type=int, nargs="*", default=COUNTS)
    parser.add_argument("--sets", nargs="*", default=list(SETS))
    asked = parser.parse_args()
    strip.STUCK, strip.CPU_SECONDS = strip.STUCK * asked.patience, 600
    strip.STEPS = round(strip.STEPS * asked.patience)
    compare(asked.counts, asked.seeds, asked.sets, asked.spacing)
