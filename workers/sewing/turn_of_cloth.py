"""Turn of cloth: what a pressed fold uses up, and what makes up for it.

A seam pressed to one side folds one cloth right round, over its own allowance. The middle of a cloth of thickness t
runs a half circle round the fold: of radius t/2, so of length π·t/2, where a flat reckoning counts nothing. The fold
begins beside the stitches and not in their middle, half the thread's thickness d further out. So one seam loses

    L = π·t/2 + d/2

across. Cotton of 0.25 mm and thread of 0.15 mm give 0.47 mm, about a thread of a cloth with 60 to the inch (0.42 mm);
"a thread or two" is what the trade takes off (quiltcentric.com 2012/09/16, quilted-connections.com). The formula is
our own derivation; that a fold is that tight is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH, round_down, round_up

EXACT_PI = Fraction(pi)

FINE_MARKS = {"in": Fraction(1, 64), "mm": Fraction(1, 2) / MM_PER_INCH, "cm": Fraction(1, 2) / MM_PER_INCH}
"""Inches: as finely as a setting beside the needle is said, in each measure."""

NEEDLE_WIDTH = Fraction(4, 5) / MM_PER_INCH
"""Inches: a needle of number 80 is 0.8 mm thick (apparelscience.com, needle number system)."""


@dataclass(frozen=True)
class TurnOfCloth:
    """What folds of a cloth use up, in inches: `loss` across one seam pressed to one side."""

    loss: Fraction

    @property
    def narrower(self) -> Fraction:
        """By how much each allowance is sewn narrower, so that the seam takes as much as planned.

        A seam takes two allowances and the loss: 2(s - x) + L = 2s, so x = L/2.
        """
        return self.loss / 2

    @property
    def beside_diagonal(self) -> Fraction:
        """How far towards the corner a flipped corner square is sewn beside its diagonal.

        The square's tip lies D inside the diagonal. Folded about a line x outside it, the tip comes to lie D + 2x - L
        outside, where it should lie D: x = L/2.
        """
        return self.loss / 2


def measure_turn(thickness: Fraction, thread: Fraction) -> TurnOfCloth:
    """The turn of a cloth of that thickness, sewn with a thread of that thickness (inches)."""
    return TurnOfCloth(EXACT_PI * thickness / 2 + thread / 2)


def turn_of(project: Project, fabric: str = "") -> TurnOfCloth:
    """The turn of one cloth of a project, or of its thickest patchwork cloth: the safe one."""
    thread = project.accuracy.thread
    if fabric:
        return measure_turn(project.fabrics[fabric].thickness, thread)
    used = set(project.cloths_of_top)
    return measure_turn(max(project.fabrics[key].thickness for key in used), thread)


def scant_allowance(project: Project, fabric: str = "") -> Fraction:
    """The allowance to sew (inches, exact) so that a seam takes what is planned; half the full one at least."""
    full = project.seam_allowance
    return max(full - turn_of(project, fabric).narrower, full / 2)


def say_beside(project: Project, fabric: str) -> Fraction:
    """How far beside the diagonal to sew, on a mark that can be said: rounded up, since what is over is trimmed."""
    return round_up(turn_of(project, fabric).beside_diagonal, FINE_MARKS[project.measure])


def correct_seam(missing: Fraction, seams: int = 2) -> Fraction:
    """By how much (inches) each allowance is to be narrower, where so much is missing across so many seams.

    >>> correct_seam(Fraction(1, 16))
    Fraction(1, 64)
    """
    return missing / (2 * seams)


def read_strip_test(allowance: Fraction, measured: Fraction) -> Fraction:
    """The allowance that is really taken, from three strips of six allowances that measure so much across.

    They should measure 14 allowances: 18 less four.

    >>> read_strip_test(Fraction(1, 4), Fraction(7, 2)), read_strip_test(Fraction(1, 4), Fraction(55, 16))
    (Fraction(1, 4), Fraction(17, 64))
    """
    return allowance + correct_seam(14 * allowance - measured)


def say_scant(project: Project) -> Fraction:
    """The scant allowance on a mark that can be said, rounded down: wider ones come out too small."""
    return round_down(scant_allowance(project), FINE_MARKS[project.measure])
