"""Where checks failed, for the pictures: a failing file is not released, and its picture says why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from workers.stitches.curves import Floats
from workers.stitches.findings import Check

MOST_DRAWN = 12


@dataclass(frozen=True)
class Place:
    """A place in the field, millimetres from its middle."""

    at: Floats


def failed_places(checks: Iterable[Check]) -> tuple[Place, ...]:
    """The places that failing checks name, each once."""
    found = {
        (float(str(where["x_mm"])), float(str(where["y_mm"]))): None
        for check in checks
        if not check.ok
        for where in check.where
        if "x_mm" in where
    }
    return tuple(Place(np.array(at)) for at in list(found)[:MOST_DRAWN])
