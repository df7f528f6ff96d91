"""The halves of quarter-square triangles: which pile each is for, and how its seam is pressed.

Units on different piles may be pressed alike up to their long seam. Halves are pressed for the piles they end up on, so
that nothing has to be pressed twice. Out of one pair of squares come two units: where two piles take an odd number
each, one unit moves to the other pile and its short seams are pressed over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.language import join_words, phrase, phrase_count
from workers.sewing.plan import Stage
from workers.sewing.pressed import PressedSeam
from workers.sewing.steps.copy_words import name_piles
from workers.sewing.steps.pressing_words import say_seam

LONG = 2
"""The number of the seam that joins the halves."""


@dataclass(frozen=True)
class Half:
    """A kind of half: the cloths left and right of its seam, its long side towards you, and the number of its seam."""

    left: str
    right: str
    seam: int

    @property
    def words(self) -> str:
        """What it is called."""
        return (
            phrase("{left} alone", left=self.left)
            if self.left == self.right
            else phrase("{left} and {right}", left=self.left, right=self.right)
        )


@dataclass(frozen=True)
class Heap:
    """Halves that are pressed alike: for which piles (by number), for how many units, and the seams of one unit."""

    piles: tuple[int, ...]
    units: int
    seams: tuple[PressedSeam, ...]


def list_kinds(stage: Stage) -> list[Half]:
    """The kinds of halves of a unit: one, where both halves are alike."""
    halves = [Half(seam.right.words, seam.left.words, n) for n, seam in enumerate(stage.work.seams[:LONG])]
    return halves[:1] if len({half.words for half in halves}) == 1 else halves


def sort_halves(stage: Stage) -> list[Heap]:
    """The halves by how they are pressed, those of the most units first."""
    heaps: dict[tuple[str, ...], Heap] = {}
    for number, pile in enumerate(stage.piles, start=1):
        key = tuple(seam.press for seam in pile.seams[:LONG])
        seen = heaps.get(key, Heap((), 0, pile.seams))
        heaps[key] = Heap((*seen.piles, number), seen.units + pile.count, pile.seams)
    return list(heaps.values())


def press_halves(stage: Stage, *, pairs: bool) -> str:
    """How the seams of the halves are pressed, heap by heap; `pairs` says that two units come of a pair of squares."""
    kinds, heaps = list_kinds(stage), sort_halves(stage)
    if len(heaps) == 1:
        ways = [_say_half(kind, heaps[0].seams[kind.seam]) for kind in kinds]
        if len(kinds) == 1 and pairs:
            return phrase("Press the seam of every half-square triangle {way}.", way=ways[0])
        if len(kinds) == 1:
            return phrase("Press the seam of every half {way}.", way=ways[0])
        said = "; ".join(
            phrase("in those of {cloths} {way}", cloths=kind.words, way=way)
            for kind, way in zip(kinds[1:], ways[1:], strict=True)
        )
        return phrase(
            "In the halves of {cloths} press the seam {way}; {others}.",
            cloths=kinds[0].words,
            way=ways[0],
            others=said,
        )
    counts = count_halves(heaps, pairs=pairs)
    return " ".join(
        _press_heap(heap, _count_each(count if len(kinds) == 1 else heap.units, pairs=pairs), kinds)
        for heap, count in zip(heaps, counts, strict=True)
        if count
    )


def _press_heap(heap: Heap, each: str, kinds: Sequence[Half]) -> str:
    """The halves for one heap; `each` counts them in words, by their kinds."""
    ways = []
    for kind in kinds:
        halves = phrase("{halves} of {cloths}", halves=each, cloths=kind.words) if len(kinds) > 1 else each
        way = _say_half(kind, heap.seams[kind.seam])
        ways.append(phrase("the seam of {halves} {way}", halves=halves, way=way))
    return phrase("For {piles} press {seams}.", piles=name_piles(heap.piles), seams=join_words(ways))


def _count_each(count: int, *, pairs: bool) -> str:
    """What is pressed alike, counted; halves that come of a pair of squares are half-square triangles."""
    if pairs:
        return phrase_count("{number} half-square triangle", "{number} half-square triangles", count)
    return phrase_count("{number} half", "{number} halves", count)


def count_halves(heaps: Sequence[Heap], *, pairs: bool) -> list[int]:
    """How many halves each heap takes: two a unit; where two units come of two halves, in even numbers."""
    if not pairs:
        return [2 * heap.units for heap in heaps]
    found, up = [], True
    for heap in heaps:
        odd = heap.units % 2
        found.append(heap.units + (odd if up else -odd))
        up ^= bool(odd)
    return found


def list_moved(heaps: Sequence[Heap]) -> list[tuple[Heap, Heap]]:
    """Heaps of which one unit out of the last pair goes to another heap: from where, and where to."""
    odd = [heap for heap in heaps if heap.units % 2]
    return list(zip(odd[::2], odd[1::2], strict=False))


def _say_half(kind: Half, seam: PressedSeam) -> str:
    """Which way the seam of a half goes: towards a cloth, or by where its long side lies."""
    if kind.left != kind.right or seam.press == "open":
        return say_seam(seam)
    if abs(_out(seam) - seam.line.to_right) < 1:
        return phrase("to the left, the long side of the half towards you")
    return phrase("to the right, the long side of the half towards you")


def _out(seam: PressedSeam) -> complex:
    """The unit vector square to the seam, to the side it is pressed to."""
    words = {"left": -1 + 0j, "right": 1 + 0j, "up": -1j, "down": 1j}
    facing = (seam.line.to_right * words[seam.press].conjugate()).real
    return seam.line.to_right if facing > 0 else -seam.line.to_right
