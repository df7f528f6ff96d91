"""The plan of one cloth: its strips, how little it could be, what to buy."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from service.craft.cutting_choices import SIMPLE, TIGHT, say_in_steps
from service.craft.fabric import Fabric
from service.craft.language import mark, phrase, phrase_count
from workers.cutting.buying import cloth_to_buy, longest_for_the_same
from workers.cutting.cuts import Cut
from workers.cutting.least import least_strips, simple_strips
from workers.cutting.strip_problem import Problem, Size, Strip, Strips, total_length
from workers.patience import Left, endless, share

# A search on one cloth, for less of it or for a simpler plan, ends after about so long, whatever it has found. Nearly
# all end by themselves in a second or two; one cut short may end otherwise on a busy machine than on a free one.
SECONDS, SIMPLE_SECONDS = 10.0, 8.0

MORE_CLOTH = Fraction(2, 100)
"""The share of cloth that may go into a plan that is simpler to cut."""

ASKED = {
    TIGHT: mark("the document asks for the tight plan"),
    SIMPLE: mark("the document asks for the simple plan"),
}


@dataclass(frozen=True)
class CutRun:
    """`count` pieces of one cut (by its number in the cutting list), side by side in a strip."""

    cut: int
    count: int
    turned: bool


@dataclass(frozen=True)
class PlannedStrip:
    """One strip across the roll, `height` inches high."""

    height: Fraction
    runs: tuple[CutRun, ...]


@dataclass(frozen=True)
class StripPlan:
    """Strips in the order they are cut, what they come to in inches, and how many of them mix sizes."""

    strips: tuple[PlannedStrip, ...]
    length: Fraction
    mixed: int

    @property
    def effort(self) -> tuple[int, int]:
        """What makes a plan long-winded to cut, first things first: its strips, and those that mix sizes."""
        return len(self.strips), self.mixed


@dataclass(frozen=True)
class ClothPlan:
    """One cloth, planned twice: `tight` takes the least cloth, `simple` the least cutting. Lengths in inches.

    `lower_bound` is a length no plan can go below; where the tight plan's equals it, that is proved to be the
    shortest. `per_size_rule` and `fit_rule` are what rules of thumb take. `follows` names the plan that is
    followed, `wanted` is the document's choice, if it has one.
    """

    fabric: Fabric
    tight: StripPlan
    simple: StripPlan
    lower_bound: Fraction
    per_size_rule: Fraction
    fit_rule: Fraction
    area: Fraction
    follows: str
    wanted: str = ""

    @property
    def strips(self) -> tuple[PlannedStrip, ...]:
        """The strips of the tight plan."""
        return self.tight.strips

    @property
    def length(self) -> Fraction:
        """The length of the tight plan."""
        return self.tight.length

    @property
    def buy(self) -> Fraction:
        """What is to be bought for the plan that is followed."""
        return cloth_to_buy(self.followed.length, self.fabric)

    @property
    def followed(self) -> StripPlan:
        """The plan that the handout prints and a viewer cuts by."""
        return self.simple if self.follows == SIMPLE else self.tight

    @property
    def because(self) -> str:
        """Why that plan is followed, for who reads now."""
        return choose_plan(self.tight, self.simple, self.wanted, self.fabric)[1]

    @property
    def proved(self) -> bool:
        """Whether nothing shorter can exist."""
        return self.length == self.lower_bound

    @property
    def used_share(self) -> Fraction:
        """The share of the tight plan's cloth that ends up in pieces."""
        return self.area / (self.length * self.fabric.usable_width)


def plan_cloth(fabric: Fabric, cuts: dict[int, Cut], *, wanted: str = "", left: Left = endless) -> ClothPlan:
    """Two plans for the cuts of one cloth, by their number in the cutting list; `wanted` is the document's choice.

    Every cut fits on the cloth. The bound says how sure it is that nothing shorter exists.
    """
    problem, step, members = pose(fabric.usable_width, cuts)
    least = least_strips(problem, seconds=SECONDS, left=share(left, 0.6))

    def planned(strips: Strips) -> StripPlan:
        handed = hand_out(strips, members, cuts, step)
        mixed = sum(_mixes_sizes(strip, cuts) for strip in handed)
        return StripPlan(handed, total_length(strips) * step, mixed)

    tight = planned(least.strips)
    most = int(most_length(tight.length, fabric, wanted) / step)
    simple = planned(simple_strips(problem, least, most_length=most, seconds=SIMPLE_SECONDS, left=left))
    if simple.effort >= tight.effort:
        simple = tight
    return ClothPlan(
        fabric=fabric,
        tight=tight,
        simple=simple,
        lower_bound=least.lower_bound * step,
        per_size_rule=total_length(least.by_size) * step,
        fit_rule=total_length(least.by_fit) * step,
        area=sum((cut.area for cut in cuts.values()), Fraction(0)),
        follows=choose_plan(tight, simple, wanted, fabric)[0],
        wanted=wanted,
    )


