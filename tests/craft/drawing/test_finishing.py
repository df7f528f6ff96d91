"""Drawings of what finishes a quilt show what the plan counts."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from service.craft.drawing import ClothView
from service.craft.drawing.finishing import BackView, draw_back, draw_bias_strips, draw_bias_tube
from workers.cutting.bias import joined_strips

LEAF = ClothView("leaf", "leek green", "#5f8f4e", 1)


def description(svg: str) -> str:
    return ElementTree.fromstring(svg).find("{*}desc").text or ""


def paths(svg: str) -> list[str]:
    return [path.get("d") for path in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}path")]


@pytest.mark.parametrize(
    ("width", "height", "strip"),
    [(16, 16, "9/4"), (22, 22, "9/4"), (15, 15, "2"), (16, 33, "2"), (42, 60, "5/2"), (6, 6, "1")],
)
def test_as_many_strips_are_drawn_as_the_plan_counts(width, height, strip):
    count, _ = joined_strips(Fraction(width), Fraction(height), Fraction(strip), Fraction(1, 4))
    svg = draw_bias_strips(LEAF, width, height, float(Fraction(strip)))
    assert description(svg).startswith(f"{count} strips.")
    assert any(d.count("M") == count + 1 for d in paths(svg))


@pytest.mark.parametrize(("side", "strip", "lines"), [(18, 2.25, 5), (29, 2.25, 9), (12, 2.0, 4)])
def test_the_tube_has_a_line_for_every_whole_strip_of_its_square(side, strip, lines):
    """side / (strip x sqrt 2), whole ones: geometry."""
    svg = draw_bias_tube(LEAF, side, strip)
    assert any(d.count("M") == lines for d in paths(svg))
    assert svg == draw_bias_tube(LEAF, side, strip)


@pytest.mark.parametrize("across", [False, True])
def test_a_back_shows_its_seam_where_it_lies_and_the_fold_in_the_middle(across):
    view = BackView(LEAF, 48, 48, "48 in", "48 in", ("32 3/4 in", "16 1/4 in"), (36.0,), across)
    svg = draw_back(view)
    assert "32 3/4 in, 16 1/4 in wide" in description(svg)
    spans = [[float(n) for n in re.findall(r"-?[\d.]+", d)] for d in paths(svg)]
    axis = 1 if across else 0
    whole = next(s for s in spans if len(s) == 8)
    low, high = min(whole[axis::2]), max(whole[axis::2])
    level = {
        round((s[axis] - low) / (high - low), 2) for s in spans if len(s) == 4 and s[axis] == s[axis + 2]
    }
    assert {0.75, 0.5} <= level


def test_a_drawing_without_a_panel_for_every_seam_is_refused():
    with pytest.raises(ValueError, match="zip"):
        draw_back(BackView(LEAF, 48, 60, "48 in", "60 in", ("48 in",), (24.0,)))
