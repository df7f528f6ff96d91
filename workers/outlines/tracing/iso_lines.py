"""Lines of equal grey through a picture, between its pixels: marching squares in numpy.

After Lorensen and Cline, "Marching Cubes" (1987), in the plane; where two opposite corners of a square are
ink, the mean of the four decides whether they hang together.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from workers.outlines.tracing.points import Points

Grey = NDArray[np.float32]

TOP, RIGHT, BOTTOM, LEFT = range(4)

TURNS: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((TOP, LEFT),),
    2: ((RIGHT, TOP),),
    3: ((RIGHT, LEFT),),
    4: ((BOTTOM, RIGHT),),
    5: ((TOP, LEFT), (BOTTOM, RIGHT)),
    6: ((BOTTOM, TOP),),
    7: ((BOTTOM, LEFT),),
    8: ((LEFT, BOTTOM),),
    9: ((TOP, BOTTOM),),
    10: ((RIGHT, TOP), (LEFT, BOTTOM)),
    11: ((RIGHT, BOTTOM),),
    12: ((LEFT, RIGHT),),
    13: ((TOP, RIGHT),),
    14: ((LEFT, TOP),),
    16 + 5: ((TOP, RIGHT), (BOTTOM, LEFT)),
    16 + 10: ((LEFT, TOP), (RIGHT, BOTTOM)),
}
"""From which side to which a line runs with the ink on its right; bits 1, 2, 4, 8 are the corners clockwise
from the top left, 16 says that opposite corners hang together."""


class TooManyEdges(ValueError):
    """The picture has more edges than the budget; `count` says how many."""

    def __init__(self, count: int) -> None:
        super().__init__(f"{count} points on edges")
        self.count = count


def find_iso_lines(field: Grey, level: float, *, most_points: int) -> list[Points]:
    """Closed lines round all that is darker than `level`, as x, y in pixels (0, 0 is the middle of the first).

    Dark regions run clockwise, light ones within them anticlockwise. The picture should have a light rim:
    lines that run out of it are left out. Their order is that of the rows they are first met in.
    """
    ink = field < level
    across = np.flatnonzero(ink[:, 1:] != ink[:, :-1])
    down = np.flatnonzero(ink[1:] != ink[:-1])
    if len(across) + len(down) > most_points:
        raise TooManyEdges(len(across) + len(down))
    places = np.concatenate([_between(field, across, level, 0, 1), _between(field, down, level, 1, 0)])
    return [places[chain] for chain in _chains(_links(field, ink, across, down, level))]


def _between(field: Grey, flat: NDArray[np.intp], level: float, dy: int, dx: int) -> Points:
    """Where the level is passed between pixels and their neighbours to the right or below."""
    row, column = np.divmod(flat, field.shape[1] - dx)
    here = field[row, column].astype(np.float64) - level
    there = field[row + dy, column + dx].astype(np.float64) - level
    share = here / (here - there)
    return np.stack([column + dx * share, row + dy * share], axis=1)


def _links(
    field: Grey, ink: NDArray[np.bool_], across: NDArray[np.intp], down: NDArray[np.intp], level: float
) -> NDArray[np.intp]:
    """For each crossing the one that follows it, or -1."""
    rows, columns = field.shape
    squares = _touched_squares(rows, columns, across, down)
    row, column = np.divmod(squares, columns - 1)
    corners = [(row, column), (row, column + 1), (row + 1, column + 1), (row + 1, column)]
    code = sum(ink[corner].astype(np.intp) << bit for bit, corner in enumerate(corners))
    total = sum(field[corner].astype(np.float64) for corner in corners)
    code = code + 16 * (((code == 5) | (code == 10)) & (total < 4 * level))
    follows = np.full(len(across) + len(down), -1, dtype=np.intp)
    for which, turns in TURNS.items():
        chosen = code == which
        if not chosen.any():
            continue
        r, c = row[chosen], column[chosen]
        sides = {
            TOP: (across, r * (columns - 1) + c, 0),
            BOTTOM: (across, (r + 1) * (columns - 1) + c, 0),
            LEFT: (down, r * columns + c, len(across)),
            RIGHT: (down, r * columns + c + 1, len(across)),
        }
        for start, end in turns:
            follows[_number(*sides[start])] = _number(*sides[end])
    return follows


def _number(known: NDArray[np.intp], flat: NDArray[np.intp], first: int) -> NDArray[np.intp]:
    return np.searchsorted(known, flat) + first


def _touched_squares(
    rows: int, columns: int, across: NDArray[np.intp], down: NDArray[np.intp]
) -> NDArray[np.intp]:
    """The squares (row by row) that any crossing lies on the side of."""
    row, column = np.divmod(across, columns - 1)
    found = [row[row > 0] * (columns - 1) + column[row > 0] - (columns - 1), across[row < rows - 1]]
    row, column = np.divmod(down, columns)
    for shift in (0, 1):
        inside = (column - shift >= 0) & (column - shift < columns - 1)
        found.append(row[inside] * (columns - 1) + column[inside] - shift)
    return np.unique(np.concatenate(found))


def _chains(follows: NDArray[np.intp]) -> list[list[int]]:
    after = follows.tolist()
    seen = bytearray(len(after))
    chains: list[list[int]] = []
    for first in range(len(after)):
        if seen[first]:
            continue
        chain, here = [], first
        while here >= 0 and not seen[here]:
            seen[here] = 1
            chain.append(here)
            here = after[here]
        if here == first:
            chains.append(chain)
    return chains
