"""The check finds what is wrong with a plan, whoever made it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

import pytest

from service.craft.cutting_choices import ALONG, STRIP_CUTS
from service.craft.document import read_document
from workers.cutting.check import check_patches, check_plan
from workers.cutting.cloth_check import check_cloth
from workers.cutting.cut_list import list_cuts
from workers.cutting.direction_check import check_direction, check_joins
from workers.cutting.plan import ClothPlan
from workers.cutting.recipe import plan_cloths

from .conftest import document, patch


@dataclass(frozen=True)
class Rebought(ClothPlan):
    """A plan for which something else is bought than it needs."""

    bought: Fraction = Fraction(0)

    @property
    def buy(self):
        return self.bought


@pytest.fixture
def made(star):
    project = read_document(document({"unit": "grid", "rows": [["star"] * 4]}, blocks={"star": star}))
    cuts = list_cuts(project)
    return project, cuts, plan_cloths(project, cuts)


def with_strip(plan, strip, name="tight"):
    """The same cloth with another first strip in one of its plans."""
    changed = getattr(plan, name)
    return replace(plan, **{name: replace(changed, strips=(strip, *changed.strips[1:]))})


def test_a_good_plan_has_nothing_wrong(made):
    assert check_plan(*made) == []


def test_a_cloth_without_strips_is_found(made):
    project, cuts, plans = made
    assert check_plan(project, cuts, plans[:1]) == ['no strips for "leaf"'] * 2


def test_a_missing_piece_is_found(made):
    _, cuts, (plan, _) = made
    first = plan.strips[0]
    run = replace(first.runs[0], count=first.runs[0].count - 1)
    wrong = check_cloth(cuts, with_strip(plan, replace(first, runs=(run, *first.runs[1:]))))
    assert any("pieces in the strips" in w for w in wrong)


def test_a_piece_of_another_cloth_is_found(made):
    _, cuts, (plan, _) = made
    foreign = next(i for i, c in enumerate(cuts) if c.fabric == "leaf")
    first = plan.strips[0]
    wrong = check_cloth(cuts, with_strip(plan, replace(first, runs=(replace(first.runs[0], cut=foreign),))))
    assert any(w.startswith(f"cut {foreign}:") for w in wrong)


def test_a_strip_fuller_than_the_cloth_is_wide_is_found(made):
    _, cuts, (plan, _) = made
    first = plan.strips[0]
    wrong = check_cloth(cuts, with_strip(plan, replace(first, runs=first.runs * 3)))
    assert any("in wide" in w for w in wrong)


@pytest.mark.parametrize("height", [Fraction(1), Fraction(5)])
def test_a_strip_lower_or_taller_than_its_tallest_piece_is_found(made, height):
    _, cuts, (plan, _) = made
    wrong = check_cloth(cuts, with_strip(plan, replace(plan.strips[0], height=height)))
    assert any("the tallest piece" in w for w in wrong)
    assert any("the plan says" in w for w in wrong)


def test_a_turned_piece_that_must_not_turn_is_found(made):
    _, cuts, (plan, _) = made
    first = plan.strips[0]
    wrong = check_cloth(cuts, with_strip(plan, replace(first, runs=(replace(first.runs[0], turned=True),))))
    assert any("lies turned" in w for w in wrong)


def test_an_empty_run_is_found(made):
    _, cuts, (plan, _) = made
    first = plan.strips[0]
    wrong = check_cloth(cuts, with_strip(plan, replace(first, runs=(replace(first.runs[0], count=0),))))
    assert any("a run of 0" in w for w in wrong)


def test_a_piece_missing_in_the_simple_plan_is_found(made):
    _, cuts, (plan, _) = made
    run = plan.simple.strips[0].runs[0]
    short = replace(plan.simple.strips[0], runs=(replace(run, count=run.count + 1),))
    wrong = check_cloth(cuts, with_strip(plan, short, "simple"))
    assert any(w.startswith("simple plan: cut") for w in wrong)


def test_a_turned_piece_of_a_cloth_with_a_nap_is_found(star):
    """A pile that runs one way: the same plan that is sound on plain cloth is not."""
    raw = document({"unit": "grid", "rows": [[patch("6", "2", "leaf")] * 3]})
    project = read_document(raw)
    cuts = list_cuts(project)
    [plan] = plan_cloths(project, cuts)
    turned = tuple(
        replace(strip, runs=tuple(replace(r, turned=True) for r in strip.runs)) for strip in plan.strips
    )
    napped = replace(plan, fabric=replace(plan.fabric, napped=True), tight=replace(plan.tight, strips=turned))
    assert any("lies turned, and must not" in w for w in check_cloth(cuts, napped))


@pytest.mark.parametrize("way", STRIP_CUTS[:2])
def test_a_strip_that_lies_another_way_than_asked_is_found(way):
    top = {
        "unit": "bordered",
        "inside": patch("9", "9", "frost"),
        "borders": [{"width": "2", "fabric": "leaf", "cut": way}],
    }
    project = read_document(document(top))
    cuts = list_cuts(project)
    plan = next(p for p in plan_cloths(project, cuts) if p.fabric.key == "leaf")
    assert check_cloth(cuts, plan) == []
    other = next(other for other in STRIP_CUTS if other != way)
    asked = [replace(cut, grain=other if cut.grain else "") for cut in cuts]
    assert f"is to lie {other}, and does not" in check_cloth(asked, plan)[0]


def test_a_wrong_number_of_mixed_strips_is_found(made):
    _, cuts, (plan, _) = made
    wrong = check_cloth(cuts, replace(plan, tight=replace(plan.tight, mixed=plan.tight.mixed + 1)))
    assert any("strips mix sizes" in w for w in wrong)


@pytest.mark.parametrize(
    ("more", "words"),
    [(Fraction(9, 2), "a step more"), (Fraction(-9, 2), "are needed"), (Fraction(1), "whole number")],
)
def test_cloth_bought_short_or_in_vain_or_between_two_steps_is_found(made, more, words):
    _, cuts, (plan, _) = made
    wrong = check_cloth(cuts, Rebought(**vars(plan), bought=plan.buy + more))
    assert any(words in w for w in wrong)


@pytest.mark.parametrize("field", ["lower_bound", "per_size_rule", "fit_rule"])
def test_a_bound_above_the_plan_or_a_rule_below_it_is_found(made, field):
    _, cuts, (plan, _) = made
    value = plan.length + 1 if field == "lower_bound" else plan.length - 1
    assert any("bound" in w for w in check_cloth(cuts, replace(plan, **{field: value})))


def test_a_patch_without_a_cut_is_found(made):
    project, cuts, _ = made
    assert any("the top has" in w for w in check_patches(project, cuts[1:]))


def test_a_cut_that_makes_too_few_is_found(made):
    project, cuts, _ = made
    short = replace(cuts[0], makes=cuts[0].wanted - 1)
    assert any("a cut makes" in w for w in check_patches(project, [short, *cuts[1:]]))


@pytest.fixture
def lying():
    """Two patches of a cloth with a direction, wider than high, on a top, and their cuts."""
    raw = document({"unit": "grid", "rows": [[patch("4", "2", "leaf")], [patch("4", "2", "leaf")]]})
    raw["fabrics"]["leaf"]["directional"] = True
    project = read_document(raw)
    return project, list_cuts(project)


def test_a_print_the_right_way_up_has_nothing_wrong(lying):
    assert check_direction(*lying) == []


def test_a_print_on_its_side_is_found(lying):
    project, [cut] = lying
    turned = replace(cut, width=cut.height, height=cut.width)
    assert check_direction(project, [turned]) == ['2 pieces of "leek green" lie the wrong way up']


@pytest.mark.parametrize(
    ("wrap", "width"),
    [
        (lambda unit: {"unit": "turned", "inside": unit, "turn": 90}, Fraction(5, 2)),
        (lambda unit: {"unit": "mirrored", "inside": unit}, Fraction(9, 2)),
        (
            lambda unit: {
                "unit": "turned",
                "inside": {"unit": "turned", "inside": unit, "turn": 90},
                "turn": 270,
            },
            Fraction(9, 2),
        ),
    ],
    ids=["turned", "mirrored", "turned there and back"],
)
def test_the_way_up_is_that_of_the_top_and_not_of_the_block(wrap, width):
    """4 by 2 in finished, turned once: 2 1/2 in across the roll and 4 1/2 along it keep the print upright."""
    raw = document(wrap(patch("4", "2", "leaf")))
    raw["fabrics"]["leaf"]["directional"] = True
    project = read_document(raw)
    [cut] = list_cuts(project)
    assert cut.width == width
    assert check_direction(project, [cut]) == []
    assert check_direction(project, [replace(cut, width=cut.height, height=cut.width)])


def test_a_print_that_is_asked_to_run_along_a_strip_is_not_on_its_side(lying):
    project, [cut] = lying
    assert check_direction(project, [replace(cut, width=cut.height, height=cut.width, grain=ALONG)]) == []


@pytest.mark.parametrize("join", ["straight", "diagonal"])
def test_a_join_that_takes_more_than_is_reckoned_with_is_found(join):
    top = {
        "unit": "bordered",
        "inside": patch("10", "60", "frost"),
        "borders": [{"width": "2", "fabric": "leaf"}],
    }
    project = read_document(document(top, cutting={"join": join}))
    cuts = list_cuts(project)
    assert list(check_joins(project, cuts)) == []
    number, joined = next((i, cut) for i, cut in enumerate(cuts) if cut.joined)
    cuts[number] = replace(joined, width=joined.width - Fraction(1, 4))
    [wrong] = check_joins(project, cuts)
    assert (
        wrong == f"cut {number}: 2 pieces come to {joined.joined.total - Fraction(1, 2)} in, not to 121/2 in"
    )
    cuts[number] = replace(joined, count=joined.count - 1)
    assert len(list(check_joins(project, cuts))) == 1
