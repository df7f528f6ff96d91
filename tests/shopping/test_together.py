"""What holds for any list: together is never more, and others change nothing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.shopping.conftest import FROST, inches, shop
from workers.cutting.cuts import SQUARE, Cut
from workers.shopping.lengths import Roll, find_reach
from workers.shopping.reckoning import Planner

SIDES = st.integers(2, 60).map(lambda n: Fraction(n, 4))
SHARES = st.sampled_from([0, 0.03])
CLOTHS = st.sampled_from(["frost white", "leek green"])


@st.composite
def projects(draw, title):
    """A column of patches of one to four sizes, of two cloths at most, that may lose something in the wash."""
    fabrics = {
        name: FROST
        | {"name": name, "shrinkage": draw(SHARES), "straightening": draw(st.sampled_from([0, 1]))}
        for name in draw(st.lists(CLOTHS, min_size=1, max_size=2, unique=True))
    }
    sizes = draw(st.lists(SIDES, min_size=1, max_size=4))
    rows = [
        [{"unit": "patch", "size": ["5", str(size)], "fabric": draw(st.sampled_from(sorted(fabrics)))}]
        for size in sizes
        for _ in range(draw(st.integers(1, 5)))
    ]
    return {"title": title, "fabrics": fabrics, "top": {"unit": "grid", "rows": rows}}


SOME = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@SOME
@given(projects("A"), projects("B"), st.integers(1, 60))
def test_together_is_never_more_than_apart(one, other, kits):
    """In length and in money, kits and projects, with time for a search and without; and never less than nothing."""
    for seconds in (0.0, 2.0):
        for cloth in shop(one, other, kits=kits, seconds=seconds)["cloths"]:
            steps = [cloth["apart"], cloth["by_project"], cloth["at_once"]]
            assert inches(steps[0]) >= inches(steps[1]) >= inches(steps[2]) > 0
            assert steps[0]["cost"] >= steps[1]["cost"] >= steps[2]["cost"] > 0
            assert all(saved["cost"] >= 0 and inches(saved) >= 0 for saved in cloth["saved"].values())
            assert inches(cloth["studio"]["by_project"]) >= inches(cloth["one_kit"])
            plans = [cloth["at_once"], cloth["studio"]["at_once"], *(s["kits"] for s in cloth["projects"])]
            assert all(plan["lower_bound"]["inches"] <= plan["length"]["inches"] for plan in plans)


@SOME
@given(projects("A"), projects("B"), st.integers(1, 20))
def test_a_project_of_other_cloths_changes_nothing(one, other, kits):
    """What a list says of a cloth is the same, whatever else is on it."""
    strange = {
        **other,
        "fabrics": {key: cloth | {"name": f"other {key}"} for key, cloth in other["fabrics"].items()},
    }
    alone = shop(one, kits=kits)["cloths"]
    assert shop(one, strange, kits=kits)["cloths"][: len(alone)] == alone
    assert shop(strange, one, kits=kits)["cloths"][-len(alone) :] == alone


@SOME
@given(projects("A"), st.integers(1, 20))
def test_the_same_list_is_the_same_to_the_byte(one, kits):
    """Asked twice, with time enough."""
    assert shop(one, kits=kits) == shop(one, kits=kits)


def square(side, count):
    width = Fraction(side)
    return Cut(
        fabric="ground", width=width, height=width, count=count, makes=count, wanted=count, shape=SQUARE
    )


@pytest.mark.parametrize(("times", "strips"), [(1, 2), (2, 3), (10_000, 15_000), (9_999, 14_999)])
def test_many_kits_are_planned_in_rounds(times, strips):
    """Six squares of 10 in, four to a strip: so many strips, also where they are more than is planned in one go."""
    reach = find_reach(Roll(Fraction(40)), [square(10, 6)], times, seconds=5.0)
    assert reach.amount == 10 * strips
    assert (6 * times > Roll.most_at_once) is (times > 5_000)


def test_rounds_take_no_less_than_what_nothing_can_go_below():
    """Three squares of 13 in a kit, three to a strip, 10 000 kits: 10 000 strips; the area alone would ask for less."""
    reach = find_reach(Roll(Fraction(40)), [square(13, 3)], 10_000, seconds=5.0)
    assert reach.amount == 130_000
    assert 0.9 * 130_000 < reach.lower_bound <= reach.amount


def test_time_is_shared_and_what_was_found_is_found_once():
    """Two plans have ten seconds: each gets no more than its limit, the second what is left; the third costs none."""
    left = iter([10.0, 0.0])
    planner = Planner(lambda: next(left), plans=3)
    cloth = Roll(Fraction(40))
    first = planner.find(cloth, [square(10, 6)])
    planner.find(cloth, [square(7, 31)])
    assert planner.find(cloth, [square(10, 6)]) is first
