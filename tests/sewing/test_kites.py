"""Kites are sewn along two seams that run straight through, and laid any way round."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace

from workers.sewing.plan import SewingPlan
from workers.sewing.polygons import JOINED

PlanOf = Callable[..., SewingPlan]


def test_a_kite_is_joined_without_a_set_in_seam(units: SimpleNamespace, plan_of: PlanOf) -> None:
    plan = plan_of(units.document(units.kite()))
    assert {stage.work.kind for stage in plan.stages} == {JOINED}
    assert sum(len(stage.seams) for stage in plan.stages) == 2
    assert tuple(map(float, plan.stages[-1].size.expected)) == (4.5, 4.5)


def test_a_mirrored_kite_covers_the_same_square(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """The kite is its own mirror image over the diagonal: mirrored, it is the kite turned by a quarter."""
    plan = plan_of(units.document(units.mirrored(units.kite())))
    turned = plan_of(units.document(units.turned(units.kite(), 270)))
    assert plan.stages[-1].size == turned.stages[-1].size
    shown = [
        {(p.fabric, frozenset(p.points)) for p in which.project.top.patches()} for which in (plan, turned)
    ]
    assert shown[0] == shown[1]
