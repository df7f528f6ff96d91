"""Fields of hexagons: the sizes of a hexagon, the cover of the field, its templates, and what cannot be one."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import dist, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.faults import DocumentFaults
from service.craft.measure import round_up
from service.craft.planar.cover import find_leftovers
from service.craft.units import CuttingRules, Hexagons
from service.craft.units.hexagons import find_half_width

from .conftest import CLOTHS, read

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))

PUBLISHED = {
    Fraction(1, 2): (0.8660, 1.0, 1.3660, 0.7887),
    Fraction(3, 4): (1.2990, 1.5, 1.7990, 1.0387),
    Fraction(1): (1.7321, 2.0, 2.2321, 1.2887),
    Fraction(3, 2): (2.5981, 3.0, 3.0981, 1.7887),
    Fraction(2): (3.4641, 4.0, 3.9641, 2.2887),
    Fraction(3): (5.1962, 6.0, 5.6962, 3.2887),
}
"""Finished side: flat to flat and point to point finished, flat to flat cut, side cut.

Named by the finished side, 2s from point to point, s√3 from flat to flat: softsolder.com 2020/07/27,
ninawithfreckles.wordpress.com 2014/10. What is cut for a 1/4 in seam is derived: s√3 + 1/2, and s + 1/(2√3).
"""


def raw(side: object = "1", rows: Any = None, **more: Any) -> dict[str, Any]:
    rows = rows or [["leaf", "soil", "leaf"], ["soil", "leaf"], ["leaf", "soil", "leaf"]]
    return {"unit": "hexagons", "side": str(side), "rows": rows, "edge": "frost"} | more


def field(*args: Any, **more: Any) -> Hexagons:
    unit = read(raw(*args, **more)).top
    assert isinstance(unit, Hexagons)
    return unit


@pytest.mark.parametrize(("side", "sizes"), PUBLISHED.items())
def test_a_hexagon_measures_what_the_table_says(side, sizes):
    flat, point, cut, cut_side = sizes
    first = next(patch for patch in field(side).straight if len(patch.figure.corners) == 6)
    xs, ys = zip(*first.figure.corners, strict=True)
    per_inch = field(side).per_inch
    assert (max(xs) - min(xs)) / per_inch == pytest.approx(flat, abs=2e-4)
    assert Fraction(max(ys) - min(ys), per_inch) == point
    assert first.template is not None
    line = first.template.cut_line(Fraction(1, 4))
    assert len(line) == 6
    edges = [dist(p, q) for p, q in zip(line, line[1:] + line[:1], strict=True)]
    assert edges == pytest.approx([cut_side] * 6, abs=3e-4)
    assert max(x for x, _ in line) - min(x for x, _ in line) == pytest.approx(cut, abs=2e-4)


@pytest.mark.parametrize("side", PUBLISHED)
def test_a_strip_for_hexagons_is_flat_to_flat_and_two_allowances(side):
    """s√3 + 1/2, up to the next 1/8 in: the box that is cut for a hexagon is that wide."""
    need = next(need for need in field(side).needs(RULES) if need.template == _hexagon_letter(side))
    assert need.width == round_up(Fraction(sqrt(3) * float(side)) + Fraction(1, 2), Fraction(1, 8))


def _hexagon_letter(side: Fraction) -> str:
    patch = next(patch for patch in field(side).straight if len(patch.figure.corners) == 6)
    assert patch.template is not None
    return patch.template.letter


def test_a_hexagon_of_2_and_a_half_has_16_24_square_inches():
    """quiltingreadersgarden.blogspot.com 2018/04."""
    unit = field("2 1/2")
    figure = next(patch.figure for patch in unit.straight if len(patch.figure.corners) == 6)
    assert figure.doubled_area / 2 / unit.per_inch**2 == pytest.approx(16.24, abs=0.005)


@given(st.integers(1, 400).map(lambda n: Fraction(n, 40)), st.integers(1, 6), st.integers(2, 7))
def test_a_field_is_covered_exactly_once(side, rows, across):
    """Also where the side divides the inch in tenths; the box is n·s√3 wide to 1/1000 in, and (3m + 1)s/2 high."""
    unit = field(side, [[CLOTHS[(i + j) % 3] for j in range(across - i % 2)] for i in range(rows)])
    figures = [patch.figure for patch in unit.straight]
    width, height = (int(length * unit.per_inch) for length in unit.size)
    assert not find_leftovers(figures, width, height)
    assert float(unit.width) == pytest.approx(across * sqrt(3) * float(side), abs=1e-3)
    assert unit.height == side * Fraction(3 * rows + 1, 2)


def test_two_hundred_halves_are_off_by_less_than_a_64th():
    for side in (Fraction(1, 2), Fraction(3, 4), Fraction(1), Fraction(10, 127), Fraction(7, 3)):
        assert abs(200 * (float(find_half_width(side)) - float(side) * sqrt(3) / 2)) < 1 / 64


def test_all_hexagons_share_a_template_and_so_do_the_pieces_of_the_edges():
    """Three by two by three: 8 hexagons, 2 halves, 2 · 2 triangles and 4 half ones that are mirrored in pairs."""
    counts: Counter[str] = Counter()
    for need in field().needs(RULES):
        counts[need.template] += need.pieces
    assert counts == {"A": 8, "B": 2, "C": 2, "C reversed": 2, "D": 4}


def test_the_cloths_stand_where_the_rows_name_them():
    fabrics = [patch.fabric for patch in field().own_patches()]
    assert fabrics[:10] == [
        *("leaf", "soil", "leaf"),
        *("frost", "soil", "leaf", "frost"),
        *("leaf", "soil", "leaf"),
    ]
    assert set(fabrics[10:]) == {"frost"}
    assert {patch.pointer for patch in field().own_patches()} == {"/top"}


@pytest.mark.parametrize(
    ("change", "pointer", "detail"),
    [
        ({"side": "0"}, "/top/side", "zero"),
        ({"rows": [["leaf", "soil"], ["leaf", "soil"]]}, "/top/rows/1", "row 2 has 2 hexagons"),
        ({"rows": [["leaf"], ["soil"]]}, "/top/rows/0", "1 hexagon"),
        ({"rows": [["leaf", "chard"]]}, "/top/rows/0/1", "not among the fabrics"),
        ({"rows": [["leaf", "soil"], []]}, "/top/rows/1", "empty"),
        ({"edge": "chard"}, "/top/edge", "not among the fabrics"),
        ({"side": "1/99991", "rows": [["leaf"] * 6200]}, "/top", "more than can be laid out"),
    ],
)
def test_what_is_no_field_of_hexagons_is_named_with_its_place(change, pointer, detail):
    with pytest.raises(DocumentFaults) as faults:
        read(raw() | change)
    [fault] = faults.value.faults
    assert fault.pointer == pointer
    assert detail in fault.detail
    assert fault.right
