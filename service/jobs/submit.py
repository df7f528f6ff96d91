"""Submits projects: one transaction that writes the batch, its jobs and the documents they compute from."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.swatches import fill_colours
from service.jobs.plan import PlannedJob, ProjectView, choose_jobs, plan_jobs
from service.storage.job_moves import add_event
from service.storage.models import (
    Batch,
    Job,
    JobEdge,
    JobState,
    Material,
    Outline,
    Project,
    Reason,
    Series,
    Snapshot,
    Swatch,
    Tip,
    Wording,
)
from service.storage.recovery import NotFound
from service.storage.times import uuid7

AT_ONCE = 0
"""The priority of one project that somebody waits for."""
USUAL = 5
"""The priority of a batch of a few projects."""
IN_THE_BACKGROUND = 9
"""The priority of a whole series."""

ReadDocument = Callable[[Any], ProjectView]
"""Reads a project document: `service.craft.document.read_document`."""


class NothingToDo(ValueError):
    """A submission that names no project."""


@dataclass(frozen=True)
class Order:
    """What is asked for: how urgent, and for a whole release of a series, which."""

    priority: int | None = None
    kinds: Collection[str] | None = None
    series_id: str | None = None
    release: date | None = None


def submit_batch(
    session: Session,
    projects: Sequence[str],
    *,
    read: ReadDocument,
    now: datetime,
    kinds: Collection[str] | None = None,
    priority: int | None = None,
) -> Batch:
    """Submit projects by id. A project named twice counts once.

    Without a `priority` a single project goes first and many go behind. Errors: `NothingToDo`,
    `NotFound`, `service.jobs.plan.UnknownKind`, and whatever `read` says about a document.
    """
    return _submit(session, projects, Order(priority, kinds), read=read, now=now)


def submit_release(
    session: Session,
    series_id: str,
    release: date,
    *,
    read: ReadDocument,
    now: datetime,
    kinds: Collection[str] | None = None,
    priority: int | None = None,
) -> Batch:
    """Submit every project of a series that is released on a date; errors as for `submit_batch`."""
    if session.get(Series, series_id) is None:
        raise NotFound("series", series_id)
    query = select(Project.id).where(Project.series_id == series_id, Project.release == release)
    projects = session.scalars(query.order_by(Project.id)).all()
    if not projects:
        raise NothingToDo(f"the series {series_id} has no project with the release date {release}")
    return _submit(session, projects, Order(priority, kinds, series_id, release), read=read, now=now)


def _submit(
    session: Session, project_ids: Sequence[str], order: Order, *, read: ReadDocument, now: datetime
) -> Batch:
    wanted = list(dict.fromkeys(project_ids))
    if not wanted:
        raise NothingToDo("name at least one project")
    projects = [_find(session, id_) for id_ in wanted]
    full_plans = [plan_jobs(read(project.document)) for project in projects]
    plans = [full if order.kinds is None else choose_jobs(full, order.kinds) for full in full_plans]
    batch = Batch(
        id=uuid7(now),
        project_ids=wanted,
        series_id=order.series_id,
        release=order.release,
        kinds=sorted(order.kinds or ()),
        priority=_priority(len(wanted)) if order.priority is None else order.priority,
        created_at=now,
    )
    session.add(batch)
    session.flush()
    place = 0
    for project, full, plan in zip(projects, full_plans, plans, strict=True):
        snapshot = take_snapshot(session, batch.id, project, full, now)
        _add_jobs(session, batch, snapshot, plan, place, now)
        place += len(plan)
    session.flush()
    add_event(session, batch.id, "submitted", {"jobs": sum(map(len, plans)), "projects": wanted}, now)
    return batch


def _find(session: Session, project_id: str) -> Project:
    project = session.get(Project, project_id)
    if project is None:
        raise NotFound("project", project_id)
    return project


def _priority(projects: int) -> int:
    if projects == 1:
        return AT_ONCE
    return USUAL if projects <= 3 else IN_THE_BACKGROUND


def _add_jobs(
    session: Session, batch: Batch, snapshot: Snapshot, plan: Sequence[PlannedJob], place: int, now: datetime
) -> None:
    ids = {planned.name: uuid7(now) for planned in plan}
    session.add_all(
        _new_job(batch, snapshot, planned, ids[planned.name], position, now)
        for position, planned in enumerate(plan, place)
    )
    session.flush()
    session.add_all(
        JobEdge(parent_id=ids[parent], child_id=ids[planned.name])
        for planned in plan
        for parent in planned.waits_for
    )


def take_snapshot(
    session: Session, batch_id: str, project: Project, plan: Sequence[PlannedJob], now: datetime
) -> Snapshot:
    """Keep a project as it is now, with its outlines and photographs of cloth, the maker's own wording and tips, and
    what the studio owns. Cloths without a colour have that of their photograph from here on.
    """
    swatches = _list_swatches(session, project.id)
    outlines = session.scalars(select(Outline).where(Outline.project_id == project.id).order_by(Outline.name))
    texts = session.scalars(select(Wording).where(Wording.project_id == project.id))
    wording: dict[str, dict[str, str]] = {}
    for text in texts:
        wording.setdefault(text.track, {})[text.step_id] = text.text
    snapshot = Snapshot(
        id=uuid7(now),
        batch_id=batch_id,
        project_id=project.id,
        revision=project.revision,
        release=project.release,
        document=fill_colours(project.document, {n: kept["colour"] for n, kept in swatches.items()}),
        outlines={outline.name: outline.stored for outline in outlines},
        swatches=swatches,
        wording=wording,
        tips=_list_tips(session, project.id),
        materials=_list_materials(session),
        plan=[[planned.name.kind, planned.name.track] for planned in plan],
        created_at=now,
    )
    session.add(snapshot)
    session.flush()
    return snapshot


def _list_swatches(session: Session, project_id: str) -> dict[str, Any]:
    """A project's photographs of cloth by name."""
    kept = session.scalars(select(Swatch).where(Swatch.project_id == project_id).order_by(Swatch.name))
    return {one.name: one.stored for one in kept}


def _list_tips(session: Session, project_id: str) -> list[dict[str, Any]]:
    """A project's tips; `track` is empty for those of every track."""
    query = select(Tip).where(Tip.project_id == project_id)
    tips = session.scalars(query.order_by(Tip.track, Tip.step_id, Tip.place))
    return [{"track": tip.track, "step": tip.step_id, "place": tip.place, "text": tip.text} for tip in tips]


def _list_materials(session: Session) -> list[dict[str, Any]]:
    """What the studio owns, oldest entry first; notes are for people."""
    materials = session.scalars(select(Material).order_by(Material.id))
    return [
        {"name": one.name, "kind": one.kind, **{k: v for k, v in one.data.items() if k != "notes"}}
        for one in materials
    ]


def _new_job(
    batch: Batch, snapshot: Snapshot, planned: PlannedJob, id_: str, position: int, now: datetime
) -> Job:
    waits = len(planned.waits_for)
    return Job(
        id=id_,
        batch_id=batch.id,
        snapshot_id=snapshot.id,
        project_id=snapshot.project_id,
        kind=planned.name.kind,
        track=planned.name.track,
        position=position,
        state=JobState.HELD if waits else JobState.PENDING,
        state_reasons=[Reason.WAITS_FOR_JOBS if waits else Reason.QUEUED],
        message="Waiting for other jobs." if waits else "Waiting for a worker.",
        waits_for=waits,
        priority=batch.priority,
        created_at=now,
        ready_at=None if waits else now,
    )
