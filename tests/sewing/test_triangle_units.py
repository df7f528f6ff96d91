"""Flying geese, quarter-square triangles and strip sets: how they are sewn, pressed and counted."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from workers.sewing.plan import SewingPlan, Stage

Sewn = Callable[..., SimpleNamespace]
PlanOf = Callable[..., SewingPlan]
METHODS = ("cut triangles", "corner squares", "four at a time")

GEESE_FLIP = {2: (2.5, 1.5), 3: (3.5, 2.0), 4: (4.5, 2.5), 6: (6.5, 3.5), 8: (8.5, 4.5)}
"""Finished width: unfinished width and height of the unit (canuckquilter.com 2024/03: the rectangle it begins as)."""


def only(plan: SewingPlan, kind: str) -> Stage:
    (stage,) = [stage for stage in plan.stages if stage.work.kind == kind]
    return stage


def texts(made: SimpleNamespace, kind: str) -> dict[str, str]:
    """What is done, by the last word of the step's id."""
    (steps,) = made.steps.values()
    return {s["id"].rpartition(".")[2]: s["text"] for s in steps if f"piecing.{kind}." in s["id"]}


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize(("width", "size"), GEESE_FLIP.items())
def test_a_goose_measures_what_the_rectangle_measures_whatever_the_method(
    units: SimpleNamespace, plan_of: PlanOf, method: str, width: int, size: tuple[float, float]
) -> None:
    stage = only(plan_of(units.document(units.geese(width=str(width), method=method))), "flying geese")
    assert tuple(map(float, stage.size.expected)) == size


@pytest.mark.parametrize("method", METHODS)
def test_geese_are_pressed_away_from_the_goose(units: SimpleNamespace, plan_of: PlanOf, method: str) -> None:
    """Towards the small triangle, also where the goose is the darker cloth (charts of four geese at a time, in
    members.shaw.ca/beverlysquiltingpage ffg and alinequilts.blogspot.com 2011/03)."""
    stage = only(plan_of(units.document(units.geese("soil", "frost", method=method))), "flying geese")
    assert [(seam.press, seam.towards) for seam in stage.seams] == [("up", "frost white")] * 2


