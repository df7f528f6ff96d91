"""Spun seams, copies pressed in two ways, open seams: what is chosen, and what it leaves."""

from __future__ import annotations

import itertools
import random
from collections import Counter
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.document import read_document
from tests.sewing.flattened import count_junctions
from workers.sewing.assemble import assemble
from workers.sewing.nesting import Nested, press_with_spins
from workers.sewing.plan import SewingPlan, plan_sewing
from workers.sewing.pressed import press_seams_of
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Work

PlanOf = Callable[..., SewingPlan]


def look(plan: SewingPlan) -> tuple[int, int]:
    """The junctions of the whole top, and how many do not nest, seen on the flattened top."""
    pressed = {
        work.id: [
            {"press": seam.press, "halves": [{"press": half.press} for half in seam.halves]}
            for seam in press_seams_of(work, plan.nested)
        ]
        for work in plan.nested.works
    }
    return count_junctions(plan.top, pressed)


def test_every_junction_is_seen_and_judged_alike_on_the_flattened_top(
    any_top: dict[str, Any], plan_of: PlanOf
) -> None:
    """As many junctions, and as many that do not nest, as by looking at every place of the whole top."""
    plan = plan_of(any_top)
    counts = {work.id: count for work, count in plan.nested.counts.items()}
    assert look(plan) == (sum(counts[c.work] for c in plan.crossings), plan.nested.failing_in_top)


def test_all_junctions_nest_in_every_top_of_the_collection(any_top: dict[str, Any], plan_of: PlanOf) -> None:
    """But for pieces of one strip set, which are pressed before they are cut apart, zero is possible everywhere."""
    assert look(plan_of(any_top))[1] == 0


def small_tops(units: SimpleNamespace) -> dict[str, Any]:
    """Layouts of two by two and one by three of six cells, all there are of them."""
    half = units.half("frost", "leaf")
    cells = {
        "p": units.patch("soil"),
        "h": half,
        "t": units.turned(half, 90),
        "b": "b",
        "c": units.corners("nw", "se", leg="3/2"),
        "q": units.quarters("frost", "leaf", "frost", "leaf"),
    }
    square = {
        "".join(four): units.grid([cells[four[0]], cells[four[1]]], [cells[four[2]], cells[four[3]]])
        for four in itertools.product("phtbc", repeat=4)
    }
    row = {
        "".join(three): units.grid([cells[c] for c in three]) for three in itertools.product("htbq", repeat=3)
    }
    return square | row


def test_no_small_layout_breaks_more_than_it_must(units: SimpleNamespace) -> None:
    """All 689 layouts: pressed alike, every way of their (at most 16) seams is tried, and none leaves fewer crossings;
    in two ways, none is left, neither in the plan nor on the flattened top."""
    block = units.grid([units.patch("frost", "3", "3/2")], [units.patch("leaf", "3", "3/2")])
    tops = small_tops(units)
    assert len(tops) == 689
    lost = 0
    for name, top in tops.items():
        project = read_document(units.document(top, {"b": block}))
        whole = assemble(project, ClothNames(project.fabrics, project.measure)).piece
        assert isinstance(whole, Work)
        alike = press_with_spins(whole, lambda _seam, _bulk: (0.0, 0.0))
        assert alike.failing_in_top == fewest_of_all_ways(alike), name
        assert alike.pressing.least_proved
        lost += bool(alike.failing)
        plan = plan_sewing(project)
        assert plan.nested.failing == [], name
        assert look(plan)[1] == 0, name
    assert lost > 100


def fewest_of_all_ways(nested: Nested) -> int:
    """The fewest crossings of the top that fail over every way of pressing the seams that meet."""
    seams = sorted({key for c in nested.crossings for key in (c.first, c.second)})
    assert len(seams) <= 16
    place = {seam: i for i, seam in enumerate(seams)}
    counts = {work.id: count for work, count in nested.counts.items()}
    bonds = [(place[c.first], place[c.second], c.alike, counts[c.work]) for c in nested.crossings]
    return min(
        sum(weight * ((way >> a & 1 == way >> b & 1) != alike) for a, b, alike, weight in bonds)
        for way in range(2 ** len(seams))
    )


@pytest.mark.parametrize("size", [(2, 2), (3, 3), (2, 5), (4, 4)])
def test_checkerboards_nest_with_every_seam_to_the_dark(
    units: SimpleNamespace, plan_of: PlanOf, size: tuple[int, int]
) -> None:
    """Pressing every seam to the dark makes all joins of a checkerboard oppose: joomag quilting magazine 5, p. 18."""
    rows, columns = size
    cells = [[units.patch(("frost", "soil")[(i + j) % 2]) for j in range(columns)] for i in range(rows)]
    plan = plan_of(units.document(units.grid(*cells)))
    assert look(plan) == ((rows - 1) * (columns - 1), 0)
    inside = [seam for stage in plan.stages if stage.work.kind == "row" for seam in stage.seams]
    assert {seam.towards for seam in inside} == {"soil brown dot"}


@pytest.mark.parametrize("size", [(2, 2), (3, 3), (4, 5)])
def test_repeated_odd_blocks_nest_in_two_ways(
    units: SimpleNamespace, plan_of: PlanOf, size: tuple[int, int]
) -> None:
    """A block that is no image of itself, side by side with its copies: pressed alike it cannot nest, in two ways it
    can at every junction (common practice, no source)."""
    rows, columns = size
    plan = plan_of(units.document(units.grid(*[["b"] * columns] * rows), {"b": units.odd_block()}))
    junctions, failing = look(plan)
    assert (failing, junctions > 4 * rows * columns) == (0, True)
    assert plan.nested.failing_in_top + sum(stage.other_way for stage in plan.stages) > 0


