"""Stash, pieces sold and leftovers as they stand in the cutting plan of a whole document."""

from __future__ import annotations

from copy import deepcopy

import pytest

from workers.cutting.recipe import make_cutting_plan
from workers.recipe import CannotMake, JobInput

from ..conftest import document, patch


def bed(rows=4, columns=5, **cloth):
    """A bed of leaf squares, 4 1/2 in when cut: 8 to a strip of 40 in."""
    raw = document({"unit": "grid", "rows": [[patch("4", "4", "leaf")] * columns] * rows})
    raw["fabrics"]["leaf"].update(cloth)
    return raw


def leaf(made):
    [cloth] = made["fabrics"]
    return cloth


STASH = [{"width": "18", "length": "21", "count": 2}]


def test_a_cloth_without_stash_says_only_what_is_left(plan):
    cloth = leaf(plan(bed()))
    assert "from_stash" not in cloth and "buy_pieces" not in cloth
    assert cloth["left_over"]


def test_the_stash_changes_nothing_about_what_viewers_buy(plan):
    with_stash, without = leaf(plan(bed(stash=STASH))), leaf(plan(bed()))
    same = set(without) - {"stash"}
    assert {key: with_stash[key] for key in same} == {key: without[key] for key in same}


def test_what_the_stash_gives_and_what_is_still_to_buy(plan):
    """18 by 21 in gives 4 by 4 squares of 4 1/2 in; two pieces give 32 of 40, the rest one strip of the roll."""
    made = leaf(plan(bed(rows=4, columns=10, stash=STASH)))["from_stash"]
    assert made["enough"] is False
    assert [(piece["stash"], piece["copy"]) for piece in made["pieces"]] == [(0, 0), (0, 1)]
    counts = [
        run["count"] for piece in made["pieces"] for strip in piece["strips"] for run in strip["pieces"]
    ]
    assert sum(counts) == 32
    rest = made["still_to_buy"]
    assert (rest["length"]["text"], rest["proved"], rest["lower_bound"]["text"]) == (
        "4 1/2 in",
        True,
        "4 1/2 in",
    )
    # of 9 in an inch is straightened and a strip cut, of 40 in eight squares
    left = [(one["width"]["text"], one["length"]["text"]) for one in rest["left_over"]]
    assert left == [("40 in", "3 1/2 in"), ("4 in", "4 1/2 in")]
    assert (rest["buy"]["inches"], rest["buy_words"]) == (9, "1/4 yd")
    assert [run["count"] for strip in rest["strips"] for run in strip["pieces"]] == [8]


def test_with_enough_at_home_nothing_is_to_be_bought_and_the_rest_is_named(plan):
    stash = [{"width": "18", "length": "21", "count": 3}]
    made = leaf(plan(bed(rows=4, columns=8, stash=stash)))["from_stash"]
    assert (made["enough"], made["still_to_buy"]) == (True, None)
    assert {one["from"] for one in made["left"]} >= {"not cut into"}
    assert all(one["stash"] == 0 and one["count"] >= 1 for one in made["left"])


def test_a_cloth_sold_in_pieces_says_how_many_to_buy(plan):
    """A fat quarter of 21 by 18 in gives 16 squares of 4 1/2 in: 34 take three, at 4.20 each."""
    sold = {"name": "fat quarter", "price": "4.20"}
    cloth = leaf(plan(bed(rows=2, columns=17, sold_as=sold)))
    made = cloth["buy_pieces"]
    assert (made["name"], made["count"], made["lower_bound"], made["proved"]) == ("fat quarter", 3, 3, True)
    assert (made["cost"], made["width"]["text"], made["length"]["text"]) == (12.6, "21 in", "18 in")
    assert (made["too_large"], len(made["pieces"])) == ([], 3)
    area = sum(one["count"] * one["width"]["inches"] * one["length"]["inches"] for one in made["left_over"])
    assert 0 < area <= 3 * 21 * 18 - 34 * 4.5**2
    # from the roll: 5 strips of 4 1/2 in and an inch to straighten
    assert cloth["buy"]["inches"] == 27


def test_with_some_at_home_so_many_fewer_are_bought(plan):
    cloth = bed(rows=2, columns=17, sold_as={"name": "fat quarter"}, stash=STASH[:1])
    rest = leaf(plan(cloth))["from_stash"]["still_to_buy"]
    assert (rest["count"], rest["cost"], rest["lower_bound"]) == (1, None, 1)


def test_left_over_is_of_the_length_bought_and_not_below_what_is_worth_keeping(plan):
    """20 squares: 3 strips of 40 in, 13 1/2 in; an inch to straighten, so 18 in are bought and 3 1/2 in are left."""
    left = leaf(plan(bed()))["left_over"]
    assert [(one["width"]["text"], one["length"]["text"], one["count"], one["from"]) for one in left] == [
        ("40 in", "3 1/2 in", 1, "end of the piece"),
        ("22 in", "4 1/2 in", 1, "end of a strip"),
        ("4 in", "4 1/2 in", 2, "end of a strip"),
    ]
    raw = bed()
    raw["cutting"] = {"worth_keeping": "4 1/2"}
    assert [one["width"]["text"] for one in leaf(plan(raw))["left_over"]] == ["22 in"]


def test_the_same_stash_gives_the_same_bytes():
    raw = bed(rows=5, columns=9, stash=STASH, sold_as={"name": "square", "width": "10"})
    first, second = (make_cutting_plan(JobInput("cutting", deepcopy(raw))) for _ in range(2))
    assert first == second


def test_a_plan_of_the_stash_that_cannot_be_cut_is_not_given_out(monkeypatch, plan):
    monkeypatch.setattr("workers.cutting.stock.least_bought.trim", lambda strips, wanted: tuple(strips)[1:])
    with pytest.raises(CannotMake, match="does not stand its own check"):
        plan(bed(stash=STASH))
