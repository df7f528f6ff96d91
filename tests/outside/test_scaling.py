"""Enlarging and reducing against published percentages."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.scaling import find_factor, scale_document


@pytest.mark.parametrize(("want", "have", "percent"), [(6, 8, 75), (12, 8, 150), (7, 5, 140)])
def test_percent_is_want_over_have(want, have, percent):
    """QNT quilters' guild, "Quilters' Math", qntqg.wordpress.com 2013/09."""
    top = {"unit": "patch", "size": [str(have), str(have)], "fabric": "leaf"}
    raw = {"title": "Chard", "fabrics": {"leaf": {}}, "top": top}
    factor, is_exact = find_factor(read_document(raw), width=Fraction(want))
    assert (factor * 100, is_exact) == (percent, True)
    assert read_document(scale_document(raw, factor).document).top.width == want
