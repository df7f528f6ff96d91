"""The fewest crossings of a top that do not nest, over every way of pressing each copy, spun or not, proved.

First nothing is said of the seams that can be spun: their halves may fall as they like, which leaves no more crossings
than any way does. Where the answer has a ring that does not close, that copy is spun in one branch and not in the
other, until no branch can be better than the best way found.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from workers.sewing.copies import UnfoldedTop
from workers.sewing.odd_circles import Link
from workers.sewing.pressing import Bond, Parity, solve_pressing

MOST_BRANCHES = 40
"""Branches looked into; a count, so that the clock decides nothing."""


@dataclass(frozen=True)
class FewestFailing:
    """Which copies are spun, which links fail, and how many fail at least whatever is spun."""

    spun: frozenset[int]
    failing: frozenset[int]
    at_least: int


class LeastFailing:
    """Searches one unfolded top."""

    def __init__(self, unfolded: UnfoldedTop) -> None:
        self._top = unfolded

    def search(self) -> FewestFailing:
        """The best over all choices of copies to spin."""
        best: FewestFailing | None = None
        waiting: list[dict[int, bool]] = [{}]
        open_bounds = []
        for _ in range(MOST_BRANCHES):
            if not waiting:
                break
            fixed = waiting.pop()
            relaxed = self._solve(fixed, free=True)
            if relaxed is None or (best and relaxed.at_least >= len(best.failing)):
                continue
            spun, unsettled = self._settle(fixed, relaxed.failing)
            found = self.with_spun(spun)
            if found and (best is None or len(found.failing) < len(best.failing)):
                best = found
            if unsettled is None and found and len(found.failing) <= len(relaxed.failing):
                open_bounds.append(relaxed.at_least)
            else:
                choice = unsettled if unsettled is not None else self._first_free(fixed)
                if choice is not None:
                    waiting += [fixed | {choice: True}, fixed | {choice: False}]
        if waiting:
            open_bounds += [
                bound.at_least for fixed in waiting if (bound := self._solve(fixed, free=True)) is not None
            ]
        best = best or self.with_spun(frozenset())
        assert best is not None, "without a spin nothing contradicts"  # noqa: S101
        least = min([len(best.failing), *open_bounds])
        return FewestFailing(best.spun, best.failing, least)

    def with_spun(self, spun: Iterable[int]) -> FewestFailing | None:
        """The fewest where these copies are spun and no others; None where they cannot all be."""
        chosen = frozenset(spun)
        fixed = {i: could.copy in chosen for i, could in enumerate(self._top.could_spin)}
        found = self._solve(fixed, free=False)
        return found and FewestFailing(chosen, found.failing, found.at_least)

    def bind(self, fixed: Mapping[int, bool]) -> list[Link]:
        """What must be kept, where it is settled of some of the seams that can be spun whether they are."""
        hard = self._top.one_seams
        for i, is_spun in fixed.items():
            could = self._top.could_spin[i]
            kept = [self._top.links[link] for link in could.crossed] if is_spun else []
            hard += [*could.spun, *kept] if is_spun else [could.plain]
        return hard

    def _solve(self, fixed: Mapping[int, bool], *, free: bool) -> FewestFailing | None:
        assert free or len(fixed) == len(self._top.could_spin)  # noqa: S101
        parity = join_all(self._top.size, self.bind(fixed))
        if parity is None:
            return None
        bonds, roots = [], set()
        for a, b, odd in self._top.links:
            (first, odd_a), (second, odd_b) = parity.root(a), parity.root(b)
            bonds.append(Bond(first, second, not odd ^ odd_a ^ odd_b))
            roots |= {first, second}
        solved = solve_pressing(dict.fromkeys(sorted(roots), (0.0, 0.0)), bonds)
        return FewestFailing(frozenset(), frozenset(solved.broken), solved.at_least)

    def _settle(
        self, fixed: Mapping[int, bool], failing: frozenset[int]
    ) -> tuple[frozenset[int], int | None]:
        """Spin what can be spun with these links failing; and the first seam that can neither be spun nor not."""
        kept = [link for i, link in enumerate(self._top.links) if i not in failing]
        parity = join_all(self._top.size, [*self.bind(fixed), *kept])
        assert parity is not None, "links that are kept contradict nothing"  # noqa: S101
        spun, unsettled = {self._top.could_spin[i].copy for i, is_spun in fixed.items() if is_spun}, None
        for i, could in enumerate(self._top.could_spin):
            if i in fixed:
                continue
            if failing.isdisjoint(could.crossed) and _join_if_free(parity, could.spun):
                spun.add(could.copy)
            elif not _join_if_free(parity, [could.plain]) and unsettled is None:
                unsettled = i
        return frozenset(spun), unsettled

    def _first_free(self, fixed: Mapping[int, bool]) -> int | None:
        return next((i for i in range(len(self._top.could_spin)) if i not in fixed), None)


def join_all(size: int, links: Sequence[Link]) -> Parity | None:
    """Nodes joined by links that must all be kept; None where they contradict each other."""
    parity = Parity(size)
    return parity if all(_join_if_free(parity, [link]) for link in links) else None


def _join_if_free(parity: Parity, links: Sequence[Link]) -> bool:
    """Join by all of the links, which no link before contradicts, or by none of them."""
    first, *rest = links
    a, b, odd = first
    (root_a, odd_a), (root_b, odd_b) = parity.root(a), parity.root(b)
    if root_a == root_b and odd_a ^ odd_b != odd:
        return False
    trial = {root_a: (root_b, odd_a ^ odd_b ^ odd)} if root_a != root_b else {}
    for a, b, odd in rest:
        (root_a, odd_a), (root_b, odd_b) = (_through(parity.root(node), trial) for node in (a, b))
        if root_a == root_b and odd_a ^ odd_b != odd:
            return False
    for a, b, odd in links:
        parity.join(a, b, odd)
    return True


def _through(root: tuple[int, int], trial: Mapping[int, tuple[int, int]]) -> tuple[int, int]:
    node, odd = root
    if node in trial:
        above, more = trial[node]
        return above, odd ^ more
    return root
