"""How the extra pieces of step-outs lie on their cloth."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.fabric import Fabric
from service.craft.units import CuttingRules
from workers.handouts.step_outs import ExtraCut
from workers.shopping.needs import lay_extra


@pytest.mark.parametrize(
    ("sides", "one_way", "lies", "count"),
    [
        ((10, 12), False, (12, 10), 3),
        ((10, 12), True, (10, 12), 3),
        # a strip of 60 by 2 in: two of 30 1/4, less 1/2 in where they are joined, take 4 in of the roll, turned 60
        ((60, 2), False, (Fraction(121, 4), 2), 6),
        ((60, 2), True, (Fraction(121, 4), 2), 6),
        # a patch of 45 by 30 in: turned it takes 45 in, in two parts 60
        ((45, 30), False, (45, 30), 3),
        # one of 60 by 50: two of 30 1/4 take 100 in, two of 25 1/4 take 120
        ((60, 50), False, (Fraction(121, 4), 50), 6),
    ],
)
def test_an_extra_piece_lies_where_it_takes_least(sides, one_way, lies, count):
    """On 40 in cloth: long sides across, a print upright, strips in joined parts, patches whole where they fit."""
    fabric = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40), directional=one_way)
    extra = ExtraCut("leaf", Fraction(sides[0]), Fraction(sides[1]), 3, "")
    cut = lay_extra(extra, 3, fabric, CuttingRules(Fraction(1, 4), Fraction(1, 8)))
    assert (cut.width, cut.height, cut.count) == (*lies, count)
    assert min(cut.width, cut.height if cut.may_turn else cut.width) <= 40
