"""The sizes offered for a unit of any kind really put all of its cuts on the ruler's marks."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.document import read_document
from service.craft.measure import Exact, Number, exact
from service.craft.scaling import nearest_sizes, scale_document
from service.craft.units import CuttingRules
from tests.craft.units.conftest import document
from tests.craft.units.test_every_kind import KINDS, few
from workers.cutting.cut_list import list_cuts
from workers.recipe import CannotMake

EIGHTH = Fraction(1, 8)


class Noting(CuttingRules):
    """Rules that note what they round."""

    def __init__(self) -> None:
        super().__init__(Fraction(1, 4), EIGHTH)
        object.__setattr__(self, "noted", [])

    def round(self, cut: Number) -> Fraction:
        self.noted.append(exact(cut))  # type: ignore[attr-defined]
        return super().round(cut)


def cuts_of(raw: dict[str, Any]) -> list[Exact]:
    """What the units of a top ask to have rounded: every side of every cut, before it is."""
    rules = Noting()
    for unit in read_document(raw).top.walk():
        unit.needs(rules)
    found: list[Exact] = rules.noted  # type: ignore[attr-defined]
    return found


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data(), st.sampled_from([Fraction(1, 2), Fraction(3, 4), Fraction(1), Fraction(9, 8), Fraction(2)]))
def test_at_every_size_offered_all_cuts_lie_on_the_grid(kind: str, data: Any, factor: Fraction) -> None:
    """Cuts along a diagonal lie on no ruler in any size. Where one size says all there are always sizes to offer;
    sevenths and thirds together may have none within a hundred times, and four at a time has none at all.
    """
    raw = document(data.draw(KINDS[kind]))
    offered = nearest_sizes(raw, factor)
    assert offered or kind not in OF_ONE_SIZE or all(cut.b for cut in cuts_of(raw))
    for near in offered:
        scaled = scale_document(raw, near.factor).document
        assert [
            float(cut) for cut in cuts_of(scaled) if not cut.b and (cut.a / EIGHTH).denominator != 1
        ] == []
        top = read_document(scaled).top
        assert (top.width, top.height) == (near.width, near.height)


OF_ONE_SIZE = ("patch", "half-square triangle", "quarter-square triangle", "flying geese", "corner squares")
"""Kinds whose cuts follow from a size in quarters of an inch, and a half, third or quarter of it."""


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_the_cutting_list_of_a_size_offered_has_the_exact_sizes(kind: str, data: Any) -> None:
    """Every square and rectangle of the list measures one of the sizes before rounding, if that lies on no diagonal;
    of panels, what they are trimmed to once they are joined.
    """
    raw = document(data.draw(KINDS[kind]))
    for near in nearest_sizes(raw, Fraction(1))[:1]:
        scaled = scale_document(raw, near.factor).document
        cuts = cuts_of(scaled)
        asked = {cut.a for cut in cuts if not cut.b}
        slanted = any(cut.b for cut in cuts)
        try:
            listed = list_cuts(read_document(scaled))
        except CannotMake:
            continue
        for cut in listed:
            if cut.shape in ("square", "rectangle") and not slanted:
                assert {cut.joined.wanted if cut.joined else cut.width, cut.height} <= asked
