"""Hexagons and eight-pointed stars against published sizes."""

from __future__ import annotations

from fractions import Fraction
from math import dist, sqrt

import pytest

from service.craft.document import read_document
from service.craft.measure import round_nearest, round_up
from service.craft.units import CuttingRules, EightPointedStar, Hexagons

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


def field(side: object) -> Hexagons:
    rows = [["leaf", "soil", "leaf"], ["soil", "leaf"], ["leaf", "soil", "leaf"]]
    top = {"unit": "hexagons", "side": str(side), "rows": rows, "edge": "frost"}
    cloths: dict[str, object] = {"leaf": {}, "soil": {}, "frost": {}}
    unit = read_document({"title": "Bee", "fabrics": cloths, "top": top}).top
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


def test_a_hexagon_of_2_3_quarters_from_flat_to_flat_has_a_side_of_1_59():
    """softsolder.com 2020/07/27: flat to flat 2 3/4; side 2.75/√3 = 1.5877 (derived)."""
    side = round_nearest(Fraction(2.75 / sqrt(3)), Fraction(1, 10_000))
    assert float(side) == pytest.approx(1.5877, abs=5e-5)
    assert float(field(side).width) / 3 == pytest.approx(2.75, abs=2e-4)


def star(side: object) -> EightPointedStar:
    return EightPointedStar(side=Fraction(str(side)), diamonds=("leaf", "soil"), background="frost")


@pytest.mark.parametrize("side", [3, 6, 9, 12, "10 1/2", 16])
def test_a_block_is_3_41_diamonds_wide(side):
    """K. Combs, Formulas for Quilters, 2002: block = 3.41 x finished diamond side."""
    whole = star(Fraction(21, 2) if side == "10 1/2" else side)
    assert round(float(whole.side) / float(whole.diamond_side), 2) == 3.41


def test_a_diamond_of_3_in_makes_a_block_of_10_and_a_quarter():
    """The same rule the other way round, 3 x 3.41 = 10.23: a block of 10 1/4 in has diamonds of 3 in to 1/64."""
    assert round_up(star(Fraction(41, 4)).diamond_side, Fraction(1, 64)) == Fraction(193, 64)
