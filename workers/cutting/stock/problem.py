"""The problem of one cloth that is there in pieces: what is cut from which, so that least is bought.

All lengths are whole steps of one fine measure, as in `strip_problem`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from workers.cutting.strip_problem import Problem, Size, Strip, total_length
from workers.cutting.strip_rules import per_size_rule


@dataclass(frozen=True)
class Stock:
    """Equal pieces of cloth: `width` across the grain and `height` along it, in steps.

    `count` pieces are there, or as many as wanted where it is None; each costs `cost`. `may_turn`: strips may
    run along the piece as well as across it.
    """

    width: int
    height: int
    count: int | None
    cost: int = 0
    may_turn: bool = False


@dataclass(frozen=True)
class Sheet:
    """One way to lay a stock piece (by its number): strips run across `width`, and stand along `height`."""

    stock: int
    width: int
    height: int
    turned: bool


@dataclass(frozen=True)
class StockProblem:
    """The sizes wanted, the pieces there are, and the usable width of the roll; no roll where that is None.

    A roll costs a step for each step of its length, a stock piece what it says. Every size fits on the roll,
    or on a piece of which there are as many as wanted.
    """

    sizes: tuple[Size, ...]
    stock: tuple[Stock, ...]
    roll: int | None

    @property
    def sheets(self) -> list[Sheet]:
        """Every way to lay a stock piece that anything at all can be cut from."""
        lying = [self.lay(n, turned=turned) for n in range(len(self.stock)) for turned in (False, True)]
        return [s for s in lying if s and ways_on(s, self.sizes)]

    def lay(self, number: int, *, turned: bool) -> Sheet | None:
        """A stock piece as it lies, no longer than everything wanted could take; None where it must not lie so."""
        piece = self.stock[number]
        if turned and (not piece.may_turn or piece.width == piece.height):
            return None
        width, height = (piece.height, piece.width) if turned else (piece.width, piece.height)
        lying = Sheet(number, width, height, turned)
        fitting = dict.fromkeys(way.size for way in ways_on(lying, self.sizes))
        sizes = tuple(_along_the_grain(self.sizes[n], turned=turned) for n in fitting)
        own_strips = per_size_rule(Problem(width, sizes))
        return replace(lying, height=min(height, total_length(own_strips)))


@dataclass(frozen=True, order=True)
class Way:
    """One way a size lies in a strip: its steps along the roll, across it, which size, and whether it is turned."""

    along: int
    across: int
    size: int
    turned: bool


@dataclass(frozen=True)
class CutSheet:
    """One stock piece with its strips: which stock, which copy of it, how it lies."""

    stock: int
    copy: int
    turned: bool
    strips: tuple[Strip, ...]


def list_ways(sizes: Sequence[Size], width: int) -> list[Way]:
    """Every way a size fits across a width, the lowest first."""
    return sorted(
        Way(along, across, number, turned)
        for number, size in enumerate(sizes)
        for across, along, turned in size.ways(width)
        if size.count
    )


def ways_on(sheet: Sheet, sizes: Sequence[Size]) -> list[Way]:
    """Every way a size fits on a piece as it lies, the lowest first.

    What must lie as it is given lies so on the cloth: where strips run along the cloth, it is turned in its strip.
    """
    laid = [_along_the_grain(size, turned=sheet.turned) for size in sizes]
    ways = [way for way in list_ways(laid, sheet.width) if way.along <= sheet.height]
    return [replace(way, turned=way.turned != (laid[way.size] != sizes[way.size])) for way in ways]


def _along_the_grain(size: Size, *, turned: bool) -> Size:
    fixed = turned and not size.may_turn and size.width != size.height
    return replace(size, width=size.height, height=size.width) if fixed else size
