"""What still stands in the way of a batch for a project."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy.orm import Session

from service.craft.document import read_document
from service.craft.outlines import from_json
from service.craft.readiness import Readiness, check_readiness
from service.craft.swatches import find_missing
from service.storage.models import Project
from service.studio.projects import stored_outlines
from service.studio.swatches import stored_swatches


def check_project(session: Session, project: Project) -> Readiness:
    """The faults and warnings of a stored project with the outlines that are there now."""
    files = {name: from_json(raw) for name, raw in stored_outlines(session, project.id).items()}
    document = read_document(project.document)
    ready = check_readiness(document, files)
    missing = find_missing(document, stored_swatches(session, project.id))
    return replace(ready, warnings=(*ready.warnings, *missing))
