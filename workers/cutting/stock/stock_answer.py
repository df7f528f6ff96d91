"""Stash, pieces to buy and leftovers of a cloth as they stand in `cutting.json`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Any

from service.craft.cutting_choices import say_in_steps
from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.measure import Length, length_object
from workers.cutting.buying import cloth_to_buy, cost
from workers.cutting.cloth_answer import answer_strip
from workers.cutting.cuts import Cut
from workers.cutting.plan import ClothPlan
from workers.cutting.stock.leftovers import Left, count_left, count_left_of_stash, rank
from workers.cutting.stock.stock_plan import (
    CutPiece,
    SoldPlan,
    StashPlan,
    StockPlan,
    followed_piece,
    roll_piece,
)

ToLength = Callable[[Fraction], Length]


def answer_stock(plan: ClothPlan, stock: StockPlan, cuts: Sequence[Cut], project: Project) -> dict[str, Any]:
    """The fields of one cloth: `left_over` always, `from_stash` and `buy_pieces` where it has such pieces."""

    def length(value: Fraction) -> Length:
        return length_object(value, project.measure)

    keep = project.cutting.worth_keeping
    fields: dict[str, Any] = {"left_over": _answer_left_over([followed_piece(plan)], cuts, keep, length)}
    if stock.stash:
        fields["from_stash"] = _answer_stash(plan.fabric, stock.stash, cuts, keep, length)
    if stock.sold:
        left = _answer_left_over(stock.sold.pieces, cuts, keep, length)
        fields["buy_pieces"] = _answer_sold(stock.sold, length) | {"left_over": left}
    return fields


def _answer_left_over(
    pieces: Iterable[CutPiece], cuts: Sequence[Cut], keep: Fraction, length: ToLength
) -> list[dict[str, Any]]:
    """What is left of pieces that are bought, or of the length bought as one piece."""
    left = sum((count_left(piece, cuts, keep) for piece in pieces), Counter[Left]())
    return [_left(one, left[one], length) for one in sorted(left, key=rank)]


def _answer_stash(
    fabric: Fabric, plan: StashPlan, cuts: Sequence[Cut], keep: Fraction, length: ToLength
) -> dict[str, Any]:
    left = count_left_of_stash(fabric.stash, plan.pieces, cuts, keep)
    bought = plan.bought or [roll_piece(fabric, plan.length, plan.roll)]
    rest = _answer_left_over(bought, cuts, keep, length)
    return {
        "enough": plan.enough,
        "pieces": [{"stash": piece.number, **_piece(piece, length)} for piece in plan.pieces],
        "still_to_buy": None if plan.enough else _still_to_buy(fabric, plan, length) | {"left_over": rest},
        "left": [{"stash": number, **_left(one, count, length)} for number, one, count in left],
    }


def _still_to_buy(fabric: Fabric, plan: StashPlan, length: ToLength) -> dict[str, Any]:
    """From the roll, or, where the cloth is sold in pieces that hold every cut, so many of them."""
    if plan.bought:
        price = fabric.sold_as.price if fabric.sold_as else None
        return {
            "count": len(plan.bought),
            "cost": None if price is None else float(price * len(plan.bought)),
            "lower_bound": int(plan.lower_bound),
            "proved": len(plan.bought) == plan.lower_bound,
            "pieces": [_piece(piece, length) for piece in plan.bought],
        }
    buy = cloth_to_buy(plan.length, fabric)
    price = cost(buy, fabric)
    return {
        "length": length(plan.length),
        "buy": length(buy),
        "buy_words": say_in_steps(buy, fabric.buying_step),
        "cost": None if price is None else float(price),
        "lower_bound": length(plan.lower_bound),
        "proved": plan.length == plan.lower_bound,
        "strips": [answer_strip(strip, length) for strip in plan.roll],
    }


def _answer_sold(plan: SoldPlan, length: ToLength) -> dict[str, Any]:
    count, price = len(plan.pieces), plan.sold_as.price
    return {
        "name": plan.sold_as.name,
        "width": length(plan.sold_as.width),
        "length": length(plan.sold_as.length),
        "count": count,
        "cost": None if price is None else float(price * count),
        "lower_bound": plan.lower_bound,
        "proved": count == plan.lower_bound,
        "pieces": [_piece(piece, length) for piece in plan.pieces],
        "too_large": list(plan.too_large),
    }


def _piece(piece: CutPiece, length: ToLength) -> dict[str, Any]:
    strips: Iterable[dict[str, Any]] = (answer_strip(strip, length) for strip in piece.strips)
    return {"copy": piece.copy, "turned": piece.turned, "strips": list(strips)}


def _left(left: Left, count: int, length: ToLength) -> dict[str, Any]:
    return {
        "width": length(left.width),
        "length": length(left.length),
        "count": count,
        "from": left.part,
    }
