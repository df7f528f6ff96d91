"""What a ring of blades measures on the way: single blades, groups, the ring, and what an error does to them.

All in inches, from the facts of its work and the seam allowance; a sewn blade keeps its angle (geometry).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from service.craft.measure import cosine, sine, tangent
from service.craft.planar.round_shapes import FLAT, POINTED

QUARTERS, HALVES = (Fraction(90), Fraction(180), Fraction(270)), (Fraction(180),)


@dataclass(frozen=True)
class RingSteps:
    """A ring as its steps see it: radii, background and allowance `s` in inches, angles in degrees."""

    angles: tuple[Fraction, ...]
    tips: str
    reach: Fraction
    hole: Fraction
    core: Fraction
    size: tuple[Fraction, Fraction]
    s: Fraction

    @property
    def blades(self) -> int:
        """How many blades."""
        return len(self.angles)

    @property
    def equal(self) -> bool:
        """Whether all blades are alike."""
        return len(set(self.angles)) == 1

    @property
    def half(self) -> Fraction:
        """Half the angle of the widest blade."""
        return max(self.angles) / 2

    @property
    def groups(self) -> list[int]:
        """How many blades make each quarter, or each half; empty where neither ends at a seam."""
        ends = list(accumulate(self.angles))
        for marks in (QUARTERS, HALVES):
            if all(mark in ends for mark in marks):
                last = [0, *(ends.index(mark) + 1 for mark in marks), self.blades]
                return [after - before for before, after in pairwise(last)]
        return []

    @property
    def blade_length(self) -> Fraction:
        """From the narrow cut edge of a blade to its finished end, along its middle."""
        end = self.reach * cosine(self.half) if self.tips == FLAT else self.reach
        return end - self.opening

    @property
    def opening(self) -> Fraction:
        """The radius of what stays open between the narrow cut edges; below nothing where they overlap the middle."""
        return self.hole * cosine(self.half) - self.s

    @property
    def tip_length(self) -> Fraction:
        """How long a sewn point is, half as long as the blade is wide there."""
        slope = tangent(self.half)
        return self.reach * slope / (1 + slope)

    @property
    def edge_gap(self) -> tuple[Fraction, Fraction]:
        """From the cut edges of the background to the nearest tips, left and right, above and below.

        The first seam stands at noon, so that the middles of the nearest blades lie half an angle beside it.
        """
        if self.tips == FLAT:
            out = self.reach
        elif self.tips == POINTED:
            out = self.reach * cosine(self.half)
        else:
            middle = self.reach / (1 + sine(self.half))
            out = middle * (cosine(self.half) + sine(self.half))
        width, height = self.size
        return width / 2 + self.s - out, height / 2 + self.s - out

    def moved_by(self, off: Fraction) -> Fraction:
        """How much further in every blade comes to lie where each allowance is even and deeper by `off`."""
        return off / sine(self.half)

    def lost_round(self, off: Fraction, seams: int) -> Fraction:
        """What so many seams take from the way round where both allowances are deeper by `off` at the wide ends."""
        return 2 * seams * off


def read_ring(facts: Mapping[str, str], s: Fraction) -> RingSteps:
    """A ring by the facts of its work."""
    reach, hole, core = (Fraction(facts[name]) for name in ("reach", "hole", "core"))
    width, height = map(Fraction, facts["size"].split())
    angles = tuple(map(Fraction, facts["angles"].split()))
    return RingSteps(angles, facts["tips"], reach, hole, core, (width, height), s)
