"""A base with its corners cut off, given by its patches, is sewn as the corner-square unit that it is."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

from service.craft.document import read_document
from service.craft.readiness import check_readiness
from tests.straight_blocks import CLOTHS, block, document
from workers.sewing.plan import plan_sewing

Sewn = Callable[..., SimpleNamespace]

SNOWBALL = {
    "unit": "corner squares",
    "size": ["6", "6"],
    "fabric": "leaf",
    "corners": {"size": "2", "fabric": "frost"},
}


def test_a_snowball_by_its_corners_is_one_stage_with_the_unit_made_for_it() -> None:
    """Drawn or named, two of one kind are sewn together."""
    plan = plan_sewing(read_document(document({"unit": "grid", "rows": [[block("snowball", 6), SNOWBALL]]})))
    (stage,) = [stage for stage in plan.stages if stage.work.kind == "corner squares"]
    assert (stage.count, len(stage.seams)) == (2, 4)


def test_bases_inside_a_block_are_sewn_first_and_turned_ones_are_alike() -> None:
    """The four wings of a windmill, two of them upright, two level: one stage, before anything is joined."""
    first, *others = plan_sewing(read_document(document(block("paper windmill", 8)))).stages
    assert (first.work.kind, first.count) == ("corner squares", 4)
    assert {stage.work.kind for stage in others} == {"joined parts"}


def test_the_steps_say_that_no_template_is_needed_and_why(sewn: Sewn) -> None:
    made = sewn(document(block("snowball", 6), tracks=[{"name": "by hand", "has": []}]))
    (mark,) = [step for step in made.steps["by hand"] if step["id"].endswith(".mark")]
    assert "No template is needed." in f"{mark['text']} {mark['why']}"
    assert not [step for step in made.steps["by hand"] if "template" in step["id"]]


def test_corners_of_several_cloths_and_sizes_are_named_each_with_its_place(sewn: Sewn) -> None:
    made = sewn(document(block("lamp", 6), tracks=[{"name": "by hand", "has": []}]))
    (lay,) = [s for s in made.steps["by hand"] if s["id"].endswith(".lay") and "corner-squares" in s["id"]]
    assert "soil brown dot for a corner of 1 in finished top left and top right" in lay["text"]
    assert "frost white for a corner of 2 in finished bottom right and bottom left" in lay["text"]
    (mark,) = [step for step in made.steps["by hand"] if step["id"].endswith(".mark")]
    assert "4 squares of soil brown dot and frost white" in mark["text"]


def test_a_print_on_a_corner_square_turns_with_the_flip() -> None:
    """As it does on the unit made for it."""
    cloths: dict[str, Any] = CLOTHS | {"frost": CLOTHS["frost"] | {"directional": True}}
    ready = check_readiness(read_document(document(block("snowball", 6), fabrics=cloths)), {})
    assert any("flipped over its diagonal" in warning.detail for warning in ready.warnings)
