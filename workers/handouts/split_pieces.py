"""Pieces whose edge is sewn in several hoopings: which lack a part, and where they are split on the top."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from service.craft.outlines import find_outline
from service.craft.outlines.affine import Point
from service.craft.outlines.split_parts import find_split_ends
from workers.handouts.inputs import Inputs

Parts = Mapping[str, tuple[int, int]]
"""By the name of a piece which part of it a hooping sews, of how many."""


def find_unfinished(hoopings: Iterable[Parts]) -> list[str]:
    """The pieces of which one part is sewn in none of the hoopings.

    >>> find_unfinished([{"leek": (1, 2)}, {"bed": (1, 2)}, {"leek": (2, 2)}])
    ['bed']
    """
    there: dict[str, set[int]] = {}
    wanted: dict[str, int] = {}
    for parts in hoopings:
        for name, (number, of) in parts.items():
            there.setdefault(name, set()).add(number)
            wanted[name] = of
    return [name for name, of in wanted.items() if there[name] != set(range(1, of + 1))]


def find_splits(inputs: Inputs, hoopings: Iterable[Parts]) -> list[tuple[Point, Point]]:
    """The lines along which pieces are split in hoopings, from edge to edge of the piece, mm on the top."""
    names = {name for parts in hoopings for name in parts}
    pieces = [piece for piece in inputs.project.pieces if piece.name in names]
    return [
        ends
        for piece in pieces
        for ends in find_split_ends(piece, find_outline(inputs.job.outlines, piece.outline))
    ]
