"""Colouring 1,000 seams against a naive way in the same run. python tests/bench/bench_pressing.py

Rows of patches: every seam but those of the first row meets one of the row above, so each of the parts is a chain. The
naive way goes over all bonds again and again and turns a seam that breaks one, until none is broken.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from workers.sewing.pressing import Bond, solve_pressing


def rows(count, across):
    """`count` seams in rows of `across`; seams one under the other want to differ."""
    costs = {i: (float(i % 3), float(i % 2)) for i in range(count)}
    bonds = [Bond(i, i + across, False) for i in range(count - across)]
    return costs, bonds[::-1]


def colour_naively(costs, bonds):
    sides = dict.fromkeys(costs, 0)
    while True:
        broken = [b for b in bonds if (sides[b.first] == sides[b.second]) != b.alike]
        if not broken:
            return sides
        for bond in broken:
            if (sides[bond.first] == sides[bond.second]) != bond.alike:
                sides[bond.second] ^= 1


def best_of(times, work, *given):
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        work(*given)
        seconds.append(time.perf_counter() - start)
    return min(seconds)


if __name__ == "__main__":
    print(f"{'seams':>7s} {'bonds':>7s} {'colouring':>12s} {'naive':>12s} {'ratio':>7s}")
    for count in (100, 1000, 10000):
        costs, bonds = rows(count, 20)
        ours, naive = best_of(7, solve_pressing, costs, bonds), best_of(1, colour_naively, costs, bonds)
        print(f"{count:7d} {len(bonds):7d} {ours * 1000:9.2f} ms {naive * 1000:9.2f} ms {naive / ours:7.1f}")
