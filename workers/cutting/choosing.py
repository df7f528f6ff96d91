"""Which way long strips are cut: the way in which all pieces of their cloth together need the least of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import product

from service.craft.fabric import Fabric
from workers.cutting.cuts import Cut
from workers.cutting.least import least_strips
from workers.cutting.plan import SECONDS, pose
from workers.cutting.strip_problem import total_length
from workers.cutting.strip_rules import fit_rule, per_size_rule
from workers.patience import Left, endless, share

Ways = tuple[Cut, ...]
"""The same strips of the cutting list, cut in different ways: across the cloth, or along its length."""

MOST_TOGETHER = 5
"""So many choices of one cloth are tried in every combination; with more, all of them are made alike."""

PLANNED = 2
"""The best by the rules of thumb, so many of them, are planned in earnest."""


def choose_ways(
    listed: Sequence[Ways],
    beside: Iterable[Cut],
    fabric: Fabric,
    put_together: Callable[[Ways], Ways] = tuple,
    left: Left = endless,
) -> list[Cut]:
    """One way for each of the listed cuts of a cloth; `beside` is what else is cut from it.

    `put_together` joins what may come out of one joined strip; every combination is looked at with it and without.

    Where two choices need the same cloth, the one with fewer joins is taken, then the one listed first.
    """
    others = list(beside)
    combinations = list(dict.fromkeys(cuts for way in _combine(listed) for cuts in (way, put_together(way))))
    if len(combinations) == 1:
        return list(combinations[0])
    by_rule = sorted(
        combinations, key=lambda cuts: (_rule_length([*cuts, *others], fabric), count_joins(cuts))
    )
    planned = by_rule[:PLANNED]
    lengths = [
        _least_length([*cuts, *others], fabric, share(left, 1 / (len(planned) - i)))
        for i, cuts in enumerate(planned)
    ]
    return list(planned[min(range(len(planned)), key=lambda i: (lengths[i], count_joins(planned[i])))])


def _combine(listed: Sequence[Ways]) -> Iterable[tuple[Cut, ...]]:
    if sum(len(ways) > 1 for ways in listed) <= MOST_TOGETHER:
        return product(*listed)
    return [tuple(ways[0] for ways in listed), tuple(ways[-1] for ways in listed)]


def count_joins(cuts: Iterable[Cut]) -> int:
    """How many seams it takes to join strips end to end."""
    return sum(cut.count - cut.count // cut.joined.pieces for cut in cuts if cut.joined)


def _rule_length(cuts: Sequence[Cut], fabric: Fabric) -> Fraction:
    problem, step, _ = pose(fabric.usable_width, dict(enumerate(cuts)))
    return min(total_length(per_size_rule(problem)), total_length(fit_rule(problem))) * step


def _least_length(cuts: Sequence[Cut], fabric: Fabric, left: Left) -> Fraction:
    problem, step, _ = pose(fabric.usable_width, dict(enumerate(cuts)))
    return total_length(least_strips(problem, seconds=SECONDS, left=left).strips) * step
