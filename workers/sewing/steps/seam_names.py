"""What the seams of a stage are called, so that each is found with the sewn thing in hand and its drawing beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.language import join_words, mark, phrase
from service.craft.units import QuarterSquareTriangle
from workers.sewing.works import SeamLine, Work

CLOSE = 1e-6
ASIDE = 1 / 8
"""Share of a side by which a middle must be off to lie left, right, above or below."""

FROM_LEFT, FROM_TOP = mark("counted from the left"), mark("counted from the top")
TRIANGLES = mark("the {count} seams of the corner triangles")
MITRES, SIDES = mark("the {count} slanting seams at the corners"), mark("the {count} seams along the sides")

PLACES = (
    mark("upper left"),
    mark("upper"),
    mark("upper right"),
    mark("left"),
    mark("middle"),
    mark("right"),
    mark("lower left"),
    mark("lower"),
    mark("lower right"),
)
"""What `say_place` answers: as one says "the upper left seam"."""


@dataclass(frozen=True)
class SeamNames:
    """The names of a stage's seams, in their order.

    Seams that lie side by side are numbered, and `counted` says from where. `placed` are those (from 0) whose name is
    but a place, as "upper left"; other names are whole. `kinds` are words for seams that are of one kind, such as all
    those of corner triangles, by their numbers; their count goes into the words.
    """

    names: tuple[str, ...]
    counted: str = ""
    kinds: tuple[tuple[str, frozenset[int]], ...] = ()
    placed: frozenset[int] = frozenset()

    def tell_apart(self, groups: Sequence[Sequence[int]]) -> bool:
        """Whether no name stands for seams of two groups."""
        told = [{self.names[i] for i in group} for group in groups]
        return sum(map(len, told)) == len(set().union(*told))

    def say(self, group: Sequence[int]) -> str:
        """Some of the seams, as the object of a sentence."""
        whole = next((words for words, seams in self.kinds if seams == frozenset(group)), "")
        if whole:
            return phrase(whole, count=len(group))
        if self.counted:
            return _say_numbered([self.names[i] for i in group])
        placed = [self.names[i] for i in group if i in self.placed]
        said = [self.names[i] for i in group if i not in self.placed]
        if placed:
            said = [_say_placed(placed), *said]
        return join_words(dict.fromkeys(said))


def _say_numbered(numbers: Sequence[str]) -> str:
    if len(numbers) == 1:
        return phrase("seam {number}", number=numbers[0])
    return phrase("seams {numbers}", numbers=join_words(numbers))


def _say_placed(places: Sequence[str]) -> str:
    if len(places) == 1:
        return phrase("the {place} seam", place=places[0])
    return phrase("the {places} seams", places=join_words(dict.fromkeys(places)))


def name_seams(work: Work) -> SeamNames:
    """The names of a work's seams: by number where they lie side by side, else by what they join or where they lie."""
    seams = work.seams
    if work.kind == QuarterSquareTriangle.kind:
        return SeamNames(_name_quarter(work))
    for turn, counted in ((1, FROM_LEFT), (-1j, FROM_TOP)):
        across = [((seam.start + seam.end) / 2 * turn).real for seam in seams]
        if all(abs(((seam.end - seam.start) * turn).real) < CLOSE for seam in seams):
            order = sorted(range(len(seams)), key=across.__getitem__)
            return SeamNames(tuple(str(order.index(i) + 1) for i in range(len(seams))), phrase(counted))
    rows = [_say_rows(seam) for seam in seams]
    names = tuple(row or place for row, place in zip(rows, _name_places(work), strict=True))
    placed = frozenset(i for i, row in enumerate(rows) if not row)
    return SeamNames(names, kinds=tuple(_list_kinds(work)), placed=placed)


def _name_quarter(work: Work) -> tuple[str, str, str]:
    """The seams of the two halves, and the long one that joins them."""
    (a, b), (c, d) = ((seam.right.words, seam.left.words) for seam in work.seams[:2])
    if (a, b) == (c, d):
        return (phrase("the short seams"), phrase("the short seams"), phrase("the long seam"))
    return _name_short(a, b), _name_short(c, d), phrase("the long seam")


def _name_short(first: str, second: str) -> str:
    """A short seam, by the cloths that it joins."""
    if first == second:
        return phrase("the short seam in the {cloth}", cloth=first)
    return phrase("the short seam between {first} and {second}", first=first, second=second)


def _name_places(work: Work) -> list[str]:
    """Where the middle of each seam lies, from the middle out."""
    corners = work.corners
    low = complex(min(c.real for c in corners), min(c.imag for c in corners))
    high = complex(max(c.real for c in corners), max(c.imag for c in corners))
    size, centre = high - low, (low + high) / 2
    found, far = [], []
    for seam in work.seams:
        off = (seam.start + seam.end) / 2 - centre
        found.append(phrase(say_place(off, size)))
        far.append(round(abs(off), 4))
    for name in {name for name in found if found.count(name) > 1}:
        alike = [i for i, other in enumerate(found) if other == name]
        distances = sorted({far[i] for i in alike})
        if len(distances) == len(alike) == 2:
            for i in alike:
                inner = far[i] == distances[0]
                found[i] = (
                    phrase("inner {place}", place=name) if inner else phrase("outer {place}", place=name)
                )
    return found


def _say_rows(seam: SeamLine) -> str:
    """The diagonal rows that a seam joins; empty for another seam."""
    first, second = (side.words.rpartition(" ")[2] for side in (seam.left, seam.right))
    diagonal = seam.left.words == phrase("diagonal row {number}", number=first)
    if seam.left.role == seam.right.role == "row" and diagonal:
        return phrase("the seam between diagonal rows {first} and {second}", first=first, second=second)
    return ""


def say_place(off: complex, size: complex) -> str:
    """Where something lies in a picture of a size: upper left, right, middle…; `off` is its way from the middle.

    >>> say_place(-1 - 1j, 4 + 4j), say_place(1 + 0j, 4 + 4j), say_place(0j, 4 + 4j)
    ('upper left', 'right', 'middle')
    """
    across, down = off.real / max(size.real, CLOSE), off.imag / max(size.imag, CLOSE)
    upper = "upper" if down < -ASIDE + CLOSE else "lower" if down > ASIDE - CLOSE else ""
    side = "left" if across < -ASIDE + CLOSE else "right" if across > ASIDE - CLOSE else ""
    return f"{upper} {side}".strip() or "middle"


def _list_kinds(work: Work) -> list[tuple[str, frozenset[int]]]:
    """Words for all seams of one kind."""
    numbers = range(len(work.seams))
    sides = [{seam.left.words, seam.right.words} for seam in work.seams]
    triangle, border = phrase("the corner triangle"), phrase("the border")
    kinds = [(TRIANGLES, frozenset(i for i in numbers if triangle in sides[i]))]
    if work.kind == "mitred border":
        slanting = frozenset(i for i in numbers if sides[i] == {border})
        kinds += [(MITRES, slanting), (SIDES, frozenset(numbers) - slanting)]
    return [(words, seams) for words, seams in kinds if len(seams) > 1]
