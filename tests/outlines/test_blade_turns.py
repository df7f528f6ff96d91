"""Where a blade turns hard: measured on shapes whose radii and corners are known."""

from __future__ import annotations

import math

import pytest

from service.craft.outlines import read_svg
from workers.outlines.blade_turns import find_blade_turns


def draw(shape: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">{shape}</svg>'


@pytest.mark.parametrize(
    ("shape", "radius", "corner"),
    [
        ('<circle cx="40" cy="40" r="12"/>', 12.0, 180.0),
        ('<rect width="60" height="40"/>', math.inf, 90.0),
        ('<rect width="60" height="40" rx="3"/>', 3.0, 180.0),
        ('<path d="M0 0H60L0 20z"/>', math.inf, math.degrees(math.atan(20 / 60))),
    ],
)
def test_radius_and_corner_are_those_of_the_drawing(shape: str, radius: float, corner: float) -> None:
    """Worked by hand; a circle in cubics is a thousandth off, and its joints are no corners."""
    (outline,) = read_svg(draw(shape).encode(), "shape").shapes
    turns = find_blade_turns(outline)
    assert turns.radius_mm == pytest.approx(radius, rel=0.02)
    assert turns.corner_degrees == pytest.approx(corner, abs=0.5)
    assert turns.hard is (corner < 25)
