"""A map of numbers, one a pixel: numbers grown over what has none."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Labels = NDArray[np.uint8]

NONE = 255
"""A pixel that has no number yet."""


def grow_labels(labels: Labels, rounds: int) -> Labels:
    """Every pixel without a number takes that of a neighbour, pixel by pixel outwards, at most `rounds` pixels far.

    Where two meet each has grown as far: the border of two numbers lies in the middle of what had none.
    """
    rows, columns = labels.shape
    padded = np.full((rows + 2, columns + 2), NONE, dtype=np.uint8)
    padded[1:-1, 1:-1] = labels
    flat = padded.ravel()
    open_ = np.flatnonzero(labels.ravel() == NONE)
    open_ = (open_ // columns + 1) * (columns + 2) + open_ % columns + 1
    steps = (-1, 1, -(columns + 2), columns + 2)
    for turn in range(rounds):
        taken = np.full(len(open_), NONE, dtype=np.uint8)
        # from another side first in every round, so that no border creeps one way
        for step in steps[turn % 4 :] + steps[: turn % 4]:
            taken = np.where(taken == NONE, flat[open_ + step], taken)
        found = taken != NONE
        if not found.any():
            break
        flat[open_[found]] = taken[found]
        open_ = open_[~found]
    return np.ascontiguousarray(padded[1:-1, 1:-1])
