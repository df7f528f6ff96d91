"""Whether the steps of a unit can be done in their order, each with what lies on the table by then.

How a unit is sewn is common practice, no source; the sides that seams are pressed to are held against the plan.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import pytest

Sewn = Callable[..., SimpleNamespace]
Steps = list[dict[str, Any]]


def list_steps(made: SimpleNamespace, kind: str) -> Steps:
    """The steps of the first stage of a kind, on the first track."""
    stage = next(stage["id"] for stage in made.plan["stages"] if stage["kind"] == kind)
    return [step for step in next(iter(made.steps.values())) if step["stage"] == stage]


def names_of(steps: Steps) -> list[str]:
    """What the steps are called."""
    return [step["id"].rpartition(".")[2] for step in steps]


def texts_of(steps: Steps) -> dict[str, str]:
    """Their texts by what they are called."""
    return dict(zip(names_of(steps), (step["text"] for step in steps), strict=True))


def test_a_flipped_corner_lies_in_its_place_before_the_next_square_comes(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """Folded back to be trimmed, it is turned out again; its allowance is cut narrower only once it is one."""
    steps = list_steps(sewn(units.document(units.geese(method="corner squares"))), "flying geese")
    order = names_of(steps)
    assert order.index("cut-back") < order.index("unfold") < order.index("lay-second")
    assert order.index("cut-second") < order.index("unfold-second")
    for what, after in (("grade", "cut-back"), ("grade-second", "cut-second")):
        assert what not in order or order.index(what) == order.index(after) + 1


def test_the_corners_of_a_flipped_square_that_overlap_are_sewn_in_two_rounds(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """The first two are trimmed and turned out before the other two are laid on them."""
    top = units.on_corner("frost", size=["6", "6"], method="corner squares")
    steps = texts_of(list_steps(sewn(units.document(top)), "square in a square"))
    assert "two opposite corners first" in steps["lay"]
    assert list(steps).index("unfold") < list(steps).index("others")
    assert "the other two corners in the same way as the first two" in steps["others"]


@pytest.mark.parametrize("kind", ["square in a square", "diamond"])
def test_the_first_two_triangles_are_pressed_as_the_plan_says(
    kind: str, units: SimpleNamespace, sewn: Sewn
) -> None:
    """Their seams are those with even numbers; nothing is pressed one way and then the other."""
    top = units.diamond() if kind == "diamond" else units.on_corner("soil", "frost", size=["6", "6"])
    made = sewn(units.document(top))
    (stage,) = [stage for stage in made.plan["stages"] if stage["kind"] == kind]
    seams = {seam["id"]: seam for seam in made.plan["seams"]}
    steps = texts_of(list_steps(made, kind))
    for what, first in (("press-two", 0), ("press", 1)):
        towards = {seams[name]["towards"] for name in stage["seams"][first::2]}
        assert len(towards) == 1
        assert steps[what].startswith(f"Press these seams towards the {towards.pop().removeprefix('the ')}.")


def test_the_two_sides_of_a_goose_are_pressed_one_by_one(units: SimpleNamespace, sewn: Sewn) -> None:
    """The left triangle is pressed before the right one is sewn on across its seam."""
    steps = list_steps(sewn(units.document(units.geese())), "flying geese")
    said, order = texts_of(steps), names_of(steps)
    assert order.index("sew") < order.index("press-first") < order.index("second") < order.index("press")
    assert said["press-first"].startswith("Press the left seam towards")
    assert said["press"].startswith("Press the right seam towards")


@pytest.mark.parametrize(
    ("cloths", "order"),
    [
        ("frost soil", "Sew the two strips to each other"),
        ("frost soil leaf", "one after the other. Begin each seam where"),
        ("frost soil leaf frost", "two by two, then the pairs. Begin each seam where"),
    ],
)
def test_strips_of_a_set_are_joined_by_their_count(
    cloths: str, order: str, units: SimpleNamespace, sewn: Sewn
) -> None:
    """Two have one seam, three make no pairs."""
    piece = units.strips(*((cloth, "2") for cloth in cloths.split()))
    assert order in texts_of(list_steps(sewn(units.document(piece)), "strip set"))["sew"]


def test_edges_on_the_bias_are_pinned_when_they_lie_on_each_other(
    any_top: dict[str, Any], sewn: Sewn
) -> None:
    """The step about them comes after the parts are laid out, and right before a seam."""
    (steps,) = sewn(any_top).steps.values()
    for place, step in enumerate(steps):
        if step["id"].endswith(".bias"):
            after = [other for other in steps[place + 1 :] if other["stage"] == step["stage"]]
            assert "sewing machine" in next(o for o in after if not o["id"].endswith(".keep-points"))["tools"]
            assert not any(other["id"].endswith(".lay") for other in after)


def test_stages_say_how_many_are_made_and_whether_all_alike(any_top: dict[str, Any], sewn: Sewn) -> None:
    """Of rows and what is joined of them; copies on several piles are not alike."""
    made = sewn(any_top)
    (steps,) = made.steps.values()
    stages = {stage["id"]: stage for stage in made.plan["stages"]}
    for step in steps:
        stage = stages.get(step["stage"])
        if stage and step["id"].endswith(".lay") and stage["kind"] in ("row", "rows"):
            told = re.search(r"Make (\d+)(, all alike)?\.", step["text"])
            assert (int(told[1]) if told else 1) == stage["count"]
            assert told is None or (told[2] is None) == (len(stage["piles"]) > 1)


def test_border_strips_are_said_to_be_as_long_as_the_table_cuts_them(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """Three rows of two 6 in blocks on point: 3 · 6 · √2 + 1/2 = 25.96 in, and the cut is the next eighth."""
    top = units.bordered(
        units.on_point(units.patch("frost", "6", "6"), 3, 2), {"width": "1", "fabric": "leaf"}
    )
    (steps,) = sewn(units.document(top)).steps.values()
    trims = [step["why"] for step in steps if step["id"].endswith(".trim-strips")]
    assert trims[0].startswith("They were cut to 26 in.")  # 3 · 6 · √2 + 1/2 = 25.96


def test_the_seams_of_a_star_can_turn_before_they_are_pressed(units: SimpleNamespace, sewn: Sewn) -> None:
    """Taking stitches out is a step by itself, with its tool and its caution."""
    steps = list_steps(sewn(units.document(units.star("leaf", "soil"))), "eight-pointed star")
    order = names_of(steps)
    loosen = steps[order.index("loosen-star")]
    assert order[order.index("loosen-star") + 1] == "press-diamonds"
    assert loosen["tools"] == ["seam ripper"] and "Seam ripper" in loosen["caution"]


def test_a_corner_is_measured_from_its_edges_and_a_tip_beyond_itself(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """In a corner the seam runs out of the unit: there is no tip to measure from."""
    beginner = {"tracks": [{"name": "by hand", "has": [], "reading": "new to piecing"}]}
    half, goose = (
        texts_of(list_steps(sewn(units.document(top, **beginner)), top["unit"]))
        for top in (units.half("frost", "soil"), units.geese())
    )
    assert half["points"].startswith("At the bottom left corner and the top right corner lay the 1/4 in line")
    assert goose["points"].startswith("Measure beyond the 3 points at")
