"""What comes out on which day: for everybody once the day has come, for the studio before."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from marshmallow import ValidationError
from sqlalchemy import select
from sqlalchemy.orm import Session

from service.api.access import Circle, caller
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.artifacts import BundleQuery, ReleaseList, ReleaseSchema
from service.api.schemas.common import DATE_RIGHT, parse_date
from service.api.sending import CHECK_EACH_TIME, FOR_EVERYBODY, send_stored
from service.api.wiring import now, parts
from service.storage.files import MissingObject
from service.storage.models import Artifact, Project
from service.studio.bundles import join_bundles
from service.studio.embargo import seconds_to_next, visible
from service.studio.releases import Bundle, Release, group_by_date, visible_projects

room = Room("releases", __name__, description="What comes out on which day.")

LIST_KEPT_SECONDS = 60
KEPT_JOINED = 200
BYTES = {"type": "string", "format": "binary"}
ZIP = "application/zip"


@room.route_to("/releases", "GET", Circle.ANYONE, Answer(200, ReleaseList))
def list_releases() -> Any:
    """List the releases, oldest first: for the public those whose date has come."""
    with parts().database.reading() as session:
        shown = visible_projects(session, caller(), now=now(), studio_zone=parts().settings.zone)
        releases = [show_release(session, release) for release in group_by_date(session, shown)]
        return {"releases": releases}, {"Cache-Control": _kept(session)}


@room.route_to("/releases/<on>", "GET", Circle.ANYONE, Answer(200, ReleaseSchema), refuses=(404, 422))
def get_release(on: str) -> Any:
    """Show what comes out on a date, with the bundle of each track."""
    with parts().database.reading() as session:
        return show_release(session, _release(session, on)), {"Cache-Control": _kept(session)}


@room.route_to(
    "/releases/<on>/bundles/<track>",
    "GET",
    Circle.ANYONE,
    Answer(200, BYTES, media_type=ZIP),
    Answer(206, BYTES, media_type=ZIP, words="The part that was asked for."),
    Answer(304, words="It has not changed."),
    query=BundleQuery,
    refuses=(404, 409, 416, 422),
)
def get_bundle(query: dict[str, Any], on: str, track: str) -> Any:
    """Download everything of a track for a date, as one zip.

    Where several projects come out that day, each is in a folder of its own; `project` asks for one alone.
    """
    with parts().database.reading() as session:
        release = _release(session, on)
        bundles = release.of_track(track, query["project"])
        if not bundles:
            raise _no_such_track(release, track)
        artifacts = [_made(bundle, on) for bundle in bundles]
    name = f"{on}-{bundles[0].track.slug}.zip"
    alone = len(artifacts) == 1
    sha256 = artifacts[0].sha256 if alone else _joined(bundles, artifacts)
    cache = FOR_EVERYBODY if caller() is None else CHECK_EACH_TIME
    return send_stored(sha256, name, ZIP, cache=cache, size=artifacts[0].size if alone else None)


def show_release(session: Session, release: Release) -> dict[str, Any]:
    """A release as it stands in an answer."""
    moment, zone = now(), parts().settings.zone
    slugs = dict.fromkeys(bundle.track.slug for bundle in release.bundles)
    return {
        "date": release.date.isoformat(),
        "out": all(visible(session, p, None, now=moment, studio_zone=zone) for p in release.projects),
        "projects": [
            {
                "id": project.id,
                "title": project.title,
                "summary": project.document.get("summary", ""),
                "series": project.series_id,
            }
            for project in release.projects
        ],
        "tracks": [_show_track(release, slug) for slug in slugs],
    }


def _show_track(release: Release, slug: str) -> dict[str, Any]:
    bundles = release.of_track(slug)
    track = bundles[0].track
    href = f"/api/v1/releases/{release.date.isoformat()}/bundles/{quote(slug)}"
    made = [(bundle.project, bundle.artifact) for bundle in bundles if _is_out(bundle)]
    return {
        "name": track.name,
        "slug": slug,
        "reading": track.reading,
        "ready": len(made) == len(bundles),
        "href": href,
        "bundles": [
            {
                "project": project.id,
                "title": project.title,
                "size": artifact.size,
                "sha256": artifact.sha256,
                "href": f"{href}?project={project.id}",
            }
            for project, artifact in made
            if artifact is not None
        ],
    }


def _release(session: Session, on: str) -> Release:
    """The release of a date as whoever asks may see it; 404 where nothing of it may be seen."""
    try:
        wanted = parse_date(on)
    except ValidationError as why:
        detail = f'"{on[:40]}" is not a date.'
        raise Problem(422, detail, name="faults", errors=[fault(detail, DATE_RIGHT)]) from why
    zone = parts().settings.zone
    shown = visible_projects(session, caller(), now=now(), studio_zone=zone, on=wanted)
    if not shown:
        raise Problem(404, f"Nothing is released on {wanted.isoformat()}.")
    return group_by_date(session, shown)[0]


def _is_out(bundle: Bundle) -> bool:
    """Whether the bundle is made, and for whoever asks."""
    if bundle.artifact is None:
        return False
    return caller() is not None or (bundle.artifact.public and not bundle.held_back)


def _made(bundle: Bundle, on: str) -> Artifact:
    if bundle.artifact is not None and _is_out(bundle):
        return bundle.artifact
    words = f'The bundle of "{bundle.project.title}" for the track "{bundle.track.name}" is not made yet.'
    if caller() is None:
        raise Problem(404, words)
    right = f"Submit a batch with the project {bundle.project.id}, or see why its bundle failed."
    raise Problem(409, words, name="not-made-yet", errors=[fault(f"{words} It comes out on {on}.", right)])


def _no_such_track(release: Release, track: str) -> Problem:
    names = dict.fromkeys(f'"{bundle.track.name}"' for bundle in release.bundles)
    detail = f'There is no track "{track[:80]}" on {release.date.isoformat()}.'
    return Problem(404, detail, errors=[fault(detail, f"one of: {', '.join(names)}")])


def _joined(bundles: list[Bundle], artifacts: list[Artifact]) -> str:
    """The stored file that holds these bundles together, made when first asked for."""
    key = tuple(f"{b.project.title}\n{a.sha256}" for b, a in zip(bundles, artifacts, strict=True))
    joined = parts().bundles
    if key not in joined:
        try:
            whole = [
                (b.project.title, parts().store.read(a.sha256))
                for b, a in zip(bundles, artifacts, strict=True)
            ]
        except MissingObject as why:
            raise Problem(500, "A bundle is missing from the store. Submit its project again.") from why
        if len(joined) >= KEPT_JOINED:
            joined.clear()
        joined[key] = parts().store.put(join_bundles(whole)).sha256
    return joined[key]


def _kept(session: Session) -> str:
    """How long a list may be kept: by nobody else for the studio, and never past the next release."""
    if caller() is not None:
        return CHECK_EACH_TIME
    dated = session.scalars(select(Project).where(Project.release.is_not(None)))
    wait = seconds_to_next(session, dated, now=now(), studio_zone=parts().settings.zone)
    return f"public, max-age={LIST_KEPT_SECONDS if wait is None else min(LIST_KEPT_SECONDS, wait)}"
