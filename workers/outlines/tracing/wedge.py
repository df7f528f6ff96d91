"""How far a blurred corner draws back from its tip: what tells a true corner from a rounded one."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

DEGREES_OF_TABLE = 2

SPOTS, WEIGHTS = np.polynomial.legendre.leggauss(40)


def recess(wedge_degrees: float) -> float:
    """How far inside the tip of a wedge its blurred edge passes, in sigmas of a Gaussian blur.

    On the middle line of a wedge with half angle a, at distance t from the tip, the blurred grey is
    P = Phi(h) - 2 T(h, cot a) with h = t sin a, Owen's T: both half planes of the wedge at once (Owen 1956,
    "Tables for computing bivariate normal probabilities"). The edge passes where P = 1/2.

    >>> [round(recess(angle), 2) for angle in (30, 90, 150)]
    [2.6, 0.77, 0.21]
    """
    whole = max(6, min(178, round(wedge_degrees / DEGREES_OF_TABLE) * DEGREES_OF_TABLE))
    return _recess(whole)


@cache
def _recess(wedge_degrees: int) -> float:
    half = math.radians(wedge_degrees / 2)
    slope = 1 / math.tan(half)
    low, high = 0.0, 8.0 / math.sin(half)
    for _ in range(50):
        middle = (low + high) / 2
        h = middle * math.sin(half)
        both = 0.5 * (1 + math.erf(h / math.sqrt(2))) - 2 * _owen(h, slope)
        low, high = (middle, high) if both < 0.5 else (low, middle)
    return (low + high) / 2


def _owen(h: float, slope: float) -> float:
    """Owen's T by Gauss-Legendre over the angle: T(h, a) = 1/2pi * integral of exp(-h²/2 · sec² v), 0 to atan a."""
    top = math.atan(slope)
    angles = top * (SPOTS + 1) / 2
    values = np.exp(-h * h / 2 / np.cos(angles) ** 2)
    return float((WEIGHTS * values).sum() * top / 2 / (2 * math.pi))
