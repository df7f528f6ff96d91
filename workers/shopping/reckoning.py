"""What of a cloth to buy: kit by kit, project by project, all at once, and the studio's own beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from service.craft.fabric import Fabric
from service.craft.measure import round_nearest
from workers.cutting.buying import cloth_to_buy
from workers.cutting.cuts import Cut
from workers.shopping.cloths import Cloth, Share
from workers.shopping.lengths import Reach, find_reach

MOST_SECONDS = 5.0
"""For one plan: longer is not worth anybody's waiting."""

GENEROUS = 4
"""Most plans end long before their time, so each may take so many times its share of what is left."""

CENT = Fraction(1, 100)

PLANS_A_SHARE, PLANS_A_CLOTH = 3, 2


@dataclass(frozen=True)
class Bought:
    """Inches bought, and what they cost, exactly; None where the price is not known."""

    buy: Fraction
    cost: Fraction | None

    def less(self, other: Bought) -> Bought:
        """By how much this is more than the other: of the costs as they are written, so that the list adds up."""
        return Bought(self.buy - other.buy, _minus(self.cost, other.cost))


@dataclass(frozen=True)
class Planned:
    """A planned length of cloth and what is bought for it."""

    reach: Reach
    bought: Bought


@dataclass(frozen=True)
class ProjectFigures:
    """One project's share: `one_kit` for one viewer, `kits` for all of them in one plan, `studio` for sample and
    step-outs.
    """

    share: Share
    one_kit: Planned
    kits: Planned
    studio: Planned


@dataclass(frozen=True)
class ClothFigures:
    """A cloth's figures. `one_kit` is a viewer who makes every project; `apart` as many such viewers.

    `by_project` is each project's kits in one plan; `at_once` all kits of all projects in one plan. `studio` is the
    studio's sample and step-outs, project by project, and `studio_at_once` in one plan.
    """

    cloth: Cloth
    projects: tuple[ProjectFigures, ...]
    one_kit: Bought
    apart: Bought
    by_project: Bought
    at_once: Planned
    studio: Bought
    studio_at_once: Planned

    @property
    def proved(self) -> bool:
        """Whether every plan of it is proved to take the least cloth there is."""
        plans = [plan for one in self.projects for plan in (one.one_kit, one.kits, one.studio)]
        return all(plan.reach.proved for plan in (*plans, self.at_once, self.studio_at_once))


@dataclass
class Planner:
    """Finds lengths, each once, while there is time; `plans` is how many are still expected."""

    seconds_left: Callable[[], float]
    plans: int
    _known: dict[tuple[object, ...], Reach] = field(default_factory=dict)

    def find(self, fabric: Fabric, cuts: Iterable[Cut], times: int = 1) -> Reach:
        """The least cloth found for the cuts, so many times over."""
        listed = list(cuts)
        key = (fabric.usable_width, times, *sorted((c.width, c.height, c.may_turn, c.count) for c in listed))
        if key not in self._known:
            self._known[key] = find_reach(fabric.usable_width, listed, times, seconds=self._seconds())
        self.plans -= 1
        return self._known[key]

    def _seconds(self) -> float:
        fair = max(0.0, self.seconds_left()) / max(1, self.plans)
        return min(MOST_SECONDS, GENEROUS * fair)


def count_plans(cloths: Iterable[Cloth]) -> int:
    """How many lengths `reckon_cloth` asks for."""
    return sum(PLANS_A_SHARE * len(cloth.shares) + PLANS_A_CLOTH for cloth in cloths)


def reckon_cloth(cloth: Cloth, kits: int, planner: Planner) -> ClothFigures:
    """Every figure of one cloth. What is planned together never takes more than the same planned apart."""
    projects = tuple(_reckon_share(cloth.fabric, share, kits, planner) for share in cloth.shares)
    cuts = [cut for share in cloth.shares for cut in share.cuts]
    ahead = [cut for share in cloth.shares for cut in share.ahead]
    at_once = planner.find(cloth.fabric, cuts, kits).at_most(_add_lengths(p.kits for p in projects))
    studio = planner.find(cloth.fabric, [*cuts, *ahead]).at_most(_add_lengths(p.studio for p in projects))
    one_kit = add_bought(p.one_kit.bought for p in projects)
    return ClothFigures(
        cloth=cloth,
        projects=projects,
        one_kit=one_kit,
        apart=_times(one_kit, kits),
        by_project=add_bought(p.kits.bought for p in projects),
        at_once=_buy(cloth.fabric, at_once),
        studio=add_bought(p.studio.bought for p in projects),
        studio_at_once=_buy(cloth.fabric, studio),
    )


def _reckon_share(fabric: Fabric, share: Share, kits: int, planner: Planner) -> ProjectFigures:
    one = planner.find(fabric, share.cuts)
    # one kit's plan as often as there are kits is a plan too
    many = planner.find(fabric, share.cuts, kits).at_most(kits * one.length)
    studio = planner.find(fabric, (*share.cuts, *share.ahead)).at_least(one.length)
    return ProjectFigures(share, *(_buy(fabric, reach) for reach in (one, many, studio)))


def _buy(fabric: Fabric, reach: Reach) -> Planned:
    buy = cloth_to_buy(reach.length, fabric)
    price = None if fabric.price is None else buy * fabric.price[0] / fabric.price[1]
    return Planned(reach, Bought(buy, price))


def _add_lengths(plans: Iterable[Planned]) -> Fraction:
    return sum((plan.reach.length for plan in plans), Fraction(0))


def add_bought(parts: Iterable[Bought]) -> Bought:
    """Several together; the cost of nothing, or with one unknown among them, is unknown."""
    listed = list(parts)
    known = [part.cost for part in listed if part.cost is not None]
    total = sum(known, Fraction(0)) if listed and len(known) == len(listed) else None
    return Bought(sum((part.buy for part in listed), Fraction(0)), total)


def _times(bought: Bought, times: int) -> Bought:
    return Bought(bought.buy * times, None if bought.cost is None else bought.cost * times)


def _minus(one: Fraction | None, other: Fraction | None) -> Fraction | None:
    return None if one is None or other is None else to_cents(one) - to_cents(other)


def to_cents(amount: Fraction) -> Fraction:
    """An amount of money as it is written: to the nearest cent."""
    return round_nearest(amount, CENT)
