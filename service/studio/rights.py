"""Whether a file may be handed to the public as the sources of its project stand today, not as when it was made."""

from __future__ import annotations

from sqlalchemy.orm import Session

from service.craft.document import Project as Document
from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.rights import find_held_back, find_unstated
from service.storage.models import Artifact, Job, Project, Snapshot


def is_held_back(session: Session, project: Project, artifact: Artifact) -> bool:
    """Whether the public may not have a file now: the project says nothing of whose an outline is, or says since the
    file was made that viewers must own one which the file may show.
    """
    today = _read(project.document)
    if today is None:
        # Kept before a rule was added: what was made of it then was looked at then.
        return False
    if any(find_unstated(today.pieces, today.sources)):
        return True
    made = _read_as_made(session, artifact)
    return made is not None and any(find_held_back(made.pieces, made.sources, today.sources))


def _read_as_made(session: Session, artifact: Artifact) -> Document | None:
    job = session.get(Job, artifact.job_id)
    snapshot = job and session.get(Snapshot, job.snapshot_id)
    return _read(snapshot.document) if snapshot else None


def _read(raw: object) -> Document | None:
    try:
        return read_document(raw)
    except DocumentFaults:
        return None
