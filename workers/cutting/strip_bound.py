"""How little cloth there can be: no plan whatever is shorter than this."""

from __future__ import annotations

from math import gcd

from workers.cutting.strip_problem import Problem


def area_bound(problem: Problem) -> int:
    """The length below which no strips can do, in steps.

    The area of all the pieces over the width, and at least the height of each piece laid its lowest way. A plan's
    length is a sum of heights, so it is a multiple of what divides every height: the bound is rounded
    up to that.
    """
    if not problem.sizes:
        return 0
    area = sum(size.width * size.height * size.count for size in problem.sizes)
    heights = [[way[1] for way in size.ways(problem.width)] for size in problem.sizes]
    least = max(-(-area // problem.width), *(min(h) for h in heights))
    step = gcd(*(height for ways in heights for height in ways))
    return -(-least // step) * step
