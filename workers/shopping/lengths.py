"""How long a piece of one cloth must be for pieces wanted many times over, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from workers.cutting.cuts import Cut
from workers.cutting.least import least_strips
from workers.cutting.plan import pose
from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, total_length

MOST_AT_ONCE = 20_000
"""Pieces planned in one go. Beyond, the plan for so many is cut again and again, and a last one for the rest."""


EVEN = 60
"""Divides by two to six: strips that hold the pieces of so many makes are filled."""


@dataclass(frozen=True)
class Reach:
    """A length of cloth that is enough, and one below which nothing is: inches along the roll."""

    length: Fraction
    lower_bound: Fraction

    @property
    def proved(self) -> bool:
        """Whether nothing shorter is enough."""
        return self.length == self.lower_bound

    def at_most(self, length: Fraction) -> Reach:
        """The same, where a plan of that length is known besides."""
        return self if self.length <= length else replace(self, length=length)

    def at_least(self, length: Fraction) -> Reach:
        """The same, taken no shorter than so."""
        return self if self.length >= length else replace(self, length=length)


NOTHING = Reach(Fraction(0), Fraction(0))


def find_reach(usable_width: Fraction, cuts: Iterable[Cut], times: int, *, seconds: float) -> Reach:
    """The least cloth found in about `seconds` for all these cuts, so many times over.

    Every cut fits on the cloth. What is cut is a plan in strips: for many times over, full plans for as many
    as are planned in one go, and one for the rest.
    """
    listed = list(cuts)
    if not listed:
        return NOTHING
    pieces = sum(cut.count for cut in listed)
    together = min(times, _count_together(pieces))
    rounds, rest = divmod(times, together)
    lengths = [
        _plan(usable_width, listed, count, seconds / 2 if rest else seconds) for count in (together, rest)
    ]
    reach = Reach(rounds * lengths[0].length + lengths[1].length, lengths[0].lower_bound)
    if rounds == 1 and not rest:
        return reach
    whole, step = _pose(usable_width, listed, times)
    return replace(reach, lower_bound=area_bound(whole) * step)


def _count_together(pieces: int) -> int:
    """How many times so many pieces are planned in one go: where it can be, so that strips shared by a few come out."""
    most = max(1, MOST_AT_ONCE // pieces)
    return most - most % EVEN if most >= EVEN else most


def _plan(usable_width: Fraction, cuts: Sequence[Cut], times: int, seconds: float) -> Reach:
    if not times:
        return NOTHING
    problem, step = _pose(usable_width, cuts, times)
    least = least_strips(problem, seconds=seconds)
    return Reach(total_length(least.strips) * step, least.lower_bound * step)


def _pose(usable_width: Fraction, cuts: Sequence[Cut], times: int) -> tuple[Problem, Fraction]:
    many = {number: replace(cut, count=cut.count * times) for number, cut in enumerate(cuts)}
    problem, step, _ = pose(usable_width, many)
    return problem, step
