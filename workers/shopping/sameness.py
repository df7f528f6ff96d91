"""Which cloths of several projects are one and the same in the shop: those of one name and one colour.

Upper and lower case and spaces do not count; what is sold in pieces is not what comes from the roll. Where the
documents say different things about one cloth, what is safe holds for the whole list: the narrower width, the larger
shrinkage and straightening, the coarser step of the shop, a direction where one of them has it, the higher price;
and it is said so.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from service.craft.fabric import Fabric, SoldAs, StashPiece
from service.craft.language import phrase, say_number
from service.craft.measure import format_length

Named = tuple[str, Fabric]
"""A project's title, and a cloth of it."""


@dataclass(frozen=True)
class Agreed:
    """One cloth of the shop: what holds for all who use it, and what the documents do not agree on, in words."""

    fabric: Fabric
    notes: tuple[str, ...]


def name_cloth(fabric: Fabric) -> tuple[str, str, SoldAs | None]:
    """What two cloths share that are the same: name, colour, and the pieces they are sold in, whatever those cost.

    >>> name_cloth(Fabric("a", "Frost  White", "#EEF1EE", Fraction(40)))
    ('frost white', '#eef1ee', None)
    """
    return " ".join(fabric.name.casefold().split()), fabric.colour.casefold(), _unpriced(fabric.sold_as)


def _unpriced(sold_as: SoldAs | None) -> SoldAs | None:
    return sold_as and replace(sold_as, price=None)


def agree(cloths: Sequence[Named], measure: str) -> Agreed:
    """What holds for a cloth that several projects use. `cloths` has at least one."""
    first, fabrics = cloths[0][1], [fabric for _, fabric in cloths]
    price = max((f.price for f in fabrics if f.price is not None), key=_per_inch, default=None)
    agreed = replace(
        first,
        usable_width=min(fabric.usable_width for fabric in fabrics),
        directional=any(fabric.directional for fabric in fabrics),
        napped=any(fabric.napped for fabric in fabrics),
        shrinkage=max(fabric.shrinkage for fabric in fabrics),
        straightening=max(fabric.straightening for fabric in fabrics),
        buying_step=max(fabric.buying_step for fabric in fabrics),
        price=price,
        sold_as=_agree_on_piece(fabrics),
        stash=gather_stash(fabrics),
    )
    return Agreed(agreed, tuple(_list_conflicts(cloths, agreed, measure)))


def gather_stash(fabrics: Iterable[Fabric]) -> tuple[StashPiece, ...]:
    """What is at home: documents of one studio name the same pieces, so of each size the most that one of them says."""
    most: dict[tuple[Fraction, Fraction], int] = {}
    for fabric in fabrics:
        own = Counter[tuple[Fraction, Fraction]]()
        for piece in fabric.stash:
            own[piece.width, piece.length] += piece.count
        for size, count in own.items():
            most[size] = max(most.get(size, 0), count)
    return tuple(StashPiece(width, length, count) for (width, length), count in most.items())


def _agree_on_piece(fabrics: Iterable[Fabric]) -> SoldAs | None:
    """The same piece for all, at the higher price."""
    pieces = [fabric.sold_as for fabric in fabrics if fabric.sold_as is not None]
    prices = [piece.price for piece in pieces if piece.price is not None]
    return replace(pieces[0], price=max(prices, default=None)) if pieces else None


def _per_inch(price: tuple[Fraction, Fraction]) -> Fraction:
    return price[0] / price[1]


def _list_conflicts(cloths: Sequence[Named], agreed: Fabric, measure: str) -> Iterable[str]:
    def length(value: Fraction) -> str:
        return format_length(value, measure)

    lengths: tuple[tuple[str, Callable[[Fabric], Fraction]], ...] = (
        (phrase("usable width"), lambda fabric: fabric.usable_width),
        (phrase("straightening"), lambda fabric: fabric.straightening),
        (phrase("step it is bought in"), lambda fabric: fabric.buying_step),
    )
    for what, read in lengths:
        yield from _say(
            what, [(title, length(read(fabric))) for title, fabric in cloths], length(read(agreed))
        )
    shares = [(title, _say_share(fabric.shrinkage)) for title, fabric in cloths]
    yield from _say(phrase("shrinkage"), shares, _say_share(agreed.shrinkage))
    ways = [(title, _say_way(fabric)) for title, fabric in cloths]
    yield from _say(phrase("direction"), ways, _say_way(agreed))
    yield from _say_prices(cloths, agreed, length)


def _say(what: str, said: Sequence[tuple[str, str]], used: str) -> Iterable[str]:
    others = [
        phrase("{project} says {value}", project=title, value=value) for title, value in said if value != used
    ]
    if others:
        yield phrase(
            "{what}: {used} is used; {others}", what=what, used=used, others=", ".join(dict.fromkeys(others))
        )


def _say_share(share: Fraction) -> str:
    return f"{say_number(float(share) * 100)} %"


def _say_way(fabric: Fabric) -> str:
    return phrase("one way") if fabric.one_way else phrase("any way")


def _say_prices(cloths: Sequence[Named], agreed: Fabric, length: Callable[[Fraction], str]) -> Iterable[str]:
    """Prices that differ by the inch; a cloth that has a price in one project has it in all."""
    if agreed.price is None:
        return

    def say(price: tuple[Fraction, Fraction]) -> str:
        return phrase("{amount} for {length}", amount=say_number(float(price[0])), length=length(price[1]))

    others = [
        phrase("{project} says {value}", project=title, value=say(fabric.price))
        for title, fabric in cloths
        if fabric.price is not None and _per_inch(fabric.price) != _per_inch(agreed.price)
    ]
    if others:
        yield phrase(
            "{what}: {used} is used; {others}",
            what=phrase("price"),
            used=say(agreed.price),
            others=", ".join(dict.fromkeys(others)),
        )
