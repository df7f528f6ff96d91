"""Straight seams: a block taken apart along lines that no patch crosses, down to single patches.

Read backwards it is the order of sewing. Where no such line is left, the patches meet so that a seam must be
set in (stopped at a point and turned), and that is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from service.craft.planar.figures import Figure, Line, line_through

Sides = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Seam:
    """Two parts joined along a line. `first` lies on the negative side of it."""

    line: Line
    first: Assembly
    second: Assembly


@dataclass(frozen=True)
class SetIn:
    """Parts that no straight seam takes apart: each is sewn up to a point, turned there, and sewn on."""

    figures: tuple[int, ...]


Assembly = int | Seam | SetIn
"""A single figure by its number, a seam between two parts, or parts to be set in."""


def split(figures: Sequence[Figure]) -> Assembly:
    """How the figures are sewn together. Of the lines that serve, the one that halves the patches best.

    Figures must cover their block (`cover.find_leftovers`). Time about lines x corners x depth.
    """
    corners = [np.array(f.corners, dtype=np.int64) for f in figures]
    lines = [frozenset(line_through(p, q) for p, q in f.edges()) for f in figures]
    return _split(corners, lines, list(range(len(figures))))


def _split(corners: list[Sides], lines: list[frozenset[Line]], numbers: list[int]) -> Assembly:
    if len(numbers) == 1:
        return numbers[0]
    points = np.concatenate([corners[i] for i in numbers])
    starts = np.cumsum([0] + [len(corners[i]) for i in numbers[:-1]])
    best: tuple[tuple[int, bool], Line, Sides] | None = None
    for line in sorted(set().union(*(lines[i] for i in numbers)), key=lambda n: (n.a, n.b, n.c)):
        sides = line.a * points[:, 0] + line.b * points[:, 1] - line.c
        low, high = np.minimum.reduceat(sides, starts), np.maximum.reduceat(sides, starts)
        before, after = int((high <= 0).sum()), int((low >= 0).sum())
        if before + after != len(numbers) or not (before and after):
            continue
        # halves first; of two equally good lines the one along the grain
        rank = (abs(before - after), bool(line.a and line.b))
        if best is None or rank < best[0]:
            best = rank, line, low
    if best is None:
        return SetIn(tuple(numbers))
    _, line, low = best
    return Seam(
        line,
        _split(corners, lines, [i for i, least in zip(numbers, low, strict=True) if least < 0]),
        _split(corners, lines, [i for i, least in zip(numbers, low, strict=True) if least >= 0]),
    )


def walk_seams(assembly: Assembly) -> Iterator[Seam | SetIn]:
    """Every seam, the last one sewn first."""
    if isinstance(assembly, Seam):
        yield assembly
        yield from walk_seams(assembly.first)
        yield from walk_seams(assembly.second)
    elif isinstance(assembly, SetIn):
        yield assembly


def set_in_groups(assembly: Assembly) -> list[tuple[int, ...]]:
    """The groups of figures that meet so that a seam must be set in."""
    return [part.figures for part in walk_seams(assembly) if isinstance(part, SetIn)]
