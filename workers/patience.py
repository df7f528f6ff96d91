"""How long who asked will wait. Pure rooms have no clock: whoever cannot wait for ever hands in what is left by his."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

Left = Callable[[], float]
"""The seconds that are left by the clock of who asked."""


def endless() -> float:
    """What is left where nobody looks at a clock."""
    return inf


def nothing_left() -> float:
    """What is left where somebody waits for the answer: only what is quick is done."""
    return 0.0


def share(left: Left, part: float) -> Left:
    """A part of what is left now (0 to 1), which runs down from now on.

    >>> clock = iter([80.0, 70.0, 50.0])
    >>> mine = share(lambda: next(clock), 0.25)
    >>> mine(), mine()
    (10.0, -10.0)
    """
    begun = left()
    if begun == inf:
        return left
    kept = begun * (1 - part)
    return lambda: left() - kept