def _mixes_sizes(strip: PlannedStrip, cuts: dict[int, Cut]) -> bool:
    return len({frozenset((cuts[run.cut].width, cuts[run.cut].height)) for run in strip.runs}) > 1


def most_length(tight: Fraction, fabric: Fabric, wanted: str) -> Fraction:
    """Inches the simple plan may take: what is bought for the tight one; 2 % more where it is asked for."""
    within = longest_for_the_same(tight, fabric)
    return max(within, tight * (1 + MORE_CLOTH)) if wanted == SIMPLE else within


def choose_plan(tight: StripPlan, simple: StripPlan, wanted: str, fabric: Fabric) -> tuple[str, str]:
    """Which plan is followed, and why in words: the document's choice, else the simple one, which costs no more."""
    if wanted:
        more = cloth_to_buy(simple.length, fabric) - cloth_to_buy(tight.length, fabric)
        if more and wanted == SIMPLE:
            words = say_in_steps(more, fabric.buying_step)
            return wanted, phrase(
                "the document asks for the simple plan, with {length} more to buy", length=words
            )
        return wanted, phrase(ASKED[wanted])
    if simple == tight:
        return SIMPLE, phrase("the plan that takes the least cloth is also the simplest to cut")
    return SIMPLE, _say_saved(tight, simple)


def _say_saved(tight: StripPlan, simple: StripPlan) -> str:
    """What the simple plan spares who cuts: strips, or at least strips that mix sizes."""
    if len(simple.strips) != len(tight.strips):
        return phrase_count(
            "{number} strip in place of {before}, and no more cloth to buy",
            "{number} strips in place of {before}, and no more cloth to buy",
            len(simple.strips),
            before=len(tight.strips),
        )
    if not simple.mixed:
        return phrase(
            "no strip with more than one size in place of {before}, and no more cloth to buy",
            before=tight.mixed,
        )
    return phrase_count(
        "{number} strip with more than one size in place of {before}, and no more cloth to buy",
        "{number} strips with more than one size in place of {before}, and no more cloth to buy",
        simple.mixed,
        before=tight.mixed,
    )


def pose(usable_width: Fraction, cuts: dict[int, Cut]) -> tuple[Problem, Fraction, list[list[int]]]:
    """The problem in whole steps, the step in inches, and which cuts share each size.

    The step divides every side, so that nothing is rounded but the cloth's width, downwards: sides side by
    side come to whole steps.
    """
    sizes: dict[tuple[Fraction, Fraction, bool], list[int]] = {}
    for number, cut in cuts.items():
        sizes.setdefault((cut.width, cut.height, cut.may_turn), []).append(number)
    step = common_step(side for width, height, _ in sizes for side in (width, height))
    posed = tuple(
        Size(int(w / step), int(h / step), sum(cuts[n].count for n in members), may_turn)
        for (w, h, may_turn), members in sizes.items()
    )
    return Problem(int(usable_width / step), posed), step, list(sizes.values())


def common_step(lengths: Iterable[Fraction]) -> Fraction:
    """The longest length that goes into all of them without rest.

    >>> common_step([Fraction(7, 2), Fraction(3, 8), Fraction(5)])
    Fraction(1, 8)
    """
    listed = list(lengths)
    under = lcm(*(value.denominator for value in listed))
    return Fraction(gcd(*(int(value * under) for value in listed)), under)


def hand_out(
    strips: Strips, members: list[list[int]], cuts: dict[int, Cut], step: Fraction
) -> tuple[PlannedStrip, ...]:
    """The same strips in inches, the tallest first, each size's places given to the cuts that share it."""
    waiting = [deque([n, cuts[n].count] for n in numbers) for numbers in members]
    planned = []
    for strip in sorted(strips, key=lambda s: -s.height):
        # cut from left to right, so the largest pieces lie leftmost
        runs = sorted(cut_runs(strip, waiting), key=lambda run: -cuts[run.cut].area / cuts[run.cut].count)
        planned.append(PlannedStrip(strip.height * step, tuple(runs)))
    # equal strips together: they are cut, and drawn, as one
    return tuple(sorted(planned, key=lambda s: (-s.height, [(r.cut, -r.count, r.turned) for r in s.runs])))


def cut_runs(strip: Strip, waiting: list[deque[list[int]]]) -> tuple[CutRun, ...]:
    """The cuts that a strip's pieces are, each size's places given out in turn.

    `waiting` holds the cuts of every size with how many pieces of them are still to be given a place.
    """
    runs = []
    for run in strip.runs:
        left, queue = run.count, waiting[run.size]
        while left:
            number, still = queue[0]
            taken = min(left, still)
            runs.append(CutRun(number, taken, run.turned))
            left -= taken
            queue[0][1] -= taken
            if not queue[0][1]:
                queue.popleft()
    return tuple(runs)
