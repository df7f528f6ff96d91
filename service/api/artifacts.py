"""Files that were made."""

from __future__ import annotations

from typing import Any

from sqlalchemy.orm import Session

from service.api.access import Circle, caller
from service.api.paging import format_time
from service.api.problems import Problem
from service.api.room import Answer, Room
from service.api.schemas.artifacts import ArtifactDetail, ArtifactList
from service.api.sending import FOR_EVERYBODY, FOR_THE_STUDIO, send_stored
from service.api.tags import found
from service.api.wiring import now, parts
from service.jobs.status import read_project_artifacts
from service.storage.models import Artifact, Project
from service.studio.releases import may_fetch, newest_by_name

room = Room("artifacts", __name__, description="Files that were made.")

BYTES = {"type": "string", "format": "binary"}


@room.route_to("/projects/<id_>/artifacts", "GET", Circle.STUDIO, Answer(200, ArtifactList), refuses=(404,))
def list_artifacts(id_: str) -> Any:
    """List the newest files of a project, one of each name."""
    with parts().database.reading() as session:
        found(session.get(Project, id_), "project", id_)
        newest = newest_by_name(read_project_artifacts(session, id_))
    return {"artifacts": [show_artifact(newest[name]) for name in sorted(newest)]}


@room.route_to("/artifacts/<id_>", "GET", Circle.ANYONE, Answer(200, ArtifactDetail), refuses=(404,))
def get_artifact(id_: str) -> Any:
    """Show what a file is. The public sees the public files of what is released."""
    with parts().database.reading() as session:
        artifact = _fetchable(session, id_)
    return {
        **show_artifact(artifact),
        "project": artifact.project_id,
        "job": artifact.job_id,
        "public": artifact.public,
        "created": format_time(artifact.created_at),
        "links": {"self": f"/api/v1/artifacts/{id_}", "content": f"/api/v1/artifacts/{id_}/content"},
    }


@room.route_to(
    "/artifacts/<id_>/content",
    "GET",
    Circle.ANYONE,
    Answer(200, BYTES, media_type="application/octet-stream", words="The file, in its own media type."),
    Answer(206, BYTES, media_type="application/octet-stream", words="The part that was asked for."),
    Answer(304, words="It has not changed."),
    refuses=(404, 416),
)
def get_content(id_: str) -> Any:
    """Download a file, whole or in part. Its ETag is the sha256 of its bytes."""
    with parts().database.reading() as session:
        artifact = _fetchable(session, id_)
    cache = FOR_EVERYBODY if caller() is None else FOR_THE_STUDIO
    size = artifact.size
    return send_stored(artifact.sha256, artifact.name, artifact.media_type, cache=cache, size=size)


def show_artifact(artifact: Artifact) -> dict[str, Any]:
    """A file as it stands in an answer."""
    return {
        "id": artifact.id,
        "name": artifact.name,
        "kind": artifact.kind,
        "media_type": artifact.media_type,
        "size": artifact.size,
        "sha256": artifact.sha256,
    }


def _fetchable(session: Session, id_: str) -> Artifact:
    """The file, where whoever asks may have it; else it is as if there were none."""
    artifact = session.get(Artifact, id_)
    zone = parts().settings.zone
    if artifact is None or not may_fetch(session, artifact, caller(), now=now(), studio_zone=zone):
        raise Problem(404, f"There is no file with the id {id_}.")
    return artifact
