"""Joining long strips and panels takes time, and the minutes count it. All counts by hand, from the cloth's width."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.craft.document import read_document
from service.craft.pace import USUAL_PACE
from workers.sewing.long_strips import count_joins
from workers.sewing.minutes import Counts
from workers.sewing.plan import plan_sewing
from workers.sewing.stage_notes import add_up

from .beds import bed


def test_every_join_of_a_long_border_is_cut_sewn_and_pressed() -> None:
    """Strips of 30 1/2 and 34 1/2 in, 2 1/2 in wide, two of each, from cloth of 20 in: two lengths and a join each."""
    assert count_joins(read_document(bed("30"))) == Counts(
        cuts=8, seams=4, inches=10.0, pressings=4, pins=0, trimmings=0
    )


def test_a_join_on_the_diagonal_is_longer_by_the_root_of_two() -> None:
    """The diagonal of a square of 2 1/2 in (Pythagoras)."""
    joins = count_joins(read_document(bed("30", cutting={"join": "diagonal"})))
    assert joins.inches == pytest.approx(4 * 2.5 * 2**0.5)


def test_strips_within_the_width_of_their_cloth_take_no_joins() -> None:
    assert count_joins(read_document(bed("12"))) == Counts(0, 0, 0.0, 0, 0, 0)


def test_the_time_of_the_whole_top_has_the_joins_in_it() -> None:
    """Eight cuts of 30 s; four seams of 45 s, ten inches of 1 s and four pressings of 25 s: 530 s, 9 minutes."""
    plan = plan_sewing(read_document(bed("30")))
    notes = list(plan.notes.values())
    whole = add_up(notes, count_joins(plan.project), USUAL_PACE)
    without = add_up(notes, Counts(0, 0, 0.0, 0, 0), USUAL_PACE)
    assert whole.joins.practised == 9
    assert without.joins.practised == 0
    assert 8 <= whole.total.practised - without.total.practised <= 9
    slow = replace(USUAL_PACE, seam=USUAL_PACE.seam + 60)
    assert add_up(notes, count_joins(plan.project), slow).joins.practised == 13


def test_a_patch_of_panels_is_cut_as_panels_and_not_once_more() -> None:
    """A square of 30 in from cloth of 20 in: two panels of 15 5/8 in (30 5/8 and
    1/2 in for the seam, halved and up to the next eighth), one seam of 30 in with a pin every 6, one trim across."""
    top = {
        "unit": "grid",
        "rows": [
            [
                {"unit": "patch", "size": ["30 1/8", "30"], "fabric": "soil"},
                {"unit": "patch", "size": ["30 1/8", "30"], "fabric": "leaf"},
            ]
        ],
    }
    plan = plan_sewing(read_document(bed("30") | {"top": top}))
    counts = {stage.work.kind: plan.notes[stage.id].counts for stage in plan.stages}
    panels = counts.pop("panels")
    assert (panels.cuts, panels.seams, panels.pressings, panels.pins) == (2, 1, 1, 5)
    assert panels.trimmings == 1
    [row] = counts.values()
    assert row.cuts == 1
