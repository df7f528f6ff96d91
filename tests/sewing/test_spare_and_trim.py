"""Choices of a unit that the sewing has to know: spare triangles of corner squares, units cut to be trimmed."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

Sewn = Callable[..., SimpleNamespace]


def texts(made: SimpleNamespace) -> dict[str, str]:
    (steps,) = made.steps.values()
    return {step["id"].rpartition(".")[2]: step["text"] for step in steps if step["stage"]}


def spare(units: SimpleNamespace, **more: Any) -> dict[str, Any]:
    return units.corners(**more) | {"spare_triangles": True}


def test_the_spare_units_of_corner_squares_stand_in_the_plan_with_their_size(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """A corner of 3 1/2 finished is cut 4 and leaves 3 unfinished (katiemaequilts.com): two units of four corners."""
    made = sewn(units.document(units.grid([spare(units, side="7", leg="3 1/2")] * 2)))
    [stage] = [s for s in made.plan["stages"] if s["kind"] == "corner squares"]
    assert (stage["count"], stage["spare"]["count"]) == (2, 8)
    assert (stage["spare"]["size"]["text"], stage["spare"]["finished"]["text"]) == ("3 in", "2 1/2 in")


def test_the_steps_sew_a_second_seam_cut_between_and_trim(units: SimpleNamespace, sewn: Sewn) -> None:
    """The second seam two allowances outside, the cut in the middle of both."""
    made = sewn(units.document(units.grid([spare(units, side="7", leg="3 1/2")] * 2)))
    said = texts(made)
    assert "1/2 in outside the first" in said["sew-again"]
    assert "midway between the two seams, 1/4 in from each" in said["trim"]
    assert "to 3 in by 3 in" in said["spare"] and "8 spare half-square triangles" in said["press-spare"]
    order = list(said)
    assert order.index("sew") < order.index("sew-again") < order.index("press") < order.index("trim")


def test_without_the_choice_nothing_is_said_of_spare_units(units: SimpleNamespace, sewn: Sewn) -> None:
    made = sewn(units.document(units.grid([units.corners()] * 2)))
    assert all(stage["spare"] is None for stage in made.plan["stages"])
    assert not {"sew-again", "spare"} & texts(made).keys()


def test_a_corner_too_small_leaves_none(units: SimpleNamespace, sewn: Sewn) -> None:
    """A leg of 1 in is cut 1 1/2: 1/2 in would be left, which is all allowance."""
    made = sewn(units.document(units.grid([spare(units, leg="1")] * 2)))
    assert all(stage["spare"] is None for stage in made.plan["stages"])


def test_units_with_and_without_spare_triangles_are_two_stages(units: SimpleNamespace, sewn: Sewn) -> None:
    """They are sewn differently, so each has its steps."""
    top = units.grid([units.corners(side="7", leg="3"), spare(units, side="7", leg="3")])
    stages = [s for s in sewn(units.document(top)).plan["stages"] if s["kind"] == "corner squares"]
    assert [(s["count"], s["spare"] is None) for s in stages] in (
        [(1, True), (1, False)],
        [(1, False), (1, True)],
    )


def test_triangles_cut_to_be_trimmed_are_a_stage_of_their_own(units: SimpleNamespace, sewn: Sewn) -> None:
    """Exact and oversize squares do not mix, and both are trimmed to one size."""
    plain = units.half("leaf", "frost")
    made = sewn(units.document(units.grid([plain, plain | {"trim": "oversize"}])))
    stages = [s for s in made.plan["stages"] if s["kind"] == "half-square triangle"]
    assert len(stages) == 2
    assert {s["size"]["width"]["text"] for s in stages} == {"3 1/2 in"}
    (steps,) = made.steps.values()
    trims = [step for step in steps if step["id"].endswith(".trim")]
    assert len({step["why"] for step in trims}) == 2 and all(step["size"] for step in trims)
