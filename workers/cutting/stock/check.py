"""Looks over what is cut from pieces of cloth: lays all of it on a plane, and sees that nothing lies on another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from service.craft.document import Project
from service.craft.fabric import Fabric
from workers.cutting.cuts import Cut
from workers.cutting.plan import ClothPlan, PlannedStrip
from workers.cutting.plane import Block, find_trouble
from workers.cutting.stock.leftovers import list_left
from workers.cutting.stock.stock_plan import (
    CutPiece,
    SoldPlan,
    StashPlan,
    StockPlan,
    followed_piece,
    roll_piece,
)


def check_stocks(
    project: Project, cuts: Sequence[Cut], cloths: Sequence[ClothPlan], plans: Mapping[str, StockPlan]
) -> list[str]:
    """What is wrong with what is said of stash, pieces sold and leftovers, in sentences; empty where all is well."""
    found = []
    for key, plan in plans.items():
        own = {number: cut for number, cut in enumerate(cuts) if cut.fabric == key}
        wrong = check_stock(own, project.fabrics[key], plan, project.cutting.worth_keeping)
        found += [f'"{key}", {words}' for words in wrong]
    for cloth in cloths:
        piece, own = followed_piece(cloth), dict(enumerate(cuts))
        wrong = list(check_piece(piece, own, cloth.fabric, project.cutting.worth_keeping))
        found += [f'"{cloth.fabric.key}", bought: {words}' for words in wrong]
    return found


def check_stock(cuts: Mapping[int, Cut], fabric: Fabric, plan: StockPlan, keep: Fraction) -> list[str]:
    """What is wrong with the plans of a cloth's stash and of the pieces it is sold in, in sentences."""
    found = check_stash(cuts, fabric, plan.stash, keep) if plan.stash else []
    return found + (check_sold(cuts, fabric, plan.sold, keep) if plan.sold else [])


def check_stash(cuts: Mapping[int, Cut], fabric: Fabric, plan: StashPlan, keep: Fraction) -> list[str]:
    """What is wrong with what is cut from a stash, in sentences: all of the cloth's cuts come out, once, and no
    piece is used that is not there.
    """
    found = [
        f"stash {p.number}: {wrong}" for p in plan.pieces for wrong in check_piece(p, cuts, fabric, keep)
    ]
    found += [f"bought: {wrong}" for p in plan.bought for wrong in check_piece(p, cuts, fabric, keep)]
    roll = roll_piece(fabric, plan.length, plan.roll)
    found += [f"roll: {wrong}" for wrong in check_piece(roll, cuts, fabric, keep)]
    for number, count in Counter(piece.number for piece in plan.pieces).items():
        there = {fabric.stash[number].count} if number < len(fabric.stash) else set()
        copies = {piece.copy for piece in plan.pieces if piece.number == number}
        if len(copies) < count or not there or min(copies) < 0 or max(copies) >= max(there):
            found.append(f"stash {number}: {count} pieces are cut, {max(there, default=0)} are there")
    found += _check_sizes(fabric, plan)
    return found + list(_check_counts(cuts, [*plan.pieces, *plan.bought, roll]))


def _check_sizes(fabric: Fabric, plan: StashPlan) -> Iterator[str]:
    for piece in plan.pieces:
        entry = fabric.stash[piece.number] if piece.number < len(fabric.stash) else None
        if entry and (entry.width, entry.length) != (piece.width, piece.length):
            yield f"stash {piece.number}: a piece of another size is cut"


def check_sold(cuts: Mapping[int, Cut], fabric: Fabric, plan: SoldPlan, keep: Fraction) -> list[str]:
    """What is wrong with the pieces bought: every cut comes out of them, but for those that are too large."""
    size = (plan.sold_as.width, plan.sold_as.length)
    found = [f"piece {p.copy}: {wrong}" for p in plan.pieces for wrong in check_piece(p, cuts, fabric, keep)]
    found += [f"piece {p.copy}: of another size" for p in plan.pieces if (p.width, p.length) != size]
    if not plan.lower_bound <= len(plan.pieces):
        found.append("fewer pieces are bought than the bound says are needed")
    held = {number: cut for number, cut in cuts.items() if number not in plan.too_large}
    return found + list(_check_counts(held, plan.pieces))


def _check_counts(cuts: Mapping[int, Cut], pieces: Iterable[CutPiece]) -> Iterator[str]:
    made = Counter[int]()
    for piece in pieces:
        for strip in piece.strips:
            for run in strip.runs:
                made[run.cut] += run.count
    for number in sorted({*made, *cuts}):
        due = cuts[number].count if number in cuts else 0
        if made[number] != due:
            yield f"cut {number}: {made[number]} are cut, {due} are in the list"


def check_piece(piece: CutPiece, cuts: Mapping[int, Cut], fabric: Fabric, keep: Fraction) -> Iterator[str]:
    """What is wrong with one piece: all lies inside it and apart, the right way, and is cut strip by strip."""
    if piece.turned and fabric.one_way:
        yield "strips run along a cloth that has a direction"
    width, height = piece.sides
    blocks = list(_lay(piece.strips, cuts))
    for number, turned in {(run.cut, run.turned) for strip in piece.strips for run in strip.runs}:
        cut = cuts[number]
        lies_turned = turned != piece.turned
        if lies_turned and (fabric.one_way or not (cut.may_turn or cut.width == cut.height)):
            yield f"cut {number} lies turned, and must not"
    left = [block for block, _ in list_left(piece.strips, cuts, (width, height), keep)]
    yield from find_trouble([*blocks, *left], width, height)
    if any(min(block.across, block.along) < keep for block in left):
        yield "a leftover is smaller than is worth keeping"


def _lay(strips: Sequence[PlannedStrip], cuts: Mapping[int, Cut]) -> Iterator[Block]:
    """Every run of pieces where it lies; a strip is as high as it says, and a taller piece reaches over it."""
    top = Fraction(0)
    for strip in strips:
        edge = Fraction(0)
        for run in strip.runs:
            cut = cuts[run.cut]
            across, along = (cut.height, cut.width) if run.turned else (cut.width, cut.height)
            yield Block(edge, top, across * run.count, along)
            edge += across * run.count
        top += strip.height
