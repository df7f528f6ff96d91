"""Every cloth is planned twice, tight and simple, and the document says which one is followed."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.craft.cutting_choices import SIMPLE, TIGHT
from service.craft.fabric import Fabric
from workers.cutting.buying import cloth_to_buy, longest_for_the_same
from workers.cutting.cuts import Cut
from workers.cutting.plan import PlannedStrip, StripPlan, choose_plan, most_length, plan_cloth

from .conftest import document, patch

LEAF = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40))

cuts = st.builds(
    Cut,
    fabric=st.just("leaf"),
    width=st.integers(8, 200).map(lambda n: Fraction(n, 8)),
    height=st.integers(8, 200).map(lambda n: Fraction(n, 8)),
    count=st.integers(1, 30),
    makes=st.just(1),
    wanted=st.just(1),
    shape=st.just("rectangle"),
    may_turn=st.booleans(),
)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(cuts, min_size=1, max_size=5), st.sampled_from(["", TIGHT, SIMPLE]))
def test_the_simple_plan_is_no_more_work_and_never_needs_more_than_allowed(listed, wanted):
    """The same step of the shop, or where it is asked for 2 % more cloth."""
    plan = plan_cloth(LEAF, dict(enumerate(listed)), wanted=wanted)
    assert plan.simple.effort <= plan.tight.effort
    allowed = longest_for_the_same(plan.length, LEAF)
    if wanted == SIMPLE:
        allowed = max(allowed, plan.length * Fraction(102, 100))
    assert plan.length <= plan.simple.length <= allowed
    if not wanted:
        assert cloth_to_buy(plan.simple.length, LEAF) == cloth_to_buy(plan.length, LEAF)
    assert plan.proved == (plan.length == plan.lower_bound)


def test_two_percent_more_cloth_only_where_it_is_asked_for():
    """35 in and 1 in for straightening are a yard to the hair: not a thread more for the same money."""
    assert most_length(Fraction(35), LEAF, "") == most_length(Fraction(35), LEAF, TIGHT) == 35
    assert most_length(Fraction(35), LEAF, SIMPLE) == Fraction("35.7")


@pytest.mark.parametrize(
    ("wanted", "length", "words"),
    [
        (TIGHT, 36, "the document asks for the tight plan"),
        (SIMPLE, 35, "the document asks for the simple plan"),
        (SIMPLE, 36, "the document asks for the simple plan, with 1/8 yd more to buy"),
    ],
)
def test_the_documents_choice_is_followed_and_what_it_costs_is_told(wanted, length, words):
    """35 in and 1 in to straighten are a yard; 36 in take an eighth more."""
    tight, simple = StripPlan((), Fraction(34), 3), StripPlan((), Fraction(length), 0)
    assert choose_plan(tight, simple, wanted, LEAF) == (wanted, words)


@pytest.mark.parametrize(
    ("strips", "mixed", "words"),
    [
        (9, 0, "no strip with more than one size in place of 2, and no more cloth to buy"),
        (9, 1, "1 strip with more than one size in place of 2, and no more cloth to buy"),
        (7, 4, "7 strips in place of 9, and no more cloth to buy"),
    ],
)
def test_a_choice_is_told_by_what_is_saved(strips, mixed, words):
    strip = PlannedStrip(Fraction(1), ())
    tight, simple = StripPlan((strip,) * 9, Fraction(9), 2), StripPlan((strip,) * strips, Fraction(10), mixed)
    assert choose_plan(tight, simple, "", LEAF) == (SIMPLE, words)


def sides_of(cut):
    return frozenset((cut["width"]["text"], cut["height"]["text"]))


def test_the_answer_shows_both_plans_and_buys_for_the_followed_one(runner, plan):
    made = plan(runner | {"cutting": {"plan": "tight"}})
    for cloth in made["fabrics"]:
        assert (cloth["follow"], cloth["because"]) == ("tight", "the document asks for the tight plan")
        for shown in (cloth, cloth["simple"]):
            assert shown["strip_count"] == len(shown["strips"])
            assert shown["mixed"] == sum(
                len({sides_of(made["cuts"][piece["cut"]]) for piece in strip["pieces"]}) > 1
                for strip in shown["strips"]
            )
            assert sum(s["height"]["inches"] for s in shown["strips"]) == shown["length"]["inches"]
        assert cloth["simple"]["buy"]["inches"] >= cloth["simple"]["length"]["inches"] + 1


def test_straightening_and_step_stand_in_the_answer(plan):
    raw = document(patch("35 1/2", "35 1/2", "frost"), cutting={"straightening": 0, "buying_step": "1/4 yd"})
    [cloth] = plan(raw)["fabrics"]
    assert [cloth[key]["text"] for key in ("length", "straightening", "buying_step", "buy")] == [
        "36 in",
        "0 in",
        "9 in",
        "36 in",
    ]
    assert cloth["buy_words"] == "1 yd"
