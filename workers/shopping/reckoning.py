"""What of a cloth to buy: kit by kit, project by project, all at once, and the studio's own beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from workers.cutting.cuts import Cut
from workers.shopping.cloths import Cloth, Share
from workers.shopping.lengths import Reach, Roll, Source, find_reach
from workers.shopping.shops import Bought, ByTheLength, ByThePiece, Planned, Shop, add_bought

MOST_SECONDS = 5.0
"""For one plan: longer is not worth anybody's waiting."""

GENEROUS = 2
"""Most plans end long before their time, so each may take so many times its share of what is left."""


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
class Figures:
    """A cloth's figures. `one_kit` is a viewer who makes every project; `apart` as many such viewers.

    `by_project` is each project's kits in one plan; `at_once` all kits of all projects in one plan. `studio` is the
    studio's sample and step-outs, project by project, and `studio_at_once` in one plan.
    """

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


@dataclass(frozen=True)
class ClothFigures:
    """A cloth by the length; in pieces as it is sold, where it is and they hold every cut; and what the studio buys
    by the length once it has cut what is at home.
    """

    cloth: Cloth
    roll: Figures
    in_pieces: Figures | None
    after_stash: Planned | None

    @property
    def priced(self) -> Figures | None:
        """The figures that have a price: by the length, else in pieces; None where neither has one."""
        found = (
            figures for figures in (self.roll, self.in_pieces) if figures and figures.one_kit.cost is not None
        )
        return next(found, None)


@dataclass
class Planner:
    """Finds amounts, each once, while there is time; `plans` is how many are still expected."""

    seconds_left: Callable[[], float]
    plans: int
    _known: dict[tuple[object, ...], Reach] = field(default_factory=dict)

    def find(self, source: Source, cuts: Iterable[Cut], times: int = 1) -> Reach:
        """The least cloth found for the cuts, so many times over."""
        listed = list(cuts)
        key = (source, times, *sorted((c.width, c.height, c.may_turn, c.count) for c in listed))
        if key not in self._known:
            self._known[key] = find_reach(source, listed, times, seconds=self._seconds())
        self.plans -= 1
        return self._known[key]

    def _seconds(self) -> float:
        fair = max(0.0, self.seconds_left()) / max(1, self.plans)
        return min(MOST_SECONDS, GENEROUS * fair)


def count_plans(cloths: Iterable[Cloth]) -> int:
    """How many amounts `reckon_cloth` asks for: three a share and two a cloth, for every way of buying it."""
    return sum((3 * len(c.shares) + 2) * len(_list_shops(c)) + bool(c.fabric.stash) for c in cloths)


def reckon_cloth(cloth: Cloth, kits: int, planner: Planner) -> ClothFigures:
    """Every figure of one cloth, for every way of buying it."""
    found = [_reckon(cloth, shop, kits, planner) for shop in _list_shops(cloth)]
    after = _reckon_after_stash(cloth, found[0], planner) if cloth.fabric.stash else None
    return ClothFigures(cloth, found[0], found[1] if len(found) > 1 else None, after)


def _list_shops(cloth: Cloth) -> list[Shop]:
    fabric, sold_as = cloth.fabric, cloth.fabric.sold_as
    by_length = ByTheLength(fabric)
    return [by_length, ByThePiece(sold_as, fabric.one_way)] if sold_as and cloth.fits_pieces else [by_length]


def _reckon(cloth: Cloth, shop: Shop, kits: int, planner: Planner) -> Figures:
    """What is planned together never takes more than the same planned apart."""
    projects = tuple(_reckon_share(share, shop, kits, planner) for share in cloth.shares)
    at_once = planner.find(shop.source, cloth.cuts, kits).at_most(_add_amounts(p.kits for p in projects))
    studio = planner.find(shop.source, (*cloth.cuts, *cloth.ahead))
    one_kit = add_bought(p.one_kit.bought for p in projects)
    return Figures(
        projects=projects,
        one_kit=one_kit,
        apart=one_kit.times(kits),
        by_project=add_bought(p.kits.bought for p in projects),
        at_once=shop.buy(at_once),
        studio=add_bought(p.studio.bought for p in projects),
        studio_at_once=shop.buy(studio.at_most(_add_amounts(p.studio for p in projects))),
    )


def _reckon_share(share: Share, shop: Shop, kits: int, planner: Planner) -> ProjectFigures:
    one = shop.follow(share.needs.project.cutting.plan, share.cuts, planner.find(shop.source, share.cuts))
    # one kit's plan as often as there are kits is a plan too
    many = planner.find(shop.source, share.cuts, kits).at_most(kits * one.amount)
    studio = planner.find(shop.source, (*share.cuts, *share.ahead)).at_least(one.amount)
    return ProjectFigures(share, shop.buy(one), shop.buy(many), shop.buy(studio))


def _reckon_after_stash(cloth: Cloth, figures: Figures, planner: Planner) -> Planned:
    fabric = cloth.fabric
    source = Roll(fabric.usable_width, fabric.stash, fabric.one_way)
    without = figures.studio_at_once.reach.amount
    return ByTheLength(fabric).buy(planner.find(source, (*cloth.cuts, *cloth.ahead)).at_most(without))


def _add_amounts(plans: Iterable[Planned]) -> Fraction:
    return sum((plan.reach.amount for plan in plans), Fraction(0))
