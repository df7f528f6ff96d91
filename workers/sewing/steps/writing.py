"""All steps of a track in working order, as they stand in `steps-<track>.json`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from workers.sewing.plan import SewingPlan
from workers.sewing.plan_json import size_object
from workers.sewing.steps.applique import teach_applique
from workers.sewing.steps.cutting import teach_cutting
from workers.sewing.steps.finishing import teach_finishing
from workers.sewing.steps.hazards import CautionWriter
from workers.sewing.steps.measuring import MeasureWriter
from workers.sewing.steps.piecing import teach_piecing
from workers.sewing.steps.scenes import draw_step_picture
from workers.sewing.steps.step import Lesson, Step
from workers.sewing.steps.terms import TermFinder

FIGURE = re.compile(r"\d")


def list_steps(lesson: Lesson) -> list[Step]:
    """Every step of a track, chapter by chapter."""
    return [
        *teach_cutting(lesson),
        *teach_piecing(lesson),
        *teach_applique(lesson),
        *teach_finishing(lesson),
    ]


def step_objects(lesson: Lesson, wording: Mapping[str, str]) -> list[dict[str, Any]]:
    """The steps as plain JSON. `wording` is the maker's own text by step id; it stands beside the computed one."""
    plan, terms = lesson.plan, TermFinder()
    parts = {chapter: part.title for part in plan.project.parts for chapter in part.covers}
    cautions: dict[str, CautionWriter] = {}
    measuring = MeasureWriter(lesson)
    said: set[str] = set()
    found = []
    for step in list_steps(lesson):
        text, why = _text(step, lesson, said), _why(step, lesson)
        if_not = measuring.write(step.stage) if step.stage and step.measured else ""
        made: dict[str, Any] = {
            "id": step.id,
            "part": parts.get(step.chapter, ""),
            "chapter": step.chapter,
            "stage": step.stage.id if step.stage else None,
            "text": text,
            "why": why,
            "size": _size(step, plan),
            "if_not": if_not,
            "caution": cautions.setdefault(step.chapter, CautionWriter()).write(step.hazards, step.group),
            "tools": list(step.tools),
            "files": list(step.files),
            "heading": step.heading,
            "pieces": list(step.pieces),
            "picture": draw_step_picture(step, lesson),
            "terms": [
                {"term": term, "explanation": meaning}
                for term, meaning in terms.first_uses(f"{_title(step)} {text} {why} {if_not}")
            ]
            if lesson.explains(step.chapter)
            else [],
        }
        if step.id in wording:
            made["wording"] = wording[step.id]
        found.append(made)
    return found


def _title(step: Step) -> str:
    """What stands over the step where it is printed: its terms are explained as well."""
    return step.stage.work.title if step.stage else step.heading


def _text(step: Step, lesson: Lesson, said: set[str]) -> str:
    """The step's text; for those who are new to the chapter with what is said more, each thing once."""
    if not step.more or step.more in said or not lesson.explains(step.chapter):
        return step.text
    said.add(step.more)
    return f"{step.text} {step.more}"


def _why(step: Step, lesson: Lesson) -> str:
    """The reason. Who has done the chapter before is told it where something can hurt or where it gives a figure,
    which was worked out for this project alone.
    """
    return step.why if step.hazards or FIGURE.search(step.why) or lesson.explains(step.chapter) else ""


def _size(step: Step, plan: SewingPlan) -> dict[str, Any] | None:
    if step.stage is None or not step.measured:
        return None
    return size_object(step.stage.size, plan.project.measure)
