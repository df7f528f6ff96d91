"""Points at risk, edges that stretch, and how long a stage takes."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import ceil, sqrt
from types import SimpleNamespace
from typing import Any

import pytest

from service.craft.accuracy import USUAL
from service.craft.pace import USUAL_PACE, Pace
from workers.sewing.minutes import Counts, as_minutes, count_work, estimate_seconds
from workers.sewing.plan import SewingPlan
from workers.sewing.stage_notes import StageNotes

PlanOf = Callable[..., SewingPlan]
Sewn = Callable[..., SimpleNamespace]


def last_notes(plan: SewingPlan) -> StageNotes:
    return plan.notes[plan.stages[-1].id]


def first_notes(plan: SewingPlan) -> StageNotes:
    return plan.notes[plan.stages[0].id]


def test_the_points_of_small_units_are_found_where_they_lie(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """By hand, on the drawing: the tip of a goose and its two corners, the two ends of a half square's seam, the four
    tips of a square on its corner.
    """
    places = {
        "goose": (units.geese(), {3 + 0j, 3j, 6 + 3j}),
        "half": (units.half("soil", "leaf"), {3j, 3 + 0j}),
        "patch": (units.patch("soil"), set()),
        "square": (
            {"unit": "square in a square", "size": ["4", "4"], "inside": "soil", "fabric": "leaf"},
            {2 + 0j, 4 + 2j, 2 + 4j, 2j},
        ),
    }
    for name, (unit, expected) in places.items():
        points = first_notes(plan_of(units.document(unit))).points
        assert {complex(round(p.at.real, 6), round(p.at.imag, 6)) for p in points} == expected, name


def test_the_room_beyond_two_seams_that_cross_square_agrees_with_a_closed_form(
    units: SimpleNamespace, plan_of: PlanOf
) -> None:
    """Two seams at 45 degrees, each off by half a seam: their crossing moves by (d1 + d2)/√2 towards the edge. With the
    cut: variance seam²/4 + habit²/2 + cut². Corner squares are not trimmed, so nothing is cut off that normal curve.
    """
    corners = units.corners("nw", "ne")
    corners["corners"]["size"] = "1 1/2"
    plan = plan_of(units.document(corners | {"size": ["3", "3"]}))
    (point,) = [p for p in first_notes(plan).points if abs(p.at - 1.5) < 1e-6]
    seam, cut, habit = (float(value) for value in (USUAL.seam, USUAL.cut, USUAL.habit))
    deviation = sqrt(seam**2 / 4 + habit**2 / 2 + cut**2)
    low = 0.25 - 2 * deviation
    assert low - 1 / 64 - 0.002 < float(point.low) <= low + 0.002


def test_a_point_is_at_risk_where_the_stated_least_is_not_kept(units: SimpleNamespace, sewn: Sewn) -> None:
    """Careful sewing keeps 7/32; asked for the full quarter, about half of all points come out below it."""
    raw = units.document(units.geese(method="corner squares"))
    usual = sewn(raw).plan["stages"][0]["points"]
    strict = sewn(raw | {"accuracy": {"beyond_points": "1/4"}})
    assert usual and not any(point["at_risk"] for point in usual)
    points = strict.plan["stages"][0]["points"]
    assert all(point["at_risk"] and 0.3 < point["share_below"] < 0.8 for point in points)
    careless = sewn(raw | {"accuracy": {"seam": "1/16"}}).plan["stages"][0]["points"]
    assert any(point["at_risk"] for point in careless)


def test_points_at_risk_are_named_in_a_step_where_no_step_looks_at_them(
    units: SimpleNamespace, sewn: Sewn
) -> None:
    corners = units.corners("nw", "ne")
    corners["corners"]["size"] = "1 1/2"
    raw = units.document(corners | {"size": ["3", "3"]}) | {"accuracy": {"beyond_points": "1/4"}}
    (steps,) = sewn(raw).steps.values()
    (said,) = [step for step in steps if step["id"].endswith(".points")]
    assert "the middle of the upper edge" in said["text"] and "1/4 in" in said["text"]
    goose = units.document(units.geese()) | {"accuracy": {"beyond_points": "1/4"}}
    (steps,) = sewn(goose).steps.values()
    assert [step for step in steps if step["id"].endswith(".points")]


@pytest.mark.parametrize(
    ("what", "sewn_on_bias", "outer", "pinned"),
    [
        ("two", 1, 0, False),
        ("triangles", 1, 0, True),
        ("four", 0, 4, False),
        ("goose", 2, 0, True),
        ("row", 0, 0, False),
    ],
)
def test_edges_on_the_bias_are_those_that_slant_to_the_threads(
    units: SimpleNamespace, plan_of: PlanOf, what: str, sewn_on_bias: int, outer: int, pinned: bool
) -> None:
    """By hand: a square's diagonal is bias. Cut loose it is pinned; sewn in pairs before the cut it has no chance to
    stretch. Four at a time the outer edges are bias (reginasquiltblog.blogspot.com).
    """
    tops: dict[str, dict[str, Any]] = {
        "two": units.half("soil", "leaf"),
        "triangles": units.half("soil", "leaf", method="cut triangles"),
        "four": units.half("soil", "leaf", method="four at a time"),
        "goose": units.geese(),
        "row": units.grid([units.patch("soil"), units.patch("leaf")]),
    }
    notes = first_notes(plan_of(units.document(tops[what])))
    assert (len(notes.bias.sewn), len(notes.bias.outer), notes.pin) == (sewn_on_bias, outer, pinned)


def test_setting_triangles_keep_straight_grain_at_the_outside(units: SimpleNamespace, sewn: Sewn) -> None:
    """Straight grain must lie on the quilt's outer edge (phoebemoon.com, lukas.is-a-geek.org); inside, the short
    sides of side triangles stretch, and so do the edges of rows that they make.
    """
    top = {
        "unit": "on point",
        "rows": [[units.patch("leaf"), units.patch("frost")]],
        "side": "soil",
        "corner": "soil",
    }
    made = sewn(units.document(top))
    rows = [stage for stage in made.plan["stages"] if stage["kind"] == "diagonal row"]
    assert rows and all(row["bias_edges"]["sewn"] and row["bias_edges"]["outer"] for row in rows)
    assert made.plan["stages"][-1]["bias_edges"]["outer"] == []
    (steps,) = made.steps.values()
    ids = [step["id"].rpartition(".")[2] for step in steps]
    assert "bias" in ids and "keep-edges" in ids


def test_minutes_are_counted_from_what_is_done(units: SimpleNamespace, plan_of: PlanOf) -> None:
    """Two rows of three squares of 3 in: 3 cuts and 2 seams of 3 in each, then one seam of 9 in with 2 crossings."""
    first = [units.patch("soil"), units.patch("leaf"), units.patch("soil")]
    second = [units.patch("leaf"), units.patch("soil"), units.patch("leaf")]
    plan = plan_of(units.document(units.grid(first, second)))
    row, _, whole = (plan.notes[stage.id].counts for stage in plan.stages)
    assert row == Counts(cuts=3, seams=2, inches=6.0, pressings=2, pins=0)
    assert whole == Counts(cuts=0, seams=1, inches=9.0, pressings=1, pins=3)
    pace = Pace(*map(Fraction, (10, 20, 1, 5, 3, 2)))
    seconds = estimate_seconds(row, pace)
    assert (seconds.cutting, seconds.sewing) == (30, 40 + 6 + 10)
    assert count_work(plan.stages[0].work, 2, 0, trimmed=True).trimmings == 4


def test_a_beginner_takes_as_much_longer_as_the_document_says(units: SimpleNamespace, sewn: Sewn) -> None:
    """And the whole is the sum of its stages, rounded up once."""
    raw = units.document(units.nine_patch())
    for times in (2, 3):
        plan = sewn(raw | {"pace": {"beginner": times}}).plan
        total = plan["minutes"]["total"]
        assert times * (total["practised"] - 1) < total["beginner"] <= times * total["practised"]
        assert total["practised"] <= sum(stage["minutes"]["practised"] for stage in plan["stages"])
    assert as_minutes(61, USUAL_PACE).practised == ceil(61 / 60)


def test_a_pace_of_nothing_takes_no_time(units: SimpleNamespace, sewn: Sewn) -> None:
    pace = dict.fromkeys(("cut", "seam", "sewing", "press", "pin"), 0)
    plan = sewn(units.document(units.nine_patch()) | {"pace": pace}).plan
    assert plan["minutes"]["total"] == {"practised": 0, "beginner": 0}
