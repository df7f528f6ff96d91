"""Steps for fields of hexagons: rows sewn from mark to mark, then joined in a zigzag that turns at every point."""

from __future__ import annotations

from service.craft.language import phrase
from workers.sewing.plan import Stage
from workers.sewing.steps.hazards import IRON, NEEDLE
from workers.sewing.steps.line_steps import check_and_trim
from workers.sewing.steps.stage_steps import MACHINE, MARKER, PRESSING, make_copies, step_of
from workers.sewing.steps.step import Facts, Lesson, Step, sentences

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
        *check_and_trim(stage, s, phrase("the points along every edge")),
    ]


def _lay_out(stage: Stage) -> Step:
    facts = stage.work.facts
    return step_of(
        stage,
        "lay",
        sentences(
            _say_lay(facts),
            make_copies(stage),
        ),
        phrase("Laid out first, every cloth is in its place, and no two rows change places."),
    )


def _say_lay(facts: Facts) -> str:
    """What is laid out; half hexagons fill every second row where there are several."""
    if int(facts["rows"]) > 1:
        return phrase(
            "Lay out the {count} hexagons row by row as the drawing shows, with the triangles of {cloth} "
            "along the upper and lower edges and half hexagons of it at the ends of every second row.",
            count=facts["hexagons"],
            cloth=facts["edge"],
        )
    return phrase(
        "Lay out the {count} hexagons row by row as the drawing shows, with the triangles of {cloth} along "
        "the upper and lower edges.",
        count=facts["hexagons"],
        cloth=facts["edge"],
    )


def _mark(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "mark",
        phrase(
            "On the back of every patch mark its corners {allowance} from both edges, but for those on the "
            "edge of the field.",
            allowance=s,
        ),
        phrase("At each of these points three patches meet, and every seam ends there."),
        tools=MARKER,
    )


def _sew_rows(stage: Stage, s: str) -> Step:
    return step_of(
        stage,
        "rows",
        phrase(
            "Sew the hexagons of each row to each other, right sides together, along their upright sides, "
            "with {allowance} allowance. Begin and stop exactly at the marks, and sew two stitches back at "
            "both.",
            allowance=s,
        ),
        phrase("The allowances beyond the marks stay free, so that the next row can turn there."),
        more=phrase(
            "The upright sides lie along the threads of the cloth; the slanting ones are on the bias and "
            "stretch."
        ),
        speaks_of_bias=True,
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _join_rows(stage: Stage) -> Step:
    return step_of(
        stage,
        "join",
        phrase(
            "Join the rows with set-in seams: sew one slanting side from mark to mark, turn there with the "
            "needle down and the foot up, and sew on with the next two sides level, side after side along "
            "the row."
        ),
        phrase("The seam between two rows is a zigzag and turns at every point."),
        more=phrase("Fold the rows out of the way at each turn, so that no allowance is caught."),
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _fill_edges(stage: Stage) -> Step:
    return step_of(
        stage,
        "edges",
        phrase(
            "Set the {cloth} triangles into the hollows along the upper and lower edges in the same way, "
            "and the small ones onto the corners.",
            cloth=stage.work.facts["edge"],
        ),
        phrase("They make the edges straight, so that a border or a binding goes on as on any other top."),
        hazards=(NEEDLE,),
        tools=PINNED,
    )


def _press(stage: Stage) -> Step:
    return step_of(
        stage,
        "press",
        phrase(
            "Press the seams to the sides where their wedges stand in the drawing: round every point they "
            "all fall the same way."
        ),
        phrase(
            "The allowances then whirl round each point and lie flat, where they would pile up otherwise."
        ),
        hazards=(IRON,),
        tools=PRESSING,
    )