def test_copies_that_nest_alike_are_pressed_alike(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """With sashing and cornerstones no two blocks meet, so there is one way for each."""
    top = units.grid(*[["b"] * 3] * 3, sashing={"width": "1", "fabric": "soil"}, cornerstones="leaf")
    plan = plan_of(units.document(top, {"b": units.odd_block()}))
    assert [stage.other_way for stage in plan.stages] == [0] * len(plan.stages)
    assert look(plan)[1] == 0


def test_the_middle_of_a_pinwheel_is_spun(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Where four or more seams meet, spin (sewitbetter.com/gallery/tips.htm): eight ends meet there, and going round
    the middle every allowance lies on the same hand."""
    half = units.half("frost", "leaf")
    wheel = units.grid([units.turned(half, 90), units.turned(half, 180)], [half, units.turned(half, 270)])
    plan = plan_of(units.document(wheel))
    (seam,) = plan.stages[-1].seams
    assert (seam.press, seam.layers) == ("spun", 8)
    assert {half.press for half in seam.halves} == {"up", "down"}
    upper, lower = (stage.seams[0].press for stage in plan.stages if stage.work.kind == "row")
    # with the upper seam to the left, anticlockwise has the left half down, the lower seam right, the right half up
    assert (upper, seam.halves[0].press, lower, seam.halves[1].press, seam.clockwise) in (
        ("left", "down", "right", "up", False),
        ("right", "up", "left", "down", True),
    )


def test_a_four_patch_is_spun_and_large_blocks_side_by_side_are_not(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """Four seams meet in both middles; only the four-patch is a small unit."""
    four = units.grid(
        [units.patch("frost"), units.patch("leaf")], [units.patch("leaf"), units.patch("frost")]
    )
    plan = plan_of(units.document(units.grid(["b", "b"], ["b", "b"]), {"b": four}))
    presses = {stage.id: [seam.press for seam in stage.seams] for stage in plan.stages}
    assert presses["block.b"] == ["spun"]
    assert "spun" not in presses["top"]


def test_copies_of_a_spun_unit_nest_without_a_second_way(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Spun, a unit looks alike from all four sides, so its copies nest pressed alike."""
    four = units.grid(
        [units.patch("frost"), units.patch("leaf")], [units.patch("leaf"), units.patch("frost")]
    )
    plan = plan_of(units.document(units.grid(*[["b"] * 3] * 3), {"b": four}))
    assert look(plan)[1] == 0
    assert {stage.id: stage.other_way for stage in plan.stages}["block.b"] == 0


def test_what_is_laid_where_adds_up(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """From every pile as many parts are taken as lie on it."""
    plan = plan_of(units.document(units.grid(*[["b"] * 3] * 3), {"b": units.odd_block()}))
    taken: Counter[tuple[str, int]] = Counter()
    for stage in plan.stages:
        assert sum(pile.count for pile in stage.piles) == stage.count
        for pile in stage.piles:
            for item, number in zip(pile.work.items, pile.takes, strict=False):
                if number:
                    assert isinstance(item.piece, Work)
                    taken[item.piece.stage, number] += pile.count
    assert taken == {
        (stage.id, number): pile.count
        for stage in plan.stages
        for number, pile in enumerate(stage.piles, start=1)
        if len(stage.piles) > 1
    }
    assert taken


def random_top(units: SimpleNamespace, seed: int) -> Any:
    """Nine blocks of two kinds at random, each of four cells at random, turned and mirrored at random."""
    chance = random.Random(seed)
    half, quarter = units.half("frost", "leaf"), units.quarters("frost", "leaf", "soil", "leaf")
    cells = [
        units.patch("soil"),
        units.patch("leaf"),
        half,
        units.turned(half, 90),
        units.corners("nw", leg="1"),
    ]
    cells += [units.corners("nw", "se", leg="3/2"), quarter, units.turned(quarter, 90)]
    blocks = {
        name: units.grid(*[[chance.choice(cells) for _ in range(2)] for _ in range(2)]) for name in ("b", "c")
    }

    def cell() -> Any:
        name, turn = chance.choice("bc"), chance.choice([0, 0, 90, 180, 270])
        laid = units.turned(name, turn) if turn else name
        return units.mirrored(laid) if chance.random() < 0.2 else laid

    return units.document(units.grid(*[[cell() for _ in range(3)] for _ in range(3)]), blocks)


@pytest.mark.parametrize("seed", range(12))
def test_what_is_left_in_a_random_top_is_seen_as_it_is(units: SimpleNamespace, seed: int) -> None:
    """Blocks turned and mirrored at random: the flattened top agrees with the plan on what nests, no way of pressing
    leaves fewer, and pressing alike does not either."""
    project = read_document(random_top(units, seed))
    plan = plan_sewing(project)
    counts = {work.id: count for work, count in plan.nested.counts.items()}
    assert look(plan) == (sum(counts[c.work] for c in plan.crossings), plan.nested.failing_in_top)
    whole = assemble(project, ClothNames(project.fabrics, project.measure)).piece
    assert isinstance(whole, Work)
    assert plan.nested.failing_in_top <= press_with_spins(whole, lambda _s, _b: (0.0, 0.0)).failing_in_top
    assert plan.nested.failing_in_top == plan.nested.at_least
