"""Diamonds in rectangles: in a square cut as a square in a square, else with templates."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from service.craft.faults import DocumentFaults
from service.craft.units import CuttingRules, Diamond

from .conftest import read

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))


def raw(width: str = "4", height: str = "6", **more: Any) -> dict[str, Any]:
    return {"unit": "diamond", "size": [width, height], "fabric": "leaf", "corners": "frost"} | more


def diamond(*args: Any, **more: Any) -> Diamond:
    unit = read(raw(*args, **more)).top
    assert isinstance(unit, Diamond)
    return unit


def test_it_runs_through_the_middles_of_the_sides():
    patches = diamond(corners=["frost", "soil", "leaf", "soil"]).own_patches()
    shape, nw, ne, se, sw = patches
    assert set(shape.points) == {(2, 0), (4, 3), (2, 6), (0, 3)}
    for corner, point, cloth in (
        (nw, (0, 0), "frost"),
        (ne, (4, 0), "soil"),
        (se, (4, 6), "leaf"),
        (sw, (0, 6), "soil"),
    ):
        assert point in corner.points
        assert corner.fabric == cloth
    assert {patch.pointer for patch in patches} == {"/top"}


@pytest.mark.parametrize("side", ["2", "3 1/2", "6", "7 3/8"])
def test_in_a_square_its_cuts_are_those_of_a_square_in_a_square(side):
    """Published: corners f/2 + 7/8, middle f/√2 + 1/2 ("Lesson 5 - Square in a Square", guild lesson)."""
    square = {
        "unit": "square in a square",
        "size": [side, side],
        "inside": "leaf",
        "fabric": "frost",
        "method": "triangles",
    }
    cuts = [
        {(n.fabric, n.width, n.height, n.pieces, n.makes, n.then, n.template) for n in unit.needs(RULES)}
        for unit in (diamond(side, side), read(square).top)
    ]
    assert cuts[0] == cuts[1]


def test_in_a_rectangle_every_patch_has_its_template():
    """One for the diamond, one for the corners, which is turned over for two of them."""
    counts: Counter[tuple[str, str]] = Counter()
    for need in diamond().needs(RULES):
        counts[need.fabric, need.template] += need.pieces
    assert counts == {("leaf", "A"): 1, ("frost", "B"): 2, ("frost", "B reversed"): 2}


def test_without_its_allowance_the_cut_diamond_is_the_finished_one():
    """The box of the cut line: offset by s the tips move s / sin of half their angle, trimmed where they are sharp."""
    [need] = [n for n in diamond("4", "4 1/2").needs(RULES) if n.fabric == "leaf"]
    # half width 2, half height 9/4: the slanting sides move out by s·√(2² + (9/4)²) / (9/4) sideways
    slant = (2**2 + 2.25**2) ** 0.5
    assert float(need.height) >= 4.5 + 2 * 0.25 * slant / 2 - 0.2
    assert 4 + 2 * 0.25 * slant / 2.25 <= float(need.width) < 4 + 2 * 0.25 * slant / 2.25 + 1 / 8


@pytest.mark.parametrize(
    ("change", "pointer", "detail"),
    [
        ({"corners": ["frost", "soil"]}, "/top/corners", "2 cloths for four corners"),
        ({"corners": ["frost", "soil", "chard", "leaf"]}, "/top/corners/2", "chard"),
        ({"corners": "chard"}, "/top/corners", "chard"),
        ({"fabric": "chard"}, "/top/fabric", "chard"),
        ({"size": ["4"]}, "/top/size", "not a pair"),
        ({"size": ["1/999983", "1/999979"]}, "/top/size", "no common grid"),
    ],
)
def test_what_is_no_diamond_is_named_with_its_place(change, pointer, detail):
    with pytest.raises(DocumentFaults) as faults:
        read(raw(**change))
    [fault] = faults.value.faults
    assert fault.pointer == pointer
    assert detail in fault.detail
    assert fault.right


def test_without_corners_nothing_is_guessed():
    with pytest.raises(DocumentFaults) as faults:
        read({key: value for key, value in raw().items() if key != "corners"})
    [fault] = faults.value.faults
    assert '"corners" is missing' in fault.detail
