"""Stacked strips as they stand in the cutting plan of a whole document, and the check that looks them over."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace
from fractions import Fraction

import pytest

from service.craft.document import read_document
from workers.cutting.cut_list import list_cuts
from workers.cutting.recipe import make_cutting_plan, plan_cloths
from workers.cutting.stacked.check import check_stacked
from workers.cutting.stacked.stacked_plan import plan_stacked
from workers.recipe import JobInput

from ..conftest import document, patch


def garden(**more):
    """One square of 8 in when cut, and sixteen of 4 in, in strips of 40 in: 12 in of cloth, or 8 in stacked."""
    large = patch("7 1/2", "7 1/2", "leaf")
    row = {"unit": "grid", "rows": [[patch("3 1/2", "3 1/2", "leaf")] * 16]}
    edge = patch("48 1/2", "7 1/2", "frost")
    raw = document(
        {"unit": "grid", "rows": [[{"unit": "grid", "rows": [[large, edge]]}], [row]]},
        **more,
    )
    raw["fabrics"]["frost"]["usable_width"] = "60"
    return raw


def leaf(made):
    return next(cloth for cloth in made["fabrics"] if cloth["fabric"] == "leaf")


def test_what_stacking_saves_is_said_unasked_where_it_saves_a_step_of_the_shop(plan):
    """12 in and an inch to straighten are bought as 13 1/2 in, 8 in and an inch as 9 in."""
    made = leaf(plan(garden()))
    assert (made["length"]["text"], made["buy"]["text"]) == ("12 in", "13 1/2 in")
    stacked = made["stacked"]
    assert (stacked["length"]["text"], stacked["saves"]["text"]) == ("8 in", "4 in")
    assert (stacked["buy"]["text"], stacked["saves_buying"]["text"]) == ("9 in", "4 1/2 in")
    assert (stacked["lower_bound"]["text"], stacked["proved"]) == ("8 in", True)
    [strip] = stacked["strips"]
    widths = [column["width"]["inches"] for column in strip["columns"]]
    assert widths == [8.0] + [4.0] * 8
    assert [run["count"] for column in strip["columns"] for run in column["pieces"]] == [1] + [2] * 8


def test_where_no_step_is_saved_it_is_said_only_when_asked(plan):
    """Quarters of a yard, 6 in to straighten: 18 in are bought for 12 in of cloth, and 18 in for 8 in."""
    quiet = garden()
    quiet["fabrics"]["leaf"].update({"straightening": "6 in", "buying_step": "1/4 yd"})
    assert "stacked" not in leaf(plan(quiet))
    stacked = leaf(plan(quiet | {"cutting": {"stacked": True}}))["stacked"]
    assert (stacked["saves"]["text"], stacked["saves_buying"]["inches"]) == ("4 in", 0)


def test_asked_for_it_stands_at_every_cloth(plan):
    made = plan(garden(cutting={"stacked": True}))
    assert all("stacked" in cloth for cloth in made["fabrics"])
    frost = next(cloth for cloth in made["fabrics"] if cloth["fabric"] == "frost")
    assert frost["stacked"]["saves"]["inches"] == 0


def test_the_plan_without_stacking_stays_what_it_is(plan):
    quiet, asked = plan(garden()), plan(garden(cutting={"stacked": True}))
    for one, other in zip(quiet["fabrics"], asked["fabrics"], strict=True):
        assert {k: v for k, v in one.items() if k != "stacked"} == {
            k: v for k, v in other.items() if k != "stacked"
        }


def test_the_same_document_gives_the_same_bytes():
    raw = garden(cutting={"stacked": True})
    first, second = (make_cutting_plan(JobInput("cutting", deepcopy(raw))) for _ in range(2))
    assert first == second


@pytest.fixture
def good():
    project = read_document(garden())
    cuts = list_cuts(project)
    plan = next(plan for plan in plan_cloths(project, cuts) if plan.fabric.key == "leaf")
    stacked = plan_stacked(plan, {n: c for n, c in enumerate(cuts) if c.fabric == "leaf"}, thorough=True)
    assert check_stacked(cuts, stacked) == []
    return cuts, stacked


def with_columns(plan, columns):
    return replace(plan, strips=(replace(plan.strips[0], columns=tuple(columns)), *plan.strips[1:]))


def test_a_missing_piece_is_found(good):
    cuts, plan = good
    wrong = check_stacked(cuts, with_columns(plan, plan.strips[0].columns[1:]))
    assert any("are in the list" in words for words in wrong)


def test_columns_wider_than_the_cloth_are_found(good):
    cuts, plan = good
    wrong = check_stacked(cuts, with_columns(plan, plan.strips[0].columns * 2))
    assert any("over the edge" in words for words in wrong)


def test_a_piece_wider_than_its_column_is_found(good):
    cuts, plan = good
    first, *others = plan.strips[0].columns
    narrow = replace(first, width=first.width - 1)
    wrong = check_stacked(cuts, with_columns(plan, [narrow, *others]))
    assert any("wider than its column" in words for words in wrong)
    assert any("on each other" in words for words in wrong)


def test_a_column_higher_than_its_strip_is_found(good):
    cuts, plan = good
    low = replace(plan.strips[0], height=plan.strips[0].height - 1)
    wrong = check_stacked(cuts, replace(plan, strips=(low, *plan.strips[1:])))
    assert any("higher than its strip" in words for words in wrong)
    assert any("do not come to the length" in words for words in wrong)


def test_a_piece_that_lies_turned_and_must_not_is_found(good):
    cuts, plan = good
    first, *others = plan.strips[0].columns
    turned = replace(first, runs=tuple(replace(run, turned=True) for run in first.runs))
    wrong = check_stacked(cuts, with_columns(plan, [turned, *others]))
    assert any("must not" in words for words in wrong)


def test_a_length_below_its_bound_or_above_no_stacking_is_found(good):
    cuts, plan = good
    for changed in (replace(plan, lower_bound=Fraction(99)), replace(plan, unstacked=Fraction(1))):
        assert any("below its bound" in words for words in check_stacked(cuts, changed))
