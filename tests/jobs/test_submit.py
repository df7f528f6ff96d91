"""Submitting writes a whole batch or nothing, and the batch keeps the documents as they were."""

from collections import Counter
from datetime import date

import pytest
from sqlalchemy import func, select

from service.jobs.plan import UnknownKind
from service.jobs.submit import AT_ONCE, IN_THE_BACKGROUND, USUAL, NothingToDo, submit_batch, submit_release
from service.storage.models import Batch, Event, Job, JobEdge, Outline, Project, Series, Snapshot, Wording
from service.storage.recovery import NotFound


def submit(database, ids, read, clock, **kw):
    with database.writing() as session:
        return submit_batch(session, ids, read=read, now=clock(), **kw)


def count(database, model):
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(model))


def test_a_batch_has_the_planned_jobs_and_edges(database, add_project, document, read, clock):
    batch = submit(database, [add_project(database, document)], read, clock)
    with database.reading() as session:
        jobs = session.scalars(select(Job).where(Job.batch_id == batch.id).order_by(Job.position)).all()
        edges = Counter(session.scalars(select(JobEdge.child_id)))
        events = session.scalars(select(Event)).all()
    assert [job.position for job in jobs] == list(range(11))
    assert {job.id: job.waits_for for job in jobs if job.waits_for} == edges
    assert all(job.state == ("held" if job.waits_for else "pending") for job in jobs)
    assert [(event.seq, event.type, event.data["jobs"]) for event in events] == [(1, "submitted", 11)]


def test_later_edits_do_not_reach_the_batch(database, add_project, document, read, clock):
    id_ = add_project(database, document)
    with database.writing() as session:
        session.add(
            Outline(
                id="o",
                project_id=id_,
                name="leek.svg",
                sha256="0" * 64,
                stored={"shapes": []},
                created_at=clock(),
            )
        )
        session.add(
            Wording(project_id=id_, track="by hand", step_id="s1", text="Pin it.", updated_at=clock())
        )
    batch = submit(database, [id_], read, clock)
    with database.writing() as session:
        project = session.get_one(Project, id_)
        project.document, project.revision = {"title": "Rhubarb"}, 2
        session.get_one(Outline, "o").stored = {"shapes": ["changed"]}
        session.get_one(Wording, (id_, "by hand", "s1")).text = "Glue it."
    with database.reading() as session:
        kept = session.scalars(select(Snapshot).where(Snapshot.batch_id == batch.id)).one()
    assert kept.document == document and kept.revision == 1
    assert kept.outlines == {"leek.svg": {"shapes": []}}
    assert kept.wording == {"by hand": {"s1": "Pin it."}}


def test_a_project_named_twice_counts_once(database, add_project, document, read, clock):
    id_ = add_project(database, document)
    assert submit(database, [id_, id_], read, clock).project_ids == [id_]
    assert count(database, Job) == 11


def test_one_project_is_urgent_and_a_whole_month_is_not(sqlite_database, add_project, document, read, clock):
    ids = [add_project(sqlite_database, document) for _ in range(4)]
    priorities = [submit(sqlite_database, ids[:n], read, clock).priority for n in (1, 2, 4)]
    assert priorities == [AT_ONCE, USUAL, IN_THE_BACKGROUND]
    assert submit(sqlite_database, ids, read, clock, priority=3).priority == 3


def test_some_kinds_alone_can_be_asked_for(database, add_project, document, read, clock):
    batch = submit(database, [add_project(database, document)], read, clock, kinds={"run sheet"})
    with database.reading() as session:
        kinds = session.scalars(select(Job.kind).where(Job.batch_id == batch.id).order_by(Job.position)).all()
        plan = session.scalars(select(Snapshot.plan)).one()
    assert kinds == ["cutting", "sewing", "run sheet"]
    assert batch.kinds == ["run sheet"] and len(plan) == 11


@pytest.mark.parametrize(
    ("ids", "kinds", "error"),
    [([], None, NothingToDo), (["nowhere"], None, NotFound), (None, {"quiche"}, UnknownKind)],
)
def test_what_cannot_be_submitted_writes_nothing(
    database, add_project, document, read, clock, ids, kinds, error
):
    known = add_project(database, document)
    with pytest.raises(error):
        submit(database, [known] if ids is None else ids and [known, *ids], read, clock, kinds=kinds)
    assert [count(database, model) for model in (Batch, Job, Snapshot, Event)] == [0, 0, 0, 0]


def test_a_document_that_cannot_be_read_writes_nothing(database, add_project, document, clock):
    def read(_):
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        submit(database, [add_project(database, document)], read, clock)
    assert count(database, Batch) == 0


def test_a_release_takes_the_projects_of_its_date(database, add_project, document, read, clock):
    with database.writing() as session:
        session.add(Series(id="s", title="Allotment", created_at=clock(), updated_at=clock()))
    january = date(2027, 1, 20)
    wanted = [add_project(database, document, series_id="s", release=january) for _ in range(2)]
    add_project(database, document, series_id="s", release=date(2027, 2, 17))
    add_project(database, document, release=january)
    with database.writing() as session:
        batch = submit_release(session, "s", january, read=read, now=clock())
    assert sorted(batch.project_ids) == sorted(wanted)
    assert (batch.series_id, batch.release) == ("s", january)
    with database.reading() as session:
        assert {s.release for s in session.scalars(select(Snapshot))} == {january}


def test_a_release_without_projects_says_so(sqlite_database, read, clock):
    with sqlite_database.writing() as session:
        session.add(Series(id="s", title="Allotment", created_at=clock(), updated_at=clock()))
        session.flush()
        with pytest.raises(NothingToDo, match="2027-01-20"):
            submit_release(session, "s", date(2027, 1, 20), read=read, now=clock())
        with pytest.raises(NotFound, match="series"):
            submit_release(session, "t", date(2027, 1, 20), read=read, now=clock())
