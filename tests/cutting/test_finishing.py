"""Binding, backing and batting inside a whole plan; their tables stand in tests/outside."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.finish import Binding
from service.craft.units import CuttingRules
from workers.cutting.backing import cut_panels
from workers.cutting.bias import TooNarrow
from workers.cutting.binding import plan_binding
from workers.recipe import CannotMake

from .conftest import document, patch

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))
MM_RULES = CuttingRules(Fraction(75, 254), Fraction(5, 127))


def test_binding_and_backing_are_cut_from_their_cloth_with_the_patches(plan):
    raw = document(
        patch("30", "20", "leaf"),
        finish={"binding": {"fabric": "leaf"}, "backing": {"fabric": "leaf", "overhang": "2"}},
    )
    made = plan(raw)
    [cloth] = made["fabrics"]
    assert [c["for"] for c in made["cuts"]] == [["backing"], ["top"], ["binding"]]
    # back 34 x 24 in one panel, patch 30 1/2 x 20 1/2, binding 100 + 12 in: three strips of 2 1/4 in
    assert cloth["length"]["inches"] == 24 + 20.5 + 3 * 2.25
    assert made["finishing"]["binding"]["pieces"] == 3
    assert made["finishing"]["binding"]["needed"]["text"] == "112 in"
    assert made["finishing"]["binding"]["joined"]["text"] == "115 1/2 in"
    assert made["finishing"]["backing"]["panels"] == 1
    assert made["finishing"]["batting"] is None


def test_three_panels_of_a_back_are_alike(plan):
    made = plan(
        document(patch("39", "60", "leaf"), finish={"backing": {"fabric": "frost", "overhang": "22"}})
    )
    [cut] = [c for c in made["cuts"] if c["for"] == ["backing"]]
    # 83 by 104 in: three panels of 83 in less four 1/2 in allowances, up to an eighth
    assert (cut["width"]["text"], cut["height"]["text"], cut["count"]) == ("35 3/8 in", "83 in", 3)
    assert cut["then"] == "join 3 side by side with 1/2 in seams, pressed open"


def test_a_top_without_finish_has_none(plan):
    finishing = plan(document(patch("3", "3", "leaf")))["finishing"]
    assert {"binding", "backing", "batting", "fusible"} <= set(finishing)
    assert not any(finishing.values())


def test_two_panels_of_a_back_say_how_they_are_joined(plan):
    made = plan(document(patch("39", "39", "leaf"), finish={"backing": {"fabric": "frost"}}))
    cuts = [c for c in made["cuts"] if c["for"] == ["backing"]]
    # 47 in across, and two 1/2 in allowances: two thirds and one third of 48, the seam 8 in off the middle
    assert [(c["width"]["text"], c["height"]["text"], c["count"]) for c in cuts] == [
        ("32 in", "47 in", 1),
        ("16 in", "47 in", 1),
    ]
    assert [c["then"] for c in cuts] == [
        "join to the narrow panel with a 1/2 in seam, pressed open",
        "join to the wide panel",
    ]
    assert [c["notes"] for c in cuts] == [
        ["the seam lies 31 1/2 in from one edge, off the fold in the middle"],
        [],
    ]
    assert made["finishing"]["backing"]["seams_at"][0]["inches"] == 31.5


def test_continuous_bias_comes_from_squares(plan):
    finish = {"binding": {"fabric": "frost", "cut": "continuous bias"}}
    made = plan(document(patch("20", "20", "leaf"), finish=finish))
    [cut] = [c for c in made["cuts"] if c["for"] == ["binding"]]
    # 92 in of 2 1/4 in bias: the area says 15 in; 16 in give four whole rounds of 21.9 in
    assert (cut["shape"], cut["width"]["text"], cut["count"]) == ("square", "17 in", 1)
    assert cut["then"] == "cut and sew into continuous bias strips of 2 1/4 in"
    binding = made["finishing"]["binding"]
    assert binding["joined"]["inches"] >= 92
    assert binding["usual"]["side"]["inches"] == 15 and binding["usual"]["joined"]["inches"] < 92
    assert "a square of 15 in" in binding["usual"]["why"] and "17 in" in binding["usual"]["why"]


def test_bias_strips_come_from_a_square_and_are_joined(plan):
    """What a document meant by "bias" before there was a choice stays sound: bias binding out of a square."""
    made = plan(document(patch("24", "24", "leaf"), finish={"binding": {"fabric": "frost", "cut": "bias"}}))
    [cut] = [c for c in made["cuts"] if c["for"] == ["binding"]]
    # 108 in of 2 1/4 in bias: the area says 16 in, whose strips come to 104 in
    binding = made["finishing"]["binding"]
    assert (cut["shape"], cut["count"], binding["strips"]) == ("square", 1, 8)
    assert cut["then"] == "cut on the slant into 8 strips of 2 1/4 in, and join them end to end"
    assert binding["joined"]["inches"] >= 108 > binding["usual"]["joined"]["inches"]


@pytest.mark.parametrize("finish", [{"binding": {"fabric": "frost"}}, {"backing": {"fabric": "frost"}}])
def test_cloth_too_narrow_for_the_finish_is_named(plan, finish):
    raw = document(patch("20", "20", "leaf"), finish=finish)
    raw["fabrics"]["frost"]["usable_width"] = "1"
    with pytest.raises(CannotMake, match='"frost white" is 1 in wide') as found:
        plan(raw)
    assert found.value.pointer == f"/finish/{next(iter(finish))}"


def test_a_binding_strip_off_the_grid_is_cut_on_it():
    """The default 2 1/4 in is 57.15 mm: with whole millimetres it is cut 58 mm."""
    made = plan_binding(Binding("leaf", Fraction(9, 4)), 40, 40, usable_width=Fraction(40), rules=MM_RULES)
    assert made.strip * Fraction(127, 5) == 58


lengths = st.integers(8, 8000).map(lambda n: Fraction(n, 8))


@given(across=lengths, usable=st.integers(16, 400).map(lambda n: Fraction(n, 8)))
def test_panels_are_enough_fit_the_cloth_and_are_as_few_as_can_be(across, usable):
    panels = cut_panels(across, Fraction(50), "along the length", usable_width=usable, rules=RULES)
    assert max(panels.widths) <= usable and min(panels.widths) > 0
    assert sum(panels.widths) - (panels.count - 1) == panels.across >= across
    fewer = panels.count - 1
    assert not fewer or fewer * usable - (fewer - 1) < across


def test_cloth_as_narrow_as_its_seams_makes_no_back():
    with pytest.raises(TooNarrow):
        cut_panels(Fraction(50), Fraction(50), "along the length", usable_width=Fraction(1), rules=RULES)
