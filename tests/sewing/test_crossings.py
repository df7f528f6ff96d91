"""What meets at a seam, and whether it nests."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from types import SimpleNamespace

from service.craft.document import read_document
from workers.sewing.plan import SewingPlan, plan_sewing

PlanOf = Callable[..., SewingPlan]


def failing(plan: SewingPlan) -> list[tuple[str, complex]]:
    return [(crossing.work, crossing.at) for crossing in plan.failing]


def rows_of(plan: SewingPlan, letters: list[str]) -> list[list[str]]:
    """How each row of plain patches is pressed, in the order of the rows, found by their cloths."""
    by_cloths = {
        "".join(item.piece.fabric[0] for item in s.work.items): [seam.press for seam in s.seams]  # type: ignore[union-attr]
        for s in plan.stages
        if s.work.kind == "row"
    }
    return [by_cloths[row] for row in letters]


def test_plain_rows_nest_at_every_crossing(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Four different rows of four: nine crossings, and at each the seams above and below go opposite ways."""
    rows = ["fsll", "sfls", "lsfs", "ffsl"]
    cloth = {"f": "frost", "s": "soil", "l": "leaf"}
    plan = plan_of(units.document(units.grid(*[[units.patch(cloth[c]) for c in row] for row in rows])))
    assert len(plan.crossings) == 9
    pressed = rows_of(plan, rows)
    for above, below in itertools.pairwise(pressed):
        assert all({a, b} == {"left", "right"} for a, b in zip(above, below, strict=True))


def test_rows_whose_seams_do_not_meet_are_free(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Bricks, each row moved by half a brick: no crossing."""
    brick, half = units.patch("soil", "4", "2"), units.patch("frost", "2", "2")
    plan = plan_of(units.document(units.grid([brick, brick], [half, brick, half])))
    assert plan.crossings == ()


def test_diagonals_that_meet_at_a_join_are_looked_at(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Two half-square triangles whose seams meet at a corner of their join nest or are named; side by side, turned."""
    one, other = units.half("frost", "leaf"), units.turned(units.half("frost", "soil"), 90)
    plan = plan_of(units.document(units.grid([one, other])))
    (crossing,) = plan.crossings
    assert crossing.at == 3
    assert failing(plan) == []


def test_parallel_diagonals_do_not_lie_on_each_other(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Laid the same way round, the seams end at different ends of the join: nothing meets."""
    plan = plan_of(units.document(units.grid([units.half("frost", "leaf"), units.half("frost", "soil")])))
    assert plan.crossings == ()


def test_copies_side_by_side_are_pressed_in_two_ways(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]
) -> None:
    """Pressed alike, the row seams of two equal blocks could not nest; one is pressed up, the other down."""
    block = units.grid([units.patch("frost")], [units.patch("leaf")])
    plan = sewn(units.document(units.grid(["b", "b"]), {"b": block})).plan
    assert plan["junctions"]["not_nesting"] == []
    assert plan["junctions"]["pressed_in_turn"] == ["block.b"]
    (stage, _) = plan["stages"]
    assert (stage["count"], stage["pressed_other_way"]) == (2, 1)
    (seam,) = [seam for seam in plan["seams"] if seam["stage"] == "block.b"]
    assert {seam["press"], seam["other_ways"][0]["press"]} == {"up", "down"}


def test_pieces_of_one_strip_set_are_named_with_their_remedy(
    units: SimpleNamespace, sewn: Callable[..., SimpleNamespace]
) -> None:
    """They are pressed before they are cut apart: stacked, no side serves, so the seam is pressed open."""
    piece = units.strips(("frost", "3"), ("soil", "3"))
    plan = sewn(units.document(units.grid([piece], [piece]))).plan
    (fault,) = plan["junctions"]["not_nesting"]
    assert fault["at"] == [3.0, 2.0]
    assert len(set(fault["meeting"])) == 1
    assert "pressed open" in fault["why"]
    assert "pin through both" in fault["help"]
    assert plan["junctions"]["least_proved"] is True
    (seam,) = [seam for seam in plan["seams"] if seam["stage"] != "top"]
    assert seam["press"] == "open"


def test_a_block_beside_itself_half_turned_nests(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A half turn brings the allowance to the other side."""
    block = units.grid([units.patch("frost")], [units.patch("leaf")])
    plan = plan_of(units.document(units.grid(["b", units.turned("b", 180)]), {"b": block}))
    assert len(plan.crossings) == 1
    assert failing(plan) == []


def test_sashing_with_cornerstones_nests_everywhere(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Every seam falls towards the sashing, which makes all of its crossings nest."""
    blocks = [[units.patch("frost")] * 3] * 3
    plan = plan_of(
        units.document(
            units.grid(*blocks, sashing={"width": "1", "fabric": "soil", "around": True}, cornerstones="leaf")
        )
    )
    assert failing(plan) == []
    # each of the six joins between seven courses is crossed by the six seams of its rows; equal pairs are four stages
    assert len(plan.crossings) == 36
    assert {seam.towards for s in plan.stages for seam in s.seams} == {"the sashing"}


def test_border_squares_nest_with_the_first_pair(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Four crossings, where the squares' seams meet the seams of the side strips."""
    border = {"width": "2", "fabric": "soil", "corners": "squares", "corner_fabric": "leaf"}
    plan = plan_of(units.document(units.bordered(units.patch("frost", "6", "6"), border)))
    assert (len(plan.crossings), failing(plan)) == (4, [])
    assert {seam.towards for s in plan.stages for seam in s.seams} == {"the border"}


def test_rows_on_point_nest(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Plain blocks on point: diagonal rows are pressed in turn like straight ones."""
    plan = plan_of(units.document(units.on_point(units.patch("leaf"), 3, 3, units.patch("frost"))))
    assert len(plan.crossings) > 0
    assert failing(plan) == []


def test_small_layouts_break_no_more_crossings_than_they_must(units: SimpleNamespace) -> None:
    """Every way of pressing the (at most twelve) seams of a layout is tried: none nests at more crossings."""
    for top in small_layouts(units):
        plan = plan_sewing(read_document(units.document(top, {"b": units.grid([units.patch("soil")] * 2)})))
        seams = sorted({key for c in plan.crossings for key in (c.first, c.second)})
        assert len(seams) <= 12
        least = min(
            sum(
                (way >> seams.index(c.first) & 1 == way >> seams.index(c.second) & 1) != c.alike
                for c in plan.crossings
            )
            for way in range(2 ** len(seams))
        )
        assert len(failing(plan)) == least
        assert plan.pressing.least_proved


def small_layouts(units: SimpleNamespace) -> list[dict[str, object]]:
    half, other, plain = units.half("frost", "leaf"), units.half("leaf", "soil"), units.patch("frost")
    corner = units.corners("nw", "se", leg="3/2")
    return [
        units.grid([half, units.turned(half, 90)], [units.turned(half, 270), units.turned(half, 180)]),
        units.grid([half, units.turned(other, 90), half], [units.turned(other, 180), plain, other]),
        units.grid(["b", "b"], ["b", "b"]),
        units.grid([corner, units.mirrored(corner)], [units.turned(corner, 90), corner]),
        units.grid([units.on_corner("frost", size=["3", "3"])] * 2, [half, plain]),
    ]
