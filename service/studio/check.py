"""What still stands in the way of a batch for a project."""

from __future__ import annotations

from sqlalchemy.orm import Session

from service.craft.document import read_document
from service.craft.outlines import from_json
from service.craft.readiness import Readiness, check_readiness
from service.storage.models import Project
from service.studio.projects import stored_outlines


def check_project(session: Session, project: Project) -> Readiness:
    """The faults and warnings of a stored project with the outlines that are there now."""
    files = {name: from_json(raw) for name, raw in stored_outlines(session, project.id).items()}
    return check_readiness(read_document(project.document), files)
