"""A kite in a square: its corners, its templates, and what cannot be one."""

from __future__ import annotations

from fractions import Fraction
from math import atan, degrees
from typing import Any

import pytest

from service.craft.faults import DocumentFaults
from service.craft.units import CuttingRules, Kite

from .conftest import read

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))


def raw(**more: Any) -> dict[str, Any]:
    return {"unit": "kite", "size": ["4", "4"], "kite": "leaf", "background": "frost"} | more


def kite(**more: Any) -> Kite:
    unit = read(raw(**more)).top
    assert isinstance(unit, Kite)
    return unit


def test_the_lines_run_from_the_lower_left_corner_to_the_middles_of_the_far_sides():
    shape, above, below = kite().own_patches()
    assert set(shape.points) == {(0, 4), (2, 0), (4, 0), (4, 2)}
    assert set(above.points) == {(0, 4), (0, 0), (2, 0)}
    assert set(below.points) == {(0, 4), (4, 2), (4, 4)}
    assert [p.fabric for p in (shape, above, below)] == ["leaf", "frost", "frost"]
    assert {p.pointer for p in (shape, above, below)} == {"/top"}


@pytest.mark.parametrize("shoulder", ["1", "2", "3 1/4"])
def test_a_kite_is_its_own_mirror_image_and_as_large_as_side_times_shoulder(shoulder):
    """Geometry: the square less two triangles of legs s and s - shoulder, s² - s(s - shoulder)."""
    shape = kite(shoulder=shoulder).own_patches()[0]
    assert {(4 - y, 4 - x) for x, y in shape.points} == set(shape.points)
    doubled = sum(
        (
            p[0] * q[1] - q[0] * p[1]
            for p, q in zip(shape.points, shape.points[1:] + shape.points[:1], strict=True)
        ),
        start=Fraction(0),
    )
    whole, part = {"1": (1, Fraction(0)), "2": (2, Fraction(0)), "3 1/4": (3, Fraction(1, 4))}[shoulder]
    assert abs(doubled) / 2 == 4 * (whole + part)


def test_the_tail_of_a_kite_to_the_middles_has_the_angle_of_a_3_4_5_triangle():
    """90° - 2·arctan(1/2) = arctan(3/4) = 36.87°, the smaller angle of the 3-4-5 triangle."""
    tail, top, _, right = (complex(float(x), float(y)) for x, y in _from_tail(kite()))
    cross = ((top - tail).conjugate() * (right - tail)).imag
    along = ((top - tail).conjugate() * (right - tail)).real
    assert degrees(atan(cross / along)) == pytest.approx(degrees(atan(3 / 4)))


def _from_tail(unit: Kite) -> list[Any]:
    points = unit.own_patches()[0].points
    start = points.index((0, 4))
    return [*points[start:], *points[:start]]


def test_one_template_serves_the_kite_and_one_both_triangles_turned_over_for_the_second():
    needs = kite().needs(RULES)
    assert [(need.fabric, need.template, need.pieces) for need in needs] == [
        ("leaf", "A", 1),
        ("frost", "B", 1),
        ("frost", "B reversed", 1),
    ]


def test_a_mirrored_kite_needs_the_same_patches():
    unit = kite()
    assert sorted(n.template for n in unit.needs_in_mirror(RULES)) == sorted(
        n.template for n in unit.needs(RULES)
    )


@pytest.mark.parametrize(
    ("change", "pointer", "detail"),
    [
        ({"size": ["4", "3"]}, "/top/size", "square"),
        ({"shoulder": "4"}, "/top/shoulder", "nothing is left"),
        ({"shoulder": "0"}, "/top/shoulder", "zero"),
        ({"kite": "chard"}, "/top/kite", "not among the fabrics"),
        ({"size": ["1/9973", "1/9973"], "shoulder": "1/99991"}, "/top/size", "no common grid"),
    ],
)
def test_what_is_no_kite_is_named_with_its_place(change, pointer, detail):
    with pytest.raises(DocumentFaults) as faults:
        read(raw(**change))
    [fault] = faults.value.faults
    assert fault.pointer == pointer
    assert detail in fault.detail
    assert fault.right
