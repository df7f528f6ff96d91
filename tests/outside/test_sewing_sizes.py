"""Sizes and pressing of a runner block, against figures of the trade.

The figures of the block are common practice, no source: a three-by-three block of 3 1/2 in finished units measures
11 in unfinished; framed with strips cut 1 1/2 in (the first pair 11 in long, the second 13) it measures 13 in;
with four triangles on its sides 12 1/2 in finished become 17.68 in, 18.18 in unfinished; against a nominal 18 in,
18 1/8 in measured is accepted.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from service.craft.document import read_document
from workers.sewing.plan import SewingPlan, Stage, plan_sewing

UNIT = {
    "unit": "corner squares",
    "size": ["3 1/2", "3 1/2"],
    "fabric": "frost",
    "corners": {"size": "1", "fabric": "leaf"},
}
PLAIN = {"unit": "patch", "size": ["3 1/2", "3 1/2"], "fabric": "frost"}
NINE = {"unit": "grid", "rows": [[UNIT, PLAIN, UNIT], [PLAIN, UNIT, PLAIN], [UNIT, PLAIN, UNIT]]}
FRAMED = {"unit": "bordered", "inside": "nine", "borders": [{"width": "1", "fabric": "soil"}]}
ON_CORNER = {"unit": "square in a square", "inside": "framed", "fabric": "leaf"}


@pytest.fixture(scope="module")
def plan() -> SewingPlan:
    fabrics = {
        "frost": {"name": "frost", "colour": "#eef1ee"},
        "leaf": {"name": "leaf", "colour": "#5f8f4e"},
        "soil": {"name": "soil", "colour": "#5b4636"},
    }
    raw: dict[str, Any] = {"title": "Leek Row", "fabrics": fabrics, "top": ON_CORNER}
    return plan_sewing(read_document(raw | {"blocks": {"nine": NINE, "framed": FRAMED}}))


def stage_of(plan: SewingPlan, stage_id: str) -> Stage:
    return next(stage for stage in plan.stages if stage.id == stage_id)


def measures(stage: Stage) -> tuple[float, float]:
    width, height = stage.size.expected
    return round(float(width), 2), round(float(height), 2)


def test_the_nine_patch_measures_eleven(plan: SewingPlan) -> None:
    """Common practice, no source."""
    assert measures(stage_of(plan, "block.nine")) == (11, 11)


def test_the_frame_adds_two_inches_pair_by_pair(plan: SewingPlan) -> None:
    """The first pair of strips is 11 in long, the second 13. Common practice, no source."""
    first, second = stage_of(plan, "block.framed.border.soil.1.sides"), stage_of(plan, "block.framed")
    assert measures(first) == (13, 11)
    assert measures(second) == (13, 13)
    strips = [item.piece for item in (*first.work.items, *second.work.items)][1::1]
    long_sides = sorted(
        {max(float(s.width), float(s.height)) + 0.5 for s in strips if s.id.startswith("'soil'")}
    )
    assert long_sides == [11, 13]


def test_standing_on_its_corner_it_measures_eighteen_and_a_bit(plan: SewingPlan) -> None:
    """17.68 in finished, 18.18 in unfinished. Common practice, no source; exactly 12.5·√2 and half an inch more."""
    last = plan.stages[-1]
    assert round(float(last.work.width), 2) == 17.68
    assert measures(last) == (18.18, 18.18)


def test_an_eighth_below_is_accepted(plan: SewingPlan) -> None:
    """18 1/8 in measured is fine. Common practice, no source."""
    last = plan.stages[-1]
    assert last.size.low[0] <= Fraction(145, 8) <= last.size.high[0]


def test_five_units_take_twenty_corner_squares(plan: SewingPlan) -> None:
    """Common practice, no source."""
    (units,) = [s for s in plan.stages if s.work.kind == "corner squares"]
    assert (units.count, units.count * len(units.seams)) == (5, 20)


def test_rows_are_pressed_inwards_outwards_inwards_and_nest(plan: SewingPlan) -> None:
    """Towards the plain unit: outer rows inward, middle row outward. Common practice, no source."""
    rows = {
        stage.count: [seam.press for seam in stage.seams] for stage in plan.stages if stage.work.kind == "row"
    }
    assert rows == {2: ["right", "left"], 1: ["left", "right"]}
    assert len([c for c in plan.crossings if c.work == "block.nine"]) == 4
    assert list(plan.failing) == []


def test_a_checkerboard_nests_when_every_seam_falls_to_the_dark() -> None:
    """Pressing to the dark makes all joins of a checkerboard oppose (joomag quilting magazine, issue 5, p. 18)."""
    light, dark = ({"unit": "patch", "size": ["2", "2"], "fabric": f} for f in ("frost", "soil"))
    rows = [[dark if (i + j) % 2 else light for j in range(6)] for i in range(5)]
    fabrics = {"frost": {"name": "frost", "colour": "#eef1ee"}, "soil": {"name": "soil", "colour": "#5b4636"}}
    plan = plan_sewing(
        read_document({"title": "Bed", "fabrics": fabrics, "top": {"unit": "grid", "rows": rows}})
    )
    assert len(plan.crossings) == 4 * 5
    assert list(plan.failing) == []
    towards = {seam.towards for stage in plan.stages if stage.work.kind == "row" for seam in stage.seams}
    assert towards == {"soil"}


def test_three_strips_of_an_inch_and_a_half_test_the_seam() -> None:
    """Three 1 1/2 in strips give exactly 3 1/2 in, the centre exactly 1 in (quiltcentric.com 2012/09/16)."""
    from workers.sewing.steps import list_steps
    from workers.sewing.steps.step import Lesson

    fabrics = {"frost": {"name": "frost"}}
    top = {"unit": "grid", "rows": [[PLAIN, PLAIN]]}
    plan = plan_sewing(read_document({"title": "Bed", "fabrics": fabrics, "top": top}))
    steps = {s.id: s.text for s in list_steps(Lesson(plan, plan.project.tracks[0]))}
    assert "three strips" in steps["piecing.seam-test.cut"]
    assert "1 1/2 in wide" in steps["piecing.seam-test.cut"]
    assert "3 1/2 in across, the middle one 1 in" in steps["piecing.seam-test"]


def test_every_stage_of_the_block_is_given_room_that_grows_with_its_seams(plan: SewingPlan) -> None:
    """1/16 in for a unit, 1/8 in for a block of 12 in, 1/4 in is too much: from memory. This block of nine is 11 in.

    18 1/8 in against 18 is accepted (common practice, no source); what is trimmed last has less room above.
    """
    units = next(stage for stage in plan.stages if stage.work.kind == "corner squares")
    nine, framed, last = (stage_of(plan, "block.nine"), stage_of(plan, "block.framed"), plan.stages[-1])
    room = [float(stage.size.expected[0] - stage.size.low[0]) for stage in (units, nine, framed, last)]
    assert 1 / 16 <= room[0] < 1 / 4
    assert 1 / 8 <= room[1] < 1 / 4
    assert room[1] <= room[2] <= 1 / 4
    assert room[3] >= 1 / 16
