"""What holds for a unit of whatever kind: each kind by itself, drawn at random, and none passed over."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.craft.measure import ROOT_2, Exact
from service.craft.units import READERS, Bordered, CuttingRules, Need, StripSet, Unit
from service.craft.units.base import DIAMONDS
from service.craft.units.bordered import MITRED

from . import conftest as drawn
from .conftest import Raw, cloths, read, sides, text

SEAM = Fraction(1, 4)
FINE = Fraction(1, 1_000_000)
few = settings(
    deadline=None, max_examples=12, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


@st.composite
def hexagons(draw) -> Raw:
    rows, across = draw(st.integers(1, 4)), draw(st.integers(2, 4))
    listed = [[draw(cloths) for _ in range(across - i % 2)] for i in range(rows)]
    return {"unit": "hexagons", "side": text(draw(sides) / 4), "rows": listed, "edge": draw(cloths)}


@st.composite
def rings(draw) -> Raw:
    reach = draw(sides)
    return {
        "unit": "fan blade ring",
        "size": [text(reach * Fraction(9, 4)), text(reach * Fraction(5, 2))],
        "fabric": draw(cloths),
        "fabrics": draw(st.lists(cloths, min_size=1, max_size=3)),
        "blades": draw(st.sampled_from([6, 12, 20])),
        "tips": draw(st.sampled_from(["pointed", "flat", "round"])),
        "reach": text(reach),
        "hole": text(reach / 5),
        "centre": {"fabric": draw(cloths), "size": text(reach / 2)},
    }


@st.composite
def of_sides(draw, make: Any, *more: Any) -> Raw:
    """A unit whose width and height are free."""
    return draw(make(draw(sides), draw(sides), *more))


def square(make: Any) -> st.SearchStrategy[Raw]:
    """A unit that is square, or whose height follows from its width."""
    return sides.flatmap(make)


def only(kind: str, strategy: st.SearchStrategy[Raw]) -> st.SearchStrategy[Raw]:
    return strategy.filter(lambda raw: raw["unit"] == kind)


KINDS: dict[str, st.SearchStrategy[Raw]] = {
    "patch": of_sides(drawn.patches),
    "half-square triangle": square(drawn.triangles),
    "quarter-square triangle": square(drawn.quarter_squares),
    "flying geese": square(drawn.geese),
    "corner squares": of_sides(drawn.corner_squares),
    "square in a square": st.one_of(square(drawn.squares_in_squares), drawn.on_its_corner()),
    "eight-pointed star": square(drawn.stars),
    "kite": square(drawn.kites),
    "diamond": of_sides(drawn.diamonds),
    "fan blade ring": rings(),
    "hexagons": hexagons(),
    "strip set": of_sides(drawn.strip_sets),
    "polygons": of_sides(drawn.by_corners),
    "grid": of_sides(drawn.grids, 1),
    "bordered": of_sides(drawn.bordered, 1),
    "on point": drawn.on_point(),
    "turned": only("turned", of_sides(drawn.turned, 1)),
    "mirrored": only("mirrored", of_sides(drawn.turned, 1)),
}


def test_no_kind_is_passed_over() -> None:
    assert set(KINDS) == set(READERS)


def area(points: Any) -> Exact:
    """The shoelace formula in exact numbers."""
    doubled = Exact(0)
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        doubled = doubled + x0 * y1 - x1 * y0
    return abs(doubled) / 2


def look_of(top: Unit) -> set[Any]:
    return {(frozenset(patch.points), patch.fabric) for patch in top.patches()}


def needs_of(top: Unit, rules: CuttingRules) -> list[tuple[Unit, Need]]:
    return [(unit, need) for unit in top.walk() for need in unit.needs(rules)]


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_finished_area_in_is_finished_area_out(kind: str, data: Any) -> None:
    """To the last root of two. Where a patch has a hole, what lies in it is another patch."""
    top = read(data.draw(KINDS[kind])).top
    total = sum((area(p.points) - (area(p.hole) if p.hole else 0) for p in top.patches()), Exact(0))
    assert total == top.width * top.height


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_turned_four_times_and_mirrored_twice_a_unit_is_itself(kind: str, data: Any) -> None:
    raw = data.draw(KINDS[kind])
    four, twice = raw, {"unit": "mirrored", "inside": {"unit": "mirrored", "inside": raw}}
    for _ in range(4):
        four = {"unit": "turned", "turn": 90, "inside": four}
    assert look_of(read(four).top) == look_of(read(twice).top) == look_of(read(raw).top)


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_a_unit_beside_it_changes_nothing_about_it(kind: str, data: Any) -> None:
    """Not what is cut for it, nor where its patches lie."""
    raw = data.draw(KINDS[kind])
    alone = read(raw).top
    height = alone.height
    assert not height.b or kind in ("on point", "square in a square")
    if height.b:
        return
    other = data.draw(drawn.units(data.draw(sides), height.a, 1))
    first, _ = read({"unit": "grid", "rows": [[raw, other]]}).top.children()[0]
    rules = CuttingRules(SEAM, Fraction(1, 8))
    assert [need for _, need in needs_of(first, rules)] == [need for _, need in needs_of(alone, rules)]
    assert look_of(first) == look_of(alone)


GROWTH = {
    "both edges": 2 * SEAM,
    "cut once on the diagonal": SEAM * (2 + ROOT_2),
    "cut twice on the diagonal": SEAM * (2 + 2 * ROOT_2),
    "four at a time": 2 * SEAM + 2 * SEAM * ROOT_2,
    "eight at a time": 2 * SEAM * (2 + ROOT_2),
}
"""By how much a side is cut larger than finished: 2s; s(2 + √2); s(2 + 2√2); 2s(1 + √2); twice s(2 + √2) (geometry)."""


def worked_out(unit: Unit, need: Need) -> list[Fraction]:
    """The sides of a cut that follow from a finished size; how long strips are sewn or cut is a matter of choice."""
    if isinstance(unit, StripSet):
        return [need.width]
    return [need.height] if need.then == DIAMONDS else [need.width, need.height]


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_cut_minus_allowance_is_finished(kind: str, data: Any) -> None:
    """Every side grows by an allowance at both ends, or by what a triangle needs; a template's box by no less.

    The strips of a mitred border have an allowance of their own and none for a seam.
    """
    top = read(data.draw(KINDS[kind])).top
    bare, whole = (needs_of(top, CuttingRules(seam, FINE)) for seam in (Fraction(0), SEAM))
    for (unit, before), (_, after) in zip(bare, whole, strict=True):
        assert before.pieces == after.pieces
        for finished, cut in zip(worked_out(unit, before), worked_out(unit, after), strict=True):
            more = Exact(cut - finished)
            if isinstance(unit, Bordered) and more == 0:
                assert any(border.corners == MITRED for border in unit.borders)
            elif after.template:
                assert more >= 2 * SEAM - 4 * FINE
            else:
                assert any(abs(more - growth) <= 4 * FINE for growth in GROWTH.values()), (after, more)


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data())
def test_without_allowances_the_cloth_cut_is_the_cloth_seen_and_never_less(kind: str, data: Any) -> None:
    """Squares cut into triangles leave nothing over. What is flipped, trimmed or cut out of a box leaves some."""
    top = read(data.draw(KINDS[kind])).top
    needs = needs_of(top, CuttingRules(Fraction(0), FINE))
    cut = sum(
        (need.width * need.height * Fraction(need.pieces, need.makes) for _, need in needs), Fraction(0)
    )
    seen = float(top.width * top.height)
    assert float(cut) >= seen - 1e-3
    if kind in ("patch", "quarter-square triangle"):
        assert float(cut) == pytest.approx(seen, abs=1e-3)


@pytest.mark.parametrize("kind", KINDS)
@few
@given(st.data(), st.sampled_from([Fraction(1, 4), Fraction(1, 8), Fraction(1, 16), Fraction(5, 127)]))
def test_rounding_is_never_short_and_seldom_more_than_a_step(kind: str, data: Any, step: Fraction) -> None:
    """Against the same cut hardly rounded. A triangle's constant is rounded up by itself, twice that for eight at a
    time: then it is a step and a quarter inch at most.
    """
    top = read(data.draw(KINDS[kind])).top
    fine, coarse = (needs_of(top, CuttingRules(SEAM, s)) for s in (FINE, step))
    for (unit, exact), (_, cut) in zip(fine, coarse, strict=True):
        plain = not cut.then and not cut.method
        for least, side in zip(worked_out(unit, exact), worked_out(unit, cut), strict=True):
            assert (side / step).denominator == 1
            assert least - FINE <= side < least + step + (0 if plain else Fraction(1, 4))
