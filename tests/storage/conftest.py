"""A small batch, written row by row: two jobs, one that waits for both, and one that waits for that."""

from datetime import timedelta

import pytest
from sqlalchemy import select

from service.storage import batches
from service.storage.models import Artifact, Batch, Event, Job, JobEdge, Snapshot
from service.storage.times import uuid7

LEASE = timedelta(seconds=30)
KINDS = {"cutting": (), "sewing": (), "handout": ("cutting", "sewing"), "bundle": ("handout",)}


class SmallBatch:
    """The batch, and short ways to act on it at the clock's present moment."""

    def __init__(self, database, clock, cap=3):
        self.database, self.clock, self.cap = database, clock, cap
        now = clock()
        self.id, snapshot = uuid7(now), uuid7(now)
        self.jobs = {kind: uuid7(now) for kind in KINDS}
        with database.writing() as session:
            session.add(Batch(id=self.id, project_ids=["p"], created_at=now))
            session.flush()
            session.add(
                Snapshot(
                    id=snapshot, batch_id=self.id, project_id="p", revision=1, document={}, created_at=now
                )
            )
            session.flush()
            for place, (kind, parents) in enumerate(KINDS.items()):
                session.add(
                    Job(
                        id=self.jobs[kind], batch_id=self.id, snapshot_id=snapshot, project_id="p", kind=kind,
                        position=place, state="held" if parents else "pending", waits_for=len(parents),
                        created_at=now, ready_at=None if parents else now,
                    )
                )  # fmt: skip
            session.flush()
            for kind, parents in KINDS.items():
                session.add_all(JobEdge(parent_id=self.jobs[p], child_id=self.jobs[kind]) for p in parents)

    def claim(self, kind, owner="a"):
        with self.database.writing() as session:
            job = self.jobs[kind]
            return batches.claim(session, job, owner=owner, now=self.clock(), lease=LEASE, cap=self.cap)

    def beat(self, kind, owner="a"):
        with self.database.writing() as session:
            return batches.heartbeat(
                session,
                self.jobs[kind],
                owner=owner,
                now=self.clock(),
                lease=LEASE,
                fraction=0.5,
                message="half",
            )

    def complete(self, kind, owner="a"):
        file = batches.StoredFile(f"{kind}.json", kind, "application/json", "0" * 64, 3, True)
        with self.database.writing() as session:
            freed = batches.complete(
                session, self.jobs[kind], owner=owner, files=[file], input_key="1" * 64, now=self.clock()
            )
        return {kind for kind, id_ in self.jobs.items() if id_ in freed}

    def refuse(self, kind, owner="a"):
        with self.database.writing() as session:
            batches.refuse(
                session, self.jobs[kind], owner=owner, detail="too long", pointer="/pieces/0", right="shorter",
                now=self.clock(),
            )  # fmt: skip

    def fail(self, kind, owner="a"):
        with self.database.writing() as session:
            return batches.fail(
                session, self.jobs[kind], owner=owner, detail="KeyError: 'x'", trace="Traceback…",
                now=self.clock(), cap=self.cap, pause=timedelta(seconds=2),
            )  # fmt: skip

    def give_up(self, kind, owner="a"):
        with self.database.writing() as session:
            batches.give_up(session, self.jobs[kind], owner=owner, now=self.clock())

    def make(self, *kinds):
        for kind in kinds:
            assert self.claim(kind)
            self.complete(kind)

    def job(self, kind):
        with self.database.reading() as session:
            return session.get_one(Job, self.jobs[kind])

    def states(self):
        return {kind: self.job(kind).state for kind in self.jobs}

    def events(self):
        with self.database.reading() as session:
            return session.scalars(select(Event).where(Event.batch_id == self.id).order_by(Event.seq)).all()

    def artifacts(self):
        with self.database.reading() as session:
            return session.scalars(select(Artifact)).all()


@pytest.fixture
def batch(database, clock):
    return SmallBatch(database, clock)


@pytest.fixture
def new_batch(sqlite_database, clock):
    """Makes a fresh batch on SQLite, for tests that need many."""
    return lambda **kw: SmallBatch(sqlite_database, clock, **kw)
