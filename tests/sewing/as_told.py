"""Junctions of a top, found from `sewing.json` alone: where parts lie, where seams run, how they are pressed.

Nothing of the planner is used, not even its classes: this is what somebody could do with the file and a ruler. Two
seams that end at a point of the seam being sewn, one at each of its sides, come to lie on each other where one is the
other's mirror image in that seam. They nest where their allowances, one of them mirrored, lie to different sides.
"""

from __future__ import annotations

from cmath import exp
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from math import radians
from typing import Any

NEAR = 2e-3
"""Inches within which two places are one: the file has four decimals, and parts lie in parts."""
SKEW = 0.01
"""By how much directions (unit vectors) may differ: the same decimals over the length of a short seam."""
WORDS = {"left": -1 + 0j, "right": 1 + 0j, "up": -1j, "down": 1j}

Pile = tuple[str, int]
"""A stage's id and the number of a pile of it, from 1."""


@dataclass(frozen=True)
class End:
    """One end of a seam: where it is, which way the seam runs from there, and where its allowance lies (None: open)."""

    seam: str
    at: complex
    out: complex
    allowance: complex | None

    def laid(self, turn: complex, shift: complex) -> End:
        """The same end in a larger picture."""
        lies = None if self.allowance is None else self.allowance * turn
        return End(self.seam, self.at * turn + shift, self.out * turn, lies)


@dataclass(frozen=True)
class Junction:
    """Two seams that lie on each other in a third, and whether they nest."""

    across: str
    at: complex
    meeting: tuple[str, str]
    nests: bool


class ToldPlan:
    """One `sewing.json`, read."""

    def __init__(self, plan: dict[str, Any]) -> None:
        self._stages = {stage["id"]: stage for stage in plan["stages"]}
        self._seams = {seam["id"]: seam for seam in plan["seams"]}
        self._ends: dict[Pile, list[End]] = {}
        taken = {part["stage"] for stage in plan["stages"] for part in stage["parts"]}
        tops = [stage for stage in plan["stages"] if stage["parts"] and stage["id"] not in taken]
        (self._top,) = [stage["id"] for stage in tops if stage["kind"] != "panels"]

    def count_piles(self) -> Counter[Pile]:
        """How many copies of each pile the top takes."""
        counts: Counter[Pile] = Counter()
        waiting = [(self._top, 1)]
        while waiting:
            pile = waiting.pop()
            counts[pile] += 1
            waiting += [inner for inner, _ in self._parts(pile)]
        return counts

    def find(self, pile: Pile) -> Iterator[Junction]:
        """The junctions that are sewn in one copy of a pile, those of its parts not among them."""
        inner, own = self._inner_ends(pile), list(self._own_ends(pile))
        for seam in self._stages[pile[0]]["seams"]:
            start, end = map(_place, self._seams[seam]["line"])
            along = (end - start) / abs(end - start)
            before = inner + [e for e in own if min(abs(e.at - start), abs(e.at - end)) > NEAR]
            here = [e for e in before if _lies_on(e.at, start, end)]
            lefts, rights = ([e for e in here if side * (e.out / along).imag > SKEW] for side in (-1, 1))
            for left in lefts:
                mirrored = _mirror(left.out, along)
                for right in rights:
                    if abs(left.at - right.at) < NEAR and abs(mirrored - right.out) < SKEW:
                        yield Junction(seam, left.at, (left.seam, right.seam), _nests(left, right, along))

    def _parts(self, pile: Pile) -> Iterator[tuple[Pile, dict[str, Any]]]:
        """The sewn parts of a pile: of which pile each is taken, and how it lies."""
        stage, number = self._stages[pile[0]], pile[1]
        piles = stage["piles"]
        takes = piles[number - 1]["takes"] if piles else []
        for place, part in enumerate(stage["parts"]):
            if part["stage"]:
                yield (part["stage"], (takes[place] if takes else 0) or 1), part

    def _inner_ends(self, pile: Pile) -> list[End]:
        """Every end inside the parts of a pile, in the pile's picture."""
        if pile not in self._ends:
            self._ends[pile] = [
                end.laid(exp(1j * radians(part["turn"])), _place(part["at"]))
                for inner, part in self._parts(pile)
                for end in [*self._inner_ends(inner), *self._own_ends(inner)]
            ]
        return self._ends[pile]

    def _own_ends(self, pile: Pile) -> Iterator[End]:
        stage, number = self._stages[pile[0]], pile[1]
        way = stage["piles"][number - 1]["way"] if stage["piles"] else 1
        for name in stage["seams"]:
            seam = self._seams[name]
            pressed = seam if way == 1 else seam["other_ways"][way - 2] or seam
            start, end = map(_place, seam["line"])
            along = (end - start) / abs(end - start)
            halves = pressed.get("halves") or [{"press": pressed["press"]}] * 2
            yield End(name, start, along, _to_side(along, halves[0]["press"]))
            yield End(name, end, -along, _to_side(along, halves[1]["press"]))


def _place(point: list[float]) -> complex:
    return complex(*point)


def _to_side(along: complex, word: str) -> complex | None:
    """The direction square to a seam that a word names, if it is no `open`."""
    if word == "open":
        return None
    square = along * 1j
    return square if (square * WORDS[word].conjugate()).real > 0 else -square


def _mirror(direction: complex, along: complex) -> complex:
    return along * (direction / along).conjugate()


def _nests(left: End, right: End, along: complex) -> bool:
    if left.allowance is None or right.allowance is None:
        return False
    return abs(_mirror(left.allowance, along) + right.allowance) < SKEW


def _lies_on(point: complex, start: complex, end: complex) -> bool:
    there = (point - start) * (end - start).conjugate() / abs(end - start)
    return abs(there.imag) < NEAR and -NEAR < there.real < abs(end - start) + NEAR
