"""Releases: what comes out on a date, and the bundle of each track."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.tracks import Track
from service.jobs.status import read_project_artifacts
from service.storage.models import Artifact, Project
from service.studio.embargo import visible
from service.studio.keys import Caller
from service.studio.rights import is_held_back


@dataclass(frozen=True)
class Bundle:
    """What one track of a project downloads; `artifact` is None while it is not made.

    `held_back` says that the public may not have it, whatever the day: whose an outline is says otherwise today.
    """

    project: Project
    track: Track
    artifact: Artifact | None
    held_back: bool = False


@dataclass(frozen=True)
class Release:
    """Everything that comes out on one date."""

    date: date
    projects: tuple[Project, ...]
    bundles: tuple[Bundle, ...]

    def of_track(self, name: str, project_id: str | None = None) -> list[Bundle]:
        """The bundles of the track with that name (or that name in file names), of one project or of all."""
        return [
            bundle
            for bundle in self.bundles
            if name in (bundle.track.name, bundle.track.slug) and project_id in (None, bundle.project.id)
        ]


def visible_projects(
    session: Session, caller: Caller | None, *, now: datetime, studio_zone: ZoneInfo, on: date | None = None
) -> list[Project]:
    """The projects with a release date that whoever asks may know of, by date and age."""
    query = select(Project).where(Project.release.is_not(None)).order_by(Project.release, Project.id)
    if on is not None:
        query = query.where(Project.release == on)
    return [
        project
        for project in session.scalars(query)
        if visible(session, project, caller, now=now, studio_zone=studio_zone)
    ]


def group_by_date(session: Session, projects: Iterable[Project]) -> list[Release]:
    """The releases these projects make up, oldest first."""
    dates: dict[date, list[Project]] = {}
    for project in projects:
        if project.release is not None:
            dates.setdefault(project.release, []).append(project)
    return [
        Release(on, tuple(found), tuple(b for p in found for b in find_bundles(session, p)))
        for on, found in sorted(dates.items())
    ]


def find_bundles(session: Session, project: Project) -> list[Bundle]:
    """The bundle of each track of a project; none for a document that can no longer be read."""
    made = newest_by_name(read_project_artifacts(session, project.id))
    try:
        tracks = read_document(project.document).tracks
    except DocumentFaults:
        # Kept before a rule was added: `check` says what to mend, and the other projects are shown.
        return []
    return [_find_bundle(session, project, track, made) for track in tracks]


def _find_bundle(session: Session, project: Project, track: Track, made: Mapping[str, Artifact]) -> Bundle:
    artifact = made.get(f"bundle-{track.slug}.zip")
    return Bundle(project, track, artifact, artifact is not None and is_held_back(session, project, artifact))


def newest_by_name(artifacts: Sequence[Artifact]) -> dict[str, Artifact]:
    """The artifacts by name; the newest where a name was made by several jobs."""
    return {artifact.name: artifact for artifact in sorted(artifacts, key=lambda a: a.id)}


def may_fetch(
    session: Session, artifact: Artifact, caller: Caller | None, *, now: datetime, studio_zone: ZoneInfo
) -> bool:
    """Whether whoever asks may have a file: the studio any, the public the present public ones of what is out.

    A file of an earlier batch is nothing for the public: what it holds may have been taken back since.
    """
    project = session.get(Project, artifact.project_id)
    if caller is not None:
        return True
    if not artifact.public or project is None:
        return False
    if not visible(session, project, None, now=now, studio_zone=studio_zone):
        return False
    present = newest_by_name(read_project_artifacts(session, project.id))
    if artifact.name not in present or present[artifact.name].id != artifact.id:
        return False
    return not is_held_back(session, project, artifact)
