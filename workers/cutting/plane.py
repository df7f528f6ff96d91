"""Rectangles on a piece of cloth: whether they lie inside it and apart. For looking plans over, not for making them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Block:
    """A rectangle on a piece of cloth as it is cut: inches from the left, from its first cut, across and along."""

    left: Fraction
    top: Fraction
    across: Fraction
    along: Fraction


def find_trouble(blocks: Sequence[Block], width: Fraction, height: Fraction) -> Iterator[str]:
    """What lies over the edge of a piece of cloth, or on another block, in sentences."""
    for block in blocks:
        right, bottom = block.left + block.across, block.top + block.along
        if block.left < 0 or block.top < 0 or right > width or bottom > height:
            yield f"something reaches over the edge, at {block.left} by {block.top} in"
    for one, other in _neighbours(sorted(blocks, key=lambda b: (b.top, b.left))):
        if one.left < other.left + other.across and other.left < one.left + one.across:
            yield f"two pieces lie on each other, at {other.left} by {other.top} in"


def _neighbours(blocks: Sequence[Block]) -> Iterator[tuple[Block, Block]]:
    """Every two that share some height; from the top down, so about as many as lie side by side."""
    open_ones: list[Block] = []
    for block in blocks:
        open_ones = [other for other in open_ones if other.top + other.along > block.top]
        yield from ((other, block) for other in open_ones)
        open_ones.append(block)
