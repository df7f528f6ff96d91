"""The steps of a track: computed by the sewing job, with the maker's own words beside them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.document import read_document
from service.craft.tracks import Track
from service.jobs.plan import SEWING
from service.jobs.submit import AT_ONCE, submit_batch
from service.storage.batch_state import OPEN
from service.storage.files import FileStore
from service.storage.models import Artifact, Batch, Job, JobState, Project, Snapshot, Wording
from service.studio.projects import is_present
from service.studio.tips import show_tips

LOOKED_BACK = 20
"""So many sewing jobs of a project are looked at for one that fits its present state."""


class NoSuchTrack(LookupError):
    """The project has no such track; `names` are those it has."""

    def __init__(self, name: str, names: list[str]) -> None:
        super().__init__(f'the project has no track "{name}"')
        self.name = name
        self.names = names


class NoSuchStep(LookupError):
    """Own words came for steps that the track does not have. `places` says which of those sent."""

    def __init__(self, places: list[tuple[int, str]]) -> None:
        super().__init__(f"{len(places)} steps are not in the track")
        self.places = places


@dataclass(frozen=True)
class Computed:
    """The computed steps of one track; `everywhere` are the texts of every track's steps by their ids."""

    steps: list[dict[str, Any]]
    batch_id: str
    revision: int
    everywhere: dict[str, list[str]] = field(default_factory=dict)

    @property
    def texts(self) -> dict[str, list[str]]:
        """The texts of this track's steps by their ids."""
        return {step["id"]: [step["text"]] for step in self.steps}


def find_track(project: Project, name: str) -> Track:
    """The track of that name, or with that name in its file names; `NoSuchTrack`."""
    tracks = read_document(project.document).tracks
    for track in tracks:
        if name.strip() in (track.name, track.slug):
            return track
    raise NoSuchTrack(name, [track.name for track in tracks])


def find_sewing_job(session: Session, project: Project) -> Job | None:
    """The sewing job of the project as it is now: a completed one first, else the newest one."""
    query = (
        select(Job, Snapshot)
        .join(Snapshot, Job.snapshot_id == Snapshot.id)
        .where(Job.project_id == project.id, Job.kind == SEWING, Job.state != JobState.CANCELED)
        .order_by(Job.id.desc())
        .limit(LOOKED_BACK)
    )
    jobs = [job for job, snapshot in session.execute(query) if is_present(session, snapshot, project)]
    done = [job for job in jobs if job.state == JobState.COMPLETED]
    going = [job for job in jobs if job.state in OPEN]
    return next(iter((*done, *going, *jobs)), None)


def order_steps(session: Session, project: Project, *, now: datetime) -> Batch:
    """Submit the sewing of one project alone, before everything else."""
    return submit_batch(session, [project.id], read=read_document, now=now, kinds=(SEWING,), priority=AT_ONCE)


def read_computed(session: Session, store: FileStore, job: Job, track: Track) -> Computed | None:
    """What a completed sewing job made for a track; None where it made no steps for it."""
    query = select(Artifact).where(Artifact.job_id == job.id, Artifact.name.startswith("steps-"))
    made = {one.name: json.loads(store.read(one.sha256))["steps"] for one in session.scalars(query)}
    steps = made.get(f"steps-{track.slug}.json")
    if steps is None:
        return None
    everywhere: dict[str, list[str]] = {}
    for step in (step for steps_of_one in made.values() for step in steps_of_one):
        everywhere.setdefault(step["id"], []).append(step["text"])
    snapshot = session.get_one(Snapshot, job.snapshot_id)
    return Computed(steps, job.batch_id, snapshot.revision, everywhere)


def show_steps(session: Session, project: Project, track: Track, computed: Computed) -> dict[str, Any]:
    """The computed steps with the maker's words beside them, and words whose step is gone."""
    own = {wording.step_id: wording for wording in _wordings(session, project, track)}
    steps = [{**step, "wording": _beside(own.pop(step["id"], None), step["text"])} for step in computed.steps]
    left = [{"id": w.step_id, "text": w.text, "written_beside": w.computed_text} for w in own.values()]
    return {
        "track": track.name,
        "computed_from": {"batch": computed.batch_id, "revision": computed.revision},
        "steps": steps,
        "left_over": left,
        "tips": show_tips(session, project, track, computed.texts, computed.everywhere),
    }


def keep_wording(
    session: Session,
    project: Project,
    track: Track,
    computed: Computed,
    texts: list[Mapping[str, str | None]],
    *,
    now: datetime,
) -> None:
    """Keep the maker's words for the steps that are named; the words of other steps stay.

    Null, nothing, or the computed text itself take own words away. `NoSuchStep` names every step there is
    not, and then nothing is kept.
    """
    beside = {step["id"]: step["text"] for step in computed.steps}
    own = {wording.step_id: wording for wording in _wordings(session, project, track)}
    unknown = [
        (place, str(t["id"])) for place, t in enumerate(texts) if t["id"] not in beside and t["id"] not in own
    ]
    if unknown:
        raise NoSuchStep(unknown)
    for entry in texts:
        step_id, text = str(entry["id"]), (entry["text"] or "").strip()
        kept = own.get(step_id)
        if not text or text == beside.get(step_id):
            if kept is not None:
                session.delete(kept)
            continue
        if kept is None:
            kept = own[step_id] = Wording(project_id=project.id, track=track.name, step_id=step_id)
            session.add(kept)
        kept.text, kept.updated_at = text, now
        kept.computed_text = beside.get(step_id, kept.computed_text or "")
    session.flush()


def _wordings(session: Session, project: Project, track: Track) -> list[Wording]:
    query = select(Wording).where(Wording.project_id == project.id, Wording.track == track.name)
    return list(session.scalars(query.order_by(Wording.step_id)))


def _beside(wording: Wording | None, computed_text: str) -> dict[str, Any] | None:
    if wording is None:
        return None
    changed = wording.computed_text != computed_text
    return {"text": wording.text, "written_beside": wording.computed_text, "changed_since": changed}
