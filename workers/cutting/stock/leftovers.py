"""What is left of a piece of cloth when its strips are cut: the rectangles worth keeping."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.fabric import StashPiece
from service.craft.language import mark
from workers.cutting.cuts import Cut
from workers.cutting.plan import PlannedStrip
from workers.cutting.plane import Block
from workers.cutting.stock.stock_plan import CutPiece

END, STRIP_END = mark("end of the piece"), mark("end of a strip")
BESIDE, UNCUT = mark("above lower pieces"), mark("not cut into")
"""Where a leftover comes from: keys of the plan, said in words where they are printed."""

Cuts = Mapping[int, Cut] | Sequence[Cut]
"""Cuts by their number in the cutting list."""


@dataclass(frozen=True)
class Left:
    """A leftover: inches across the cloth and along it, and where it comes from."""

    width: Fraction
    length: Fraction
    part: str


def list_left(
    strips: Sequence[PlannedStrip], cuts: Cuts, sides: tuple[Fraction, Fraction], keep: Fraction
) -> Iterator[tuple[Block, str]]:
    """The rectangles left of a piece, both sides at least `keep`: strips lie across it, the first at its top.

    A lower piece leaves the cloth above it, and a strip what lies beyond its last piece.
    """
    width, height = sides
    top = Fraction(0)
    found: list[tuple[Block, str]] = []
    for strip in strips:
        edge = Fraction(0)
        for run in strip.runs:
            across, along = lay_run(cuts[run.cut], turned=run.turned)
            found.append((Block(edge, top + along, run.count * across, strip.height - along), BESIDE))
            edge += run.count * across
        found.append((Block(edge, top, width - edge, strip.height), STRIP_END))
        top += strip.height
    found.append((Block(Fraction(0), top, width, height - top), END))
    return ((block, part) for block, part in found if min(block.across, block.along) >= keep)


def lay_run(cut: Cut, *, turned: bool) -> tuple[Fraction, Fraction]:
    """How far a piece of a cut reaches along its strip, and across it."""
    return (cut.height, cut.width) if turned else (cut.width, cut.height)


def count_left(piece: CutPiece, cuts: Cuts, keep: Fraction) -> Counter[Left]:
    """What is left of a piece, alike ones together; as they lie on the cloth, whichever way its strips run."""
    left = Counter[Left]()
    for block, part in list_left(piece.strips, cuts, piece.sides, keep):
        width, length = (block.along, block.across) if piece.turned else (block.across, block.along)
        left[Left(width, length, part)] += 1
    return left


def count_left_of_stash(
    stash: Sequence[StashPiece], pieces: Sequence[CutPiece], cuts: Cuts, keep: Fraction
) -> Iterator[tuple[int, Left, int]]:
    """What is left of every entry of a stash: its number, the leftover, how many; those not cut into come first."""
    for number, entry in enumerate(stash):
        own = [piece for piece in pieces if piece.number == number]
        whole = entry.count - len(own)
        if whole and min(entry.width, entry.length) >= keep:
            yield number, Left(entry.width, entry.length, UNCUT), whole
        left = sum((count_left(piece, cuts, keep) for piece in own), Counter[Left]())
        for leftover, count in sorted(left.items(), key=lambda one: rank(one[0])):
            yield number, leftover, count


def rank(left: Left) -> tuple[Fraction, Fraction, str]:
    """The largest first."""
    return -left.width * left.length, -left.width, left.part
