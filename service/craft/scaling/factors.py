"""By how much a project is scaled: a factor given, or one that makes its top as wide or as high as wanted."""

from __future__ import annotations

from fractions import Fraction

from service.craft.document import Project
from service.craft.faults import DocumentFaults, Fault
from service.craft.measure import exact, rational, round_nearest

LEAST_FACTOR, MOST_FACTOR = Fraction(1, 100), Fraction(100)
LARGEST_PART = 1_000_000
"""Numerator and denominator of a factor; beyond it the scaled lengths could not be written any more."""

DIAGONAL_STEP = Fraction(1, 1000)
"""Factors for a top that is as wide as a diagonal: no fraction is exact there, and a thousandth is a hair."""


def check_factor(factor: Fraction, pointer: str = "/factor") -> None:
    """Raises `DocumentFaults` with `pointer` for a factor beyond all sense."""
    if not LEAST_FACTOR <= factor <= MOST_FACTOR:
        detail = f"the project would come out {float(factor):.4g} times as large"
        raise DocumentFaults([Fault(pointer, detail, "from 1/100 to 100 times as large")])
    if max(factor.numerator, factor.denominator) > LARGEST_PART:
        detail = f"the factor {factor.numerator}/{factor.denominator} is too fine to be written in lengths"
        raise DocumentFaults([Fault(pointer, detail, "a rounder size, or a factor such as 3/4 or 1.25")])


def find_factor(
    project: Project, *, width: Fraction | None = None, height: Fraction | None = None
) -> tuple[Fraction, bool]:
    """The factor that makes the finished top as wide, or else as high, as wanted (inches), and whether it is exact.

    A top whose size is a diagonal gets the nearest thousandth. Raises `DocumentFaults` like `check_factor`.
    """
    wanted, side, name = (
        (width, project.top.width, "width") if width is not None else (height, project.top.height, "height")
    )
    if wanted is None:
        raise ValueError("neither a width nor a height is wanted")
    plain = rational(side)
    factor = wanted / plain if plain is not None else round_nearest(exact(wanted) / side, DIAGONAL_STEP)
    check_factor(factor, f"/{name}")
    return factor, plain is not None
