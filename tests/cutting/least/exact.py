"""The least length of a tiny cloth by trying every strip: no prices, no linear program, no bounds."""

from functools import cache


def least_length(problem):
    """Some strip holds a piece of the first size still wanted: every such strip is tried, and so on with the rest."""
    ways = [size.ways(problem.width) for size in problem.sizes]

    @cache
    def least(left):
        if not any(left):
            return 0
        return min(height + least(rest) for height, rest in _strips(ways, left, problem.width))

    return least(tuple(size.count for size in problem.sizes))


def _strips(ways, left, width):
    """Each height a strip can have that holds a piece of the first size wanted, with what it leaves."""
    first = next(size for size, count in enumerate(left) if count)
    waiting = [(width - across, along, _without(left, first)) for across, along, _ in ways[first]]
    seen = set()
    while waiting:
        state = waiting.pop()
        if state in seen:
            continue
        seen.add(state)
        room, height, rest = state
        yield height, rest
        for size, count in enumerate(rest):
            for across, along, _ in ways[size] if count else ():
                if across <= room:
                    waiting.append((room - across, max(height, along), _without(rest, size)))


def _without(left, size):
    return (*left[:size], left[size] - 1, *left[size + 1 :])