def test_geese_stacked_in_a_row_nest_or_are_free(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """The point of one goose meets the long side of the next: nothing lies on anything."""
    plan = plan_of(units.document(units.grid([units.geese()], [units.geese()], [units.geese()])))
    assert not list(plan.failing)


@pytest.mark.parametrize(
    ("count", "squares"), [(1, "1 large square"), (4, "1 large square"), (9, "3 large squares")]
)
def test_four_geese_come_from_one_large_square_and_four_small_ones(
    units: SimpleNamespace, sewn: Sewn, count: int, squares: str
) -> None:
    """As members.shaw.ca/beverlysquiltingpage ffg counts them: whole sets alone."""
    goose = units.geese(method="four at a time")
    said = texts(sewn(units.document(units.grid(*[[goose]] * count))), "flying-geese")["mark"]
    assert squares in said
    assert f"{4 * int(squares[0])} small squares" in said


@pytest.mark.parametrize("method", METHODS)
def test_the_room_over_the_point_of_a_goose_is_checked(
    units: SimpleNamespace, sewn: Sewn, method: str
) -> None:
    """Less than the allowance, and the next seam cuts the point off."""
    said = texts(sewn(units.document(units.geese(method=method))), "flying-geese")
    assert "1/4 in left between the point of the goose and the upper edge" in said["trim"]


def test_opposite_seams_of_two_cloths_nest_in_the_middle(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Two halves of two cloths: both seams fall to the darker cloth, round the middle the same way."""
    plan = plan_of(units.document(units.quarters("frost", "soil", "frost", "soil")))
    stage = only(plan, "quarter-square triangle")
    assert len(plan.crossings) == 1
    assert not list(plan.failing)
    assert [seam.towards for seam in stage.seams[:2]] == ["soil brown dot"] * 2


def test_every_choice_of_cloths_nests_in_the_middle(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """One crossing and two seams: there is always a way."""
    for cloths in ("frost soil leaf frost", "leaf leaf leaf leaf", "soil leaf frost fleece"):
        plan = plan_of(units.document(units.quarters(*cloths.split())))
        assert (len(plan.crossings), list(plan.failing)) == (1, [])


def test_equal_halves_are_pressed_alike(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Out of one pair of squares both halves are one seam when it is pressed. Stacked, two units nest all the same:
    spun in the middle, a unit looks alike from all four sides."""
    two = units.quarters("soil", "frost", "soil", "frost")
    plan = plan_of(units.document(units.grid([two], [two])))
    stage = only(plan, "quarter-square triangle")
    assert len({seam.towards for seam in stage.seams[:2]}) == 1
    assert list(plan.failing) == []
    assert (stage.seams[2].press, stage.count, stage.other_way) == ("spun", 2, 0)


def test_quarter_squares_that_differ_by_a_turn_are_one_work(units: SimpleNamespace, plan_of: PlanOf) -> None:
    turns = ["frost leaf soil soil", "soil frost leaf soil", "soil soil frost leaf", "leaf soil soil frost"]
    plan = plan_of(units.document(units.grid([units.quarters(*turn.split()) for turn in turns])))
    assert only(plan, "quarter-square triangle").count == 4


def test_halves_out_of_pairs_are_as_large_as_squares_for_half_square_triangles(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    """A quarter-square unit is two half-square units laid on each other and cut again: finished + 7/8
    (K. Combs, Formulas for Quilters, 2002)."""
    said = texts(
        sewn(units.document(units.quarters("frost", "soil", "frost", "soil"))), "quarter-square-triangle"
    )
    assert "to 3 7/8 in" in said["trim-halves"]
    assert "You need 1 pair for 1 unit" in said["pair"]


def test_halves_of_three_cloths_are_named_by_their_cloths(units: SimpleNamespace, sewn: Sewn) -> None:
    said = texts(
        sewn(units.document(units.quarters("frost", "leaf", "soil", "soil"))), "quarter-square-triangle"
    )
    assert "1 half of frost white and leek green and 1 half of soil brown dot alone" in said["halves"]


@pytest.mark.parametrize(
    ("width", "strips", "unfinished"), [("2 3/4", 9, 25.25), ("1 7/8", 16, 30.5), ("1", 3, 3.5)]
)
def test_a_set_is_as_wide_as_the_trade_reckons(
    units: SimpleNamespace, plan_of: PlanOf, width: str, strips: int, unfinished: float
) -> None:
    """(w - 1/2) n + 1/2 for strips cut w wide (vickisfabriccreations.blogspot.com 2013/10)."""
    cloths = [(("frost", "leaf")[i % 2], width) for i in range(strips)]
    stage = only(plan_of(units.document(units.strips(*cloths))), "strip set")
    assert float(stage.size.expected[0]) == unfinished


def test_strips_fall_to_the_darker_cloth(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Common practice, no source."""
    three = units.strips(("frost", "1"), ("soil", "1"), ("frost", "1"))
    stage = only(plan_of(units.document(three)), "strip set")
    assert [(seam.press, seam.towards) for seam in stage.seams] == [
        ("right", "soil brown dot"),
        ("left", "soil brown dot"),
    ]


def test_pieces_that_change_ends_in_turn_nest(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """A checker of two-strip pieces, every second one turned: the seams meet and lock at every crossing."""
    piece = units.strips(("frost", "2"), ("soil", "2"))
    plan = plan_of(units.document(units.grid(*[[piece], [units.turned(piece, 180)]] * 2)))
    assert len(plan.crossings) == 3
    assert not list(plan.failing)
    assert only(plan, "strip set").count == 4


def test_sets_and_pieces_are_counted(units: SimpleNamespace, sewn: Sewn, plan_of: PlanOf) -> None:
    """From 20 in come eight pieces of 2 1/2 in: nine pieces take two sets."""
    piece = units.strips(("frost", "1"), ("soil", "2"), length="20")
    raw: dict[str, Any] = units.document(units.grid(*[[piece]] * 9))
    said = texts(sewn(raw), "strip-set")
    assert "You need 2 sets for 9 pieces" in said["lay"]
    assert "it is 3 1/2 in wide" in said["width"]
    assert "9 pieces, each 2 1/2 in high, up to 8 from a set" in said["cut"]
    assert only(plan_of(raw), "strip set").size.expected == (Fraction(7, 2), Fraction(5, 2))
