"""What `sewing.json` says of junctions is what comes out when they are looked for with nothing but that file."""

from __future__ import annotations

import copy
import json
from collections import Counter
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from service.craft.document import read_document
from tests.sewing.as_told import ToldPlan
from tests.sewing.conftest import (
    bordered,
    corners,
    document,
    grid,
    half,
    mirrored,
    odd_block,
    on_corner,
    on_point,
    patch,
    quarters,
    star,
    strips,
    turned,
)
from tests.straight_blocks import block
from workers.sewing.plan import plan_sewing
from workers.sewing.plan_json import plan_object
from workers.sewing.steps.stations import in_order_of, plan_stage_trips

SEED = sorted((Path(__file__).parents[2] / "seed_data").glob("*/project.json"))
SASH = {"width": "1", "fabric": "soil"}


def checks(rows: int, columns: int, first: Any, second: Any) -> dict[str, Any]:
    return grid(*[[(first, second)[(x + y) % 2] for x in range(columns)] for y in range(rows)])


@lru_cache
def tell(name: str) -> dict[str, Any]:
    """The plan of one of the tops, as it stands in the file."""
    return read_plan(document(TOPS[name], {"b": odd_block()}))


def read_plan(raw: dict[str, Any]) -> dict[str, Any]:
    plan = plan_sewing(read_document(raw))
    trips = plan_stage_trips(plan)
    return json.loads(json.dumps(plan_object(in_order_of(trips, plan), trips)))


def make_tops() -> dict[str, Any]:
    """Layouts in which seams of copies meet in every way that the plan knows; "b" is a block like no turn of itself."""
    pieced = half("frost", "leaf")
    ring = block("ring of strips", 9)
    mixed = [["b", mirrored("b"), turned("b", 90)], [turned(mirrored("b"), 180), "b", mirrored("b")]]
    piece = strips(("soil", "1"), ("frost", "1"), ("leaf", "1"), cut_into="3")
    return {
        "checkerboard": checks(4, 5, patch("soil"), patch("frost")),
        "checkerboard of halves": checks(4, 4, pieced, turned(pieced, 90)),
        "sashed": grid(
            ["b", "b", "b"], ["b", "b", "b"], sashing=SASH | {"around": True}, cornerstones="leaf"
        ),
        "on point": on_point("b", 3, 3, nine_patch_of_nine()),
        "odd blocks repeated": grid(*[["b"] * 3] * 3),
        "mirrored and mixed": grid(*mixed),
        "turned top": turned(grid(["b", quarters("soil", "frost", "soil", "frost", side="9")]), 90),
        "nine patches": checks(3, 3, nine_patch_of_nine(), "b"),
        "one strip set": grid(*[[piece, turned(piece, 180)]] * 2),
        "stars": grid([star("leaf", "soil", side="9"), "b"], ["b", star("soil", side="9")]),
        "framed": bordered(
            grid(["b", on_corner("frost", size=["9", "9"], method="corner squares")]),
            SASH | {"corners": "mitred"},
            SASH | {"corners": "squares", "corner_fabric": "leaf"},
        ),
        "rings": grid([ring, mirrored(ring)], [turned(ring, 90), "b"]),
    }


def nine_patch_of_nine() -> Any:
    """Five corner-square units and four plain squares, 9 in finished."""
    return checks(3, 3, corners(), patch("frost"))


TOPS = make_tops()


def say_junctions(plan: dict[str, Any]) -> tuple[int, int, Counter[Any]]:
    """How many ways and how many places the plan names, and those that do not nest, with how often each is there."""
    told = plan["junctions"]
    failing: Counter[Any] = Counter()
    for one in told["not_nesting"]:
        failing[one["stage"], one["seam"], _near(complex(*one["at"])), *sorted(one["meeting"])] += one[
            "in_the_top"
        ]
    return told["count"], told["in_the_top"], failing


def find_junctions(plan: dict[str, Any]) -> tuple[int, int, Counter[Any]]:
    """The same, found by looking."""
    told = ToldPlan(plan)
    count = places = 0
    failing: Counter[Any] = Counter()
    for pile, copies in told.count_piles().items():
        for junction in told.find(pile):
            count, places = count + 1, places + copies
            if not junction.nests:
                failing[pile[0], junction.across, _near(junction.at), *sorted(junction.meeting)] += copies
    return count, places, failing


def _near(place: complex) -> tuple[float, float]:
    return round(place.real + 0.0003, 2), round(place.imag + 0.0003, 2)


@pytest.mark.parametrize("path", SEED, ids=lambda path: path.parent.name)
def test_the_junctions_of_the_seed_data_are_those_that_anybody_finds_in_the_file(path: Path) -> None:
    plan = read_plan(json.loads(path.read_text()))
    found = find_junctions(plan)
    assert found == say_junctions(plan)
    assert found[1] > 0


@pytest.mark.parametrize("name", TOPS)
def test_the_junctions_of_a_top_are_those_that_anybody_finds_in_the_file(name: str) -> None:
    plan = tell(name)
    found = find_junctions(plan)
    assert found == say_junctions(plan)
    assert found[1] > 0


@pytest.mark.parametrize("name", TOPS)
def test_every_patch_of_the_top_is_reached_through_the_parts(name: str) -> None:
    """The copies of the piles come to the patches of the whole drawing, and to what the stages count."""
    raw = document(TOPS[name], {"b": odd_block()})
    plan = tell(name)
    stages = {stage["id"]: stage for stage in plan["stages"]}
    counts: Counter[str] = Counter()
    patches = 0
    for (stage, _), copies in ToldPlan(plan).count_piles().items():
        counts[stage] += copies
        patches += copies * sum(not part["stage"] for part in stages[stage]["parts"])
    assert counts == {stage: made["count"] for stage, made in stages.items()}
    assert patches == sum(1 for _ in read_document(raw).top.patches())


def test_a_seam_that_is_said_to_fall_to_the_other_side_is_found_out() -> None:
    """Each seam of the checkerboard's rows, turned in the file alone, leaves junctions that do not nest."""
    plan = tell("checkerboard")
    other = {"left": "right", "right": "left"}
    for number, seam in enumerate(plan["seams"]):
        if seam["press"] in other:
            spoiled = copy.deepcopy(plan)
            spoiled["seams"][number]["press"] = other[seam["press"]]
            assert sum(find_junctions(spoiled)[2].values()) > 0
