"""Whether every step has a drawing of its own action, and the drawing shows what the step says."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.document import read_document
from service.craft.drawing.scenes import Scene
from workers.sewing.plan import SewingPlan, plan_sewing
from workers.sewing.steps import list_steps
from workers.sewing.steps.scenes.finding import find_own_scene, find_scene
from workers.sewing.steps.step import Lesson, Step

PlanOf = Callable[[dict[str, Any]], SewingPlan]
MONTHS = sorted(Path("seed_data").glob("*/project.json"))

GENERAL = {
    "set-in": "all edges of the patch that is left are sewn, and the drawing of the stage shows which patch that is",
}
"""Steps that a drawing of the whole stage stands for, each with its reason."""


def find_general(plan: SewingPlan) -> set[str]:
    """What the steps are called that have no drawing of their own."""
    lessons = [Lesson(plan, track) for track in plan.project.tracks]
    steps = [(step, lesson) for lesson in lessons for step in list_steps(lesson)]
    return {step.id.rpartition(".")[2] for step, lesson in steps if find_own_scene(step, lesson) is None}


def scenes_of(plan: SewingPlan) -> dict[str, tuple[Step, Scene]]:
    """The steps of the first track with their scenes, by id."""
    lesson = Lesson(plan, plan.project.tracks[0])
    return {step.id: (step, find_scene(step, lesson)) for step in list_steps(lesson)}


def test_every_step_of_every_unit_has_its_own_drawing(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    assert find_general(plan_of(any_top)) <= set(GENERAL)


@pytest.mark.parametrize("path", MONTHS, ids=[path.parent.name for path in MONTHS])
def test_every_step_of_the_series_has_its_own_drawing(path: Path) -> None:
    """On every track, cutting, applique and finishing as well."""
    assert find_general(plan_sewing(read_document(json.loads(path.read_text())))) == set()


@pytest.mark.parametrize("tips", ["pointed", "round", "flat"])
def test_every_step_of_a_ring_of_blades_has_its_own_drawing(
    units: SimpleNamespace, plan_of: PlanOf, tips: str
) -> None:
    ring = {
        "unit": "fan blade ring",
        "size": ["14", "14"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil"],
        "blades": 20,
        "tips": tips,
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "leaf", "size": "3 1/2"},
    }
    assert find_general(plan_of(units.document(ring))) == set()


def test_the_arrow_of_a_border_lies_the_way_the_step_measures(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """From top to bottom it is upright, from left to right it is level; the strips are not on yet."""
    top = units.bordered(
        units.grid([units.half("frost", "leaf"), units.half("leaf", "frost")]),
        {"width": "2", "fabric": "soil"},
    )
    measured = [
        (step, scene)
        for step, scene in scenes_of(plan_of(units.document(top))).values()
        if step.id.endswith(".measure")
    ]
    assert len(measured) == 2
    for step, scene in measured:
        upright = "from top to bottom" in step.text
        assert all((start[0] == end[0]) is upright for start, end in scene.arrows)
        assert "before its strips are on" in scene.alt


def test_each_round_of_a_star_shows_its_own_seams(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Four pairs, two halves, one line through the middle; two seams to each of four triangles and four squares
    (counted from the block: eight diamonds)."""
    scenes = scenes_of(plan_of(units.document(units.grid([units.star("leaf", "soil")]))))
    count = {
        step_id.rpartition(".")[2]: sum(kind == "sew" for kind, _ in scene.lines)
        for step_id, (step, scene) in scenes.items()
        if step.stage
    }
    rounds = ("pairs", "halves", "star", "set-in-triangles", "set-in-squares")
    assert [count[what] for what in rounds] == [4, 2, 2, 8, 8]


def test_a_quarter_of_eight_units_is_cut_between_seams_that_lie_on_it() -> None:
    """The drawn line is cut, a seam on either side, none of them beyond the cloth."""
    scenes = scenes_of(plan_sewing(read_document(json.loads(MONTHS[0].read_text()))))
    [scene] = [scene for step_id, (_, scene) in scenes.items() if step_id.endswith(".cut-lines")]
    assert sorted(kind for kind, _ in scene.lines) == ["cut", "sew", "sew"]
    assert all(0 <= value <= 10 for _, line in scene.lines for at in line for value in at)


def test_corner_triangles_are_drawn_where_they_are_sewn_on(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Rows first, then the four corners: each step shows its own seams and no other."""
    plan = plan_of(json.loads(MONTHS[0].read_text()))
    scenes = {step_id: scene for step_id, (_, scene) in scenes_of(plan).items()}
    sewn = [
        sum(kind == "sew" for kind, _ in scenes[f"piecing.top.inside.{what}"].lines)
        for what in ("sew", "corners")
    ]
    assert sewn == [2, 4]


def test_a_graded_seam_shows_the_dark_allowance_on_the_light_one(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """The line to cut runs inside the edge of the uppermost layer, which is the darker cloth."""
    scenes = scenes_of(plan_of(json.loads(MONTHS[0].read_text())))
    graded = [scene for step_id, (_, scene) in scenes.items() if step_id.endswith(".grade")]
    assert graded
    for scene in graded:
        assert scene.pieces[-1].cloth == "sky"
        [(_, (start, _))] = [line for line in scene.lines if line[0] == "cut"]
        ys = [y for _, y in scene.pieces[-1].points]
        assert min(ys) < start[1] < max(ys)
