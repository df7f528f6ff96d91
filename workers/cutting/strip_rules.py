"""What a maker works out by hand: each size from strips of its own, or the tallest first wherever it fits."""

from __future__ import annotations

from dataclasses import dataclass, field

from workers.cutting.strip_problem import Problem, Run, Size, Strip, Strips, total_length

Way = tuple[int, int, bool]


def per_size_rule(problem: Problem) -> Strips:
    """Each size from strips of its own, lying the way that takes less cloth.

    per strip = floor(width / piece); strips = ceil(pieces / per strip) (vickisfabriccreations.blogspot.com and
    others; see the tests).
    """
    strips: list[Strip] = []
    for i, size in enumerate(problem.sizes):
        across, along, turned = cheapest_way(size, problem.width)
        each = problem.width // across
        full, rest = divmod(size.count, each)
        strips += [Strip(along, (Run(i, each, turned),))] * full
        strips += [Strip(along, (Run(i, rest, turned),))] if rest else []
    return tuple(strips)


def cheapest_way(size: Size, usable_width: int) -> Way:
    """How pieces of one size lie when they get strips of their own; as given where both ways take the same."""

    def cost(way: Way) -> tuple[int, int]:
        strips = -(-size.count // (usable_width // way[0]))
        return strips * way[1], strips

    return min(size.ways(usable_width), key=cost)


def fit_rule(problem: Problem) -> Strips:
    """By falling height into the first or the fullest strip that has room; the best over ways of laying the pieces.

    First-fit and best-fit decreasing height: Coffman, Garey, Johnson, Tarjan, "Performance bounds for
    level-oriented two-dimensional packing algorithms", SIAM J. Comput. 9 (1980), from memory.
    """
    tried = [_fill(problem, ways, fullest=fullest) for ways in _layings(problem) for fullest in (False, True)]
    return min(tried, key=lambda strips: (total_length(strips), len(strips)))


def _layings(problem: Problem) -> list[tuple[Way, ...]]:
    """Ways of laying all sizes: as given, all tall, all flat, each as its own strips would have it."""
    choices = [size.ways(problem.width) for size in problem.sizes]
    layings = [
        tuple(ways[0] for ways in choices),
        tuple(max(ways, key=lambda way: way[1]) for ways in choices),
        tuple(min(ways, key=lambda way: way[1]) for ways in choices),
        tuple(cheapest_way(size, problem.width) for size in problem.sizes),
    ]
    return list(dict.fromkeys(layings))


@dataclass
class _OpenStrip:
    height: int
    room: int
    runs: list[Run] = field(default_factory=list)

    def take(self, size: int, left: int, way: Way) -> int:
        """Puts in as many of `left` pieces as there is room for, and says how many."""
        count = min(left, self.room // way[0])
        if count:
            self.runs.append(Run(size, count, way[2]))
            self.room -= count * way[0]
        return count


def _fill(problem: Problem, ways: tuple[Way, ...], *, fullest: bool) -> Strips:
    """Equal pieces go in together: a strip that was the first or the fullest stays so until it has no room."""
    strips: list[_OpenStrip] = []
    order = sorted(range(len(ways)), key=lambda i: (-ways[i][1], -ways[i][0], i))
    for i in order:
        way, left = ways[i], problem.sizes[i].count
        for strip in sorted(strips, key=lambda s: s.room) if fullest else strips:
            left -= strip.take(i, left, way)
        while left:
            strips.append(_OpenStrip(way[1], problem.width))
            left -= strips[-1].take(i, left, way)
    return tuple(Strip(s.height, tuple(s.runs)) for s in strips)
