"""The fewest piles: which copies of a work can be made exactly alike while as many crossings nest.

Copies in one pile are pressed alike and hold parts of the same piles. What nests binds seams of different copies to
each other; two copies can share a pile where no bond contradicts that. The search puts copy by copy on a pile that is
there or on a new one, the largest works first, and gives up a branch that cannot take fewer piles than the best found.
Copies of which no two can share a pile prove how many piles a work takes at least.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

from workers.sewing.copies import NO_COPY, CouldSpin, UnfoldedTop
from workers.sewing.odd_circles import Link
from workers.sewing.pressing import Parity
from workers.sewing.works import Work

PILE = ".pile-"
"""What stands in the id of a work before the number of its pile, from the second on."""

MOST_TRIED = 3000
"""Times that something is tried in one search: a count, so that the clock decides nothing."""


@dataclass(frozen=True)
class Piles:
    """The pile of every copy, named by its first copy; which copies are spun; how many piles there are at least."""

    of: tuple[int, ...]
    spun: frozenset[int]
    at_least: int

    @property
    def count(self) -> int:
        """How many piles there are."""
        return len(set(self.of))


MOST_COPIES = 300
"""Copies in a top up to which branches are looked into: each takes a call in a call."""


class OutOfTries(Exception):
    """The search has used up its tries."""


class PileSearch:
    """Searches one unfolded top with links that must all be kept.

    `open_spins` are the copies of which the search decides whether they are spun.
    """

    def __init__(self, unfolded: UnfoldedTop, kept: Parity, open_spins: Sequence[CouldSpin] = ()) -> None:
        self._copies = unfolded.copies
        self._kept = kept
        self.open_spins = open_spins
        self._could = unfolded.could_spin
        self._seams = [tuple(kept.root(node) for node in copy.nodes) for copy in unfolded.copies]
        self.state = _State(unfolded.size, len(unfolded.copies))
        self.stages: dict[Work, list[int]] = defaultdict(list)
        for number in range(len(self._copies) - 1, -1, -1):
            self.stages[self._copies[number].work].append(number)
        for listed in self.stages.values():
            listed.reverse()

    def search(self, known: Piles | None = None) -> Piles:
        """The fewest piles; the ones `known` if there are no fewer. They are known where any spin is open."""
        apart = {work: self._apart(listed) for work, listed in self.stages.items()}
        best = replace(known or self._fit(), at_least=sum(apart.values()))
        if best.at_least < best.count and len(self._copies) <= MOST_COPIES:
            return self._branch(best, apart)
        return best

    def _fit(self) -> Piles:
        """The best of some orders in which every copy goes on the first pile that takes it."""
        orders = [list(self.stages.values())]
        orders.append(orders[0][::-1])
        orders += [[listed[::-1] for listed in order] for order in list(orders)]
        return min((self._first_fit(order) for order in orders), key=lambda piles: piles.count)

    def find_ways(self, piles: Piles) -> dict[int, int]:
        """For the first copy of each pile, the one whose pressing it shares: pressed alike where that costs nothing."""
        for copy, pile in enumerate(piles.of):
            if not self.state.same(copy, pile):
                self.merge(copy, pile)
        ways: dict[int, int] = {}
        for listed in self.stages.values():
            first: list[int] = []
            for copy in (copy for copy in listed if piles.of[copy] == copy):
                ways[copy] = next((other for other in first if self._press_alike(copy, other)), copy)
                first += [copy] if ways[copy] == copy else []
        return ways

    def _press_alike(self, copy: int, other: int) -> bool:
        mark = self.state.mark()
        for (left, odd_left), (right, odd_right) in zip(self._seams[copy], self._seams[other], strict=True):
            if not self.state.join(left, right, odd_left ^ odd_right):
                self.state.back_to(mark)
                return False
        return True

    def _first_fit(self, order: Sequence[Sequence[int]]) -> Piles:
        """Every copy on the first pile that takes it."""
        mark = self.state.mark()
        for listed in order:
            first: list[int] = []
            for copy in listed:
                if not any(self.state.same(copy, pile) or self.merge(copy, pile) for pile in first):
                    first.append(copy)
        piles = self.read()
        self.state.back_to(mark)
        return piles

    def read(self) -> Piles:
        """The piles as they are now."""
        first: dict[int, int] = {}
        of = tuple(first.setdefault(self.state.pile(copy), copy) for copy in range(len(self._copies)))
        spun = (could.copy for could in self._could if not self._holds(could.plain))
        return Piles(of, frozenset(spun), 0)

    def _holds(self, link: Link) -> bool:
        """Whether a link is kept by what is bound now."""
        (a, odd_a), (b, odd_b) = (self.state.root(*self._kept.root(node)) for node in link[:2])
        return a == b and odd_a ^ odd_b == link[2]

    def keep(self, links: Sequence[Link]) -> bool:
        """Bind links; what was bound before one that contradicts stays bound."""
        for a, b, odd in links:
            (first, odd_a), (second, odd_b) = self._kept.root(a), self._kept.root(b)
            if not self.state.join(first, second, odd ^ odd_a ^ odd_b):
                return False
        return True

    def _apart(self, listed: Sequence[int]) -> int:
        """Copies of one work of which no two can share a pile, as many as are found at once."""
        apart: list[int] = []
        for copy in listed:
            if all(not self._can_merge(copy, other) for other in apart):
                apart.append(copy)
        return len(apart)

    def _can_merge(self, copy: int, other: int) -> bool:
        mark = self.state.mark()
        could = self.merge(copy, other)
        self.state.back_to(mark)
        return could

    def merge(self, copy: int, other: int) -> bool:
        """Lay two copies, and all their parts, on one pile each; nothing is changed where that contradicts."""
        mark = self.state.mark()
        waiting = [(copy, other)]
        while waiting:
            a, b = waiting.pop()
            if not self.state.join_copies(a, b):
                continue
            for (left, odd_left), (right, odd_right) in zip(self._seams[a], self._seams[b], strict=True):
                if not self.state.join(left, right, odd_left ^ odd_right):
                    self.state.back_to(mark)
                    return False
            parts = zip(self._copies[a].parts, self._copies[b].parts, strict=True)
            waiting += [pair for pair in parts if pair[0] != NO_COPY]
        return True

    def _branch(self, best: Piles, apart: Mapping[Work, int]) -> Piles:
        """Look into all branches that may take fewer piles than the best at hand."""
        search = _Branches(self, best, apart)
        begun = self.state.mark()
        try:
            search.look(0, 0, (), 0)
        except OutOfTries:
            self.state.back_to(begun)
            return replace(search.best, at_least=best.at_least)
        return replace(search.best, at_least=search.best.count)


class _Branches:
    """One search through branches: the stages one after the other, copy by copy, and at the end the open spins."""

    def __init__(self, search: PileSearch, best: Piles, apart: Mapping[Work, int]) -> None:
        self._search = search
        self._stages = [(apart[work], listed) for work, listed in search.stages.items()]
        self._floor = [sum(least for least, _ in self._stages[i:]) for i in range(len(self._stages) + 1)]
        self._tries = MOST_TRIED
        self.best = best

    def look(self, stage: int, place: int, first: tuple[int, ...], done: int) -> None:
        """Go on from a place in a stage with the piles that its copies are laid on so far."""
        if stage == len(self._stages):
            if done < self.best.count:
                self._settle(0)
            return
        least, listed = self._stages[stage]
        if done + max(len(first), least) + self._floor[stage + 1] >= self.best.count:
            return
        same = self._search.state.same
        while place < len(listed) and any(same(listed[place], pile) for pile in first):
            place += 1
        if place == len(listed):
            self.look(stage + 1, 0, (), done + len(first))
            return
        for pile in first:
            with self._trying():
                if self._search.merge(listed[place], pile):
                    self.look(stage, place + 1, first, done)
        self.look(stage, place + 1, (*first, listed[place]), done)

    def _settle(self, number: int) -> bool:
        """Spin the open copies from a number on, or do not; whether there is a way."""
        if number == len(self._search.open_spins):
            self.best = self._search.read()
            return True
        could = self._search.open_spins[number]
        for links in (could.spun, (could.plain,)):
            with self._trying():
                if self._search.keep(links) and self._settle(number + 1):
                    return True
        return False

    @contextmanager
    def _trying(self) -> Iterator[None]:
        """Something that is taken back at the end."""
        self._tries -= 1
        if self._tries < 0:
            raise OutOfTries
        mark = self._search.state.mark()
        yield
        self._search.state.back_to(mark)


class _State:
    """Union-finds over nodes, with parity, and over copies, that can be taken back step by step."""

    def __init__(self, nodes: int, copies: int) -> None:
        self._up, self._odd, self._rank = list(range(nodes)), [0] * nodes, [0] * nodes
        self._pile = list(range(copies))
        self._trail: list[tuple[bool, int, int]] = []

    def mark(self) -> int:
        """Where the trail stands."""
        return len(self._trail)

    def back_to(self, mark: int) -> None:
        """Take back all that was joined since."""
        while len(self._trail) > mark:
            of_nodes, what, rank = self._trail.pop()
            if of_nodes:
                self._rank[self._up[what]] -= rank
                self._up[what], self._odd[what] = what, 0
            else:
                self._pile[what] = what

    def join(self, first: int, second: int, odd: int) -> bool:
        """Bind two nodes; False where earlier bonds contradict it."""
        (a, odd_a), (b, odd_b) = self.root(first), self.root(second)
        if a == b:
            return odd_a ^ odd_b == odd
        if self._rank[a] > self._rank[b]:
            a, b = b, a
        deeper = int(self._rank[a] == self._rank[b])
        self._up[a], self._odd[a] = b, odd_a ^ odd_b ^ odd
        self._rank[b] += deeper
        self._trail.append((True, a, deeper))
        return True

    def root(self, node: int, odd: int = 0) -> tuple[int, int]:
        """The node that stands for a node's part, and the parity against it, added to `odd`."""
        while self._up[node] != node:
            odd ^= self._odd[node]
            node = self._up[node]
        return node, odd

    def pile(self, copy: int) -> int:
        """The copy that stands for a copy's pile: the first of the pile."""
        while self._pile[copy] != copy:
            copy = self._pile[copy]
        return copy

    def same(self, first: int, second: int) -> bool:
        """Whether two copies lie on one pile."""
        return self.pile(first) == self.pile(second)

    def join_copies(self, first: int, second: int) -> bool:
        """Lay two copies on one pile; False where they lie there already."""
        low, high = sorted((self.pile(first), self.pile(second)))
        if low == high:
            return False
        self._pile[high] = low
        self._trail.append((False, high, 0))
        return True


def lay_in_piles(unfolded: UnfoldedTop, piles: Piles, ways: Mapping[int, int]) -> dict[int, Work]:
    """For the first copy of each pile the work that the pile holds; the last is the whole top."""
    made: dict[int, Work] = {}
    numbers: dict[Work, int] = defaultdict(int)
    for number, copy in enumerate(unfolded.copies):
        if piles.of[number] != number:
            continue
        work = copy.work
        items = tuple(
            item if part == NO_COPY else replace(item, piece=made[piles.of[part]])
            for item, part in zip(work.items, copy.parts, strict=True)
        )
        numbers[work] += 1
        first = numbers[work] == 1
        if first and all(a.piece is b.piece for a, b in zip(items, work.items, strict=True)):
            made[number] = work
            continue
        pressed_as = "" if ways[number] == number else made[ways[number]].id
        new_id = work.id if first else f"{work.id}{PILE}{numbers[work]}"
        made[number] = replace(
            work, id=new_id, items=items, twin_of="" if first else work.stage, pressed_as=pressed_as
        )
    return made
