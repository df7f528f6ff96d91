"""A cloth cut from its stash and from pieces as they are sold, in inches; the check finds what is wrong with it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from service.craft.fabric import Fabric, SoldAs, StashPiece
from workers.cutting.cuts import RECTANGLE, Cut
from workers.cutting.stock.check import check_sold, check_stash
from workers.cutting.stock.leftovers import count_left_of_stash
from workers.cutting.stock.stock_plan import plan_sold, plan_stash, too_large

KEEP = Fraction(5, 2)
FAT_QUARTER = SoldAs("fat quarter", Fraction(22), Fraction(18), Fraction(4))


def cut(width, height, count, *, may_turn=False, **more):
    return Cut(
        fabric="leaf",
        width=Fraction(width),
        height=Fraction(height),
        count=count,
        makes=count,
        wanted=count,
        shape=RECTANGLE,
        may_turn=may_turn,
        **more,
    )


def leaf(*stash, **more):
    pieces = tuple(StashPiece(Fraction(w), Fraction(h), count) for w, h, count in stash)
    return Fabric("leaf", "leek green", "#5f8f4e", Fraction(40), stash=pieces, **more)


def squares(side, count):
    return {0: cut(side, side, count)}


def test_what_the_stash_does_not_give_comes_from_the_roll():
    """A piece of 21 by 18 in gives 4 by 3 squares of 5 in; of 20 the other 8 fill one strip of 40 in."""
    fabric, cuts = leaf(("21", "18", 1)), squares(5, 20)
    plan = plan_stash(fabric, cuts)
    assert (plan.length, plan.lower_bound, plan.enough) == (5, 5, False)
    assert check_stash(cuts, fabric, plan, KEEP) == []


def test_a_long_piece_is_cut_along_where_the_cloth_has_no_direction():
    """A strip of 30 in out of a piece 12 in wide and 36 in long: along it, unless the print must stand upright."""
    cuts = {0: cut(30, 4, 2, may_turn=True)}
    plan = plan_stash(leaf((12, 36, 1)), cuts)
    assert plan.enough
    assert check_stash(cuts, leaf((12, 36, 1)), plan, KEEP) == []
    upright = leaf((12, 36, 1), directional=True)
    printed = plan_stash(upright, {0: cut(30, 4, 2)})
    assert (printed.pieces, printed.length) == ((), 8)


def test_what_must_keep_its_grain_keeps_it_on_a_piece_cut_along():
    """4 in across the cloth and 30 along it: strips run along the piece, and the cut is turned in its strip."""
    cuts = {0: cut(4, 30, 2)}
    fabric = leaf((9, 36, 1))
    [piece] = plan_stash(fabric, cuts).pieces
    turned = {run.turned != piece.turned for strip in piece.strips for run in strip.runs}
    assert turned == {False}
    assert check_stash(cuts, fabric, plan_stash(fabric, cuts), KEEP) == []


def test_a_cloth_sold_in_pieces_is_also_bought_in_pieces_when_some_is_at_home():
    fabric = leaf((22, 18, 2), sold_as=FAT_QUARTER)
    cuts = squares("2.5", 56 * 4 + 1)
    plan = plan_stash(fabric, cuts)
    assert (len(plan.pieces), len(plan.bought), plan.lower_bound) == (2, 3, 3)
    assert check_stash(cuts, fabric, plan, KEEP) == []


def test_what_no_piece_sold_can_hold_is_named_and_not_counted():
    fabric = leaf(sold_as=FAT_QUARTER)
    cuts = {0: cut(40, "2.5", 3, may_turn=True), 1: cut("2.5", "2.5", 56)}
    plan = plan_sold(fabric, cuts)
    assert (plan.too_large, len(plan.pieces)) == ((0,), 1)
    assert check_sold(cuts, fabric, plan, KEEP) == []
    assert plan_sold(fabric, {0: cuts[0]}).pieces == ()


def test_a_cut_that_may_not_turn_is_too_large_where_only_its_turn_would_fit():
    tall = cut(10, 20, 1)
    assert too_large(FAT_QUARTER, {0: tall}) == (0,)
    assert too_large(FAT_QUARTER, {0: replace(tall, may_turn=True)}) == ()


def test_what_is_left_is_named_with_its_place():
    """22 by 18 in less one strip of 5 in with three squares of 5 in: 7 in at its end, 13 in of the piece."""
    fabric, cuts = leaf((22, 18, 3), napped=True), squares(5, 3)
    plan = plan_stash(fabric, cuts)
    left = list(count_left_of_stash(fabric.stash, plan.pieces, cuts, KEEP))
    assert [(n, one.width, one.length, one.part, count) for n, one, count in left] == [
        (0, 22, 18, "not cut into", 2),
        (0, 22, 13, "end of the piece", 1),
        (0, 7, 5, "end of a strip", 1),
    ]


def test_what_is_too_small_to_keep_is_not_named():
    fabric, cuts = leaf((22, 18, 1)), squares(5, 3)
    left = list(count_left_of_stash(fabric.stash, plan_stash(fabric, cuts).pieces, cuts, Fraction(8)))
    assert [one.part for _, one, _ in left] == ["end of the piece"]


@pytest.fixture
def good():
    fabric = leaf((22, 18, 2), (12, 36, 1))
    cuts = {0: cut(5, 5, 20), 1: cut(9, 3, 12, may_turn=True)}
    plan = plan_stash(fabric, cuts)
    assert check_stash(cuts, fabric, plan, KEEP) == []
    return cuts, fabric, plan


def spoil(plan, **fields):
    first = plan.pieces[0]
    return replace(plan, pieces=(replace(first, **fields), *plan.pieces[1:]))


def test_a_piece_used_more_often_than_it_is_there_is_found(good):
    cuts, fabric, plan = good
    assert any("are there" in w for w in check_stash(cuts, fabric, spoil(plan, copy=2), KEEP))
    twice = replace(plan, pieces=(*plan.pieces, plan.pieces[0]))
    assert any("are there" in w for w in check_stash(cuts, fabric, twice, KEEP))
    assert any("are there" in w for w in check_stash(cuts, fabric, spoil(plan, number=7), KEEP))


def test_a_missing_piece_is_found(good):
    cuts, fabric, plan = good
    wrong = check_stash(cuts, fabric, replace(plan, pieces=plan.pieces[1:]), KEEP)
    assert any("are in the list" in w for w in wrong)


def test_strips_that_do_not_fit_their_piece_are_found(good):
    cuts, fabric, plan = good
    strips = plan.pieces[0].strips
    wrong = check_stash(cuts, fabric, spoil(plan, strips=strips * 3), KEEP)
    assert any("over the edge" in w for w in wrong)
    flat = tuple(replace(strip, height=strip.height - 1) for strip in strips)
    wrong = check_stash(cuts, fabric, spoil(plan, strips=flat), KEEP)
    assert any("on each other" in w or "over the edge" in w for w in wrong)


def test_a_piece_of_another_size_is_found(good):
    cuts, fabric, plan = good
    assert any("another size" in w for w in check_stash(cuts, fabric, spoil(plan, width=Fraction(23)), KEEP))


def test_what_lies_turned_and_must_not_is_found(good):
    cuts, fabric, plan = good
    upright = replace(fabric, directional=True)
    turned = spoil(plan, turned=True, width=plan.pieces[0].length, length=plan.pieces[0].width)
    wrong = check_stash(cuts, upright, turned, KEEP)
    assert any("has a direction" in w for w in wrong) and any("must not" in w for w in wrong)
