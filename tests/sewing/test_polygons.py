"""Straight-seam blocks are sewn along the seams that run through; parts that are alike are one stage."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.document import read_document
from tests.straight_blocks import BLOCKS, RINGS, SET_IN, STRAIGHT, block, cut_ups, document, unit
from workers.recipe import CannotMake
from workers.sewing.assemble import assemble
from workers.sewing.plan import SewingPlan, Stage, plan_sewing
from workers.sewing.polygons import JOINED
from workers.sewing.polygons import SET_IN as SET_IN_KIND
from workers.sewing.rings import RING
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Cut, SeamLine, walk_patches

Sewn = Callable[..., SimpleNamespace]
WAYS = ("as it is", "turned", "mirrored", "on its corner")


def laid(name: str, way: str) -> dict[str, Any]:
    """The block 6 in wide, alone or inside something that moves it."""
    whole = block(name, 6)
    return {
        "as it is": whole,
        "turned": {"unit": "turned", "inside": whole, "turn": 90},
        "mirrored": {"unit": "mirrored", "inside": whole},
        "on its corner": {"unit": "square in a square", "inside": whole, "fabric": "soil"},
    }[way]


def plan_of(top: Any, **more: Any) -> SewingPlan:
    return plan_sewing(read_document(document(top, **more)))


def corners_of(patches: Any) -> list[Any]:
    return sorted(
        (fabric, tuple(sorted((round(float(x) + 1e-7, 4), round(float(y) + 1e-7, 4)) for x, y in points)))
        for fabric, points in patches
    )


@pytest.mark.parametrize(
    ("name", "way"),
    [(n, w) for n in BLOCKS for w in WAYS if w != "on its corner" or not n.endswith("rectangle")],
)
def test_every_patch_lies_where_the_block_has_it(name: str, way: str) -> None:
    """Through all the parts, turned and moved, each patch comes out where the document put it."""
    project = read_document(document(laid(name, way)))
    top = assemble(project, ClothNames(project.fabrics, "in"))
    sewn = corners_of((cut.fabric, [(c.real, c.imag) for c in cut.corners]) for cut in walk_patches(top))
    assert sewn == corners_of((patch.fabric, patch.points) for patch in project.top.patches())


@settings(max_examples=80, deadline=None)
@given(cut_ups(), st.sampled_from([None, 90, 180, 270]), st.booleans())
def test_whatever_is_cut_up_from_edge_to_edge_is_sewn_true(made: Any, turn: int | None, mirror: bool) -> None:
    """Parts alike are sewn once and laid their own ways, and every patch comes out in its place; by n - 1 seams."""
    top: Any = unit(*made)
    top = {"unit": "turned", "inside": top, "turn": turn} if turn else top
    top = {"unit": "mirrored", "inside": top} if mirror else top
    plan = plan_of(top)
    sewn = corners_of((c.fabric, [(p.real, p.imag) for p in c.corners]) for c in walk_patches(plan.top))
    assert sewn == corners_of((patch.fabric, patch.points) for patch in plan.project.top.patches())
    assert sum(stage.count * len(stage.seams) for stage in plan.stages) == len(made[0]) - 1


@pytest.mark.parametrize("name", BLOCKS)
def test_every_patch_is_sewn_in_once_and_n_patches_take_n_minus_one_seams(name: str) -> None:
    """But for patches that are set in, which meet along more seams than that."""
    plan = plan_of(block(name, 6))
    taken = sum(s.count * sum(isinstance(i.piece, Cut) for i in s.work.items) for s in plan.stages)
    seams = sum(stage.count * len(stage.seams) for stage in plan.stages)
    patches = sum(1 for _ in plan.project.top.patches())
    assert taken == patches
    assert (seams == patches - 1) if name in STRAIGHT | RINGS else seams > patches - 1


@pytest.mark.parametrize("name", BLOCKS)
def test_seams_run_between_the_parts_of_a_stage_and_over_none(name: str) -> None:
    """Every corner of every patch of the part on the left lies on the left of the seam's line; and so on the right."""
    for stage in plan_of(block(name, 6)).stages:
        if stage.work.kind == JOINED:
            for number, seam in enumerate(stage.work.seams):
                for item, side in ((number, -1), (number + 1, 1)):
                    corners = [c for cut in walk_patches(stage.work.items[item]) for c in cut.corners]
                    beside = [((c - seam.start) * seam.to_right.conjugate()).real for c in corners]
                    assert min(side * b for b in beside) > -1e-9


