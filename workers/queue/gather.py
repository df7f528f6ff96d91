"""What one job computes from, the name of that input, and the files made earlier from the same."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.swatches import Swatch
from service.jobs.plan import COLOURWAYS, HANDOUT, RUN_SHEET
from service.storage.batches import StoredFile
from service.storage.canonical import digest
from service.storage.files import FileStore
from service.storage.job_moves import Moved
from service.storage.models import Artifact, Job, JobEdge, JobState, Snapshot
from workers.patience import Left
from workers.recipe import JobInput, Progress, SwatchPicture


@dataclass(frozen=True)
class Gathered:
    """A job's input, its files still by their sha256."""

    kind: str
    track: str | None
    document: dict[str, Any]
    outlines: dict[str, Any]
    swatches: dict[str, Any]
    wording: dict[str, Any]
    tips: list[dict[str, Any]]
    materials: list[dict[str, Any]]
    release: str
    inputs: dict[str, str]

    def name(self, code: str) -> str:
        """The sha256 of everything a recipe can look at and of the code that looks at it."""
        # The order of a document's fields is kept: a recipe may well list fabrics in that order.
        return digest({"code": code, **vars(self)}, keep_order=True)

    def open(self, store: FileStore, progress: Progress, left: Left) -> JobInput:
        """The input as recipes get it; `service.storage.files.MissingObject` for a lost file."""
        return JobInput(
            kind=self.kind,
            document=self.document,
            outlines=self.outlines,
            swatches={
                name: SwatchPicture(Swatch(**stored), store.read(stored["sha256"]))
                for name, stored in self.swatches.items()
            },
            inputs={name: store.read(sha256) for name, sha256 in self.inputs.items()},
            track=self.track,
            release=self.release,
            wording=self.wording,
            tips=self.tips,
            materials=self.materials,
            progress=progress,
            left=left,
        )


def gather(session: Session, job: Moved) -> Gathered:
    """Read the snapshot that the job was submitted with and the files of the jobs it waited for."""
    snapshot = session.get_one(Snapshot, job.snapshot_id)
    files = (
        select(Artifact.name, Artifact.sha256)
        .join(JobEdge, JobEdge.parent_id == Artifact.job_id)
        .where(JobEdge.child_id == job.id)
        .order_by(Artifact.name)
    )
    return Gathered(
        kind=job.kind,
        track=job.track,
        document=snapshot.document,
        outlines=snapshot.outlines,
        swatches=snapshot.swatches if job.kind == COLOURWAYS else {},
        wording=snapshot.wording,
        # only for the jobs that look at them: a new reel of thread makes no handout anew
        tips=snapshot.tips if job.kind in (HANDOUT, RUN_SHEET) else [],
        materials=snapshot.materials if job.kind == COLOURWAYS else [],
        release=snapshot.release.isoformat() if snapshot.release else "",
        inputs={file.name: file.sha256 for file in session.execute(files)},
    )


def find_made(session: Session, store: FileStore, input_key: str) -> list[StoredFile] | None:
    """The files of an earlier job with the same input, if all of them are still there."""
    query = select(Job.id).where(Job.input_key == input_key, Job.state == JobState.COMPLETED)
    job_id = session.scalar(query.order_by(Job.finished_at.desc()).limit(1))
    if job_id is None:
        return None
    artifacts = session.scalars(select(Artifact).where(Artifact.job_id == job_id).order_by(Artifact.name))
    files = [StoredFile(a.name, a.kind, a.media_type, a.sha256, a.size, a.public) for a in artifacts]
    return files if all(store.has(file.sha256, size=file.size) for file in files) else None
