"""Diamonds in rectangles: one stage with four seams, pressed outwards, whichever way they lie."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace

import pytest

from workers.sewing.plan import SewingPlan

PlanOf = Callable[..., SewingPlan]
Sewn = Callable[..., SimpleNamespace]


@pytest.mark.parametrize(("width", "height"), [("4", "6"), ("4", "4"), ("7 1/2", "3")])
def test_a_diamond_is_one_stage_pressed_towards_its_corners(
    units: SimpleNamespace, plan_of: PlanOf, width: str, height: str
) -> None:
    """The corners lie outside, where the next seam needs its points thin."""
    plan = plan_of(units.document(units.diamond(width=width, height=height)))
    [stage] = plan.stages
    assert [seam.towards for seam in stage.seams] == ["frost white"] * 4
    wanted = plan.project.top.width + 0.5, plan.project.top.height + 0.5
    assert tuple(map(float, stage.size.expected)) == tuple(map(float, wanted))


def test_diamonds_that_differ_by_a_turn_are_one_work(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A half turn of a rectangle, any turn of a square; a mirror changes left and right."""
    four = units.diamond("frost", "soil", "leaf", "leaf")
    other = units.diamond("leaf", "leaf", "frost", "soil")
    mirror = units.diamond("soil", "frost", "leaf", "leaf")
    plan = plan_of(units.document(units.grid([four, other, units.mirrored(mirror)])))
    assert [stage.count for stage in plan.stages if stage.work.kind == "diamond"] == [3]
    square = [
        units.diamond(*row, height="4")
        for row in (("frost", "soil", "leaf", "leaf"), ("leaf", "frost", "soil", "leaf"))
    ]
    plan = plan_of(units.document(units.grid(square)))
    assert [stage.count for stage in plan.stages if stage.work.kind == "diamond"] == [2]


@pytest.mark.parametrize(("height", "ends"), [("6", "trimmed tip"), ("4", "stick out")])
def test_the_steps_sew_opposite_sides_and_leave_room_beyond_the_points(
    units: SimpleNamespace, sewn: Sewn, height: str, ends: str
) -> None:
    """Tips are trimmed by a template; triangles cut from squares keep theirs."""
    (steps,) = sewn(units.document(units.diamond(height=height))).steps.values()
    said = {s["id"].rpartition(".")[2]: s for s in steps if s["stage"]}
    order = ["lay", "mark", "first-two", "press-two", "other-two", "grade", "press", "check", "trim"]
    assert list(said) == order
    assert ends in said["first-two"]["why"]
    assert "1/4 in is left beyond each of the four points" in said["check"]["text"]
    assert said["trim"]["size"]["width"]["text"] == "4 1/2 in"
