"""Fields of hexagons: every edge a seam, pressed in a whirl round every point, sewn in rows."""

from __future__ import annotations

from cmath import phase
from collections import defaultdict
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest
from shapely import Point, Polygon

from workers.sewing.plan import SewingPlan, Stage

Sewn = Callable[..., SimpleNamespace]
PlanOf = Callable[..., SewingPlan]


def only(plan: SewingPlan) -> Stage:
    (stage,) = [stage for stage in plan.stages if stage.work.kind == "hexagons"]
    return stage


@pytest.mark.parametrize("way", ["as it is", "mirrored"])
def test_each_side_of_a_seam_is_the_patch_that_lies_there(
    units: SimpleNamespace, plan_of: PlanOf, way: str
) -> None:
    """A hair beside the middle of each seam lies a patch of the cloth the seam names (Shapely says which)."""
    top = units.hexagons() if way == "as it is" else units.mirrored(units.hexagons())
    plan = plan_of(units.document(top))
    shapes = [
        (Polygon([(float(x), float(y)) for x, y in patch.points]), patch.fabric)
        for patch in plan.project.top.patches()
    ]
    for seam in only(plan).seams:
        middle = (seam.line.start + seam.line.end) / 2
        for side, hand in ((seam.line.left, -1), (seam.line.right, 1)):
            beside = middle + hand * 0.01 * seam.line.to_right
            assert [c for shape, c in shapes if shape.contains(Point(beside.real, beside.imag))] == [
                side.fabric
            ]


def test_round_every_point_all_three_seams_fall_the_same_way(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Seen from the point each is pressed clockwise, or each against the clock; five points along each of the
    two zigzags between the rows, and two where two hexagons and a triangle meet along either edge."""
    stage = only(plan_of(units.document(units.hexagons())))
    ways: dict[tuple[float, float], list[bool]] = defaultdict(list)
    for seam in stage.seams:
        to_right = {"left": -1, "right": 1, "up": -1j, "down": 1j}[seam.press]
        for here, there in ((seam.line.start, seam.line.end), (seam.line.end, seam.line.start)):
            turn = phase(to_right / (there - here))
            ways[round(here.real, 3), round(here.imag, 3)].append(turn > 0)
    inner = [found for found in ways.values() if len(found) == 3]
    assert len(inner) == 2 * 5 + 2 * 2
    assert all(len(set(found)) == 1 for found in inner)


def test_a_field_with_a_border_is_sewn_and_measures_what_it_should(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """Three of 1 in across are 3√3 in, three rows 5 in; and 1 in of border on every side."""
    plan = plan_of(units.document(units.bordered(units.hexagons(), {"width": "1", "fabric": "soil"})))
    stage = only(plan)
    assert list(map(float, stage.size.expected)) == pytest.approx([3 * 3**0.5 + 0.5, 5.5], abs=1e-3)
    assert list(map(float, plan.stages[-1].size.expected)) == pytest.approx([3 * 3**0.5 + 2.5, 7.5], abs=1e-3)


def test_the_steps_sew_rows_and_set_in_the_rest(units: SimpleNamespace, sewn: Sewn) -> None:
    made = sewn(units.document(units.hexagons()))
    (steps,) = made.steps.values()
    said: dict[str, Any] = {s["id"].rpartition(".")[2]: s["text"] for s in steps if s["stage"]}
    assert list(said) == ["lay", "mark", "rows", "join", "edges", "press", "check", "trim"]
    assert "8 hexagons" in said["lay"] and "set-in seams" in said["join"]
    one_row = sewn(units.document(units.hexagons(["leaf", "soil"])))
    (steps,) = one_row.steps.values()
    assert not any(s["id"].endswith(".join") for s in steps)
