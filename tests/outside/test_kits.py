"""Many kits of equal squares against published strip counts: kits planned together follow the strip rule."""

from __future__ import annotations

import pytest

from service.craft.shopping import ShoppingAsked, ShoppingProject
from workers.shopping.listing import plan_shopping

STRIPS = {
    (63, "9", "42", 1): (16, 152.0),
    (100, "3", "44", 2): (9, 31.5),
    (8, "4 1/2", "42", 2): (1, 5.0),
    (12, "4 1/2", "42", 3): (2, 10.0),
}
"""(squares in all, finished side, usable width, squares a kit): strips, inches of cloth.

Row 1: quiltingboard.com 6228687 (published to 4.222 yd); 2: harriger.com/inch2yard.htm (to 9 strips); 3 and 4: "The
Math of Quilting, lesson 4", guild lesson of June 2016, slideblast.com (strips and inches).
"""


@pytest.mark.parametrize(("case", "expected"), STRIPS.items())
def test_kits_together_take_as_many_strips_as_the_rule_says(case, expected):
    """Squares of several kits share their strips, as if they were one project."""
    squares, side, width, a_kit = case
    strips, inches = expected
    patch = {"unit": "patch", "size": [side, side], "fabric": "leaf"}
    document = {
        "title": "Bean squares",
        "fabrics": {"leaf": {"name": "leek green", "usable_width": width, "straightening": 0}},
        "top": {"unit": "grid", "rows": [[patch] * a_kit]},
    }
    kits = squares // a_kit
    found = plan_shopping(ShoppingAsked((ShoppingProject("p", "Beans", document),), kits))
    [cloth] = found["cloths"]
    assert cloth["at_once"]["length"]["inches"] == inches
    assert cloth["projects"][0]["one_kit"]["length"]["inches"] == inches / strips
    # up to the eighth of a yard above it
    assert cloth["at_once"]["buy"]["inches"] == -(-inches // 4.5) * 4.5
