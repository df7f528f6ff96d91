"""Binding, backing and batting inside a whole plan; their tables stand in tests/outside."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.finish import Binding
from service.craft.units import CuttingRules
from workers.cutting.backing import cut_panels
from workers.cutting.binding import TooNarrow, bias_squares, plan_binding
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


def test_a_top_without_finish_has_none(plan):
    finishing = plan(document(patch("3", "3", "leaf")))["finishing"]
    assert {"binding", "backing", "batting", "fusible"} <= set(finishing)
    assert not any(finishing.values())


def test_two_panels_of_a_back_say_how_they_are_joined(plan):
    made = plan(document(patch("39", "39", "leaf"), finish={"backing": {"fabric": "frost"}}))
    [cut] = [c for c in made["cuts"] if c["for"] == ["backing"]]
    # 47 in across: two panels of 24, less two 1/2 in allowances
    assert (cut["width"]["text"], cut["height"]["text"], cut["count"]) == ("24 in", "47 in", 2)
    assert cut["then"] == "join 2 side by side with 1/2 in seams, pressed open"
    assert cut["makes"] == 1 and "fold" in cut["notes"][0]


def test_bias_binding_comes_from_squares(plan):
    made = plan(document(patch("20", "20", "leaf"), finish={"binding": {"fabric": "frost", "cut": "bias"}}))
    [cut] = [c for c in made["cuts"] if c["for"] == ["binding"]]
    # 92 in of 2 1/4 in bias: √207 is 14.39, up to 15, and one inch for the seams
    assert (cut["shape"], cut["width"]["text"], cut["count"]) == ("square", "16 in", 1)
    assert cut["then"] == "cut and sew into continuous bias strips of 2 1/4 in"
    assert made["finishing"]["binding"]["joined"]["inches"] >= 92


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


@given(needed=lengths, strip=st.integers(8, 24).map(lambda n: Fraction(n, 8)), usable=st.integers(7, 60))
def test_bias_squares_are_enough_and_fit_the_cloth(needed, strip, usable):
    pieces, side = bias_squares(needed, strip, Fraction(usable))
    assert side <= usable
    assert pieces * (side - 1) ** 2 >= needed * strip


@given(across=lengths, usable=st.integers(16, 400).map(lambda n: Fraction(n, 8)))
def test_panels_are_enough_fit_the_cloth_and_are_as_few_as_can_be(across, usable):
    panels = cut_panels(across, Fraction(50), "along the length", usable_width=usable, rules=RULES)
    assert panels.width <= usable
    assert panels.count * panels.width - (panels.count - 1) >= across
    fewer = panels.count - 1
    assert not fewer or fewer * usable - (fewer - 1) < across


def test_cloth_as_narrow_as_its_seams_makes_no_back():
    with pytest.raises(TooNarrow):
        cut_panels(Fraction(50), Fraction(50), "along the length", usable_width=Fraction(1), rules=RULES)
