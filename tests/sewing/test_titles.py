"""No two stages of a plan share a title, and the last stage is stated as the top lies."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.document import read_document
from tests.sewing.test_nesting import look, random_top
from workers.sewing.plan import SewingPlan, plan_sewing
from workers.sewing.works import Laid, walk_patches

PlanOf = Callable[..., SewingPlan]
SEEDS = sorted((Path(__file__).parents[2] / "seed_data").glob("*/project.json"))


def titles_of(plan: SewingPlan) -> list[str]:
    return [stage.work.title for stage in plan.stages]


def test_no_title_stands_twice_in_any_top(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """In every top of the collection each stage has a title of its own."""
    titles = titles_of(plan_of(any_top))
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("place", SEEDS, ids=lambda place: place.parent.name)
def test_no_title_stands_twice_in_the_seed_data(place: Path) -> None:
    """Nor in a month of the series."""
    titles = titles_of(plan_sewing(read_document(json.loads(place.read_text(encoding="utf-8")))))
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("seed", range(100, 112))
def test_no_title_stands_twice_in_a_random_top(units: SimpleNamespace, seed: int) -> None:
    """Blocks of random cells, turned and mirrored."""
    titles = titles_of(plan_sewing(read_document(random_top(units, seed))))
    assert len(set(titles)) == len(titles)


def test_a_mirror_image_says_so(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A block and its image have one name; the second title says which it is."""
    plan = plan_of(units.document(units.grid(["b", units.mirrored("b")]), {"b": units.odd_block()}))
    said = {stage.id: stage.work.title for stage in plan.stages}
    assert said["block.b.mirrored"] == f"{said['block.b']}, its mirror image"


@pytest.mark.parametrize("turn", [90, 180, 270])
@pytest.mark.parametrize(
    "name", ["grid", "row", "bordered", "mirrored", "turned twice", "border of a turned"]
)
def test_the_last_stage_lies_as_the_top_does(
    units: SimpleNamespace, plan_of: PlanOf, name: str, turn: int
) -> None:
    """Turned by any quarter, mirrored, turned twice, with borders: its size is the top's, its patches are where the
    drawing has them, and what nests is the same."""
    cells = units.grid(
        [units.patch("frost"), units.half("leaf", "soil"), units.patch("leaf")], ["c", "d", "e"]
    )
    border = {"width": "1", "fabric": "soil"}
    insides = {
        "grid": cells,
        "row": units.grid([units.patch("frost"), units.patch("leaf"), units.half("leaf", "soil")]),
        "bordered": units.bordered(cells, border),
        "mirrored": units.mirrored(cells),
        "turned twice": units.turned(cells, 90),
        "border of a turned": units.bordered(units.turned(cells, 90), border),
    }
    blocks = {"c": units.patch("soil"), "d": units.patch("leaf"), "e": units.half("frost", "soil")}
    plan = plan_of(units.document(units.turned(insides[name], turn), blocks))
    last, top = plan.stages[-1], plan.project.top
    assert (last.work.width, last.work.height) == (top.width, top.height)
    assert plan.top.eighths == 0
    allowances = 2 * plan.project.seam_allowance
    assert last.size.expected == (top.width + allowances, top.height + allowances)
    assert seen(plan) == {
        (patch.fabric, tuple(sorted((round(float(x), 6), round(float(y), 6)) for x, y in patch.points)))
        for patch in top.patches()
    }
    assert look(plan)[1] == 0
    seams = last.seams
    middles = [(seam.line.start + seam.line.end) / 2 for seam in seams]
    if last.work.kind in ("row", "rows"):
        assert middles == sorted(middles, key=lambda m: m.real + m.imag)
    for seam, middle in zip(seams, middles, strict=True):
        if last.work.kind == "border pair":
            upright = last.work.facts["pair"] == "left and right"
            assert (abs(seam.line.start.real - seam.line.end.real) < 1e-6) == upright, middle
    pairs = [stage.work.facts["pair"] for stage in plan.stages if stage.work.kind == "border pair"]
    assert len(set(pairs)) == len(pairs)


def seen(plan: SewingPlan) -> set[tuple[str, tuple[tuple[float, float], ...]]]:
    """The patches of the last stage's picture."""
    return {
        (cut.fabric, tuple(sorted((round(c.real, 6), round(c.imag, 6)) for c in cut.corners)))
        for cut in walk_patches(Laid(plan.stages[-1].work))
    }


def test_ids_stay_when_a_stage_with_the_same_title_comes_in(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A further image of a block changes words, not ids."""
    blocks = {"b": units.odd_block()}
    one = plan_of(units.document(units.grid(["b"], ["b"]), blocks))
    two = plan_of(units.document(units.grid(["b"], [units.mirrored("b")]), blocks))
    assert {s.id for s in one.stages if s.id.startswith("block.b")} <= {s.id for s in two.stages}
