"""Where cloth is bought, by the length or by the piece: what an amount of it comes to, and costs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from service.craft.cutting_choices import SIMPLE
from service.craft.fabric import Fabric, SoldAs
from service.craft.measure import round_nearest
from workers.cutting.buying import cloth_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.plan import plan_cloth
from workers.shopping.lengths import Pieces, Reach, Roll, Source

CENT = Fraction(1, 100)


@dataclass(frozen=True)
class Bought:
    """What is bought, in inches or in pieces as sold, and what it costs, exactly; None where that is unknown."""

    buy: Fraction
    cost: Fraction | None

    def less(self, other: Bought) -> Bought:
        """By how much this is more than the other: of the costs as they are written, so that the list adds up."""
        known = self.cost is not None and other.cost is not None
        cost = to_cents(self.cost or Fraction(0)) - to_cents(other.cost or Fraction(0)) if known else None
        return Bought(self.buy - other.buy, cost)

    def times(self, times: int) -> Bought:
        """The same so many times."""
        return Bought(self.buy * times, None if self.cost is None else self.cost * times)


@dataclass(frozen=True)
class Planned:
    """A planned amount of cloth and what is bought for it."""

    reach: Reach
    bought: Bought


class Shop(Protocol):
    """Where cloth is bought: what is cut from there, and what an amount of it comes to."""

    @property
    def source(self) -> Source:
        """What is cut from."""
        ...

    def follow(self, wanted: str, cuts: Sequence[Cut], least: Reach) -> Reach:
        """What one kit takes, where its document asks for a plan of its own; else the least."""
        ...

    def buy(self, reach: Reach) -> Planned:
        """What is bought for an amount."""
        ...


@dataclass(frozen=True)
class ByTheLength:
    """Cloth from the roll, in the shop's steps."""

    fabric: Fabric

    @property
    def source(self) -> Source:
        """The roll."""
        return Roll(self.fabric.usable_width)

    def follow(self, wanted: str, cuts: Sequence[Cut], least: Reach) -> Reach:
        """A document may ask for the plan that is simplest to cut; the handout then has a viewer buy for that."""
        if wanted != SIMPLE or not cuts:
            return least
        return least.at_least(plan_cloth(self.fabric, dict(enumerate(cuts)), wanted=wanted).followed.length)

    def buy(self, reach: Reach) -> Planned:
        """Shrinkage, straightening and the step are added to the length."""
        buy, price = cloth_to_buy(reach.amount, self.fabric), self.fabric.price
        return Planned(reach, Bought(buy, None if price is None else buy * price[0] / price[1]))


@dataclass(frozen=True)
class ByThePiece:
    """Cloth that is sold in pieces."""

    sold_as: SoldAs
    one_way: bool

    @property
    def source(self) -> Source:
        """The pieces."""
        return Pieces(self.sold_as, self.one_way)

    def follow(self, wanted: str, cuts: Sequence[Cut], least: Reach) -> Reach:
        """There is one plan in pieces."""
        return least

    def buy(self, reach: Reach) -> Planned:
        """So many whole pieces."""
        price = self.sold_as.price
        return Planned(reach, Bought(reach.amount, None if price is None else reach.amount * price))


def add_bought(parts: Iterable[Bought]) -> Bought:
    """Several together; the cost of nothing, or with one unknown among them, is unknown."""
    listed = list(parts)
    known = [part.cost for part in listed if part.cost is not None]
    total = sum(known, Fraction(0)) if listed and len(known) == len(listed) else None
    return Bought(sum((part.buy for part in listed), Fraction(0)), total)


def to_cents(amount: Fraction) -> Fraction:
    """An amount of money as it is written: to the nearest cent."""
    return round_nearest(amount, CENT)
