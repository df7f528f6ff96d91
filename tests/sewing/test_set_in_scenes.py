"""Pictures of work that is sewn from mark to mark, and of rings of blades: the right marks, cloths and places."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.drawing.scenes import Scene
from workers.sewing.plan import SewingPlan
from workers.sewing.steps import list_steps
from workers.sewing.steps.scenes.finding import find_scene
from workers.sewing.steps.step import Lesson

PlanOf = Callable[[dict[str, Any]], SewingPlan]


def show(plan: SewingPlan, what: str) -> Scene:
    """The scene of the first step that is called so."""
    lesson = Lesson(plan, plan.project.tracks[0])
    return next(find_scene(s, lesson) for s in list_steps(lesson) if s.stage and s.id.endswith(f".{what}"))


def ring() -> dict[str, Any]:
    return {
        "unit": "fan blade ring",
        "size": ["14", "14"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil"],
        "blades": 20,
        "tips": "pointed",
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "leaf", "size": "3 1/2"},
    }


def test_a_star_is_marked_on_the_back_where_its_seams_turn(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """By hand: two wide corners of each of eight diamonds, one corner of each of four triangles and four squares."""
    scene = show(plan_of(units.document(units.star("leaf", "soil"))), "mark")
    assert len(scene.marks) == 2 * 8 + 4 + 4
    assert all(piece.back for piece in scene.pieces)


def test_hexagons_are_marked_but_for_the_edge_of_their_field(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Three patches meet at every point inside, so marks come in threes; the tips of both outer rows have none."""
    field = units.hexagons(["leaf", "soil"], ["soil"], ["leaf", "leaf"])
    scene = show(plan_of(units.document(field)), "mark")
    tips = [min(piece.points, key=lambda at: at[1]) for piece in scene.pieces if len(piece.points) == 6]
    highest = min(y for _, y in tips)
    assert len(scene.marks) > 0 == len(scene.marks) % 3
    assert all(y > highest + 0.1 for _, y in scene.marks)


def test_the_stitches_of_a_star_are_taken_out_in_its_middle(units: SimpleNamespace, plan_of: PlanOf) -> None:
    [middle] = show(plan_of(units.document(units.star("leaf", "soil"))), "loosen-star").rings
    assert middle == pytest.approx((3, 3))


def test_the_disc_over_a_ring_is_of_the_cloth_of_the_centre(units: SimpleNamespace, plan_of: PlanOf) -> None:
    plan = plan_of(units.document(ring()))
    for what in ("disc-gather", "disc-draw-up", "disc"):
        assert show(plan, what).pieces[0].cloth == "leaf", what
    under, disc = show(plan, "cover").pieces
    assert (under.cloth, disc.cloth) == ("soil", "leaf")


def test_a_ring_lies_on_its_background_in_its_own_blades(units: SimpleNamespace, plan_of: PlanOf) -> None:
    plan = plan_of(units.document(ring()))
    for what in ("place", "pin", "stitch"):
        cloths = [piece.cloth for piece in show(plan, what).pieces]
        assert cloths == ["frost", *["leaf", "soil"] * 10], what
    assert len(show(plan, "pin").pins) == 10


def test_a_quarter_of_a_ring_is_held_to_a_right_angle(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Five of twenty blades: the two lines meet in the middle at 90 degrees, and the quarter lies between them."""
    scene = show(plan_of(units.document(ring())), "look-groups")
    assert len(scene.pieces) == 5
    (a, first), (b, second) = (line for _, line in scene.lines)
    assert a == b == pytest.approx((7, 7))
    one, other = complex(first[0] - 7, first[1] - 7), complex(second[0] - 7, second[1] - 7)
    turn = abs((one.conjugate() * other).imag) / abs(one) / abs(other)
    assert turn == pytest.approx(1)
    for piece in scene.pieces:
        x, y = (sum(axis) / len(piece.points) for axis in zip(*piece.points, strict=True))
        at = complex(x - 7, y - 7)
        assert (one.conjugate() * at).real > 0 and (other.conjugate() * at).real > 0


def test_a_mitre_is_pinned_across_its_own_line(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """The seam that stretches is the slanting one: the pins stand on it, and not along the border."""
    border = {"width": "2", "fabric": "soil", "corners": "mitred"}
    plan = plan_of(units.document(units.bordered(units.patch("leaf", "9", "9"), border)))
    scene = show(plan, "bias")
    [(_, (start, end))] = [line for line in scene.lines if line[0] == "drawn"]
    for x, y in scene.pins:
        off = (x - start[0]) * (end[1] - start[1]) - (y - start[1]) * (end[0] - start[0])
        assert off == pytest.approx(0, abs=1e-6)
