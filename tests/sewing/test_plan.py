"""The order of work, counts, sizes, and ids that stay."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.measure import ROOT_2, Exact
from workers.recipe import CannotMake
from workers.sewing import plan as plan_module
from workers.sewing.assemble import NotSewn
from workers.sewing.plan import SewingPlan, plan_sewing

PlanOf = Callable[..., SewingPlan]


def test_a_stage_comes_after_all_it_needs(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """Every need is the id of an earlier stage, so the order goes in no circle; ids are given once."""
    done: set[str] = set()
    for stage in plan_of(any_top).stages:
        assert set(stage.needs) <= done
        assert stage.id not in done
        done.add(stage.id)


def test_small_units_come_first(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """No small unit of plain cloth comes after something that is joined."""
    kinds = ("half-square triangle", "corner squares", "square in a square")
    small = [stage.work.kind in kinds and not stage.needs for stage in plan_of(any_top).stages]
    assert small == sorted(small, reverse=True)


def test_counts_agree_with_the_walk_of_the_top(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """As many half-square triangles, corner-square units and squares in squares are sewn as the top has."""
    plan = plan_of(any_top)
    kinds = ("half-square triangle", "corner squares", "square in a square")
    walked = Counter(unit.kind for unit in plan.project.top.walk() if unit.kind in kinds)
    sewn: Counter[str] = Counter()
    for stage in plan.stages:
        if stage.work.kind in kinds:
            sewn[stage.work.kind] += stage.count
    assert sewn == walked


def test_the_last_stage_is_the_top(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """One copy is made of the last stage; as it lies it is as large as the top."""
    plan = plan_of(any_top)
    last = plan.stages[-1]
    s = plan.project.seam_allowance
    sizes = {(plan.project.top.width + 2 * s, plan.project.top.height + 2 * s)}
    assert last.count == 1
    assert last.size.expected in sizes | {(h, w) for w, h in sizes}


def test_every_stage_measures_its_finished_size_and_two_allowances(
    any_top: dict[str, Any], plan_of: PlanOf
) -> None:
    """All stages but rows with slanted ends, where each adds its tip, s(1 + √2), instead; and but for slanted parts
    of blocks given by corners, which are measured by the box of their cut shape (test_polygons.py)."""
    plan = plan_of(any_top)
    s = plan.project.seam_allowance
    for stage in (stage for stage in plan.stages if not stage.work.slanted):
        width, height = stage.size.expected
        straight = 2 - stage.work.tips
        tips = stage.work.tips * (s * (1 + ROOT_2) + stage.work.extra / ROOT_2)
        assert width == stage.work.width + straight * s + tips
        assert height == stage.work.height + 2 * s


def test_the_limits_lie_on_both_sides_of_the_size(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """At least 1/16 in on either side."""
    for stage in plan_of(any_top).stages:
        for low, size, high in zip(stage.size.low, stage.size.expected, stage.size.high, strict=True):
            assert low <= size - Fraction(1, 16)
            assert high >= size + Fraction(1, 16)


def sizes_by_id(plan: SewingPlan) -> dict[str, tuple[Exact, Exact]]:
    return {stage.id: stage.size.expected for stage in plan.stages}


def test_an_unrelated_unit_changes_no_other_stage(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A block put in front of all others, and a unit in front of a row, leave ids and sizes of the rest alone."""
    blocks = {"b": units.odd_block(), "n": units.nine_patch()}
    plain = units.grid([units.patch("soil"), units.half("soil", "leaf")], [units.patch("leaf")] * 2)
    unnamed = units.grid(
        [units.half("leaf", "soil")] * 3, [units.patch("leaf")] * 3, [units.patch("soil")] * 3
    )
    before = plan_of(units.document(units.grid(["b", unnamed]), blocks))
    new = units.grid(
        [units.corners("ne", corner="soil")] * 3, [units.patch("frost")] * 3, [units.patch("frost")] * 3
    )
    after = plan_of(units.document(units.grid([new, "b", unnamed]), blocks | {"unused": plain}))
    kept = {k: v for k, v in sizes_by_id(before).items() if k != before.stages[-1].id}
    assert kept.items() <= sizes_by_id(after).items()


def test_a_row_put_in_keeps_the_ids_of_other_rows(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Rows are called by what they hold, not by their number."""
    one = [units.patch("frost"), units.half("frost", "leaf")]
    two = [units.patch("soil"), units.patch("leaf")]
    new = [units.patch("leaf"), units.half("soil", "leaf")]
    before, after = (plan_of(units.document(units.grid(*rows))) for rows in ([one, two], [new, one, two]))
    assert sizes_by_id(before).keys() - {"top"} <= sizes_by_id(after).keys()


def test_equal_rows_that_touch_are_two_stages(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Three equal rows: the first and third are sewn alike, the second is pressed the other way."""
    row = [units.patch("frost"), units.patch("leaf"), units.patch("soil")]
    rows = [s for s in plan_of(units.document(units.grid(row, row, row))).stages if s.work.kind == "row"]
    assert sorted(s.count for s in rows) == [1, 2]
    first, second = ([seam.press for seam in s.seams] for s in rows)
    assert all(a != b for a, b in zip(first, second, strict=True))


def test_the_same_unit_written_twice_is_one_stage(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Equal blocks without a name are sewn together as one stage with a count."""
    top = units.grid([units.nine_patch(), units.nine_patch()], [units.nine_patch(), units.nine_patch()])
    blocks = [s for s in plan_of(units.document(top)).stages if s.work.kind == "rows"]
    assert [s.count for s in blocks] == [4, 1]


def test_borders_are_sewn_pair_by_pair_in_the_right_order(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Innermost first; with "top and bottom" first, the sides run over them."""
    borders = [
        {"width": "1", "fabric": "leaf", "first": "top and bottom"},
        {"width": "2", "fabric": "soil"},
    ]
    plan = plan_of(units.document(units.bordered(units.patch("frost", "6", "8"), *borders)))
    s = 2 * plan.project.seam_allowance
    assert [tuple(side - s for side in stage.size.expected) for stage in plan.stages] == [
        (6, 10),
        (8, 10),
        (12, 10),
        (12, 14),
    ]


def test_diagonal_rows_hold_blocks_and_alternates_in_turn(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Two rows of three on point: diagonal rows of 1, 3, 3 and 1, with 6 side triangles and 4 corners."""
    plan = plan_of(units.document(units.on_point(units.patch("leaf"), 2, 3, units.patch("frost"))))
    rows = [s for s in plan.stages if s.work.kind == "row"]
    ends = [s for s in plan.stages if s.work.kind == "diagonal row"]
    assert sum(s.count * len(s.work.items) for s in rows) == 6
    assert sum(s.count * s.work.tips for s in ends) == 6
    assert len(plan.stages[-1].work.seams) == 4


def test_a_top_of_one_cloth_is_a_stage_without_a_seam(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Its size is stated all the same."""
    (stage,) = plan_of(units.document(units.patch("leaf", "12", "18"))).stages
    assert (stage.size.expected, stage.seams) == ((Fraction(25, 2), Fraction(37, 2)), ())


def test_a_kind_of_unit_that_nobody_can_sew_is_named(
    units: SimpleNamespace, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The job says what it cannot make instead of leaving it out."""
    from service.craft.document import read_document

    def refuse(*_: object) -> None:
        raise NotSewn("there is no way to sew a unit of the kind 'knot' (/top)")

    monkeypatch.setattr(plan_module, "assemble", refuse)
    with pytest.raises(CannotMake, match="knot"):
        plan_sewing(read_document(units.document(units.patch("leaf"))))
