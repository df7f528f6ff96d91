"""The handout prints the plan that is followed, and says how good it is."""

from __future__ import annotations

import pytest

from service.craft.document import read_document
from service.craft.measure import length_object, parse_length
from workers.handouts.cloth_plans import plan_cloths
from workers.handouts.plan_words import find_followed, say_plan, say_stacked

from .conftest import cut, strip


def length(text):
    return length_object(parse_length(text, "in"), "in")


def entry(**more):
    simple = {"length": length("34"), "strip_count": 2, "mixed": 0, "strips": [strip("17", (0, 1))] * 2}
    tight = {"length": length("32 1/2"), "strip_count": 3, "mixed": 2, "strips": []}
    bought = {"buy": length("40 1/2"), "buy_for_tight": length("40 1/2")}
    rules = {"lower_bound": length("32"), "per_size_rule": length("36"), "fit_rule": length("34 1/2")}
    return (
        {"fabric": "leaf", "follow": "simple", "proved": False, "simple": simple}
        | tight
        | bought
        | rules
        | more
    )


def test_the_followed_plan_is_told_beside_the_shortest_with_its_bound_and_both_rules():
    assert say_plan(entry(), "in").split(". ") == [
        "34 in of cloth in 2 strips",
        "The shortest plan found: 32 1/2 in of cloth in 3 strips, 2 with more than one size, as much to buy",
        "None can take less than 32 in; whether one comes nearer to that is not known",
        "Each size from strips of its own would take 36 in, the tallest pieces first 34 1/2 in.",
    ]


def test_what_is_proved_is_the_shortest_plan_and_not_the_one_printed():
    told = say_plan(entry(proved=True, lower_bound=length("32 1/2")), "in").split(". ")
    assert (
        told[1].startswith("The shortest plan found: 32 1/2 in")
        and told[2] == "None can be shorter than that"
    )


def test_a_simple_plan_for_which_more_is_bought_says_what_the_shortest_would_need():
    assert ", 36 in to buy. " in say_plan(entry(buy_for_tight=length("36")), "in")


def test_a_proved_plan_is_called_so_and_rules_that_agree_are_told_once():
    told = say_plan(entry(follow="tight", proved=True, fit_rule=length("36")), "in")
    assert told.split(". ") == [
        "32 1/2 in of cloth in 3 strips, 2 with more than one size",
        "None can be shorter",
        "By rule of thumb it would be 36 in.",
    ]


@pytest.mark.parametrize(("follow", "strips"), [("simple", 2), ("tight", 0)])
def test_the_strips_of_the_followed_plan_are_printed(follow, strips):
    assert len(find_followed(entry(follow=follow))["strips"]) == strips
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"}
    project = read_document({"title": "Leek", "fabrics": {"leaf": {"napped": True}}, "top": patch})
    cutting = {"cuts": [cut("leaf", "square", "17", "17", 2)], "fabrics": [entry(follow=follow)]}
    [plan] = plan_cloths(project, cutting)
    assert bool(plan.strips) == bool(strips)
    assert plan.words.startswith("34 in" if strips else "32 1/2 in")
    assert any("pile runs one way" in note for note in plan.notes)


def test_a_plan_that_does_not_say_how_good_it_is_is_printed_without_words():
    assert say_plan({"fabric": "leaf", "strips": []}, "in") == ""


@pytest.mark.parametrize(
    ("measure", "words", "second"),
    [("in", "1 yd", "36 in, 91.4 cm"), ("in", "0.9 m", "36 in, 91.4 cm"), ("mm", "0.9 m", "36 in")],
)
def test_what_to_buy_is_told_as_a_shop_says_it_and_as_a_ruler_does(measure, words, second):
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"}
    project = read_document({"title": "Leek", "fabrics": {"leaf": {}}, "top": patch, "measure": measure})
    bought = length_object(parse_length("36 in", measure), measure)
    [plan] = plan_cloths(project, {"cuts": [], "fabrics": [entry(buy=bought, buy_words=words)]})
    assert (plan.buy.main, plan.buy.second) == (words, second)


def test_a_stacked_plan_is_offered_with_what_it_saves_and_only_where_it_saves_anything():
    plan = {"length": length("30"), "saves": length("4"), "buy": length("36"), "strips": []}
    said = say_stacked(entry(stacked=plan), "in")
    assert said.startswith(
        "For those who like to save cloth: 30 in are enough, 4 in less, with 36 in to buy."
    )
    assert say_stacked(entry(stacked=plan | {"saves": length("0")}), "in") == ""
    assert say_stacked(entry(), "in") == ""
