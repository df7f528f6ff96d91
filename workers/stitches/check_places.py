"""Where checks failed, for the pictures: a failing file is not released, and its picture says why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from workers.stitches.curves import Floats
from workers.stitches.findings import Check

MOST_DRAWN = 12
NEAR_MM = 8.0
"""One mark stands for what fails so near to it: marks must not hide each other, or the place."""


@dataclass(frozen=True)
class Place:
    """A place in the field, millimetres from its middle."""

    at: Floats


def failed_places(checks: Iterable[Check]) -> tuple[Place, ...]:
    """The places that failing checks name, one for those near each other."""
    found = {
        (float(str(where["x_mm"])), float(str(where["y_mm"]))): None
        for check in checks
        if not check.ok
        for where in check.where
        if "x_mm" in where
    }
    apart: list[Place] = []
    for at in map(np.array, found):
        if all(float(np.hypot(*(at - other.at))) > NEAR_MM for other in apart):
            apart.append(Place(at))
    return tuple(apart[:MOST_DRAWN])
