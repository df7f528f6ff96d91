"""What the seams of a stage are called, so that each is found with the sewn thing in hand and its drawing beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.units import QuarterSquareTriangle
from workers.sewing.names import listed
from workers.sewing.works import SeamLine, Work

CLOSE = 1e-6
ASIDE = 1 / 8
"""Share of a side by which a middle must be off to lie left, right, above or below."""

FROM_LEFT, FROM_TOP = "counted from the left", "counted from the top"
TRIANGLES = "of the corner triangles"
MITRES, SIDES = "slanting seams at the corners", "seams along the sides"


@dataclass(frozen=True)
class SeamNames:
    """The names of a stage's seams, in their order.

    Seams that lie side by side are numbered, and `counted` says from where. `kinds` are words for seams that are of
    one kind, such as all those of corner triangles, by their numbers (from 0).
    """

    names: tuple[str, ...]
    counted: str = ""
    kinds: tuple[tuple[str, frozenset[int]], ...] = ()

    def tell_apart(self, groups: Sequence[Sequence[int]]) -> bool:
        """Whether no name stands for seams of two groups."""
        told = [{self.names[i] for i in group} for group in groups]
        return sum(map(len, told)) == len(set().union(*told))

    def say(self, group: Sequence[int]) -> str:
        """Some of the seams, as the object of a sentence."""
        whole = next((words for words, seams in self.kinds if seams == frozenset(group)), "")
        if whole:
            return f"the {len(group)} {whole}"
        if self.counted:
            return f"seam{'s' if len(group) > 1 else ''} {listed(self.names[i] for i in group)}"
        placed = [self.names[i] for i in group if " seam" not in self.names[i]]
        said = [self.names[i] for i in group if " seam" in self.names[i]]
        if placed:
            said = [f"the {listed(dict.fromkeys(placed))} seam{'s' if len(placed) > 1 else ''}", *said]
        return listed(dict.fromkeys(said))


def name_seams(work: Work) -> SeamNames:
    """The names of a work's seams: by number where they lie side by side, else by what they join or where they lie."""
    seams = work.seams
    if work.kind == QuarterSquareTriangle.kind:
        return SeamNames(_name_quarter(work))
    for turn, counted in ((1, FROM_LEFT), (-1j, FROM_TOP)):
        across = [((seam.start + seam.end) / 2 * turn).real for seam in seams]
        if all(abs(((seam.end - seam.start) * turn).real) < CLOSE for seam in seams):
            order = sorted(range(len(seams)), key=across.__getitem__)
            return SeamNames(tuple(str(order.index(i) + 1) for i in range(len(seams))), counted)
    return SeamNames(tuple(_name_places(work)), kinds=tuple(_list_kinds(work)))


def _name_quarter(work: Work) -> tuple[str, str, str]:
    """The seams of the two halves, and the long one that joins them."""
    (a, b), (c, d) = ((seam.right.words, seam.left.words) for seam in work.seams[:2])
    if (a, b) == (c, d):
        return ("the short seams", "the short seams", "the long seam")
    first, second = (f"in the {x}" if x == y else f"between {x} and {y}" for x, y in ((a, b), (c, d)))
    return f"the short seam {first}", f"the short seam {second}", "the long seam"


def _name_places(work: Work) -> list[str]:
    """What each seam joins, where that is a row or a triangle; else where its middle lies, from the middle out."""
    corners = work.corners
    low = complex(min(c.real for c in corners), min(c.imag for c in corners))
    high = complex(max(c.real for c in corners), max(c.imag for c in corners))
    size, centre = high - low, (low + high) / 2
    found, far = [], []
    for seam in work.seams:
        off = (seam.start + seam.end) / 2 - centre
        found.append(_say_rows(seam) or say_place(off, size))
        far.append(round(abs(off), 4))
    for name in {name for name in found if found.count(name) > 1}:
        alike = [i for i, other in enumerate(found) if other == name]
        distances = sorted({far[i] for i in alike})
        if len(distances) == len(alike) == 2:
            for i in alike:
                found[i] = f"{'inner' if far[i] == distances[0] else 'outer'} {name}"
    return found


def _say_rows(seam: SeamLine) -> str:
    first, second = seam.left.words, seam.right.words
    if seam.left.role == seam.right.role == "row" and first.startswith("diagonal row "):
        return f"the seam between {first.replace('row', 'rows', 1)} and {second.rpartition(' ')[2]}"
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
    kinds = [(f"seams {TRIANGLES}", frozenset(i for i in numbers if "the corner triangle" in sides[i]))]
    if work.kind == "mitred border":
        slanting = frozenset(i for i in numbers if sides[i] == {"the border"})
        kinds += [(MITRES, slanting), (SIDES, frozenset(numbers) - slanting)]
    return [(words, seams) for words, seams in kinds if len(seams) > 1]
