"""Eight-pointed stars: sewn out of diamonds, the background set in, pressed in a ring."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from workers.sewing.plan import SewingPlan, Stage

Sewn = Callable[..., SimpleNamespace]
PlanOf = Callable[..., SewingPlan]


def only(plan: SewingPlan) -> Stage:
    (stage,) = [stage for stage in plan.stages if stage.work.kind == "eight-pointed star"]
    return stage


def texts(made: SimpleNamespace) -> dict[str, str]:
    (steps,) = made.steps.values()
    return {s["id"].rpartition(".")[2]: s["text"] for s in steps if "piecing.eight-pointed-star." in s["id"]}


def test_a_star_measures_its_finished_size_and_two_allowances(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    stage = only(plan_of(units.document(units.star("leaf", "soil"))))
    assert tuple(map(float, stage.size.expected)) == (6.5, 6.5)


def test_every_place_where_two_patches_meet_is_a_seam(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Edges of patches but the twelve round the block come twice, once from either side: (8·4 + 4·3 + 4·4 - 12)/2."""
    seams = only(plan_of(units.document(units.star("leaf", "soil")))).seams
    ends = {
        frozenset((round(p.real, 6), round(p.imag, 6)) for p in (s.line.start, s.line.end)) for s in seams
    }
    assert len(seams) == len(ends) == (8 * 4 + 4 * 3 + 4 * 4 - 12) // 2


def test_each_side_of_a_seam_is_the_patch_that_lies_there(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A hair beside the middle of each seam lies a patch of the cloth the seam names (Shapely says which)."""
    from shapely import Point, Polygon

    project = plan_of(units.document(units.star("leaf", "soil")))
    shapes = [
        (Polygon([(float(x), float(y)) for x, y in patch.points]), patch.fabric)
        for patch in project.project.top.patches()
    ]
    for seam in only(project).seams:
        middle = (seam.line.start + seam.line.end) / 2
        for side, hand in ((seam.line.left, -1), (seam.line.right, 1)):
            beside = middle + hand * 0.01 * seam.line.to_right
            assert [c for shape, c in shapes if shape.contains(Point(beside.real, beside.imag))] == [
                side.fabric
            ]


def test_the_seams_between_diamonds_fall_the_same_way_round(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Each towards the next diamond in turn, so that one half of them falls towards either cloth."""
    seams = only(plan_of(units.document(units.star("leaf", "soil")))).seams[:8]
    towards = [seam.towards for seam in seams]
    assert towards in (["leek green", "soil brown dot"] * 4, ["soil brown dot", "leek green"] * 4)


def test_the_background_is_pressed_away_from_the_points(units: SimpleNamespace, plan_of: PlanOf) -> None:
    seams = only(plan_of(units.document(units.star("leaf", "soil")))).seams[8:]
    assert {seam.towards for seam in seams} == {"frost white"}


def test_a_star_in_a_mirror_is_another_star_and_a_turned_one_the_same(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    two = units.star("leaf", "soil")
    row = units.grid([two, units.turned(two, 90), units.mirrored(two)])
    counts = [s.count for s in plan_of(units.document(row)).stages if s.work.kind == "eight-pointed star"]
    assert sorted(counts) == [1, 2]
    plain = units.star("leaf")
    row = units.grid([plain, units.mirrored(plain)])
    assert only(plan_of(units.document(row))).count == 2


@pytest.mark.parametrize("diamonds", [("leaf", "soil"), ("leaf",)])
def test_the_steps_name_what_is_set_in_and_check_the_points(
    units: SimpleNamespace, sewn: Sewn, diamonds: tuple[str, ...]
) -> None:
    said: dict[str, Any] = texts(sewn(units.document(units.star(*diamonds))))
    assert list(said) == [
        *("lay", "mark", "pairs", "halves", "pin-star", "star", "loosen-star", "press-diamonds"),
        *("set-in-triangles", "set-in-squares", "press", "check", "trim"),
    ]
    assert "Set in the frost white triangles" in said["set-in-triangles"]
    assert "Sew 4 pairs" in said["pairs"]
    assert "1/4 in is left beyond each of the eight points" in said["check"]
