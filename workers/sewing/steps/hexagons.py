"""Steps for fields of hexagons: rows sewn from mark to mark, then joined in a zigzag that turns at every point."""

from __future__ import annotations

from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.small_units import MACHINE, MARKER, PRESSING, make_copies, step_of
from workers.sewing.steps.step import Lesson, Step

PINNED = (*MACHINE, "pins")


def teach_hexagons(stage: Stage, lesson: Lesson) -> list[Step]:
    """Lay out, mark, sew rows, join them where there are several, fill the edges, press, check."""
    s, several = lesson.allowance, int(stage.work.facts["rows"]) > 1
    return [
        _lay_out(stage),
        _mark(stage, s),
        _sew_rows(stage, s),
        *([_join_rows(stage)] if several else []),
        _fill_edges(stage),
        _press(stage),
        *check_and_trim(stage, s, "the points along every edge"),
    ]


def _lay_out(stage: Stage) -> Step:
    facts = stage.work.facts
    halves = " and half hexagons of it at the ends of every second row" if int(facts["rows"]) > 1 else ""
    return step_of(
        stage,
        "lay",
        f"Lay out the {facts['hexagons']} hexagons row by row as the drawing shows, with the triangles of "
        f"{facts['edge']} along the upper and lower edges{halves}.{make_copies(stage)}",
        "Laid out first, every cloth is in its place, and no two rows change places.",
    )


def _mark(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "mark",
        f"On the back of every patch mark its corners {s} from both edges, but for those on the edge of the field.",
        "At each of these points three patches meet, and every seam ends there.",
        tools=MARKER,
    )


def _sew_rows(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "rows",
        f"Sew the hexagons of each row to each other, right sides together, along their upright sides, with {s} "
        "allowance. Begin and stop exactly at the marks, and sew two stitches back at both.",
        "The allowances beyond the marks stay free, so that the next row can turn there.",
        more="The upright sides lie along the threads of the cloth; the slanting ones are on the bias and stretch.",
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _join_rows(stage: Stage) -> Step:
    return step_of(
        stage,
        "join",
        "Join the rows with set-in seams: sew one slanting side from mark to mark, turn there with the needle down and "
        "the foot up, and sew on with the next two sides level, side after side along the row.",
        "The seam between two rows is a zigzag and turns at every point.",
        more="Fold the rows out of the way at each turn, so that no allowance is caught.",
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _fill_edges(stage: Stage) -> Step:
    return step_of(
        stage,
        "edges",
        f"Set the {stage.work.facts['edge']} triangles into the hollows along the upper and lower edges in the same "
        "way, and the small ones onto the corners.",
        "They make the edges straight, so that a border or a binding goes on as on any other top.",
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _press(stage: Stage) -> Step:
    return step_of(
        stage,
        "press",
        "Press the seams to the sides where their wedges stand in the drawing: round every point they all fall the "
        "same way.",
        "The allowances then whirl round each point and lie flat, where they would pile up otherwise.",
        hazards=(IRON,),
        tools=PRESSING,
    )
