"""Projects: a document as the maker sent it, its series and its release date."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.document import read_document
from service.craft.faults import DocumentFaults, Fault
from service.storage.batch_state import OPEN
from service.storage.models import Job, Outline, Project, Series, Snapshot
from service.storage.times import uuid7
from service.studio.embargo import has_come, zone_of

OUR_FIELDS = ("id", "series", "release", "revision", "updated")
"""What stands beside the document in an answer, and is no part of it when it comes back."""

DATE_RIGHT = 'a date as year-month-day, for example "2027-01-20", or null'
FIRST_YEAR, LAST_YEAR = 2000, 2199
"""Releases lie between; another year is a slip of the pen."""


class InUse(Exception):
    """Something cannot go because something else needs it."""

    def __init__(self, detail: str, right: str) -> None:
        super().__init__(detail)
        self.detail = detail
        self.right = right


@dataclass(frozen=True)
class Filing:
    """A project as it came in: the document alone, and where it is filed."""

    document: dict[str, Any]
    title: str
    series_id: str | None
    release: date | None


def read_filing(body: Mapping[str, Any], *, id_: str | None = None) -> Filing:
    """Take apart and check what was sent; `DocumentFaults` with every fault in it.

    `id_` is the project it is meant for: a body that names another is at fault.
    """
    document = {name: value for name, value in body.items() if name not in OUR_FIELDS}
    faults: list[Fault] = []
    series_id = _read_series(body.get("series"), faults)
    release = _read_release(body.get("release"), faults)
    if id_ is not None and body.get("id", id_) != id_:
        faults.append(Fault("/id", "this is another project's id", f'"{id_}", or none'))
    try:
        title = read_document(document).title
    except DocumentFaults as why:
        raise DocumentFaults([*why.faults, *faults]) from why
    if faults:
        raise DocumentFaults(faults)
    return Filing(document, title, series_id, release)


def add_project(session: Session, filing: Filing, *, now: datetime) -> Project:
    """Keep a new project."""
    check_series(session, filing)
    project = Project(id=uuid7(now), revision=1, created_at=now, updated_at=now)
    _file(project, filing, now)
    session.add(project)
    session.flush()
    return project


def change_project(session: Session, project: Project, filing: Filing, *, now: datetime) -> None:
    """Replace a project's document and where it is filed."""
    check_series(session, filing)
    _file(project, filing, now)
    project.revision += 1


def check_series(session: Session, filing: Filing) -> None:
    """A `DocumentFaults` where the series a project is filed in does not exist."""
    if filing.series_id is not None and session.get(Series, filing.series_id) is None:
        raise DocumentFaults(
            [Fault("/series", "there is no such series", "the id of a series (GET /series), or null")]
        )


def delete_project(session: Session, project: Project, *, now: datetime, studio_zone: ZoneInfo) -> None:
    """Delete a project with its outlines and wording; `InUse` for one that is out or being made."""
    if project.release is not None and has_come(project.release, zone_of(session, project, studio_zone), now):
        raise InUse(
            f"The project was released on {project.release.isoformat()}.",
            "Give it another release date first, or none; then nobody can fetch it any more.",
        )
    job = session.scalar(select(Job).where(Job.project_id == project.id, Job.state.in_(OPEN)).limit(1))
    if job is not None:
        raise InUse(
            f"The project is being made in the batch {job.batch_id}.",
            "Wait until the batch has ended, or cancel it.",
        )
    session.delete(project)


def show_project(project: Project) -> dict[str, Any]:
    """The document as it was sent, with what we keep beside it."""
    return {**project.document, **_beside(project)}


def show_card(project: Project) -> dict[str, Any]:
    """A project in a list: enough to find it."""
    document = project.document
    tracks = document.get("tracks") or [{"name": "by hand"}]
    return {
        "id": project.id,
        "title": project.title,
        "summary": document.get("summary", ""),
        **_beside(project),
        "tracks": [track["name"].strip() for track in tracks],
    }


def stored_outlines(session: Session, project_id: str) -> dict[str, Any]:
    """The outline files of a project as jobs get them, by name."""
    query = select(Outline).where(Outline.project_id == project_id).order_by(Outline.name)
    return {outline.name: outline.stored for outline in session.scalars(query)}


def is_present(session: Session, snapshot: Snapshot, project: Project) -> bool:
    """Whether what was computed from a snapshot is what would be computed from the project now."""
    if snapshot.revision != project.revision:
        return False
    now = {name: _identity(stored) for name, stored in stored_outlines(session, project.id).items()}
    return now == {name: _identity(stored) for name, stored in snapshot.outlines.items()}


def _identity(stored: dict[str, Any]) -> tuple[str, list[str]]:
    """What an outline file was read from, and what its shapes are called: the maker may rename them."""
    return stored["sha256"], [shape["name"] for shape in stored["shapes"]]


def _beside(project: Project) -> dict[str, Any]:
    return {
        "id": project.id,
        "series": project.series_id,
        "release": project.release.isoformat() if project.release else None,
        "revision": project.revision,
        "updated": project.updated_at.isoformat().replace("+00:00", "Z"),
    }


def _file(project: Project, filing: Filing, now: datetime) -> None:
    project.document = filing.document
    project.title = filing.title
    project.series_id = filing.series_id
    project.release = filing.release
    project.updated_at = now


def _read_series(raw: Any, faults: list[Fault]) -> str | None:
    if raw is None or (isinstance(raw, str) and 0 < len(raw) <= 36):
        return raw
    faults.append(Fault("/series", "this is not the id of a series", "the id of a series, or null"))
    return None


def _read_release(raw: Any, faults: list[Fault]) -> date | None:
    if raw is None:
        return None
    try:
        found = date.fromisoformat(raw) if isinstance(raw, str) else None
    except ValueError:
        found = None
    if found is None or found.isoformat() != raw or not FIRST_YEAR <= found.year <= LAST_YEAR:
        faults.append(Fault("/release", f"{str(raw)[:40]!r} is not the date of a release", DATE_RIGHT))
        return None
    return found
