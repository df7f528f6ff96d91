"""Fields of hexagons: the sizes of a hexagon, the cover of the field, its templates, and what cannot be one."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.faults import DocumentFaults
from service.craft.planar.cover import find_leftovers
from service.craft.units import CuttingRules, Hexagons
from service.craft.units.hexagons import find_half_width

from .conftest import CLOTHS, read

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))


def raw(side: object = "1", rows: Any = None, **more: Any) -> dict[str, Any]:
    rows = rows or [["leaf", "soil", "leaf"], ["soil", "leaf"], ["leaf", "soil", "leaf"]]
    return {"unit": "hexagons", "side": str(side), "rows": rows, "edge": "frost"} | more


def field(*args: Any, **more: Any) -> Hexagons:
    unit = read(raw(*args, **more)).top
    assert isinstance(unit, Hexagons)
    return unit


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
