"""The sewing job: `sewing.json` for everybody, a step list for every track."""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import replace
from typing import Any

from service.craft.audience import writing_for
from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from service.craft.outlines import Outline, OutlineNotFound, find_outline, read_files
from service.craft.outlines.laid_pieces import lay_pieces
from service.craft.tracks import Track
from workers.recipe import CannotMake, JobInput, MadeFile
from workers.sewing.hoop_plan import find_hoopings
from workers.sewing.plan import measure_for, plan_sewing
from workers.sewing.plan_json import accuracy_object, plan_object
from workers.sewing.steps import step_objects
from workers.sewing.steps.stations import in_order_of, plan_stage_trips
from workers.sewing.steps.step import Lesson

JSON = "application/json"
PLAN, STEPS = "sewing plan", "steps"


def make_sewing_plan(job: JobInput) -> list[MadeFile]:
    """The order of work with sizes and pressing, and what each track's viewers do, step by step.

    Raises `CannotMake` for a document that cannot be sewn, with its first fault.
    """
    try:
        project = read_document(job.document)
    except DocumentFaults as faults:
        first = faults.faults[0]
        raise CannotMake(first.detail, pointer=first.pointer, right=first.right) from faults
    job.progress(0.1, "working out the order of sewing")
    outlines = _find_outlines(job, project)
    rests_on = lay_pieces(project.pieces, outlines).rests_on
    hoopings = find_hoopings(job, project)
    made: list[MadeFile] = []
    steps: dict[Track, MadeFile] = {}
    for audience in (project.audience, *project.other_audiences):
        with writing_for(audience):
            plan = plan_sewing(project)
            trips = plan_stage_trips(plan)
            plan = in_order_of(trips, plan)
            name = project.name_for(audience, "sewing.json")
            made.append(MadeFile(name, JSON, _to_bytes(plan_object(plan, trips)), PLAN))
            for track in project.tracks:
                if project.audience_of(track) == audience:
                    hooped = hoopings.get(track.hoop.label, ()) if track.hoop else ()
                    steps[track] = _list_steps(job, Lesson(plan, track, rests_on, outlines, hooped))
                    done = 0.1 + 0.9 * len(steps) / len(project.tracks)
                    job.progress(done, f"steps for the track {track.name}")
    return [*made, *(steps[track] for track in project.tracks)]


def _list_steps(job: JobInput, lesson: Lesson) -> MadeFile:
    track = lesson.track
    wording = job.wording.get(track.name) or job.wording.get(track.slug) or {}
    measured = measure_for(lesson.plan, lesson.project.accuracy_of(track))
    steps = {
        "track": track.name,
        "accuracy": accuracy_object(measured),
        "steps": step_objects(replace(lesson, plan=measured), wording),
    }
    return MadeFile(f"steps-{track.slug}.json", JSON, _to_bytes(steps), STEPS)


def _find_outlines(job: JobInput, project: Project) -> dict[str, Outline]:
    """The outlines that are there, by piece: the steps can be written without."""
    files, found = read_files(job.outlines), {}
    for piece in project.pieces:
        with suppress(OutlineNotFound):
            found[piece.name] = find_outline(files, piece.outline)
    return found


def _to_bytes(value: dict[str, Any]) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
