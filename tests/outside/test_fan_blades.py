"""Rings of blades against published angles and widths. Grades: published = a page was found; derived = geometry."""

from __future__ import annotations

from fractions import Fraction
from math import atan2, degrees
from typing import Any

import pytest
import shapely

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.planar.round_shapes import BladeTemplate
from service.craft.units import FanBladeRing

QUARTER = Fraction(1, 4)

ANGLES = {10: 36, 12: 30, 16: 22.5, 20: 18, 24: 15, 30: 12, 40: 9}
"""Blades: the angle of each. blog.pennydog.com 2017/10; ikwilt.blogspot.com 2011/05."""

WIDTHS = {(20, 10): 3.1677, (12, 10): 5.3590}
"""Blades and the distance r from the middle: the finished width there, 2 r tan(180° / n) (derived)."""


def ring(**more: Any) -> FanBladeRing:
    raw = {
        "unit": "fan blade ring",
        "size": ["24", "24"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil"],
        "reach": "11",
        "hole": "2",
        "centre": {"fabric": "leaf", "size": "5"},
    }
    cloths = {"frost": {}, "leaf": {}, "soil": {}}
    unit = read_document({"title": "Rhubarb crown", "fabrics": cloths, "top": raw | more}).top
    assert isinstance(unit, FanBladeRing)
    return unit


def template(unit: FanBladeRing) -> BladeTemplate:
    return unit.blades[0].template


def measure_angle(line: list[tuple[float, float]]) -> float:
    """The angle between the long sides of an upright blade, by its corners."""
    (x0, y0), (x1, y1), *_, (x2, y2), (x3, y3) = line
    return degrees(atan2(x1 - x0, y0 - y1)) * -1 + degrees(atan2(x2 - x3, y3 - y2))


@pytest.mark.parametrize(("count", "angle"), ANGLES.items())
def test_equal_blades_share_the_full_turn(count, angle):
    """The published table, by the corners of the finished template."""
    found = template(ring(blades=count, tips="flat"))
    assert found.angle == Fraction(angle)
    assert measure_angle(found.seam_line) == pytest.approx(angle)


def test_ten_wide_and_ten_narrow_blades_make_a_ring():
    """blog.pennydog.com 2017/10: unequal blades, ten of 14 degrees and ten of 22, make 360."""
    unit = ring(blades=[{"angle": angle} for angle in (14, 22)] * 10)
    assert sum(blade.angle for blade in unit.blades) == 360
    with pytest.raises(DocumentFaults, match="364 degrees"):
        ring(blades=[{"angle": angle} for angle in (14, 22)] * 9 + [{"angle": 14}, {"angle": 26}])


@pytest.mark.parametrize("seam", [Fraction(0), QUARTER, Fraction(75, 254)])
def test_a_blade_keeps_its_angle_when_it_is_sewn(seam):
    """quiltingboard.com t148547: 30 degrees before and after sewing."""
    found = template(ring(blades=12, tips="flat"))
    assert measure_angle(found.cut_line(seam)) == pytest.approx(30)


@pytest.mark.parametrize(("blades", "width"), WIDTHS.items())
def test_a_blade_is_as_wide_across_its_middle_line_as_derived(blades, width):
    count, r = blades
    seam = shapely.Polygon(template(ring(blades=count)).seam_line)
    across = seam.intersection(shapely.LineString([(-12, -r), (12, -r)]))
    assert across.length == pytest.approx(width, abs=5e-5)


def test_a_page_rounds_a_blade_of_10_degrees_up_to_2_in():
    """tourmalinethymequilts.com gives 2 in for 10 degrees and 10 in, which is approximate: exactly 1.75."""
    seam = shapely.Polygon(template(ring(blades=36)).seam_line)
    across = seam.intersection(shapely.LineString([(-12, -10), (12, -10)]))
    assert across.length == pytest.approx(1.75, abs=5e-4)


@pytest.mark.parametrize("count", [12, 20, 36])
def test_a_turned_point_is_half_as_long_as_its_blade_is_wide(count):
    """tourmalinethymequilts.com; exact at the place where its slanting edges meet the long sides (derived)."""
    unit = ring(blades=count)
    first, tip, last, *_ = (complex(float(x) - 12, float(y) - 12) for x, y in unit.own_patches()[1].points)
    assert abs(tip - (first + last) / 2) == pytest.approx(abs(last - first) / 2, abs=1e-4)
