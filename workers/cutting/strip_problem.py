"""The problem of one cloth: which strips across the roll, and what is cut from each.

A rotary cutter cuts strips the whole width of the cloth, then cross-cuts each strip; a piece lower than
its strip is trimmed. All lengths here are whole steps of one fine measure, so that nothing is rounded.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Size:
    """`count` pieces, `width` across the roll and `height` along it, in steps.

    `may_turn` lets them lie the other way.
    """

    width: int
    height: int
    count: int
    may_turn: bool = False

    def ways(self, usable_width: int) -> list[tuple[int, int, bool]]:
        """The ways it fits on the cloth: across, along, and whether that is turned."""
        ways = [(self.width, self.height, False)]
        if self.may_turn and self.width != self.height:
            ways.append((self.height, self.width, True))
        return [way for way in ways if way[0] <= usable_width]


@dataclass(frozen=True)
class Problem:
    """One cloth: its usable width in steps, and the sizes wanted. Every size fits in some way."""

    width: int
    sizes: tuple[Size, ...]


@dataclass(frozen=True)
class Run:
    """`count` pieces of one size, side by side in a strip."""

    size: int
    count: int
    turned: bool


@dataclass(frozen=True)
class Strip:
    """One strip across the roll: its height in steps, and what is cut from it, left to right."""

    height: int
    runs: tuple[Run, ...]


Strips = tuple[Strip, ...]


def total_length(strips: Strips) -> int:
    """How much cloth strips take along the roll, in steps."""
    return sum(strip.height for strip in strips)