@pytest.mark.parametrize("name", SET_IN)
def test_a_seam_that_is_set_in_is_a_stage_and_a_step_of_its_own(name: str, sewn: Sewn) -> None:
    made = sewn(document("b", blocks={"b": block(name, 6)}))
    (stage,) = [stage for stage in made.plan["stages"] if stage["kind"] == SET_IN_KIND]
    assert stage["title"].endswith("with a seam set in")
    (steps,) = made.steps.values()
    assert [s["id"] for s in steps if s["stage"] == stage["id"] and s["id"].endswith(".set-in")]


def test_strips_round_a_middle_are_sewn_by_a_partial_seam_and_mitres_by_turning(sewn: Sewn) -> None:
    """Where every seam ends on one that runs on, nothing turns: the first seam is finished last. Common practice."""
    ring, spool = steps_of(sewn, "ring of strips"), steps_of(sewn, "spool")
    sewing = [what for what in ring if not what.startswith(("seam", "thread", "press", "strip"))]
    assert [w for w in sewing if w in ("half-seam", "part-2", "part-3", "part-4", "close")] == [
        *("half-seam", "part-2", "part-3", "part-4", "close")
    ]
    assert "set-in" not in ring and "mark" not in ring
    assert {"mark", "set-in"} <= set(spool)
    assert "half-seam" not in spool


RING_WAYS = {
    "alone": lambda ring: ring,
    "in a mirror": lambda ring: {"unit": "mirrored", "inside": ring},
    "in a grid": lambda ring: {
        "unit": "grid",
        "rows": [
            [ring, {"unit": "turned", "inside": ring, "turn": 90}],
            [{"unit": "mirrored", "inside": ring}, ring],
        ],
    },
}


@pytest.mark.parametrize("way", RING_WAYS)
@pytest.mark.parametrize("name", RINGS)
def test_each_whole_seam_of_a_ring_runs_along_a_straight_edge_that_is_there(name: str, way: str) -> None:
    """What is sewn so far, middle and parts before, has one straight edge as long as the seam, and the part another."""
    plan = plan_of(RING_WAYS[way](block(name, 6)))
    rings = [stage.work for stage in plan.stages if stage.work.kind == RING]
    assert rings
    for work in rings:
        for number, seam in list(enumerate(work.seams))[1:]:
            for items in ([work.items[number]], [work.items[-1], work.items[number - 1]]):
                assert abs(touching(items, seam) - abs(seam.end - seam.start)) < 1e-9


def touching(items: Any, seam: SeamLine) -> float:
    """How much of a seam the patches of some items lie along, all of them on one side of it."""
    along = (seam.end - seam.start) / abs(seam.end - seam.start)
    length, sides = 0.0, set()
    for cut in (cut for item in items for cut in walk_patches(item)):
        there = [(corner - seam.start) / along for corner in cut.corners]
        sides |= {there_is.imag > 0 for there_is in there if abs(there_is.imag) > 1e-9}
        on = [place.real for place in there if abs(place.imag) < 1e-9]
        inside = [min(max(place, 0.0), abs(seam.end - seam.start)) for place in on]
        length += max(inside, default=0.0) - min(inside, default=0.0)
    assert len(sides) == 1
    return length


def test_the_first_go_ends_half_way_along_the_middle_and_the_rest_goes_on_to_the_edge(sewn: Sewn) -> None:
    """A ring 6 in wide: the middle is 2 in, the first go 1 in of it, the seam 4 in long."""
    made = sewn(document(block("ring of strips", 6)))
    seam, *others = made.plan["seams"]
    begun, left = (complex(*point) for point in seam["first_go"])
    start, end = (complex(*point) for point in seam["line"])
    assert (abs(left - begun), abs(end - start)) == (1, 4)
    assert begun in (start, end)
    assert not any("first_go" in other for other in others)
    assert [stage["kind"] for stage in made.plan["stages"]] == [RING]


def test_a_part_of_a_ring_that_is_pieced_is_sewn_first(sewn: Sewn) -> None:
    """A middle of four squares and a strip of two pieces: stages of their own, then the ring."""
    _, shapes = BLOCKS["ring of strips"]()
    middle = [
        ([(x, y), (x + h, y), (x + h, y + h), (x, y + h)], "soil")
        for h in (Fraction(1, 2),)
        for x in (1, 1 + h)
        for y in (1, 1 + h)
    ]
    made = sewn(document(unit([*shapes[:4], *middle], 6, 6, 2)))
    assert [stage["kind"] for stage in made.plan["stages"]][-1] == RING
    assert len(made.plan["stages"]) > 1


