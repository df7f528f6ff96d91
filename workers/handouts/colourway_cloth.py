"""What is bought for a colourway: the cutting plan worked out anew on its own cloths."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.craft.cutting_choices import say_in_steps
from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.finish import Colourway
from service.craft.language import mark, phrase, say_number
from service.craft.measure import format_length
from workers.cutting.applique import applique_cuts, rough_out
from workers.cutting.cut_list import list_all_cuts
from workers.cutting.cuts import Cut
from workers.cutting.finishing import finishing_cuts, plan_finishing
from workers.cutting.plan import ClothPlan, plan_cloth
from workers.cutting.recipe import plan_cloths
from workers.cutting.stock.stock_plan import plan_sold
from workers.outlines.asked import AskedPiece
from workers.patience import Left, share
from workers.recipe import CannotMake

NOT_NEEDED = mark("none")


@dataclass(frozen=True)
class ClothBought:
    """One cloth of a colourway: what is bought in words, and its cuts by their number in the cutting list."""

    fabric: Fabric
    bought: str
    cuts: dict[int, Cut]


@dataclass(frozen=True)
class Purchase:
    """What is bought of every cloth by its key; `trouble` says why it cannot be cut from these cloths at all."""

    cloths: dict[str, ClothBought]
    trouble: str = ""


@dataclass(frozen=True)
class QuantityRow:
    """A cloth of which other lengths are bought than for the design: both in words, and why."""

    cloth: str
    designed: str
    here: str
    why: str


def reckon(
    project: Project, pieces: Sequence[AskedPiece], colourway: Colourway | None, left: Left
) -> Purchase:
    """What is bought for the design (no colourway) or in a colourway, by a plan of its own for every cloth.

    A colourway whose cloths cannot be cut so (a piece wider than the new cloth) has its trouble said in words.
    """
    changed = change_cloths(project, colourway)
    try:
        cuts = _list_cuts(changed, pieces, colourway.same_as if colourway else {}, share(left, 0.3))
        plans = plan_cloths(changed, cuts, share(left, 0.8))
    except CannotMake as why:
        if colourway is None:
            raise
        return Purchase(
            {}, ", ".join(filter(None, (why.detail, why.right and f"right would be {why.right}")))
        )
    return Purchase({plan.fabric.key: _say_bought(plan, cuts, left) for plan in plans})


def change_cloths(project: Project, colourway: Colourway | None) -> Project:
    """The project on the cloths of a colourway. A cloth that is the same as another one there lies as that one does,
    and keeps its key.
    """
    if colourway is None:
        return project
    fabrics = {**project.fabrics, **colourway.cloths}
    merged = {
        key: replace(fabrics[other], key=key, trim_in_place=fabrics[key].trim_in_place)
        for key, other in colourway.same_as.items()
    }
    return replace(project, fabrics={**fabrics, **merged})


def compare(project: Project, designed: Purchase, here: Purchase, colourway: Colourway) -> list[QuantityRow]:
    """The cloths of which something else is bought, in the document's order."""
    rows = []
    for key, fabric in project.fabrics.items():
        before, after = (
            bought.cloths[key].bought if key in bought.cloths else phrase(NOT_NEEDED)
            for bought in (designed, here)
        )
        if before != after:
            name = colourway.names.get(key) or fabric.name
            rows.append(QuantityRow(name, before, after, _say_why(key, project, colourway)))
    return rows


def _list_cuts(
    project: Project, pieces: Sequence[AskedPiece], same_as: Mapping[str, str], left: Left
) -> list[Cut]:
    laid = [replace(piece, fabric=project.fabrics[piece.fabric.key]) for piece in pieces]
    beside = [
        *finishing_cuts(plan_finishing(project), project),
        *applique_cuts(rough_out(laid, project), project),
    ]
    cuts = list_all_cuts(project, beside, left)
    return [replace(cut, fabric=same_as.get(cut.fabric, cut.fabric)) for cut in cuts]


def _say_bought(plan: ClothPlan, cuts: Sequence[Cut], left: Left) -> ClothBought:
    fabric = plan.fabric
    own = {number: cut for number, cut in enumerate(cuts) if cut.fabric == fabric.key}
    words = say_in_steps(plan.buy, fabric.buying_step)
    sold = plan_sold(fabric, own, share(left, 0.2))
    if sold is not None and sold.pieces:
        pieces = {"count": len(sold.pieces), "name": sold.sold_as.name}
        words = "{count} × {name}".format(**pieces)
        if sold.too_large:
            large = plan_cloth(fabric, {number: own[number] for number in sold.too_large}, left=left)
            length = say_in_steps(large.buy, fabric.buying_step)
            words = phrase("{count} × {name}, and {length} for what is larger", **pieces, length=length)
    return ClothBought(fabric, words, own)


def _say_why(key: str, project: Project, colourway: Colourway) -> str:
    """Every change that touches a cloth, in words."""
    names = {k: colourway.names.get(k) or fabric.name for k, fabric in project.fabrics.items()}
    if key in colourway.same_as:
        return phrase("cut from {cloth} here", cloth=names[colourway.same_as[key]])
    taken = [names[k] for k, other in colourway.same_as.items() if other == key]
    reasons = (
        [phrase("what was {cloths} is cut from it too", cloths=phrase(" and ").join(taken))] if taken else []
    )
    if key in colourway.cloths:
        reasons += _say_changes(project.fabrics[key], colourway.cloths[key], project.measure)
    return ", ".join(reasons) or phrase("its strips are laid otherwise")


def _say_changes(before: Fabric, after: Fabric, measure: str) -> list[str]:
    changes: list[tuple[Any, Any, str]] = [
        (
            before.usable_width,
            after.usable_width,
            phrase("{length} of usable width", length=format_length(after.usable_width, measure)),
        ),
        (
            before.shrinkage,
            after.shrinkage,
            phrase("shrinks by {share} %", share=say_number(float(after.shrinkage * 100))),
        ),
        (
            before.directional,
            after.directional,
            phrase("a print with a right way up")
            if after.directional
            else phrase("no longer a print with a right way up"),
        ),
        (
            before.napped,
            after.napped,
            phrase("a pile that runs one way")
            if after.napped
            else phrase("no longer a pile that runs one way"),
        ),
        (
            before.sold_as,
            after.sold_as,
            phrase("sold as {name}", name=after.sold_as.name)
            if after.sold_as
            else phrase("sold from the roll"),
        ),
    ]
    return [words for old, new, words in changes if old != new]
