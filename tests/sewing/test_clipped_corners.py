"""A base with its corners cut off, given by its patches, is sewn as the corner-square unit that it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.document import read_document
from service.craft.readiness import check_readiness
from tests.block_shapes import BASE, DARK, MAIN, Shape, box, turned
from tests.more_blocks import at, clipped
from tests.straight_blocks import CLOTHS, block, document, unit
from workers.sewing.plan import plan_sewing
from workers.sewing.works import walk_patches

Sewn = Callable[..., SimpleNamespace]

HALF = Fraction(1, 2)
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


def test_the_steps_say_why_it_is_cut_whole_and_speak_of_no_template(sewn: Sewn) -> None:
    made = sewn(document(block("snowball", 6), tracks=[{"name": "by hand", "has": []}]))
    (mark,) = [step for step in made.steps["by hand"] if step["id"].endswith(".mark")]
    assert "takes nothing but a ruler" in mark["why"]
    assert not [
        step for step in made.steps["by hand"] if "template" in f"{step['id']} {step['text']} {step['why']}"
    ]


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


def test_bases_in_a_ring_are_sewn_before_the_ring_is() -> None:
    """Four strips with a slanting end round a square: four units alike, then the ring of five parts."""
    strip, shapes = clipped(2, 1, {"nw": 1}, MAIN, BASE), box(1, 1, 1, 1, DARK)
    for _ in range(4):
        shapes += strip
        strip = turned(strip, 3)
    project = read_document(document(unit(shapes, 3, 3)))
    plan = plan_sewing(project)
    assert [(stage.work.kind, stage.count) for stage in plan.stages] == [
        ("corner squares", 4),
        ("parts round a middle", 1),
    ]
    assert plan.stages[-1].work.facts["parts"] == "5"
    sewn = corners_of((c.fabric, [(p.real, p.imag) for p in c.corners]) for c in walk_patches(plan.top))
    assert sewn == corners_of((patch.fabric, patch.points) for patch in project.top.patches())


CORNER_NAMES = st.sampled_from(["nw", "ne", "se", "sw"])


@st.composite
def beds(draw: st.DrawFn) -> tuple[list[Shape], int, int]:
    """Rectangles side by side, each with corners of its own: which, how large, of which cloths."""
    columns, rows = draw(st.integers(1, 3)), draw(st.integers(1, 3))
    shapes: list[Shape] = []
    for x in range(columns):
        for y in range(rows):
            legs = draw(st.dictionaries(CORNER_NAMES, st.integers(1, 2), max_size=4))
            base, *tips = clipped(5, 4, legs, draw(st.sampled_from([MAIN, DARK])), BASE)
            tips = [(points, draw(st.sampled_from([BASE, DARK]))) for points, _ in tips]
            shapes += at(5 * x, 4 * y, [base, *tips])
    return shapes, 5 * columns, 4 * rows


def corners_of(patches: Any) -> list[Any]:
    return sorted(
        (fabric, tuple(sorted((round(float(x) + 1e-7, 4), round(float(y) + 1e-7, 4)) for x, y in points)))
        for fabric, points in patches
    )


@settings(max_examples=60, deadline=None)
@given(beds(), st.booleans(), st.sampled_from([None, 90, 180]))
def test_whatever_corners_a_base_has_every_patch_comes_out_in_its_place(
    bed: Any, mirror: bool, turn: int | None
) -> None:
    """By n - 1 seams, all of them straight, and without a single template; turned and mirrored too."""
    top: Any = unit(*bed)
    top = {"unit": "turned", "inside": top, "turn": turn} if turn else top
    top = {"unit": "mirrored", "inside": top} if mirror else top
    project = read_document(document(top))
    plan = plan_sewing(project)
    sewn = corners_of((c.fabric, [(p.real, p.imag) for p in c.corners]) for c in walk_patches(plan.top))
    assert sewn == corners_of((patch.fabric, patch.points) for patch in project.top.patches())
    assert sum(stage.count * len(stage.seams) for stage in plan.stages) == len(bed[0]) - 1
    assert not project.patch_templates


@settings(max_examples=60, deadline=None)
@given(beds())
def test_a_base_is_cut_whole_and_each_corner_from_a_square_of_its_leg(bed: Any) -> None:
    """Leg and two allowances: canuckquilter.com 2024/03; the base as if it were plain. So much, and nothing else."""
    shapes, width, height = bed
    needs = Counter[Any]()
    project = read_document(document(unit(*bed)))
    for need in project.top.needs(project.rules):
        needs[need.fabric, need.width, need.height, need.then] += need.pieces
    expected = Counter[Any]()
    for points, cloth in shapes:
        if len(points) == 3:
            leg = max(abs(points[0][0] - points[2][0]), abs(points[0][1] - points[2][1]))
            expected[cloth, leg + HALF, leg + HALF, ""] += 1
        else:
            expected[cloth, 5 + HALF, 4 + HALF, ""] += 1
    assert needs == expected
    assert width * height == sum(1 for points, _ in shapes if len(points) > 3) * 20