def steps_of(sewn: Sewn, name: str) -> list[str]:
    (steps,) = sewn(document(block(name, 6))).steps.values()
    return [step["id"].rpartition(".")[2] for step in steps if step["chapter"] == "piecing"]


def patches_of(stage: Stage) -> list[Cut]:
    return [cut for item in stage.work.items for cut in walk_patches(item)]


def test_a_star_is_sewn_as_rows_of_squares_and_geese() -> None:
    """Four geese alike, two rows alike, a middle row, and the rows joined, as it is done by hand."""
    plan = plan_of(block("sawtooth star", 12))
    assert [(stage.count, len(patches_of(stage)), len(stage.seams)) for stage in plan.stages] == [
        (4, 2, 1),
        (4, 3, 1),
        (2, 5, 2),
        (1, 7, 2),
        (1, 17, 2),
    ]
    assert not list(plan.failing)


def test_parts_alike_are_one_stage_across_blocks_and_turns() -> None:
    """The same half-square triangle in two blocks and all four ways: one stage for all of them."""
    top = {"unit": "grid", "rows": [["a", "b"]]}
    blocks = {"a": block("pinwheel", 4), "b": block("broken dishes", 4)}
    plan = plan_of(top, blocks=blocks)
    (stage,) = [stage for stage in plan.stages if len(patches_of(stage)) == 2]
    assert stage.count == 8


@pytest.mark.parametrize("name", STRAIGHT)
def test_rectangular_parts_measure_their_finished_size_and_two_allowances(name: str) -> None:
    """Others measure the box round their cut shape: never less than that."""
    for stage in plan_of(block(name, 12)).stages:
        plain = (stage.work.width + Fraction(1, 2), stage.work.height + Fraction(1, 2))
        if stage.work.slanted:
            assert all(
                size >= least - Fraction(1, 8) for size, least in zip(stage.size.expected, plain, strict=True)
            )
        else:
            assert stage.size.expected == plain


def test_halves_meet_and_nest_as_those_of_the_unit_made_for_it() -> None:
    """An hourglass by its corners: one crossing in the middle, and it nests."""
    plan = plan_of(block("hourglass", 6))
    assert (len(plan.crossings), list(plan.failing)) == (1, [])


def test_a_block_of_one_patch_is_one_cloth() -> None:
    plan = plan_of(unit([([(0, 0), (6, 0), (6, 6), (0, 6)], "leaf")], 6, 6))
    assert [stage.work.kind for stage in plan.stages] == ["whole cloth"]


@pytest.mark.parametrize("name", BLOCKS)
def test_steps_teach_every_stage_and_templates_are_cut_before(name: str, sewn: Sewn) -> None:
    """One measured step a stage; where a template is needed, its file is named in the cutting chapter."""
    made = sewn(document(block(name, 6), tracks=[{"name": "by hand", "has": []}]))
    steps = made.steps["by hand"]
    assert sum(step["size"] is not None for step in steps) == len(made.plan["stages"])
    ids = [step["id"] for step in steps]
    assert len(set(ids)) == len(ids)
    cut = [step for step in steps if step["id"].startswith("cutting.template")]
    needs = bool(read_document(document(block(name, 6))).patch_templates)
    assert bool(cut) is needs
    drawn = [step for step in cut if not step["id"].endswith("-cut")]
    assert bool(drawn) is needs
    assert all(step["files"] == ["templates-by-hand.pdf"] for step in drawn)
    assert all(step["text"].endswith(".") and step["why"].endswith(".") for step in steps)


def test_a_ladder_deeper_than_anybody_sews_is_refused_with_a_reason() -> None:
    """Rounds of logs: each seam lies outside the one before."""
    shapes, left, top, right, bottom = (
        [([(99, 99), (100, 99), (100, 100), (99, 100)], "soil")],
        99,
        99,
        100,
        100,
    )
    for _ in range(50):
        rounds = [
            [(left, top - 1), (right, top - 1), (right, top), (left, top)],
            [(right, top - 1), (right + 1, top - 1), (right + 1, bottom), (right, bottom)],
            [(left, bottom), (right + 1, bottom), (right + 1, bottom + 1), (left, bottom + 1)],
            [(left - 1, top - 1), (left, top - 1), (left, bottom + 1), (left - 1, bottom + 1)],
        ]
        shapes += [(points, "leaf") for points in rounds]
        left, top, right, bottom = left - 1, top - 1, right + 1, bottom + 1
    moved = [([(x - left, y - top) for x, y in points], cloth) for points, cloth in shapes]
    with pytest.raises(CannotMake, match="lie one outside the other"):
        plan_of(unit(moved, right - left, bottom - top))
